"""What is turned, milled and drilled on each shaft, place by place from its left end."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace
from math import pi

from mixerkit.frozen import result
from mixerkit.parts import seated, stack, zones
from mixerkit.parts.along import NAMES, clutch_middle, sleeve_pin_places
from mixerkit.parts.bush_walls import TURNS
from mixerkit.parts.keyways import keyways
from mixerkit.shop.blanks import limits_of
from mixerkit.shop.turning import round_bar
from mixerkit.spec import Spec
from mixerkit.tables import table
from mixerkit.units import show

__all__ = ["BEARING_AT", "Feature", "seat_zone", "shaft_bar", "shaft_work", "thickest"]

BEARING_AT = dict(
    zip(
        NAMES,
        ("in the plate at the reducer", "in the plate at the trough", "beyond the trough"),
        strict=True,
    )
)
"""Where a shaft's three bearings are, in words."""


@dataclass(frozen=True)
class Feature:
    """One thing to make on a shaft.

    Attributes
    ----------
    words : str
    start, end : float
        From the shaft's left end, in mm.
    diameter : float
    least, most : float
        Limits of the diameter in mm; equal to it where any will do.
    note : str
    kind : str
        ``"seat"``, ``"keyway"``, ``"hole"``, ``"groove"`` or ``"bar"``.
    """

    words: str
    start: float
    end: float
    diameter: float
    least: float
    most: float
    note: str = ""
    kind: str = "seat"


@result
class ShaftWork:
    """Everything that is turned, milled and drilled on one shaft."""

    number: int
    length: float
    left: float
    features: tuple[Feature, ...]
    segments: tuple[tuple[float, float, float], ...]
    material: str
    mass: float
    fillet: float
    diameter: float


def shaft_work(
    spec: Spec, number: int, system: str = "metric", laid: stack.Stack | None = None
) -> ShaftWork:
    """Length, bar and features of a shaft.

    Parameters
    ----------
    spec : Spec
    number : int
        1 or 2.
    system : str
        Whose keys: ``"metric"`` or ``"inch"``.
    laid : Stack, optional
        The shaft laid out, where it is already.

    Returns
    -------
    ShaftWork
        ``length`` in mm, ``left`` position of its left end along the machine, ``features`` from left to
        right, ``segments`` (start, end, diameter) as turned, ``material``, ``mass`` in kg, ``diameter`` where
        it is thinnest.
    """
    own, laid = zones.own(spec, number), laid or stack.laid(spec, number)
    left, right = laid.left, laid.right
    segments = [(zone.start - left, zone.end - left, zone.diameter) for zone in laid.turned]
    placed = [
        *(_box_end(spec, laid) if number == 1 else ()),
        *_bearing_seats(spec, number),
        *_gear_seats(spec, number),
        *_keyways(spec, number, laid, system),
        *_sleeve_pins(spec),
        *_ring_grooves(laid),
    ]
    placed += _between_seats(laid, placed)
    features = (replace(one, start=one.start - left, end=one.end - left) for one in placed)
    density = table("materials").find(own.material).values["density"]
    mass = sum(pi / 4 * size**2 * (end - start) for start, end, size in segments) * density * 1e-9
    return ShaftWork(
        number=number,
        length=right - left,
        left=left,
        features=tuple(sorted(features, key=lambda one: (one.start, one.kind != "seat"))),
        segments=tuple(segments),
        material=own.material,
        mass=mass,
        fillet=own.fillet,
        diameter=min(size for _, _, size in segments),
    )


def shaft_bar(
    spec: Spec, number: int, system: str = "metric", laid: stack.Stack | None = None
) -> str:
    """Bar that a shaft is turned from, in words: the one its thickest place comes out of."""
    return round_bar(thickest(spec, number, laid), system)


def thickest(spec: Spec, number: int, laid: stack.Stack | None = None) -> float:
    """Diameter in mm of a shaft where it is thickest, as turned; ``laid`` where it is laid out already."""
    return max(zone.diameter for zone in (laid or stack.laid(spec, number)).turned)


def _feature(
    words: str, middle: float, long: float, size: float, zone: str, note: str, kind: str = "seat"
) -> Feature:
    """A feature about its middle, still placed along the machine and not from the shaft's end."""
    return Feature(
        words, middle - long / 2, middle + long / 2, size, *limits_of(size, zone), note, kind
    )


