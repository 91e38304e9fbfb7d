"""Whether what sits on a shaft can be put there, and whether the holes across it leave enough."""

from __future__ import annotations

from functools import lru_cache
from typing import NamedTuple

import numpy as np

from mixerkit.checking import make_check
from mixerkit.checks import Change, Check
from mixerkit.parts import fits, large_holes
from mixerkit.parts.remedies import lengths
from mixerkit.parts.shaft_places import NAMES
from mixerkit.parts.shaftline import ShaftBeam
from mixerkit.spec import Shaft
from mixerkit.tables import table
from mixerkit.working import by_method

__all__ = ["ACROSS", "REACHED", "checks"]

REACHED = "each seat can be reached over its neighbours"
"""Name of the check of passing on."""
ACROSS = "holes across are no larger than the shaft bears"
"""Name of the check of the sleeve's pin holes."""


@lru_cache(maxsize=64)
def _over_seat(bore: float) -> float:
    """Largest a bearing's seat may be, in mm: k6."""
    return bore + float(fits.limits.formula(min(bore, fits.MOST), "k6")[1]) / 1e3


class _Seat(NamedTuple):
    """What sits on a shaft: where from and to, its bore, and what the bore passes over, all in mm."""

    words: str
    start: float
    end: float
    bore: float
    passes: float


def checks(beam: ShaftBeam) -> list[Check]:
    """Check that everything on a shaft can be passed on, and the holes across it.

    Parameters
    ----------
    beam : ShaftBeam

    Returns
    -------
    list of Check
    """
    return [_reached(beam), _across(beam)]


def _seats(beam: ShaftBeam) -> list[_Seat]:
    """Bearings, gears, clutch sleeve and box of a shaft, from left to right."""
    spec = beam.machine.spec
    found = []
    for place, name, row in zip(beam.supports, NAMES, beam.bearings, strict=True):
        at, wide = beam.places[place], row["width"] if row else spec.bearings.bush_length
        bore = float(beam.diameters[place])
        # a bearing that goes on its seat goes over a bar as thick as the seat may be: common practice
        passes = _over_seat(bore) if row else bore
        found.append(_Seat(f"bearing at the {name}", at - wide / 2, at + wide / 2, bore, passes))
    listed = [
        (f"{name} gear", place, getattr(spec.paths, name).face_width)
        for name, place in beam.gears.items()
    ]
    if beam.clutch is not None:
        listed.append(("clutch sleeve", beam.clutch, spec.clutch.sleeve_length))
    if beam.box is not None:
        listed.append(("reduction box", beam.box, spec.hubs.box_length))
    for words, place, wide in listed:
        at, bore = beam.places[place], float(beam.diameters[place])
        found.append(_Seat(words, at - wide / 2, at + wide / 2, bore, bore))
    return sorted(found)


def _thickest(own: Shaft, start: float, end: float) -> float:
    """Thickest section of a stepped shaft between two places, nought where there is nothing between."""
    if not own.step_at:
        return own.diameter if end - start > 1e-6 else 0.0
    bounds = (-np.inf, *own.step_at, np.inf)
    sizes = (own.diameter, *own.step_diameters)
    return max(
        (
            size
            for size, low, high in zip(sizes, bounds, bounds[1:], strict=False)
            if min(high, end) - max(low, start) > 1e-6
        ),
        default=0.0,
    )


