"""What everything turns in: bearings or bushes of the shafts, of free gears and idler; seals."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from typing import Any

import numpy as np

from mixerkit.checking import make_check, make_unjudged
from mixerkit.checks import Change, Check, Say
from mixerkit.constants import STANDARD_GRAVITY
from mixerkit.frozen import result
from mixerkit.parts import bearing, bearing_workings, fits, hub, pressfit
from mixerkit.parts.blades import held_forces
from mixerkit.parts.gear_checks import idler_forces, reaching
from mixerkit.parts.remedies import LIGHTER, calmer
from mixerkit.parts.shaftline import NAMES, ShaftBeam, bearing_places
from mixerkit.parts.worked import WorkedMachine
from mixerkit.results import Array, Indices, LoadedMachine, TableRow
from mixerkit.spec import Shaft, Spec
from mixerkit.tables import table
from mixerkit.units import show
from mixerkit.working import Working, worked

__all__ = ["axial_push", "bush_sizes", "checks", "seal_drag", "seal_room", "seal_share"]

_AXIAL = 0.56
"""Axial load over C0 at which the table of factors ends (Shigley 10th ed., table 11-1, from memory)."""
HUB_OVER_BUSH = 1.2
"""Least hub over the outside of a bush pressed into it (common practice)."""


def axial_push(machine: LoadedMachine) -> float:
    """Push in N along one shaft, all its buried paddles set the same way."""
    blade = machine.spec.paddles
    return (
        float(machine.clay_load.push * machine.clay_load.buried.sum(axis=1).max())
        if blade.set_angle < 90
        else 0.0
    )


def jam_thrust(machine: LoadedMachine, number: int) -> Array:
    """Push in N along a shaft in every state, of a paddle that is caught at the sleeve."""
    blade = machine.spec.paddles
    wedged = max(abs(along) for _, _, along in held_forces(blade.set_angle))
    return (
        machine.power_flow.paddles[number - 1]
        * machine.load_cases.jammed
        * 1e3
        / blade.root_radius
        * wedged
    )


def checks(machine: WorkedMachine) -> list[Check]:
    """Check bearings, bushes and seals.

    Parameters
    ----------
    machine : WorkedMachine

    Returns
    -------
    list of Check
    """
    found = []
    for line in machine.shaft_beams:
        found += _rolling(line) if machine.spec.bearings.kind == "rolling" else _bushes(line)
    found += [
        *_idler_bush(machine),
        *_free_gears(machine),
        _bush_walls(machine),
        _pressed_in(machine),
    ]
    return [*found, *_plates(machine), *_seals(machine)]


def _by_state(machine: LoadedMachine, states: Indices, values: Array) -> Array:
    whole = np.zeros(len(machine.load_cases))
    whole[states] = values
    return whole


def _loads(line: ShaftBeam, place: int) -> tuple[Array, Array]:
    """Force on one bearing in N over the states: lasting while it turns, and the most in a jam."""
    machine, run, stop = line.machine, line.running, line.stopped
    # the cube mean over a turn is what wears a rolling bearing: ISO 281
    lasting = np.cbrt((run.reaction[..., place] ** 3).mean(axis=1))
    return (
        _by_state(machine, run.states, lasting),
        _by_state(machine, stop.states, stop.reaction[..., place].max(axis=1)),
    )


def _size(row: TableRow, say: Say) -> str:
    return " x ".join(say(row[one], "mm") for one in ("bore", "outer", "width"))


def _bores() -> list[float]:
    return sorted(float(bore) for bore in table("rolling_bearings").column("bore"))


def _larger_bearings(line: ShaftBeam, which: str, over: float) -> list[Change]:
    """Shafts that carry a bearing with so much higher a rating, the next one up first."""
    rows = [row.values for row in table("rolling_bearings")]
    has = min(row["bore"] for row in line.bearings if row)
    wanted = max(row[which] for row in rows if row["bore"] <= has) * float(over)
    bigger = sorted(row["bore"] for row in rows if row["bore"] > has and row[which] >= wanted)
    return [{f"shaft_{line.number}.diameter": bore} for bore in bigger[:1]]


def _rolling(line: ShaftBeam) -> list[Check]:
    machine, spec = line.machine, line.machine.spec
    part, field = f"bearings of shaft {line.number}", f"shaft_{line.number}.diameter"
    least = _bores()[0]
    thin = float(line.diameters[line.supports].min())
    seats = make_check(
        machine,
        "bearings",
        part,
        "a bearing for the shaft's seats",
        demand=least,
        capacity=thin,
        unit="mm",
        tight=1.0,
        working=lambda i: bearing_workings.taken(
            "d", "thinnest seat of a bearing on the shaft", thin, "mm"
        ),
        source="ISO 15 as far as the table goes",
        reason=lambda i, say: "seat turned down from the shaft",
        fix=lambda i: [{field: least}, {"bearings.kind": "plain bush"}],
    )
    rows = [row for row in line.bearings if row]
    if len(rows) < len(line.bearings):
        smallest = show(least, "mm", machine.system)
        why = f"the table of rolling bearings begins at a bore of {smallest}, and a seat is thinner"
        return [seats] + [
            replace(
                make_unjudged(machine, "bearings", part, name, why), fixes=lambda: [{field: least}]
            )
            for name in ("rating life", "static load in a jam")
        ]
    thrust = jam_thrust(machine, line.number)
    push, speed = axial_push(machine), machine.running_speed * machine.power_flow.turns[line.number]
    lives, statics = [], []
    for k, row in enumerate(rows):
        axial = push if k + 1 == spec.bearings.locating else 0.0
        lasting, most = _loads(line, k)
        load = np.asarray(
            bearing.equivalent_load.formula(lasting, axial, 1e3 * row["static_rating"])
        )
        limit = 1e3 * min(0.5 * row["dynamic_rating"], row["static_rating"])
        lives.append(
            (
                float(load[machine.load_cases.mixing].max()) / row["dynamic_rating"],
                k,
                load,
                limit,
                axial,
            )
        )
        along = np.maximum(axial, thrust) if k + 1 == spec.bearings.locating else axial
        rest = np.asarray(bearing.static_load.formula(most, along))
        pushed = np.broadcast_to(along, rest.shape)
        statics.append((float(rest.max()) / row["static_rating"], k, rest, most, pushed))
    _, k_rest, rest, radial, pushed = max(statics, key=_first)
    safety = spec.safety.bearing_static
    static = 1e3 * rows[k_rest]["static_rating"]
    return [
        seats,
        _life(line, part, rows, lives, speed),
        make_check(
            machine,
            "bearings",
            part,
            "static load in a jam",
            where=machine.load_cases.jammed,
            demand=rest,
            capacity=static,
            unit="N",
            safety=safety,
            working=lambda i: bearing_workings.static(
                float(radial[i]), float(pushed[i]), float(rest[i]), NAMES[k_rest]
            ),
            source="ISO 76 (from memory): what dents its track; slow shafts are governed by it",
            reason=lambda i, say: (
                f"{_size(rows[k_rest], say)} at the {NAMES[k_rest]}: P0 = {say(rest[i], 'N')}, its push along the shaft {say(thrust[i], 'N')} if it locates"
            ),
            fix=lambda i: [
                *_larger_bearings(line, "static_rating", rest[i] * safety / static),
                *calmer(machine, i, rest[i] * safety / static),
                {"bearings.kind": "plain bush"},
                "reducer.overhang",
                "bearings.span",
            ],
        ),
    ]


def _first(row: tuple[Any, ...]) -> float:
    """Share that a row opens with; what cannot be worked out governs all that can."""
    return np.inf if np.isnan(row[0]) else float(row[0])


def _life(
    line: ShaftBeam, part: str, rows: list[TableRow], lives: list[tuple[Any, ...]], speed: Array
) -> Check:
    """Rating life of the bearing that is loaded most for its rating."""
    machine, name = line.machine, "rating life"
    _, place, load, _, push = max(lives, key=_first)
    row, wanted = rows[place], machine.spec.batch.life_hours

    def mended(i: int) -> list[Change]:
        over = (wanted / _hours(row, load, speed)[i]) ** (1 / 3) if speed[i] > 0 else np.inf
        return [
            *_larger_bearings(line, "dynamic_rating", float(over)),
            {"bearings.kind": "plain bush"},
            *LIGHTER,
            "reducer.overhang",
            "bearings.span",
            "motor.run_at",
        ]

    def unknown(why: str, at: int) -> Check:
        worst = int(np.argmax(np.where(machine.load_cases.mixing, load, 0.0)))
        told = f"{NAMES[at]}: {why}"
        return replace(
            make_unjudged(machine, "bearings", part, name, told), fixes=lambda: mended(worst)
        )

    if not machine.running_speed > 0:
        return unknown("shaft 1 does not turn at the frequency the motor is fed with", place)
    for _, k, felt, limit, axial in lives:
        most = float(felt[machine.load_cases.mixing].max())
        if not most <= limit:
            said = [show(one, "N", machine.system) for one in (most, limit)]
            return unknown(
                f"a load of {said[0]} is beyond {said[1]}, up to which ISO 281 reckons", k
            )
        if axial > _AXIAL * 1e3 * rows[k]["static_rating"]:
            return unknown("the push is beyond the table of factors for axial load", k)
    life = _hours(row, load, speed)
    return make_check(
        machine,
        "bearings",
        part,
        name,
        where=machine.load_cases.mixing,
        demand=wanted,
        capacity=life,
        unit="hour",
        working=lambda i: bearing_workings.life(
            1e3 * row["dynamic_rating"], float(load[i]), float(speed[i]), push, float(life[i])
        ),
        source="ISO 281; ratings of data/tables/rolling_bearings.csv",
        reason=lambda i, say: (
            f"{_size(row, say)} at the {NAMES[place]}: P = {say(load[i], 'N')}, "
            f"C = {say(1e3 * row['dynamic_rating'], 'N')}, {say(speed[i], 'rpm')}"
        ),
        fix=mended,
    )


def _hours(row: TableRow, load: Array, speed: Array) -> Array:
    # a newton is nothing to a bearing, and no load at all would last for ever; where it stands it does
    life = bearing.rating_life.formula(
        1e3 * row["dynamic_rating"], np.maximum(load, 1.0), np.where(speed > 0, speed, 1.0)
    )
    return np.where(speed > 0, life, np.inf)


BUSH_CHECKS = (
    "pressure in {} in a jam",
    "pressure in {} while mixing",
    "sliding speed in {}",
    "pressure times speed in {}",
    "wear of {}",
)


def _bush_checks(
    machine: LoadedMachine,
    part: str,
    bore: float,
    length: float,
    load: Array,
    stopped: Array,
    speed: Array,
    share: float,
    field: str,
    more: Sequence[Change] = (),
    jam_bore: float | None = None,
) -> list[Check]:
    """Pressure turning and stopped, pressure times speed, and wear over the machine's life.

    ``field`` names the length of the bush, ``more`` holds other changes that help it, and ``jam_bore``
    is the bore of the bush that a jam loads most, where that is another one.
    """
    one = machine.spec.bearings
    bush = table("bush_materials").find(one.bush_material).values
    jam_bore = bore if jam_bore is None else jam_bore
    pressure = np.asarray(bearing.bush_pressure.formula(load, bore, length))
    rest = np.asarray(bearing.bush_pressure.formula(stopped, jam_bore, length))
    sliding = np.asarray(bearing.sliding_speed.formula(speed, bore))
    hours = machine.spec.batch.life_hours * share
    worn = np.asarray(
        bearing.wear_depth.formula(pressure, sliding * 3.6 * hours, bush["wear_rate"])
    )
    turning = machine.load_cases.mixing & (sliding > 0)
    if not turning.any():
        turning = machine.load_cases.mixing

    def better(column: str) -> list[Change]:
        rows = [row.values for row in table("bush_materials")]
        sign = -1 if column == "wear_rate" else 1
        rows = [row for row in rows if sign * row[column] > sign * bush[column]]
        rows.sort(key=lambda row: sign * row[column])
        return [{"bearings.bush_material": row["name"]} for row in rows[:2]]

    def longer(value: float, allowed: float, column: str) -> list[Change]:
        return [{field: float(length * value / allowed)}, *better(column), *more]

    def where(i: int, say: Say) -> str:
        return f"{say(load[i], 'N')} on {say(bore, 'mm')} x {say(length, 'mm')}, sliding {say(sliding[i], 'm/s')}"

    def pressed(i: int) -> Working:
        return bearing_workings.pressure(float(load[i]), bore, length, float(pressure[i]), part)

    def slid(i: int) -> Working:
        return bearing_workings.sliding(float(speed[i]), bore, float(sliding[i]), part)

    source = f"{one.bush_material}: data/tables/bush_materials.csv"
    names = [name.format(part) for name in BUSH_CHECKS]
    allowed = bush["pressure"]
    return [
        make_check(
            machine,
            "bearings",
            part,
            names[0],
            where=machine.load_cases.jammed,
            demand=rest,
            capacity=2 * allowed,
            unit="MPa",
            working=lambda i: [
                bearing_workings.pressure(float(stopped[i]), jam_bore, length, float(rest[i]), part)
            ],
            source=f"{source}; at rest twice that: common practice",
            reason=lambda i, say: (
                f"{say(stopped[i], 'N')} on {say(jam_bore, 'mm')} x {say(length, 'mm')}"
            ),
            fix=lambda i: (
                longer(rest[i], 2 * allowed, "pressure")
                + calmer(machine, i, rest[i] / (2 * allowed))
            ),
        ),
        make_check(
            machine,
            "bearings",
            part,
            names[1],
            where=turning,
            demand=pressure,
            capacity=allowed,
            unit="MPa",
            source=source,
            working=lambda i: [pressed(i)],
            reason=where,
            fix=lambda i: longer(pressure[i], allowed, "pressure") + list(LIGHTER),
        ),
        make_check(
            machine,
            "bearings",
            part,
            names[2],
            where=turning,
            demand=sliding,
            capacity=bush["speed"],
            working=lambda i: [slid(i)],
            unit="m/s",
            source=source,
            reason=where,
            fix=lambda i: [*better("speed"), "motor.run_at", "reducer"],
        ),
        make_check(
            machine,
            "bearings",
            part,
            names[3],
            where=turning,
            demand=pressure * sliding,
            capacity=bush["pv"],
            working=lambda i: [
                pressed(i),
                slid(i),
                worked(
                    "P = p*v",
                    float(pressure[i] * sliding[i]),
                    "MPa*m/s",
                    p=(float(pressure[i]), "MPa", "above"),
                    v=(float(sliding[i]), "m/s", "above"),
                ),
            ],
            unit="MPa*m/s",
            source=source,
            reason=where,
            fix=lambda i: [
                *longer(pressure[i] * sliding[i], bush["pv"], "pv"),
                *LIGHTER,
                "motor.run_at",
            ],
        ),
        make_check(
            machine,
            "bearings",
            part,
            names[4],
            where=turning,
            demand=worn,
            capacity=one.wear_allowed,
            unit="mm",
            working=lambda i: bearing_workings.wear(
                pressed(i), slid(i), hours, bush["wear_rate"], float(worn[i]), one.bush_material
            ),
            source=f"Archard's law; {source}",
            reason=lambda i, say: f"{where(i, say)} for {hours:g} h",
            fix=lambda i: [
                *longer(worn[i], one.wear_allowed, "wear_rate"),
                *LIGHTER,
                "motor.run_at",
            ],
            note=lambda i, say: (
                f"As it is, the bush is worn out after {say(hours * one.wear_allowed / worn[i], 'hour')}: plan to change it then."
            ),
        ),
    ]


def _bushes(line: ShaftBeam) -> list[Check]:
    machine, spec = line.machine, line.machine.spec
    bores = line.diameters[line.supports]
    worst = int(np.argmax(line.running.reaction.max(axis=(0, 1)) / bores))
    jammed = int(np.argmax(line.stopped.reaction.max(axis=(0, 1)) / bores))
    lasting, _ = _loads(line, worst)
    _, most = _loads(line, jammed)
    return _bush_checks(
        machine,
        f"bushes of shaft {line.number}",
        float(bores[worst]),
        spec.bearings.bush_length,
        lasting,
        most,
        machine.running_speed * machine.power_flow.turns[line.number],
        1.0,
        "bearings.bush_length",
        (f"shaft_{line.number}.diameter", "bearings.span"),
        float(bores[jammed]),
    )


def _idler_bush(machine: LoadedMachine) -> list[Check]:
    spec = machine.spec
    path = spec.paths.idler
    force, part = idler_forces(machine), "idler's bush"
    inside = _inside(
        machine,
        part,
        spec.housing.idler_pin,
        spec.bearings.idler_length,
        path.face_width,
        "bearings.idler_length",
        "paths.idler.face_width",
        "housing.idler_pin",
    )
    if not np.isfinite(force).all():
        why = "the idler has no place where it meshes with both shafts, so its force is not known"
        return inside + [
            replace(
                make_unjudged(machine, "bearings", part, one.format(part), why),
                fixes=lambda: reaching(spec),
            )
            for one in BUSH_CHECKS
        ]
    speed = machine.running_speed * path.tooth_counts[0] / path.tooth_counts[1]
    # half of the time in each mode
    return inside + _bush_checks(
        machine,
        part,
        spec.housing.idler_pin,
        spec.bearings.idler_length,
        force * ~machine.load_cases.jammed,
        force * machine.load_cases.jammed,
        np.where(machine.load_cases.clutch == "idler", speed, 0.0),
        0.5,
        "bearings.idler_length",
        ("housing.idler_pin",),
    )


def _inside(
    machine: LoadedMachine,
    part: str,
    bore: float,
    length: float,
    width: float,
    field: str,
    wide: str,
    inner: str,
) -> list[Check]:
    """Whether a bush finds room in its gear: along it, and in the hub round it."""
    hub, outside = machine.spec.housing.hub_diameter, bore + 2 * machine.spec.bearings.bush_wall
    return [
        make_check(
            machine,
            "bearings",
            part,
            f"{part} no longer than the gear",
            demand=length,
            capacity=width,
            unit="mm",
            tight=1.0,
            working=lambda i: bearing_workings.taken(
                "l", f"length of the bush: {field}", length, "mm", l_0=(length, "mm", field)
            ),
            source="the kit's gears are as long as their teeth are wide: geometry",
            reason=lambda i, say: f"bush {say(length, 'mm')}, face {say(width, 'mm')}",
            fix=lambda i: [{field: width}, {wide: length}],
        ),
        make_check(
            machine,
            "bearings",
            part,
            f"hub goes round {part}",
            demand=HUB_OVER_BUSH * outside,
            capacity=hub,
            unit="mm",
            tight=1.0,
            working=lambda i: bearing_workings.hub_round(
                machine, bore, HUB_OVER_BUSH, inner, HUB_OVER_BUSH * outside
            ),
            source="a hub 1.2 times the bush pressed into it: common practice",
            reason=lambda i, say: f"bush {say(outside, 'mm')} outside",
            fix=lambda i: [
                {"housing.hub_diameter": HUB_OVER_BUSH * outside},
                {"bearings.bush_wall": (hub / HUB_OVER_BUSH - bore) / 2},
                inner,
            ],
        ),
    ]


def _free_gears(machine: WorkedMachine) -> list[Check]:
    """The gears that the clutch frees: loaded only while they are held, sliding only while free."""
    spec, part = machine.spec, "bushes of the free gears"
    line = machine.shaft_beams[spec.clutch.shaft - 1]
    # dogs that do not all carry push the gear sideways with the force of one, at its end face: across and over
    one, length = spec.clutch, spec.bearings.free_gear_length
    radius = (one.outer_diameter + one.inner_diameter) / 4
    dog = (
        1e3
        * machine.power_flow.at_gears[one.shaft]
        / radius
        / hub.carrying_dogs(one.dogs, one.carrying_share)
    )
    lever = (
        max(spec.paths.direct.face_width, spec.paths.idler.face_width) / 2
        + one.dog_height
        - one.overlap / 2
    )
    held = np.hypot(*line.gear_forces.T) + dog * (1 + 6 * lever / length)
    diameter = float(min(line.diameters[place] for place in line.gears.values()))
    path, slides = spec.paths.direct, machine.power_flow.slides

    def weight(name: str) -> float:
        one = getattr(spec.paths, name)
        count = one.tooth_counts[0 if spec.clutch.shaft == 1 else -1]
        return float(
            STANDARD_GRAVITY * np.pi / 4 * (one.module * count) ** 2 * one.face_width * 7.85e-6
        )

    # where both are free, the heavier and the faster of them, whichever each is
    carried = np.maximum.reduce(
        [np.where(machine.load_cases.clutch == one, 0.0, weight(one)) for one in slides]
    )
    turns = np.maximum.reduce(list(slides.values()))
    field, inner = "bearings.free_gear_length", f"shaft_{spec.clutch.shaft}.diameter"
    width = min(path.face_width, spec.paths.idler.face_width)
    thickest = float(max(line.diameters[place] for place in line.gears.values()))
    return _inside(
        machine,
        part,
        thickest,
        spec.bearings.free_gear_length,
        width,
        field,
        "paths.direct.face_width" if width == path.face_width else "paths.idler.face_width",
        inner,
    ) + _bush_checks(
        machine,
        part,
        diameter,
        spec.bearings.free_gear_length,
        carried,
        held * machine.load_cases.jammed,
        machine.running_speed * turns,
        0.5,
        field,
        (inner,),
    )


_SQUEEZE = 0.001
"""Least interference in mm with which a bush is held (common practice)."""
_THINNEST = 1.0
"""Thinnest wall of a bush in mm that can be turned, pressed in and reamed (common practice)."""
_WALL_SHARE = 1 / 25
"""Least wall of a bush over its bore: ISO 4379 has none so thin (from memory)."""


def _bush_bores(machine: WorkedMachine) -> list[float]:
    """Bores in mm of all the bushes of a design."""
    spec = machine.spec
    line = machine.shaft_beams[spec.clutch.shaft - 1]
    bores = [
        spec.housing.idler_pin,
        *(float(line.diameters[place]) for place in line.gears.values()),
    ]
    if spec.bearings.kind == "plain bush":
        bores += [
            float(one.diameters[place]) for one in machine.shaft_beams for place in one.supports
        ]
    return bores


def _pressed_in(machine: WorkedMachine) -> Check:
    """Whether every bush is held by its fit even where its seat came out large and the bush small."""
    one = machine.spec.bearings
    outsides = [bore + 2 * one.bush_wall for bore in _bush_bores(machine)]
    squeeze, outside = min((-fits.fit(size, one.bush_fit).loosest, size) for size in outsides)
    return make_check(
        machine,
        "bearings",
        "bushes",
        "fit holds them",
        demand=_SQUEEZE,
        capacity=round(squeeze, 6),
        unit="mm",
        tight=1.0,
        working=lambda i: bearing_workings.bush_held(outside, round(squeeze, 6)),
        source="least interference of ISO 286-2: a bush that nothing holds turns in its seat; 1 um: common practice",
        reason=lambda i, say: (
            f"{one.bush_fit} at {say(outside, 'mm')} outside, seat at its largest and bush at its smallest"
        ),
        fix=lambda i: [{"bearings.bush_fit": tighter} for tighter in ("H7/p6", "H7/r6", "H7/s6")],
    )


def _bush_walls(machine: WorkedMachine) -> Check:
    """Whether every bush has a wall that stands being pressed in; all of a design have the same."""
    spec = machine.spec
    bore = max(_bush_bores(machine))
    least = max(_THINNEST, _WALL_SHARE * bore)
    return make_check(
        machine,
        "bearings",
        "bushes",
        "walls are thick enough to press in and ream",
        demand=least,
        capacity=spec.bearings.bush_wall,
        unit="mm",
        tight=1.0,
        working=lambda i: [
            worked(
                "s = Max(s_0, c*d)",
                least,
                "mm",
                s_0=(_THINNEST, "mm", "common practice"),
                c=(_WALL_SHARE, "", "ISO 4379 has none so thin (from memory)"),
                d=(bore, "mm", "largest bore of all bushes"),
            )
        ],
        source="1 mm, and a twenty-fifth of the bore: thinner than ISO 4379 has any (from memory)",
        reason=lambda i, say: f"largest bush, bore {say(bore, 'mm')}",
        fix=lambda i: [{"bearings.bush_wall": least}],
    )


_PLATE = 8.0
"""Thinnest plate in mm in which a bearing's bore stays square to it (common practice)."""
_PRELOAD = 0.7 * 580.0
"""Stress in MPa of a bolt drawn up: 0.7 of the proof strength of property class 8.8 (ISO 898-1, from memory)."""
_GRIP = 0.15
"""Friction between plate and distance tube, dry steel with a trace of oil (common practice)."""


