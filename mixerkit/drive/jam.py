"""What a sudden jam does: the moving parts' inertia, the train's stiffness, the peak, the fuse.

All torques, angles and inertias are referred to the slow end of the reduction box.
"""

from __future__ import annotations

from collections.abc import Sequence
from math import pi

import numpy as np

from mixerkit.drive.motor import empty_speed
from mixerkit.drive.motor_drive import added_inertia, chain_play
from mixerkit.parts import beam, spurgear
from mixerkit.parts.reduction import total_ratio
from mixerkit.parts.zones import zones_between
from mixerkit.results import Numbers, Train
from mixerkit.spec import GearPath, Shaft, Spec
from mixerkit.tables import table
from mixerkit.units import in_units

__all__ = [
    "impact_torque",
    "inertia_at_motor",
    "lengths_wound_up",
    "path_wound_up",
    "rotor_inertia",
    "stall_torques",
    "stopped_torque",
    "train",
    "usual_inertia",
    "wind_up_share",
]
MESH_STIFFNESS = 14.0
"""Of a pair of steel teeth, N/(mm um) of face width, which is GPa (ISO 6336-1, from memory)."""


@in_units("N*m", speed="rpm", stiffness="N*m >= 0", inertia="kg*m**2 >= 0")
def impact_torque(speed: Numbers, stiffness: Numbers, inertia: Numbers) -> Numbers:
    r"""Torque that winds up a train whose far end is stopped dead, the motor giving none.

    .. math:: T = \omega \sqrt{k J}

    Parameters
    ----------
    speed : quantity, any shape
        Of the slow end before it is stopped.
    stiffness : quantity, broadcast
        Torque for a radian of twist.
    inertia : quantity, broadcast
        Of what goes on turning, referred to the slow end.

    Returns
    -------
    quantity [N*m], the broadcast shape

    References
    ----------
    The energy of motion becomes that of a spring; any text on vibration.

    Examples
    --------
    >>> round(impact_torque("24 rpm", "20 kN*m", "12.6 kg*m^2"))
    <Quantity(1262, 'newton * meter')>
    """
    return np.abs(speed) * pi / 30 * np.sqrt(stiffness * np.asarray(inertia, float))[()]


@in_units("N*m", steady="N*m >= 0", speed="rpm", stiffness="N*m >= 0", inertia="kg*m**2 >= 0")
def stopped_torque(
    steady: Numbers, speed: Numbers, stiffness: Numbers, inertia: Numbers
) -> Numbers:
    r"""Torque that winds up a train whose far end is stopped dead while the motor goes on pushing.

    .. math:: T = T_m + \sqrt{T_m^2 + \omega^2 k J}

    Parameters
    ----------
    steady : quantity, any shape
        Torque of the motor, as it arrives at the slow end.
    speed, stiffness, inertia
        As in :func:`impact_torque`.

    Returns
    -------
    quantity [N*m], the broadcast shape

    References
    ----------
    Energy: the motion's and the motor's work become the spring's. It is more than the motor's torque
    with :func:`impact_torque` on top, because the motor also works over the wind-up.

    Examples
    --------
    >>> round(stopped_torque("761 N*m", "24 rpm", "20 kN*m", "12.6 kg*m^2"))
    <Quantity(2234, 'newton * meter')>
    """
    wound = impact_torque.formula(speed, stiffness, inertia)
    swing: Numbers = np.sqrt(np.square(steady) + np.square(wound))
    return steady + swing


def usual_inertia(power: float, poles: float) -> float:
    """Moment of inertia in kg*m^2 of the rotor of a motor by its power in kW and its poles.

    References
    ----------
    0.0035 P^1.2 for four poles, with the power 1.5 of the poles: the heavier of the rotors in makers' lists
    from 0.37 to 5.5 kW, because a heavy one hits harder and runs on longer (from memory).
    """
    return float(0.0035 * power**1.2 * (poles / 4) ** 1.5)


INERTIA_MOST = 4 / 3
"""Most that a rotor may have of the inertia usual for its power (common practice)."""
WIND_UP_LEAST = 2 / 3
"""Least that a box may give of the wind-up usual under its rated torque (common practice)."""


def rotor_inertia(spec: Spec) -> float:
    """Moment of inertia of the motor's rotor in kg*m^2, as stated or the most usual for its power and poles."""
    one = spec.motor
    return one.inertia or INERTIA_MOST * usual_inertia(one.rated_power, one.poles)


def wind_up_share(spec: Spec) -> float:
    """Share of the box's wind-up that counts in a jam: all of it where its maker states it or it was measured."""
    return WIND_UP_LEAST if spec.reducer.wind_up_from == "common practice" else 1.0


def inertia_at_motor(spec: Spec) -> float:
    """Moment of inertia in kg*m^2 of all that turns with the motor: its rotor, and what drives the box."""
    return rotor_inertia(spec) + added_inertia(spec)


