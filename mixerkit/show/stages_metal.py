"""Panels of shafts, hubs, bearings, the jam, and of the shop: plates and gears to cut."""

from __future__ import annotations

import math

from mixerkit.checks import weakest
from mixerkit.drive import guarding, jam_checks
from mixerkit.machine import Machine
from mixerkit.parts import bearing_checks
from mixerkit.parts.shaftline import NAMES
from mixerkit.parts.sleeve_checks import sleeve_warnings
from mixerkit.shop import blanks, holes, indexing
from mixerkit.shop.workshop import read_workshop
from mixerkit.show import shaftplots, sheets
from mixerkit.show.knobs import Knob
from mixerkit.show.marks import MARKS
from mixerkit.show.panels import Bench, Panel, verdict_words
from mixerkit.units import show

__all__ = ["bearings", "cutting", "hubs", "jam", "plates", "run_down", "shaft"]


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

    def says(machine: Machine) -> str:
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

    return Panel(
        bench, part.capitalize(), knobs, lambda a: shaftplots.beam(a, number), says, ("shafts",)
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
        Knob("hubs.box_length", "Key in the box, length", 20, 150),
        Knob("hubs.key_material", "Keys of"),
        Knob("hubs.set_screws", "Set screws", 1, 6),
        Knob("hubs.pin_diameter", "Taper pin", 4, 20),
        Knob("housing.hub_diameter", "Hubs, outside", 40, 120),
        Knob("sleeve.pins", "Sleeve pins", 1, 6),
        Knob("sleeve.pin_diameter", "Sleeve pin", 5, 25),
        Knob("shaft_2.diameter", "Shaft 2 diameter", 15, 80),
    ]

    def says(machine: Machine) -> str:
        return (
            "Set screws at 120 degrees press the shaft at three equal places; a key carries by its flank, and reversing "
            f"hammers it. {verdict_words(machine, 'hubs')}"
        )

    return Panel(bench, "Hubs", knobs, shaftplots.hub_torques, says, ("hubs",))


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

    def says(machine: Machine) -> str:
        system = machine.system
        torque, share = bearing_checks.seal_share(machine)
        of_it = "" if math.isnan(share) else f", {100 * share:.2g} % of the mean torque"
        return (
            f"Paddles push along each shaft with up to {show(bearing_checks.axial_push(machine), 'N', system)}. The seals take "
            f"{show(torque, 'N*m', system)}{of_it}. {verdict_words(machine, 'bearings')}"
        )

    return Panel(bench, "Bearings and fits", knobs, shaftplots.fit_bands, says, ("bearings",))


def jam(bench: Bench) -> Panel:
    """Show what gives way first in a jam.

    Parameters
    ----------
    bench : Bench

    Returns
    -------
    Panel
    """
    knobs = [
        Knob("fuse.kind", "Fuse"),
        Knob("fuse.pin_diameter", "Shear pin, neck", 3, 20),
        Knob("fuse.pin_radius", "Pin from the middle", 25, 150),
        Knob("fuse.pin_material", "Pin of"),
        Knob("fuse.setting", "Limiter slips at", 50, 3000),
        Knob("fuse.scatter", "Scatter", 0.02, 0.4),
        Knob("motor.inertia", "Rotor's inertia", 0.0005, 0.05),
        Knob("reducer.wind_up", "Box winds up", 0.1, 5),
        Knob("reducer.ratio", "Reduction", 20, 120),
    ]

    def says(machine: Machine) -> str:
        system = machine.system
        low, high = jam_checks.wanted_fuse(machine, list(machine.ladder))
        room = (
            f"A fuse of {show(low, 'N*m', system)} to {show(high, 'N*m', system)} outlasts every start and goes before any part."
            if low <= high
            else "No fuse fits between a start and the weakest part."
        )
        first = machine.ladder[0]
        return (
            f"Stopped dead, the train winds up to {show(float(machine.power_flow.jam_torque_without_fuse.max()), 'N*m', system)} without a fuse. {room} "
            f"First to give: {first.name}, at {show(first.yields, 'N*m', system)}. {verdict_words(machine, 'jam')}"
        )

    return Panel(bench, "What gives way first", knobs, shaftplots.ladder, says, ("jam",))


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

    def says(machine: Machine) -> str:
        spec, system = machine.design, machine.design.show_units
        stops = guarding.stopping_time(spec)
        near = float(guarding.approach_distance.formula(stops))
        return (
            f"Empty, it runs {show(stops, 's')} after the lid's switch opens; in that time a hand comes "
            f"{show(near, 'mm', system)} near. {verdict_words(machine, 'guards')}"
        )

    return Panel(
        bench, "Run-down and guards", knobs, shaftplots.jam_in_time, says, ("guards", "jam")
    )


