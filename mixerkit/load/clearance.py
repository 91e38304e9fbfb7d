"""Whether the paddles of the two shafts pass each other, over every turn, in both modes.

In the plane of rotation a blade is a rectangle: its length along the radius, and across it what the set
angle leaves there (:func:`mixerkit.parts.blades.turning_width`). Along the shafts it takes up the width that
the clay meets. Two blades that lie apart along the shafts never meet; others must pass in the plane.
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from math import pi
from types import SimpleNamespace
from typing import Any

import numpy as np

from mixerkit.cases import Case
from mixerkit.checks import Check
from mixerkit.load.paddles import paddle_angles
from mixerkit.parts.blades import extent_at, section_at, turning_width

__all__ = ["Meeting", "blade_gap", "checks", "nearest_meeting"]

_STEPS_A_TURN = 720
OVERLAP = 1.1
"""Least diameter of a paddle circle over the distance of the shafts (common practice)."""


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
    angle_1: Any, angle_2: Any, apart: float, root: float, tip: float, width: float
) -> Any:
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
    return np.maximum.reduce(
        [
            np.abs(x * cos_1 + y * sin_1) - along,
            np.abs(y * cos_1 - x * sin_1) - across,
            np.abs(x * cos_2 + y * sin_2) - along,
            np.abs(y * cos_2 - x * sin_2) - across,
        ]
    )


def _passing(blade: SimpleNamespace, apart: float) -> tuple[float, float]:
    """Length along the shafts that two paddles need to pass each other, and their width in the plane, in mm.

    Where one reaches in to some radius, the other stands out to what is left of the distance of the
    shafts: tips pass stems, which are wider.
    """
    most = float(np.hypot(blade.tip_radius, np.max(_turning(blade, blade.tip_radius)) / 2))
    least = float(np.clip(apart - most, blade.root_radius, blade.tip_radius))
    radii = np.linspace(least, max(most, least), 21)
    both = extent_at(blade, radii) + extent_at(blade, np.maximum(apart - radii, least))
    return float(both.max()) / 2, float(np.max(_turning(blade, radii)))


def _turning(blade: SimpleNamespace, radius: Any) -> Any:
    return turning_width.plain(*section_at(blade, radius), blade.set_angle)


def nearest_meeting(
    blade: SimpleNamespace, apart: float, ratio: Fraction | None, steps: int = _STEPS_A_TURN
) -> Meeting:
    """Find where the paddles of the two shafts come nearest to each other.

    Parameters
    ----------
    blade : SimpleNamespace
        The design's paddles in plain numbers.
    apart : float
        Distance of the shafts in mm.
    ratio : Fraction or None
        Turns of shaft 2 for one of shaft 1, negative against it; the turns are followed until
        both shafts stand as they began. None asks for every pair of angles, as when the clutch
        may take hold anywhere.
    steps : int
        Moments looked at in a turn of shaft 1.

    Returns
    -------
    Meeting
    """
    beside, width = _passing(blade, apart)
    along = blade.spacing * np.arange(blade.count)
    lying_apart = np.abs(along[:, None] - along[None, :] - blade.offset_2) - beside
    nearest = np.unravel_index(int(lying_apart.argmin()), lying_apart.shape)
    facing, axial = apart - 2 * blade.tip_radius, float(lying_apart[nearest])
    if ratio is None and facing <= axial:
        # some turn brings two tips face to face, so only lying apart along the shafts helps
        return Meeting(axial, (int(nearest[0]), int(nearest[1])), 0.0, pi)
    if ratio is None:
        one, two = np.meshgrid(*[np.linspace(-pi, pi, 181)] * 2)
        angles = [(one.ravel(), two.ravel())]
        pairs = [nearest]
    else:
        turned = np.linspace(
            0.0, 2 * pi * ratio.denominator, steps * ratio.denominator, endpoint=False
        )
        first, second = paddle_angles(blade, 1), paddle_angles(blade, 2)
        pairs = list(np.ndindex(lying_apart.shape))
        angles = [(turned + first[i], float(ratio) * turned + second[j]) for i, j in pairs]
    best = Meeting(np.inf, (0, 0), 0.0, 0.0)
    for (i, j), (one, two) in zip(pairs, angles, strict=True):
        if lying_apart[i, j] >= best.gap:
            continue
        gaps = blade_gap(one, two, apart, blade.root_radius, blade.tip_radius, width)
        place = int(gaps.argmin())
        gap = max(float(gaps[place]), float(lying_apart[i, j]))
        if gap < best.gap:
            best = Meeting(gap, (int(i), int(j)), float(one[place]), float(two[place]))
    return best


def mode_ratio(case_plain: SimpleNamespace, path: str) -> Fraction:
    """Turns of shaft 2 for one of shaft 1 on a path, exactly."""
    counts = getattr(case_plain.paths, path).tooth_counts
    return Fraction((-1) ** (len(counts) - 1) * counts[0], counts[-1])


def checks(case: Case) -> list[Check]:
    """Check that the paddles clear each other and the other shaft's sleeve, and reach into each other's circle.

    Parameters
    ----------
    case : Case

    Returns
    -------
    list of Check
    """
    plain = case.plain
    blade, apart, wanted = (
        plain.paddles,
        plain.housing.centre_distance,
        plain.safety.paddle_clearance,
    )
    ratios: dict[str, Fraction | None] = (
        {"counter-rotating": mode_ratio(plain, "direct"), "co-rotating": mode_ratio(plain, "idler")}
        if plain.clutch.keeps_phase
        else {"both modes, wherever the clutch takes hold": None}
    )
    meetings = {mode: nearest_meeting(blade, apart, ratio) for mode, ratio in ratios.items()}
    width = float(turning_width.plain(blade.width, blade.thickness, blade.set_angle))
    reach = float(np.hypot(blade.tip_radius, width / 2))

    def unseen(mode: str) -> float:
        """How much nearer two corners may come between two moments that are looked at."""
        ratio = ratios.get(mode)
        return 0.0 if ratio is None else reach * pi / _STEPS_A_TURN * (1 + abs(float(ratio)))

    wider_apart = [
        "paddles.width", "paddles.set_angle", {"paddles.offset_2": blade.spacing / 2}, "paddles.spacing",
        "paddles.tip_radius", "paddles.thickness", "paddles.stem_height", "paddles.stem_width",
    ]  # fmt: skip
    found = [
        case.check(
            "paddles", "paddles", f"paddles clear each other, {mode}", demand=wanted, capacity=met.gap - unseen(mode),
            unit="mm", source="rectangles by separating axes, every moment of a turn, less what two moments may hide",
            reason=lambda i, say, met=met: (
                f"nearest: paddle {met.pair[0] + 1} of shaft 1 at {np.degrees(met.angle_1) % 360:.0f} deg and "
                f"paddle {met.pair[1] + 1} of shaft 2 at {np.degrees(met.angle_2) % 360:.0f} deg"
            ),
            fix=lambda i: wider_apart,
        )
        for mode, met in meetings.items()
    ]  # fmt: skip
    sleeve_and_gap = blade.root_radius + wanted
    found.append(
        case.check(
            "paddles", "paddles", "tips clear the other shaft's sleeve", demand=blade.tip_radius + sleeve_and_gap,
            capacity=apart, unit="mm", source="geometry",
            reason=lambda i, say: f"tip {say(blade.tip_radius, 'mm')} + sleeve {say(blade.root_radius, 'mm')}",
            fix=lambda i: [
                {"paddles.tip_radius": apart - sleeve_and_gap},
                {"paddles.root_radius": apart - blade.tip_radius - wanted},
                {"housing.centre_distance": blade.tip_radius + sleeve_and_gap},
            ],
        )
    )  # fmt: skip
    found.append(_reach_over(case))
    return found


def _reach_over(case: Case) -> Check:
    """Whether the circles of both shafts overlap: between circles that do not, a ridge of clay stands still."""
    tip, apart = case.plain.paddles.tip_radius, case.plain.housing.centre_distance
    return case.check(
        "paddles", "paddles", "paddles of both shafts reach into each other", demand=OVERLAP * apart, capacity=2 * tip,
        unit="mm", tight=1.0, source="geometry; circles that overlap by a tenth of the distance at least: common practice",
        reason=lambda i, say: (
            f"two tip radii of {say(tip, 'mm')} on {say(apart, 'mm')}: between circles that do not overlap clay stands "
            "that no paddle hands on"
        ),
        fix=lambda i: [
            {"paddles.tip_radius": OVERLAP * apart / 2}, {"housing.centre_distance": 2 * tip / OVERLAP},
        ],
    )  # fmt: skip
