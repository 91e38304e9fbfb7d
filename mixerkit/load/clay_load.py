"""What the clay asks of both shafts over a turn, blade by blade."""

from __future__ import annotations

from math import pi

import numpy as np

from mixerkit.load import clay, clay_tests, trough
from mixerkit.load.paddles import (
    axial_push,
    buried_share,
    paddle_force,
    paddle_torque,
    scraping_torque,
    stem_torque,
)
from mixerkit.parts.blades import extent_at, projected_width
from mixerkit.results import Array, ClayLoad, Numbers
from mixerkit.spec import Paddles, Spec

__all__ = ["demand", "paddle_angles", "share_of_each", "shares_over_a_turn"]
TURN = np.linspace(0.0, 2 * pi, 360, endpoint=False)


def paddle_angles(blade: Paddles, number: int) -> Array:
    """Angles in radians of a shaft's blades round the shaft, shaft 1 standing at zero."""
    start = 0.0 if number == 1 else np.radians(blade.phase_2)
    return np.asarray(start + np.radians(blade.phase_step) * np.arange(blade.count))


def share_of_each(blade: Paddles, level: float) -> Array:
    """How much of each of a shaft's blades is buried, at each angle of :data:`TURN`.

    Parameters
    ----------
    blade : Record
    level : float
        Height of the clay over the shafts in mm.

    Returns
    -------
    numpy.ndarray, shape (360, count)
    """
    angles = TURN[:, None] + paddle_angles(blade, 1)
    return np.asarray(buried_share(angles, level, blade.root_radius, blade.tip_radius))


def shares_over_a_turn(blade: Paddles, level: float) -> Array:
    """How many blades' worth of one shaft is buried, at each angle of :data:`TURN`."""
    return np.asarray(share_of_each(blade, level).sum(axis=1))


def _stems(blade: Paddles, strength: float, level: float) -> Numbers:
    """Torque in N*m that all stems of a shaft add to their blades', over a turn."""
    wide = float(projected_width.formula(blade.width, blade.thickness, blade.set_angle))
    # a stem thinner than its blade asks no less: behind the blade's face the clay has closed again
    wider = max(float(extent_at(blade, blade.root_radius)) - wide, 0.0)
    if not (wider > 0 and blade.stem_height > 0):
        return 0.0
    top = blade.root_radius + blade.stem_height
    angles = TURN[:, None] + paddle_angles(blade, 1)
    each = stem_torque.formula(
        strength, wider, blade.root_radius, blade.stem_height, blade.bearing_capacity_factor
    )
    buried = np.asarray(buried_share(angles, level, blade.root_radius, top)).sum(axis=1)
    added: Numbers = each * buried
    return added


def _swept_cylinder(spec: Spec, strength: float, level: float) -> float:
    """Torque in N*m that shears the clay on the cylinder that a shaft's blades sweep."""
    blade = spec.paddles
    # blades crowded together sweep at least what they take up themselves
    least = (blade.count - 1) * blade.spacing + trough.axial_extent(blade)
    swept = min(max(blade.count * blade.spacing, least), spec.trough.length)
    arc = float(np.mean(blade.tip_radius * np.sin(TURN) < level))
    return arc * float(clay_tests.vane_torque.formula(strength, 2 * blade.tip_radius, swept))


def _push(blade: Paddles, strength: float) -> float:
    """Push of one buried blade along its shaft in N."""
    length = blade.tip_radius - blade.root_radius
    return float(
        axial_push.formula(
            strength, blade.width, blade.set_angle, length, blade.bearing_capacity_factor
        )
    )


def demand(spec: Spec, speed: float) -> ClayLoad:
    """Work out the torque that the clay asks of one paddle shaft, over a turn.

    Parameters
    ----------
    spec : Spec
    speed : float
        Of the shaft in rpm, for the rate of shear.

    Returns
    -------
    ClayLoad
        Torques in N*m: ``turn`` over a turn in degrees, ``mean``, ``peak``; ``paddles`` and
        ``cylinder`` the two ways to reckon the blades' peak, ``governs`` which counts,
        ``scraping`` the part from the tips; ``strength`` in kPa at the rate of mixing; ``level`` of the clay
        over the shafts in mm, ``force`` and ``push`` of one buried blade in N; ``buried`` the share of
        each blade and ``angles`` where it points, over a turn in degrees; ``clay`` as
        :func:`mixerkit.load.clay.clay_strength` gives it.
    """
    blade = spec.paddles
    found = clay.clay_strength(spec.clay)
    wide = float(projected_width.formula(blade.width, blade.thickness, blade.set_angle))
    middle = (blade.tip_radius + blade.root_radius) / 2
    rate = speed * 2 * pi / 60 * middle / blade.width
    # paddles that stand shear nothing: the strength of the test is kept, which is the stronger clay
    strength = found.strength * (float(clay.rate_factor(rate, found.rate)) if rate > 0 else 1.0)
    level = float(trough.clay_level(spec))
    shape = (wide, blade.root_radius, blade.tip_radius, blade.bearing_capacity_factor)
    scraped = float(
        scraping_torque.formula(strength, blade.width, blade.thickness, blade.tip_radius)
    )
    one = float(paddle_torque.formula(strength, *shape)) + scraped
    angles = TURN[:, None] + paddle_angles(blade, 1)
    of_each = share_of_each(blade, level)
    shares = of_each.sum(axis=1)
    stem = _stems(blade, strength, level)
    cylinder = _swept_cylinder(spec, strength, level)
    whole = one * shares + stem
    # where the circles overlap, each cylinder would cut the other's: no bound on what the blades ask
    apart = spec.housing.centre_distance >= 2 * blade.tip_radius
    turn = np.minimum(whole, cylinder) if apart else whole
    peak = float(whole.max())
    return ClayLoad(
        turn=turn,
        mean=float(turn.mean()),
        peak=float(turn.max()),
        paddles=peak,
        cylinder=cylinder,
        governs="swept cylinder" if apart and cylinder < peak else "paddles",
        scraping=scraped * float(shares.max()),
        strength=strength,
        level=level,
        force=float(paddle_force.formula(strength, *shape)),
        push=_push(blade, strength),
        buried=of_each,
        angles=angles,
        clay=found,
    )
