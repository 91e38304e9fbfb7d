"""Whether the teeth stand bending and pressing, day by day and in a jam."""

from __future__ import annotations

from dataclasses import replace
from functools import lru_cache
from math import pi
from typing import Any

import numpy as np

from mixerkit.checking import make_check, make_unjudged
from mixerkit.checks import Change, Check
from mixerkit.frozen import frozen
from mixerkit.parts import (
    lewis,
    toothcontact,
    toothstrength,
)
from mixerkit.parts.gear_body_checks import between_plates
from mixerkit.parts.gear_pairs import Pair, one_word
from mixerkit.parts.mesh_checks import closed, coarser, finer, too_near
from mixerkit.parts.remedies import LIGHTER, calmer, stronger
from mixerkit.results import Array, Flags, LoadedMachine
from mixerkit.spec import GearPath
from mixerkit.tables import table
from mixerkit.working import by_method, worked

__all__ = ["life_cycles", "strength"]
_ISO = "ISO 6336-3 method B with K factors stated; limits ISO 6336-5 (from memory)"


def life_cycles(machine: LoadedMachine) -> float:
    """Loads on one tooth over the machine's life, one a turn."""
    return machine.running_speed * 60 * machine.spec.batch.life_hours


# most knobs leave a mesh as it is, and what a newton does to it
_stresses = lru_cache(maxsize=512)(lambda *given: frozen(toothstrength.mesh_stresses(*given)))


def _tangent_force(machine: LoadedMachine, path: GearPath) -> Array:
    """Force along the pitch circles in N over the states; the same in every mesh but for losses."""
    radius = path.module * path.tooth_counts[0] / 2
    return 1e3 * machine.power_flow.torque_into_gear_path / radius


def strength(machine: LoadedMachine, name: str, path: GearPath, meshes: list[Pair]) -> list[Check]:
    """Check the teeth of a path."""
    part, here = f"{name} path", machine.load_cases.clutch == name
    names = (
        "teeth do not break while mixing",
        "teeth do not break in a jam",
        "teeth surfaces last",
    )
    near = [one for one in meshes if not np.isfinite(one.working)]
    if near:
        return [
            replace(
                make_unjudged(machine, "gears", part, one, too_near(near[0], machine.system)),
                fixes=lambda: closed(name, path, meshes),
            )
            for one in names
        ]
    force = _tangent_force(machine, path) * here
    material = table("gear_materials").find(path.material).values
    idler = table("gear_materials").find(path.idler_material).values
    limits = [material] + [idler] * (len(path.tooth_counts) - 2) + [material]
    cycles = life_cycles(machine)
    bending_life, contact_life = map(float, toothstrength.life_factors(cycles))
    root, surface = [], []
    for k, one in enumerate(meshes):
        elastic = toothcontact.elastic_factor(
            limits[k]["elastic_modulus"], limits[k + 1]["elastic_modulus"]
        )
        stresses, contact = _stresses(
            path.module,
            one.counts,
            one.shifts,
            tuple(one.tips),
            one.distance,
            one.ratio,
            path.face_width,
            float(elastic),
            path.thinning,
        )
        for i, stress in enumerate(stresses):
            limit = limits[k + i]["bending_limit"] * toothstrength.STRESSING
            root.append((float(stress) / limit, float(stress), limit, one.counts[i]))
        limit = min(limits[k]["contact_limit"], limits[k + 1]["contact_limit"])
        surface.append((float(contact) / limit, float(contact), limit, one))
    bent, touched = max(root, key=_share), max(surface, key=_share)
    if not all(np.isfinite(one[0]) for one in (bent, touched)):
        few = min(path.tooth_counts)
        why = f"the form factors of ISO 6336-3 do not reach a gear of {few} teeth with this shift and thinning"
        return [
            replace(
                make_unjudged(machine, "gears", part, one, why),
                fixes=lambda: [f"paths.{name}.thinning", *finer(machine, name, path)],
            )
            for one in names
        ]
    reversing = toothstrength.REVERSED
    # the load factors are those of walking pace; Barth's takes over where the pitch line runs faster
    dynamic = toothstrength.HAND_CUT.dynamic
    speed = pitch_speed(machine, path)
    faster = max(float(lewis.velocity_factor.formula(speed)) / dynamic, 1.0)
    safety = machine.spec.safety
    allowed = touched[2] * contact_life
    felt = touched[1] * np.sqrt(force * faster)
    jam = force / toothstrength.HAND_CUT.application
    turning = [
        _bending_check(
            machine,
            name,
            path,
            force * faster,
            bent,
            "while mixing",
            machine.load_cases.mixing & here,
            bent[2] * reversing * bending_life,
            safety.tooth_bending,
            f"loaded both ways x {reversing:g}, {cycles:.2g} loads",
        ),
        make_check(
            machine,
            "gears",
            part,
            names[2],
            where=machine.load_cases.mixing & here,
            demand=felt,
            capacity=allowed,
            unit="MPa",
            safety=safety.tooth_contact,
            working=lambda i: [
                by_method(
                    "sigma_H",
                    "contact stress of a newton by ISO 6336-2, times the root of the force along the pitch circle and of what speed adds; greatest of all meshes",
                    float(felt[i]),
                    "MPa",
                    F_t=(
                        float(force[i]),
                        "N",
                        "power flow, torque into the gear path over the pitch radius",
                    ),
                ),
                worked(
                    "sigma_HP = Z_N*sigma_Hlim",
                    float(allowed),
                    "MPa",
                    Z_N=(contact_life, "", "life factor for the loads of the machine's life"),
                    sigma_Hlim=(
                        touched[2],
                        "MPa",
                        "data/tables/gear_materials.csv: contact limit, the lesser of both gears",
                    ),
                ),
            ],
            source="ISO 6336-2 method B with K factors stated; limits ISO 6336-5 (from memory)",
            reason=lambda i, say: (
                f"{one_word(touched[3])}, Ft = {say(force[i], 'N')}, K = {toothstrength.LOAD_FACTOR * faster:.2f}, {cycles:.2g} loads x {contact_life:.2f}; "
                f"at {speed:.2g} m/s metal touches metal: {material['lubrication']}"
            ),
            fix=lambda i: _lasting(
                machine,
                name,
                path,
                i,
                (felt[i] * safety.tooth_contact / allowed) ** 2,
                "contact_limit",
            ),
        ),
    ]
    if not cycles > 0:
        why = "shaft 1 does not turn at the frequency the motor is fed with, so no life can be reckoned"
        turning = [
            replace(make_unjudged(machine, "gears", part, one, why), fixes=lambda: ["motor.run_at"])
            for one in (names[0], names[2])
        ]
    return [
        turning[0],
        _bending_check(
            machine,
            name,
            path,
            jam,
            bent,
            "in a jam",
            machine.load_cases.jammed & here,
            bent[2] * toothstrength.STATIC,
            safety.shaft_in_jam,
            f"static x {toothstrength.STATIC:g}",
            (1.0, 1.2),
        ),
        turning[1],
    ]


