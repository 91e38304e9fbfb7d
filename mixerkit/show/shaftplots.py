"""Pictures of shafts: to scale, what they feel along their length, and the diameters that asks."""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np
from matplotlib.axes import Axes
from matplotlib.figure import Figure
from matplotlib.patches import Polygon

from mixerkit.machine import Machine
from mixerkit.parts import shaft_checks
from mixerkit.parts.shaftline import ShaftBeam
from mixerkit.results import Array
from mixerkit.show.style import COLOURS, HATCHES, above, beside, box, figure, headline
from mixerkit.units import show, shown_scale

__all__ = ["beam", "both_shafts", "shaft_diameters"]


def beam(machine: Machine, number: int) -> Figure:
    """Draw one shaft to scale with what it feels along its length, mixing and in a jam.

    Parameters
    ----------
    machine : Machine
    number : int
        1 or 2.

    Returns
    -------
    matplotlib.figure.Figure
    """
    line: ShaftBeam = machine.shaft_beams[number - 1]
    system = machine.design.show_units
    _, label = shown_scale("mm", system)
    with figure(11.0, 8.6) as drawn:
        axes = drawn.subplots(4, 2, sharex=True, height_ratios=[1.5, 1, 1, 1])
        _profile(axes[0, 0], line, system)
        _needed(axes[0, 1], line, system)
        for one, (title, unit, mixing, jam) in zip(axes[1:].flat, _felt(line), strict=True):
            _along(one, line, system, unit, mixing, jam)
            one.set_title(f"{title} ({shown_scale(unit, system)[1]})", fontsize=10)
        for one in axes[3]:
            one.set_xlabel(f"from the inside of the plate at the reducer ({label})", fontsize=9)
        headline(
            drawn,
            f"Shaft {number}: the most it feels at each place, over all states and a whole turn",
        )
    return drawn


def _felt(line: ShaftBeam) -> Iterator[tuple[str, str, Array, Array | None]]:
    """What a shaft feels, its unit, and the most of it at each place, mixing and, of some, in a jam."""
    run, stop = line.turning, line.stopped
    bent = line.bends()
    mixing = line.machine.load_cases.mixing[run.states]

    def over(values: Array) -> Array:
        most: Array = values[mixing].max(axis=(0, 1))
        return most

    yield "Shear", "N", over(line.shears), None
    yield "Bending moment", "N*m", over(line.running.moment), stop.moment.max(axis=(0, 1))
    yield "Torque", "N*m", over(run.torque), stop.torque.max(axis=(0, 1))
    yield "Twist", "mrad", 1e3 * np.abs(over(np.abs(line.twists(run.after)))), None
    yield "Deflection", "mm", over(bent.lift), stop.lift.max(axis=(0, 1))
    yield "Slope", "mrad", 1e3 * over(bent.slope), None


def _along(
    axes: Axes, line: ShaftBeam, system: str, unit: str, mixing: Array, jam: Array | None
) -> None:
    """Curves over the shaft's places, named where there are two, and its supports."""
    along, scale = line.places * shown_scale("mm", system)[0], shown_scale(unit, system)[0]
    for values, words, colour, style in (
        (mixing, "mixing", COLOURS["first"], "-"),
        (jam, "jam", COLOURS["second"], "--"),
    ):
        if values is None:
            continue
        axes.plot(along, values * scale, color=colour, lw=1.8, ls=style, marker="o", ms=2.5)
        if jam is not None:
            top = int(np.argmax(values))
            beside(axes, words, (along[top], values[top] * scale), (4, 3), color=COLOURS["ink"])
    axes.set_ylim(bottom=0)
    axes.margins(y=0.2)
    for place in line.supports:
        axes.axvline(along[place], color=COLOURS["quiet"], lw=0.6, ls=":")


def both_shafts(machine: Machine) -> Figure:
    """Draw both shafts to scale, each with the diameter it has and needs at each place.

    Parameters
    ----------
    machine : Machine

    Returns
    -------
    matplotlib.figure.Figure
    """
    system = machine.design.show_units
    _, label = shown_scale("mm", system)
    with figure(11.0, 4.6) as drawn:
        axes = drawn.subplots(2, 2, width_ratios=[1.2, 1])
        for row, line in enumerate(machine.shaft_beams):
            _profile(axes[row, 0], line, system)
            _needed(axes[row, 1], line, system)
            axes[row, 0].set_title(
                f"Shaft {line.number} ({label}); triangles: bearings, bars: paddles", fontsize=10
            )
    return drawn


def _profile(axes: Axes, line: ShaftBeam, system: str) -> None:
    """The shaft itself, to scale along and across, with what sits on it."""
    length, label = shown_scale("mm", system)
    places = line.places * length
    most = max(_draw_bar(axes, line, length), _draw_sleeve(axes, line, length))
    for place in line.supports:
        _draw_bearing(axes, places[place], most)
    most = max([most, *(_draw_gear(axes, line, name, length) for name in line.gears)])
    for place in line.paddles:
        axes.plot([places[place]] * 2, [0, most], color=COLOURS["second"], lw=2.2)
    if line.box is not None:
        radius = line.segments[0] * length / 2
        beside(axes, "box", (places[line.box], radius), (0, 4), 8, ha="center")
    axes.set_aspect("equal", adjustable="datalim")
    axes.set_yticks([])
    axes.spines["left"].set_visible(False)
    axes.set_title(f"To scale ({label}); triangles: bearings, bars: paddles", fontsize=10)


