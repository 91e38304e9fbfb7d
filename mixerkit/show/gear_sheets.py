"""The sheet of a gear: blank, cutter, dividing head, what to measure."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from mixerkit.parts import gear_measures, measuring
from mixerkit.parts.outline import gear_outline
from mixerkit.shop import indexing
from mixerkit.shop.blanks import Blank, gear_blank
from mixerkit.shop.head_setting import exact_settings, without_plates
from mixerkit.shop.workshop import Workshop
from mixerkit.show.drawing import Drawing, scale_for
from mixerkit.show.sheet import Sheet, Words, ratio
from mixerkit.spec import Spec
from mixerkit.units import show

__all__ = ["gear"]


def gear(spec: Spec, name: str, shop: Workshop | None, words: Words) -> Sheet:
    """Write the sheet of a gear."""
    one = gear_blank(spec, name, shop, words.system)
    exact = exact_settings(one.count, shop)
    part, kind = one.words.split(", ")[:2]
    return Sheet(
        f"{part[0].upper()}{part[1:]}, {kind}: {one.count} teeth",
        f"{one.words}; {one.material}, {show(one.mass, 'kg', words.system)}",
        gear_drawing(one, words),
        (*_blank_and_cutter(one, words), *_head(one, shop, exact)),
        (("Measure", ("What", "Limits", "How", "As made"), _sizes(one, words)),),
        _ticks(one.count, shop.dividing_ratio, exact[0]) if shop and exact else (),
        (
            f"{one.stack} blanks at once on the arbor; leave {words.size(np.ceil(one.run_out))} of arbor free beyond them, or the cutter meets the tailstock.",
            *(
                (
                    f"The list closes on itself: after tooth {one.count} the crank has made {shop.dividing_ratio} turns and stands where it began (t: whole turns so far, h: the hole the pin stands in).",
                )
                if shop and exact
                else ()
            ),
            f"Take half of what the blank is under {words.size(one.outside[0])} off feed and chordal height. Cut two neighbouring spaces, measure the base tangent, then feed in. Never move back over backlash: come to each hole from the same side.",
        ),
    )


def _blank_and_cutter(one: Blank, words: Words) -> list[tuple[str, str]]:
    """Numbers to set on lathe and mill."""
    pitch = (
        f"module {words.size(one.module)}"
        if words.system == "metric"
        else f"diametral pitch {25.4 / one.module:.4g}"
    )
    missing = "" if one.has_cutter else " - NOT ON THE SHELF"
    return [
        ("Turn the outside to", words.limits(one.outside[1], one.outside[2])),
        ("Feed from the outside", words.size(one.depth)),
        ("Cutter", f"No. {one.cutter}, {pitch}, 20 deg{missing}"),
    ]


def _head(
    one: Blank, shop: Workshop | None, exact: Sequence[indexing.Setting]
) -> list[tuple[str, str]]:
    """Numbers to set on the dividing head."""
    if exact:
        big = [("Dividing head", exact[0].words)]
        arms = f"{exact[0].arms} holes, {exact[0].holes} spaces"
        return [*big, ("Sector arms show", arms)] if exact[0].holes else big
    if shop is None:
        return [("Dividing head", f"{without_plates(one.count)}; no shop file names your plates")]
    near = indexing.compound(one.count, shop.dividing_ratio, shop.plates, 1)
    off = f"; {near[0].words}, off by {near[0].error:.3g} deg at the last tooth" if near else ""
    return [("Dividing head", f"no circle is exact{off}")]


def _sizes(one: Blank, words: Words) -> tuple[tuple[str, ...], ...]:
    """What to measure, its limits, how, and room to write."""
    rows = [
        ("outside", words.limits(one.outside[1], one.outside[2]), "h10"),
        ("bore", words.limits(one.bore[1], one.bore[2]), one.bore_words),
        ("width", words.size(one.width), f"faces square to the bore within {words.size(0.02, 1)}"),
    ]
    if one.dogs:
        over = "turn the blank to this length; mill the dogs last"
        rows += [
            ("dogs stand out", words.size(one.dogs), "of the face beside the clutch"),
            ("length over the dogs", words.size(one.length), over),
        ]
    if one.keyway:
        wide, deep = map(words.size, one.keyway)
        rows.append(("keyway", f"{wide} wide, {deep} deep", "in the hub"))
    pins = f"pins of {words.size(float(measuring.pin_diameter(one.module)))}"
    values = gear_measures.gear_values(one.module, one.count, one.shift, one.thinning, 0.03)
    for what, value in values.items():
        limits = words.limits(float(value.least), float(value.most))
        rows.append((what, limits, pins if "pins" in what else value.how))
    return tuple((*row, "") for row in rows)


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
    scale = scale_for(2 * outer + side + one.length, 2 * outer, (150, 58))
    drawn = Drawing((-outer, -outer), (side + one.length, outer), scale, 14)
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
    if one.dogs:
        drawn.box((left + one.width, -one.dog_ring[1]), (left + one.length, one.dog_ring[1]))
    drawn.size((left + one.width, outer), (left + one.width, -outer), words.bare(one.outside[0]), 8)
    drawn.size((left, outer), (left + one.width, outer), words.bare(one.width), 5)
    drawn.words(0, -outer, f"scale {ratio(scale)}", size=2.8, shift=(0, -5))
    return drawn.svg(f"gear of {one.count} teeth, front and side")
