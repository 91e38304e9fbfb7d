"""What a setting of the dividing head, as it was written down, would cut."""

from __future__ import annotations

from collections.abc import Mapping
from fractions import Fraction

from mixerkit.shop import indexing
from mixerkit.shop.blanks import gear_blank
from mixerkit.shop.measured import Finding
from mixerkit.shop.workshop import Workshop
from mixerkit.spec import Spec

__all__ = ["exact_settings", "judge_indexing", "without_plates"]

USUAL_RATIO = 40
"""Turns of the crank for one of the spindle on most dividing heads (common practice)."""


def exact_settings(count: int, shop: Workshop | None) -> list[indexing.Setting]:
    """Every exact setting of the shop's dividing head for a count, best first; none without a shop file."""
    return indexing.settings(count, shop.dividing_ratio, shop.plates) if shop else []


def without_plates(count: int) -> str:
    """Say what to set where no shop file says which plates there are.

    Examples
    --------
    >>> without_plates(30), without_plates(20)
    ('1 1/3 turns of a 40 : 1 head, on a circle that 3 divides', '2 turns of a 40 : 1 head')
    """
    whole, rest = divmod(Fraction(USUAL_RATIO, count), 1)
    turns = " ".join(str(one) for one in (whole, rest) if one)
    unit = "turn" if whole + rest <= 1 else "turns"
    on = f", on a circle that {rest.denominator} divides" if rest else ""
    return f"{turns} {unit} of a {USUAL_RATIO} : 1 head{on}"


def judge_indexing(
    spec: Spec, name: str, values: Mapping[str, float], shop: Workshop | None
) -> Finding | None:
    """Ask of a setting of the dividing head what it would cut.

    None if it was not written down. Without a shop file the head is taken as one of the usual ratio, and any
    circle as there, which the words say where the setting is wrong for that.
    """
    at = f"gears.{name}"
    names = [f"{at}.{one}" for one in ("turns", "holes", "circle")]
    if any(one not in values for one in names):
        return None
    turns, holes, circle = (int(values[one]) for one in names)
    one = gear_blank(spec, name, shop)
    right = exact_settings(one.count, shop)
    advice = f"set {right[0].words}" if right else "no circle of this shop divides it exactly"
    if shop is None:
        advice = f"set {without_plates(one.count)}; no shop file names another head"
    why = _wrong_row(turns, holes, circle, one.count, shop)
    if not why:
        return Finding(f"{at}.circle", "good")
    return Finding(
        f"{at}.circle",
        "wrong",
        f"dividing head for the {one.words}: {turns} turns and {holes} holes on {circle}; {why}; {advice}.",
    )


def _wrong_row(turns: int, holes: int, circle: int, count: int, shop: Workshop | None) -> str:
    """What is wrong with a setting of the dividing head; nothing where it is right."""
    ratio = shop.dividing_ratio if shop else USUAL_RATIO
    if shop and holes and circle not in shop.circles:
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
