"""One way to save a spoiled part, and how each is checked anew."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass

import numpy as np

from mixerkit.design import Design
from mixerkit.explore.remedy import written
from mixerkit.machine import Machine
from mixerkit.shop.blanks import Blank
from mixerkit.units import InputError, lengths, show

__all__ = [
    "SHIFTS",
    "Rework",
    "fails",
    "in_order",
    "least_spare",
    "new_blank",
    "said_spare",
    "sized",
    "tried",
]

SHIFTS = (-0.6, 1.2)
"""Profile shifts that are looked at, as the design file allows them."""
_LEAD = " " * 9
_UNTIL = "until measured again"
_FOR_GOOD = "for good, as no field of the design says it; write it on the sheet"
_PARTS = (
    "gears",
    "gear paths",
    "clutch",
    "shafts",
    "hubs",
    "bearings",
    "jam",
    "paddles",
    "motor",
    "reducer",
)


@dataclass(frozen=True)
class Rework:
    """One way to save a part.

    Attributes
    ----------
    words : str
    changes : dict
        Of the design, by dotted name; empty where the design stays as it is.
    consequences : tuple of str
        For mate, centre distance, speed, strength.
    effort : int
        0 nothing made anew, 1 work on this part, 2 another part too, 3 a new part.
    spare : float
        Least spare of the checks it touches, as made so.
    anew : tuple of str
        Sizes as made that are made anew, by dotted name, with a dot at the end all that begin so: they
        come out of the file of sizes until they are measured again.
    lives : bool
        Whether the part goes on with the size that is off, and no field of the design says so.
    """

    words: str
    changes: Mapping[str, object]
    consequences: tuple[str, ...]
    effort: int
    spare: float
    anew: tuple[str, ...] = ()
    lives: bool = False

    @property
    def lines(self) -> tuple[str, ...]:
        """The change of the design file ready to type, a field a line."""
        return tuple(written(name, value) for name, value in self.changes.items())

    def told(self) -> list[str]:
        """Say it in lines: what to do, what to type, and which sizes come out of their file."""
        lines = [f"  {self.words}: {'; '.join(self.consequences)}"]
        lines += [f"{_LEAD}{one}" for one in self.lines]
        if self.anew:
            until = _FOR_GOOD if self.lives else _UNTIL
            lines.append(f"{_LEAD}out of the file of sizes {until}: {', '.join(self.anew)}")
        return lines


def fails(found: Machine) -> set[tuple[str, str]]:
    """Checks that fail on the parts a way out may touch."""
    return {
        (one.part, one.name)
        for one in found.checks
        if one.stage in _PARTS and one.verdict == "fails"
    }


def tried(
    design: Design, changes: Mapping[str, object], known: set[tuple[str, str]]
) -> Machine | None:
    """Assess a changed design; none where something fails that did not before, or no design can be so."""
    try:
        found = Machine(design.with_values(changes))
    except InputError:
        return None
    return None if fails(found) - known else found


def least_spare(found: Machine, *stages: str) -> float:
    """Least spare of some stages' checks."""
    spares = [one.spare for one in found.of_stage(*stages) if one.tight > 1]
    return float(min(spares, default=np.inf))


def said_spare(spare: float) -> str:
    """Write a spare as a factor in a sentence.

    Examples
    --------
    >>> said_spare(1.302), said_spare(np.inf), said_spare(np.nan)
    ('1.30', 'ample', 'nobody knows what')
    """
    if np.isnan(spare):
        return "nobody knows what"
    return f"{spare:.2f}" if abs(spare) < 100 else "ample" if spare > 0 else "nothing"


def in_order(found: list[Rework]) -> list[Rework]:
    """Least effort first, then the strongest."""
    return sorted(found, key=lambda one: (one.effort, -np.nan_to_num(one.spare, nan=-np.inf)))


def sized(design: Design) -> Callable[..., str]:
    """Give what writes a length in mm, to a micrometre and to four digits or as many as are asked."""
    say = lengths(design.show_units)
    return lambda size, digits=4: say(round(float(size), 3), digits)


def new_blank(design: Design, one: Blank, digits: int = 3) -> Rework:
    """Begin a gear again."""
    system = design.show_units
    outside = show(one.outside[0], "mm", system, digits)
    words = f"{show(one.mass, 'kg', system)} of {one.material}, {outside} outside"
    return Rework("a new blank", {}, (words,), 3, np.inf, (f"gears.{one.name}.",))
