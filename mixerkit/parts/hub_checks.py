"""Box, gears and sleeves on their shafts: what holds them, and what else would."""

from __future__ import annotations

import contextlib
from dataclasses import dataclass, replace
from functools import partial

import numpy as np

from mixerkit.checking import make_check, make_unjudged
from mixerkit.checks import Change, Check, Say
from mixerkit.parts import hub, shaft
from mixerkit.parts.gear_checks import hub_keyway
from mixerkit.parts.remedies import LIGHTER, calmer, stronger
from mixerkit.parts.shaftline import ShaftBeam
from mixerkit.parts.worked import WorkedMachine
from mixerkit.results import Array, LoadedMachine, TableRow
from mixerkit.spec import Spec
from mixerkit.tables import table
from mixerkit.units import InputError, show

__all__ = ["LARGEST_HOLE", "HubChoice", "checks", "choices", "hub_rows", "key_for"]

LARGEST_HOLE = 0.3
"""Hole across a shaft over its diameter beyond which it is refused (common practice)."""
MIXING_SHARE = 0.5
"""Share of yield that a key's flank may feel day by day, reversing (common practice)."""


def key_for(diameter: float, system: str) -> TableRow:
    """Row of the key table for a shaft, in plain numbers.

    Raises
    ------
    InputError
        If the table has no key for the diameter.
    """
    return table("keys").only("series", system).bracket(diameter, "above", "up_to").values


@dataclass(frozen=True)
class HubChoice:
    """One way to fix a hub.

    Attributes
    ----------
    name : str
    torque : float
        At which its weakest element yields or slips, in N*m.
    weakest : str
    making : str
        What is drilled, tapped or cut, with its depth.
    """

    name: str
    torque: float
    weakest: str
    making: str


def choices(
    diameter: float, length: float, hub_diameter: float, strength: float, system: str, say: Say
) -> list[HubChoice]:
    """List every way to fix a hub with the torque each carries, strongest first.

    Parameters
    ----------
    diameter, length, hub_diameter : float
        Of shaft, hub along the shaft, and hub outside, in mm.
    strength : float
        Yield strength of keys and pins in MPa.
    system : str
        ``"metric"`` or ``"inch"``.
    say : callable
        Writes a plain number with its unit.

    Returns
    -------
    list of HubChoice
    """
    wall = (hub_diameter - diameter) / 2
    shear = strength * shaft.SHEAR_YIELD
    found = []
    # beyond the ends of a table there is nothing to choose: the way is left out
    with contextlib.suppress(InputError):
        found.append(_key_choice(key_for(diameter, system), diameter, length, strength, say))
    screws = [
        row.values
        for row in table("set_screws").only("series", system)
        if row.values["diameter"] <= diameter / 3
    ]
    if screws:
        screw = screws[-1]
        thread = next(
            (row.values for row in table("threads") if row.values["name"] == screw["name"]), None
        )
        drill = (
            f"tapping drill {say(thread['tapping_drill'], 'mm')} through the hub, "
            if thread
            else ""
        )
        for count, words in ((1, "one set screw {}"), (2, "two set screws {} at 120 deg")):
            found.append(
                HubChoice(
                    words.format(screw["name"]),
                    float(hub.set_screw_torque.formula(screw["holding_power"], diameter, count)),
                    "screw's tip slips",
                    f"{drill}tightened to {say(screw['seating_torque'], 'N*m')}; spot the shaft {say(0.3 * screw['diameter'], 'mm')} deep",
                )
            )
    width = 0.5 * diameter
    sagitta = (diameter - np.sqrt(diameter**2 - width**2)) / 2
    found.append(
        HubChoice(
            "two flats",
            float(hub.flat_torque.formula(strength, width, length, 2)),
            "edges of the flats",
            f"flats {say(width, 'mm')} across, {say(sagitta, 'mm')} deep, bore filed or broached to them",
        )
    )
    for share, name in ((0.25, "taper pin"), (LARGEST_HOLE, "straight cross pin")):
        # whole millimetres, and never beyond what a shaft bears across it
        pin = np.floor(share * diameter) or share * diameter
        by_pin = shear / hub.pin_shear.formula(1.0, diameter, pin)
        by_wall = strength / hub.pin_pressure.formula(1.0, diameter, pin, wall) if wall > 0 else 0.0
        taper = "reamed 1 in 50 through both" if name == "taper pin" else "reamed H7 through both"
        found.append(
            HubChoice(
                f"{name} {say(pin, 'mm')}",
                float(min(by_pin, by_wall)),
                "pin in shear" if by_pin < by_wall else "hub's wall",
                f"drilled {say(hub_diameter, 'mm')} through hub and shaft together, {taper}",
            )
        )
    threads = [row.values for row in table("threads").only("series", system)]
    for bolt in [row for row in threads if row["diameter"] >= 0.2 * diameter][:1]:
        pull = hub.screw_pull.formula(bolt["stress_area"])
        found.append(
            HubChoice(
                f"clamp, four {bolt['name']} class 8.8",
                float(hub.clamp_torque.formula(pull, diameter, 4)),
                "friction",
                f"slit hub; clearance holes {say(bolt['clearance_hole'], 'mm')}, tapping drill {say(bolt['tapping_drill'], 'mm')}, "
                f"{say(1.5 * bolt['diameter'], 'mm')} of thread",
            )
        )
    return sorted(found, key=lambda one: -one.torque)


