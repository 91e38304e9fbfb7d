"""Pictures of a jam: what gives way first, and its torque through time."""

from __future__ import annotations

from collections.abc import Callable

import numpy as np
from matplotlib.axes import Axes
from matplotlib.figure import Figure

from mixerkit.drive import fuses, jam, motor, transient
from mixerkit.drive.ladder import Rung
from mixerkit.drive.motor import STANDS
from mixerkit.machine import Machine
from mixerkit.parts.reduction import total_efficiency, total_ratio
from mixerkit.results import Rotation
from mixerkit.show.style import COLOURS, HATCHES, above, beside, figure, headline
from mixerkit.spec import Spec
from mixerkit.units import show, shown_scale

__all__ = ["jam_in_time", "ladder"]


def ladder(machine: Machine, most: int = 16) -> Figure:
    """Draw what gives way first in a jam: each part from its yield to its break.

    Parameters
    ----------
    machine : Machine
    most : int
        How many of the weakest parts to draw.

    Returns
    -------
    matplotlib.figure.Figure
    """
    system = machine.design.show_units
    scale, label = shown_scale("N*m", system)
    rungs, cases, flow = machine.ladder[:most], machine.load_cases, machine.power_flow
    at_box, in_jam = flow.torque_at_box_output, float(flow.jam_torque_without_fuse.max())
    marks = [
        (float(at_box[cases.mixing].max()), "mixing", "third", ":"),
        (float(at_box[cases.starting].max()), "start", "first", "-"),
        (float(flow.greatest), "motor at most", "fourth", "-."),
        (in_jam, "jam without a fuse", "fails", "--"),
    ]
    with figure(10.0, 1.8 + 0.36 * len(rungs)) as drawn:
        axes = drawn.subplots()
        for row, one in enumerate(rungs):
            _draw_rung(axes, row, one, scale)
        for k, (torque, words, colour, style) in enumerate(marks):
            axes.axvline(torque * scale, color=COLOURS[colour], lw=1.6, ls=style, zorder=0)
            said = f"{words}\n{show(torque, 'N*m', system)}"
            above(axes, said, torque * scale, 3 + 24 * (k % 3), 8.5)
        axes.set_yticks([])
        axes.spines["left"].set_visible(False)
        axes.set_ylim(-0.7, len(rungs) - 0.3)
        furthest = max([one.yields for one in rungs] + [in_jam])
        axes.set_xlim(-0.35 * furthest * scale, 1.15 * furthest * scale)
        axes.set_xticks(
            [tick for tick in axes.get_xticks() if 0 <= tick <= 1.15 * furthest * scale]
        )
        axes.set_xlabel(f"torque at the slow end of the box ({label}); bar: from yield to break")
        headline(drawn, "What gives way first in a jam, weakest at the bottom")
    return drawn


def _draw_rung(axes: Axes, row: int, one: Rung, scale: float) -> None:
    """A part from its yield to its break, its name before it."""
    yields = one.yields * scale
    axes.barh(
        row,
        (one.breaks - one.yields) * scale,
        left=yields,
        height=0.62,
        color=COLOURS["second" if one.is_fuse else "fill"],
        edgecolor=COLOURS["ink"],
        hatch=HATCHES["second"] if one.is_fuse else "",
        lw=0.9,
    )
    axes.plot([0, yields], [row, row], color=COLOURS["quiet"], lw=0.5, ls=":")
    beside(
        axes,
        f"{one.name[0].upper()}{one.name[1:]}",
        (yields, row),
        (-4, 0),
        8.5,
        ha="right",
        va="center",
        weight="bold" if one.is_fuse else "normal",
        bbox={"fc": "white", "ec": "none", "pad": 0.6, "alpha": 0.85},
    )


def worst_jam(machine: Machine) -> tuple[str, int]:
    """Clutch position and shaft whose jam winds up most."""
    found = jam.stall_torques(machine.design, float(machine.power_flow.greatest))
    return max(found, key=found.__getitem__)


