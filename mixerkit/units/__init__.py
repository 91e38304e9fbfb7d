"""The one unit registry; reading, checking and showing quantities.

Units are checked at every public door and plain floats in named units run inside:
a function wrapped by :func:`in_units` takes and returns quantities, and its ``.formula``
attribute is the bare formula for callers that already hold floats in those units.
"""

from __future__ import annotations

from mixerkit.units.doors import in_units
from mixerkit.units.natures import describe
from mixerkit.units.reading import Q_, read_quantity, refuse_list
from mixerkit.units.refused import InputError, as_written, visible
from mixerkit.units.registry import Array, Measured, Numbers, Quantity, unit_of, ureg
from mixerkit.units.shown import digits_apart, lengths, show, shown_scale, shown_unit
from mixerkit.units.spans import Span, to_plain

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
    "digits_apart",
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
