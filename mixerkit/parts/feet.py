"""What keeps the machine on its feet, and what tips it."""

from __future__ import annotations

from math import pi

import numpy as np

from mixerkit.constants import STANDARD_GRAVITY
from mixerkit.frozen import result
from mixerkit.parts.along import bearing_places
from mixerkit.parts.bolts import drawn
from mixerkit.parts.frame_layout import bore, plate_size, tie_spans
from mixerkit.parts.worked import WorkedMachine
from mixerkit.spec import Spec
from mixerkit.tables import table

__all__ = ["SUDDEN", "Standing", "standing"]

SUDDEN = 2.0
"""What a load that is let go at once weighs over what it weighs at rest (Shigley 10th ed., section 4-17, a fall
from no height, from memory)."""


@result
class Standing:
    """What keeps the machine on its feet, and what a bag on the edge does; sizes in mm, moments in N*m.

    Attributes
    ----------
    mass : float
        In kg, of what is known and helps, box and motor left out.
    length, width : float
        Between the feet, along and across the shafts.
    keeps : tuple of float
        Moment that keeps it from tipping sideways, over the feet at the reducer, and over the far feet.
    tips : tuple of float
        Moment of bag and push that tips it so.
    over : float
        By which the trough's edge stands out beyond the feet; below nought it stands within them.
    held : float
        Pull in N that holds each foot down.
    box : tuple of float
        Moment of box and motor that tips it, sideways and over the feet at the reducer.
    """

    mass: float
    length: float
    width: float
    keeps: tuple[float, float, float]
    tips: tuple[float, float, float]
    over: float
    held: float
    box: tuple[float, float]


def _known(machine: WorkedMachine) -> list[tuple[float, float]]:
    """Masses in kg with their places along the shafts in mm: plates, far wall and shafts, bores taken out."""
    spec = machine.spec
    first, second, far = bearing_places(spec)
    width, height = plate_size(spec)

    hole = table("threads").find(spec.housing.tie_bolt).values["clearance_hole"]
    # idler's pin, tie bolts and dowels
    small = spec.housing.idler_pin**2 + 4 * hole**2 + 2 * spec.housing.dowel**2

    def plate(place: int, thickness: float, material: str) -> float:
        bores = sum(bore(line, place) ** 2 for line in machine.shaft_beams)
        area = max(width * height - pi / 4 * (bores + small), 0.0)
        return float(area * thickness * 1e-9 * table("materials").find(material).values["density"])

    steel, thick = spec.housing.plate_material, spec.housing.plate_thickness
    frame = spec.frame
    found = [
        (plate(0, thick, steel), first),
        (plate(1, thick, steel), second),
        (plate(2, frame.wall_thickness, frame.wall_material), far),
    ]
    for line in machine.shaft_beams:
        middles = np.concatenate([(line.places[1:] + line.places[:-1]) / 2, line.places])
        each = np.concatenate([line.weights * np.diff(line.places), line.hung]) / STANDARD_GRAVITY
        found.append((float(each.sum()), float((each * middles).sum() / each.sum())))
    return found


def _feet(spec: Spec) -> tuple[float, float, float]:
    """Places of the feet along the shafts in mm, and their distance across."""
    near, _, far = bearing_places(spec)
    middle, length = (near + far) / 2, spec.frame.foot_length or far - near
    width = spec.frame.foot_width or max(tie_spans(spec)[0], 0.0)
    return middle - length / 2, middle + length / 2, width


def standing(machine: WorkedMachine) -> Standing:
    """Work out what keeps the machine on its feet; masses that are not known count only where they tip it.

    Parameters
    ----------
    machine : WorkedMachine

    Returns
    -------
    Standing
    """
    spec, frame, box = machine.spec, machine.spec.frame, machine.spec.reducer
    near, far, width = _feet(spec)
    known = _known(machine)
    mass = frame.mass or sum(one for one, _ in known)
    if frame.mass:
        known = [(frame.mass, (near + far) / 2)]
    hold = min(frame.foot_hold, drawn(frame, frame.foot_bolt).least)
    gravity = STANDARD_GRAVITY / 1e3
    # box and motor sit at shaft 1, beyond the plate: they tip it where they hang out over its feet
    aside = gravity * box.mass * max(spec.housing.centre_distance / 2 - width / 2, 0.0)
    ahead = gravity * box.mass * max(near + box.overhang, 0.0)
    edge = (
        spec.housing.centre_distance / 2
        + spec.paddles.tip_radius
        + spec.trough.wall_clearance
        + spec.trough.wall_thickness
    )
    over = edge - width / 2
    bag = SUDDEN * gravity * spec.batch.mass * max(over, 0.0)
    push = frame.handling_push * frame.edge_height / 1e3
    pulls = 2 * hold / 1e3
    return Standing(
        mass=mass,
        length=far - near,
        width=width,
        keeps=(
            gravity * mass * width / 2 + pulls * width,
            gravity * sum(one * (at - near) for one, at in known) + pulls * (far - near),
            gravity * sum(one * (far - at) for one, at in known) + pulls * (far - near),
        ),
        tips=(bag + push + aside, push + ahead, push),
        over=over,
        held=hold,
        box=(aside, ahead),
    )
