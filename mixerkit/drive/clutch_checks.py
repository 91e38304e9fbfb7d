"""The dog clutch: its dogs, the room for its sleeve, its key, fork and detent, and the gears beside it."""

from __future__ import annotations

from functools import partial

import numpy as np

from mixerkit.checking import make_check, make_unjudged
from mixerkit.checks import TIGHT, Change, Check, Say
from mixerkit.drive import clutch_workings, dogclutch
from mixerkit.drive.jam import weaker_fuse
from mixerkit.parts import hub, spurgear
from mixerkit.parts.gear_checks import shifts_of
from mixerkit.results import Array, LoadedMachine
from mixerkit.tables import table
from mixerkit.units import InputError
from mixerkit.working import Working

__all__ = ["checks", "clutch_torque"]


def checks(machine: LoadedMachine) -> list[Check]:
    """Check the dogs, the room for the sleeve, and the fork.

    Parameters
    ----------
    machine : LoadedMachine

    Returns
    -------
    list of Check
    """
    return [
        *_strength(machine),
        *_beside_the_teeth(machine),
        *_room(machine),
        *_key_and_detent(machine),
    ]


def clutch_torque(machine: LoadedMachine) -> Array:
    """Torque the clutch carries over the states: that of the path on the clutch's shaft."""
    return machine.power_flow.at_gears[machine.spec.clutch.shaft]


