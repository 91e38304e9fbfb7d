"""How far a bearing may stand off the line of the others before the shaft tires of it."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace

import numpy as np

from mixerkit.checking import make_check, make_unjudged
from mixerkit.checks import Change, Check
from mixerkit.parts.deflection import over_states, thicker
from mixerkit.parts.remedies import stronger
from mixerkit.parts.shaft_rules import PULSES, endurance_along, swings
from mixerkit.parts.shaftline import ShaftBeam
from mixerkit.results import Array, Numbers
from mixerkit.working import Working, as_given, by_method, worked

__all__ = ["bearable_moment", "checks"]

NAME = "its bearings stand in line"
THREE = 3
"""Bearings of which one is more than a shaft needs."""


def bearable_moment(
    torque: Numbers,
    diameter: Numbers,
    endurance: Numbers,
    tensile: Numbers,
    safety: Numbers,
    bend: Numbers,
    turn: Numbers,
) -> Numbers:
    r"""Alternating moment in N*m that a section bears for ever beside a torque that pulses.

    .. math:: M = \frac{1}{2 K_f}\sqrt{S_e^2 \left(\frac{\pi d^3}{16 n}
        - \frac{\sqrt{3}\,K_{fs} T}{2 S_{ut}}\right)^2 - \frac{3}{4} (K_{fs} T)^2}

    Parameters
    ----------
    torque : float or array
        Greatest of a turn in N*m; half of it swings about the other half.
    diameter : float or array
        In mm.
    endurance, tensile : float or array
        In MPa.
    safety, bend, turn : float or array
        Wanted factor, and notch factors in bending and torsion.

    Returns
    -------
    float or array
        Nought where the torque alone is too much.

    References
    ----------
    DE-Goodman: Shigley, 10th ed., eq. 7-7 solved for the moment.

    Examples
    --------
    >>> round(float(bearable_moment(100.0, 30.0, 170.0, 630.0, 1.3, 2.0, 1.5)), 1)
    161.3
    """
    swings_about = PULSES * turn * torque
    left = (
        np.pi * diameter**3 / (16e3 * safety) - np.sqrt(3) * (1 - PULSES) * turn * torque / tensile
    )
    spare = (endurance * np.maximum(left, 0.0)) ** 2 - 3 * swings_about**2
    return np.asarray(np.sqrt(np.maximum(spare, 0.0)) / (2 * bend))


@dataclass(frozen=True)
class _Room:
    """Over the load cases and places: moment borne and felt with all in line, N*m, and room for an offset in mm.

    ``each`` is the moment in N*m of a millimetre at each place, the shaft's own part.
    """

    borne: Array
    felt: Array
    each: Array
    room: Array


def _room(beam: ShaftBeam) -> _Room:
    machine, states = beam.machine, beam.running.states
    bent, peak = swings(beam)
    each = beam.bent_by * (beam.shares / 1e3)
    borne = np.asarray(
        bearable_moment(
            peak,
            beam.diameters,
            endurance_along(beam),
            beam.steel["tensile_strength"],
            machine.spec.safety.shaft_fatigue,
            *beam.factors.T,
        )
    )
    felt = bent - each * machine.spec.bearings.misalignment
    # what a millimetre leaves straight asks nothing of the line
    bends = each > 1e-9 * max(float(each.max()), 1e-300)
    room = np.full(borne.shape, np.inf)
    np.divide(borne - felt, each, out=room, where=bends)
    return _Room(
        borne=over_states(machine, states, borne),
        felt=over_states(machine, states, felt),
        each=each,
        room=_spread(beam, room),
    )


def _spread(beam: ShaftBeam, room: Array) -> Array:
    whole = np.full((len(beam.machine.load_cases), room.shape[-1]), np.inf)
    whole[beam.running.states] = room
    return whole


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
    place = int(
        np.where(machine.load_cases.mixing[:, None], found.room, np.inf).min(axis=0).argmin()
    )

    check = make_check(
        machine,
        "shafts",
        part,
        NAME,
        where=machine.load_cases.mixing,
        demand=stands,
        capacity=found.room[:, place],
        unit="mm",
        source="an offset of a support forces a moment, Roark's Formulas, 8th ed., section 8.1; it turns with the shaft: "
        "Shigley 10th ed., eq. 7-7; how far: as measured, or good shop work (common practice)",
        reason=lambda i, say: (
            f"at {beam.named(place)}: {say(found.felt[i, place], 'N*m')} with all in line, "
            f"{say(found.borne[i, place], 'N*m')} borne for ever"
        ),
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


def _worked(beam: ShaftBeam, found: _Room, place: int, i: int) -> list[Working]:
    row = int(np.flatnonzero(beam.running.states == i)[0])
    _, peak = swings(beam)
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
            float(found.borne[i, place]),
            "N*m",
            T=(float(peak[row, place]), "N*m", f"{own}: half of it swings about the other half"),
            K_f=(float(beam.factors[place, 0]), "", f"in bending: {notch or 'no notch'}"),
            K_fs=(float(beam.factors[place, 1]), "", f"in torsion: {notch or 'no notch'}"),
            sigma_e=(float(endurance_along(beam)[place]), "MPa", "endurance limit there"),
            S=(beam.machine.spec.safety.shaft_fatigue, "", "safety.shaft_fatigue"),
        ),
        worked(
            "delta_max = s*(M_b - M)/m",
            float(found.room[i, place]),
            "mm",
            s=(1.0, "mm", "above"),
            M_b=(float(found.borne[i, place]), "N*m", "above"),
            M=(float(found.felt[i, place]), "N*m", f"{own}, all bearings in line"),
            m=(float(found.each[place]), "N*m", "above"),
        ),
    ]
