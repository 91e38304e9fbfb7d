"""Both paddle shafts: torsion alone, then bending, fatigue and deflection along the whole beam."""

from __future__ import annotations

from dataclasses import dataclass, replace
from math import ceil

import numpy as np

from mixerkit.cases import Case
from mixerkit.checks import Change, Check, Say
from mixerkit.parts import fatigue, seats, shaft, shaftline
from mixerkit.parts.remedies import LIGHTER, calmer, lengths, stronger
from mixerkit.parts.shaftline import Line
from mixerkit.results import Array, Flags, Indices
from mixerkit.spec import Spec
from mixerkit.tables import next_up, table
from mixerkit.units import show

__all__ = [
    "checks",
    "needed_along",
    "needed_diameters",
    "next_stock",
    "proposed_profile",
    "sleeve_warnings",
    "stock_sizes",
]

_CODE = "0.30 Sy or 0.18 Su, a quarter off for a keyway: ASME B17c (1927) as quoted in handbooks"
_YIELD = "von Mises on yield, Shigley 10th ed., eq. 5-15; factor: common practice"
_GOODMAN = (
    "DE-Goodman, Shigley 10th ed., eq. 7-7 and 7-8; notches: table 7-1, Peterson, Roark table 17.1"
)
FATIGUE = "fatigue while mixing"
SLOPE_AT_GEARS = 1e-3
"""Slope in rad at a gear: 0.0005 for wide ground teeth (Shigley 10th ed., table 7-2, from memory); twice
that for hand-cut ones that run in (common practice)."""
SLOPE_AT_BEARINGS = {"rolling": 3e-3, "plain bush": 1e-3}
"""Deep groove ball bearings 0.001 to 0.003 (Shigley 10th ed., table 7-2, from memory); bush: common practice."""


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


def _over_states(case: Case, states: Indices, values: Array) -> Array:
    """Spread values of some states (states, places) over all of them, nought elsewhere."""
    whole = np.zeros((len(case.states), values.shape[-1]))
    whole[states] = values
    return whole


def _rules(line: Line) -> list[_Rule]:
    case, steel = line.case, line.steel
    run, jam = line.running, line.stopped
    strength, tensile = steel["yield_strength"], steel["tensile_strength"]
    allowed = float(shaft.allowed_shear_stress.formula(strength, tensile, line.keyed))
    proof = strength / case.spec.safety.shaft_in_jam
    most = _over_states(case, run.states, run.torque.max(axis=1))
    stop = _over_states(case, jam.states, jam.torque.max(axis=1))
    # a hole across leaves less of the section: as if there were so much more to carry
    bends, turns = line.net.T
    # of all angles of a turn, and of all jammed paddles, the one that asks most at each place
    felt = (1.5 * run.moment / bends) ** 2 + (run.torque / turns) ** 2
    bent_run, turned_run = _pick(felt, run.moment), _pick(felt, run.torque)
    felt = 4 * (jam.moment / bends) ** 2 + 3 * (jam.torque / turns) ** 2
    bent_jam, turned_jam = _pick(felt, jam.moment), _pick(felt, jam.torque)
    code, yielding = ("allowed shear", allowed), ("yield over the wanted factor", proof)
    breaks = tensile / strength
    bend_run, twist_run = (_over_states(case, run.states, one) for one in (bent_run, turned_run))
    bend_jam, twist_jam = (_over_states(case, jam.states, one) for one in (bent_jam, turned_jam))
    swing, middle, ripple = _turned(line)
    endurance = _endurance(line)
    tired = fatigue.diameter_for_fatigue.formula(
        swing,
        middle,
        ripple,
        endurance,
        tensile,
        case.spec.safety.shaft_fatigue,
        line.factors[:, 0],
        line.factors[:, 1],
    )
    return [
        _Rule(
            "torsion while mixing",
            shaft.diameter_for_torsion.formula(most / turns, allowed),
            most,
            None,
            case.mixing,
            code,
            _CODE,
        ),
        _Rule(
            "torsion in a jam",
            shaft.diameter_for_torsion.formula(stop / turns, proof * shaft.SHEAR_YIELD),
            stop,
            None,
            case.jammed,
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
            case.mixing,
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
            case.jammed,
            yielding,
            _YIELD,
            (3.0, breaks),
        ),
        _Rule(
            FATIGUE,
            _over_states(case, run.states, tired),
            most,
            _over_states(case, run.states, swing),
            case.mixing,
            ("endurance limit", float(endurance.min())),
            _GOODMAN,
        ),
    ]