def _keyways(spec: Spec, number: int, laid: stack.Stack, system: str) -> Iterator[Feature]:
    """Keyways, each no longer than its key may be."""
    for one in keyways(spec, laid, number, system):
        deep, wide = (show(one.key[name], "mm", system) for name in ("shaft_depth", "width"))
        yield _feature(
            f"keyway {one.words}",
            (one.start + one.end) / 2,
            one.end - one.start,
            one.key["width"],
            "N9",
            f"{deep} deep, cutter {wide}",
            "keyway",
        )


def _box_end(spec: Spec, laid: stack.Stack) -> Iterator[Feature]:
    """Shaft 1's end in the hollow shaft of the box, and the seat of the fuse's flange."""
    place, long = -spec.reducer.overhang, spec.hubs.box_length
    size = zones.seat(spec, 1, zones.BOX)
    yield _feature(
        "end for the box",
        place,
        long,
        size,
        "h6",
        "grease or paste so that it comes off again",
    )
    if spec.fuse.kind == "none":
        return
    hub = next(one for one in laid.elements if one.name == seated.FLANGE)
    middle, wide = (hub.start + hub.end) / 2, hub.end - hub.start
    words = "seat for the flange of the fuse"
    yield _feature(words, middle, wide, size, "h6", "keyed, drawn up to its ring")


def seat_zone(spec: Spec, number: int, name: str) -> str:
    """Zone of fit of a shaft's seat, by what sits there; see :func:`mixerkit.parts.zones.seat_span`."""
    if name not in NAMES:
        return TURNS if spec.clutch.shaft == number else "h6"
    if not zones.bearing_on(spec, number, name):
        return TURNS
    return "h6" if zones.series_at(spec, name) == zones.INSERT else "k6"


_IN_BEARINGS = {
    TURNS: "turns in its bush",
    "k6": "bearing, pressed or warmed on",
    "h6": "insert bearing slides on; spot the shaft for its set screws",
}
"""What a seat of each zone is for, under a bearing."""


def _bearing_seats(spec: Spec, number: int) -> Iterator[Feature]:
    """Seats in both plates and beyond the trough: for a rolling bearing, or to turn in a bush."""
    for name, words in BEARING_AT.items():
        start, end = zones.seat_span(spec, number, name)
        yield _feature(
            f"seat {words}",
            (start + end) / 2,
            end - start,
            zones.as_turned(spec, number, name),
            zone := seat_zone(spec, number, name),
            _IN_BEARINGS[zone],
        )


def _gear_seats(spec: Spec, number: int) -> Iterator[Feature]:
    """Seats of the gears, and of the clutch sleeve where it is on this shaft."""
    has_clutch = spec.clutch.shaft == number
    note = "its bush turns here" if has_clutch else "fixed"
    direct, idler = spec.paths.direct, spec.paths.idler
    for name, path in (("direct", direct), ("idler", idler)):
        gear = f"{name} gear"
        size, zone = zones.seat(spec, number, gear), seat_zone(spec, number, gear)
        yield _feature(f"seat of the {gear}", path.position, path.face_width, size, zone, note)
    if has_clutch:
        middle, size = clutch_middle(spec), zones.seat(spec, number, zones.CLUTCH)
        note = "the sleeve slides here"
        yield _feature(
            "seat of the clutch sleeve", middle, zones.between_gears(spec), size, "f7", note
        )


def _sleeve_pins(spec: Spec) -> Iterator[Feature]:
    """Holes through shaft and sleeve together."""
    sleeve = spec.sleeve
    if sleeve.kind != "none":
        for k, place in enumerate(sleeve_pin_places(spec)):
            yield _feature(
                f"pin hole {k + 1} of the sleeve",
                place,
                sleeve.pin_diameter,
                sleeve.pin_diameter,
                "H7",
                "the same, a quarter turn on" if k else "ream with the sleeve, 45 deg off paddle 1",
                "hole",
            )


def _ring_grooves(laid: stack.Stack) -> Iterator[Feature]:
    """Grooves of the retaining rings."""
    for one in laid.grooves:
        size = float(one.ring["groove"])
        yield Feature(
            f"groove {one.where}",
            one.start,
            one.end,
            size,
            *limits_of(size, "h11"),
            "retaining ring; corners sharp",
            "groove",
        )


def _between_seats(laid: stack.Stack, placed: list[Feature]) -> list[Feature]:
    """What a stepped shaft is turned to where no seat says it: each step has its place and its size."""
    if len({zone.diameter for zone in laid.turned}) == 1:
        return []
    seats = [one for one in placed if one.kind == "seat"]
    return [
        Feature(
            "turned", *zone, *limits_of(zone.diameter, "h11"), "from shoulder to shoulder", "bar"
        )
        for zone in laid.turned
        if not any(one.start < zone.start + 0.01 and zone.end - 0.01 < one.end for one in seats)
    ]
