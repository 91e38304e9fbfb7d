"""Whether the idler clears shafts, pins and case, and its pin bears a jam."""

from __future__ import annotations

from dataclasses import dataclass, replace

import numpy as np

from mixerkit.checking import make_check, make_unjudged
from mixerkit.checks import Change, Check
from mixerkit.parts import gear_workings, mesh, shaft, spurgear
from mixerkit.parts.formcutter import FEWEST
from mixerkit.parts.gear_pairs import shifts_of
from mixerkit.parts.idler import (
    END_PLAY,
    PIN_SPACER,
    WASHER,
    idler_centre,
    idler_forces,
    idler_long,
    idler_room,
    reaching,
)
from mixerkit.parts.idler_lean import LEANS, pin_leans
from mixerkit.parts.remedies import calmer, stronger
from mixerkit.parts.toothed import Toothed
from mixerkit.parts.zones import seat
from mixerkit.results import LoadedMachine
from mixerkit.spec import Spec
from mixerkit.tables import table
from mixerkit.units import show

__all__ = ["checks"]

_NAMES = (
    "idler clears shafts and hubs",
    "idler's pin clears the direct pair",
    "idler stays inside the case",
    "idler's pin does not yield in a jam",
    "idler is held along its pin",
    LEANS,
)


def checks(machine: LoadedMachine) -> list[Check]:
    """Check the idler's place and its pin.

    Parameters
    ----------
    machine : LoadedMachine

    Returns
    -------
    list of Check
    """
    spec = machine.spec
    along, aside, distances = idler_centre(spec)
    if not np.isfinite(aside):
        span, apart = (
            show(one, "mm", machine.system)
            for one in (sum(distances), spec.housing.centre_distance)
        )
        why = f"the idler has no place: its meshes span {span} where the shafts stand {apart} apart"
        return [
            replace(
                make_unjudged(machine, "gears", "idler", one, why), fixes=lambda: reaching(spec)
            )
            for one in _NAMES
        ]
    place = _Place(
        machine,
        abs(aside),
        distances[0],
        float(np.hypot(spec.housing.centre_distance - along, aside)),
    )
    return [
        _clears_hubs(place),
        _pin_clears(place),
        _inside(place),
        _pin_bears(machine),
        _held_along(machine),
        pin_leans(machine),
    ]


@dataclass(frozen=True)
class _Place:
    """Where the idler stands: aside of the shafts' line, and from each shaft, in mm."""

    machine: LoadedMachine
    aside: float
    to_1: float
    to_2: float

    @property
    def spec(self) -> Spec:
        """The design."""
        return self.machine.spec

    @property
    def counts(self) -> tuple[int, ...]:
        """Tooth counts of its path."""
        return self.spec.paths.idler.tooth_counts

    @property
    def module(self) -> float:
        """Module of its path in mm."""
        return self.spec.paths.idler.module

    @property
    def gap(self) -> float:
        """Gap in mm that the maker wants beside tips."""
        return self.spec.safety.tip_clearance

    @property
    def tip(self) -> float:
        """Tip radius of the idler in mm."""
        shift = shifts_of(self.spec.paths.idler)[1]
        return float(spurgear.tip_diameter.formula(self.module, self.counts[1], shift)) / 2

    def with_teeth(self, first: int, middle: int, last: int) -> Change:
        """Other counts."""
        return {"paths.idler.tooth_counts": [first, middle, last]}

    def coarser(self) -> list[Change]:
        """Fewer teeth of a larger module."""
        return Toothed.of(self.machine, "idler").coarser()


def _clears_hubs(place: _Place) -> Check:
    """Whether the idler's tips keep off shafts and hubs."""
    spec, hub = place.spec, place.spec.housing.hub_diameter
    radii = [max(seat(spec, number, "idler gear"), hub) / 2 for number in (1, 2)]
    free = min(place.to_1 - radii[0], place.to_2 - radii[1]) - place.tip
    lacking = place.gap - free
    # the idler's own size adds as much to its tip as to its distance: only hubs and shaft gears tell
    more = int(np.ceil(2 * lacking / place.module))
    first, middle, last = place.counts
    return make_check(
        place.machine,
        "gears",
        "idler",
        _NAMES[0],
        demand=place.gap,
        capacity=free,
        unit="mm",
        working=lambda i: gear_workings.idler_beside(
            free, (place.to_1, place.to_2), (radii[0], radii[1]), place.tip
        ),
        source="geometry",
        reason=lambda i, say: f"tip radius {say(place.tip, 'mm')}, mesh {say(place.to_1, 'mm')}",
        fix=lambda i: [
            {"housing.hub_diameter": hub - 2 * lacking},
            place.with_teeth(first + more, middle, last + more),
            *place.coarser(),
            "shaft_1.diameter",
            "shaft_2.diameter",
        ],
    )


