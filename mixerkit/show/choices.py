"""Tables of what would do: motors on this machine, motors with boxes."""

from __future__ import annotations

from collections.abc import Sequence
from html import escape
from typing import Any

import numpy as np

from mixerkit.drive import guarding
from mixerkit.explore import paths, search
from mixerkit.explore.search import Choice
from mixerkit.parts import (
    bush_walls,
    fits,
    gear_measures,
    gear_pairs,
    hub_choices,
    shaft_checks,
    zones,
)
from mixerkit.parts.zones import free_gear_bores
from mixerkit.shop.workshop import read_workshop
from mixerkit.show import hubplots
from mixerkit.show.marks import MARKS
from mixerkit.show.panels import Bench, styled
from mixerkit.show.pathanswers import PathAnswers
from mixerkit.show.tables import table_html
from mixerkit.units import show

__all__ = [
    "ChoiceTable",
    "Rows",
    "bushes",
    "fits_in_use",
    "gear_paths",
    "guards",
    "hubs",
    "measuring_values",
    "motors",
    "motors_and_boxes",
    "shaft_profile",
]


class Rows:
    """Rows under headings, in a notebook or as text.

    Parameters
    ----------
    title : str
    heads : sequence of str
    rows : list of tuple of str
    """

    def __init__(self, title: str, heads: Sequence[str], rows: Sequence[Sequence[str]]) -> None:
        self._title, self._heads, self._rows = title, heads, rows

    def __repr__(self) -> str:
        return "\n".join([self._title, *("  ".join(row) for row in self._rows)])

    def _repr_html_(self) -> str:
        return styled(f"<p>{escape(self._title)}</p>{table_html(self._heads, self._rows)}")


class ChoiceTable:
    """Choices as a table, in a notebook or as text.

    Parameters
    ----------
    choices : list of Choice
    system : str
        ``"metric"`` or ``"inch"``.
    title : str
    """

    def __init__(self, choices: list[Choice], system: str, title: str) -> None:
        self._choices, self._system, self._title = choices, system, title

    def _cells(self, one: Choice) -> tuple[str, ...]:
        return (
            f"{MARKS[one.verdict]} {one.verdict}",
            show(one.power, "kW", self._system),
            one.box,
            show(one.speed, "rpm"),
            show(one.mass, "kg", self._system),
            f"{one.spare:.2f} x",
            one.why_not,
        )

    def __repr__(self) -> str:
        rows = ["  ".join(self._cells(one)[:6]) for one in self._choices]
        return "\n".join([self._title, *rows])

    def _repr_html_(self) -> str:
        heads = ("Verdict", "Motor", "Box", "Shaft 1", "Mass", "Spare", "Why not")
        rows, verdicts = map(self._cells, self._choices), (one.verdict for one in self._choices)
        return styled(f"<p>{escape(self._title)}</p>{table_html(heads, rows, verdicts)}")


def motors(bench: Bench) -> ChoiceTable:
    """Try every motor of the table on the machine's own box.

    Parameters
    ----------
    bench : Bench

    Returns
    -------
    ChoiceTable
    """
    title = "Every preferred rating on this machine's box (mass: motor alone)"
    return ChoiceTable(search.motors(bench.design), bench.design.show_units, title)


def motors_and_boxes(
    bench: Bench, order: str = "margin", most: int = 8, **speeds: Any
) -> ChoiceTable:
    """List the motors and boxes of the tables that carry this clay and batch.

    Parameters
    ----------
    bench : Bench
    order : str
        ``"margin"``, ``"mass"`` or ``"power"``.
    most : int
        How many to list.
    **speeds : float
        ``slowest`` and ``fastest`` shaft 1 in rpm.

    Returns
    -------
    ChoiceTable
    """
    found = search.motor_and_box(bench.design, order, **speeds)
    title = f"{len(found)} combinations do; the first {min(most, len(found))} by {order}"
    return ChoiceTable(found[:most], bench.design.show_units, title)


def gear_paths(bench: Bench, most: int = 8, shop: Any = None, **goals: Any) -> PathAnswers:
    """Search both paths' tooth counts for the machine's centre distance, load and shop.

    Parameters
    ----------
    bench : Bench
    most : int
        How many to list.
    shop : path, optional
        Shop file; that of the bench if not given.
    **goals
        Fields of :class:`mixerkit.explore.paths.Goals`, such as ``order="size"``.

    Returns
    -------
    PathAnswers
    """
    of, words = (read_workshop(shop), "") if shop else (bench.shop, bench.shop_words)
    return PathAnswers(bench, paths.search(bench.design, of, paths.Goals(**goals)), most, words)


