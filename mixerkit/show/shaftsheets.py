"""Shop sheets of shafts and what slides and turns on them: bars, clutch sleeve, bushes."""

from __future__ import annotations

from mixerkit.drive import dogclutch
from mixerkit.parts.bush_walls import bush_sizes
from mixerkit.parts.sleeve_checks import sleeve_warnings
from mixerkit.shop import turning
from mixerkit.shop.blanks import limits_of
from mixerkit.shop.shaftwork import ShaftWork, shaft_work
from mixerkit.shop.workshop import Workshop
from mixerkit.show.drawing import Drawing, scale_for
from mixerkit.show.sheet import Sheet, Words, ratio
from mixerkit.spec import Clutch, Spec
from mixerkit.units import show

__all__ = ["bush_sheet", "clutch_sheet", "shaft_sheet"]


def shaft_sheet(spec: Spec, number: int, shop: Workshop, words: Words) -> Sheet:
    """Write the sheet of shaft 1 or 2."""
    one = shaft_work(spec, number, words.system)
    notes = turning.turning_notes(one.length, one.diameter, shop, words.system)
    rows = tuple(
        (
            str(k),
            feature.words,
            words.size(feature.start),
            words.size(feature.end),
            words.limits(feature.least, feature.most),
            feature.note,
            "",
        )
        for k, feature in enumerate(one.features, 1)
    )
    heads = ("", "What", "From", "To", "Limits", "Note", "As made")
    return Sheet(
        f"Shaft {number}",
        f"{one.material}, {show(one.mass, 'kg', words.system)}; lengths from the left end",
        _shaft_drawing(one, words),
        (
            ("Saw to", words.size(one.length + 4)),
            ("Face to", words.size(one.length)),
            ("Bearing seats", words.limits(*limits_of(one.seat, "k6" if one.bearing else "f7"))),
        ),
        (("From left to right", heads, rows),),
        notes=(
            *(f"{text[0].upper()}{text[1:]}." for text in notes.words),
            f"Fillets {words.size(one.fillet)} at every shoulder, or an undercut no deeper than {words.size(0.3, 2)}; seats Ra {words.finish(0.8)}, the rest Ra {words.finish(3.2)}; break every edge {words.size(0.5, 1)} x 45 deg.",
            "Turn seats last, to the bores as measured. Mill keyways before the last cut on the seat: they let the bar spring.",
            *(sleeve_warnings(spec)[:1]),
        ),
    )


def _shaft_drawing(one: ShaftWork, words: Words) -> str:
    big = max(size for _, _, size in one.segments)
    scale = 164.0 / one.length
    tall = max(2.0, 12.0 / (big * scale))
    drawn = Drawing((0, -big * tall / 2), (one.length, big * tall / 2), scale, 11)
    for start, end, size in one.segments:
        drawn.box((start, -size * tall / 2), (end, size * tall / 2))
    for k, feature in enumerate(one.features):
        half = big * tall / 2
        if feature.kind == "seat":
            drawn.box((feature.start, -half), (feature.end, half), wide=0.2, fill="#ececec")
        elif feature.kind == "keyway":
            drawn.box((feature.start, -half / 3), (feature.end, half / 3), wide=0.35, fill="#fff")
        else:
            drawn.circle((feature.start + feature.end) / 2, 0, feature.diameter / 2)
        middle = (feature.start + feature.end) / 2
        if feature.kind != "keyway":
            drawn.words(middle, half, str(k + 1), size=3.0, shift=(0, 3.2), bold=True)
    drawn.line((-15, 0), (one.length + 15, 0), wide=0.18, dash="5 1.2 0.8 1.2")
    drawn.size((one.length, -big * tall / 2), (0, -big * tall / 2), words.bare(one.length), 6)
    drawn.words(
        one.length / 2,
        -big * tall / 2,
        f"lengths to scale {ratio(scale)}, diameters {tall:.2g} times as thick; numbers as in the list",
        size=2.6,
        shift=(0, -10.2),
    )
    return drawn.svg(f"shaft {one.number}")


def clutch_sheet(spec: Spec, words: Words) -> Sheet:
    """Write the sheet of the clutch sleeve."""
    one = spec.clutch
    bore = getattr(spec, f"shaft_{one.shaft}").diameter
    at, cut = dogclutch.positions(spec), dogclutch.milling(spec)
    rows = (
        ("outside over the dogs", words.size(one.outer_diameter), "", ""),
        ("inside of the dogs", words.size(one.inner_diameter), "", ""),
        ("bore", words.limits(*limits_of(bore, "H7")), "slides on the shaft, H7/f7", ""),
        ("length over the dogs", words.size(one.sleeve_length), "", ""),
        ("dogs stand out", words.size(one.dog_height), "both ends, and on both free gears", ""),
        ("space wider than a dog by", f"{one.angular_play:g} deg", "all round alike", ""),
        ("neutral gap, each side", words.size(at.gap, 3), "measured when it is together", ""),
        ("travel each way", words.size(at.travel, 3), "", ""),
    )
    return Sheet(
        "Clutch sleeve",
        f"{one.material}; the same dogs are milled on both free gears",
        _clutch_drawing(one, bore, words),
        (
            ("Passes a face", str(cut.passes)),
            ("Turn between passes", f"{cut.turn:g} deg"),
            ("Cutter, at most", words.size(cut.cutter, 3)),
        ),
        (("Sizes", ("What", "Size", "Note", "As made"), rows),),
        tuple(f"pass {k + 1}, {k * cut.turn % 360:g} deg" for k in range(cut.passes)),
        (
            f"{cut.words[0].upper()}{cut.words[1:]}.",
            "Harden nothing before it has been tried together; take the corners off the dogs by half a millimetre.",
        ),
    )


