"""Will it hold with all that is not known? Facts and practice drawn from their ranges through the whole assessment.

Where :mod:`mixerkit.explore.uncertainty` asks of the motor alone, on arrays, this works out every check of every draw.
A check fails in a draw when what is asked of it exceeds what it can take, at a factor of 1: the wanted factors are there
for what is drawn. What cannot be judged fails.

Drawn is what :func:`mixerkit.explore.inputs.inputs` lists, all apart from each other and evenly between both ends. The
strength of metals is felt by every check whose capacity is a stress; diameters that a rule asks for, torques of the jam's
ladder and lives stand on the tables' strengths as they are, which are the least of their standards. Choices stand as
written: sizes and fits come out as drawn, what was made otherwise is judged by the sizes as made.
"""

from __future__ import annotations

import functools
from collections.abc import Callable, Sequence
from concurrent.futures import Executor
from dataclasses import dataclass

import numpy as np

from mixerkit.checks import Check
from mixerkit.design import Design
from mixerkit.explore.collected import seldom_collected
from mixerkit.explore.inputs import METALS, STRENGTH, Input, inputs, put
from mixerkit.explore.reads import made_by
from mixerkit.explore.sampled import clopper_pearson, morris, sobol
from mixerkit.machine import Machine
from mixerkit.results import Array
from mixerkit.spare import spare_of

__all__ = ["WORST", "Effect", "Gain", "Outlook", "outlook", "spares"]

WORST = 6
"""Inputs that are looked at closely."""
_BATCH = 50
"""Draws between two looks at whether to go on."""
_ENOUGH = 100
"""Failing draws that are tried again with one input as it is written."""
_PLENTY = 10.0
"""More to spare than this is all the same."""

Spares = dict[str, float]
Rows = Sequence[dict[str, float]]


@dataclass(frozen=True)
class Effect:
    """How one input moves the least that any check has to spare.

    Attributes
    ----------
    of : Input
    mean, spread : float
        Morris's mu* and sigma over its whole range.
    """

    of: Input
    mean: float
    spread: float


@dataclass(frozen=True)
class Gain:
    """What it is worth to know one input.

    Attributes
    ----------
    of : Input
    first, total : float
        Sobol indices of the least spare, alone and with all it acts together with, among the worst inputs.
    held, tried : int
        Of so many draws that failed, how many hold with this input as it is written.
    """

    of: Input
    first: float
    total: float
    held: int
    tried: int


@dataclass(frozen=True)
class Outlook:
    """Whether a machine holds with all that is not known.

    Attributes
    ----------
    draws, holding : int
        Designs drawn, and those of them in which every check holds.
    interval : tuple of float
        Of the share of them, 95 %, by Clopper and Pearson.
    failing : tuple of (str, float)
        Checks by their id and the share of the draws in which each fails, the worst first.
    effects : tuple of Effect
        Of every input, the greatest first.
    measure_first : tuple of Gain
        The worst inputs, by what it gains to know them.
    """

    draws: int
    holding: int
    interval: tuple[float, float]
    failing: tuple[tuple[str, float], ...]
    effects: tuple[Effect, ...]
    measure_first: tuple[Gain, ...]

    @property
    def share(self) -> float:
        """Share of the draws in which every check holds."""
        return self.holding / self.draws


class _CancelledError(Exception):
    """It was asked to stop."""


@seldom_collected()
def outlook(
    machine: Machine,
    draws: int = 1000,
    seed: int = 1,
    progress: Callable[[str], None] = lambda _words: None,
    cancel: Callable[[], bool] = lambda: False,
    executor: Executor | None = None,
) -> Outlook | None:
    """Draw a design many times from the ranges of its facts and practice, and work out every check of each.

    Parameters
    ----------
    machine : Machine
    draws : int
        At least 1.
    seed : int
        The same seed gives the same answer, with an executor or without.
    progress : callable
        Told in words what is being done.
    cancel : callable
        Asked between batches whether to stop.
    executor : concurrent.futures.Executor, optional
        What works them out side by side.

    Returns
    -------
    Outlook, or None
        None where it was cancelled.
    """
    open_ones = _felt(machine)
    try:
        return _Looking(machine.design, open_ones, progress, cancel, executor).look(draws, seed)
    except _CancelledError:
        return None


def _felt(machine: Machine) -> tuple[Input, ...]:
    """Inputs that some check reads."""
    read = {name for _, names in made_by(machine).values() for name in names}
    return tuple(
        one for one in inputs(machine.design) if one.name in read or one.name in (METALS, STRENGTH)
    )


