"""How the numbers of the fuse's checks were worked out."""

from __future__ import annotations

from mixerkit.drive import fuses
from mixerkit.drive.box_workings import at_box_output
from mixerkit.drive.pinsteel import PinSteel, pin_steel, tested
from mixerkit.parts import shaft
from mixerkit.results import LoadedMachine
from mixerkit.working import Given, Working, as_given, worked

__all__ = [
    "fuse_at_start",
    "fuse_least",
    "fuse_most",
    "pin_circle",
    "pin_flange",
    "pin_test",
    "pins_bend",
]


def _together(machine: LoadedMachine) -> Given:
    several = machine.spec.fuse.kind == "shear pin" and machine.spec.fuse.pins > 1
    return (
        fuses.PINS_TOGETHER if several else 1.0,
        "",
        "share of several pins that carries at first, 1 of one: common practice",
    )


def _middle(machine: LoadedMachine) -> Working:
    """Say how the torque that a limiter is set to, or that pins break at as the tested one, was got."""
    one, broken = machine.spec.fuse, tested(machine.spec)
    if one.kind != "shear pin" or broken is None:
        return as_given("T_m", one.setting, "N*m", "fuse.setting")
    torque, neck, radius = broken
    return worked(
        "T_n = n*T_t*d**2*r/(d_t**2*r_t)",
        float(fuses.scaled_test.formula(*broken, one.pin_diameter, one.pin_radius, one.pins)),
        "N*m",
        n=(one.pins, "", "fuse.pins"),
        T_t=(torque, "N*m", "fuse.test_torque"),
        d=(one.pin_diameter, "mm", "fuse.pin_diameter"),
        r=(one.pin_radius, "mm", "fuse.pin_radius"),
        d_t=(neck, "mm", "fuse.test_pin_diameter"),
        r_t=(radius, "mm", "fuse.test_pin_radius"),
    )


def _by_delivery(machine: LoadedMachine) -> PinSteel | None:
    """Bounds of untested pins' steel; none where the fuse is a limiter or its pin was tested."""
    one = machine.spec.fuse
    untested = one.kind == "shear pin" and one.pin_condition != "tested"
    return pin_steel(machine.spec) if untested else None


def _pins_break(machine: LoadedMachine, symbol: str, strength: float, origin: str) -> Working:
    one = machine.spec.fuse
    torque = fuses.shear_pin_torque.formula(
        one.pin_diameter, one.pin_radius, strength, one.pins, one.planes
    )
    return worked(
        f"{symbol} = n*k*pi*d**2/4*c_s*R_m*r",
        float(torque),
        "N*m",
        n=(one.pins, "", "fuse.pins"),
        k=(one.planes, "", "fuse.planes"),
        d=(one.pin_diameter, "mm", "fuse.pin_diameter"),
        c_s=(fuses.SHEAR_OVER_TENSILE, "", "shear over tensile strength: common practice"),
        R_m=(strength, "MPa", origin),
        r=(one.pin_radius, "mm", "fuse.pin_radius"),
    )


def fuse_least(machine: LoadedMachine) -> list[Working]:
    """Say how the least torque of the fuse was got."""
    least, steel = float(fuses.fuse_torques(machine.spec)[0]), _by_delivery(machine)
    if steel is not None:
        whole = _pins_break(machine, "T_l", steel.low, steel.low_from)
        together = worked(
            "T_F = c*T_l", least, "N*m", c=_together(machine), T_l=(whole.result, "N*m", "above")
        )
        return [whole, together]
    middle, s = _middle(machine), (machine.spec.fuse.scatter, "", "fuse.scatter")
    if machine.spec.fuse.kind != "shear pin":
        bound = worked("T_F = T_m*(1 - s)", least, "N*m", T_m=(middle.result, "N*m", "above"), s=s)
        return [middle, bound]
    return [
        middle,
        worked(
            "T_F = c*T_n*(1 - s)/(1 + s)",
            least,
            "N*m",
            source="the one tested may have been the strongest of its bar",
            c=_together(machine),
            T_n=(middle.result, "N*m", "above"),
            s=s,
        ),
    ]


def fuse_at_start(machine: LoadedMachine, i: int) -> list[Working]:
    """Say how the torque of a start, and the fuse's least, were got."""
    return [at_box_output(machine, i), *fuse_least(machine)]


def fuse_most(machine: LoadedMachine) -> list[Working]:
    """Say how the most torque of the fuse was got."""
    steel = _by_delivery(machine)
    if steel is not None:
        return [_pins_break(machine, "T_F", steel.high, steel.high_from)]
    middle, s = _middle(machine), (machine.spec.fuse.scatter, "", "fuse.scatter")
    most = float(fuses.fuse_torques(machine.spec)[1])
    if machine.spec.fuse.kind != "shear pin":
        bound = worked("T_F = T_m*(1 + s)", most, "N*m", T_m=(middle.result, "N*m", "above"), s=s)
        return [middle, bound]
    return [
        middle,
        worked(
            "T_F = T_n*(1 + s)/(1 - s)",
            most,
            "N*m",
            source="the one tested may have been the weakest of its bar",
            T_n=(middle.result, "N*m", "above"),
            s=s,
        ),
    ]


def pin_test(
    machine: LoadedMachine, steel: PinSteel, low: float, high: float, off: float
) -> list[Working]:
    """Say between which torques a pin of its steel must have broken."""
    one, (torque, neck, radius) = machine.spec.fuse, tested(machine.spec) or (0.0, 0.0, 0.0)

    def at(symbol: str, result: float, share: float, strength: float, origin: str) -> Working:
        return worked(
            f"{symbol} = k*pi*d_t**2/4*c_s*R_m*r_t",
            result,
            "N*m",
            k=(one.planes, "", "fuse.planes"),
            d_t=(neck, "mm", "fuse.test_pin_diameter"),
            c_s=(share, "", "shear over tensile strength: common practice"),
            R_m=(strength, "MPa", origin),
            r_t=(radius, "mm", "fuse.test_pin_radius"),
        )

    return [
        at("T_l", low, fuses.SHEARS[0], steel.low, steel.low_from),
        at("T_h", high, fuses.SHEARS[1], steel.high, steel.high_from),
        worked(
            "q = Max(T_l/T_t, T_t/T_h)",
            off,
            "",
            T_l=(low, "N*m", "above"),
            T_h=(high, "N*m", "above"),
            T_t=(torque, "N*m", "fuse.test_torque"),
        ),
    ]


def pins_bend(machine: LoadedMachine, bends: float, i: int) -> list[Working]:
    """Say how the torque at which the first pin yields was got."""
    one = machine.spec.fuse
    yields, origin = fuses.pins_yield_strength(machine.spec)
    return [
        at_box_output(machine, i),
        worked(
            "T_e = c*n*k*pi*d**2/4*c_e*R_e*r",
            bends,
            "N*m",
            c=_together(machine),
            n=(one.pins, "", "fuse.pins"),
            k=(one.planes, "", "fuse.planes"),
            d=(one.pin_diameter, "mm", "fuse.pin_diameter"),
            c_e=(shaft.SHEAR_YIELD, "", "shear over tensile yield: von Mises"),
            R_e=(yields, "MPa", origin),
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
            r_i=(
                inside,
                "mm",
                "half of the widest of shaft 1, the flange's hub on it and the box's hollow shaft outside",
            ),
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
