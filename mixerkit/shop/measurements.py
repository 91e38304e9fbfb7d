"""The file of sizes as made: what may stand in it, and reading it."""

from __future__ import annotations

import os
from collections.abc import Collection, Mapping
from pathlib import Path
from typing import Any, Self

import numpy as np

from mixerkit.fields import (
    Record,
    if_given,
    point,
    quantity,
    rows,
    section,
    values_in,
    whole,
    words,
)
from mixerkit.frozen import cached_property
from mixerkit.shop.blanks import GEARS
from mixerkit.shop.holes import PLATES
from mixerkit.textfiles import as_record, parse_record, read_record
from mixerkit.units import InputError

__all__ = [
    "BORES",
    "COUNTED",
    "Measurements",
    "distance_as_bored",
    "read_measurements",
    "read_text",
]

BORES = ("shaft_1", "shaft_2", "idler_pin")
"""Bores of each plate whose places are measured."""
COUNTED = ("tooth_count", "cutter_number", "turns", "holes", "circle")
"""What is counted, not measured."""


def _size(meaning: str) -> Any:
    return if_given(quantity("mm > 0 <= 10000", meaning, "45.01 mm"))


def _count(meaning: str) -> Any:
    return if_given(whole(0, 1000, meaning, "30"))


def _place(meaning: str) -> Any:
    return if_given(point("mm >= -5000 <= 5000", meaning, '["170 mm", "170 mm"]'))


class GearSizes(Record, role="fact"):
    """One gear as made, and how the dividing head was set for it."""

    outside_diameter: float | None = _size("over the tips")
    bore: float | None = _size("diameter of its bore")
    width: float | None = _size("width of its blank")
    base_tangent: float | None = _size("over so many teeth as its sheet says")
    cutter_module: float | None = _size("module that is written on the cutter")
    cutter_number: int | None = _count("number that is written on the cutter")
    tooth_count: int | None = _count("teeth, counted")
    turns: int | None = _count("whole turns of the crank for a tooth")
    holes: int | None = _count("holes beyond the turns")
    circle: int | None = _count("holes of the circle they are counted on")


class PlateSizes(Record, role="fact"):
    """One plate as made; places are from the two marked edges."""

    thickness: float | None = _size("thickness, machined")
    centre_distance: float | None = _size("between the bores of the shafts")
    shaft_1: tuple[float, float] | None = _place("place of the bore of shaft 1")
    shaft_2: tuple[float, float] | None = _place("place of the bore of shaft 2")
    idler_pin: tuple[float, float] | None = _place("place of the hole of the idler's pin")
    shaft_1_bore: float | None = _size("diameter of the bore of shaft 1")
    shaft_2_bore: float | None = _size("diameter of the bore of shaft 2")
    idler_pin_bore: float | None = _size("diameter of the hole of the idler's pin")


class ShaftSizes(Record, role="fact"):
    """One shaft as made; only shaft 1 has an end in the box."""

    bearing_seat: float | None = _size("diameter under the bearings, or under the first of them")
    trough_bearing_seat: float | None = _size(
        "diameter under the bearing in the plate at the trough"
    )
    far_bearing_seat: float | None = _size("diameter under the bearing beyond the trough")
    gear_seat: float | None = _size("diameter under the gears, or under the one of the direct path")
    idler_gear_seat: float | None = _size("diameter under the gear of the idler path")
    clutch_seat: float | None = _size("diameter under the clutch's sleeve")
    keyway_depth: float | None = _size("depth of its keyway")
    keyway_width: float | None = _size("width of its keyway")
    length: float | None = _size("length over all")
    box_end: float | None = _size("diameter of the end in the box")


class BoxSizes(Record, role="fact"):
    """The reduction box as delivered."""

    input_bore: float | None = _size("bore at the fast end")
    output_bore: float | None = _size("bore of the hollow slow end")


