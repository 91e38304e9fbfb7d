"""Whether everything on a shaft is held both ways along it, and what holds it bears the paddles' push."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from mixerkit.checking import make_check
from mixerkit.checks import Change, Check
from mixerkit.parts import zones
from mixerkit.parts.along import NAMES, bearing_places
from mixerkit.parts.bearing_loads import axial_push, jam_thrust
from mixerkit.parts.remedies import calmer, lengths
from mixerkit.parts.rings import LEVER, corner_load, groove_load, ring_for
from mixerkit.parts.shaftline import ShaftBeam
from mixerkit.parts.stack import Groove, Stop
from mixerkit.tables import table
from mixerkit.working import Given, Working, by_method, worked

__all__ = ["HELD", "PUSH", "checks", "outside"]

HELD = "everything is held both ways along it"
"""Name of the check of what holds things along a shaft."""
PUSH = "rings bear the push along the shaft"
"""Name of the check of rings and grooves."""
_SIDES = {-1: "towards the reducer", 1: "towards the trough"}


def checks(beam: ShaftBeam) -> list[Check]:
    """Check what holds things along a shaft.

    Parameters
    ----------
    beam : ShaftBeam

    Returns
    -------
    list of Check
    """
    found, cut = beam.stack.stops, beam.stack.grooves
    return [_both_ways(beam, found), *([_bears_push(beam, cut)] if cut else [])]


def _said(stop: Stop) -> str:
    return f"{stop.name} {_SIDES[stop.side]}"


def _both_ways(beam: ShaftBeam, found: Sequence[Stop]) -> Check:
    """Whether a shoulder, a spacer, a ring, pins or the hub's own hold stands either side of everything."""
    loose = [stop for stop in found if not stop.kind]
    firm = len(found) - len(loose)
    rings = sum(stop.kind == "ring" for stop in found)
    kinds = [one.kind for one in beam.stack.washers]
    washers = f"{kinds.count('thrust washer')} thrust washers between"
    if "support washer" in kinds:
        washers += f", {kinds.count('support washer')} support washers before bearings"
    words = (
        "; ".join(f"{_said(stop)}: {stop.why}" for stop in loose[:3])
        if loose
        else f"{rings} rings in grooves, {sum(stop.kind == 'spacer' for stop in found)} faces against spacers, "
        f"{sum(stop.kind == 'shoulder' for stop in found)} against shoulders, {washers}; the push leaves the shaft at the "
        f"{NAMES[beam.machine.spec.bearings.locating - 1]}, the other bearings slide in their bores"
    )
    return make_check(
        beam.machine,
        "shafts",
        f"shaft {beam.number}",
        HELD,
        demand=float(len(found)),
        capacity=float(firm),
        unit="",
        tight=1.0,
        source="retaining rings of DIN 471 (normal type) or ASME B27.7 with room for groove and edge; spacers between neighbours, "
        "what holds reaches 1 mm over the metal that it holds, a thrust washer between where it does not: common practice",
        reason=lambda i, say: words,
        working=lambda i: [
            by_method(
                "n",
                "faces of all that must stay, counted where shoulder, spacer, ring, pins or hub holds them",
                float(firm),
                "",
            )
        ],
        fix=lambda i: [
            *({"bearings.locating": 2} for stop in loose[:1] if "set screws" in stop.why),
            *_holding(beam, loose),
        ],
    )


def _holding(beam: ShaftBeam, loose: Sequence[Stop]) -> list[Change]:
    """What makes room for a ring, a size that rings are made for, or a shoulder in its stead."""
    spec, system, field = beam.machine.spec, beam.machine.system, f"shaft_{beam.number}"
    own, found = beam.own, list[Change]()
    made = sorted(row.values["shaft"] for row in table("retaining_rings"))
    for k, size in enumerate((own.diameter, *own.step_diameters)):
        if ring_for(size) is not None:
            continue
        steps = list(own.step_diameters)
        for other in [
            *[one for one in made if one >= size][:2],
            *[one for one in made if one < size][-1:],
        ]:
            if k == 0:
                found.append({f"{field}.diameter": other})
            else:
                steps[k - 1] = other
                found.append({f"{field}.step_diameters": lengths(steps, system)})
    found += _room_for_it(beam, loose)
    if not own.step_at and spec.bearings.kind == "rolling":
        bearing = zones.bearing_on(spec, beam.number, NAMES[1])
        if bearing:
            _, second, last = bearing_places(spec)
            half, thick = bearing["width"] / 2, bearing["least_shoulder"]
            found.append(
                {
                    f"{field}.step_at": lengths([second + half, last - half], system),
                    f"{field}.step_diameters": lengths([thick, own.diameter], system),
                }
            )
    return found


def _room_for_it(beam: ShaftBeam, loose: Sequence[Stop]) -> list[Change]:
    """What makes room for rings and thrust washers: inside the dogs, before the clutch's sleeve, along the shaft."""
    clutch, found = beam.machine.spec.clutch, list[Change]()
    if any("dogs" in stop.why for stop in loose):
        wide = [float(stop.ring["over"]) for stop in loose if stop.ring]
        wide += [stop.washer.outer for stop in loose if stop.washer]
        over = max(wide) + 0.5
        ring = clutch.outer_diameter - clutch.inner_diameter
        found += [
            {"clutch.inner_diameter": over},
            {"clutch.inner_diameter": over, "clutch.outer_diameter": over + ring},
        ]
    if any("sleeve" in stop.why for stop in loose):
        found.append("clutch.dog_height")
    if any("no room" in stop.why for stop in loose):
        found += ["bearings.span", "reducer.overhang", "trough.length", "bearings.bush_length"]
    if any("thrust washer" in stop.why for stop in loose):
        found += ["bearings.free_gear_length", "housing.plate_spacing"]
    return found


