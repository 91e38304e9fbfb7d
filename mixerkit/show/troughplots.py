"""Pictures of the trough in section and from above, with the paddles as they stand."""

from __future__ import annotations

from math import cos, pi, radians, sin

import numpy as np
from matplotlib.axes import Axes
from matplotlib.figure import Figure
from matplotlib.patches import Circle, Polygon

from mixerkit.load import clay_load, clearance, trough
from mixerkit.machine import Machine, path_speeds
from mixerkit.parts import blades
from mixerkit.show.style import COLOURS, HATCHES, box, figure, headline, to_scale
from mixerkit.spec import Paddles
from mixerkit.units import show

__all__ = ["CLAY", "outline", "trough_view"]

CLAY = "#e9d8c4"
"""Colour of clay in pictures."""


def trough_view(machine: Machine, angle: float = 0.0) -> Figure:
    """Draw the trough in section and the paddles from above, shaft 1 turned by an angle.

    Parameters
    ----------
    machine : Machine
    angle : float
        Of shaft 1 in degrees, forward.

    Returns
    -------
    matplotlib.figure.Figure
    """
    with figure(10.5, 4.6) as drawn:
        left, right = drawn.subplots(1, 2, width_ratios=[1, 1.1])
        _section(left, machine, angle)
        _plan(right, machine, angle)
        mode = machine.design.clutch.drawn_in
        headline(
            drawn,
            f"Trough and paddles, clutch on {mode}, shaft 1 turned by {angle:.0f} deg",
        )
    return drawn


def _angles(machine: Machine, angle: float) -> tuple[np.ndarray, np.ndarray]:
    blade = machine.design.paddles
    ratio = path_speeds(machine.design, machine.design.clutch.drawn_in)["shaft 2"]
    return clay_load.paddle_angles(blade, 1) + radians(angle), clay_load.paddle_angles(
        blade, 2
    ) + ratio * radians(angle)


def _clashing(machine: Machine) -> tuple[int, int] | None:
    """Which paddles of shaft 1 and shaft 2, counted from 0, run into each other; None if none do."""
    spec = machine.design
    path = machine.design.clutch.drawn_in
    keeps = spec.clutch.keeps_phase and spec.clutch.dogs == 1 and path != "neutral"
    ratio = clearance.mode_ratio(spec, path) if keeps else None
    play = clearance.phase_play(spec, path) if keeps else 0.0
    met = clearance.nearest_meeting(spec.paddles, spec.housing.centre_distance, ratio, play=play)
    return met.pair if met.gap < 0 else None


def _section(axes: Axes, machine: Machine, angle: float) -> None:
    spec, system = machine.design, machine.design.show_units
    blade, apart = spec.paddles, spec.housing.centre_distance
    wall = blade.tip_radius + spec.trough.wall_clearance
    edge = outline(wall, apart)
    level = machine.clay_load.level
    below = [(x, y) for x, y in edge if y <= level]
    top = edge[0][1]
    axes.add_patch(Polygon([*below], closed=True, fc=CLAY, ec="none"))
    axes.plot(*zip(*edge, strict=True), color=COLOURS["ink"], lw=2)
    clash = _clashing(machine)
    for shaft, (centre, key) in enumerate(((0.0, "first"), (apart, "second"))):
        for k, one in enumerate(_angles(machine, angle)[shaft]):
            hit = clash is not None and clash[shaft] == k
            _draw_blade(axes, blade, centre, one, key, hit=hit)
            reach = blade.tip_radius * 0.88
            _number(axes, k, (reach * cos(one) + centre, reach * sin(one)))
        axes.add_patch(
            Circle((centre, 0), blade.root_radius, fc=COLOURS["quiet"], ec=COLOURS["ink"])
        )
    axes.annotate(
        f"{show(apart, 'mm', system, 4)} between shafts",
        (apart / 2, top + 4),
        ha="center",
        va="bottom",
        fontsize=9,
    )
    if clash is not None:
        axes.annotate(
            f"✖ paddle {clash[0] + 1} of shaft 1 runs into paddle {clash[1] + 1} of shaft 2",
            (apart / 2, -wall - 3),
            ha="center",
            va="top",
            fontsize=10,
            weight="bold",
            color=COLOURS["fails"],
        )
    axes.set_xlim(-wall - 6, apart + wall + 6)
    axes.set_ylim(-wall - 20, top + 22)
    to_scale(axes)
    axes.set_title("Section, seen from the reduction box; clay drawn level", fontsize=10)


