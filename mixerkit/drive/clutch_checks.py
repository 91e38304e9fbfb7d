"""The dog clutch: the room for its sleeve, its fork and detent, and the gears beside it."""

from __future__ import annotations

import numpy as np

from mixerkit.checking import make_check
from mixerkit.checks import TIGHT, Change, Check
from mixerkit.constants import STANDARD_GRAVITY
from mixerkit.drive import clutch_workings, dog_checks, dogclutch, feather_checks
from mixerkit.drive.dog_checks import clutch_torque
from mixerkit.drive.feather_checks import outer_and_inner
from mixerkit.parts import spurgear, zones
from mixerkit.parts.gear_pairs import shifts_of
from mixerkit.parts.worked import WorkedMachine
from mixerkit.results import LoadedMachine

__all__ = ["checks"]


def checks(machine: WorkedMachine) -> list[Check]:
    """Check the dogs, the room for the sleeve, its key, and the fork.

    Parameters
    ----------
    machine : WorkedMachine

    Returns
    -------
    list of Check
    """
    return [
        *dog_checks.checks(machine),
        _cutter_clears(machine, "direct"),
        _cutter_clears(machine, "idler"),
        _over_the_bushes(machine),
        *_room(machine),
        *_dropping_in(machine),
        _shifting(machine),
        *feather_checks.checks(machine),
        *_detent(machine),
    ]


_RUN_OUT = 1.0
"""Room in mm at the radius between the foot of the teeth and the dogs beside them, for the cutter to run out."""


def _cutter_clears(machine: LoadedMachine, name: str) -> Check:
    """Whether the cutter of a path's gear runs out over the dogs that stand on the gear's face."""
    one, path = machine.spec.clutch, getattr(machine.spec.paths, name)
    place = 0 if one.shaft == 1 else -1
    teeth = path.tooth_counts[place]
    root = float(spurgear.root_diameter.formula(path.module, teeth, shifts_of(path)[place]))
    most, ring = root - 2 * _RUN_OUT, one.outer_diameter - one.inner_diameter
    smaller = {"clutch.outer_diameter": most}
    return make_check(
        machine,
        "clutch",
        f"{name} path's gear with dogs",
        "gear cutter runs out clear of the dogs",
        demand=one.outer_diameter + 2 * _RUN_OUT,
        capacity=root,
        unit="mm",
        working=lambda i: clutch_workings.cutter_room(machine, name, place, _RUN_OUT, root),
        tight=1.0,
        source="root diameter by ISO 21771; 1 mm all round, in which the deeper cut for backlash lies too: common practice",
        reason=lambda i, say: (
            f"dogs {say(one.outer_diameter, 'mm')} over, foot of {teeth} teeth {say(root, 'mm')}: "
            "a cutter that goes deeper than the dogs stand cuts them off"
        ),
        fix=lambda i: (
            [smaller, {**smaller, "clutch.inner_diameter": most - ring}] if most > ring else []
        ),
    )


def _over_the_bushes(machine: LoadedMachine) -> Check:
    """Whether the dogs begin outside the bushes of the free gears."""
    spec, one = machine.spec, machine.spec.clutch
    ring = one.outer_diameter - one.inner_diameter
    thick = zones.thickest_free_gear(spec)
    bore = thick + 2 * spec.bearings.bush_wall
    return make_check(
        machine,
        "clutch",
        "dog clutch",
        "dogs stand outside the free gears' bushes",
        demand=bore,
        capacity=one.inner_diameter,
        unit="mm",
        working=lambda i: clutch_workings.over_bush(machine, thick, bore),
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


def _room(machine: LoadedMachine) -> list[Check]:
    """Whether the sleeve has its neutral, and the gear that is not engaged stays free."""
    spec = machine.spec
    one, at = spec.clutch, dogclutch.positions(spec)
    wanted = 1.0
    longest = at.room - 2 * wanted
    missing = one.sleeve_length - longest
    # the gear that stands further along moves away from the other one
    outer, inner = outer_and_inner(spec)
    shorter: list[Change] = [{"clutch.sleeve_length": longest}] if longest > 0 else []
    mended: list[Change] = [
        *shorter,
        {f"paths.{outer}.position": getattr(spec.paths, outer).position + missing},
        {f"paths.{inner}.position": getattr(spec.paths, inner).position - missing},
        "clutch.dog_height",
        f"paths.{outer}.face_width",
    ]
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
            fix=lambda i: mended,
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
            fix=lambda i: mended,
        ),
    ]


def _dropping_in(machine: LoadedMachine) -> list[Check]:
    """How long one waits for the dogs, and whether they drop in where the paddles allow."""
    one = machine.spec.clutch
    # where a phase is kept there is one place in the whole turn, and waiting for it is what it costs
    places, most = (1, 360.0) if one.keeps_phase else (one.dogs, 180.0)
    wait = dogclutch.wait_angle(places, one.angular_play)
    return [
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
            reason=lambda i, say: f"360 / {places} less {say(one.angular_play, 'deg')} of play",
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
    ]


def _shifting(machine: LoadedMachine) -> Check:
    """Whether the fork moves the sleeve with a little torque left wound up."""
    one = machine.spec.clutch
    lever = (one.outer_diameter + one.inner_diameter) / 4
    bore = zones.seat(machine.spec, one.shaft, zones.CLUTCH)
    torque = clutch_torque(machine)
    under_load = np.asarray(dogclutch.shift_force.formula(torque, lever, bore, one.friction))
    drag = np.asarray(dogclutch.shift_force.formula(0.05 * torque, lever, bore, one.friction))
    return make_check(
        machine,
        "clutch",
        "shift fork",
        "force to shift at rest",
        where=machine.load_cases.mixing,
        demand=drag,
        capacity=one.fork_force,
        unit="N",
        working=lambda i: clutch_workings.shift(machine, float(torque[i]), lever, float(drag[i])),
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
    )


def _detent(machine: LoadedMachine) -> list[Check]:
    """Whether the detent holds the sleeve, and lets the fork move it."""
    weight = STANDARD_GRAVITY * dogclutch.sleeve_mass(machine.spec)
    one = machine.spec.clutch
    return [
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
            reason=lambda i, say: f"sleeve of {say(weight / STANDARD_GRAVITY, 'kg')}",
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
