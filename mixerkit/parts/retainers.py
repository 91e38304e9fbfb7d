"""The two plates that hold the outer rings of the locating bearings, one on either face, screwed through.

A bearing that takes the push along its shaft sits in a bore straight through its plate, with no shoulder. One plate
on each face reaches over the outer rings of both shafts; the same screws go through both and the plate between them,
tapped into the one on the inside, so that nothing stands out there.
"""

from __future__ import annotations

from math import cos, hypot, radians, sin

import numpy as np

from mixerkit.frozen import result
from mixerkit.parts import zones
from mixerkit.parts.along import NAMES
from mixerkit.parts.frame_layout import EDGE, dowel_places, plate_size
from mixerkit.parts.idler import PIN_SPACER, idler_centre
from mixerkit.parts.kept import PLACED, kept_by
from mixerkit.results import TableRow
from mixerkit.spec import Spec
from mixerkit.tables import table

__all__ = ["ANGLES", "Retainer", "least_beside", "retainer"]

ANGLES = (0.0, 55.0, -55.0, 110.0, -110.0)
"""Where the screws stand round each bore, in degrees from the side away from the other shaft: none in the web."""
_BESIDE = 1.5
"""Of a screw's middle from its bore and from the plate's rim, in diameters (common practice)."""
_CLEAR = 1.0
"""Gap in mm round the spacer of the idler's pin (common practice)."""
_FREE = 1.0
"""Gap in mm wanted between a plate or its screws and what stands or turns beside it (common practice)."""
_RING = 0.05
"""Thinnest distance ring in mm: less is left as play (common practice)."""


@result
class Retainer:
    """Both plates; sizes in mm, those of shaft 1 first.

    Attributes
    ----------
    place : int
        Of the bearings they hold, counted from nought.
    thickness : float
    screw : str
        Thread of the screws.
    hole : float
        Clearance hole of the screws.
    between : float
        Thickness of the gear plate or wall between them.
    openings : tuple of float
        Holes round the shafts: what a housing's shoulder would be, as far from the outside of the bearing as its
        shaft's shoulder is from its bore (common practice; makers' catalogues print both alike).
    pressed : tuple of float
        Radii of the middle of what each plate covers of the outer rings.
    circles, reach : tuple of float
        Radii of the screws' circles and of the plates' rims about both shafts.
    rings : tuple of (float, float, float)
        Outside, inside and thickness of the distance rings between outer ring and plate, not thicker than
        nought where there are none.
    screws : tuple of (float, float)
        Places of the screws from shaft 1: towards shaft 2, and up.
    notch : tuple of (float, float, float) or None
        Place from shaft 1 and radius of the notch round the idler's pin in the inner plate.
    size : tuple of float
        Length and height of the plates.
    """

    place: int
    thickness: float
    screw: str
    hole: float
    between: float
    openings: tuple[float, float]
    pressed: tuple[float, float]
    circles: tuple[float, float]
    reach: tuple[float, float]
    rings: tuple[tuple[float, float, float], ...]
    screws: tuple[tuple[float, float], ...]
    notch: tuple[float, float, float] | None
    size: tuple[float, float]

    @property
    def rooms(self) -> tuple[float, float]:
        """Room in mm that it takes up along the shafts: inside, and outside where the screws' heads are."""
        head = float(table("threads").find(self.screw).values["diameter"])
        return self.thickness + _FREE, self.thickness + head + _FREE

    @property
    def has_rings(self) -> bool:
        """Whether distance rings go between outer rings and plates."""
        return min(thick for _, _, thick in self.rings) > _RING

    def beside(self, number: int) -> float:
        """Least metal across the plate round a shaft, from its opening to rim or notch, screw holes taken out."""
        inner = self.openings[number - 1] / 2
        rim = self.reach[number - 1] - inner - self.hole
        if not self.notch:
            return rim
        x, y, radius = self.notch
        apart = self.size[0] - sum(self.reach)
        return min(rim, hypot(x - apart * (number - 1), y) - radius - inner)


