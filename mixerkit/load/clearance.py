"""Whether the paddles of the two shafts pass each other, over every turn, in both modes.

In the plane of rotation a blade is a rectangle: its length along the radius, and across it what the set
angle leaves there (:func:`mixerkit.parts.blades.turning_width`). Along the shafts it takes up the width that
the clay meets. Two blades that lie apart along the shafts never meet; others must pass in the plane.
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from functools import partial
from math import pi

import numpy as np

from mixerkit.checking import make_check
from mixerkit.checks import Change, Check, Say
from mixerkit.load import load_workings
from mixerkit.load.paddles import paddle_angles
from mixerkit.parts.blades import corner_radius, extent_at, section_at, turning_width
from mixerkit.results import Array, LoadedMachine, Numbers
from mixerkit.spec import Paddles, Spec
from mixerkit.working import Working

__all__ = ["Meeting", "blade_gap", "checks", "nearest_meeting"]

_STEPS_A_TURN = 720
OVERLAP = 1.1
"""Least diameter of a paddle circle over the distance of the shafts (common practice)."""
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
    most = _reach(blade)
    least = float(np.clip(apart - most, blade.root_radius, blade.tip_radius))
    radii = np.linspace(least, max(most, least), 21)
    both = extent_at(blade, radii) + extent_at(blade, np.maximum(apart - radii, least))
    return float(both.max()) / 2, float(np.max(_turning(blade, radii)))


def _turning(blade: Paddles, radius: Numbers) -> Numbers:
    return turning_width.formula(*section_at(blade, radius), blade.set_angle)


def _reach(blade: Paddles) -> float:
    """Radius in mm that a blade's corners reach."""
    return float(
        corner_radius.formula(blade.tip_radius, blade.width, blade.thickness, blade.set_angle)
    )


def _phases(play: float) -> Array:
    """Phases in degrees that are looked at where shaft 2 may stand so much to either side of its own."""
    return np.linspace(-play, play, 2 * min(int(np.ceil(play / _FINEST)), _MOST) + 1)


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
        gap = max(apart - 2 * _reach(blade), float(lying_apart[pair]))
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


