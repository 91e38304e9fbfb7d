"""Keyways in a shaft: where each begins and ends, and for what."""

from __future__ import annotations

from collections.abc import Iterator
from typing import NamedTuple

from mixerkit.parts import stack, zones
from mixerkit.parts.keys import key_for
from mixerkit.results import TableRow
from mixerkit.spec import Spec

__all__ = ["Keyway", "feather_span", "keyways"]

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
    return [
        _no_longer(start, end, f"for {words}", size, system)
        for start, end, words, size in _wanted(spec, laid, number)
    ]


def _no_longer(start: float, end: float, words: str, size: float, system: str) -> Keyway:
    """A keyway no longer than its key may be, about the middle of where it is wanted."""
    key = key_for(size, system)
    middle, long = (start + end) / 2, min(end - start, key["longest"])
    return Keyway(middle - long / 2, middle + long / 2, words, key, size)


def _wanted(
    spec: Spec, laid: stack.Stack, number: int
) -> Iterator[tuple[float, float, str, float]]:
    """From where to where a key is wanted, for what, and how thick the shaft is there."""
    hubs = spec.hubs
    if number == 1:
        # the fuse's flange is keyed beyond the box: a key between shaft and hollow end would pass by the fuse
        flange = next((one for one in laid.elements if one.name == stack.FLANGE), None)
        start, end = (flange.start, flange.end) if flange else zones.seat_span(spec, 1, zones.BOX)
        yield start, end, stack.FLANGE if flange else "the box", zones.seat(spec, 1, zones.BOX)
    if spec.clutch.shaft == number:
        yield *feather_span(spec, laid), "the feather key", zones.seat(spec, number, zones.CLUTCH)
    elif hubs.gear == "key":
        for name, path in (("direct", spec.paths.direct), ("idler", spec.paths.idler)):
            half = hubs.gear_length / 2
            size = zones.seat(spec, number, f"{name} gear")
            yield path.position - half, path.position + half, f"the {name} gear", size


def feather_span(spec: Spec, laid: stack.Stack) -> tuple[float, float]:
    """From where to where in mm the clutch's feather key may reach: between the free gears and their rings."""
    direct, idler = spec.paths.direct, spec.paths.idler
    middle = (direct.position + idler.position) / 2
    room = abs(direct.position - idler.position) - (direct.face_width + idler.face_width) / 2
    # the rings beside the free gears want the ends of it
    rings = max(
        (one.end - one.start + _BESIDE_RING for one in laid.grooves if one.name.endswith(" gear")),
        default=0.0,
    )
    half = max(room / 2 - rings, 0.0)
    return middle - half, middle + half
