"""What each rule asks of a shaft at each place: torsion, bending with torsion, and fatigue."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from mixerkit.parts import fatigue, shaft
from mixerkit.parts.deflection import over_states
from mixerkit.parts.shaftline import ShaftBeam
from mixerkit.results import Array, Flags, LoadedMachine

__all__ = [
    "FATIGUE",
    "PULSES",
    "REVERSED",
    "TURNED",
    "Rule",
    "dry_share",
    "endurance_along",
    "lifetime_turns",
    "reversals",
    "rules_of",
    "strength_for_reversals",
    "worst_place",
]

_CODE = "0.30 Sy or 0.18 Su, a quarter off for a keyway: ASME B17c (1927) as quoted in handbooks"
_YIELD = "von Mises on yield, Shigley 10th ed., eq. 5-15; factor: common practice"
_GOODMAN = (
    "DE-Goodman, Shigley 10th ed., eq. 7-7 and 7-8; notches: table 7-1, Peterson, Roark table 17.1"
)
FATIGUE = "fatigue while mixing"
REVERSED = "fatigue by turning about"
PULSES, TURNED = (0.0, 0.5), (1.0,)
"""Shares of a turn's greatest torque that swing about the rest: where it stays so, where it falls to nought
between, and where it is turned about."""
_PROOF = "yield over the wanted factor"


@dataclass(frozen=True)
class Rule:
    """What one rule asks of a shaft at each place, over the states.

    ``needed`` (states, places) in mm; ``torque`` and ``moment`` the same in N*m, the moment none for
    torsion alone.
    """

    name: str
    needed: Array
    torque: Array
    moment: Array | None
    where: Flags
    limit: tuple[str, float]
    source: str
    rung: tuple[float, float] | None = None


def rules_of(beam: ShaftBeam) -> list[Rule]:
    """Work out every rule along a shaft, torsion alone first and fatigue last."""
    steel = beam.steel
    strength, tensile = steel["yield_strength"], steel["tensile_strength"]
    allowed = float(shaft.allowed_shear_stress.formula(strength, tensile, beam.keyed))
    proof = strength / beam.machine.spec.safety.shaft_in_jam
    most = over_states(beam.machine, beam.running.states, beam.swings[1])
    return [
        *_torsion(beam, most, allowed, proof),
        _bending(beam, allowed),
        _bending_in_a_jam(beam, proof, tensile / strength),
        *_fatigue(beam, most),
    ]


def _torsion(beam: ShaftBeam, most: Array, allowed: float, proof: float) -> list[Rule]:
    """Torsion alone, while mixing, of which ``most`` is the greatest torque of a turn, and in a jam."""
    machine, jam = beam.machine, beam.stopped
    # a hole across leaves less of the section: as if there were so much more to carry; the code for shafts that
    # mix has a keyway in what it allows
    turns, left = beam.net[:, 1], beam.left[:, 1]
    stop = over_states(machine, jam.states, jam.torque.max(axis=1))
    needed = shaft.diameter_for_torsion.formula
    return [
        Rule(
            "torsion while mixing",
            np.asarray(needed(most / turns, allowed)),
            most,
            None,
            machine.load_cases.mixing,
            ("allowed shear", allowed),
            _CODE,
        ),
        Rule(
            "torsion in a jam",
            np.asarray(needed(stop / left, proof * shaft.SHEAR_YIELD)),
            stop,
            None,
            machine.load_cases.jammed,
            (_PROOF, proof),
            _YIELD,
        ),
    ]


def _bending(beam: ShaftBeam, allowed: float) -> Rule:
    """Bending with torsion while mixing."""
    machine, run = beam.machine, beam.running
    bends, turns = beam.net.T
    # of all angles of a turn the one that asks most at each place
    felt = (1.5 * run.moment / bends) ** 2 + (run.torque / turns) ** 2
    moment, torque = (
        over_states(machine, run.states, _pick(felt, one)) for one in (run.moment, run.torque)
    )
    needed = shaft.diameter_for_bending_and_torsion.formula(moment / bends, torque / turns, allowed)
    return Rule(
        "bending with torsion while mixing",
        np.asarray(needed),
        torque,
        moment,
        machine.load_cases.mixing,
        ("allowed shear", allowed),
        _CODE,
    )


def _bending_in_a_jam(beam: ShaftBeam, proof: float, breaks: float) -> Rule:
    """Bending with torsion in a jam."""
    machine, jam = beam.machine, beam.stopped
    bends, turns = beam.left.T
    # of all jammed paddles the one that asks most at each place
    felt = 4 * (jam.moment / bends) ** 2 + 3 * (jam.torque / turns) ** 2
    moment, torque = (
        over_states(machine, jam.states, _pick(felt, one)) for one in (jam.moment, jam.torque)
    )
    needed = shaft.diameter_for_equivalent_stress.formula(moment / bends, torque / turns, proof)
    return Rule(
        "bending with torsion in a jam",
        np.asarray(needed),
        torque,
        moment,
        machine.load_cases.jammed,
        (_PROOF, proof),
        _YIELD,
        (3.0, breaks),
    )


def _fatigue(beam: ShaftBeam, most: Array) -> list[Rule]:
    """Fatigue by what comes with every turn, and by how often the shaft is turned about.

    Paddles come out of the clay and go in again: the torque of a turn may stay as great as it gets or fall
    to nought, half of it swinging about the other half. What is felt bends upwards between the two, so that the
    worse of them is the worst. Motor or clutch turned about set the clay moving the other way: then the whole
    of it, that of a start, swings about nought, so often as is counted. Each is to hold with the wanted factor;
    what stays below the endurance does no harm (Miner: Shigley 10th ed., section 6-15).
    """
    machine, endurance = beam.machine, endurance_along(beam)
    cases, tensile = machine.load_cases, beam.steel["tensile_strength"]
    swing, peak = beam.swings
    bent = over_states(machine, beam.running.states, swing)

    def rule(
        name: str, ripples: Sequence[float], strength: Array, where: Flags, limit: str
    ) -> Rule:
        ripple = np.array(ripples)[:, None, None]
        needed = fatigue.diameter_for_fatigue.formula(
            swing,
            (1 - ripple) * peak,
            ripple * peak,
            strength,
            tensile,
            machine.spec.safety.shaft_fatigue,
            *beam.factors.T,
        )
        spread = over_states(machine, beam.running.states, np.asarray(needed).max(axis=0))
        return Rule(name, spread, most, bent, where, (limit, float(strength.min())), _GOODMAN)

    return [
        rule(FATIGUE, PULSES, endurance, cases.mixing, "endurance limit"),
        rule(
            REVERSED,
            TURNED,
            strength_for_reversals(beam, endurance),
            cases.mixing | cases.starting,
            "strength for so many reversals",
        ),
    ]


def _pick(felt: Array, values: Array) -> Array:
    """Values of the middle axis where what is felt is greatest."""
    place = felt.argmax(axis=1)[:, None]
    return np.take_along_axis(values, place, axis=1)[:, 0]


def lifetime_turns(machine: LoadedMachine, number: int) -> Array:
    """How often a shaft turns while the machine lasts, over the load cases."""
    once = np.abs(machine.power_flow.turns[number])
    return np.asarray(machine.spec.batch.life_hours * 60 * machine.running_speed * once)


def reversals(machine: LoadedMachine) -> float:
    """How often motor or clutch turn a shaft about while the machine lasts."""
    batch = machine.spec.batch
    batches = batch.life_hours * 60 * machine.running_speed / batch.turns_to_mix
    return batch.reversals * batches


def endurance_along(beam: ShaftBeam) -> Array:
    """Endurance limit in MPa at each place; halved where slip gets at the steel."""
    limit = fatigue.endurance_limit.formula(
        beam.steel["tensile_strength"], beam.diameters, beam.own.finish
    )
    return np.asarray(limit * dry_share(beam))


def strength_for_reversals(beam: ShaftBeam, endurance: Array) -> Array:
    """Alternating stress in MPa borne so often as a shaft is turned about, with an endurance in MPa at each place."""
    tensile, times = beam.steel["tensile_strength"], reversals(beam.machine)
    return np.asarray(fatigue.finite_strength.formula(endurance, tensile, times))


def dry_share(beam: ShaftBeam) -> Array:
    """Share of the endurance limit that slip leaves at each place: it wets plain steel between the walls."""
    sleeve = beam.machine.spec.sleeve
    wet = (beam.places > beam.trough[0]) & (beam.places < beam.trough[1])
    open_to_slip = beam.steel["family"] != "stainless" and (
        sleeve.kind == "none" or not sleeve.sealed_ends
    )
    return np.where(wet & open_to_slip, fatigue.CORRODED, 1.0)


def worst_place(beam: ShaftBeam, rule: Rule) -> int:
    """Find the place of a shaft where a rule asks for the most over what is there."""
    asked = np.where(rule.where[:, None], rule.needed, 0.0).max(axis=0)
    return int(np.argmax(asked / beam.diameters))
