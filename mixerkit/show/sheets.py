"""All shop sheets and files of a design: one side of paper for each part or operation, and what a cutter reads."""

from __future__ import annotations

from datetime import date
from pathlib import Path

from jinja2 import Environment, PackageLoader, StrictUndefined
from markupsafe import Markup

from mixerkit.design import Design
from mixerkit.machine import Machine
from mixerkit.shop import flatpattern, holes, indexing, parts_list
from mixerkit.shop.blanks import GEARS, gears
from mixerkit.shop.workshop import Workshop
from mixerkit.show.gearsheets import gear_sheet
from mixerkit.show.listsheets import assembly_sheet, bill_sheet, cut_list_sheet, order_sheet
from mixerkit.show.platesheets import plate_sheet
from mixerkit.show.shaftsheets import bush_sheet, clutch_sheet, shaft_sheet
from mixerkit.show.sheet import Sheet, Words
from mixerkit.show.stamp import STOP, stamp_of
from mixerkit.units import InputError
from mixerkit.written import write_all

__all__ = [
    "PAPERS",
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
    return [
        order_sheet(design, words),
        cut_list_sheet(design, shop, words),
        *(plate_sheet(design, which, face, shop, words) for which, face in holes.FACES),
        *(gear_sheet(design, name, shop, words) for name in gears(design)),
        *(shaft_sheet(design, number, shop, words) for number in (1, 2)),
        clutch_sheet(design, words),
        bush_sheet(design, words),
        bill_sheet(design, shop, words),
        assembly_sheet(design, words),
    ]


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
    stop = stamp_of(found, shop).stop
    made: dict[str, str] = {}
    for which in holes.PLATES:
        made[f"plate_{which}.dxf"] = flatpattern.plate_dxf(design, which, shop, stop)
        made[f"holes_{which}.csv"] = _hole_file(design, which, shop, stop)
    for name in gears(design):
        made[f"gear_{name}.dxf"] = flatpattern.gear_dxf(design, name, shop, stop)
        made[f"gear_{name}.svg"] = flatpattern.gear_svg(design, name, shop, stop)
        path, place = GEARS[name]
        count = getattr(design.paths, path).tooth_counts[place]
        exact = indexing.settings(count, shop.dividing_ratio, shop.plates)
        if exact:
            rows = indexing.running_list(count, shop.dividing_ratio, exact[0])
            made[f"indexing_{name}.csv"] = flatpattern.as_csv(
                ("tooth", "turns", "hole", "angle, deg"),
                [(*row[:3], f"{row[3]:.6f}") for row in rows],
                stop,
            )
    made["bill_of_materials.csv"] = flatpattern.as_csv(
        ("count", "part", "material", "as bought or sawn", "mass of one, kg"),
        [
            (one.count, one.name, one.material, one.size, f"{one.mass:.4f}")
            for one in parts_list.parts(design, shop, design.show_units)
        ],
        stop,
    )
    return made


def _hole_file(design: Design, which: str, shop: Workshop, stop: tuple[str, ...]) -> str:
    """Every hole of a plate with its place and limits in mm."""
    heads = (
        "hole",
        "x from the edge beside shaft 1, mm",
        "y from the bottom edge, mm",
        "least diameter, mm",
        "most diameter, mm",
        "made by",
    )
    rows = [
        (
            hole.name,
            *(f"{size:.4f}" for size in (hole.x, hole.y, *hole.limits)),
            holes.how_made(hole, shop),
        )
        for hole in holes.plate(design, which).holes
    ]
    return flatpattern.as_csv(heads, rows, stop)
