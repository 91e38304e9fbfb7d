"""Many designs at once: the risk of a stall, and which motor and box would carry the clay."""

from mixerkit.explore import search, uncertainty

__all__ = ["search", "uncertainty"]
