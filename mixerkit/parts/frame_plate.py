"""The plate or wall that takes the push along the shafts: its cuts, its stress, how far its bores tilt."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from mixerkit.parts.frame_layout import EDGE, bore, hole_factor, plate_size, tie_spans
from mixerkit.parts.worked import WorkedMachine
from mixerkit.results import Numbers, TableRow
from mixerkit.spec import Spec
from mixerkit.tables import table

__all__ = ["PushedPlate"]


@dataclass(frozen=True)
class PushedPlate:
    """The plate or wall that takes the push along the shafts, and its sizes in mm.

    A gear plate hangs on its four tie bolts alone, the feet not counted: across each cut through a bore
    the bending moment then follows from statics. The far wall stands on its feet as a cantilever.
    """

    spec: Spec
    far: bool
    thickness: float
    material: str
    width: float
    height: float
    bores: tuple[float, float]

    @classmethod
    def of(cls, machine: WorkedMachine) -> PushedPlate:
        """Find it by the bearing that locates the shafts."""
        spec = machine.spec
        place = spec.bearings.locating - 1
        far = place == 2
        one, two = (bore(line, place) for line in machine.shaft_beams)
        return cls(
            spec,
            far,
            spec.frame.wall_thickness if far else spec.housing.plate_thickness,
            spec.frame.wall_material if far else spec.housing.plate_material,
            *plate_size(spec),
            (one, two),
        )

    @property
    def part(self) -> str:
        """What its checks are of."""
        return "far wall" if self.far else "plates"

    @property
    def field(self) -> str:
        """Its thickness."""
        return "frame.wall_thickness" if self.far else "housing.plate_thickness"

    @property
    def steel(self) -> TableRow:
        """Row of its material."""
        return table("materials").find(self.material).values

    @property
    def level(self) -> float:
        """Metal left on the level cut through both bores."""
        return self.width - sum(self.bores)

    @property
    def upright(self) -> float:
        """Metal left on an upright cut through the larger bore."""
        return self.height - max(self.bores)

    @property
    def lever(self) -> float:
        """From the tie bolts to the nearer shaft."""
        return self.spec.housing.wall_distance - EDGE

    @property
    def possible(self) -> bool:
        """Whether bores and bolts leave a plate at all."""
        return min(self.level, self.upright, self.lever, tie_spans(self.spec)[1]) > 0

    def moments(self, one: Numbers, two: Numbers) -> tuple[Numbers, Numbers]:
        """Bending moment in N*mm over the level cut, and over an upright one."""
        if self.far:
            return (one + two) * self.spec.frame.shaft_height, 0.0 * one
        across, up = tie_spans(self.spec)
        near, far = self.lever, across - self.lever
        most, least = np.maximum(one, two), np.minimum(one, two)
        return (one + two) * up / 4, near * (most * far + least * near) / across

    def stresses(self, one: Numbers, two: Numbers) -> tuple[Numbers, Numbers]:
        """Stress in MPa beside the bores on both cuts."""
        level, upright = self.moments(one, two)
        factor = hole_factor.formula(min(self.bores), self.thickness)
        per = 6 * factor / self.thickness**2
        return per * level / self.level, per * upright / self.upright

    def needed(self, over: float) -> float:
        """Thickness that bears so many times the stress: in thicker plate a hole raises it more."""
        if not 0 < over < np.inf:
            return self.thickness
        small, thick = min(self.bores), self.thickness
        now = float(hole_factor.formula(small, thick))
        for _ in range(20):
            factor = float(hole_factor.formula(small, thick)) / now
            thick = self.thickness * float(np.sqrt(over * factor))
        return thick

    def tilt(self, push: float) -> float:
        """Tilt in rad of a bore that the same push on both shafts makes."""
        stiff = 1e3 * float(self.steel["elastic_modulus"]) * self.thickness**3 / 12
        if self.far:
            return 2 * push * self.spec.frame.shaft_height**2 / (2 * stiff * self.level)
        apart = self.spec.housing.centre_distance
        return push * self.lever * apart / (2 * stiff * self.upright)