def plates(bench: Bench, which: str = "reducer", face: str = "outside") -> Panel:
    """Show one gear plate as it is seen at the mill, and what its holes make of the backlash.

    Parameters
    ----------
    bench : Bench
    which, face : str
        A key of :data:`mixerkit.shop.holes.FACES`.

    Returns
    -------
    Panel
    """
    knobs = [
        Knob("housing.centre_distance", "Shafts apart", 80, 300),
        Knob("housing.wall_distance", "Middles to the edges", 80, 400),
        Knob("housing.plate_thickness", "Plate thickness", 8, 40),
        Knob("housing.idler_side", "Idler sits"),
        Knob("housing.tie_bolt", "Tie bolts"),
        Knob("bearings.kind", "Shafts turn in"),
        Knob("paths.direct.thinning", "Direct, teeth thinned", 0, 0.5),
    ]
    shop = read_workshop()

    def picture(machine: Machine) -> str:
        chart = holes.chart(machine.design, which, face)
        return sheets.plate_drawing(chart, sheets.Words(machine.design.show_units))

    def says(machine: Machine) -> str:
        spec, system = machine.design, machine.design.show_units
        chart, band = holes.chart(spec, which, face), holes.backlash_band(spec, shop)
        seen = "MIRRORED" if chart.mirrored else "not mirrored"
        low, high = min(row[1] for row in band), max(row[3] for row in band)
        return (
            f"The plate at the {which}, seen on its {face}, {seen}: {chart.from_edge}. With the mill's error the backlash comes out "
            f"between {show(low, 'mm', system)} and {show(high, 'mm', system)}. {verdict_words(machine, 'gears', 'gear paths')}"
        )

    return Panel(bench, "Gear plates", knobs, picture, says, ("gear paths", "gears"))


def cutting(bench: Bench, gear: str = "direct_1") -> Panel:
    """Show one gear's blank and what cutting it takes.

    Parameters
    ----------
    bench : Bench
    gear : str
        A key of :data:`mixerkit.shop.blanks.GEARS`.

    Returns
    -------
    Panel
    """
    path = blanks.GEARS[gear][0]
    knobs = [
        Knob(f"paths.{path}.module", "Pitch"),
        Knob(f"paths.{path}.thinning", "Teeth thinned", 0, 0.5),
        Knob(f"paths.{path}.face_width", "Face width", 10, 100),
        Knob(f"paths.{path}.material", "Material"),
        Knob("bearings.bush_wall", "Bush wall", 2, 15),
        Knob("clutch.shaft", "Clutch on shaft", 1, 2),
    ]
    shop = read_workshop()

    def picture(machine: Machine) -> str:
        system = machine.design.show_units
        one = blanks.gear_blank(machine.design, gear, shop, system)
        return sheets.gear_drawing(one, sheets.Words(system))

    def says(machine: Machine) -> str:
        spec, system = machine.design, machine.design.show_units
        one = blanks.gear_blank(spec, gear, shop, system)
        exact = indexing.settings(one.count, shop.dividing_ratio, shop.plates)
        head = exact[0].words if exact else "no circle of this shop divides it exactly"
        shelf = "on the shelf" if one.has_cutter else "not on the shelf"
        return (
            f"{one.words[0].upper()}{one.words[1:]}, {one.count} teeth: turn to {show(one.outside[2], 'mm', system, 6)}, feed "
            f"{show(one.depth, 'mm', system, 5)}, cutter number {one.cutter} ({shelf}); dividing head: {head}. {verdict_words(machine, 'gears')}"
        )

    return Panel(bench, "Cutting a gear", knobs, picture, says, ("gears",))
