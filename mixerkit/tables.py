"""The tables under data/tables as typed rows that carry their source.

A header names a column and, in square brackets, its unit: ``yield_strength [MPa]``.
Every table has a ``source`` column and a cell for it in every row.
"""

from __future__ import annotations

import csv
import functools
import re
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import Any

import numpy as np
import numpy.typing as npt

from mixerkit.data_files import data_path
from mixerkit.fields import nearest
from mixerkit.frozen import FrozenDict, frozen
from mixerkit.results import Array, Numbers
from mixerkit.units import Q_, InputError, Measured, show

__all__ = ["Row", "Table", "next_up", "table"]


@dataclass(frozen=True)
class Row:
    """One row of a table; columns are attributes, quantities where the header has a unit.

    Attributes
    ----------
    values : dict
        The same columns as plain numbers in the header's units.
    """

    values: Mapping[str, Any]
    units: Mapping[str, str]

    def __getattr__(self, name: str) -> Measured | str | float | None:
        if name.startswith("_") or name not in self.values:
            raise AttributeError(name)
        value, unit = self.values[name], self.units.get(name)
        return value if unit is None or value is None else Q_(value, unit)


@dataclass(frozen=True)
class Table:
    """A table of data/tables, in the order of its file.

    Attributes
    ----------
    name : str
    rows : tuple of Row
    """

    name: str
    rows: tuple[Row, ...]

    def __hash__(self) -> int:
        # rows hold dicts; equal tables have equal names and lengths, which is enough for a key
        return hash((self.name, len(self.rows)))

    def __iter__(self) -> Iterator[Row]:
        return iter(self.rows)

    def __len__(self) -> int:
        return len(self.rows)

    def find(self, key: str, column: str = "name") -> Row:
        """Find the row whose column holds a text.

        Parameters
        ----------
        key : str
        column : str

        Returns
        -------
        Row

        Raises
        ------
        InputError
            Naming what the table has nearest.

        Examples
        --------
        >>> table("materials").find("steel C45 normalised").yield_strength
        <Quantity(305.0, 'megapascal')>
        """
        for row in self.rows:
            if row.values[column] == key:
                return row
        known = [str(row.values[column]) for row in self.rows]
        listed = ", ".join(f'"{one}"' for one in known[:30])
        raise InputError(
            f'"{key}" is not in the table of {self.name}{nearest(key, known)}. It has: {listed}.'
        )

    def column(self, name: str) -> npt.NDArray[Any]:
        """Give a column as an array of plain numbers or texts; see the header for the unit."""
        return _column(self, name)

    def only(self, column: str, value: str) -> Table:
        """Give the part of the table whose column holds a text.

        Examples
        --------
        >>> len(table("keys").only("series", "inch")) < len(table("keys"))
        True
        """
        return _only(self, column, value)

    def bracket(self, value: float, low: str, high: str) -> Row:
        """Find the row with ``low < value <= high``, all plain numbers in the header's unit.

        Raises
        ------
        InputError
            If no row spans the value, saying what the table covers.
        """
        for row in self.rows:
            if row.values[low] < value <= row.values[high]:
                return row
        unit = self.rows[0].units.get(low, "")
        lowest, highest = self.column(low).min(), self.column(high).max()
        raise InputError(
            f"{show(value, unit)} is outside the table of {self.name}, which covers "
            f"above {show(lowest, unit)} to {show(highest, unit)}."
        )


@functools.lru_cache(maxsize=256)
def _only(of: Table, column: str, value: str) -> Table:
    return Table(of.name, tuple(row for row in of.rows if row.values[column] == value))


@functools.lru_cache(maxsize=256)
def _column(of: Table, name: str) -> npt.NDArray[Any]:
    held: npt.NDArray[Any] = frozen(np.array([row.values[name] for row in of.rows]))
    return held


@functools.cache
def table(name: str) -> Table:
    """Read a table that ships with the kit.

    Parameters
    ----------
    name : str
        File name in data/tables without its ending.

    Returns
    -------
    Table

    Raises
    ------
    InputError
        If there is no such table, or a row lacks its source.

    Examples
    --------
    >>> [round(row.module.magnitude, 2) for row in table("modules")][:4]
    [1.0, 1.25, 1.5, 2.0]
    """
    path = data_path("tables", f"{name}.csv")
    known = sorted(one.stem for one in data_path("tables").glob("*.csv"))
    if name not in known:
        raise InputError(f'"{name}" is not a table of this kit{nearest(name, known)}.')
    with path.open(encoding="utf-8", newline="") as lines:
        header, *cells = list(csv.reader(lines))
    names: list[str] = []
    units: dict[str, str] = {}
    for head in header:
        found = re.fullmatch(r"(\w+)(?: \[(.*)\])?", head)
        if not found:
            raise InputError(
                f'data/tables/{name}.csv: the heading "{head}" is not "name" or "name [unit]".'
            )
        names.append(found[1])
        if found[2] is not None:
            units[found[1]] = found[2]
    rows = []
    for number, line in enumerate(cells, 2):
        if len(line) != len(names) or not line[names.index("source")].strip():
            raise InputError(
                f"data/tables/{name}.csv, line {number}: a cell or the source is missing."
            )
        rows.append(
            Row(
                FrozenDict(
                    {one: _cell(one, text, units) for one, text in zip(names, line, strict=True)}
                ),
                FrozenDict(units),
            )
        )
    return Table(name.replace("_", " "), tuple(rows))


def _cell(name: str, text: str, units: Mapping[str, str]) -> str | float | None:
    if name not in units:
        return text
    return float(text) if text else None


def next_up(value: Numbers, sizes: Array) -> Numbers:
    """Give the next size in a list that is at least a value.

    Parameters
    ----------
    value : float or array
    sizes : numpy.ndarray
        Ascending sizes in the value's unit.

    Returns
    -------
    float or numpy.ndarray
        Infinite where the list has none so large.

    Examples
    --------
    >>> float(next_up(31.6, np.array([30.0, 35.0])))
    35.0
    """
    padded = np.append(np.sort(sizes), np.inf)
    # a hair of slack, so that a size computed to be exactly 35 mm does not ask for 36 mm
    found: Numbers = padded[np.searchsorted(padded[:-1], np.asarray(value) * (1 - 1e-9))]
    return found
