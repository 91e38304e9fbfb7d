"""The gears of both paths: do they mesh, can they be cut sound, will the teeth last, the idler's pin."""

from __future__ import annotations

from functools import lru_cache
from math import pi
from types import SimpleNamespace
from typing import Any

import numpy as np

from mixerkit.cases import Case
from mixerkit.checks import Check, Say
from mixerkit.frozen import Frozen, frozen
from mixerkit.parts import formcutter, mesh, shaft, spurgear, toothstrength
from mixerkit.tables import table

__all__ = [
    "Pair",
    "checks",
    "geometry_checks",
    "idler_forces",
    "life_cycles",
    "mesh_distances",
    "pairs",
    "shifts_of",
]

_ISO = "ISO 6336-3 method B with K factors stated; limits ISO 6336-5 (from memory)"


def shifts_of(path: SimpleNamespace) -> tuple[float, ...]:
    """Profile shift of each gear of a path, none where the design names none."""
    return path.profile_shifts or (0.0,) * len(path.tooth_counts)


def mesh_distances(path: SimpleNamespace, apart: float) -> list[float]:
    """Centre distances in mm of a path's meshes.

    A direct pair works on the distance of the shafts; an idler is put where its own meshes close.
    """
    if len(path.tooth_counts) == 2:
        return [apart]
    return list(_closing(path.module, tuple(path.tooth_counts), tuple(shifts_of(path))))


@lru_cache(maxsize=512)
def _closing(module: float, counts: tuple[int, ...], shifts: tuple[float, ...]) -> tuple[float, ...]:  # fmt: skip
    """Distances on which a train's meshes close; asked for many times while one design is checked."""
    return tuple(
        float(
            mesh.mesh_centre_distance.plain(module, *counts[k : k + 2], shifts[k] + shifts[k + 1])
        )
        for k in range(len(counts) - 1)
    )


class Pair(Frozen):
    """One mesh of a path: ``counts``, ``shifts``, ``tips``, ``distance``, ``ratio`` of contact, ``play``."""


def pairs(path: SimpleNamespace, apart: float) -> list[Pair]:
    """Geometry of each mesh of a path.

    Parameters
    ----------
    path : SimpleNamespace
        In plain numbers.
    apart : float
        Distance of the shafts in mm.

    Returns
    -------
    list of Pair
        ``working`` angle is not a number where the gears cannot come so near.
    """
    return list(
        _pairs(path.module, tuple(path.tooth_counts), tuple(shifts_of(path)), path.thinning, tuple(mesh_distances(path, apart)))
    )  # fmt: skip


@lru_cache(maxsize=512)
def _pairs(module: float, all_counts: tuple[int, ...], shifts: tuple[float, ...], thinning: float, distances: tuple[float, ...]) -> tuple[Pair, ...]:  # fmt: skip
    """Meshes of a path by what they depend on; asked for many times while one design is checked."""
    found = []
    for k, distance in enumerate(distances):
        counts, pair_shifts = all_counts[k : k + 2], shifts[k : k + 2]
        tips = [
            float(spurgear.tip_diameter.plain(module, *one))
            for one in zip(counts, pair_shifts, strict=True)
        ]
        found.append(
            Pair(
                counts=counts, shifts=pair_shifts, tips=tuple(tips), distance=distance,
                working=float(mesh.working_pressure_angle.plain(module, *counts, distance)),
                ratio=float(mesh.contact_ratio.plain(module, *counts, *tips, distance)),
                play=float(mesh.backlash.plain(module, *counts, sum(pair_shifts), distance, 2 * thinning)),
            )
        )  # fmt: skip
    return tuple(found)


def life_cycles(case: Case) -> float:
    """Loads on one tooth over the machine's life, one a turn."""
    speed = case.plain.motor.rated_speed / case.plain.reducer.ratio
    return speed * 60 * case.plain.batch.life_hours


def checks(case: Case) -> list[Check]:
    """Check geometry and strength of both paths and the idler's pin.

    Parameters
    ----------
    case : Case

    Returns
    -------
    list of Check
    """
    found = []
    for name in ("direct", "idler"):
        path = getattr(case.plain.paths, name)
        meshes = pairs(path, case.plain.housing.centre_distance)
        found += geometry_checks(case, name, path, meshes) + _strength(case, name, path, meshes)
    return found + _idler(case)


