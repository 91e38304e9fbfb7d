"""How a shaft bends: slopes at gears and bearings, sag of its paddles, first bending speed."""

from __future__ import annotations

from math import ceil

import numpy as np

from mixerkit.checking import make_check
from mixerkit.checks import Change, Check
from mixerkit.parts.remedies import LIGHTER, calmer, lengths
from mixerkit.parts.shaftline import ShaftBeam
from mixerkit.results import Array, Indices, LoadedMachine
from mixerkit.working import by_method, worked

__all__ = ["checks", "over_states", "thicker"]

SLOPE_AT_GEARS = 1e-3
"""Slope in rad at a gear: 0.0005 for wide ground teeth (Shigley 10th ed., table 7-2, from memory); twice
that for hand-cut ones that run in (common practice)."""
SLOPE_AT_BEARINGS = {"rolling": 3e-3, "plain bush": 1e-3}
"""Deep groove ball bearings 0.001 to 0.003 (Shigley 10th ed., table 7-2, from memory); bush: common practice."""


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
    machine, spec = beam.machine, beam.machine.spec
    run = beam.turning
    part, mixing = f"shaft {beam.number}", machine.load_cases.mixing
    turns = mixing[run.states]
    bent = beam.bends(run.force[turns])
    slope = over_states(machine, run.states[turns], bent.slope.max(axis=1))
    lift = over_states(machine, run.states[turns], bent.lift.max(axis=1))
    stop = beam.stopped
    jam = over_states(machine, stop.states, stop.lift.max(axis=1))
    gears = list(beam.gears.values())
    worst = gears[int(slope[:, gears].max(axis=0).argmax())]
    held = beam.supports[int(slope[:, beam.supports].max(axis=0).argmax())]
    sags = np.maximum(lift, jam)[:, beam.paddles].max(axis=1)
    bearing = SLOPE_AT_BEARINGS[spec.bearings.kind]
    speed, clear = machine.running_speed, 0.5 * spec.trough.wall_clearance

    def stiffer(value: float, allowed: float) -> list[Change]:
        # stiffness goes with the fourth power of the diameter
        return thicker(beam, float(value / allowed) ** 0.25)

    carried: list[Change] = [{"sleeve.kind": "carried"}] if spec.sleeve.kind != "carried" else []
    return [
        make_check(
            machine,
            "shafts",
            part,
            f"slope at the gears of {part}",
            where=mixing,
            demand=1e3 * slope[:, worst],
            capacity=1e3 * SLOPE_AT_GEARS,
            unit="mrad",
            source="0.0005 for ground teeth, Shigley 10th ed., table 7-2 (from memory); twice that hand-cut: common practice",
            reason=lambda i, say: f"at {beam.what[worst]}, the worst of a turn",
            working=lambda i: [
                by_method(
                    "phi",
                    "beam on three bearings in both planes, integrated segment by segment; the worst angle of a turn",
                    float(1e3 * slope[i, worst]),
                    "mrad",
                )
            ],
            fix=lambda i: [
                *stiffer(slope[i, worst], SLOPE_AT_GEARS),
                *(f"paths.{one}.position" for one in beam.gears),
                "housing.plate_spacing",
                *carried,
                *LIGHTER,
            ],
        ),
        make_check(
            machine,
            "shafts",
            part,
            f"slope in the bearings of {part}",
            where=mixing,
            demand=1e3 * slope[:, held],
            capacity=1e3 * bearing,
            unit="mrad",
            source=f"{spec.bearings.kind}: Shigley 10th ed., table 7-2 (from memory), common practice for bushes",
            reason=lambda i, say: f"at {beam.what[held]}, the worst of a turn",
            working=lambda i: [
                by_method(
                    "phi",
                    "beam on three bearings in both planes, integrated segment by segment; the worst angle of a turn",
                    float(1e3 * slope[i, held]),
                    "mrad",
                )
            ],
            fix=lambda i: [
                *stiffer(slope[i, held], bearing),
                *([{"bearings.kind": "rolling"}] if spec.bearings.kind != "rolling" else []),
                *carried,
                "bearings.span",
                *(("reducer.overhang",) if beam.number == 1 else ()),
                *LIGHTER,
            ],
        ),
        make_check(
            machine,
            "shafts",
            part,
            f"paddles of {part} keep off the wall",
            where=mixing | machine.load_cases.jammed,
            demand=sags,
            capacity=clear,
            working=lambda i: [
                by_method(
                    "y",
                    "beam on three bearings in both planes; the paddle that sags most, over a turn or in a jam",
                    float(sags[i]),
                    "mm",
                ),
                worked(
                    "y_max = 0.5*s",
                    clear,
                    "mm",
                    s=(spec.trough.wall_clearance, "mm", "trough.wall_clearance"),
                ),
            ],
            unit="mm",
            source="half the gap left for building errors: common practice",
            reason=lambda i, say: (
                f"shaft bent, sleeve {spec.sleeve.kind}; gap {say(spec.trough.wall_clearance, 'mm')}"
            ),
            fix=lambda i: [
                *stiffer(sags[i], clear),
                {"trough.wall_clearance": float(2 * sags[i])},
                *carried,
                *calmer(machine, i, sags[i] / clear),
                "bearings.span",
                *(LIGHTER if machine.load_cases.mixing[i] else ()),
            ],
        ),
        make_check(
            machine,
            "shafts",
            part,
            f"first bending speed of {part}",
            demand=3 * speed,
            capacity=beam.first_speed,
            working=lambda i: [
                worked("n_min = 3*n", 3 * speed, "rpm", n=(speed, "rpm", "speed of shaft 1")),
                by_method(
                    "n_1",
                    "Rayleigh's method, from the sag of the beam under its own weight",
                    beam.first_speed,
                    "rpm",
                ),
            ],
            unit="rpm",
            source="Rayleigh: Shigley 10th ed., eq. 7-23; three times the speed: common practice",
            reason=lambda i, say: f"it turns at {say(speed, 'rpm')}",
            fix=lambda i: [
                *thicker(beam, float(np.sqrt(3 * speed / beam.first_speed))),
                "bearings.span",
                "motor.run_at",
                "reducer",
            ],
        ),
    ]
