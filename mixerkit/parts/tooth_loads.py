"""The teeth of a path that are worst off, and what they carry."""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache
from math import pi

import numpy as np

from mixerkit.frozen import frozen
from mixerkit.parts import (
    film,
    lewis,
    spurgear,
    tooth_lives,
    toothstrength,
)
from mixerkit.parts.face_spread import Spread, elastic_of, metals, spread
from mixerkit.parts.gear_pairs import Pair
from mixerkit.parts.mesh_lean import leans
from mixerkit.parts.shaftline import ShaftBeam
from mixerkit.parts.toothed import Toothed
from mixerkit.results import Array, Flags, LoadedMachine, TableRow
from mixerkit.spec import GearPath
from mixerkit.tables import table

__all__ = ["Flank", "LoadedTeeth", "Root", "life_cycles", "pitch_speed"]

# most knobs leave a mesh as it is, and what a newton does to it
_stresses = lru_cache(maxsize=512)(lambda *given: frozen(toothstrength.mesh_stresses(*given)))
_roots = lru_cache(maxsize=512)(lambda *given: frozen(toothstrength.root_factors(*given)))


def life_cycles(machine: LoadedMachine) -> float:
    """Loads on one tooth over the machine's life, one a turn."""
    return machine.running_speed * 60 * machine.spec.batch.life_hours


def pitch_speed(machine: LoadedMachine, path: GearPath) -> float:
    """Speed of the pitch line in m/s while mixing."""
    return pi * path.module * path.tooth_counts[0] * machine.running_speed / 60e3


@dataclass(frozen=True)
class Root:
    """A gear whose teeth bend, ``side`` of ``pair``, the path's mesh ``at``.

    ``stress`` for a newton in MPa, evenly along the face, ``steel`` the row of its gear material, ``notch`` its Y_S, ``cycles``
    the loads of the machine's life.
    """

    stress: float
    steel: TableRow
    pair: Pair
    at: int
    side: int
    notch: float
    cycles: float

    @property
    def teeth(self) -> int:
        """Tooth count of the gear."""
        return self.pair.counts[self.side]

    @property
    def metal(self) -> TableRow:
        """What its metal carries: its row of data/tables/materials.csv."""
        return table("materials").find(self.steel["name"]).values

    @property
    def brittle(self) -> bool:
        """Whether it breaks without yielding."""
        return bool(self.steel["family"] == "cast iron")

    @property
    def carried(self) -> float:
        """Root stress in MPa that its metal carries at all."""
        metal = self.metal
        return float(
            tooth_lives.carried(
                metal["yield_strength"],
                metal["tensile_strength"],
                self.notch,
                brittle=self.brittle,
            )
        )

    @property
    def lasting(self) -> float:
        """Root stress in MPa that it bears both ways over the machine's life."""
        return min(float(tooth_lives.lasting_root(self.steel, self.cycles)), self.carried)

    @property
    def static_factor(self) -> float:
        """Y_NT of its metal for a few loads."""
        return float(tooth_lives.life_factors(0.0, self.steel["life"])[0])

    @property
    def once(self) -> float:
        """Root stress in MPa that it bears a few times."""
        test_gear = float(self.steel["bending_limit"] * tooth_lives.STRESSING)
        return min(test_gear * self.static_factor, self.carried)


@dataclass(frozen=True)
class Flank:
    """The mesh ``at`` whose flanks press the most.

    ``stress`` for a newton in MPa, evenly along the face; ``steel`` the row of the gear material that bears less over ``cycles``
    loads, ``elastic`` see :func:`mixerkit.parts.toothcontact.elastic_factor`, ``radius`` of relative
    curvature in mm, ``film`` its Z_L, Z_v and Z_R.
    """

    stress: float
    steel: TableRow
    pair: Pair
    at: int
    elastic: float
    cycles: float
    radius: float
    film: tuple[float, float, float]

    @property
    def life(self) -> float:
        """Z_NT of the metal for the loads of the machine's life."""
        return float(tooth_lives.life_factors(self.cycles, self.steel["life"])[1])

    @property
    def lasting_loads(self) -> float:
        """Loads at which that is 1."""
        return float(table("gear_lives").find(self.steel["life"]).values["contact_loads"])

    @property
    def share(self) -> float:
        """Power to which lubricant, speed and roughness count over the machine's life."""
        return float(film.film_share(self.cycles, self.lasting_loads))

    @property
    def static_factor(self) -> float:
        """Z_NT of the metal for a few loads."""
        return float(tooth_lives.life_factors(0.0, self.steel["life"])[1])

    @property
    def once(self) -> float:
        """Contact stress in MPa that the flanks bear a few times, whatever is between them."""
        return float(tooth_lives.lasting_contact(self.steel, 0.0, 1.0))

    @property
    def lasting(self) -> float:
        """Contact stress in MPa that the flanks bear over the machine's life."""
        return float(
            tooth_lives.lasting_contact(self.steel, self.cycles, float(np.prod(self.film)))
        )