def _strength(machine: LoadedMachine) -> list[Check]:
    one = machine.spec.clutch
    steel = table("materials").find(one.material).values
    torque = clutch_torque(machine)
    carrying = hub.carrying_dogs(one.dogs, one.carrying_share)
    mixing, jam, sheared, bent_mixing, bent_jam = (
        ("clutch", "dog clutch", name)
        for name in (
            "pressure on the dogs while mixing",
            "pressure on the dogs in a jam",
            "shear of the dogs in a jam",
            "bending of the dogs while mixing",
            "bending of the dogs in a jam",
        )
    )
    width = 360 / one.dogs - one.angular_play
    if width <= 0:
        why = f"with {one.dogs} dogs and {one.angular_play:g} deg of play no dog is left; less play or fewer dogs are wanted"
        return [
            make_unjudged(machine, *name, why)
            for name in (mixing, jam, sheared, bent_mixing, bent_jam)
        ]
    force = np.asarray(
        dogclutch.dog_force.formula(torque, one.outer_diameter, one.inner_diameter, carrying)
    )
    pressure = np.asarray(
        dogclutch.bearing_pressure.formula(
            force, one.outer_diameter, one.inner_diameter, one.overlap
        )
    )
    shear = np.asarray(
        dogclutch.root_shear.formula(
            force, one.outer_diameter, one.inner_diameter, one.dogs, one.angular_play
        )
    )
    bent = np.asarray(
        dogclutch.root_bending.formula(
            force,
            one.outer_diameter,
            one.inner_diameter,
            one.dogs,
            one.angular_play,
            one.dog_height,
            one.overlap,
        )
    )
    arm = one.dog_height - one.overlap / 2
    # both ways, over and over, with a sharp corner at the root
    lasting = steel["tensile_strength"] / 4
    # wear, not crushing, bounds what dogs may carry day by day
    wearing = 0.25 * steel["yield_strength"]
    safety = machine.spec.safety.clutch

    def wider(i: int, stress: Array, allowed: float) -> list[Change]:
        more = float(stress[i] * safety / allowed)
        return [
            {"clutch.overlap": one.overlap * more},
            # deeper dogs want a longer overlap and a sleeve that still finds its neutral
            {
                "clutch.overlap": one.overlap * more,
                "clutch.dog_height": one.overlap * more + one.dog_height - one.overlap,
                "clutch.sleeve_length": one.sleeve_length - 2 * one.overlap * (more - 1),
            },
            "clutch.dogs",
            "clutch.outer_diameter",
            "clutch.inner_diameter",
            "clutch.material",
        ]

    def weaker(i: int, stress: Array, allowed: float) -> list[Change]:
        return [
            *weaker_fuse(
                machine.spec,
                float(machine.power_flow.jam_torque[i] * allowed / (stress[i] * safety)),
            )
        ]

    def thicker(over: float) -> list[Change]:
        # more dogs share the force and are thinner for it: stress goes about as their count
        fewer = max(int(one.dogs / over), 1) if 0 < over < np.inf else 1
        return [
            "clutch.angular_play",
            {"clutch.dogs": fewer},
            "clutch.dogs",
            {"clutch.dog_height": one.overlap / 2 + arm / over}
            if over > 0
            else "clutch.dog_height",
            "clutch.outer_diameter",
            "clutch.inner_diameter",
        ]

    return [
        make_check(
            machine,
            *mixing,
            where=machine.load_cases.mixing,
            demand=pressure,
            capacity=wearing,
            unit="MPa",
            working=lambda i: [
                *clutch_workings.dog_pressure(
                    machine, float(torque[i]), carrying, float(force[i]), float(pressure[i])
                ),
                clutch_workings.share_of_yield(machine, wearing),
            ],
            safety=safety,
            source="a quarter of yield, for wear: common practice",
            reason=lambda i, say: (
                f"{say(torque[i], 'N*m')} on {carrying:.3g} dogs of {one.dogs}, {say(force[i], 'N')} each"
            ),
            fix=lambda i: [*wider(i, pressure, wearing), "paddles.count", "paddles.width"],
        ),
        make_check(
            machine,
            *jam,
            where=machine.load_cases.jammed,
            demand=pressure,
            capacity=steel["yield_strength"],
            unit="MPa",
            working=lambda i: clutch_workings.dog_pressure(
                machine, float(torque[i]), carrying, float(force[i]), float(pressure[i])
            ),
            safety=safety,
            source="yield; factor: common practice",
            rung=(1.0, steel["tensile_strength"] / steel["yield_strength"]),
            reason=lambda i, say: (
                f"{say(torque[i], 'N*m')} on {carrying:.3g} dogs of {one.dogs}, {say(force[i], 'N')} each"
            ),
            fix=lambda i: [
                *wider(i, pressure, steel["yield_strength"]),
                *weaker(i, pressure, steel["yield_strength"]),
            ],
        ),
        make_check(
            machine,
            *sheared,
            where=machine.load_cases.jammed,
            demand=shear,
            capacity=steel["yield_strength"] / np.sqrt(3),
            unit="MPa",
            working=lambda i: clutch_workings.dog_shear(
                machine,
                float(torque[i]),
                carrying,
                float(force[i]),
                float(shear[i]),
                float(steel["yield_strength"] / np.sqrt(3)),
            ),
            safety=safety,
            rung=(1.0, steel["tensile_strength"] / steel["yield_strength"]),
            source="Shigley 10th ed., eq. 3-33 and 5-21; factor: common practice",
            reason=lambda i, say: f"{say(force[i], 'N')} on the root of one dog",
            fix=lambda i: [
                "clutch.angular_play",
                "clutch.outer_diameter",
                "clutch.dogs",
                "clutch.inner_diameter",
                "clutch.material",
                *weaker(i, shear, steel["yield_strength"] / np.sqrt(3)),
            ],
        ),
        make_check(
            machine,
            *bent_mixing,
            where=machine.load_cases.mixing,
            demand=bent,
            capacity=lasting,
            unit="MPa",
            working=lambda i: [
                *clutch_workings.dog_bending(
                    machine, float(torque[i]), carrying, float(force[i]), float(bent[i])
                ),
                clutch_workings.share_of_tensile(machine, lasting),
            ],
            safety=safety,
            source="Shigley 10th ed., eq. 3-24; a quarter of the tensile strength, for a sharp corner loaded both ways: common practice",
            reason=lambda i, say: (
                f"{say(force[i], 'N')} on one dog at {say(arm, 'mm')} over its root"
            ),
            fix=lambda i: [
                *thicker(bent[i] * safety / lasting),
                "clutch.material",
                "paddles.count",
                "paddles.width",
            ],
        ),
        make_check(
            machine,
            *bent_jam,
            where=machine.load_cases.jammed,
            demand=bent,
            capacity=steel["yield_strength"],
            unit="MPa",
            working=lambda i: clutch_workings.dog_bending(
                machine, float(torque[i]), carrying, float(force[i]), float(bent[i])
            ),
            safety=safety,
            source="Shigley 10th ed., eq. 3-24; yield; factor: common practice",
            rung=(1.0, steel["tensile_strength"] / steel["yield_strength"]),
            reason=lambda i, say: (
                f"{say(force[i], 'N')} on one dog at {say(arm, 'mm')} over its root"
            ),
            fix=lambda i: [
                *thicker(bent[i] * safety / steel["yield_strength"]),
                "clutch.material",
                *weaker(i, bent, steel["yield_strength"]),
            ],
        ),
    ]


