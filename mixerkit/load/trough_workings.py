"""How the numbers of the trough's checks were worked out."""

from __future__ import annotations

from mixerkit.load import clay
from mixerkit.results import LoadedMachine
from mixerkit.working import Given, Working, as_given, by_method, worked

__all__ = [
    "bag_filled",
    "bag_holds",
    "bag_passes",
    "batch_bites",
    "batch_fits",
    "blades_reach",
    "depth",
    "row_length",
    "trough_side",
    "widest_gap",
]


def bag_passes(way: str, what: str, asked: float, given: float) -> list[Working]:
    """Say which side of the bag is held against which of the opening."""
    return [
        by_method(
            "l",
            f"bag {way} (batch.goes_in): its {what}; its two sides in order against those of the opening in order",
            asked,
            "mm",
            l_o=(given, "mm", "trough.opening_length and trough.opening_width, in order"),
        )
    ]


def depth(machine: LoadedMachine, what: str, asked: float, has: float) -> list[Working]:
    """Say which side of the bag stands up, and how much is free above the paddles."""
    spec = machine.spec
    bag = by_method("h", f"bag {spec.batch.goes_in} (batch.goes_in): its {what}", asked, "mm")
    if spec.trough.free_depth > 0:
        return [bag, as_given("h_0", has, "mm", "trough.free_depth")]
    if has <= 0:
        rule = "nothing: the lid's edge is no higher than the paddles' tops"
        return [bag, by_method("h_0", rule, has, "mm")]
    return [
        bag,
        worked(
            "h_0 = sqrt((l + r_2)**2 - (r_2 + s)**2) - r_2",
            has,
            "mm",
            l=(spec.guard.lid_distance, "mm", "guard.lid_distance"),
            r_2=(spec.paddles.tip_radius, "mm", "paddles.tip_radius"),
            s=(spec.trough.wall_clearance, "mm", "trough.wall_clearance"),
        ),
    ]


def trough_side(machine: LoadedMachine, side: str, asked: float, has: float) -> list[Working]:
    """Say how a side of the trough was got, and which of the bag is held against it."""
    spec = machine.spec
    bag = by_method(
        "l", "side of the bag that comes to lie this way, along the shafts if it can", asked, "mm"
    )
    if side == "length":
        return [bag, as_given("L", has, "mm", "trough.length")]
    return [
        bag,
        worked(
            "b = a + 2*(r_2 + s)",
            has,
            "mm",
            a=(spec.housing.centre_distance, "mm", "housing.centre_distance"),
            r_2=(spec.paddles.tip_radius, "mm", "paddles.tip_radius"),
            s=(spec.trough.wall_clearance, "mm", "trough.wall_clearance"),
        ),
    ]


def _volume(machine: LoadedMachine, volume: float) -> list[Working]:
    water = machine.spec.clay.water_content
    density = float(clay.wet_density.formula(water))
    return [
        worked(
            "rho = rho_s*(1 + w)/(1 + w*rho_s/rho_w)",
            density,
            "kg/m**3",
            source="phase relations at full saturation: any text on soil mechanics",
            rho_s=(clay.GRAIN_DENSITY, "kg/m**3", "grains of clay: common practice"),
            w=(water, "", "clay.water_content"),
            rho_w=(clay.WATER_DENSITY, "kg/m**3", "water: common practice"),
        ),
        worked(
            "V = m/rho",
            volume,
            "L",
            m=(machine.spec.batch.mass, "kg", "batch.mass"),
            rho=(density, "kg/m**3", "above"),
        ),
    ]


def bag_holds(machine: LoadedMachine, volume: float, bulge: float, holds: float) -> list[Working]:
    """Say how the batch's volume and the bag's were got."""
    one = machine.spec.batch
    return [
        *_volume(machine, volume),
        worked(
            "V_B = c*l*b*h",
            holds,
            "L",
            c=(bulge, "", "sides of a soft bag are read too small: common practice"),
            l=(one.bag_length, "mm", "batch.bag_length"),
            b=(one.bag_width, "mm", "batch.bag_width"),
            h=(one.bag_height, "mm", "batch.bag_height"),
        ),
    ]


