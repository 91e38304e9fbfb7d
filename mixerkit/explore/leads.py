"""Where to begin: every choice moved a little, and the promising ones followed to where they have done what they can."""

from __future__ import annotations

import json
import math
from collections.abc import Callable, Collection, Iterator, Mapping
from dataclasses import dataclass, field
from functools import cached_property
from types import MappingProxyType

from mixerkit.checks import Check
from mixerkit.design import Design
from mixerkit.explore.reads import first_to_give, made_by
from mixerkit.explore.remedy import A_PURCHASE, FAR, badness, moved
from mixerkit.explore.settable import Axis, axes
from mixerkit.explore.sizes import IN_STOCK
from mixerkit.explore.tried import Step, Tried
from mixerkit.explore.walk import halved, strides
from mixerkit.machine import Machine
from mixerkit.stages import Maker
from mixerkit.units import InputError

__all__ = ["Lead", "Leads"]

_NEAR, _FAR = 2, 9
"""Strides by which a choice is moved at first, and those by which it is where the first say nothing."""
_COUNTS = (1, 2, 3, 4, 6, 9)
"""Strides for lists, such as tooth counts, and for sizes of stock: of either just one may do."""
_MUCH, _ENOUGH = 0.5, 3
"""Share of all badness that a choice relieves to be followed at once, and choices alone after which no more is tried."""
_CLOSE = 6
"""Sizes of stock tried one by one, before strides grow."""
_WORSE = 3
"""Strides in turn that make it worse, after which a choice is followed no further."""
_BROKEN = 0.5
"""Share at which what a change breaks counts against what it relieves, until it is known what mends that."""


