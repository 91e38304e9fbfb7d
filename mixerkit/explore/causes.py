"""Causes, not symptoms: the fewest changes of choices with which all of a failing design holds.

One change at first. Every choice that a failing check reads is moved a little and far, both ways; those that relieve
most are followed to where they have done what they can. Where none of them does all, the best are taken further by a
second and a third. What is found is the whole machine worked out anew, so that what a change breaks counts against it.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from types import MappingProxyType

from mixerkit.design import Design
from mixerkit.explore.bought import BOUGHT, bought
from mixerkit.explore.draft.assumed import still_drafted
from mixerkit.explore.leads import Lead, Leads
from mixerkit.explore.remedy import FAR, badness
from mixerkit.explore.settable import settled
from mixerkit.explore.tried import Step, Tried

__all__ = ["Looking"]

_FOLLOWED = 24
"""Choices followed to where they have done what they can, as the only change."""
_KEPT = (8, 6, 4)
"""Best machines of one, two and three changes that are taken further."""
_FURTHER = (10, 8, 6)
"""Choices followed from each of them."""
_ROWS = 12
"""Motors or boxes tried, the likest first."""


class Looking(Leads):
    """Looks for the changes of a design with which all of it holds."""

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

    # ------------------------------------------------------------------ taken further

    def _followed(self, start: Tried, leads: Iterable[Lead], most: int) -> Iterator[Tried]:
        """The choices that promise most for what still fails, each followed to where it has done what it can."""
        left = [one for one in leads if one.axis.field not in start.values]
        ranked = sorted(
            ((one.relieves(self.root, start.bad), one) for one in left),
            key=lambda pair: -pair[0],
        )
        for relief, lead in ranked[:most]:
            if relief <= 0 or self.late:
                return
            there = self.along(start, lead)
            if there is not None:
                yield there

    def _named(self, start: Tried) -> Iterator[Tried]:
        """What failing checks ask for by number, and other motors and boxes where they may be."""
        design = start.design
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
        still = set(still_drafted(self.design))
        back = [
            Step({name: list(value) if isinstance(value, tuple) else value})
            for name, value in self.design.drafted.items()
            if name in self.fields and name not in still
        ]
        sets = [(one,) for one in back] + ([tuple(back)] if len(back) > 1 else [])
        return [there for steps in sets if (there := self.put(steps))]


def _unlike(machines: Iterable[Tried]) -> list[Tried]:
    """The best machine of each set of fields."""
    found: dict[frozenset[str], Tried] = {}
    for one in machines:
        key = frozenset(one.values)
        # of those that do as much, the one that moves least
        if key not in found or (one.badness, one.size) < (found[key].badness, found[key].size):
            found[key] = one
    return list(found.values())
