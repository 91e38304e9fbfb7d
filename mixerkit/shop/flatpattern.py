"""Files for cutting and checking: DXF of plates and gears, SVG of gear outlines, CSV of charts."""

from __future__ import annotations

import csv
import io
import re
from collections.abc import Iterable, Sequence
from types import SimpleNamespace
from typing import Any

import numpy as np

from mixerkit.parts.outline import gear_outline
from mixerkit.shop.blanks import gear_blank
from mixerkit.shop.holes import plate
from mixerkit.shop.workshop import Workshop
from mixerkit.units import visible

__all__ = ["as_csv", "gear_dxf", "gear_svg", "plate_dxf", "sheet_needed"]

LAYERS = {"finished edge": 7, "edge as cut": 5, "torch path": 1, "holes": 3, "centre marks": 8, "words": 2}  # fmt: skip
"""Layers of the DXF files, plainly named, with their colour numbers."""


def _drawing() -> tuple[Any, Any]:
    import ezdxf  # here, because only writing files needs it

    drawing = ezdxf.new("R2010", setup=True)
    drawing.header["$INSUNITS"] = 4  # millimetres: DXF reference, header variables
    drawing.header["$MEASUREMENT"] = 1
    for name, colour in LAYERS.items():
        drawing.layers.add(name, color=colour)
    return drawing, drawing.modelspace()


def _text_of(drawing: Any) -> str:
    stream = io.StringIO()
    drawing.write(stream)
    return stream.getvalue()


def _box(space: Any, low: tuple[float, float], high: tuple[float, float], layer: str) -> None:
    corners = [low, (high[0], low[1]), high, (low[0], high[1])]
    space.add_lwpolyline(corners, close=True, dxfattribs={"layer": layer})


def plate_dxf(plain: SimpleNamespace, which: str, shop: Workshop) -> str:
    """Write one gear plate as DXF in millimetres, as seen from the reduction box.

    The corner of the two marked edges, finished, is the origin. The torch path lies half a cut width
    outside the edge as cut, and the edge as cut leaves stock to mill away; bores are cut small by as
    much.

    Parameters
    ----------
    plain : SimpleNamespace
        The design in plain numbers.
    which : str
        ``"reducer"`` or ``"trough"``.
    shop : Workshop

    Returns
    -------
    str
    """
    one, torch = plate(plain, which), shop.plasma.plain
    drawing, space = _drawing()
    left, path = torch.left_on, torch.left_on + torch.cut_width / 2
    _box(space, (0, 0), (one.width, one.height), "finished edge")
    _box(space, (-left, -left), (one.width + left, one.height + left), "edge as cut")
    _box(space, (-path, -path), (one.width + path, one.height + path), "torch path")
    for hole in one.holes:
        centre, radius = (hole.x, hole.y), hole.diameter / 2
        space.add_circle(centre, radius, dxfattribs={"layer": "holes"})
        for reach in ((radius + 3, 0), (0, radius + 3)):
            space.add_line(
                (hole.x - reach[0], hole.y - reach[1]), (hole.x + reach[0], hole.y + reach[1]), dxfattribs={"layer": "centre marks"}
            )  # fmt: skip
        # a small hole is drilled: a torch hardens and bells it
        if hole.diameter > 2 * one.thickness:
            space.add_circle(centre, radius - path, dxfattribs={"layer": "torch path"})
        space.add_text(hole.name, height=4, dxfattribs={"layer": "words"}).set_placement(
            (hole.x + radius + 4, hole.y + 2)
        )
    space.add_text(
        f"plate at the {which}, seen from the reduction box, {one.thickness:g} mm", height=6, dxfattribs={"layer": "words"}
    ).set_placement((4, -14))  # fmt: skip
    return _text_of(drawing)


