"""V-belts: wrap, length, the pull at which they slip, and how often they bend before they break."""

from __future__ import annotations

from math import pi

import numpy as np

from mixerkit.results import Numbers
from mixerkit.units import in_units

__all__ = ["belt_length", "belt_passes", "centre_for_length", "grip_tension", "slip_pull", "wrap"]

MOST_PASSES = 1e9
"""Beyond so many passes the law of bending tires is not proven (Shigley 10th ed., table 17-17, from memory)."""


@in_units("deg", small="mm > 0", large="mm > 0", centre="mm > 0")
def wrap(small: Numbers, large: Numbers, centre: Numbers) -> Numbers:
    r"""Angle over which an open belt or chain lies on the smaller of two wheels.

    .. math:: \theta = \pi - 2 \arcsin\frac{D - d}{2 C}

    Parameters
    ----------
    small, large : quantity, any shape
        Diameters.
    centre : quantity, broadcast
        Distance of their middles, more than half the sum of both.

    Returns
    -------
    quantity [deg], the broadcast shape

    References
    ----------
    Shigley 10th ed., eq. 17-1 (from memory).

    Examples
    --------
    >>> round(wrap("7.4 in", "11 in", "42.4 in"), 1)
    <Quantity(175.1, 'degree')>
    """
    lean = np.arcsin((np.asarray(large, float) - small) / (2 * np.asarray(centre, float)))
    angle: Numbers = (180 - 2 * np.degrees(lean))[()]
    return angle


@in_units("mm", small="mm > 0", large="mm > 0", centre="mm > 0")
def belt_length(small: Numbers, large: Numbers, centre: Numbers) -> Numbers:
    r"""Datum length of an open belt.

    .. math:: L = 2 C + \frac{\pi (D + d)}{2} + \frac{(D - d)^2}{4 C}

    Parameters
    ----------
    small, large, centre
        As in :func:`wrap`.

    Returns
    -------
    quantity [mm], the broadcast shape

    References
    ----------
    Shigley 10th ed., eq. 17-16a (from memory).

    Examples
    --------
    >>> round(belt_length("7.4 in", "11 in", "42.4 in").to("in"), 1)
    <Quantity(113.8, 'inch')>
    """
    total, apart = np.asarray(large, float) + small, np.asarray(large, float) - small
    found: Numbers = (2 * centre + pi / 2 * total + apart**2 / (4 * np.asarray(centre, float)))[()]
    return found


@in_units("mm", small="mm > 0", large="mm > 0", length="mm > 0")
def centre_for_length(small: Numbers, large: Numbers, length: Numbers) -> Numbers:
    r"""Distance of the middles that a belt of some length stretches to; not a number where it is too short.

    .. math:: C = \frac{1}{4}\left(b + \sqrt{b^2 - 2 (D - d)^2}\right),\quad b = L - \frac{\pi (D + d)}{2}

    Parameters
    ----------
    small, large
        As in :func:`wrap`.
    length : quantity, broadcast

    Returns
    -------
    quantity [mm], the broadcast shape

    References
    ----------
    :func:`belt_length` solved for it; Shigley 10th ed., eq. 17-16b (from memory).

    Examples
    --------
    >>> round(centre_for_length("7.4 in", "11 in", "113.8 in").to("in"), 1)
    <Quantity(42.4, 'inch')>
    """
    straight = length - pi / 2 * (np.asarray(large, float) + small)
    inner = straight**2 - 2 * np.square(np.asarray(large, float) - small)
    with np.errstate(invalid="ignore"):
        found = (straight + np.sqrt(inner)) / 4
    return np.where(straight > 0, found, np.nan)[()]


@in_units("N", tension="N >= 0", angle="deg > 0", friction="> 0")
def slip_pull(tension: Numbers, angle: Numbers, friction: Numbers) -> Numbers:
    r"""Pull round a pulley at which a belt slips, both strands drawn to some tension at rest.

    .. math:: F = 2 T_0 \frac{e^{f \theta} - 1}{e^{f \theta} + 1}

    Parameters
    ----------
    tension : quantity, any shape
        Of each strand at rest; what swings outwards at speed already taken off.
    angle : quantity, broadcast
        Wrap on the smaller pulley.
    friction : float, broadcast
        With the wedge of the groove in it.

    Returns
    -------
    quantity [N], the broadcast shape

    References
    ----------
    Eytelwein's law with the sum of both strands kept; Shigley 10th ed., eq. 17-9 (from memory).

    Examples
    --------
    >>> round(slip_pull("100 N", "180 deg", 0.5123), 1)
    <Quantity(133.3, 'newton')>
    """
    grown = np.exp(friction * np.radians(np.asarray(angle, float)))
    found: Numbers = (2 * tension * (grown - 1) / (grown + 1))[()]
    return found


@in_units("N", pull="N >= 0", angle="deg > 0", friction="> 0")
def grip_tension(pull: Numbers, angle: Numbers, friction: Numbers) -> Numbers:
    """Tension of each strand at rest from which a pull just slips; :func:`slip_pull` solved for it.

    Parameters
    ----------
    pull : quantity, any shape
    angle, friction
        As in :func:`slip_pull`.

    Returns
    -------
    quantity [N], the broadcast shape

    References
    ----------
    As :func:`slip_pull`.

    Examples
    --------
    >>> round(grip_tension("133.3 N", "180 deg", 0.5123))
    <Quantity(100, 'newton')>
    """
    return pull / slip_pull.formula(1.0, angle, friction)


@in_units("", at_small="N > 0", at_large="N > 0", strength="N > 0", exponent="> 0")
def belt_passes(
    at_small: Numbers, at_large: Numbers, strength: Numbers, exponent: Numbers
) -> Numbers:
    r"""Passes round both pulleys that tire a belt out.

    .. math:: N = \left[(K/T_1)^{-b} + (K/T_2)^{-b}\right]^{-1}

    Parameters
    ----------
    at_small, at_large : quantity, any shape
        Tension of the tight strand with that of bending round each pulley.
    strength, exponent : quantity and float, broadcast
        Of the section.

    Returns
    -------
    float, the broadcast shape

    References
    ----------
    Shigley 10th ed., eq. 17-27 (from memory).

    Examples
    --------
    >>> f"{belt_passes('142.2 lbf', '116.8 lbf', '1193 lbf', 10.926).magnitude:.1e}"
    '1.1e+10'
    """
    tired = (np.asarray(at_small, float) / strength) ** exponent
    return (1 / (tired + (np.asarray(at_large, float) / strength) ** exponent))[()]
