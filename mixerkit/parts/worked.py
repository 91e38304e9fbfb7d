"""What the checks of shafts and of what sits on them are given: a machine whose shafts are laid out."""

from __future__ import annotations

from typing import Protocol

from mixerkit.parts.shaftline import ShaftBeam
from mixerkit.results import LoadedMachine

__all__ = ["WorkedMachine"]


class WorkedMachine(LoadedMachine, Protocol):
    """A machine with its loads and its shafts as beams."""

    @property
    def shaft_beams(self) -> tuple[ShaftBeam, ShaftBeam]:
        """Shaft 1 and shaft 2."""
