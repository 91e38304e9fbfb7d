"""Keyways in a shaft: where each begins and ends, and for what."""

from __future__ import annotations

from collections.abc import Iterator
from typing import NamedTuple

from mixerkit.parts import seated, stack, zones
from mixerkit.parts.along import clutch_middle
from mixerkit.parts.keys import key_for
from mixerkit.results import TableRow
from mixerkit.spec import Spec

__all__ = ["Keyway", "feather", "keyways"]

_BESIDE_RING = 1.0
"""Between a ring's groove and the feather key, in mm (common practice)."""


class Keyway(NamedTuple):
    """A keyway along a shaft, in mm from the machine's datum; ``key`` is the row of its key, ``size`` the shaft's."""

    start: float
    end: float
    words: str
    key: TableRow
    size: float


def keyways(spec: Spec, laid: stack.Stack, number: int, system: str) -> list[Keyway]:
    """Find the keyways of a shaft, none where it has none.

    Parameters
    ----------
    spec : Spec
    laid : Stack
        See :func:`mixerkit.parts.stack.laid`.
    number : int
        1 or 2.
    system : str
        Whose keys: ``"metric"`` or ``"inch"``.

    Returns
    -------
    list of Keyway

    Raises
    ------
    InputError
        If the table has no key for a seat.
    """
    if not zones.own(spec, number).keyway:
        return []
    found = [
        _no_longer(start, end, f"for {words}", size, system)
        for start, end, words, size in _wanted(spec, laid, number)
    ]
    return [*found, feather(spec, laid, system)] if spec.clutch.shaft == number else found


def _no_longer(start: float, end: float, words: str, size: float, system: str) -> Keyway:
    """A keyway no longer than its key may be, about the middle of where it is wanted."""
    key = key_for(size, system)
    middle, long = (start + end) / 2, min(end - start, key["longest"])
    return Keyway(middle - long / 2, middle + long / 2, words, key, size)


def _wanted(
    spec: Spec, laid: stack.Stack, number: int
) -> Iterator[tuple[float, float, str, float]]:
    """From where to where a hub's key is wanted, for what, and how thick the shaft is there."""
    hubs = spec.hubs
    if number == 1:
        # the fuse's flange is keyed beyond the box: a key between shaft and hollow end would pass by the fuse
        flange = next((one for one in laid.elements if one.name == seated.FLANGE), None)
        start, end = (flange.start, flange.end) if flange else zones.seat_span(spec, 1, zones.BOX)
        yield start, end, seated.FLANGE if flange else "the box", zones.seat(spec, 1, zones.BOX)
    if spec.clutch.shaft != number and hubs.gear == "key":
        for name, path in (("direct", spec.paths.direct), ("idler", spec.paths.idler)):
            half = hubs.gear_length / 2
            size = zones.seat(spec, number, f"{name} gear")
            yield path.position - half, path.position + half, f"the {name} gear", size


def feather(spec: Spec, laid: stack.Stack, system: str) -> Keyway:
    """The clutch's feather key: between the free gears and their rings, and no longer than keys are.

    Parameters
    ----------
    spec : Spec
    laid : Stack
        The clutch's shaft.
    system : str
        See :func:`keyways`.

    Returns
    -------
    Keyway

    Raises
    ------
    InputError
        If the table has no key for the seat.
    """
    middle = clutch_middle(spec)
    # the rings beside the free gears, and their washers, want the ends of it
    rings = max(
        (
            one.end - one.start + laid.before(one) + _BESIDE_RING
            for one in laid.grooves
            if one.name.endswith(" gear")
        ),
        default=0.0,
    )
    half = max(zones.between_gears(spec) / 2 - rings, 0.0)
    size = zones.seat(spec, spec.clutch.shaft, zones.CLUTCH)
    return _no_longer(middle - half, middle + half, "for the feather key", size, system)
