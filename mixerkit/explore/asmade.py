"""The machine as made: measurements judged, every check run again with them, and a hold point before each cut."""

from __future__ import annotations

import contextlib
from dataclasses import dataclass, field

import numpy as np

from mixerkit.checks import Check
from mixerkit.design import Design
from mixerkit.machine import Machine
from mixerkit.parts import measuring
from mixerkit.parts.gear_pairs import shifts_of
from mixerkit.shop.blanks import GEARS, gear_blank, gears
from mixerkit.shop.head_setting import judge_indexing
from mixerkit.shop.holes import PLATES
from mixerkit.shop.measured import Finding, Wanted, judge
from mixerkit.shop.measurements import Measurements
from mixerkit.shop.plate_pattern import judge_plate
from mixerkit.shop.wanted_sizes import wanted
from mixerkit.shop.workshop import Workshop
from mixerkit.spec import Spec
from mixerkit.units import InputError, show

__all__ = ["HoldPoint", "Review", "as_made", "distance_as_bored", "review"]


_AT_THE_BOX = ("slow end", "adapting bush")
"""Parts whose checks ask for shaft 1's end in the box."""
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


@dataclass(frozen=True)
class Review:
    """What the measurements say.

    Attributes
    ----------
    design : Design
        With the measured sizes in it.
    machine : Machine
        Of that design.
    findings : tuple of Finding
        One for each measurement; those of kind ``"good"`` too.
    worse : tuple of Check
        Checks that hold as drawn and fail as made.
    hold_points : tuple of HoldPoint
        In the order of work.
    """

    design: Design
    machine: Machine
    findings: tuple[Finding, ...]
    worse: tuple[Check, ...]
    hold_points: tuple[HoldPoint, ...] = field(default=())

    @property
    def alarms(self) -> tuple[Finding, ...]:
        """Findings that are not good."""
        return tuple(one for one in self.findings if one.kind != "good")


def review(design: Design, made: Measurements, shop: Workshop) -> Review:
    """Judge measurements, run every check again with them, and say at each hold point whether to go on.

    Parameters
    ----------
    design : Design
    made : Measurements
    shop : Workshop

    Returns
    -------
    Review
    """
    spec, system = design, design.show_units
    listed = wanted(spec, shop, system)
    findings = _findings(spec, made, shop, listed, system)
    actual = as_made(design, made, findings)
    found = Machine(actual)
    before = {(one.part, one.name): one.verdict for one in Machine(design).checks}
    checks = [one for one in found.checks if one.part not in _AT_THE_BOX]
    checks += _at_the_box(design, actual, found, made, findings)
    worse = tuple(
        one
        for one in checks
        if one.verdict == "fails" and before.get((one.part, one.name)) != "fails"
    )
    hold_points = tuple(
        _hold_point(step, made, findings, worse, listed) for step in _steps(spec, shop)
    )
    return Review(actual, found, tuple(findings), worse, hold_points)


def _findings(
    spec: Spec, made: Measurements, shop: Workshop, listed: dict[str, Wanted], system: str
) -> list[Finding]:
    findings = [
        judge(listed[name], value, system) for name, value in made.values.items() if name in listed
    ]
    for name in gears(spec):
        one = judge_indexing(spec, name, made.values, shop)
        if one:
            findings.append(one)
    for which in PLATES:
        findings += judge_plate(spec, which, made.places, system)
    distances = [distance for which in PLATES if (distance := distance_as_bored(made, which))]
    if len(distances) == 2 and abs(distances[0] - distances[1]) > 0.05:
        apart = abs(distances[0] - distances[1])
        tilt = 1e3 * apart / spec.housing.plate_spacing
        findings.append(
            Finding(
                "plates",
                "off",
                f"the shafts stand {show(round(apart, 3), 'mm', system)} further apart in one plate than in the other: they are not "
                f"parallel by {tilt:.2f} mrad, and teeth bear at one end.",
            )
        )
    return findings


