"""The sleeves over the shafts: whether they go on, carry the torque, and keep off."""

from __future__ import annotations

import numpy as np

from mixerkit.checking import make_check
from mixerkit.checks import Change, Check
from mixerkit.parts.deflection import over_states
from mixerkit.parts.remedies import calmer, stronger
from mixerkit.parts.sleeve_beam import sleeve_sizes
from mixerkit.parts.worked import WorkedMachine
from mixerkit.results import Array
from mixerkit.spec import Spec
from mixerkit.tables import table
from mixerkit.working import Given, Working, by_method, worked

__all__ = ["checks", "sleeve_warnings", "stronger_sleeve"]


def sleeve_warnings(spec: Spec) -> list[str]:
    """What a stainless sleeve over a steel shaft brings with it.

    References
    ----------
    Common practice for crevices under wet clay and for unlike metals in it.
    """
    sleeve = spec.sleeve
    if sleeve.kind == "none":
        return ["Bare shafts in wet clay rust and score; clean and oil them after every day."]
    found = []
    family = {
        table("materials").find(getattr(spec, f"shaft_{n}").material).values["family"]
        for n in (1, 2)
    }
    if not sleeve.sealed_ends:
        found.append(
            "Slip creeps between sleeve and shaft and stays wet: seal both ends, or count on half the endurance."
        )
    if (
        table("materials").find(sleeve.material).values["family"] == "stainless"
        and "steel" in family
    ):
        found.append(
            "Stainless on plain steel makes a cell where slip joins them: the steel rusts. Grease it under the sleeve "
            "and seal the ends."
        )
    if sleeve.sealed_ends:
        found.append(
            "Chloride in some clays pits stainless under a still film: rinse with clean water."
        )
    if sleeve.kind == "floating":
        found.append(
            "A floating sleeve rubs where the shaft bends: grease it and look at it every year."
        )
    return found


def checks(machine: WorkedMachine) -> list[Check]:
    """Check the sleeve: does it go over the shaft, does it carry the torque, does a floating one rub.

    Parameters
    ----------
    machine : WorkedMachine

    Returns
    -------
    list of Check
    """
    kind = machine.spec.sleeve.kind
    if kind == "none":
        return []
    found = [_goes_on(machine), _carries(machine)]
    return [*found, _keeps_off(machine)] if kind == "floating" else found


def _goes_on(machine: WorkedMachine) -> Check:
    """Whether the sleeve goes over the shaft."""
    outer, inner = sleeve_sizes(machine.spec)
    thickest = max(float(beam.segments.max()) for beam in machine.shaft_beams)
    gap = (inner - thickest) / 2
    return make_check(
        machine,
        "shafts",
        "sleeve",
        "sleeve goes over the shaft",
        demand=0.1,
        capacity=gap,
        unit="mm",
        tight=1.0,
        working=lambda i: [
            worked(
                "s = (d_i - d)/2",
                gap,
                "mm",
                d_i=(inner, "mm", "inside of the sleeve: twice paddles.root_radius less its walls"),
                d=(thickest, "mm", "thickest section of both shafts"),
            )
        ],
        source="0.1 mm on the radius so that it slides on: common practice",
        reason=lambda i, say: f"inside {say(inner, 'mm')}, shaft {say(thickest, 'mm')}",
        fix=lambda i: [
            {"paddles.root_radius": thickest / 2 + 0.1 + machine.spec.sleeve.wall},
            {"sleeve.wall": (outer - thickest - 0.2) / 2},
            {
                f"shaft_{beam.number}.diameter": inner - 0.2
                for beam in machine.shaft_beams
                if beam.segments.max() > inner - 0.2
            },
        ],
    )


def stronger_sleeve(spec: Spec, wall: float, over: float) -> list[Change]:
    """A wall of some thickness in mm, to the inside or to the outside, or a metal so many times stronger."""
    sleeve = spec.sleeve
    better = (("sleeve.material",), sleeve.material, "materials", ("yield_strength",))
    outward = spec.paddles.root_radius + wall - sleeve.wall
    return [
        {"sleeve.wall": wall},
        {"sleeve.wall": wall, "paddles.root_radius": outward},
        *stronger(*better, over, ("stainless", "steel")),
    ]


def _own_bending(machine: WorkedMachine) -> Array:
    """Moment in N*m that a carried sleeve bears in a jam, over the load cases; any other bends nothing."""
    bending = np.zeros(len(machine.load_cases))
    for beam in machine.shaft_beams:
        stop = beam.stopped
        bending[stop.states] = np.maximum(bending[stop.states], beam.sleeve_moment_in_jam)
    return bending


