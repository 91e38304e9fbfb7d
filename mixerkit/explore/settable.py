"""What a maker can set a field to: sizes in stock and on the rule, rows of tables, whole counts.

A field is moved along an :class:`Axis`, a row of values that can be bought, cut, set or typed, each
as it stands in a design file. A list has an axis for each of its numbers.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Collection, Iterable, Iterator
from dataclasses import dataclass

import numpy as np

from mixerkit.design import LISTED, Design
from mixerkit.explore.sizes import IN_STOCK, exactly, settable_sizes, whole
from mixerkit.fields import Kind, Record
from mixerkit.fields.kinds import NumberKind, QuantityKind, WholeKind, WordsKind, YesNoKind
from mixerkit.fields.knobs import knob_range
from mixerkit.fields.lists import NumbersKind, PlacesKind, QuantitiesKind, WholesKind
from mixerkit.fields.nested import SectionKind
from mixerkit.tables import table
from mixerkit.units import Span

__all__ = [
    "Axis",
    "axes",
    "choices",
    "of_role",
    "settled",
]

_SHIFT_STEP = 0.05


@dataclass(frozen=True)
class Axis:
    """A row of values for one field.

    Attributes
    ----------
    field : str
        Dotted name.
    count : int
        How many values there are.
    write : callable
        Gives the value of a place as it stands in a design file.
    here : float
        Place of the value the design has, between two places where it has none of them.
    values : numpy.ndarray or None
        Values as plain numbers in the declared unit, rising; none where they have no order.
    """

    field: str
    count: int
    write: Callable[[int], object]
    here: float
    values: np.ndarray | None = None

    def place(self, value: float) -> int:
        """Place of the value nearest to a plain number on the side away from the design's own."""
        if self.values is None:
            raise ValueError(f"{self.field} has no order")
        slack = 1e-9 * max(abs(value), 1.0)
        if value >= self.values[min(max(math.ceil(self.here), 0), self.count - 1)]:
            found = int(np.searchsorted(self.values, value - slack))
        else:
            found = int(np.searchsorted(self.values, value + slack, side="right")) - 1
        return min(max(found, 0), self.count - 1)


def choices(record: type[Record] = Design, prefix: str = "") -> Iterator[tuple[str, Kind]]:
    """Name every field that is the maker's choice, and its kind.

    Examples
    --------
    >>> fields = dict(choices())
    >>> "shaft_1.diameter" in fields, "clay.water_content" in fields, "safety.hub" in fields
    (True, False, False)
    """
    yield from of_role(("choice",), record, prefix)


def of_role(
    roles: Collection[str], record: type[Record] = Design, prefix: str = ""
) -> Iterator[tuple[str, Kind]]:
    """Name every field in a table of the design file that has one of some roles, and its kind.

    Parameters
    ----------
    roles : collection of str
        Of :data:`mixerkit.fields.kinds.ROLES`.
    record : type of Record
    prefix : str
        What stands before the fields' names.

    Yields
    ------
    tuple of str and Kind

    Examples
    --------
    >>> next(of_role(["fact"]))[0]
    'batch.mass'
    """
    for name, one in record.__dataclass_fields__.items():
        kind = one.metadata["kind"]
        if isinstance(kind, SectionKind):
            yield from of_role(roles, kind.of, f"{prefix}{name}.")
        elif kind.role in roles and prefix:
            yield f"{prefix}{name}", kind


def axes(design: Design, dotted: str) -> list[Axis]:
    """Give the axes along which a design's field can be moved.

    Parameters
    ----------
    design : Design
    dotted : str
        A field, such as ``"shaft_1.diameter"``.

    Returns
    -------
    list of Axis

    Examples
    --------
    >>> [one.write(0) for one in axes(Design.demo(), "clutch.dogs")]
    [1]
    """
    record, name, kind = design.field(dotted)
    value = getattr(record, name)
    for kinds, make in _MAKERS:
        if isinstance(kind, kinds):
            return list(make(design, dotted, kind, value))
    return []


def settled(design: Design, dotted: str, value: object) -> list[object]:
    """Write a value to begin at as it stands in a file: next to it, on the side away from the design's.

    Parameters
    ----------
    design : Design
    dotted : str
    value : float, or what stands in a file
        A plain number in the unit the field declares.

    Returns
    -------
    list
        For a number the settable value beyond it, then the number itself to what a file shows, rounded
        both ways; for all else the value alone.

    Examples
    --------
    >>> settled(Design.demo(), "shaft_1.diameter", 46.3)
    ['48 mm']
    >>> settled(Design.demo(), "clutch.overlap", 8.386)
    ['8.5 mm', '8.39 mm', '8.38 mm']
    """
    record, name, kind = design.field(dotted)
    value = value.item() if isinstance(value, np.generic) else value
    if isinstance(kind, WholeKind) and isinstance(value, float) and math.isfinite(value):
        grows = value > getattr(record, name)
        return [math.ceil(value - 1e-9) if grows else math.floor(value + 1e-9)]
    if not isinstance(kind, QuantityKind) or not isinstance(value, (int, float)):
        return [value]
    if not math.isfinite(value):
        return []
    found: list[object] = []
    for axis in axes(design, dotted):
        beyond = axis.place(value)
        found.append(axis.write(beyond))
        if dotted not in IN_STOCK and not kind.reciprocal:
            found += exactly(kind, value, getattr(record, name), design.show_units)
    return list(dict.fromkeys(found))


