"""Formulas of an induction motor: power, torque, speed and slip."""

from __future__ import annotations

from math import pi

import numpy as np

from mixerkit.results import Counts, Numbers
from mixerkit.units import in_units

__all__ = [
    "breakdown_slip",
    "kloss_torque",
    "shaft_power",
    "slip_at_torque",
    "synchronous_speed",
    "torque_from_power",
]


@in_units("N*m", power="kW >= 0", speed="rpm > 0")
def torque_from_power(power: Numbers, speed: Numbers) -> Numbers:
    r"""Torque of a shaft that carries a power at a speed.

    .. math:: T = \frac{P}{\omega} = \frac{60\,P}{2 \pi n}

    Parameters
    ----------
    power : quantity, any shape
        Mechanical power, e.g. ``"1.5 kW"``.
    speed : quantity, broadcast against power
        Rotational speed, e.g. ``"1440 rpm"``; must be positive.

    Returns
    -------
    quantity [N*m], the broadcast shape

    References
    ----------
    Budynas & Nisbett, Shigley's Mechanical Engineering Design, 10th ed., eq. 3-43 (from memory).

    Examples
    --------
    >>> round(torque_from_power("1.5 kW", "1440 rpm"), 3)
    <Quantity(9.947, 'newton * meter')>
    """
    return power * 1e3 * 60 / (2 * pi * np.asarray(speed))[()]


@in_units("kW", torque="N*m", speed="rpm")
def shaft_power(torque: Numbers, speed: Numbers) -> Numbers:
    r"""Power of a shaft that carries a torque at a speed.

    .. math:: P = T\,\omega = \frac{2 \pi n\,T}{60}

    Parameters
    ----------
    torque : quantity, any shape
        Such as ``"500 N*m"``.
    speed : quantity, broadcast against torque
        Such as ``"24 rpm"``.

    Returns
    -------
    quantity [kW], the broadcast shape

    References
    ----------
    Budynas & Nisbett, Shigley's Mechanical Engineering Design, 10th ed., eq. 3-43 (from memory).

    Examples
    --------
    >>> round(shaft_power("500 N*m", "24 rpm"), 4)
    <Quantity(1.2566, 'kilowatt')>
    """
    return torque * speed * (2 * pi / 60) / 1e3


@in_units("rpm", frequency="Hz > 0")
def synchronous_speed(frequency: Numbers, poles: Counts) -> Numbers:
    r"""Speed of the turning field of an alternating-current motor.

    .. math:: n_s = \frac{120\,f}{p}

    Parameters
    ----------
    frequency : quantity, any shape
        Supply frequency, e.g. ``"50 Hz"``.
    poles : int, broadcast against frequency
        Count of poles, not of pole pairs.

    Returns
    -------
    quantity [rpm], the broadcast shape

    Raises
    ------
    InputError
        If the frequency is not positive or not a frequency.

    References
    ----------
    Common practice; any text on alternating-current machines.

    Examples
    --------
    >>> synchronous_speed("50 Hz", 4), synchronous_speed("60 Hz", 4)
    (<Quantity(1500.0, 'rpm')>, <Quantity(1800.0, 'rpm')>)
    """
    return 120 * frequency / poles


@in_units("N*m", breakdown_torque="N*m >= 0", slip="", breakdown_slip="> 0")
def kloss_torque(breakdown_torque: Numbers, slip: Numbers, breakdown_slip: Numbers) -> Numbers:
    r"""Torque of an induction motor at a slip.

    .. math:: T = \frac{2\,T_b}{s/s_b + s_b/s}

    Parameters
    ----------
    breakdown_torque : quantity, any shape
        Greatest torque.
    slip : float, broadcast
        Share by which the rotor lags the field: 0 in step with it, 1 at rest.
    breakdown_slip : float, broadcast
        Slip at the greatest torque; see :func:`breakdown_slip`.

    Returns
    -------
    quantity [N*m], the broadcast shape

    References
    ----------
    Kloss's formula, stator resistance left out; any text on induction machines.

    Examples
    --------
    >>> kloss_torque("26 N*m", 0.2, 0.2), kloss_torque("26 N*m", 0.0, 0.2)
    (<Quantity(26.0, 'newton * meter')>, <Quantity(0.0, 'newton * meter')>)
    """
    share = np.asarray(slip, float) / breakdown_slip
    return (2 * breakdown_torque * share / (share**2 + 1))[()]


def breakdown_slip(rated_slip: Numbers, breakdown_ratio: Numbers) -> Numbers:
    r"""Slip at the greatest torque, from the rating plate.

    .. math:: s_b = s_n \left(k + \sqrt{k^2 - 1}\right), \quad k = T_b / T_n

    Parameters
    ----------
    rated_slip : float, any shape
    breakdown_ratio : float, broadcast
        Greatest over rated torque, at least 1.

    Returns
    -------
    float or array

    References
    ----------
    Kloss's formula at the rated point, solved for the breakdown slip.

    Examples
    --------
    >>> round(float(breakdown_slip(0.04, 2.6)), 4)
    0.2
    """
    slip: Numbers = (rated_slip * (breakdown_ratio + np.sqrt(np.square(breakdown_ratio) - 1)))[()]
    return slip


def slip_at_torque(torque: Numbers, breakdown_torque: Numbers, slip: Numbers) -> Numbers:
    """Slip at which a motor gives a torque on the running side, not a number beyond breakdown.

    Parameters
    ----------
    torque : float or array
        Wanted, in the unit of ``breakdown_torque``.
    breakdown_torque, slip : float or array
        Greatest torque, and the slip at it.

    Returns
    -------
    float or array

    Examples
    --------
    >>> round(float(slip_at_torque(10.0, 26.0, 0.2)), 4)
    0.04
    """
    torque = np.asarray(torque, float)
    with np.errstate(divide="ignore", invalid="ignore"):
        ratio = np.where(torque > 0, breakdown_torque / np.where(torque > 0, torque, 1.0), np.inf)
        found = slip * (ratio - np.sqrt(ratio**2 - 1))
    return np.where(np.isinf(ratio), 0.0, found)[()]
