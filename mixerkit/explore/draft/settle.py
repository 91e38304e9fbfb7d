"""Bring a design to where all of it holds: what fails names what would help, and that is done, all at once.

First every part grows to what is asked of it, load untouched; what follows from others is worked out anew each time.
Where that comes to no end, changes are tried one by one and the best is kept.
"""

from __future__ import annotations

import json
import math
from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass, field

from mixerkit.checks import Check
from mixerkit.design import Design
from mixerkit.explore.bought import BOUGHT
from mixerkit.explore.collected import seldom_collected
from mixerkit.explore.draft.bores import bored_wide
from mixerkit.explore.draft.follow import followed, following
from mixerkit.explore.remedy import badness
from mixerkit.explore.settable import Axis, axes, settled
from mixerkit.machine import Machine
from mixerkit.units import InputError

__all__ = ["Settler"]

_LOADS = frozenset(
    {
        "paddles.count",
        "paddles.tip_radius",
        "paddles.set_angle",
        "trough.length",
        "fuse.kind",
        "fuse.setting",
    }
)
"""Choices that ask less of everything: not moved while parts grow to what is asked of them."""
_ROUNDS = 20
_HELPED = 0.97
"""A check that is left with more than this share of its badness was not helped by what was done for it."""


@dataclass
class Settler:
    """Changes what may be changed of a design until nothing fails.

    Attributes
    ----------
    design : Design
    may : callable
        Whether a field, by its dotted name, may be changed.
    trials : int
        Whole machines that may be tried.
    tried : int
        Those that were.
    why : dict of str to str
        For whose sake each field was changed last.
    """

    design: Design
    may: Callable[[str], bool]
    trials: int
    tried: int = 0
    why: dict[str, str] = field(default_factory=dict)
    _known: dict[tuple[Design, str], tuple[float, Machine] | None] = field(default_factory=dict)
    _before: dict[str, tuple[tuple[str, ...], float]] = field(default_factory=dict)
    _useless: set[tuple[str, tuple[str, ...]]] = field(default_factory=set)

    def __post_init__(self) -> None:
        # a bar is made as thick as the other, and may grow by itself
        self.follows = frozenset(following(self.design)) - {
            "shaft_1.diameter",
            "shaft_2.diameter",
        }
        self.begin(self.design)

    def begin(self, design: Design) -> None:
        """Begin with a design."""
        self.design = self.followed(design)

    def followed(self, design: Design) -> Design:
        """A design with what follows from the rest worked out anew, its box bored for the stub round shaft 1."""
        return bored_wide(followed(design, self.may), self.may)

    @property
    def late(self) -> bool:
        """Whether enough was tried."""
        return self.tried >= self.trials

    def judged(self, values: Mapping[str, object]) -> tuple[float, Machine] | None:
        """The machine with a change and what follows from it, and how bad it is; none where it is refused."""
        key = self.design, json.dumps(dict(values), sort_keys=True, default=list)
        if key not in self._known:
            try:
                machine = Machine(self.followed(self.design.with_values(dict(values))))
                self.tried += 1
                self._known[key] = sum(badness(one) for one in machine.checks), machine
            except InputError:
                self._known[key] = None
        return self._known[key]

    @seldom_collected()
    def run(self) -> Machine:
        """The best machine that was found."""
        now = self.judged({})
        if now is None:
            raise InputError("the draft cannot be read as a design.")
        best = now
        for _ in range(6):
            grown = self.grown(best)
            if grown[0] < best[0] - 1e-9:
                best = grown
            self.design = best[1].design
            if best[0] == 0 or self.late:
                break
            step = self.step(best)
            if step is None:
                break
            best = step
            self.design = best[1].design
            if best[0] == 0:
                break
        return best[1]

    # ------------------------------------------------------------------ all at once

    def grown(self, start: tuple[float, Machine]) -> tuple[float, Machine]:
        """Do what every failing check asks for first, over and over; the best on that way."""
        kept, best, now = self.design, start, start
        seen: set[str] = set()
        for _ in range(_ROUNDS):
            if best[0] == 0 or self.late:
                break
            values = self.together(now[1], seen)
            if not values:
                break
            tried = self.judged(values)
            if tried is None:
                break
            now = tried
            self.design = now[1].design
            if now[0] < best[0] - 1e-9:
                best = now
        self.design = kept
        return best

    def together(self, machine: Machine, seen: set[str]) -> dict[str, object]:
        """What failing checks ask for, worst first, the larger where two ask for the same size."""
        values: dict[str, object] = {}
        design = machine.design
        for check in sorted(machine.checks, key=badness, reverse=True):
            if check.verdict != "fails":
                break
            self.learns(check)
            for change in check.fix:
                if isinstance(change, str) or not self.grows(check, change):
                    continue
                if (check.id, tuple(change)) in self._useless:
                    continue
                written = self.written(design, change)
                if not written:
                    continue
                key = json.dumps([check.id, written], sort_keys=True, default=list)
                if key in seen:
                    continue
                if any(name in values for name in written):
                    break
                seen.add(key)
                self._before[check.id] = tuple(change), badness(check)
                values |= written
                self.why |= dict.fromkeys(written, f"{check.part}, {check.name}")
                break
        return values

    def learns(self, check: Check) -> None:
        """Bar what was done for a check the last time, where it did not help."""
        fields, bad = self._before.get(check.id, ((), math.inf))
        if badness(check) > _HELPED * bad:
            self._useless.add((check.id, fields))

    def grows(self, check: Check, change: Mapping[str, object]) -> bool:
        """Whether a change makes a part stronger and leaves what is asked of it."""
        if "bearings.kind" in change or not all(self.may(name) for name in change):
            return False
        if any(name in self.follows for name in change):
            return False
        # the fuse goes by what it takes to start; what a jam then asks, the parts grow to
        if "fuse.setting" in change:
            more = change["fuse.setting"]
            return len(change) == 1 and isinstance(more, float) and more > self.design.fuse.setting
        if any(name in _LOADS for name in change) and check.stage != "trough":
            return False
        if "paddles.width" in change:
            return False
        pin = change.get("fuse.pin_diameter")
        return not any(name.startswith("fuse.") for name in change) or (
            isinstance(pin, float) and pin > self.design.fuse.pin_diameter
        )

    def written(self, design: Design, change: Mapping[str, object]) -> dict[str, object]:
        """A change as it stands in a file: nothing where it is no change, or none that can be set."""
        found: dict[str, object] = {}
        for name, value in change.items():
            options = settled(design, name, value)
            if not options:
                return {}
            record, own, kind = design.field(name)
            try:
                put = kind.number(kind.read_at(options[0], name))
            except InputError:
                return {}
            if put != getattr(record, own):
                found[name] = options[0]
        return found

    # ------------------------------------------------------------------ one by one

    def step(self, now: tuple[float, Machine]) -> tuple[float, Machine] | None:
        """The best single change of those that failing checks name, near ones first."""
        fails = sorted(
            (one for one in now[1].checks if one.verdict == "fails"), key=badness, reverse=True
        )
        best: tuple[float, Machine] | None = None
        for far in (False, True):
            for check in fails[:5]:
                for values in self.singles(check, far):
                    if self.late:
                        return best
                    tried = self.judged(values)
                    if tried and tried[0] < (best or now)[0] - 1e-9:
                        best = tried
                        self.why |= dict.fromkeys(values, f"{check.part}, {check.name}")
                if best is not None and best[0] < 0.6 * now[0]:
                    return best
            if best is not None:
                return best
        return None

    def singles(self, check: Check, far: bool) -> Iterator[dict[str, object]]:
        """Changes that a check names, as they stand in a file."""
        for change in check.fix:
            if isinstance(change, str):
                if (
                    change not in BOUGHT
                    and self.may(change)
                    and change not in self.follows | _LOADS
                ):
                    for axis in axes(self.design, change)[:3]:
                        yield from _beside(axis, (4, -4, 10, -10) if far else (1, -1, 2, -2))
            # another fuse that holds at a start and gives way in a jam asks nothing less of what it spares
            elif all(self.may(name) for name in change) and (
                "fuse.kind" in change or not _LOADS.intersection(change)
            ):
                values = self.written(self.design, change)
                if values:
                    yield values


def _beside(axis: Axis, steps: tuple[int, ...]) -> Iterator[dict[str, object]]:
    if axis.values is None:
        for place in range(min(axis.count, 4)):
            yield {axis.field: axis.write(place)}
        return
    for step in steps:
        place = (math.floor(axis.here + 1e-9) if step > 0 else math.ceil(axis.here - 1e-9)) + step
        if 0 <= place < axis.count:
            yield {axis.field: axis.write(place)}
