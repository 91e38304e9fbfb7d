"""Speed, torque and power along the path from the motor to both paddle shafts."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from functools import lru_cache

import numpy as np

from mixerkit.drive import fuses, gearpaths, induction, jam, motor, reducer
from mixerkit.frozen import FrozenDict
from mixerkit.parts import seal_checks
from mixerkit.parts.reduction import (
    drive_efficiency,
    drive_ratio,
    kept_turns,
    loaded_ratio,
    total_efficiency,
    total_ratio,
)
from mixerkit.results import Abilities, Array, LoadedMachine, PowerFlow
from mixerkit.spec import Spec
from mixerkit.states import CLUTCH_POSITIONS

__all__ = ["fastest_turn", "motor_at_slow_end", "power_flow"]

PATHS = ("direct", "idler")


def motor_at_slow_end(spec: Spec, torque: float) -> float:
    """Torque in N*m of the motor as it arrives at the slow end, running."""
    ratio, share = total_ratio(spec), total_efficiency(spec)
    return float(reducer.output_torque.formula(torque, ratio, share))


def power_flow(machine: LoadedMachine) -> PowerFlow:
    """Work out the power path in every state.

    While mixing and starting, clay and seals set the torque, and the motor follows; mixing at the slip it
    asks. In a jam the motor gives its greatest, the wound-up train comes on top, a fuse cuts both short, and
    all of it goes to the jammed shaft, with nothing lost in the meshes; what winds it up comes from the rotor, through the motor's shaft end.

    Parameters
    ----------
    machine : LoadedMachine

    Returns
    -------
    PowerFlow
        Arrays over the load cases.
    """
    spec, able = machine.spec, motor.abilities(machine.spec)
    path, share_kept = _path_in_use(machine), _kept_by_the_box(machine)
    share, asked = _asked_of_the_shafts(machine)
    greatest = motor_at_slow_end(spec, able.pushing)
    through_all = share_kept * drive_efficiency(spec)
    bare = _jams(machine, jam.stall_torques(spec, greatest))
    stop = np.minimum(bare, fuses.fuse_torques(spec)[1])
    paddle_1, paddle_2 = _at_paddles(machine, stop, path.lever, share, asked)
    drag_1, drag_2 = _rubbing(machine)
    second = paddle_2 + drag_2
    through = second * path.lever
    slow = paddle_1 + drag_1 + through
    fast = np.asarray(reducer.input_torque.formula(slow, total_ratio(spec), through_all))
    fast_speed = _speed_while_mixing(machine, able, fast)
    slow_speed = np.asarray(reducer.output_speed.formula(fast_speed, loaded_ratio(spec)))
    torques = (fast, slow, paddle_1, through, paddle_2)
    stations = _stations(_along(spec, torques, (fast_speed, slow_speed, path.relative)))
    return PowerFlow(
        stations=stations,
        losses=_losses(spec, stations, path, drag_1, drag_2),
        abilities=able,
        rated=able.rated,
        greatest=greatest,
        jam_torque=stop,
        jam_torque_without_fuse=bare,
        torque_at_motor=fast,
        torque_at_box_output=slow,
        torque_into_gear_path=through,
        wound_up=np.flatnonzero(machine.load_cases.jammed & (slow > 0)),
        paddles=(paddle_1, paddle_2),
        at_gears={1: through, 2: second},
        drag={1: drag_1, 2: drag_2},
        box_efficiency=share_kept,
        efficiency=through_all,
        into_box=stations.get(_BOX, stations["motor shaft"]),
        speed_while_mixing=fast_speed,
        turns={1: np.ones(len(machine.load_cases)), 2: np.abs(path.relative)},
        slides=_slides(machine),
        asked=asked,
    )


def _along(
    spec: Spec, torques: tuple[Array, ...], speeds: tuple[Array, Array, Array]
) -> dict[str, tuple[Array, Array]]:
    """Speed in rpm and torque in N*m of each station in the order of the path.

    Torques are at the motor, the box's output, the paddles of shaft 1, into the gear path and at the paddles
    of shaft 2; speeds those of motor and shaft 1, and turns of shaft 2 for one of shaft 1.
    """
    fast, slow, paddle_1, through, paddle_2 = torques
    fast_speed, slow_speed, relative = speeds
    return {
        "motor shaft": (fast_speed, fast),
        **_into_box(spec, fast_speed, fast),
        "reducer output": (slow_speed, slow),
        "paddles of shaft 1": (slow_speed, paddle_1),
        "gear path": (slow_speed, through),
        "paddles of shaft 2": (slow_speed * relative, paddle_2),
    }


def _stations(
    found: Mapping[str, tuple[Array, Array]],
) -> dict[str, tuple[Array, Array, Array]]:
    """Speed in rpm, torque in N*m and power in kW of each station, by its speed and torque."""
    return {
        name: (speed, torque, np.abs(induction.shaft_power.formula(torque, speed)))
        for name, (speed, torque) in found.items()
    }


_BOX = "reducer input"
"""Station of the box's fast end, where it turns otherwise than the motor."""


