"""What a paddle meets in clay: torque, force along the shaft, force across it, over a whole turn.

A blade is a flat bar. Its ``set_angle`` is the angle between its face and the plane in which it
turns: 90 degrees pushes square-on and moves nothing along the shaft, less cuts through and pushes
clay along.
"""

from __future__ import annotations

from math import pi

import numpy as np

from mixerkit.results import Numbers
from mixerkit.units import in_units

__all__ = [
    "SMOOTH_TO_ROUGH",
    "axial_push",
    "buried_share",
    "paddle_force",
    "paddle_torque",
    "scraping_torque",
    "sleeve_drag",
    "stem_torque",
]

SMOOTH_TO_ROUGH = (9.14, 11.94)
"""Bearing factor of a bar moved sideways through clay, smooth and rough (Randolph & Houlsby 1984, 6 + pi and
4 sqrt(2) + 2 pi; a later exact solution has 9.20 to 11.94)."""


@in_units("N*m", strength="kPa >= 0", width="mm > 0", root_radius="mm >= 0", tip_radius="mm > 0")
def paddle_torque(
    strength: Numbers,
    width: Numbers,
    root_radius: Numbers,
    tip_radius: Numbers,
    bearing_factor: Numbers = 10.5,
) -> Numbers:
    r"""Torque of one wholly buried blade.

    .. math:: T = \int_{r_1}^{r_2} N s_u b'\, r\, dr = N s_u b'\, \frac{r_2^2 - r_1^2}{2}

    Parameters
    ----------
    strength : quantity, any shape
    width : quantity, broadcast
        As the clay meets it, see :func:`mixerkit.parts.blades.projected_width`.
    root_radius, tip_radius : quantity, broadcast
    bearing_factor : float
        9.14 for a smooth bar to 11.94 for a rough one; 10.5 is customary.

    Returns
    -------
    quantity [N*m], the broadcast shape

    References
    ----------
    Randolph & Houlsby, The limiting pressure on a circular pile loaded laterally in cohesive
    soil, Geotechnique 34 (1984), for the factor.

    Examples
    --------
    >>> round(paddle_torque("32 kPa", "32.5 mm", "25 mm", "90 mm"), 1)
    <Quantity(40.8, 'newton * meter')>
    """
    return bearing_factor * strength * 1e3 * width * (tip_radius**2 - root_radius**2) / 2 * 1e-9


@in_units("N", strength="kPa >= 0", width="mm > 0", root_radius="mm >= 0", tip_radius="mm > 0")
def paddle_force(
    strength: Numbers,
    width: Numbers,
    root_radius: Numbers,
    tip_radius: Numbers,
    bearing_factor: Numbers = 10.5,
) -> Numbers:
    r"""Force of the clay across one wholly buried blade, which bends its shaft.

    .. math:: F = N s_u b' (r_2 - r_1)

    Parameters
    ----------
    strength, width, root_radius, tip_radius, bearing_factor
        As in :func:`paddle_torque`.

    Returns
    -------
    quantity [N], the broadcast shape

    References
    ----------
    As :func:`paddle_torque`.

    Examples
    --------
    >>> round(paddle_force("32 kPa", "32.5 mm", "25 mm", "90 mm"))
    <Quantity(710, 'newton')>
    """
    return bearing_factor * strength * 1e3 * width * (tip_radius - root_radius) * 1e-6


@in_units("N", strength="kPa >= 0", width="mm > 0", set_angle="deg >= 0 <= 90", length="mm > 0")
def axial_push(
    strength: Numbers,
    width: Numbers,
    set_angle: Numbers,
    length: Numbers,
    bearing_factor: Numbers = 10.5,
) -> Numbers:
    r"""Push of one wholly buried blade along its shaft.

    .. math:: F_a = N s_u\, b \cos\beta\, l

    Parameters
    ----------
    strength : quantity, any shape
    width : quantity
        Of the bar itself.
    set_angle : quantity
    length : quantity
        Of the blade, tip radius less root radius.
    bearing_factor : float

    Returns
    -------
    quantity [N], the broadcast shape

    References
    ----------
    The part along the shaft of the pressure on the face; the drag along the face is left out.

    Examples
    --------
    >>> round(axial_push("32 kPa", "40 mm", "60 deg", "65 mm"))
    <Quantity(437, 'newton')>
    """
    return bearing_factor * strength * 1e3 * width * np.cos(np.radians(set_angle)) * length * 1e-6


