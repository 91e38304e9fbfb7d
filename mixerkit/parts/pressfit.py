"""Parts held by their own squeeze: pressure, press force, torque, warmth to shrink on, bore closing in."""

from __future__ import annotations

from math import pi

import numpy as np

from mixerkit.results import Numbers
from mixerkit.units import in_units

__all__ = [
    "EXPANSION",
    "bore_closing",
    "fit_pressure",
    "fit_torque",
    "hoop_stress",
    "press_force",
    "shrink_warming",
]

EXPANSION = {"steel": 11.5e-6, "stainless": 16.5e-6, "cast iron": 10.5e-6, "bronze": 18e-6}
"""Linear expansion a kelvin near room temperature (common practice)."""
POISSON = 0.3


@in_units(
    "MPa",
    interference="mm >= 0",
    diameter="mm > 0",
    outside="mm > 0",
    hub_modulus="GPa > 0",
    shaft_modulus="GPa > 0",
    bore="mm >= 0",
)
def fit_pressure(
    interference: Numbers,
    diameter: Numbers,
    outside: Numbers,
    hub_modulus: Numbers = 210.0,
    shaft_modulus: Numbers = 210.0,
    bore: Numbers = 0.0,
) -> Numbers:
    r"""Pressure between a hub and what is pressed into it.

    .. math:: p = \frac{\delta}{d \left[ \frac{1}{E_o} \left( \frac{d_o^2 + d^2}{d_o^2 - d^2}
        + \nu \right) + \frac{1}{E_i} \left( \frac{d^2 + d_i^2}{d^2 - d_i^2} - \nu \right) \right]}

    Parameters
    ----------
    interference : quantity, any shape
        On the diameter.
    diameter, outside : quantity, broadcast
        Of the joint, and of the hub.
    hub_modulus, shaft_modulus : quantity, broadcast
    bore : quantity, broadcast
        Inside of what is pressed in; none for a solid shaft.

    Returns
    -------
    quantity [MPa], the broadcast shape

    References
    ----------
    Lame: Shigley, 10th ed., eq. 3-56; Poisson's ratio 0.3 for both.

    Examples
    --------
    >>> round(fit_pressure("0.04 mm", "50 mm", "80 mm"), 1)
    <Quantity(51.2, 'megapascal')>
    """
    hub = ((outside**2 + diameter**2) / (outside**2 - diameter**2) + POISSON) / hub_modulus
    inner = ((diameter**2 + bore**2) / (diameter**2 - bore**2) - POISSON) / shaft_modulus
    return 1e3 * interference / (diameter * (hub + inner))


@in_units("MPa", pressure="MPa", diameter="mm > 0", outside="mm > 0")
def hoop_stress(pressure: Numbers, diameter: Numbers, outside: Numbers) -> Numbers:
    r"""Greatest stress round the bore of a pressed-on hub.

    .. math:: \sigma_t = p\,\frac{d_o^2 + d^2}{d_o^2 - d^2}

    Parameters
    ----------
    pressure : quantity, any shape
    diameter, outside : quantity, broadcast

    Returns
    -------
    quantity [MPa], the broadcast shape

    References
    ----------
    Shigley, 10th ed., eq. 3-58.

    Examples
    --------
    >>> round(hoop_stress("51.2 MPa", "50 mm", "80 mm"))
    <Quantity(117, 'megapascal')>
    """
    return pressure * (outside**2 + diameter**2) / (outside**2 - diameter**2)


@in_units("N", pressure="MPa", diameter="mm > 0", length="mm > 0")
def press_force(
    pressure: Numbers, diameter: Numbers, length: Numbers, friction: Numbers = 0.12
) -> Numbers:
    r"""Force to press a joint home, and to press it off again.

    .. math:: F = \pi d\,l\,p\,\mu

    Parameters
    ----------
    pressure : quantity, any shape
    diameter, length : quantity, broadcast
    friction : float
        0.12 for oiled steel (common practice).

    Returns
    -------
    quantity [N], the broadcast shape

    References
    ----------
    Friction on the joint's area; any text on machine elements.

    Examples
    --------
    >>> round(press_force("51.2 MPa", "50 mm", "40 mm"))
    <Quantity(38604, 'newton')>
    """
    return pi * diameter * length * pressure * friction


@in_units("N*m", pressure="MPa", diameter="mm > 0", length="mm > 0")
def fit_torque(
    pressure: Numbers, diameter: Numbers, length: Numbers, friction: Numbers = 0.12
) -> Numbers:
    r"""Torque a pressed joint holds.

    .. math:: T = F\,d / 2

    Parameters
    ----------
    pressure, diameter, length, friction
        As in :func:`press_force`.

    Returns
    -------
    quantity [N*m], the broadcast shape

    References
    ----------
    As :func:`press_force`.

    Examples
    --------
    >>> round(fit_torque("51.2 MPa", "50 mm", "40 mm"))
    <Quantity(965, 'newton * meter')>
    """
    return press_force.formula(pressure, diameter, length, friction) * diameter / 2e3


@in_units("K", interference="mm >= 0", diameter="mm > 0", slack="mm >= 0")
def shrink_warming(
    interference: Numbers, diameter: Numbers, slack: Numbers, expansion: float = 11.5e-6
) -> Numbers:
    r"""By how much to warm a hub so that it drops on.

    .. math:: \Delta T = \frac{\delta + s}{\alpha d}

    Parameters
    ----------
    interference : quantity, any shape
        The most there may be, on the diameter.
    diameter : quantity, broadcast
    slack : quantity
        Clearance wanted while it is dropped on, such as ``"0.05 mm"``.
    expansion : float
        A kelvin, see :data:`EXPANSION`.

    Returns
    -------
    quantity [K], the broadcast shape

    References
    ----------
    Thermal expansion; any text on machine elements.

    Examples
    --------
    >>> round(shrink_warming("0.05 mm", "50 mm", "0.05 mm"))
    <Quantity(174, 'kelvin')>
    """
    return (interference + slack) / (expansion * diameter)


@in_units("mm", pressure="MPa >= 0", outside="mm > 0", bore="mm > 0", modulus="GPa > 0")
def bore_closing(pressure: Numbers, outside: Numbers, bore: Numbers, modulus: Numbers) -> Numbers:
    r"""By how much a bush's bore closes in when it is pressed into its hole.

    .. math:: \Delta d_i = \frac{2\,p\,d_a^2\,d_i}{E\,(d_a^2 - d_i^2)}

    Parameters
    ----------
    pressure : quantity, any shape
        Round its outside.
    outside, bore : quantity, broadcast
    modulus : quantity

    Returns
    -------
    quantity [mm], the broadcast shape

    References
    ----------
    Lame, thick ring under outside pressure: Shigley, 10th ed., eq. 3-50 with the strain of the bore.

    Examples
    --------
    >>> round(bore_closing("20 MPa", "40 mm", "30 mm", "95 GPa"), 4)
    <Quantity(0.0289, 'millimeter')>
    """
    return 2 * pressure * outside**2 * bore / (1e3 * modulus * (outside**2 - np.square(bore)))