def _plates(machine: WorkedMachine) -> list[Check]:
    """Whether the plates are as thick as their bearings want, and hold together in a jam."""
    spec, part = machine.spec, "plates"
    housing, rolling = spec.housing, spec.bearings.kind == "rolling"
    held = [row for line in machine.shaft_beams for row in line.bearings[:2]]
    rows = [row for row in held if row is not None]
    name, thickness = "thick enough for their bearings", housing.plate_thickness
    if rolling and len(rows) < len(held):
        why = "the table of rolling bearings begins at a larger bore, so how wide they are is not known"
        carried = replace(
            make_unjudged(machine, "bearings", part, name, why),
            fixes=lambda: [{"bearings.kind": "plain bush"}],
        )
    else:
        asked = max(row["width"] for row in rows) if rolling else spec.bearings.bush_length / 2
        least = max(_PLATE, asked)
        carried = make_check(
            machine,
            "bearings",
            part,
            name,
            demand=least,
            capacity=thickness,
            unit="mm",
            tight=1.0,
            working=lambda i: [
                worked(
                    "t = Max(t_0, b)",
                    least,
                    "mm",
                    t_0=(_PLATE, "mm", "common practice"),
                    b=(
                        float(asked),
                        "mm",
                        "data/tables/rolling_bearings.csv: widest bearing in a plate"
                        if rolling
                        else "half of bearings.bush_length",
                    ),
                )
            ],
            source="the whole width of a rolling bearing, half the length of a bush, and 8 mm: common practice",
            reason=lambda i, say: (
                f"widest bearing {say(asked, 'mm')}"
                if rolling
                else f"bushes {say(2 * asked, 'mm')} long"
            ),
            fix=lambda i: [
                {"housing.plate_thickness": least},
                *(
                    []
                    if rolling or thickness < _PLATE
                    else [{"bearings.bush_length": 2 * thickness}]
                ),
            ],
        )
    torque = np.abs(machine.power_flow.torque_at_box_output)
    # bolts and dowels in the corners stand further apart than the walls from the shafts
    force = 1e3 * torque / housing.wall_distance
    steel = table("materials").find(housing.plate_material).values
    allowed, safety = steel["yield_strength"] / np.sqrt(3), spec.safety.shaft_in_jam
    shear = force / (np.pi / 4 * housing.dowel**2)
    bolt = table("threads").find(housing.tie_bolt).values
    grip = 4 * _GRIP * _PRELOAD * bolt["stress_area"]

    def pushed(i: int) -> Working:
        return worked(
            "F = T/a",
            float(force[i]),
            "N",
            T=(float(torque[i]), "N*m", "power flow, torque at the box's output"),
            a=(housing.wall_distance, "mm", "housing.wall_distance"),
        )

    def larger(i: int) -> list[Change]:
        over = float(force[i] * safety / grip)
        rows = [row.values for row in table("threads").only("series", bolt["series"])]
        rows = [row for row in rows if row["stress_area"] >= over * bolt["stress_area"]]
        return [*({"housing.tie_bolt": row["name"]} for row in rows[:1]), *calmer(machine, i, over)]

    def thicker(i: int) -> list[Change]:
        over = float(shear[i] * safety / allowed)
        return [{"housing.dowel": housing.dowel * float(np.sqrt(over))}, *calmer(machine, i, over)]

    return [
        carried,
        make_check(
            machine,
            "bearings",
            part,
            "dowels do not shear in a jam",
            where=machine.load_cases.jammed,
            demand=shear,
            capacity=allowed,
            unit="MPa",
            safety=safety,
            working=lambda i: [
                pushed(i),
                worked(
                    "tau = F/(pi/4*d**2)",
                    float(shear[i]),
                    "MPa",
                    F=(float(force[i]), "N", "above"),
                    d=(housing.dowel, "mm", "housing.dowel"),
                ),
                worked(
                    "tau_e = R_e/sqrt(3)",
                    float(allowed),
                    "MPa",
                    R_e=(
                        steel["yield_strength"],
                        "MPa",
                        f"data/tables/materials.csv, {housing.plate_material}: yield strength",
                    ),
                ),
            ],
            source="a couple of two dowels against the torque of the box, yield over root 3 of the plates' steel: common practice",
            reason=lambda i, say: (
                f"{say(force[i], 'N')} across each dowel of {say(housing.dowel, 'mm')}"
            ),
            fix=thicker,
        ),
        make_check(
            machine,
            "bearings",
            part,
            "tie bolts hold the plates in a jam",
            where=machine.load_cases.jammed,
            demand=force,
            capacity=grip,
            unit="N",
            safety=safety,
            working=lambda i: [
                pushed(i),
                worked(
                    "F_mu = 4*mu*sigma*A_s",
                    grip,
                    "N",
                    mu=(_GRIP, "", "common practice"),
                    sigma=(
                        _PRELOAD,
                        "MPa",
                        "0.7 of the proof strength of class 8.8: ISO 898-1, from memory",
                    ),
                    A_s=(
                        bolt["stress_area"],
                        "mm**2",
                        f"data/tables/threads.csv, {housing.tie_bolt}: stress area",
                    ),
                ),
            ],
            source="four bolts of class 8.8 (ISO 898-1, from memory) drawn to 0.7 of proof, friction 0.15: common practice",
            reason=lambda i, say: (
                f"{say(torque[i], 'N*m')} of the box at {say(housing.wall_distance, 'mm')}, four {housing.tie_bolt} bolts"
            ),
            fix=larger,
        ),
    ]


