"""Whether the fields of a design agree with each other, where it takes two of them to see a mistake."""

from __future__ import annotations

from collections.abc import Collection

from mixerkit.fields import example_of, kind_of, misfits
from mixerkit.spec.load import TESTED, Clay
from mixerkit.spec.whole import Spec

__all__ = ["GREATEST_SLIP", "disagreements", "untested"]

GREATEST_SLIP = 0.15
"""Beyond it a plate is not an induction motor's: small ones lag 10 %, high-slip ones 13 % (common practice)."""


def disagreements(spec: Spec) -> list[str]:
    """Say of each pair of fields that contradict each other what is wanted.

    Parameters
    ----------
    spec : Spec

    Returns
    -------
    list of str
        One sentence each; empty if all agree.
    """
    return [
        *_shaft_faults(spec),
        *_gear_faults(spec),
        *_position_faults(spec),
        *_input_faults(spec),
        *_count_faults(spec),
        *misfits(Spec, spec.drafted, "drafted"),
    ]


def untested(way: str, stated: Collection[str]) -> list[str]:
    """Say of each field that the clay's strength is found by and that nobody stated what is wanted.

    Parameters
    ----------
    way : str
        Value of ``clay.strength_from``.
    stated : collection of str
        Names of the fields of ``[clay]`` that are stated.

    Returns
    -------
    list of str

    Examples
    --------
    >>> untested("named body", ["strength_from"])[0][:60]
    'clay.body: missing; strength_from = "named body" rests on it'
    """
    return [
        f'clay.{name}: missing; strength_from = "{way}" rests on it, for example {name} = '
        f"{example_of(kind_of(Clay, name))}."
        for name in TESTED.get(way, ())
        if name not in stated
    ]


def _position_faults(spec: Spec) -> list[str]:
    """Gears that stand outside the plates."""
    faults = []
    for name in ("direct", "idler"):
        path = getattr(spec.paths, name)
        if path.position >= spec.housing.plate_spacing:
            faults.append(
                f'paths.{name}.position: "{getattr(spec.paths, name).given("position"):~P}" lies outside the plates; '
                f"less than housing.plate_spacing ({spec.housing.given('plate_spacing'):~P}) is wanted."
            )
    return faults


def _count_faults(spec: Spec) -> list[str]:
    """Paddles without a blade, and counts of gears that turn the shafts the wrong way."""
    faults = []
    if spec.paddles.root_radius >= spec.paddles.tip_radius:
        faults.append(
            f'paddles.root_radius: "{spec.paddles.given("root_radius"):~P}" does not fit; less than '
            f'paddles.tip_radius ({spec.paddles.given("tip_radius"):~P}) is wanted, for example "25 mm".'
        )
    direct, idler = (list(one.tooth_counts) for one in (spec.paths.direct, spec.paths.idler))
    if len(direct) % 2:
        faults.append(
            f"paths.direct.tooth_counts: {direct} turns both shafts the same way; two gears are wanted, "
            "for example [30, 30]."
        )
    elif len(direct) > 2:
        faults.append(
            f"paths.direct.tooth_counts: {len(direct)} gears do not fit; those between the shafts would need "
            "pins, bushes and places that this kit does not work out, and two gears are wanted, for example [30, 30]."
        )
    if not len(idler) % 2:
        faults.append(
            f"paths.idler.tooth_counts: {idler} turns the shafts against each other; three gears are wanted, "
            "for example [22, 20, 22]."
        )
    return faults


