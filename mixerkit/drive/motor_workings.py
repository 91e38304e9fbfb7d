"""How the numbers of the motor's checks were worked out."""

from __future__ import annotations

from mixerkit.drive import motor
from mixerkit.parts.reduction import loaded_ratio, loaded_worked, ratio_given
from mixerkit.results import LoadedMachine
from mixerkit.working import Given, Working, by_method, worked

__all__ = [
    "at_motor",
    "current_drawn",
    "current_switched_on",
    "field_speed",
    "frequency_needed",
    "greatest_torque",
    "lag_of_rotor",
    "lasting_torque",
    "phases_given",
    "plate_off",
    "plate_reached",
    "rotor_speed",
    "run_up_torque",
    "voltage_off",
]


def phases_given(machine: LoadedMachine, given: float) -> list[Working]:
    """Say by which rule the phases that the motor gets were counted."""
    rule = (
        "a converter gives three phases to a three-phase motor and suits no other; without one, a "
        "three-phase motor gets the socket's phases, and any other one phase"
    )
    socket: Given = (machine.spec.supply.phases, "", "supply.phases")
    return [by_method("m", rule, given, "", m_S=socket)]


def voltage_off(machine: LoadedMachine, near: float, off: float) -> list[Working]:
    """Say how far the socket's voltage stands off the nearest usual one."""
    return [
        worked(
            "delta = Abs(U/U_n - 1)",
            off,
            "",
            U=(machine.spec.supply.voltage, "V", "supply.voltage"),
            U_n=(near, "V", "IEC 60038, table 1 (from memory): the nearest"),
        )
    ]


def frequency_needed(machine: LoadedMachine, least: float) -> list[Working]:
    """Say how the least frequency was got from the plate's."""
    plate = machine.spec.motor
    return [
        worked(
            "f = 0.95*f_N", least, "Hz", f_N=(plate.rated_frequency, "Hz", "motor.rated_frequency")
        )
    ]


def _fed_with(machine: LoadedMachine) -> Given:
    """Frequency at the motor's terminals."""
    if machine.spec.motor.fed_by == "frequency converter":
        return machine.spec.motor.run_at, "Hz", "motor.run_at"
    return machine.spec.supply.frequency, "Hz", "supply.frequency"


def field_speed(machine: LoadedMachine) -> Working:
    """Say how the speed of the field was got from what the motor is fed with."""
    return worked(
        "n_0 = 2*pi*f/(p/2)",
        machine.power_flow.abilities.field,
        "rpm",
        source="any text on alternating-current machines",
        f=_fed_with(machine),
        p=(machine.spec.motor.poles, "", "motor.poles"),
    )


def lag_of_rotor(machine: LoadedMachine, lag: float, slowest: float, i: int) -> list[Working]:
    """Say how far the rotor lags, and what the field must turn at for one turn of shaft 1."""
    able = machine.power_flow.abilities
    torque = float(machine.power_flow.torque_at_motor[i])
    return [
        by_method(
            "n_s",
            "Kloss's curve solved for the slip at the torque asked, times the field's speed on the plate; "
            "the plate's own lag at the least, and beyond breakdown the lag at breakdown",
            lag,
            "rpm",
            T=(torque, "N*m", "power flow, torque at the motor"),
            T_b=(able.breakdown, "N*m", "motor, breakdown torque as fed"),
            s_b=(able.slip, "", "motor, slip at breakdown"),
            n_N=(able.plate_field, "rpm", "motor, field's speed on the plate"),
        ),
        worked(
            "n = n_s + i*n_1",
            slowest,
            "rpm",
            n_s=(lag, "rpm", "above"),
            i=(loaded_ratio(machine.spec), "", ratio_given(machine.spec)[2]),
            n_1=(1.0, "rpm", "common practice"),
        ),
        field_speed(machine),
        *loaded_worked(machine.spec),
    ]


def rotor_speed(machine: LoadedMachine, most: float) -> list[Working]:
    """Say how the field's speed and the most of the rotor were got."""
    plate = machine.spec.motor
    return [
        field_speed(machine),
        by_method(
            "n_max",
            "row of data/tables/motor_speeds.csv by the shaft end, column by the poles; beyond six poles "
            "that of six times 6/p",
            most,
            "rpm",
            d=(plate.shaft_end, "mm", "motor.shaft_end"),
            p=(plate.poles, "", "motor.poles"),
        ),
    ]


