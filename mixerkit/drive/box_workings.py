"""How the numbers of the reduction box's checks were worked out."""

from __future__ import annotations

from mixerkit.constants import STANDARD_GRAVITY
from mixerkit.drive import fuses
from mixerkit.parts.zones import BOX, seat, seat_field
from mixerkit.results import LoadedMachine
from mixerkit.working import Given, Working, as_given, by_method, worked

__all__ = [
    "at_box_output",
    "box_holds",
    "box_load",
    "box_loss",
    "box_peak",
    "box_power",
    "box_ratio",
    "box_speed",
    "bush_wall",
    "fast_end",
    "most_bore",
    "slow_end",
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
            T_F=(most, "N*m", "fuse, most torque of its bounds"),
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
        _of_kind(machine, "n_max", "input speed", most, "rpm"),
    ]


def _of_kind(machine: LoadedMachine, symbol: str, column: str, most: float, unit: str) -> Working:
    kind = machine.spec.reducer.kind
    return as_given(symbol, most, unit, f"data/tables/reducer_kinds.csv, {kind}: {column}")


def box_ratio(machine: LoadedMachine, most: float) -> list[Working]:
    """Say where the greatest ratio of the kind was read."""
    return [_of_kind(machine, "i_max", "ratio", most, "")]


def box_power(machine: LoadedMachine, power: float, i: int) -> list[Working]:
    """Say how the power into the box was got."""
    flow = machine.power_flow
    return [
        worked(
            "P = T*omega",
            power,
            "kW",
            T=(float(flow.into_box[1][i]), "N*m", "power flow, torque at the box's fast end"),
            omega=(
                abs(float(flow.into_box[0][i])),
                "rpm",
                "power flow, speed of the box's fast end",
            ),
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


def box_holds(machine: LoadedMachine, left: float, momentary: bool) -> Working:
    """Say which load across its slow end the box stands, all day or for a moment, beside its own weight."""
    box = machine.spec.reducer
    if not momentary:
        return worked(
            "F_p = F_N - m*g",
            left,
            "N",
            F_N=(box.radial_load, "N", "reducer.radial_load"),
            m=(box.mass, "kg", "reducer.mass"),
            g=(STANDARD_GRAVITY, "m/s**2", "standard gravity: ISO 80000-3"),
        )
    return worked(
        "F_p = c_p*F_N - m*g",
        left,
        "N",
        c_p=(box.peak_torque_ratio, "", "reducer.peak_torque_ratio"),
        F_N=(box.radial_load, "N", "reducer.radial_load"),
        m=(box.mass, "kg", "reducer.mass"),
        g=(STANDARD_GRAVITY, "m/s**2", "standard gravity: ISO 80000-3"),
    )


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


def _end(machine: LoadedMachine) -> Given:
    """Thickness of shaft 1's end in the box."""
    return seat(machine.spec, 1, BOX), "mm", seat_field(machine.spec, 1, BOX)


def slow_end(machine: LoadedMachine) -> list[Working]:
    """Say that shaft 1 is held against the bore as measured."""
    return [as_given("d_1", *_end(machine))]


def most_bore(machine: LoadedMachine, times: float, most: float) -> list[Working]:
    """Say how the widest bore for a bush was got."""
    return [
        worked(
            "D_max = c*d",
            most,
            "mm",
            c=(times, "", "common practice"),
            d=_end(machine),
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
            d=_end(machine),
        )
    ]
