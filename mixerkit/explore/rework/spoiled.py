"""What every part that a review found spoiled can still become, in step with the sizes as made."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import replace

from mixerkit.design import Design
from mixerkit.explore.asmade import Review, review, trusted
from mixerkit.explore.rework.bored import as_bored
from mixerkit.explore.rework.bores import bush, plate_bore
from mixerkit.explore.rework.gears import gear
from mixerkit.explore.rework.holes import hole
from mixerkit.explore.rework.hubs import hub
from mixerkit.explore.rework.keyways import keyway
from mixerkit.explore.rework.record import Rework
from mixerkit.explore.rework.shafts import shaft
from mixerkit.explore.rework.thin_teeth import thin_teeth
from mixerkit.shop.blanks import GEARS, gear_blank, gears, shaft_of
from mixerkit.shop.holes import PLATES
from mixerkit.shop.measured import Finding, Wanted
from mixerkit.shop.measurements import Measurements
from mixerkit.shop.wanted_bushes import OWN_BUSHES
from mixerkit.shop.wanted_sizes import SEATS, wanted
from mixerkit.shop.workshop import Workshop
from mixerkit.units import show

__all__ = ["reworks_of"]


def reworks_of(
    design: Design,
    found: Review,
    made: Measurements,
    shop: Workshop | None,
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
    shop : Workshop, or None
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
        part, reworks = sought.of_place(one) if _is_place(one.name) else sought.of_size(one)
        if reworks and part not in by_part:
            by_part[part] = reworks
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
        shop: Workshop | None,
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
        reworks = hole(
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
            sizes=trusted(made, self._found.findings),
        )
        return [self._told(one, "plates.") for one in reworks]

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
        told = [self._told(rework, one.name) for rework in self._for_size(one.name)]
        return self._listed[one.name].words, [
            rework
            for rework in told
            if not rework.changes or self._agrees(rework.changes, rework.anew, {one.name})
        ]

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
            return keyway(design, int(inner[0]), deep, wide)
        if group == "plates" and inner[1].endswith("_bore") and over:
            return plate_bore(design, inner[1].removesuffix("_bore").replace("_", " "), value)
        if group == "bushes" and inner[0].endswith("_bore") and over:
            name = inner[0].removesuffix("_bore")
            seat = (
                "idler.pin_diameter"
                if name == "idler"
                else f"shafts.{design.clutch.shaft}.gear_seat"
            )
            if name in OWN_BUSHES:
                seat = f"shafts.{OWN_BUSHES[name][0]}.bearing_seat"
            return bush(design, name, value, shaft_turned=seat in made.values)
        if group == "shafts" and inner[1] in SEATS and value < ought.least:
            return shaft(design, int(inner[0]), value, ought, SEATS[inner[1]])
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
        if size == "base_tangent" and value < ought.least:
            return self._for_thin_teeth(name)
        if size == "bore" and value > ought.most:
            turned = f"shafts.{shaft_of(name)}.gear_seat" in made.values
            return hub(design, name, value, shop, teeth_cut=cut, shaft_turned=turned)
        return []

    def _for_thin_teeth(self, name: str) -> list[Rework]:
        """Ways out for teeth cut too thin: whether nothing fails by them is asked of the machine without them."""
        design, made, shop = self._design, self._made, self._shop
        found = self._found
        others = review(design, made.without({f"gears.{name}.base_tangent"}), shop)
        holds = {one.id for one in found.worse} <= {one.id for one in others.worse}
        sizes = trusted(made, found.findings)
        return thin_teeth(design, name, found.machine, sizes, shop, holds=holds)

    def _told(self, rework: Rework, spoiled: str) -> Rework:
        """Name the sizes that are there and come out of their file, and say what else must be made anew."""
        anew = rework.anew
        if not rework.changes and not anew:
            part = ".".join(spoiled.split(".")[:2]) + "."
            anew = (part if rework.effort == 3 and part != f"{spoiled}." else spoiled,)
        begins = tuple(one for one in anew if one.endswith("."))
        there = tuple(
            one
            for one in (*self._made.values, *self._made.places)
            if one in anew or one.startswith(begins)
        )
        more = []
        if rework.changes:
            after = wanted(self._design.with_values(rework.changes), self._shop)
            more = [
                f"a new blank for the {after[one].words.removeprefix('outside of the ')} too: {show(self._made.values[one], 'mm', self._design.show_units, 5)} is too small"
                for one in there
                if one != spoiled
                and one.endswith(".outside_diameter")
                and self._made.values[one] < after[one].least
            ]
        return replace(rework, anew=there, consequences=(*rework.consequences, *more))

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
