"""Fatigue of turning shafts: endurance limit, notches, and the distortion-energy Goodman rule."""

from __future__ import annotations

from math import pi

import numpy as np

from mixerkit.results import Numbers
from mixerkit.units import in_units

__all__ = [
    "FINISHES",
    "RELIABILITY",
    "diameter_for_fatigue",
    "endurance_limit",
    "finite_strength",
    "goodman_factor",
    "size_factor",
    "surface_factor",
]

FINISHES = {"ground": (1.58, -0.085), "machined": (4.51, -0.265), "hot-rolled": (57.7, -0.718)}
"""Surface factor a Sut^b, Sut in MPa (Shigley 10th ed., table 6-2)."""
RELIABILITY = 0.814
"""Reliability factor for 99 % of shafts (Shigley 10th ed., table 6-5, as quoted in courses)."""
FEW, MANY = 1e3, 1e6
"""Cycles between which the strength falls on a straight line of logarithms (Shigley 10th ed., eq. 6-13)."""
AT_FEW = 0.77
"""Strength at a thousand cycles over tensile strength, the least of the curve, at 1380 MPa (Shigley 10th
ed., fig. 6-18, from memory)."""
CORRODED = 0.5
"""Left of the endurance where slip wets the steel (common practice)."""
LARGEST = 254.0
"""Diameter in mm to which the size factor reaches (Shigley 10th ed., eq. 6-20)."""


@in_units("", tensile_strength="MPa > 0")
def surface_factor(tensile_strength: Numbers, finish: str = "machined") -> Numbers:
    r"""Share of the endurance limit that a finish leaves.

    .. math:: k_a = a\,S_{ut}^b

    Parameters
    ----------
    tensile_strength : quantity, any shape
    finish : str
        A key of :data:`FINISHES`.

    Returns
    -------
    quantity, the same shape

    References
    ----------
    Shigley, 10th ed., eq. 6-19 and table 6-2.

    Examples
    --------
    >>> round(surface_factor("690 MPa"), 3)
    <Quantity(0.798, 'dimensionless')>
    """
    a, b = FINISHES[finish]
    return np.minimum(a * tensile_strength**b, 1.0)


@in_units("", diameter="mm > 0")
def size_factor(diameter: Numbers) -> Numbers:
    r"""Share of the endurance limit that a turning round section of some size keeps.

    .. math:: k_b = 1.24\,d^{-0.107} \;(d \le 51), \quad 1.51\,d^{-0.157} \;(d > 51)

    Parameters
    ----------
    diameter : quantity, any shape

    Returns
    -------
    quantity, the same shape

    References
    ----------
    Shigley, 10th ed., eq. 6-20.

    Examples
    --------
    >>> round(size_factor("32 mm"), 3)
    <Quantity(0.856, 'dimensionless')>
    """
    small, large = 1.24 * diameter**-0.107, 1.51 * diameter**-0.157
    return np.minimum(np.where(np.asarray(diameter) <= 51, small, large)[()], 1.0)


@in_units("MPa", tensile_strength="MPa > 0", diameter="mm > 0")
def endurance_limit(
    tensile_strength: Numbers, diameter: Numbers, finish: str = "machined"
) -> Numbers:
    r"""Endurance limit of a turning shaft of steel, surface, size and reliability counted in.

    .. math:: S_e = k_a k_b k_e \, \min(0.5\,S_{ut}, 700\,\mathrm{MPa})

    Parameters
    ----------
    tensile_strength : quantity, any shape
    diameter : quantity, broadcast
    finish : str
        A key of :data:`FINISHES`.

    Returns
    -------
    quantity [MPa], the broadcast shape

    References
    ----------
    Shigley, 10th ed., eq. 6-8 and 6-18; reliability 99 %.

    Examples
    --------
    >>> round(endurance_limit("630 MPa", "45 mm"), 1)
    <Quantity(172.9, 'megapascal')>
    """
    whole = np.minimum(0.5 * tensile_strength, 700.0)
    kept = surface_factor.formula(tensile_strength, finish) * size_factor.formula(diameter)
    return RELIABILITY * kept * whole


