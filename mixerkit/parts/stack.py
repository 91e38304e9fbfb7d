"""What sits along a shaft in order, and what keeps each thing from wandering along it.

Positions run from the inside of the plate at the reducer towards the trough, in mm.
"""

from __future__ import annotations

from functools import lru_cache
from typing import NamedTuple

from mixerkit.parts import fits, spurgear, zones
from mixerkit.parts.along import NAMES, trough_ends
from mixerkit.parts.flanges import flange_span
from mixerkit.parts.gear_pairs import shifts_of
from mixerkit.parts.idler import WASHER
from mixerkit.parts.rings import ring_for
from mixerkit.parts.sleeve_seats import SLEEVE_END, seats_in
from mixerkit.results import TableRow
from mixerkit.spec import Spec

__all__ = [
    "FLANGE",
    "SLEEVE",
    "Element",
    "Groove",
    "Stack",
    "Stop",
    "elements",
    "laid",
    "over_seat",
    "washer_beside",
]

FLANGE, SLEEVE = "flange of the fuse", "sleeve with paddles"
"""Names of what else sits on a shaft."""
_TOUCH = 0.5
"""Gap in mm below which two things touch and a ring between them finds no room (common practice)."""
_BENEATH = 1.0
"""Least height of a shoulder that holds what sits against it, in mm (common practice)."""


class Element(NamedTuple):
    """One thing on a shaft, in mm.

    ``passes`` is the thickest that its bore goes over on its way, ``shoulder`` the thinnest section that stops
    it, ``lips`` start, end and bore of each part of it where they are not alike; ``kind`` one of ``"bearing"``, ``"bush"``,
    ``"insert"``, ``"fixed"``, ``"free"``, ``"sliding"``, ``"sleeve"``, ``"box"`` and ``"flange"``.
    """

    start: float
    end: float
    name: str
    bore: float
    passes: float
    outer: float
    kind: str
    shoulder: float
    lips: tuple[tuple[float, float, float], ...] = ()


class Stop(NamedTuple):
    """What keeps a thing from moving to one side along its shaft.

    ``side`` is -1 for towards the reducer and 1 for towards the trough; ``at`` the face in mm; ``kind`` one of
    ``"shoulder"``, ``"spacer"``, ``"ring"``, ``"pins"``, ``"hub"`` and ``""`` where nothing does, ``why`` then
    saying what stands in the way.
    """

    name: str
    side: int
    at: float
    kind: str
    ring: TableRow | None = None
    why: str = ""


@lru_cache(maxsize=64)
def over_seat(bore: float) -> float:
    """Largest a bearing's seat may be, in mm: k6."""
    return bore + float(fits.limits.formula(min(bore, fits.MOST), "k6")[1]) / 1e3


def elements(spec: Spec, number: int) -> list[Element]:
    """Everything that sits on a shaft, from the reducer's end on.

    Parameters
    ----------
    spec : Spec
    number : int
        1 or 2.

    Returns
    -------
    list of Element
    """
    found = [_on_bearing(spec, number, name) for name in NAMES]
    has_clutch = spec.clutch.shaft == number
    found += [_gear(spec, number, name) for name in ("direct", "idler")]
    if has_clutch:
        size = zones.seat(spec, number, zones.CLUTCH)
        span = zones.seat_span(spec, number, zones.CLUTCH)
        found.append(
            Element(*span, zones.CLUTCH, size, size, spec.clutch.outer_diameter, "sliding", size)
        )
    if spec.sleeve.kind != "none":
        start, end = trough_ends(spec)
        outer = 2 * spec.paddles.root_radius
        bore = outer - 2 * spec.sleeve.wall
        seats, span = seats_in(spec, number), (start + SLEEVE_END, end - SLEEVE_END)
        lips = seats.lips if seats else ()
        found.append(Element(*span, SLEEVE, bore, bore, outer, "sleeve", bore, lips))
    if number == 1:
        size = zones.seat(spec, 1, zones.BOX)
        bore = spec.reducer.output_bore
        span = zones.seat_span(spec, 1, zones.BOX)
        found.append(
            Element(*span, zones.BOX, bore, max(size, bore), 1.5 * bore, "box", bore + 2 * _BENEATH)
        )
        if spec.fuse.kind != "none":
            found.append(
                Element(
                    *flange_span(spec),
                    FLANGE,
                    size,
                    size,
                    max(1.6 * size, bore),
                    "flange",
                    size + 2 * _BENEATH,
                )
            )
    return sorted(found)


