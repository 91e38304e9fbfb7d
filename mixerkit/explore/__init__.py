"""Many designs at once: risks, searches, whole machines side by side, what mends a check, the machine as made, ways out for spoiled parts."""

import importlib
from types import ModuleType
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from mixerkit.explore import (
        asmade,
        compare,
        flips,
        mend,
        paths,
        reads,
        rework,
        search,
        settable,
        uncertain,
        uncertainty,
    )

__all__ = [
    "asmade",
    "compare",
    "flips",
    "mend",
    "paths",
    "reads",
    "rework",
    "search",
    "settable",
    "uncertain",
    "uncertainty",
]


# loaded when first asked for: the command line needs one of them, not the shop behind the others
def __getattr__(name: str) -> ModuleType:
    if name not in __all__:
        raise AttributeError(f"module 'mixerkit.explore' has no attribute {name!r}")
    return importlib.import_module(f"mixerkit.explore.{name}")
