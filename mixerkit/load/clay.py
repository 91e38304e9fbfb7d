"""Strength and density of plastic clay, from its water or from a test at the bench."""

from __future__ import annotations

from collections.abc import Callable

import numpy as np

from mixerkit.load.clay_tests import strength_from_cone, strength_from_rod, strength_from_vane
from mixerkit.results import ClayStrength, Numbers
from mixerkit.spec import Clay
from mixerkit.tables import table
from mixerkit.units import in_units

__all__ = [
    "clay_strength",
    "liquidity_index",
    "rate_factor",
    "specific_heat",
    "strength_from_liquidity",
    "strength_from_water",
    "strength_range",
    "strong_bound",
    "water_for_strength",
    "wet_density",
]

GRAIN_DENSITY = 2650.0
"""Of clay minerals and quartz in kg/m^3 (common practice)."""
WATER_DENSITY = 1000.0
"""In kg/m^3 (common practice)."""
LIQUID_STRENGTH = 1.7
"""Strength at the liquid limit in kPa (Wroth & Wood 1978; kept by Vardanega & Haigh 2014)."""
LIKELY_RATIO = 35.0
"""Strength at the plastic limit over that at the liquid limit, best fit (Vardanega & Haigh 2014)."""
FITTED = (0.2, 1.1)
"""Liquidity index over which that fit was made (Vardanega & Haigh 2014)."""
PER_DECADE = (0.10, 0.16)
"""Gain of strength for a tenfold rate of shear, least and most (Kulhawy & Mayne 1990 has 0.10, from memory; a study
of kaolin names 0.10 to 0.16)."""


@in_units("", water_content=" >= 0", liquid_limit=" > 0", plastic_limit=" > 0")
def liquidity_index(
    water_content: Numbers, liquid_limit: Numbers, plastic_limit: Numbers
) -> Numbers:
    r"""Where a clay's water lies between its plastic limit (0) and its liquid limit (1).

    .. math:: I_L = \frac{w - w_P}{w_L - w_P}

    Parameters
    ----------
    water_content, liquid_limit, plastic_limit : float or text with %, any shape
        Mass of water over mass of dry clay, e.g. ``"26 %"``.

    Returns
    -------
    quantity, plain number, the broadcast shape

    Raises
    ------
    InputError
        If a limit is not positive.

    References
    ----------
    ISO 14688-2; any text on soil mechanics.

    Examples
    --------
    >>> round(float(liquidity_index("29 %", "45 %", "18 %")), 3)
    0.407
    """
    return (water_content - plastic_limit) / (liquid_limit - plastic_limit)


@in_units("kPa", liquidity="")
def strength_from_liquidity(liquidity: Numbers, ratio: Numbers = LIKELY_RATIO) -> Numbers:
    r"""Undrained shear strength by liquidity index.

    .. math:: s_u = 1.7\,\mathrm{kPa} \cdot R^{\,1 - I_L}

    Parameters
    ----------
    liquidity : float, any shape
        See :func:`liquidity_index`; fitted between 0.2 and 1.1, beyond that a mere extension.
    ratio : float
        Strength at the plastic over that at the liquid limit; 35 is the best fit.

    Returns
    -------
    quantity [kPa], the broadcast shape

    Raises
    ------
    InputError
        If the index is not a plain number.

    References
    ----------
    Vardanega & Haigh, The undrained strength - liquidity index relationship, Canadian
    Geotechnical Journal 51 (2014).

    Examples
    --------
    >>> round(strength_from_liquidity(1.0), 3), round(strength_from_liquidity(0.0), 1)
    (<Quantity(1.7, 'kilopascal')>, <Quantity(59.5, 'kilopascal')>)
    """
    return LIQUID_STRENGTH * ratio ** (1 - np.asarray(liquidity, float))[()]


@in_units("kPa", liquidity="")
def strong_bound(liquidity: Numbers) -> Numbers:
    r"""Strength by the older, stronger relation: a hundredfold from liquid to plastic limit.

    .. math:: s_u = 170\,\mathrm{kPa} \cdot e^{-4.6\, I_L}

    Parameters
    ----------
    liquidity : float, any shape

    Returns
    -------
    quantity [kPa], the shape of liquidity

    Raises
    ------
    InputError
        If the index is not a plain number.

    References
    ----------
    Wroth & Wood, The correlation of index properties with some basic engineering properties of
    soils, Canadian Geotechnical Journal 15 (1978).

    Examples
    --------
    >>> round(strong_bound(1.0), 2)
    <Quantity(1.71, 'kilopascal')>
    """
    return 170.0 * np.exp(-4.6 * np.asarray(liquidity, float))[()]


def strength_from_water(
    water_content: Numbers, liquid_limit: Numbers, plastic_limit: Numbers
) -> Numbers:
    """Strength in plain kPa from water content and limits, all plain shares; see the two above."""
    index = liquidity_index.formula(water_content, liquid_limit, plastic_limit)
    return strength_from_liquidity.formula(index)


def water_for_strength(strength: Numbers, liquid_limit: Numbers, plastic_limit: Numbers) -> Numbers:
    """Water content, a plain share, at which clay has a strength in kPa: the relation turned round.

    Examples
    --------
    >>> round(float(water_for_strength(1.7, 0.45, 0.22)), 3)
    0.45
    """
    index = 1 - np.log(np.asarray(strength, float) / LIQUID_STRENGTH) / np.log(LIKELY_RATIO)
    water: Numbers = plastic_limit + index * (liquid_limit - plastic_limit)
    return water


