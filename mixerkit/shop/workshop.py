"""The shop file: cutters, hole circles, drills, taps, reamers, lathe, mill, stock and prices that a maker has."""

from __future__ import annotations

import os
from collections.abc import Mapping
from pathlib import Path

from mixerkit.data_files import data_path
from mixerkit.fields import (
    Record,
    quantities,
    quantity,
    section,
    sizes,
    texts,
    whole,
    whole_lists,
    wholes_by_size,
    words,
)
from mixerkit.shop.drills import sizes_named
from mixerkit.shop.prices_file import Prices
from mixerkit.shop.shelf_file import Shelf
from mixerkit.shop.threads import thread
from mixerkit.textfiles import read_record
from mixerkit.units import InputError

__all__ = ["HoleMakers", "Lathe", "Mill", "Plasma", "Stock", "Workshop", "read_workshop"]


class Lathe(Record, role="fact"):
    """The lathe."""

    between_centres: float = quantity("mm > 0 <= 10000", "longest work", "750 mm", "750 mm")
    swing: float = quantity("mm > 0 <= 2000", "widest work over the bed", "300 mm", "300 mm")
    spindle_bore: float = quantity("mm >= 0 <= 500", "what passes its spindle", "38 mm", "38 mm")


class Mill(Record, role="fact"):
    """The mill."""

    travel_x: float = quantity("mm > 0 <= 10000", "the long way", "520 mm", "520 mm")
    travel_y: float = quantity("mm > 0 <= 5000", "the short way", "220 mm", "220 mm")
    position_error: float = quantity(
        "mm >= 0 <= 1", "of a hole's place, one way", "0.02 mm", "0.02 mm"
    )


class Plasma(Record, role="fact"):
    """The plasma cutter."""

    cut_width: float = quantity("mm >= 0 <= 10", "of its cut", "1.6 mm", "1.6 mm")
    left_on: float = quantity("mm >= 0 <= 20", "left on each side to mill away", "2 mm", "2 mm")


class Stock(Record, role="fact"):
    """What can be had."""

    bar_length: float = quantity("mm > 0 <= 12000", "of a bar as bought", "1000 mm", "1000 mm")
    saw_cut: float = quantity("mm >= 0 <= 20", "width of the saw's cut", "3 mm", "3 mm")
    plates: tuple[float, ...] = quantities("mm > 0 <= 200", 30, "thicknesses", '["20 mm"]')


class HoleMakers(Record, role="fact"):
    """What makes holes; sizes rise."""

    drills: tuple[float, ...] = sizes(
        "mm > 0 <= 200",
        200,
        "twist drills",
        '["8 mm", "1 mm to 13 mm by 0.5 mm"]',
        sizes_named,
    )
    taps: tuple[str, ...] = texts(200, "taps by the names of their threads", '["M6", "M8"]')
    reamers: tuple[float, ...] = sizes("mm > 0 <= 200", 200, "reamers, H7", '["8 mm", "10 mm"]')
    annular_cutters: tuple[float, ...] = sizes(
        "mm > 0 <= 200", 200, "annular cutters", '["14 mm", "18 mm"]'
    )

    def _agree(self) -> None:
        faults = []
        for name in self.taps:
            try:
                thread(name)
            except InputError as error:
                faults += [f"taps: {text}" for text in error.messages]
        if faults:
            raise InputError(*faults)


class Workshop(Record, role="fact"):
    """What the shop can make with."""

    name: str = words("what the shop is called", "Our shop")
    dividing_ratio: int = whole(1, 400, "turns of the crank for one of the spindle", "40")
    plates: tuple[tuple[int, ...], ...] = whole_lists(
        2, 500, 20, 60, "the hole circles of each dividing plate", "[[15, 16, 17], [21, 23]]"
    )
    largest_blank: float = quantity("mm > 0 <= 2000", "the largest round blank", "250 mm")
    cutters: Mapping[float, frozenset[int]] = wholes_by_size(
        "mm > 0 <= 25",
        1,
        8,
        "numbers of the form cutters on the shelf by module",
        '"5" = [1, 2, 3]',
    )
    holes: HoleMakers = section(HoleMakers, "what makes holes", optional=True)
    lathe: Lathe = section(Lathe, "the lathe", optional=True)
    mill: Mill = section(Mill, "the mill", optional=True)
    plasma: Plasma = section(Plasma, "the plasma cutter", optional=True)
    stock: Stock = section(Stock, "what can be had", optional=True)
    shelf: Shelf = section(Shelf, "what is there already", optional=True)
    prices: Prices = section(Prices, "the maker's own prices", optional=True)

    @property
    def circles(self) -> tuple[int, ...]:
        """Every hole circle of every plate."""
        return tuple(sorted({hole for plate in self.plates for hole in plate}))


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
    return read_record(Workshop, path, "shop file")
