"""What a spoiled part can still become: every way out that geometry and shop allow, each checked anew."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

import numpy as np

from mixerkit.design import Design
from mixerkit.explore.asmade import Review, review
from mixerkit.explore.rework import hubs
from mixerkit.explore.rework.holes import as_bored, hole
from mixerkit.explore.rework.record import (
    SHIFTS,
    Rework,
    fails,
    in_order,
    least_spare,
    said_spare,
    tried,
)
from mixerkit.machine import Machine
from mixerkit.parts import formcutter, gear_checks, gear_pairs, mesh, spurgear, undercut
from mixerkit.parts.gear_pairs import mesh_distances, shifts_of
from mixerkit.parts.shaft_checks import stock_sizes
from mixerkit.parts.toothed import Toothed
from mixerkit.results import LoadedMachine
from mixerkit.shop import indexing
from mixerkit.shop.blanks import GEARS, Blank, gear_blank, gears, shaft_of
from mixerkit.shop.holes import PLATES
from mixerkit.shop.measured import Finding, Wanted
from mixerkit.shop.measurements import Measurements
from mixerkit.shop.wanted_sizes import wanted
from mixerkit.shop.workshop import Workshop
from mixerkit.spec import GearPath
from mixerkit.tables import table
from mixerkit.units import show

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator, Mapping, Sequence


__all__ = ["Rework", "gear", "hole", "most_teeth", "reworks_of", "shaft"]

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


def gear(
    design: Design,
    name: str,
    usable: float,
    shop: Workshop,
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
    shop : Workshop
    teeth_cut : bool
        Whether teeth are cut already, so that the disc must be turned to ``usable`` first.
    mate_cut : bool
        Whether its mates are cut already.

    Returns
    -------
    list of Rework
        Least effort first, then the strongest.
    """
    before = Machine(design)
    known = fails(before)
    spec, system = design, design.show_units
    path_name, place = GEARS[name]
    path = getattr(spec.paths, path_name)
    place %= len(path.tooth_counts)
    one = gear_blank(spec, name, shop, system)
    found: list[Rework] = []
    if not teeth_cut:
        found += _short_tips(design, one, path_name, place, usable)
    for count, shift in _counts(path, spec.housing.centre_distance, place, usable, shop):
        counts, shifts = list(path.tooth_counts), list(shifts_of(path))
        counts[place], shifts[place] = count, shift
        found += _as_way(design, known, path_name, counts, shifts, place)
    if not mate_cut:
        saved = {way.changes[f"paths.{path_name}.tooth_counts"] for way in found if way.changes}
        for train, moved in _trains(before, path_name, place, usable, shop):
            if train not in saved:
                ways = _as_way(design, known, path_name, train, moved, place)
                saved |= {train} if ways else set()
                found += ways
    found += _other_gears(design, name, usable, shop)
    found.append(
        Rework(
            "a new blank",
            {},
            (
                f"{show(one.mass, 'kg', system)} of {one.material}, {show(one.outside[0], 'mm', system)} outside",
            ),
            3,
            np.inf,
            (f"gears.{name}.",),
        )
    )
    return in_order(_best_of_each(found))


def _best_of_each(found: list[Rework]) -> list[Rework]:
    """Of ways that differ by a hair of shift only, the strongest."""
    best: dict[object, Rework] = {}
    for way in found:
        counts = next(
            (
                tuple(value)
                for key, value in way.changes.items()
                if key.endswith("tooth_counts") and isinstance(value, (list, tuple))
            ),
            None,
        )
        key = (counts, way.effort) if counts else way.words
        if key not in best or way.spare > best[key].spare:
            best[key] = way
    return list(best.values())


def _cuttable(count: int, module: float, shop: Workshop) -> bool:
    return (
        count >= 12
        and bool(indexing.exact(count, shop.dividing_ratio, shop.circles))
        and int(formcutter.cutter_number(count)) in shop.cutters.get(round(module, 6), ())
    )


def _sound(module: float, count: int, shift: float, usable: float) -> bool:
    """Whether a gear fits its disc, is not undercut and has no points."""
    return bool(
        SHIFTS[0] <= shift <= SHIFTS[1]
        and spurgear.tip_diameter.formula(module, count, shift) <= usable + 1e-6
        and count >= undercut.undercut_tooth_count(shift) - 1e-9
        and spurgear.tip_thickness.formula(module, count, shift) >= 0.2 * module
    )


