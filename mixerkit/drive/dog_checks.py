"""How strong the dogs of the clutch are: pressure, shear and bending, day by day and in a jam."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from mixerkit.checking import make_check, make_unjudged
from mixerkit.checks import Change, Check, Say
from mixerkit.drive import clutch_workings, dogclutch
from mixerkit.drive.fuses import weaker_fuse
from mixerkit.parts import hub
from mixerkit.parts.metals import GEARS, Metal, stronger_metals, weakest
from mixerkit.results import Array, LoadedMachine
from mixerkit.spec import Clutch
from mixerkit.working import Working

__all__ = ["checks", "clutch_torque"]

_NAMES = (
    "pressure on the dogs while mixing",
    "pressure on the dogs in a jam",
    "shear of the dogs in a jam",
    "bending of the dogs while mixing",
    "bending of the dogs in a jam",
)


def clutch_torque(machine: LoadedMachine) -> Array:
    """Torque the clutch carries over the states: that of the path on the clutch's shaft."""
    return machine.power_flow.at_gears[machine.spec.clutch.shaft]


def checks(machine: LoadedMachine) -> list[Check]:
    """Check the dogs.

    Parameters
    ----------
    machine : LoadedMachine

    Returns
    -------
    list of Check
    """
    one = machine.spec.clutch
    if 360 / one.dogs - one.angular_play <= 0:
        why = f"with {one.dogs} dogs and {one.angular_play:g} deg of play no dog is left; less play or fewer dogs are wanted"
        return [make_unjudged(machine, "clutch", "dog clutch", name, why) for name in _NAMES]
    dogs = _Dogs.of(machine)
    return [
        _pressed_daily(dogs),
        _pressed_in_a_jam(dogs),
        _sheared(dogs),
        _bent_daily(dogs),
        _bent_in_a_jam(dogs),
    ]


@dataclass(frozen=True)
class _Dogs:
    """What the dogs bear over the load cases, forces in N and stresses in MPa.

    Those of the sleeve press on those of the free gears, and both have one shape: the weaker metal
    counts, ``softest`` where it yields, ``first`` where it breaks.
    """

    machine: LoadedMachine
    one: Clutch
    softest: Metal
    first: Metal
    torque: Array
    carrying: float
    force: Array
    pressure: Array
    shear: Array
    bent: Array

    @classmethod
    def of(cls, machine: LoadedMachine) -> _Dogs:
        """Work them out."""
        one = machine.spec.clutch
        touching = (machine.spec, "clutch.material", *GEARS)
        torque = clutch_torque(machine)
        ring = (one.outer_diameter, one.inner_diameter)
        foot = (*ring, one.dogs, one.angular_play)
        carrying = hub.carrying_dogs(one.dogs, one.carrying_share)
        force = np.asarray(dogclutch.dog_force.formula(torque, *ring, carrying))
        return cls(
            machine,
            one,
            weakest(*touching),
            weakest(*touching, by="breaks"),
            torque,
            carrying,
            force,
            np.asarray(dogclutch.bearing_pressure.formula(force, *ring, one.overlap)),
            np.asarray(dogclutch.root_shear.formula(force, *foot)),
            np.asarray(dogclutch.root_bending.formula(force, *foot, one.dog_height, one.overlap)),
        )

    @property
    def yields(self) -> float:
        """Yield strength of the softest of the metals in MPa."""
        return self.softest.yields

    @property
    def breaks(self) -> float:
        """Least tensile strength of the metals in MPa."""
        return self.first.breaks

    @property
    def safety(self) -> float:
        """The maker's factor for the clutch."""
        return self.machine.spec.safety.clutch

    @property
    def rung(self) -> tuple[float, float]:
        """Stress goes as the torque; the dogs break at tensile strength."""
        return 1.0, self.softest.later

    @property
    def arm(self) -> float:
        """Height in mm of the force over a dog's root."""
        return self.one.dog_height - self.one.overlap / 2

    def shared(self, i: int, say: Say) -> str:
        """Say how the torque is shared."""
        return (
            f"{say(self.torque[i], 'N*m')} on {self.carrying:.3g} dogs of {self.one.dogs}, "
            f"{say(self.force[i], 'N')} each; {self.softest.name} gives way first"
        )

    def pressing(self, i: int) -> list[Working]:
        """Say how the pressure was got."""
        return clutch_workings.dog_pressure(
            self.machine,
            float(self.torque[i]),
            self.carrying,
            float(self.force[i]),
            float(self.pressure[i]),
        )

    def bending(self, i: int) -> list[Working]:
        """Say how the bending was got."""
        return clutch_workings.dog_bending(
            self.machine,
            float(self.torque[i]),
            self.carrying,
            float(self.force[i]),
            float(self.bent[i]),
        )

    def harder(self, over: float, by: str = "yields") -> list[Change]:
        """Metals of sleeve and gears that bear this much more."""
        return stronger_metals(self.machine.spec, "clutch.material", *GEARS, over=over, by=by)

    def wider(self, over: float) -> list[Change]:
        """Dogs that bear this much more pressure."""
        one = self.one
        return [
            {"clutch.overlap": one.overlap * over},
            # deeper dogs want a longer overlap and a sleeve that still finds its neutral
            {
                "clutch.overlap": one.overlap * over,
                "clutch.dog_height": one.overlap * over + one.dog_height - one.overlap,
                "clutch.sleeve_length": one.sleeve_length - 2 * one.overlap * (over - 1),
            },
            "clutch.dogs",
            "clutch.outer_diameter",
            "clutch.inner_diameter",
            *self.harder(over),
        ]

    def thicker(self, over: float) -> list[Change]:
        """Dogs that bear this much more bending: more dogs share the force and are thinner for it."""
        one = self.one
        fewer = max(int(one.dogs / over), 1) if 0 < over < np.inf else 1
        lower: Change = "clutch.dog_height"
        if over > 0:
            lower = {"clutch.dog_height": one.overlap / 2 + self.arm / over}
        return [
            "clutch.angular_play",
            {"clutch.dogs": fewer},
            "clutch.dogs",
            lower,
            "clutch.outer_diameter",
            "clutch.inner_diameter",
        ]

    def weaker(self, i: int, over: float) -> tuple[Change, ...]:
        """A fuse that lets this much less of the jam through."""
        return tuple(
            weaker_fuse(self.machine.spec, float(self.machine.power_flow.jam_torque[i]) / over)
        )


