"""One shaft from end to end: where each thing sits on it, and how thick it is there.

Whoever asks for a bore, a seat, a bearing or a length of a shaft asks here: beam, checks, sheets, hole charts
and sizes as made alike. Positions run from the inside of the plate at the reducer towards the trough, in mm.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from functools import lru_cache
from typing import NamedTuple

from mixerkit.parts.along import NAMES, bearing_places, clutch_middle
from mixerkit.parts.remedies import lengths
from mixerkit.results import TableRow
from mixerkit.spec import Shaft, Spec
from mixerkit.tables import table

__all__ = [
    "BOX",
    "CLUTCH",
    "INSERT",
    "ROOM",
    "Zone",
    "as_turned",
    "bearing_for",
    "bearing_on",
    "bearing_rows",
    "between_gears",
    "bore_round",
    "free_gear_bores",
    "own",
    "seat",
    "seat_field",
    "seat_set",
    "seat_span",
    "seat_typed",
    "section_of",
    "section_set",
    "series_at",
    "thickest",
    "thickest_free_gear",
    "thickest_of",
    "zones",
    "zones_between",
]

BOX, CLUTCH = "reduction box", "clutch sleeve"
"""Names of what sits on one of the shafts only."""
ROOM = 5.0
"""Of a shaft beyond its last seat, in mm (common practice)."""


_BEYOND = 12.0
"""Of a bar beyond its outermost seat, in mm, that is turned down with it: a ring's groove and its edge."""


class Zone(NamedTuple):
    """A length of a shaft that is turned to one diameter, from the machine's datum, all in mm."""

    start: float
    end: float
    diameter: float


def own(spec: Spec, number: int) -> Shaft:
    """Give a shaft's record by its number."""
    return spec.shaft_1 if number == 1 else spec.shaft_2


INSERT = "insert"
"""Series of bearings that slide over a plain shaft and are held on it by set screws."""


def series_at(spec: Spec, name: str) -> str:
    """Series of the rolling bearing at one of the three places of a shaft."""
    far = name == NAMES[-1] and spec.bearings.far_end == "insert bearing"
    return INSERT if far else spec.bearings.series


@lru_cache(maxsize=64)
def bearing_rows(series: str) -> tuple[TableRow, ...]:
    """Rows of data/tables/rolling_bearings.csv of a series, thinnest bore first."""
    rows = [row.values for row in table("rolling_bearings") if row.values["series"] == series]
    return tuple(sorted(rows, key=lambda row: float(row["bore"])))


@lru_cache(maxsize=256)
def bearing_for(diameter: float, series: str = "62") -> TableRow | None:
    """Rolling bearing of a series with the largest bore that a shaft can be turned down to.

    An insert bearing goes on a bar of its own size: its seat is not turned down.
    """
    fitting = [row for row in bearing_rows(series) if row["bore"] <= diameter + 1e-6]
    best = fitting[-1] if fitting else None
    return None if best and series == INSERT and diameter - best["bore"] > 0.01 else best


def bearing_on(spec: Spec, number: int, name: str) -> TableRow | None:
    """Rolling bearing at one of the three places of a shaft; none in a bush or where none is small enough."""
    if spec.bearings.kind != "rolling":
        return None
    return bearing_for(seat(spec, number, name), series_at(spec, name))


def _placed(spec: Spec, name: str) -> tuple[float, float]:
    """Middle and length of what sits on a shaft under a name."""
    if name == BOX:
        return -spec.reducer.overhang, spec.hubs.box_length
    direct, idler = spec.paths.direct, spec.paths.idler
    if name == CLUTCH:
        return clutch_middle(spec), spec.clutch.sleeve_length
    if name in NAMES:
        # the length of a bearing follows from the section in its middle
        return bearing_places(spec)[NAMES.index(name)], 0.0
    path = direct if name == "direct gear" else idler
    return path.position, path.face_width


def between_gears(spec: Spec) -> float:
    """Room in mm along a shaft between the faces of its two gears."""
    direct, idler = spec.paths.direct, spec.paths.idler
    return abs(direct.position - idler.position) - (direct.face_width + idler.face_width) / 2


