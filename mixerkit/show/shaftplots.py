"""Pictures of shafts, hubs, fits and the jam."""

from __future__ import annotations

from collections.abc import Callable
from functools import partial

import numpy as np
from matplotlib.axes import Axes
from matplotlib.figure import Figure
from matplotlib.patches import Polygon, Rectangle

from mixerkit.drive import fuses, jam, motor, transient
from mixerkit.drive.motor import STANDS
from mixerkit.machine import Machine
from mixerkit.parts import fits, hub_choices, shaft_checks
from mixerkit.parts.shaft_places import NAMES
from mixerkit.parts.shaftline import ShaftBeam
from mixerkit.show.style import COLOURS, HATCHES, figure
from mixerkit.spec import Spec
from mixerkit.units import show, shown_scale

__all__ = ["beam", "both_shafts", "fit_bands", "hub_torques", "jam_in_time", "ladder"]


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
    length, label = shown_scale("mm", system)
    run, stop = line.turning, line.stopped
    bent = line.bends(run.force)
    mixing = machine.load_cases.mixing[run.states]
    along = line.places * length

    def over(values: np.ndarray) -> np.ndarray:
        most: np.ndarray = values[mixing].max(axis=(0, 1))
        return most

    with figure(11.0, 8.6) as drawn:
        axes = drawn.subplots(4, 2, sharex=True, height_ratios=[1.5, 1, 1, 1])
        _profile(axes[0, 0], line, length, label)
        _needed(axes[0, 1], line, length, label, system)
        rows: list[tuple[Axes, str, str, list[tuple[np.ndarray, str, str]]]] = [
            (axes[1, 0], "Shear", "N", [(over(line.shears(run.force)), "mixing", "first")]),
            (
                axes[1, 1],
                "Bending moment",
                "N*m",
                [
                    (over(line.running.moment), "mixing", "first"),
                    (stop.moment.max(axis=(0, 1)), "jam", "second"),
                ],
            ),
            (
                axes[2, 0],
                "Torque",
                "N*m",
                [
                    (over(run.torque), "mixing", "first"),
                    (stop.torque.max(axis=(0, 1)), "jam", "second"),
                ],
            ),
            (
                axes[2, 1],
                "Twist",
                "mrad",
                [(1e3 * np.abs(over(np.abs(line.twists(run.after)))), "mixing", "first")],
            ),
            (
                axes[3, 0],
                "Deflection",
                "mm",
                [
                    (over(bent.lift), "mixing", "first"),
                    (stop.lift.max(axis=(0, 1)), "jam", "second"),
                ],
            ),
            (axes[3, 1], "Slope", "mrad", [(1e3 * over(bent.slope), "mixing", "first")]),
        ]
        for one, title, unit, curves in rows:
            scale, name = shown_scale(unit, system)
            for values, words, colour in curves:
                one.plot(
                    along,
                    values * scale,
                    color=COLOURS[colour],
                    lw=1.8,
                    ls="-" if colour == "first" else "--",
                    marker="o",
                    ms=2.5,
                )
                if len(curves) > 1:
                    top = int(np.argmax(values))
                    one.annotate(
                        words,
                        (along[top], values[top] * scale),
                        xytext=(4, 3),
                        textcoords="offset points",
                        color=COLOURS["ink"],
                        fontsize=9,
                    )
            one.set_title(f"{title} ({name})", fontsize=10)
            one.set_ylim(bottom=0)
            one.margins(y=0.2)
            for place in line.supports:
                one.axvline(along[place], color=COLOURS["quiet"], lw=0.6, ls=":")
        for one in axes[3]:
            one.set_xlabel(f"from the inside of the plate at the reducer ({label})", fontsize=9)
        drawn.suptitle(
            f"Shaft {number}: the most it feels at each place, over all states and a whole turn",
            x=0.01,
            ha="left",
            fontsize=12,
        )
    return drawn


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
    length, label = shown_scale("mm", system)
    with figure(11.0, 4.6) as drawn:
        axes = drawn.subplots(2, 2, width_ratios=[1.2, 1])
        for row, line in enumerate(machine.shaft_beams):
            _profile(axes[row, 0], line, length, label)
            _needed(axes[row, 1], line, length, label, system)
            axes[row, 0].set_title(
                f"Shaft {line.number} ({label}); triangles: bearings, bars: paddles", fontsize=10
            )
    return drawn


