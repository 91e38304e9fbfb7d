"""The stub of the fuse's flange in the box's hollow shaft: its key, and what the keyway leaves of it."""

from __future__ import annotations

from dataclasses import dataclass, replace

import numpy as np

from mixerkit.checking import make_check
from mixerkit.checks import Change, Check
from mixerkit.frozen import cached_property
from mixerkit.parts import fatigue, shaft
from mixerkit.parts.flanges import THINNEST_BUSH, box_end, stub_keyway, stub_wall
from mixerkit.parts.key_flanks import Shallow
from mixerkit.parts.keyed import KeyedHub, key_for
from mixerkit.parts.keys import BOX, flank_checks
from mixerkit.parts.metals import Metal, metal, stronger_metals
from mixerkit.parts.notches import notch_factors
from mixerkit.parts.remedies import LIGHTER, calmer
from mixerkit.parts.seated import STUB
from mixerkit.parts.worked import WorkedMachine
from mixerkit.parts.zones import BOX as AT_THE_BOX
from mixerkit.parts.zones import seat, seat_field
from mixerkit.results import Array, TableRow
from mixerkit.units import InputError
from mixerkit.working import Given, Working, by_method, worked

__all__ = ["checks"]

_CHAMFER = 0.8
"""Of a key's edge in mm, which a shallow flank cannot spare: the largest of keys up to 25 mm wide (DIN 6885-1, from
memory)."""
_LEAST = 0.05
"""A flank in mm that is not there counts for so little."""
_NOTHING = 1e-3
"""Wall in mm that is next to none."""
_STUB = "shaft_1.material"
"""Field that names the flange's metal, as the parts list has it."""


def checks(machine: WorkedMachine) -> list[Check]:
    """Check how the box's hollow shaft holds its flange of the fuse.

    The flange is one piece with its stub, which fills the hollow shaft round shaft 1, as long as that is, and takes
    the box's torque through the parallel key of its bore. The key lies in the hollow shaft's own keyway, as its
    maker cut it, and is planed down to what the stub's wall has room for. Along the shafts the flange stands
    between the hollow shaft's end and a spacer.

    Parameters
    ----------
    machine : WorkedMachine

    Returns
    -------
    list of Check
    """
    spec, bore = machine.spec, machine.spec.reducer.output_bore
    held = KeyedHub(
        machine,
        STUB,
        machine.power_flow.torque_at_box_output,
        "power flow, torque at the box's output",
        bore,
        "reducer.output_bore",
        spec.hubs.box_length,
        "hubs.box_length",
        seat_field(spec, 1, AT_THE_BOX),
        _STUB,
        (BOX,),
    )
    try:
        key = key_for(bore, machine.system)
    except InputError:
        # no key is made for the bore: that is said by the key's own checks
        return flank_checks(held)
    deep = stub_keyway(spec, key)
    flank = max(deep - _CHAMFER, _LEAST)

    def thinner(over: float) -> list[Change]:
        asked = flank * over + _CHAMFER
        return _ends(machine, max(2 * asked, asked + THINNEST_BUSH))

    shallow = Shallow(flank, tuple(_worked_flank(machine, key, deep, flank)))
    keyed = replace(held, shallow=shallow, first=thinner)
    tube = _Tube(machine, key, deep)
    return [*flank_checks(keyed), _twisted(tube), _lasting(tube)]


def _ends(machine: WorkedMachine, wall: float) -> list[Change]:
    """Ends of shaft 1 that leave the stub such a wall in mm, the one that leaves the bar first; or another box."""
    size = machine.spec.reducer.output_bore - 2 * wall
    ends = box_end(machine.spec, size, machine.system)[::-1] if size > 0 else []
    return [*ends, "reducer"]


def _worked_wall(machine: WorkedMachine) -> Working:
    spec = machine.spec
    return worked(
        "w = (D - d)/2",
        stub_wall(spec),
        "mm",
        D=(spec.reducer.output_bore, "mm", "reducer.output_bore"),
        d=(seat(spec, 1, AT_THE_BOX), "mm", "shaft 1 where the box sits"),
    )


def _worked_depth(machine: WorkedMachine, key: TableRow, deep: float) -> Working:
    return worked(
        "t = Max(0*w, Min(t_1, w/2, w - w_0))",
        deep,
        "mm",
        source="half of the wall for the key, half for the torque: common practice",
        t_1=(
            key["shaft_depth"],
            "mm",
            f"data/tables/keys.csv, {machine.system}: depth in the shaft",
        ),
        w=(stub_wall(machine.spec), "mm", "above"),
        w_0=(THINNEST_BUSH, "mm", "thinnest wall that stays round: common practice"),
    )


def _worked_flank(
    machine: WorkedMachine, key: TableRow, deep: float, flank: float
) -> list[Working]:
    return [
        _worked_wall(machine),
        _worked_depth(machine, key, deep),
        worked(
            "t_f = Max(t - c, t_0)",
            flank,
            "mm",
            source="a key's edge is broken: a shallow flank has so much less of it",
            t=(deep, "mm", "above"),
            c=(
                _CHAMFER,
                "mm",
                "of a key's edge: DIN 6885-1, the largest up to 25 mm wide, from memory",
            ),
            t_0=(_LEAST, "mm", "next to nothing"),
        ),
    ]


