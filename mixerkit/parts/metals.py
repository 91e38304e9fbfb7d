"""The weakest of the metals that touch: what presses on two parts is borne by the softer of them."""

from __future__ import annotations

from functools import reduce
from math import inf
from typing import NamedTuple

from mixerkit.checks import Change
from mixerkit.spec import Spec
from mixerkit.tables import table
from mixerkit.working import Given

GEARS = ("paths.direct.material", "paths.idler.material")
"""Fields that name the metals of the gears on the shafts, which are their hubs and carry their dogs."""
__all__ = ["GEARS", "Metal", "metal", "stronger_metals", "weakest"]


class Metal(NamedTuple):
    """A metal that touches another: its row of data/tables/materials.csv, in MPa, and the field that names it."""

    name: str
    field: str
    yields: float
    breaks: float

    @property
    def given_yield(self) -> Given:
        """Its yield as it stands in a working; of grey iron, which has none, its 0.1 % proof stress."""
        return self.yields, "MPa", f"data/tables/materials.csv, {self.name}: yield strength"

    @property
    def given_tensile(self) -> Given:
        """Its tensile strength as it stands in a working."""
        return self.breaks, "MPa", f"data/tables/materials.csv, {self.name}: tensile strength"

    @property
    def later(self) -> float:
        """How much later it breaks than it yields."""
        return self.breaks / self.yields


def metal(spec: Spec, field: str) -> Metal:
    """The metal that a field of the design names, of materials or gear materials.

    Parameters
    ----------
    spec : Spec
    field : str
        Dotted.

    Returns
    -------
    Metal
    """
    name = str(reduce(getattr, field.split("."), spec))
    row = table("materials").find(name).values
    return Metal(name, field, row["yield_strength"], row["tensile_strength"])


def weakest(spec: Spec, *fields: str, by: str = "yields") -> Metal:
    """The weakest of the metals that some fields name; of equals the first.

    Parameters
    ----------
    spec : Spec
    *fields : str
        Dotted.
    by : str
        ``"yields"`` or ``"breaks"``.

    Returns
    -------
    Metal

    Examples
    --------
    >>> from mixerkit import Design
    >>> weakest(Design.demo(), "hubs.key_material", "sleeve.material").name
    'steel C45 quenched and tempered'
    """
    found = [metal(spec, one) for one in fields]
    return min(found, key=lambda one: one.yields if by == "yields" else one.breaks)


def stronger_metals(spec: Spec, *fields: str, over: float, by: str = "yields") -> list[Change]:
    """Metals that bear so many times what the weakest of those that touch bears: the nearest, and the best.

    Parameters
    ----------
    spec : Spec
    *fields : str
        Dotted; each keeps to steel or to its own family, a gear to what gears are made of.
    over : float
        Any better one where it is not known.
    by : str
        ``"yields"`` or ``"breaks"``.

    Returns
    -------
    list of mapping

    Examples
    --------
    >>> from mixerkit import Design
    >>> stronger_metals(Design.demo(), "hubs.box_material", "hubs.key_material", over=1.5)[0]
    {'hubs.box_material': 'steel C45 normalised'}
    """
    column = "yield_strength" if by == "yields" else "tensile_strength"
    has = [metal(spec, one) for one in fields]
    values = [one.yields if by == "yields" else one.breaks for one in has]
    asked = min(values) * (over if 1 < over < inf else 1.0 + 1e-9)
    of_gears = {row.values["name"] for row in table("gear_materials")}
    found: list[dict[str, str]] = [{}, {}]
    for one, value in zip(has, values, strict=True):
        if value >= asked:
            continue
        families = {"steel", table("materials").find(one.name).values["family"]}
        rows = [
            row.values
            for row in table("materials")
            if row.values[column] >= asked
            and row.values["family"] in families
            and (not one.field.startswith("paths.") or row.values["name"] in of_gears)
        ]
        if not rows:
            return []
        rows.sort(key=lambda row: row[column])
        found[0][one.field], found[1][one.field] = rows[0]["name"], rows[-1]["name"]
    return list(found[: 1 if found[0] == found[1] else 2])
