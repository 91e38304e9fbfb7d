"""The panel of the reduction box: ratio, efficiency, pull across its shaft."""

from __future__ import annotations

from mixerkit.machine import Machine
from mixerkit.show import driveplots
from mixerkit.show.knobs import RATIO, Knob
from mixerkit.show.panels.bench import Bench
from mixerkit.show.panels.panel import Panel, verdict_words
from mixerkit.units import show

__all__ = ["PANEL", "reduction_box", "says"]


def says(machine: Machine) -> str:
    """Say in a sentence or two how this stage stands."""
    box, system = machine.design.reducer, machine.system
    return (
        f"A {box.kind} box of {box.ratio:g} : 1, {100 * box.efficiency:.0f} % efficient, turns shaft 1 at about "
        f"{show(machine.running_speed, 'rpm')}; it is rated for {show(box.rated_torque, 'N*m', system)}. "
        f"{verdict_words(machine, 'reducer')}"
    )


def reduction_box(bench: Bench) -> Panel:
    """Show what the box is asked for and what it gives.

    Parameters
    ----------
    bench : Bench

    Returns
    -------
    Panel
    """
    knobs = [
        RATIO,
        Knob("reducer.efficiency", "Box efficiency", 0.4, 0.98),
        Knob("reducer.rated_torque", "Box rated torque", 100, 2000),
        Knob("reducer.overhang", "Box overhang", 30, 300),
        Knob("reducer.torque_arm", "Torque arm", 100, 600),
    ]
    return Panel(bench, "Reduction box", knobs, driveplots.motor_and_box, says, ("reducer",))


PANEL = reduction_box
"""The stage's main panel."""
