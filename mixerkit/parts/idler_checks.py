"""The idler: where it stands, its pin and what pushes it."""

from __future__ import annotations

from dataclasses import replace

import numpy as np

from mixerkit.checking import make_check, make_unjudged
from mixerkit.checks import Change, Check
from mixerkit.parts import (
    mesh,
    shaft,
    spurgear,
)
from mixerkit.parts.gear_pairs import mesh_distances, pairs, shifts_of
from mixerkit.parts.mesh_checks import coarser, finer
from mixerkit.parts.remedies import FEWEST, calmer, stronger
from mixerkit.results import Array, LoadedMachine
from mixerkit.spec import Spec
from mixerkit.tables import table
from mixerkit.units import show
from mixerkit.working import by_method, worked

__all__ = ["idler", "idler_forces", "reaching"]


def idler_leans(spec: Spec) -> tuple[float, float]:
    """Working pressure angles in degrees of the first and last mesh of the idler's path."""
    meshes = pairs(spec.paths.idler, spec.housing.centre_distance)
    return meshes[0].working, meshes[-1].working


def idler_centre(spec: Spec) -> tuple[float, float, list[float]]:
    """Place of the first idler in mm, shaft 1 at the origin, and the mesh distances of its path.

    The place aside is not a number where the meshes do not close.
    """
    distances = mesh_distances(spec.paths.idler, spec.housing.centre_distance)
    along, aside = mesh.idler_place.formula(
        spec.housing.centre_distance, distances[0], sum(distances[1:])
    )
    side = 1.0 if spec.housing.idler_side == "above" else -1.0
    return float(along), side * float(aside), distances


def idler_forces(machine: LoadedMachine, side: float | None = None) -> Array:
    """Force on the idler's pin in N over the states, by vector sum of both tooth forces.

    Parameters
    ----------
    machine : LoadedMachine
    side : float, optional
        1 for above the line of the shafts and -1 for below; the design's own, if not given.

    Returns
    -------
    numpy.ndarray
        Both meshes carry the same tangential force; which way it points turns with the motor.
    """
    spec = machine.spec
    path = spec.paths.idler
    x, y, _ = idler_centre(spec)
    y = abs(y) * (side if side is not None else np.sign(y))
    first = np.array([-x, -y])
    second = np.array([spec.housing.centre_distance - x, -y])
    total = np.zeros((len(machine.load_cases), 2))
    force = spurgear.tooth_force.formula(
        machine.power_flow.torque_into_gear_path, path.module * path.tooth_counts[0]
    )
    force = force * (machine.load_cases.clutch == "idler")
    for number, (towards, angle) in enumerate(zip((first, second), idler_leans(spec), strict=True)):
        line = towards / np.hypot(*towards)
        across = np.array([-line[1], line[0]])
        # seen from the idler, a driver turning forward moves against "across" where they touch and
        # takes the idler along; the driven gear holds it back
        way = -machine.load_cases.direction if number == 0 else machine.load_cases.direction
        lean = np.radians(angle)
        total += force[:, None] * (np.outer(way * np.cos(lean), across) - np.sin(lean) * line)
    return np.hypot(total[:, 0], total[:, 1])


def reaching(spec: Spec) -> list[Change]:
    """Gears with which an idler that has no place may find one."""
    path, apart = spec.paths.idler, spec.housing.centre_distance
    first, middle, last = path.tooth_counts
    span = sum(mesh_distances(path, apart))
    lacking = 1.02 * apart - span if np.isfinite(span) else path.module
    more = max(int(np.ceil(lacking / path.module)), 1)
    # where the meshes span enough, they are too unlike: the ends are made alike
    mean = round((first + last) / 2)
    alike: list[Change] = (
        [{"paths.idler.tooth_counts": [mean, middle, mean]}] if lacking <= 0 else []
    )
    return [
        *alike,
        {"paths.idler.tooth_counts": [first, middle + more, last]},
        {"paths.idler.tooth_counts": [first + more, middle, last + more]},
        {"paths.idler.profile_shift_coefficients": []},
    ]