def _pick(felt: Array, values: Array) -> Array:
    """Values of the middle axis where what is felt is greatest."""
    place = felt.argmax(axis=1)[:, None]
    return np.take_along_axis(values, place, axis=1)[:, 0]


def _turned(line: Line) -> tuple[Array, Array, Array]:
    """Alternating moment, mean torque and alternating torque at each place, over the states that turn."""
    run = line.running
    top, low = run.torque.max(axis=1), run.torque.min(axis=1)
    return run.moment.max(axis=1), (top + low) / 2, (top - low) / 2


def _endurance(line: Line) -> Array:
    """Endurance limit in MPa at each place; halved where slip gets at the steel."""
    limit = fatigue.endurance_limit.formula(
        line.steel["tensile_strength"], line.diameters, line.own.finish
    )
    sleeve = line.case.spec.sleeve
    wet = (line.places > line.trough[0]) & (line.places < line.trough[1])
    open_to_slip = line.steel["family"] != "stainless" and (
        sleeve.kind == "none" or not sleeve.sealed_ends
    )
    return np.asarray(limit * np.where(wet & open_to_slip, fatigue.CORRODED, 1.0))


def _worst_place(line: Line, rule: _Rule) -> int:
    asked = np.where(rule.where[:, None], rule.needed, 0.0).max(axis=0)
    return int(np.argmax(asked / line.diameters))


def _rules_at(case: Case, number: int, diameter: float) -> tuple[Line, list[_Rule]]:
    """The rules with a shaft of another diameter, everything else being as it is."""
    own = getattr(case.spec, f"shaft_{number}").with_numbers(diameter=diameter)
    spec = case.spec.with_numbers(**{f"shaft_{number}": own})
    line = Line(replace(case, spec=spec), number)
    return line, _rules(line)


def _would_do(line: Line, which: int) -> float:
    """Diameter at which one rule just holds, found by making the shaft anew."""
    rule = _rules(line)[which]
    place = _worst_place(line, rule)
    first = float(np.where(rule.where[:, None], rule.needed, 0.0).max(axis=0)[place])
    if line.own.step_at or not 0 < first < np.inf:
        return first

    def asks(diameter: float) -> float:
        there, rules = _rules_at(line.case, line.number, diameter)
        one = rules[which]
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
    row = shaftline.bearing_for(size) if line.case.spec.bearings.kind == "rolling" else None
    # a bar just as thick as its bearings' bore has no seat turned down
    if row and first <= row["bore"] < size and asks(row["bore"]) <= row["bore"]:
        return float(row["bore"])
    return size


def needed_diameters(case: Case, number: int) -> dict[str, float]:
    """Diameter in mm that each rule asks of a shaft, in the state and at the place that ask most.

    Parameters
    ----------
    case : Case
    number : int
        1 or 2.

    Returns
    -------
    dict of str to float
    """
    line = case.lines[number - 1]
    return {rule.name: _would_do(line, k) for k, rule in enumerate(_rules(line))}


def needed_along(line: Line, *, torsion_alone: bool = False) -> Array:
    """Diameter in mm that all rules together, or those of torsion, ask at each place of a shaft."""
    rules = [rule for rule in _rules(line) if rule.moment is None or not torsion_alone]
    asked = [np.where(rule.where[:, None], rule.needed, 0.0).max(axis=0) for rule in rules]
    return np.asarray(np.max(asked, axis=0))


