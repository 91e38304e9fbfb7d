"""Both shafts of a design as beams, with what every state of the machine does to them.

The beam is solved once for a unit force at every place; every state, every angle of a turn and
every jammed paddle are then one product of matrices. A force on a paddle of a carried sleeve comes to the shaft
at the sleeve's seats.
"""

from __future__ import annotations

from functools import lru_cache

import numpy as np

from mixerkit.frozen import cached_property, result
from mixerkit.parts import beam
from mixerkit.parts.blades import jam_force
from mixerkit.parts.kept import PLACED, kept_by
from mixerkit.parts.shaft_body import ShaftBody
from mixerkit.parts.shaft_loads import ShaftLoads, larger_side, planes, together
from mixerkit.parts.sleeve_beam import Ridden, ridden
from mixerkit.results import Array, Flags, Indices, LoadedMachine
from mixerkit.spec import Spec

__all__ = ["Running", "ShaftBeam", "Stopped"]

_ALL = slice(None)


@result
class _Feels:
    """What a shaft feels at each place, in each bearing.

    Of a unit force at each place, of its weight, or of a bearing that stands off the line.
    """

    moment: Array
    slope: Array
    lift: Array
    reaction: Array
    shear: Array


@result
class Running:
    """The same with moments in N*m and the bearings' reactions in N."""

    states: Indices
    moment: Array
    torque: Array
    reaction: Array


@result
class Stopped:
    """States of a jam; rows are (states, jammed paddle, places), lifts in mm; ``push`` on a paddle in N."""

    states: Indices
    push: Array
    moment: Array
    torque: Array
    reaction: Array
    lift: Array


@result
class Sag:
    """Slope in rad and lift in mm at each place."""

    slope: Array
    lift: Array


class _Unloaded(ShaftBody):
    """One shaft as a beam, before anything loads it; see :class:`ShaftBeam`."""

    def __init__(self, spec: Spec, number: int) -> None:
        super().__init__(spec, number)
        nodes = len(self.places)
        self.sleeve: Ridden | None = None
        self.hung = np.zeros(nodes)
        solved = _unit_loads(
            self.places.tobytes(),
            self.stiffness.tobytes(),
            self.weights.tobytes(),
            tuple(map(int, self.supports)),
        )
        if self.seats:
            on = [*self.seats]
            self.sleeve = ridden(spec, self.places[on], self.places[self.paddles], self.trough)
            self.hung[on] = -self.sleeve.seats[-1]
            solved = _through(solved, self.sleeve, self.seats, tuple(map(int, self.paddles)))
        self._by, self.weight, each = (
            _Feels(
                moment=solved.moment_left[of],
                slope=solved.slope[of],
                lift=solved.deflection[of],
                reaction=solved.reactions[of],
                shear=solved.shear[of],
            )
            for of in (slice(nodes), nodes, slice(nodes + 1, None))
        )
        stands = spec.bearings.misalignment
        self.forced = _Feels(
            moment=stands * np.abs(each.moment).max(axis=0),
            slope=stands * np.abs(each.slope).max(axis=0),
            lift=stands * np.abs(each.lift).max(axis=0),
            reaction=stands * np.abs(each.reaction).max(axis=0),
            shear=stands * np.abs(each.shear).max(axis=0),
        )
        self.bent_by = np.abs(each.moment).max(axis=0)
        self.seal()


@kept_by(*PLACED, "show_units")
def _unloaded(spec: Spec, number: int) -> _Unloaded:
    return _Unloaded(spec, number)


