"""Whether V-belts fit their pulleys, grip, last, and what they do to both shafts."""

from __future__ import annotations

from mixerkit.checking import make_check
from mixerkit.checks import Change, Check
from mixerkit.drive import belt_workings, fuses
from mixerkit.drive.belt_set import NEW_BELT, BeltSet, belt_set
from mixerkit.drive.motor_drive import wheels
from mixerkit.drive.pull_checks import pull_checks, wrap_check
from mixerkit.results import LoadedMachine

__all__ = ["checks"]

_PART = ("motor drive", "belts")
_APART = 0.7
"""Least distance of the middles over the sum of both pulleys (common practice)."""


def checks(machine: LoadedMachine) -> list[Check]:
    """Check the belts.

    Parameters
    ----------
    machine : LoadedMachine

    Returns
    -------
    list of Check
        Only that the pulleys are to stand apart, where they stand in each other.
    """
    apart = _apart(machine)
    if not wheels(machine.spec).clear:
        return [apart]
    found = belt_set(machine)
    return [
        apart,
        wrap_check(
            machine,
            _PART,
            "pulley",
            found.both,
            lambda: [belt_workings.wrap(found)],
            [
                f"motor_drive.belt.{one}"
                for one in ("centre_distance", "motor_pulley", "box_pulley")
            ],
            "120 deg: common practice; wrap: Shigley 10th ed., eq. 17-1 (from memory)",
        ),
        _bends(machine, found),
        _speed(machine, found),
        _is_made(machine, found),
        _grips(machine, found),
        _grips_in_a_jam(machine, found),
        _lasts(machine, found),
        *pull_checks(
            machine,
            found.across,
            [
                belt_workings.pull_across(machine, found),
                belt_workings.tension(machine, found),
                belt_workings.wrap(found),
            ],
            [_larger("motor", found), _larger("box", found), "motor_drive.belt.tension"],
            "2 T0 sin(wrap / 2), new belts drawn up 1.3 times: Shigley 10th ed., ch. 17 in spirit (from memory), common practice",
        ),
    ]


def _larger(end: str, found: BeltSet) -> Change:
    """A larger pulley at one end, its mate in proportion: the same torque then pulls less."""
    size = found.both.motor if end == "motor" else found.both.box
    other = found.both.box if end == "motor" else found.both.motor
    mate = "box" if end == "motor" else "motor"
    return {
        f"motor_drive.belt.{end}_pulley": 1.3 * size,
        f"motor_drive.belt.{mate}_pulley": 1.3 * other,
    }


def _apart(machine: LoadedMachine) -> Check:
    both, one = wheels(machine.spec), machine.spec.motor_drive.belt
    least = _APART * (both.motor + both.box)
    return make_check(
        machine,
        *_PART,
        "pulleys stand far enough apart",
        demand=least,
        capacity=one.centre_distance,
        unit="mm",
        tight=1.0,
        working=lambda i: [belt_workings.least_apart(machine, _APART, least)],
        source="0.7 of the sum of both pulleys: common practice",
        reason=lambda i, say: f"pulleys of {say(both.motor, 'mm')} and {say(both.box, 'mm')}",
        fix=lambda i: [{"motor_drive.belt.centre_distance": least}],
    )


def _bends(machine: LoadedMachine, found: BeltSet) -> Check:
    one, least = machine.spec.motor_drive.belt, found.both.row["least_pulley"]
    small = "motor" if found.both.motor <= found.both.box else "box"
    return make_check(
        machine,
        *_PART,
        "smallest pulley for its section",
        demand=least,
        capacity=found.both.small,
        unit="mm",
        tight=1.0,
        working=lambda i: [
            belt_workings.of_section(machine, "d_min", "least_pulley", "mm"),
        ],
        source="least datum diameter: ISO 4183 (from memory), data/tables/belt_sections.csv",
        reason=lambda i, say: (
            f"section {one.section}; round a smaller pulley a belt bends too sharply and breaks from within"
        ),
        fix=lambda i: [
            {f"motor_drive.belt.{small}_pulley": least},
            _larger(small, found),
            "motor_drive.belt.section",
        ],
    )


def _speed(machine: LoadedMachine, found: BeltSet) -> Check:
    one, most = machine.spec.motor_drive.belt, found.both.row["speed"]
    return make_check(
        machine,
        *_PART,
        "speed of the belts",
        demand=found.speed,
        capacity=most,
        unit="m/s",
        working=lambda i: [belt_workings.speed(machine, found)],
        tight=1.0,
        source="greatest speed of the section: common practice, data/tables/belt_sections.csv",
        reason=lambda i, say: (
            f"section {one.section}; the motor's pulley of {say(found.both.motor, 'mm')} in step with the field"
        ),
        fix=lambda i: ["motor_drive.belt.motor_pulley", "motor.run_at", "motor"],
    )


