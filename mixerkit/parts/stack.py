"""What keeps each thing on a shaft from wandering along it: shoulders, spacers, rings, thrust and support washers.

Positions run from the inside of the plate at the reducer towards the trough, in mm.
"""

from __future__ import annotations

from typing import NamedTuple

from mixerkit.parts import zones
from mixerkit.parts.along import NAMES, SPACER
from mixerkit.parts.idler import WASHER
from mixerkit.parts.kept import PLACED, kept_by
from mixerkit.parts.rings import ROUNDED, ring_across, ring_for, support_thickness
from mixerkit.parts.seated import BENEATH, Element, elements
from mixerkit.results import TableRow
from mixerkit.spec import Spec

__all__ = ["Groove", "Stack", "Stop", "Washer", "laid"]

_TOUCH = 0.5
"""Gap in mm below which two things touch and a ring between them finds no room (common practice)."""
_OVER = 2.0
"""How far a thrust washer reaches over the metal that it holds, on the radius in mm (common practice)."""


class Washer(NamedTuple):
    """A washer on a shaft, in mm; ``passes`` is the thickest that it goes over on its way.

    ``kind`` is ``"thrust washer"``, or ``"support washer"`` between a ring and the round corner of a bearing.
    """

    start: float
    end: float
    name: str
    inner: float
    outer: float
    passes: float
    kind: str = "thrust washer"

    @property
    def words(self) -> str:
        """What it is and where; a plain washer takes thrust."""
        return f"{self.kind.removeprefix('thrust ')} {self.name}"


class Stop(NamedTuple):
    """What keeps a thing from moving to one side along its shaft.

    ``side`` is -1 for towards the reducer and 1 for towards the trough; ``at`` the face in mm; ``kind`` one of
    ``"shoulder"``, ``"spacer"``, ``"ring"``, ``"pins"``, ``"hub"`` and ``""`` where nothing does, ``why`` then
    saying what stands in the way; ``washer`` what goes between where the thing stands still, or is open wider than
    ring or spacer reach.
    """

    name: str
    side: int
    at: float
    kind: str
    ring: TableRow | None = None
    why: str = ""
    washer: Washer | None = None


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
    face = _face(one, side)
    # a ring would rub on the face of a bush that stands still
    at = face + side * WASHER * (one.kind == "bush")
    to = at + side * 1e4 if beside is None else _face(beside, -side)
    low, high = min(at, to), max(at, to)
    # a spacer reaches to a shoulder that does not stand right beside it
    if zones.thickest_of(turned, low, high) >= one.shoulder:
        return Stop(one.name, side, at, "shoulder")
    inside = at + side * 0.01
    size = next((zone.diameter for zone in turned if zone.start <= inside <= zone.end), one.bore)
    if beside is not None and _stacked(one, beside):
        outside = max(size, zones.thickest_of(turned, low, high)) + 2 * SPACER
        between = _washer(one, side, size, outside)
        if between and high - low < WASHER:
            why = f"no room for a thrust washer before the {beside.name}"
            return Stop(one.name, side, at, "", None, why)
        return Stop(one.name, side, at, "spacer", washer=between)
    return _ringed(spec, one, beside, side, size)


def _ringed(spec: Spec, one: Element, beside: Element | None, side: int, size: float) -> Stop:
    """The ring that holds a thing on one side, with its washer, or why there is none; the shaft is so thick there."""
    ring, face = ring_for(size), _face(one, side)
    if ring is None:
        why = "no retaining ring is made for this thickness of shaft"
        return Stop(one.name, side, face, "", None, why)
    found = [_washer(one, side, size, ring_across(ring))]
    if one.kind == "bearing":
        # where it finds no room the ring lies on the bearing's corner, and bears less
        found.insert(0, _support(one, side, size))
    for between in found:
        at = face + side * (between.end - between.start if between else 0.0)
        stop = Stop(one.name, side, at, "ring", ring, "", between)
        if beside is not None and beside.kind == "sliding":
            return _inside_the_dogs(spec, stop)
        if beside is None or abs(_face(beside, -side) - at) >= ring["groove_width"] + _TOUCH:
            return stop
        stop = stop._replace(kind="", why=f"no room for a ring before the {beside.name}")
    return stop


