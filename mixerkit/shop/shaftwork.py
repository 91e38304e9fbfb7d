"""What is turned, milled and drilled on each shaft, place by place from its left end."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace
from math import pi

from mixerkit.frozen import result
from mixerkit.parts.keys import key_for
from mixerkit.parts.shaft_body import bearing_for
from mixerkit.parts.shaft_places import bearing_places, trough_ends
from mixerkit.results import TableRow
from mixerkit.shop.blanks import limits_of
from mixerkit.spec import Shaft, Spec
from mixerkit.tables import table
from mixerkit.units import show

__all__ = ["Feature", "shaft_work"]

ROOM = 5.0
"""Of a shaft beyond its last seat, in mm (common practice)."""


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
        ``"seat"``, ``"keyway"``, ``"hole"`` or ``"bar"``.
    """

    words: str
    start: float
    end: float
    diameter: float
    least: float
    most: float
    note: str = ""
    kind: str = "seat"


def _segments(own: Shaft, left: float, right: float) -> list[tuple[float, float, float]]:
    """Start, end and diameter of each step of a shaft, from its left end."""
    bounds = [left, *[at for at in own.step_at if left < at < right], right]
    known = list(zip(own.step_at, own.step_diameters, strict=True))
    sizes = [
        next((size for at, size in reversed(known) if at <= start + 1e-9), own.diameter)
        for start in bounds[:-1]
    ]
    return [
        (start - left, end - left, size)
        for start, end, size in zip(bounds[:-1], bounds[1:], sizes, strict=True)
    ]


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
    seat: float
    bearing: TableRow | None
    fillet: float
    diameter: float


def shaft_work(spec: Spec, number: int, system: str = "metric") -> ShaftWork:
    """Length, bar and features of a shaft.

    Parameters
    ----------
    spec : Spec
    number : int
        1 or 2.
    system : str
        Whose keys: ``"metric"`` or ``"inch"``.

    Returns
    -------
    ShaftWork
        ``length`` in mm, ``left`` position of its left end along the machine, ``features`` from left to
        right, ``segments`` (start, end, diameter) of the bar, ``material``, ``mass`` in kg, ``seat`` the
        diameter in the bearings.
    """
    own = getattr(spec, f"shaft_{number}")
    first, _, last = bearing_places(spec)
    row = (
        bearing_for(own.diameter, spec.bearings.series) if spec.bearings.kind == "rolling" else None
    )
    wide = row["width"] if row else spec.bearings.bush_length
    box_end = -spec.reducer.overhang - spec.hubs.box_length / 2
    left = (box_end if number == 1 else first - wide / 2) - ROOM
    right = last + wide / 2 + ROOM
    segments = _segments(own, left, right)
    placed = [
        *(_box_end(spec, system) if number == 1 else ()),
        *_bearing_seats(spec, own, row, wide),
        *_gear_seats(spec, number, system),
        *_sleeve_pins(spec),
    ]
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
        seat=row["bore"] if row else own.diameter,
        bearing=row,
        fillet=own.fillet,
        diameter=own.diameter,
    )


def _feature(
    words: str, middle: float, long: float, size: float, zone: str, note: str, kind: str = "seat"
) -> Feature:
    """A feature about its middle, still placed along the machine and not from the shaft's end."""
    return Feature(
        words, middle - long / 2, middle + long / 2, size, *limits_of(size, zone), note, kind
    )


def _keyway(own: Shaft, system: str, words: str, middle: float, long: float) -> Iterator[Feature]:
    """A keyway, where the shaft has any, no longer than its key may be."""
    if own.keyway:
        key = key_for(own.diameter, system)
        deep, wide = (show(key[one], "mm", system) for one in ("shaft_depth", "width"))
        yield _feature(
            f"keyway {words}",
            middle,
            min(long, key["longest"]),
            key["width"],
            "N9",
            f"{deep} deep, cutter {wide}",
            "keyway",
        )


def _box_end(spec: Spec, system: str) -> Iterator[Feature]:
    """Shaft 1's end in the hollow shaft of the box, and its keyway."""
    place, long = -spec.reducer.overhang, spec.hubs.box_length
    yield _feature(
        "end for the box",
        place,
        long,
        spec.shaft_1.diameter,
        "h6",
        "grease or paste so that it comes off again",
    )
    words = "for the box" if spec.fuse.kind == "none" else "for the flange of the fuse"
    yield from _keyway(spec.shaft_1, system, words, place, long)


def _bearing_seats(spec: Spec, own: Shaft, row: TableRow | None, wide: float) -> Iterator[Feature]:
    """Seats in both plates and beyond the trough: for a rolling bearing, or to turn in a bush."""
    seat, zone = (row["bore"], "k6") if row else (own.diameter, "f7")
    note = "bearing, pressed or warmed on" if row else "turns in its bush"
    where = ("in the plate at the reducer", "in the plate at the trough", "beyond the trough")
    for words, middle in zip(where, bearing_places(spec), strict=True):
        yield _feature(f"seat {words}", middle, wide, seat, zone, note)


def _gear_seats(spec: Spec, number: int, system: str) -> Iterator[Feature]:
    """Seats and keyways of the gears, and of the clutch sleeve where it is on this shaft."""
    own, has_clutch = getattr(spec, f"shaft_{number}"), spec.clutch.shaft == number
    zone, note = ("f7", "its bush turns here") if has_clutch else ("h6", "fixed")
    direct, idler = spec.paths.direct, spec.paths.idler
    for name, path in (("direct", direct), ("idler", idler)):
        words = f"seat of the {name} gear"
        yield _feature(words, path.position, path.face_width, own.diameter, zone, note)
        if not has_clutch and spec.hubs.gear == "key":
            words = f"for the {name} gear"
            yield from _keyway(own, system, words, path.position, spec.hubs.gear_length)
    if has_clutch:
        middle = (direct.position + idler.position) / 2
        room = abs(direct.position - idler.position) - (direct.face_width + idler.face_width) / 2
        note = "the sleeve slides here"
        yield _feature("seat of the clutch sleeve", middle, room, own.diameter, "f7", note)
        yield from _keyway(own, system, "for the feather key", middle, room)


def _sleeve_pins(spec: Spec) -> Iterator[Feature]:
    """Holes through shaft and sleeve together."""
    sleeve = spec.sleeve
    if sleeve.kind != "none":
        start = trough_ends(spec)[0]
        gap = 3 * sleeve.pin_diameter
        for k in range(sleeve.pins):
            yield _feature(
                f"pin hole {k + 1} of the sleeve",
                start + sleeve.pin_diameter + k * gap,
                sleeve.pin_diameter,
                sleeve.pin_diameter,
                "H7",
                "drill and ream through sleeve and shaft together, a quarter turn from the next",
                "hole",
            )
