"""Hold points: whether to go on with each step of the work, by what is measured and what holds as made."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from mixerkit.checks import Check
from mixerkit.drive.reducer import adapting_bush
from mixerkit.parts.zones import BOX, seat
from mixerkit.shop.blanks import gear_blank, gears
from mixerkit.shop.holes import PLATES
from mixerkit.shop.measured import Finding, Wanted
from mixerkit.shop.measurements import Measurements, distance_as_bored
from mixerkit.shop.wanted_bushes import bushes_to_measure
from mixerkit.shop.wanted_sizes import seats_to_measure
from mixerkit.shop.workshop import Workshop
from mixerkit.spec import Spec

__all__ = ["HoldPoint", "hold_points"]

_PATTERNS = ("plates", *(f"plates.{which}" for which in PLATES))
"""Names of what is found of all bores of a plate, or of both plates, together."""
_OF_THE_CLUTCH = ("sleeve", "bushes of the free gears")
"""Parts that sit on the clutch's shaft and do not bear its number in their names."""


@dataclass(frozen=True)
class HoldPoint:
    """Whether to go on with one step of the work.

    Attributes
    ----------
    step : str
    state : str
        ``"cut"``, ``"stop"`` or ``"measure first"``.
    words : tuple of str
        Why it stops, or what to measure.
    """

    step: str
    state: str
    words: tuple[str, ...] = ()

    def sentence(self) -> str:
        """Say the hold point in one line."""
        if self.state == "cut":
            return f"{self.step}: cut."
        if self.state == "stop":
            return f"{self.step}: stop, because {' '.join(self.words)}"
        return f"{self.step}: measure this first: {', '.join(self.words)}."


def hold_points(
    spec: Spec,
    shop: Workshop | None,
    made: Measurements,
    findings: list[Finding],
    worse: tuple[Check, ...],
    listed: dict[str, Wanted],
) -> tuple[HoldPoint, ...]:
    """Say at each step of the work whether to go on.

    Parameters
    ----------
    spec : Spec
    shop : Workshop, or None
    made : Measurements
    findings : list of Finding
        What the measurements were judged to be.
    worse : tuple of Check
        Checks that hold as drawn and fail as made.
    listed : dict of str to Wanted
        What each size ought to be.

    Returns
    -------
    tuple of HoldPoint
        In the order of work.
    """
    steps = (
        _end_for_box(spec),
        *_to_cut(spec, shop),
        *_to_fit(spec, shop),
        *_of_shaft(spec, 1),
        *_of_shaft(spec, 2),
        _motor_on(spec),
        _Step("put shaft 1 into the box", ("shafts.1.box_end", "box.output_bore"), ("reducer",)),
    )
    return tuple(_hold_point(step, made, findings, worse, listed) for step in steps)


@dataclass(frozen=True)
class _Step:
    """One step of the work: what must have been measured, and which stages' checks must hold."""

    words: str
    needs: tuple[str, ...]
    stages: tuple[str, ...] = ()
    distance: bool = False
    plates: str = ""
    """Whose faults stop it: of any size or place of the plates, or of a pattern that no shaft goes through."""
    elsewhere: tuple[str, ...] = ()
    """How parts' names end that are of another shaft: their faults stop that one's steps."""
    on: tuple[str, ...] = ()
    """How the sizes' names begin of the parts that are cut here: nothing more is cut on one that is spoiled."""

    def wasted_on(self, one: Finding) -> bool:
        """Whether what was found has spoiled the part that this step cuts."""
        return one.spoiled and one.name.startswith(self.on)

    def waits_for(self, one: Check) -> bool:
        """Whether a check must hold before this step."""
        return one.stage in self.stages and not one.part.endswith(self.elsewhere)

    def stopped_by_plates(self, one: Finding) -> bool:
        """Whether what was found of the plates stops this step: what is bored wrong is not bored on."""
        if self.plates == "any":
            return one.name.startswith("plates")
        of_pattern = one.name in _PATTERNS and (one.kind == "wrong" or one.name == "plates")
        return self.plates == "pattern" and of_pattern


def _motor_on(spec: Spec) -> _Step:
    """The motor on its flange, or set up with what drives the box."""
    stages = ("reducer", "motor drive")
    if spec.motor_drive.kind == "flange":
        return _Step("put the motor into the box", ("box.input_bore",), stages)
    return _Step(f"set up motor and box with their {spec.motor_drive.kind}", (), stages)


