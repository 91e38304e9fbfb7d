"""Frozen records of a machine's parts, and the field kinds they are made of.

A record is a frozen dataclass whose fields say what they hold: :func:`quantity`, :func:`number`,
:func:`whole`, :func:`wholes`, :func:`words`, :func:`choice`, :func:`yes_no`, :func:`section` and so on.
Reading a field gives the value or one sentence about what is wrong with it; reading a record
gathers the sentences of all its fields. Designs, shops and sizes as made are records alike.
"""

from __future__ import annotations

import contextlib
import dataclasses
import difflib
import math
import re
from collections.abc import Collection, Iterable, Mapping
from dataclasses import Field, dataclass, field
from datetime import date
from types import MappingProxyType
from typing import Any, ClassVar, Self, TypeGuard, TypeVar, dataclass_transform

import numpy as np

from mixerkit.frozen import FrozenDict
from mixerkit.units import (
    InputError,
    Measured,
    Span,
    as_written,
    read_quantity,
    refuse_list,
    show,
    shown_unit,
    to_plain,
    unit_of,
)

__all__ = [
    "ROLES",
    "Kind",
    "Record",
    "choice",
    "day",
    "example_of",
    "if_given",
    "kind_of",
    "kinds_in",
    "nearest",
    "number",
    "numbers",
    "places",
    "point",
    "quantities",
    "quantity",
    "rows",
    "section",
    "sizes",
    "texts",
    "unknown",
    "values_in",
    "whole",
    "whole_lists",
    "wholes",
    "wholes_by_size",
    "words",
    "yes_no",
]


R = TypeVar("R", bound="Record")

ROLES = ("fact", "choice", "practice", "wanted")
"""What a field is to a maker: a *fact* is measured or read off a plate or a box; a *choice* is the maker's own;
*practice* is a factor, an efficiency or a scatter, to be confirmed; *wanted* is how much the maker asks for."""
_MOST_NAMED = 30
"""Unknown names of one table that are each told what they resemble."""
_MOST_STEPS = 1000
"""Steps of one run of sizes."""


@dataclass(frozen=True)
class Kind:
    """What a field holds: how it is read, made plain and written.

    Attributes
    ----------
    meaning : str
        The field in plain words, used in messages and as a knob's tooltip.
    example : str
        A value that works, as it stands in a file.
    role : str
        One of :data:`ROLES`; empty until its record gives it the one of all its fields.
    """

    meaning: str
    example: str
    role: str = field(default="", kw_only=True)

    def read(self, raw: object) -> object:
        """Give the value of a raw one, or raise InputError with one sentence."""
        raise NotImplementedError

    def read_at(self, raw: object, where: str) -> Any:
        """Read a raw value that stands under a dotted name, which each sentence then begins with."""
        try:
            return self.read(raw)
        except InputError as error:
            raise InputError(*(f"{where}: {text}" for text in error.messages)) from None

    def number(self, value: Any) -> object:
        """Value as a plain number in the unit the field declares."""
        return value

    def write(self, value: Any) -> object:
        """Value as it stands in a file."""
        return value


@dataclass(frozen=True)
class QuantityKind(Kind):
    """A quantity in a stated range; a pitch may be given as teeth per length."""

    span: str
    reciprocal: bool = False

    def read(self, raw: object) -> Measured:
        refuse_list(raw, self.example)
        limits = Span.read(self.span)
        if self.reciprocal and _is_per_length(raw):
            given = read_quantity(raw, f"1/{limits.unit}", self.example)
            if given.magnitude <= 0:
                raise InputError(f'"{raw}" is not above zero; for example "{self.example}".')
            limits.check(raw, (1 / given).m_as(unit_of(limits.unit)), self.example)
            return given
        given = read_quantity(raw, limits.unit, self.example)
        limits.check(raw, given.m_as(unit_of(limits.unit)), self.example)
        return given

    def number(self, value: Measured) -> float:
        unit = Span.read(self.span).unit
        flipped = self.reciprocal and not value.is_compatible_with(unit)
        return float((1 / value if flipped else value).m_as(unit_of(unit)))

    def write(self, value: Measured) -> str:
        number = f"{value.magnitude:.10g}"
        if self.reciprocal and not value.is_compatible_with(Span.read(self.span).unit):
            return f"{number} / in" if value.check("1/[length]") else number
        return f"{number} {_spelt(value)}"


