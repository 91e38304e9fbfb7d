"""The tables of a design file that concern shafts: what they are, turn in, are held and guarded by.

Ranges of defaults are common practice unless they say more.
"""

from __future__ import annotations

from mixerkit.fields import (
    Record,
    choice,
    if_given,
    number,
    places,
    quantities,
    quantity,
    whole,
    words,
    yes_no,
)

__all__ = ["NOTCHES", "NO_REASON", "SERIES", "Bearings", "Fuse", "Guard", "Hubs", "Shaft", "Sleeve"]

SERIES = ("60", "62", "63", "64")
"""Dimension series of ball bearings in the order of what they carry: 10, 02, 03 and 04 of ISO 15."""
NO_REASON = "none"
"""What stands where a maker gives no reason."""
_UPPER_TORQUE = "N*m > 0 <= 20000"
NOTCHES = ("shoulder", "groove", "keyway", "cross hole", "thread", "press fit", "welded paddle")
"""What weakens a shaft where it is loaded over and over."""


class Shaft(Record, role="choice"):
    """One paddle shaft, solid and round, stepped where the design says so.

    Positions run from the inside of the plate at the reducer towards the trough.
    """

    material: str = words("a material of data/tables/materials.csv", "steel C45 normalised")
    diameter: float = quantity("mm > 0 <= 300", "diameter at its thinnest loaded section", "40 mm")
    keyway: bool = yes_no(
        "whether keyways are cut under box or fuse, gears and clutch", default=True
    )
    step_at: tuple[float, ...] = quantities(
        "mm >= -2000 <= 5000", 8, "positions from which the next diameter holds", '["200 mm"]'
    )
    step_diameters: tuple[float, ...] = quantities(
        "mm > 0 <= 300", 8, "diameter from each of those positions on", '["50 mm"]'
    )
    fillet: float = quantity("mm > 0 <= 50", "fillet radius at the steps", "1.5 mm", "1.5 mm")
    notches: tuple[tuple[str, float], ...] = places(
        NOTCHES,
        "mm >= -2000 <= 5000",
        12,
        "further notches, besides those that keys, seats, pins and steps bring",
        '["groove at 12 mm"]',
    )
    finish: str = choice(("ground", "machined", "hot-rolled"), "finish of its surface", "machined")


class Sleeve(Record, role="choice"):
    """The stainless sleeve over the shafts in the trough, with the paddles welded to it."""

    kind: str = choice(
        ("carried", "floating", "none"),
        "carried: seated on the shaft at both ends, pinned at the driving one; floating: at the driving end only",
        "carried",
    )
    material: str = words(
        "a material of data/tables/materials.csv",
        "stainless 1.4301 annealed",
        "stainless 1.4301 annealed",
    )
    wall: float = quantity("mm > 0 <= 50", "thickness of its wall", "4 mm", "4 mm")
    sealed_ends: bool = yes_no("whether its ends are sealed against slip", default=True)
    pin_diameter: float = quantity(
        "mm > 0 <= 60", "of each pin through sleeve and shaft", "12 mm", "12 mm"
    )
    pins: int = whole(1, 6, "pins at the driving end of each sleeve", "2", 2)
    pin_material: str = words(
        "a material of data/tables/materials.csv",
        "steel 42CrMo4 quenched and tempered",
        "steel 42CrMo4 quenched and tempered",
    )
    large_hole_reason: str = words(
        f'why a hole of more than 0.3 of the shaft goes across it for a pin; "{NO_REASON}" refuses it',
        "the pins that were at hand, a third of the shaft",
        NO_REASON,
    )


class Hubs(Record, role="choice"):
    """How box and gears hold their shafts."""

    gear: str = choice(
        ("key", "set screws", "taper pin", "clamp"), "how gears are fixed to a shaft", "key"
    )
    gear_length: float = quantity(
        "mm > 0 <= 300", "length of key or clamp inside a gear", "40 mm", "40 mm"
    )
    box_length: float = quantity(
        "mm > 0 <= 500",
        "length of the key inside the box's hollow shaft, or in the flange of a fuse on shaft 1",
        "80 mm",
        "80 mm",
    )
    key_material: str = words(
        "a material of data/tables/materials.csv",
        "steel C45 quenched and tempered",
        "steel C45 quenched and tempered",
    )
    box_material: str = words(
        "of the box's hollow shaft, a material of data/tables/materials.csv; grey cast iron, the weakest of "
        "those that are usual, unless its maker says otherwise",
        "steel C45 normalised",
        "cast iron EN-GJL-250",
        role="fact",
    )
    set_screw: str = words("a size of data/tables/set_screws.csv", "M10", "M10")
    set_screws: int = whole(1, 6, "set screws in each gear", "2", 2)
    set_screw_angle: float = quantity(
        "deg >= 0 <= 180", "between the two screws of a pair", "120 deg", "120 deg"
    )
    set_screw_tip: str = choice(
        ("cup", "cone", "half-dog", "flat", "oval"), "tip of the set screws", "cup"
    )
    pin_diameter: float = quantity(
        "mm > 0 <= 60", "middle diameter of a taper pin across hub and shaft", "10 mm", "10 mm"
    )
    large_hole_reason: str = words(
        f'why a taper pin is thicker than 0.3 of its shaft; "{NO_REASON}" refuses it',
        "taper pins of a third are customary here",
        NO_REASON,
    )
    clamp_screw: str = words("thread of the clamp's screws", "M10", "M10")
    clamp_screws: int = whole(1, 8, "screws of each clamp", "4", 4)


