"""Whether gear plates and far wall carry their bearings: seats, pressure in the bores, bending, tilt."""

from __future__ import annotations

from dataclasses import replace
from itertools import product

import numpy as np

from mixerkit.checking import make_check, make_unjudged
from mixerkit.checks import Change, Check
from mixerkit.parts import bore_webs, frame_workings, retainer_checks, zones
from mixerkit.parts.along import NAMES
from mixerkit.parts.bearing_loads import axial_push
from mixerkit.parts.deflection import over_states, slope_taken
from mixerkit.parts.frame_layout import EDGE, held, pushes, tie_spans
from mixerkit.parts.frame_plate import PushedPlate
from mixerkit.parts.plate_checks import THINNEST, wide_enough
from mixerkit.parts.remedies import LIGHTER, calmer, stronger
from mixerkit.parts.worked import WorkedMachine
from mixerkit.working import as_given, worked

__all__ = ["checks"]


def checks(machine: WorkedMachine) -> list[Check]:
    """Check the plates and the far wall.

    Parameters
    ----------
    machine : WorkedMachine

    Returns
    -------
    list of Check
    """
    return [
        _far_wall(machine),
        _bores(machine),
        *bore_webs.checks(machine),
        *_under_push(machine),
        *retainer_checks.checks(machine),
    ]


def _far_wall(machine: WorkedMachine) -> Check:
    """Whether the far wall, or a boss on it, is as thick as its bearings are wide.

    A boss holds a bore square only where the wall that it is welded into does: on sheet it counts for nothing.
    """
    frame = machine.spec.frame
    if zones.series_at(machine.spec, NAMES[2]) == zones.INSERT:
        return _under_a_housing(machine)
    thin = frame.wall_thickness < THINNEST
    return wide_enough(
        machine,
        ("frame", "far wall", "thick enough for its bearings"),
        slice(2, 3),
        frame.wall_thickness if thin else max(frame.wall_thickness, frame.boss_length),
        lambda least: [
            *([{"frame.wall_thickness": THINNEST}] if thin else []),
            {"frame.wall_thickness": least},
            {"frame.boss_length": least},
        ],
    )


def _under_a_housing(machine: WorkedMachine) -> Check:
    """Whether the far wall is stiff enough for the housings of insert bearings, which are bolted to it."""
    thick = machine.spec.frame.wall_thickness
    return make_check(
        machine,
        "frame",
        "far wall",
        "thick enough for its bearings",
        demand=THINNEST,
        capacity=thick,
        unit="mm",
        tight=1.0,
        working=lambda i: [as_given("t", thick, "mm", "frame.wall_thickness")],
        source="8 mm under a housing that is bolted on: common practice",
        reason=lambda i, say: f"wall of {say(thick, 'mm')} under housings of insert bearings",
        fix=lambda i: [{"frame.wall_thickness": THINNEST}],
    )


def _bores(machine: WorkedMachine) -> Check:
    """Whether no bore is pressed out of round in a jam."""
    safety, jams = machine.spec.safety.shaft_in_jam, machine.load_cases.jammed

    seats = [[held(line, place) for place in range(3)] for line in machine.shaft_beams]
    forces = [line.stopped.reaction.max(axis=1) for line in machine.shaft_beams]
    most = [force.max(axis=0).tolist() for force in forces]

    def share(number: int, place: int) -> float:
        seat = seats[number][place]
        return float(most[number][place]) / (seat.bore * seat.length * seat.yields)

    number, place = max(product((0, 1), range(3)), key=lambda one: share(*one))
    line, seat = machine.shaft_beams[number], seats[number][place]
    force = over_states(machine, line.stopped.states, forces[number])[:, place]
    pressed = force / (seat.bore * seat.length)
    field = "frame.wall_thickness" if place == 2 else "housing.plate_thickness"
    named = "frame.wall_material" if place == 2 else "housing.plate_material"

    def mends(i: int) -> list[Change]:
        over = float(pressed[i] * safety / seat.yields)
        return [
            {field: seat.length * over},
            *stronger((named,), seat.material, "materials", ("yield_strength",), over),
            *calmer(machine, i, over),
        ]

    return make_check(
        machine,
        "frame",
        "bores",
        "bores are not pressed out of round in a jam",
        where=jams,
        demand=pressed,
        capacity=seat.yields,
        unit="MPa",
        safety=safety,
        working=lambda i: [
            worked(
                "p = F/(D*b)",
                float(pressed[i]),
                "MPa",
                F=(float(force[i]), "N", f"shaft {number + 1} as a beam, {NAMES[place]}, in a jam"),
                D=(seat.bore, "mm", "outside of the bearing or bush in it"),
                b=(seat.length, "mm", "over which it sits in plate, wall or boss"),
            )
        ],
        source="mean pressure on the projected area against yield: Shigley 10th ed., section 8-12 in its form",
        reason=lambda i, say: (
            f"shaft {number + 1}, {NAMES[place]}: {say(force[i], 'N')} on a bore of {say(seat.bore, 'mm')}, "
            f"{say(seat.length, 'mm')} long"
        ),
        fix=mends,
    )


