"""A design held against the shop: what its gears, shafts and plates ask of tools that are not there."""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np

from mixerkit.shop import flatpattern, turning
from mixerkit.shop.blanks import gear_blank, gears
from mixerkit.shop.head_setting import exact_settings
from mixerkit.shop.holes import out_of_travel
from mixerkit.shop.shaftwork import shaft_work
from mixerkit.shop.workshop import Workshop
from mixerkit.spec import Spec
from mixerkit.units import lengths, show

__all__ = ["lacks"]


def lacks(spec: Spec, shop: Workshop, system: str = "metric") -> list[str]:
    """Say what the shop lacks for a design, one sentence each.

    Parameters
    ----------
    spec : Spec
    shop : Workshop
    system : str
        ``"metric"`` or ``"inch"``: how sizes are said.

    Returns
    -------
    list of str
        Empty where all that the machine is cut with is there.

    Examples
    --------
    >>> from mixerkit import Design
    >>> from mixerkit.shop.workshop import read_workshop
    >>> lacks(Design.demo(), read_workshop())[0].partition(":")[0]
    'Shaft 1 does not go into the lathe'
    """
    return list(
        dict.fromkeys(
            [
                *_gears(spec, shop, system),
                *_shafts(spec, shop, system),
                *_plates(spec, shop, system),
            ]
        )
    )


def _gears(spec: Spec, shop: Workshop, system: str) -> Iterator[str]:
    for name in gears(spec):
        one = gear_blank(spec, name, shop, system)
        of = f"the {one.words} ({one.count} teeth)"
        if not one.has_cutter:
            pitch = (
                f"module {show(one.module, 'mm')}"
                if system == "metric"
                else f"diametral pitch {25.4 / one.module:.4g}"
            )
            yield (
                f"No form cutter of {pitch}, number {one.cutter}, is on the shelf for {of}."
                if one.cutter
                else f"No form cutter cuts so few teeth as those of {of}."
            )
        if not exact_settings(one.count, shop):
            yield f"No circle of the dividing plates divides {one.count} exactly, for {of}."
        if not one.fits_lathe:
            yield (
                f"The blank of {of}, {show(one.outside[0], 'mm', system, 4)}, is larger than the "
                f"{show(min(shop.largest_blank, shop.lathe.swing), 'mm', system, 4)} that the shop turns."
            )


def _shafts(spec: Spec, shop: Workshop, system: str) -> Iterator[str]:
    for number in (1, 2):
        one = shaft_work(spec, number, system)
        found = turning.turning_notes(one.length, one.diameter, shop, system)
        if not found.fits:
            yield f"Shaft {number} does not go into the lathe: {found.words[0]}."


def _plates(spec: Spec, shop: Workshop, system: str) -> Iterator[str]:
    say = lengths(system)
    beyond = out_of_travel(spec, shop.mill, say)
    if beyond:
        yield f"The bores of the plates go beyond the mill: {beyond}."
    if shop.stock.plates and not np.isfinite(flatpattern.sheet_needed(spec, shop).thickness):
        yield f"No plate in stock is thick enough for gear plates of {say(spec.housing.plate_thickness, 4)}."
