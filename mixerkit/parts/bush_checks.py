"""The bushes of shafts, idler and free gears: what each bears, and whether it finds room."""

from __future__ import annotations

from dataclasses import replace

import numpy as np

from mixerkit.checking import make_check, make_unjudged
from mixerkit.checks import Check
from mixerkit.constants import STANDARD_GRAVITY
from mixerkit.parts import bearing_workings, hub
from mixerkit.parts.bearing_loads import loads
from mixerkit.parts.bush_lasting import LASTING, Bush, lasting
from mixerkit.parts.bush_walls import HUB_OVER_BUSH
from mixerkit.parts.idler import idler_forces, reaching
from mixerkit.parts.shaftline import ShaftBeam
from mixerkit.parts.worked import WorkedMachine
from mixerkit.results import Array, LoadedMachine

__all__ = ["bushes", "free_gears", "idler_bush"]


def bushes(line: ShaftBeam) -> list[Check]:
    """Check the bushes that a shaft turns in."""
    machine, spec = line.machine, line.machine.spec
    bores = line.diameters[line.supports]
    worst = int(np.argmax(line.running.reaction.max(axis=(0, 1)) / bores))
    jammed = int(np.argmax(line.stopped.reaction.max(axis=(0, 1)) / bores))
    day_by_day, _ = loads(line, worst)
    _, most = loads(line, jammed)
    bush = Bush(
        machine=machine,
        part=f"bushes of shaft {line.number}",
        bore=float(bores[worst]),
        length=spec.bearings.bush_length,
        load=day_by_day,
        stopped=most,
        speed=machine.running_speed * machine.power_flow.turns[line.number],
        field="bearings.bush_length",
        more=(f"shaft_{line.number}.diameter", "bearings.span"),
        jam_bore=float(bores[jammed]),
    )
    return lasting(bush)


def idler_bush(machine: LoadedMachine) -> list[Check]:
    """Check the bush of the idler on its pin."""
    spec = machine.spec
    path = spec.paths.idler
    force, part = idler_forces(machine), "idler's bush"
    inside = _inside(
        machine,
        part,
        spec.housing.idler_pin,
        spec.bearings.idler_length,
        path.face_width,
        "bearings.idler_length",
        "paths.idler.face_width",
        "housing.idler_pin",
    )
    if not np.isfinite(force).all():
        why = "the idler has no place where it meshes with both shafts, so its force is not known"
        return inside + [
            replace(
                make_unjudged(machine, "bearings", part, one.format(part), why),
                fixes=lambda: reaching(spec),
            )
            for one in LASTING
        ]
    speed = machine.running_speed * path.tooth_counts[0] / path.tooth_counts[1]
    # half of the time in each mode
    bush = Bush(
        machine=machine,
        part=part,
        bore=spec.housing.idler_pin,
        length=spec.bearings.idler_length,
        load=force * ~machine.load_cases.jammed,
        stopped=force * machine.load_cases.jammed,
        speed=np.where(machine.load_cases.clutch == "idler", speed, 0.0),
        share=0.5,
        field="bearings.idler_length",
        more=("housing.idler_pin",),
    )
    return inside + lasting(bush)


def _inside(
    machine: LoadedMachine,
    part: str,
    bore: float,
    length: float,
    width: float,
    field: str,
    wide: str,
    inner: str,
) -> list[Check]:
    """Whether a bush finds room in its gear: along it, and in the hub round it."""
    hub, outside = machine.spec.housing.hub_diameter, bore + 2 * machine.spec.bearings.bush_wall
    return [
        make_check(
            machine,
            "bearings",
            part,
            f"{part} no longer than the gear",
            demand=length,
            capacity=width,
            unit="mm",
            tight=1.0,
            working=lambda i: bearing_workings.taken(
                "l", f"length of the bush: {field}", length, "mm", l_0=(length, "mm", field)
            ),
            source="the kit's gears are as long as their teeth are wide: geometry",
            reason=lambda i, say: f"bush {say(length, 'mm')}, face {say(width, 'mm')}",
            fix=lambda i: [{field: width}, {wide: length}],
        ),
        make_check(
            machine,
            "bearings",
            part,
            f"hub goes round {part}",
            demand=HUB_OVER_BUSH * outside,
            capacity=hub,
            unit="mm",
            tight=1.0,
            working=lambda i: bearing_workings.hub_round(
                machine, bore, HUB_OVER_BUSH, inner, HUB_OVER_BUSH * outside
            ),
            source="a hub 1.2 times the bush pressed into it: common practice",
            reason=lambda i, say: f"bush {say(outside, 'mm')} outside",
            fix=lambda i: [
                {"housing.hub_diameter": HUB_OVER_BUSH * outside},
                {"bearings.bush_wall": (hub / HUB_OVER_BUSH - bore) / 2},
                inner,
            ],
        ),
    ]


def free_gears(machine: WorkedMachine) -> list[Check]:
    """Check the bushes of the gears that the clutch frees: loaded only while held, sliding only while free."""
    spec, part, field = machine.spec, "bushes of the free gears", "bearings.free_gear_length"
    line = machine.shaft_beams[spec.clutch.shaft - 1]
    seats = [float(line.diameters[place]) for place in line.gears.values()]
    inner = f"shaft_{spec.clutch.shaft}.diameter"
    narrow = min(("direct", "idler"), key=lambda one: getattr(spec.paths, one).face_width)
    length = spec.bearings.free_gear_length
    bush = Bush(
        machine=machine,
        part=part,
        bore=min(seats),
        length=length,
        load=_carried_free(machine),
        stopped=_held(machine, line) * machine.load_cases.jammed,
        speed=machine.running_speed * np.maximum.reduce(list(machine.power_flow.slides.values())),
        share=0.5,
        field=field,
        more=(inner,),
    )
    width, wide = getattr(spec.paths, narrow).face_width, f"paths.{narrow}.face_width"
    inside = _inside(machine, part, max(seats), length, width, field, wide, inner)
    return inside + lasting(bush)


def _held(machine: LoadedMachine, line: ShaftBeam) -> Array:
    """Force in N on the bush of a gear that is held, over the load cases."""
    spec, one = machine.spec, machine.spec.clutch
    # dogs that do not all carry push the gear sideways with the force of one, at its end face: across and over
    radius = (one.outer_diameter + one.inner_diameter) / 4
    carrying = hub.carrying_dogs(one.dogs, one.carrying_share)
    dog = 1e3 * machine.power_flow.at_gears[one.shaft] / radius / carrying
    widest = max(spec.paths.direct.face_width, spec.paths.idler.face_width)
    lever = widest / 2 + one.dog_height - one.overlap / 2
    held: Array = np.hypot(*line.gear_forces.T) + dog * (
        1 + 6 * lever / spec.bearings.free_gear_length
    )
    return held


def _carried_free(machine: LoadedMachine) -> Array:
    """Weight in N on the bush of a gear that is free; where both are, the heavier, whichever slides faster."""
    spec = machine.spec
    end = 0 if spec.clutch.shaft == 1 else -1

    def weight(name: str) -> float:
        path = getattr(spec.paths, name)
        around = np.pi / 4 * (path.module * path.tooth_counts[end]) ** 2
        return float(STANDARD_GRAVITY * around * path.face_width * 7.85e-6)

    carried: Array = np.maximum.reduce(
        [
            np.where(machine.load_cases.clutch == name, 0.0, weight(name))
            for name in machine.power_flow.slides
        ]
    )
    return carried
