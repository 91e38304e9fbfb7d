"""Make checks over all load cases of a machine, and keep each in the one that governs it."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from functools import partial
from typing import TypeGuard

import numpy as np

from mixerkit.checks import TIGHT, Change, Check, Say, governing, not_judged
from mixerkit.results import Array, Flags, LoadedMachine, Numbers
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
    machine : LoadedMachine
    stage, part, name : str
        See :class:`mixerkit.checks.Check`.
    demand, capacity : float or array over the load cases
        Plain numbers in ``unit``. Two that are single numbers do not depend on the load case, and none
        is named.
    unit : str
    reason, note : callable
        Given the place of the governing load case among all, and what writes a number for this maker.
    source : str
    fix : callable, optional
        Given the place of the governing load case.
    safety : float
    where : array of bool, optional
    tight : float
    rung : tuple of float, optional
        Makes it a rung of the ladder of what gives way first: torque at yield over the torque of the
        load case, per unit of spare without the wanted factor, as (power of the spare, break over
        yield). The load case with the least spare is not always the one that yields at the least
        torque, so that all are looked at.
    words : tuple of str, optional
        Demand and capacity of what is so or not, where 1 and 0 would say nothing.
    working : callable, optional
        Given the place of the governing load case: how demand and capacity were worked out.

    Returns
    -------
    Check
    """
    place, case, gives = 0, "", None
    if rung is not None:
        yields = _yields(machine, demand, capacity, rung[0])
        gives = (yields, yields * rung[1]) if yields < np.inf else None
    if _over_cases(demand) or _over_cases(capacity):
        # the governing load case is found first, so that words are made for one only
        place = governing(demand, capacity, safety, True if where is None else where)
        case = machine.load_cases.names[place]
        demand = demand[place] if _over_cases(demand) else demand
        capacity = capacity[place] if _over_cases(capacity) else capacity
    most, takes = float(demand), float(capacity)
    say = partial(show, system=machine.system)
    return Check(
        stage,
        part,
        name,
        most,
        takes,
        unit,
        safety,
        case,
        source,
        lambda: reason(place, say),
        machine.system,
        tight,
        gives,
        (lambda: fix(place)) if fix else tuple,
        (lambda: note(place, say)) if note else str,
        words,
        (lambda: working(place)) if working else tuple,
    )


def _over_cases(amounts: Numbers) -> TypeGuard[Array]:
    return isinstance(amounts, np.ndarray) and amounts.ndim > 0


def _yields(machine: LoadedMachine, demand: Numbers, capacity: Numbers, power: float) -> float:
    """Least torque at the box's output in N*m at which a part yields in a jam; infinite if none asks of it."""
    flow = machine.power_flow
    places = flow.wound_up
    torque = flow.torque_at_box_output[places]
    asked = demand[places] if _over_cases(demand) else demand
    takes = capacity[places] if _over_cases(capacity) else capacity
    with np.errstate(divide="ignore", invalid="ignore"):
        share = np.where(np.greater(asked, 0), np.divide(takes, asked), np.inf)
    return float((torque * share**power).min(initial=np.inf))


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
