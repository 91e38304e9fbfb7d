"""What goes into the trough: batch, clay, trough, paddles.

Ranges of defaults are common practice unless they say more.
"""

from __future__ import annotations

from mixerkit.fields import Record, choice, number, quantity, whole, words

__all__ = ["TESTED", "Batch", "Clay", "Paddles", "Trough"]


class Batch(Record, role="fact"):
    """What goes into the trough at once, and how it is worked."""

    mass: float = quantity("kg > 0 <= 500", "mass of one batch of clay", "15 kg")
    bag_length: float = quantity("mm > 0 <= 2000", "longest side of the bag", "300 mm", "300 mm")
    bag_width: float = quantity("mm > 0 <= 2000", "middle side of the bag", "190 mm", "190 mm")
    bag_height: float = quantity("mm > 0 <= 2000", "shortest side of the bag", "135 mm", "135 mm")
    goes_in: str = choice(
        ("standing", "lying", "folded", "cut"),
        "how the bag goes in: standing, end on through the opening and then laid down; lying, flat through it; "
        "folded, its length halved and its height doubled; cut, in two halves across its length, the second "
        "when the first is drawn down",
        "standing",
        role="choice",
    )
    life_hours: float = number(
        "> 0 <= 100000", "hours of mixing the machine is to last", "2000", 2000.0, role="wanted"
    )
    turns_to_mix: float = number(
        "> 0 <= 5000",
        "turns of shaft 1 that even out a batch (common practice 100 to 300)",
        "200",
        200.0,
        role="practice",
    )
    loading_time: float = quantity(
        "min >= 0 <= 240",
        "time to load and empty between batches",
        "6 min",
        "6 min",
        role="practice",
    )
    reversals: float = number(
        ">= 0 <= 1000",
        "times in a batch that motor or clutch turn a shaft about; 1000 where nobody has counted",
        "4",
        1000.0,
        role="practice",
    )
    heavier_share: float = number(
        ">= 0.5 <= 1",
        "largest share of the torque that one shaft may find itself carrying",
        "0.65",
        0.65,
        role="practice",
    )
    heaped_share: float = number(
        ">= 0.5 <= 1",
        "largest share of the clay that may lie heaped on one shaft (common practice)",
        "0.65",
        0.65,
        role="practice",
    )


class Clay(Record, role="fact"):
    """The clay, and how its strength was found."""

    strength_from: str = choice(
        ("water content", "cone", "rod", "vane", "named body"), "how the strength is found"
    )
    water_content: float = number("> 0 <= 1.5", "mass of water over mass of dry clay", "0.26", 0.26)
    liquid_limit: float = number("> 0 <= 3", "water content at the liquid limit", "0.45", 0.45)
    plastic_limit: float = number("> 0 <= 2", "water content at the plastic limit", "0.22", 0.22)
    body: str = words(
        "a named body of data/tables/clay_bodies.csv",
        "stiff pugged stoneware",
        "stiff pugged stoneware",
    )
    cone_mass: float = quantity("g > 0 <= 5000", "mass of cone and rod", "80 g", "80 g")
    cone_angle: str = choice(("30 deg", "60 deg"), "full angle of the cone", "30 deg")
    cone_penetration: float = quantity("mm > 0 <= 100", "how far the cone sinks", "5 mm", "5 mm")
    rod_diameter: float = quantity("mm > 0 <= 100", "diameter of the flat end", "10 mm", "10 mm")
    rod_load: float = quantity("N > 0 <= 2000", "load that pushes it in steadily", "22 N", "22 N")
    vane_diameter: float = quantity(
        "mm > 0 <= 200", "width over the vane's blades", "20 mm", "20 mm"
    )
    vane_height: float = quantity("mm > 0 <= 400", "height of the vane's blades", "40 mm", "40 mm")
    vane_torque: float = quantity(
        "N*m > 0 <= 100", "torque that turns the vane", "0.9 N*m", "0.9 N*m"
    )
    start_factor: float = number(
        ">= 1.2 <= 5",
        "how much more torque the clay asks to be set moving (common practice 1.3 to 2)",
        "1.5",
        1.5,
        role="practice",
    )


TESTED = {
    "water content": ("water_content", "liquid_limit", "plastic_limit"),
    "cone": ("cone_penetration",),
    "rod": ("rod_diameter", "rod_load"),
    "vane": ("vane_diameter", "vane_height", "vane_torque"),
    "named body": ("body",),
}
"""What each way of finding the clay's strength reads: a file says it, as no default is anyone's clay."""


