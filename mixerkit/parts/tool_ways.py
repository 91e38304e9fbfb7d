"""Whether cutters and corners have their room on a shaft: fillets under bearings, keyways, rings' grooves."""

from __future__ import annotations

from collections.abc import Iterator
from typing import NamedTuple

from mixerkit.checking import make_check, make_unjudged
from mixerkit.checks import Change, Check
from mixerkit.parts import zones
from mixerkit.parts.along import NAMES
from mixerkit.parts.held import outside
from mixerkit.parts.keyways import Keyway, keyways
from mixerkit.parts.shaftline import ShaftBeam
from mixerkit.parts.stack import Groove
from mixerkit.units import InputError
from mixerkit.working import as_given, by_method

__all__ = ["CORNERS", "WAYS", "checks"]

CORNERS = "its bearings sit against their shoulders, not on the fillets"
"""Name of the check of bearings' corners."""
WAYS = "keyways and grooves stand clear of steps and of each other"
"""Name of the check of cutters' ways and of the edges that are left."""
_FLUSH = 1e-6
"""Below this many mm two ends are one: no shop measures it."""


class _Gap(NamedTuple):
    """What is left beside a cut in mm, what it wants there, and between what."""

    has: float
    wants: float
    words: str


def checks(beam: ShaftBeam) -> list[Check]:
    """Check the room of corners and cutters on a shaft.

    Parameters
    ----------
    beam : ShaftBeam

    Returns
    -------
    list of Check
    """
    return [_corners(beam), _ways(beam)]


def _against_steps(beam: ShaftBeam) -> list[tuple[str, float]]:
    """Bearings that a step of the shaft stands beside, with the least radius of their corners in mm."""
    near, found = beam.own.fillet, []
    for name, row in zip(NAMES, beam.bearings, strict=True):
        if row and row["series"] != zones.INSERT:
            start, end = zones.seat_span(beam.machine.spec, beam.number, name)
            if zones.thickest_of(beam.stack.turned, start - near, end + near) > row["bore"]:
                found.append((f"bearing at the {name}", float(row["corner"])))
    return found


def _cut_away(beam: ShaftBeam) -> Iterator[tuple[str, float, float]]:
    """Bearings and bushes under which the shaft steps down: which, how wide, and how much of that has a seat, in mm."""
    for name in NAMES:
        start, end = zones.seat_span(beam.machine.spec, beam.number, name)
        bore = zones.as_turned(beam.machine.spec, beam.number, name)
        thinner = (one for one in beam.stack.turned if one.diameter < bore - 1e-6)
        air = sum(max(min(one.end, end) - max(one.start, start), 0.0) for one in thinner)
        if air > _FLUSH:
            yield f"bearing at the {name}", end - start, end - start - air


def _half_seated(beam: ShaftBeam, words: str, wide: float, seated: float) -> Check:
    """A step under a bearing: part of it has no seat."""
    at = f"shaft_{beam.number}.step_at"
    return make_check(
        beam.machine,
        "shafts",
        f"shaft {beam.number}",
        CORNERS,
        demand=wide,
        capacity=seated,
        unit="mm",
        tight=1.0,
        source="a seat as long as its bearing is wide: common practice",
        reason=lambda i, say: (
            f"{words} is {say(wide, 'mm')} wide and has {say(seated, 'mm')} of seat: {at} steps down under it"
        ),
        note=lambda i, say: f"Move the step under the {words} off its seat.",
        working=lambda i: [
            by_method("b", "width of the bearing", wide, "mm"),
            by_method("l", "of it, where the shaft as turned fills its bore", seated, "mm"),
        ],
    )


def _corners(beam: ShaftBeam) -> Check:
    """Whether the fillets are smaller than the corners of the bearings that stand against their steps."""
    for one in _cut_away(beam):
        return _half_seated(beam, *one)
    found, fillet = _against_steps(beam), beam.own.fillet
    name, least = min(found, key=lambda one: one[1], default=("", fillet))
    return make_check(
        beam.machine,
        "shafts",
        f"shaft {beam.number}",
        CORNERS,
        demand=fillet if found else 0.0,
        capacity=least,
        unit="mm",
        tight=1.0,
        source="a fillet larger than the least corner of ISO 15 keeps a bearing off its shoulder: common practice",
        reason=lambda i, say: (
            f"fillets {say(fillet, 'mm')}, {name} has corners of {say(least, 'mm')} or more"
            if found
            else "no bearing stands beside a step"
        ),
        working=lambda i: [
            as_given("r", fillet, "mm", f"shaft_{beam.number}.fillet"),
            by_method(
                "r_s",
                "least corner of the bearings beside a step, data/tables/rolling_bearings.csv",
                least,
                "mm",
            ),
        ],
        fix=lambda i: [{f"shaft_{beam.number}.fillet": least}],
    )


