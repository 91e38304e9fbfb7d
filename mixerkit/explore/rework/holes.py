"""Ways out for holes of the plates that landed off: gears that live with them, or a ring at the true place."""

from __future__ import annotations

from dataclasses import dataclass, replace
from itertools import product
from typing import TYPE_CHECKING, Any

import numpy as np

from mixerkit.explore.asmade import distance_as_bored
from mixerkit.explore.rework.hubs import ring_room
from mixerkit.explore.rework.record import SHIFTS, Rework, fails, in_order, least_spare, tried
from mixerkit.machine import Machine
from mixerkit.parts import mesh
from mixerkit.parts.gear_pairs import shifts_of
from mixerkit.parts.idler import idler_centre
from mixerkit.shop.holes import PLATES, plate
from mixerkit.shop.wanted_sizes import off_by
from mixerkit.spec import Spec
from mixerkit.units import show

if TYPE_CHECKING:
    from collections.abc import Callable, Collection, Iterable, Iterator

    from mixerkit.design import Design
    from mixerkit.shop.measurements import Measurements

__all__ = ["Bored", "as_bored", "hole"]

_NEAR = 1
"""By how many teeth the idler path's gears are changed where no shifts do."""


@dataclass(frozen=True)
class Bored:
    """Where the holes of the plates are.

    Attributes
    ----------
    apart : float
        Distance of the shafts in mm.
    idler : tuple of (float, float), optional
        Distances of the idler's hole from both shafts in mm, not numbers where it is bored and its place
        is not measured; none where it is not bored yet.
    """

    apart: float
    idler: tuple[float, float] | None = None

    def shafts_off(self, spec: Spec) -> bool:
        """Whether the shafts stand at another distance than drawn."""
        drawn = spec.housing.centre_distance
        return abs(self.apart - drawn) > off_by(drawn) + 1e-9

    def idler_off(self, spec: Spec) -> bool:
        """Whether the idler's hole stands at another distance than drawn from either shaft."""
        drawn = _idler_distances(spec)
        return self.idler is not None and any(
            abs(made - want) > off_by(want) + 1e-9
            for made, want in zip(self.idler, drawn, strict=True)
        )

    def idler_strays(self, spec: Spec) -> float:
        """How far in mm the idler's hole is from its place, shaft 2 being put where it is drawn."""
        if self.idler is None:
            return 0.0
        along, aside = (float(one) for one in mesh.idler_place.formula(self.apart, *self.idler))
        x, y, _ = idler_centre(spec)
        return float(np.hypot(along - x, aside - abs(y)))


def _idler_distances(spec: Spec) -> tuple[float, float]:
    distances = idler_centre(spec)[2]
    return distances[0], float(sum(distances[1:]))


def as_bored(spec: Spec, made: Measurements, doubted: Collection[str] = ()) -> Bored:
    """Where the holes are by the sizes as made, those of both plates taken together.

    Parameters
    ----------
    spec : Spec
        The design in plain numbers.
    made : Measurements
    doubted : collection of str
        Names of findings that are no sizes, but slips or another part's: such a plate says nothing.

    Returns
    -------
    Bored
    """
    trusted = [
        which
        for which in PLATES
        if {f"plates.{which}", f"plates.{which}.centre_distance"}.isdisjoint(doubted)
    ]
    apart = [one for which in trusted if (one := distance_as_bored(made, which)) is not None]
    rows = []
    for which in trusted:
        names = [f"plates.{which}.{one}" for one in ("shaft_1", "idler_pin", "shaft_2")]
        if all(one in made.places for one in names):
            ends, (x, y) = (made.places[names[0]], made.places[names[2]]), made.places[names[1]]
            rows.append([float(np.hypot(at[0] - x, at[1] - y)) for at in ends])
    bored = any(
        f"plates.{which}.idler_pin" in made.places
        or f"plates.{which}.idler_pin_bore" in made.values
        for which in PLATES
    )
    first, second = np.mean(rows, axis=0) if rows else (np.nan, np.nan)
    return Bored(
        float(np.mean(apart)) if apart else spec.housing.centre_distance,
        (float(first), float(second)) if bored else None,
    )


