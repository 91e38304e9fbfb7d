"""Pictures of motor and box: torque against speed, and the two ends of the box."""

from __future__ import annotations

import numpy as np
from matplotlib.axes import Axes
from matplotlib.figure import Figure

from mixerkit.drive import motor, reducer
from mixerkit.machine import Machine
from mixerkit.parts.reduction import drive_efficiency, drive_ratio, total_efficiency, total_ratio
from mixerkit.parts.zones import BOX, seat
from mixerkit.show.style import COLOURS, beside, box, figure, headline, to_scale
from mixerkit.units import show, shown_scale

__all__ = ["motor_and_box"]


def motor_and_box(machine: Machine) -> Figure:
    """Draw the motor's torque against speed with what the clay asks, and the box with its ends.

    Parameters
    ----------
    machine : Machine

    Returns
    -------
    matplotlib.figure.Figure
    """
    with figure(10.5, 4.8) as drawn:
        left, right = drawn.subplots(1, 2, width_ratios=[1.45, 1])
        _curve(left, machine)
        _ends(right, machine)
        fed = machine.design.motor.fed_by
        headline(drawn, f"Motor ({machine.design.motor.kind}, fed by {fed}) and reduction box")
    return drawn


def _curve(axes: Axes, machine: Machine) -> None:
    system = machine.system
    scale, label = shown_scale("N*m", system)
    able = machine.power_flow.abilities
    speeds = np.linspace(0, able.field, 300)
    torque = motor.torque_curve(machine.design, speeds)
    axes.plot(speeds, torque * scale, color=COLOURS["first"], lw=2.4)
    beside(axes, "motor", (speeds[90], torque[90] * scale), (0, 6), 10)
    axes.axhline(able.lasting * scale, color=COLOURS["first"], lw=1.2, ls="--")
    words = f"all day: {show(able.lasting, 'N*m', system)}"
    at = (able.field * 0.6, able.lasting * scale)
    beside(axes, words, at, (0, 3), ha="right", va="bottom")
    start = float(machine.power_flow.torque_at_motor[machine.load_cases.starting].max())
    mixing = float(machine.power_flow.torque_at_motor[machine.load_cases.mixing].max())
    speed = float(np.abs(machine.power_flow.speed_while_mixing).max())
    for x, y, mark, words, place in (
        (0.0, start, "s", "clay asks, starting", (8, 0)),
        (speed, mixing, "o", "clay asks,\nmixing", (-8, -4)),
    ):
        axes.plot(
            x,
            y * scale,
            mark,
            ms=9,
            color=COLOURS["second"],
            mec=COLOURS["ink"],
            clip_on=False,
            zorder=5,
        )
        beside(
            axes,
            f"{words}: {show(y, 'N*m', system)}",
            (x, y * scale),
            place,
            ha="left" if place[0] > 0 else "right",
            va="center" if place[0] > 0 else "top",
        )
    axes.set_xlim(0, able.field * 1.02)
    axes.set_ylim(0, max(float(torque.max()), start, mixing) * scale * 1.18)
    axes.set_xlabel("motor speed (rpm)")
    axes.set_ylabel(f"torque ({label})")


def _ends(axes: Axes, machine: Machine) -> None:
    """Sketch the box with its fast and its slow end, each named and with its measured bore."""
    spec, system = machine.design, machine.design.show_units
    bought = spec.reducer
    box(axes, (3, 2), 4, 4, fc=COLOURS["fill"], ec=COLOURS["ink"], lw=1.6)
    box(axes, (0.4, 4.4), 2.6, 1.4, fc="white", ec=COLOURS["ink"], lw=1.2)
    axes.annotate("motor", (1.7, 5.1), ha="center", va="center", fontsize=9)
    box(axes, (7, 2.5), 2.6, 0.9, fc=COLOURS["quiet"], ec=COLOURS["ink"], lw=1.2)
    axes.annotate("shaft 1", (8.9, 2.95), ha="center", va="center", fontsize=9, color="white")
    axes.annotate(
        f"{bought.kind}\n{bought.ratio:g} : 1", (5, 4.6), ha="center", va="center", fontsize=11
    )
    able = machine.power_flow.abilities
    slow = machine.running_speed
    rated = able.rated * drive_ratio(spec) * drive_efficiency(spec)
    lasting = able.lasting * total_ratio(spec) * total_efficiency(spec)
    axes.annotate(
        f"FAST END\nbore {show(bought.input_bore, 'mm', system, 4)}\n{show(rated, 'N*m', system)}, {show(slow * bought.ratio, 'rpm')}",
        (3, 5.9),
        xytext=(1.4, 7.4),
        ha="center",
        va="center",
        fontsize=9,
        arrowprops={"arrowstyle": "-", "lw": 0.8},
    )
    axes.annotate(
        f"SLOW END, hollow\nbore {show(bought.output_bore, 'mm', system, 4)}\n{show(lasting, 'N*m', system)}, {show(slow, 'rpm')}",
        (7, 2.4),
        xytext=(7.9, 0.7),
        ha="center",
        va="center",
        fontsize=9,
        arrowprops={"arrowstyle": "-", "lw": 0.8},
    )
    wall = reducer.adapting_bush(bought.output_bore, seat(spec, 1, BOX)).wall
    bush = (
        f"bush, wall {show(wall, 'mm', system)}"
        if wall > 0
        else "no bush"
        if wall == 0
        else "shaft too thick"
    )
    axes.annotate(
        bush,
        (7, 3.4),
        xytext=(8.6, 4.6),
        ha="center",
        fontsize=9,
        arrowprops={"arrowstyle": "-", "lw": 0.8},
    )
    axes.set_xlim(0, 10.4)
    axes.set_ylim(0, 8.4)
    to_scale(axes)
    axes.set_title("The box and its two ends (sketch)", fontsize=10)
