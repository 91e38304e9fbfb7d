"""Keeping hands away: time to stop, how near a lid may be, how far behind an opening, what is needed."""

from __future__ import annotations

from math import pi

import numpy as np

from mixerkit.drive import induction, motor
from mixerkit.drive.jam import inertia_at_motor
from mixerkit.drive.motor_drive import PULLED, rim_speed
from mixerkit.parts.reduction import total_ratio
from mixerkit.results import Numbers
from mixerkit.spec import Spec
from mixerkit.tables import table
from mixerkit.units import in_units, lengths, show

__all__ = [
    "approach_distance",
    "crushed",
    "needs",
    "reach",
    "run_down",
    "stopping_time",
]

HAND_SPEED = 1600.0
"""Speed of a hand or a walking body in mm/s (ISO 13855, clause 6, from memory)."""
IDLE_DRAG = 0.05
"""Share of rated torque that an idling motor and box keep taking (common practice)."""


@in_units("s", inertia="kg*m**2 >= 0", speed="rpm", drag="N*m > 0")
def run_down(inertia: Numbers, speed: Numbers, drag: Numbers) -> Numbers:
    r"""Time to come to rest after the power is off.

    .. math:: t = \frac{J \omega}{T}

    Parameters
    ----------
    inertia : quantity, any shape
        Of what goes on turning.
    speed : quantity, broadcast
        At the same shaft.
    drag : quantity, broadcast
        Torque that holds it back, at the same shaft.

    Returns
    -------
    quantity [s], the broadcast shape

    References
    ----------
    Newton's law with a steady drag; a run-down timed on the machine goes before it.

    Examples
    --------
    >>> round(run_down("0.0035 kg*m^2", "1440 rpm", "0.5 N*m"), 2)
    <Quantity(1.06, 'second')>
    """
    return inertia * np.abs(speed) * pi / 30 / drag


@in_units("mm", stopping="s >= 0")
def approach_distance(stopping: Numbers, added: Numbers = 0.0) -> Numbers:
    r"""Least distance from a guard that opens to what it guards.

    .. math:: S = K\,T + C

    Parameters
    ----------
    stopping : quantity, any shape
        From the guard being opened to rest.
    added : float
        Reach through the guard before it is seen to open, in mm; 0 for a lid without openings.

    Returns
    -------
    quantity [mm], the same shape

    References
    ----------
    ISO 13855, clauses 5 and 9, with K = 1600 mm/s (from memory).

    Examples
    --------
    >>> approach_distance("0.5 s")
    <Quantity(800.0, 'millimeter')>
    """
    return HAND_SPEED * stopping + added


def reach(shape: str, opening: float) -> tuple[float, str]:
    """How far a limb reaches through a regular opening, and which limb.

    Parameters
    ----------
    shape : str
        ``"slot"``, ``"square"`` or ``"round"``.
    opening : float
        Width, side or diameter in mm.

    Returns
    -------
    tuple of float and str
        Distance in mm, infinite above the table, where a whole body may pass; and the limb.

    References
    ----------
    ISO 13857, table 4.

    Examples
    --------
    >>> reach("square", 12), reach("slot", 12.5)
    ((80.0, 'hand'), (120.0, 'hand'))
    """
    listed = table("guard_openings")
    if opening > listed.column("up_to").max():
        return np.inf, "body"
    row = listed.bracket(opening, "above", "up_to").values
    return float(row[shape]), row["part"]


def crushed(gap: float) -> list[str]:
    """Parts of the body that a closing gap can crush: those whose least gap is wider.

    References
    ----------
    ISO 13854, table 1.

    Examples
    --------
    >>> crushed(30.0)[-1], "finger" in crushed(30.0)
    ('hand, wrist or fist', False)
    """
    return [row.values["name"] for row in table("crushing_gaps") if row.values["gap"] > gap]


def stopping_time(spec: Spec) -> float:
    """Time in s from the lid's switch to rest with an empty trough, as measured or reckoned.

    Reckoned from the speed of the empty machine, see :func:`mixerkit.drive.motor.empty_speed`.
    """
    guard, plate = spec.guard, spec.motor
    if guard.time_to_stop:
        return guard.response_time + guard.time_to_stop
    rated = float(induction.torque_from_power.formula(plate.rated_power, plate.rated_speed))
    turning = motor.empty_speed(spec) * total_ratio(spec)
    down = run_down.formula(inertia_at_motor(spec), turning, IDLE_DRAG * rated)
    return guard.response_time + float(down)


_ALWAYS = (
    (
        "emergency stop within reach of whoever loads",
        "a hand may be held while the other is free",
        "ISO 13850",
    ),
    (
        "no restart by itself after the power comes back or the lid closes",
        "someone may be cleaning",
        "IEC 60204-1",
    ),
    (
        "hold-to-run for inching and for bringing the dogs into line",
        "the clutch wants a nudge, with the lid open it may not run",
        "IEC 60204-1",
    ),
    ("reverse only from rest", "a reversal under way doubles the shock", "common practice"),
    (
        "plug pulled or isolator locked before cleaning and shifting by hand",
        "the clay hides the paddles",
        "ISO 14118",
    ),
)
"""Rows of :func:`needs` that do not hang on the machine's sizes."""


def _at_the_motor(spec: Spec, system: str) -> list[tuple[str, str, str]]:
    """Row of :func:`needs` for belts or a chain, with the speed at which they run in."""
    if spec.motor_drive.kind not in PULLED:
        return []
    speed = rim_speed(spec, motor.empty_speed(spec) * total_ratio(spec))
    return [
        (
            f"fixed guard round the {spec.motor_drive.kind} between motor and box, opened with a tool only",
            f"it runs in at {show(speed, 'm/s', system)}, a nip at each wheel whichever way it turns",
            "ISO 14120, ISO 13857",
        )
    ]


def needs(spec: Spec, system: str = "metric") -> list[tuple[str, str, str]]:
    """Guards and controls this machine needs: what, why here, and the standard to read.

    Local codes and licensed people come first; the list is where to begin.

    Parameters
    ----------
    spec : Spec
    system : str
        ``"metric"`` or ``"inch"``: how sizes are said.

    Returns
    -------
    list of tuple of str
    """
    say = lengths(system)
    gap = spec.trough.wall_clearance
    stops = stopping_time(spec)
    lid = (
        f"the paddles run on {stops:.1f} s with the trough empty and the lid's edge is "
        f"{say(spec.guard.lid_distance, 4)} from them"
    )
    rows = [
        (
            "lid over the whole trough, interlocked and locked until rest",
            lid,
            "ISO 14119, ISO 14120, ISO 13855",
        ),
        (
            "fixed guard round gears and clutch, opened with a tool only",
            "two gear paths draw in whatever touches them",
            "ISO 14120, ISO 13857",
        ),
        (
            "guard over the shafts between plates and trough",
            "a turning shaft winds up cloth and hair",
            "ISO 14120",
        ),
        (
            "no hand in the trough while power is on",
            f"{say(gap, 4)} between paddle and wall can crush or shear: {', '.join(crushed(gap))}",
            "ISO 13854",
        ),
        *_at_the_motor(spec, system),
        *_ALWAYS,
        (
            "wiring, earthing and overload protection by a licensed person",
            f"{spec.supply.voltage:.0f} V near water",
            "IEC 60204-1, local code",
        ),
    ]
    if spec.motor.fed_by == "frequency converter":
        rows.append(
            (
                "wait until the converter's capacitors are empty",
                "they hold mains voltage for minutes",
                "the converter's manual",
            )
        )
    return rows
