"""One line of the bill of materials, and what is sawn off a bar."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from math import pi

import numpy as np

from mixerkit.tables import table

__all__ = ["Part", "at_least", "density", "ring_mass", "sawn"]


@dataclass(frozen=True)
class Part:
    """One line of the bill of materials.

    Attributes
    ----------
    name : str
    count : int
    material : str
    size : str
        As bought or sawn.
    mass : float
        Of one, finished, in kg.
    cut : tuple of (str, float) or None
        Bar it is sawn from, and its length in mm; none for what is bought or cut from plate.
    """

    name: str
    count: int
    material: str
    size: str
    mass: float
    cut: tuple[str, float] | None = None


def density(material: str) -> float:
    """Density of a material of data/tables/materials.csv in kg/m^3."""
    return float(table("materials").find(material).values["density"])


def ring_mass(outer: float, inner: float, length: float, heavy: float) -> float:
    """Mass in kg of a ring of sizes in mm, so heavy in kg/m^3."""
    return pi / 4 * (outer**2 - inner**2) * length * heavy * 1e-9


def sawn(
    name: str,
    count: int,
    material: str,
    bar: str,
    length: float,
    mass: float,
    say: Callable[..., str],
) -> Part:
    """A part that is sawn off a bar."""
    size = f"{bar} x {say(length, 4)}"
    return Part(name, count, material, size, mass, (f"{material}, {bar}", length))


def at_least(diameter: float, say: Callable[..., str]) -> str:
    """A bar to turn a diameter from, in whole millimetres."""
    return f"round, at least {say(np.ceil(diameter), 4)}"
