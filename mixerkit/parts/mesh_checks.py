"""Whether the teeth of a path mesh: contact, backlash, tips, tick and interference."""

from __future__ import annotations

from dataclasses import replace

import numpy as np

from mixerkit.checking import make_check, make_unjudged
from mixerkit.checks import Change, Check
from mixerkit.parts import (
    formcutter,
    mesh,
    spurgear,
    undercut,
)
from mixerkit.parts.gear_pairs import Pair, ideal_sum, one_word, shifts_of
from mixerkit.parts.remedies import FEWEST, pairs_on, resized
from mixerkit.results import LoadedMachine
from mixerkit.spec import GearPath
from mixerkit.units import show
from mixerkit.working import by_method, worked

__all__ = ["closed", "coarser", "finer", "interference", "meshing", "shifted", "tick", "too_near"]


def too_near(one: Pair, system: str) -> str:
    """Say that a pair has no place to mesh."""
    at = show(one.distance, "mm", system)
    return f"gears of {one_word(one)} cannot mesh as near as {at}: their base circles overlap"


def meshing(
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
            fix=lambda i: finer(machine, name, path) + closed(name, path, meshes),
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
            fix=lambda i: closed(name, path, meshes) + finer(machine, name, path),
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
                *closed(name, path, meshes),
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
                + closed(name, path, meshes)
                + finer(machine, name, path)
            ),
        ),
    ]


def shifted(name: str, path: GearPath, apart: float, place: int, shift: float) -> list[Change]:
    """Another profile shift for one gear, its mate's so that a pair keeps its distance."""
    shifts = list(shifts_of(path))
    shifts[place] = shift
    alone: list[Change] = [{f"paths.{name}.profile_shift_coefficients": list(shifts)}]
    if len(shifts) > 2:
        # gears of a train are often short of teeth together
        needed = np.ceil(1000 * undercut.least_shift(np.array(path.tooth_counts))) / 1000
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


def closed(name: str, path: GearPath, meshes: list[Pair]) -> list[Change]:
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


def finer(machine: LoadedMachine, name: str, path: GearPath) -> list[Change]:
    """More teeth of a smaller module on the same distance, the nearest three."""
    rows = resized(name, path, machine.spec.housing.centre_distance, machine.system)
    return [change for module, change in rows if module < path.module][:3]


def coarser(machine: LoadedMachine, name: str, path: GearPath) -> list[Change]:
    """Fewer teeth of a larger module on the same distance, the nearest two."""
    rows = resized(name, path, machine.spec.housing.centre_distance, machine.system)
    return [change for module, change in rows if module > path.module][:2]


def tick(machine: LoadedMachine, part: str, path: GearPath, meshes: list[Pair]) -> Check:
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
            make_unjudged(machine, "gears", part, name, too_near(near[0], machine.system)),
            fixes=lambda: closed(which, path, meshes),
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


def interference(machine: LoadedMachine, part: str, path: GearPath, meshes: list[Pair]) -> Check:
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
            needs.append(float(undercut.involute_start(path.module, one.counts[i], one.shifts[i])))
    near = [one for one in meshes if not np.isfinite(one.working)]
    if near:
        return replace(
            make_unjudged(machine, "gears", part, name, too_near(near[0], machine.system)),
            fixes=lambda: closed(which, path, meshes),
        )
    # an undercut flank begins above its base circle, where the cutter's tip left it: not known here
    least = int(np.argmin(needs))
    cut_away = needs[least] < 0
    worst = least if cut_away else int(np.argmin(np.array(gives) - np.array(needs)))
    mate, side = meshes[worst // 2], worst % 2
    place = path.tooth_counts.index(mate.counts[side])

    def fix(_i: int = 0) -> list[Change]:
        shift = float(np.ceil(1000 * undercut.least_shift(mate.counts[side])) / 1000)
        return [
            *shifted(which, path, apart, place, max(shift, mate.shifts[side] + 0.1)),
            *shifted(which, path, apart, place, mate.shifts[side] + 0.25),
            *finer(machine, which, path),
            *closed(which, path, meshes),
        ]

    if cut_away:
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
