"""What a shop file says of prices: of metal by the kilogram, of bought parts, of an hour; all of it may be left out."""

from __future__ import annotations

from mixerkit.fields import Record, if_given, number, section, words

__all__ = ["EachPrice", "KilogramPrice", "Prices"]


def _price(meaning: str, example: str) -> float | None:
    declared: float | None = if_given(number(">= 0 <= 100000", meaning, example))
    return declared


class KilogramPrice(Record, role="fact"):
    """Price of a kilogram, by the family of material; plain numbers in the maker's own currency."""

    steel: float | None = _price("bar and plate of steel", "2.4")
    stainless: float | None = _price("bar and sheet of stainless steel", "7")
    cast_iron: float | None = _price("cast iron", "5")
    bronze: float | None = _price("bronze for bushes and gears", "18")
    plastic: float | None = _price("plastic for bushes", "12")


class EachPrice(Record, role="fact"):
    """Price of what comes from a dealer."""

    motor_per_kw: float | None = _price("motor, for a kilowatt on its plate", "150")
    box_per_newton_metre: float | None = _price(
        "reduction box, for a newton metre of its rated torque", "0.9"
    )
    converter_per_kw: float | None = _price("frequency converter, for a kilowatt", "120")
    bearing: float | None = _price("one rolling bearing", "25")
    insert_bearing: float | None = _price("one insert bearing in its housing", "30")
    seal: float | None = _price("one seal or packing", "6")
    fastener: float | None = _price("one screw, tie bolt, dowel or retaining ring", "1.5")
    coupling: float | None = _price("elastic coupling", "60")
    pulley: float | None = _price("one pulley", "35")
    belt: float | None = _price("one belt", "15")
    sprocket: float | None = _price("one sprocket", "30")
    chain: float | None = _price("one roller chain", "40")


class Prices(Record, role="fact"):
    """The maker's own prices, bare numbers in one currency."""

    currency: str | None = if_given(words("what a price is in", "EUR"))
    hour: float | None = _price("an hour of work; 0 where your own costs nothing", "0")
    per_kg: KilogramPrice = section(KilogramPrice, "price of a kilogram of metal", optional=True)
    each: EachPrice = section(EachPrice, "price of what comes from a dealer", optional=True)
