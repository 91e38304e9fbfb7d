"""Gear plates and far wall on the frame: the welds of their feet, and the bolts that hold the feet on the rails.

Each stands on its lower edge between two feet, a fillet along either side, and twelve bolts go through the feet into
the rails, six on either side: so the far wall can be set with the shafts in, and a plate trued and put back. What
gears and idler push stays within the plates; what a paddle that is caught pushes goes through one of them into the
rails and back through the trough.
"""

from __future__ import annotations

from collections.abc import Mapping
from math import sqrt

import numpy as np

from mixerkit.checking import make_check
from mixerkit.checks import Change, Check, Say
from mixerkit.frozen import cached_property
from mixerkit.parts import welds
from mixerkit.parts.bolt_joint import Joint
from mixerkit.parts.bolts import (
    GRIP,
    drawn,
    joint_constant,
    larger_bolts,
    stronger_class,
    worked_preload,
)
from mixerkit.parts.frame_layout import EDGE, caught, plate_size, pushes
from mixerkit.parts.remedies import calmer
from mixerkit.parts.shaft_loads import arm_pull
from mixerkit.parts.worked import WorkedMachine
from mixerkit.results import Array, TableRow
from mixerkit.tables import table
from mixerkit.working import Given, Working, worked

__all__ = ["FOOT_BOLTS", "FOOT_LEG", "FOOT_STEEL", "checks"]

FOOT_LEG = 8.0
"""Leg in mm of the fillets along both sides of a plate's or wall's lower edge (common practice)."""
_THROAT = FOOT_LEG / sqrt(2)
FOOT_BOLTS = 12
"""Bolts through the feet of a plate or wall into the rails, half on either side of it (common practice)."""
FOOT_STEEL = "steel S235JR"
"""Metal of the feet: the weakest of structural steels."""
_BESIDE = 2.0
"""From a plate's face to the middle of its feet's bolts, in their thickness (common practice: room for a spanner)."""
_CLAMPED = 2.0
"""Foot and rail together, in a bolt's thickness (common practice): thicker ones leave the bolt a smaller share."""
_PART = "feet of plates and wall"


class _Feet:
    """What pulls on the feet of one plate or wall over the load cases, all of it on that one; in N and mm."""

    def __init__(self, machine: WorkedMachine) -> None:
        spec, blade = machine.spec, machine.spec.paddles
        flow, cases = machine.power_flow.paddles, machine.load_cases
        self.machine = machine
        self.width, self.height = plate_size(spec)[0], spec.housing.wall_distance
        self.thickness = min(spec.housing.plate_thickness, spec.frame.wall_thickness)
        mixes = 2e3 * (flow[0] + flow[1]) / (blade.root_radius + blade.tip_radius)
        self.across: Array = np.where(cases.jammed, caught(machine), mixes)
        self.along: Array = np.add(*pushes(machine))
        self.lift: Array = np.abs(arm_pull(machine))

    @cached_property
    def bolt_row(self) -> float:
        """From one row of bolts to the other."""
        bolt = drawn(self.machine.spec.frame, self.machine.spec.housing.tie_bolt)
        return self.thickness + 2 * _BESIDE * bolt.diameter

    @cached_property
    def pull(self) -> Array:
        """On the bolt that is pulled most."""
        span = 2 * (self.width - 2 * EDGE)
        return np.asarray(
            self.lift / FOOT_BOLTS
            + self.across * self.height / span
            + self.along * self.height / (FOOT_BOLTS / 2 * self.bolt_row)
        )

    @cached_property
    def tipped(self) -> Array:
        """Stress in MPa across the throats of both fillets."""
        normal = (
            3 * self.across * self.height / self.width**2
            + self.along * self.height / (self.width * self.thickness)
            + self.lift / (2 * self.width)
        )
        return np.asarray(normal / _THROAT)

    @cached_property
    def weld(self) -> Array:
        """Stress in MPa in the throats of both fillets."""
        shear = np.hypot(self.across, self.along) / (2 * self.width * _THROAT)
        return np.asarray(np.hypot(self.tipped, shear))

    def given(self, i: int) -> dict[str, Given]:
        """Forces and sizes as they stand in a working."""
        jams = bool(self.machine.load_cases.jammed[i])
        across = (
            "jam across a shaft of one paddle, wherever it is caught"
            if jams
            else "clay against the paddles of both shafts, as if all pushed one way"
        )
        return {
            "F": (float(self.across[i]), "N", across),
            "W": (float(self.along[i]), "N", "push along both shafts"),
            "A": (float(self.lift[i]), "N", "pull of the torque arm"),
            "h": (self.height, "mm", "housing.wall_distance"),
            "b": (self.width, "mm", "width of the plates"),
        }

    def tells(self, i: int, say: Say) -> str:
        """What pulls, in words."""
        return (
            f"{say(self.across[i], 'N')} across and {say(self.along[i], 'N')} along the shafts, "
            f"{say(self.height, 'mm')} above the feet, and {say(self.lift[i], 'N')} of the torque arm, all of it on one "
            f"plate or wall {say(self.width, 'mm')} wide"
        )