def _support(one: Element, side: int, size: float) -> Washer:
    """Support washer that fills the round corner of a bearing for the ring beside it, and reaches over it."""
    thick = support_thickness(one.bore)
    start, end = sorted((_face(one, side), _face(one, side) + side * thick))
    outer = min(one.bore + 2 * (_rounded(one) + BENEATH), one.shoulder)
    return Washer(start, end, _beside(one.name, side), size, outer, one.passes, "support washer")


def _washer(one: Element, side: int, size: float, across: float) -> Washer | None:
    """Thrust washer between a thing and what would hold it alone if it reached far enough over it.

    A bush stands still, and its washer is as large as the bush; ``size`` is the shaft's thickness there.
    """
    if one.kind == "bush":
        outer = one.outer
    elif across >= one.grip(side):
        return None
    else:
        outer = one.grip(side) + 2 * (_OVER - BENEATH)
    start, end = sorted((_face(one, side), _face(one, side) + side * WASHER))
    passes = one.passes if one.kind == "bearing" else size
    return Washer(start, end, _beside(one.name, side), size, outer, passes)


def _rounded(one: Element) -> float:
    """Largest corner of a bearing, across the shaft in mm."""
    return ROUNDED * (one.hollow - one.bore) / 2


def _beside(name: str, side: int) -> str:
    """Where something stands at a thing, in words."""
    return f"{'before' if side < 0 else 'behind'} the {name}"


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


def _inside_the_dogs(spec: Spec, stop: Stop) -> Stop:
    """The ring between a free gear and the clutch's sleeve, and its washer, which stand inside the dogs."""
    clutch, ring, why = spec.clutch, stop.ring, ""
    outside, wide = (ring["over"], ring["groove_width"]) if ring else (0.0, 0.0)
    if outside > clutch.inner_diameter:
        why = "its ring does not go inside the dogs"
    elif stop.washer and stop.washer.outer > clutch.inner_diameter:
        why = "its thrust washer does not go inside the dogs"
    elif (
        wide + WASHER * (stop.washer is not None) + _TOUCH > 2 * clutch.dog_height - clutch.overlap
    ):
        why = "its ring would stop the clutch's sleeve"
    return stop._replace(kind="", why=why) if why else stop


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
        return _beside(self.name, self.side)


class Stack(NamedTuple):
    """A shaft with all that is on it: in order, what holds each, the rings' grooves, both ends, and its zones."""

    elements: tuple[Element, ...]
    stops: tuple[Stop, ...]
    grooves: tuple[Groove, ...]
    left: float
    right: float
    turned: tuple[zones.Zone, ...]

    @property
    def washers(self) -> list[Washer]:
        """Its thrust and support washers."""
        return [stop.washer for stop in self.stops if stop.kind and stop.washer]

    def before(self, groove: Groove) -> float:
        """Thickness in mm of the washer between a groove's ring and what it holds, nought where there is none."""
        return next((one.end - one.start for one in self.washers if one.name == groove.where), 0.0)

    def corner(self, groove: Groove) -> float:
        """Corner in mm across the shaft that a groove's ring lies against, nought where it is sharp.

        A washer fills as much of a bearing's corner as it is thick; what is cut here has sharp edges there.
        """
        one = next(one for one in self.elements if one.name == groove.name)
        if one.kind != "bearing":
            return 0.0
        return max(_rounded(one) - self.before(groove), 0.0)


@kept_by(*PLACED)
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
        stop = next((stop for stop in held if (stop.name, stop.side) == (one.name, side)), None)
        if not stop or not stop.ring:
            return zones.ROOM
        # its washer stands between the thing and its groove
        far = abs(stop.at - _face(one, side))
        return float(stop.ring["groove_width"] + stop.ring["edge"]) + far

    cut = []
    for stop in held:
        if stop.kind == "ring" and stop.ring:
            far = stop.at + stop.side * float(stop.ring["groove_width"])
            ends = min(stop.at, far), max(stop.at, far)
            cut.append(Groove(*ends, stop.name, stop.side, stop.ring))
    left, right = row[0].start - room(row[0], -1), row[-1].end + room(row[-1], 1)
    whole = tuple(zones.zones(spec, number, left, right))
    return Stack(tuple(row), tuple(held), tuple(cut), left, right, whole)
