"""The sheets of the clutch's sleeve and of the bushes."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from mixerkit.drive import dogclutch
from mixerkit.parts.bush_walls import TURNS, BushSizes, bush_sizes
from mixerkit.parts.keys import key_for
from mixerkit.parts.zones import CLUTCH, free_gear_bores, seat
from mixerkit.shop.blanks import limits_of
from mixerkit.shop.idler_pin import IN_PLATES, idler_pin
from mixerkit.shop.wanted_bushes import OwnBush, own_bushes
from mixerkit.show.drawing import Drawing, scale_for
from mixerkit.show.sheet import Sheet, Words, ratio
from mixerkit.spec import Spec
from mixerkit.units import show

__all__ = ["bushes", "clutch"]


def clutch(spec: Spec, words: Words) -> Sheet:
    """Write the sheet of the clutch's sleeve."""
    one = spec.clutch
    bore = seat(spec, one.shaft, CLUTCH)
    key, groove = key_for(bore, words.system), dogclutch.fork_groove(spec)
    at, cut = dogclutch.positions(spec), dogclutch.milling(spec)
    rows = (
        ("outside over the dogs", words.size(one.outer_diameter), "", ""),
        ("inside of the dogs", words.size(one.inner_diameter), "", ""),
        ("bore", words.limits(*limits_of(bore, "H7")), "slides on the shaft, H7/f7", ""),
        (
            "keyway in the bore",
            f"{words.size(key['width'])} wide, {words.size(key['hub_depth'])} deep",
            "right through, JS9: it slides on the feather key",
            "",
        ),
        (
            "groove of the fork",
            f"{words.size(groove[0], 3)} wide, {words.size(groove[1], 3)} deep",
            "round the middle, its walls square and smooth",
            "",
        ),
        (
            "detent",
            f"three notches in the fork's rod, {words.size(at.travel, 3)} apart",
            "a ball under a spring holds neutral and both gears",
            "",
        ),
        ("length over the dogs", words.size(one.sleeve_length), "", ""),
        ("dogs stand out", words.size(one.dog_height), "both ends, and on both free gears", ""),
        ("space wider than a dog by", f"{one.angular_play:g} deg", "all round alike", ""),
        ("neutral gap, each side", words.size(at.gap, 3), "measured when it is together", ""),
        ("travel each way", words.size(at.travel, 3), "", ""),
    )
    return Sheet(
        "Clutch sleeve",
        f"{one.material}; the same dogs are milled on both free gears",
        _sleeve_drawing(spec, words),
        (
            ("Passes a face", str(cut.passes)),
            ("Turn between passes", f"{cut.turn:g} deg"),
            ("Cutter, at most", words.size(cut.cutter, 3)),
        ),
        (("Sizes", ("What", "Size", "Note", "As made"), rows),),
        tuple(f"pass {k + 1}, {k * cut.turn % 360:g} deg" for k in range(cut.passes)),
        (
            f"{cut.words[0].upper()}{cut.words[1:]}.",
            f"Harden nothing before it has been tried together; take the corners off the dogs by {words.size(0.5, 1)}.",
        ),
    )


def _sleeve_drawing(spec: Spec, words: Words) -> str:
    """Draw the sleeve's end and side, dimensioned."""
    one = spec.clutch
    bore = seat(spec, one.shaft, CLUTCH)
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
    wide, deep = dogclutch.fork_groove(spec)
    middle = side + one.sleeve_length / 2
    for sign in (-1, 1):
        drawn.box(
            (middle - wide / 2, sign * outer),
            (middle + wide / 2, sign * (outer - deep)),
            fill="#fff",
        )
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


def bushes(spec: Spec, words: Words) -> Sheet:
    """Write the sheet of the bushes."""
    bearings, free = spec.bearings, free_gear_bores(spec)
    rows = [
        *(
            row
            for of, count, bore in free
            for row in _bush_rows(
                spec, f"free gears{of}, {count}", bore, bearings.free_gear_length, words
            )
        ),
        *_bush_rows(spec, "idler, 1", spec.housing.idler_pin, bearings.idler_length, words),
        *_pin_rows(spec, words),
        *_own_rows(spec, words),
    ]
    drawing, scale = _bush_drawing(free[0][2], bearings.bush_wall, bearings.free_gear_length, words)
    return Sheet(
        "Bushes",
        f"{spec.bearings.bush_material}; drawn: a free gear's bush, scale {scale}",
        drawing,
        (),
        (("Sizes", ("What", "Size", "Note", "As made"), tuple(rows)),),
        (),
        (
            f"Chamfer the lead {words.size(1.0, 2)} x 15 deg, press with a shouldered drift in a straight line.",
            "A press stores energy: stand aside, and guard what may shatter.",
            "Drill the grease hole through after pressing, away from the loaded side, and take off its burr.",
        ),
    )


