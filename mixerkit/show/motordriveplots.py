"""Pictures of what sits between motor and box: flange or coupling in section, belts or chain to scale."""

from __future__ import annotations

import numpy as np
from matplotlib.axes import Axes
from matplotlib.figure import Figure
from matplotlib.patches import Circle

from mixerkit.drive.motor_drive import PULLED, Wheels, rim_speed, wheels
from mixerkit.machine import Machine
from mixerkit.show.style import COLOURS, beside, box, figure, headline, to_scale
from mixerkit.units import show

__all__ = ["motor_drive"]


def motor_drive(machine: Machine) -> Figure:
    """Draw belts or chain round both wheels to scale, or the flange or coupling as a sketch.

    Parameters
    ----------
    machine : Machine

    Returns
    -------
    matplotlib.figure.Figure
    """
    kind = machine.design.motor_drive.kind
    with figure(9.0, 4.0) as drawn:
        axes = drawn.subplots()
        if kind in PULLED:
            _wheels(axes, machine, wheels(machine.design))
        else:
            _in_line(axes, machine)
        to_scale(axes)
        scale = "to scale" if kind in PULLED else "sketch, not to scale"
        headline(drawn, f"Between motor and box: {kind} ({scale})")
    return drawn


def _wheels(axes: Axes, machine: Machine, both: Wheels) -> None:
    """Both wheels with the belt or chain, and the angle over which it lies on each."""
    system = machine.system
    speed = machine.power_flow.abilities.field
    slow = machine.empty_speed * machine.design.reducer.ratio
    ends = ((0.0, both.motor, "motor", speed), (both.centre, both.box, "box", slow))
    lean = np.arcsin((both.box - both.motor) / 2 / both.centre) if both.clear else np.nan
    for along, across, name, turns in ends:
        radius = across / 2
        axes.add_patch(Circle((along, 0), radius, fc=COLOURS["fill"], ec=COLOURS["ink"], lw=1.2))
        axes.plot(along, 0, "+", color=COLOURS["ink"], ms=10)
        words = f"{name}, {show(across, 'mm', system)}\n{show(turns, 'rpm')}"
        # the tight flanks leave each wheel square to its radius
        half = np.pi / 2 + (lean if name == "box" else -lean)
        middle = 0.0 if name == "box" else np.pi
        if both.clear:
            angles = np.linspace(middle - half, middle + half, 80)
            axes.plot(
                along + radius * np.cos(angles),
                radius * np.sin(angles),
                color=COLOURS["first"],
                lw=3.2,
            )
            words += f", wrap {np.degrees(2 * half):.0f} deg"
        beside(axes, words, (along, -radius), (0, -6), ha="center", va="top")
    if both.clear:
        for side in (1, -1):
            angle = np.pi / 2 + lean
            points = [
                (along + across / 2 * np.cos(angle), side * across / 2 * np.sin(angle))
                for along, across, _, _ in ends
            ]
            axes.plot(*zip(*points, strict=True), color=COLOURS["first"], lw=3.2)
    run = show(rim_speed(machine.design, speed), "m/s", system)
    low = -both.large / 2 - 0.2 * max(both.large, both.centre)
    axes.annotate(
        f"{show(both.centre, 'mm', system)} apart, runs in at {run}: a nip at each wheel",
        (both.centre / 2, low),
        ha="center",
        va="top",
        fontsize=9.5,
    )
    axes.set_xlim(-both.motor * 0.7, both.centre + both.box * 0.7)
    axes.set_ylim(low * 1.25, both.large * 0.7)


def _in_line(axes: Axes, machine: Machine) -> None:
    """Motor and box in line, with the flange or the coupling between them."""
    spec, system = machine.design, machine.system
    flange = spec.motor_drive.kind == "flange"
    at_box = spec.reducer.input_bore if flange else spec.reducer.input_shaft
    gap = 0.0 if flange else 2.4
    box(axes, (0, 1), 4, 3, fc=COLOURS["fill"], ec=COLOURS["ink"], lw=1.4)
    box(axes, (4 + gap, 0.6), 3.4, 3.8, fc=COLOURS["fill"], ec=COLOURS["ink"], lw=1.4)
    box(axes, (4, 2.3), 1.2, 0.4, fc=COLOURS["quiet"], ec=COLOURS["ink"])
    said = "not given" if at_box is None else show(at_box, "mm", system, 4)
    if flange:
        box(axes, (3.8, 0.4), 0.4, 4.2, fc=COLOURS["second"], ec=COLOURS["ink"], hatch="///")
        words = f"bore {said}"
    else:
        box(axes, (5.2, 2.3), 1.2, 0.4, fc=COLOURS["quiet"], ec=COLOURS["ink"])
        for left in (4.5, 5.3):
            box(axes, (left, 1.9), 0.6, 1.2, fc=COLOURS["second"], ec=COLOURS["ink"])
        box(axes, (5.1, 1.95), 0.2, 1.1, fc=COLOURS["third"], ec=COLOURS["ink"], hatch="xxx")
        words = f"shaft {said}"
    axes.annotate("motor", (2, 2.5), ha="center", va="center", fontsize=11)
    axes.annotate("box", (5.9 + gap, 3.3), ha="center", va="center", fontsize=11)
    end = show(spec.motor.shaft_end, "mm", system, 4)
    axes.annotate(f"shaft end {end}", (2, 0.6), ha="center", va="top", fontsize=9.5)
    axes.annotate(words, (5.7 + gap, 0.3), ha="center", va="top", fontsize=9.5)
    axes.set_xlim(-0.4, 10.4)
    axes.set_ylim(-0.4, 5.0)
