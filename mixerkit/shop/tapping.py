"""Tapped holes: drill, depth, and how much thread a drill from the shelf leaves."""

from __future__ import annotations

import numpy as np

from mixerkit.frozen import result
from mixerkit.shop.drills import drill_words
from mixerkit.shop.threads import thread
from mixerkit.shop.workshop import HoleMakers, Workshop

__all__ = ["engagement", "nearest_drill", "tapped_hole"]


def engagement(diameter: float, pitch: float, drill: float) -> float:
    """Share of the full thread height that a drill leaves.

    Parameters
    ----------
    diameter, pitch, drill : float
        In mm.

    Returns
    -------
    float

    References
    ----------
    Height of the basic profile, 5/8 of the fundamental triangle: ISO 68-1; (d - D) / (1.0825 P).

    Examples
    --------
    >>> round(engagement(8.0, 1.25, 6.8), 2)
    0.89
    """
    return (diameter - drill) / (1.0825 * pitch)


def nearest_drill(
    size: float, drills: tuple[float, ...], down: float = 0.1, up: float = 0.3
) -> float | None:
    """Drill of the shelf nearest a size, not far under it nor far over; none if there is none."""
    near = [one for one in drills if size - down - 1e-9 <= one <= size + up + 1e-9]
    return min(near, key=lambda one: (abs(one - size), one)) if near else None


@result
class TappedHole:
    """A hole to tap, with the drills there are."""

    drill: float
    on_shelf: float | None
    engaged: float
    thread_depth: float
    drill_depth: float
    has_tap: bool
    clearance: float
    words: str


def tapped_hole(
    name: str, shop: Workshop | None, *, brittle: bool = False, system: str = "metric"
) -> TappedHole:
    """Sizes of a tapped hole, and what the shop has for it.

    Parameters
    ----------
    name : str
        Of the thread; see :func:`mixerkit.shop.threads.thread`.
    shop : Workshop, or None
    brittle : bool
        For cast iron and soft metals, which want a longer thread.
    system : str
        ``"metric"`` or ``"inch"``: how sizes are said.

    Returns
    -------
    TappedHole
        ``drill`` wanted and ``on_shelf`` (none if there is none near), ``engaged`` share of thread,
        ``thread_depth`` and ``drill_depth`` in mm, ``has_tap``, ``words``.

    Raises
    ------
    InputError
        If the thread is in no table.

    References
    ----------
    Thread one diameter deep in steel, one and a half in cast iron: common practice; three pitches more
    for the drill's point and the tap's lead.
    """
    one = thread(name)
    has = shop.holes if shop else HoleMakers.from_table({})
    on_shelf = nearest_drill(one.tapping_drill, has.drills)
    depth = one.diameter * (1.5 if brittle else 1.0)
    used = on_shelf if on_shelf is not None else one.tapping_drill
    has_tap = one.name in {thread(tap).name for tap in has.taps}
    lacking = [
        *(
            []
            if on_shelf is not None
            else [f"no drill near {drill_words(one.tapping_drill, system)} on the shelf"]
        ),
        *([] if has_tap else [f"no tap {name} on the shelf"]),
    ]
    return TappedHole(
        drill=one.tapping_drill,
        on_shelf=on_shelf,
        engaged=engagement(one.diameter, one.pitch, used),
        thread_depth=depth,
        drill_depth=float(np.ceil(depth + 3 * one.pitch)),
        has_tap=has_tap,
        clearance=one.clearance,
        words=("; ".join(lacking) or "all on the shelf") if shop else "no shop file",
    )
