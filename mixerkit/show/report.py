"""The design report: one HTML page that carries everything with it and needs no network."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from datetime import date
from pathlib import Path
from typing import Any

from jinja2 import Environment, PackageLoader, StrictUndefined
from markupsafe import Markup

from mixerkit.drive import guarding
from mixerkit.explore import search
from mixerkit.explore.flips import flips
from mixerkit.explore.mend import mend
from mixerkit.machine import Machine
from mixerkit.shop.workshop import Workshop
from mixerkit.show import (
    bodyplots,
    clutchplots,
    driveplots,
    gearplots,
    hubplots,
    jamplots,
    loadplots,
    plots,
    reportrows,
    shaftplots,
    troughplots,
)
from mixerkit.show.answer import mends_html
from mixerkit.show.assumptions import flips_rows, rests_text
from mixerkit.show.cautions import cautions
from mixerkit.show.hanging import NONE, Known
from mixerkit.show.marks import MARKS, spare_text
from mixerkit.show.sheets import ready_sheets
from mixerkit.show.stamp import STOP, stamp_of
from mixerkit.show.style import as_png, as_svg
from mixerkit.units import show
from mixerkit.written import write_all

__all__ = [
    "PAGE_PICTURES",
    "report_html",
    "write_report",
]

Progress = Callable[[str], None]
_ENVIRONMENT = Environment(
    loader=PackageLoader("mixerkit.show", "templates"),
    autoescape=True,
    undefined=StrictUndefined,
    trim_blocks=True,
    lstrip_blocks=True,
)


def report_html(
    machine: Machine,
    on: date | None = None,
    shop: Workshop | None = None,
    progress: Progress = lambda _words: None,
    told: Sequence[str] = (),
    known: Known = NONE,
) -> str:
    """Write the report of a machine as one HTML page, the shop sheets as its appendix.

    Parameters
    ----------
    machine : Machine
    on : datetime.date, optional
        Date on the page; see :func:`mixerkit.show.stamp.day_of`.
    shop : Workshop, optional
        None where there is no shop file: then nothing is held against one.
    progress : callable
        Told in words what is being done.
    told : sequence of str
        What is said of shop and sizes as made, below the stamp.
    known : mapping
        Facts that were measured since, see :func:`mixerkit.show.hanging.hanging`.

    Returns
    -------
    str
    """
    design = machine.design
    # first, so that a day that does not fit is said before anything is drawn
    stamp = stamp_of(machine, shop, on=on)
    makers, pictures = _pictures(machine), []
    for number, words in enumerate(PAGE_PICTURES, 1):
        progress(f"drawing {number} of {len(PAGE_PICTURES)}: {words.lower()}")
        pictures.append((words, Markup(as_svg(makers[words]()))))  # noqa: S704  our own SVG
    mends = ""
    if machine.verdict == "fails":
        progress("trying what mends it")
        mends = mends_html(machine, mend(machine))
    progress("trying motors")
    motors = search.motors(design)
    progress("making shop sheets")
    return _ENVIRONMENT.get_template("report.html").render(
        **_tables(machine, known),
        design=design,
        stamp=stamp,
        stop=STOP,
        told=told,
        verdict=machine.verdict,
        mark=MARKS[machine.verdict],
        weakest=machine.weakest,
        weakest_spare=spare_text(machine.weakest.spare),
        mends=Markup(mends),  # noqa: S704  escaped where made
        pictures=pictures,
        motors=motors,
        show=show,
        spare_text=spare_text,
        cautions=cautions(design),
        sheets=ready_sheets(design, shop, known),
    )


def _tables(machine: Machine, known: Known) -> dict[str, object]:
    """What stands in the page's tables, by its name there."""
    design, flipping = machine.design, flips(machine, known)
    return {
        "rests": rests_text(machine, flipping, known),
        "flips": flips_rows(machine, flipping),
        "counts": {
            verdict: sum(one.verdict == verdict for one in machine.checks) for verdict in MARKS
        },
        "failing": [one for one in machine.checks if one.verdict == "fails"],
        "summary": reportrows.summary_rows(machine),
        "choices": reportrows.choice_rows(machine),
        "path_rows": reportrows.path_rows(machine),
        "batch_rows": reportrows.batch_rows(machine),
        "shaft_rows": reportrows.shaft_rows(machine),
        "ladder_rows": reportrows.ladder_rows(machine),
        "guards": guarding.needs(design, design.show_units),
        "stages": reportrows.stage_rows(machine),
        "values": reportrows.value_rows(design, design.show_units),
    }


