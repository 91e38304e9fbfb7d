"""What a setting of the dividing head, as it was written down, would cut."""

from __future__ import annotations

from collections.abc import Mapping

from mixerkit.shop import indexing
from mixerkit.shop.blanks import gear_blank
from mixerkit.shop.measured import Finding
from mixerkit.shop.workshop import Workshop
from mixerkit.spec import Spec

__all__ = ["judge_indexing"]


def judge_indexing(
    spec: Spec, name: str, values: Mapping[str, float], shop: Workshop
) -> Finding | None:
    """Ask of a setting of the dividing head what it would cut; none if it was not written down."""
    at = f"gears.{name}"
    names = [f"{at}.{one}" for one in ("turns", "holes", "circle")]
    if any(one not in values for one in names):
        return None
    turns, holes, circle = (int(values[one]) for one in names)
    one = gear_blank(spec, name, shop)
    right = indexing.settings(one.count, shop.dividing_ratio, shop.plates)
    advice = f"set {right[0].words}" if right else "no circle of this shop divides it exactly"
    why = _wrong_row(turns, holes, circle, one.count, shop)
    if not why:
        return Finding(f"{at}.circle", "good")
    return Finding(
        f"{at}.circle",
        "wrong",
        f"dividing head for the {one.words}: {turns} turns and {holes} holes on {circle}; {why}; {advice}.",
    )


def _wrong_row(turns: int, holes: int, circle: int, count: int, shop: Workshop) -> str:
    """What is wrong with a setting of the dividing head; nothing where it is right."""
    ratio = shop.dividing_ratio
    if holes and circle not in shop.circles:
        return f"the shop has no circle of {circle} holes"
    if holes >= max(circle, 1) or turns + holes == 0:
        return "that is no setting"
    cuts = indexing.what_it_cuts(turns, holes, circle, ratio)
    if cuts == count:
        return ""
    if (
        holes > (0 if turns else 1)
        and indexing.what_it_cuts(turns, holes - 1, circle, ratio) == count
    ):
        return "one hole too many: count spaces, not the hole the pin stands in"
    words = f"that comes to {float(cuts):.3f} teeth and does not close"
    if cuts.denominator == 1:
        words = f"that is the row for {cuts} teeth, not {count}"
    if indexing.what_it_cuts(turns, holes + 1, circle, ratio) == count:
        words = "one hole too few"
    return words
