"""Both paddle shafts: torsion alone, then bending, fatigue and deflection along the whole beam."""

from __future__ import annotations

from dataclasses import dataclass, replace

import numpy as np

from mixerkit.checking import make_check, make_unjudged
from mixerkit.checks import Change, Check, Say
from mixerkit.parts import deflection, fatigue, seats, shaft, shaftline, sleeve_checks
from mixerkit.parts.deflection import over_states, thicker
from mixerkit.parts.remedies import LIGHTER, calmer, stronger
from mixerkit.parts.shaftline import ShaftBeam
from mixerkit.parts.worked import WorkedMachine
from mixerkit.results import Array, Flags, LoadedMachine
from mixerkit.tables import next_up, table
from mixerkit.units import show
from mixerkit.working import Given, Working, by_method, worked

__all__ = [
    "checks",
    "needed_along",
    "needed_diameters",
    "next_stock",
    "proposed_profile",
    "stock_sizes",
]

_CODE = "0.30 Sy or 0.18 Su, a quarter off for a keyway: ASME B17c (1927) as quoted in handbooks"
_YIELD = "von Mises on yield, Shigley 10th ed., eq. 5-15; factor: common practice"
_GOODMAN = (
    "DE-Goodman, Shigley 10th ed., eq. 7-7 and 7-8; notches: table 7-1, Peterson, Roark table 17.1"
)
FATIGUE = "fatigue while mixing"


@dataclass(frozen=True)
class _Rule:
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


def next_stock(diameter: float, system: str) -> float:
    """Next round bar in stock in mm that is at least a diameter, infinite above the list."""
    return float(next_up(diameter, np.array(stock_sizes(system))))


def stock_sizes(system: str) -> list[float]:
    """Round bars in stock in mm, ``"metric"`` or ``"inch"``."""
    return [
        row.values["diameter"] for row in table("stock_round") if row.values["series"] == system
    ]