def checks(machine: WorkedMachine) -> list[Check]:
    """Check what holds plates and far wall on the frame.

    Parameters
    ----------
    machine : WorkedMachine

    Returns
    -------
    list of Check
    """
    feet = _Feet(machine)
    bolts = _bolts(feet)
    return [_welds(feet), _grips(feet, bolts), *bolts.checks()]


def _wider(feet: _Feet, over: float) -> list[Change]:
    """Plates that reach further along their feet."""
    if not 1 < over < np.inf:
        return []
    return [{"housing.wall_distance": feet.height * over}]


def _welds(feet: _Feet) -> Check:
    """Whether the fillets of the feet hold in a jam."""
    machine, spec = feet.machine, feet.machine.spec
    rows = [
        table("materials").find(name).values
        for name in (spec.housing.plate_material, spec.frame.wall_material, FOOT_STEEL)
    ]
    softest = min(rows, key=lambda row: float(row["yield_strength"]))
    allowed = float(welds.allowed_in_throat.formula(welds.PLAIN, float(softest["yield_strength"])))

    return make_check(
        machine,
        "frame",
        _PART,
        "their welds hold in a jam",
        where=machine.load_cases.jammed,
        demand=feet.weld,
        capacity=allowed,
        unit="MPa",
        source="weld as a line: Shigley 10th ed., sections 9-3 and 9-4; allowed: tables 9-4 and 9-6; fillets of 8 mm: common practice",
        reason=lambda i, say: (
            f"{feet.tells(i, say)}; fillets of {say(FOOT_LEG, 'mm')} along both sides"
        ),
        fix=lambda i: [
            *_wider(feet, float(feet.weld[i]) / allowed),
            *calmer(machine, i, float(feet.weld[i]) / allowed),
        ],
        working=lambda i: _worked_welds(feet, i, softest),
    )


def _worked_welds(feet: _Feet, i: int, softest: TableRow) -> list[Working]:
    """How stress and limit of the fillets were got."""
    given = feet.given(i)
    sizes: Mapping[str, Given] = {
        "b": given["b"],
        "a": (_THROAT, "mm", "0.7 of a leg of 8 mm"),
    }
    tips = worked(
        "sigma = (3*F*h/b**2 + W*h/(b*t) + A/(2*b))/a",
        float(feet.tipped[i]),
        "MPa",
        source="two fillets as lines, tipped both ways and lifted: Shigley 10th ed., section 9-4",
        **{one: given[one] for one in ("F", "W", "A", "h")},
        t=(feet.thickness, "mm", "thinner of plates and far wall"),
        **sizes,
    )
    return [
        tips,
        worked(
            "sigma_w = sqrt(sigma**2 + (F**2 + W**2)/(2*b*a)**2)",
            float(feet.weld[i]),
            "MPa",
            source="Shigley 10th ed., section 9-3",
            sigma=(tips.result, "MPa", "above"),
            F=given["F"],
            W=given["W"],
            **sizes,
        ),
        welds.worked_allowed(
            (welds.PLAIN, "MPa", "filler E60: Shigley, table 9-3"),
            (
                float(softest["yield_strength"]),
                "MPa",
                f"data/tables/materials.csv, {softest['name']}: yield strength",
            ),
        ),
    ]


