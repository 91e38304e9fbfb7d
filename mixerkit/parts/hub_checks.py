"""Box, gears and sleeves on their shafts: what holds them, and what else would."""

from __future__ import annotations

from dataclasses import dataclass
from types import SimpleNamespace
from typing import Any

import numpy as np

from mixerkit.cases import Case
from mixerkit.checks import Check, Say
from mixerkit.parts import hub, shaft
from mixerkit.tables import table

__all__ = ["HubChoice", "checks", "choices", "hub_rows", "key_for"]

MIXING_SHARE = 0.5
"""Share of yield that a key's flank may feel day by day, reversing (common practice)."""


def key_for(diameter: float, system: str) -> dict[str, Any]:
    """Row of the key table for a shaft, in plain numbers.

    Raises
    ------
    InputError
        If the table has no key for the diameter.
    """
    return table("keys").only("series", system).bracket(diameter, "above", "up_to").plain


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
    key = key_for(diameter, system)
    flank = min(length, key["longest"])
    wall = (hub_diameter - diameter) / 2
    shear = strength * shaft.SHEAR_YIELD
    found = []
    by_flank = strength / hub.key_pressure.plain(
        1.0, diameter, key["height"] - key["shaft_depth"], flank
    )
    by_shear = shear / hub.key_shear.plain(1.0, diameter, key["width"], flank)
    found.append(
        HubChoice(
            "parallel key", float(min(by_flank, by_shear)), "key's flank in the hub" if by_flank < by_shear else "key in shear",
            f"key {say(key['width'], 'mm')} x {say(key['height'], 'mm')} x {say(flank, 'mm')}; {say(key['shaft_depth'], 'mm')} deep in the shaft, "
            f"{say(key['hub_depth'], 'mm')} in the hub",
        )
    )  # fmt: skip
    screws = [
        row.plain
        for row in table("set_screws").only("series", system)
        if row.plain["diameter"] <= diameter / 3
    ]
    if screws:
        screw = screws[-1]
        thread = next(
            (row.plain for row in table("threads") if row.plain["name"] == screw["name"]), None
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
                    float(hub.set_screw_torque.plain(screw["holding_power"], diameter, count)), "screw's tip slips",
                    f"{drill}tightened to {say(screw['seating_torque'], 'N*m')}; spot the shaft {say(0.3 * screw['diameter'], 'mm')} deep",
                )
            )  # fmt: skip
    width = 0.5 * diameter
    sagitta = (diameter - np.sqrt(diameter**2 - width**2)) / 2
    found.append(
        HubChoice(
            "two flats", float(hub.flat_torque.plain(strength, width, length, 2)), "edges of the flats",
            f"flats {say(width, 'mm')} across, {say(sagitta, 'mm')} deep, bore filed or broached to them",
        )
    )  # fmt: skip
    for share, name in ((0.25, "taper pin"), (0.3, "straight cross pin")):
        pin = round(share * diameter)
        by_pin = shear / hub.pin_shear.plain(1.0, diameter, pin)
        by_wall = strength / hub.pin_pressure.plain(1.0, diameter, pin, wall) if wall > 0 else 0.0
        taper = "reamed 1 in 50 through both" if name == "taper pin" else "reamed H7 through both"
        found.append(
            HubChoice(
                f"{name} {say(pin, 'mm')}", float(min(by_pin, by_wall)), "pin in shear" if by_pin < by_wall else "hub's wall",
                f"drilled {say(hub_diameter, 'mm')} through hub and shaft together, {taper}",
            )
        )  # fmt: skip
    bolt = next(
        row.plain
        for row in table("threads").only("series", system)
        if row.plain["diameter"] >= 0.2 * diameter
    )
    pull = hub.screw_pull.plain(bolt["stress_area"])
    found.append(
        HubChoice(
            f"clamp, four {bolt['name']} class 8.8", float(hub.clamp_torque.plain(pull, diameter, 4)), "friction",
            f"slit hub; clearance holes {say(bolt['clearance_hole'], 'mm')}, tapping drill {say(bolt['tapping_drill'], 'mm')}, "
            f"{say(1.5 * bolt['diameter'], 'mm')} of thread",
        )
    )  # fmt: skip
    return sorted(found, key=lambda one: -one.torque)


