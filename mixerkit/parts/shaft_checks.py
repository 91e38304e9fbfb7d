"""Both paddle shafts: torsion alone, then bending, fatigue and deflection along the whole beam."""

from __future__ import annotations

from dataclasses import replace

import numpy as np

from mixerkit.checking import make_check, make_unjudged
from mixerkit.checks import Change, Check, Say
from mixerkit.parts import (
    bodies,
    deflection,
    fatigue,
    misaligned,
    notches,
    seats,
    sleeve_checks,
    sleeve_wall,
    sleeve_welds,
    zones,
)
from mixerkit.parts.deflection import thicker
from mixerkit.parts.remedies import LIGHTER, calmer, stronger
from mixerkit.parts.shaft_rules import FATIGUE, REVERSED, Rule, rules_of, worst_place
from mixerkit.parts.shaft_workings import rule_worked
from mixerkit.parts.shaftline import ShaftBeam
from mixerkit.parts.worked import WorkedMachine
from mixerkit.results import Array, LoadedMachine
from mixerkit.tables import next_up, table
from mixerkit.units import show

__all__ = [
    "checks",
    "needed_along",
    "needed_diameters",
    "next_stock",
    "proposed_profile",
    "stock_sizes",
]


_COUNT = "Count how often motor or clutch turn the shafts about in a batch: batch.reversals is the field."


def next_stock(diameter: float, system: str) -> float:
    """Next round bar in stock in mm that is at least a diameter, infinite above the list."""
    return float(next_up(diameter, np.array(stock_sizes(system))))


def stock_sizes(system: str) -> list[float]:
    """Round bars in stock in mm, ``"metric"`` or ``"inch"``."""
    return [
        row.values["diameter"] for row in table("stock_round") if row.values["series"] == system
    ]


def _rules_at(machine: LoadedMachine, number: int, diameter: float) -> tuple[ShaftBeam, list[Rule]]:
    """The rules with a shaft of another diameter, everything else being as it is."""
    own = getattr(machine.spec, f"shaft_{number}").with_numbers(diameter=diameter)
    beam = ShaftBeam(machine.with_numbers(**{f"shaft_{number}": own}), number)
    return beam, rules_of(beam)


def _named(rules: list[Rule], name: str) -> Rule:
    return next(rule for rule in rules if rule.name == name)


def _would_do(beam: ShaftBeam, name: str) -> float:
    """Diameter at which one rule just holds, found by making the shaft anew."""
    rule = _named(rules_of(beam), name)
    place = worst_place(beam, rule)
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
    bearings = beam.machine.spec.bearings
    row = zones.bearing_for(size, bearings.series) if bearings.kind == "rolling" else None
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
    return {rule.name: _would_do(beam, rule.name) for rule in rules_of(beam)}


def needed_along(beam: ShaftBeam, *, torsion_alone: bool = False) -> Array:
    """Diameter in mm that all rules together, or those of torsion, ask at each place of a shaft."""
    rules = [rule for rule in rules_of(beam) if rule.moment is None or not torsion_alone]
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
        rules = rules_of(beam)
        found += [_check(beam, rule) for rule in rules] + seats.checks(beam)
        found += deflection.checks(beam) + _in_line(beam, _named(rules, FATIGUE))
    for each in (sleeve_checks, sleeve_welds, sleeve_wall):
        found += each.checks(machine)
    return [*found, *bodies.apart(machine)]


def _unknown(beam: ShaftBeam, rule: Rule) -> str:
    """Why a rule cannot be judged on a shaft; empty where it can."""
    share = beam.holes / beam.diameters
    if share.max() > notches.HOLES[1]:
        return f"at {beam.named(int(share.argmax()))}, {beam.beyond[int(share.argmax())]}"
    if rule.name not in (FATIGUE, REVERSED):
        return ""
    if beam.beyond:
        place = min(beam.beyond)
        return f"at {beam.named(place)}, {beam.beyond[place]}"
    if beam.steel["family"] not in ("steel", "stainless"):
        return f"the endurance limit is that of steels, and the shaft is {beam.own.material}"
    largest = float(beam.diameters.max())
    if largest > fatigue.LARGEST:
        said = [show(one, "mm", beam.machine.system) for one in (largest, fatigue.LARGEST)]
        return f"the size factor reaches to {said[1]}, and the shaft has {said[0]}"
    return ""


def _mends(beam: ShaftBeam, rule: Rule, place: int, i: int, over: float) -> list[Change]:
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
    if "sleeve pins" in beam.what[place]:
        found.append("sleeve.pin_diameter")
    if rule.moment is not None:
        kind = machine.spec.sleeve.kind
        found += [{"sleeve.kind": "carried"}] if kind != "carried" else []
        found += ["bearings.span", *(("reducer.overhang",) if beam.number == 1 else ())]
    if rule.name in (FATIGUE, REVERSED):
        found += [{"sleeve.sealed_ends": True}] if not machine.spec.sleeve.sealed_ends else []
        found += [{f"{field}.finish": "ground"}] if beam.own.finish != "ground" else []
    return found + (list(LIGHTER) if machine.load_cases.mixing[i] else [])


def _check(beam: ShaftBeam, rule: Rule) -> Check:
    machine, place = beam.machine, worst_place(beam, rule)
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
            if rule.name in (FATIGUE, REVERSED)
            else f", hole across {say(beam.holes[place], 'mm')}"
            if beam.holes[place]
            else ""
        )
        return (
            f"at {beam.named(place)}: T = {say(rule.torque[i, place], 'N*m')}{bend}{notch}; "
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
        note=(lambda i, say: _COUNT) if rule.name == REVERSED else None,
        working=lambda i: rule_worked(beam, rule, place, i),
    )
    if check.gives:
        factor = machine.spec.safety.shaft_in_jam
        check = replace(check, gives=(check.gives[0] * factor, check.gives[1] * factor))
    return check


def _in_line(beam: ShaftBeam, tired: Rule) -> list[Check]:
    """Whether its bearings stand in line well enough, judged where its fatigue is."""
    place = worst_place(beam, tired)
    return misaligned.checks(beam, _unknown(beam, tired), lambda: _in_range(beam, place))


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
            found.append({f"{field}.fillet": step / notches.SHARPEST})
    if beam.steel["family"] not in ("steel", "stainless"):
        found += [
            {f"{field}.material": name}
            for name in ("steel C45 quenched and tempered", "steel 42CrMo4 quenched and tempered")
        ]
    return [*found, f"{field}.diameter"]
