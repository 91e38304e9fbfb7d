"""Whether the teeth stand bending and pressing, day by day and in a jam."""

from __future__ import annotations

import numpy as np

from mixerkit.checking import make_check
from mixerkit.checks import Change, Check, Say
from mixerkit.parts import film, tooth_lives, tooth_workings, toothstrength
from mixerkit.parts.gear_body_checks import between_plates
from mixerkit.parts.gear_pairs import one_word
from mixerkit.parts.remedies import LIGHTER, calmer, stronger
from mixerkit.parts.shaftline import ShaftBeam
from mixerkit.parts.tooth_loads import LoadedTeeth, Root, life_cycles, pitch_speed
from mixerkit.parts.toothed import Toothed
from mixerkit.results import Array
from mixerkit.tables import table

__all__ = ["strength"]

_ISO = "ISO 6336-3 method B with K factors stated; limits ISO 6336-5 (from memory, the low end)"
_NAMES = (
    "teeth do not break while mixing",
    "teeth do not break in a jam",
    "teeth surfaces last",
    "teeth surfaces bear a jam",
)


_ENDS = 2.0
"""K_H-beta from which only a part of the face carries: ISO 6336-1."""
_MOST_OVER = 4.0
"""A part is proposed no more than twice as thick at once."""


def _bending(teeth: LoadedTeeth, root: Root, i: int, say: Say, how: str, force: Array) -> str:
    """Say what bends the teeth."""
    path = teeth.of.path
    return (
        f"gear of {root.teeth} teeth thinned {say(path.thinning, 'mm')}, Ft = {say(force[i], 'N')}, "
        f"face {say(path.face_width, 'mm')}; limit {how}"
    )


def _lasting(teeth: LoadedTeeth, at: int, i: int, over: float, column: str) -> list[Change]:
    """What lets the teeth carry so many times their load: wider, harder, coarser, straighter, or less of it."""
    straighter = _straighter(teeth.of, over) if teeth.leans(at, i) else []
    # where an end of the face carries most of it, a wider face carries little more
    ends = bool(teeth.spreads[at].factor[i] > _ENDS)
    carrying = _carrying(teeth, i, over, column)
    return [*straighter, *carrying] if ends else [*carrying, *straighter]


def _carrying(teeth: LoadedTeeth, i: int, over: float, column: str) -> list[Change]:
    """What carries so many times the load: wider, harder, coarser, or less of it."""
    machine, of = teeth.of.machine, teeth.of
    return [
        *_harder_or_wider(of, over, column),
        *calmer(machine, i, over),
        *of.coarser(),
        *(LIGHTER if machine.load_cases.mixing[i] else ()),
    ]


def _straighter(of: Toothed, over: float) -> list[Change]:
    """What bends less under the gears: a thicker pin of the idler, thicker shafts, the thinner one first."""
    spec = of.machine.spec
    # the load at an end goes with the root of the lean, and that with the fourth power of the thickness
    more = min(over, _MOST_OVER) ** 0.5
    rows = sorted((one.diameter, number) for number, one in ((1, spec.shaft_1), (2, spec.shaft_2)))
    shafts: list[Change] = [{f"shaft_{number}.diameter": size * more} for size, number in rows]
    if of.name == "direct":
        return shafts
    return [{"housing.idler_pin": spec.housing.idler_pin * more}, "housing.idler_pin", *shafts]


def _line_up(teeth: LoadedTeeth, at: int, i: int) -> str:
    """Say what may be measured where bearings off their line lean the gears."""
    if not (teeth.leans(at, i) and teeth.spreads[at].lean.off_line):
        return ""
    return "Bearings off their line lean the gears: bearings.misalignment is the field, best as measured."


def strength(of: Toothed, beams: tuple[ShaftBeam, ShaftBeam]) -> list[Check]:
    """Check the teeth of a path.

    Parameters
    ----------
    of : Toothed
    beams : pair of ShaftBeam
        What its gears sit on.

    Returns
    -------
    list of Check
    """
    near = of.too_near(*_NAMES)
    if near:
        return near
    teeth = LoadedTeeth.of_path(of, beams)
    if not np.isfinite(teeth.root.stress) or not np.isfinite(teeth.flank.stress):
        why = f"the form factors of ISO 6336-3 do not reach a gear of {min(of.counts)} teeth with this shift and thinning"
        return of.unjudged(_NAMES, why, lambda: [of.field("thinning"), *of.finer()])
    if not life_cycles(of.machine) > 0:
        why = "shaft 1 does not turn at the frequency the motor is fed with, so no life can be reckoned"
        bent, pressed = of.unjudged((_NAMES[0], _NAMES[2]), why, lambda: ["motor.run_at"])
        return [bent, _break_in_a_jam(teeth), pressed, _surfaces_bear_a_jam(teeth)]
    return [
        _break_while_mixing(teeth),
        _break_in_a_jam(teeth),
        _surfaces_last(teeth),
        _surfaces_bear_a_jam(teeth),
    ]