def seat_span(spec: Spec, number: int, name: str) -> tuple[float, float]:
    """Where a thing on a shaft begins and ends.

    Parameters
    ----------
    spec : Spec
    number : int
    name : str
        :data:`BOX`, :data:`CLUTCH`, ``"direct gear"``, ``"idler gear"`` or one of
        :data:`mixerkit.parts.along.NAMES`.

    Returns
    -------
    tuple of float
        In mm.
    """
    middle, long = _placed(spec, name)
    if name in NAMES:
        row = bearing_on(spec, number, name)
        long = row["width"] if row else spec.bearings.bush_length
    return middle - long / 2, middle + long / 2


def _sections(shaft: Shaft) -> list[Zone]:
    """A bar's sections as the design has them, the outermost without end."""
    bounds = (-float("inf"), *shaft.step_at, float("inf"))
    sizes = (shaft.diameter, *shaft.step_diameters)
    return [Zone(*one) for one in zip(bounds[:-1], bounds[1:], sizes, strict=True)]


def zones_between(shaft: Shaft, start: float, end: float) -> list[Zone]:
    """Cut a length of a shaft into its zones; at a point the thinner of both sides is one."""
    sections = _sections(shaft)
    cut = [
        Zone(max(low, start), min(high, end), size)
        for low, high, size in sections
        if min(high, end) - max(low, start) > 1e-6
    ]
    sides = [size for low, high, size in sections if low - 1e-6 <= start <= high + 1e-6]
    return cut or [Zone(start, end, min(sides))]


def seat(spec: Spec, number: int, name: str) -> float:
    """Diameter of a shaft, in mm, where a thing sits on it: the thinnest within the thing's length.

    Of a bearing it is the bar that its seat is turned down from, in the bearing's middle.

    Parameters
    ----------
    spec : Spec
    number : int
    name : str
        See :func:`seat_span`.

    Returns
    -------
    float
    """
    shaft = own(spec, number)
    if not shaft.step_at:
        return shaft.diameter
    middle, long = _placed(spec, name)
    return min(zone.diameter for zone in zones_between(shaft, middle - long / 2, middle + long / 2))


def thickest_of(row: Iterable[Zone], start: float, end: float) -> float:
    """Diameter of the thickest of some zones between two places, nought where none is."""
    return max(
        (zone.diameter for zone in row if min(zone.end, end) - max(zone.start, start) > 1e-6),
        default=0.0,
    )


def thickest(shaft: Shaft, start: float, end: float) -> float:
    """Thickest section of a shaft between two places, nought where there is nothing between."""
    return thickest_of(_sections(shaft), start, end)


def section_of(spec: Spec, number: int, name: str) -> int:
    """Say which of a shaft's diameters a seat has: 0 is ``diameter``, then ``step_diameters``."""
    shaft, size = own(spec, number), seat(spec, number, name)
    middle, long = _placed(spec, name)
    return next(
        k
        for k, (low, high, one) in enumerate(_sections(shaft))
        if one == size and low <= middle + long / 2 + 1e-6 and high >= middle - long / 2 - 1e-6
    )


def seat_field(spec: Spec, number: int, name: str) -> str:
    """Field of the design file that says how thick a seat is, such as ``"shaft_1.diameter"``."""
    first = section_of(spec, number, name) == 0
    return f"shaft_{number}.{'diameter' if first else 'step_diameters'}"


def seat_set(spec: Spec, number: int, name: str, size: float, system: str) -> dict[str, object]:
    """Change of the design that makes a seat so thick, in mm; other sections stay as they are."""
    shaft, section = own(spec, number), section_of(spec, number, name)
    if section == 0:
        return {f"shaft_{number}.diameter": size}
    sizes = list(shaft.step_diameters)
    sizes[section - 1] = size
    return {f"shaft_{number}.step_diameters": lengths(sizes, system)}


def seat_typed(spec: Spec, number: int, name: str, size: float) -> dict[str, object]:
    """As :func:`seat_set`, as it is typed into a file in mm."""
    return {
        field: f"{value:.6g} mm" if isinstance(value, float) else value
        for field, value in seat_set(spec, number, name, size, "metric").items()
    }


