"""The one unit registry: its quantities cannot be changed in place and unpickle into it."""

from __future__ import annotations

import functools
import re
from collections.abc import Callable
from typing import NoReturn, TypeAlias

import numpy as np
import numpy.typing as npt
import pint
from pint import Unit, UnitRegistry

from mixerkit.data_files import data_path

__all__ = ["Array", "Measured", "Numbers", "Quantity", "unit_of", "ureg"]

Array = npt.NDArray[np.float64]
"""Numbers in the unit that stands beside the name."""
Numbers = float | Array
"""One such number, or an array of any shape: a formula takes and gives both alike."""
Measured: TypeAlias = "pint.Quantity[Numbers]"
"""A quantity of this kit's registry, as a type: one number or an array, with a unit."""
ureg: UnitRegistry[Numbers] = UnitRegistry(str(data_path("units.txt")))
ureg.formatter.default_format = "~P"
Quantity = ureg.Quantity


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


@functools.lru_cache(maxsize=512)
def unit_of(text: str) -> Unit:
    """Unit of a text such as ``N*m`` or ``1/in``, with the spellings of the bench allowed."""
    tidy = text.replace("·", "*").replace("^", "**").replace("²", "**2").replace("³", "**3").strip()
    tidy = tidy.replace("°C", "degC").replace("°F", "degF").replace("°", "deg")
    tidy = re.sub(r"(?<=[A-Za-z])[ \-](?=[A-Za-z])", "*", tidy)
    tidy = re.sub(r"^/", "1/", tidy)
    return ureg.parse_units("" if tidy == "1" else tidy)
