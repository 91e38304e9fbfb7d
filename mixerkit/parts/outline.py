"""The true outline of a spur gear as the rack of ISO 53 cuts it: involute flanks, trochoid roots.

The rack's straight flank sweeps out the involute and its rounded tip the root. The tip's rounding
is taken as large as the rack has room for, 0.38 modules at most.
"""

from __future__ import annotations

from math import cos, degrees, pi, radians, sin, tan
from typing import TypedDict, Unpack

import numpy as np

from mixerkit.parts import spurgear, undercut
from mixerkit.results import Array

__all__ = ["gear_outline", "tooth_flank"]


class Flank(TypedDict, total=False):
    """What :func:`tooth_flank` may be told beside module, count and shift."""

    tip_diameter: float | None
    thinning: float
    points: int
    pressure_angle: float


def tooth_flank(
    module: float,
    tooth_count: int,
    profile_shift: float = 0.0,
    *,
    tip_diameter: float | None = None,
    thinning: float = 0.0,
    points: int = 40,
    pressure_angle: float = 20.0,
) -> Array:
    """Right flank of a tooth that points along +y, from the middle of the space to the tip.

    Parameters
    ----------
    module : float
        In mm.
    tooth_count : int
    profile_shift : float
        In modules.
    tip_diameter : float, optional
        In mm; that of the unshortened gear, if not given.
    thinning : float
        Taken off the tooth's circular thickness, in mm.
    points : int
        On each of the root and the flank.
    pressure_angle : float
        In degrees.

    Returns
    -------
    numpy.ndarray, shape (n, 2)
        In mm, gear's middle at the origin, radius rising from root to tip.

    References
    ----------
    Rolling of the rack of ISO 53 on the pitch circle; the fillet's envelope by its centre's
    trochoid and the common normal through the pitch point.

    Examples
    --------
    >>> flank = tooth_flank(5.0, 30)
    >>> round(float(np.hypot(*flank[0])), 2), round(float(np.hypot(*flank[-1])), 2)
    (68.75, 80.0)
    """
    turned = radians(pressure_angle)
    around = tip_diameter or float(
        spurgear.tip_diameter.formula(module, tooth_count, profile_shift)
    )
    whole = spurgear.tooth_thickness.formula(
        module, tooth_count, profile_shift, None, pressure_angle
    )
    half = float(whole) / 2 - thinning / 2
    root = _root(module, tooth_count, profile_shift, half, points, turned)
    pitch = module * tooth_count / 2
    begins = undercut.involute_start(module, tooth_count, profile_shift, pressure_angle)
    start = float(begins) / (pitch * cos(turned))
    flank = _involute(pitch, around / 2, half, max(start, 0.0), points, turned)
    if start < 0 or _crosses(root, flank):
        root, flank = _meet(root, flank)
    return np.vstack([root, flank[1:] if np.allclose(root[-1], flank[0], atol=1e-9) else flank])


def _involute(
    pitch: float, tip: float, half: float, start: float, points: int, turned: float
) -> Array:
    """Involute of a tooth of so much half thickness on the pitch circle, from a roll in radians to the tip."""
    base = pitch * cos(turned)
    end = np.sqrt(max(tip**2 / base**2 - 1, 0.0))
    roll = np.linspace(start, max(end, start), points)
    at = half / pitch + tan(turned) - turned - (roll - np.arctan(roll))
    radius = base * np.sqrt(1 + roll**2)
    return np.column_stack([radius * np.sin(at), radius * np.cos(at)])


def _root(
    module: float, count: int, shift: float, half: float, points: int, turned: float
) -> Array:
    """Root from the middle of the space to where the rounding hands over to the straight flank."""
    pitch, rounding = module * count / 2, module * undercut.rack_rounding(degrees(turned))
    # centre of the rounding: depth below the pitch line, and distance from the tooth's middle line
    depth = module * (spurgear.DEDENDUM - shift) - rounding
    tooth = (
        half + (module * spurgear.DEDENDUM - rounding) * tan(turned) - module * shift * tan(turned)
    )
    aside = tooth + rounding / cos(turned)
    aside_from_space = pi * module / 2 - aside
    # the contact's direction turns from straight down to the flank's normal
    normal = np.linspace(pi / 2, turned, points)
    along = depth / np.tan(normal)
    roll = (aside + along) / pitch
    x = aside - pitch * roll + rounding * -np.cos(normal)
    y = -depth - rounding * np.sin(normal)
    bottom = np.column_stack(
        [
            (pitch + y) * np.sin(roll) + x * np.cos(roll),
            (pitch + y) * np.cos(roll) - x * np.sin(roll),
        ]
    )
    floor = pitch - depth - rounding
    middle = pi / count
    if aside_from_space > 1e-9 and bottom[0, 0] < floor * sin(middle):
        arc = np.linspace(middle, np.arctan2(bottom[0, 0], bottom[0, 1]), 6)[:-1]
        bottom = np.vstack([np.column_stack([floor * np.sin(arc), floor * np.cos(arc)]), bottom])
    return bottom


def _crosses(root: Array, flank: Array) -> bool:
    return bool(np.hypot(*root[-1]) > np.hypot(*flank[0]) + 1e-9)


def _meet(root: Array, flank: Array) -> tuple[Array, Array]:
    """Cut an undercut root and flank where they cross: below it the root has taken the flank away."""
    radius_root, radius_flank = np.hypot(*root.T), np.hypot(*flank.T)
    angle_root, angle_flank = np.arctan2(*root.T), np.arctan2(*flank.T)
    low, high = radius_flank[0], min(radius_root.max(), radius_flank[-1])
    radii = np.linspace(low, high, 800)
    rising = radius_root.argsort()
    apart = np.interp(radii, radius_root[rising], angle_root[rising]) - np.interp(
        radii, radius_flank, angle_flank
    )
    cut = np.flatnonzero(apart >= 0)
    at = radii[cut[0]] if len(cut) else high
    return root[radius_root <= at + 1e-9], flank[radius_flank >= at - 1e-9]


def gear_outline(
    module: float,
    tooth_count: int,
    profile_shift: float = 0.0,
    turned: float = 0.0,
    **flank: Unpack[Flank],
) -> Array:
    """Whole outline of a gear, anticlockwise.

    Parameters
    ----------
    module : float
        In mm.
    tooth_count : int
    profile_shift : float
    turned : float
        Angle in radians by which the first tooth stands round from +y, anticlockwise.
    **flank
        As for :func:`tooth_flank`.

    Returns
    -------
    numpy.ndarray, shape (n, 2)
        In mm, about the origin, first point not repeated.

    Examples
    --------
    >>> outline = gear_outline(5.0, 30)
    >>> round(float(np.hypot(*outline.T).max()), 2)
    80.0
    """
    right = tooth_flank(module, tooth_count, profile_shift, **flank)
    # a tooth ends in the middle of a space, just where the next one begins
    left = right[-1:0:-1] * [-1, 1]
    tooth = np.vstack([right, left])
    angles = turned + 2 * pi * np.arange(tooth_count) / tooth_count
    cosine, sine = np.cos(angles), np.sin(angles)
    x = tooth[:, 0] * cosine[:, None] - tooth[:, 1] * sine[:, None]
    y = tooth[:, 0] * sine[:, None] + tooth[:, 1] * cosine[:, None]
    return np.column_stack([x.ravel(), y.ravel()])
