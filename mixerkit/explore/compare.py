"""Many whole machines side by side: mass, price, hours of work, batch time, risk of a stall, least spare.

Draws are judged in chunks on any executor of :mod:`concurrent.futures`, so that a cluster's own drops in; what comes
out hangs on the seed alone.
"""

from __future__ import annotations

import gc
import math
from collections.abc import Callable, Collection, Iterable, Iterator, Mapping, Sequence
from concurrent.futures import Executor, Future
from contextlib import contextmanager
from dataclasses import dataclass
from functools import lru_cache

import numpy as np

from mixerkit.checks import weakest
from mixerkit.design import Design
from mixerkit.explore.draft.follow import followed, following
from mixerkit.explore.uncertainty import FACTORS, spare_torque, stalled
from mixerkit.explore.varied import Vary, draws, still_drafted, varied
from mixerkit.frozen import FrozenDict, frozen
from mixerkit.machine import Machine
from mixerkit.results import Array
from mixerkit.shop.hours import total_hours, work
from mixerkit.shop.parts_list import parts
from mixerkit.shop.prices import Price, price
from mixerkit.shop.prices_file import Prices
from mixerkit.shop.trough_blank import trough_blank
from mixerkit.shop.workshop import Workshop
from mixerkit.units import InputError, as_written

__all__ = ["GOALS", "Candidate", "compare", "front", "goals_of", "judged", "made"]

_CHUNK = 16
"""Machines judged between two looks at whether to go on."""
_SAMPLES = 1000
"""Draws of what is not known well for the risk of a stall; the same for every machine."""
_MOST = 1_000_000
GOALS = ("mass", "price", "hours", "batch_minutes", "stall_risk", "least_spare")
"""What machines are compared by: less is better, but for the spare."""


@dataclass(frozen=True)
class Candidate:
    """One machine of a comparison.

    Attributes
    ----------
    values : mapping of str to object
        Fields that differ from the design, what follows included, as they stand in a file.
    verdict : str
        ``"holds"``, ``"tight"`` or ``"fails"``; ``"refused"`` where the values contradict each other, all numbers
        then not being known.
    mass : float
        In kg, with box and motor and the trough's sheet; ribs, lid, feet and guards left out.
    price : float or None
        In the maker's currency; None where it is not known.
    hours : float
        Of work.
    batch_minutes : float
        From loading one batch to loading the next; infinite where it stalls.
    stall_risk : float
        Share of the draws in which it stalls, starting or mixing, whichever is more often.
    least_spare : float
        Of its weakest check; below 1 it fails.
    failing : tuple of str
        Ids of the checks that fail; for what is refused, the sentences.
    """

    values: Mapping[str, object]
    verdict: str
    mass: float
    price: float | None
    hours: float
    batch_minutes: float
    stall_risk: float
    least_spare: float
    failing: tuple[str, ...]

    @property
    def holds(self) -> bool:
        """Whether all checks hold, and all that machines are compared by could be worked out, prices aside."""
        known = (self.mass, self.hours, self.batch_minutes, self.stall_risk)
        return self.verdict in ("holds", "tight") and all(map(math.isfinite, known))