def checks(case: Case) -> list[Check]:
    """Check the hubs of box, gears and sleeves.

    Parameters
    ----------
    case : Case

    Returns
    -------
    list of Check
    """
    return _keys(case) + _gears(case) + _pins(case)


def _key(case: Case, part: str, torque: np.ndarray, diameter: float, length: float) -> list[Check]:
    """A parallel key: its flank day by day and in a jam, and its shear in a jam."""
    key = key_for(diameter, case.system)
    material = table("materials").find(case.plain.hubs.key_material).plain
    strength = material["yield_strength"]
    breaks = material["tensile_strength"] / strength
    safety = case.plain.safety.hub
    flank = min(length, key["longest"])
    pressure = hub.key_pressure.plain(torque, diameter, key["height"] - key["shaft_depth"], flank)
    shear = hub.key_shear.plain(torque, diameter, key["width"], flank)

    def reason(i: int, say: Say) -> str:
        return (
            f"{say(torque[i], 'N*m')} on a key {say(key['width'], 'mm')} x {say(key['height'], 'mm')} x {say(flank, 'mm')}, "
            f"shaft {say(diameter, 'mm')}"
        )

    rows = (
        ("key's flank while mixing", case.mixing, pressure, MIXING_SHARE * strength, None,
         "Shigley 10th ed., section 7-7; half of yield, reversing: common practice"),
        ("key's flank in a jam", case.jammed, pressure, strength, (1.0, breaks), "Shigley 10th ed., section 7-7; yield"),
        ("key's shear in a jam", case.jammed, shear, strength * shaft.SHEAR_YIELD, (1.0, breaks),
         "Shigley 10th ed., section 7-7 and eq. 5-21"),
    )  # fmt: skip
    return [
        case.check(
            "hubs", part, name, where=where, demand=stress, capacity=allowed, unit="MPa", safety=safety, rung=rung,
            source=source, reason=reason,
            advice=lambda i, say, stress=stress, allowed=allowed: (
                f"{say(flank * stress[i] * safety / allowed, 'mm')} of key would do, or two keys."
            ),
        )
        for name, where, stress, allowed, rung, source in rows
    ]  # fmt: skip


def _keys(case: Case) -> list[Check]:
    plain = case.plain
    if not plain.shaft_1.keyway:
        return []
    line = case.lines[0]
    return _key(case, "reduction box", case.flow.slow, float(line.diameters[line.box]), plain.hubs.box_length)  # fmt: skip