class BushSizes(Record, role="fact"):
    """Bushes as made; those of the shafts where these turn in plain bushes."""

    free_gear_bore: float | None = _size("bore of the bush in a free gear")
    free_gear_outside: float | None = _size("outside of the bush in a free gear")
    idler_bore: float | None = _size("bore of the idler's bush")
    idler_outside: float | None = _size("outside of the idler's bush")
    shaft_1_bore: float | None = _size("bore of the bushes of shaft 1, or of the first of them")
    shaft_1_trough_bore: float | None = _size("bore of its bush in the plate at the trough")
    shaft_1_far_bore: float | None = _size("bore of its bush beyond the trough")
    shaft_1_outside: float | None = _size("outside of the bushes of shaft 1, or of the first")
    shaft_1_trough_outside: float | None = _size("outside of its bush in the plate at the trough")
    shaft_1_far_outside: float | None = _size("outside of its bush beyond the trough")
    shaft_2_bore: float | None = _size("bore of the bushes of shaft 2, or of the first of them")
    shaft_2_trough_bore: float | None = _size("bore of its bush in the plate at the trough")
    shaft_2_far_bore: float | None = _size("bore of its bush beyond the trough")
    shaft_2_outside: float | None = _size("outside of the bushes of shaft 2, or of the first")
    shaft_2_trough_outside: float | None = _size("outside of its bush in the plate at the trough")
    shaft_2_far_outside: float | None = _size("outside of its bush beyond the trough")


class IdlerSizes(Record, role="fact"):
    """The idler's pin as made."""

    pin_diameter: float | None = _size("diameter of its pin, where the idler turns")


class Measurements(Record, role="fact"):
    """Measurements of one machine; what was not measured is left out."""

    format: int = whole(1, 9999, "number of the file's form", "1", 1)
    design: str | None = if_given(words("name of the machine they belong to", "Our clay mixer"))
    plates: Mapping[str, PlateSizes] = rows(PlateSizes, PLATES, "plate", "sizes of each plate")
    gears: Mapping[str, GearSizes] = rows(GearSizes, tuple(GEARS), "gear", "sizes of each gear")
    shafts: Mapping[str, ShaftSizes] = rows(ShaftSizes, ("1", "2"), "shaft", "sizes of each shaft")
    box: BoxSizes = section(BoxSizes, "the reduction box", optional=True)
    bushes: BushSizes = section(BushSizes, "bushes of the free gears and the idler", optional=True)
    idler: IdlerSizes = section(IdlerSizes, "the idler's pin", optional=True)

    def _agree(self) -> None:
        if "2" in self.shafts and self.shafts["2"].box_end is not None:
            raise InputError(
                "shafts.2.box_end: shaft 2 has no end in the box; shafts.1.box_end is wanted."
            )

    @cached_property
    def values(self) -> Mapping[str, float]:
        """Sizes in mm and counts, as plain numbers by dotted name."""
        return {name: float(one) for name, one in self._all() if not isinstance(one, tuple)}

    @cached_property
    def places(self) -> Mapping[str, tuple[float, float]]:
        """Places of bores in mm by dotted name."""
        return {name: one for name, one in self._all() if isinstance(one, tuple)}

    def _all(self) -> list[tuple[str, Any]]:
        # what describes the file itself stands in no table
        return [(name, one) for name, one in values_in(self).items() if "." in name]

    def without(self, names: Collection[str]) -> Self:
        """Give a copy in which some sizes, by dotted name, are not measured."""
        table = self.to_table()
        for dotted in names:
            *outer, last = dotted.split(".")
            inner: object = table
            for part in outer:
                inner = inner.get(part) if isinstance(inner, dict) else None
            if isinstance(inner, dict):
                inner.pop(last, None)
        return self.from_table(table)


def read_measurements(source: str | os.PathLike[str] | Mapping[str, Any]) -> Measurements:
    """Read a measurements file.

    Parameters
    ----------
    source : path or mapping
        TOML with tables ``[gears.direct_1]``, ``[plates.reducer]``, ``[shafts.1]``, ``[box]``,
        ``[bushes]`` and ``[idler]``; or the same as nested mappings.

    Returns
    -------
    Measurements

    Raises
    ------
    InputError
        With one sentence for each mistake in the file.

    Examples
    --------
    >>> read_measurements({"gears": {"direct_1": {"bore": "2.1655 in"}}}).values
    {'gears.direct_1.bore': 55.0037}
    """
    if isinstance(source, Mapping):
        return as_record(Measurements, source, "measurements")
    return read_record(Measurements, Path(source), "file of measurements")


def read_text(text: str, name: str = "measurements") -> Measurements:
    """Read measurements from the text of their file; see :func:`read_measurements`."""
    return parse_record(Measurements, text, name)


def distance_as_bored(made: Measurements, which: str) -> float | None:
    """Distance of the shafts in one plate: as measured, or from the places of its bores."""
    direct = made.values.get(f"plates.{which}.centre_distance")
    if direct is not None:
        return direct
    names = [f"plates.{which}.shaft_{number}" for number in (1, 2)]
    if any(one not in made.places for one in names):
        return None
    (x_1, y_1), (x_2, y_2) = (made.places[one] for one in names)
    return float(np.hypot(x_1 - x_2, y_1 - y_2))
