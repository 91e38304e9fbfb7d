"""A picture to pick a machine from: the front among all that hold, by what they cost and what they give."""

from __future__ import annotations

from collections.abc import Sequence

from matplotlib.axes import Axes
from matplotlib.figure import Figure

from mixerkit.explore.compare import Candidate, goals_of
from mixerkit.show.style import COLOURS, beside, figure, headline
from mixerkit.units import shown_scale

__all__ = ["candidates"]

_MARKS = {"holds": ("o", "first"), "tight": ("^", "second")}
"""Shape and colour of a verdict."""
_LABELLED = 12


def candidates(
    found: Sequence[Candidate],
    best: Sequence[Candidate],
    system: str = "metric",
    currency: str = "",
) -> Figure:
    """Draw machines by mass and price, or batch time where a price is not known, and by hours and spare.

    Parameters
    ----------
    found, best : sequence of Candidate
        All of a comparison, and the front; its numbers are the places on it.
    system : str
        ``"metric"`` or ``"inch"``.
    currency : str

    Returns
    -------
    matplotlib.figure.Figure
    """
    hold = [one for one in found if one.holds]
    heavy, label = shown_scale("kg", system)
    priced = "price" in goals_of(found)
    up = "price" if priced else "batch_minutes"
    words = "batch, from loading to loading (min)"
    if priced:
        words = f"price ({currency})" if currency else "price"
    with figure(10.5, 4.6) as drawn:
        left, right = drawn.subplots(1, 2)
        _points(left, hold, best, "mass", up, heavy)
        left.set_xlabel(f"mass ({label})")
        left.set_ylabel(words)
        _points(right, hold, best, "hours", "least_spare")
        right.set_xlabel("work (hours)")
        right.set_ylabel("least spare (1 just holds)")
        for axes, said in ((left, "what it is"), (right, "what it takes and has to spare")):
            axes.set_title(said, fontsize=10)
        headline(
            drawn,
            f"{len(hold)} of {len(found)} machines hold; numbered those no other beats: round holds, "
            "triangle tight; grey others near them",
        )
    return drawn


def _points(
    axes: Axes,
    hold: Sequence[Candidate],
    best: Sequence[Candidate],
    x: str,
    y: str,
    scale: float = 1.0,
) -> None:
    """All that hold in grey, the front over them with its numbers."""

    def at(one: Candidate) -> tuple[float, float]:
        return scale * float(getattr(one, x)), float(getattr(one, y))

    for one in hold:
        axes.plot(*at(one), ".", ms=5, color=COLOURS["quiet"], alpha=0.6)
    own = next((one for one in hold if not one.values), None)
    if own:
        axes.plot(*at(own), "o", ms=24, mfc="none", mec=COLOURS["ink"], mew=1.4)
        beside(axes, "as it is", at(own), (0, -14), 9, ha="center", va="top")
    # the first lies on top, its number in it
    for place, one in reversed(list(enumerate(best, 1))):
        shape, colour = _MARKS[one.verdict]
        ink, over = COLOURS["paper" if colour == "first" else "ink"], 4 - place / 1e4
        axes.plot(*at(one), shape, ms=17, color=COLOURS[colour], mec=COLOURS["ink"], zorder=over)
        if place <= _LABELLED:
            lift = -1.5 if shape == "^" else 0
            look = {"color": ink, "ha": "center", "va": "center", "zorder": over}
            beside(axes, f"{place}", at(one), (0, lift), 9, **look)
    _near(axes, [at(one) for one in (*best, *([own] if own else []))])


def _near(axes: Axes, points: Sequence[tuple[float, float]]) -> None:
    """Show the front and what lies near it; machines far worse are out of the picture."""
    if not points:
        return
    for along, limits in ((0, axes.set_xlim), (1, axes.set_ylim)):
        low, high = (end(point[along] for point in points) for end in (min, max))
        wide = max(high - low, 0.02 * abs(high), 1e-3)
        limits(low - 0.2 * wide, high + 0.35 * wide)
