"""Motor and box of a draft: rows of the tables, or what is given of them, that carry what the clay asks."""

from __future__ import annotations

import math
from collections.abc import Iterator
from functools import lru_cache
from itertools import product

from mixerkit.checks import Check
from mixerkit.design import Design
from mixerkit.explore.bought import box_plate, motor_plate
from mixerkit.explore.draft.brief import Brief, plain
from mixerkit.explore.sizes import whole
from mixerkit.machine import Machine
from mixerkit.stages import STAGES
from mixerkit.tables import Row, table
from mixerkit.units import InputError

__all__ = ["BOUGHT", "USUAL_SPEED", "choices_of_power", "first_power", "fits", "power_checks"]

USUAL_SPEED = (16.0, 34.0)
"""Speeds of shaft 1 in rpm that clay is mixed at where none is wanted (common practice)."""
_STAGES = ("motor", "motor drive", "reducer")
_DRIVE = tuple(make for stage in STAGES if stage.key in _STAGES for make in stage.makers)
_JAM_OVER_START = 1.9
"""What a box must survive over what it takes to start: a pin that no start bends, its scatter, and a tenth on top."""
_PEAK = 2.0
"""Momentary torque that a box survives over its rated torque, where its sheet is not there (common practice)."""
BOUGHT = {
    "motor.kind": "what the socket feeds",
    "motor.fed_by": "what the socket and the start ask for",
    "motor.rated_power": "the least that carries mixing and starting at this speed",
    "motor.rated_voltage": "the socket's, in the connection for it",
    "motor.run_at": "brings shaft 1 to the wanted speed",
    "motor.jacking_torque": "a square on its fan end, to let a jam's wind-up off",
    "reducer.kind": "the lightest that carries it",
    "reducer.ratio": "brings shaft 1 to the wanted speed",
    "reducer.rated_torque": "carries mixing all day, and a jam for a moment",
    "reducer.output_bore": "takes shaft 1, and the stub of the fuse's flange round it; measure yours before the shaft is turned",
    "reducer.input_bore": "takes the motor's shaft end; measure yours",
    "reducer.mass": "box and motor, as such weigh",
}
"""Why each of these has its value."""
_read = lru_cache(maxsize=4096)(plain)
"""Tables are gone through for each way of drafting, and say the same each time."""
_LATER = ("slow end", "adapting bush")
"""What shaft 1 is turned to fit, once there is a box."""
_LEAST_RUN, _MOST_RUN = 0.5, 1.2
"""Share of its plate's frequency that a motor is run at by a converter: cooled by its own fan, and not thrown (common practice)."""


def power_checks(machine: Machine) -> list[Check]:
    """Failing checks of socket, motor and box alone, whatever shaft and fuse are now."""
    return [
        one
        for one in machine.checks_of(_DRIVE)
        if one.verdict == "fails" and one.part not in _LATER and "jam" not in one.name
    ]


