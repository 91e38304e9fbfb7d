"""The panel of what the clay touches: which parts are wet, splashed and dry, and of which metal."""

from __future__ import annotations

from mixerkit.load.contact import DRY, SPLASHED, WET, clay_map
from mixerkit.machine import Machine
from mixerkit.show import contactplots
from mixerkit.show.knobs import Knob
from mixerkit.show.panels.bench import Bench
from mixerkit.show.panels.panel import Panel, verdict_words

__all__ = ["PANEL", "clay_contact", "says"]


def says(machine: Machine) -> str:
    """Say in a sentence or two how this stage stands."""
    parts = clay_map(machine.design)
    said = [
        f"{where}: {', '.join(names)}"
        for where in (WET, SPLASHED, DRY)
        if (names := [one.part for one in parts if one.where == where])
    ]
    listed = "; ".join(said)
    return f"{listed[0].upper()}{listed[1:]}. {verdict_words(machine, 'contact')}"


def clay_contact(bench: Bench) -> Panel:
    """Show which parts the clay touches.

    Parameters
    ----------
    bench : Bench

    Returns
    -------
    Panel
    """
    knobs = [
        Knob("contact.clay", "Clay fires"),
        Knob("contact.salted", "Salt or chloride in it"),
        Knob("contact.pin_ends", "Ends of the sleeves' pins"),
        Knob("contact.bolted_laps", "Bolted laps below the clay"),
        Knob("sleeve.sealed_ends", "Sleeve ends sealed"),
        Knob("contact.paddle_filler", "Filler, paddles"),
        Knob("contact.trough_filler", "Filler, trough"),
    ]
    return Panel(
        bench, "What the clay touches", knobs, contactplots.contact_view, says, ("contact",)
    )


PANEL = clay_contact
"""The stage's main panel."""
