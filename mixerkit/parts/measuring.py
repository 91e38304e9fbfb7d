"""What to measure on a gear: base tangent, size over pins, chordal thickness."""

from __future__ import annotations

from math import pi

import numpy as np

from mixerkit.parts import involute, spurgear
from mixerkit.results import Counts, Numbers
from mixerkit.units import in_units

__all__ = [
    "base_tangent",
    "base_tangent_teeth",
    "chordal_thickness",
    "over_pins",
    "pin_diameter",
    "thinning_from_base_tangent",
]


def base_tangent_teeth(
    tooth_count: Counts, profile_shift: Numbers = 0.0, pressure_angle: Numbers = 20.0
) -> Counts:
    """Teeth to span so that a calliper touches the flanks near the middle of their height.

    Parameters
    ----------
    tooth_count : int or array
    profile_shift : float or array
    pressure_angle : float
        In degrees.

    Returns
    -------
    int or array, at least 2

    References
    ----------
    z a / 180 + 0.5, moved by the shift to keep the touch at the pitch of the shifted tooth; any
    gear handbook.

    Examples
    --------
    >>> int(base_tangent_teeth(30)), int(base_tangent_teeth(24, 0.4))
    (4, 4)
    """
    count, shift = np.asarray(tooth_count), np.asarray(profile_shift)
    base = np.cos(np.radians(pressure_angle)) * count
    touch = np.degrees(np.arccos(np.clip(base / (count + 2 * shift), -1, 1)))
    turned = np.tan(np.radians(touch)) - 2 * shift * np.tan(np.radians(pressure_angle)) / count
    found = count / pi * (turned - involute.involute(pressure_angle)) + 0.5
    spanned: Counts = np.maximum(np.rint(found), 2).astype(int)[()]
    return spanned


@in_units("mm", module="mm > 0", thinning="mm >= 0")
def base_tangent(
    module: Numbers,
    tooth_count: Counts,
    spanned: Counts,
    profile_shift: Numbers = 0.0,
    thinning: Numbers = 0.0,
    pressure_angle: Numbers = 20.0,
) -> Numbers:
    r"""Length between calliper jaws over some teeth.

    .. math:: W_k = m \cos\alpha \left[\pi (k - 0.5) + z\, \mathrm{inv}\,\alpha\right] + 2 x m \sin\alpha - \Delta s \cos\alpha

    Parameters
    ----------
    module : quantity, any shape
    tooth_count : int, broadcast
    spanned : int, broadcast
        See :func:`base_tangent_teeth`.
    profile_shift : float, broadcast
        In modules, positive away from the middle.
    thinning : quantity, broadcast
        Taken off this tooth's circular thickness.
    pressure_angle : float
        Of the rack, in degrees.

    Returns
    -------
    quantity [mm], the broadcast shape

    References
    ----------
    ISO 21771:2007 (from memory); handbooks give ``m (2.9521 (k - 0.5) + 0.0140 z)`` at 20 degrees.

    Examples
    --------
    >>> round(base_tangent("3 mm", 24, 4, 0.4), 4)
    <Quantity(32.8266, 'millimeter')>
    """
    turned = np.radians(pressure_angle)
    count, shift = np.asarray(tooth_count), np.asarray(profile_shift)
    arc = pi * (np.asarray(spanned) - 0.5) + count * involute.involute(pressure_angle)
    taken = thinning * np.cos(turned)
    return (module * np.cos(turned) * arc + 2 * shift * module * np.sin(turned) - taken)[()]


def pin_diameter(module: Numbers, pressure_angle: Numbers = 20.0) -> Numbers:
    """Pin in mm that rests on the flanks near the pitch circle: 1.728 modules (common practice).

    Parameters
    ----------
    module : float or array
        In mm.
    pressure_angle : float
        In degrees; the customary factor is for 20.

    Returns
    -------
    float or array

    References
    ----------
    Pins of 1.728 over the diametral pitch, Machinery's Handbook (from memory).

    Examples
    --------
    >>> round(float(pin_diameter(5.0)), 2)
    8.64
    """
    pin: Numbers = 1.728 * module * np.cos(np.radians(20.0)) / np.cos(np.radians(pressure_angle))
    return pin