def geometry_checks(case: Case, name: str, path: Any, meshes: list[Pair]) -> list[Check]:
    """Check whether a path's gears can be cut sound and mesh, whatever they carry.

    Parameters
    ----------
    case : Case
    name : str
        ``"direct"`` or ``"idler"``.
    path : SimpleNamespace
        In plain numbers.
    meshes : list of Pair
        See :func:`pairs`.

    Returns
    -------
    list of Check
    """
    part, shifts = f"{name} path", shifts_of(path)
    counts = np.array(path.tooth_counts)
    needed = spurgear.undercut_tooth_count(np.array(shifts))
    # with a shift of a whole module and more any count will do
    worst = int(np.argmin(counts / np.maximum(needed, 1e-9)))
    tips = spurgear.tip_thickness.plain(path.module, counts, np.array(shifts))
    thin = min(meshes, key=lambda one: one.ratio)
    loose, jammed = max(meshes, key=lambda one: one.play), min(meshes, key=lambda one: one.play)
    gaps = [
        one.distance - one.tips[i] / 2 - spurgear.root_diameter.plain(path.module, one.counts[1 - i], one.shifts[1 - i]) / 2
        for one in meshes for i in (0, 1)
    ]  # fmt: skip
    most = 0.15 * path.module + 2 * path.thinning

    def spread(_i: int, say: Say) -> str:
        return f"Gears of {one_word(jammed)} on {say(jammed.distance, 'mm')}: more thinning, or shafts further apart, would do."

    return [
        case.check(
            "gears", part, "no undercut", demand=float(needed[worst]), capacity=float(counts[worst]), unit="",
            tight=1.0, source="z = 2 (1 - x) / sin^2 a; any gear handbook",
            reason=lambda i, say: f"a gear of {counts[worst]} teeth with a shift of {shifts[worst]:g}",
            advice=lambda i, say: (
                f"{int(np.ceil(needed[worst]))} teeth would do, or a shift of {np.ceil(1000 * spurgear.least_shift(counts[worst])) / 1000:.3f}."
            ),
        ),
        case.check(
            "gears", part, "tips are not pointed", demand=0.2 * path.module, capacity=float(tips.min()), unit="mm",
            source="0.2 modules: common practice",
            reason=lambda i, say: f"thinnest tip of a gear of {counts[int(tips.argmin())]} teeth",
            advice=lambda i, say: "A smaller profile shift would do.",
        ),
        case.check(
            "gears", part, "teeth overlap (contact ratio)", demand=1.2, capacity=thin.ratio, unit="", tight=1.0,
            source="ISO 21771; 1.2 for hand-cut gears: common practice",
            reason=lambda i, say: f"{one_word(thin)} on {say(thin.distance, 'mm')}",
            advice=lambda i, say: "More teeth of a smaller module, or less profile shift, would do.",
        ),
        _tick(case, part, path, meshes),
        _interference(case, part, path, meshes),
        case.check(
            "gears", part, "tips clear the roots", demand=0.1 * path.module, capacity=float(min(gaps)), unit="mm",
            source="a quarter module as cut, a tenth left at least: common practice",
            reason=lambda i, say: f"least of {len(gaps)} gaps between tip and root",
            advice=lambda i, say: f"Tips turned down by {say(2 * (0.1 * path.module - min(gaps)), 'mm')} on diameter would do.",
        ),
        case.check(
            "gears", part, "backlash is enough", demand=0.02 * path.module, capacity=jammed.play, unit="mm",
            source="0.02 modules so that grease and warmth have room: common practice",
            reason=lambda i, say: f"{one_word(jammed)} on {say(jammed.distance, 'mm')}, each tooth thinned {say(path.thinning, 'mm')}",
            advice=spread,
        ),
        case.check(
            "gears", part, "backlash is not too much", demand=loose.play, capacity=most, unit="mm",
            source="0.15 modules and the thinning, for a drive that reverses: common practice",
            reason=lambda i, say: f"{one_word(loose)} on {say(loose.distance, 'mm')}",
            advice=lambda i, say: f"Profile shifts that add up to {ideal_sum(path, loose):.3f} would do.",
        ),
    ]  # fmt: skip


