"""Hours of work by part and by operation, at the rates of data/tables/hours.csv.

Amounts come from the design: chips from bar and finished part, teeth, lengths of keyways and seams, bores. Rates are
common practice in a home shop, each with its range: they tell one machine from another sooner than they fill a diary.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from functools import lru_cache

from mixerkit.frozen import FrozenDict
from mixerkit.parts.stack import Stack
from mixerkit.shop.part import Part
from mixerkit.shop.work import amounts_of, trough_amounts
from mixerkit.spec import Spec
from mixerkit.tables import table

__all__ = ["OPERATIONS", "Work", "by_operation", "total_hours", "work"]

OPERATIONS = tuple(dict.fromkeys(str(row.values["operation"]) for row in table("hours")))
"""Names of the operations, in the order of work of their table."""


@lru_cache(maxsize=3)
def _rates(column: str) -> Mapping[str, tuple[str, float]]:
    """Operation and hours for one, by the names of the table of rates."""
    rows = [row.values for row in table("hours")]
    return FrozenDict({row["name"]: (row["operation"], row[column] / 60) for row in rows})


@dataclass(frozen=True)
class Work:
    """What is done to one line of the bill of materials.

    Attributes
    ----------
    name : str
    count : int
    amounts : mapping of str to float
        How much of each row of data/tables/hours.csv, for all of them together.
    """

    name: str
    count: int
    amounts: Mapping[str, float]

    def by_operation(self, column: str = "time") -> dict[str, float]:
        """Hours by operation; ``column`` is ``"time"``, or ``"low"`` or ``"high"`` for the ends of the ranges."""
        found: dict[str, float] = {}
        rates = _rates(column)
        for name, amount in self.amounts.items():
            operation, each = rates[name]
            found[operation] = found.get(operation, 0.0) + amount * each
        return found

    def hours(self, column: str = "time") -> float:
        """Hours of all operations together; see :meth:`by_operation`."""
        rates = _rates(column)
        return sum(amount * rates[name][1] for name, amount in self.amounts.items())


def work(
    spec: Spec, listed: Sequence[Part], laid: Sequence[Stack], system: str = "metric"
) -> list[Work]:
    """Work on every part, the trough last.

    Parameters
    ----------
    spec : Spec
    listed : sequence of Part
        See :func:`mixerkit.shop.parts_list.parts`.
    laid : sequence of Stack
        Both shafts laid out, see :func:`mixerkit.parts.stack.laid`.
    system : str
        Whose bar and keys: ``"metric"`` or ``"inch"``.

    Returns
    -------
    list of Work

    Examples
    --------
    >>> from mixerkit import Design
    >>> from mixerkit.parts.stack import laid
    >>> from mixerkit.shop.parts_list import parts
    >>> demo = Design.demo()
    >>> rows = [laid(demo, number) for number in (1, 2)]
    >>> done = work(demo, parts(demo, None, "metric", rows), rows)
    >>> 60 < total_hours(done) < 250
    True
    """
    found = []
    for part in listed:
        each = amounts_of(spec, part, laid, system)
        amounts = FrozenDict({name: part.count * one for name, one in each.items() if one})
        found.append(Work(part.name, part.count, amounts))
    return [*found, Work("trough", 1, FrozenDict(trough_amounts(spec)))]


def by_operation(done: Iterable[Work], column: str = "time") -> dict[str, float]:
    """Hours by operation of all parts, in the order of :data:`OPERATIONS`; see :meth:`Work.by_operation`."""
    found = dict.fromkeys(OPERATIONS, 0.0)
    for one in done:
        for operation, hours in one.by_operation(column).items():
            found[operation] += hours
    return found


def total_hours(done: Iterable[Work], column: str = "time") -> float:
    """Hours of all parts and operations together; see :meth:`Work.by_operation`."""
    return sum(one.hours(column) for one in done)
