"""Shop sheets of gears: the blank to turn, the dividing head to set, the teeth to measure."""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np

from mixerkit.parts import gear_measures, measuring
from mixerkit.parts.outline import gear_outline
from mixerkit.shop import indexing
from mixerkit.shop.blanks import Blank, gear_blank
from mixerkit.shop.workshop import Workshop
from mixerkit.show.drawing import Drawing, scale_for
from mixerkit.show.sheet import Sheet, Words, ratio
from mixerkit.spec import Spec
from mixerkit.units import show

__all__ = ["gear_drawing", "gear_sheet"]


def gear_sheet(spec: Spec, name: str, shop: Workshop, words: Words) -> Sheet:
    """Write the sheet of a gear.

    Parameters
    ----------
    spec : Spec
    name : str
        A key of :data:`mixerkit.shop.blanks.GEARS`.
    shop : Workshop
    words : Words

    Returns
    -------
    Sheet
    """
    one = gear_blank(spec, name, shop, words.system)
    exact = indexing.settings(one.count, shop.dividing_ratio, shop.plates)
    sizes = tuple((*row, "") for row in _sizes(one, words))
    what, where = one.words.split(", ")[:2]
    closes = f"The list closes on itself: after tooth {one.count} the crank has made {shop.dividing_ratio} turns and stands where it began (t: whole turns so far, h: the hole the pin stands in)."
    return Sheet(
        f"{what[0].upper()}{what[1:]}, {where}: {one.count} teeth",
        f"{one.words}; {one.material}, {show(one.mass, 'kg', words.system)}",
        gear_drawing(one, words),
        (*_to_turn(one, words), *_to_divide(one.count, shop, exact)),
        (("Measure", ("What", "Limits", "How", "As made"), sizes),),
        _ticks(one.count, shop.dividing_ratio, exact[0]) if exact else (),
        (
            f"{one.stack} blanks at once on the arbor; leave {words.size(np.ceil(one.run_out))} of arbor free beyond them, or the cutter meets the tailstock.",
            *((closes,) if exact else ()),
            "Cut two neighbouring spaces, measure the base tangent, then feed in. Never move back over backlash: come to each hole from the same side.",
        ),
    )


def _to_turn(one: Blank, words: Words) -> Iterator[tuple[str, str]]:
    """Numbers to set for the blank and the cutter."""
    yield "Turn the outside to", words.limits(one.outside[1], one.outside[2])
    yield "Feed from the outside", words.size(one.depth)
    pitch = (
        f"module {words.size(one.module)}"
        if words.system == "metric"
        else f"diametral pitch {25.4 / one.module:.4g}"
    )
    missing = "" if one.has_cutter else " - NOT ON THE SHELF"
    yield "Cutter", f"No. {one.cutter}, {pitch}, 20 deg{missing}"


def _to_divide(
    count: int, shop: Workshop, exact: list[indexing.Setting]
) -> Iterator[tuple[str, str]]:
    """Numbers to set on the dividing head; where none is exact, how far the nearest is off."""
    if exact:
        yield "Dividing head", exact[0].words
        if exact[0].holes:
            yield "Sector arms show", f"{exact[0].arms} holes, {exact[0].holes} spaces"
        return
    said = "no circle is exact"
    for near in indexing.compound(count, shop.dividing_ratio, shop.plates, 1)[:1]:
        said += f"; {near.words}, off by {near.error:.3g} deg at the last tooth"
    yield "Dividing head", said


def _sizes(one: Blank, words: Words) -> Iterator[tuple[str, str, str]]:
    """What to measure, its limits, and how."""
    yield "outside", words.limits(one.outside[1], one.outside[2]), "h10"
    yield "bore", words.limits(one.bore[1], one.bore[2]), one.bore_words
    yield "width", words.size(one.width), "faces square to the bore within 0.02"
    if one.keyway:
        wide, deep = (words.size(size) for size in one.keyway)
        yield "keyway", f"{wide} wide, {deep} deep", "in the hub"
    pins = f"pins of {words.size(float(measuring.pin_diameter(one.module)))}"
    values = gear_measures.gear_values(one.module, one.count, one.shift, one.thinning, 0.03)
    for what, value in values.items():
        limits = words.limits(float(value.least), float(value.most))
        yield what, limits, pins if "pins" in what else value.how


def _ticks(count: int, ratio: int, setting: indexing.Setting) -> tuple[str, ...]:
    """A box for each tooth with where the crank stands."""
    if count > 150:
        return ()
    rows = indexing.running_list(count, ratio, setting)
    return tuple(
        f"{tooth}: {turns} t {hole} h" if setting.holes else f"{tooth}: {turns} t"
        for tooth, turns, hole, _ in rows[:-1]
    )


def gear_drawing(one: Blank, words: Words) -> str:
    """Draw a gear blank's front and side, dimensioned."""
    outer = one.outside[0] / 2
    side = outer * 1.35
    scale = scale_for(2 * outer + side + one.width, 2 * outer, (150, 58))
    drawn = Drawing((-outer, -outer), (side + one.width, outer), scale, 14)
    drawn.outline(gear_outline(one.module, one.count, one.shift, thinning=one.thinning), wide=0.35)
    drawn.circle(0, 0, one.module * one.count / 2, wide=0.18, dash="5 1.2 0.8 1.2")
    drawn.circle(0, 0, one.bore[0] / 2)
    if one.keyway:
        wide, deep = one.keyway
        top = one.bore[0] / 2 + deep
        drawn.box((-wide / 2, one.bore[0] / 2 - 1), (wide / 2, top), wide=0.4)
    drawn.cross(0, 0, outer * 1.05)
    left = side
    drawn.box((left, -outer), (left + one.width, outer))
    for radius in (one.bore[0] / 2, one.root / 2):
        for sign in (1, -1):
            drawn.line(
                (left, sign * radius), (left + one.width, sign * radius), wide=0.25, dash="2 1"
            )
    drawn.size((left + one.width, outer), (left + one.width, -outer), words.bare(one.outside[0]), 8)
    drawn.size((left, outer), (left + one.width, outer), words.bare(one.width), 5)
    drawn.words(0, -outer, f"scale {ratio(scale)}", size=2.8, shift=(0, -5))
    return drawn.svg(f"gear of {one.count} teeth, front and side")
