"""Many whole machines side by side: mass, price, hours of work, batch time, risk of a stall, least spare.

Draws are judged in chunks on any executor of :mod:`concurrent.futures`, so that a cluster's own drops in; what comes
out hangs on the seed alone.
"""

from __future__ import annotations

from collections.abc import Callable, Collection, Iterable, Iterator, Mapping, Sequence
from concurrent.futures import Executor, Future
from dataclasses import dataclass

import numpy as np

from mixerkit.design import Design
from mixerkit.explore.candidate import Candidate, judged
from mixerkit.explore.collected import seldom_collected
from mixerkit.explore.varied import Vary, draws, varied
from mixerkit.shop.prices_file import Prices
from mixerkit.shop.workshop import Workshop
from mixerkit.units import InputError, as_written

__all__ = ["GOALS", "Candidate", "compare", "front", "goals_of"]

_CHUNK = 16
"""Machines judged between two looks at whether to go on."""
_MOST = 1_000_000
GOALS = ("mass", "price", "hours", "batch_minutes", "stall_risk", "least_spare")
"""What machines are compared by: less is better, but for the spare."""


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
    progress, cancelled : callable, optional
        The one is told how many are done, of how many; the other asked between chunks whether to stop.

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
    >>> [one.verdict for one in compare(Design.demo(), {"paths.idler.face_width": ["20 mm", "46 mm"]})]
    ['tight', 'fails', 'tight']
    """
    _whole("count", count, 1, "200")
    _whole("seed", seed, 0, "1")
    rows = draws(varied(design, vary, free, follow=follow), count, seed)
    job = _Job(design, shop.prices if shop else None, follow)
    found: list[Candidate] = []
    for done in _worked(job, rows, executor, cancelled):
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
        with np.errstate(all="ignore"), seldom_collected():
            return [judged(self.design, values, self.prices, follow=self.follow) for values in rows]


def _worked(
    job: _Job,
    rows: Sequence[Mapping[str, object]],
    executor: Executor | None,
    cancelled: Callable[[], bool] | None,
) -> Iterator[list[Candidate]]:
    """Chunks in their order, until it is to stop; what has not begun by then never does."""
    chunks = [rows[start : start + _CHUNK] for start in range(0, len(rows), _CHUNK)]
    sent: list[Future[list[Candidate]]] = []
    try:
        if executor:
            sent = [executor.submit(job, chunk) for chunk in chunks]
        for place, chunk in enumerate(chunks):
            if cancelled and cancelled():
                return
            yield sent[place].result() if executor else job(chunk)
    finally:
        for one in sent:
            one.cancel()


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
