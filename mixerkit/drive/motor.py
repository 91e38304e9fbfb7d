"""Electric motor: torque and speed, the torque it can give from rest to full speed, its current."""

from __future__ import annotations

from math import sqrt

import numpy as np

from mixerkit.drive.induction import (
    breakdown_slip,
    kloss_torque,
    synchronous_speed,
    torque_from_power,
)
from mixerkit.parts.reduction import loaded_ratio, total_ratio
from mixerkit.results import Abilities, Array, Numbers
from mixerkit.spec import Spec
from mixerkit.tables import table
from mixerkit.units import in_units

__all__ = [
    "SOFT_START_CURRENT",
    "STANDS",
    "abilities",
    "cooled",
    "duty_torque",
    "empty_speed",
    "greatest_speed",
    "input_current",
    "reversal",
    "shaft_speed",
    "torque_curve",
    "voltage_share",
]

SOFT_START_CURRENT = 3.5
"""Current a soft starter lets through over rated current (common practice 3 to 4)."""
STANDS = "the motor does not turn at the frequency it is fed with"
"""Why what hangs on its speed cannot be judged."""
CONVERTER_EFFICIENCY = 0.95
"""Of a small frequency converter (common practice)."""
CONVERTER_POWER_FACTOR = 0.70
"""At the socket, of a small converter without a choke (common practice 0.65 to 0.75)."""


def _fed_with(spec: Spec) -> float:
    """Frequency in Hz at the motor's terminals."""
    by_converter = spec.motor.fed_by == "frequency converter"
    return float(spec.motor.run_at if by_converter else spec.supply.frequency)


def _field(spec: Spec) -> float:
    """Speed of the field in rpm at the frequency the motor is fed with."""
    return float(synchronous_speed.formula(_fed_with(spec), spec.motor.poles))


def voltage_share(spec: Spec) -> float:
    """Voltage that the socket has for the motor over that on its plate; 1 where the plate was not read."""
    plate = spec.motor.rated_voltage
    return spec.supply.voltage / plate if plate else 1.0


def shaft_speed(spec: Spec) -> float:
    """Speed of shaft 1 in rpm at the frequency the motor is fed with, under its rated torque.

    The field turns with that frequency, and the rotor lags behind it by as many turns a minute as on
    its plate; nought where the field turns no faster than that. Belts lose their slip on the way.

    Parameters
    ----------
    spec : Spec

    Returns
    -------
    float

    References
    ----------
    Constant flux below the rated frequency: the slip in turns a minute goes with the torque alone; any
    text on induction machines fed by converters.
    """
    plate = spec.motor
    plate_field = synchronous_speed.formula(plate.rated_frequency, plate.poles)
    turns = _field(spec) - (plate_field - plate.rated_speed)
    return float(max(turns, 0.0) / loaded_ratio(spec))


def empty_speed(spec: Spec) -> float:
    """Speed of shaft 1 in rpm with nothing in the trough: the rotor all but in step with the field.

    What runs on after the power is off, and what a jam stops, is reckoned from it: an empty trough or
    the first paddle in the clay leaves the motor next to nothing to lag for.

    Parameters
    ----------
    spec : Spec

    Returns
    -------
    float

    References
    ----------
    Slip goes with the torque, and there is none; any text on induction machines.

    Examples
    --------
    >>> from mixerkit import Design
    >>> empty_speed(Design.demo().with_values({"motor.run_at": "10 Hz"}))
    5.0
    """
    return float(_field(spec) / total_ratio(spec))


def greatest_speed(shaft_end: float, poles: float) -> float:
    """Speed in rpm that the rotor of a cage motor may turn at, by its shaft end in mm and its poles.

    Parameters
    ----------
    shaft_end : float
        It tells the frame, which no plate of ours states.
    poles : float
        Beyond six the speed falls as the field's does.

    Returns
    -------
    float

    References
    ----------
    IEC 60034-1, clause 9.7, greatest safe operating speeds of cage motors up to 1000 V (from memory); above
    six poles common practice.

    Examples
    --------
    >>> greatest_speed(24.0, 4), greatest_speed(38.0, 4), greatest_speed(24.0, 8)
    (3600.0, 2700.0, 1800.0)
    """
    row = table("motor_speeds").bracket(shaft_end, "shaft_above", "shaft_up_to").values
    named = {2: "two_poles", 4: "four_poles"}.get(int(poles), "six_poles")
    return float(row[named] * min(1.0, 6 / poles))


def cooled(share: float) -> float:
    """Share of its rated torque that a motor on its own fan carries all day, by its share of rated speed.

    Parameters
    ----------
    share : float
        Frequency it is fed with over the rated one.

    Returns
    -------
    float
        1 at rated speed and above.

    References
    ----------
    Two limits that makers of converters print for motors on their own fan, the lower taken: full torque
    down to half speed, falling in a straight line to half of it at rest; and 0.9 of it at a third of the
    speed, rising in a straight line to full torque at full speed. IEC TS 60034-25 asks for the motor
    maker's own curve, which goes before both (clause from memory).

    Examples
    --------
    >>> cooled(1.0), round(cooled(0.5), 3), cooled(0.1)
    (1.0, 0.925, 0.6)
    """
    # the lowest of the lines holds; above full speed the fan does all its work
    return min(1.0, 0.5 + share, 0.85 + 0.15 * share)