def _is_per_length(raw: object) -> bool:
    """Whether a raw value is written as so many per length; "3/16 in" is a length."""
    if isinstance(raw, str):
        return bool(re.match(r"^[^/]*/\s*[A-Za-z]", raw))
    return hasattr(raw, "check") and bool(raw.check("1/[length]"))


def _spelt(value: Measured) -> str:
    text = f"{value.units:~C}".replace("**", "^")
    return {"m*N": "N*m", "ft*lbf": "lbf*ft", "in*lbf": "lbf*in"}.get(text, text)


@dataclass(frozen=True)
class NumberKind(Kind):
    """A plain number in a stated range; a percentage is understood."""

    span: str

    def read(self, raw: object) -> float:
        refuse_list(raw, self.example)
        if isinstance(raw, str) and not raw.strip().endswith("%"):
            raise InputError(
                f'"{raw}" is text; a plain number is wanted, for example {self.example}.'
            )
        return float(to_plain(raw, self.span, self.example))


@dataclass(frozen=True)
class WholeKind(Kind):
    """A whole number from ``least`` to ``most``."""

    least: int
    most: int

    def read(self, raw: object) -> int:
        if not _is_whole(raw, self.least, self.most):
            raise InputError(
                f"{as_written(raw)} does not fit; a whole number from {self.least} to {self.most} is wanted, "
                f"for example {self.example}."
            )
        return raw


def _is_whole(raw: object, least: int, most: int) -> TypeGuard[int]:
    return isinstance(raw, int) and not isinstance(raw, bool) and least <= raw <= most


@dataclass(frozen=True)
class WholesKind(Kind):
    """A list of whole numbers, at least ``fewest`` of them."""

    least: int
    most: int
    fewest: int
    longest: int

    def read(self, raw: object) -> tuple[int, ...]:
        wanted = (
            f"a list of {self.fewest} to {self.longest} whole numbers from {self.least} to {self.most} "
            f"is wanted, for example {self.example}."
        )
        if not isinstance(raw, (list, tuple)) or not self.fewest <= len(raw) <= self.longest:
            raise InputError(f"{as_written(raw)} does not fit; {wanted}")
        for one in raw:
            if not _is_whole(one, self.least, self.most):
                raise InputError(f"{as_written(one)} in the list does not fit; {wanted}")
        return tuple(int(one) for one in raw)

    def write(self, value: Iterable[int]) -> list[int]:
        return list(value)


@dataclass(frozen=True)
class NumbersKind(Kind):
    """A list of plain numbers in a stated range, possibly empty."""

    span: str
    longest: int

    def read(self, raw: object) -> tuple[float, ...]:
        if not isinstance(raw, (list, tuple)) or len(raw) > self.longest:
            raise InputError(
                f"{as_written(raw)} does not fit; a list of at most {self.longest} numbers is wanted, "
                f"for example {self.example}."
            )
        one = NumberKind(self.meaning, self.example, self.span)
        return tuple(one.read(number) for number in raw)

    def write(self, value: Iterable[float]) -> list[float]:
        return list(value)


