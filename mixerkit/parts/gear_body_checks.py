"""Whether the gears find room between the plates and keep a rim over their bores."""

from __future__ import annotations

import numpy as np

from mixerkit.checking import make_check
from mixerkit.checks import Change, Check
from mixerkit.parts import (
    spurgear,
    zones,
)
from mixerkit.parts.gear_pairs import shifts_of
from mixerkit.results import LoadedMachine
from mixerkit.spec import GearPath, Spec
from mixerkit.tables import table
from mixerkit.working import worked

__all__ = ["RIM", "between_plates", "plates", "rim", "taken_out"]

RIM = 1.2 * 2.25
"""Metal under the roots in modules, 1.2 tooth heights, below which the rim itself breaks (rim factor 1:
Shigley 10th ed., fig. 14-16, from memory)."""


_FREE = 1.0
"""Gap in mm wanted between what turns and a plate beside it (common practice)."""


def between_plates(spec: Spec, path: GearPath) -> float:
    """Greatest width in mm for a path's gears on their place, clear of both plates; below zero beyond one."""
    return 2 * (min(path.position, spec.housing.plate_spacing - path.position) - _FREE)


def _widest(spec: Spec, name: str) -> tuple[float, str]:
    """Widest of what sits in the middle of a path's gears in mm, and the field that says so."""
    path = getattr(spec.paths, name)
    rows = [
        (path.face_width, f"paths.{name}.face_width"),
        (spec.bearings.free_gear_length, "bearings.free_gear_length"),
    ]
    if spec.hubs.gear in ("key", "clamp"):
        rows.append((spec.hubs.gear_length, "hubs.gear_length"))
    if len(path.tooth_counts) > 2:
        rows.append((spec.bearings.idler_length, "bearings.idler_length"))
    return max(rows, key=lambda one: one[0])


def plates(machine: LoadedMachine, name: str, path: GearPath) -> Check:
    """Whether a path's gears, with bush and hub, turn clear of both plates."""
    spec = machine.spec
    spacing, room = spec.housing.plate_spacing, between_plates(machine.spec, path)
    width, field = _widest(spec, name)
    reach = width / 2 + _FREE
    place = min(max(path.position, reach), spacing - reach)
    return make_check(
        machine,
        "gears",
        f"{name} path",
        "gears turn clear of both plates",
        demand=width,
        capacity=room,
        unit="mm",
        tight=1.0,
        working=lambda i: [
            worked(
                "b = 2*(Min(x, L - x) - s)",
                room,
                "mm",
                x=(path.position, "mm", f"paths.{name}.position"),
                L=(spacing, "mm", "housing.plate_spacing"),
                s=(_FREE, "mm", "common practice"),
            )
        ],
        source="half the width each side of its middle and 1 mm free, the plates' insides at nought and their distance: geometry",
        reason=lambda i, say: (
            f"{say(width, 'mm')} wide ({field}), its middle {say(path.position, 'mm')} from one plate and "
            f"{say(spacing - path.position, 'mm')} from the other"
        ),
        fix=lambda i: [
            *([{f"paths.{name}.position": place}] if place >= reach else []),
            *([{"housing.plate_spacing": path.position + reach}] if path.position >= reach else []),
            *([{field: room}] if room > 0 else []),
        ],
    )


def taken_out(spec: Spec, name: str, place: int, last: int, system: str) -> float:
    """Diameter in mm that bore, bush or keyway take out of a gear's middle.

    Parameters
    ----------
    spec : Spec
    name : str
        Of the path.
    place, last : int
        Of the gear along its path, and of the path's last gear.
    system : str
        Whose keys: ``"metric"`` or ``"inch"``.

    Returns
    -------
    float
    """
    bush = 2 * spec.bearings.bush_wall
    if 0 < place < last:
        return spec.housing.idler_pin + bush
    number = 1 if place == 0 else 2
    seat = zones.seat(spec, number, f"{name} gear")
    if spec.clutch.shaft == number:
        return seat + bush
    return seat + 2 * hub_keyway(spec, seat, system)


def rim(machine: LoadedMachine, name: str, path: GearPath) -> Check:
    """Metal between the teeth's roots and what is bored or cut out of a gear's middle."""
    rims = []
    for place, (count, shift) in enumerate(zip(path.tooth_counts, shifts_of(path), strict=True)):
        root = float(spurgear.root_diameter.formula(path.module, count, shift))
        taken = taken_out(machine.spec, name, place, len(path.tooth_counts) - 1, machine.system)
        rims.append(((root - taken) / 2, root, taken, count))
    least, root, taken, count = min(rims, key=lambda one: one[0])
    return make_check(
        machine,
        "gears",
        f"{name} path",
        "metal between teeth and bush or keyway",
        demand=RIM * path.module,
        capacity=least,
        unit="mm",
        tight=1.0,
        working=lambda i: [
            worked(
                "s_R = c*m",
                RIM * path.module,
                "mm",
                c=(RIM, "", "1.2 tooth heights: Shigley 10th ed., fig. 14-16 (from memory)"),
                m=(path.module, "mm", f"paths.{name}.module"),
            ),
            worked(
                "s = (d_f - d)/2",
                least,
                "mm",
                d_f=(root, "mm", "root circle of the gear"),
                d=(taken, "mm", "bored or cut out of the gear"),
            ),
        ],
        source="1.2 tooth heights: Shigley 10th ed., fig. 14-16, rim factor 1 (from memory)",
        reason=lambda i, say: (
            f"gear of {count} teeth: root {say(root, 'mm')}, bored or cut out to {say(taken, 'mm')}"
        ),
        fix=lambda i: [
            *_more_teeth(name, path, 2 * (RIM - least / path.module)),
            "bearings.bush_wall",
            "housing.idler_pin",
            *(f"shaft_{number}.diameter" for number in (1, 2)),
        ],
    )


def _more_teeth(name: str, path: GearPath, lacking: float) -> list[Change]:
    """Gears of so many teeth more at the same module; a pair keeps its sum and is only evened out."""
    more, counts = int(np.ceil(lacking)), list(path.tooth_counts)
    if len(counts) > 2:
        all_more = [count + more for count in counts]
        small = [max(count, min(counts) + more) for count in counts]
        return [{f"paths.{name}.tooth_counts": one} for one in (small, all_more) if max(one) <= 200]
    least, total = min(counts) + more, sum(counts)
    if 2 * least > total:
        return []
    evened = [least, total - least] if counts[0] < counts[1] else [total - least, least]
    return [{f"paths.{name}.tooth_counts": evened}]


def hub_keyway(spec: Spec, diameter: float, system: str) -> float:
    """Depth in mm of a keyway in a gear's bore, nought where gears are held without one.

    Beyond the table of keys it grows with the shaft as the table's last row has it.
    """
    if spec.hubs.gear != "key":
        return 0.0
    rows = [row.values for row in table("keys").only("series", system)]
    fits = [row for row in rows if row["above"] < diameter <= row["up_to"]]
    if fits:
        return float(fits[0]["hub_depth"])
    return float(max(row["hub_depth"] for row in rows) * max(diameter / rows[-1]["up_to"], 1.0))
