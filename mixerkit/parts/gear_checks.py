"""The gears of both paths: do they mesh, can they be cut sound, will the teeth last, the idler's pin."""

from __future__ import annotations

from dataclasses import replace
from functools import lru_cache
from math import pi
from typing import Any

import numpy as np

from mixerkit.checking import make_check, make_unjudged
from mixerkit.checks import Change, Check
from mixerkit.frozen import frozen, result
from mixerkit.parts import formcutter, mesh, shaft, spurgear, toothstrength
from mixerkit.parts.remedies import FEWEST, LIGHTER, calmer, pairs_on, resized, stronger
from mixerkit.results import Array, Flags, LoadedMachine
from mixerkit.spec import GearPath, Spec
from mixerkit.tables import table
from mixerkit.units import show
from mixerkit.working import by_method, worked

__all__ = [
    "RIM",
    "Pair",
    "checks",
    "geometry_checks",
    "idler_forces",
    "life_cycles",
    "mesh_distances",
    "pairs",
    "reaching",
    "shifts_of",
    "taken_out",
]

RIM = 1.2 * 2.25
"""Metal under the roots in modules, 1.2 tooth heights, below which the rim itself breaks (rim factor 1:
Shigley 10th ed., fig. 14-16, from memory)."""
_ISO = "ISO 6336-3 method B with K factors stated; limits ISO 6336-5 (from memory)"


def shifts_of(path: GearPath) -> tuple[float, ...]:
    """Profile shift of each gear of a path, none where the design names none."""
    return path.profile_shift_coefficients or (0.0,) * len(path.tooth_counts)


def mesh_distances(path: GearPath, apart: float) -> list[float]:
    """Centre distances in mm of a path's meshes.

    A direct pair works on the distance of the shafts; an idler is put where its own meshes close.
    """
    if len(path.tooth_counts) == 2:
        return [apart]
    return list(_closing(path.module, tuple(path.tooth_counts), tuple(shifts_of(path))))


@lru_cache(maxsize=512)
def _closing(
    module: float, counts: tuple[int, ...], shifts: tuple[float, ...]
) -> tuple[float, ...]:
    """Distances on which a train's meshes close; asked for many times while one design is checked."""
    return tuple(
        float(
            mesh.mesh_centre_distance.formula(
                module, counts[k], counts[k + 1], shifts[k] + shifts[k + 1]
            )
        )
        for k in range(len(counts) - 1)
    )


@result
class Pair:
    """One mesh of a path: ``counts``, ``shifts``, ``tips``, ``distance``, ``ratio`` of contact, ``play``."""

    counts: tuple[int, int]
    shifts: tuple[float, float]
    tips: tuple[float, float]
    distance: float
    working: float
    ratio: float
    play: float


def pairs(path: GearPath, apart: float) -> list[Pair]:
    """Geometry of each mesh of a path.

    Parameters
    ----------
    path : GearPath
        In plain numbers.
    apart : float
        Distance of the shafts in mm.

    Returns
    -------
    list of Pair
        ``working`` angle is not a number where the gears cannot come so near.
    """
    return list(
        _pairs(
            path.module,
            tuple(path.tooth_counts),
            tuple(shifts_of(path)),
            path.thinning,
            tuple(mesh_distances(path, apart)),
        )
    )


@lru_cache(maxsize=512)
def _pairs(
    module: float,
    all_counts: tuple[int, ...],
    shifts: tuple[float, ...],
    thinning: float,
    distances: tuple[float, ...],
) -> tuple[Pair, ...]:
    """Meshes of a path by what they depend on; asked for many times while one design is checked."""
    found = []
    for k, distance in enumerate(distances):
        counts, pair_shifts = (all_counts[k], all_counts[k + 1]), (shifts[k], shifts[k + 1])
        tip_1, tip_2 = (
            float(spurgear.tip_diameter.formula(module, count, shift))
            for count, shift in zip(counts, pair_shifts, strict=True)
        )
        found.append(
            Pair(
                counts=counts,
                shifts=pair_shifts,
                tips=(tip_1, tip_2),
                distance=distance,
                working=float(mesh.working_pressure_angle.formula(module, *counts, distance)),
                ratio=float(mesh.contact_ratio.formula(module, *counts, tip_1, tip_2, distance)),
                play=float(
                    mesh.backlash.formula(module, *counts, sum(pair_shifts), distance, 2 * thinning)
                ),
            )
        )
    return tuple(found)


def life_cycles(machine: LoadedMachine) -> float:
    """Loads on one tooth over the machine's life, one a turn."""
    return machine.running_speed * 60 * machine.spec.batch.life_hours


def checks(machine: LoadedMachine) -> list[Check]:
    """Check geometry and strength of both paths and the idler's pin.

    Parameters
    ----------
    machine : LoadedMachine

    Returns
    -------
    list of Check
    """
    found = []
    for name in ("direct", "idler"):
        path = getattr(machine.spec.paths, name)
        meshes = pairs(path, machine.spec.housing.centre_distance)
        found += [*geometry_checks(machine, name, path, meshes), _plates(machine, name, path)]
        found += _strength(machine, name, path, meshes)
    return found + _idler(machine)


