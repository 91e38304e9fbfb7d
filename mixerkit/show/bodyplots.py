"""Both shafts cut open lengthwise, with everything on them in its place."""

from __future__ import annotations

from matplotlib.axes import Axes
from matplotlib.figure import Figure
from matplotlib.patches import Patch

from mixerkit.machine import Machine
from mixerkit.parts.bodies import Body, bodies, clashes, walls
from mixerkit.show.style import COLOURS, box, figure, headline, to_scale
from mixerkit.units import show

__all__ = ["cut_open"]

_KINDS = (
    ("shaft", "#c9c9c9", "", "shaft"),
    ("bearing", COLOURS["first"], "", "bearing or bush"),
    ("spacer", COLOURS["fourth"], "xxx", "spacer"),
    ("ring", COLOURS["ink"], "", "ring in its groove"),
    ("sleeve", "#fdf1d8", "", "sleeve"),
    ("clutch", COLOURS["second"], "///", "clutch sleeve, dogs"),
    ("gear", COLOURS["fill"], "", "gear"),
    ("seal", COLOURS["third"], "\\\\", "seal"),
    ("box", "#9db7cc", "...", "box, flange of the fuse"),
    ("plate", "#8a8a8a", "", "plate"),
)


def _kind(name: str) -> str:
    """Which of the kinds a body is drawn as, by the first word that tells."""
    if name.startswith(("ring", "spacer")):
        return name.split(maxsplit=1)[0]
    for word, kind in (
        ("seal", "seal"),
        ("dogs", "clutch"),
        ("clutch", "clutch"),
        ("sleeve with", "sleeve"),
        ("bush in the box", "box"),
        ("box", "box"),
        ("flange", "box"),
        ("bearing", "bearing"),
        ("bush", "bearing"),
        ("gear", "gear"),
    ):
        if word in name:
            return kind
    return "shaft"


def _draw(axes: Axes, one: Body, up: float, look: dict[str, tuple[str, str]], *, bad: bool) -> None:
    """Both cut halves of a ring, or the whole of a shaft."""
    colour, hatch = look[_kind(one.name)]
    edge = COLOURS["fails"] if bad else COLOURS["ink"]
    style = {"fc": colour, "hatch": hatch, "ec": edge, "lw": 2.0 if bad else 0.5}
    long, thick = one.end - one.start, (one.outer - one.inner) / 2
    if one.inner <= 0:
        box(axes, (one.start, up - one.outer / 2), long, one.outer, **style)
        return
    for low in (up + one.inner / 2, up - one.outer / 2):
        box(axes, (one.start, low), long, thick, **style)


def _plates(axes: Axes, machine: Machine) -> None:
    """Both plates with the bores that the cut goes through."""
    housing = machine.design.housing
    for wall in walls(machine.design):
        thick, low = wall.end - wall.start, -housing.wall_distance
        tall = housing.centre_distance + 2 * housing.wall_distance
        box(axes, (wall.start, low), thick, tall, fc="#8a8a8a", ec=COLOURS["ink"], lw=0.5)
        for y, z, bore in wall.bores:
            if z == 0:
                start = (wall.start, housing.centre_distance - y - bore / 2)
                box(axes, start, thick, bore, fc="white", ec="none")


def cut_open(machine: Machine) -> Figure:
    """Draw both shafts from above, cut open through their middles, to scale and in neutral.

    What stands in one place with something else has a thick red edge.

    Parameters
    ----------
    machine : Machine

    Returns
    -------
    matplotlib.figure.Figure
    """
    spec, system = machine.design, machine.design.show_units
    row = bodies(spec, [beam.stack for beam in machine.shaft_beams])
    bad = {name for pair in clashes(row, walls(spec)) for name in pair}
    look = {kind: (colour, hatch) for kind, colour, hatch, _ in _KINDS}
    apart = spec.housing.centre_distance
    with figure(11.0, 5.2) as drawn:
        axes = drawn.subplots()
        _plates(axes, machine)
        # the idler stands above the cut; what is narrow is drawn over what is wide
        shown = [one for one in row if one.z == 0]
        for one in sorted(shown, key=lambda one: (_kind(one.name) == "ring", -one.outer)):
            _draw(axes, one, apart - one.y, look, bad=one.name in bad)
        left = min(one.start for one in shown)
        right = max(one.end for one in shown)
        for y, number in ((apart, 1), (0.0, 2)):
            axes.plot([left - 8, right + 8], [y, y], lw=0.6, ls="-.", color=COLOURS["ink"])
            axes.annotate(f"shaft {number}", (right + 12, y), va="center", fontsize=10)
        axes.legend(
            handles=[
                Patch(fc=colour, hatch=hatch, ec=COLOURS["ink"], lw=0.5, label=words)
                for _, colour, hatch, words in _KINDS
            ],
            loc="upper center",
            bbox_to_anchor=(0.5, 0.0),
            ncols=5,
            fontsize=9,
            frameon=False,
        )
        axes.set_xlim(left - 15, right + 85)
        out = max(one.outer for one in shown) / 2 + 12
        axes.set_ylim(-out, apart + out)
        to_scale(axes)
        lengths = " and ".join(
            show(beam.stack.right - beam.stack.left, "mm", system, 4)
            for beam in machine.shaft_beams
        )
        headline(drawn, f"Both shafts cut open, from above, to scale: {lengths} long")
    return drawn
