"""Ways out for a gear or blank turned too small, or with spoiled teeth: other teeth, or another gear."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from mixerkit.design import Design
from mixerkit.explore.rework.counts import on_mates, with_mates
from mixerkit.explore.rework.record import (
    Rework,
    fails,
    in_order,
    least_spare,
    new_blank,
    said_spare,
    tried,
)
from mixerkit.machine import Machine
from mixerkit.parts import mesh, spurgear
from mixerkit.parts.gear_pairs import mesh_distances, shifts_of
from mixerkit.shop.blanks import GEARS, Blank, gear_blank, gears
from mixerkit.shop.workshop import Workshop
from mixerkit.spec import GearPath
from mixerkit.units import show

__all__ = ["gear"]

_CUT_ANEW = (
    "outside_diameter",
    "base_tangent",
    "tooth_count",
    "cutter_number",
    "turns",
    "holes",
    "circle",
)
"""Sizes of a gear that are made anew, or set anew, for other teeth."""
_WHICH = {
    2: ("gear on shaft 1", "gear on shaft 2"),
    3: ("gear on shaft 1", "idler", "gear on shaft 2"),
}


def gear(
    design: Design,
    name: str,
    usable: float,
    shop: Workshop | None,
    *,
    teeth_cut: bool = False,
    mate_cut: bool = True,
) -> list[Rework]:
    """Ways out for a gear or blank of which only so much diameter is left.

    The holes of the plates stay where they are. Every tooth count from 6 upwards that the disc holds is
    tried with its mates as they are, profile shift keeping the centre distance; with ``mate_cut`` false, also
    with every count of new mates along its path. Each is assessed from scratch and kept only where nothing fails that
    did not fail before.

    Parameters
    ----------
    design : Design
    name : str
        A key of :data:`mixerkit.shop.blanks.GEARS`.
    usable : float
        Diameter in mm that is left: of a blank turned too small, or of the roots of spoiled teeth.
    shop : Workshop, or None
    teeth_cut : bool
        Whether teeth are cut already, so that the disc must be turned to ``usable`` first.
    mate_cut : bool
        Whether its mates are cut already.

    Returns
    -------
    list of Rework
        Least effort first, then the strongest.
    """
    one = gear_blank(design, name, shop, design.show_units)
    disc = _Disc(design, name, usable)
    found = [] if teeth_cut else _short_tips(disc, one)
    found += _cut_anew(disc, shop, mate_cut=mate_cut)
    found += _other_gears(disc, one, shop)
    found.append(new_blank(design, one))
    return in_order(_best_of_each(found))


@dataclass(frozen=True)
class _Disc:
    """What is left of a gear: so much of its diameter."""

    design: Design
    name: str
    usable: float

    @property
    def path_name(self) -> str:
        """Path of the gear."""
        return GEARS[self.name][0]

    @property
    def path(self) -> GearPath:
        """That path as drawn."""
        path: GearPath = getattr(self.design.paths, self.path_name)
        return path

    @property
    def place(self) -> int:
        """Place of the gear on its path, from 0 at shaft 1."""
        return GEARS[self.name][1] % len(self.path.tooth_counts)


def _cut_anew(disc: _Disc, shop: Workshop | None, *, mate_cut: bool) -> list[Rework]:
    """Other teeth on the mates as they are; with ``mate_cut`` false on new mates too."""
    before = Machine(disc.design)
    known, path, place = fails(before), disc.path, disc.place
    found, saved = [], set()
    apart = disc.design.housing.centre_distance
    for count, shift in on_mates(path, apart, place, disc.usable, shop):
        counts, shifts = list(path.tooth_counts), list(shifts_of(path))
        counts[place], shifts[place] = count, shift
        rework = _with_teeth(disc, known, counts, shifts)
        if rework:
            found.append(rework)
            saved.add(tuple(counts))
    if not mate_cut:
        for train, moved in with_mates(before, disc.path_name, place, disc.usable, shop):
            rework = None if train in saved else _with_teeth(disc, known, train, moved)
            if rework:
                found.append(rework)
                saved.add(train)
    return found


def _best_of_each(found: list[Rework]) -> list[Rework]:
    """Of reworks that differ by a hair of shift only, the strongest."""
    best: dict[object, Rework] = {}
    for one in found:
        counts = next(
            (
                tuple(value)
                for key, value in one.changes.items()
                if key.endswith("tooth_counts") and isinstance(value, (list, tuple))
            ),
            None,
        )
        key = (counts, one.effort) if counts else one.words
        if key not in best or one.spare > best[key].spare:
            best[key] = one
    return list(best.values())


def _with_teeth(
    disc: _Disc, known: set[tuple[str, str]], counts: Sequence[int], shifts: Sequence[float]
) -> Rework | None:
    """Give a path other teeth, one of its gears made from the disc; none where that fails or is no change."""
    path, path_name, place = disc.path, disc.path_name, disc.place
    was, now = path.tooth_counts, tuple(counts)
    anew = [
        k
        for k, drawn in enumerate(shifts_of(path))
        if k != place and (now[k] != was[k] or abs(shifts[k] - drawn) > 1e-3)
    ]
    if not anew and now == was and abs(shifts[place] - shifts_of(path)[place]) < 1e-3:
        return None
    changes: dict[str, object] = {
        f"paths.{path_name}.tooth_counts": now,
        f"paths.{path_name}.profile_shift_coefficients": tuple(shifts),
    }
    again = tried(disc.design, changes, known)
    if again is None:
        return None
    spare = least_spare(again, "gears")
    slower = (was[0] / was[-1]) / (now[0] / now[-1])
    words = f"turn it down and cut {now[place]} teeth with a shift of {shifts[place]:+.3f}"
    remade = [
        f"gears.{key}.{size}"
        for key, (of_path, k) in GEARS.items()
        if of_path == path_name and (k % len(now) == place or k % len(now) in anew)
        for size in _CUT_ANEW
    ]
    others = [
        f"the {_WHICH[len(now)][k]} then gets {now[k]} teeth and a shift of {shifts[k]:+.3f}"
        for k in anew
    ]
    mates = len(now) - 1
    consequences = [
        *(others or [f"its {'mate stays' if mates == 1 else 'mates stay'} as drawn"]),
        "holes and centre distance stay",
        f"shaft 2 turns {1 / slower:.3f} times as fast as drawn"
        if abs(slower - 1) > 1e-6
        else "speeds stay",
        f"teeth have {said_spare(spare)} to spare",
    ]
    return Rework(words, changes, tuple(consequences), 2 if anew else 1, spare, tuple(remade))


def _short_tips(disc: _Disc, one: Blank) -> list[Rework]:
    """Cut the blank as it is: teeth a little short, as long as enough of them overlap."""
    design, path, place, usable = disc.design, disc.path, disc.place, disc.usable
    if usable >= one.outside[0] or usable < one.root + 1.5 * path.module:
        return []
    counts, shifts = path.tooth_counts, shifts_of(path)
    distances = mesh_distances(path, design.housing.centre_distance)
    ratios = []
    for k, distance in enumerate(distances):
        if place not in (k, k + 1):
            continue
        tips = [
            usable
            if at == place
            else float(spurgear.tip_diameter.formula(path.module, counts[at], shifts[at]))
            for at in (k, k + 1)
        ]
        ratios.append(
            float(
                mesh.contact_ratio.formula(
                    path.module, counts[k], counts[k + 1], tips[0], tips[1], distance
                )
            )
        )
    if not all(ratio >= 1.2 for ratio in ratios):
        return []
    system, short = design.show_units, one.outside[0] - usable
    consequences = (
        f"contact ratio {min(ratios):.2f}, 1.2 wanted",
        "mate, holes and speeds stay",
        f"feed {show(short / 2, 'mm', system)} less deep than the sheet says: measure the base tangent, not the depth",
    )
    return [
        Rework(
            f"cut it as it is, tips short by {show(short / 2, 'mm', system)}",
            {},
            consequences,
            0,
            min(ratios) / 1.2,
            lives=True,
        )
    ]


def _other_gears(disc: _Disc, own: Blank, shop: Workshop | None) -> list[Rework]:
    """Other gears of the machine that this disc can become."""
    design, name, usable = disc.design, disc.name, disc.usable
    found = []
    for other in gears(design):
        one = gear_blank(design, other, shop, design.show_units)
        if other == name or one.outside[1] > usable or one.bore[2] < own.bore[1] - 1e-6:
            continue
        if one.width > own.width + 1e-6 or one.material != own.material:
            continue
        found.append(
            Rework(
                f"make the {one.words} of it",
                {},
                (
                    f"turn it to {show(one.outside[0], 'mm', design.show_units)}; a new blank for this one",
                ),
                2,
                np.inf,
                (f"gears.{name}.",),
            )
        )
    return found
