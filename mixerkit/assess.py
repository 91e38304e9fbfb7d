"""Work out the whole machine in every state and check it, stage by stage along the power path."""

from __future__ import annotations

from collections.abc import Callable, Collection
from dataclasses import dataclass
from typing import Any

from mixerkit.cases import CLUTCH_POSITIONS, LOADS, MODES, Case, Makers, State, all_states
from mixerkit.checks import Check, Verdict, weakest
from mixerkit.design import Design
from mixerkit.drive import (
    clutch_checks,
    gearpaths,
    guarding,
    jam_checks,
    motor,
    motor_checks,
    powerflow,
    reducer,
)
from mixerkit.frozen import cached_property
from mixerkit.load import clay, clearance, paddles, stems, trough
from mixerkit.parts import bearing_checks, gear_checks, hub_checks, shaft_checks, shaftline
from mixerkit.results import Batch, ClayLoad
from mixerkit.units import Q_

__all__ = [
    "CLUTCH_POSITIONS",
    "LOADS",
    "MAKERS",
    "MODES",
    "STAGES",
    "Assessment",
    "State",
    "Station",
    "assess",
    "path_speeds",
    "work_out",
]

Maker = Callable[[Case], list[Check]]
STAGES: dict[str, tuple[Maker, ...]] = {
    "trough": (trough.checks,),
    "paddles": (clay.checks, clearance.checks, stems.checks),
    "motor": (motor_checks.checks,),
    "reducer": (reducer.checks,),
    "gear paths": (gearpaths.checks,),
    "gears": (gear_checks.checks,),
    "clutch": (clutch_checks.checks,),
    "shafts": (shaft_checks.checks,),
    "hubs": (hub_checks.checks,),
    "bearings": (bearing_checks.checks,),
    "guards": (guarding.checks,),
    "jam": (jam_checks.start_checks,),
}
"""Stages in the order of the power path, and what checks each; the jam's ladder comes after all of them."""
MAKERS = tuple(one for makers in STAGES.values() for one in makers)
"""What makes the checks, all but the jam's."""


@dataclass(frozen=True)
class Station:
    """One place along the power path, with its values over all states.

    Attributes
    ----------
    name : str
    speed, torque, power : quantity, shape (states,)
        Speeds are signed by direction; torque and power are magnitudes.
    """

    name: str
    speed: Any
    torque: Any
    power: Any


@dataclass(frozen=True)
class Assessment:
    """What is known of a design.

    Attributes
    ----------
    design : Design
    case : Case
        The design laid out over all states, in plain numbers.
    checks : tuple of Check
        In the order of the power path, each in the state that governs it.
    """

    design: Design
    case: Case
    checks: tuple[Check, ...]

    @property
    def states(self) -> tuple[State, ...]:
        """Every state that was worked out, in the order of all arrays."""
        return self.case.states

    @property
    def weakest(self) -> Check:
        """The check with the least spare."""
        return weakest(self.checks)

    @property
    def verdict(self) -> Verdict:
        """The worst verdict of any check."""
        found = {check.verdict for check in self.checks}
        return next(one for one in ("fails", "tight", "holds") if one in found)

    @cached_property
    def ladder(self) -> tuple[jam_checks.Rung, ...]:
        """Every part by the torque at which it gives way in a jam, weakest first."""
        return tuple(jam_checks.ladder(self.case, self.checks))

    @cached_property
    def stations(self) -> tuple[Station, ...]:
        """Places from the motor's shaft to the paddles of shaft 2."""
        return tuple(
            Station(name, Q_(speed, "rpm"), Q_(torque, "N*m"), Q_(power, "kW"))
            for name, (speed, torque, power) in self.case.flow.stations.items()
        )

    @cached_property
    def losses(self) -> dict[str, Any]:
        """Power lost in the reducer, in the gear path and in the seals, over all states."""
        return {name: Q_(power, "kW") for name, power in self.case.flow.losses.items()}

    @cached_property
    def needed_diameters(self) -> dict[str, dict[str, Any]]:
        """Diameter that each rule asks of each shaft, in the state that asks most."""
        return {
            f"shaft {number}": {
                rule: Q_(diameter, "mm")
                for rule, diameter in shaft_checks.needed_diameters(self.case, number).items()
            }
            for number in (1, 2)
        }

    @cached_property
    def batch(self) -> Batch:
        """Time, throughput, energy and warming of a batch, counter-rotating and evenly loaded.

        The slower shaft makes the turns that are wanted, the other more of them.
        """
        spec, here = self.design, self.index("direct")
        flow = self.case.flow
        turns = [float(flow.turns[shaft][here]) for shaft in (1, 2)]
        slower = min(turns)
        mean = sum(turns) / slower * self.case.asks.mean * (1 + spec.paddles.nip_share)
        # torques times turns stand for powers, as box and motor turn in their ratio
        gets = sum(one[here] * turn for one, turn in zip(flow.paddles, turns, strict=True))
        # of clay that asks nothing there is no share: not a number
        losses = float(flow.motor[here] * spec.reducer.ratio / gets) if gets > 0 else float("nan")
        return trough.run(spec, mean, self.case.speed * slower, losses)

    def station(self, name: str) -> Station:
        """Find a station by its name."""
        return next(one for one in self.stations if one.name == name)

    def index(self, clutch: str, direction: int = 1, load: str = "mixing") -> int:
        """Find the place of a state in the arrays."""
        return self.states.index(State(clutch, direction, load))

    def of_stage(self, *stages: str) -> tuple[Check, ...]:
        """Checks of some stages; of all where none is named."""
        return tuple(check for check in self.checks if not stages or check.stage in stages)


