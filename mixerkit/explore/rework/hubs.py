"""Ways out for what sits on a shaft: bores too large, keyways too deep or wide, bushes reamed too far."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

import numpy as np

from mixerkit.explore.rework.record import Rework, fails, in_order, least_spare, said_spare, tried
from mixerkit.machine import Machine
from mixerkit.parts import fits, pressfit, seats
from mixerkit.parts import hub as hubs
from mixerkit.parts.gear_body_checks import RIM
from mixerkit.parts.keys import key_for
from mixerkit.parts.shaft_checks import stock_sizes
from mixerkit.shop import turning
from mixerkit.shop.blanks import Blank, gear_blank, gears, shaft_of
from mixerkit.shop.holes import plate
from mixerkit.spec import Spec
from mixerkit.tables import table
from mixerkit.units import InputError, show

if TYPE_CHECKING:
    from collections.abc import Callable

    from mixerkit.design import Design
    from mixerkit.shop.workshop import Workshop

__all__ = ["bush", "hub", "keyway", "plate_bore", "ring_room"]

SPARED = (seats.REACHED, seats.ACROSS)
"""Checks of the whole shaft that a keyway does not touch: its seats and its pin holes stay as they are."""
PINS = (3, 8.0, 0.8)
"""Pins along a ring's joint: how many, diameter in mm, depth over face width (common practice)."""
OTHER_HUBS = {
    "set screws": ("set_screws", (1, 2, 3, 4, 5, 6), "", "{} set screws"),
    "taper pin": ("pin_diameter", (6.0, 8.0, 10.0, 12.0, 16.0, 20.0), " mm", "a taper pin of {}"),
    "clamp": ("clamp_screws", (2, 4, 6, 8), "", "a clamp with {} screws"),
}
"""Hubs without a key: which field of the design sizes them, and its steps (pins: ISO 2339, from memory)."""


def _said(design: Design) -> Callable[..., str]:
    return lambda size, digits=4: show(round(float(size), 3), "mm", design.show_units, digits)


def hub(
    design: Design,
    name: str,
    bore: float,
    shop: Workshop,
    *,
    teeth_cut: bool = False,
    shaft_turned: bool = False,
) -> list[Rework]:
    """Ways out for a gear bored too large.

    Parameters
    ----------
    design : Design
    name : str
        A key of :data:`mixerkit.shop.blanks.GEARS`.
    bore : float
        As bored, in mm.
    shop : Workshop
    teeth_cut : bool
        Whether its teeth are cut already.
    shaft_turned : bool
        Whether the seat it goes on is turned already.

    Returns
    -------
    list of Rework
        Least effort first, then the strongest.
    """
    spec, say = design, _said(design)
    one = gear_blank(spec, name, shop, design.show_units)
    found: list[Rework] = []
    deep = one.keyway[1] if one.keyway else 0.0
    rim = (one.root - bore) / 2 - deep
    holds = rim / (RIM * one.module)
    if one.bush and holds >= 1:
        known = fails(Machine(design))
        again = tried(design, {"bearings.bush_wall": f"{(bore - one.seat) / 2:.5g} mm"}, known)
        if again:
            found.append(
                Rework(
                    f"turn its bush to press into {say(bore, 5)}",
                    {},
                    (
                        f"the bush's wall becomes {say((bore - one.seat) / 2)}: bore it, press it in, ream it as before",
                        f"{say(rim)} of metal under the teeth, {say(RIM * one.module)} wanted",
                        "teeth, holes and speeds stay",
                    ),
                    1,
                    min(holds, least_spare(again, "bearings")),
                    lives=True,
                )
            )
    if not one.bush:
        bar = turning.bar_for(one.seat, stock_sizes(design.show_units))
        if not shaft_turned and holds >= 1 and bore <= bar - 0.5:
            found.append(
                Rework(
                    f"turn its seat on the shaft to {say(bore - 0.01, 5)}",
                    {},
                    (
                        f"the bar of {say(bar)} holds it",
                        "the seat stands above its neighbours: the gear must come from that end",
                        "teeth, holes and speeds stay; the shaft only grows",
                    ),
                    0,
                    holds,
                    lives=True,
                )
            )
        found += _sleeved(design, one, bore)
    found += _other_gears(design, one, bore, shop, teeth_cut=teeth_cut)
    found.append(
        Rework(
            "a new blank",
            {},
            (
                f"{show(one.mass, 'kg', design.show_units)} of {one.material}, {say(one.outside[0])} outside",
            ),
            3,
            np.inf,
        )
    )
    return in_order(found)


