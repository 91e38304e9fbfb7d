"""Rolling bearings, plain bushes and seals: life, wear, pressure, friction."""

from __future__ import annotations

from math import pi

import numpy as np

from mixerkit.results import Numbers
from mixerkit.units import in_units

__all__ = [
    "bush_pressure",
    "equivalent_load",
    "rating_life",
    "seal_torque",
    "sliding_speed",
    "static_load",
    "wear_depth",
]

# Fa/C0, e, Y of single-row deep groove ball bearings with X = 0.56: Shigley 10th ed., table 11-1,
# after ISO 281 (from memory)
_SHARE = np.array([0.014, 0.021, 0.028, 0.042, 0.056, 0.07, 0.084, 0.11, 0.17, 0.28, 0.42, 0.56])
_E = np.array([0.19, 0.21, 0.22, 0.24, 0.26, 0.27, 0.28, 0.30, 0.34, 0.38, 0.42, 0.44])
_Y = np.array([2.30, 2.15, 1.99, 1.85, 1.71, 1.63, 1.55, 1.45, 1.31, 1.15, 1.04, 1.00])


@in_units("N", radial="N >= 0", axial="N >= 0", static_rating="N > 0")
def equivalent_load(radial: Numbers, axial: Numbers, static_rating: Numbers) -> Numbers:
    r"""Equivalent dynamic load of a deep groove ball bearing.

    .. math:: P = \max(F_r,\; 0.56\,F_r + Y F_a)

    Parameters
    ----------
    radial, axial : quantity, any shape
    static_rating : quantity, broadcast
        C0 of the bearing.

    Returns
    -------
    quantity [N], the broadcast shape

    References
    ----------
    ISO 281; factors: Shigley, 10th ed., table 11-1 (from memory).

    Examples
    --------
    >>> round(equivalent_load("2000 N", "1500 N", "21600 N"))
    <Quantity(3570, 'newton')>
    """
    share = np.asarray(axial) / static_rating
    limit, factor = np.interp(share, _SHARE, _E), np.interp(share, _SHARE, _Y)
    mixed = 0.56 * radial + factor * axial
    return np.where(np.asarray(axial) > limit * radial, np.maximum(mixed, radial), radial)[()]


@in_units("hour", rating="N > 0", load="N >= 0", speed="rpm > 0")
def rating_life(rating: Numbers, load: Numbers, speed: Numbers, exponent: float = 3.0) -> Numbers:
    r"""Hours that nine of ten rolling bearings last.

    .. math:: L_{10h} = \frac{10^6}{60\,n} \left( \frac{C}{P} \right)^p

    Parameters
    ----------
    rating, load : quantity, any shape
        Dynamic rating C and equivalent load P.
    speed : quantity, broadcast
    exponent : float
        3 for balls, 10/3 for rollers.

    Returns
    -------
    quantity [h], the broadcast shape

    References
    ----------
    ISO 281, basic rating life.

    Examples
    --------
    >>> round(rating_life("14.28 kN", "1779 N", "1725 rpm"))
    <Quantity(4997, 'hour')>
    """
    with np.errstate(divide="ignore"):
        return 1e6 / (60 * speed) * (rating / np.asarray(load, float))[()] ** exponent


@in_units("N", radial="N >= 0", axial="N >= 0")
def static_load(radial: Numbers, axial: Numbers) -> Numbers:
    r"""Equivalent static load of a deep groove ball bearing.

    .. math:: P_0 = \max(F_r,\; 0.6\,F_r + 0.5\,F_a)

    Parameters
    ----------
    radial, axial : quantity, any shape

    Returns
    -------
    quantity [N], the broadcast shape

    References
    ----------
    ISO 76 (from memory).

    Examples
    --------
    >>> static_load("2000 N", "3000 N")
    <Quantity(2700.0, 'newton')>
    """
    return np.maximum(radial, 0.6 * radial + 0.5 * axial)


@in_units("MPa", load="N", bore="mm > 0", length="mm > 0")
def bush_pressure(load: Numbers, bore: Numbers, length: Numbers) -> Numbers:
    r"""Mean pressure in a plain bush.

    .. math:: p = \frac{F}{d\,l}

    Parameters
    ----------
    load : quantity, any shape
    bore, length : quantity, broadcast

    Returns
    -------
    quantity [MPa], the broadcast shape

    References
    ----------
    Shigley, 10th ed., eq. 12-37 in its form.

    Examples
    --------
    >>> bush_pressure("4000 N", "40 mm", "50 mm")
    <Quantity(2.0, 'megapascal')>
    """
    return load / (bore * length)


@in_units("m/s", speed="rpm", bore="mm > 0")
def sliding_speed(speed: Numbers, bore: Numbers) -> Numbers:
    r"""Speed at which a shaft slides in its bush.

    .. math:: v = \pi d\,n

    Parameters
    ----------
    speed : quantity, any shape
        Of the shaft against the bush.
    bore : quantity, broadcast

    Returns
    -------
    quantity [m/s], the broadcast shape

    References
    ----------
    Geometry.

    Examples
    --------
    >>> round(sliding_speed("24 rpm", "45 mm"), 4)
    <Quantity(0.0565, 'meter / second')>
    """
    return pi * bore * np.abs(speed) / 60e3


@in_units("mm", pressure="MPa >= 0", path="km >= 0", rate="mm**3/(N*m) >= 0")
def wear_depth(pressure: Numbers, path: Numbers, rate: Numbers) -> Numbers:
    r"""Depth a bush wears.

    .. math:: h = k\,p\,s

    Parameters
    ----------
    pressure : quantity, any shape
    path : quantity, broadcast
        Slid over its life.
    rate : quantity
        Wear rate, see data/tables/bush_materials.csv.

    Returns
    -------
    quantity [mm], the broadcast shape

    References
    ----------
    Archard's law: Shigley, 10th ed., section 12-15 in its form.

    Examples
    --------
    >>> round(wear_depth("2 MPa", "400 km", "1e-7 mm^3/(N*m)"), 3)
    <Quantity(0.08, 'millimeter')>
    """
    return rate * pressure * path * 1e3


@in_units("N*m", line_load="N/mm >= 0", diameter="mm > 0")
def seal_torque(line_load: Numbers, diameter: Numbers, friction: Numbers) -> Numbers:
    r"""Torque that one seal takes from its shaft.

    .. math:: T = \mu\,q\,\pi d\,\frac{d}{2}

    Parameters
    ----------
    line_load : quantity, any shape
        Pressure of lips or packing on the shaft along its round.
    diameter : quantity, broadcast
    friction : float

    Returns
    -------
    quantity [N*m], the broadcast shape

    References
    ----------
    Friction at the shaft's radius; see data/tables/seals.csv for the values.

    Examples
    --------
    >>> round(seal_torque("0.4 N/mm", "45 mm", 0.4), 2)
    <Quantity(0.51, 'newton * meter')>
    """
    return friction * line_load * pi * diameter**2 / 2e3
