"""The one unit registry; reading, checking and showing quantities.

Units are checked at every public door and plain floats in named units run inside:
a function wrapped by :func:`in_units` takes and returns quantities, and its ``.formula``
attribute is the bare formula for callers that already hold floats in those units.
"""

from __future__ import annotations

import difflib
import functools
import inspect
import math
import re
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from datetime import date, time
from typing import Any, NoReturn, ParamSpec, Protocol, TypeAlias, TypeVar, cast, overload

import numpy as np
import numpy.typing as npt
import pint
from pint import Unit, UnitRegistry
from pint.errors import UndefinedUnitError
from pint.util import UnitsContainer

from mixerkit.data_files import data_path

__all__ = [
    "Q_",
    "Array",
    "InputError",
    "Measured",
    "Numbers",
    "Quantity",
    "Span",
    "as_written",
    "describe",
    "in_units",
    "lengths",
    "read_quantity",
    "refuse_list",
    "show",
    "shown_scale",
    "shown_unit",
    "to_plain",
    "unit_of",
    "ureg",
    "visible",
]

Array = npt.NDArray[np.float64]
"""Numbers in the unit that stands beside the name."""
Numbers = float | Array
"""One such number, or an array of any shape: a formula takes and gives both alike."""
Measured: TypeAlias = "pint.Quantity[Numbers]"
"""A quantity of this kit's registry, as a type: one number or an array, with a unit."""
ureg: UnitRegistry[Numbers] = UnitRegistry(str(data_path("units.txt")))
ureg.formatter.default_format = "~P"
Quantity = ureg.Quantity
P = ParamSpec("P")
R = TypeVar("R")
_Units = str | tuple[str | None, ...] | None
"""Unit of what a formula gives; a tuple for several, none for what is left as it is."""


def _rebuild(magnitude: Numbers, unit: str) -> Measured:
    """Make a pickled quantity again, in this registry and no other."""
    return Quantity(magnitude, unit)


def _reduced(self: Measured) -> tuple[Callable[[Numbers, str], Measured], tuple[Numbers, str]]:
    return _rebuild, (self.magnitude, f"{self.units:C}")


def _refuse(self: object, *_given: object, **_named: object) -> NoReturn:
    """Records hand out the quantities they hold, so none may be turned into another in place."""
    raise TypeError(
        f'"{self:~P}" cannot be changed in place; .to("mm"), for example, gives a new one.'
    )


def _set_once(self: object, name: str, value: object) -> None:
    if name in ("_magnitude", "_units") and name in self.__dict__:
        _refuse(self)
    object.__setattr__(self, name, value)


for _name in (
    "ito",
    "ito_base_units",
    "ito_root_units",
    "ito_reduced_units",
    "ito_preferred",
    "ito_unprefixed",
):
    setattr(Quantity, _name, _refuse)
for _name in ("add", "sub", "mul", "truediv", "floordiv", "mod", "pow"):
    # q += 1 then makes a new quantity, as it does for a plain number
    setattr(Quantity, f"__i{_name}__", getattr(Quantity, f"__{_name}__"))
# pint would unpickle into whatever registry the process has made its default; a mixer's
# quantities belong to this one.
for _name, _made in (("__setattr__", _set_once), ("__reduce__", _reduced)):
    setattr(Quantity, _name, _made)


_LONGEST = (900, 400)
"""Letters of a message that are kept at its beginning and at its end."""


def visible(text: object) -> str:
    r"""Give a text on one line, in which nothing moves a terminal's cursor or turns its letters about.

    Parameters
    ----------
    text : object
        Its words are taken.

    Returns
    -------
    str

    Examples
    --------
    >>> print(visible("a\nb\x1b[2J"))
    a\nb\x1b[2J
    """
    line = str(text)
    if line.isprintable():
        return line
    return "".join(
        one if one.isprintable() else one.encode("unicode_escape").decode("ascii") for one in line
    )


def as_written(value: object) -> str:
    """Give a value of a TOML file as it may stand there, for a message.

    Examples
    --------
    >>> as_written([True, "5 mm", {}])
    '[true, "5 mm", {}]'
    """
    if isinstance(value, (bool, str)):
        return str(value).lower() if isinstance(value, bool) else f'"{value}"'
    if isinstance(value, list):
        return f"[{', '.join(map(as_written, value))}]"
    if isinstance(value, dict):
        inner = ", ".join(f"{key} = {as_written(one)}" for key, one in value.items())
        return f"{{{inner}}}"
    if isinstance(value, (date, time)):
        return value.isoformat()
    if isinstance(value, int) and abs(value) >= 2**63:
        return "a whole number with too many digits"
    return repr(value)


class InputError(ValueError):
    """Input that cannot be used, said in sentences a maker can act on.

    Each is kept on one line and to a length that can be read, whatever was given.

    Parameters
    ----------
    *messages : str
        One sentence for each mistake; the same one twice is said once.
    """

    def __init__(self, *messages: str) -> None:
        self.messages = tuple(dict.fromkeys(map(_sentence, messages)))
        super().__init__("\n".join(self.messages))

    def _render_traceback_(self) -> list[str]:
        """What a notebook prints in place of a traceback, which says nothing to a maker."""
        return list(self.messages)