def _under_push(machine: WorkedMachine) -> list[Check]:
    """Whether the plate that takes the push along the shafts neither bends nor tilts."""
    plate = PushedPlate.of(machine)
    names = "do not bend under the push in a jam", "bores stay square to their shafts"
    if not plate.possible:
        why = "bores and bolts leave nothing of the plate; a larger housing.wall_distance is wanted"
        wider: list[Change] = [{"housing.wall_distance": 2 * EDGE + max(plate.bores)}]
        return [
            replace(make_unjudged(machine, "frame", plate.part, one, why), fixes=lambda: wider)
            for one in names
        ]
    return [_bends(machine, plate, names[0]), _tilts(machine, plate, names[1])]


def _bends(machine: WorkedMachine, plate: PushedPlate, name: str) -> Check:
    """Whether it springs back from a jam."""
    safety = machine.spec.safety.shaft_in_jam
    one, two = pushes(machine)
    stress = np.maximum(*plate.stresses(one, two))
    yields = plate.steel["yield_strength"]

    def mends(i: int) -> list[Change]:
        over = float(stress[i] * safety / yields)
        return [
            {plate.field: plate.needed(over)},
            *([{"bearings.locating": 2}] if plate.far else []),
            *calmer(machine, i, over),
        ]

    return make_check(
        machine,
        "frame",
        plate.part,
        name,
        where=machine.load_cases.jammed,
        demand=stress,
        capacity=yields,
        unit="MPa",
        safety=safety,
        working=lambda i: frame_workings.bends(plate, float(one[i]), float(two[i])),
        source="bending moment across the cut by statics, on the metal beside the bores; hole in a bent plate: Peterson (from memory)",
        reason=lambda i, say: (
            f"{say(one[i], 'N')} and {say(two[i], 'N')} along shafts 1 and 2, all of it on "
            + (
                f"a wall {say(plate.spec.frame.shaft_height, 'mm')} above its feet"
                if plate.far
                else f"a plate that hangs on its four tie bolts, {say(tie_spans(plate.spec)[0], 'mm')} x "
                f"{say(tie_spans(plate.spec)[1], 'mm')} apart"
            )
        ),
        fix=mends,
    )


def _tilts(machine: WorkedMachine, plate: PushedPlate, name: str) -> Check:
    """Whether the plate tilts the bearings by no more than their shafts' slope leaves of their limit."""
    spec, place = machine.spec, machine.spec.bearings.locating - 1
    limit = min(slope_taken(spec, number, NAMES[place]) for number in (1, 2))
    tilt = plate.tilt(axial_push(machine))
    shaft = max(
        float(line.mixing_sag[1].slope[..., line.supports[place]].max())
        for line in machine.shaft_beams
    )
    left = max(limit - shaft, 0.0)
    bushed: list[Change] = ["bearings.bush_length", {"bearings.kind": "rolling"}]
    return make_check(
        machine,
        "frame",
        plate.part,
        name,
        demand=1e3 * tilt,
        capacity=1e3 * left,
        unit="mrad",
        working=lambda i: frame_workings.tilts(plate, axial_push(machine), shaft, limit, left),
        source=f"beam formulas, Shigley 10th ed., table A-9; {spec.bearings.kind}: table 7-2 as reprinted, common practice for bushes "
        "and no more than their least play over their length",
        reason=lambda i, say: (
            f"{NAMES[place]}: the bearings take {say(1e3 * limit, 'mrad')}, of which their shaft's slope takes "
            f"{say(1e3 * shaft, 'mrad')}. Two dowels and one boring for both plates, and feet trued in one plane, keep "
            "the three bearings of a shaft in line; the far wall is set with the shafts in and dowelled then"
        ),
        fix=lambda i: [
            # no plate helps bearings that their shaft tilts too far by itself
            *([{plate.field: plate.thickness * float(np.cbrt(tilt / left))}] if left else []),
            *(bushed if spec.bearings.kind != "rolling" else []),
            *([{"bearings.locating": 2}] if plate.far else []),
            "shaft_1.diameter",
            "shaft_2.diameter",
            "bearings.span",
            *LIGHTER,
        ],
    )
