"""What a shop file says of the shelf: bars, offcuts, gears, bearings, motors and boxes, and how sure that is."""

from __future__ import annotations

from mixerkit.fields import (
    Record,
    choice,
    if_given,
    number,
    quantity,
    records,
    whole,
    words,
)
from mixerkit.frozen import FrozenDict
from mixerkit.tables import table
from mixerkit.units import InputError

__all__ = [
    "SURE",
    "UNKNOWN",
    "Shelf",
    "ShelfBar",
    "ShelfBearing",
    "ShelfBox",
    "ShelfGear",
    "ShelfMotor",
    "ShelfOffcut",
    "counts_as",
]

SURE = ("marked", "tested", "guess")
"""How sure one is of a material: by stamp, tag, paint or certificate; by spark, hardness or a broken piece; or not."""
UNKNOWN = FrozenDict({"unknown steel": "steel", "unknown stainless": "stainless"})
"""What a bar nobody knows may be called, and its family in data/tables/materials.csv. A magnet and rust tell the two
apart: austenitic stainless steel, the weakest there is, neither rusts nor sticks to a magnet."""
_TABLES = ("materials", "gear_materials", "bush_materials")


def _sure() -> str:
    return choice(SURE, 'how the material is known: "marked", "tested" or "guess"', "guess")


def _count() -> int:
    return whole(1, 1000, "how many there are", "1", 1)


def _material(default: str | None = "unknown steel") -> str:
    return words("of a material table, or unknown steel", "steel C45 normalised", default)


def _known(material: str) -> None:
    """Refuse a material that no table has."""
    names = [str(row.values["name"]) for one in _TABLES for row in table(one)]
    if material not in (*names, *UNKNOWN):
        try:
            table("materials").find(material)
        except InputError as error:
            raise InputError(
                *(f'material: {text} Or "unknown steel".' for text in error.messages)
            ) from None


class ShelfBar(Record, role="fact"):
    """A round bar or what is left of one."""

    diameter: float = quantity("mm > 0 <= 2000", "of the bar", "55 mm")
    length: float = quantity("mm > 0 <= 12000", "of the bar", "900 mm")
    material: str = _material()
    sure: str = _sure()
    count: int = _count()

    def _agree(self) -> None:
        _known(self.material)


class ShelfOffcut(Record, role="fact"):
    """A piece of plate or flat bar."""

    thickness: float = quantity("mm > 0 <= 200", "of the plate", "30 mm")
    length: float = quantity("mm > 0 <= 12000", "its long side", "600 mm")
    width: float = quantity("mm > 0 <= 12000", "its short side", "400 mm")
    material: str = _material()
    sure: str = _sure()
    count: int = _count()

    def _agree(self) -> None:
        _known(self.material)


class ShelfGear(Record, role="fact"):
    """A spur gear as it was bought or saved."""

    tooth_count: int = whole(5, 500, "teeth, counted", "30")
    module: float = quantity("mm > 0 <= 25", "module or diametral pitch", "5 mm", reciprocal=True)
    pressure_angle: float = quantity("deg > 0 < 45", "of its teeth", "20 deg", "20 deg")
    face_width: float = quantity("mm > 0 <= 500", "width of its teeth", "45 mm")
    bore: float = quantity("mm >= 0 <= 500", "its bore; none is 0", "20 mm", "0 mm")
    material: str = _material()
    sure: str = _sure()
    count: int = _count()

    def _agree(self) -> None:
        _known(self.material)


class ShelfBearing(Record, role="fact"):
    """A ball bearing, by its three sizes."""

    bore: float = quantity("mm > 0 <= 500", "bore", "45 mm")
    outer: float = quantity("mm > 0 <= 1000", "outside", "85 mm")
    width: float = quantity("mm > 0 <= 300", "width", "19 mm")
    count: int = _count()


