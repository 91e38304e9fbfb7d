"""Files for cutting and checking: DXF of plates and gears, SVG of gear outlines, CSV of charts."""

from __future__ import annotations

import csv
import io
import re
from collections.abc import Iterable, Iterator, Sequence
from contextlib import contextmanager
from functools import lru_cache
from html import escape
from typing import TYPE_CHECKING

import numpy as np

from mixerkit.frozen import result
from mixerkit.parts.outline import gear_outline
from mixerkit.shop.blanks import Blank, gear_blank
from mixerkit.shop.holes import Plate, plate
from mixerkit.shop.welding import left_for_truing
from mixerkit.shop.workshop import Plasma, Workshop
from mixerkit.spec import Spec
from mixerkit.tables import table
from mixerkit.units import visible

if TYPE_CHECKING:
    from ezdxf.document import Drawing
    from ezdxf.layouts.layout import Modelspace

__all__ = ["as_csv", "gear_dxf", "gear_svg", "plate_dxf", "sheet_needed"]

LAYERS = {
    "finished edge": 7,
    "edge as cut": 5,
    "torch path": 1,
    "holes": 3,
    "centre marks": 8,
    "words": 2,
}
"""Layers of the DXF files, plainly named, with their colour numbers."""


STOPPED = "do not cut"
"""Layer that only the drawings of a design that fails have."""


@contextmanager
def _same_each_time() -> Iterator[None]:
    """Keep the hour and fresh identity numbers out of a file, so that the same design gives the same one."""
    import ezdxf  # here, because only writing files needs it

    options = ezdxf.options  # type: ignore[attr-defined]  # public, but not named as exported
    before = options.write_fixed_meta_data_for_testing
    options.write_fixed_meta_data_for_testing = True
    try:
        yield
    finally:
        options.write_fixed_meta_data_for_testing = before


def _drawing() -> tuple[Drawing, Modelspace]:
    from ezdxf.filemanagement import new

    with _same_each_time():
        drawing = new("R2010", setup=True)
    drawing.header["$INSUNITS"] = 4  # millimetres: DXF reference, header variables
    drawing.header["$MEASUREMENT"] = 1
    for name, colour in LAYERS.items():
        drawing.layers.add(name, color=colour)
    return drawing, drawing.modelspace()


def _text_of(drawing: Drawing) -> str:
    stream = io.StringIO()
    # the library adds these in the order of a set, which is another one in another process
    listed = drawing.classes
    listed.add_required_classes(drawing.dxfversion)
    listed.classes = dict(sorted(listed.classes.items(), key=lambda one: str(one[0])))
    with _same_each_time():
        drawing.write(stream)
    return stream.getvalue()


def _box(
    space: Modelspace, low: tuple[float, float], high: tuple[float, float], layer: str
) -> None:
    corners = [low, (high[0], low[1]), high, (low[0], high[1])]
    space.add_lwpolyline(corners, close=True, dxfattribs={"layer": layer})


def _stop(drawing: Drawing, stop: Sequence[str], at: tuple[float, float]) -> None:
    """Write upwards from a place why nothing may be cut, on a layer of its own."""
    if not stop:
        return
    drawing.layers.add(STOPPED, color=1)
    space, (x, y) = drawing.modelspace(), at
    for k, line in enumerate(reversed(stop)):
        height = 14 if k == len(stop) - 1 else 5
        space.add_text(line, height=height, dxfattribs={"layer": STOPPED}).set_placement((x, y))
        y += 8


