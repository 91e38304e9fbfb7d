"""The panel of bearings, bushes, fits and seals."""

from __future__ import annotations

from mixerkit.machine import Machine
from mixerkit.parts import bearing_loads, seal_checks
from mixerkit.show import hubplots
from mixerkit.show.knobs import Knob
from mixerkit.show.panels.bench import Bench
from mixerkit.show.panels.panel import Panel, verdict_words
from mixerkit.units import show

__all__ = ["PANEL", "bearings", "says"]


def says(machine: Machine) -> str:
    """Say in a sentence or two how this stage stands."""
    system = machine.system
    torque, share = seal_checks.seal_share(machine)
    of_it = f", {100 * share:.2g} % of the mean torque" if share <= 1 else ""
    if share > 1:
        of_it = ", more than the clay's mean torque"
    return (
        f"Paddles push along each shaft with up to {show(bearing_loads.axial_push(machine), 'N', system)}. The seals take "
        f"{show(torque, 'N*m', system)}{of_it}. {verdict_words(machine, 'bearings')}"
    )


def bearings(bench: Bench) -> Panel:
    """Show the fits of the design, and whether bearings, bushes and seals last.

    Parameters
    ----------
    bench : Bench

    Returns
    -------
    Panel
    """
    knobs = [
        Knob("bearings.kind", "Shafts turn in"),
        Knob("bearings.bush_length", "Shaft's bush, length", 10, 120),
        Knob("bearings.bush_material", "Bushes of"),
        Knob("bearings.bush_wall", "Bush wall", 2, 15),
        Knob("bearings.free_gear_length", "Free gear's bush", 10, 100),
        Knob("bearings.idler_length", "Idler's bush", 10, 100),
        Knob("bearings.seal", "Seal"),
        Knob("bearings.locating", "Bearing that takes the push", 1, 3),
        Knob("housing.idler_pin", "Idler's pin", 12, 60),
        Knob("bearings.span", "Bearings apart, trough", 100, 800),
        Knob("batch.life_hours", "Hours to last", 100, 10000),
    ]

    return Panel(bench, "Bearings and fits", knobs, hubplots.fit_bands, says, ("bearings",))


PANEL = bearings
"""The stage's main panel."""
