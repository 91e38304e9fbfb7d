"""Rows of the report's tables: what was chosen and why, what it takes and gives, every value of the design."""

from __future__ import annotations

from typing import Any

from markupsafe import Markup

from mixerkit.checks import weakest
from mixerkit.explore import uncertainty
from mixerkit.fields import Record
from mixerkit.load import trough
from mixerkit.machine import Machine
from mixerkit.parts.shaft_checks import next_stock
from mixerkit.show import plots
from mixerkit.show.marks import MARKS
from mixerkit.show.panels import panel_module
from mixerkit.show.tables import check_html
from mixerkit.stages import STAGES
from mixerkit.states import LOADS, MODES
from mixerkit.units import show

__all__ = [
    "batch_rows",
    "choice_rows",
    "ladder_rows",
    "path_rows",
    "shaft_rows",
    "stage_rows",
    "summary_rows",
    "value_rows",
]


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
        "contact": f"trough {spec.trough.material}, pins {spec.sleeve.pin_material}, {spec.contact.clay} clay",
        "motor": f"{say(spec.motor.rated_power, 'kW')}, {spec.motor.kind}, fed by {spec.motor.fed_by}",
        "motor drive": spec.motor_drive.kind,
        "reducer": f"{spec.reducer.kind}, {spec.reducer.ratio:g} : 1, {say(spec.reducer.rated_torque, 'N*m')}",
        "gear paths": " and ".join(
            "-".join(map(str, getattr(spec.paths, one).tooth_counts)) for one in ("direct", "idler")
        ),
        "gears": f"{plots.design_module(machine.design, 'direct')}, {spec.paths.direct.material}; {plots.design_module(machine.design, 'idler')}, {spec.paths.idler.material}",
        "clutch": f"{spec.clutch.dogs} dogs a face on shaft {spec.clutch.shaft}",
        "shafts": f"{say(spec.shaft_1.diameter, 'mm')} and {say(spec.shaft_2.diameter, 'mm')}, sleeve {spec.sleeve.kind}",
        "hubs": f"gears held by {spec.hubs.gear}, {spec.sleeve.pins} pins of {say(spec.sleeve.pin_diameter, 'mm')}",
        "bearings": f"{spec.bearings.kind}; bushes of {spec.bearings.bush_material}; {spec.bearings.seal}",
        "frame": f"plates {say(spec.housing.plate_thickness, 'mm')}, far wall {say(spec.frame.wall_thickness, 'mm')}, sheet {say(spec.trough.wall_thickness, 'mm')}, bolts of class {spec.frame.bolt_class}",
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


def stage_rows(machine: Machine) -> list[tuple[str, str, Markup]]:
    """Title of each stage, the sentence of its panel, and its checks with their reasons."""
    return [
        (
            stage.title,
            panel_module(stage.key).says(machine),
            Markup(check_html(machine.of_stage(stage.key), reasons=True)),  # noqa: S704  escaped where made
        )
        for stage in STAGES
    ]


def ladder_rows(machine: Machine) -> list[tuple[str, str, str]]:
    """Every part by the torque at which it yields, and breaks."""
    system = machine.design.show_units
    return [
        (one.name, show(one.yields, "N*m", system), show(one.breaks, "N*m", system))
        for one in machine.ladder
    ]


def batch_rows(machine: Machine) -> list[tuple[str, str]]:
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
        ("of that, from the sleeve in the clay", show(asks.sleeve, "N*m", system)),
        ("Peak with the clay heaped on it", show(asks.heaped, "N*m", system)),
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


def path_rows(machine: Machine) -> list[dict[str, Any]]:
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


def value_rows(record: Record, system: str, prefix: str = "") -> list[tuple[str, str, str]]:
    """Every field of a record and the records in it: dotted name, value, meaning."""
    rows = []
    for name in record.__dataclass_fields__:
        value = getattr(record, name)
        if isinstance(value, Record):
            rows += value_rows(value, system, f"{prefix}{name}.")
        else:
            kind = record.__dataclass_fields__[name].metadata["kind"]
            rows.append((f"{prefix}{name}", record.shown(name, system), kind.meaning))
    return rows


def shaft_rows(machine: Machine) -> list[tuple[str, str, str, str]]:
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
