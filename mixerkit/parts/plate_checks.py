"""Whether the gear plates carry what turns in them."""

from __future__ import annotations

from dataclasses import replace

import numpy as np

from mixerkit.checking import make_check, make_unjudged
from mixerkit.checks import Change, Check
from mixerkit.parts.remedies import calmer
from mixerkit.parts.worked import WorkedMachine
from mixerkit.results import Array
from mixerkit.tables import table
from mixerkit.working import Working, worked

__all__ = ["plates"]


_PLATE = 8.0
"""Thinnest plate in mm in which a bearing's bore stays square to it (common practice)."""
_PRELOAD = 0.7 * 580.0
"""Stress in MPa of a bolt drawn up: 0.7 of the proof strength of property class 8.8 (ISO 898-1, from memory)."""
_GRIP = 0.15
"""Friction between plate and distance tube, dry steel with a trace of oil (common practice)."""


def plates(machine: WorkedMachine) -> list[Check]:
    """Check whether the plates are as thick as their bearings want, and hold together in a jam."""
    return [_thick_enough(machine), _dowels(machine), _tie_bolts(machine)]


def _thick_enough(machine: WorkedMachine) -> Check:
    """Whether the plates are as thick as what is pressed into them."""
    bearings, thickness = machine.spec.bearings, machine.spec.housing.plate_thickness
    name, rolling = ("bearings", "plates", "thick enough for their bearings"), False
    asked, origin = bearings.bush_length / 2, "half of bearings.bush_length"
    if bearings.kind == "rolling":
        held = [row for line in machine.shaft_beams for row in line.bearings[:2]]
        rows = [row for row in held if row is not None]
        if len(rows) < len(held):
            why = "the table of rolling bearings begins at a larger bore, so how wide they are is not known"
            return replace(
                make_unjudged(machine, *name, why),
                fixes=lambda: [{"bearings.kind": "plain bush"}],
            )
        rolling, asked = True, float(max(row["width"] for row in rows))
        origin = "data/tables/rolling_bearings.csv: widest bearing in a plate"
    least = max(_PLATE, asked)
    shorter: list[Change] = [{"bearings.bush_length": 2 * thickness}]
    return make_check(
        machine,
        *name,
        demand=least,
        capacity=thickness,
        unit="mm",
        tight=1.0,
        working=lambda i: [
            worked(
                "t = Max(t_0, b)",
                least,
                "mm",
                t_0=(_PLATE, "mm", "common practice"),
                b=(asked, "mm", origin),
            )
        ],
        source="the whole width of a rolling bearing, half the length of a bush, and 8 mm: common practice",
        reason=lambda i, say: (
            f"widest bearing {say(asked, 'mm')}"
            if rolling
            else f"bushes {say(2 * asked, 'mm')} long"
        ),
        fix=lambda i: [
            {"housing.plate_thickness": least},
            *([] if rolling or thickness < _PLATE else shorter),
        ],
    )


def _pushed(machine: WorkedMachine) -> Array:
    """Force in N of the couple that bears the box's torque, over the load cases.

    Bolts and dowels in the corners stand further apart than the walls from the shafts.
    """
    torque = np.abs(machine.power_flow.torque_at_box_output)
    return 1e3 * torque / machine.spec.housing.wall_distance


def _worked_push(machine: WorkedMachine, i: int) -> Working:
    torque = float(np.abs(machine.power_flow.torque_at_box_output[i]))
    return worked(
        "F = T/a",
        float(_pushed(machine)[i]),
        "N",
        T=(torque, "N*m", "power flow, torque at the box's output"),
        a=(machine.spec.housing.wall_distance, "mm", "housing.wall_distance"),
    )


def _dowels(machine: WorkedMachine) -> Check:
    """Whether the dowels do not shear in a jam."""
    housing, safety = machine.spec.housing, machine.spec.safety.shaft_in_jam
    yields = table("materials").find(housing.plate_material).values["yield_strength"]
    allowed, force = float(yields / np.sqrt(3)), _pushed(machine)
    shear = force / (np.pi / 4 * housing.dowel**2)

    def thicker(i: int) -> list[Change]:
        over = float(shear[i] * safety / allowed)
        return [{"housing.dowel": housing.dowel * float(np.sqrt(over))}, *calmer(machine, i, over)]

    return make_check(
        machine,
        "bearings",
        "plates",
        "dowels do not shear in a jam",
        where=machine.load_cases.jammed,
        demand=shear,
        capacity=allowed,
        unit="MPa",
        safety=safety,
        working=lambda i: [
            _worked_push(machine, i),
            worked(
                "tau = F/(pi/4*d**2)",
                float(shear[i]),
                "MPa",
                F=(float(force[i]), "N", "above"),
                d=(housing.dowel, "mm", "housing.dowel"),
            ),
            worked(
                "tau_e = R_e/sqrt(3)",
                allowed,
                "MPa",
                R_e=(
                    yields,
                    "MPa",
                    f"data/tables/materials.csv, {housing.plate_material}: yield strength",
                ),
            ),
        ],
        source="a couple of two dowels against the torque of the box, yield over root 3 of the plates' steel: common practice",
        reason=lambda i, say: (
            f"{say(force[i], 'N')} across each dowel of {say(housing.dowel, 'mm')}"
        ),
        fix=thicker,
    )


def _tie_bolts(machine: WorkedMachine) -> Check:
    """Whether the tie bolts hold the plates by friction in a jam."""
    housing, safety = machine.spec.housing, machine.spec.safety.shaft_in_jam
    force, bolt = _pushed(machine), table("threads").find(housing.tie_bolt).values
    grip = 4 * _GRIP * _PRELOAD * bolt["stress_area"]

    def larger(i: int) -> list[Change]:
        over = float(force[i] * safety / grip)
        rows = [row.values for row in table("threads").only("series", bolt["series"])]
        rows = [row for row in rows if row["stress_area"] >= over * bolt["stress_area"]]
        return [*({"housing.tie_bolt": row["name"]} for row in rows[:1]), *calmer(machine, i, over)]

    return make_check(
        machine,
        "bearings",
        "plates",
        "tie bolts hold the plates in a jam",
        where=machine.load_cases.jammed,
        demand=force,
        capacity=grip,
        unit="N",
        safety=safety,
        working=lambda i: [
            _worked_push(machine, i),
            worked(
                "F_mu = 4*mu*sigma*A_s",
                grip,
                "N",
                mu=(_GRIP, "", "common practice"),
                sigma=(
                    _PRELOAD,
                    "MPa",
                    "0.7 of the proof strength of class 8.8: ISO 898-1, from memory",
                ),
                A_s=(
                    bolt["stress_area"],
                    "mm**2",
                    f"data/tables/threads.csv, {housing.tie_bolt}: stress area",
                ),
            ),
        ],
        source="four bolts of class 8.8 (ISO 898-1, from memory) drawn to 0.7 of proof, friction 0.15: common practice",
        reason=lambda i, say: (
            f"{say(np.abs(machine.power_flow.torque_at_box_output[i]), 'N*m')} of the box at "
            f"{say(housing.wall_distance, 'mm')}, four {housing.tie_bolt} bolts"
        ),
        fix=larger,
    )
