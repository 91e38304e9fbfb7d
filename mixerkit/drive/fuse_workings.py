"""How the numbers of the fuse's checks were worked out."""

from __future__ import annotations

from mixerkit.drive import fuses
from mixerkit.drive.box_workings import at_box_output
from mixerkit.parts import shaft
from mixerkit.results import LoadedMachine
from mixerkit.tables import table
from mixerkit.working import Working, as_given, worked

__all__ = [
    "fuse_at_start",
    "fuse_least",
    "fuse_most",
    "pin_circle",
    "pin_flange",
    "pins_bend",
]


def _pin_torque(machine: LoadedMachine) -> Working:
    one = machine.spec.fuse
    strength = table("materials").find(one.pin_material).values["tensile_strength"]
    torque = fuses.shear_pin_torque.formula(
        one.pin_diameter, one.pin_radius, strength, one.pins, one.planes
    )
    return worked(
        "T_m = n*k*pi*d**2/4*c_s*R_m*r",
        float(torque),
        "N*m",
        n=(one.pins, "", "fuse.pins"),
        k=(one.planes, "", "fuse.planes"),
        d=(one.pin_diameter, "mm", "fuse.pin_diameter"),
        c_s=(fuses.SHEAR_OVER_TENSILE, "", "shear over tensile strength: common practice"),
        R_m=(strength, "MPa", f"data/tables/materials.csv, {one.pin_material}: tensile strength"),
        r=(one.pin_radius, "mm", "fuse.pin_radius"),
    )


def _middle(machine: LoadedMachine) -> list[Working]:
    one = machine.spec.fuse
    if one.kind == "shear pin":
        return [_pin_torque(machine)]
    return [as_given("T_m", one.setting, "N*m", "fuse.setting")]


def fuse_least(machine: LoadedMachine) -> list[Working]:
    """Say how the least torque of the fuse within its scatter was got."""
    one, chain = machine.spec.fuse, _middle(machine)
    several = one.kind == "shear pin" and one.pins > 1
    return [
        *chain,
        worked(
            "T_F = c*T_m*(1 - s)",
            float(fuses.fuse_torques(machine.spec)[0]),
            "N*m",
            c=(
                fuses.PINS_TOGETHER if several else 1.0,
                "",
                "share of several pins that carries at first, 1 of one: common practice",
            ),
            T_m=(chain[-1].result, "N*m", "above"),
            s=(one.scatter, "", "fuse.scatter"),
        ),
    ]


def fuse_at_start(machine: LoadedMachine, i: int) -> list[Working]:
    """Say how the torque of a start, and the fuse's least, were got."""
    return [at_box_output(machine, i), *fuse_least(machine)]


def fuse_most(machine: LoadedMachine) -> list[Working]:
    """Say how the most torque of the fuse within its scatter was got."""
    chain = _middle(machine)
    return [
        *chain,
        worked(
            "T_F = T_m*(1 + s)",
            float(fuses.fuse_torques(machine.spec)[1]),
            "N*m",
            T_m=(chain[-1].result, "N*m", "above"),
            s=(machine.spec.fuse.scatter, "", "fuse.scatter"),
        ),
    ]


def pins_bend(machine: LoadedMachine, bends: float, i: int) -> list[Working]:
    """Say how the torque at which the first pin yields was got."""
    one = machine.spec.fuse
    yields = table("materials").find(one.pin_material).values["yield_strength"]
    return [
        at_box_output(machine, i),
        worked(
            "T_e = c*n*k*pi*d**2/4*c_e*R_e*r",
            bends,
            "N*m",
            c=(
                fuses.PINS_TOGETHER if one.pins > 1 else 1.0,
                "",
                "share of several pins that carries at first, 1 of one: common practice",
            ),
            n=(one.pins, "", "fuse.pins"),
            k=(one.planes, "", "fuse.planes"),
            d=(one.pin_diameter, "mm", "fuse.pin_diameter"),
            c_e=(shaft.SHEAR_YIELD, "", "shear over tensile yield: von Mises"),
            R_e=(yields, "MPa", f"data/tables/materials.csv, {one.pin_material}: yield strength"),
            r=(one.pin_radius, "mm", "fuse.pin_radius"),
        ),
    ]


def pin_circle(machine: LoadedMachine, inside: float, edge: float, asked: float) -> list[Working]:
    """Say how the least radius of the pins' circle was got."""
    return [
        worked(
            "r_min = r_i + e*d",
            asked,
            "mm",
            r_i=(inside, "mm", "half of the thicker of shaft 1 and the box's hollow end"),
            e=(edge, "", "from a pin's middle to the edge, in pins: common practice"),
            d=(machine.spec.fuse.pin_diameter, "mm", "fuse.pin_diameter"),
        )
    ]


def pin_flange(
    machine: LoadedMachine, second: float, edge: float, asked: float, free: float
) -> list[Working]:
    """Say how far the pins' flange stands out, and how far it may."""
    return [
        worked(
            "r_F = r + e*d",
            asked,
            "mm",
            r=(machine.spec.fuse.pin_radius, "mm", "fuse.pin_radius"),
            e=(edge, "", "from a pin's middle to the edge, in pins: common practice"),
            d=(machine.spec.fuse.pin_diameter, "mm", "fuse.pin_diameter"),
        ),
        worked(
            "r_max = a - d_2/2 - s",
            free,
            "mm",
            a=(machine.spec.housing.centre_distance, "mm", "housing.centre_distance"),
            d_2=(second, "mm", "shaft 2 where it is thickest"),
            s=(machine.spec.safety.tip_clearance, "mm", "safety.tip_clearance"),
        ),
    ]
