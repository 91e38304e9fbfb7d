"""The idler: where it stands, what pushes it, and with which gears it finds a place."""

from __future__ import annotations

import numpy as np

from mixerkit.checks import Change
from mixerkit.parts import mesh, spurgear
from mixerkit.parts.gear_pairs import mesh_distances, pairs
from mixerkit.results import Array, LoadedMachine
from mixerkit.spec import Spec

__all__ = [
    "END_PLAY",
    "PIN_SPACER",
    "WASHER",
    "idler_centre",
    "idler_forces",
    "idler_leans",
    "idler_long",
    "idler_room",
    "reaching",
]

END_PLAY = 0.3
"""Of the idler between its thrust washers, in mm (common practice)."""
WASHER = 1.5
"""Thickness of a thrust washer in mm (common practice)."""
PIN_SPACER = 2.0
"""Wall of the tubes on the idler's pin that keep it in its place, in mm (common practice)."""


def idler_long(spec: Spec) -> float:
    """Length in mm along its pin of the idler or its bush, the longer of both."""
    return max(spec.paths.idler.face_width, spec.bearings.idler_length)


def idler_room(spec: Spec) -> tuple[float, float]:
    """Room in mm for a spacer on either side of the idler and its washers, below nought where there is none."""
    half = idler_long(spec) / 2 + WASHER
    at, apart = spec.paths.idler.position, spec.housing.plate_spacing
    # the play is left at the plate beside the trough
    return at - half, apart - at - half - END_PLAY


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
