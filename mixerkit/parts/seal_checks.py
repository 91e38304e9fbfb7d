"""The seals where the shafts leave the trough: room, rubbing, and their share of the torque."""

from __future__ import annotations

import numpy as np

from mixerkit.checking import make_check
from mixerkit.checks import Check
from mixerkit.parts import bearing, bearing_workings
from mixerkit.parts.along import bearing_places
from mixerkit.parts.reduction import (
    efficiency_given,
    ratio_given,
    reduction_worked,
    total_efficiency,
    total_ratio,
)
from mixerkit.parts.shaftline import ShaftBeam
from mixerkit.parts.worked import WorkedMachine
from mixerkit.parts.zones import thickest
from mixerkit.results import LoadedMachine
from mixerkit.spec import Shaft, Spec
from mixerkit.tables import table
from mixerkit.working import by_method, worked

__all__ = ["seal_drag", "seal_room", "seal_share", "seals"]


_SEALS_SHARE = 0.15
"""Of the torque at the slow end that seals may take (common practice)."""


def seal_room(spec: Spec, line: ShaftBeam) -> float:
    """Room in mm between trough wall and bearing for a seal and an open gap."""
    row = line.bearings[1]
    width = row["width"] if row else spec.bearings.bush_length
    _, near, far = (line.places[i] for i in line.supports)
    wall = spec.trough.wall_thickness
    plate = spec.housing.plate_thickness / 2
    spare = (far - near - spec.trough.length) / 2 - wall
    # plate and far wall with its bosses may be thicker than the bearings in them are wide
    far_wall = max(spec.frame.wall_thickness, spec.frame.boss_length) / 2
    return float(spare - max(width / 2, plate, far_wall))


def seal_share(machine: LoadedMachine) -> tuple[float, float]:
    """Torque in N*m that all four seals take, and its share of what the clay asks on average.

    Of clay that asks nothing there is no share: not a number.
    """
    total = sum(seal_drag(machine.spec))
    asked = 2 * machine.clay_load.mean
    return total, total / asked if asked > 0 else np.nan


def seal_drag(spec: Spec) -> tuple[float, float]:
    """Torque in N*m that both seals of each shaft take from it while it turns."""
    seal = table("seals").find(spec.bearings.seal).values

    def both(own: Shaft) -> float:
        one = bearing.seal_torque.formula(seal["line_load"], _at_seals(spec, own), seal["friction"])
        return 2 * float(one)

    return both(spec.shaft_1), both(spec.shaft_2)


def _at_seals(spec: Spec, own: Shaft) -> float:
    """Thickest a shaft is from the trough's plate on, in mm: what its seals may rub on."""
    return thickest(own, bearing_places(spec)[1], float("inf"))


def seals(machine: WorkedMachine) -> list[Check]:
    """Check the seals of both shafts."""
    return [_keeps_out(machine), _finds_room(machine), _share(machine)]


def _keeps_out(machine: LoadedMachine) -> Check:
    """Whether the seal keeps slip from the bearings."""
    name = machine.spec.bearings.seal
    keeps = table("seals").find(name).values["keeps_out_slip"] == "yes"
    rule = "1 for a seal that keeps slip out, 0 for one that does not: data/tables/seals.csv"
    return make_check(
        machine,
        "bearings",
        "seals",
        "seal keeps slip from the bearings",
        demand=1.0,
        capacity=float(keeps),
        unit="",
        words=("a seal that keeps slip out", name),
        tight=1.0,
        working=lambda i: bearing_workings.taken("k", rule, 1.0, ""),
        source="data/tables/seals.csv: common practice",
        reason=lambda i, say: f"{name} where each shaft leaves the trough",
        fix=lambda i: [
            {"bearings.seal": one}
            for one in ("packed gland, greased", "two lip seals, greased between")
        ],
    )


def _finds_room(machine: WorkedMachine) -> Check:
    """Whether a seal and an open gap find room between trough and bearing."""
    bearings = machine.spec.bearings
    length = table("seals").find(bearings.seal).values["length"]
    room = min(seal_room(machine.spec, line) for line in machine.shaft_beams)
    asked = length + bearings.drain_gap
    return make_check(
        machine,
        "bearings",
        "seals",
        "room for seal and open gap",
        demand=asked,
        capacity=room,
        unit="mm",
        tight=1.0,
        working=lambda i: [
            worked(
                "l = l_s + s",
                asked,
                "mm",
                l_s=(length, "mm", f"data/tables/seals.csv, {bearings.seal}: length"),
                s=(bearings.drain_gap, "mm", "bearings.drain_gap"),
            )
        ],
        source="what passes the seal must drop out before the bearing: common practice",
        reason=lambda i, say: f"seal {say(length, 'mm')}, gap {say(bearings.drain_gap, 'mm')}",
        fix=lambda i: [
            {"bearings.span": bearings.span + 2 * (asked - room)},
            {"bearings.seal": "packed gland, greased"},
            "trough.length",
            "trough.wall_thickness",
        ],
    )


def _share(machine: LoadedMachine) -> Check:
    """Whether the seals leave the motor's torque to the clay, however soft that is."""
    spec, able = machine.spec, machine.power_flow.abilities
    torque = sum(seal_drag(spec))
    given = able.lasting * total_ratio(spec) * total_efficiency(spec)
    allowed = _SEALS_SHARE * given
    return make_check(
        machine,
        "bearings",
        "seals",
        "seals leave the torque to the clay",
        demand=torque,
        capacity=allowed,
        unit="N*m",
        working=lambda i: [
            by_method(
                "T_s",
                "line load times friction times the radius at each of the four seals: data/tables/seals.csv",
                torque,
                "N*m",
            ),
            worked(
                "T_max = c*T*i*eta",
                allowed,
                "N*m",
                c=(_SEALS_SHARE, "", "common practice"),
                T=(able.lasting, "N*m", "power flow, what the motor gives all day"),
                i=ratio_given(spec),
                eta=efficiency_given(spec),
            ),
            *reduction_worked(spec),
        ],
        source="15 % of what motor and box give all day: common practice",
        reason=lambda i, say: f"four seals, {say(given, 'N*m')} at the slow end",
        fix=lambda i: [
            {"bearings.seal": "two lip seals, greased between"},
            "shaft_1.diameter",
            "shaft_2.diameter",
        ],
    )
