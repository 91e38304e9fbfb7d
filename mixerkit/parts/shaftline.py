"""Both shafts of a design laid out as beams, with what every state of the machine does to them.

Positions run along a shaft from the inside of the plate at the reducer towards the trough, in mm.
The beam is solved once for a unit force at every place; every state, every angle of a turn and
every jammed paddle are then one product of matrices.
"""

from __future__ import annotations

from functools import lru_cache
from math import pi

import numpy as np

from mixerkit.constants import STANDARD_GRAVITY
from mixerkit.frozen import Sealed, cached_property, result
from mixerkit.parts import beam, notches, spurgear
from mixerkit.parts.gear_pairs import pairs
from mixerkit.parts.idler import idler_centre
from mixerkit.results import Array, Indices, LoadedMachine, PowerFlow, TableRow
from mixerkit.spec import Spec
from mixerkit.tables import table

__all__ = ["ShaftBeam", "bearing_for", "bearing_places", "paddle_places"]

ANGLES = slice(None, None, 30)
"""Angles of a turn that are looked at: every thirtieth degree."""
NAMES = ("plate at the reducer", "plate at the trough", "far end of the trough")
"""What holds each shaft, in order along it."""
BY_HUB = {"key": "keyway", "set screws": "", "taper pin": "cross hole", "clamp": "press fit"}
"""How a gear that is held weakens its shaft."""


def bearing_places(spec: Spec) -> tuple[float, float, float]:
    """Middles of a shaft's bearings: in both plates and beyond the trough."""
    half = spec.housing.plate_thickness / 2
    second = spec.housing.plate_spacing + half
    return -half, second, second + spec.bearings.span


def trough_ends(spec: Spec) -> tuple[float, float]:
    """Insides of the trough's end walls."""
    _, near, far = bearing_places(spec)
    spare = (far - near - spec.trough.length) / 2
    return near + spare, far - spare


def paddle_places(spec: Spec, number: int) -> Array:
    """Middles of a shaft's paddles; both rows together sit in the middle of the trough."""
    blade, (start, end) = spec.paddles, trough_ends(spec)
    row = (blade.count - 1) * blade.spacing + blade.offset_2
    first = (start + end - row) / 2 + (blade.offset_2 if number == 2 else 0.0)
    return np.asarray(first + blade.spacing * np.arange(blade.count), float)


@lru_cache(maxsize=256)
def bearing_for(diameter: float) -> TableRow | None:
    """Rolling bearing of the table with the largest bore that a shaft can be turned down to."""
    rows = [
        row.values for row in table("rolling_bearings") if row.values["bore"] <= diameter + 1e-6
    ]
    return max(rows, key=lambda row: row["bore"], default=None)


# most knobs leave most notches as they are
_notch_range = lru_cache(maxsize=4096)(notches.notch_range)


@lru_cache(maxsize=4096)
def _factors(
    notch: str, diameter: float, strength: float, larger: float, fillet: float, hole: float
) -> tuple[float, float]:
    return notches.notch_factors(notch, diameter, strength, larger=larger, fillet=fillet, hole=hole)


@result
class _Feels:
    """What a shaft feels at each place, in each bearing: of a unit force at each place, or of its weight."""

    moment: Array
    slope: Array
    lift: Array
    reaction: Array
    shear: Array


@result
class Turning:
    """States that turn: forces in N and torques in N*m; rows are (states, angles of the turn, places)."""

    states: Indices
    force: Array
    torque: Array
    after: Array


@result
class Running:
    """The same with moments in N*m and the bearings' reactions in N."""

    states: Indices
    moment: Array
    torque: Array
    reaction: Array


@result
class Stopped:
    """States of a jam; rows are (states, jammed paddle, places), lifts in mm."""

    states: Indices
    moment: Array
    torque: Array
    reaction: Array
    lift: Array


@result
class Sag:
    """Slope in rad and lift in mm at each place."""

    slope: Array
    lift: Array