@dataclass(frozen=True)
class QuantitiesKind(Kind):
    """A list of quantities in a stated range, possibly empty."""

    span: str
    longest: int

    def read(self, raw: object) -> tuple[Measured, ...]:
        if not isinstance(raw, (list, tuple)) or len(raw) > self.longest:
            raise InputError(
                f"{as_written(raw)} does not fit; a list of at most {self.longest} quantities is wanted, "
                f"for example {self.example}."
            )
        one = QuantityKind(self.meaning, self.example.strip("[]").replace('"', ""), self.span)
        return tuple(one.read(quantity) for quantity in raw)

    def number(self, value: Iterable[Measured]) -> tuple[float, ...]:
        unit = Span.read(self.span).unit
        return tuple(float(one.m_as(unit_of(unit))) for one in value)

    def write(self, value: Iterable[Measured]) -> list[str]:
        return [f"{one.magnitude:.10g} {_spelt(one)}" for one in value]


@dataclass(frozen=True)
class PlacesKind(Kind):
    """A list of things each at a place, written ``"groove at 12 mm"``."""

    options: tuple[str, ...]
    span: str
    longest: int

    def read(self, raw: object) -> tuple[str, ...]:
        wanted = (
            f"a list of at most {self.longest} texts, each one of {_listed(self.options)} with its place, "
            f"is wanted, for example {self.example}."
        )
        if not isinstance(raw, (list, tuple)) or len(raw) > self.longest:
            raise InputError(f"{as_written(raw)} does not fit; {wanted}")
        for one in raw:
            what, _, where = str(one).partition(" at ")
            if not isinstance(one, str) or what not in self.options:
                raise InputError(f"{as_written(one)} does not fit; {wanted}")
            to_plain(where, self.span, "12 mm")
        return tuple(raw)

    def number(self, value: Iterable[str]) -> tuple[tuple[str, float], ...]:
        parts = [one.partition(" at ") for one in value]
        return tuple((what, float(to_plain(where, self.span))) for what, _, where in parts)

    def write(self, value: Iterable[str]) -> list[str]:
        return list(value)


@dataclass(frozen=True)
class PointKind(Kind):
    """A place in a plane: two lengths from two edges."""

    span: str

    def read(self, raw: object) -> tuple[Any, Any]:
        if not isinstance(raw, (list, tuple)) or len(raw) != 2:
            raise InputError(
                f"{as_written(raw)} does not fit; a place is wanted, for example {self.example}."
            )
        one = QuantityKind(self.meaning, _first_of(self.example), self.span)
        return one.read(raw[0]), one.read(raw[1])

    def number(self, value: Any) -> tuple[float, float]:
        x, y = (float(one.m_as(unit_of(Span.read(self.span).unit))) for one in value)
        return x, y

    def write(self, value: Any) -> list[str]:
        return [f"{one.magnitude:.10g} {_spelt(one)}" for one in value]


def _first_of(example: str) -> str:
    """First quantity of a list of them, as it stands in a file."""
    return example.strip("[]").partition(",")[0].strip('"')


@dataclass(frozen=True)
class SizesKind(Kind):
    """A set of sizes, one by one or in even steps as ``"1 mm to 13 mm by 0.5 mm"``; plain, they rise."""

    span: str
    longest: int

    def read(self, raw: object) -> tuple[str, ...]:
        if not isinstance(raw, (list, tuple)) or len(raw) > self.longest:
            raise InputError(
                f"{as_written(raw)} does not fit; a list of at most {self.longest} sizes is wanted, "
                f"for example {self.example}."
            )
        return tuple(self._one(size) for size in raw)

    def _one(self, raw: object) -> str:
        kind = QuantityKind(self.meaning, _first_of(self.example), self.span)
        parts = _run(raw)
        if not parts:
            return kind.write(kind.read(raw))
        start, stop, step = (kind.number(kind.read(part)) for part in parts)
        if stop < start or (stop - start) / step > _MOST_STEPS:
            raise InputError(
                f'"{raw}" does not fit; a rising run of at most {_MOST_STEPS} steps is wanted, '
                'for example "1 mm to 13 mm by 0.5 mm".'
            )
        return str(raw)

    def number(self, value: Any) -> tuple[float, ...]:
        found: set[float] = set()
        for one in value:
            parts = [float(to_plain(part, self.span)) for part in _run(one) or (one,)]
            if len(parts) == 3:
                start, stop, step = parts
                parts = list(np.arange(start, stop + step / 2, step))
            found |= {round(float(size), 6) for size in parts}
        return tuple(sorted(found))

    def write(self, value: Any) -> list[str]:
        return list(value)


