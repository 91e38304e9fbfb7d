"""Strength of clay from what a maker can measure: a cone, a pressed rod, a vane."""

from __future__ import annotations

from math import pi

import numpy as np

from mixerkit.constants import STANDARD_GRAVITY
from mixerkit.results import Numbers
from mixerkit.units import InputError, in_units

__all__ = ["strength_from_cone", "strength_from_rod", "strength_from_vane", "vane_torque"]
BEARING = 9.0
"""Pressure under a flat round end deeper than 2.5 diameters over strength: 7.5 (1 + 0.2) (Skempton 1951, as quoted in
handbooks)."""
CONE_FACTORS = {30: 0.80, 60: 0.27}
"""Cone factor K by angle in degrees (ISO 17892-6; Hansbo 1957; from memory: 0.80 to 0.85 and 0.27 to 0.29, and a study
of calibrations names 0.4 to 1.33; what data/tables/clay_tests.csv adds for scatter covers 1.0 and 0.34)."""


@in_units("kPa", mass="g > 0", penetration="mm > 0")
def strength_from_cone(mass: Numbers, penetration: Numbers, angle: int = 30) -> Numbers:
    r"""Strength from how far a cone sinks that is let go with its tip on the clay.

    .. math:: s_u = \frac{K\, m\, g}{d^2}

    Parameters
    ----------
    mass : quantity, any shape
        Of cone and rod, e.g. ``"80 g"``.
    penetration : quantity, broadcast
        After five seconds, e.g. ``"6 mm"``.
    angle : int
        Full angle of the cone in degrees, 30 or 60.

    Returns
    -------
    quantity [kPa], the broadcast shape

    Raises
    ------
    InputError
        If mass or penetration is not positive, or the angle is neither 30 nor 60.

    References
    ----------
    Hansbo, A new approach to the determination of the shear strength of clay by the fall-cone
    test, Royal Swedish Geotechnical Institute, Proceedings 14 (1957); ISO 17892-6.

    Examples
    --------
    >>> round(strength_from_cone("80 g", "20 mm"), 2)
    <Quantity(1.57, 'kilopascal')>
    """
    if angle not in CONE_FACTORS:
        raise InputError(
            f"{angle} does not fit; a cone of 30 or 60 degrees is wanted, for example 30."
        )
    return CONE_FACTORS[angle] * (mass * 1e-3 * STANDARD_GRAVITY) / (penetration * 1e-3) ** 2 / 1e3


@in_units("kPa", load="N > 0", diameter="mm > 0")
def strength_from_rod(load: Numbers, diameter: Numbers) -> Numbers:
    r"""Strength from the load that pushes a flat-ended rod steadily into clay.

    .. math:: s_u = \frac{4 F}{9\, \pi d^2}

    Parameters
    ----------
    load : quantity, any shape
        On the rod once it is in at least four diameters deep, e.g. ``"20 N"`` or ``"2 kgf"``.
    diameter : quantity, broadcast
        Of the flat end, e.g. ``"10 mm"``; the rod behind it relieved so that it does not drag.

    Returns
    -------
    quantity [kPa], the broadcast shape

    References
    ----------
    Skempton, The bearing capacity of clays, Building Research Congress (1951), with N = 9 for a
    deep round end, as quoted in handbooks.

    Examples
    --------
    >>> round(strength_from_rod("20 N", "10 mm"), 1)
    <Quantity(28.3, 'kilopascal')>
    """
    return load / (BEARING * pi * (diameter * 1e-3) ** 2 / 4) / 1e3


@in_units("N*m", strength="kPa >= 0", diameter="mm > 0", height="mm > 0")
def vane_torque(strength: Numbers, diameter: Numbers, height: Numbers) -> Numbers:
    r"""Torque that turns a vane, or a cylinder of clay swept by paddles, against its skin.

    .. math:: T = \pi s_u \left(\frac{D^2 H}{2} + \frac{D^3}{6}\right)

    Parameters
    ----------
    strength : quantity, any shape
    diameter, height : quantity, broadcast
        Of the cylinder that is turned.

    Returns
    -------
    quantity [N*m], the broadcast shape

    References
    ----------
    ASTM D2573, rectangular vane; any text on soil mechanics.

    Examples
    --------
    >>> round(vane_torque("10 kPa", "50 mm", "100 mm"), 2)
    <Quantity(4.58, 'newton * meter')>
    """
    wide, tall = np.asarray(diameter) * 1e-3, np.asarray(height) * 1e-3
    return (pi * strength * 1e3 * (wide**2 * tall / 2 + wide**3 / 6))[()]


@in_units("kPa", torque="N*m > 0", diameter="mm > 0", height="mm > 0")
def strength_from_vane(torque: Numbers, diameter: Numbers, height: Numbers) -> Numbers:
    """Strength from the torque that turns a four-bladed vane in clay.

    Parameters
    ----------
    torque : quantity, any shape
        Greatest torque while it turns slowly, about a tenth of a degree a second.
    diameter, height : quantity, broadcast
        Over the blades, and of the blades.

    Returns
    -------
    quantity [kPa], the broadcast shape

    References
    ----------
    ASTM D2573; :func:`vane_torque` turned round.

    Examples
    --------
    >>> round(strength_from_vane("4.58 N*m", "50 mm", "100 mm"), 2)
    <Quantity(10.0, 'kilopascal')>
    """
    return torque / vane_torque.formula(1.0, diameter, height)
