"""How the numbers of the box's, the gear paths' and the jam's checks were worked out."""

from __future__ import annotations

from math import isfinite

from mixerkit.drive import fuses, jam
from mixerkit.drive.motor_workings import field_speed
from mixerkit.parts import shaft
from mixerkit.parts.gear_checks import shifts_of
from mixerkit.results import LoadedMachine
from mixerkit.spec import GearPath
from mixerkit.tables import table
from mixerkit.working import Working, by_method, worked

__all__ = [
    "at_box_output",
    "box_load",
    "box_loss",
    "box_peak",
    "box_power",
    "box_ratio",
    "box_speed",
    "bush_wall",
    "fast_end",
    "fuse_at_start",
    "fuse_least",
    "fuse_most",
    "idler_reach",
    "jam_unfused",
    "most_bore",
    "pair_closes",
    "pin_circle",
    "pin_flange",
    "pins_bend",
    "slow_end",
    "tips_apart",
    "widest_bore",
]


def at_box_output(machine: LoadedMachine, i: int) -> Working:
    """Say how the torque at the box's output adds up."""
    flow = machine.power_flow
    return worked(
        "T = T_1 + T_R + T_P",
        float(flow.torque_at_box_output[i]),
        "N*m",
        T_1=(float(flow.paddles[0][i]), "N*m", "power flow, paddles of shaft 1"),
        T_R=(float(flow.drag[1][i]), "N*m", "power flow, seals of shaft 1"),
        T_P=(float(flow.torque_into_gear_path[i]), "N*m", "power flow, into the gear path"),
    )


def box_peak(machine: LoadedMachine, peak: float, i: int) -> list[Working]:
    """Say how the torque of a jam was cut short by the fuse, and what the box stands."""
    box, flow = machine.spec.reducer, machine.power_flow
    bare = float(flow.jam_torque_without_fuse[i])
    most = fuses.fuse_torques(machine.spec)[1]
    felt = by_method(
        "T",
        "torque of the jam without a fuse, as there is none",
        float(flow.jam_torque[i]),
        "N*m",
        T_J=(bare, "N*m", "power flow, jam without a fuse"),
    )
    if machine.spec.fuse.kind != "none":
        felt = worked(
            "T = Min(T_J, T_F)",
            float(flow.jam_torque[i]),
            "N*m",
            T_J=(bare, "N*m", "power flow, jam without a fuse"),
            T_F=(most, "N*m", "fuse, most torque within its scatter"),
        )
    return [
        felt,
        worked(
            "T_p = c_p*T_N",
            peak,
            "N*m",
            c_p=(box.peak_torque_ratio, "", "reducer.peak_torque_ratio"),
            T_N=(box.rated_torque, "N*m", "reducer.rated_torque"),
        ),
    ]


def box_loss(machine: LoadedMachine, best: float, least: float, has: float) -> list[Working]:
    """Say how the least loss of the kind, and that of the box, were got."""
    row = f"data/tables/reducer_kinds.csv, {machine.spec.reducer.kind}: best efficiency"
    return [
        worked("v_min = 1 - eta_max", least, "", eta_max=(best, "", row)),
        worked(
            "v = 1 - eta", has, "", eta=(machine.spec.reducer.efficiency, "", "reducer.efficiency")
        ),
    ]


def box_speed(machine: LoadedMachine, turning: float, most: float) -> list[Working]:
    """Say how fast the box is driven, and may be."""
    return [
        worked(
            "n_1 = i*n_2",
            turning,
            "rpm",
            i=(machine.spec.reducer.ratio, "", "reducer.ratio"),
            n_2=(machine.empty_speed, "rpm", "motor, speed of the slow end with the trough empty"),
        ),
        _of_kind(machine, "n_max", "greatest input speed", most, "rpm"),
    ]


def _of_kind(machine: LoadedMachine, symbol: str, what: str, most: float, unit: str) -> Working:
    kind = machine.spec.reducer.kind
    return by_method(
        symbol, f"{what} in the row {kind} of data/tables/reducer_kinds.csv", most, unit
    )