def _tick(case: Case, part: str, path: Any, meshes: list[Pair]) -> Check:
    """What form cutters at the ends of their range leave, felt at every tooth."""
    cuttable = [one for one in meshes if min(one.counts) >= 12]
    steps = [formcutter.hand_over_step(path.module, one.counts, one.distance) for one in cuttable]
    worst = int(np.argmax(steps)) if steps else 0
    return case.check(
        "gears", part, "tick of form-cut teeth", demand=max(steps, default=np.nan), capacity=0.05 * path.module,
        unit="mm", source="0.05 modules at walking pace: common practice; cutters made for the fewest teeth of their range",
        reason=lambda i, say: (
            f"{one_word(cuttable[worst])}, cutters {' and '.join(str(formcutter.cutter_number(z)) for z in cuttable[worst].counts)}"
            if cuttable
            else "form cutters start at 12 teeth"
        ),
        advice=lambda i, say: "A tooth count nearer the fewest of its cutter's range would do, or 12 teeth at least.",
    )  # fmt: skip


def _interference(case: Case, part: str, path: Any, meshes: list[Pair]) -> Check:
    """Whether a tip reaches below the place where its mate's involute begins."""
    needs, gives = [], []
    for one in meshes:
        reach = one.distance * np.sin(np.radians(one.working))
        for i in (0, 1):
            base = spurgear.base_diameter.plain(path.module, one.counts[1 - i]) / 2
            gives.append(float(reach - np.sqrt(max((one.tips[1 - i] / 2) ** 2 - base**2, 0.0))))
            start = spurgear.involute_start(path.module, one.counts[i], one.shifts[i])
            needs.append(max(float(start), 0.0))
    worst = int(np.argmin(np.array(gives) - np.array(needs)))
    return case.check(
        "gears", part, "no interference at the roots", demand=needs[worst], capacity=gives[worst], unit="mm",
        tight=1.0, source="start of contact against start of the involute, along the line of action: ISO 21771 (from memory)",
        reason=lambda i, say: f"gear of {meshes[worst // 2].counts[worst % 2]} teeth in {one_word(meshes[worst // 2])}",
        advice=lambda i, say: "More teeth on the smaller gear, or a positive profile shift there, would do.",
    )  # fmt: skip


def ideal_sum(path: Any, one: Pair) -> float:
    """Sum of shifts that closes a mesh on its distance."""
    return float(mesh.shift_sum.plain(path.module, *one.counts, one.distance))


def one_word(one: Pair) -> str:
    """Name a pair by its tooth counts."""
    return f"{one.counts[0]} and {one.counts[1]} teeth"


# most knobs leave a mesh as it is, and what a newton does to it
_stresses = lru_cache(maxsize=512)(lambda *given: frozen(toothstrength.mesh_stresses(*given)))


def _tangent_force(case: Case, path: Any) -> np.ndarray:
    """Force along the pitch circles in N over the states; the same in every mesh but for losses."""
    radius = path.module * path.tooth_counts[0] / 2
    return 1e3 * case.flow.through / radius


