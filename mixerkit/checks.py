"""Checks, their verdicts, and the weakest link.

A check sets what is asked of a part against what it can take. Stages work on arrays over
all states of the machine; :func:`mixerkit.spare.governing` finds the one that is kept and named.
"""

from __future__ import annotations

import math
import re
from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import dataclass, field
from functools import cached_property, lru_cache
from typing import Literal

import pint

from mixerkit.frozen import frozen
from mixerkit.spare import spare_of
from mixerkit.units import Q_, digits_apart, show
from mixerkit.working import Working

__all__ = [
    "TIGHT",
    "Change",
    "Check",
    "Say",
    "Verdict",
    "not_judged",
    "verdict_of",
    "weakest",
]

Verdict = Literal["holds", "tight", "fails"]
Say = Callable[[float, str], str]
"""Writes a plain number in a unit as this maker wants to read it."""
Change = str | Mapping[str, object]
"""A change that may mend a check: a field to try both ways, or fields with the values to begin at.

Values are plain numbers in the unit their field declares, or what stands in a file.
"""
_NOTHING = 1e-9
"""Less than this of anything the kit checks is shown as nought: it is what rounding leaves."""
TIGHT = 1.10
"""Spare below which a check that holds is called tight (common practice)."""


@dataclass(frozen=True, init=False)
class Check:
    """What is asked of one part against what it can take.

    Attributes
    ----------
    stage : str
        Stage of the power path, such as ``"motor"``.
    part : str
        Part it concerns, such as ``"shaft 2"``.
    name : str
        What is checked.
    demand, capacity : float
        Plain numbers in ``unit``; ``quantities`` gives them with it.
    unit : str
    safety : float
        Factor by which the capacity has to exceed the demand.
    state : str
        State of the machine that governs, in words.
    source : str
        Standard and clause, handbook and equation, or ``common practice``.
    tells, fixes, notes : callable
        Make :attr:`reason`, :attr:`fix` and :attr:`note`, only when they are read.
    system : str
        ``"metric"`` or ``"inch"``: units this maker reads.
    tight : float
        Spare below which it is called tight; 1 for what fits or does not, with nothing between.
    gives : tuple of float, optional
        Torque in N*m at the slow end of the box at which the part yields, and at which it breaks;
        none for a check that says nothing of either.
    workings : callable
        Makes :attr:`working`, only when it is read.
    words : tuple of str, optional
        How demand and capacity are said where their numbers say nothing: what is wanted, and what there is.
    """

    stage: str
    part: str
    name: str
    demand: float
    capacity: float
    unit: str
    safety: float
    state: str
    source: str
    tells: Callable[[], str] = field(compare=False, repr=False)
    system: str = "metric"
    tight: float = TIGHT
    gives: tuple[float, float] | None = None
    fixes: Callable[[], Sequence[Change]] = field(default=tuple, compare=False, repr=False)
    notes: Callable[[], str] = field(default=str, compare=False, repr=False)
    words: tuple[str, str] | None = None
    workings: Callable[[], Sequence[Working]] = field(default=tuple, compare=False, repr=False)

    def __init__(
        self,
        stage: str,
        part: str,
        name: str,
        demand: float,
        capacity: float,
        unit: str,
        safety: float,
        state: str,
        source: str,
        tells: Callable[[], str],
        system: str = "metric",
        tight: float = TIGHT,
        gives: tuple[float, float] | None = None,
        fixes: Callable[[], Sequence[Change]] = tuple,
        notes: Callable[[], str] = str,
        words: tuple[str, str] | None = None,
        workings: Callable[[], Sequence[Working]] = tuple,
    ) -> None:
        # all at once: hundreds are made in every assessment, and a frozen class sets one field after the other
        vars(self).update(
            stage=stage,
            part=part,
            name=name,
            demand=demand,
            capacity=capacity,
            unit=unit,
            safety=safety,
            state=state,
            source=source,
            tells=tells,
            system=system,
            tight=tight,
            gives=gives,
            fixes=fixes,
            notes=notes,
            words=words,
            workings=workings,
        )

    @cached_property
    def working(self) -> tuple[Working, ...]:
        """How demand and capacity were worked out, each a formula with its numbers, or a method."""
        return tuple(self.workings()) if self.judged else ()

    @cached_property
    def reason(self) -> str:
        """The formula with its numbers in."""
        return self.tells()

    @cached_property
    def fix(self) -> tuple[Change, ...]:
        """Changes of choices that may mend it, likeliest first; none of them tried yet."""
        return frozen(list(self.fixes())) if self.verdict == "fails" else ()

    @cached_property
    def note(self) -> str:
        """What to measure, or which facts stand against each other; empty unless it fails."""
        return self.notes() if self.verdict == "fails" else ""

    @property
    def judged(self) -> bool:
        """Whether it could be worked out; what could not counts as failing."""
        return not (math.isnan(self.demand) or math.isnan(self.capacity))

    @property
    def id(self) -> str:
        """Stable name for scripts, unique within one design: stage, part and check in plain letters."""
        return ".".join(_plain_letters(one) for one in (self.stage, self.part, self.name))

    @property
    def quantities(self) -> tuple[pint.Quantity[float], pint.Quantity[float]]:
        """Demand and capacity as quantities."""
        return Q_(self.demand, self.unit), Q_(self.capacity, self.unit)

    @property
    def spare(self) -> float:
        """Capacity over demand times safety: at least 1 where the check holds."""
        return float(spare_of(self.demand, self.capacity, self.safety))

    @property
    def verdict(self) -> Verdict:
        """One of ``holds``, ``tight`` and ``fails``."""
        return verdict_of(self.spare, self.tight)

    def in_digits(self, value: float) -> str:
        """Write a value of this check with so many digits that what fails is seen to fail."""
        if self.verdict != "fails":
            return show(value, self.unit, self.system)
        needed = self.demand * self.safety
        digits = digits_apart(needed, self.capacity, self.unit, self.system)
        return show(value, self.unit, self.system, digits)

    @property
    def shown(self) -> tuple[str, str]:
        """Demand and capacity written in this maker's units, in words where they are no numbers."""
        if self.words is not None:
            return self.words
        asked, takes = (
            "unknown"
            if math.isnan(value)
            else (without if value > 0 else "nothing")
            if math.isinf(value)
            else self.in_digits(0.0 if abs(value) < _NOTHING else value)
            for value, without in ((self.demand, "more than any"), (self.capacity, "any amount"))
        )
        return asked, takes

    @property
    def remark(self) -> str:
        """What to know of a failing check, or how little a tight one has to spare."""
        if self.verdict == "tight":
            percent = 100 * (self.spare - 1)
            return f"Only {percent:.0f} % to spare." if percent >= 1 else "Less than 1 % to spare."
        return self.note

    def sentence(self) -> str:
        """Say the check in one line, as it is said to a maker."""
        asked, takes = self.shown
        where = f", {self.state}" if self.state else ""
        factor = f" with the wanted factor {self.safety:g}" if self.safety != 1 else ""
        tail = f" {self.remark}" if self.remark else ""
        if not self.judged:
            return f"{self.part[0].upper()}{self.part[1:]}, {self.name}: cannot be judged: {self.reason}."
        name = self.name if self.name.startswith(self.part) else f"{self.part}, {self.name}"
        return f"{name[0].upper()}{name[1:]}: {asked} asked against {takes}{factor}{where}.{tail}"