def path_wound_up(spec: Spec, clutch: str, jammed: int) -> GearPath | None:
    """Gear path that a jam winds up; none where it stops shaft 1, or shaft 2 is not driven."""
    if jammed == 1 or clutch == "neutral":
        return None
    found: GearPath = getattr(spec.paths, clutch)
    return found


def lengths_wound_up(
    spec: Spec, clutch: str, jammed: int
) -> dict[int, tuple[tuple[float, float], ...]]:
    """Lengths of each shaft between what drives it and what a jam stops, each with its diameter, in mm.

    A shaft that drives from where it is stopped has none, and gives nothing, which is the harder blow.
    """
    overhang, path = spec.reducer.overhang, path_wound_up(spec, clutch, jammed)
    first_paddle = spec.housing.plate_spacing + (spec.bearings.span - spec.trough.length) / 2
    first_paddle += spec.paddles.width / 2
    if path is None:
        return {1: _lengths(spec.shaft_1, -overhang, first_paddle)}
    return {
        1: _lengths(spec.shaft_1, -overhang, path.position),
        2: _lengths(spec.shaft_2, path.position, first_paddle),
    }


def _lengths(one: Shaft, start: float, end: float) -> tuple[tuple[float, float], ...]:
    if end <= start:
        return ()
    return tuple((zone.end - zone.start, zone.diameter) for zone in zones_between(one, start, end))


def _bar(one: Shaft, lengths: Sequence[tuple[float, float]]) -> float:
    """Stiffness in N*m/rad of lengths of a shaft, infinite where there are none."""
    shear = table("materials").find(one.material).values["shear_modulus"]
    give = sum(length / (2 * beam.second_moment.formula(size)) for length, size in lengths)
    return float(shear / give) if lengths else np.inf


def train(spec: Spec, clutch: str, jammed: int) -> Train:
    """Inertia and stiffness of what a jam stops, all referred to the slow end.

    Parameters
    ----------
    spec : Spec
    clutch : str
        ``"direct"``, ``"neutral"`` or ``"idler"``.
    jammed : int
        Shaft whose first paddle is stopped, 1 or 2.

    Returns
    -------
    Train
        ``inertia`` in kg*m^2; ``springs`` maps each part to its stiffness in N*m/rad and
        ``stiffness`` is all of them one behind the other; ``play`` in rad.
    """
    box, path = spec.reducer, path_wound_up(spec, clutch, jammed)
    wind_up = wind_up_share(spec) * np.radians(box.wind_up)
    springs = {"reduction box": box.rated_torque / wind_up}
    play, ratio = np.radians(box.backlash) + chain_play(spec) / box.ratio, 1.0
    bars = {
        number: _bar(getattr(spec, f"shaft_{number}"), lengths)
        for number, lengths in lengths_wound_up(spec, clutch, jammed).items()
    }
    springs["shaft 1"] = bars[1]
    if path is not None:
        counts = path.tooth_counts
        pitch = spurgear.pitch_diameter.formula(path.module, counts[0]) / 2
        # GPa mm^3 is N*m
        mesh = MESH_STIFFNESS * path.face_width * pitch**2
        springs["teeth"] = mesh / (len(counts) - 1)
        ratio = counts[0] / counts[-1]
        springs["shaft 2"] = bars[2] * ratio**2
        play += np.radians(spec.clutch.angular_play)
    between = spec.motor_drive
    # the box turns that spring by its ratio; on a flange, and where it is not known, nothing gives, which hits harder
    if between.kind != "flange" and between.stiffness:
        springs["motor drive"] = between.stiffness * box.ratio**2
    total = 1 / sum(1 / one for one in springs.values())
    return Train(
        inertia=inertia_at_motor(spec) * total_ratio(spec) ** 2,
        springs=springs,
        stiffness=float(total),
        play=float(play),
        ratio=ratio,
    )


def stall_torques(spec: Spec, steady: float) -> dict[tuple[str, int], float]:
    """Torque in N*m at the slow end when a paddle is stopped dead, in each position, without a fuse.

    Parameters
    ----------
    spec : Spec
    steady : float
        The motor's greatest torque as it arrives at the slow end.

    Returns
    -------
    dict of (clutch, shaft) to float
        See :func:`stopped_torque`; at the speed of :func:`mixerkit.drive.motor.empty_speed`.
    """
    speed = empty_speed(spec)

    def stopped(clutch: str, jammed: int) -> float:
        one = train(spec, clutch, jammed)
        return float(stopped_torque.formula(steady, speed, one.stiffness, one.inertia))

    # with shaft 1 jammed, or nothing engaged, the gears do not matter
    near = stopped("neutral", 1)
    found = {(clutch, 1): near for clutch in ("direct", "neutral", "idler")}
    return {
        **found,
        ("direct", 2): stopped("direct", 2),
        ("neutral", 2): near,
        ("idler", 2): stopped("idler", 2),
    }
