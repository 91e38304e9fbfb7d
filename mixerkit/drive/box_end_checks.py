"""Whether motor and shaft 1 fit the ends of the reduction box, and its bores are believable."""

from __future__ import annotations

from mixerkit.checking import make_check
from mixerkit.checks import Check, Say
from mixerkit.drive import box_workings
from mixerkit.drive.reducer import HOLLOW_SHEAR, adapting_bush
from mixerkit.parts import shaft
from mixerkit.parts.flanges import THINNEST_BUSH, box_end
from mixerkit.parts.zones import BOX, seat, seat_set
from mixerkit.results import BoxBush, LoadedMachine

__all__ = ["checks"]

_LOOSE = 0.05
"""By how much in mm a motor's shaft may be thinner than its bore (common practice)."""
_TIGHT = 0.02
"""By how much it may be thicker: k6 in H7 is up to 0.015 mm so up to 30 mm, 0.018 up to 50 (ISO 286-2)."""
_BORE_OVER_SHAFT = 2.0
"""Widest bore over the shaft that a bush is put between (common practice)."""


def checks(machine: LoadedMachine) -> list[Check]:
    """Check the box's fast end against a motor on its flange, its hollow end against shaft 1 and its torque.

    Parameters
    ----------
    machine : LoadedMachine

    Returns
    -------
    list of Check
    """
    spec = machine.spec
    bush = adapting_bush(
        spec.reducer.output_bore, seat(spec, 1, BOX), keyed=spec.fuse.kind == "none"
    )
    return [
        *([_fast_end(machine)] if spec.motor_drive.kind == "flange" else []),
        _slow_end(machine, bush),
        _bore_beside_shaft(machine),
        _bore_beside_torque(machine),
        *([_bush_wall(machine, bush)] if bush.wall > 0 else []),
    ]


def _fast_end(machine: LoadedMachine) -> Check:
    """Whether the motor's shaft fits the bore at the fast end."""
    end, bore = machine.spec.motor.shaft_end, machine.spec.reducer.input_bore
    gap = bore - end
    # a shaft that is thicker does not go in, one that is thinner only fits badly
    off = max(gap, -gap * _LOOSE / _TIGHT)
    return make_check(
        machine,
        "reducer",
        "fast end",
        "motor's shaft fits the bore at the fast end",
        demand=off,
        capacity=_LOOSE,
        unit="mm",
        working=lambda i: box_workings.fast_end(machine, off, _LOOSE, _TIGHT),
        source="sizes as measured; 0.05 mm loose, or 0.02 mm tight as k6 in H7 is at most (ISO 286-2): common practice",
        reason=lambda i, say: (
            f"shaft {say(end, 'mm')}, bore {say(bore, 'mm')}: measure the end the "
            "motor goes on, not the hollow slow end"
        ),
        fix=lambda i: ["motor", "reducer"],
        note=lambda i, say: "Measure both again: motor.shaft_end and reducer.input_bore.",
    )


def _measure_again(_i: int, _say: Say) -> str:
    return "Measure reducer.output_bore again."


def _slow_end(machine: LoadedMachine, bush: BoxBush) -> Check:
    """Whether shaft 1 goes into the hollow slow end."""
    thick, bore = seat(machine.spec, 1, BOX), machine.spec.reducer.output_bore
    return make_check(
        machine,
        "reducer",
        "slow end",
        "shaft 1 goes into the hollow slow end",
        demand=thick,
        capacity=bore,
        unit="mm",
        working=lambda i: box_workings.slow_end(machine),
        tight=1.0,
        source="sizes as measured",
        reason=lambda i, say: (
            f"shaft {say(thick, 'mm')}, bore {say(bore, 'mm')}, so a bush wall "
            f"of {say(bush.wall, 'mm')}: {bush.words}"
        ),
        fix=lambda i: [*box_end(machine.spec, bore, machine.system), "reducer"],
        note=_measure_again,
    )


def _bore_beside_shaft(machine: LoadedMachine) -> Check:
    """Whether the bore of the hollow end is believable beside shaft 1."""
    thick, bore = seat(machine.spec, 1, BOX), machine.spec.reducer.output_bore
    most = _BORE_OVER_SHAFT * thick
    return make_check(
        machine,
        "reducer",
        "slow end",
        "bore is of shaft 1's size",
        demand=bore,
        capacity=most,
        unit="mm",
        working=lambda i: box_workings.most_bore(machine, _BORE_OVER_SHAFT, most),
        tight=1.0,
        source="a bush that makes up for half of the bore at most: common practice",
        reason=lambda i, say: f"shaft {say(thick, 'mm')} in a bore of {say(bore, 'mm')}",
        fix=lambda i: [
            "reducer",
            seat_set(machine.spec, 1, BOX, bore / _BORE_OVER_SHAFT, machine.system),
        ],
        note=_measure_again,
    )


def _bore_beside_torque(machine: LoadedMachine) -> Check:
    """Whether the bore of the hollow end is believable beside the box's torque."""
    box = machine.spec.reducer
    widest = float(shaft.diameter_for_torsion.formula(box.rated_torque, HOLLOW_SHEAR))
    return make_check(
        machine,
        "reducer",
        "slow end",
        "bore is that of a box for its torque",
        demand=box.output_bore,
        capacity=widest,
        unit="mm",
        working=lambda i: box_workings.widest_bore(machine, HOLLOW_SHEAR, widest),
        tight=1.0,
        source="16 T / (pi d^3) of a shaft that fills the bore, 10 MPa at least under rated torque: common practice",
        reason=lambda i, say: (
            f"bore {say(box.output_bore, 'mm')} and a rated torque of {say(box.rated_torque, 'N*m')}: a shaft that fills it "
            "would be all but idle, and a box so large is rated for far more"
        ),
        fix=lambda i: ["reducer"],
        note=lambda i, say: (
            "reducer.output_bore and reducer.rated_torque stand against each other: measure the bore again and read the plate."
        ),
    )


def _bush_wall(machine: LoadedMachine, bush: BoxBush) -> Check:
    """Whether the wall of the bush between bore and shaft stays round."""
    thick, bore = seat(machine.spec, 1, BOX), machine.spec.reducer.output_bore
    return make_check(
        machine,
        "reducer",
        "adapting bush",
        "wall of the adapting bush",
        demand=THINNEST_BUSH,
        capacity=bush.wall,
        unit="mm",
        working=lambda i: box_workings.bush_wall(machine, bush.wall),
        source="thinnest wall that stays round: common practice",
        reason=lambda i, say: f"({say(bore, 'mm')} - {say(thick, 'mm')}) / 2",
        fix=lambda i: [
            *box_end(machine.spec, bore, machine.system),
            *box_end(machine.spec, bore - 2 * THINNEST_BUSH, machine.system),
            "reducer",
        ],
        note=_measure_again,
    )
