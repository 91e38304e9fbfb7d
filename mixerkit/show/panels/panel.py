"""A panel: knobs, a picture that answers, what it says, the check table, a button to keep."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from html import escape
from typing import Any

import ipywidgets as widgets
from matplotlib.figure import Figure

from mixerkit.checks import weakest
from mixerkit.explore.flips import flips
from mixerkit.explore.mend import mend
from mixerkit.explore.remedy import Remedy
from mixerkit.machine import Machine
from mixerkit.show.answer import mends_html
from mixerkit.show.assumptions import known_beside, rests_text
from mixerkit.show.knobs import Control, Knob, make_control
from mixerkit.show.marks import MARKS
from mixerkit.show.panels.bench import Bench, OnBench, styled
from mixerkit.show.resting import Resting
from mixerkit.show.style import as_image
from mixerkit.show.tables import check_html, check_text
from mixerkit.units import InputError

__all__ = ["Panel", "verdict_words"]

_BUTTONS = 4
"""Remedies that have a button."""
_PATIENCE = 2.0
"""Seconds a panel looks for what mends a check: a knob that is turned meanwhile has to wait."""


class Panel(OnBench):
    """Knobs, a picture, what it says, the check table, and the button that keeps.

    Parameters
    ----------
    bench : Bench
    title : str
    knobs : sequence of Knob
    picture : callable
        Draws a machine.
    says : callable
        Says in a sentence or two what the picture shows.
    stages : sequence of str
        Stages whose checks the table lists; all if empty.
    turns : bool
        Whether a slider turns shaft 1 in the picture; it changes nothing in the design.
    """

    def __init__(
        self,
        bench: Bench,
        title: str,
        knobs: Sequence[Knob],
        picture: Callable[..., Figure | str],
        says: Callable[[Machine], str],
        stages: Sequence[str] = (),
        *,
        turns: bool = False,
    ) -> None:
        self._bench, self._title = bench, title
        self._picture, self._says, self._stages = picture, says, stages
        self._knobs = list(knobs)
        self._controls = [make_control(knob, bench.design) for knob in knobs]
        self._quiet = False
        self._drawing = widgets.HTML(layout={"flex": "1 1 520px", "width": "auto"})
        self._words = widgets.HTML()
        self._mends = widgets.HTML()
        self._takes = widgets.VBox()
        self._mending = Resting(self._mend)
        self._table = widgets.HTML()
        self._status = widgets.HTML()
        keep = widgets.Button(
            description="Keep these values",
            tooltip=f"write them to {bench.path.name}",
            layout={"width": "170px"},
        )
        back = widgets.Button(
            description="Back to the file",
            tooltip="undo what the knobs did",
            layout={"width": "170px"},
        )
        keep.on_click(lambda _: self._try(self._keep))
        back.on_click(lambda _: self._try(bench.reload))
        for knob, control in zip(self._knobs, self._controls, strict=True):
            control.widget.observe(self._turning(knob, control), names="value")
        self._cranks = [self._crank()] if turns else []
        side = widgets.VBox(
            [*(control.widget for control in self._controls), *self._cranks],
            layout={"flex": "0 0 auto"},
        )
        top = widgets.HBox([side, self._drawing], layout={"flex_flow": "row wrap"})
        bottom = widgets.HBox([keep, back, self._status])
        super().__init__([top, self._words, self._mends, self._takes, self._table, bottom])
        self._show()
        # two panels may have a title in common, but then not what draws them
        self._stand(bench, title, picture.__module__, picture.__qualname__)

    def _crank(self) -> widgets.IntSlider:
        slider = widgets.IntSlider(
            min=0,
            max=720,
            step=2,
            description="Turn shaft 1 (deg)",
            layout={"width": "430px"},
            style={"description_width": "205px"},
        )
        slider.observe(lambda _: self._try(self._draw), names="value")
        return slider

    def _turning(self, knob: Knob, control: Control) -> Callable[[object], None]:
        """Make what happens when one knob turns: only its own field changes."""

        def turned() -> None:
            design = self._bench.design
            dotted, place = knob.split()
            value = control.read()
            if place is not None:
                record, name, _ = design.field(dotted)
                listed = list(getattr(record, name))
                listed[place] = value
                value = listed
            self._bench.lay(design.with_values({dotted: value}))

        return lambda _: None if self._quiet else self._try(turned)

    def _keep(self) -> None:
        self._bench.keep()
        self._status.value = f"kept in {escape(self._bench.path.name)}"

    def _try(self, action: Callable[[], None]) -> None:
        self._status.value = ""
        try:
            action()
        except InputError as error:
            text = "<br>".join(escape(message) for message in error.messages)
            self._status.value = f"<b>{MARKS['fails']} not possible:</b> {text}"

    def _draw(self) -> None:
        angles = [one.value for one in self._cranks]
        self._drawing.value = as_image(self._picture(self._bench.machine, *angles), self._title)

    def _show(self) -> None:
        self._quiet = True
        for control in self._controls:
            control.put(self._bench.design)
        self._quiet = False
        machine = self._bench.machine
        self._draw()
        self._words.value = f'<div class="mixerkit">{escape(self._says(machine))}</div>'
        self._table.value = styled(check_html(machine.of_stage(*self._stages)))

        self._mends.value, self._takes.children = "", ()
        # which of what was drafted is still assumed is asked at rest, not at every move
        failing = any(one.verdict == "fails" for one in machine.of_stage(*self._stages))
        if failing or machine.design.drafted:
            self._mending.ask()

    def let_go(self) -> None:
        """Follow the bench no more, look for nothing more, and close."""
        self._mending.drop()
        super().let_go()

    def _mend(self) -> None:
        """Say what mends the panel's failing checks and what is assumed; it takes a while, so it is done at rest."""
        machine = self._bench.machine
        failing = [one.id for one in machine.of_stage(*self._stages) if one.verdict == "fails"]
        mending = mend(machine, failing, patience=_PATIENCE) if failing else None
        known = known_beside(machine.design, self._bench.beside)
        rests = rests_text(machine, flips(machine, known), known)
        mends = mends_html(machine, mending) if mending else ""
        self._mends.value = styled(mends + (f"<p>{escape(rests)}</p>" if rests else ""))
        every = mending.remedies.values() if mending else ()
        ways = {one.lines: one for remedies in every for one in remedies}
        # what breaks least comes first, and what mends most
        best = sorted(ways.values(), key=lambda one: (len(one.breaks), -len(one.mends), one.size))
        self._takes.children = tuple(self._take(one) for one in best[:_BUTTONS])

    def _take(self, remedy: Remedy) -> widgets.HBox:
        """A remedy with the button that does it; the file stays until the values are kept."""
        button = widgets.Button(description="Do this", layout={"width": "110px"})
        button.tooltip = "; ".join(remedy.lines)
        button.on_click(lambda _: self._try(lambda: self._bench.take(remedy.values)))
        lines = " ".join(f"<code>{escape(line)}</code>" for line in remedy.lines)
        many = len(remedy.mends)
        goes = f"mends {many} check{'s' * (many > 1)}, breaks {len(remedy.breaks) or 'none'}"
        return widgets.HBox([button, widgets.HTML(styled(f"<div>{lines} {goes}</div>"))])

    def __repr__(self) -> str:
        machine = self._bench.machine
        return (
            f"{self._title}. {self._says(machine)}\n{check_text(machine.of_stage(*self._stages))}"
        )

    def _repr_mimebundle_(self, **kwargs: object) -> dict[str, Any]:
        """Give the live view, and a still one for readers without a kernel."""
        bundle = super()._repr_mimebundle_(**kwargs)
        parts = (self._drawing, self._words, self._mends, self._table)
        still = "".join(one.value for one in parts)
        return {**bundle, "text/plain": repr(self), "text/html": still}


def verdict_words(machine: Machine, *stages: str) -> str:
    """Say how some stages fare, with the check that has least to spare; all where none is named."""
    worst = weakest(machine.of_stage(*stages))
    if worst.verdict == "fails":
        return f"{MARKS['fails']} This fails. {worst.sentence()}"
    words = "is tight" if worst.verdict == "tight" else "holds"
    return f"{MARKS[worst.verdict]} This {words}. Least to spare: {worst.sentence()}"
