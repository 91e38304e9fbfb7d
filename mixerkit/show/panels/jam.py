"""The panel of what gives way first in a jam."""

from __future__ import annotations

from functools import partial

from mixerkit.drive import backdriving, ladder, pin_lives
from mixerkit.machine import Machine
from mixerkit.show import jamplots
from mixerkit.show.knobs import Knob
from mixerkit.show.panels.bench import Bench
from mixerkit.show.panels.panel import Panel, verdict_words
from mixerkit.units import show

__all__ = ["PANEL", "jam", "says"]


def says(machine: Machine) -> str:
    """Say in a sentence or two how this stage stands."""
    system = machine.system
    low, high = ladder.wanted_fuse(machine, list(machine.ladder))
    room = (
        f"A fuse of {show(low, 'N*m', system)} to {show(high, 'N*m', system)} outlasts every start and goes before any part."
        if low <= high
        else "No fuse fits between a start and the weakest part."
    )
    first, pins = machine.ladder[0], pin_lives.said(machine)
    return (
        f"Stopped dead, the train winds up to {show(float(machine.power_flow.jam_torque_without_fuse.max()), 'N*m', system)} without a fuse. {room} "
        f"First to give: {first.name}, at {show(first.yields, 'N*m', system)}. {pins}{' ' if pins else ''}"
        f"{backdriving.left_wound_up(machine, partial(show, system=system))} {verdict_words(machine, 'jam')}"
    )


def jam(bench: Bench) -> Panel:
    """Show what gives way first in a jam.

    Parameters
    ----------
    bench : Bench

    Returns
    -------
    Panel
    """
    knobs = [
        Knob("fuse.kind", "Fuse"),
        Knob("fuse.pin_diameter", "Shear pin, neck", 3, 20),
        Knob("fuse.pin_radius", "Pin from the middle", 25, 150),
        Knob("fuse.pin_material", "Pin of"),
        Knob("fuse.pin_condition", "Its bar"),
        Knob("motor.jacking_torque", "Spanner at the fan end", 0, 50),
        Knob("fuse.setting", "Limiter slips at", 50, 3000),
        Knob("fuse.scatter", "Scatter", 0.02, 0.4),
        Knob("motor.inertia", "Rotor's inertia", 0.0005, 0.05),
        Knob("reducer.wind_up", "Box winds up", 0.1, 5),
        Knob("reducer.ratio", "Reduction", 20, 120),
    ]

    return Panel(bench, "What gives way first", knobs, jamplots.ladder, says, ("jam",))


PANEL = jam
"""The stage's main panel."""
