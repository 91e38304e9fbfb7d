"""Whether a roller chain fits its sprockets, lasts, and what it does to both shafts."""

from __future__ import annotations

from math import pi

from mixerkit.checking import make_check
from mixerkit.checks import Change, Check
from mixerkit.drive import chain_workings, fuses
from mixerkit.drive.chain_set import WORN, ChainSet, chain_set
from mixerkit.drive.motor_drive import wheels
from mixerkit.drive.pull_checks import pull_checks, wrap_check
from mixerkit.results import LoadedMachine
from mixerkit.working import as_given

__all__ = ["checks"]

_PART = ("motor drive", "chain")
_TEETH = 17
_SPEED = 7.0
"""Greatest speed in m/s of a chain that is oiled by drops (common practice)."""
_STATIC = 7.0
"""Breaking force over the greatest pull (common practice of makers of chains)."""
_YIELDS = 0.5
"""Share of its breaking force at which a chain stays longer than it was (common practice)."""
_LARGER_TEETH = ("motor_drive.chain.motor_teeth", "motor_drive.chain.box_teeth")


def checks(machine: LoadedMachine) -> list[Check]:
    """Check the chain.

    Parameters
    ----------
    machine : LoadedMachine

    Returns
    -------
    list of Check
        Only that the sprockets are to stand apart, where they stand in each other.
    """
    apart = _apart(machine)
    if not wheels(machine.spec).clear:
        return [apart]
    found = chain_set(machine)
    return [
        apart,
        wrap_check(
            machine,
            _PART,
            "sprocket",
            found.both,
            lambda: chain_workings.wrap(found),
            ["motor_drive.chain.centre_distance", *_LARGER_TEETH],
            "120 deg: common practice",
        ),
        _teeth(machine, found),
        _speed(machine, found),
        _is_made(machine, found),
        _lasts(machine, found),
        _static(machine, found),
        _in_a_jam(machine, found),
        *pull_checks(
            machine,
            found.across,
            chain_workings.across(machine, found),
            [_more_teeth(machine)],
            "1.25 of the pull in the chain, with the service factor: common practice",
        ),
    ]