def _profile(axes: Axes, line: ShaftBeam, length: float, label: str) -> None:
    """The shaft itself, to scale along and across, with what sits on it."""
    places, radii = line.places * length, line.segments * length / 2
    for left, right, radius in zip(places[:-1], places[1:], radii, strict=True):
        axes.add_patch(
            Rectangle(
                (left, -radius),
                right - left,
                2 * radius,
                fc=COLOURS["fill"],
                ec=COLOURS["ink"],
                lw=0.8,
            )
        )
    most = radii.max()
    spec = line.machine.spec
    if spec.sleeve.kind != "none":
        outer, wall = spec.paddles.root_radius * length, spec.sleeve.wall * length
        for base in (outer - wall, -outer):
            axes.add_patch(
                Rectangle(
                    (line.trough[0] * length, base),
                    (line.trough[1] - line.trough[0]) * length,
                    wall,
                    fc="none",
                    ec=COLOURS["third"],
                    hatch="////",
                    lw=0.8,
                )
            )
        most = max(most, outer)
    for place, name in zip(line.supports, NAMES, strict=True):
        at = places[place]
        size = 0.5 * most
        axes.add_patch(
            Polygon(
                [(at, -most), (at - size, -most - 1.4 * size), (at + size, -most - 1.4 * size)],
                fc=COLOURS["quiet"],
                ec=COLOURS["ink"],
                lw=0.6,
            )
        )
        del name
    for name, place in line.gears.items():
        path = getattr(spec.paths, name)
        tall = path.module * path.tooth_counts[0 if line.number == 1 else -1] / 2 * length
        wide = path.face_width * length
        axes.add_patch(
            Rectangle(
                (places[place] - wide / 2, -tall),
                wide,
                2 * tall,
                fc="none",
                ec=COLOURS["first"],
                lw=1.4,
            )
        )
        axes.annotate(
            name,
            (places[place], tall),
            xytext=(0, 2),
            textcoords="offset points",
            ha="center",
            fontsize=8,
        )
        most = max(most, tall)
    for place in line.paddles:
        axes.plot([places[place]] * 2, [0, most], color=COLOURS["second"], lw=2.2)
    if line.box is not None:
        axes.annotate(
            "box",
            (places[line.box], radii[0]),
            xytext=(0, 4),
            textcoords="offset points",
            ha="center",
            fontsize=8,
        )
    axes.set_aspect("equal", adjustable="datalim")
    axes.set_yticks([])
    axes.spines["left"].set_visible(False)
    axes.set_title(f"To scale ({label}); triangles: bearings, bars: paddles", fontsize=10)


