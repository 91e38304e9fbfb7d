"""Pins across shaft and hub: their shear, and their pressure in the wall."""

from __future__ import annotations

from dataclasses import dataclass, replace
from math import ceil

import numpy as np

from mixerkit.checking import make_check, make_unjudged
from mixerkit.checks import Change, Check
from mixerkit.parts import pins, shaft
from mixerkit.parts.metals import Metal, metal, stronger_metals, weakest
from mixerkit.parts.remedies import calmer
from mixerkit.parts.worked import WorkedMachine
from mixerkit.results import Array, LoadedMachine
from mixerkit.units import show
from mixerkit.working import Given, Working, worked

__all__ = ["PinnedHub", "pin_checks", "sleeve_checks"]

_SLEEVE = "sleeve pins"


@dataclass(frozen=True)
class PinnedHub:
    """A hub or sleeve held by pins across its shaft; lengths in mm, torques in N*m over the load cases.

    ``fields`` names what a maker can change: pin, pins, wall and shaft, as far as there is one.
    ``outside`` is the hub's diameter, nought where the wall is a field itself. The materials are fields
    that name them: the pin's, the shaft's, and those of the walls, of hubs that carry by turns.
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
    shaft_material: str
    wall_materials: tuple[str, ...]
    fields: dict[str, str]


@dataclass(frozen=True)
class _Rule:
    """One rule of the pins: the stress it asks after, of which part, and what is allowed, in MPa.

    ``touching`` are the fields of the metals that bear it, ``metal`` the weakest of them.
    """

    name: str
    stress: Array
    allowed: float
    of: str
    touching: tuple[str, ...]
    metal: Metal
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
    spec = held.machine.spec
    own = metal(spec, held.pin_material)
    walls = (held.pin_material, *held.wall_materials)
    shear = _Rule(
        "shear of the pins in a jam",
        np.asarray(pins.pin_shear.formula(held.torque, held.diameter, held.pin, held.pins)),
        own.yields * shaft.SHEAR_YIELD,
        "pin",
        (held.pin_material,),
        own,
        "two planes; Shigley 10th ed., eq. 5-21",
        0.5,
    )
    in_shaft = _in_shaft(held)
    if held.wall <= 0:
        why = f"a hub of {show(held.diameter + 2 * held.wall, 'mm', system)} has no wall round a shaft of {show(held.diameter, 'mm', system)}"
        thicker = {held.fields["wall"]: 1.6 * held.diameter}
        unjudged = make_unjudged(held.machine, "hubs", held.part, pressing, why)
        return [
            _check(held, shear),
            replace(unjudged, fixes=lambda: [thicker]),
            _check(held, in_shaft),
        ]
    softer = weakest(spec, *walls)
    pressure = _Rule(
        pressing,
        np.asarray(
            pins.pin_pressure.formula(held.torque, held.diameter, held.pin, held.wall, held.pins)
        ),
        softer.yields,
        "wall",
        walls,
        softer,
        "even pressure in both walls; yield of the weaker of pin and wall",
        1.0,
    )
    return [_check(held, one) for one in (shear, pressure, in_shaft)]


def _in_shaft(held: PinnedHub) -> _Rule:
    touching = (held.pin_material, held.shaft_material)
    softer = weakest(held.machine.spec, *touching)
    return _Rule(
        "pressure of the pins in the shaft in a jam",
        np.asarray(
            pins.pin_pressure_in_shaft.formula(held.torque, held.diameter, held.pin, held.pins)
        ),
        softer.yields,
        "shaft",
        touching,
        softer,
        "pressure rising evenly from the shaft's middle; yield of the weaker of pin and shaft",
        1.0,
    )


def _check(held: PinnedHub, rule: _Rule) -> Check:
    safety = held.machine.spec.safety.hub
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
        rung=(1.0, rule.metal.later),
        source=rule.source,
        reason=lambda i, say: (
            f"{say(held.torque[i], 'N*m')} on {held.pins} pins of {say(held.pin, 'mm')}, wall {say(held.wall, 'mm')}; "
            f"{rule.metal.name} gives way first"
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
    if rule.of == "shaft":
        more.append({fields["shaft"]: held.diameter * over**0.5})
    return [
        *more,
        *stronger_metals(held.machine.spec, *rule.touching, over=over),
        *calmer(held.machine, i, over),
    ]


def _worked(held: PinnedHub, rule: _Rule, i: int) -> list[Working]:
    stress, fields = float(rule.stress[i]), held.fields
    count = fields.get("pins", "one pin a gear: the kit's form of it")
    torque: Given = (float(held.torque[i]), "N*m", held.torque_from)
    pin: Given = (held.pin, "mm", fields["pin"])
    shaft_at: Given = (held.diameter, "mm", held.diameter_from)
    number: Given = (held.pins, "", count)
    if rule.of == "pin":
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
                R_e=rule.metal.given_yield,
            ),
        ]
    if rule.of == "shaft":
        pressing = "p = 6*T/(d_p*D**2*n)"
        return [worked(pressing, stress, "MPa", T=torque, d_p=pin, D=shaft_at, n=number)]
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
    thin = min(machine.shaft_beams, key=lambda beam: float(beam.diameters[beam.pins]))
    softer = weakest(machine.spec, "shaft_1.material", "shaft_2.material")
    return pin_checks(
        PinnedHub(
            machine,
            _SLEEVE,
            np.maximum(*machine.power_flow.paddles),
            "power flow, torque at the paddles, the greater of both shafts",
            float(thin.diameters[thin.pins]),
            "the thinner shaft at its sleeve's pins",
            sleeve.pin_diameter,
            sleeve.pins,
            sleeve.wall,
            0.0,
            "sleeve.pin_material",
            softer.field,
            ("sleeve.material",),
            {
                "pin": "sleeve.pin_diameter",
                "pins": "sleeve.pins",
                "wall": "sleeve.wall",
                "shaft": f"shaft_{thin.number}.diameter",
            },
        )
    )
