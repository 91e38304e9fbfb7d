"""The panel of walls and frame: plates, far wall, trough's sheet, bolts and feet."""

from __future__ import annotations

from mixerkit.load.trough_sheet import sheet
from mixerkit.machine import Machine
from mixerkit.parts.feet import standing
from mixerkit.show import frameplots
from mixerkit.show.knobs import Knob
from mixerkit.show.panels.bench import Bench
from mixerkit.show.panels.panel import Panel, verdict_words
from mixerkit.units import show

__all__ = ["PANEL", "frame", "says"]


def says(machine: Machine) -> str:
    """Say in a sentence or two how this stage stands."""
    system, found, walls = machine.system, standing(machine), sheet(machine)
    return (
        f"Known masses of {show(found.mass, 'kg', system)}, box and motor left out, stand on feet "
        f"{show(found.length, 'mm', system)} x {show(found.width, 'mm', system)} apart; the trough's sheet spans "
        f"{show(walls.span, 'mm', system)} from rib to rib. {verdict_words(machine, 'frame')}"
    )


def frame(bench: Bench) -> Panel:
    """Show what carries the machine, and whether it bears a jam, the clay and a bag on the edge.

    Parameters
    ----------
    bench : Bench

    Returns
    -------
    Panel
    """
    knobs = [
        Knob("housing.plate_thickness", "Gear plates, thickness", 4, 40),
        Knob("frame.wall_thickness", "Far wall, thickness", 4, 60),
        Knob("frame.boss_length", "Far wall, bosses", 0, 80),
        Knob("trough.wall_thickness", "Trough's sheet", 0.5, 8),
        Knob("frame.ribs", "Trough, ribs round it", 0, 12),
        Knob("housing.tie_bolt", "Tie bolts"),
        Knob("frame.bolt_class", "Class of the bolts"),
        Knob("frame.arm_bolt", "Arm's anchor, bolts"),
        Knob("frame.arm_bolts", "Arm's anchor, how many", 2, 12),
        Knob("frame.arm_held_by", "Arm held by"),
        Knob("frame.foot_length", "Feet apart, along", 0, 1500),
        Knob("frame.foot_width", "Feet apart, across", 0, 1500),
        Knob("frame.edge_height", "Trough's edge above floor", 300, 1500),
    ]
    return Panel(bench, "Walls and frame", knobs, frameplots.frame_view, says, ("frame",))


PANEL = frame
"""The stage's main panel."""
