"""What each rule asks of a shaft at each place: torsion, bending with torsion, and fatigue."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from mixerkit.parts import fatigue, shaft
from mixerkit.parts.deflection import over_states
from mixerkit.parts.shaftline import ShaftBeam
from mixerkit.results import Array, Flags

__all__ = ["FATIGUE", "Rule", "endurance_along", "rules_of", "turned", "worst_place"]

_CODE = "0.30 Sy or 0.18 Su, a quarter off for a keyway: ASME B17c (1927) as quoted in handbooks"
_YIELD = "von Mises on yield, Shigley 10th ed., eq. 5-15; factor: common practice"
_GOODMAN = (
    "DE-Goodman, Shigley 10th ed., eq. 7-7 and 7-8; notches: table 7-1, Peterson, Roark table 17.1"
)
FATIGUE = "fatigue while mixing"


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
    machine, steel = beam.machine, beam.steel
    run, jam = beam.running, beam.stopped
    strength, tensile = steel["yield_strength"], steel["tensile_strength"]
    allowed = float(shaft.allowed_shear_stress.formula(strength, tensile, beam.keyed))
    proof = strength / machine.spec.safety.shaft_in_jam
    most = over_states(machine, run.states, run.torque.max(axis=1))
    stop = over_states(machine, jam.states, jam.torque.max(axis=1))
    # a hole across leaves less of the section: as if there were so much more to carry
    bends, turns = beam.net.T
    # of all angles of a turn, and of all jammed paddles, the one that asks most at each place
    felt = (1.5 * run.moment / bends) ** 2 + (run.torque / turns) ** 2
    bent_run, turned_run = _pick(felt, run.moment), _pick(felt, run.torque)
    felt = 4 * (jam.moment / bends) ** 2 + 3 * (jam.torque / turns) ** 2
    bent_jam, turned_jam = _pick(felt, jam.moment), _pick(felt, jam.torque)
    code, yielding = ("allowed shear", allowed), ("yield over the wanted factor", proof)
    breaks = tensile / strength
    bend_run, twist_run = (over_states(machine, run.states, one) for one in (bent_run, turned_run))
    bend_jam, twist_jam = (over_states(machine, jam.states, one) for one in (bent_jam, turned_jam))
    swing, middle, ripple = turned(beam)
    endurance = endurance_along(beam)
    tired = fatigue.diameter_for_fatigue.formula(
        swing,
        middle,
        ripple,
        endurance,
        tensile,
        machine.spec.safety.shaft_fatigue,
        beam.factors[:, 0],
        beam.factors[:, 1],
    )
    return [
        Rule(
            "torsion while mixing",
            np.asarray(shaft.diameter_for_torsion.formula(most / turns, allowed)),
            most,
            None,
            machine.load_cases.mixing,
            code,
            _CODE,
        ),
        Rule(
            "torsion in a jam",
            np.asarray(shaft.diameter_for_torsion.formula(stop / turns, proof * shaft.SHEAR_YIELD)),
            stop,
            None,
            machine.load_cases.jammed,
            yielding,
            _YIELD,
        ),
        Rule(
            "bending with torsion while mixing",
            np.asarray(
                shaft.diameter_for_bending_and_torsion.formula(
                    bend_run / bends, twist_run / turns, allowed
                )
            ),
            twist_run,
            bend_run,
            machine.load_cases.mixing,
            code,
            _CODE,
        ),
        Rule(
            "bending with torsion in a jam",
            np.asarray(
                shaft.diameter_for_equivalent_stress.formula(
                    bend_jam / bends, twist_jam / turns, proof
                )
            ),
            twist_jam,
            bend_jam,
            machine.load_cases.jammed,
            yielding,
            _YIELD,
            (3.0, breaks),
        ),
        Rule(
            FATIGUE,
            over_states(machine, run.states, np.asarray(tired)),
            most,
            over_states(machine, run.states, swing),
            machine.load_cases.mixing,
            ("endurance limit", float(endurance.min())),
            _GOODMAN,
        ),
    ]


def _pick(felt: Array, values: Array) -> Array:
    """Values of the middle axis where what is felt is greatest."""
    place = felt.argmax(axis=1)[:, None]
    return np.take_along_axis(values, place, axis=1)[:, 0]


def turned(beam: ShaftBeam) -> tuple[Array, Array, Array]:
    """Alternating moment, mean torque and alternating torque at each place, over the states that turn."""
    run = beam.running
    top, low = run.torque.max(axis=1), run.torque.min(axis=1)
    return run.moment.max(axis=1), (top + low) / 2, (top - low) / 2


def endurance_along(beam: ShaftBeam) -> Array:
    """Endurance limit in MPa at each place; halved where slip gets at the steel."""
    limit = fatigue.endurance_limit.formula(
        beam.steel["tensile_strength"], beam.diameters, beam.own.finish
    )
    sleeve = beam.machine.spec.sleeve
    wet = (beam.places > beam.trough[0]) & (beam.places < beam.trough[1])
    open_to_slip = beam.steel["family"] != "stainless" and (
        sleeve.kind == "none" or not sleeve.sealed_ends
    )
    return np.asarray(limit * np.where(wet & open_to_slip, fatigue.CORRODED, 1.0))


def worst_place(beam: ShaftBeam, rule: Rule) -> int:
    """Find the place of a shaft where a rule asks for the most over what is there."""
    asked = np.where(rule.where[:, None], rule.needed, 0.0).max(axis=0)
    return int(np.argmax(asked / beam.diameters))
