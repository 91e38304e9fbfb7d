"""What a field may hold: one quantity, number, word, day or place; how it is read, made plain and written."""

from __future__ import annotations

import contextlib
import re
from dataclasses import Field, dataclass, field
from datetime import date
from typing import Any, TypeGuard

from mixerkit.fields.told import listed, nearest
from mixerkit.units import (
    InputError,
    Measured,
    Span,
    as_written,
    read_quantity,
    refuse_list,
    to_plain,
    unit_of,
)

__all__ = ["ROLES", "Kind"]

ROLES = ("fact", "choice", "practice", "wanted")
"""What a field is to a maker: a *fact* is measured or read off a plate or a box; a *choice* is the maker's own;
*practice* is a factor, an efficiency or a scatter, to be confirmed; *wanted* is how much the maker asks for."""


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
        return f"{number} {spelt(value)}"


def _is_per_length(raw: object) -> bool:
    """Whether a raw value is written as so many per length; "3/16 in" is a length."""
    if isinstance(raw, str):
        return bool(re.match(r"^[^/]*/\s*[A-Za-z]", raw))
    return hasattr(raw, "check") and bool(raw.check("1/[length]"))


def spelt(value: Measured) -> str:
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
        if not is_whole(raw, self.least, self.most):
            raise InputError(
                f"{as_written(raw)} does not fit; a whole number from {self.least} to {self.most} is wanted, "
                f"for example {self.example}."
            )
        return raw


def is_whole(raw: object, least: int, most: int) -> TypeGuard[int]:
    return isinstance(raw, int) and not isinstance(raw, bool) and least <= raw <= most


@dataclass(frozen=True)
class PointKind(Kind):
    """A place in a plane: two lengths from two edges."""

    span: str

    def read(self, raw: object) -> tuple[Any, Any]:
        if not isinstance(raw, (list, tuple)) or len(raw) != 2:
            raise InputError(
                f"{as_written(raw)} does not fit; a place is wanted, for example {self.example}."
            )
        one = QuantityKind(self.meaning, first_of(self.example), self.span)
        return one.read(raw[0]), one.read(raw[1])

    def number(self, value: Any) -> tuple[float, float]:
        x, y = (float(one.m_as(unit_of(Span.read(self.span).unit))) for one in value)
        return x, y

    def write(self, value: Any) -> list[str]:
        return [f"{one.magnitude:.10g} {spelt(one)}" for one in value]


def first_of(example: str) -> str:
    """First quantity of a list of them, as it stands in a file."""
    return example.strip("[]").partition(",")[0].strip('"')


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
                f'"{raw}" is none of {listed(self.options)}{nearest(raw, self.options)}.'
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


def kind_declared(one: Field[Any]) -> Kind:
    """Give what a field of a record was declared to hold."""
    kind: Kind = one.metadata["kind"]
    return kind
