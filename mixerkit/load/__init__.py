"""What the clay asks: its strength, what the paddles meet, what the trough holds."""

from mixerkit.load import (
    blades,
    clay,
    clearance,
    paddles,
    stems,
    trough,
)

__all__ = [
    "blades",
    "clay",
    "clearance",
    "paddles",
    "stems",
    "trough",
]
