"""How strong the steel of a shear pin may be: by its delivery condition, or by a pin broken on purpose."""

from __future__ import annotations

from functools import lru_cache

from mixerkit.frozen import result
from mixerkit.results import TableRow
from mixerkit.spec import Spec
from mixerkit.tables import table

__all__ = ["PinSteel", "not_known", "pin_steel", "tested", "widest"]


@result
class PinSteel:
    """What a pin's steel may be.

    Attributes
    ----------
    low, high : float
        Least and most tensile strength in MPa.
    yields : float
        Least yield strength in MPa.
    low_from, high_from, yields_from : str
        Where each was read.
    """

    low: float
    high: float
    yields: float
    low_from: str
    high_from: str
    yields_from: str


def widest(steel: str) -> PinSteel | None:
    """Bounds of a steel over every condition it is delivered in; none where the table has none.

    Examples
    --------
    >>> found = widest("steel S235JR")
    >>> found.low, found.high
    (360.0, 880.0)
    """
    return _bounds(steel, "", 0.0)


@lru_cache(maxsize=64)
def _bounds(steel: str, condition: str, least_bar: float) -> PinSteel | None:
    """Bounds of a steel in a condition, of bar at least so thick in mm; of all conditions where it is empty."""
    rows = [
        row.values
        for row in table("pin_strengths")
        if row.values["steel"] == steel
        and condition in ("", row.values["condition"])
        and row.values["largest"] >= least_bar
    ]
    if not rows:
        return None
    weakest, strongest, soonest = (
        min(rows, key=lambda row: row["tensile_low"]),
        max(rows, key=lambda row: row["tensile_high"]),
        min(rows, key=lambda row: row["yield_low"]),
    )

    def said(row: TableRow, what: str) -> str:
        return f"data/tables/pin_strengths.csv, {steel}, {row['condition']}: {what}"

    return PinSteel(
        low=weakest["tensile_low"],
        high=strongest["tensile_high"],
        yields=soonest["yield_low"],
        low_from=said(weakest, "least tensile strength"),
        high_from=said(strongest, "most tensile strength"),
        yields_from=said(soonest, "least yield strength"),
    )


def tested(spec: Spec) -> tuple[float, float, float] | None:
    """Torque in N*m of the pin broken on purpose, its neck and radius in mm; none where one is not given."""
    one = spec.fuse
    torque, neck, radius = one.test_torque, one.test_pin_diameter, one.test_pin_radius
    return None if torque is None or neck is None or radius is None else (torque, neck, radius)


def pin_steel(spec: Spec) -> PinSteel | None:
    """Bounds of the design's untested pins; none where the table has none for them.

    Drawn bar is the weaker the thicker it is: a neck thicker than any bar of a row has no bound there.
    Over all conditions hot rolled bar is the weakest and thin drawn bar the strongest, whatever the neck.
    """
    one = spec.fuse
    if one.pin_condition == "unknown":
        return widest(one.pin_material)
    return _bounds(one.pin_material, one.pin_condition, one.pin_diameter)


def not_known(spec: Spec) -> str:
    """Say why it is not known how strong the design's pins are; empty where it is."""
    one = spec.fuse
    if one.kind != "shear pin":
        return ""
    if one.pin_condition == "tested":
        return "" if tested(spec) else _TEST_WANTED
    if pin_steel(spec) is None:
        return (
            f"no range of strength is known for {one.pin_material} of {one.pin_diameter:g} mm, {one.pin_condition}: "
            'break one of the pins on purpose and write fuse.pin_condition = "tested" with what it took, or take a '
            "steel of data/tables/pin_strengths.csv"
        )
    return ""


_TEST_WANTED = (
    'fuse.pin_condition is "tested", and fuse.test_torque, fuse.test_pin_diameter and fuse.test_pin_radius are not all '
    "given: break one pin of the bar in the flanges, with a spring balance on a long bar, and write its torque, its "
    'neck and its radius there, for example test_torque = "630 N*m"'
)