class Trough(Record, role="choice"):
    """The trough the paddles turn in."""

    length: float = quantity("mm > 0 <= 3000", "inside, along the shafts", "300 mm")
    wall_thickness: float = quantity("mm > 0 <= 50", "of its sheet", "3 mm", "3 mm")
    material: str = words(
        "of its sheet, a material of data/tables/materials.csv; plain steel where nobody says, as it stains",
        "stainless 1.4301 annealed",
        "steel S235JR",
    )
    wall_clearance: float = quantity(
        "mm > 0 <= 100", "gap between paddle tip and wall", "5 mm", "5 mm"
    )
    opening_length: float = quantity(
        "mm > 0 <= 3000", "opening at the top, one way", "290 mm", "290 mm"
    )
    opening_width: float = quantity(
        "mm > 0 <= 3000", "opening at the top, the other way", "300 mm", "300 mm"
    )
    free_depth: float = quantity(
        "mm >= 0 <= 2000",
        "from the paddles' tops to the lid, where the bag lies before it is drawn in; 0 reckons it from "
        "guard.lid_distance with the lid's edge right over the wall",
        "200 mm",
        "0 mm",
    )
    least_fill: float = number(
        "> 0 <= 1",
        "share of the working volume below which paddles miss the clay",
        "0.3",
        0.3,
        role="practice",
    )
    most_fill: float = number(
        "> 0 <= 1",
        "share of the working volume above which clay rides on top",
        "0.75",
        0.75,
        role="practice",
    )


class Paddles(Record, role="choice"):
    """The paddles of one shaft, and how the other shaft's stand to them."""

    tip_radius: float = quantity(
        "mm > 0 <= 1000", "from the shaft's middle to a paddle's tip", "90 mm"
    )
    root_radius: float = quantity(
        "mm > 0 <= 500", "from the shaft's middle to where a paddle begins", "25 mm"
    )
    count: int = whole(1, 60, "paddles on one shaft", "5")
    width: float = quantity("mm > 0 <= 500", "width of a paddle's face", "40 mm", "40 mm")
    thickness: float = quantity("mm > 0 <= 100", "thickness of a paddle", "6 mm", "6 mm")
    stem_width: float = quantity(
        "mm > 0 <= 500", "width of a paddle's stem where it meets the sleeve", "35 mm", "35 mm"
    )
    stem_thickness: float = quantity(
        "mm > 0 <= 200", "thickness of the stem there, ribs included", "22 mm", "22 mm"
    )
    stem_height: float = quantity(
        "mm >= 0 <= 500",
        "from the sleeve to where the stem has tapered to the bare blade",
        "25 mm",
        "0 mm",
    )
    weld_throat: float = quantity(
        "mm > 0 <= 50",
        "throat of the fillet all round each stem where it is welded on, 0.7 of its leg",
        "5 mm",
        "3 mm",
    )
    material: str = words(
        "a material of data/tables/materials.csv, stainless where clay is to stay clean",
        "stainless 1.4301 annealed",
        "stainless 1.4301 annealed",
    )
    set_angle: float = quantity(
        "deg >= 0 <= 90",
        "between a paddle's face and the plane it turns in; 90 deg is square-on",
        "60 deg",
        "60 deg",
    )
    spacing: float = quantity(
        "mm > 0 <= 1000", "from paddle to paddle along the shaft", "60 mm", "60 mm"
    )
    phase_step: float = quantity(
        "deg >= -360 <= 360", "from paddle to paddle round the shaft", "72 deg", "72 deg"
    )
    offset_2: float = quantity(
        "mm >= 0 <= 1000", "how far along the paddles of shaft 2 stand", "30 mm", "30 mm"
    )
    phase_2: float = quantity(
        "deg >= -360 <= 360",
        "angle of the first paddle of shaft 2 with that of shaft 1 at zero",
        "0 deg",
        "0 deg",
    )
    bearing_capacity_factor: float = number(
        ">= 9.1 <= 20",
        "pressure on a blade over the clay's strength, 9.1 smooth to 11.9 rough",
        "10.5",
        10.5,
        role="practice",
    )
    adhesion: float = number(
        ">= 0.2 <= 1",
        "share of the clay's strength that holds on to a turning sleeve (API RP 2GEO: 0.5 at most in clay "
        "stronger than the pressure on it)",
        "0.5",
        0.5,
        role="practice",
    )
    nip_share: float = number(
        ">= 0.05 <= 1",
        "torque added by the nip when counter-rotating (common practice 0.05 to 0.2)",
        "0.1",
        0.1,
        role="practice",
    )
