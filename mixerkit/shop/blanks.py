"""Gear blanks and what cutting them takes: sizes with limits, depth, cutter, stack, run-out."""

from __future__ import annotations

from math import pi, sqrt, tan

import numpy as np

from mixerkit.frozen import result
from mixerkit.parts import fits, formcutter, spurgear, zones
from mixerkit.parts.gear_pairs import shifts_of
from mixerkit.parts.keys import key_for
from mixerkit.shop.workshop import Workshop
from mixerkit.spec import Spec
from mixerkit.tables import table

__all__ = [
    "GEARS",
    "cut_depth",
    "gear_blank",
    "gears",
    "has_cutter",
    "limits_of",
    "run_out",
    "shaft_of",
    "with_limits",
]

GEARS = {
    "direct_1": ("direct", 0),
    "direct_2": ("direct", -1),
    "idler_1": ("idler", 0),
    "idler_2": ("idler", 1),
    "idler_3": ("idler", -1),
}
"""Name of each gear on sheets and in measurement files: its path and its place from shaft 1. A path with
more gears than these has its further ones alike to the idler."""
ARBOR = 100.0
"""Length of blanks an arbor holds stiffly between dividing head and tailstock, in mm (common practice)."""


def gears(spec: Spec) -> list[str]:
    """Names of the design's gears."""
    return [name for name in GEARS if name != "idler_2" or len(spec.paths.idler.tooth_counts) > 2]


def shaft_of(name: str) -> int:
    """Shaft on which a gear of :data:`GEARS` sits; the idler, on its pin, counts to shaft 2."""
    return 1 if GEARS[name][1] == 0 else 2


def limits_of(size: float, zone: str) -> tuple[float, float]:
    """Least and most size in mm of a tolerance zone.

    Above the tables' 250 mm every zone is taken as wide as the one of 250 mm and lies as that does, which
    is narrower than the standard allows: what is good by it is good.
    """
    low, high = fits.limits.formula(min(size, fits.MOST), zone)
    return float(size + low / 1e3), float(size + high / 1e3)


def with_limits(size: float, zone: str) -> tuple[float, float, float]:
    """Nominal, least and most size in mm of a tolerance zone; see :func:`limits_of`."""
    return size, *limits_of(size, zone)


def cut_depth(module: float, thinning: float) -> float:
    r"""How deep to feed a form cutter from the blank's outside, in mm.

    .. math:: h = 2.25\,m + \frac{\Delta s}{2 \tan\alpha}

    Parameters
    ----------
    module : float
        In mm.
    thinning : float
        Off the circular tooth thickness in mm, for backlash.

    Returns
    -------
    float

    References
    ----------
    Full depth of ISO 53 profile A, and what deeper feed takes off both flanks at 20 degrees.

    Examples
    --------
    >>> round(cut_depth(5.0, 0.1), 3)
    11.387
    """
    return 2.25 * module + thinning / (2 * tan(np.radians(20.0)))


def run_out(cutter_diameter: float, depth: float) -> float:
    """Length in mm that a round cutter needs free beyond the blank's face, so as not to hit the tailstock.

    Examples
    --------
    >>> round(run_out(80.0, 11.4), 1)
    28.0
    """
    return sqrt(depth * (cutter_diameter - depth))


def cutter_diameter(module: float) -> float:
    """Usual outside diameter in mm of a form cutter (common practice: about 40 mm and 8 modules)."""
    return 40.0 + 8.0 * module


@result
class Blank:
    """One gear as its blank is turned and cut.

    Attributes
    ----------
    name, words : str
        As in :data:`GEARS`, and for a person.
    count : int
    module, thinning, seat, root, width, dogs, depth, run_out : float
        In mm; ``seat`` is the shaft or pin in its bore, ``dogs`` how far they stand out of one face, ``depth``
        how deep it is cut.
    shift : float
    dog_ring : tuple of float
        Inner and outer radius of its dogs in mm.
    outside, bore : tuple of float
        Nominal, least and most in mm.
    bore_words, material : str
    bush : bool
        Whether a bush goes in.
    keyway : tuple of float, or None
        Width, and depth in the hub, in mm.
    cutter : int
        Number of its form cutter, nought where none cuts so few teeth.
    has_cutter, fits_lathe : bool
        Whether the shop has it, and a lathe for the blank; taken as true where there is no shop file.
    stack : int
        How many are cut at once.
    mass : float
        In kg.
    """

    name: str
    words: str
    count: int
    module: float
    shift: float
    thinning: float
    outside: tuple[float, float, float]
    root: float
    bore: tuple[float, float, float]
    bore_words: str
    bush: bool
    seat: float
    keyway: tuple[float, float] | None
    width: float
    dogs: float
    dog_ring: tuple[float, float]
    depth: float
    cutter: int
    has_cutter: bool
    stack: int
    run_out: float
    fits_lathe: bool
    material: str
    mass: float

    @property
    def length(self) -> float:
        """Of the blank over its dogs, in mm."""
        return self.width + self.dogs


