"""Whether socket and motor suit each other: voltage, frequency, current drawn and at switching on."""

from __future__ import annotations

import numpy as np

from mixerkit.checking import make_check, make_unjudged
from mixerkit.checks import Check
from mixerkit.drive import induction, motor, motor_workings
from mixerkit.drive.remedies import LESS_CLAY
from mixerkit.results import LoadedMachine

__all__ = ["current", "frequency", "plate_voltage", "voltage"]


USUAL_VOLTAGES = {
    1: (100.0, 110.0, 120.0, 200.0, 208.0, 220.0, 230.0, 240.0, 277.0),
    3: (200.0, 208.0, 220.0, 230.0, 240.0, 380.0, 400.0, 415.0, 440.0, 480.0, 600.0, 690.0),
}
"""Voltages between the conductors of a socket in V, by its phases: IEC 60038, table 1, and what came before
it and is still met (from memory)."""
VOLTAGE_OFF = 0.10
"""Share by which a supply may stand off its nominal voltage: IEC 60038, table 1, note (from memory)."""


def voltage(machine: LoadedMachine) -> Check:
    """Whether the socket's voltage is one that a supply has, so that a motor for it can be had."""
    supply = machine.spec.supply
    usual = USUAL_VOLTAGES[supply.phases]
    near = min(usual, key=lambda one: abs(supply.voltage / one - 1))
    off = round(abs(supply.voltage / near - 1), 9)
    phases = "single-phase" if supply.phases == 1 else "three-phase"
    return make_check(
        machine,
        "motor",
        "socket",
        "voltage is one that sockets have",
        demand=off,
        capacity=VOLTAGE_OFF,
        unit="",
        working=lambda i: motor_workings.voltage_off(machine, near, off),
        tight=1.0,
        source="nominal voltages and 10 % either way: IEC 60038, table 1 (from memory)",
        reason=lambda i, say: (
            f"{say(supply.voltage, 'V')} {phases}; the nearest that is usual is {say(near, 'V')}"
        ),
        note=lambda i, say: (
            "Measure supply.voltage between the conductors that the motor or its converter gets, and read on the plate that "
            "it is made for it."
        ),
    )


_PLATE_OFF = 0.05
"""Share by which the voltage may stand off the plate's all day: IEC 60034-1, 7.3, zone A (from memory)."""
_READ_PLATE = (
    "Read both voltages on the plate and how its links stand: of 230/400 V, the lower is that of delta, the higher of star. "
    "Changing the links is a licensed electrician's work; what they are set to goes into motor.rated_voltage."
)


def plate_voltage(machine: LoadedMachine) -> Check:
    """Whether the motor gets the voltage of its plate in the connection used: else its field stays weak."""
    plate, has = machine.spec.motor, machine.spec.supply.voltage
    rated = plate.rated_voltage
    name = ("motor", "motor", "voltage of its connection")
    if rated is None:
        why = (
            "motor.rated_voltage is not given: read on the plate the voltage of the connection used, star or delta, "
            'and write it there, for example rated_voltage = "230 V"'
        )
        return make_unjudged(machine, *name, why)
    if plate.fed_by != "frequency converter":
        off = round(abs(has / rated - 1), 9)
        return make_check(
            machine,
            *name,
            demand=off,
            capacity=_PLATE_OFF,
            unit="",
            tight=1.0,
            working=lambda i: motor_workings.plate_off(machine, off),
            source="5 % either way all day: IEC 60034-1, 7.3, zone A (from memory)",
            reason=lambda i, say: (
                f"plate {say(rated, 'V')} in the connection used, socket {say(has, 'V')}"
            ),
            note=lambda i, say: _READ_PLATE,
        )
    # below the plate's frequency the voltage goes down with it; a converter gives no more than it gets
    share = min(plate.run_at / plate.rated_frequency, 1.0)
    wanted = (1 - _PLATE_OFF) * share * rated
    return make_check(
        machine,
        *name,
        demand=wanted,
        capacity=has,
        unit="V",
        tight=1.0,
        working=lambda i: motor_workings.plate_reached(machine, _PLATE_OFF, wanted),
        source="voltage over frequency as on the plate, 5 % less at most: IEC 60034-1, 7.3, zone A (from memory)",
        reason=lambda i, say: (
            f"plate {say(rated, 'V')} at {say(plate.rated_frequency, 'Hz')} in the connection used, run at "
            f"{say(plate.run_at, 'Hz')} by a converter on {say(has, 'V')}"
        ),
        fix=lambda i: [{"motor.run_at": plate.rated_frequency * has / rated}],
        note=lambda i, say: _READ_PLATE,
    )


