"""Whether the plates that hold the locating bearings' outer rings, and their screws, carry the push along the shafts."""

from __future__ import annotations

from math import pi, radians, sin

import numpy as np

from mixerkit.checking import make_check
from mixerkit.checks import Change, Check, Say
from mixerkit.parts.along import NAMES
from mixerkit.parts.bolt_joint import Joint
from mixerkit.parts.bolts import drawn, joint_constant
from mixerkit.parts.frame_layout import pushes
from mixerkit.parts.remedies import calmer, stronger
from mixerkit.parts.retainers import ANGLES, Retainer, least_beside, retainer
from mixerkit.parts.worked import WorkedMachine
from mixerkit.results import Array
from mixerkit.tables import table
from mixerkit.working import Working, as_given, by_method, worked

__all__ = ["PART", "checks", "most_screwed"]

PART = "retaining plates"
"""What these checks are of."""
_METAL = 0.5
"""Least metal between a screw's hole and another, in diameters of the screw (common practice)."""


def most_screwed() -> float:
    """Share of a push along a shaft that the most loaded of its screws bears, the plate being rigid.

    The screws leave out the web, so that their middle stands beside the shaft's: statics.

    Examples
    --------
    >>> round(most_screwed(), 4)
    0.3269
    """
    away = np.cos(np.radians(ANGLES))
    middle = away.mean()
    turned = middle * (middle - away) / ((away - middle) ** 2).sum()
    return float((1 / len(ANGLES) + turned).max())


def checks(machine: WorkedMachine) -> list[Check]:
    """Check the retaining plates: screws, bending, and room; none where bushes or insert bearings locate.

    Parameters
    ----------
    machine : WorkedMachine

    Returns
    -------
    list of Check
    """
    one = retainer(machine.spec)
    if one is None:
        return []
    return [
        _bends(machine, one),
        *_screws(machine, one).checks(),
        _threaded(machine, one),
        _beside(machine, one),
        _along(machine, one),
    ]


def _screws(machine: WorkedMachine, one: Retainer) -> Joint:
    """Its screws, prised by the plate about its rim."""
    bolt = drawn(machine.spec.frame, one.screw)
    push = pushes(machine)
    levers = [(one.reach[k] - one.pressed[k]) / (one.reach[k] - one.circles[k]) for k in range(2)]
    each = np.stack(
        [most_screwed() * lever * force for lever, force in zip(levers, push, strict=True)]
    )
    worst, pull = each.argmax(axis=0), each.max(axis=0)
    grip = one.between + 2 * one.thickness

    def how(i: int) -> list[Working]:
        k = int(worst[i])
        return [
            by_method(
                "c",
                "share of the most loaded of five screws, none of them in the web: statics of a rigid plate",
                most_screwed(),
                "",
            ),
            worked(
                "P = c*W*(r_a - r_p)/(r_a - r_s)",
                float(pull[i]),
                "N",
                source="plate prised about its rim, its stiffness round the shaft not counted: statics",
                c=(most_screwed(), "", "above"),
                W=(float(push[k][i]), "N", f"push along shaft {k + 1}"),
                r_a=(one.reach[k], "mm", "rim of the plate"),
                r_p=(one.pressed[k], "mm", "middle of what it covers of the outer ring"),
                r_s=(one.circles[k], "mm", "circle of the screws"),
            ),
        ]

    def tells(i: int, say: Say) -> str:
        return (
            f"{say(push[0][i], 'N')} and {say(push[1][i], 'N')} along shafts 1 and 2, five screws {one.screw} round each: "
            f"{say(pull[i], 'N')} on the one that is pulled most"
        )

    return Joint(
        machine,
        PART,
        "bearings.retainer_screw",
        bolt,
        pull,
        (
            float(joint_constant.formula(bolt.diameter, grip)),
            "",
            "Shigley 10th ed., eq. 8-17 and 8-22 (from memory), of thread and both plates with what is between",
        ),
        ["paddles.set_angle", "paddles.root_radius"],
        how,
        tells,
    )


