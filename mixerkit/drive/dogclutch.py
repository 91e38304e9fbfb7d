"""Sliding dog clutch: pressure and shear of the dogs, wait, travel, neutral, fork force.

Straight-sided dogs stand on both ends of a sleeve and on the face of each free gear. A dog takes
half a pitch less half the play. The sleeve slides on a feather key of its shaft.
"""

from __future__ import annotations

from math import pi

import numpy as np

from mixerkit.frozen import result
from mixerkit.parts.zones import CLUTCH, between_gears, seat
from mixerkit.results import Counts, Numbers, Travel
from mixerkit.spec import Spec
from mixerkit.tables import table
from mixerkit.units import in_units

__all__ = [
    "bearing_pressure",
    "dog_force",
    "fork_groove",
    "milling",
    "positions",
    "root_bending",
    "root_shear",
    "shift_force",
    "sleeve_mass",
    "wait_angle",
]


@in_units("N", torque="N*m", outer_diameter="mm > 0", inner_diameter="mm > 0")
def dog_force(
    torque: Numbers, outer_diameter: Numbers, inner_diameter: Numbers, carrying: Numbers
) -> Numbers:
    r"""Force on one carrying dog at its middle radius.

    .. math:: F = \frac{4\,T}{(D + d)\, n}

    Parameters
    ----------
    torque : quantity, any shape
    outer_diameter, inner_diameter : quantity, broadcast
    carrying : float, broadcast
        How many dogs carry.

    Returns
    -------
    quantity [N], the broadcast shape

    References
    ----------
    Equal shares at the middle radius (common practice).

    Examples
    --------
    >>> round(dog_force("300 N*m", "90 mm", "60 mm", 2))
    <Quantity(4000, 'newton')>
    """
    return 4e3 * torque / ((outer_diameter + inner_diameter) * carrying)


@in_units("MPa", force="N", outer_diameter="mm > 0", inner_diameter="mm > 0", overlap="mm > 0")
def bearing_pressure(
    force: Numbers, outer_diameter: Numbers, inner_diameter: Numbers, overlap: Numbers
) -> Numbers:
    r"""Pressure on the side of a dog.

    .. math:: p = \frac{2 F}{(D - d)\, e}

    Parameters
    ----------
    force : quantity, any shape
    outer_diameter, inner_diameter, overlap : quantity, broadcast

    Returns
    -------
    quantity [MPa], the broadcast shape

    References
    ----------
    Force over area.

    Examples
    --------
    >>> round(bearing_pressure("4000 N", "90 mm", "60 mm", "8 mm"), 1)
    <Quantity(33.3, 'megapascal')>
    """
    return 2 * force / ((outer_diameter - inner_diameter) * overlap)


@in_units("MPa", force="N", outer_diameter="mm > 0", inner_diameter="mm > 0", play="deg > 0")
def root_shear(
    force: Numbers, outer_diameter: Numbers, inner_diameter: Numbers, dogs: Counts, play: Numbers
) -> Numbers:
    r"""Shear at the root of a dog, over its width at the middle radius.

    .. math:: \tau = \frac{1.5\,F}{A}, \quad A = \frac{D + d}{4} \left(\frac{\pi}{n} - \frac{\varphi}{2}\right) \frac{D - d}{2}

    Parameters
    ----------
    force : quantity, any shape
    outer_diameter, inner_diameter : quantity, broadcast
    dogs : int, broadcast
        On one face.
    play : quantity, broadcast
        Angle by which a space is wider than a dog.

    Returns
    -------
    quantity [MPa], the broadcast shape

    References
    ----------
    Greatest shear of a rectangular section, Shigley 10th ed., eq. 3-33.

    Examples
    --------
    >>> round(root_shear("4000 N", "90 mm", "60 mm", 3, "6 deg"), 1)
    <Quantity(10.7, 'megapascal')>
    """
    width = _thickness(outer_diameter, inner_diameter, dogs, play)
    return 1.5 * force / (width * (outer_diameter - inner_diameter) / 2)


def _thickness(
    outer_diameter: Numbers, inner_diameter: Numbers, dogs: Counts, play: Numbers
) -> Numbers:
    """Thickness of a dog along its middle circle, in the unit of the diameters."""
    return (outer_diameter + inner_diameter) / 4 * (pi / dogs - np.radians(play) / 2)


