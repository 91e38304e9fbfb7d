"""Pictures of gears and clutch: a mesh with its line of action, the train in plan, the clutch."""

from __future__ import annotations

from math import pi

import numpy as np
from matplotlib.axes import Axes
from matplotlib.figure import Figure
from matplotlib.patches import Polygon, Rectangle

from mixerkit.drive import dogclutch
from mixerkit.explore.paths import Found
from mixerkit.machine import Machine
from mixerkit.parts import gear_pairs, outline, spurgear
from mixerkit.show.style import COLOURS, HATCHES, figure
from mixerkit.spec import Clutch, GearPath, Spec
from mixerkit.units import show

__all__ = ["clutch_positions", "front", "mesh_picture", "plan"]


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
        axes.set_aspect("equal")
        axes.set_axis_off()
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
    axes.annotate(
        "line of action",
        (point + line[0] * 0.72, line[1] * 0.72),
        xytext=(10, 4),
        textcoords="offset points",
        fontsize=10,
        bbox={"fc": "white", "ec": "none", "pad": 1},
    )
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
            axes.add_patch(Rectangle((left, -95), 8, apart + 190, fc=COLOURS["ink"], ec="none"))
        for y, number in ((apart, 1), (0.0, 2)):
            size = getattr(spec, f"shaft_{number}").diameter
            axes.add_patch(
                Rectangle(
                    (-30, y - size / 2),
                    spacing + 60,
                    size,
                    fc=COLOURS["fill"],
                    ec=COLOURS["ink"],
                    lw=1,
                )
            )
            axes.annotate(f"shaft {number}", (spacing + 34, y), va="center", fontsize=10)
        for name, key in (("direct", "first"), ("idler", "second")):
            path = getattr(spec.paths, name)
            for place, y in ((0, apart), (-1, 0.0)):
                tip = float(
                    spurgear.tip_diameter.formula(
                        path.module, path.tooth_counts[place], gear_pairs.shifts_of(path)[place]
                    )
                )
                axes.add_patch(
                    Rectangle(
                        (path.position - path.face_width / 2, y - tip / 2),
                        path.face_width,
                        tip,
                        fc="white",
                        ec=COLOURS[key],
                        lw=2,
                        hatch=HATCHES[key],
                    )
                )
                words = f"{name}\n{path.tooth_counts[place]} teeth"
                axes.annotate(
                    words,
                    (path.position, y + tip * 0.34),
                    ha="center",
                    va="center",
                    fontsize=9,
                    bbox={"fc": "white", "ec": "none", "pad": 1},
                )
        _draw_sleeve(
            axes,
            spec,
            apart if spec.clutch.shaft == 1 else 0.0,
            machine.design.clutch.drawn_in,
        )
        axes.annotate("", (0, -92), (spacing, -92), arrowprops={"arrowstyle": "<|-|>", "lw": 0.8})
        axes.annotate(
            f"{show(spacing, 'mm', system, 4)} between the plates",
            (spacing / 2, -90),
            ha="center",
            va="bottom",
            fontsize=9,
            bbox={"fc": "white", "ec": "none", "pad": 1},
        )
        axes.set_xlim(-40, spacing + 75)
        axes.set_ylim(-108, apart + 100)
        axes.set_aspect("equal")
        axes.set_axis_off()
        axes.set_title(
            f"Gear case in plan, reduction box to the left; the idler stands {spec.housing.idler_side} this plane",
            fontsize=10,
        )
    return drawn


def _draw_sleeve(axes: Axes, spec: Spec, y: float, position: str) -> None:
    one, at = spec.clutch, dogclutch.positions(spec)
    direct, idler = spec.paths.direct, spec.paths.idler
    ends = sorted((direct.position, idler.position))
    middle = sum(ends) / 2
    towards = (
        np.sign(getattr(spec.paths, position).position - middle) if position != "neutral" else 0.0
    )
    start = middle + towards * at.travel - one.sleeve_length / 2
    axes.add_patch(
        Rectangle(
            (start, y - one.outer_diameter / 2),
            one.sleeve_length,
            one.outer_diameter,
            fc=COLOURS["third"],
            ec=COLOURS["ink"],
            lw=1.4,
            alpha=0.85,
        )
    )
    groove = one.sleeve_length * 0.22
    for side in (-1, 1):
        top = y + side * one.outer_diameter / 2
        axes.add_patch(
            Rectangle(
                (start + one.sleeve_length / 2 - groove / 2, min(top, top - side * 8)),
                groove,
                8,
                fc="white",
                ec=COLOURS["ink"],
                lw=1,
            )
        )
    for path, side in (
        (direct, np.sign(middle - direct.position)),
        (idler, np.sign(middle - idler.position)),
    ):
        face = path.position + side * path.face_width / 2
        for edge in (-1, 1):
            height = (one.outer_diameter - one.inner_diameter) / 2
            low = y + edge * one.inner_diameter / 2 if edge > 0 else y - one.outer_diameter / 2
            axes.add_patch(
                Rectangle(
                    (min(face, face + side * one.dog_height), low),
                    one.dog_height,
                    height,
                    fc=COLOURS["quiet"],
                    ec=COLOURS["ink"],
                    lw=0.8,
                )
            )


