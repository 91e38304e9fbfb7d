"""How the numbers of the paddles' checks were worked out: their gaps, their stems, their metal."""

from __future__ import annotations

from mixerkit.results import LoadedMachine
from mixerkit.working import Given, Working, by_method, worked

__all__ = [
    "circles_overlap",
    "clean_metal",
    "corners_clear_sleeve",
    "corners_clear_wall",
    "gap_found",
    "paddle_stress",
    "sleeve_across",
    "stem_ends",
    "stem_extent",
]


def gap_found(machine: LoadedMachine, gap: float) -> list[Working]:
    """Say how the nearest meeting of two paddles was found."""
    blade = machine.spec.paddles
    return [
        by_method(
            "s",
            "every pair of paddles followed as rectangles over the turns until both shafts stand as they "
            "began, by separating axes, less what two moments may hide; where no phase is kept, the worst "
            "of all angles; paddles that lie apart along the shafts are clear by that",
            gap,
            "mm",
            a=(machine.spec.housing.centre_distance, "mm", "housing.centre_distance"),
            r_2=(blade.tip_radius, "mm", "paddles.tip_radius"),
            r_1=(blade.root_radius, "mm", "paddles.root_radius"),
            phi_2=(blade.phase_2, "deg", "paddles.phase_2"),
        )
    ]


def _corner(machine: LoadedMachine, half: float, reach: float) -> Working:
    return worked(
        "r_c = sqrt(r_2**2 + b**2)",
        reach,
        "mm",
        r_2=(machine.spec.paddles.tip_radius, "mm", "paddles.tip_radius"),
        b=(half, "mm", "half of the blade's width across, from width, thickness and set angle"),
    )


def corners_clear_sleeve(
    machine: LoadedMachine, half: float, reach: float, asked: float
) -> list[Working]:
    """Say how the distance that corners and sleeve ask adds up."""
    spec = machine.spec
    return [
        _corner(machine, half, reach),
        worked(
            "a_min = r_c + r_1 + s",
            asked,
            "mm",
            r_c=(reach, "mm", "above"),
            r_1=(spec.paddles.root_radius, "mm", "paddles.root_radius"),
            s=(spec.safety.paddle_clearance, "mm", "safety.paddle_clearance"),
        ),
    ]


def corners_clear_wall(
    machine: LoadedMachine, half: float, reach: float, asked: float, wall: float
) -> list[Working]:
    """Say how far corners reach with their gap, and where the wall is."""
    spec = machine.spec
    return [
        _corner(machine, half, reach),
        worked(
            "r_min = r_c + s",
            asked,
            "mm",
            r_c=(reach, "mm", "above"),
            s=(spec.safety.paddle_clearance, "mm", "safety.paddle_clearance"),
        ),
        worked(
            "r_w = r_2 + c",
            wall,
            "mm",
            r_2=(spec.paddles.tip_radius, "mm", "paddles.tip_radius"),
            c=(spec.trough.wall_clearance, "mm", "trough.wall_clearance"),
        ),
    ]


def circles_overlap(
    machine: LoadedMachine, times: float, asked: float, has: float
) -> list[Working]:
    """Say how far the circles of both shafts reach, and must."""
    spec = machine.spec
    return [
        worked(
            "d_min = c*a",
            asked,
            "mm",
            c=(times, "", "common practice"),
            a=(spec.housing.centre_distance, "mm", "housing.centre_distance"),
        ),
        worked("d = 2*r_2", has, "mm", r_2=(spec.paddles.tip_radius, "mm", "paddles.tip_radius")),
    ]


def paddle_stress(
    machine: LoadedMachine, torque: float, each: float, stress: float, place: float
) -> list[Working]:
    """Say how the stress in a paddle held at its tip was got."""
    per_torque: Given = (each, "MPa/(N*m)", "above")
    return [
        by_method(
            "k",
            "stress for each unit of torque at the worst of nine places along the stem: caught at a corner, "
            "bending over both sides and twist, the worst of face and edge, little and much friction; or wedged "
            "between tip and wall, thrust and bending, at the foot by a push on the edge of the tip",
            each,
            "MPa/(N*m)",
            r=(place, "mm", "worst place, from the shaft's middle"),
            r_2=(machine.spec.paddles.tip_radius, "mm", "paddles.tip_radius"),
        ),
        worked(
            "sigma = k*T",
            stress,
            "MPa",
            k=per_torque,
            T=(torque, "N*m", "power flow, torque of the jammed shaft"),
        ),
    ]


def stem_ends(machine: LoadedMachine, top: float) -> list[Working]:
    """Say where the stems end."""
    blade = machine.spec.paddles
    return [
        worked(
            "r_s = r_1 + h",
            top,
            "mm",
            r_1=(blade.root_radius, "mm", "paddles.root_radius"),
            h=(blade.stem_height, "mm", "paddles.stem_height"),
        )
    ]


def stem_extent(machine: LoadedMachine, along: float) -> list[Working]:
    """Say how long the foot of a stem or blade is along its shaft."""
    return [
        by_method(
            "b",
            "rectangle at the sleeve seen along the turn: projection of its width and thickness by the set angle",
            along,
            "mm",
            beta=(machine.spec.paddles.set_angle, "deg", "paddles.set_angle"),
        )
    ]


def sleeve_across(machine: LoadedMachine, across: float, has: float) -> list[Working]:
    """Say how wide the foot of a stem is across its shaft, and the sleeve."""
    blade = machine.spec.paddles
    return [
        by_method(
            "b",
            "rectangle at the sleeve seen along the shaft: projection of its width and thickness by the set angle",
            across,
            "mm",
            beta=(blade.set_angle, "deg", "paddles.set_angle"),
        ),
        worked("d = 2*r_1", has, "mm", r_1=(blade.root_radius, "mm", "paddles.root_radius")),
    ]


def clean_metal(metal: str, is_clean: float) -> list[Working]:
    """Say by which rule a metal is clean."""
    rule = f"1 where the family of {metal} in data/tables/materials.csv is stainless, or iron and the clay fires dark (contact.clay), else 0"
    return [by_method("c", rule, is_clean, "")]