def _run(raw: object) -> tuple[str, ...]:
    """Start, end and step of a run of sizes; empty for one size."""
    found = re.fullmatch(r"(.+) to (.+) by (.+)", raw) if isinstance(raw, str) else None
    return found.groups() if found else ()


@dataclass(frozen=True)
class WholeListsKind(Kind):
    """A list of lists of whole numbers, possibly empty, such as the hole circles of dividing plates."""

    least: int
    most: int
    lists: int
    longest: int

    def read(self, raw: object) -> tuple[tuple[int, ...], ...]:
        wanted = (
            f"at most {self.lists} lists of at most {self.longest} whole numbers from {self.least} to "
            f"{self.most} are wanted, for example {self.example}."
        )
        if (
            not isinstance(raw, (list, tuple))
            or len(raw) > self.lists
            or not all(isinstance(one, (list, tuple)) and len(one) <= self.longest for one in raw)
        ):
            raise InputError(f"{as_written(raw)} does not fit; {wanted}")
        for one in (number for inner in raw for number in inner):
            if not _is_whole(one, self.least, self.most):
                raise InputError(f"{as_written(one)} in a list does not fit; {wanted}")
        return tuple(tuple(int(one) for one in inner) for inner in raw)

    def write(self, value: Any) -> list[list[int]]:
        return [list(inner) for inner in value]


@dataclass(frozen=True)
class WholesBySizeKind(Kind):
    """A table with lines by size in a unit, each a set of whole numbers, such as ``"5" = [1, 2, 3]``."""

    span: str
    least: int
    most: int

    def read(self, raw: object) -> Mapping[float, frozenset[int]]:
        return self.read_at(raw, "")

    def read_at(self, raw: object, where: str) -> Mapping[float, frozenset[int]]:
        if not isinstance(raw, Mapping):
            raise InputError(
                f"{where}: {as_written(raw)} does not fit; a table [{where}] is wanted with lines such as "
                f"{self.example}."
            )
        inner = WholesKind("", "[1, 2, 3]", self.least, self.most, 0, self.most - self.least + 1)
        faults: list[str] = []
        found: dict[float, frozenset[int]] = {}
        for key, listed in raw.items():
            at = _join(where, f"{key:.10g}" if isinstance(key, float) else str(key))
            try:
                size = self._size(key, at)
                sets = isinstance(listed, (set, frozenset))
                numbers = inner.read_at(sorted(listed) if sets else listed, at)
            except InputError as error:
                faults += error.messages
                continue
            if size in found:
                faults.append(f"{at}: {size:.10g} is given twice; one line is wanted.")
            found[size] = frozenset(numbers)
        if len(faults) > _MOST_NAMED:
            faults[_MOST_NAMED:] = [f"{where}: {len(faults) - _MOST_NAMED} more lines do not fit."]
        if faults:
            raise InputError(*faults)
        return FrozenDict(found)

    def _size(self, key: object, at: str) -> float:
        limits = Span.read(self.span)
        text = f"{key:.10g}" if isinstance(key, float) else str(key)
        size = float(text) if re.fullmatch(r"[0-9]{1,6}(\.[0-9]{1,6})?", text) else math.nan
        if not limits.holds(size):
            raise InputError(
                f'{at}: "{text}" does not fit; a plain number in {limits.unit} is wanted, {limits.words()}, '
                f"for example {self.example}."
            )
        return size

    def write(self, value: Any) -> dict[str, list[int]]:
        return {f"{size:.10g}": sorted(listed) for size, listed in value.items()}