def _key_choice(
    key: TableRow, diameter: float, length: float, strength: float, say: Say
) -> HubChoice:
    flank = min(length, key["longest"])
    by_flank = strength / hub.key_pressure.formula(
        1.0, diameter, key["height"] - key["shaft_depth"], flank
    )
    by_shear = (
        strength * shaft.SHEAR_YIELD / hub.key_shear.formula(1.0, diameter, key["width"], flank)
    )
    return HubChoice(
        "parallel key",
        float(min(by_flank, by_shear)),
        "key's flank in the hub" if by_flank < by_shear else "key in shear",
        f"key {say(key['width'], 'mm')} x {say(key['height'], 'mm')} x {say(flank, 'mm')}; {say(key['shaft_depth'], 'mm')} deep in the shaft, "
        f"{say(key['hub_depth'], 'mm')} in the hub",
    )


def checks(machine: WorkedMachine) -> list[Check]:
    """Check the hubs of box, gears and sleeves.

    Parameters
    ----------
    machine : WorkedMachine

    Returns
    -------
    list of Check
    """
    return _keys(machine) + _gears(machine) + _pins(machine)


def _key(
    machine: LoadedMachine,
    part: str,
    torque: Array,
    diameter: float,
    length: float,
    field: str,
    shaft_field: str,
) -> list[Check]:
    """A parallel key: its flank day by day and in a jam, and its shear in a jam."""
    names = ("key's flank while mixing", "key's flank in a jam", "key's shear in a jam")
    try:
        key = key_for(diameter, machine.system)
    except InputError as error:
        return [
            replace(
                make_unjudged(machine, "hubs", part, one, str(error)),
                fixes=lambda: [shaft_field, *_keyless(field)],
            )
            for one in names
        ]
    material = table("materials").find(machine.spec.hubs.key_material).values
    strength = material["yield_strength"]
    breaks = material["tensile_strength"] / strength
    safety = machine.spec.safety.hub
    # what is longer than the table's longest key is not made of one piece: the rest is not counted
    flank = min(length, key["longest"])
    pressure = np.asarray(
        hub.key_pressure.formula(torque, diameter, key["height"] - key["shaft_depth"], flank)
    )
    shear = np.asarray(hub.key_shear.formula(torque, diameter, key["width"], flank))

    def reason(i: int, say: Say) -> str:
        return (
            f"{say(torque[i], 'N*m')} on a key {say(key['width'], 'mm')} x {say(key['height'], 'mm')} x {say(flank, 'mm')}, "
            f"shaft {say(diameter, 'mm')}"
        )

    def mended(i: int, over: float) -> list[Change]:
        long = float(flank * over)
        found: list[Change] = []
        if long <= key["longest"]:
            found.append({field: long})
            if field == "hubs.gear_length":
                found.append(
                    {
                        field: long,
                        **{
                            f"paths.{one}.face_width": max(
                                long, getattr(machine.spec.paths, one).face_width
                            )
                            for one in ("direct", "idler")
                        },
                    }
                )
        return [
            *found,
            *stronger(
                ("hubs.key_material",),
                machine.spec.hubs.key_material,
                "materials",
                ("yield_strength",),
                float(over),
            ),
            shaft_field,
            *calmer(machine, i, over),
            *(LIGHTER if machine.load_cases.mixing[i] else ()),
        ]

    rows = (
        (
            names[0],
            machine.load_cases.mixing,
            pressure,
            MIXING_SHARE * strength,
            None,
            "Shigley 10th ed., section 7-7; half of yield, reversing: common practice",
        ),
        (
            names[1],
            machine.load_cases.jammed,
            pressure,
            strength,
            (1.0, breaks),
            "Shigley 10th ed., section 7-7; yield",
        ),
        (
            names[2],
            machine.load_cases.jammed,
            shear,
            strength * shaft.SHEAR_YIELD,
            (1.0, breaks),
            "Shigley 10th ed., section 7-7 and eq. 5-21",
        ),
    )

    def by(stress: Array, allowed: float, i: int) -> list[Change]:
        return mended(i, float(stress[i] * safety / allowed))

    return [
        make_check(
            machine,
            "hubs",
            part,
            name,
            where=where,
            demand=stress,
            capacity=allowed,
            unit="MPa",
            safety=safety,
            rung=rung,
            source=source,
            reason=reason,
            fix=partial(by, stress, allowed),
        )
        for name, where, stress, allowed, rung, source in rows
    ]


