"""Shop sheets: one side of paper for each part or operation, with the numbers to set and room to write."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from datetime import date
from pathlib import Path

from jinja2 import Environment, PackageLoader, StrictUndefined
from markupsafe import Markup

from mixerkit.design import Design
from mixerkit.machine import Machine
from mixerkit.shop import flatpattern, holes, indexing, parts_list
from mixerkit.shop.blanks import gear_blank, gears
from mixerkit.shop.head_setting import exact_settings
from mixerkit.shop.workshop import Workshop
from mixerkit.show.clutch_sheets import bushes, clutch
from mixerkit.show.gear_sheets import gear
from mixerkit.show.hanging import NONE, Known, hanging
from mixerkit.show.list_sheets import assembly, bills, cut_list, order
from mixerkit.show.plate_sheets import plate
from mixerkit.show.retainer_sheets import retaining_plates
from mixerkit.show.shaft_sheets import shaft
from mixerkit.show.sheet import Sheet, Words
from mixerkit.show.stamp import STOP, stamp_of
from mixerkit.units import InputError
from mixerkit.written import write_all

__all__ = ["PAPERS", "ready_sheets", "sheets", "sheets_html", "write_files", "write_sheets"]

PAPERS = {"a4": ("A4", 210.0, 297.0), "letter": ("letter", 215.9, 279.4)}
"""Name for CSS, width and height in mm."""
_ENVIRONMENT = Environment(
    loader=PackageLoader("mixerkit.show", "templates"),
    autoescape=True,
    undefined=StrictUndefined,
    trim_blocks=True,
    lstrip_blocks=True,
)


def sheets(design: Design, shop: Workshop | None, known: Known = NONE) -> list[Sheet]:
    """Make every sheet of a design, in the order of work.

    Parameters
    ----------
    design : Design
    shop : Workshop, or None
    known : mapping
        Facts that were measured since, see :func:`mixerkit.show.hanging.hanging`.

    Returns
    -------
    list of Sheet
    """
    made = _sheets(design, shop)
    words = hanging(design, lambda one: _sheets(one, shop), known)
    return [replace(one, hangs=words.get(one.title, "")) for one in made]


def _sheets(design: Design, shop: Workshop | None) -> list[Sheet]:
    words = Words(design.show_units)
    spec = design
    return [
        order(spec, shop, words),
        cut_list(spec, shop, words),
        *(plate(spec, which, face, shop, words) for which, face in holes.FACES),
        *retaining_plates(spec, shop, words),
        *(gear(spec, name, shop, words) for name in gears(spec)),
        *(shaft(spec, number, shop, words) for number in (1, 2)),
        clutch(spec, words),
        bushes(spec, words),
        *bills(spec, shop, words),
        assembly(spec, words),
    ]


def sheets_html(
    design: Design,
    shop: Workshop | None,
    paper: str = "a4",
    on: date | None = None,
    found: Machine | None = None,
    known: Known = NONE,
) -> str:
    """Write every sheet as one HTML page that prints one side each.

    Parameters
    ----------
    design : Design
    shop : Workshop, or None
    paper : str
        A key of :data:`PAPERS`.
    on : datetime.date, optional
        Date on the sheets; see :func:`mixerkit.show.stamp.day_of`.
    found : Machine, optional
        Of the design, where it has been assessed already; a sheet of one that fails is stamped.
    known : mapping
        As for :func:`sheets`.

    Returns
    -------
    str

    Raises
    ------
    InputError
        If the paper is not known.
    """
    return _pages(found or Machine(design), shop, (paper,), known, on)[0]


def _pages(
    found: Machine,
    shop: Workshop | None,
    papers: Sequence[str],
    known: Known,
    on: date | None = None,
) -> list[str]:
    """The page of each paper; the sheets, which are the same on all of them, are drawn once."""
    for paper in papers:
        if paper not in PAPERS:
            raise InputError(f'paper: "{paper}" is none of {", ".join(PAPERS)}; for example a4.')
    stamp, ready = stamp_of(found, shop, on=on), ready_sheets(found.design, shop, known)
    return [
        _ENVIRONMENT.get_template("sheets.html").render(
            design=found.design,
            stamp=stamp,
            stop=STOP,
            paper=name,
            wide=wide,
            high=high,
            sheets=ready,
        )
        for name, wide, high in (PAPERS[paper] for paper in papers)
    ]


def ready_sheets(
    design: Design, shop: Workshop | None, known: Known = NONE
) -> list[dict[str, object]]:
    """Sheets as a template takes them, their drawings marked as safe: they are made here."""
    return [
        {**vars(one), "drawing": Markup(one.drawing)}  # noqa: S704  our own SVG
        for one in sheets(design, shop, known)
    ]


def write_sheets(
    design: Design,
    shop: Workshop | None,
    folder: Path,
    paper: str = "a4",
    *more: str,
    found: Machine | None = None,
    known: Known = NONE,
) -> list[Path]:
    """Write the sheets and all files for cutting and checking into a folder, all or nothing.

    Parameters
    ----------
    design : Design
    shop : Workshop, or None
    folder : pathlib.Path
        Made if it is not there.
    paper, *more : str
        Keys of :data:`PAPERS`; the sheets are written once for each.
    found : Machine, optional
    known : mapping
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
    papers = (paper, *more)
    made = _pages(found, shop, papers, known)
    pages = {f"sheets_{one}.html": page for one, page in zip(papers, made, strict=True)}
    return write_all(folder, {**pages, **_files(design, shop, found)})


def write_files(
    design: Design, shop: Workshop | None, folder: Path, found: Machine | None = None
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


def _files(design: Design, shop: Workshop | None, found: Machine) -> dict[str, str]:
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
        exact = exact_settings(one.count, shop)
        if shop and exact:
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
