"""The panel of the gear plates, as seen at the mill."""

from __future__ import annotations

from mixerkit.machine import Machine
from mixerkit.shop import holes
from mixerkit.shop.workshop import Workshop
from mixerkit.show import plate_sheets, sheet
from mixerkit.show.knobs import Knob
from mixerkit.show.panels.bench import Bench
from mixerkit.show.panels.panel import Panel, verdict_words
from mixerkit.units import show

__all__ = ["plates"]


def _error(shop: Workshop | None) -> str:
    """Whose error of a hole's place is taken."""
    return (
        "With the mill's error" if shop else "With a usual mill's error, as no shop file has yours,"
    )


def plates(bench: Bench, which: str = "reducer", face: str = "outside") -> Panel:
    """Show one gear plate as it is seen at the mill, and what its holes make of the backlash.

    Parameters
    ----------
    bench : Bench
    which, face : str
        A key of :data:`mixerkit.shop.holes.FACES`.

    Returns
    -------
    Panel
    """
    knobs = [
        Knob("housing.centre_distance", "Shafts apart", 80, 300),
        Knob("housing.wall_distance", "Middles to the edges", 80, 400),
        Knob("housing.plate_thickness", "Plate thickness", 8, 40),
        Knob("housing.idler_side", "Idler sits"),
        Knob("housing.tie_bolt", "Tie bolts"),
        Knob("bearings.kind", "Shafts turn in"),
        Knob("paths.direct.thinning", "Direct, teeth thinned", 0, 0.5),
    ]

    def picture(machine: Machine) -> str:
        chart = holes.chart(machine.design, which, face)
        return plate_sheets.plate_drawing(chart, sheet.Words(machine.design.show_units))

    def says(machine: Machine) -> str:
        spec, system, shop = machine.design, machine.design.show_units, bench.shop
        chart, band = holes.chart(spec, which, face), holes.backlash_band(spec, shop)
        seen = "MIRRORED" if chart.mirrored else "not mirrored"
        low, high = min(row[1] for row in band), max(row[3] for row in band)
        return (
            f"The plate at the {which}, seen on its {face}, {seen}: {chart.from_edge}. {_error(shop)} the backlash comes out "
            f"between {show(low, 'mm', system)} and {show(high, 'mm', system)}. {verdict_words(machine, 'gears', 'gear paths')}"
        )

    return Panel(bench, "Gear plates", knobs, picture, says, ("gear paths", "gears"))
