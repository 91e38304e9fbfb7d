"""Many designs at once: risks, searches, the machine as made, ways out for spoiled parts."""

from mixerkit.explore import (
    asmade,
    paths,
    salvage,
    search,
    uncertainty,
)

__all__ = [
    "asmade",
    "paths",
    "salvage",
    "search",
    "uncertainty",
]
