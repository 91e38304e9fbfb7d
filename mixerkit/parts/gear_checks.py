"""The gears of both paths: do they mesh, can they be cut sound, will the teeth last, the idler's pin."""

from __future__ import annotations

import numpy as np

from mixerkit.checking import make_check
from mixerkit.checks import Change, Check
from mixerkit.parts import gear_workings, idler_checks, mesh_checks, spurgear, tick_checks
from mixerkit.parts.gear_body_checks import plates, rim
from mixerkit.parts.tooth_checks import strength
from mixerkit.parts.toothed import Toothed
from mixerkit.parts.undercut import least_shift, undercut_tooth_count
from mixerkit.parts.worked import WorkedMachine

__all__ = ["checks", "geometry_checks"]

_POINTED = 0.2


def checks(machine: WorkedMachine) -> list[Check]:
    """Check geometry and strength of both paths and the idler's pin.

    Parameters
    ----------
    machine : WorkedMachine

    Returns
    -------
    list of Check
    """
    found = []
    for name in ("direct", "idler"):
        of = Toothed.of(machine, name)
        found += [
            *geometry_checks(of),
            plates(machine, name, of.path),
            *strength(of, machine.shaft_beams),
        ]
    return found + idler_checks.checks(machine)


def geometry_checks(of: Toothed) -> list[Check]:
    """Check whether a path's gears can be cut sound and mesh, whatever they carry.

    Parameters
    ----------
    of : Toothed

    Returns
    -------
    list of Check
    """
    return [
        _not_undercut(of),
        _not_pointed(of),
        tick_checks.tick(of),
        mesh_checks.interference(of),
        rim(of.machine, of.name, of.path),
        *mesh_checks.meshing(of),
    ]


def _not_undercut(of: Toothed) -> Check:
    """Whether the cutter leaves the foot of the teeth sound."""
    counts = np.array(of.counts)
    needed = np.asarray(undercut_tooth_count(np.array(of.shifts)))
    # with a shift of a whole module and more any count will do
    worst = int(np.argmin(counts / np.maximum(needed, 1e-9)))
    least = float(needed[worst])
    return make_check(
        of.machine,
        "gears",
        of.part,
        "no undercut",
        demand=least,
        capacity=float(counts[worst]),
        unit="",
        tight=1.0,
        working=lambda i: [gear_workings.undercut(of, worst, least)],
        source="z = 2 (1 - x) / sin^2 a; any gear handbook",
        reason=lambda i, say: (
            f"a gear of {counts[worst]} teeth with a shift of {of.shifts[worst]:g}"
        ),
        fix=lambda i: [
            *of.shifted(worst, float(np.ceil(1000 * least_shift(counts[worst])) / 1000)),
            *of.finer(),
        ],
    )


def _not_pointed(of: Toothed) -> Check:
    """Whether the tips keep some thickness."""
    path, least = of.path, _POINTED * of.path.module
    tips = np.asarray(
        spurgear.thinned_tip(path.module, np.array(of.counts), np.array(of.shifts), path.thinning)
    )
    pointed = int(tips.argmin())
    tip = float(tips[pointed])

    def fix(_i: int) -> list[Change]:
        shift = of.shifts[pointed]
        less = [
            one for share in (0.6, 0.3, 0.0) for one in of.shifted(pointed, round(share * shift, 3))
        ]
        return [*less, of.field("thinning"), *of.finer()]

    return make_check(
        of.machine,
        "gears",
        of.part,
        "tips are not pointed",
        demand=least,
        capacity=tip,
        unit="mm",
        working=lambda i: [
            gear_workings.of_modules(of, "s", _POINTED),
            gear_workings.pointed(of, pointed, tip),
        ],
        source="0.2 modules: common practice",
        reason=lambda i, say: (
            f"thinnest tip of a gear of {of.counts[pointed]} teeth, each thinned {say(path.thinning, 'mm')}"
        ),
        fix=fix,
    )
