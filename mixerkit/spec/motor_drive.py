"""What sits between motor and reduction box: a flange, an elastic coupling, belts or a chain.

Ranges of defaults are common practice unless they say more.
"""

from __future__ import annotations

from mixerkit.fields import Record, choice, if_given, number, quantity, section, whole, words

__all__ = ["BeltDrive", "ChainDrive", "ElasticCoupling", "MotorDrive"]


class BeltDrive(Record, role="choice"):
    """V-belts from the motor's pulley to the box's."""

    section: str = words("a section of data/tables/belt_sections.csv", "SPZ", "SPZ")
    motor_pulley: float = quantity(
        "mm > 20 <= 1000", "datum diameter of the pulley on the motor", "90 mm", "90 mm"
    )
    box_pulley: float = quantity(
        "mm > 20 <= 1000", "datum diameter of the pulley on the box", "90 mm", "90 mm"
    )
    centre_distance: float = quantity(
        "mm > 0 <= 3000", "between the middles of both pulleys", "300 mm", "300 mm"
    )
    belts: int = whole(1, 8, "belts side by side", "2", 1)
    tension: float = quantity(
        "N >= 0 <= 5000",
        "pull in each strand of one belt at rest, as set; 0 reckons what the greatest torque asks",
        "250 N",
        "0 N",
    )
    slip: float = number(
        ">= 0 <= 0.05",
        "share of its turns that the belt loses under load",
        "0.02",
        0.02,
        role="practice",
    )
    efficiency: float = number(
        "> 0 <= 1",
        "share of the torque that comes through, slip not counted",
        "0.93",
        0.93,
        role="practice",
    )
    friction_low: float = number(
        "> 0 <= 2",
        "least coefficient of friction with the wedge of the groove in it, damp or worn",
        "0.4",
        0.4,
        role="practice",
    )
    friction_high: float = number(
        "> 0 <= 3", "the same at most, dry and new", "1.0", 1.0, role="practice"
    )


class ChainDrive(Record, role="choice"):
    """A roller chain from the motor's sprocket to the box's."""

    size: str = words("a size of data/tables/chains.csv", "08B", "08B")
    motor_teeth: int = whole(6, 150, "teeth of the sprocket on the motor", "19", 19)
    box_teeth: int = whole(6, 150, "teeth of the sprocket on the box", "19", 19)
    strands: int = whole(1, 3, "strands of the chain", "1", 1)
    centre_distance: float = quantity(
        "mm > 0 <= 3000", "between the middles of both sprockets", "400 mm", "400 mm"
    )
    efficiency: float = number(
        "> 0 <= 1", "share of the torque that comes through", "0.96", 0.96, role="practice"
    )


class ElasticCoupling(Record, role="fact"):
    """A coupling with an elastic spider or tyre, as its maker's sheet states it."""

    rated_torque: float | None = if_given(
        quantity("N*m > 0 <= 5000", "torque that it carries all day", "35 N*m")
    )
    peak_torque_ratio: float = number(
        ">= 1 <= 5", "momentary torque that it survives over its rated torque", "2", 1.5
    )
    least_bore: float | None = if_given(
        quantity("mm > 0 <= 200", "least bore that its hubs are made with", "9 mm")
    )
    greatest_bore: float | None = if_given(
        quantity("mm > 0 <= 200", "greatest bore that its hubs are made with", "28 mm")
    )
    allowed_offset: float | None = if_given(
        quantity("mm > 0 <= 10", "offset of both shafts that its sheet allows", "0.2 mm")
    )
    offset: float | None = if_given(
        quantity("mm >= 0 <= 10", "offset of both shafts as measured with a dial gauge", "0.1 mm")
    )


class MotorDrive(Record, role="choice"):
    """How the motor turns the fast end of the box."""

    kind: str = choice(
        ("flange", "elastic coupling", "V-belt", "chain"),
        "what sits between the motor and the box's fast end",
        "flange",
    )
    service_factor: float = number(
        ">= 1 <= 4",
        "factor on the torque for rough loads and starts, belts, chain and coupling alike",
        "1.5",
        1.5,
        role="practice",
    )
    motor_stands: str = choice(
        ("on the frame", "on the box"),
        "what carries a motor that is not on the flange",
        "on the frame",
    )
    take_up: float = quantity(
        "mm >= 0 <= 500",
        "by which the motor can be moved either way to tighten belts or chain",
        "10 mm",
        "10 mm",
    )
    stiffness: float | None = if_given(
        quantity(
            "N*m/rad > 0 <= 1000000",
            "torque for a radian of twist between both shafts, at the box's; taken as rigid where it is not known",
            "1200 N*m/rad",
            role="fact",
        )
    )
    inertia: float = quantity(
        "kg*m**2 >= 0 <= 10",
        "moment of inertia of pulleys, sprockets or coupling, at the motor; 0 reckons it from their sizes",
        "0.001 kg*m^2",
        "0 kg*m^2",
        role="fact",
    )
    guard: str = choice(
        ("none", "fixed, with openings", "fixed, closed all round"),
        "guard round belts or chain",
        "none",
    )
    guard_opening: float = quantity("mm > 0 <= 500", "width of the slots in it", "10 mm", "10 mm")
    guard_distance: float = quantity(
        "mm > 0 <= 2000", "from its openings to belts, chain or wheels", "100 mm", "100 mm"
    )
    belt: BeltDrive = section(BeltDrive, "V-belts", optional=True)
    chain: ChainDrive = section(ChainDrive, "a chain", optional=True)
    coupling: ElasticCoupling = section(ElasticCoupling, "an elastic coupling", optional=True)
