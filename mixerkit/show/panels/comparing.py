"""The panel that compares many whole machines: a picture to pick from, a table, and the one picked on the bench."""

from __future__ import annotations

from collections.abc import Sequence
from html import escape

import ipywidgets as widgets

from mixerkit.design import Design
from mixerkit.explore.candidate import Candidate
from mixerkit.explore.compare import compare, front
from mixerkit.explore.remedy import written
from mixerkit.show.compared import FRONT_HEADS, front_cells
from mixerkit.show.compareplots import candidates
from mixerkit.show.panels.bench import Bench, styled
from mixerkit.show.panels.desk import Desk
from mixerkit.show.style import as_image

__all__ = ["ComparingDesk", "comparing"]

_FIRST = 60
"""Machines compared when the notebook is run: enough to show what it looks like."""
_ROWS = 8
"""Machines of the front that the table shows."""


class ComparingDesk(Desk):
    """Many machines like the one on the bench, and those that no other beats.

    Parameters
    ----------
    bench : Bench
    """

    def __init__(self, bench: Bench) -> None:
        self._begin(bench)
        self._picture, self._words = widgets.HTML(), widgets.HTML()
        self.fields = widgets.Text(
            description="Vary",
            placeholder="what you have not fixed; or names, such as trough.length, reducer",
            layout={"width": "560px"},
            style={"description_width": "110px"},
        )
        self.count = widgets.Dropdown(
            options=[_FIRST, 200, 1000],
            description="Machines",
            layout={"width": "220px"},
            style={"description_width": "90px"},
        )
        self.buttons = (self._button("Compare", self._run), self._keeps())
        self.picks = widgets.VBox()
        super().__init__(
            [
                widgets.HBox([self.fields, self.count], layout={"flex_flow": "row wrap"}),
                widgets.HBox(self.buttons),
                self._status,
                self._picture,
                self._words,
                self.picks,
            ]
        )
        self._laying = False
        self._run()
        self._stand(bench)

    def _run(self) -> None:
        names = [one.strip() for one in self.fields.value.split(",") if one.strip()]
        design, shop = self._bench.design, self._bench.shop
        found = compare(
            design,
            names or None,
            count=self.count.value,
            shop=shop,
            progress=lambda done, of: self._says(f"{done} of {of} machines compared ..."),
        )
        best = front(found)
        self._says("")
        currency = (shop.prices.currency if shop else None) or ""
        drawn = candidates(found, best, design.show_units, currency)
        self._picture.value = as_image(drawn, "machines by mass, price, hours and spare")
        self._words.value = styled(_table(best[:_ROWS], design.show_units, currency))
        self.picks.children = tuple(
            self._pick(design, one, number) for number, one in enumerate(best[:_ROWS], 1)
        )
        self._said = f"{len(best)} of {len(found)} machines that no other beats"

    def _pick(self, design: Design, one: Candidate, number: int) -> widgets.HBox:
        """A machine of the front, as it differs from the design compared, with the button that lays it on the bench."""
        bench = self._bench

        def lay() -> None:
            self._laying = True
            try:
                bench.lay(design.with_values(dict(one.values)))
            finally:
                self._laying = False
            self._says(f"{number} is on the bench")

        button = self._button(f"Lay {number} on the bench", lay)
        lines = " ".join(
            f"<code>{escape(written(name, value))}</code>" for name, value in one.values.items()
        )
        return widgets.HBox(
            [button, widgets.HTML(styled(f"<div>{lines or 'the design as it is'}</div>"))]
        )

    def _show(self) -> None:
        # what was compared was compared with another design; the one just picked is one of them
        if not self._laying:
            self._words.value = self._picture.value = ""
            self.picks.children = ()
            self._says("The design on the bench is another one now: compare again.")

    def __repr__(self) -> str:
        return self._said

    def _repr_mimebundle_(self, **kwargs: object) -> dict[str, object]:
        """Give the live view, and a still one for readers without a kernel."""
        still = self._picture.value + self._words.value
        return self._still(repr(self), still, super()._repr_mimebundle_(**kwargs))


def _table(best: Sequence[Candidate], system: str, currency: str) -> str:
    """The front as a table."""
    rows = [FRONT_HEADS, *(front_cells(k, one, system, currency) for k, one in enumerate(best, 1))]
    return (
        "<table>"
        + "".join(
            "<tr>" + "".join(f"<td>{escape(cell)}</td>" for cell in row) + "</tr>" for row in rows
        )
        + "</table>"
    )


def comparing(bench: Bench) -> ComparingDesk:
    """Compare many machines like the one on the bench.

    Parameters
    ----------
    bench : Bench

    Returns
    -------
    ComparingDesk
    """
    return ComparingDesk(bench)
