"""Pictures of what the clay asks: its strength, the trough in section, torque over a turn."""

from __future__ import annotations

from math import cos, pi, radians, sin

import numpy as np
from matplotlib.axes import Axes
from matplotlib.figure import Figure
from matplotlib.patches import Circle, Polygon, Rectangle

from mixerkit.explore import uncertainty
from mixerkit.load import clay, clay_load, clearance, trough
from mixerkit.machine import Machine, path_speeds
from mixerkit.parts import blades
from mixerkit.show.style import COLOURS, HATCHES, figure
from mixerkit.spec import Paddles
from mixerkit.units import show, shown_scale

__all__ = ["clay_strength", "stall", "torque_over_a_turn", "trough_view"]

_CLAY = "#e9d8c4"


def clay_strength(machine: Machine) -> Figure:
    """Draw strength against water content, where this clay stands, and how well that is known.

    Parameters
    ----------
    machine : Machine

    Returns
    -------
    matplotlib.figure.Figure
    """
    one, system = machine.design.clay, machine.design.show_units
    found = machine.clay_load.clay
    scale, label = shown_scale("kPa", system)
    span = one.liquid_limit - one.plastic_limit
    water = np.linspace(one.plastic_limit - 0.25 * span, one.liquid_limit + 0.1 * span, 80)
    index = np.asarray(clay.liquidity_index.formula(water, one.liquid_limit, one.plastic_limit))
    likely = np.asarray(clay.strength_from_liquidity.formula(index))
    fitted = (index > clay.FITTED[0]) & (index < clay.FITTED[1])
    factors = clay.strength_range(one)
    with figure(8.6, 4.4) as drawn:
        axes = drawn.subplots()
        axes.fill_between(
            100 * water, likely * scale / 2, likely * scale * 2, color=COLOURS["fill"]
        )
        axes.plot(100 * water, likely * scale, color=COLOURS["first"], lw=1.2, ls=":")
        axes.plot(100 * water[fitted], likely[fitted] * scale, color=COLOURS["first"], lw=2.4)
        strong = np.asarray(clay.strong_bound.formula(index)) * scale
        axes.plot(100 * water, strong, color=COLOURS["quiet"], lw=1, ls="--")
        axes.annotate(
            "older, stronger relation",
            (100 * water[25], strong[25]),
            xytext=(8, 6),
            textcoords="offset points",
            fontsize=9,
            color=COLOURS["quiet"],
        )
        for limit, words in (
            (one.plastic_limit, "plastic limit"),
            (one.liquid_limit, "liquid limit"),
        ):
            axes.axvline(100 * limit, color=COLOURS["quiet"], lw=0.8)
            axes.annotate(
                words,
                (100 * limit, 0.02),
                xycoords=("data", "axes fraction"),
                rotation=90,
                xytext=(-3, 0),
                textcoords="offset points",
                ha="right",
                va="bottom",
                fontsize=9,
            )
        low, high = (found.strength * factor for factor in factors)
        axes.plot(
            [100 * one.water_content] * 2, [low * scale, high * scale], color=COLOURS["ink"], lw=3
        )
        axes.plot(
            100 * one.water_content,
            found.strength * scale,
            "o",
            ms=10,
            color=COLOURS["second"],
            mec=COLOURS["ink"],
        )
        axes.annotate(
            f"{show(found.strength, 'kPa', system)}\n{found.words.split(' (')[0]}",
            (100 * one.water_content, found.strength * scale),
            xytext=(14, 0),
            textcoords="offset points",
            va="center",
            fontsize=10,
            bbox={"boxstyle": "square,pad=0.2", "fc": "white", "ec": "none", "alpha": 0.8},
        )
        axes.set_yscale("log")
        axes.set_xlabel("water content (% of dry clay)")
        axes.set_ylabel(f"shear strength ({label})")
        drawn.suptitle(
            "Clay: strength by water, with the factor of two either way that is usual",
            x=0.01,
            ha="left",
            fontsize=12,
        )
    return drawn


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
        drawn.suptitle(
            f"Trough and paddles, clutch on {mode}, shaft 1 turned by {angle:.0f} deg",
            x=0.01,
            ha="left",
            fontsize=12,
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
    edge = _outline(wall, apart)
    level = machine.clay_load.level
    below = [(x, y) for x, y in edge if y <= level]
    top = edge[0][1]
    axes.add_patch(Polygon([*below], closed=True, fc=_CLAY, ec="none"))
    axes.plot(*zip(*edge, strict=True), color=COLOURS["ink"], lw=2)
    clash = _clashing(machine)
    for centre, angles, key in (
        (0.0, _angles(machine, angle)[0], "first"),
        (apart, _angles(machine, angle)[1], "second"),
    ):
        for k, one in enumerate(angles):
            hit = clash is not None and clash[0 if centre == 0 else 1] == k
            axes.add_patch(
                Polygon(
                    _blade(centre, one, blade),
                    closed=True,
                    fc="white",
                    ec=COLOURS["fails"] if hit else COLOURS[key],
                    lw=3.2 if hit else 1.6,
                    hatch=HATCHES[key],
                )
            )
            middle = (
                blade.tip_radius * 0.88 * cos(one) + centre,
                blade.tip_radius * 0.88 * sin(one),
            )
            axes.annotate(
                str(k + 1),
                middle,
                ha="center",
                va="center",
                fontsize=8,
                bbox={"boxstyle": "circle,pad=0.1", "fc": "white", "ec": "none"},
            )
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
        words = f"✖ paddle {clash[0] + 1} of shaft 1 runs into paddle {clash[1] + 1} of shaft 2"
        axes.annotate(
            words,
            (apart / 2, -wall - 3),
            ha="center",
            va="top",
            fontsize=10,
            weight="bold",
            color=COLOURS["fails"],
        )
    axes.set_xlim(-wall - 6, apart + wall + 6)
    axes.set_ylim(-wall - 20, top + 22)
    axes.set_aspect("equal")
    axes.set_axis_off()
    axes.set_title("Section, seen from the reduction box; clay drawn level", fontsize=10)


def _outline(wall: float, apart: float) -> list[tuple[float, float]]:
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
    blade, apart = spec.paddles, spec.housing.centre_distance
    extent = trough.axial_extent(blade)
    used = (blade.count - 1) * blade.spacing + blade.offset_2 + extent
    start = (spec.trough.length - used) / 2 + extent / 2
    half = blade.tip_radius + spec.trough.wall_clearance
    axes.add_patch(
        Rectangle(
            (0, -half), spec.trough.length, apart + 2 * half, fc="none", ec=COLOURS["ink"], lw=2
        )
    )
    one, two = _angles(machine, angle)
    for centre, angles, shift, key in (
        (apart, one, 0.0, "first"),
        (0.0, two, blade.offset_2, "second"),
    ):
        axes.add_patch(
            Rectangle(
                (0, centre - blade.root_radius),
                spec.trough.length,
                2 * blade.root_radius,
                fc=COLOURS["fill"],
                ec=COLOURS["ink"],
                lw=0.8,
            )
        )
        for k, turned in enumerate(angles):
            # from above a blade shows its length's part across the shafts; shaft 2's side lies below
            ends = sorted(
                centre - radius * cos(turned) for radius in (blade.root_radius, blade.tip_radius)
            )
            place = start + shift + k * blade.spacing
            axes.add_patch(
                Rectangle(
                    (place - extent / 2, ends[0]),
                    extent,
                    max(ends[1] - ends[0], 2),
                    fc="white",
                    ec=COLOURS[key],
                    lw=1.6,
                    hatch=HATCHES[key],
                )
            )
            axes.annotate(
                str(k + 1),
                (place, sum(ends) / 2),
                ha="center",
                va="center",
                fontsize=8,
                bbox={"boxstyle": "circle,pad=0.1", "fc": "white", "ec": "none"},
            )
    axes.annotate("shaft 1", (spec.trough.length + 4, apart), va="center", fontsize=9)
    axes.annotate("shaft 2", (spec.trough.length + 4, 0), va="center", fontsize=9)
    axes.annotate(
        f"{show(spec.trough.length, 'mm', system, 4)} long",
        (spec.trough.length / 2, -half - 4),
        ha="center",
        va="top",
        fontsize=9,
    )
    axes.set_xlim(-6, spec.trough.length + 70)
    axes.set_ylim(-half - 24, apart + half + 8)
    axes.set_aspect("equal")
    axes.set_axis_off()
    axes.set_title("From above, reduction box to the left", fontsize=10)


def torque_over_a_turn(machine: Machine) -> Figure:
    """Draw the torque the clay asks over a turn, and what the motor gives there.

    Parameters
    ----------
    machine : Machine

    Returns
    -------
    matplotlib.figure.Figure
    """
    system = machine.system
    scale, label = shown_scale("N*m", system)
    blade = machine.design.paddles
    ratio = path_speeds(machine.design, "direct")["shaft 2"]
    turned = np.degrees(clay_load.TURN)
    one = machine.clay_load.turn
    # shaft 2's own turn, looked up where it stands while shaft 1 goes round once
    two = np.interp((ratio * turned + blade.phase_2) % 360, turned, one, period=360)
    both = (one + two) * (1 + blade.nip_share)
    box = machine.design.reducer
    lasting = machine.power_flow.abilities.lasting * box.ratio * box.efficiency
    with figure(8.6, 3.8) as drawn:
        axes = drawn.subplots()
        for values, key, words, style in (
            (one, "first", "one shaft", "-"),
            (both, "second", "both, counter-rotating", "-"),
        ):
            axes.plot(turned, values * scale, color=COLOURS[key], lw=2.2, ls=style)
            axes.annotate(
                words,
                (8, values[8] * scale),
                xytext=(0, 5),
                textcoords="offset points",
                fontsize=10,
                color=COLOURS["ink"],
            )
        for value, words in (
            (lasting, "motor gives all day"),
            (machine.power_flow.greatest, "motor gives at most"),
        ):
            axes.axhline(value * scale, color=COLOURS["ink"], lw=1.4, ls="--")
            axes.annotate(
                f"{words}: {show(value, 'N*m', system)}",
                (352, value * scale),
                xytext=(0, 3),
                textcoords="offset points",
                ha="right",
                va="bottom",
                fontsize=9,
            )
        axes.set_xlim(0, 360)
        axes.set_ylim(0, machine.power_flow.greatest * scale * 1.12)
        axes.set_xticks(range(0, 361, 60))
        axes.set_xlabel("turn of shaft 1 (deg)")
        axes.set_ylabel(f"torque at the slow end ({label})")
        drawn.suptitle("Torque over one turn while mixing", x=0.01, ha="left", fontsize=12)
    return drawn


def stall(machine: Machine, samples: int = 100_000) -> Figure:
    """Draw how much torque is left over the stated ranges, and what to measure first.

    Parameters
    ----------
    machine : Machine
    samples : int

    Returns
    -------
    matplotlib.figure.Figure
    """
    risk = uncertainty.stall_risk(machine, samples)
    shares = np.linspace(0, 100, len(risk.spare_starting))
    ranked = uncertainty.ranking(machine)
    with figure(10.5, 4.4) as drawn:
        left, right = drawn.subplots(1, 2, width_ratios=[1.5, 1])
        for values, key, words in (
            (risk.spare_starting, "second", "starting"),
            (risk.spare_mixing, "first", "mixing"),
        ):
            left.plot(
                values, shares, color=COLOURS[key], lw=2.4, ls="-" if key == "first" else "--"
            )
            left.annotate(
                words,
                (values[130], shares[130]),
                xytext=(8, -4),
                textcoords="offset points",
                fontsize=10,
            )
        left.axvline(1, color=COLOURS["ink"], lw=1.6)
        left.axvspan(0, 1, color="#eeeeee", zorder=0)
        left.annotate("stalls", (0.93, 92), ha="right", fontsize=11, weight="bold")
        left.annotate("turns", (1.08, 92), fontsize=11, weight="bold")
        left.set_xlim(0, max(3.0, float(np.median(risk.spare_mixing)) * 1.6))
        left.set_ylim(0, 100)
        left.set_xlabel("motor torque given over asked")
        left.set_ylabel("share of cases below (%)")
        left.set_title(
            f"stalls in {100 * risk.starting:.2g} % of starts, {100 * risk.mixing:.2g} % while mixing",
            fontsize=10,
        )
        names = [name for name, _, _ in ranked]
        bars = right.barh(
            range(len(ranked)),
            [100 * total for _, _, total in ranked],
            0.66,
            color=COLOURS["third"],
        )
        right.bar_label(
            bars, [f"{100 * total:.0f} %" for _, _, total in ranked], padding=3, fontsize=10
        )
        right.set_yticks(range(len(ranked)), names)
        right.invert_yaxis()
        right.set_xlim(0, 118)
        right.set_xlabel("share of the doubt (%)")
        right.set_title("what to measure first", fontsize=10)
        drawn.suptitle(
            "Will it stall? Over the stated ranges of what is not known",
            x=0.01,
            ha="left",
            fontsize=12,
        )
    return drawn
