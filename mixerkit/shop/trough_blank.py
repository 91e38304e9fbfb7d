"""The trough's sheet as it is cut: a shell bent round both shafts, and its two ends.

Ribs, lid, feet and guards are no sizes of a design: they are left out of its mass, and of ribs only the seams count.
"""

from __future__ import annotations

from math import acos, pi, sqrt

from mixerkit.frozen import result
from mixerkit.shop.part import density
from mixerkit.spec import Spec

__all__ = ["TroughBlank", "trough_blank"]


@result
class TroughBlank:
    """The sheet of a trough; lengths in mm.

    Attributes
    ----------
    girth : float
        Of the shell across the shafts, from edge to edge.
    length : float
        Of the shell along them.
    width, height : float
        Of the blank of either end.
    finished : float
        Mass of shell and ends in kg.
    bought : float
        Mass of the blanks in kg.
    """

    girth: float
    length: float
    width: float
    height: float
    finished: float
    bought: float

    @property
    def cut(self) -> float:
        """Length of all cuts: round the shell and round both ends."""
        return 2 * (self.girth + self.length) + 4 * (self.width + self.height)

    @property
    def seam(self) -> float:
        """Length of the seams between the shell and both ends."""
        return 2 * self.girth


def trough_blank(spec: Spec) -> TroughBlank:
    """Work out the sheet of the trough.

    Parameters
    ----------
    spec : Spec

    Returns
    -------
    TroughBlank
        A shell of two half rounds that meet between the shafts, its sides going up to the lid. Where
        ``trough.free_depth`` is not given, they go as far over the paddles as ``guard.lid_distance``, a little more
        than they have to.
    """
    radius = spec.paddles.tip_radius + spec.trough.wall_clearance
    half = spec.housing.centre_distance / 2
    side = spec.paddles.tip_radius + (spec.trough.free_depth or spec.guard.lid_distance)
    if half < radius:
        # each round ends where both meet, half of its corner short of straight up
        short = acos(half / radius)
        arcs, flat = 2 * radius * (pi - short), 0.0
        lower = radius**2 * (pi - short) + half * sqrt(radius**2 - half**2)
    else:
        arcs, flat = 2 * pi * radius, 2 * (half - radius)
        lower = pi * radius**2
    girth, width, height = arcs + flat + 2 * side, 2 * (half + radius), radius + side
    heavy = spec.trough.wall_thickness * density(spec.trough.material) * 1e-9
    shell = girth * spec.trough.length
    return TroughBlank(
        girth=girth,
        length=spec.trough.length,
        width=width,
        height=height,
        finished=heavy * (shell + 2 * (lower + width * side)),
        bought=heavy * (shell + 2 * width * height),
    )
