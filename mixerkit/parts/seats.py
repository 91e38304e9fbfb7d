"""Whether what sits on a shaft can be put there, and whether the holes across it leave enough."""

from __future__ import annotations

from typing import Any, NamedTuple

import numpy as np

from mixerkit.checks import Change, Check
from mixerkit.parts import fits
from mixerkit.parts.hub_checks import ACROSS
from mixerkit.parts.shaftline import NAMES, Line
from mixerkit.tables import table

__all__ = ["REACHED", "checks"]

REACHED = "each seat can be reached over its neighbours"
"""Name of the check of passing on."""


class _Seat(NamedTuple):
    """What sits on a shaft: where from and to, its bore, and what the bore passes over, all in mm."""

    words: str
    start: float
    end: float
    bore: float
    passes: float


def checks(line: Line) -> list[Check]:
    """Check that everything on a shaft can be passed on, and the holes across it.

    Parameters
    ----------
    line : Line

    Returns
    -------
    list of Check
    """
    return [_reached(line), _across(line)]


def _seats(line: Line) -> list[_Seat]:
    """Bearings, gears, clutch sleeve and box of a shaft, from left to right."""
    plain = line.case.plain
    found = []
    for place, name, row in zip(line.supports, NAMES, line.bearings, strict=True):
        at, wide = line.places[place], row["width"] if row else plain.bearings.bush_length
        bore = float(line.diameters[place])
        # a bearing that goes on its seat goes over a bar as thick as the seat may be: common practice
        passes = bore + float(fits.limits.plain(min(bore, fits.MOST), "k6")[1]) / 1e3 if row else bore  # fmt: skip
        found.append(_Seat(f"bearing at the {name}", at - wide / 2, at + wide / 2, bore, passes))
    listed = [(f"{name} gear", place, getattr(plain.paths, name).face_width) for name, place in line.gears.items()]  # fmt: skip
    if line.clutch is not None:
        listed.append(("clutch sleeve", line.clutch, plain.clutch.sleeve_length))
    if line.box is not None:
        listed.append(("reduction box", line.box, plain.hubs.box_length))
    for words, place, wide in listed:
        at, bore = line.places[place], float(line.diameters[place])
        found.append(_Seat(words, at - wide / 2, at + wide / 2, bore, bore))
    return sorted(found)


def _thickest(own: Any, start: float, end: float) -> float:
    """Thickest section of a stepped shaft between two places, nought where there is nothing between."""
    bounds = (-np.inf, *own.step_at, np.inf)
    sizes = (own.diameter, *own.step_diameters)
    return max(
        (size for size, low, high in zip(sizes, bounds, bounds[1:], strict=False) if min(high, end) - max(low, start) > 1e-6),
        default=0.0,
    )  # fmt: skip


def _reached(line: Line) -> Check:
    """Each bore must pass everything between its seat and the end of the shaft that it comes from.

    What lies beyond the outermost seat is turned down with it, and does not count.
    """
    own, part = line.own, f"shaft {line.number}"
    seats = _seats(line)
    left, right = min(one.start for one in seats), max(one.end for one in seats)
    rows = []
    for one in seats:
        over = min(_thickest(own, left, one.start), _thickest(own, one.end, right))
        rows.append((over / one.passes, over, one))
    _, over, worst = max(rows, key=lambda one: one[0])
    return line.case.check(
        "shafts", part, REACHED, demand=over, capacity=worst.passes, unit="mm", tight=1.0,
        source="a bore passes a section no thicker than itself, a bearing one as thick as its seat may be (k6): common practice",
        reason=lambda i, say: (
            f"{worst.words}, bore {say(worst.bore, 'mm')}: from either end it must pass over {say(over, 'mm')}"
        ),
        fix=lambda i: _passing(line),
    )  # fmt: skip


def _passing(line: Line) -> list[Change]:
    """Bars as thick as a bearing's bore, thick in the trough alone, or bushes bored to the bar."""
    own, field = line.own, f"shaft_{line.number}"
    plain = {f"{field}.step_at": [], f"{field}.step_diameters": []} if own.step_at else {}
    bores = sorted(float(bore) for bore in table("rolling_bearings").column("bore"))
    thickest = max(own.diameter, *own.step_diameters) if own.step_diameters else own.diameter
    if not any(line.bearings):
        return [{f"{field}.diameter": thickest, **plain}] if plain else []
    up, down = [one for one in bores if one >= thickest], [one for one in bores if one < thickest]
    found: list[Change] = [{f"{field}.diameter": one, **plain} for one in up[:1] + down[-1:]]
    for thin in down[-1:]:
        _, second, last = (line.places[place] for place in line.supports)
        half = max(row["width"] for row in line.bearings if row) / 2
        found.append(
            {f"{field}.diameter": thin, f"{field}.step_at": [second + half, last - half], f"{field}.step_diameters": [thickest, thin]}
        )  # fmt: skip
    return [*found, {"bearings.kind": "plain bush", **plain}]


def _across(line: Line) -> Check:
    """Holes across a shaft, of pins that hold its sleeve or its gears."""
    share = line.holes / line.diameters
    place = int(share.argmax())
    hole, size = float(line.holes[place]), float(line.diameters[place])

    def smaller(_i: int = 0) -> list[Change]:
        found: list[Change] = []
        if "sleeve pins" in line.what[place].split(", "):
            pins = line.case.plain.sleeve.pins
            found = [
                {"sleeve.pin_diameter": ACROSS * size},
                {"sleeve.pin_diameter": ACROSS * size, "sleeve.pins": min(int(np.ceil(pins * hole / (ACROSS * size))), 6)},
            ]  # fmt: skip
        elif "gear" in line.what[place]:
            found = [{"hubs.pin_diameter": ACROSS * size}, {"hubs.gear": "key"}, {"hubs.gear": "clamp"}]  # fmt: skip
        return [*found, {f"shaft_{line.number}.diameter": line.own.diameter * hole / (ACROSS * size)}]  # fmt: skip

    return line.case.check(
        "shafts", f"shaft {line.number}", "holes across are no larger than the shaft bears", demand=hole, capacity=ACROSS * size,
        unit="mm", tight=1.0, source="0.3 of the diameter: common practice",
        reason=lambda i, say: f"at {line.what[place]}, shaft {say(size, 'mm')}" if hole else "no hole across it",
        fix=smaller,
    )  # fmt: skip
