"""A carried sleeve as a beam of its own: what the paddles put on it, and what it puts on its shaft.

Between its two seats it stands clear of the shaft, by a few tenths: it hands the paddles' forces on to the
shaft at its seats alone, is bent by them between, and the shaft carries the whole moment at the holes of its
pins. A seat that is free to tilt by its own play takes no moment.
"""

from __future__ import annotations

from functools import lru_cache
from math import pi

import numpy as np

from mixerkit.constants import STANDARD_GRAVITY
from mixerkit.frozen import result
from mixerkit.parts import beam
from mixerkit.results import Array
from mixerkit.spec import Spec
from mixerkit.tables import table

__all__ = ["Ridden", "ridden", "ring_weight", "sleeve_sizes"]


@result
class Ridden:
    """What a sleeve does of a newton at each of its paddles, and of its weight; a row each, the weight last.

    Attributes
    ----------
    seats : numpy.ndarray (paddles + 1, 2)
        Force in N on the shaft at the driving seat and at the far one, the way the newton points.
    moment, lift : numpy.ndarray (paddles + 1, paddles)
        Its own moment in N*mm and its bow in mm between its seats, at each paddle.
    """

    seats: Array
    moment: Array
    lift: Array


def sleeve_sizes(spec: Spec) -> tuple[float, float]:
    """Outside and inside of the sleeve in mm."""
    outer = 2 * spec.paddles.root_radius
    return outer, max(outer - 2 * spec.sleeve.wall, 0.0)


def ring_weight(spec: Spec) -> float:
    """Weight of a sleeve's tube in N/mm."""
    outer, inner = sleeve_sizes(spec)
    density = float(table("materials").find(spec.sleeve.material).values["density"])
    return pi / 4 * (outer**2 - inner**2) * density * STANDARD_GRAVITY * 1e-9


def ridden(spec: Spec, seats: Array, paddles: Array, ends: tuple[float, float]) -> Ridden:
    """Work out what a carried sleeve hands to its shaft.

    Parameters
    ----------
    spec : Spec
    seats : numpy.ndarray (2,)
        Places of both seats along the shaft in mm.
    paddles : numpy.ndarray
        Places of its paddles in mm.
    ends : tuple of float
        Its own ends in mm.

    Returns
    -------
    Ridden
    """
    outer, inner = sleeve_sizes(spec)
    steel = table("materials").find(spec.sleeve.material).values
    stiffness = beam.bending_stiffness(steel["elastic_modulus"] * 1e3, outer, inner)
    given = (tuple(map(float, one)) for one in (seats, paddles, ends))
    return _ridden(*given, float(stiffness), ring_weight(spec))


@lru_cache(maxsize=64)
def _ridden(
    seats: tuple[float, ...],
    paddles: tuple[float, ...],
    ends: tuple[float, ...],
    stiffness: float,
    weight: float,
) -> Ridden:
    """The same by what it depends on; most knobs leave it as it is."""
    places = np.unique(np.array([*seats, *paddles, *ends]))
    held, rows = np.searchsorted(places, seats), np.searchsorted(places, paddles)
    force = np.zeros((len(paddles) + 1, len(places)))
    force[range(len(paddles)), rows] = 1.0
    spread = np.zeros((len(paddles) + 1, len(places) - 1))
    spread[-1] = weight
    found = beam.solve(
        places, np.full(len(places) - 1, stiffness), force, tuple(map(int, held)), spread=spread
    )
    return Ridden(
        seats=-found.reactions,
        moment=found.moment[:, rows],
        lift=found.deflection[:, rows],
    )
