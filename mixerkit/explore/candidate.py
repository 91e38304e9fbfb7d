"""One machine of a comparison: what it weighs, costs, takes to make and gives, and how surely it holds."""

from __future__ import annotations

import math
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from functools import lru_cache

import numpy as np

from mixerkit.checks import weakest
from mixerkit.design import Design
from mixerkit.explore.draft.assumed import still_drafted
from mixerkit.explore.draft.follow import followed, following
from mixerkit.explore.uncertainty import FACTORS, spare_torque, stalled
from mixerkit.frozen import FrozenDict, frozen
from mixerkit.machine import Machine
from mixerkit.results import Array
from mixerkit.shop.hours import total_hours, work
from mixerkit.shop.parts_list import parts
from mixerkit.shop.prices import Price, price
from mixerkit.shop.prices_file import Prices
from mixerkit.shop.trough_blank import trough_blank
from mixerkit.units import InputError

__all__ = ["Candidate", "judged", "made"]

_SAMPLES = 1000
"""Draws of what is not known well for the risk of a stall; the same for every machine."""


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
