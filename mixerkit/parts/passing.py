"""In which order things go on a shaft, from which end, and what blocks what where no order works."""

from __future__ import annotations

from collections.abc import Sequence
from functools import reduce
from itertools import accumulate
from typing import NamedTuple

from mixerkit.parts import stack
from mixerkit.parts.kept import PLACED, kept_by
from mixerkit.parts.rings import PLAY
from mixerkit.parts.zones import Zone, thickest_of
from mixerkit.spec import Spec

__all__ = ["Blocked", "Way", "way_of", "way_on"]


class Blocked(NamedTuple):
    """What has least to spare on its way: a bore that passes so much, over so thick a section, in mm."""

    name: str
    passes: float
    over: float


class Way(NamedTuple):
    """An order in which things go on a shaft.

    ``from_left`` and ``from_right`` name them in the order in which they go on from either end, those nearest
    the middle first; ``worst`` is the one with least to spare, which blocks the order where ``over`` is more
    than it ``passes``.
    """

    from_left: tuple[str, ...]
    from_right: tuple[str, ...]
    worst: Blocked


class _Thing(NamedTuple):
    """What goes on, with start, end and bore of each of its parts."""

    start: float
    end: float
    name: str
    lips: tuple[tuple[float, float, float], ...]

    def blocked(self, turned: Sequence[Zone], side: float, *, left: bool) -> Blocked:
        """Which of its parts has least to spare from an end of the shaft to its seat."""
        rows = [
            Blocked(
                self.name,
                bore,
                thickest_of(turned, side, end) if left else thickest_of(turned, start, side),
            )
            for start, end, bore in self.lips
        ]
        return reduce(_worse, rows)


def _things(laid: stack.Stack) -> list[_Thing]:
    """Everything that goes over the shaft, rings and washers with it."""
    found = [
        _Thing(one.start, one.end, one.name, one.lips or ((one.start, one.end, one.passes),))
        for one in laid.elements
    ]
    for one in laid.washers:
        room = one.start, one.end
        found.append(_Thing(*room, one.words, ((*room, one.passes),)))
    for groove in laid.grooves:
        passes = groove.ring["shaft"] + PLAY
        span = groove.start, groove.end
        found.append(_Thing(*span, f"ring {groove.where}", ((*span, passes),)))
    return sorted(found)


def _worse(one: Blocked, other: Blocked) -> Blocked:
    """Which of two has less to spare, the first where both have as much."""
    return other if other.over * one.passes > one.over * other.passes else one


def way_on(laid: stack.Stack) -> Way:
    """Find the order in which everything goes on a shaft.

    What comes from an end must go on after all that sits further in, so that an order is a place to part
    the row: what is left of it comes from the left, the rest from the right. Each bore passes every section
    between its end of the shaft and its seat, and that of the seat itself.

    Parameters
    ----------
    laid : Stack
        See :func:`mixerkit.parts.stack.laid`.

    Returns
    -------
    Way
        With the most to spare for the one that has least.
    """
    row = _things(laid)
    left, right = laid.left, laid.right

    nothing = Blocked("", 1.0, 0.0)
    by_left = [one.blocked(laid.turned, left, left=True) for one in row]
    by_right = [one.blocked(laid.turned, right, left=False) for one in row]
    from_left = [nothing, *accumulate(by_left, _worse)]
    from_right = [nothing, *accumulate(reversed(by_right), _worse)][::-1]
    ways = []
    for parted in range(len(row) + 1):
        worst = _worse(from_left[parted], from_right[parted])
        # of orders that are alike the one in which things slide least
        slid = sum(one.end - left for one in row[:parted]) + sum(
            right - one.start for one in row[parted:]
        )
        ways.append((round(worst.over / worst.passes, 9), slid, parted, worst))
    _, _, parted, worst = min(ways)
    return Way(
        tuple(one.name for one in reversed(row[:parted])),
        tuple(one.name for one in row[parted:]),
        worst,
    )


@kept_by(*PLACED)
def way_of(spec: Spec, number: int) -> Way:
    """Find the order in which everything goes on a shaft of a design, see :func:`way_on`."""
    return way_on(stack.laid(spec, number))
