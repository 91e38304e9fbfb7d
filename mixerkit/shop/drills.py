"""Drills by their names: numbers and letters beside sizes, read from a shop file and said on its sheets."""

from __future__ import annotations

import functools
import re
from collections.abc import Mapping
from fractions import Fraction

from mixerkit.frozen import FrozenDict
from mixerkit.tables import table
from mixerkit.units import InputError, show

__all__ = ["drill_words", "sizes_named"]

_NAME = re.compile(r"(?i:#|no\.|number\s)\s*(\S+)|(?i:letter)\s+(\S+)|([A-Z])")
_SAME = 5e-4
"""What two drills may differ by in mm and still be one: tables give four decimals of an inch."""


def sizes_named(text: str) -> tuple[float, ...]:
    """Sizes in mm of drills that are given by name: one, or a set from one to another.

    Parameters
    ----------
    text : str
        Such as ``"letter F"``, ``"F"``, ``"#7"``, ``"number 7"``, ``"#1 to #60"``, ``"A to Z"``.

    Returns
    -------
    tuple of float
        Empty for what is no name, such as ``"1/4 in"``.

    Raises
    ------
    InputError
        If it is a name that no drill has.

    References
    ----------
    ANSI B94.11M, in data/tables/named_drills.csv.

    Examples
    --------
    >>> sizes_named("letter F"), sizes_named("#7"), len(sizes_named("A to Z")), sizes_named("1/4 in")
    ((6.5278,), (5.1054,), 26, ())
    """
    first, _, last = (part.strip() for part in text.partition(" to "))
    ends = [_name_of(part) for part in ((first, last) if last else (first,))]
    if None in ends:
        return ()
    known = [str(row.values["name"]) for row in table("named_drills")]
    lost = [one for one in ends if one not in known]
    kinds = {str(one).split(" ", maxsplit=1)[0] for one in ends}
    if lost or len(kinds) > 1:
        raise InputError(
            f'"{text}" is no drill; a size, a number from 1 to 80, a letter or a set of these is wanted, '
            'for example "1/4 in", "#7", "letter F", "#1 to #60" or "A to Z".'
        )
    places = sorted(known.index(str(one)) for one in ends)
    rows = table("named_drills").rows[places[0] : places[-1] + 1]
    return tuple(float(row.values["diameter"]) for row in rows)


def _name_of(text: str) -> str | None:
    """A drill's name as the table has it; none for what is no name."""
    found = _NAME.fullmatch(text)
    if not found:
        return None
    number, *letters = found.groups()
    return (
        f"number {number.lstrip('0')}"
        if number
        else f"letter {''.join(filter(None, letters)).upper()}"
    )


def drill_words(size: float, system: str) -> str:
    """Say a drill as it is stamped: a fraction of an inch, a number, a letter, or its size.

    Parameters
    ----------
    size : float
        In mm.
    system : str
        ``"metric"`` or ``"inch"``: what the maker reads first.

    Returns
    -------
    str

    Examples
    --------
    >>> drill_words(6.5278, "inch"), drill_words(10.71563, "inch"), drill_words(8.5, "metric")
    ('letter F', '27/64 in', '8.5 mm')
    """
    sixty_fourths = round(size / 25.4 * 64)
    of_an_inch = sixty_fourths > 0 and abs(sixty_fourths * 25.4 / 64 - size) < _SAME
    of_a_millimetre = abs(size * 20 - round(size * 20)) < 1e-6
    if of_a_millimetre and system == "metric":
        return show(size, "mm", system, 4)
    if of_an_inch:
        return _fraction(Fraction(sixty_fourths, 64))
    return _stamped().get(round(size, 3)) or show(size, "mm", system, 4)


@functools.cache
def _stamped() -> Mapping[float, str]:
    """Names of drills by their sizes in whole micrometres."""
    rows = [row.values for row in table("named_drills")]
    return FrozenDict({round(row["diameter"], 3): str(row["name"]) for row in rows})


def _fraction(of: Fraction) -> str:
    """A size in inches as it is written at the bench.

    Examples
    --------
    >>> _fraction(Fraction(83, 64))
    '1 19/64 in'
    """
    whole, rest = divmod(of, 1)
    return " ".join([*([str(whole)] if whole else []), *([str(rest)] if rest else []), "in"])