def proposed_profile(line: Line, system: str) -> list[tuple[str, float, float, float, float]]:
    """A stepped shaft that would do: zones between bearings, each turned from one bar.

    Parameters
    ----------
    line : Line
    system : str
        ``"metric"`` or ``"inch"``: whose stock sizes.

    Returns
    -------
    list of tuple
        Zone, from, to, diameter needed, and diameter proposed, in mm. Where no stock size is large
        enough the proposal is infinite.
    """
    needed = needed_along(line)
    first, second, last = (line.places[i] for i in line.supports)
    zones = [("gears", first, second), ("trough", second, last)]
    if line.box is not None:
        zones.insert(0, ("reduction box", float(line.places[0]), first))
    rows = []
    for name, start, end in zones:
        inside = (line.places >= start - 1e-6) & (line.places <= end + 1e-6)
        most = float(needed[inside].max())
        rows.append((name, float(start), float(end), most, next_stock(most, system)))
    return rows


def sleeve_warnings(spec: Spec) -> list[str]:
    """What a stainless sleeve over a steel shaft brings with it.

    References
    ----------
    Common practice for crevices under wet clay and for unlike metals in it.
    """
    sleeve = spec.sleeve
    if sleeve.kind == "none":
        return ["Bare shafts in wet clay rust and score; clean and oil them after every day."]
    found = []
    family = {
        table("materials").find(getattr(spec, f"shaft_{n}").material).values["family"]
        for n in (1, 2)
    }
    if not sleeve.sealed_ends:
        found.append(
            "Slip creeps between sleeve and shaft and stays wet: seal both ends, or count on half the endurance."
        )
    if (
        table("materials").find(sleeve.material).values["family"] == "stainless"
        and "steel" in family
    ):
        found.append(
            "Stainless on plain steel makes a cell where slip joins them: the steel rusts. Grease it under the sleeve "
            "and seal the ends."
        )
    if sleeve.sealed_ends:
        found.append(
            "Chloride in some clays pits stainless under a still film: rinse with clean water."
        )
    if sleeve.kind == "floating":
        found.append(
            "A floating sleeve rubs where the shaft bends: grease it and look at it every year."
        )
    return found


def checks(case: Case) -> list[Check]:
    """Check both shafts by every rule, and how they bend.

    Parameters
    ----------
    case : Case

    Returns
    -------
    list of Check
    """
    found = []
    for line in case.lines:
        found += [_check(line, k, rule) for k, rule in enumerate(_rules(line))] + seats.checks(line)
        found += _bending(line)
    return found + _sleeve(case)


def _unknown(line: Line, rule: _Rule) -> str:
    """Why a rule cannot be judged on a shaft; empty where it can."""
    share = line.holes / line.diameters
    if share.max() > fatigue.HOLES[1]:
        return f"at {line.what[int(share.argmax())]}, {line.beyond[int(share.argmax())]}"
    if rule.name != FATIGUE:
        return ""
    if line.beyond:
        place = min(line.beyond)
        return f"at {line.what[place]}, {line.beyond[place]}"
    if line.steel["family"] not in ("steel", "stainless"):
        return f"the endurance limit is that of steels, and the shaft is {line.own.material}"
    largest = float(line.diameters.max())
    if largest > fatigue.LARGEST:
        said = [show(one, "mm", line.case.system) for one in (largest, fatigue.LARGEST)]
        return f"the size factor reaches to {said[1]}, and the shaft has {said[0]}"
    return ""


_STEPS = {"metric": 0.5, "inch": 25.4 / 32}
"""What a step is turned to when it is turned anew, in mm: half millimetres and 1/32 in (common practice)."""


def _thicker(line: Line, factor: float, place: int | None = None) -> list[Change]:
    """The shaft so many times as thick: where it counts, and all of it."""
    own, field, factor = line.own, f"shaft_{line.number}", float(factor)
    if not 0 < factor < np.inf:
        return [f"{field}.diameter"]
    whole: dict[str, float] = {f"{field}.diameter": own.diameter * factor}
    if not own.step_at:
        return [whole]
    system = line.case.system

    def turned(size: float) -> float:
        return ceil(size * factor / _STEPS[system]) * _STEPS[system]

    steps = lengths(map(turned, own.step_diameters), system)
    found: list[Change] = [{**whole, f"{field}.step_diameters": steps}]
    if place is None:
        return found
    section = int(np.searchsorted(own.step_at, line.places[place]))
    if section == 0:
        return [whole, *found]
    here = list(own.step_diameters)
    here[section - 1] = turned(here[section - 1])
    return [{f"{field}.step_diameters": lengths(here, system)}, *found]


