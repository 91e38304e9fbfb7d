"""The machine as made: measurements judged, every check run again with them, and a hold point before each cut."""

from __future__ import annotations

import contextlib
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field

import numpy as np

from mixerkit.checks import Check
from mixerkit.design import Design
from mixerkit.explore.holdpoints import HoldPoint, hold_points
from mixerkit.explore.thinned import thinned
from mixerkit.machine import Machine
from mixerkit.parts.mesh_checks import ENOUGH, TOO_MUCH
from mixerkit.parts.zones import BOX, as_turned, own, seat, seat_typed, section_of
from mixerkit.shop.blanks import gears
from mixerkit.shop.head_setting import judge_indexing
from mixerkit.shop.holes import PLATES
from mixerkit.shop.measured import Finding, Wanted, judge
from mixerkit.shop.measurements import Measurements, distance_as_bored
from mixerkit.shop.plate_pattern import judge_plate
from mixerkit.shop.wanted_sizes import SEATS, wanted
from mixerkit.shop.workshop import Workshop
from mixerkit.spec import Spec
from mixerkit.units import InputError, show

__all__ = ["Review", "as_made", "facts_made", "review", "trusted"]


_AT_THE_BOX = ("slow end", "adapting bush")
"""Parts whose checks ask for shaft 1's end in the box."""
_ALIKE = 0.001
"""Thinnings in mm that nobody can tell apart."""


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


def review(design: Design, made: Measurements, shop: Workshop | None) -> Review:
    """Judge measurements, run every check again with them, and say at each hold point whether to go on.

    Parameters
    ----------
    design : Design
    made : Measurements
    shop : Workshop, or None

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
    checks = _by_teeth(design, actual, found, trusted(made, findings))
    checks = [one for one in checks if one.part not in _AT_THE_BOX]
    checks += _at_the_box(design, actual, found, made, findings)
    worse = tuple(
        one
        for one in checks
        if one.verdict == "fails" and before.get((one.part, one.name)) != "fails"
    )
    points = hold_points(spec, shop, made, findings, worse, listed)
    return Review(actual, found, tuple(findings), worse, points)


def _findings(
    spec: Spec, made: Measurements, shop: Workshop | None, listed: dict[str, Wanted], system: str
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
    doubted, sizes = _doubted(findings), trusted(made, findings)
    return _taken(
        design,
        _distance_made(made, doubted)
        | _thinnings_made(design, sizes)
        | _box_made(sizes)
        | _shafts_made(design, sizes),
    )


def _doubted(findings: Iterable[Finding]) -> set[str]:
    return {one.name for one in findings if one.kind in ("slip", "wrong")}


def trusted(made: Measurements, findings: Iterable[Finding]) -> dict[str, float]:
    """Sizes in mm by dotted name, but for what is a slip or belongs to another part.

    Parameters
    ----------
    made : Measurements
    findings : iterable of Finding
        What the measurements were judged to be.

    Returns
    -------
    dict of str to float
    """
    doubted = _doubted(findings)
    return {name: value for name, value in made.values.items() if name not in doubted}


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
    """Thinning of each path's teeth with which its loosest mesh has the backlash that was measured."""
    return {
        f"paths.{path_name}.thinning": f"{one.loose:.4f} mm"
        for path_name, one in thinned(spec, sizes).items()
    }


def _by_teeth(
    design: Design, actual: Design, found: Machine, sizes: dict[str, float]
) -> list[Check]:
    """Checks of the machine as made, its gears being as strong as the thinnest of them, and as tight as the tightest.

    A path has one thinning for all its gears, and that of the loosest mesh stands in it.
    """
    checks = {one.id: one for one in found.checks}
    of = thinned(design, sizes)
    for which, asked in (("thinnest", False), ("tight", True)):
        values = {
            f"paths.{path_name}.thinning": f"{getattr(one, which):.4f} mm"
            for path_name, one in of.items()
            if abs(getattr(one, which) - one.loose) > _ALIKE
        }
        again = Machine(_taken(actual, values)).of_stage("gears") if values else ()
        checks |= {
            one.id: one
            for one in again
            if one.verdict == "fails" and one.name != TOO_MUCH and (one.name == ENOUGH) == asked
        }
    return list(checks.values())


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
        shaft = own(spec, number)
        now = [shaft.diameter, *shaft.step_diameters]
        for size, name in SEATS.items():
            made = sizes.get(f"shafts.{number}.{size}", np.inf)
            # a hundredth under its nominal is a fit, not another shaft
            if made < as_turned(spec, number, name) - 0.1:
                section = section_of(spec, number, name)
                now[section] = min(now[section], made)
        if now[0] < shaft.diameter:
            values[f"shaft_{number}.diameter"] = f"{now[0]:.6g} mm"
        if tuple(now[1:]) != shaft.step_diameters:
            values[f"shaft_{number}.step_diameters"] = [f"{one:.6g} mm" for one in now[1:]]
    return values


def facts_made(
    design: Design, made: Measurements, shop: Workshop | None
) -> dict[str, tuple[object, bool]]:
    """Facts of a design that were measured since, by dotted name: the size, and whether the design has it.

    A measurement that is a slip, or of another part, is left out: it measured nothing.

    Parameters
    ----------
    design : Design
    made : Measurements
    shop : Workshop, or None

    Returns
    -------
    dict of str to (object, bool)
    """
    findings = _findings(
        design, made, shop, wanted(design, shop, design.show_units), design.show_units
    )
    good = {one.name for one in findings if one.kind == "good"}
    return {
        name: (size, name.replace("reducer.", "box.") in good)
        for name, size in _box_made(trusted(made, findings)).items()
    }


def _at_the_box(
    design: Design, actual: Design, found: Machine, made: Measurements, findings: list[Finding]
) -> list[Check]:
    """Checks of shaft 1's end in the box, which is not its seats: they may be spoiled and the end not.

    Of the end as measured; where it is not, of the size drawn and of the seats as made, whichever fails.
    """
    drawn, end = seat(design, 1, BOX), made.values.get("shafts.1.box_end")
    known = not any(
        one.name == "shafts.1.box_end" and one.kind in ("slip", "wrong") for one in findings
    )
    # as with the seats: a little under the drawn size is a fit, and the bush is then thinner than reckoned
    known = known and end is not None
    size = end if known and end is not None and not drawn - 0.1 <= end <= drawn else drawn
    # a size that no shaft can have is found to be off already, and leaves the drawn one
    at_end = _taken(
        _taken(actual, seat_typed(design, 1, BOX, drawn)), seat_typed(design, 1, BOX, size)
    )
    checks = [one for one in Machine(at_end).checks if one.part in _AT_THE_BOX]
    if known:
        return checks
    failing = {one.id for one in checks if one.verdict == "fails"}
    seats = [one for one in found.checks if one.part in _AT_THE_BOX and one.verdict == "fails"]
    return checks + [one for one in seats if one.id not in failing]


def _taken(design: Design, values: Mapping[str, object]) -> Design:
    """Put in every size that a design can have; what none can have is found to be off already."""
    for name, value in values.items():
        with contextlib.suppress(InputError):
            design = design.with_values({name: value})
    return design
