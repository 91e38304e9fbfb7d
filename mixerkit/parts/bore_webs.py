"""The metal left between both bores of a plate or wall: whether it can be bored round, and bears a jam."""

from __future__ import annotations

from dataclasses import replace
from math import ceil, pi

import numpy as np

from mixerkit.checking import make_check, make_unjudged
from mixerkit.checks import Change, Check
from mixerkit.parts import zones
from mixerkit.parts.along import NAMES
from mixerkit.parts.deflection import over_states
from mixerkit.parts.frame_layout import held
from mixerkit.parts.gear_pairs import shifts_of
from mixerkit.parts.remedies import calmer, stronger
from mixerkit.parts.worked import WorkedMachine
from mixerkit.results import Array, Numbers
from mixerkit.spec import SERIES
from mixerkit.units import in_units
from mixerkit.working import Given, Working, worked

__all__ = ["checks", "least_web", "web_stress"]

_THINNEST = 6.0
"""Least web in mm between two bores of rolled plate (common practice)."""
_SHARE = 1 / 12
"""Least web over the larger bore: it is cut from both sides, and gives more at a wide bore (common practice)."""
_NAMES = "metal between both bores can be bored", "metal between both bores bears a jam"


def least_web(bore: float) -> float:
    """Least metal in mm between two bores of which the larger is so wide, in mm."""
    return max(_THINNEST, _SHARE * bore)


@in_units("MPa", one="N >= 0", two="N >= 0", web="mm > 0", length="mm > 0")
def web_stress(one: Numbers, two: Numbers, web: Numbers, length: Numbers) -> Numbers:
    r"""Most stress in the metal between two bores, each pressed outwards by what turns in it.

    .. math:: \sigma = \frac{1}{s b} \sqrt{\left(\frac{F_1 + F_2}{2}\right)^2 + \left(\frac{2 F}{\pi}\right)^2}

    Both forces square to the line of the bores pull it: it carries half of each, as one side of a ring under a load
    across it does. The larger one along that line bends it: over the length on which the web is less than twice its
    least, :math:`2\sqrt{s r}`, it is a beam with fixed ends under the peak of a cosine of pressure,
    :math:`4 F/(\pi d)` a millimetre, and its middle bears :math:`6 q l^2/(24 b s^2)`. Angles that hurt most are taken
    for both at once, and nothing of the other bearing's help.

    Parameters
    ----------
    one, two : quantity, any shape
        Force on either bore.
    web, length : quantity, broadcast
        Thickness between the bores, and length that what turns in them sits on.

    Returns
    -------
    quantity [MPa], the broadcast shape

    References
    ----------
    Statics of a cut through both bores; beam with fixed ends under an even load: Roark's Formulas, table 8.1 (from
    memory); pressure of a pin in a bore as a cosine: common practice.

    Examples
    --------
    >>> web_stress("20 kN", "20 kN", "10 mm", "25 mm").round(1)
    <Quantity(94.8, 'megapascal')>
    """
    pull = (np.asarray(one, float) + two) / 2
    bend = 2 / pi * np.maximum(one, two)
    found: Numbers = np.hypot(pull, bend) / (np.asarray(web, float) * length)
    return found


def checks(machine: WorkedMachine) -> list[Check]:
    """Check what stands between the bores of both gear plates, and of the far wall where it is bored.

    Housings of insert bearings are bolted onto the wall, which has no seats then.

    Parameters
    ----------
    machine : WorkedMachine

    Returns
    -------
    list of Check
    """
    walls: list[tuple[str, tuple[int, ...]]] = [("plates", (0, 1))]
    if zones.series_at(machine.spec, NAMES[2]) != zones.INSERT:
        walls.append(("far wall", (2,)))
    return [check for part, places in walls for check in _of(machine, part, places)]


def _bores(machine: WorkedMachine, place: int) -> tuple[float, float]:
    one, two = (zones.bore_round(machine.spec, number, NAMES[place]) for number in (1, 2))
    return one, two


def _web(machine: WorkedMachine, place: int) -> float:
    return machine.spec.housing.centre_distance - sum(_bores(machine, place)) / 2


def _least(machine: WorkedMachine, place: int) -> float:
    return least_web(max(_bores(machine, place)))


def _of(machine: WorkedMachine, part: str, places: tuple[int, ...]) -> list[Check]:
    """Both checks of a wall, or of the worse of both plates."""
    thin = min(places, key=lambda one: _web(machine, one) - _least(machine, one))
    bored = _can_be_bored(machine, part, thin)
    if min(_web(machine, one) for one in places) > 0:
        jams = machine.load_cases.jammed
        worst = max(places, key=lambda one: float(np.max(_stress(machine, one) * jams)))
        return [bored, _bears(machine, part, worst)]
    why = f"the bores run into each other ({NAMES[thin]})"
    lost = make_unjudged(machine, "frame", part, _NAMES[1], why)
    return [bored, replace(lost, fixes=lambda: _apart(machine, thin, _least(machine, thin)))]


def _stress(machine: WorkedMachine, place: int) -> Array:
    """Most stress in MPa of the web at a place, over the load cases."""
    one, two = (_force(machine, number, place) for number in (1, 2))
    return np.asarray(web_stress.formula(one, two, _web(machine, place), _length(machine, place)))


