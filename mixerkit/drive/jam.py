"""What a sudden jam does: the moving parts' inertia, the train's stiffness, the peak, the fuse.

All torques, angles and inertias are referred to the slow end of the reduction box.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from math import pi, sqrt

import numpy as np

from mixerkit.drive.motor import empty_speed
from mixerkit.parts import beam, shaft, spurgear
from mixerkit.results import Array, Numbers, Rotation, Train
from mixerkit.spec import Spec
from mixerkit.tables import table
from mixerkit.units import in_units

__all__ = [
    "fuse_torques",
    "impact_torque",
    "pin_for_torque",
    "pins_yield",
    "rotor_inertia",
    "shear_pin_torque",
    "stall_torques",
    "stopped_torque",
    "train",
    "transient",
    "usual_inertia",
    "weaker_fuse",
]

SHEAR_OVER_TENSILE = 0.8
"""Shear over tensile strength of a steel pin when it is sheared off (common practice 0.75 to 0.82)."""
MESH_STIFFNESS = 14.0
"""Of a pair of steel teeth, N/(mm um) of face width (ISO 6336-1, from memory)."""


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


@in_units("N*m", pin="mm > 0", radius="mm > 0", tensile_strength="MPa > 0")
def shear_pin_torque(
    pin: Numbers, radius: Numbers, tensile_strength: Numbers, pins: int = 1, planes: int = 1
) -> Numbers:
    r"""Torque at which shear pins break.

    .. math:: T = n\,m\,\frac{\pi d^2}{4}\, 0.8\,R_m\, r

    Parameters
    ----------
    pin, radius : quantity, any shape
        Diameter where it shears, and its distance from the shaft's middle.
    tensile_strength : quantity, broadcast
    pins, planes : int
        Pins, and planes in which each shears.

    Returns
    -------
    quantity [N*m], the broadcast shape

    References
    ----------
    Area times shear strength times lever; shear strength 0.8 of tensile: common practice.

    Examples
    --------
    >>> round(shear_pin_torque("6 mm", "60 mm", "360 MPa"), 1)
    <Quantity(488.6, 'newton * meter')>
    """
    area = pi * np.asarray(pin, float) ** 2 / 4
    return (pins * planes * area * SHEAR_OVER_TENSILE * tensile_strength * radius / 1e3)[()]


@in_units("mm", torque="N*m > 0", radius="mm > 0", tensile_strength="MPa > 0")
def pin_for_torque(
    torque: Numbers, radius: Numbers, tensile_strength: Numbers, pins: int = 1, planes: int = 1
) -> Numbers:
    r"""Diameter at which shear pins break at a torque; :func:`shear_pin_torque` solved for it.

    Parameters
    ----------
    torque : quantity, any shape
    radius, tensile_strength, pins, planes
        As in :func:`shear_pin_torque`.

    Returns
    -------
    quantity [mm], the broadcast shape

    References
    ----------
    As :func:`shear_pin_torque`.

    Examples
    --------
    >>> round(pin_for_torque("488.6 N*m", "60 mm", "360 MPa"), 2)
    <Quantity(6.0, 'millimeter')>
    """
    return np.sqrt(torque / shear_pin_torque.formula(1.0, radius, tensile_strength, pins, planes))


def fuse_torques(spec: Spec) -> tuple[float, float]:
    """Least and most torque in N*m at which the design's fuse gives; infinite where it has none."""
    one = spec.fuse
    if one.kind == "none":
        return np.inf, np.inf
    middle = (
        float(
            shear_pin_torque.formula(
                one.pin_diameter,
                one.pin_radius,
                table("materials").find(one.pin_material).values["tensile_strength"],
                one.pins,
                one.planes,
            )
        )
        if one.kind == "shear pin"
        else one.setting
    )
    # in drilled holes several pins do not touch together, and may break one after another
    first = PINS_TOGETHER if one.kind == "shear pin" and one.pins > 1 else 1.0
    return middle * first * (1 - one.scatter), middle * (1 + one.scatter)


def pins_yield(spec: Spec) -> float:
    """Torque in N*m at which the first of the design's shear pins bends instead of springing back.

    References
    ----------
    Shear yield of tensile yield over the root of three: von Mises. Of several pins a share carries at first.
    """
    one = spec.fuse
    row = table("materials").find(one.pin_material).values
    strength = shaft.SHEAR_YIELD * row["yield_strength"] / SHEAR_OVER_TENSILE
    first = PINS_TOGETHER if one.pins > 1 else 1.0
    return first * float(
        shear_pin_torque.formula(one.pin_diameter, one.pin_radius, strength, one.pins, one.planes)
    )


