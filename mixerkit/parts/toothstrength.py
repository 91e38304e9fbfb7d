"""Will the teeth last: Lewis with a velocity factor, and ISO 6336 nominal stresses.

ISO 6336 method B form factors for spur gears cut by the rack of ISO 53, load at the outer point of
single contact. The load factors K are stated by the caller; defaults are for a hand-cut, slow gear.
"""

from __future__ import annotations

from math import pi
from typing import NamedTuple

import numpy as np

from mixerkit.parts import mesh, spurgear
from mixerkit.results import Counts, Numbers
from mixerkit.tables import table
from mixerkit.units import in_units

__all__ = [
    "HAND_CUT",
    "LOAD_FACTOR",
    "REVERSED",
    "STATIC",
    "STRESSING",
    "bending_stress",
    "contact_factors",
    "contact_stress",
    "elastic_factor",
    "form_factors",
    "lewis_stress",
    "lewis_y",
    "life_factors",
    "mesh_stresses",
    "outer_single_contact",
    "velocity_factor",
]


class LoadFactors(NamedTuple):
    """Load factors K_A, K_v, K_F-beta and K_F-alpha of ISO 6336-1."""

    application: float
    dynamic: float
    along: float
    share: float


HAND_CUT = LoadFactors(application=1.25, dynamic=1.05, along=1.3, share=1.1)
"""Load factors K_A, K_v, K_F-beta, K_F-alpha of a hand-cut gear at walking pace with moderate shock
(common practice; K_F-beta for teeth not quite parallel to the shaft)."""
LOAD_FACTOR = HAND_CUT.application * HAND_CUT.dynamic * HAND_CUT.along * HAND_CUT.share
"""Product of the load factors of a hand-cut gear."""
STATIC = 2.5
"""Static over endurance bending strength of through-hardened teeth, Y_NT (ISO 6336-3; from memory)."""
STRESSING = 2.0
"""Stress correction of the reference test gears, Y_ST (ISO 6336-3)."""
REVERSED = 0.7
"""Bending strength of a tooth loaded both ways over one way (ISO 6336-3 for idlers; from memory)."""


@in_units("", speed="m/s >= 0")
def velocity_factor(speed: Numbers, kind: str = "cut") -> Numbers:
    r"""Velocity factor K_v of Barth for a pitch-line speed.

    .. math:: K_v = \frac{3.05 + V}{3.05}\ \text{(cast)}, \quad \frac{6.1 + V}{6.1}\ \text{(cut)}

    Parameters
    ----------
    speed : quantity, any shape
        Of the pitch line.
    kind : str
        ``"cast"`` or ``"cut"``.

    Returns
    -------
    quantity, plain number, the shape of speed

    References
    ----------
    Budynas & Nisbett, Shigley's Mechanical Engineering Design, 10th ed., eq. 14-4 and 14-6.

    Examples
    --------
    >>> round(float(velocity_factor("628 ft/min")), 2)
    1.52
    """
    base = {"cast": 3.05, "cut": 6.1}[kind]
    return (base + speed) / base


def lewis_y(tooth_count: Counts) -> Numbers:
    """Lewis form factor Y of a full-depth tooth of 20 degrees, load at the tip.

    Parameters
    ----------
    tooth_count : int or array
        From 12; a count between two of the table is found on a straight line.

    Returns
    -------
    float or array

    References
    ----------
    data/tables/lewis.csv: Shigley 10th ed., table 14-2.

    Examples
    --------
    >>> float(lewis_y(16)), float(lewis_y(30))
    (0.296, 0.359)
    """
    rows = table("lewis")
    factor: Numbers = np.interp(tooth_count, rows.column("tooth_count"), rows.column("form_factor"))
    return factor


@in_units("MPa", force="N >= 0", face_width="mm > 0", module="mm > 0", speed="m/s >= 0")
def lewis_stress(
    force: Numbers, face_width: Numbers, module: Numbers, tooth_count: Counts, speed: Numbers
) -> Numbers:
    r"""Bending stress of a tooth by Lewis with the velocity factor of cut teeth.

    .. math:: \sigma = \frac{K_v W_t}{F m Y}

    Parameters
    ----------
    force : quantity, any shape
        Along the pitch circle.
    face_width, module : quantity, broadcast
    tooth_count : int, broadcast
    speed : quantity, broadcast
        Of the pitch line.

    Returns
    -------
    quantity [MPa], the broadcast shape

    References
    ----------
    Budynas & Nisbett, Shigley's Mechanical Engineering Design, 10th ed., eq. 14-8.

    Examples
    --------
    >>> stress = lewis_stress("365 lbf", "1.5 in", "0.125 in", 16, "628 ft/min")
    >>> round(stress.to("ksi"), 1)
    <Quantity(10.0, 'ksi')>
    """
    return velocity_factor.formula(speed) * force / (face_width * module * lewis_y(tooth_count))


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
        + spurgear.involute(20.0)
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


def life_factors(cycles: Numbers) -> tuple[Numbers, Numbers]:
    """Factors on bending and contact strength of a tooth for a limited count of loads.

    Parameters
    ----------
    cycles : float or array
        Loads on one tooth over the life.

    Returns
    -------
    tuple of float or array
        Y_NT and Z_NT; below 1 beyond three million and fifty million loads, 0.85 at ten thousand million.

    References
    ----------
    ISO 6336-3:2006 and ISO 6336-2:2006, life factors of through-hardened steel (from memory).

    Examples
    --------
    >>> bending, contact = life_factors(2.9e6)
    >>> round(float(bending), 3), round(float(contact), 2)
    (1.005, 1.24)
    >>> [round(float(one), 2) for one in life_factors(1e10)]
    [0.85, 0.85]
    """
    with np.errstate(divide="ignore"):
        bending, contact = 3e6 / np.asarray(cycles, float), 5e7 / np.asarray(cycles, float)
    return (
        np.minimum(np.where(bending >= 1, bending**0.16, bending**0.02), STATIC)[()],
        np.minimum(np.where(contact >= 1, contact**0.0756, contact**0.0306), 1.6)[()],
    )


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
    factors of a hand-cut gear.

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
    :func:`mixerkit.parts.spurgear.generating_shift`.

    Examples
    --------
    >>> root, contact = mesh_stresses(5.0, (30, 30), (0, 0), (160.0, 160.0), 150.0, 1.65, 40.0, 189.8)
    >>> round(float(root[0]), 4), round(float(contact), 2)
    (0.0256, 10.48)
    """
    root = []
    for i in (0, 1):
        at = outer_single_contact(module, counts[i], counts[1 - i], tips[i], tips[1 - i], distance)
        cut = spurgear.generating_shift(module, np.asarray(shifts[i], float), thinning)
        form, notch = form_factors(counts[i], cut, at / module)
        root.append(bending_stress.formula(1.0, face_width, module, form, notch, LOAD_FACTOR))
    zone, share = contact_factors(module, *counts, distance, contact_ratio)
    small, large = np.minimum(*counts), np.maximum(*counts)
    contact = contact_stress.formula(
        1.0, face_width, module * small, large / small, zone, elastic, share, LOAD_FACTOR
    )
    return root, contact
