"""How a number was worked out: the formula in mathematics, what stands in it, and where each part came from.

A working is either one formula with all its symbols, so that a reader with a pocket calculator gets
what the kit got; or, where a beam is solved, a curve followed or a range searched, the method in words
with what went in and what came out; or a number that stands in the design or a table as it is.
"""

from __future__ import annotations

import math
import re
from dataclasses import dataclass

from mixerkit.units import show, shown_scale

__all__ = ["Given", "Working", "as_given", "by_method", "worked"]

Given = tuple[float, str, str]
"""A number, its unit, and where it came from: a field such as ``shaft_2.diameter``, a row of a table, a
stage's result in words, or ``common practice``."""
_RESULT = 4
"""Digits of a result; a whole number keeps all of its own."""
_DIGITS = 6
"""Digits of what goes in, so that what comes out is the same to the last digit shown."""
_SPARE = 3
"""Digits by which what goes in is finer than a result with many whole digits, a fourth power or so of it."""
_SIGNS = {
    "alpha": "α",
    "beta": "β",
    "delta": "δ",
    "epsilon": "ε",
    "eta": "η",
    "mu": "μ",
    "nu": "ν",
    "omega": "ω",
    "phi": "φ",
    "pi": "π",
    "psi": "ψ",
    "rho": "ρ",
    "sigma": "σ",
    "tau": "τ",
    "theta": "θ",
    "Delta": "Δ",
}


@dataclass(frozen=True)
class Working:
    """One number worked out.

    Attributes
    ----------
    symbol : str
        Of the result, such as ``"tau"``.
    formula : str
        Right side in plain mathematics, such as ``"16*T/(pi*d**3)"``; empty where there is only a method.
        ``sqrt``, ``sin``, ``cos``, ``tan``, ``atan``, ``log``, ``exp``, ``Max``, ``Min`` and ``Abs`` may
        stand in it. Its numbers carry their units, so that none is converted on the way.
    given : tuple of (str, float, str, str)
        Symbol, number, unit, and where it came from.
    result : float
    unit : str
    source : str
        Standard and clause; empty where it is the check's.
    method : str
        How it was found, where that is no formula; empty too where the number is given as it stands.
    """

    symbol: str
    formula: str
    given: tuple[tuple[str, float, str, str], ...]
    result: float
    unit: str
    source: str = ""
    method: str = ""

    def formula_shown(self) -> str:
        """Write the formula as it is printed: with Greek letters, a dot to multiply and raised powers."""
        return _printed(self.formula)

    def result_shown(self, system: str) -> str:
        """Write the result with its unit for this maker.

        A small difference of large numbers is no finer than they are shown.
        """
        result = self.result
        alike = [abs(value) for _, value, unit, _ in self.given if unit == self.unit]
        if 0 < max(alike, default=0.0) < math.inf and math.isfinite(result):
            factor, _ = shown_scale(self.unit, system)
            places = max(_DIGITS - 2 - math.floor(math.log10(max(alike) * factor)), 0)
            result = round(result * factor, places) / factor
        return show(result, self.unit, system, _RESULT)

    def given_shown(self, system: str) -> list[tuple[str, str, str]]:
        """List what stands in the formula: symbol, number with its unit for this maker, and where from."""
        whole = len(self.result_shown(system).partition(" ")[0].partition(".")[0].lstrip("-"))
        digits = max(_DIGITS, whole + _SPARE)
        return [
            (_printed(symbol), show(value, unit, system, digits), origin)
            for symbol, value, unit, origin in self.given
        ]

    def lines(self, system: str) -> list[str]:
        """Write it for a person: a line for the formula and one for each symbol, or one line for what is given."""
        if not self.formula and not self.method:
            return [
                f"{symbol} = {value}: {origin}"
                for symbol, value, origin in self.given_shown(system)
            ]
        how = self.formula_shown() if self.formula else self.method
        lead = f"{_printed(self.symbol)} = {how}"
        if not self.formula:
            lead = f"{_printed(self.symbol)}: {how}"
        lines = [f"{lead} = {self.result_shown(system)}" if self.formula else lead]
        lines += [
            f"  {symbol} = {value}: {origin}" for symbol, value, origin in self.given_shown(system)
        ]
        if not self.formula:
            lines.append(f"  gives {_printed(self.symbol)} = {self.result_shown(system)}")
        return lines + ([f"  source: {self.source}"] if self.source else [])


def worked(formula: str, result: float, unit: str, *, source: str = "", **given: Given) -> Working:
    """Say by which formula a number was worked out.

    Parameters
    ----------
    formula : str
        Both sides, such as ``"tau = 16*T/(pi*d**3)"``.
    result : float
        As the kit got it, in ``unit``.
    unit : str
    source : str
        Where it is not that of the check.
    **given : tuple of (float, str, str)
        Each symbol of the formula: its number, its unit, and where it came from.

    Returns
    -------
    Working

    Examples
    --------
    >>> shear = worked(
    ...     "tau = 16*T/(pi*d**3)", 28.38, "MPa",
    ...     T=(508.0, "N*m", "power flow"), d=(45.0, "mm", "shaft_2.diameter"),
    ... )
    >>> for line in shear.lines("metric"):
    ...     print(line)
    τ = 16·T/(π·d³) = 28.38 MPa
      T = 508 N·m: power flow
      d = 45 mm: shaft_2.diameter
    """
    symbol, _, right = formula.partition(" = ")
    return Working(
        symbol, right, tuple((name, *one) for name, one in given.items()), result, unit, source
    )


def by_method(
    symbol: str, method: str, result: float, unit: str, *, source: str = "", **given: Given
) -> Working:
    """Say by which method a number was found that no formula gives.

    Parameters
    ----------
    symbol : str
    method : str
        In words: what was solved, followed or searched.
    result : float
    unit : str
    source : str
    **given : tuple of (float, str, str)
        What went in.

    Returns
    -------
    Working

    Examples
    --------
    >>> for line in by_method("M", "beam on three bearings", 812.0, "N*m").lines("metric"):
    ...     print(line)
    M: beam on three bearings
      gives M = 812 N·m
    """
    entries = tuple((name, *one) for name, one in given.items())
    return Working(symbol, "", entries, result, unit, source, method)


def as_given(symbol: str, value: float, unit: str, origin: str) -> Working:
    """Say that a number is held against another as a field or a table's row gives it.

    Parameters
    ----------
    symbol : str
    value : float
    unit : str
    origin : str
        The field, such as ``"shaft_1.diameter"``, or ``"data/tables/NAME.csv, ROW: COLUMN"``.

    Returns
    -------
    Working

    Examples
    --------
    >>> as_given("d", 45.0, "mm", "shaft_1.diameter").lines("metric")
    ['d = 45 mm: shaft_1.diameter']
    """
    return Working(symbol, "", ((symbol, value, unit, origin),), value, unit)


def _printed(text: str) -> str:
    text = re.sub(r"[A-Za-z]+(?=_|\b)", lambda found: _SIGNS.get(found[0], found[0]), text)
    text = text.replace("**2", "²").replace("**3", "³").replace("**4", "⁴").replace("**", "^")
    return text.replace("*", "·")
