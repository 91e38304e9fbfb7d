"""Ways out for bores of plates and bushes made too large."""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np

from mixerkit.design import Design
from mixerkit.explore.rework.record import Rework, in_order, sized
from mixerkit.parts import fits
from mixerkit.parts.bush_walls import RUNNING_FIT
from mixerkit.parts.zones import seat, thickest_free_gear
from mixerkit.shop.holes import plate
from mixerkit.shop.shaftwork import thickest
from mixerkit.shop.turning import round_bar
from mixerkit.shop.wanted_bushes import OWN_BUSHES
from mixerkit.spec import Spec

__all__ = ["LEAST_BESIDE", "bush", "plate_bore", "ring_room"]

LEAST_BESIDE = 5.0
"""Metal in mm that is left beside a ring pressed into a plate (common practice)."""
_STAYS = "holes, gears and speeds stay as drawn"


def ring_room(spec: Spec, name: str, off: float = 0.0) -> tuple[float, float]:
    """Outside of a ring that mends a plate's bore, and the least metal left beside it, both in mm.

    Parameters
    ----------
    spec : Spec
    name : str
        Of the hole.
    off : float
        How far the bore is from its place, or over its radius, in mm.

    Returns
    -------
    tuple of (float, float)
    """
    one = plate(spec, "reducer")
    bore = next(item for item in one.holes if item.name == name)
    ring = bore.diameter + 2 * (off + 4.0)
    near = min(
        min(bore.x, bore.y, one.width - bore.x, one.height - bore.y) - ring / 2,
        *(
            np.hypot(bore.x - other.x, bore.y - other.y) - (ring + other.diameter) / 2
            for other in one.holes
            if other is not bore
        ),
    )
    return float(ring), float(near)


def plate_bore(design: Design, name: str, size: float) -> list[Rework]:
    """Ways out for a plate's bore made too large.

    Parameters
    ----------
    design : Design
    name : str
        ``"shaft 1"``, ``"shaft 2"`` or ``"idler pin"``.
    size : float
        As bored, in mm.

    Returns
    -------
    list of Rework
        Least effort first, then the strongest.
    """
    bore = next(item for item in plate(design, "reducer").holes if item.name == name)
    over = size - bore.diameter
    fitted = _pin_to_suit if name == "idler pin" else _bush_to_suit
    return in_order(
        [
            *fitted(design, size, over),
            *_ring(design, *ring_room(design, name, over / 2)),
            Rework("a new plate", {}, ("both, if they were bored together",), 3, np.inf),
        ]
    )


def _pin_to_suit(design: Design, size: float, over: float) -> Iterator[Rework]:
    if over <= design.housing.idler_pin / 4:
        words = f"turn that end of the pin to {sized(design)(size, 5)}"
        bar = round_bar(size, design.show_units)
        told = (f"from {bar}; the idler's bush stays", _STAYS)
        yield Rework(words, {}, told, 1, np.inf, lives=True)


def _bush_to_suit(design: Design, size: float, over: float) -> Iterator[Rework]:
    bearings = design.bearings
    if bearings.kind == "plain bush" and over <= 2 * bearings.bush_wall:
        words = f"turn its bush to press into {sized(design)(size, 5)}"
        told = ("press it in, then ream both bushes in line", _STAYS)
        yield Rework(words, {}, told, 1, np.inf, lives=True)


def _ring(design: Design, ring: float, near: float) -> Iterator[Rework]:
    if near >= LEAST_BESIDE:
        say = sized(design)
        told = (
            f"{say(near)} of metal left beside it",
            "a ring of the plate's steel, pressed or welded: bore it last",
            _STAYS,
        )
        words = f"bore it out to {say(ring)}, press in a ring and bore that"
        yield Rework(words, {}, told, 2, near / LEAST_BESIDE)


def bush(design: Design, name: str, bore: float, *, shaft_turned: bool = False) -> list[Rework]:
    """Ways out for a bush reamed too far.

    Parameters
    ----------
    design : Design
    name : str
        ``"free_gear"``, ``"idler"``, or that of a shaft's own bush.
    bore : float
        As reamed, in mm.
    shaft_turned : bool
        Whether what turns in it is turned already.

    Returns
    -------
    list of Rework
        Least effort first, then the strongest.
    """
    spec, say = design, sized(design)
    drawn = spec.housing.idler_pin if name == "idler" else thickest_free_gear(spec)
    what, stays = "pin" if name == "idler" else "shaft's seat", "gear"
    if name in OWN_BUSHES:
        drawn, stays = seat(spec, *OWN_BUSHES[name]), "plate"
    found = [
        Rework(
            "press it out and make a new bush",
            {},
            (f"the {stays} stays; bore the bush before pressing, ream it after",),
            1,
            np.inf,
        )
    ]
    if not shaft_turned and bore - drawn <= 0.5:
        slack = fits.fit(drawn, RUNNING_FIT).tightest
        thick = drawn if name == "idler" else thickest(spec, spec.clutch.shaft)
        bar = round_bar(max(bore - slack, thick), design.show_units)
        found.append(
            Rework(
                f"turn the {what} to {say(bore - slack, 5)}",
                {},
                (f"it then runs with {say(slack, 2)} of play, as drawn", f"from {bar}"),
                0,
                np.inf,
                lives=True,
            )
        )
    return in_order(found)
