"""What the clay asks of both shafts over a turn, blade by blade."""

from __future__ import annotations

from functools import lru_cache
from math import pi

import numpy as np

from mixerkit.frozen import frozen
from mixerkit.load import clay, clay_tests, trough
from mixerkit.load.paddles import (
    axial_push,
    buried_share,
    paddle_force,
    paddle_torque,
    scraping_torque,
    sleeve_drag,
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


def share_of_each(blade: Paddles, level: Numbers) -> Array:
    """How much of each of a shaft's blades is buried, at each angle of :data:`TURN`.

    Parameters
    ----------
    blade : Record
    level : float or array
        Height of the clay over the shafts in mm.

    Returns
    -------
    numpy.ndarray, shape (..., 360, count)
        Led by the shape of the level.
    """
    return _buried(blade, level, blade.tip_radius)


def _buried(blade: Paddles, level: Numbers, top: float) -> Array:
    over = np.asarray(level, float)
    turned = tuple(paddle_angles(blade, 1).tolist())
    shares = _buried_once(turned, blade.root_radius, top, tuple(over.ravel().tolist()))
    return shares.reshape(*over.shape, *shares.shape[1:])


@lru_cache(maxsize=64)
def _buried_once(
    turned: tuple[float, ...], root: float, top: float, levels: tuple[float, ...]
) -> Array:
    """Buried shares of blades up to a radius in mm, by level and angle; most knobs leave them as they are."""
    angles = TURN[:, None] + np.array(turned)
    shares: Array = frozen(
        np.asarray(buried_share(angles, np.array(levels)[:, None, None], root, top))
    )
    return shares


def shares_over_a_turn(blade: Paddles, level: float) -> Array:
    """How many blades' worth of one shaft is buried, at each angle of :data:`TURN`."""
    return np.asarray(share_of_each(blade, level).sum(axis=1))


def _stems(blade: Paddles, strength: float, levels: Array) -> Numbers:
    """Torque in N*m that all stems of a shaft add to their blades', by level over a turn."""
    wide = float(projected_width.formula(blade.width, blade.thickness, blade.set_angle))
    # a stem thinner than its blade asks no less: behind the blade's face the clay has closed again
    wider = max(float(extent_at(blade, blade.root_radius)) - wide, 0.0)
    if not (wider > 0 and blade.stem_height > 0):
        return 0.0
    top = blade.root_radius + blade.stem_height
    each = stem_torque.formula(
        strength, wider, blade.root_radius, blade.stem_height, blade.bearing_capacity_factor
    )
    added: Numbers = each * _buried(blade, levels, top).sum(axis=-1)
    return added


def _swept_cylinder(spec: Spec, strength: float, levels: Array) -> Array:
    """Torque in N*m that shears the clay on the cylinder that a shaft's blades sweep, by level."""
    blade = spec.paddles
    # blades crowded together sweep at least what they take up themselves
    least = (blade.count - 1) * blade.spacing + trough.axial_extent(blade)
    swept = min(max(blade.count * blade.spacing, least), spec.trough.length)
    arc = np.mean(blade.tip_radius * np.sin(TURN) < levels[:, None], axis=-1)
    return np.asarray(arc) * float(
        clay_tests.vane_torque.formula(strength, 2 * blade.tip_radius, swept)
    )


def _sleeve(spec: Spec, strength: float, levels: Array) -> Array:
    """Torque in N*m of the sleeve, or the bare shaft, as it turns in the clay, by level."""
    blade = spec.paddles
    return np.asarray(
        sleeve_drag.formula(strength, blade.root_radius, spec.trough.length, levels, blade.adhesion)
    )


def _push(blade: Paddles, strength: float) -> float:
    """Push of one buried blade along its shaft in N."""
    length = blade.tip_radius - blade.root_radius
    return float(
        axial_push.formula(
            strength, blade.width, blade.set_angle, length, blade.bearing_capacity_factor
        )
    )


def _levels(spec: Spec) -> Array:
    """Levels in mm of the clay over the shafts: of both, of one and of the other where it is heaped on that.

    Heaped, each shaft stands in its share of the batch as in a trough of its own, filled level.
    """
    share = spec.batch.heaped_share
    fills = trough.batch_volume(spec) * np.array([1.0, 2 * (1 - share), 2 * share])
    return np.asarray(trough.clay_level(spec, fills))


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
        ``cylinder`` the two ways to reckon the blades' peak, ``governs`` which counts, ``sleeve`` what the
        sleeve adds, ``scraping`` the part from the tips, ``heaped`` and ``beside`` the peaks of both shafts
        where the clay is heaped on one; ``strength`` in kPa at the rate of mixing; ``level`` of the clay
        over the shafts in mm, ``force`` and ``push`` of one buried blade in N; ``buried`` the share of
        each blade and ``angles`` where it points, over a turn in degrees.
    """
    blade = spec.paddles
    found = clay.clay_strength(spec.clay)
    wide = float(projected_width.formula(blade.width, blade.thickness, blade.set_angle))
    rate = speed * 2 * pi / 60 * (blade.tip_radius + blade.root_radius) / 2 / blade.width
    # paddles that stand shear nothing: the strength of the test is kept, which is the stronger clay
    strength = found.strength * (float(clay.rate_factor(rate, found.rate)) if rate > 0 else 1.0)
    levels = _levels(spec)
    shape = (wide, blade.root_radius, blade.tip_radius, blade.bearing_capacity_factor)
    swept = blade.width, blade.thickness, blade.tip_radius
    scraped = float(scraping_torque.formula(strength, *swept))
    one = float(paddle_torque.formula(strength, *shape)) + scraped
    of_each = share_of_each(blade, levels)
    shares = of_each.sum(axis=-1)
    whole = one * shares + _stems(blade, strength, levels)
    cylinder = _swept_cylinder(spec, strength, levels)
    # where the circles overlap, each cylinder would cut the other's: no bound on what the blades ask
    apart = spec.housing.centre_distance >= 2 * blade.tip_radius
    drag = _sleeve(spec, strength, levels)
    turns = (np.minimum(whole, cylinder[:, None]) if apart else whole) + drag[:, None]
    peak = float(whole[0].max())
    level, beside, heaped = turns.max(axis=-1)
    return ClayLoad(
        turn=turns[0],
        mean=float(turns[0].mean()),
        peak=float(level),
        paddles=peak,
        cylinder=float(cylinder[0]),
        governs="swept cylinder" if apart and cylinder[0] < peak else "paddles",
        sleeve=float(drag[0]),
        scraping=scraped * float(shares[0].max()),
        heaped=float(heaped),
        beside=float(beside),
        heaped_blades=float(shares[2].max()),
        strength=strength,
        level=float(levels[0]),
        force=float(paddle_force.formula(strength, *shape)),
        push=_push(blade, strength),
        buried=of_each[0],
        angles=TURN[:, None] + paddle_angles(blade, 1),
        clay=found,
    )
