"""The motor against the clay and against the socket."""

from __future__ import annotations

import numpy as np

from mixerkit.checking import make_check
from mixerkit.checks import Change, Check, Say
from mixerkit.drive import induction, motor, motor_workings
from mixerkit.drive.remedies import LESS_CLAY, more_reduction
from mixerkit.drive.supply_checks import current, frequency, plate_voltage, voltage
from mixerkit.parts.reduction import loaded_ratio, total_ratio
from mixerkit.results import LoadedMachine

__all__ = ["checks"]

_TORQUE = (
    "rated torque: P = T omega, Shigley 10th ed., eq. 3-43 (from memory); factor: common practice"
)


def checks(machine: LoadedMachine) -> list[Check]:
    """Check the motor's feed and speeds, its torque, mixing and starting, and its current, mixing and starting.

    Parameters
    ----------
    machine : LoadedMachine

    Returns
    -------
    list of Check
    """
    return [
        _feed(machine),
        voltage(machine),
        plate_voltage(machine),
        frequency(machine),
        _turns(machine),
        _bursts(machine),
        *_torque(machine),
        *current(machine),
    ]


def _feed(machine: LoadedMachine) -> Check:
    """Whether the motor gets the phases it needs."""
    plate, supply = machine.spec.motor, machine.spec.supply
    three = plate.kind == "three-phase"
    converter = plate.fed_by == "frequency converter"
    given = (3 if converter else supply.phases) if three else (0 if converter else 1)
    return make_check(
        machine,
        "motor",
        "socket",
        "phases the motor needs",
        demand=3 if three else 1,
        capacity=given,
        unit="",
        working=lambda i: motor_workings.phases_given(machine, given),
        tight=1.0,
        source="a converter makes three phases of one, and does not suit capacitor motors: common practice",
        reason=lambda i, say: (
            f"a {plate.kind} motor fed by {plate.fed_by} from {supply.phases} phase(s)"
        ),
        fix=lambda i: (
            [{"motor.fed_by": "frequency converter", "motor.run_at": plate.rated_frequency}]
            if three
            else [{"motor.fed_by": "direct"}, "motor"]
        ),
    )


def _turns(machine: LoadedMachine) -> Check:
    """Whether the field turns faster than the rotor lags behind it, under rated torque and under the clay's."""
    plate, able, flow = machine.spec.motor, machine.power_flow.abilities, machine.power_flow
    lag = (
        induction.slip_at_torque(flow.torque_at_motor, able.breakdown, able.slip) * able.plate_field
    )
    # beyond breakdown it stalls, which its own check says; here it lags at the least by the slip at breakdown
    lag = np.maximum(
        np.nan_to_num(lag, nan=able.slip * able.plate_field), able.plate_field - plate.rated_speed
    )
    ratio = loaded_ratio(machine.spec)
    return make_check(
        machine,
        "motor",
        "motor",
        "turns at the frequency it is set to",
        where=machine.load_cases.mixing,
        demand=lag + ratio,
        capacity=able.field,
        unit="rpm",
        working=lambda i: motor_workings.lag_of_rotor(
            machine, float(lag[i]), float(lag[i] + ratio), i
        ),
        source="slip in turns a minute goes with the torque at constant flux: any text on induction machines fed by "
        "converters; a turn a minute at the paddles: common practice",
        reason=lambda i, say: (
            f"the field turns at {say(able.field, 'rpm')} and the rotor lags {say(lag[i], 'rpm')} behind it; {say(ratio, 'rpm')} "
            "more make one turn a minute of shaft 1"
        ),
        fix=lambda i: (
            [{"motor.run_at": plate.rated_frequency}, "motor.run_at"]
            if plate.fed_by == "frequency converter"
            else []
        ),
    )


def _bursts(machine: LoadedMachine) -> Check:
    """Whether the rotor may turn as fast as the field makes it, which it all but does with the trough empty."""
    plate, able = machine.spec.motor, machine.power_flow.abilities
    most = motor.greatest_speed(plate.shaft_end, plate.poles)
    return make_check(
        machine,
        "motor",
        "motor",
        "speed its rotor may turn at",
        demand=able.field,
        capacity=most,
        unit="rpm",
        working=lambda i: motor_workings.rotor_speed(machine, most),
        tight=1.0,
        source="greatest safe operating speed of cage motors up to 1000 V: IEC 60034-1, 9.7 (from memory), data/tables/motor_speeds.csv",
        reason=lambda i, say: (
            f"empty it keeps step with the field; {plate.poles} poles, shaft end {say(plate.shaft_end, 'mm')}"
        ),
        fix=lambda i: (
            [{"motor.run_at": most * plate.poles / 120}, "motor"]
            if plate.fed_by == "frequency converter"
            else ["motor"]
        ),
        note=lambda i, say: "Read motor.poles and motor.shaft_end again.",
    )


