"""What gives way first: every part's torque at yield and at break in one ladder, and the fuse's place in it."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from mixerkit.checking import make_check, make_unjudged
from mixerkit.checks import Change, Check
from mixerkit.drive import fuse_workings, jam_workings
from mixerkit.drive.fuses import (
    fuse_torques,
    pin_for_torque,
    pins_yield,
    shear_pin_torque,
    weaker_fuse,
)
from mixerkit.drive.ladder import Rung, ladder, wanted_fuse
from mixerkit.drive.motor import STANDS
from mixerkit.drive.remedies import LESS_CLAY
from mixerkit.results import LoadedMachine
from mixerkit.tables import table

__all__ = ["checks", "start_checks"]


def start_checks(machine: LoadedMachine) -> list[Check]:
    """Check that the fuse, where there is one, holds at every start and its pins find room.

    Parameters
    ----------
    machine : LoadedMachine

    Returns
    -------
    list of Check
    """
    one, flow, factor = machine.spec.fuse, machine.power_flow, machine.spec.safety.fuse_over_start
    if one.kind == "none":
        return []
    least, most = fuse_torques(machine.spec)
    needed = float(flow.torque_at_box_output[machine.load_cases.starting].max()) * factor
    return [
        make_check(
            machine,
            "jam",
            "fuse",
            "fuse holds at every start",
            where=machine.load_cases.starting,
            demand=flow.torque_at_box_output,
            capacity=least,
            unit="N*m",
            working=lambda i: fuse_workings.fuse_at_start(machine, i),
            safety=factor,
            source="least torque within its scatter; factor: common practice",
            reason=lambda i, say: (
                f"{one.kind}, {say(least, 'N*m')} to {say(most, 'N*m')} with a scatter of {100 * one.scatter:g} %"
            ),
            fix=lambda i: [
                *weaker_fuse(machine.spec, needed * (1 + one.scatter) / (1 - one.scatter)),
                *LESS_CLAY,
            ],
            note=lambda i, say: (
                "Pins cut from one bar, one of them broken on purpose, narrow fuse.scatter: measure it."
            ),
        ),
        *(
            [_pins_stay_straight(machine), *_pins_find_room(machine)]
            if one.kind == "shear pin"
            else []
        ),
    ]


def _pins_stay_straight(machine: LoadedMachine) -> Check:
    """Whether the pins spring back from every start: a pin that is bent each time soon gives for nothing."""
    one, flow = machine.spec.fuse, machine.power_flow
    bends = pins_yield(machine.spec)
    needed = float(flow.torque_at_box_output[machine.load_cases.starting].max())
    pin = one.pin_diameter * np.sqrt(needed / bends)
    # of the bar that yields late and breaks soon after
    rows = sorted(
        (row.values for row in table("materials")),
        key=lambda row: -row["yield_strength"] / row["tensile_strength"],
    )
    now = table("materials").find(one.pin_material).values["yield_strength"]
    others = [
        {
            "fuse.pin_material": row["name"],
            "fuse.pin_diameter": pin * np.sqrt(now / row["yield_strength"]),
        }
        for row in rows[:3]
        if row["name"] != one.pin_material
    ]
    return make_check(
        machine,
        "jam",
        "fuse",
        "pins do not bend at starts",
        where=machine.load_cases.starting,
        demand=flow.torque_at_box_output,
        capacity=bends,
        unit="N*m",
        working=lambda i: fuse_workings.pins_bend(machine, bends, i),
        tight=1.0,
        source="shear yield of the least yield strength, over the root of three: von Mises",
        reason=lambda i, say: (
            f"{one.pin_material}, pin {say(one.pin_diameter, 'mm')}: yields at {say(now, 'MPa')}; "
            "cold drawn bar yields late and breaks soon after, hot rolled bar yields at little more than half"
        ),
        fix=lambda i: [
            {"fuse.pin_diameter": pin},
            *others,
            {
                "fuse.kind": "torque limiter",
                "fuse.setting": needed * machine.spec.safety.fuse_over_start / (1 - one.scatter),
            },
            *LESS_CLAY,
        ],
    )


EDGE = 1.5
"""From a pin's middle to the edge of the metal round it, in pins (common practice)."""