def _sleeved(design: Design, one: Blank, bore: float) -> list[Rework]:
    """Bore it out, shrink in a ring, bore and key that; pins on the joint where the fit alone slips."""
    spec, say = design, _said(design)
    deep = one.keyway[1] if one.keyway else 0.0
    outside = float(np.ceil(max(bore + 1.0, one.seat + 2 * (deep + 4.0))))
    rim = (one.root - outside) / 2
    if rim < RIM * one.module or outside > fits.MOST:
        return []
    joint = fits.fit(outside, "H7/s6")
    inner = one.seat + 2 * deep
    least, most = (
        float(pressfit.fit_pressure.formula(-slack, outside, one.root, 210.0, 210.0, inner))
        for slack in (joint.loosest, joint.tightest)
    )
    carries = float(pressfit.fit_torque.formula(least, outside, one.width))
    strong = table("materials").find(one.material).values["yield_strength"]
    stress = float(pressfit.hoop_stress.formula(most, outside, one.root))
    torque = Machine(design).power_flow.at_gears[shaft_of(one.name)]
    asked = float(np.abs(torque).max()) * spec.safety.hub
    held = carries / asked
    how = f"H7/s6 holds {show(carries, 'N*m', design.show_units)} at its loosest, {show(asked, 'N*m', design.show_units)} wanted in a jam"
    if held < 1:
        # a round pin along the joint is sheared as a key is; half of it stands in the gear
        count, size, long = PINS
        shear = float(hubs.key_shear.formula(asked / count, outside, size, long * one.width))
        held, rim = strong / np.sqrt(3.0) / shear, rim - size / 2
        how += f": drive {count} pins of {say(size)} along the joint, {say(long * one.width)} deep, and they hold it"
    spare = min(held, strong / stress, rim / (RIM * one.module))
    if spare < 1:
        return []
    warm = float(pressfit.shrink_warming.formula(-joint.tightest, outside, 0.05))
    return [
        Rework(
            f"bore it out to {say(outside)} and shrink in a ring, then bore and key the ring",
            {},
            (
                how,
                f"warm the gear by {show(warm, 'K', design.show_units)} and drop the ring in; bore it last, true to the teeth",
                f"{say(rim)} of metal under the teeth, {say(RIM * one.module)} wanted",
            ),
            1,
            spare,
        )
    ]


def _other_gears(
    design: Design, one: Blank, bore: float, shop: Workshop, *, teeth_cut: bool
) -> list[Rework]:
    """Other gears with a larger bore that this one can become."""
    found = []
    for name in gears(design):
        other = gear_blank(design, name, shop, design.show_units)
        if name == one.name or other.material != one.material or other.width > one.width + 1e-6:
            continue
        same = (other.count, other.module, round(other.shift, 3)) == (
            one.count,
            one.module,
            round(one.shift, 3),
        )
        disc = one.outside[0] if not teeth_cut or same else one.root
        if bore <= other.bore[2] + 1e-6 and other.outside[0] <= disc + 1e-6:
            found.append(
                Rework(
                    f"make the {other.words} of it",
                    {},
                    (
                        f"bore it to {_said(design)(other.bore[0])}"
                        + ("" if same else f", turn it to {_said(design)(other.outside[0])}"),
                        "a new blank for this one",
                    ),
                    2,
                    np.inf,
                )
            )
    return found


