"""Whether a sleeve lasts where the paddles are welded to it."""

from __future__ import annotations

from dataclasses import dataclass
from math import pi, sqrt

import numpy as np

from mixerkit.checking import make_check
from mixerkit.checks import Change, Check
from mixerkit.parts import welds
from mixerkit.parts.blades import extent_at
from mixerkit.parts.remedies import LIGHTER
from mixerkit.parts.shaft_rules import lifetime_turns, reversals
from mixerkit.parts.shaftline import ShaftBeam
from mixerkit.parts.sleeve_beam import sleeve_sizes
from mixerkit.parts.worked import WorkedMachine
from mixerkit.results import Array
from mixerkit.spec import Spec
from mixerkit.working import Working, worked

__all__ = ["checks"]


@dataclass(frozen=True)
class _Felt:
    """What the sleeve of one shaft feels, over the load cases.

    Attributes
    ----------
    bending, torque : array
        Its own moment and the paddles' torque in N*m.
    start : float
        Torque of a start in N*m.
    turns : array
        Of the shaft, in all its life.
    bent, sheared : array
        Lasting ranges of its stress in MPa.
    together : array
        Range in MPa of bending alone that would do as much as both.
    """

    bending: Array
    torque: Array
    start: float
    turns: Array
    bent: Array
    sheared: Array
    together: Array


def checks(machine: WorkedMachine) -> list[Check]:
    """Check a sleeve at the toes of the welds of its paddles.

    A carried sleeve is bent to and fro every turn, as its shaft is; any is twisted and let go. The push of a
    paddle into its wall is not looked at: the shaft stands under it.

    Parameters
    ----------
    machine : WorkedMachine

    Returns
    -------
    list of Check
    """
    spec = machine.spec
    if spec.sleeve.kind == "none":
        return []
    (outer, inner), borne = sleeve_sizes(spec), welds.attachment_class(_length(spec))
    polar = (outer**4 - inner**4) * pi / 32
    felt = [_felt(beam, outer / polar, borne) for beam in machine.shaft_beams]
    most = np.maximum(*(one.together for one in felt))

    def thicker(i: int) -> list[Change]:
        over = float(most[i]) * spec.safety.shaft_fatigue / borne
        wall: list[Change] = [{"sleeve.wall": spec.sleeve.wall * over}] if 0 < over < np.inf else []
        return [
            *wall,
            "paddles.root_radius",
            "shaft_1.diameter",
            "shaft_2.diameter",
            "bearings.span",
            *LIGHTER,
        ]

    def shown(i: int) -> list[Working]:
        which = int(felt[1].together[i] > felt[0].together[i])
        return _worked(machine, felt[which], i, (outer, inner, borne))

    return [
        make_check(
            machine,
            "shafts",
            "sleeve",
            "sleeve lasts at the paddles' welds",
            where=machine.load_cases.mixing,
            demand=most,
            capacity=borne,
            unit="MPa",
            safety=spec.safety.shaft_fatigue,
            source="toe of what is welded on: EN 1993-1-9, table 8.4, detail 1; shear 80, table 8.5; both together: 8 (3) "
            "(all from memory)",
            reason=lambda i, say: (
                f"{say(max(float(one.bending[i]) for one in felt), 'N*m')} to and fro every turn, "
                f"class {borne:g} for {say(_length(spec), 'mm')} over both toes"
            ),
            fix=thicker,
            working=shown,
        )
    ]


def _length(spec: Spec) -> float:
    """Length in mm along the sleeve of a stem's foot with the legs of its weld."""
    foot = float(extent_at(spec.paddles, spec.paddles.root_radius))
    return foot + 2 * sqrt(2) * spec.paddles.weld_throat


def _felt(beam: ShaftBeam, per_torque: float, borne: float) -> _Felt:
    """Work it out; ``per_torque`` is the outer diameter over the polar moment, in 1/mm^3."""
    machine, number = beam.machine, beam.number
    torque, cases = machine.power_flow.paddles[number - 1], machine.load_cases
    bending, start = np.zeros(len(torque)), float(torque[cases.starting].max())
    bending[beam.running.states] = beam.sleeve_moment
    turns = lifetime_turns(machine, number)
    # to and fro is twice the stress; half of the polar moment is that of bending
    bent = welds.lasting_range([2e3 * bending * per_torque], [turns], welds.SLOPE)
    once = np.full(len(torque), 1e3 * start * per_torque)
    sheared = welds.lasting_range(
        [1e3 * torque * per_torque / 2, once],
        [turns, np.full(len(torque), reversals(machine))],
        welds.SHEAR_SLOPE,
    )
    safety = machine.spec.safety.shaft_fatigue
    used = (safety * bent / borne) ** welds.SLOPE
    used = used + (safety * sheared / welds.SHEAR) ** welds.SHEAR_SLOPE
    together = borne / safety * used ** (1 / welds.SLOPE)
    return _Felt(bending, torque, start, turns, bent, sheared, np.asarray(together))


def _worked(
    machine: WorkedMachine, felt: _Felt, i: int, sizes: tuple[float, float, float]
) -> list[Working]:
    """How the range that does as much as both was got."""
    outer, inner, borne = sizes
    polar = (outer**4 - inner**4) * pi / 32
    times = reversals(machine)
    return [
        worked(
            "I_p = pi*(d_o**4 - d_i**4)/32",
            polar,
            "mm**4",
            d_o=(outer, "mm", "twice paddles.root_radius"),
            d_i=(inner, "mm", "outside less twice sleeve.wall"),
        ),
        worked(
            "sigma_E = 2*M*d_o/I_p*(N/N_0)**(1/3)",
            float(felt.bent[i]),
            "MPa",
            M=(
                float(felt.bending[i]),
                "N*m",
                "of all its paddles between the sleeve's seats, the most of a turn",
            ),
            d_o=(outer, "mm", "twice paddles.root_radius"),
            I_p=(polar, "mm**4", "above"),
            N=(float(felt.turns[i]), "", "turns of the shaft in batch.life_hours"),
            N_0=(welds.AT, "", "cycles of a class"),
        ),
        worked(
            "tau_E = d_o/(2*I_p)*((N*T**5 + N_r*(2*T_s)**5)/N_0)**(1/5)",
            float(felt.sheared[i]),
            "MPa",
            d_o=(outer, "mm", "twice paddles.root_radius"),
            I_p=(polar, "mm**4", "above"),
            N=(float(felt.turns[i]), "", "turns of the shaft in batch.life_hours"),
            T=(float(felt.torque[i]), "N*m", "power flow, torque at the paddles"),
            N_r=(times, "", "batch.reversals over batch.life_hours"),
            T_s=(felt.start, "N*m", "the most of a start"),
            N_0=(welds.AT, "", "cycles of a class"),
        ),
        worked(
            "sigma = sigma_C/S*((S*sigma_E/sigma_C)**3 + (S*tau_E/tau_C)**5)**(1/3)",
            float(felt.together[i]),
            "MPa",
            S=(machine.spec.safety.shaft_fatigue, "", "safety.shaft_fatigue"),
            sigma_E=(float(felt.bent[i]), "MPa", "above"),
            tau_E=(float(felt.sheared[i]), "MPa", "above"),
            sigma_C=(borne, "MPa", "class of the toe"),
            tau_C=(welds.SHEAR, "MPa", "class in shear"),
        ),
    ]
