"""One spur gear to ISO 21771 on the rack of ISO 53, profile A, with profile shift.

Every formula takes scalars and arrays alike. Lengths are in mm and angles in degrees inside; a
diametral pitch comes in as a module.
"""

from __future__ import annotations

from math import pi
from typing import cast

import numpy as np

from mixerkit.results import Counts, Numbers
from mixerkit.units import in_units

__all__ = [
    "ADDENDUM",
    "DEDENDUM",
    "FILLET",
    "base_diameter",
    "generating_shift",
    "inverse_involute",
    "involute",
    "involute_start",
    "least_shift",
    "pitch_diameter",
    "root_diameter",
    "thinned_tip",
    "tip_diameter",
    "tip_thickness",
    "tooth_force",
    "tooth_thickness",
    "undercut_tooth_count",
]

ADDENDUM = 1.0
"""Tooth height above the pitch line, in modules (ISO 53:1998 table 1, profile A; from memory)."""
DEDENDUM = 1.25
"""Tooth depth below the pitch line, in modules (ISO 53:1998 table 1, profile A; from memory)."""
FILLET = 0.38
"""Radius of the rack's tip, in modules (ISO 53:1998 table 1, profile A; from memory)."""


def involute(angle: Numbers) -> Numbers:
    """Involute function of an angle in degrees: tan a - a.

    Parameters
    ----------
    angle : float or array
        In degrees.

    Returns
    -------
    float or array

    References
    ----------
    ISO 21771:2007; tables of the function in any gear handbook.

    Examples
    --------
    >>> round(float(involute(20.0)), 6)
    0.014904
    """
    turned = np.radians(angle)
    return np.tan(turned) - turned


def inverse_involute(value: Numbers) -> Numbers:
    """Angle in degrees whose involute function is a value.

    Parameters
    ----------
    value : float or array

    Returns
    -------
    float or array
        Not a number for a negative value, which no angle has.

    References
    ----------
    Newton's method on tan a - a, started from the cube root; five steps leave less than 1e-12.

    Examples
    --------
    >>> round(float(inverse_involute(0.014904383867)), 6)
    20.0
    """
    value = np.asarray(value, float)
    angle = np.cbrt(3 * np.maximum(value, 1e-30)) / (1 + 0.4 * np.cbrt(np.maximum(value, 0.0)) ** 2)
    for _ in range(6):
        tangent = np.tan(angle)
        angle -= (tangent - angle - value) / np.maximum(tangent**2, 1e-30)
    return np.degrees(np.where(value >= 0, angle, np.nan))[()]


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
    there = np.degrees(np.arccos(np.clip(base / np.asarray(at, float), -1, 1)))
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


def generating_shift(module: Numbers, profile_shift: Numbers, thinning: Numbers) -> Numbers:
    r"""Profile shift in modules at which a thinned gear is cut: the cutter goes that much deeper.

    .. math:: x_E = x - \frac{\Delta s}{2 m \tan\alpha}

    Parameters
    ----------
    module, thinning : float or array
        In mm.
    profile_shift : float or array

    Returns
    -------
    float or array

    References
    ----------
    ISO 6336-3:2006, generating profile shift coefficient (from memory).

    Examples
    --------
    >>> round(float(generating_shift(5.0, 0.0, 0.1)), 4)
    -0.0275
    """
    shift: Numbers = profile_shift - thinning / (2 * module * np.tan(np.radians(20.0)))
    return shift


def undercut_tooth_count(profile_shift: Numbers = 0.0, pressure_angle: Numbers = 20.0) -> Numbers:
    r"""Fewest teeth that the rack cuts without undercut, as a number that need not be whole.

    .. math:: z_{min} = \frac{2 (1 - x)}{\sin^2\alpha}

    Parameters
    ----------
    profile_shift : float or array
    pressure_angle : float
        In degrees.

    Returns
    -------
    float or array

    References
    ----------
    Any gear handbook: 17.1 at 20 degrees, 32 at 14.5, 11.2 at 25.

    Examples
    --------
    >>> round(float(undercut_tooth_count()), 2)
    17.1
    """
    count: Numbers = (
        2 * (ADDENDUM - np.asarray(profile_shift)) / np.sin(np.radians(pressure_angle)) ** 2
    )
    return count


def least_shift(tooth_count: Counts, pressure_angle: Numbers = 20.0) -> Numbers:
    r"""Least profile shift without undercut.

    .. math:: x_{min} = 1 - \frac{z \sin^2\alpha}{2}

    Parameters
    ----------
    tooth_count : int or array
    pressure_angle : float
        In degrees.

    Returns
    -------
    float or array

    References
    ----------
    :func:`undercut_tooth_count` solved for the shift.

    Examples
    --------
    >>> round(float(least_shift(12)), 3)
    0.298
    """
    sine: Numbers = np.sin(np.radians(pressure_angle))
    return ADDENDUM - np.asarray(tooth_count) * sine**2 / 2


def involute_start(module: Numbers, tooth_count: Counts, profile_shift: Numbers = 0.0) -> Numbers:
    """Where the rack's straight flank begins to cut the involute, along the line of action.

    Parameters
    ----------
    module : float or array
        In mm.
    tooth_count : int or array
    profile_shift : float or array

    Returns
    -------
    float or array
        In mm from the base circle's point of tangency; negative where the tooth is undercut.

    References
    ----------
    The rack of ISO 53, profile A, rounded with 0.38 modules.

    Examples
    --------
    >>> round(float(involute_start(5.0, 30)), 2)
    11.03
    """
    sine: float = np.sin(np.radians(20.0))
    straight = DEDENDUM - FILLET * (1 - sine) - np.asarray(profile_shift)
    return module * (np.asarray(tooth_count) / 2 * sine - straight / sine)


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
