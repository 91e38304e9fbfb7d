"""mixerkit: from this clay, this bag and this socket to a mixer that fits, turns and lasts."""

from __future__ import annotations

import importlib
from typing import TYPE_CHECKING, Any

from mixerkit.version import VERSION

if TYPE_CHECKING:
    from mixerkit import drive, load, parts, shop
    from mixerkit.design import Design
    from mixerkit.machine import Machine
    from mixerkit.units import Q_, InputError

__version__ = VERSION
__all__ = ["Q_", "Design", "InputError", "Machine", "drive", "load", "parts", "shop"]

# Loaded when first asked for, so that the command line answers --help and a typing slip at once.
_HOMES = {"Design": "design", "Machine": "machine", "Q_": "units", "InputError": "units"}


_RENAMED = {"assess": "Machine(design); from mixerkit import Machine"}
"""What once had another name, and what to type now."""


def __getattr__(name: str) -> Any:
    if name in _RENAMED:
        from mixerkit.units import InputError

        raise InputError(f"{name} has another name now; type {_RENAMED[name]}.")
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
