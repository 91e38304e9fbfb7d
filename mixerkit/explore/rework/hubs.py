"""Ways out for a gear bored too large: its bush or its seat to suit, a ring shrunk in, another gear."""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np

from mixerkit.design import Design
from mixerkit.explore.rework.record import (
    Rework,
    fails,
    in_order,
    least_spare,
    new_blank,
    sized,
    tried,
)
from mixerkit.machine import Machine
from mixerkit.parts import fits, pressfit
from mixerkit.parts import hub as hubs
from mixerkit.parts.gear_body_checks import RIM
from mixerkit.parts.shaft_checks import stock_sizes
from mixerkit.shop import turning
from mixerkit.shop.blanks import Blank, gear_blank, gears, shaft_of
from mixerkit.shop.shaftwork import thickest
from mixerkit.shop.workshop import Workshop
from mixerkit.tables import table
from mixerkit.units import show

__all__ = ["hub"]

PINS = (3, 8.0, 0.8)
"""Pins along a ring's joint: how many, diameter in mm, depth over face width (common practice)."""


def hub(
    design: Design,
    name: str,
    bore: float,
    shop: Workshop | None,
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
    shop : Workshop, or None
    teeth_cut : bool
        Whether its teeth are cut already.
    shaft_turned : bool
        Whether the seat it goes on is turned already.

    Returns
    -------
    list of Rework
        Least effort first, then the strongest.
    """
    one = gear_blank(design, name, shop, design.show_units)
    if one.bush:
        found = [*_bush_to_suit(design, one, bore)]
    else:
        found = [] if shaft_turned else [*_seat_to_suit(design, one, bore)]
        found += _sleeved(design, one, bore)
    found += _other_gears(design, one, bore, shop, teeth_cut=teeth_cut)
    return in_order([*found, new_blank(design, one, 4)])


def _deep(one: Blank) -> float:
    """Depth of its keyway, nought for none."""
    return one.keyway[1] if one.keyway else 0.0


def _rim(one: Blank, bore: float) -> float:
    """Metal between teeth and bore or keyway."""
    return (one.root - bore) / 2 - _deep(one)


def _bush_to_suit(design: Design, one: Blank, bore: float) -> Iterator[Rework]:
    """A bush with a thicker wall, of a gear that runs free."""
    say, wall, rim = sized(design), (bore - one.seat) / 2, _rim(one, bore)
    holds = rim / (RIM * one.module)
    known = fails(Machine(design))
    again = tried(design, {"bearings.bush_wall": f"{wall:.5g} mm"}, known) if holds >= 1 else None
    if again:
        yield Rework(
            f"turn its bush to press into {say(bore, 5)}",
            {},
            (
                f"the bush's wall becomes {say(wall)}: bore it, press it in, ream it as before",
                f"{say(rim)} of metal under the teeth, {say(RIM * one.module)} wanted",
                "teeth, holes and speeds stay",
            ),
            1,
            min(holds, least_spare(again, "bearings")),
            lives=True,
        )


def _seat_to_suit(design: Design, one: Blank, bore: float) -> Iterator[Rework]:
    """A thicker seat, where the shaft's bar holds it."""
    say = sized(design)
    bar = turning.bar_for(thickest(design, shaft_of(one.name)), stock_sizes(design.show_units))
    holds = _rim(one, bore) / (RIM * one.module)
    if holds >= 1 and np.isfinite(bar) and bore <= bar - 0.5:
        yield Rework(
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


def _sleeved(design: Design, one: Blank, bore: float) -> list[Rework]:
    """Bore it out, shrink in a ring, bore and key that; pins on the joint where the fit alone slips."""
    spec, say, deep = design, sized(design), _deep(one)
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
    design: Design, one: Blank, bore: float, shop: Workshop | None, *, teeth_cut: bool
) -> list[Rework]:
    """Other gears with a larger bore that this one can become."""
    found, say = [], sized(design)
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
                        f"bore it to {say(other.bore[0])}"
                        + ("" if same else f", turn it to {say(other.outside[0])}"),
                        "a new blank for this one",
                    ),
                    2,
                    np.inf,
                )
            )
    return found
