"""A path's gears as its checks see them, with what may mend them."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace

import numpy as np

from mixerkit.checking import make_unjudged
from mixerkit.checks import Change, Check
from mixerkit.parts import mesh, undercut
from mixerkit.parts.gear_pairs import Pair, ideal_sum, one_word, pairs, shifts_of
from mixerkit.parts.remedies import resized
from mixerkit.results import LoadedMachine
from mixerkit.spec import GearPath
from mixerkit.units import show

__all__ = ["Toothed"]


@dataclass(frozen=True)
class Toothed:
    """One gear path of a machine, or one that might take its place.

    Attributes
    ----------
    machine : LoadedMachine
    name : str
        ``"direct"`` or ``"idler"``.
    path : GearPath
    meshes : tuple of Pair
        See :func:`mixerkit.parts.gear_pairs.pairs`.
    """

    machine: LoadedMachine
    name: str
    path: GearPath
    meshes: tuple[Pair, ...]

    @classmethod
    def of(cls, machine: LoadedMachine, name: str) -> Toothed:
        """Take the design's own path of a name."""
        path = getattr(machine.spec.paths, name)
        return cls(machine, name, path, tuple(pairs(path, machine.spec.housing.centre_distance)))

    @property
    def part(self) -> str:
        """What its checks are of."""
        return f"{self.name} path"

    @property
    def apart(self) -> float:
        """Distance of the shafts in mm."""
        return self.machine.spec.housing.centre_distance

    @property
    def shifts(self) -> tuple[float, ...]:
        """Profile shift of each gear."""
        return shifts_of(self.path)

    @property
    def counts(self) -> tuple[int, ...]:
        """Tooth count of each gear."""
        return self.path.tooth_counts

    def field(self, name: str) -> str:
        """Dotted name of one of its fields."""
        return f"paths.{self.name}.{name}"

    def unjudged(
        self, names: Sequence[str], why: str, fixes: Callable[[], Sequence[Change]]
    ) -> list[Check]:
        """Make the failing checks of what cannot be worked out."""
        return [
            replace(make_unjudged(self.machine, "gears", self.part, one, why), fixes=fixes)
            for one in names
        ]

    def too_near(self, *names: str) -> list[Check]:
        """Make the failing checks of a path with a pair that has no place to mesh; none if all have one."""
        near = [one for one in self.meshes if not np.isfinite(one.working)]
        if not near:
            return []
        at = show(near[0].distance, "mm", self.machine.system)
        why = (
            f"gears of {one_word(near[0])} cannot mesh as near as {at}: their base circles overlap"
        )
        return self.unjudged(names, why, self.closed)

    def shifted(self, place: int, shift: float) -> list[Change]:
        """Another profile shift for one gear, its mate's so that a pair keeps its distance."""
        field, shifts = self.field("profile_shift_coefficients"), list(self.shifts)
        shifts[place] = shift
        alone: list[Change] = [{field: list(shifts)}]
        if len(shifts) > 2:
            # gears of a train are often short of teeth together
            needed = np.ceil(1000 * undercut.least_shift(np.array(self.counts))) / 1000
            return [*alone, {field: [float(one) for one in np.maximum(needed, shifts)]}]
        first, second = self.counts
        total = float(mesh.shift_sum.formula(self.path.module, first, second, self.apart))
        if not np.isfinite(total):
            return alone
        shifts[1 - place] = round(total - shift, 4)
        return [{field: shifts}, *alone]

    def closed(self) -> list[Change]:
        """What closes a pair on its shafts, or takes the shifts of a train off."""
        field, path = self.field("profile_shift_coefficients"), self.path
        if len(self.counts) > 2:
            return [{field: []}] if any(self.shifts) else []
        one, found = self.meshes[0], []
        first, second = self.counts
        total = ideal_sum(path, one)
        if np.isfinite(total):
            half = round(total / 2, 4)
            found.append({field: [half, round(total - half, 4)]})
        closes = float(
            mesh.mesh_centre_distance.formula(path.module, first, second, sum(one.shifts))
        )
        plain = path.module * sum(self.counts) / 2
        teeth = round(2 * one.distance / path.module)
        share = round(teeth * first / (first + second))
        return [
            *found,
            {self.field("tooth_counts"): [share, teeth - share], field: []},
            *([{"housing.centre_distance": closes}] if np.isfinite(closes) else []),
            {field: [], "housing.centre_distance": plain},
        ]

    def _resized(self) -> list[tuple[float, Change]]:
        return resized(self.name, self.path, self.apart, self.machine.system)

    def finer(self) -> list[Change]:
        """More teeth of a smaller module on the same distance, the nearest three."""
        return [change for module, change in self._resized() if module < self.path.module][:3]

    def coarser(self) -> list[Change]:
        """Fewer teeth of a larger module on the same distance, the nearest two."""
        return [change for module, change in self._resized() if module > self.path.module][:2]