def compare(
    design: Design,
    vary: Vary = None,
    *,
    count: int = 200,
    seed: int = 1,
    shop: Workshop | None = None,
    executor: Executor | None = None,
    follow: bool = True,
    free: Collection[str] = (),
    progress: Callable[[int, int], None] | None = None,
    cancelled: Callable[[], bool] | None = None,
) -> list[Candidate]:
    """Vary a design and judge each whole machine.

    Parameters
    ----------
    design : Design
    vary : mapping, collection of str, or None
        What to vary, see :func:`mixerkit.explore.varied.varied`.
    count : int
        Machines at most, the design as it is being the first.
    seed : int
        The same seed gives the same machines.
    shop : Workshop, optional
        Its prices are reckoned with.
    executor : concurrent.futures.Executor, optional
        On which to work; without one it is done here.
    follow : bool
        Whether what depends on the varied fields is drafted anew, but for what the maker has fixed.
    free : collection of str
        Facts and practice that may be varied all the same.
    progress : callable, optional
        Told how many are done, of how many.
    cancelled : callable, optional
        Asked between chunks whether to stop.

    Returns
    -------
    list of Candidate
        In the order of the draws, whatever the executor; after a stop the first of them.

    Raises
    ------
    InputError
        If a field, range, count or seed does not fit.

    Examples
    --------
    >>> found = compare(Design.demo(), {"shaft_2.diameter": ["20 mm", "48 mm"]}, count=3)
    >>> [one.verdict for one in found], found[0].values
    (['tight', 'fails', 'tight'], {})
    """
    _whole("count", count, 1, "200")
    _whole("seed", seed, 0, "1")
    rows = draws(varied(design, vary, free, follow=follow), count, seed)
    chunks = [rows[start : start + _CHUNK] for start in range(0, len(rows), _CHUNK)]
    job = _Job(design, shop.prices if shop else None, follow)
    found: list[Candidate] = []
    for done in _worked(job, chunks, executor, cancelled or (lambda: False)):
        found += done
        if progress:
            progress(len(found), len(rows))
    return found


def _whole(name: str, value: object, least: int, example: str) -> None:
    fits = isinstance(value, int) and not isinstance(value, bool)
    if not fits or not least <= int(str(value)) <= _MOST:
        raise InputError(
            f"{name}: {as_written(value)} does not fit; a whole number from {least} to {_MOST} is wanted, for example "
            f"{example}."
        )


@dataclass(frozen=True)
class _Job:
    """What every chunk is judged with; it goes to the executor with each."""

    design: Design
    prices: Prices | None
    follow: bool

    def __call__(self, rows: Sequence[Mapping[str, object]]) -> list[Candidate]:
        with np.errstate(all="ignore"), _freed_at_its_end():
            return [judged(self.design, values, self.prices, follow=self.follow) for values in rows]


@contextmanager
def _freed_at_its_end() -> Iterator[None]:
    """Machines hold themselves in rings, which are looked for once a chunk: an eighth of the time otherwise."""
    was = gc.isenabled()
    gc.disable()
    try:
        yield
    finally:
        gc.collect(0)
        if was:
            gc.enable()


def _worked(
    job: _Job,
    chunks: Sequence[Sequence[Mapping[str, object]]],
    executor: Executor | None,
    cancelled: Callable[[], bool],
) -> Iterator[list[Candidate]]:
    """Chunks in their order, until it is to stop; what has not begun by then never does."""
    sent: list[Future[list[Candidate]]] = []
    try:
        if executor:
            sent = [executor.submit(job, chunk) for chunk in chunks]
        for place, chunk in enumerate(chunks):
            if cancelled():
                return
            yield sent[place].result() if executor else job(chunk)
    finally:
        for one in sent:
            one.cancel()


def judged(
    design: Design,
    values: Mapping[str, object],
    prices: Prices | None = None,
    *,
    follow: bool = True,
) -> Candidate:
    """Judge the whole machine of a changed design.

    Parameters
    ----------
    design : Design
    values : mapping of str to object
        Fields and values as they stand in a file.
    prices : Prices, optional
        Of the shop file.
    follow : bool
        See :func:`compare`.

    Returns
    -------
    Candidate
    """
    try:
        changed = design.with_values(values)
        if follow and values:
            changed = followed(changed, _may(design, values), design)
    except InputError as error:
        lost = math.nan
        return Candidate(
            FrozenDict(values), "refused", lost, None, lost, lost, lost, lost, tuple(error.messages)
        )
    machine = Machine(changed)
    mass, hours, cost = made(machine, prices)
    return Candidate(
        _differing(design, changed, values),
        machine.verdict,
        mass,
        cost.total if cost else None,
        hours,
        _or_nan(lambda: machine.batch.minutes + changed.batch.loading_time),
        _or_nan(lambda: max(map(stalled, spare_torque(machine, _draws())))),
        weakest(machine.checks).spare,
        tuple(one.id for one in machine.checks if one.verdict == "fails"),
    )


