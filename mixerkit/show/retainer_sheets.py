"""The sheet of the plates that hold the outer rings of the locating bearings."""

from __future__ import annotations

from mixerkit.parts.frame_layout import plate_size
from mixerkit.parts.retainers import Retainer, retainer
from mixerkit.shop.retainer_parts import screw_length
from mixerkit.shop.workshop import Workshop
from mixerkit.show.drawing import Drawing, scale_for
from mixerkit.show.sheet import Sheet, Table, Words, ratio
from mixerkit.spec import Spec
from mixerkit.tables import table

__all__ = ["retaining_plates"]


def retaining_plates(spec: Spec, shop: Workshop | None, words: Words) -> list[Sheet]:
    """Write the sheet of both retaining plates, none where bushes or insert bearings locate."""
    one = retainer(spec)
    if one is None:
        return []
    drill = _drill(one)
    has_tap = "" if shop is None or one.screw in shop.holes.taps else " - NO SUCH TAP ON THE SHELF"
    return [
        Sheet(
            "Retaining plates, inner and outer",
            f"{spec.housing.plate_material}, {words.size(one.thickness)} thick; seen from the reduction box",
            _drawing(one, words),
            (
                ("Inner plate", f"drill {words.size(drill)}, tap {one.screw}{has_tap}"),
                ("Outer plate", f"drill {words.size(one.hole)}"),
            ),
            _tables(spec, one, words),
            (),
            (
                "Of two sizes of a screw's hole the first is tapped in the inner plate, the second drilled in the outer one.",
                f"Screws {one.screw} x {words.size(screw_length(one))} go through the bored plate, {words.size(one.hole)} there too: drill all three clamped together, tap the inner one after.",
                (
                    "With bearings in, measure what is left between outer ring and plate; face or shim the distance rings to "
                    f"0 to {words.size(0.05)} of play in all."
                ),
                "The inner plate goes over both shafts before their bearings do: it cannot be put in later.",
            ),
            dense=True,
        )
    ]


def _drill(one: Retainer) -> float:
    return float(table("threads").find(one.screw).values["tapping_drill"])


def _tables(spec: Spec, one: Retainer, words: Words) -> tuple[Table, ...]:
    """Holes of both plates and of the bored one between them, and the distance rings."""
    left, low, apart = one.reach[0], one.size[1] / 2, one.size[0] - sum(one.reach)
    both = f"{words.size(_drill(one))}, {words.size(one.hole)}"
    off, up = spec.housing.wall_distance - left, plate_size(spec)[1] / 2 - low
    rows = [
        ("opening of shaft 1", left, low, words.size(one.openings[0])),
        ("opening of shaft 2", left + apart, low, words.size(one.openings[1])),
        *((f"screw {k}", left + x, low + y, both) for k, (x, y) in enumerate(one.screws, 1)),
    ]
    if one.notch:
        x, y, radius = one.notch
        rows.append(("notch, inner plate only", left + x, low + y, f"radius {words.size(radius)}"))
    holes = tuple(
        (what, words.size(x), words.size(y), size, words.size(x + off), words.size(y + up), "")
        for what, x, y, size in rows
    )
    heads = ("Hole", "x", "y", "Size", "x, bored plate", "y, bored plate", "As made")
    found: list[Table] = [
        ("From the lower left corner, and from the bored plate's marked edges", heads, holes)
    ]
    if one.has_rings:
        rings = tuple(
            (f"shaft {k}, 2", words.size(outer), words.size(inner), words.size(thick, 3), "")
            for k, (outer, inner, thick) in enumerate(one.rings, 1)
        )
        found.append(("Distance rings", ("Round", "Outside", "Inside", "About", "As made"), rings))
    return tuple(found)


def _drawing(one: Retainer, words: Words) -> str:
    wide, high = one.size
    scale = scale_for(wide, high, (140, 60))
    drawn = Drawing((0, 0), (wide, high), scale, 14)
    drawn.box((0, 0), (wide, high))
    left, low = one.reach[0], high / 2
    apart = wide - sum(one.reach)
    for k, size in enumerate(one.openings):
        drawn.circle(left + apart * k, low, size / 2)
        drawn.cross(left + apart * k, low, size / 2 + 4)
    for k, (x, y) in enumerate(one.screws, 1):
        drawn.circle(left + x, low + y, one.hole / 2)
        drawn.words(left + x, low + y, str(k), size=2.6, shift=(0, one.hole / 2 * scale + 2))
    if one.notch:
        x, y, radius = one.notch
        drawn.circle(left + x, low + y, radius, dash="2 1")
    drawn.size((0, high), (wide, high), words.bare(wide), 7)
    drawn.size((wide, high), (wide, 0), words.bare(high), 7)
    drawn.words(wide / 2, 0, f"scale {ratio(scale)}; dashed: notch", size=2.6, shift=(0, -5))
    return drawn.svg("retaining plates")
