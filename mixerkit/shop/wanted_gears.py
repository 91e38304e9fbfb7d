"""What is measured of a gear, and the values that known mistakes of its blank and teeth give."""

from __future__ import annotations

from math import pi

import numpy as np

from mixerkit.parts import formcutter, gear_measures, measuring, spurgear
from mixerkit.shop.blanks import Blank, gear_blank
from mixerkit.shop.measured import Said, Wanted, either_side
from mixerkit.shop.workshop import Workshop
from mixerkit.spec import Spec
from mixerkit.tables import table
from mixerkit.units import show

__all__ = ["gear_sizes"]


def gear_sizes(spec: Spec, name: str, shop: Workshop | None, system: str) -> list[Wanted]:
    """What every measurement of a gear ought to be.

    Parameters
    ----------
    spec : Spec
    name : str
        A key of :data:`mixerkit.shop.blanks.GEARS`.
    shop : Workshop, or None
    system : str
        Whose keys and units: ``"metric"`` or ``"inch"``.

    Returns
    -------
    list of Wanted
    """
    one, at = gear_blank(spec, name, shop, system), f"gears.{name}"
    return [
        Wanted(
            f"{at}.outside_diameter",
            f"outside of the {one.words}",
            *one.outside,
            slips=(*_other_counts(one), *_other_modules(one, system)),
        ),
        Wanted(
            f"{at}.bore",
            f"bore of the {one.words}",
            *one.bore,
            outside=False,
            slips=(_other_bore(one, spec.bearings.bush_wall),),
        ),
        Wanted(f"{at}.width", f"width of the {one.words}", *either_side(one.width, 0.2)),
        _base_tangent(one, at),
        _tooth_count(one, at),
        Wanted(
            f"{at}.cutter_module",
            f"module of the cutter for the {one.words}",
            *either_side(one.module, 1e-3),
        ),
        _cutter(one, at),
    ]


def _other_counts(one: Blank) -> list[tuple[float, str]]:
    """Outsides of blanks for a few teeth more or less, one of which may be this one's pitch circle."""
    pitch, found = one.module * one.count, []
    for other in range(max(6, one.count - 12), one.count + 13):
        size = float(spurgear.tip_diameter.formula(one.module, other, one.shift))
        words = f"the blank is right for {other} teeth, not {one.count}"
        if abs(size - pitch) < 0.1:
            words += "; or it was turned to the pitch diameter"
        if other != one.count:
            found.append((size, words))
    return found


def _other_modules(one: Blank, system: str) -> list[tuple[float, str]]:
    """Outsides of blanks of other modules.

    Half and double are more likely a radius and a diameter, which are asked after these.
    """
    return [
        (
            float(spurgear.tip_diameter.formula(other, one.count, one.shift)),
            f"the blank is right for module {show(other, 'mm', system)}, not {show(one.module, 'mm', system)}",
        )
        for other in table("modules").column("module").tolist()
        if abs(other - one.module) > 0.2
        and min(abs(other / one.module - 0.5), abs(other / one.module - 2)) > 0.02
    ]


def _other_bore(one: Blank, wall: float) -> tuple[float, str]:
    """Bore of a gear that turns where this one is fixed, or the other way round."""
    if one.bush:
        return one.seat, "bored to the shaft itself; this gear takes a bush"
    return one.seat + 2 * wall, "bored for a bush; this gear sits on its shaft"


def _base_tangent(one: Blank, at: str) -> Wanted:
    spanned = int(measuring.base_tangent_teeth(one.count, one.shift))
    sizes = gear_measures.gear_values(one.module, one.count, one.shift, one.thinning, 0.03)
    wanted = sizes["base tangent"]
    pitch = pi * one.module * np.cos(np.radians(20.0))
    return Wanted(
        f"{at}.base_tangent",
        f"base tangent of the {one.words} over {spanned} teeth",
        wanted.value,
        wanted.least,
        wanted.most,
        off=_teeth_off,
        slips=tuple(
            (
                float(wanted.value + sign * pitch),
                f"one tooth too {words} between the jaws: {spanned} are wanted",
            )
            for sign, words in ((-1, "few"), (1, "many"))
        ),
    )


def _teeth_off(one: Wanted, value: float, said: Said) -> str:
    feed = said(round(abs(value - one.nominal) / (2 * np.sin(np.radians(20.0))), 3))
    if one.beyond(value) > 0:
        return f"teeth still too thick: feed in {feed} more and measure again"
    return f"teeth too thin, cut {feed} too deep: more backlash than drawn"


def _tooth_count(one: Blank, at: str) -> Wanted:
    more, fewer = one.count + 1, one.count - 1
    return Wanted(
        f"{at}.tooth_count",
        f"teeth counted on the {one.words}",
        *either_side(one.count, 0),
        slips=(
            (
                more,
                f"{more} counted, {one.count} drawn: the first tooth counted twice, or one too many cut",
            ),
            (fewer, f"{fewer} counted, {one.count} drawn: one missed, or one too few cut"),
        ),
    )


def _cutter(one: Blank, at: str) -> Wanted:
    why = f"no form cutter cuts {one.count} teeth"
    if one.cutter:
        most = table("form_cutters").column("most")[one.cutter - 1]
        last = "a rack" if one.cutter == 1 else f"{most:g}"
        why = (
            f"number {one.cutter} is for {formcutter.made_for(one.cutter)} to {last} teeth, and this gear has "
            f"{one.count}"
        )
    return Wanted(
        f"{at}.cutter_number",
        f"cutter for the {one.words}",
        *either_side(one.cutter, 0),
        off=lambda _one, _value, _said: why,
    )
