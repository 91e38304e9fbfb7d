"""One spur gear to ISO 21771 on the rack of ISO 53, profile A, with profile shift.

Every formula takes scalars and arrays alike. Lengths are in mm and angles in degrees inside; a
diametral pitch comes in as a module.
"""

from __future__ import annotations

from math import pi
from typing import cast

import numpy as np

from mixerkit.parts.involute import involute
from mixerkit.results import Counts, Numbers
from mixerkit.units import in_units

__all__ = [
    "ADDENDUM",
    "DEDENDUM",
    "FILLET",
    "base_diameter",
    "pitch_diameter",
    "pressure_angle_at",
    "root_diameter",
    "thinned_tip",
    "tip_diameter",
    "tip_thickness",
    "tooth_force",
    "tooth_thickness",
]

ADDENDUM = 1.0
"""Tooth height above the pitch line, in modules (ISO 53:1998 table 1, profile A; from memory)."""
DEDENDUM = 1.25
"""Tooth depth below the pitch line, in modules (ISO 53:1998 table 1, profile A; from memory)."""
FILLET = 0.38
"""Radius of the rack's tip, in modules (ISO 53:1998 table 1, profile A; from memory)."""


@in_units("mm", module="mm > 0")
def pitch_diameter(module: Numbers, tooth_count: Counts) -> Numbers:
    r"""Reference diameter ``d = m z``.

    Parameters
    ----------
    module : quantity, any shape
    tooth_count : int, broadcast

    Returns
    -------
    quantity [mm], the broadcast shape

    References
    ----------
    ISO 21771:2007 (from memory).

    Examples
    --------
    >>> pitch_diameter("5 mm", 30)
    <Quantity(150.0, 'millimeter')>
    """
    # numpy's own types leave open how wide a float becomes by whole numbers
    return cast("Numbers", module * tooth_count)


@in_units("mm", module="mm > 0")
def base_diameter(module: Numbers, tooth_count: Counts, pressure_angle: Numbers = 20.0) -> Numbers:
    r"""Base circle diameter ``d_b = m z cos a``.

    Parameters
    ----------
    module : quantity, any shape
    tooth_count : int, broadcast
    pressure_angle : float
        Of the rack, in degrees.

    Returns
    -------
    quantity [mm], the broadcast shape

    References
    ----------
    ISO 21771:2007 (from memory).

    Examples
    --------
    >>> round(base_diameter("3 mm", 12), 4)
    <Quantity(33.8289, 'millimeter')>
    """
    return pitch_diameter.formula(module, tooth_count) * np.cos(np.radians(pressure_angle))


@in_units("mm", module="mm > 0")
def tip_diameter(
    module: Numbers, tooth_count: Counts, profile_shift: Numbers = 0.0, shortening: Numbers = 0.0
) -> Numbers:
    r"""Outside diameter.

    .. math:: d_a = m (z + 2 + 2x - 2k)

    Parameters
    ----------
    module : quantity, any shape
    tooth_count : int, broadcast
    profile_shift : float, broadcast
        In modules, positive away from the middle.
    shortening : float, broadcast
        Taken off the addendum, in modules, so that the tip keeps its clearance on a shifted centre
        distance.

    Returns
    -------
    quantity [mm], the broadcast shape

    References
    ----------
    ISO 21771:2007 (from memory).

    Examples
    --------
    >>> tip_diameter("5 mm", 30)
    <Quantity(160.0, 'millimeter')>
    """
    grown = np.asarray(profile_shift) - shortening + ADDENDUM
    return module * (np.asarray(tooth_count) + 2 * grown)[()]


@in_units("mm", module="mm > 0")
def root_diameter(module: Numbers, tooth_count: Counts, profile_shift: Numbers = 0.0) -> Numbers:
    r"""Root diameter.

    .. math:: d_f = m (z - 2.5 + 2x)

    Parameters
    ----------
    module : quantity, any shape
    tooth_count : int, broadcast
    profile_shift : float, broadcast
        In modules, positive away from the middle.

    Returns
    -------
    quantity [mm], the broadcast shape

    References
    ----------
    ISO 21771:2007 (from memory).

    Examples
    --------
    >>> root_diameter("5 mm", 30)
    <Quantity(137.5, 'millimeter')>
    """
    return module * (np.asarray(tooth_count) + 2 * (np.asarray(profile_shift) - DEDENDUM))[()]


def pressure_angle_at(base: Numbers, diameter: Numbers) -> Numbers:
    """Angle in degrees between an involute and the radius, on a diameter.

    Parameters
    ----------
    base, diameter : float or array
        Of the base circle and of the place, in mm.

    Returns
    -------
    float or array
        Nought inside of the base circle.

    References
    ----------
    ISO 21771:2007 (from memory).

    Examples
    --------
    >>> round(float(pressure_angle_at(140.954, 150.0)), 2)
    20.0
    """
    angle: Numbers = np.degrees(np.arccos(np.clip(base / np.asarray(diameter, float), -1, 1)))
    return angle


