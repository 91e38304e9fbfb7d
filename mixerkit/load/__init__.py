"""What the clay asks: its strength, what the paddles meet, what the trough holds."""

from mixerkit.load import (
    clay,
    clearance,
    paddles,
    stems,
    trough,
)

__all__ = [
    "clay",
    "clearance",
    "paddles",
    "stems",
    "trough",
]