def _counts(
    path: GearPath, apart: float, place: int, usable: float, shop: Workshop
) -> list[tuple[int, float]]:
    """Counts and shifts of one gear that keep every distance with its mates as they are."""
    distances, shifts = mesh_distances(path, apart), shifts_of(path)
    found = []
    for count in range(6, most_teeth(path.module, usable, SHIFTS[0]) + 1):
        if not _cuttable(count, path.module, shop):
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


def _trains(
    machine: LoadedMachine, path_name: str, place: int, usable: float, shop: Workshop
) -> Iterator[tuple[tuple[int, ...], tuple[float, ...]]]:
    """Counts and shifts of all gears of a path on its distances, one of them from the disc.

    Of every row of counts the disc's shift is tried in tenths of a module, and where it leaves a mate's
    shift as it is; rows that do not mesh are left out.
    """
    spec = machine.spec
    path, apart = getattr(spec.paths, path_name), spec.housing.centre_distance
    distances, drawn = mesh_distances(path, apart), shifts_of(path)
    largest = [shop.largest_blank] * len(drawn)
    largest[place] = usable
    cuttable = [count for count in range(12, 121) if _cuttable(count, path.module, shop)]
    for counts in _rows(path.module, cuttable, distances):
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


def _rows(module: float, cuttable: list[int], distances: list[float]) -> list[tuple[int, ...]]:
    """Every row of counts whose meshes close on their distances with shifts the design file allows."""
    rows: list[tuple[int, ...]] = [(count,) for count in cuttable]
    for distance in distances:
        rows = [
            (*row, count)
            for row in rows
            for count in cuttable
            if 2 * SHIFTS[0]
            <= float(mesh.shift_sum.formula(module, row[-1], count, distance))
            <= 2 * SHIFTS[1]
        ]
    return rows


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


def _as_way(
    design: Design,
    known: set[tuple[str, str]],
    path_name: str,
    counts: Sequence[int],
    shifts: Sequence[float],
    place: int,
) -> list[Rework]:
    path = getattr(design.paths, path_name)
    was, now = path.tooth_counts, tuple(counts)
    anew = [
        k
        for k, drawn in enumerate(shifts_of(path))
        if k != place and (now[k] != was[k] or abs(shifts[k] - drawn) > 1e-3)
    ]
    if not anew and now == was and abs(shifts[place] - shifts_of(path)[place]) < 1e-3:
        return []
    changes: dict[str, object] = {
        f"paths.{path_name}.tooth_counts": now,
        f"paths.{path_name}.profile_shift_coefficients": tuple(shifts),
    }
    again = tried(design, changes, known)
    if again is None:
        return []
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
        f"teeth have {said_spare(least_spare(again, 'gears'))} to spare",
    ]
    return [
        Rework(
            words,
            changes,
            tuple(consequences),
            2 if anew else 1,
            least_spare(again, "gears"),
            tuple(remade),
        )
    ]


def _short_tips(
    design: Design, one: Blank, path_name: str, place: int, usable: float
) -> list[Rework]:
    """Cut the blank as it is: teeth a little short, as long as enough of them overlap."""
    path = getattr(design.paths, path_name)
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


def _other_gears(design: Design, name: str, usable: float, shop: Workshop) -> list[Rework]:
    """Other gears of the machine that this disc can become."""
    own = gear_blank(design, name, shop, design.show_units)
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