def geometry_checks(
    machine: LoadedMachine, name: str, path: GearPath, meshes: list[Pair]
) -> list[Check]:
    """Check whether a path's gears can be cut sound and mesh, whatever they carry.

    Parameters
    ----------
    machine : LoadedMachine
    name : str
        ``"direct"`` or ``"idler"``.
    path : GearPath
        In plain numbers.
    meshes : list of Pair
        See :func:`pairs`.

    Returns
    -------
    list of Check
    """
    part, shifts, apart = f"{name} path", shifts_of(path), machine.spec.housing.centre_distance
    counts = np.array(path.tooth_counts)
    needed = np.asarray(spurgear.undercut_tooth_count(np.array(shifts)))
    # with a shift of a whole module and more any count will do
    worst = int(np.argmin(counts / np.maximum(needed, 1e-9)))
    tips = np.asarray(spurgear.thinned_tip(path.module, counts, np.array(shifts), path.thinning))
    pointed = int(tips.argmin())
    found = [
        make_check(
            machine,
            "gears",
            part,
            "no undercut",
            demand=float(needed[worst]),
            capacity=float(counts[worst]),
            unit="",
            tight=1.0,
            working=lambda i: [
                worked(
                    "z = 2*(1 - x)/sin(alpha)**2",
                    float(needed[worst]),
                    "",
                    x=(shifts[worst], "", f"paths.{name}.profile_shift_coefficients"),
                    alpha=(20.0, "degree", "pressure angle of the rack of ISO 53 (from memory)"),
                )
            ],
            source="z = 2 (1 - x) / sin^2 a; any gear handbook",
            reason=lambda i, say: (
                f"a gear of {counts[worst]} teeth with a shift of {shifts[worst]:g}"
            ),
            fix=lambda i: (
                _shifted(
                    name,
                    path,
                    apart,
                    worst,
                    float(np.ceil(1000 * spurgear.least_shift(counts[worst])) / 1000),
                )
                + _finer(machine, name, path)
            ),
        ),
        make_check(
            machine,
            "gears",
            part,
            "tips are not pointed",
            demand=0.2 * path.module,
            capacity=float(tips.min()),
            unit="mm",
            working=lambda i: [
                worked(
                    "s = c*m",
                    0.2 * path.module,
                    "mm",
                    c=(0.2, "", "common practice"),
                    m=(path.module, "mm", f"paths.{name}.module"),
                )
            ],
            source="0.2 modules: common practice",
            reason=lambda i, say: (
                f"thinnest tip of a gear of {counts[pointed]} teeth, each thinned {say(path.thinning, 'mm')}"
            ),
            fix=lambda i: (
                [
                    one
                    for less in (0.6, 0.3, 0.0)
                    for one in _shifted(
                        name, path, apart, pointed, round(less * shifts[pointed], 3)
                    )
                ]
                + [f"paths.{name}.thinning", *_finer(machine, name, path)]
            ),
        ),
        _tick(machine, part, path, meshes),
        _interference(machine, part, path, meshes),
        _rim(machine, name, path),
    ]
    names = (
        "teeth overlap (contact ratio)",
        "tips clear the roots",
        "backlash is enough",
        "backlash is not too much",
    )
    apart_too_little = [one for one in meshes if not np.isfinite(one.working)]
    if apart_too_little:
        why = _too_near(apart_too_little[0], machine.system)
        return found + [
            replace(
                make_unjudged(machine, "gears", part, one, why),
                fixes=lambda: _closed(name, path, meshes),
            )
            for one in names
        ]
    return found + _meshing(machine, name, path, meshes, names)


_FREE = 1.0
"""Gap in mm wanted between what turns and a plate beside it (common practice)."""


def _between_plates(spec: Spec, path: GearPath) -> float:
    """Greatest width in mm for a path's gears on their place, clear of both plates; below zero beyond one."""
    return 2 * (min(path.position, spec.housing.plate_spacing - path.position) - _FREE)


def _widest(spec: Spec, name: str) -> tuple[float, str]:
    """Widest of what sits in the middle of a path's gears in mm, and the field that says so."""
    path = getattr(spec.paths, name)
    rows = [
        (path.face_width, f"paths.{name}.face_width"),
        (spec.bearings.free_gear_length, "bearings.free_gear_length"),
    ]
    if spec.hubs.gear in ("key", "clamp"):
        rows.append((spec.hubs.gear_length, "hubs.gear_length"))
    if len(path.tooth_counts) > 2:
        rows.append((spec.bearings.idler_length, "bearings.idler_length"))
    return max(rows, key=lambda one: one[0])


def _plates(machine: LoadedMachine, name: str, path: GearPath) -> Check:
    """Whether a path's gears, with bush and hub, turn clear of both plates."""
    spec = machine.spec
    spacing, room = spec.housing.plate_spacing, _between_plates(machine.spec, path)
    width, field = _widest(spec, name)
    reach = width / 2 + _FREE
    place = min(max(path.position, reach), spacing - reach)
    return make_check(
        machine,
        "gears",
        f"{name} path",
        "gears turn clear of both plates",
        demand=width,
        capacity=room,
        unit="mm",
        tight=1.0,
        working=lambda i: [
            worked(
                "b = 2*(Min(x, L - x) - s)",
                room,
                "mm",
                x=(path.position, "mm", f"paths.{name}.position"),
                L=(spacing, "mm", "housing.plate_spacing"),
                s=(_FREE, "mm", "common practice"),
            )
        ],
        source="half the width each side of its middle and 1 mm free, the plates' insides at nought and their distance: geometry",
        reason=lambda i, say: (
            f"{say(width, 'mm')} wide ({field}), its middle {say(path.position, 'mm')} from one plate and "
            f"{say(spacing - path.position, 'mm')} from the other"
        ),
        fix=lambda i: [
            *([{f"paths.{name}.position": place}] if place >= reach else []),
            *([{"housing.plate_spacing": path.position + reach}] if path.position >= reach else []),
            *([{field: room}] if room > 0 else []),
        ],
    )


def _too_near(one: Pair, system: str) -> str:
    """Say that a pair has no place to mesh."""
    at = show(one.distance, "mm", system)
    return f"gears of {one_word(one)} cannot mesh as near as {at}: their base circles overlap"