class ShelfMotor(Record, role="fact"):
    """A motor, as its plate has it; what is not on the plate may be left out."""

    rated_power: float = quantity("kW > 0 <= 50", "power on the plate", "1.5 kW")
    rated_speed: float = quantity("rpm > 0 <= 10000", "speed on the plate", "1440 rpm")
    poles: int = whole(2, 16, "count of poles, even", "4", 4)
    kind: str = choice(
        ("three-phase", "capacitor-start", "capacitor-run"), "kind of motor", "three-phase"
    )
    rated_voltage: float | None = if_given(quantity("V > 0 <= 700", "on the plate", "230 V"))
    rated_frequency: float = quantity("Hz > 0 <= 400", "on the plate", "50 Hz", "50 Hz")
    shaft_end: float = quantity("mm > 0 <= 200", "diameter of its shaft", "24 mm")
    efficiency: float | None = if_given(number("> 0 <= 1", "on the plate", "0.85"))
    start_torque_ratio: float | None = if_given(
        number("> 0 <= 6", "torque at rest over rated torque", "2.2")
    )
    breakdown_torque_ratio: float | None = if_given(
        number("> 1 <= 6", "greatest torque over rated torque", "2.6")
    )
    mass: float | None = if_given(quantity("kg > 0 <= 2000", "weighed", "20 kg"))
    count: int = _count()


class ShelfBox(Record, role="fact"):
    """A reduction box, as its plate has it; what is not on the plate may be left out."""

    kind: str = choice(("helical", "helical-worm", "worm", "planetary"), "kind of box")
    ratio: float = number("> 1 <= 1000", "turns of the motor for one of the slow end", "60")
    rated_torque: float = quantity("N*m > 0 <= 100000", "on the plate", "600 N*m")
    output_bore: float = quantity("mm > 0 <= 500", "bore of its hollow shaft", "50 mm")
    efficiency: float | None = if_given(number("> 0 <= 1", "on its sheet", "0.95"))
    start_efficiency: float | None = if_given(number("> 0 <= 1", "from rest", "0.9"))
    thermal_power: float | None = if_given(quantity("kW > 0 <= 500", "on its sheet", "2.8 kW"))
    radial_load: float | None = if_given(quantity("N > 0 <= 1000000", "on its sheet", "6000 N"))
    mass: float | None = if_given(quantity("kg > 0 <= 5000", "weighed", "34 kg"))
    count: int = _count()


class Shelf(Record, role="fact"):
    """What is there already."""

    bars: tuple[ShelfBar, ...] = records(ShelfBar, 200, "round bars and what is left of them")
    offcuts: tuple[ShelfOffcut, ...] = records(ShelfOffcut, 200, "pieces of plate and flat bar")
    gears: tuple[ShelfGear, ...] = records(ShelfGear, 200, "spur gears")
    bearings: tuple[ShelfBearing, ...] = records(ShelfBearing, 200, "ball bearings")
    motors: tuple[ShelfMotor, ...] = records(ShelfMotor, 50, "motors")
    boxes: tuple[ShelfBox, ...] = records(ShelfBox, 50, "reduction boxes")


def counts_as(material: str, sure: str = "marked") -> str:
    """Name the material whose strength a piece may be given.

    A guess, and what nobody knows, counts as the weakest of its family in data/tables/materials.csv: the one of
    least yield strength, of several the one of least tensile strength.

    Parameters
    ----------
    material : str
        As in the shop file.
    sure : str
        One of :data:`SURE`.

    Returns
    -------
    str

    Examples
    --------
    >>> counts_as("unknown steel"), counts_as("steel 1045 cold drawn", "guess")
    ('steel S235JR', 'steel S235JR')
    >>> counts_as("steel 1045 cold drawn", "tested")
    'steel 1045 cold drawn'
    """
    rows = [row.values for row in table("materials")]
    family = UNKNOWN.get(material) or (
        next((row["family"] for row in rows if row["name"] == material), "")
        if sure == "guess"
        else ""
    )
    of_family = [row for row in rows if row["family"] == family]
    if not of_family:
        return material
    weakest = min(of_family, key=lambda row: (row["yield_strength"], row["tensile_strength"]))
    return str(weakest["name"])
