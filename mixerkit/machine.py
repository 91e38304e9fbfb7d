"""The whole machine worked out from one design: each result once, when it is first asked for."""

from __future__ import annotations

from collections.abc import Collection, Mapping
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from pint import Quantity

from mixerkit.checking import make_unjudged
from mixerkit.checks import Check, Verdict, weakest
from mixerkit.design import Design
from mixerkit.drive import gearpaths, ladder, motor, powerflow
from mixerkit.fields import Record
from mixerkit.frozen import cached_property
from mixerkit.load import clay_load, trough
from mixerkit.parts import shaft_checks, shaftline
from mixerkit.parts.reduction import loaded_ratio
from mixerkit.results import Array, Batch, ClayLoad, PowerFlow
from mixerkit.spec import Spec
from mixerkit.stages import LADDER, MAKERS, STAGES, Maker
from mixerkit.states import LOAD_CASES, LoadCase, LoadCases
from mixerkit.units import Q_

__all__ = ["Machine", "Station", "path_speeds"]


@dataclass(frozen=True)
class Station:
    """One place along the power path, with its values over all load cases.

    Attributes
    ----------
    name : str
    speed, torque, power : quantity, shape (load cases,)
        Speeds are signed by direction; torque and power are magnitudes.
    """

    name: str
    speed: Quantity[Array]
    torque: Quantity[Array]
    power: Quantity[Array]