def _into_box(spec: Spec, speed: Array, torque: Array) -> dict[str, tuple[Array, Array]]:
    """Station of the box's fast end with its speed in rpm and torque in N*m, where belts or a chain turn it."""
    if spec.motor_drive.kind not in {"V-belt", "chain"}:
        return {}
    turns, more = kept_turns(spec) / drive_ratio(spec), drive_ratio(spec) * drive_efficiency(spec)
    return {_BOX: (speed * turns, torque * more)}


def _losses(
    spec: Spec,
    stations: Mapping[str, tuple[Array, Array, Array]],
    path: _Path,
    drag_1: Array,
    drag_2: Array,
) -> dict[str, Array]:
    """Power in kW that belts or chain, box, gear path and seals make heat of, by the seals' drag in N*m."""
    turning = np.abs(stations["reducer output"][0])
    rubbing = drag_1 + drag_2 * np.abs(path.relative)
    given, taken = stations["motor shaft"][2], stations.get(_BOX, stations["motor shaft"])[2]
    before = {"motor drive": given - taken} if _BOX in stations else {}
    return {
        **before,
        "reducer": taken * (1 - spec.reducer.efficiency),
        "gear path": stations["gear path"][2] * (1 - path.kept),
        "seals": np.abs(induction.shaft_power.formula(rubbing, turning)),
    }


def _kept_by_the_box(machine: LoadedMachine) -> Array:
    """Share of the power that the box passes: cold and from rest never more than warm and turning."""
    box = machine.spec.reducer
    at_start = min(box.start_efficiency, box.efficiency)
    return np.where(machine.load_cases.starting, at_start, box.efficiency)


def _at_paddles(
    machine: LoadedMachine, stop: Array, lever: Array, share: Array, asked: Array
) -> tuple[Array, Array]:
    """Torque in N*m at the paddles of each shaft: the clay's, or all of a jam on the shaft that it stops."""
    driven = machine.load_cases.clutch != "neutral"
    jam_1, jam_2 = (
        machine.load_cases.load == "jam on shaft 1",
        machine.load_cases.load == "jam on shaft 2",
    )
    all_on_2 = np.divide(stop, lever, out=np.zeros_like(lever), where=driven)
    paddle_1 = np.select([jam_1, jam_2], [stop, 0.0], share * asked)
    paddle_2 = np.select([jam_1, jam_2], [0.0, all_on_2], (1 - share) * asked) * driven
    return np.asarray(paddle_1), np.asarray(paddle_2)


def _asked_of_the_shafts(machine: LoadedMachine) -> tuple[Array, Array]:
    """Share of the clay's torque that shaft 1 bears, and that torque of both shafts in N*m."""
    spec, asks, cases = machine.spec, machine.clay_load, machine.load_cases
    level = 2 * asks.peak
    # clay heaped on one shaft: what that alone asks may be more than its share of what both ask level
    uneven = max(level, asks.heaped + asks.beside)
    heavier = max(spec.batch.heavier_share * level, asks.heaped) / uneven if uneven > 0 else 0.5
    on_1, on_2 = cases.heavier(1), cases.heavier(2)
    share = np.select([on_1, on_2], [heavier, 1 - heavier], 0.5)
    nip = np.where(cases.clutch == "direct", 1 + spec.paddles.nip_share, 1.0)
    whole = np.where(on_1 | on_2, uneven, level)
    starts = np.where(cases.starting, spec.clay.start_factor, 1.0)
    return np.asarray(share), np.asarray(whole * nip * starts)


