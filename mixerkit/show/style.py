"""How every picture of the kit looks, and how it is turned into SVG or PNG."""

from __future__ import annotations

import base64
import io
from collections.abc import Iterator
from contextlib import contextmanager
from typing import TYPE_CHECKING, Any

import matplotlib as mpl
from matplotlib.figure import Figure
from matplotlib.patches import Rectangle

if TYPE_CHECKING:
    from matplotlib.axes import Axes
    from matplotlib.typing import RcKeyType

__all__ = [
    "COLOURS",
    "HATCHES",
    "above",
    "as_image",
    "as_png",
    "as_svg",
    "beside",
    "box",
    "figure",
    "headline",
    "to_scale",
]

# Blue, orange, green, purple, grey: told apart by colour-blind eyes, and by lightness in grey
# print (Okabe & Ito, Color Universal Design, 2008).
COLOURS = {
    "first": "#0072B2",
    "second": "#E69F00",
    "third": "#009E73",
    "fourth": "#CC79A7",
    "ink": "#1a1a1a",
    "quiet": "#6b6b6b",
    "paper": "#ffffff",
    "fill": "#dfe9f2",
    "fails": "#B3261E",
}
HATCHES = {"first": "", "second": "///", "third": "\\\\", "fourth": "xxx"}
_LOOK: dict[RcKeyType, Any] = {
    "font.size": 11,
    "font.family": "DejaVu Sans",
    "axes.spines.top": False,
    "axes.spines.right": False,
    "axes.edgecolor": "#1a1a1a",
    "axes.titlesize": 12,
    "axes.titlelocation": "left",
    "hatch.linewidth": 0.6,
    "svg.hashsalt": "mixerkit",
    "svg.fonttype": "path",
    "figure.constrained_layout.use": True,
}


@contextmanager
def figure(width: float, height: float) -> Iterator[Figure]:
    """Give an empty figure in the kit's look, drawn without any window system.

    Parameters
    ----------
    width, height : float
        In inches, as matplotlib has it.
    """
    with mpl.rc_context(_LOOK):
        yield Figure(figsize=(width, height))


def headline(drawn: Figure, words: str) -> None:
    """Set what a figure shows over it."""
    drawn.suptitle(words, x=0.01, ha="left", fontsize=12)


def to_scale(axes: Axes) -> None:
    """Draw as large along as across, without a frame."""
    axes.set_aspect("equal")
    axes.set_axis_off()


def box(axes: Axes, corner: tuple[float, float], wide: float, tall: float, **look: Any) -> None:
    """Draw a box from its lower left corner."""
    axes.add_patch(Rectangle(corner, wide, tall, **look))


def beside(
    axes: Axes,
    words: str,
    at: tuple[float, float],
    off: tuple[float, float],
    size: float = 9,
    **look: Any,
) -> None:
    """Write words some points off a place."""
    axes.annotate(words, at, xytext=off, textcoords="offset points", fontsize=size, **look)


def above(axes: Axes, words: str, along: float, lift: float = 3, size: float = 9) -> None:
    """Write words some points above a frame, over a value of its lower axis."""
    over = ("data", "axes fraction")
    beside(axes, words, (along, 1.0), (0, lift), size, xycoords=over, ha="center", va="bottom")


def as_svg(drawn: Figure) -> str:
    """Turn a figure into SVG text; the same figure gives the same text."""
    stream = io.StringIO()
    with mpl.rc_context(_LOOK):
        drawn.savefig(stream, format="svg", metadata={"Date": None, "Creator": "mixerkit"})
    text = stream.getvalue()
    return text[text.index("<svg") :]


def as_png(drawn: Figure, dpi: int = 110) -> bytes:
    """Turn a figure into a PNG."""
    stream = io.BytesIO()
    with mpl.rc_context(_LOOK):
        drawn.savefig(stream, format="png", dpi=dpi, metadata={"Software": None})
    return stream.getvalue()


def as_image(drawn: Figure | str, words: str) -> str:
    """Turn a figure into an HTML image that carries its picture with it.

    Parameters
    ----------
    drawn : Figure or str
        A figure, or SVG.
    words : str
        What the picture shows, for those who cannot see it.
    """
    svg = drawn if isinstance(drawn, str) else as_svg(drawn)
    data = base64.b64encode(svg.encode()).decode()
    return f'<img alt="{words}" style="max-width:100%" src="data:image/svg+xml;base64,{data}">'
