"""Threads that are tapped, by their names: metric, and unified ones of the coarse and the fine series."""

from __future__ import annotations

import re

from mixerkit.frozen import result
from mixerkit.shop.drills import sizes_named
from mixerkit.tables import table
from mixerkit.units import read_quantity

__all__ = ["Thread", "thread"]

_UNIFIED = re.compile(r"(?:#|No\.?\s*|number\s+)?([\d/]+-\d+)\s*([a-z]*)", re.IGNORECASE)


@result
class Thread:
    """A thread to tap: its name, diameter, pitch and drill in mm, and how it is called elsewhere.

    Attributes
    ----------
    name : str
    diameter, pitch, tapping_drill : float
        In mm.
    clearance : float
        Hole in mm that its bolt passes through.
    """

    name: str
    diameter: float
    pitch: float
    tapping_drill: float
    clearance: float


def thread(name: str) -> Thread:
    """Find a thread by the name that stands on its tap, or by the size of a bolt.

    Parameters
    ----------
    name : str
        Such as ``"M8"``, ``"1/4-20 UNC"``, ``"#10-32 UNF"``; a bolt's ``"1/4 in"`` is of the coarse series.

    Returns
    -------
    Thread

    Raises
    ------
    InputError
        Naming what the table has nearest.

    References
    ----------
    Metric: ISO 261, coarse; unified: ASME B1.1, coarse and fine. See data/tables/threads.csv and
    data/tables/unified_threads.csv.

    Examples
    --------
    >>> thread("1/4 in").name, round(thread("3/8-24 UNF").tapping_drill, 3), thread("M8").tapping_drill
    ('1/4-20 UNC', 8.433, 6.8)
    """
    unified = _UNIFIED.fullmatch(name.strip())
    if unified:
        return _unified(_with_series(unified[1], unified[2].upper()))
    row = table("threads").find(name).values
    if row["series"] == "inch":
        pitch = float(row["pitch"])
        return min(
            (
                _unified(str(one.values["name"]))
                for one in table("unified_threads")
                if abs(one.values["diameter"] - row["diameter"]) < 1e-3
            ),
            key=lambda one: abs(one.pitch - pitch),
        )
    return Thread(name, row["diameter"], row["pitch"], row["tapping_drill"], row["clearance_hole"])


def _with_series(size: str, series: str) -> str:
    """Name of a unified thread as the table has it; its series follows from its threads to the inch."""
    known = [str(row.values["name"]) for row in table("unified_threads")]
    alike = [one for one in known if one.split()[0] == size]
    return alike[0] if alike and not series else f"{size} {series}".strip()


def _unified(name: str) -> Thread:
    row = table("unified_threads").find(name).values
    drill = str(row["drill"])
    (size,) = sizes_named(drill) or (read_quantity(drill, "mm").m_as("mm"),)
    holes = table("threads").only("series", "inch")
    passed = min(holes, key=lambda one: abs(one.values["diameter"] - row["diameter"])).values
    return Thread(
        name,
        row["diameter"],
        25.4 / row["threads"],
        float(size),
        passed["clearance_hole"] - passed["diameter"] + row["diameter"],
    )