def _rubbing(machine: LoadedMachine) -> tuple[Array, Array]:
    """Torque in N*m of the seals of each shaft while it turns or is to; shaft 2 stands in neutral."""
    spec = machine.spec
    # seals rub while the shafts turn, and stick at first as the clay does; in a jam they only hold back
    rubs = np.select(
        [machine.load_cases.mixing, machine.load_cases.starting], [1.0, spec.clay.start_factor], 0.0
    )
    drag_1, drag_2 = seal_checks.seal_drag(spec)
    return drag_1 * rubs, drag_2 * rubs * (machine.load_cases.clutch != "neutral")


def _speed_while_mixing(machine: LoadedMachine, able: Abilities, fast: Array) -> Array:
    """Speed of the motor in rpm under its torque in N*m, nought where it does not mix."""
    # beyond breakdown it stands; the speed at breakdown is reported so that the power asked can be seen
    lag = induction.slip_at_torque(fast, able.breakdown, able.slip)
    turning = able.field - np.nan_to_num(lag, nan=able.slip) * able.plate_field
    forward: Array = np.maximum(turning, 0.0)
    return forward * machine.load_cases.direction * machine.load_cases.mixing


def _jams(machine: LoadedMachine, torques: dict[tuple[str, int], float]) -> Array:
    """Torque of each jam put to its states, nought elsewhere."""
    return np.select(
        [
            (machine.load_cases.clutch == clutch) & (machine.load_cases.load == f"jam on shaft {n}")
            for clutch, n in torques
        ],
        list(torques.values()),
        0.0,
    )


@dataclass(frozen=True)
class _Path:
    """The engaged path over the load cases.

    Attributes
    ----------
    lever : array
        Torque on shaft 1 for 1 N*m on shaft 2, nought in neutral; without losses in a jam.
    kept : array
        Share of the power that it passes.
    relative : array
        Turns of shaft 2 for one of shaft 1.
    """

    lever: Array
    kept: Array
    relative: Array


def _path_in_use(machine: LoadedMachine) -> _Path:
    """Find the path that is engaged in each load case.

    Meshes that a jam stops are taken to lose nothing: what rubs there can be relied on to spare no part.
    """
    count, stopped = len(machine.load_cases), machine.load_cases.jammed
    found = _Path(lever=np.zeros(count), kept=np.ones(count), relative=np.zeros(count))
    for name in PATHS:
        path, here = getattr(machine.spec.paths, name), machine.load_cases.clutch == name
        found.relative[here] = _relative(machine.spec, name)["shaft 2"]
        for cases, each in ((here & ~stopped, path.mesh_efficiency), (here & stopped, 1.0)):
            found.lever[cases] = gearpaths.path_torque.formula(1.0, path.tooth_counts, each)
            found.kept[cases] = gearpaths.path_efficiency(path.tooth_counts, each)
    return found


def fastest_turn(spec: Spec) -> float:
    """Turns of the faster shaft for one of shaft 1, in the position in which it is fastest; at least 1."""
    return max(1.0, *(abs(_relative(spec, name)["shaft 2"]) for name in PATHS))


def _slides(machine: LoadedMachine) -> dict[str, Array]:
    """Turns of each path's free gear in its bush for one turn of shaft 1, over the states."""
    shaft = machine.spec.clutch.shaft
    found = {name: np.zeros(len(machine.load_cases)) for name in PATHS}
    for clutch in CLUTCH_POSITIONS:
        speeds, here = _relative(machine.spec, clutch), machine.load_cases.clutch == clutch
        for name in PATHS:
            count = len(getattr(machine.spec.paths, name).tooth_counts)
            gear = gearpaths.wheel_name(name, 0 if shaft == 1 else count - 1, count)
            apart = abs(speeds[gear] - speeds[f"shaft {shaft}"])
            # the held gear turns with its shaft, to the last digits
            found[name][here] = 0.0 if name == clutch else apart
    return found


def _relative(spec: Spec, clutch: str) -> Mapping[str, float]:
    """Speeds of shafts and wheels for one turn of shaft 1, with the clutch in a position."""
    counts = tuple((name, getattr(spec.paths, name).tooth_counts) for name in PATHS)
    return _solved(counts, clutch, spec.clutch.shaft)


@lru_cache(maxsize=512)
def _solved(
    counts: tuple[tuple[str, tuple[int, ...]], ...], clutch: str, shaft: int
) -> Mapping[str, float]:
    """What :func:`_relative` gives, by what it depends on; most knobs leave the teeth as they are."""
    engaged = [] if clutch == "neutral" else [clutch]
    return FrozenDict(gearpaths.solve_speeds(dict(counts), engaged, shaft))
