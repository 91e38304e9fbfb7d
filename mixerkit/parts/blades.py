"""How wide a blade stands: along its shaft, as the clay meets it, and in the plane in which it turns.

A blade is a flat bar that points away from its shaft. Its ``set_angle`` is the angle between its face
and the plane in which it turns: at 90 degrees the bar lies square-on, its whole width along the shaft;
at 0 it lies in the plane and cuts like a disc. Near the sleeve it is thickened to a stem, which tapers evenly
to the bare blade over ``stem_height``.
"""

from __future__ import annotations

import numpy as np
import numpy.typing as npt

from mixerkit.results import Array, Numbers
from mixerkit.spec import Paddles
from mixerkit.units import in_units

__all__ = [
    "FRICTION",
    "WEDGE_FRICTION",
    "corner_radius",
    "extent_at",
    "held_forces",
    "jam_force",
    "projected_width",
    "section_at",
    "turning_width",
    "wedge_push",
]

FRICTION = (0.1, 0.2)
"""Friction of a stone or of metal on a paddle in wet clay, least and most (common practice)."""
WEDGE_FRICTION = 0.3
"""Friction of a thing that wedges itself between a paddle's tip and the wall (common practice).

A rigid thing that reaches from the wall to the tip, and stands at some angle off upright, stops the paddle by the
tangent of that angle of what it presses, and slips out where the tangent is more than its friction. Wet clay makes
things slip at 0.1 to 0.2, and one that stands steeper would press harder. But to let it pass the gap need open only by
half of the gap times the square of the angle: 0.2 mm of 4.5 mm at 0.3. In the demo of 90 mm its shaft, which gives a
millimetre for 64 kN, then presses with 12 kN at the most and less for all that stand steeper, and its sheet, which
dents at 5 kN (four pi times its plastic moment), with less still; the 0.3 presses with 18 kN.
"""


@in_units("mm", width="mm > 0", thickness="mm > 0", set_angle="deg >= 0 <= 90")
def projected_width(width: Numbers, thickness: Numbers, set_angle: Numbers) -> Numbers:
    r"""Width of a blade as the clay meets it, which is the length it takes up along its shaft.

    .. math:: b' = b \sin\beta + t \cos\beta

    Parameters
    ----------
    width, thickness : quantity, any shape
    set_angle : quantity, broadcast
        90 degrees is square-on.

    Returns
    -------
    quantity [mm], the broadcast shape

    References
    ----------
    Plane geometry.

    Examples
    --------
    >>> round(projected_width("40 mm", "6 mm", "45 deg"), 2)
    <Quantity(32.53, 'millimeter')>
    """
    turned = np.radians(set_angle)
    return width * np.sin(turned) + thickness * np.cos(turned)


@in_units("mm", width="mm > 0", thickness="mm > 0", set_angle="deg >= 0 <= 90")
def turning_width(width: Numbers, thickness: Numbers, set_angle: Numbers) -> Numbers:
    r"""Width of a blade in the plane in which it turns, across its radius.

    .. math:: b'' = b \cos\beta + t \sin\beta

    Parameters
    ----------
    width, thickness : quantity, any shape
    set_angle : quantity, broadcast
        90 degrees is square-on.

    Returns
    -------
    quantity [mm], the broadcast shape

    References
    ----------
    Plane geometry.

    Examples
    --------
    >>> turning_width("40 mm", "6 mm", "0 deg"), round(turning_width("40 mm", "6 mm", "90 deg"), 9)
    (<Quantity(40.0, 'millimeter')>, <Quantity(6.0, 'millimeter')>)
    """
    turned = np.radians(set_angle)
    return width * np.cos(turned) + thickness * np.sin(turned)


@in_units("mm", tip_radius="mm > 0", width="mm > 0", thickness="mm > 0", set_angle="deg >= 0 <= 90")
def corner_radius(
    tip_radius: Numbers, width: Numbers, thickness: Numbers, set_angle: Numbers
) -> Numbers:
    r"""Radius that the corners of a blade's tip reach, further out than the middle of the tip.

    .. math:: r_c = \sqrt{r^2 + (b''/2)^2}

    Parameters
    ----------
    tip_radius : quantity, any shape
        From the shaft's middle to the middle of the tip.
    width, thickness : quantity, broadcast
    set_angle : quantity, broadcast
        90 degrees is square-on.

    Returns
    -------
    quantity [mm], the broadcast shape

    References
    ----------
    Plane geometry; b'' by :func:`turning_width`.

    Examples
    --------
    >>> corner_radius("40 mm", "60 mm", "6 mm", "0 deg")
    <Quantity(50.0, 'millimeter')>
    """
    return np.hypot(tip_radius, turning_width.formula(width, thickness, set_angle) / 2)