def _sentence(message: str) -> str:
    head, tail = _LONGEST
    if len(message) > head + tail:
        message = f"{message[:head]} ... {message[-tail:]}"
    return visible(message)


# One row a dimension: unit, what a message calls it, an example, its twin in inch units.
# An angle has no dimension of its own in SI; the flag keeps rpm from being read as Hz.
_KINDS: tuple[tuple[str, str, str, str], ...] = (
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
    "J": "lbf*ft",
    "kJ": "lbf*ft",
    "N*m/deg": "lbf*ft/deg",
    "GPa": "ksi",
    "1/mm": "1/in",
}
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


@functools.lru_cache(maxsize=512)
def unit_of(text: str) -> Unit:
    """Unit of a text such as ``N*m`` or ``1/in``, with the spellings of the bench allowed."""
    tidy = text.replace("·", "*").replace("^", "**").replace("²", "**2").replace("³", "**3").strip()
    tidy = tidy.replace("°C", "degC").replace("°F", "degF").replace("°", "deg")
    tidy = re.sub(r"(?<=[A-Za-z])[ \-](?=[A-Za-z])", "*", tidy)
    tidy = re.sub(r"^/", "1/", tidy)
    return ureg.parse_units("" if tidy == "1" else tidy)


@functools.lru_cache(maxsize=512)
def _nature(unit: Unit) -> tuple[UnitsContainer, bool]:
    """Dimension of a unit, and whether it counts angle or turns."""
    names = str(unit)
    return unit.dimensionality, any(angle in names for angle in _ANGLES)


@functools.lru_cache(maxsize=512)
def _kind(unit: Unit) -> tuple[str, str]:
    """What a message calls a unit's dimension, and an example of it."""
    for text, name, example, _ in _KINDS:
        if _nature(unit_of(text)) == _nature(unit):
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
    >>> describe("kW"), describe(Q_("3 in"))
    ('a power', 'a length')
    """
    return _kind(unit_of(value) if isinstance(value, str) else value.units)[0]


def _wanted(unit: str, example: str | None) -> str:
    name, usual = _kind(unit_of(unit))
    return f'{name} is wanted, for example "{example or usual}"'


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
    if _nature(quantity.units) != _nature(unit_of(unit)):
        shown = f'"{raw}"' if isinstance(raw, str) else f'"{raw:~P}"'
        raise InputError(f"{shown} is {describe(quantity)}; {_wanted(unit, example)}.")
    if not np.all(np.isfinite(quantity.magnitude)):
        raise InputError(f'"{raw}" is not a finite number; {_wanted(unit, example)}.')
    return quantity


def _parse(raw: object, unit: str, example: str | None) -> Measured:
    if hasattr(raw, "dimensionality") and hasattr(raw, "magnitude"):
        return cast("Measured", raw)
    if isinstance(raw, (bool, np.bool_)) or not isinstance(
        raw, (str, int, float, np.ndarray, np.number)
    ):
        raise InputError(f"{as_written(raw)} is not a quantity; {_wanted(unit, example)}.")
    if isinstance(raw, int) and abs(raw) >= 2**63:
        raise InputError(f"{as_written(raw)} does not fit; {_wanted(unit, example)}.")
    if not isinstance(raw, str):
        if unit == "" or not np.all(np.isfinite(raw)):
            return Quantity(cast("Numbers", raw), unit)
        raise InputError(f"{raw} has no unit; {_wanted(unit, example)}.")
    return _parse_text(raw, unit, example)


@functools.lru_cache(maxsize=2048)
def _parse_text(raw: str, unit: str, example: str | None) -> Measured:
    text = raw.strip()
    if len(text) > _LONGEST_TEXT:
        raise InputError(
            f'"{text[:30]} ..." is too long for a number with a unit; {_wanted(unit, example)}.'
        )
    if text.lower().split(" ")[0].lstrip("+-") in ("nan", "inf", "infinity"):
        raise InputError(f'"{raw}" is not a finite number; {_wanted(unit, example)}.')
    if re.match(r"^[+-]?\d+,\d", text):
        raise InputError(f'"{raw}" has a comma; write a point instead; {_wanted(unit, example)}.')
    found = _TEXT.match(text)
    if not found:
        raise InputError(f'"{raw}" is not a number with a unit; {_wanted(unit, example)}.')
    number = _number(found, f"; {_wanted(unit, example)}.")
    if not found["unit"] and unit:
        raise InputError(f'"{raw}" has no unit; {_wanted(unit, example)}.')
    if found["unit"] and not _UNIT_TEXT.match(found["unit"]):
        raise InputError(f'"{raw}" is not a number with a unit; {_wanted(unit, example)}.')
    try:
        return Quantity(number, unit_of(found["unit"] or ""))
    except UndefinedUnitError:
        near = difflib.get_close_matches(found["unit"], [kind[0] for kind in _KINDS], 1, 0.5)
        hint = f', nearest is "{near[0]}"' if near else ""
        raise InputError(
            f'"{raw}": the unit "{found["unit"]}" is not known{hint}; {_wanted(unit, example)}.'
        ) from None
    except Exception:  # noqa: BLE001  pint's parser raises many kinds for one mistake
        raise InputError(
            f'"{raw}" is not a number with a unit; {_wanted(unit, example)}.'
        ) from None


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
            name, usual = _kind(unit_of(self.unit))
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
