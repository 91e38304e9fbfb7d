"""Whether the gear plates carry what turns in them."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import replace

import numpy as np

from mixerkit.checking import make_check, make_unjudged
from mixerkit.checks import Change, Check
from mixerkit.parts.bolts import GRIP, drawn, larger_bolts, worked_preload
from mixerkit.parts.frame_layout import pushes
from mixerkit.parts.remedies import calmer
from mixerkit.parts.worked import WorkedMachine
from mixerkit.results import Array
from mixerkit.tables import table
from mixerkit.working import Working, worked

__all__ = ["THINNEST", "plates", "wide_enough"]


THINNEST = 8.0
"""Thinnest plate in mm in which a bearing's bore stays square to it (common practice)."""


def plates(machine: WorkedMachine) -> list[Check]:
    """Check whether the plates are as thick as their bearings want, and hold together in a jam."""
    return [_thick_enough(machine), _dowels(machine), _tie_bolts(machine)]


def _thick_enough(machine: WorkedMachine) -> Check:
    """Whether the plates are as thick as what is pressed into them."""
    bearings, thickness = machine.spec.bearings, machine.spec.housing.plate_thickness
    shorter: list[Change] = [{"bearings.bush_length": 2 * thickness}]
    return wide_enough(
        machine,
        ("bearings", "plates", "thick enough for their bearings"),
        slice(2),
        thickness,
        lambda least: [
            {"housing.plate_thickness": least},
            *([] if bearings.kind == "rolling" or thickness < THINNEST else shorter),
        ],
    )


def wide_enough(
    machine: WorkedMachine,
    name: tuple[str, str, str],
    places: slice,
    thickness: float,
    mends: Callable[[float], Sequence[Change]],
) -> Check:
    """Whether a plate, or the boss on it, is as thick as what is pressed into it.

    Parameters
    ----------
    machine : WorkedMachine
    name : tuple of str
        Stage, part and name of the check.
    places : slice
        Of the bearings along each shaft that sit in it.
    thickness : float
        In mm, boss included.
    mends : callable
        Given the least thickness, what may mend the check.
    """
    bearings, rolling = machine.spec.bearings, False
    asked, origin = bearings.bush_length / 2, "half of bearings.bush_length"
    if bearings.kind == "rolling":
        held = [row for line in machine.shaft_beams for row in line.bearings[places]]
        rows = [row for row in held if row is not None]
        if len(rows) < len(held):
            why = "no bearing of the table goes on a seat here, so its width is not known"
            return replace(
                make_unjudged(machine, *name, why),
                fixes=lambda: [{"bearings.kind": "plain bush"}],
            )
        rolling, asked = True, float(max(row["width"] for row in rows))
        origin = "data/tables/rolling_bearings.csv: widest bearing in a plate"
    least = max(THINNEST, asked)
    return make_check(
        machine,
        *name,
        demand=least,
        capacity=thickness,
        unit="mm",
        tight=1.0,
        working=lambda i: [
            worked(
                "t = Max(t_0, b)",
                least,
                "mm",
                t_0=(THINNEST, "mm", "common practice"),
                b=(asked, "mm", origin),
            )
        ],
        source="the whole width of a rolling bearing, half the length of a bush, and 8 mm: common practice",
        reason=lambda i, say: (
            f"widest bearing {say(asked, 'mm')}"
            if rolling
            else f"bushes {say(2 * asked, 'mm')} long"
        ),
        fix=lambda i: mends(least),
    )


def _pushed(machine: WorkedMachine) -> Array:
    """Force in N of the couple that bears the box's torque, over the load cases.

    Bolts and dowels in the corners stand further apart than the walls from the shafts.
    """
    torque = np.abs(machine.power_flow.torque_at_box_output)
    return 1e3 * torque / machine.spec.housing.wall_distance


