"""Shop sheets: one side of paper for each part or operation, with the numbers to set and room to write."""

from __future__ import annotations

from dataclasses import dataclass, field
from datetime import date
from pathlib import Path

import numpy as np
from jinja2 import Environment, PackageLoader, StrictUndefined
from markupsafe import Markup

from mixerkit.design import Design
from mixerkit.drive import dogclutch
from mixerkit.drive.fuses import fuse_torques
from mixerkit.machine import Machine
from mixerkit.parts import gear_measures, measuring
from mixerkit.parts.bush_walls import bush_sizes
from mixerkit.parts.outline import gear_outline
from mixerkit.parts.sleeve_checks import sleeve_warnings
from mixerkit.shop import (
    assembly,
    flatpattern,
    holes,
    indexing,
    parts_list,
    tapping,
    turning,
    welding,
)
from mixerkit.shop.blanks import Blank, gear_blank, gears, limits_of
from mixerkit.shop.shaftwork import ShaftWork, shaft_work
from mixerkit.shop.workshop import Workshop
from mixerkit.show.drawing import Drawing, scale_for
from mixerkit.show.stamp import STOP, stamp_of
from mixerkit.spec import Spec
from mixerkit.units import InputError, show
from mixerkit.written import write_all

__all__ = [
    "PAPERS",
    "Sheet",
    "ready_sheets",
    "sheets",
    "sheets_html",
    "write_files",
    "write_sheets",
]

PAPERS = {"a4": ("A4", 210.0, 297.0), "letter": ("letter", 215.9, 279.4)}
"""Name for CSS, width and height in mm."""
_ENVIRONMENT = Environment(
    loader=PackageLoader("mixerkit.show", "templates"),
    autoescape=True,
    undefined=StrictUndefined,
    trim_blocks=True,
    lstrip_blocks=True,
)


@dataclass(frozen=True)
class Sheet:
    """What stands on one side of paper.

    Attributes
    ----------
    title, purpose : str
    drawing : str
        SVG, empty for none.
    big : tuple of (str, str)
        Numbers to set on a machine: label and value.
    tables : tuple of (str, tuple of str, tuple of tuple of str)
        Title, headings and rows; a heading ``"As made"`` leaves room to write.
    ticks : tuple of str
        One box to tick for each.
    notes : tuple of str
    dense : bool
        Whether its tables are set small, to go on one side.
    """

    title: str
    purpose: str
    drawing: str = ""
    big: tuple[tuple[str, str], ...] = ()
    tables: tuple[tuple[str, tuple[str, ...], tuple[tuple[str, ...], ...]], ...] = ()
    ticks: tuple[str, ...] = field(default=())
    notes: tuple[str, ...] = field(default=())
    dense: bool = False


MICROINCHES = {0.8: 32, 3.2: 125}
"""Preferred roughness values, um to microinches (ASME B46.1, from memory)."""


class Words:
    """Sizes as this maker reads them."""

    def __init__(self, system: str) -> None:
        self.system = system

    def size(self, value: float, digits: int = 5) -> str:
        """A length with its unit, no finer than a micrometer reads."""
        if not np.isfinite(value):
            return show(value, "mm", self.system)
        finest = 0.0001 * (25.4 if self.system == "inch" else 1.0)
        return show(round(value / finest) * finest, "mm", self.system, digits)

    def finish(self, roughness: float) -> str:
        """A roughness in um, or its partner among the preferred values in microinches."""
        return f"{roughness:g} um" if self.system == "metric" else f"{MICROINCHES[roughness]} uin"

    def bare(self, value: float) -> str:
        """A length without its unit, for dimensions."""
        if not np.isfinite(value):
            return "?"
        return f"{value:.4g}" if self.system == "metric" else f"{value / 25.4:.3f}"

    def limits(self, least: float, most: float) -> str:
        """Two limits, the larger first, as they are turned to."""
        if not np.isfinite([least, most]).all():
            return "not known"
        if self.system == "metric":
            return f"{most:.3f} / {least:.3f} mm"
        return f"{most / 25.4:.4f} / {least / 25.4:.4f} in"


