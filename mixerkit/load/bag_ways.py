"""How a bag goes in: which of its sides have to pass the opening, and how deep it then lies."""

from __future__ import annotations

from math import sqrt

from mixerkit.frozen import result
from mixerkit.load.trough import bag_sides
from mixerkit.spec import Spec

__all__ = ["WAYS", "Pack", "free_depth", "lies", "pack", "passes", "trough_width", "ways_that_do"]

WAYS = ("standing", "lying", "folded", "cut")
"""Ways a bag may go in, see :class:`mixerkit.spec.Batch`."""


@result
class Pack:
    """A bag, or the piece of one, as it goes in and comes to lie; sides in mm, each with its name.

    Attributes
    ----------
    through : tuple of (str, float)
        The two sides that have to pass the opening, the longer first.
    rests : tuple of (str, float)
        The two sides that it lies on, the longer first.
    deep : tuple of (str, float)
        The side that stands up above the paddles.
    """

    through: tuple[tuple[str, float], tuple[str, float]]
    rests: tuple[tuple[str, float], tuple[str, float]]
    deep: tuple[str, float]


def pack(spec: Spec, way: str) -> Pack:
    """Give the sides of the bag as one of the ways has them.

    Parameters
    ----------
    spec : Spec
    way : str
        One of :data:`WAYS`.

    Returns
    -------
    Pack
        Its bag's longest side is its length, its shortest its height, whatever the file calls them.

    Examples
    --------
    >>> from mixerkit import Design
    >>> pack(Design.demo(), "folded").rests
    (('width', 190.0), ('half its length', 150.0))
    """
    (long, wide, high), _ = bag_sides(spec)
    length, width, height = ("length", long), ("width", wide), ("height", high)
    if way == "standing":
        return Pack((width, height), (length, width), height)
    if way == "lying":
        return Pack((length, width), (length, width), height)
    half = ("half its length", long / 2)
    first, second = sorted((half, width), key=lambda one: one[1], reverse=True)
    deep = ("twice its height", 2 * high) if way == "folded" else height
    return Pack((first, second), (first, second), deep)


def free_depth(spec: Spec) -> float:
    """Depth in mm between the paddles' tops and the lid.

    As the file gives it; else from how far the lid's edge, right over the wall, is from the nearest paddle.
    Nothing where that edge is no higher than the paddles' tops.
    """
    if spec.trough.free_depth > 0:
        return spec.trough.free_depth
    tip = spec.paddles.tip_radius
    slant, aside = spec.guard.lid_distance + tip, tip + spec.trough.wall_clearance
    # an edge below the paddles' tops leaves nothing over them, which is no cut-off of a depth there is
    return max(sqrt(max(slant**2 - aside**2, 0.0)) - tip, 0.0)


def lies(spec: Spec, way: str) -> tuple[float, float]:
    """Sides in mm that come to lie along and across the shafts: along the longer, unless only the other fits."""
    (_, first), (_, second) = pack(spec, way).rests
    long, wide = spec.trough.length, trough_width(spec)
    turned = first <= wide and second <= long
    return (second, first) if turned and not (first <= long and second <= wide) else (first, second)


def trough_width(spec: Spec) -> float:
    """Width in mm of the trough above the shafts."""
    return spec.housing.centre_distance + 2 * (spec.paddles.tip_radius + spec.trough.wall_clearance)


def passes(spec: Spec, way: str) -> bool:
    """Whether the bag goes through the opening one way, length along or across, and finds room in the trough."""
    goes = pack(spec, way)
    _, opening = bag_sides(spec)
    along, across = lies(spec, way)
    return (
        all(side <= free for (_, side), free in zip(goes.through, opening, strict=True))
        and along <= spec.trough.length
        and across <= trough_width(spec)
        and goes.deep[1] <= free_depth(spec)
    )


def ways_that_do(spec: Spec) -> list[str]:
    """Name the other ways that the bag would go in, whole ways first."""
    return [one for one in WAYS if one != spec.batch.goes_in and passes(spec, one)]