def _shaft_faults(spec: Spec) -> list[str]:
    """Mistakes in shafts, sleeve and paddles that need two fields to be seen."""
    faults = []
    for name in ("shaft_1", "shaft_2"):
        one = getattr(spec, name)
        if len(one.step_at) != len(one.step_diameters):
            faults.append(
                f"{name}.step_diameters: {len(one.step_diameters)} diameters for {len(one.step_at)} positions "
                f"do not fit; as many as {name}.step_at are wanted."
            )
        if list(one.step_at) != sorted(set(one.step_at)):
            faults.append(
                f"{name}.step_at: the positions do not rise; each one beyond the one before is wanted, "
                'for example ["0 mm", "200 mm"].'
            )
    keyed = {1, spec.clutch.shaft} | ({1, 2} if spec.hubs.gear == "key" else set())
    return [
        *faults,
        *(
            f"shaft_{number}.keyway: false does not fit; box or fuse, clutch and hubs.gear = "
            f'"{spec.hubs.gear}" put keys in this shaft, and true is wanted.'
            for number in sorted(keyed)
            if not getattr(spec, f"shaft_{number}").keyway
        ),
    ]


def _gear_faults(spec: Spec) -> list[str]:
    """Mistakes in gears and clutch that need two fields, or a table, to be seen."""
    faults = []
    for name in ("direct", "idler"):
        path = getattr(spec.paths, name)
        if len(path.profile_shift_coefficients) not in (0, len(path.tooth_counts)):
            faults.append(
                f"paths.{name}.profile_shift_coefficients: {list(path.profile_shift_coefficients)} does not fit; one number for "
                f"each of the {len(path.tooth_counts)} gears is wanted, or none."
            )
    one = spec.clutch
    if one.inner_diameter >= one.outer_diameter:
        faults.append(
            f'clutch.inner_diameter: "{spec.clutch.given("inner_diameter"):~P}" does not fit; less than '
            f'clutch.outer_diameter ({spec.clutch.given("outer_diameter"):~P}) is wanted, for example "60 mm".'
        )
    if one.overlap > one.dog_height:
        faults.append(
            f'clutch.overlap: "{spec.clutch.given("overlap"):~P}" does not fit; at most clutch.dog_height '
            f'({spec.clutch.given("dog_height"):~P}) is wanted, for example "8 mm".'
        )
    return faults


def _input_faults(spec: Spec) -> list[str]:
    """Mistakes that need two fields to be seen: clay, socket, motor, ranges."""
    clay, motor, ranges = spec.clay, spec.motor, spec.ranges
    faults = []
    if clay.plastic_limit >= clay.liquid_limit:
        faults.append(
            f"clay.plastic_limit: {clay.plastic_limit:g} does not fit; less than clay.liquid_limit "
            f"({clay.liquid_limit:g}) is wanted, for example 0.22."
        )
    if spec.supply.phases == 2:
        faults.append("supply.phases: 2 does not fit; 1 or 3 is wanted, for example 1.")
    if motor.poles % 2:
        faults.append(
            f"motor.poles: {motor.poles} does not fit; an even count is wanted, for example 4."
        )
    else:
        turning_field = 120 * motor.rated_frequency / motor.poles
        least = (1 - GREATEST_SLIP) * turning_field
        if motor.rated_speed >= turning_field:
            faults.append(
                f'motor.rated_speed: "{motor.given("rated_speed"):~P}" does not fit; less than {turning_field:g} rpm, the '
                f'speed of the field of {motor.poles} poles, is wanted, for example "{0.96 * turning_field:.0f} rpm".'
            )
        elif motor.rated_speed < least:
            faults.append(
                f'motor.rated_speed: "{motor.given("rated_speed"):~P}" does not fit; no induction motor of {motor.poles} poles '
                f"(motor.poles) lags so far behind its field of {turning_field:g} rpm, at least {least:g} rpm is "
                f'wanted, for example "{0.96 * turning_field:.0f} rpm".'
            )
    if ranges.start_low > ranges.start_high or 0 < ranges.strength_high < ranges.strength_low:
        faults.append("ranges: a low end lies above its high end; low before high is wanted.")
    belt = spec.motor_drive.belt
    if belt.friction_low > belt.friction_high:
        faults.append(
            f"motor_drive.belt.friction_low: {belt.friction_low:g} does not fit; at most motor_drive.belt.friction_high "
            f"({belt.friction_high:g}) is wanted, for example 0.4."
        )
    return faults
