"""Other processes for what is worked out many times over, where it is worth their start."""

from __future__ import annotations

import os
from collections.abc import Iterator
from concurrent.futures import BrokenExecutor, Executor, ProcessPoolExecutor
from contextlib import contextmanager

from mixerkit.units import InputError

__all__ = ["side_by_side"]


@contextmanager
def side_by_side(command: str, many: int, worth: int, otherwise: str) -> Iterator[Executor | None]:
    """Give a process for each core, or none where that is not worth their start.

    Parameters
    ----------
    command : str
        What is asked for, for the message.
    many : int
        How often something is worked out.
    worth : int
        From how often on others are worth their start.
    otherwise : str
        What to type where they are ended from outside, for the message.

    Yields
    ------
    concurrent.futures.Executor or None

    Raises
    ------
    InputError
        If one of the processes is ended from outside.
    """
    cores = os.cpu_count() or 1
    if many < worth or cores == 1:
        yield None
        return
    try:
        with ProcessPoolExecutor(cores) as pool:
            yield pool
    except BrokenExecutor:
        raise InputError(
            f"{command}: one of its processes was ended from outside; without others it goes with {otherwise}."
        ) from None
