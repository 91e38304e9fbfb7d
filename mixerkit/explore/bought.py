"""What is bought whole: other motors and boxes of the tables, as they would stand in a design file."""

from __future__ import annotations

import math
from collections.abc import Mapping
from typing import Any

from mixerkit.design import Design
from mixerkit.drive.jam import usual_inertia
from mixerkit.explore.sizes import whole
from mixerkit.tables import Row, table

__all__ = ["BOUGHT", "bought", "box_plate", "motor_plate"]

BOUGHT = ("motor", "reducer")
"""Things bought whole: their numbers change together, by a row of their table."""


def bought(design: Design, thing: str) -> list[dict[str, object]]:
    """List what other motors or boxes of the tables would put into a design, likeliest first.

    A row comes whole. A motor brings its shaft end, and the box the flange and bore for it; the mass
    that hangs on shaft 1 follows. A motor of the table has three phases: where the socket has one, or
    a converter feeds the motor now, a converter feeds it. A box keeps the motor's flange.

    Parameters
    ----------
    design : Design
    thing : str
        One of :data:`BOUGHT`.

    Returns
    -------
    list of dict
        Fields and values as they stand in a file.
    """
    rows = _motors(design) if thing == "motor" else _boxes(design)
    now = design.to_table()
    return [
        changed
        for row in rows
        if (changed := {name: one for name, one in row.items() if _now(now, name) != one})
    ]


def motor_plate(row: Row) -> dict[str, object]:
    """What the plate of a motor of data/tables/motors.csv puts into a design, at 50 Hz.

    Parameters
    ----------
    row : Row

    Returns
    -------
    dict
        Fields and values as they stand in a file.
    """
    one = row.values
    return {
        "motor.kind": "three-phase",
        "motor.rated_power": f"{one['rated_power']:g} kW",
        "motor.rated_speed": f"{one['rated_speed']:g} rpm",
        "motor.rated_frequency": "50 Hz",
        "motor.poles": int(one["poles"]),
        "motor.efficiency": one["efficiency"],
        "motor.start_torque_ratio": whole(one["start_torque_ratio"]),
        "motor.pull_up_torque_ratio": min(one["start_torque_ratio"], 1.6),
        "motor.breakdown_torque_ratio": whole(one["breakdown_torque_ratio"]),
        "motor.shaft_end": f"{one['shaft_end']:g} mm",
    }


def box_plate(row: Row) -> dict[str, object]:
    """What a box of data/tables/reducers.csv puts into a design; its flange goes by the motor.

    Parameters
    ----------
    row : Row

    Returns
    -------
    dict
        Fields and values as they stand in a file.
    """
    one = row.values
    return {
        "reducer.kind": row.kind,
        "reducer.ratio": whole(one["ratio"]),
        "reducer.efficiency": one["efficiency"],
        "reducer.start_efficiency": one["start_efficiency"],
        "reducer.rated_torque": f"{one['rated_torque']:g} N*m",
        "reducer.thermal_power": f"{one['thermal_power']:g} kW",
        "reducer.output_bore": f"{one['output_bore']:g} mm",
        "reducer.radial_load": f"{one['radial_load']:g} N",
    }


def _now(content: Mapping[str, Any], dotted: str) -> object:
    section, name = dotted.split(".")
    return content[section][name]


def _motors(design: Design) -> list[dict[str, object]]:
    motor, supply = design.motor, design.supply
    lone = supply.phases == 1
    at_60 = motor.rated_frequency > 55
    own = min(table("motors"), key=lambda row: abs(row.values["rated_power"] - motor.rated_power))
    found = []
    for row in sorted(
        table("motors"),
        key=lambda row: abs(math.log(row.values["rated_power"] / motor.rated_power)),
    ):
        one = row.values
        if abs(one["rated_power"] / motor.rated_power - 1) < 0.01:
            continue
        lag = 120 * 50 / one["poles"] - one["rated_speed"]
        frequency = 60.0 if at_60 else 50.0
        mass = design.reducer.mass + one["mass"] - own.values["mass"]
        values = motor_plate(row) | {
            "motor.rated_speed": f"{120 * frequency / one['poles'] - lag:g} rpm",
            "motor.rated_frequency": f"{frequency:g} Hz",
            "motor.inertia": f"{usual_inertia(one['rated_power'], one['poles']):.2g} kg*m^2",
            "reducer.input_bore": f"{one['shaft_end']:g} mm",
        }
        if mass > 0:
            values["reducer.mass"] = f"{mass:.3g} kg"
        if motor.end_load is not None:
            # until its own sheet is read: as the bending of its end allows, and no more than now
            share = min(one["shaft_end"] / motor.shaft_end, 1.0) ** 2
            values["motor.end_load"] = f"{motor.end_load * share:.6g} N"
        if lone and motor.fed_by != "frequency converter":
            values |= {
                "motor.fed_by": "frequency converter",
                "motor.run_at": f"{frequency:g} Hz",
            }
        found.append(values)
    return found


def _boxes(design: Design) -> list[dict[str, object]]:
    box = design.reducer
    nearest = min(
        table("reducers"),
        key=lambda row: (row.kind != box.kind, abs(row.values["rated_torque"] - box.rated_torque)),
    )
    found, flange = [], design.motor.to_table()["shaft_end"]
    for row in table("reducers"):
        one = row.values
        alike = (one["ratio"] / box.ratio, one["rated_torque"] / box.rated_torque)
        if row.kind == box.kind and max(abs(share - 1) for share in alike) < 0.01:
            continue
        mass = box.mass + one["mass"] - nearest.values["mass"]
        values = box_plate(row) | {"reducer.input_bore": flange}
        if mass > 0:
            values["reducer.mass"] = f"{mass:.3g} kg"
        if box.input_load is not None:
            # until its own sheet is read: forces go with the torque over a size, which is its third root
            share = min(one["rated_torque"] / box.rated_torque, 1.0) ** (2 / 3)
            values["reducer.input_load"] = f"{box.input_load * share:.6g} N"
        unlike = (
            row.kind != box.kind,
            abs(math.log(one["ratio"] / box.ratio)),
            abs(math.log(one["rated_torque"] / box.rated_torque)),
        )
        found.append((unlike, values))
    return [values for _, values in sorted(found, key=lambda pair: pair[0])]