def _share(stress: float, limit: float) -> float:
    """Stress over limit; what cannot be worked out governs all that can."""
    return np.inf if np.isnan(stress) else stress / limit


def _flank(of: Toothed, pressed: float, steel: TableRow, at: int, elastic: float) -> Flank:
    """The flanks of a mesh, with what is between them."""
    machine, path, one = of.machine, of.path, of.meshes[at]
    first, second = (
        float(spurgear.base_diameter.formula(path.module, count)) for count in one.counts
    )
    radius = float(film.reduced_radius(first, second, one.working))
    between = film.film_factors(
        steel["contact_limit"],
        machine.spec.housing.lubricant_viscosity,
        pitch_speed(machine, path),
        path.flank_roughness,
        radius,
    )
    factors = (float(between[0]), float(between[1]), float(between[2]))
    return Flank(pressed, steel, one, at, elastic, life_cycles(machine), radius, factors)


def _worst(
    of: Toothed, loads: list[float], jams: list[float], dents: list[float]
) -> tuple[Root, Root, Flank, Flank]:
    """Find the teeth that bend, and the flanks that press, the most over the life and in a jam.

    The others are the most force at each mesh times what its face does to it: while mixing, and in a jam what bends
    and what presses.
    """
    path, cycles, steels = of.path, life_cycles(of.machine), metals(of)
    roots, flanks, jammed = [], [], []
    for k, one in enumerate(of.meshes):
        pair = steels[k : k + 2]
        elastic = elastic_of(pair)
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
        for side, (stress, steel) in enumerate(zip(bent, pair, strict=True)):
            notch = _roots(path.module, *one.seen_from(side), one.distance, path.thinning)[1]
            roots.append(Root(float(stress), steel, one, k, side, float(notch), cycles))
        both = [_flank(of, float(pressed), steel, k, elastic) for steel in pair]
        flanks.append(min(both, key=lambda flank: flank.lasting))
        jammed.append(min(both, key=lambda flank: flank.once))
    return (
        max(roots, key=lambda root: _share(root.stress * loads[root.at], root.lasting)),
        max(roots, key=lambda root: _share(root.stress * jams[root.at], root.once)),
        max(flanks, key=lambda flank: _share(flank.stress * loads[flank.at] ** 0.5, flank.lasting)),
        max(jammed, key=lambda flank: _share(flank.stress * dents[flank.at] ** 0.5, flank.once)),
    )


@dataclass(frozen=True)
class LoadedTeeth:
    """The worst teeth of a path under the forces of all load cases.

    Attributes
    ----------
    of : Toothed
    root, jammed : Root
        That bend the most for what they bear over the life, and in a jam.
    flank, pressed : Flank
        That press the most for what they bear over the life, and in a jam.
    here : array of bool
        Load cases whose torque goes through this path.
    spreads : tuple of Spread
        How unevenly the face of each mesh carries.
    force : array
        Along the pitch circles in N; the same in every mesh but for losses.
    faster : float
        Barth's speed factor over that of walking pace, which the load factors hold; 1 at least.
    """

    of: Toothed
    root: Root
    jammed: Root
    flank: Flank
    pressed: Flank
    here: Flags
    spreads: tuple[Spread, ...]
    force: Array
    faster: float

    @classmethod
    def of_path(cls, of: Toothed, beams: tuple[ShaftBeam, ShaftBeam]) -> LoadedTeeth:
        """Find the worst teeth and put the machine's torque on them."""
        machine, path, cases = of.machine, of.path, of.machine.load_cases
        here = cases.clutch == of.name
        radius = path.module * of.counts[0] / 2
        force = 1e3 * machine.power_flow.torque_into_gear_path / radius * here
        barth = float(lewis.velocity_factor.formula(pitch_speed(machine, path)))
        faster = max(barth / toothstrength.HAND_CUT.dynamic, 1.0)
        shock = toothstrength.HAND_CUT.application
        # a jam's force has the shock in it already
        carried = force * np.where(cases.jammed, 1.0, shock * faster)
        spreads = tuple(
            spread(of, k, lean, carried) for k, lean in enumerate(leans(beams, of.name))
        )
        each = [(one.factor, one.before) for one in spreads]
        loads, jams, dents = (
            [max(float((carried * factors[kind])[where].max()), 1e-9) for factors in each]
            for kind, where in ((0, cases.mixing), (0, cases.jammed), (1, cases.jammed))
        )
        return cls(of, *_worst(of, loads, jams, dents), here, spreads, force, faster)

    def leans(self, at: int, i: int) -> bool:
        """Whether a mesh leans so far in a load case that it counts."""
        return bool(self.spreads[at].factor[i] > toothstrength.HAND_CUT.along)

    @property
    def mixing(self) -> Array:
        """Force in N with what speed adds while mixing."""
        return self.force * self.faster

    @property
    def jam(self) -> Array:
        """Force in N of a jam, which is itself the shock that the load factors expect."""
        return self.force / toothstrength.HAND_CUT.application