def distance_as_bored(made: Measurements, which: str) -> float | None:
    """Distance of the shafts in one plate: as measured, or from the places of its bores."""
    direct = made.values.get(f"plates.{which}.centre_distance")
    if direct is not None:
        return direct
    names = [f"plates.{which}.shaft_{number}" for number in (1, 2)]
    if any(one not in made.places for one in names):
        return None
    (x_1, y_1), (x_2, y_2) = (made.places[one] for one in names)
    return float(np.hypot(x_1 - x_2, y_1 - y_2))


def as_made(design: Design, made: Measurements, findings: list[Finding]) -> Design:
    """Put measured sizes into a design: centre distance, tooth thickness, box, shafts.

    A measurement that is a slip, or belongs to another part, is left out: it is no size.

    Parameters
    ----------
    design : Design
    made : Measurements
    findings : list of Finding
        What the measurements were judged to be.

    Returns
    -------
    Design
    """
    doubted = {one.name for one in findings if one.kind in ("slip", "wrong")}
    sizes = {name: value for name, value in made.values.items() if name not in doubted}
    return _taken(
        design,
        _distance_made(made, doubted)
        | _thinnings_made(design, sizes)
        | _box_made(sizes)
        | _shafts_made(design, sizes),
    )


def _distance_made(made: Measurements, doubted: set[str]) -> dict[str, object]:
    """Centre distance as bored, the mean of both plates."""
    distances = [
        distance
        for which in PLATES
        if not {f"plates.{which}", f"plates.{which}.centre_distance"} & doubted
        and (distance := distance_as_bored(made, which))
    ]
    return {"housing.centre_distance": f"{np.mean(distances):.6g} mm"} if distances else {}


def _thinnings_made(spec: Spec, sizes: dict[str, float]) -> dict[str, object]:
    """Thinning of each path's teeth, the mean of its gears measured."""
    values: dict[str, object] = {}
    for path_name in ("direct", "idler"):
        thin = [
            _thinning(spec, gear, sizes[f"gears.{gear}.base_tangent"])
            for gear in gears(spec)
            if GEARS[gear][0] == path_name and f"gears.{gear}.base_tangent" in sizes
        ]
        if thin:
            values[f"paths.{path_name}.thinning"] = (
                f"{min(max(float(np.mean(thin)), 0.0), 2.0):.4f} mm"
            )
    return values


def _box_made(sizes: dict[str, float]) -> dict[str, object]:
    """Bores of the box as measured."""
    return {
        f"reducer.{name}": f"{sizes[f'box.{name}']:.6g} mm"
        for name in ("input_bore", "output_bore")
        if f"box.{name}" in sizes
    }


def _shafts_made(spec: Spec, sizes: dict[str, float]) -> dict[str, object]:
    """Diameter of each shaft that came out thinner than its fits ask for."""
    values: dict[str, object] = {}
    for number in (1, 2):
        seats = [
            sizes[at]
            for at in (f"shafts.{number}.bearing_seat", f"shafts.{number}.gear_seat")
            if at in sizes
        ]
        drawn = getattr(spec, f"shaft_{number}").diameter
        # a hundredth under its nominal is a fit, not another shaft
        if seats and min(seats) < drawn - 0.1:
            values[f"shaft_{number}.diameter"] = f"{min(seats):.6g} mm"
    return values


def _at_the_box(
    design: Design, actual: Design, found: Machine, made: Measurements, findings: list[Finding]
) -> list[Check]:
    """Checks of shaft 1's end in the box, which is not its seats: they may be spoiled and the end not.

    Of the end as measured; where it is not, of the size drawn and of the seats as made, whichever fails.
    """
    drawn, end = design.shaft_1.diameter, made.values.get("shafts.1.box_end")
    known = not any(
        one.name == "shafts.1.box_end" and one.kind in ("slip", "wrong") for one in findings
    )
    # as with the seats: a little under the drawn size is a fit, and the bush is then thinner than reckoned
    known = known and end is not None
    size = end if known and end is not None and not drawn - 0.1 <= end <= drawn else drawn
    # a size that no shaft can have is found to be off already, and leaves the drawn one
    own = _taken(
        _taken(actual, {"shaft_1.diameter": f"{drawn:.6g} mm"}),
        {"shaft_1.diameter": f"{size:.6g} mm"},
    )
    checks = [one for one in Machine(own).checks if one.part in _AT_THE_BOX]
    if known:
        return checks
    failing = {one.id for one in checks if one.verdict == "fails"}
    seats = [one for one in found.checks if one.part in _AT_THE_BOX and one.verdict == "fails"]
    return checks + [one for one in seats if one.id not in failing]


