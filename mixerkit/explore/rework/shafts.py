"""Ways out for a shaft turned too small: what sits on it to suit, the whole shaft thinner, or a ring."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
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
from mixerkit.parts import zones
from mixerkit.parts.along import NAMES
from mixerkit.parts.shaft_checks import stock_sizes
from mixerkit.parts.zones import bearing_rows
from mixerkit.shop.measured import Wanted
from mixerkit.shop.shaftwork import shaft_bar
from mixerkit.units import show

__all__ = ["shaft"]

_RING = 2.5
"""Wall in mm of a ring that is shrunk on (common practice)."""


def shaft(
    design: Design,
    number: int,
    left: float,
    seat: Wanted | None = None,
    name: str = NAMES[0],
) -> list[Rework]:
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
    name : str
        What sits there, see :func:`mixerkit.parts.zones.seat_span`.

    Returns
    -------
    list of Rework
        Least effort first, then the strongest.
    """
    small = _TooSmall(design, number, left, name, fails(Machine(design)))
    return in_order(
        [
            *small.fitted_to(seat),
            *small.turned_down(),
            *small.ringed(),
            Rework(
                "a new shaft",
                {},
                (f"from {shaft_bar(design, number, design.show_units)}",),
                3,
                np.inf,
            ),
        ]
    )


@dataclass(frozen=True)
class _TooSmall:
    """A shaft of which less is left than drawn under what sits there, and what failed before."""

    design: Design
    number: int
    left: float
    name: str
    known: set[tuple[str, str]]

    @property
    def drawn(self) -> float:
        """Diameter there as drawn in mm, of the bar that a bearing's seat is turned from."""
        return zones.seat(self.design, self.number, self.name)

    def there(self, size: float) -> dict[str, object]:
        """Change that makes the shaft so thick there, in mm; its other sections stay as they are."""
        return zones.seat_typed(self.design, self.number, self.name, size)

    def say(self, size: float) -> str:
        """A length as the maker reads it."""
        return show(size, "mm", self.design.show_units)

    def tried(self, changes: Mapping[str, object]) -> Machine | None:
        """The machine with changes; none where more fails than before."""
        return tried(self.design, dict(changes), self.known)

    def fitted_to(self, seat: Wanted | None) -> Iterator[Rework]:
        """Leave it, and bore to suit, where little is missing."""
        if self.drawn - self.left > 0.5:
            return
        # strength is that of what is left; the size typed is the one whose fit the seat as turned has
        again = self.tried(self.there(float(np.floor(self.left * 100) / 100)))
        under = self.drawn - (seat.least + seat.most) / 2 if seat else 0.0
        typed = self.there(round(self.left + under, 3))
        if again and self.tried(typed):
            yield Rework(
                "bore everything that sits on it to suit",
                typed,
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
            [row["bore"] for row in bearing_rows(self.design.bearings.series)]
            if self.design.bearings.kind == "rolling"
            else stock_sizes(self.design.show_units)
        )
        fitting = (one for one in sizes if one <= self.left and one < self.drawn)
        own, field = zones.own(self.design, self.number), f"shaft_{self.number}"
        plain: dict[str, object] = (
            {f"{field}.step_at": [], f"{field}.step_diameters": []} if own.step_at else {}
        )
        thinnest = min(own.diameter, *own.step_diameters, np.inf)
        for size in sorted(fitting, reverse=True):
            typed = {f"{field}.diameter": f"{size:.6g} mm", **plain}
            again = self.tried(typed) if size <= thinnest else None
            if again:
                spare = least_spare(again, "shafts", "hubs")
                yield Rework(
                    f"turn the whole shaft to {self.say(size)}",
                    typed,
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
        start, end = self._ring_span()
        again = self.tried(zones.section_set(self.design, self.number, (start, end), seat))
        if again:
            spare = least_spare(again, "shafts")
            yield Rework(
                f"turn the spoiled seat down to {self.say(seat)} and shrink on a ring",
                {},
                (
                    f"reckoned for a ring from {self.say(start)} to {self.say(end)}, from the inside of the plate at the reducer",
                    "turn the ring to size when it is on",
                    f"the shaft has {said_spare(spare)} to spare there",
                ),
                1,
                spare,
            )

    def _ring_span(self) -> tuple[float, float]:
        """From where to where in mm a ring would reach: of seats that are all alike the one that carries most."""
        if self.name in (NAMES[0], "direct gear"):
            return -30.0, 20.0
        return zones.seat_span(self.design, self.number, self.name)
