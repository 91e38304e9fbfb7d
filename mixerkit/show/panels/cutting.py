"""The panel of a gear's blank and what cutting it takes."""

from __future__ import annotations

from mixerkit.machine import Machine
from mixerkit.shop import blanks
from mixerkit.shop.head_setting import exact_settings, without_plates
from mixerkit.show import gear_sheets, sheet
from mixerkit.show.knobs import Knob
from mixerkit.show.panels.bench import Bench
from mixerkit.show.panels.panel import Panel, verdict_words
from mixerkit.units import show

__all__ = ["cutting"]


def cutting(bench: Bench, gear: str = "direct_1") -> Panel:
    """Show one gear's blank and what cutting it takes.

    Parameters
    ----------
    bench : Bench
    gear : str
        A key of :data:`mixerkit.shop.blanks.GEARS`.

    Returns
    -------
    Panel
    """
    path = blanks.GEARS[gear][0]
    knobs = [
        Knob(f"paths.{path}.module", "Pitch"),
        Knob(f"paths.{path}.thinning", "Teeth thinned", 0, 0.5),
        Knob(f"paths.{path}.face_width", "Face width", 10, 100),
        Knob(f"paths.{path}.material", "Material"),
        Knob("bearings.bush_wall", "Bush wall", 2, 15),
        Knob("clutch.shaft", "Clutch on shaft", 1, 2),
    ]

    def picture(machine: Machine) -> str:
        system = machine.design.show_units
        one = blanks.gear_blank(machine.design, gear, bench.shop, system)
        return gear_sheets.gear_drawing(one, sheet.Words(system))

    def says(machine: Machine) -> str:
        spec, system, shop = machine.design, machine.design.show_units, bench.shop
        one = blanks.gear_blank(spec, gear, shop, system)
        exact = exact_settings(one.count, shop)
        head = exact[0].words if exact else "no circle of this shop divides it exactly"
        shelf = "on the shelf" if one.has_cutter else "not on the shelf"
        if shop is None:
            head, shelf = without_plates(one.count), "no shop file says whether it is there"
        return (
            f"{one.words[0].upper()}{one.words[1:]}, {one.count} teeth: turn to {show(one.outside[2], 'mm', system, 6)}, feed "
            f"{show(one.depth, 'mm', system, 5)}, cutter number {one.cutter} ({shelf}); dividing head: {head}. {verdict_words(machine, 'gears')}"
        )

    return Panel(bench, "Cutting a gear", knobs, picture, says, ("gears",))