def bag_filled(
    machine: LoadedMachine, volume: float, slack: float, most: float, bagged: float
) -> list[Working]:
    """Say how the bag's volume and the most that its clay may take up were got."""
    one = machine.spec.batch
    return [
        *_volume(machine, volume),
        worked(
            "V_max = c*V",
            most,
            "L",
            c=(slack, "", "common practice"),
            V=(volume, "L", "above"),
        ),
        worked(
            "V_B = l*b*h",
            bagged,
            "L",
            l=(one.bag_length, "mm", "batch.bag_length"),
            b=(one.bag_width, "mm", "batch.bag_width"),
            h=(one.bag_height, "mm", "batch.bag_height"),
        ),
    ]


def _room(machine: LoadedMachine, room: float, gap: float, bounds: str) -> Working:
    spec = machine.spec
    return by_method(
        "V_0",
        f"cross-section of the trough {bounds} up to the paddles' tops less the sleeves, summed over heights by "
        "the trapezoidal rule, times the length",
        room,
        "L",
        r_2=(spec.paddles.tip_radius, "mm", "paddles.tip_radius"),
        r_1=(spec.paddles.root_radius, "mm", "paddles.root_radius"),
        s=(gap, "mm", "trough.wall_clearance where the first batch fills it"),
        a=(spec.housing.centre_distance, "mm", "housing.centre_distance"),
        L=(spec.trough.length, "mm", "trough.length"),
    )


def batch_fits(machine: LoadedMachine, volume: float, room: float, most: float) -> list[Working]:
    """Say how the batch's volume and the most that goes in were got."""
    fill: Given = (machine.spec.trough.most_fill, "", "trough.most_fill")
    return [
        *_volume(machine, volume),
        _room(machine, room, 0.0, "within the tips, the gap full of clay that stays,"),
        worked("V_max = c*V_0", most, "L", c=fill, V_0=(room, "L", "above")),
    ]


def batch_bites(machine: LoadedMachine, volume: float, room: float, least: float) -> list[Working]:
    """Say how the batch's volume and the least that is wanted were got."""
    fill: Given = (machine.spec.trough.least_fill, "", "trough.least_fill")
    return [
        *_volume(machine, volume),
        _room(machine, room, machine.spec.trough.wall_clearance, "with the gap, still clean,"),
        worked("V_min = c*V_0", least, "L", c=fill, V_0=(room, "L", "above")),
    ]


def widest_gap(machine: LoadedMachine, share: float, most: float) -> Working:
    """Say how wide a gap to the wall may be."""
    return worked(
        "s_max = c*r_2",
        most,
        "mm",
        c=(share, "", "common practice"),
        r_2=(machine.spec.paddles.tip_radius, "mm", "paddles.tip_radius"),
    )


def row_length(machine: LoadedMachine, widest: float, swept: float) -> list[Working]:
    """Say how the length of both rows of paddles adds up."""
    spec = machine.spec
    return [
        worked(
            "L_min = (n - 1)*p + x_2 + b + 2*s",
            swept,
            "mm",
            n=(spec.paddles.count, "", "paddles.count"),
            p=(spec.paddles.spacing, "mm", "paddles.spacing"),
            x_2=(spec.paddles.offset_2, "mm", "paddles.offset_2"),
            b=(widest, "mm", "blade and stem along the shaft, the longer of both"),
            s=(spec.trough.wall_clearance, "mm", "trough.wall_clearance"),
        )
    ]


def blades_reach(
    machine: LoadedMachine, share: float, least: float, reached: float
) -> list[Working]:
    """Say how much of the trough's length blades pass over, and must."""
    blade = machine.spec.paddles
    return [
        worked(
            "L_min = c*L",
            least,
            "mm",
            c=(share, "", "common practice"),
            L=(machine.spec.trough.length, "mm", "trough.length"),
        ),
        by_method(
            "L_b",
            "lengths that the blades of both rows pass over, joined where they overlap, less what only one "
            "row reaches where the rows stand more than a spacing apart",
            reached,
            "mm",
            n=(blade.count, "", "paddles.count"),
            p=(blade.spacing, "mm", "paddles.spacing"),
            x_2=(blade.offset_2, "mm", "paddles.offset_2"),
        ),
    ]