def seal_room(spec: Spec, line: ShaftBeam) -> float:
    """Room in mm between trough wall and bearing for a seal and an open gap."""
    row = line.bearings[1]
    width = row["width"] if row else spec.bearings.bush_length
    _, near, far = (line.places[i] for i in line.supports)
    wall = spec.trough.wall_thickness
    plate = spec.housing.plate_thickness / 2
    spare = (far - near - spec.trough.length) / 2 - wall
    # at the near end the plate may be thicker than its bearing is wide
    return float(spare - max(width / 2, plate))


def seal_share(machine: LoadedMachine) -> tuple[float, float]:
    """Torque in N*m that all four seals take, and its share of what the clay asks on average.

    Of clay that asks nothing there is no share: not a number.
    """
    total = sum(seal_drag(machine.spec))
    asked = 2 * machine.clay_load.mean
    return total, total / asked if asked > 0 else np.nan


def seal_drag(spec: Spec) -> tuple[float, float]:
    """Torque in N*m that both seals of each shaft take from it while it turns."""
    seal = table("seals").find(spec.bearings.seal).values

    def both(own: Shaft) -> float:
        one = bearing.seal_torque.formula(seal["line_load"], _at_seals(spec, own), seal["friction"])
        return 2 * float(one)

    return both(spec.shaft_1), both(spec.shaft_2)