def section_at(blade: Paddles, radius: npt.ArrayLike) -> tuple[Array, Array]:
    """Width and thickness of a paddle at a distance from its shaft's middle, in mm.

    The stem tapers evenly; one of no height is no stem, and the bare blade stands on the sleeve.
    """
    out = np.asarray(radius, float) - blade.root_radius
    height = blade.stem_height
    share = np.clip(out / height, 0.0, 1.0) if height > 0 else np.ones_like(out)
    return (
        blade.stem_width + share * (blade.width - blade.stem_width),
        blade.stem_thickness + share * (blade.thickness - blade.stem_thickness),
    )


def extent_at(blade: Paddles, radius: npt.ArrayLike) -> Array:
    """Length in mm that a paddle takes up along its shaft at a distance from the shaft's middle."""
    return np.asarray(projected_width.formula(*section_at(blade, radius), blade.set_angle))


@in_units("N", torque="N*m >= 0", root_radius="mm > 0", tip_radius="mm > 0")
def jam_force(torque: Numbers, root_radius: Numbers, tip_radius: Numbers) -> Numbers:
    r"""Greatest force across a shaft that a jammed paddle of it may bring, wherever it is caught.

    .. math:: F = T \max\left(\frac{1}{r_1},\ \frac{\sqrt{1 + 1/\mu^2}}{r_2}\right)

    Parameters
    ----------
    torque : quantity, any shape
        That the jam brings to the shaft.
    root_radius, tip_radius : quantity, broadcast
        A thing that merely stops the paddle pushes the harder the nearer to the sleeve; one wedged between tip and
        wall rubs with what stops the paddle, and presses along it with that over its friction :math:`\mu`.

    Returns
    -------
    quantity [N], the broadcast shape

    References
    ----------
    Equilibrium: torque over lever, and a wedge that just does not slip, of friction 0.3 (common practice).

    Examples
    --------
    >>> round(jam_force("1 N*m", "40 mm", "90 mm"), 1), jam_force("1 N*m", "25 mm", "90 mm")
    (<Quantity(38.7, 'newton')>, <Quantity(40.0, 'newton')>)
    """
    wedged = np.hypot(1.0, 1 / WEDGE_FRICTION) / np.asarray(tip_radius, float)
    force: Numbers = torque * 1e3 * np.maximum(1 / np.asarray(root_radius, float), wedged)[()]
    return force


def wedge_push(torque: Numbers, tip_radius: float) -> Numbers:
    """Push in N along a paddle whose tip a wedged thing stops, by the torque on its shaft in N*m."""
    return 1e3 * torque / tip_radius / WEDGE_FRICTION


def held_forces(set_angle: float) -> list[tuple[float, float, float]]:
    r"""How a paddle that is caught is pushed, for a force of 1 in the direction in which it turns.

    What holds it pushes square to the face, or to the edge, that it lies on, and rubs along it:
    :math:`N = F / (\sin\beta + \mu\cos\beta)` on the face, with sine and cosine exchanged on the edge. The
    flatter a paddle stands, the harder a stone is wedged under its face.

    Parameters
    ----------
    set_angle : float
        In degrees between face and the plane in which it turns.

    Returns
    -------
    list of (over the thickness, over the width, along the shaft)
        On the face and on the edge, with the least and the most :data:`FRICTION`.

    References
    ----------
    Equilibrium on an inclined plane.

    Examples
    --------
    >>> [round(one, 3) for one in held_forces(90.0)[0]]
    [1.0, 0.1, -0.1]
    """
    sine, cosine = float(np.sin(np.radians(set_angle))), float(np.cos(np.radians(set_angle)))
    found = []
    for rubs in FRICTION:
        face, edge = 1 / (sine + rubs * cosine), 1 / (cosine + rubs * sine)
        found.append((face, rubs * face, face * (cosine - rubs * sine)))
        found.append((rubs * edge, edge, edge * (sine - rubs * cosine)))
    return found
