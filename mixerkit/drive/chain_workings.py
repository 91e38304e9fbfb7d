"""How the numbers of the chain's checks were worked out."""

from __future__ import annotations

from mixerkit.drive import chain
from mixerkit.drive.chain_set import ACROSS, WORN, ChainSet
from mixerkit.drive.motor_drive import Wheels
from mixerkit.results import LoadedMachine
from mixerkit.working import Given, Working, by_method, worked

__all__ = [
    "across",
    "apart",
    "breaks",
    "greatest_force",
    "jam_force",
    "moved",
    "power",
    "speed",
    "wrap",
]

_SPROCKET = "pitch over the sine of half its pitch angle, from data/tables/chains.csv and its teeth"


def _pitch(machine: LoadedMachine, both: Wheels) -> Given:
    size = machine.spec.motor_drive.chain.size
    return both.row["pitch"], "mm", f"data/tables/chains.csv, {size}: pitch"


def _at_motor(found: ChainSet) -> Given:
    return found.both.motor, "mm", f"sprocket of the motor: {_SPROCKET}"


def apart(machine: LoadedMachine, both: Wheels, least: float) -> list[Working]:
    """Say how far apart the sprockets are to stand."""
    return [
        worked(
            "C_min = (d_1 + d_2)/2 + p",
            least,
            "mm",
            d_1=(both.motor, "mm", f"sprocket of the motor: {_SPROCKET}"),
            d_2=(both.box, "mm", f"sprocket of the box: {_SPROCKET}"),
            p=_pitch(machine, both),
        )
    ]


def wrap(found: ChainSet) -> list[Working]:
    """Say how the wrap was got."""
    return [
        by_method(
            "theta",
            "half a turn less twice the angle whose sine is half the difference of both sprockets over their distance",
            found.both.wrap,
            "deg",
            source="Shigley 10th ed., eq. 17-1 (from memory)",
            d=(found.both.small, "mm", f"smaller sprocket: {_SPROCKET}"),
            D=(found.both.large, "mm", f"larger sprocket: {_SPROCKET}"),
            C=(found.both.centre, "mm", "motor_drive.chain.centre_distance"),
        )
    ]


def speed(machine: LoadedMachine, found: ChainSet) -> list[Working]:
    """Say how fast the chain runs."""
    return [
        worked(
            "v = omega*d_1/2",
            found.speed,
            "m/s",
            omega=(machine.power_flow.abilities.field, "rpm", "motor, speed of its field as fed"),
            d_1=_at_motor(found),
        )
    ]


def moved(machine: LoadedMachine, found: ChainSet) -> list[Working]:
    """Say how far the motor is moved for an even count of links, and for wear."""
    one = machine.spec.motor_drive.chain
    return [
        by_method(
            "L",
            "links at the stated distance",
            found.exact,
            "",
            source="Shigley 10th ed., eq. 17-34 (from memory)",
            C=(found.both.centre, "mm", "motor_drive.chain.centre_distance"),
            p=_pitch(machine, found.both),
            z_1=(one.motor_teeth, "", "motor_drive.chain.motor_teeth"),
            z_2=(one.box_teeth, "", "motor_drive.chain.box_teeth"),
        ),
        by_method(
            "C_L",
            "distance for the next even count of links",
            found.centre,
            "mm",
            source="Shigley 10th ed., eq. 17-35 (from memory)",
            L_2=(found.even, "", "next even count"),
        ),
        worked(
            "x = Abs(C_L - C) + c*L_2*p",
            found.moved,
            "mm",
            C_L=(found.centre, "mm", "above"),
            C=(found.both.centre, "mm", "motor_drive.chain.centre_distance"),
            c=(WORN, "", "half of 2 % of wear: common practice"),
            L_2=(found.even, "", "above"),
            p=_pitch(machine, found.both),
        ),
    ]


def power(machine: LoadedMachine, found: ChainSet, asked: float, i: int) -> list[Working]:
    """Say how the power asked and that which the chain bears were got."""
    flow, strands = machine.power_flow, machine.spec.motor_drive.chain.strands
    return [
        worked(
            "P = T*omega",
            asked,
            "kW",
            T=(float(flow.torque_at_motor[i]), "N*m", "power flow, torque at the motor"),
            omega=(flow.abilities.field, "rpm", "motor, speed of its field as fed"),
        ),
        by_method(
            "P_max",
            "the lesser of what link plates and what rollers and bushes bear, times the strands' factor and the share of "
            "data/tables/chains.csv; a long chain and a short life get no credit",
            found.power,
            "kW",
            source="Shigley 10th ed., eqs. 17-32 and 17-33, table 17-23 (from memory)",
            z=(found.few, "", "teeth of the smaller sprocket"),
            n=(found.small_speed, "rpm", "its speed"),
            p=_pitch(machine, found.both),
            k=(chain.STRANDS[strands], "", "factor of motor_drive.chain.strands"),
        ),
    ]


def greatest_force(found: ChainSet) -> Working:
    """Say how the greatest pull of mixing and starting was got."""
    return worked(
        "F = 2*T/d_1",
        found.force,
        "N",
        T=(found.asked, "N*m", "power flow, greatest torque at the motor, mixing and starting"),
        d_1=_at_motor(found),
    )


def jam_force(
    machine: LoadedMachine, found: ChainSet, force: float, share: float, stays: float, i: int
) -> list[Working]:
    """Say how the pull in a jam, and what the chain stands, were got."""
    torque = float(machine.power_flow.torque_at_motor[i])
    return [
        worked(
            "F = 2*T/d_1",
            force,
            "N",
            T=(torque, "N*m", "power flow, torque at the motor"),
            d_1=_at_motor(found),
        ),
        breaks(machine, found),
        worked(
            "F_S = c*F_B",
            stays,
            "N",
            c=(share, "", "common practice"),
            F_B=(found.breaks, "N", "above"),
        ),
    ]


def breaks(machine: LoadedMachine, found: ChainSet) -> Working:
    """Say at which force the chain breaks."""
    one = machine.spec.motor_drive.chain
    return worked(
        "F_B = k*F_1",
        found.breaks,
        "N",
        k=(chain.STRANDS[one.strands], "", "factor of motor_drive.chain.strands"),
        F_1=(found.both.row["tensile"], "kN", f"data/tables/chains.csv, {one.size}: tensile"),
    )


def across(machine: LoadedMachine, found: ChainSet) -> list[Working]:
    """Say how the pull across both shafts was got."""
    return [
        greatest_force(found),
        worked(
            "F_A = c*s*F",
            found.across,
            "N",
            c=(ACROSS, "", "slack strand and jerks: common practice"),
            s=(machine.spec.motor_drive.service_factor, "", "motor_drive.service_factor"),
            F=(found.force, "N", "above"),
        ),
    ]