@dataclass(frozen=True)
class Lead:
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
class Leads:
    """Tries changes of a design, each only once, and says which choices promise to mend it.

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
        return Tried(steps, machine.design, MappingProxyType(bad), size)

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

    def leads(self) -> list[Lead]:
        """Every choice that a failing check reads, moved both ways, the likeliest first; those that do nothing left out.

        Once some choices alone make everything hold, the rest is not tried.
        """
        found: list[Lead] = []
        alone: set[str] = set()
        for name in self._likeliest():
            for axis in axes(self.design, name):
                for lead in self._of(axis):
                    found.append(lead)
                    if lead.relieves(self.root, self.root.bad) > _MUCH * self.root.badness:
                        there = self.along(self.root, lead)
                        if there is not None and there.holds and there.size <= FAR:
                            alone.add(name)
            if len(alone) >= _ENOUGH:
                break
        return found

    def _likeliest(self) -> list[str]:
        """Fields that a failing check reads, those that most of them name first."""
        read = {name for one in self.root.bad for name in self._made[one][1]} & set(self.fields)
        named: dict[str, int] = {}
        for check in self.found.checks:
            if check.id in self.root.bad:
                for change in check.fix:
                    for name in (change,) if isinstance(change, str) else change:
                        named[name] = named.get(name, 0) + 1
        return sorted(read, key=lambda name: (-named.get(name, 0), name))

    def _of(self, axis: Axis) -> Iterator[Lead]:
        """What an axis promises in each direction: moved a little, and far where that does nothing."""
        if axis.values is None:
            for place in range(axis.count):
                lead = self._lead(axis, place, 0)
                if lead is not None:
                    yield lead
            return
        few = isinstance(axis.write(0), list) or axis.field in IN_STOCK
        tries = _COUNTS if few else (_NEAR, _FAR)
        for sign in (1, -1):
            places = _places(axis, sign)
            near = {places[min(most, len(places)) - 1]: None for most in tries if places}
            for place in near:
                lead = self._lead(axis, place, sign)
                if lead and lead.relieves(self.root, self.root.bad) > 1e-9:
                    yield lead
                    break

    def _lead(self, axis: Axis, place: int, sign: int) -> Lead | None:
        step = Step({axis.field: axis.write(place)})
        there = self.put((step,)) if self._felt(step) else None
        if there is None or there.bad == self.root.bad:
            return None
        return Lead(axis, sign, there)

    def _felt(self, step: Step) -> bool:
        """Whether a failing check is relieved at all: asked of what makes those checks, as the whole takes longer."""
        if self.late:
            return False
        self.tried += 1
        try:
            machine = Machine(self.design.with_values(dict(step.values)))
        except InputError:
            return False
        checks = {one.id: one for one in machine.checks_of(self._makers)}
        return self._of_parts(checks) or self._of_the_ladder(step, checks)

    def _of_parts(self, checks: Mapping[str, Check]) -> bool:
        """Whether the parts' own checks are relieved; the jam's ladder has no part of its own."""
        own = [one for one in self.root.bad if self._made[one][0] is not None]
        left = sum(badness(checks[one]) for one in own if one in checks)
        return left < sum(self.root.bad[one] for one in own) - 1e-9

    def _of_the_ladder(self, step: Step, checks: Mapping[str, Check]) -> bool:
        """Whether the jam's ladder may be relieved, where it fails: another fuse, or a later end of the weakest part."""
        if all(self._made[one][0] is not None for one in self.root.bad):
            return False
        if any(name.startswith("fuse.") for name in step.values):
            return True
        was = self._first
        now = checks.get(was.id) if was else None
        return bool(was and now and was.gives and now.gives and now.gives[0] > was.gives[0])

    @cached_property
    def _first(self) -> Check | None:
        """What the jam's ladder fails by."""
        return first_to_give(self.found)

    @cached_property
    def _makers(self) -> set[Maker]:
        """What makes the failing checks, and the one that the jam's ladder fails by."""
        asked = [*self.root.bad, *([self._first.id] if self._first else [])]
        return {maker for one in asked if (maker := self._made[one][0])}

    @cached_property
    def _made(self) -> dict[str, tuple[Maker | None, frozenset[str]]]:
        """What makes each check, and the fields that are read for it."""
        return made_by(self.found)

    def along(self, start: Tried, lead: Lead) -> Tried | None:
        """Follow one choice in one direction: the nearest place at which it has done what it can."""

        def at(place: int) -> Tried | None:
            return self.put((*start.steps, Step({lead.axis.field: lead.axis.write(place)})))

        if lead.axis.values is None:
            there = self.put((*start.steps, *lead.there.steps))
            return there if there and there.badness < start.badness - 1e-9 else None
        best, before, place, beyond = _walked(at, start, lead)
        if place < 0:
            return None
        if not best.holds and beyond is not None:
            # strides may have stepped over the only place that does
            for k in range(place + lead.sign, beyond, lead.sign * max(1, abs(beyond - place) // 8)):
                there = at(k)
                if there is not None and there.badness < best.badness - 1e-9:
                    best, before, place = there, float(place), k

        def as_good(k: int) -> bool:
            nonlocal best
            there = at(k)
            if there is None or not there.bad.keys() <= best.bad.keys():
                return False
            best = there
            return True

        halved(before, place, as_good)
        return best


def _walked(
    at: Callable[[int], Tried | None], start: Tried, lead: Lead
) -> tuple[Tried, float, int, int | None]:
    """Walk along an axis: the best machine, the place before it, its own (-1 for none), and the first one beyond it."""
    best, before, place, beyond = start, math.nan, -1, None
    worse, last = 0, lead.axis.here
    for k in _places(lead.axis, lead.sign):
        there = at(k)
        if there is not None and there.badness < best.badness - 1e-9:
            best, before, place, beyond, worse = there, last, k, None, 0
        else:
            beyond = k if worse == 0 else beyond
            worse += 1
        last = float(k)
        enough = worse >= _WORSE and lead.axis.field not in IN_STOCK
        if best.holds or there is None or enough:
            break
    return best, before, place, beyond


def _places(axis: Axis, sign: int) -> list[int]:
    """Places of an axis in one direction: all sizes of stock that are near, as a bore may want just one of them."""
    wide = list(strides(axis.here, axis.count, sign))
    if axis.field not in IN_STOCK or not wide:
        return wide
    near = range(wide[0], axis.count if sign > 0 else -1, sign)[:_CLOSE]
    return sorted({*near, *wide}, reverse=sign < 0)
