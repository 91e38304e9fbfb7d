"""The gears of both paths: do they mesh, can they be cut sound, will the teeth last, the idler's pin."""

from __future__ import annotations

from dataclasses import replace

import numpy as np

from mixerkit.checking import make_check, make_unjudged
from mixerkit.checks import Check
from mixerkit.parts import (
    spurgear,
    undercut,
)
from mixerkit.parts.gear_body_checks import plates, rim
from mixerkit.parts.gear_pairs import Pair, pairs, shifts_of
from mixerkit.parts.idler_checks import idler
from mixerkit.parts.mesh_checks import closed, finer, interference, meshing, shifted, tick, too_near
from mixerkit.parts.tooth_checks import strength
from mixerkit.results import LoadedMachine
from mixerkit.spec import GearPath
from mixerkit.working import worked

__all__ = ["checks", "geometry_checks"]


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
        found += [*geometry_checks(machine, name, path, meshes), plates(machine, name, path)]
        found += strength(machine, name, path, meshes)
    return found + idler(machine)


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
    needed = np.asarray(undercut.undercut_tooth_count(np.array(shifts)))
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
                shifted(
                    name,
                    path,
                    apart,
                    worst,
                    float(np.ceil(1000 * undercut.least_shift(counts[worst])) / 1000),
                )
                + finer(machine, name, path)
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
                    for one in shifted(name, path, apart, pointed, round(less * shifts[pointed], 3))
                ]
                + [f"paths.{name}.thinning", *finer(machine, name, path)]
            ),
        ),
        tick(machine, part, path, meshes),
        interference(machine, part, path, meshes),
        rim(machine, name, path),
    ]
    names = (
        "teeth overlap (contact ratio)",
        "tips clear the roots",
        "backlash is enough",
        "backlash is not too much",
    )
    apart_too_little = [one for one in meshes if not np.isfinite(one.working)]
    if apart_too_little:
        why = too_near(apart_too_little[0], machine.system)
        return found + [
            replace(
                make_unjudged(machine, "gears", part, one, why),
                fixes=lambda: closed(name, path, meshes),
            )
            for one in names
        ]
    return found + meshing(machine, name, path, meshes, names)