def shaft(design: Design, number: int, left: float, seat: Wanted | None = None) -> list[Rework]:
    """Ways out for a shaft turned too small.

    Parameters
    ----------
    design : Design
    number : int
        1 or 2.
    left : float
        Diameter in mm that is left.
    seat : Wanted, optional
        What the seat ought to be; a size with nothing to either side, if not given.

    Returns
    -------
    list of Rework
        Least effort first, then the strongest.
    """
    known, system = fails(Machine(design)), design.show_units
    drawn = getattr(design, f"shaft_{number}").diameter
    field = f"shaft_{number}.diameter"

    def say(size: float) -> str:
        return show(size, "mm", system)

    found = []
    if drawn - left <= 0.5:
        # strength is that of what is left; the size typed is the one whose fit the seat as turned has
        again = tried(design, {field: f"{np.floor(left * 100) / 100:.6g} mm"}, known)
        under = drawn - (seat.least + seat.most) / 2 if seat else 0.0
        typed = {field: f"{round(left + under, 3):.6g} mm"}
        if again and tried(design, typed, known):
            found.append(
                Rework(
                    "bore everything that sits on it to suit",
                    typed,
                    (
                        f"bores are fitted to {say(left)} as made; stock reamers do not serve",
                        "bearings want their own seat, see below",
                    ),
                    1,
                    least_spare(again, "shafts", "hubs"),
                )
            )
    sizes = (
        [row.values["bore"] for row in table("rolling_bearings")]
        if design.bearings.kind == "rolling"
        else stock_sizes(system)
    )
    for size in sorted((one for one in sizes if one <= left and one < drawn), reverse=True):
        again = tried(design, {field: f"{size:.6g} mm"}, known)
        if again:
            found.append(
                Rework(
                    f"turn the whole shaft to {say(size)}",
                    {field: f"{size:.6g} mm"},
                    (
                        "bearings, gear bores, keys and bushes go with it",
                        f"shaft and hubs have {said_spare(least_spare(again, 'shafts', 'hubs'))} to spare",
                    ),
                    2,
                    least_spare(again, "shafts", "hubs"),
                    (f"shafts.{number}.",),
                )
            )
    ring = left - 2 * 2.5
    step = (
        tried(
            design,
            {
                f"shaft_{number}.step_at": ["-30 mm", "20 mm"],
                f"shaft_{number}.step_diameters": [f"{ring:.6g} mm", f"{drawn:.6g} mm"],
            },
            known,
        )
        if ring > 0
        else None
    )
    if step:
        found.append(
            Rework(
                f"turn the spoiled seat down to {say(ring)} and shrink on a ring",
                {},
                (
                    "reckoned for the seat at the reducer, where the shaft carries most",
                    "turn the ring to size when it is on",
                    f"the shaft has {said_spare(least_spare(step, 'shafts'))} to spare there",
                ),
                1,
                least_spare(step, "shafts"),
            )
        )
    found.append(Rework("a new shaft", {}, (f"{say(drawn)} bar",), 3, np.inf))
    return in_order(found)


def reworks_of(
    design: Design,
    found: Review,
    made: Measurements,
    shop: Workshop,
    progress: Callable[[str], object] = lambda _words: None,
) -> dict[str, list[Rework]]:
    """Ways out for every part that a review found spoiled.

    Parameters
    ----------
    design : Design
        As drawn.
    found : Review
        See :func:`mixerkit.explore.asmade.review`.
    made : Measurements
    shop : Workshop
    progress : callable
        Told in words what is being done.

    Returns
    -------
    dict of str to list of Rework
        By part in words.
    """
    sought = _Sought(design, found, made, shop, progress)
    by_part: dict[str, list[Rework]] = {}
    for one in found.alarms:
        part, ways = sought.of_place(one) if _is_place(one.name) else sought.of_size(one)
        if ways and part not in by_part:
            by_part[part] = ways
    return by_part


def _is_place(name: str) -> bool:
    return name.startswith("plates") and not name.endswith(("_bore", "thickness"))