def _ways(beam: ShaftBeam) -> Check:
    """Whether each keyway ends before a step's fillet, and each groove keeps the edge that its ring pushes on."""
    part, field = f"shaft {beam.number}", f"shaft_{beam.number}"
    try:
        worst = min(_gaps(beam), key=lambda one: one.has - one.wants, default=_Gap(0.0, 0.0, ""))
    except InputError as error:
        why = "; ".join(error.messages)
        return make_unjudged(beam.machine, "shafts", part, WAYS, why)
    return make_check(
        beam.machine,
        "shafts",
        part,
        WAYS,
        demand=worst.wants,
        capacity=worst.has,
        unit="mm",
        tight=1.0,
        source="a keyway ends before the fillet of a step, and out of rings' grooves: common practice; edge beside a groove: "
        "DIN 471 or ASME B27.7",
        reason=lambda i, say: (
            f"{worst.words}: {say(worst.has, 'mm')} left, {say(worst.wants, 'mm')} wanted"
            if worst.words
            else "neither is cut in it"
        ),
        working=lambda i: [
            by_method(
                "a",
                "along the shaft as turned, each keyway and groove against the next step and the next of them",
                worst.has,
                "mm",
            )
        ],
        fix=lambda i: _apart(beam, field, worst),
    )


def _apart(beam: ShaftBeam, field: str, worst: _Gap) -> list[Change]:
    """Ways to part cuts and steps: shorter keys, a step elsewhere, a smaller fillet."""
    hubs, short = beam.machine.spec.hubs, worst.wants - worst.has
    found: list[Change] = [
        {"hubs.box_length": hubs.box_length - 2 * short},
        {"hubs.gear_length": hubs.gear_length - 2 * short},
        f"{field}.fillet",
    ]
    if beam.own.step_at:
        found += [
            {f"{field}.step_at": [one + way * short for one in beam.own.step_at]} for way in (1, -1)
        ]
    return found


def _gaps(beam: ShaftBeam) -> list[_Gap]:
    """Every place where a keyway or a groove stands beside something."""
    keys = keyways(beam.machine.spec, beam.stack, beam.number, beam.machine.system)
    found = [gap for key in keys for gap in _before_steps(beam, key)]
    for groove in beam.stack.grooves:
        words = f"groove {groove.where}"
        found += _edges(beam, groove, words)
        for key in keys:
            gap = _clear(max(key.start - groove.end, groove.start - key.end))
            found.append(_Gap(gap, 0.0, f"{words} and the keyway {key.words}"))
    return found


def _clear(gap: float) -> float:
    """A gap in mm without what the last digits leave: a key that ends flush with a groove leaves nothing, not less."""
    return 0.0 if abs(gap) < _FLUSH else gap


def _before_steps(beam: ShaftBeam, key: Keyway) -> list[_Gap]:
    """What is left between a keyway's ends and thicker sections, into which its cutter would run."""
    return [
        _Gap(
            max(zone.start - key.end, key.start - zone.end),
            beam.own.fillet,
            f"keyway {key.words} and the next step",
        )
        for zone in beam.stack.turned
        if zone.diameter > key.size + 1e-6
    ]


def _edges(beam: ShaftBeam, groove: Groove, words: str) -> list[_Gap]:
    """What is left of the edge that a ring pushes on, before the shaft gets thinner than its groove's outside."""
    outer, edge, found = outside(beam, groove), float(groove.ring["edge"]), []
    for zone in beam.stack.turned:
        gap = zone.start - groove.end if groove.side > 0 else groove.start - zone.end
        if zone.diameter < outer - 1e-6 and gap > -1e-6:
            found.append(_Gap(gap, edge, f"{words} and the next step"))
    return found