def idler(machine: LoadedMachine) -> list[Check]:
    """Check where the idler stands, its pin and what pushes it."""
    spec = machine.spec
    x, y, distances = idler_centre(spec)
    names = (
        "idler clears shafts and hubs",
        "idler's pin clears the direct pair",
        "idler stays inside the case",
        "idler's pin does not yield in a jam",
    )
    path, direct, gap = spec.paths.idler, spec.paths.direct, spec.safety.tip_clearance
    first, middle, last = path.tooth_counts
    if not np.isfinite(y):
        say = [
            show(one, "mm", machine.system)
            for one in (sum(distances), spec.housing.centre_distance)
        ]
        why = f"the idler has no place: its meshes span {say[0]} where the shafts stand {say[1]} apart"
        return [
            replace(
                make_unjudged(machine, "gears", "idler", one, why), fixes=lambda: reaching(spec)
            )
            for one in names
        ]
    tip = float(spurgear.tip_diameter.formula(path.module, middle, shifts_of(path)[1])) / 2
    pin = spec.housing.idler_pin
    force = idler_forces(machine)
    moment = np.asarray(shaft.span_moment.formula(force, path.position, spec.housing.plate_spacing))
    stress = np.asarray(shaft.bending_stress.formula(moment, pin))
    steel = table("materials").find(spec.shaft_1.material).values
    strength = steel["yield_strength"]
    in_jam = spec.safety.shaft_in_jam
    other = (
        np.asarray(
            spurgear.tip_diameter.formula(
                direct.module, np.array(direct.tooth_counts), np.array(shifts_of(direct))
            )
        )
        / 2
    )
    second = float(np.hypot(spec.housing.centre_distance - x, y))
    to_pin = min(distances[0] - other[0], second - other[-1]) - pin / 2
    hub = spec.housing.hub_diameter
    to_shaft = (
        min(
            distances[0] - max(spec.shaft_1.diameter, hub) / 2,
            second - max(spec.shaft_2.diameter, hub) / 2,
        )
        - tip
    )

    def smaller_idlers() -> list[Change]:
        for count in range(middle - 1, FEWEST - 1, -1):
            reach = [path.module * (end + count) / 2 for end in (first, last)]
            _, aside = mesh.idler_place.formula(spec.housing.centre_distance, *reach)
            if aside + path.module * (count + 2) / 2 + gap <= spec.housing.wall_distance:
                return [{"paths.idler.tooth_counts": [first, count, last]}]
        return []

    def thicker(i: int) -> list[Change]:
        over = float(stress[i] * in_jam / strength)
        return [
            {"housing.idler_pin": pin * float(np.cbrt(over))},
            *calmer(machine, i, over),
            *stronger(
                ("shaft_1.material",),
                spec.shaft_1.material,
                "materials",
                ("yield_strength",),
                over,
            ),
            "housing.plate_spacing",
        ]

    # the idler's own size adds as much to its tip as to its distance: only hubs and shaft gears tell
    lacking = gap - float(to_shaft)
    more = int(np.ceil(2 * lacking / path.module))
    apart = int(np.ceil(2 * (gap - float(to_pin)) / path.module))
    return [
        make_check(
            machine,
            "gears",
            "idler",
            names[0],
            demand=gap,
            capacity=float(to_shaft),
            unit="mm",
            working=lambda i: [
                by_method(
                    "s",
                    "distance of the idler from both shafts, less its tip radius and that of shaft or hub; the lesser",
                    float(to_shaft),
                    "mm",
                    r_a=(tip, "mm", "tip radius of the idler"),
                )
            ],
            source="geometry",
            reason=lambda i, say: f"tip radius {say(tip, 'mm')}, mesh {say(distances[0], 'mm')}",
            fix=lambda i: [
                {"housing.hub_diameter": hub - 2 * lacking},
                {"paths.idler.tooth_counts": [first + more, middle, last + more]},
                *coarser(machine, "idler", path),
                "shaft_1.diameter",
                "shaft_2.diameter",
            ],
        ),
        make_check(
            machine,
            "gears",
            "idler",
            names[1],
            demand=gap,
            capacity=float(to_pin),
            unit="mm",
            working=lambda i: [
                by_method(
                    "s",
                    "distance of the pin from both gears of the direct pair, less tip radius and half the pin; the lesser",
                    float(to_pin),
                    "mm",
                    d=(pin, "mm", "housing.idler_pin"),
                )
            ],
            source="the pin passes the plane of the other path: geometry",
            reason=lambda i, say: (
                f"pin {say(pin, 'mm')}, direct gears' tip radii {say(other[0], 'mm')} and {say(other[-1], 'mm')}"
            ),
            fix=lambda i: [
                {"paths.idler.tooth_counts": [first, middle + apart, last]},
                {"housing.idler_pin": pin - 2 * (gap - float(to_pin))},
                *finer(machine, "direct", direct),
                *coarser(machine, "idler", path),
            ],
        ),
        make_check(
            machine,
            "gears",
            "idler",
            names[2],
            demand=abs(y) + tip + gap,
            capacity=spec.housing.wall_distance,
            unit="mm",
            working=lambda i: [
                worked(
                    "h = y + r_a + s",
                    abs(y) + tip + gap,
                    "mm",
                    y=(abs(y), "mm", "place of the idler off the shafts' line"),
                    r_a=(tip, "mm", "tip radius of the idler"),
                    s=(gap, "mm", "safety.tip_clearance"),
                )
            ],
            source="geometry",
            reason=lambda i, say: (
                f"idler {say(abs(y), 'mm')} {spec.housing.idler_side} the shafts' line, tip radius {say(tip, 'mm')}"
            ),
            fix=lambda i: [{"housing.wall_distance": float(abs(y) + tip + gap)}, *smaller_idlers()],
        ),
        make_check(
            machine,
            "gears",
            "idler",
            names[3],
            where=machine.load_cases.jammed,
            demand=stress,
            capacity=strength,
            unit="MPa",
            safety=in_jam,
            working=lambda i: [
                by_method(
                    "M",
                    "vector sum of both tooth forces on a pin held at both plates",
                    float(moment[i]),
                    "N*m",
                    F=(float(force[i]), "N", "tooth forces on the idler"),
                ),
                worked(
                    "sigma = 32*M/(pi*d**3)",
                    float(stress[i]),
                    "MPa",
                    M=(float(moment[i]), "N*m", "above"),
                    d=(pin, "mm", "housing.idler_pin"),
                ),
            ],
            source="vector sum of both tooth forces; Shigley 10th ed., eq. 3-26",
            rung=(1.0, steel["tensile_strength"] / strength),
            reason=lambda i, say: (
                f"{say(force[i], 'N')} on the pin, M = {say(moment[i], 'N*m')}, steel of shaft 1"
            ),
            fix=thicker,
        ),
    ]