_RUN_OUT = 1.0
"""Room in mm at the radius between the foot of the teeth and the dogs beside them, for the cutter to run out."""


def _beside_the_teeth(machine: LoadedMachine) -> list[Check]:
    """Whether the gear cutter runs out over the dogs that stand on a gear's face, and the dogs over its bush."""
    spec = machine.spec
    one = spec.clutch
    place = 0 if one.shaft == 1 else -1
    ring = one.outer_diameter - one.inner_diameter

    def over(teeth: int, root: float, _i: int, say: Say) -> str:
        return (
            f"dogs {say(one.outer_diameter, 'mm')} over, foot of {teeth} teeth {say(root, 'mm')}: "
            "a cutter that goes deeper than the dogs stand cuts them off"
        )

    def smaller(most: float, _i: int) -> list[Change]:
        if most <= ring:
            return []
        return [
            {"clutch.outer_diameter": most},
            {"clutch.outer_diameter": most, "clutch.inner_diameter": most - ring},
        ]

    found = []
    for name in ("direct", "idler"):
        path = getattr(spec.paths, name)
        teeth = path.tooth_counts[place]
        root = float(spurgear.root_diameter.formula(path.module, teeth, shifts_of(path)[place]))
        most = root - 2 * _RUN_OUT
        found.append(
            make_check(
                machine,
                "clutch",
                f"{name} path's gear with dogs",
                "gear cutter runs out clear of the dogs",
                demand=one.outer_diameter + 2 * _RUN_OUT,
                capacity=root,
                unit="mm",
                working=partial(_cutter, machine, name, place, root),
                tight=1.0,
                source="root diameter by ISO 21771; 1 mm all round, in which the deeper cut for backlash lies too: common practice",
                reason=partial(over, teeth, root),
                fix=partial(smaller, most),
            )
        )
    return [*found, _over_the_bushes(machine, ring)]


def _over_the_bushes(machine: LoadedMachine, ring: float) -> Check:
    """Whether dogs that stand on a ring of this width in mm, both sides together, begin outside the bushes."""
    spec = machine.spec
    one = spec.clutch
    bore = getattr(spec, f"shaft_{one.shaft}").diameter + 2 * spec.bearings.bush_wall
    return make_check(
        machine,
        "clutch",
        "dog clutch",
        "dogs stand outside the free gears' bushes",
        demand=bore,
        capacity=one.inner_diameter,
        unit="mm",
        working=lambda i: clutch_workings.over_bush(machine, bore),
        tight=1.0,
        source="geometry",
        reason=lambda i, say: (
            f"the bush of a free gear is {say(bore, 'mm')} over, the dogs begin at {say(one.inner_diameter, 'mm')}"
        ),
        fix=lambda i: [
            {"clutch.inner_diameter": bore},
            {"clutch.inner_diameter": bore, "clutch.outer_diameter": bore + ring},
            "bearings.bush_wall",
            f"shaft_{one.shaft}.diameter",
        ],
    )


def _cutter(machine: LoadedMachine, name: str, place: int, root: float, _i: int) -> list[Working]:
    return clutch_workings.cutter_room(machine, name, place, _RUN_OUT, root)


