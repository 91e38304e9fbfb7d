"""The fuse at every start: that it holds, that its pins spring back and find room, that their test can be believed."""

from __future__ import annotations

import numpy as np

from mixerkit.checking import make_check, make_unjudged
from mixerkit.checks import Change, Check
from mixerkit.drive import fuse_workings
from mixerkit.drive.fuses import (
    SHEAR_OVER_TENSILE,
    SHEARS,
    fuse_spread,
    fuse_torques,
    pins_yield,
    pins_yield_strength,
    shear_pin_torque,
    weaker_fuse,
)
from mixerkit.drive.pinsteel import not_known, tested, widest
from mixerkit.drive.remedies import LESS_CLAY
from mixerkit.parts.flanges import hollow_across, hub_across
from mixerkit.results import LoadedMachine
from mixerkit.tables import table

__all__ = ["NARROWER", "checks"]

NARROWER = (
    'a pin of the bar broken on purpose narrows its bounds: fuse.pin_condition = "tested" with fuse.test_torque, '
    "fuse.test_pin_diameter and fuse.test_pin_radius."
)
"""What makes the bounds of a shear pin narrow."""


def checks(machine: LoadedMachine) -> list[Check]:
    """Check that the fuse, where there is one, holds at every start, and its pins spring back and find room.

    Parameters
    ----------
    machine : LoadedMachine

    Returns
    -------
    list of Check
    """
    one = machine.spec.fuse
    if one.kind == "none":
        return []
    why = not_known(machine.spec)
    pinned = one.kind == "shear pin"
    if why:
        names = (_STARTS, _STRAIGHT)
        return [
            *(make_unjudged(machine, "jam", "fuse", name, why) for name in names),
            *_pins_find_room(machine),
        ]
    return [
        _holds(machine),
        *([_pins_stay_straight(machine), *_pins_find_room(machine)] if pinned else []),
        *([_test_is_possible(machine)] if pinned and one.pin_condition == "tested" else []),
    ]


_STARTS, _STRAIGHT = "fuse holds at every start", "pins do not bend at starts"


def _holds(machine: LoadedMachine) -> Check:
    """Whether the fuse holds at every start."""
    one, flow, factor = machine.spec.fuse, machine.power_flow, machine.spec.safety.fuse_over_start
    least, most = fuse_torques(machine.spec)
    needed = float(flow.torque_at_box_output[machine.load_cases.starting].max()) * factor
    spread = fuse_spread(machine.spec, one.kind)
    by = (
        f"bar {one.pin_condition}"
        if _untested(machine)
        else f"with a scatter of {100 * one.scatter:g} %"
        + (", of which the one tested may stand at either end" if one.kind == "shear pin" else "")
    )
    return make_check(
        machine,
        "jam",
        "fuse",
        _STARTS,
        where=machine.load_cases.starting,
        demand=flow.torque_at_box_output,
        capacity=least,
        unit="N*m",
        working=lambda i: fuse_workings.fuse_at_start(machine, i),
        safety=factor,
        source="least torque of its bounds; factor: common practice",
        reason=lambda i, say: f"{one.kind}, {say(least, 'N*m')} to {say(most, 'N*m')} {by}",
        fix=lambda i: [
            *weaker_fuse(machine.spec, needed * (1 + spread) / (1 - spread)),
            *LESS_CLAY,
        ],
        note=lambda i, say: (
            f"Of untested bar the least strength counts here and the most in a jam: {NARROWER}"
            if _untested(machine)
            else "Pins cut from one bar, one of them broken on purpose, narrow fuse.scatter: measure it."
        ),
    )


def _untested(machine: LoadedMachine) -> bool:
    one = machine.spec.fuse
    return one.kind == "shear pin" and one.pin_condition != "tested"


def _pins_stay_straight(machine: LoadedMachine) -> Check:
    """Whether the pins spring back from every start: a pin that is bent each time soon gives for nothing."""
    one, flow = machine.spec.fuse, machine.power_flow
    bends = pins_yield(machine.spec)
    needed = float(flow.torque_at_box_output[machine.load_cases.starting].max())
    pin = one.pin_diameter * np.sqrt(needed / bends)
    now = pins_yield_strength(machine.spec)[0]
    return make_check(
        machine,
        "jam",
        "fuse",
        _STRAIGHT,
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
            *_other_steels(machine, pin, now),
            {
                "fuse.kind": "torque limiter",
                "fuse.setting": needed * machine.spec.safety.fuse_over_start / (1 - one.scatter),
            },
            *LESS_CLAY,
        ],
        note=lambda i, say: (
            "Bar that may be hot rolled is taken to yield as soon: say in fuse.pin_condition how it was delivered."
            if one.pin_condition == "unknown"
            else ""
        ),
    )


