"""How it gets made: the shop's own tools, sheets' contents, and sizes as made."""

from mixerkit.shop import (
    assembly,
    blanks,
    flatpattern,
    holes,
    indexing,
    measured,
    measurements,
    parts_list,
    shaftwork,
    tapping,
    turning,
    welding,
    workshop,
)

__all__ = [
    "assembly",
    "blanks",
    "flatpattern",
    "holes",
    "indexing",
    "measured",
    "measurements",
    "parts_list",
    "shaftwork",
    "tapping",
    "turning",
    "welding",
    "workshop",
]