def _meshing(
    machine: LoadedMachine, name: str, path: GearPath, meshes: list[Pair], names: tuple[str, ...]
) -> list[Check]:
    """Contact ratio, gaps at the roots and backlash of meshes that do come together."""
    part = f"{name} path"
    thin = min(meshes, key=lambda one: one.ratio)
    loose, jammed = max(meshes, key=lambda one: one.play), min(meshes, key=lambda one: one.play)
    gaps = [
        one.distance
        - one.tips[i] / 2
        - spurgear.root_diameter.formula(path.module, one.counts[1 - i], one.shifts[1 - i]) / 2
        for one in meshes
        for i in (0, 1)
    ]
    most = 0.15 * path.module + 0.2
    less = path.thinning - (loose.play - most) / 2
    least = 0.02 * path.module
    return [
        make_check(
            machine,
            "gears",
            part,
            names[0],
            demand=1.2,
            capacity=thin.ratio,
            unit="",
            tight=1.0,
            working=lambda i: [
                by_method(
                    "epsilon_alpha",
                    "length of the path of contact between both tip circles, over the base pitch; least of all meshes",
                    thin.ratio,
                    "",
                    a=(thin.distance, "mm", f"centre distance of {one_word(thin)}"),
                    d_a1=(thin.tips[0], "mm", "tip circle of the first gear"),
                    d_a2=(thin.tips[1], "mm", "tip circle of the second gear"),
                )
            ],
            source="ISO 21771; 1.2 for hand-cut gears: common practice",
            reason=lambda i, say: f"{one_word(thin)} on {say(thin.distance, 'mm')}",
            fix=lambda i: _finer(machine, name, path) + _closed(name, path, meshes),
        ),
        make_check(
            machine,
            "gears",
            part,
            names[1],
            demand=0.1 * path.module,
            capacity=float(min(gaps)),
            unit="mm",
            working=lambda i: [
                worked(
                    "c = k*m",
                    0.1 * path.module,
                    "mm",
                    k=(0.1, "", "common practice"),
                    m=(path.module, "mm", f"paths.{name}.module"),
                ),
                by_method(
                    "c_a",
                    "centre distance less tip radius and mate's root radius; least of all meshes",
                    float(min(gaps)),
                    "mm",
                ),
            ],
            source="a quarter module as cut, a tenth left at least: common practice",
            reason=lambda i, say: f"least of {len(gaps)} gaps between tip and root",
            fix=lambda i: _closed(name, path, meshes) + _finer(machine, name, path),
        ),
        make_check(
            machine,
            "gears",
            part,
            names[2],
            demand=least,
            capacity=jammed.play,
            unit="mm",
            working=lambda i: [
                worked(
                    "j = k*m",
                    least,
                    "mm",
                    k=(0.02, "", "common practice"),
                    m=(path.module, "mm", f"paths.{name}.module"),
                )
            ],
            source="0.02 modules so that grease and warmth have room: common practice",
            reason=lambda i, say: (
                f"{one_word(jammed)} on {say(jammed.distance, 'mm')}, each tooth thinned {say(path.thinning, 'mm')}"
            ),
            fix=lambda i: [
                {f"paths.{name}.thinning": path.thinning + (least - jammed.play) / 2},
                *_closed(name, path, meshes),
            ],
        ),
        make_check(
            machine,
            "gears",
            part,
            names[3],
            demand=loose.play,
            capacity=most,
            unit="mm",
            working=lambda i: [
                worked(
                    "j = k*m + j_0",
                    most,
                    "mm",
                    k=(0.15, "", "common practice"),
                    j_0=(0.2, "mm", "common practice"),
                    m=(path.module, "mm", f"paths.{name}.module"),
                )
            ],
            source="0.15 modules and 0.2 mm, for a drive that reverses: common practice",
            reason=lambda i, say: (
                f"{one_word(loose)} on {say(loose.distance, 'mm')}, each tooth thinned {say(path.thinning, 'mm')}"
            ),
            fix=lambda i: (
                ([{f"paths.{name}.thinning": less}] if less >= 0 else [])
                + _closed(name, path, meshes)
                + _finer(machine, name, path)
            ),
        ),
    ]


def _shifted(name: str, path: GearPath, apart: float, place: int, shift: float) -> list[Change]:
    """Another profile shift for one gear, its mate's so that a pair keeps its distance."""
    shifts = list(shifts_of(path))
    shifts[place] = shift
    alone: list[Change] = [{f"paths.{name}.profile_shift_coefficients": list(shifts)}]
    if len(shifts) > 2:
        # gears of a train are often short of teeth together
        needed = np.ceil(1000 * spurgear.least_shift(np.array(path.tooth_counts))) / 1000
        return [
            *alone,
            {
                f"paths.{name}.profile_shift_coefficients": [
                    float(one) for one in np.maximum(needed, shifts)
                ]
            },
        ]
    first, second = path.tooth_counts
    total = float(mesh.shift_sum.formula(path.module, first, second, apart))
    if not np.isfinite(total):
        return alone
    shifts[1 - place] = round(total - shift, 4)
    return [{f"paths.{name}.profile_shift_coefficients": shifts}, *alone]


def _closed(name: str, path: GearPath, meshes: list[Pair]) -> list[Change]:
    """What closes a pair on its shafts, or takes the shifts of a train off."""
    if len(path.tooth_counts) > 2:
        return [{f"paths.{name}.profile_shift_coefficients": []}] if any(shifts_of(path)) else []
    one, found = meshes[0], []
    total = ideal_sum(path, one)
    if np.isfinite(total):
        half = round(total / 2, 4)
        found.append({f"paths.{name}.profile_shift_coefficients": [half, round(total - half, 4)]})
    one_count, other_count = path.tooth_counts
    closes = float(
        mesh.mesh_centre_distance.formula(path.module, one_count, other_count, sum(one.shifts))
    )
    plain = path.module * sum(path.tooth_counts) / 2
    teeth = round(2 * one.distance / path.module)
    first = round(teeth * path.tooth_counts[0] / sum(path.tooth_counts))
    return [
        *found,
        {
            f"paths.{name}.tooth_counts": [first, teeth - first],
            f"paths.{name}.profile_shift_coefficients": [],
        },
        *([{"housing.centre_distance": closes}] if np.isfinite(closes) else []),
        {f"paths.{name}.profile_shift_coefficients": [], "housing.centre_distance": plain},
    ]


