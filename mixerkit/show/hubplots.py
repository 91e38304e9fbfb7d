"""Pictures of what sits on a shaft: hubs by the torque they carry, and fits."""

from __future__ import annotations

from matplotlib.axes import Axes
from matplotlib.figure import Figure

from mixerkit.machine import Machine
from mixerkit.parts import fits, hub_choices
from mixerkit.parts.along import NAMES
from mixerkit.parts.zones import BOX, CLUTCH, seat, thickest_free_gear
from mixerkit.show.style import COLOURS, HATCHES, above, beside, figure, headline
from mixerkit.units import show, shown_scale

__all__ = ["fit_bands", "hub_torques", "uses"]


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
    listed = hub_choices.hub_rows(
        machine.spec, number, system, lambda value, unit: show(value, unit, system)
    )
    cases, flow = machine.load_cases, machine.power_flow
    torque = flow.paddles[1] if number == 2 else flow.torque_at_box_output
    mixing, jam = (float(torque[states].max()) for states in (cases.mixing, cases.jammed))
    with figure(10.0, 4.2) as drawn:
        axes = drawn.subplots()
        for row, one in enumerate(listed):
            holds = one.torque >= jam * machine.spec.safety.hub
            words = f"{show(one.torque, 'N*m', system)}: {one.weakest}"
            _draw_hub(axes, row, one.torque * scale, words, holds=holds)
        for words, value, colour, style, lift in (
            ("mixing", mixing, "third", ":", 3),
            ("jam", jam, "fails", "--", 16),
        ):
            axes.axvline(value * scale, color=COLOURS[colour], ls=style, lw=1.8, zorder=1)
            above(axes, f"{words} {show(value, 'N*m', system)}", value * scale, lift)
        axes.set_yticks(range(len(listed)), [one.name for one in listed])
        axes.invert_yaxis()
        axes.set_xlim(0, max(one.torque for one in listed) * scale * 1.45)
        axes.set_xlabel(f"torque at which the weakest element yields or slips ({label})")
        headline(
            drawn,
            f"Which hub for this torque: gear on shaft {number}, hatched ones do not outlast a jam",
        )
    return drawn


def _draw_hub(axes: Axes, row: int, torque: float, words: str, *, holds: bool) -> None:
    axes.barh(
        row,
        torque,
        height=0.6,
        color=COLOURS["first" if holds else "quiet"],
        hatch="" if holds else HATCHES["second"],
        edgecolor="white",
    )
    behind = {"fc": "white", "ec": "none", "pad": 0.8, "alpha": 0.9}
    beside(axes, words, (torque, row), (5, 0), va="center", zorder=5, bbox=behind)


def uses(machine: Machine) -> list[tuple[str, str, float]]:
    """Fits that the design needs: use as in data/tables/fit_uses.csv, what it is here, size in mm."""
    spec = machine.design
    clutch = spec.clutch.shaft
    on, free = seat(spec, clutch, CLUTCH), thickest_free_gear(spec)
    other = seat(spec, 3 - clutch, "direct gear")
    rows = [
        ("gear keyed on its shaft", f"gears on shaft {3 - clutch}", other),
        ("clutch sleeve on its feather key", f"clutch sleeve on shaft {clutch}", on),
        ("shaft in a reamed bush", f"free gears on shaft {clutch}", free),
        ("bush in a gear or plate", "bushes in the free gears", free + 2 * spec.bearings.bush_wall),
        ("shaft in a reamed bush", "idler on its pin", spec.housing.idler_pin),
        ("idler pin in its plate", "idler's pin in its plate", spec.housing.idler_pin),
        ("shaft in a box's hollow shaft", "shaft 1 in the box or its bush", seat(spec, 1, BOX)),
    ]
    if spec.bearings.kind == "rolling":
        row = machine.shaft_beams[0].bearings[0]
        if row:
            rows += [
                ("rolling bearing on a turning shaft", "bearings on the shafts", row["bore"]),
                ("rolling bearing in a plate", "bearings in the plates", row["outer"]),
            ]
    else:
        rows.append(("shaft in a reamed bush", "shafts in their bushes", seat(spec, 2, NAMES[0])))
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
                beside(axes, zone, (column + shift, high), (0, 2), 8.5, ha="center")
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
        headline(drawn, "Fits: holes plain, shafts hatched; where they overlap they are pressed")
    return drawn
