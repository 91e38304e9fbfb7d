"""Whether the rolling bearings fit their shafts and last."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

import numpy as np

from mixerkit.checking import make_check, make_unjudged
from mixerkit.checks import Change, Check, Say
from mixerkit.parts import bearing, bearing_workings
from mixerkit.parts.bearing_loads import AXIAL, axial_push, jam_thrust, loads
from mixerkit.parts.remedies import LIGHTER, calmer
from mixerkit.parts.shaftline import NAMES, ShaftBeam
from mixerkit.results import Array, TableRow
from mixerkit.tables import table
from mixerkit.units import show

__all__ = ["rolling"]


def _size(row: TableRow, say: Say) -> str:
    return " x ".join(say(row[one], "mm") for one in ("bore", "outer", "width"))


def _bores() -> list[float]:
    return sorted(float(bore) for bore in table("rolling_bearings").column("bore"))


def _larger_bearings(line: ShaftBeam, which: str, over: float) -> list[Change]:
    """Shafts that carry a bearing with so much higher a rating, the next one up first."""
    rows = [row.values for row in table("rolling_bearings")]
    has = min(row["bore"] for row in line.bearings if row)
    wanted = max(row[which] for row in rows if row["bore"] <= has) * float(over)
    bigger = sorted(row["bore"] for row in rows if row["bore"] > has and row[which] >= wanted)
    return [{f"shaft_{line.number}.diameter": bore} for bore in bigger[:1]]


def rolling(line: ShaftBeam) -> list[Check]:
    """Check the rolling bearings of a shaft."""
    machine, spec = line.machine, line.machine.spec
    part, field = f"bearings of shaft {line.number}", f"shaft_{line.number}.diameter"
    least = _bores()[0]
    thin = float(line.diameters[line.supports].min())
    seats = make_check(
        machine,
        "bearings",
        part,
        "a bearing for the shaft's seats",
        demand=least,
        capacity=thin,
        unit="mm",
        tight=1.0,
        working=lambda i: bearing_workings.taken(
            "d", "thinnest seat of a bearing on the shaft", thin, "mm"
        ),
        source="ISO 15 as far as the table goes",
        reason=lambda i, say: "seat turned down from the shaft",
        fix=lambda i: [{field: least}, {"bearings.kind": "plain bush"}],
    )
    rows = [row for row in line.bearings if row]
    if len(rows) < len(line.bearings):
        smallest = show(least, "mm", machine.system)
        why = f"the table of rolling bearings begins at a bore of {smallest}, and a seat is thinner"
        return [seats] + [
            replace(
                make_unjudged(machine, "bearings", part, name, why), fixes=lambda: [{field: least}]
            )
            for name in ("rating life", "static load in a jam")
        ]
    thrust = jam_thrust(machine, line.number)
    push, speed = axial_push(machine), machine.running_speed * machine.power_flow.turns[line.number]
    lives, statics = [], []
    for k, row in enumerate(rows):
        axial = push if k + 1 == spec.bearings.locating else 0.0
        lasting, most = loads(line, k)
        load = np.asarray(
            bearing.equivalent_load.formula(lasting, axial, 1e3 * row["static_rating"])
        )
        limit = 1e3 * min(0.5 * row["dynamic_rating"], row["static_rating"])
        lives.append(
            (
                float(load[machine.load_cases.mixing].max()) / row["dynamic_rating"],
                k,
                load,
                limit,
                axial,
            )
        )
        along = np.maximum(axial, thrust) if k + 1 == spec.bearings.locating else axial
        rest = np.asarray(bearing.static_load.formula(most, along))
        pushed = np.broadcast_to(along, rest.shape)
        statics.append((float(rest.max()) / row["static_rating"], k, rest, most, pushed))
    _, k_rest, rest, radial, pushed = max(statics, key=_first)
    safety = spec.safety.bearing_static
    static = 1e3 * rows[k_rest]["static_rating"]
    return [
        seats,
        _life(line, part, rows, lives, speed),
        make_check(
            machine,
            "bearings",
            part,
            "static load in a jam",
            where=machine.load_cases.jammed,
            demand=rest,
            capacity=static,
            unit="N",
            safety=safety,
            working=lambda i: bearing_workings.static(
                float(radial[i]), float(pushed[i]), float(rest[i]), NAMES[k_rest]
            ),
            source="ISO 76 (from memory): what dents its track; slow shafts are governed by it",
            reason=lambda i, say: (
                f"{_size(rows[k_rest], say)} at the {NAMES[k_rest]}: P0 = {say(rest[i], 'N')}, its push along the shaft {say(thrust[i], 'N')} if it locates"
            ),
            fix=lambda i: [
                *_larger_bearings(line, "static_rating", rest[i] * safety / static),
                *calmer(machine, i, rest[i] * safety / static),
                {"bearings.kind": "plain bush"},
                "reducer.overhang",
                "bearings.span",
            ],
        ),
    ]


def _first(row: tuple[Any, ...]) -> float:
    """Share that a row opens with; what cannot be worked out governs all that can."""
    return np.inf if np.isnan(row[0]) else float(row[0])


def _life(
    line: ShaftBeam, part: str, rows: list[TableRow], lives: list[tuple[Any, ...]], speed: Array
) -> Check:
    """Rating life of the bearing that is loaded most for its rating."""
    machine, name = line.machine, "rating life"
    _, place, load, _, push = max(lives, key=_first)
    row, wanted = rows[place], machine.spec.batch.life_hours

    def mended(i: int) -> list[Change]:
        over = (wanted / _hours(row, load, speed)[i]) ** (1 / 3) if speed[i] > 0 else np.inf
        return [
            *_larger_bearings(line, "dynamic_rating", float(over)),
            {"bearings.kind": "plain bush"},
            *LIGHTER,
            "reducer.overhang",
            "bearings.span",
            "motor.run_at",
        ]

    def unknown(why: str, at: int) -> Check:
        worst = int(np.argmax(np.where(machine.load_cases.mixing, load, 0.0)))
        told = f"{NAMES[at]}: {why}"
        return replace(
            make_unjudged(machine, "bearings", part, name, told), fixes=lambda: mended(worst)
        )

    if not machine.running_speed > 0:
        return unknown("shaft 1 does not turn at the frequency the motor is fed with", place)
    for _, k, felt, limit, axial in lives:
        most = float(felt[machine.load_cases.mixing].max())
        if not most <= limit:
            said = [show(one, "N", machine.system) for one in (most, limit)]
            return unknown(
                f"a load of {said[0]} is beyond {said[1]}, up to which ISO 281 reckons", k
            )
        if axial > AXIAL * 1e3 * rows[k]["static_rating"]:
            return unknown("the push is beyond the table of factors for axial load", k)
    life = _hours(row, load, speed)
    return make_check(
        machine,
        "bearings",
        part,
        name,
        where=machine.load_cases.mixing,
        demand=wanted,
        capacity=life,
        unit="hour",
        working=lambda i: bearing_workings.life(
            1e3 * row["dynamic_rating"], float(load[i]), float(speed[i]), push, float(life[i])
        ),
        source="ISO 281; ratings of data/tables/rolling_bearings.csv",
        reason=lambda i, say: (
            f"{_size(row, say)} at the {NAMES[place]}: P = {say(load[i], 'N')}, "
            f"C = {say(1e3 * row['dynamic_rating'], 'N')}, {say(speed[i], 'rpm')}"
        ),
        fix=mended,
    )


def _hours(row: TableRow, load: Array, speed: Array) -> Array:
    # a newton is nothing to a bearing, and no load at all would last for ever; where it stands it does
    life = bearing.rating_life.formula(
        1e3 * row["dynamic_rating"], np.maximum(load, 1.0), np.where(speed > 0, speed, 1.0)
    )
    return np.where(speed > 0, life, np.inf)