def _pin_clears(place: _Place) -> Check:
    """Whether the pin, in its spacer, keeps off the tips of the direct pair, whose plane it passes."""
    direct, pin = place.spec.paths.direct, place.spec.housing.idler_pin + 2 * PIN_SPACER
    tips = (
        np.asarray(
            spurgear.tip_diameter.formula(
                direct.module, np.array(direct.tooth_counts), np.array(shifts_of(direct))
            )
        )
        / 2
    )
    ends = (float(tips[0]), float(tips[-1]))
    free = min(place.to_1 - ends[0], place.to_2 - ends[1]) - pin / 2
    lacking = place.gap - free
    first, middle, last = place.counts
    return make_check(
        place.machine,
        "gears",
        "idler",
        _NAMES[1],
        demand=place.gap,
        capacity=free,
        unit="mm",
        working=lambda i: gear_workings.pin_beside(free, (place.to_1, place.to_2), ends, pin),
        source="the pin passes the plane of the other path in its spacer: geometry",
        reason=lambda i, say: (
            f"pin in its spacer {say(pin, 'mm')}, direct gears' tip radii {say(ends[0], 'mm')} and {say(ends[1], 'mm')}"
        ),
        fix=lambda i: [
            place.with_teeth(first, middle + int(np.ceil(2 * lacking / place.module)), last),
            {"housing.idler_pin": place.spec.housing.idler_pin - 2 * lacking},
            *Toothed.of(place.machine, "direct").finer(),
            *place.coarser(),
        ],
    )


def _inside(place: _Place) -> Check:
    """Whether the idler's tips stay inside the case."""
    housing, gap = place.spec.housing, place.gap
    reach = place.aside + place.tip + gap
    first, middle, last = place.counts

    def smaller() -> list[Change]:
        for count in range(middle - 1, FEWEST - 1, -1):
            ends = [place.module * (end + count) / 2 for end in (first, last)]
            _, aside = mesh.idler_place.formula(housing.centre_distance, *ends)
            if aside + place.module * (count + 2) / 2 + gap <= housing.wall_distance:
                return [place.with_teeth(first, count, last)]
        return []

    return make_check(
        place.machine,
        "gears",
        "idler",
        _NAMES[2],
        demand=reach,
        capacity=housing.wall_distance,
        unit="mm",
        working=lambda i: gear_workings.idler_reach(place.aside, place.tip, gap, reach),
        source="geometry",
        reason=lambda i, say: (
            f"idler {say(place.aside, 'mm')} {housing.idler_side} the shafts' line, tip radius {say(place.tip, 'mm')}"
        ),
        fix=lambda i: [{"housing.wall_distance": reach}, *smaller()],
    )


def _pin_bears(machine: LoadedMachine) -> Check:
    """Whether the idler's pin, held at both plates, bears both tooth forces in a jam."""
    spec = machine.spec
    pin, force = spec.housing.idler_pin, idler_forces(machine)
    moment = np.asarray(
        shaft.span_moment.formula(force, spec.paths.idler.position, spec.housing.plate_spacing)
    )
    stress = np.asarray(shaft.bending_stress.formula(moment, pin))
    steel = table("materials").find(spec.shaft_1.material).values
    strength, safety = steel["yield_strength"], spec.safety.shaft_in_jam

    def thicker(i: int) -> list[Change]:
        over = float(stress[i] * safety / strength)
        better = (("shaft_1.material",), spec.shaft_1.material, "materials", ("yield_strength",))
        return [
            {"housing.idler_pin": pin * float(np.cbrt(over))},
            *calmer(machine, i, over),
            *stronger(*better, over),
            "housing.plate_spacing",
        ]

    return make_check(
        machine,
        "gears",
        "idler",
        _NAMES[3],
        where=machine.load_cases.jammed,
        demand=stress,
        capacity=strength,
        unit="MPa",
        safety=safety,
        working=lambda i: gear_workings.idler_pin(
            machine, i, float(force[i]), float(moment[i]), float(stress[i])
        ),
        source="vector sum of both tooth forces; Shigley 10th ed., eq. 3-26",
        rung=(1.0, steel["tensile_strength"] / strength),
        reason=lambda i, say: (
            f"{say(force[i], 'N')} on the pin, M = {say(moment[i], 'N*m')}, steel of shaft 1"
        ),
        fix=thicker,
    )


def _held_along(machine: LoadedMachine) -> Check:
    """Whether washers and spacers between both plates find room on the pin beside the idler."""
    spec = machine.spec
    rooms = idler_room(spec)
    least = int(rooms[1] < rooms[0])
    wanted = WASHER + (END_PLAY if least else 0.0)
    room = rooms[least] + wanted
    longest = idler_long(spec)
    return make_check(
        machine,
        "gears",
        "idler",
        _NAMES[4],
        demand=wanted,
        capacity=room,
        unit="mm",
        tight=1.0,
        working=lambda i: gear_workings.idler_beside_plate(machine, room, longest, bool(least)),
        source="a thrust washer of 1.5 mm and 0.3 mm of play: common practice; the rest is spacer",
        reason=lambda i, say: (
            f"idler or its bush {say(longest, 'mm')} long, its middle {say(spec.paths.idler.position, 'mm')} from the plate "
            f"at the reducer, plates {say(spec.housing.plate_spacing, 'mm')} apart"
        ),
        fix=lambda i: [
            "paths.idler.position",
            "housing.plate_spacing",
            "bearings.idler_length",
            "paths.idler.face_width",
        ],
    )
