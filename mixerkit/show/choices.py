"""Tables of what would do: motors on this machine, motors with boxes."""

from __future__ import annotations

from html import escape
from typing import Any

from mixerkit.explore import search
from mixerkit.explore.search import Choice
from mixerkit.show.marks import MARKS
from mixerkit.show.panels import Bench, styled
from mixerkit.units import show

__all__ = ["ChoiceTable", "motors", "motors_and_boxes"]


class ChoiceTable:
    """Choices as a table, in a notebook or as text.

    Parameters
    ----------
    choices : list of Choice
    system : str
        ``"metric"`` or ``"inch"``.
    title : str
    """

    def __init__(self, choices: list[Choice], system: str, title: str) -> None:
        self._choices, self._system, self._title = choices, system, title

    def _cells(self, one: Choice) -> tuple[str, ...]:
        return (
            f"{MARKS[one.verdict]} {one.verdict}",
            show(one.power, "kW", self._system),
            one.box,
            show(one.speed, "rpm"),
            show(one.mass, "kg", self._system),
            f"{one.spare:.2f} x",
            one.why_not,
        )

    def __repr__(self) -> str:
        rows = ["  ".join(self._cells(one)[:6]) for one in self._choices]
        return "\n".join([self._title, *rows])

    def _repr_html_(self) -> str:
        heads = ("Verdict", "Motor", "Box", "Shaft 1", "Mass", "Spare", "Why not")
        head = "".join(f"<th>{name}</th>" for name in heads)
        body = "".join(
            f'<tr class="{one.verdict}">'
            + "".join(f"<td>{escape(cell)}</td>" for cell in self._cells(one))
            + "</tr>"
            for one in self._choices
        )
        return styled(f"<p>{escape(self._title)}</p><table><tr>{head}</tr>{body}</table>")


def motors(bench: Bench) -> ChoiceTable:
    """Try every motor of the table on the machine's own box.

    Parameters
    ----------
    bench : Bench

    Returns
    -------
    ChoiceTable
    """
    title = "Every preferred rating on this machine's box (mass: motor alone)"
    return ChoiceTable(search.motors(bench.design), bench.design.show_units, title)


def motors_and_boxes(
    bench: Bench, order: str = "margin", most: int = 8, **speeds: Any
) -> ChoiceTable:
    """List the motors and boxes of the tables that carry this clay and batch.

    Parameters
    ----------
    bench : Bench
    order : str
        ``"margin"``, ``"mass"`` or ``"power"``.
    most : int
        How many to list.
    **speeds : float
        ``slowest`` and ``fastest`` shaft 1 in rpm.

    Returns
    -------
    ChoiceTable
    """
    found = search.motor_and_box(bench.design, order, **speeds)
    title = f"{len(found)} combinations do; the first {min(most, len(found))} by {order}"
    return ChoiceTable(found[:most], bench.design.show_units, title)
