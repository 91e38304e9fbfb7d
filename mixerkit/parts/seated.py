"""What sits along a shaft, in order.

Positions run from the inside of the plate at the reducer towards the trough, in mm.
"""

from __future__ import annotations

from functools import lru_cache
from typing import NamedTuple

from mixerkit.parts import fits, spurgear, zones
from mixerkit.parts.along import NAMES, trough_ends
from mixerkit.parts.flanges import flange_span, hollow_across, hollow_flange_span, hub_across
from mixerkit.parts.gear_pairs import shifts_of
from mixerkit.parts.sleeve_seats import SLEEVE_END, seats_in
from mixerkit.spec import Spec

__all__ = ["BENEATH", "FLANGE", "SLEEVE", "STUB", "Element", "elements", "over_seat"]

FLANGE, SLEEVE = "flange of the fuse", "sleeve with paddles"
STUB = "flange on the hollow shaft"
"""Names of what else sits on a shaft."""
BENEATH = 1.0
"""Least height of a shoulder that holds what sits against it, in mm (common practice)."""
_FLUSH = 0.05
"""How far inside its gear a bush may end and still be the gear's face, in mm: it is faced with it (common practice)."""


class Element(NamedTuple):
    """One thing on a shaft, in mm.

    ``passes`` is the thickest that its bore goes over on its way, ``shoulder`` the thinnest section that stops
    it, ``lips`` start, end and bore of each part of it where they are not alike; ``kind`` one of ``"bearing"``, ``"bush"``,
    ``"insert"``, ``"fixed"``, ``"free"``, ``"sliding"``, ``"sleeve"``, ``"box"`` and ``"flange"``; ``hollow`` how
    wide it is open at its faces, where that is not its bore: what holds it must reach over that; ``closed`` the bore of
    what closes it towards the reducer, if anything does.
    """

    start: float
    end: float
    name: str
    bore: float
    passes: float
    outer: float
    kind: str
    shoulder: float
    lips: tuple[tuple[float, float, float], ...] = ()
    hollow: float = 0.0
    closed: float = 0.0

    def grip(self, side: int) -> float:
        """Least outside in mm of what holds it on a side: a shoulder's height of its metal all round."""
        open_by = self.closed if self.closed and side < 0 else self.hollow or self.bore
        return open_by + 2 * BENEATH


@lru_cache(maxsize=64)
def over_seat(bore: float) -> float:
    """Largest a bearing's seat may be, in mm: k6."""
    return bore + float(fits.limits.formula(min(bore, fits.MOST), "k6")[1]) / 1e3


def elements(spec: Spec, number: int) -> list[Element]:
    """Everything that sits on a shaft, from the reducer's end on.

    Parameters
    ----------
    spec : Spec
    number : int
        1 or 2.

    Returns
    -------
    list of Element
    """
    found = [_on_bearing(spec, number, name) for name in NAMES]
    has_clutch = spec.clutch.shaft == number
    found += [_gear(spec, number, name) for name in ("direct", "idler")]
    if has_clutch:
        size = zones.seat(spec, number, zones.CLUTCH)
        span = zones.seat_span(spec, number, zones.CLUTCH)
        found.append(
            Element(*span, zones.CLUTCH, size, size, spec.clutch.outer_diameter, "sliding", size)
        )
    if spec.sleeve.kind != "none":
        start, end = trough_ends(spec)
        outer = 2 * spec.paddles.root_radius
        bore = outer - 2 * spec.sleeve.wall
        seats, span = seats_in(spec, number), (start + SLEEVE_END, end - SLEEVE_END)
        lips = seats.lips if seats else ()
        found.append(Element(*span, SLEEVE, bore, bore, outer, "sleeve", bore, lips))
    if number == 1:
        size = zones.seat(spec, 1, zones.BOX)
        bore = spec.reducer.output_bore
        start, end = zones.seat_span(spec, 1, zones.BOX)
        # a flange of the fuse, its stub in the hollow shaft, goes on and off with the box
        found.append(
            Element(
                start if spec.fuse.kind == "none" else hollow_flange_span(spec)[0],
                end,
                zones.BOX,
                bore,
                max(size, bore),
                hollow_across(spec),
                "box",
                bore + 2 * BENEATH,
                closed=0.0 if spec.fuse.kind == "none" else size,
            )
        )
        if spec.fuse.kind != "none":
            found.append(
                Element(
                    *flange_span(spec),
                    FLANGE,
                    size,
                    size,
                    hub_across(spec),
                    "flange",
                    size + 2 * BENEATH,
                )
            )
    return sorted(found)


def _gear(spec: Spec, number: int, name: str) -> Element:
    """Gear of a path on a shaft: free on its bush beside the clutch, else fixed."""
    free = spec.clutch.shaft == number
    path = spec.paths.direct if name == "direct" else spec.paths.idler
    place = 0 if number == 1 else -1
    count, shift = path.tooth_counts[place], shifts_of(path)[place]
    tip = float(spurgear.tip_diameter.formula(path.module, count, shift))
    words = f"{name} gear"
    size = zones.seat(spec, number, words)
    bore = size + 2 * spec.bearings.bush_wall * free
    # a bush that ends within the gear leaves its bore open
    within = free and path.face_width - spec.bearings.free_gear_length > 2 * _FLUSH
    hollow = bore if within else size
    return Element(
        *zones.seat_span(spec, number, words),
        words,
        bore,
        size,
        tip,
        "free" if free else "fixed",
        hollow + 2 * BENEATH,
        hollow=hollow,
    )


def _on_bearing(spec: Spec, number: int, name: str) -> Element:
    row, span = zones.bearing_on(spec, number, name), zones.seat_span(spec, number, name)
    words, bore = f"bearing at the {name}", zones.as_turned(spec, number, name)
    outer = zones.bore_round(spec, number, name)
    if row:
        if zones.series_at(spec, name) == zones.INSERT:
            return Element(*span, words, bore, bore, outer, "insert", bore)
        # a bearing that goes on its seat goes over a bar as thick as the seat may be: common practice
        return Element(
            *span,
            words,
            bore,
            over_seat(bore),
            outer,
            "bearing",
            row["least_shoulder"],
            hollow=bore + 2 * row["corner"],
        )
    return Element(*span, words, bore, bore, outer, "bush", bore + 2 * BENEATH)
