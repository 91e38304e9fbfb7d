"""What pulls and turns a shaft in every state of the machine."""

from __future__ import annotations

from math import pi

import numpy as np

from mixerkit.constants import STANDARD_GRAVITY
from mixerkit.frozen import cached_property, result
from mixerkit.parts import spurgear
from mixerkit.parts.gear_pairs import pairs
from mixerkit.parts.idler import idler_centre
from mixerkit.parts.shaft_body import ShaftBody
from mixerkit.results import Array, Indices, LoadedMachine, Numbers

__all__ = [
    "ANGLES",
    "ShaftLoads",
    "Turning",
    "arm_pull",
    "larger_side",
    "planes",
    "together",
    "tooth_forces",
]

ANGLES = slice(None, None, 30)
"""Angles of a turn that are looked at: every thirtieth degree."""


def arm_pull(machine: LoadedMachine) -> Array:
    """Pull of the box's torque arm in N over the load cases."""
    return 1e3 * machine.power_flow.torque_at_box_output / machine.spec.reducer.torque_arm


@result
class Turning:
    """States that turn: forces in N and torques in N*m.

    What stands still and what goes round are kept apart, as each force is one of the state and one of the angle.

    Attributes
    ----------
    states : array of int
        Places of these states among all.
    still : array (2, states, places)
        Forces that stand still, level and upright.
    push : array (states,)
        Force of one wholly buried blade across the shaft, signed by its way of turning.
    reach : array (2, angles of the turn, paddles)
        Share of it at each paddle.
    torque, after : array (states, angles of the turn, places)
        The larger of both sides of each place; just beyond each place, signed.
    """

    states: Indices
    still: Array
    push: Array
    reach: Array
    torque: Array
    after: Array