def _mends(line: Line, rule: _Rule, place: int, i: int, over: float) -> list[Change]:
    """What helps a shaft by a rule: thickness, steel, less to carry, and what weakens it at the place."""
    case, field, notch = line.case, f"shaft_{line.number}", line.notches[place]
    cubed = over**3
    found = [
        *_thicker(line, over, place),
        *stronger(
            (f"{field}.material",),
            line.own.material,
            "materials",
            ("tensile_strength", "yield_strength"),
            cubed,
            ("steel", "stainless"),
        ),
        *calmer(case, i, cubed),
    ]
    if notch == "shoulder":
        found.append(f"{field}.fillet")
    if "sleeve pins" in line.what[place].split(", "):
        found.append("sleeve.pin_diameter")
    if rule.moment is not None:
        kind = case.spec.sleeve.kind
        found += [{"sleeve.kind": "carried"}] if kind != "carried" else []
        found += ["bearings.span", *(("reducer.overhang",) if line.number == 1 else ())]
    if rule.name == FATIGUE:
        found += [{"sleeve.sealed_ends": True}] if not case.spec.sleeve.sealed_ends else []
        found += [{f"{field}.finish": "ground"}] if line.own.finish != "ground" else []
    return found + (list(LIGHTER) if case.mixing[i] else [])


def _check(line: Line, which: int, rule: _Rule) -> Check:
    case, place = line.case, _worst_place(line, rule)
    has = float(line.diameters[place])
    part, name = f"shaft {line.number}", f"diameter for {rule.name}"
    why = _unknown(line, rule)
    if why:
        return replace(
            case.not_judged("shafts", part, name, why), fixes=lambda: _in_range(line, place)
        )

    def reason(i: int, say: Say) -> str:
        bend = f", M = {say(rule.moment[i, place], 'N*m')}" if rule.moment is not None else ""
        notch = (
            f", {line.notches[place] or 'no notch'}: Kf {line.factors[place, 0]:.2f}, Kfs {line.factors[place, 1]:.2f}"
            if which == 4
            else f", hole across {say(line.holes[place], 'mm')}"
            if line.holes[place]
            else ""
        )
        return (
            f"at {line.what[place]}: T = {say(rule.torque[i, place], 'N*m')}{bend}{notch}; "
            f"{rule.limit[0]} {say(rule.limit[1], 'MPa')}"
        )

    # the proof stress has the wanted factor in it already; the ladder wants yield itself
    rung = rule.rung
    check = case.check(
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
        fix=lambda i: _mends(line, rule, place, i, float(rule.needed[i, place] / has)),
    )
    if check.gives:
        factor = case.spec.safety.shaft_in_jam
        check = replace(check, gives=(check.gives[0] * factor, check.gives[1] * factor))
    return check


def _in_range(line: Line, place: int) -> list[Change]:
    """What brings a shaft back to where the rules reach."""
    field, hole = f"shaft_{line.number}", float(line.holes.max())
    found: list[Change] = []
    if line.beyond:
        place = min(line.beyond)
        step = float(line.larger[place] - line.diameters[place]) / 2
        if hole:
            size = float(line.diameters[int(line.holes.argmax())])
            found += [
                {
                    "sleeve.pin_diameter"
                    if "sleeve pins" in line.what[int(line.holes.argmax())]
                    else "hubs.pin_diameter": 0.3 * size
                },
                {f"{field}.diameter": hole / 0.3},
            ]
        if step > 0:
            found.append({f"{field}.fillet": step / fatigue.SHARPEST})
    if line.steel["family"] not in ("steel", "stainless"):
        found += [
            {f"{field}.material": name}
            for name in ("steel C45 quenched and tempered", "steel 42CrMo4 quenched and tempered")
        ]
    return [*found, f"{field}.diameter"]