PINS_TOGETHER = 2 / 3
"""Share of several shear pins that carries at first, for the least torque (common practice)."""


def weaker_fuse(spec: Spec, most: float) -> list[dict[str, str | float]]:
    """Changes of a design's fuse so that it lets through no more than a torque in N*m, likeliest first.

    Examples
    --------
    >>> from mixerkit import Design
    >>> weaker_fuse(Design.demo().with_values({"fuse.kind": "torque limiter"}), 560.0)[0]["fuse.setting"]
    500.0
    """
    one = spec.fuse
    middle = round(float(most) / (1 + one.scatter), 6)
    if not middle > 0:
        return []
    strength = table("materials").find(one.pin_material).values["tensile_strength"]
    pin = float(pin_for_torque.formula(middle, one.pin_radius, strength, one.pins, one.planes))
    limiter: dict[str, str | float] = {"fuse.setting": middle}
    if one.kind == "torque limiter":
        return [limiter]
    if one.kind == "shear pin":
        return [{"fuse.pin_diameter": pin}]
    return [
        {"fuse.kind": "shear pin", "fuse.pin_diameter": pin},
        {"fuse.kind": "torque limiter", **limiter},
    ]


def usual_inertia(power: float, poles: float) -> float:
    """Moment of inertia in kg*m^2 of the rotor of a motor by its power in kW and its poles.

    References
    ----------
    0.0035 P^1.2 for four poles, with the power 1.5 of the poles: the heavier of the rotors in makers' lists
    from 0.37 to 5.5 kW, because a heavy one hits harder and runs on longer (from memory).
    """
    return float(0.0035 * power**1.2 * (poles / 4) ** 1.5)