def _ordered(dotted: str, sizes: np.ndarray, value: float, write: Callable[[int], object]) -> Axis:
    below, upto = (int(np.searchsorted(sizes, value + step)) for step in (-1e-9, 1e-9))
    here = float(below) if upto > below else below - 0.5
    return Axis(dotted, len(sizes), write, here, sizes.astype(float))


def _one_size(design: Design, dotted: str, kind: QuantityKind, value: float) -> Iterator[Axis]:
    sizes, write = settable_sizes(dotted, kind, design.show_units)
    yield _ordered(dotted, sizes, value, lambda k: write(float(sizes[k])))


def _one_number(_design: Design, dotted: str, kind: NumberKind, value: float) -> Iterator[Axis]:
    sizes = np.round(np.linspace(*knob_range(kind), 101), 4)
    yield _ordered(dotted, sizes, value, lambda k: whole(sizes[k]))


def _one_count(_design: Design, dotted: str, kind: WholeKind, value: int) -> Iterator[Axis]:
    sizes = np.arange(kind.least, kind.most + 1)
    yield _ordered(dotted, sizes, value, lambda k: int(sizes[k]))


def _left_out(design: Design, dotted: str, kind: PlacesKind, _value: object) -> Iterator[Axis]:
    """A list of things at places with one of them taken away."""
    record, name, _ = design.field(dotted)
    written = kind.write(getattr(record, name))
    left = [written[:k] + written[k + 1 :] for k in range(len(written))]
    if left:
        yield Axis(dotted, len(left), lambda k: left[k], -1.0)


def _named(design: Design, dotted: str, kind: Kind, value: object) -> list[Axis]:
    """Rows of a table, options, or the other one of true and false."""
    if dotted in LISTED:
        rows = table(LISTED[dotted])
        fitting = [
            row for row in rows if row.values.get("series", design.show_units) == design.show_units
        ]
        options = [row.values["name"] for row in fitting]
    elif isinstance(kind, YesNoKind):
        options = [False, True]
    elif dotted == "bearings.bush_fit":
        options = sorted({f"{row.hole}/{row.shaft}" for row in table("fit_uses")})
    elif isinstance(kind, WordsKind):
        options = list(kind.options)
    else:
        return []
    others = [one for one in options if one != value]
    return [Axis(dotted, len(others), lambda k: others[k], -1.0)] if others else []


def _counts(
    _design: Design, dotted: str, kind: WholesKind, value: tuple[int, ...]
) -> Iterator[Axis]:
    """Tooth counts: each alone, both ends together, and teeth given from one end to the other."""
    span = np.arange(kind.least, kind.most + 1)

    def put(places: tuple[int, ...]) -> Axis:
        def write(k: int) -> list[int]:
            return [int(span[k]) if i in places else one for i, one in enumerate(value)]

        return _ordered(dotted, span, value[places[0]], write)

    last = len(value) - 1
    yield put((0, last))
    for place in range(1, last):
        yield put((place,))
    yield put((0,))
    yield put((last,))
    total = value[0] + value[last]
    firsts = np.arange(max(kind.least, total - kind.most), min(kind.most, total - kind.least) + 1)
    yield _ordered(
        dotted, firsts, value[0], lambda k: [int(firsts[k]), *value[1:last], int(total - firsts[k])]
    )


def _shifts(
    design: Design, dotted: str, kind: NumbersKind, value: tuple[float, ...]
) -> Iterator[Axis]:
    """Profile shifts: all alike, or one of them."""
    path = getattr(design.paths, dotted.split(".")[1])
    value = value or (0.0,) * len(path.tooth_counts)
    limits = Span.read(kind.span)
    steps = np.arange(round(limits.least / _SHIFT_STEP), round(limits.most / _SHIFT_STEP) + 1)
    sizes = np.round(steps * _SHIFT_STEP, 4)
    everyone = tuple(range(len(value)))
    for places in (everyone, *((k,) for k in everyone)):

        def write(k: int, places: tuple[int, ...] = places) -> list[float]:
            return [float(sizes[k]) if i in places else one for i, one in enumerate(value)]

        yield _ordered(dotted, sizes, value[places[0]], write)


def _listed_sizes(
    design: Design, dotted: str, kind: QuantitiesKind, value: tuple[float, ...]
) -> Iterator[Axis]:
    """Lengths in a list: one of them at a time."""
    one_kind = QuantityKind(kind.meaning, "", kind.span)
    sizes, write_one = settable_sizes(dotted, one_kind, design.show_units)
    for place in range(len(value)):

        def write(k: int, place: int = place) -> list[str]:
            return [
                write_one(float(sizes[k]) if i == place else one) for i, one in enumerate(value)
            ]

        yield _ordered(dotted, sizes, value[place], write)


_MAKERS: tuple[tuple[type[Kind] | tuple[type[Kind], ...], Callable[..., Iterable[Axis]]], ...] = (
    ((WordsKind, YesNoKind), _named),
    (WholeKind, _one_count),
    (WholesKind, _counts),
    (NumbersKind, _shifts),
    (QuantitiesKind, _listed_sizes),
    (PlacesKind, _left_out),
    (QuantityKind, _one_size),
    (NumberKind, _one_number),
)
"""How the axes of a field are made, by its kind."""
