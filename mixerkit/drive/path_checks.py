"""Whether the wheels of both gear paths fit between the shafts."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from mixerkit.checking import make_check
from mixerkit.checks import Change, Check
from mixerkit.drive import path_workings
from mixerkit.parts import mesh, spurgear
from mixerkit.parts.gear_pairs import mesh_distances, shifts_of
from mixerkit.results import LoadedMachine
from mixerkit.spec import GearPath

__all__ = ["checks"]


def checks(machine: LoadedMachine) -> list[Check]:
    """Check that both paths fit on the shafts' centre distance.

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
        if len(path.tooth_counts) == 2:
            first, last = path.tooth_counts
            closes = mesh.mesh_centre_distance.formula(
                path.module, first, last, sum(shifts_of(path))
            )
            found.append(_pair_fits(machine, name, path, float(closes)))
        else:
            distances = mesh_distances(path, machine.spec.housing.centre_distance)
            found += [
                _idler_reaches(machine, name, path, distances),
                _tips_clear(machine, name, path),
            ]
    return found


def _pair_fits(machine: LoadedMachine, name: str, path: GearPath, standard: float) -> Check:
    wanted, allowed = machine.spec.housing.centre_distance, 0.02 * path.module
    off = round(abs(wanted - standard), 9)
    return make_check(
        machine,
        "gear paths",
        f"{name} path",
        "teeth fit the centre distance",
        demand=off,
        capacity=allowed,
        unit="mm",
        working=lambda i: path_workings.pair_closes(machine, path, name, standard, off, allowed),
        source="a = m (z1 + z2) / 2, opened or closed by the profile shifts, ISO 21771; 0.02 m either way: common practice",
        reason=lambda i, say: (
            f"{say(path.module, 'mm')} x ({path.tooth_counts[0]} + {path.tooth_counts[1]}) / 2, shifts "
            f"{sum(shifts_of(path)):.3g}: closes on {say(standard, 'mm')}; the shafts are {say(wanted, 'mm')} apart"
        ),
        fix=lambda i: _closings(name, path, wanted, standard),
    )


def _closings(name: str, path: GearPath, wanted: float, standard: float) -> list[Change]:
    """Counts, distance or shifts with which a pair may close on its shafts."""
    first, last = path.tooth_counts
    found: list[Change] = []
    total = round(2 * wanted / path.module - 2 * sum(shifts_of(path)))
    if total != first + last:
        one = round(total * first / (first + last))
        found.append({f"paths.{name}.tooth_counts": [one, total - one]})
    if np.isfinite(standard):
        found.append({"housing.centre_distance": standard})
    shifts = float(mesh.shift_sum.formula(path.module, first, last, wanted))
    if np.isfinite(shifts):
        # three decimals of a module move the distance by less than a hundredth of what is allowed
        found.append({f"paths.{name}.profile_shift_coefficients": [round(shifts / 2, 3)] * 2})
    return found


def _idler_reaches(
    machine: LoadedMachine, name: str, path: GearPath, distances: list[float]
) -> Check:
    wanted, reach = machine.spec.housing.centre_distance, sum(distances)
    missing = 1.02 * wanted - reach
    # one more tooth on an idler lengthens both of its meshes by half a module each
    more = int(np.ceil(missing / path.module)) if missing > 0 else 0
    counts = f"paths.{name}.tooth_counts"
    return make_check(
        machine,
        "gear paths",
        f"{name} path",
        "idler reaches both shafts",
        demand=wanted,
        capacity=reach,
        unit="mm",
        working=lambda i: path_workings.idler_reach(distances, reach),
        safety=1.02,
        source="triangle of the centres; 2 % to keep the idler beside the line: common practice",
        reason=lambda i, say: f"mesh distances {' + '.join(say(one, 'mm') for one in distances)}",
        fix=lambda i: [
            {counts: _grown(path.tooth_counts, 0, more)},
            {counts: _grown(path.tooth_counts, more, 0)},
            f"paths.{name}.module",
        ],
    )


def _grown(counts: Sequence[int], ends: int, idler: int) -> list[int]:
    """Counts with so many teeth more on each shaft's gear and on the first idler."""
    first, second, *rest, last = counts
    return [first + ends, second + idler, *rest, last + ends]


def _tips_clear(machine: LoadedMachine, name: str, path: GearPath) -> Check:
    wanted, gap = machine.spec.housing.centre_distance, machine.spec.safety.tip_clearance
    first, last = path.tooth_counts[0], path.tooth_counts[-1]
    shifts = shifts_of(path)
    ends = ((first, shifts[0]), (last, shifts[-1]))
    tips = sum(float(spurgear.tip_diameter.formula(path.module, *end)) for end in ends) / 2
    # a tooth less on each of them draws both tips in by half a module, and both meshes, which the idler makes good
    fewer = int(np.ceil((tips + gap - wanted) / path.module))
    counts = f"paths.{name}.tooth_counts"
    return make_check(
        machine,
        "gear paths",
        f"{name} path",
        "shaft gears clear each other",
        demand=tips + gap,
        capacity=wanted,
        unit="mm",
        working=lambda i: path_workings.tips_apart(machine, path, name, tips + gap),
        source="tip diameters m (z + 2 + 2 x), ISO 53 profile A",
        reason=lambda i, say: f"tip radii add up to {say(tips, 'mm')}, gap wanted {say(gap, 'mm')}",
        fix=lambda i: [
            {counts: _grown(path.tooth_counts, -fewer, 0)},
            {counts: _grown(path.tooth_counts, -fewer, fewer)},
            {"housing.centre_distance": tips + gap},
            f"paths.{name}.module",
        ],
    )
