"""How thick a shaft is at each place, how stiff, and how weakened."""

from __future__ import annotations

from contextlib import suppress
from functools import lru_cache
from math import pi

import numpy as np

from mixerkit.constants import STANDARD_GRAVITY
from mixerkit.parts import beam, notches
from mixerkit.parts.along import NAMES
from mixerkit.parts.keys import key_for
from mixerkit.parts.shaft_places import GROOVE, ShaftPlaces
from mixerkit.parts.sleeve_beam import ring_weight
from mixerkit.parts.zones import INSERT, bearing_on, series_at
from mixerkit.results import Array, TableRow
from mixerkit.spec import Spec
from mixerkit.tables import table
from mixerkit.units import InputError

__all__ = ["ShaftBody"]

BY_HUB = {"key": "keyway", "set screws": "", "taper pin": "cross hole", "clamp": "press fit"}
"""How a gear that is held weakens its shaft."""
# box and clutch sit on keys whatever the design says of keyways
_ALWAYS = {"reduction box": "keyway", "clutch sleeve": "keyway", GROOVE: "groove"}


# most knobs leave most notches as they are
_notch_range = lru_cache(maxsize=4096)(notches.notch_range)


@lru_cache(maxsize=4096)
def _factors(
    notch: str, diameter: float, strength: float, larger: float, fillet: float, hole: float
) -> tuple[float, float]:
    return notches.notch_factors(notch, diameter, strength, larger=larger, fillet=fillet, hole=hole)


@lru_cache(maxsize=256)
def _keyed_section(diameter: float, system: str) -> tuple[float, float]:
    """Section moduli left by a keyway; a size that no key is made for is said by its own check."""
    with suppress(InputError):
        key = key_for(diameter, system)
        bend, turn = notches.keyed_section(key["width"], key["shaft_depth"], diameter)
        return float(bend), float(turn)
    return 1.0, 1.0