def _bending(line: Line) -> list[Check]:
    case, spec = line.case, line.case.spec
    run = line.turning
    part, mixing = f"shaft {line.number}", case.mixing
    turns = mixing[run.states]
    bent = line.bends(run.force[turns])
    slope = _over_states(case, run.states[turns], bent.slope.max(axis=1))
    lift = _over_states(case, run.states[turns], bent.lift.max(axis=1))
    stop = line.stopped
    jam = _over_states(case, stop.states, stop.lift.max(axis=1))
    gears = list(line.gears.values())
    worst = gears[int(slope[:, gears].max(axis=0).argmax())]
    held = line.supports[int(slope[:, line.supports].max(axis=0).argmax())]
    sags = np.maximum(lift, jam)[:, line.paddles].max(axis=1)
    bearing = SLOPE_AT_BEARINGS[spec.bearings.kind]
    speed, clear = case.speed, 0.5 * spec.trough.wall_clearance

    def thicker(value: float, allowed: float) -> list[Change]:
        # stiffness goes with the fourth power of the diameter
        return _thicker(line, float(value / allowed) ** 0.25)

    carried: list[Change] = [{"sleeve.kind": "carried"}] if spec.sleeve.kind != "carried" else []
    return [
        case.check(
            "shafts",
            part,
            f"slope at the gears of {part}",
            where=mixing,
            demand=1e3 * slope[:, worst],
            capacity=1e3 * SLOPE_AT_GEARS,
            unit="mrad",
            source="0.0005 for ground teeth, Shigley 10th ed., table 7-2 (from memory); twice that hand-cut: common practice",
            reason=lambda i, say: f"at {line.what[worst]}, the worst of a turn",
            fix=lambda i: [
                *thicker(slope[i, worst], SLOPE_AT_GEARS),
                *(f"paths.{one}.position" for one in line.gears),
                "housing.plate_spacing",
                *carried,
                *LIGHTER,
            ],
        ),
        case.check(
            "shafts",
            part,
            f"slope in the bearings of {part}",
            where=mixing,
            demand=1e3 * slope[:, held],
            capacity=1e3 * bearing,
            unit="mrad",
            source=f"{spec.bearings.kind}: Shigley 10th ed., table 7-2 (from memory), common practice for bushes",
            reason=lambda i, say: f"at {line.what[held]}, the worst of a turn",
            fix=lambda i: [
                *thicker(slope[i, held], bearing),
                *([{"bearings.kind": "rolling"}] if spec.bearings.kind != "rolling" else []),
                *carried,
                "bearings.span",
                *(("reducer.overhang",) if line.number == 1 else ()),
                *LIGHTER,
            ],
        ),
        case.check(
            "shafts",
            part,
            f"paddles of {part} keep off the wall",
            where=mixing | case.jammed,
            demand=sags,
            capacity=clear,
            unit="mm",
            source="half the gap left for building errors: common practice",
            reason=lambda i, say: (
                f"shaft bent, sleeve {spec.sleeve.kind}; gap {say(spec.trough.wall_clearance, 'mm')}"
            ),
            fix=lambda i: [
                *thicker(sags[i], clear),
                {"trough.wall_clearance": float(2 * sags[i])},
                *carried,
                *calmer(case, i, sags[i] / clear),
                "bearings.span",
                *(LIGHTER if case.mixing[i] else ()),
            ],
        ),
        case.check(
            "shafts",
            part,
            f"first bending speed of {part}",
            demand=3 * speed,
            capacity=line.first_speed,
            unit="rpm",
            source="Rayleigh: Shigley 10th ed., eq. 7-23; three times the speed: common practice",
            reason=lambda i, say: f"it turns at {say(speed, 'rpm')}",
            fix=lambda i: [
                *_thicker(line, float(np.sqrt(3 * speed / line.first_speed))),
                "bearings.span",
                "motor.run_at",
                "reducer",
            ],
        ),
    ]


