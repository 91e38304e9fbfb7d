"""The design report: one HTML page that carries everything with it and needs no network."""

from __future__ import annotations

from datetime import date, datetime
from pathlib import Path
from typing import Any

from jinja2 import Environment, PackageLoader, StrictUndefined
from markupsafe import Markup

from mixerkit.assess import LOADS, MODES, Assessment
from mixerkit.design import write_atomically
from mixerkit.explore import search
from mixerkit.load import trough
from mixerkit.parts.shaft_checks import next_stock
from mixerkit.records import Record
from mixerkit.show import driveplots, gearplots, loadplots, plots, shaftplots
from mixerkit.show.cautions import CAUTIONS
from mixerkit.show.marks import MARKS, spare_text
from mixerkit.show.style import as_png, as_svg
from mixerkit.show.tables import check_html
from mixerkit.units import InputError, show

__all__ = ["report_html", "write_pictures", "write_report"]

_ENVIRONMENT = Environment(
    loader=PackageLoader("mixerkit.show", "templates"),
    autoescape=True,
    undefined=StrictUndefined,
    trim_blocks=True,
    lstrip_blocks=True,
)


def report_html(assessment: Assessment, on: date | None = None) -> str:
    """Write the report of an assessment as one HTML page.

    Parameters
    ----------
    assessment : Assessment
    on : datetime.date, optional
        Date on the page; today, if not given.

    Returns
    -------
    str
    """
    design = assessment.design
    counts = {
        verdict: sum(one.verdict == verdict for one in assessment.checks) for verdict in MARKS
    }
    return _ENVIRONMENT.get_template("report.html").render(
        design=design,
        date=(on or datetime.now().astimezone().date()).isoformat(),
        verdict=assessment.verdict,
        mark=MARKS[assessment.verdict],
        counts=counts,
        weakest=assessment.weakest,
        weakest_spare=spare_text(assessment.weakest.spare),
        failing=[one for one in assessment.checks if one.verdict == "fails"],
        pictures=[
            (words, Markup(as_svg(drawn)))  # noqa: S704  our own SVG, made a line above
            for words, drawn in _pictures(assessment)
        ],
        path_rows=_path_rows(assessment),
        batch_rows=_batch_rows(assessment),
        shaft_rows=_shaft_rows(assessment),
        motors=search.motors(design),
        show=show,
        checks=Markup(check_html(assessment.checks, reasons=True)),  # noqa: S704  escaped where made
        values=_values(design, design.show_units),
        cautions=CAUTIONS,
    )


def _pictures(assessment: Assessment) -> list[tuple[str, Any]]:
    return [
        ("Gear train, counter-rotating", plots.train(assessment, "direct")),
        ("Gear train, co-rotating", plots.train(assessment, "idler")),
        ("Teeth in mesh", gearplots.mesh_picture(assessment)),
        ("Gear case in plan", gearplots.plan(assessment)),
        ("Dog clutch", gearplots.clutch_positions(assessment)),
        ("Power path", plots.power_path(assessment)),
        ("Clay strength", loadplots.clay_strength(assessment)),
        ("Trough and paddles", loadplots.trough_view(assessment)),
        ("Torque over a turn", loadplots.torque_over_a_turn(assessment)),
        ("Motor and reduction box", driveplots.motor_and_box(assessment)),
        ("Will it stall", loadplots.stall(assessment)),
        ("Shaft 1, needed diameters", plots.shaft_diameters(assessment, 1)),
        ("Shaft 2, needed diameters", plots.shaft_diameters(assessment, 2)),
        ("Shaft 1", shaftplots.beam(assessment, 1)),
        ("Shaft 2", shaftplots.beam(assessment, 2)),
        ("Which hub", shaftplots.hub_torques(assessment)),
        ("Fits", shaftplots.fit_bands(assessment)),
        ("What gives way first", shaftplots.ladder(assessment)),
        ("A jam through time", shaftplots.jam_in_time(assessment)),
    ]