def _room(machine: LoadedMachine) -> list[Check]:
    spec = machine.spec
    one, at = spec.clutch, dogclutch.positions(spec)
    wanted = 1.0
    longest = at.room - 2 * wanted
    lever = (one.outer_diameter + one.inner_diameter) / 4
    bore = getattr(spec, f"shaft_{one.shaft}").diameter
    drag = np.asarray(
        dogclutch.shift_force.formula(0.05 * clutch_torque(machine), lever, bore, one.friction)
    )
    under_load = np.asarray(
        dogclutch.shift_force.formula(clutch_torque(machine), lever, bore, one.friction)
    )
    # the gear that stands further along moves away from the other one
    outer = "idler" if spec.paths.idler.position > spec.paths.direct.position else "direct"
    inner = "direct" if outer == "idler" else "idler"
    missing = one.sleeve_length - longest
    apart: list[Change] = [
        {f"paths.{outer}.position": getattr(spec.paths, outer).position + missing},
        {f"paths.{inner}.position": getattr(spec.paths, inner).position - missing},
    ]
    shorter: list[Change] = [{"clutch.sleeve_length": longest}] if longest > 0 else []
    # where a phase is kept there is one place in the whole turn, and waiting for it is what it costs
    wait, most = (
        (dogclutch.wait_angle(1, one.angular_play), 360.0)
        if one.keeps_phase
        else (dogclutch.wait_angle(one.dogs, one.angular_play), 180.0)
    )
    return [
        make_check(
            machine,
            "clutch",
            "dog clutch",
            "neutral gap each side",
            demand=wanted,
            capacity=at.gap,
            unit="mm",
            working=lambda i: clutch_workings.gap_neutral(machine, at.room, at.gap),
            source="1 mm so that neutral stays neutral: common practice",
            reason=lambda i, say: (
                f"room {say(at.room, 'mm')} between the gears' dogs, sleeve {say(one.sleeve_length, 'mm')}"
            ),
            fix=lambda i: [*shorter, *apart, "clutch.dog_height", f"paths.{outer}.face_width"],
        ),
        make_check(
            machine,
            "clutch",
            "dog clutch",
            "the other gear stays free when one is engaged",
            demand=wanted,
            capacity=at.other,
            unit="mm",
            working=lambda i: clutch_workings.gap_engaged(machine, at.room, at.gap, at.other),
            source="travel: far gap = twice the neutral gap + overlap",
            reason=lambda i, say: (
                f"2 x {say(at.gap, 'mm')} + {say(one.overlap, 'mm')}; travel {say(at.travel, 'mm')} each way"
            ),
            fix=lambda i: [*shorter, *apart, "clutch.dog_height", f"paths.{outer}.face_width"],
        ),
        make_check(
            machine,
            "clutch",
            "dog clutch",
            "wait before the dogs drop in",
            demand=wait,
            capacity=most,
            unit="deg",
            working=lambda i: clutch_workings.drop_angle(machine, wait),
            tight=1.0 if one.keeps_phase else TIGHT,
            source="half a turn of the paddles by hand or by a nudge, a whole one where a phase is kept: common practice",
            reason=lambda i, say: (
                f"360 / {1 if one.keeps_phase else one.dogs} less {say(one.angular_play, 'deg')} of play"
            ),
            fix=lambda i: ["clutch.dogs"],
        ),
        make_check(
            machine,
            "clutch",
            "dog clutch",
            "dogs drop in at no more angles than the paddles allow",
            demand=one.dogs,
            capacity=1.0 if one.keeps_phase else np.inf,
            unit="",
            working=lambda i: clutch_workings.dogs_kept(machine),
            tight=1.0,
            words=(
                "one dog for a phase that is kept"
                if one.keeps_phase
                else "any count where no phase is kept",
                f"{one.dogs} dog{'s' if one.dogs > 1 else ''}",
            ),
            source="equal dogs drop in at every one of their pitches: geometry",
            reason=lambda i, say: (
                f"{one.dogs} equal dogs drop in at {one.dogs} angles of a turn, and clutch.keeps_phase is "
                f"{str(one.keeps_phase).lower()}"
            ),
            fix=lambda i: [{"clutch.keeps_phase": False}, {"clutch.dogs": 1}],
        ),
        make_check(
            machine,
            "clutch",
            "shift fork",
            "force to shift at rest",
            where=machine.load_cases.mixing,
            demand=drag,
            capacity=one.fork_force,
            unit="N",
            working=lambda i: clutch_workings.shift(
                machine, float(clutch_torque(machine)[i]), lever, float(drag[i])
            ),
            source="a twentieth of the torque left wound up: common practice",
            reason=lambda i, say: (
                f"with the whole torque still on it would take {say(under_load[i], 'N')}: stop, nudge back, then shift"
            ),
            fix=lambda i: [
                {"clutch.fork_force": float(drag[i])},
                "clutch.outer_diameter",
                "paddles.count",
                "paddles.width",
            ],
        ),
    ]


