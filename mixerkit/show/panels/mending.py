"""The panel that mends a whole design: proposals with a button each."""

from __future__ import annotations

from html import escape

import ipywidgets as widgets

from mixerkit.design import Design
from mixerkit.explore.plans import Plan, plans
from mixerkit.show.bodyplots import cut_open
from mixerkit.show.mended import FEW, plan_lines
from mixerkit.show.panels.bench import Bench, styled
from mixerkit.show.panels.desk import Desk
from mixerkit.show.panels.panel import verdict_words
from mixerkit.show.style import as_image

__all__ = ["MendingDesk", "mending"]

_WIDE = {"layout": {"width": "480px"}, "style": {"description_width": "170px"}}


class MendingDesk(Desk):
    """The machine on the bench, what fails, and the fewest changes that make everything hold.

    Parameters
    ----------
    bench : Bench
    """

    def __init__(self, bench: Bench) -> None:
        self._begin(bench)
        self._picture, self._words = widgets.HTML(), widgets.HTML()
        self.kept = widgets.Text(
            description="Leave as it is",
            placeholder="such as shaft_2.diameter, paths.direct",
            **_WIDE,
        )
        self.freed = widgets.Text(
            description="May change too", placeholder="a fact, or motor, reducer", **_WIDE
        )
        self.buttons = (
            self._button(
                "Find what mends it",
                self._look,
                "the fewest and cheapest changes that make everything hold",
            ),
            self._keeps(),
            self._button(
                "Show one that fails",
                lambda: bench.lay(Design.demo("thin_shaft")),
                "lay the demo with a thin second shaft on the bench",
            ),
        )
        self.ways = widgets.VBox()
        super().__init__(
            [
                self._picture,
                widgets.HBox([self.kept, self.freed], layout={"flex_flow": "row wrap"}),
                widgets.HBox(self.buttons),
                self._status,
                self.ways,
                self._words,
            ]
        )
        self._show()
        self._stand(bench)

    def _look(self) -> None:
        kept, freed = (_names(one.value) for one in (self.kept, self.freed))
        machine = self._bench.machine
        if machine.verdict != "fails":
            self._says("Nothing fails; there is nothing to mend.")
            return
        found = plans(machine, kept, freed, lambda words: self._says(f"{words} ..."))[:FEW]
        none = "No set of changes was found with which everything holds; free a fact, a motor or the reducer."
        self._says("" if found else none)
        self.ways.children = tuple(self._way(one, number) for number, one in enumerate(found, 1))

    def _way(self, plan: Plan, number: int) -> widgets.HBox:
        """A proposal with the button that does it."""
        button = self._button("Do this", lambda: self._bench.take(plan.values), width="110px")
        lines = escape("\n".join(plan_lines(plan, number)))
        return widgets.HBox([button, widgets.HTML(styled(f"<pre>{lines}</pre>"))])

    def _show(self) -> None:
        machine = self._bench.machine
        self._picture.value = as_image(cut_open(machine), "both shafts cut open, from above")
        failing = [one for one in machine.checks if one.verdict == "fails"]
        rows = "".join(
            f"<li>{escape(one.part)}, {escape(one.name)}: {escape(one.reason)}</li>"
            for one in failing
        )
        head = escape(verdict_words(machine))
        many = f"<div>{len(failing)} checks fail:</div><ul>{rows}</ul>" if failing else ""
        self._words.value = styled(f"<div><b>{head}</b></div>{many}")
        self.ways.children = ()

    def __repr__(self) -> str:
        return verdict_words(self._bench.machine)

    def _repr_mimebundle_(self, **kwargs: object) -> dict[str, object]:
        """Give the live view, and a still one for readers without a kernel."""
        still = self._picture.value + self._words.value
        return self._still(repr(self), still, super()._repr_mimebundle_(**kwargs))


def _names(text: str) -> list[str]:
    return [one.strip() for one in text.replace(";", ",").split(",") if one.strip()]


def mending(bench: Bench) -> MendingDesk:
    """Mend the whole design on the bench.

    Parameters
    ----------
    bench : Bench

    Returns
    -------
    MendingDesk
    """
    return MendingDesk(bench)
