"""Electric motor: torque from power and speed."""

from __future__ import annotations

from collections.abc import Callable
from math import pi
from typing import Any

import numpy as np

from mixerkit.cases import Case
from mixerkit.checks import Check, Say
from mixerkit.tables import next_up, table
from mixerkit.units import in_units

__all__ = ["checks", "shaft_power", "synchronous_speed", "torque_from_power"]


@in_units("N*m", power="kW >= 0", speed="rpm > 0")
def torque_from_power(power: Any, speed: Any) -> Any:
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

    Raises
    ------
    InputError
        If a speed is not positive, a power negative or a unit does not fit.

    References
    ----------
    Budynas & Nisbett, Shigley's Mechanical Engineering Design, 10th ed., eq. 3-40.

    Examples
    --------
    >>> round(torque_from_power("1.5 kW", "1440 rpm"), 3)
    <Quantity(9.947, 'newton * meter')>
    """
    return power * 1e3 * 60 / (2 * pi * np.asarray(speed))[()]


@in_units("kW", torque="N*m", speed="rpm")
def shaft_power(torque: Any, speed: Any) -> Any:
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

    Raises
    ------
    InputError
        If a unit does not fit.

    References
    ----------
    Budynas & Nisbett, Shigley's Mechanical Engineering Design, 10th ed., eq. 3-40.

    Examples
    --------
    >>> round(shaft_power("500 N*m", "24 rpm"), 4)
    <Quantity(1.2566, 'kilowatt')>
    """
    return torque * speed * (2 * pi / 60) / 1e3


@in_units("rpm", frequency="Hz > 0")
def synchronous_speed(frequency: Any, poles: Any) -> Any:
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


def checks(case: Case) -> list[Check]:
    """Check the motor against the clay, while mixing and when starting.

    Parameters
    ----------
    case : Case

    Returns
    -------
    list of Check
    """
    plate, flow, box = case.plain.motor, case.flow, case.plain.reducer
    ratings = table("motors").column("rated_power")

    def demand_reason(i: int, say: Say) -> str:
        return f"T = {say(flow.slow[i], 'N*m')} / ({box.ratio:g} x {box.efficiency:g})"

    def advice_for(torque_ratio: float, safety: float) -> Callable[[int, Say], str]:
        def advice(i: int, say: Say) -> str:
            power = float(
                shaft_power.plain(flow.motor[i] * safety / torque_ratio, plate.rated_speed)
            )
            rating = next_up(power, ratings)
            listed = f" (next preferred rating {say(rating, 'kW')})" if np.isfinite(rating) else ""
            ratio = np.ceil(box.ratio * power / plate.rated_power)
            return (
                f"A motor of {say(power, 'kW')} would do{listed}; or, with this motor, a reduction of "
                f"{ratio:.0f} : 1, which mixes slower."
            )

        return advice

    mixing, starting = case.plain.safety.motor_mixing, case.plain.safety.motor_starting
    return [
        case.check(
            "motor",
            "motor",
            "torque while mixing",
            where=case.mixing,
            demand=flow.motor,
            capacity=flow.rated,
            unit="N*m",
            safety=mixing,
            source="rated torque: Shigley 10th ed., eq. 3-40; factor: common practice",
            reason=lambda i, say: (
                f"{demand_reason(i, say)}; rated T = {say(plate.rated_power, 'kW')} at "
                f"{say(plate.rated_speed, 'rpm')}"
            ),
            advice=advice_for(1.0, mixing),
        ),
        case.check(
            "motor",
            "motor",
            "torque to start a full trough",
            where=case.starting,
            demand=flow.motor,
            capacity=flow.rated * plate.start_torque_ratio,
            unit="N*m",
            safety=starting,
            source="torque at rest: the motor's sheet; factor: common practice",
            reason=lambda i, say: (
                f"{demand_reason(i, say)}; at rest the motor gives "
                f"{plate.start_torque_ratio:g} x {say(flow.rated, 'N*m')}"
            ),
            advice=advice_for(plate.start_torque_ratio, starting),
        ),
    ]
