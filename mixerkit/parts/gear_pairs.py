"""The pairs of wheels that mesh in a path, as they stand on the design's centres."""

from __future__ import annotations

from functools import lru_cache

from mixerkit.frozen import result
from mixerkit.parts import (
    mesh,
    spurgear,
)
from mixerkit.spec import GearPath

__all__ = ["Pair", "ideal_sum", "mesh_distances", "one_word", "pairs", "shifts_of"]


def shifts_of(path: GearPath) -> tuple[float, ...]:
    """Profile shift of each gear of a path, none where the design names none."""
    return path.profile_shift_coefficients or (0.0,) * len(path.tooth_counts)


def mesh_distances(path: GearPath, apart: float) -> list[float]:
    """Centre distances in mm of a path's meshes.

    A direct pair works on the distance of the shafts; an idler is put where its own meshes close.
    """
    if len(path.tooth_counts) == 2:
        return [apart]
    return list(_closing(path.module, tuple(path.tooth_counts), tuple(shifts_of(path))))


@lru_cache(maxsize=512)
def _closing(
    module: float, counts: tuple[int, ...], shifts: tuple[float, ...]
) -> tuple[float, ...]:
    """Distances on which a train's meshes close; asked for many times while one design is checked."""
    return tuple(
        float(
            mesh.mesh_centre_distance.formula(
                module, counts[k], counts[k + 1], shifts[k] + shifts[k + 1]
            )
        )
        for k in range(len(counts) - 1)
    )


@result
class Pair:
    """One mesh of a path: ``counts``, ``shifts``, ``tips`` and ``roots``, ``distance``, ``ratio`` of contact, ``play``."""

    counts: tuple[int, int]
    shifts: tuple[float, float]
    tips: tuple[float, float]
    roots: tuple[float, float]
    distance: float
    working: float
    ratio: float
    play: float

    def seen_from(
        self, side: int
    ) -> tuple[tuple[int, int], tuple[float, float], tuple[float, float]]:
        """Counts, shifts and tips of one of the gears and its mate, in this order."""
        if side == 0:
            return self.counts, self.shifts, self.tips
        return self.counts[::-1], self.shifts[::-1], self.tips[::-1]


def pairs(path: GearPath, apart: float) -> list[Pair]:
    """Geometry of each mesh of a path.

    Parameters
    ----------
    path : GearPath
        In plain numbers.
    apart : float
        Distance of the shafts in mm.

    Returns
    -------
    list of Pair
        ``working`` angle is not a number where the gears cannot come so near.
    """
    return list(
        _pairs(
            path.module,
            tuple(path.tooth_counts),
            tuple(shifts_of(path)),
            path.thinning,
            tuple(mesh_distances(path, apart)),
        )
    )


@lru_cache(maxsize=512)
def _pairs(
    module: float,
    all_counts: tuple[int, ...],
    shifts: tuple[float, ...],
    thinning: float,
    distances: tuple[float, ...],
) -> tuple[Pair, ...]:
    """Meshes of a path by what they depend on; asked for many times while one design is checked."""
    found = []
    for k, distance in enumerate(distances):
        counts, pair_shifts = (all_counts[k], all_counts[k + 1]), (shifts[k], shifts[k + 1])
        (tip_1, root_1), (tip_2, root_2) = (
            (
                float(spurgear.tip_diameter.formula(module, count, shift)),
                float(spurgear.root_diameter.formula(module, count, shift)),
            )
            for count, shift in zip(counts, pair_shifts, strict=True)
        )
        found.append(
            Pair(
                counts=counts,
                shifts=pair_shifts,
                tips=(tip_1, tip_2),
                roots=(root_1, root_2),
                distance=distance,
                working=float(mesh.working_pressure_angle.formula(module, *counts, distance)),
                ratio=float(mesh.contact_ratio.formula(module, *counts, tip_1, tip_2, distance)),
                play=float(
                    mesh.backlash.formula(module, *counts, sum(pair_shifts), distance, 2 * thinning)
                ),
            )
        )
    return tuple(found)


def ideal_sum(path: GearPath, one: Pair) -> float:
    """Sum of shifts that closes a mesh on its distance."""
    return float(mesh.shift_sum.formula(path.module, *one.counts, one.distance))


def one_word(one: Pair) -> str:
    """Name a pair by its tooth counts."""
    return f"{one.counts[0]} and {one.counts[1]} teeth"
