"""Pins across shaft and hub: their shear, and their pressure in the wall."""

from __future__ import annotations

from dataclasses import dataclass, replace
from math import ceil

import numpy as np

from mixerkit.checking import make_check, make_unjudged
from mixerkit.checks import Change, Check
from mixerkit.parts import hub, shaft
from mixerkit.parts.remedies import calmer, stronger
from mixerkit.parts.worked import WorkedMachine
from mixerkit.results import Array, LoadedMachine, TableRow
from mixerkit.tables import table
from mixerkit.units import show
from mixerkit.working import Given, Working, worked

__all__ = ["LARGEST_HOLE", "PinnedHub", "pin_checks", "sleeve_checks"]

LARGEST_HOLE = 0.3
"""Hole across a shaft over its diameter beyond which it is refused (common practice)."""
_SLEEVE = "sleeve pins"


@dataclass(frozen=True)
class PinnedHub:
    """A hub or sleeve held by pins across its shaft; lengths in mm, torques in N*m over the load cases.

    ``fields`` names what a maker can change: pin, pins, pin_material, wall, wall_material, as far as
    there is one. ``outside`` is the hub's diameter, nought where the wall is a field itself.
    """

    machine: LoadedMachine
    part: str
    torque: Array
    torque_from: str
    diameter: float
    diameter_from: str
    pin: float
    pins: int
    wall: float
    outside: float
    pin_material: str
    wall_material: str
    fields: dict[str, str]


@dataclass(frozen=True)
class _Rule:
    """One rule of the pins: the stress it asks after, of which part, and what is allowed, in MPa."""

    name: str
    stress: Array
    allowed: float
    of: str
    material: str
    source: str
    power: float


def pin_checks(held: PinnedHub) -> list[Check]:
    """Check pins across shaft and hub: shear of the pins and pressure in the wall.

    Parameters
    ----------
    held : PinnedHub

    Returns
    -------
    list of Check
    """
    system, pressing = held.machine.system, "pressure of the pins in a jam"
    shear = _Rule(
        "shear of the pins in a jam",
        np.asarray(hub.pin_shear.formula(held.torque, held.diameter, held.pin, held.pins)),
        _steel(held.pin_material)["yield_strength"] * shaft.SHEAR_YIELD,
        "pin",
        held.pin_material,
        "two planes; Shigley 10th ed., eq. 5-21",
        0.5,
    )
    if held.wall <= 0:
        why = f"a hub of {show(held.diameter + 2 * held.wall, 'mm', system)} has no wall round a shaft of {show(held.diameter, 'mm', system)}"
        thicker = {held.fields["wall"]: 1.6 * held.diameter}
        unjudged = make_unjudged(held.machine, "hubs", held.part, pressing, why)
        return [_check(held, shear), replace(unjudged, fixes=lambda: [thicker])]
    pressure = _Rule(
        pressing,
        np.asarray(
            hub.pin_pressure.formula(held.torque, held.diameter, held.pin, held.wall, held.pins)
        ),
        _steel(held.wall_material)["yield_strength"],
        "wall",
        held.wall_material,
        "even pressure in both walls; yield",
        1.0,
    )
    return [_check(held, shear), _check(held, pressure)]


def _steel(name: str) -> TableRow:
    return table("materials").find(name).values


def _check(held: PinnedHub, rule: _Rule) -> Check:
    steel, safety = _steel(rule.material), held.machine.spec.safety.hub
    return make_check(
        held.machine,
        "hubs",
        held.part,
        rule.name,
        where=held.machine.load_cases.jammed,
        demand=rule.stress,
        capacity=rule.allowed,
        unit="MPa",
        safety=safety,
        rung=(1.0, steel["tensile_strength"] / steel["yield_strength"]),
        source=rule.source,
        reason=lambda i, say: (
            f"{say(held.torque[i], 'N*m')} on {held.pins} pins of {say(held.pin, 'mm')}, wall {say(held.wall, 'mm')}"
        ),
        fix=lambda i: _mends(held, rule, i, float(rule.stress[i] * safety / rule.allowed)),
        working=lambda i: _worked(held, rule, i),
    )


