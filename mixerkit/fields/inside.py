"""Every field and value inside a record, the records in it opened, by dotted name."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from mixerkit.fields.kinds import Kind, kind_declared
from mixerkit.fields.nested import RowsKind, SectionKind
from mixerkit.fields.record import Record, kind_of
from mixerkit.fields.told import joined, unknown
from mixerkit.units import InputError

__all__ = ["kinds_in", "misfits", "values_in"]


def kinds_in(record: type[Record], where: str = "") -> dict[str, Kind]:
    """Kind of every field inside a record, the records in it opened, by dotted name."""
    found: dict[str, Kind] = {}
    for name, one in record.__dataclass_fields__.items():
        kind, full = kind_declared(one), joined(where, name)
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
        value, full = getattr(record, name), joined(where, name)
        if isinstance(value, Record):
            found |= values_in(value, full)
        elif isinstance(kind_of(record, name), RowsKind):
            for row, one in value.items():
                found |= values_in(one, f"{full}.{row}")
        elif value is not None:
            found[full] = value
    return found


def misfits(record: type[Record], values: Mapping[str, object], where: str) -> list[str]:
    """Say of each value by the dotted name of a field which is none, or does not take it.

    Parameters
    ----------
    record : type of Record
    values : mapping of str to object
        Values as they stand in a file.
    where : str
        Table that they stand in, put before each sentence.

    Returns
    -------
    list of str
    """
    if not values:
        return []
    kinds = kinds_in(record)
    faults = unknown(values, kinds, "field", where)
    for dotted, value in values.items():
        if dotted not in kinds:
            continue
        try:
            kinds[dotted].read_at(list(value) if isinstance(value, tuple) else value, dotted)
        except InputError as error:
            faults += [f"{where}.{message}" for message in error.messages]
    return faults
