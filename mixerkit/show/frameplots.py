"""The picture of what carries the machine: plates, far wall, feet, trough and bag, across and along the shafts."""

from __future__ import annotations

import numpy as np
from matplotlib.axes import Axes
from matplotlib.figure import Figure
from matplotlib.patches import Circle

from mixerkit.machine import Machine
from mixerkit.parts.along import bearing_places, trough_ends
from mixerkit.parts.feet import standing
from mixerkit.parts.frame_layout import EDGE, bore, plate_size
from mixerkit.show.style import COLOURS, beside, box, figure, headline, to_scale
from mixerkit.tables import table
from mixerkit.units import show

__all__ = ["frame_view"]


def frame_view(machine: Machine) -> Figure:
    """Draw the machine on its feet: a plate seen from the reduction box, and all of it from the side.

    Parameters
    ----------
    machine : Machine

    Returns
    -------
    matplotlib.figure.Figure
    """
    with figure(10.5, 5.2) as drawn:
        left, right = drawn.subplots(1, 2)
        _across(left, machine)
        _along(right, machine)
        found = standing(machine)
        headline(
            drawn,
            f"Walls and frame, to scale: {show(found.mass, 'kg', machine.system)} known on the feet, box and motor left out",
        )
    return drawn


def _floor(axes: Axes, start: float, end: float) -> None:
    axes.plot([start, end], [0, 0], color=COLOURS["ink"], lw=2)


def _foot(axes: Axes, at: float, size: float) -> None:
    box(axes, (at - size / 2, 0), size, size / 2, fc=COLOURS["quiet"], ec=COLOURS["ink"])


def _across(axes: Axes, machine: Machine) -> None:
    """A gear plate with its bores and bolts on its feet, the trough behind it in outline."""
    spec, system = machine.design, machine.system
    frame, housing = spec.frame, spec.housing
    width, height = plate_size(spec)
    middle, base = housing.centre_distance / 2, frame.shaft_height
    found = standing(machine)
    left = middle - width / 2
    box(axes, (left, base - height / 2), width, height, fc=COLOURS["fill"], ec=COLOURS["ink"])
    hole = table("threads").find(housing.tie_bolt).values["clearance_hole"] / 2
    for x in (left + EDGE, left + width - EDGE):
        for y in (base - height / 2 + EDGE, base + height / 2 - EDGE):
            axes.add_patch(Circle((x, y), max(hole, 6), fc=COLOURS["paper"], ec=COLOURS["ink"]))
    for number, line in enumerate(machine.shaft_beams):
        at = (number * housing.centre_distance, base)
        radius = bore(line, 1) / 2
        axes.add_patch(Circle(at, radius, fc=COLOURS["paper"], ec=COLOURS["first"], lw=2))
        axes.annotate(f"{number + 1}", at, ha="center", va="center", fontsize=10)
    _trough(axes, machine)
    feet = (middle - found.width / 2, middle + found.width / 2)
    size = width / 14
    for foot in feet:
        _foot(axes, foot, size)
        axes.plot(
            [foot, min(max(foot, left), left + width)],
            [size / 2, base - height / 2],
            color=COLOURS["ink"],
            lw=3,
        )
    _floor(axes, min(left, feet[0]) - size, max(left + width, feet[1]) + size)
    beside(axes, f"feet {show(found.width, 'mm', system)} apart", (middle, 0), (0, 6), ha="center")
    to_scale(axes)
    axes.set_title("Plate at the trough, from the reduction box", fontsize=10)


def _trough(axes: Axes, machine: Machine) -> None:
    """The trough in outline and the bag on its edge."""
    spec, frame = machine.design, machine.design.frame
    wall = spec.paddles.tip_radius + spec.trough.wall_clearance
    apart, base = spec.housing.centre_distance, frame.shaft_height
    across = np.linspace(-wall, apart / 2, 60)
    below = base - np.sqrt(np.maximum(wall**2 - across**2, 0.0))
    half = [(-wall, frame.edge_height), *zip(across, below, strict=True)]
    outline = [*half, *((apart - x, y) for x, y in reversed(half))]
    axes.plot(*zip(*outline, strict=True), color=COLOURS["second"], lw=2, ls="--")
    wide, tall = spec.batch.bag_width, spec.batch.bag_height
    box(
        axes,
        (apart + wall - wide / 2, frame.edge_height),
        wide,
        tall,
        fc="#e9d8c4",
        ec=COLOURS["ink"],
    )
    bag = f"bag {show(spec.batch.mass, 'kg', machine.system)}"
    beside(axes, bag, (apart + wall, frame.edge_height + tall), (0, 3), ha="center")


def _along(axes: Axes, machine: Machine) -> None:
    """Both plates, the far wall, the trough with its ribs, the box where it hangs, from the side."""
    spec, frame = machine.design, machine.design.frame
    _, height = plate_size(spec)
    base, places = frame.shaft_height, bearing_places(spec)
    thick = (spec.housing.plate_thickness,) * 2 + (frame.wall_thickness,)
    names = ("plate at\nthe reducer", "plate at\nthe trough", "far wall")
    for at, wide, name in zip(places, thick, names, strict=True):
        box(
            axes,
            (at - wide / 2, base - height / 2),
            wide,
            height,
            fc=COLOURS["first"],
            ec=COLOURS["ink"],
        )
        beside(axes, name, (at, base - height / 2), (0, -5), 8, ha="center", va="top")
    _sheet(axes, machine)
    box(
        axes,
        (-1.5 * spec.reducer.overhang, base - height / 4),
        spec.reducer.overhang,
        height / 2,
        fc=COLOURS["paper"],
        ec=COLOURS["ink"],
        hatch="///",
    )
    axes.annotate("box", (-spec.reducer.overhang, base + height / 4), ha="center", va="bottom")
    axes.plot([-1.5 * spec.reducer.overhang, places[2]], [base, base], color=COLOURS["ink"], lw=3)
    found, size = standing(machine), height / 10
    middle = (places[0] + places[2]) / 2
    feet = (middle - found.length / 2, middle + found.length / 2)
    rail = base - height / 2
    axes.plot(
        [min(feet[0], places[0]), max(feet[1], places[2])], [rail, rail], color=COLOURS["ink"], lw=3
    )
    for at in feet:
        _foot(axes, at, size)
        axes.plot([at, at], [size / 2, rail], color=COLOURS["ink"], lw=3)
    start, end = min(feet[0], -1.5 * spec.reducer.overhang), max(feet[1], places[2])
    _floor(axes, start - size, end + size)
    beside(
        axes,
        f"feet {show(found.length, 'mm', machine.system)} apart",
        (middle, 0),
        (0, 6),
        ha="center",
    )
    to_scale(axes)
    axes.set_title("From the side of shaft 1", fontsize=10)


def _sheet(axes: Axes, machine: Machine) -> None:
    """The trough from the side, with its ribs."""
    spec, frame = machine.design, machine.design.frame
    wall = spec.paddles.tip_radius + spec.trough.wall_clearance
    start, end = trough_ends(spec)
    low, high = frame.shaft_height - wall, frame.edge_height
    box(axes, (start, low), end - start, high - low, fc="none", ec=COLOURS["second"], lw=2, ls="--")
    for at in np.linspace(start, end, frame.ribs + 2)[1:-1]:
        axes.plot([at, at], [low, high], color=COLOURS["second"], lw=2)
