"""How it gets made: the shop's own tools, exact indexing."""

from mixerkit.shop import indexing, workshop

__all__ = ["indexing", "workshop"]
