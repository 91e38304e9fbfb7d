"""Teeth as thin as they were measured: what that makes of the backlash of each mesh."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from itertools import pairwise

from mixerkit.parts import measuring, mesh
from mixerkit.parts.gear_pairs import Pair, one_word, pairs, shifts_of
from mixerkit.shop.blanks import GEARS, gears
from mixerkit.spec import GearPath, Spec

__all__ = ["MOST", "Thinned", "loosest", "thinned"]

MOST = 2.0
"""Most thinning in mm that a design file may say."""


@dataclass(frozen=True)
class Thinned:
    """Off the circular tooth thickness of a path's gears as measured, in mm; as drawn where one is not.

    Attributes
    ----------
    loose, tight : float
        Mean of both gears of the mesh that has most, and least, taken off.
    thinnest : float
        Of the gear that has most taken off.
    """

    loose: float
    tight: float
    thinnest: float


def thinned(spec: Spec, sizes: Mapping[str, float]) -> dict[str, Thinned]:
    """Tell how thin teeth are by path, of those paths of which a base tangent is measured.

    Parameters
    ----------
    spec : Spec
        As drawn.
    sizes : mapping
        Measured sizes in mm by dotted name.

    Returns
    -------
    dict of str to Thinned
    """
    found = {}
    for path_name in ("direct", "idler"):
        measured = _measured(spec, path_name, sizes)
        if measured:
            off = _off_each(getattr(spec.paths, path_name), measured)
            means = [(one + other) / 2 for one, other in pairwise(off)]
            found[path_name] = Thinned(max(means), min(means), max(off))
    return found


def loosest(
    spec: Spec, path_name: str, sizes: Mapping[str, float], apart: float | None = None
) -> tuple[float, str]:
    """Backlash in mm of the loosest mesh of a path with its teeth as measured, and which mesh that is.

    Parameters
    ----------
    spec : Spec
    path_name : str
        ``"direct"`` or ``"idler"``.
    sizes : mapping
        Measured sizes in mm by dotted name.
    apart : float, optional
        Distance of the shafts in mm; as drawn, if not given.

    Returns
    -------
    tuple of (float, str)
    """
    path: GearPath = getattr(spec.paths, path_name)
    off = _off_each(path, _measured(spec, path_name, sizes))
    meshes = pairs(path, spec.housing.centre_distance if apart is None else apart)
    plays = [(_play(path, one, off[k] + off[k + 1]), one_word(one)) for k, one in enumerate(meshes)]
    return max(plays)


def _play(path: GearPath, one: Pair, both: float) -> float:
    return float(
        mesh.backlash.formula(path.module, *one.counts, sum(one.shifts), one.distance, both)
    )


def _measured(spec: Spec, path_name: str, sizes: Mapping[str, float]) -> dict[int, float]:
    """Thinning in mm of each gear of a path that is measured, by its place."""
    path: GearPath = getattr(spec.paths, path_name)
    found = {}
    for gear in gears(spec):
        of, place = GEARS[gear]
        size = sizes.get(f"gears.{gear}.base_tangent")
        if of == path_name and size is not None:
            count, shift = path.tooth_counts[place], shifts_of(path)[place]
            spanned = int(measuring.base_tangent_teeth(count, shift))
            thin = measuring.thinning_from_base_tangent(size, path.module, count, spanned, shift)
            found[place % len(path.tooth_counts)] = min(max(float(thin), 0.0), MOST)
    return found


def _off_each(path: GearPath, measured: Mapping[int, float]) -> list[float]:
    return [measured.get(k, path.thinning) for k in range(len(path.tooth_counts))]
