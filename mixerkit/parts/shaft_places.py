"""What sits where along a shaft.

Positions run from the inside of the plate at the reducer towards the trough, in mm.
"""

from __future__ import annotations

import numpy as np

from mixerkit.frozen import Sealed
from mixerkit.parts.along import (
    NAMES,
    bearing_places,
    clutch_middle,
    paddle_places,
    sleeve_pin_places,
    sleeve_seats,
    trough_ends,
)
from mixerkit.parts.stack import laid
from mixerkit.spec import Shaft, Spec

__all__ = ["FAR_SEAT", "GROOVE", "ShaftPlaces"]

GROOVE = "groove of a ring"
"""Name of the place where a retaining ring sits."""
FAR_SEAT = "far seat of the sleeve"
"""Name of the place where a carried sleeve bears on its shaft besides its pins."""


class ShaftPlaces(Sealed):
    """A shaft's places, and what sits at each.

    Attributes
    ----------
    spec : Spec
        The tables that say where each part stands, see :data:`mixerkit.parts.kept.PLACED`.
    number : int
        1 or 2.
    own : Shaft
    stack : Stack
        All that is on it, and what holds each thing.
    trough : tuple of float
        Insides of the trough's end walls.
    places : numpy.ndarray (n,)
    what : tuple of tuple of str
        Names of what sits at each place.
    supports : numpy.ndarray
        Places of the three bearings.
    gears : dict of str to int
    paddles : numpy.ndarray
    pins, box, clutch : int or None
        Places of the sleeve's pins, of the reduction box, of the clutch's sleeve.
    seats : tuple of int or None
        Places where a carried sleeve bears on the shaft.
    """

    def __init__(self, spec: Spec, number: int) -> None:
        self.spec, self.number = spec, number
        self.own: Shaft = getattr(spec, f"shaft_{number}")
        self.trough = trough_ends(spec)
        self.stack = laid(spec, number)
        places: list[float] = []
        what: list[list[str]] = []
        for at, name in sorted(self._things(spec), key=lambda one: one[0]):
            if places and at - places[-1] < 1e-6:
                what[-1].append(name)
            else:
                places.append(at)
                what.append([name])
        self.places, self.what = np.array(places), tuple(map(tuple, what))
        self.supports = np.array([self.at(name) for name in NAMES])
        self.gears = {one: self.at(f"{one} gear") for one in ("direct", "idler")}
        self.paddles = np.array([self.at(f"paddle {k + 1}") for k in range(spec.paddles.count)])
        self.pins = self.at("sleeve pins") if spec.sleeve.kind != "none" else None
        carried = spec.sleeve.kind == "carried"
        self.seats = (self.at("sleeve pins"), self.at(FAR_SEAT)) if carried else None
        self.box = self.at("reduction box") if number == 1 else None
        self.clutch = self.at("clutch sleeve") if spec.clutch.shaft == number else None

    def _things(self, spec: Spec) -> list[tuple[float, str]]:
        """Everything on the shaft with its place."""
        paths = spec.paths
        found = list(zip(bearing_places(spec), NAMES, strict=True))
        if self.number == 1:
            found.append((-spec.reducer.overhang, "reduction box"))
        found += [(getattr(paths, one).position, f"{one} gear") for one in ("direct", "idler")]
        if spec.clutch.shaft == self.number:
            found.append((clutch_middle(spec), "clutch sleeve"))
        if spec.sleeve.kind != "none":
            pins = sleeve_pin_places(spec)
            near, far = sleeve_seats(spec)
            # the torque runs on to the last of them
            found.append((near if spec.sleeve.kind == "carried" else pins[-1], "sleeve pins"))
        if spec.sleeve.kind == "carried":
            found.append((far, FAR_SEAT))
        rows = enumerate(paddle_places(spec, self.number))
        found += [(float(at), f"paddle {k + 1}") for k, at in rows]
        found += [(at, "step") for at in self.own.step_at]
        # beyond what bears and drives it a groove weakens nothing
        found.sort()
        first, last = found[0][0], found[-1][0]
        found += [
            ((one.start + one.end) / 2, GROOVE)
            for one in self.stack.grooves
            if first < one.start and one.end < last
        ]
        return [*found, *((at, what) for what, at in self.own.notches)]

    def at(self, name: str) -> int:
        """Index of the place where a named thing sits."""
        return next(i for i, one in enumerate(self.what) if name in one)

    def named(self, place: int) -> str:
        """Say what sits at a place."""
        return ", ".join(self.what[place])
