"""Panels of clay and paddles: strength, trough and paddles, torque over a turn."""

from __future__ import annotations

from mixerkit.load import trough
from mixerkit.load.clay import strength_range
from mixerkit.machine import Machine
from mixerkit.show import loadplots, troughplots
from mixerkit.show.knobs import WATER, Knob
from mixerkit.show.panels.bench import Bench
from mixerkit.show.panels.panel import Panel, verdict_words
from mixerkit.units import show

__all__ = ["PANEL", "clay", "paddles_and_trough", "says", "torque_over_a_turn"]


def says(machine: Machine) -> str:
    """Say in a sentence or two how this stage stands."""
    spec, system = machine.design, machine.design.show_units
    volume, room = trough.batch_volume(spec), trough.working_volume(spec)
    run = machine.batch
    return (
        f"The batch is {show(volume, 'L', system)} and fills {100 * volume / room:.0f} % of the working volume, "
        f"{show(room, 'L', system)}. A batch takes {run.lasts}, with loading "
        f"{show(run.throughput, 'kg/h', system)}; {show(run.energy, 'kJ', system)} goes into the clay and warms it "
        f"by {show(run.warmer, 'K', system)} at most. "
        f"{verdict_words(machine, 'trough', 'paddles')}"
    )


_TESTS = {
    "cone": [
        Knob("clay.cone_mass", "Cone and rod", 20, 400),
        Knob("clay.cone_angle", "Cone angle"),
        Knob("clay.cone_penetration", "Cone sinks", 1, 25),
    ],
    "rod": [
        Knob("clay.rod_diameter", "Rod's flat end", 4, 30),
        Knob("clay.rod_load", "Load on the rod", 1, 200),
    ],
    "vane": [
        Knob("clay.vane_diameter", "Vane, across", 8, 80),
        Knob("clay.vane_height", "Vane, height", 8, 160),
        Knob("clay.vane_torque", "Vane turns at", 0.05, 10),
    ],
}


def clay(bench: Bench) -> Panel:
    """Show how strong the clay is, by its water and by tests at the bench.

    Parameters
    ----------
    bench : Bench

    Returns
    -------
    Panel
    """
    knobs = [
        Knob("clay.strength_from", "Strength from"),
        Knob("clay.body", "Named body"),
        WATER,
        Knob("clay.plastic_limit", "Plastic limit", 0.12, 0.4),
        Knob("clay.liquid_limit", "Liquid limit", 0.25, 0.9),
        *(knob for listed in _TESTS.values() for knob in listed),
    ]

    def says(machine: Machine) -> str:
        found = machine.clay_load.clay
        system = machine.design.show_units
        mixing = machine.clay_load.strength
        factors = strength_range(machine.design.clay)
        low, high = (show(found.strength * factor, "kPa", system) for factor in factors)
        return (
            f"Strength {show(found.strength, 'kPa', system)} {found.words}; by that way it may be anything from "
            f"{low} to {high}. At the speed of mixing it is {show(mixing, 'kPa', system)}. {verdict_words(machine, 'motor')}"
        )

    return Panel(bench, "Clay", knobs, loadplots.clay_strength, says, ("motor",))


def paddles_and_trough(bench: Bench) -> Panel:
    """Show trough and paddles, the clay's level, and whether anything collides.

    Parameters
    ----------
    bench : Bench

    Returns
    -------
    Panel
    """
    knobs = [
        Knob("clutch.drawn_in", "Clutch on"),
        Knob("batch.mass", "Batch", 5, 40),
        Knob("trough.length", "Trough length", 150, 800),
        Knob("housing.centre_distance", "Shafts apart", 80, 300),
        Knob("paddles.tip_radius", "Paddle tip radius", 40, 200),
        Knob("paddles.root_radius", "Sleeve radius", 15, 60),
        Knob("paddles.count", "Paddles a shaft", 2, 12),
        Knob("paddles.width", "Paddle width", 10, 100),
        Knob("paddles.thickness", "Paddle thickness", 3, 20),
        Knob("paddles.set_angle", "Set angle", 15, 90),
        Knob("paddles.spacing", "Spacing", 20, 200),
        Knob("paddles.offset_2", "Shaft 2 further along", 0, 100),
        Knob("paddles.phase_step", "Phase step", 0, 180),
        Knob("paddles.phase_2", "Phase of shaft 2", 0, 180),
        Knob("clutch.keeps_phase", "Clutch keeps the phase"),
    ]

    return Panel(
        bench,
        "Paddles and trough",
        knobs,
        troughplots.trough_view,
        says,
        ("trough", "paddles"),
        turns=True,
    )


def torque_over_a_turn(bench: Bench) -> Panel:
    """Show the torque over a turn, and what each paddle does to its shaft.

    Parameters
    ----------
    bench : Bench

    Returns
    -------
    Panel
    """
    knobs = [
        Knob("batch.mass", "Batch", 5, 40),
        Knob("paddles.count", "Paddles a shaft", 2, 12),
        Knob("paddles.phase_step", "Phase step", 0, 180),
        Knob("paddles.phase_2", "Phase of shaft 2", 0, 180),
        Knob("paddles.bearing_capacity_factor", "Bearing capacity factor", 9, 12),
        Knob("paddles.nip_share", "Added by the nip", 0, 0.4),
        Knob("clay.start_factor", "To start, times", 1, 3),
    ]

    def says(machine: Machine) -> str:
        asks, system = machine.clay_load, machine.design.show_units
        return (
            f"One shaft asks {show(asks.mean, 'N*m', system)} on average and {show(asks.peak, 'N*m', system)} at its peak, "
            f"{show(asks.scraping, 'N*m', system)} of it from tips scraping and {show(asks.sleeve, 'N*m', system)} from the "
            f"sleeve. Reckoned blade by blade the rest is "
            f"{show(asks.paddles, 'N*m', system)}, as one turning cylinder of clay {show(asks.cylinder, 'N*m', system)}: "
            f"the {asks.governs} govern{'s' if asks.governs != 'paddles' else ''}. One buried paddle bends its shaft with "
            f"{show(asks.force, 'N', system)} and pushes along it with {show(asks.push, 'N', system)}. "
            f"{verdict_words(machine, 'motor')}"
        )

    return Panel(bench, "Torque over a turn", knobs, loadplots.torque_over_a_turn, says, ("motor",))


PANEL = paddles_and_trough
"""The stage's main panel."""
