"""How hard two flanks press on each other."""

from __future__ import annotations

from math import pi

import numpy as np

from mixerkit.parts import mesh
from mixerkit.results import Counts, Numbers
from mixerkit.units import in_units

__all__ = ["contact_factors", "contact_stress", "elastic_factor"]


def elastic_factor(modulus_1: Numbers, modulus_2: Numbers) -> Numbers:
    """Elasticity factor Z_E of two materials in sqrt(MPa); 189.8 for steel on steel.

    Parameters
    ----------
    modulus_1, modulus_2 : float or array
        Elastic moduli in MPa; Poisson's ratio 0.3.

    Returns
    -------
    float or array

    References
    ----------
    ISO 6336-2:2006, clause 7 (from memory).

    Examples
    --------
    >>> round(float(elastic_factor(206e3, 206e3)), 1)
    189.8
    """
    return np.sqrt(
        1
        / (
            pi
            * (1 - 0.3**2)
            * (1 / np.asarray(modulus_1, float) + 1 / np.asarray(modulus_2, float))
        )
    )


def contact_factors(
    module: Numbers, count_1: Counts, count_2: Counts, distance: Numbers, contact_ratio: Numbers
) -> tuple[Numbers, Numbers]:
    """Zone factor Z_H and contact ratio factor Z_eps of a spur pair.

    Parameters
    ----------
    module : float or array
        In mm.
    count_1, count_2 : int or array
    distance : float or array
        In mm.
    contact_ratio : float or array

    Returns
    -------
    tuple of float or array

    References
    ----------
    ISO 6336-2:2006, clauses 6 and 8 (from memory); Z_H is 2.495 for unshifted gears of 20 degrees.

    Examples
    --------
    >>> zone, share = contact_factors(5.0, 30, 30, 150.0, 1.65)
    >>> round(float(zone), 3), round(float(share), 3)
    (2.495, 0.885)
    """
    working = np.radians(mesh.working_pressure_angle.formula(module, count_1, count_2, distance))
    zone = np.sqrt(2 * np.cos(working) / (np.cos(np.radians(20.0)) ** 2 * np.sin(working)))
    return zone, np.sqrt(np.clip((4 - contact_ratio) / 3, 0.1, None))


@in_units("MPa", force="N >= 0", face_width="mm > 0", diameter="mm > 0")
def contact_stress(
    force: Numbers,
    face_width: Numbers,
    diameter: Numbers,
    ratio: Numbers,
    zone: Numbers,
    elastic: Numbers,
    share: Numbers,
    load_factor: Numbers = 1.0,
) -> Numbers:
    r"""Contact stress of a spur pair at the pitch point.

    .. math:: \sigma_H = Z_H Z_E Z_\varepsilon \sqrt{\frac{F_t}{d_1 b}\, \frac{u + 1}{u}\, K}

    Parameters
    ----------
    force : quantity, any shape
        Along the reference circle.
    face_width : quantity, broadcast
    diameter : quantity, broadcast
        Reference diameter of the smaller gear.
    ratio : float, broadcast
        Larger over smaller tooth count.
    zone, elastic, share : float, broadcast
        See :func:`contact_factors` and :func:`elastic_factor`.
    load_factor : float, broadcast

    Returns
    -------
    quantity [MPa], the broadcast shape

    References
    ----------
    ISO 6336-2:2006, eq. 4 to 6 (from memory).

    Examples
    --------
    >>> round(contact_stress("1000 N", "40 mm", "150 mm", 1.0, 2.495, 189.8, 0.885))
    <Quantity(242, 'megapascal')>
    """
    nominal = (
        zone * elastic * share * np.sqrt(force / (diameter * face_width) * (ratio + 1) / ratio)
    )
    return nominal * np.sqrt(load_factor)