@in_units("mm", module="mm > 0", diameter="mm > 0")
def tooth_thickness(
    module: Numbers,
    tooth_count: Counts,
    profile_shift: Numbers = 0.0,
    diameter: Numbers | None = None,
    pressure_angle: Numbers = 20.0,
) -> Numbers:
    r"""Circular thickness of a tooth on a diameter.

    .. math:: s_y = d_y \left(\frac{\pi/2 + 2 x \tan\alpha}{z} + \mathrm{inv}\,\alpha - \mathrm{inv}\,\alpha_y\right)

    Parameters
    ----------
    module : quantity, any shape
    tooth_count : int, broadcast
    profile_shift : float, broadcast
        In modules, positive away from the middle.
    diameter : quantity, broadcast, optional
        The reference diameter, if not given; not below the base circle.
    pressure_angle : float
        Of the rack, in degrees.

    Returns
    -------
    quantity [mm], the broadcast shape

    References
    ----------
    ISO 21771:2007 (from memory).

    Examples
    --------
    >>> round(tooth_thickness("10 mm", 12, 0.3), 4)
    <Quantity(17.8918, 'millimeter')>
    """
    pitch = pitch_diameter.formula(module, tooth_count)
    at = pitch if diameter is None else diameter
    base = base_diameter.formula(module, tooth_count, pressure_angle)
    there = pressure_angle_at(base, at)
    tangent = np.tan(np.radians(pressure_angle))
    half_turn = (pi / 2 + 2 * np.asarray(profile_shift) * tangent) / tooth_count
    return at * (half_turn + involute(pressure_angle) - involute(there))


@in_units("mm", module="mm > 0")
def tip_thickness(
    module: Numbers,
    tooth_count: Counts,
    profile_shift: Numbers = 0.0,
    shortening: Numbers = 0.0,
    pressure_angle: Numbers = 20.0,
) -> Numbers:
    r"""Thickness of a tooth at its tip; below 0.2 modules it is called pointed (common practice).

    Parameters
    ----------
    module : quantity, any shape
    tooth_count : int, broadcast
    profile_shift : float, broadcast
        In modules, positive away from the middle.
    shortening : float, broadcast
    pressure_angle : float
        Of the rack, in degrees.

    Returns
    -------
    quantity [mm], the broadcast shape; negative where the flanks meet below the tip

    References
    ----------
    As :func:`tooth_thickness`, on the tip diameter.

    Examples
    --------
    >>> round(tip_thickness("1 mm", 20), 3)
    <Quantity(0.695, 'millimeter')>
    """
    tip = tip_diameter.formula(module, tooth_count, profile_shift, shortening)
    return tooth_thickness.formula(module, tooth_count, profile_shift, tip, pressure_angle)


def thinned_tip(
    module: Numbers, tooth_count: Counts, profile_shift: Numbers, thinning: Numbers
) -> Numbers:
    """Thickness in mm of a tooth at its tip, where it is thinned so much on its reference circle.

    Both flanks are turned towards each other, so that more is taken off further out.

    Parameters
    ----------
    module, thinning : float or array
        In mm.
    tooth_count : int or array
    profile_shift : float or array

    Returns
    -------
    float or array

    References
    ----------
    :func:`tip_thickness`; the same angle at every radius: geometry.

    Examples
    --------
    >>> round(float(thinned_tip(1.0, 20, 0.0, 0.1)), 3)
    0.585
    """
    outwards = tip_diameter.formula(module, tooth_count, profile_shift) / pitch_diameter.formula(
        module, tooth_count
    )
    return tip_thickness.formula(module, tooth_count, profile_shift) - thinning * outwards


@in_units("N", torque="N*m", diameter="mm > 0")
def tooth_force(torque: Numbers, diameter: Numbers, pressure_angle: float = 20.0) -> Numbers:
    r"""Force between two teeth along the line of action.

    .. math:: F = \frac{2\,T}{d \cos\alpha}

    Parameters
    ----------
    torque : quantity, any shape
        Torque of the gear.
    diameter : quantity, broadcast
        Its reference diameter.
    pressure_angle : float
        In degrees.

    Returns
    -------
    quantity [N], the broadcast shape

    References
    ----------
    Budynas & Nisbett, Shigley's Mechanical Engineering Design, 10th ed., sec. 13-14.

    Examples
    --------
    >>> round(tooth_force("150 N*m", "150 mm"), 1)
    <Quantity(2128.4, 'newton')>
    """
    cosine: float = np.cos(np.radians(pressure_angle))
    return 2e3 * torque / (diameter * cosine)