def _gear(spec: Spec, number: int, name: str) -> Element:
    """Gear of a path on a shaft: free on its bush beside the clutch, else fixed."""
    free = spec.clutch.shaft == number
    path = spec.paths.direct if name == "direct" else spec.paths.idler
    place = 0 if number == 1 else -1
    count, shift = path.tooth_counts[place], shifts_of(path)[place]
    tip = float(spurgear.tip_diameter.formula(path.module, count, shift))
    words = f"{name} gear"
    size = zones.seat(spec, number, words)
    return Element(
        *zones.seat_span(spec, number, words),
        words,
        size + 2 * spec.bearings.bush_wall * free,
        size,
        tip,
        "free" if free else "fixed",
        size + 2 * _BENEATH,
    )


def _on_bearing(spec: Spec, number: int, name: str) -> Element:
    row, span = zones.bearing_on(spec, number, name), zones.seat_span(spec, number, name)
    words, bore = f"bearing at the {name}", zones.as_turned(spec, number, name)
    outer = zones.bore_round(spec, number, name)
    if row:
        if zones.series_at(spec, name) == zones.INSERT:
            return Element(*span, words, bore, bore, outer, "insert", bore)
        # a bearing that goes on its seat goes over a bar as thick as the seat may be: common practice
        return Element(
            *span,
            words,
            bore,
            over_seat(bore),
            outer,
            "bearing",
            row["least_shoulder"],
        )
    return Element(*span, words, bore, bore, outer, "bush", bore + 2 * _BENEATH)


def _needs(spec: Spec, one: Element) -> bool:
    """Whether a thing must be held along its shaft by something else than what it is fixed with."""
    if one.kind == "bush":
        # a shaft runs through its bushes, and one of them keeps it from wandering
        return one.name == f"bearing at the {NAMES[spec.bearings.locating - 1]}"
    return one.kind in ("bearing", "fixed", "free", "box", "flange")


def _stops(spec: Spec, row: list[Element], turned: list[zones.Zone]) -> list[Stop]:
    """What keeps each thing on a shaft from moving to either side.

    A shoulder holds where the shaft is thicker beside a face; things between the plates are kept apart by
    spacers; a ring in a groove holds where neither does.
    """
    found = []
    for k, one in enumerate(row):
        if one.kind == "sleeve":
            found += [Stop(one.name, side, _face(one, side), "pins") for side in (-1, 1)]
        elif one.kind == "insert" and spec.bearings.locating == len(NAMES):
            why = "two set screws of an insert bearing are not reckoned on for the paddles' push"
            found += [Stop(one.name, side, _face(one, side), "", None, why) for side in (-1, 1)]
        elif (one.kind == "fixed" and spec.hubs.gear != "key") or one.kind == "insert":
            found += [Stop(one.name, side, _face(one, side), "hub") for side in (-1, 1)]
        elif _needs(spec, one):
            before, after = (row[k - 1] if k else None), (row[k + 1] if k + 1 < len(row) else None)
            found += [_stop(spec, turned, one, before, -1), _stop(spec, turned, one, after, 1)]
    return found


def _face(one: Element, side: int) -> float:
    return one.end if side > 0 else one.start