def _may(design: Design, values: Mapping[str, object]) -> Callable[[str], bool]:
    """Whether what follows from others may be drafted anew: never what is varied, nor what the maker has fixed."""
    drafted = still_drafted(design)

    def may(name: str) -> bool:
        if name in values:
            return False
        if design.drafted:
            return name in drafted
        return design.field(name)[2].role == "choice"

    return may


def _differing(
    design: Design, changed: Design, values: Mapping[str, object]
) -> FrozenDict[str, object]:
    """Fields whose values differ from the design's, first those that were varied."""
    found: dict[str, object] = {}
    for dotted in dict.fromkeys((*values, *following(design))):
        before, name, _ = design.field(dotted)
        record, _, kind = changed.field(dotted)
        if getattr(record, name) != getattr(before, name):
            found[dotted] = kind.write(record.given(name))
    return FrozenDict(found)


def made(machine: Machine, prices: Prices | None) -> tuple[float, float, Price | None]:
    """Reckon what it is to make a machine.

    Parameters
    ----------
    machine : Machine
    prices : Prices or None

    Returns
    -------
    tuple of (float, float, Price or None)
        Mass in kg, hours of work, and price; not numbers and no price where a part cannot be made as it is drawn.
    """
    spec, system = machine.spec, machine.system
    try:
        laid = [beam.stack for beam in machine.shaft_beams]
        listed = parts(spec, None, system, laid)
        hours = total_hours(work(spec, listed, laid, system))
        mass = sum(one.count * one.mass for one in listed) + trough_blank(spec).finished
        cost = price(spec, listed, hours, prices, system) if prices else None
    except (ArithmeticError, LookupError, ValueError):
        return math.nan, math.nan, None
    return float(mass), float(hours), cost


def _or_nan(worked_out: Callable[[], float]) -> float:
    try:
        return float(worked_out())
    except (ArithmeticError, LookupError, ValueError):
        return math.nan


@lru_cache(maxsize=1)
def _draws() -> Array:
    """Places between low and high of what is not known well: the same for every machine."""
    held: Array = frozen(np.random.default_rng(1).random((len(FACTORS), _SAMPLES)))
    return held


def goals_of(candidates: Sequence[Candidate]) -> tuple[str, ...]:
    """What machines are compared by: :data:`GOALS`, without the price where one that holds has none."""
    known = all(one.price is not None for one in candidates if one.holds)
    return GOALS if known else tuple(one for one in GOALS if one != "price")


def front(candidates: Iterable[Candidate]) -> list[Candidate]:
    """Find those that hold and that no other beats.

    One beats another where it is as good in all of :func:`goals_of`, and better in one of them; of those that are
    alike in all the first is kept.

    Parameters
    ----------
    candidates : iterable of Candidate

    Returns
    -------
    list of Candidate
        By price, or by mass where a price is not known.
    """
    rows = [one for one in candidates if one.holds]
    goals = goals_of(rows)
    table = np.array(
        [
            [getattr(one, goal) * (-1 if goal == "least_spare" else 1) for goal in goals]
            for one in rows
        ]
    ).reshape(len(rows), len(goals))
    kept = []
    for place, own in enumerate(table):
        as_good, better = (table <= own).all(axis=1), (table < own).any(axis=1)
        alike = (table[:place] == own).all(axis=1)
        if not (as_good & better).any() and not alike.any():
            kept.append(rows[place])
    first = "price" if "price" in goals else "mass"
    return sorted(kept, key=lambda one: (getattr(one, first), one.mass, one.hours))
