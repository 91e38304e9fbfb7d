"""Whether the welds that hold the paddles stand a jam, and last."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace

import numpy as np

from mixerkit.checking import make_check
from mixerkit.checks import Change, Check, Say
from mixerkit.load import weld_workings
from mixerkit.load.weld_workings import Pull, Swing
from mixerkit.parts import welds
from mixerkit.parts.blades import WEDGE_FRICTION, held_forces, projected_width, section_at
from mixerkit.parts.remedies import LIGHTER, calmer
from mixerkit.parts.shaft_rules import lifetime_turns, reversals
from mixerkit.results import Array, LoadedMachine
from mixerkit.spec import Paddles, Spec
from mixerkit.spec.contact import FILLERS
from mixerkit.tables import table
from mixerkit.working import Working

__all__ = ["checks"]

_YIELDS, _BREAKS = 1.44, 2.0
"""Stress at which weld and metal beside it yield and break in shear over what is allowed: 0.577 over 0.40, and
0.6 over 0.30 (AISC strengths of welds, as reprinted)."""


def checks(machine: LoadedMachine) -> list[Check]:
    """Check the fillet round a paddle's stem in a jam and over its life, and the stem at its toe.

    Parameters
    ----------
    machine : LoadedMachine

    Returns
    -------
    list of Check
    """
    return [_holds(machine), *_last(machine)]


def _foot(spec: Spec) -> tuple[float, float]:
    """Width and thickness of a paddle in mm where it is welded on."""
    width, thickness = section_at(spec.paddles, spec.paddles.root_radius)
    return float(width), float(thickness)


def _caught(spec: Spec) -> Pull:
    """How a paddle that is caught pulls hardest at its weld, for 1 N*m on the shaft.

    Caught at its tip it bends most, at its root it is pushed most; what lies between does less than one of both.
    A thing wedged between an edge of the tip and the wall turns it over as a force would that is larger by as much.
    The foot stands on the sleeve, which bears the push itself.
    """
    blade, (width, thickness) = spec.paddles, _foot(spec)
    wide, thick = max(width, blade.width), max(thickness, blade.thickness)
    rows = [
        (radius, flat, edge, radius - blade.root_radius, (thick if k % 2 else wide) / 2)
        for radius in (blade.root_radius, blade.tip_radius)
        for k, (flat, edge, _) in enumerate(held_forces(blade.set_angle))
    ]
    arm = blade.tip_radius - blade.root_radius
    if arm > 0:
        rows += _wedged(blade, arm)
    radii, flats, edges, arms, levers = np.array(rows).T
    stress = welds.throat_stress.formula(
        flats / radii, edges / radii, arms, levers, width, thickness, blade.weld_throat
    )
    return Pull(*rows[int(np.argmax(stress))], width, thickness, blade.weld_throat)


def _wedged(blade: Paddles, arm: float) -> list[tuple[float, float, float, float, float]]:
    """Forces at the tip that turn a foot over as a thing does that is wedged at either edge of the tip, as Pull has them."""
    turned = np.radians(blade.set_angle)
    flat, edge = float(np.sin(turned)), float(np.cos(turned))
    by_width, by_thickness = (
        size / 2 / WEDGE_FRICTION / arm for size in (blade.width, blade.thickness)
    )
    return [
        (blade.tip_radius, flat, edge + by_width, arm, 0.0),
        (blade.tip_radius, flat + by_thickness, edge, arm, 0.0),
    ]


def _mixes(spec: Spec) -> Pull:
    """How the clay pulls at the weld of a paddle for 1 N*m of it: evenly on face and edge, from root to tip."""
    blade = spec.paddles
    meets = float(projected_width.formula(blade.width, blade.thickness, blade.set_angle))
    radius = (blade.tip_radius + blade.root_radius) / 2
    arm = max(blade.tip_radius - blade.root_radius, 0.0) / 2
    share = blade.width / meets, blade.thickness / meets
    return Pull(radius, *share, arm, 0.0, *_foot(spec), blade.weld_throat)


def _holds(machine: LoadedMachine) -> Check:
    """Whether the weld of a paddle holds in a jam."""
    spec, pull = machine.spec, _caught(machine.spec)
    torque = np.maximum(*machine.power_flow.paddles)
    stress = torque * pull.stress(1.0)
    filler, softest = _weakest(spec)
    allowed = float(welds.allowed_in_throat.formula(filler, softest))
    check = make_check(
        machine,
        "paddles",
        "paddles",
        "welds of the stems hold in a jam",
        where=machine.load_cases.jammed,
        demand=stress,
        capacity=allowed,
        unit="MPa",
        rung=(1.0, _BREAKS / _YIELDS),
        source="weld as a line: Shigley 10th ed., sections 9-3 and 9-4; allowed: tables 9-4 and 9-6",
        reason=lambda i, say: (
            f"throat {say(spec.paddles.weld_throat, 'mm')} all round "
            f"{say(pull.width, 'mm')} x {say(pull.thickness, 'mm')}, {say(torque[i], 'N*m')} "
            f"caught {say(pull.radius, 'mm')} from the shaft's middle"
        ),
        fix=lambda i: (
            _thicker(spec, float(stress[i]) / allowed)
            + calmer(machine, i, float(stress[i]) / allowed)
        ),
        working=lambda i: weld_workings.caught(
            pull, float(torque[i]), float(stress[i]), (filler, softest)
        ),
    )
    if check.gives:
        # what is allowed lies below what yields
        check = replace(check, gives=(check.gives[0] * _YIELDS, check.gives[1] * _YIELDS))
    return check


def _weakest(spec: Spec) -> tuple[float, float]:
    """Tensile strength of the weakest metal in the throat, and yield of the softer metal beside it, in MPa."""
    under = (
        [spec.sleeve.material]
        if spec.sleeve.kind != "none"
        else [spec.shaft_1.material, spec.shaft_2.material]
    )
    plain = spec.contact.paddle_filler == FILLERS[0]
    filler = welds.PLAIN if plain else welds.STAINLESS
    rows = [table("materials").find(one).values for one in (spec.paddles.material, *under)]
    return (
        min(filler, *(row["tensile_strength"] for row in rows)),
        min(row["yield_strength"] for row in rows),
    )


def _thicker(spec: Spec, over: float) -> list[Change]:
    """A thicker weld, and a stem with more of it round it."""
    blade = spec.paddles
    thick: list[Change] = (
        [{"paddles.weld_throat": blade.weld_throat * over}] if 0 < over < np.inf else []
    )
    return [*thick, "paddles.stem_width", "paddles.stem_thickness"]


@dataclass(frozen=True)
class _Turns:
    """One shaft over the load cases: torque of one paddle in N*m, that of a start, and how often it turns."""

    torque: Array
    start: float
    turns: Array

    def lasting(self, times: float) -> Array:
        """Torque in N*m that does in two million turns what all turns and reversals do."""
        start = np.full(len(self.torque), 2 * self.start)
        cycles = [self.turns, np.full(len(self.torque), times)]
        return welds.lasting_range([self.torque, start], cycles, welds.SLOPE)


def _turns(machine: LoadedMachine, number: int, share: float) -> _Turns:
    flow, cases = machine.power_flow, machine.load_cases
    torque = share * flow.paddles[number - 1]
    return _Turns(
        torque=torque,
        start=float(torque[cases.starting].max()),
        turns=lifetime_turns(machine, number),
    )


@dataclass(frozen=True)
class _Mixing:
    """What every weld of a paddle goes through.

    Attributes
    ----------
    shafts : list of _Turns
    times : float
        How often they are turned about.
    alike : array (shafts, load cases)
        Lasting torque of one paddle in N*m: what a weld feels goes with it.
    """

    shafts: list[_Turns]
    times: float
    alike: Array

    @classmethod
    def of(cls, machine: LoadedMachine) -> _Mixing:
        """Work it out."""
        buried, times = machine.clay_load.buried, reversals(machine)
        # the one paddle that is deepest in the clay where all of them together ask most
        share = float(buried.max() / max(buried.sum(axis=1).max(), 1e-9))
        shafts = [_turns(machine, number, share) for number in (1, 2)]
        return cls(shafts, times, np.array([one.lasting(times) for one in shafts]))


@dataclass(frozen=True)
class _Detail:
    """Where a crack may begin.

    Attributes
    ----------
    name, source : str
        Of its check.
    each : float
        Stress in MPa for 1 N*m on one paddle.
    borne : float
        Its class in MPa.
    fix : callable
        What helps, given how many times too much it is.
    how : callable
        Says how a stress in MPa follows from a torque in N*m.
    """

    name: str
    source: str
    each: float
    borne: float
    fix: Callable[[float], Sequence[Change]]
    how: Callable[[float, float], list[Working]]


def _last(machine: LoadedMachine) -> list[Check]:
    """Whether the weld lasts, at its root and at its toe on the stem."""
    spec, pull, mixing = machine.spec, _mixes(machine.spec), _Mixing.of(machine)
    root = _Detail(
        "welds of the stems last",
        "class 36 at the root of a fillet: EN 1993-1-9, table 8.5, detail 3 (from memory); Miner",
        pull.stress(1.0),
        welds.ROOT,
        lambda over: _thicker(spec, over),
        lambda torque, stress: weld_workings.throat(pull, torque, stress),
    )
    toe = _Detail(
        "stems last at the welds' toes",
        "class 63 at a fillet's toe: IIW recommendations, detail 413 (from memory); Miner",
        _bent(pull),
        welds.TOE,
        lambda over: [
            {"paddles.stem_thickness": pull.thickness * float(np.sqrt(over))},
            {"paddles.stem_width": pull.width * float(np.sqrt(over))},
        ],
        lambda torque, stress: weld_workings.stem(pull, torque, stress),
    )
    return [_lasts(machine, mixing, one) for one in (root, toe)]


def _lasts(machine: LoadedMachine, mixing: _Mixing, detail: _Detail) -> Check:
    """Whether no crack begins at a detail in all the life of the machine."""
    felt, borne = detail.each * mixing.alike, detail.borne
    most, safety = felt.max(axis=0), machine.spec.safety.shaft_fatigue

    def shown(i: int) -> list[Working]:
        one = mixing.shafts[int(felt[1][i] > felt[0][i])]
        torque, stress = float(one.torque[i]), detail.each * float(one.torque[i])
        start, turns = detail.each * one.start, float(one.turns[i])
        swing = Swing(stress, start, turns, mixing.times, float(most[i]))
        return [*detail.how(torque, stress), *weld_workings.lasts(swing, borne)]

    def reason(i: int, say: Say) -> str:
        torque = max(float(one.torque[i]) for one in mixing.shafts)
        return (
            f"{say(torque, 'N*m')} on one paddle every turn, and {mixing.times:.2g} times turned about; "
            f"class {borne:g}, two million times"
        )

    return make_check(
        machine,
        "paddles",
        "paddles",
        detail.name,
        where=machine.load_cases.mixing,
        demand=most,
        capacity=borne,
        unit="MPa",
        safety=safety,
        source=detail.source,
        reason=reason,
        note=lambda i, say: (
            "Count how often motor or clutch turn the shafts about in a batch: batch.reversals is the field."
        ),
        fix=lambda i: [*detail.fix(float(most[i]) * safety / borne), *LIGHTER],
        working=shown,
    )


def _bent(pull: Pull) -> float:
    """Bending stress in MPa in a stem's foot for 1 N*m: over both sides, Shigley 10th ed., eq. 3-27."""
    over = pull.flat / pull.thickness + pull.edge / pull.width
    return 6e3 / pull.radius * pull.arm * over / (pull.width * pull.thickness)
