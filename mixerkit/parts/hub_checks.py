"""Box, gears and sleeves on their shafts: what holds them."""

from __future__ import annotations

from dataclasses import dataclass
from functools import partial

import numpy as np

from mixerkit.checking import make_check
from mixerkit.checks import Change, Check
from mixerkit.parts import hub, key_rooms, keys, large_holes, pins_across, stub_checks
from mixerkit.parts.metals import GEARS
from mixerkit.parts.remedies import LIGHTER, calmer
from mixerkit.parts.shaftline import ShaftBeam
from mixerkit.parts.worked import WorkedMachine
from mixerkit.results import LoadedMachine, TableRow
from mixerkit.spec import Spec
from mixerkit.tables import table
from mixerkit.working import Given, Working, worked

__all__ = ["checks"]


@dataclass(frozen=True)
class _Grip:
    """Screws that hold by friction: the torque they hold in N*m, how, and how tight each is in N*m."""

    holds: float
    how: str
    tightening: float
    source: str
    workings: tuple[Working, ...]


def checks(machine: WorkedMachine) -> list[Check]:
    """Check the hubs of box, gears and sleeves.

    Parameters
    ----------
    machine : WorkedMachine

    Returns
    -------
    list of Check
    """
    fused = machine.spec.fuse.kind != "none"
    stub = stub_checks.checks(machine) if fused else []
    return (
        key_rooms.box_checks(machine) + stub + _gears(machine) + pins_across.sleeve_checks(machine)
    )


def _gears(machine: WorkedMachine) -> list[Check]:
    """The gears that are fixed: on the shaft without the clutch."""
    hubs = machine.spec.hubs
    number = 2 if machine.spec.clutch.shaft == 1 else 1
    beam = machine.shaft_beams[number - 1]
    diameter = float(min(beam.diameters[place] for place in beam.gears.values()))
    part = f"gears of shaft {number}"
    if hubs.gear == "key":
        held = keys.KeyedHub(
            machine,
            part,
            machine.power_flow.at_gears[number],
            f"power flow, torque at the gears of shaft {number}",
            diameter,
            f"shaft {number} at its thinner gear seat",
            hubs.gear_length,
            "hubs.gear_length",
            f"shaft_{number}.diameter",
            f"shaft_{number}.material",
            GEARS,
        )
        return [*keys.flank_checks(held), *key_rooms.room_checks(machine, part, beam)]
    if hubs.gear == "taper pin":
        return _pinned(machine, part, beam, diameter)
    return _gripped(machine, part, beam, diameter)


def _pinned(machine: WorkedMachine, part: str, beam: ShaftBeam, diameter: float) -> list[Check]:
    spec, hubs, number = machine.spec, machine.spec.hubs, beam.number
    seat = f"shaft {number} at its thinner gear seat"
    held = pins_across.PinnedHub(
        machine,
        part,
        machine.power_flow.at_gears[number],
        f"power flow, torque at the gears of shaft {number}",
        diameter,
        seat,
        hubs.pin_diameter,
        1,
        (spec.housing.hub_diameter - diameter) / 2,
        spec.housing.hub_diameter,
        "hubs.key_material",
        f"shaft_{number}.material",
        GEARS,
        {
            "pin": "hubs.pin_diameter",
            "wall": "housing.hub_diameter",
            "shaft": f"shaft_{number}.diameter",
        },
    )
    return [*pins_across.pin_checks(held), _pin_in_shaft(machine, part, beam, diameter)]


def _pin_in_shaft(machine: WorkedMachine, part: str, beam: ShaftBeam, diameter: float) -> Check:
    hubs, number = machine.spec.hubs, beam.number
    why = hubs.large_hole_reason
    most = large_holes.largest_share(why) * diameter
    more = large_holes.told(hubs.pin_diameter, diameter, why, "hubs.large_hole_reason")
    return make_check(
        machine,
        "hubs",
        part,
        "pin no larger than the shaft bears",
        demand=hubs.pin_diameter,
        capacity=most,
        unit="mm",
        tight=1.0,
        source="0.3 of the diameter, up to 0.35 for a reason: common practice",
        reason=lambda i, say: f"shaft {say(diameter, 'mm')}{more}",
        fix=lambda i: [
            {"hubs.pin_diameter": most},
            {"hubs.gear": "key"},
            {"hubs.gear": "clamp"},
            {f"shaft_{number}.diameter": beam.own.diameter * hubs.pin_diameter / most},
        ],
        working=lambda i: [
            large_holes.of_what_it_may_be(
                most, diameter, f"shaft {number} at its thinner gear seat", why
            )
        ],
    )


