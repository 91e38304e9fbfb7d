"""How the numbers of the clutch's checks were worked out."""

from __future__ import annotations

from mixerkit.constants import STANDARD_GRAVITY
from mixerkit.drive.dogclutch import positions
from mixerkit.parts.gear_pairs import shifts_of
from mixerkit.parts.metals import Metal
from mixerkit.parts.zones import CLUTCH, seat, seat_field
from mixerkit.results import LoadedMachine
from mixerkit.spec import GearPath
from mixerkit.tables import table
from mixerkit.working import Given, Working, as_given, by_method, worked

__all__ = [
    "cutter_room",
    "detent_force",
    "detent_under_fork",
    "dog_bending",
    "dog_pressure",
    "dog_shear",
    "dogs_kept",
    "drop_angle",
    "feather",
    "feather_length",
    "gap_engaged",
    "gap_neutral",
    "over_bush",
    "share_of_tensile",
    "share_of_yield",
    "shift",
]


def _outer(machine: LoadedMachine) -> Given:
    return machine.spec.clutch.outer_diameter, "mm", "clutch.outer_diameter"


def _inner(machine: LoadedMachine) -> Given:
    return machine.spec.clutch.inner_diameter, "mm", "clutch.inner_diameter"


def _force(machine: LoadedMachine, torque: float, carrying: float, force: float) -> Working:
    return worked(
        "F = 4*T/((D + d)*n_c)",
        force,
        "N",
        T=(torque, "N*m", "power flow, torque of the path on the clutch's shaft"),
        D=_outer(machine),
        d=_inner(machine),
        n_c=(carrying, "", "dogs that carry, from clutch.dogs and clutch.carrying_share"),
    )


def _thickness(machine: LoadedMachine) -> dict[str, Given]:
    one = machine.spec.clutch
    return {
        "D": _outer(machine),
        "d": _inner(machine),
        "n": (one.dogs, "", "clutch.dogs"),
        "phi": (one.angular_play, "deg", "clutch.angular_play"),
    }


def dog_pressure(
    machine: LoadedMachine, torque: float, carrying: float, force: float, pressure: float
) -> list[Working]:
    """Say how the pressure on a dog was got."""
    return [
        _force(machine, torque, carrying, force),
        worked(
            "p = 2*F/((D - d)*e)",
            pressure,
            "MPa",
            F=(force, "N", "above"),
            D=_outer(machine),
            d=_inner(machine),
            e=(machine.spec.clutch.overlap, "mm", "clutch.overlap"),
        ),
    ]


def dog_shear(
    machine: LoadedMachine,
    torque: float,
    carrying: float,
    force: float,
    shear: float,
    most: float,
    softest: Metal,
) -> list[Working]:
    """Say how the shear at a dog's root, and what it stands, were got."""
    return [
        _force(machine, torque, carrying, force),
        worked(
            "tau = 1.5*F/((D + d)/4*(pi/n - phi/2)*(D - d)/2)",
            shear,
            "MPa",
            F=(force, "N", "above"),
            source="",
            **_thickness(machine),
        ),
        worked("tau_max = R_e/sqrt(3)", most, "MPa", R_e=softest.given_yield),
    ]


def dog_bending(
    machine: LoadedMachine, torque: float, carrying: float, force: float, bent: float
) -> list[Working]:
    """Say how the bending at a dog's root was got."""
    one = machine.spec.clutch
    return [
        _force(machine, torque, carrying, force),
        worked(
            "sigma = 6*F*(h - e/2)/((D - d)/2*((D + d)/4*(pi/n - phi/2))**2)",
            bent,
            "MPa",
            F=(force, "N", "above"),
            h=(one.dog_height, "mm", "clutch.dog_height"),
            e=(one.overlap, "mm", "clutch.overlap"),
            source="",
            **_thickness(machine),
        ),
    ]


def share_of_yield(softest: Metal, allowed: float) -> Working:
    """Say what share of yield is allowed where wear bounds the pressure."""
    return worked("p_max = R_e/4", allowed, "MPa", R_e=softest.given_yield)


def share_of_tensile(first: Metal, allowed: float) -> Working:
    """Say what share of the tensile strength is allowed where the load goes both ways."""
    return worked("sigma_max = R_m/4", allowed, "MPa", R_m=first.given_tensile)


def cutter_room(
    machine: LoadedMachine, name: str, place: int, run_out: float, root: float
) -> list[Working]:
    """Say how the room over the dogs, and the foot of the teeth, were got."""
    path: GearPath = getattr(machine.spec.paths, name)
    asked = machine.spec.clutch.outer_diameter + 2 * run_out
    return [
        worked(
            "D_min = D + 2*s",
            asked,
            "mm",
            D=_outer(machine),
            s=(run_out, "mm", "common practice"),
        ),
        by_method(
            "d_f",
            "root diameter by ISO 21771 from module, teeth and profile shift",
            root,
            "mm",
            m=(path.module, "mm", f"paths.{name}.module"),
            z=(path.tooth_counts[place], "", f"paths.{name}.tooth_counts"),
            x=(shifts_of(path)[place], "", f"paths.{name}.profile_shift_coefficients"),
        ),
    ]


