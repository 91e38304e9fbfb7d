"""The panel of guards and run-down."""

from __future__ import annotations

from mixerkit.drive import guarding
from mixerkit.machine import Machine
from mixerkit.show import jamplots
from mixerkit.show.knobs import Knob
from mixerkit.show.panels.bench import Bench
from mixerkit.show.panels.panel import Panel, verdict_words
from mixerkit.units import show

__all__ = ["PANEL", "run_down", "says"]


def says(machine: Machine) -> str:
    """Say in a sentence or two how this stage stands."""
    spec, system = machine.design, machine.design.show_units
    stops = guarding.stopping_time(spec)
    near = float(guarding.approach_distance.formula(stops))
    return (
        f"Empty, it runs {show(stops, 's')} after the lid's switch opens; in that time a hand comes "
        f"{show(near, 'mm', system)} near. {verdict_words(machine, 'guards')}"
    )


def run_down(bench: Bench) -> Panel:
    """Show a jam through time, and whether hands are kept away until the machine rests.

    Parameters
    ----------
    bench : Bench

    Returns
    -------
    Panel
    """
    knobs = [
        Knob("guard.lid", "Lid"),
        Knob("guard.lid_distance", "Lid to paddles", 50, 1500),
        Knob("guard.time_to_stop", "Run-down, as timed", 0, 20),
        Knob("guard.response_time", "Switch to power off", 0, 2),
        Knob("guard.opening_shape", "Openings"),
        Knob("guard.opening", "Opening", 3, 120),
        Knob("guard.opening_distance", "Opening to moving parts", 10, 1000),
        Knob("motor.inertia", "Rotor's inertia", 0.0005, 0.05),
    ]

    return Panel(bench, "Run-down and guards", knobs, jamplots.jam_in_time, says, ("guards", "jam"))


PANEL = run_down
"""The stage's main panel."""
