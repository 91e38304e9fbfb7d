"""A size as made: what it ought to be, and what a strange one probably is.

Each measurement is first asked whether it is plausible: a slip of units, a radius, the wrong end of the
box, the blank of another tooth count. Only then does it count as a size.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

from mixerkit.shop.measurements import COUNTED
from mixerkit.units import show

__all__ = ["Finding", "Said", "Wanted", "either_side", "judge"]

Said = Callable[[float], str]
"""Writes a size or a count as this maker wants to read it."""
_SLIPS = (
    (25.4, False, "these are inches written as millimetres"),
    (1 / 25.4, False, "this is 25.4 times too much: millimetres taken for inches"),
    (10.0, False, "a tenth of it: centimetres written as millimetres"),
    (0.1, False, "ten times it: a decimal point is out of place"),
    (2.0, True, "half of it: a radius, not a diameter"),
    (0.5, False, "twice it: a diameter taken from a radius"),
)
"""By how much a slip of the pen or the mind is out, whether only of what may be round, and its words."""


def _metal(one: Wanted, value: float, said: Said) -> str:
    """Whether metal can still come off."""
    beyond = one.beyond(value)
    end = "no metal can be put back" if one.spoiled(value) else "metal can still come off"
    return f"{said(round(abs(beyond), 4))} too {'large' if beyond > 0 else 'small'}: {end}"


@dataclass(frozen=True)
class Wanted:
    """What a measurement ought to be.

    Attributes
    ----------
    name : str
        Dotted, as in the file.
    words : str
    nominal, least, most : float
        In mm, or a count.
    slips : tuple of (float, str)
        Values that a known mistake would give, with what the mistake is.
    outside : bool
        Whether metal comes off as it is made smaller: a turned diameter, not a bore.
    off : callable
        Says what a value beyond its limits means.
    """

    name: str
    words: str
    nominal: float
    least: float
    most: float
    slips: tuple[tuple[float, str], ...] = ()
    outside: bool = True
    off: Callable[[Wanted, float, Said], str] = _metal

    @property
    def counted(self) -> bool:
        """Whether it is a count, not a size."""
        return self.name.rsplit(".", 1)[-1] in COUNTED

    def beyond(self, value: float) -> float:
        """How far a value is over the most, or below zero under the least."""
        return value - (self.most if value > self.most else self.least)

    def spoiled(self, value: float) -> bool:
        """Whether a value beyond its limits is of metal that is gone, which nobody puts back."""
        return not self.counted and self.outside != (self.beyond(value) > 0)

    def near(self, value: float, size: float) -> bool:
        """Whether a value may well be this size, measured as such sizes are."""
        close = 0.0 if self.counted else max(self.most - self.least, 0.02, 1.2e-3 * size)
        return abs(value - size) <= close


def either_side(size: float, off: float) -> tuple[float, float, float]:
    """Nominal, least and most of what may be so much off either way."""
    return size, size - off, size + off


@dataclass(frozen=True)
class Finding:
    """What a measurement says.

    Attributes
    ----------
    name : str
    kind : str
        ``"good"``; ``"slip"``: probably measured or written wrong; ``"wrong"``: another part or setting
        than the drawing's; ``"off"``: out of its limits.
    words : str
    spoiled : bool
        Whether metal is gone that nobody puts back.
    """

    name: str
    kind: str
    words: str = ""
    spoiled: bool = False


def judge(one: Wanted, value: float, system: str = "metric") -> Finding:
    """Ask of one measurement whether it is good, and if not what it probably is.

    Parameters
    ----------
    one : Wanted
    value : float
        In mm, or a count.
    system : str
        ``"metric"`` or ``"inch"``: how sizes are said.

    Returns
    -------
    Finding
    """

    def said(size: float) -> str:
        return f"{size:g}" if one.counted else show(size, "mm", system, 6)

    if one.least - 1e-9 <= value <= one.most + 1e-9:
        return Finding(one.name, "good")
    head = f"{one.words}: {said(value)}, wanted {said(one.nominal)}"
    mistakes = [(abs(value - size), words) for size, words in one.slips if one.near(value, size)]
    if mistakes:
        return Finding(one.name, "wrong", f"{head}; {min(mistakes)[1]}.", one.spoiled(value))
    slip = _slip(one, value)
    if slip:
        return Finding(one.name, "slip", f"{head}; {slip}. Measure again.")
    words = f"{head}; {one.off(one, value, said)}."
    return Finding(one.name, "off", words, one.spoiled(value))


def _slip(one: Wanted, value: float) -> str:
    """By which slip a value is what it ought to be; none of a count, nor where there is none."""
    if one.counted:
        return ""
    close, may_be_round = max(0.006 * one.nominal, 0.02), one.outside or "bore" in one.name
    for factor, round_only, words in _SLIPS:
        if abs(value * factor - one.nominal) <= close and (may_be_round or not round_only):
            return words
    return ""
