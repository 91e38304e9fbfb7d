"""The idler's pin: with which fits it is turned, and from which bar."""

from __future__ import annotations

from mixerkit.frozen import result
from mixerkit.parts.bush_walls import TURNS
from mixerkit.shop.blanks import limits_of
from mixerkit.shop.turning import round_bar
from mixerkit.spec import Spec

__all__ = ["IN_PLATES", "Pin", "idler_pin"]

IN_PLATES = "h6"
"""Zone of the pin's ends in the plates' H7 (common practice): one of them goes in through the reamed bush, which a
driven fit would not pass, and a screw and a washer at either end hold it."""


@result
class Pin:
    """The idler's pin as it is turned, in mm.

    Attributes
    ----------
    diameter, length : float
    turns : tuple of float
        Least and most between the plates, where the idler's bush turns on it.
    ends : tuple of float
        Least and most of its ends in the plates.
    bar : str
        Bar it is turned from, in words.
    material : str
    """

    diameter: float
    length: float
    turns: tuple[float, float]
    ends: tuple[float, float]
    bar: str
    material: str


def idler_pin(spec: Spec, system: str = "metric") -> Pin:
    """Give the idler's pin as it is turned: bill, sheet, measurement and assembly read it here.

    Parameters
    ----------
    spec : Spec
    system : str
        Whose bars: ``"metric"`` or ``"inch"``.

    Returns
    -------
    Pin
    """
    size = spec.housing.idler_pin
    return Pin(
        diameter=size,
        length=spec.housing.plate_spacing + 2 * spec.housing.plate_thickness,
        turns=limits_of(size, TURNS),
        ends=limits_of(size, IN_PLATES),
        bar=round_bar(size, system),
        material=spec.shaft_1.material,
    )
