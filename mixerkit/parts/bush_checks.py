"""Bushes of idler and free gears: pressure, speed, wear and walls."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

import numpy as np

from mixerkit.checking import make_check, make_unjudged
from mixerkit.checks import Change, Check, Say
from mixerkit.constants import STANDARD_GRAVITY
from mixerkit.parts import bearing, bearing_workings, hub
from mixerkit.parts.bearing_loads import loads
from mixerkit.parts.bush_walls import HUB_OVER_BUSH
from mixerkit.parts.idler_checks import idler_forces, reaching
from mixerkit.parts.remedies import LIGHTER, calmer
from mixerkit.parts.shaftline import ShaftBeam
from mixerkit.parts.worked import WorkedMachine
from mixerkit.results import Array, LoadedMachine
from mixerkit.tables import table
from mixerkit.working import Working, worked

__all__ = ["bushes", "free_gears", "idler_bush"]


BUSH_CHECKS = (
    "pressure in {} in a jam",
    "pressure in {} while mixing",
    "sliding speed in {}",
    "pressure times speed in {}",
    "wear of {}",
)


def _bush_checks(
    machine: LoadedMachine,
    part: str,
    bore: float,
    length: float,
    load: Array,
    stopped: Array,
    speed: Array,
    share: float,
    field: str,
    more: Sequence[Change] = (),
    jam_bore: float | None = None,
) -> list[Check]:
    """Pressure turning and stopped, pressure times speed, and wear over the machine's life.

    ``field`` names the length of the bush, ``more`` holds other changes that help it, and ``jam_bore``
    is the bore of the bush that a jam loads most, where that is another one.
    """
    one = machine.spec.bearings
    bush = table("bush_materials").find(one.bush_material).values
    jam_bore = bore if jam_bore is None else jam_bore
    pressure = np.asarray(bearing.bush_pressure.formula(load, bore, length))
    rest = np.asarray(bearing.bush_pressure.formula(stopped, jam_bore, length))
    sliding = np.asarray(bearing.sliding_speed.formula(speed, bore))
    hours = machine.spec.batch.life_hours * share
    worn = np.asarray(
        bearing.wear_depth.formula(pressure, sliding * 3.6 * hours, bush["wear_rate"])
    )
    turning = machine.load_cases.mixing & (sliding > 0)
    if not turning.any():
        turning = machine.load_cases.mixing

    def better(column: str) -> list[Change]:
        rows = [row.values for row in table("bush_materials")]
        sign = -1 if column == "wear_rate" else 1
        rows = [row for row in rows if sign * row[column] > sign * bush[column]]
        rows.sort(key=lambda row: sign * row[column])
        return [{"bearings.bush_material": row["name"]} for row in rows[:2]]

    def longer(value: float, allowed: float, column: str) -> list[Change]:
        return [{field: float(length * value / allowed)}, *better(column), *more]

    def where(i: int, say: Say) -> str:
        return f"{say(load[i], 'N')} on {say(bore, 'mm')} x {say(length, 'mm')}, sliding {say(sliding[i], 'm/s')}"

    def pressed(i: int) -> Working:
        return bearing_workings.pressure(float(load[i]), bore, length, float(pressure[i]), part)

    def slid(i: int) -> Working:
        return bearing_workings.sliding(float(speed[i]), bore, float(sliding[i]), part)

    source = f"{one.bush_material}: data/tables/bush_materials.csv"
    names = [name.format(part) for name in BUSH_CHECKS]
    allowed = bush["pressure"]
    return [
        make_check(
            machine,
            "bearings",
            part,
            names[0],
            where=machine.load_cases.jammed,
            demand=rest,
            capacity=2 * allowed,
            unit="MPa",
            working=lambda i: [
                bearing_workings.pressure(float(stopped[i]), jam_bore, length, float(rest[i]), part)
            ],
            source=f"{source}; at rest twice that: common practice",
            reason=lambda i, say: (
                f"{say(stopped[i], 'N')} on {say(jam_bore, 'mm')} x {say(length, 'mm')}"
            ),
            fix=lambda i: (
                longer(rest[i], 2 * allowed, "pressure")
                + calmer(machine, i, rest[i] / (2 * allowed))
            ),
        ),
        make_check(
            machine,
            "bearings",
            part,
            names[1],
            where=turning,
            demand=pressure,
            capacity=allowed,
            unit="MPa",
            source=source,
            working=lambda i: [pressed(i)],
            reason=where,
            fix=lambda i: longer(pressure[i], allowed, "pressure") + list(LIGHTER),
        ),
        make_check(
            machine,
            "bearings",
            part,
            names[2],
            where=turning,
            demand=sliding,
            capacity=bush["speed"],
            working=lambda i: [slid(i)],
            unit="m/s",
            source=source,
            reason=where,
            fix=lambda i: [*better("speed"), "motor.run_at", "reducer"],
        ),
        make_check(
            machine,
            "bearings",
            part,
            names[3],
            where=turning,
            demand=pressure * sliding,
            capacity=bush["pv"],
            working=lambda i: [
                pressed(i),
                slid(i),
                worked(
                    "P = p*v",
                    float(pressure[i] * sliding[i]),
                    "MPa*m/s",
                    p=(float(pressure[i]), "MPa", "above"),
                    v=(float(sliding[i]), "m/s", "above"),
                ),
            ],
            unit="MPa*m/s",
            source=source,
            reason=where,
            fix=lambda i: [
                *longer(pressure[i] * sliding[i], bush["pv"], "pv"),
                *LIGHTER,
                "motor.run_at",
            ],
        ),
        make_check(
            machine,
            "bearings",
            part,
            names[4],
            where=turning,
            demand=worn,
            capacity=one.wear_allowed,
            unit="mm",
            working=lambda i: bearing_workings.wear(
                pressed(i), slid(i), hours, bush["wear_rate"], float(worn[i]), one.bush_material
            ),
            source=f"Archard's law; {source}",
            reason=lambda i, say: f"{where(i, say)} for {hours:g} h",
            fix=lambda i: [
                *longer(worn[i], one.wear_allowed, "wear_rate"),
                *LIGHTER,
                "motor.run_at",
            ],
            note=lambda i, say: (
                f"As it is, the bush is worn out after {say(hours * one.wear_allowed / worn[i], 'hour')}: plan to change it then."
            ),
        ),
    ]


def bushes(line: ShaftBeam) -> list[Check]:
    """Check the bushes that a shaft turns in."""
    machine, spec = line.machine, line.machine.spec
    bores = line.diameters[line.supports]
    worst = int(np.argmax(line.running.reaction.max(axis=(0, 1)) / bores))
    jammed = int(np.argmax(line.stopped.reaction.max(axis=(0, 1)) / bores))
    lasting, _ = loads(line, worst)
    _, most = loads(line, jammed)
    return _bush_checks(
        machine,
        f"bushes of shaft {line.number}",
        float(bores[worst]),
        spec.bearings.bush_length,
        lasting,
        most,
        machine.running_speed * machine.power_flow.turns[line.number],
        1.0,
        "bearings.bush_length",
        (f"shaft_{line.number}.diameter", "bearings.span"),
        float(bores[jammed]),
    )


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
            for one in BUSH_CHECKS
        ]
    speed = machine.running_speed * path.tooth_counts[0] / path.tooth_counts[1]
    # half of the time in each mode
    return inside + _bush_checks(
        machine,
        part,
        spec.housing.idler_pin,
        spec.bearings.idler_length,
        force * ~machine.load_cases.jammed,
        force * machine.load_cases.jammed,
        np.where(machine.load_cases.clutch == "idler", speed, 0.0),
        0.5,
        "bearings.idler_length",
        ("housing.idler_pin",),
    )


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
    """The gears that the clutch frees: loaded only while they are held, sliding only while free."""
    spec, part = machine.spec, "bushes of the free gears"
    line = machine.shaft_beams[spec.clutch.shaft - 1]
    # dogs that do not all carry push the gear sideways with the force of one, at its end face: across and over
    one, length = spec.clutch, spec.bearings.free_gear_length
    radius = (one.outer_diameter + one.inner_diameter) / 4
    dog = (
        1e3
        * machine.power_flow.at_gears[one.shaft]
        / radius
        / hub.carrying_dogs(one.dogs, one.carrying_share)
    )
    lever = (
        max(spec.paths.direct.face_width, spec.paths.idler.face_width) / 2
        + one.dog_height
        - one.overlap / 2
    )
    held = np.hypot(*line.gear_forces.T) + dog * (1 + 6 * lever / length)
    diameter = float(min(line.diameters[place] for place in line.gears.values()))
    path, slides = spec.paths.direct, machine.power_flow.slides

    def weight(name: str) -> float:
        one = getattr(spec.paths, name)
        count = one.tooth_counts[0 if spec.clutch.shaft == 1 else -1]
        return float(
            STANDARD_GRAVITY * np.pi / 4 * (one.module * count) ** 2 * one.face_width * 7.85e-6
        )

    # where both are free, the heavier and the faster of them, whichever each is
    carried = np.maximum.reduce(
        [np.where(machine.load_cases.clutch == one, 0.0, weight(one)) for one in slides]
    )
    turns = np.maximum.reduce(list(slides.values()))
    field, inner = "bearings.free_gear_length", f"shaft_{spec.clutch.shaft}.diameter"
    width = min(path.face_width, spec.paths.idler.face_width)
    thickest = float(max(line.diameters[place] for place in line.gears.values()))
    return _inside(
        machine,
        part,
        thickest,
        spec.bearings.free_gear_length,
        width,
        field,
        "paths.direct.face_width" if width == path.face_width else "paths.idler.face_width",
        inner,
    ) + _bush_checks(
        machine,
        part,
        diameter,
        spec.bearings.free_gear_length,
        carried,
        held * machine.load_cases.jammed,
        machine.running_speed * turns,
        0.5,
        field,
        (inner,),
    )
