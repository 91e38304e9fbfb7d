"""Will it stall? The stated ranges of the inputs drawn many times, and what to measure first.

The sums are those of the machine, on arrays: what the clay asks goes with its strength and with
how much of the paddles is buried, the box takes its share, and the motor gives less at low voltage.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from mixerkit.drive import reducer
from mixerkit.explore.sampled import sobol
from mixerkit.load import clay, clay_load, trough
from mixerkit.machine import Machine
from mixerkit.parts.reduction import drive_efficiency, total_ratio
from mixerkit.results import Numbers

__all__ = ["FACTORS", "StallRisk", "ranges_of", "ranking", "spare_torque", "stall_risk", "stalled"]

FACTORS = (
    "clay strength",
    "water content",
    "batch and fill",
    "start factor",
    "box efficiency",
    "supply voltage",
)
"""What is uncertain, in the order of all arrays here."""


@dataclass(frozen=True)
class StallRisk:
    """Risk of a stall over the stated ranges.

    Attributes
    ----------
    starting, mixing : float
        Share of the draws in which the motor stalls when set moving with a full trough, and while
        it mixes.
    samples : int
    spare_starting, spare_mixing : numpy.ndarray
        Motor torque given over asked, at 201 even steps of the share of draws from 0 to 1.
    """

    starting: float
    mixing: float
    samples: int
    spare_starting: np.ndarray
    spare_mixing: np.ndarray


def ranges_of(machine: Machine) -> np.ndarray:
    """Low and high end of each of :data:`FACTORS`, one row each.

    Clay strength and batch are factors on the reckoned value, water content a difference in
    share, start factor and box efficiency the values themselves, voltage a factor.

    Parameters
    ----------
    machine : Machine

    Returns
    -------
    numpy.ndarray, shape (6, 2)
    """
    spec = machine.design
    spread = spec.ranges
    lowest, highest = clay.strength_range(spec.clay)
    by_water = spec.clay.strength_from == "water content"
    box = spec.reducer
    return np.array(
        [
            (spread.strength_low or lowest, spread.strength_high or highest),
            (-spread.water_spread * by_water, spread.water_spread * by_water),
            (1 - spread.fill_spread, 1 + spread.fill_spread),
            (spread.start_low, spread.start_high),
            (
                max(box.efficiency - spread.efficiency_spread, 0.05),
                min(box.efficiency + spread.efficiency_spread, 1.0),
            ),
            (spread.voltage_low, spread.voltage_high),
        ]
    )


def spare_torque(machine: Machine, draws: np.ndarray) -> tuple[np.ndarray, np.ndarray]:
    """Motor torque given over asked, starting and mixing, for draws between 0 and 1.

    Parameters
    ----------
    machine : Machine
    draws : numpy.ndarray, shape (6, ...)
        Place of each of :data:`FACTORS` between its low and high end; clay strength is spread
        evenly in its logarithm, the others evenly.

    Returns
    -------
    tuple of numpy.ndarray, shape (...)
        Below 1 it stalls. Counter-rotating, the mode that asks most.
    """
    spec = machine.design
    low, high = ranges_of(machine).T
    strength = low[0] * (high[0] / low[0]) ** draws[0]
    water, batch, start, kept, volts = (
        low[k] + (high[k] - low[k]) * draws[k] for k in range(1, len(FACTORS))
    )
    one = spec.clay
    softer: Numbers = 1.0
    if one.strength_from == "water content":
        limits = (one.liquid_limit, one.plastic_limit)
        softer = clay.strength_from_water(
            one.water_content + water, *limits
        ) / clay.strength_from_water(one.water_content, *limits)
    # clay may lie heaped on one shaft, mixing as at a start
    flow, counter = machine.power_flow, machine.load_cases.clutch == "direct"
    more = strength * softer * _fill_factor(machine, batch)
    mixing, starting = (
        float(flow.torque_at_box_output[counter & cases].max())
        for cases in (machine.load_cases.mixing, machine.load_cases.starting)
    )
    able = flow.abilities
    electric = 1.0 if spec.motor.fed_by == "frequency converter" else np.square(volts)
    cold = kept * spec.reducer.start_efficiency / spec.reducer.efficiency
    ratio, through = total_ratio(spec), drive_efficiency(spec)
    at_start = np.asarray(
        reducer.input_torque.formula(
            starting / one.start_factor * more * start, ratio, np.minimum(cold, 1.0) * through
        )
    )
    at_speed = np.asarray(reducer.input_torque.formula(mixing * more, ratio, kept * through))
    return min(able.start, able.pull_up) * electric / at_start, able.greatest * electric / at_speed


def _fill_factor(machine: Machine, batch: np.ndarray) -> np.ndarray:
    """Peak torque for a batch over that of the design's own batch; by a table, for speed."""
    spec = machine.design
    blade = spec.paddles
    steps = np.linspace(batch.min(), batch.max(), 33)
    levels = np.asarray(trough.clay_level(spec, trough.batch_volume(spec) * steps))
    peaks = clay_load.share_of_each(blade, levels).sum(axis=-1).max(axis=-1)
    own = clay_load.shares_over_a_turn(blade, machine.clay_load.level).max()
    return np.asarray(np.interp(batch, steps, peaks / own))


def stalled(spare: np.ndarray) -> float:
    """Share of draws that stall, by their torque given over asked; what cannot be told counts as a stall.

    Examples
    --------
    >>> stalled(np.array([1.2, 0.9, np.nan, 1.0]))
    0.5
    """
    return float(np.mean(~(spare >= 1)))


def stall_risk(machine: Machine, samples: int = 200_000, seed: int = 1) -> StallRisk:
    """Draw the inputs from their ranges many times and count the stalls.

    Parameters
    ----------
    machine : Machine
    samples : int
        At least 1000.
    seed : int
        The same seed gives the same answer.

    Returns
    -------
    StallRisk

    Examples
    --------
    >>> from mixerkit import Design, Machine
    >>> stall_risk(Machine(Design.demo("too_stiff"))).starting > 0.9
    True
    """
    draws = np.random.default_rng(seed).random((len(FACTORS), max(int(samples), 1000)))
    starting, mixing = spare_torque(machine, draws)
    steps = np.linspace(0, 1, 201)
    return StallRisk(
        starting=stalled(starting),
        mixing=stalled(mixing),
        samples=draws.shape[1],
        spare_starting=np.quantile(starting, steps),
        spare_mixing=np.quantile(mixing, steps),
    )


def ranking(machine: Machine, samples: int = 1024, seed: int = 1) -> list[tuple[str, float, float]]:
    """Rank the inputs by how much of the doubt about starting each accounts for.

    Parameters
    ----------
    machine : Machine
    samples : int
        A power of two.
    seed : int

    Returns
    -------
    list of (str, float, float)
        Name, share alone and share with its interactions, greatest first.

    References
    ----------
    Sobol indices, see :func:`mixerkit.explore.sampled.sobol`, of the logarithm of the spare torque, so
    that factors that multiply add up.
    """

    def spare(draws: np.ndarray) -> np.ndarray:
        return np.asarray(np.log(spare_torque(machine, draws)[0]))

    first, total = sobol(spare, len(FACTORS), samples, seed)
    return [(FACTORS[k], float(first[k]), float(total[k])) for k in np.argsort(-total)]
