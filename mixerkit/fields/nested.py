"""What a field may hold where it holds records: one of them, or a table of them by name."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

from mixerkit.fields.kinds import Kind, NumberKind, PointKind, WholeKind, YesNoKind, kind_declared
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
from mixerkit.fields.told import joined, unknown
from mixerkit.frozen import FrozenDict
from mixerkit.units import (
    InputError,
    as_written,
)

if TYPE_CHECKING:
    from mixerkit.fields.record import Record

__all__ = ["example_of", "missing", "wanted_inside"]


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
                        else self.of.from_table(one, joined(where, name))
                    )
                except InputError as error:
                    faults += error.messages
        if faults:
            raise InputError(*faults)
        return FrozenDict(found)

    def write(self, value: Any) -> dict[str, Any]:
        return {name: one.to_table() for name, one in value.items()}


@dataclass(frozen=True)
class RecordsKind(Kind):
    """A list of records, empty if left out, each under a head ``[[...]]`` of its own, such as bars on a shelf."""

    of: type[Record]
    longest: int

    def read(self, raw: object) -> tuple[Record, ...]:
        return self.read_at(raw, "")

    def read_at(self, raw: object, where: str) -> tuple[Record, ...]:
        if not isinstance(raw, (list, tuple)) or len(raw) > self.longest:
            name, one = next(iter(self.of.__dataclass_fields__.items()))
            raise InputError(
                f"{where}: {as_written(raw)} does not fit; at most {self.longest} tables [[{where}]] are wanted, "
                f"with lines such as {name} = {example_of(kind_declared(one))}."
            )
        faults: list[str] = []
        found: list[Record] = []
        for place, one in enumerate(raw, 1):
            try:
                found.append(
                    one
                    if isinstance(one, self.of)
                    else self.of.from_table(one, joined(where, str(place)))
                )
            except InputError as error:
                faults += error.messages
        if faults:
            raise InputError(*faults)
        return tuple(found)

    def write(self, value: Any) -> list[dict[str, Any]]:
        return [one.to_table() for one in value]


def wanted_inside(name: str, kind: SectionKind) -> str:
    """What is wanted in place of a whole record: one of its fields."""
    first, one = next(iter(kind.of.__dataclass_fields__.items()))
    inner = kind_declared(one)
    if isinstance(inner, SectionKind):
        return wanted_inside(f"{name}.{first}", inner)
    return f"one of its fields is wanted, for example {name}.{first} = {example_of(inner)}"


def missing(full: str, name: str, kind: Kind) -> str:
    """Say that a field is missing, and what is wanted in its place."""
    if isinstance(kind, (SectionKind, WholesBySizeKind)):
        such = f" with lines such as {kind.example}" if kind.example else ""
        return f"{full}: missing; a table [{full}] is wanted{such} ({kind.meaning})."
    return f"{full}: missing; {kind.meaning} is wanted, for example {name} = {example_of(kind)}."


def example_of(kind: Kind) -> str:
    """Give a value of a field that works, as it stands in a file."""
    bare = (
        ByNameKind,
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
