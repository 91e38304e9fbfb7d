"""Sizes that are in stock, on a rule or in a table of modules, and how a file writes them."""

from __future__ import annotations

import math
from collections.abc import Callable
from fractions import Fraction

import numpy as np

from mixerkit.fields.kinds import QuantityKind
from mixerkit.tables import table
from mixerkit.units import Span

__all__ = ["IN_STOCK", "exactly", "settable_sizes", "whole"]

IN_STOCK = {
    "shaft_1.diameter": "stock_round",
    "shaft_2.diameter": "stock_round",
    "shaft_1.step_diameters": "stock_round",
    "shaft_2.step_diameters": "stock_round",
    "housing.idler_pin": "stock_round",
    "housing.dowel": "pins",
    "sleeve.pin_diameter": "pins",
    "hubs.pin_diameter": "pins",
}
"""Round bar and round pins, and the table of what can be bought."""
_FINE = {
    "fuse.pin_diameter": (0.1, 0.005),
    "paths.direct.thinning": (0.01, 0.001),
    "paths.idler.thinning": (0.01, 0.001),
    "clutch.overlap": (0.5, 1 / 32),
    "trough.wall_thickness": (0.5, 1 / 32),
    "sleeve.wall": (0.5, 1 / 32),
    "paddles.weld_throat": (0.5, 1 / 32),
    "bearings.bush_wall": (0.5, 1 / 32),
    "motor.jacking_torque": (1.0, 1.0),
    "shaft_1.fillet": (0.5, 1 / 32),
    "shaft_2.fillet": (0.5, 1 / 32),
    "paddles.thickness": (0.5, 1 / 32),
}
"""Steps in mm and in inches of what is set finer than a rule reads (common practice)."""
_STEPS = {
    "mm": (1.0, 1 / 16),
    "deg": (1.0, 1.0),
    "Hz": (1.0, 1.0),
    "N": (10.0, 2.0),
    "N*m": (10.0, 5.0),
}
"""Steps by the unit a field declares, in that unit and in its twin of :data:`_TWINS` (common practice)."""
_TWINS = {"mm": ("in", 25.4), "N": ("lbf", 4.4482216152605), "N*m": ("lbf*ft", 1.3558179483314)}
"""Units an inch maker sets, and how much of the declared unit each is (NIST SP 811, appendix B)."""
_LONGEST = 20_000
"""Values on one axis at most; a coarser step is taken where there would be more."""


def whole(number: float) -> float | int:
    """A number as it is typed: 80, not 80.0."""
    return int(number) if float(number).is_integer() else float(number)


def settable_sizes(
    dotted: str, kind: QuantityKind, system: str
) -> tuple[np.ndarray, Callable[[float], str]]:
    """Settable sizes of a field as plain numbers, and how one of them is written in a file."""
    limits = Span.read(kind.span)
    inch = system == "inch"
    if kind.reciprocal:
        return _modules(limits, inch)
    if dotted in IN_STOCK:
        sizes = table(IN_STOCK[dotted]).only("series", system).column("diameter")
        sizes = np.sort(sizes[[bool(limits.holds(one)) for one in sizes]])
    else:
        _, scale = _own_unit(limits.unit, system)
        step = _FINE.get(dotted, _STEPS.get(limits.unit, (1.0, 1.0)))[inch] * scale
        low, high = max(limits.above, limits.least), min(limits.below, limits.most)
        step *= max(1, math.ceil((high - low) / step / _LONGEST))
        sizes = np.arange(math.ceil(low / step), math.floor(high / step) + 1) * step
        inside = limits.holds(np.asarray(sizes, float))
        sizes = np.round(sizes[np.asarray(inside)], 6)

    def write(size: float) -> str:
        return _written(size, limits.unit, system)

    return sizes, write


def _own_unit(unit: str, system: str) -> tuple[str, float]:
    """Unit in which this maker sets what a field declares in another, and how much of that it is."""
    return _TWINS.get(unit, (unit, 1.0)) if system == "inch" else (unit, 1.0)


def _written(size: float, unit: str, system: str) -> str:
    own, scale = _own_unit(unit, system)
    number = size / scale
    sixty_fourths = round(number * 64)
    if own == "in" and abs(sixty_fourths / 64 - number) < 1e-6:
        whole, rest = divmod(Fraction(sixty_fourths, 64), 1)
        return " ".join(
            [*([str(whole)] if whole or not rest else []), *([str(rest)] if rest else []), own]
        )
    return f"{round(number, 6):.10g} {own.replace('**', '^')}"


def _modules(limits: Span, inch: bool) -> tuple[np.ndarray, Callable[[float], str]]:
    if inch:
        pitches = sorted(table("diametral_pitches").column("pitch"), reverse=True)
        by_size = {25.4 / one: f"{one:g} / in" for one in pitches}
        return np.array(list(by_size)), lambda size: by_size[size]
    sizes = np.sort(table("modules").column("module"))
    sizes = sizes[[bool(limits.holds(one)) for one in sizes]]
    return sizes, lambda size: f"{size:g} mm"


def exactly(kind: QuantityKind, value: float, now: float, system: str) -> list[str]:
    """Write a number as it is, to a hundredth of a millimetre or a thousandth of an inch, both ways."""
    own, scale = _own_unit(Span.read(kind.span).unit, system)
    grid = 1000 if own == "in" else 100
    up, down = math.ceil(value / scale * grid - 1e-6), math.floor(value / scale * grid + 1e-6)
    both = (up, down) if value > now else (down, up)
    return [f"{one / grid:.10g} {own.replace('**', '^')}" for one in dict.fromkeys(both)]