def section_set(
    spec: Spec, number: int, span: tuple[float, float], size: float
) -> dict[str, object]:
    """Change of the design that makes a shaft so thick between two places, in mm, and leaves the rest of it."""
    low, high = span
    sections = _sections(own(spec, number))
    cut = [
        *((one.start, one.diameter) for one in sections if one.start < low),
        (low, size),
        (high, next(one.diameter for one in sections if one.start <= high < one.end)),
        *((one.start, one.diameter) for one in sections if one.start > high),
    ]
    (_, first), *steps = cut
    field = f"shaft_{number}"
    return {
        f"{field}.diameter": f"{first:.6g} mm",
        f"{field}.step_at": [f"{at:.6g} mm" for at, _ in steps],
        f"{field}.step_diameters": [f"{one:.6g} mm" for _, one in steps],
    }


def as_turned(spec: Spec, number: int, name: str) -> float:
    """Diameter of a seat as it is turned, in mm: the bore of its rolling bearing, or of the shaft there."""
    row = bearing_on(spec, number, name) if name in NAMES else None
    return float(row["bore"]) if row else seat(spec, number, name)


def bore_round(spec: Spec, number: int, name: str) -> float:
    """Bore in mm of the plate or wall round one of a shaft's three bearings or bushes."""
    row = bearing_on(spec, number, name)
    return float(row["outer"]) if row else seat(spec, number, name) + 2 * spec.bearings.bush_wall


def zones(spec: Spec, number: int, left: float, right: float) -> list[Zone]:
    """Zones of a shaft between its ends, seats that are turned down for their bearings with them.

    Parameters
    ----------
    spec : Spec
    number : int
    left, right : float
        Its ends in mm.

    Returns
    -------
    list of Zone
        Neighbours have different diameters.
    """
    cut = zones_between(own(spec, number), left, right)
    for name in NAMES:
        row = bearing_on(spec, number, name)
        if row:
            start, end = seat_span(spec, number, name)
            bore = float(row["bore"])
            # a collar within the seat is in the way, and is no part of the bar that the seat is turned from
            cut = list(_turned(cut, start, end, bore, seat(spec, number, name)))
            # what is left of the bar beyond an outermost seat is turned down with it
            if start - left <= _BEYOND:
                cut = list(_turned(cut, left, start, bore, float("inf")))
            if right - end <= _BEYOND:
                cut = list(_turned(cut, end, right, bore, float("inf")))
    found: list[Zone] = []
    for zone in cut:
        if found and abs(found[-1].diameter - zone.diameter) < 1e-9:
            found[-1] = Zone(found[-1].start, zone.end, zone.diameter)
        else:
            found.append(zone)
    return found


def _turned(
    cut: Iterable[Zone], start: float, end: float, size: float, most: float
) -> Iterator[Zone]:
    """Turn a length down to a diameter where it is no thicker than ``most``, what is thinner staying as it is."""
    for zone in cut:
        low, high = max(zone.start, start), min(zone.end, end)
        if low >= high or not size < zone.diameter <= most + 1e-9:
            yield zone
            continue
        pieces = (
            (zone.start, low, zone.diameter),
            (low, high, size),
            (high, zone.end, zone.diameter),
        )
        yield from (Zone(*one) for one in pieces if one[1] - one[0] > 1e-9)


def free_gear_bores(spec: Spec) -> list[tuple[str, int, float]]:
    """Seats of the free gears: which, how many, and how thick in mm; both in one row where they are alike."""
    number = spec.clutch.shaft
    sizes = {name: seat(spec, number, f"{name} gear") for name in ("direct", "idler")}
    if len(set(sizes.values())) == 1:
        return [("", 2, sizes["direct"])]
    return [(f", {name} path", 1, size) for name, size in sizes.items()]


def thickest_free_gear(spec: Spec) -> float:
    """Thickness of the thicker seat of a free gear, in mm."""
    return max(size for _, _, size in free_gear_bores(spec))