def box_ratio(machine: LoadedMachine, most: float) -> list[Working]:
    """Say where the greatest ratio of the kind was read."""
    return [_of_kind(machine, "i_max", "greatest ratio", most, "")]


def box_power(machine: LoadedMachine, power: float, i: int) -> list[Working]:
    """Say how the power into the box was got."""
    flow = machine.power_flow
    return [
        worked(
            "P = T*omega",
            power,
            "kW",
            T=(float(flow.torque_at_motor[i]), "N*m", "power flow, torque at the motor"),
            omega=(abs(float(flow.speed_while_mixing[i])), "rpm", "power flow, motor's speed"),
        )
    ]


def box_load(machine: LoadedMachine, force: float, i: int) -> list[Working]:
    """Say how the force of the torque arm was got."""
    torque = float(machine.power_flow.torque_at_box_output[i])
    return [
        at_box_output(machine, i),
        worked(
            "F = T/l",
            force,
            "N",
            T=(torque, "N*m", "above"),
            l=(machine.spec.reducer.torque_arm, "mm", "reducer.torque_arm"),
        ),
    ]


def fast_end(machine: LoadedMachine, off: float, loose: float, tight: float) -> list[Working]:
    """Say how a shaft that is too thick or too thin was weighed."""
    return [
        worked(
            "delta = Max(D - d, (d - D)*a/b)",
            off,
            "mm",
            D=(machine.spec.reducer.input_bore, "mm", "reducer.input_bore"),
            d=(machine.spec.motor.shaft_end, "mm", "motor.shaft_end"),
            a=(loose, "mm", "allowed looseness: common practice"),
            b=(tight, "mm", "k6 in H7, ISO 286-2"),
        )
    ]


def slow_end(machine: LoadedMachine) -> list[Working]:
    """Say that shaft 1 is held against the bore as measured."""
    thick = machine.spec.shaft_1.diameter
    return [worked("d = d_1", thick, "mm", d_1=(thick, "mm", "shaft_1.diameter"))]


def most_bore(machine: LoadedMachine, times: float, most: float) -> list[Working]:
    """Say how the widest bore for a bush was got."""
    return [
        worked(
            "D_max = c*d",
            most,
            "mm",
            c=(times, "", "common practice"),
            d=(machine.spec.shaft_1.diameter, "mm", "shaft_1.diameter"),
        )
    ]


def widest_bore(machine: LoadedMachine, shear: float, widest: float) -> list[Working]:
    """Say how the widest bore for the box's torque was got."""
    return [
        worked(
            "D_max = (16*T_N/(pi*tau))**(1/3)",
            widest,
            "mm",
            T_N=(machine.spec.reducer.rated_torque, "N*m", "reducer.rated_torque"),
            tau=(shear, "MPa", "least shear under rated torque: common practice"),
        )
    ]


def bush_wall(machine: LoadedMachine, wall: float) -> list[Working]:
    """Say how the wall of the adapting bush was got."""
    return [
        worked(
            "t = (D - d)/2",
            wall,
            "mm",
            D=(machine.spec.reducer.output_bore, "mm", "reducer.output_bore"),
            d=(machine.spec.shaft_1.diameter, "mm", "shaft_1.diameter"),
        )
    ]


def pair_closes(
    machine: LoadedMachine, path: GearPath, name: str, standard: float, off: float, allowed: float
) -> list[Working]:
    """Say how far the shafts stand off the distance on which a pair closes."""
    first, last = path.tooth_counts
    return [
        by_method(
            "a_w",
            "involute function of the working pressure angle solved for the angle, from tooth counts, "
            "module and profile shifts",
            standard,
            "mm",
            source="ISO 21771",
            z_1=(first, "", f"paths.{name}.tooth_counts"),
            z_2=(last, "", f"paths.{name}.tooth_counts"),
            m=(path.module, "mm", f"paths.{name}.module"),
            x_1=(shifts_of(path)[0], "", f"paths.{name}.profile_shift_coefficients"),
            x_2=(shifts_of(path)[-1], "", f"paths.{name}.profile_shift_coefficients"),
        ),
        worked(
            "delta = Abs(a - a_w)",
            off,
            "mm",
            a=(machine.spec.housing.centre_distance, "mm", "housing.centre_distance"),
            a_w=(standard, "mm", "above"),
        ),
        worked("delta_max = 0.02*m", allowed, "mm", m=(path.module, "mm", f"paths.{name}.module")),
    ]