def gear_dxf(plain: SimpleNamespace, name: str, shop: Workshop) -> str:
    """Write one gear as DXF in millimetres: true outline, bore, blank and pitch circle.

    Parameters
    ----------
    plain : SimpleNamespace
    name : str
        A key of :data:`mixerkit.shop.blanks.GEARS`.
    shop : Workshop

    Returns
    -------
    str
    """
    one = gear_blank(plain, name, shop)
    drawing, space = _drawing()
    space.add_lwpolyline(_outline(one), close=True, dxfattribs={"layer": "finished edge"})
    space.add_circle((0, 0), one.bore[0] / 2, dxfattribs={"layer": "holes"})
    space.add_circle((0, 0), one.outside[0] / 2, dxfattribs={"layer": "edge as cut"})
    space.add_circle((0, 0), one.module * one.count / 2, dxfattribs={"layer": "centre marks"})
    space.add_text(f"{one.words}: {one.count} teeth", height=4, dxfattribs={"layer": "words"}).set_placement((one.outside[0] / 2 + 5, 0))  # fmt: skip
    return _text_of(drawing)


def _outline(one: SimpleNamespace) -> np.ndarray:
    return gear_outline(one.module, one.count, one.shift, thinning=one.thinning)


def gear_svg(plain: SimpleNamespace, name: str, shop: Workshop) -> str:
    """Write one gear's true outline as SVG at full size, in millimetres.

    Parameters
    ----------
    plain, name, shop
        As for :func:`gear_dxf`.

    Returns
    -------
    str
    """
    one = gear_blank(plain, name, shop)
    half = one.outside[0] / 2 + 2
    points = " ".join(f"{x:.4f},{-y:.4f}" for x, y in _outline(one))
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" width="{2 * half:.3f}mm" height="{2 * half:.3f}mm" '
        f'viewBox="{-half:.4f} {-half:.4f} {2 * half:.4f} {2 * half:.4f}">\n'
        f"<title>{one.words}: {one.count} teeth, module {one.module:g} mm</title>\n"
        f'<polygon points="{points}" fill="none" stroke="black" stroke-width="0.2"/>\n'
        f'<circle r="{one.bore[0] / 2:.4f}" fill="none" stroke="black" stroke-width="0.2"/>\n</svg>\n'
    )


def as_csv(heads: Sequence[str], rows: Iterable[Sequence[Any]]) -> str:
    """Write rows as CSV in which no text is taken for a formula.

    Parameters
    ----------
    heads : sequence of str
    rows : iterable of sequences
        A text that a spreadsheet would work out gets an apostrophe before it; numbers stay.

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
    writer.writerows([_as_text(cell) for cell in row] for row in (heads, *rows))
    return stream.getvalue()


def _as_text(cell: Any) -> Any:
    """A cell that a spreadsheet takes for what it is: with these in front it would reckon."""
    if not isinstance(cell, str):
        return cell
    # a tab or a return in front starts a formula too
    cell = visible(cell)
    if not cell.startswith(("=", "+", "-", "@")):
        return cell
    return cell if re.fullmatch(r"[-+]?\d+(\.\d*)?(e[-+]?\d+)?", cell) else f"'{cell}"


def sheet_needed(plain: SimpleNamespace, shop: Workshop) -> SimpleNamespace:
    """Plate to buy for both gear plates, side by side.

    Parameters
    ----------
    plain : SimpleNamespace
    shop : Workshop

    Returns
    -------
    SimpleNamespace
        ``width``, ``height``, ``thickness`` in mm (infinite if no plate in stock is thick enough once
        milled), ``area`` in m^2, ``mass`` in kg as bought.
    """
    one, torch = plate(plain, "reducer"), shop.plasma.plain
    spare = 2 * (torch.left_on + torch.cut_width)
    width, height = 2 * (one.width + spare) + 10, one.height + spare + 10
    sizes = [size for size in shop.stock.plain.plates if size >= one.thickness]
    thick = min(sizes, default=np.inf)
    density = one.mass / (one.width * one.height * one.thickness * 1e-9)
    return SimpleNamespace(
        width=width, height=height, thickness=thick, area=width * height * 1e-6,
        mass=float(width * height * min(thick, one.thickness * 2) * 1e-9 * density),
    )  # fmt: skip