def _keyless(field: str) -> list[Change]:
    """Ways to hold a gear without a key; the box knows none."""
    return (
        [{"hubs.gear": "clamp"}, {"hubs.gear": "taper pin"}] if field == "hubs.gear_length" else []
    )


def _keys(machine: WorkedMachine) -> list[Check]:
    """The key in the box, which the kit takes to be there whatever else is keyed."""
    spec, line, part = machine.spec, machine.shaft_beams[0], "reduction box"
    thick, length = spec.housing.plate_thickness, spec.hubs.box_length
    before = spec.reducer.overhang - length / 2
    return [
        *_key(
            machine,
            part,
            machine.power_flow.torque_at_box_output,
            float(line.diameters[line.box]),
            length,
            "hubs.box_length",
            "shaft_1.diameter",
        ),
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
        ),
    ]


def _key_room(machine: LoadedMachine, part: str, line: ShaftBeam) -> list[Check]:
    """Whether a gear's key lies within the gear, and its hub has metal over the keyway."""
    spec, length = machine.spec, machine.spec.hubs.gear_length
    width = min(spec.paths.direct.face_width, spec.paths.idler.face_width)
    diameter = float(max(line.diameters[place] for place in line.gears.values()))
    deep = hub_keyway(spec, diameter, machine.system)
    wall = (spec.housing.hub_diameter - diameter) / 2 - deep
    wide = {
        f"paths.{one}.face_width": max(length, getattr(spec.paths, one).face_width)
        for one in ("direct", "idler")
    }
    return [
        make_check(
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
            fix=lambda i: [{"hubs.gear_length": width}, wide],
        ),
        make_check(
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
                f"hub {say(spec.housing.hub_diameter, 'mm')} on a shaft of {say(diameter, 'mm')}, keyway {say(deep, 'mm')} deep in it"
            ),
            fix=lambda i: [
                {"housing.hub_diameter": diameter + 4 * deep},
                f"shaft_{line.number}.diameter",
            ],
        ),
    ]


