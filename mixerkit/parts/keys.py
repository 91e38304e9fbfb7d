"""Parallel keys of box and gears: their flanks and their shear, and the room they need."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from functools import partial

import numpy as np

from mixerkit.checking import make_check, make_unjudged
from mixerkit.checks import Change, Check, Say
from mixerkit.parts import hub, shaft
from mixerkit.parts.key_flanks import Flank, flank_depth, worst_flank
from mixerkit.parts.keyed import KeyedHub, bearing_length, key_for
from mixerkit.parts.metals import Metal, metal, stronger_metals
from mixerkit.parts.remedies import LIGHTER, calmer
from mixerkit.results import Array, Flags, LoadedMachine, TableRow
from mixerkit.units import InputError
from mixerkit.working import Given, Working, worked

__all__ = ["BOX", "KeyedHub", "bearing_length", "flank_checks", "key_for", "wide_enough"]

BOX = "hubs.box_material"
"""Field that names the metal of the box's hollow shaft: a fact, which nobody cuts anew."""
MIXING_SHARE = 0.5
"""Share of yield that a key's flank may feel day by day, reversing (common practice)."""
_FLANK_MIXING, _FLANK_JAM, _SHEAR_JAM = (
    "key's flank while mixing",
    "key's flank in a jam",
    "key's shear in a jam",
)


@dataclass(frozen=True)
class _Rule:
    """One rule of a key: the stress it asks after, what is allowed, in MPa, and the metal that gives way."""

    name: str
    where: Flags
    stress: Array
    allowed: float
    metal: Metal
    rung: tuple[float, float] | None
    source: str


def flank_checks(held: KeyedHub) -> list[Check]:
    """Check a parallel key: its flank day by day and in a jam, and its shear in a jam.

    Parameters
    ----------
    held : KeyedHub

    Returns
    -------
    list of Check
    """
    machine = held.machine
    try:
        key = key_for(held.diameter, machine.system)
    except InputError as error:
        return [
            replace(
                make_unjudged(machine, "hubs", held.part, one, str(error)),
                fixes=lambda: [held.shaft_field, *_keyless(held.field)],
            )
            for one in (_FLANK_MIXING, _FLANK_JAM, _SHEAR_JAM)
        ]
    flank = bearing_length(held.length, key)
    safety, side = (
        machine.spec.safety.hub,
        worst_flank(machine.spec, key, held.shaft_material, *held.hub_materials, own=held.shallow),
    )

    def reason(rule: _Rule, i: int, say: Say) -> str:
        softest = f"; {rule.metal.name} in {side.words} gives way first"
        return (
            f"{say(held.torque[i], 'N*m')} on a key {say(key['width'], 'mm')} x {say(key['height'], 'mm')} x {say(min(held.length, key['longest']), 'mm')}, "
            f"shaft {say(held.diameter, 'mm')}{'' if rule.name == _SHEAR_JAM else softest}"
        )

    def mended(rule: _Rule, i: int) -> list[Change]:
        over = float(rule.stress[i] * safety / rule.allowed)
        return _mends(held, key, flank, i, over, _touching(held, rule, side))

    return [
        make_check(
            machine,
            "hubs",
            held.part,
            rule.name,
            where=rule.where,
            demand=rule.stress,
            capacity=rule.allowed,
            unit="MPa",
            safety=safety,
            rung=rule.rung,
            source=rule.source,
            reason=partial(reason, rule),
            note=_ask_the_box if BOX in _touching(held, rule, side) else None,
            fix=partial(mended, rule),
            working=partial(_worked, held, key, flank, side, rule),
        )
        for rule in _rules(held, key, flank, side)
    ]


def _touching(held: KeyedHub, rule: _Rule, side: Flank) -> tuple[str, ...]:
    """Name the fields of the metals that a rule is about."""
    if rule.name == _SHEAR_JAM:
        return ("hubs.key_material",)
    return ("hubs.key_material", *(held.hub_materials if side.in_hub else (held.shaft_material,)))


def _rules(held: KeyedHub, key: TableRow, flank: float, side: Flank) -> list[_Rule]:
    cases, torque, diameter = held.machine.load_cases, held.torque, held.diameter
    own = metal(held.machine.spec, "hubs.key_material")
    softer = side.metal
    pressure = np.asarray(hub.key_pressure.formula(torque, diameter, side.deep, flank))
    shear = np.asarray(hub.key_shear.formula(torque, diameter, key["width"], flank))
    return [
        _Rule(
            _FLANK_MIXING,
            cases.mixing,
            pressure,
            MIXING_SHARE * softer.yields,
            softer,
            None,
            "Shigley 10th ed., section 7-7; half of yield of the weakest metal that touches, reversing: common practice",
        ),
        _Rule(
            _FLANK_JAM,
            cases.jammed,
            pressure,
            softer.yields,
            softer,
            (1.0, softer.later),
            "Shigley 10th ed., section 7-7; yield of the weakest metal that touches, DIN 6892 (from memory)",
        ),
        _Rule(
            _SHEAR_JAM,
            cases.jammed,
            shear,
            own.yields * shaft.SHEAR_YIELD,
            own,
            (1.0, own.later),
            "Shigley 10th ed., section 7-7 and eq. 5-21",
        ),
    ]


