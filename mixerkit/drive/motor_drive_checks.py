"""Whether what sits between motor and box carries the torque, and both shaft ends what it does to them."""

from __future__ import annotations

from math import pi

from mixerkit.checking import make_check, make_unjudged
from mixerkit.checks import Check
from mixerkit.drive import belt_checks, chain_checks, coupling_checks
from mixerkit.results import Array, LoadedMachine
from mixerkit.working import by_method, worked

__all__ = ["checks"]

STAGE = "motor drive"
_KEYED = 40.0
"""Shear in MPa of a keyed shaft end of mild steel: ASME's old code for transmission shafting (from memory)."""


def checks(machine: LoadedMachine) -> list[Check]:
    """Check what sits between motor and box.

    Parameters
    ----------
    machine : LoadedMachine

    Returns
    -------
    list of Check
    """
    kind = machine.spec.motor_drive.kind
    at_motor = _turned(
        machine,
        "motor's shaft end",
        (machine.spec.motor.shaft_end, "motor.shaft_end"),
        machine.power_flow.torque_at_motor,
        "power flow, torque at the motor",
    )
    if kind == "flange":
        return [at_motor]
    own = {
        "elastic coupling": coupling_checks.checks,
        "V-belt": belt_checks.checks,
        "chain": chain_checks.checks,
    }[kind]
    return [at_motor, _box_shaft(machine), _stands(machine), *own(machine)]


def _turned(
    machine: LoadedMachine, part: str, size: tuple[float, str], torque: Array, origin: str
) -> Check:
    """Whether a shaft end, given its diameter in mm and its field, bears the torque in N*m that it turns with."""
    thick, field = size
    allowed = pi * thick**3 / 16 * _KEYED / 1e3
    return make_check(
        machine,
        STAGE,
        part,
        "torque through its keyed end",
        demand=torque,
        capacity=allowed,
        unit="N*m",
        working=lambda i: [
            by_method("T", origin, float(torque[i]), "N*m"),
            worked(
                "T_max = pi*d**3*tau/16",
                allowed,
                "N*m",
                d=(thick, "mm", field),
                tau=(_KEYED, "MPa", "ASME code for transmission shafting (from memory)"),
            ),
        ],
        source="tau = 16 T / (pi d^3); 40 MPa in a keyed end of mild steel: ASME code for transmission shafting (from memory)",
        reason=lambda i, say: f"{say(torque[i], 'N*m')} in an end of {say(thick, 'mm')}",
        fix=lambda i: ["motor", "reducer"],
        note=lambda i, say: f"Measure {field} again.",
    )


def _box_shaft(machine: LoadedMachine) -> Check:
    """Whether the box has a solid shaft to put a wheel or a hub on, and it bears the torque."""
    part, thick = "box's fast end", machine.spec.reducer.input_shaft
    if thick is None:
        return make_unjudged(
            machine,
            STAGE,
            part,
            "torque through its keyed end",
            "reducer.input_shaft is not given: without a flange the box needs a solid shaft at its fast end; measure it, "
            'for example input_shaft = "24 mm"',
        )
    return _turned(
        machine,
        part,
        (thick, "reducer.input_shaft"),
        machine.power_flow.into_box[1],
        "power flow, torque at the box's fast end",
    )


def _stands(machine: LoadedMachine) -> Check:
    """Whether the motor goes with the box: one on the frame pulls the box, and with it shaft 1, aside."""
    on_box = float(machine.spec.motor_drive.motor_stands == "on the box")
    return make_check(
        machine,
        STAGE,
        "motor",
        "stands on what the box stands on",
        demand=1.0,
        capacity=on_box,
        unit="",
        words=("a motor that is carried by the box", machine.spec.motor_drive.motor_stands),
        tight=1.0,
        working=lambda i: [
            by_method("k", "1 for a motor that the box carries, 0 for one on the frame", on_box, "")
        ],
        source="a box on a hollow shaft gives and turns with its shaft: common practice",
        reason=lambda i, say: (
            "the box hangs on shaft 1 and moves with it; a motor that stands apart pulls it aside and out of line"
        ),
        fix=lambda i: [{"motor_drive.motor_stands": "on the box"}],
    )
