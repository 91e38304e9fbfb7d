"""The file of sizes as made: what may stand in it, and reading it."""

from __future__ import annotations

import os
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any

from mixerkit.fields import unknown
from mixerkit.frozen import frozen
from mixerkit.shop.blanks import GEARS
from mixerkit.shop.holes import PLATES
from mixerkit.textfiles import parse_toml
from mixerkit.textfiles import read_text as file_text
from mixerkit.units import InputError, as_written, refuse_list, to_plain

__all__ = ["BORES", "COUNTED", "Measurements", "read_measurements", "read_text"]

BORES = ("shaft_1", "shaft_2", "idler_pin")
"""Bores of each plate whose places are measured."""
COUNTED = ("tooth_count", "cutter_number", "turns", "holes", "circle")
"""What is counted, not measured."""
_HINT = '; lines like bore = "45.01 mm" are wanted'


@dataclass(frozen=True)
class Measurements:
    """Measurements of one machine: plain numbers in mm by dotted name, places as pairs."""

    values: dict[str, float] = field(default_factory=dict)
    places: dict[str, tuple[float, float]] = field(default_factory=dict)

    def __post_init__(self) -> None:
        for name in ("values", "places"):
            object.__setattr__(self, name, frozen(getattr(self, name)))


def read_measurements(source: str | os.PathLike[str] | dict[str, Any]) -> Measurements:
    """Read a measurements file.

    Parameters
    ----------
    source : path or dict
        TOML with tables ``[gears.direct_1]``, ``[plates.reducer]``, ``[shafts.1]``, ``[box]`` and
        ``[bushes]``; or the same as nested dicts.

    Returns
    -------
    Measurements

    Raises
    ------
    InputError
        With one sentence for each mistake in the file.
    """
    name, content = ("measurements", source) if isinstance(source, dict) else _parse(Path(source))
    return _gather(name, content)


def read_text(text: str, name: str = "measurements") -> Measurements:
    """Read measurements from the text of their file; see :func:`read_measurements`."""
    return _gather(name, parse_toml(text, name, _HINT))


def _gather(name: str, content: dict[str, Any]) -> Measurements:
    known = _known_names()
    flat = [(dotted, raw) for dotted, raw in _flat(content) if dotted not in ("format", "design")]
    faults = [
        f"{name}, {fault}" for fault in unknown([one for one, _ in flat], known, "measurement")
    ]
    values: dict[str, float] = {}
    places: dict[str, tuple[float, float]] = {}
    for dotted, raw in flat:
        if dotted not in known:
            continue
        try:
            read = _READERS[known[dotted]](raw)
        except InputError as error:
            faults += [f"{name}, {dotted}: {text}" for text in error.messages]
            continue
        if known[dotted] == "place":
            places[dotted] = read
        else:
            values[dotted] = read
    if faults:
        raise InputError(*faults)
    return Measurements(values, places)


def _place(raw: Any) -> tuple[float, float]:
    if not isinstance(raw, list) or len(raw) != 2:
        raise InputError(
            f'{as_written(raw)} does not fit; a place is wanted, for example ["170 mm", "170 mm"].'
        )
    x, y = (_length(one, "mm >= -5000 <= 5000", "170 mm") for one in raw)
    return x, y


def _count(raw: Any) -> float:
    if isinstance(raw, bool) or not isinstance(raw, int) or not 0 <= raw <= 1000:
        raise InputError(f"{as_written(raw)} does not fit; a count is wanted, for example 30.")
    return float(raw)


def _size(raw: Any) -> float:
    return _length(raw, "mm > 0 <= 10000", "45.01 mm")


def _length(raw: Any, span: str, example: str) -> float:
    refuse_list(raw, example)
    return float(to_plain(raw, span, example))


_READERS: dict[str, Any] = {"place": _place, "count": _count, "size": _size}


def _parse(path: Path) -> tuple[str, dict[str, Any]]:
    return path.name, parse_toml(file_text(path, "file of measurements"), path.name, _HINT)


def _flat(content: dict[str, Any], prefix: str = "") -> list[tuple[str, Any]]:
    found = []
    for key, value in content.items():
        found += (
            _flat(value, f"{prefix}{key}.") if isinstance(value, dict) else [(prefix + key, value)]
        )
    return found


def _known_names() -> dict[str, str]:
    """Every measurement there may be, and whether it is a size, a place or a count."""
    found: dict[str, str] = {}
    for gear in GEARS:
        for one in ("outside_diameter", "bore", "width", "base_tangent", "cutter_module"):
            found[f"gears.{gear}.{one}"] = "size"
        for one in COUNTED:
            found[f"gears.{gear}.{one}"] = "count"
    for which in PLATES:
        for bore in BORES:
            found[f"plates.{which}.{bore}"] = "place"
            found[f"plates.{which}.{bore}_bore"] = "size"
        for one in ("centre_distance", "thickness"):
            found[f"plates.{which}.{one}"] = "size"
    for number in (1, 2):
        for one in ("bearing_seat", "gear_seat", "keyway_depth", "keyway_width", "length"):
            found[f"shafts.{number}.{one}"] = "size"
    for one in (
        "shafts.1.box_end",
        "box.input_bore",
        "box.output_bore",
        "bushes.free_gear_bore",
        "bushes.free_gear_outside",
        "bushes.idler_bore",
        "bushes.idler_outside",
        "idler.pin_diameter",
    ):
        found[one] = "size"
    return found
