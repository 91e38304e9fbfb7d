"""What mends a failing check: changes of choices, each tried on the whole machine before it is said.

A check names the changes that may help (:attr:`mixerkit.checks.Check.fix`). Each is moved along what can
be bought, cut, set or typed until the check holds, the machine being worked out anew each time; what
else fails then is named, and where one more choice mends that too, it comes with it. Where none of
the named changes does, every choice is moved through its whole range.
"""

from __future__ import annotations

import time
from collections.abc import Callable, Iterable, Iterator, Mapping
from functools import partial
from itertools import islice
from types import MappingProxyType

from mixerkit.checks import Change, Check
from mixerkit.explore.bought import BOUGHT
from mixerkit.explore.collected import seldom_collected
from mixerkit.explore.remedy import FAR, Mending, Remedy, plain_value, sensible
from mixerkit.explore.settable import Axis, axes, choices, settled
from mixerkit.explore.trials import Trials
from mixerkit.explore.walk import halved, strides
from mixerkit.machine import Machine

__all__ = ["mend"]

FEW = 3
"""Remedies said of one check."""
_ENOUGH = 2
"""Harmless remedies after which no more of the changes that a check names are tried."""
_ROWS = 4
"""Motors or boxes that mend a check, likest first, of which one is looked for that breaks nothing."""
_BREAKS_MENDED = 3
"""Checks that a change breaks, up to which one more choice may mend them all."""
_PATIENCE = 300.0
"""Seconds after which no new change is tried; what was not tried is said."""


@seldom_collected()
def mend(
    found: Machine,
    ids: Iterable[str] | None = None,
    *,
    few: int = FEW,
    patience: float = _PATIENCE,
) -> Mending:
    """Find what mends the failing checks of a design.

    Parameters
    ----------
    found : Machine
    ids : iterable of str, optional
        Ids of the failing checks asked for; all of them if not given.
    few : int
        Remedies wanted of each.
    patience : float
        Seconds after which no new change is tried.

    Returns
    -------
    Mending

    Examples
    --------
    >>> from mixerkit.design import Design
    >>> thin = Machine(Design.demo("thin_shaft"))
    >>> mending = mend(thin, ["shafts.shaft-2.diameter-for-bending-with-torsion-in-a-jam"])
    >>> [one.lines[0] for rows in mending.remedies.values() for one in rows][:2]
    ['shaft_2.diameter = "32 mm"']
    """
    asked = None if ids is None else set(ids)
    wanted = [
        one for one in found.checks if one.verdict == "fails" and (asked is None or one.id in asked)
    ]
    return _Bench(found, patience).mend(wanted, few)


