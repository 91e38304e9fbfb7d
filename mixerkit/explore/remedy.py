"""One change that mends a check, and all that mends a design, in words and lines to type."""

from __future__ import annotations

import json
import math
from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from mixerkit.checks import Check
from mixerkit.design import Design

__all__ = [
    "A_PURCHASE",
    "ESTIMATED",
    "FAR",
    "Mending",
    "Remedy",
    "badness",
    "moved",
    "plain_value",
    "sensible",
    "written",
]


ESTIMATED = frozenset({"motor.inertia", "motor.end_load", "reducer.input_load", "reducer.mass"})
"""What a table of motors or boxes does not say and another one is estimated to have, till its sheet is read."""
FAR = 0.8
"""Moved by more than this power of two, a value makes another machine (common practice)."""
A_PURCHASE = 0.5
"""How far another motor or box is from the one there is, as :func:`moved` counts it (common practice)."""
_FAR_OFF = 2.0
"""How far from holding a check counts as being that can take nothing."""
_UNKNOWN = 2.5
"""How far from holding a check counts as being that has no number."""


@dataclass(frozen=True)
class Remedy:
    """One change that mends a check, tried on the whole machine.

    Attributes
    ----------
    values : mapping
        Fields and their values as they stand in a design file.
    mends : tuple of str
        Ids of the failing checks that hold with it.
    breaks : tuple of str
        Ids of checks that hold without it and fail with it.
    size : float
        How far the values move: nought for none, 1 for twice or half as much (see :func:`moved`).
    """

    values: Mapping[str, object]
    mends: tuple[str, ...]
    breaks: tuple[str, ...]
    size: float = 0.0

    @property
    def gains(self) -> bool:
        """Whether fewer checks fail with it; what only trades one for another may lead round and round."""
        return len(self.breaks) < len(self.mends)

    @property
    def estimated(self) -> str:
        """Say which of its values are estimates of what is bought; empty where none is."""
        names = ", ".join(one for one in self.values if one in ESTIMATED)
        return f"estimated until the maker's sheet is read: {names}" if names else ""

    @property
    def lines(self) -> tuple[str, ...]:
        """The change ready to type, a field a line."""
        return tuple(written(name, value) for name, value in self.values.items())


@dataclass(frozen=True)
class Mending:
    """What mends each failing check of a design.

    Attributes
    ----------
    remedies : mapping
        Id of each failing check that was asked for, to its remedies, most helpful first.
    searched : frozenset of str
        Ids without a remedy for which every single choice was moved through its whole range.
    harmful : frozenset of str
        Ids without a remedy, as all that mends them breaks more than it mends.
    """

    remedies: Mapping[str, tuple[Remedy, ...]]
    searched: frozenset[str]
    harmful: frozenset[str] = frozenset()

    @property
    def best(self) -> Remedy | None:
        """The harmless remedy that mends most; none if there is none that mends two or more."""
        known = {one.lines: one for found in self.remedies.values() for one in found}
        best = max(
            (one for one in known.values() if not one.breaks and one.size <= FAR),
            key=lambda one: (len(one.mends) - one.size, -len(one.values)),
            default=None,
        )
        return best if best and len(best.mends) > 1 else None

    def why_none(self, check: Check) -> str:
        """Say of a check without a remedy whether all was tried, and what to know of it."""
        if not check.fix and check.note and check.judged:
            # what hangs on facts and practice alone has nothing to be chosen
            return check.note
        lead = "None of the changes tried mends this"
        if check.id in self.searched:
            lead = "No single change of a choice mends this"
        elif check.id in self.harmful:
            lead = "What mends this breaks more than it mends"
        return f"{lead}. {check.note}" if check.note and check.judged else f"{lead}."


def written(name: str, value: object) -> str:
    """Write a field and its value as a line to type, such as ``shaft_2.diameter = "50 mm"``.

    Examples
    --------
    >>> print(written("shaft_2.diameter", "50 mm"))
    shaft_2.diameter = "50 mm"
    >>> print(written("paths.direct.tooth_counts", [31, 29]))
    paths.direct.tooth_counts = [31, 29]
    """
    return f"{name} = {json.dumps(value, ensure_ascii=False)}"


def badness(check: Check) -> float:
    """How far a failing check is from holding: nought where it holds."""
    if check.verdict != "fails":
        return 0.0
    spare = check.spare
    if math.isnan(spare):
        return _UNKNOWN
    if spare > 0:
        return 0.4 + min(-math.log(min(spare, 1.0)), _FAR_OFF - 0.4)
    # what is less than nothing goes on rising, so that it is felt whether a change helps
    return _FAR_OFF + (_UNKNOWN - _FAR_OFF) * (1 - 1 / (1 - max(spare, -1e9)))


def moved(before: Design, after: Design, fields: Iterable[str]) -> float:
    """How far fields move from one design to another: the greatest of them counts.

    Parameters
    ----------
    before, after : Design
    fields : iterable of str
        Dotted names.

    Returns
    -------
    float
        For a number the power of two between both values, at most 10; a half for what has no order.

    Examples
    --------
    >>> demo = Design.demo()
    >>> moved(demo, demo.with_values({"shaft_1.diameter": "90 mm"}), ["shaft_1.diameter"])
    1.0
    """
    return max(
        (_moved_one(plain_value(before, one), plain_value(after, one)) for one in fields),
        default=0.0,
    )


def _moved_one(old: object, new: object) -> float:
    if isinstance(old, tuple) and isinstance(new, tuple) and len(old) == len(new) and old:
        return max(_moved_one(one, two) for one, two in zip(old, new, strict=True))
    if isinstance(old, bool) or not (
        isinstance(old, (int, float)) and isinstance(new, (int, float))
    ):
        return 0.5 if old != new else 0.0
    if old <= 0 or new <= 0:
        return min(abs(float(new - old)) / (abs(float(old)) or 1.0), 10.0)
    return min(abs(math.log2(new / old)), 10.0)


def plain_value(design: Design, dotted: str) -> object:
    """Value of a design's field."""
    record, name, _ = design.field(dotted)
    value: object = getattr(record, name)
    return value


def sensible(ranked: list[Remedy]) -> list[Remedy]:
    """Leave out what does more harm than good, and what only says more of the same, if others are left."""
    clean = [one for one in ranked if not one.breaks]
    good = clean or [one for one in ranked if one.gains]
    good = [one for one in good if one.size <= FAR] or good
    kept: list[Remedy] = []
    said = [one.values.items() for one in good]
    # what does with less needs no more
    good = [one for one in good if not any(less < one.values.items() for less in said)]
    # a change that breaks more than it mends is none
    for one in good or [one for one in ranked[:1] if len(one.breaks) <= len(one.mends)]:
        fields = {*one.values}
        if not any(fields == {*other.values} or fields > {*other.values} for other in kept):
            kept.append(one)
    return kept
