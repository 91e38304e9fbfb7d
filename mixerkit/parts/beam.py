"""A shaft as a beam: any steps, supports and loads in one plane, solved exactly segment by segment.

Plain numbers in mm, N, N*mm and N*mm^2; forces and deflections up are positive, moments that make the beam
smile too. All arrays may carry leading axes: the last one runs along the beam, and all is one call.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from math import pi

import numpy as np
import numpy.typing as npt

from mixerkit.constants import STANDARD_GRAVITY
from mixerkit.frozen import result
from mixerkit.results import Array, Indices, Numbers
from mixerkit.units import in_units

__all__ = ["bending_stiffness", "critical_speed", "second_moment", "solve", "twist"]


@in_units("mm**4", diameter="mm > 0")
def second_moment(diameter: Numbers, bore: Numbers = 0.0) -> Numbers:
    r"""Second moment of area of a round section about its middle.

    .. math:: I = \frac{\pi (d^4 - d_i^4)}{64}

    Parameters
    ----------
    diameter : quantity, any shape
    bore : float or array, broadcast
        Inner diameter in mm, none if not given.

    Returns
    -------
    quantity [mm^4], the broadcast shape

    References
    ----------
    Shigley, 10th ed., table A-18.

    Examples
    --------
    >>> round(second_moment("40 mm"))
    <Quantity(125664, 'millimeter ** 4')>
    """
    return pi * (diameter**4 - bore**4) / 64


def bending_stiffness(modulus: Numbers, diameter: Numbers, bore: Numbers = 0.0) -> Numbers:
    """Modulus times second moment in N*mm^2, from MPa and mm."""
    return modulus * second_moment.formula(diameter, bore)


def _summed(steps: Array) -> Array:
    """Running sum from nought at the left end."""
    summed = np.zeros((*steps.shape[:-1], steps.shape[-1] + 1))
    np.cumsum(steps, axis=-1, out=summed[..., 1:])
    return summed


_Marched = tuple[Array, Array, Array, Array]
"""Shear, moment, slope and deflection."""


def _march(
    lengths: Array, stiffness: Array, force: Array, moment: Array, spread: Array
) -> _Marched:
    """Shear, moment, slope and deflection from a left end at rest, by what acts at the nodes."""
    shear = np.cumsum(force, axis=-1) - _summed(spread * lengths)
    start = shear[..., :-1]
    bending = np.cumsum(moment, axis=-1) + _summed(start * lengths - spread * lengths**2 / 2)
    begin = bending[..., :-1]
    slope = _summed(
        (begin * lengths + start * lengths**2 / 2 - spread * lengths**3 / 6) / stiffness
    )
    lift = _summed(
        slope[..., :-1] * lengths
        + (begin * lengths**2 / 2 + start * lengths**3 / 6 - spread * lengths**4 / 24) / stiffness
    )
    return shear, bending, slope, lift


@result
class Bent:
    """A beam under its loads, at its nodes."""

    deflection: Array
    slope: Array
    shear: Array
    moment: Array
    moment_left: Array
    reactions: Array
    clamping: Array


def solve(
    places: npt.ArrayLike,
    stiffness: npt.ArrayLike,
    force: npt.ArrayLike,
    supports: Sequence[int] | Indices,
    *,
    moment: npt.ArrayLike = 0.0,
    spread: npt.ArrayLike = 0.0,
    springs: npt.ArrayLike = np.inf,
    settled: npt.ArrayLike = 0.0,
    clamps: Sequence[int] = (),
) -> Bent:
    """Solve a beam in one plane.

    Parameters
    ----------
    places : array (n,)
        Rising positions in mm of the nodes, one at every load, support and step.
    stiffness : array (..., n - 1)
        Bending stiffness of each segment in N*mm^2.
    force : array (..., n)
        Force at each node in N, up positive.
    supports : sequence of int
        Nodes that are held, at least one.
    moment : array (..., n)
        Put in at each node in N*mm, with the clock positive.
    spread : array (..., n - 1)
        Load along each segment in N/mm, down positive.
    springs, settled : array (supports,), array (..., supports)
        Stiffness of each support in N/mm, rigid if not given; how far up it stands off the line in mm.
    clamps : sequence of int
        Nodes that cannot turn either.

    Returns
    -------
    Bent
        ``deflection`` in mm, ``slope`` in rad, ``shear`` in N and ``moment`` in N*mm just right of each
        node, ``moment_left`` just left of it, ``reactions`` in N and ``clamping`` in N*mm.

    Raises
    ------
    numpy.linalg.LinAlgError
        If nothing keeps the beam from falling or turning.

    References
    ----------
    Integration of the bending moment, reactions as unknowns: Roark's Formulas, 8th ed., section 8.1.
    """
    places = np.asarray(places, float)
    stiffness, force = np.asarray(stiffness, float), np.asarray(force, float)
    moment = np.asarray(moment, float) + np.zeros(len(places))
    spread = np.asarray(spread, float) + np.zeros(len(places) - 1)
    lengths, held = np.diff(places), _Held(list(supports), list(clamps), len(places))
    own = _march(lengths, stiffness, force, moment, spread)
    unit = held.unit(lengths, stiffness)
    matrix = held.matrix(places, unit, np.asarray(springs, float))
    wanted = held.wanted(own, np.asarray(settled, float))
    return _together(places, moment, held, own, unit, _solved(matrix, wanted))


def _together(
    places: Array, moment: Array, held: _Held, own: _Marched, unit: _Marched, found: Array
) -> Bent:
    """Add what the unknowns do to what the loads do."""
    strength = found[..., : held.count]

    def total(which: int) -> Array:
        if unit[which].ndim == 2:
            return own[which] + strength @ unit[which]
        summed: Array = np.einsum("...k,...kn->...n", strength, unit[which])
        return own[which] + summed

    bending, reactions = total(1), len(held.supports)
    put_in = moment + np.zeros_like(bending)
    put_in[..., held.clamps] += strength[..., reactions:]
    return Bent(
        deflection=total(3) + found[..., -2:-1] + found[..., -1:] * (places - places[0]),
        slope=total(2) + found[..., -1:],
        shear=total(0),
        moment=bending,
        moment_left=bending - put_in,
        reactions=strength[..., :reactions],
        clamping=strength[..., reactions:],
    )


@dataclass(frozen=True)
class _Held:
    """Nodes of a beam that cannot move, and those that cannot turn: what they bear is unknown.

    So are deflection and slope of the left end, which come last.
    """

    supports: list[int]
    clamps: list[int]
    nodes: int

    @property
    def count(self) -> int:
        """Reactions and clamping moments."""
        return len(self.supports) + len(self.clamps)

    def unit(self, lengths: Array, stiffness: Array) -> _Marched:
        """Shear, moment, slope and deflection of a newton, or newton millimetre, of each unknown."""
        held = len(self.supports)
        force, moment = np.zeros((2, self.count, self.nodes))
        force[range(held), self.supports] = 1.0
        moment[range(held, self.count), self.clamps] = 1.0
        return _march(lengths, stiffness[..., None, :], force, moment, np.zeros(self.nodes - 1))

    def matrix(self, places: Array, unit: _Marched, springs: Array) -> Array:
        """What each unknown does to deflections and slopes where held, and to the right end's balance."""
        shear, bending, slope, lift = unit
        held, count = len(self.supports), self.count
        matrix = np.zeros((*lift.shape[:-2], count + 2, count + 2))
        matrix[..., :held, :count] = np.swapaxes(lift[..., self.supports], -1, -2)
        matrix[..., range(held), range(held)] += 1 / springs
        matrix[..., :held, -2] = 1.0
        matrix[..., :held, -1] = places[self.supports] - places[0]
        matrix[..., held:count, :count] = np.swapaxes(slope[..., self.clamps], -1, -2)
        matrix[..., held:count, -1] = 1.0
        matrix[..., -2, :count] = shear[..., -1]
        matrix[..., -1, :count] = bending[..., -1]
        return matrix

    def wanted(self, own: _Marched, settled: Array) -> Array:
        """What the unknowns have to undo of the loads' own marching, and where the supports stand."""
        shear, bending, slope, lift = own
        shape = np.broadcast_shapes(*(one.shape[:-1] for one in (*own, np.atleast_1d(settled))))
        wanted = np.zeros((*shape, self.count + 2))
        wanted[..., : len(self.supports)] = settled - lift[..., self.supports]
        wanted[..., len(self.supports) : self.count] = -slope[..., self.clamps]
        wanted[..., -2] = -shear[..., -1]
        wanted[..., -1] = -bending[..., -1]
        return wanted


