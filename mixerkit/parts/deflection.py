"""How a shaft bends: slopes at gears and bearings, sag of its paddles, first bending speed."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from math import ceil

import numpy as np

from mixerkit.checking import make_check
from mixerkit.checks import Change, Check
from mixerkit.parts import fits
from mixerkit.parts.along import NAMES
from mixerkit.parts.bush_walls import RUNNING_FIT
from mixerkit.parts.remedies import LIGHTER, calmer, lengths
from mixerkit.parts.shaftline import ShaftBeam
from mixerkit.parts.zones import as_turned
from mixerkit.results import Array, Indices, LoadedMachine
from mixerkit.spec import Spec
from mixerkit.working import Working, by_method, worked

__all__ = [
    "SLOPE_AT_BEARINGS",
    "checks",
    "lean_in_bush",
    "least_play",
    "over_states",
    "slope_taken",
    "thicker",
    "touching",
]

SLOPE_AT_GEARS = 1e-3
"""Slope in rad at a gear: 0.0005 for spur gears without crowning (Shigley, table 7-2, as reprinted); twice
that for hand-cut ones that run in (common practice)."""
SLOPE_AT_BEARINGS = {"rolling": 1e-3, "plain bush": 1e-3}
"""Deep groove ball bearings 0.001 to 0.003, the low end (Shigley, table 7-2, as reprinted); bush: common practice, and
no more than its play lets it lean."""


def least_play(size: float) -> float:
    """Least play in mm of what turns in a bush of a size."""
    return fits.fit(min(size, fits.MOST), RUNNING_FIT).tightest


def lean_in_bush(play: float, length: float) -> float:
    """Slope in rad that a bush takes: no more than to touch it at both ends, its least play over its length."""
    return min(SLOPE_AT_BEARINGS["plain bush"], play / length)


def touching(play: float, length: float, field: str) -> Working:
    """Say how :func:`lean_in_bush` was got, the bush's length being a field's."""
    return worked(
        "phi_max = Min(phi_a, s/b)",
        1e3 * lean_in_bush(play, length),
        "mrad",
        phi_a=(1e3 * SLOPE_AT_BEARINGS["plain bush"], "mrad", "common practice"),
        s=(play, "mm", f"least play of {RUNNING_FIT}: ISO 286-2"),
        b=(length, "mm", field),
    )


def bush_play(spec: Spec, number: int, name: str) -> float:
    """Least play in mm of a shaft in its bush at one of :data:`mixerkit.parts.along.NAMES`."""
    return least_play(as_turned(spec, number, name))


def slope_taken(spec: Spec, number: int, name: str) -> float:
    """Slope in rad that a shaft's bearing takes at one of :data:`mixerkit.parts.along.NAMES`."""
    one = spec.bearings
    if one.kind == "rolling":
        return SLOPE_AT_BEARINGS[one.kind]
    return lean_in_bush(bush_play(spec, number, name), one.bush_length)


def over_states(machine: LoadedMachine, states: Indices, values: Array) -> Array:
    """Spread values of some states (states, places) over all of them, nought elsewhere."""
    whole = np.zeros((len(machine.load_cases), values.shape[-1]))
    whole[states] = values
    return whole


_STEPS = {"metric": 0.5, "inch": 25.4 / 32}
"""What a step is turned to when it is turned anew, in mm: half millimetres and 1/32 in (common practice)."""


def thicker(beam: ShaftBeam, factor: float, place: int | None = None) -> list[Change]:
    """The shaft so many times as thick: where it counts, and all of it."""
    own, field, factor = beam.own, f"shaft_{beam.number}", float(factor)
    if not 0 < factor < np.inf:
        return [f"{field}.diameter"]
    whole: dict[str, float] = {f"{field}.diameter": own.diameter * factor}
    if not own.step_at:
        return [whole]
    system = beam.machine.system

    def turned(size: float) -> float:
        return ceil(size * factor / _STEPS[system]) * _STEPS[system]

    steps = lengths(map(turned, own.step_diameters), system)
    found: list[Change] = [{**whole, f"{field}.step_diameters": steps}]
    if place is None:
        return found
    section = int(np.searchsorted(own.step_at, beam.places[place]))
    if section == 0:
        return [whole, *found]
    here = list(own.step_diameters)
    here[section - 1] = turned(here[section - 1])
    return [{f"{field}.step_diameters": lengths(here, system)}, *found]


