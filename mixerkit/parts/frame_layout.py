"""Plates and far wall as what they are cut to, and what presses and pushes on them."""

from __future__ import annotations

import numpy as np

from mixerkit.frozen import result
from mixerkit.parts.along import NAMES
from mixerkit.parts.bearing_loads import axial_push, jam_thrust
from mixerkit.parts.blades import jam_force
from mixerkit.parts.shaftline import ShaftBeam
from mixerkit.parts.worked import WorkedMachine
from mixerkit.parts.zones import bore_round
from mixerkit.results import Array, Numbers
from mixerkit.spec import Spec
from mixerkit.tables import table
from mixerkit.units import in_units

__all__ = [
    "EDGE",
    "Held",
    "bore",
    "dowel_places",
    "held",
    "hole_factor",
    "plate_size",
    "pushes",
    "tie_spans",
]

EDGE = 25.0
"""Tie bolts' and dowels' distance from the edges in mm (common practice: two diameters)."""


def plate_size(spec: Spec) -> tuple[float, float]:
    """Width and height in mm of a gear plate, which the far wall has too."""
    housing = spec.housing
    return housing.centre_distance + 2 * housing.wall_distance, 2 * housing.wall_distance


def tie_spans(spec: Spec) -> tuple[float, float]:
    """Free spans in mm between the tie bolts: across the shafts, and up."""
    width, height = plate_size(spec)
    return width - 2 * EDGE, height - 2 * EDGE


def dowel_places(spec: Spec) -> list[tuple[float, float]]:
    """Places in mm of the dowels from a plate's lower corner beside shaft 1.

    They stand on one diagonal only, so that plates put together the wrong way do not go on.
    """
    width, height = plate_size(spec)
    return [(3 * EDGE, EDGE), (width - 2 * EDGE, height - EDGE)]


@in_units("", diameter="mm > 0", thickness="mm > 0")
def hole_factor(diameter: Numbers, thickness: Numbers) -> Numbers:
    r"""Stress concentration of a hole in a wide plate that is bent.

    .. math:: K_t = 1.79 + \frac{0.25}{0.39 + u} + \frac{0.81}{1 + u^2} - \frac{0.26}{1 + u^3}, \quad u = d/t

    Parameters
    ----------
    diameter, thickness : quantity, broadcast

    Returns
    -------
    float or array
        About 3 for a small hole, 1.79 for a wide one in thin plate.

    References
    ----------
    Peterson's Stress Concentration Factors, circular hole in an infinite thin element in simple bending (from
    memory).

    Examples
    --------
    >>> round(float(hole_factor("85 mm", "20 mm").m), 3)
    1.883
    """
    u = diameter / thickness
    return 1.79 + 0.25 / (0.39 + u) + 0.81 / (1 + u**2) - 0.26 / (1 + u**3)


def pushes(machine: WorkedMachine) -> tuple[Array, Array]:
    """Push in N along each shaft over the load cases: of its paddles, or of one that is caught."""
    flat = axial_push(machine)
    one, two = (np.maximum(flat, jam_thrust(machine, number)) for number in (1, 2))
    return one, two


def caught(machine: WorkedMachine) -> Array:
    """Force in N across a shaft over the load cases, of a paddle of either that is caught at its worst."""
    blade, (one, two) = machine.spec.paddles, machine.power_flow.paddles
    return np.asarray(jam_force.formula(np.maximum(one, two), blade.root_radius, blade.tip_radius))


@result
class Held:
    """A bearing or bush in its plate or wall; sizes in mm, strength in MPa.

    Attributes
    ----------
    bore : float
        In plate or wall.
    length : float
        Over which both touch.
    material : str
    yields : float
    """

    bore: float
    length: float
    material: str
    yields: float


def bore(line: ShaftBeam, place: int) -> float:
    """Bore in mm in plate or wall for the bearing or bush at a place of a shaft, counted from nought."""
    return bore_round(line.machine.spec, line.number, NAMES[place])


def held(line: ShaftBeam, place: int) -> Held:
    """Say how a bearing of a shaft sits: places 0 and 1 in the gear plates, 2 in the far wall."""
    spec = line.machine.spec
    far = place == 2
    material = spec.frame.wall_material if far else spec.housing.plate_material
    thick = (
        max(spec.frame.wall_thickness, spec.frame.boss_length)
        if far
        else spec.housing.plate_thickness
    )
    row = line.bearings[place] if spec.bearings.kind == "rolling" else None
    return Held(
        bore=bore(line, place),
        length=min(thick, float(row["width"]) if row else spec.bearings.bush_length),
        material=material,
        yields=table("materials").find(material).values["yield_strength"],
    )
