"""The joints that a push along the shafts or the torque arm pulls: tie bolts, and the arm's anchor."""

from __future__ import annotations

import numpy as np

from mixerkit.checking import make_check
from mixerkit.checks import Change, Check, Say
from mixerkit.parts.bolt_joint import Joint
from mixerkit.parts.bolts import (
    GRIP,
    drawn,
    joint_constant,
    larger_bolts,
    stronger_class,
    worked_preload,
)
from mixerkit.parts.frame_layout import EDGE, pushes, tie_spans
from mixerkit.parts.remedies import calmer
from mixerkit.parts.shaft_loads import arm_pull
from mixerkit.parts.worked import WorkedMachine
from mixerkit.working import Working, worked

__all__ = ["checks"]


def checks(machine: WorkedMachine) -> list[Check]:
    """Check the bolts.

    Parameters
    ----------
    machine : WorkedMachine

    Returns
    -------
    list of Check
    """
    # a push that the far wall takes does not go through the gear plates
    ties = _ties(machine).checks() if machine.spec.bearings.locating != 3 else []
    arm = _arm(machine)
    return [*ties, _arm_grips(machine, arm), *arm.checks()]


def _ties(machine: WorkedMachine) -> Joint:
    """The tie bolts of the gear plates, which the push along the shafts pulls."""
    spec = machine.spec
    one, two = pushes(machine)
    most, least = np.maximum(one, two), np.minimum(one, two)
    across = tie_spans(spec)[0]
    near = spec.housing.wall_distance - EDGE
    bolt = drawn(spec.frame, spec.housing.tie_bolt)
    pull = (most * (across - near) + least * near) / (2 * across)

    def how(i: int) -> list[Working]:
        return [
            worked(
                "P = (W*(L - a) + W_0*a)/(2*L)",
                float(pull[i]),
                "N",
                source="two bolts beside each shaft, by statics",
                W=(
                    float(most[i]),
                    "N",
                    "larger push along a shaft, of its paddles or of one caught",
                ),
                W_0=(float(least[i]), "N", "push along the other shaft"),
                L=(across, "mm", "free width between the tie bolts"),
                a=(near, "mm", "from a shaft to the tie bolts beside it"),
            )
        ]

    def tells(i: int, say: Say) -> str:
        return (
            f"{say(one[i], 'N')} and {say(two[i], 'N')} along shafts 1 and 2 pull {bolt.name} with {say(pull[i], 'N')}, "
            "feet not counted"
        )

    return Joint(
        machine,
        "tie bolts",
        "housing.tie_bolt",
        bolt,
        pull,
        (1.0, "", "all of it: what the distance tubes take is not counted"),
        ["paddles.set_angle"],
        how,
        tells,
    )


def _worked_force(machine: WorkedMachine, i: int) -> Working:
    torque = float(machine.power_flow.torque_at_box_output[i])
    return worked(
        "F = T/l",
        float(arm_pull(machine)[i]),
        "N",
        T=(torque, "N*m", "power flow, torque at the box's output"),
        l=(machine.spec.reducer.torque_arm, "mm", "reducer.torque_arm"),
    )


def _arm(machine: WorkedMachine) -> Joint:
    """The bolts of the torque arm's anchor."""
    frame, force = machine.spec.frame, arm_pull(machine)
    bolt = drawn(frame, frame.arm_bolt)
    share = float(joint_constant.formula(bolt.diameter, frame.arm_grip))
    row = frame.arm_bolts // 2
    pull = force * max(1 / frame.arm_bolts, frame.arm_height / (frame.arm_bolt_pitch * row))

    def how(i: int) -> list[Working]:
        return [
            _worked_force(machine, i),
            worked(
                "P = Max(F/n, F*e/(p*n_p))",
                float(pull[i]),
                "N",
                source="straight along the bolts, or tipping the anchor about its other row: statics",
                F=(float(force[i]), "N", "above"),
                n=(frame.arm_bolts, "", "frame.arm_bolts"),
                e=(frame.arm_height, "mm", "frame.arm_height"),
                p=(frame.arm_bolt_pitch, "mm", "frame.arm_bolt_pitch"),
                n_p=(row, "", "bolts of the row that is pulled"),
            ),
        ]

    def tells(i: int, say: Say) -> str:
        return (
            f"arm pulls {say(force[i], 'N')}, {say(frame.arm_height, 'mm')} above the face: "
            f"{say(pull[i], 'N')} on one of {frame.arm_bolts} bolts {bolt.name}"
        )

    origin = "Shigley 10th ed., eq. 8-17 and 8-22 (from memory), of thread and frame.arm_grip"
    more = ["frame.arm_bolts", "frame.arm_bolt_pitch", "frame.arm_height", "reducer.torque_arm"]
    return Joint(
        machine,
        "torque arm's anchor",
        "frame.arm_bolt",
        bolt,
        pull,
        (share, "", origin),
        more,
        how,
        tells,
    )


def _arm_grips(machine: WorkedMachine, arm: Joint) -> Check:
    """Whether the anchor does not slip in a jam."""
    frame, safety = machine.spec.frame, machine.spec.safety.shaft_in_jam
    force, grip = arm_pull(machine), frame.arm_bolts * GRIP * arm.bolt.least

    def mends(i: int) -> list[Change]:
        over = float(force[i] * safety / grip)
        return [
            {"frame.arm_bolts": frame.arm_bolts * over},
            *larger_bolts("frame.arm_bolt", frame.arm_bolt, over),
            *stronger_class(frame, over, machine.system),
            "reducer.torque_arm",
            *calmer(machine, i, over),
        ]

    return make_check(
        machine,
        "frame",
        arm.part,
        "does not slip in a jam",
        where=machine.load_cases.jammed,
        demand=force,
        capacity=grip,
        unit="N",
        safety=safety,
        working=lambda i: [
            _worked_force(machine, i),
            worked_preload(frame, arm.bolt, arm.field),
            worked(
                "F_mu = n*mu*F_V",
                grip,
                "N",
                n=(frame.arm_bolts, "", "frame.arm_bolts"),
                mu=(GRIP, "", "common practice"),
                F_V=(arm.bolt.least, "N", "above"),
            ),
        ],
        source="held by friction alone, preload less its scatter: VDI 2230 part 1 in its form (from memory); friction 0.15: common practice",
        reason=lambda i, say: (
            f"arm pulls {say(force[i], 'N')} at {say(machine.spec.reducer.torque_arm, 'mm')}, "
            f"{frame.arm_bolts} bolts {frame.arm_bolt} of class {frame.bolt_class}"
        ),
        fix=mends,
    )