class ShaftBeam(ShaftLoads):
    """One shaft as a beam, and what the states of the machine do to it.

    Attributes
    ----------
    weight : _Feels
        What the shaft feels of its own weight.
    forced : _Feels
        What it feels where one bearing stands off the line by ``bearings.misalignment``: at each place
        and in each bearing the most of whichever bearing that is, without a sign.
    bent_by : array (n,)
        The moment of it in N*mm at each place for each mm.
    sleeve : Ridden or None
        A carried sleeve as a beam between its seats.
    hung : array (n,)
        What hangs on each place by its weight in N: a carried sleeve on its seats.

    Notes
    -----
    A bearing may stand off to any side, and what turns against what stands still meets it at some angle
    of every turn: what it forces is added plainly. A rigid frame and bearings without play are taken,
    which give way to none of it. With no more than two bearings it tilts the shaft and bends nothing.
    """

    _by: _Feels
    weight: _Feels
    forced: _Feels
    bent_by: Array
    sleeve: Ridden | None
    hung: Array

    def __init__(self, machine: LoadedMachine, number: int) -> None:
        # kept from one machine to the next: what loads it changes nothing of it
        vars(self).update(vars(_unloaded(machine.spec, number)), machine=machine)

    @cached_property
    def stopped(self) -> Stopped:
        """What a jam does at each place: rows are (states, jammed paddle).

        A paddle may stop at any angle of the turn. What its force adds then points any way, so that the
        most it does together with what stands still is the plain sum of both. It may also be caught
        anywhere along its length: the same torque pushes hardest across the shaft close to the sleeve,
        where a stone sits between a stem and the other shaft's tips, or wedged between tip and wall.
        """
        machine, blade = self.machine, self.machine.spec.paddles
        states = np.flatnonzero(machine.load_cases.jammed)
        whole = machine.power_flow.paddles[self.number - 1][states]
        still = planes(self.steady[states])
        each = jam_force.formula(whole, blade.root_radius, blade.tip_radius)
        push = np.asarray(each)[:, None, None]

        def both(by: Array, weight: Array, forced: Array | float) -> Array:
            bent = still @ by
            bent[1] += weight
            stands = np.hypot(bent[0], bent[1]) + forced
            return np.asarray(stands[:, None] + push * np.abs(by[self.paddles]))

        torque = larger_side(self.torques_after(states, np.ones(1), np.eye(blade.count)))
        by, weight, forced = self._by, self.weight, self.forced
        return Stopped(
            states=states,
            push=np.asarray(each),
            moment=both(by.moment, weight.moment, forced.moment) / 1e3,
            torque=torque,
            reaction=both(by.reaction, weight.reaction, forced.reaction),
            # the room that paddles have leaves half to errors of building, and this is one of them
            lift=both(by.lift, weight.lift, 0.0),
        )

    def _round(self, by: Array, weight: Array, rows: slice | Flags = _ALL) -> Array:
        """What the forces of :attr:`turning` come to, (plane, states, angles of the turn, places)."""
        turn = self.turning
        still = turn.still[:, rows] @ by
        still[1] += weight
        pushed = turn.reach @ by[self.paddles]
        return np.asarray(still[:, :, None] + turn.push[rows][:, None, None] * pushed[:, None])

    def bends(self, rows: slice | Flags = _ALL) -> Sag:
        """Slope in rad and deflection in mm at each place over :attr:`turning`; the latter with all bearings in line."""
        slope = self._round(self._by.slope, self.weight.slope, rows)
        lift = self._round(self._by.lift, self.weight.lift, rows)
        return Sag(slope=together(slope) + self.forced.slope, lift=together(lift))

    @cached_property
    def shears(self) -> Array:
        """Shear force in N just beyond each place, both planes together, over :attr:`turning`."""
        both = self._round(self._by.shear, self.weight.shear)
        return np.asarray(together(both) + self.forced.shear)

    def twists(self, after: Array) -> Array:
        """Angle of twist in rad at each place, the first one held, from the torque beyond each place."""
        shear = self.steel["shear_modulus"] * 1e3
        rigidity = 2 * beam.bending_stiffness(shear, self.segments)
        return np.asarray(beam.twist(self.places, rigidity, 1e3 * after[..., :-1]))

    @cached_property
    def running(self) -> Running:
        """Moments, torques and bearing forces over a turn, of :attr:`turning`."""
        rows, by, weight = self.turning, self._by, self.weight
        moment = together(self._round(by.moment, weight.moment)) + self.forced.moment
        reaction = together(self._round(by.reaction, weight.reaction)) + self.forced.reaction
        return Running(
            states=rows.states, moment=moment / 1e3, torque=rows.torque, reaction=reaction
        )

    @cached_property
    def swings(self) -> tuple[Array, Array]:
        """Greatest moment, which swings to and fro, and torque of a turn in N*m at each place, of :attr:`running`."""
        run = self.running
        return run.moment.max(axis=1), run.torque.max(axis=1)

    @cached_property
    def sleeve_moment(self) -> Array:
        """Greatest moment of a turn in N*m that a carried sleeve bears at its paddles, over :attr:`running`."""
        if self.sleeve is None:
            return np.zeros(len(self.turning.states))
        # nothing but the clay pulls at a paddle
        each = self.turning.reach @ self.sleeve.moment[:-1]
        both = self.turning.push[:, None, None] * each[:, None]
        both[1] += self.sleeve.moment[-1]
        return np.asarray(together(both).max(axis=(1, 2)) / 1e3)

    @cached_property
    def sleeve_moment_in_jam(self) -> Array:
        """Greatest moment in N*m that a carried sleeve bears where a paddle is caught, over :attr:`stopped`."""
        if self.sleeve is None:
            return np.zeros(len(self.stopped.states))
        most, weight = np.abs(self.sleeve.moment[:-1]).max(), np.abs(self.sleeve.moment[-1]).max()
        return np.asarray((self.stopped.push * most + weight) / 1e3)

    @cached_property
    def mixing_sag(self) -> tuple[Indices, Sag]:
        """States that mix, and slope and lift in them over a turn, at each place."""
        rows = self.turning
        turns = self.machine.load_cases.mixing[rows.states]
        return rows.states[turns], self.bends(turns)

    def tilt(self, place: int) -> tuple[Array, Array]:
        """Slope in rad at a place over all states, with all bearings in line: what stands still, and what turns.

        The first in both planes, (2, states), of gears, box and weight; the second the most that the paddles
        add at any angle of a turn, or the one that is caught in a jam.
        """
        by, rows, stop = self._by.slope[:, place], self.turning, self.stopped
        still = planes(self.steady) @ by
        still[1] += self.weight.slope[place]
        paddles = by[self.paddles]
        swung = np.zeros(still.shape[-1])
        swung[rows.states] = np.abs(rows.push) * together(rows.reach @ paddles).max()
        swung[stop.states] = stop.push * np.abs(paddles).max()
        return still, swung

    def by_newton(self, place: int) -> float:
        """Slope in rad at a place for a newton there."""
        return float(self._by.slope[place, place])

    @cached_property
    def first_speed(self) -> float:
        """First bending speed in rpm."""
        weights = self.hung.copy()
        halves = self.weights * np.diff(self.places) / 2
        weights[:-1] += halves
        weights[1:] += halves
        return beam.critical_speed(weights, self.weight.lift)