@in_units("MPa", endurance="MPa > 0", tensile_strength="MPa > 0")
def finite_strength(endurance: Numbers, tensile_strength: Numbers, cycles: Numbers) -> Numbers:
    r"""Alternating stress that a part of steel bears for a count of cycles.

    .. math:: S_f = S_e \left(\frac{f\,S_{ut}}{S_e}\right)^{2 - \lg N / 3}

    Parameters
    ----------
    endurance, tensile_strength : quantity, any shape
    cycles : float or array
        Fewer than :data:`FEW` count as so many, more than :data:`MANY` as for ever.

    Returns
    -------
    quantity [MPa], the broadcast shape

    References
    ----------
    Shigley, 10th ed., eq. 6-13 to 6-15, :math:`a N^b` put into one; f is :data:`AT_FEW`.

    Examples
    --------
    >>> round(finite_strength("200 MPa", "700 MPa", 1e6), 1), round(finite_strength("200 MPa", "700 MPa", 3e4), 1)
    (<Quantity(200.0, 'megapascal')>, <Quantity(330.8, 'megapascal')>)
    """
    counted = np.minimum(np.maximum(cycles, FEW), MANY)
    return endurance * (AT_FEW * tensile_strength / endurance) ** (2 - np.log10(counted) / 3)


def _felt(
    swing: Numbers,
    mean: Numbers,
    ripple: Numbers,
    endurance: Numbers,
    tensile: Numbers,
    bend: Numbers,
    turn: Numbers,
) -> Numbers:
    """What a section of unit modulus feels, over what it endures: the bracket of Shigley's eq. 7-7."""
    alternating: Numbers = np.sqrt(4 * (bend * swing) ** 2 + 3 * (turn * ripple) ** 2)
    steady: Numbers = np.sqrt(3) * np.abs(turn * mean) / tensile
    return alternating / endurance + steady


@in_units(
    "",
    alternating_moment="N*m",
    mean_torque="N*m",
    alternating_torque="N*m",
    diameter="mm > 0",
    endurance="MPa > 0",
    tensile_strength="MPa > 0",
)
def goodman_factor(
    alternating_moment: Numbers,
    mean_torque: Numbers,
    alternating_torque: Numbers,
    diameter: Numbers,
    endurance: Numbers,
    tensile_strength: Numbers,
    bending_notch: Numbers = 1.0,
    torsion_notch: Numbers = 1.0,
) -> Numbers:
    r"""Factor of safety of a turning shaft against fatigue.

    .. math:: \frac{1}{n} = \frac{16}{\pi d^3} \left(
        \frac{\sqrt{4 (K_f M_a)^2 + 3 (K_{fs} T_a)^2}}{S_e}
        + \frac{\sqrt{3}\, K_{fs} T_m}{S_{ut}} \right)

    Parameters
    ----------
    alternating_moment : quantity, any shape
        A force that stands still bends a turning shaft to and fro.
    mean_torque, alternating_torque : quantity, broadcast
    diameter, endurance, tensile_strength : quantity, broadcast
    bending_notch, torsion_notch : float or array

    Returns
    -------
    quantity, the broadcast shape

    References
    ----------
    DE-Goodman: Shigley, 10th ed., eq. 7-7.

    Examples
    --------
    >>> round(goodman_factor("142 N*m", "124 N*m", "0 N*m", "27.94 mm", "202 MPa", "724 MPa", 1.58, 1.39), 2)
    <Quantity(1.63, 'dimensionless')>
    """
    felt = _felt(
        alternating_moment,
        mean_torque,
        alternating_torque,
        endurance,
        tensile_strength,
        bending_notch,
        torsion_notch,
    )
    with np.errstate(divide="ignore"):
        return pi * diameter**3 / (16e3 * felt)


@in_units(
    "mm",
    alternating_moment="N*m",
    mean_torque="N*m",
    alternating_torque="N*m",
    endurance="MPa > 0",
    tensile_strength="MPa > 0",
)
def diameter_for_fatigue(
    alternating_moment: Numbers,
    mean_torque: Numbers,
    alternating_torque: Numbers,
    endurance: Numbers,
    tensile_strength: Numbers,
    safety: Numbers = 1.0,
    bending_notch: Numbers = 1.0,
    torsion_notch: Numbers = 1.0,
) -> Numbers:
    r"""Diameter of a turning shaft that has a wanted factor against fatigue.

    Parameters
    ----------
    alternating_moment, mean_torque, alternating_torque, endurance, tensile_strength
        As in :func:`goodman_factor`; the endurance of the diameter that is found.
    safety : float or array
    bending_notch, torsion_notch : float or array

    Returns
    -------
    quantity [mm], the broadcast shape

    References
    ----------
    DE-Goodman: Shigley, 10th ed., eq. 7-8.

    Examples
    --------
    >>> round(diameter_for_fatigue("142 N*m", "124 N*m", "0 N*m", "202 MPa", "724 MPa", 1.63, 1.58, 1.39), 1)
    <Quantity(28.0, 'millimeter')>
    """
    felt = _felt(
        alternating_moment,
        mean_torque,
        alternating_torque,
        endurance,
        tensile_strength,
        bending_notch,
        torsion_notch,
    )
    return np.cbrt(16e3 * safety * felt / pi)
