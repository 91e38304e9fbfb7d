"""mixerkit: from this clay, this bag and this socket to a mixer that fits, turns and lasts."""

from __future__ import annotations

import importlib
import sys
from types import ModuleType
from typing import TYPE_CHECKING, Any

from mixerkit.version import VERSION

if TYPE_CHECKING:
    from mixerkit import drive, load, parts, shop
    from mixerkit.assess import assess
    from mixerkit.design import Design
    from mixerkit.units import Q_, InputError

__version__ = VERSION
__all__ = ["Q_", "Design", "InputError", "assess", "drive", "load", "parts", "shop"]

# Loaded when first asked for, so that the command line answers --help and a typing slip at once.
_HOMES = {"Design": "design", "assess": "assess", "Q_": "units", "InputError": "units"}


class _Face(ModuleType):
    """Keeps the function ``assess`` in its place when the module of that name is loaded."""

    def __setattr__(self, name: str, value: Any) -> None:
        if name in _HOMES and isinstance(value, ModuleType):
            value = getattr(value, name)
        super().__setattr__(name, value)


sys.modules[__name__].__class__ = _Face


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
