"""The feather key that the clutch's sleeve slides on."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from mixerkit.checking import make_check, make_unjudged
from mixerkit.checks import Change, Check, Say
from mixerkit.drive import clutch_workings
from mixerkit.drive.dog_checks import clutch_torque
from mixerkit.drive.dogclutch import positions
from mixerkit.drive.fuses import weaker_fuse
from mixerkit.parts import hub, keyways
from mixerkit.parts.key_flanks import Flank, flank_depth, worst_flank
from mixerkit.parts.metals import stronger_metals
from mixerkit.parts.worked import WorkedMachine
from mixerkit.parts.zones import CLUTCH, seat, seat_field
from mixerkit.results import Array, TableRow
from mixerkit.spec import Spec
from mixerkit.units import InputError
from mixerkit.working import Working

__all__ = ["checks", "outer_and_inner"]

_DAILY = ("clutch", "feather key", "pressure while mixing")
_JAMMED = ("clutch", "feather key", "pressure in a jam")


def outer_and_inner(spec: Spec) -> tuple[str, str]:
    """Name the path whose gears stand further along the shaft, then the other."""
    return (
        ("idler", "direct")
        if spec.paths.idler.position > spec.paths.direct.position
        else ("direct", "idler")
    )


def checks(machine: WorkedMachine) -> list[Check]:
    """Check the pressure on the feather key.

    Parameters
    ----------
    machine : WorkedMachine

    Returns
    -------
    list of Check
    """
    try:
        feather = _Feather.of(machine)
    except InputError as error:
        why = "; ".join(error.messages)
        return [make_unjudged(machine, *name, why) for name in (_DAILY, _JAMMED)]
    return [_pressed_daily(feather), _pressed_in_a_jam(feather)]


def _touching(spec: Spec) -> tuple[str, ...]:
    """Name the fields of the metals that the key presses on and is made of."""
    return "clutch.material", "hubs.key_material", f"shaft_{spec.clutch.shaft}.material"


@dataclass(frozen=True)
class _Feather:
    """What the key bears over the load cases, with its row of the table and its length in the sleeve in mm.

    ``half`` is half of the key's own length; ``side`` the flank that is worst off, in the sleeve or in the
    shaft.
    """

    machine: WorkedMachine
    row: TableRow
    half: float
    length: float
    torque: Array
    pressure: Array
    side: Flank

    @classmethod
    def of(cls, machine: WorkedMachine) -> _Feather:
        """Find the key and work out its pressure in MPa.

        Raises
        ------
        InputError
            If the sleeve leaves it no length, or no key of the table fits the shaft.
        """
        one = machine.spec.clutch
        bore = seat(machine.spec, one.shaft, CLUTCH)
        # the sleeve's dogs stand past the key at both ends
        core = one.sleeve_length - 2 * one.dog_height
        own = keyways.feather(
            machine.spec, machine.shaft_beams[one.shaft - 1].stack, machine.system
        )
        row, half = own.key, (own.end - own.start) / 2
        # engaged, the sleeve may stand past the key, or over its round end, on one side
        straight = half - row["width"] / 2
        length = core - max(positions(machine.spec).travel + core / 2 - straight, 0.0)
        if length <= 0:
            raise InputError(
                "dogs, and rings beside the free gears, leave no length of key in the sleeve; "
                "a longer sleeve or shorter dogs are wanted"
            )
        torque = clutch_torque(machine)
        side = worst_flank(machine.spec, row, f"shaft_{one.shaft}.material", "clutch.material")
        pressure = hub.key_pressure.formula(torque, bore, side.deep, length)
        return cls(machine, row, half, length, torque, np.asarray(pressure), side)

    def shared(self, i: int, say: Say) -> str:
        """Say what torque is on which key."""
        return (
            f"{say(self.torque[i], 'N*m')} on a key {say(self.row['width'], 'mm')} x {say(self.row['height'], 'mm')}, "
            f"{say(self.length, 'mm')} of it in the sleeve; {self.side.metal.name} gives way first"
        )

    def pressing(self, i: int) -> list[Working]:
        """Say how the pressure was got."""
        found, deep = flank_depth(self.row, self.side, self.machine.system)
        return [
            *found,
            clutch_workings.feather_length(self.machine, self.half, self.row["width"], self.length),
            clutch_workings.feather(
                self.machine, float(self.torque[i]), deep, self.length, float(self.pressure[i])
            ),
        ]

    def longer(self, over: float) -> list[Change]:
        """A key that bears this much more, and the sleeve with it."""
        spec, more = self.machine.spec, self.length * (over - 1)
        outer, _ = outer_and_inner(spec)
        sleeve = {"clutch.sleeve_length": spec.clutch.sleeve_length + more}
        return [
            sleeve,
            # a longer sleeve wants its gears, and the plates, that much further apart
            {
                **sleeve,
                f"paths.{outer}.position": getattr(spec.paths, outer).position + more,
                "housing.plate_spacing": spec.housing.plate_spacing + more,
            },
            *stronger_metals(spec, *_touching(spec), over=over),
            seat_field(spec, spec.clutch.shaft, CLUTCH),
        ]


def _pressed_daily(feather: _Feather) -> Check:
    sliding = 0.25 * feather.side.metal.yields
    return make_check(
        feather.machine,
        *_DAILY,
        where=feather.machine.load_cases.mixing,
        demand=feather.pressure,
        capacity=sliding,
        unit="MPa",
        working=lambda i: [
            *feather.pressing(i),
            clutch_workings.share_of_yield(feather.side.metal, sliding),
        ],
        source="a quarter of yield of the weakest metal that touches, for a key that slides: common practice",
        reason=feather.shared,
        fix=lambda i: [
            *feather.longer(float(feather.pressure[i]) / sliding),
            "paddles.count",
            "paddles.width",
        ],
    )


def _pressed_in_a_jam(feather: _Feather) -> Check:
    machine, yields = feather.machine, feather.side.metal.yields
    safety = machine.spec.safety.shaft_in_jam

    def fix(i: int) -> list[Change]:
        over = float(feather.pressure[i]) * safety / yields
        jam = float(machine.power_flow.jam_torque[i])
        return [*feather.longer(over), *weaker_fuse(machine.spec, jam / over)]

    return make_check(
        machine,
        *_JAMMED,
        where=machine.load_cases.jammed,
        demand=feather.pressure,
        capacity=yields,
        unit="MPa",
        working=feather.pressing,
        safety=safety,
        source="yield of the weakest metal that touches; factor: common practice",
        rung=(1.0, feather.side.metal.later),
        reason=feather.shared,
        fix=fix,
    )