def _share(one: tuple[Any, ...]) -> float:
    """Stress over limit of a row; what cannot be worked out governs all that can."""
    return np.inf if np.isnan(one[0]) else float(one[0])


def _lasting(
    machine: LoadedMachine, name: str, path: GearPath, i: int, over: float, column: str
) -> list[Change]:
    """What lets teeth carry so many times their load: wider, harder, coarser, or less of it."""
    spec, over = machine.spec, float(over)
    other = spec.paths.idler if name == "direct" else spec.paths.direct
    # a gear must stay between the plates, and off its neighbour
    room = between_plates(spec, path)
    room = min(room, 2 * abs(path.position - other.position) - other.face_width)
    wide = f"paths.{name}.face_width"
    fields = (f"paths.{name}.material", f"paths.{name}.idler_material")[
        : len(path.tooth_counts) - 1
    ]
    # contact stress goes with the square root of the force
    power = 1.0 if column == "bending_limit" else 2.0
    found: list[Change] = []
    if path.face_width * over < room:
        found.append({wide: path.face_width * over})
    if over > 0:
        found += stronger(fields, path.material, "gear_materials", (column,), over ** (1 / power))
    has = table("gear_materials").find(path.material).values[column]
    for change in stronger(fields, path.material, "gear_materials", (column,), 1.0)[-1:]:
        better = table("gear_materials").find(str(change[fields[0]])).values[column] / has
        left = over / better**power
        if left > 1 and path.face_width * left < room:
            found.append({**change, wide: path.face_width * left})
    return [
        *found,
        *calmer(machine, i, over),
        *coarser(machine, name, path),
        *(LIGHTER if machine.load_cases.mixing[i] else ()),
    ]


def pitch_speed(machine: LoadedMachine, path: GearPath) -> float:
    """Speed of the pitch line in m/s while mixing."""
    return pi * path.module * path.tooth_counts[0] * machine.running_speed / 60e3


def _bending_check(
    machine: LoadedMachine,
    name: str,
    path: GearPath,
    force: Array,
    bent: tuple[float, float, float, int],
    when: str,
    where: Flags,
    allowed: float,
    safety: float,
    how: str,
    rung: tuple[float, float] | None = None,
) -> Check:
    stress = bent[1] * force
    return make_check(
        machine,
        "gears",
        f"{name} path",
        f"teeth do not break {when}",
        where=where,
        demand=stress,
        capacity=allowed,
        unit="MPa",
        safety=safety,
        working=lambda i: [
            worked(
                "sigma_F = y*F_t",
                float(stress[i]),
                "MPa",
                y=(bent[1], "mm**-2", "root stress of a newton: ISO 6336-3 method B"),
                F_t=(
                    float(force[i]),
                    "N",
                    "torque into the gear path over the pitch radius, times the speed factor while mixing, over the application factor in a jam",
                ),
            )
        ],
        source=_ISO,
        rung=rung,
        reason=lambda i, say: (
            f"gear of {bent[3]} teeth thinned {say(path.thinning, 'mm')}, Ft = {say(force[i], 'N')}, "
            f"face {say(path.face_width, 'mm')}; limit {how}"
        ),
        fix=lambda i: [
            *_lasting(machine, name, path, i, stress[i] * safety / allowed, "bending_limit"),
            f"paths.{name}.thinning",
        ],
    )
