"""The tables of a design file as records: one for each thing of the machine.

Each field says what it holds, in which range, what it means, and a value that works; those with a
last value may be left out of the file. Ranges of defaults are common practice unless they say more.
"""

from __future__ import annotations

from typing import Any

from mixerkit.records import (
    Record,
    choice,
    number,
    numbers,
    quantity,
    section,
    whole,
    wholes,
    words,
    yes_no,
)

__all__ = [
    "Batch",
    "Clay",
    "Clutch",
    "GearPath",
    "Housing",
    "Motor",
    "Paddles",
    "Paths",
    "Ranges",
    "Reducer",
    "Safety",
    "Supply",
    "Trough",
]

_UPPER_TORQUE = "N*m > 0 <= 20000"


class Batch(Record, role="fact"):
    """What goes into the trough at once, and how it is worked."""

    mass: Any = quantity("kg > 0 <= 500", "mass of one batch of clay", "15 kg")
    bag_length: Any = quantity("mm > 0 <= 2000", "longest side of the bag", "300 mm", "300 mm")
    bag_width: Any = quantity("mm > 0 <= 2000", "middle side of the bag", "190 mm", "190 mm")
    bag_height: Any = quantity("mm > 0 <= 2000", "shortest side of the bag", "135 mm", "135 mm")
    life_hours: float = number(
        "> 0 <= 100000", "hours of mixing the machine is to last", "2000", 2000.0, role="wanted"
    )
    turns_to_mix: float = number(
        "> 0 <= 5000",
        "turns that even out a batch (common practice 100 to 300)",
        "200",
        200.0,
        role="practice",
    )
    loading_time: Any = quantity(
        "min >= 0 <= 240",
        "time to load and empty between batches",
        "6 min",
        "6 min",
        role="practice",
    )
    heavier_share: float = number(
        ">= 0.5 <= 1",
        "largest share of the torque that one shaft may find itself carrying",
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
    cone_mass: Any = quantity("g > 0 <= 5000", "mass of cone and rod", "80 g", "80 g")
    cone_angle: str = choice(("30 deg", "60 deg"), "full angle of the cone", "30 deg")
    cone_penetration: Any = quantity("mm > 0 <= 100", "how far the cone sinks", "5 mm", "5 mm")
    rod_diameter: Any = quantity("mm > 0 <= 100", "diameter of the flat end", "10 mm", "10 mm")
    rod_load: Any = quantity("N > 0 <= 2000", "load that pushes it in steadily", "22 N", "22 N")
    vane_diameter: Any = quantity("mm > 0 <= 200", "width over the vane's blades", "20 mm", "20 mm")
    vane_height: Any = quantity("mm > 0 <= 400", "height of the vane's blades", "40 mm", "40 mm")
    vane_torque: Any = quantity(
        "N*m > 0 <= 100", "torque that turns the vane", "0.9 N*m", "0.9 N*m"
    )
    start_factor: float = number(
        ">= 1.2 <= 5",
        "how much more torque the clay asks to be set moving (common practice 1.3 to 2)",
        "1.5",
        1.5,
        role="practice",
    )


class Supply(Record, role="fact"):
    """The socket."""

    voltage: Any = quantity("V > 0 <= 700", "voltage between the conductors used", "230 V")
    frequency: Any = quantity("Hz > 0 <= 100", "frequency of the supply", "50 Hz")
    phases: int = whole(1, 3, "1 or 3", "1")
    socket_current: Any = quantity("A > 0 <= 200", "current the socket and its fuse allow", "16 A")
    inrush_factor: float = number(
        ">= 1 <= 20", "times that current its breaker lets through at switching on", "5", 5.0
    )


class Motor(Record, role="fact"):
    """The motor, as its rating plate and its maker's sheet state it, and how it is fed."""

    kind: str = choice(
        ("three-phase", "capacitor-start", "capacitor-run"), "kind of motor", "three-phase"
    )
    fed_by: str = choice(
        ("direct", "soft starter", "frequency converter"),
        "what is between socket and motor",
        "direct",
        role="choice",
    )
    rated_power: Any = quantity("kW > 0 <= 50", "mechanical power on the rating plate", "1.5 kW")
    rated_speed: Any = quantity("rpm > 0 <= 10000", "speed on the rating plate", "1440 rpm")
    rated_frequency: Any = quantity(
        "Hz > 0 <= 400", "frequency on the rating plate", "50 Hz", "50 Hz"
    )
    poles: int = whole(2, 16, "count of poles, 2, 4, 6 or 8", "4", 4)
    efficiency: float = number("> 0 <= 1", "efficiency on the rating plate", "0.853", 0.83)
    power_factor: float = number("> 0 <= 1", "power factor on the rating plate", "0.8", 0.8)
    start_torque_ratio: float = number("> 0 <= 6", "torque at rest over rated torque", "2.2")
    pull_up_torque_ratio: float = number(
        "> 0 <= 6", "least torque while it runs up over rated torque", "1.6", 1.6
    )
    breakdown_torque_ratio: float = number("> 1 <= 6", "greatest torque over rated torque", "2.6")
    start_current_ratio: float = number(
        ">= 1 <= 12", "current at rest over rated current", "6.5", 6.5
    )
    run_at: Any = quantity(
        "Hz > 0 <= 400",
        "frequency a converter is set to (direct: the supply's)",
        "50 Hz",
        "50 Hz",
        role="choice",
    )
    converter_torque_ratio: float = number(
        "> 0 <= 3", "torque a converter can make from rest over rated torque", "1.5", 1.5
    )
    shaft_end: Any = quantity(
        "mm > 0 <= 100", "diameter of the motor's shaft end", "24 mm", "24 mm"
    )
    inertia: Any = quantity(
        "kg*m**2 >= 0 <= 10",
        "moment of inertia of its rotor; 0 reckons it from the power",
        "0.0035 kg*m^2",
        "0 kg*m^2",
    )


class Reducer(Record, role="fact"):
    """The bought-in reduction box."""

    kind: str = choice(
        ("helical", "helical-worm", "worm", "planetary"), "kind of gearing", "helical-worm"
    )
    ratio: float = number("> 0 <= 1000", "turns of the motor for one turn of shaft 1", "60")
    efficiency: float = number("> 0 <= 1", "share of the power that comes out of the box", "0.85")
    start_efficiency: float = number(
        "> 0 <= 1", "the same while it starts from rest, cold", "0.75", 0.75
    )
    rated_torque: Any = quantity(
        _UPPER_TORQUE, "torque the box may carry all day at its slow end", "700 N*m"
    )
    peak_torque_ratio: float = number(
        ">= 1 <= 5", "momentary torque the box survives over its rated torque", "2", 2.0
    )
    hours_a_day: float = number("> 0 <= 24", "hours of running in a day", "3", 3.0)
    shock: str = choice(
        ("uniform", "moderate", "heavy"), "how rough the load is", "moderate", role="practice"
    )
    thermal_power: Any = quantity(
        "kW > 0 <= 100", "power the box may take in all day without overheating", "2.2 kW", "2.2 kW"
    )
    input_bore: Any = quantity(
        "mm > 0 <= 100", "bore at the fast end, as measured", "24 mm", "24 mm"
    )
    output_bore: Any = quantity(
        "mm > 0 <= 200", "bore of the hollow slow end, as measured", "50 mm", "50 mm"
    )
    torque_arm: Any = quantity(
        "mm > 0 <= 2000",
        "distance at which the box is held against turning",
        "250 mm",
        "250 mm",
        role="choice",
    )
    mass: Any = quantity(
        "kg > 0 <= 1000", "mass that hangs on shaft 1, box with motor", "40 kg", "40 kg"
    )
    overhang: Any = quantity(
        "mm > 0 <= 1000",
        "from the inside of the plate at the reducer to the middle of its hollow shaft",
        "90 mm",
        "90 mm",
        role="choice",
    )
    wind_up: Any = quantity(
        "deg > 0 <= 20",
        "by which the slow end gives under the rated torque, the fast end held",
        "1 deg",
        "1 deg",
    )
    play: Any = quantity("deg >= 0 <= 10", "backlash at the slow end", "0.3 deg", "0.3 deg")
    radial_load: Any = quantity(
        "N > 0 <= 100000", "load across its slow end that the box allows", "6000 N", "6000 N"
    )


class GearPath(Record, role="choice"):
    """One train of gears from shaft 1 to shaft 2."""

    tooth_counts: tuple[int, ...] = wholes(
        6, 200, 2, 4, "tooth counts from shaft 1 to shaft 2", "[30, 30]"
    )
    module: Any = quantity(
        "mm >= 0.5 <= 25",
        "module, or the diametral pitch in teeth per inch",
        "5 mm",
        reciprocal=True,
    )
    face_width: Any = quantity("mm > 0 <= 300", "width of the teeth", "40 mm")
    position: Any = quantity(
        "mm > 0 <= 1000",
        "distance of the gears' middle from the inside of the plate at the reducer",
        "40 mm",
    )
    profile_shifts: tuple[float, ...] = numbers(
        ">= -0.6 <= 1.2",
        4,
        "profile shift of each gear in modules; empty for none",
        "[0.2, 0.2]",
        (),
    )
    thinning: Any = quantity(
        "mm >= 0 <= 2", "taken off each tooth's thickness for backlash", "0.1 mm", "0.1 mm"
    )
    material: str = words(
        "a material of data/tables/gear_materials.csv for every gear of the path",
        "steel C45 quenched and tempered",
        "steel C45 quenched and tempered",
    )
    idler_material: str = words(
        "the same for the idlers",
        "steel C45 quenched and tempered",
        "steel C45 quenched and tempered",
    )
    mesh_efficiency: float = number(
        ">= 0.5 <= 1", "share of the power through one mesh", "0.97", 0.97, role="practice"
    )


class Paths(Record, role="choice"):
    """Both gear paths: the direct pair and the one with an idler."""

    direct: GearPath = section(GearPath, "the pair that turns the shafts against each other")
    idler: GearPath = section(
        GearPath, "the pair with an idler, that turns both shafts the same way"
    )


class Clutch(Record, role="choice"):
    """The sliding dog clutch that picks the path."""

    shaft: int = whole(1, 2, "shaft that carries the clutch and the free wheels", "1", 1)
    keeps_phase: bool = yes_no(
        "whether the dogs take hold at one angle only, so that paddles always meet alike",
        default=False,
    )
    drawn_in: str = choice(
        ("direct", "neutral", "idler"), "position in which the drawings show it", "direct"
    )
    dogs: int = whole(1, 24, "dogs on each face", "3", 3)
    outer_diameter: Any = quantity("mm > 0 <= 500", "over the dogs", "90 mm", "90 mm")
    inner_diameter: Any = quantity("mm > 0 <= 500", "inside the dogs", "60 mm", "60 mm")
    dog_height: Any = quantity("mm > 0 <= 100", "how far a dog stands out", "10 mm", "10 mm")
    overlap: Any = quantity("mm > 0 <= 100", "how far the dogs go into each other", "8 mm", "8 mm")
    sleeve_length: Any = quantity(
        "mm > 0 <= 500", "sliding sleeve, over the dogs on both its ends", "51 mm", "51 mm"
    )
    angular_play: Any = quantity(
        "deg > 0 <= 60", "by which a space is wider than a dog", "6 deg", "6 deg"
    )
    carrying_share: float = number(
        "> 0 <= 0.75",
        "share of the dogs that carry (common practice: two of three)",
        "0.67",
        0.67,
        role="practice",
    )
    material: str = words(
        "a material of data/tables/materials.csv",
        "steel C45 quenched and tempered",
        "steel C45 quenched and tempered",
    )
    friction: float = number(
        ">= 0.05 <= 0.6", "between greased dogs (common practice)", "0.12", 0.12, role="practice"
    )
    detent_force: Any = quantity(
        "N > 0 <= 1000", "force at the sleeve that the detent holds", "70 N", "70 N"
    )
    fork_force: Any = quantity("N > 0 <= 5000", "force the shift fork can give", "250 N", "250 N")


class Housing(Record, role="choice"):
    """The two plates that hold the gears, and the distance of the shafts."""

    centre_distance: Any = quantity(
        "mm > 0 <= 2000", "distance between the paddle shafts", "150 mm"
    )
    idler_side: str = choice(
        ("above", "below"), "side of the line of the shafts on which the idler sits", "above"
    )
    hub_diameter: Any = quantity(
        "mm > 0 <= 500", "of the hubs beside the shafts' gears", "70 mm", "70 mm"
    )
    plate_thickness: Any = quantity(
        "mm > 0 <= 200", "thickness of each plate, machined", "20 mm", "20 mm"
    )
    plate_material: str = words(
        "a material of data/tables/materials.csv", "steel S355J2", "steel S355J2"
    )
    tie_bolt: str = words("thread of the four bolts that tie the plates", "M12", "M12")
    dowel: Any = quantity("mm > 0 <= 50", "of the two dowels of the plates", "10 mm", "10 mm")
    idler_pin: Any = quantity("mm > 0 <= 200", "diameter of the idler's pin", "30 mm", "30 mm")
    wall_distance: Any = quantity(
        "mm > 0 <= 2000",
        "from the shafts' middles to the nearest wall of the gear case",
        "170 mm",
        "170 mm",
    )
    plate_spacing: Any = quantity(
        "mm > 0 <= 1000", "distance between the insides of the two plates", "150 mm"
    )


class Trough(Record, role="choice"):
    """The trough the paddles turn in."""

    length: Any = quantity("mm > 0 <= 3000", "inside, along the shafts", "300 mm")
    wall_thickness: Any = quantity("mm > 0 <= 50", "of its sheet", "3 mm", "3 mm")
    wall_clearance: Any = quantity(
        "mm > 0 <= 100", "gap between paddle tip and wall", "5 mm", "5 mm"
    )
    opening_length: Any = quantity(
        "mm > 0 <= 3000", "opening at the top, one way", "290 mm", "290 mm"
    )
    opening_width: Any = quantity(
        "mm > 0 <= 3000", "opening at the top, the other way", "300 mm", "300 mm"
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

    tip_radius: Any = quantity(
        "mm > 0 <= 1000", "from the shaft's middle to a paddle's tip", "90 mm"
    )
    root_radius: Any = quantity(
        "mm > 0 <= 500", "from the shaft's middle to where a paddle begins", "25 mm"
    )
    count: int = whole(1, 60, "paddles on one shaft", "5")
    width: Any = quantity("mm > 0 <= 500", "width of a paddle's face", "40 mm", "40 mm")
    thickness: Any = quantity("mm > 0 <= 100", "thickness of a paddle", "6 mm", "6 mm")
    stem_width: Any = quantity(
        "mm > 0 <= 500", "width of a paddle's stem where it meets the sleeve", "35 mm", "35 mm"
    )
    stem_thickness: Any = quantity(
        "mm > 0 <= 200", "thickness of the stem there, ribs included", "22 mm", "22 mm"
    )
    stem_height: Any = quantity(
        "mm >= 0 <= 500",
        "from the sleeve to where the stem has tapered to the bare blade",
        "25 mm",
        "0 mm",
    )
    material: str = words(
        "a material of data/tables/materials.csv, stainless where clay is to stay clean",
        "stainless 1.4301 annealed",
        "stainless 1.4301 annealed",
    )
    set_angle: Any = quantity(
        "deg >= 0 <= 90",
        "between a paddle's face and the plane it turns in; 90 deg is square-on",
        "60 deg",
        "60 deg",
    )
    spacing: Any = quantity(
        "mm > 0 <= 1000", "from paddle to paddle along the shaft", "60 mm", "60 mm"
    )
    phase_step: Any = quantity(
        "deg >= -360 <= 360", "from paddle to paddle round the shaft", "72 deg", "72 deg"
    )
    offset_2: Any = quantity(
        "mm >= 0 <= 1000", "how far along the paddles of shaft 2 stand", "30 mm", "30 mm"
    )
    phase_2: Any = quantity(
        "deg >= -360 <= 360",
        "angle of the first paddle of shaft 2 with that of shaft 1 at zero",
        "0 deg",
        "0 deg",
    )
    bearing_factor: float = number(
        ">= 9.1 <= 20",
        "pressure on a blade over the clay's strength, 9.1 smooth to 11.9 rough",
        "10.5",
        10.5,
        role="practice",
    )
    nip_share: float = number(
        ">= 0.05 <= 1",
        "torque added by the nip when counter-rotating (common practice 0.05 to 0.2)",
        "0.1",
        0.1,
        role="practice",
    )
    bearing_span: Any = quantity(
        "mm > 0 <= 3000", "distance between the bearings either side of the trough", "340 mm"
    )


class Safety(Record, role="wanted"):
    """How much more each part is to take than is asked of it (common practice)."""

    motor_mixing: float = number(">= 1 <= 5", "rated motor torque over mixing torque", "1.25", 1.25)
    motor_starting: float = number(
        ">= 1 <= 5", "motor torque at rest over starting torque", "1.2", 1.2
    )
    tooth_bending: float = number(">= 1 <= 5", "tooth strength over root stress", "1.4", 1.4)
    tooth_contact: float = number(">= 0.8 <= 5", "tooth strength over contact stress", "1.0", 1.0)
    clutch: float = number(">= 1 <= 5", "clutch strength over stress", "1.5", 1.5)
    shaft_fatigue: float = number(
        ">= 1 <= 5", "endurance of a shaft over what it feels turning", "1.3", 1.3
    )
    hub: float = number(">= 1 <= 5", "strength of keys, pins and screws over stress", "1.2", 1.2)
    bearing_static: float = number(
        ">= 0.5 <= 5", "static capacity of a rolling bearing over its load in a jam", "1.0", 1.0
    )
    fuse_over_start: float = number(
        ">= 1 <= 5", "least torque of the fuse over the torque to start", "1.2", 1.2
    )
    parts_over_fuse: float = number(
        ">= 1 <= 5",
        "torque at which any part yields over the most the fuse lets through",
        "1.1",
        1.1,
    )
    shaft_in_jam: float = number(">= 1 <= 5", "yield strength over stress in a jam", "1.2", 1.2)
    reducer_service: float = number(
        ">= 0 <= 4", "service factor of the box; 0 takes it from hours and shock", "0", 0.0
    )
    paddle_clearance: Any = quantity(
        "mm >= 0 <= 50", "least gap between paddles that must not touch", "3 mm", "3 mm"
    )
    tip_clearance: Any = quantity(
        "mm >= 0 <= 50", "least gap between gears that must not touch", "2 mm", "2 mm"
    )


class Ranges(Record, role="practice"):
    """How well the inputs are known, for the risk of a stall (ranges: common practice)."""

    strength_low: float = number(
        ">= 0 <= 1",
        "least clay strength over the reckoned one; 0 takes it from the way it was found",
        "0",
        0.0,
    )
    strength_high: float = number(
        ">= 0 <= 10", "greatest clay strength over the reckoned one; 0 as above", "0", 0.0
    )
    water_spread: float = number("> 0 <= 0.2", "water content either way, in share", "0.01", 0.01)
    fill_spread: float = number("> 0 <= 0.9", "batch either way, in share", "0.15", 0.15)
    efficiency_spread: float = number("> 0 <= 0.5", "box efficiency either way", "0.05", 0.05)
    voltage_low: float = number("> 0 <= 1", "least supply voltage over the nominal", "0.9", 0.9)
    voltage_high: float = number(
        ">= 1 <= 1.5", "greatest supply voltage over the nominal", "1.06", 1.06
    )
    start_low: float = number(">= 1 <= 5", "least start factor", "1.2", 1.2)
    start_high: float = number(">= 1 <= 5", "greatest start factor", "2.0", 2.0)
