"""Numbered involute form cutters: which cuts which teeth, and how far its form is off.

A cutter is shaped for the fewest teeth of its range. Cutting more teeth with it leaves the flanks
too curved towards the tip: they are relieved, which is safe, and the contact shrinks a little.
"""

from __future__ import annotations

import functools

import numpy as np

from mixerkit.frozen import result
from mixerkit.parts import involute, mesh, spurgear
from mixerkit.results import Counts, Numbers
from mixerkit.tables import table
from mixerkit.units import InputError, in_units

__all__ = ["FEWEST", "HandOver", "cutter_number", "form_error", "hand_over", "made_for"]

FEWEST = 12
"""Fewest teeth that a form cutter cuts: data/tables/form_cutters.csv."""


def cutter_number(tooth_count: Counts) -> Counts:
    """Number of the cutter, 1 to 8, that cuts a tooth count.

    Parameters
    ----------
    tooth_count : int or array
        12 or more.

    Returns
    -------
    int or array

    Raises
    ------
    InputError
        If a count is below 12.

    References
    ----------
    data/tables/form_cutters.csv.

    Examples
    --------
    >>> int(cutter_number(30)), int(cutter_number(12)), int(cutter_number(200))
    (4, 8, 1)
    """
    counts = np.asarray(tooth_count)
    if np.any(counts < FEWEST):
        raise InputError(
            f"{counts.min()} teeth are fewer than any form cutter cuts; {FEWEST} or more is wanted, for example 20."
        )
    fewest = table("form_cutters").column("fewest")
    number: Counts = np.argmax(counts[..., None] >= fewest, axis=-1)[()] + 1
    return number


def made_for(number: Counts) -> Counts:
    """Tooth count for which a cutter's form is true: the fewest of its range.

    Examples
    --------
    >>> int(made_for(4))
    26
    """
    fewest: Counts = table("form_cutters").column("fewest").astype(int)[np.asarray(number) - 1]
    return fewest


@in_units("mm", module="mm > 0")
def form_error(module: Numbers, tooth_count: Counts, height: Numbers = 0.8) -> Numbers:
    """How much wider a cutter leaves each side of a space than the true form, high on the flank.

    Parameters
    ----------
    module : quantity, any shape
    tooth_count : int, broadcast
        12 or more.
    height : float, broadcast
        Above the pitch circle, in modules.

    Returns
    -------
    quantity [mm], the broadcast shape; 0 for the fewest teeth of a cutter's range

    Raises
    ------
    InputError
        If the module is not positive or a count below 12.

    References
    ----------
    The true spaces of the gear and of the gear the cutter is made for, set to the same width on
    the pitch circle and compared at one height (common practice).

    Examples
    --------
    >>> round(form_error("5 mm", 26), 4), round(form_error("5 mm", 34), 2)
    (<Quantity(0.0, 'millimeter')>, <Quantity(0.19, 'millimeter')>)
    """
    fewest = made_for(cutter_number(tooth_count))
    grown = [
        _half_space(module, z, height) - _half_space(module, z, 0.0) for z in (fewest, tooth_count)
    ]
    return grown[0] - grown[1]


def _half_space(module: Numbers, count: Counts, height: Numbers) -> Numbers:
    """Half width of a true tooth space at a height in modules over the pitch circle."""
    pitch = module * np.asarray(count, float) / 2
    base = pitch * np.cos(np.radians(20.0))
    level = pitch + height * module
    angle = np.pi / (2 * np.asarray(count))
    for _ in range(8):
        radius = level / np.cos(angle)
        there = np.arccos(np.clip(base / radius, -1, 1))
        angle = np.pi / (2 * np.asarray(count)) + (np.tan(there) - there) - involute.involute(20.0)
    return radius * np.sin(angle)


@result
class HandOver:
    """The worse gear of a pair where the next tooth takes over.

    Attributes
    ----------
    teeth : int
        Its count.
    height : float
        Of the place above its pitch circle, in modules.
    error : float
        How much wider its space is left there, each side, in mm; see :func:`form_error`.
    step : float
        How far it lags along the line of action, in mm.
    """

    teeth: int
    height: float
    error: float
    step: float


@functools.lru_cache(maxsize=512)
def hand_over(module: float, counts: tuple[int, int], distance: float) -> HandOver:
    """How far one gear lags along the line of action when the next tooth takes over.

    Half a base pitch either side of the pitch point two neighbouring teeth share the load. Each
    flank is relieved there by the error of its cutter, so the driven gear drops back a little at
    every tooth: heard and felt as a tick, harmless at walking pace while it stays small.

    Parameters
    ----------
    module : float
        In mm.
    counts : tuple of int
    distance : float
        In mm.

    Returns
    -------
    HandOver

    Examples
    --------
    >>> hand_over(5.0, (26, 26), 130.0).step
    0.0
    """
    working = np.radians(mesh.working_pressure_angle.formula(module, *counts, distance))
    found = []
    for count in counts:
        base = spurgear.base_diameter.formula(module, count) / 2
        roll = (
            distance * count / sum(counts) * np.sin(working)
            + np.pi * module * np.cos(np.radians(20.0)) / 2
        )
        height = (np.hypot(base, roll) - module * count / 2) / module
        error = float(form_error.formula(module, count, float(height)))
        step = round(float(error * np.cos(working)), 9)
        found.append(HandOver(teeth=count, height=float(height), error=error, step=step))
    return max(found, key=lambda one: one.step)