def checks(machine: LoadedMachine) -> list[Check]:
    """Check that the paddles clear each other and the other shaft's sleeve, and reach into each other's circle.

    Parameters
    ----------
    machine : LoadedMachine

    Returns
    -------
    list of Check
    """
    spec = machine.spec
    blade, apart, wanted = (
        spec.paddles,
        spec.housing.centre_distance,
        spec.safety.paddle_clearance,
    )
    # equal dogs drop in at any of their pitches, so only a single one keeps a phase
    kept = spec.clutch.keeps_phase
    modes = (
        {"counter-rotating": "direct", "co-rotating": "idler"}
        if kept
        else {"both modes, wherever the clutch takes hold": None}
    )
    ratios = {
        mode: mode_ratio(spec, path) if path and spec.clutch.dogs == 1 else None
        for mode, path in modes.items()
    }
    plays = {mode: phase_play(spec, path) if path else 0.0 for mode, path in modes.items()}
    reach = _reach(blade)

    def unseen(mode: str) -> float:
        """How much nearer two corners may come between two moments, and two phases, that are looked at."""
        ratio = ratios[mode]
        if ratio is None:
            return 0.0
        phases = np.radians(_phases(plays[mode]))
        between = (phases[-1] - phases[0]) / max(len(phases) - 1, 1) / 2
        return reach * (pi / _STEPS_A_TURN * (1 + abs(float(ratio))) + float(between))

    meetings = {
        mode: nearest_meeting(blade, apart, ratio, play=plays[mode], unseen=unseen(mode))
        for mode, ratio in ratios.items()
    }
    wider_apart: list[Change] = [
        "paddles.width",
        "paddles.set_angle",
        {"paddles.offset_2": blade.spacing / 2},
        "paddles.spacing",
        "paddles.tip_radius",
        "paddles.thickness",
        "paddles.stem_height",
        "paddles.stem_width",
    ]
    found = [
        make_check(
            machine,
            "paddles",
            "paddles",
            f"paddles clear each other, {mode}",
            demand=wanted,
            capacity=met.gap,
            unit="mm",
            working=partial(_followed, machine, met),
            source="rectangles by separating axes, every moment of a turn, less what two moments may hide",
            reason=partial(_nearest, met),
            fix=lambda i: wider_apart,
        )
        for mode, met in meetings.items()
    ]
    sleeve_and_gap = blade.root_radius + wanted
    # what a tip may be, so that its corners come no further than that
    half_width = float(turning_width.formula(blade.width, blade.thickness, blade.set_angle)) / 2
    wall = blade.tip_radius + spec.trough.wall_clearance

    def tips(most: float) -> list[Change]:
        shorter: list[Change] = []
        if most > half_width:
            shorter = [{"paddles.tip_radius": float(np.sqrt(most**2 - half_width**2))}]
        return [*shorter, "paddles.width", "paddles.set_angle", "paddles.thickness"]

    found += [
        make_check(
            machine,
            "paddles",
            "paddles",
            "tips clear the other shaft's sleeve",
            demand=reach + sleeve_and_gap,
            capacity=apart,
            unit="mm",
            working=lambda i: load_workings.corners_clear_sleeve(
                machine, half_width, reach, reach + sleeve_and_gap
            ),
            source="the corners of a tip: geometry",
            reason=lambda i, say: (
                f"corners {say(reach, 'mm')} (tip {say(blade.tip_radius, 'mm')}, {say(2 * half_width, 'mm')} across) + "
                f"sleeve {say(blade.root_radius, 'mm')}"
            ),
            fix=lambda i: [
                *tips(apart - sleeve_and_gap),
                {"paddles.root_radius": apart - reach - wanted},
                {"housing.centre_distance": reach + sleeve_and_gap},
            ],
        ),
        make_check(
            machine,
            "paddles",
            "paddles",
            "corners of the tips clear the wall",
            demand=reach + wanted,
            capacity=wall,
            unit="mm",
            working=lambda i: load_workings.corners_clear_wall(
                machine, half_width, reach, reach + wanted, wall
            ),
            tight=1.0,
            source="the corners of a tip, and the least gap that safety.paddle_clearance wants: geometry",
            reason=lambda i, say: (
                f"corners {say(reach, 'mm')} (tip {say(blade.tip_radius, 'mm')}, {say(2 * half_width, 'mm')} across), "
                f"wall at {say(wall, 'mm')}"
            ),
            fix=lambda i: [
                {"trough.wall_clearance": reach + wanted - blade.tip_radius},
                "paddles.width",
                "paddles.set_angle",
                "paddles.thickness",
            ],
        ),
    ]
    found.append(_reach_over(machine))
    return found


def _reach_over(machine: LoadedMachine) -> Check:
    """Whether the circles of both shafts overlap: between circles that do not, a ridge of clay stands still."""
    tip, apart = machine.spec.paddles.tip_radius, machine.spec.housing.centre_distance
    return make_check(
        machine,
        "paddles",
        "paddles",
        "paddles of both shafts reach into each other",
        demand=OVERLAP * apart,
        capacity=2 * tip,
        unit="mm",
        working=lambda i: load_workings.circles_overlap(machine, OVERLAP, OVERLAP * apart, 2 * tip),
        tight=1.0,
        source="geometry; circles that overlap by a tenth of the distance at least: common practice",
        reason=lambda i, say: (
            f"two tip radii of {say(tip, 'mm')} on {say(apart, 'mm')}: between circles that do not overlap clay stands "
            "that no paddle hands on"
        ),
        fix=lambda i: [
            {"paddles.tip_radius": OVERLAP * apart / 2},
            {"housing.centre_distance": 2 * tip / OVERLAP},
        ],
    )


def _followed(machine: LoadedMachine, met: Meeting, _i: int) -> list[Working]:
    return load_workings.gap_found(machine, met.gap)


def _nearest(met: Meeting, _i: int, _say: Say) -> str:
    return (
        f"nearest: paddle {met.pair[0] + 1} of shaft 1 at {np.degrees(met.angle_1) % 360:.0f} deg and "
        f"paddle {met.pair[1] + 1} of shaft 2 at {np.degrees(met.angle_2) % 360:.0f} deg"
    )
