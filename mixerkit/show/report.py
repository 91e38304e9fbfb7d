"""The design report: one HTML page that carries everything with it and needs no network."""

from __future__ import annotations

from collections.abc import Callable
from datetime import date
from pathlib import Path
from typing import Any

from jinja2 import Environment, PackageLoader, StrictUndefined
from markupsafe import Markup

from mixerkit.checks import weakest
from mixerkit.drive import guarding
from mixerkit.explore import search, uncertainty
from mixerkit.explore.mend import mend
from mixerkit.fields import Record
from mixerkit.load import trough
from mixerkit.machine import Machine
from mixerkit.parts.shaft_checks import next_stock
from mixerkit.shop.workshop import Workshop, read_workshop
from mixerkit.show import (
    clutchplots,
    driveplots,
    gearplots,
    hubplots,
    jamplots,
    loadplots,
    plots,
    shaftplots,
    troughplots,
)
from mixerkit.show.answer import mends_html
from mixerkit.show.cautions import CAUTIONS
from mixerkit.show.marks import MARKS, spare_text
from mixerkit.show.panels import panel_module
from mixerkit.show.sheets import ready_sheets
from mixerkit.show.stamp import STOP, stamp_of
from mixerkit.show.style import as_png, as_svg
from mixerkit.show.tables import check_html
from mixerkit.stages import STAGES
from mixerkit.states import LOADS, MODES
from mixerkit.units import show
from mixerkit.written import write_all

__all__ = [
    "PAGE_PICTURES",
    "choice_rows",
    "report_html",
    "summary_rows",
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
) -> str:
    """Write the report of a machine as one HTML page, the shop sheets as its appendix.

    Parameters
    ----------
    machine : Machine
    on : datetime.date, optional
        Date on the page; see :func:`mixerkit.show.stamp.day_of`.
    shop : Workshop, optional
        The demo shop, if not given.
    progress : callable
        Told in words what is being done.

    Returns
    -------
    str
    """
    design, shop = machine.design, shop or read_workshop()
    stamp = stamp_of(machine, shop, on=on)
    counts = {verdict: sum(one.verdict == verdict for one in machine.checks) for verdict in MARKS}
    pictures = []
    makers = _pictures(machine)
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
    appendix = ready_sheets(design, shop)
    return _ENVIRONMENT.get_template("report.html").render(
        design=design,
        stamp=stamp,
        stop=STOP,
        verdict=machine.verdict,
        mark=MARKS[machine.verdict],
        counts=counts,
        weakest=machine.weakest,
        weakest_spare=spare_text(machine.weakest.spare),
        failing=[one for one in machine.checks if one.verdict == "fails"],
        mends=Markup(mends),  # noqa: S704  escaped where made
        summary=summary_rows(machine),
        choices=choice_rows(machine),
        pictures=pictures,
        path_rows=_path_rows(machine),
        batch_rows=_batch_rows(machine),
        shaft_rows=_shaft_rows(machine),
        ladder_rows=_ladder_rows(machine),
        guards=guarding.needs(design, design.show_units),
        motors=motors,
        show=show,
        spare_text=spare_text,
        stages=_stage_rows(machine),
        values=_values(design, design.show_units),
        cautions=CAUTIONS,
        sheets=appendix,
    )


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
        "Both shafts": lambda: shaftplots.both_shafts(machine),
        "Shaft 1": lambda: shaftplots.beam(machine, 1),
        "Shaft 2": lambda: shaftplots.beam(machine, 2),
        "Which hub": lambda: hubplots.hub_torques(machine),
        "Fits": lambda: hubplots.fit_bands(machine),
        "What gives way first": lambda: jamplots.ladder(machine),
        "A jam through time": lambda: jamplots.jam_in_time(machine),
    }


def summary_rows(machine: Machine) -> list[tuple[str, str]]:
    """The machine in a few lines."""
    design, spec, system = machine.design, machine.design, machine.design.show_units
    run, slow = machine.batch, machine.running_speed
    risk = uncertainty.stall_risk(machine, 100_000)
    first = machine.ladder[0]
    paths = " and ".join(
        f"{'-'.join(map(str, getattr(spec.paths, name).tooth_counts))} ({mode})"
        for name, mode in (("direct", "counter-rotating"), ("idler", "co-rotating"))
    )
    return [
        (
            "A batch",
            f"{design.batch.shown('mass', system)} in {run.lasts}, {show(run.throughput, 'kg/h', system)} with loading",
        ),
        (
            "Motor and box",
            f"{show(spec.motor.rated_power, 'kW', system)}, {spec.motor.kind}, fed by {spec.motor.fed_by}; {spec.reducer.ratio:g} : 1, shaft 1 at {show(slow, 'rpm')}",
        ),
        ("Gears", f"{paths}, shafts {show(spec.housing.centre_distance, 'mm', system)} apart"),
        (
            "Shafts",
            " and ".join(
                f"{show(getattr(spec, f'shaft_{n}').diameter, 'mm', system)} {getattr(spec, f'shaft_{n}').material}"
                for n in (1, 2)
            ),
        ),
        (
            "Risk of a stall",
            f"{100 * risk.starting:.2g} % of starts with a full trough, {100 * risk.mixing:.2g} % while mixing, over the stated ranges",
        ),
        ("First to give in a jam", f"{first.name}, at {show(first.yields, 'N*m', system)}"),
    ]