def _rules(beam: ShaftBeam) -> list[_Rule]:
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
    swing, middle, ripple = _turned(beam)
    endurance = _endurance(beam)
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
        _Rule(
            "torsion while mixing",
            shaft.diameter_for_torsion.formula(most / turns, allowed),
            most,
            None,
            machine.load_cases.mixing,
            code,
            _CODE,
        ),
        _Rule(
            "torsion in a jam",
            shaft.diameter_for_torsion.formula(stop / turns, proof * shaft.SHEAR_YIELD),
            stop,
            None,
            machine.load_cases.jammed,
            yielding,
            _YIELD,
        ),
        _Rule(
            "bending with torsion while mixing",
            shaft.diameter_for_bending_and_torsion.formula(
                bend_run / bends, twist_run / turns, allowed
            ),
            twist_run,
            bend_run,
            machine.load_cases.mixing,
            code,
            _CODE,
        ),
        _Rule(
            "bending with torsion in a jam",
            shaft.diameter_for_equivalent_stress.formula(
                bend_jam / bends, twist_jam / turns, proof
            ),
            twist_jam,
            bend_jam,
            machine.load_cases.jammed,
            yielding,
            _YIELD,
            (3.0, breaks),
        ),
        _Rule(
            FATIGUE,
            over_states(machine, run.states, tired),
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


def _turned(beam: ShaftBeam) -> tuple[Array, Array, Array]:
    """Alternating moment, mean torque and alternating torque at each place, over the states that turn."""
    run = beam.running
    top, low = run.torque.max(axis=1), run.torque.min(axis=1)
    return run.moment.max(axis=1), (top + low) / 2, (top - low) / 2


def _endurance(beam: ShaftBeam) -> Array:
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


def _worst_place(beam: ShaftBeam, rule: _Rule) -> int:
    asked = np.where(rule.where[:, None], rule.needed, 0.0).max(axis=0)
    return int(np.argmax(asked / beam.diameters))


def _rules_at(
    machine: LoadedMachine, number: int, diameter: float
) -> tuple[ShaftBeam, list[_Rule]]:
    """The rules with a shaft of another diameter, everything else being as it is."""
    own = getattr(machine.spec, f"shaft_{number}").with_numbers(diameter=diameter)
    beam = ShaftBeam(machine.with_numbers(**{f"shaft_{number}": own}), number)
    return beam, _rules(beam)


def _named(rules: list[_Rule], name: str) -> _Rule:
    return next(rule for rule in rules if rule.name == name)


def _would_do(beam: ShaftBeam, name: str) -> float:
    """Diameter at which one rule just holds, found by making the shaft anew."""
    rule = _named(_rules(beam), name)
    place = _worst_place(beam, rule)
    first = float(np.where(rule.where[:, None], rule.needed, 0.0).max(axis=0)[place])
    if beam.own.step_at or not 0 < first < np.inf:
        return first

    def asks(diameter: float) -> float:
        there, rules = _rules_at(beam.machine, beam.number, diameter)
        one = _named(rules, name)
        needed = np.where(one.where[:, None], one.needed, 0.0).max(axis=0)
        # a seat turned down for a bearing asks the whole bar to be that much thicker
        return float((needed / there.diameters).max() * diameter)

    # a thicker shaft has other notches, weight and share of the sleeve: go up until it settles
    size = first
    for _ in range(8):
        asked = asks(size)
        if asked <= size:
            break
        size = asked * (1 + 1e-4)
    while size - asked > 1e-3 * size:
        middle = (asked + size) / 2
        size, asked = (middle, asked) if asks(middle) <= middle else (size, middle)
    row = shaftline.bearing_for(size) if beam.machine.spec.bearings.kind == "rolling" else None
    # a bar just as thick as its bearings' bore has no seat turned down
    if row and first <= row["bore"] < size and asks(row["bore"]) <= row["bore"]:
        return float(row["bore"])
    return size


def needed_diameters(machine: WorkedMachine, number: int) -> dict[str, float]:
    """Diameter in mm that each rule asks of a shaft, in the state and at the place that ask most.

    Parameters
    ----------
    machine : WorkedMachine
    number : int
        1 or 2.

    Returns
    -------
    dict of str to float
    """
    beam = machine.shaft_beams[number - 1]
    return {rule.name: _would_do(beam, rule.name) for rule in _rules(beam)}


def needed_along(beam: ShaftBeam, *, torsion_alone: bool = False) -> Array:
    """Diameter in mm that all rules together, or those of torsion, ask at each place of a shaft."""
    rules = [rule for rule in _rules(beam) if rule.moment is None or not torsion_alone]
    asked = [np.where(rule.where[:, None], rule.needed, 0.0).max(axis=0) for rule in rules]
    return np.asarray(np.max(asked, axis=0))


def proposed_profile(beam: ShaftBeam, system: str) -> list[tuple[str, float, float, float, float]]:
    """A stepped shaft that would do: zones between bearings, each turned from one bar.

    Parameters
    ----------
    beam : ShaftBeam
    system : str
        ``"metric"`` or ``"inch"``: whose stock sizes.

    Returns
    -------
    list of tuple
        Zone, from, to, diameter needed, and diameter proposed, in mm. Where no stock size is large
        enough the proposal is infinite.
    """
    needed = needed_along(beam)
    first, second, last = (beam.places[i] for i in beam.supports)
    zones = [("gears", first, second), ("trough", second, last)]
    if beam.box is not None:
        zones.insert(0, ("reduction box", float(beam.places[0]), first))
    rows = []
    for name, start, end in zones:
        inside = (beam.places >= start - 1e-6) & (beam.places <= end + 1e-6)
        most = float(needed[inside].max())
        rows.append((name, float(start), float(end), most, next_stock(most, system)))
    return rows


def checks(machine: WorkedMachine) -> list[Check]:
    """Check both shafts by every rule, and how they bend.

    Parameters
    ----------
    machine : WorkedMachine

    Returns
    -------
    list of Check
    """
    found = []
    for beam in machine.shaft_beams:
        found += [_check(beam, rule) for rule in _rules(beam)] + seats.checks(beam)
        found += deflection.checks(beam)
    return found + sleeve_checks.checks(machine)


def _unknown(beam: ShaftBeam, rule: _Rule) -> str:
    """Why a rule cannot be judged on a shaft; empty where it can."""
    share = beam.holes / beam.diameters
    if share.max() > fatigue.HOLES[1]:
        return f"at {beam.what[int(share.argmax())]}, {beam.beyond[int(share.argmax())]}"
    if rule.name != FATIGUE:
        return ""
    if beam.beyond:
        place = min(beam.beyond)
        return f"at {beam.what[place]}, {beam.beyond[place]}"
    if beam.steel["family"] not in ("steel", "stainless"):
        return f"the endurance limit is that of steels, and the shaft is {beam.own.material}"
    largest = float(beam.diameters.max())
    if largest > fatigue.LARGEST:
        said = [show(one, "mm", beam.machine.system) for one in (largest, fatigue.LARGEST)]
        return f"the size factor reaches to {said[1]}, and the shaft has {said[0]}"
    return ""


def _mends(beam: ShaftBeam, rule: _Rule, place: int, i: int, over: float) -> list[Change]:
    """What helps a shaft by a rule: thickness, steel, less to carry, and what weakens it at the place."""
    machine, field, notch = beam.machine, f"shaft_{beam.number}", beam.notches[place]
    cubed = over**3
    found = [
        *thicker(beam, over, place),
        *stronger(
            (f"{field}.material",),
            beam.own.material,
            "materials",
            ("tensile_strength", "yield_strength"),
            cubed,
            ("steel", "stainless"),
        ),
        *calmer(machine, i, cubed),
    ]
    if notch == "shoulder":
        found.append(f"{field}.fillet")
    if "sleeve pins" in beam.what[place].split(", "):
        found.append("sleeve.pin_diameter")
    if rule.moment is not None:
        kind = machine.spec.sleeve.kind
        found += [{"sleeve.kind": "carried"}] if kind != "carried" else []
        found += ["paddles.bearing_span", *(("reducer.overhang",) if beam.number == 1 else ())]
    if rule.name == FATIGUE:
        found += [{"sleeve.sealed_ends": True}] if not machine.spec.sleeve.sealed_ends else []
        found += [{f"{field}.finish": "ground"}] if beam.own.finish != "ground" else []
    return found + (list(LIGHTER) if machine.load_cases.mixing[i] else [])


def _check(beam: ShaftBeam, rule: _Rule) -> Check:
    machine, place = beam.machine, _worst_place(beam, rule)
    has = float(beam.diameters[place])
    part, name = f"shaft {beam.number}", f"diameter for {rule.name}"
    why = _unknown(beam, rule)
    if why:
        return replace(
            make_unjudged(machine, "shafts", part, name, why), fixes=lambda: _in_range(beam, place)
        )

    def reason(i: int, say: Say) -> str:
        bend = f", M = {say(rule.moment[i, place], 'N*m')}" if rule.moment is not None else ""
        notch = (
            f", {beam.notches[place] or 'no notch'}: Kf {beam.factors[place, 0]:.2f}, Kfs {beam.factors[place, 1]:.2f}"
            if rule.name == FATIGUE
            else f", hole across {say(beam.holes[place], 'mm')}"
            if beam.holes[place]
            else ""
        )
        return (
            f"at {beam.what[place]}: T = {say(rule.torque[i, place], 'N*m')}{bend}{notch}; "
            f"{rule.limit[0]} {say(rule.limit[1], 'MPa')}"
        )

    # the proof stress has the wanted factor in it already; the ladder wants yield itself
    rung = rule.rung
    check = make_check(
        machine,
        "shafts",
        part,
        name,
        where=rule.where,
        demand=rule.needed[:, place],
        capacity=has,
        unit="mm",
        source=rule.source,
        reason=reason,
        rung=rung,
        fix=lambda i: _mends(beam, rule, place, i, float(rule.needed[i, place] / has)),
        working=lambda i: _rule_worked(beam, rule, place, i),
    )
    if check.gives:
        factor = machine.spec.safety.shaft_in_jam
        check = replace(check, gives=(check.gives[0] * factor, check.gives[1] * factor))
    return check


def _rule_worked(beam: ShaftBeam, rule: _Rule, place: int, i: int) -> list[Working]:
    """How the diameter that a rule asks for follows from what the shaft carries at its place."""
    own = f"shaft {beam.number} as a beam, at {beam.what[place]}"
    torque: Given = (float(rule.torque[i, place]), "N*m", own)
    bends, turns = (float(one) for one in beam.net[place])
    hole = f"section left by a hole across, {own}"
    left_turn: Given = (turns, "", hole)
    left_bend: Given = (bends, "", hole)
    needed, allowed = float(rule.needed[i, place]), _limit_worked(beam, rule)
    if rule.name == FATIGUE:
        return _fatigue_worked(beam, place, i, needed, own)
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


def _limit_worked(beam: ShaftBeam, rule: _Rule) -> Working:
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


def _fatigue_worked(beam: ShaftBeam, place: int, i: int, needed: float, own: str) -> list[Working]:
    row = int(np.flatnonzero(beam.running.states == i)[0])
    swing, middle, ripple = (float(one[row, place]) for one in _turned(beam))
    limit, notch = float(_endurance(beam)[place]), beam.notches[place] or "no notch"
    tensile: Given = (
        beam.steel["tensile_strength"],
        "MPa",
        f"data/tables/materials.csv, {beam.own.material}: tensile strength",
    )
    return [
        by_method(
            "sigma_e",
            f"half of the tensile strength, 700 MPa at most, times surface ({beam.own.finish}), size and reliability factors, and half of it where slip wets the steel",
            limit,
            "MPa",
            source="Shigley 10th ed., eq. 6-8 and 6-18",
            R_m=tensile,
            d=(float(beam.diameters[place]), "mm", own),
        ),
        worked(
            "d = (16*S/pi*(sqrt(4*(K_f*M_a)**2 + 3*(K_fs*T_a)**2)/sigma_e + sqrt(3)*K_fs*T_m/R_m))**(1/3)",
            needed,
            "mm",
            S=(beam.machine.spec.safety.shaft_fatigue, "", "safety.shaft_fatigue"),
            K_f=(float(beam.factors[place, 0]), "", f"notch factor in bending: {notch}"),
            K_fs=(float(beam.factors[place, 1]), "", f"notch factor in torsion: {notch}"),
            M_a=(swing, "N*m", own),
            T_a=(ripple, "N*m", own),
            T_m=(middle, "N*m", own),
            sigma_e=(limit, "MPa", "above"),
            R_m=tensile,
        ),
    ]


def _in_range(beam: ShaftBeam, place: int) -> list[Change]:
    """What brings a shaft back to where the rules reach."""
    field, hole = f"shaft_{beam.number}", float(beam.holes.max())
    found: list[Change] = []
    if beam.beyond:
        place = min(beam.beyond)
        step = float(beam.larger[place] - beam.diameters[place]) / 2
        if hole:
            size = float(beam.diameters[int(beam.holes.argmax())])
            found += [
                {
                    "sleeve.pin_diameter"
                    if "sleeve pins" in beam.what[int(beam.holes.argmax())]
                    else "hubs.pin_diameter": 0.3 * size
                },
                {f"{field}.diameter": hole / 0.3},
            ]
        if step > 0:
            found.append({f"{field}.fillet": step / fatigue.SHARPEST})
    if beam.steel["family"] not in ("steel", "stainless"):
        found += [
            {f"{field}.material": name}
            for name in ("steel C45 quenched and tempered", "steel 42CrMo4 quenched and tempered")
        ]
    return [*found, f"{field}.diameter"]