@dataclass(frozen=True)
class TextsKind(Kind):
    """A list of texts, possibly empty, such as names of a table's rows."""

    longest: int

    def read(self, raw: object) -> tuple[str, ...]:
        if not isinstance(raw, (list, tuple)) or len(raw) > self.longest:
            raise InputError(
                f"{as_written(raw)} does not fit; a list of at most {self.longest} names is wanted, "
                f"for example {self.example}."
            )
        one = WordsKind(self.meaning, _first_of(self.example))
        return tuple(one.read(text) for text in raw)

    def write(self, value: Any) -> list[str]:
        return list(value)


def _plain_line(raw: str) -> bool:
    """Whether a text is one line and holds nothing that moves a cursor or turns letters about."""
    # the two joiners belong to the writing of several languages
    return raw.translate({0x200C: None, 0x200D: None}).isprintable()


@dataclass(frozen=True)
class WordsKind(Kind):
    """Free text on one line, or one of the named options."""

    options: tuple[str, ...] = ()

    def read(self, raw: object) -> str:
        if not isinstance(raw, str) or not raw.strip() or len(raw) > 200 or not _plain_line(raw):
            raise InputError(
                f"{as_written(raw)} does not fit; one line of text of at most 200 plain letters is wanted, "
                f'for example "{self.example}".'
            )
        if self.options and raw not in self.options:
            raise InputError(
                f'"{raw}" is none of {_listed(self.options)}{nearest(raw, self.options)}.'
            )
        return raw


@dataclass(frozen=True)
class DayKind(Kind):
    """A day as year-month-day, or an empty text for none."""

    def read(self, raw: object) -> str:
        # a TOML file may also have it without quotes; with an hour it would be more than a day
        text = raw.isoformat() if isinstance(raw, date) else raw
        if text == "":
            return ""
        with contextlib.suppress(ValueError):
            if isinstance(text, str) and re.fullmatch(r"[0-9]{4}-[0-9]{2}-[0-9]{2}", text):
                return date.fromisoformat(text).isoformat()
        raise InputError(
            f'"{raw}" does not fit; a day as year-month-day is wanted, for example "{self.example}".'
        )


@dataclass(frozen=True)
class YesNoKind(Kind):
    """True or false."""

    def read(self, raw: object) -> bool:
        if not isinstance(raw, bool):
            raise InputError(
                f"{as_written(raw)} does not fit; true or false is wanted, for example {self.example}."
            )
        return raw


@dataclass(frozen=True)
class SectionKind(Kind):
    """A record inside a record."""

    of: type[Record]

    def read_at(self, raw: object, where: str) -> Record:
        return self.of.from_table(raw, where)

    def write(self, value: Any) -> dict[str, Any]:
        table: dict[str, Any] = value.to_table()
        return table


@dataclass(frozen=True)
class RowsKind(Kind):
    """A table of records by name, any of which may be left out, such as the sizes of each gear."""

    of: type[Record]
    names: tuple[str, ...]
    what: str

    def read(self, raw: object) -> Mapping[str, Record]:
        return self.read_at(raw, "")

    def read_at(self, raw: object, where: str) -> Mapping[str, Record]:
        if not isinstance(raw, Mapping):
            raise InputError(
                f"{where}: {as_written(raw)} does not fit; a table such as [{where}.{self.names[0]}] is wanted."
            )
        faults = unknown(raw, self.names, self.what, where)
        found: dict[str, Record] = {}
        for name in self.names:
            if name in raw:
                one = raw[name]
                try:
                    found[name] = (
                        one
                        if isinstance(one, self.of)
                        else self.of.from_table(one, _join(where, name))
                    )
                except InputError as error:
                    faults += error.messages
        if faults:
            raise InputError(*faults)
        return FrozenDict(found)

    def write(self, value: Any) -> dict[str, Any]:
        return {name: one.to_table() for name, one in value.items()}


