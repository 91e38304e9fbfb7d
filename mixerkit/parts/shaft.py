"""Solid round shafts: torsion, bending, and the diameter that would do."""

from __future__ import annotations

from math import pi

import numpy as np

from mixerkit.results import Flags, Numbers
from mixerkit.units import in_units

__all__ = [
    "allowed_shear_stress",
    "bending_stress",
    "diameter_for_bending_and_torsion",
    "diameter_for_equivalent_stress",
    "diameter_for_torsion",
    "equivalent_stress",
    "span_moment",
    "span_slope",
    "torsional_stress",
]

SHEAR_YIELD = 1 / np.sqrt(3)
"""Shear over tensile yield strength by distortion energy (Shigley 10th ed., eq. 5-21)."""


@in_units("MPa", torque="N*m", diameter="mm > 0")
def torsional_stress(torque: Numbers, diameter: Numbers) -> Numbers:
    r"""Greatest shear stress in a solid round shaft under torque.

    .. math:: \tau = \frac{16\,T}{\pi d^3}

    Parameters
    ----------
    torque : quantity, any shape
        Torque carried by the section, e.g. ``"120 N*m"``.
    diameter : quantity, broadcast against torque
        Diameter of the section, e.g. ``"30 mm"``; must be positive.

    Returns
    -------
    quantity [MPa], the broadcast shape

    References
    ----------
    Budynas & Nisbett, Shigley's Mechanical Engineering Design, 10th ed., eq. 3-37 and 3-38.

    Examples
    --------
    >>> round(torsional_stress("100 N*m", "30 mm"), 2)
    <Quantity(18.86, 'megapascal')>
    """
    return 16e3 * torque / (pi * diameter**3)


@in_units("mm", torque="N*m", stress="MPa > 0")
def diameter_for_torsion(torque: Numbers, stress: Numbers) -> Numbers:
    r"""Diameter at which a torque makes just the allowed shear stress.

    .. math:: d = \sqrt[3]{\frac{16\,T}{\pi \tau}}

    Parameters
    ----------
    torque : quantity, any shape
    stress : quantity, broadcast against torque
        Allowed shear stress; must be positive.

    Returns
    -------
    quantity [mm], the broadcast shape

    References
    ----------
    Shigley, 10th ed., eq. 3-37 solved for the diameter.

    Examples
    --------
    >>> round(diameter_for_torsion("100 N*m", "18.86 MPa"), 2)
    <Quantity(30.0, 'millimeter')>
    """
    return np.cbrt(16e3 * np.abs(torque) / (pi * stress))


@in_units("MPa", moment="N*m", diameter="mm > 0")
def bending_stress(moment: Numbers, diameter: Numbers) -> Numbers:
    r"""Greatest bending stress in a solid round shaft.

    .. math:: \sigma = \frac{32\,M}{\pi d^3}

    Parameters
    ----------
    moment : quantity, any shape
        Bending moment at the section, e.g. ``"120 N*m"``.
    diameter : quantity, broadcast against moment

    Returns
    -------
    quantity [MPa], the broadcast shape

    References
    ----------
    Budynas & Nisbett, Shigley's Mechanical Engineering Design, 10th ed., eq. 3-26.

    Examples
    --------
    >>> round(bending_stress("100 N*m", "30 mm"), 2)
    <Quantity(37.73, 'megapascal')>
    """
    return 32e3 * moment / (pi * diameter**3)


@in_units("MPa", moment="N*m", torque="N*m", diameter="mm > 0")
def equivalent_stress(moment: Numbers, torque: Numbers, diameter: Numbers) -> Numbers:
    r"""Von Mises stress of a solid round section under bending and torsion.

    .. math:: \sigma' = \sqrt{\sigma^2 + 3 \tau^2}

    Parameters
    ----------
    moment, torque : quantity, any shape
    diameter : quantity, broadcast

    Returns
    -------
    quantity [MPa], the broadcast shape

    References
    ----------
    Budynas & Nisbett, Shigley's Mechanical Engineering Design, 10th ed., eq. 5-15.

    Examples
    --------
    >>> round(equivalent_stress("100 N*m", "100 N*m", "30 mm"), 2)
    <Quantity(49.91, 'megapascal')>
    """
    return np.sqrt(
        bending_stress.formula(moment, diameter) ** 2
        + 3 * torsional_stress.formula(torque, diameter) ** 2
    )


@in_units("mm", moment="N*m", torque="N*m", stress="MPa > 0")
def diameter_for_equivalent_stress(moment: Numbers, torque: Numbers, stress: Numbers) -> Numbers:
    r"""Diameter at which bending and torsion together make just a von Mises stress.

    .. math:: d = \sqrt[3]{\frac{16}{\pi \sigma'} \sqrt{4 M^2 + 3 T^2}}

    Parameters
    ----------
    moment, torque : quantity, any shape
    stress : quantity, broadcast
        Must be positive.

    Returns
    -------
    quantity [mm], the broadcast shape

    References
    ----------
    Shigley, 10th ed., eq. 5-15 solved for the diameter.

    Examples
    --------
    >>> round(diameter_for_equivalent_stress("100 N*m", "100 N*m", "49.91 MPa"), 2)
    <Quantity(30.0, 'millimeter')>
    """
    return np.cbrt(16e3 * np.sqrt(4 * moment**2 + 3 * torque**2) / (pi * stress))


