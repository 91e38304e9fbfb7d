"""What turns, how fast, how hard, what gives first and what keeps hands away."""

from mixerkit.drive import (
    dogclutch,
    gearpaths,
    guarding,
    jam,
    jam_checks,
    motor,
    motor_checks,
    powerflow,
    reducer,
)

__all__ = [
    "dogclutch",
    "gearpaths",
    "guarding",
    "jam",
    "jam_checks",
    "motor",
    "motor_checks",
    "powerflow",
    "reducer",
]
