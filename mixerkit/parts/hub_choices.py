"""Every way to fix a hub on its shaft, with the torque each carries."""

from __future__ import annotations

import contextlib
from dataclasses import dataclass
from typing import NamedTuple

import numpy as np

from mixerkit.checks import Say
from mixerkit.parts import hub, large_holes, pins, shaft
from mixerkit.parts.keys import bearing_length, key_for
from mixerkit.parts.metals import GEARS, metal, weakest
from mixerkit.parts.zones import seat
from mixerkit.results import TableRow
from mixerkit.spec import Spec
from mixerkit.tables import table
from mixerkit.units import InputError

__all__ = ["HubChoice", "choices", "hub_rows"]


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


class _Strengths(NamedTuple):
    """Yield of keys and pins, and that of the softest metal which they press on or are made of, in MPa."""

    own: float
    softest: float


def choices(
    diameter: float,
    length: float,
    hub_diameter: float,
    strength: float,
    softest: float,
    system: str,
    say: Say,
) -> list[HubChoice]:
    """List every way to fix a hub with the torque each carries, strongest first.

    Parameters
    ----------
    diameter, length, hub_diameter : float
        Of shaft, hub along the shaft, and hub outside, in mm.
    strength : float
        Yield strength of keys and pins in MPa.
    softest : float
        That of the softest of key or pin, hub and shaft.
    system : str
        ``"metric"`` or ``"inch"``.
    say : callable
        Writes a plain number with its unit.

    Returns
    -------
    list of HubChoice
    """
    steel = _Strengths(strength, min(strength, softest))
    found = [
        *_keys(diameter, length, steel, system, say),
        *_set_screws(diameter, system, say),
        _flats(diameter, length, steel.softest, say),
        *_pins(diameter, hub_diameter, steel, say),
        *_clamps(diameter, system, say),
    ]
    return sorted(found, key=lambda one: -one.torque)


def _set_screws(diameter: float, system: str, say: Say) -> list[HubChoice]:
    screws = [
        row.values
        for row in table("set_screws").only("series", system)
        if row.values["diameter"] <= diameter / 3
    ]
    if not screws:
        return []
    screw = screws[-1]
    thread = next(
        (row.values for row in table("threads") if row.values["name"] == screw["name"]), None
    )
    drill = (
        f"tapping drill {say(thread['tapping_drill'], 'mm')} through the hub, " if thread else ""
    )
    return [
        HubChoice(
            words.format(screw["name"]),
            float(hub.set_screw_torque.formula(screw["holding_power"], diameter, count)),
            "screw's tip slips",
            f"{drill}tightened to {say(screw['seating_torque'], 'N*m')}; spot the shaft {say(0.3 * screw['diameter'], 'mm')} deep",
        )
        for count, words in ((1, "one set screw {}"), (2, "two set screws {} at 120 deg"))
    ]


def _flats(diameter: float, length: float, strength: float, say: Say) -> HubChoice:
    width = 0.5 * diameter
    sagitta = (diameter - np.sqrt(diameter**2 - width**2)) / 2
    return HubChoice(
        "two flats",
        float(hub.flat_torque.formula(strength, width, length, 2)),
        "edges of the flats",
        f"flats {say(width, 'mm')} across, {say(sagitta, 'mm')} deep, bore filed or broached to them",
    )


def _pins(diameter: float, hub_diameter: float, steel: _Strengths, say: Say) -> list[HubChoice]:
    wall = (hub_diameter - diameter) / 2
    shear = steel.own * shaft.SHEAR_YIELD
    found = []
    for share, name in ((0.25, "taper pin"), (large_holes.LARGEST, "straight cross pin")):
        # whole millimetres, and never beyond what a shaft bears across it
        pin = np.floor(share * diameter) or share * diameter
        by_pin = shear / pins.pin_shear.formula(1.0, diameter, pin)
        pressed = pins.pin_pressure.formula(1.0, diameter, pin, wall) if wall > 0 else np.inf
        by_wall = steel.softest / pressed
        by_shaft = steel.softest / pins.pin_pressure_in_shaft.formula(1.0, diameter, pin)
        by = {"pin in shear": by_pin, "hub's wall": by_wall, "shaft's hole": by_shaft}
        first = min(by, key=lambda one: float(by[one]))
        taper = "reamed 1 in 50 through both" if name == "taper pin" else "reamed H7 through both"
        found.append(
            HubChoice(
                f"{name} {say(pin, 'mm')}",
                float(by[first]),
                first,
                f"drilled {say(hub_diameter, 'mm')} through hub and shaft together, {taper}",
            )
        )
    return found


def _clamps(diameter: float, system: str, say: Say) -> list[HubChoice]:
    threads = [row.values for row in table("threads").only("series", system)]
    found = []
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
    return found


def _keys(
    diameter: float, length: float, steel: _Strengths, system: str, say: Say
) -> list[HubChoice]:
    # beyond the ends of a table there is nothing to choose: the way is left out
    with contextlib.suppress(InputError):
        return [_key_choice(key_for(diameter, system), diameter, length, steel, say)]
    return []


def _key_choice(
    key: TableRow, diameter: float, length: float, steel: _Strengths, say: Say
) -> HubChoice:
    long, flank = min(length, key["longest"]), bearing_length(length, key)
    by_flank = steel.softest / hub.key_pressure.formula(
        1.0, diameter, key["height"] - key["shaft_depth"], flank
    )
    by_shear = (
        steel.own * shaft.SHEAR_YIELD / hub.key_shear.formula(1.0, diameter, key["width"], flank)
    )
    return HubChoice(
        "parallel key",
        float(min(by_flank, by_shear)),
        "key's flank in the hub" if by_flank < by_shear else "key in shear",
        f"key {say(key['width'], 'mm')} x {say(key['height'], 'mm')} x {say(long, 'mm')}; {say(key['shaft_depth'], 'mm')} deep in the shaft, "
        f"{say(key['hub_depth'], 'mm')} in the hub",
    )


def hub_rows(spec: Spec, number: int, system: str, say: Say) -> list[HubChoice]:
    """Ways to fix a gear on a shaft of the design."""
    key, diameter = (
        "hubs.key_material",
        min(seat(spec, number, f"{name} gear") for name in ("direct", "idler")),
    )
    softest = weakest(spec, key, f"shaft_{number}.material", *GEARS)
    return choices(
        diameter,
        spec.hubs.gear_length,
        spec.housing.hub_diameter,
        metal(spec, key).yields,
        softest.yields,
        system,
        say,
    )