class _Bench(Trials):
    """Looks for what mends the checks of one design."""

    def along(
        self, check: Check, axis: Axis, start: int | None = None
    ) -> Mapping[str, object] | None:
        """The value nearest the design's own on one axis at which a check holds."""

        def put(k: int) -> dict[str, object]:
            return {axis.field: axis.write(k)}

        if axis.values is None:
            return next((put(k) for k in range(axis.count) if self.holds(check, put(k))), None)
        best: int | None = None
        for places in self._directions(check, axis, start, put):
            last = axis.here
            for k in places:
                if self.late:
                    break
                if self.holds(check, put(k)):
                    near = halved(last, k, lambda place: self.holds(check, put(place)))
                    if best is None or abs(near - axis.here) < abs(best - axis.here):
                        best = near
                    break
                last = float(k)
            if best is not None:
                break
        return None if best is None else put(best)

    def _directions(
        self, check: Check, axis: Axis, start: int | None, put: Callable[[int], dict[str, object]]
    ) -> list[list[int]]:
        """Places to try in turn, first in the direction that helps."""
        up, down = (
            list(strides(axis.here, axis.count, 1)),
            list(strides(axis.here, axis.count, -1)),
        )
        if start is not None:
            sign = 1 if start > axis.here else -1
            first = [start, *strides(float(start), axis.count, sign)]
            return [first, up, down] if sign > 0 else [first, down, up]
        now = check.spare
        # a stride wide enough to be felt shows which direction helps
        felt = [
            (self.spare(check, put(places[min(2, len(places) - 1)])) if places else None)
            for places in (up, down)
        ]
        gains = [-1.0 if one is None else one - now for one in felt]
        return [up, down] if gains[0] >= gains[1] else [down, up]

    def candidates(self, check: Check, change: Change) -> Iterator[Mapping[str, object]]:
        """Changes that make a check hold by itself, from one that it names."""
        if isinstance(change, str) and change in BOUGHT:
            held = (values for values in self.bought(change) if self.holds(check, values))
            yield from islice(held, _ROWS)
            return
        if isinstance(change, str):
            for axis in axes(self.design, change):
                found = self.along(check, axis)
                if found:
                    yield found
                    break
            return
        yield from self._begun(check, change)

    def _stands(self, name: str, value: object) -> bool:
        now = plain_value(self.design, name)
        return bool(now == (tuple(value) if isinstance(value, (list, tuple)) else value))

    def _begun(self, check: Check, change: Mapping[str, object]) -> Iterator[Mapping[str, object]]:
        """Changes that begin at an estimate."""
        # what stands there already is no change
        written_out = {
            name: settled(self.design, name, value)
            for name, value in change.items()
            if not self._stands(name, value)
        }
        if not written_out:
            return
        if not all(written_out.values()):
            return
        for k in range(max(len(one) for one in written_out.values())):
            values = {name: one[min(k, len(one) - 1)] for name, one in written_out.items()}
            if self.holds(check, values):
                yield values
                return
        if len(change) > 1:
            return
        ((name, value),) = change.items()
        for axis in axes(self.design, name):
            start = None
            if isinstance(value, (int, float)) and axis.values is not None:
                start = axis.place(float(value))
            found = self.along(check, axis, start)
            if found:
                yield found
                return

    def mend(self, wanted: list[Check], few: int) -> Mending:
        own: dict[str, list[Remedy]] = {one.id: [] for one in wanted}
        for check in wanted:
            own[check.id] = self.named(check, few)
        left = [one for one in wanted if not own[one.id]]
        searched: set[str] = set()
        for check in left:
            shared = [r for rows in own.values() for r in rows if check.id in r.mends]
            if shared:
                continue
            values, complete = self.sweep(check)
            for one in values:
                remedy = self.remedy(check, one)
                if remedy:
                    own[check.id].append(self.joined(check, remedy))
            # what does away with a check may mend the machine: nothing is said against it
            if complete and not own[check.id] and check.id not in self._gone:
                searched.add(check.id)
        return self._said(wanted, own, few, frozenset(searched))

    def _said(
        self,
        wanted: list[Check],
        own: Mapping[str, list[Remedy]],
        few: int,
        searched: frozenset[str],
    ) -> Mending:
        """Of all that was found what is worth saying of each check."""
        everything = {one.lines: one for rows in own.values() for one in rows}
        ranked = {
            check.id: tuple(
                sensible(
                    sorted(
                        (one for one in everything.values() if check.id in one.mends),
                        key=partial(self._rank, tuple(own[check.id])),
                    )
                )[:few]
            )
            for check in wanted
        }
        mended = {each for one in everything.values() for each in one.mends}
        harmful = frozenset(one for one in mended if not ranked.get(one, True))
        return Mending(MappingProxyType(ranked), searched, harmful)

    def _rank(self, own: tuple[Remedy, ...], remedy: Remedy) -> tuple[float, ...]:
        """Least harm first, then what does not turn the machine into another, then what helps most."""
        return (
            len(remedy.breaks),
            remedy.size > FAR,
            remedy not in own,
            -len(remedy.mends),
            remedy.size,
            len(remedy.values),
        )

    def named(self, check: Check, few: int) -> list[Remedy]:
        """Remedies from the changes that a check names."""
        found: list[Remedy] = []
        for change in check.fix:
            if self.late or sum(not one.breaks for one in found) >= min(few, _ENOUGH):
                break
            for values in self.candidates(check, change):
                remedy = self.remedy(check, values)
                if remedy:
                    found.append(remedy)
                    if not remedy.breaks:
                        break
                if self.late:
                    break
        if found and not any(not one.breaks for one in found):
            found.sort(key=lambda one: len(one.breaks))
            found[:1] = [self.joined(check, one) for one in found[:1]]
        return found

    def joined(self, check: Check, remedy: Remedy) -> Remedy:
        """A remedy with one more choice that mends what it breaks, where there is one."""
        if not 0 < len(remedy.breaks) <= _BREAKS_MENDED or self.late:
            return remedy
        there = self.whole(remedy.values)
        if there is None:
            return remedy
        broken = {one.id: one for one in there.checks if one.id in remedy.breaks}
        inner = _Bench(there, self._ends - time.monotonic())
        for change in broken[remedy.breaks[0]].fix:
            if self.late:
                break
            more = next(inner.candidates(broken[remedy.breaks[0]], change), None)
            if more and not set(more) & set(remedy.values):
                both = self.remedy(check, {**remedy.values, **more})
                if both and len(both.breaks) < len(remedy.breaks):
                    return both
        return remedy

    def sweep(self, check: Check) -> tuple[list[Mapping[str, object]], bool]:
        """Move every choice through its whole range; the changes that help, and whether time sufficed."""
        found: list[Mapping[str, object]] = []
        read = self.made[check.id][1]
        for thing in BOUGHT:
            if any(name.startswith(f"{thing}.") for name in read):
                found += [one for one in self.bought(thing) if self.holds(check, one)][:1]
        near = f"{check.stage} {check.part}".replace("_", " ")
        names = [name for name, _ in choices() if name in read]
        # what belongs to the part itself comes first, so that enough is found soon
        names.sort(key=lambda name: name.split(".")[0].replace("_", " ") not in near)
        for name in names:
            if len(found) > 2 * FEW:
                return found, False
            for axis in axes(self.design, name):
                if self.late:
                    return found, False
                here = self._swept(check, axis)
                if here:
                    found.append(here)
                    break
        return found, True

    def _swept(self, check: Check, axis: Axis) -> Mapping[str, object] | None:
        if axis.values is not None and not self._felt(check, axis):
            return None
        return self.along(check, axis)

    def _felt(self, check: Check, axis: Axis) -> bool:
        """Whether the check feels a field at all, tried by a wide step each way."""
        for sign in (1, -1):
            places = list(strides(axis.here, axis.count, sign))
            for k in (places[len(places) // 2 : len(places) // 2 + 1], places[-1:]):
                for place in k:
                    spare = self.spare(check, {axis.field: axis.write(place)})
                    if spare is not None and spare != check.spare:
                        return True
        return False
