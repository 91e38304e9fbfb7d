"""Declaring a field of a record by what it holds."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import field
from typing import TYPE_CHECKING, Any, TypeVar

from mixerkit.fields.kinds import (
    DayKind,
    Kind,
    NumberKind,
    PointKind,
    QuantityKind,
    WholeKind,
    WordsKind,
    YesNoKind,
)
from mixerkit.fields.lists import (
    ByNameKind,
    NumbersKind,
    PlacesKind,
    QuantitiesKind,
    SizesKind,
    TextsKind,
    WholeListsKind,
    WholesBySizeKind,
    WholesKind,
)
from mixerkit.fields.nested import RecordsKind, RowsKind, SectionKind
from mixerkit.frozen import FrozenDict

if TYPE_CHECKING:
    from mixerkit.fields.record import Record

__all__ = [
    "by_name",
    "choice",
    "day",
    "if_given",
    "number",
    "numbers",
    "places",
    "point",
    "quantities",
    "quantity",
    "records",
    "rows",
    "section",
    "sizes",
    "texts",
    "whole",
    "whole_lists",
    "wholes",
    "wholes_by_size",
    "words",
    "yes_no",
]


R = TypeVar("R", bound="Record")


def _field(kind: Kind, default: object) -> Any:
    if default is None:
        return field(metadata={"kind": kind})
    if isinstance(kind, SectionKind):
        return field(metadata={"kind": kind}, default_factory=kind.of)
    return field(metadata={"kind": kind}, default=kind.read(default))


def quantity(
    span: str,
    meaning: str,
    example: str,
    default: str | None = None,
    *,
    reciprocal: bool = False,
    role: str = "",
) -> float:
    """Declare a field for a quantity, such as ``quantity("mm > 0 <= 500", "shaft diameter", "35 mm")``."""
    declared: float = _field(QuantityKind(meaning, example, span, reciprocal, role=role), default)
    return declared


def number(
    span: str, meaning: str, example: str, default: float | None = None, *, role: str = ""
) -> float:
    """Declare a field for a plain number in a range, such as an efficiency."""
    declared: float = _field(NumberKind(meaning, example, span, role=role), default)
    return declared


def whole(
    least: int, most: int, meaning: str, example: str, default: int | None = None, *, role: str = ""
) -> int:
    """Declare a field for a whole number, such as a count of poles."""
    declared: int = _field(WholeKind(meaning, example, least, most, role=role), default)
    return declared


def wholes(
    least: int, most: int, fewest: int, longest: int, meaning: str, example: str
) -> tuple[int, ...]:
    """Declare a field for a list of whole numbers, such as tooth counts along a path."""
    declared: tuple[int, ...] = _field(
        WholesKind(meaning, example, least, most, fewest, longest), None
    )
    return declared


def numbers(
    span: str, longest: int, meaning: str, example: str, default: tuple[float, ...]
) -> tuple[float, ...]:
    """Declare a field for a list of plain numbers, such as profile shifts along a path."""
    declared: tuple[float, ...] = _field(NumbersKind(meaning, example, span, longest), default)
    return declared


def quantities(span: str, longest: int, meaning: str, example: str) -> tuple[float, ...]:
    """Declare a field for a list of quantities, empty if left out, such as a shaft's steps."""
    declared: tuple[float, ...] = field(
        metadata={"kind": QuantitiesKind(meaning, example, span, longest)}, default=()
    )
    return declared


def places(
    options: tuple[str, ...], span: str, longest: int, meaning: str, example: str
) -> tuple[tuple[str, float], ...]:
    """Declare a field for a list of things at places, empty if left out, such as notches."""
    kind = PlacesKind(meaning, example, options, span, longest)
    declared: tuple[tuple[str, float], ...] = field(metadata={"kind": kind}, default=())
    return declared


def point(span: str, meaning: str, example: str) -> Any:
    """Declare a field for a place in a plane, such as that of a bore from two edges."""
    return _field(PointKind(meaning, example, span), None)


def sizes(
    span: str,
    longest: int,
    meaning: str,
    example: str,
    named: Callable[[str], tuple[float, ...]] | None = None,
) -> Any:
    """Declare a field for a set of sizes, empty if left out, such as the drills on a shelf.

    ``named`` gives the sizes in the span's unit of what is given by name, such as a letter drill.
    """
    kind = SizesKind(meaning, example, span, longest, named)
    return field(metadata={"kind": kind}, default=())


def whole_lists(least: int, most: int, lists: int, longest: int, meaning: str, example: str) -> Any:
    """Declare a field for a list of lists of whole numbers, such as the circles of dividing plates."""
    return _field(WholeListsKind(meaning, example, least, most, lists, longest), None)


def wholes_by_size(span: str, least: int, most: int, meaning: str, example: str) -> Any:
    """Declare a table with lines by size, such as the numbers of cutters by module."""
    return _field(WholesBySizeKind(meaning, example, span, least, most), None)


def texts(longest: int, meaning: str, example: str) -> Any:
    """Declare a field for a list of texts, empty if left out, such as names of taps."""
    return field(metadata={"kind": TextsKind(meaning, example, longest)}, default=())


def rows(of: type[Record], names: tuple[str, ...], what: str, meaning: str) -> Any:
    """Declare a table of records by name, empty if left out; an unknown name is no such ``what``."""
    return field(
        metadata={"kind": RowsKind(meaning, "", of, names, what)}, default_factory=FrozenDict
    )


def records(of: type[Record], longest: int, meaning: str) -> Any:
    """Declare a list of records, empty if left out, such as the bars on a shelf."""
    return field(metadata={"kind": RecordsKind(meaning, "", of, longest)}, default=())


def by_name(meaning: str, example: str) -> Any:
    """Declare a table of values by the name of a field, empty if left out, such as those the kit drafted."""
    return field(metadata={"kind": ByNameKind(meaning, example)}, default_factory=FrozenDict)


def if_given(declared: Any) -> Any:
    """Declare a field that may be left out and is None then, such as a size nobody measured yet."""
    return field(metadata=declared.metadata, default=None)


def words(meaning: str, example: str, default: str | None = None, *, role: str = "") -> str:
    """Declare a field for one line of text."""
    declared: str = _field(WordsKind(meaning, example, role=role), default)
    return declared


def choice(
    options: tuple[str, ...], meaning: str, default: str | None = None, *, role: str = ""
) -> str:
    """Declare a field for one of a few words."""
    declared: str = _field(WordsKind(meaning, options[0], options, role=role), default)
    return declared


def day(meaning: str, example: str) -> str:
    """Declare a field for a day, empty if left out."""
    declared: str = _field(DayKind(meaning, example), "")
    return declared


def yes_no(meaning: str, *, default: bool | None = None) -> bool:
    """Declare a field that is true or false."""
    declared: bool = _field(YesNoKind(meaning, "true"), default)
    return declared


def section(of: type[R], meaning: str, *, optional: bool = False) -> R:
    """Declare a field that holds another record; an optional one may be left out whole."""
    declared: R = _field(SectionKind(meaning, "", of), of if optional else None)
    return declared
