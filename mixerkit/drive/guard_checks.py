"""Whether the lid and the guards keep hands away from what turns."""

from __future__ import annotations

import numpy as np

from mixerkit.checking import make_check, make_unjudged
from mixerkit.checks import Check
from mixerkit.drive import guarding, motor
from mixerkit.drive.motor_drive import PULLED, rim_speed
from mixerkit.results import LoadedMachine
from mixerkit.working import Working, by_method, worked

__all__ = ["checks"]


def checks(machine: LoadedMachine) -> list[Check]:
    """Check the lid, the openings in guards, and the guard round belts or a chain.

    Parameters
    ----------
    machine : LoadedMachine

    Returns
    -------
    list of Check
    """
    pulled = machine.spec.motor_drive.kind in PULLED
    return [_lid(machine), _openings(machine), *([_nip(machine)] if pulled else [])]


def _lid(machine: LoadedMachine) -> Check:
    """Whether the paddles rest before a hand is under the lid."""
    spec = machine.spec
    guard, stops = spec.guard, guarding.stopping_time(spec)
    how = "as measured" if guard.time_to_stop else "reckoned: time it on the machine"
    near = float(guarding.approach_distance.formula(stops))
    locked = guard.lid == "interlocked and locked until rest"
    asked = 0.0 if locked else near if guard.lid == "interlocked" else np.inf
    name = "paddles rest before a hand is there"
    lock = {"guard.lid": "interlocked and locked until rest"}
    # where the motor does not turn, how long it runs on cannot be reckoned from its speed
    unknown = guard.lid == "interlocked" and not guard.time_to_stop and machine.running_speed <= 0
    return (
        make_unjudged(machine, "guards", "lid", name, motor.STANDS)
        if unknown
        else make_check(
            machine,
            "guards",
            "lid",
            name,
            demand=asked,
            capacity=guard.lid_distance,
            unit="mm",
            working=lambda i: _lid_worked(stops, near, asked),
            tight=1.0,
            source="ISO 13855, K = 1600 mm/s (from memory); interlock: ISO 14119",
            reason=lambda i, say: (
                f"the empty machine runs {say(stops, 's')} after the lid opens ({how}); "
                + ("the lid stays locked until rest" if locked else f"lid: {guard.lid}")
            ),
            fix=lambda i: (
                [lock, {"guard.lid_distance": near}] if guard.lid == "interlocked" else [lock]
            ),
            note=lambda i, say: (
                ""
                if guard.time_to_stop
                else "Time the run-down on the machine and put it in guard.time_to_stop."
            ),
        )
    )


def _openings(machine: LoadedMachine) -> Check:
    """Whether what moves is out of reach behind the openings in guards."""
    guard = machine.spec.guard
    far, limb = guarding.reach(guard.opening_shape, guard.opening)
    return make_check(
        machine,
        "guards",
        "guards",
        "nothing moving within reach of an opening",
        demand=far,
        capacity=guard.opening_distance,
        unit="mm",
        working=lambda i: _reach_worked(machine, far),
        tight=1.0,
        source="ISO 13857, table 4, persons of 14 years and above",
        reason=lambda i, say: (
            f"{guard.opening_shape} opening of {say(guard.opening, 'mm')}: {limb} reaches through"
        ),
        fix=lambda i: (
            ([{"guard.opening_distance": far}] if np.isfinite(far) else []) + ["guard.opening"]
        ),
        note=lambda i, say: (
            ""
            if np.isfinite(far)
            else "A whole body passes an opening so large: it must be closed."
        ),
    )


def _nip(machine: LoadedMachine) -> Check:
    """Whether a hand stays out of the nips where belts or a chain run on to their wheels."""
    one = machine.spec.motor_drive
    speed = rim_speed(machine.spec, machine.power_flow.abilities.field)
    far, limb = guarding.reach("slot", one.guard_opening)
    closed = one.guard == "fixed, closed all round"
    asked = 0.0 if closed else far if one.guard == "fixed, with openings" else np.inf
    close = {"motor_drive.guard": "fixed, closed all round"}
    open_ = {"motor_drive.guard": "fixed, with openings", "motor_drive.guard_distance": far}
    return make_check(
        machine,
        "guards",
        f"{one.kind} between motor and box",
        "no hand reaches where it runs on to its wheels",
        demand=asked,
        capacity=one.guard_distance,
        unit="mm",
        working=lambda i: [
            by_method(
                "s_r",
                "none behind a guard closed all round; no distance is enough without one; else the row of "
                "data/tables/guard_openings.csv by the opening, column slot, the longest reach",
                asked,
                "mm",
                source="ISO 13857, table 4",
                e=(one.guard_opening, "mm", "motor_drive.guard_opening"),
            )
        ],
        tight=1.0,
        source="in-running nips behind a fixed guard: ISO 14120; reach: ISO 13857, table 4, persons of 14 years and above",
        reason=lambda i, say: (
            f"it runs in at {say(speed, 'm/s')}, far faster than a hand draws back; guard: {one.guard}"
            + (
                f", {limb} reaches through {say(one.guard_opening, 'mm')}"
                if one.guard == "fixed, with openings"
                else ""
            )
        ),
        fix=lambda i: [close, *([open_] if np.isfinite(far) else [])],
    )


def _lid_worked(stops: float, near: float, asked: float) -> list[Working]:
    """Say how far off a lid must be that is not locked until rest."""
    if asked != near:
        rule = "none where the lid stays locked until rest; no distance is enough where it is not interlocked"
        return [by_method("S", rule, asked, "mm")]
    return [
        worked(
            "S = K*T",
            near,
            "mm",
            K=(guarding.HAND_SPEED, "mm/s", "ISO 13855 (from memory)"),
            T=(stops, "s", "time to rest: guard.response_time and run-down"),
        )
    ]


def _reach_worked(machine: LoadedMachine, far: float) -> list[Working]:
    """Say where the reach through an opening was read."""
    guard = machine.spec.guard
    return [
        by_method(
            "s_r",
            f"row of data/tables/guard_openings.csv by the opening, column {guard.opening_shape}; no distance "
            "is enough beyond the table",
            far,
            "mm",
            source="ISO 13857, table 4",
            e=(guard.opening, "mm", "guard.opening"),
        )
    ]
