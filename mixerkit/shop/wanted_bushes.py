"""What bushes ought to be: those of free gears and idler, and of the shafts where these turn in plain bushes."""

from __future__ import annotations

from collections.abc import Iterator
from typing import NamedTuple

import numpy as np

from mixerkit.parts import zones
from mixerkit.parts.along import NAMES
from mixerkit.parts.bush_walls import BushSizes, bush_sizes
from mixerkit.shop.idler_pin import idler_pin
from mixerkit.shop.measured import Wanted
from mixerkit.spec import Spec
from mixerkit.units import show

__all__ = ["OWN_BUSHES", "OwnBush", "bush_wanted", "bushes_to_measure", "own_bushes"]

OWN_BUSHES = {
    f"shaft_{number}{which}": (number, name)
    for number in (1, 2)
    for which, name in zip(("", "_trough", "_far"), NAMES, strict=True)
}
"""Bushes that a shaft itself turns in, by the beginnings of their names in the file: which shaft, and where."""


class OwnBush(NamedTuple):
    """One of the bushes that a shaft itself turns in, with its bore in mm and its sizes."""

    name: str
    number: int
    place: str
    bore: float
    sizes: BushSizes


def own_bushes(spec: Spec) -> list[OwnBush]:
    """Bushes that the shafts themselves turn in, none where they have ball bearings.

    Parameters
    ----------
    spec : Spec

    Returns
    -------
    list of OwnBush
        The metal round each reaches to the middle between both bores.
    """
    if spec.bearings.kind != "plain bush":
        return []
    found = []
    for name, (number, place) in OWN_BUSHES.items():
        one, other = (zones.bore_round(spec, each, place) for each in (number, 3 - number))
        around = one + spec.housing.centre_distance - (one + other) / 2
        bore = zones.seat(spec, number, place)
        sizes = bush_sizes(spec, bore, around, spec.bearings.bush_length)
        found.append(OwnBush(name, number, place, bore, sizes))
    return found


def bushes_to_measure(spec: Spec, number: int, size: str) -> list[str]:
    """Names of the ``"bore"`` or ``"outside"`` to measure of a shaft's bushes: one where they are all alike."""
    row = [one for one in own_bushes(spec) if one.number == number]
    return [
        f"bushes.{one.name}_{size}" for k, one in enumerate(row) if not k or one.bore != row[0].bore
    ]


def bush_wanted(spec: Spec, system: str) -> list[Wanted]:
    """What the bushes of a design ought to be, and the idler's pin.

    Parameters
    ----------
    spec : Spec
    system : str
        ``"metric"`` or ``"inch"``: how sizes are said.

    Returns
    -------
    list of Wanted
    """
    pin, hub = spec.housing.idler_pin, spec.housing.hub_diameter
    free = [bore for _, _, bore in zones.free_gear_bores(spec)]
    which = "" if len(set(free)) == 1 else ", the one of the direct path"
    rows = [
        ("free_gear", f"bushes of the free gears{which}", free[0], bush_sizes(spec, free[0], hub)),
        ("idler", "bush of the idler", pin, bush_sizes(spec, pin, hub)),
        *(
            (one.name, f"bush of shaft {one.number} in the {one.place}", one.bore, one.sizes)
            for one in own_bushes(spec)
        ),
    ]
    found = [wanted for row in rows for wanted in _of(*row, system)]
    turns = idler_pin(spec, system).turns
    return [*found, Wanted("idler.pin_diameter", "idler's pin where the idler turns", pin, *turns)]


def _of(name: str, words: str, bore: float, one: BushSizes, system: str) -> Iterator[Wanted]:
    """Bore and outside of a bush."""
    unreamed = (
        f"not reamed yet: a bush bored to {show(one.bored, 'mm', system)} closes to about this "
        "when it is pressed in"
    )
    slips = tuple(
        (float(size), unreamed)
        for size in np.arange(one.bored - one.closing[1] - 0.02, one.bored + 0.06, 0.02)
    )
    yield Wanted(
        f"bushes.{name}_bore", f"bore of the {words}", bore, *one.reamed, outside=False, slips=slips
    )
    yield Wanted(f"bushes.{name}_outside", f"outside of the {words}", one.outside, *one.fit.shaft)