def measuring_values(bench: Bench, tolerance: float = 0.03) -> Rows:
    """List what to measure on each gear, with limits for a band of tooth thickness.

    Parameters
    ----------
    bench : Bench
    tolerance : float
        Of the circular tooth thickness in mm, either way.

    Returns
    -------
    Rows
    """
    system, rows = bench.design.show_units, []
    for name in ("direct", "idler"):
        path = getattr(bench.design.paths, name)
        for count, shift in dict.fromkeys(
            zip(path.tooth_counts, gear_pairs.shifts_of(path), strict=True)
        ):
            values = gear_measures.gear_values(path.module, count, shift, path.thinning, tolerance)
            rows += [
                (
                    f"{name} path, {count} teeth",
                    what,
                    one.how,
                    *(
                        show(float(size), "mm", system, 5)
                        for size in (one.value, one.least, one.most)
                    ),
                )
                for what, one in values.items()
            ]
    return Rows("Measuring values", ("Gear", "Measure", "How", "Wanted", "Least", "Most"), rows)


def shaft_profile(bench: Bench) -> Rows:
    """List for each zone of both shafts the diameter needed and the next stock size.

    Parameters
    ----------
    bench : Bench

    Returns
    -------
    Rows
    """
    system, rows = bench.design.show_units, []

    def say(value: float) -> str:
        return show(value, "mm", system)

    for line in bench.machine.shaft_beams:
        rows += [
            (
                f"shaft {line.number}, {zone}",
                f"{say(start)} to {say(end)}",
                say(needed),
                say(stock) if np.isfinite(stock) else "above the stock list",
                say(zones.thickest(line.own, start, end)),
            )
            for zone, start, end, needed, stock in shaft_checks.proposed_profile(line, system)
        ]
    heads = ("Zone", "From the plate at the reducer", "Needed", "Next stock size", "It has")
    title = (
        "A stepped shaft that would do, every rule counted; one plain bar of the largest does too"
    )
    return Rows(title, heads, rows)


def hubs(bench: Bench, number: int = 2) -> Rows:
    """List every way to fix a gear on a shaft, with torque, weakest element and how it is made.

    Parameters
    ----------
    bench : Bench
    number : int
        Shaft 1 or 2.

    Returns
    -------
    Rows
    """
    system = bench.design.show_units

    def say(value: float, unit: str) -> str:
        return show(value, unit, system)

    rows = [
        (one.name, say(one.torque, "N*m"), one.weakest, one.making)
        for one in hub_choices.hub_rows(bench.design, number, system, say)
    ]
    return Rows(f"A gear on shaft {number}", ("Hub", "Gives at", "Weakest", "Making"), rows)


def fits_in_use(bench: Bench) -> Rows:
    """List the fits that the design needs, as limits to turn and bore to.

    Parameters
    ----------
    bench : Bench

    Returns
    -------
    Rows
    """
    rows = []
    for use, what, size in hubplots.uses(bench.machine):
        zones, words = fits.recommend(use)
        one = fits.fit(size, zones)
        both = [
            f"{low:.3f} to {high:.3f} mm ({low / 25.4:.4f} to {high / 25.4:.4f} in)"
            for low, high in (one.hole, one.shaft)
        ]
        rows.append((what, f"{size:g} {zones}", *both, one.kind, words))
    heads = ("Where", "Fit", "Hole", "Shaft", "Kind", "At the bench")
    return Rows("Limits to work to (ISO 286-1 and -2)", heads, rows)


def bushes(bench: Bench) -> Rows:
    """List the pressed-in bushes: sizes, squeeze, how far the bore closes, what to ream.

    Parameters
    ----------
    bench : Bench

    Returns
    -------
    Rows
    """
    spec, system = bench.design, bench.design.show_units

    def say(value: float, digits: int = 3) -> str:
        return show(value, "mm", system, digits)

    rows = []
    free = [(f"free gears{of}", bore) for of, _, bore in free_gear_bores(spec)]
    for what, bore in (*free, ("idler", spec.housing.idler_pin)):
        one = bush_walls.bush_sizes(spec, bore, spec.housing.hub_diameter)
        rows.append(
            (
                what,
                f"{say(one.outside)} {spec.bearings.bush_fit}",
                f"{say(one.fit.shaft[0], 5)} to {say(one.fit.shaft[1], 5)}",
                say(one.bored),
                f"{say(one.closing[0])} to {say(one.closing[1])}",
                show(one.force / 1e3, "kN", system),
                f"{say(one.reamed[0], 5)} to {say(one.reamed[1], 5)}",
            )
        )
    heads = (
        "Bush in",
        "Outside",
        "Turn outside to",
        "Bore before pressing",
        "Bore closes by",
        "Press, at most",
        "Ream after to",
    )
    return Rows("Bushes: press in, then ream; never ream before", heads, rows)


def guards(bench: Bench) -> Rows:
    """List the guards and controls this machine needs; local codes and licensed people come first.

    Parameters
    ----------
    bench : Bench

    Returns
    -------
    Rows
    """
    heads = ("What", "Why here", "Read")
    return Rows(
        "Guards and controls to begin with",
        heads,
        guarding.needs(bench.design, bench.design.show_units),
    )