def _solved(matrix: Array, wanted: Array) -> Array:
    if matrix.ndim == 2:
        return wanted @ np.linalg.inv(matrix).T
    return np.asarray(np.linalg.solve(matrix, wanted[..., None])[..., 0], float)


def twist(places: Array, rigidity: Numbers, torque: npt.ArrayLike) -> Array:
    r"""Angle of twist at each node in rad, the first one held.

    .. math:: \theta = \sum \frac{T\,l}{G J}

    Parameters
    ----------
    places : array (n,)
        Positions in mm.
    rigidity : array (..., n - 1)
        Shear modulus times polar moment of each segment in N*mm^2.
    torque : array (..., n - 1)
        In each segment in N*mm.

    Returns
    -------
    array (..., n)

    References
    ----------
    Shigley, 10th ed., eq. 3-35.
    """
    turned = np.asarray(torque) * np.diff(places) / rigidity
    return np.concatenate([np.zeros((*turned.shape[:-1], 1)), np.cumsum(turned, -1)], axis=-1)


def critical_speed(weights: npt.ArrayLike, deflections: npt.ArrayLike) -> float:
    r"""First bending speed of a shaft in rpm, from the sag under its own weights.

    .. math:: \omega = \sqrt{\frac{g \sum w y}{\sum w y^2}}

    Parameters
    ----------
    weights : array
        In N, at the nodes.
    deflections : array
        Sag at the same nodes in mm.

    Returns
    -------
    float

    References
    ----------
    Rayleigh's method: Shigley, 10th ed., eq. 7-23.

    Examples
    --------
    >>> round(critical_speed([100.0], [0.05]))
    4229
    """
    weights, sag = np.asarray(weights, float), np.abs(np.asarray(deflections, float))
    return float(
        np.sqrt(1e3 * STANDARD_GRAVITY * (weights * sag).sum() / (weights * sag**2).sum()) * 30 / pi
    )
