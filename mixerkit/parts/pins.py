"""What pins across a shaft and its hub bear: shear, and pressure in the wall and in the shaft."""

from __future__ import annotations

from math import pi

from mixerkit.results import Numbers
from mixerkit.units import in_units

__all__ = ["pin_pressure", "pin_pressure_in_shaft", "pin_shear"]


@in_units("MPa", torque="N*m", diameter="mm > 0", pin="mm > 0")
def pin_shear(torque: Numbers, diameter: Numbers, pin: Numbers, pins: int = 1) -> Numbers:
    r"""Shear in pins across shaft and hub, two planes each.

    .. math:: \tau = \frac{4\,T}{\pi d_p^2\, D\, n}

    Parameters
    ----------
    torque : quantity, any shape
    diameter, pin : quantity, broadcast
        Of the shaft, and of the pin (a taper pin: in the middle).
    pins : int

    Returns
    -------
    quantity [MPa], the broadcast shape

    References
    ----------
    Force on each plane is T / D; any text on machine elements.

    Examples
    --------
    >>> round(pin_shear("200 N*m", "45 mm", "12 mm"), 1)
    <Quantity(39.3, 'megapascal')>
    """
    return 4e3 * torque / (pi * pin**2 * diameter * pins)


@in_units("MPa", torque="N*m", diameter="mm > 0", pin="mm > 0", wall="mm > 0")
def pin_pressure(
    torque: Numbers, diameter: Numbers, pin: Numbers, wall: Numbers, pins: int = 1
) -> Numbers:
    r"""Pressure of cross pins in the hub's or sleeve's wall.

    .. math:: p = \frac{T}{(D + w)\, w\, d_p\, n}

    Parameters
    ----------
    torque : quantity, any shape
    diameter, pin, wall : quantity, broadcast
        Of the shaft, the pin and the wall.
    pins : int

    Returns
    -------
    quantity [MPa], the broadcast shape

    References
    ----------
    Even pressure on both walls; any text on machine elements.

    Examples
    --------
    >>> round(pin_pressure("200 N*m", "45 mm", "12 mm", "5 mm"), 1)
    <Quantity(66.7, 'megapascal')>
    """
    return 1e3 * torque / ((diameter + wall) * wall * pin * pins)


@in_units("MPa", torque="N*m", diameter="mm > 0", pin="mm > 0")
def pin_pressure_in_shaft(
    torque: Numbers, diameter: Numbers, pin: Numbers, pins: int = 1
) -> Numbers:
    r"""Greatest pressure of cross pins in the shaft, where they leave it.

    .. math:: p = \frac{6\,T}{d_p\, D^2\, n}

    Parameters
    ----------
    torque : quantity, any shape
    diameter, pin : quantity, broadcast
        Of the shaft and the pin.
    pins : int

    Returns
    -------
    quantity [MPa], the broadcast shape

    References
    ----------
    Pressure rising evenly from the shaft's middle to its surface; cross pins under torque in any text on
    machine elements.

    Examples
    --------
    >>> round(pin_pressure_in_shaft("200 N*m", "45 mm", "12 mm"), 1)
    <Quantity(49.4, 'megapascal')>
    """
    return 6e3 * torque / (pin * diameter**2 * pins)
