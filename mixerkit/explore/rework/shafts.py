"""Ways out for a shaft turned too small: what sits on it to suit, the whole shaft thinner, or a ring."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

import numpy as np

from mixerkit.design import Design
from mixerkit.explore.rework.record import (
    Rework,
    fails,
    in_order,
    least_spare,
    said_spare,
    tried,
)
from mixerkit.machine import Machine
from mixerkit.parts.shaft_checks import stock_sizes
from mixerkit.shop.measured import Wanted
from mixerkit.tables import table
from mixerkit.units import show

__all__ = ["shaft"]

_RING = 2.5
"""Wall in mm of a ring that is shrunk on (common practice)."""


def shaft(design: Design, number: int, left: float, seat: Wanted | None = None) -> list[Rework]:
    """Ways out for a shaft turned too small.

    Parameters
    ----------
    design : Design
    number : int
        1 or 2.
    left : float
        Diameter in mm that is left.
    seat : Wanted, optional
        What the seat ought to be; a size with nothing to either side, if not given.

    Returns
    -------
    list of Rework
        Least effort first, then the strongest.
    """
    small = _TooSmall(design, number, left, fails(Machine(design)))
    return in_order(
        [
            *small.fitted_to(seat),
            *small.turned_down(),
            *small.ringed(),
            Rework("a new shaft", {}, (f"{small.say(small.drawn)} bar",), 3, np.inf),
        ]
    )


@dataclass(frozen=True)
class _TooSmall:
    """A shaft of which less is left than drawn, and what failed before."""

    design: Design
    number: int
    left: float
    known: set[tuple[str, str]]

    @property
    def drawn(self) -> float:
        """Diameter as drawn in mm."""
        size: float = getattr(self.design, f"shaft_{self.number}").diameter
        return size

    def say(self, size: float) -> str:
        """A length as the maker reads it."""
        return show(size, "mm", self.design.show_units)

    def tried(self, **values: object) -> Machine | None:
        """The machine with fields of this shaft changed; none where more fails than before."""
        changes = {f"shaft_{self.number}.{name}": value for name, value in values.items()}
        return tried(self.design, changes, self.known)

    def fitted_to(self, seat: Wanted | None) -> Iterator[Rework]:
        """Leave it, and bore to suit, where little is missing."""
        if self.drawn - self.left > 0.5:
            return
        # strength is that of what is left; the size typed is the one whose fit the seat as turned has
        again = self.tried(diameter=f"{np.floor(self.left * 100) / 100:.6g} mm")
        under = self.drawn - (seat.least + seat.most) / 2 if seat else 0.0
        typed = f"{round(self.left + under, 3):.6g} mm"
        if again and self.tried(diameter=typed):
            yield Rework(
                "bore everything that sits on it to suit",
                {f"shaft_{self.number}.diameter": typed},
                (
                    f"bores are fitted to {self.say(self.left)} as made; stock reamers do not serve",
                    "bearings want their own seat, see below",
                ),
                1,
                least_spare(again, "shafts", "hubs"),
            )

    def turned_down(self) -> Iterator[Rework]:
        """Turn all of it to a size that bearings are made for, or that bar comes in."""
        sizes = (
            list(
                map(
                    float,
                    table("rolling_bearings")
                    .only("series", self.design.bearings.series)
                    .column("bore"),
                )
            )
            if self.design.bearings.kind == "rolling"
            else stock_sizes(self.design.show_units)
        )
        fitting = (one for one in sizes if one <= self.left and one < self.drawn)
        for size in sorted(fitting, reverse=True):
            typed = f"{size:.6g} mm"
            again = self.tried(diameter=typed)
            if again:
                spare = least_spare(again, "shafts", "hubs")
                yield Rework(
                    f"turn the whole shaft to {self.say(size)}",
                    {f"shaft_{self.number}.diameter": typed},
                    (
                        "bearings, gear bores, keys and bushes go with it",
                        f"shaft and hubs have {said_spare(spare)} to spare",
                    ),
                    2,
                    spare,
                    (f"shafts.{self.number}.",),
                )

    def ringed(self) -> Iterator[Rework]:
        """Turn the seat down and shrink on a ring."""
        seat = self.left - 2 * _RING
        if seat <= 0:
            return
        again = self.tried(
            step_at=["-30 mm", "20 mm"],
            step_diameters=[f"{seat:.6g} mm", f"{self.drawn:.6g} mm"],
        )
        if again:
            spare = least_spare(again, "shafts")
            yield Rework(
                f"turn the spoiled seat down to {self.say(seat)} and shrink on a ring",
                {},
                (
                    "reckoned for the seat at the reducer, where the shaft carries most",
                    "turn the ring to size when it is on",
                    f"the shaft has {said_spare(spare)} to spare there",
                ),
                1,
                spare,
            )
