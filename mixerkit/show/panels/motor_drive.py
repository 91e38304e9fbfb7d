"""The panel of what sits between motor and box: flange, coupling, belts or chain."""

from __future__ import annotations

from mixerkit.drive.motor_drive import rim_speed
from mixerkit.machine import Machine
from mixerkit.parts.reduction import drive_ratio
from mixerkit.show import motordriveplots
from mixerkit.show.knobs import Knob
from mixerkit.show.panels.bench import Bench
from mixerkit.show.panels.panel import Panel, verdict_words
from mixerkit.units import show

__all__ = ["PANEL", "between_motor_and_box", "says"]


def says(machine: Machine) -> str:
    """Say in a sentence or two how this stage stands."""
    return f"{_how(machine)} {verdict_words(machine, 'motor drive')}"


def _how(machine: Machine) -> str:
    spec, system = machine.design, machine.system
    one = spec.motor_drive
    if one.kind == "flange":
        return "The motor sits on the box's flange and turns its fast end one to one."
    if one.kind == "elastic coupling":
        return "An elastic coupling turns the box's fast end one to one."
    turning = machine.power_flow.abilities.field
    fast = show(machine.empty_speed * spec.reducer.ratio, "rpm")
    what = (
        f"{one.belt.belts} V-belt(s) {one.belt.section}"
        if one.kind == "V-belt"
        else f"{one.chain.strands} strand(s) of chain {one.chain.size}"
    )
    nip = show(rim_speed(spec, turning), "m/s", system)
    return (
        f"{what}, {drive_ratio(spec):.3g} : 1, bring {show(turning, 'rpm')} of the motor to {fast} at the box, empty. They run "
        f"into both wheels at {nip}; guard: {one.guard}."
    )


def between_motor_and_box(bench: Bench) -> Panel:
    """Show what sits between motor and box, to scale where it has wheels.

    Parameters
    ----------
    bench : Bench

    Returns
    -------
    Panel
    """
    one = "motor_drive"
    knobs = [
        Knob(f"{one}.kind", "Between motor and box"),
        Knob(f"{one}.motor_stands", "The motor stands"),
        Knob(f"{one}.service_factor", "Service factor", 1, 3),
        Knob(f"{one}.take_up", "Take-up", 0, 100),
        Knob(f"{one}.belt.section", "Belt section"),
        Knob(f"{one}.belt.motor_pulley", "Pulley on the motor", 50, 300),
        Knob(f"{one}.belt.box_pulley", "Pulley on the box", 50, 500),
        Knob(f"{one}.belt.centre_distance", "Pulleys apart", 100, 1000),
        Knob(f"{one}.belt.belts", "Belts", 1, 8),
        Knob(f"{one}.belt.tension", "Tension of a strand, 0: reckoned", 0, 1000),
        Knob(f"{one}.chain.size", "Chain"),
        Knob(f"{one}.chain.motor_teeth", "Teeth on the motor", 9, 60),
        Knob(f"{one}.chain.box_teeth", "Teeth on the box", 9, 114),
        Knob(f"{one}.chain.centre_distance", "Sprockets apart", 100, 1000),
        Knob(f"{one}.chain.strands", "Strands", 1, 3),
        Knob(f"{one}.guard", "Guard"),
        Knob(f"{one}.guard_opening", "Slots in it", 3, 120),
        Knob(f"{one}.guard_distance", "Slots to what moves", 10, 1000),
    ]
    return Panel(
        bench,
        "Between motor and box",
        knobs,
        motordriveplots.motor_drive,
        says,
        ("motor drive",),
    )


PANEL = between_motor_and_box
"""The stage's main panel."""
