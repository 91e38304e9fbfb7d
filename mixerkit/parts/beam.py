"""A shaft as a beam: any steps, supports and loads in one plane, solved exactly segment by segment.

Plain numbers in mm, N, N*mm and N*mm^2; forces and deflections up are positive, moments that make
the beam smile are positive. All arrays may carry leading axes: the last one runs along the beam, so
that ten thousand diameters or every state of the machine are one call.
"""

from __future__ import annotations

from collections.abc import Sequence
from math import pi

import numpy as np
import numpy.typing as npt

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


def _march(
    lengths: Array, stiffness: Array, force: Array, moment: Array, spread: Array
) -> tuple[Array, Array, Array, Array]:
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
    clamps: Sequence[int] = (),
) -> Bent:
    """Solve a beam in one plane.

    Parameters
    ----------
    places : array (n,)
        Rising positions of the nodes in mm; every load, support and step sits at one.
    stiffness : array (..., n - 1)
        Bending stiffness of each segment in N*mm^2.
    force : array (..., n)
        Force at each node in N, up positive.
    supports : sequence of int
        Nodes that are held, at least one.
    moment : array (..., n)
        Moment put in at each node in N*mm, with the clock positive.
    spread : array (..., n - 1)
        Load along each segment in N/mm, down positive.
    springs : array (supports,)
        Stiffness of each support in N/mm; rigid if not given.
    clamps : sequence of int
        Nodes that cannot turn either.

    Returns
    -------
    Bent
        ``deflection`` in mm, ``slope`` in rad, ``shear`` in N just right of each node, ``moment``
        in N*mm just right of each node and ``moment_left`` just left of it, ``reactions``
        (..., supports) in N and ``clamping`` (..., clamps) in N*mm.

    Raises
    ------
    numpy.linalg.LinAlgError
        If nothing keeps the beam from falling or turning.

    References
    ----------
    Integration of the bending moment with the reactions as unknowns: Roark's Formulas for Stress and
    Strain, 8th ed., section 8.1.
    """
    places, supports, clamps = np.asarray(places, float), list(supports), list(clamps)
    lengths, nodes = np.diff(places), len(places)
    stiffness = np.asarray(stiffness, float)
    force = np.asarray(force, float)
    moment = np.asarray(moment, float) + np.zeros(nodes)
    spread = np.asarray(spread, float) + np.zeros(nodes - 1)
    shape = np.broadcast_shapes(
        stiffness.shape[:-1], force.shape[:-1], moment.shape[:-1], spread.shape[:-1]
    )
    own = _march(lengths, stiffness, force, moment, spread)
    held, turned = len(supports), len(clamps)
    unit_force = np.zeros((held + turned, nodes))
    unit_force[range(held), supports] = 1.0
    unit_moment = np.zeros((held + turned, nodes))
    unit_moment[range(held, held + turned), clamps] = 1.0
    unit = _march(lengths, stiffness[..., None, :], unit_force, unit_moment, np.zeros(nodes - 1))
    # unknowns: reactions, clamping moments, deflection and slope of the left end
    count = held + turned + 2
    matrix = np.zeros((*stiffness.shape[:-1], count, count))
    matrix[..., :held, : held + turned] = np.swapaxes(unit[3][..., supports], -1, -2)
    matrix[..., range(held), range(held)] += 1 / np.asarray(springs, float)
    matrix[..., :held, -2] = 1.0
    matrix[..., :held, -1] = places[supports] - places[0]
    matrix[..., held : held + turned, : held + turned] = np.swapaxes(unit[2][..., clamps], -1, -2)
    matrix[..., held : held + turned, -1] = 1.0
    matrix[..., -2, : held + turned] = unit[0][..., -1]
    matrix[..., -1, : held + turned] = unit[1][..., -1]
    wanted = np.zeros((*shape, count))
    wanted[..., :held] = -own[3][..., supports]
    wanted[..., held : held + turned] = -own[2][..., clamps]
    wanted[..., -2] = -own[0][..., -1]
    wanted[..., -1] = -own[1][..., -1]
    if matrix.ndim == 2:
        found = wanted @ np.linalg.inv(matrix).T
    else:
        found = np.linalg.solve(matrix, wanted[..., None])[..., 0]
    strength = found[..., : held + turned]

    def total(which: int) -> Array:
        if unit[which].ndim == 2:
            return own[which] + strength @ unit[which]
        summed: Array = np.einsum("...k,...kn->...n", strength, unit[which])
        return own[which] + summed

    shear, bending = total(0), total(1)
    slope = total(2) + found[..., -1:]
    lift = total(3) + found[..., -2:-1] + found[..., -1:] * (places - places[0])
    put_in = moment + np.zeros((*shape, nodes))
    if turned:
        put_in[..., clamps] += strength[..., held:]
    return Bent(
        deflection=lift,
        slope=slope,
        shear=shear,
        moment=bending,
        moment_left=bending - put_in,
        reactions=strength[..., :held],
        clamping=strength[..., held:],
    )


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
    return float(np.sqrt(9806.65 * (weights * sag).sum() / (weights * sag**2).sum()) * 30 / pi)
