"""The load cases of the machine: clutch position, direction of the motor and load.

All arrays over the machine run as :data:`LOAD_CASES` does.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from itertools import product

import numpy as np
import numpy.typing as npt

from mixerkit.frozen import cached_property

__all__ = ["CLUTCH_POSITIONS", "LOADS", "LOAD_CASES", "MODES", "LoadCase", "LoadCases"]

CLUTCH_POSITIONS = ("direct", "neutral", "idler")
MODES = {"direct": "counter-rotating", "neutral": "neutral", "idler": "co-rotating"}
LOADS = (
    "mixing",
    "mixing, shaft 1 heavier",
    "mixing, shaft 2 heavier",
    "starting",
    "starting, shaft 1 heavier",
    "starting, shaft 2 heavier",
    "jam on shaft 1",
    "jam on shaft 2",
)


@dataclass(frozen=True)
class LoadCase:
    """One load case of the machine.

    Attributes
    ----------
    clutch : str
        One of :data:`CLUTCH_POSITIONS`.
    direction : int
        1 forward, -1 reverse.
    load : str
        One of :data:`LOADS`.
    """

    clutch: str
    direction: int
    load: str

    @property
    def name(self) -> str:
        """Say the load case in words."""
        return (
            f"{MODES[self.clutch]}, {'forward' if self.direction > 0 else 'reverse'}, {self.load}"
        )


@dataclass(frozen=True)
class LoadCases:
    """Load cases in a row, and which of them are of a kind.

    Attributes
    ----------
    cases : tuple of LoadCase

    Examples
    --------
    >>> len(LOAD_CASES), LOAD_CASES.names[0]
    (48, 'counter-rotating, forward, mixing')
    >>> LOAD_CASES.index(LoadCase("idler", -1, "starting"))
    43
    """

    cases: tuple[LoadCase, ...]

    def __len__(self) -> int:
        return len(self.cases)

    def __iter__(self) -> Iterator[LoadCase]:
        return iter(self.cases)

    def __getitem__(self, place: int) -> LoadCase:
        return self.cases[place]

    def index(self, case: LoadCase) -> int:
        """Place of a load case in all arrays."""
        return self.cases.index(case)

    @cached_property
    def clutch(self) -> npt.NDArray[np.str_]:
        """Clutch position of each."""
        return np.array([one.clutch for one in self.cases])

    @cached_property
    def direction(self) -> npt.NDArray[np.intp]:
        """Direction of the motor in each, 1 or -1."""
        return np.array([one.direction for one in self.cases])

    @cached_property
    def load(self) -> npt.NDArray[np.str_]:
        """Load of each."""
        return np.array([one.load for one in self.cases])

    @cached_property
    def mixing(self) -> npt.NDArray[np.bool_]:
        """Whether the machine mixes in each."""
        return np.char.startswith(self.load, "mixing")

    @cached_property
    def starting(self) -> npt.NDArray[np.bool_]:
        """Whether the machine starts in each."""
        return np.char.startswith(self.load, "starting")

    def heavier(self, number: int) -> npt.NDArray[np.bool_]:
        """Whether the clay lies heaped on a shaft in each, by the shaft's number."""
        return np.char.endswith(self.load, f"shaft {number} heavier")

    @cached_property
    def jammed(self) -> npt.NDArray[np.bool_]:
        """Whether a paddle is jammed in each."""
        return np.char.startswith(self.load, "jam")

    @cached_property
    def names(self) -> tuple[str, ...]:
        """Each in words."""
        return tuple(one.name for one in self.cases)


LOAD_CASES = LoadCases(tuple(LoadCase(*one) for one in product(CLUTCH_POSITIONS, (1, -1), LOADS)))
"""Every clutch position, direction and load."""
