"""Make checks over all load cases of a machine, and keep each in the one that governs it."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from functools import partial
from typing import TypeGuard

import numpy as np

from mixerkit.checks import TIGHT, Change, Check, Say, not_judged
from mixerkit.results import Array, Flags, LoadedMachine, Numbers
from mixerkit.spare import governing
from mixerkit.units import show
from mixerkit.working import Working

__all__ = ["make_check", "make_unjudged"]


def make_check(
    machine: LoadedMachine,
    stage: str,
    part: str,
    name: str,
    *,
    demand: Numbers,
    capacity: Numbers,
    unit: str,
    reason: Callable[[int, Say], str],
    source: str,
    fix: Callable[[int], Sequence[Change]] | None = None,
    note: Callable[[int, Say], str] | None = None,
    safety: float = 1.0,
    where: Flags | None = None,
    tight: float = TIGHT,
    rung: tuple[float, float] | None = None,
    words: tuple[str, str] | None = None,
    working: Callable[[int], Sequence[Working]] | None = None,
) -> Check:
    """Check in every load case, or in those of ``where``, and keep the one that governs.

    Parameters
    ----------
    stage, part, name, unit, source, safety, tight, words
        See :class:`mixerkit.checks.Check`.
    demand, capacity : float or array over the load cases
    reason, note, fix, working : callable
        Given the place of the governing load case; the first two also what writes a number.
    where : array of bool, optional
    rung : tuple of float, optional
        Of the ladder: torque at yield over that of the load case as (power of the bare spare, break over yield).

    Returns
    -------
    Check
    """
    over = _over_cases(demand) or _over_cases(capacity)
    # found first, so that words are made for one load case only; two single numbers name none
    place = governing(demand, capacity, safety, True if where is None else where) if over else 0
    system = machine.system
    return Check(
        stage,
        part,
        name,
        _at(demand, place),
        _at(capacity, place),
        unit,
        safety,
        machine.load_cases.names[place] if over else "",
        source,
        lambda: reason(place, partial(show, system=system)),
        system,
        tight,
        _gives(machine, demand, capacity, rung) if rung else None,
        (lambda: fix(place)) if fix else tuple,
        (lambda: note(place, partial(show, system=system))) if note else str,
        words,
        (lambda: working(place)) if working else tuple,
    )


def _at(amounts: Numbers, place: int) -> float:
    return float(amounts[place] if _over_cases(amounts) else amounts)


def _over_cases(amounts: Numbers) -> TypeGuard[Array]:
    return isinstance(amounts, np.ndarray) and amounts.ndim > 0


def _gives(
    machine: LoadedMachine, demand: Numbers, capacity: Numbers, rung: tuple[float, float]
) -> tuple[float, float] | None:
    """Least torques at the box's output in N*m at which a part yields and breaks in a jam; none if none asks.

    The load case with the least spare is not always the one that yields at the least torque, so that all
    are looked at.
    """
    power, break_over_yield = rung
    places = machine.power_flow.wound_up
    torque = machine.power_flow.torque_at_box_output[places]
    asked, takes = (one[places] if _over_cases(one) else one for one in (demand, capacity))
    # where nothing is asked, nothing gives
    share = np.full(torque.shape, np.inf)
    np.divide(takes, asked, out=share, where=np.greater(asked, 0))
    yields = float((torque * share**power).min(initial=np.inf))
    return (yields, yields * break_over_yield) if yields < np.inf else None


def make_unjudged(machine: LoadedMachine, stage: str, part: str, name: str, why: str) -> Check:
    """Make the failing check of what cannot be worked out; see :func:`mixerkit.checks.not_judged`.

    Parameters
    ----------
    machine : LoadedMachine
    stage, part, name, why : str

    Returns
    -------
    Check
    """
    return not_judged(stage, part, name, why, machine.system)
