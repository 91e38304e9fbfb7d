"""What follows from some tables of a design alone, worked out once for as long as they stay as they are."""

from __future__ import annotations

from collections.abc import Callable
from functools import lru_cache, wraps
from typing import TypeVar, TypeVarTuple, Unpack, cast

from mixerkit.fields import Record
from mixerkit.frozen import Frozen, frozen
from mixerkit.spec import Spec

__all__ = ["PLACED", "kept_by"]

Ts = TypeVarTuple("Ts")
T = TypeVar("T")

PLACED = (
    "shaft_1",
    "shaft_2",
    "sleeve",
    "bearings",
    "paths",
    "clutch",
    "hubs",
    "fuse",
    "reducer",
    "housing",
    "trough",
    "paddles",
)
"""Tables that say where each part stands."""


def kept_by(
    *names: str,
) -> Callable[[Callable[[Spec, Unpack[Ts]], T]], Callable[[Spec, Unpack[Ts]], T]]:
    """Keep what a function works out of some tables of a design.

    The function is given these tables and no others, so that nothing else can have a say in it.

    Parameters
    ----------
    *names : str
        Of the tables.

    Returns
    -------
    callable
        Takes the function; what comes of it takes a whole design in its place.

    Examples
    --------
    >>> from mixerkit import Design
    >>> @kept_by("batch")
    ... def bag(spec: Spec) -> float:
    ...     return spec.batch.mass
    >>> @kept_by("clay")
    ... def not_its_own(spec: Spec) -> float:
    ...     return spec.batch.mass
    >>> bag(Design.demo())
    15.0
    >>> not_its_own(Design.demo())
    Traceback (most recent call last):
    ...
    AttributeError: 'Frozen' object has no attribute 'batch'
    """

    def keep(function: Callable[[Spec, Unpack[Ts]], T]) -> Callable[[Spec, Unpack[Ts]], T]:
        @lru_cache(maxsize=64)
        def worked_out(records: tuple[Record, ...], rest: tuple[*Ts]) -> T:
            only = cast("Spec", Frozen(**dict(zip(names, records, strict=True))))
            return frozen(function(only, *rest))

        def kept(spec: Spec, *rest: *Ts) -> T:
            return worked_out(tuple(getattr(spec, name) for name in names), rest)

        return wraps(function)(kept)

    return keep
