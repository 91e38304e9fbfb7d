"""The involute function and its inverse."""

from __future__ import annotations

import numpy as np

from mixerkit.results import Numbers

__all__ = ["inverse_involute", "involute"]


def involute(angle: Numbers) -> Numbers:
    """Involute function of an angle in degrees: tan a - a.

    Parameters
    ----------
    angle : float or array
        In degrees.

    Returns
    -------
    float or array

    References
    ----------
    ISO 21771:2007; tables of the function in any gear handbook.

    Examples
    --------
    >>> round(float(involute(20.0)), 6)
    0.014904
    """
    turned = np.radians(angle)
    return np.tan(turned) - turned


def inverse_involute(value: Numbers) -> Numbers:
    """Angle in degrees whose involute function is a value.

    Parameters
    ----------
    value : float or array

    Returns
    -------
    float or array
        Not a number for a negative value, which no angle has.

    References
    ----------
    Newton's method on tan a - a, started from the cube root; five steps leave less than 1e-12.

    Examples
    --------
    >>> round(float(inverse_involute(0.014904383867)), 6)
    20.0
    """
    value = np.asarray(value, float)
    angle = np.cbrt(3 * np.maximum(value, 1e-30)) / (1 + 0.4 * np.cbrt(np.maximum(value, 0.0)) ** 2)
    for _ in range(6):
        tangent = np.tan(angle)
        angle -= (tangent - angle - value) / np.maximum(tangent**2, 1e-30)
    return np.degrees(np.where(value >= 0, angle, np.nan))[()]
