"""mixerkit: from this clay, this bag and this socket to a mixer that fits, turns and lasts."""

from __future__ import annotations

import importlib
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from mixerkit import drive, load, parts, shop
    from mixerkit.assess import assess
    from mixerkit.design import Design
    from mixerkit.units import Q_, InputError

__all__ = ["Q_", "Design", "InputError", "assess", "drive", "load", "parts", "shop"]

__version__ = "0.1.0"

# Loaded when first asked for, so that the command line answers --help and a typing slip at once.
_HOMES = {"Design": "design", "assess": "assess", "Q_": "units", "InputError": "units"}


def __getattr__(name: str) -> Any:
    if name in _HOMES:
        value = getattr(importlib.import_module(f"mixerkit.{_HOMES[name]}"), name)
    elif name in __all__:
        value = importlib.import_module(f"mixerkit.{name}")
    else:
        raise AttributeError(f"module 'mixerkit' has no attribute {name!r}")
    globals()[name] = value
    return value


def __dir__() -> list[str]:
    return sorted(__all__)
