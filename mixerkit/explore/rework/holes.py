"""Ways out for holes of the plates that landed off: gears that live with them, or a ring at the true place."""

from __future__ import annotations

from collections.abc import Callable, Collection, Iterable, Iterator, Mapping
from dataclasses import replace
from itertools import product
from types import MappingProxyType

import numpy as np

from mixerkit.design import Design
from mixerkit.explore.rework.bored import Bored, idler_distances
from mixerkit.explore.rework.bores import LEAST_BESIDE, ring_room
from mixerkit.explore.rework.record import (
    SHIFTS,
    Rework,
    fails,
    in_order,
    least_spare,
    sized,
    tried,
)
from mixerkit.explore.thinned import loosest
from mixerkit.machine import Machine
from mixerkit.parts import mesh
from mixerkit.parts.gear_pairs import shifts_of
from mixerkit.shop.holes import PLATES, plate
from mixerkit.shop.wanted_sizes import off_by
from mixerkit.spec import Spec
from mixerkit.units import show

__all__ = ["hole"]

_NEAR = 1
"""By how many teeth the idler path's gears are changed where no shifts do."""


def hole(
    design: Design,
    name: str,
    bored: Bored | float,
    *,
    gears_cut: bool = False,
    kept: Collection[int] = (),
    stands: Callable[[dict[str, object]], bool] = lambda _changes: True,
    sizes: Mapping[str, float] = MappingProxyType({}),
) -> list[Rework]:
    """Ways out for bores that landed at another distance than drawn.

    An idler's hole that is bored stays where it is: the idler path gets the shifts, or the tooth counts,
    that close on it.

    Parameters
    ----------
    design : Design
    name : str
        Bore that is to be moved if one is: ``"shaft 1"``, ``"shaft 2"`` or ``"idler pin"``.
    bored : Bored or float
        Where the holes are; or the distance of the shafts in mm, the idler's hole not being bored yet.
    gears_cut : bool
        Whether the direct pair's gears are cut already.
    kept : collection of int
        Places of the gears on the path with the idler, from 0, of which a blank is turned: they keep their counts.
    stands : callable
        Asked of a change of the design whether the sizes as made agree with it.
    sizes : mapping
        Measured sizes in mm by dotted name: teeth that are cut have the thickness that they have.

    Returns
    -------
    list of Rework
        Least effort first, then the strongest.
    """
    bored = bored if isinstance(bored, Bored) else Bored(float(bored))
    known, spec = fails(Machine(design)), design
    moved: dict[str, object] = {}
    if bored.shafts_off(spec):
        moved = {"housing.centre_distance": f"{bored.apart:.6g} mm"}
    again = design.with_values(moved) if moved else spec
    found = []
    for direct in _direct(spec, bored.apart, moved, gears_cut=gears_cut):
        for idler in _idler(again, bored, kept):
            changes = {**moved, **direct, **idler}
            tested = tried(design, changes, known) if changes else None
            if tested is not None and stands(changes):
                found.append(_lived_with(design, bored, changes, tested, sizes))
                break
        # one way that leaves the direct pair alone, and one that cuts it to suit
        if found and direct and found[-1].changes.items() >= direct.items():
            break
    found = in_order([*found, *_rings(design, name, bored)])
    if not any(one.changes for one in found):
        found[0] = replace(found[0], consequences=(_none_lives(bored), *found[0].consequences))
    return found


def _none_lives(bored: Bored) -> str:
    if bored.idler is not None and not np.isfinite(bored.idler).all():
        return "the idler's hole is bored: measure its place, and shifts that live with it are looked for"
    return "no shifts and no tooth counts of the gears not yet cut live with the holes as bored"


def _direct(
    spec: Spec, apart: float, moved: dict[str, object], *, gears_cut: bool
) -> Iterator[dict[str, object]]:
    """The direct pair as drawn, and then with shifts that close it on the shafts as bored."""
    yield {}
    path = spec.paths.direct
    if gears_cut or not moved or len(path.tooth_counts) != 2:
        return
    total = float(mesh.shift_sum.formula(path.module, *path.tooth_counts, apart))
    if np.isfinite(total):
        # a blank that is turned already keeps its shift
        drawn = shifts_of(path)
        for first in (
            0.5 * total,
            drawn[0],
            total - drawn[1],
            0.25 * total,
            0.75 * total,
            0.0,
            total,
        ):
            shifts = [round(float(one), 4) + 0.0 for one in (first, total - first)]
            yield {"paths.direct.profile_shift_coefficients": shifts}