def _other_steels(machine: LoadedMachine, pin: float, now: float) -> list[Change]:
    """Pins of other bar that yields as late, the likeliest first: one that breaks soon after it yields."""
    one = machine.spec.fuse
    if one.pin_condition == "tested":
        # another bar would have to be tested first
        return []
    found = [(row.values["name"], widest(row.values["name"])) for row in table("materials")]
    steels = [(name, steel) for name, steel in found if steel and name != one.pin_material]
    steels.sort(key=lambda pair: -pair[1].yields / pair[1].high)
    return [
        {
            "fuse.pin_material": name,
            "fuse.pin_diameter": float(pin * np.sqrt(now / steel.yields)),
        }
        for name, steel in steels[:3]
    ]


def _test_is_possible(machine: LoadedMachine) -> Check:
    """Whether pins of this steel can break where the one did: a slip in torque, lever or neck shows here."""
    one, broken = machine.spec.fuse, tested(machine.spec)
    steel = widest(one.pin_material)
    name = ("jam", "fuse", "test of the pins can be believed")
    if broken is None or steel is None:
        return make_unjudged(
            machine,
            *name,
            f"data/tables/pin_strengths.csv has no range for {one.pin_material}, which the test could be held against",
        )
    torque, neck, radius = broken
    low, high = (
        float(
            shear_pin_torque.formula(
                neck, radius, strength * share / SHEAR_OVER_TENSILE, 1, one.planes
            )
        )
        for strength, share in zip((steel.low, steel.high), SHEARS, strict=True)
    )
    off = max(low / torque, torque / high)
    return make_check(
        machine,
        *name,
        demand=off,
        capacity=1,
        unit="",
        tight=1.0,
        working=lambda i: fuse_workings.pin_test(machine, steel, low, high, off),
        source="shear 0.75 to 0.82 of tensile strength: common practice; strengths: data/tables/pin_strengths.csv",
        reason=lambda i, say: (
            f"a neck of {say(neck, 'mm')} at {say(radius, 'mm')} of {one.pin_material} breaks at {say(low, 'N*m')} "
            f"to {say(high, 'N*m')}, however its bar was delivered; the test says {say(torque, 'N*m')}"
        ),
        note=lambda i, say: (
            "Measure fuse.test_pin_diameter in the neck, fuse.test_pin_radius and fuse.test_torque again: a torque is the "
            "pull of the balance times the length of the bar from the shaft's middle."
        ),
    )


EDGE = 1.5
"""From a pin's middle to the edge of the metal round it, in pins (common practice)."""


def _pins_find_room(machine: LoadedMachine) -> list[Check]:
    """Whether the circle of the pins lies outside hub and hollow shaft, and inside of shaft 2.

    The flanges that the pins go through sit on the hollow end and on shaft 1, and turn beside shaft 2.
    """
    spec, one = machine.spec, machine.spec.fuse
    first, second = (
        max(shaft.diameter, *shaft.step_diameters, 0.0) for shaft in (spec.shaft_1, spec.shaft_2)
    )
    hub, hollow = hub_across(spec), hollow_across(spec)
    inside, rim = max(first, hub, hollow) / 2, EDGE * one.pin_diameter
    apart = spec.housing.centre_distance
    free = apart - second / 2 - spec.safety.tip_clearance

    def moved(radius: float) -> list[Change]:
        """The pins on another radius, alone, and with the diameter that gives at the torque they have now."""
        if not radius > 0:
            return []
        # torque goes by the neck's area and the radius
        pin = one.pin_diameter * float(np.sqrt(one.pin_radius / radius))
        return [{"fuse.pin_radius": radius, "fuse.pin_diameter": pin}, {"fuse.pin_radius": radius}]

    return [
        make_check(
            machine,
            "jam",
            "fuse",
            "pins lie outside hub and hollow shaft",
            demand=inside + rim,
            capacity=one.pin_radius,
            unit="mm",
            working=lambda i: fuse_workings.pin_circle(machine, inside, EDGE, inside + rim),
            tight=1.0,
            source="geometry; 1.5 pins from a pin's middle to the edge of the metal, a hollow shaft no thicker than 1.5 of its "
            "bore: common practice",
            reason=lambda i, say: (
                f"hub of the flange {say(hub, 'mm')} and hollow shaft {say(hollow, 'mm')} outside, shaft {say(first, 'mm')}, "
                f"pin {say(one.pin_diameter, 'mm')}"
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
