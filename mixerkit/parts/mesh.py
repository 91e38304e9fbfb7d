"""Two spur gears on their centre distance: working angle, shifts, contact ratio, backlash.

Angles are in degrees and lengths in mm inside. A tooth is thinned for backlash by ``thinning``, the
amount taken off its circular thickness.
"""

from __future__ import annotations

from math import pi

import numpy as np

from mixerkit.parts import involute, spurgear
from mixerkit.results import Counts, Numbers
from mixerkit.units import in_units

__all__ = [
    "backlash",
    "centre_distance",
    "contact_ratio",
    "idler_place",
    "mesh_centre_distance",
    "shift_sum",
    "working_pressure_angle",
]


@in_units("mm", module="mm > 0")
def centre_distance(module: Numbers, tooth_count_1: Counts, tooth_count_2: Counts) -> Numbers:
    r"""Reference centre distance, ``a = m (z1 + z2) / 2``.

    Parameters
    ----------
    module : quantity, any shape
    tooth_count_1, tooth_count_2 : int, broadcast

    Returns
    -------
    quantity [mm], the broadcast shape

    References
    ----------
    ISO 21771:2007 (from memory).

    Examples
    --------
    >>> centre_distance("5 mm", 22, 20)
    <Quantity(105.0, 'millimeter')>
    """
    return module * (np.asarray(tooth_count_1) + tooth_count_2)[()] / 2


@in_units("deg", module="mm > 0", distance="mm > 0")
def working_pressure_angle(
    module: Numbers,
    tooth_count_1: Counts,
    tooth_count_2: Counts,
    distance: Numbers,
    pressure_angle: Numbers = 20.0,
) -> Numbers:
    r"""Pressure angle at which two gears work on a centre distance.

    .. math:: \cos\alpha_w = \frac{a}{a_w} \cos\alpha

    Parameters
    ----------
    module : quantity, any shape
    tooth_count_1, tooth_count_2 : int, broadcast
    distance : quantity, broadcast
        Between the two shafts.
    pressure_angle : float
        Of the rack, in degrees.

    Returns
    -------
    quantity [deg], the broadcast shape; not a number where the gears cannot come so near

    References
    ----------
    ISO 21771:2007 (from memory).

    Examples
    --------
    >>> round(working_pressure_angle("3 mm", 12, 24, "56.5 mm"), 3)
    <Quantity(26.089, 'degree')>
    """
    reference = centre_distance.formula(module, tooth_count_1, tooth_count_2)
    # shafts upon each other: no angle, and nothing to warn of
    with np.errstate(over="ignore", divide="ignore"):
        cosine = np.asarray(reference / distance * np.cos(np.radians(pressure_angle)))
    reached = np.abs(cosine) <= 1
    angle = np.arccos(np.where(reached, cosine, 1.0))
    return np.degrees(np.where(reached, angle, np.nan))[()]


@in_units("", module="mm > 0", distance="mm > 0")
def shift_sum(
    module: Numbers,
    tooth_count_1: Counts,
    tooth_count_2: Counts,
    distance: Numbers,
    pressure_angle: Numbers = 20.0,
) -> Numbers:
    r"""Sum of the profile shifts that mesh without backlash on a centre distance.

    .. math:: x_1 + x_2 = \frac{(z_1 + z_2)(\mathrm{inv}\,\alpha_w - \mathrm{inv}\,\alpha)}{2 \tan\alpha}

    Parameters
    ----------
    module : quantity, any shape
    tooth_count_1, tooth_count_2 : int, broadcast
    distance : quantity, broadcast
    pressure_angle : float
        Of the rack, in degrees.

    Returns
    -------
    quantity, plain number in modules, the broadcast shape

    References
    ----------
    ISO 21771:2007 (from memory).

    Examples
    --------
    >>> round(float(shift_sum("3 mm", 12, 24, "56.5 mm")), 4)
    0.9601
    """
    working = working_pressure_angle.formula(
        module, tooth_count_1, tooth_count_2, distance, pressure_angle
    )
    opened = involute.involute(working) - involute.involute(pressure_angle)
    tangent: Numbers = np.tan(np.radians(pressure_angle))
    return (np.asarray(tooth_count_1) + tooth_count_2) * opened / (2 * tangent)


@in_units("mm", module="mm > 0")
def mesh_centre_distance(
    module: Numbers,
    tooth_count_1: Counts,
    tooth_count_2: Counts,
    shifts: Numbers,
    pressure_angle: Numbers = 20.0,
) -> Numbers:
    r"""Centre distance on which two shifted gears mesh without backlash.

    .. math:: a_w = a\, \frac{\cos\alpha}{\cos\alpha_w}, \quad \mathrm{inv}\,\alpha_w = \mathrm{inv}\,\alpha + \frac{2 (x_1 + x_2) \tan\alpha}{z_1 + z_2}

    Parameters
    ----------
    module : quantity, any shape
    tooth_count_1, tooth_count_2 : int, broadcast
    shifts : float, broadcast
        Sum of both profile shifts, in modules.
    pressure_angle : float
        Of the rack, in degrees.

    Returns
    -------
    quantity [mm], the broadcast shape

    References
    ----------
    ISO 21771:2007 (from memory).

    Examples
    --------
    >>> round(mesh_centre_distance("3 mm", 12, 24, 0.96), 4)
    <Quantity(56.4999, 'millimeter')>
    """
    total = np.asarray(tooth_count_1) + tooth_count_2
    opened = 2 * np.asarray(shifts) * np.tan(np.radians(pressure_angle)) / total
    working = involute.inverse_involute(involute.involute(pressure_angle) + opened)
    reference = centre_distance.formula(module, tooth_count_1, tooth_count_2)
    return reference * np.cos(np.radians(pressure_angle)) / np.cos(np.radians(working))