def _finer(machine: LoadedMachine, name: str, path: GearPath) -> list[Change]:
    """More teeth of a smaller module on the same distance, the nearest three."""
    rows = resized(name, path, machine.spec.housing.centre_distance, machine.system)
    return [change for module, change in rows if module < path.module][:3]


def _coarser(machine: LoadedMachine, name: str, path: GearPath) -> list[Change]:
    """Fewer teeth of a larger module on the same distance, the nearest two."""
    rows = resized(name, path, machine.spec.housing.centre_distance, machine.system)
    return [change for module, change in rows if module > path.module][:2]


def _tick(machine: LoadedMachine, part: str, path: GearPath, meshes: list[Pair]) -> Check:
    """What form cutters at the ends of their range leave, felt at every tooth."""
    name, few = "tick of form-cut teeth", min(path.tooth_counts)
    apart, which = machine.spec.housing.centre_distance, part.split(maxsplit=1)[0]

    def smoother(_i: int = 0) -> list[Change]:
        if len(path.tooth_counts) > 2:
            return [one for _, one in resized(which, path, apart, machine.system)][:4]
        found = []
        for module, written, counts in pairs_on(
            apart, path.tooth_counts[0] / path.tooth_counts[1], machine.system
        ):
            for first in (counts[0], *range(counts[0] - 4, counts[0] + 5)):
                pair = (first, sum(counts) - first)
                if (
                    min(pair) >= FEWEST
                    and formcutter.hand_over_step(module, pair, apart) <= 0.05 * module
                ):
                    found.append(
                        (
                            abs(np.log(module / path.module)),
                            {
                                f"paths.{which}.module": written,
                                f"paths.{which}.tooth_counts": list(pair),
                                f"paths.{which}.profile_shift_coefficients": [],
                            },
                        )
                    )
                    break
        return [one for _, one in sorted(found, key=lambda one: one[0])[:3]]

    if few < FEWEST:
        why = f"a gear of {few} teeth cannot be form-cut; the cutters start at {FEWEST} teeth"
        return replace(make_unjudged(machine, "gears", part, name, why), fixes=smoother)
    near = [one for one in meshes if not np.isfinite(one.working)]
    if near:
        return replace(
            make_unjudged(machine, "gears", part, name, _too_near(near[0], machine.system)),
            fixes=lambda: _closed(which, path, meshes),
        )
    steps = [formcutter.hand_over_step(path.module, one.counts, one.distance) for one in meshes]
    worst = int(np.argmax(steps))
    return make_check(
        machine,
        "gears",
        part,
        name,
        demand=max(steps),
        capacity=0.05 * path.module,
        unit="mm",
        working=lambda i: [
            worked(
                "f = k*m",
                0.05 * path.module,
                "mm",
                k=(0.05, "", "common practice"),
                m=(path.module, "mm", f"paths.{which}.module"),
            )
        ],
        source="0.05 modules at walking pace: common practice; cutters made for the fewest teeth of their range",
        reason=lambda i, say: (
            f"{one_word(meshes[worst])}, cutters {' and '.join(str(formcutter.cutter_number(z)) for z in meshes[worst].counts)}"
        ),
        fix=smoother,
    )