def _reached(beam: ShaftBeam) -> Check:
    """Each bore must pass everything between its seat and the end of the shaft that it comes from.

    What is thicker within a seat's own length is in the way whichever end it comes from.
    What lies beyond the outermost seat is turned down with it, and does not count.
    """
    own, part = beam.own, f"shaft {beam.number}"
    seats = _seats(beam)
    left, right = min(one.start for one in seats), max(one.end for one in seats)
    rows = []
    for one in seats:
        over = max(
            min(_thickest(own, left, one.start), _thickest(own, one.end, right)),
            _thickest(own, one.start, one.end),
        )
        rows.append((over / one.passes, over, one))
    _, over, worst = max(rows, key=lambda one: one[0])
    return make_check(
        beam.machine,
        "shafts",
        part,
        REACHED,
        demand=over,
        capacity=worst.passes,
        unit="mm",
        tight=1.0,
        source="a bore passes a section no thicker than itself, a bearing one as thick as its seat may be (k6): common practice",
        reason=lambda i, say: (
            f"{worst.words}, bore {say(worst.bore, 'mm')}: from either end and on its seat it must pass over {say(over, 'mm')}"
        ),
        fix=lambda i: _passing(beam),
        working=lambda i: [
            by_method(
                "d",
                "for each seat the thicker of its own length and of the thinner way to it from either end; the seat with the least to spare",
                over,
                "mm",
            )
        ],
    )


def _passing(beam: ShaftBeam) -> list[Change]:
    """Bars as thick as a bearing's bore, thick in the trough alone, or bushes bored to the bar."""
    own, field, system = beam.own, f"shaft_{beam.number}", beam.machine.system
    plain: dict[str, list[str]] = (
        {f"{field}.step_at": [], f"{field}.step_diameters": []} if own.step_at else {}
    )
    series = beam.machine.spec.bearings.series
    bores = sorted(
        float(bore) for bore in table("rolling_bearings").only("series", series).column("bore")
    )
    thickest = max(own.diameter, *own.step_diameters) if own.step_diameters else own.diameter
    if not any(beam.bearings):
        return [{f"{field}.diameter": thickest, **plain}] if plain else []
    up, down = [one for one in bores if one >= thickest], [one for one in bores if one < thickest]
    found: list[Change] = [{f"{field}.diameter": one, **plain} for one in up[:1] + down[-1:]]
    for thin in down[-1:]:
        _, second, last = (beam.places[place] for place in beam.supports)
        half = max(row["width"] for row in beam.bearings if row) / 2
        found.append(
            {
                f"{field}.diameter": thin,
                f"{field}.step_at": lengths([second + half, last - half], system),
                f"{field}.step_diameters": lengths([thickest, thin], system),
            }
        )
    return [*found, {"bearings.kind": "plain bush", **plain}]


def _across(beam: ShaftBeam) -> Check:
    """Holes across a shaft for its sleeve's pins, and those the design lists; a hub's pin is checked with its hub."""
    sleeve = beam.machine.spec.sleeve
    places = [i for i, one in enumerate(beam.what) if {"sleeve pins", "cross hole"} & set(one)]
    hole = sleeve.pin_diameter if places else 0.0
    place = min(places, key=lambda i: beam.diameters[i], default=0)
    size = float(beam.diameters[place])
    most = large_holes.largest_share(sleeve.large_hole_reason) * size
    more = large_holes.told(hole, size, sleeve.large_hole_reason, "sleeve.large_hole_reason")
    return make_check(
        beam.machine,
        "shafts",
        f"shaft {beam.number}",
        ACROSS,
        demand=hole,
        capacity=most,
        unit="mm",
        tight=1.0,
        source="0.3 of the diameter, up to 0.35 for a reason: common practice",
        reason=lambda i, say: (
            f"at {beam.named(place)}, shaft {say(size, 'mm')}{more}"
            if hole
            else "no hole across it"
        ),
        working=lambda i: [
            large_holes.of_what_it_may_be(
                most, size, f"shaft {beam.number} at {beam.named(place)}", sleeve.large_hole_reason
            )
        ],
        fix=lambda i: [
            {"sleeve.pin_diameter": most},
            {
                "sleeve.pin_diameter": most,
                "sleeve.pins": min(int(np.ceil(sleeve.pins * hole / most)), 6),
            },
            {f"shaft_{beam.number}.diameter": beam.own.diameter * hole / most},
        ],
    )