def _break_while_mixing(teeth: LoadedTeeth) -> Check:
    """Whether the teeth bear bending both ways over the machine's life."""
    machine, force = teeth.of.machine, teeth.mixing
    cycles = life_cycles(machine)
    allowed = teeth.root.lasting
    along = teeth.spreads[teeth.root.at].factor
    stress = teeth.root.stress * force * along
    safety = machine.spec.safety.tooth_bending
    how = f"loaded both ways x {tooth_lives.REVERSED:g}, {cycles:.2g} loads"
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
            tooth_workings.force_with_speed(teeth, i),
            *tooth_workings.uneven(teeth, teeth.root.at, i, float(force[i])),
            tooth_workings.bent(
                teeth, teeth.root, float(force[i]), float(along[i]), float(stress[i])
            ),
            *tooth_workings.lasting_bending(teeth.root),
        ],
        source=_ISO,
        reason=lambda i, say: _bending(teeth, teeth.root, i, say, how, force),
        fix=lambda i: [
            *_lasting(
                teeth, teeth.root.at, i, float(stress[i]) * safety / allowed, "bending_limit"
            ),
            teeth.of.field("thinning"),
        ],
    )


def _break_in_a_jam(teeth: LoadedTeeth) -> Check:
    """Whether the teeth bear a jam."""
    machine, force, root = teeth.of.machine, teeth.jam, teeth.jammed
    along = teeth.spreads[root.at].factor
    allowed, stress = root.once, root.stress * force * along
    how = f"static x {root.static_factor:g}, and what {root.steel['name']} carries at all"
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
            tooth_workings.force_in_a_jam(teeth, i),
            *tooth_workings.uneven(teeth, root.at, i, float(force[i])),
            tooth_workings.bent(teeth, root, float(force[i]), float(along[i]), float(stress[i])),
            *tooth_workings.static_bending(root),
        ],
        source=f"{_ISO}; no more than yield without the notch, of iron tensile strength with it: Shigley 10th ed., section 3-13 (from memory)",
        rung=(1.0, 1.0 if root.brittle else 1.2),
        reason=lambda i, say: _bending(teeth, root, i, say, how, force),
        fix=lambda i: [
            *_lasting(teeth, root.at, i, float(stress[i]) * safety / allowed, "bending_limit"),
            teeth.of.field("thinning"),
        ],
    )


def _surfaces_last(teeth: LoadedTeeth) -> Check:
    """Whether the flanks bear pressing over the machine's life."""
    of, machine, flank = teeth.of, teeth.of.machine, teeth.flank
    cycles, speed = life_cycles(machine), pitch_speed(machine, of.path)
    along, force = teeth.spreads[flank.at].factor, teeth.mixing
    life, allowed, pressed = flank.life, flank.lasting, flank.stress * np.sqrt(force * along)
    safety, factor = machine.spec.safety.tooth_contact, toothstrength.LOAD_FACTOR * teeth.faster
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
            tooth_workings.force_with_speed(teeth, i),
            *tooth_workings.uneven(teeth, flank.at, i, float(force[i])),
            tooth_workings.pressed(
                teeth, flank, float(force[i]), float(along[i]), float(pressed[i])
            ),
            *tooth_workings.lasting_contact(teeth),
        ],
        source="ISO 6336-2 method B with K factors stated and Z_L, Z_v, Z_R of clause 12; limits ISO 6336-5 (from memory, the low end)",
        reason=lambda i, say: (
            f"{one_word(flank.pair)}, Ft = {say(teeth.force[i], 'N')}, K = {factor * along[i]:.2f}, {cycles:.2g} loads x {life:.2f}; "
            f"at {say(float(speed), 'm/s')} metal touches metal, which leaves {np.prod(flank.film):.2f} of what it lasts: {lubrication}"
        ),
        fix=lambda i: [
            *_lasting(
                teeth, flank.at, i, float((pressed[i] * safety / allowed) ** 2), "contact_limit"
            ),
            {of.field("flank_roughness"): 12.5, "housing.lubricant_viscosity": film.MOST_VISCOUS},
        ],
        note=lambda i, say: _line_up(teeth, flank.at, i),
    )


def _surfaces_bear_a_jam(teeth: LoadedTeeth) -> Check:
    """Whether a jam leaves no dents in the flanks."""
    of, machine, flank = teeth.of, teeth.of.machine, teeth.pressed
    along = teeth.spreads[flank.at].before
    allowed, stress = flank.once, flank.stress * np.sqrt(teeth.jam * along)
    safety = machine.spec.safety.tooth_contact
    return make_check(
        machine,
        "gears",
        of.part,
        _NAMES[3],
        where=machine.load_cases.jammed & teeth.here,
        demand=stress,
        capacity=allowed,
        unit="MPa",
        safety=safety,
        working=lambda i: [
            tooth_workings.force_in_a_jam(teeth, i),
            *tooth_workings.uneven(teeth, flank.at, i, float(teeth.jam[i]), bends=False),
            tooth_workings.pressed(
                teeth, flank, float(teeth.jam[i]), float(along[i]), float(stress[i])
            ),
            *tooth_workings.static_contact(flank),
        ],
        source="ISO 6336-2 method B for static strength; limits ISO 6336-5 (from memory, the low end)",
        reason=lambda i, say: (
            f"{one_word(flank.pair)}, Ft = {say(teeth.jam[i], 'N')}; limit of {flank.steel['name']} static x "
            f"{flank.static_factor:g}"
        ),
        # what the jam bends is not in it
        fix=lambda i: _carrying(
            teeth, i, float((stress[i] * safety / allowed) ** 2), "contact_limit"
        ),
        note=lambda i, say: _line_up(teeth, flank.at, i),
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