@in_units("N*m", strength="kPa >= 0", wider="mm >= 0", root_radius="mm >= 0", height="mm >= 0")
def stem_torque(
    strength: Numbers,
    wider: Numbers,
    root_radius: Numbers,
    height: Numbers,
    bearing_factor: Numbers = 10.5,
) -> Numbers:
    r"""Torque that a wholly buried stem adds to its blade's, tapering evenly to the blade's width.

    .. math:: T = \int_{0}^{h} N s_u\,\Delta b' \left(1 - \frac{x}{h}\right)(r_1 + x)\, dx
              = N s_u\,\Delta b' \left(\frac{r_1 h}{2} + \frac{h^2}{6}\right)

    Parameters
    ----------
    strength : quantity, any shape
    wider : quantity, broadcast
        How much wider than the blade the stem is at the sleeve, as the clay meets both.
    root_radius, height : quantity, broadcast
    bearing_factor : float
        As in :func:`paddle_torque`.

    Returns
    -------
    quantity [N*m], the broadcast shape

    References
    ----------
    As :func:`paddle_torque`, integrated over the taper.

    Examples
    --------
    >>> round(stem_torque("30 kPa", "20 mm", "35 mm", "30 mm"), 2)
    <Quantity(4.25, 'newton * meter')>
    """
    return (
        bearing_factor * strength * 1e3 * wider * (root_radius * height / 2 + height**2 / 6) * 1e-9
    )


@in_units("N*m", strength="kPa >= 0", width="mm > 0", thickness="mm > 0", tip_radius="mm > 0")
def scraping_torque(
    strength: Numbers, width: Numbers, thickness: Numbers, tip_radius: Numbers
) -> Numbers:
    r"""Torque of one blade's tip shearing the clay between it and the wall.

    .. math:: T = s_u\, b\, t\, r_2

    Parameters
    ----------
    strength : quantity, any shape
    width, thickness, tip_radius : quantity, broadcast

    Returns
    -------
    quantity [N*m], the broadcast shape

    References
    ----------
    Strength times the area of the tip, at the tip's radius (common practice).

    Examples
    --------
    >>> round(scraping_torque("32 kPa", "40 mm", "6 mm", "90 mm"), 2)
    <Quantity(0.69, 'newton * meter')>
    """
    return strength * 1e3 * width * thickness * tip_radius * 1e-9


@in_units("N*m", strength="kPa >= 0", radius="mm > 0", length="mm > 0", level="mm", adhesion="")
def sleeve_drag(
    strength: Numbers, radius: Numbers, length: Numbers, level: Numbers, adhesion: Numbers = 0.5
) -> Numbers:
    r"""Torque of a sleeve, or a bare shaft, that turns in the clay and shears it along its skin.

    .. math:: T = \alpha\, s_u\, 2 \pi r^2 l \cdot \frac{\pi - \arccos(h / r)}{\pi}

    Parameters
    ----------
    strength : quantity, any shape
    radius, length : quantity, broadcast
        Of the sleeve, and of its part between the trough's walls.
    level : quantity, broadcast
        Height of the clay's surface over the sleeve's middle.
    adhesion : float, broadcast
        Share of the clay's strength that its skin holds.

    Returns
    -------
    quantity [N*m], the broadcast shape

    References
    ----------
    Strength on the skin, at its radius: geometry. Adhesion: the alpha method of API RP 2GEO, at most 0.5
    where the clay is stronger than the pressure on it, as under a hand's breadth of clay, as quoted for
    a program of pile design.

    Examples
    --------
    >>> round(sleeve_drag("30 kPa", "40 mm", "300 mm", "0 mm"), 2)
    <Quantity(22.62, 'newton * meter')>
    """
    wet = 1 - np.arccos(np.clip(level / np.asarray(radius, float), -1.0, 1.0)) / pi
    skin = 2 * pi * radius**2 * length * wet
    return (adhesion * strength * 1e3 * skin * 1e-9)[()]


def buried_share(angle: Numbers, level: Numbers, root_radius: float, tip_radius: float) -> Numbers:
    """Share of a blade's torque that is below the clay's surface.

    Parameters
    ----------
    angle : float or array
        Of the blade in radians from the horizontal, up being positive.
    level : float or array, broadcast against angle
        Height of the surface over the shaft's middle, in the unit of the radii.
    root_radius, tip_radius : float

    Returns
    -------
    float or array
        From 0 to 1.

    Examples
    --------
    >>> float(buried_share(-1.57, 0.0, 25, 90)), float(buried_share(1.57, 0.0, 25, 90))
    (1.0, 0.0)
    """
    rise, level = np.broadcast_arrays(np.sin(angle), np.asarray(level, float))
    with np.errstate(divide="ignore", invalid="ignore", over="ignore"):
        meets = np.clip(np.where(rise == 0, np.inf, level / rise), 0.0, 10 * tip_radius)
    whole = tip_radius**2 - root_radius**2
    inner = np.clip(np.minimum(meets, tip_radius) ** 2 - root_radius**2, 0.0, None) / whole
    outer = np.clip(tip_radius**2 - np.maximum(meets, root_radius) ** 2, 0.0, None) / whole
    # pointing up, what lies inside the surface is buried; pointing down, with the surface below
    # the shaft, what lies beyond it; with the surface above the shaft all of it
    down = np.where(level >= 0, 1.0, outer)
    return np.where(rise > 0, np.where(level > 0, inner, 0.0), down)[()]
