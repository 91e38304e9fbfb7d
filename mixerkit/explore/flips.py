"""Which assumed values could make a holding machine fail within their range, and how little it takes."""

from __future__ import annotations

from collections.abc import Collection
from dataclasses import dataclass

from mixerkit.explore.collected import seldom_collected
from mixerkit.explore.draft.assumed import assumed
from mixerkit.explore.inputs import ends, typed
from mixerkit.explore.reads import made_by
from mixerkit.machine import Machine
from mixerkit.units import InputError

__all__ = ["Flip", "flips"]

_HALVINGS = 4
"""After so many it is known to a sixteenth of the way to the end by how much a value may be off."""


@dataclass(frozen=True)
class Flip:
    """An assumed value that makes checks fail within its range.

    Attributes
    ----------
    field : str
    low, high : object
        Both ends, as they would stand in the file.
    at : object
        The nearest value at which a check was found to fail, as it would stand in the file.
    fails : tuple of str
        Ids of checks that hold and fail there, or at the far end of the same side, those first that give first.
    takes : float
        Share of the way to the end that it takes.
    """

    field: str
    low: object
    high: object
    at: object
    fails: tuple[str, ...]
    takes: float


@seldom_collected()
def flips(machine: Machine, known: Collection[str] = ()) -> tuple[Flip, ...]:
    """Move each assumed value alone to both ends of its range, and say which make a check fail that holds.

    Parameters
    ----------
    machine : Machine
    known : collection of str
        Fields that were measured since, which are assumed no more.

    Returns
    -------
    tuple of Flip
        Those that take least first; none for a design of which nothing was drafted.

    Examples
    --------
    >>> from mixerkit import Design
    >>> flips(Machine(Design.demo()))
    ()
    """
    names = [one for one in assumed(machine.design) if one not in known]
    if not names:
        return ()
    # what was drafted is judged anew with every value, and is the same in all of them
    bench = _Bench(machine.with_values({"drafted": {}}))
    found = [bench.flip(name) for name in names if name in bench.read]
    return tuple(sorted((one for one in found if one), key=lambda one: (one.takes, one.field)))


class _Bench:
    """Tries fields of one machine; only what reads a field is made again."""

    def __init__(self, machine: Machine) -> None:
        self.machine = machine
        self._made = made_by(machine)
        self._holding = {one.id for one in machine.checks if one.verdict != "fails"}
        self._giving = {one.id for one in machine.checks if one.gives}
        self.read = {name for _, fields in self._made.values() for name in fields}

    def flip(self, name: str) -> Flip | None:
        """What one field does within its range; none where all that holds goes on holding."""
        design, span = self.machine.design, ends(self.machine.design, name)
        if span is None:
            return None
        record, field, _ = design.field(name)
        now = getattr(record, field)
        sides = []
        for end in span:
            last = self._failing(name, end)
            if last:
                share, first = self._nearest(name, now, end, last)
                at = typed(design, name, now + share * (end - now))
                sides.append((share, at, tuple(dict.fromkeys((*first, *last)))))
        if not sides:
            return None
        share, at, fails = min(sides, key=lambda one: one[0])
        low, high = (typed(design, name, one) for one in span)
        return Flip(name, low, high, at, fails, share)

    def _failing(self, name: str, value: float) -> tuple[str, ...]:
        """Checks that hold as it stands and fail with one field at a value."""
        design = self.machine.design
        try:
            moved = self.machine.with_values({name: typed(design, name, value)})
        except InputError:
            return ()
        touched = {one: maker for one, (maker, fields) in self._made.items() if name in fields}
        makers = [maker for maker in touched.values() if maker]
        # the jam's ladder stands on all that gives way, and is made of all checks
        whole = None in touched.values() or not self._giving.isdisjoint(touched)
        checks = moved.checks if whole else moved.checks_of(makers)
        return tuple(one.id for one in checks if one.verdict == "fails" and one.id in self._holding)

    def _nearest(
        self, name: str, now: float, end: float, last: tuple[str, ...]
    ) -> tuple[float, tuple[str, ...]]:
        """Least share of the way to an end at which a check was found to fail, and which."""
        good, bad = 0.0, 1.0
        for _ in range(_HALVINGS):
            middle = (good + bad) / 2
            failing = self._failing(name, now + middle * (end - now))
            if failing:
                bad, last = middle, failing
            else:
                good = middle
        return bad, last
