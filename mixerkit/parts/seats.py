"""Whether what sits on a shaft can be put there, and whether the holes across it leave enough."""

from __future__ import annotations

import numpy as np

from mixerkit.checking import make_check
from mixerkit.checks import Change, Check
from mixerkit.parts import held, large_holes, tool_ways, warmth, zones
from mixerkit.parts.passing import way_of
from mixerkit.parts.remedies import lengths
from mixerkit.parts.rings import ring_for, support_thickness
from mixerkit.parts.shaftline import ShaftBeam
from mixerkit.working import by_method

__all__ = ["ACROSS", "REACHED", "checks"]

REACHED = "everything goes on in some order"
"""Name of the check of passing on."""
ACROSS = "holes across are no larger than the shaft bears"
"""Name of the check of the sleeve's pin holes."""


def checks(beam: ShaftBeam) -> list[Check]:
    """Check that everything on a shaft can be passed on, and the holes across it.

    Parameters
    ----------
    beam : ShaftBeam

    Returns
    -------
    list of Check
    """
    return [
        _reached(beam),
        *held.checks(beam),
        *tool_ways.checks(beam),
        *warmth.checks(beam),
        _across(beam),
    ]


def _reached(beam: ShaftBeam) -> Check:
    """There is an order in which everything goes on, each bore over all between its seat and its end of the shaft."""
    worst = way_of(beam.machine.spec, beam.number).worst
    return make_check(
        beam.machine,
        "shafts",
        f"shaft {beam.number}",
        REACHED,
        demand=worst.over,
        capacity=worst.passes,
        unit="mm",
        tight=1.0,
        source="a bore passes a section no thicker than itself, a bearing one as thick as its seat may be (k6), a ring "
        "springs over 0.6 mm more than its nominal: common practice; an H7 bore is driven over a seat of k6 by light blows",
        reason=lambda i, say: (
            f"{worst.name} passes {say(worst.passes, 'mm')}, and in the best of all orders it goes over {say(worst.over, 'mm')}"
        ),
        note=lambda i, say: (
            f"The {worst.name} passes {say(worst.passes, 'mm')} and must go over {say(worst.over, 'mm')} of shaft to reach "
            "its place from either end."
        ),
        fix=lambda i: _passing(beam),
        working=lambda i: [
            by_method(
                "d",
                "the row of all that sits on it parted in every place, what is left of it coming from the left and the rest "
                "from the right: thickest section that the one with least to spare goes over",
                worst.over,
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
    bores = [float(row["bore"]) for row in zones.bearing_rows(beam.machine.spec.bearings.series)]
    thickest = max(own.diameter, *own.step_diameters) if own.step_diameters else own.diameter
    if not any(beam.bearings):
        return [{f"{field}.diameter": thickest, **plain}] if plain else []
    up, down = [one for one in bores if one >= thickest], [one for one in bores if one < thickest]
    found: list[Change] = [{f"{field}.diameter": one, **plain} for one in up[:1] + down[-1:]]
    for thin in down[-1:]:
        _, second, last = (beam.places[place] for place in beam.supports)
        half = max(row["width"] for row in beam.bearings if row) / 2
        half += _beside(thin, thickest, beam.machine.spec.bearings.series)
        found.append(
            {
                f"{field}.diameter": thin,
                f"{field}.step_at": lengths([second + half, last - half], system),
                f"{field}.step_diameters": lengths([thickest, thin], system),
            }
        )
    return [*found, {"bearings.kind": "plain bush", **plain}]


def _beside(thin: float, thick: float, series: str) -> float:
    """Room in mm beside a bearing before a step that is no shoulder for it: its ring with what supports it."""
    row, ring = zones.bearing_for(thin, series), ring_for(thin)
    if row is None or ring is None or thick >= row["least_shoulder"]:
        return 0.0
    return float(support_thickness(thin) + ring["groove_width"] + ring["edge"])


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
