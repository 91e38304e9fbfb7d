"""Quantities read from what a maker writes: numbers, fractions and units of the bench."""

from __future__ import annotations

import difflib
import functools
import math
import re
from collections.abc import Sequence
from typing import cast, overload

import numpy as np
import pint
from pint.errors import UndefinedUnitError

from mixerkit.units.natures import KINDS, describe, nature, wanted
from mixerkit.units.refused import InputError, as_written
from mixerkit.units.registry import Array, Measured, Numbers, Quantity, unit_of

__all__ = ["Q_", "read_quantity", "refuse_list"]
_NUMBER = r"[+-]?(?:\d+\.?\d*|\.\d+)(?:[eE][+-]?\d+)?"
_LONGEST_TEXT = 80
"""Letters of the longest text that is read as a quantity: what is longer is none, and slow to find so."""
_FACTOR = r"(?:[^\W\d_]|[°%])+(?:(?:\^|\*\*)-?\d(?!\d)|[²³])?"
# names, each with one digit of power at most: nothing here is ever worked out as a sum
_UNIT_TEXT = re.compile(rf"^(?:1\s*/|/)?[\s(]*{_FACTOR}(?:[\s()*/·.-]+{_FACTOR})*[\s)]*$")
_TEXT = re.compile(
    rf"^\s*(?:(?P<whole>[+-]?\d+)\s+)?(?P<num>{_NUMBER})(?:\s*/\s*(?P<den>\d+)(?=[\s]*[^\d\s]|$))?"
    r"\s*(?P<unit>[^\d\s].*)?$"
)


def read_quantity(raw: object, unit: str, example: str | None = None) -> Measured:
    """Read a quantity and check that it measures what is wanted.

    Parameters
    ----------
    raw : str, quantity, or a list of them
        Such as ``"12 N*m"``, ``"3/4 in"``, ``"1 1/2 in"``, ``"24 rpm"``; a plain number only
        where ``unit`` is ``""``.
    unit : str
        A unit of the dimension wanted; ``""`` for a plain number.
    example : str, optional
        Shown in the message instead of a general one.

    Returns
    -------
    quantity
        In the unit it was written in, or an array of them in ``unit`` for a list.

    Raises
    ------
    InputError
        If there is no unit, an unknown one, one of another dimension, or no finite number.

    Examples
    --------
    >>> read_quantity("3/4 in", "mm").to("mm")
    <Quantity(19.05, 'millimeter')>
    >>> read_quantity("1.5 kg", "kW")
    Traceback (most recent call last):
    ...
    mixerkit.units.InputError: "1.5 kg" is a mass; a power is wanted, for example "1.5 kW".
    """
    if isinstance(raw, (list, tuple)):
        return Quantity(
            np.array([read_quantity(one, unit, example).m_as(unit) for one in raw]), unit
        )
    quantity = _parse(raw, unit, example)
    if nature(quantity.units) != nature(unit_of(unit)):
        shown = f'"{raw}"' if isinstance(raw, str) else f'"{raw:~P}"'
        raise InputError(f"{shown} is {describe(quantity)}; {wanted(unit, example)}.")
    if not np.all(np.isfinite(quantity.magnitude)):
        raise InputError(f'"{raw}" is not a finite number; {wanted(unit, example)}.')
    return quantity


def _parse(raw: object, unit: str, example: str | None) -> Measured:
    if hasattr(raw, "dimensionality") and hasattr(raw, "magnitude"):
        return cast("Measured", raw)
    if isinstance(raw, (bool, np.bool_)) or not isinstance(
        raw, (str, int, float, np.ndarray, np.number)
    ):
        raise InputError(f"{as_written(raw)} is not a quantity; {wanted(unit, example)}.")
    if isinstance(raw, int) and abs(raw) >= 2**63:
        raise InputError(f"{as_written(raw)} does not fit; {wanted(unit, example)}.")
    if not isinstance(raw, str):
        if unit == "" or not np.all(np.isfinite(raw)):
            return Quantity(cast("Numbers", raw), unit)
        raise InputError(f"{raw} has no unit; {wanted(unit, example)}.")
    return _parse_text(raw, unit, example)


