"""What mends a failing check: changes of choices, each tried on the whole machine before it is said.

A check names the changes that may help (:attr:`mixerkit.checks.Check.fix`). Each is moved along what can
be bought, cut, set or typed until the check holds, the machine being worked out anew each time; what
else fails then is named, and where one more choice mends that too, it comes with it. Where none of
the named changes does, every choice is moved through its whole range.
"""

from __future__ import annotations

import json
import math
import time
from collections.abc import Callable, Iterable, Iterator, Mapping
from dataclasses import dataclass, field
from functools import cached_property, partial
from itertools import islice
from types import MappingProxyType
from typing import Any

from mixerkit.checks import Change, Check
from mixerkit.design import Design
from mixerkit.drive import jam_checks
from mixerkit.explore.reads import first_to_give, made_by
from mixerkit.explore.settable import BOUGHT, Axis, axes, bought, choices, settled
from mixerkit.machine import Machine
from mixerkit.stages import Maker
from mixerkit.units import InputError

__all__ = ["Mending", "Remedy", "mend", "written"]

FEW = 3
"""Remedies said of one check."""
_ENOUGH = 2
"""Harmless remedies after which no more of the changes that a check names are tried."""
_FAR = 0.8
"""Moved by more than this power of two, a value makes another machine (common practice)."""
_ROWS = 4
"""Motors or boxes that mend a check, likest first, of which one is looked for that breaks nothing."""
_BREAKS_MENDED = 3
"""Checks that a change breaks, up to which one more choice may mend them all."""
_A_PURCHASE = 0.5
"""How far another motor or box is from the one there is, on the same scale (common practice)."""
_PATIENCE = 300.0
"""Seconds after which no new change is tried; what was not tried is said."""


@dataclass(frozen=True)
class Remedy:
    """One change that mends a check, tried on the whole machine.

    Attributes
    ----------
    values : mapping
        Fields and their values as they stand in a design file.
    mends : tuple of str
        Ids of the failing checks that hold with it.
    breaks : tuple of str
        Ids of checks that hold without it and fail with it.
    size : float
        How far the values move: nought for none, 1 for twice or half as much (see :func:`moved`).
    """

    values: Mapping[str, object]
    mends: tuple[str, ...]
    breaks: tuple[str, ...]
    size: float = 0.0

    @property
    def lines(self) -> tuple[str, ...]:
        """The change ready to type, a field a line."""
        return tuple(written(name, value) for name, value in self.values.items())


@dataclass(frozen=True)
class Mending:
    """What mends each failing check of a design.

    Attributes
    ----------
    remedies : mapping
        Id of each failing check that was asked for, to its remedies, most helpful first.
    searched : frozenset of str
        Ids without a remedy for which every single choice was moved through its whole range.
    """

    remedies: Mapping[str, tuple[Remedy, ...]]
    searched: frozenset[str]

    @property
    def best(self) -> Remedy | None:
        """The harmless remedy that mends most; none if there is none that mends two or more."""
        known = {one.lines: one for found in self.remedies.values() for one in found}
        best = max(
            (one for one in known.values() if not one.breaks),
            key=lambda one: (len(one.mends) - one.size, -len(one.values)),
            default=None,
        )
        return best if best and len(best.mends) > 1 else None

    def why_none(self, check: Check) -> str:
        """Say of a check without a remedy whether all was tried, and what to know of it."""
        if not check.fix and check.note and check.judged:
            # what hangs on facts and practice alone has nothing to be chosen
            return check.note
        lead = (
            "No single change of a choice mends this"
            if check.id in self.searched
            else "None of the changes tried in the time given mends this"
        )
        return f"{lead}. {check.note}" if check.note and check.judged else f"{lead}."


def written(name: str, value: object) -> str:
    """Write a field and its value as a line to type, such as ``shaft_2.diameter = "50 mm"``.

    Examples
    --------
    >>> print(written("shaft_2.diameter", "50 mm"))
    shaft_2.diameter = "50 mm"
    >>> print(written("paths.direct.tooth_counts", [31, 29]))
    paths.direct.tooth_counts = [31, 29]
    """
    return f"{name} = {json.dumps(value, ensure_ascii=False)}"


def moved(before: Design, after: Design, fields: Iterable[str]) -> float:
    """How far fields move from one design to another: the greatest of them counts.

    Parameters
    ----------
    before, after : Design
    fields : iterable of str
        Dotted names.

    Returns
    -------
    float
        For a number the power of two between both values, at most 10; a half for what has no order.

    Examples
    --------
    >>> demo = Design.demo()
    >>> moved(demo, demo.with_values({"shaft_1.diameter": "90 mm"}), ["shaft_1.diameter"])
    1.0
    """
    return max((_moved_one(_plain(before, one), _plain(after, one)) for one in fields), default=0.0)