def _bolts(feet: _Feet) -> Joint:
    """The bolts of the feet, which tip and lift pull."""
    machine = feet.machine
    bolt = drawn(machine.spec.frame, machine.spec.housing.tie_bolt)
    share = float(joint_constant.formula(bolt.diameter, _CLAMPED * bolt.diameter))

    def how(i: int) -> list[Working]:
        half: Given = (FOOT_BOLTS / 2, "", "bolts of the row that is pulled")
        return [
            worked(
                "P = A/n + F*h/(2*(b - 2*e)) + W*h/(n_p*p)",
                float(feet.pull[i]),
                "N",
                source="lifted, tipped about the outermost two of the other end, and about the other row: statics",
                **feet.given(i),
                n=(float(FOOT_BOLTS), "", "bolts of each plate or wall"),
                e=(EDGE, "mm", "from its edges to the outermost bolts"),
                n_p=half,
                p=(
                    feet.bolt_row,
                    "mm",
                    "from row to row: thickness of the plate, and two of a bolt beside either face",
                ),
            )
        ]

    return Joint(
        machine,
        _PART,
        "housing.tie_bolt",
        bolt,
        feet.pull,
        (
            share,
            "",
            "Shigley 10th ed., eq. 8-17 and 8-22 (from memory), of thread and a grip of two of its thickness",
        ),
        [],
        how,
        lambda i, say: (
            f"{feet.tells(i, say)}: {say(feet.pull[i], 'N')} on one of {FOOT_BOLTS} bolts {bolt.name}"
        ),
    )


def _grips(feet: _Feet, joint: Joint) -> Check:
    """Whether the feet do not slip on their rails in a jam."""
    machine, frame = feet.machine, feet.machine.spec.frame
    safety, bolt = machine.spec.safety.shaft_in_jam, joint.bolt
    pushed = np.hypot(feet.across, feet.along)
    grip = np.asarray(GRIP * (FOOT_BOLTS * bolt.least - feet.lift))

    def mends(i: int) -> list[Change]:
        over = float((pushed[i] * safety / GRIP + feet.lift[i]) / (FOOT_BOLTS * bolt.least))
        return [
            *larger_bolts(joint.field, bolt.name, over),
            *stronger_class(frame, over, machine.system),
            *calmer(machine, i, over),
        ]

    return make_check(
        machine,
        "frame",
        _PART,
        "do not slip on their rails in a jam",
        where=machine.load_cases.jammed,
        demand=pushed,
        capacity=grip,
        unit="N",
        safety=safety,
        working=lambda i: [
            worked(
                "Q = sqrt(F**2 + W**2)",
                float(pushed[i]),
                "N",
                source="both at once, all of it on one plate or wall: statics",
                **{one: feet.given(i)[one] for one in ("F", "W")},
            ),
            worked_preload(frame, bolt, joint.field),
            worked(
                "F_mu = mu*(n*F_V - A)",
                float(grip[i]),
                "N",
                mu=(GRIP, "", "common practice"),
                n=(float(FOOT_BOLTS), "", "bolts of each plate or wall"),
                F_V=(bolt.least, "N", "above"),
                A=feet.given(i)["A"],
            ),
        ],
        source="held by friction alone, preload less its scatter: VDI 2230 part 1 in its form (from memory); friction 0.15: common practice",
        reason=lambda i, say: (
            f"{feet.tells(i, say)}; {FOOT_BOLTS} bolts {bolt.name} of class {frame.bolt_class}"
        ),
        fix=mends,
    )