def spares(design: Design, values: dict[str, float]) -> Spares:
    """Give what each check has to spare at a factor of 1, with inputs at other values.

    Parameters
    ----------
    design : Design
    values : dict of str to float
        By the names of inputs, see :func:`mixerkit.explore.inputs.put`.

    Returns
    -------
    dict of str to float
        By id; 0 for what cannot be judged, below 1 it fails.
    """
    metals = values.get(METALS, 1.0)
    return {one.id: _spare(one, metals) for one in Machine(put(design, values)).checks}


def _spare(check: Check, metals: float) -> float:
    if not check.judged:
        return 0.0
    takes = check.capacity * (metals if check.unit == "MPa" else 1.0)
    # a capacity chosen to be exactly enough may come out one rounding below 1
    return float(np.clip(spare_of(check.demand, takes, 1.0) + 1e-9, 0.0, _PLENTY))


def _fails(found: Spares) -> bool:
    return any(one < 1 for one in found.values())


class _Looking:
    """One look at one design."""

    def __init__(
        self,
        design: Design,
        open_ones: tuple[Input, ...],
        progress: Callable[[str], None],
        cancel: Callable[[], bool],
        executor: Executor | None,
    ) -> None:
        self.design, self.inputs = design, open_ones
        self._progress, self._cancel, self._executor = progress, cancel, executor

    def look(self, draws: int, seed: int) -> Outlook:
        """Draw, count, and find what matters."""
        places = np.random.default_rng(seed).random((draws, len(self.inputs)))
        rows = [self._row(self.inputs, one) for one in places]
        found = self._run(rows, "drawing machines")
        holding = sum(not _fails(one) for one in found)
        moving = _moving(found)
        paths = max(min(draws // 100, 10), 2)
        means, spreads = morris(
            self._least(self.inputs, moving, "moving each input"), len(self.inputs), paths, seed
        )
        order = np.argsort(-means, kind="stable")
        effects = tuple(Effect(self.inputs[k], float(means[k]), float(spreads[k])) for k in order)
        bad = [row for row, one in zip(rows, found, strict=True) if _fails(one)][:_ENOUGH]
        return Outlook(
            draws,
            holding,
            clopper_pearson(holding, draws),
            _failing(found),
            effects,
            self._gains([one.of for one in effects[:WORST]], moving, bad, draws, seed),
        )

    def _gains(
        self, worst: list[Input], moving: frozenset[str], bad: Rows, draws: int, seed: int
    ) -> tuple[Gain, ...]:
        samples = 2 ** int(np.log2(max(draws // 7, 4)))
        first, total = sobol(
            self._least(worst, moving, "weighing the worst of them"), len(worst), samples, seed
        )
        gains = []
        for k, one in enumerate(worst):
            known = [{name: at for name, at in row.items() if name != one.name} for row in bad]
            words = f"trying {one.name} as written"
            held = sum(not _fails(found) for found in self._run(known, words))
            gains.append(Gain(one, float(first[k]), float(total[k]), held, len(bad)))
        return tuple(sorted(gains, key=lambda one: (-one.held, -one.total)))

    def _row(self, of: Sequence[Input], places: Array) -> dict[str, float]:
        return {one.name: one.at(float(at)) for one, at in zip(of, places, strict=True)}

    def _least(
        self, of: Sequence[Input], moving: frozenset[str], words: str
    ) -> Callable[[Array], Array]:
        """Least that any check has to spare, of those that the inputs move at all, by places of some inputs."""

        def tried(places: Array) -> Array:
            found = self._run([self._row(of, one) for one in np.asarray(places).T], words)
            return np.array(
                [
                    min((at for name, at in one.items() if name in moving), default=1.0)
                    for one in found
                ]
            )

        return tried

    def _run(self, rows: Rows, words: str) -> list[Spares]:
        """Work out rows of values, in batches, in their order."""
        work = functools.partial(spares, self.design)
        found: list[Spares] = []
        for begun in range(0, len(rows), _BATCH):
            if self._cancel():
                raise _CancelledError
            self._progress(f"{words}: {begun} of {len(rows)}")
            batch = rows[begun : begun + _BATCH]
            found += (
                self._executor.map(work, batch, chunksize=5) if self._executor else map(work, batch)
            )
        return found


def _moving(found: Sequence[Spares]) -> frozenset[str]:
    """Checks that do not have the same to spare in every draw: one that fits exactly would hide all others."""
    names = {name for one in found for name in one}
    return frozenset(
        name for name in names if len({round(one.get(name, 0.0), 9) for one in found}) > 1
    )


def _failing(found: Sequence[Spares]) -> tuple[tuple[str, float], ...]:
    counts: dict[str, int] = {}
    for one in found:
        for name, spare in one.items():
            if spare < 1:
                counts[name] = counts.get(name, 0) + 1
    ranked = sorted(counts.items(), key=lambda pair: (-pair[1], pair[0]))
    return tuple((name, count / len(found)) for name, count in ranked)