def _is_made(machine: LoadedMachine, found: BeltSet) -> Check:
    """Whether the slots let the motor be moved to where a belt that is made is tight."""
    drive = machine.spec.motor_drive
    return make_check(
        machine,
        *_PART,
        "a belt that is made fits within the take-up",
        demand=found.moved,
        capacity=drive.take_up,
        unit="mm",
        tight=1.0,
        working=lambda i: belt_workings.moved(found),
        source="lengths: ISO 4184 (from memory), data/tables/belt_lengths.csv; 1.5 % for stretching: common practice",
        reason=lambda i, say: (
            f"{say(found.both.length, 'mm')} wanted, the nearest that is made is {say(found.bought, 'mm')}"
        ),
        fix=lambda i: [
            {"motor_drive.take_up": found.moved},
            "motor_drive.belt.centre_distance",
        ],
    )


def _grips(machine: LoadedMachine, found: BeltSet) -> Check:
    """Whether the belts slip neither while mixing nor at a start."""
    flow, cases, drive = machine.power_flow, machine.load_cases, machine.spec.motor_drive
    wanted = found.tension * max(drive.service_factor * found.asked / max(found.slips, 1e-3), 1.0)
    return make_check(
        machine,
        *_PART,
        "grip while mixing and starting",
        where=cases.mixing | cases.starting,
        demand=flow.torque_at_motor,
        capacity=found.slips,
        unit="N*m",
        safety=drive.service_factor,
        tight=1.0,
        working=lambda i: belt_workings.slips(machine, found),
        source="Eytelwein's law with the least friction: Shigley 10th ed., eq. 17-9 (from memory); service factor: common practice",
        reason=lambda i, say: (
            f"{drive.belt.belts} belts drawn to {say(found.tension, 'N')} a strand, friction in the groove {drive.belt.friction_low:g} "
            "at least"
        ),
        fix=lambda i: [
            {"motor_drive.belt.tension": wanted},
            "motor_drive.belt.belts",
            _larger("motor", found),
        ],
    )


def _grips_in_a_jam(machine: LoadedMachine, found: BeltSet) -> Check:
    """Whether the belts hold a jam until something else gives; where they slip, they are a step of the ladder."""
    flow, cases, drive = machine.power_flow, machine.load_cases, machine.spec.motor_drive
    peak = float(flow.torque_at_motor[cases.jammed].max())
    box_feels = float(flow.torque_at_box_output[cases.jammed].max())
    return make_check(
        machine,
        *_PART,
        "grip in a jam",
        where=cases.jammed,
        demand=flow.torque_at_motor,
        capacity=found.slips,
        unit="N*m",
        rung=(1.0, found.slips_at_most / found.slips) if found.slips > 0 else None,
        working=lambda i: belt_workings.slips(machine, found),
        source="Eytelwein's law with the least friction: Shigley 10th ed., eq. 17-9 (from memory); a belt that slips in a jam burns "
        "through, and what it lets through is not known: common practice",
        reason=lambda i, say: (
            f"they slip somewhere between {say(found.slips, 'N*m')} at the motor, worn and damp, and "
            f"{say(found.slips_at_most, 'N*m')}, new and dry; no part is spared on their account"
        ),
        fix=lambda i: [
            {"motor_drive.belt.tension": found.tension * peak / max(found.slips, 1e-3)},
            "motor_drive.belt.belts",
            _larger("motor", found),
            *fuses.weaker_fuse(machine.spec, box_feels * found.slips / peak),
        ],
        note=lambda i, say: (
            f"New belts are drawn up {NEW_BELT:g} times as much: measure the tension by the span's give, not by feel, and set "
            f"motor_drive.belt.tension (service factor now {drive.service_factor:g})."
        ),
    )


def _lasts(machine: LoadedMachine, found: BeltSet) -> Check:
    wanted = machine.spec.batch.life_hours
    return make_check(
        machine,
        *_PART,
        "life of the belts",
        demand=wanted,
        capacity=found.hours,
        unit="h",
        working=lambda i: belt_workings.life(machine, found),
        source="Shigley 10th ed., eqs. 17-27 and 17-28, no more than 1e9 passes (from memory)",
        reason=lambda i, say: (
            f"tight strand {say(found.tight, 'N')} and bending round {say(found.both.small, 'mm')} and {say(found.both.large, 'mm')}, "
            f"{say(found.speed, 'm/s')}"
        ),
        fix=lambda i: [
            "motor_drive.belt.belts",
            _larger("motor", found),
            "motor_drive.belt.section",
            "motor_drive.belt.tension",
        ],
    )