def _strength(case: Case, name: str, path: Any, meshes: list[Pair]) -> list[Check]:
    here = case.clutch == name
    force = _tangent_force(case, path) * here
    material = table("gear_materials").find(path.material).plain
    idler = table("gear_materials").find(path.idler_material).plain
    limits = [material] + [idler] * (len(path.tooth_counts) - 2) + [material]
    cycles = life_cycles(case)
    bending_life, contact_life = map(float, toothstrength.life_factors(cycles))
    root, surface = [], []
    for k, one in enumerate(meshes):
        elastic = toothstrength.elastic_factor(
            limits[k]["elastic_modulus"], limits[k + 1]["elastic_modulus"]
        )
        stresses, contact = _stresses(
            path.module, one.counts, one.shifts, tuple(one.tips), one.distance, one.ratio, path.face_width, float(elastic)
        )  # fmt: skip
        for i, stress in enumerate(stresses):
            limit = limits[k + i]["bending_limit"] * toothstrength.STRESSING
            root.append((float(stress) / limit, float(stress), limit, one.counts[i]))
        limit = min(limits[k]["contact_limit"], limits[k + 1]["contact_limit"])
        surface.append((float(contact) / limit, float(contact), limit, one))
    bent, touched = max(root, key=lambda one: one[0]), max(surface, key=lambda one: one[0])
    reversing = toothstrength.REVERSED
    return [
        _bending_check(case, name, path, force, bent, "while mixing", case.mixing & here, bent[2] * reversing * bending_life,
                       case.plain.safety.tooth_bending, f"loaded both ways x {reversing:g}, {cycles:.2g} loads"),
        _bending_check(case, name, path, force / toothstrength.HAND_CUT.application, bent, "in a jam", case.jammed & here, bent[2] * toothstrength.STATIC,
                       case.plain.safety.shaft_in_jam, f"static x {toothstrength.STATIC:g}", (1.0, 1.2)),
        case.check(
            "gears", f"{name} path", "teeth surfaces last", where=case.mixing & here,
            demand=touched[1] * np.sqrt(force), capacity=touched[2] * contact_life, unit="MPa",
            safety=case.plain.safety.tooth_contact,
            source="ISO 6336-2 method B with K factors stated; limits ISO 6336-5 (from memory)",
            reason=lambda i, say: (
                f"{one_word(touched[3])}, Ft = {say(force[i], 'N')}, K = {toothstrength.LOAD_FACTOR:.2f}, {cycles:.2g} loads x {contact_life:.2f}; "
                f"at {pitch_speed(case, path):.2g} m/s metal touches metal: {material['lubrication']}"
            ),
            advice=lambda i, say: (
                f"A face width of {say(path.face_width * force[i] * (touched[1] * case.plain.safety.tooth_contact / (touched[2] * contact_life)) ** 2, 'mm')} "
                "would do, or a harder material."
            ),
        ),
    ]  # fmt: skip


def pitch_speed(case: Case, path: Any) -> float:
    """Speed of the pitch line in m/s while mixing."""
    turns = case.plain.motor.rated_speed / case.plain.reducer.ratio / 60
    return pi * path.module * path.tooth_counts[0] * turns / 1e3


def _bending_check(
    case: Case, name: str, path: Any, force: np.ndarray, bent: tuple[float, float, float, int], when: str,
    where: np.ndarray, allowed: float, safety: float, how: str, rung: tuple[float, float] | None = None,
) -> Check:  # fmt: skip
    stress = bent[1] * force
    return case.check(
        "gears", f"{name} path", f"teeth do not break {when}", where=where, demand=stress, capacity=allowed,
        unit="MPa", safety=safety, source=_ISO, rung=rung,
        reason=lambda i, say: (
            f"gear of {bent[3]} teeth, Ft = {say(force[i], 'N')}, face {say(path.face_width, 'mm')}; limit {how}"
        ),
        advice=lambda i, say: (
            f"A face width of {say(path.face_width * stress[i] * safety / allowed, 'mm')} would do, or a stronger material."
        ),
    )  # fmt: skip


def idler_centre(plain: SimpleNamespace) -> tuple[float, float, list[float]]:
    """Place of the first idler in mm, shaft 1 at the origin, and the mesh distances of its path.

    The place aside is not a number where the meshes do not close.
    """
    distances = mesh_distances(plain.paths.idler, plain.housing.centre_distance)
    along, aside = mesh.idler_place.plain(
        plain.housing.centre_distance, distances[0], sum(distances[1:])
    )
    side = 1.0 if plain.housing.idler_side == "above" else -1.0
    return along, side * float(aside), distances


