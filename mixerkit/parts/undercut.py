"""Where a cutter cuts away the foot of a tooth, and the shift that keeps it."""

from __future__ import annotations

from math import cos, pi, radians, sin, tan

import numpy as np

from mixerkit.parts.spurgear import ADDENDUM, DEDENDUM, FILLET
from mixerkit.results import Counts, Numbers

__all__ = [
    "generating_shift",
    "involute_start",
    "least_shift",
    "rack_rounding",
    "undercut_tooth_count",
]


def generating_shift(module: Numbers, profile_shift: Numbers, thinning: Numbers) -> Numbers:
    r"""Profile shift in modules at which a thinned gear is cut: the cutter goes that much deeper.

    .. math:: x_E = x - \frac{\Delta s}{2 m \tan\alpha}

    Parameters
    ----------
    module, thinning : float or array
        In mm.
    profile_shift : float or array

    Returns
    -------
    float or array

    References
    ----------
    ISO 6336-3:2006, generating profile shift coefficient (from memory).

    Examples
    --------
    >>> round(float(generating_shift(5.0, 0.0, 0.1)), 4)
    -0.0275
    """
    shift: Numbers = profile_shift - thinning / (2 * module * np.tan(np.radians(20.0)))
    return shift


def undercut_tooth_count(profile_shift: Numbers = 0.0, pressure_angle: Numbers = 20.0) -> Numbers:
    r"""Fewest teeth that the rack cuts without undercut, as a number that need not be whole.

    .. math:: z_{min} = \frac{2 (1 - x)}{\sin^2\alpha}

    Parameters
    ----------
    profile_shift : float or array
    pressure_angle : float
        In degrees.

    Returns
    -------
    float or array

    References
    ----------
    Any gear handbook: 17.1 at 20 degrees, 32 at 14.5, 11.2 at 25.

    Examples
    --------
    >>> round(float(undercut_tooth_count()), 2)
    17.1
    """
    count: Numbers = (
        2 * (ADDENDUM - np.asarray(profile_shift)) / np.sin(np.radians(pressure_angle)) ** 2
    )
    return count


def least_shift(tooth_count: Counts, pressure_angle: Numbers = 20.0) -> Numbers:
    r"""Least profile shift without undercut.

    .. math:: x_{min} = 1 - \frac{z \sin^2\alpha}{2}

    Parameters
    ----------
    tooth_count : int or array
    pressure_angle : float
        In degrees.

    Returns
    -------
    float or array

    References
    ----------
    :func:`undercut_tooth_count` solved for the shift.

    Examples
    --------
    >>> round(float(least_shift(12)), 3)
    0.298
    """
    sine: Numbers = np.sin(np.radians(pressure_angle))
    return ADDENDUM - np.asarray(tooth_count) * sine**2 / 2


def rack_rounding(pressure_angle: float = 20.0) -> float:
    """Rounding of the rack's tip in modules: 0.38, or less where a full round has no room for it.

    Examples
    --------
    >>> rack_rounding(), round(rack_rounding(25.0), 3)
    (0.38, 0.318)
    """
    turned = radians(pressure_angle)
    land = pi / 4 - DEDENDUM * tan(turned)
    return min(FILLET, land * cos(turned) / (1 - sin(turned)))


def involute_start(
    module: Numbers, tooth_count: Counts, profile_shift: Numbers = 0.0, pressure_angle: float = 20.0
) -> Numbers:
    r"""Where the rack's straight flank begins to cut the involute, along the line of action.

    .. math:: \rho_F = m \left(\frac{z \sin\alpha}{2} - \frac{h_f - \rho_f (1 - \sin\alpha) - x}{\sin\alpha}\right)

    Parameters
    ----------
    module : float or array
        In mm.
    tooth_count : int or array
    profile_shift : float or array
    pressure_angle : float
        In degrees.

    Returns
    -------
    float or array
        In mm from the base circle's point of tangency; negative where the tooth is undercut.

    References
    ----------
    The rack of ISO 53, profile A, rounded as :func:`rack_rounding` says.

    Examples
    --------
    >>> round(float(involute_start(5.0, 30)), 2)
    11.03
    """
    sine = sin(radians(pressure_angle))
    straight = DEDENDUM - rack_rounding(pressure_angle) * (1 - sine) - np.asarray(profile_shift)
    return module * (np.asarray(tooth_count) / 2 * sine - straight / sine)
