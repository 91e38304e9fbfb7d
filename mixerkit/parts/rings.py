"""Retaining rings in grooves of a shaft: which fits, and what ring and groove bear along the shaft."""

from __future__ import annotations

from functools import lru_cache
from math import pi

from mixerkit.results import Numbers, TableRow
from mixerkit.tables import table
from mixerkit.units import in_units

__all__ = ["PLAY", "groove_load", "ring_across", "ring_for"]

PLAY = 0.6
"""How much thicker than a ring's nominal a shaft may be, in mm: the ring still springs over it (common practice)."""
_EDGE = 1.2
"""Share of the yield that an edge of three groove depths bears, as its inverse: DIN 471 (from memory; it gives the
standard's own loads, see the example)."""


@lru_cache(maxsize=256)
def ring_for(diameter: float) -> TableRow | None:
    """Retaining ring of data/tables/retaining_rings.csv for a shaft of a diameter in mm; none where there is none."""
    rows = [
        row.values
        for row in table("retaining_rings")
        if -0.01 <= diameter - row.values["shaft"] <= PLAY
    ]
    return min(rows, key=lambda row: diameter - row["shaft"], default=None)


def ring_across(ring: TableRow) -> float:
    """Outside of a ring in its groove, in mm, opposite its gap: what it reaches over."""
    return float(ring["groove"] + 2 * ring["section"])


@in_units("N", diameter="mm > 0", groove="mm > 0", yield_strength="MPa > 0")
def groove_load(diameter: Numbers, groove: Numbers, yield_strength: Numbers) -> Numbers:
    r"""Push along a shaft at which the wall of a ring's groove yields.

    .. math:: F_N = \frac{\pi}{4} (d_1^2 - d_2^2) \frac{R_{eL}}{q}, \quad q = 1.2

    Parameters
    ----------
    diameter, groove : quantity, broadcast
        Of the shaft and in the groove.
    yield_strength : quantity, broadcast
        Of the shaft.

    Returns
    -------
    quantity [N], the broadcast shape

    References
    ----------
    DIN 471: load of the groove for a yield of 200 MPa and an edge of at least three groove depths.

    Examples
    --------
    The standard's table gives 4.58 kN for a shaft of 18 mm with a groove of 17 mm, at 200 MPa:

    >>> groove_load("18 mm", "17 mm", "200 MPa").to("kN").round(2)
    <Quantity(4.58, 'kilonewton')>
    """
    return pi / 4 * (diameter**2 - groove**2) * yield_strength / _EDGE