def _batch_rows(assessment: Assessment) -> list[tuple[str, str]]:
    """What a batch is and takes, and what one shaft meets."""
    plain, system, asks = (
        assessment.design.plain,
        assessment.design.show_units,
        assessment.case.asks,
    )
    run = assessment.batch
    return [
        ("Clay strength, " + asks.clay.words, show(asks.clay.strength, "kPa", system)),
        ("Clay strength at the speed of mixing", show(asks.strength, "kPa", system)),
        ("Volume of a batch", show(trough.batch_volume(plain), "L", system)),
        ("Working volume of the trough", show(trough.working_volume(plain), "L", system)),
        ("Torque of one shaft, mean over a turn", show(asks.mean, "N*m", system)),
        (f"Torque of one shaft, peak ({asks.governs} governs)", show(asks.peak, "N*m", system)),
        ("of that, from tips scraping", show(asks.scraping, "N*m", system)),
        (
            "Added by the nip, both shafts",
            show(2 * asks.peak * plain.paddles.nip_share, "N*m", system),
        ),
        ("Force of one buried paddle across its shaft", show(asks.force, "N", system)),
        ("Push of one buried paddle along its shaft", show(asks.push, "N", system)),
        ("Time of a batch", f"{run.minutes:.3g} min"),
        ("Throughput with loading", show(run.throughput, "kg/h", system)),
        ("Energy into the clay", show(run.energy, "kJ", system)),
        ("Warming of the clay at most", show(run.warmer, "K", system)),
    ]


def _path_rows(assessment: Assessment) -> list[dict[str, Any]]:
    """Torque, speed and power along the path for each mode and load, motor forward."""
    system = assessment.design.show_units
    rows = []
    for clutch, mode in MODES.items():
        for load in LOADS:
            here = assessment.index(clutch, 1, load)
            cells = []
            for station in assessment.stations:
                torque = show(float(station.torque.m_as("N*m")[here]), "N*m", system)
                speed = float(station.speed.m_as("rpm")[here])
                power = show(float(station.power.m_as("kW")[here]), "kW", system)
                cells.append(f"{torque}, {show(speed, 'rpm')}, {power}" if speed else torque)
            rows.append({"mode": mode, "load": load, "cells": cells})
    return rows


def _values(record: Record, system: str, prefix: str = "") -> list[tuple[str, str, str]]:
    """Every field of a record and the records in it: dotted name, value, meaning."""
    rows = []
    for name in record.__dataclass_fields__:
        value = getattr(record, name)
        if isinstance(value, Record):
            rows += _values(value, system, f"{prefix}{name}.")
        else:
            kind = record.__dataclass_fields__[name].metadata["kind"]
            rows.append((f"{prefix}{name}", record.shown(name, system), kind.meaning))
    return rows


def write_pictures(assessment: Assessment, folder: Path) -> list[Path]:
    """Write every picture of the report as SVG and as PNG.

    Parameters
    ----------
    assessment : Assessment
    folder : pathlib.Path
        Made if it is not there.

    Returns
    -------
    list of pathlib.Path

    Raises
    ------
    InputError
        If the folder cannot be made or written to.
    """
    _make(folder)
    written = []
    for words, drawn in _pictures(assessment):
        stem = folder / words.lower().replace(",", "").replace(" ", "_")
        write_atomically(stem.with_suffix(".svg"), as_svg(drawn))
        write_atomically(stem.with_suffix(".png"), as_png(drawn))
        written += [stem.with_suffix(".svg"), stem.with_suffix(".png")]
    return written


def _make(folder: Path) -> None:
    try:
        folder.mkdir(parents=True, exist_ok=True)
    except OSError as error:
        raise InputError(
            f"{folder}: cannot be made a folder ({error.strerror or error})."
        ) from None


def _shaft_rows(assessment: Assessment) -> list[tuple[str, str, str, str]]:
    """Diameter that each rule asks of each shaft, the next stock size, and what it has."""
    system = assessment.design.show_units
    rows = []
    for part, needed in assessment.needed_diameters.items():
        has = getattr(assessment.design.plain, part.replace(" ", "_")).diameter
        for rule, size in needed.items():
            diameter = float(size.m_as("mm"))
            stock = next_stock(diameter, system)
            rows.append(
                (
                    f"{part}, {rule}",
                    show(diameter, "mm", system),
                    show(stock, "mm", system),
                    show(has, "mm", system),
                )
            )
    return rows


def write_report(assessment: Assessment, folder: Path) -> Path:
    """Write the report into a folder, all or nothing.

    Parameters
    ----------
    assessment : Assessment
    folder : pathlib.Path
        Made if it is not there.

    Returns
    -------
    pathlib.Path
        Of the page.

    Raises
    ------
    InputError
        If the folder cannot be made or written to.
    """
    page = report_html(assessment)
    _make(folder)
    path = folder / "report.html"
    write_atomically(path, page)
    return path
