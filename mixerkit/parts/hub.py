"""How a hub holds its shaft: keys, set screws, flats, clamps, and what each may carry."""

from __future__ import annotations

import numpy as np

from mixerkit.results import Numbers
from mixerkit.units import in_units

__all__ = [
    "TIPS",
    "carrying_dogs",
    "clamp_torque",
    "flat_torque",
    "key_pressure",
    "key_shear",
    "screw_pull",
    "set_screw_share",
    "set_screw_torque",
]


TIPS = {"cup": 1.0, "cone": 1.07, "half-dog": 1.0, "flat": 0.92, "oval": 0.90}
"""Holding power of a set screw's tip over that of a cup point, on the bare shaft; cone and half-dog in a
drilled spot hold until they shear (makers' charts, from memory)."""


_AT_ONCE = 3
"""Dogs that bear at once, however many there are: three faces find each other, a fourth only after wear
(common practice for dogs milled on a dividing head)."""


def carrying_dogs(dogs: float, share: float) -> float:
    """How many dogs carry: a share of them, at least one, and no more than bear at once.

    Parameters
    ----------
    dogs : float
        On each face.
    share : float
        Of them that carry.

    Returns
    -------
    float

    Examples
    --------
    >>> round(carrying_dogs(3, 0.67), 2), carrying_dogs(24, 0.67)
    (2.01, 3.0)
    """
    return float(min(max(1.0, dogs * share), _AT_ONCE))


@in_units("MPa", torque="N*m", diameter="mm > 0", depth="mm > 0", length="mm > 0")
def key_pressure(torque: Numbers, diameter: Numbers, depth: Numbers, length: Numbers) -> Numbers:
    r"""Pressure on the flank of a parallel key.

    .. math:: p = \frac{2\,T}{d\,t\,l}

    Parameters
    ----------
    torque : quantity, any shape
    diameter : quantity, broadcast
        Of the shaft.
    depth, length : quantity, broadcast
        Of the key's flank in the part looked at; the hub's is the shallower.

    Returns
    -------
    quantity [MPa], the broadcast shape

    References
    ----------
    Shigley, 10th ed., section 7-7 and example 7-6 in its form; DIN 6892 method C (from memory).

    Examples
    --------
    >>> round(key_pressure("200 N*m", "45 mm", "3.8 mm", "40 mm"), 1)
    <Quantity(58.5, 'megapascal')>
    """
    return 2e3 * torque / (diameter * depth * length)


@in_units("MPa", torque="N*m", diameter="mm > 0", width="mm > 0", length="mm > 0")
def key_shear(torque: Numbers, diameter: Numbers, width: Numbers, length: Numbers) -> Numbers:
    r"""Shear in a parallel key.

    .. math:: \tau = \frac{2\,T}{d\,b\,l}

    Parameters
    ----------
    torque : quantity, any shape
    diameter, width, length : quantity, broadcast
        Of the shaft, and of the key.

    Returns
    -------
    quantity [MPa], the broadcast shape

    References
    ----------
    Shigley, 10th ed., section 7-7.

    Examples
    --------
    >>> round(key_shear("200 N*m", "45 mm", "14 mm", "40 mm"), 1)
    <Quantity(15.9, 'megapascal')>
    """
    return 2e3 * torque / (diameter * width * length)


@in_units("", angle="deg >= 0 <= 180")
def set_screw_share(angle: Numbers) -> Numbers:
    r"""Torque two set screws hold over that of one, by the angle between them.

    .. math:: 1 + \cos(\theta / 2)

    Each screw grips at its tip, and presses the shaft on the far side of the bore, where it grips
    again. Two screws at an angle press that side together with :math:`2 F \cos(\theta/2)`; at 120
    degrees the three contacts are equal and the shaft sits truest.

    Parameters
    ----------
    angle : quantity, any shape

    Returns
    -------
    quantity, the same shape

    References
    ----------
    Statics; makers' charts of holding power over the angle run alike, from 200 % to 100 %.

    Examples
    --------
    >>> set_screw_share("0 deg"), round(set_screw_share("120 deg"), 2)
    (<Quantity(2.0, 'dimensionless')>, <Quantity(1.5, 'dimensionless')>)
    """
    return 1 + np.cos(np.radians(angle) / 2)


