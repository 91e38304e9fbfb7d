"""The sleeves over the shafts: whether they go on, carry the torque, and keep off."""

from __future__ import annotations

import numpy as np

from mixerkit.checking import make_check
from mixerkit.checks import Change, Check
from mixerkit.parts.deflection import over_states
from mixerkit.parts.remedies import calmer, stronger
from mixerkit.parts.worked import WorkedMachine
from mixerkit.spec import Spec
from mixerkit.tables import table
from mixerkit.working import by_method, worked

__all__ = ["checks", "sleeve_warnings"]


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
    """The sleeve: does it go over the shaft, does it carry the torque, does a floating one rub."""
    spec, sleeve = machine.spec, machine.spec.sleeve
    if sleeve.kind == "none":
        return []
    thickest = max(float(beam.segments.max()) for beam in machine.shaft_beams)
    outer = 2 * spec.paddles.root_radius
    inner = max(outer - 2 * sleeve.wall, 0.0)
    gap = (inner - thickest) / 2
    steel = table("materials").find(sleeve.material).values
    torque = np.maximum(*machine.power_flow.paddles)
    polar = (outer**4 - inner**4) * np.pi / 32
    strength = steel["yield_strength"]
    bending = np.zeros(len(machine.load_cases))
    if sleeve.kind == "carried":
        # what the shaft does not carry of the moment at the paddles, the sleeve does
        for beam in machine.shaft_beams:
            stop = beam.stopped
            whole = (stop.moment / beam.shares)[..., beam.paddles].max(axis=(1, 2)) * (
                1 - beam.share.min()
            )
            bending[stop.states] = np.maximum(bending[stop.states], whole)
    with np.errstate(divide="ignore", invalid="ignore"):
        stress = 1e3 * outer / 2 / polar * np.sqrt((2 * bending) ** 2 + 3 * torque**2)
    safety = spec.safety.shaft_in_jam

    def wider(i: int, over: float) -> list[Change]:
        wall = sleeve.wall * over
        return [
            {"sleeve.wall": wall},
            {
                "sleeve.wall": wall,
                "paddles.root_radius": spec.paddles.root_radius + wall - sleeve.wall,
            },
            *stronger(
                ("sleeve.material",),
                sleeve.material,
                "materials",
                ("yield_strength",),
                over,
                ("stainless", "steel"),
            ),
            *calmer(machine, i, over),
        ]

    found: list[Check] = [
        make_check(
            machine,
            "shafts",
            "sleeve",
            "sleeve goes over the shaft",
            demand=0.1,
            capacity=gap,
            working=lambda i: [
                worked(
                    "s = (d_i - d)/2",
                    gap,
                    "mm",
                    d_i=(
                        inner,
                        "mm",
                        "inside of the sleeve: twice paddles.root_radius less its walls",
                    ),
                    d=(thickest, "mm", "thickest section of both shafts"),
                )
            ],
            unit="mm",
            tight=1.0,
            source="0.1 mm on the radius so that it slides on: common practice",
            reason=lambda i, say: f"inside {say(inner, 'mm')}, shaft {say(thickest, 'mm')}",
            fix=lambda i: [
                {"paddles.root_radius": thickest / 2 + 0.1 + sleeve.wall},
                {"sleeve.wall": (outer - thickest - 0.2) / 2},
                {
                    f"shaft_{beam.number}.diameter": inner - 0.2
                    for beam in machine.shaft_beams
                    if beam.segments.max() > inner - 0.2
                },
            ],
        ),
        make_check(
            machine,
            "shafts",
            "sleeve",
            "sleeve carries the paddles' torque",
            where=machine.load_cases.jammed,
            demand=stress,
            working=lambda i: [
                worked(
                    "I_p = pi*(d_o**4 - d_i**4)/32",
                    polar,
                    "mm**4",
                    d_o=(outer, "mm", "twice paddles.root_radius"),
                    d_i=(inner, "mm", "outside less twice sleeve.wall"),
                ),
                worked(
                    "sigma = d_o*sqrt((2*M)**2 + 3*T**2)/(2*I_p)",
                    float(stress[i]),
                    "MPa",
                    d_o=(outer, "mm", "twice paddles.root_radius"),
                    M=(float(bending[i]), "N*m", "its share of the beam's moment in a jam"),
                    T=(float(torque[i]), "N*m", "power flow, torque at the paddles, the greater"),
                    I_p=(polar, "mm**4", "above"),
                ),
            ],
            capacity=strength,
            unit="MPa",
            safety=safety,
            rung=(1.0, steel["tensile_strength"] / steel["yield_strength"]),
            source="thick tube in bending and torsion: Shigley 10th ed., eqs. 3-24 and 3-37; von Mises 5-15; yield",
            reason=lambda i, say: (
                f"T = {say(torque[i], 'N*m')}, M = {say(bending[i], 'N*m')} of its own, {say(outer, 'mm')} outside, wall {say(sleeve.wall, 'mm')}"
            ),
            fix=lambda i: wider(i, float(stress[i] * safety / strength)),
        ),
    ]
    if sleeve.kind == "floating":
        bows = []
        for beam in machine.shaft_beams:
            stop = beam.stopped
            bows.append(
                over_states(machine, stop.states, stop.lift.max(axis=1))[:, beam.paddles].max(
                    axis=1
                )
            )
        # each shaft in its own sleeve: the thinner one has more room, and bends more
        room = np.array([(inner - beam.segments.max()) / 2 for beam in machine.shaft_beams])
        share = np.divide(
            bows, room[:, None], out=np.full(np.shape(bows), np.inf), where=room[:, None] > 0
        )
        worst = share.argmax(axis=0)
        bow, free = np.take_along_axis(np.array(bows), worst[None], axis=0)[0], room[worst]
        found.append(
            make_check(
                machine,
                "shafts",
                "sleeve",
                "a floating sleeve does not rub",
                where=machine.load_cases.jammed,
                demand=bow,
                capacity=free,
                working=lambda i: [
                    by_method(
                        "y",
                        "beam on three bearings in both planes; the paddle that sags most in a jam",
                        float(bow[i]),
                        "mm",
                    ),
                ],
                unit="mm",
                source="the shaft bends inside it: beam",
                reason=lambda i, say: (
                    f"gap {say(free[i], 'mm')} on the radius round shaft {worst[i] + 1}"
                ),
                fix=lambda i: [
                    {"sleeve.kind": "carried"},
                    {"paddles.root_radius": spec.paddles.root_radius + float(bow[i] - free[i])},
                    "shaft_1.diameter",
                    "shaft_2.diameter",
                    *calmer(machine, i, float(bow[i] / free[i]) if free[i] > 0 else np.inf),
                ],
            )
        )
    return found
