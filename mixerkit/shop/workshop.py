"""The shop file: cutters, hole circles, drills, taps, reamers, lathe, mill and stock that a maker has."""

from __future__ import annotations

import os
import re
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any

import numpy as np

from mixerkit.data_files import data_path
from mixerkit.fields import QuantitiesKind, Record, WordsKind, quantities, quantity, unknown
from mixerkit.frozen import frozen
from mixerkit.tables import table
from mixerkit.textfiles import parse_toml, read_text
from mixerkit.units import InputError, as_written, refuse_list, to_plain

__all__ = ["HoleMakers", "Lathe", "Mill", "Plasma", "Stock", "Workshop", "read_workshop"]


class Lathe(Record):
    """The lathe."""

    between_centres: float = quantity("mm > 0 <= 10000", "longest work", "750 mm", "750 mm")
    swing: float = quantity("mm > 0 <= 2000", "widest work over the bed", "300 mm", "300 mm")
    spindle_bore: float = quantity("mm >= 0 <= 500", "what passes its spindle", "38 mm", "38 mm")


class Mill(Record):
    """The mill."""

    travel_x: float = quantity("mm > 0 <= 10000", "the long way", "520 mm", "520 mm")
    travel_y: float = quantity("mm > 0 <= 5000", "the short way", "220 mm", "220 mm")
    position_error: float = quantity(
        "mm >= 0 <= 1", "of a hole's place, one way", "0.02 mm", "0.02 mm"
    )


class Plasma(Record):
    """The plasma cutter."""

    cut_width: float = quantity("mm >= 0 <= 10", "of its cut", "1.6 mm", "1.6 mm")
    left_on: float = quantity("mm >= 0 <= 20", "left on each side to mill away", "2 mm", "2 mm")


class Stock(Record):
    """What can be had."""

    bar_length: float = quantity("mm > 0 <= 12000", "of a bar as bought", "1000 mm", "1000 mm")
    saw_cut: float = quantity("mm >= 0 <= 20", "width of the saw's cut", "3 mm", "3 mm")
    plates: tuple[float, ...] = quantities("mm > 0 <= 200", 30, "thicknesses", '["20 mm"]')


@dataclass(frozen=True)
class HoleMakers:
    """What makes holes; sizes in mm, rising.

    Attributes
    ----------
    drills, reamers, annular_cutters : tuple of float
    taps : tuple of str
        Names of data/tables/threads.csv.
    """

    drills: tuple[float, ...] = ()
    reamers: tuple[float, ...] = ()
    annular_cutters: tuple[float, ...] = ()
    taps: tuple[str, ...] = ()


@dataclass(frozen=True)
class Workshop:
    """What the shop can make with.

    Attributes
    ----------
    name : str
    dividing_ratio : int
        Turns of the crank for one of the spindle.
    plates : tuple of tuple of int
        Hole circles of each dividing plate.
    cutters : dict of float to frozenset of int
        Numbers on the shelf by module in mm.
    largest_blank : float
        Diameter in mm.
    holes, lathe, mill, plasma, stock
        See their records.
    """

    name: str
    dividing_ratio: int
    plates: tuple[tuple[int, ...], ...]
    cutters: dict[float, frozenset[int]]
    largest_blank: float
    holes: HoleMakers = field(default_factory=HoleMakers)
    lathe: Lathe = field(default_factory=lambda: Lathe.from_table({}))
    mill: Mill = field(default_factory=lambda: Mill.from_table({}))
    plasma: Plasma = field(default_factory=lambda: Plasma.from_table({}))
    stock: Stock = field(default_factory=lambda: Stock.from_table({}))

    def __post_init__(self) -> None:
        object.__setattr__(self, "cutters", frozen(self.cutters))

    @property
    def circles(self) -> tuple[int, ...]:
        """Every hole circle of every plate."""
        return tuple(sorted({hole for plate in self.plates for hole in plate}))