def _stop(
    spec: Spec, turned: list[zones.Zone], one: Element, beside: Element | None, side: int
) -> Stop:
    """What holds a thing on one side of it on a shaft as turned, its neighbour there being known."""
    # a ring would rub on the face of a bush that stands still
    at = _face(one, side) + side * washer_beside(one)
    to = at + side * 1e4 if beside is None else _face(beside, -side)
    low, high = min(at, to), max(at, to)
    # a spacer reaches to a shoulder that does not stand right beside it
    if zones.thickest_of(turned, low, high) >= one.shoulder:
        return Stop(one.name, side, at, "shoulder")
    if beside is not None and _stacked(one, beside):
        return Stop(one.name, side, at, "spacer")
    inside = at + side * 0.01
    size = next((zone.diameter for zone in turned if zone.start <= inside <= zone.end), one.bore)
    ring = ring_for(size)
    if ring is None:
        return Stop(
            one.name, side, at, "", None, "no retaining ring is made for this thickness of shaft"
        )
    if beside is not None and beside.kind == "sliding":
        return _inside_the_dogs(spec, one, side, at, ring)
    if beside is not None and high - low < ring["groove_width"] + _TOUCH:
        return Stop(one.name, side, at, "", ring, f"no room for a ring before the {beside.name}")
    return Stop(one.name, side, at, "ring", ring)


def washer_beside(one: Element) -> float:
    """Thickness in mm of the thrust washer between a thing and the ring that holds it, nought where there is none."""
    return WASHER if one.kind == "bush" else 0.0


def _stacked(one: Element, beside: Element) -> bool:
    """Whether two neighbours are kept apart by a spacer: gears and bearings between the plates, box and flange."""
    kinds = {one.kind, beside.kind}
    if "box" in kinds:
        return kinds <= {"box", "flange", "bearing"}
    return (
        kinds <= {"bearing", "bush", "fixed", "free"}
        and one.kind != "bush"
        and bool(kinds & {"fixed", "free"})
    )


def _inside_the_dogs(spec: Spec, one: Element, side: int, at: float, ring: TableRow) -> Stop:
    """The ring between a free gear and the clutch's sleeve, which stands inside the dogs."""
    clutch = spec.clutch
    if ring["over"] > clutch.inner_diameter:
        return Stop(one.name, side, at, "", ring, "its ring does not go inside the dogs")
    if ring["groove_width"] + _TOUCH > 2 * clutch.dog_height - clutch.overlap:
        return Stop(one.name, side, at, "", ring, "its ring would stop the clutch's sleeve")
    return Stop(one.name, side, at, "ring", ring)


class Groove(NamedTuple):
    """A ring's groove in a shaft: from where to where in mm, what the ring holds on which side, and the ring."""

    start: float
    end: float
    name: str
    side: int
    ring: TableRow

    @property
    def where(self) -> str:
        """Where it is, in words."""
        return f"{'before' if self.side < 0 else 'behind'} the {self.name}"


class Stack(NamedTuple):
    """A shaft with all that is on it: in order, what holds each, the rings' grooves, both ends, and its zones."""

    elements: tuple[Element, ...]
    stops: tuple[Stop, ...]
    grooves: tuple[Groove, ...]
    left: float
    right: float
    turned: tuple[zones.Zone, ...]


def laid(spec: Spec, number: int) -> Stack:
    """Lay out a shaft from end to end.

    Parameters
    ----------
    spec : Spec
    number : int
        1 or 2.

    Returns
    -------
    Stack
        The shaft ends beyond the outermost things on it by their rings' grooves and edges.
    """
    row = elements(spec, number)
    turned = zones.zones(spec, number, row[0].start - 1.0, row[-1].end + 1.0)
    held = _stops(spec, row, turned)

    def room(one: Element, side: int) -> float:
        ring = next(
            (stop.ring for stop in held if (stop.name, stop.side) == (one.name, side)), None
        )
        if not ring:
            return zones.ROOM
        return float(ring["groove_width"] + ring["edge"]) + washer_beside(one)

    cut = []
    for stop in held:
        if stop.kind == "ring" and stop.ring:
            far = stop.at + stop.side * float(stop.ring["groove_width"])
            ends = min(stop.at, far), max(stop.at, far)
            cut.append(Groove(*ends, stop.name, stop.side, stop.ring))
    left, right = row[0].start - room(row[0], -1), row[-1].end + room(row[-1], 1)
    whole = tuple(zones.zones(spec, number, left, right))
    return Stack(tuple(row), tuple(held), tuple(cut), left, right, whole)