_THROUGH = "power flow, efficiency of the box, and of belts or chain before it"


def at_motor(machine: LoadedMachine, i: int) -> Working:
    """Say how the torque at the motor was got from that at the box's output."""
    flow = machine.power_flow
    return worked(
        "T = T_2/(i*eta)",
        float(flow.torque_at_motor[i]),
        "N*m",
        T_2=(float(flow.torque_at_box_output[i]), "N*m", "power flow, torque at the box's output"),
        i=ratio_given(machine.spec),
        eta=(float(flow.efficiency[i]), "", _THROUGH),
    )


def _rated(machine: LoadedMachine) -> Working:
    plate = machine.spec.motor
    return worked(
        "T_N = P_N/omega_N",
        machine.power_flow.abilities.rated,
        "N*m",
        P_N=(plate.rated_power, "kW", "motor.rated_power"),
        omega_N=(plate.rated_speed, "rpm", "motor.rated_speed"),
    )


_FLUX = "torque with the square of the flux: any text on induction machines"


def _as_fed(
    machine: LoadedMachine, right: str, result: float, i: int, source: str, **given: Given
) -> list[Working]:
    """Say how the torque asked was got, and what the motor gives by its rated torque and frequency."""
    rated = _rated(machine)
    return [
        at_motor(machine, i),
        rated,
        worked(
            f"T_M = {right}",
            result,
            "N*m",
            source=source,
            T_N=(rated.result, "N*m", "above"),
            f=_fed_with(machine),
            f_N=_plate(machine, "rated_frequency", "Hz"),
            u=(
                motor.voltage_share(machine.spec),
                "",
                "supply.voltage over motor.rated_voltage, 1 where that was not read",
            ),
            **given,
        ),
    ]


def _plate(machine: LoadedMachine, what: str, unit: str = "") -> Given:
    """What the motor's plate or sheet says."""
    return getattr(machine.spec.motor, what), unit, f"motor.{what}"


def lasting_torque(machine: LoadedMachine, i: int) -> list[Working]:
    """Say how the torque asked, and that which the motor gives all day, were got."""
    right = "T_N/Max(1, f/(f_N*u))"
    source = "flux with voltage over frequency: any text on induction machines"
    if machine.spec.motor.fed_by == "frequency converter":
        right = "T_N*Min(1, 0.5 + f/f_N, 0.85 + 0.15*f/f_N)/Max(1, f/(f_N*u))"
        source = (
            "lower of two limits that makers of converters print for motors on their own fan; flux with "
            "voltage over frequency: any text on induction machines"
        )
    return _as_fed(machine, right, machine.power_flow.abilities.lasting, i, source)


def greatest_torque(machine: LoadedMachine, i: int) -> list[Working]:
    """Say how the torque asked, and the motor's greatest as fed, were got."""
    right = "c_b/Max(1, f/(f_N*u))**2"
    given = {"c_b": _plate(machine, "breakdown_torque_ratio")}
    if machine.spec.motor.fed_by == "frequency converter":
        right = f"Min({right}, c_C)"
        given["c_C"] = _plate(machine, "converter_torque_ratio")
    greatest = machine.power_flow.abilities.greatest
    return _as_fed(machine, f"T_N*{right}", greatest, i, _FLUX, **given)


def run_up_torque(machine: LoadedMachine, run_up: float, i: int) -> list[Working]:
    """Say how the torque asked, and the least that the motor gives while it runs up, were got."""
    fed_by = machine.spec.motor.fed_by
    if fed_by == "frequency converter":
        # it runs up along the converter's limit, to the greatest torque where it arrives
        return greatest_torque(machine, i)
    right, source = "T_N*Min(c_A, c_U)/Max(1, f/(f_N*u))**2", _FLUX
    given = {
        "c_A": _plate(machine, "start_torque_ratio"),
        "c_U": _plate(machine, "pull_up_torque_ratio"),
    }
    if fed_by == "soft starter":
        right, source = (
            f"{right}*Min(1, c_L/c_I)**2",
            f"{_FLUX}; with that of the current, which a soft starter holds back",
        )
        given["c_L"] = (motor.SOFT_START_CURRENT, "", _SOFT_START)
        given["c_I"] = _plate(machine, "start_current_ratio")
    return _as_fed(machine, right, run_up, i, source, **given)


