"""Drawings for shop sheets, as SVG in millimetres of paper: quick to make, true to a stated scale."""

from __future__ import annotations

from collections.abc import Iterable
from html import escape
from math import cos, pi, sin

__all__ = ["Drawing", "scale_for"]

SCALES = (5.0, 2.0, 1.0, 0.5, 0.4, 0.25, 0.2, 0.1, 0.05, 0.04, 0.02, 0.01)
"""Scales of ISO 5455 and those a ruler helps with."""


def scale_for(wide: float, high: float, room: tuple[float, float]) -> float:
    """Largest scale of the list at which something fits into so much paper.

    Examples
    --------
    >>> scale_for(490, 340, (180, 130))
    0.25
    """
    most = min(room[0] / wide, room[1] / high)
    return next((one for one in SCALES if one <= most + 1e-9), most)


class Drawing:
    """One drawing on paper; places are in mm of the thing drawn, y up, text in mm of paper.

    Parameters
    ----------
    low, high : tuple of float
        Corners of what is drawn, in mm of the thing.
    scale : float
        Paper over thing.
    margin : float
        Round it, in mm of paper.
    """

    def __init__(
        self,
        low: tuple[float, float],
        high: tuple[float, float],
        scale: float,
        margin: float = 12.0,
    ) -> None:
        self._low, self._high, self._scale, self._margin = low, high, scale, margin
        self._parts: list[str] = []

    def _at(self, x: float, y: float) -> tuple[float, float]:
        return (
            (x - self._low[0]) * self._scale + self._margin,
            (self._high[1] - y) * self._scale + self._margin,
        )

    def outline(
        self, points: Iterable[tuple[float, float]], *, wide: float = 0.5, fill: str = "none"
    ) -> None:
        """Draw a closed outline."""
        text = " ".join("{:.2f},{:.2f}".format(*self._at(*one)) for one in points)
        self._parts.append(
            f'<polygon points="{text}" fill="{fill}" stroke="#000" stroke-width="{wide}"/>'
        )

    def box(
        self,
        low: tuple[float, float],
        high: tuple[float, float],
        *,
        wide: float = 0.5,
        fill: str = "none",
    ) -> None:
        """Draw a rectangle by two corners."""
        self.outline([low, (high[0], low[1]), high, (low[0], high[1])], wide=wide, fill=fill)

    def circle(
        self, x: float, y: float, radius: float, *, wide: float = 0.5, dash: str = ""
    ) -> None:
        """Draw a circle; with a dash such as "3 1 0.6 1" a pitch or bolt circle."""
        cx, cy = self._at(x, y)
        dashes = f' stroke-dasharray="{dash}"' if dash else ""
        self._parts.append(
            f'<circle cx="{cx:.2f}" cy="{cy:.2f}" r="{radius * self._scale:.2f}" fill="none" stroke="#000" stroke-width="{wide}"{dashes}/>'
        )

    def line(
        self,
        start: tuple[float, float],
        end: tuple[float, float],
        *,
        wide: float = 0.3,
        dash: str = "",
    ) -> None:
        """Draw a line."""
        (x1, y1), (x2, y2) = self._at(*start), self._at(*end)
        dashes = f' stroke-dasharray="{dash}"' if dash else ""
        self._parts.append(
            f'<line x1="{x1:.2f}" y1="{y1:.2f}" x2="{x2:.2f}" y2="{y2:.2f}" stroke="#000" stroke-width="{wide}"{dashes}/>'
        )

    def words(
        self,
        x: float,
        y: float,
        text: str,
        *,
        size: float = 3.4,
        anchor: str = "middle",
        shift: tuple[float, float] = (0, 0),
        bold: bool = False,
        turn: float = 0.0,
    ) -> None:
        """Write words at a place; ``shift`` is in mm of paper, y up."""
        px, py = self._at(x, y)
        px, py = px + shift[0], py - shift[1]
        weight = ' font-weight="bold"' if bold else ""
        turned = f' transform="rotate({-turn:g} {px:.2f} {py:.2f})"' if turn else ""
        self._parts.append(
            f'<text x="{px:.2f}" y="{py:.2f}" font-size="{size}" text-anchor="{anchor}" dominant-baseline="middle"{weight}{turned} '
            f'paint-order="stroke" stroke="#fff" stroke-width="0.8">{escape(text)}</text>'
        )

    def size(
        self, start: tuple[float, float], end: tuple[float, float], text: str, off: float = 6.0
    ) -> None:
        """Dimension between two places, drawn so many mm of paper off to their left hand side."""
        (x1, y1), (x2, y2) = self._at(*start), self._at(*end)
        length = max(((x2 - x1) ** 2 + (y2 - y1) ** 2) ** 0.5, 1e-9)
        nx, ny = (y2 - y1) / length * off, -(x2 - x1) / length * off
        a, b = (x1 + nx, y1 + ny), (x2 + nx, y2 + ny)
        ux, uy = (x2 - x1) / length * 2.2, (y2 - y1) / length * 2.2
        for (px, py), (qx, qy) in (((x1, y1), a), ((x2, y2), b)):
            self._parts.append(
                f'<line x1="{px:.2f}" y1="{py:.2f}" x2="{qx:.2f}" y2="{qy:.2f}" stroke="#000" stroke-width="0.15"/>'
            )
        self._parts.append(
            f'<line x1="{a[0]:.2f}" y1="{a[1]:.2f}" x2="{b[0]:.2f}" y2="{b[1]:.2f}" stroke="#000" stroke-width="0.25"/>'
        )
        for (px, py), way in ((a, 1), (b, -1)):
            tip = f"{px:.2f},{py:.2f}"
            back = (px + way * ux, py + way * uy)
            side = (-uy * 0.2, ux * 0.2)
            self._parts.append(
                f'<polygon points="{tip} {back[0] + side[0]:.2f},{back[1] + side[1]:.2f} {back[0] - side[0]:.2f},{back[1] - side[1]:.2f}" fill="#000"/>'
            )
        mx, my = (a[0] + b[0]) / 2, (a[1] + b[1]) / 2
        self._parts.append(
            f'<text x="{mx:.2f}" y="{my - 0.2:.2f}" font-size="3.4" text-anchor="middle" dominant-baseline="middle" paint-order="stroke" '
            f'stroke="#fff" stroke-width="1.6">{escape(text)}</text>'
        )

    def cross(self, x: float, y: float, reach: float) -> None:
        """Mark a centre."""
        self.line((x - reach, y), (x + reach, y), wide=0.18, dash="4 1 0.8 1")
        self.line((x, y - reach), (x, y + reach), wide=0.18, dash="4 1 0.8 1")

    def ring_of(
        self, x: float, y: float, inner: float, outer: float, start: float, end: float
    ) -> None:
        """Draw a piece of a ring between two angles in degrees, such as a dog."""
        steps = [start + (end - start) * k / 24 for k in range(25)]
        arc = [(x + outer * cos(a * pi / 180), y + outer * sin(a * pi / 180)) for a in steps]
        back = [
            (x + inner * cos(a * pi / 180), y + inner * sin(a * pi / 180)) for a in reversed(steps)
        ]
        self.outline([*arc, *back], fill="#e4e4e4")

    def svg(self, words: str) -> str:
        """Give the drawing as SVG of its own paper size.

        Parameters
        ----------
        words : str
            What it shows, for those who cannot see it.
        """
        wide = (self._high[0] - self._low[0]) * self._scale + 2 * self._margin
        high = (self._high[1] - self._low[1]) * self._scale + 2 * self._margin
        return (
            f'<svg xmlns="http://www.w3.org/2000/svg" role="img" aria-label="{escape(words)}" width="{wide:.2f}mm" height="{high:.2f}mm" '
            f'viewBox="0 0 {wide:.2f} {high:.2f}" font-family="DejaVu Sans, Arial, sans-serif">{"".join(self._parts)}</svg>'
        )
