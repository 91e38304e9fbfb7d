"""How the diameters that the rules of a shaft ask for are worked out."""

from __future__ import annotations

import numpy as np

from mixerkit.parts import fatigue, shaft
from mixerkit.parts.shaft_rules import (
    FATIGUE,
    PULSES,
    REVERSED,
    TURNED,
    Rule,
    dry_share,
    endurance_along,
    reversals,
)
from mixerkit.parts.shaftline import ShaftBeam
from mixerkit.working import Given, Working, worked

__all__ = ["RIPPLES", "rule_worked"]

RIPPLES = {
    0.0: "it stays as great as it gets, which is the worse",
    0.5: "half of it, falling to nought between",
    1.0: "all of it, turned about",
}
"""What swings of a torque, by its share of the greatest."""


def rule_worked(beam: ShaftBeam, rule: Rule, place: int, i: int) -> list[Working]:
    """Say how the diameter that a rule asks for follows from what the shaft carries at its place."""
    own = f"shaft {beam.number} as a beam, at {beam.named(place)}"
    torque: Given = (float(rule.torque[i, place]), "N*m", own)
    sections = beam.left if rule.name.endswith("in a jam") else beam.net
    bends, turns = (float(one) for one in sections[place])
    hole = f"section left by a hole across or a keyway, {own}"
    left_turn: Given = (turns, "", hole)
    left_bend: Given = (bends, "", hole)
    needed, allowed = float(rule.needed[i, place]), _limit_worked(beam, rule)
    if rule.name in (FATIGUE, REVERSED):
        return _fatigue_worked(beam, rule, place, i)
    limit: Given = (allowed.result, "MPa", "above")
    if rule.moment is None:
        formula = "d = (16*T/(pi*c_t*tau))**(1/3)"
        return [allowed, worked(formula, needed, "mm", T=torque, tau=limit, c_t=left_turn)]
    moment: Given = (float(rule.moment[i, place]), "N*m", own)
    if rule.name == "bending with torsion while mixing":
        formula = "d = (16*sqrt((C_m*M/c_b)**2 + (T/c_t)**2)/(pi*tau))**(1/3)"
        factor: Given = (1.5, "", "ASME B17c: load gradually applied, from memory")
        return [
            allowed,
            worked(
                formula,
                needed,
                "mm",
                C_m=factor,
                M=moment,
                T=torque,
                tau=limit,
                c_t=left_turn,
                c_b=left_bend,
            ),
        ]
    formula = "d = (16*sqrt(4*(M/c_b)**2 + 3*(T/c_t)**2)/(pi*sigma))**(1/3)"
    return [
        allowed,
        worked(
            formula, needed, "mm", M=moment, T=torque, sigma=limit, c_t=left_turn, c_b=left_bend
        ),
    ]


def _limit_worked(beam: ShaftBeam, rule: Rule) -> Working:
    row = f"data/tables/materials.csv, {beam.own.material}"
    yields: Given = (beam.steel["yield_strength"], "MPa", f"{row}: yield strength")
    wanted: Given = (beam.machine.spec.safety.shaft_in_jam, "", "safety.shaft_in_jam")
    if rule.limit[0] == "allowed shear":
        breaks: Given = (beam.steel["tensile_strength"], "MPa", f"{row}: tensile strength")
        keyed: Given = (
            0.75 if beam.keyed else 1.0,
            "",
            "a quarter off where a keyway is cut: ASME B17c",
        )
        return worked(
            "tau = k*Min(0.3*R_e, 0.18*R_m)", rule.limit[1], "MPa", k=keyed, R_e=yields, R_m=breaks
        )
    if rule.moment is None:
        shear: Given = (shaft.SHEAR_YIELD, "", "Shigley 10th ed., eq. 5-21")
        return worked(
            "tau = k*R_e/S", rule.limit[1] * shaft.SHEAR_YIELD, "MPa", k=shear, R_e=yields, S=wanted
        )
    return worked("sigma = R_e/S", rule.limit[1], "MPa", R_e=yields, S=wanted)