def over_bush(machine: LoadedMachine, thick: float, bore: float) -> list[Working]:
    """Say how thick the bush of a free gear is, its seat being so thick."""
    where = f"shaft {machine.spec.clutch.shaft} at its thicker gear seat"
    return [
        worked(
            "D_b = d + 2*t",
            bore,
            "mm",
            d=(thick, "mm", where),
            t=(machine.spec.bearings.bush_wall, "mm", "bearings.bush_wall"),
        )
    ]


def _under_sleeve(machine: LoadedMachine) -> Given:
    """Thickness of the shaft under the clutch's sleeve."""
    spec = machine.spec
    number = spec.clutch.shaft
    return seat(spec, number, CLUTCH), "mm", seat_field(spec, number, CLUTCH)


def gap_neutral(machine: LoadedMachine, room: float, gap: float) -> list[Working]:
    """Say how the gap in neutral was got."""
    return [
        worked(
            "s = (L - l)/2",
            gap,
            "mm",
            L=(room, "mm", "room between the gears' dogs, from the paths' places, widths and dogs"),
            l=(machine.spec.clutch.sleeve_length, "mm", "clutch.sleeve_length"),
        )
    ]


def gap_engaged(machine: LoadedMachine, room: float, gap: float, other: float) -> list[Working]:
    """Say how the gap on the far side was got."""
    return [
        *gap_neutral(machine, room, gap),
        worked(
            "s_2 = 2*s + e",
            other,
            "mm",
            s=(gap, "mm", "above"),
            e=(machine.spec.clutch.overlap, "mm", "clutch.overlap"),
        ),
    ]


def drop_angle(machine: LoadedMachine, wait: float) -> list[Working]:
    """Say how far one side may have to turn before the dogs drop in."""
    one = machine.spec.clutch
    count: Given = (one.dogs, "", "clutch.dogs")
    if one.keeps_phase:
        count = (1, "", "one place in a turn, as clutch.keeps_phase asks")
    return [
        worked(
            "phi_w = 2*pi/n - phi",
            wait,
            "deg",
            n=count,
            phi=(one.angular_play, "deg", "clutch.angular_play"),
        )
    ]


def dogs_kept(machine: LoadedMachine) -> list[Working]:
    """Say by which rule the count of dogs is held against the phase."""
    dogs = machine.spec.clutch.dogs
    rule = "angles of a turn at which equal dogs drop in: one for each dog; a phase that is kept allows one"
    return [by_method("n", rule, float(dogs), "", n=(dogs, "", "clutch.dogs"))]


def shift(machine: LoadedMachine, torque: float, lever: float, drag: float) -> list[Working]:
    """Say how the force to shift at rest was got."""
    one = machine.spec.clutch
    return [
        worked(
            "F = mu*0.05*T*(1/r + 2/d)",
            drag,
            "N",
            mu=(one.friction, "", "clutch.friction"),
            T=(torque, "N*m", "power flow, torque of the path on the clutch's shaft"),
            r=(
                lever,
                "mm",
                "middle radius of the dogs, from clutch.outer_diameter and its inner one",
            ),
            d=_under_sleeve(machine),
        )
    ]


def detent_force(machine: LoadedMachine, weight: float, asked: float) -> list[Working]:
    """Say how the sleeve's weight, and the force that holds it, were got."""
    one = machine.spec.clutch
    density = table("materials").find(one.material).values["density"]
    return [
        worked(
            "F_G = g*rho*pi/4*(D**2 - d**2)*l",
            weight,
            "N",
            g=(STANDARD_GRAVITY, "m/s**2", "standard gravity"),
            rho=(density, "kg/m**3", f"data/tables/materials.csv, {one.material}: density"),
            D=_outer(machine),
            d=_under_sleeve(machine),
            l=(one.sleeve_length, "mm", "clutch.sleeve_length"),
        ),
        worked("F = 3*F_G", asked, "N", F_G=(weight, "N", "above")),
    ]


def detent_under_fork(machine: LoadedMachine) -> list[Working]:
    """Say that the detent's force is held against the fork's as both stand."""
    return [as_given("F_D", machine.spec.clutch.detent_force, "N", "clutch.detent_force")]


def feather_length(machine: LoadedMachine, half: float, width: float, length: float) -> Working:
    """Say how much of the feather key bears in the engaged sleeve, by half of its own length and its width."""
    one = machine.spec.clutch
    return worked(
        "l = l_s - 2*h_d - Max(a + (l_s - 2*h_d)/2 - (l_k - b/2), 0)",
        length,
        "mm",
        l_s=(one.sleeve_length, "mm", "clutch.sleeve_length"),
        h_d=(one.dog_height, "mm", "clutch.dog_height"),
        a=(positions(machine.spec).travel, "mm", "travel from neutral, from the paths' places"),
        l_k=(half, "mm", "half of the key: between the free gears and their rings"),
        b=(width, "mm", f"data/tables/keys.csv, {machine.system}: width; its ends are round"),
    )


def feather(
    machine: LoadedMachine, torque: float, deep: Given, length: float, pressure: float
) -> Working:
    """Say how the pressure on a flank of the feather key, so deep and so long, was got."""
    return worked(
        "p = 2*T/(d*t*l)",
        pressure,
        "MPa",
        source="Shigley 10th ed., section 7-7",
        T=(torque, "N*m", "power flow, torque of the path on the clutch's shaft"),
        d=_under_sleeve(machine),
        t=deep,
        l=(length, "mm", "above"),
    )
