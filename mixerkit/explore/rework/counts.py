"""Tooth counts and shifts of a path that close on the holes as they are, one gear being made from a disc."""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np

from mixerkit.explore.rework.record import SHIFTS
from mixerkit.parts import formcutter, gear_checks, gear_pairs, mesh, spurgear, undercut
from mixerkit.parts.gear_pairs import mesh_distances, shifts_of
from mixerkit.parts.toothed import Toothed
from mixerkit.results import LoadedMachine
from mixerkit.shop import indexing
from mixerkit.shop.blanks import has_cutter
from mixerkit.shop.workshop import Workshop
from mixerkit.spec import GearPath

__all__ = ["cuttable", "most_teeth", "on_mates", "with_mates"]

NUDGES = tuple(np.round(np.arange(-0.06, 0.0601, 0.01), 3))
"""How far a shift may stand off the one that closes the mesh; the backlash takes it up."""


def most_teeth(module: float, diameter: float, profile_shift: float = 0.0) -> int:
    """Most teeth a disc of some diameter still holds, at a module and shift.

    Examples
    --------
    >>> most_teeth(3.0, 3.0 * (40 - 4.5))
    33
    """
    return int(np.floor(diameter / module - 2 - 2 * profile_shift + 1e-9))


def cuttable(count: int, module: float, shop: Workshop | None) -> bool:
    """Whether the shop can index a count and has its cutter; taken as true where there is no shop file."""
    return count >= 12 and (
        shop is None
        or (
            bool(indexing.exact(count, shop.dividing_ratio, shop.circles))
            and has_cutter(int(formcutter.cutter_number(count)), module, shop)
        )
    )


def _sound(module: float, count: int, shift: float, usable: float) -> bool:
    """Whether a gear fits its disc, is not undercut and has no points."""
    return bool(
        SHIFTS[0] <= shift <= SHIFTS[1]
        and spurgear.tip_diameter.formula(module, count, shift) <= usable + 1e-6
        and count >= undercut.undercut_tooth_count(shift) - 1e-9
        and spurgear.tip_thickness.formula(module, count, shift) >= 0.2 * module
    )


def on_mates(
    path: GearPath, apart: float, place: int, usable: float, shop: Workshop | None
) -> list[tuple[int, float]]:
    """Counts and shifts of one gear that keep every distance with its mates as they are."""
    distances, shifts = mesh_distances(path, apart), shifts_of(path)
    found = []
    for count in range(6, most_teeth(path.module, usable, SHIFTS[0]) + 1):
        if not cuttable(count, path.module, shop):
            continue
        wanted = []
        for mesh_place, other in ((place - 1, place - 1), (place, place + 1)):
            if 0 <= other < len(path.tooth_counts):
                total = mesh.shift_sum.formula(
                    path.module, count, path.tooth_counts[other], distances[mesh_place]
                )
                wanted.append(float(total) - shifts[other])
        if not np.isfinite(wanted).all() or np.ptp(wanted) > 1e-3:
            continue
        # an idler's hole would move with its shifts
        for nudge in NUDGES if len(path.tooth_counts) == 2 else (0.0,):
            shift = round(float(np.mean(wanted)) + nudge, 4)
            if _sound(path.module, count, shift, usable):
                found.append((count, shift))
    return found


def with_mates(
    machine: LoadedMachine, path_name: str, place: int, usable: float, shop: Workshop | None
) -> Iterator[tuple[tuple[int, ...], tuple[float, ...]]]:
    """Counts and shifts of all gears of a path on its distances, one of them from the disc.

    Of every row of counts the disc's shift is tried in tenths of a module, and where it leaves a mate's
    shift as it is; rows that do not mesh are left out.
    """
    spec = machine.spec
    path, apart = getattr(spec.paths, path_name), spec.housing.centre_distance
    distances, drawn = mesh_distances(path, apart), shifts_of(path)
    largest = [shop.largest_blank if shop else np.inf] * len(drawn)
    largest[place] = usable
    able = [count for count in range(12, 121) if cuttable(count, path.module, shop)]
    for counts in _rows(path.module, able, distances):
        if counts[place] > most_teeth(path.module, usable, SHIFTS[0]):
            continue
        totals = [
            float(mesh.shift_sum.formula(path.module, counts[k], counts[k + 1], distance))
            for k, distance in enumerate(distances)
        ]
        # every shift follows from the disc's: one up where the disc's goes down, and so on outwards
        base, slope = np.zeros(len(counts)), np.ones(len(counts))
        for k in (*range(place + 1, len(counts)), *range(place - 1, -1, -1)):
            near = k - 1 if k > place else k + 1
            base[k], slope[k] = totals[min(k, near)] - base[near], -slope[near]
        tenths = np.arange(SHIFTS[0], SHIFTS[1] + 1e-9, 0.1)
        shifts = np.concatenate([tenths, (np.array(drawn) - base) * slope])[:, None] * slope + base
        # the evenest split first: the gears are then about as strong as each other
        for row in np.round(shifts[np.argsort(np.ptp(shifts, axis=1), kind="stable")], 4):
            if not all(map(_sound, [path.module] * len(counts), counts, row, largest)):
                continue
            train = path.with_numbers(
                tooth_counts=counts, profile_shift_coefficients=tuple(map(float, row))
            )
            meshes = tuple(gear_pairs.pairs(train, apart))
            checks = gear_checks.geometry_checks(Toothed(machine, path_name, train, meshes))
            if all(one.verdict != "fails" for one in checks):
                yield counts, train.profile_shift_coefficients


def _rows(module: float, able: list[int], distances: list[float]) -> list[tuple[int, ...]]:
    """Every row of counts whose meshes close on their distances with shifts the design file allows."""
    rows: list[tuple[int, ...]] = [(count,) for count in able]
    for distance in distances:
        rows = [
            (*row, count)
            for row in rows
            for count in able
            if 2 * SHIFTS[0]
            <= float(mesh.shift_sum.formula(module, row[-1], count, distance))
            <= 2 * SHIFTS[1]
        ]
    return rows