class Bearings(Record, role="choice"):
    """What the shafts, the free gears and the idler turn in."""

    span: float = quantity(
        "mm > 0 <= 3000", "distance between the bearings either side of the trough", "340 mm"
    )
    kind: str = choice(("rolling", "plain bush"), "kind of the shafts' bearings", "rolling")
    series: str = choice(
        SERIES, "dimension series of the ball bearings to ISO 15, lightest first", "62"
    )
    far_end: str = choice(
        ("as in the plates", "insert bearing"),
        "bearing beyond the trough: as the others, or one that slides on a plain bar and is held by set screws "
        "(ISO 9628) in a housing of its own (ISO 3228)",
        "as in the plates",
    )
    bush_length: float = quantity("mm > 0 <= 300", "length of a shaft's bush", "40 mm", "40 mm")
    bush_material: str = words(
        "a material of data/tables/bush_materials.csv for every bush",
        "cast tin bronze, greased",
        "cast tin bronze, greased",
    )
    bush_wall: float = quantity("mm > 0 <= 50", "wall of every bush", "5 mm", "5 mm")
    bush_fit: str = words("fit of every bush in its bore", "H7/p6", "H7/p6")
    free_gear_length: float = quantity(
        "mm > 0 <= 300", "length of the bush in each free gear", "40 mm", "40 mm"
    )
    idler_length: float = quantity("mm > 0 <= 300", "length of the idler's bush", "40 mm", "40 mm")
    wear_allowed: float = quantity(
        "mm > 0 <= 5",
        "wear of a bush on the radius before it is changed",
        "0.2 mm",
        "0.2 mm",
        role="wanted",
    )
    locating: int = whole(
        1, 3, "bearing that takes the push: 1 and 2 at the plates, 3 beyond the trough", "2", 2
    )
    retainer_thickness: float = quantity(
        "mm > 0 <= 100",
        "of the two plates that hold the outer rings of the ball bearings that take the push",
        "10 mm",
        "10 mm",
    )
    retainer_screw: str = words("thread of the screws of those plates", "M10", "M10")
    seal: str = words(
        "a seal of data/tables/seals.csv where a shaft leaves the trough",
        "packed gland, greased",
        "packed gland, greased",
    )
    misalignment: float = quantity(
        "mm >= 0 <= 5",
        "how far one of a shaft's bearings may stand off the line of the others, best as measured "
        "(the default is good shop work: common practice)",
        "0.1 mm",
        "0.1 mm",
        role="practice",
    )
    drain_gap: float = quantity(
        "mm >= 0 <= 200", "open gap wanted between seal and bearing", "5 mm", "5 mm", role="wanted"
    )


class Fuse(Record, role="choice"):
    """What gives way first in a jam, between the box's slow end and shaft 1."""

    kind: str = choice(("shear pin", "torque limiter", "none"), "what gives way", "none")
    pin_diameter: float = quantity("mm > 0 <= 60", "of the pin where it shears", "8 mm", "8 mm")
    pin_radius: float = quantity(
        "mm > 0 <= 500", "from the shaft's middle to the pin", "60 mm", "60 mm"
    )
    pins: int = whole(1, 6, "shear pins", "1", 1)
    planes: int = whole(1, 2, "planes in which each pin shears", "1", 1)
    pin_material: str = words(
        "a material of data/tables/materials.csv", "steel S235JR", "steel S235JR"
    )
    setting: float = quantity(
        _UPPER_TORQUE, "torque at which a limiter slips", "600 N*m", "600 N*m"
    )
    pin_condition: str = choice(
        ("unknown", "hot rolled", "bright drawn", "tested"),
        "how the pins' bar was delivered, which bounds its strength; tested: one pin of that bar was broken on purpose",
        "unknown",
        role="fact",
    )
    test_torque: float | None = if_given(
        quantity(
            _UPPER_TORQUE,
            "at which one pin broke on purpose, sheared in as many planes as the fuse has",
            "630 N*m",
            role="fact",
        )
    )
    test_pin_diameter: float | None = if_given(
        quantity("mm > 0 <= 60", "neck of the pin that was broken", "6.15 mm", role="fact")
    )
    test_pin_radius: float | None = if_given(
        quantity(
            "mm > 0 <= 500",
            "from the shaft's middle to the pin that was broken, or the lever it was broken with",
            "60 mm",
            role="fact",
        )
    )
    scatter: float = number(
        ">= 0.05 <= 0.5",
        "how far a limiter, or pins of a tested bar, may give either way of their middle, which one test does not tell; "
        "bounds of an untested steel hold it already",
        "0.12",
        0.12,
        role="practice",
    )


class Guard(Record, role="choice"):
    """What keeps hands away while it turns."""

    lid: str = choice(
        ("interlocked", "interlocked and locked until rest", "none"),
        "lid of the trough",
        "interlocked and locked until rest",
    )
    lid_distance: float = quantity(
        "mm >= 0 <= 3000", "from the lid's edge to the nearest paddle", "250 mm", "250 mm"
    )
    opening_shape: str = choice(
        ("slot", "square", "round"), "shape of the openings in guards", "square"
    )
    opening: float = quantity(
        "mm > 0 <= 500", "width, side or diameter of the largest of them", "12 mm", "12 mm"
    )
    opening_distance: float = quantity(
        "mm >= 0 <= 3000", "from an opening to the nearest moving part", "100 mm", "100 mm"
    )
    time_to_stop: float = quantity(
        "s >= 0 <= 600",
        "run-down as measured, trough empty; 0 reckons it",
        "0 s",
        "0 s",
        role="fact",
    )
    response_time: float = quantity(
        "s >= 0 <= 10",
        "from the lid's switch to the motor losing its current",
        "0.1 s",
        "0.1 s",
        role="fact",
    )