_SOFT_START = "what a soft starter lets through over rated current: common practice"


def _current(machine: LoadedMachine, symbol: str, result: float, power: Given) -> Working:
    plate, supply = machine.spec.motor, machine.spec.supply
    by_converter = plate.fed_by == "frequency converter"
    inside = motor.CONVERTER_EFFICIENCY if by_converter else 1.0
    factor: Given = (plate.power_factor, "", "motor.power_factor")
    if by_converter:
        factor = (motor.CONVERTER_POWER_FACTOR, "", "power factor of a converter: common practice")
    return worked(
        f"{symbol} = P/(eta*eta_C*c*U*sqrt(m))",
        result,
        "A",
        P=power,
        eta=(plate.efficiency, "", "motor.efficiency"),
        eta_C=(inside, "", "efficiency of the converter, 1 without one: common practice"),
        c=factor,
        U=(supply.voltage, "V", "supply.voltage"),
        m=(supply.phases, "", "supply.phases"),
    )


def current_drawn(machine: LoadedMachine, power: float, drawn: float, i: int) -> list[Working]:
    """Say how the current while mixing was got."""
    flow = machine.power_flow
    return [
        at_motor(machine, i),
        worked(
            "P = T*omega",
            power,
            "kW",
            T=(float(flow.torque_at_motor[i]), "N*m", "above"),
            omega=(abs(float(flow.speed_while_mixing[i])), "rpm", "power flow, motor's speed"),
        ),
        _current(machine, "I", drawn, (power, "kW", "above")),
    ]


def current_switched_on(
    machine: LoadedMachine, full: float, on: float, allowed: float
) -> list[Working]:
    """Say how the current at switching on, and what the socket lets through, were got."""
    plate, supply = machine.spec.motor, machine.spec.supply
    right, given = "c_I*I_N", {"c_I": _plate(machine, "start_current_ratio")}
    if plate.fed_by == "frequency converter":
        right, given = "c_C*I_N", {"c_C": _plate(machine, "converter_torque_ratio")}
    elif plate.fed_by == "soft starter":
        right = "Min(c_L, c_I)*I_N"
        given["c_L"] = (motor.SOFT_START_CURRENT, "", _SOFT_START)
    return [
        _current(machine, "I_N", full, (plate.rated_power, "kW", "motor.rated_power")),
        worked(f"I = {right}", on, "A", I_N=(full, "A", "above"), source="", **given),
        worked(
            "I_max = c_S*I_S",
            allowed,
            "A",
            c_S=(supply.inrush_factor, "", "supply.inrush_factor"),
            I_S=(supply.socket_current, "A", "supply.socket_current"),
        ),
    ]


def plate_off(machine: LoadedMachine, off: float) -> list[Working]:
    """Say how far the socket's voltage stands off the plate's."""
    return [
        worked(
            "delta = Abs(U/U_r - 1)",
            off,
            "",
            U=(machine.spec.supply.voltage, "V", "supply.voltage"),
            U_r=(machine.spec.motor.rated_voltage or 0.0, "V", "motor.rated_voltage"),
        )
    ]


def plate_reached(machine: LoadedMachine, off: float, wanted: float) -> list[Working]:
    """Say which voltage a converter has to reach."""
    plate = machine.spec.motor
    return [
        worked(
            "U_min = (1 - c)*Min(f/f_r, 1)*U_r",
            wanted,
            "V",
            c=(off, "", "IEC 60034-1, 7.3, zone A (from memory)"),
            f=(plate.run_at, "Hz", "motor.run_at"),
            f_r=(plate.rated_frequency, "Hz", "motor.rated_frequency"),
            U_r=(plate.rated_voltage or 0.0, "V", "motor.rated_voltage"),
        )
    ]
