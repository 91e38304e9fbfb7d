"""The other way round: which motor and which box from the tables carry this clay."""

from __future__ import annotations

from dataclasses import dataclass

from mixerkit.checks import Check, verdict_of, weakest
from mixerkit.design import Design
from mixerkit.drive.motor import shaft_speed
from mixerkit.explore.bought import box_plate, motor_plate
from mixerkit.machine import Machine
from mixerkit.tables import Row, table
from mixerkit.units import InputError

__all__ = ["ORDERS", "Choice", "motor_and_box", "motors"]

ORDERS = ("margin", "mass", "power")
"""What choices may be sorted by."""
_STAGES = ("motor", "motor drive", "reducer")
_ENDS = ("fast end", "slow end", "adapting bush")


@dataclass(frozen=True)
class Choice:
    """One motor with one box, and how it fares.

    Attributes
    ----------
    motor, box : str
        In words.
    power : float
        Rated, in kW.
    mass : float
        Of both, in kg.
    speed : float
        Of shaft 1 in rpm.
    spare : float
        Of its weakest check among motor, socket and box; below 1 it does not do.
    why_not : str
        The weakest check in a sentence, where it does not do.
    """

    motor: str
    box: str
    power: float
    mass: float
    speed: float
    spare: float
    why_not: str

    @property
    def verdict(self) -> str:
        """One of ``holds``, ``tight`` and ``fails``."""
        return verdict_of(self.spare)


def _judge(found: Machine, row: Row, box: str, box_mass: float) -> Choice:
    checks: list[Check] = [one for one in found.checks if one.stage in _STAGES]
    # a roomy bore is no margin: how the ends fit only decides whether a box can be used at all
    loads = [one for one in checks if one.part not in _ENDS or one.verdict == "fails"]
    worst = weakest(loads)
    return Choice(
        motor=f"{row.values['rated_power']:g} kW, {row.values['poles']:.0f} poles",
        box=box,
        power=row.values["rated_power"],
        mass=row.values["mass"] + box_mass,
        speed=found.running_speed,
        spare=worst.spare,
        why_not=worst.sentence() if worst.verdict == "fails" else "",
    )


def motors(design: Design) -> list[Choice]:
    """Try every motor of data/tables/motors.csv with the design's own box.

    Parameters
    ----------
    design : Design

    Returns
    -------
    list of Choice
        By power; those that do not do say why.
    """
    box = design.reducer
    choices = []
    for row in table("motors"):
        values = motor_plate(row) | _flange(row)
        values |= _feeding(design)
        found = Machine(design.with_values(values))
        choices.append(_judge(found, row, f"{box.ratio:g} : 1, as designed", 0.0))
    return choices


def _flange(motor: Row) -> dict[str, object]:
    """Boxes are sold with the flange for the motor's frame."""
    return {"reducer.input_bore": f"{motor.values['shaft_end']:g} mm"}


def _feeding(design: Design) -> dict[str, object]:
    """Feed a three-phase motor in a way that its socket allows."""
    if design.motor.fed_by == "frequency converter":
        return {}  # at the frequency that it is set to
    if design.supply.phases == 1 or design.motor.kind != "three-phase":
        return {"motor.fed_by": "frequency converter", "motor.run_at": "50 Hz"}
    return {}


def motor_and_box(
    design: Design, order: str = "margin", slowest: float = 15.0, fastest: float = 40.0
) -> list[Choice]:
    """List the motors and boxes of data/tables that carry the design's clay and batch.

    Parameters
    ----------
    design : Design
        Its motor and box are replaced, all else is kept.
    order : str
        One of :data:`ORDERS`: most to spare, least mass or least power first.
    slowest, fastest : float
        Speeds of shaft 1 in rpm to look at.

    Returns
    -------
    list of Choice
        Only those that do.

    Raises
    ------
    InputError
        If the order is not one of those.
    """
    if order not in ORDERS:
        raise InputError(f'"{order}" is not an order; one of {", ".join(ORDERS)} is wanted.')
    choices = []
    for row in table("motors"):
        for box in table("reducers"):
            values = motor_plate(row) | box_plate(box) | _flange(row) | _feeding(design)
            tried = design.with_values(values)
            if not slowest <= shaft_speed(tried) <= fastest:
                continue
            found = Machine(tried)
            words = f"{box.kind} {box.values['ratio']:g} : 1, {box.values['rated_torque']:g} N*m"
            choices.append(_judge(found, row, words, box.values["mass"]))
    keys = {
        "margin": lambda one: -one.spare,
        "mass": lambda one: (one.mass, one.power),
        "power": lambda one: (one.power, one.mass),
    }
    return sorted((one for one in choices if one.spare >= 1), key=keys[order])
