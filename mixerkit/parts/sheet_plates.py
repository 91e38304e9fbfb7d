"""A strip of sheet between two ribs: how it bends under a patch of load, and under an even pressure."""

from __future__ import annotations

from math import pi

import numpy as np

from mixerkit.results import Numbers
from mixerkit.units import in_units

__all__ = ["patch_deflection", "patch_radius", "patch_stress", "strip_deflection", "strip_stress"]


def patch_radius(radius: Numbers, thickness: Numbers) -> Numbers:
    """Radius of a patch to reckon with, in the unit of both: a small one spreads in the thickness.

    References
    ----------
    Roark's Formulas for Stress and Strain, 7th ed., section 11.1, after Westergaard (from memory).
    """
    small = np.sqrt(1.6 * np.square(radius) + np.square(thickness)) - 0.675 * thickness
    found: Numbers = np.where(np.asarray(radius) < 0.5 * thickness, small, radius)[()]
    return found


@in_units("MPa", force="N >= 0", span="mm > 0", thickness="mm > 0", radius="mm > 0")
def patch_stress(force: Numbers, span: Numbers, thickness: Numbers, radius: Numbers) -> Numbers:
    r"""Greatest bending stress in a long strip, held loosely at both edges, under a small round patch.

    .. math::
        \sigma = \frac{3 W}{2 \pi t^2} \left[(1 + \nu) \ln\frac{2 b}{\pi r'} + 1\right], \quad
        r' = \sqrt{1.6\,r^2 + t^2} - 0.675\,t \;\text{ if } r < t/2

    Parameters
    ----------
    force, span, thickness, radius : quantity, broadcast
        On the patch, between the edges, of the sheet, of the patch. A patch as wide as the span loses the
        logarithm, which never falls below nought here.

    Returns
    -------
    quantity [MPa], the broadcast shape

    References
    ----------
    Roark's Formulas for Stress and Strain, 7th ed., table 11.4, case 1b with a/b without end, nu = 0.3 (from
    memory).

    Examples
    --------
    >>> round(patch_stress("400 N", "150 mm", "3 mm", "10 mm"), 1)
    <Quantity(83.5, 'megapascal')>
    """
    spread = np.maximum(np.log(2 * span / (pi * patch_radius(radius, thickness))), 0.0)
    return 3 * force / (2 * pi * np.square(thickness)) * (1.3 * spread + 1)


@in_units("mm", force="N >= 0", span="mm > 0", thickness="mm > 0", modulus="MPa > 0")
def patch_deflection(
    force: Numbers, span: Numbers, thickness: Numbers, modulus: Numbers
) -> Numbers:
    r"""Deflection of the same strip under the patch.

    .. math:: y = 0.1851 \frac{W b^2}{E t^3}

    Parameters
    ----------
    force, span, thickness, modulus : quantity, broadcast

    Returns
    -------
    quantity [mm], the broadcast shape

    References
    ----------
    Roark's Formulas for Stress and Strain, 7th ed., table 11.4, case 1b with a/b without end (from memory).

    Examples
    --------
    >>> round(patch_deflection("400 N", "150 mm", "3 mm", "200 GPa"), 3)
    <Quantity(0.308, 'millimeter')>
    """
    return 0.1851 * force * np.square(span) / (modulus * thickness**3)


@in_units("MPa", pressure="MPa >= 0", span="mm > 0", thickness="mm > 0")
def strip_stress(pressure: Numbers, span: Numbers, thickness: Numbers) -> Numbers:
    r"""Bending stress in a long strip, held loosely at both edges, under an even pressure.

    .. math:: \sigma = 0.75 \frac{p b^2}{t^2}

    Parameters
    ----------
    pressure, span, thickness : quantity, broadcast

    Returns
    -------
    quantity [MPa], the broadcast shape

    References
    ----------
    Roark's Formulas for Stress and Strain, 7th ed., table 11.4, case 1a with a/b without end (from memory); it is
    a beam's :math:`p b^2/8` over :math:`t^2/6`.

    Examples
    --------
    >>> round(strip_stress("4 kPa", "150 mm", "3 mm"), 2)
    <Quantity(7.5, 'megapascal')>
    """
    return 0.75 * pressure * np.square(span) / np.square(thickness)


@in_units("mm", pressure="MPa >= 0", span="mm > 0", thickness="mm > 0", modulus="MPa > 0")
def strip_deflection(
    pressure: Numbers, span: Numbers, thickness: Numbers, modulus: Numbers
) -> Numbers:
    r"""Deflection of the same strip in its middle.

    .. math:: y = 0.1421 \frac{p b^4}{E t^3}

    Parameters
    ----------
    pressure, span, thickness, modulus : quantity, broadcast

    Returns
    -------
    quantity [mm], the broadcast shape

    References
    ----------
    Roark's Formulas for Stress and Strain, 7th ed., table 11.4, case 1a with a/b without end (from memory); it is
    a beam's :math:`5 p b^4/(384 E I)`, the sheet's width keeping it from drawing in.

    Examples
    --------
    >>> round(strip_deflection("4 kPa", "150 mm", "3 mm", "200 GPa"), 4)
    <Quantity(0.0533, 'millimeter')>
    """
    return 0.1421 * pressure * span**4 / (modulus * thickness**3)
