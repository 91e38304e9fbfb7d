"""Drafting: first sizes, motor and box, then what checks ask for until all of them hold."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass
from itertools import islice
from typing import Any

from mixerkit.design import Design
from mixerkit.explore.draft.brief import Brief
from mixerkit.explore.draft.first import first_sizes
from mixerkit.explore.draft.follow import following
from mixerkit.explore.draft.power import choices_of_power, first_power, fits
from mixerkit.explore.draft.settle import Settler, badness
from mixerkit.explore.draft.sizes import Sizes
from mixerkit.fields.inside import values_in
from mixerkit.load.clay import clay_strength
from mixerkit.machine import Machine
from mixerkit.shop.workshop import Workshop
from mixerkit.spec import Clay
from mixerkit.units import InputError

__all__ = ["Attempt", "attempts", "draft_once"]

_LEANER = ((1.0, 1.0), (1.0, 1.15), (1.0, 1.3), (0.8, 1.15), (0.8, 1.3), (0.8, 1.5))
"""Shares of the usual width of a paddle, and how many times as far apart the shafts stand, tried in turn: both ask
less torque of the same batch."""
_TRIALS = 90
"""Whole machines tried in each attempt."""
_ROWS = 40
"""Motors and boxes tried in each attempt."""
_BEGUN = {
    "paths.direct.position": 40.0,
    "paths.idler.position": 200.0,
    "housing.plate_spacing": 400.0,
    "bearings.span": 900.0,
    "paddles.root_radius": 20.0,
}
"""What a design cannot be without, until it is worked out from the rest."""


@dataclass(frozen=True)
class Attempt:
    """One whole design of a brief.

    Attributes
    ----------
    machine : Machine
    sizes : Sizes
        First sizes, with their reasons.
    badness : float
        Nought where all holds.
    powered : bool
        Whether a motor and a box were found that carry it.
    """

    machine: Machine
    sizes: Sizes
    badness: float
    powered: bool


def attempts(
    brief: Brief, shop: Workshop | None, progress: Callable[[str], None] = lambda words: None
) -> Iterator[Attempt]:
    """Draft a brief in several ways, the usual one first, until one holds.

    Parameters
    ----------
    brief : Brief
    shop : Workshop or None
    progress : callable
        Told in words what is being done.

    Yields
    ------
    Attempt
    """
    for lean, wide in _LEANER:
        progress(f"drafting with paddles {lean:.0%} as wide, shafts {wide:.0%} as far apart")
        try:
            found = draft_once(brief, shop, lean, wide)
        except InputError:
            # sizes that no file can hold: another way may
            continue
        yield found
        if found.badness == 0:
            return


def draft_once(brief: Brief, shop: Workshop | None, lean: float = 1.0, wide: float = 1.0) -> Attempt:
    """Draft a brief in one way; see :func:`attempts`."""
    sizes = Sizes(brief)
    stated = {
        name.removeprefix("clay."): one
        for name, one in brief.given.items()
        if name.startswith("clay.")
    }
    first_sizes(sizes, shop, clay_strength(Clay.from_table(stated, "clay")).strength, lean, wide)
    sizes.put("name", "Our clay mixer", "what it is called on sheets")
    for name, begun in _BEGUN.items():
        sizes.put(name, begun, "")
    placed = {**first_power(brief), **sizes.values, **brief.given}
    design = Design.from_table(nested(placed))

    def may(name: str) -> bool:
        return name not in brief.given

    settler = Settler(design, may, _TRIALS)
    design = settler.design
    rows = islice(choices_of_power(brief, design), _ROWS)
    powered = next((tried for values in rows if (tried := fits(design, values))), None)
    settler.begin(powered or design)
    machine = settler.run()
    return Attempt(machine, sizes, sum(map(badness, machine.checks)), powered is not None)


def nested(values: Mapping[str, object]) -> dict[str, Any]:
    """Dotted names and values as the tables of a file."""
    whole: dict[str, Any] = {}
    for dotted, value in values.items():
        *outer, last = dotted.split(".")
        inner = whole
        for one in outer:
            inner = inner.setdefault(one, {})
        inner[last] = value
    return whole
