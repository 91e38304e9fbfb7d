"""How far a bearing may stand off the line of the others before the shaft tires of it."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace

import numpy as np

from mixerkit.checking import make_check, make_unjudged
from mixerkit.checks import Change, Check, Say
from mixerkit.parts.deflection import thicker
from mixerkit.parts.remedies import stronger
from mixerkit.parts.shaft_rules import (
    PULSES,
    TURNED,
    endurance_along,
    strength_for_reversals,
)
from mixerkit.parts.shaft_workings import RIPPLES
from mixerkit.parts.shaftline import ShaftBeam
from mixerkit.results import Array, Numbers
from mixerkit.working import Given, Working, as_given, by_method, worked

__all__ = ["bearable_moment", "checks"]

NAME = "its bearings stand in line"
THREE = 3
"""Bearings of which one is more than a shaft needs."""


def bearable_moment(
    swing: Numbers,
    mean: Numbers,
    diameter: Numbers,
    strength: Numbers,
    tensile: Numbers,
    safety: Numbers,
    bend: Numbers,
    turn: Numbers,
) -> Array:
    r"""Alternating moment in N*m that a section bears beside a torque.

    .. math:: M = \frac{1}{2 K_f}\sqrt{S_e^2 \left(\frac{\pi d^3}{16 n}
        - \frac{\sqrt{3}\,K_{fs} T_m}{S_{ut}}\right)^2 - 3 (K_{fs} T_a)^2}

    Parameters
    ----------
    swing, mean : float or array
        Torque that swings and that stays, in N*m.
    diameter : float or array
        In mm.
    strength, tensile : float or array
        Endurance, or strength for a count of cycles, and tensile strength, in MPa.
    safety, bend, turn : float or array
        Wanted factor, and notch factors in bending and torsion.

    Returns
    -------
    array
        Nought where the torque alone is too much.

    References
    ----------
    DE-Goodman: Shigley, 10th ed., eq. 7-7 solved for the moment.

    Examples
    --------
    >>> round(float(bearable_moment(50.0, 50.0, 30.0, 170.0, 630.0, 1.3, 2.0, 1.5)), 1)
    161.3
    """
    left = np.pi * diameter**3 / (16e3 * safety) - np.sqrt(3) * turn * mean / tensile
    spare = (strength * np.maximum(left, 0.0)) ** 2 - 3 * (turn * swing) ** 2
    return np.asarray(np.sqrt(np.maximum(spare, 0.0)) / (2 * bend))


@dataclass(frozen=True)
class _Room:
    """Over the states that turn, and the places: what is borne and felt, and the room for an offset.

    Attributes
    ----------
    strength : array (ways, 1, places)
        In MPa, for each of :data:`WAYS` in which a torque may swing.
    ways : array (ways, states, places)
        Moment in N*m borne beside each.
    felt : array (states, places)
        With all bearings in line, in N*m.
    each : array (places,)
        Moment in N*m of a millimetre, the shaft's own part.
    room : array (states, places)
        In mm, infinite where an offset bends nothing.
    """

    strength: Array
    ways: Array
    felt: Array
    each: Array
    room: Array


WAYS = (*PULSES, *TURNED)
"""Shares of the greatest torque that swing about the rest."""


def _room(beam: ShaftBeam) -> _Room:
    machine, (bent, peak) = beam.machine, beam.swings
    always = endurance_along(beam)
    seldom = strength_for_reversals(beam, always)
    strength = np.array([seldom if one in TURNED else always for one in WAYS])[:, None]
    ripple = np.array(WAYS)[:, None, None]
    ways = bearable_moment(
        ripple * peak,
        (1 - ripple) * peak,
        beam.diameters,
        strength,
        beam.steel["tensile_strength"],
        machine.spec.safety.shaft_fatigue,
        *beam.factors.T,
    )
    # a start comes only as often as the shaft is turned about
    ways[: len(PULSES), machine.load_cases.starting[beam.running.states]] = np.inf
    each = beam.bent_by / 1e3
    felt = bent - each * machine.spec.bearings.misalignment
    # what a millimetre leaves straight asks nothing of the line
    bends = each > 1e-9 * each.max()
    room = np.where(bends, ways.min(axis=0) - felt, np.inf) / np.where(bends, each, 1.0)
    return _Room(strength, ways, felt, each, room)


def checks(beam: ShaftBeam, why: str, in_range: Callable[[], Sequence[Change]]) -> list[Check]:
    """Check that a bearing may stand off the line so far as is stated, for the shaft's fatigue.

    Three bearings are one more than a shaft needs: an offset of one bends it, and as it turns the bend runs
    round it once a turn. On two it is only tilted, which the slope in its bearings covers.

    Parameters
    ----------
    beam : ShaftBeam
    why : str
        Why its fatigue cannot be judged; empty where it can.
    in_range : callable
        What would bring it back to where it can.

    Returns
    -------
    list of Check
        None of a shaft in two bearings.
    """
    if len(beam.supports) < THREE:
        return []
    machine, part = beam.machine, f"shaft {beam.number}"
    if why:
        return [replace(make_unjudged(machine, "shafts", part, NAME, why), fixes=in_range)]
    found, stands = _room(beam), machine.spec.bearings.misalignment
    place = int(found.room.min(axis=0).argmin())
    room = np.full(len(machine.load_cases), np.inf)
    room[beam.running.states] = found.room[:, place]

    def reason(i: int, say: Say) -> str:
        row = _row(beam, i)
        tired = "tired with all of them in line already, " if room[i] <= 0 else ""
        borne = found.ways[:, row, place].min()
        return (
            f"{tired}at {beam.named(place)}: {say(found.felt[row, place], 'N*m')} with all in line, "
            f"{say(borne, 'N*m')} borne"
        )

    check = make_check(
        machine,
        "shafts",
        part,
        NAME,
        where=~machine.load_cases.jammed,
        demand=stands,
        capacity=room,
        unit="mm",
        source="an offset of a support forces a moment, Roark's Formulas, 8th ed., section 8.1; it turns with the shaft: "
        "Shigley 10th ed., eq. 7-7; how far: as measured, or good shop work (common practice)",
        reason=reason,
        note=lambda i, say: (
            "Measure it with a straight bar through all bores and a feeler: bearings.misalignment is the field."
        ),
        working=lambda i: _worked(beam, found, place, i),
        fix=lambda i: _mends(beam),
    )
    return [check]


def _mends(beam: ShaftBeam) -> list[Change]:
    """Better steel, a finer surface, and longer spans; a thicker shaft bears more, and minds an offset more."""
    field = f"shaft_{beam.number}"
    better = stronger(
        (f"{field}.material",),
        beam.own.material,
        "materials",
        ("tensile_strength",),
        1.0,
        ("steel", "stainless"),
    )
    finer: list[Change] = [{f"{field}.finish": "ground"}] if beam.own.finish != "ground" else []
    return [*better, *finer, *thicker(beam, 1.1), "bearings.span", "housing.plate_spacing"]


def _row(beam: ShaftBeam, i: int) -> int:
    """Row of a load case among the states that turn."""
    return int(np.flatnonzero(beam.running.states == i)[0])


def _worked(beam: ShaftBeam, found: _Room, place: int, i: int) -> list[Working]:
    row = _row(beam, i)
    way, peak = int(found.ways[:, row, place].argmin()), float(beam.swings[1][row, place])
    ripple, borne = WAYS[way], float(found.ways[way, row, place])
    felt: Given = (float(found.felt[row, place]), "N*m", "beam with all bearings in line")
    own, notch = f"shaft {beam.number} as a beam, at {beam.named(place)}", beam.notches[place]
    return [
        as_given("delta", beam.machine.spec.bearings.misalignment, "mm", "bearings.misalignment"),
        by_method(
            "m",
            "beam on its bearings, each in turn so far off the line; the shaft's own part of the most",
            float(found.each[place]),
            "N*m",
            s=(1.0, "mm", "taken: the moment goes with it"),
        ),
        by_method(
            "M_b",
            "moment that has just the wanted factor beside the torque: Shigley 10th ed., eq. 7-7 solved for it",
            borne,
            "N*m",
            T_a=(ripple * peak, "N*m", f"{own}: {RIPPLES[ripple]}"),
            T_m=((1 - ripple) * peak, "N*m", f"{own}: the rest"),
            K_f=(float(beam.factors[place, 0]), "", f"in bending: {notch or 'no notch'}"),
            K_fs=(float(beam.factors[place, 1]), "", f"in torsion: {notch or 'no notch'}"),
            sigma_f=(
                float(found.strength[way, 0, place]),
                "MPa",
                "strength for so many reversals" if ripple in TURNED else "endurance limit there",
            ),
            S=(beam.machine.spec.safety.shaft_fatigue, "", "safety.shaft_fatigue"),
        ),
        worked(
            "delta_max = s*(M_b - M)/m",
            float(found.room[row, place]),
            "mm",
            s=(1.0, "mm", "above"),
            M_b=(borne, "N*m", "above"),
            M=felt,
            m=(float(found.each[place]), "N*m", "above"),
        ),
    ]