def _torque(machine: LoadedMachine) -> list[Check]:
    return [_lasts(machine), _does_not_stall(machine), _starts(machine)]


def _asked(machine: LoadedMachine, i: int, say: Say) -> str:
    flow = machine.power_flow
    ratio, share = total_ratio(machine.spec), flow.efficiency[i]
    return f"T = {say(flow.torque_at_box_output[i], 'N*m')} / ({ratio:g} x {share:g})"


def _more_torque(machine: LoadedMachine) -> list[Change]:
    own = more_reduction(machine.spec)
    return ["motor", "reducer", *own, *_feeding(machine), *LESS_CLAY]


def _softer(machine: LoadedMachine) -> str:
    return (
        f"The clay's strength was found {machine.clay_load.clay.words}: softer clay asks less, so measure it again, or mix "
        "it wetter and measure that."
    )


def _lasts(machine: LoadedMachine) -> Check:
    """Whether the motor gives all day what mixing asks."""
    plate = machine.spec.motor
    flow, able = machine.power_flow, machine.power_flow.abilities
    return make_check(
        machine,
        "motor",
        "motor",
        "torque while mixing",
        where=machine.load_cases.mixing,
        demand=flow.torque_at_motor,
        capacity=able.lasting,
        unit="N*m",
        working=lambda i: motor_workings.lasting_torque(machine, i),
        safety=machine.spec.safety.motor_mixing,
        source=_TORQUE,
        reason=lambda i, say: (
            f"{_asked(machine, i, say)}; rated T = {say(plate.rated_power, 'kW')} at "
            f"{say(plate.rated_speed, 'rpm')}, fed by {plate.fed_by}"
            + (
                f", {100 * able.lasting / able.rated:.0f} % of it all day at {say(plate.run_at, 'Hz')}"
                if able.lasting < able.rated
                else ""
            )
        ),
        fix=lambda i: _more_torque(machine),
        note=lambda i, say: _softer(machine),
    )


def _does_not_stall(machine: LoadedMachine) -> Check:
    """Whether mixing asks less than the motor's greatest torque."""
    flow, able = machine.power_flow, machine.power_flow.abilities
    return make_check(
        machine,
        "motor",
        "motor",
        "no stall while mixing",
        where=machine.load_cases.mixing,
        demand=flow.torque_at_motor,
        capacity=able.greatest,
        unit="N*m",
        working=lambda i: motor_workings.greatest_torque(machine, i),
        source="breakdown torque: the motor's sheet",
        reason=lambda i, say: (
            f"{_asked(machine, i, say)}; the motor gives {say_how(machine.spec.motor.fed_by)} at most"
        ),
        fix=lambda i: _more_torque(machine),
        note=lambda i, say: _softer(machine),
    )


def _starts(machine: LoadedMachine) -> Check:
    """Whether the motor runs a full trough up."""
    flow, able = machine.power_flow, machine.power_flow.abilities
    run_up = min(able.start, able.pull_up)
    return make_check(
        machine,
        "motor",
        "motor",
        "no stall when starting a full trough",
        where=machine.load_cases.starting,
        demand=flow.torque_at_motor,
        capacity=run_up,
        unit="N*m",
        working=lambda i: motor_workings.run_up_torque(machine, run_up, i),
        safety=machine.spec.safety.motor_starting,
        source="torque at rest and while running up: the motor's sheet (minima: IEC 60034-12); factor: common practice",
        reason=lambda i, say: (
            f"{_asked(machine, i, say)}; running up the motor gives at least {say(run_up, 'N*m')}"
        ),
        fix=lambda i: _more_torque(machine),
        note=lambda i, say: _softer(machine),
    )


def _feeding(machine: LoadedMachine) -> list[Change]:
    """Other ways to feed the same motor that may bring more of its torque."""
    plate, supply = machine.spec.motor, machine.spec.supply
    if plate.fed_by == "frequency converter":
        at_plate: list[Change] = [{"motor.run_at": plate.rated_frequency}, "motor.run_at"]
        straight = supply.phases == 3 and plate.kind == "three-phase"
        return [*at_plate, *([{"motor.fed_by": "direct"}] if straight else [])]
    if plate.fed_by == "soft starter":
        return [{"motor.fed_by": "direct"}]
    return []


def say_how(fed_by: str) -> str:
    """Say what bounds the greatest torque of a motor fed one way or another."""
    return (
        "what its converter allows" if fed_by == "frequency converter" else "its breakdown torque"
    )