@kept_by(*PLACED, "frame")
def retainer(spec: Spec) -> Retainer | None:
    """Lay out the plates that hold the outer rings of the locating bearings.

    Parameters
    ----------
    spec : Spec

    Returns
    -------
    Retainer or None
        None for bushes, for insert bearings, and where no bearing goes on a seat.
    """
    bearings, place = spec.bearings, spec.bearings.locating - 1
    rows = [zones.bearing_on(spec, number, NAMES[place]) for number in (1, 2)]
    held = [row for row in rows if row is not None]
    if len(held) < 2 or zones.series_at(spec, NAMES[place]) == zones.INSERT:
        return None
    bolt = table("threads").find(bearings.retainer_screw).values
    beside = _BESIDE * float(bolt["diameter"])
    apart, between = (
        spec.housing.centre_distance,
        spec.frame.wall_thickness if place == 2 else spec.housing.plate_thickness,
    )
    outside = [float(row["outer"]) for row in held]
    opened = [float(row["outer"] + row["bore"] - row["least_shoulder"]) for row in held]
    circles = [one / 2 + beside for one in outside]
    reach = circles[0] + beside, circles[1] + beside
    return Retainer(
        place=place,
        thickness=bearings.retainer_thickness,
        screw=bearings.retainer_screw,
        hole=float(bolt["clearance_hole"]),
        between=between,
        openings=(opened[0], opened[1]),
        pressed=(_middle(opened[0], held[0]), _middle(opened[1], held[1])),
        circles=(circles[0], circles[1]),
        reach=reach,
        rings=tuple(
            (across - 0.5, inner, (between - float(row["width"])) / 2)
            for across, inner, row in zip(outside, opened, held, strict=True)
        ),
        screws=tuple(
            (
                -circles[0] * cos(radians(one))
                if k == 0
                else apart + circles[1] * cos(radians(one)),
                circles[k] * sin(radians(one)),
            )
            for k in range(2)
            for one in ANGLES
        ),
        notch=_notch(spec) if place < 2 else None,
        size=(apart + sum(reach), 2 * max(reach)),
    )


def _middle(opening: float, row: TableRow) -> float:
    """Radius of the middle of what is covered of an outer ring, from the opening to where its corner begins."""
    return (opening + float(row["outer"]) - 2 * float(row["corner"])) / 4


def _notch(spec: Spec) -> tuple[float, float, float] | None:
    along, aside, _ = idler_centre(spec)
    if not np.isfinite(aside):
        return None
    return along, aside, spec.housing.idler_pin / 2 + PIN_SPACER + _CLEAR


def least_beside(spec: Spec, one: Retainer) -> float:
    """Least metal in mm between a hole of its screws and another hole or an edge of the plate that they go through."""
    wall, (width, height) = spec.housing.wall_distance, plate_size(spec)
    holes = []
    if one.place < 2:
        bolt = table("threads").find(spec.housing.tie_bolt).values["clearance_hole"]
        holes += [(x, y, bolt) for x in (EDGE, width - EDGE) for y in (EDGE, height - EDGE)]
        holes += [(x, y, spec.housing.dowel) for x, y in dowel_places(spec)]
        along, aside, _ = idler_centre(spec)
        if np.isfinite(aside):
            holes.append((wall + along, height / 2 + aside, spec.housing.idler_pin))
    places = [(wall + x, height / 2 + y) for x, y in one.screws]
    left = [min(x, y, width - x, height - y) - one.hole / 2 for x, y in places]
    left += [hypot(x - p, y - q) - (one.hole + size) / 2 for x, y in places for p, q, size in holes]
    left += [
        hypot(x - p, y - q) - one.hole
        for k, (x, y) in enumerate(places)
        for p, q in places[k + 1 :]
    ]
    return float(min(left))