def _clutch_drawing(one: Clutch, bore: float, words: Words) -> str:
    outer, inner, half = (
        one.outer_diameter / 2,
        one.inner_diameter / 2,
        180 / one.dogs - one.angular_play / 2,
    )
    side = outer * 1.5
    scale = scale_for(2 * outer + side + one.sleeve_length, 2 * outer, (150, 70))
    drawn = Drawing((-outer, -outer), (side + one.sleeve_length, outer), scale, 14)
    for k in range(one.dogs):
        middle = 90 + 360 / one.dogs * k
        drawn.ring_of(0, 0, inner, outer, middle - half / 2, middle + half / 2)
    drawn.circle(0, 0, outer)
    drawn.circle(0, 0, inner, wide=0.25)
    drawn.circle(0, 0, bore / 2)
    drawn.cross(0, 0, outer * 1.05)
    drawn.box((side, -outer), (side + one.sleeve_length, outer))
    for edge in (side + one.dog_height, side + one.sleeve_length - one.dog_height):
        drawn.line((edge, -outer), (edge, outer), wide=0.25)
    drawn.size(
        (side + one.sleeve_length, outer),
        (side + one.sleeve_length, -outer),
        words.bare(one.outer_diameter),
        8,
    )
    drawn.size((side, outer), (side + one.sleeve_length, outer), words.bare(one.sleeve_length), 5)
    drawn.words(0, -outer, f"scale {ratio(scale)}; grey: dogs", size=2.8, shift=(0, -5))
    return drawn.svg("clutch sleeve, end and side")


def bush_sheet(spec: Spec, words: Words) -> Sheet:
    """Write the sheet of the bushes in gears and idler."""
    bearings, on = spec.bearings, getattr(spec, f"shaft_{spec.clutch.shaft}").diameter
    rows = (
        *_bush_rows(spec, "free gears", 2, on, bearings.free_gear_length, words),
        *_bush_rows(spec, "idler", 1, spec.housing.idler_pin, bearings.idler_length, words),
    )
    inner, length = on / 2, bearings.free_gear_length
    outer = inner + bearings.bush_wall
    scale = scale_for(2.6 * outer + length, 2 * outer, (120, 60))
    return Sheet(
        "Bushes",
        f"{bearings.bush_material}; drawn: a free gear's bush, scale {ratio(scale)}",
        _bush_drawing(outer, inner, length, scale, words),
        tables=(("Sizes", ("What", "Size", "Note", "As made"), rows),),
        notes=(
            f"Chamfer the lead {words.size(1.0, 2)} x 15 deg, press with a shouldered drift in a straight line.",
            "A press stores energy: stand aside, and guard what may shatter.",
            "Drill the grease hole through after pressing, away from the loaded side, and take off its burr.",
        ),
    )


def _bush_rows(
    spec: Spec, what: str, count: int, bore: float, length: float, words: Words
) -> tuple[tuple[str, str, str, str], ...]:
    """What to turn, press and ream, in the order of work."""
    one = bush_sizes(spec, bore, spec.housing.hub_diameter)
    closing = f"{words.size(one.closing[0], 2)} to {words.size(one.closing[1], 2)}"
    force = show(one.force / 1e3, "kN", words.system)
    outside = f"{spec.bearings.bush_fit}; {words.size(length)} long"
    return (
        (f"{what}, {count}: outside", words.limits(*one.fit.shaft), outside, ""),
        (f"{what}: bore before pressing", words.size(one.bored), "leaves something to ream", ""),
        (f"{what}: closes in by", closing, f"press with up to {force}", ""),
        (
            f"{what}: ream or bore to",
            words.limits(*one.reamed),
            "after pressing, never before",
            "",
        ),
    )


def _bush_drawing(outer: float, inner: float, length: float, scale: float, words: Words) -> str:
    left, right = 1.6 * outer, 1.6 * outer + length
    drawn = Drawing((-outer, -outer), (right, outer), scale, 14)
    drawn.circle(0, 0, outer)
    drawn.circle(0, 0, inner)
    drawn.cross(0, 0, outer * 1.1)
    drawn.box((left, -outer), (right, outer))
    for y in (inner, -inner):
        drawn.line((left, y), (right, y), wide=0.3, dash="2 1")
    drawn.size((right, outer), (right, -outer), words.bare(2 * outer), 8)
    return drawn.svg("bush")