def _set_screws(spec: Spec, diameter: float, seat: Given) -> _Grip:
    hubs, screw = spec.hubs, table("set_screws").find(spec.hubs.set_screw).values
    angle, count, tip = hubs.set_screw_angle, hubs.set_screws, hub.TIPS[hubs.set_screw_tip]
    holds = float(
        hub.set_screw_torque.formula(tip * screw["holding_power"], diameter, count, angle)
    )
    power: Given = (screw["holding_power"], "N", f"data/tables/set_screws.csv, {hubs.set_screw}")
    share = float(count // 2 * hub.set_screw_share.formula(angle) + count % 2)
    return _Grip(
        holds,
        f"{count} set screws {hubs.set_screw}, {hubs.set_screw_tip} tips, pairs at {angle:g} deg, tightened to",
        screw["seating_torque"],
        "Shigley 10th ed., table 7-4 and section 7-7",
        (
            worked(
                "s = n_2*(1 + cos(theta/2)) + n_1",
                share,
                "",
                source="statics: screws in pairs along the shaft",
                n_2=(count // 2, "", "pairs among hubs.set_screws"),
                theta=(angle, "deg", "hubs.set_screw_angle"),
                n_1=(count % 2, "", "single one among hubs.set_screws"),
            ),
            worked(
                "T = k*F_H*s*d/2",
                holds,
                "N*m",
                k=(
                    tip,
                    "",
                    f"{hubs.set_screw_tip} tips over cup points: makers' charts, from memory",
                ),
                F_H=power,
                s=(share, "", "above"),
                d=seat,
            ),
        ),
    )


def _clamp(spec: Spec, diameter: float, seat: Given) -> _Grip:
    hubs, thread = spec.hubs, table("threads").find(spec.hubs.clamp_screw).values
    pull = hub.screw_pull.formula(thread["stress_area"])
    holds = float(hub.clamp_torque.formula(pull, diameter, hubs.clamp_screws))
    area: Given = (thread["stress_area"], "mm**2", f"data/tables/threads.csv, {hubs.clamp_screw}")
    return _Grip(
        holds,
        f"{hubs.clamp_screws} screws {hubs.clamp_screw} class 8.8, friction 0.12, tightened to about",
        0.2 * pull * thread["diameter"] / 1e3,
        "clamped halves, friction: common practice",
        (
            worked(
                "F = 0.7*R_e*A_s",
                float(pull),
                "N",
                source="0.7 of yield: common practice",
                R_e=(640.0, "MPa", "property class 8.8: ISO 898-1"),
                A_s=area,
            ),
            worked(
                "T = n*F*mu*d",
                holds,
                "N*m",
                n=(hubs.clamp_screws, "", "hubs.clamp_screws"),
                F=(float(pull), "N", "above"),
                mu=(0.12, "", "wiped steel: common practice"),
                d=seat,
            ),
        ),
    )


def _gripped(machine: WorkedMachine, part: str, beam: ShaftBeam, diameter: float) -> list[Check]:
    """Gears held by set screws or a clamp."""
    hubs, safety = machine.spec.hubs, machine.spec.safety.hub
    torque, found = machine.power_flow.at_gears[beam.number], []
    seat: Given = (diameter, "mm", f"shaft {beam.number} at its thinner gear seat")
    if hubs.gear == "set screws":
        grip = _set_screws(machine.spec, diameter, seat)
        found = _screw_room(machine, part, beam, table("set_screws").find(hubs.set_screw).values)
    else:
        grip = _clamp(machine.spec, diameter, seat)

    def tighter(more: float, i: int) -> list[Change]:
        over = float(torque[i] * safety * more / grip.holds)
        return _more_screws(machine, i, over, f"shaft_{beam.number}.diameter")

    # what slips does not break: it may slip again at the same torque
    return found + [
        make_check(
            machine,
            "hubs",
            part,
            f"{hubs.gear} hold {when}",
            where=where,
            demand=torque,
            capacity=grip.holds,
            unit="N*m",
            safety=safety * more,
            rung=rung,
            source=grip.source,
            reason=lambda i, say: (
                f"{grip.how} {say(grip.tightening, 'N*m')}, shaft {say(diameter, 'mm')}"
            ),
            fix=partial(tighter, more),
            working=lambda i: grip.workings,
        )
        for when, where, more, rung in (
            ("while mixing", machine.load_cases.mixing, 2.0, None),
            ("in a jam", machine.load_cases.jammed, 1.0, (1.0, 1.0)),
        )
    ]


def _more_screws(machine: LoadedMachine, i: int, over: float, shaft_field: str) -> list[Change]:
    """A key, or screws that hold so many times as much: more of them, or larger ones."""
    hubs = machine.spec.hubs
    clamp = hubs.gear == "clamp"
    field, size, name, strength = (
        ("hubs.clamp_screws", "hubs.clamp_screw", "threads", "stress_area")
        if clamp
        else ("hubs.set_screws", "hubs.set_screw", "set_screws", "holding_power")
    )
    count = hubs.clamp_screws if clamp else hubs.set_screws
    rows = [row.values for row in table(name).only("series", machine.system)]
    has = table(name).find(hubs.clamp_screw if clamp else hubs.set_screw).values[strength]
    larger = [row["name"] for row in rows if row[strength] >= has * over]
    return [
        {"hubs.gear": "key"},
        *([{field: int(np.ceil(count * over))}] if count * over <= 8 else []),
        *({size: one} for one in larger[:1]),
        shaft_field,
        *calmer(machine, i, over),
        *(LIGHTER if machine.load_cases.mixing[i] else ()),
    ]


def _screw_room(machine: LoadedMachine, part: str, beam: ShaftBeam, screw: TableRow) -> list[Check]:
    """Whether a set screw is not too thick for its shaft, and has thread enough in its hub."""
    places = list(beam.gears.values())
    thin, thick = (float(pick(beam.diameters[places])) for pick in (np.min, np.max))
    wall = (machine.spec.housing.hub_diameter - thick) / 2
    smaller = [
        row.values["name"]
        for row in table("set_screws").only("series", machine.system)
        if row.values["diameter"] < screw["diameter"]
    ]
    fewer: list[Change] = [{"hubs.set_screw": one} for one in smaller[-2:]]
    return [
        make_check(
            machine,
            "hubs",
            part,
            "set screw no thicker than a third of the shaft",
            demand=screw["diameter"],
            capacity=thin / 3,
            unit="mm",
            tight=1.0,
            source="a quarter of the shaft is usual, a third the most: common practice",
            reason=lambda i, say: f"screw {screw['name']} on a shaft of {say(thin, 'mm')}",
            fix=lambda i: [*fewer, {f"shaft_{beam.number}.diameter": 3 * screw["diameter"]}],
            working=lambda i: [
                worked(
                    "d_s = d/3",
                    thin / 3,
                    "mm",
                    d=(thin, "mm", f"shaft {beam.number} at its thinner gear seat"),
                )
            ],
        ),
        make_check(
            machine,
            "hubs",
            part,
            "thread for the set screw in the hub",
            demand=screw["diameter"],
            capacity=wall,
            unit="mm",
            tight=1.0,
            source="thread as long as the screw is thick: common practice",
            reason=lambda i, say: f"screw {screw['name']}, wall of the hub {say(wall, 'mm')}",
            fix=lambda i: [{"housing.hub_diameter": thick + 2 * screw["diameter"]}, *fewer],
            working=lambda i: [
                worked(
                    "w = (d_h - d)/2",
                    wall,
                    "mm",
                    d_h=(machine.spec.housing.hub_diameter, "mm", "housing.hub_diameter"),
                    d=(thick, "mm", f"shaft {beam.number} at its thicker gear seat"),
                )
            ],
        ),
    ]
