"""Whether an elastic coupling carries the motor's torque, fits both shaft ends and bears how they stand."""

from __future__ import annotations

import numpy as np

from mixerkit.checking import make_check, make_unjudged
from mixerkit.checks import Check
from mixerkit.results import Array, LoadedMachine
from mixerkit.units import show
from mixerkit.working import Working, as_given, worked

__all__ = ["checks"]

_PART = ("motor drive", "coupling")
_BREAKS = 2.0
"""Torque at which an elastic coupling's spider tears over what it survives for a moment (common practice)."""


def checks(machine: LoadedMachine) -> list[Check]:
    """Check the coupling's torque, its bores and its alignment.

    Parameters
    ----------
    machine : LoadedMachine

    Returns
    -------
    list of Check
    """
    return [*_torques(machine), *_bores(machine), _alignment(machine)]


def _torques(machine: LoadedMachine) -> list[Check]:
    """Whether it carries the torque all day, at starts and in a jam."""
    names = ("torque while mixing", "torque at starts", _JAM)
    one, flow, able = (
        machine.spec.motor_drive.coupling,
        machine.power_flow,
        machine.power_flow.abilities,
    )
    if one.rated_torque is None:
        why = "motor_drive.coupling.rated_torque is not given: read it on the coupling's sheet"
        return [make_unjudged(machine, *_PART, name, why) for name in names]
    cases, peak = machine.load_cases, one.rated_torque * one.peak_torque_ratio
    # a motor gives its rated torque whenever it is asked, and its starting torque at every start
    daily = np.maximum(flow.torque_at_motor, able.rated)
    starts = np.maximum(flow.torque_at_motor, able.start)
    rated_at, start_at = (
        (able.rated, "N*m", "motor, rated torque"),
        (able.start, "N*m", "motor, torque at rest as fed"),
    )
    return [
        make_check(
            machine,
            *_PART,
            names[0],
            where=cases.mixing,
            demand=daily,
            capacity=one.rated_torque,
            unit="N*m",
            safety=machine.spec.motor_drive.service_factor,
            working=lambda i: [_greater(machine, daily, i, rated_at)],
            source="rated torque: the coupling's sheet; service factor: common practice, DIN 740-2 in spirit (from memory)",
            reason=lambda i, say: (
                f"motor rated {say(able.rated, 'N*m')}, mixing {say(flow.torque_at_motor[i], 'N*m')}"
            ),
            note=lambda i, say: _LARGER,
        ),
        make_check(
            machine,
            *_PART,
            names[1],
            where=cases.starting,
            demand=starts,
            capacity=peak,
            unit="N*m",
            working=lambda i: [_greater(machine, starts, i, start_at), _peak(machine, peak)],
            source="momentary torque: the coupling's sheet, else common practice",
            reason=lambda i, say: (
                f"the motor gives {say(able.start, 'N*m')} from rest, a full trough asks {say(flow.torque_at_motor[i], 'N*m')}"
            ),
            note=lambda i, say: _LARGER,
        ),
        _in_a_jam(machine, peak),
    ]


def _in_a_jam(machine: LoadedMachine, peak: float) -> Check:
    """Whether it stands a jam, given in N*m what it survives for a moment."""
    flow = machine.power_flow
    return make_check(
        machine,
        *_PART,
        _JAM,
        where=machine.load_cases.jammed,
        demand=flow.torque_at_motor,
        capacity=peak,
        unit="N*m",
        rung=(1.0, _BREAKS),
        working=lambda i: [_peak(machine, peak)],
        source="momentary torque: the coupling's sheet, else common practice; its spider tears at some twice that: common practice",
        reason=lambda i, say: (
            f"a jam of {say(flow.torque_at_box_output[i], 'N*m')} at the slow end, as it comes through the coupling"
        ),
        note=lambda i, say: _LARGER,
    )


_JAM = "torque in a jam"
_LARGER = "A larger coupling carries more: its sheet's numbers go into motor_drive.coupling."


def _greater(machine: LoadedMachine, torque: Array, i: int, own: tuple[float, str, str]) -> Working:
    asked = float(machine.power_flow.torque_at_motor[i])
    return worked(
        "T = Max(T_M, T_N)",
        float(torque[i]),
        "N*m",
        T_M=(asked, "N*m", "power flow, torque at the motor"),
        T_N=own,
    )


def _peak(machine: LoadedMachine, peak: float) -> Working:
    one = machine.spec.motor_drive.coupling
    return worked(
        "T_K = c*T_N",
        peak,
        "N*m",
        c=(one.peak_torque_ratio, "", "motor_drive.coupling.peak_torque_ratio"),
        T_N=(one.rated_torque or 0.0, "N*m", "motor_drive.coupling.rated_torque"),
    )


def _bores(machine: LoadedMachine) -> list[Check]:
    """Whether its hubs are made for both shaft ends."""
    spec = machine.spec
    ends = (
        ("bore for the motor's shaft", spec.motor.shaft_end, "motor.shaft_end"),
        ("bore for the box's shaft", spec.reducer.input_shaft, "reducer.input_shaft"),
    )
    return [_bore(machine, *end) for end in ends]


def _bore(machine: LoadedMachine, name: str, thick: float | None, field: str) -> Check:
    one = machine.spec.motor_drive.coupling
    least, most = one.least_bore, one.greatest_bore
    if thick is None or least is None or most is None:
        why = (
            f"{field}, motor_drive.coupling.least_bore and motor_drive.coupling.greatest_bore are all wanted: "
            "measure the shaft and read the bores on the coupling's sheet"
        )
        return make_unjudged(machine, *_PART, name, why)
    off = max(least - thick, thick - most, 0.0)
    system = machine.system
    span = f"{show(least, 'mm', system)} to {show(most, 'mm', system)}"
    return make_check(
        machine,
        *_PART,
        name,
        demand=off,
        capacity=0.0,
        unit="mm",
        tight=1.0,
        words=(f"a bore of {show(thick, 'mm', system)}", f"bores of {span}"),
        working=lambda i: [
            worked(
                "delta = Max(d_1 - d, d - d_2, 0*d)",
                off,
                "mm",
                d_1=(least, "mm", "motor_drive.coupling.least_bore"),
                d_2=(most, "mm", "motor_drive.coupling.greatest_bore"),
                d=(thick, "mm", field),
            )
        ],
        source="bores: the coupling's sheet",
        reason=lambda i, say: f"shaft {say(thick, 'mm')}, hubs are made with {span}",
        note=lambda i, say: f"Measure {field} again, or take a coupling made for it.",
    )


def _alignment(machine: LoadedMachine) -> Check:
    """Whether both shafts stand as nearly in line as it allows."""
    one, name = machine.spec.motor_drive.coupling, "shafts stand in line"
    if one.offset is None or one.allowed_offset is None:
        why = (
            "motor_drive.coupling.offset and motor_drive.coupling.allowed_offset are wanted: set a dial gauge on one hub, "
            "turn it round the other and take half of what it shows"
        )
        return make_unjudged(machine, *_PART, name, why)
    offset, allowed = one.offset, one.allowed_offset
    return make_check(
        machine,
        *_PART,
        name,
        demand=offset,
        capacity=allowed,
        unit="mm",
        tight=1.0,
        working=lambda i: [as_given("e", offset, "mm", "motor_drive.coupling.offset")],
        source="offset: the coupling's sheet; the same gauge across the hub's face shows the angle, which it allows beside",
        reason=lambda i, say: f"offset {say(offset, 'mm')}, allowed {say(allowed, 'mm')}",
        note=lambda i, say: "Shim and shift the motor until a dial gauge shows less.",
    )
