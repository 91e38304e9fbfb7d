"""The door before every public formula: quantities outside, plain numbers in named units inside."""

from __future__ import annotations

import functools
import inspect
import re
from collections.abc import Callable
from typing import Any, ParamSpec, Protocol, TypeVar, cast

from mixerkit.units.refused import InputError
from mixerkit.units.registry import Quantity, unit_of
from mixerkit.units.spans import to_plain

__all__ = ["Formula", "P", "R", "in_units"]
P = ParamSpec("P")
R = TypeVar("R")
_Units = str | tuple[str | None, ...] | None
"""Unit of what a formula gives; a tuple for several, none for what is left as it is."""


class Formula(Protocol[P, R]):
    """A formula behind a unit-checking door, as :func:`in_units` makes it: an ordinary function.

    Attributes
    ----------
    formula : callable
        The bare formula on floats or arrays in the units its docstring names.
    spans : dict of str to str
        Unit and range of each argument that has one.
    """

    formula: Callable[P, R]
    spans: dict[str, str]
    __name__: str

    def __call__(self, *args: object, **kwargs: object) -> Any:
        """Check units and ranges, run the formula, put the unit on the result."""


_RAISES = """Raises
    ------
    InputError
        If a value is outside of the range beside its name, or its unit does not fit.

    """


def _documented(doc: str, spans: dict[str, str]) -> str:
    """Put units and ranges beside the names of a docstring, and what is raised, where it says neither."""

    def beside(line: re.Match[str]) -> str:
        # several names on one line have their units in the order of the names
        names, kind, rest = line[1].split(", "), line[2] or " : quantity", line[3] or ""
        units = [one for one in dict.fromkeys(spans.get(name, "") for name in names) if one]
        return f"    {line[1]}{kind} [{'; '.join(units)}]{rest}" if units else line[0]

    head, parameters, rest = doc.partition("    Parameters\n")
    asked, returns, rest = rest.partition("    Returns\n")
    asked = re.sub(r"^    (\w+(?:, \w+)*)( : \w+)?(.*)$", beside, asked, flags=re.MULTILINE)
    if "    Raises\n" not in rest:
        later = re.search(r"(?<=\n    )(References|Examples|Notes)\n", rest)
        at = later.start() if later else len(rest)
        rest = rest[:at] + _RAISES + rest[at:] if later else f"{rest.rstrip()}\n\n    {_RAISES}"
    return head + parameters + asked + returns + rest


def _door(bare: Callable[P, R], result: _Units, spans: dict[str, str]) -> Formula[P, R]:
    signature = inspect.signature(bare)

    @functools.wraps(bare)
    def door(*args: object, **kwargs: object) -> object:
        try:
            bound = signature.bind(*args, **kwargs)
        except TypeError as error:
            raise InputError(f"{bare.__name__}: {error}.") from None
        for name, span in spans.items():
            if name in bound.arguments and bound.arguments[name] is not None:
                try:
                    bound.arguments[name] = to_plain(bound.arguments[name], span)
                except InputError as error:
                    raise InputError(f"{bare.__name__}, {name}: {error}") from None
        return _dress(bare(*bound.args, **bound.kwargs), result)

    door.__doc__ = _documented(bare.__doc__ or "", spans)
    formula = cast("Formula[P, R]", door)
    formula.formula, formula.spans = bare, spans
    return formula


def _dress(value: Any, unit: _Units) -> object:
    if unit is None:
        return value
    if isinstance(unit, tuple):
        return tuple(_dress(one, of) for one, of in zip(value, unit, strict=True))
    return Quantity(value, unit_of(unit))


def in_units(result: _Units, **spans: str) -> Callable[[Callable[P, R]], Formula[P, R]]:
    """Put a unit-checking door before a formula on plain numbers.

    Parameters
    ----------
    result : str, tuple of str, or None
        Unit of what the formula returns; a tuple for several; None to leave it as it is.
    **spans : str
        For each argument its unit and, if need be, its range: ``diameter="mm > 0"``.
        Arguments not named pass through untouched.

    Returns
    -------
    callable
        A decorator; the formula stays reachable as ``.formula``. The docstring gets each unit and range
        beside its name, and what is raised, so that neither is written twice.

    Examples
    --------
    >>> @in_units("mm**2", side="mm > 0")
    ... def square(side):
    ...     return side**2
    >>> square("1 in")
    <Quantity(645.16, 'millimeter ** 2')>
    >>> square.formula(2.0)
    4.0
    >>> square("0 mm")
    Traceback (most recent call last):
    ...
    mixerkit.units.InputError: square, side: "0 mm" is out of range; a length above 0 mm is
    wanted, for example "35 mm".
    """
    return lambda bare: _door(bare, result, spans)
