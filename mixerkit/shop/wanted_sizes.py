"""What every measurement of a design ought to be: gears, plates, shafts, box and bushes."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

import numpy as np

from mixerkit.parts import fits, zones
from mixerkit.parts.along import NAMES
from mixerkit.parts.keys import key_for
from mixerkit.shop.blanks import gears, with_limits
from mixerkit.shop.holes import PLATES, Hole, Plate, plate
from mixerkit.shop.measured import Said, Wanted, either_side
from mixerkit.shop.measurements import BORES
from mixerkit.shop.shaftwork import BEARING_AT, seat_zone
from mixerkit.shop.wanted_bushes import bush_wanted
from mixerkit.shop.wanted_gears import gear_sizes
from mixerkit.shop.workshop import Workshop
from mixerkit.spec import Spec
from mixerkit.units import show

__all__ = ["SEATS", "bores", "off_by", "seats", "seats_to_measure", "wanted"]


def wanted(spec: Spec, shop: Workshop | None, system: str = "metric") -> dict[str, Wanted]:
    """What every measurement of a design ought to be.

    Parameters
    ----------
    spec : Spec
    shop : Workshop, or None
    system : str
        Whose keys: ``"metric"`` or ``"inch"``.

    Returns
    -------
    dict of str to Wanted
    """
    rows = [one for name in gears(spec) for one in gear_sizes(spec, name, shop, system)]
    for which in PLATES:
        rows += _plate(spec, which, system)
    for number in (1, 2):
        rows += _shaft(spec, number, system)
    rows += [*_box(spec), *bush_wanted(spec, system)]
    return {one.name: one for one in rows}


def off_by(distance: float) -> float:
    """How far in mm two bores of a plate may stand off their distance: js9, beyond 250 mm that of 250.

    Not a number where there is no distance, as for an idler that has no place.
    """
    if np.isnan(distance):
        return float("nan")
    return float(fits.limits.formula(min(distance, fits.MOST), "js9")[1]) / 1e3


def bores(one: Plate) -> dict[str, Hole]:
    """Bores of a plate whose places are measured, by their names in the file."""
    named = {hole.name.replace(" ", "_"): hole for hole in one.holes}
    return {name: hole for name, hole in named.items() if name in BORES}


def _plate(spec: Spec, which: str, system: str) -> list[Wanted]:
    one, apart = plate(spec, which), spec.housing.centre_distance
    found = bores(one)
    return [
        *(
            Wanted(
                f"plates.{which}.{name}_bore",
                f"bore for {hole.name} in the plate at the {which}",
                hole.diameter,
                *hole.limits,
                outside=False,
            )
            for name, hole in found.items()
        ),
        Wanted(
            f"plates.{which}.centre_distance",
            f"distance of the shafts in the plate at the {which}",
            *either_side(apart, off_by(apart)),
            slips=tuple(
                (
                    apart + sign * size,
                    f"measured {words} pins of {show(size, 'mm', system)} in the bores, not from middle to middle",
                )
                for size in {
                    found["shaft_1"].diameter,
                    zones.seat(spec, 1, f"plate at the {which}"),
                }
                for sign, words in ((1, "over"), (-1, "between"))
            ),
            off=_apart_off,
        ),
        Wanted(
            f"plates.{which}.thickness",
            f"thickness of the plate at the {which}",
            *either_side(one.thickness, 0.2),
        ),
    ]


def _apart_off(one: Wanted, value: float, said: Said) -> str:
    off, way = abs(value - one.nominal), "far apart" if one.beyond(value) > 0 else "close"
    # twice the tangent of the pressure angle
    play = said(round(0.73 * off, 3))
    return f"the shafts stand {said(round(off, 3))} too {way}: backlash changes by about {play}"


SEATS = {
    "bearing_seat": NAMES[0],
    "trough_bearing_seat": NAMES[1],
    "far_bearing_seat": NAMES[2],
    "gear_seat": "direct gear",
    "idler_gear_seat": "idler gear",
    "clutch_seat": zones.CLUTCH,
}
"""Seats of a shaft that are measured, by their names in the file, and what sits there."""
_FIRST = {"bearing_seat": "bearing seats", "gear_seat": "gear seats"}
"""Seats that stand for those after them where they are all alike."""


def seats(spec: Spec, number: int) -> list[Wanted]:
    """What each seat of a shaft ought to be.

    Parameters
    ----------
    spec : Spec
    number : int
        1 or 2.

    Returns
    -------
    list of Wanted
        Where all of a kind are alike, the first is named as all of them.
    """
    return [
        replace(one, words=f"{_FIRST[kind]} of shaft {number}")
        if k == 0 and not _unlike(row)
        else one
        for kind, row in _by_kind(spec, number).items()
        for k, one in enumerate(row)
    ]


def seats_to_measure(spec: Spec, number: int, kind: str) -> list[str]:
    """Names of the seats to measure of ``"bearing_seat"`` or ``"gear_seat"``: one where they are all alike."""
    row = _by_kind(spec, number)[kind]
    return [one.name for one in (row[0], *_unlike(row))]


def _by_kind(spec: Spec, number: int) -> dict[str, list[Wanted]]:
    """Seats of a shaft under bearings, and under gears and clutch."""
    found: dict[str, list[Wanted]] = {kind: [] for kind in _FIRST}
    for size, name in SEATS.items():
        if name != zones.CLUTCH or spec.clutch.shaft == number:
            what = f"bearing {BEARING_AT[name]}" if name in NAMES else name
            size_as_turned = zones.as_turned(spec, number, name)
            found["bearing_seat" if name in NAMES else "gear_seat"].append(
                Wanted(
                    f"shafts.{number}.{size}",
                    f"seat of the {what} on shaft {number}",
                    *with_limits(size_as_turned, seat_zone(spec, number, name)),
                )
            )
    return found


def _unlike(row: Sequence[Wanted]) -> list[Wanted]:
    """Those of a row that ought to be another size than the first."""
    first = row[0]
    return [one for one in row[1:] if (one.least, one.most) != (first.least, first.most)]


def _shaft(spec: Spec, number: int, system: str) -> list[Wanted]:
    at = f"shafts.{number}"
    rows = [
        *seats(spec, number),
        *_keyway(zones.seat(spec, number, "direct gear"), number, system),
    ]
    if number == 1:
        motor = "this is the motor's shaft end, not the end for the box"
        rows.append(
            Wanted(
                f"{at}.box_end",
                "end of shaft 1 in the box",
                *with_limits(zones.seat(spec, 1, zones.BOX), "h6"),
                slips=((spec.motor.shaft_end, motor),),
            )
        )
    return rows


def _keyway(size: float, number: int, system: str) -> list[Wanted]:
    key, of = key_for(size, system), f"of the keyways in shaft {number}"
    depth = key["shaft_depth"]
    return [
        Wanted(
            f"shafts.{number}.keyway_depth",
            f"depth {of}",
            depth,
            depth - 0.05,
            depth + 0.2,
            outside=False,
            off=_keyway_off,
            slips=(
                (size - depth, "measured across the shaft to the keyway's floor, not its depth"),
                (key["hub_depth"], "this is the depth for the hub, not for the shaft"),
                (key["height"], "this is the whole height of the key"),
            ),
        ),
        Wanted(
            f"shafts.{number}.keyway_width",
            f"width {of}",
            *with_limits(key["width"], "N9"),
            outside=False,
        ),
    ]


def _keyway_off(one: Wanted, value: float, said: Said) -> str:
    beyond = one.beyond(value)
    too = "shallow: the key will stand too high"
    if beyond > 0:
        too = "deep: the shaft is weaker there and the key stands low in its hub"
    return f"{said(round(abs(beyond), 3))} too {too}"


def _box(spec: Spec) -> list[Wanted]:
    ends = (
        ("input", "fast", spec.reducer.input_bore),
        ("output", "slow", spec.reducer.output_bore),
    )
    return [
        Wanted(
            f"box.{name}_bore",
            f"bore at the {speed} end of the box",
            *with_limits(bore, "H8"),
            outside=False,
            slips=((other, f"this is the {its} end: the wrong end of the box was measured"),),
        )
        for (name, speed, bore), (_, its, other) in zip(ends, ends[::-1], strict=True)
    ]