def _needed(axes: Axes, line: ShaftBeam, length: float, label: str, system: str) -> None:
    """Diameter asked at each place by all rules, by torsion alone, and what is there."""
    along, needed = line.places * length, shaft_checks.needed_along(line) * length
    torsion = shaft_checks.needed_along(line, torsion_alone=True) * length
    axes.step(along, line.diameters * length, where="mid", color=COLOURS["ink"], lw=2.0)
    axes.plot(along, needed, color=COLOURS["first"], lw=1.8, marker="o", ms=3)
    axes.plot(along, torsion, color=COLOURS["second"], lw=1.6, ls="--", marker="s", ms=3)
    top = int(np.argmax(needed))
    axes.annotate(
        "all rules ask",
        (along[top], needed[top]),
        xytext=(6, 4),
        textcoords="offset points",
        fontsize=9,
    )
    axes.annotate(
        "torsion alone asks",
        (along[1], torsion[1]),
        xytext=(6, -12),
        textcoords="offset points",
        fontsize=9,
    )
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
    rungs, flow = machine.ladder[:most], machine.power_flow
    marks = [
        (float(flow.torque_at_box_output[machine.load_cases.mixing].max()), "mixing", "third", ":"),
        (
            float(flow.torque_at_box_output[machine.load_cases.starting].max()),
            "start",
            "first",
            "-",
        ),
        (float(flow.greatest), "motor at most", "fourth", "-."),
        (float(flow.jam_torque_without_fuse.max()), "jam without a fuse", "fails", "--"),
    ]
    with figure(10.0, 1.8 + 0.36 * len(rungs)) as drawn:
        axes = drawn.subplots()
        for row, one in enumerate(rungs):
            face = COLOURS["second"] if one.is_fuse else COLOURS["fill"]
            axes.barh(
                row,
                (one.breaks - one.yields) * scale,
                left=one.yields * scale,
                height=0.62,
                color=face,
                edgecolor=COLOURS["ink"],
                hatch=HATCHES["second"] if one.is_fuse else "",
                lw=0.9,
            )
            axes.plot([0, one.yields * scale], [row, row], color=COLOURS["quiet"], lw=0.5, ls=":")
            axes.annotate(
                f"{one.name[0].upper()}{one.name[1:]}",
                (one.yields * scale, row),
                xytext=(-4, 0),
                textcoords="offset points",
                ha="right",
                va="center",
                fontsize=8.5,
                weight="bold" if one.is_fuse else "normal",
                bbox={"fc": "white", "ec": "none", "pad": 0.6, "alpha": 0.85},
            )
        for k, (torque, words, colour, style) in enumerate(marks):
            axes.axvline(torque * scale, color=COLOURS[colour], lw=1.6, ls=style, zorder=0)
            axes.annotate(
                f"{words}\n{show(torque, 'N*m', system)}",
                (torque * scale, 1.0),
                xycoords=("data", "axes fraction"),
                xytext=(0, 3 + 24 * (k % 3)),
                textcoords="offset points",
                ha="center",
                va="bottom",
                fontsize=8.5,
            )
        axes.set_yticks([])
        axes.spines["left"].set_visible(False)
        axes.set_ylim(-0.7, len(rungs) - 0.3)
        furthest = max([one.yields for one in rungs] + [marks[-1][0]])
        axes.set_xlim(-0.35 * furthest * scale, 1.15 * furthest * scale)
        axes.set_xticks(
            [tick for tick in axes.get_xticks() if 0 <= tick <= 1.15 * furthest * scale]
        )
        axes.set_xlabel(f"torque at the slow end of the box ({label}); bar: from yield to break")
        drawn.suptitle(
            "What gives way first in a jam, weakest at the bottom", x=0.01, ha="left", fontsize=12
        )
    return drawn


