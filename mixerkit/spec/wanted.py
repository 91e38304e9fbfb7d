"""How much the maker asks for, and how well the inputs are known.

Ranges of defaults are common practice unless they say more.
"""

from __future__ import annotations

from mixerkit.fields import Record, choice, if_given, number, quantities, quantity

__all__ = ["Ranges", "Safety", "Want"]


class Want(Record, role="wanted"):
    """What a maker wants of the machine besides that it holds; all of it may be left out."""

    speed: tuple[float, ...] = quantities(
        "rpm > 0 <= 500", 2, "least and greatest speed of shaft 1", '["20 rpm", "30 rpm"]'
    )
    batch_time: float | None = if_given(
        quantity("min > 0 <= 600", "from loading one batch to loading the next, at most", "20 min")
    )
    throughput: float | None = if_given(
        quantity("kg/hour > 0 <= 5000", "clay mixed in an hour, at least", "40 kg/hour")
    )
    length: float | None = if_given(
        quantity("mm > 0 <= 10000", "of the machine along its shafts, at most", "1200 mm")
    )
    width: float | None = if_given(
        quantity("mm > 0 <= 5000", "of the machine across its shafts, at most", "800 mm")
    )
    mass: float | None = if_given(
        quantity("kg > 0 <= 10000", "of the machine with box and motor, at most", "400 kg")
    )
    light_on: str = choice(
        ("price", "mass", "work"), "what is to be kept low where there is a choice", "price"
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
        ">= 0.5 <= 5", "static capacity of a rolling bearing over its load in a jam", "1.5", 1.5
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
    paddle_clearance: float = quantity(
        "mm >= 0 <= 50", "least gap between paddles that must not touch", "3 mm", "3 mm"
    )
    tip_clearance: float = quantity(
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