def checks(beam: ShaftBeam) -> list[Check]:
    """Check how a shaft bends.

    Parameters
    ----------
    beam : ShaftBeam

    Returns
    -------
    list of Check
    """
    bent = _Bent.of(beam)
    return [
        _slope_at_gears(bent),
        _slope_in_bearings(bent),
        _paddles_keep_off(bent),
        _first_speed(beam),
    ]


@dataclass(frozen=True)
class _Bent:
    """A shaft's slope in rad and lift in mm at each place over the load cases, the worst of a turn.

    ``jam`` is the lift in mm in a jam.
    """

    beam: ShaftBeam
    slope: Array
    lift: Array
    jam: Array

    @classmethod
    def of(cls, beam: ShaftBeam) -> _Bent:
        """Work it out."""
        machine, stop = beam.machine, beam.stopped
        states, bent = beam.mixing_sag
        return cls(
            beam,
            over_states(machine, states, bent.slope.max(axis=1)),
            over_states(machine, states, bent.lift.max(axis=1)),
            over_states(machine, stop.states, stop.lift.max(axis=1)),
        )

    @property
    def part(self) -> str:
        """What its checks are of."""
        return f"shaft {self.beam.number}"

    def stiffer(self, value: float, allowed: float) -> list[Change]:
        """Thicker shafts: stiffness goes with the fourth power of the diameter."""
        over = float(value / allowed) if allowed > 0 else np.inf
        return thicker(self.beam, over**0.25)

    def carried(self) -> list[Change]:
        """A sleeve that helps to carry."""
        return [{"sleeve.kind": "carried"}] if self.spec.sleeve.kind != "carried" else []

    @property
    def spec(self) -> Spec:
        """The design."""
        return self.beam.machine.spec

    def slopes(
        self,
        name: str,
        places: Sequence[int],
        taken: Sequence[float],
        source: str,
        more: Sequence[Change],
        limit: Sequence[Working] = (),
    ) -> Check:
        """Check the slope at some places, each of which takes so much in rad: the one with least to spare."""
        machine = self.beam.machine
        least = int((self.slope[:, places].max(axis=0) / np.asarray(taken)).argmax())
        worst, allowed = places[least], taken[least]
        leans, tilt = self.slope[:, worst], float(self.beam.forced.slope[worst])
        return make_check(
            machine,
            "shafts",
            self.part,
            name,
            where=machine.load_cases.mixing,
            demand=1e3 * leans,
            capacity=1e3 * allowed,
            unit="mrad",
            source=source,
            reason=lambda i, say: f"at {self.beam.named(worst)}, the worst of a turn",
            working=lambda i: [
                by_method(
                    "phi",
                    "beam on its bearings in both planes, integrated segment by segment; the worst angle of a turn, "
                    "and the worst of the bearings off its line",
                    float(1e3 * leans[i]),
                    "mrad",
                    delta=(machine.spec.bearings.misalignment, "mm", "bearings.misalignment"),
                ),
                *limit,
            ],
            # what an offset bearing tilts is the same on a thicker shaft
            fix=lambda i: [*self.stiffer(leans[i] - tilt, allowed - tilt), *more],
        )


def _slope_at_gears(bent: _Bent) -> Check:
    """Whether the gears stand upright enough."""
    beam = bent.beam
    return bent.slopes(
        f"slope at the gears of {bent.part}",
        list(beam.gears.values()),
        [SLOPE_AT_GEARS] * len(beam.gears),
        "0.0005 without crowning, Shigley, table 7-2, as reprinted; twice that hand-cut: common practice",
        [
            *(f"paths.{one}.position" for one in beam.gears),
            "housing.plate_spacing",
            *bent.carried(),
            *LIGHTER,
        ],
    )


