"""What must not break: gears and shafts."""

from mixerkit.parts import (
    formcutter,
    gear_checks,
    measuring,
    mesh,
    outline,
    shaft,
    shaft_checks,
    spurgear,
    toothstrength,
)

__all__ = [
    "formcutter",
    "gear_checks",
    "measuring",
    "mesh",
    "outline",
    "shaft",
    "shaft_checks",
    "spurgear",
    "toothstrength",
]
