"""A machine with some changes tried on it, and how far it is from holding."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from functools import cached_property

from mixerkit.design import Design
from mixerkit.machine import Machine

__all__ = ["Step", "Tried"]


@dataclass(frozen=True)
class Step:
    """One change: a field, fields that a check names together, or a thing bought whole.

    Attributes
    ----------
    values : mapping
        Fields and values as they stand in a design file.
    thing : str
        What is bought whole, such as ``"motor"``; empty where it is fields.
    """

    values: Mapping[str, object]
    thing: str = ""

    @property
    def count(self) -> int:
        """Changes that it counts as: a thing bought is one."""
        return 1 if self.thing else len(self.values)


@dataclass(frozen=True)
class Tried:
    """A machine with some changes.

    Attributes
    ----------
    steps : tuple of Step
    design : Design
    bad : mapping of str to float
        Id of each failing check to how far it is from holding.
    size : float
        How far its values moved (see :func:`mixerkit.explore.remedy.moved`).
    """

    steps: tuple[Step, ...]
    design: Design
    bad: Mapping[str, float]
    size: float

    @cached_property
    def badness(self) -> float:
        """How far the whole machine is from holding."""
        return sum(self.bad.values())

    @property
    def machine(self) -> Machine:
        """The machine, worked out anew each time: hundreds of them kept would fill the memory."""
        return Machine(self.design)

    @property
    def holds(self) -> bool:
        """Whether nothing fails."""
        return not self.bad

    @property
    def changes(self) -> int:
        """How many changes it has."""
        return sum(one.count for one in self.steps)

    @property
    def values(self) -> dict[str, object]:
        """Its changes as fields and values."""
        return {name: value for one in self.steps for name, value in one.values.items()}