def _end_for_box(spec: Spec) -> _Step:
    """Shaft 1's end for the box, and the bush between them where it is thinner than the bore."""
    bush = adapting_bush(spec.reducer.output_bore, seat(spec, 1, BOX)).wall > 0
    return _Step(
        f"turn {'the adapting bush and ' if bush else ''}shaft 1's end for the box",
        ("box.output_bore",),
        ("reducer",),
        on=("shafts.1.",),
    )


def _to_cut(spec: Spec, shop: Workshop | None) -> Iterator[_Step]:
    """Plates, and the teeth of each gear."""
    yield _Step(
        "bore the plates", ("plates.reducer.thickness", "plates.trough.thickness"), plates="any"
    )
    for name in gears(spec):
        at = f"gears.{name}"
        yield _Step(
            f"cut the teeth of the {gear_blank(spec, name, shop).words}",
            (f"{at}.outside_diameter", f"{at}.bore", f"{at}.cutter_number", f"{at}.circle"),
            ("gears", "gear paths"),
            distance=True,
            plates="any",
        )


def _to_fit(spec: Spec, shop: Workshop | None) -> Iterator[_Step]:
    """Bushes into gears, and gears onto shafts."""
    bushed = [name for name in gears(spec) if gear_blank(spec, name, shop).bush]
    yield _Step(
        "press the bushes into gears and idler",
        (
            *(f"gears.{name}.bore" for name in bushed),
            "bushes.free_gear_outside",
            "bushes.idler_outside",
        ),
        on=tuple(f"gears.{name}." for name in bushed),
    )
    yield _Step(
        "put gears on their shafts",
        (
            "bushes.free_gear_bore",
            "bushes.idler_bore",
            "idler.pin_diameter",
            *(f"gears.{name}.base_tangent" for name in gears(spec)),
        ),
    )


def _of_shaft(spec: Spec, number: int) -> Iterator[_Step]:
    """Keyways of a shaft, and the shaft into its bearings."""
    elsewhere = (
        f"shaft {3 - number}",
        *(_OF_THE_CLUTCH if number != spec.clutch.shaft else ()),
    )
    at = f"shafts.{number}"
    yield _Step(
        f"mill the keyways of shaft {number}",
        tuple(seats_to_measure(spec, number, "gear_seat")),
        ("shafts",),
        elsewhere=elsewhere,
        on=(f"{at}.",),
    )
    if spec.bearings.kind == "plain bush":
        yield _Step(
            f"press the bushes of shaft {number} into plates and far wall",
            (
                *(f"plates.{which}.shaft_{number}_bore" for which in PLATES),
                *bushes_to_measure(spec, number, "outside"),
            ),
            plates="pattern",
            elsewhere=elsewhere,
        )
    yield _Step(
        f"put shaft {number} into its bearings",
        (
            *seats_to_measure(spec, number, "bearing_seat"),
            *bushes_to_measure(spec, number, "bore"),
            f"{at}.keyway_depth",
            *(f"plates.{which}.shaft_{number}_bore" for which in PLATES),
        ),
        ("shafts", "bearings"),
        plates="pattern",
        elsewhere=elsewhere,
    )


def _hold_point(
    step: _Step,
    made: Measurements,
    findings: list[Finding],
    worse: tuple[Check, ...],
    listed: dict[str, Wanted],
) -> HoldPoint:
    needs = set(step.needs)
    of_gear = {one.rsplit(".", 1)[0] + "." for one in needs if one.endswith(".circle")}

    def concerns(one: Finding) -> bool:
        return (
            one.name in needs
            or any(one.name.startswith(gear) for gear in of_gear)
            or step.stopped_by_plates(one)
        )

    bad = [one.words for one in findings if one.kind != "good" and concerns(one)]
    if not bad:
        wasted = [one.words for one in findings if step.wasted_on(one)]
        bad = [*wasted, *(one.sentence() for one in worse if step.waits_for(one))]
    if bad:
        return HoldPoint(step.words, "stop", tuple(bad))
    measured = set(made.values)
    missing = [_name_of(one, listed) for one in step.needs if one not in measured]
    if step.distance and not any(distance_as_bored(made, which) for which in PLATES):
        missing.append("distance of the shafts in the plates as bored")
    return (
        HoldPoint(step.words, "measure first", tuple(missing))
        if missing
        else HoldPoint(step.words, "cut")
    )


def _name_of(name: str, listed: dict[str, Wanted]) -> str:
    return (
        listed[name].words if name in listed else "turns, holes and circle set on the dividing head"
    )
