"""Names of fields in sentences: what an unknown one resembles, where one stands, what there is."""

from __future__ import annotations

import difflib
from collections.abc import Collection, Iterable, Mapping
from typing import TypeVar

__all__ = ["MOST_NAMED", "apart", "joined", "listed", "nearest", "resembles", "unknown"]
AnyValue = TypeVar("AnyValue")
MOST_NAMED = 30
"""Unknown names of one table that are each told what they resemble."""


def listed(options: tuple[str, ...]) -> str:
    """Write options side by side as they stand in a file."""
    return ", ".join(f'"{option}"' for option in options)


def nearest(given: str, known: Iterable[str]) -> str:
    """Say which known name a given one resembles, or nothing.

    Parameters
    ----------
    given : str
    known : iterable of str

    Returns
    -------
    str
        Such as ``'; nearest is "ratio"'``, or an empty text.

    Examples
    --------
    >>> nearest("ratoi", ["ratio", "efficiency"])
    '; nearest is "ratio"'
    """
    close = difflib.get_close_matches(str(given), list(known), 1, 0.6)
    return f'; nearest is "{close[0]}"' if close else ""


def resembles(given: str, known: Iterable[str]) -> str:
    """What an unknown name of a field resembles, or else what there is."""
    return nearest(given, known) or f"; there are {', '.join(known)}"


def unknown(given: Iterable[str], known: Collection[str], what: str, where: str = "") -> list[str]:
    """Say of each name that nobody knows what it resembles; of very many, of the first.

    Parameters
    ----------
    given : iterable of str
    known : container of str
    what : str
        What they would name, such as ``"field"``.
    where : str
        Dotted name of the table they stand in.

    Returns
    -------
    list of str

    Examples
    --------
    >>> unknown(["ratoi"], ["ratio"], "field", "reducer")
    ['reducer.ratoi: no such field; nearest is "ratio".']
    """
    lost = [key for key in given if key not in known]
    said = [
        f"{joined(where, key)}: no such {what}{resembles(key, known) if len(known) <= MOST_NAMED else nearest(key, known)}."
        for key in lost[:MOST_NAMED]
    ]
    if len(lost) > MOST_NAMED:
        said.append(f"{where or 'the file'}: {len(lost) - MOST_NAMED} more names are none.")
    return said


def joined(where: str, name: str) -> str:
    """Dotted name of a field in a table, which may have none itself."""
    return f"{where}.{name}" if where else name


def apart(
    values: Mapping[str, AnyValue],
) -> tuple[dict[str, AnyValue], dict[str, dict[str, AnyValue]]]:
    """Take dotted names apart: what a record holds itself, and what each record in it is given.

    Examples
    --------
    >>> apart({"name": "ours", "batch.mass": "15 kg"})
    ({'name': 'ours'}, {'batch': {'mass': '15 kg'}})
    """
    own: dict[str, AnyValue] = {}
    inner: dict[str, dict[str, AnyValue]] = {}
    for dotted, value in values.items():
        name, _, rest = dotted.partition(".")
        if rest:
            inner.setdefault(name, {})[rest] = value
        else:
            own[name] = value
    return own, inner