class ShaftBody(ShaftPlaces):
    """A shaft's sections and notches.

    Attributes
    ----------
    steel : TableRow
    segments : numpy.ndarray (n - 1,)
        Diameter between places in mm.
    diameters, larger : numpy.ndarray (n,)
        Of the thinner and the thicker side at each place in mm.
    bearings : list of TableRow or None
        Rolling bearing at each support.
    weights : numpy.ndarray (n - 1,)
        In N/mm, with that of a sleeve that lies on it.
    stiffness : numpy.ndarray (n - 1,)
        In N*mm^2, its own: a sleeve stands clear of it between its seats.
    notches : list of str
        Worst notch at each place, empty where there is none.
    factors : numpy.ndarray (n, 2)
        Fatigue notch factors in bending and torsion.
    holes : numpy.ndarray (n,)
        Largest hole across the shaft at each place in mm, nought where there is none.
    net, left : numpy.ndarray (n, 2)
        Section moduli left by that hole, in bending and torsion; and with the keyway taken out too.
    beyond : dict of int to str
        What is out of the range of the notch factors, by place.
    keyed : bool
        Whether a keyway is cut anywhere.
    """

    def __init__(self, spec: Spec, number: int) -> None:
        super().__init__(spec, number)
        self.steel = table("materials").find(self.own.material).values
        self._cut_sections()
        self._seat_bearings()
        self._cut_grooves()
        self._weigh()
        self._notch()

    def _cut_sections(self) -> None:
        sizes = np.array((self.own.diameter, *self.own.step_diameters))
        middles = (self.places[:-1] + self.places[1:]) / 2
        self.segments = sizes[np.searchsorted(np.array((*self.own.step_at,)), middles)]
        sides = _both_sides(self.segments)
        self.diameters, self.larger = np.minimum(*sides), np.maximum(*sides)

    def _cut_grooves(self) -> None:
        """Where a ring sits the shaft is as thin as its groove."""
        for one in self.stack.grooves:
            for place in (i for i, named in enumerate(self.what) if GROOVE in named):
                if one.start < self.places[place] < one.end:
                    self.larger[place] = max(self.larger[place], self.diameters[place])
                    self.diameters[place] = min(self.diameters[place], one.ring["groove"])

    def _seat_bearings(self) -> None:
        self.bearings: list[TableRow | None] = []
        for place, name in zip(self.supports, NAMES, strict=True):
            size = float(self.diameters[place])
            row = bearing_on(self.spec, self.number, name)
            self.bearings.append(row)
            if row:
                self.larger[place] = max(self.larger[place], size)
                self.diameters[place] = row["bore"]

    def _weigh(self) -> None:
        spec = self.spec
        modulus = self.steel["elastic_modulus"] * 1e3
        self.stiffness = np.asarray(beam.bending_stiffness(modulus, self.segments))
        per_area = self.steel["density"] * STANDARD_GRAVITY * 1e-9
        self.weights = pi / 4 * self.segments**2 * per_area
        if spec.sleeve.kind == "floating":
            middles = (self.places[:-1] + self.places[1:]) / 2
            inside = (middles > self.trough[0]) & (middles < self.trough[1])
            self.weights = self.weights + np.where(inside, ring_weight(spec), 0.0)

    def _weakened(self, named: str, spec: Spec) -> tuple[str, float] | None:
        """Notch that a thing on the shaft brings, with the hole it is, nought if it is none."""
        if named in NAMES:
            pressed = spec.bearings.kind == "rolling" and series_at(spec, named) != INSERT
            return ("press fit", 0.0) if pressed else None
        if named in _ALWAYS:
            return _ALWAYS[named], 0.0
        if named.endswith(" gear") and self.clutch is None:
            return BY_HUB[spec.hubs.gear], spec.hubs.pin_diameter
        if named == "sleeve pins":
            return "cross hole", spec.sleeve.pin_diameter
        if named.startswith("paddle ") and self.pins is None:
            return "welded paddle", 0.0
        # a hole of no stated size is taken as large as the sleeve's
        return (named, spec.sleeve.pin_diameter) if named in dict(self.own.notches) else None

    def _notch(self) -> None:
        spec, factors = self.spec, []
        self.notches: list[str] = []
        self.beyond: dict[int, str] = {}
        self.holes, self.keyed = np.zeros(len(self.what)), self.own.keyway
        keyed = np.ones((len(self.what), 2))
        strength, fillet = self.steel["tensile_strength"], self.own.fillet
        for i, named in enumerate(self.what):
            found = [self._weakened(one, spec) for one in named]
            listed = [one for one in found if one]
            if self.larger[i] > self.diameters[i] + 1e-9:
                listed.append(("shoulder", 0.0))
            size, larger = float(self.diameters[i]), float(self.larger[i])
            known = {}
            for one, hole in listed or [("", 0.0)]:
                known[one, hole] = _factors(one, size, strength, larger, fillet, hole)
                why = _notch_range(one, size, larger, fillet, hole, self.spec.show_units)
                if why:
                    self.beyond[i] = why
                if one == "cross hole":
                    self.holes[i] = max(self.holes[i], hole)
                if one == "keyway":
                    self.keyed, keyed[i] = True, _keyed_section(size, self.spec.show_units)
            self.notches.append(max(known, key=lambda one: known[one][0])[0])
            factors.append(tuple(map(max, zip(*known.values(), strict=True))))
        self.factors = np.array(factors)
        # a hole so large that nothing would be left is said by its own check
        share = np.minimum(self.holes / self.diameters, notches.HOLES[1])
        self.net = np.column_stack(notches.net_section(share))
        self.left = np.minimum(self.net, keyed)


def _both_sides(segments: Array) -> tuple[Array, Array]:
    """What is on the near and on the far side of each place."""
    sides = np.concatenate([segments[:1], segments, segments[-1:]])
    return sides[:-1], sides[1:]
