"""Both paddle shafts against torsion, and against bending and torsion, mixing and jammed."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

import numpy as np

from mixerkit.cases import Case
from mixerkit.checks import Check, Say
from mixerkit.parts import shaft, spurgear
from mixerkit.tables import next_up, table

__all__ = ["checks", "needed_diameters", "next_stock"]

_CODE = "0.30 Sy or 0.18 Su, a quarter off for a keyway: ASME B17c (1927) as quoted in handbooks"
_YIELD = "von Mises on yield, Shigley 10th ed., eq. 5-15; factor: common practice"


@dataclass(frozen=True)
class _Rule:
    """What one rule asks of a shaft, over the states."""

    name: str
    diameter: np.ndarray
    torque: np.ndarray
    moment: np.ndarray | None
    where: np.ndarray
    limit: tuple[str, float]
    source: str


def needed_diameters(case: Case, number: int) -> dict[str, float]:
    """Diameter in mm that each rule asks of a shaft, in the state that asks most.

    Parameters
    ----------
    case : Case
    number : int
        1 or 2.

    Returns
    -------
    dict of str to float
    """
    return {rule.name: float(rule.diameter[rule.where].max()) for rule in _rules(case, number)}


def next_stock(diameter: float, system: str) -> float:
    """Next round bar in stock in mm that is at least a diameter, infinite above the list."""
    sizes = [row.plain["diameter"] for row in table("stock_round") if row.plain["series"] == system]
    return float(next_up(diameter, np.array(sizes)))


def checks(case: Case) -> list[Check]:
    """Check both shafts by every rule.

    Parameters
    ----------
    case : Case

    Returns
    -------
    list of Check
    """
    return [_check(case, number, rule) for number in (1, 2) for rule in _rules(case, number)]


def _rules(case: Case, number: int) -> list[_Rule]:
    one = getattr(case.plain, f"shaft_{number}")
    steel = table("materials").find(one.material).plain
    # between the box and the gears shaft 1 carries everything; shaft 2 carries its own paddles
    at_gears = case.flow.slow if number == 1 else case.flow.paddles[1]
    in_trough = case.flow.paddles[number - 1]
    gears, trough = _gear_moment(case, number), _paddle_moment(case, in_trough)
    stress = shaft.equivalent_stress.plain
    governed = stress(gears, at_gears, one.diameter) > stress(trough, in_trough, one.diameter)
    moment, torque = np.where(governed, gears, trough), np.where(governed, at_gears, in_trough)
    most = np.maximum(at_gears, in_trough)
    allowed = float(
        shaft.allowed_shear_stress.plain(
            steel["yield_strength"], steel["tensile_strength"], one.keyway
        )
    )
    proof = steel["yield_strength"] / case.plain.safety.shaft_in_jam
    code, yielding = ("allowed shear", allowed), ("yield over the wanted factor", proof)
    return [
        _Rule(
            "torsion while mixing",
            shaft.diameter_for_torsion.plain(most, allowed),
            most,
            None,
            case.mixing,
            code,
            _CODE,
        ),
        _Rule(
            "torsion in a jam",
            shaft.diameter_for_torsion.plain(most, proof * shaft.SHEAR_YIELD),
            most,
            None,
            case.jammed,
            yielding,
            _YIELD,
        ),
        _Rule(
            "bending with torsion while mixing",
            shaft.diameter_for_bending_and_torsion.plain(moment, torque, allowed),
            torque,
            moment,
            case.mixing,
            code,
            _CODE,
        ),
        _Rule(
            "bending with torsion in a jam",
            shaft.diameter_for_equivalent_stress.plain(moment, torque, proof),
            torque,
            moment,
            case.jammed,
            yielding,
            _YIELD,
        ),
    ]


def _check(case: Case, number: int, rule: _Rule) -> Check:

    def reason(i: int, say: Say) -> str:
        bend = f", M = {say(rule.moment[i], 'N*m')}" if rule.moment is not None else ""
        return (
            f"T = {say(rule.torque[i], 'N*m')}{bend}, {rule.limit[0]} {say(rule.limit[1], 'MPa')}"
        )

    def advice(i: int, say: Say) -> str:
        size = next_stock(rule.diameter[i], case.system)
        listed = (
            f"next stock size {say(size, 'mm')}" if np.isfinite(size) else "above the stock list"
        )
        return f"{say(rule.diameter[i], 'mm')} would do ({listed})."

    return case.check(
        "shafts",
        f"shaft {number}",
        f"diameter for {rule.name}",
        where=rule.where,
        demand=rule.diameter,
        capacity=getattr(case.plain, f"shaft_{number}").diameter,
        unit="mm",
        source=rule.source,
        reason=reason,
        advice=advice,
    )


def _gear_moment(case: Case, number: int) -> np.ndarray:
    """Bending moment at the gear in use: its tooth force between the two plates."""
    moments = np.zeros(len(case.states))
    torque = case.flow.through if number == 1 else case.flow.paddles[1]
    for name in ("direct", "idler"):
        path = getattr(case.plain.paths, name)
        count = path.tooth_counts[0 if number == 1 else -1]
        force = spurgear.tooth_force.plain(
            torque, spurgear.pitch_diameter.plain(path.module, count)
        )
        moment = shaft.span_moment.plain(force, path.position, case.plain.housing.plate_spacing)
        moments = np.where(case.clutch == name, moment, moments)
    return moments


def _paddle_moment(case: Case, torque: np.ndarray) -> np.ndarray:
    """Bending moment in the trough: one paddle's share at mid-span, all of it at one tip in a jam."""
    blade: Any = case.plain.paddles
    middle = (blade.tip_radius + blade.root_radius) / 2
    force = 1e3 * torque * np.where(case.jammed, 1 / blade.tip_radius, 1 / (middle * blade.count))
    return shaft.span_moment.plain(force, blade.bearing_span / 2, blade.bearing_span)
