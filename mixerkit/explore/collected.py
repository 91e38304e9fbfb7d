"""Machines hold themselves in rings, which only the garbage collector frees: where many are made it looks seldom."""

from __future__ import annotations

import gc
from collections.abc import Iterator
from contextlib import contextmanager

__all__ = ["seldom_collected"]

_SELDOM = 20_000
"""Things made between two looks: those of a few machines."""


@contextmanager
def seldom_collected() -> Iterator[None]:
    """Let the garbage collector look at the newest things once in a few machines, and as before at the end.

    It also decorates a function. A fifth of the time goes to its looks otherwise.

    Examples
    --------
    >>> before = gc.get_threshold()
    >>> with seldom_collected():
    ...     gc.get_threshold()[0]
    20000
    >>> gc.get_threshold() == before
    True
    """
    was = gc.get_threshold()
    # one of nought never looks by itself
    if was[0]:
        gc.set_threshold(max(was[0], _SELDOM), *was[1:])
    try:
        yield
    finally:
        gc.set_threshold(*was)
