"""Frozen records of a machine's parts, and the field kinds they are made of.

A record is a frozen dataclass whose fields say what they hold: :func:`quantity`, :func:`number`,
:func:`whole`, :func:`wholes`, :func:`words`, :func:`choice`, :func:`yes_no`, :func:`section` and so on.
Reading a field gives the value or one sentence about what is wrong with it; reading a record
gathers the sentences of all its fields. Designs, shops and sizes as made are records alike.
"""

from __future__ import annotations

from mixerkit.fields.declared import (
    by_name,
    choice,
    day,
    if_given,
    number,
    numbers,
    places,
    point,
    quantities,
    quantity,
    records,
    rows,
    section,
    sizes,
    texts,
    whole,
    whole_lists,
    wholes,
    wholes_by_size,
    words,
    yes_no,
)
from mixerkit.fields.inside import kinds_in, misfits, values_in
from mixerkit.fields.kinds import ROLES, Kind
from mixerkit.fields.nested import example_of
from mixerkit.fields.record import Record, kind_of
from mixerkit.fields.told import nearest, unknown

__all__ = [
    "ROLES",
    "Kind",
    "Record",
    "by_name",
    "choice",
    "day",
    "example_of",
    "if_given",
    "kind_of",
    "kinds_in",
    "misfits",
    "nearest",
    "number",
    "numbers",
    "places",
    "point",
    "quantities",
    "quantity",
    "records",
    "rows",
    "section",
    "sizes",
    "texts",
    "unknown",
    "values_in",
    "whole",
    "whole_lists",
    "wholes",
    "wholes_by_size",
    "words",
    "yes_no",
]