def _interference(machine: LoadedMachine, part: str, path: GearPath, meshes: list[Pair]) -> Check:
    """Whether a tip reaches below the place where its mate's involute begins."""
    name, which, apart = (
        "no interference at the roots",
        part.split(maxsplit=1)[0],
        machine.spec.housing.centre_distance,
    )
    needs, gives = [], []
    for one in meshes:
        reach = one.distance * np.sin(np.radians(one.working))
        for i in (0, 1):
            base = spurgear.base_diameter.formula(path.module, one.counts[1 - i]) / 2
            gives.append(float(reach - np.sqrt(max((one.tips[1 - i] / 2) ** 2 - base**2, 0.0))))
            needs.append(float(spurgear.involute_start(path.module, one.counts[i], one.shifts[i])))
    near = [one for one in meshes if not np.isfinite(one.working)]
    if near:
        return replace(
            make_unjudged(machine, "gears", part, name, _too_near(near[0], machine.system)),
            fixes=lambda: _closed(which, path, meshes),
        )
    # an undercut flank begins above its base circle, where the cutter's tip left it: not known here
    least = int(np.argmin(needs))
    undercut = needs[least] < 0
    worst = least if undercut else int(np.argmin(np.array(gives) - np.array(needs)))
    mate, side = meshes[worst // 2], worst % 2
    place = path.tooth_counts.index(mate.counts[side])

    def fix(_i: int = 0) -> list[Change]:
        shift = float(np.ceil(1000 * spurgear.least_shift(mate.counts[side])) / 1000)
        return [
            *_shifted(which, path, apart, place, max(shift, mate.shifts[side] + 0.1)),
            *_shifted(which, path, apart, place, mate.shifts[side] + 0.25),
            *_finer(machine, which, path),
            *_closed(which, path, meshes),
        ]

    if undercut:
        why = f"the gear of {mate.counts[side]} teeth is undercut, so where its flank begins is not known"
        return replace(make_unjudged(machine, "gears", part, name, why), fixes=fix)
    return make_check(
        machine,
        "gears",
        part,
        name,
        demand=needs[worst],
        capacity=gives[worst],
        unit="mm",
        tight=1.0,
        working=lambda i: [
            by_method(
                "rho",
                "radius of curvature on the line of action at which contact of the worst gear starts",
                gives[worst],
                "mm",
                a=(mate.distance, "mm", f"centre distance of {one_word(mate)}"),
                alpha_w=(mate.working, "degree", "working pressure angle of this mesh"),
            )
        ],
        source="start of contact against start of the involute, along the line of action: ISO 21771 (from memory)",
        reason=lambda i, say: f"gear of {mate.counts[side]} teeth in {one_word(mate)}",
        fix=fix,
    )


def taken_out(spec: Spec, name: str, place: int, last: int, system: str) -> float:
    """Diameter in mm that bore, bush or keyway take out of a gear's middle.

    Parameters
    ----------
    spec : Spec
    name : str
        Of the path.
    place, last : int
        Of the gear along its path, and of the path's last gear.
    system : str
        Whose keys: ``"metric"`` or ``"inch"``.

    Returns
    -------
    float
    """
    bush = 2 * spec.bearings.bush_wall
    if 0 < place < last:
        return spec.housing.idler_pin + bush
    number = 1 if place == 0 else 2
    seat = shaft.section_at(getattr(spec, f"shaft_{number}"), getattr(spec.paths, name).position)
    if spec.clutch.shaft == number:
        return seat + bush
    return seat + 2 * hub_keyway(spec, seat, system)


def _rim(machine: LoadedMachine, name: str, path: GearPath) -> Check:
    """Metal between the teeth's roots and what is bored or cut out of a gear's middle."""
    rims = []
    for place, (count, shift) in enumerate(zip(path.tooth_counts, shifts_of(path), strict=True)):
        root = float(spurgear.root_diameter.formula(path.module, count, shift))
        taken = taken_out(machine.spec, name, place, len(path.tooth_counts) - 1, machine.system)
        rims.append(((root - taken) / 2, root, taken, count))
    least, root, taken, count = min(rims, key=lambda one: one[0])
    return make_check(
        machine,
        "gears",
        f"{name} path",
        "metal between teeth and bush or keyway",
        demand=RIM * path.module,
        capacity=least,
        unit="mm",
        tight=1.0,
        working=lambda i: [
            worked(
                "s_R = c*m",
                RIM * path.module,
                "mm",
                c=(RIM, "", "1.2 tooth heights: Shigley 10th ed., fig. 14-16 (from memory)"),
                m=(path.module, "mm", f"paths.{name}.module"),
            ),
            worked(
                "s = (d_f - d)/2",
                least,
                "mm",
                d_f=(root, "mm", "root circle of the gear"),
                d=(taken, "mm", "bored or cut out of the gear"),
            ),
        ],
        source="1.2 tooth heights: Shigley 10th ed., fig. 14-16, rim factor 1 (from memory)",
        reason=lambda i, say: (
            f"gear of {count} teeth: root {say(root, 'mm')}, bored or cut out to {say(taken, 'mm')}"
        ),
        fix=lambda i: [
            *_more_teeth(name, path, 2 * (RIM - least / path.module)),
            "bearings.bush_wall",
            "housing.idler_pin",
            *(f"shaft_{number}.diameter" for number in (1, 2)),
        ],
    )


def _more_teeth(name: str, path: GearPath, lacking: float) -> list[Change]:
    """Gears of so many teeth more at the same module; a pair keeps its sum and is only evened out."""
    more, counts = int(np.ceil(lacking)), list(path.tooth_counts)
    if len(counts) > 2:
        all_more = [count + more for count in counts]
        small = [max(count, min(counts) + more) for count in counts]
        return [{f"paths.{name}.tooth_counts": one} for one in (small, all_more) if max(one) <= 200]
    least, total = min(counts) + more, sum(counts)
    if 2 * least > total:
        return []
    evened = [least, total - least] if counts[0] < counts[1] else [total - least, least]
    return [{f"paths.{name}.tooth_counts": evened}]


def hub_keyway(spec: Spec, diameter: float, system: str) -> float:
    """Depth in mm of a keyway in a gear's bore, nought where gears are held without one.

    Beyond the table of keys it grows with the shaft as the table's last row has it.
    """
    if spec.hubs.gear != "key":
        return 0.0
    rows = [row.values for row in table("keys").only("series", system)]
    fits = [row for row in rows if row["above"] < diameter <= row["up_to"]]
    if fits:
        return float(fits[0]["hub_depth"])
    return float(max(row["hub_depth"] for row in rows) * max(diameter / rows[-1]["up_to"], 1.0))


def ideal_sum(path: GearPath, one: Pair) -> float:
    """Sum of shifts that closes a mesh on its distance."""
    return float(mesh.shift_sum.formula(path.module, *one.counts, one.distance))


def one_word(one: Pair) -> str:
    """Name a pair by its tooth counts."""
    return f"{one.counts[0]} and {one.counts[1]} teeth"


# most knobs leave a mesh as it is, and what a newton does to it
_stresses = lru_cache(maxsize=512)(lambda *given: frozen(toothstrength.mesh_stresses(*given)))


def _tangent_force(machine: LoadedMachine, path: GearPath) -> Array:
    """Force along the pitch circles in N over the states; the same in every mesh but for losses."""
    radius = path.module * path.tooth_counts[0] / 2
    return 1e3 * machine.power_flow.torque_into_gear_path / radius


def _strength(machine: LoadedMachine, name: str, path: GearPath, meshes: list[Pair]) -> list[Check]:
    part, here = f"{name} path", machine.load_cases.clutch == name
    names = (
        "teeth do not break while mixing",
        "teeth do not break in a jam",
        "teeth surfaces last",
    )
    near = [one for one in meshes if not np.isfinite(one.working)]
    if near:
        return [
            replace(
                make_unjudged(machine, "gears", part, one, _too_near(near[0], machine.system)),
                fixes=lambda: _closed(name, path, meshes),
            )
            for one in names
        ]
    force = _tangent_force(machine, path) * here
    material = table("gear_materials").find(path.material).values
    idler = table("gear_materials").find(path.idler_material).values
    limits = [material] + [idler] * (len(path.tooth_counts) - 2) + [material]
    cycles = life_cycles(machine)
    bending_life, contact_life = map(float, toothstrength.life_factors(cycles))
    root, surface = [], []
    for k, one in enumerate(meshes):
        elastic = toothstrength.elastic_factor(
            limits[k]["elastic_modulus"], limits[k + 1]["elastic_modulus"]
        )
        stresses, contact = _stresses(
            path.module,
            one.counts,
            one.shifts,
            tuple(one.tips),
            one.distance,
            one.ratio,
            path.face_width,
            float(elastic),
            path.thinning,
        )
        for i, stress in enumerate(stresses):
            limit = limits[k + i]["bending_limit"] * toothstrength.STRESSING
            root.append((float(stress) / limit, float(stress), limit, one.counts[i]))
        limit = min(limits[k]["contact_limit"], limits[k + 1]["contact_limit"])
        surface.append((float(contact) / limit, float(contact), limit, one))
    bent, touched = max(root, key=_share), max(surface, key=_share)
    if not all(np.isfinite(one[0]) for one in (bent, touched)):
        few = min(path.tooth_counts)
        why = f"the form factors of ISO 6336-3 do not reach a gear of {few} teeth with this shift and thinning"
        return [
            replace(
                make_unjudged(machine, "gears", part, one, why),
                fixes=lambda: [f"paths.{name}.thinning", *_finer(machine, name, path)],
            )
            for one in names
        ]
    reversing = toothstrength.REVERSED
    # the load factors are those of walking pace; Barth's takes over where the pitch line runs faster
    dynamic = toothstrength.HAND_CUT.dynamic
    speed = pitch_speed(machine, path)
    faster = max(float(toothstrength.velocity_factor.formula(speed)) / dynamic, 1.0)
    safety = machine.spec.safety
    allowed = touched[2] * contact_life
    felt = touched[1] * np.sqrt(force * faster)
    jam = force / toothstrength.HAND_CUT.application
    turning = [
        _bending_check(
            machine,
            name,
            path,
            force * faster,
            bent,
            "while mixing",
            machine.load_cases.mixing & here,
            bent[2] * reversing * bending_life,
            safety.tooth_bending,
            f"loaded both ways x {reversing:g}, {cycles:.2g} loads",
        ),
        make_check(
            machine,
            "gears",
            part,
            names[2],
            where=machine.load_cases.mixing & here,
            demand=felt,
            capacity=allowed,
            unit="MPa",
            safety=safety.tooth_contact,
            working=lambda i: [
                by_method(
                    "sigma_H",
                    "contact stress of a newton by ISO 6336-2, times the root of the force along the pitch circle and of what speed adds; greatest of all meshes",
                    float(felt[i]),
                    "MPa",
                    F_t=(
                        float(force[i]),
                        "N",
                        "power flow, torque into the gear path over the pitch radius",
                    ),
                ),
                worked(
                    "sigma_HP = Z_N*sigma_Hlim",
                    float(allowed),
                    "MPa",
                    Z_N=(contact_life, "", "life factor for the loads of the machine's life"),
                    sigma_Hlim=(
                        touched[2],
                        "MPa",
                        "data/tables/gear_materials.csv: contact limit, the lesser of both gears",
                    ),
                ),
            ],
            source="ISO 6336-2 method B with K factors stated; limits ISO 6336-5 (from memory)",
            reason=lambda i, say: (
                f"{one_word(touched[3])}, Ft = {say(force[i], 'N')}, K = {toothstrength.LOAD_FACTOR * faster:.2f}, {cycles:.2g} loads x {contact_life:.2f}; "
                f"at {speed:.2g} m/s metal touches metal: {material['lubrication']}"
            ),
            fix=lambda i: _lasting(
                machine,
                name,
                path,
                i,
                (felt[i] * safety.tooth_contact / allowed) ** 2,
                "contact_limit",
            ),
        ),
    ]
    if not cycles > 0:
        why = "shaft 1 does not turn at the frequency the motor is fed with, so no life can be reckoned"
        turning = [
            replace(make_unjudged(machine, "gears", part, one, why), fixes=lambda: ["motor.run_at"])
            for one in (names[0], names[2])
        ]
    return [
        turning[0],
        _bending_check(
            machine,
            name,
            path,
            jam,
            bent,
            "in a jam",
            machine.load_cases.jammed & here,
            bent[2] * toothstrength.STATIC,
            safety.shaft_in_jam,
            f"static x {toothstrength.STATIC:g}",
            (1.0, 1.2),
        ),
        turning[1],
    ]


def _share(one: tuple[Any, ...]) -> float:
    """Stress over limit of a row; what cannot be worked out governs all that can."""
    return np.inf if np.isnan(one[0]) else float(one[0])


def _lasting(
    machine: LoadedMachine, name: str, path: GearPath, i: int, over: float, column: str
) -> list[Change]:
    """What lets teeth carry so many times their load: wider, harder, coarser, or less of it."""
    spec, over = machine.spec, float(over)
    other = spec.paths.idler if name == "direct" else spec.paths.direct
    # a gear must stay between the plates, and off its neighbour
    room = _between_plates(spec, path)
    room = min(room, 2 * abs(path.position - other.position) - other.face_width)
    wide = f"paths.{name}.face_width"
    fields = (f"paths.{name}.material", f"paths.{name}.idler_material")[
        : len(path.tooth_counts) - 1
    ]
    # contact stress goes with the square root of the force
    power = 1.0 if column == "bending_limit" else 2.0
    found: list[Change] = []
    if path.face_width * over < room:
        found.append({wide: path.face_width * over})
    if over > 0:
        found += stronger(fields, path.material, "gear_materials", (column,), over ** (1 / power))
    has = table("gear_materials").find(path.material).values[column]
    for change in stronger(fields, path.material, "gear_materials", (column,), 1.0)[-1:]:
        better = table("gear_materials").find(str(change[fields[0]])).values[column] / has
        left = over / better**power
        if left > 1 and path.face_width * left < room:
            found.append({**change, wide: path.face_width * left})
    return [
        *found,
        *calmer(machine, i, over),
        *_coarser(machine, name, path),
        *(LIGHTER if machine.load_cases.mixing[i] else ()),
    ]


def pitch_speed(machine: LoadedMachine, path: GearPath) -> float:
    """Speed of the pitch line in m/s while mixing."""
    return pi * path.module * path.tooth_counts[0] * machine.running_speed / 60e3


def _bending_check(
    machine: LoadedMachine,
    name: str,
    path: GearPath,
    force: Array,
    bent: tuple[float, float, float, int],
    when: str,
    where: Flags,
    allowed: float,
    safety: float,
    how: str,
    rung: tuple[float, float] | None = None,
) -> Check:
    stress = bent[1] * force
    return make_check(
        machine,
        "gears",
        f"{name} path",
        f"teeth do not break {when}",
        where=where,
        demand=stress,
        capacity=allowed,
        unit="MPa",
        safety=safety,
        working=lambda i: [
            worked(
                "sigma_F = y*F_t",
                float(stress[i]),
                "MPa",
                y=(bent[1], "mm**-2", "root stress of a newton: ISO 6336-3 method B"),
                F_t=(
                    float(force[i]),
                    "N",
                    "torque into the gear path over the pitch radius, times the speed factor while mixing, over the application factor in a jam",
                ),
            )
        ],
        source=_ISO,
        rung=rung,
        reason=lambda i, say: (
            f"gear of {bent[3]} teeth thinned {say(path.thinning, 'mm')}, Ft = {say(force[i], 'N')}, "
            f"face {say(path.face_width, 'mm')}; limit {how}"
        ),
        fix=lambda i: [
            *_lasting(machine, name, path, i, stress[i] * safety / allowed, "bending_limit"),
            f"paths.{name}.thinning",
        ],
    )


def idler_leans(spec: Spec) -> tuple[float, float]:
    """Working pressure angles in degrees of the first and last mesh of the idler's path."""
    meshes = pairs(spec.paths.idler, spec.housing.centre_distance)
    return meshes[0].working, meshes[-1].working


def idler_centre(spec: Spec) -> tuple[float, float, list[float]]:
    """Place of the first idler in mm, shaft 1 at the origin, and the mesh distances of its path.

    The place aside is not a number where the meshes do not close.
    """
    distances = mesh_distances(spec.paths.idler, spec.housing.centre_distance)
    along, aside = mesh.idler_place.formula(
        spec.housing.centre_distance, distances[0], sum(distances[1:])
    )
    side = 1.0 if spec.housing.idler_side == "above" else -1.0
    return float(along), side * float(aside), distances


def idler_forces(machine: LoadedMachine, side: float | None = None) -> Array:
    """Force on the idler's pin in N over the states, by vector sum of both tooth forces.

    Parameters
    ----------
    machine : LoadedMachine
    side : float, optional
        1 for above the line of the shafts and -1 for below; the design's own, if not given.

    Returns
    -------
    numpy.ndarray
        Both meshes carry the same tangential force; which way it points turns with the motor.
    """
    spec = machine.spec
    path = spec.paths.idler
    x, y, _ = idler_centre(spec)
    y = abs(y) * (side if side is not None else np.sign(y))
    first = np.array([-x, -y])
    second = np.array([spec.housing.centre_distance - x, -y])
    total = np.zeros((len(machine.load_cases), 2))
    force = spurgear.tooth_force.formula(
        machine.power_flow.torque_into_gear_path, path.module * path.tooth_counts[0]
    )
    force = force * (machine.load_cases.clutch == "idler")
    for number, (towards, angle) in enumerate(zip((first, second), idler_leans(spec), strict=True)):
        line = towards / np.hypot(*towards)
        across = np.array([-line[1], line[0]])
        # seen from the idler, a driver turning forward moves against "across" where they touch and
        # takes the idler along; the driven gear holds it back
        way = -machine.load_cases.direction if number == 0 else machine.load_cases.direction
        lean = np.radians(angle)
        total += force[:, None] * (np.outer(way * np.cos(lean), across) - np.sin(lean) * line)
    return np.hypot(total[:, 0], total[:, 1])


def reaching(spec: Spec) -> list[Change]:
    """Gears with which an idler that has no place may find one."""
    path, apart = spec.paths.idler, spec.housing.centre_distance
    first, middle, last = path.tooth_counts
    span = sum(mesh_distances(path, apart))
    lacking = 1.02 * apart - span if np.isfinite(span) else path.module
    more = max(int(np.ceil(lacking / path.module)), 1)
    # where the meshes span enough, they are too unlike: the ends are made alike
    mean = round((first + last) / 2)
    alike: list[Change] = (
        [{"paths.idler.tooth_counts": [mean, middle, mean]}] if lacking <= 0 else []
    )
    return [
        *alike,
        {"paths.idler.tooth_counts": [first, middle + more, last]},
        {"paths.idler.tooth_counts": [first + more, middle, last + more]},
        {"paths.idler.profile_shift_coefficients": []},
    ]


def _idler(machine: LoadedMachine) -> list[Check]:
    spec = machine.spec
    x, y, distances = idler_centre(spec)
    names = (
        "idler clears shafts and hubs",
        "idler's pin clears the direct pair",
        "idler stays inside the case",
        "idler's pin does not yield in a jam",
    )
    path, direct, gap = spec.paths.idler, spec.paths.direct, spec.safety.tip_clearance
    first, middle, last = path.tooth_counts
    if not np.isfinite(y):
        say = [
            show(one, "mm", machine.system)
            for one in (sum(distances), spec.housing.centre_distance)
        ]
        why = f"the idler has no place: its meshes span {say[0]} where the shafts stand {say[1]} apart"
        return [
            replace(
                make_unjudged(machine, "gears", "idler", one, why), fixes=lambda: reaching(spec)
            )
            for one in names
        ]
    tip = float(spurgear.tip_diameter.formula(path.module, middle, shifts_of(path)[1])) / 2
    pin = spec.housing.idler_pin
    force = idler_forces(machine)
    moment = np.asarray(shaft.span_moment.formula(force, path.position, spec.housing.plate_spacing))
    stress = np.asarray(shaft.bending_stress.formula(moment, pin))
    steel = table("materials").find(spec.shaft_1.material).values
    strength = steel["yield_strength"]
    in_jam = spec.safety.shaft_in_jam
    other = (
        np.asarray(
            spurgear.tip_diameter.formula(
                direct.module, np.array(direct.tooth_counts), np.array(shifts_of(direct))
            )
        )
        / 2
    )
    second = float(np.hypot(spec.housing.centre_distance - x, y))
    to_pin = min(distances[0] - other[0], second - other[-1]) - pin / 2
    hub = spec.housing.hub_diameter
    to_shaft = (
        min(
            distances[0] - max(spec.shaft_1.diameter, hub) / 2,
            second - max(spec.shaft_2.diameter, hub) / 2,
        )
        - tip
    )

    def smaller_idlers() -> list[Change]:
        for count in range(middle - 1, FEWEST - 1, -1):
            reach = [path.module * (end + count) / 2 for end in (first, last)]
            _, aside = mesh.idler_place.formula(spec.housing.centre_distance, *reach)
            if aside + path.module * (count + 2) / 2 + gap <= spec.housing.wall_distance:
                return [{"paths.idler.tooth_counts": [first, count, last]}]
        return []

    def thicker(i: int) -> list[Change]:
        over = float(stress[i] * in_jam / strength)
        return [
            {"housing.idler_pin": pin * float(np.cbrt(over))},
            *calmer(machine, i, over),
            *stronger(
                ("shaft_1.material",),
                spec.shaft_1.material,
                "materials",
                ("yield_strength",),
                over,
            ),
            "housing.plate_spacing",
        ]

    # the idler's own size adds as much to its tip as to its distance: only hubs and shaft gears tell
    lacking = gap - float(to_shaft)
    more = int(np.ceil(2 * lacking / path.module))
    apart = int(np.ceil(2 * (gap - float(to_pin)) / path.module))
    return [
        make_check(
            machine,
            "gears",
            "idler",
            names[0],
            demand=gap,
            capacity=float(to_shaft),
            unit="mm",
            working=lambda i: [
                by_method(
                    "s",
                    "distance of the idler from both shafts, less its tip radius and that of shaft or hub; the lesser",
                    float(to_shaft),
                    "mm",
                    r_a=(tip, "mm", "tip radius of the idler"),
                )
            ],
            source="geometry",
            reason=lambda i, say: f"tip radius {say(tip, 'mm')}, mesh {say(distances[0], 'mm')}",
            fix=lambda i: [
                {"housing.hub_diameter": hub - 2 * lacking},
                {"paths.idler.tooth_counts": [first + more, middle, last + more]},
                *_coarser(machine, "idler", path),
                "shaft_1.diameter",
                "shaft_2.diameter",
            ],
        ),
        make_check(
            machine,
            "gears",
            "idler",
            names[1],
            demand=gap,
            capacity=float(to_pin),
            unit="mm",
            working=lambda i: [
                by_method(
                    "s",
                    "distance of the pin from both gears of the direct pair, less tip radius and half the pin; the lesser",
                    float(to_pin),
                    "mm",
                    d=(pin, "mm", "housing.idler_pin"),
                )
            ],
            source="the pin passes the plane of the other path: geometry",
            reason=lambda i, say: (
                f"pin {say(pin, 'mm')}, direct gears' tip radii {say(other[0], 'mm')} and {say(other[-1], 'mm')}"
            ),
            fix=lambda i: [
                {"paths.idler.tooth_counts": [first, middle + apart, last]},
                {"housing.idler_pin": pin - 2 * (gap - float(to_pin))},
                *_finer(machine, "direct", direct),
                *_coarser(machine, "idler", path),
            ],
        ),
        make_check(
            machine,
            "gears",
            "idler",
            names[2],
            demand=abs(y) + tip + gap,
            capacity=spec.housing.wall_distance,
            unit="mm",
            working=lambda i: [
                worked(
                    "h = y + r_a + s",
                    abs(y) + tip + gap,
                    "mm",
                    y=(abs(y), "mm", "place of the idler off the shafts' line"),
                    r_a=(tip, "mm", "tip radius of the idler"),
                    s=(gap, "mm", "safety.tip_clearance"),
                )
            ],
            source="geometry",
            reason=lambda i, say: (
                f"idler {say(abs(y), 'mm')} {spec.housing.idler_side} the shafts' line, tip radius {say(tip, 'mm')}"
            ),
            fix=lambda i: [{"housing.wall_distance": float(abs(y) + tip + gap)}, *smaller_idlers()],
        ),
        make_check(
            machine,
            "gears",
            "idler",
            names[3],
            where=machine.load_cases.jammed,
            demand=stress,
            capacity=strength,
            unit="MPa",
            safety=in_jam,
            working=lambda i: [
                by_method(
                    "M",
                    "vector sum of both tooth forces on a pin held at both plates",
                    float(moment[i]),
                    "N*m",
                    F=(float(force[i]), "N", "tooth forces on the idler"),
                ),
                worked(
                    "sigma = 32*M/(pi*d**3)",
                    float(stress[i]),
                    "MPa",
                    M=(float(moment[i]), "N*m", "above"),
                    d=(pin, "mm", "housing.idler_pin"),
                ),
            ],
            source="vector sum of both tooth forces; Shigley 10th ed., eq. 3-26",
            rung=(1.0, steel["tensile_strength"] / strength),
            reason=lambda i, say: (
                f"{say(force[i], 'N')} on the pin, M = {say(moment[i], 'N*m')}, steel of shaft 1"
            ),
            fix=thicker,
        ),
    ]
