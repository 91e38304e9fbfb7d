"""Pictures of gears: a mesh with its line of action, the train in plan, answers of a path search."""

from __future__ import annotations

from math import pi

import numpy as np
from matplotlib.axes import Axes
from matplotlib.figure import Figure
from matplotlib.patches import Polygon

from mixerkit.explore.pathsfound import Found
from mixerkit.machine import Machine
from mixerkit.parts import gear_pairs, outline, spurgear
from mixerkit.show.clutchplots import draw_sleeve
from mixerkit.show.style import COLOURS, HATCHES, beside, box, figure, headline, to_scale
from mixerkit.spec import GearPath
from mixerkit.units import show

__all__ = ["front", "mesh_picture", "plan"]

_BEHIND = {"fc": "white", "ec": "none", "pad": 1}


def mesh_picture(
    machine: Machine, path: str = "direct", number: int = 0, angle: float = 0.0
) -> Figure:
    """Draw one mesh to scale with its true outlines, pitch and base circles and line of action.

    Parameters
    ----------
    machine : Machine
    path : str
        ``"direct"`` or ``"idler"``.
    number : int
        Which mesh of the path, 0 at shaft 1.
    angle : float
        Turn of the first gear in degrees.

    Returns
    -------
    matplotlib.figure.Figure
    """
    spec, system = machine.design, machine.design.show_units
    one = getattr(spec.paths, path)
    pair = gear_pairs.pairs(one, spec.housing.centre_distance)[number]
    with figure(8.6, 5.2) as drawn:
        axes = drawn.subplots()
        _draw_mesh(axes, one, pair, np.radians(angle))
        scale = one.module
        pitch_1 = pair.distance * pair.counts[0] / sum(pair.counts)
        axes.set_xlim(pitch_1 - 6.5 * scale, pitch_1 + 6.5 * scale)
        axes.set_ylim(-4.2 * scale, 4.2 * scale)
        to_scale(axes)
        title = f"{path.capitalize()} path, {pair.counts[0]} and {pair.counts[1]} teeth on {show(pair.distance, 'mm', system, 5)}"
        play = show(pair.play, "mm", system)
        meshes = (
            f"contact ratio {pair.ratio:.2f}, backlash {play}, working angle {pair.working:.2f} deg"
        )
        if not np.isfinite([pair.ratio, pair.play, pair.working]).all():
            meshes = "these teeth do not mesh at this distance"
        axes.set_title(f"{title}\n{meshes}", fontsize=10)
    return drawn


def _draw_mesh(axes: Axes, path: GearPath, pair: gear_pairs.Pair, turn: float) -> None:
    starts = (-pi / 2 + turn, pi / 2 + pi / pair.counts[1] - turn * pair.counts[0] / pair.counts[1])
    for k, (place, key) in enumerate(((0.0, "first"), (pair.distance, "second"))):
        points = outline.gear_outline(
            path.module,
            pair.counts[k],
            pair.shifts[k],
            starts[k],
            tip_diameter=pair.tips[k],
            thinning=path.thinning,
        )
        shape = Polygon(
            points + np.array([place, 0.0]),
            closed=True,
            fc=COLOURS["fill"] if k == 0 else "white",
            ec=COLOURS[key],
            lw=1.8,
            hatch=HATCHES[key],
        )
        axes.add_patch(shape)
        pitch = pair.distance * pair.counts[k] / sum(pair.counts)
        base = spurgear.base_diameter.formula(path.module, pair.counts[k]) / 2
        for radius, style in ((pitch, "-."), (base, ":")):
            t = np.linspace(-0.6, 0.6, 200) + (pi if k else 0)
            axes.plot(
                place + radius * np.cos(t),
                radius * np.sin(t),
                ls=style,
                lw=1,
                color=COLOURS["quiet"],
            )
    working, point = np.radians(pair.working), pair.distance * pair.counts[0] / sum(pair.counts)
    reach = 4 * path.module
    line = np.array([np.sin(working), np.cos(working)]) * reach
    axes.plot([point - line[0], point + line[0]], [-line[1], line[1]], color=COLOURS["ink"], lw=1.8)
    end = (point + line[0] * 0.72, line[1] * 0.72)
    beside(axes, "line of action", end, (10, 4), 10, bbox=_BEHIND)
    axes.plot(point, 0, "o", color=COLOURS["ink"], ms=5)