class ShaftBeam(Sealed):
    """One shaft as a beam, and what the states of the machine do to it.

    Attributes
    ----------
    number : int
        1 or 2.
    places : numpy.ndarray (n,)
    what : list of str
        What sits at each place.
    diameters : numpy.ndarray (n,)
        Of the thinner side at each place in mm.
    notches : list of str
        Worst notch at each place, empty where there is none.
    factors : numpy.ndarray (n, 2)
        Fatigue notch factors in bending and torsion.
    holes : numpy.ndarray (n,)
        Largest hole across the shaft at each place in mm, nought where there is none.
    net : numpy.ndarray (n, 2)
        Section moduli left by that hole, in bending and torsion.
    beyond : dict of int to str
        What is out of the range of the notch factors, by place.
    keyed : bool
        Whether a keyway is cut anywhere.
    supports : list of int
        Places of the three bearings.
    """

    def __init__(self, machine: LoadedMachine, number: int) -> None:
        spec = machine.spec
        self.machine, self.number = machine, number
        self.own = getattr(spec, f"shaft_{number}")
        self.steel = table("materials").find(self.own.material).values
        self._lay_out(spec)
        self._stiffness(spec)
        self._notch(spec)
        unit = np.eye(len(self.places) + 1, len(self.places))
        spread = np.zeros((len(self.places) + 1, len(self.places) - 1))
        spread[-1] = self._weights
        solved = beam.solve(self.places, self.stiffness, unit, self.supports, spread=spread)
        self._by = _Feels(
            moment=solved.moment_left[:-1],
            slope=solved.slope[:-1],
            lift=solved.deflection[:-1],
            reaction=solved.reactions[:-1],
            shear=solved.shear[:-1],
        )
        self.weight = _Feels(
            moment=solved.moment_left[-1],
            slope=solved.slope[-1],
            lift=solved.deflection[-1],
            reaction=solved.reactions[-1],
            shear=solved.shear[-1],
        )
        self.seal()

    # ------------------------------------------------------------------ layout

    def _lay_out(self, spec: Spec) -> None:
        bearings, clutch = bearing_places(spec), spec.clutch
        self.trough = trough_ends(spec)
        found: list[tuple[float, str]] = list(zip(bearings, NAMES, strict=True))
        if self.number == 1:
            found.append((-spec.reducer.overhang, "reduction box"))
        middle = (spec.paths.direct.position + spec.paths.idler.position) / 2
        found += [(getattr(spec.paths, one).position, f"{one} gear") for one in ("direct", "idler")]
        if clutch.shaft == self.number:
            found.append((middle, "clutch sleeve"))
        has_sleeve = spec.sleeve.kind != "none"
        if has_sleeve:
            found.append((self.trough[0] + spec.sleeve.pin_diameter, "sleeve pins"))
        if spec.sleeve.kind == "carried":
            # beyond its ends the shaft carries all of the moment by itself
            found += [
                (at, f"{which} of the sleeve")
                for at, which in zip(self.trough, ("start", "end"), strict=True)
            ]
        found += [
            (float(at), f"paddle {k + 1}") for k, at in enumerate(paddle_places(spec, self.number))
        ]
        found += [(at, "step") for at in self.own.step_at]
        found += [(at, what) for what, at in self.own.notches]
        found.sort(key=lambda one: one[0])
        places: list[float] = []
        what: list[str] = []
        for at, name in found:
            if places and at - places[-1] < 1e-6:
                what[-1] += f", {name}"
            else:
                places.append(at)
                what.append(name)
        self.places, self.what = np.array(places), what
        self.supports = np.array([self.at(name) for name in NAMES])
        self.gears = {one: self.at(f"{one} gear") for one in ("direct", "idler")}
        self.paddles = np.array([self.at(f"paddle {k + 1}") for k in range(spec.paddles.count)])
        self.pins = self.at("sleeve pins") if has_sleeve else None
        self.box = self.at("reduction box") if self.number == 1 else None
        self.clutch = self.at("clutch sleeve") if clutch.shaft == self.number else None

    def at(self, name: str) -> int:
        """Index of the place where a named thing sits."""
        return next(i for i, one in enumerate(self.what) if name in one.split(", "))

    def _stiffness(self, spec: Spec) -> None:
        own, modulus = self.own, self.steel["elastic_modulus"] * 1e3
        bounds = np.array((*own.step_at,))
        sizes = np.array((own.diameter, *own.step_diameters))
        middles = (self.places[:-1] + self.places[1:]) / 2
        self.segments = sizes[np.searchsorted(bounds, middles)]
        sides = np.concatenate([self.segments[:1], self.segments, self.segments[-1:]])
        self.diameters = np.minimum(sides[:-1], sides[1:])
        self.larger = np.maximum(sides[:-1], sides[1:])
        self.bearings = []
        for place in self.supports:
            row = (
                bearing_for(float(self.diameters[place]))
                if spec.bearings.kind == "rolling"
                else None
            )
            self.bearings.append(row)
            if row:
                self.larger[place] = max(self.larger[place], self.diameters[place])
                self.diameters[place] = row["bore"]
        bare = beam.bending_stiffness(modulus, self.segments)
        self._weights = pi / 4 * self.segments**2 * self.steel["density"] * STANDARD_GRAVITY * 1e-9
        self.share = np.ones(len(self.segments))
        sleeve = spec.sleeve
        if sleeve.kind != "none":
            steel = table("materials").find(sleeve.material).values
            outer = 2 * spec.paddles.root_radius
            inner = max(outer - 2 * sleeve.wall, 0.0)
            inside = (middles > self.trough[0]) & (middles < self.trough[1])
            ring = pi / 4 * (outer**2 - inner**2) * steel["density"] * STANDARD_GRAVITY * 1e-9
            self._weights = self._weights + np.where(inside, ring, 0.0)
            if sleeve.kind == "carried":
                added = beam.bending_stiffness(steel["elastic_modulus"] * 1e3, outer, inner)
                self.share = np.where(inside, bare / (bare + added), 1.0)
        self.stiffness = bare / self.share
        # the shaft's own part of the moment at each place, the larger of both sides
        shares = np.concatenate([self.share[:1], self.share, self.share[-1:]])
        self.shares = np.maximum(shares[:-1], shares[1:])

    def _weakened(self, named: str, spec: Spec) -> tuple[str, float] | None:
        """Notch that a thing on the shaft brings, with the hole it is, nought if it is none."""
        if named in NAMES:
            return ("press fit", 0.0) if spec.bearings.kind == "rolling" else None
        if named in ("reduction box", "clutch sleeve"):
            # these sit on keys whatever the design says of keyways
            return "keyway", 0.0
        if named.endswith(" gear") and self.clutch is None:
            return BY_HUB[spec.hubs.gear], spec.hubs.pin_diameter
        if named == "sleeve pins":
            return "cross hole", spec.sleeve.pin_diameter
        if named.startswith("paddle ") and self.pins is None:
            return "welded paddle", 0.0
        # a hole of no stated size is taken as large as the sleeve's
        return (named, spec.sleeve.pin_diameter) if named in dict(self.own.notches) else None

    def _notch(self, spec: Spec) -> None:
        self.notches, factors = [], []
        self.holes, self.beyond, self.keyed = np.zeros(len(self.what)), {}, self.own.keyway
        strength, fillet = self.steel["tensile_strength"], self.own.fillet
        for i, named in enumerate(self.what):
            found = [self._weakened(one, spec) for one in named.split(", ")]
            listed = [one for one in found if one]
            if self.larger[i] > self.diameters[i] + 1e-9:
                listed.append(("shoulder", 0.0))
            size, larger = float(self.diameters[i]), float(self.larger[i])
            known = {}
            for one, hole in listed or [("", 0.0)]:
                known[one, hole] = _factors(one, size, strength, larger, fillet, hole)
                why = _notch_range(one, size, larger, fillet, hole, self.machine.system)
                if why:
                    self.beyond[i] = why
                if one == "cross hole":
                    self.holes[i] = max(self.holes[i], hole)
                self.keyed = self.keyed or one == "keyway"
            self.notches.append(max(known, key=lambda one: known[one][0])[0])
            factors.append(tuple(map(max, zip(*known.values(), strict=True))))
        self.factors = np.array(factors)
        # a hole so large that nothing would be left is said by its own check
        share = np.minimum(self.holes / self.diameters, notches.HOLES[1])
        self.net = np.column_stack(notches.net_section(share))

    # ------------------------------------------------------------------ loads

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
            across = np.array([-along[1], along[0]])
            here = machine.load_cases.clutch == name
            push = 1e3 * torque * here / (spurgear.pitch_diameter.formula(path.module, count) / 2)
            # a driver is pushed back against its turning, a driven gear is taken along
            way = (-self.spin if self.number == 1 else self.spin)[:, None]
            lean = np.tan(np.radians(self._lean(name)))
            total += push[:, None] * (way * across - lean * along)
        return total

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
            arm = 1e3 * machine.power_flow.torque_at_box_output / spec.reducer.torque_arm
            force[:, self.box, 1] -= arm * machine.load_cases.direction
        return force

    @cached_property
    def turning(self) -> Turning:
        """Forces over a turn and torques in every state that is not a jam, as rows.

        ``states`` are the places of these states among all, ``force`` (states, angles, places, 2) in N
        and ``torque`` (states, angles, places) the larger of both sides in N*m; ``after`` is the torque
        just beyond each place, signed.
        """
        machine, asks, blade = self.machine, self.machine.clay_load, self.machine.spec.paddles
        states = np.flatnonzero(~machine.load_cases.jammed)
        buried, angles = asks.buried[ANGLES], asks.angles[ANGLES]
        most = max(float(asks.buried.sum(axis=1).max()), 1e-9)
        lever = (blade.tip_radius + blade.root_radius) / 2
        whole = machine.power_flow.paddles[self.number - 1][states]
        of_each = whole[:, None, None] * buried / most
        tangent = np.stack([-np.sin(angles), np.cos(angles)])
        push = -self.spin[states][:, None, None] * of_each * 1e3 / lever
        # kept plane by plane, as the beam takes them
        planes = np.empty((2, len(states), len(angles), len(self.places)))
        planes[:] = _planes(self.steady[states])[:, :, None]
        planes[..., self.paddles] += push * tangent[:, None]
        force = planes.transpose(1, 2, 3, 0)
        ripple = buried.sum(axis=1) / most
        given = np.zeros((len(states), len(angles), len(self.places)))
        self._feed(given, machine.power_flow, states, ripple[None, :], of_each)
        return Turning(
            states=states, force=force, torque=_carried(given), after=np.cumsum(given, axis=-1)
        )

    @cached_property
    def stopped(self) -> Stopped:
        """What a jam does at each place: rows are (states, jammed paddle).

        A paddle may stop at any angle of the turn. What its force adds then points any way, so that the
        most it does together with what stands still is the plain sum of both. It may also be caught
        anywhere along its length: the same torque pushes hardest across the shaft close to the sleeve,
        where a stone sits between a stem and the other shaft's tips.
        """
        machine, blade = self.machine, self.machine.spec.paddles
        states = np.flatnonzero(machine.load_cases.jammed)
        whole = machine.power_flow.paddles[self.number - 1][states]
        still = _planes(self.steady[states])
        push = whole[:, None, None] * 1e3 / blade.root_radius

        def both(by: Array, weight: Array) -> Array:
            planes = still @ by
            planes[1] += weight
            return np.asarray(
                np.hypot(planes[0], planes[1])[:, None] + push * np.abs(by[self.paddles])
            )

        of_each = whole[:, None, None] * np.eye(blade.count)
        given = np.zeros((len(states), blade.count, len(self.places)))
        self._feed(given, machine.power_flow, states, np.ones((1, 1)), of_each)
        by, weight = self._by, self.weight
        return Stopped(
            states=states,
            moment=both(by.moment, weight.moment) * (self.shares / 1e3),
            torque=_carried(given),
            reaction=both(by.reaction, weight.reaction),
            lift=both(by.lift, weight.lift),
        )

    def _feed(
        self, given: Array, flow: PowerFlow, states: Indices, ripple: Array, of_each: Array
    ) -> None:
        """Put in the torques that come to the shaft and leave it, each at its place."""
        spread = (slice(None), *[None] * (given.ndim - 2))
        clutch = self.machine.load_cases.clutch[states]
        if self.number == 1:
            given[..., self.box] += flow.torque_at_box_output[states][spread] * ripple
            leaving = -flow.torque_into_gear_path[states]
        else:
            leaving = flow.at_gears[2][states]
        for name, place in self.gears.items():
            where = place if self.clutch is None else self.clutch
            given[..., where] += (leaving * (clutch == name))[spread] * ripple
        # one of its two seals sits at each end of the trough, beside the bearing there
        for place in self.supports[1:]:
            given[..., place] -= flow.drag[self.number][states][spread] / 2 * ripple
        if self.pins is not None:
            given[..., self.pins] -= of_each.sum(axis=-1)
        else:
            given[..., self.paddles] -= of_each

    # ------------------------------------------------------------------ answers

    def moments(self, force: Array) -> Array:
        """Bending moment in N*m at each place, both planes together, the shaft's own part."""
        planes = _planes(force) @ self._by.moment
        planes[1] += self.weight.moment
        return np.asarray(_length(planes) * (self.shares / 1e3))

    def reactions(self, force: Array) -> Array:
        """Force on each bearing in N, both planes together."""
        planes = _planes(force) @ self._by.reaction
        planes[1] += self.weight.reaction
        return np.asarray(np.hypot(planes[0], planes[1]))

    def bends(self, force: Array) -> Sag:
        """Slope in rad and deflection in mm at each place, by planes."""
        planes = _planes(force)
        slope, lift = planes @ self._by.slope, planes @ self._by.lift
        slope[1] += self.weight.slope
        lift[1] += self.weight.lift
        return Sag(slope=_length(slope), lift=_length(lift))

    def shears(self, force: Array) -> Array:
        """Shear force in N just beyond each place, both planes together."""
        planes = _planes(force) @ self._by.shear
        planes[1] += self.weight.shear
        return np.asarray(np.hypot(planes[0], planes[1]))

    def twists(self, after: Array) -> Array:
        """Angle of twist in rad at each place, the first one held, from the torque beyond each place."""
        shear = self.steel["shear_modulus"] * 1e3
        rigidity = 2 * beam.bending_stiffness(shear, self.segments)
        return np.asarray(beam.twist(self.places, rigidity, 1e3 * after[..., :-1]))

    @cached_property
    def running(self) -> Running:
        """Moments, torques and bearing forces over a turn, of :attr:`turning`."""
        rows = self.turning
        return Running(
            states=rows.states,
            moment=self.moments(rows.force),
            torque=rows.torque,
            reaction=self.reactions(rows.force),
        )

    @cached_property
    def first_speed(self) -> float:
        """First bending speed in rpm."""
        weights = np.zeros(len(self.places))
        halves = self._weights * np.diff(self.places) / 2
        weights[:-1] += halves
        weights[1:] += halves
        return beam.critical_speed(weights, self.weight.lift)


def _planes(force: Array) -> Array:
    """Forces with the plane as their first axis, level and upright, and the place as their last."""
    return force.transpose(force.ndim - 1, *range(force.ndim - 1))


def _length(planes: Array) -> Array:
    """Both planes together; quicker than a hypot that guards against overflow."""
    return np.asarray(np.sqrt(planes[0] ** 2 + planes[1] ** 2))


def _carried(given: Array) -> Array:
    """Torque in the shaft at each place, the larger of both sides, from what is put in and taken out."""
    after = np.cumsum(given, axis=-1)
    return np.maximum(np.abs(after), np.abs(after - given))