def _key_and_detent(machine: LoadedMachine) -> list[Check]:
    weight = 9.81 * dogclutch.sleeve_mass(machine.spec)
    one = machine.spec.clutch
    return [
        *_feather(machine),
        make_check(
            machine,
            "clutch",
            "detent",
            "holds the sleeve in neutral",
            demand=3 * weight,
            capacity=one.detent_force,
            unit="N",
            working=lambda i: clutch_workings.detent_force(machine, weight, 3 * weight),
            source="three times the sleeve's weight against shaking: common practice",
            reason=lambda i, say: f"sleeve of {say(weight / 9.81, 'kg')}",
            fix=lambda i: [
                {"clutch.detent_force": 3 * weight},
                "clutch.sleeve_length",
                "clutch.outer_diameter",
            ],
        ),
        make_check(
            machine,
            "clutch",
            "detent",
            "lets the fork shift",
            demand=one.detent_force,
            capacity=one.fork_force,
            unit="N",
            working=lambda i: clutch_workings.detent_under_fork(machine),
            source="the fork must overcome it: geometry of forces",
            reason=lambda i, say: "detent against fork",
            fix=lambda i: [
                {"clutch.fork_force": one.detent_force},
                {"clutch.detent_force": one.fork_force},
            ],
        ),
    ]


def _feather(machine: LoadedMachine) -> list[Check]:
    """Pressure of the feather key that the sleeve slides on."""
    spec = machine.spec
    one = spec.clutch
    bore = getattr(spec, f"shaft_{one.shaft}").diameter
    torque = clutch_torque(machine)
    material = table("materials").find(one.material).values
    steel, breaks = (
        material["yield_strength"],
        material["tensile_strength"] / material["yield_strength"],
    )
    names = [("clutch", "feather key", f"pressure {when}") for when in ("while mixing", "in a jam")]
    # the sleeve's dogs stand past the key at both ends
    length = one.sleeve_length - 2 * one.dog_height
    if length <= 0:
        why = "the dogs take up the whole sleeve and leave no length for its key; a longer sleeve or shorter dogs are wanted"
        return [make_unjudged(machine, *name, why) for name in names]
    try:
        key = table("keys").only("series", machine.system).bracket(bore, "above", "up_to").values
    except InputError as error:
        return [make_unjudged(machine, *name, "; ".join(error.messages)) for name in names]
    pressure = np.asarray(dogclutch.feather_pressure.formula(torque, bore, key["height"], length))

    def longer(allowed: float, safety: float, jam: bool, i: int) -> list[Change]:
        more = float(pressure[i] * safety / allowed)
        length_then = one.sleeve_length + length * (more - 1)
        outer = "idler" if spec.paths.idler.position > spec.paths.direct.position else "direct"
        wider = length_then - one.sleeve_length
        eased: list[Change] = (
            [*weaker_fuse(spec, float(machine.power_flow.jam_torque[i]) / more)]
            if jam
            else ["paddles.count", "paddles.width"]
        )
        return [
            {"clutch.sleeve_length": length_then},
            # a longer sleeve wants its gears, and the plates, that much further apart
            {
                "clutch.sleeve_length": length_then,
                f"paths.{outer}.position": getattr(spec.paths, outer).position + wider,
                "housing.plate_spacing": spec.housing.plate_spacing + wider,
            },
            "clutch.material",
            f"shaft_{one.shaft}.diameter",
            *eased,
        ]

    return [
        make_check(
            machine,
            *name,
            where=where,
            demand=pressure,
            capacity=allowed,
            unit="MPa",
            working=lambda i: clutch_workings.feather(
                machine, float(torque[i]), key["height"], float(pressure[i])
            ),
            safety=safety,
            source=source,
            rung=rung,
            reason=lambda i, say: (
                f"{say(torque[i], 'N*m')} on a key {say(key['width'], 'mm')} x {say(key['height'], 'mm')}, "
                f"{say(length, 'mm')} of it in the sleeve"
            ),
            fix=partial(longer, allowed, safety, rung is not None),
        )
        for name, where, allowed, safety, source, rung in (
            (
                names[0],
                machine.load_cases.mixing,
                0.25 * steel,
                1.0,
                "a quarter of yield for a key that slides: common practice",
                None,
            ),
            (
                names[1],
                machine.load_cases.jammed,
                steel,
                spec.safety.shaft_in_jam,
                "yield; factor: common practice",
                (1.0, breaks),
            ),
        )
    ]
