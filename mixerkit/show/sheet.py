"""One sheet of paper for the shop, and how sizes are written on it."""

from __future__ import annotations

from dataclasses import dataclass, field

import numpy as np

from mixerkit.units import show

__all__ = ["Sheet", "Table", "Words", "ratio"]


Table = tuple[str, tuple[str, ...], tuple[tuple[str, ...], ...]]
"""Title, headings and rows."""


@dataclass(frozen=True)
class Sheet:
    """What stands on one side of paper.

    Attributes
    ----------
    title, purpose : str
    drawing : str
        SVG, empty for none.
    big : tuple of (str, str)
        Numbers to set on a machine: label and value.
    tables : tuple of (str, tuple of str, tuple of tuple of str)
        Title, headings and rows; a heading ``"As made"`` leaves room to write.
    ticks : tuple of str
        One box to tick for each.
    notes : tuple of str
    dense : bool
        Whether its tables are set small, to go on one side.
    hangs : str
        On what not measured yet its sizes hang, to stand across the drawing; empty for nothing.
    """

    title: str
    purpose: str
    drawing: str = ""
    big: tuple[tuple[str, str], ...] = ()
    tables: tuple[Table, ...] = ()
    ticks: tuple[str, ...] = field(default=())
    notes: tuple[str, ...] = field(default=())
    dense: bool = False
    hangs: str = ""


MICROINCHES = {0.8: 32, 3.2: 125}
"""Preferred roughness values, um to microinches (ASME B46.1, from memory)."""


class Words:
    """Sizes as this maker reads them."""

    def __init__(self, system: str) -> None:
        self.system = system

    def size(self, value: float, digits: int = 5) -> str:
        """A length with its unit, no finer than a micrometer reads."""
        if not np.isfinite(value):
            return show(value, "mm", self.system)
        finest = 0.0001 * (25.4 if self.system == "inch" else 1.0)
        return show(round(value / finest) * finest, "mm", self.system, digits)

    def finish(self, roughness: float) -> str:
        """A roughness in um, or its partner among the preferred values in microinches."""
        return f"{roughness:g} um" if self.system == "metric" else f"{MICROINCHES[roughness]} uin"

    def bare(self, value: float) -> str:
        """A length without its unit, for dimensions."""
        if not np.isfinite(value):
            return "?"
        return f"{value:.4g}" if self.system == "metric" else f"{value / 25.4:.3f}"

    def limits(self, least: float, most: float) -> str:
        """Two limits, the larger first, as they are turned to."""
        if not np.isfinite([least, most]).all():
            return "not known"
        if self.system == "metric":
            return f"{most:.3f} / {least:.3f} mm"
        return f"{most / 25.4:.4f} / {least / 25.4:.4f} in"


def ratio(scale: float) -> str:
    """Write a scale as it stands on a drawing."""
    return f"1 : {1 / scale:.3g}" if scale < 1 else f"{scale:.3g} : 1"
