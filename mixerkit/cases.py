"""The states of the machine, and one design laid out over all of them.

A state is a clutch position, a direction of the motor and a load. Every stage works on arrays
over all states at once and makes its checks through :meth:`Case.check`, which keeps the state
that governs.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass, field
from functools import partial
from itertools import product
from typing import Any, NoReturn, TypeGuard

import numpy as np
import numpy.typing as npt

from mixerkit.checks import TIGHT, Amounts, Change, Check, Say, governing, not_judged
from mixerkit.frozen import cached_property
from mixerkit.results import Array, ClayLoad, Flags, Indices, PowerFlow
from mixerkit.spec import Spec
from mixerkit.units import show

__all__ = ["CLUTCH_POSITIONS", "LOADS", "MODES", "Case", "Makers", "State", "all_states"]

CLUTCH_POSITIONS = ("direct", "neutral", "idler")
MODES = {"direct": "counter-rotating", "neutral": "neutral", "idler": "co-rotating"}
LOADS = (
    "mixing",
    "mixing, shaft 1 heavier",
    "mixing, shaft 2 heavier",
    "starting",
    "jam on shaft 1",
    "jam on shaft 2",
)


@dataclass(frozen=True)
class State:
    """One state of the machine.

    Attributes
    ----------
    clutch : str
        One of :data:`CLUTCH_POSITIONS`.
    direction : int
        1 forward, -1 reverse.
    load : str
        One of :data:`LOADS`.
    """

    clutch: str
    direction: int
    load: str

    @property
    def name(self) -> str:
        """Say the state in words."""
        return (
            f"{MODES[self.clutch]}, {'forward' if self.direction > 0 else 'reverse'}, {self.load}"
        )


def all_states() -> tuple[State, ...]:
    """List every clutch position, direction and load.

    Returns
    -------
    tuple of State

    Examples
    --------
    >>> len(all_states()), all_states()[0].name
    (36, 'counter-rotating, forward, mixing')
    """
    return tuple(State(*one) for one in product(CLUTCH_POSITIONS, (1, -1), LOADS))


def _over_states(amounts: Amounts) -> TypeGuard[Array]:
    return isinstance(amounts, np.ndarray) and amounts.ndim > 0


def _nobody(_case: Case) -> NoReturn:
    raise LookupError("nothing is said of who works this out")


@dataclass(frozen=True)
class Makers:
    """What works out the attributes of a :class:`Case` of the same names, each when it is first asked for."""

    speed: Callable[[Case], float] = _nobody
    empty_speed: Callable[[Case], float] = _nobody
    asks: Callable[[Case], ClayLoad] = _nobody
    flow: Callable[[Case], PowerFlow] = _nobody
    lines: Callable[[Case], tuple[Any, Any]] = _nobody


@dataclass(frozen=True)
class Case:
    """A design in plain numbers, laid out over all states.

    Attributes
    ----------
    spec : Spec
        The design's records.
    states : tuple of State
    system : str
        ``"metric"`` or ``"inch"``: units this maker reads.
    makers : Makers
        What works out :attr:`speed`, :attr:`empty_speed`, :attr:`asks`, :attr:`flow` and :attr:`lines` of a case when each is
        first asked for.
    """

    spec: Spec
    states: tuple[State, ...]
    system: str = "metric"
    makers: Makers = field(default=Makers(), compare=False, repr=False)

    @cached_property
    def speed(self) -> float:
        """Speed of shaft 1 in rpm, the one that life, wear and batch are reckoned with.

        While it mixes, at the frequency the motor is fed with and under its rated torque; see
        :func:`mixerkit.drive.motor.shaft_speed`.
        """
        return self.makers.speed(self)

    @cached_property
    def empty_speed(self) -> float:
        """Speed of shaft 1 in rpm with the trough empty, from which run-down and jam are reckoned.

        See :func:`mixerkit.drive.motor.empty_speed`.
        """
        return self.makers.empty_speed(self)

    @cached_property
    def asks(self) -> ClayLoad:
        """What the clay asks of one shaft, see :func:`mixerkit.load.paddles.demand`."""
        return self.makers.asks(self)

    @cached_property
    def flow(self) -> PowerFlow:
        """Torques and speeds along the power path, see :func:`mixerkit.drive.powerflow.power_flow`."""
        return self.makers.flow(self)

    @cached_property
    def lines(self) -> tuple[Any, Any]:
        """Both shafts as beams, see :func:`mixerkit.parts.shaftline.lines`."""
        return self.makers.lines(self)

    @cached_property
    def clutch(self) -> npt.NDArray[np.str_]:
        """Clutch position of each state."""
        return np.array([state.clutch for state in self.states])

    @cached_property
    def direction(self) -> Indices:
        """Direction of the motor in each state, 1 or -1."""
        return np.array([state.direction for state in self.states])

    @cached_property
    def load(self) -> npt.NDArray[np.str_]:
        """Load of each state."""
        return np.array([state.load for state in self.states])

    @cached_property
    def mixing(self) -> Flags:
        """Whether the machine mixes in each state."""
        return np.char.startswith(self.load, "mixing")

    @cached_property
    def starting(self) -> Flags:
        """Whether the machine starts in each state."""
        starts: Flags = self.load == "starting"
        return starts

    @cached_property
    def jammed(self) -> Flags:
        """Whether a paddle is jammed in each state."""
        return np.char.startswith(self.load, "jam")

    @cached_property
    def names(self) -> tuple[str, ...]:
        """The states in words."""
        return tuple(state.name for state in self.states)

    def check(
        self,
        stage: str,
        part: str,
        name: str,
        *,
        demand: Amounts,
        capacity: Amounts,
        unit: str,
        reason: Callable[[int, Say], str],
        source: str,
        fix: Callable[[int], Sequence[Change]] | None = None,
        note: Callable[[int, Say], str] | None = None,
        safety: float = 1.0,
        where: Flags | None = None,
        tight: float = TIGHT,
        rung: tuple[float, float] | None = None,
        words: tuple[str, str] | None = None,
    ) -> Check:
        """Check in every state, or in those of ``where``, and keep the one that governs.

        See :class:`mixerkit.checks.Check`; ``reason``, ``fix`` and ``note`` are given the place of the
        governing state among all states, and all but ``fix`` what writes a number for this maker. A
        demand and a capacity that are single numbers do not depend on the state, and none is named.
        ``rung`` makes it a rung of the ladder of what gives way first: torque at yield over the torque of
        the state, per unit of spare without the wanted factor, as (power of the spare, break over yield).
        The state with the least spare is not always the one that yields at the least torque, so that all
        are looked at.
        ``words`` say demand and capacity of what is so or not, where 1 and 0 would say nothing.
        """
        place, state, gives = 0, "", None
        if rung is not None:
            yields = self._yields(demand, capacity, rung[0])
            gives = (yields, yields * rung[1]) if yields < np.inf else None
        if _over_states(demand) or _over_states(capacity):
            # the governing state is found first, so that words are made for one state only
            place = governing(demand, capacity, safety, True if where is None else where)
            state = self.names[place]
            demand = demand[place] if _over_states(demand) else demand
            capacity = capacity[place] if _over_states(capacity) else capacity
        most, takes = float(demand), float(capacity)
        say = partial(show, system=self.system)
        return Check(
            stage,
            part,
            name,
            most,
            takes,
            unit,
            safety,
            state,
            source,
            lambda: reason(place, say),
            self.system,
            tight,
            gives,
            (lambda: fix(place)) if fix else tuple,
            (lambda: note(place, say)) if note else str,
            words,
        )

    @cached_property
    def _wound(self) -> tuple[Indices, Array]:
        """States in which a jam winds up the train, and the torque at the slow end in each."""
        states = np.flatnonzero(self.jammed & (self.flow.slow > 0))
        return states, self.flow.slow[states]

    def _yields(self, demand: Amounts, capacity: Amounts, power: float) -> float:
        """Least torque at the slow end in N*m at which a part yields in a jam; infinite if none asks of it."""
        states, slow = self._wound
        asked = demand[states] if _over_states(demand) else demand
        takes = capacity[states] if _over_states(capacity) else capacity
        with np.errstate(divide="ignore", invalid="ignore"):
            share = np.where(np.greater(asked, 0), np.divide(takes, asked), np.inf)
        return float((slow * share**power).min(initial=np.inf))

    def not_judged(self, stage: str, part: str, name: str, why: str) -> Check:
        """Make the failing check of what cannot be worked out; see :func:`mixerkit.checks.not_judged`."""
        return not_judged(stage, part, name, why, self.system)