def _draw_blade(
    axes: Axes, blade: Paddles, centre: float, turned: float, key: str, *, hit: bool
) -> None:
    """A paddle in section, thick and in another colour where it hits one of the other shaft."""
    axes.add_patch(
        Polygon(
            _blade(centre, turned, blade),
            closed=True,
            fc="white",
            ec=COLOURS["fails" if hit else key],
            lw=3.2 if hit else 1.6,
            hatch=HATCHES[key],
        )
    )


def _number(axes: Axes, k: int, middle: tuple[float, float]) -> None:
    """Number a paddle, counted from 0, in a small disc."""
    disc = {"boxstyle": "circle,pad=0.1", "fc": "white", "ec": "none"}
    axes.annotate(str(k + 1), middle, ha="center", va="center", fontsize=8, bbox=disc)


def outline(wall: float, apart: float) -> list[tuple[float, float]]:
    """Inside of the trough from the top left, down, round both bottoms and up again."""
    ridge = np.arccos(min(apart / 2 / wall, 1.0))
    first = [(wall * cos(a), wall * sin(a)) for a in np.linspace(pi, 2 * pi - ridge, 60)]
    second = [(apart - x, y) for x, y in reversed(first)]
    return [(-wall, wall), *first, *second, (apart + wall, wall)]


def _blade(centre: float, angle: float, blade: Paddles) -> list[tuple[float, float]]:
    """Outline of a paddle in the plane of the section: its stem tapers to the bare blade."""
    along, across = np.array([cos(angle), sin(angle)]), np.array([-sin(angle), cos(angle)])
    top = min(blade.root_radius + blade.stem_height, blade.tip_radius)
    radii = np.array([blade.root_radius, top, blade.tip_radius])
    widths = blades.turning_width.formula(*blades.section_at(blade, radii), blade.set_angle)
    halves = np.asarray(widths) / 2
    sides = [
        [radius * along + side * half * across for radius, half in zip(radii, halves, strict=True)]
        for side in (-1, 1)
    ]
    return [(x + centre, y) for x, y in (*sides[0], *reversed(sides[1]))]


def _plan(axes: Axes, machine: Machine, angle: float) -> None:
    spec, system = machine.design, machine.design.show_units
    blade, apart, long = spec.paddles, spec.housing.centre_distance, spec.trough.length
    half = blade.tip_radius + spec.trough.wall_clearance
    wall = {"fc": "none", "ec": COLOURS["ink"], "lw": 2}
    box(axes, (0, -half), long, apart + 2 * half, **wall)
    one, two = _angles(machine, angle)
    extent = trough.axial_extent(blade)
    used = (blade.count - 1) * blade.spacing + blade.offset_2 + extent
    start = (long - used) / 2 + extent / 2
    _draw_row(axes, machine, apart, one, start, "first")
    _draw_row(axes, machine, 0.0, two, start + blade.offset_2, "second")
    for number, y in ((1, apart), (2, 0)):
        axes.annotate(f"shaft {number}", (long + 4, y), va="center", fontsize=9)
    words = f"{show(long, 'mm', system, 4)} long"
    axes.annotate(words, (long / 2, -half - 4), ha="center", va="top", fontsize=9)
    axes.set_xlim(-6, long + 70)
    axes.set_ylim(-half - 24, apart + half + 8)
    to_scale(axes)
    axes.set_title("From above, reduction box to the left", fontsize=10)


def _draw_row(
    axes: Axes, machine: Machine, centre: float, angles: np.ndarray, start: float, key: str
) -> None:
    """A shaft with its paddles from above, the first of them at a place."""
    blade, long = machine.design.paddles, machine.design.trough.length
    root, extent = blade.root_radius, trough.axial_extent(blade)
    shaft = {"fc": COLOURS["fill"], "ec": COLOURS["ink"], "lw": 0.8}
    box(axes, (0, centre - root), long, 2 * root, **shaft)
    look = {"fc": "white", "ec": COLOURS[key], "lw": 1.6, "hatch": HATCHES[key]}
    for k, turned in enumerate(angles):
        # from above a blade shows its length's part across the shafts; shaft 2's side lies below
        low, high = sorted(centre - radius * cos(turned) for radius in (root, blade.tip_radius))
        place = start + k * blade.spacing
        corner = (place - extent / 2, low)
        box(axes, corner, extent, max(high - low, 2), **look)
        _number(axes, k, (place, (low + high) / 2))