def _carries(machine: WorkedMachine) -> Check:
    """Whether the sleeve carries the paddles' torque."""
    spec, sleeve = machine.spec, machine.spec.sleeve
    outer, inner = sleeve_sizes(spec)
    torque, bending = np.maximum(*machine.power_flow.paddles), _own_bending(machine)
    polar = (outer**4 - inner**4) * np.pi / 32
    with np.errstate(divide="ignore", invalid="ignore"):
        stress = 1e3 * outer / 2 / polar * np.sqrt((2 * bending) ** 2 + 3 * torque**2)
    steel = table("materials").find(sleeve.material).values
    strength, safety = steel["yield_strength"], spec.safety.shaft_in_jam

    def wider(i: int) -> list[Change]:
        over = float(stress[i] * safety / strength)
        return [
            *stronger_sleeve(spec, sleeve.wall * over, over),
            *calmer(machine, i, over),
        ]

    return make_check(
        machine,
        "shafts",
        "sleeve",
        "sleeve carries the paddles' torque",
        where=machine.load_cases.jammed,
        demand=stress,
        capacity=strength,
        unit="MPa",
        safety=safety,
        rung=(1.0, steel["tensile_strength"] / strength),
        working=lambda i: _tube((outer, inner), polar, bending[i], torque[i], stress[i]),
        source="thick tube in bending and torsion: Shigley 10th ed., eqs. 3-24 and 3-37; von Mises 5-15; yield",
        reason=lambda i, say: (
            f"T = {say(torque[i], 'N*m')}, M = {say(bending[i], 'N*m')} of its own, {say(outer, 'mm')} outside, wall {say(sleeve.wall, 'mm')}"
        ),
        fix=wider,
    )


def _tube(
    sizes: tuple[float, float], polar: float, bending: float, torque: float, stress: float
) -> list[Working]:
    """How the stress in the sleeve was got."""
    outer: Given = (sizes[0], "mm", "twice paddles.root_radius")
    return [
        worked(
            "I_p = pi*(d_o**4 - d_i**4)/32",
            polar,
            "mm**4",
            d_o=outer,
            d_i=(sizes[1], "mm", "outside less twice sleeve.wall"),
        ),
        worked(
            "sigma = d_o*sqrt((2*M)**2 + 3*T**2)/(2*I_p)",
            float(stress),
            "MPa",
            d_o=outer,
            M=(float(bending), "N*m", "of the jammed paddle between the sleeve's seats"),
            T=(float(torque), "N*m", "power flow, torque at the paddles, the greater"),
            I_p=(polar, "mm**4", "above"),
        ),
    ]


def _keeps_off(machine: WorkedMachine) -> Check:
    """Whether a floating sleeve does not rub: the thinner shaft has more room in it, and bends more."""
    spec, inner = machine.spec, sleeve_sizes(machine.spec)[1]
    bows, room = [], []
    for beam in machine.shaft_beams:
        lift = over_states(machine, beam.stopped.states, beam.stopped.lift.max(axis=1))
        bows.append(lift[:, beam.paddles].max(axis=1))
        room.append((inner - beam.segments.max()) / 2)
    rooms = np.array(room)[:, None]
    share = np.divide(bows, rooms, out=np.full(np.shape(bows), np.inf), where=rooms > 0)
    worst = share.argmax(axis=0)
    bow, free = np.take_along_axis(np.array(bows), worst[None], axis=0)[0], rooms[worst, 0]
    return make_check(
        machine,
        "shafts",
        "sleeve",
        "a floating sleeve does not rub",
        where=machine.load_cases.jammed,
        demand=bow,
        capacity=free,
        unit="mm",
        working=lambda i: [
            by_method(
                "y",
                "beam on three bearings in both planes; the paddle that sags most in a jam",
                float(bow[i]),
                "mm",
            ),
        ],
        source="the shaft bends inside it: beam",
        reason=lambda i, say: f"gap {say(free[i], 'mm')} on the radius round shaft {worst[i] + 1}",
        fix=lambda i: [
            {"sleeve.kind": "carried"},
            {"paddles.root_radius": spec.paddles.root_radius + float(bow[i] - free[i])},
            "shaft_1.diameter",
            "shaft_2.diameter",
            *calmer(machine, i, float(bow[i] / free[i]) if free[i] > 0 else np.inf),
        ],
    )