def clutch_positions(machine: Machine) -> Figure:
    """Draw the clutch in its three positions, and the face of its dogs, to scale.

    Parameters
    ----------
    machine : Machine

    Returns
    -------
    matplotlib.figure.Figure
    """
    spec, system = machine.design, machine.design.show_units
    one, at = spec.clutch, dogclutch.positions(spec)
    words = {
        "direct": f"direct: overlap {show(one.overlap, 'mm', system)}",
        "neutral": f"neutral: gap {show(at.gap, 'mm', system)} each side",
        "idler": f"idler: far gap {show(at.other, 'mm', system)}",
    }
    with figure(10.5, 4.6) as drawn:
        axes = drawn.subplots(1, 4, width_ratios=[1, 1, 1, 0.9])
        for each, position in zip(axes[:3], ("direct", "neutral", "idler"), strict=True):
            low, high = sorted((spec.paths.direct.position, spec.paths.idler.position))
            for path, key in ((spec.paths.direct, "first"), (spec.paths.idler, "second")):
                left = path.position - path.face_width / 2
                each.add_patch(
                    Rectangle(
                        (left, -one.outer_diameter * 0.62),
                        path.face_width,
                        one.outer_diameter * 1.24,
                        fc="white",
                        ec=COLOURS[key],
                        lw=1.8,
                        hatch=HATCHES[key],
                    )
                )
            each.add_patch(
                Rectangle(
                    (low - 40, -one.inner_diameter * 0.3),
                    high - low + 80,
                    one.inner_diameter * 0.6,
                    fc=COLOURS["fill"],
                    ec=COLOURS["ink"],
                    lw=0.8,
                )
            )
            _draw_sleeve(each, spec, 0.0, position)
            each.set_xlim(low - 32, high + 32)
            each.set_ylim(-one.outer_diameter * 0.75, one.outer_diameter * 0.75)
            each.set_aspect("equal")
            each.set_axis_off()
            each.set_title(words[position], fontsize=10)
        _draw_dogs(axes[3], one)
        drawn.suptitle(
            "Dog clutch: the three positions of the sleeve, and one face",
            x=0.01,
            ha="left",
            fontsize=12,
        )
    return drawn


def _draw_dogs(axes: Axes, one: Clutch) -> None:
    width = pi / one.dogs - np.radians(one.angular_play) / 2
    for k in range(one.dogs):
        middle = 2 * pi * k / one.dogs + pi / 2
        arc = np.linspace(middle - width / 2, middle + width / 2, 30)
        outer = one.outer_diameter / 2 * np.column_stack([np.cos(arc), np.sin(arc)])
        inner = one.inner_diameter / 2 * np.column_stack([np.cos(arc[::-1]), np.sin(arc[::-1])])
        axes.add_patch(
            Polygon(
                np.vstack([outer, inner]),
                closed=True,
                fc=COLOURS["third"],
                ec=COLOURS["ink"],
                lw=1.4,
            )
        )
    reach = one.outer_diameter * 0.55
    axes.set_xlim(-reach, reach)
    axes.set_ylim(-reach, reach)
    axes.set_aspect("equal")
    axes.set_axis_off()
    axes.set_title(f"{one.dogs} dogs, play {one.angular_play:g} deg", fontsize=10)


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
            axes.plot(
                found.size * factor,
                found.spare,
                ".",
                ms=3,
                color=COLOURS["quiet"],
                alpha=0.4,
                rasterized=True,
            )
            best = found.front()
            axes.plot(
                found.size[best] * factor,
                found.spare[best],
                "o-",
                color=COLOURS["first"],
                mec=COLOURS["ink"],
                drawstyle="steps-post",
            )
            for row in best[:: max(1, len(best) // 4)]:
                i, j = found.pairs[row]
                label = f"{'-'.join(map(str, found.direct.counts[i]))} / {'-'.join(map(str, found.idler.counts[j]))}"
                axes.annotate(
                    label,
                    (found.size[row] * factor, found.spare[row]),
                    xytext=(6, -12),
                    textcoords="offset points",
                    fontsize=8,
                )
            axes.margins(x=0.14, y=0.16)
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
        drawn.suptitle(
            f"{len(found.pairs)} ways to cut both paths; the line is what no other beats",
            x=0.01,
            ha="left",
            fontsize=12,
        )
    return drawn
