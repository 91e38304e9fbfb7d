"""How it gets made: the shop's own tools, sheets' contents, and sizes as made."""

from mixerkit.shop import (
    blanks,
    flatpattern,
    head_setting,
    holes,
    indexing,
    measured,
    measurements,
    parts_list,
    plate_pattern,
    shaftwork,
    tapping,
    turning,
    wanted_gears,
    wanted_sizes,
    welding,
    workshop,
)

__all__ = [
    "blanks",
    "flatpattern",
    "head_setting",
    "holes",
    "indexing",
    "measured",
    "measurements",
    "parts_list",
    "plate_pattern",
    "shaftwork",
    "tapping",
    "turning",
    "wanted_gears",
    "wanted_sizes",
    "welding",
    "workshop",
]