@lru_cache(maxsize=4096)
def _plain_letters(words: str) -> str:
    """Words in small letters and digits with dashes between, apostrophes left out."""
    return re.sub(r"[^a-z0-9]+", "-", words.lower().replace("'", "")).strip("-")


def verdict_of(spare: float, tight: float = TIGHT) -> Verdict:
    """Give the verdict for a spare.

    Parameters
    ----------
    spare : float
        Capacity over demand times safety; a value that is no number fails.
    tight : float
        Spare below which it is called tight.

    Returns
    -------
    str

    Examples
    --------
    >>> verdict_of(0.99), verdict_of(1.05), verdict_of(1.5)
    ('fails', 'tight', 'holds')
    """
    # a capacity chosen to be exactly enough may come out one rounding below 1
    if not spare >= 1 - 1e-9:
        return "fails"
    return "tight" if spare < tight - 1e-9 else "holds"


def not_judged(stage: str, part: str, name: str, why: str, system: str = "metric") -> Check:
    """Make the failing check of what cannot be worked out, a formula or a table not reaching so far.

    Parameters
    ----------
    stage, part, name : str
    why : str
        What is out of range, in words, with what was wanted.
    system : str

    Returns
    -------
    Check

    Examples
    --------
    >>> not_judged("hubs", "key", "pressure", "the table has no key for a shaft of 900 mm").sentence()
    'Key, pressure: cannot be judged: the table has no key for a shaft of 900 mm.'
    """
    why = why.rstrip(".")
    return Check(
        stage,
        part,
        name,
        math.nan,
        math.nan,
        "",
        1.0,
        "",
        "out of range of what the kit knows",
        lambda: why,
        system,
        notes=lambda: "It cannot be judged, so it counts as failing.",
    )


def weakest(checks: Iterable[Check]) -> Check:
    """Find the check with the least spare.

    What fits or does not, with nothing between, counts only where it fails.

    Raises
    ------
    ValueError
        If there are no checks.
    """

    def spare(check: Check) -> float:
        if math.isnan(check.spare):
            return -math.inf
        return math.inf if check.tight <= 1 and check.verdict == "holds" else check.spare

    return min(checks, key=spare)