def keyway(
    design: Design, number: int, depth: float | None = None, width: float | None = None
) -> list[Rework]:
    """Ways out for a keyway cut too deep or too wide in a shaft.

    What is left is checked as if the whole shaft were thinner by what was cut too deep; where the keyway
    stays empty, by its whole depth. That asks more than the keyway alone does.

    Parameters
    ----------
    design : Design
    number : int
        1 or 2.
    depth, width : float, optional
        As cut, in mm; as drawn if not given.

    Returns
    -------
    list of Rework
        Least effort first, then the strongest.
    """
    spec, say, system = design, _said(design), design.show_units
    drawn, field = getattr(spec, f"shaft_{number}").diameter, f"shaft_{number}.diameter"
    row, before = key_for(drawn, system), Machine(design)
    known = fails(before)
    spared = {*SPARED, *(one.part for one in before.of_stage("bearings"))}
    depth = row["shaft_depth"] if depth is None else depth
    width = row["width"] if width is None else width
    found: list[Rework] = []

    def thinner(by: float, **also: Any) -> Any:
        left = drawn - max(by, 0.0)
        if left <= drawn / 2:
            return None
        try:
            again = Machine(
                design.with_values(
                    {
                        field: f"{left:.6g} mm",
                        **{f"hubs.{key}": value for key, value in also.items()},
                    }
                )
            )
        except InputError:
            return None
        # bearings keep the seats they have: only what the keyway weakens is looked at
        return None if {one for one in fails(again) if spared.isdisjoint(one)} - known else again

    def strength(again: Any) -> str:
        return f"the shaft left has {said_spare(least_spare(again, 'shafts', 'hubs'))} to spare"

    wide = min(
        (
            one.values["width"]
            for one in table("keys").only("series", system)
            if one.values["width"] >= width - 1e-6
        ),
        default=np.inf,
    )
    deeper = depth - row["shaft_depth"]
    again = thinner(deeper) if np.isfinite(wide) and wide <= drawn / 2 else None
    if again:
        taller, stepped = deeper > 0.3, wide > row["width"] + 1e-6
        how = [f"{say(row['height'] + deeper)} tall"] * taller
        how += [f"{say(wide)} wide in the shaft and {say(row['width'])} in the hub"] * stepped
        words = (
            f"mill a key {' and '.join(how)}" if how else "leave it: the key stands on the sides"
        )
        clean = (f"mill the keyway clean to {say(wide)}",) if stepped else ()
        found.append(
            Rework(
                words,
                {},
                (*clean, "hubs stay as they are", strength(again)),
                1 if how else 0,
                least_spare(again, "shafts", "hubs"),
                lives=True,
            )
        )
    cut = (f"shafts.{number}.keyway_depth", f"shafts.{number}.keyway_width")
    empty = thinner(depth)
    if empty:
        found.append(
            Rework(
                "mill a new keyway on the other side, and leave this one empty",
                {},
                (
                    "turn the hubs half round; paddles and clutch turn with the shaft, so set them again",
                    strength(empty),
                ),
                1,
                least_spare(empty, "shafts", "hubs"),
                cut,
            )
        )
    if number != spec.clutch.shaft and spec.hubs.gear == "key":
        found += _other_hubs(say, lambda sized: thinner(depth, **sized), strength, cut)
    found.append(Rework("a new shaft", {}, (f"{say(drawn)} finished",), 3, np.inf))
    return in_order(found)


def _other_hubs(
    say: Callable[..., str],
    thinner: Callable[..., Any],
    strength: Callable[..., str],
    anew: tuple[str, ...],
) -> list[Rework]:
    """Hubs without a key that hold, each with the least it takes."""
    found = []
    for kind, (field, steps, unit, words) in OTHER_HUBS.items():
        for step in steps:
            sized = {"gear": kind, field: f"{step:g}{unit}" if unit else step}
            again = thinner(sized)
            if again:
                said = words.format(say(step) if unit else step)
                found.append(
                    Rework(
                        f"hold each of its gears by {said} instead, and leave the keyway empty",
                        {f"hubs.{key}": value for key, value in sized.items()},
                        ("print new sheets: bores have no keyway", strength(again)),
                        2,
                        least_spare(again, "shafts", "hubs"),
                        anew,
                    )
                )
                break
    return found


