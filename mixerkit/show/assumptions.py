"""What is said of values that were drafted and nobody measured: how many, which could make it fail, what to measure first."""

from __future__ import annotations

from collections.abc import Collection, Sequence
from typing import Any

from mixerkit.design import Design
from mixerkit.explore.asmade import facts_made
from mixerkit.explore.draft.assumed import assumed
from mixerkit.explore.flips import Flip
from mixerkit.explore.inputs import has_range
from mixerkit.fields import Kind
from mixerkit.fields.kinds import QuantityKind
from mixerkit.machine import Machine
from mixerkit.shop.beside import Beside
from mixerkit.show.answer import named
from mixerkit.units import Span, show

__all__ = [
    "differing",
    "flips_json",
    "flips_rows",
    "how_many",
    "known_beside",
    "rests_text",
    "said",
]


def known_beside(design: Design, along: Beside) -> dict[str, tuple[object, bool]]:
    """Facts of the design that stand among a maker's own sizes as made; see :func:`mixerkit.explore.asmade.facts_made`."""
    if along.sizes is None or along.demos_sizes:
        return {}
    return facts_made(design, along.sizes, along.shop)


def differing(design: Design, known: dict[str, tuple[object, bool]]) -> list[str]:
    """Say of each fact that was measured and is another in the design what was measured, and what to type.

    Parameters
    ----------
    design : Design
    known : dict
        See :func:`known_beside`.

    Returns
    -------
    list of str
    """
    return [
        f"{name}: {said(design, name, size)} as made, and the design has {said(design, name)}: what was measured counts; "
        f'type {name} = "{size}"'
        for name, (size, agrees) in known.items()
        if not agrees
    ]


def said(design: Design, dotted: str, value: object = None) -> str:
    """Write a field's value as this maker reads it; the design's own if none is given."""
    record, name, kind = design.field(dotted)
    if value is None:
        return record.shown(name, design.show_units)
    return _shown(kind, value, design.show_units)


def _shown(kind: Kind, value: object, system: str) -> str:
    plain = kind.number(kind.read(value))
    if isinstance(kind, QuantityKind) and isinstance(plain, float):
        return show(plain, Span.read(kind.span).unit, system, 4)
    return f"{plain:.4g}" if isinstance(plain, float) else str(plain)


def how_many(design: Design, known: Collection[str] = ()) -> str:
    """Say how many values are assumed; nothing where none is.

    Examples
    --------
    >>> how_many(Design.demo())
    ''
    """
    count = sum(one not in known for one in assumed(design))
    return f"{count} values are assumed as they were drafted." if count else ""


def rests_text(found: Machine, flipping: Sequence[Flip], known: Collection[str] = ()) -> str:
    """Say in a sentence or two how much rests on assumed values, and what to measure first.

    Parameters
    ----------
    found : Machine
    flipping : sequence of Flip
        See :func:`mixerkit.explore.flips.flips`.
    known : collection of str
        Fields that were measured since.

    Returns
    -------
    str
        Empty where nothing is assumed.
    """
    names = [one for one in assumed(found.design) if one not in known]
    count, untried = len(names), sum(not has_range(one) for one in names)
    if not count:
        return ""
    last = (
        f" Words and nominal values among them, {untried}, have no range to try." if untried else ""
    )
    worse = "more of it" if found.verdict == "fails" else "it"
    are = "value is" if count == 1 else "values are"
    if not flipping:
        return f"{count} {are} assumed; none of them alone could make {worse} fail within its range.{last}"
    first, *others = flipping
    then = f" Then {', '.join(one.field for one in others)}." if others else ""
    return (
        f"{count} {are} assumed; {len(flipping)} of them could make {worse} fail within their range: measure {first.field} "
        f"first ({named(found, first.fails[:1])}: fails at {said(found.design, first.field, first.at)}).{then}{last}"
    )


def flips_json(flipping: Sequence[Flip]) -> list[dict[str, Any]]:
    """Give what could fail as plain values for :func:`json.dumps`."""
    return [
        {"field": one.field, "low": one.low, "high": one.high, "fails": list(one.fails)}
        for one in flipping
    ]


def flips_rows(found: Machine, flipping: Sequence[Flip]) -> list[tuple[str, str, str, str]]:
    """Rows for the report: field, value, its range, and what fails and where."""
    design = found.design
    return [
        (
            one.field,
            said(design, one.field),
            f"{said(design, one.field, one.low)} to {said(design, one.field, one.high)}",
            f"{named(found, one.fails)}; from {said(design, one.field, one.at)} on",
        )
        for one in flipping
    ]
