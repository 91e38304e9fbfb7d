"""Walking along a row of values: in growing strides, and back to the nearest place that does."""

from __future__ import annotations

from collections.abc import Callable, Iterator

__all__ = ["halved", "strides"]


def strides(here: float, count: int, sign: int) -> Iterator[int]:
    """Places from one on in growing strides, to the last one in that direction.

    Parameters
    ----------
    here : float
        Place to begin beside; between two places where it is none.
    count : int
        How many places there are.
    sign : int
        1 for upwards, -1 for downwards.

    Yields
    ------
    int

    Examples
    --------
    >>> list(strides(3, 20, 1)), list(strides(2.5, 20, -1))
    ([4, 5, 7, 10, 14, 19], [2, 1, 0])
    """
    place = (
        int(here + 1 if sign > 0 and here >= 0 else here) if sign > 0 else int(-(-here // 1)) - 1
    )
    place = max(place, 0) if sign > 0 else place
    stride = 1
    while 0 <= place < count:
        yield place
        last = count - 1 if sign > 0 else 0
        if place == last:
            return
        place += sign * stride
        stride = max(stride + 1, int(stride * 1.6))
        if not 0 <= place < count:
            place = last


def halved(fails: float, does: int, enough: Callable[[int], bool]) -> int:
    """Halve the way between a place that does not do and one that does: the nearest that was found to do.

    Parameters
    ----------
    fails : float
    does : int
    enough : callable
        Whether a place does.

    Returns
    -------
    int

    Examples
    --------
    >>> halved(2.0, 30, lambda place: place >= 11)
    11
    """
    low, high = fails, does
    while abs(high - low) > 1:
        middle = round((low + high) / 2)
        if middle in (low, high):
            break
        if enough(middle):
            high = middle
        else:
            low = middle
    return high
