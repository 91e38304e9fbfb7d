"""Parallel keys of box and gears: their flanks and their shear, and the room they need."""

from __future__ import annotations

from dataclasses import dataclass, replace
from functools import partial

import numpy as np

from mixerkit.checking import make_check, make_unjudged
from mixerkit.checks import Change, Check, Say
from mixerkit.parts import hub, shaft
from mixerkit.parts.gear_body_checks import hub_keyway
from mixerkit.parts.remedies import LIGHTER, calmer, stronger
from mixerkit.parts.shaftline import ShaftBeam
from mixerkit.parts.worked import WorkedMachine
from mixerkit.results import Array, Flags, LoadedMachine, TableRow
from mixerkit.tables import table
from mixerkit.units import InputError
from mixerkit.working import Given, Working, worked

__all__ = ["KeyedHub", "box_checks", "flank_checks", "key_for", "room_checks"]

MIXING_SHARE = 0.5
"""Share of yield that a key's flank may feel day by day, reversing (common practice)."""
_FLANK_MIXING, _FLANK_JAM, _SHEAR_JAM = (
    "key's flank while mixing",
    "key's flank in a jam",
    "key's shear in a jam",
)


def key_for(diameter: float, system: str) -> TableRow:
    """Row of the key table for a shaft, in plain numbers.

    Raises
    ------
    InputError
        If the table has no key for the diameter.
    """
    return table("keys").only("series", system).bracket(diameter, "above", "up_to").values


@dataclass(frozen=True)
class KeyedHub:
    """A hub held by a key.

    Attributes
    ----------
    machine : LoadedMachine
    part : str
        As its checks name it.
    torque : array (load cases,)
        What it carries in N*m.
    torque_from : str
        Where that comes from.
    diameter : float
        Of the shaft in mm.
    diameter_from : str
        Where that comes from.
    length : float
        Of the key in mm.
    field, shaft_field : str
        Dotted names of that length and of the shaft's diameter.
    """

    machine: LoadedMachine
    part: str
    torque: Array
    torque_from: str
    diameter: float
    diameter_from: str
    length: float
    field: str
    shaft_field: str


@dataclass(frozen=True)
class _Rule:
    """One rule of a key: the stress it asks after, and what is allowed, in MPa."""

    name: str
    where: Flags
    stress: Array
    allowed: float
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
    # what is longer than the table's longest key is not made of one piece: the rest is not counted
    flank = min(held.length, key["longest"])
    safety = machine.spec.safety.hub

    def reason(i: int, say: Say) -> str:
        return (
            f"{say(held.torque[i], 'N*m')} on a key {say(key['width'], 'mm')} x {say(key['height'], 'mm')} x {say(flank, 'mm')}, "
            f"shaft {say(held.diameter, 'mm')}"
        )

    def mended(rule: _Rule, i: int) -> list[Change]:
        over = float(rule.stress[i] * safety / rule.allowed)
        return _mends(held, key, flank, i, over)

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
            reason=reason,
            fix=partial(mended, rule),
            working=partial(_worked, held, key, flank, rule),
        )
        for rule in _rules(held, key, flank)
    ]


def _rules(held: KeyedHub, key: TableRow, flank: float) -> list[_Rule]:
    cases, torque, diameter = held.machine.load_cases, held.torque, held.diameter
    material = table("materials").find(held.machine.spec.hubs.key_material).values
    strength = material["yield_strength"]
    breaks = material["tensile_strength"] / strength
    pressure = np.asarray(
        hub.key_pressure.formula(torque, diameter, key["height"] - key["shaft_depth"], flank)
    )
    shear = np.asarray(hub.key_shear.formula(torque, diameter, key["width"], flank))
    return [
        _Rule(
            _FLANK_MIXING,
            cases.mixing,
            pressure,
            MIXING_SHARE * strength,
            None,
            "Shigley 10th ed., section 7-7; half of yield, reversing: common practice",
        ),
        _Rule(
            _FLANK_JAM,
            cases.jammed,
            pressure,
            strength,
            (1.0, breaks),
            "Shigley 10th ed., section 7-7; yield",
        ),
        _Rule(
            _SHEAR_JAM,
            cases.jammed,
            shear,
            strength * shaft.SHEAR_YIELD,
            (1.0, breaks),
            "Shigley 10th ed., section 7-7 and eq. 5-21",
        ),
    ]