def first_power(brief: Brief) -> dict[str, object]:
    """A motor and a box of middling size, to reckon with until what the clay asks is known."""
    motors, boxes = _motors(brief), list(_boxes(brief))
    motor = motors[len(motors) // 2]
    box = min(boxes, key=lambda one: abs(math.log(_ratio(one) / 60)))
    return _one(brief, motor, box, None)


def _ratio(box: dict[str, object]) -> float:
    return float(str(box["reducer.ratio"]))


def choices_of_power(brief: Brief, design: Design) -> Iterator[dict[str, object]]:
    """Motors and boxes that may carry a design, the cheapest first within the wanted speeds.

    Parameters
    ----------
    brief : Brief
    design : Design
        With any motor and box; what its clay asks is read off it.

    Yields
    ------
    dict
        Fields with their values as they stand in a file.
    """
    machine = Machine(design)
    flow, cases = machine.power_flow, machine.load_cases
    asked = float(flow.torque_at_box_output[cases.mixing].max())
    jam = _JAM_OVER_START * float(flow.torque_at_box_output[cases.starting].max())
    low, high = wanted_speed(brief)
    found = []
    for motor, box in product(_motors(brief), _boxes(brief)):
        values = _one(brief, motor, box, (low, high))
        power, ratio = (
            _plain(values, brief, "motor.rated_power"),
            _plain(values, brief, "reducer.ratio"),
        )
        rated, run = (
            _plain(values, brief, "motor.rated_speed"),
            _plain(values, brief, "motor.run_at"),
        )
        share = run / _plain(values, brief, "motor.rated_frequency")
        efficiency = _plain(values, brief, "reducer.efficiency")
        torque = _plain(values, brief, "reducer.rated_torque")
        reaches = 9550 * power / rated * ratio * efficiency * min(1.0, 1 / share)
        peak = torque * (brief.number("reducer.peak_torque_ratio") or _PEAK)
        # a shaft turned down for its box passes on less
        bore = _plain(values, brief, "reducer.output_bore")
        narrow = bore < design.shaft_1.diameter and "reducer.output_bore" not in brief.given
        if reaches < 1.2 * asked or torque < asked or peak < jam or narrow:
            continue
        speed = rated * share / ratio
        off = max(math.log(low / speed), math.log(speed / high), 0.0)
        size = (
            math.log(torque)
            + 0.6 * math.log(power)
            - (0.1 if "worm" in str(values.get("reducer.kind")) else 0)
        )
        found.append((round(off, 2), size, values))
    found.sort(key=lambda one: one[:2])
    for _, _, values in found:
        yield values


def wanted_speed(brief: Brief) -> tuple[float, float]:
    """Least and greatest speed of shaft 1 in rpm that is wanted, or usual."""
    want = brief.want
    if want.speed:
        return min(want.speed), max(want.speed)
    low, high = USUAL_SPEED
    turns = brief.number("batch.turns_to_mix") or 200.0
    loading = brief.number("batch.loading_time")
    loading = 6.0 if loading is None else loading
    times = [want.batch_time] if want.batch_time else []
    if want.throughput:
        times.append(60 * brief.number("batch.mass") / want.throughput)
    for time in times:
        low = max(low, 1.02 * turns / max(time - loading, 0.1))
    return low, max(high, low)


def _plain(values: dict[str, object], brief: Brief, dotted: str) -> float:
    raw = brief.given.get(dotted, values.get(dotted))
    if raw is None:
        return 50.0 if dotted.endswith("run_at") else 0.0
    return _read(dotted, raw)


def _motors(brief: Brief) -> list[dict[str, object]]:
    """Motors for the socket, as they would stand in a file, smallest first."""
    supply = {name: brief.number(f"supply.{name}") for name in ("voltage", "frequency", "phases")}
    single = brief.given.get("motor.kind", "") not in ("", "three-phase") or (
        supply["phases"] == 1 and supply["voltage"] < 180 and "motor.kind" not in brief.given
    )
    rows = (
        [_single(row, supply) for row in table("motors_single_phase")]
        if single
        else [_three(row, supply) for row in table("motors")]
    )
    power = brief.number("motor.rated_power")
    if power is not None:
        rows = [min(rows, key=lambda one: abs(math.log(_row_power(one) / power)))]
    return rows


def _row_power(values: dict[str, object]) -> float:
    return float(str(values["motor.rated_power"]).split()[0])


def _three(row: Row, supply: dict[str, float]) -> dict[str, object]:
    one, frequency = row.values, supply["frequency"]
    lag = 120 * 50 / one["poles"] - one["rated_speed"]
    direct = supply["phases"] == 3
    return {
        **motor_plate(row),
        "motor.rated_frequency": f"{frequency:g} Hz",
        "motor.rated_speed": f"{120 * frequency / one['poles'] - lag:g} rpm",
        "motor.rated_voltage": f"{supply['voltage']:g} V",
        "motor.power_factor": 0.8,
        "motor.start_current_ratio": 6.5,
        "motor.fed_by": "direct" if direct else "frequency converter",
        **(
            {}
            if direct
            else {"motor.run_at": f"{frequency:g} Hz", "motor.converter_torque_ratio": 1.5}
        ),
        "motor.jacking_torque": "10 N*m",
        "mass": one["mass"],
    }


def _single(row: Row, supply: dict[str, float]) -> dict[str, object]:
    one, frequency = row.values, supply["frequency"]
    lag = 120 * one["frequency"] / one["poles"] - one["rated_speed"]
    return {
        "motor.kind": "capacitor-start",
        "motor.fed_by": "direct",
        "motor.rated_power": f"{one['rated_power']:g} kW",
        "motor.rated_speed": f"{120 * frequency / one['poles'] - lag:g} rpm",
        "motor.rated_frequency": f"{frequency:g} Hz",
        "motor.rated_voltage": f"{supply['voltage']:g} V",
        "motor.poles": int(one["poles"]),
        **{
            f"motor.{name}": whole(one[name])
            for name in (
                "efficiency",
                "power_factor",
                "start_torque_ratio",
                "pull_up_torque_ratio",
                "breakdown_torque_ratio",
                "start_current_ratio",
            )
        },
        "motor.shaft_end": f"{one['shaft_end']:g} mm",
        "motor.jacking_torque": "10 N*m",
        "mass": one["mass"],
    }


def _boxes(brief: Brief) -> Iterator[dict[str, object]]:
    """Boxes of the table as they would stand in a file; the nearest ones where something of it is given."""
    known = {
        name: brief.number(f"reducer.{name}")
        for name in ("ratio", "rated_torque", "output_bore")
        if brief.number(f"reducer.{name}") is not None
    }
    kind = brief.given.get("reducer.kind")
    rows = [row for row in table("reducers") if kind in (None, row.kind)]
    if known and rows:

        def far(row: Row) -> float:
            return sum(abs(math.log(row.values[name] / one)) for name, one in known.items())

        least = min(far(row) for row in rows)
        rows = [row for row in rows if far(row) <= least + 1e-9]
    elif not rows:
        rows = [row for row in table("reducers") if row.kind == "helical"]
    for row in rows:
        found = {**box_plate(row), "mass": row.values["mass"]}
        if brief.system == "inch":
            # boxes for inch shafts have bores in eighths (common practice)
            eighths = math.ceil(row.values["output_bore"] / 25.4 * 8)
            found["reducer.output_bore"] = f"{eighths / 8:g} in"
        yield found


def _one(
    brief: Brief,
    motor: dict[str, object],
    box: dict[str, object],
    speeds: tuple[float, float] | None,
) -> dict[str, object]:
    """Motor and box together: flange, mass, and the frequency that brings the speed nearest the wanted one."""
    values = {**motor, **box}
    mass = float(str(motor["mass"])) + float(str(box["mass"]))
    values["reducer.mass"] = f"{mass:.3g} kg"
    values["reducer.input_bore"] = brief.given.get("motor.shaft_end", values["motor.shaft_end"])
    values.pop("mass")
    if speeds is not None and values.get("motor.fed_by") == "frequency converter":
        rated = _plain(values, brief, "motor.rated_speed")
        frequency = _plain(values, brief, "motor.rated_frequency")
        speed = rated / _plain(values, brief, "reducer.ratio")
        share = min(max(1.0, 1.02 * speeds[0] / speed), 0.98 * speeds[1] / speed)
        share = min(max(share, _LEAST_RUN), _MOST_RUN)
        values["motor.run_at"] = f"{round(share * frequency):g} Hz"
    return {name: one for name, one in values.items() if name not in brief.given}


def fits(design: Design, values: dict[str, object]) -> Design | None:
    """The design with a motor and a box, if socket, motor and box hold; none otherwise."""
    try:
        tried = design.with_values(values)
    except InputError:
        return None
    return None if power_checks(Machine(tried)) else tried
