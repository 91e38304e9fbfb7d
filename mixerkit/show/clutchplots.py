"""Pictures of the dog clutch: its three positions, and the face of its dogs."""

from __future__ import annotations

from math import pi

import numpy as np
from matplotlib.axes import Axes
from matplotlib.figure import Figure
from matplotlib.patches import Polygon

from mixerkit.drive import dogclutch
from mixerkit.machine import Machine
from mixerkit.parts.along import clutch_middle
from mixerkit.show.style import COLOURS, HATCHES, box, figure, headline, to_scale
from mixerkit.spec import Clutch, Spec
from mixerkit.units import show

__all__ = ["clutch_positions", "draw_sleeve"]


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
                box(
                    each,
                    (left, -one.outer_diameter * 0.62),
                    path.face_width,
                    one.outer_diameter * 1.24,
                    fc="white",
                    ec=COLOURS[key],
                    lw=1.8,
                    hatch=HATCHES[key],
                )
            box(
                each,
                (low - 40, -one.inner_diameter * 0.3),
                high - low + 80,
                one.inner_diameter * 0.6,
                fc=COLOURS["fill"],
                ec=COLOURS["ink"],
                lw=0.8,
            )
            draw_sleeve(each, spec, 0.0, position)
            each.set_xlim(low - 32, high + 32)
            each.set_ylim(-one.outer_diameter * 0.75, one.outer_diameter * 0.75)
            to_scale(each)
            each.set_title(words[position], fontsize=10)
        _draw_dogs(axes[3], one)
        headline(
            drawn,
            "Dog clutch: the three positions of the sleeve, and one face",
        )
    return drawn


def draw_sleeve(axes: Axes, spec: Spec, y: float, position: str) -> None:
    """Draw the sleeve on its shaft, and the dogs of both free gears, in plan."""
    one, at = spec.clutch, dogclutch.positions(spec)
    direct, idler = spec.paths.direct, spec.paths.idler
    middle = clutch_middle(spec)
    towards = (
        np.sign(getattr(spec.paths, position).position - middle) if position != "neutral" else 0.0
    )
    start = middle + towards * at.travel - one.sleeve_length / 2
    box(
        axes,
        (start, y - one.outer_diameter / 2),
        one.sleeve_length,
        one.outer_diameter,
        fc=COLOURS["third"],
        ec=COLOURS["ink"],
        lw=1.4,
        alpha=0.85,
    )
    groove = one.sleeve_length * 0.22
    for side in (-1, 1):
        top = y + side * one.outer_diameter / 2
        box(
            axes,
            (start + one.sleeve_length / 2 - groove / 2, min(top, top - side * 8)),
            groove,
            8,
            fc="white",
            ec=COLOURS["ink"],
            lw=1,
        )
    for path, side in (
        (direct, np.sign(middle - direct.position)),
        (idler, np.sign(middle - idler.position)),
    ):
        face = path.position + side * path.face_width / 2
        for edge in (-1, 1):
            height = (one.outer_diameter - one.inner_diameter) / 2
            low = y + edge * one.inner_diameter / 2 if edge > 0 else y - one.outer_diameter / 2
            box(
                axes,
                (min(face, face + side * one.dog_height), low),
                one.dog_height,
                height,
                fc=COLOURS["quiet"],
                ec=COLOURS["ink"],
                lw=0.8,
            )


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
    to_scale(axes)
    axes.set_title(f"{one.dogs} dogs, play {one.angular_play:g} deg", fontsize=10)
