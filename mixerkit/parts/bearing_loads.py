"""What a bearing or bush bears: pull and push over the load cases."""

from __future__ import annotations

from functools import lru_cache

import numpy as np

from mixerkit.parts.blades import held_forces
from mixerkit.parts.shaftline import ShaftBeam
from mixerkit.results import Array, Indices, LoadedMachine

__all__ = ["AXIAL", "axial_push", "jam_thrust", "loads"]

AXIAL = 0.56
"""Axial load over C0 at which the table of factors ends (Shigley 10th ed., table 11-1, from memory)."""


def axial_push(machine: LoadedMachine) -> float:
    """Push in N along one shaft, all its buried paddles set the same way, the clay heaped on it."""
    asks = machine.clay_load
    # clay that lies level may bury more of them at some angle than clay heaped up
    blades = max(asks.heaped_blades, asks.most_buried)
    return asks.push * blades if machine.spec.paddles.set_angle < 90 else 0.0


def jam_thrust(machine: LoadedMachine, number: int) -> Array:
    """Push in N along a shaft in every state, of a paddle that is caught at the sleeve."""
    blade = machine.spec.paddles
    return (
        machine.power_flow.paddles[number - 1]
        * machine.load_cases.jammed
        * 1e3
        / blade.root_radius
        * _wedged(blade.set_angle)
    )


@lru_cache(maxsize=64)
def _wedged(set_angle: float) -> float:
    """Most of the push along the shaft for a force of 1 on a paddle that is caught."""
    return max(abs(along) for _, _, along in held_forces(set_angle))


def _by_state(machine: LoadedMachine, states: Indices, values: Array) -> Array:
    whole = np.zeros(len(machine.load_cases))
    whole[states] = values
    return whole


def loads(line: ShaftBeam, place: int) -> tuple[Array, Array]:
    """Force on one bearing in N over the states: lasting while it turns, and the most in a jam."""
    machine, run, stop = line.machine, line.running, line.stopped
    # the cube mean over a turn is what wears a rolling bearing: ISO 281
    lasting = np.cbrt((run.reaction[..., place] ** 3).mean(axis=1))
    return (
        _by_state(machine, run.states, lasting),
        _by_state(machine, stop.states, stop.reaction[..., place].max(axis=1)),
    )