def _worked_push(machine: WorkedMachine, i: int) -> Working:
    torque = float(np.abs(machine.power_flow.torque_at_box_output[i]))
    return worked(
        "F = T/a",
        float(_pushed(machine)[i]),
        "N",
        T=(torque, "N*m", "power flow, torque at the box's output"),
        a=(machine.spec.housing.wall_distance, "mm", "housing.wall_distance"),
    )


def _dowels(machine: WorkedMachine) -> Check:
    """Whether the dowels do not shear in a jam."""
    housing, safety = machine.spec.housing, machine.spec.safety.shaft_in_jam
    yields = table("materials").find(housing.plate_material).values["yield_strength"]
    allowed, force = float(yields / np.sqrt(3)), _pushed(machine)
    shear = force / (np.pi / 4 * housing.dowel**2)

    def thicker(i: int) -> list[Change]:
        over = float(shear[i] * safety / allowed)
        return [{"housing.dowel": housing.dowel * float(np.sqrt(over))}, *calmer(machine, i, over)]

    return make_check(
        machine,
        "bearings",
        "plates",
        "dowels do not shear in a jam",
        where=machine.load_cases.jammed,
        demand=shear,
        capacity=allowed,
        unit="MPa",
        safety=safety,
        working=lambda i: [
            _worked_push(machine, i),
            worked(
                "tau = F/(pi/4*d**2)",
                float(shear[i]),
                "MPa",
                F=(float(force[i]), "N", "above"),
                d=(housing.dowel, "mm", "housing.dowel"),
            ),
            worked(
                "tau_e = R_e/sqrt(3)",
                allowed,
                "MPa",
                R_e=(
                    yields,
                    "MPa",
                    f"data/tables/materials.csv, {housing.plate_material}: yield strength",
                ),
            ),
        ],
        source="a couple of two dowels against the torque of the box, yield over root 3 of the plates' steel: common practice",
        reason=lambda i, say: (
            f"{say(force[i], 'N')} across each dowel of {say(housing.dowel, 'mm')}"
        ),
        fix=thicker,
    )


def _tie_bolts(machine: WorkedMachine) -> Check:
    """Whether the tie bolts hold the plates by friction in a jam."""
    spec, safety = machine.spec, machine.spec.safety.shaft_in_jam
    housing, force = spec.housing, _pushed(machine)
    bolt = drawn(spec.frame, housing.tie_bolt)
    # a push along the shafts that a gear plate takes lifts it off its distance tubes
    one, two = pushes(machine)
    lifts = np.asarray((one + two) * (spec.bearings.locating != 3))
    grip = np.asarray(GRIP * (4 * bolt.least - lifts))

    def larger(i: int) -> list[Change]:
        over = float((force[i] * safety / GRIP + lifts[i]) / (4 * bolt.least))
        return [
            *larger_bolts("housing.tie_bolt", housing.tie_bolt, over),
            *calmer(machine, i, over),
        ]

    return make_check(
        machine,
        "bearings",
        "plates",
        "tie bolts hold the plates in a jam",
        where=machine.load_cases.jammed,
        demand=force,
        capacity=grip,
        unit="N",
        safety=safety,
        working=lambda i: [
            _worked_push(machine, i),
            worked_preload(spec.frame, bolt, "housing.tie_bolt"),
            worked(
                "F_mu = mu*(4*F_V - W)",
                float(grip[i]),
                "N",
                mu=(GRIP, "", "common practice"),
                F_V=(bolt.least, "N", "above"),
                W=(float(lifts[i]), "N", "push along both shafts that a gear plate takes"),
            ),
        ],
        source="four bolts drawn up to a share of proof, Shigley 10th ed., eq. 8-31, less its scatter; friction 0.15: common practice",
        reason=lambda i, say: (
            f"{say(np.abs(machine.power_flow.torque_at_box_output[i]), 'N*m')} of the box at "
            f"{say(housing.wall_distance, 'mm')}, four {housing.tie_bolt} bolts of class {spec.frame.bolt_class}"
        ),
        fix=larger,
    )