def ring_room(spec: Spec, name: str, off: float = 0.0) -> tuple[float, float]:
    """Outside of a ring that mends a plate's bore, and the least metal left beside it, both in mm.

    Parameters
    ----------
    spec : Spec
    name : str
        Of the hole.
    off : float
        How far the bore is from its place, or over its radius, in mm.

    Returns
    -------
    tuple of (float, float)
    """
    one = plate(spec, "reducer")
    bore = next(item for item in one.holes if item.name == name)
    ring = bore.diameter + 2 * (off + 4.0)
    near = min(
        min(bore.x, bore.y, one.width - bore.x, one.height - bore.y) - ring / 2,
        *(
            np.hypot(bore.x - other.x, bore.y - other.y) - (ring + other.diameter) / 2
            for other in one.holes
            if other is not bore
        ),
    )
    return float(ring), float(near)


def plate_bore(design: Design, name: str, size: float) -> list[Rework]:
    """Ways out for a plate's bore made too large.

    Parameters
    ----------
    design : Design
    name : str
        ``"shaft 1"``, ``"shaft 2"`` or ``"idler pin"``.
    size : float
        As bored, in mm.

    Returns
    -------
    list of Rework
        Least effort first, then the strongest.
    """
    spec, say = design, _said(design)
    bore = next(item for item in plate(spec, "reducer").holes if item.name == name)
    over = size - bore.diameter
    ring, near = ring_room(spec, name, over / 2)
    found = []
    stays = "holes, gears and speeds stay as drawn"
    if name == "idler pin" and over <= bore.diameter / 4:
        found.append(
            Rework(
                f"turn that end of the pin to {say(size, 5)}",
                {},
                ("from thicker bar; the idler's bush stays", stays),
                1,
                np.inf,
                lives=True,
            )
        )
    if (
        name != "idler pin"
        and spec.bearings.kind == "plain bush"
        and over <= 2 * spec.bearings.bush_wall
    ):
        found.append(
            Rework(
                f"turn its bush to press into {say(size, 5)}",
                {},
                ("press it in, then ream both bushes in line", stays),
                1,
                np.inf,
                lives=True,
            )
        )
    if near >= 5.0:
        found.append(
            Rework(
                f"bore it out to {say(ring)}, press in a ring and bore that",
                {},
                (
                    f"{say(near)} of metal left beside it",
                    "a ring of the plate's steel, pressed or welded: bore it last",
                    stays,
                ),
                2,
                near / 5.0,
            )
        )
    found.append(Rework("a new plate", {}, ("both, if they were bored together",), 3, np.inf))
    return in_order(found)


def bush(design: Design, name: str, bore: float, *, shaft_turned: bool = False) -> list[Rework]:
    """Ways out for a bush reamed too far.

    Parameters
    ----------
    design : Design
    name : str
        ``"free_gear"`` or ``"idler"``.
    bore : float
        As reamed, in mm.
    shaft_turned : bool
        Whether what turns in it is turned already.

    Returns
    -------
    list of Rework
        Least effort first, then the strongest.
    """
    spec, say = design, _said(design)
    drawn = (
        spec.housing.idler_pin
        if name == "idler"
        else getattr(spec, f"shaft_{spec.clutch.shaft}").diameter
    )
    what = "pin" if name == "idler" else "shaft's seat"
    found = [
        Rework(
            "press it out and make a new bush",
            {},
            ("the gear stays; bore the bush before pressing, ream it after",),
            1,
            np.inf,
        )
    ]
    if not shaft_turned and bore - drawn <= 0.5:
        slack = fits.fit(drawn, "H8/f7").tightest
        found.append(
            Rework(
                f"turn the {what} to {say(bore - slack, 5)}",
                {},
                (f"it then runs with {say(slack, 2)} of play, as drawn", "from thicker bar"),
                0,
                np.inf,
                lives=True,
            )
        )
    return in_order(found)
