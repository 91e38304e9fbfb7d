"""Every turned or bored part of the machine in its place, and which of them would stand in one place.

The machine lies along x, from the inside of the plate at the reducer towards the trough; shaft 1 is at y = 0,
shaft 2 beside it at y = the shafts' distance, z is up. All in mm.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import NamedTuple

import numpy as np

from mixerkit.checking import make_check
from mixerkit.checks import Change, Check
from mixerkit.parts import flanges, seated, spurgear, stack, zones
from mixerkit.parts.along import SPACER, trough_ends
from mixerkit.parts.frame_layout import dowel_places, plate_size
from mixerkit.parts.gear_pairs import shifts_of
from mixerkit.parts.idler import PIN_SPACER, idler_centre, idler_room
from mixerkit.parts.kept import PLACED, kept_by
from mixerkit.parts.worked import WorkedMachine
from mixerkit.spec import Spec
from mixerkit.tables import table
from mixerkit.working import by_method

__all__ = ["APART", "Body", "Wall", "apart", "bodies", "clashes", "walls"]

APART = "no two parts stand in one place"
"""Name of the check of bodies."""
_DOWELLED = 2.5
"""Outside over bore of a spacer with a dowel in either end (common practice)."""
_GLAND = 12.0
"""Wall of a gland or seal housing round its shaft, in mm (common practice)."""
_TOUCH = 1e-6


class Body(NamedTuple):
    """A ring or cylinder about one axis, in mm; ``mesh`` names the path whose teeth it has, empty if it has none."""

    name: str
    y: float
    z: float
    start: float
    end: float
    inner: float
    outer: float
    mesh: str = ""


class Wall(NamedTuple):
    """A plate across the machine, and its bores: y, z and diameter of each, in mm."""

    name: str
    start: float
    end: float
    bores: tuple[tuple[float, float, float], ...]


def bodies(spec: Spec, laid: Sequence[stack.Stack] = ()) -> list[Body]:
    """Every body of the machine in neutral.

    Parameters
    ----------
    spec : Spec
    laid : sequence of Stack, optional
        Both shafts laid out, where they are already.

    Returns
    -------
    list of Body
    """
    laid = laid or [stack.laid(spec, number) for number in (1, 2)]
    rows = [one for number in (1, 2) for one in _on_shaft(spec, number, laid[number - 1])]
    return [*rows, *_idler(spec), *_between_plates(spec)]


def _on_shaft(spec: Spec, number: int, laid: stack.Stack) -> Iterator[Body]:
    y = 0.0 if number == 1 else spec.housing.centre_distance
    of = f"shaft {number}"
    turned = laid.turned
    for zone in _grooved(turned, laid.grooves):
        yield Body(of, y, 0.0, zone.start, zone.end, 0.0, zone.diameter)
    for one in laid.grooves:
        thick = float(one.ring["thickness"])
        start = one.start if one.side > 0 else one.end - thick
        words = f"ring at the {one.name} of {of}"
        yield Body(words, y, 0.0, start, start + thick, one.ring["groove"], one.ring["over"])
    for washer in laid.washers:
        words = f"{washer.words} of {of}"
        yield Body(words, y, 0.0, washer.start, washer.end, washer.inner, washer.outer)
    for element in laid.elements:
        yield from _of_element(spec, number, y, element)
    yield from _spacers(spec, number, y, laid)
    length = table("seals").find(spec.bearings.seal).values["length"] + spec.trough.wall_thickness
    for near, far in ((trough_ends(spec)[0] - length, 0), (trough_ends(spec)[1], 1)):
        # a seal beyond the end of a shaft stands for one at its end
        thick = zones.thickest_of(turned, near, near + length) or turned[-1].diameter
        words = f"{('near', 'far')[far]} seal of {of}"
        yield Body(words, y, 0.0, near, near + length, thick, thick + 2 * _GLAND)


def _grooved(turned: Sequence[zones.Zone], cut: Sequence[stack.Groove]) -> Sequence[zones.Zone]:
    """Zones of a shaft with its grooves cut."""
    for one in cut:
        turned = [
            piece
            for zone in turned
            for piece in (
                zones.Zone(zone.start, min(zone.end, one.start), zone.diameter),
                zones.Zone(
                    max(zone.start, one.start), min(zone.end, one.end), float(one.ring["groove"])
                ),
                zones.Zone(max(zone.start, one.end), zone.end, zone.diameter),
            )
            if piece.end - piece.start > _TOUCH
        ]
    return turned


def _of_element(spec: Spec, number: int, y: float, one: seated.Element) -> Iterator[Body]:
    """A thing on a shaft, and what belongs to it."""
    name, at = f"{one.name} of shaft {number}", (y, 0.0, one.start, one.end)
    if one.kind not in ("free", "fixed"):
        if one.kind == "box":
            yield from _box(spec, y, one)
            return
        yield Body(name, *at, one.bore, one.outer)
        if one.kind == "flange" and spec.fuse.kind == "shear pin":
            thick = flanges.flange_thickness(spec)
            across = flanges.flange_across(spec)
            yield Body("disc of that flange", y, 0.0, one.end - thick, one.end, one.outer, across)
        return
    path_name = one.name.split()[0]
    path = spec.paths.direct if path_name == "direct" else spec.paths.idler
    yield Body(name, *at, one.bore, one.outer, path_name)
    if one.kind == "free":
        middle, half = (one.start + one.end) / 2, spec.bearings.free_gear_length / 2
        yield Body(
            f"bush of the {name}", y, 0.0, middle - half, middle + half, one.passes, one.bore
        )
        high, clutch = spec.clutch.dog_height, spec.clutch
        other = spec.paths.idler if path_name == "direct" else spec.paths.direct
        span = (
            (one.end, one.end + high)
            if other.position > path.position
            else (one.start - high, one.start)
        )
        yield Body(
            f"dogs of the {name}", y, 0.0, *span, clutch.inner_diameter, clutch.outer_diameter
        )


def _box(spec: Spec, y: float, one: seated.Element) -> Iterator[Body]:
    """The box's hollow shaft, and what fills it round shaft 1: a bush, or the stub of the fuse's flange on its end."""
    size, bore = zones.seat(spec, 1, zones.BOX), spec.reducer.output_bore
    start, end = zones.seat_span(spec, 1, zones.BOX)
    fused = spec.fuse.kind != "none"
    yield Body(f"{one.name} of shaft 1", y, 0.0, start, end, bore, one.outer)
    if bore > size:
        words = f"stub of the {seated.STUB}" if fused else "bush in the box"
        yield Body(words, y, 0.0, start, end, size, bore)
    if fused:
        across = flanges.flange_across(spec) if spec.fuse.kind == "shear pin" else one.outer
        yield Body(seated.STUB, y, 0.0, one.start, start, size, across)


def _spacers(spec: Spec, number: int, y: float, laid: stack.Stack) -> Iterator[Body]:
    """Spacers between neighbours that are kept apart by one; a ring beside a bush takes its own room."""
    held = {(stop.name, stop.side): stop for stop in laid.stops}
    for one, after in zip(laid.elements, laid.elements[1:], strict=False):
        stops = held.get((one.name, 1)), held.get((after.name, -1))
        if "spacer" not in [stop.kind for stop in stops if stop]:
            continue
        thick = [
            (float(stop.ring["thickness"]) if stop.kind == "ring" and stop.ring else 0.0)
            + (stop.washer.end - stop.washer.start if stop.kind and stop.washer else 0.0)
            if stop
            else 0.0
            for stop in stops
        ]
        start, end = one.end + thick[0], after.start - thick[1]
        if end - start > _TOUCH:
            inner = zones.thickest(zones.own(spec, number), start, end)
            words = f"spacer {one.name} to {after.name} of shaft {number}"
            yield Body(words, y, 0.0, start, end, inner, inner + 2 * SPACER)


def _idler(spec: Spec) -> Iterator[Body]:
    """The idler, its bush and its pin; none where it finds no place."""
    along, aside, _ = idler_centre(spec)
    path = spec.paths.idler
    if not np.isfinite(aside) or len(path.tooth_counts) != 3:
        return
    half, pin = path.face_width / 2, spec.housing.idler_pin
    outer = pin + 2 * spec.bearings.bush_wall
    tip = float(
        spurgear.tip_diameter.formula(path.module, path.tooth_counts[1], shifts_of(path)[1])
    )
    yield Body(
        "idler", along, aside, path.position - half, path.position + half, outer, tip, "idler"
    )
    long = spec.bearings.idler_length / 2
    yield Body(
        "bush of the idler", along, aside, path.position - long, path.position + long, pin, outer
    )
    thick, apart = spec.housing.plate_thickness, spec.housing.plate_spacing
    yield Body("pin of the idler", along, aside, -thick, apart + thick, 0.0, pin)
    near, far = idler_room(spec)
    for which, start, end in (("before", 0.0, near), ("behind", apart - far, apart)):
        if end - start > _TOUCH:
            words = f"spacer {which} the idler on its pin"
            yield Body(words, along, aside, start, end, pin, pin + 2 * PIN_SPACER)


def _between_plates(spec: Spec) -> Iterator[Body]:
    """Thick tubes that keep the plates apart and in line, a dowel in either end."""
    housing = spec.housing
    for k, (across, up) in enumerate(dowel_places(spec), 1):
        y, z = across - housing.wall_distance, up - plate_size(spec)[1] / 2
        words, outer = f"spacer {k} between the plates", _DOWELLED * housing.dowel
        yield Body(words, y, z, 0.0, housing.plate_spacing, housing.dowel, outer)


def walls(spec: Spec) -> list[Wall]:
    """Both plates with the bores for shafts and pin."""
    along, aside, _ = idler_centre(spec)
    thick, apart_by = spec.housing.plate_thickness, spec.housing.plate_spacing
    found = []
    for name, start in (("plate at the reducer", -thick), ("plate at the trough", apart_by)):
        bores = [(along, aside, spec.housing.idler_pin)] if np.isfinite(aside) else []
        for number, y in ((1, 0.0), (2, spec.housing.centre_distance)):
            bores.append((y, 0.0, zones.bore_round(spec, number, name)))
        found.append(Wall(name, start, start + thick, tuple(bores)))
    return found


def clashes(all_of_them: list[Body], plates: list[Wall]) -> list[tuple[str, str]]:
    """Pairs of bodies, or of a body and a plate, that share a place.

    Two about one axis clash where their lengths and their rings overlap; two about different axes where their
    lengths overlap and their circles do, but for gears of one path, whose teeth mesh. What reaches into a plate
    must go through its own bore.

    Parameters
    ----------
    all_of_them : list of Body
    plates : list of Wall

    Returns
    -------
    list of tuple of str
    """
    y, z, start, end, inner, outer = np.array([one[1:7] for one in all_of_them], float).T
    beside = np.minimum(end[:, None], end) - np.maximum(start[:, None], start) > _TOUCH
    one, other = np.nonzero(np.triu(beside, 1))
    away = np.hypot(y[one] - y[other], z[one] - z[other])
    ring = np.minimum(outer[one], outer[other]) - np.maximum(inner[one], inner[other])
    near = np.where(away < _TOUCH, ring, (outer[one] + outer[other]) / 2 - away) > _TOUCH
    found = []
    for i, k in zip(one[near].tolist(), other[near].tolist(), strict=True):
        first, second = all_of_them[i], all_of_them[k]
        if not (
            first.mesh and first.mesh == second.mesh and (first.y, first.z) != (second.y, second.z)
        ):
            found.append((first.name, second.name))
    for wall in plates:
        inside = np.minimum(end, wall.end) - np.maximum(start, wall.start) > _TOUCH
        found += [
            (body.name, wall.name)
            for body in (all_of_them[i] for i in np.flatnonzero(inside).tolist())
            if not any(
                abs(body.y - at) < _TOUCH
                and abs(body.z - up) < _TOUCH
                and body.outer <= bore + _TOUCH
                for at, up, bore in wall.bores
            )
        ]
    return found


@kept_by(*PLACED)
def _together(spec: Spec) -> tuple[tuple[Body, ...], tuple[tuple[str, str], ...]]:
    """Every body in neutral, and the pairs that share a place."""
    row = bodies(spec)
    return tuple(row), tuple(clashes(row, walls(spec)))


def apart(machine: WorkedMachine) -> list[Check]:
    """Check that no two parts stand in one place."""
    spec = machine.spec
    row, found = _together(spec)
    free = len(row) - len({name for pair in found for name in pair[:1]})
    words = "; ".join(f"{one} and {other}" for one, other in found[:3]) or "none touches another"
    changes: list[Change] = [
        "housing.plate_spacing",
        "paths.direct.position",
        "paths.idler.position",
        "housing.plate_thickness",
        "reducer.overhang",
        "bearings.span",
        "trough.length",
        "bearings.bush_length",
        "bearings.free_gear_length",
        "bearings.idler_length",
        "clutch.sleeve_length",
        "clutch.dog_height",
        "housing.centre_distance",
    ]
    return [
        make_check(
            machine,
            "shafts",
            "all on both shafts",
            APART,
            demand=float(len(row)),
            capacity=float(free),
            unit="",
            tight=1.0,
            source="geometry: lengths and rings of all that is turned or bored, in neutral",
            reason=lambda i, say: words,
            working=lambda i: [
                by_method("n", "bodies less those that share a place with another", float(free), "")
            ],
            fix=lambda i: changes if found else [],
            note=lambda i, say: f"In one place stand: {words}." if found else "",
        )
    ]