def _at_seals(spec: Spec, own: Shaft) -> float:
    """Thickest a shaft is from the trough's plate on, in mm: what its seals may rub on."""
    plate = bearing_places(spec)[1]
    size, thickest = own.diameter, 0.0
    for at, after in zip(own.step_at, own.step_diameters, strict=True):
        if at > plate:
            thickest = max(thickest, size)
        size = after
    return max(thickest, size)


def _seals(machine: WorkedMachine) -> list[Check]:
    spec = machine.spec
    seal = table("seals").find(spec.bearings.seal).values
    room = min(seal_room(spec, line) for line in machine.shaft_beams)
    asked = seal["length"] + spec.bearings.drain_gap
    more = spec.bearings.span + 2 * (asked - room)
    return [
        make_check(
            machine,
            "bearings",
            "seals",
            "seal keeps slip from the bearings",
            demand=1.0,
            capacity=float(seal["keeps_out_slip"] == "yes"),
            unit="",
            words=("a seal that keeps slip out", spec.bearings.seal),
            tight=1.0,
            working=lambda i: bearing_workings.taken(
                "k",
                "1 for a seal that keeps slip out, 0 for one that does not: data/tables/seals.csv",
                1.0,
                "",
            ),
            source="data/tables/seals.csv: common practice",
            reason=lambda i, say: f"{spec.bearings.seal} where each shaft leaves the trough",
            fix=lambda i: [
                {"bearings.seal": name}
                for name in ("packed gland, greased", "two lip seals, greased between")
            ],
        ),
        make_check(
            machine,
            "bearings",
            "seals",
            "room for seal and open gap",
            demand=asked,
            capacity=room,
            unit="mm",
            tight=1.0,
            working=lambda i: [
                worked(
                    "l = l_s + s",
                    asked,
                    "mm",
                    l_s=(
                        seal["length"],
                        "mm",
                        f"data/tables/seals.csv, {spec.bearings.seal}: length",
                    ),
                    s=(spec.bearings.drain_gap, "mm", "bearings.drain_gap"),
                )
            ],
            source="what passes the seal must drop out before the bearing: common practice",
            reason=lambda i, say: (
                f"seal {say(seal['length'], 'mm')}, gap {say(spec.bearings.drain_gap, 'mm')}"
            ),
            fix=lambda i: [
                {"bearings.span": more},
                {"bearings.seal": "packed gland, greased"},
                "trough.length",
                "trough.wall_thickness",
            ],
        ),
        _share(machine),
    ]