@in_units(
    "MPa",
    force="N",
    outer_diameter="mm > 0",
    inner_diameter="mm > 0",
    play="deg > 0",
    height="mm > 0",
    overlap="mm > 0",
)
def root_bending(
    force: Numbers,
    outer_diameter: Numbers,
    inner_diameter: Numbers,
    dogs: Counts,
    play: Numbers,
    height: Numbers,
    overlap: Numbers,
) -> Numbers:
    r"""Bending stress at the root of a dog, which stands out like a short bar.

    .. math:: \sigma = \frac{6\,F\,(h - e/2)}{b\,t^2}, \quad b = \frac{D - d}{2}, \quad
       t = \frac{D + d}{4} \left(\frac{\pi}{n} - \frac{\varphi}{2}\right)

    Parameters
    ----------
    force : quantity, any shape
        In the middle of what the dogs overlap.
    outer_diameter, inner_diameter : quantity, broadcast
    dogs : int, broadcast
        On one face.
    play : quantity, broadcast
        Angle by which a space is wider than a dog.
    height, overlap : quantity, broadcast
        How far a dog stands out, and how far the dogs go into each other.

    Returns
    -------
    quantity [MPa], the broadcast shape

    References
    ----------
    Bending of a rectangle, Shigley 10th ed., eq. 3-24 and 3-26.

    Examples
    --------
    >>> round(root_bending("4000 N", "90 mm", "60 mm", 24, "6 deg", "10 mm", "8 mm"))
    <Quantity(1107, 'megapascal')>
    """
    thick = _thickness(outer_diameter, inner_diameter, dogs, play)
    wide = (outer_diameter - inner_diameter) / 2
    return 6 * force * (height - overlap / 2) / (wide * thick**2)


@in_units("N", torque="N*m", middle_radius="mm > 0", shaft_diameter="mm > 0")
def shift_force(
    torque: Numbers, middle_radius: Numbers, shaft_diameter: Numbers, friction: Numbers
) -> Numbers:
    r"""Force that pulls the dogs apart while torque is on.

    .. math:: F = \mu\, T \left(\frac{1}{r} + \frac{2}{d}\right)

    Parameters
    ----------
    torque : quantity, any shape
    middle_radius, shaft_diameter : quantity, broadcast
        Friction acts at the dogs and again at the feather key.
    friction : float, broadcast

    Returns
    -------
    quantity [N], the broadcast shape

    References
    ----------
    Coulomb friction at both places (common practice).

    Examples
    --------
    >>> round(shift_force("300 N*m", "37.5 mm", "45 mm", 0.12))
    <Quantity(2560, 'newton')>
    """
    return friction * torque * 1e3 * (1 / middle_radius + 2 / shaft_diameter)


def wait_angle(dogs: int, play: float) -> float:
    """Angle in degrees that one side may have to turn before the dogs drop in.

    Examples
    --------
    >>> wait_angle(3, 6.0)
    114.0
    """
    return 360.0 / dogs - play


def positions(spec: Spec) -> Travel:
    """Room for the sleeve between the two free gears, neutral gap and travel, all in mm.

    Parameters
    ----------
    spec : Spec

    Returns
    -------
    Travel
        ``room`` between the tips of the gears' dogs; ``gap`` each side in neutral; ``travel`` from
        neutral into either gear; ``other`` gap on the far side when engaged, which must stay open;
        ``bottom`` clearance left at the foot of the dogs.
    """
    one = spec.clutch
    room = between_gears(spec) - 2 * one.dog_height
    gap = (room - one.sleeve_length) / 2
    return Travel(
        room=room,
        gap=gap,
        travel=gap + one.overlap,
        other=2 * gap + one.overlap,
        bottom=one.dog_height - one.overlap,
    )


@result
class Milling:
    """How dogs are milled."""

    straight_across: bool
    passes: int
    turn: float
    cutter: float
    words: str


def milling(spec: Spec) -> Milling:
    """How the dogs are milled: passes, indexing, and the widest cutter that fits a space.

    With an odd count a straight pass across the face cuts one side of two spaces that face each
    other; with an even count the far side would cut into a dog, so each space is cut by itself.

    Parameters
    ----------
    spec : Spec

    Returns
    -------
    Milling
        ``straight_across``; ``passes`` a face; ``turn`` in degrees between passes; ``cutter`` in
        mm, the widest; ``words`` for the sheet.
    """
    one = spec.clutch
    odd = one.dogs % 2 == 1 and one.dogs > 1
    space = pi / one.dogs + np.radians(one.angular_play) / 2
    cutter = one.inner_diameter * np.sin(min(space, pi) / 2)
    passes = one.dogs if odd else 2 * one.dogs
    words = (
        f"odd count: mill straight across in {passes} passes, turning {360 / one.dogs:g} deg between; each pass cuts "
        "one side of two spaces"
        if odd
        else f"even count: mill each side of each space by itself, {passes} passes, and stop short of the dog across"
    )
    return Milling(
        straight_across=odd, passes=passes, turn=360 / one.dogs, cutter=float(cutter), words=words
    )


def sleeve_mass(spec: Spec) -> float:
    """Mass of the sleeve in kg, a ring of the clutch's outside diameter bored to its shaft."""
    one = spec.clutch
    bore = seat(spec, one.shaft, CLUTCH)
    density = table("materials").find(one.material).values["density"]
    return float(pi / 4 * (one.outer_diameter**2 - bore**2) * one.sleeve_length * 1e-9 * density)


def fork_groove(spec: Spec) -> tuple[float, float]:
    """Width and depth in mm of the groove round the sleeve in which the fork's shoes run.

    A third of the length between the dogs, and a fifth of the wall between bore and outside (common practice).
    """
    one = spec.clutch
    core = one.sleeve_length - 2 * one.dog_height
    wall = (one.outer_diameter - seat(spec, one.shaft, CLUTCH)) / 2
    return max(core, 0.0) / 3, max(wall, 0.0) / 5