@dataclass(frozen=True)
class _Tube:
    """What the keyway leaves of the stub, taken as a tube no thicker anywhere than under it; in mm, and MPa over the load cases."""

    machine: WorkedMachine
    key: TableRow
    deep: float

    @property
    def inner(self) -> float:
        """Bore, in which shaft 1 turns."""
        return seat(self.machine.spec, 1, AT_THE_BOX)

    @cached_property
    def left(self) -> float:
        """Wall under the keyway, next to nothing where there is none."""
        return max(stub_wall(self.machine.spec) - self.deep, _NOTHING)

    @property
    def outer(self) -> float:
        """Outside of that tube."""
        return self.inner + 2 * self.left

    @cached_property
    def steel(self) -> Metal:
        """Of the flange."""
        return metal(self.machine.spec, _STUB)

    @cached_property
    def torque(self) -> Array:
        """In N*m."""
        return np.abs(self.machine.power_flow.torque_at_box_output)

    @cached_property
    def shear(self) -> Array:
        """At its outside."""
        full = shaft.torsional_stress.formula(self.torque, self.outer)
        return np.asarray(full / (1 - (self.inner / self.outer) ** 4))

    def mends(self, over: float, i: int) -> list[Change]:
        """What would make it bear so many times as much, or feel so much less."""
        machine = self.machine
        return [
            *(_ends(machine, 2 * self.left * over) if np.isfinite(over) else []),
            *stronger_metals(machine.spec, _STUB, over=over),
            *calmer(machine, i, over),
            *(LIGHTER if machine.load_cases.mixing[i] else ()),
        ]

    def how(self, i: int) -> list[Working]:
        """How the shear was worked out."""
        machine = self.machine
        inner: Given = (self.inner, "mm", "shaft 1 where the box sits")
        return [
            _worked_wall(machine),
            _worked_depth(machine, self.key, self.deep),
            worked(
                "D = d + 2*Max(w - t, w_1)",
                self.outer,
                "mm",
                source="tube no thicker anywhere than under its keyway",
                d=inner,
                w=(stub_wall(machine.spec), "mm", "above"),
                t=(self.deep, "mm", "above"),
                w_1=(_NOTHING, "mm", "next to nothing"),
            ),
            worked(
                "tau = 16*T/(pi*D**3*(1 - (d/D)**4))",
                float(self.shear[i]),
                "MPa",
                T=(float(self.torque[i]), "N*m", "power flow, torque at the box's output"),
                D=(self.outer, "mm", "above"),
                d=inner,
            ),
        ]


def _twisted(tube: _Tube) -> Check:
    """Whether what the keyway leaves of the stub carries a jam."""
    machine, shear, steel = tube.machine, tube.shear, tube.steel
    safety, bears = machine.spec.safety.shaft_in_jam, steel.yields * shaft.SHEAR_YIELD
    return make_check(
        machine,
        "hubs",
        STUB,
        "stub is not twisted off in a jam",
        where=machine.load_cases.jammed,
        demand=shear,
        capacity=bears,
        unit="MPa",
        safety=safety,
        rung=(1.0, steel.later),
        source="Shigley 10th ed., eq. 3-37 and 5-21",
        reason=lambda i, say: (
            f"{say(tube.torque[i], 'N*m')} through a wall of {say(tube.left, 'mm')} under the keyway, "
            f"round shaft 1 of {say(tube.inner, 'mm')}"
        ),
        fix=lambda i: tube.mends(float(shear[i] * safety / bears), i),
        working=lambda i: [
            *tube.how(i),
            worked(
                "tau_y = k*R_e",
                bears,
                "MPa",
                source="Shigley 10th ed., eq. 5-21",
                k=(shaft.SHEAR_YIELD, "", "distortion energy: yield in shear over yield"),
                R_e=steel.given_yield,
            ),
        ],
    )


def _lasting(tube: _Tube) -> Check:
    """Whether it lasts, all of the torque taken as turned about each time."""
    machine, steel = tube.machine, tube.steel
    notch = notch_factors("keyway", tube.outer, steel.breaks)[1]
    felt = np.asarray(np.sqrt(3.0) * notch * tube.shear)
    lasts = float(fatigue.endurance_limit.formula(steel.breaks, tube.outer))
    safety = machine.spec.safety.shaft_fatigue
    return make_check(
        machine,
        "hubs",
        STUB,
        "stub lasts",
        where=machine.load_cases.mixing,
        demand=felt,
        capacity=lasts,
        unit="MPa",
        safety=safety,
        source="distortion energy and endurance limit: Shigley 10th ed., eq. 5-15, 6-8 and table 7-1; all of the torque "
        "taken as turned about each time: common practice",
        reason=lambda i, say: (
            f"{say(tube.torque[i], 'N*m')} turned about, through a wall of {say(tube.left, 'mm')} beside a keyway's corners"
        ),
        fix=lambda i: tube.mends(float(felt[i] * safety / lasts), i),
        working=lambda i: [
            *tube.how(i),
            worked(
                "sigma = sqrt(3)*K*tau",
                float(felt[i]),
                "MPa",
                source="distortion energy: Shigley 10th ed., eq. 5-15",
                K=(notch, "", "keyway with its key: Shigley 10th ed., table 7-1, and DIN 743-2"),
                tau=(float(tube.shear[i]), "MPa", "above"),
            ),
            by_method(
                "S_e",
                "endurance limit of a machined shaft so thick: Shigley 10th ed., eq. 6-8 and 6-18",
                lasts,
                "MPa",
                R_m=steel.given_tensile,
                D=(tube.outer, "mm", "above"),
            ),
        ],
    )