class _Sought:
    """What ways out are looked for with: the machine as drawn, and what is made of it."""

    def __init__(
        self,
        design: Design,
        found: Review,
        made: Measurements,
        shop: Workshop,
        progress: Callable[[str], object],
    ) -> None:
        self._design, self._found, self._made = design, found, made
        self._shop, self._progress = shop, progress
        self._listed = wanted(design, shop, design.show_units)
        self._places: list[Rework] | None = None

    def of_place(self, one: Finding) -> tuple[str, list[Rework]]:
        """Ways out for holes that are not where they are drawn."""
        if one.kind != "off" or one.name == "plates":
            return "", []
        if self._places is None:
            self._places = self._holes()
        # the distance of the shafts and the places of all bores are one fault of both plates
        return "holes of the plates", self._places

    def _holes(self) -> list[Rework]:
        spec, made = self._design, self._made
        doubted = {one.name for one in self._found.findings if one.kind in ("slip", "wrong")}
        bored = as_bored(spec, made, doubted)
        if not bored.shafts_off(spec) and not bored.idler_off(spec):
            return []
        spoiled = {f"plates.{which}{end}" for which in PLATES for end in ("", ".centre_distance")}
        name = "shaft 2" if bored.shafts_off(spec) else "idler pin"
        ways = hole(
            self._design,
            name,
            bored,
            gears_cut=any(f"gears.direct_{k}.base_tangent" in made.values for k in (1, 2)),
            kept=[
                GEARS[name][1] % 3
                for name in ("idler_1", "idler_2", "idler_3")
                if self._begun(name)
            ],
            stands=lambda changes: self._agrees(changes, (), spoiled),
        )
        return [self._told(way, "plates.") for way in ways]

    def _begun(self, name: str) -> bool:
        """Whether a gear's blank is turned already, and not spoiled."""
        sizes = {f"gears.{name}.{one}" for one in ("outside_diameter", "base_tangent")}
        return bool(sizes & set(self._made.values)) and sizes.isdisjoint(
            one.name for one in self._found.alarms
        )

    def of_size(self, one: Finding) -> tuple[str, list[Rework]]:
        """Ways out for a part of which a size came out wrong."""
        # how the dividing head was set is no size: it is set right, and nothing is spoiled yet
        if one.kind == "slip" or one.name not in self._made.values or one.name not in self._listed:
            return "", []
        ways = []
        for way in self._for_size(one.name):
            told = self._told(way, one.name)
            if not told.changes or self._agrees(told.changes, told.anew, {one.name}):
                ways.append(told)
        return self._listed[one.name].words, ways

    def _for_size(self, full: str) -> list[Rework]:
        design, made = self._design, self._made
        value, ought = made.values[full], self._listed[full]
        group, *inner = full.split(".")
        over = value > ought.most
        if group == "gears":
            return self._for_gear(inner[0], inner[1], value, ought)
        if group == "shafts" and inner[1] in ("keyway_depth", "keyway_width") and over:
            deep, wide = (
                made.values.get(f"shafts.{inner[0]}.keyway_{which}") for which in ("depth", "width")
            )
            return hubs.keyway(design, int(inner[0]), deep, wide)
        if group == "plates" and inner[1].endswith("_bore") and over:
            return hubs.plate_bore(design, inner[1].removesuffix("_bore").replace("_", " "), value)
        if group == "bushes" and inner[0].endswith("_bore") and over:
            seat = (
                "idler.pin_diameter"
                if inner[0] == "idler_bore"
                else f"shafts.{design.clutch.shaft}.gear_seat"
            )
            return hubs.bush(
                design, inner[0].removesuffix("_bore"), value, shaft_turned=seat in made.values
            )
        if full.endswith((".bearing_seat", ".gear_seat")) and value < ought.least:
            return shaft(design, int(inner[0]), value, ought)
        return []

    def _for_gear(self, name: str, size: str, value: float, ought: Wanted) -> list[Rework]:
        design, made, shop = self._design, self._made, self._shop
        cut = f"gears.{name}.base_tangent" in made.values
        if size == "outside_diameter" and value < ought.least:
            mates = [
                other
                for other in gears(design)
                if other != name and GEARS[other][0] == GEARS[name][0]
            ]
            mate_cut = any(f"gears.{other}.base_tangent" in made.values for other in mates)
            self._progress(
                f"looking for what the {ought.words.removeprefix('outside of the ')} can become"
            )
            # of teeth that are cut already nothing is left but what is under their roots
            left = min(value, gear_blank(design, name, shop).root) if cut else value
            return gear(design, name, left, shop, teeth_cut=cut, mate_cut=mate_cut)
        if size == "bore" and value > ought.most:
            turned = f"shafts.{shaft_of(name)}.gear_seat" in made.values
            return hubs.hub(design, name, value, shop, teeth_cut=cut, shaft_turned=turned)
        return []

    def _told(self, way: Rework, spoiled: str) -> Rework:
        """Name the sizes that are there and come out of their file, and say what else must be made anew."""
        anew = way.anew
        if not way.changes and not anew:
            part = ".".join(spoiled.split(".")[:2]) + "."
            anew = (part if way.effort == 3 and part != f"{spoiled}." else spoiled,)
        begins = tuple(one for one in anew if one.endswith("."))
        there = tuple(
            one
            for one in (*self._made.values, *self._made.places)
            if one in anew or one.startswith(begins)
        )
        more = []
        if way.changes:
            after = wanted(self._design.with_values(way.changes), self._shop)
            more = [
                f"a new blank for the {after[one].words.removeprefix('outside of the ')} too: {show(self._made.values[one], 'mm', self._design.show_units, 5)} is too small"
                for one in there
                if one != spoiled
                and one.endswith(".outside_diameter")
                and self._made.values[one] < after[one].least
            ]
        return replace(way, anew=there, consequences=(*way.consequences, *more))

    def _agrees(
        self, changes: Mapping[str, object], anew: tuple[str, ...], spoiled: set[str]
    ) -> bool:
        """Whether a change, typed, does away with what is spoiled and stops at no other hold point."""
        left = self._made.without(anew)
        again = review(self._design.with_values(changes), left, self._shop)
        known = {one.name for one in self._found.alarms} - spoiled
        weak = {(one.part, one.name) for one in self._found.worse}
        return {one.name for one in again.alarms} <= known and {
            (one.part, one.name) for one in again.worse
        } <= weak