def _draw_bar(axes: Axes, line: ShaftBeam, length: float) -> float:
    """The turned bar; gives its largest radius as drawn."""
    places, radii = line.places * length, line.segments * length / 2
    look = {"fc": COLOURS["fill"], "ec": COLOURS["ink"], "lw": 0.8}
    for left, right, radius in zip(places[:-1], places[1:], radii, strict=True):
        box(axes, (left, -radius), right - left, 2 * radius, **look)
    return float(radii.max())


def _draw_sleeve(axes: Axes, line: ShaftBeam, length: float) -> float:
    """The sleeve in the trough, if there is one; gives its outer radius as drawn."""
    spec = line.machine.spec
    if spec.sleeve.kind == "none":
        return 0.0
    outer, wall = spec.paddles.root_radius * length, spec.sleeve.wall * length
    start, end = (at * length for at in line.trough)
    look = {"fc": "none", "ec": COLOURS["third"], "hatch": "////", "lw": 0.8}
    for base in (outer - wall, -outer):
        box(axes, (start, base), end - start, wall, **look)
    return outer


def _draw_bearing(axes: Axes, at: float, most: float) -> None:
    low = -most - 1.4 * 0.5 * most
    corners = [(at, -most), (at - 0.5 * most, low), (at + 0.5 * most, low)]
    axes.add_patch(Polygon(corners, fc=COLOURS["quiet"], ec=COLOURS["ink"], lw=0.6))


def _draw_gear(axes: Axes, line: ShaftBeam, name: str, length: float) -> float:
    """A gear as its pitch cylinder; gives its radius as drawn."""
    path, at = getattr(line.machine.spec.paths, name), line.places[line.gears[name]] * length
    tall: float = path.module * path.tooth_counts[0 if line.number == 1 else -1] / 2 * length
    wide = path.face_width * length
    look = {"fc": "none", "ec": COLOURS["first"], "lw": 1.4}
    box(axes, (at - wide / 2, -tall), wide, 2 * tall, **look)
    beside(axes, name, (at, tall), (0, 2), 8, ha="center")
    return tall


def _needed(axes: Axes, line: ShaftBeam, system: str) -> None:
    """Diameter asked at each place by all rules, by torsion alone, and what is there."""
    length, label = shown_scale("mm", system)
    along, needed = line.places * length, shaft_checks.needed_along(line) * length
    torsion = shaft_checks.needed_along(line, torsion_alone=True) * length
    axes.step(along, line.diameters * length, where="mid", color=COLOURS["ink"], lw=2.0)
    axes.plot(along, needed, color=COLOURS["first"], lw=1.8, marker="o", ms=3)
    axes.plot(along, torsion, color=COLOURS["second"], lw=1.6, ls="--", marker="s", ms=3)
    top = int(np.argmax(needed))
    beside(axes, "all rules ask", (along[top], needed[top]), (6, 4))
    beside(axes, "torsion alone asks", (along[1], torsion[1]), (6, -12))
    axes.annotate(
        f"it has {show(float(line.diameters.min()), 'mm', system)} at its thinnest",
        (0.98, 0.97),
        xycoords="axes fraction",
        ha="right",
        va="top",
        fontsize=9,
    )
    axes.set_ylim(0, max(needed.max(), (line.diameters * length).max()) * 1.3)
    axes.set_title(f"Diameter at each place ({label})", fontsize=10)


def shaft_diameters(machine: Machine, number: int) -> Figure:
    """Draw the diameter each rule asks of a shaft against the one it has.

    Parameters
    ----------
    machine : Machine
    number : int
        1 or 2.

    Returns
    -------
    matplotlib.figure.Figure
    """
    system = machine.design.show_units
    scale, label = shown_scale("mm", system)
    has = getattr(machine.design, f"shaft_{number}").diameter
    needed = {
        rule: float(size.m_as("mm"))
        for rule, size in machine.needed_diameters[f"shaft {number}"].items()
    }
    with figure(10.0, 0.5 * len(needed) + 1.5) as drawn:
        axes = drawn.subplots()
        for place, (rule, size) in enumerate(needed.items()):
            key = "fails" if size > has else "second" if "bending" in rule else "first"
            bar = axes.barh(
                place,
                size * scale,
                0.66,
                color=COLOURS[key],
                hatch=HATCHES.get(key, ""),
                edgecolor="white",
            )
            axes.bar_label(bar, [show(size, "mm", system)], padding=4, fontsize=10)
        axes.set_yticks(range(len(needed)), list(needed))
        axes.invert_yaxis()
        axes.margins(x=0.16)
        axes.set_xlim(left=0)
        axes.axvline(has * scale, color=COLOURS["ink"], lw=2)
        above(axes, f"it has {show(has, 'mm', system)}", has * scale, size=10)
        axes.set_xlim(right=max(axes.get_xlim()[1], has * scale * 1.15))
        axes.set_xlabel(f"({label})")
        headline(drawn, f"Shaft {number}: diameter each rule asks for")
    return drawn
