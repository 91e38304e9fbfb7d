"""What is turned, milled and drilled on each shaft, place by place from its left end."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
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
    first, second, last = bearing_places(spec)
    row = bearing_for(own.diameter) if spec.bearings.kind == "rolling" else None
    wide = row["width"] if row else spec.bearings.bush_length
    seat, zone = (row["bore"], "k6") if row else (own.diameter, "f7")
    hubs = spec.hubs
    left = (
        -spec.reducer.overhang - hubs.box_length / 2 - ROOM
        if number == 1
        else first - wide / 2 - ROOM
    )
    right = last + wide / 2 + ROOM
    length = right - left
    segments = _segments(own, left, right)
    key = key_for(own.diameter, system)
    found: list[Feature] = []

    def add(
        words: str,
        middle: float,
        long: float,
        size: float,
        zone_of: str,
        note: str = "",
        kind: str = "seat",
    ) -> None:
        low, high = limits_of(size, zone_of) if zone_of else (size, size)
        found.append(
            Feature(
                words,
                middle - long / 2 - left,
                middle + long / 2 - left,
                size,
                low,
                high,
                note,
                kind,
            )
        )

    def keyway(words: str, middle: float, long: float) -> None:
        if own.keyway:
            add(
                f"keyway {words}",
                middle,
                min(long, key["longest"]),
                key["width"],
                "N9",
                f"{show(key['shaft_depth'], 'mm', system)} deep, cutter {show(key['width'], 'mm', system)}",
                "keyway",
            )

    if number == 1:
        add(
            "end for the box",
            -spec.reducer.overhang,
            hubs.box_length,
            own.diameter,
            "h6",
            "grease or paste so that it comes off again",
        )
        keyway(
            "for the box" if spec.fuse.kind == "none" else "for the flange of the fuse",
            -spec.reducer.overhang,
            hubs.box_length,
        )
    for words, middle in zip(
        (
            "seat in the plate at the reducer",
            "seat in the plate at the trough",
            "seat beyond the trough",
        ),
        (first, second, last),
        strict=True,
    ):
        add(
            words,
            middle,
            wide,
            seat,
            zone,
            "bearing, pressed or warmed on" if row else "turns in its bush",
        )
    _gear_seats(spec, number, own, add, keyway)
    _sleeve_pins(spec, add)
    found.sort(key=lambda one: (one.start, one.kind != "seat"))
    density = table("materials").find(own.material).values["density"]
    mass = sum(pi / 4 * size**2 * (end - start) for start, end, size in segments) * density * 1e-9
    return ShaftWork(
        number=number,
        length=length,
        left=left,
        features=tuple(found),
        segments=tuple(segments),
        material=own.material,
        mass=mass,
        seat=seat,
        bearing=row,
        fillet=own.fillet,
        diameter=own.diameter,
    )


def _gear_seats(
    spec: Spec,
    number: int,
    own: Shaft,
    add: Callable[..., None],
    keyway: Callable[[str, float, float], None],
) -> None:
    """Seats and keyways of the gears, and of the clutch sleeve where it is on this shaft."""
    has_clutch = spec.clutch.shaft == number
    for name in ("direct", "idler"):
        path = getattr(spec.paths, name)
        add(
            f"seat of the {name} gear",
            path.position,
            path.face_width,
            own.diameter,
            "f7" if has_clutch else "h6",
            "its bush turns here" if has_clutch else "fixed",
        )
        if not has_clutch and spec.hubs.gear == "key":
            keyway(f"for the {name} gear", path.position, spec.hubs.gear_length)
    if has_clutch:
        middle = (spec.paths.direct.position + spec.paths.idler.position) / 2
        room = (
            abs(spec.paths.direct.position - spec.paths.idler.position)
            - (spec.paths.direct.face_width + spec.paths.idler.face_width) / 2
        )
        add("seat of the clutch sleeve", middle, room, own.diameter, "f7", "the sleeve slides here")
        keyway("for the feather key", middle, room)


def _sleeve_pins(spec: Spec, add: Callable[..., None]) -> None:
    """Holes through shaft and sleeve together."""
    sleeve = spec.sleeve
    if sleeve.kind != "none":
        start = trough_ends(spec)[0]
        gap = 3 * sleeve.pin_diameter
        for k in range(sleeve.pins):
            add(
                f"pin hole {k + 1} of the sleeve",
                start + sleeve.pin_diameter + k * gap,
                sleeve.pin_diameter,
                sleeve.pin_diameter,
                "H7",
                "drill and ream through sleeve and shaft together, a quarter turn from the next",
                "hole",
            )