def _share(machine: LoadedMachine) -> Check:
    torque, share = seal_share(machine)
    name = ("bearings", "seals", "seals leave the torque to the clay")
    if np.isnan(share):
        why = "the clay asks no torque, so what the seals take is no share of it"
        return replace(make_unjudged(machine, *name, why), fixes=lambda: list(LIGHTER))
    return make_check(
        machine,
        *name,
        demand=share,
        capacity=0.15,
        unit="",
        working=lambda i: [
            worked(
                "c = T_s/(2*T_m)",
                share,
                "",
                T_s=(
                    (torque),
                    "N*m",
                    "friction of all four seals at the shafts: data/tables/seals.csv",
                ),
                T_m=(machine.clay_load.mean, "N*m", "clay load, mean torque of one shaft"),
            )
        ],
        source="15 % of the mean torque: common practice",
        reason=lambda i, say: f"four seals take {say(torque, 'N*m')} together",
        fix=lambda i: [
            {"bearings.seal": "two lip seals, greased between"},
            "shaft_1.diameter",
            "shaft_2.diameter",
        ],
    )


@result
class BushSizes:
    """Sizes of a pressed-in bush."""

    outside: float
    fit: fits.Fit
    pressure: float
    closing: tuple[float, float]
    force: float
    bored: float
    reamed: tuple[float, float]