def plan(machine: Machine) -> Figure:
    """Draw gears, clutch and plates in plan along the shafts, to scale, with the gaps that matter.

    Parameters
    ----------
    machine : Machine

    Returns
    -------
    matplotlib.figure.Figure
    """
    spec, system = machine.design, machine.design.show_units
    apart, spacing = spec.housing.centre_distance, spec.housing.plate_spacing
    with figure(8.6, 5.6) as drawn:
        axes = drawn.subplots()
        for left in (-8.0, spacing):
            box(axes, (left, -95), 8, apart + 190, fc=COLOURS["ink"], ec="none")
        for y, number in ((apart, 1), (0.0, 2)):
            size = getattr(spec, f"shaft_{number}").diameter
            look = {"fc": COLOURS["fill"], "ec": COLOURS["ink"], "lw": 1}
            box(axes, (-30, y - size / 2), spacing + 60, size, **look)
            axes.annotate(f"shaft {number}", (spacing + 34, y), va="center", fontsize=10)
        for name, key in (("direct", "first"), ("idler", "second")):
            for place, y in ((0, apart), (-1, 0.0)):
                _draw_in_plan(axes, getattr(spec.paths, name), name, key, place, y)
        draw_sleeve(axes, spec, apart if spec.clutch.shaft == 1 else 0.0, spec.clutch.drawn_in)
        axes.annotate("", (0, -92), (spacing, -92), arrowprops={"arrowstyle": "<|-|>", "lw": 0.8})
        axes.annotate(
            f"{show(spacing, 'mm', system, 4)} between the plates",
            (spacing / 2, -90),
            ha="center",
            va="bottom",
            fontsize=9,
            bbox=_BEHIND,
        )
        axes.set_xlim(-40, spacing + 75)
        axes.set_ylim(-108, apart + 100)
        to_scale(axes)
        axes.set_title(
            f"Gear case in plan, reduction box to the left; the idler stands {spec.housing.idler_side} this plane",
            fontsize=10,
        )
    return drawn


def _draw_in_plan(axes: Axes, path: GearPath, name: str, key: str, place: int, y: float) -> None:
    """One gear of a path on its shaft, as a box with its name."""
    count, shift = path.tooth_counts[place], gear_pairs.shifts_of(path)[place]
    tip = float(spurgear.tip_diameter.formula(path.module, count, shift))
    corner = (path.position - path.face_width / 2, y - tip / 2)
    look = {"fc": "white", "ec": COLOURS[key], "lw": 2, "hatch": HATCHES[key]}
    box(axes, corner, path.face_width, tip, **look)
    axes.annotate(
        f"{name}\n{count} teeth",
        (path.position, y + tip * 0.34),
        ha="center",
        va="center",
        fontsize=9,
        bbox=_BEHIND,
    )


def front(found: Found, system: str = "metric") -> Figure:
    """Draw every answer of a path search by strength and size, those that no other beats picked out.

    Parameters
    ----------
    found : Found
    system : str

    Returns
    -------
    matplotlib.figure.Figure
    """
    factor = 1.0 if system == "metric" else 1 / 25.4
    with figure(8.6, 4.4) as drawn:
        axes = drawn.subplots()
        if len(found.pairs):
            _draw_answers(axes, found, factor)
        else:
            axes.annotate(
                found.why_empty,
                (0.5, 0.5),
                xycoords="axes fraction",
                ha="center",
                va="center",
                wrap=True,
                fontsize=11,
            )
        axes.set_xlabel(
            f"largest blanks of both paths together ({'mm' if system == 'metric' else 'in'})"
        )
        axes.set_ylabel("tooth strength over load")
        headline(
            drawn,
            f"{len(found.pairs)} ways to cut both paths; the line is what no other beats",
        )
    return drawn


def _draw_answers(axes: Axes, found: Found, factor: float) -> None:
    """All answers as dots, those that no other beats joined, some of them named."""
    size, best = found.size * factor, found.front()
    axes.plot(size, found.spare, ".", ms=3, color=COLOURS["quiet"], alpha=0.4, rasterized=True)
    axes.plot(
        size[best],
        found.spare[best],
        "o-",
        color=COLOURS["first"],
        mec=COLOURS["ink"],
        drawstyle="steps-post",
    )
    for row in best[:: max(1, len(best) // 4)]:
        i, j = found.pairs[row]
        words = f"{'-'.join(map(str, found.direct.counts[i]))} / {'-'.join(map(str, found.idler.counts[j]))}"
        beside(axes, words, (size[row], found.spare[row]), (6, -12), 8)
    axes.margins(x=0.14, y=0.16)