def idler_forces(case: Case, side: float | None = None) -> np.ndarray:
    """Force on the idler's pin in N over the states, by vector sum of both tooth forces.

    Parameters
    ----------
    case : Case
    side : float, optional
        1 for above the line of the shafts and -1 for below; the design's own, if not given.

    Returns
    -------
    numpy.ndarray
        Both meshes carry the same tangential force; which way it points turns with the motor.
    """
    plain = case.plain
    path = plain.paths.idler
    x, y, _ = idler_centre(plain)
    y = abs(y) * (side if side is not None else np.sign(y))
    first = np.array([-x, -y])
    second = np.array([plain.housing.centre_distance - x, -y])
    total = np.zeros((len(case.states), 2))
    force = spurgear.tooth_force.plain(case.flow.through, path.module * path.tooth_counts[0])
    force = force * (case.clutch == "idler")
    for number, towards in enumerate((first, second)):
        line = towards / np.hypot(*towards)
        across = np.array([-line[1], line[0]])
        # seen from the idler, a driver turning forward moves against "across" where they touch and
        # takes the idler along; the driven gear holds it back
        way = -case.direction if number == 0 else case.direction
        lean = np.radians(20.0)
        total += force[:, None] * (np.outer(way * np.cos(lean), across) - np.sin(lean) * line)
    return np.hypot(total[:, 0], total[:, 1])


def _idler(case: Case) -> list[Check]:
    plain = case.plain
    x, y, distances = idler_centre(plain)
    if not np.isfinite(y):
        return []
    path, direct, gap = plain.paths.idler, plain.paths.direct, plain.safety.tip_clearance
    tip = spurgear.tip_diameter.plain(path.module, path.tooth_counts[1], shifts_of(path)[1]) / 2
    pin = plain.housing.idler_pin
    force = idler_forces(case)
    moment = shaft.span_moment.plain(force, path.position, plain.housing.plate_spacing)
    stress = shaft.bending_stress.plain(moment, pin)
    steel = table("materials").find(plain.shaft_1.material).plain
    strength = steel["yield_strength"]
    in_jam = plain.safety.shaft_in_jam
    other = (
        spurgear.tip_diameter.plain(
            direct.module, np.array(direct.tooth_counts), np.array(shifts_of(direct))
        )
        / 2
    )
    second = float(np.hypot(plain.housing.centre_distance - x, y))
    to_pin = min(distances[0] - other[0], second - other[-1]) - pin / 2
    hub = plain.housing.hub_diameter
    to_shaft = (
        min(
            distances[0] - max(plain.shaft_1.diameter, hub) / 2,
            second - max(plain.shaft_2.diameter, hub) / 2,
        )
        - tip
    )
    return [
        case.check(
            "gears", "idler", "idler clears shafts and hubs", demand=gap, capacity=float(to_shaft), unit="mm",
            source="geometry", reason=lambda i, say: f"tip radius {say(tip, 'mm')}, mesh {say(distances[0], 'mm')}",
            advice=lambda i, say: "A larger idler or smaller hubs would do.",
        ),
        case.check(
            "gears", "idler", "idler's pin clears the direct pair", demand=gap, capacity=float(to_pin), unit="mm",
            source="the pin passes the plane of the other path: geometry",
            reason=lambda i, say: f"pin {say(pin, 'mm')}, direct gears' tip radii {say(other[0], 'mm')} and {say(other[-1], 'mm')}",
            advice=lambda i, say: f"An idler of {path.tooth_counts[1] + int(np.ceil((gap - to_pin) / path.module * 2))} teeth would do.",
        ),
        case.check(
            "gears", "idler", "idler stays inside the case", demand=abs(y) + tip + gap,
            capacity=plain.housing.wall_distance, unit="mm", source="geometry",
            reason=lambda i, say: f"idler {say(abs(y), 'mm')} {plain.housing.idler_side} the shafts' line, tip radius {say(tip, 'mm')}",
            advice=lambda i, say: f"A wall {say(abs(y) + tip + gap, 'mm')} away would do, or a smaller idler.",
        ),
        case.check(
            "gears", "idler", "idler's pin does not yield in a jam", where=case.jammed, demand=stress,
            capacity=strength, unit="MPa", safety=in_jam, source="vector sum of both tooth forces; Shigley 10th ed., eq. 3-26",
            rung=(1.0, steel["tensile_strength"] / strength),
            reason=lambda i, say: f"{say(force[i], 'N')} on the pin, M = {say(moment[i], 'N*m')}, steel of shaft 1",
            advice=lambda i, say: f"A pin of {say(pin * np.cbrt(stress[i] * in_jam / strength), 'mm')} would do.",
        ),
    ]  # fmt: skip