def _moved_one(old: object, new: object) -> float:
    if isinstance(old, tuple) and isinstance(new, tuple) and len(old) == len(new) and old:
        return max(_moved_one(one, two) for one, two in zip(old, new, strict=True))
    if isinstance(old, bool) or not (
        isinstance(old, (int, float)) and isinstance(new, (int, float))
    ):
        return 0.5 if old != new else 0.0
    if old <= 0 or new <= 0:
        return min(abs(float(new - old)) / (abs(float(old)) or 1.0), 10.0)
    return min(abs(math.log2(new / old)), 10.0)


def _role(design: Design, dotted: str) -> str:
    """Role of a design's field."""
    return design.field(dotted)[2].role


def _plain(design: Design, dotted: str) -> object:
    record, name, _ = design.field(dotted)
    value: object = getattr(record, name)
    return value


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
    >>> thin = Machine(Design.demo("thin_shaft"))
    >>> mending = mend(thin, ["shafts.shaft-2.diameter-for-bending-with-torsion-in-a-jam"])
    >>> [one.lines[0] for rows in mending.remedies.values() for one in rows][:2]
    ['sleeve.kind = "carried"', 'shaft_2.diameter = "28 mm"']
    """
    asked = None if ids is None else set(ids)
    wanted = [
        one for one in found.checks if one.verdict == "fails" and (asked is None or one.id in asked)
    ]
    return _Bench(found, patience).mend(wanted, few)


def _sensible(ranked: list[Remedy]) -> list[Remedy]:
    """Leave out what does more harm than good, and what only says more of the same, if others are left."""
    clean = [one for one in ranked if not one.breaks]
    good = clean or [one for one in ranked if len(one.breaks) < len(one.mends)]
    kept: list[Remedy] = []
    said = [one.values.items() for one in good]
    # what does with less needs no more
    good = [one for one in good if not any(less < one.values.items() for less in said)]
    for one in good or ranked[:1]:
        fields = {*one.values}
        if not any(fields == {*other.values} or fields > {*other.values} for other in kept):
            kept.append(one)
    return kept


def _key(values: Mapping[str, object]) -> str:
    return json.dumps(dict(values), sort_keys=True)


@dataclass
class _Bench:
    """Tries changes of one design, each only once."""

    found: Machine
    patience: float
    _whole: dict[str, Machine | None] = field(default_factory=dict)
    _some: dict[tuple[Maker, str], tuple[Machine, dict[str, Check]] | None] = field(
        default_factory=dict
    )
    _gone: dict[str, Mapping[str, object]] = field(default_factory=dict)
    _bought: dict[str, list[dict[str, object]]] = field(default_factory=dict)
    _ends: float = 0.0

    def __post_init__(self) -> None:
        self._ends = time.monotonic() + self.patience
        self.design: Design = self.found.design
        self.before = {one.id: one for one in self.found.checks}
        self.failing = {one.id for one in self.found.checks if one.verdict == "fails"}

    # ------------------------------------------------------------------ trying

    @cached_property
    def made(self) -> dict[str, tuple[Maker | None, frozenset[str]]]:
        """What makes each check, and the fields read for it; no other field can mend it."""
        return made_by(self.found)

    def bought(self, thing: str) -> list[dict[str, object]]:
        """Other motors or boxes, listed once."""
        if thing not in self._bought:
            self._bought[thing] = bought(self.design, thing)
        return self._bought[thing]

    @property
    def late(self) -> bool:
        return time.monotonic() > self._ends

    def whole(self, values: Mapping[str, Any]) -> Machine | None:
        """The machine with a change, to be worked out as it is asked; none where the design refuses it."""
        key = _key(values)
        if key not in self._whole:
            try:
                self._whole[key] = Machine(self.design.with_values(dict(values)))
            except InputError:
                self._whole[key] = None
        return self._whole[key]

    def part(
        self, maker: Maker, values: Mapping[str, Any]
    ) -> tuple[Machine, dict[str, Check]] | None:
        """The machine with a change, and the checks of one maker by id; quicker than all checks."""
        key = (maker, _key(values))
        if key not in self._some:
            machine = self.whole(values)
            self._some[key] = (
                (machine, {one.id: one for one in machine.checks_of([maker])}) if machine else None
            )
        return self._some[key]

    def spare(self, check: Check, values: Mapping[str, object]) -> float | None:
        """Spare of a check with a change, or none where it is refused or the check is gone.

        Of the jam's ladder it may be only a bound from above, where that is below 1 already.
        """
        maker, _ = self.made[check.id]
        if maker is None:
            one = self._bound(check, values)
            there = None if one else self.whole(values)
            found = {each.id: each for each in there.checks} if there else None
        else:
            one, tried = None, self.part(maker, values)
            found = tried[1] if tried else None
        if found is not None:
            one = found.get(check.id)
            if one is None:
                self._gone.setdefault(check.id, values)
        return None if one is None else one.spare if one.verdict == "fails" else max(one.spare, 1.0)

    def _bound(self, check: Check, values: Mapping[str, object]) -> Check | None:
        """The jam's ladder with only the part by which it fails now; none where that would do.

        It is quicker to ask of one part than of all: where it still gives too soon, the ladder fails.
        """
        if self.first is None:
            return None
        maker = self.made[self.first.id][0]
        tried = self.part(maker, values) if maker else None
        one = tried[1].get(self.first.id) if tried else None
        if one is None or not (one.gives or not one.judged):
            return None
        bound = next(iter(jam_checks.checks(tried[0], [one])), None) if tried else None
        return bound if bound and bound.id == check.id and bound.verdict == "fails" else None

    @cached_property
    def first(self) -> Check | None:
        """What the jam's ladder fails by."""
        return first_to_give(self.found)

    def holds(self, check: Check, values: Mapping[str, object]) -> bool:
        spare = self.spare(check, values)
        return spare is not None and spare >= 1

    def remedy(self, check: Check, values: Mapping[str, object]) -> Remedy | None:
        """A change as a remedy, if the whole machine worked out anew says that the check holds."""
        there = self.whole(values)
        if there is None:
            return None
        after = {one.id: one.verdict for one in there.checks}
        mends = tuple(
            one for one in self.before if one in self.failing and after.get(one, "fails") != "fails"
        )
        if check.id not in mends:
            return None
        breaks = tuple(
            one for one, verdict in after.items() if verdict == "fails" and one not in self.failing
        )
        size = moved(self.design, there.design, values)
        if any(_role(self.design, name) == "fact" for name in values):
            # another motor or box is one purchase, whatever its numbers
            size = _A_PURCHASE
        return Remedy(MappingProxyType(dict(values)), mends, breaks, size)

    # ------------------------------------------------------------------ looking

    def along(
        self, check: Check, axis: Axis, start: int | None = None
    ) -> Mapping[str, object] | None:
        """The value nearest the design's own on one axis at which a check holds."""

        def put(k: int) -> dict[str, object]:
            return {axis.field: axis.write(k)}

        if axis.values is None:
            return next((put(k) for k in range(axis.count) if self.holds(check, put(k))), None)
        best: int | None = None
        for way in self._ways(check, axis, start, put):
            last = axis.here
            for k in way:
                if self.late:
                    break
                if self.holds(check, put(k)):
                    near = self._nearest(check, put, last, k)
                    if best is None or abs(near - axis.here) < abs(best - axis.here):
                        best = near
                    break
                last = float(k)
            if best is not None:
                break
        return None if best is None else put(best)

    def _ways(
        self, check: Check, axis: Axis, start: int | None, put: Callable[[int], dict[str, object]]
    ) -> list[list[int]]:
        """Places to try in turn, first in the direction that helps."""
        up, down = (
            list(_strides(axis.here, axis.count, 1)),
            list(_strides(axis.here, axis.count, -1)),
        )
        if start is not None:
            way = 1 if start > axis.here else -1
            own = list(_strides(float(start), axis.count, way))
            first = [start, *own]
            return [first, up if way > 0 else down, down if way > 0 else up]
        now = check.spare
        # a stride wide enough to be felt shows which way helps
        felt = [
            (self.spare(check, put(way[min(2, len(way) - 1)])) if way else None)
            for way in (up, down)
        ]
        gains = [-1.0 if one is None else one - now for one in felt]
        return [up, down] if gains[0] >= gains[1] else [down, up]

    def _nearest(
        self, check: Check, put: Callable[[int], dict[str, object]], fails: float, holds: int
    ) -> int:
        """Halve between a place that fails and one that holds."""
        low, high = fails, holds
        while abs(high - low) > 1:
            middle = round((low + high) / 2)
            if middle in (low, high):
                break
            if self.holds(check, put(middle)):
                high = middle
            else:
                low = middle
        return high

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
        now = _plain(self.design, name)
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

    # ------------------------------------------------------------------ answering

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
        everything = {one.lines: one for rows in own.values() for one in rows}
        ranked = {
            check.id: tuple(
                _sensible(
                    sorted(
                        (one for one in everything.values() if check.id in one.mends),
                        key=partial(self._rank, tuple(own[check.id])),
                    )
                )[:few]
            )
            for check in wanted
        }
        return Mending(MappingProxyType(ranked), frozenset(searched))

    def _rank(self, own: tuple[Remedy, ...], remedy: Remedy) -> tuple[float, ...]:
        """Least harm first, then what does not turn the machine into another, then what helps most."""
        return (
            len(remedy.breaks),
            remedy.size > _FAR,
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
        for way in (1, -1):
            places = list(_strides(axis.here, axis.count, way))
            for k in (places[len(places) // 2 : len(places) // 2 + 1], places[-1:]):
                for place in k:
                    spare = self.spare(check, {axis.field: axis.write(place)})
                    if spare is not None and spare != check.spare:
                        return True
        return False


def _strides(here: float, count: int, way: int) -> Iterator[int]:
    """Places from one on in growing strides, to the last one in that direction."""
    place = int(here + 1 if way > 0 and here >= 0 else here) if way > 0 else int(-(-here // 1)) - 1
    place = max(place, 0) if way > 0 else place
    stride = 1
    while 0 <= place < count:
        yield place
        last = count - 1 if way > 0 else 0
        if place == last:
            return
        place += way * stride
        stride = max(stride + 1, int(stride * 1.6))
        if not 0 <= place < count:
            place = last