def _worked_web(machine: WorkedMachine, place: int) -> Working:
    one, two = _bores(machine, place)
    return worked(
        "s = a - (D_1 + D_2)/2",
        _web(machine, place),
        "mm",
        a=(machine.spec.housing.centre_distance, "mm", "housing.centre_distance"),
        D_1=(one, "mm", f"bore of shaft 1, {NAMES[place]}"),
        D_2=(two, "mm", f"bore of shaft 2, {NAMES[place]}"),
    )


def _can_be_bored(machine: WorkedMachine, part: str, place: int) -> Check:
    """Whether the tool does not push the metal before it, and heat does not bow it."""
    largest = max(_bores(machine, place))
    least, web = least_web(largest), _web(machine, place)
    return make_check(
        machine,
        "frame",
        part,
        _NAMES[0],
        demand=least,
        capacity=web,
        unit="mm",
        tight=1.0,
        working=lambda i: [
            worked(
                "s_0 = Max(s_1, c*D)",
                least,
                "mm",
                s_1=(_THINNEST, "mm", "common practice"),
                c=(_SHARE, "", "common practice"),
                D=(largest, "mm", "larger of both bores"),
            ),
            _worked_web(machine, place),
        ],
        source="6 mm, and a twelfth of the larger bore: common practice",
        reason=lambda i, say: (
            f"bores of {' and '.join(say(one, 'mm') for one in _bores(machine, place))}, "
            f"{say(machine.spec.housing.centre_distance, 'mm')} apart ({NAMES[place]})"
        ),
        fix=lambda i: _apart(machine, place, least),
    )


def _bears(machine: WorkedMachine, part: str, place: int) -> Check:
    """Whether it does not yield between two shafts that a jam presses outwards."""
    safety, web, length = (
        machine.spec.safety.shaft_in_jam,
        _web(machine, place),
        _length(machine, place),
    )
    seat, stress = held(machine.shaft_beams[0], place), _stress(machine, place)
    forces, yields = [_force(machine, number, place) for number in (1, 2)], seat.yields
    named = "frame.wall_material" if place == 2 else "housing.plate_material"

    def mends(i: int) -> list[Change]:
        over = float(stress[i] * safety / yields)
        return [
            *_apart(machine, place, web * over),
            *stronger((named,), seat.material, "materials", ("yield_strength",), over),
            *calmer(machine, i, over),
        ]

    return make_check(
        machine,
        "frame",
        part,
        _NAMES[1],
        where=machine.load_cases.jammed,
        demand=stress,
        capacity=yields,
        unit="MPa",
        safety=safety,
        working=lambda i: [
            _worked_web(machine, place),
            _worked_stress((float(forces[0][i]), float(forces[1][i])), web, length, stress[i]),
        ],
        source="statics, and a beam with fixed ends: Roark's Formulas, table 8.1 (from memory); yield",
        reason=lambda i, say: (
            f"{say(forces[0][i], 'N')} and {say(forces[1][i], 'N')} on both bores ({NAMES[place]}), "
            f"{say(web, 'mm')} of metal between, {say(length, 'mm')} long"
        ),
        fix=mends,
    )


def _force(machine: WorkedMachine, number: int, place: int) -> Array:
    """Most force in N on the bearing at a place of a shaft, over the load cases."""
    line = machine.shaft_beams[number - 1]
    return np.asarray(
        over_states(machine, line.stopped.states, line.stopped.reaction.max(axis=1))[:, place]
    )


def _length(machine: WorkedMachine, place: int) -> float:
    """Length in mm of the web that bears: no more than the wall itself, whose bosses stand apart."""
    spec = machine.spec
    thick = spec.frame.wall_thickness if place == 2 else spec.housing.plate_thickness
    return min(thick, *(held(line, place).length for line in machine.shaft_beams))


def _worked_stress(
    forces: tuple[float, float], web: float, length: float, stress: float
) -> Working:
    def of(number: int) -> Given:
        words = f"shaft {number} as a beam, in a jam, the most at any angle"
        return forces[number - 1], "N", words

    return worked(
        "sigma = sqrt(((F_1 + F_2)/2)**2 + (2*Max(F_1, F_2)/pi)**2)/(s*b)",
        float(stress),
        "MPa",
        F_1=of(1),
        F_2=of(2),
        s=(web, "mm", "above"),
        b=(length, "mm", "over which they sit in the plate"),
    )


def _apart(machine: WorkedMachine, place: int, least: float) -> list[Change]:
    """Smaller bores, or shafts further apart with the gears that go with it."""
    spec, lacking = machine.spec, least - _web(machine, place)
    lighter: list[Change] = []
    if spec.bearings.kind == "rolling":
        before = SERIES[: SERIES.index(spec.bearings.series)]
        lighter = [{"bearings.series": one} for one in reversed(before)]
    else:
        lighter = [{"bearings.bush_wall": spec.bearings.bush_wall - lacking / 2}]
    path = spec.paths.direct
    more = max(1, ceil(lacking / path.module)) if np.isfinite(lacking) else 1
    apart: dict[str, object] = {
        "housing.centre_distance": spec.housing.centre_distance + more * path.module
    }
    if len(path.tooth_counts) == 2 and not any(shifts_of(path)):
        apart["paths.direct.tooth_counts"] = [count + more for count in path.tooth_counts]
    reach: list[Change] = [
        {f"shaft_{number}.diameter": zones.own(spec, number).diameter - max(lacking, 1.0)}
        for number in (1, 2)
    ]
    return [*lighter, apart, *reach, "shaft_1.diameter", "shaft_2.diameter"]
