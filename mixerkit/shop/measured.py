"""Sizes as made: a file of measurements, what each ought to be, and what a strange one probably is.

Each measurement is first asked whether it is plausible: a slip of units, a radius, the wrong end of the
box, the blank of another tooth count, a mirrored plate. Only then does it count as a size.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

import numpy as np

from mixerkit.parts import fits, formcutter, gear_measures, measuring
from mixerkit.parts.bush_walls import bush_sizes
from mixerkit.parts.keys import key_for
from mixerkit.parts.shaft_body import bearing_for
from mixerkit.shop import indexing
from mixerkit.shop.blanks import gear_blank, gears, limits_of
from mixerkit.shop.holes import PLATES, Plate, plate
from mixerkit.shop.measurements import BORES, COUNTED
from mixerkit.shop.workshop import Workshop
from mixerkit.spec import Spec
from mixerkit.tables import table
from mixerkit.units import show

__all__ = ["Finding", "Wanted", "judge", "judge_indexing", "judge_plate", "off_by", "wanted"]


@dataclass(frozen=True)
class Wanted:
    """What a measurement ought to be.

    Attributes
    ----------
    name : str
        Dotted, as in the file.
    words : str
    nominal, least, most : float
        In mm, or a count.
    slips : tuple of (float, str)
        Values that a known mistake would give, with what the mistake is.
    outside : bool
        Whether metal comes off as it is made smaller: a turned diameter, not a bore.
    """

    name: str
    words: str
    nominal: float
    least: float
    most: float
    slips: tuple[tuple[float, str], ...] = ()
    outside: bool = True
    off: str = ""
    """What being off by so much means, said after the size."""


@dataclass(frozen=True)
class Finding:
    """What a measurement says.

    Attributes
    ----------
    name : str
    kind : str
        ``"good"``; ``"slip"``: probably measured or written wrong; ``"wrong"``: another part or setting
        than the drawing's; ``"off"``: out of its limits.
    words : str
    """

    name: str
    kind: str
    words: str = ""


def wanted(spec: Spec, shop: Workshop, system: str = "metric") -> dict[str, Wanted]:
    """What every measurement of a design ought to be.

    Parameters
    ----------
    spec : Spec
    shop : Workshop
    system : str
        Whose keys: ``"metric"`` or ``"inch"``.

    Returns
    -------
    dict of str to Wanted
    """
    rows: list[Wanted] = []
    for name in gears(spec):
        rows += _gear(spec, name, shop, system)
    for which in PLATES:
        rows += _plate(spec, which, system)
    for number in (1, 2):
        rows += _shaft(spec, number, system)
    rows += _box(spec) + _bushes(spec, system)
    return {one.name: one for one in rows}


def _gear(spec: Spec, name: str, shop: Workshop, system: str) -> list[Wanted]:
    one = gear_blank(spec, name, shop, system)
    at, module, count, shift = f"gears.{name}", one.module, one.count, one.shift
    blanks = [
        (module * (other + 2 + 2 * shift), f"the blank is right for {other} teeth, not {count}")
        for other in range(max(6, count - 12), count + 13)
        if other != count
    ]
    blanks = [
        (
            size,
            f"{words}; or it was turned to the pitch diameter"
            if abs(size - module * count) < 0.1
            else words,
        )
        for size, words in blanks
    ]
    blanks += [
        (
            float(other) * (count + 2 + 2 * shift),
            f"the blank is right for module {show(float(other), 'mm', system)}, not {show(module, 'mm', system)}",
        )
        for other in table("modules").column("module")
        # half and double are more likely a radius and a diameter, which are asked after these
        if abs(other - module) > 0.2
        and min(abs(other / module - 0.5), abs(other / module - 2)) > 0.02
    ]
    spanned = int(measuring.base_tangent_teeth(count, shift))
    values = gear_measures.gear_values(module, count, shift, one.thinning, 0.03)["base tangent"]
    step = np.pi * module * np.cos(np.radians(20.0))
    other_bores = {
        one.seat: "bored to the shaft itself; this gear takes a bush" if one.bush else "",
        one.seat + 2 * spec.bearings.bush_wall: ""
        if one.bush
        else "bored for a bush; this gear sits on its shaft",
    }
    number = one.cutter
    low, high = _cutter_range(number)
    return [
        Wanted(
            f"{at}.outside_diameter",
            f"outside of the {one.words}",
            *one.outside,
            slips=tuple(blanks),
        ),
        Wanted(
            f"{at}.bore",
            f"bore of the {one.words}",
            *one.bore,
            outside=False,
            slips=tuple((size, words) for size, words in other_bores.items() if words),
        ),
        Wanted(
            f"{at}.width", f"width of the {one.words}", one.width, one.width - 0.2, one.width + 0.2
        ),
        Wanted(
            f"{at}.base_tangent",
            f"base tangent of the {one.words} over {spanned} teeth",
            float(values.value),
            float(values.least),
            float(values.most),
            off="teeth",
            slips=(
                (
                    float(values.value) - step,
                    f"one tooth too few between the jaws: {spanned} are wanted",
                ),
                (
                    float(values.value) + step,
                    f"one tooth too many between the jaws: {spanned} are wanted",
                ),
            ),
        ),
        Wanted(
            f"{at}.tooth_count",
            f"teeth counted on the {one.words}",
            count,
            count,
            count,
            slips=(
                (
                    count + 1,
                    f"{count + 1} counted, {count} drawn: the first tooth counted twice, or one too many cut",
                ),
                (count - 1, f"{count - 1} counted, {count} drawn: one missed, or one too few cut"),
            ),
        ),
        Wanted(
            f"{at}.cutter_module",
            f"module of the cutter for the {one.words}",
            module,
            module - 1e-3,
            module + 1e-3,
        ),
        Wanted(
            f"{at}.cutter_number",
            f"cutter for the {one.words}",
            number,
            number,
            number,
            off=f"number {number} is for {low} to {high} teeth, and this gear has {count}"
            if number
            else f"no form cutter cuts {count} teeth",
        ),
    ]


def _cutter_range(number: int) -> tuple[int, str]:
    counts = np.arange(12, 200)
    inside = counts[formcutter.cutter_number(counts) == number]
    return int(inside.min()) if len(inside) else 0, "a rack" if number == 1 else str(
        int(inside.max()) if len(inside) else 0
    )


def off_by(distance: float) -> float:
    """How far in mm two bores of a plate may stand off their distance: js9, beyond 250 mm that of 250.

    Not a number where there is no distance, as for an idler that has no place.
    """
    if np.isnan(distance):
        return float("nan")
    return float(fits.limits.formula(min(distance, 250.0), "js9")[1]) / 1e3


def _plate(spec: Spec, which: str, system: str) -> list[Wanted]:
    one = plate(spec, which)
    rows = [
        Wanted(
            f"plates.{which}.{hole.name.replace(' ', '_')}_bore",
            f"bore for {hole.name} in the plate at the {which}",
            hole.diameter,
            *hole.limits,
            outside=False,
        )
        for hole in one.holes
        if hole.name.replace(" ", "_") in BORES
    ]
    apart = spec.housing.centre_distance
    bores = {hole.name: hole.diameter for hole in one.holes}
    width = off_by(apart)
    pins = tuple(
        (
            apart + sign * size,
            f"measured {words} pins of {show(size, 'mm', system)} in the bores, not from middle to middle",
        )
        for size in {bores["shaft 1"], spec.shaft_1.diameter}
        for sign, words in ((1, "over"), (-1, "between"))
    )
    rows.append(
        Wanted(
            f"plates.{which}.centre_distance",
            f"distance of the shafts in the plate at the {which}",
            apart,
            apart - width,
            apart + width,
            slips=pins,
            off="centre distance",
        )
    )
    rows.append(
        Wanted(
            f"plates.{which}.thickness",
            f"thickness of the plate at the {which}",
            one.thickness,
            one.thickness - 0.2,
            one.thickness + 0.2,
        )
    )
    return rows


def _shaft(spec: Spec, number: int, system: str) -> list[Wanted]:
    size, at = getattr(spec, f"shaft_{number}").diameter, f"shafts.{number}"
    row = bearing_for(size) if spec.bearings.kind == "rolling" else None
    seat, zone = (row["bore"], "k6") if row else (size, "f7")
    on_bush = spec.clutch.shaft == number
    key = key_for(size, system)
    depth, width = key["shaft_depth"], key["width"]
    rows = [
        Wanted(
            f"{at}.bearing_seat", f"bearing seats of shaft {number}", seat, *limits_of(seat, zone)
        ),
        Wanted(
            f"{at}.gear_seat",
            f"gear seats of shaft {number}",
            size,
            *limits_of(size, "f7" if on_bush else "h6"),
        ),
        Wanted(
            f"{at}.keyway_depth",
            f"depth of the keyways in shaft {number}",
            depth,
            depth - 0.05,
            depth + 0.2,
            outside=False,
            off="keyway",
            slips=(
                (size - depth, "measured across the shaft to the keyway's floor, not its depth"),
                (key["hub_depth"], "this is the depth for the hub, not for the shaft"),
                (key["height"], "this is the whole height of the key"),
            ),
        ),
        Wanted(
            f"{at}.keyway_width",
            f"width of the keyways in shaft {number}",
            width,
            *limits_of(width, "N9"),
            outside=False,
        ),
    ]
    if number == 1:
        rows.append(
            Wanted(
                f"{at}.box_end",
                "end of shaft 1 in the box",
                size,
                *limits_of(size, "h6"),
                slips=(
                    (
                        spec.motor.shaft_end,
                        "this is the motor's shaft end, not the end for the box",
                    ),
                ),
            )
        )
    return rows


def _box(spec: Spec) -> list[Wanted]:
    box = spec.reducer
    fast, slow = box.input_bore, box.output_bore
    return [
        Wanted(
            "box.input_bore",
            "bore at the fast end of the box",
            fast,
            *limits_of(fast, "H8"),
            outside=False,
            slips=((slow, "this is the slow end: the wrong end of the box was measured"),),
        ),
        Wanted(
            "box.output_bore",
            "bore at the slow end of the box",
            slow,
            *limits_of(slow, "H8"),
            outside=False,
            slips=((fast, "this is the fast end: the wrong end of the box was measured"),),
        ),
    ]


def _bushes(spec: Spec, system: str) -> list[Wanted]:
    shaft = getattr(spec, f"shaft_{spec.clutch.shaft}").diameter
    rows = []
    for name, words, bore in (
        ("free_gear", "bushes of the free gears", shaft),
        ("idler", "bush of the idler", spec.housing.idler_pin),
    ):
        one = bush_sizes(spec, bore, spec.housing.hub_diameter)
        unreamed = tuple(
            (
                float(size),
                f"not reamed yet: a bush bored to {show(one.bored, 'mm', system)} closes to about this when it is pressed in",
            )
            for size in np.arange(one.bored - one.closing[1] - 0.02, one.bored + 0.06, 0.02)
        )
        rows += [
            Wanted(
                f"bushes.{name}_bore",
                f"bore of the {words}",
                bore,
                *one.reamed,
                outside=False,
                slips=unreamed,
            ),
            Wanted(
                f"bushes.{name}_outside", f"outside of the {words}", one.outside, *one.fit.shaft
            ),
        ]
    pin = spec.housing.idler_pin
    rows.append(Wanted("idler.pin_diameter", "idler's pin", pin, *limits_of(pin, "m6")))
    return rows


def judge(one: Wanted, value: float, system: str = "metric") -> Finding:
    """Ask of one measurement whether it is good, and if not what it probably is.

    Parameters
    ----------
    one : Wanted
    value : float
        In mm, or a count.
    system : str
        ``"metric"`` or ``"inch"``: how sizes are said.

    Returns
    -------
    Finding
    """

    def said(size: float) -> str:
        return f"{size:g}" if _is_count(one.name) else show(size, "mm", system, 6)

    if one.least - 1e-9 <= value <= one.most + 1e-9:
        return Finding(one.name, "good")
    head = f"{one.words}: {said(value)}, wanted {said(one.nominal)}"
    near = _near(one)
    found = [
        (abs(value - size), words) for size, words in one.slips if abs(value - size) <= near(size)
    ]
    if found:
        return Finding(one.name, "wrong", f"{head}; {min(found)[1]}.")
    if not _is_count(one.name):
        for factor, words in (
            (25.4, "these are inches written as millimetres"),
            (1 / 25.4, "this is 25.4 times too much: millimetres taken for inches"),
            (10.0, "a tenth of it: centimetres written as millimetres"),
            (0.1, "ten times it: a decimal point is out of place"),
            (2.0, "half of it: a radius, not a diameter")
            if one.outside or "bore" in one.name
            else (0.0, ""),
            (0.5, "twice it: a diameter taken from a radius"),
        ):
            if factor and abs(value * factor - one.nominal) <= max(0.006 * one.nominal, 0.02):
                return Finding(one.name, "slip", f"{head}; {words}. Measure again.")
    return Finding(one.name, "off", f"{head}; {_off(one, value, said)}.")


def _is_count(name: str) -> bool:
    return name.rsplit(".", 1)[-1] in COUNTED


def _near(one: Wanted) -> Any:
    band = one.most - one.least
    return lambda size: 0.0 if _is_count(one.name) else max(band, 0.02, 1.2e-3 * size)


def _off(one: Wanted, value: float, said: Any) -> str:
    too = "large" if value > one.most else "small"
    by = value - one.most if value > one.most else one.least - value
    if one.off == "teeth":
        feed = abs(value - one.nominal) / (2 * np.sin(np.radians(20.0)))
        if too == "large":
            return f"teeth still too thick: feed in {said(round(feed, 3))} more and measure again"
        return f"teeth too thin, cut {said(round(feed, 3))} too deep: more backlash than drawn"
    if one.off == "centre distance":
        return f"the shafts stand {said(round(abs(value - one.nominal), 3))} too {'far apart' if too == 'large' else 'close'}: backlash changes by about {said(round(0.73 * abs(value - one.nominal), 3))}"
    if one.off == "keyway":
        return f"{said(round(by, 3))} too {'deep: the shaft is weaker there and the key stands low in its hub' if too == 'large' else 'shallow: the key will stand too high'}"
    if one.off:
        return one.off
    more = one.outside == (too == "large")
    end = "metal can still come off" if more else "no metal can be put back"
    return f"{said(round(by, 4))} too {too}: {end}"


def judge_indexing(
    spec: Spec, name: str, values: Mapping[str, float], shop: Workshop
) -> Finding | None:
    """Ask of a setting of the dividing head what it would cut; none if it was not written down."""
    at = f"gears.{name}"
    names = [f"{at}.{one}" for one in ("turns", "holes", "circle")]
    if any(one not in values for one in names):
        return None
    turns, holes, circle = (int(values[one]) for one in names)
    one = gear_blank(spec, name, shop)
    right = indexing.settings(one.count, shop.dividing_ratio, shop.plates)
    advice = f"set {right[0].words}" if right else "no circle of this shop divides it exactly"
    why = _wrong_row(turns, holes, circle, one.count, shop)
    if not why:
        return Finding(f"{at}.circle", "good")
    return Finding(
        f"{at}.circle",
        "wrong",
        f"dividing head for the {one.words}: {turns} turns and {holes} holes on {circle}; {why}; {advice}.",
    )


def _wrong_row(turns: int, holes: int, circle: int, count: int, shop: Workshop) -> str:
    """What is wrong with a setting of the dividing head; nothing where it is right."""
    ratio = shop.dividing_ratio
    if holes and circle not in shop.circles:
        return f"the shop has no circle of {circle} holes"
    if holes >= max(circle, 1) or turns + holes == 0:
        return "that is no setting"
    cuts = indexing.what_it_cuts(turns, holes, circle, ratio)
    if cuts == count:
        return ""
    if (
        holes > (0 if turns else 1)
        and indexing.what_it_cuts(turns, holes - 1, circle, ratio) == count
    ):
        return "one hole too many: count spaces, not the hole the pin stands in"
    words = f"that comes to {float(cuts):.3f} teeth and does not close"
    if cuts.denominator == 1:
        words = f"that is the row for {cuts} teeth, not {count}"
    if indexing.what_it_cuts(turns, holes + 1, circle, ratio) == count:
        words = "one hole too few"
    return words


def judge_plate(
    spec: Spec, which: str, places: Mapping[str, tuple[float, float]], system: str = "metric"
) -> list[Finding]:
    """Ask of the places of a plate's bores whether they are the drawing's, or how it was turned.

    Parameters
    ----------
    spec : Spec
    which : str
    places : mapping of str to (float, float)
        ``plates.<which>.shaft_1`` and so on, in mm from the marked edges.
    system : str

    Returns
    -------
    list of Finding
        One for the pattern, and one for each distance that is off.
    """

    def said(size: float) -> str:
        return show(size, "mm", system, 6)

    at = f"plates.{which}"
    one = plate(spec, which)
    drawn = {
        hole.name.replace(" ", "_"): np.array([hole.x, hole.y])
        for hole in one.holes
        if hole.name.replace(" ", "_") in BORES
    }
    made = {name: np.array(places[f"{at}.{name}"]) for name in drawn if f"{at}.{name}" in places}
    if not made:
        return []
    names = list(made)
    points, right = np.array([made[one] for one in names]), np.array([drawn[one] for one in names])

    if np.abs(points - right).max() > 0.5:
        words = _how_turned(points, right, one, said)
        if words:
            return [Finding(at, words[0], f"plate at the {which}: {words[1]}.")]
    found = []
    for k, a in enumerate(names):
        for b in names[k + 1 :]:
            length = float(np.hypot(*(made[a] - made[b])))
            want = float(np.hypot(*(drawn[a] - drawn[b])))
            if abs(length - want) <= off_by(want) + 1e-9:
                continue
            way = "far apart: more backlash" if length > want else "close: teeth may jam"
            pair = f"{a.replace('_', ' ')} to {b.replace('_', ' ')}"
            found.append(
                Finding(
                    at,
                    "off",
                    f"plate at the {which}, {pair}: {said(round(length, 3))}, wanted {said(round(want, 3))}; "
                    f"{said(round(abs(length - want), 3))} too {way}.",
                )
            )
    return found or [Finding(at, "good")]


def _how_turned(
    points: np.ndarray, right: np.ndarray, one: Plate, said: Any
) -> tuple[str, str] | None:
    """Kind and words of a pattern that is whole but turned, exchanged or moved; none if it is not."""
    over = right * [-1, 1] + [one.width, 0]
    below = right * [1, -1] + [0, one.height]
    middle = np.array([one.width / 2, one.height / 2])
    for pattern, words in (
        (
            over,
            "the pattern is mirrored: the plate was turned over, or x was measured from the wrong edge",
        ),
        (
            below,
            "the pattern is upside down: the idler is on the wrong side, or y was measured from the top edge",
        ),
        (
            over * [1, -1] + [0, one.height],
            "the pattern is turned half round: both edges are the wrong ones",
        ),
        (right[:, ::-1], "x and y are exchanged"),
        (right / 25.4, "these are inches written as millimetres"),
        (right - middle, "these are measured from the plate's middle, not from the marked edges"),
    ):
        if np.abs(points - pattern).max() <= (0.5 if np.abs(pattern).max() > 30 else 0.02):
            return "wrong", words
    moved = points - right
    if len(points) > 1 and np.ptp(moved, axis=0).max() <= 0.1:
        off = moved.mean(axis=0)
        return "off", (
            f"all bores are moved by {said(round(float(off[0]), 3))} and {said(round(float(off[1]), 3))} together; their "
            "distances are right, and the other plate must be moved alike"
        )
    return None