def rotor_inertia(spec: Spec) -> float:
    """Moment of inertia of the motor's rotor in kg*m^2, as stated or as usual for its power and poles."""
    one = spec.motor
    return one.inertia or usual_inertia(one.rated_power, one.poles)


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
    box, gears = spec.reducer, spec.housing
    springs = {"reduction box": box.rated_torque / np.radians(box.wind_up)}
    play = np.radians(box.backlash)
    first_paddle = gears.plate_spacing + (spec.bearings.span - spec.trough.length) / 2
    first_paddle += spec.paddles.width / 2

    def bar(number: int, start: float, end: float) -> float:
        one = getattr(spec, f"shaft_{number}")
        shear = table("materials").find(one.material).values["shear_modulus"]
        sizes, bounds = (one.diameter, *one.step_diameters), (-np.inf, *one.step_at, np.inf)
        give = 0.0
        for size, begins, ends in zip(sizes, bounds[:-1], bounds[1:], strict=True):
            length = min(ends, end) - max(begins, start)
            if length > 0:
                give += length / (2 * beam.second_moment.formula(size))
        # GPa mm^3 is N*m; with no length between it gives nothing, which is the harder blow
        return shear / give if end > start else np.inf

    ratio = 1.0
    if jammed == 1 or clutch == "neutral":
        springs["shaft 1"] = bar(1, -box.overhang, first_paddle)
    else:
        path = getattr(spec.paths, clutch)
        counts = path.tooth_counts
        springs["shaft 1"] = bar(1, -box.overhang, path.position)
        pitch = spurgear.pitch_diameter.formula(path.module, counts[0]) / 2
        mesh = MESH_STIFFNESS * path.face_width * 1e3 * pitch**2 / 1e3
        springs["teeth"] = mesh / (len(counts) - 1)
        ratio = counts[0] / counts[-1]
        springs["shaft 2"] = bar(2, path.position, first_paddle) * ratio**2
        slack = np.radians(spec.clutch.angular_play)
        play += slack
    total = 1 / sum(1 / one for one in springs.values())
    return Train(
        inertia=rotor_inertia(spec) * box.ratio**2,
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


def transient(
    inertias: Sequence[float],
    springs: Sequence[float],
    speed: float,
    *,
    play: float = 0.0,
    drive: Callable[[float], float] | None = None,
    damping: float = 0.0,
    breaks_at: float = np.inf,
    duration: float | None = None,
    steps: int = 2000,
    accuracy: float = 1e-10,
) -> Rotation:
    """Follow a jam through time: masses in a row, springs between them, the last spring held still.

    Parameters
    ----------
    inertias : sequence of float
        From the motor's end, in kg*m^2.
    springs : sequence of float
        Behind each inertia, in N*m/rad; the last one ends at the jammed paddle.
    speed : float
        Of all of them before the jam, in rad/s.
    play : float
        Backlash in rad that the first spring takes up before it is wound, all of it open at first.
    drive : callable, optional
        Torque of the motor in N*m on the first inertia at its speed in rad/s; none if not given.
    damping : float
        Share of critical damping in the springs.
    breaks_at : float
        Torque at which the first spring, the fuse, gives.
    duration : float, optional
        In seconds; one and a half swings of the slowest kind, if not given.
    steps : int
        Times at which it is reported.
    accuracy : float
        Relative, of each step; a picture is content with less.

    Returns
    -------
    Rotation
        ``time`` in s, ``torque`` (springs, time) in N*m, ``speed`` (inertias, time) in rad/s,
        ``energy`` over time in J of motion and springs together, ``peak`` of the last spring,
        ``broke`` the time at which the fuse gave, or none.

    References
    ----------
    Newton's law for each mass, integrated by an eighth-order Runge-Kutta method (Dormand & Prince).
    """
    from scipy.integrate import solve_ivp  # here, because most runs do not need it

    mass, spring = np.asarray(inertias, float), np.asarray(springs, float)
    count = len(mass)
    soft = sqrt(1 / (np.sum(1 / spring)) / mass.sum())
    rub = 2 * damping * np.sqrt(spring * mass)
    if duration is None:
        duration = play / max(speed, 1e-9) + 1.5 * pi / soft

    def wound(angle: Array) -> Array:
        gap = np.array(angle)
        gap[:-1] -= angle[1:]
        free = gap[0]
        gap[0] = np.where(free > play, free - play, np.where(free < 0, free, 0.0))
        return gap

    def torques(angle: Array, turning: Array, whole: bool) -> Array:
        gap = wound(angle)
        closing = np.array(turning)
        closing[:-1] -= turning[1:]
        given = spring.reshape(-1, *[1] * (gap.ndim - 1)) * gap
        given = given + rub.reshape(-1, *[1] * (gap.ndim - 1)) * closing * (gap != 0)
        if not whole:
            given[0] = 0.0
        return np.asarray(given)

    def moves(state: Array, *, whole: bool) -> Array:
        angle, turning = state[:count], state[count:]
        given = torques(angle, turning, whole)
        net = -given
        net[1:] += given[:-1]
        if drive is not None:
            net[0] += drive(turning[0])
        return np.concatenate([turning, net / mass])

    def gives(_time: float, state: Array) -> float:
        return float(torques(state[:count], state[count:], True)[0] - breaks_at)

    gives.terminal = True  # type: ignore[attr-defined]  # how scipy is told to stop there
    times = np.linspace(0.0, duration, steps)
    begin = np.concatenate([np.zeros(count), np.full(count, speed)])
    # a small step keeps the corner where the play is taken up from being stepped over
    most = duration / (400 if accuracy < 1e-8 else 150)
    run = solve_ivp(
        lambda _time, state: moves(state, whole=True),
        (0.0, duration),
        begin,
        "DOP853",
        t_eval=times,
        rtol=accuracy,
        atol=accuracy / 100,
        max_step=most,
        events=gives if np.isfinite(breaks_at) else None,
    )
    broke: float | None = None
    path, whole = run.y, np.ones(run.y.shape[1], bool)
    if run.status == 1 and run.t_events and run.y_events:
        broke = float(run.t_events[0][0])
        after = times[times > broke]
        rest = solve_ivp(
            lambda _time, state: moves(state, whole=False),
            (broke, duration),
            np.asarray(run.y_events[0][0], float),
            "DOP853",
            t_eval=after,
            rtol=accuracy,
            atol=accuracy / 100,
            max_step=most,
        )
        path = np.concatenate([run.y, rest.y], axis=1)
        whole = np.concatenate([whole, np.zeros(rest.y.shape[1], bool)])
    angle, turning = path[:count], path[count:]
    torque = torques(angle, turning, True)
    torque[0] = np.where(whole, torque[0], 0.0)
    stored = spring[:, None] * wound(angle) ** 2 / 2
    stored[0] = np.where(whole, stored[0], 0.0)
    energy = (mass[:, None] * turning**2 / 2).sum(axis=0) + stored.sum(axis=0)
    return Rotation(
        time=times[: path.shape[1]],
        torque=torque,
        speed=turning,
        angle=angle,
        energy=energy,
        peak=float(torque[-1].max()),
        broke=broke,
    )
