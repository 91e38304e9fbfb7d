"""Whether the paddles pass each other, the sleeves and the wall."""

from __future__ import annotations

import numpy as np

from mixerkit.checking import make_check
from mixerkit.checks import Change, Check, Say
from mixerkit.load import paddle_workings
from mixerkit.load.clearance import (
    corner_reach,
    mode_ratio,
    nearest_meeting,
    phase_play,
    unseen_gap,
)
from mixerkit.parts.blades import turning_width
from mixerkit.results import LoadedMachine
from mixerkit.spec import Paddles

__all__ = ["checks"]

_OVERLAP = 1.1
"""Least diameter of a paddle circle over the distance of the shafts (common practice)."""


def checks(machine: LoadedMachine) -> list[Check]:
    """Check that the paddles clear each other and the other shaft's sleeve, and reach into each other's circle.

    Parameters
    ----------
    machine : LoadedMachine

    Returns
    -------
    list of Check
    """
    # equal dogs drop in at any of their pitches, so only a single one keeps a phase
    modes = (
        {"counter-rotating": "direct", "co-rotating": "idler"}
        if machine.spec.clutch.keeps_phase
        else {"both modes, wherever the clutch takes hold": None}
    )
    return [
        *(_pass_each_other(machine, mode, path) for mode, path in modes.items()),
        _clear_the_sleeve(machine),
        _clear_the_wall(machine),
        _reach_over(machine),
    ]


def _pass_each_other(machine: LoadedMachine, mode: str, path: str | None) -> Check:
    """Whether the paddles pass each other in a mode, or, where no path keeps a phase, however they stand."""
    spec = machine.spec
    blade = spec.paddles
    ratio = mode_ratio(spec, path) if path and spec.clutch.dogs == 1 else None
    play = phase_play(spec, path) if path else 0.0
    met = nearest_meeting(
        blade, spec.housing.centre_distance, ratio, play=play, unseen=unseen_gap(blade, ratio, play)
    )
    return make_check(
        machine,
        "paddles",
        "paddles",
        f"paddles clear each other, {mode}",
        demand=spec.safety.paddle_clearance,
        capacity=met.gap,
        unit="mm",
        working=lambda i: paddle_workings.gap_found(machine, met.gap),
        source="rectangles by separating axes, every moment of a turn, less what two moments may hide",
        reason=lambda i, say: (
            f"nearest: paddle {met.pair[0] + 1} of shaft 1 at {np.degrees(met.angle_1) % 360:.0f} deg and "
            f"paddle {met.pair[1] + 1} of shaft 2 at {np.degrees(met.angle_2) % 360:.0f} deg"
        ),
        fix=lambda i: [
            "paddles.width",
            "paddles.set_angle",
            {"paddles.offset_2": blade.spacing / 2},
            "paddles.spacing",
            "paddles.tip_radius",
            "paddles.thickness",
            "paddles.stem_height",
            "paddles.stem_width",
        ],
    )


def _half_width(blade: Paddles) -> float:
    """Half of what a tip takes up across its radius, in mm."""
    return float(turning_width.formula(blade.width, blade.thickness, blade.set_angle)) / 2


def _corners(machine: LoadedMachine, say: Say) -> str:
    blade = machine.spec.paddles
    return (
        f"corners {say(corner_reach(blade), 'mm')} (tip {say(blade.tip_radius, 'mm')}, "
        f"{say(2 * _half_width(blade), 'mm')} across)"
    )


def _clear_the_sleeve(machine: LoadedMachine) -> Check:
    """Whether the corners of the tips clear the other shaft's sleeve."""
    spec = machine.spec
    blade, apart, wanted = spec.paddles, spec.housing.centre_distance, spec.safety.paddle_clearance
    reach, half_width = corner_reach(blade), _half_width(blade)
    sleeve_and_gap = blade.root_radius + wanted
    # what a tip may be, so that its corners come no further than that
    most = apart - sleeve_and_gap
    shorter: list[Change] = []
    if most > half_width:
        shorter = [{"paddles.tip_radius": float(np.sqrt(most**2 - half_width**2))}]
    return make_check(
        machine,
        "paddles",
        "paddles",
        "tips clear the other shaft's sleeve",
        demand=reach + sleeve_and_gap,
        capacity=apart,
        unit="mm",
        working=lambda i: paddle_workings.corners_clear_sleeve(
            machine, half_width, reach, reach + sleeve_and_gap
        ),
        source="the corners of a tip: geometry",
        reason=lambda i, say: f"{_corners(machine, say)} + sleeve {say(blade.root_radius, 'mm')}",
        fix=lambda i: [
            *shorter,
            "paddles.width",
            "paddles.set_angle",
            "paddles.thickness",
            {"paddles.root_radius": apart - reach - wanted},
            {"housing.centre_distance": reach + sleeve_and_gap},
        ],
    )


def _clear_the_wall(machine: LoadedMachine) -> Check:
    """Whether the corners of the tips clear the wall."""
    blade, wanted = machine.spec.paddles, machine.spec.safety.paddle_clearance
    reach = corner_reach(blade)
    wall = blade.tip_radius + machine.spec.trough.wall_clearance
    return make_check(
        machine,
        "paddles",
        "paddles",
        "corners of the tips clear the wall",
        demand=reach + wanted,
        capacity=wall,
        unit="mm",
        working=lambda i: paddle_workings.corners_clear_wall(
            machine, _half_width(blade), reach, reach + wanted, wall
        ),
        tight=1.0,
        source="the corners of a tip, and the least gap that safety.paddle_clearance wants: geometry",
        reason=lambda i, say: f"{_corners(machine, say)}, wall at {say(wall, 'mm')}",
        fix=lambda i: [
            {"trough.wall_clearance": reach + wanted - blade.tip_radius},
            "paddles.width",
            "paddles.set_angle",
            "paddles.thickness",
        ],
    )


def _reach_over(machine: LoadedMachine) -> Check:
    """Whether the circles of both shafts overlap: between circles that do not, a ridge of clay stands still."""
    tip, apart = machine.spec.paddles.tip_radius, machine.spec.housing.centre_distance
    return make_check(
        machine,
        "paddles",
        "paddles",
        "paddles of both shafts reach into each other",
        demand=_OVERLAP * apart,
        capacity=2 * tip,
        unit="mm",
        working=lambda i: paddle_workings.circles_overlap(
            machine, _OVERLAP, _OVERLAP * apart, 2 * tip
        ),
        tight=1.0,
        source="geometry; circles that overlap by a tenth of the distance at least: common practice",
        reason=lambda i, say: (
            f"two tip radii of {say(tip, 'mm')} on {say(apart, 'mm')}: between circles that do not overlap clay stands "
            "that no paddle hands on"
        ),
        fix=lambda i: [
            {"paddles.tip_radius": _OVERLAP * apart / 2},
            {"housing.centre_distance": 2 * tip / _OVERLAP},
        ],
    )
