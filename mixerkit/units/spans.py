"""A unit and the range allowed in it."""

from __future__ import annotations

import functools
import math
import re
from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from mixerkit.units.natures import kind_of_unit
from mixerkit.units.reading import read_quantity
from mixerkit.units.refused import InputError
from mixerkit.units.registry import Numbers, unit_of

__all__ = ["Span", "to_plain"]


_LEAST_MEANT = 1e-12
"""Size of a number, in the unit a field declares, below which it can only be a slip."""


@dataclass(frozen=True)
class Span:
    """A unit and the range allowed in it, written like ``"mm > 0 <= 500"``.

    Attributes
    ----------
    unit : str
    above, least, below, most : float
        Open and closed limits in that unit; infinite where there is none.
    """

    unit: str
    above: float = -math.inf
    least: float = -math.inf
    below: float = math.inf
    most: float = math.inf

    @classmethod
    @functools.lru_cache(maxsize=512)
    def read(cls, text: str) -> Span:
        """Read the written form; see the class."""
        head, *_ = re.split(r"[<>]", text, maxsplit=1)
        limits = {sign: float(number) for sign, number in re.findall(r"([<>]=?)\s*(\S+)", text)}
        return cls(
            head.strip(),
            above=limits.get(">", -math.inf),
            least=limits.get(">=", -math.inf),
            below=limits.get("<", math.inf),
            most=limits.get("<=", math.inf),
        )

    def holds(self, value: Numbers) -> bool | npt.NDArray[np.bool_]:
        """Whether plain numbers in this unit lie inside; elementwise for arrays."""
        return (
            (value > self.above)
            & (value >= self.least)
            & (value < self.below)
            & (value <= self.most)
        )

    def words(self) -> str:
        """Range in words, such as ``"above 0 mm, at most 500 mm"``."""
        unit = f" {unit_of(self.unit):~P}".rstrip()
        pairs = (
            ("above", self.above),
            ("at least", self.least),
            ("below", self.below),
            ("at most", self.most),
        )
        return ", ".join(f"{word} {limit:g}{unit}" for word, limit in pairs if math.isfinite(limit))

    def check(self, raw: object, plain: Numbers, example: str | None = None) -> None:
        """Refuse plain numbers outside the range.

        Raises
        ------
        InputError
            Naming what was given and the range.
        """
        # a size below all that is anything overflows a formula, and was not meant
        tiny = np.any((np.abs(np.asarray(plain)) < _LEAST_MEANT) & (np.asarray(plain) != 0))
        if tiny or not np.all(self.holds(np.asarray(plain))):
            name, usual = kind_of_unit(unit_of(self.unit))
            given = f"{raw:~P}" if hasattr(raw, "dimensionality") else raw
            raise InputError(
                f'"{given}" is out of range; {name} {self.words()} is wanted, '
                f'for example "{example or usual}".'
            )


def to_plain(raw: object, span: str, example: str | None = None) -> Numbers:
    """Read a quantity, check its range, give the plain float or array in the span's unit.

    Parameters
    ----------
    raw : str or quantity
    span : str
        Such as ``"mm > 0"``; see :class:`Span`.
    example : str, optional

    Returns
    -------
    float or numpy.ndarray

    Raises
    ------
    InputError
        As :func:`read_quantity`, or if out of range.

    Examples
    --------
    >>> to_plain("1 in", "mm > 0")
    25.4
    """
    limits = Span.read(span)
    quantity = read_quantity(raw, limits.unit, example)
    plain = quantity.m_as(unit_of(limits.unit))
    limits.check(raw, plain, example)
    return plain if isinstance(plain, np.ndarray) else float(plain)