def choice_rows(machine: Machine) -> list[tuple[str, str, str]]:
    """What was chosen, and the check that has least to spare: why it does, or does not."""
    spec, system = machine.design, machine.design.show_units

    def say(value: float, unit: str) -> str:
        return show(value, unit, system)

    chosen = {
        "trough": f"{say(spec.trough.length, 'mm')} long, gap {say(spec.trough.wall_clearance, 'mm')}",
        "paddles": f"{spec.paddles.count} a shaft, {say(spec.paddles.width, 'mm')} wide at {spec.paddles.set_angle:g} deg",
        "motor": f"{say(spec.motor.rated_power, 'kW')}, {spec.motor.kind}, fed by {spec.motor.fed_by}",
        "reducer": f"{spec.reducer.kind}, {spec.reducer.ratio:g} : 1, {say(spec.reducer.rated_torque, 'N*m')}",
        "gear paths": " and ".join(
            "-".join(map(str, getattr(spec.paths, one).tooth_counts)) for one in ("direct", "idler")
        ),
        "gears": f"{plots.design_module(machine.design, 'direct')}, {spec.paths.direct.material}; {plots.design_module(machine.design, 'idler')}, {spec.paths.idler.material}",
        "clutch": f"{spec.clutch.dogs} dogs a face on shaft {spec.clutch.shaft}",
        "shafts": f"{say(spec.shaft_1.diameter, 'mm')} and {say(spec.shaft_2.diameter, 'mm')}, sleeve {spec.sleeve.kind}",
        "hubs": f"gears held by {spec.hubs.gear}, {spec.sleeve.pins} pins of {say(spec.sleeve.pin_diameter, 'mm')}",
        "bearings": f"{spec.bearings.kind}; bushes of {spec.bearings.bush_material}; {spec.bearings.seal}",
        "guards": f"lid {spec.guard.lid}",
        "jam": f"{spec.fuse.kind}",
    }
    rows = []
    for stage in STAGES:
        listed = machine.of_stage(stage.key)
        if listed:
            worst = weakest(listed)
            words = chosen.get(stage.key, "its values are under The design")
            rows.append((stage.title, words, f"{MARKS[worst.verdict]} {worst.sentence()}"))
    return rows


def _stage_rows(machine: Machine) -> list[tuple[str, str, Markup]]:
    """Title of each stage, the sentence of its panel, and its checks with their reasons."""
    return [
        (
            stage.title,
            panel_module(stage.key).says(machine),
            Markup(check_html(machine.of_stage(stage.key), reasons=True)),  # noqa: S704  escaped where made
        )
        for stage in STAGES
    ]


def _ladder_rows(machine: Machine) -> list[tuple[str, str, str]]:
    system = machine.design.show_units
    return [
        (one.name, show(one.yields, "N*m", system), show(one.breaks, "N*m", system))
        for one in machine.ladder
    ]


def _batch_rows(machine: Machine) -> list[tuple[str, str]]:
    """What a batch is and takes, and what one shaft meets."""
    spec, system, asks = (
        machine.design,
        machine.design.show_units,
        machine.clay_load,
    )
    run = machine.batch
    return [
        ("Clay strength, " + asks.clay.words, show(asks.clay.strength, "kPa", system)),
        ("Clay strength at the speed of mixing", show(asks.strength, "kPa", system)),
        ("Volume of a batch", show(trough.batch_volume(spec), "L", system)),
        ("Working volume of the trough", show(trough.working_volume(spec), "L", system)),
        ("Torque of one shaft, mean over a turn", show(asks.mean, "N*m", system)),
        (f"Torque of one shaft, peak ({asks.governs} governs)", show(asks.peak, "N*m", system)),
        ("of that, from tips scraping", show(asks.scraping, "N*m", system)),
        (
            "Added by the nip, both shafts",
            show(2 * asks.peak * spec.paddles.nip_share, "N*m", system),
        ),
        ("Force of one buried paddle across its shaft", show(asks.force, "N", system)),
        ("Push of one buried paddle along its shaft", show(asks.push, "N", system)),
        ("Time of a batch", run.lasts),
        ("Throughput with loading", show(run.throughput, "kg/h", system)),
        ("Energy into the clay", show(run.energy, "kJ", system)),
        ("Warming of the clay at most", show(run.warmer, "K", system)),
    ]


def _path_rows(machine: Machine) -> list[dict[str, Any]]:
    """Torque, speed and power along the path for each mode and load, motor forward."""
    system = machine.design.show_units
    rows = []
    for clutch, mode in MODES.items():
        for load in LOADS:
            here = machine.index(clutch, 1, load)
            cells = []
            for station in machine.stations:
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


def _shaft_rows(machine: Machine) -> list[tuple[str, str, str, str]]:
    """Diameter that each rule asks of each shaft, the next stock size, and what it has."""
    system = machine.design.show_units
    rows = []
    for part, needed in machine.needed_diameters.items():
        has = getattr(machine.design, part.replace(" ", "_")).diameter
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


def write_report(
    machine: Machine,
    folder: Path,
    shop: Workshop | None = None,
    progress: Progress = lambda _words: None,
    *,
    pictures: bool = False,
) -> list[Path]:
    """Write the report into a folder, all or nothing.

    Parameters
    ----------
    machine : Machine
    folder : pathlib.Path
        Made if it is not there.
    shop : Workshop, optional
        The demo shop, if not given.
    progress : callable
        Told in words what is being done.
    pictures : bool
        Whether every picture is written beside it, as SVG and as PNG.

    Returns
    -------
    list of pathlib.Path
        The page first, then the pictures.

    Raises
    ------
    InputError
        If the folder cannot be made or written to.
    """
    page = report_html(machine, shop=shop, progress=progress)
    beside = _picture_files(machine, progress) if pictures else {}
    return write_all(folder, {"report.html": page, **beside})
