"""What turns, how fast, how hard, what gives first and what keeps hands away."""

from mixerkit.drive import (
    clutch_checks,
    dogclutch,
    fuses,
    gearpaths,
    guarding,
    jam,
    jam_checks,
    motor,
    motor_checks,
    powerflow,
    reducer,
    transient,
)

__all__ = [
    "clutch_checks",
    "dogclutch",
    "fuses",
    "gearpaths",
    "guarding",
    "jam",
    "jam_checks",
    "motor",
    "motor_checks",
    "powerflow",
    "reducer",
    "transient",
]
