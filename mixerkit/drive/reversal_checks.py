"""Reversing on the run: the rotor crosses all play and strikes the other flanks, the clay holding the shafts."""

from __future__ import annotations

import numpy as np

from mixerkit.checking import make_check
from mixerkit.checks import Check
from mixerkit.drive import jam
from mixerkit.drive.fuses import fuse_torques
from mixerkit.drive.powerflow import motor_at_slow_end
from mixerkit.parts.reduction import (
    efficiency_given,
    ratio_given,
    reduction_worked,
)
from mixerkit.results import LoadedMachine, Train
from mixerkit.working import Working, by_method, worked

__all__ = ["checks", "reversed_torque"]


def checks(machine: LoadedMachine) -> list[Check]:
    """Check what reversing on the run asks, where the wiring allows it.

    Parameters
    ----------
    machine : LoadedMachine

    Returns
    -------
    list of Check
    """
    if machine.spec.motor.reversing == "from rest":
        return []
    if machine.spec.motor.kind == "capacitor-start":
        return [_runs_on(machine)]
    return [_fuse_holds(machine)]


def reversed_torque(steady: float, stiffness: float, play: float) -> float:
    """Torque in N*m at the slow end when a rotor that was reversed has crossed the play.

    Parameters
    ----------
    steady : float
        The motor's greatest torque in N*m as it arrives at the slow end.
    stiffness : float
        Of what it winds up, in N*m/rad.
    play : float
        In rad.

    Returns
    -------
    float

    References
    ----------
    The motor's work over the play is the rotor's motion, which winds up the train as in
    :func:`mixerkit.drive.jam.stopped_torque`: energy. Shafts that the clay lets go on take less.

    Examples
    --------
    >>> round(reversed_torque(500.0, 20e3, 0.02))
    1306
    """
    return float(steady + np.sqrt(steady**2 + 2 * stiffness * steady * play))


def _hardest(machine: LoadedMachine) -> Train:
    """What takes up the most of it: stiffest, with the most play."""
    found = [
        jam.train(machine.spec, clutch, shaft)
        for clutch, shaft in (("neutral", 1), ("direct", 2), ("idler", 2))
    ]
    return max(found, key=lambda one: one.stiffness * one.play)


def _fuse_holds(machine: LoadedMachine) -> Check:
    """Whether the fuse holds it; without one, whether a jam, by which all parts are judged, is worse."""
    spec, able = machine.spec, machine.power_flow.abilities
    train = _hardest(machine)
    steady = motor_at_slow_end(spec, able.pushing)
    torque = reversed_torque(steady, train.stiffness, train.play)
    least = fuse_torques(spec)[0]
    jammed = machine.load_cases.jammed
    bare = float(machine.power_flow.jam_torque_without_fuse[jammed].min())
    fused = spec.fuse.kind != "none"
    return make_check(
        machine,
        "jam",
        "reversing",
        "nothing gives when it is reversed on the run",
        demand=torque,
        capacity=least if fused else bare,
        unit="N*m",
        working=lambda i: _worked(machine, steady, train, torque),
        source="energy: the motor's work over the play winds up the train; the clay taken as firm",
        reason=lambda i, say: (
            f"{say(steady, 'N*m')} of the motor cross {say(np.degrees(train.play), 'deg')} of play and wind up "
            f"{say(train.stiffness / 1e3, 'kN*m/rad')}; {'the fuse gives at least' if fused else 'every part is judged by a jam of'} "
            f"{say(least if fused else bare, 'N*m')}"
        ),
        fix=lambda i: [{"motor.reversing": "from rest"}, "motor.run_at"],
    )


def _worked(machine: LoadedMachine, steady: float, train: Train, torque: float) -> list[Working]:
    return [
        *reduction_worked(machine.spec),
        worked(
            "T_m = T*i*eta",
            steady,
            "N*m",
            T=(machine.power_flow.abilities.pushing, "N*m", "power flow, greatest of the motor"),
            i=ratio_given(machine.spec),
            eta=efficiency_given(machine.spec),
        ),
        worked(
            "T_r = T_m + sqrt(T_m**2 + 2*k*T_m*phi)",
            torque,
            "N*m",
            T_m=(steady, "N*m", "above"),
            k=(train.stiffness, "N*m/rad", "train of a jam, the stiffest with its play"),
            phi=(
                train.play,
                "rad",
                "reducer.backlash, clutch.angular_play and the slack of a chain",
            ),
        ),
    ]


def _runs_on(machine: LoadedMachine) -> Check:
    """A capacitor-start motor turns on as it was: its start winding is cut off while it runs."""
    return make_check(
        machine,
        "jam",
        "reversing",
        "the motor can be reversed on the run",
        demand=1.0,
        capacity=0.0,
        unit="",
        words=("a motor that reverses on the run", "capacitor-start"),
        tight=1.0,
        working=lambda i: [
            by_method("k", "1 for a motor that does, 0 for capacitor-start", 0.0, "")
        ],
        source="its starting switch closes again only near rest: common practice",
        reason=lambda i, say: (
            "swapped on the run, its start winding stays cut off and it turns on as before: wire it so that it must stand first"
        ),
        fix=lambda i: [{"motor.reversing": "from rest"}],
    )