_NEEDED = {
    "name": 'what the shop is called, for example name = "Our shop"',
    "dividing_ratio": "turns of the crank for one of the spindle, for example dividing_ratio = 40",
    "plates": "the hole circles of each plate, for example plates = [[15, 16, 17], [21, 23]]",
    "largest_blank": 'the largest round blank, for example largest_blank = "250 mm"',
    "cutters": 'a table [cutters] with lines by module, for example "5" = [1, 2, 3]',
}
"""What a shop file cannot do without, and what is wanted there."""
_MOST_PLATES, _MOST_CIRCLES, _MOST_SIZES = 20, 60, 200
"""Dividing plates, hole circles on one, and entries in a list of sizes that are taken."""
_RECORDS: dict[str, type[Record]] = {"lathe": Lathe, "mill": Mill, "plasma": Plasma, "stock": Stock}
_FIELDS = (*_NEEDED, "holes", *_RECORDS)


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
    >>> read_workshop().dividing_ratio, read_workshop().holes.reamers[:3]
    (40, (8.0, 10.0, 12.0))
    """
    path = data_path("shops", "larkfield_shop.toml") if path is None else Path(path)
    content = parse_toml(read_text(path, "shop file"), path.name)
    faults = [f"{path.name}, {fault}" for fault in unknown(content, _FIELDS, "field")]
    faults += [
        f"{path.name}, {key}: missing; {words}, is wanted."
        for key, words in _NEEDED.items()
        if key not in content
    ]
    made: dict[str, Any] = {}
    if not faults:
        faults = [f"{path.name}, {fault}" for fault in _faults(content)]
        for name, record in _RECORDS.items():
            try:
                made[name] = record.from_table(content.get(name, {}), name)
            except InputError as error:
                faults += [f"{path.name}, {message}" for message in error.messages]
        try:
            made["holes"] = _hole_makers(content.get("holes", {}))
        except InputError as error:
            faults += [f"{path.name}, {message}" for message in error.messages]
    if faults:
        raise InputError(*faults)
    return Workshop(
        name=content["name"],
        dividing_ratio=content["dividing_ratio"],
        plates=tuple(tuple(plate) for plate in content["plates"]),
        cutters={
            float(module): frozenset(numbers) for module, numbers in content["cutters"].items()
        },
        largest_blank=float(to_plain(content["largest_blank"], "mm > 0")),
        **made,
    )


def _hole_makers(content: object) -> HoleMakers:
    known = HoleMakers.__dataclass_fields__
    if not isinstance(content, dict):
        raise InputError("holes: a table [holes] is wanted.")
    faults = unknown(content, known, "field", "holes")
    found: dict[str, Any] = {}
    for key in ("drills", "reamers", "annular_cutters"):
        try:
            found[key] = _sizes(content.get(key, []))
        except InputError as error:
            faults.append(f"holes.{key}: {error}")
    taps = content.get("taps", [])
    listed = [str(name) for name in table("threads").column("name")]
    if not isinstance(taps, list) or any(one not in listed for one in taps):
        faults.append(
            f'holes.taps: {as_written(taps)} does not fit; names such as ["M6", "M8"] are wanted; known are {", ".join(listed)}.'
        )
    if faults:
        raise InputError(*faults)
    return HoleMakers(**found, taps=tuple(taps))


def _sizes(listed: object) -> tuple[float, ...]:
    """Sizes in mm from ``"8 mm"`` and from ``"1 mm to 13 mm by 0.5 mm"``."""
    kind = QuantitiesKind("sizes", '["8 mm", "1 mm to 13 mm by 0.5 mm"]', "mm > 0 <= 200", 200)
    if not isinstance(listed, list) or len(listed) > _MOST_SIZES:
        raise InputError(
            f"{as_written(listed)} does not fit; a list of at most {_MOST_SIZES} sizes is wanted, "
            f"for example {kind.example}."
        )
    sizes: set[float] = set()
    for one in listed:
        run = re.fullmatch(r"(.+) to (.+) by (.+)", one) if isinstance(one, str) else None
        if run:
            start, stop, step = (
                float(to_plain(part, "mm > 0 <= 200", "8 mm")) for part in run.groups()
            )
            if stop < start or (stop - start) / step > 1000:
                raise InputError(
                    f'"{one}" does not fit; a rising run is wanted, for example "1 mm to 13 mm by 0.5 mm".'
                )
            sizes |= {round(float(size), 6) for size in np.arange(start, stop + step / 2, step)}
        else:
            sizes |= {round(size, 6) for size in kind.number(kind.read([one]))}
    return tuple(sorted(sizes))


def _is_whole(value: object, least: int, most: int) -> bool:
    return isinstance(value, int) and not isinstance(value, bool) and least <= value <= most


def _faults(content: dict[str, Any]) -> list[str]:
    faults = []
    try:
        WordsKind("what the shop is called", "Our shop").read(content["name"])
    except InputError as error:
        faults.append(f"name: {error}")
    if not _is_whole(content["dividing_ratio"], 1, 400):
        faults.append(
            f"dividing_ratio: {as_written(content['dividing_ratio'])} does not fit; a whole number from 1 to 400 is wanted, for example 40."
        )
    plates = content["plates"]
    fits = isinstance(plates, list) and len(plates) <= _MOST_PLATES
    if not fits or not all(
        isinstance(plate, list)
        and len(plate) <= _MOST_CIRCLES
        and all(_is_whole(hole, 2, 500) for hole in plate)
        for plate in plates
    ):
        faults.append(
            f"plates: {as_written(plates)} does not fit; at most {_MOST_PLATES} lists of at most {_MOST_CIRCLES} hole "
            "counts from 2 to 500 are wanted, for example [[15, 16, 17], [21, 23]]."
        )
    cutters = content["cutters"]
    try:
        fits = all(
            0 < float(module) <= 25
            and isinstance(numbers, list)
            and all(_is_whole(one, 1, 8) for one in numbers)
            for module, numbers in cutters.items()
        )
    except (AttributeError, ValueError):
        fits = False
    if not fits:
        faults.append(
            f"cutters: {as_written(cutters)} does not fit; lists of numbers 1 to 8 by module in mm up to 25 are wanted, "
            'for example "5" = [1, 2, 3].'
        )
    try:
        refuse_list(content["largest_blank"], "250 mm")
        to_plain(content["largest_blank"], "mm > 0 <= 2000", "250 mm")
    except InputError as error:
        faults.append(f"largest_blank: {error}")
    return faults