def _slope_in_bearings(bent: _Bent) -> Check:
    """Whether the shaft runs straight enough in its bearings."""
    spec, number = bent.spec, bent.beam.number
    one, places = spec.bearings, list(bent.beam.supports)
    taken = [slope_taken(spec, number, name) for name in NAMES]
    helps: list[Change] = []
    limit: list[Working] = []
    if one.kind != "rolling":
        plays = [bush_play(spec, number, name) for name in NAMES]
        worst = bent.slope[:, places].max(axis=0)
        least = int((worst / np.asarray(taken)).argmax())
        # a shorter bush lets its shaft lean further before both its ends touch
        helps = [
            {"bearings.bush_length": plays[least] / float(max(worst[least], 1e-9))},
            {"bearings.kind": "rolling"},
        ]
        limit = [touching(plays[least], one.bush_length, "bearings.bush_length")]
    return bent.slopes(
        f"slope in the bearings of {bent.part}",
        places,
        taken,
        f"{one.kind}: Shigley, table 7-2, as reprinted, common practice for bushes and no more than their least play over "
        "their length",
        [
            *helps,
            *bent.carried(),
            "bearings.span",
            *(("reducer.overhang",) if number == 1 else ()),
            *LIGHTER,
        ],
        limit,
    )


def _paddles_keep_off(bent: _Bent) -> Check:
    """Whether the paddles of the bent shaft keep off the wall."""
    machine, spec, part = bent.beam.machine, bent.spec, bent.part
    gap = spec.trough.wall_clearance
    sags = np.maximum(bent.lift, bent.jam)[:, bent.beam.paddles].max(axis=1)
    clear = 0.5 * gap
    return make_check(
        machine,
        "shafts",
        part,
        f"paddles of {part} keep off the wall",
        where=machine.load_cases.mixing | machine.load_cases.jammed,
        demand=sags,
        capacity=clear,
        unit="mm",
        working=lambda i: [
            by_method(
                "y",
                "beam on three bearings in both planes; the paddle that sags most, over a turn or in a jam",
                float(sags[i]),
                "mm",
            ),
            worked("y_max = 0.5*s", clear, "mm", s=(gap, "mm", "trough.wall_clearance")),
        ],
        source="half the gap left for building errors: common practice",
        reason=lambda i, say: f"shaft bent, sleeve {spec.sleeve.kind}; gap {say(gap, 'mm')}",
        fix=lambda i: [
            *bent.stiffer(sags[i], clear),
            {"trough.wall_clearance": float(2 * sags[i])},
            *bent.carried(),
            *calmer(machine, i, sags[i] / clear),
            "bearings.span",
            *(LIGHTER if machine.load_cases.mixing[i] else ()),
        ],
    )


def _first_speed(beam: ShaftBeam) -> Check:
    """Whether the shaft turns far below its first bending speed."""
    machine, part, speed = beam.machine, f"shaft {beam.number}", beam.machine.running_speed
    return make_check(
        machine,
        "shafts",
        part,
        f"first bending speed of {part}",
        demand=3 * speed,
        capacity=beam.first_speed,
        unit="rpm",
        working=lambda i: [
            worked("n_min = 3*n", 3 * speed, "rpm", n=(speed, "rpm", "speed of shaft 1")),
            by_method(
                "n_1",
                "Rayleigh's method, from the sag of the beam under its own weight",
                beam.first_speed,
                "rpm",
            ),
        ],
        source="Rayleigh: Shigley 10th ed., eq. 7-23; three times the speed: common practice",
        reason=lambda i, say: f"it turns at {say(speed, 'rpm')}",
        fix=lambda i: [
            *thicker(beam, float(np.sqrt(3 * speed / beam.first_speed))),
            "bearings.span",
            "motor.run_at",
            "reducer",
        ],
    )
