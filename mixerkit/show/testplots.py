"""Pictures of the bench tests that tell how stiff a clay is."""

from __future__ import annotations

from matplotlib.axes import Axes
from matplotlib.figure import Figure
from matplotlib.patches import Polygon, Rectangle

from mixerkit.show.style import COLOURS, figure

__all__ = ["clay_tests"]

_CLAY = "#d9c3a5"


def clay_tests() -> Figure:
    """Sketch the three bench tests of clay one above the other: cone, rod and vane; not to scale.

    Returns
    -------
    matplotlib.figure.Figure
    """
    with figure(4.4, 6.4) as drawn:
        rows = drawn.subplots(3, 1)
        for axes, draw in zip(rows, (_cone, _rod, _vane), strict=True):
            axes.add_patch(Rectangle((0, 0), 10, 4, fc=_CLAY, ec=COLOURS["ink"], lw=1.0))
            draw(axes)
            axes.set_xlim(-1, 14)
            axes.set_ylim(-1, 11)
            axes.set_aspect("equal")
            axes.axis("off")
    return drawn


def _arrow(axes: Axes, start: tuple[float, float], end: tuple[float, float], style: str) -> None:
    axes.annotate("", end, start, arrowprops={"arrowstyle": style, "color": COLOURS["ink"]})


def _cone(axes: Axes) -> None:
    axes.add_patch(Polygon([(5, 2.2), (3.6, 7.4), (6.4, 7.4)], fc="white", ec=COLOURS["ink"]))
    axes.add_patch(Rectangle((4.7, 7.4), 0.6, 2.6, fc="white", ec=COLOURS["ink"]))
    _arrow(axes, (10.6, 4.1), (10.6, 2.1), "<->")
    axes.text(10.9, 2.9, "how far\nit sinks", fontsize=9, va="center")
    axes.set_title("cone: let go with its tip\non the clay", fontsize=10)


def _rod(axes: Axes) -> None:
    axes.add_patch(Rectangle((4.0, 2.4), 2.0, 6.2, fc="white", ec=COLOURS["ink"]))
    axes.add_patch(Rectangle((2.6, 8.6), 4.8, 1.2, fc="#bbbbbb", ec=COLOURS["ink"]))
    _arrow(axes, (9.2, 9.4), (9.2, 5.6), "->")
    axes.text(9.6, 7.4, "load that\npushes it\nin steadily", fontsize=9, va="center")
    axes.set_title("rod: flat end, stood on\nkitchen scales or loaded", fontsize=10)


def _vane(axes: Axes) -> None:
    axes.add_patch(Rectangle((3.0, 0.8), 4.0, 2.6, fc="white", ec=COLOURS["ink"]))
    axes.plot([5, 5], [0.8, 3.4], color=COLOURS["ink"], lw=1.0)
    axes.add_patch(Rectangle((4.8, 3.4), 0.4, 6.2, fc="white", ec=COLOURS["ink"]))
    axes.annotate(
        "",
        (7.4, 9.0),
        (2.6, 9.0),
        arrowprops={
            "arrowstyle": "->",
            "connectionstyle": "arc3,rad=0.5",
            "color": COLOURS["ink"],
        },
    )
    axes.text(8.2, 8.0, "torque at\nwhich it\nbegins to turn", fontsize=9, va="center")
    axes.set_title("vane: four blades, turned\nby a lever and balance", fontsize=10)