def _inside(name: str, kind: SectionKind) -> str:
    """What is wanted in place of a whole record: one of its fields."""
    first, one = next(iter(kind.of.__dataclass_fields__.items()))
    inner = _kind(one)
    if isinstance(inner, SectionKind):
        return _inside(f"{name}.{first}", inner)
    return f"one of its fields is wanted, for example {name}.{first} = {example_of(inner)}"


def _listed(options: tuple[str, ...]) -> str:
    return ", ".join(f'"{option}"' for option in options)


def nearest(given: str, known: Iterable[str]) -> str:
    """Say which known name a given one resembles, or nothing.

    Parameters
    ----------
    given : str
    known : iterable of str

    Returns
    -------
    str
        Such as ``'; nearest is "ratio"'``, or an empty text.

    Examples
    --------
    >>> nearest("ratoi", ["ratio", "efficiency"])
    '; nearest is "ratio"'
    """
    close = difflib.get_close_matches(str(given), list(known), 1, 0.6)
    return f'; nearest is "{close[0]}"' if close else ""


def _resembles(given: str, known: Iterable[str]) -> str:
    """What an unknown name of a field resembles, or else what there is."""
    return nearest(given, known) or f"; there are {', '.join(known)}"


def unknown(given: Iterable[str], known: Collection[str], what: str, where: str = "") -> list[str]:
    """Say of each name that nobody knows what it resembles; of very many, of the first.

    Parameters
    ----------
    given : iterable of str
    known : container of str
    what : str
        What they would name, such as ``"field"``.
    where : str
        Dotted name of the table they stand in.

    Returns
    -------
    list of str

    Examples
    --------
    >>> unknown(["ratoi"], ["ratio"], "field", "reducer")
    ['reducer.ratoi: no such field; nearest is "ratio".']
    """
    lost = [key for key in given if key not in known]
    said = [
        f"{_join(where, key)}: no such {what}{_resembles(key, known) if len(known) <= _MOST_NAMED else nearest(key, known)}."
        for key in lost[:_MOST_NAMED]
    ]
    if len(lost) > _MOST_NAMED:
        said.append(f"{where or 'the file'}: {len(lost) - _MOST_NAMED} more names are none.")
    return said


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


def sizes(span: str, longest: int, meaning: str, example: str) -> Any:
    """Declare a field for a set of sizes, empty if left out, such as the drills on a shelf."""
    return field(metadata={"kind": SizesKind(meaning, example, span, longest)}, default=())


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


def _kind(one: Field[Any]) -> Kind:
    kind: Kind = one.metadata["kind"]
    return kind


def kind_of(record: type[Record] | Record, name: str, dotted: str = "") -> Kind:
    """Find the kind of a field by the record and the field's name; messages name it as ``dotted``.

    Raises
    ------
    InputError
        If the record has no such field.
    """
    found = record.__dataclass_fields__.get(name)
    if found is None:
        raise InputError(
            f"{dotted or as_written(name)}: no such field{_resembles(name, record.__dataclass_fields__)}."
        )
    return _kind(found)