def _pins_find_room(machine: LoadedMachine) -> list[Check]:
    """Whether the circle of the pins lies outside the box's hollow end and inside of shaft 2.

    The flanges that the pins go through sit on the hollow end and on shaft 1, and turn beside shaft 2.
    """
    spec, one = machine.spec, machine.spec.fuse
    first, second = (
        max(shaft.diameter, *shaft.step_diameters, 0.0) for shaft in (spec.shaft_1, spec.shaft_2)
    )
    inside, rim = max(first, spec.reducer.output_bore) / 2, EDGE * one.pin_diameter
    apart = spec.housing.centre_distance
    free = apart - second / 2 - spec.safety.tip_clearance
    strength = table("materials").find(one.pin_material).values["tensile_strength"]
    middle = shear_pin_torque.formula(
        one.pin_diameter, one.pin_radius, strength, one.pins, one.planes
    )

    def moved(radius: float) -> list[Change]:
        """The pins on another radius, alone, and with the diameter that gives at the torque they have now."""
        if not radius > 0:
            return []
        pin = float(pin_for_torque.formula(float(middle), radius, strength, one.pins, one.planes))
        return [{"fuse.pin_radius": radius, "fuse.pin_diameter": pin}, {"fuse.pin_radius": radius}]

    return [
        make_check(
            machine,
            "jam",
            "fuse",
            "pins lie outside shaft and bore",
            demand=inside + rim,
            capacity=one.pin_radius,
            unit="mm",
            working=lambda i: fuse_workings.pin_circle(machine, inside, EDGE, inside + rim),
            tight=1.0,
            source="geometry; 1.5 pins from a pin's middle to the edge of the metal: common practice",
            reason=lambda i, say: (
                f"shaft {say(first, 'mm')}, hollow end {say(spec.reducer.output_bore, 'mm')}, pin {say(one.pin_diameter, 'mm')}"
            ),
            fix=lambda i: [*moved(inside + rim), "fuse.pin_radius"],
        ),
        make_check(
            machine,
            "jam",
            "fuse",
            "pins' flange clears shaft 2",
            demand=one.pin_radius + rim,
            capacity=free,
            unit="mm",
            working=lambda i: fuse_workings.pin_flange(
                machine, second, EDGE, one.pin_radius + rim, free
            ),
            tight=1.0,
            source="geometry; 1.5 pins from a pin's middle to the edge of the metal: common practice",
            reason=lambda i, say: (
                f"shafts {say(apart, 'mm')} apart, shaft 2 {say(second, 'mm')} thick, a gap of {say(spec.safety.tip_clearance, 'mm')}"
            ),
            fix=lambda i: [*moved(free - rim), "fuse.pin_radius"],
        ),
    ]


def checks(machine: LoadedMachine, found: Sequence[Check]) -> list[Check]:
    """Check that in a jam nothing else gives before the fuse, or that all outlast it where there is none.

    Parameters
    ----------
    machine : LoadedMachine
    found : sequence of Check
        All other checks: those that say at which torque their part gives make the ladder.

    Returns
    -------
    list of Check
    """
    rungs = ladder(machine, found)
    weakest = next((rung for rung in rungs if not rung.is_fuse), None)
    # a part of which it is not known when it gives may be the first to give
    unknown = [check for check in found if not check.judged and "jam" in check.name]
    if unknown or weakest is None:
        why = f"{unknown[0].part}, {unknown[0].name}" if unknown else _NO_RUNG
        return [
            make_unjudged(machine, *_NAMES, f"it is not known when {why} gives" if unknown else why)
        ]
    unfused = machine.spec.fuse.kind == "none"
    return [(_outlast_the_jam if unfused else _outlast_the_fuse)(machine, rungs, weakest)]


