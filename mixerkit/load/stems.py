"""Whether a paddle bends off its sleeve in a jam, and whether its metal stains the clay."""

from __future__ import annotations

import numpy as np

from mixerkit.parts.blades import WEDGE_FRICTION, held_forces
from mixerkit.results import Numbers
from mixerkit.units import in_units

__all__ = ["stem_stress", "wedged_stress"]


@in_units(
    "MPa",
    force="N",
    arm="mm >= 0",
    width="mm > 0",
    thickness="mm > 0",
    tip_width="mm > 0",
    tip_thickness="mm > 0",
)
def stem_stress(
    force: Numbers,
    arm: Numbers,
    width: Numbers,
    thickness: Numbers,
    tip_width: Numbers,
    tip_thickness: Numbers,
    set_angle: float,
) -> Numbers:
    r"""Equivalent stress in a paddle that is caught at a corner of its tip, at some place along it.

    .. math:: \sigma_t = \frac{6 F_t x}{b\,t^2}, \quad \sigma_b = \frac{6 F_b x}{t\,b^2}, \quad
              \tau = \frac{T}{b\,t^2} \left(3 + 1.8\,\frac{t}{b}\right), \quad
              \sigma = \max\left(\sigma_t + \sigma_b, \sqrt{\sigma_t^2 + 3\tau^2}\right)

    Parameters
    ----------
    force : quantity, any shape
        In the direction in which the paddle turns, at its tip.
    arm : quantity, broadcast
        From the place looked at to the tip.
    width, thickness : quantity, broadcast
        At the place looked at.
    tip_width, tip_thickness : quantity, broadcast
        Half of one is the lever that twists the paddle, of the other where it is caught on its edge.
    set_angle : float
        In degrees between its face and the plane it turns in.

    Returns
    -------
    quantity [MPa], the broadcast shape
        The worst of being caught on the face and on the edge, with little and with much friction.

    References
    ----------
    Forces: :func:`mixerkit.parts.blades.held_forces`. Bending about both axes of a rectangle: Shigley,
    10th ed., eq. 3-27; its twist: eq. 3-40 (from memory); both together in the middle of the wide side: eq. 5-15.

    Examples
    --------
    >>> round(stem_stress("5 kN", "60 mm", "35 mm", "22 mm", "30 mm", "6 mm", 60.0), 1)
    <Quantity(132.0, 'megapascal')>
    """
    wide, thin = np.maximum(width, thickness), np.minimum(width, thickness)
    twisted = (3 + 1.8 * thin / wide) / (wide * thin**2)
    worst: Numbers = 0.0
    for k, (flat, edge, _) in enumerate(held_forces(set_angle)):
        over_flat = 6 * flat * arm / (width * thickness**2)
        over_edge = 6 * edge * arm / (thickness * width**2)
        lever = (tip_thickness if k % 2 else tip_width) / 2
        shear = max(flat, edge) * lever * twisted
        at_side = np.maximum(over_flat, over_edge)
        both = np.maximum(over_flat + over_edge, np.sqrt(at_side**2 + 3 * shear**2))
        worst = np.maximum(worst, both)
    return force * worst


def wedged_stress(
    arm: Numbers,
    sides: tuple[Numbers, Numbers],
    set_angle: float,
    beside: tuple[float, float] = (0.0, 0.0),
) -> Numbers:
    r"""Greatest stress in a paddle whose tip is stopped by a thing wedged against the wall, at some place along it.

    .. math:: \sigma = \frac{F}{\mu b t} + \frac{6 F (x \sin\beta + y_t / \mu)}{b\,t^2}
              + \frac{6 F (x \cos\beta + y_b / \mu)}{t\,b^2}

    Parameters
    ----------
    arm : float or array
        From the place looked at to the tip in mm.
    sides : pair of floats or arrays
        Width and thickness there in mm.
    set_angle : float
        In degrees between its face and the plane it turns in.
    beside : pair of floats
        How far from the middle of the tip the thing sits, over the width and over the thickness, in mm.

    Returns
    -------
    float or array
        In MPa for 1 N in the direction in which the paddle turns.

    References
    ----------
    Thrust with bending about both axes of a rectangle: Shigley, 10th ed., eq. 3-27; a wedge that just does not slip.

    Examples
    --------
    >>> round(float(wedged_stress(40.0, (20.0, 10.0), 90.0)), 4)
    0.1367
    """
    width, thickness = sides
    turned, push = np.radians(set_angle), 1 / WEDGE_FRICTION
    over_flat = 6 * (arm * np.sin(turned) + push * beside[1]) / (width * thickness**2)
    over_edge = 6 * (arm * np.cos(turned) + push * beside[0]) / (thickness * width**2)
    stress: Numbers = push / (width * thickness) + over_flat + over_edge
    return stress
