"""A sketch of the whole machine in plan, with the stage at hand picked out."""

from __future__ import annotations

from matplotlib.axes import Axes
from matplotlib.figure import Figure
from matplotlib.patches import Rectangle

from mixerkit.show.style import COLOURS, figure, to_scale
from mixerkit.stages import STAGES
from mixerkit.units import InputError

__all__ = ["PLACES", "machine_plan"]

# left, bottom, width, height of each block in the sketch's own units, and where its name stands
_BLOCKS: dict[str, tuple[tuple[float, float, float, float], ...]] = {
    "motor": ((0.0, 4.1, 2.6, 1.8),),
    "reducer": ((2.6, 3.7, 1.9, 2.6),),
    "gear paths": (
        (5.2, 3.4, 0.5, 3.2),
        (5.2, 0.2, 0.5, 3.2),
        (7.6, 3.9, 0.5, 2.2),
        (7.6, 0.7, 0.5, 2.2),
    ),
    "clutch": ((6.25, 4.55, 0.8, 0.9),),
    "shafts": ((4.5, 4.85, 10.6, 0.3), (4.9, 1.65, 10.2, 0.3)),
    "trough": ((9.3, 0.1, 5.4, 6.4),),
}
_NAMES = {
    "motor": (1.3, 3.75, "motor"),
    "reducer": (3.55, 3.35, "reduction box"),
    "gear paths": (6.65, -0.55, "gear paths"),
    "clutch": (6.65, 5.75, "clutch"),
    "shafts": (15.3, 3.4, "shafts\n1 (above)\n2 (below)"),
    "trough": (12.0, -0.55, "trough and paddles"),
}
PLACES = tuple(_BLOCKS)

_PLACE_OF = {
    "paddles": "trough",
    "motor drive": "motor",
    "contact": "trough",
    "gears": "gear paths",
    "hubs": "shafts",
    "bearings": "shafts",
    "guards": "trough",
    "jam": "reducer",
}
"""Where a stage sits that has no block of its own."""


def machine_plan(stage: str | None = None) -> Figure:
    """Sketch the machine from above, not to scale, with one stage picked out.

    Parameters
    ----------
    stage : str, optional
        One of :data:`PLACES`, or the key of a stage; nothing is picked out if it
        is not given or the sketch does not show it.

    Returns
    -------
    matplotlib.figure.Figure

    Raises
    ------
    InputError
        If the stage is not one of the sketch's.
    """
    stage = _PLACE_OF.get(stage or "", stage)
    if stage not in _BLOCKS and any(one.key == stage for one in STAGES):
        stage = None  # a stage that the sketch does not show
    if stage is not None and stage not in _BLOCKS:
        raise InputError(
            f'"{stage}" is not a stage of the sketch; one of {", ".join(PLACES)} is wanted.'
        )
    with figure(9.0, 3.6) as drawn:
        axes = drawn.subplots()
        for name in ("trough", "motor", "reducer", "shafts", "gear paths", "clutch"):
            _draw_block(axes, name, picked=name == stage)
        _draw_paddles(axes, picked=stage == "trough")
        for left in (4.9, 8.6):
            axes.add_patch(Rectangle((left, -0.1), 0.16, 6.9, fc=COLOURS["ink"], ec="none"))
        axes.annotate("plates", (6.75, 6.95), ha="center", va="bottom", fontsize=9)
        axes.set_xlim(-0.2, 17.0)
        axes.set_ylim(-1.1, 7.4)
        to_scale(axes)
        axes.set_title("The machine from above (sketch, not to scale)", fontsize=10)
    return drawn


def _draw_block(axes: Axes, name: str, *, picked: bool) -> None:
    for left, bottom, width, height in _BLOCKS[name]:
        face = (
            COLOURS["second"]
            if picked
            else COLOURS["paper"]
            if name == "trough"
            else COLOURS["fill"]
        )
        if name == "trough" and picked:
            face = "#fdf1d8"
        axes.add_patch(
            Rectangle(
                (left, bottom), width, height, fc=face, ec=COLOURS["ink"], lw=2.4 if picked else 1.0
            )
        )
    x, y, text = _NAMES[name]
    axes.annotate(
        text,
        (x, y),
        ha="left" if name == "shafts" else "center",
        va="center",
        fontsize=10,
        weight="bold" if picked else "normal",
    )


def _draw_paddles(axes: Axes, *, picked: bool) -> None:
    face = COLOURS["second"] if picked else COLOURS["fill"]
    for row, base in enumerate((5.0, 1.8)):
        for k in range(6):
            left = 9.65 + 0.82 * k
            up = (k + row) % 2 == 0
            bottom = base + 0.15 if up else base - 0.15 - 1.1
            axes.add_patch(Rectangle((left, bottom), 0.42, 1.1, fc=face, ec=COLOURS["ink"], lw=0.8))