def sheets(design: Design, shop: Workshop) -> list[Sheet]:
    """Make every sheet of a design, in the order of work.

    Parameters
    ----------
    design : Design
    shop : Workshop

    Returns
    -------
    list of Sheet
    """
    words = Words(design.show_units)
    spec = design
    return [
        _order(spec, words),
        _cut_list(spec, shop, words),
        *(_plate(spec, which, face, shop, words) for which, face in holes.FACES),
        *(_gear(spec, name, shop, words) for name in gears(spec)),
        *(_shaft(spec, number, shop, words) for number in (1, 2)),
        _clutch(spec, words),
        _bushes(spec, words),
        _bill(spec, shop, words),
        _assembly(spec, words),
    ]


# ------------------------------------------------------------------------------------------- gears


def _gear(spec: Spec, name: str, shop: Workshop, words: Words) -> Sheet:
    one = gear_blank(spec, name, shop, words.system)
    exact = indexing.settings(one.count, shop.dividing_ratio, shop.plates)
    values = gear_measures.gear_values(one.module, one.count, one.shift, one.thinning, 0.03)
    pitch = (
        f"module {words.size(one.module)}"
        if words.system == "metric"
        else f"diametral pitch {25.4 / one.module:.4g}"
    )
    big = [
        ("Turn the outside to", words.limits(one.outside[1], one.outside[2])),
        ("Feed from the outside", words.size(one.depth)),
        (
            "Cutter",
            f"No. {one.cutter}, {pitch}, 20 deg"
            + ("" if one.has_cutter else " - NOT ON THE SHELF"),
        ),
    ]
    if exact:
        big.append(("Dividing head", exact[0].words))
        if exact[0].holes:
            big.append(("Sector arms show", f"{exact[0].arms} holes, {exact[0].holes} spaces"))
    else:
        near = indexing.compound(one.count, shop.dividing_ratio, shop.plates, 1)
        big.append(
            (
                "Dividing head",
                f"no circle is exact; {near[0].words}, off by {near[0].error:.3g} deg at the last tooth"
                if near
                else "no circle is exact",
            )
        )
    sizes = (
        ("outside", words.limits(one.outside[1], one.outside[2]), "h10"),
        ("bore", words.limits(one.bore[1], one.bore[2]), one.bore_words),
        ("width", words.size(one.width), "faces square to the bore within 0.02"),
        *(
            (
                (
                    "keyway",
                    f"{words.size(one.keyway[0])} wide, {words.size(one.keyway[1])} deep",
                    "in the hub",
                ),
            )
            if one.keyway
            else ()
        ),
        *(
            (
                what,
                words.limits(float(value.least), float(value.most)),
                value.how
                if "pins" not in what
                else f"pins of {words.size(float(measuring.pin_diameter(one.module)))}",
            )
            for what, value in values.items()
        ),
    )
    return Sheet(
        f"{one.words[0].upper()}{one.words[1:].split(',')[0]}, {one.words.split(', ')[1]}: {one.count} teeth",
        f"{one.words}; {one.material}, {show(one.mass, 'kg', words.system)}",
        gear_drawing(one, words),
        tuple(big),
        (("Measure", ("What", "Limits", "How", "As made"), tuple((*row, "") for row in sizes)),),
        _ticks(one.count, shop.dividing_ratio, exact[0]) if exact else (),
        (
            f"{one.stack} blanks at once on the arbor; leave {words.size(np.ceil(one.run_out))} of arbor free beyond them, or the cutter meets the tailstock.",
            *(
                (
                    f"The list closes on itself: after tooth {one.count} the crank has made {shop.dividing_ratio} turns and stands where it began (t: whole turns so far, h: the hole the pin stands in).",
                )
                if exact
                else ()
            ),
            "Cut two neighbouring spaces, measure the base tangent, then feed in. Never move back over backlash: come to each hole from the same side.",
        ),
    )


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
    drawn.words(0, -outer, f"scale {_ratio(scale)}", size=2.8, shift=(0, -5))
    return drawn.svg(f"gear of {one.count} teeth, front and side")


def _ratio(scale: float) -> str:
    return f"1 : {1 / scale:.3g}" if scale < 1 else f"{scale:.3g} : 1"


# ------------------------------------------------------------------------------------------ shafts


