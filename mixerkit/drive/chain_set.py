"""The chain of a design as it is set: links, centre distance, power, the force in it and its pull."""

from __future__ import annotations

from math import ceil, pi

import numpy as np

from mixerkit.drive import chain
from mixerkit.drive.motor_drive import Wheels, rim_speed, wheels
from mixerkit.frozen import result
from mixerkit.parts.reduction import drive_ratio
from mixerkit.results import LoadedMachine

__all__ = ["ACROSS", "WORN", "ChainSet", "chain_set"]

ACROSS = 1.25
"""Pull across the shafts over the pull in the chain, with its slack strand and its jerks (common practice)."""
WORN = 0.01
"""Half of the share of its length by which a chain wears longer before it is done (common practice)."""


@result
class ChainSet:
    """The chain of a design.

    Attributes
    ----------
    both : Wheels
        Its sprockets.
    few : int
        Teeth of the smaller.
    small_speed : float
        At which the smaller turns in rpm, the motor in step with its field.
    speed : float
        Of the chain in m/s.
    exact, even : float, int
        Links at the stated distance, and the even count that is made.
    centre, moved : float
        Distance for that count, and by how much the motor is moved for it and for wear, in mm.
    asked : float
        Greatest torque at the motor while mixing or starting, in N*m.
    force : float
        Greatest pull in it while mixing or starting, in N.
    across : float
        Pull across each shaft in N, with the service factor.
    power : float
        That it bears, in kW.
    breaks : float
        Force in N at which it breaks.
    """

    both: Wheels
    few: int
    small_speed: float
    speed: float
    exact: float
    even: int
    centre: float
    moved: float
    asked: float
    force: float
    across: float
    power: float
    breaks: float


def chain_set(machine: LoadedMachine) -> ChainSet:
    """Work out the chain of a design.

    Parameters
    ----------
    machine : LoadedMachine
        With a chain whose sprockets do not stand in each other.

    Returns
    -------
    ChainSet

    References
    ----------
    :mod:`mixerkit.drive.chain`.
    """
    spec, flow, cases = machine.spec, machine.power_flow, machine.load_cases
    one, both = spec.motor_drive.chain, wheels(spec)
    few, many = sorted((one.motor_teeth, one.box_teeth))
    turning = flow.abilities.field
    small_speed = turning if one.motor_teeth <= one.box_teeth else turning / drive_ratio(spec)
    pitch = both.row["pitch"]
    exact = float(chain.links.formula(both.centre, pitch, few, many))
    even = 2 * ceil(exact / 2 - 1e-9)
    centre = _centre(even, pitch, few, many)
    asked = float(np.abs(flow.torque_at_motor[cases.mixing | cases.starting]).max())
    force = asked * 2e3 / both.motor
    strand = float(chain.chain_power.formula(few, small_speed, pitch, even, spec.batch.life_hours))
    return ChainSet(
        both=both,
        few=few,
        small_speed=small_speed,
        speed=rim_speed(spec, turning),
        exact=exact,
        even=even,
        centre=centre,
        moved=abs(centre - both.centre) + WORN * even * pitch,
        asked=asked,
        force=force,
        across=ACROSS * spec.motor_drive.service_factor * force,
        power=strand * chain.STRANDS[one.strands] * both.row["fatigue_share"],
        breaks=both.row["tensile"] * 1e3 * chain.STRANDS[one.strands],
    )


def _centre(count: int, pitch: float, few: int, many: int) -> float:
    """Distance in mm of the middles for a count of links.

    References
    ----------
    Shigley 10th ed., eq. 17-35 (from memory).
    """
    straight = count - (few + many) / 2
    inner = straight**2 - 8 * ((many - few) / (2 * pi)) ** 2
    return float(pitch / 4 * (straight + np.sqrt(inner)))