def hub_torques(machine: Machine, number: int = 2) -> Figure:
    """Draw what every way to fix a gear on a shaft would carry, against what is asked.

    Parameters
    ----------
    machine : Machine
    number : int
        Shaft 1 or 2.

    Returns
    -------
    matplotlib.figure.Figure
    """
    system = machine.system
    scale, label = shown_scale("N*m", system)

    def say(value: float, unit: str) -> str:
        return show(value, unit, system)

    listed = hub_choices.hub_rows(machine.spec, number, system, say)
    torque = (
        machine.power_flow.paddles[1] if number == 2 else machine.power_flow.torque_at_box_output
    )
    marks = [
        ("mixing", float(torque[machine.load_cases.mixing].max()), "third", ":"),
        ("jam", float(torque[machine.load_cases.jammed].max()), "fails", "--"),
    ]
    with figure(10.0, 4.2) as drawn:
        axes = drawn.subplots()
        for row, one in enumerate(listed):
            holds = one.torque >= marks[1][1] * machine.spec.safety.hub
            axes.barh(
                row,
                one.torque * scale,
                height=0.6,
                color=COLOURS["first" if holds else "quiet"],
                hatch="" if holds else HATCHES["second"],
                edgecolor="white",
            )
            axes.annotate(
                f"{show(one.torque, 'N*m', system)}: {one.weakest}",
                (one.torque * scale, row),
                xytext=(5, 0),
                textcoords="offset points",
                va="center",
                fontsize=9,
                zorder=5,
                bbox={"fc": "white", "ec": "none", "pad": 0.8, "alpha": 0.9},
            )
        for k, (words, value, colour, style) in enumerate(marks):
            axes.axvline(value * scale, color=COLOURS[colour], ls=style, lw=1.8, zorder=1)
            axes.annotate(
                f"{words} {show(value, 'N*m', system)}",
                (value * scale, 1.0),
                xycoords=("data", "axes fraction"),
                xytext=(0, 3 + 13 * k),
                textcoords="offset points",
                ha="center",
                va="bottom",
                fontsize=9,
            )
        axes.set_yticks(range(len(listed)), [one.name for one in listed])
        axes.invert_yaxis()
        axes.set_xlim(0, max(one.torque for one in listed) * scale * 1.45)
        axes.set_xlabel(f"torque at which the weakest element yields or slips ({label})")
        drawn.suptitle(
            f"Which hub for this torque: gear on shaft {number}, hatched ones do not outlast a jam",
            x=0.01,
            ha="left",
            fontsize=12,
        )
    return drawn


def uses(machine: Machine) -> list[tuple[str, str, float]]:
    """Fits that the design needs: use as in data/tables/fit_uses.csv, what it is here, size in mm."""
    spec = machine.design
    clutch = spec.clutch.shaft
    on, other = (
        getattr(spec, f"shaft_{clutch}").diameter,
        getattr(spec, f"shaft_{3 - clutch}").diameter,
    )
    rows = [
        ("gear keyed on its shaft", f"gears on shaft {3 - clutch}", other),
        ("clutch sleeve on its feather key", f"clutch sleeve on shaft {clutch}", on),
        ("shaft in a reamed bush", f"free gears on shaft {clutch}", on),
        ("bush in a gear or plate", "bushes in the free gears", on + 2 * spec.bearings.bush_wall),
        ("shaft in a reamed bush", "idler on its pin", spec.housing.idler_pin),
        ("idler pin in its plate", "idler's pin in its plate", spec.housing.idler_pin),
        ("shaft in a box's hollow shaft", "shaft 1 in the box or its bush", spec.shaft_1.diameter),
    ]
    if spec.bearings.kind == "rolling":
        row = machine.shaft_beams[0].bearings[0]
        if row:
            rows += [
                ("rolling bearing on a turning shaft", "bearings on the shafts", row["bore"]),
                ("rolling bearing in a plate", "bearings in the plates", row["outer"]),
            ]
    else:
        rows.append(("shaft in a reamed bush", "shafts in their bushes", spec.shaft_2.diameter))
    return rows