@dataclass(frozen=True)
class Machine:
    """All that is known of a design.

    It compares and pickles by its design alone: what follows from it is worked out anew where it is asked for.

    Attributes
    ----------
    design : Design

    Examples
    --------
    >>> demo = Machine(Design.demo())
    >>> demo.verdict, demo.with_values({"shaft_2.diameter": "20 mm"}).verdict
    ('tight', 'fails')
    """

    design: Design

    def __reduce__(self) -> tuple[type[Machine], tuple[Design]]:
        return Machine, (self.design,)

    def with_values(self, values: Mapping[str, Any]) -> Machine:
        """Give the machine of a changed design.

        Parameters
        ----------
        values : mapping of str to any
            Dotted names of fields and their values, see :meth:`mixerkit.design.Design.with_values`.

        Returns
        -------
        Machine

        Raises
        ------
        InputError
            If the design refuses a value.
        """
        return Machine(self.design.with_values(values))

    def with_numbers(self, **records: Record) -> Machine:
        """Give the machine with some records exchanged for others, which are not read again."""
        return Machine(self.design.with_numbers(**records))

    # ------------------------------------------------------------------ what the stages are given

    @cached_property
    def spec(self) -> Spec:
        """The design's records."""
        return self.design

    @cached_property
    def system(self) -> str:
        """Units this maker reads: ``"metric"`` or ``"inch"``."""
        return self.design.show_units

    @cached_property
    def load_cases(self) -> LoadCases:
        """Every load case, in the order of all arrays."""
        return LOAD_CASES

    @cached_property
    def running_speed(self) -> float:
        """Speed of shaft 1 in rpm, the one that life, wear and batch are reckoned with.

        While it mixes, at the frequency the motor is fed with and under its rated torque; see
        :func:`mixerkit.drive.motor.shaft_speed`.
        """
        return motor.shaft_speed(self.spec)

    @cached_property
    def empty_speed(self) -> float:
        """Speed of shaft 1 in rpm with the trough empty, from which run-down and jam are reckoned.

        See :func:`mixerkit.drive.motor.empty_speed`.
        """
        return motor.empty_speed(self.spec)

    @cached_property
    def clay_load(self) -> ClayLoad:
        """What the clay asks of one shaft, see :func:`mixerkit.load.clay_load.demand`."""
        # the faster of both shafts shears the clay faster, which then is the stronger
        return clay_load.demand(self.spec, self.running_speed * powerflow.fastest_turn(self.spec))

    @cached_property
    def power_flow(self) -> PowerFlow:
        """Torques and speeds along the power path, see :func:`mixerkit.drive.powerflow.power_flow`."""
        return powerflow.power_flow(self)

    @cached_property
    def shaft_beams(self) -> tuple[shaftline.ShaftBeam, shaftline.ShaftBeam]:
        """Both shafts as beams, see :class:`mixerkit.parts.shaftline.ShaftBeam`."""
        return shaftline.ShaftBeam(self, 1), shaftline.ShaftBeam(self, 2)

    # ------------------------------------------------------------------ answers

    @cached_property
    def checks(self) -> tuple[Check, ...]:
        """Every check in the order of the power path, each in the load case that governs it."""
        found = self.checks_of(MAKERS)
        stage, climb = LADDER
        return (*found, *self._guarded(stage, lambda machine: climb(machine, found)))

    def checks_of(self, makers: Collection[Maker]) -> tuple[Check, ...]:
        """Make the checks of some makers only.

        Parameters
        ----------
        makers : collection of callable
            Of :data:`mixerkit.stages.MAKERS`.

        Returns
        -------
        tuple of Check
        """
        return tuple(
            check
            for stage in STAGES
            for make in stage.makers
            if make in makers
            for check in self._guarded(stage.key, make)
        )

    def _guarded(self, stage: str, make: Maker) -> list[Check]:
        """Checks of a stage; where one is out of a formula's or a table's range, that, as failing.

        One part that cannot be judged never keeps the others from being judged.
        """
        try:
            return make(self)
        except (ArithmeticError, LookupError, ValueError) as error:
            why = "; ".join(getattr(error, "messages", ())) or "a size is out of every range"
            return [make_unjudged(self, stage, stage, "could be worked out", why)]

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
    def ladder(self) -> tuple[ladder.Rung, ...]:
        """Every part by the torque at which it gives way in a jam, weakest first."""
        return tuple(ladder.ladder(self, self.checks))

    @cached_property
    def stations(self) -> tuple[Station, ...]:
        """Places from the motor's shaft to the paddles of shaft 2."""
        return tuple(
            Station(name, Q_(speed, "rpm"), Q_(torque, "N*m"), Q_(power, "kW"))
            for name, (speed, torque, power) in self.power_flow.stations.items()
        )

    @cached_property
    def losses(self) -> dict[str, Quantity[Array]]:
        """Power lost in the reducer, in the gear path and in the seals, over all load cases."""
        return {name: Q_(power, "kW") for name, power in self.power_flow.losses.items()}

    @cached_property
    def needed_diameters(self) -> dict[str, dict[str, Quantity[float]]]:
        """Diameter that each rule asks of each shaft, in the load case that asks most."""
        return {
            f"shaft {number}": {
                rule: Q_(diameter, "mm")
                for rule, diameter in shaft_checks.needed_diameters(self, number).items()
            }
            for number in (1, 2)
        }

    @cached_property
    def batch(self) -> Batch:
        """Time, throughput, energy and warming of a batch, counter-rotating and evenly loaded.

        Shaft 1 makes the turns that are wanted, shaft 2 as many as its gears give it. A machine that stalls
        never ends.
        """
        spec, here, flow = self.spec, self.index("direct"), self.power_flow
        turns = [float(flow.turns[shaft][here]) for shaft in (1, 2)]
        mean = sum(turns) * self.clay_load.mean * (1 + spec.paddles.nip_share)
        # torques times turns stand for powers, as shaft 1 and motor turn in their ratio
        gets = sum(one[here] * turn for one, turn in zip(flow.paddles, turns, strict=True))
        # of clay that asks nothing there is no share: not a number
        losses = (
            float(flow.torque_at_motor[here] * loaded_ratio(spec) / gets)
            if gets > 0
            else float("nan")
        )
        stalls = flow.torque_at_motor[here] > flow.abilities.greatest
        return trough.run(spec, mean, 0.0 if stalls else self.running_speed, losses)

    # ------------------------------------------------------------------ finding

    def station(self, name: str) -> Station:
        """Find a station by its name."""
        return next(one for one in self.stations if one.name == name)

    def index(self, clutch: str, direction: int = 1, load: str = "mixing") -> int:
        """Find the place of a load case in the arrays."""
        return LOAD_CASES.index(LoadCase(clutch, direction, load))

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
