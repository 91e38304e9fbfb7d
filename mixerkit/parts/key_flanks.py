"""The flank of a key that is worst off: in the hub or in the shaft, and the softest metal there."""

from __future__ import annotations

from typing import NamedTuple

from mixerkit.parts.metals import Metal, weakest
from mixerkit.results import TableRow
from mixerkit.spec import Spec
from mixerkit.working import Given, Working, worked

__all__ = ["Flank", "flank_depth", "worst_flank"]


class Flank(NamedTuple):
    """The flank of a key that is worst off.

    Attributes
    ----------
    deep : float
        In mm.
    in_hub : bool
        Or in the shaft.
    metal : Metal
        That gives way first there.
    """

    deep: float
    in_hub: bool
    metal: Metal

    @property
    def words(self) -> str:
        """Where it is."""
        return "the hub" if self.in_hub else "the shaft"


def worst_flank(spec: Spec, key: TableRow, shaft_material: str, *hub_materials: str) -> Flank:
    """Find the flank with the least of depth times yield, of those in hub and shaft.

    Parameters
    ----------
    spec : Spec
    key : mapping
        Row of the key table.
    shaft_material, *hub_materials : str
        Dotted names of the fields that name the metals.

    Returns
    -------
    Flank
    """
    own = "hubs.key_material"
    flanks = [
        Flank(key["height"] - key["shaft_depth"], True, weakest(spec, own, *hub_materials)),
        Flank(key["shaft_depth"], False, weakest(spec, own, shaft_material)),
    ]
    return min(flanks, key=lambda one: one.deep * one.metal.yields)


def flank_depth(key: TableRow, side: Flank, system: str) -> tuple[list[Working], Given]:
    """How deep a flank is: the working, if it wants one, and the number as it stands in the next.

    Parameters
    ----------
    key : mapping
    side : Flank
    system : str

    Returns
    -------
    tuple of list of Working, Given
    """
    row = f"data/tables/keys.csv, {system}"
    depth: Given = (key["shaft_depth"], "mm", f"{row}: depth in the shaft")
    if not side.in_hub:
        return [], depth
    found = worked(
        "t = h - t_1",
        side.deep,
        "mm",
        source=f"the flank in the hub, where {side.metal.name} gives way first",
        h=(key["height"], "mm", f"{row}: height"),
        t_1=depth,
    )
    return [found], (side.deep, "mm", "above")