def fit_bands(machine: Machine) -> Figure:
    """Draw the tolerance bands of every fit that the design needs.

    Parameters
    ----------
    machine : Machine

    Returns
    -------
    matplotlib.figure.Figure
    """
    system = machine.design.show_units
    scale, label = shown_scale("um", system)
    listed = [one for one in uses(machine) if one[2] <= 250]
    with figure(10.0, 4.6) as drawn:
        axes = drawn.subplots()
        for column, (use, _, size) in enumerate(listed):
            zones, _ = fits.recommend(use)
            for zone, shift, colour in zip(
                zones.split("/"), (-0.2, 0.2), ("first", "second"), strict=True
            ):
                low, high = fits.limits.formula(size, zone) * scale
                axes.bar(
                    column + shift,
                    high - low,
                    bottom=low,
                    width=0.36,
                    color=COLOURS[colour],
                    hatch=HATCHES[colour],
                    edgecolor="white",
                )
                axes.annotate(
                    zone,
                    (column + shift, high),
                    xytext=(0, 2),
                    textcoords="offset points",
                    ha="center",
                    fontsize=8.5,
                )
        axes.axhline(0, color=COLOURS["ink"], lw=1.2)
        axes.margins(y=0.08)
        axes.use_sticky_edges = False
        axes.set_xticks(
            range(len(listed)),
            [f"{what}\n{show(size, 'mm', system, 4)}" for _, what, size in listed],
            rotation=28,
            ha="right",
            fontsize=9,
        )
        axes.set_ylabel(f"off the nominal size ({label})")
        drawn.suptitle(
            "Fits: holes plain, shafts hatched; where they overlap they are pressed",
            x=0.01,
            ha="left",
            fontsize=12,
        )
    return drawn


def worst_jam(machine: Machine) -> tuple[str, int]:
    """Clutch position and shaft whose jam winds up most."""
    found = jam.stall_torques(machine.design, float(machine.power_flow.greatest))
    return max(found, key=found.__getitem__)


def _motor_at_slow_end(spec: Spec) -> Callable[[float], float]:
    """The motor's curve as it arrives at the slow end: torque in N*m by speed in rad/s."""
    box = spec.reducer
    able = motor.abilities(spec)
    turns = np.linspace(0.0, able.field, 200)
    torque = motor.torque_curve(spec, turns) * box.ratio * box.efficiency
    slow = turns / box.ratio * np.pi / 30
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
    spec, system = machine.design, machine.design.show_units
    scale, label = shown_scale("N*m", system)
    clutch, jammed = worst_jam(machine)
    one = jam.train(spec, clutch, jammed)
    speed = machine.empty_speed * np.pi / 30
    if machine.running_speed <= 0:
        with figure(10.0, 4.2) as drawn:
            drawn.suptitle(f"No jam to show: {STANDS}", x=0.01, ha="left", fontsize=12)
        return drawn
    springs = list(one.springs.values())
    rest = 1 / sum(1 / spring for spring in springs[1:])
    greatest = float(machine.power_flow.greatest)
    # the box's own wheels are a small mass between the two springs
    masses = [one.inertia, 0.002 * one.inertia]
    follow = partial(
        transient.transient,
        masses,
        [springs[0], rest],
        speed,
        accuracy=1e-6,
        steps=500,
        play=one.play,
        drive=_motor_at_slow_end(spec),
        damping=0.02,
    )
    free = follow()
    low, high = fuses.fuse_torques(spec)
    closed = float(jam.stall_torques(spec, greatest)[clutch, jammed])
    with figure(10.0, 4.2) as drawn:
        axes = drawn.subplots()
        axes.plot(1e3 * free.time, free.torque[0] * scale, color=COLOURS["first"], lw=1.6)
        axes.annotate(
            "without a fuse",
            (1e3 * free.time[free.torque[0].argmax()], free.torque[0].max() * scale),
            xytext=(0, -14),
            ha="center",
            textcoords="offset points",
            fontsize=9.5,
        )
        if np.isfinite(high):
            cut = follow(breaks_at=high)
            axes.plot(
                1e3 * cut.time, cut.torque[0] * scale, color=COLOURS["second"], lw=2.2, ls="--"
            )
            if cut.broke:
                axes.annotate(
                    f"fuse gives after {1e3 * cut.broke:.3g} ms",
                    (1e3 * cut.broke, high * scale),
                    xytext=(8, 2),
                    textcoords="offset points",
                    fontsize=9.5,
                )
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
        drawn.suptitle(
            f"A paddle of shaft {jammed} stopped dead, clutch on {clutch}",
            x=0.01,
            ha="left",
            fontsize=12,
        )
    return drawn