def _taken(design: Design, values: dict[str, object]) -> Design:
    """Put in every size that a design can have; what none can have is found to be off already."""
    for name, value in values.items():
        with contextlib.suppress(InputError):
            design = design.with_values({name: value})
    return design


def _thinning(spec: Spec, gear: str, measured: float) -> float:
    path_name, place = GEARS[gear]
    path = getattr(spec.paths, path_name)
    count, shift = path.tooth_counts[place], shifts_of(path)[place]
    spanned = int(measuring.base_tangent_teeth(count, shift))
    return float(measuring.thinning_from_base_tangent(measured, path.module, count, spanned, shift))


@dataclass(frozen=True)
class _Step:
    """One step of the work: what must have been measured, and which stages' checks must hold."""

    words: str
    needs: tuple[str, ...]
    stages: tuple[str, ...] = ()
    distance: bool = False
    elsewhere: tuple[str, ...] = ()
    """How parts' names end that are of another shaft: their faults stop that one's steps."""

    def waits_for(self, one: Check) -> bool:
        """Whether a check must hold before this step."""
        return one.stage in self.stages and not one.part.endswith(self.elsewhere)


def _steps(spec: Spec, shop: Workshop) -> list[_Step]:
    steps = [
        _Step(
            "turn the adapting bush and shaft 1's end for the box",
            ("box.output_bore",),
            ("reducer",),
        ),
        _Step("bore the plates", ("plates.reducer.thickness", "plates.trough.thickness")),
    ]
    for name in gears(spec):
        at = f"gears.{name}"
        steps.append(
            _Step(
                f"cut the teeth of the {gear_blank(spec, name, shop).words}",
                (f"{at}.outside_diameter", f"{at}.bore", f"{at}.cutter_number", f"{at}.circle"),
                ("gears", "gear paths"),
                True,
            )
        )
    steps += [
        _Step(
            "press the bushes into gears and idler",
            (
                *(
                    f"gears.{name}.bore"
                    for name in gears(spec)
                    if gear_blank(spec, name, shop).bush
                ),
                "bushes.free_gear_outside",
                "bushes.idler_outside",
            ),
        ),
        _Step(
            "put gears on their shafts",
            (
                "bushes.free_gear_bore",
                "bushes.idler_bore",
                "idler.pin_diameter",
                *(f"gears.{name}.base_tangent" for name in gears(spec)),
            ),
        ),
    ]
    for number in (1, 2):
        elsewhere = (
            f"shaft {3 - number}",
            *(_OF_THE_CLUTCH if number != spec.clutch.shaft else ()),
        )
        steps.append(
            _Step(
                f"mill the keyways of shaft {number}",
                (f"shafts.{number}.gear_seat",),
                ("shafts",),
                elsewhere=elsewhere,
            )
        )
        steps.append(
            _Step(
                f"put shaft {number} into its bearings",
                (
                    f"shafts.{number}.bearing_seat",
                    f"shafts.{number}.keyway_depth",
                    *(f"plates.{which}.shaft_{number}_bore" for which in PLATES),
                ),
                ("shafts", "bearings"),
                elsewhere=elsewhere,
            )
        )
    steps.append(_Step("put the motor into the box", ("box.input_bore",), ("reducer",)))
    steps.append(
        _Step("put shaft 1 into the box", ("shafts.1.box_end", "box.output_bore"), ("reducer",))
    )
    return steps


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
            or (step.distance and one.name.startswith("plates"))
        )

    bad = [one.words for one in findings if one.kind != "good" and concerns(one)]
    if not bad:
        bad = [one.sentence() for one in worse if step.waits_for(one)]
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