def _sleeve(case: Case) -> list[Check]:
    """The sleeve: does it go over the shaft, does it carry the torque, does a floating one rub."""
    spec, sleeve = case.spec, case.spec.sleeve
    if sleeve.kind == "none":
        return []
    thickest = max(float(line.segments.max()) for line in case.lines)
    outer = 2 * spec.paddles.root_radius
    inner = max(outer - 2 * sleeve.wall, 0.0)
    gap = (inner - thickest) / 2
    steel = table("materials").find(sleeve.material).values
    torque = np.maximum(*case.flow.paddles)
    polar = (outer**4 - inner**4) * np.pi / 32
    strength = steel["yield_strength"]
    bending = np.zeros(len(case.states))
    if sleeve.kind == "carried":
        # what the shaft does not carry of the moment at the paddles, the sleeve does
        for line in case.lines:
            stop = line.stopped
            whole = (stop.moment / line.shares)[..., line.paddles].max(axis=(1, 2)) * (
                1 - line.share.min()
            )
            bending[stop.states] = np.maximum(bending[stop.states], whole)
    with np.errstate(divide="ignore", invalid="ignore"):
        stress = 1e3 * outer / 2 / polar * np.sqrt((2 * bending) ** 2 + 3 * torque**2)
    safety = spec.safety.shaft_in_jam

    def wider(i: int, over: float) -> list[Change]:
        wall = sleeve.wall * over
        return [
            {"sleeve.wall": wall},
            {
                "sleeve.wall": wall,
                "paddles.root_radius": spec.paddles.root_radius + wall - sleeve.wall,
            },
            *stronger(
                ("sleeve.material",),
                sleeve.material,
                "materials",
                ("yield_strength",),
                over,
                ("stainless", "steel"),
            ),
            *calmer(case, i, over),
        ]

    found: list[Check] = [
        case.check(
            "shafts",
            "sleeve",
            "sleeve goes over the shaft",
            demand=0.1,
            capacity=gap,
            unit="mm",
            tight=1.0,
            source="0.1 mm on the radius so that it slides on: common practice",
            reason=lambda i, say: f"inside {say(inner, 'mm')}, shaft {say(thickest, 'mm')}",
            fix=lambda i: [
                {"paddles.root_radius": thickest / 2 + 0.1 + sleeve.wall},
                {"sleeve.wall": (outer - thickest - 0.2) / 2},
                {
                    f"shaft_{line.number}.diameter": inner - 0.2
                    for line in case.lines
                    if line.segments.max() > inner - 0.2
                },
            ],
        ),
        case.check(
            "shafts",
            "sleeve",
            "sleeve carries the paddles' torque",
            where=case.jammed,
            demand=stress,
            capacity=strength,
            unit="MPa",
            safety=safety,
            rung=(1.0, steel["tensile_strength"] / steel["yield_strength"]),
            source="thick tube in bending and torsion: Shigley 10th ed., eqs. 3-24 and 3-37; von Mises 5-15; yield",
            reason=lambda i, say: (
                f"T = {say(torque[i], 'N*m')}, M = {say(bending[i], 'N*m')} of its own, {say(outer, 'mm')} outside, wall {say(sleeve.wall, 'mm')}"
            ),
            fix=lambda i: wider(i, float(stress[i] * safety / strength)),
        ),
    ]
    if sleeve.kind == "floating":
        bows = []
        for line in case.lines:
            stop = line.stopped
            bows.append(
                _over_states(case, stop.states, stop.lift.max(axis=1))[:, line.paddles].max(axis=1)
            )
        # each shaft in its own sleeve: the thinner one has more room, and bends more
        room = np.array([(inner - line.segments.max()) / 2 for line in case.lines])
        share = np.divide(
            bows, room[:, None], out=np.full(np.shape(bows), np.inf), where=room[:, None] > 0
        )
        worst = share.argmax(axis=0)
        bow, free = np.take_along_axis(np.array(bows), worst[None], axis=0)[0], room[worst]
        found.append(
            case.check(
                "shafts",
                "sleeve",
                "a floating sleeve does not rub",
                where=case.jammed,
                demand=bow,
                capacity=free,
                unit="mm",
                source="the shaft bends inside it: beam",
                reason=lambda i, say: (
                    f"gap {say(free[i], 'mm')} on the radius round shaft {worst[i] + 1}"
                ),
                fix=lambda i: [
                    {"sleeve.kind": "carried"},
                    {"paddles.root_radius": spec.paddles.root_radius + float(bow[i] - free[i])},
                    "shaft_1.diameter",
                    "shaft_2.diameter",
                    *calmer(case, i, float(bow[i] / free[i]) if free[i] > 0 else np.inf),
                ],
            )
        )
    return found
