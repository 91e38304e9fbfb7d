"""Pictures of a machine: the train to scale, and what goes along the power path."""

from __future__ import annotations

from math import cos, radians, sin

import numpy as np
from matplotlib.axes import Axes
from matplotlib.figure import Figure
from matplotlib.patches import Circle, FancyArrowPatch

from mixerkit.design import Design
from mixerkit.drive import gearpaths
from mixerkit.machine import Machine, path_speeds
from mixerkit.parts import gear_pairs, idler, spurgear
from mixerkit.parts.zones import seat
from mixerkit.show.style import COLOURS, HATCHES, beside, figure, headline, to_scale
from mixerkit.states import MODES
from mixerkit.units import show, shown_scale, shown_unit

__all__ = ["power_path", "train"]


def wheel_places(machine: Machine, name: str) -> list[tuple[float, float]]:
    """Centres of a path's wheels in mm, shaft 1 at the origin and shaft 2 to its right.

    With more than one idler the first sits beside the line and the rest run straight to shaft 2; the
    direct path stands in one line.
    """
    spec = machine.design
    path, apart = getattr(spec.paths, name), spec.housing.centre_distance
    if name == "direct":
        meshes = gear_pairs.mesh_distances(path, apart)
        return [(float(apart * step), 0.0) for step in np.cumsum([0.0, *meshes]) / sum(meshes)]
    along, aside, meshes = idler.idler_centre(spec)
    first = (float(along), float(np.nan_to_num(aside)))
    steps = np.cumsum([0.0, *meshes[1:]]) / sum(meshes[1:])
    rest = [(first[0] + (apart - first[0]) * step, first[1] * (1 - step)) for step in steps[1:]]
    return [(0.0, 0.0), first, *rest]


def train(machine: Machine, clutch: str | None = None, angle: float = 0.0) -> Figure:
    """Draw both gear paths to scale, seen from the reducer, with directions and speeds.

    Parameters
    ----------
    machine : Machine
    clutch : str, optional
        Clutch position; the one the design is drawn in, if not given.
    angle : float
        Crank angle of shaft 1 in degrees: a spoke on each wheel shows how far it has turned.

    Returns
    -------
    matplotlib.figure.Figure
    """
    design = machine.design
    clutch = clutch or design.clutch.drawn_in
    turns = path_speeds(design, clutch)
    slow = machine.running_speed
    with figure(10.5, 4.9) as drawn:
        axes = drawn.subplots(1, 2, width_ratios=[1, 1])
        for one, name in zip(axes, ("direct", "idler"), strict=True):
            _draw_path(one, machine, name, clutch, turns, slow, angle)
            _frame(one, machine)
        headline(
            drawn,
            f"Gear train seen from the reduction box, clutch on {clutch}: shafts "
            + {
                "counter-rotating": "turn against each other",
                "co-rotating": "turn the same way",
            }.get(MODES[clutch], "uncoupled, shaft 2 at rest"),
        )
    return drawn


def _draw_path(
    axes: Axes,
    machine: Machine,
    name: str,
    clutch: str,
    turns: dict[str, float],
    slow: float,
    angle: float,
) -> None:
    design = machine.design
    path = getattr(design.paths, name)
    counts = path.tooth_counts
    places = wheel_places(machine, name)
    engaged = name == clutch
    free_at = 0 if design.clutch.shaft == 1 else len(counts) - 1
    for place, (count, centre) in enumerate(zip(counts, places, strict=True)):
        turned = turns[gearpaths.wheel_name(name, place, len(counts))]
        speed = turned * slow
        _draw_spoke(axes, centre, path.module * count / 2, radians(angle) * turned)
        runs_free = place == free_at and not engaged
        on_shaft = {0: 1, len(counts) - 1: 2}.get(place)
        hole = seat(design, on_shaft, f"{name} gear") / 2 if on_shaft else 0.0
        _draw_wheel(
            axes, centre, path.module, count, speed, hole, engaged=engaged, runs_free=runs_free
        )
    for number, centre in ((1, places[0]), (2, places[-1])):
        diameter = seat(design, number, f"{name} gear")
        axes.add_patch(Circle(centre, diameter / 2, fc=COLOURS["quiet"], ec=COLOURS["ink"], lw=1))
        axes.annotate(
            str(number), centre, color="white", ha="center", va="center", fontsize=11, weight="bold"
        )
    title = f"{name.capitalize()} path, {design_module(design, name)}"
    if not engaged:
        title += " (runs along unloaded)" if clutch != "neutral" else " (unloaded)"
    axes.set_title(title)


def design_module(design: Design, name: str) -> str:
    """Write a path's module, or its diametral pitch for a maker who thinks in inches."""
    module = getattr(design.paths, name).module
    return (
        f"module {show(module, 'mm')}"
        if design.show_units == "metric"
        else f"diametral pitch {25.4 / module:.4g} / in"
    )


