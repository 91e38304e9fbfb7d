"""Will the teeth last: Lewis with a velocity factor, and ISO 6336 nominal stresses.

ISO 6336 method B form factors for spur gears cut by the rack of ISO 53, load at the outer point of
single contact. The load factors K are those of a hand-cut, slow gear; how unevenly the face carries,
:mod:`mixerkit.parts.face_load` says.
"""

from __future__ import annotations

from math import pi
from typing import NamedTuple

import numpy as np

from mixerkit.parts import involute, mesh, spurgear, undercut
from mixerkit.parts.toothcontact import (
    contact_factors,
    contact_stress,
    single_contact_factor,
)
from mixerkit.results import Counts, Numbers
from mixerkit.units import in_units

__all__ = [
    "HAND_CUT",
    "LOAD_FACTOR",
    "bending_stress",
    "form_factors",
    "mesh_stresses",
    "outer_single_contact",
    "root_factors",
]


class LoadFactors(NamedTuple):
    """Load factors K_A, K_v, K_F-beta and K_F-alpha of ISO 6336-1."""

    application: float
    dynamic: float
    along: float
    share: float


HAND_CUT = LoadFactors(application=1.25, dynamic=1.05, along=1.3, share=1.1)
"""Load factors K_A, K_v, K_F-beta, K_F-alpha of a hand-cut gear at walking pace with moderate shock
(common practice; K_F-beta for teeth not quite parallel to the shaft, the least that it is taken as)."""
LOAD_FACTOR = HAND_CUT.application * HAND_CUT.dynamic * HAND_CUT.share
"""Product of the load factors of a hand-cut gear whose face carries evenly: K_A, K_v and K_F-alpha."""


def form_factors(
    tooth_count: Counts, profile_shift: Numbers, contact_load_radius: Numbers
) -> tuple[Numbers, Numbers]:
    """Form factor Y_F and stress correction factor Y_S for a load at a radius.

    Parameters
    ----------
    tooth_count : int or array
    profile_shift : float or array
    contact_load_radius : float or array
        Radius in modules at which the load acts: the tip, or the outer point of single contact.

    Returns
    -------
    tuple of float or array

    References
    ----------
    ISO 6336-3:2006, clauses 6 and 7 for spur gears, tangent at 30 degrees, rack of ISO 53 profile A
    (from memory).

    Examples
    --------
    >>> form, correction = form_factors(17, 0.0, 9.5)
    >>> round(float(form), 2), round(float(correction), 2)
    (2.96, 1.52)
    """
    count, shift = np.asarray(tooth_count, float), np.asarray(profile_shift, float)
    turned, tip = np.radians(20.0), spurgear.FILLET
    spare = (
        pi / 4 - spurgear.DEDENDUM * np.tan(turned) - (1 - np.sin(turned)) * tip / np.cos(turned)
    )
    lowered = tip - spurgear.DEDENDUM + shift
    aim = 2 / count * (pi / 2 - spare) - pi / 3
    angle = np.full(np.broadcast(count, shift).shape, pi / 6)
    for _ in range(12):
        angle = 2 * lowered / count * np.tan(angle) - aim
    root_chord = count * np.sin(pi / 3 - angle) + np.sqrt(3) * (lowered / np.cos(angle) - tip)
    rounding = tip + 2 * lowered**2 / (np.cos(angle) * (count * np.cos(angle) ** 2 - 2 * lowered))
    base = count * np.cos(turned) / 2
    at_load = np.arccos(np.clip(base / contact_load_radius, -1, 1))
    half = (
        (pi / 2 + 2 * shift * np.tan(turned)) / count
        + involute.involute(20.0)
        - (np.tan(at_load) - at_load)
    )
    lean = at_load - half
    arm = (
        (np.cos(half) - np.sin(half) * np.tan(lean)) * 2 * contact_load_radius
        - count * np.cos(pi / 3 - angle)
        - lowered / np.cos(angle)
        + tip
    ) / 2
    # a tooth cut away below its root has no section, and squares would hide it
    root_chord = np.where((root_chord > 0) & (arm > 0), root_chord, np.nan)
    form = 6 * arm * np.cos(lean) / (root_chord**2 * np.cos(turned))
    slender, notch = root_chord / arm, root_chord / (2 * rounding)
    correction = (1.2 + 0.13 * slender) * notch ** (1 / (1.21 + 2.3 / slender))
    return form[()], correction[()]


def outer_single_contact(
    module: Numbers,
    count_1: Counts,
    count_2: Counts,
    tip_1: Numbers,
    tip_2: Numbers,
    distance: Numbers,
) -> Numbers:
    """Radius in mm on gear 1 at which it last carries the load alone, for a contact ratio below 2."""
    working = np.radians(mesh.working_pressure_angle.formula(module, count_1, count_2, distance))
    base_1 = spurgear.base_diameter.formula(module, count_1) / 2
    base_2 = spurgear.base_diameter.formula(module, count_2) / 2
    pitch = pi * module * np.cos(np.radians(20.0))
    # along the line of action from gear 1's base point: where gear 2's tip first touches, plus a pitch
    first = distance * np.sin(working) - np.sqrt(
        np.clip((np.asarray(tip_2) / 2) ** 2 - base_2**2, 0, None)
    )
    last = np.sqrt(np.clip((np.asarray(tip_1) / 2) ** 2 - base_1**2, 0, None))
    radius: Numbers = np.hypot(base_1, np.minimum(first + pitch, last))
    return radius


