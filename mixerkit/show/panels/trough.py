"""The panel of bag and trough: batch, fill and lid."""

from __future__ import annotations

from mixerkit.load import trough
from mixerkit.machine import Machine
from mixerkit.show import troughplots
from mixerkit.show.knobs import Knob
from mixerkit.show.panels.bench import Bench
from mixerkit.show.panels.panel import Panel, verdict_words
from mixerkit.units import show

__all__ = ["PANEL", "bag_and_trough", "says"]


def says(machine: Machine) -> str:
    """Say in a sentence or two how this stage stands."""
    spec, system = machine.design, machine.system
    volume, room = trough.batch_volume(spec), trough.working_volume(spec)
    lid = "It has no lid." if spec.guard.lid == "none" else f"Its lid is {spec.guard.lid}."
    return (
        f"The bag's {spec.batch.shown('mass', system)} are {show(volume, 'L', system)} of clay and fill "
        f"{100 * volume / room:.0f} % of what the paddles reach. {lid} "
        f"{verdict_words(machine, 'trough')}"
    )


def bag_and_trough(bench: Bench) -> Panel:
    """Show how full the batch makes the trough.

    Parameters
    ----------
    bench : Bench

    Returns
    -------
    Panel
    """
    knobs = [
        Knob("batch.mass", "Batch", 5, 40),
        Knob("trough.length", "Trough length", 150, 800),
        Knob("trough.wall_clearance", "Tips to the wall", 1, 20),
        Knob("guard.lid", "Lid"),
    ]
    return Panel(
        bench, "Bag and trough", knobs, troughplots.trough_view, says, ("trough",), turns=True
    )


PANEL = bag_and_trough
"""The stage's main panel."""