def idler_reach(distances: list[float], reach: float) -> list[Working]:
    """Say how the reach over the idlers adds up."""
    given = {
        f"a_{k}": (one, "mm", "mesh distance of the path") for k, one in enumerate(distances, 1)
    }
    return [worked(f"a = {' + '.join(given)}", reach, "mm", source="", **given)]


def tips_apart(machine: LoadedMachine, tips: float, asked: float) -> list[Working]:
    """Say how the room for the tips of both shaft gears adds up."""
    return [
        worked(
            "a_min = r_a + s",
            asked,
            "mm",
            r_a=(tips, "mm", "tip radii of both gears, ISO 53 profile A with profile shifts"),
            s=(machine.spec.safety.tip_clearance, "mm", "safety.tip_clearance"),
        )
    ]


def _pin_torque(machine: LoadedMachine) -> Working:
    one = machine.spec.fuse
    strength = table("materials").find(one.pin_material).values["tensile_strength"]
    torque = fuses.shear_pin_torque.formula(
        one.pin_diameter, one.pin_radius, strength, one.pins, one.planes
    )
    return worked(
        "T_m = n*k*pi*d**2/4*c_s*R_m*r",
        float(torque),
        "N*m",
        n=(one.pins, "", "fuse.pins"),
        k=(one.planes, "", "fuse.planes"),
        d=(one.pin_diameter, "mm", "fuse.pin_diameter"),
        c_s=(fuses.SHEAR_OVER_TENSILE, "", "shear over tensile strength: common practice"),
        R_m=(strength, "MPa", f"data/tables/materials.csv, {one.pin_material}: tensile strength"),
        r=(one.pin_radius, "mm", "fuse.pin_radius"),
    )


def _middle(machine: LoadedMachine) -> list[Working]:
    one = machine.spec.fuse
    if one.kind == "shear pin":
        return [_pin_torque(machine)]
    return [worked("T_m = T_set", one.setting, "N*m", T_set=(one.setting, "N*m", "fuse.setting"))]


def fuse_least(machine: LoadedMachine) -> list[Working]:
    """Say how the least torque of the fuse within its scatter was got."""
    one, chain = machine.spec.fuse, _middle(machine)
    several = one.kind == "shear pin" and one.pins > 1
    return [
        *chain,
        worked(
            "T_F = c*T_m*(1 - s)",
            float(fuses.fuse_torques(machine.spec)[0]),
            "N*m",
            c=(
                fuses.PINS_TOGETHER if several else 1.0,
                "",
                "share of several pins that carries at first, 1 of one: common practice",
            ),
            T_m=(chain[-1].result, "N*m", "above"),
            s=(one.scatter, "", "fuse.scatter"),
        ),
    ]


def fuse_at_start(machine: LoadedMachine, i: int) -> list[Working]:
    """Say how the torque of a start, and the fuse's least, were got."""
    return [at_box_output(machine, i), *fuse_least(machine)]


def fuse_most(machine: LoadedMachine) -> list[Working]:
    """Say how the most torque of the fuse within its scatter was got."""
    chain = _middle(machine)
    return [
        *chain,
        worked(
            "T_F = T_m*(1 + s)",
            float(fuses.fuse_torques(machine.spec)[1]),
            "N*m",
            T_m=(chain[-1].result, "N*m", "above"),
            s=(machine.spec.fuse.scatter, "", "fuse.scatter"),
        ),
    ]


