"""The panel of hubs, keys and pins."""

from __future__ import annotations

from mixerkit.machine import Machine
from mixerkit.show import hubplots
from mixerkit.show.knobs import Knob
from mixerkit.show.panels.bench import Bench
from mixerkit.show.panels.panel import Panel, verdict_words

__all__ = ["PANEL", "hubs", "says"]


def says(machine: Machine) -> str:
    """Say in a sentence or two how this stage stands."""
    return (
        "Set screws at 120 degrees press the shaft at three equal places; a key carries by its flank, and reversing "
        f"hammers it. {verdict_words(machine, 'hubs')}"
    )


def hubs(bench: Bench) -> Panel:
    """Show every way to fix a gear on its shaft against the torque.

    Parameters
    ----------
    bench : Bench

    Returns
    -------
    Panel
    """
    knobs = [
        Knob("hubs.gear", "Gears held by"),
        Knob("hubs.gear_length", "Key or clamp, length", 10, 100),
        Knob("hubs.box_length", "Key of box or fuse, length", 20, 150),
        Knob("hubs.key_material", "Keys of"),
        Knob("hubs.set_screws", "Set screws", 1, 6),
        Knob("hubs.pin_diameter", "Taper pin", 4, 20),
        Knob("housing.hub_diameter", "Hubs, outside", 40, 120),
        Knob("sleeve.pins", "Sleeve pins", 1, 6),
        Knob("sleeve.pin_diameter", "Sleeve pin", 5, 25),
        Knob("shaft_2.diameter", "Shaft 2 diameter", 15, 80),
    ]

    return Panel(bench, "Hubs", knobs, hubplots.hub_torques, says, ("hubs",))


PANEL = hubs
"""The stage's main panel."""
