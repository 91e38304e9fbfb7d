"""The trough: what it holds, whether the bag goes in, how long a batch takes and how warm it gets.

In cross-section it is two half-round bottoms about the shafts with straight walls above them.
"""

from __future__ import annotations

from functools import lru_cache
from math import pi

import numpy as np

from mixerkit.frozen import frozen
from mixerkit.load import clay
from mixerkit.parts.blades import projected_width
from mixerkit.results import Array, Batch, Numbers
from mixerkit.spec import Paddles, Spec
from mixerkit.units import in_units

__all__ = [
    "LEAST_TURNS",
    "axial_extent",
    "bag_sides",
    "batch_time",
    "batch_volume",
    "clay_level",
    "clean_volume",
    "swept_length",
    "temperature_rise",
    "working_volume",
]

_STEPS = 400
LEAST_TURNS = 100.0
"""Turns below which no count is believed (common practice 100 to 300)."""


@in_units("min", turns=" > 0", speed="rpm > 0")
def batch_time(turns: Numbers, speed: Numbers) -> Numbers:
    """Time for a number of turns of the paddles.

    Parameters
    ----------
    turns : float, any shape
        100 to 300 turns even out a batch (common practice; try it with coloured clay).
    speed : quantity, broadcast

    Returns
    -------
    quantity [min], the broadcast shape

    References
    ----------
    The definition of speed.

    Examples
    --------
    >>> round(batch_time(200, "24 rpm"), 2)
    <Quantity(8.33, 'minute')>
    """
    return turns / speed


@in_units("K", energy="kJ >= 0", mass="kg > 0")
def temperature_rise(energy: Numbers, mass: Numbers, water_content: Numbers) -> Numbers:
    r"""Warming of a batch by the work put into it, if no heat leaves.

    .. math:: \Delta T = \frac{E}{m\,c}

    Parameters
    ----------
    energy : quantity, any shape
    mass : quantity, broadcast
        Of wet clay.
    water_content : float, broadcast
        Plain share.

    Returns
    -------
    quantity [K], the broadcast shape

    References
    ----------
    Conservation of energy; see :func:`mixerkit.load.clay.specific_heat`.

    Examples
    --------
    >>> round(temperature_rise("300 kJ", "15 kg", 0.26), 1)
    <Quantity(12.7, 'kelvin')>
    """
    return energy / (mass * clay.specific_heat(water_content))


def batch_volume(spec: Spec) -> float:
    """Volume of one batch in litres, with no air in it."""
    density = clay.wet_density.formula(spec.clay.water_content)
    return float(spec.batch.mass / density * 1e3)


def _section(spec: Spec, gap: float = 0.0) -> tuple[Array, Array]:
    """Heights over the shafts in mm, and area of the cross-section below each in mm^2, out to the tips.

    Clay packs into the gap between tips and wall and stays there from batch to batch, so that the gap is no
    room for one; ``gap`` counts as much of it in mm as is clean.
    """
    blade = spec.paddles
    wall = blade.tip_radius + gap
    return _areas(wall, blade.tip_radius, blade.root_radius, spec.housing.centre_distance)


@lru_cache(maxsize=64)
def _areas(wall: float, tip_radius: float, root_radius: float, apart: float) -> tuple[Array, Array]:
    """Heights and areas of :func:`_section` by what they depend on; most knobs leave them as they are."""
    heights = np.linspace(-wall, tip_radius, _STEPS)
    half = np.sqrt(np.clip(wall**2 - np.minimum(heights, 0.0) ** 2, 0.0, None))
    width = np.where(half > apart / 2, apart + 2 * half, 4 * half)
    sleeves = 4 * np.sqrt(np.clip(root_radius**2 - heights**2, 0.0, None))
    clear = np.clip(width - sleeves, 0.0, None)
    steps = np.diff(heights) * (clear[1:] + clear[:-1]) / 2
    kept: tuple[Array, Array] = frozen((heights, np.concatenate([[0.0], np.cumsum(steps)])))
    return kept


