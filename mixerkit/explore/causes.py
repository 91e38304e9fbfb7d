"""Causes, not symptoms: the fewest changes of choices with which all of a failing design holds.

One change at first. Every choice that a failing check reads is moved a little and far, both ways; those that relieve
most are followed to where they have done what they can. Where none of them does all, the best are taken further by a
second and a third. What is found is the whole machine worked out anew, so that what a change breaks counts against it.
"""

from __future__ import annotations

import json
import math
from collections.abc import Callable, Collection, Iterable, Iterator, Mapping
from dataclasses import dataclass, field
from functools import cached_property
from types import MappingProxyType

from mixerkit.design import Design
from mixerkit.explore.bought import BOUGHT, bought
from mixerkit.explore.reads import made_by
from mixerkit.explore.remedy import A_PURCHASE, FAR, badness, moved
from mixerkit.explore.settable import Axis, axes, settled, strides
from mixerkit.explore.sizes import IN_STOCK
from mixerkit.machine import Machine
from mixerkit.units import InputError

__all__ = ["Looking", "Step", "Tried"]

_NEAR, _FAR = 2, 9
"""Strides by which a choice is moved at first, and those by which it is where the first say nothing."""
_FOLLOWED = 24
"""Choices followed to where they have done what they can, as the only change."""
_KEPT = (8, 6, 4)
"""Best machines of one, two and three changes that are taken further."""
_FURTHER = (10, 8, 6)
"""Choices followed from each of them."""
_CLOSE = 6
"""Sizes of stock tried one by one, before strides grow."""
_WORSE = 3
"""Strides in turn that make it worse, after which a choice is followed no further."""
_BROKEN = 0.5
"""Share at which what a change breaks counts against what it relieves, until it is known what mends that."""
_ROWS = 12
"""Motors or boxes tried, the likest first."""


@dataclass(frozen=True)
class Step:
    """One change: a field, fields that a check names together, or a thing bought whole.

    Attributes
    ----------
    values : mapping
        Fields and values as they stand in a design file.
    thing : str
        What is bought whole, such as ``"motor"``; empty where it is fields.
    """

    values: Mapping[str, object]
    thing: str = ""

    @property
    def count(self) -> int:
        """Changes that it counts as: a thing bought is one."""
        return 1 if self.thing else len(self.values)


@dataclass(frozen=True)
class Tried:
    """A machine with some changes.

    Attributes
    ----------
    steps : tuple of Step
    machine : Machine
    bad : mapping of str to float
        Id of each failing check to how far it is from holding.
    size : float
        How far its values moved (see :func:`mixerkit.explore.remedy.moved`).
    """

    steps: tuple[Step, ...]
    machine: Machine
    bad: Mapping[str, float]
    size: float

    @cached_property
    def badness(self) -> float:
        """How far the whole machine is from holding."""
        return sum(self.bad.values())

    @property
    def holds(self) -> bool:
        """Whether nothing fails."""
        return not self.bad

    @property
    def changes(self) -> int:
        """How many changes it has."""
        return sum(one.count for one in self.steps)

    @property
    def values(self) -> dict[str, object]:
        """Its changes as fields and values."""
        return {name: value for one in self.steps for name, value in one.values.items()}


@dataclass(frozen=True)
class _Lead:
    """A choice moved in one direction, and what that does."""

    axis: Axis
    sign: int
    there: Tried

    def relieves(self, root: Tried, of: Collection[str]) -> float:
        """How much of some checks' badness it takes away, what it breaks counted against it."""
        taken = sum(root.bad.get(one, 0.0) - self.there.bad.get(one, 0.0) for one in of)
        broken = sum(bad for one, bad in self.there.bad.items() if one not in root.bad)
        return taken - _BROKEN * broken