@lru_cache(maxsize=64)
def _through(
    solved: beam.Bent, sleeve: Ridden, seats: tuple[int, int], pushed: tuple[int, ...]
) -> beam.Bent:
    """The answer of a shaft whose paddles push it at the seats of their sleeve, and sag with that.

    Both answers are kept ones, which are told apart by being themselves.
    """
    on, paddles = [*seats], [*pushed]
    nodes = solved.deflection.shape[-1]

    def handed(each: Array) -> Array:
        found = each.copy()
        # rows are a newton at each place, the weight, and bearings off the line
        found[paddles] = sleeve.seats[:-1] @ each[on]
        found[nodes] += sleeve.seats[-1] @ each[on]
        return found

    lift = solved.deflection.copy()
    lift[:, paddles] = solved.deflection[:, on] @ sleeve.seats[:-1].T
    lift = handed(lift)
    lift[np.ix_([*paddles, nodes], paddles)] += sleeve.lift
    return beam.Bent(
        deflection=lift,
        slope=handed(solved.slope),
        shear=handed(solved.shear),
        moment=handed(solved.moment),
        moment_left=handed(solved.moment_left),
        reactions=handed(solved.reactions),
        clamping=solved.clamping,
    )


@lru_cache(maxsize=64)
def _unit_loads(
    places: bytes, stiffness: bytes, weights: bytes, supports: tuple[int, ...]
) -> beam.Bent:
    """Answer of a shaft to a newton at each place, its weight, and each bearing a millimetre off.

    Most knobs leave its lengths and thicknesses as they are.
    """
    at, stiff = np.frombuffer(places), np.frombuffer(stiffness)
    nodes, held = len(at), len(supports)
    unit = np.eye(nodes + 1 + held, nodes)
    spread = np.zeros((nodes + 1 + held, nodes - 1))
    spread[nodes] = np.frombuffer(weights)
    off = np.zeros((nodes + 1 + held, held))
    off[nodes + 1 :] = np.eye(held)
    return beam.solve(at, stiff, unit, supports, spread=spread, settled=off)