@in_units("", module="mm > 0", tip_diameter_1="mm > 0", tip_diameter_2="mm > 0", distance="mm > 0")
def contact_ratio(
    module: Numbers,
    tooth_count_1: Counts,
    tooth_count_2: Counts,
    tip_diameter_1: Numbers,
    tip_diameter_2: Numbers,
    distance: Numbers,
    pressure_angle: Numbers = 20.0,
) -> Numbers:
    r"""Teeth in contact on average.

    .. math:: \varepsilon_\alpha = \frac{\sqrt{r_{a1}^2 - r_{b1}^2} + \sqrt{r_{a2}^2 - r_{b2}^2} - a_w \sin\alpha_w}{\pi m \cos\alpha}

    Parameters
    ----------
    module : quantity, any shape
    tooth_count_1, tooth_count_2 : int, broadcast
    tip_diameter_1, tip_diameter_2, distance : quantity, broadcast
    pressure_angle : float
        Of the rack, in degrees.

    Returns
    -------
    quantity, plain number, the broadcast shape

    References
    ----------
    ISO 21771:2007 (from memory).

    Examples
    --------
    >>> round(float(contact_ratio("3 mm", 12, 24, "44.84 mm", "79.4 mm", "56.5 mm")), 3)
    1.202
    """
    working = working_pressure_angle.formula(
        module, tooth_count_1, tooth_count_2, distance, pressure_angle
    )
    reach: Numbers = 0.0
    for count, tip in ((tooth_count_1, tip_diameter_1), (tooth_count_2, tip_diameter_2)):
        base = spurgear.base_diameter.formula(module, count, pressure_angle)
        reach = reach + np.sqrt(np.clip(np.asarray(tip) ** 2 - base**2, 0.0, None)) / 2
    length = reach - distance * np.sin(np.radians(working))
    return length / (pi * module * np.cos(np.radians(pressure_angle)))


@in_units("mm", module="mm > 0", distance="mm > 0", thinning="mm >= 0")
def backlash(
    module: Numbers,
    tooth_count_1: Counts,
    tooth_count_2: Counts,
    shifts: Numbers,
    distance: Numbers,
    thinning: Numbers = 0.0,
    pressure_angle: Numbers = 20.0,
) -> Numbers:
    r"""Play between two gears, along the working pitch circles; negative where they jam.

    .. math:: j = 2 a_w \left(\mathrm{inv}\,\alpha_w - \mathrm{inv}\,\alpha - \frac{2 (x_1 + x_2) \tan\alpha}{z_1 + z_2}\right) + \Delta s\, \frac{\cos\alpha}{\cos\alpha_w}

    Parameters
    ----------
    module : quantity, any shape
    tooth_count_1, tooth_count_2 : int, broadcast
    shifts : float, broadcast
        Sum of both profile shifts.
    distance : quantity, broadcast
    thinning : quantity, broadcast
        Taken off the circular thickness of both teeth together.
    pressure_angle : float
        Of the rack, in degrees.

    Returns
    -------
    quantity [mm], the broadcast shape

    References
    ----------
    Working pitch less both tooth thicknesses on the working pitch circles, ISO 21771:2007 (from memory).

    Examples
    --------
    >>> round(backlash("5 mm", 30, 30, 0.0, "150.1 mm"), 3)
    <Quantity(0.073, 'millimeter')>
    """
    working = working_pressure_angle.formula(
        module, tooth_count_1, tooth_count_2, distance, pressure_angle
    )
    total = np.asarray(tooth_count_1) + tooth_count_2
    tangent = np.tan(np.radians(pressure_angle))
    opened = (
        involute.involute(working)
        - involute.involute(pressure_angle)
        - 2 * np.asarray(shifts) * tangent / total
    )
    stretch = np.cos(np.radians(pressure_angle)) / np.cos(np.radians(working))
    return 2 * distance * opened + thinning * stretch


@in_units(("mm", "mm"), centre_distance="mm > 0", to_shaft_1="mm > 0", to_shaft_2="mm > 0")
def idler_place(
    centre_distance: Numbers, to_shaft_1: Numbers, to_shaft_2: Numbers
) -> tuple[Numbers, Numbers]:
    """Place of an idler that meshes with a wheel on each shaft: where two circles meet.

    Parameters
    ----------
    centre_distance : quantity, any shape
        Between shaft 1 and shaft 2.
    to_shaft_1, to_shaft_2 : quantity, broadcast
        Centre distances of the idler's two meshes.

    Returns
    -------
    tuple of quantity [mm]
        Distance along the line from shaft 1 to shaft 2, and distance from that line; the other
        place lies as far on the line's other side. Not a number where the circles do not meet.

    References
    ----------
    Plane geometry.

    Examples
    --------
    >>> along, aside = idler_place("150 mm", "105 mm", "105 mm")
    >>> round(along, 3), round(aside, 3)
    (<Quantity(75.0, 'millimeter')>, <Quantity(73.485, 'millimeter')>)
    """
    along = (to_shaft_1**2 - to_shaft_2**2 + centre_distance**2) / (2 * centre_distance)
    square = np.asarray(to_shaft_1**2 - along**2, float)
    return along, np.sqrt(np.where(square >= 0, square, np.nan))[()]
