"""What a part is made from, as it is bought: volume and mass of the bar, plate or blank, and its family of material."""

from __future__ import annotations

from functools import lru_cache
from math import isfinite, pi

from mixerkit.parts.shaft_checks import stock_sizes
from mixerkit.parts.sleeve_seats import seats_in
from mixerkit.shop.flatpattern import MILLED
from mixerkit.shop.part import FACING, Part
from mixerkit.shop.turning import bar_for
from mixerkit.shop.welding import left_for_truing
from mixerkit.spec import Spec
from mixerkit.tables import table

__all__ = ["BOUGHT", "bored_sleeves", "family", "finished_volume", "stock_mass", "stock_volume"]

BOUGHT = "bought"
"""Material of a part that comes from a dealer."""
_BUSHES = 8800.0
"""Density in kg/m3 that bushes are reckoned with: bronze."""
_STEEL = 7850.0
"""Density in kg/m3 of a gear's material that the table of materials does not have: steel."""
_FROM_SOLID = 2.0
"""Volume of the bar over that of a flange that is turned out of it (common practice)."""


@lru_cache(maxsize=128)
def _known(material: str) -> tuple[str, float]:
    """Family and density in kg/m3 of a material of any table."""
    for name, density in (("materials", None), ("gear_materials", _STEEL)):
        for row in table(name):
            if row.values["name"] == material:
                heavy = row.values["density"] if density is None else density
                return str(row.values["family"]), float(heavy)
    return str(table("bush_materials").find(material).values["family"]), _BUSHES


@lru_cache(maxsize=2)
def _bars(system: str) -> tuple[float, ...]:
    """Round bars in stock in mm."""
    return tuple(stock_sizes(system))


def family(material: str) -> str:
    """Name the family of a material, by which metal is sold.

    Examples
    --------
    >>> family("steel S355J2"), family("cast tin bronze, greased"), family("polyamide, dry")
    ('steel', 'bronze', 'plastic')
    """
    return _known(material)[0]


def finished_volume(part: Part) -> float:
    """Volume in mm^3 of one finished part."""
    return part.mass / _known(part.material)[1] * 1e9


def bored_sleeves(spec: Spec) -> bool:
    """Whether the sleeves are bored out of bar; a thin tube is bought as it is."""
    seats = [seats_in(spec, number) for number in (1, 2)]
    return any(one is not None and not all(one.ring) for one in seats)


def stock_volume(spec: Spec, part: Part, system: str = "metric") -> float:
    """Volume in mm^3 of what one part is made from, as it is bought.

    Parameters
    ----------
    spec : Spec
    part : Part
        A made one, of :func:`mixerkit.shop.parts_list.parts`.
    system : str
        Whose bar: ``"metric"`` or ``"inch"``.

    Returns
    -------
    float
        Of round bar the next size in stock with its facing; of a plate with what is milled off; of tube, and of
        what is cut as it is drawn, the part's own volume and facing.
    """
    if part.cut and part.least:
        bar = bar_for(part.least, _bars(system), 0.0)
        across = bar if isfinite(bar) else part.least
        return float(pi / 4 * across**2 * (part.cut[1] + FACING))
    volume = finished_volume(part)
    if part.cut:
        longer = 1 + FACING / part.cut[1]
        if part.name.startswith("sleeve") and bored_sleeves(spec):
            # where hollow bar can be had, it is less
            return pi * spec.paddles.root_radius**2 * (part.cut[1] + FACING)
        return volume * longer
    return _flat(spec, part, volume)


def _flat(spec: Spec, part: Part, volume: float) -> float:
    """What comes off no round bar: plates, paddles, flanges."""
    housing, blade = spec.housing, spec.paddles
    if part.name.startswith("plate at the") or part.name == "far wall":
        wide = housing.centre_distance + 2 * housing.wall_distance + 2 * MILLED
        high = 2 * housing.wall_distance + 2 * MILLED
        own = spec.frame.wall_thickness if part.name == "far wall" else housing.plate_thickness
        return wide * high * (own + left_for_truing(spec))
    if part.name == "paddle":
        reach = blade.tip_radius - blade.root_radius
        section = max(blade.width, blade.stem_width) * max(blade.thickness, blade.stem_thickness)
        return float(max(section * reach, volume))
    if part.name.startswith("flange of the fuse"):
        return _FROM_SOLID * volume
    return volume


def stock_mass(spec: Spec, part: Part, system: str = "metric") -> float:
    """Mass in kg of what one part is made from, as it is bought; see :func:`stock_volume`."""
    return stock_volume(spec, part, system) * _known(part.material)[1] * 1e-9