@in_units("MPa", yield_strength="MPa > 0", tensile_strength="MPa > 0")
def allowed_shear_stress(
    yield_strength: Numbers, tensile_strength: Numbers, keyway: bool | Flags
) -> Numbers:
    """Customary shear stress for transmission shafting: 0.30 of yield or 0.18 of ultimate.

    The lesser counts, and a keyway takes a quarter off.

    Parameters
    ----------
    yield_strength, tensile_strength : quantity, any shape
    keyway : bool, broadcast

    Returns
    -------
    quantity [MPa], the broadcast shape

    References
    ----------
    ASME code for the design of transmission shafting (B17c, 1927), as quoted in handbooks of
    machine design.

    Examples
    --------
    >>> allowed_shear_stress("150 MPa", "300 MPa", False)
    <Quantity(45.0, 'megapascal')>
    """
    return (
        np.minimum(0.30 * yield_strength, 0.18 * tensile_strength) * np.where(keyway, 0.75, 1.0)[()]
    )


@in_units("mm", moment="N*m", torque="N*m", stress="MPa > 0")
def diameter_for_bending_and_torsion(
    moment: Numbers,
    torque: Numbers,
    stress: Numbers,
    bending_factor: float = 1.5,
    torsion_factor: float = 1.0,
) -> Numbers:
    r"""Diameter of a turning shaft under bending and torsion by the shafting code.

    .. math:: d = \sqrt[3]{\frac{16}{\pi \tau} \sqrt{(C_m M)^2 + (C_t T)^2}}

    Parameters
    ----------
    moment, torque : quantity, any shape
    stress : quantity, broadcast
        Allowed shear stress, see :func:`allowed_shear_stress`.
    bending_factor, torsion_factor : float
        1.5 and 1.0 for a turning shaft with the load gradually applied.

    Returns
    -------
    quantity [mm], the broadcast shape

    References
    ----------
    ASME code for the design of transmission shafting (B17c, 1927), as quoted in handbooks of
    machine design; its factors from memory.

    Examples
    --------
    >>> round(diameter_for_bending_and_torsion("100 N*m", "100 N*m", "40 MPa"), 2)
    <Quantity(28.42, 'millimeter')>
    """
    combined = np.sqrt((bending_factor * moment) ** 2 + (torsion_factor * torque) ** 2)
    return np.cbrt(16e3 * combined / (pi * stress))


@in_units("N*m", force="N", position="mm >= 0", span="mm > 0")
def span_moment(force: Numbers, position: Numbers, span: Numbers) -> Numbers:
    r"""Bending moment under a force between two bearings.

    .. math:: M = F\, \frac{a\,(L - a)}{L}

    Parameters
    ----------
    force : quantity, any shape
    position : quantity, broadcast
        Distance of the force from one bearing.
    span : quantity, broadcast
        Distance between the bearings.

    Returns
    -------
    quantity [N*m], the broadcast shape

    References
    ----------
    Shigley, 10th ed., table A-9, beam 6.

    Examples
    --------
    >>> span_moment("1000 N", "150 mm", "300 mm")
    <Quantity(75.0, 'newton * meter')>
    """
    return 1e-3 * force * position * (span - position) / span


@in_units("rad", force="N", position="mm >= 0", span="mm > 0", modulus="MPa > 0", diameter="mm > 0")
def span_slope(
    force: Numbers, position: Numbers, span: Numbers, modulus: Numbers, diameter: Numbers
) -> Numbers:
    r"""Slope of a round bar under a force between two bearings, where the force is.

    .. math:: \varphi = \frac{F\, a\, b\, (a - b)}{3 E I L}, \quad b = L - a, \quad I = \frac{\pi d^4}{64}

    Parameters
    ----------
    force : quantity, any shape
    position : quantity, broadcast
        Distance of the force from the first bearing.
    span : quantity, broadcast
        Distance between the bearings.
    modulus, diameter : quantity, broadcast
        Elastic modulus and diameter of the bar.

    Returns
    -------
    quantity [rad], the broadcast shape
        Nought in the middle; the other way beyond it.

    References
    ----------
    Shigley, 10th ed., table A-9, beam 6, its deflection differentiated at the force.

    Examples
    --------
    >>> span_slope("1000 N", "150 mm", "200 mm", "206 GPa", "32 mm").to("mrad").round(4)
    <Quantity(0.1179, 'milliradian')>
    """
    other = span - position
    inertia = pi / 64 * diameter**4
    return force * position * other * (position - other) / (3 * modulus * inertia * span)
