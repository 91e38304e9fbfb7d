"""The teeth of a path that are worst off, and what they carry."""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache
from math import pi

import numpy as np

from mixerkit.frozen import frozen
from mixerkit.parts import lewis, toothcontact, toothstrength
from mixerkit.parts.gear_pairs import Pair
from mixerkit.parts.toothed import Toothed
from mixerkit.results import Array, Flags, LoadedMachine
from mixerkit.spec import GearPath
from mixerkit.tables import table

__all__ = ["Flank", "LoadedTeeth", "Root", "life_cycles", "pitch_speed"]

# most knobs leave a mesh as it is, and what a newton does to it
_stresses = lru_cache(maxsize=512)(lambda *given: frozen(toothstrength.mesh_stresses(*given)))


def life_cycles(machine: LoadedMachine) -> float:
    """Loads on one tooth over the machine's life, one a turn."""
    return machine.running_speed * 60 * machine.spec.batch.life_hours


def pitch_speed(machine: LoadedMachine, path: GearPath) -> float:
    """Speed of the pitch line in m/s while mixing."""
    return pi * path.module * path.tooth_counts[0] * machine.running_speed / 60e3


@dataclass(frozen=True)
class Root:
    """The gear whose teeth bend the most, ``side`` of ``pair``.

    ``stress`` for a newton and its ``limit`` for a test gear, both in MPa; ``steel`` as its table names it.
    """

    stress: float
    limit: float
    steel: str
    pair: Pair
    side: int

    @property
    def teeth(self) -> int:
        """Tooth count of the gear."""
        return self.pair.counts[self.side]


@dataclass(frozen=True)
class Flank:
    """The mesh whose flanks press the most.

    ``stress`` for a newton and the lesser ``limit`` in MPa; ``steel`` that of the limit, ``elastic`` see
    :func:`mixerkit.parts.toothcontact.elastic_factor`.
    """

    stress: float
    limit: float
    steel: str
    pair: Pair
    elastic: float


def _share(one: Root | Flank) -> float:
    """Stress over limit; what cannot be worked out governs all that can."""
    return np.inf if np.isnan(one.stress) else one.stress / one.limit


def _worst(of: Toothed) -> tuple[Root, Flank]:
    """Find the teeth that bend the most, and the flanks that press the most."""
    path, last = of.path, len(of.counts) - 1
    ends, between = (
        table("gear_materials").find(one).values for one in (path.material, path.idler_material)
    )
    steels = [between if 0 < place < last else ends for place in range(last + 1)]
    roots, flanks = [], []
    for k, one in enumerate(of.meshes):
        pair = steels[k : k + 2]
        elastic = float(toothcontact.elastic_factor(*(steel["elastic_modulus"] for steel in pair)))
        bent, pressed = _stresses(
            path.module,
            one.counts,
            one.shifts,
            tuple(one.tips),
            one.distance,
            one.ratio,
            path.face_width,
            elastic,
            path.thinning,
        )
        roots += [
            Root(float(stress), steel["bending_limit"], steel["name"], one, side)
            for side, (stress, steel) in enumerate(zip(bent, pair, strict=True))
        ]
        softer = min(pair, key=lambda steel: steel["contact_limit"])
        flanks.append(Flank(float(pressed), softer["contact_limit"], softer["name"], one, elastic))
    return max(roots, key=_share), max(flanks, key=_share)


@dataclass(frozen=True)
class LoadedTeeth:
    """The worst teeth of a path under the forces of all load cases.

    Attributes
    ----------
    of : Toothed
    root : Root
    flank : Flank
    here : array of bool
        Load cases whose torque goes through this path.
    force : array
        Along the pitch circles in N; the same in every mesh but for losses.
    faster : float
        Barth's speed factor over that of walking pace, which the load factors hold; 1 at least.
    """

    of: Toothed
    root: Root
    flank: Flank
    here: Flags
    force: Array
    faster: float

    @classmethod
    def of_path(cls, of: Toothed) -> LoadedTeeth:
        """Find the worst teeth and put the machine's torque on them."""
        machine, path = of.machine, of.path
        here = machine.load_cases.clutch == of.name
        radius = path.module * of.counts[0] / 2
        force = 1e3 * machine.power_flow.torque_into_gear_path / radius * here
        barth = float(lewis.velocity_factor.formula(pitch_speed(machine, path)))
        return cls(of, *_worst(of), here, force, max(barth / toothstrength.HAND_CUT.dynamic, 1.0))

    @property
    def mixing(self) -> Array:
        """Force in N with what speed adds while mixing."""
        return self.force * self.faster

    @property
    def jam(self) -> Array:
        """Force in N of a jam, which is itself the shock that the load factors expect."""
        return self.force / toothstrength.HAND_CUT.application