def plate_dxf(spec: Spec, which: str, shop: Workshop | None, stop: Sequence[str] = ()) -> str:
    """Write one gear plate as DXF in millimetres, as seen from the reduction box.

    The corner of the two marked edges, finished, is the origin. The torch path lies half a cut width
    outside the edge as cut, and the edge as cut leaves stock to mill away; bores are cut small by as
    much.

    Parameters
    ----------
    spec : Spec
    which : str
        ``"reducer"`` or ``"trough"``.
    shop : Workshop, or None
    stop : sequence of str
        Why nothing may be cut yet, a line each; written on a layer of their own.

    Returns
    -------
    str
    """
    one, torch = plate(spec, which), _torch(shop)
    drawing, space = _drawing()
    left, path = torch.left_on, torch.left_on + torch.cut_width / 2
    _box(space, (0, 0), (one.width, one.height), "finished edge")
    # a torch whose width of cut nobody stated has no path
    if shop is not None:
        _box(space, (-left, -left), (one.width + left, one.height + left), "edge as cut")
        _box(space, (-path, -path), (one.width + path, one.height + path), "torch path")
    for hole in one.holes:
        centre, radius = (hole.x, hole.y), hole.diameter / 2
        space.add_circle(centre, radius, dxfattribs={"layer": "holes"})
        for reach in ((radius + 3, 0), (0, radius + 3)):
            space.add_line(
                (hole.x - reach[0], hole.y - reach[1]),
                (hole.x + reach[0], hole.y + reach[1]),
                dxfattribs={"layer": "centre marks"},
            )
        # a small hole is drilled: a torch hardens and bells it
        if hole.diameter > 2 * one.thickness and shop is not None:
            space.add_circle(centre, radius - path, dxfattribs={"layer": "torch path"})
        space.add_text(hole.name, height=4, dxfattribs={"layer": "words"}).set_placement(
            (hole.x + radius + 4, hole.y + 2)
        )
    space.add_text(
        f"plate at the {which}, seen from the reduction box, {one.thickness:g} mm",
        height=6,
        dxfattribs={"layer": "words"},
    ).set_placement((4, -14))
    _stop(drawing, stop, (0, one.height + path + 8))
    return _text_of(drawing)


def gear_dxf(spec: Spec, name: str, shop: Workshop | None, stop: Sequence[str] = ()) -> str:
    """Write one gear as DXF in millimetres: true outline, bore, blank and pitch circle.

    Parameters
    ----------
    spec : Spec
    name : str
        A key of :data:`mixerkit.shop.blanks.GEARS`.
    shop : Workshop, or None
    stop : sequence of str
        As for :func:`plate_dxf`.

    Returns
    -------
    str
    """
    one = gear_blank(spec, name, shop)
    drawing, space = _drawing()
    space.add_lwpolyline(_outline(one), close=True, dxfattribs={"layer": "finished edge"})
    space.add_circle((0, 0), one.bore[0] / 2, dxfattribs={"layer": "holes"})
    space.add_circle((0, 0), one.outside[0] / 2, dxfattribs={"layer": "edge as cut"})
    space.add_circle((0, 0), one.module * one.count / 2, dxfattribs={"layer": "centre marks"})
    space.add_text(
        f"{one.words}: {one.count} teeth", height=4, dxfattribs={"layer": "words"}
    ).set_placement((one.outside[0] / 2 + 5, 0))
    _stop(drawing, stop, (-one.outside[0] / 2, one.outside[0] / 2 + 8))
    return _text_of(drawing)


def _outline(one: Blank) -> np.ndarray:
    return gear_outline(one.module, one.count, one.shift, thinning=one.thinning)


def gear_svg(spec: Spec, name: str, shop: Workshop | None, stop: Sequence[str] = ()) -> str:
    """Write one gear's true outline as SVG at full size, in millimetres.

    Parameters
    ----------
    plain, name, shop, stop
        As for :func:`gear_dxf`; the lines stand above the gear.

    Returns
    -------
    str
    """
    one = gear_blank(spec, name, shop)
    half = one.outside[0] / 2 + 2
    points = " ".join(f"{x:.4f},{-y:.4f}" for x, y in _outline(one))
    # sized by the gear and the longest line, taking a letter as 0.62 and a capital as 0.8 of its height
    large = 2 * half / (0.8 * len(stop[0]) if stop else 1)
    small = min(large / 3, 2 * half / (0.62 * max(map(len, stop), default=1) + 2))
    above = 1.3 * large + 1.5 * small * len(stop) if stop else 0.0
    lines = "".join(
        f'<text x="{-half + small:.4f}" y="{-half - above + large + 1.5 * small * k:.4f}" font-family="sans-serif" '
        f'font-size="{small if k else large:.4f}" font-weight="{400 if k else 700}">{escape(line)}</text>\n'
        for k, line in enumerate(stop)
    )
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" width="{2 * half:.3f}mm" height="{2 * half + above:.3f}mm" '
        f'viewBox="{-half:.4f} {-half - above:.4f} {2 * half:.4f} {2 * half + above:.4f}">\n'
        f"<title>{one.words}: {one.count} teeth, module {one.module:g} mm</title>\n"
        f'<polygon points="{points}" fill="none" stroke="black" stroke-width="0.2"/>\n'
        f'<circle r="{one.bore[0] / 2:.4f}" fill="none" stroke="black" stroke-width="0.2"/>\n'
        f"{lines}</svg>\n"
    )