@in_units("MPa", force="N >= 0", face_width="mm > 0", module="mm > 0")
def bending_stress(
    force: Numbers,
    face_width: Numbers,
    module: Numbers,
    form_factor: Numbers,
    stress_correction: Numbers,
    load_factor: Numbers = 1.0,
) -> Numbers:
    r"""Tooth-root stress of a spur gear.

    .. math:: \sigma_F = \frac{F_t}{b\,m}\, Y_F Y_S K

    Parameters
    ----------
    force : quantity, any shape
        Along the reference circle.
    face_width, module : quantity, broadcast
    form_factor, stress_correction : float, broadcast
        See :func:`form_factors`.
    load_factor : float, broadcast
        Product of the K factors; 1 gives the nominal stress.

    Returns
    -------
    quantity [MPa], the broadcast shape

    References
    ----------
    ISO 6336-3:2006, eq. 4 and 5 (from memory).

    Examples
    --------
    >>> round(bending_stress("1000 N", "40 mm", "5 mm", 2.9, 1.6), 1)
    <Quantity(23.2, 'megapascal')>
    """
    return force / (face_width * module) * form_factor * stress_correction * load_factor


def root_factors(
    module: Numbers,
    counts: tuple[Counts, Counts],
    shifts: tuple[Numbers, Numbers],
    tips: tuple[Numbers, Numbers],
    distance: Numbers,
    thinning: Numbers = 0.0,
) -> tuple[Numbers, Numbers]:
    """Form and stress correction factor of a gear as it is cut, loaded where it last carries alone.

    Parameters
    ----------
    module : float or array
        In mm.
    counts, shifts, tips : pair of number or array
        Of the gear and of its mate: tooth counts, profile shifts, tip diameters in mm.
    distance, thinning : float or array
        In mm; see :func:`mesh_stresses`.

    Returns
    -------
    tuple of float or array

    Examples
    --------
    >>> form, notch = root_factors(5.0, (30, 30), (0, 0), (160.0, 160.0), 150.0)
    >>> round(float(form), 2), round(float(notch), 2)
    (1.42, 1.93)
    """
    at = outer_single_contact(module, *counts, *tips, distance)
    cut = undercut.generating_shift(module, np.asarray(shifts[0], float), thinning)
    return form_factors(counts[0], cut, at / module)


def mesh_stresses(
    module: Numbers,
    counts: tuple[Counts, Counts],
    shifts: tuple[Numbers, Numbers],
    tips: tuple[Numbers, Numbers],
    distance: Numbers,
    contact_ratio: Numbers,
    face_width: Numbers,
    elastic: Numbers,
    thinning: Numbers = 0.0,
) -> tuple[list[Numbers], Numbers]:
    """Root stresses of both gears of a mesh and their contact stress, for one newton of load.

    Root stress goes with the force, contact stress with its square root; both hold the load
    factors of a hand-cut gear but K_F-beta.

    Parameters
    ----------
    module : float or array
        In mm.
    counts, shifts, tips : pair of number or array
        Tooth counts, profile shifts, tip diameters in mm.
    distance, contact_ratio, face_width : float or array
        In mm, plain, in mm.
    elastic : float or array
        See :func:`elastic_factor`.
    thinning : float or array
        In mm, of each tooth: it is cut so much deeper, and its root is so much thinner.

    Returns
    -------
    list of float or array, float or array
        Root stress of each gear in MPa for 1 N, contact stress in MPa for 1 N.

    References
    ----------
    :func:`bending_stress` and :func:`contact_stress`; form factors of the thinned tooth at
    :func:`mixerkit.parts.undercut.generating_shift`.

    Examples
    --------
    >>> root, contact = mesh_stresses(5.0, (30, 30), (0, 0), (160.0, 160.0), 150.0, 1.65, 40.0, 189.8)
    >>> round(float(root[0]), 4), round(float(contact), 2)
    (0.0197, 9.23)
    """
    root = []
    for gear in ((counts, shifts, tips), (counts[::-1], shifts[::-1], tips[::-1])):
        form, notch = root_factors(module, *gear, distance, thinning)
        root.append(bending_stress.formula(1.0, face_width, module, form, notch, LOAD_FACTOR))
    zone, share = contact_factors(module, *counts, distance, contact_ratio)
    zone = zone * single_contact_factor(module, counts, tips, distance, contact_ratio)
    small, large = np.minimum(*counts), np.maximum(*counts)
    contact = contact_stress.formula(
        1.0, face_width, module * small, large / small, zone, elastic, share, LOAD_FACTOR
    )
    return root, contact
