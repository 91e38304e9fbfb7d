"""What a unit measures, in words: a length, a torque, a power."""

from __future__ import annotations

import functools

from pint import Unit
from pint.util import UnitsContainer

from mixerkit.units.registry import Measured, unit_of

__all__ = ["KINDS", "describe", "kind_of_unit", "nature", "wanted"]


# One row a dimension: unit, what a message calls it, an example, its twin in inch units.
# An angle has no dimension of its own in SI; the flag keeps rpm from being read as Hz.
KINDS: tuple[tuple[str, str, str, str], ...] = (
    ("", "a plain number", "0.85", ""),
    ("deg", "an angle", "20 deg", "deg"),
    ("mm", "a length", "35 mm", "in"),
    ("mm**2", "an area", "400 mm^2", "in**2"),
    ("L", "a volume", "12 L", "gal"),
    ("kg", "a mass", "15 kg", "lb"),
    ("min", "a time", "10 min", "min"),
    ("rpm", "a rotational speed", "24 rpm", "rpm"),
    ("Hz", "a frequency", "50 Hz", "Hz"),
    ("m/s", "a speed", "0.3 m/s", "ft/min"),
    ("N", "a force", "500 N", "lbf"),
    ("N*m", "a torque", "120 N*m", "lbf*ft"),
    ("MPa", "a stress or pressure", "355 MPa", "psi"),
    ("kW", "a power", "1.5 kW", "hp"),
    ("N/mm", "a force along a length", "40 N/mm", "lbf/in"),
    ("kg/m**3", "a density", "7850 kg/m^3", "lb/in**3"),
    ("kg*m**2", "a moment of inertia", "0.02 kg*m^2", "lb*ft**2"),
    ("N*m/deg", "a torsional stiffness", "300 N*m/deg", "lbf*ft/deg"),
    ("1/mm", "a diametral pitch", "5 / in", "1/in"),
    ("K", "a temperature", "293 K", "degF"),
    ("V", "a voltage", "230 V", "V"),
    ("A", "a current", "13 A", "A"),
    ("ohm", "a resistance", "0.5 ohm", "ohm"),
    ("kg/h", "a mass flow", "60 kg/h", "lb/h"),
)
_ANGLES = ("radian", "degree", "revolution", "rpm")


@functools.lru_cache(maxsize=512)
def nature(unit: Unit) -> tuple[UnitsContainer, bool]:
    """Dimension of a unit, and whether it counts angle or turns."""
    names = str(unit)
    return unit.dimensionality, any(angle in names for angle in _ANGLES)


@functools.lru_cache(maxsize=512)
def kind_of_unit(unit: Unit) -> tuple[str, str]:
    """What a message calls a unit's dimension, and an example of it."""
    for text, name, example, _ in KINDS:
        if nature(unit_of(text)) == nature(unit):
            return name, example
    return f"a quantity in {unit:~P}", f"1 {unit:~C}"


def describe(value: Measured | str) -> str:
    """Say in words what a quantity or a unit text measures.

    Parameters
    ----------
    value : quantity or str
        A quantity, or a unit such as ``"kW"``.

    Returns
    -------
    str
        Such as ``"a power"``.

    Examples
    --------
    >>> from mixerkit.units import Q_
    >>> describe("kW"), describe(Q_("3 in"))
    ('a power', 'a length')
    """
    return kind_of_unit(unit_of(value) if isinstance(value, str) else value.units)[0]


def wanted(unit: str, example: str | None) -> str:
    """Say what a unit wants, with an example."""
    name, usual = kind_of_unit(unit_of(unit))
    return f'{name} is wanted, for example "{example or usual}"'
