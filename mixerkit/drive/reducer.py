"""Bought-in reduction box: speeds and torques from one end to the other."""

from __future__ import annotations

from typing import Any

import numpy as np

from mixerkit.cases import Case
from mixerkit.checks import Check
from mixerkit.units import in_units

__all__ = ["checks", "input_torque", "output_speed", "output_torque"]


@in_units("N*m", torque="N*m", ratio=" > 0", efficiency=" > 0 <= 1")
def output_torque(torque: Any, ratio: Any, efficiency: Any) -> Any:
    r"""Torque at the slow end of a box for a torque at its fast end.

    .. math:: T_2 = T_1\, i\, \eta

    Parameters
    ----------
    torque : quantity, any shape
        At the fast end, e.g. ``"10 N*m"``.
    ratio : float
        Fast speed over slow speed, e.g. ``60``.
    efficiency : float
        Share of the power that comes out, above 0 and at most 1.

    Returns
    -------
    quantity [N*m], the broadcast shape

    Raises
    ------
    InputError
        If ratio or efficiency is out of range or a unit does not fit.

    References
    ----------
    Conservation of energy.

    Examples
    --------
    >>> output_torque("10 N*m", 60, 0.85)
    <Quantity(510.0, 'newton * meter')>
    """
    return torque * ratio * efficiency


@in_units("N*m", torque="N*m", ratio=" > 0", efficiency=" > 0 <= 1")
def input_torque(torque: Any, ratio: Any, efficiency: Any) -> Any:
    r"""Torque needed at the fast end of a box for a torque at its slow end.

    .. math:: T_1 = \frac{T_2}{i\, \eta}

    Parameters
    ----------
    torque : quantity, any shape
        At the slow end, e.g. ``"510 N*m"``.
    ratio, efficiency : float
        As in :func:`output_torque`.

    Returns
    -------
    quantity [N*m], the broadcast shape

    Raises
    ------
    InputError
        If ratio or efficiency is out of range or a unit does not fit.

    References
    ----------
    Conservation of energy.

    Examples
    --------
    >>> round(input_torque("510 N*m", 60, 0.85), 6)
    <Quantity(10.0, 'newton * meter')>
    """
    return torque / (ratio * efficiency)


@in_units("rpm", speed="rpm", ratio=" > 0")
def output_speed(speed: Any, ratio: Any) -> Any:
    """Speed of the slow end of a box for a speed of its fast end.

    Parameters
    ----------
    speed : quantity, any shape
        Of the fast end, e.g. ``"1440 rpm"``.
    ratio : float
        Fast speed over slow speed.

    Returns
    -------
    quantity [rpm], the broadcast shape

    Raises
    ------
    InputError
        If the ratio is not positive or a unit does not fit.

    References
    ----------
    The ratio's definition.

    Examples
    --------
    >>> output_speed("1440 rpm", 60)
    <Quantity(24.0, 'rpm')>
    """
    return speed / ratio


def checks(case: Case) -> list[Check]:
    """Check the box against the torque while mixing, and against the motor in a jam.

    Parameters
    ----------
    case : Case

    Returns
    -------
    list of Check
    """
    box, flow, plate = case.plain.reducer, case.flow, case.plain.motor
    peak = box.rated_torque * box.peak_torque_ratio
    return [
        case.check(
            "reducer",
            "reducer",
            "torque while mixing",
            where=case.mixing,
            demand=flow.slow,
            capacity=box.rated_torque,
            unit="N*m",
            safety=box.service_factor,
            source="service factor by hours and shock: common practice",
            reason=lambda i, say: (
                f"paddles of shaft 1 {say(flow.paddles[0][i], 'N*m')} + "
                f"gear path {say(flow.through[i], 'N*m')}"
            ),
            advice=lambda i, say: (
                f"A box rated for {say(flow.slow[i] * box.service_factor, 'N*m')} at its slow end would do."
            ),
        ),
        case.check(
            "reducer",
            "reducer",
            "torque in a jam",
            where=case.jammed,
            demand=np.full(len(case.states), flow.greatest),
            capacity=peak,
            unit="N*m",
            source="peak torque ratio: the box's sheet, else common practice",
            reason=lambda i, say: (
                f"breakdown torque {plate.breakdown_torque_ratio:g} x {say(flow.rated, 'N*m')}, "
                f"x {box.ratio:g} x {box.efficiency:g}; box {box.peak_torque_ratio:g} x "
                f"{say(box.rated_torque, 'N*m')}"
            ),
            advice=lambda i, say: (
                f"A box rated for {say(flow.greatest / box.peak_torque_ratio, 'N*m')} would do, or a torque "
                f"limiter set below {say(peak, 'N*m')}."
            ),
        ),
    ]
