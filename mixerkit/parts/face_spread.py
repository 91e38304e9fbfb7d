"""How unevenly the face of each mesh of a path carries, by how its gears lean."""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache

import numpy as np

from mixerkit.parts import face_load, toothcontact
from mixerkit.parts.mesh_lean import Lean
from mixerkit.parts.toothed import Toothed
from mixerkit.parts.toothstrength import HAND_CUT
from mixerkit.results import Array, Numbers, TableRow
from mixerkit.tables import table

__all__ = ["Spread", "elastic_of", "metals", "run_in", "spread"]

# most knobs leave a mesh as it is
_stiffness = lru_cache(maxsize=512)(lambda *given: float(face_load.mesh_stiffness(*given)))


def metals(of: Toothed) -> list[TableRow]:
    """Gear material of each gear of a path."""
    path, last = of.path, len(of.counts) - 1
    ends, between = (
        table("gear_materials").find(one).values for one in (path.material, path.idler_material)
    )
    return [between if 0 < place < last else ends for place in range(last + 1)]


def elastic_of(pair: list[TableRow]) -> float:
    """Z_E of two metals."""
    return float(toothcontact.elastic_factor(*(steel["elastic_modulus"] for steel in pair)))


@dataclass(frozen=True)
class Spread:
    """How unevenly the face of one mesh carries in each load case.

    Attributes
    ----------
    lean : Lean
    run_in : float or array
        Share of the misalignment that both flanks take off while they run in; none in a jam, which may be the first.
    misaligned, standing : array, float
        By how much the flanks part at one end in um: as run in, in a jam as cut; and of bearings off their line alone.
    stiffness : array
        Of the mesh against a lean in GPa.
    load : array
        Along the pitch circle in N, with K_A and K_v.
    factor : array
        K_H-beta, which bounds K_F-beta; that of a hand-cut gear at least.
    before : array
        The same of bearings off their line alone: what a jam dents as the flanks stood before it. What the jam
        itself bends presses the ends of the teeth until they yield, and then the rest carries.
    """

    lean: Lean
    run_in: Numbers
    misaligned: Array
    standing: float
    stiffness: Array
    load: Array
    factor: Array
    before: Array

    @classmethod
    def of(
        cls, lean: Lean, wide: float, run_in: Numbers, stiffness: Numbers, force: Array
    ) -> Spread:
        """Work it out for a force in N with K_A in it, of a mesh so stiff in GPa, ``wide`` in mm."""
        apart = face_load.misalignment.formula(lean.bent, lean.off_line, wide, run_in)
        standing = face_load.misalignment.formula(0.0, lean.off_line, wide)
        stiff = np.asarray(stiffness * face_load.softer(force / wide))
        load = force * HAND_CUT.dynamic
        # where nothing is carried nothing is shared
        some = np.maximum(load, 1e-9)
        factor, before = (
            np.asarray(face_load.face_load_factor.formula(by, some, wide, stiff, HAND_CUT.along))
            for by in (apart, standing)
        )
        return cls(lean, run_in, np.asarray(apart), float(standing), stiff, load, factor, before)


def spread(of: Toothed, at: int, lean: Lean, force: Array) -> Spread:
    """How unevenly a mesh carries.

    Parameters
    ----------
    of : Toothed
    at : int
        Which of the path's meshes.
    lean : Lean
        Of its gears.
    force : array
        Along the pitch circles in N over the load cases, with K_A.

    Returns
    -------
    Spread
    """
    one, pair = of.meshes[at], metals(of)[at : at + 2]
    stiffness = _stiffness(one.counts, one.shifts, one.ratio, elastic_of(pair))
    left = np.where(of.machine.load_cases.jammed, 0.0, run_in(*pair))
    return Spread.of(lean, of.path.face_width, left, stiffness, force)


def run_in(one: TableRow, other: TableRow) -> float:
    """Share of a misalignment that two metals take off while they run in: the mean of both."""
    first, second = (
        float(face_load.run_in(steel["contact_limit"], steel["family"])) for steel in (one, other)
    )
    return (first + second) / 2
