"""Spur gear geometry on the standard rack of ISO 53, profile A."""

from __future__ import annotations

from typing import Any

import numpy as np

from mixerkit.units import in_units

__all__ = [
    "ADDENDUM",
    "DEDENDUM",
    "centre_distance",
    "pitch_diameter",
    "tip_diameter",
    "tooth_force",
]

ADDENDUM = 1.0
"""Tooth height above the pitch line, in modules (ISO 53:1998 table 1, profile A; from memory)."""
DEDENDUM = 1.25
"""Tooth depth below the pitch line, in modules (ISO 53:1998 table 1, profile A; from memory)."""


@in_units("mm", module="mm > 0")
def pitch_diameter(module: Any, tooth_count: Any) -> Any:
    """Reference diameter ``d = m z``.

    Parameters
    ----------
    module : quantity, any shape
    tooth_count : int, broadcast against module

    Returns
    -------
    quantity [mm], the broadcast shape

    Raises
    ------
    InputError
        If the module is not positive or a unit does not fit.

    References
    ----------
    ISO 21771:2007, eq. 3 (from memory).

    Examples
    --------
    >>> pitch_diameter("5 mm", 30)
    <Quantity(150.0, 'millimeter')>
    """
    return module * tooth_count


@in_units("mm", module="mm > 0")
def tip_diameter(module: Any, tooth_count: Any) -> Any:
    """Outside diameter of an unshifted gear, ``d_a = m (z + 2)``.

    Parameters
    ----------
    module : quantity, any shape
    tooth_count : int, broadcast against module

    Returns
    -------
    quantity [mm], the broadcast shape

    Raises
    ------
    InputError
        If the module is not positive or a unit does not fit.

    References
    ----------
    ISO 21771:2007 with the rack of ISO 53, profile A (from memory).

    Examples
    --------
    >>> tip_diameter("5 mm", 30)
    <Quantity(160.0, 'millimeter')>
    """
    return module * (np.asarray(tooth_count) + 2 * ADDENDUM)[()]


@in_units("mm", module="mm > 0")
def centre_distance(module: Any, tooth_count_1: Any, tooth_count_2: Any) -> Any:
    """Centre distance of two unshifted gears, ``a = m (z1 + z2) / 2``.

    Parameters
    ----------
    module : quantity, any shape
    tooth_count_1, tooth_count_2 : int, broadcast against module

    Returns
    -------
    quantity [mm], the broadcast shape

    Raises
    ------
    InputError
        If the module is not positive or a unit does not fit.

    References
    ----------
    ISO 21771:2007 (from memory).

    Examples
    --------
    >>> centre_distance("5 mm", 22, 20)
    <Quantity(105.0, 'millimeter')>
    """
    return module * (np.asarray(tooth_count_1) + tooth_count_2)[()] / 2


@in_units("N", torque="N*m", diameter="mm > 0")
def tooth_force(torque: Any, diameter: Any, pressure_angle: float = 20.0) -> Any:
    r"""Force between two teeth along the line of action.

    .. math:: F = \frac{2\,T}{d \cos\alpha}

    Parameters
    ----------
    torque : quantity, any shape
        Torque of the gear.
    diameter : quantity, broadcast
        Its reference diameter.
    pressure_angle : float
        In degrees.

    Returns
    -------
    quantity [N], the broadcast shape

    Raises
    ------
    InputError
        If the diameter is not positive or a unit does not fit.

    References
    ----------
    Budynas & Nisbett, Shigley's Mechanical Engineering Design, 10th ed., sec. 13-14.

    Examples
    --------
    >>> round(tooth_force("150 N*m", "150 mm"), 1)
    <Quantity(2128.4, 'newton')>
    """
    return 2e3 * torque / (diameter * np.cos(np.radians(pressure_angle)))