def _bush_rows(
    spec: Spec, what: str, bore: float, length: float, words: Words
) -> list[tuple[str, ...]]:
    """Sizes of a bush of a gear, before it is pressed in and after."""
    one = bush_sizes(spec, bore, spec.housing.hub_diameter, length)
    return _size_rows(spec, what, one, length, words)


def _own_rows(spec: Spec, words: Words) -> list[tuple[str, ...]]:
    """Sizes of the bushes that the shafts turn in, those of a shaft that are alike together."""
    rows, length = list[tuple[str, ...]](), spec.bearings.bush_length
    for bore, group in _alike(own_bushes(spec)).items():
        shafts = sorted({one.number for one in group})
        who = "both shafts" if len(shafts) == 2 else f"shaft {shafts[0]}"
        same = [one for one in own_bushes(spec) if one.number in shafts]
        where = "" if len(group) == len(same) else f" at {words.size(bore)}"
        # the one with the least metal round it closes in by least: bored for it, all leave something to ream
        one = min((each.sizes for each in group), key=lambda each: each.closing)
        rows += _size_rows(spec, f"{who}{where}, {len(group)}", one, length, words)
    return rows


def _alike(row: Sequence[OwnBush]) -> dict[float, list[OwnBush]]:
    """Bushes by their bores."""
    found: dict[float, list[OwnBush]] = {}
    for one in row:
        found.setdefault(one.bore, []).append(one)
    return found


def _size_rows(
    spec: Spec, what: str, one: BushSizes, length: float, words: Words
) -> list[tuple[str, ...]]:
    """Sizes of a bush, before it is pressed in and after."""
    part = what.rsplit(",", maxsplit=1)[0]
    force = show(one.force / 1e3, "kN", words.system)
    return [
        (
            f"{what}: outside",
            words.limits(*one.fit.shaft),
            f"{spec.bearings.bush_fit}; {words.size(length)} long",
            "",
        ),
        (f"{part}: bore before pressing", words.size(one.bored), "leaves something to ream", ""),
        (
            f"{part}: closes in by",
            f"{words.size(one.closing[0], 2)} to {words.size(one.closing[1], 2)}",
            f"press with up to {force}",
            "",
        ),
        (
            f"{part}: ream or bore to",
            words.limits(*one.reamed),
            "after pressing, never before",
            "",
        ),
    ]


def _pin_rows(spec: Spec, words: Words) -> Iterator[tuple[str, ...]]:
    """Sizes of the pin that the idler's bush turns on."""
    pin = idler_pin(spec, words.system)
    yield (
        "idler's pin: where the idler turns",
        words.limits(*pin.turns),
        f"{TURNS}, turned from {pin.bar}",
        "",
    )
    yield (
        "idler's pin: ends in the plates",
        words.limits(*pin.ends),
        f"{IN_PLATES}, slide into the plates and through the bush by hand",
        "",
    )


def _bush_drawing(bore: float, wall: float, length: float, words: Words) -> tuple[str, str]:
    """Draw a bush's end and side; with the scale."""
    outer, inner = bore / 2 + wall, bore / 2
    scale = scale_for(2.6 * outer + length, 2 * outer, (120, 60))
    drawn = Drawing((-outer, -outer), (1.6 * outer + length, outer), scale, 14)
    drawn.circle(0, 0, outer)
    drawn.circle(0, 0, inner)
    drawn.cross(0, 0, outer * 1.1)
    drawn.box((1.6 * outer, -outer), (1.6 * outer + length, outer))
    for sign in (1, -1):
        drawn.line(
            (1.6 * outer, sign * inner), (1.6 * outer + length, sign * inner), wide=0.3, dash="2 1"
        )
    drawn.size(
        (1.6 * outer + length, outer), (1.6 * outer + length, -outer), words.bare(2 * outer), 8
    )
    return drawn.svg("bush"), ratio(scale)