def _gears(machine: WorkedMachine) -> list[Check]:
    """The gears that are fixed: on the shaft without the clutch."""
    spec, hubs = machine.spec, machine.spec.hubs
    number = 2 if spec.clutch.shaft == 1 else 1
    line = machine.shaft_beams[number - 1]
    torque = machine.power_flow.at_gears[number]
    diameter = float(min(line.diameters[place] for place in line.gears.values()))
    part = f"gears of shaft {number}"
    safety = spec.safety.hub
    if hubs.gear == "key":
        return [
            *_key(
                machine,
                part,
                torque,
                diameter,
                hubs.gear_length,
                "hubs.gear_length",
                f"shaft_{number}.diameter",
            ),
            *_key_room(machine, part, line),
        ]
    if hubs.gear == "taper pin":
        wall = (spec.housing.hub_diameter - diameter) / 2
        fields = {
            "pin": "hubs.pin_diameter",
            "pin_material": "hubs.key_material",
            "wall": "housing.hub_diameter",
        }
        most, steel = LARGEST_HOLE * diameter, hubs.key_material
        return [
            *_across(
                machine, part, torque, diameter, hubs.pin_diameter, 1, wall, steel, steel, fields
            ),
            make_check(
                machine,
                "hubs",
                part,
                "pin no larger than the shaft bears",
                demand=hubs.pin_diameter,
                capacity=most,
                unit="mm",
                tight=1.0,
                source="0.3 of the diameter: common practice",
                reason=lambda i, say: f"shaft {say(diameter, 'mm')}",
                fix=lambda i: [
                    {"hubs.pin_diameter": most},
                    {"hubs.gear": "key"},
                    {"hubs.gear": "clamp"},
                    {f"shaft_{number}.diameter": line.own.diameter * hubs.pin_diameter / most},
                ],
            ),
        ]
    if hubs.gear == "set screws":
        screw = table("set_screws").find(hubs.set_screw).values
        holds = float(
            hub.set_screw_torque.formula(
                hub.TIPS[hubs.set_screw_tip] * screw["holding_power"],
                diameter,
                hubs.set_screws,
                hubs.set_screw_angle,
            )
        )
        how = f"{hubs.set_screws} set screws {hubs.set_screw}, {hubs.set_screw_tip} tips, pairs at {hubs.set_screw_angle:g} deg, tightened to"
        detail, source = screw["seating_torque"], "Shigley 10th ed., table 7-4 and section 7-7"
    else:
        thread = table("threads").find(hubs.clamp_screw).values
        pull = hub.screw_pull.formula(thread["stress_area"])
        holds = float(hub.clamp_torque.formula(pull, diameter, hubs.clamp_screws))
        how = f"{hubs.clamp_screws} screws {hubs.clamp_screw} class 8.8, friction 0.12, tightened to about"
        detail, source = (
            0.2 * pull * thread["diameter"] / 1e3,
            "clamped halves, friction: common practice",
        )
    found = _screw_room(machine, part, line, screw) if hubs.gear == "set screws" else []

    def tighter(more: float, i: int) -> list[Change]:
        over = float(torque[i] * safety * more / holds)
        return _more_screws(machine, i, over, f"shaft_{number}.diameter")

    # what slips does not break: it may slip again at the same torque
    return found + [
        make_check(
            machine,
            "hubs",
            part,
            f"{hubs.gear} hold {when}",
            where=where,
            demand=torque,
            capacity=holds,
            unit="N*m",
            safety=safety * more,
            rung=rung,
            source=source,
            reason=lambda i, say: f"{how} {say(detail, 'N*m')}, shaft {say(diameter, 'mm')}",
            fix=partial(tighter, more),
        )
        for when, where, more, rung in (
            ("while mixing", machine.load_cases.mixing, 2.0, None),
            ("in a jam", machine.load_cases.jammed, 1.0, (1.0, 1.0)),
        )
    ]


def _more_screws(machine: LoadedMachine, i: int, over: float, shaft_field: str) -> list[Change]:
    """A key, or screws that hold so many times as much: more of them, or larger ones."""
    hubs = machine.spec.hubs
    clamp = hubs.gear == "clamp"
    field, size, name, strength = (
        ("hubs.clamp_screws", "hubs.clamp_screw", "threads", "stress_area")
        if clamp
        else ("hubs.set_screws", "hubs.set_screw", "set_screws", "holding_power")
    )
    count = hubs.clamp_screws if clamp else hubs.set_screws
    rows = [row.values for row in table(name).only("series", machine.system)]
    has = table(name).find(hubs.clamp_screw if clamp else hubs.set_screw).values[strength]
    larger = [row["name"] for row in rows if row[strength] >= has * over]
    return [
        {"hubs.gear": "key"},
        *([{field: int(np.ceil(count * over))}] if count * over <= 8 else []),
        *({size: one} for one in larger[:1]),
        shaft_field,
        *calmer(machine, i, over),
        *(LIGHTER if machine.load_cases.mixing[i] else ()),
    ]


def _screw_room(machine: LoadedMachine, part: str, line: ShaftBeam, screw: TableRow) -> list[Check]:
    """Whether a set screw is not too thick for its shaft, and has thread enough in its hub."""
    places = list(line.gears.values())
    thin, thick = (float(pick(line.diameters[places])) for pick in (np.min, np.max))
    wall = (machine.spec.housing.hub_diameter - thick) / 2
    smaller = [
        row.values["name"]
        for row in table("set_screws").only("series", machine.system)
        if row.values["diameter"] < screw["diameter"]
    ]
    fewer: list[Change] = [{"hubs.set_screw": one} for one in smaller[-2:]]
    return [
        make_check(
            machine,
            "hubs",
            part,
            "set screw no thicker than a third of the shaft",
            demand=screw["diameter"],
            capacity=thin / 3,
            unit="mm",
            tight=1.0,
            source="a quarter of the shaft is usual, a third the most: common practice",
            reason=lambda i, say: f"screw {screw['name']} on a shaft of {say(thin, 'mm')}",
            fix=lambda i: [*fewer, {f"shaft_{line.number}.diameter": 3 * screw["diameter"]}],
        ),
        make_check(
            machine,
            "hubs",
            part,
            "thread for the set screw in the hub",
            demand=screw["diameter"],
            capacity=wall,
            unit="mm",
            tight=1.0,
            source="thread as long as the screw is thick: common practice",
            reason=lambda i, say: f"screw {screw['name']}, wall of the hub {say(wall, 'mm')}",
            fix=lambda i: [{"housing.hub_diameter": thick + 2 * screw["diameter"]}, *fewer],
        ),
    ]