@dataclass_transform(
    kw_only_default=True,
    frozen_default=True,
    field_specifiers=(
        quantity,
        quantities,
        places,
        number,
        numbers,
        whole,
        wholes,
        words,
        choice,
        day,
        yes_no,
        section,
        point,
        sizes,
        whole_lists,
        wholes_by_size,
        texts,
        rows,
        if_given,
    ),
)
class Record:
    """Base of the frozen records; subclasses are frozen dataclasses by being written.

    Values given to the constructor are read as those of a file are, so that
    ``Motor(rated_power="1.5 kW", ...)`` works and a wrong one raises :class:`InputError`.
    """

    __dataclass_fields__: ClassVar[dict[str, Field[Any]]]
    _given: Mapping[str, object]
    _text: str | None = None
    _told: tuple[str, ...] = ()

    def __init_subclass__(cls, role: str = "") -> None:
        super().__init_subclass__()
        dataclass(frozen=True, kw_only=True)(cls)
        for one in cls.__dataclass_fields__.values():
            kind = _kind(one)
            if not kind.role:
                given = dataclasses.replace(kind, role=role)
                one.metadata = MappingProxyType({**one.metadata, "kind": given})

    def __post_init__(self) -> None:
        object.__setattr__(self, "_given", {})
        self._take({name: getattr(self, name) for name in self._fields()})

    def _take(self, values: Mapping[str, object]) -> None:
        """Read values into the record's fields, then look whether all of them agree."""
        faults: list[str] = []
        given: dict[str, object] = dict(self._given)
        for name, value in values.items():
            kind = kind_of(self, name)
            if isinstance(kind, SectionKind):
                if not isinstance(value, kind.of):
                    faults.append(
                        f"{name}: {as_written(value)} does not fit; {_inside(name, kind)}."
                    )
                object.__setattr__(self, name, value)
                continue
            if value is None and self._fields()[name].default is None:
                object.__setattr__(self, name, None)
                given.pop(name, None)
                continue
            try:
                given[name] = kind.read_at(value, name)
                object.__setattr__(self, name, kind.number(given[name]))
            except InputError as error:
                faults += error.messages
        if faults:
            raise InputError(*faults)
        object.__setattr__(self, "_given", FrozenDict(given))
        self._agree()

    def _agree(self) -> None:
        """Raise InputError where fields contradict each other; a record of its own may look."""

    @classmethod
    def from_table(cls, table: object, where: str = "") -> Self:
        """Read a record from a table of a TOML file.

        Parameters
        ----------
        table : mapping
        where : str
            Dotted name of the table, put before each message.

        Returns
        -------
        Record

        Raises
        ------
        InputError
            With one sentence for each mistake in the table and the tables inside it.
        """
        if not isinstance(table, dict):
            raise InputError(
                f"{where}: {as_written(table)} does not fit; a table [{where}] is wanted."
            )
        values: dict[str, object] = {}
        known = cls.__dataclass_fields__
        faults = unknown(table, known, "field", where)
        for name, one in known.items():
            kind = _kind(one)
            full = _join(where, name)
            try:
                if name not in table:
                    if (
                        one.default is dataclasses.MISSING
                        and one.default_factory is dataclasses.MISSING
                    ):
                        faults.append(_missing(full, name, kind))
                    continue
                values[name] = kind.read_at(table[name], full)
            except InputError as error:
                faults += error.messages
        if faults:
            raise InputError(*faults)
        try:
            return cls(**values)
        except InputError as error:
            raise InputError(*(_join(where, text) for text in error.messages)) from None

    def given(self, name: str) -> Any:
        """Give a field as it was written: a quantity in the maker's own unit, where it is one.

        Examples
        --------
        A design whose shaft was written in inches has ``shaft_1.diameter == 38.1``, in millimetres, and
        ``shaft_1.given("diameter")`` of 1.5 inch.
        """
        kind_of(self, name)
        value = getattr(self, name)
        return self._given.get(name, value)

    @property
    def as_read(self) -> str | None:
        """Text that the record was read from, with comments and order of its file; none if from no text."""
        return self._text

    @property
    def told(self) -> tuple[str, ...]:
        """What is called otherwise than in the file it was read from, one sentence each; none if nothing is."""
        return self._told

    @classmethod
    def _fields(cls) -> Mapping[str, Field[Any]]:
        return cls.__dataclass_fields__

    def to_table(self) -> dict[str, object]:
        """Give the record as plain TOML values, nested as the file is."""
        table: dict[str, object] = {}
        for name, one in self._fields().items():
            value = self.given(name)
            if value is not None:
                table[name] = _kind(one).write(value)
        return table

    def changed(self, **values: object) -> Self:
        """Give a copy with some fields changed; values are read as those of a file are."""
        # what stays was read before, and reading it again is most of the work
        copy = self._copy()
        copy._take(values)  # noqa: SLF001  of its own kind
        return copy

    def with_numbers(self, **numbers: object) -> Self:
        """Give a copy with some fields put to numbers in the units they declare, which are not read again.

        It is for trying sizes within the kit; what a maker gives goes through :meth:`changed`.
        """
        copy = self._copy()
        vars(copy).update(numbers)
        return copy

    def _copy(self) -> Self:
        copy = object.__new__(type(self))
        vars(copy).update({name: vars(self)[name] for name in (*self._fields(), "_given")})
        return copy

    def shown(self, name: str, system: str = "metric") -> str:
        """Write one field as the maker wants to read it, with its unit."""
        kind, value = kind_of(self, name), getattr(self, name)
        if isinstance(kind, QuantityKind):
            return show(value, Span.read(kind.span).unit, system, 4)
        if isinstance(kind, QuantitiesKind):
            unit = Span.read(kind.span).unit
            return ", ".join(show(one, unit, system, 4) for one in value) or "none"
        if isinstance(kind, PlacesKind):
            unit = Span.read(kind.span).unit
            said = [f"{what} at {show(at, unit, system, 4)}" for what, at in value]
            return ", ".join(said) or "none"
        if isinstance(value, tuple):
            return ", ".join(f"{one:g}" for one in value) or "none"
        return f"{value:g}" if isinstance(value, float) else str(value) or "none"