@dataclass
class Looking:
    """Looks for the changes of a design with which all of it holds.

    Attributes
    ----------
    found : Machine
        The failing machine.
    fields : collection of str
        Fields that may be changed, by dotted name, and ``"motor"`` or ``"reducer"`` for another one of the tables.
    trials : int
        Whole machines that are tried at most.
    tried : int
        Those that were.
    progress : callable
        Told in words what is being done.
    """

    found: Machine
    fields: Collection[str]
    trials: int
    progress: Callable[[str], None] = lambda _: None
    tried: int = 0
    _known: dict[str, Tried | None] = field(default_factory=dict)

    def __post_init__(self) -> None:
        self.design: Design = self.found.design
        self.root = self._judged((), self.found)

    @property
    def late(self) -> bool:
        """Whether enough was tried."""
        return self.tried >= self.trials

    def _judged(self, steps: tuple[Step, ...], machine: Machine) -> Tried:
        bad = {one.id: badness(one) for one in machine.checks if one.verdict == "fails"}
        own = [name for one in steps if not one.thing for name in one.values]
        size = max(
            moved(self.design, machine.design, own), A_PURCHASE * any(one.thing for one in steps)
        )
        return Tried(steps, machine, MappingProxyType(bad), size)

    def put(self, steps: tuple[Step, ...]) -> Tried | None:
        """The machine with some changes; none where the design refuses them, or enough was tried."""
        values = {name: one for step in steps for name, one in step.values.items()}
        key = json.dumps(values, sort_keys=True, default=list)
        if key not in self._known:
            if self.late:
                return None
            self.tried += 1
            try:
                self._known[key] = self._judged(steps, Machine(self.design.with_values(values)))
            except InputError:
                self._known[key] = None
        return self._known[key]

    def run(self) -> list[Tried]:
        """Machines in which all holds, with the fewest changes that were found; none where none was.

        Returns
        -------
        list of Tried
        """
        if self.root.holds:
            return []
        self.progress("moving every choice that a failing check reads")
        leads, holding = self.leads(), list[Tried]()
        grown = [
            *self._restored(),
            *self._named(self.root),
            *self._followed(self.root, leads, _FOLLOWED),
        ]
        for kept, further in zip((*_KEPT, 0), (*_FURTHER, 0), strict=True):
            once = bool(holding)
            holding += [self.pruned(one) for one in grown if one.holds]
            if once or any(one.size <= FAR for one in holding) or not kept or self.late:
                break
            # where a size must move far, one change more may do with nearer ones
            self.progress("taking the best of them further")
            left = _unlike(one for one in grown if not one.holds)
            # as good with less is better
            best = sorted(left, key=lambda one: (one.badness, one.changes))[:kept]
            grown = [
                each
                for one in best
                for each in (*self._named(one), *self._followed(one, leads, further))
            ]
        return _unlike(holding)

    def pruned(self, one: Tried) -> Tried:
        """The same machine with every change left out that it holds without."""
        for step in one.steps:
            rest = tuple(each for each in one.steps if each is not step)
            less = self.put(rest) if rest else None
            if less is not None and less.holds:
                one = less
        return one

    # ------------------------------------------------------------------ where to begin

    def leads(self) -> list[_Lead]:
        """Every choice that a failing check reads, moved both ways; those that do nothing at all are left out."""
        made = made_by(self.found)
        read = {name for one in self.root.bad for name in made[one][1]}
        found = []
        for name in sorted(self.fields):
            if name not in read:
                continue
            for axis in axes(self.design, name):
                if axis.values is None:
                    found += [lead for k in range(axis.count) if (lead := self._lead(axis, k, 0))]
                    continue
                for sign in (1, -1):
                    found += self._both(axis, sign)
        return found

    def _both(self, axis: Axis, sign: int) -> list[_Lead]:
        """An axis moved a little in one direction, and far where that does nothing."""
        places = list(strides(axis.here, axis.count, sign))
        for most in (_NEAR, _FAR):
            place = places[min(most, len(places)) - 1] if places else None
            lead = None if place is None else self._lead(axis, place, sign)
            if lead and lead.relieves(self.root, self.root.bad) > 1e-9:
                return [lead]
        return []

    def _lead(self, axis: Axis, place: int, sign: int) -> _Lead | None:
        there = self.put((Step({axis.field: axis.write(place)}),))
        if there is None or there.bad == self.root.bad:
            return None
        return _Lead(axis, sign, there)

    # ------------------------------------------------------------------ taken further

    def _followed(self, start: Tried, leads: Iterable[_Lead], most: int) -> Iterator[Tried]:
        """The choices that promise most for what still fails, each followed to where it has done what it can."""
        left = [one for one in leads if one.axis.field not in start.values]
        ranked = sorted(
            ((one.relieves(self.root, start.bad), one) for one in left),
            key=lambda pair: -pair[0],
        )
        for relief, lead in ranked[:most]:
            if relief <= 0 or self.late:
                return
            there = self._along(start, lead)
            if there is not None:
                yield there

    def _along(self, start: Tried, lead: _Lead) -> Tried | None:
        """Follow one choice in one direction: the nearest place at which it has done what it can."""

        def at(place: int) -> Tried | None:
            return self.put((*start.steps, Step({lead.axis.field: lead.axis.write(place)})))

        if lead.axis.values is None:
            there = self.put((*start.steps, *lead.there.steps))
            return there if there and there.badness < start.badness - 1e-9 else None
        best, before, place, worse, last = start, math.nan, -1, 0, lead.axis.here
        for k in _places(lead.axis, lead.sign):
            there = at(k)
            if there is None:
                break
            if there.badness < best.badness - 1e-9:
                best, before, place, worse = there, last, k, 0
            else:
                worse += 1
            last = float(k)
            if best.holds or worse >= _WORSE:
                break
        return None if place < 0 else self._nearest(at, best, before, place)

    def _nearest(
        self, at: Callable[[int], Tried | None], best: Tried, fails: float, holds: int
    ) -> Tried:
        """Halve the way from a place to a better one, as long as no more fails."""
        low, high = fails, holds
        while abs(high - low) > 1:
            middle = round((low + high) / 2)
            if middle in (low, high):
                break
            there = at(middle)
            if there is not None and there.bad.keys() <= best.bad.keys():
                high, best = middle, there
            else:
                low = middle
        return best

    def _named(self, start: Tried) -> Iterator[Tried]:
        """What failing checks ask for by number, and other motors and boxes where they may be."""
        design = start.machine.design
        for check in sorted(start.machine.checks, key=badness, reverse=True):
            if check.verdict != "fails":
                break
            for change in check.fix:
                for step in self._asked(design, change):
                    there = None
                    if not set(step.values) & set(start.values):
                        there = self.put((*start.steps, step))
                    if there is not None and there.badness < start.badness - 1e-9:
                        yield there

    def _asked(self, design: Design, change: str | Mapping[str, object]) -> Iterator[Step]:
        """Steps of a change that a check names."""
        if isinstance(change, str):
            if change in BOUGHT and change in self.fields:
                rows = bought(design, change)[:_ROWS]
                yield from (Step(MappingProxyType(one), change) for one in rows)
            return
        if not all(name in self.fields for name in change):
            return
        options = {name: settled(design, name, value) for name, value in change.items()}
        for k in range(max(map(len, options.values()), default=0)):
            if all(options.values()):
                yield Step({name: each[min(k, len(each) - 1)] for name, each in options.items()})

    def _restored(self) -> list[Tried]:
        """Drafted values that were changed since, put back: one, and all of them."""
        back = [
            Step({name: list(value) if isinstance(value, tuple) else value})
            for name, value in self.design.drafted.items()
            if name in self.fields and not self._stands(name, value)
        ]
        sets = [(one,) for one in back] + ([tuple(back)] if len(back) > 1 else [])
        return [there for steps in sets if (there := self.put(steps))]

    def _stands(self, dotted: str, value: object) -> bool:
        record, name, kind = self.design.field(dotted)
        given = list(value) if isinstance(value, tuple) else value
        return bool(kind.number(kind.read_at(given, dotted)) == getattr(record, name))


def _places(axis: Axis, sign: int) -> list[int]:
    """Places of an axis in one direction: all sizes of stock that are near, as a bore may want just one of them."""
    wide = list(strides(axis.here, axis.count, sign))
    if axis.field not in IN_STOCK or not wide:
        return wide
    near = range(wide[0], axis.count if sign > 0 else -1, sign)[:_CLOSE]
    return sorted({*near, *wide}, reverse=sign < 0)


def _unlike(machines: Iterable[Tried]) -> list[Tried]:
    """The best machine of each set of fields."""
    found: dict[frozenset[str], Tried] = {}
    for one in machines:
        key = frozenset(one.values)
        if key not in found or one.badness < found[key].badness:
            found[key] = one
    return list(found.values())
