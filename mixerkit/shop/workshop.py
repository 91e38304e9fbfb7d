"""The shop file: cutters, hole circles, dividing ratio and the largest blank a maker has."""

from __future__ import annotations

import os
import tomllib
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from mixerkit.data_files import data_path
from mixerkit.records import nearest
from mixerkit.units import InputError, to_plain

__all__ = ["Workshop", "read_workshop"]

_FIELDS = ("name", "dividing_ratio", "plates", "largest_blank", "cutters")


@dataclass(frozen=True)
class Workshop:
    """What the shop can cut with.

    Attributes
    ----------
    name : str
    dividing_ratio : int
        Turns of the crank for one of the spindle.
    circles : tuple of int
        Every hole circle of every plate.
    cutters : dict of float to frozenset of int
        Numbers on the shelf by module in mm.
    largest_blank : float
        Diameter in mm.
    """

    name: str
    dividing_ratio: int
    circles: tuple[int, ...]
    cutters: dict[float, frozenset[int]]
    largest_blank: float


def read_workshop(path: str | os.PathLike[str] | None = None) -> Workshop:
    """Read a shop file.

    Parameters
    ----------
    path : path, optional
        The demo shop, if not given.

    Returns
    -------
    Workshop

    Raises
    ------
    InputError
        With one sentence for each mistake in the file.

    Examples
    --------
    >>> read_workshop().dividing_ratio
    40
    """
    path = Path(path) if path else data_path("shops", "larkfield_shop.toml")
    try:
        content = tomllib.loads(path.read_bytes().decode("utf-8-sig"))
    except OSError as error:
        raise InputError(f"{path}: cannot be read ({error.strerror or error}).") from None
    except (UnicodeDecodeError, tomllib.TOMLDecodeError) as error:
        raise InputError(f"{path.name}: not a TOML file: {error}.") from None
    faults = [
        f"{path.name}, {key}: no such field{nearest(key, _FIELDS)}."
        for key in content
        if key not in _FIELDS
    ]
    faults += [f"{path.name}, {key}: missing." for key in _FIELDS if key not in content]
    if not faults:
        faults = [f"{path.name}, {fault}" for fault in _faults(content)]
    if faults:
        raise InputError(*faults)
    return Workshop(
        name=content["name"],
        dividing_ratio=content["dividing_ratio"],
        circles=tuple(sorted({hole for plate in content["plates"] for hole in plate})),
        cutters={
            float(module): frozenset(numbers) for module, numbers in content["cutters"].items()
        },
        largest_blank=float(to_plain(content["largest_blank"], "mm > 0")),
    )


def _is_whole(value: Any, least: int, most: int) -> bool:
    return isinstance(value, int) and not isinstance(value, bool) and least <= value <= most


def _faults(content: dict[str, Any]) -> list[str]:
    faults = []
    if not isinstance(content["name"], str) or not content["name"].strip():
        faults.append(f"name: {content['name']!r} does not fit; a line of text is wanted.")
    if not _is_whole(content["dividing_ratio"], 1, 400):
        faults.append(
            f"dividing_ratio: {content['dividing_ratio']!r} does not fit; a whole number is wanted, for example 40."
        )
    plates = content["plates"]
    if not isinstance(plates, list) or not all(
        isinstance(plate, list) and all(_is_whole(hole, 2, 500) for hole in plate)
        for plate in plates
    ):
        faults.append(
            "plates: lists of hole counts from 2 to 500 are wanted, for example [[15, 16, 17], [21, 23]]."
        )
    cutters = content["cutters"]
    try:
        fits = all(
            float(module) > 0
            and isinstance(numbers, list)
            and all(_is_whole(one, 1, 8) for one in numbers)
            for module, numbers in cutters.items()
        )
    except (AttributeError, ValueError):
        fits = False
    if not fits:
        faults.append(
            'cutters: lists of numbers 1 to 8 by module are wanted, for example "5" = [1, 2, 3].'
        )
    try:
        to_plain(content["largest_blank"], "mm > 0 <= 2000")
    except InputError as error:
        faults.append(f"largest_blank: {error}")
    return faults
