"""The panel of the dog clutch."""

from __future__ import annotations

from mixerkit.drive import dogclutch
from mixerkit.machine import Machine
from mixerkit.show import clutchplots
from mixerkit.show.knobs import Knob
from mixerkit.show.panels.bench import Bench
from mixerkit.show.panels.panel import Panel, verdict_words
from mixerkit.units import show

__all__ = ["PANEL", "dog_clutch", "says"]


def says(machine: Machine) -> str:
    """Say in a sentence or two how this stage stands."""
    spec, system = machine.design, machine.design.show_units
    at, cut = dogclutch.positions(spec), dogclutch.milling(spec)
    return (
        f"Travel {show(at.travel, 'mm', system)} each way from neutral. To mill: {cut.words}; cutter at most "
        f"{show(cut.cutter, 'mm', system)} wide. {verdict_words(machine, 'clutch')}"
    )


def dog_clutch(bench: Bench) -> Panel:
    """Show the dog clutch in its three positions.

    Parameters
    ----------
    bench : Bench

    Returns
    -------
    Panel
    """
    knobs = [
        Knob("clutch.dogs", "Dogs a face", 1, 9),
        Knob("clutch.outer_diameter", "Over the dogs", 50, 160),
        Knob("clutch.inner_diameter", "Inside the dogs", 30, 120),
        Knob("clutch.dog_height", "Dog height", 3, 25),
        Knob("clutch.overlap", "Overlap", 2, 25),
        Knob("clutch.sleeve_length", "Sleeve over its dogs", 20, 120),
        Knob("clutch.angular_play", "Play", 1, 20),
        Knob("clutch.material", "Material"),
        Knob("clutch.fork_force", "Shift fork gives", 50, 600),
        Knob("clutch.detent_force", "Detent holds", 5, 200),
    ]

    return Panel(bench, "Dog clutch", knobs, clutchplots.clutch_positions, says, ("clutch",))


PANEL = dog_clutch
"""The stage's main panel."""