def _round(machine: WorkedMachine, one: Retainer, k: int) -> Array:
    """Stress in MPa of the plate round a shaft, as a ring that is turned inside out."""
    moment = pushes(machine)[k] * (one.circles[k] - one.pressed[k]) / (2 * pi)
    return np.asarray(6 * moment / (one.beside(k + 1) * one.thickness**2))


def _bridge_sizes(one: Retainer) -> tuple[float, float, float]:
    """Span, width and share of the pushes of what bridges the web, between the screws beside it."""
    apart = one.size[0] - sum(one.reach)
    span = 2 * max(one.circles) * sin(radians(ANGLES[-2]))
    return span, apart - sum(one.openings) / 2, 1 - 2 * ANGLES[-2] / 360


def _bends(machine: WorkedMachine, one: Retainer) -> Check:
    """Whether neither yields in a jam, round the shafts or where it bridges the web."""
    safety, jams = machine.spec.safety.shaft_in_jam, machine.load_cases.jammed
    material = machine.spec.housing.plate_material
    yields = table("materials").find(material).values["yield_strength"]
    push = pushes(machine)
    span, wide, share = _bridge_sizes(one)
    narrow = min(wide, one.beside(1), one.beside(2))
    if narrow > 0:
        bridge = 6 * share * (push[0] + push[1]) * span / 8 / (wide * one.thickness**2)
        rows = np.stack([_round(machine, one, 0), _round(machine, one, 1), bridge])
    else:
        rows = np.full((3, len(machine.load_cases)), np.inf)
    worst = int(np.argmax((rows * jams).max(axis=1))) if narrow > 0 else 0
    stress = rows[worst]

    def how(i: int) -> list[Working]:
        return _worked_bend(one, worst, (float(push[0][i]), float(push[1][i])), float(stress[i]))

    def mends(i: int) -> list[Change]:
        over = float(stress[i] * safety / yields)
        fields = ("housing.plate_material",)
        thicker: list[Change] = (
            [{"bearings.retainer_thickness": one.thickness * float(np.sqrt(over))}]
            if 0 < over < np.inf
            else []
        )
        return [
            *thicker,
            *stronger(fields, material, "materials", ("yield_strength",), over),
            *calmer(machine, i, over),
            "bearings.series",
        ]

    where = ("round shaft 1", "round shaft 2", "across the web")[worst]
    return make_check(
        machine,
        "frame",
        PART,
        "do not yield in a jam",
        where=jams,
        demand=stress,
        capacity=yields,
        unit="MPa",
        safety=safety,
        working=how,
        source="ring under a couple all round, and beam on two supports, evenly loaded: statics; Roark's Formulas, tables 8.1 "
        "and 11.2 in their form (from memory); yield",
        reason=lambda i, say: (
            f"{say(push[0][i], 'N')} and {say(push[1][i], 'N')} along shafts 1 and 2, plates of {say(one.thickness, 'mm')}, "
            f"most {where}"
        ),
        fix=mends,
    )


def _worked_bend(
    one: Retainer, worst: int, push: tuple[float, float], stress: float
) -> list[Working]:
    """How the stress was got."""
    if not np.isfinite(stress):
        return [by_method("sigma", "nothing is left of the plate there", stress, "MPa")]
    thick = (one.thickness, "mm", "bearings.retainer_thickness")
    if worst < 2:
        return [
            worked(
                "sigma = 6*W*(r_s - r_p)/(2*pi*b*t**2)",
                stress,
                "MPa",
                W=(push[worst], "N", f"push along shaft {worst + 1}"),
                r_s=(one.circles[worst], "mm", "circle of the screws"),
                r_p=(one.pressed[worst], "mm", "middle of what the plate covers of the outer ring"),
                b=(one.beside(worst + 1), "mm", "metal across the plate, screw holes taken out"),
                t=thick,
            )
        ]
    span, wide, share = _bridge_sizes(one)
    return [
        worked(
            "sigma = 6*c*(W_1 + W_2)*l/(8*b*t**2)",
            stress,
            "MPa",
            c=(share, "", "share of a turn between the screws beside the web"),
            W_1=(push[0], "N", "push along shaft 1"),
            W_2=(push[1], "N", "push along shaft 2"),
            l=(span, "mm", "between the screws beside the web"),
            b=(wide, "mm", "plate left between its openings"),
            t=thick,
        )
    ]


