"""What can still become of what lies on the shelf: bars for shafts, bearings and gears by size, motors and boxes as rows.

Everything is used once: whoever asks for several things at once asks :func:`allocate`.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from math import inf, isclose

from mixerkit.frozen import FrozenDict
from mixerkit.shop.shelf_file import (
    Shelf,
    ShelfBar,
    ShelfBox,
    ShelfMotor,
    ShelfOffcut,
    counts_as,
)
from mixerkit.tables import Row, table
from mixerkit.units import show

__all__ = [
    "Shelf",
    "ShelfBar",
    "Taken",
    "WantedBar",
    "allocate",
    "bar_for_shaft",
    "bearing_count",
    "boxes",
    "counts_as",
    "gear_count",
    "motors",
    "offcut_for",
]


@dataclass(frozen=True)
class WantedBar:
    """A piece that is to be sawn off a round bar.

    Attributes
    ----------
    name : str
    diameter, length : float
        At least, in mm; what is turned and faced off is in them.
    material : str
        Name of the one material that does; any, if empty.
    yield_strength : float
        At least, in MPa.
    """

    name: str
    diameter: float
    length: float
    material: str = ""
    yield_strength: float = 0.0

    def served_by(self, bar: ShelfBar) -> bool:
        """Whether a bar, long enough or not, is thick and strong enough and of the material."""
        what = counts_as(bar.material, bar.sure)
        if bar.diameter < self.diameter - 1e-6 or self.material not in ("", what):
            return False
        return self.yield_strength <= 0 or _yield_strength(what) >= self.yield_strength


def _yield_strength(material: str) -> float:
    """In MPa; nought where the table of materials does not have it."""
    rows = (row.values for row in table("materials"))
    return float(next((row["yield_strength"] for row in rows if row["name"] == material), 0.0))


@dataclass(frozen=True)
class Taken:
    """A piece that comes off a bar of the shelf.

    Attributes
    ----------
    bar : ShelfBar
    number : int
        Which bar it is, counted through all bars of the shelf from 0.
    left : float
        Left of the bar after all that is sawn off it, in mm.
    """

    bar: ShelfBar
    number: int
    left: float

    def words(self, system: str = "metric") -> str:
        """Say which bar it is."""
        size, long = (show(one, "mm", system, 4) for one in (self.bar.diameter, self.bar.length))
        return f"round {size} x {long}, {self.bar.material}, {self.bar.sure}"


def allocate(
    wanted: Sequence[WantedBar], bars: Sequence[ShelfBar], saw: float = 3.0
) -> list[Taken | None]:
    """Say for each wanted piece which bar of the shelf serves it, none twice.

    Parameters
    ----------
    wanted : sequence of WantedBar
    bars : sequence of ShelfBar
    saw : float
        Width of a saw cut in mm; a piece that takes a whole bar needs none.

    Returns
    -------
    list of Taken or None
        In the order of ``wanted``; None for a piece that no bar is left for.

    References
    ----------
    Each piece takes the thinnest bar that does, of equals the one with least left over. The pieces are served
    in three orders, thickest, longest and largest first, each with the thinnest and with the fullest bar first;
    the way that serves most pieces, of equals the one that turns least metal to chips, is kept.

    Examples
    --------
    >>> shelf = [ShelfBar(diameter=f"{d} mm", length=f"{l} mm") for d, l in ((50, 900), (40, 400))]
    >>> [one and one.bar.diameter for one in allocate([WantedBar("a", 38, 390), WantedBar("b", 38, 390)], shelf)]
    [40.0, 50.0]
    """
    stock = [bar for bar in bars for _ in range(bar.count)]
    orders = (
        lambda one: (-one.diameter, -one.length),
        lambda one: (-one.length, -one.diameter),
        lambda one: -one.length * one.diameter**2,
    )
    ways = [
        _served(
            sorted(range(len(wanted)), key=lambda k: order(wanted[k])), wanted, stock, saw, thin
        )
        for order in orders
        for thin in (True, False)
    ]
    return min(ways, key=lambda way: (way.count(None), _chips(way, wanted)))


def _served(
    order: Sequence[int],
    wanted: Sequence[WantedBar],
    stock: Sequence[ShelfBar],
    saw: float,
    thinnest: bool,
) -> list[Taken | None]:
    """Serve pieces one after the other, each with the thinnest bar that does or with the one it fills best."""
    left = [bar.length for bar in stock]
    place: dict[int, int] = {}
    for k in order:
        able = [
            n
            for n, bar in enumerate(stock)
            if left[n] >= wanted[k].length - 1e-6 and wanted[k].served_by(bar)
        ]
        if not able:
            continue
        best = min(
            able,
            key=lambda n: (
                (stock[n].diameter, left[n], n) if thinnest else (left[n], stock[n].diameter, n)
            ),
        )
        place[k] = best
        left[best] = max(left[best] - wanted[k].length - saw, 0.0)
    return [
        Taken(stock[place[k]], place[k], left[place[k]]) if k in place else None
        for k in range(len(wanted))
    ]


def _chips(way: Sequence[Taken | None], wanted: Sequence[WantedBar]) -> float:
    """Metal in mm3, but for a factor, that is turned off."""
    return sum(
        (one.bar.diameter**2 - piece.diameter**2) * piece.length
        for one, piece in zip(way, wanted, strict=True)
        if one
    )


def bar_for_shaft(
    shelf: Shelf, diameter: float, length: float, yield_strength: float = 0.0
) -> ShelfBar | None:
    """Find the smallest bar of a shelf that a shaft can be turned from.

    Parameters
    ----------
    shelf : Shelf
    diameter, length : float
        At least, in mm.
    yield_strength : float
        At least, in MPa; unknown steel counts as the weakest.

    Returns
    -------
    ShelfBar, or None
        For several shafts at once see :func:`allocate`.
    """
    (found,) = allocate(
        [WantedBar("shaft", diameter, length, yield_strength=yield_strength)], shelf.bars
    )
    return found.bar if found else None


def bearing_count(shelf: Shelf, bore: float, outer: float, width: float) -> int:
    """Count the bearings of three sizes in mm that are on a shelf, to 0.05 mm."""
    return sum(
        one.count
        for one in shelf.bearings
        if abs(one.bore - bore) < 0.05
        and abs(one.outer - outer) < 0.05
        and abs(one.width - width) < 0.05
    )


def gear_count(
    shelf: Shelf, module: float, tooth_count: int, face_width: float, bore: float, material: str
) -> int:
    """Count the gears of 20 deg on a shelf that become a wanted one by boring alone.

    Parameters
    ----------
    shelf : Shelf
    module, face_width, bore : float
        In mm; a wider gear is faced down, a smaller bore opened.
    tooth_count : int
    material : str
        As its teeth were reckoned with; a guess does not count as it.

    Returns
    -------
    int
    """
    return sum(
        one.count
        for one in shelf.gears
        if isclose(one.module, module, rel_tol=1e-4)
        and one.tooth_count == tooth_count
        and isclose(one.pressure_angle, 20.0, abs_tol=0.01)
        and one.face_width >= face_width - 1e-6
        and one.bore <= bore - 0.5
        and counts_as(one.material, one.sure) == material
    )


def offcut_for(
    shelf: Shelf, thickness: float, length: float, width: float, material: str, count: int = 1
) -> ShelfOffcut | None:
    """Find the thinnest, then smallest kind of offcut of which so many rectangles come, one out of each.

    Parameters
    ----------
    shelf : Shelf
    thickness, length, width : float
        At least, in mm; the rectangle may be turned.
    material : str
    count : int
        How many alike there must be.

    Returns
    -------
    ShelfOffcut, or None
    """
    long, short = max(length, width), min(length, width)
    able = [
        one
        for one in shelf.offcuts
        if one.count >= count
        and one.thickness >= thickness - 1e-6
        and max(one.length, one.width) >= long
        and min(one.length, one.width) >= short
        and counts_as(one.material, one.sure) == material
    ]
    return min(able, key=lambda one: (one.thickness, one.length * one.width), default=None)


def motors(shelf: Shelf) -> tuple[Row, ...]:
    """Give the motors of a shelf as rows like those of data/tables/motors.csv.

    What is not on a plate is the least that the table has; a frame is not known. Further columns: ``kind``,
    ``rated_voltage`` (None where not stated), ``rated_frequency`` and ``count``.

    Examples
    --------
    >>> one = Shelf(motors=[{"rated_power": "2 hp", "rated_speed": "1440 rpm", "shaft_end": "24 mm"}])
    >>> [(round(row.values["rated_power"], 2), row.values["start_torque_ratio"]) for row in motors(one)]
    [(1.49, 2.2)]
    """
    return tuple(
        _row("motors", one, "motors", {"frame": None}, ("kind", "rated_voltage", "rated_frequency"))
        for one in shelf.motors
    )


def boxes(shelf: Shelf) -> tuple[Row, ...]:
    """Give the boxes of a shelf as rows like those of data/tables/reducers.csv.

    What is not on a plate is the least that the table has for a box of that kind, of any kind where it has none.
    A further column: ``count``.

    Examples
    --------
    >>> plate = {"kind": "worm", "ratio": 60, "rated_torque": "400 N*m", "output_bore": "45 mm"}
    >>> boxes(Shelf(boxes=[plate]))[0].values["ratio"]
    60.0
    """
    return tuple(_row("reducers", one, "boxes", {"kind": one.kind}, ()) for one in shelf.boxes)


def _row(
    name: str,
    one: ShelfMotor | ShelfBox,
    what: str,
    fixed: dict[str, object],
    more: tuple[str, ...],
) -> Row:
    """A row with the columns of a table, from what a plate says and the least of the table."""
    like = table(name)
    alike = [row for row in like if row.values.get("kind") == fixed.get("kind")] or list(like)
    values: dict[str, object] = {}
    filled = []
    for column in like.rows[0].values:
        if column == "source" or column in fixed:
            values[column] = fixed.get(column)
            continue
        values[column] = getattr(one, column)
        if values[column] is None:
            values[column] = min((float(row.values[column]) for row in alike), default=inf)
            filled.append(column.replace("_", " "))
    least = f"; the least of the table of {what}: {', '.join(filled)}" if filled else ""
    values["source"] = f"from the shelf, as its plate has it{least}"
    values |= {column: getattr(one, column) for column in (*more, "count")}
    return Row(FrozenDict(values), FrozenDict(like.rows[0].units))
