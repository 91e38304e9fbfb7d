"""The V-belts of a design as they are set: length bought, tension, the torque at which they slip, pull, life."""

from __future__ import annotations

from math import ceil, radians, sin

import numpy as np

from mixerkit.drive import belt
from mixerkit.drive.motor_drive import Wheels, rim_speed, wheels
from mixerkit.frozen import result
from mixerkit.results import LoadedMachine
from mixerkit.tables import table

__all__ = ["NEW_BELT", "STRETCH", "BeltSet", "belt_set"]

NEW_BELT = 1.3
"""By which new belts are drawn up more than they keep after some hours (common practice)."""
STRETCH = 0.015
"""Share of its length by which a belt is stretched on and in use (common practice)."""


@result
class BeltSet:
    """The belts of a design.

    Attributes
    ----------
    both : Wheels
        Its pulleys.
    speed : float
        Of the belts in m/s, the motor in step with its field.
    swing : float
        Part of the tension in N that the belt's own turning takes off its grip.
    asked : float
        Greatest torque at the motor while mixing or starting, in N*m.
    pull : float
        Of one belt round the motor's pulley in N, for that torque and the service factor.
    tension : float
        Of each strand of one belt at rest, in N.
    slips, slips_at_most : float
        Torque at the motor at which all belts slip, in N*m: worn and damp while running, and new and dry at rest.
    across : float
        Pull on each shaft in N, new belts.
    bought, moved : float
        Nearest length that is made, and by how much the motor is moved for it and to stretch it, in mm.
    tight : float
        Tension of the tight strand of one belt while mixing, in N.
    hours : float
        That the belts last.
    """

    both: Wheels
    speed: float
    swing: float
    asked: float
    pull: float
    tension: float
    slips: float
    slips_at_most: float
    across: float
    bought: float
    moved: float
    tight: float
    hours: float


def belt_set(machine: LoadedMachine) -> BeltSet:
    """Work out the belts of a design.

    Parameters
    ----------
    machine : LoadedMachine
        With V-belts whose pulleys do not stand in each other.

    Returns
    -------
    BeltSet

    References
    ----------
    :mod:`mixerkit.drive.belt`; tension at rest with what swings outwards added, as makers of belts have it
    (common practice).
    """
    spec, flow, cases = machine.spec, machine.power_flow, machine.load_cases
    one, both = spec.motor_drive.belt, wheels(spec)
    row, angle = both.row, both.wrap
    speed = rim_speed(spec, flow.abilities.field)
    swing = row["mass_per_length"] * speed**2
    torque = np.abs(flow.torque_at_motor)
    mixing = float(torque[cases.mixing].max())
    asked = max(mixing, float(torque[cases.starting].max()))
    # newtons of one belt at the motor's pulley for a newton metre there
    lever = 2e3 / both.motor / one.belts
    service = spec.motor_drive.service_factor
    pull = service * asked * lever
    needed = belt.grip_tension.formula(pull, angle, one.friction_low) + swing
    # rounded up, as it is set
    tension = one.tension or float(ceil(needed - 1e-9))
    grips = belt.slip_pull.formula(tension - swing, angle, one.friction_low)
    grips_new = belt.slip_pull.formula(NEW_BELT * tension, angle, one.friction_high)
    bought, moved = _length(one.section, both)
    tight = tension + service * mixing * lever / 2
    return BeltSet(
        both=both,
        speed=speed,
        swing=float(swing),
        asked=asked,
        pull=float(pull),
        tension=tension,
        slips=float(grips / lever),
        slips_at_most=float(grips_new / lever),
        across=2 * one.belts * NEW_BELT * tension * sin(radians(angle / 2)),
        bought=bought,
        moved=moved,
        tight=tight,
        hours=_hours(both, tight, bought, speed),
    )


def _length(section: str, both: Wheels) -> tuple[float, float]:
    """Nearest length that is made, and by how much the motor is moved for it and to stretch it, in mm."""
    made = table("belt_lengths").only("section", section).column("length")
    bought = float(made[np.abs(made - both.length).argmin()])
    centre = float(belt.centre_for_length.formula(both.small, both.large, bought))
    return bought, abs(centre - both.centre) + STRETCH * bought


def _hours(both: Wheels, tight: float, long: float, speed: float) -> float:
    """Hours until bending round both pulleys has tired the belts, no more than what is proven."""
    row = both.row
    at_small, at_large = (tight + row["bending"] / size for size in (both.small, both.large))
    passes = float(belt.belt_passes.formula(at_small, at_large, row["strength"], row["exponent"]))
    return min(passes, belt.MOST_PASSES) * long / 1e3 / speed / 3600