def frequency(machine: LoadedMachine) -> Check:
    """Whether a motor without a converter gets the frequency on its plate: with less its iron is overfilled."""
    plate, supply = machine.spec.motor, machine.spec.supply
    converter = plate.fed_by == "frequency converter"
    given = plate.rated_frequency if converter else supply.frequency
    least = 0.95 * plate.rated_frequency
    return make_check(
        machine,
        "motor",
        "socket",
        "frequency the motor needs",
        demand=least,
        capacity=given,
        unit="Hz",
        working=lambda i: motor_workings.frequency_needed(machine, least),
        tight=1.0,
        source="frequency down to 95 % of the plate's: IEC 60034-1, 7.3, zone B (from memory)",
        reason=lambda i, say: (
            f"plate {say(plate.rated_frequency, 'Hz')}, fed by {plate.fed_by}, socket {say(supply.frequency, 'Hz')}"
        ),
        fix=lambda i: (
            [{"motor.fed_by": "frequency converter", "motor.run_at": plate.rated_frequency}]
            if plate.kind == "three-phase"
            else ["motor"]
        ),
        note=lambda i, say: (
            "The plate and the socket stand against each other: read motor.rated_frequency again."
        ),
    )


_OTHER_SOCKET = "Another socket or circuit is a licensed electrician's work; what it allows goes into supply.socket_current."


def current(machine: LoadedMachine) -> list[Check]:
    """Check what the motor draws from the socket, running and at switching on."""
    full = float(motor.input_current(machine.spec, machine.spec.motor.rated_power))
    return [_drawn(machine, full), _switched_on(machine, full)]


def _drawn(machine: LoadedMachine, full: float) -> Check:
    """Whether the socket bears the current while mixing, given that at full rating in A."""
    spec, flow = machine.spec, machine.power_flow
    plate, supply = spec.motor, spec.supply
    power = np.asarray(
        induction.shaft_power.formula(flow.torque_at_motor, np.abs(flow.speed_while_mixing))
    )
    drawn = motor.input_current(spec, power)
    phases = "single-phase" if supply.phases == 1 else "three-phase"
    name = ("motor", "socket", "current while mixing")
    slower = ["motor.run_at"] if plate.fed_by == "frequency converter" else []
    return (
        make_unjudged(machine, *name, motor.STANDS)
        if not (flow.speed_while_mixing[machine.load_cases.mixing] != 0).all()
        else make_check(
            machine,
            *name,
            where=machine.load_cases.mixing,
            demand=drawn,
            capacity=supply.socket_current,
            unit="A",
            working=lambda i: motor_workings.current_drawn(
                machine, float(power[i]), float(np.asarray(drawn)[i]), i
            ),
            source="P = sqrt(phases) V I cos(phi) eta",
            reason=lambda i, say: (
                f"{say(power[i], 'kW')} at the shaft, {say(supply.voltage, 'V')} {phases}, fed by {plate.fed_by}; "
                f"at full rating {say(full, 'A')}"
            ),
            fix=lambda i: [*slower, "reducer", *LESS_CLAY, "motor"],
            note=lambda i, say: _OTHER_SOCKET,
        )
    )


def _switched_on(machine: LoadedMachine, full: float) -> Check:
    """Whether the socket lets the current at switching on through, given that at full rating in A."""
    plate, supply = machine.spec.motor, machine.spec.supply
    at_start = {
        "direct": plate.start_current_ratio,
        "soft starter": min(motor.SOFT_START_CURRENT, plate.start_current_ratio),
        "frequency converter": plate.converter_torque_ratio,
    }[plate.fed_by]
    allowed = supply.socket_current * supply.inrush_factor
    on = full * at_start
    return make_check(
        machine,
        "motor",
        "socket",
        "current when switched on",
        demand=on,
        capacity=allowed,
        unit="A",
        working=lambda i: motor_workings.current_switched_on(machine, full, on, allowed),
        source="breaker of type C lets 5 to 10 times through for a moment, B 3 to 5: EN 60898-1 (from memory)",
        reason=lambda i, say: (
            f"{at_start:g} x {say(full, 'A')}; socket {say(supply.socket_current, 'A')} x {supply.inrush_factor:g}"
        ),
        fix=lambda i: (
            [
                {"motor.fed_by": "frequency converter", "motor.run_at": plate.rated_frequency},
                *([{"motor.fed_by": "soft starter"}] if supply.phases == 3 else []),
                "motor",
            ]
            if plate.kind == "three-phase"
            else ["motor"]
        ),
        note=lambda i, say: _OTHER_SOCKET,
    )
