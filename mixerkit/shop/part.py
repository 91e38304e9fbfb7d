"""One line of the bill of materials."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from math import ceil, pi

from mixerkit.shop.shelf import Taken
from mixerkit.tables import table

__all__ = ["FACING", "Part", "at_least", "density", "ring", "sawn"]

FACING = 4.0
"""Left on the length of a sawn piece, in mm, to face both ends."""


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
    least : float
        Round bar in mm that it can be turned from, at least; 0 for what is sawn off no round bar.
    taken : tuple of (Taken or None)
        For each piece the bar of the shelf that it comes off; empty for what none was sought for.
    """

    name: str
    count: int
    material: str
    size: str
    mass: float
    cut: tuple[str, float] | None = None
    least: float = 0.0
    taken: tuple[Taken | None, ...] = ()


def density(material: str) -> float:
    """Density in kg/m3 of a material."""
    return float(table("materials").find(material).values["density"])


def ring(outer: float, inner: float, length: float, of: float) -> float:
    """Mass in kg of a ring or a length of tube, sizes in mm and density in kg/m3."""
    return pi / 4 * (outer**2 - inner**2) * length * of * 1e-9


def sawn(
    name: str,
    count: int,
    material: str,
    bar: str,
    length: float,
    mass: float,
    say: Callable[..., str],
    least: float,
) -> Part:
    """A part that is sawn off a round bar, ``least`` mm thick or thicker."""
    size = f"{bar} x {say(length, 4)}"
    return Part(name, count, material, size, mass, (f"{material}, {bar}", length), least)


def at_least(diameter: float, say: Callable[..., str]) -> str:
    """A bar to turn a diameter from, in whole millimetres."""
    return f"round, at least {say(ceil(diameter), 4)}"
