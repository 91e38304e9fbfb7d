"""Whether the teeth stand bending and pressing, day by day and in a jam."""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache
from math import pi

import numpy as np

from mixerkit.checking import make_check
from mixerkit.checks import Change, Check, Say
from mixerkit.frozen import frozen
from mixerkit.parts import lewis, tooth_workings, toothcontact, toothstrength
from mixerkit.parts.gear_body_checks import between_plates
from mixerkit.parts.gear_pairs import Pair, one_word
from mixerkit.parts.remedies import LIGHTER, calmer, stronger
from mixerkit.parts.toothed import Toothed
from mixerkit.results import Array, Flags, LoadedMachine
from mixerkit.spec import GearPath
from mixerkit.tables import table

__all__ = ["life_cycles", "pitch_speed", "strength"]

_ISO = "ISO 6336-3 method B with K factors stated; limits ISO 6336-5 (from memory)"
_NAMES = (
    "teeth do not break while mixing",
    "teeth do not break in a jam",
    "teeth surfaces last",
)

# most knobs leave a mesh as it is, and what a newton does to it
_stresses = lru_cache(maxsize=512)(lambda *given: frozen(toothstrength.mesh_stresses(*given)))


def life_cycles(machine: LoadedMachine) -> float:
    """Loads on one tooth over the machine's life, one a turn."""
    return machine.running_speed * 60 * machine.spec.batch.life_hours


def pitch_speed(machine: LoadedMachine, path: GearPath) -> float:
    """Speed of the pitch line in m/s while mixing."""
    return pi * path.module * path.tooth_counts[0] * machine.running_speed / 60e3


@dataclass(frozen=True)
class _Root:
    """The gear whose teeth bend the most: stress for a newton in MPa, its limit in MPa."""

    stress: float
    limit: float
    teeth: int


@dataclass(frozen=True)
class _Flank:
    """The mesh whose flanks press the most: stress for a newton in MPa, the lesser limit in MPa."""

    stress: float
    limit: float
    pair: Pair


def _share(one: _Root | _Flank) -> float:
    """Stress over limit; what cannot be worked out governs all that can."""
    return np.inf if np.isnan(one.stress) else one.stress / one.limit


def _worst(of: Toothed) -> tuple[_Root, _Flank]:
    """Find the teeth that bend the most, and the flanks that press the most."""
    path, last = of.path, len(of.counts) - 1
    ends, between = (
        table("gear_materials").find(one).values for one in (path.material, path.idler_material)
    )
    steels = [between if 0 < place < last else ends for place in range(last + 1)]
    roots, flanks = [], []
    for k, one in enumerate(of.meshes):
        pair = steels[k : k + 2]
        elastic = toothcontact.elastic_factor(*(steel["elastic_modulus"] for steel in pair))
        bent, pressed = _stresses(
            path.module,
            one.counts,
            one.shifts,
            tuple(one.tips),
            one.distance,
            one.ratio,
            path.face_width,
            float(elastic),
            path.thinning,
        )
        roots += [
            _Root(float(stress), steel["bending_limit"] * toothstrength.STRESSING, teeth)
            for stress, steel, teeth in zip(bent, pair, one.counts, strict=True)
        ]
        limit = min(steel["contact_limit"] for steel in pair)
        flanks.append(_Flank(float(pressed), limit, one))
    return max(roots, key=_share), max(flanks, key=_share)


@dataclass(frozen=True)
class _Teeth:
    """The worst teeth of a path under the forces of all load cases, along the pitch circles in N."""

    of: Toothed
    root: _Root
    flank: _Flank
    here: Flags
    mixing: Array
    jam: Array
    faster: float

    @classmethod
    def of_path(cls, of: Toothed, root: _Root, flank: _Flank) -> _Teeth:
        """Put the machine's torque on them."""
        machine, path = of.machine, of.path
        here = machine.load_cases.clutch == of.name
        # the same in every mesh but for losses
        radius = path.module * of.counts[0] / 2
        force = 1e3 * machine.power_flow.torque_into_gear_path / radius * here
        # the load factors are those of walking pace; Barth's takes over where the pitch line runs faster
        barth = float(lewis.velocity_factor.formula(pitch_speed(machine, path)))
        faster = max(barth / toothstrength.HAND_CUT.dynamic, 1.0)
        jam = force / toothstrength.HAND_CUT.application
        return cls(of, root, flank, here, force * faster, jam, faster)

    def bending(self, i: int, say: Say, how: str, force: Array) -> str:
        """Say what bends the teeth."""
        path = self.of.path
        return (
            f"gear of {self.root.teeth} teeth thinned {say(path.thinning, 'mm')}, Ft = {say(force[i], 'N')}, "
            f"face {say(path.face_width, 'mm')}; limit {how}"
        )

    def lasting(self, i: int, over: float, column: str) -> list[Change]:
        """What lets them carry so many times their load: wider, harder, coarser, or less of it."""
        machine = self.of.machine
        return [
            *_harder_or_wider(self.of, over, column),
            *calmer(machine, i, over),
            *self.of.coarser(),
            *(LIGHTER if machine.load_cases.mixing[i] else ()),
        ]


def strength(of: Toothed) -> list[Check]:
    """Check the teeth of a path.

    Parameters
    ----------
    of : Toothed

    Returns
    -------
    list of Check
    """
    near = of.too_near(*_NAMES)
    if near:
        return near
    root, flank = _worst(of)
    if not np.isfinite(root.stress) or not np.isfinite(flank.stress):
        why = f"the form factors of ISO 6336-3 do not reach a gear of {min(of.counts)} teeth with this shift and thinning"
        return of.unjudged(_NAMES, why, lambda: [of.field("thinning"), *of.finer()])
    teeth = _Teeth.of_path(of, root, flank)
    if not life_cycles(of.machine) > 0:
        why = "shaft 1 does not turn at the frequency the motor is fed with, so no life can be reckoned"
        bent, pressed = of.unjudged((_NAMES[0], _NAMES[2]), why, lambda: ["motor.run_at"])
        return [bent, _break_in_a_jam(teeth), pressed]
    return [_break_while_mixing(teeth), _break_in_a_jam(teeth), _surfaces_last(teeth)]