def working_volume(spec: Spec) -> float:
    """Volume in litres within the tips, up to the top of the paddles, sleeves taken off, paddles not.

    Parameters
    ----------
    spec : Spec
    """
    return _within(spec, 0.0)


def clean_volume(spec: Spec) -> float:
    """Working volume in litres with the gap to the wall, as the first batch finds a clean trough.

    Parameters
    ----------
    spec : Spec
    """
    return _within(spec, spec.trough.wall_clearance)


def _within(spec: Spec, gap: float) -> float:
    """Volume in litres up to the paddles' tops, and so far beyond their tips."""
    return float(_section(spec, gap)[1][-1] * spec.trough.length / 1e6)


def clay_level(spec: Spec, volume: Numbers | None = None) -> Numbers:
    """Height of the clay over the shafts' middles in mm, as if it lay level on what stays on the wall.

    Parameters
    ----------
    spec : Spec
    volume : float or array, optional
        In litres; the batch, if not given.

    Returns
    -------
    float or array
        Never above the paddles' tips.
    """
    heights, areas = _section(spec)
    wanted = np.asarray(batch_volume(spec) if volume is None else volume) * 1e6 / spec.trough.length
    level = np.interp(wanted, areas, heights)
    return float(level) if np.ndim(level) == 0 else level


def bag_sides(spec: Spec) -> tuple[list[float], list[float]]:
    """Sides of the bag and of the opening in mm, each largest first."""
    bag = sorted((spec.batch.bag_length, spec.batch.bag_width, spec.batch.bag_height), reverse=True)
    opening = sorted((spec.trough.opening_length, spec.trough.opening_width), reverse=True)
    return bag, opening


def axial_extent(blade: Paddles) -> float:
    """Length in mm that a blade takes up along its shaft."""
    return float(projected_width.formula(blade.width, blade.thickness, blade.set_angle))


def swept_length(blade: Paddles) -> float:
    """Length in mm along the shafts that some blade of either passes over.

    Where the rows stand more than a spacing apart, what only one of them reaches is not counted: clay
    there is not handed from shaft to shaft.
    """
    extent = axial_extent(blade)
    along = blade.spacing * np.arange(blade.count)
    starts = np.sort(np.concatenate([along, along + blade.offset_2]))
    alone = 2 * max(blade.offset_2 - blade.spacing, 0.0)
    return float(max(np.minimum(np.diff(starts), extent).sum() + extent - alone, 0.0))


def run(spec: Spec, mean_torque: float, speed: float, losses: float = 1.0) -> Batch:
    """Time, throughput, energy and warming of one batch.

    Parameters
    ----------
    spec : Spec
    mean_torque : float
        Of both paddle shafts together in N*m, as felt at shaft 1.
    speed : float
        Of shaft 1 in rpm; where it does not turn, the batch never ends and nothing goes into it.
    losses : float
        Energy drawn at the motor's shaft over energy put into the clay.

    Returns
    -------
    Batch
        ``minutes`` a batch, infinite where it never ends, and ``lasts``, the same in words; ``throughput`` in kg/h with loading; ``energy`` in kJ into the clay and
        ``drawn`` at the motor's shaft; ``warmer`` in K.
    """
    turns = speed > 0
    minutes = float(batch_time.formula(spec.batch.turns_to_mix, speed)) if turns else np.inf
    energy = mean_torque * 2 * pi * spec.batch.turns_to_mix / 1e3 if turns else 0.0
    return Batch(
        minutes=minutes,
        lasts=f"{minutes:.3g} min" if turns else "no end, as the paddles do not turn",
        throughput=spec.batch.mass / (minutes + spec.batch.loading_time) * 60,
        energy=energy,
        drawn=energy * losses,
        warmer=float(temperature_rise.formula(energy, spec.batch.mass, spec.clay.water_content)),
    )
