"""What turns it: socket, motor, reduction box, clutch.

Ranges of defaults are common practice unless they say more.
"""

from __future__ import annotations

from mixerkit.fields import Record, choice, if_given, number, quantity, whole, words, yes_no

__all__ = ["Clutch", "Motor", "Reducer", "Supply"]


_UPPER_TORQUE = "N*m > 0 <= 20000"


class Supply(Record, role="fact"):
    """The socket."""

    voltage: float = quantity("V > 0 <= 700", "voltage between the conductors used", "230 V")
    frequency: float = quantity("Hz > 0 <= 100", "frequency of the supply", "50 Hz")
    phases: int = whole(1, 3, "1 or 3", "1")
    socket_current: float = quantity(
        "A > 0 <= 200", "current the socket and its fuse allow", "16 A"
    )
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
    rated_power: float = quantity("kW > 0 <= 50", "mechanical power on the rating plate", "1.5 kW")
    rated_speed: float = quantity("rpm > 0 <= 10000", "speed on the rating plate", "1440 rpm")
    rated_frequency: float = quantity(
        "Hz > 0 <= 400", "frequency on the rating plate", "50 Hz", "50 Hz"
    )
    rated_voltage: float | None = if_given(
        quantity(
            "V > 0 <= 700",
            "voltage on the rating plate for the connection used, star or delta",
            "230 V",
        )
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
    reversing: str = choice(
        ("from rest", "on the run"),
        "from rest: the wiring makes it stand first; on the run: it may be thrown over while it turns",
        "from rest",
        role="choice",
    )
    run_at: float = quantity(
        "Hz > 0 <= 400",
        "frequency a converter is set to (direct: the supply's)",
        "50 Hz",
        "50 Hz",
        role="choice",
    )
    converter_torque_ratio: float = number(
        "> 0 <= 3", "torque a converter can make from rest over rated torque", "1.5", 1.5
    )
    shaft_end: float = quantity(
        "mm > 0 <= 100", "diameter of the motor's shaft end", "24 mm", "24 mm"
    )
    end_load: float | None = if_given(
        quantity(
            "N > 0 <= 100000",
            "load across the middle of its shaft end that its sheet allows; asked for with belts or a chain",
            "750 N",
        )
    )
    jacking_torque: float = quantity(
        "N*m >= 0 <= 500",
        "torque that a spanner can put on its fan end by hand, supply locked out; 0 where it has no point for one",
        "10 N*m",
        "0 N*m",
        role="choice",
    )
    inertia: float = quantity(
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
    rated_torque: float = quantity(
        _UPPER_TORQUE, "torque the box may carry all day at its slow end", "700 N*m"
    )
    peak_torque_ratio: float = number(
        ">= 1 <= 5", "momentary torque the box survives over its rated torque", "2", 2.0
    )
    hours_a_day: float = number("> 0 <= 24", "hours of running in a day", "3", 3.0)
    shock: str = choice(
        ("uniform", "moderate", "heavy"), "how rough the load is", "moderate", role="practice"
    )
    thermal_power: float = quantity(
        "kW > 0 <= 100", "power the box may take in all day without overheating", "2.2 kW", "2.2 kW"
    )
    input_bore: float = quantity(
        "mm > 0 <= 100", "bore at the fast end, as measured", "24 mm", "24 mm"
    )
    input_shaft: float | None = if_given(
        quantity(
            "mm > 0 <= 100",
            "diameter of the solid shaft at the fast end of a box that has no flange for a motor",
            "24 mm",
        )
    )
    input_load: float | None = if_given(
        quantity(
            "N > 0 <= 100000",
            "load across the middle of that shaft that the box's sheet allows; asked for with belts or a chain",
            "900 N",
        )
    )
    output_bore: float = quantity(
        "mm > 0 <= 200", "bore of the hollow slow end, as measured", "50 mm", "50 mm"
    )
    torque_arm: float = quantity(
        "mm > 0 <= 2000",
        "distance at which the box is held against turning",
        "250 mm",
        "250 mm",
        role="choice",
    )
    mass: float = quantity(
        "kg > 0 <= 1000", "mass that hangs on shaft 1, box with motor", "40 kg", "40 kg"
    )
    overhang: float = quantity(
        "mm > 0 <= 1000",
        "from the inside of the plate at the reducer to the middle of its hollow shaft",
        "90 mm",
        "90 mm",
        role="choice",
    )
    wind_up: float = quantity(
        "deg > 0 <= 20",
        "by which the slow end gives under the rated torque, the fast end held",
        "1 deg",
        "1 deg",
    )
    wind_up_from: str = choice(
        ("common practice", "maker's sheet", "measured"),
        "where its wind-up was taken from; of a usual one two thirds count in a jam, as a stiff box is struck harder",
        "common practice",
    )
    backlash: float = quantity("deg >= 0 <= 10", "backlash at the slow end", "0.3 deg", "0.3 deg")
    radial_load: float = quantity(
        "N > 0 <= 100000", "load across its slow end that the box allows", "6000 N", "6000 N"
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
    outer_diameter: float = quantity("mm > 0 <= 500", "over the dogs", "90 mm", "90 mm")
    inner_diameter: float = quantity("mm > 0 <= 500", "inside the dogs", "60 mm", "60 mm")
    dog_height: float = quantity("mm > 0 <= 100", "how far a dog stands out", "10 mm", "10 mm")
    overlap: float = quantity(
        "mm > 0 <= 100", "how far the dogs go into each other", "8 mm", "8 mm"
    )
    sleeve_length: float = quantity(
        "mm > 0 <= 500", "sliding sleeve, over the dogs on both its ends", "51 mm", "51 mm"
    )
    angular_play: float = quantity(
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
    detent_force: float = quantity(
        "N > 0 <= 1000", "force at the sleeve that the detent holds", "70 N", "70 N"
    )
    fork_force: float = quantity("N > 0 <= 5000", "force the shift fork can give", "250 N", "250 N")