def _more_teeth(machine: LoadedMachine) -> Change:
    """Half as many teeth again on both: the same torque then pulls less."""
    one = machine.spec.motor_drive.chain
    return dict(zip(_LARGER_TEETH, (one.motor_teeth * 3 // 2, one.box_teeth * 3 // 2), strict=True))


def _apart(machine: LoadedMachine) -> Check:
    both, one = wheels(machine.spec), machine.spec.motor_drive.chain
    pitch = both.row["pitch"]
    least = (both.motor + both.box) / 2 + pitch
    return make_check(
        machine,
        *_PART,
        "sprockets clear each other",
        demand=least,
        capacity=one.centre_distance,
        unit="mm",
        tight=1.0,
        working=lambda i: chain_workings.apart(machine, both, least),
        source="a tooth and a link stand out half a pitch on either: geometry",
        reason=lambda i, say: f"sprockets of {say(both.motor, 'mm')} and {say(both.box, 'mm')}",
        fix=lambda i: [{"motor_drive.chain.centre_distance": max(least, 40 * pitch)}],
    )


def _teeth(machine: LoadedMachine, found: ChainSet) -> Check:
    one = machine.spec.motor_drive.chain
    place = _LARGER_TEETH[one.motor_teeth > one.box_teeth]
    return make_check(
        machine,
        *_PART,
        "teeth of the smaller sprocket",
        demand=_TEETH,
        capacity=found.few,
        unit="",
        tight=1.0,
        working=lambda i: [as_given("z", found.few, "", place)],
        source="17 teeth, below which a chain jerks: Shigley 10th ed., ch. 17 (from memory)",
        reason=lambda i, say: f"{one.motor_teeth} teeth drive {one.box_teeth}",
        fix=lambda i: [{place: _TEETH}, _more_teeth(machine)],
    )


def _speed(machine: LoadedMachine, found: ChainSet) -> Check:
    return make_check(
        machine,
        *_PART,
        "speed of the chain",
        demand=found.speed,
        capacity=_SPEED,
        unit="m/s",
        tight=1.0,
        working=lambda i: chain_workings.speed(machine, found),
        source="7 m/s of a chain oiled by drops: common practice",
        reason=lambda i, say: (
            f"a sprocket of {say(found.both.motor, 'mm')} in step with the field; faster, it wants a bath of oil"
        ),
        fix=lambda i: [
            "motor_drive.chain.motor_teeth",
            "motor_drive.chain.size",
            "motor.run_at",
            "motor",
        ],
    )


def _is_made(machine: LoadedMachine, found: ChainSet) -> Check:
    """Whether the slots let the motor be moved to where an even count of links is tight, new and worn."""
    drive, pitch = machine.spec.motor_drive, found.both.row["pitch"]
    return make_check(
        machine,
        *_PART,
        "an even count of links fits within the take-up",
        demand=found.moved,
        capacity=drive.take_up,
        unit="mm",
        tight=1.0,
        working=lambda i: chain_workings.moved(machine, found),
        source="an odd count wants a cranked link, which is weak; 2 % of wear: common practice",
        reason=lambda i, say: (
            f"{found.exact:.1f} links of {say(pitch, 'mm')}, so {found.even} and {say(found.centre, 'mm')} apart"
        ),
        fix=lambda i: [
            {"motor_drive.chain.centre_distance": found.centre},
            {
                "motor_drive.chain.centre_distance": found.centre,
                "motor_drive.take_up": WORN * found.even * pitch,
            },
            {"motor_drive.take_up": found.moved},
        ],
    )


def _lasts(machine: LoadedMachine, found: ChainSet) -> Check:
    """Whether link plates, rollers and bushes last under the power."""
    flow, drive = machine.power_flow, machine.spec.motor_drive
    field = flow.abilities.field
    power = flow.torque_at_motor * field * pi / 30 / 1e3
    return make_check(
        machine,
        *_PART,
        "power of the chain",
        where=machine.load_cases.mixing,
        demand=power,
        capacity=found.power,
        unit="kW",
        safety=drive.service_factor,
        working=lambda i: chain_workings.power(machine, found, float(power[i]), i),
        source="Shigley 10th ed., eqs. 17-32 and 17-33 (from memory); service factor: common practice",
        reason=lambda i, say: (
            f"{drive.chain.strands} strand(s) of {drive.chain.size}, {found.few} teeth at {say(found.small_speed, 'rpm')}"
        ),
        fix=lambda i: ["motor_drive.chain.strands", _more_teeth(machine), "motor_drive.chain.size"],
    )


def _static(machine: LoadedMachine, found: ChainSet) -> Check:
    return make_check(
        machine,
        *_PART,
        "breaking force over its pull",
        demand=found.force,
        capacity=found.breaks,
        unit="N",
        safety=_STATIC,
        working=lambda i: [
            chain_workings.greatest_force(found),
            chain_workings.breaks(machine, found),
        ],
        source="ISO 606, table 1 (from memory); factor of 7: common practice",
        reason=lambda i, say: (
            f"greatest pull of mixing and starting on {say(found.both.motor, 'mm')}"
        ),
        fix=lambda i: ["motor_drive.chain.strands", _more_teeth(machine), "motor_drive.chain.size"],
    )


def _in_a_jam(machine: LoadedMachine, found: ChainSet) -> Check:
    flow, jammed = machine.power_flow, machine.load_cases.jammed
    force, stays = flow.torque_at_motor * 2e3 / found.both.motor, _YIELDS * found.breaks
    most = float(force[jammed].max())
    box_feels = float(flow.torque_at_box_output[jammed].max())
    return make_check(
        machine,
        *_PART,
        "pull in a jam",
        where=jammed,
        demand=force,
        capacity=stays,
        unit="N",
        rung=(1.0, 1 / _YIELDS),
        working=lambda i: chain_workings.jam_force(
            machine, found, float(force[i]), _YIELDS, stays, i
        ),
        source="breaking force: ISO 606, table 1 (from memory); it stays longer from half of that on: common practice",
        reason=lambda i, say: f"{say(flow.torque_at_motor[i], 'N*m')} at the motor's sprocket",
        fix=lambda i: [
            "motor_drive.chain.strands",
            _more_teeth(machine),
            "motor_drive.chain.size",
            *fuses.weaker_fuse(machine.spec, box_feels * stays / most),
        ],
    )