def path_speeds(design: Design, clutch: str) -> dict[str, float]:
    """Speeds of shafts and wheels for one turn of shaft 1, with the clutch in a position.

    Parameters
    ----------
    design : Design
    clutch : str
        ``"direct"``, ``"neutral"`` or ``"idler"``.

    Returns
    -------
    dict of str to float
        See :func:`mixerkit.drive.gearpaths.solve_speeds`.

    Examples
    --------
    >>> path_speeds(Design.demo(), "neutral")["shaft 2"]
    0.0
    """
    counts = {name: getattr(design.paths, name).tooth_counts for name in ("direct", "idler")}
    return gearpaths.solve_speeds(
        counts, [] if clutch == "neutral" else [clutch], design.clutch.shaft
    )


def assess(design: Design) -> Assessment:
    """Work out every stage of a design in every state, and check it.

    Parameters
    ----------
    design : Design

    Returns
    -------
    Assessment

    Examples
    --------
    >>> assess(Design.demo()).verdict
    'holds'
    """
    case = lay_out(design, design.show_units)
    return Assessment(design, case, work_out(case, None))


def lay_out(spec: Any, system: str) -> Case:
    """Lay a design out over all states; what is asked of the case is worked out when first asked for.

    Parameters
    ----------
    spec : Spec
        The design's records, or what stands in for them and is read like them.
    system : str
        ``"metric"`` or ``"inch"``.

    Returns
    -------
    Case
    """
    return Case(spec, all_states(), system, _CASE)


def work_out(case: Case, only: Collection[Maker] | None) -> tuple[Check, ...]:
    """Make the checks of all or of some makers.

    Parameters
    ----------
    case : Case
    only : collection of callable or None
        Of :data:`MAKERS`; all of them, and the jam, if none.

    Returns
    -------
    tuple of Check
    """
    found: list[Check] = []
    for stage, makers in STAGES.items():
        for make in makers:
            if only is None or make in only:
                found += _guarded(case, stage, make)
    if only is None:
        found += _guarded(case, "jam", lambda whole: jam_checks.checks(whole, found))
    return tuple(found)


def _speed(case: Case) -> float:
    return motor.shaft_speed(case.spec)


def _empty_speed(case: Case) -> float:
    return motor.empty_speed(case.spec)


def _asks(case: Case) -> ClayLoad:
    # the faster of both shafts shears the clay faster, which then is the stronger
    return paddles.demand(case.spec, case.speed * powerflow.fastest_turn(case.spec))


_CASE = Makers(
    speed=_speed,
    empty_speed=_empty_speed,
    asks=_asks,
    flow=powerflow.power_flow,
    lines=shaftline.lines,
)


def _guarded(case: Case, stage: str, make: Maker) -> list[Check]:
    """Checks of a stage; where one is out of a formula's or a table's range, that, as failing.

    One part that cannot be judged never keeps the others from being judged.
    """
    try:
        return make(case)
    except (ArithmeticError, LookupError, ValueError) as error:
        why = "; ".join(getattr(error, "messages", ())) or "a size is out of every range"
        return [case.not_judged(stage, stage, "could be worked out", why)]