def pins_bend(machine: LoadedMachine, bends: float, i: int) -> list[Working]:
    """Say how the torque at which the first pin yields was got."""
    one = machine.spec.fuse
    yields = table("materials").find(one.pin_material).values["yield_strength"]
    return [
        at_box_output(machine, i),
        worked(
            "T_e = c*n*k*pi*d**2/4*c_e*R_e*r",
            bends,
            "N*m",
            c=(
                fuses.PINS_TOGETHER if one.pins > 1 else 1.0,
                "",
                "share of several pins that carries at first, 1 of one: common practice",
            ),
            n=(one.pins, "", "fuse.pins"),
            k=(one.planes, "", "fuse.planes"),
            d=(one.pin_diameter, "mm", "fuse.pin_diameter"),
            c_e=(shaft.SHEAR_YIELD, "", "shear over tensile yield: von Mises"),
            R_e=(yields, "MPa", f"data/tables/materials.csv, {one.pin_material}: yield strength"),
            r=(one.pin_radius, "mm", "fuse.pin_radius"),
        ),
    ]


def pin_circle(machine: LoadedMachine, inside: float, edge: float, asked: float) -> list[Working]:
    """Say how the least radius of the pins' circle was got."""
    return [
        worked(
            "r_min = r_i + e*d",
            asked,
            "mm",
            r_i=(inside, "mm", "half of the thicker of shaft 1 and the box's hollow end"),
            e=(edge, "", "from a pin's middle to the edge, in pins: common practice"),
            d=(machine.spec.fuse.pin_diameter, "mm", "fuse.pin_diameter"),
        )
    ]


def pin_flange(
    machine: LoadedMachine, second: float, edge: float, asked: float, free: float
) -> list[Working]:
    """Say how far the pins' flange stands out, and how far it may."""
    return [
        worked(
            "r_F = r + e*d",
            asked,
            "mm",
            r=(machine.spec.fuse.pin_radius, "mm", "fuse.pin_radius"),
            e=(edge, "", "from a pin's middle to the edge, in pins: common practice"),
            d=(machine.spec.fuse.pin_diameter, "mm", "fuse.pin_diameter"),
        ),
        worked(
            "r_max = a - d_2/2 - s",
            free,
            "mm",
            a=(machine.spec.housing.centre_distance, "mm", "housing.centre_distance"),
            d_2=(second, "mm", "shaft 2 where it is thickest"),
            s=(machine.spec.safety.tip_clearance, "mm", "safety.tip_clearance"),
        ),
    ]


def _inertia(machine: LoadedMachine, referred: float) -> Working:
    plate = machine.spec.motor
    origin = "motor.inertia" if plate.inertia else "usual for motor.rated_power and motor.poles"
    return worked(
        "J = i**2*J_M",
        referred,
        "kg*m**2",
        i=(machine.spec.reducer.ratio, "", "reducer.ratio"),
        J_M=(jam.rotor_inertia(machine.spec), "kg*m**2", origin),
    )


def jam_unfused(machine: LoadedMachine, i: int) -> list[Working]:
    """Say how the torque of a jam without a fuse was found."""
    flow, cases = machine.power_flow, machine.load_cases
    jammed = 2 if cases.load[i] == "jam on shaft 2" else 1
    train = jam.train(machine.spec, str(cases.clutch[i]), jammed)
    springs = {
        f"k_{n}": (one, "N*m/rad", f"train of a jam, {name}")
        for n, (name, one) in enumerate(train.springs.items(), 1)
        if isfinite(one)
    }
    return [
        field_speed(machine),
        worked(
            "omega = n_0/i",
            machine.empty_speed,
            "rpm",
            n_0=(flow.abilities.field, "rpm", "above"),
            i=(machine.spec.reducer.ratio, "", "reducer.ratio"),
        ),
        _inertia(machine, train.inertia),
        worked(
            f"k = 1/({' + '.join(f'1/{one}' for one in springs)})",
            train.stiffness,
            "N*m/rad",
            source="springs one behind the other",
            **springs,
        ),
        worked(
            "T_J = T_m + sqrt(T_m**2 + (omega*sqrt(k*J))**2)",
            float(flow.jam_torque_without_fuse[i]),
            "N*m",
            T_m=(float(flow.greatest), "N*m", "power flow, motor's greatest at the box's output"),
            omega=(machine.empty_speed, "rpm", "above"),
            k=(train.stiffness, "N*m/rad", "above"),
            J=(train.inertia, "kg*m**2", "above"),
        ),
    ]
