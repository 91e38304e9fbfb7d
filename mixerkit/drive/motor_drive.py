"""What sits between motor and box: its wheels, how fast it runs and how heavy it is to turn."""

from __future__ import annotations

from math import pi

from mixerkit.drive import belt, chain
from mixerkit.frozen import result
from mixerkit.parts.reduction import drive_ratio
from mixerkit.results import TableRow
from mixerkit.spec import Spec
from mixerkit.tables import table

__all__ = ["PULLED", "Wheels", "added_inertia", "chain_play", "rim_speed", "wheels"]

PULLED = ("V-belt", "chain")
"""Kinds that pull across the shafts, and draw in what touches them."""
_IRON = 7200.0
_STEEL = 7850.0
"""Densities in kg/m^3 (any handbook)."""
_SAG = 0.04
"""Greatest sag of a chain's loose strand over its span (common practice 2 to 4 %)."""
_HUB = 16.0
"""Diameter in mm of a coupling for one N*m, going with the third root of its torque (common practice)."""


@result
class Wheels:
    """Both wheels of belts or a chain.

    Attributes
    ----------
    motor, box : float
        Datum or pitch diameters in mm.
    centre : float
        Of their middles, in mm.
    row : mapping
        Section of the belt, or size of the chain, as its table has it.
    """

    motor: float
    box: float
    centre: float
    row: TableRow

    @property
    def clear(self) -> bool:
        """Whether they do not stand in each other."""
        return self.centre > (self.motor + self.box) / 2

    @property
    def wrap(self) -> float:
        """Angle over which belt or chain lies on the smaller, in degrees."""
        return float(belt.wrap.formula(self.small, self.large, self.centre))

    @property
    def length(self) -> float:
        """Of the belt at that distance, in mm."""
        return float(belt.belt_length.formula(self.small, self.large, self.centre))

    @property
    def small(self) -> float:
        """Diameter of the smaller in mm."""
        return min(self.motor, self.box)

    @property
    def large(self) -> float:
        """Diameter of the larger in mm."""
        return max(self.motor, self.box)


def wheels(spec: Spec) -> Wheels:
    """Both wheels of a design's belts or chain.

    Parameters
    ----------
    spec : Spec
        Of one of :data:`PULLED`.

    Returns
    -------
    Wheels
    """
    one = spec.motor_drive
    if one.kind == "V-belt":
        row = table("belt_sections").find(one.belt.section).values
        at_motor, at_box, apart = (
            one.belt.motor_pulley,
            one.belt.box_pulley,
            one.belt.centre_distance,
        )
    else:
        row, apart = table("chains").find(one.chain.size).values, one.chain.centre_distance
        at_motor, at_box = (
            float(chain.sprocket.formula(row["pitch"], teeth))
            for teeth in (one.chain.motor_teeth, one.chain.box_teeth)
        )
    return Wheels(motor=at_motor, box=at_box, centre=apart, row=row)


def rim_speed(spec: Spec, turning: float) -> float:
    """Speed in m/s of a design's belts or chain, its motor turning at some rpm."""
    return pi * wheels(spec).motor / 1e3 * turning / 60


def chain_play(spec: Spec) -> float:
    """Play in rad at the box's fast end that the slack of a chain gives; nought for all else.

    Parameters
    ----------
    spec : Spec

    Returns
    -------
    float

    References
    ----------
    An arc of little sag is longer than its span by 8/3 of the square of the sag over it: any handbook; the
    loose strand sags by 4 % at the most: common practice.
    """
    if spec.motor_drive.kind != "chain":
        return 0.0
    both = wheels(spec)
    return 8 / 3 * _SAG**2 * both.centre / (both.box / 2)


def _disc(diameter: float, width: float, density: float) -> float:
    """Moment of inertia in kg*m^2 of a solid disc, sizes in mm: no wheel with a web is heavier to turn."""
    return pi / 32 * density * diameter**4 * width * 1e-15


def added_inertia(spec: Spec) -> float:
    """Moment of inertia in kg*m^2, at the motor, of what sits between it and the box.

    Parameters
    ----------
    spec : Spec

    Returns
    -------
    float
        As stated; else that of solid wheels with belts or chain, or of a solid coupling of steel; nought for a flange.

    References
    ----------
    pi rho b D^4 / 32; the box's side over the square of the ratio: energy.
    """
    one = spec.motor_drive
    if one.kind == "flange" or one.inertia:
        return 0.0 if one.kind == "flange" else one.inertia
    if one.kind == "elastic coupling":
        across = _HUB * (one.coupling.rated_torque or 0.0) ** (1 / 3)
        return _disc(across, 1.4 * across, _STEEL)
    both = wheels(spec)
    if one.kind == "V-belt":
        row, count, density = both.row, one.belt.belts, _IRON
        wide = (count - 1) * row["groove_pitch"] + 2 * row["groove_edge"]
        over = row["height"] / 2
    else:
        row, count, density = both.row, one.chain.strands, _STEEL
        # the hub is as wide again as the teeth; the teeth stand out half a pitch at most
        wide, over = 2 * count * row["inner_width"], row["pitch"] / 2
    # no open belt is longer than this
    long = 2 * both.centre + pi * both.large
    hauled = count * row["mass_per_length"] * long * 1e-3 * (both.motor / 2e3) ** 2
    at_motor, at_box = (_disc(size + over, wide, density) for size in (both.motor, both.box))
    return float(at_motor + at_box / drive_ratio(spec) ** 2 + hauled)
