"""Roller chains: sprockets, length in pitches, and the power that plates, rollers and bushes last under."""

from __future__ import annotations

from math import pi

import numpy as np

from mixerkit.results import Numbers
from mixerkit.units import in_units

__all__ = ["STRANDS", "chain_power", "links", "sprocket"]

STRANDS = {1: 1.0, 2: 1.7, 3: 2.5}
"""Power of so many strands over that of one (Shigley 10th ed., table 17-23, from memory)."""
_INCH = 25.4
_HORSEPOWER = 0.7456999
_GALLING = 17.0
"""K_r of chains from half an inch of pitch on; 29 below, so that this is the lower (Shigley 10th ed., eq. 17-33)."""


@in_units("mm", pitch="mm > 0", teeth="> 0")
def sprocket(pitch: Numbers, teeth: Numbers) -> Numbers:
    r"""Pitch diameter of a sprocket.

    .. math:: d = \frac{p}{\sin(\pi / z)}

    Parameters
    ----------
    pitch : quantity, any shape
    teeth : int, broadcast

    Returns
    -------
    quantity [mm], the broadcast shape

    References
    ----------
    The corners of a polygon; Shigley 10th ed., eq. 17-29 (from memory).

    Examples
    --------
    >>> round(sprocket("12.7 mm", 19), 2)
    <Quantity(77.16, 'millimeter')>
    """
    return (np.asarray(pitch, float) / np.sin(pi / np.asarray(teeth, float)))[()]


@in_units("", centre="mm > 0", pitch="mm > 0", few="> 0", many="> 0")
def links(centre: Numbers, pitch: Numbers, few: Numbers, many: Numbers) -> Numbers:
    r"""Length of a chain in pitches.

    .. math:: \frac{L}{p} = \frac{2 C}{p} + \frac{z_1 + z_2}{2} + \frac{(z_2 - z_1)^2}{4 \pi^2 C / p}

    Parameters
    ----------
    centre, pitch : quantity, any shape
    few, many : int, broadcast
        Teeth of both sprockets.

    Returns
    -------
    float, the broadcast shape

    References
    ----------
    Shigley 10th ed., eq. 17-34 (from memory).

    Examples
    --------
    >>> print(round(links("25 in", "1 in", 17, 34).magnitude, 2))
    75.79
    """
    far = np.asarray(centre, float) / pitch
    return (2 * far + (many + few) / 2 + np.square(many - few) / (4 * pi**2 * far))[()]


@in_units("kW", teeth="> 0", speed="rpm > 0", pitch="mm > 0", length="> 0", hours="> 0")
def chain_power(
    teeth: Numbers,
    speed: Numbers,
    pitch: Numbers,
    length: Numbers = 100.0,
    hours: Numbers = 15_000.0,
) -> Numbers:
    r"""Power of one strand: the lesser of what link plates and what rollers and bushes bear.

    .. math::
        H_1 = 0.004\,z^{1.08} n^{0.9} p^{3 - 0.07 p},\quad
        H_2 = \frac{1000 K_r z^{1.5} p^{0.8}}{n^{1.5}} \left(\frac{L}{100}\right)^{0.4} \left(\frac{15000}{t}\right)^{0.4}

    in horsepower, with the pitch in inches and turns a minute. A long chain and a short life are given
    no credit: the last two factors are one at most.

    Parameters
    ----------
    teeth, speed : int and quantity, any shape
        Of the smaller sprocket.
    pitch : quantity, broadcast
    length : float, broadcast
        In pitches.
    hours : float, broadcast
        That it is to last.

    Returns
    -------
    quantity [kW], the broadcast shape

    References
    ----------
    Shigley 10th ed., eqs. 17-32, 17-33 and 17-40, with K_r = 17 (from memory).

    Examples
    --------
    >>> round(chain_power(17, "1000 rpm", "12.7 mm").to("horsepower"), 2)
    <Quantity(5.48, 'horsepower')>
    >>> round(chain_power(17, "1800 rpm", "12.7 mm").to("horsepower"), 2)
    <Quantity(8.96, 'horsepower')>
    """
    wide, turns = np.asarray(pitch, float) / _INCH, np.asarray(speed, float)
    plates = 0.004 * np.asarray(teeth, float) ** 1.08 * turns**0.9 * wide ** (3 - 0.07 * wide)
    rollers = 1000 * _GALLING * np.asarray(teeth, float) ** 1.5 * wide**0.8 / turns**1.5
    worn = np.minimum(np.asarray(length, float) / 100, 1.0) * np.minimum(
        15_000 / np.asarray(hours, float), 1.0
    )
    return (_HORSEPOWER * np.minimum(plates, rollers * worn**0.4))[()]
