"""How much a part has to spare over what is asked of it, and in which load case it has least."""

from __future__ import annotations

import math
from functools import lru_cache
from typing import Literal

import numpy as np
import numpy.typing as npt

from mixerkit.frozen import frozen
from mixerkit.results import Numbers

__all__ = ["governing", "spare_of"]


def spare_of(demand: Numbers, capacity: Numbers, safety: float) -> Numbers:
    """Capacity over demand times safety; no limit where nothing is asked, unknown stays unknown.

    Where nothing is asked, less than nothing still does not do: a gap below zero is an overlap.
    """
    if isinstance(demand, (int, float)) and isinstance(capacity, (int, float)):
        if demand * safety <= 0:
            return math.inf if capacity >= demand * safety else -math.inf
        return capacity / (demand * safety)
    needed, takes = np.asarray(demand, float) * safety, np.asarray(capacity, float)
    if needed.size and needed.min() > 0:
        return takes / needed
    nothing = needed <= 0
    unasked = np.where(takes >= needed, math.inf, -math.inf)
    return np.where(nothing, unasked, takes / np.where(nothing, 1.0, needed))


def governing(
    demand: Numbers,
    capacity: Numbers,
    safety: float,
    where: npt.NDArray[np.bool_] | Literal[True] = True,
) -> int:
    """Find the place of the least spare, of those in ``where``; an unknown one governs all.

    Parameters
    ----------
    demand, capacity : float or array, broadcast
    safety : float
    where : True or array of bool

    Returns
    -------
    int
    """
    # the least of an array with an unknown in it is that unknown
    if where is True:
        return int(np.atleast_1d(spare_of(demand, capacity, safety)).argmin())
    places = _places(where.tobytes())
    if not len(places):
        return 0
    if isinstance(capacity, (int, float)) and capacity > 0:
        # of one capacity the greatest demand has least to spare, and an unknown one comes first
        here = np.asarray(demand)[places]
        most = int(here.argmax())
        if not here[most] * safety <= 0:
            return int(places[most])
    asked, takes = np.asarray(demand), np.asarray(capacity)
    least = np.asarray(
        spare_of(
            asked[places] if asked.ndim else asked, takes[places] if takes.ndim else takes, safety
        )
    )
    return int(places[least.argmin()]) if least.ndim else int(places[0])


@lru_cache(maxsize=256)
def _places(mask: bytes) -> npt.NDArray[np.intp]:
    """Places of what is true in a mask; the same few masks are asked for again and again."""
    places: npt.NDArray[np.intp] = frozen(np.frombuffer(mask, bool).nonzero()[0])
    return places