def _idler(spec: Spec, bored: Bored, kept: Collection[int]) -> Iterator[dict[str, object]]:
    """The idler path as drawn where it suits the holes, and then what closes on a hole that is bored."""
    path = spec.paths.idler
    drawn = shifts_of(path)
    if bored.idler is None:
        yield {}
        return
    if not np.isfinite(bored.idler).all() or len(drawn) != 3:
        return
    if not bored.idler_off(spec):
        yield {}
    steps = sorted(product(range(-_NEAR, _NEAR + 1), repeat=3), key=lambda one: np.abs(one).sum())
    for step in steps:
        if any(step[place] for place in kept):
            continue
        counts = [int(count + by) for count, by in zip(path.tooth_counts, step, strict=True)]
        first, second = (
            float(mesh.shift_sum.formula(path.module, counts[k], counts[k + 1], bored.idler[k]))
            for k in (0, 1)
        )
        if not np.isfinite([first, second]).all():
            continue
        # one gear keeps its shift: first those turned already, then the idler, which carries most
        middles = {1: drawn[1], 0: first - drawn[0], 2: second - drawn[2]}
        for place in sorted(middles, key=lambda one: (one not in kept, one != 1)):
            middle = middles[place]
            shifts = [
                round(float(one), 4) + 0.0 for one in (first - middle, middle, second - middle)
            ]
            if SHIFTS[0] <= min(shifts) and max(shifts) <= SHIFTS[1]:
                changes: dict[str, object] = {"paths.idler.profile_shift_coefficients": shifts}
                yield {"paths.idler.tooth_counts": counts, **changes} if any(step) else changes


def _lived_with(
    design: Design,
    bored: Bored,
    changes: dict[str, object],
    tested: Machine,
    sizes: Mapping[str, float],
) -> Rework:
    """Write a change of gears, or none, that lives with the holes as bored."""
    say = sized(design)
    words, consequences = [], []
    for path, what in (("direct", "direct pair"), ("idler", "idler path")):
        shifts, counts = (
            changes.get(f"paths.{path}.{one}")
            for one in ("profile_shift_coefficients", "tooth_counts")
        )
        if isinstance(shifts, list):
            teeth = f"{_listed(counts, '{}')} teeth and " if isinstance(counts, list) else ""
            words.append(f"the {what} with {teeth}shifts of {_listed(shifts, '{:+.3f}')}")
    if words:
        consequences.append("blanks and base tangents change: print new sheets")
    if (
        "paths.direct.profile_shift_coefficients" not in changes
        and "housing.centre_distance" in changes
    ):
        play, _ = loosest(tested.design, "direct", sizes)
        consequences.append(
            f"backlash of the direct pair becomes {say(play, 6)}; nothing else asks more"
        )
    if bored.idler is None:
        consequences.append("the idler's hole moves with the shafts: bore it by a new hole chart")
    else:
        consequences.append(
            f"the idler's hole stays as bored, {_listed([say(one, 6) for one in bored.idler], '{}')} from the shafts"
        )
    if not any(one.endswith("tooth_counts") for one in changes):
        consequences.append("speeds stay")
    return Rework(
        f"cut {' and '.join(words)}" if words else "leave it",
        changes,
        tuple(consequences),
        1 if words else 0,
        least_spare(tested, "gears"),
    )


def _listed(values: Iterable[object], form: str) -> str:
    *most, last = (form.format(one) for one in values)
    return f"{', '.join(most)} and {last}"


def _rings(design: Design, name: str, bored: Bored) -> list[Rework]:
    """A ring in each hole that is off, bored at its true place; and new plates."""
    off: dict[str, float] = {}
    if bored.shafts_off(design) or name != "idler pin":
        off[name] = abs(bored.apart - design.housing.centre_distance)
    strays = bored.idler_strays(design)
    if not strays <= off_by(idler_distances(design)[0]) and np.isfinite(strays):
        off["idler pin"] = strays
    sizes = {one: ring_room(design, one, by) for one, by in off.items()}
    near = min((room for _, room in sizes.values()), default=0.0)
    found = []
    if near >= LEAST_BESIDE:
        found.append(_ringed(design, {one: ring for one, (ring, _) in sizes.items()}, near))
    mass = show(plate(design, "reducer").mass, "kg", design.show_units)
    told = f"{mass} of plate; both, if they were bored together"
    return [*found, Rework("a new plate", {}, (told,), 3, np.inf, ("plates.",))]


def _ringed(design: Design, rings: dict[str, float], near: float) -> Rework:
    """Bore holes out to rings of some outside, the least metal left beside them being near."""
    say = sized(design)
    holes = " and ".join(
        f"the hole of {'the ' if one == 'idler pin' else ''}{one} out to {say(ring, 5)}"
        for one, ring in rings.items()
    )
    places = (
        "at their true places, press in rings and bore those"
        if len(rings) > 1
        else "at its true place, press in a ring and bore that"
    )
    anew = [
        f"plates.{which}.{one.replace(' ', '_')}{end}"
        for which in PLATES
        for one in rings
        for end in ("", "_bore")
    ]
    if set(rings) - {"idler pin"}:
        anew += [f"plates.{which}.centre_distance" for which in PLATES]
    return Rework(
        f"bore {holes} {places}",
        {},
        (
            f"{say(near, 5)} of metal left beside it",
            "holes, gears and speeds stay as drawn",
            "do it in both plates clamped together",
        ),
        2,
        near / LEAST_BESIDE,
        tuple(anew),
    )
