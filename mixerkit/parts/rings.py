"""Retaining rings in grooves of a shaft: which fits, and what ring and groove bear along the shaft."""

from __future__ import annotations

from functools import lru_cache
from math import pi

import numpy as np

from mixerkit.results import Numbers, TableRow
from mixerkit.tables import table
from mixerkit.units import in_units

__all__ = [
    "LEVER",
    "PLAY",
    "ROUNDED",
    "SUPPORT",
    "corner_load",
    "groove_load",
    "ring_across",
    "ring_for",
    "support_thickness",
]

PLAY = 0.6
"""How much thicker than a ring's nominal a shaft may be, in mm: the ring still springs over it (common practice)."""
_EDGE = 1.2
"""Share of the yield that an edge of three groove depths bears, as its inverse: DIN 471 (from memory; it gives the
standard's own loads, see the example)."""

LEVER = (0.3, 0.002, 0.05)
"""Arm in mm at which a part pushes on a ring: 0.3 and 0.002 of the shaft with a sharp corner, 0.05 and the corner with a
round or chamfered one (a design guide for rings of DIN 471)."""
ROUNDED = 1.9
"""Largest corner of a bearing over its least, across the shaft: ISO 582 has 1.5 mm for 1 mm up to 4 mm for 2.1 mm (from
memory), of which this is the most."""
SUPPORT = ((28.0, 2.0), (42.0, 2.5), (62.0, 3.0), (np.inf, 3.5))
"""Up to which bore in mm a support washer is how thick, in mm (DIN 988, S; from memory)."""


def support_thickness(bore: float) -> float:
    """Thickness in mm of the support washer for a shaft, of :data:`SUPPORT`."""
    return next(thick for most, thick in SUPPORT if bore <= most)


@in_units("N", sharp="N >= 0", diameter="mm > 0", corner="mm >= 0")
def corner_load(sharp: Numbers, diameter: Numbers, corner: Numbers) -> Numbers:
    r"""Load of a ring against a part with a round or chamfered corner.

    .. math:: F_{Rg} = F_R \min\left(1, \frac{0.3\,\mathrm{mm} + 0.002 d_1}{0.05\,\mathrm{mm} + g}\right)

    Parameters
    ----------
    sharp : quantity, any shape
        Its load against a sharp corner, F_R.
    diameter : quantity, broadcast
        Of the shaft.
    corner : quantity, broadcast
        How far from the shaft the part begins to touch the ring, less what a support washer fills of it.

    Returns
    -------
    quantity [N], the broadcast shape

    References
    ----------
    The ring dishes by the load's arm, which its load goes against: a design guide for rings of DIN 471. The
    standard's own F_Rg, where they were seen, are as much or more.

    Examples
    --------
    The standard's table gives 3.75 kN for a shaft of 18 mm and a corner of 1.5 mm, and 17 kN with a sharp one:

    >>> corner_load("17 kN", "18 mm", "1.5 mm").to("kN").round(2)
    <Quantity(3.69, 'kilonewton')>
    """
    least, with_shaft, round_ = LEVER
    share = (least + with_shaft * diameter) / (round_ + np.asarray(corner, float))
    return sharp * np.where(np.asarray(corner) > 0, np.minimum(share, 1.0), 1.0)[()]


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
