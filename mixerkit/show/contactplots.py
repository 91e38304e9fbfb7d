"""A picture of what the clay touches: the trough cut across and along, each part wet, splashed or dry."""

from __future__ import annotations

from matplotlib.axes import Axes
from matplotlib.figure import Figure
from matplotlib.patches import Circle, Polygon

from mixerkit.load.contact import DRY, SPLASHED, WET, Touched, clay_map
from mixerkit.machine import Machine
from mixerkit.show.style import COLOURS, box, figure, headline, to_scale
from mixerkit.show.troughplots import CLAY, outline
from mixerkit.units import show

__all__ = ["contact_view"]

_LOOKS = {
    WET: {"fc": COLOURS["first"], "hatch": "xxx"},
    SPLASHED: {"fc": COLOURS["second"], "hatch": "///"},
    DRY: {"fc": COLOURS["paper"], "hatch": ""},
}
"""Hatched close, wide and not at all, so that grey print tells them apart too."""


def contact_view(machine: Machine) -> Figure:
    """Draw the trough cut across, and name each part with its metal as wet, splashed or dry.

    Parameters
    ----------
    machine : Machine

    Returns
    -------
    matplotlib.figure.Figure
    """
    parts = clay_map(machine.design)
    with figure(10.5, 4.6) as drawn:
        left, right = drawn.subplots(1, 2, width_ratios=[1, 1.25])
        _across(left, machine, {one.part: one for one in parts})
        _listed(right, machine, parts)
        colour = machine.design.contact.clay
        headline(drawn, f"What the clay touches, clay that fires {colour}")
    return drawn


def _across(axes: Axes, machine: Machine, parts: dict[str, Touched]) -> None:
    """The trough cut across, to scale but for sheet and lid, which are drawn thick."""
    spec = machine.design
    blade, apart = spec.paddles, spec.housing.centre_distance
    wall = blade.tip_radius + spec.trough.wall_clearance
    edge, thick = outline(wall, apart), 0.05 * wall
    outer = [
        (-wall - thick, wall),
        *outline(wall + thick, apart)[1:-1],
        (apart + wall + thick, wall),
    ]
    sheet = [*outer, *reversed(edge)]
    axes.add_patch(Polygon(sheet, closed=True, ec=COLOURS["ink"], **_LOOKS[parts["trough"].where]))
    level = machine.clay_load.level
    below = [(x, y) for x, y in edge if y <= level]
    axes.add_patch(Polygon(below, closed=True, fc=CLAY, ec="none"))
    if spec.guard.lid != "none":
        lid = {"ec": COLOURS["ink"], **_LOOKS[parts["lid"].where]}
        box(axes, (-wall - thick, wall + thick), apart + 2 * (wall + thick), thick, **lid)
    for number, centre in ((1, 0.0), (2, apart)):
        wet = {"ec": COLOURS["ink"], **_LOOKS[parts["paddles"].where]}
        low = blade.root_radius
        box(
            axes,
            (centre - blade.thickness / 2, low),
            blade.thickness,
            blade.tip_radius - low,
            **wet,
        )
        if "sleeves" in parts:
            look = {"ec": COLOURS["ink"], **_LOOKS[parts["sleeves"].where]}
            axes.add_patch(Circle((centre, 0), blade.root_radius, **look))
        own = parts[f"shaft {number}"]
        half = getattr(spec, f"shaft_{number}").diameter / 2
        axes.add_patch(Circle((centre, 0), half, ec=COLOURS["ink"], **_LOOKS[own.where]))
        plain = {"boxstyle": "round,pad=0.15", "fc": "white", "ec": "none"}
        said = f"shaft {number}\n{own.where}"
        axes.annotate(said, (centre, 0), ha="center", va="center", fontsize=8, bbox=plain)
    axes.annotate("trough: wet", (apart / 2, -wall - 2 * thick), ha="center", va="top", fontsize=9)
    axes.set_xlim(-1.15 * wall, apart + 1.15 * wall)
    axes.set_ylim(-1.3 * wall, 1.25 * wall)
    to_scale(axes)
    axes.set_title("Trough cut across (sheet drawn thick)", fontsize=10)


def _listed(axes: Axes, machine: Machine, parts: tuple[Touched, ...]) -> None:
    """Each part in a line: a hatched square, the word, its metal, and the area that is wet."""
    for row, one in enumerate(parts):
        y = len(parts) - row
        box(axes, (0.0, y - 0.3), 0.5, 0.6, ec=COLOURS["ink"], **_LOOKS[one.where])
        area = f", {show(one.area, 'cm^2', machine.system)}" if one.where == WET else ""
        axes.annotate(f"{one.part}: {one.where}", (0.7, y), va="center", fontsize=9, weight="bold")
        axes.annotate(f"{one.metal}{area}", (3.6, y), va="center", fontsize=9)
    axes.set_xlim(0, 10.5)
    axes.set_ylim(0.3, len(parts) + 0.7)
    axes.set_axis_off()
    axes.set_title("Each part and its metal; wet with its area", fontsize=10)
