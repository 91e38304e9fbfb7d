"""What of a drafted design is assumed: facts and practice that still stand as they were drafted."""

from __future__ import annotations

from collections.abc import Iterable

from mixerkit.design import Design
from mixerkit.fields.told import resembles
from mixerkit.units import InputError, as_written

__all__ = ["assumed", "confirmed", "still_drafted"]


def assumed(design: Design) -> list[str]:
    """Name the facts and practice of a design that still have the value they were drafted with.

    Parameters
    ----------
    design : Design

    Returns
    -------
    list of str
        Dotted names. A drafted choice is a decision, and another value than the drafted one is the maker's own.
    """
    roles = {name: design.field(name)[2].role for name in still_drafted(design)}
    return [name for name, role in roles.items() if role in ("fact", "practice")]


def still_drafted(design: Design) -> list[str]:
    """Name the fields that the kit drafted and that still have the value it gave them."""
    found = []
    for dotted, value in design.drafted.items():
        record, name, kind = design.field(dotted)
        listed = list(value) if isinstance(value, tuple) else value
        if kind.number(kind.read_at(listed, dotted)) == getattr(record, name):
            found.append(dotted)
    return found


def confirmed(design: Design, fields: Iterable[str]) -> Design:
    """Make drafted values the maker's own: they are taken off the list of what was drafted.

    Parameters
    ----------
    design : Design
    fields : iterable of str
        Dotted names.

    Returns
    -------
    Design

    Raises
    ------
    InputError
        If a field was not drafted.
    """
    fields = list(fields)
    lost = [one for one in fields if one not in design.drafted]
    if lost:
        raise InputError(
            *(
                f"--confirm {as_written(one)}: is not listed as drafted{resembles(one, design.drafted)}; a drafted field "
                "is wanted."
                for one in lost
            )
        )
    left = {name: one for name, one in design.drafted.items() if name not in fields}
    return design.with_values({"drafted": left})