def _draw_wheel(
    axes: Axes,
    centre: tuple[float, float],
    module: float,
    count: int,
    speed: float,
    hole: float,
    *,
    engaged: bool,
    runs_free: bool,
) -> None:
    pitch = float(spurgear.pitch_diameter.formula(module, count)) / 2
    tip = float(spurgear.tip_diameter.formula(module, count)) / 2
    colour = COLOURS["first"] if engaged else COLOURS["quiet"]
    axes.add_patch(
        Circle(
            centre,
            tip,
            fc=COLOURS["fill"] if engaged else "none",
            ec=colour,
            lw=1.6,
            ls="--" if runs_free else "-",
        )
    )
    axes.add_patch(Circle(centre, pitch, fill=False, ec=colour, lw=0.8, ls="-."))
    notes = f"{count} teeth\n{show(abs(speed), 'rpm')}" + ("\nruns free" if runs_free else "")
    axes.annotate(
        notes,
        (centre[0], centre[1] - (hole + pitch) / 2 * bool(hole)),
        ha="center",
        va="center",
        fontsize=9,
    )
    if abs(speed) > 1e-9:
        # seen from the reducer, forward is drawn anticlockwise
        start, end = (35, 145) if speed > 0 else (145, 35)
        radius = 0.78 * pitch
        ends = [
            (centre[0] + radius * cos(radians(a)), centre[1] + radius * sin(radians(a)))
            for a in (start, end)
        ]
        bend = f"arc3,rad={0.55 if speed > 0 else -0.55}"
        arrow = FancyArrowPatch(
            *ends, connectionstyle=bend, arrowstyle="-|>", mutation_scale=16, color=colour, lw=1.8
        )
        axes.add_patch(arrow)


def _draw_spoke(axes: Axes, centre: tuple[float, float], radius: float, turned: float) -> None:
    ends = [
        (centre[0] + share * radius * cos(turned), centre[1] + share * radius * sin(turned))
        for share in (0.84, 1.0)
    ]
    axes.plot(*zip(*ends, strict=True), color=COLOURS["ink"], lw=4, solid_capstyle="butt")


def _frame(axes: Axes, machine: Machine) -> None:
    """Give a path's drawing the same frame and scale as the other's, with the centre distance."""
    spec, system = machine.design, machine.design.show_units
    apart = spec.housing.centre_distance
    reach = []
    for name in ("direct", "idler"):
        path = getattr(spec.paths, name)
        for count, (x, y) in zip(path.tooth_counts, wheel_places(machine, name), strict=True):
            tip = spurgear.tip_diameter.formula(path.module, count) / 2
            reach.append((x - tip, x + tip, y - tip, y + tip))
    left, right, bottom, top = (
        pick(side)
        for pick, side in zip((min, max, min, max), zip(*reach, strict=True), strict=True)
    )
    low = bottom - 0.16 * apart
    for x in (0, apart):
        axes.plot([x, x], [bottom, low], color=COLOURS["quiet"], lw=0.6)
    axes.annotate("", (0, low), (apart, low), arrowprops={"arrowstyle": "<|-|>", "lw": 0.8})
    words = show(apart, "mm", system, 4)
    beside(axes, words, (apart / 2, low), (0, 2), 10, ha="center", va="bottom")
    axes.set_xlim(left - 0.05 * apart, right + 0.05 * apart)
    axes.set_ylim(low - 0.06 * apart, top + 0.05 * apart)
    to_scale(axes)
    _scale_bar(axes, apart, system)


def _scale_bar(axes: Axes, apart: float, system: str) -> None:
    length, text = (50.0, "50 mm") if system == "metric" else (50.8, "2 in")
    left, bottom = axes.get_xlim()[0], axes.get_ylim()[0]
    axes.plot(
        [left + 4, left + 4 + length],
        [bottom + 0.04 * apart] * 2,
        color=COLOURS["ink"],
        lw=3,
        solid_capstyle="butt",
    )
    axes.annotate(
        text, (left + 4 + length / 2, bottom + 0.06 * apart), ha="center", va="bottom", fontsize=9
    )


def power_path(machine: Machine) -> Figure:
    """Draw torque, speed and power at every place of the power path, in both modes while mixing.

    Parameters
    ----------
    machine : Machine

    Returns
    -------
    matplotlib.figure.Figure
    """
    system = machine.design.show_units
    names = [station.name for station in machine.stations]
    with figure(10.5, 6.4) as drawn:
        axes = drawn.subplots(3, 1, sharex=True)
        for one, (what, unit) in zip(
            axes, (("torque", "N*m"), ("speed", "rpm"), ("power", "kW")), strict=True
        ):
            _paired_bars(one, machine, what, unit, system)
        axes[-1].set_xticks(range(len(names)), [name.replace(" of ", "\nof ") for name in names])
        headline(drawn, "Along the power path while mixing, evenly loaded, motor forward")
        drawn.legend(
            *axes[0].get_legend_handles_labels(), loc="outside lower left", ncols=2, frameon=False
        )
    return drawn


def _paired_bars(axes: Axes, machine: Machine, what: str, unit: str, system: str) -> None:
    wanted = shown_unit(unit, system)
    for shift, (clutch, key) in ((-0.2, ("direct", "first")), (0.2, ("idler", "second"))):
        here = machine.index(clutch)
        values = [float(getattr(station, what).m_as(unit)[here]) for station in machine.stations]
        heights = [float(getattr(station, what).m_as(wanted)[here]) for station in machine.stations]
        bars = axes.bar(
            np.arange(len(values)) + shift,
            np.abs(heights),
            0.36,
            color=COLOURS[key],
            hatch=HATCHES[key],
            edgecolor="white",
            label=f"{MODES[clutch]} ({clutch} path)",
        )
        texts = [
            show(abs(value), unit, system).rsplit(" ", 1)[0] + (" rev." if value < 0 else "")
            for value in values
        ]
        axes.bar_label(bars, texts, fontsize=9, padding=2)
    _, label = shown_scale(unit, system)
    axes.set_ylabel(f"{what} ({label})")
    axes.set_yscale("log" if what != "power" else "linear")
    axes.margins(y=0.22)
    axes.set_ylim(bottom=None if what != "power" else 0)
