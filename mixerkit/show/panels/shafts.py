"""Panels of the shafts: diameters by each rule, and each shaft as a beam."""

from __future__ import annotations

from mixerkit.checks import weakest
from mixerkit.machine import Machine
from mixerkit.parts.along import NAMES
from mixerkit.parts.bodies import APART
from mixerkit.parts.held import HELD
from mixerkit.parts.seats import REACHED
from mixerkit.parts.shaft_checks import next_stock
from mixerkit.parts.sleeve_checks import sleeve_warnings
from mixerkit.show import bodyplots, shaftplots
from mixerkit.show.knobs import POWER, RATIO, Knob
from mixerkit.show.marks import MARKS
from mixerkit.show.panels.bench import Bench
from mixerkit.show.panels.panel import Panel
from mixerkit.units import show

__all__ = ["PANEL", "along_the_shafts", "says", "shaft", "shaft_torsion"]


def _says_of(machine: Machine, number: int) -> str:
    """Say in a sentence or two how one shaft stands."""
    part = f"shaft {number}"
    system, line = machine.design.show_units, machine.shaft_beams[number - 1]
    forces = line.running.reaction.max(axis=(0, 1))
    held = ", ".join(
        f"{show(float(force), 'N', system)} at the {name}"
        for force, name in zip(forces, NAMES, strict=True)
    )
    worst = weakest(one for one in machine.checks if one.part == part)
    words = {"holds": "holds", "tight": "is tight", "fails": "fails"}[worst.verdict]
    return (
        f"Turning, its bearings carry {held}. {' '.join(sleeve_warnings(machine.design))} "
        f"{MARKS[worst.verdict]} {part.capitalize()} {words}: {worst.sentence()}"
    )


def says(machine: Machine) -> str:
    """Say how both shafts stand, each as its panel does."""
    return " ".join(_says_of(machine, number) for number in (1, 2))


def shaft(bench: Bench, number: int = 1) -> Panel:
    """Show one whole shaft as a beam: what it feels along its length, and whether it lasts.

    Parameters
    ----------
    bench : Bench
    number : int
        1 or 2.

    Returns
    -------
    Panel
    """
    knobs = [
        Knob(f"shaft_{number}.material", "Material"),
        Knob(f"shaft_{number}.diameter", "Diameter", 15, 80),
        Knob(f"shaft_{number}.finish", "Finish"),
        Knob(f"shaft_{number}.keyway", "Keyways"),
        Knob("sleeve.kind", "Sleeve"),
        Knob("sleeve.wall", "Sleeve, wall", 2, 15),
        Knob("sleeve.sealed_ends", "Sleeve ends sealed"),
        Knob("housing.plate_spacing", "Between the plates", 80, 400),
        Knob("bearings.span", "Bearings apart, trough", 100, 800),
        Knob("bearings.kind", "Bearings"),
    ]
    if number == 1:
        knobs += [
            Knob("reducer.overhang", "Box overhang", 30, 300),
            Knob("reducer.mass", "Box and motor", 5, 150),
        ]
    part = f"shaft {number}"

    return Panel(
        bench,
        part.capitalize(),
        knobs,
        lambda a: shaftplots.beam(a, number),
        lambda a: _says_of(a, number),
        ("shafts",),
    )


def shaft_torsion(bench: Bench, number: int = 2) -> Panel:
    """Show the diameter that each rule asks of one shaft.

    Parameters
    ----------
    bench : Bench
    number : int
        1 or 2.

    Returns
    -------
    Panel
    """
    knobs = [
        Knob(f"shaft_{number}.material", "Material"),
        Knob(f"shaft_{number}.diameter", "Diameter", 15, 80),
        Knob(f"shaft_{number}.keyway", "Keyway cut"),
        Knob("batch.heavier_share", "Share of the heavier shaft", 0.5, 1),
        Knob("paddles.tip_radius", "Paddle tip radius", 40, 200),
        Knob("bearings.span", "Bearings apart", 100, 800),
        POWER,
        RATIO,
    ]
    part = f"shaft {number}"

    def says(machine: Machine) -> str:
        system = machine.design.show_units
        needed = {
            rule: float(size.m_as("mm")) for rule, size in machine.needed_diameters[part].items()
        }
        torsion = max(size for rule, size in needed.items() if rule.startswith("torsion"))
        worst = weakest(one for one in machine.checks if one.part == part)
        words = {"holds": "holds", "tight": "is tight", "fails": "fails"}[worst.verdict]
        return (
            f"Torsion alone would be content with {show(torsion, 'mm', system)}; with bending and fatigue it takes "
            f"{show(max(needed.values()), 'mm', system)}, next stock size {show(next_stock(max(needed.values()), system), 'mm', system)}. {MARKS[worst.verdict]} {part.capitalize()} {words}: "
            f"{worst.sentence()}"
        )

    return Panel(
        bench,
        part.capitalize(),
        knobs,
        lambda a: shaftplots.shaft_diameters(a, number),
        says,
        ("shafts",),
    )


def along_the_shafts(bench: Bench) -> Panel:
    """Show both shafts cut open: what sits where, what holds it, and what would stand in one place.

    Parameters
    ----------
    bench : Bench

    Returns
    -------
    Panel
    """
    knobs = [
        Knob("shaft_1.diameter", "Shaft 1 diameter", 15, 80),
        Knob("shaft_2.diameter", "Shaft 2 diameter", 15, 80),
        Knob("bearings.kind", "Bearings"),
        Knob("bearings.series", "Series of the bearings"),
        Knob("bearings.far_end", "Bearing beyond the trough"),
        Knob("bearings.span", "Bearings apart, trough", 100, 800),
        Knob("housing.plate_spacing", "Between the plates", 80, 400),
        Knob("paths.direct.position", "Direct path, place", 10, 300),
        Knob("paths.idler.position", "Idler path, place", 10, 300),
        Knob("clutch.sleeve_length", "Clutch sleeve, length", 10, 200),
    ]

    def says(machine: Machine) -> str:
        told = [one for one in machine.checks if one.name in (REACHED, HELD, APART)]
        worst = weakest(told)
        if all(one.verdict != "fails" for one in told):
            return f"{MARKS['holds']} An order of assembly is found, everything is held both ways, and no two parts stand in one place."
        return f"{MARKS[worst.verdict]} {worst.sentence()}"

    return Panel(bench, "Along both shafts", knobs, bodyplots.cut_open, says, ("shafts",))


PANEL = shaft
"""The stage's main panel."""
