"""The flank of a key that is worst off: in the hub or in the shaft, and the softest metal there."""

from __future__ import annotations

from typing import NamedTuple

from mixerkit.parts.metals import Metal, weakest
from mixerkit.results import TableRow
from mixerkit.spec import Spec
from mixerkit.working import Given, Working, worked

__all__ = ["Flank", "Shallow", "flank_depth", "worst_flank"]


class Shallow(NamedTuple):
    """A flank that is less deep than the table has it: in mm, and how that was worked out."""

    deep: float
    how: tuple[Working, ...]


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


def worst_flank(
    spec: Spec,
    key: TableRow,
    shaft_material: str,
    *hub_materials: str,
    own: Shallow | None = None,
) -> Flank:
    """Find the flank with the least of depth times yield, of those in hub and shaft.

    Parameters
    ----------
    spec : Spec
    key : mapping
        Row of the key table.
    shaft_material, *hub_materials : str
        Dotted names of the fields that name the metals.
    own : Shallow, optional
        Flank in the shaft's part where it is not as deep as the table's.

    Returns
    -------
    Flank
    """
    steel, deep = "hubs.key_material", own.deep if own else key["shaft_depth"]
    flanks = [
        Flank(key["height"] - key["shaft_depth"], True, weakest(spec, steel, *hub_materials)),
        Flank(deep, False, weakest(spec, steel, shaft_material)),
    ]
    return min(flanks, key=lambda one: one.deep * one.metal.yields)


def flank_depth(
    key: TableRow, side: Flank, system: str, own: Shallow | None = None
) -> tuple[list[Working], Given]:
    """How deep a flank is: the working, if it wants one, and the number as it stands in the next.

    Parameters
    ----------
    key : mapping
    side : Flank
    system : str
    own : Shallow, optional
        See :func:`worst_flank`.

    Returns
    -------
    tuple of list of Working, Given
    """
    row = f"data/tables/keys.csv, {system}"
    depth: Given = (key["shaft_depth"], "mm", f"{row}: depth in the shaft")
    if not side.in_hub:
        return ([*own.how], (own.deep, "mm", "above")) if own else ([], depth)
    found = worked(
        "t = h - t_1",
        side.deep,
        "mm",
        source=f"the flank in the hub, where {side.metal.name} gives way first",
        h=(key["height"], "mm", f"{row}: height"),
        t_1=depth,
    )
    return [found], (side.deep, "mm", "above")
