"""Pictures of what the clay asks: its strength, torque over a turn, and how likely a stall is."""

from __future__ import annotations

import numpy as np
from matplotlib.axes import Axes
from matplotlib.figure import Figure

from mixerkit.explore import uncertainty
from mixerkit.load import clay, clay_load
from mixerkit.machine import Machine, path_speeds
from mixerkit.parts.reduction import total_efficiency, total_ratio
from mixerkit.show.style import COLOURS, beside, figure, headline
from mixerkit.spec import Clay
from mixerkit.units import show, shown_scale

__all__ = ["clay_strength", "stall", "torque_over_a_turn"]


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
    scale, label = shown_scale("kPa", system)
    with figure(8.6, 4.4) as drawn:
        axes = drawn.subplots()
        _draw_relations(axes, one, scale)
        for limit, words in (
            (one.plastic_limit, "plastic limit"),
            (one.liquid_limit, "liquid limit"),
        ):
            axes.axvline(100 * limit, color=COLOURS["quiet"], lw=0.8)
            beside(
                axes,
                words,
                (100 * limit, 0.02),
                (-3, 0),
                xycoords=("data", "axes fraction"),
                rotation=90,
                ha="right",
                va="bottom",
            )
        _draw_clay(axes, machine, scale)
        axes.set_yscale("log")
        axes.set_xlabel("water content (% of dry clay)")
        axes.set_ylabel(f"shear strength ({label})")
        headline(drawn, "Clay: strength by water, with the factor of two either way that is usual")
    return drawn


def _draw_relations(axes: Axes, one: Clay, scale: float) -> None:
    """Strength by water of any clay with these limits: as used, with its band, and by an older relation."""
    span = one.liquid_limit - one.plastic_limit
    water = np.linspace(one.plastic_limit - 0.25 * span, one.liquid_limit + 0.1 * span, 80)
    index = np.asarray(clay.liquidity_index.formula(water, one.liquid_limit, one.plastic_limit))
    likely = np.asarray(clay.strength_from_liquidity.formula(index)) * scale
    fitted = (index > clay.FITTED[0]) & (index < clay.FITTED[1])
    axes.fill_between(100 * water, likely / 2, likely * 2, color=COLOURS["fill"])
    axes.plot(100 * water, likely, color=COLOURS["first"], lw=1.2, ls=":")
    axes.plot(100 * water[fitted], likely[fitted], color=COLOURS["first"], lw=2.4)
    strong = np.asarray(clay.strong_bound.formula(index)) * scale
    axes.plot(100 * water, strong, color=COLOURS["quiet"], lw=1, ls="--")
    place = (100 * water[25], strong[25])
    beside(axes, "older, stronger relation", place, (8, 6), color=COLOURS["quiet"])


def _draw_clay(axes: Axes, machine: Machine, scale: float) -> None:
    """Where this clay stands, and how well that is known."""
    one, found = machine.design.clay, machine.clay_load.clay
    water, strength = 100 * one.water_content, found.strength * scale
    bounds = [found.strength * factor * scale for factor in clay.strength_range(one)]
    axes.plot([water] * 2, bounds, color=COLOURS["ink"], lw=3)
    axes.plot(water, strength, "o", ms=10, color=COLOURS["second"], mec=COLOURS["ink"])
    words = f"{show(found.strength, 'kPa', machine.system)}\n{found.words.split(' (')[0]}"
    behind = {"boxstyle": "square,pad=0.2", "fc": "white", "ec": "none", "alpha": 0.8}
    beside(axes, words, (water, strength), (14, 0), 10, va="center", bbox=behind)


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
    design = machine.design
    lasting = machine.power_flow.abilities.lasting * total_ratio(design) * total_efficiency(design)
    with figure(8.6, 3.8) as drawn:
        axes = drawn.subplots()
        for values, key, words in (
            (one, "first", "one shaft"),
            (both, "second", "both, counter-rotating"),
        ):
            axes.plot(turned, values * scale, color=COLOURS[key], lw=2.2)
            beside(axes, words, (8, values[8] * scale), (0, 5), 10, color=COLOURS["ink"])
        for value, words in (
            (lasting, "motor gives all day"),
            (machine.power_flow.greatest, "motor gives at most"),
        ):
            axes.axhline(value * scale, color=COLOURS["ink"], lw=1.4, ls="--")
            said = f"{words}: {show(value, 'N*m', system)}"
            beside(axes, said, (352, value * scale), (0, 3), ha="right", va="bottom")
        axes.set_xlim(0, 360)
        axes.set_ylim(0, machine.power_flow.greatest * scale * 1.12)
        axes.set_xticks(range(0, 361, 60))
        axes.set_xlabel("turn of shaft 1 (deg)")
        axes.set_ylabel(f"torque at the slow end ({label})")
        headline(drawn, "Torque over one turn while mixing")
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
    with figure(10.5, 4.4) as drawn:
        left, right = drawn.subplots(1, 2, width_ratios=[1.5, 1])
        _draw_spare(left, risk)
        _draw_ranking(right, uncertainty.ranking(machine))
        headline(drawn, "Will it stall? Over the stated ranges of what is not known")
    return drawn


def _draw_spare(axes: Axes, risk: uncertainty.StallRisk) -> None:
    """Share of cases below a torque given over asked."""
    shares = np.linspace(0, 100, len(risk.spare_starting))
    for values, key, words, style in (
        (risk.spare_starting, "second", "starting", "--"),
        (risk.spare_mixing, "first", "mixing", "-"),
    ):
        axes.plot(values, shares, color=COLOURS[key], lw=2.4, ls=style)
        beside(axes, words, (values[130], shares[130]), (8, -4), 10)
    axes.axvline(1, color=COLOURS["ink"], lw=1.6)
    axes.axvspan(0, 1, color="#eeeeee", zorder=0)
    axes.annotate("stalls", (0.93, 92), ha="right", fontsize=11, weight="bold")
    axes.annotate("turns", (1.08, 92), fontsize=11, weight="bold")
    axes.set_xlim(0, max(3.0, float(np.median(risk.spare_mixing)) * 1.6))
    axes.set_ylim(0, 100)
    axes.set_xlabel("motor torque given over asked")
    axes.set_ylabel("share of cases below (%)")
    axes.set_title(
        f"stalls in {100 * risk.starting:.2g} % of starts, {100 * risk.mixing:.2g} % while mixing",
        fontsize=10,
    )


def _draw_ranking(axes: Axes, ranked: list[tuple[str, float, float]]) -> None:
    """Whose doubt weighs most."""
    shares = [100 * total for _, _, total in ranked]
    bars = axes.barh(range(len(ranked)), shares, 0.66, color=COLOURS["third"])
    axes.bar_label(bars, [f"{share:.0f} %" for share in shares], padding=3, fontsize=10)
    axes.set_yticks(range(len(ranked)), [name for name, _, _ in ranked])
    axes.invert_yaxis()
    axes.set_xlim(0, 118)
    axes.set_xlabel("share of the doubt (%)")
    axes.set_title("what to measure first", fontsize=10)
