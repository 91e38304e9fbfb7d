"""Numbers written for a person, in millimetres or inches and to the digits that mean something."""

from __future__ import annotations

import functools
import math
from collections.abc import Callable

from mixerkit.units.registry import Quantity, unit_of

__all__ = ["digits_apart", "lengths", "show", "shown_scale", "shown_unit"]
_INCH_TWINS = {
    "mm": "in",
    "m": "ft",
    "kg": "lb",
    "g": "oz",
    "N": "lbf",
    "kN": "lbf",
    "N*m": "lbf*ft",
    "MPa": "psi",
    "MPa*m/s": "psi*ft/min",
    "kPa": "psi",
    "kW": "hp",
    "W": "hp",
    "m/s": "ft/min",
    "mm**2": "in**2",
    "L": "gal",
    "N/mm": "lbf/in",
    "kg/m**3": "lb/in**3",
    "kg*m**2": "lb*ft**2",
    "kg/h": "lb/h",
    "degC": "degF",
    # a kelvin is a difference here, warming and the like
    "K": "delta_degF",
    "um": "thou",
    "mm**3": "in**3",
    "mm**2/s": "cSt",
    "J": "lbf*ft",
    "kJ": "lbf*ft",
    "N*m/deg": "lbf*ft/deg",
    "GPa": "ksi",
    "1/mm": "1/in",
}


def shown_unit(unit: str, system: str = "metric") -> str:
    """Name the unit in which a quantity of ``unit`` is shown to this maker.

    Parameters
    ----------
    unit : str
        Unit in the metric system.
    system : str
        ``"metric"`` or ``"inch"``.

    Returns
    -------
    str

    Examples
    --------
    >>> shown_unit("N*m", "inch"), shown_unit("N*m")
    ('lbf*ft', 'N*m')
    """
    return _INCH_TWINS.get(unit, unit) if system == "inch" else unit


@functools.lru_cache(maxsize=256)
def _factor(unit: str, shown: str) -> tuple[float, str]:
    label = f"{unit_of(shown):~P}"
    label = {
        "ft·lbf": "lbf·ft",
        "m·N": "N·m",
        "ft·lbf/°": "lbf·ft/°",
        "Δ°F": "degF",
        "ft·psi/min": "psi·ft/min",
    }.get(label, label)
    return float(Quantity(1.0, unit_of(unit)).m_as(unit_of(shown))), label


def shown_scale(unit: str, system: str = "metric") -> tuple[float, str]:
    """Give factor and label that take plain numbers in a unit to what this maker reads.

    Parameters
    ----------
    unit : str
        Unit in the metric system; not a temperature, which has a zero of its own.
    system : str
        ``"metric"`` or ``"inch"``.

    Returns
    -------
    tuple of (float, str)

    Examples
    --------
    >>> shown_scale("mm"), round(shown_scale("K", "inch")[0], 3)
    ((1.0, 'mm'), 1.8)
    """
    return _factor(unit, shown_unit(unit, system))


def show(value: float, unit: str, system: str = "metric", digits: int = 3) -> str:
    """Write a plain number in ``unit`` as the maker wants to read it.

    Parameters
    ----------
    value : float
        Plain number in ``unit``.
    unit : str
    system : str
        ``"metric"`` or ``"inch"``.
    digits : int
        Significant digits; whole numbers keep all their digits.

    Returns
    -------
    str

    Examples
    --------
    >>> show(508.2, "N*m"), show(25.4, "mm", "inch"), show(12345.0, "N"), show(float("nan"), "N")
    ('508 N·m', '1 in', '12345 N', 'not known')
    """
    value = float(value)
    if math.isnan(value):
        return "not known"
    if unit in ("degC", "degF"):
        shown = Quantity(value, unit).m_as(shown_unit(unit, system))
        label = f"{unit_of(shown_unit(unit, system)):~P}"
    else:
        factor, label = shown_scale(unit, system)
        shown = value * factor
    return f"{_significant(shown, digits)} {label}".rstrip()


def digits_apart(one: float, other: float, unit: str, system: str = "metric") -> int:
    """Significant digits in which two numbers in ``unit`` are seen to differ, from three on.

    Parameters
    ----------
    one, other : float
        Plain numbers in ``unit``.
    unit : str
    system : str
        ``"metric"`` or ``"inch"``.

    Returns
    -------
    int
        No more than eight.

    Examples
    --------
    >>> digits_apart(33.2, 31.0, "mm"), digits_apart(33.02, 33.0, "mm")
    (3, 4)
    """
    if not (math.isfinite(one) and math.isfinite(other)):
        return 3
    alike = (show(one, unit, system, k) == show(other, unit, system, k) for k in range(3, 8))
    return next((k for k, same in enumerate(alike, 3) if not same), 8)


def lengths(system: str) -> Callable[..., str]:
    """Give what writes a length in mm as this maker reads it, to four digits or as many as are asked.

    Parameters
    ----------
    system : str
        ``"metric"`` or ``"inch"``.

    Returns
    -------
    callable
        Of a plain number in mm, and of the significant digits.

    Examples
    --------
    >>> lengths("metric")(12.3456), lengths("inch")(25.4, 2)
    ('12.35 mm', '1 in')
    """

    def say(size: float, digits: int = 4) -> str:
        return show(size, "mm", system, digits)

    return say


def _significant(value: float, digits: int) -> str:
    if not math.isfinite(value):
        return "no limit" if value > 0 else "none"
    if value == 0:
        return "0"
    places = max(digits - 1 - math.floor(math.log10(abs(value))), 0)
    text = f"{value:.{places}f}"
    return text.rstrip("0").rstrip(".") if "." in text else text
