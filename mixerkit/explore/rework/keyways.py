"""Ways out for a keyway cut too deep or too wide in a shaft: another key, another keyway, or none."""

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
    sized,
)
from mixerkit.machine import Machine
from mixerkit.parts import held, seats
from mixerkit.parts.keys import key_for
from mixerkit.results import TableRow
from mixerkit.tables import table
from mixerkit.units import InputError

__all__ = ["keyway"]

SPARED = (seats.REACHED, seats.ACROSS, held.HELD, held.PUSH)
"""Checks of the whole shaft that a keyway does not touch: its seats, rings and pin holes stay as they are."""
OTHER_HUBS = {
    "set screws": ("set_screws", (1, 2, 3, 4, 5, 6), "", "{} set screws"),
    "taper pin": ("pin_diameter", (6.0, 8.0, 10.0, 12.0, 16.0, 20.0), " mm", "a taper pin of {}"),
    "clamp": ("clamp_screws", (2, 4, 6, 8), "", "a clamp with {} screws"),
}
"""Hubs without a key: which field of the design sizes them, and its steps (pins: ISO 2339, from memory)."""


def keyway(
    design: Design, number: int, depth: float | None = None, width: float | None = None
) -> list[Rework]:
    """Ways out for a keyway cut too deep or too wide in a shaft.

    What is left is checked as if the whole shaft were thinner by what was cut too deep; where the keyway
    stays empty, by its whole depth. That asks more than the keyway alone does.

    Parameters
    ----------
    design : Design
    number : int
        1 or 2.
    depth, width : float, optional
        As cut, in mm; as drawn if not given.

    Returns
    -------
    list of Rework
        Least effort first, then the strongest.
    """
    row = key_for(getattr(design, f"shaft_{number}").diameter, design.show_units)
    depth = row["shaft_depth"] if depth is None else depth
    width = row["width"] if width is None else width
    shaft = _Milled.of(design, number)
    return in_order(
        [
            *_another_key(shaft, row, depth, width),
            *_another_keyway(shaft, depth),
            *_another_hub(shaft, depth),
            Rework("a new shaft", {}, (f"{sized(design)(shaft.drawn)} finished",), 3, np.inf),
        ]
    )


@dataclass(frozen=True)
class _Milled:
    """A shaft with a keyway that came out wrong, and what must go on holding."""

    design: Design
    number: int
    drawn: float
    known: set[tuple[str, str]]
    spared: frozenset[str]

    @classmethod
    def of(cls, design: Design, number: int) -> _Milled:
        """Read what fails already, and what a keyway does not touch, off the machine as drawn."""
        before = Machine(design)
        spared = frozenset({*SPARED, *(one.part for one in before.of_stage("bearings"))})
        drawn = getattr(design, f"shaft_{number}").diameter
        return cls(design, number, drawn, fails(before), spared)

    @property
    def cut(self) -> tuple[str, str]:
        """Sizes as made of its keyway."""
        at = f"shafts.{self.number}.keyway"
        return f"{at}_depth", f"{at}_width"

    def thinner(self, by: float, **of_hubs: object) -> Machine | None:
        """The machine with a thinner shaft and other hubs; none where more fails than before."""
        left = self.drawn - max(by, 0.0)
        if left <= self.drawn / 2:
            return None
        changes = {f"hubs.{key}": value for key, value in of_hubs.items()}
        try:
            again = Machine(
                self.design.with_values(
                    {f"shaft_{self.number}.diameter": f"{left:.6g} mm", **changes}
                )
            )
        except InputError:
            return None
        # bearings keep the seats they have: only what the keyway weakens is looked at
        weak = {one for one in fails(again) if self.spared.isdisjoint(one)}
        return None if weak - self.known else again


def _spare(again: Machine) -> float:
    return least_spare(again, "shafts", "hubs")


def _strength(again: Machine) -> str:
    return f"the shaft left has {said_spare(_spare(again))} to spare"


def _another_key(shaft: _Milled, row: TableRow, depth: float, width: float) -> Iterator[Rework]:
    """A taller or stepped key in the keyway as it is, or none where it is only a little deep."""
    say, listed = sized(shaft.design), table("keys").only("series", shaft.design.show_units)
    widths = (one.values["width"] for one in listed)
    wide = min((one for one in widths if one >= width - 1e-6), default=np.inf)
    deeper = depth - row["shaft_depth"]
    again = shaft.thinner(deeper) if np.isfinite(wide) and wide <= shaft.drawn / 2 else None
    if again:
        taller, stepped = deeper > 0.3, wide > row["width"] + 1e-6
        how = [f"{say(row['height'] + deeper)} tall"] * taller
        how += [f"{say(wide)} wide in the shaft and {say(row['width'])} in the hub"] * stepped
        clean = (f"mill the keyway clean to {say(wide)}",) if stepped else ()
        yield Rework(
            f"mill a key {' and '.join(how)}" if how else "leave it: the key stands on the sides",
            {},
            (*clean, "hubs stay as they are", _strength(again)),
            1 if how else 0,
            _spare(again),
            lives=True,
        )


def _another_keyway(shaft: _Milled, depth: float) -> Iterator[Rework]:
    """The same keyway on the other side."""
    empty = shaft.thinner(depth)
    if empty:
        yield Rework(
            "mill a new keyway on the other side, and leave this one empty",
            {},
            (
                "turn the hubs half round; paddles and clutch turn with the shaft, so set them again",
                _strength(empty),
            ),
            1,
            _spare(empty),
            shaft.cut,
        )


def _another_hub(shaft: _Milled, depth: float) -> Iterator[Rework]:
    """Hubs without a key that hold, each with the least it takes."""
    design, say = shaft.design, sized(shaft.design)
    if shaft.number == design.clutch.shaft or design.hubs.gear != "key":
        return
    for kind, (field, steps, unit, words) in OTHER_HUBS.items():
        for step in steps:
            of_hubs = {"gear": kind, field: f"{step:g}{unit}" if unit else step}
            again = shaft.thinner(depth, **of_hubs)
            if again:
                said = words.format(say(step) if unit else step)
                yield Rework(
                    f"hold each of its gears by {said} instead, and leave the keyway empty",
                    {f"hubs.{key}": value for key, value in of_hubs.items()},
                    ("print new sheets: bores have no keyway", _strength(again)),
                    2,
                    _spare(again),
                    shaft.cut,
                )
                break