def _bears_push(beam: ShaftBeam, cut: Sequence[Groove]) -> Check:
    """Whether the weakest ring and groove bear what the paddles push along the shaft, in a jam too."""
    machine = beam.machine
    strength = beam.steel["yield_strength"]

    def bears(one: Groove) -> tuple[float, float, float]:
        outer = outside(beam, one)
        groove = float(groove_load.formula(outer, one.ring["groove"], strength))
        return min(groove, _ring_bears(beam, one)), groove, outer

    weak = min(cut, key=lambda one: bears(one)[0])
    least, groove, outer = bears(weak)
    alone, corner = _ring_bears(beam, weak), beam.stack.corner(weak)
    push = np.maximum(axial_push(machine), jam_thrust(machine, beam.number))
    return make_check(
        machine,
        "shafts",
        f"shaft {beam.number}",
        PUSH,
        demand=push,
        capacity=least,
        unit="N",
        safety=machine.spec.safety.shaft_in_jam,
        source="load of the groove by DIN 471 and of the ring in data/tables/retaining_rings.csv, on a round corner by its arm; "
        "the whole push on each ring: the side that hurts",
        reason=lambda i, say: (
            f"ring {weak.where}: its groove bears {say(groove, 'N')}, the ring "
            f"{say(alone, 'N')}; {_lies_on(beam, weak)}"
            + (f", {say(corner, 'mm')} across" if corner else "")
        ),
        working=lambda i: [
            worked(
                "F_N = pi/4*(d_1**2 - d_2**2)*R_e/q",
                groove,
                "N",
                d_1=(outer, "mm", f"shaft {beam.number} at that ring"),
                d_2=(float(weak.ring["groove"]), "mm", "data/tables/retaining_rings.csv: groove"),
                R_e=(
                    strength,
                    "MPa",
                    f"data/tables/materials.csv, {beam.own.material}: yield_strength",
                ),
                q=(1.2, "", "DIN 471"),
            ),
            *_by_corner(weak, alone, corner),
            by_method(
                "F", "the lesser of groove and ring, the weakest ring of the shaft", least, "N"
            ),
        ],
        fix=lambda i: [
            *calmer(machine, i, float(push[i]) * machine.spec.safety.shaft_in_jam / least),
            f"shaft_{beam.number}.diameter",
            # a support washer finds room there
            *(["bearings.span", "reducer.overhang", "bearings.series"] if corner else []),
            "paddles.root_radius",
            "paddles.set_angle",
        ],
    )


def _ring_bears(beam: ShaftBeam, one: Groove) -> float:
    """Load in N of a ring alone, on the corner that it lies against."""
    sharp, corner = 1e3 * one.ring["ring_load"], beam.stack.corner(one)
    return float(corner_load.formula(sharp, one.ring["shaft"], corner))


def _lies_on(beam: ShaftBeam, one: Groove) -> str:
    """What a ring lies against, in words."""
    between = next((washer.kind for washer in beam.stack.washers if washer.name == one.where), "")
    if beam.stack.corner(one):
        return (
            f"on what a {between} leaves of the bearing's corner"
            if between
            else "on the bearing's corner"
        )
    return f"on the sharp edge of a {between}" if between else "sharp edges on what lies against it"


def _by_corner(one: Groove, bears: float, corner: float) -> list[Working]:
    """Say what a ring bears on a round corner; of a sharp one the table has it."""
    sharp: Given = (1e3 * one.ring["ring_load"], "N", "data/tables/retaining_rings.csv: ring load")
    if not corner:
        row = "row of data/tables/retaining_rings.csv for that shaft: ring load, against a sharp corner"
        return [by_method("F_R", row, *sharp[:2])]
    least, with_shaft, round_ = LEVER
    guide = "arm of the push on a ring: a design guide for rings of DIN 471"
    return [
        worked(
            "F_Rg = F_R*Min(1, (a + e*d)/(c + g))",
            bears,
            "N",
            F_R=sharp,
            a=(least, "mm", guide),
            e=(with_shaft, "", guide),
            d=(float(one.ring["shaft"]), "mm", "data/tables/retaining_rings.csv: shaft"),
            c=(round_, "mm", guide),
            g=(
                corner,
                "mm",
                "largest corner of the bearing, 1.9 of the least, less a washer's thickness",
            ),
        )
    ]


def outside(beam: ShaftBeam, one: Groove) -> float:
    """Thickness in mm of the shaft, as turned, just beyond a groove on the side that its ring is pushed to.

    No more than the groove's own where absurd sizes leave nothing of the shaft there: then it bears nothing.
    """
    beyond = one.end + 0.01 if one.side > 0 else one.start - 0.01
    return next(
        (zone.diameter for zone in beam.stack.turned if zone.start <= beyond <= zone.end),
        float(one.ring["groove"]),
    )