def _across(
    machine: LoadedMachine,
    part: str,
    torque: Array,
    diameter: float,
    pin: float,
    pins: int,
    wall: float,
    pin_material: str,
    wall_material: str,
    fields: dict[str, str],
) -> list[Check]:
    """Pins across shaft and hub: shear of the pins and pressure in the wall.

    ``fields`` names what a maker can change: pin, pins, pin_material, wall, wall_material, as far as there is one.
    """
    steel = table("materials").find(pin_material).values
    outside = table("materials").find(wall_material).values
    safety = machine.spec.safety.hub
    shear = np.asarray(hub.pin_shear.formula(torque, diameter, pin, pins))

    def mended(i: int, over: float, power: float, what: str, now: str) -> list[Change]:
        more: list[Change] = [{fields["pin"]: pin * float(over) ** power}]
        if "pins" in fields and pins * over <= 6:
            more.append({fields["pins"]: int(np.ceil(pins * over))})
        if what == "wall":
            gain = 1.0 if part == "sleeve pins" else 2.0
            size = wall if part == "sleeve pins" else machine.spec.housing.hub_diameter
            more.append({fields["wall"]: size + gain * wall * (float(over) - 1)})
        if f"{what}_material" in fields:
            families = (table("materials").find(now).values["family"],)
            more += stronger(
                (fields[f"{what}_material"],),
                now,
                "materials",
                ("yield_strength",),
                float(over),
                families,
            )
        return more + calmer(machine, i, over)

    def row(
        name: str,
        stress: Array,
        allowed: float,
        of: TableRow,
        source: str,
        power: float,
        what: str,
        now: str,
    ) -> Check:
        return make_check(
            machine,
            "hubs",
            part,
            name,
            where=machine.load_cases.jammed,
            demand=stress,
            capacity=allowed,
            unit="MPa",
            safety=safety,
            rung=(1.0, of["tensile_strength"] / of["yield_strength"]),
            source=source,
            reason=lambda i, say: (
                f"{say(torque[i], 'N*m')} on {pins} pins of {say(pin, 'mm')}, wall {say(wall, 'mm')}"
            ),
            fix=lambda i: mended(i, float(stress[i] * safety / allowed), power, what, now),
        )

    names = ("shear of the pins in a jam", "pressure of the pins in a jam")
    found = [
        row(
            names[0],
            shear,
            steel["yield_strength"] * shaft.SHEAR_YIELD,
            steel,
            "two planes; Shigley 10th ed., eq. 5-21",
            0.5,
            "pin",
            pin_material,
        )
    ]
    if wall <= 0:
        why = f"a hub of {show(diameter + 2 * wall, 'mm', machine.system)} has no wall round a shaft of {show(diameter, 'mm', machine.system)}"
        thicker = {fields["wall"]: 1.6 * diameter}
        return [
            *found,
            replace(make_unjudged(machine, "hubs", part, names[1], why), fixes=lambda: [thicker]),
        ]
    pressure = np.asarray(hub.pin_pressure.formula(torque, diameter, pin, wall, pins))
    return [
        *found,
        row(
            names[1],
            pressure,
            outside["yield_strength"],
            outside,
            "even pressure in both walls; yield",
            1.0,
            "wall",
            wall_material,
        ),
    ]


def _pins(machine: WorkedMachine) -> list[Check]:
    sleeve = machine.spec.sleeve
    if sleeve.kind == "none":
        return []
    torque = np.maximum(*machine.power_flow.paddles)
    smallest = min(float(line.diameters[line.pins]) for line in machine.shaft_beams)
    fields = {
        "pin": "sleeve.pin_diameter",
        "pins": "sleeve.pins",
        "pin_material": "sleeve.pin_material",
        "wall": "sleeve.wall",
        "wall_material": "sleeve.material",
    }
    return _across(
        machine,
        "sleeve pins",
        torque,
        smallest,
        sleeve.pin_diameter,
        sleeve.pins,
        sleeve.wall,
        sleeve.pin_material,
        sleeve.material,
        fields,
    )


def hub_rows(spec: Spec, number: int, system: str, say: Say) -> list[HubChoice]:
    """Ways to fix a gear on a shaft of the design."""
    steel = table("materials").find(spec.hubs.key_material).values["yield_strength"]
    diameter = getattr(spec, f"shaft_{number}").diameter
    return choices(diameter, spec.hubs.gear_length, spec.housing.hub_diameter, steel, system, say)
