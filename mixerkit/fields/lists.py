"""What a field may hold where it holds many: lists of numbers, quantities, places, sizes, texts."""

from __future__ import annotations

import math
import re
from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass
from typing import Any

import numpy as np

from mixerkit.fields.kinds import (
    Kind,
    NumberKind,
    QuantityKind,
    WordsKind,
    first_of,
    is_whole,
    spelt,
)
from mixerkit.fields.told import MOST_NAMED, joined, listed
from mixerkit.frozen import FrozenDict
from mixerkit.units import (
    InputError,
    Measured,
    Span,
    as_written,
    to_plain,
    unit_of,
)

__all__: list[str] = []
_MOST_STEPS = 1000
"""Steps of one run of sizes."""


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
            if not is_whole(one, self.least, self.most):
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
        return [f"{one.magnitude:.10g} {spelt(one)}" for one in value]


@dataclass(frozen=True)
class PlacesKind(Kind):
    """A list of things each at a place, written ``"groove at 12 mm"``."""

    options: tuple[str, ...]
    span: str
    longest: int

    def read(self, raw: object) -> tuple[str, ...]:
        wanted = (
            f"a list of at most {self.longest} texts, each one of {listed(self.options)} with its place, "
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
class SizesKind(Kind):
    """A set of sizes, one by one or in even steps as ``"1 mm to 13 mm by 0.5 mm"``; plain, they rise.

    ``named`` gives the sizes of what has a name instead, and none of what has not.
    """

    span: str
    longest: int
    named: Callable[[str], tuple[float, ...]] | None = None

    def read(self, raw: object) -> tuple[str, ...]:
        if not isinstance(raw, (list, tuple)) or len(raw) > self.longest:
            raise InputError(
                f"{as_written(raw)} does not fit; a list of at most {self.longest} sizes is wanted, "
                f"for example {self.example}."
            )
        return tuple(self._one(size) for size in raw)

    def _one(self, raw: object) -> str:
        kind = QuantityKind(self.meaning, first_of(self.example), self.span)
        if self._named(raw):
            return str(raw)
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

    def _named(self, raw: object) -> tuple[float, ...]:
        return self.named(raw) if self.named and isinstance(raw, str) else ()

    def number(self, value: Any) -> tuple[float, ...]:
        found: set[float] = set()
        for one in value:
            named = list(self._named(one))
            parts = named or [float(to_plain(part, self.span)) for part in _run(one) or (one,)]
            if len(parts) == 3 and not named:
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
            if not is_whole(one, self.least, self.most):
                raise InputError(f"{as_written(one)} in a list does not fit; {wanted}")
        return tuple(tuple(int(one) for one in inner) for inner in raw)

    def write(self, value: Any) -> list[list[int]]:
        return [list(inner) for inner in value]


@dataclass(frozen=True)
class WholesBySizeKind(Kind):
    """A table with lines by size in a unit, each a set of whole numbers, such as ``"5" = [1, 2, 3]``.

    A size is a plain number in the unit, or so many to the inch: ``"8 / in"`` or ``"8 DP"``.
    """

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
        for key, numbers in raw.items():
            at = joined(where, f"{key:.10g}" if isinstance(key, float) else str(key))
            try:
                size = self._size(key, at)
                sets = isinstance(numbers, (set, frozenset))
                whole = inner.read_at(sorted(numbers) if sets else numbers, at)
            except InputError as error:
                faults += error.messages
                continue
            if size in found:
                faults.append(f"{at}: {size:.10g} is given twice; one line is wanted.")
            found[size] = frozenset(whole)
        if len(faults) > MOST_NAMED:
            faults[MOST_NAMED:] = [f"{where}: {len(faults) - MOST_NAMED} more lines do not fit."]
        if faults:
            raise InputError(*faults)
        return FrozenDict(found)

    def _size(self, key: object, at: str) -> float:
        limits = Span.read(self.span)
        text = f"{key:.10g}" if isinstance(key, float) else str(key)
        found = re.fullmatch(r"([0-9]{1,6}(?:\.[0-9]{1,6})?)(\s*/\s*in|\s*DP)?", text)
        size = float(found[1]) if found else math.nan
        if found and found[2]:
            size = round(25.4 / size, 6) if size else math.nan
        if not limits.holds(size):
            raise InputError(
                f'{at}: "{text}" does not fit; a plain number in {limits.unit} is wanted, {limits.words()}, '
                f'for example {self.example}, or so many to the inch, for example "8 / in" or "8 DP".'
            )
        return size

    def write(self, value: Any) -> dict[str, list[int]]:
        return {f"{size:.10g}": sorted(whole) for size, whole in value.items()}


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
        one = WordsKind(self.meaning, first_of(self.example))
        return tuple(one.read(text) for text in raw)

    def write(self, value: Any) -> list[str]:
        return list(value)


@dataclass(frozen=True)
class ByNameKind(Kind):
    """A table of values by the dotted name of a field, possibly empty."""

    def read(self, raw: object) -> Mapping[str, object]:
        return self.read_at(raw, "")

    def read_at(self, raw: object, where: str) -> Mapping[str, object]:
        if not isinstance(raw, Mapping):
            raise InputError(
                f"{where}: {as_written(raw)} does not fit; a table [{where}] is wanted with lines such as "
                f"{self.example}."
            )
        faults = [
            f"{where}.{name}: a table does not fit; the name of a field in double quotes and its value are wanted, "
            f"such as {self.example}."
            for name, value in raw.items()
            if isinstance(value, Mapping)
        ]
        if faults:
            raise InputError(*faults)
        return FrozenDict(
            {name: tuple(one) if isinstance(one, list) else one for name, one in raw.items()}
        )

    def write(self, value: Any) -> dict[str, object]:
        return {name: list(one) if isinstance(one, tuple) else one for name, one in value.items()}