def as_csv(heads: Sequence[str], rows: Iterable[Sequence[object]], stop: Sequence[str] = ()) -> str:
    """Write rows as CSV in which no text is taken for a formula.

    Parameters
    ----------
    heads : sequence of str
    rows : iterable of sequences
        A text that a spreadsheet would work out gets an apostrophe before it; numbers stay.
    stop : sequence of str
        Why nothing may be cut yet: written above the rest, in one cell a line.

    Returns
    -------
    str

    Examples
    --------
    >>> print(as_csv(["part", "x"], [["=1+1", -3.5], ["-3.5", "@home"]]))
    part,x
    '=1+1,-3.5
    -3.5,'@home
    """
    stream = io.StringIO()
    writer = csv.writer(stream, lineterminator="\n")
    lines = [*([line] for line in stop), heads, *rows]
    writer.writerows([_as_text(cell) for cell in row] for row in lines)
    return stream.getvalue()


def _as_text(cell: object) -> object:
    """A cell that a spreadsheet takes for what it is: with these in front it would reckon."""
    if not isinstance(cell, str):
        return cell
    # a tab or a return in front starts a formula too
    cell = visible(cell)
    if not cell.startswith(("=", "+", "-", "@")):
        return cell
    return cell if re.fullmatch(r"[-+]?\d+(\.\d*)?(e[-+]?\d+)?", cell) else f"'{cell}"


MILLED = 2.0
"""To be milled off each edge of a plate that is sawn, in mm (common practice)."""


def _torch(shop: Workshop | None) -> Plasma:
    """The shop's plasma cutter; what a usual one takes, where there is no shop file."""
    return shop.plasma if shop else _usual_torch()


@lru_cache(maxsize=1)
def _usual_torch() -> Plasma:
    return Plasma.from_table({})


@result
class SheetNeeded:
    """Plate that both gear plates come out of."""

    width: float
    height: float
    thickness: float
    area: float
    mass: float


def sheet_needed(spec: Spec, shop: Workshop | None, drawn: Plate | None = None) -> SheetNeeded:
    """Plate to buy for both gear plates, side by side.

    Parameters
    ----------
    spec : Spec
    shop : Workshop, or None
    drawn : Plate, optional
        The plate at the reducer, where it is drawn already.

    Returns
    -------
    SheetNeeded
        ``width``, ``height``, ``thickness`` in mm (infinite if no plate in stock is thick enough once
        trued; the least that would do where there is no shop file), ``area`` in m^2, ``mass`` in kg as bought; of the least that would do where none is in stock.
    """
    one, torch = drawn or plate(spec, "reducer"), _torch(shop)
    spare = 2 * (torch.left_on + torch.cut_width)
    width, height = 2 * (one.width + spare) + 10, one.height + spare + 10
    least = one.thickness + left_for_truing(spec)
    sizes = [size for size in shop.stock.plates if size >= least] if shop else [least]
    thick = min(sizes, default=np.inf)
    density = table("materials").find(one.material).values["density"]
    return SheetNeeded(
        width=width,
        height=height,
        thickness=thick,
        area=width * height * 1e-6,
        mass=float(width * height * (thick if np.isfinite(thick) else least) * 1e-9 * density),
    )
