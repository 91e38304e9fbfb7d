"""Changes of one design tried on the machine, each only once."""

from __future__ import annotations

import json
import time
from collections.abc import Mapping
from dataclasses import dataclass, field
from functools import cached_property
from types import MappingProxyType
from typing import Any

from mixerkit.checks import Check
from mixerkit.design import Design
from mixerkit.drive import jam_checks
from mixerkit.explore.bought import bought
from mixerkit.explore.reads import first_to_give, made_by
from mixerkit.explore.remedy import A_PURCHASE, Remedy, moved
from mixerkit.machine import Machine
from mixerkit.stages import Maker
from mixerkit.units import InputError

__all__ = ["Trials"]


def _key(values: Mapping[str, object]) -> str:
    return json.dumps(dict(values), sort_keys=True)


@dataclass
class Trials:
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
        """Whether the time given is over."""
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
        """Whether a check holds with a change."""
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
        if any(self.design.field(name)[2].role == "fact" for name in values):
            # another motor or box is one purchase, whatever its numbers
            size = A_PURCHASE
        return Remedy(MappingProxyType(dict(values)), mends, breaks, size)