def _shaft(spec: Spec, number: int, shop: Workshop, words: Words) -> Sheet:
    one = shaft_work(spec, number, words.system)
    notes = turning.turning_notes(one.length, one.diameter, shop, words.system)
    rows = [
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
    ]
    return Sheet(
        f"Shaft {number}",
        f"{one.material}, {show(one.mass, 'kg', words.system)}; lengths from the left end",
        _shaft_drawing(one, words),
        (
            ("Saw to", words.size(one.length + 4)),
            ("Face to", words.size(one.length)),
            ("Bearing seats", words.limits(*limits_of(one.seat, "k6" if one.bearing else "f7"))),
        ),
        (
            (
                "From left to right",
                ("", "What", "From", "To", "Limits", "Note", "As made"),
                tuple(rows),
            ),
        ),
        (),
        (
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
        f"lengths to scale {_ratio(scale)}, diameters {tall:.2g} times as thick; numbers as in the list",
        size=2.6,
        shift=(0, -10.2),
    )
    return drawn.svg(f"shaft {one.number}")


# ------------------------------------------------------------------------------------------ plates


def _plate(spec: Spec, which: str, face: str, shop: Workshop, words: Words) -> Sheet:
    chart = holes.chart(spec, which, face)
    seen = (
        f"the {face}, "
        + {
            ("reducer", "outside"): "from the reduction box",
            ("reducer", "inside"): "from the gears",
            ("trough", "inside"): "from the gears",
            ("trough", "outside"): "from the trough",
        }[which, face]
    )
    rows = [
        (
            str(k),
            hole.name,
            words.size(hole.x),
            words.size(hole.y),
            *((words.size(x),) if chart.mirrored else ()),
            words.limits(*hole.limits),
            holes.how_made(hole, shop, words.system),
            "",
        )
        for k, (hole, x) in enumerate(chart.rows, 1)
    ]
    apart = [(what, words.size(length), "") for what, length in chart.distances]
    band = [
        (mesh, *(words.size(size, 3) if np.isfinite(size) else "no mesh" for size in sizes))
        for mesh, *sizes in holes.backlash_band(spec, shop)
    ]
    here = ("x from the left here",) if chart.mirrored else ()
    heads = ("", "Hole", "x", "y", *here, "Limits", "Made by", "As made")
    tables = [("Holes, from the marked edges", heads, tuple(rows))]
    tables.append(("Between bores", ("What", "Distance", "As made"), tuple(apart)))
    notes = [f"{chart.from_edge[0].upper()}{chart.from_edge[1:]}."]
    if not chart.mirrored:
        tables.append(
            ("Backlash with the mill's error", ("Mesh", "Least", "Drawn", "Most"), tuple(band))
        )
        notes += [
            f"{what[0].upper()}{what[1:]}: {cost}."
            for what, cost in holes.setups(spec, shop, words.system)
        ]
    if not any(hole.name == "idler pin" for hole, _ in chart.rows):
        notes.insert(
            0,
            "The idler's pin has no place: its gears do not reach each other at this distance of the shafts. Do not bore this plate.",
        )
    bolt = tapping.tapped_hole(spec.housing.tie_bolt, shop, system=words.system)
    notes.append(
        f"Tie bolts {spec.housing.tie_bolt} pass through {words.size(bolt.clearance)} holes; dowels stand on one diagonal, so that a plate put on the wrong way does not go on."
    )
    return Sheet(
        f"Plate at the {which}, seen on {seen}" + (" - MIRRORED" if chart.mirrored else ""),
        f"{chart.plate.material}, {words.size(chart.plate.thickness)} thick, {show(chart.plate.mass, 'kg', words.system)}",
        plate_drawing(chart, words),
        (
            (
                "This view",
                "MIRRORED: marked edge on the RIGHT, x counts to the left"
                if chart.mirrored
                else "not mirrored: marked edge on the LEFT",
            ),
        ),
        tuple(tables),
        (),
        tuple(notes),
        True,
    )


def plate_drawing(chart: holes.Chart, words: Words) -> str:
    """Draw a plate with its holes as a hole chart has it, mirrored where the chart is."""
    scale = scale_for(chart.plate.width, chart.plate.height, (150, 70))
    drawn = Drawing((0, 0), (chart.plate.width, chart.plate.height), scale, 14)
    drawn.box((0, 0), (chart.plate.width, chart.plate.height))
    side = chart.plate.width if chart.mirrored else 0.0
    drawn.line((side, 0), (side, chart.plate.height), wide=1.4)
    drawn.line((0, 0), (chart.plate.width, 0), wide=1.4)
    out = 1 if chart.mirrored else -1
    drawn.words(
        side, chart.plate.height * 0.78, "marked edge", size=2.8, shift=(out * 3.5, 0), turn=90
    )
    drawn.words(chart.plate.width / 2, 0, "marked edge", size=2.8, shift=(0, -3.5))
    for k, (hole, x) in enumerate(chart.rows, 1):
        drawn.circle(x, hole.y, hole.diameter / 2)
        drawn.cross(x, hole.y, hole.diameter / 2 + 6)
        bore = hole.name in ("shaft 1", "shaft 2", "idler pin")
        up = -1 if hole.y > 0.8 * chart.plate.height else 1
        above = up * (hole.diameter / 2 * scale + 3.2)
        drawn.words(x, hole.y, f"{k} {hole.name}" if bore else str(k), size=2.9, shift=(0, above))
    one, two = (
        next((x, hole.y) for hole, x in chart.rows if hole.name == f"shaft {n}") for n in (1, 2)
    )
    low, high = sorted((one, two))
    drawn.size(
        (low[0], low[1] - 10), (high[0], high[1] - 10), words.bare(abs(one[0] - two[0])), -9 / 1.0
    )
    drawn.size(
        (0, chart.plate.height),
        (chart.plate.width, chart.plate.height),
        words.bare(chart.plate.width),
        7,
    )
    inner = 0.0 if chart.mirrored else chart.plate.width
    low, high = (inner, 0.0), (inner, chart.plate.height)
    ends = (low, high) if chart.mirrored else (high, low)
    drawn.size(ends[0], ends[1], words.bare(chart.plate.height), 7)
    drawn.words(chart.plate.width / 2, 0, f"scale {_ratio(scale)}", size=2.6, shift=(0, -8))
    return drawn.svg(f"plate at the {chart.plate.which}, {chart.face}")


# ---------------------------------------------------------------------------------- clutch, bushes


def _clutch(spec: Spec, words: Words) -> Sheet:
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
    drawn.words(0, -outer, f"scale {_ratio(scale)}; grey: dogs", size=2.8, shift=(0, -5))
    return Sheet(
        "Clutch sleeve",
        f"{one.material}; the same dogs are milled on both free gears",
        drawn.svg("clutch sleeve, end and side"),
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


def _bushes(spec: Spec, words: Words) -> Sheet:
    rows = []
    on = getattr(spec, f"shaft_{spec.clutch.shaft}").diameter
    for what, count, bore, length in (
        ("free gears", 2, on, spec.bearings.free_gear_length),
        ("idler", 1, spec.housing.idler_pin, spec.bearings.idler_length),
    ):
        one = bush_sizes(spec, bore, spec.housing.hub_diameter)
        rows += [
            (
                f"{what}, {count}: outside",
                words.limits(*one.fit.shaft),
                f"{spec.bearings.bush_fit}; {words.size(length)} long",
                "",
            ),
            (
                f"{what}: bore before pressing",
                words.size(one.bored),
                "leaves something to ream",
                "",
            ),
            (
                f"{what}: closes in by",
                f"{words.size(one.closing[0], 2)} to {words.size(one.closing[1], 2)}",
                f"press with up to {show(one.force / 1e3, 'kN', words.system)}",
                "",
            ),
            (
                f"{what}: ream or bore to",
                words.limits(*one.reamed),
                "after pressing, never before",
                "",
            ),
        ]
    outer, inner, length = (
        on / 2 + spec.bearings.bush_wall,
        on / 2,
        spec.bearings.free_gear_length,
    )
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
    return Sheet(
        "Bushes",
        f"{spec.bearings.bush_material}; drawn: a free gear's bush, scale {_ratio(scale)}",
        drawn.svg("bush"),
        (),
        (("Sizes", ("What", "Size", "Note", "As made"), tuple(rows)),),
        (),
        (
            f"Chamfer the lead {words.size(1.0, 2)} x 15 deg, press with a shouldered drift in a straight line.",
            "A press stores energy: stand aside, and guard what may shatter.",
            "Drill the grease hole through after pressing, away from the loaded side, and take off its burr.",
        ),
    )


# ------------------------------------------------------------------------------------------- lists


def _order(spec: Spec, words: Words) -> Sheet:
    weld = welding.stem_weld(spec, _jam_torque(spec))
    rows = tuple(
        (str(k), what, why, "")
        for k, (what, why) in enumerate(welding.order_of_work(spec, words.system), 1)
    )
    return Sheet(
        "Order of work",
        "weld first, let it move, then machine all from one datum",
        "",
        (),
        (("Step by step", ("", "What", "Why", "Done"), rows),),
        (),
        (
            f"Paddle stems: fillet of {words.size(weld.leg, 2)} leg all round ({show(weld.stress, 'MPa', words.system)} of {show(weld.allowed, 'MPa', words.system)} allowed, one paddle stopped at its tip).",
            "Weld with the fume drawn away, stainless above all; earth clamp close by, never through a bearing; look for cracks when cold.",
        ),
    )


def _jam_torque(spec: Spec) -> float:
    low, high = fuse_torques(spec)
    return high if np.isfinite(low) else spec.reducer.rated_torque * spec.reducer.peak_torque_ratio


def _cut_list(spec: Spec, shop: Workshop, words: Words) -> Sheet:
    rows = tuple(
        (
            bar.of,
            ", ".join(f"{name} {words.size(length, 4)}" for name, length in bar.cuts),
            words.size(max(bar.left, 0.0), 3) if bar.left >= 0 else "TOO LONG",
            "",
        )
        for bar in parts_list.bars(spec, shop, words.system)
    )
    need = flatpattern.sheet_needed(spec, shop)
    return Sheet(
        "Cut list",
        f"from bars of {words.size(shop.stock.bar_length)}, {words.size(shop.stock.saw_cut)} lost to each cut, {words.size(4.0, 2)} to face",
        "",
        (),
        (("Bars", ("Bar", "Saw off", "Left over", "Done"), rows),),
        (),
        (
            f"Both gear plates come out of {words.size(need.width, 4)} x {words.size(need.height, 4)} of plate, {words.size(need.thickness) if np.isfinite(need.thickness) else 'thicker than any in stock'}: {show(need.mass, 'kg', words.system)}.",
            "Mark each piece with its material before it leaves the bar: once turned, steels look alike.",
        ),
    )


def _bill(spec: Spec, shop: Workshop, words: Words) -> Sheet:
    listed = parts_list.parts(spec, shop, words.system)
    rows = tuple(
        (
            str(one.count),
            one.name,
            one.material,
            one.size,
            show(one.count * one.mass, "kg", words.system),
            "",
        )
        for one in listed
    )
    total = sum(one.count * one.mass for one in listed)
    return Sheet(
        "Bill of materials",
        f"{show(total, 'kg', words.system)} without trough, frame and guards",
        "",
        (),
        (("Parts", ("", "Part", "Material", "As bought or sawn", "Mass", "Here"), rows),),
        dense=True,
    )


def _assembly(spec: Spec, words: Words) -> Sheet:
    rows = tuple(
        (str(k), *row, "") for k, row in enumerate(assembly.assembly_order(spec, words.system), 1)
    )
    return Sheet(
        "Putting it together",
        "isolated, plug out, until the last step",
        "",
        (),
        (("Step by step", ("", "What", "Clearance", "Right when", "Done"), rows),),
        (),
        (
            "Turn everything by hand after every step; what goes stiff is wrong now, not later.",
            "A nip between two shafts closes on fingers by hand as well: one person turns, and only that one.",
        ),
    )


# ------------------------------------------------------------------------------------------- files


def sheets_html(
    design: Design,
    shop: Workshop,
    paper: str = "a4",
    on: date | None = None,
    found: Machine | None = None,
) -> str:
    """Write every sheet as one HTML page that prints one side each.

    Parameters
    ----------
    design : Design
    shop : Workshop
    paper : str
        A key of :data:`PAPERS`.
    on : datetime.date, optional
        Date on the sheets; see :func:`mixerkit.show.stamp.day_of`.
    found : Machine, optional
        Of the design, where it has been assessed already; a sheet of one that fails is stamped.

    Returns
    -------
    str

    Raises
    ------
    InputError
        If the paper is not known.
    """
    if paper not in PAPERS:
        raise InputError(f'paper: "{paper}" is none of {", ".join(PAPERS)}; for example a4.')
    name, wide, high = PAPERS[paper]
    return _ENVIRONMENT.get_template("sheets.html").render(
        design=design,
        stamp=stamp_of(found or Machine(design), shop, on=on),
        stop=STOP,
        paper=name,
        wide=wide,
        high=high,
        sheets=ready_sheets(design, shop),
    )


def ready_sheets(design: Design, shop: Workshop) -> list[dict[str, object]]:
    """Sheets as a template takes them, their drawings marked as safe: they are made here."""
    return [
        {**vars(one), "drawing": Markup(one.drawing)}  # noqa: S704  our own SVG
        for one in sheets(design, shop)
    ]


def write_sheets(
    design: Design,
    shop: Workshop,
    folder: Path,
    paper: str = "a4",
    *more: str,
    found: Machine | None = None,
) -> list[Path]:
    """Write the sheets and all files for cutting and checking into a folder, all or nothing.

    Parameters
    ----------
    design : Design
    shop : Workshop
    folder : pathlib.Path
        Made if it is not there.
    paper, *more : str
        Keys of :data:`PAPERS`; the sheets are written once for each.
    found : Machine, optional
        As for :func:`sheets_html`.

    Returns
    -------
    list of pathlib.Path

    Raises
    ------
    InputError
        If the folder cannot be made or written to, or a paper is not known.
    """
    found = found or Machine(design)
    pages = {
        f"sheets_{one}.html": sheets_html(design, shop, one, found=found) for one in (paper, *more)
    }
    return write_all(folder, {**pages, **_files(design, shop, found)})


def write_files(
    design: Design, shop: Workshop, folder: Path, found: Machine | None = None
) -> list[Path]:
    """Write DXF of plates and gears, SVG of gear outlines, CSV of hole charts and bill of materials.

    Each file of a design that fails says that nothing may be cut, and why.

    Parameters
    ----------
    design, shop, folder, found
        As for :func:`write_sheets`.

    Returns
    -------
    list of pathlib.Path

    Raises
    ------
    InputError
        If a file cannot be written.
    """
    return write_all(folder, _files(design, shop, found or Machine(design)))


def _files(design: Design, shop: Workshop, found: Machine) -> dict[str, str]:
    """Text of each file for cutting and checking, by its name."""
    spec, system = design, design.show_units
    stop = stamp_of(found, shop).stop
    made: dict[str, str] = {}
    for which in holes.PLATES:
        made[f"plate_{which}.dxf"] = flatpattern.plate_dxf(spec, which, shop, stop)
        rows = [
            (
                hole.name,
                f"{hole.x:.4f}",
                f"{hole.y:.4f}",
                f"{hole.limits[0]:.4f}",
                f"{hole.limits[1]:.4f}",
                holes.how_made(hole, shop),
            )
            for hole in holes.plate(spec, which).holes
        ]
        heads = (
            "hole",
            "x from the edge beside shaft 1, mm",
            "y from the bottom edge, mm",
            "least diameter, mm",
            "most diameter, mm",
            "made by",
        )
        made[f"holes_{which}.csv"] = flatpattern.as_csv(heads, rows, stop)
    for name in gears(spec):
        made[f"gear_{name}.dxf"] = flatpattern.gear_dxf(spec, name, shop, stop)
        made[f"gear_{name}.svg"] = flatpattern.gear_svg(spec, name, shop, stop)
        one = gear_blank(spec, name, shop, system)
        exact = indexing.settings(one.count, shop.dividing_ratio, shop.plates)
        if exact:
            made[f"indexing_{name}.csv"] = flatpattern.as_csv(
                ("tooth", "turns", "hole", "angle, deg"),
                [
                    (*row[:3], f"{row[3]:.6f}")
                    for row in indexing.running_list(one.count, shop.dividing_ratio, exact[0])
                ],
                stop,
            )
    made["bill_of_materials.csv"] = flatpattern.as_csv(
        ("count", "part", "material", "as bought or sawn", "mass of one, kg"),
        [
            (one.count, one.name, one.material, one.size, f"{one.mass:.4f}")
            for one in parts_list.parts(spec, shop, system)
        ],
        stop,
    )
    return made
