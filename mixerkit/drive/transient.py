"""A jam followed through time: masses in a row, springs between them."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from math import pi, sqrt
from typing import ClassVar

import numpy as np

from mixerkit.results import Array, Rotation

__all__ = ["transient"]


@dataclass(frozen=True)
class _Row:
    """Masses in a row in kg*m^2 and the springs behind them in N*m/rad, the last of which ends at rest.

    The first spring has play in rad; ``rub`` is damping in N*m*s/rad, ``drive`` the motor's torque in N*m.
    """

    mass: Array
    spring: Array
    rub: Array
    play: float
    drive: Callable[[float], float] | None

    def wound(self, angle: Array) -> Array:
        """How far in rad each spring is wound, the play of the first taken off."""
        gap = np.array(angle)
        gap[:-1] -= angle[1:]
        free = gap[0]
        gap[0] = np.where(free > self.play, free - self.play, np.where(free < 0, free, 0.0))
        return gap

    def torques(self, angle: Array, turning: Array, *, whole: bool = True) -> Array:
        """Torque of each spring in N*m; none of the first once it gave."""
        gap = self.wound(angle)
        closing = np.array(turning)
        closing[:-1] -= turning[1:]
        along = (-1, *[1] * (gap.ndim - 1))
        given = self.spring.reshape(along) * gap + self.rub.reshape(along) * closing * (gap != 0)
        if not whole:
            given[0] = 0.0
        return np.asarray(given)

    def moves(self, state: Array, *, whole: bool) -> Array:
        """How fast angles and speeds change."""
        angle, turning = np.split(state, 2)
        given = self.torques(angle, turning, whole=whole)
        net = -given
        net[1:] += given[:-1]
        if self.drive is not None:
            net[0] += self.drive(turning[0])
        return np.concatenate([turning, net / self.mass])

    def swings(self, speed: float) -> float:
        """Time in s of one and a half swings of the slowest kind, once the play is taken up at a speed in rad/s."""
        soft = sqrt(1 / (np.sum(1 / self.spring)) / self.mass.sum())
        return float(self.play / max(speed, 1e-9) + 1.5 * pi / soft)

    def rotation(self, times: Array, path: Array, whole: int, broke: float | None) -> Rotation:
        """What stands at the times, of which the first so many are those before the first spring gave."""
        angle, turning = np.split(path, 2)
        torque = self.torques(angle, turning)
        stored = self.spring[:, None] * self.wound(angle) ** 2 / 2
        for of_first in (torque[0], stored[0]):
            of_first[whole:] = 0.0
        return Rotation(
            time=times,
            torque=torque,
            speed=turning,
            angle=angle,
            energy=(self.mass[:, None] * turning**2 / 2).sum(axis=0) + stored.sum(axis=0),
            peak=float(torque[-1].max()),
            broke=broke,
        )

    def follow(
        self,
        begins: float,
        state: Array,
        times: Array,
        *,
        accuracy: float,
        gives_at: float | None = None,
    ) -> tuple[Array, tuple[float, Array] | None]:
        """Integrate from a state to the last of the times, or to where the first spring gives.

        Without a torque at which it gives, it gave before. The states at the times come out, and time and
        state in which it gave.
        """
        from scipy.integrate import solve_ivp  # here, because most runs do not need it

        run = solve_ivp(
            lambda _time, state: self.moves(state, whole=gives_at is not None),
            (begins, times[-1]),
            state,
            "DOP853",
            t_eval=times[times > begins] if begins else times,
            rtol=accuracy,
            atol=accuracy / 100,
            # a small step keeps the corner where the play is taken up from being stepped over
            max_step=times[-1] / (400 if accuracy < 1e-8 else 150),
            events=None if gives_at is None or np.isinf(gives_at) else _Gives(self, gives_at),
        )
        if run.status == 1 and run.t_events and run.y_events:
            return run.y, (float(run.t_events[0][0]), np.asarray(run.y_events[0][0], float))
        return run.y, None


@dataclass(frozen=True)
class _Gives:
    """By how much in N*m the first spring's torque is over that at which it gives."""

    row: _Row
    at: float
    terminal: ClassVar[bool] = True
    """How scipy is told to stop there."""

    def __call__(self, _time: float, state: Array) -> float:
        return float(self.row.torques(*np.split(state, 2))[0] - self.at)


def transient(
    inertias: Sequence[float],
    springs: Sequence[float],
    speed: float,
    *,
    play: float = 0.0,
    drive: Callable[[float], float] | None = None,
    damping: float = 0.0,
    breaks_at: float = np.inf,
    duration: float | None = None,
    steps: int = 2000,
    accuracy: float = 1e-10,
) -> Rotation:
    """Follow a jam through time: masses in a row, springs between them, the last spring held still.

    Parameters
    ----------
    inertias : sequence of float
        From the motor's end, in kg*m^2.
    springs : sequence of float
        Behind each inertia, in N*m/rad; the last one ends at the jammed paddle.
    speed : float
        Of all of them before the jam, in rad/s.
    play : float
        Backlash in rad that the first spring takes up before it is wound, all of it open at first.
    drive : callable, optional
        Torque of the motor in N*m on the first inertia at its speed in rad/s; none if not given.
    damping : float
        Share of critical damping in the springs.
    breaks_at : float
        Torque at which the first spring, the fuse, gives.
    duration : float, optional
        In seconds; one and a half swings of the slowest kind, if not given.
    steps : int
        Times at which it is reported.
    accuracy : float
        Relative, of each step; a picture is content with less.

    Returns
    -------
    Rotation
        ``time`` in s, ``torque`` (springs, time) in N*m, ``speed`` (inertias, time) in rad/s,
        ``energy`` over time in J of motion and springs together, ``peak`` of the last spring,
        ``broke`` the time at which the fuse gave, or none.

    References
    ----------
    Newton's law for each mass, integrated by an eighth-order Runge-Kutta method (Dormand & Prince).
    """
    mass, spring = np.asarray(inertias, float), np.asarray(springs, float)
    row = _Row(mass, spring, 2 * damping * np.sqrt(spring * mass), play, drive)
    times = np.linspace(0.0, row.swings(speed) if duration is None else duration, steps)
    begin = np.concatenate([np.zeros(len(mass)), np.full(len(mass), speed)])
    path, gave = row.follow(0.0, begin, times, accuracy=accuracy, gives_at=breaks_at)
    whole = path.shape[1]
    if gave:
        rest, _ = row.follow(*gave, times, accuracy=accuracy)
        path = np.concatenate([path, rest], axis=1)
    return row.rotation(times[: path.shape[1]], path, whole, gave[0] if gave else None)
