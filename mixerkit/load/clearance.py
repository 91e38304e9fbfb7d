"""Whether the paddles of the two shafts pass each other, over every turn, in both modes.

In the plane of rotation a blade is a rectangle: its length along the radius, and across it what the set
angle leaves there (:func:`mixerkit.parts.blades.turning_width`). Along the shafts it takes up the width that
the clay meets. Two blades that lie apart along the shafts never meet; others must pass in the plane.
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from math import pi

import numpy as np

from mixerkit.load.clay_load import paddle_angles
from mixerkit.parts.blades import corner_radius, extent_at, section_at, turning_width
from mixerkit.results import Array, Numbers
from mixerkit.spec import Paddles, Spec

__all__ = [
    "Meeting",
    "blade_gap",
    "corner_reach",
    "mode_ratio",
    "nearest_meeting",
    "phase_play",
    "unseen_gap",
]

_STEPS_A_TURN = 720
_FINEST, _MOST = 0.5, 12
"""Step in degrees between the phases looked at within a clutch's play, and the most steps to either side."""


@dataclass(frozen=True)
class Meeting:
    """Where two blades come nearest.

    Attributes
    ----------
    gap : float
        In mm; below zero they run into each other.
    pair : tuple of int
        Which blade of shaft 1 and which of shaft 2, counted from 0.
    angle_1, angle_2 : float
        Of those blades in radians at that moment.
    """

    gap: float
    pair: tuple[int, int]
    angle_1: float
    angle_2: float


def blade_gap(
    angle_1: Numbers, angle_2: Numbers, apart: float, root: float, tip: float, width: float
) -> Numbers:
    """Gap between two blades in the plane of rotation; below zero where they overlap.

    Parameters
    ----------
    angle_1, angle_2 : float or array
        Of the blades in radians, both counted the same way round.
    apart : float
        Distance of the shafts, in the unit of the other lengths.
    root, tip, width : float
        Of both blades.

    Returns
    -------
    float or array
        The widest gap along any edge's direction: negative exactly where the rectangles overlap,
        and never more than the true distance where they do not.

    References
    ----------
    Separating axis theorem for convex shapes.

    Examples
    --------
    >>> round(float(blade_gap(0.0, np.pi, 150, 25, 90, 30)), 1)
    -30.0
    >>> round(float(blade_gap(np.pi, 0.0, 150, 25, 90, 30)), 1)
    200.0
    """
    half_length, half_width, middle = (tip - root) / 2, width / 2, (tip + root) / 2
    cos_1, sin_1, cos_2, sin_2 = np.cos(angle_1), np.sin(angle_1), np.cos(angle_2), np.sin(angle_2)
    x = apart + middle * (cos_2 - cos_1)
    y = middle * (sin_2 - sin_1)
    cosine = np.abs(cos_1 * cos_2 + sin_1 * sin_2)
    sine = np.abs(sin_1 * cos_2 - cos_1 * sin_2)
    along = half_length + half_length * cosine + half_width * sine
    across = half_width + half_length * sine + half_width * cosine
    gap: Numbers = np.maximum.reduce(
        [
            np.abs(x * cos_1 + y * sin_1) - along,
            np.abs(y * cos_1 - x * sin_1) - across,
            np.abs(x * cos_2 + y * sin_2) - along,
            np.abs(y * cos_2 - x * sin_2) - across,
        ]
    )
    return gap


def _passing(blade: Paddles, apart: float) -> tuple[float, float]:
    """Length along the shafts that two paddles need to pass each other, and their width in the plane, in mm.

    Where one reaches in to some radius, the other stands out to what is left of the distance of the
    shafts: tips pass stems, which are wider.
    """
    most = corner_reach(blade)
    least = float(np.clip(apart - most, blade.root_radius, blade.tip_radius))
    radii = np.linspace(least, max(most, least), 21)
    both = extent_at(blade, radii) + extent_at(blade, np.maximum(apart - radii, least))
    return float(both.max()) / 2, float(np.max(_turning(blade, radii)))


def _turning(blade: Paddles, radius: Numbers) -> Numbers:
    return turning_width.formula(*section_at(blade, radius), blade.set_angle)