_NAMES = ("jam", "fuse", "nothing dear gives way in a jam")
"""One name with and without a fuse, so that a fuse put in is seen to mend it."""


def _outlast_the_jam(machine: LoadedMachine, rungs: list[Rung], weakest: Rung) -> Check:
    """Whether all parts outlast a jam where there is no fuse."""
    flow = machine.power_flow
    if machine.running_speed <= 0:
        return make_unjudged(machine, *_NAMES, STANDS)
    return make_check(
        machine,
        *_NAMES,
        where=machine.load_cases.jammed,
        demand=flow.jam_torque_without_fuse,
        capacity=weakest.yields,
        unit="N*m",
        working=lambda i: jam_workings.jam_unfused(machine, i),
        safety=machine.spec.safety.parts_over_fuse,
        source="Tm + sqrt(Tm^2 + omega^2 k J): energy; yield of the weakest part",
        reason=lambda i, say: (
            f"no fuse: the motor and the wound-up train bring {say(flow.jam_torque_without_fuse[i], 'N*m')}; first to give: {weakest.name}"
        ),
        fix=lambda i: [*_fuses(machine, rungs, 1), *_stronger(weakest), *_LESS_WOUND],
        note=lambda i, say: (
            _no_window(machine, rungs) or f"{_first(weakest)} gives way first, which is dear."
        ),
    )


def _outlast_the_fuse(machine: LoadedMachine, rungs: list[Rung], weakest: Rung) -> Check:
    """Whether all parts outlast the fuse."""
    _, most = fuse_torques(machine.spec)
    bare = float(machine.power_flow.jam_torque_without_fuse.max())
    return make_check(
        machine,
        *_NAMES,
        demand=most,
        capacity=weakest.yields,
        unit="N*m",
        working=lambda i: fuse_workings.fuse_most(machine),
        safety=machine.spec.safety.parts_over_fuse,
        source="most torque within its scatter against yield; factor: common practice",
        reason=lambda i, say: (
            f"next to give: {weakest.name}; without the fuse a jam brings {say(bare, 'N*m')}"
        ),
        fix=lambda i: [*_fuses(machine, rungs, 1), *_stronger(weakest)],
        note=lambda i, say: _no_window(machine, rungs) or f"{_first(weakest)} would give first.",
    )


_NO_RUNG = "of no part is it known at which torque it gives"
_LESS_WOUND = ("motor.run_at", "reducer", "motor")
"""Choices that leave less motion to wind up the train."""


def _first(weakest: Rung) -> str:
    return f"{weakest.name[0].upper()}{weakest.name[1:]}"


def _no_window(machine: LoadedMachine, rungs: list[Rung]) -> str:
    """Say so where no fuse can both stand the starts and spare the weakest part."""
    low, high = wanted_fuse(machine, rungs)
    if low <= high:
        return ""
    weakest = next((rung for rung in rungs if not rung.is_fuse), None)
    what = weakest.name if weakest else "the weakest part"
    return (
        f"No fuse of this scatter fits between a start and {what}: that must be stronger, or starts easier; "
        "pins cut from one bar, one of them broken on purpose, narrow fuse.scatter."
    )


def _fuses(machine: LoadedMachine, rungs: list[Rung], end: int) -> list[Change]:
    """Changes of the fuse to the middle of what it may be, or to one end (0 low, 1 high) where nothing may."""
    low, high = wanted_fuse(machine, rungs)
    middle = low if np.isinf(high) else (low + high) / 2 if low <= high else (low, high)[end]
    return [*weaker_fuse(machine.spec, middle * (1 + machine.spec.fuse.scatter))]


def _stronger(weakest: Rung) -> list[Change]:
    """Changes that make the first part to give stronger: what would mend its own check, to be looked for."""
    fields: list[Change] = []
    for change in weakest.fixes():
        # by how much is known only when the whole machine has been worked out again
        one = next(iter(change)) if not isinstance(change, str) and len(change) == 1 else change
        if one not in fields and not (isinstance(one, str) and one.startswith("fuse.")):
            fields.append(one)
    return fields
