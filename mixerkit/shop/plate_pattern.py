"""Whether the bores of a plate stand as drawn, or how the plate lay when they were measured or bored."""

from __future__ import annotations

from collections.abc import Mapping
from itertools import combinations

import numpy as np

from mixerkit.results import Array
from mixerkit.shop.holes import Plate, plate
from mixerkit.shop.measured import Finding, Said
from mixerkit.shop.wanted_sizes import bores, off_by
from mixerkit.spec import Spec
from mixerkit.units import show

__all__ = ["judge_plate"]


def judge_plate(
    spec: Spec, which: str, places: Mapping[str, tuple[float, float]], system: str = "metric"
) -> list[Finding]:
    """Ask of the places of a plate's bores whether they are the drawing's, or how it was turned.

    Parameters
    ----------
    spec : Spec
    which : str
    places : mapping of str to (float, float)
        ``plates.<which>.shaft_1`` and so on, in mm from the marked edges.
    system : str

    Returns
    -------
    list of Finding
        One for the pattern, and one for each distance that is off.
    """

    def said(size: float) -> str:
        return show(size, "mm", system, 6)

    at, drawn = f"plates.{which}", plate(spec, which)
    ought = {name: np.array([hole.x, hole.y]) for name, hole in bores(drawn).items()}
    made = {name: np.array(places[f"{at}.{name}"]) for name in ought if f"{at}.{name}" in places}
    if not made:
        return []
    points, right = np.array(list(made.values())), np.array([ought[name] for name in made])
    if np.abs(points - right).max() > 0.5:
        turned = _how_turned(points, right, drawn, said)
        if turned:
            kind, how = turned
            return [Finding(at, kind, f"plate at the {which}: {how}.")]
    found = [
        Finding(at, "off", f"plate at the {which}, {words}.")
        for one, other in combinations(made, 2)
        if (words := _apart(one, other, made, ought, said))
    ]
    return found or [Finding(at, "good")]


def _apart(
    one: str, other: str, made: Mapping[str, Array], ought: Mapping[str, Array], said: Said
) -> str:
    """How far two bores stand too far apart or too close; nothing where they stand well."""
    length, want = (float(np.hypot(*(where[one] - where[other]))) for where in (made, ought))
    if abs(length - want) <= off_by(want) + 1e-9:
        return ""
    way = "far apart: more backlash" if length > want else "close: teeth may jam"
    pair = f"{one} to {other}".replace("_", " ")
    return (
        f"{pair}: {said(round(length, 3))}, wanted {said(round(want, 3))}; "
        f"{said(round(abs(length - want), 3))} too {way}"
    )


def _how_turned(points: Array, right: Array, one: Plate, said: Said) -> tuple[str, str] | None:
    """Kind and words of a pattern that is whole but turned, exchanged or moved; none if it is not."""
    over = right * [-1, 1] + [one.width, 0]
    below = right * [1, -1] + [0, one.height]
    middle = np.array([one.width / 2, one.height / 2])
    for pattern, words in (
        (
            over,
            "the pattern is mirrored: the plate was turned over, or x was measured from the wrong edge",
        ),
        (
            below,
            "the pattern is upside down: the idler is on the wrong side, or y was measured from the top edge",
        ),
        (
            over * [1, -1] + [0, one.height],
            "the pattern is turned half round: both edges are the wrong ones",
        ),
        (right[:, ::-1], "x and y are exchanged"),
        (right / 25.4, "these are inches written as millimetres"),
        (right - middle, "these are measured from the plate's middle, not from the marked edges"),
    ):
        if np.abs(points - pattern).max() <= (0.5 if np.abs(pattern).max() > 30 else 0.02):
            return "wrong", words
    moved = points - right
    if len(points) > 1 and np.ptp(moved, axis=0).max() <= 0.1:
        off = moved.mean(axis=0)
        return "off", (
            f"all bores are moved by {said(round(float(off[0]), 3))} and {said(round(float(off[1]), 3))} together; their "
            "distances are right, and the other plate must be moved alike"
        )
    return None
