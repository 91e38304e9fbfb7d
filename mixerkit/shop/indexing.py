"""Which tooth counts a dividing head can index exactly."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Any

import numpy as np

__all__ = ["exact"]


def exact(tooth_count: Any, ratio: int, circles: Iterable[int]) -> Any:
    """Whether some hole circle divides a count exactly: ratio times circle over count is whole.

    Parameters
    ----------
    tooth_count : int or array
    ratio : int
        Turns of the crank for one of the spindle.
    circles : iterable of int
        Holes in each circle the shop has.

    Returns
    -------
    bool or array

    References
    ----------
    The crank moves ratio / count turns, which is whole holes on a circle of h where h ratio / count
    is whole; any handbook on the dividing head.

    Examples
    --------
    >>> bool(exact(28, 40, [21])), bool(exact(53, 40, [15, 20, 21, 49]))
    (True, False)
    """
    counts = np.asarray(tooth_count)
    holes = np.array([1, *circles])
    return np.any((ratio * holes) % counts[..., None] == 0, axis=-1)[()]