PAGE_PICTURES = (
    "Gear train, counter-rotating",
    "Gear case in plan",
    "Trough and paddles",
    "Motor and reduction box",
    "Will it stall",
    "What gives way first",
)
"""Pictures on the page; all of them are written beside it where pictures are asked for."""


def _pictures(machine: Machine) -> dict[str, Callable[[], Any]]:
    return {
        "Gear train, counter-rotating": lambda: plots.train(machine, "direct"),
        "Gear train, co-rotating": lambda: plots.train(machine, "idler"),
        "Teeth in mesh": lambda: gearplots.mesh_picture(machine),
        "Gear case in plan": lambda: gearplots.plan(machine),
        "Dog clutch": lambda: clutchplots.clutch_positions(machine),
        "Power path": lambda: plots.power_path(machine),
        "Clay strength": lambda: loadplots.clay_strength(machine),
        "Trough and paddles": lambda: troughplots.trough_view(machine),
        "Torque over a turn": lambda: loadplots.torque_over_a_turn(machine),
        "Motor and reduction box": lambda: driveplots.motor_and_box(machine),
        "Will it stall": lambda: loadplots.stall(machine),
        "Shaft 1, needed diameters": lambda: shaftplots.shaft_diameters(machine, 1),
        "Shaft 2, needed diameters": lambda: shaftplots.shaft_diameters(machine, 2),
        "Both shafts cut open": lambda: bodyplots.cut_open(machine),
        "Both shafts": lambda: shaftplots.both_shafts(machine),
        "Shaft 1": lambda: shaftplots.beam(machine, 1),
        "Shaft 2": lambda: shaftplots.beam(machine, 2),
        "Which hub": lambda: hubplots.hub_torques(machine),
        "Fits": lambda: hubplots.fit_bands(machine),
        "What gives way first": lambda: jamplots.ladder(machine),
        "A jam through time": lambda: jamplots.jam_in_time(machine),
    }


def _picture_files(machine: Machine, progress: Progress) -> dict[str, str | bytes]:
    """Every picture as SVG and as PNG, by the name of its file."""
    found: dict[str, str | bytes] = {}
    for words, make in _pictures(machine).items():
        progress(f"drawing {words.lower()}")
        drawn = make()
        stem = words.lower().replace(",", "").replace(" ", "_")
        found[f"{stem}.svg"] = as_svg(drawn)
        found[f"{stem}.png"] = as_png(drawn)
    return found


def write_report(
    machine: Machine,
    folder: Path,
    shop: Workshop | None = None,
    progress: Progress = lambda _words: None,
    *,
    pictures: bool = False,
    told: Sequence[str] = (),
    known: Known = NONE,
) -> list[Path]:
    """Write the report into a folder, all or nothing.

    Parameters
    ----------
    machine : Machine
    folder : pathlib.Path
        Made if it is not there.
    shop : Workshop, optional
        None where there is no shop file: then nothing is held against one.
    progress : callable
        Told in words what is being done.
    pictures : bool
        Whether every picture is written beside it, as SVG and as PNG.
    told : sequence of str
    known : mapping
        See :func:`report_html`.

    Returns
    -------
    list of pathlib.Path
        The page first, then the pictures.

    Raises
    ------
    InputError
        If the folder cannot be made or written to.
    """
    page = report_html(machine, shop=shop, progress=progress, told=told, known=known)
    beside = _picture_files(machine, progress) if pictures else {}
    return write_all(folder, {"report.html": page, **beside})