def _fatigue_worked(beam: ShaftBeam, rule: Rule, place: int, i: int) -> list[Working]:
    """How endurance, or strength for a count of reversals, and the diameter follow."""
    row, own = (
        int(np.flatnonzero(beam.running.states == i)[0]),
        f"shaft {beam.number} as a beam, at {beam.named(place)}",
    )
    swing, peak = (float(one[row, place]) for one in beam.swings)
    limit, notch = float(endurance_along(beam)[place]), beam.notches[place] or "no notch"
    tensile: Given = (
        beam.steel["tensile_strength"],
        "MPa",
        f"data/tables/materials.csv, {beam.own.material}: tensile strength",
    )
    bears = [_endurance_worked(beam, place, limit, tensile)]
    if rule.name == REVERSED:
        bears += _reversals_worked(beam, limit, tensile)
    borne: dict[str, Given] = {bears[-1].symbol: (bears[-1].result, "MPa", "above")}
    factors, safety = beam.factors[place], beam.machine.spec.safety.shaft_fatigue
    ripple = max(
        PULSES if rule.name == FATIGUE else TURNED,
        key=lambda one: float(
            fatigue.diameter_for_fatigue.formula(
                swing,
                (1 - one) * peak,
                one * peak,
                bears[-1].result,
                tensile[0],
                safety,
                *factors,
            )
        ),
    )
    formula = "d = (16*S/pi*(sqrt(4*(K_f*M_a)**2 + 3*(K_fs*T_a)**2)/sigma_x + sqrt(3)*K_fs*T_m/R_m))**(1/3)"
    return [
        *bears,
        worked(
            formula.replace("sigma_x", bears[-1].symbol),
            float(rule.needed[i, place]),
            "mm",
            source="",
            S=(safety, "", "safety.shaft_fatigue"),
            K_f=(float(factors[0]), "", f"notch factor in bending: {notch}"),
            K_fs=(float(factors[1]), "", f"notch factor in torsion: {notch}"),
            M_a=(swing, "N*m", f"{own}, a bearing off its line with it"),
            T_a=(ripple * peak, "N*m", f"{own}: {RIPPLES[ripple]}"),
            T_m=((1 - ripple) * peak, "N*m", f"{own}: the rest"),
            R_m=tensile,
            **borne,
        ),
    ]


def _reversals_worked(beam: ShaftBeam, limit: float, tensile: Given) -> list[Working]:
    """How often a shaft is turned about, and what it bears for that."""
    machine, batch = beam.machine, beam.machine.spec.batch
    count = reversals(machine)
    bears = float(fatigue.finite_strength.formula(limit, tensile[0], count))
    return [
        worked(
            "N = z*60*L*n/u",
            count,
            "",
            z=(batch.reversals, "", "batch.reversals"),
            L=(batch.life_hours, "", "batch.life_hours"),
            n=(machine.running_speed, "", "speed of shaft 1 in rpm"),
            u=(batch.turns_to_mix, "", "batch.turns_to_mix"),
        ),
        worked(
            "sigma_f = sigma_e*(f*R_m/sigma_e)**(2 - log(Min(Max(N, N_1), N_2))/log(N_1))",
            bears,
            "MPa",
            source="Shigley 10th ed., eq. 6-13 to 6-15",
            sigma_e=(limit, "MPa", "above"),
            f=(fatigue.AT_FEW, "", "the least of fig. 6-18, from memory"),
            R_m=tensile,
            N=(count, "", "above"),
            N_1=(fatigue.FEW, "", "fewer cycles count as so many"),
            N_2=(fatigue.MANY, "", "more cycles count as for ever"),
        ),
    ]


def _endurance_worked(beam: ShaftBeam, place: int, limit: float, tensile: Given) -> Working:
    finish, size = beam.own.finish, float(beam.diameters[place])
    surface = float(fatigue.surface_factor.formula(tensile[0], finish))
    return worked(
        "sigma_e = k_a*k_b*k_e*k_w*Min(0.5*R_m, sigma_1)",
        limit,
        "MPa",
        source="Shigley 10th ed., eq. 6-8 and 6-18",
        k_a=(surface, "", f"surface {finish}: eq. 6-19 and table 6-2"),
        k_b=(
            float(fatigue.size_factor.formula(size)),
            "",
            f"size: eq. 6-20 for a diameter of {size:g} mm",
        ),
        k_e=(fatigue.RELIABILITY, "", "99 % of shafts: table 6-5"),
        k_w=(float(dry_share(beam)[place]), "", "half where slip wets the steel: common practice"),
        R_m=tensile,
        sigma_1=(700.0, "MPa", "of steels of 1400 MPa and more: eq. 6-8"),
    )