@in_units("N*m", holding_power="N >= 0", diameter="mm > 0", angle="deg >= 0 <= 180")
def set_screw_torque(
    holding_power: Numbers, diameter: Numbers, count: int = 1, angle: Numbers = 120.0
) -> Numbers:
    r"""Torque at which set screws begin to slip round a shaft.

    Parameters
    ----------
    holding_power : quantity, any shape
        Of one screw, see data/tables/set_screws.csv.
    diameter : quantity, broadcast
        Of the shaft.
    count : int
        Screws; they are taken as pairs along the shaft, each pair at the angle.
    angle : quantity
        Between the two of a pair.

    Returns
    -------
    quantity [N*m], the broadcast shape

    References
    ----------
    Shigley, 10th ed., section 7-7: holding power at the shaft's radius; several screws by
    :func:`set_screw_share`.

    Examples
    --------
    >>> round(set_screw_torque("8896 N", "25 mm"), 1)
    <Quantity(111.2, 'newton * meter')>
    """
    share = (count // 2) * set_screw_share.formula(angle) + count % 2
    return holding_power * share * diameter / 2e3


@in_units("N*m", pressure="MPa >= 0", width="mm > 0", length="mm > 0")
def flat_torque(pressure: Numbers, width: Numbers, length: Numbers, flats: int = 1) -> Numbers:
    r"""Torque of flats milled on a shaft, in a bore that fits them.

    .. math:: T = n\,p\,\frac{b^2 l}{12}

    Parameters
    ----------
    pressure : quantity, any shape
        Greatest, at the flat's edge; it falls to nothing at its middle.
    width, length : quantity, broadcast
        Of one flat across and along.
    flats : int

    Returns
    -------
    quantity [N*m], the broadcast shape

    References
    ----------
    Pressure rising evenly over half the flat, times its lever.

    Examples
    --------
    >>> flat_torque("100 MPa", "20 mm", "30 mm", 2)
    <Quantity(200.0, 'newton * meter')>
    """
    return flats * pressure * width**2 * length / 12e3


@in_units("N", stress_area="mm**2 > 0")
def screw_pull(stress_area: Numbers, yield_strength: float = 640.0) -> Numbers:
    """Pull of a well tightened screw: 0.7 of yield on its stress area.

    Parameters
    ----------
    stress_area : quantity, any shape
    yield_strength : float
        In MPa; 640 for property class 8.8.

    Returns
    -------
    quantity [N], the same shape

    References
    ----------
    Common practice; property class ISO 898-1.

    Examples
    --------
    >>> screw_pull("58 mm^2")
    <Quantity(25984.0, 'newton')>
    """
    return 0.7 * yield_strength * stress_area


@in_units("N*m", pull="N >= 0", diameter="mm > 0")
def clamp_torque(
    pull: Numbers, diameter: Numbers, screws: int, friction: Numbers = 0.12
) -> Numbers:
    r"""Torque a split hub holds by its screws.

    .. math:: T = n\,F\,\mu\,D

    Parameters
    ----------
    pull : quantity, any shape
        Of one screw, see :func:`screw_pull`.
    diameter : quantity, broadcast
    screws : int
    friction : float
        0.12 for wiped steel (common practice).

    Returns
    -------
    quantity [N*m], the broadcast shape

    References
    ----------
    Two halves that touch along a line each, the least a clamp may hold; any text on machine elements.

    Examples
    --------
    >>> round(clamp_torque("25984 N", "45 mm", 2))
    <Quantity(281, 'newton * meter')>
    """
    return screws * pull * friction * diameter / 1e3