def corner_reach(blade: Paddles) -> float:
    """Radius in mm that a blade's corners reach."""
    return float(
        corner_radius.formula(blade.tip_radius, blade.width, blade.thickness, blade.set_angle)
    )


def _phases(play: float) -> Array:
    """Phases in degrees that are looked at where shaft 2 may stand so much to either side of its own."""
    return np.linspace(-play, play, 2 * min(int(np.ceil(play / _FINEST)), _MOST) + 1)


def unseen_gap(blade: Paddles, ratio: Fraction | None, play: float) -> float:
    """How much nearer in mm two corners may come between two moments, and two phases, that are looked at.

    Parameters
    ----------
    blade : Record
    ratio, play
        As in :func:`nearest_meeting`.

    Returns
    -------
    float
    """
    if ratio is None:
        return 0.0
    looked_at = np.radians(_phases(play))
    between = (looked_at[-1] - looked_at[0]) / max(len(looked_at) - 1, 1) / 2
    return corner_reach(blade) * (pi / _STEPS_A_TURN * (1 + abs(float(ratio))) + float(between))


def nearest_meeting(
    blade: Paddles,
    apart: float,
    ratio: Fraction | None,
    steps: int = _STEPS_A_TURN,
    play: float = 0.0,
    unseen: float = 0.0,
) -> Meeting:
    """Find where the paddles of the two shafts come nearest to each other.

    Parameters
    ----------
    blade : Record
    apart : float
        Distance of the shafts in mm.
    ratio : Fraction or None
        Turns of shaft 2 for one of shaft 1, negative against it; the turns are followed until
        both shafts stand as they began. None asks for every pair of angles, as when the clutch
        may take hold anywhere.
    steps : int
        Moments looked at in a turn of shaft 1.
    play : float
        Degrees by which shaft 2 may stand to either side of its phase.
    unseen : float
        How much nearer in mm two corners may come between two moments, and two phases, that are looked at.

    Returns
    -------
    Meeting
    """
    beside, width = _passing(blade, apart)
    along = blade.spacing * np.arange(blade.count)
    lying_apart = np.abs(along[:, None] - along[None, :] - blade.offset_2) - beside
    if ratio is None or play >= 180 / ratio.denominator:
        # some turn brings two corners together on the line of the shafts; else only lying apart helps
        pair = np.unravel_index(int(lying_apart.argmin()), lying_apart.shape)
        gap = max(apart - 2 * corner_reach(blade), float(lying_apart[pair]))
        lean = float(np.arctan2(width / 2, blade.tip_radius))
        return Meeting(gap, (int(pair[0]), int(pair[1])), lean, pi + lean)
    turned = np.linspace(0.0, 2 * pi * ratio.denominator, steps * ratio.denominator, endpoint=False)
    first, second = paddle_angles(blade, 1), paddle_angles(blade, 2)
    best = Meeting(np.inf, (0, 0), 0.0, 0.0)
    for i, j in np.ndindex(lying_apart.shape):
        for phase in np.radians(_phases(play)):
            if lying_apart[i, j] >= best.gap:
                break
            one, two = turned + first[i], float(ratio) * turned + second[j] + phase
            gaps = np.asarray(
                blade_gap(one, two, apart, blade.root_radius, blade.tip_radius, width)
            )
            place = int(gaps.argmin())
            gap = max(float(gaps[place]) - unseen, float(lying_apart[i, j]))
            if gap < best.gap:
                best = Meeting(gap, (i, j), float(one[place]), float(two[place]))
    return best


def phase_play(spec: Spec, path: str) -> float:
    """Degrees by which shaft 2 may stand to either side of its phase, from the play of the dogs.

    A dog may lie at either flank of its space, and nothing says at which of them the phase was set.
    """
    play = spec.clutch.angular_play
    return play * abs(float(mode_ratio(spec, path))) if spec.clutch.shaft == 1 else play


def mode_ratio(spec: Spec, path: str) -> Fraction:
    """Turns of shaft 2 for one of shaft 1 on a path, exactly."""
    counts = getattr(spec.paths, path).tooth_counts
    return Fraction((-1) ** (len(counts) - 1) * counts[0], counts[-1])