class ShaftLoads(ShaftBody):
    """Forces and torques on a shaft.

    Attributes
    ----------
    machine : LoadedMachine
    """

    machine: LoadedMachine

    @cached_property
    def spin(self) -> Array:
        """Which way this shaft turns in each state: 1 against the clock, -1 with it."""
        way = self.machine.load_cases.direction.astype(float)
        return (
            np.where(self.machine.load_cases.clutch == "direct", -way, way)
            if self.number == 2
            else way
        )

    @cached_property
    def gear_forces(self) -> Array:
        """Force on the engaged gear in N, (states, 2): towards shaft 2, and up."""
        spec, machine = self.machine.spec, self.machine
        apart = spec.housing.centre_distance
        torque = machine.power_flow.at_gears[self.number]
        total = np.zeros((len(machine.load_cases), 2))
        for name in ("direct", "idler"):
            path = getattr(spec.paths, name)
            count = path.tooth_counts[0 if self.number == 1 else -1]
            along = np.array([1.0, 0.0])
            if name == "idler":
                # an idler that no longer reaches has sunk to the line of the shafts, which stands in; that
                # it does not reach, its own checks say
                x, y = self.idler_at
                y = 0.0 if np.isnan(y) else y
                along = np.array([x, y]) if self.number == 1 else np.array([x - apart, y])
                along /= np.hypot(*along) or 1.0
            elif self.number == 2:
                along = -along
            here = machine.load_cases.clutch == name
            push = 1e3 * torque * here / (spurgear.pitch_diameter.formula(path.module, count) / 2)
            total += tooth_forces(push, self.pushed, along, self._lean(name))
        return total

    @cached_property
    def pushed(self) -> Array:
        """Which way round its gears are pushed: a driver back against its turning, a driven gear along."""
        return -self.spin if self.number == 1 else self.spin

    @cached_property
    def idler_at(self) -> tuple[float, float]:
        """Place of the first idler in mm from shaft 1; the second is not a number if it does not close."""
        x, y, _ = idler_centre(self.machine.spec)
        return float(x), float(y)

    def _lean(self, name: str) -> float:
        """Working pressure angle in degrees of this shaft's mesh of a path.

        Gears pushed nearer than they can mesh would work on an ever smaller angle: the rack's 20 degrees,
        which lean harder, stand in, and the path's own checks say that it cannot be so.
        """
        path = getattr(self.machine.spec.paths, name)
        meshes = pairs(path, self.machine.spec.housing.centre_distance)
        angle = meshes[0 if self.number == 1 else -1].working
        return 20.0 if np.isnan(angle) else angle

    @cached_property
    def steady(self) -> Array:
        """Forces in N that stand still, (states, places, 2): gears, their weight, the box."""
        spec, machine = self.machine.spec, self.machine
        force = np.zeros((len(machine.load_cases), len(self.places), 2))
        for name, place in self.gears.items():
            path = getattr(spec.paths, name)
            force[machine.load_cases.clutch == name, place] += self.gear_forces[
                machine.load_cases.clutch == name
            ]
            count = path.tooth_counts[0 if self.number == 1 else -1]
            round_ = spurgear.pitch_diameter.formula(path.module, count)
            force[:, place, 1] -= pi / 4 * round_**2 * path.face_width * 7.85e-6 * STANDARD_GRAVITY
        if self.box is not None:
            force[:, self.box, 1] -= spec.reducer.mass * STANDARD_GRAVITY
            # the arm is taken as level, so that it pushes down one way and lifts the other
            force[:, self.box, 1] -= arm_pull(machine) * machine.load_cases.direction
        return force

    @cached_property
    def turning(self) -> Turning:
        """Forces over a turn and torques in every state that is not a jam."""
        machine, asks, blade = self.machine, self.machine.clay_load, self.machine.spec.paddles
        states = np.flatnonzero(~machine.load_cases.jammed)
        share = asks.buried[ANGLES] / max(asks.most_buried, 1e-9)
        angles = asks.angles[ANGLES]
        lever = (blade.tip_radius + blade.root_radius) / 2
        whole = machine.power_flow.paddles[self.number - 1][states]
        after = self.torques_after(states, share.sum(axis=1), share)
        return Turning(
            states=states,
            still=np.ascontiguousarray(planes(self.steady[states])),
            push=-self.spin[states] * whole * 1e3 / lever,
            reach=np.stack([-np.sin(angles), np.cos(angles)]) * share,
            torque=larger_side(after),
            after=after,
        )

    def torques_after(self, states: Indices, ripple: Array, share: Array) -> Array:
        """Torque in N*m just beyond each place, signed: rows are (states, those of ``share``, places).

        Parameters
        ----------
        states : array of int
        ripple : array (rows,) or (1,)
            Share of the whole torque that is asked.
        share : array (rows, paddles)
            Share of it that each paddle takes.

        Returns
        -------
        array
        """
        machine, flow = self.machine, self.machine.power_flow
        comes = np.zeros((len(states), len(self.places)))
        clutch = machine.load_cases.clutch[states]
        if self.number == 1:
            comes[:, self.box] += flow.torque_at_box_output[states]
            leaving = -flow.torque_into_gear_path[states]
        else:
            leaving = flow.at_gears[2][states]
        for name, place in self.gears.items():
            where = place if self.clutch is None else self.clutch
            comes[:, where] += leaving * (clutch == name)
        # one of its two seals sits at each end of the trough, beside the bearing there
        for place in self.supports[1:]:
            comes[:, place] -= flow.drag[self.number][states] / 2
        taken = np.zeros((len(share), len(self.places)))
        if self.pins is not None:
            taken[:, self.pins] = share.sum(axis=-1)
        else:
            taken[:, self.paddles] = share
        whole = flow.paddles[self.number - 1][states][:, None, None]
        return np.asarray(
            comes.cumsum(axis=1)[:, None] * ripple[:, None] - whole * taken.cumsum(axis=1)
        )


def tooth_forces(push: Array, way: Array, along: Array, lean: Numbers) -> Array:
    """Force in N on a gear, in both planes as the last axis, from the push along its pitch circle.

    Parameters
    ----------
    push, way : array (..., states)
        In N, and which way round it points: 1 against the clock, -1 with it.
    along : array (..., 2)
        From the gear's middle to its mate's, of length 1.
    lean : float or array (...)
        Working pressure angle in degrees.
    """
    line = along[..., None, :]
    across = np.stack([-line[..., 1], line[..., 0]], axis=-1)
    apart = np.asarray(np.tan(np.radians(lean)))[..., None, None]
    return np.asarray(push[..., None] * (way[:, None] * across - apart * line))


def planes(force: Array) -> Array:
    """Forces with the plane as their first axis, level and upright, and the place as their last."""
    return force.transpose(force.ndim - 1, *range(force.ndim - 1))


def together(both: Array) -> Array:
    """Both planes together; quicker than a hypot that guards against overflow."""
    return np.asarray(np.sqrt(both[0] ** 2 + both[1] ** 2))


def larger_side(after: Array) -> Array:
    """Torque in the shaft at each place, the larger of both sides, from that just beyond each place."""
    most = np.abs(after)
    most[..., 1:] = np.maximum(most[..., 1:], most[..., :-1])
    return most
