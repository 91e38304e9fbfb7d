"""Slow answers wait until the knobs rest."""

from __future__ import annotations

import asyncio
from collections.abc import Callable

__all__ = ["Resting"]

REST = 0.7
"""Seconds without a move after which a knob is taken to rest (common practice)."""


class Resting:
    """Does something once nothing has been asked for a while; asked again, it waits anew.

    Without a running event loop, as in a script, nothing is done until :meth:`now` is called.

    Parameters
    ----------
    action : callable
    """

    def __init__(self, action: Callable[[], None]) -> None:
        self._action = action
        self._waits: asyncio.TimerHandle | None = None

    def ask(self) -> None:
        """Do it after the rest, counted from now."""
        self.drop()
        try:
            loop = asyncio.get_running_loop()
        except RuntimeError:
            return
        self._waits = loop.call_later(REST, self.now)

    def drop(self) -> None:
        """Do it no more, unless asked again."""
        if self._waits is not None:
            self._waits.cancel()
            self._waits = None

    def now(self) -> None:
        """Do it at once."""
        self.drop()
        self._action()