def _worked(held: KeyedHub, key: TableRow, flank: float, rule: _Rule, i: int) -> list[Working]:
    stress, row = float(rule.stress[i]), f"data/tables/keys.csv, {held.machine.system}"
    torque: Given = (float(held.torque[i]), "N*m", held.torque_from)
    diameter: Given = (held.diameter, "mm", held.diameter_from)
    long = worked(
        "l = Min(l_h, l_max)",
        flank,
        "mm",
        source="longest key of the table",
        l_h=(held.length, "mm", held.field),
        l_max=(key["longest"], "mm", f"{row}: longest key"),
    )
    name = held.machine.spec.hubs.key_material
    steel: Given = (
        table("materials").find(name).values["yield_strength"],
        "MPa",
        f"data/tables/materials.csv, {name}: yield strength",
    )
    if rule.name == _SHEAR_JAM:
        return [
            long,
            worked(
                "tau = 2*T/(d*b*l)",
                stress,
                "MPa",
                T=torque,
                d=diameter,
                b=(key["width"], "mm", f"{row}: width"),
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
    found = [
        long,
        worked(
            "t = h - t_1",
            key["height"] - key["shaft_depth"],
            "mm",
            source="the flank in the hub, the shallower",
            h=(key["height"], "mm", f"{row}: height"),
            t_1=(key["shaft_depth"], "mm", f"{row}: depth in the shaft"),
        ),
        worked(
            "p = 2*T/(d*t*l)",
            stress,
            "MPa",
            T=torque,
            d=diameter,
            t=(key["height"] - key["shaft_depth"], "mm", "above"),
            l=(flank, "mm", "above"),
        ),
    ]
    if rule.name == _FLANK_MIXING:
        share: Given = (MIXING_SHARE, "", "reversing day by day: common practice")
        found.append(worked("p_all = k*R_e", rule.allowed, "MPa", k=share, R_e=steel))
    return found


def _mends(held: KeyedHub, key: TableRow, flank: float, i: int, over: float) -> list[Change]:
    machine, long = held.machine, float(flank * over)
    found: list[Change] = []
    if long <= key["longest"]:
        found.append({held.field: long})
        if held.field == "hubs.gear_length":
            found.append({held.field: long, **_wide_enough(machine, long)})
    return [
        *found,
        *stronger(
            ("hubs.key_material",),
            machine.spec.hubs.key_material,
            "materials",
            ("yield_strength",),
            float(over),
        ),
        held.shaft_field,
        *calmer(machine, i, over),
        *(LIGHTER if machine.load_cases.mixing[i] else ()),
    ]


def _wide_enough(machine: LoadedMachine, length: float) -> dict[str, float]:
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


def box_checks(machine: WorkedMachine) -> list[Check]:
    """Check the key in the box, which the kit takes to be there whatever else is keyed.

    Parameters
    ----------
    machine : WorkedMachine

    Returns
    -------
    list of Check
    """
    spec, beam, part = machine.spec, machine.shaft_beams[0], "reduction box"
    thick, length = spec.housing.plate_thickness, spec.hubs.box_length
    before = spec.reducer.overhang - length / 2
    held = KeyedHub(
        machine,
        part,
        machine.power_flow.torque_at_box_output,
        "power flow, torque at the box's output",
        float(beam.diameters[beam.box]),
        "shaft 1 where the box sits",
        length,
        "hubs.box_length",
        "shaft_1.diameter",
    )
    return [
        *flank_checks(held),
        make_check(
            machine,
            "hubs",
            part,
            "key of the box ends before the plate",
            demand=thick,
            capacity=before,
            unit="mm",
            tight=1.0,
            source="geometry",
            reason=lambda i, say: (
                f"middle of the box {say(spec.reducer.overhang, 'mm')} from the inside of the plate, key {say(length, 'mm')} long"
            ),
            fix=lambda i: [
                {"hubs.box_length": 2 * (spec.reducer.overhang - thick)},
                {"reducer.overhang": thick + length / 2},
            ],
            working=lambda i: [
                worked(
                    "a = a_m - l/2",
                    before,
                    "mm",
                    a_m=(spec.reducer.overhang, "mm", "reducer.overhang"),
                    l=(length, "mm", "hubs.box_length"),
                )
            ],
        ),
    ]


def room_checks(machine: LoadedMachine, part: str, beam: ShaftBeam) -> list[Check]:
    """Check that a gear's key lies within the gear, and that its hub has metal over the keyway.

    Parameters
    ----------
    machine : LoadedMachine
    part : str
    beam : ShaftBeam
        Of the shaft that the gears are keyed to.

    Returns
    -------
    list of Check
    """
    return [_within_gear(machine, part), _metal_over(machine, part, beam)]


def _within_gear(machine: LoadedMachine, part: str) -> Check:
    paths, length = machine.spec.paths, machine.spec.hubs.gear_length
    width = min(paths.direct.face_width, paths.idler.face_width)
    return make_check(
        machine,
        "hubs",
        part,
        "key no longer than the gear",
        demand=length,
        capacity=width,
        unit="mm",
        tight=1.0,
        source="the kit's gears are as long as their teeth are wide: geometry",
        reason=lambda i, say: f"key {say(length, 'mm')}, face {say(width, 'mm')}",
        fix=lambda i: [{"hubs.gear_length": width}, _wide_enough(machine, length)],
        working=lambda i: [
            worked(
                "b = Min(b_1, b_2)",
                width,
                "mm",
                b_1=(paths.direct.face_width, "mm", "paths.direct.face_width"),
                b_2=(paths.idler.face_width, "mm", "paths.idler.face_width"),
            )
        ],
    )


def _metal_over(machine: LoadedMachine, part: str, beam: ShaftBeam) -> Check:
    outside = machine.spec.housing.hub_diameter
    diameter = float(max(beam.diameters[place] for place in beam.gears.values()))
    deep = hub_keyway(machine.spec, diameter, machine.system)
    wall = (outside - diameter) / 2 - deep
    return make_check(
        machine,
        "hubs",
        part,
        "hub has metal over its keyway",
        demand=deep,
        capacity=wall,
        unit="mm",
        tight=1.0,
        source="as much metal as the keyway is deep: common practice",
        reason=lambda i, say: (
            f"hub {say(outside, 'mm')} on a shaft of {say(diameter, 'mm')}, keyway {say(deep, 'mm')} deep in it"
        ),
        fix=lambda i: [
            {"housing.hub_diameter": diameter + 4 * deep},
            f"shaft_{beam.number}.diameter",
        ],
        working=lambda i: [
            worked(
                "w = (d_h - d)/2 - t_2",
                wall,
                "mm",
                d_h=(outside, "mm", "housing.hub_diameter"),
                d=(diameter, "mm", f"shaft {beam.number} at its thicker gear seat"),
                t_2=(deep, "mm", "data/tables/keys.csv: depth in the hub"),
            )
        ],
    )