def rate_factor(rate: Numbers, tested_at: Numbers) -> Numbers:
    r"""Strength at a rate of shear over strength at the rate of a test.

    .. math:: 1 + c\, \log_{10}\frac{\dot\gamma}{\dot\gamma_0}, \quad c = 0.16 \text{ faster}, 0.10 \text{ slower}

    Parameters
    ----------
    rate, tested_at : float, any shape
        Rates in the same unit; never taken below a factor of 0.5.

    Returns
    -------
    float or array

    References
    ----------
    Kulhawy & Mayne, Manual on estimating soil properties for foundation design, EPRI EL-6800
    (1990): about 10 % for each factor of ten (from memory); up to 16 % in a study of kaolin. Of both that is
    taken which leaves the clay the stronger.

    Examples
    --------
    >>> round(float(rate_factor(10.0, 1.0)), 3)
    1.16
    """
    decades = np.log10(np.asarray(rate, float) / tested_at)
    gained = np.where(decades > 0, PER_DECADE[1], PER_DECADE[0]) * decades
    found: Numbers = np.maximum(1 + gained, 0.5)[()]
    return found


@in_units("kg/m**3", water_content=" >= 0", grain_density="kg/m**3 > 0")
def wet_density(water_content: Numbers, grain_density: Numbers = GRAIN_DENSITY) -> Numbers:
    r"""Density of clay with no air in it.

    .. math:: \rho = \rho_s \frac{1 + w}{1 + w\, \rho_s / \rho_w}

    Parameters
    ----------
    water_content : float or text with %, any shape
    grain_density : quantity, broadcast
        About 2650 kg/m^3 for clay minerals and quartz (common practice).

    Returns
    -------
    quantity [kg/m^3], the broadcast shape

    References
    ----------
    Phase relations at full saturation; any text on soil mechanics.

    Examples
    --------
    >>> round(wet_density("26 %", "2650 kg/m^3"))
    <Quantity(1977, 'kilogram / meter ** 3')>
    """
    return grain_density * (1 + water_content) / (1 + water_content * grain_density / WATER_DENSITY)


def specific_heat(water_content: Numbers) -> Numbers:
    """Specific heat of wet clay in kJ/(kg K): dry clay 0.9 and water 4.19 by mass.

    Parameters
    ----------
    water_content : float, any shape
        Plain share.

    Returns
    -------
    float or array

    References
    ----------
    Mixing by mass; 0.9 kJ/(kg K) for dry clay: common practice.

    Examples
    --------
    >>> round(specific_heat(0.26), 2)
    1.58
    """
    return (0.9 + 4.19 * water_content) / (1 + water_content)


def clay_strength(clay: Clay) -> ClayStrength:
    """Strength of a design's clay by the way the design says it was found.

    Parameters
    ----------
    clay : Record

    Returns
    -------
    ClayStrength
        ``strength`` in kPa; ``rate`` of shear of the test in 1/s; ``words`` on how it was found;
        ``valid``, whether inside the range of the relation used.
    """
    found_by: dict[str, Callable[[], Numbers]] = {
        "water content": lambda: strength_from_water(
            clay.water_content, clay.liquid_limit, clay.plastic_limit
        ),
        "cone": lambda: strength_from_cone.formula(
            clay.cone_mass, clay.cone_penetration, int(clay.cone_angle.split()[0])
        ),
        "rod": lambda: strength_from_rod.formula(clay.rod_load, clay.rod_diameter),
        "vane": lambda: strength_from_vane.formula(
            clay.vane_torque, clay.vane_diameter, clay.vane_height
        ),
        "named body": lambda: table("clay_bodies").find(clay.body).values["strength"],
    }
    test = table("clay_tests").find(clay.strength_from).values
    words, valid = f"by {clay.strength_from}", True
    if clay.strength_from == "water content":
        index = float(
            liquidity_index.formula(clay.water_content, clay.liquid_limit, clay.plastic_limit)
        )
        valid = FITTED[0] < index < FITTED[1]
        words = f"by water content, liquidity index {index:.2f}"
        if not valid:
            words += f" (outside {FITTED[0]:g} to {FITTED[1]:g}, where the relation was fitted: measure it)"
    strength = float(found_by[clay.strength_from]())
    return ClayStrength(strength=strength, rate=test["rate"], words=words, valid=valid)


def strength_range(clay: Clay) -> tuple[float, float]:
    """Least and greatest clay strength over the reckoned one, by the way it was found.

    Parameters
    ----------
    clay : Record

    Returns
    -------
    tuple of float
        From data/tables/clay_tests.csv, or the range of the named body.

    Examples
    --------
    >>> from mixerkit import Design
    >>> strength_range(Design.demo().clay)
    (0.8, 1.25)
    """
    if clay.strength_from == "named body":
        body = table("clay_bodies").find(clay.body).values
        return body["low"] / body["strength"], body["high"] / body["strength"]
    test = table("clay_tests").find(clay.strength_from).values
    return test["low_factor"], test["high_factor"]
