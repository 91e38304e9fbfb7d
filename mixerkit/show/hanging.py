"""Which sheets hang on a value that nobody measured yet: it is moved, and each sheet that comes out otherwise says so."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence

from mixerkit.design import Design
from mixerkit.explore.draft.assumed import assumed
from mixerkit.explore.inputs import ends, typed
from mixerkit.explore.reads import read_for
from mixerkit.frozen import FrozenDict
from mixerkit.show.assumptions import said
from mixerkit.show.sheet import Sheet
from mixerkit.units import InputError

__all__ = ["hanging"]

Known = Mapping[str, tuple[object, bool]]
NONE: Known = FrozenDict()
_NAMED = 2
"""Values that are named; a drawing has room for no more."""


def hanging(
    design: Design, make: Callable[[Design], Sequence[Sheet]], known: Known = NONE
) -> dict[str, str]:
    """Say of each sheet with a drawing on which value its sizes hang that was not measured yet.

    Parameters
    ----------
    design : Design
    make : callable
        Makes the sheets of a design.
    known : mapping
        Facts measured since and whether the design has them, see :func:`mixerkit.explore.asmade.facts_made`.

    Returns
    -------
    dict of str to str
        By the sheet's title, what stands across its drawing.
    """
    doubted = {one: "not measured yet" for one in assumed(design) if one not in known}
    doubted |= {
        name: f"measured {said(design, name, size)}, drawn for {said(design, name)}"
        for name, (size, agrees) in known.items()
        if not agrees
    }
    if not doubted:
        return {}
    # what was drafted is judged anew with every value, and is the same in all of them
    design = design.with_values({"drafted": {}})
    read = read_for(design, make)
    moved = {name: _moved(design, name) for name in doubted if name in read}
    drawn = [one for one in make(design) if one.drawing]
    words: dict[str, list[str]] = {}
    for name, others in moved.items():
        for title in _otherwise(drawn, make, others):
            words.setdefault(title, []).append(f"{name}, {doubted[name]}")
    return {title: _band(names) for title, names in words.items()}


def _band(names: Sequence[str]) -> str:
    more = f"; and on {len(names) - _NAMED} more" if len(names) > _NAMED else ""
    return f"Size hangs on {'; '.join(names[:_NAMED])}{more}"


def _moved(design: Design, name: str) -> list[Design]:
    """The design with one value at either end of its range."""
    found = []
    for end in ends(design, name) or ():
        try:
            found.append(design.with_values({name: typed(design, name, end)}))
        except InputError:
            continue
    return found


def _otherwise(
    drawn: Sequence[Sheet], make: Callable[[Design], Sequence[Sheet]], others: Sequence[Design]
) -> list[str]:
    """Titles of sheets that come out otherwise, in the order of work."""
    changed: set[str] = set()
    for other in others:
        try:
            now = {one.title: one for one in make(other)}
        except (ArithmeticError, LookupError, ValueError):
            # nothing of it can be drawn at that end
            return [one.title for one in drawn]
        changed |= {one.title for one in drawn if now.get(one.title) != one}
    return [one.title for one in drawn if one.title in changed]
