"""The room that keys need: within the gear, under the hub's metal, before the plate."""

from __future__ import annotations

from mixerkit.checking import make_check
from mixerkit.checks import Check
from mixerkit.parts.gear_body_checks import hub_keyway
from mixerkit.parts.keys import BOX, KeyedHub, flank_checks, wide_enough
from mixerkit.parts.seated import FLANGE
from mixerkit.parts.shaftline import ShaftBeam
from mixerkit.parts.worked import WorkedMachine
from mixerkit.parts.zones import seat_field
from mixerkit.results import LoadedMachine
from mixerkit.working import worked

__all__ = ["box_checks", "room_checks"]


def box_checks(machine: WorkedMachine) -> list[Check]:
    """Check the key that takes the box's torque, which the kit takes to be there whatever else is keyed.

    It is the box's own, or that of the fuse's flange on shaft 1, where the key through the hollow shaft is left out.

    Parameters
    ----------
    machine : WorkedMachine

    Returns
    -------
    list of Check
    """
    spec, beam, part = machine.spec, machine.shaft_beams[0], "reduction box"
    fused = spec.fuse.kind != "none"
    held = KeyedHub(
        machine,
        FLANGE if fused else part,
        machine.power_flow.torque_at_box_output,
        "power flow, torque at the box's output",
        float(beam.diameters[beam.box]),
        "shaft 1 in the flange of the fuse" if fused else "shaft 1 where the box sits",
        spec.hubs.box_length,
        "hubs.box_length",
        seat_field(spec, 1, "reduction box"),
        "shaft_1.material",
        ("shaft_1.material",) if fused else (BOX,),
    )
    return [*flank_checks(held), _before_plate(machine, part, fused=fused)]


def _before_plate(machine: LoadedMachine, part: str, *, fused: bool) -> Check:
    """Whether the box's hollow shaft, which is taken to be as long as its key, ends before the plate."""
    spec = machine.spec
    thick, length = spec.housing.plate_thickness, spec.hubs.box_length
    before = spec.reducer.overhang - length / 2
    return make_check(
        machine,
        "hubs",
        part,
        f"{'hollow shaft' if fused else 'key'} of the box ends before the plate",
        demand=thick,
        capacity=before,
        unit="mm",
        tight=1.0,
        source="geometry",
        reason=lambda i, say: (
            f"middle of the box {say(spec.reducer.overhang, 'mm')} from the inside of the plate, "
            f"{'its hollow shaft taken as' if fused else 'key'} {say(length, 'mm')} long"
        ),
        fix=lambda i: [
            {"hubs.box_length": 2 * (spec.reducer.overhang - thick)},
            {"reducer.overhang": thick + length / 2},
        ],
        working=lambda i: [
            worked(
                "a = a_m - l/2",
                before,
                "mm",
                a_m=(spec.reducer.overhang, "mm", "reducer.overhang"),
                l=(length, "mm", "hubs.box_length"),
            )
        ],
    )


def room_checks(machine: LoadedMachine, part: str, beam: ShaftBeam) -> list[Check]:
    """Check that a gear's key lies within the gear, and that its hub has metal over the keyway.

    Parameters
    ----------
    machine : LoadedMachine
    part : str
    beam : ShaftBeam
        Of the shaft that the gears are keyed to.

    Returns
    -------
    list of Check
    """
    return [_within_gear(machine, part), _metal_over(machine, part, beam)]


def _within_gear(machine: LoadedMachine, part: str) -> Check:
    paths, length = machine.spec.paths, machine.spec.hubs.gear_length
    width = min(paths.direct.face_width, paths.idler.face_width)
    return make_check(
        machine,
        "hubs",
        part,
        "key no longer than the gear",
        demand=length,
        capacity=width,
        unit="mm",
        tight=1.0,
        source="the kit's gears are as long as their teeth are wide: geometry",
        reason=lambda i, say: f"key {say(length, 'mm')}, face {say(width, 'mm')}",
        fix=lambda i: [{"hubs.gear_length": width}, wide_enough(machine, length)],
        working=lambda i: [
            worked(
                "b = Min(b_1, b_2)",
                width,
                "mm",
                b_1=(paths.direct.face_width, "mm", "paths.direct.face_width"),
                b_2=(paths.idler.face_width, "mm", "paths.idler.face_width"),
            )
        ],
    )


def _metal_over(machine: LoadedMachine, part: str, beam: ShaftBeam) -> Check:
    outside = machine.spec.housing.hub_diameter
    diameter = float(max(beam.diameters[place] for place in beam.gears.values()))
    deep = hub_keyway(machine.spec, diameter, machine.system)
    wall = (outside - diameter) / 2 - deep
    return make_check(
        machine,
        "hubs",
        part,
        "hub has metal over its keyway",
        demand=deep,
        capacity=wall,
        unit="mm",
        tight=1.0,
        source="as much metal as the keyway is deep: common practice",
        reason=lambda i, say: (
            f"hub {say(outside, 'mm')} on a shaft of {say(diameter, 'mm')}, keyway {say(deep, 'mm')} deep in it"
        ),
        fix=lambda i: [
            {"housing.hub_diameter": diameter + 4 * deep},
            f"shaft_{beam.number}.diameter",
        ],
        working=lambda i: [
            worked(
                "w = (d_h - d)/2 - t_2",
                wall,
                "mm",
                d_h=(outside, "mm", "housing.hub_diameter"),
                d=(diameter, "mm", f"shaft {beam.number} at its thicker gear seat"),
                t_2=(deep, "mm", "data/tables/keys.csv: depth in the hub"),
            )
        ],
    )
