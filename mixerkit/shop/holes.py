"""Hole charts of both gear plates, from two marked edges, as seen from either side.

Places are measured from the edge beside shaft 1 and from the bottom edge, as the plate is seen from the
reduction box: x runs towards shaft 2, y up. Seen from the other side the same plate is mirrored: what
was on the left is on the right.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, replace

import numpy as np

from mixerkit.frozen import result
from mixerkit.parts import mesh
from mixerkit.parts.frame_layout import EDGE, dowel_places, plate_size
from mixerkit.parts.gear_pairs import mesh_distances, shifts_of
from mixerkit.parts.idler import idler_centre
from mixerkit.parts.retainers import retainer
from mixerkit.parts.zones import bore_round
from mixerkit.shop.blanks import limits_of
from mixerkit.shop.drills import drill_words
from mixerkit.shop.workshop import Mill, Workshop
from mixerkit.spec import Spec
from mixerkit.tables import table
from mixerkit.units import lengths

__all__ = [
    "FACES",
    "PLATES",
    "Hole",
    "Plate",
    "backlash_band",
    "chart",
    "how_made",
    "mill_of",
    "out_of_travel",
    "plate",
    "setups",
    "turned_over",
]

PLATES = ("reducer", "trough")
"""The plate at the reducer, and the one at the trough."""
FACES = {
    ("reducer", "outside"): False,
    ("reducer", "inside"): True,
    ("trough", "inside"): False,
    ("trough", "outside"): True,
}
"""Whether a face of a plate is seen mirrored; outside is away from the gears."""


@dataclass(frozen=True)
class Hole:
    """One hole of a plate.

    Attributes
    ----------
    name : str
    x, y : float
        From the edge beside shaft 1 and from the bottom edge, in mm.
    diameter : float
    zone : str
        Such as ``"H7"``; empty for a clearance hole.
    """

    name: str
    x: float
    y: float
    diameter: float
    zone: str = ""

    @property
    def limits(self) -> tuple[float, float]:
        """Least and most diameter in mm; half a millimetre wide for a clearance hole."""
        if self.zone:
            return limits_of(self.diameter, self.zone)
        return self.diameter, self.diameter + 0.5


@result
class Plate:
    """A plate with its holes."""

    which: str
    width: float
    height: float
    thickness: float
    holes: tuple[Hole, ...]
    mass: float
    material: str


def plate(spec: Spec, which: str) -> Plate:
    """Size and holes of one plate, as seen from the reduction box.

    Parameters
    ----------
    spec : Spec
    which : str
        One of :data:`PLATES`.

    Returns
    -------
    Plate
        ``width``, ``height``, ``thickness`` in mm, ``holes`` list of :class:`Hole`, ``mass`` in kg.
    """
    housing = spec.housing
    wall, apart = housing.wall_distance, housing.centre_distance
    width, height = plate_size(spec)
    along, aside, _ = idler_centre(spec)
    holes = [
        Hole(
            f"shaft {number}",
            wall + apart * (number - 1),
            height / 2,
            _seat(spec, number, which),
            "H7",
        )
        for number in (1, 2)
    ]
    if np.isfinite(aside):
        holes.append(Hole("idler pin", wall + along, height / 2 + aside, housing.idler_pin, "H7"))
    bolt = table("threads").find(housing.tie_bolt).values["clearance_hole"]
    corners = [
        (EDGE, EDGE),
        (width - EDGE, EDGE),
        (EDGE, height - EDGE),
        (width - EDGE, height - EDGE),
    ]
    holes += [Hole(f"tie bolt {k}", x, y, bolt) for k, (x, y) in enumerate(corners, 1)]
    holes += [
        Hole(f"dowel {k}", x, y, housing.dowel, "H7")
        for k, (x, y) in enumerate(dowel_places(spec), 1)
    ]
    held = retainer(spec)
    if held and held.place == PLATES.index(which):
        holes += [
            Hole(f"screw {k}", wall + x, height / 2 + y, held.hole)
            for k, (x, y) in enumerate(held.screws, 1)
        ]
    density = table("materials").find(housing.plate_material).values["density"]
    area = width * height - sum(np.pi / 4 * one.diameter**2 for one in holes)
    return Plate(
        which=which,
        width=width,
        height=height,
        thickness=housing.plate_thickness,
        holes=tuple(holes),
        mass=float(area * housing.plate_thickness * density * 1e-9),
        material=housing.plate_material,
    )


def _seat(spec: Spec, number: int, which: str) -> float:
    return bore_round(spec, number, f"plate at the {which}")


def turned_over(hole: Hole, width: float) -> Hole:
    """Give a hole as it is seen when the plate is turned over about its upright axis.

    Examples
    --------
    >>> turned_over(Hole("shaft 1", 170.0, 170.0, 85.0), 490.0).x
    320.0
    """
    return replace(hole, x=width - hole.x)


@result
class Chart:
    """A plate as the person at the mill sees it."""

    plate: Plate
    face: str
    mirrored: bool
    from_edge: str
    rows: tuple[tuple[Hole, float], ...]
    distances: tuple[tuple[str, float], ...]


def chart(spec: Spec, which: str, face: str) -> Chart:
    """Hole chart of one plate as the person at the mill sees it.

    Parameters
    ----------
    spec : Spec
    which, face : str
        A key of :data:`FACES`.

    Returns
    -------
    Chart
        The plate as :func:`plate` gives it; ``from_edge`` in words, and ``rows`` of (hole as in the datum,
        x from the left in this view); ``distances`` of (words, mm) between bores.
    """
    one, mirrored = plate(spec, which), FACES[which, face]
    edge = "right" if mirrored else "left"
    bores = [hole for hole in one.holes if hole.name in ("shaft 1", "shaft 2", "idler pin")]
    return Chart(
        plate=one,
        face=face,
        mirrored=mirrored,
        from_edge=f"x from the marked edge beside shaft 1, here on the {edge}; y from the marked bottom edge",
        rows=tuple(
            (hole, turned_over(hole, one.width).x if mirrored else hole.x) for hole in one.holes
        ),
        distances=tuple(
            (f"{a.name} to {b.name}", float(np.hypot(a.x - b.x, a.y - b.y)))
            for k, a in enumerate(bores)
            for b in bores[k + 1 :]
        ),
    )


def how_made(hole: Hole, shop: Workshop | None, system: str = "metric") -> str:
    """Say how to make a hole with what the shop has, sizes as this maker reads them."""
    say = lengths(system)
    if shop is None:
        low, high = hole.limits
        return (
            f"bore or ream to {say(low, 5)} - {say(high, 5)}"
            if hole.zone
            else f"drill or bore {say(hole.diameter, 4)}"
        )
    has = shop.holes
    rough = [size for size in has.annular_cutters if size <= hole.diameter - 1.0]
    if not hole.zone:
        # 17/32 in clears a half-inch bolt as 13.5 mm does
        drill = next((size for size in has.drills if -0.02 <= size - hole.diameter <= 0.5), None)
        cutter = next(
            (size for size in has.annular_cutters if -0.02 <= size - hole.diameter <= 0.6), None
        )
        if drill or cutter:
            return (
                f"drill {drill_words(drill, system)}"
                if drill
                else f"annular cutter {drill_words(cutter or 0.0, system)}"
            )
        return f"bore {say(hole.diameter, 4)}"
    if any(abs(size - hole.diameter) < 1e-5 for size in has.reamers):
        under = [size for size in has.drills if 0.15 <= hole.diameter - size <= 0.6]
        first = (
            f"drill {drill_words(under[-1], system)}"
            if under
            else f"bore {say(hole.diameter - 0.2, 4)}"
        )
        return f"{first}, ream {drill_words(hole.diameter, system)} {hole.zone}"
    start = f"annular cutter {drill_words(rough[-1], system)}, then " if rough else ""
    low, high = hole.limits
    return f"{start}bore to {say(low, 5)} - {say(high, 5)}"


def mill_of(shop: Workshop | None) -> Mill:
    """The shop's mill; without a shop file one of which only the error of a hole's place is taken."""
    return shop.mill if shop else Mill.from_table({})


def backlash_band(spec: Spec, shop: Workshop | None) -> list[tuple[str, float, float, float]]:
    """What the mill's error makes of the backlash of every mesh.

    Parameters
    ----------
    spec : Spec
    shop : Workshop, or None

    Returns
    -------
    list of tuple
        Mesh in words; least, drawn and most backlash in mm, the distance of two holes being off by both
        holes' errors either way.
    """
    error = 2 * mill_of(shop).position_error
    rows = []
    for name in ("direct", "idler"):
        path = getattr(spec.paths, name)
        shifts, distances = shifts_of(path), mesh_distances(path, spec.housing.centre_distance)
        for k in range(len(path.tooth_counts) - 1):
            counts, pair = path.tooth_counts[k : k + 2], shifts[k] + shifts[k + 1]
            drawn = distances[k]
            low, mid, high = (
                float(
                    mesh.backlash.formula(
                        path.module, counts[0], counts[1], pair, drawn + off, 2 * path.thinning
                    )
                )
                for off in (-error, 0.0, error)
            )
            rows.append((f"{name} path, {counts[0]} and {counts[1]} teeth", low, mid, high))
    return rows


def out_of_travel(spec: Spec, mill: Mill, say: Callable[..., str]) -> str:
    """Say how far the bores stand apart where the mill does not travel so far; nothing where it does."""
    bores = [hole for hole in plate(spec, "reducer").holes if hole.zone]
    reach_x = max(hole.x for hole in bores) - min(hole.x for hole in bores)
    reach_y = max(hole.y for hole in bores) - min(hole.y for hole in bores)
    if reach_x <= mill.travel_x and reach_y <= mill.travel_y:
        return ""
    return (
        f"bores stand {say(reach_x)} x {say(reach_y)} apart, the mill travels "
        f"{say(mill.travel_x)} x {say(mill.travel_y)}"
    )


def setups(spec: Spec, shop: Workshop | None, system: str = "metric") -> list[tuple[str, str]]:
    """One setup for both plates, or two: what each costs.

    Parameters
    ----------
    spec : Spec
    shop : Workshop, or None
    system : str
        ``"metric"`` or ``"inch"``: how sizes are said.

    Returns
    -------
    list of tuple of str
    """
    say = lengths(system)
    mill = mill_of(shop)
    tilt = 1e3 * 2 * mill.position_error / spec.housing.plate_spacing
    beyond = out_of_travel(spec, mill, say) if shop else ""
    moved = (
        f"{beyond}: move the clamped pair along a fence on the marked edge, and pick the first bore up again"
        if beyond
        else f"all bores {'are within' if shop else 'want to be within'} the mill's travel"
    )
    return [
        (
            "both plates clamped together, bored in one setup",
            f"shafts are square to the plates as the quill is; {moved}",
        ),
        (
            "each plate on its own, from the same marked edges",
            f"the bores of a shaft may miss each other by {say(2 * mill.position_error, 3)}, which tilts it {tilt:.2f} mrad",
        ),
    ]