def hole(
    design: Design,
    name: str,
    bored: Bored | float,
    *,
    gears_cut: bool = False,
    kept: Collection[int] = (),
    stands: Callable[[dict[str, object]], bool] = lambda _changes: True,
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
                found.append(_lived_with(design, bored, changes, tested))
                break
        # one way that leaves the direct pair alone, and one that cuts it to suit
        if found and direct and found[-1].changes.items() >= direct.items():
            break
    found = in_order([*found, *_rings(design, name, bored)])
    if not any(way.changes for way in found):
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


def _lived_with(design: Design, bored: Bored, changes: dict[str, Any], tested: Any) -> Rework:
    """Write a change of gears, or none, that lives with the holes as bored."""

    def say(size: float) -> str:
        return show(round(size, 3), "mm", design.show_units, 6)

    words, consequences = [], []
    for path, what in (("direct", "direct pair"), ("idler", "idler path")):
        shifts, counts = (
            changes.get(f"paths.{path}.{one}")
            for one in ("profile_shift_coefficients", "tooth_counts")
        )
        if shifts:
            teeth = f"{_listed(counts, '{}')} teeth and " if counts else ""
            words.append(f"the {what} with {teeth}shifts of {_listed(shifts, '{:+.3f}')}")
    if words:
        consequences.append("blanks and base tangents change: print new sheets")
    if (
        "paths.direct.profile_shift_coefficients" not in changes
        and "housing.centre_distance" in changes
    ):
        play = next(
            one
            for one in tested.checks
            if one.part == "direct path" and one.name == "backlash is not too much"
        )
        consequences.append(
            f"backlash of the direct pair becomes {say(play.demand)}; nothing else asks more"
        )
    if bored.idler is None:
        consequences.append("the idler's hole moves with the shafts: bore it by a new hole chart")
    else:
        consequences.append(
            f"the idler's hole stays as bored, {_listed([say(one) for one in bored.idler], '{}')} from the shafts"
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
    spec, system = design, design.show_units

    def say(size: float) -> str:
        return show(round(size, 3), "mm", system, 5)

    strays = bored.idler_strays(spec)
    off: dict[str, float] = {}
    if bored.shafts_off(spec) or name != "idler pin":
        off[name] = abs(bored.apart - spec.housing.centre_distance)
    if not strays <= off_by(_idler_distances(spec)[0]) and np.isfinite(strays):
        off["idler pin"] = strays
    sized = {one: ring_room(spec, one, by) for one, by in off.items()}
    near = min((room for _, room in sized.values()), default=0.0)
    found = []
    if near >= 5.0:
        holes = " and ".join(
            f"the hole of {'the ' if one == 'idler pin' else ''}{one} out to {say(ring)}"
            for one, (ring, _) in sized.items()
        )
        places = (
            "at their true places, press in rings and bore those"
            if len(sized) > 1
            else "at its true place, press in a ring and bore that"
        )
        anew = [
            f"plates.{which}.{one.replace(' ', '_')}{end}"
            for which in PLATES
            for one in sized
            for end in ("", "_bore")
        ]
        anew += [
            f"plates.{which}.centre_distance" for which in PLATES if set(sized) - {"idler pin"}
        ]
        found.append(
            Rework(
                f"bore {holes} {places}",
                {},
                (
                    f"{say(near)} of metal left beside it",
                    "holes, gears and speeds stay as drawn",
                    "do it in both plates clamped together",
                ),
                2,
                float(near / 5.0),
                tuple(anew),
            )
        )
    one = plate(spec, "reducer")
    found.append(
        Rework(
            "a new plate",
            {},
            (f"{show(one.mass, 'kg', system)} of plate; both, if they were bored together",),
            3,
            np.inf,
            ("plates.",),
        )
    )
    return found