def _gears(case: Case) -> list[Check]:
    """The gears that are fixed: on the shaft without the clutch."""
    plain, hubs = case.plain, case.plain.hubs
    number = 2 if plain.clutch.shaft == 1 else 1
    line = case.lines[number - 1]
    torque = case.flow.at_gears[number]
    diameter = float(min(line.diameters[place] for place in line.gears.values()))
    part = f"gears of shaft {number}"
    safety = plain.safety.hub
    if hubs.gear == "key":
        return _key(case, part, torque, diameter, hubs.gear_length)
    if hubs.gear == "taper pin":
        wall = (plain.housing.hub_diameter - diameter) / 2
        return _across(
            case,
            part,
            torque,
            diameter,
            hubs.pin_diameter,
            1,
            wall,
            hubs.key_material,
            hubs.key_material,
        )
    if hubs.gear == "set screws":
        screw = table("set_screws").find(hubs.set_screw).plain
        holds = float(
            hub.set_screw_torque.plain(
                hub.TIPS[hubs.set_screw_tip] * screw["holding_power"],
                diameter,
                hubs.set_screws,
                hubs.set_screw_angle,
            )
        )
        how = f"{hubs.set_screws} set screws {hubs.set_screw}, {hubs.set_screw_tip} tips, pairs at {hubs.set_screw_angle:g} deg, tightened to"
        detail, source = screw["seating_torque"], "Shigley 10th ed., table 7-4 and section 7-7"
    else:
        thread = table("threads").find(hubs.clamp_screw).plain
        pull = hub.screw_pull.plain(thread["stress_area"])
        holds = float(hub.clamp_torque.plain(pull, diameter, hubs.clamp_screws))
        how = f"{hubs.clamp_screws} screws {hubs.clamp_screw} class 8.8, friction 0.12, tightened to about"
        detail, source = (
            0.2 * pull * thread["diameter"] / 1e3,
            "clamped halves, friction: common practice",
        )
    # what slips does not break: it may slip again at the same torque
    return [
        case.check(
            "hubs", part, f"{hubs.gear} hold {when}", where=where, demand=torque, capacity=holds, unit="N*m",
            safety=safety * more, rung=rung, source=source,
            reason=lambda i, say: f"{how} {say(detail, 'N*m')}, shaft {say(diameter, 'mm')}",
            advice=lambda i, say: f"A key would do, or {int(np.ceil(torque[i] * safety / holds)):d} times as many screws.",
        )
        for when, where, more, rung in (("while mixing", case.mixing, 2.0, None), ("in a jam", case.jammed, 1.0, (1.0, 1.0)))
    ]  # fmt: skip


def _across(case: Case, part: str, torque: np.ndarray, diameter: float, pin: float, pins: int, wall: float, pin_material: str, wall_material: str) -> list[Check]:  # fmt: skip
    """Pins across shaft and hub: shear of the pins and pressure in the wall."""
    steel = table("materials").find(pin_material).plain
    outside = table("materials").find(wall_material).plain
    safety = case.plain.safety.hub
    shear = hub.pin_shear.plain(torque, diameter, pin, pins)
    pressure = hub.pin_pressure.plain(torque, diameter, pin, wall, pins)
    rows = (
        ("shear of the pins", shear, steel["yield_strength"] * shaft.SHEAR_YIELD, steel, "two planes; Shigley 10th ed., eq. 5-21"),
        ("pressure of the pins", pressure, outside["yield_strength"], outside, "even pressure in both walls; yield"),
    )  # fmt: skip
    return [
        case.check(
            "hubs", part, f"{name} in a jam", where=case.jammed, demand=stress, capacity=allowed, unit="MPa", safety=safety,
            rung=(1.0, of["tensile_strength"] / of["yield_strength"]), source=source,
            reason=lambda i, say: f"{say(torque[i], 'N*m')} on {pins} pins of {say(pin, 'mm')}, wall {say(wall, 'mm')}",
            advice=lambda i, say, stress=stress, allowed=allowed, name=name: (
                f"Pins of {say(pin * (stress[i] * safety / allowed) ** (0.5 if name.startswith('shear') else 1.0), 'mm')} would do, or more of them."
            ),
        )
        for name, stress, allowed, of, source in rows
    ]  # fmt: skip


def _pins(case: Case) -> list[Check]:
    sleeve = case.plain.sleeve
    if sleeve.kind == "none":
        return []
    torque = np.maximum(*case.flow.paddles)
    smallest = min(float(line.diameters[line.pins]) for line in case.lines)
    return _across(case, "sleeve pins", torque, smallest, sleeve.pin_diameter, sleeve.pins, sleeve.wall, sleeve.pin_material, sleeve.material)  # fmt: skip


def hub_rows(plain: SimpleNamespace, number: int, system: str, say: Say) -> list[HubChoice]:
    """Ways to fix a gear on a shaft of the design."""
    steel = table("materials").find(plain.hubs.key_material).plain["yield_strength"]
    diameter = getattr(plain, f"shaft_{number}").diameter
    return choices(diameter, plain.hubs.gear_length, plain.housing.hub_diameter, steel, system, say)