@functools.lru_cache(maxsize=2048)
def _parse_text(raw: str, unit: str, example: str | None) -> Measured:
    text = raw.strip()
    if len(text) > _LONGEST_TEXT:
        raise InputError(
            f'"{text[:30]} ..." is too long for a number with a unit; {wanted(unit, example)}.'
        )
    if text.lower().split(" ")[0].lstrip("+-") in ("nan", "inf", "infinity"):
        raise InputError(f'"{raw}" is not a finite number; {wanted(unit, example)}.')
    if re.match(r"^[+-]?\d+,\d", text):
        raise InputError(f'"{raw}" has a comma; write a point instead; {wanted(unit, example)}.')
    found = _TEXT.match(text)
    if not found:
        raise InputError(f'"{raw}" is not a number with a unit; {wanted(unit, example)}.')
    number = _number(found, f"; {wanted(unit, example)}.")
    if not found["unit"] and unit:
        raise InputError(f'"{raw}" has no unit; {wanted(unit, example)}.')
    if found["unit"] and not _UNIT_TEXT.match(found["unit"]):
        raise InputError(f'"{raw}" is not a number with a unit; {wanted(unit, example)}.')
    try:
        return Quantity(number, unit_of(found["unit"] or ""))
    except UndefinedUnitError:
        near = difflib.get_close_matches(found["unit"], [kind[0] for kind in KINDS], 1, 0.5)
        hint = f', nearest is "{near[0]}"' if near else ""
        raise InputError(
            f'"{raw}": the unit "{found["unit"]}" is not known{hint}; {wanted(unit, example)}.'
        ) from None
    except Exception:  # noqa: BLE001  pint's parser raises many kinds for one mistake
        raise InputError(f'"{raw}" is not a number with a unit; {wanted(unit, example)}.') from None


def _number(found: re.Match[str], tail: str) -> float:
    """Number of a matched text: plain, a fraction, or a whole with a fraction."""
    number = float(found["num"])
    if found["den"]:
        if int(found["den"]) == 0:
            raise InputError(f'"{found.string}" divides by zero{tail}')
        number /= int(found["den"])
    if found["whole"]:
        if not found["den"]:
            raise InputError(f'"{found.string}" holds two numbers{tail}')
        number = math.copysign(abs(int(found["whole"])) + number, float(found["whole"]))
    return number


@overload
def Q_(value: float, unit: str) -> pint.Quantity[float]: ...
@overload
def Q_(value: Array, unit: str) -> pint.Quantity[Array]: ...
@overload
def Q_(value: str | Sequence[float] | Measured, unit: str | None = None) -> Measured: ...
@overload
def Q_(value: Numbers, unit: None = None) -> Measured: ...


def Q_(  # noqa: N802  the customary short name of pint users
    value: str | Numbers | Sequence[float] | Measured, unit: str | None = None
) -> object:
    """Make a quantity of this kit's registry.

    Parameters
    ----------
    value : str, number or array
        ``"12 N*m"``, or the number when a unit is given.
    unit : str, optional
        Unit of a plain number or array.

    Returns
    -------
    quantity

    Raises
    ------
    InputError
        If the text is not a number with a known unit.

    Examples
    --------
    >>> Q_("24 rpm").to("rad/s").magnitude.__round__(4)
    2.5133
    >>> Q_([1, 2], "kW").sum()
    <Quantity(3, 'kilowatt')>
    """
    if unit is None and isinstance(value, str):
        return _parse_text(value, "", None)
    plain = cast("Numbers", np.asarray(value) if isinstance(value, (list, tuple)) else value)
    return Quantity(plain) if unit is None else Quantity(plain, unit_of(unit))


def refuse_list(raw: object, example: str) -> None:
    """Refuse many values where a field of a file is one; only formulas take many at once.

    Parameters
    ----------
    raw : object
        As it was read.
    example : str
        What would fit.

    Raises
    ------
    InputError
        If it is a list, a table or an array.
    """
    if isinstance(raw, (list, tuple, dict)) or np.asarray(getattr(raw, "magnitude", raw)).ndim > 0:
        raise InputError(
            f'{as_written(raw)} does not fit; one value is wanted, for example "{example}".'
        )
