"""Whether the machine stays on its feet: a bag heaved on the trough's edge, and the torque of the box."""

from __future__ import annotations

import numpy as np

from mixerkit.checking import make_check
from mixerkit.checks import Change, Check
from mixerkit.constants import STANDARD_GRAVITY
from mixerkit.parts.feet import SUDDEN, Standing, standing
from mixerkit.parts.remedies import calmer
from mixerkit.parts.worked import WorkedMachine
from mixerkit.working import Given, Working, by_method, worked

__all__ = ["checks"]

_STEADY = 1.5
"""Moment that keeps it on its feet over the one that tips it (common practice)."""


def checks(machine: WorkedMachine) -> list[Check]:
    """Check how the machine stands.

    Parameters
    ----------
    machine : WorkedMachine

    Returns
    -------
    list of Check
    """
    found = standing(machine)
    return [_bag(machine, found), _torque(machine, found)]


_WAYS = ("sideways", "over the feet at the reducer", "over the far feet")


def _worked_keeps(found: Standing, way: int) -> Working:
    pull: Given = (
        found.held,
        "N",
        "frame.foot_hold, no more than the least preload of frame.foot_bolt",
    )
    if way == 0:
        return worked(
            "M_0 = m*g*w/2 + 2*F*w",
            found.keeps[0],
            "N*m",
            m=(
                found.mass,
                "kg",
                "frame.mass, or plates, far wall and shafts where it is not weighed",
            ),
            g=(STANDARD_GRAVITY, "m/s**2", "standard gravity"),
            w=(found.width, "mm", "between the feet across the shafts"),
            F=pull,
        )
    return by_method(
        "M_0",
        "known masses, each with its distance from those feet, and two feet that the floor holds",
        found.keeps[way],
        "N*m",
        m=(found.mass, "kg", "frame.mass, or plates, far wall and shafts where it is not weighed"),
        l=(found.length, "mm", "between the feet along the shafts"),
        F=pull,
    )


def _wider(found: Standing, way: int, over: float) -> list[Change]:
    """Feet further apart, and feet that are held."""
    field = "frame.foot_width" if way == 0 else "frame.foot_length"
    now = found.width if way == 0 else found.length
    missing = found.keeps[way] * (over - 1) if np.isfinite(over) else 0.0
    hold = found.held + 1e3 * missing / (2 * now) if now > 0 else 0.0
    return [{field: now * over}, {"frame.foot_hold": hold}]


def _bag(machine: WorkedMachine, found: Standing) -> Check:
    """Whether it stands while a bag is heaved over the trough's edge."""
    spec = machine.spec

    def spare(way: int) -> float:
        return found.keeps[way] / found.tips[way]

    way = min(range(3), key=spare)
    asked, keeps = found.tips[way], found.keeps[way]
    frame = spec.frame
    hangs = (found.box[way], "N*m", "box and motor beyond the feet") if way < 2 else None

    def how() -> list[Working]:
        given: dict[str, Given] = {
            "F": (frame.handling_push, "N", "frame.handling_push"),
            "h": (frame.edge_height, "mm", "frame.edge_height"),
        }
        formula = "M = F*h"
        if way == 0:
            formula += " + c*m*g*Max(a, a_0)"
            given |= {
                "c": (SUDDEN, "", "a load let go at once: Shigley 10th ed., section 4-17"),
                "m": (spec.batch.mass, "kg", "batch.mass"),
                "g": (STANDARD_GRAVITY, "m/s**2", "standard gravity"),
                "a": (found.over, "mm", "by which the trough's edge stands out beyond the feet"),
                "a_0": (0.0, "mm", "a bag within the feet tips nothing"),
            }
        if hangs:
            formula += " + M_b"
            given["M_b"] = hangs
        return [worked(formula, asked, "N*m", source="", **given), _worked_keeps(found, way)]

    return make_check(
        machine,
        "frame",
        "feet",
        "stands while a bag is laid on the trough's edge",
        demand=asked,
        capacity=keeps,
        unit="N*m",
        safety=_STEADY,
        working=lambda i: how(),
        source="moments about the feet; half as much again to spare: common practice",
        reason=lambda i, say: (
            f"{_WAYS[way]}: bag of {say(spec.batch.mass, 'kg')} and a push of {say(frame.handling_push, 'N')} at "
            f"{say(frame.edge_height, 'mm')}, {say(found.mass, 'kg')} on feet {say(found.length, 'mm')} x {say(found.width, 'mm')} apart"
        ),
        fix=lambda i: [
            *_wider(found, way, asked * _STEADY / keeps if keeps > 0 else np.inf),
            "frame.edge_height",
            "frame.wall_thickness",
        ],
        note=lambda i, say: "Weigh the machine without box and motor and put it in frame.mass.",
    )


def _torque(machine: WorkedMachine, found: Standing) -> Check:
    """Whether it stands against the torque of the box, in a jam and else."""
    spec, safety = machine.spec, machine.spec.safety.shaft_in_jam
    inside = spec.frame.arm_held_by == "frame"
    torque = np.abs(machine.power_flow.torque_at_box_output)
    asked = torque / spec.reducer.ratio if inside else torque
    hangs = (*found.box, 0.0)
    most = float(asked.max())

    def share(side: int) -> float:
        return (most + hangs[side]) / found.keeps[side] if found.keeps[side] > 0 else np.inf

    # box and motor tip it to each side by another moment, so that the least that keeps it is not always the worst
    way = max(range(3), key=share) if inside else 0
    tips = asked + hangs[way]

    def how(i: int) -> list[Working]:
        given: dict[str, Given] = {
            "T": (float(torque[i]), "N*m", "power flow, torque at the box's output"),
            "M_b": (hangs[way], "N*m", "box and motor beyond the feet"),
        }
        if inside:
            given["i"] = (spec.reducer.ratio, "", "reducer.ratio")
        formula = "M = T/i + M_b" if inside else "M = T + M_b"
        return [
            worked(formula, float(tips[i]), "N*m", source="", **given),
            _worked_keeps(found, way),
        ]

    def mends(i: int) -> list[Change]:
        over = float(tips[i] * safety / found.keeps[way]) if found.keeps[way] > 0 else np.inf
        return [
            *([] if inside else [{"frame.arm_held_by": "frame"}]),
            *_wider(found, way, over),
            *calmer(machine, i, over),
        ]

    return make_check(
        machine,
        "frame",
        "feet",
        "stands against the torque of the box",
        demand=tips,
        capacity=found.keeps[way],
        unit="N*m",
        safety=safety,
        working=how,
        source="moments about the feet: statics",
        reason=lambda i, say: (
            (
                "the arm pulls on the machine's own frame, so that only what slows the rotor reaches the floor"
                if inside
                else f"the arm pulls on something beside the machine, so that all of {say(torque[i], 'N*m')} tips it"
            )
            + f"; {say(found.mass, 'kg')} on feet {say(found.length, 'mm')} x {say(found.width, 'mm')} apart"
        ),
        fix=mends,
        note=lambda i, say: "Weigh the machine without box and motor and put it in frame.mass.",
    )