def _worked(
    held: KeyedHub, key: TableRow, flank: float, side: Flank, rule: _Rule, i: int
) -> list[Working]:
    """How stress and limit of a rule were got."""
    row = f"data/tables/keys.csv, {held.machine.system}"
    steel = rule.metal.given_yield
    long = worked(
        "l = Min(l_h, l_max) - b",
        flank,
        "mm",
        source="longest key of the table, less its round ends: DIN 6892 (from memory)",
        l_h=(held.length, "mm", held.field),
        l_max=(key["longest"], "mm", f"{row}: longest key"),
        b=(key["width"], "mm", f"{row}: width"),
    )
    if rule.name == _SHEAR_JAM:
        return [long, *_sheared(held, key, flank, rule, i, steel)]
    found = [long, *_pressed(held, key, flank, side, rule, i)]
    if rule.name == _FLANK_MIXING:
        share: Given = (MIXING_SHARE, "", "reversing day by day: common practice")
        found.append(worked("p_all = k*R_e", rule.allowed, "MPa", k=share, R_e=steel))
    return found


def _sheared(
    held: KeyedHub, key: TableRow, flank: float, rule: _Rule, i: int, steel: Given
) -> list[Working]:
    return [
        worked(
            "tau = 2*T/(d*b*l)",
            float(rule.stress[i]),
            "MPa",
            T=(float(held.torque[i]), "N*m", held.torque_from),
            d=(held.diameter, "mm", held.diameter_from),
            b=(key["width"], "mm", f"data/tables/keys.csv, {held.machine.system}: width"),
            l=(flank, "mm", "above"),
        ),
        worked(
            "tau_y = k*R_e",
            rule.allowed,
            "MPa",
            source="Shigley 10th ed., eq. 5-21",
            k=(shaft.SHEAR_YIELD, "", "distortion energy: yield in shear over yield"),
            R_e=steel,
        ),
    ]


def _pressed(
    held: KeyedHub, key: TableRow, flank: float, side: Flank, rule: _Rule, i: int
) -> list[Working]:
    found, deep = flank_depth(key, side, held.machine.system, held.shallow)
    return [
        *found,
        worked(
            "p = 2*T/(d*t*l)",
            float(rule.stress[i]),
            "MPa",
            T=(float(held.torque[i]), "N*m", held.torque_from),
            d=(held.diameter, "mm", held.diameter_from),
            t=deep,
            l=(flank, "mm", "above"),
        ),
    ]


def _mends(
    held: KeyedHub, key: TableRow, flank: float, i: int, over: float, touching: tuple[str, ...]
) -> list[Change]:
    machine, long = held.machine, float(flank * over + key["width"])
    found: list[Change] = [*held.first(over)] if held.first else []
    if long <= key["longest"]:
        found.append({held.field: long})
        if held.field == "hubs.gear_length":
            found.append({held.field: long, **wide_enough(machine, long)})
    return [
        *found,
        *_harder(machine, touching, float(over)),
        held.shaft_field,
        *calmer(machine, i, over),
        *(LIGHTER if machine.load_cases.mixing[i] else ()),
    ]


def _harder(machine: LoadedMachine, touching: tuple[str, ...], over: float) -> list[Change]:
    """Metals that bear so many times as much, where none of those that must change is the bought box's."""
    found = stronger_metals(machine.spec, *touching, over=over)
    return [one for one in found if not (isinstance(one, Mapping) and BOX in one)]


def _ask_the_box(_i: int, _say: Say) -> str:
    return f"The box's sheet says what its hollow shaft is made of: {BOX} is the field."


def wide_enough(machine: LoadedMachine, length: float) -> dict[str, float]:
    """Faces of the gears that take a key of some length."""
    return {
        f"paths.{one}.face_width": max(length, getattr(machine.spec.paths, one).face_width)
        for one in ("direct", "idler")
    }


def _keyless(field: str) -> list[Change]:
    """Ways to hold a gear without a key; the box knows none."""
    return (
        [{"hubs.gear": "clamp"}, {"hubs.gear": "taper pin"}] if field == "hubs.gear_length" else []
    )
