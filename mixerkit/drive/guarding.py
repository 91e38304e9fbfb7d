"""Keeping hands away: time to stop, how near a lid may be, how far behind an opening, what is needed."""

from __future__ import annotations

from math import pi

import numpy as np

from mixerkit.checking import make_check, make_unjudged
from mixerkit.checks import Check
from mixerkit.drive import clutch_workings, induction, motor
from mixerkit.drive.jam import rotor_inertia
from mixerkit.results import LoadedMachine, Numbers
from mixerkit.spec import Spec
from mixerkit.tables import table
from mixerkit.units import in_units, lengths

__all__ = ["approach_distance", "checks", "crushed", "needs", "reach", "run_down"]

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
    turning = motor.empty_speed(spec) * spec.reducer.ratio
    down = run_down.formula(rotor_inertia(spec), turning, IDLE_DRAG * rated)
    return guard.response_time + float(down)


def checks(machine: LoadedMachine) -> list[Check]:
    """Check the lid and the openings in guards.

    Parameters
    ----------
    machine : LoadedMachine

    Returns
    -------
    list of Check
    """
    return [_lid(machine), _openings(machine)]


def _lid(machine: LoadedMachine) -> Check:
    """Whether the paddles rest before a hand is under the lid."""
    spec = machine.spec
    guard, stops = spec.guard, stopping_time(spec)
    how = "as measured" if guard.time_to_stop else "reckoned: time it on the machine"
    near = float(approach_distance.formula(stops))
    locked = guard.lid == "interlocked and locked until rest"
    asked = 0.0 if locked else near if guard.lid == "interlocked" else np.inf
    name = "paddles rest before a hand is there"
    lock = {"guard.lid": "interlocked and locked until rest"}
    # where the motor does not turn, how long it runs on cannot be reckoned from its speed
    unknown = guard.lid == "interlocked" and not guard.time_to_stop and machine.running_speed <= 0
    return (
        make_unjudged(machine, "guards", "lid", name, motor.STANDS)
        if unknown
        else make_check(
            machine,
            "guards",
            "lid",
            name,
            demand=asked,
            capacity=guard.lid_distance,
            unit="mm",
            working=lambda i: clutch_workings.lid_distance(stops, near, asked, HAND_SPEED),
            tight=1.0,
            source="ISO 13855, K = 1600 mm/s (from memory); interlock: ISO 14119",
            reason=lambda i, say: (
                f"the empty machine runs {say(stops, 's')} after the lid opens ({how}); "
                + ("the lid stays locked until rest" if locked else f"lid: {guard.lid}")
            ),
            fix=lambda i: (
                [lock, {"guard.lid_distance": near}] if guard.lid == "interlocked" else [lock]
            ),
            note=lambda i, say: (
                ""
                if guard.time_to_stop
                else "Time the run-down on the machine and put it in guard.time_to_stop."
            ),
        )
    )


def _openings(machine: LoadedMachine) -> Check:
    """Whether what moves is out of reach behind the openings in guards."""
    guard = machine.spec.guard
    far, limb = reach(guard.opening_shape, guard.opening)
    return make_check(
        machine,
        "guards",
        "guards",
        "nothing moving within reach of an opening",
        demand=far,
        capacity=guard.opening_distance,
        unit="mm",
        working=lambda i: clutch_workings.limb_reach(machine, far),
        tight=1.0,
        source="ISO 13857, table 4, persons of 14 years and above",
        reason=lambda i, say: (
            f"{guard.opening_shape} opening of {say(guard.opening, 'mm')}: {limb} reaches through"
        ),
        fix=lambda i: (
            ([{"guard.opening_distance": far}] if np.isfinite(far) else []) + ["guard.opening"]
        ),
        note=lambda i, say: (
            ""
            if np.isfinite(far)
            else "A whole body passes an opening so large: it must be closed."
        ),
    )


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
