"""How hard two flanks press on each other."""

from __future__ import annotations

from math import pi

import numpy as np

from mixerkit.parts import mesh, spurgear
from mixerkit.results import Counts, Numbers
from mixerkit.units import in_units

__all__ = ["contact_factors", "contact_stress", "elastic_factor", "single_contact_factor"]


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


def single_contact_factor(
    module: Numbers,
    counts: tuple[Counts, Counts],
    tips: tuple[Numbers, Numbers],
    distance: Numbers,
    contact_ratio: Numbers,
) -> Numbers:
    """Single pair factor: how much harder flanks press where one pair begins to bear alone than at the pitch point.

    Parameters
    ----------
    module : float or array
        In mm.
    counts, tips : pair of number or array
        Tooth counts, tip diameters in mm.
    distance, contact_ratio : float or array
        In mm, plain.

    Returns
    -------
    float or array
        The larger of Z_B and Z_D, at least 1; not a number of gears that do not mesh.

    References
    ----------
    ISO 6336-2:2006, clause 6: M_1 and M_2, the root of the curvatures' products at both points (from memory).

    Examples
    --------
    >>> round(float(single_contact_factor(5.0, (20, 22), (110.0, 120.0), 105.0, 1.569)), 3)
    1.026
    """
    working = np.tan(
        np.radians(mesh.working_pressure_angle.formula(module, counts[0], counts[1], distance))
    )
    base = [np.asarray(spurgear.base_diameter.formula(module, one)) / 2 for one in counts]
    pitch = pi * module * np.cos(np.radians(20.0))
    ends = [
        np.sqrt(np.clip((np.asarray(tip) / 2) ** 2 - round_**2, 0, None))
        for tip, round_ in zip(tips, base, strict=True)
    ]
    found = np.asarray(1.0 + 0.0 * working)
    for one, two in ((0, 1), (1, 0)):
        # beyond a base circle there is no flank: what is left of it is next to nothing
        bent = np.maximum(ends[one] - pitch, 1e-3) * np.maximum(
            ends[two] - (contact_ratio - 1) * pitch, 1e-3
        )
        found = np.maximum(found, working * np.sqrt(base[0] * base[1] / bent))
    return found[()]


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