def _motor_at_slow_end(spec: Spec) -> Callable[[float], float]:
    """The motor's curve as it arrives at the slow end: torque in N*m by speed in rad/s."""
    able, ratio = motor.abilities(spec), total_ratio(spec)
    turns = np.linspace(0.0, able.field, 200)
    torque = motor.torque_curve(spec, turns) * ratio * total_efficiency(spec)
    slow = turns / ratio * np.pi / 30
    return lambda speed: float(np.interp(max(speed, 0.0), slow, torque))


def jam_in_time(machine: Machine) -> Figure:
    """Draw the torque of the worst jam through time, with and without the fuse.

    Parameters
    ----------
    machine : Machine

    Returns
    -------
    matplotlib.figure.Figure
    """
    if machine.running_speed <= 0:
        with figure(10.0, 4.2) as drawn:
            headline(drawn, f"No jam to show: {STANDS}")
        return drawn
    spec, system = machine.design, machine.design.show_units
    scale, label = shown_scale("N*m", system)
    clutch, jammed = worst_jam(machine)
    free = _followed(machine, clutch, jammed)
    greatest = float(machine.power_flow.greatest)
    closed = float(jam.stall_torques(spec, greatest)[clutch, jammed])
    with figure(10.0, 4.2) as drawn:
        axes = drawn.subplots()
        axes.plot(1e3 * free.time, free.torque[0] * scale, color=COLOURS["first"], lw=1.6)
        peak = (1e3 * free.time[free.torque[0].argmax()], free.torque[0].max() * scale)
        beside(axes, "without a fuse", peak, (0, -14), 9.5, ha="center")
        low, high = fuses.fuse_torques(spec)
        if np.isfinite(high):
            cut = _followed(machine, clutch, jammed, breaks_at=high)
            axes.plot(
                1e3 * cut.time, cut.torque[0] * scale, color=COLOURS["second"], lw=2.2, ls="--"
            )
            if cut.broke:
                words = f"fuse gives after {1e3 * cut.broke:.3g} ms"
                beside(axes, words, (1e3 * cut.broke, high * scale), (8, 2), 9.5)
            axes.axhspan(low * scale, high * scale, color=COLOURS["second"], alpha=0.18, lw=0)
        axes.axhline(closed * scale, color=COLOURS["ink"], lw=1.0, ls=":")
        axes.annotate(
            f"at most, by energy: {show(closed, 'N*m', system)}",
            (0.995, closed * scale),
            xycoords=("axes fraction", "data"),
            ha="right",
            va="bottom",
            fontsize=9.5,
        )
        axes.set_xlabel("after the paddle is stopped (ms)")
        axes.set_ylabel(f"torque at the slow end ({label})")
        axes.set_ylim(0, 1.18 * max(closed, free.peak) * scale)
        headline(drawn, f"A paddle of shaft {jammed} stopped dead, clutch on {clutch}")
    return drawn


_FIRST = ("reduction box", "motor drive")
"""Springs between the rotor and the box's own wheels."""


def _followed(machine: Machine, clutch: str, jammed: int, breaks_at: float = np.inf) -> Rotation:
    """A jam followed through time, with a fuse that breaks at some torque or without."""
    one = jam.train(machine.design, clutch, jammed)
    springs = dict(one.springs)
    # what sits between motor and box winds up on the rotor's side of the box's wheels
    first = 1 / sum(1 / springs.pop(name) for name in _FIRST if name in springs)
    return transient.transient(
        # the box's own wheels are a small mass between the two springs
        [one.inertia, 0.002 * one.inertia],
        [first, 1 / sum(1 / spring for spring in springs.values())],
        machine.empty_speed * np.pi / 30,
        accuracy=1e-6,
        steps=500,
        play=one.play,
        drive=_motor_at_slow_end(machine.design),
        damping=0.02,
        breaks_at=breaks_at,
    )