def _mends(held: PinnedHub, rule: _Rule, i: int, over: float) -> list[Change]:
    fields, wall = held.fields, held.wall
    more: list[Change] = [{fields["pin"]: held.pin * over**rule.power}]
    if "pins" in fields and held.pins * over <= 6:
        more.append({fields["pins"]: ceil(held.pins * over)})
    if rule.of == "wall":
        sleeve = held.part == _SLEEVE
        gain = 1.0 if sleeve else 2.0
        size = wall if sleeve else held.outside
        more.append({fields["wall"]: size + gain * wall * (over - 1)})
    if f"{rule.of}_material" in fields:
        more += stronger(
            (fields[f"{rule.of}_material"],),
            rule.material,
            "materials",
            ("yield_strength",),
            over,
            (_steel(rule.material)["family"],),
        )
    return more + calmer(held.machine, i, over)


def _worked(held: PinnedHub, rule: _Rule, i: int) -> list[Working]:
    stress, fields = float(rule.stress[i]), held.fields
    count = fields.get("pins", "one pin a gear: the kit's form of it")
    torque: Given = (float(held.torque[i]), "N*m", held.torque_from)
    pin: Given = (held.pin, "mm", fields["pin"])
    shaft_at: Given = (held.diameter, "mm", held.diameter_from)
    number: Given = (held.pins, "", count)
    if rule.of == "pin":
        yields = _steel(rule.material)["yield_strength"]
        return [
            worked(
                "tau = 4*T/(pi*d_p**2*D*n)", stress, "MPa", T=torque, d_p=pin, D=shaft_at, n=number
            ),
            worked(
                "tau_y = k*R_e",
                rule.allowed,
                "MPa",
                source="Shigley 10th ed., eq. 5-21",
                k=(shaft.SHEAR_YIELD, "", "distortion energy: yield in shear over yield"),
                R_e=(yields, "MPa", f"data/tables/materials.csv, {rule.material}: yield strength"),
            ),
        ]
    pressing = "p = T/((D + w)*w*d_p*n)"
    if not held.outside:
        return [
            worked(
                pressing,
                stress,
                "MPa",
                w=(held.wall, "mm", fields["wall"]),
                T=torque,
                d_p=pin,
                D=shaft_at,
                n=number,
            )
        ]
    outside: Given = (held.outside, "mm", fields["wall"])
    return [
        worked("w = (d_h - D)/2", held.wall, "mm", d_h=outside, D=shaft_at),
        worked(
            pressing,
            stress,
            "MPa",
            w=(held.wall, "mm", "above"),
            T=torque,
            d_p=pin,
            D=shaft_at,
            n=number,
        ),
    ]


def sleeve_checks(machine: WorkedMachine) -> list[Check]:
    """Check the pins that hold a sleeve on its shaft.

    Parameters
    ----------
    machine : WorkedMachine

    Returns
    -------
    list of Check
    """
    sleeve = machine.spec.sleeve
    if sleeve.kind == "none":
        return []
    return pin_checks(
        PinnedHub(
            machine,
            _SLEEVE,
            np.maximum(*machine.power_flow.paddles),
            "power flow, torque at the paddles, the greater of both shafts",
            min(float(beam.diameters[beam.pins]) for beam in machine.shaft_beams),
            "the thinner shaft at its sleeve's pins",
            sleeve.pin_diameter,
            sleeve.pins,
            sleeve.wall,
            0.0,
            sleeve.pin_material,
            sleeve.material,
            {
                "pin": "sleeve.pin_diameter",
                "pins": "sleeve.pins",
                "pin_material": "sleeve.pin_material",
                "wall": "sleeve.wall",
                "wall_material": "sleeve.material",
            },
        )
    )