def _pressed_daily(dogs: _Dogs) -> Check:
    # wear, not crushing, bounds what dogs may carry day by day
    wearing = 0.25 * dogs.yields
    return make_check(
        dogs.machine,
        "clutch",
        "dog clutch",
        _NAMES[0],
        where=dogs.machine.load_cases.mixing,
        demand=dogs.pressure,
        capacity=wearing,
        unit="MPa",
        working=lambda i: [
            *dogs.pressing(i),
            clutch_workings.share_of_yield(dogs.softest, wearing),
        ],
        safety=dogs.safety,
        source="a quarter of yield of the weaker of both faces, for wear: common practice",
        reason=dogs.shared,
        fix=lambda i: [
            *dogs.wider(float(dogs.pressure[i]) * dogs.safety / wearing),
            "paddles.count",
            "paddles.width",
        ],
    )


def _pressed_in_a_jam(dogs: _Dogs) -> Check:
    def fix(i: int) -> list[Change]:
        over = float(dogs.pressure[i]) * dogs.safety / dogs.yields
        return [*dogs.wider(over), *dogs.weaker(i, over)]

    return make_check(
        dogs.machine,
        "clutch",
        "dog clutch",
        _NAMES[1],
        where=dogs.machine.load_cases.jammed,
        demand=dogs.pressure,
        capacity=dogs.yields,
        unit="MPa",
        working=dogs.pressing,
        safety=dogs.safety,
        source="yield of the weaker of both faces; factor: common practice",
        rung=dogs.rung,
        reason=dogs.shared,
        fix=fix,
    )


def _sheared(dogs: _Dogs) -> Check:
    most = dogs.yields / np.sqrt(3)
    return make_check(
        dogs.machine,
        "clutch",
        "dog clutch",
        _NAMES[2],
        where=dogs.machine.load_cases.jammed,
        demand=dogs.shear,
        capacity=most,
        unit="MPa",
        working=lambda i: clutch_workings.dog_shear(
            dogs.machine,
            float(dogs.torque[i]),
            dogs.carrying,
            float(dogs.force[i]),
            float(dogs.shear[i]),
            float(most),
            dogs.softest,
        ),
        safety=dogs.safety,
        rung=dogs.rung,
        source="Shigley 10th ed., eq. 3-33 and 5-21; factor: common practice",
        reason=lambda i, say: (
            f"{say(dogs.force[i], 'N')} on the root of one dog of {dogs.softest.name}"
        ),
        fix=lambda i: [
            "clutch.angular_play",
            "clutch.outer_diameter",
            "clutch.dogs",
            "clutch.inner_diameter",
            *dogs.harder(float(dogs.shear[i]) * dogs.safety / most),
            *dogs.weaker(i, float(dogs.shear[i]) * dogs.safety / most),
        ],
    )


def _bent_daily(dogs: _Dogs) -> Check:
    # both ways, over and over, with a sharp corner at the root
    lasting = dogs.breaks / 4
    return make_check(
        dogs.machine,
        "clutch",
        "dog clutch",
        _NAMES[3],
        where=dogs.machine.load_cases.mixing,
        demand=dogs.bent,
        capacity=lasting,
        unit="MPa",
        working=lambda i: [
            *dogs.bending(i),
            clutch_workings.share_of_tensile(dogs.first, lasting),
        ],
        safety=dogs.safety,
        source="Shigley 10th ed., eq. 3-24; a quarter of the tensile strength, for a sharp corner loaded both ways: common practice",
        reason=lambda i, say: (
            f"{say(dogs.force[i], 'N')} on one dog of {dogs.first.name} at {say(dogs.arm, 'mm')} over its root"
        ),
        fix=lambda i: [
            *dogs.thicker(float(dogs.bent[i]) * dogs.safety / lasting),
            *dogs.harder(float(dogs.bent[i]) * dogs.safety / lasting, by="breaks"),
            "paddles.count",
            "paddles.width",
        ],
    )


def _bent_in_a_jam(dogs: _Dogs) -> Check:
    def fix(i: int) -> list[Change]:
        over = float(dogs.bent[i]) * dogs.safety / dogs.yields
        return [*dogs.thicker(over), *dogs.harder(over), *dogs.weaker(i, over)]

    return make_check(
        dogs.machine,
        "clutch",
        "dog clutch",
        _NAMES[4],
        where=dogs.machine.load_cases.jammed,
        demand=dogs.bent,
        capacity=dogs.yields,
        unit="MPa",
        working=dogs.bending,
        safety=dogs.safety,
        source="Shigley 10th ed., eq. 3-24; yield; factor: common practice",
        rung=dogs.rung,
        reason=lambda i, say: (
            f"{say(dogs.force[i], 'N')} on one dog of {dogs.softest.name} at {say(dogs.arm, 'mm')} over its root"
        ),
        fix=fix,
    )