def knob_unit(kind: Kind, system: str) -> str:
    """Unit in which a field's knob turns for this maker; empty for a plain number."""
    return shown_unit(Span.read(kind.span).unit, system) if isinstance(kind, QuantityKind) else ""


def knob_range(kind: Kind) -> tuple[float, float]:
    """Widest range of a field's plain value, infinite where it has no limit."""
    if isinstance(kind, (QuantityKind, NumberKind)):
        limits = Span.read(kind.span)
        return max(limits.above, limits.least), min(limits.below, limits.most)
    if isinstance(kind, (WholeKind, WholesKind)):
        return kind.least, kind.most
    return -math.inf, math.inf


def kinds_in(record: type[Record], where: str = "") -> dict[str, Kind]:
    """Kind of every field inside a record, the records in it opened, by dotted name."""
    found: dict[str, Kind] = {}
    for name, one in record.__dataclass_fields__.items():
        kind, full = _kind(one), _join(where, name)
        if isinstance(kind, SectionKind):
            found |= kinds_in(kind.of, full)
        elif isinstance(kind, RowsKind):
            for row in kind.names:
                found |= kinds_in(kind.of, f"{full}.{row}")
        else:
            found[full] = kind
    return found


def values_in(record: Record, where: str = "") -> dict[str, Any]:
    """Give every field inside a record that is given, the records in it opened, by dotted name."""
    found: dict[str, Any] = {}
    for name in record.__dataclass_fields__:
        value, full = getattr(record, name), _join(where, name)
        if isinstance(value, Record):
            found |= values_in(value, full)
        elif isinstance(kind_of(record, name), RowsKind):
            for row, one in value.items():
                found |= values_in(one, f"{full}.{row}")
        elif value is not None:
            found[full] = value
    return found


def _join(where: str, name: str) -> str:
    return f"{where}.{name}" if where else name


def _missing(full: str, name: str, kind: Kind) -> str:
    if isinstance(kind, (SectionKind, WholesBySizeKind)):
        such = f" with lines such as {kind.example}" if kind.example else ""
        return f"{full}: missing; a table [{full}] is wanted{such} ({kind.meaning})."
    return f"{full}: missing; {kind.meaning} is wanted, for example {name} = {example_of(kind)}."


def example_of(kind: Kind) -> str:
    """Give a value of a field that works, as it stands in a file."""
    bare = (
        NumberKind,
        WholeKind,
        WholesKind,
        WholeListsKind,
        WholesBySizeKind,
        NumbersKind,
        QuantitiesKind,
        SizesKind,
        PlacesKind,
        PointKind,
        TextsKind,
        YesNoKind,
    )
    return kind.example if isinstance(kind, bare) else f'"{kind.example}"'
