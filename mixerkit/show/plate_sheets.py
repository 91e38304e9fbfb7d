"""The sheets of the gear plates: holes from the marked edges, as each face is seen."""

from __future__ import annotations

import numpy as np

from mixerkit.shop import holes, tapping
from mixerkit.shop.workshop import Workshop
from mixerkit.show.drawing import Drawing, scale_for
from mixerkit.show.sheet import Sheet, Table, Words, ratio
from mixerkit.spec import Spec
from mixerkit.units import show

__all__ = ["plate"]


def plate(spec: Spec, which: str, face: str, shop: Workshop | None, words: Words) -> Sheet:
    """Write the sheet of one face of a gear plate."""
    chart = holes.chart(spec, which, face)
    mirrored = " - MIRRORED" if chart.mirrored else ""
    return Sheet(
        f"Plate at the {which}, seen on the {face}, {_SEEN[which, face]}{mirrored}",
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
        _tables(spec, chart, shop, words),
        (),
        _notes(spec, chart, shop, words),
        True,
    )


_PLATES = (*holes.PLATES, "far wall")
"""What holds the bearings of a shaft, in order along it; the far wall has no sheet of its own."""
_SEEN = {
    ("reducer", "outside"): "from the reduction box",
    ("reducer", "inside"): "from the gears",
    ("trough", "inside"): "from the gears",
    ("trough", "outside"): "from the trough",
}


def _tables(
    spec: Spec, chart: holes.Chart, shop: Workshop | None, words: Words
) -> tuple[Table, ...]:
    """Holes and distances; on the face that is bored, also what the mill's error does to the backlash."""
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
        if not _is_screw(hole)
    ]
    apart = tuple((what, words.size(length), "") for what, length in chart.distances)
    here = ("x from the left here",) if chart.mirrored else ()
    heads = ("", "Hole", "x", "y", *here, "Limits", "Made by", "As made")
    tables: list[Table] = [
        ("Holes, from the marked edges", heads, tuple(rows)),
        ("Between bores", ("What", "Distance", "As made"), apart),
    ]
    if not chart.mirrored:
        band = tuple(
            (mesh, *(words.size(size, 3) if np.isfinite(size) else "no mesh" for size in sizes))
            for mesh, *sizes in holes.backlash_band(spec, shop)
        )
        whose = "the mill's" if shop else "a usual mill's"
        tables.append((f"Backlash with {whose} error", ("Mesh", "Least", "Drawn", "Most"), band))
    return tuple(tables)


def _is_screw(hole: holes.Hole) -> bool:
    """Whether a hole is one of the many of the retaining plates."""
    return hole.name.startswith("screw")


def _notes(spec: Spec, chart: holes.Chart, shop: Workshop | None, words: Words) -> tuple[str, ...]:
    """What to know before the first hole."""
    notes = [f"{chart.from_edge[0].upper()}{chart.from_edge[1:]}."]
    if not any(hole.name == "idler pin" for hole, _ in chart.rows):
        notes.insert(
            0,
            "The idler's pin has no place: its gears do not reach each other at this distance of the shafts. Do not bore this plate.",
        )
    takes_push = _PLATES[spec.bearings.locating - 1] == chart.plate.which
    # once, where the sheet has room
    if chart.mirrored and takes_push and spec.bearings.kind == "rolling":
        notes.append(
            "Retaining plates on both faces hold each outer ring, which takes the push along its shaft; their sheet has the screws' holes."
        )
    if not chart.mirrored:
        notes += [
            f"{what[0].upper()}{what[1:]}: {cost}."
            for what, cost in holes.setups(spec, shop, words.system)
        ]
    bolt = tapping.tapped_hole(spec.housing.tie_bolt, shop, system=words.system)
    notes.append(
        f"Tie bolts {spec.housing.tie_bolt} pass through {words.size(bolt.clearance)} holes; dowels stand on one diagonal, so that a plate put on the wrong way does not go on."
    )
    return tuple(notes)


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
        if _is_screw(hole):
            continue
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
    drawn.words(chart.plate.width / 2, 0, f"scale {ratio(scale)}", size=2.6, shift=(0, -8))
    return drawn.svg(f"plate at the {chart.plate.which}, {chart.face}")