def _break_while_mixing(teeth: _Teeth) -> Check:
    """Whether the teeth bear bending both ways over the machine's life."""
    machine, force = teeth.of.machine, teeth.mixing
    cycles = life_cycles(machine)
    life, reversed_ = float(toothstrength.life_factors(cycles)[0]), toothstrength.REVERSED
    allowed, stress = teeth.root.limit * reversed_ * life, teeth.root.stress * force
    safety = machine.spec.safety.tooth_bending
    how = f"loaded both ways x {reversed_:g}, {cycles:.2g} loads"
    return make_check(
        machine,
        "gears",
        teeth.of.part,
        _NAMES[0],
        where=machine.load_cases.mixing & teeth.here,
        demand=stress,
        capacity=allowed,
        unit="MPa",
        safety=safety,
        working=lambda i: [
            tooth_workings.bent(teeth.root.stress, float(force[i]), float(stress[i])),
            tooth_workings.lasting_bending(teeth.root.limit, life, allowed),
        ],
        source=_ISO,
        reason=lambda i, say: teeth.bending(i, say, how, force),
        fix=lambda i: [
            *teeth.lasting(i, float(stress[i]) * safety / allowed, "bending_limit"),
            teeth.of.field("thinning"),
        ],
    )


def _break_in_a_jam(teeth: _Teeth) -> Check:
    """Whether the teeth bear a jam."""
    machine, force = teeth.of.machine, teeth.jam
    allowed, stress = teeth.root.limit * toothstrength.STATIC, teeth.root.stress * force
    safety = machine.spec.safety.shaft_in_jam
    return make_check(
        machine,
        "gears",
        teeth.of.part,
        _NAMES[1],
        where=machine.load_cases.jammed & teeth.here,
        demand=stress,
        capacity=allowed,
        unit="MPa",
        safety=safety,
        working=lambda i: [
            tooth_workings.bent(teeth.root.stress, float(force[i]), float(stress[i])),
            tooth_workings.static_bending(teeth.root.limit, allowed),
        ],
        source=_ISO,
        rung=(1.0, 1.2),
        reason=lambda i, say: teeth.bending(i, say, f"static x {toothstrength.STATIC:g}", force),
        fix=lambda i: [
            *teeth.lasting(i, float(stress[i]) * safety / allowed, "bending_limit"),
            teeth.of.field("thinning"),
        ],
    )


def _surfaces_last(teeth: _Teeth) -> Check:
    """Whether the flanks bear pressing over the machine's life."""
    of, machine, flank = teeth.of, teeth.of.machine, teeth.flank
    cycles, speed = life_cycles(machine), pitch_speed(machine, of.path)
    life = float(toothstrength.life_factors(cycles)[1])
    allowed, pressed = flank.limit * life, flank.stress * np.sqrt(teeth.mixing)
    safety, factor = machine.spec.safety.tooth_contact, toothstrength.LOAD_FACTOR * teeth.faster
    slow = teeth.mixing / teeth.faster
    lubrication = table("gear_materials").find(of.path.material).values["lubrication"]
    return make_check(
        machine,
        "gears",
        of.part,
        _NAMES[2],
        where=machine.load_cases.mixing & teeth.here,
        demand=pressed,
        capacity=allowed,
        unit="MPa",
        safety=safety,
        working=lambda i: [
            tooth_workings.pressed(flank.stress, float(slow[i]), teeth.faster, float(pressed[i])),
            tooth_workings.lasting_contact(flank.limit, life, allowed),
        ],
        source="ISO 6336-2 method B with K factors stated; limits ISO 6336-5 (from memory)",
        reason=lambda i, say: (
            f"{one_word(flank.pair)}, Ft = {say(slow[i], 'N')}, K = {factor:.2f}, {cycles:.2g} loads x {life:.2f}; "
            f"at {speed:.2g} m/s metal touches metal: {lubrication}"
        ),
        fix=lambda i: teeth.lasting(
            i, float((pressed[i] * safety / allowed) ** 2), "contact_limit"
        ),
    )


def _harder_or_wider(of: Toothed, over: float, column: str) -> list[Change]:
    """Teeth that carry so many times their load: wider, of a better steel, or both."""
    spec, path = of.machine.spec, of.path
    other = spec.paths.idler if of.name == "direct" else spec.paths.direct
    # a gear must stay between the plates, and off its neighbour
    room = min(
        between_plates(spec, path),
        2 * abs(path.position - other.position) - other.face_width,
    )
    wide = of.field("face_width")
    fields = (of.field("material"), of.field("idler_material"))[: len(of.counts) - 1]
    # contact stress goes with the square root of the force
    power = 1.0 if column == "bending_limit" else 2.0
    found: list[Change] = []
    if path.face_width * over < room:
        found.append({wide: path.face_width * over})
    if over > 0:
        found += stronger(fields, path.material, "gear_materials", (column,), over ** (1 / power))
    has = table("gear_materials").find(path.material).values[column]
    for change in stronger(fields, path.material, "gear_materials", (column,), 1.0)[-1:]:
        better = table("gear_materials").find(str(change[fields[0]])).values[column] / has
        left = over / better**power
        if left > 1 and path.face_width * left < room:
            found.append({**change, wide: path.face_width * left})
    return found
