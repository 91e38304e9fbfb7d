"""What grease, speed and roughness leave of a flank's strength."""

from __future__ import annotations

import numpy as np

from mixerkit.results import Numbers

__all__ = ["MOST_VISCOUS", "film_factors", "film_share", "reduced_radius"]

MOST_VISCOUS = 500.0
"""Viscosity at 40 degrees in mm^2/s beyond which more is not counted (ISO 6336-2, clause 12; from memory)."""
_STATIC = 1e5


def reduced_radius(base_1: Numbers, base_2: Numbers, working: Numbers) -> Numbers:
    """Radius of relative curvature of two flanks at the pitch point, in mm.

    Parameters
    ----------
    base_1, base_2 : float or array
        Base diameters in mm.
    working : float or array
        Working pressure angle in degrees.

    Returns
    -------
    float or array

    References
    ----------
    ISO 6336-2:2006, clause 12 (as restated in a public program).

    Examples
    --------
    >>> round(float(reduced_radius(150 * 0.9397, 150 * 0.9397, 20.0)), 2)
    12.83
    """
    first, second = (0.5 * one * np.tan(np.radians(working)) for one in (base_1, base_2))
    radius: Numbers = first * second / (first + second)
    return radius


def film_factors(
    limit: Numbers, viscosity: Numbers, speed: Numbers, roughness: Numbers, radius: Numbers
) -> tuple[Numbers, Numbers, Numbers]:
    """Lubricant, speed and roughness factor Z_L, Z_v and Z_R of flanks.

    Parameters
    ----------
    limit : float or array
        Contact limit of the softer metal in MPa.
    viscosity : float or array
        Of the oil at 40 degrees in mm^2/s; a grease's is that of the oil in it.
    speed : float or array
        Of the pitch line in m/s.
    roughness : float or array
        Mean R_z of both flanks in micrometres.
    radius : float or array
        Of relative curvature in mm.

    Returns
    -------
    tuple of float or array

    References
    ----------
    ISO 6336-2:2006, clause 12, method B (as restated in a public program). The curves of Z_v begin at
    1 m/s; slower, they run towards their least.

    Examples
    --------
    >>> [round(float(one), 3) for one in film_factors(485.0, 100.0, 10.0, 3.0, 10.0)]
    [0.935, 1.0, 1.0]
    """
    held = np.clip(limit, 850.0, 1200.0)
    least = held / 4375 + 0.6357
    thick = np.minimum(viscosity, MOST_VISCOUS)
    lubricant = least + 4 * (1 - least) / (1.2 + 134 / thick) ** 2
    slow = least + 0.02
    turning = slow + 2 * (1 - slow) * np.sqrt(speed / (0.8 * speed + 32))
    rough = (3 / (roughness * (10 / radius) ** (1 / 3))) ** (0.32 - 0.0002 * held)
    return lubricant, turning, rough


def film_share(cycles: Numbers, lasting_loads: float) -> Numbers:
    """Power to which the product of the three factors counts over a limited life.

    Nothing of them counts for a hundred thousand loads or fewer, all of it from the loads at which the
    metal lasts; between, strengths are interpolated on logarithms.

    Parameters
    ----------
    cycles : float or array
    lasting_loads : float
        At which Z_NT is 1.

    Returns
    -------
    float or array

    References
    ----------
    ISO 6336-2:2006, clause 5, method B for limited life (from memory).

    Examples
    --------
    >>> [round(float(film_share(loads, 5e7)), 3) for loads in (1e4, 1e5, 2236067.98, 5e7, 1e9)]
    [0.0, 0.0, 0.5, 1.0, 1.0]
    """
    over = np.log(np.maximum(cycles, 1.0) / _STATIC) / np.log(lasting_loads / _STATIC)
    share: Numbers = np.clip(over, 0.0, 1.0)
    return share