def abilities(spec: Spec) -> Abilities:
    """What a design's motor can give as it is fed.

    A converter holds torque up to the rated frequency and power above it, and limits torque to
    what its current allows; a soft starter limits the current at rest, and torque goes with the
    square of the current. A motor on its own fan carries less as it turns slower, see :func:`cooled`.
    Above the frequency on its plate the field is weak, however it is fed.

    Parameters
    ----------
    spec : Spec

    Returns
    -------
    Abilities
        Torques in N*m: ``rated`` on the plate, ``lasting`` all day as fed, ``start`` at rest,
        ``pull_up`` least while running up, ``greatest`` at the speed it runs at, ``pushing`` greatest at
        any speed from that down to rest, which a jam feels, ``breakdown`` that of the field alone,
        whatever a converter lets through; ``field`` speed of the field in rpm; ``slip`` at breakdown as
        a share of ``plate_field``, the field's speed on the plate.

    References
    ----------
    Flux with voltage over frequency, breakdown torque with its square: any text on induction machines.
    """
    plate = spec.motor
    rated = float(torque_from_power.formula(plate.rated_power, plate.rated_speed))
    plate_field = synchronous_speed.formula(plate.rated_frequency, plate.poles)
    slip = float(breakdown_slip(1 - plate.rated_speed / plate_field, plate.breakdown_torque_ratio))
    return Abilities(
        rated=rated,
        field=_field(spec),
        plate_field=float(plate_field),
        slip=slip,
        **{name: rated * share for name, share in _shares_of_rated(spec).items()},
    )


def _shares_of_rated(spec: Spec) -> dict[str, float]:
    """Torques of :func:`abilities` over the rated one."""
    plate = spec.motor
    start, pull_up, most = (
        plate.start_torque_ratio,
        plate.pull_up_torque_ratio,
        plate.breakdown_torque_ratio,
    )
    under = _fed_with(spec) / plate.rated_frequency
    # flux goes with voltage over frequency: less of it where the voltage cannot follow
    over = max(under / voltage_share(spec), 1.0)
    weak = most / over**2
    if plate.fed_by == "frequency converter":
        lasting = cooled(under) / over
        start = min(most, plate.converter_torque_ratio)
        most = min(weak, start)
        # running up it comes through the weak field too
        pull_up, pushing = min(start, most), start
    else:
        lasting, start, pull_up, most = 1 / over, start / over**2, pull_up / over**2, weak
        # coming down from its speed to rest it passes through every torque of its curve
        pushing = max(most, start)
    if plate.fed_by == "soft starter":
        held = min(SOFT_START_CURRENT / plate.start_current_ratio, 1.0) ** 2
        start, pull_up = start * held, pull_up * held
    return {
        "lasting": lasting,
        "start": start,
        "pull_up": min(pull_up, start),
        "greatest": most,
        "pushing": pushing,
        "breakdown": weak,
    }


def torque_curve(spec: Spec, speeds: Array) -> Array:
    """Torque in N*m that a design's motor gives at speeds in rpm, from rest to the field's speed.

    Kloss's formula on the running side; below the breakdown speed straight lines through the
    plate's breakdown, pull-up and starting torque, which Kloss alone would miss.

    Parameters
    ----------
    spec : Spec
    speeds : numpy.ndarray

    Returns
    -------
    numpy.ndarray
    """
    able = abilities(spec)
    lag = (able.field - np.asarray(speeds, float)) / able.plate_field
    running = kloss_torque.formula(able.breakdown, lag, able.slip)
    running = np.minimum(running, able.greatest)
    at_breakdown = max(able.field - able.slip * able.plate_field, 0.0)
    marks = ([0.0, at_breakdown * 0.4, at_breakdown], [able.start, able.pull_up, able.greatest])
    if spec.motor.fed_by == "frequency converter" or at_breakdown == 0:
        return np.where(speeds >= at_breakdown, running, min(able.start, able.greatest))
    return np.where(speeds >= at_breakdown, running, np.interp(speeds, *marks))


def input_current(spec: Spec, power: Numbers) -> Numbers:
    """Current in A that the socket gives while the motor's shaft gives a power in kW.

    Parameters
    ----------
    spec : Spec
    power : float or array

    Returns
    -------
    float or array

    References
    ----------
    P = sqrt(phases) V I cos(phi) eta; converter figures: common practice.
    """
    plate, supply = spec.motor, spec.supply
    share, factor = plate.efficiency, plate.power_factor
    if plate.fed_by == "frequency converter":
        share, factor = share * CONVERTER_EFFICIENCY, CONVERTER_POWER_FACTOR
    return np.asarray(power) * 1e3 / (share * factor * supply.voltage * sqrt(supply.phases))


@in_units("N*m", torque="N*m >= 0", running="min > 0", resting="min >= 0")
def duty_torque(torque: Numbers, running: Numbers, resting: Numbers) -> Numbers:
    r"""Steady torque that warms a motor as much as running and resting by turns.

    .. math:: T_{eq} = T \sqrt{\frac{t_{run}}{t_{run} + t_{rest}}}

    Parameters
    ----------
    torque : quantity, any shape
        While it runs.
    running, resting : quantity, broadcast
        Minutes of each, short against the hour a motor takes to warm through.

    Returns
    -------
    quantity [N*m], the broadcast shape

    References
    ----------
    Losses with the square of the torque; duty type S3 of IEC 60034-1 in spirit (from memory).

    Examples
    --------
    >>> round(duty_torque("6 N*m", "8 min", "6 min"), 2)
    <Quantity(4.54, 'newton * meter')>
    """
    # so written, a run without end is allowed
    return torque * np.sqrt(1 / (1 + np.asarray(resting, float) / running))[()]


def reversal(spec: Spec) -> str:
    """Say how a design's motor is reversed."""
    if spec.motor.kind == "three-phase":
        how = (
            "the converter does it"
            if spec.motor.fed_by == "frequency converter"
            else "two phases are swapped"
        )
        return f"It reverses from rest: {how}."
    if spec.motor.kind == "capacitor-start":
        return "It reverses only after it has stood still: its starting switch must close again."
    return "It reverses from rest by swapping its start winding, and starts weakly."
