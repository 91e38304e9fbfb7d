"""Frozen records of a machine's parts, and the field kinds they are made of.

A record is a frozen dataclass whose fields say what they hold: :func:`quantity`, :func:`number`,
:func:`whole`, :func:`wholes`, :func:`words`, :func:`choice`, :func:`yes_no` or :func:`section`.
Reading a field gives the value or one sentence about what is wrong with it; reading a record
gathers the sentences of all its fields.
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
from typing import Any, ClassVar, Self, TypeVar, dataclass_transform

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
    "kind_of",
    "nearest",
    "number",
    "numbers",
    "places",
    "quantities",
    "quantity",
    "section",
    "unknown",
    "whole",
    "wholes",
    "words",
    "yes_no",
]


R = TypeVar("R", bound="Record")

ROLES = ("fact", "choice", "practice", "wanted")
"""What a field is to a maker: a *fact* is measured or read off a plate or a box; a *choice* is the maker's own;
*practice* is a factor, an efficiency or a scatter, to be confirmed; *wanted* is how much the maker asks for."""
_MOST_NAMED = 30
"""Unknown names of one table that are each told what they resemble."""


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
        if isinstance(raw, bool) or not isinstance(raw, int) or not self.least <= raw <= self.most:
            raise InputError(
                f"{as_written(raw)} does not fit; a whole number from {self.least} to {self.most} is wanted, "
                f"for example {self.example}."
            )
        return raw


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
            if (
                isinstance(one, bool)
                or not isinstance(one, int)
                or not self.least <= one <= self.most
            ):
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
    ),
)
class Record:
    """Base of the frozen records; subclasses are frozen dataclasses by being written.

    Values given to the constructor are read as those of a file are, so that
    ``Motor(rated_power="1.5 kW", ...)`` works and a wrong one raises :class:`InputError`.
    """

    __dataclass_fields__: ClassVar[dict[str, Field[Any]]]
    _given: Mapping[str, object]

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
            try:
                given[name] = kind.read(value)
                object.__setattr__(self, name, kind.number(given[name]))
            except InputError as error:
                faults += [f"{name}: {text}" for text in error.messages]
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
                values[name] = (
                    kind.of.from_table(table[name], full)
                    if isinstance(kind, SectionKind)
                    else kind.read(table[name])
                )
            except InputError as error:
                prefix = "" if isinstance(kind, SectionKind) else f"{full}: "
                faults += [prefix + text for text in error.messages]
        if faults:
            raise InputError(*faults)
        return cls(**values)

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

    @classmethod
    def _fields(cls) -> Mapping[str, Field[Any]]:
        return cls.__dataclass_fields__

    def to_table(self) -> dict[str, object]:
        """Give the record as plain TOML values, nested as the file is."""
        table: dict[str, object] = {}
        for name, one in self._fields().items():
            kind, value = _kind(one), self.given(name)
            table[name] = value.to_table() if isinstance(kind, SectionKind) else kind.write(value)
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


def _join(where: str, name: str) -> str:
    return f"{where}.{name}" if where else name


def _missing(full: str, name: str, kind: Kind) -> str:
    if isinstance(kind, SectionKind):
        return f"{full}: missing; a table [{full}] is wanted ({kind.meaning})."
    return f"{full}: missing; {kind.meaning} is wanted, for example {name} = {example_of(kind)}."


def example_of(kind: Kind) -> str:
    """Give a value of a field that works, as it stands in a file."""
    bare = (NumberKind, WholeKind, WholesKind, NumbersKind, QuantitiesKind, PlacesKind, YesNoKind)
    return kind.example if isinstance(kind, bare) else f'"{kind.example}"'