def has_cutter(number: int, module: float, shop: Workshop) -> bool:
    """Whether a shop has the form cutter of a number, its module in mm."""
    return number in shop.cutters.get(round(module, 6), ())


def gear_blank(spec: Spec, name: str, shop: Workshop | None, system: str = "metric") -> Blank:
    """Everything to turn one gear's blank and cut it.

    Parameters
    ----------
    spec : Spec
    name : str
        A key of :data:`GEARS`.
    shop : Workshop, or None
    system : str
        Whose keys: ``"metric"`` or ``"inch"``.

    Returns
    -------
    Blank
    """
    path_name, place = GEARS[name]
    path = getattr(spec.paths, path_name)
    count, shift = path.tooth_counts[place], shifts_of(path)[place]
    outside = float(spurgear.tip_diameter.formula(path.module, count, shift))
    number = int(formcutter.cutter_number(count)) if count >= formcutter.FEWEST else 0
    depth = cut_depth(path.module, path.thinning)
    material = path.idler_material if name == "idler_2" else path.material
    what, seat, bush = _seat(spec, name)
    bore = seat + 2 * spec.bearings.bush_wall if bush else seat
    dogs = spec.clutch.dog_height if bush and name != "idler_2" else 0.0
    return Blank(
        name=name,
        words=f"{path_name} path, {what}",
        count=count,
        module=path.module,
        shift=shift,
        thinning=path.thinning,
        outside=with_limits(outside, "h10"),
        root=outside - 2 * depth,
        bore=with_limits(bore, "H7"),
        bore_words=f"for a pressed bush, {spec.bearings.bush_fit}"
        if bush
        else "slides on its shaft, H7/h6",
        bush=bush,
        seat=seat,
        keyway=_keyway(seat, system) if not bush and spec.hubs.gear == "key" else None,
        width=path.face_width,
        dogs=dogs,
        dog_ring=(spec.clutch.inner_diameter / 2, spec.clutch.outer_diameter / 2),
        depth=depth,
        cutter=number,
        has_cutter=shop is None or has_cutter(number, path.module, shop),
        stack=1 if dogs else max(1, int(ARBOR // path.face_width)),
        run_out=run_out(cutter_diameter(path.module), depth),
        fits_lathe=shop is None or outside <= min(shop.largest_blank, shop.lathe.swing),
        material=material,
        mass=pi / 4 * (outside**2 - bore**2) * path.face_width * _density(material) * 1e-9
        + _dogs_mass(spec, dogs, material),
    )


def _seat(spec: Spec, name: str) -> tuple[str, float, bool]:
    """What a gear is, on what diameter in mm it sits, and whether it turns there on a bush."""
    if name == "idler_2":
        return "idler", spec.housing.idler_pin, True
    number = shaft_of(name)
    bush = number == spec.clutch.shaft
    how = "free, on a bush" if bush else "fixed"
    return (
        f"gear on shaft {number}, {how}",
        zones.seat(spec, number, f"{GEARS[name][0]} gear"),
        bush,
    )


def _dogs_mass(spec: Spec, high: float, material: str) -> float:
    """Mass in kg of the dogs on a free gear: half of their ring."""
    ring = pi / 4 * (spec.clutch.outer_diameter**2 - spec.clutch.inner_diameter**2)
    return ring / 2 * high * _density(material) * 1e-9


def _keyway(seat: float, system: str) -> tuple[float, float]:
    row = key_for(seat, system)
    return row["width"], row["hub_depth"]


def _density(material: str) -> float:
    """Density in kg/m3 of a material; that of steel where the table of gears alone has it."""
    rows = (row.values for row in table("materials"))
    return float(next((row["density"] for row in rows if row["name"] == material), 7850.0))