@in_units("mm", module="mm > 0", pin="mm > 0", thinning="mm >= 0")
def over_pins(
    module: Numbers,
    tooth_count: Counts,
    pin: Numbers,
    profile_shift: Numbers = 0.0,
    thinning: Numbers = 0.0,
    pressure_angle: Numbers = 20.0,
) -> Numbers:
    r"""Size over two pins in opposite, or most nearly opposite, tooth spaces.

    .. math:: M = \frac{d_b}{\cos\alpha_M} c + D, \quad \mathrm{inv}\,\alpha_M = \frac{D}{d_b} - \frac{\pi}{2z} + \mathrm{inv}\,\alpha + \frac{2 x \tan\alpha}{z}

    Parameters
    ----------
    module : quantity, any shape
    tooth_count : int, broadcast
    pin : quantity, broadcast
        Diameter of the pins, see :func:`pin_diameter`.
    profile_shift : float, broadcast
        In modules, positive away from the middle.
    thinning : quantity, broadcast
    pressure_angle : float
        Of the rack, in degrees.

    Returns
    -------
    quantity [mm], the broadcast shape; c is 1 for even and cos(90 deg / z) for odd counts

    References
    ----------
    ISO 21771:2007 (from memory); the same in Machinery's Handbook.

    Examples
    --------
    >>> round(over_pins("1 mm", 20, "1.728 mm"), 4)
    <Quantity(22.39, 'millimeter')>
    """
    count = np.asarray(tooth_count)
    base = spurgear.base_diameter.formula(module, count, pressure_angle)
    shift = 2 * np.asarray(profile_shift) * np.tan(np.radians(pressure_angle)) / count
    thinner = thinning / spurgear.pitch_diameter.formula(module, count)
    at = involute.inverse_involute(
        pin / base - pi / (2 * count) + involute.involute(pressure_angle) + shift - thinner
    )
    across = np.where(count % 2 == 0, 1.0, np.cos(pi / (2 * count)))
    return (base / np.cos(np.radians(at)) * across + pin)[()]


@in_units(("mm", "mm"), module="mm > 0", thinning="mm >= 0")
def chordal_thickness(
    module: Numbers,
    tooth_count: Counts,
    profile_shift: Numbers = 0.0,
    thinning: Numbers = 0.0,
    pressure_angle: Numbers = 20.0,
) -> tuple[Numbers, Numbers]:
    r"""Straight thickness of a tooth on the reference circle, and its depth below the tip.

    .. math:: \bar s = d \sin\theta, \quad \bar h = h_a + \frac{d}{2} (1 - \cos\theta), \quad \theta = s / d

    Parameters
    ----------
    module : quantity, any shape
    tooth_count : int, broadcast
    profile_shift : float, broadcast
        In modules, positive away from the middle.
    thinning : quantity, broadcast
    pressure_angle : float
        Of the rack, in degrees.

    Returns
    -------
    tuple of quantity [mm], thickness and height

    References
    ----------
    ISO 21771:2007 (from memory); the same in any gear handbook.

    Examples
    --------
    >>> thickness, height = chordal_thickness("10 mm", 12, 0.3)
    >>> round(thickness, 4), round(height, 4)
    (<Quantity(17.8256, 'millimeter')>, <Quantity(13.6657, 'millimeter')>)
    """
    pitch = spurgear.pitch_diameter.formula(module, tooth_count)
    arc = (
        spurgear.tooth_thickness.formula(module, tooth_count, profile_shift, None, pressure_angle)
        - thinning
    )
    half = arc / pitch
    height = module * (spurgear.ADDENDUM + np.asarray(profile_shift)) + pitch / 2 * (
        1 - np.cos(half)
    )
    return pitch * np.sin(half), height


def thinning_from_base_tangent(
    measured: Numbers,
    module: Numbers,
    tooth_count: Counts,
    spanned: Counts,
    profile_shift: Numbers = 0.0,
    pressure_angle: float = 20.0,
) -> Numbers:
    """How much thinner than full a tooth is, in mm, from a measured base tangent in mm.

    Parameters
    ----------
    measured, module : float or array
        In mm.
    tooth_count, spanned : int or array
    profile_shift : float or array
    pressure_angle : float
        In degrees.

    Returns
    -------
    float or array
        Off the circular thickness; negative where the tooth is still too thick.

    References
    ----------
    :func:`base_tangent` turned round.

    Examples
    --------
    >>> full = base_tangent.formula(5.0, 30, 4)
    >>> round(float(thinning_from_base_tangent(full - 0.094, 5.0, 30, 4)), 3)
    0.1
    """
    full = base_tangent.formula(module, tooth_count, spanned, profile_shift, 0.0, pressure_angle)
    cosine: float = np.cos(np.radians(pressure_angle))
    return (full - measured) / cosine