def _threaded(machine: WorkedMachine, one: Retainer) -> Check:
    """Whether the inner plate is thick enough for the thread in it."""
    deep = float(table("threads").find(one.screw).values["diameter"])
    return make_check(
        machine,
        "frame",
        PART,
        "thread is deep enough in the inner one",
        demand=deep,
        capacity=one.thickness,
        unit="mm",
        tight=1.0,
        working=lambda i: [as_given("t", one.thickness, "mm", "bearings.retainer_thickness")],
        source="one diameter of thread in steel: common practice",
        reason=lambda i, say: f"{one.screw} tapped through {say(one.thickness, 'mm')}",
        fix=lambda i: [{"bearings.retainer_thickness": deep}, "bearings.retainer_screw"],
    )


def _beside(machine: WorkedMachine, one: Retainer) -> Check:
    """Whether the screws' holes leave metal beside them in the plate that they go through."""
    least = _METAL * float(table("threads").find(one.screw).values["diameter"])
    left = least_beside(machine.spec, one)
    return make_check(
        machine,
        "frame",
        PART,
        "screws find room among the other holes",
        demand=least,
        capacity=left,
        unit="mm",
        tight=1.0,
        working=lambda i: [
            by_method("s", "least metal from a screw's hole to another or to an edge", left, "mm")
        ],
        source="half a diameter of metal: common practice",
        reason=lambda i, say: f"ten holes of {say(one.hole, 'mm')}, {NAMES[one.place]}",
        fix=lambda i: [
            "bearings.retainer_screw",
            "housing.wall_distance",
            "housing.idler_pin",
            "bearings.series",
        ],
    )


def _rooms(machine: WorkedMachine, one: Retainer) -> list[tuple[float, float, str]]:
    """What is asked of each side along the shafts, what there is, in mm, and beside what."""
    spec = machine.spec
    paths, trough = (spec.paths.direct, spec.paths.idler), spec.trough
    inside, outside = one.rooms
    end = (spec.bearings.span - trough.length) / 2 - one.between / 2 - trough.wall_thickness
    near = [path.position - path.face_width / 2 for path in paths]
    far = [spec.housing.plate_spacing - path.position - path.face_width / 2 for path in paths]
    box = spec.reducer.overhang - spec.hubs.box_length / 2 - one.between
    return (
        [(inside, min(near), "gears"), (outside, box, "box")],
        [(inside, min(far), "gears"), (outside, end, "trough's wall")],
        [(inside, end, "trough's wall")],
    )[one.place]


def _along(machine: WorkedMachine, one: Retainer) -> Check:
    """Whether plates and screws find room along the shafts."""
    asked, there, beside = min(_rooms(machine, one), key=lambda row: row[1] - row[0])
    return make_check(
        machine,
        "frame",
        PART,
        "find room along the shafts",
        demand=asked,
        capacity=there,
        unit="mm",
        tight=1.0,
        working=lambda i: [by_method("l", f"from the bored plate to the {beside}", there, "mm")],
        source="plate, heads of the screws on its outside, and 1 mm free: common practice",
        reason=lambda i, say: f"{say(there, 'mm')} to the {beside}, {NAMES[one.place]}",
        fix=lambda i: [
            {"bearings.retainer_thickness": one.thickness + there - asked},
            "paths.direct.position",
            "paths.idler.position",
            "housing.plate_spacing",
            "bearings.span",
            "reducer.overhang",
            "bearings.retainer_screw",
        ],
    )