def bush_sizes(spec: Spec, bore: float, around: float) -> BushSizes:
    """Sizes of a pressed-in bush: fit, squeeze, how far its bore closes, and what to ream.

    Parameters
    ----------
    spec : Spec
    bore : float
        Nominal bore in mm, that of the shaft or pin.
    around : float
        Outside of the gear's hub or of the metal round the bush, in mm.

    Returns
    -------
    BushSizes
        ``outside`` nominal; ``fit`` as :func:`mixerkit.parts.fits.fit` gives it; ``pressure`` at most in
        MPa, ``closing`` at least and at most in mm, ``force`` at most to press it in, in N; ``bored``
        the size to bore it to before pressing, so that there is something left to ream; ``reamed``
        least and most size after reaming.

    References
    ----------
    Lame, as in :mod:`mixerkit.parts.pressfit`; 0.2 mm left to ream: common practice.
    """
    one = spec.bearings
    bush = table("bush_materials").find(one.bush_material).values
    outside = bore + 2 * one.bush_wall
    fitted = fits.fit(outside, one.bush_fit)
    # a hub too thin for its bush fails by its own check; here the least that would do stands in
    squeeze = np.maximum([-fitted.loosest, -fitted.tightest], 0.0)
    pressure = np.asarray(
        pressfit.fit_pressure.formula(
            squeeze,
            outside,
            max(around, HUB_OVER_BUSH * outside),
            210.0,
            bush["elastic_modulus"],
            bore,
        )
    )
    closing = np.asarray(
        pressfit.bore_closing.formula(pressure, outside, bore, bush["elastic_modulus"])
    )
    reamed = bore + fits.limits.formula(bore, "H8") / 1e3
    return BushSizes(
        outside=outside,
        fit=fitted,
        pressure=float(pressure[1]),
        closing=(float(closing[0]), float(closing[1])),
        force=float(pressfit.press_force.formula(pressure[1], outside, one.idler_length)),
        bored=float(np.floor(10 * (bore - 0.2 + closing[0])) / 10),
        reamed=(float(reamed[0]), float(reamed[1])),
    )
