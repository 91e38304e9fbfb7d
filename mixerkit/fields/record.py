"""The frozen records: read from a table, changed, written and shown."""

from __future__ import annotations

import dataclasses
from collections.abc import Mapping
from dataclasses import Field, dataclass
from types import MappingProxyType
from typing import Any, ClassVar, Self, dataclass_transform

from mixerkit.fields.declared import (
    by_name,
    choice,
    day,
    if_given,
    number,
    numbers,
    places,
    point,
    quantities,
    quantity,
    records,
    rows,
    section,
    sizes,
    texts,
    whole,
    whole_lists,
    wholes,
    wholes_by_size,
    words,
    yes_no,
)
from mixerkit.fields.kinds import Kind, QuantityKind, kind_declared
from mixerkit.fields.lists import PlacesKind, QuantitiesKind
from mixerkit.fields.nested import SectionKind, missing, wanted_inside
from mixerkit.fields.told import joined, resembles, unknown
from mixerkit.frozen import FrozenDict
from mixerkit.units import (
    InputError,
    Span,
    as_written,
    show,
)

__all__ = ["Record", "kind_of"]


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
            f"{dotted or as_written(name)}: no such field{resembles(name, record.__dataclass_fields__)}."
        )
    return kind_declared(found)


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
        records,
        by_name,
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
            kind = kind_declared(one)
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
                        f"{name}: {as_written(value)} does not fit; {wanted_inside(name, kind)}."
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
            kind = kind_declared(one)
            full = joined(where, name)
            try:
                if name not in table:
                    if (
                        one.default is dataclasses.MISSING
                        and one.default_factory is dataclasses.MISSING
                    ):
                        faults.append(missing(full, name, kind))
                    continue
                values[name] = kind.read_at(table[name], full)
            except InputError as error:
                faults += error.messages
        if faults:
            raise InputError(*faults)
        try:
            return cls(**values)
        except InputError as error:
            raise InputError(*(joined(where, text) for text in error.messages)) from None

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
                table[name] = kind_declared(one).write(value)
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
        if value is None:
            return "not given"
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
