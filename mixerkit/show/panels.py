"""Live panels for the notebooks: knobs, a picture that answers, the check table, a button to keep.

A notebook opens one :class:`Bench` and puts panels on it; all panels of a bench turn the same
design, and each redraws when any of them changes it. A panel that is opened again, as when its cell
is run once more, takes the place of the one before, which lets go of the bench and closes.
"""

from __future__ import annotations

import os
from collections.abc import Callable, Iterator, Sequence
from html import escape
from pathlib import Path
from typing import Any

import ipywidgets as widgets
from matplotlib.figure import Figure

from mixerkit.checks import weakest
from mixerkit.design import Design
from mixerkit.explore.mend import mend
from mixerkit.machine import Machine
from mixerkit.show.answer import mends_html
from mixerkit.show.knobs import Control, Knob, make_control
from mixerkit.show.machine import machine_plan
from mixerkit.show.marks import MARKS
from mixerkit.show.resting import Resting
from mixerkit.show.style import as_image
from mixerkit.show.tables import check_html, check_text
from mixerkit.units import InputError

__all__ = [
    "Bench",
    "OnBench",
    "Panel",
    "open_design",
    "place",
    "styled",
    "verdict_words",
]

OWN_FILE = "my_mixer.toml"
_PATIENCE = 2.0
"""Seconds a panel looks for what mends a check: a knob that is turned meanwhile has to wait."""
_CSS = """<style>
.mixerkit { background: #fff; color: #1a1a1a; padding: 4px 8px; font-size: 13px; }
.mixerkit table { border-collapse: collapse; }
.mixerkit th, .mixerkit td { text-align: left !important; padding: 2px 8px 2px 0; border-bottom: 1px solid #bbb; vertical-align: top; white-space: normal; }
.mixerkit td:first-child, .mixerkit .checks td:nth-child(2), .mixerkit .checks td:nth-child(4), .mixerkit .checks td:nth-child(5), .mixerkit .checks td:nth-child(7) { white-space: nowrap; }
.mixerkit tr.fails td { font-weight: bold; } .mixerkit tr.fails td:first-child { color: #B3261E; }
</style>"""


def styled(inner: str) -> str:
    """Put the kit's look round a piece of HTML."""
    return f'{_CSS}<div class="mixerkit">{inner}</div>'


class Bench:
    """The design on the bench: the maker's own file if there is one, else the demo.

    Parameters
    ----------
    path : pathlib.Path
        Where the maker's own design is kept.
    """

    def __init__(self, path: Path) -> None:
        self.path = path
        self.fault = ""
        try:
            self.design = Design.read(path) if path.exists() else Design.demo()
        except InputError as error:
            self.fault = "\n".join(error.messages)
            self.design = Design.demo()
        self.machine = Machine(self.design)
        self._watchers: list[Callable[[], None]] = []

    def watch(self, watcher: Callable[[], None]) -> None:
        """Call something whenever the design on the bench changes."""
        self._watchers.append(watcher)

    def unwatch(self, watcher: Callable[[], None]) -> None:
        """Call it no more."""
        self._watchers.remove(watcher)

    def lay(self, design: Design) -> None:
        """Lay another design on the bench and tell all who watch."""
        self.machine = Machine(design)
        self.design = design
        for watcher in tuple(self._watchers):
            watcher()

    def keep(self) -> None:
        """Write the design on the bench into the maker's own file."""
        self.design.write(self.path)

    def reload(self) -> None:
        """Lay what the file says on the bench again; the demo if there is no file."""
        self.lay(Design.read(self.path) if self.path.exists() else Design.demo())

    @property
    def says(self) -> str:
        """Say which design this is."""
        if self.fault:
            return f"{self.path.name} cannot be used, so the demo is on the bench instead.\n{self.fault}"
        if self.path.exists():
            return f"On the bench: {self.design.name}, from your file {self.path.name}."
        return (
            f"On the bench: the demo, {self.design.name}. "
            f'"Keep these values" writes your own file, {self.path.name}.'
        )

    def __repr__(self) -> str:
        return self.says

    def as_html(self) -> str:
        """Say which design this is, as HTML."""
        return f'<div class="mixerkit">{escape(self.says).replace(chr(10), "<br>")}</div>'


def open_design(path: str | os.PathLike[str] | None = None) -> Bench:
    """Open the maker's own design, or the demo where there is none yet.

    Parameters
    ----------
    path : path, optional
        The design file; ``my_mixer.toml`` beside the notebook if not given, or the file that
        the environment variable ``MIXERKIT_DESIGN`` names.

    Returns
    -------
    Bench
    """
    return Bench(Path(path or os.environ.get("MIXERKIT_DESIGN") or OWN_FILE))


class Place:
    """Where in the machine a notebook is, and which design is on its bench."""

    def __init__(self, bench: Bench, stage: str | None) -> None:
        self._bench, self._stage = bench, stage

    def __repr__(self) -> str:
        return repr(self._bench)

    def _repr_html_(self) -> str:
        words = f"sketch of the machine, {self._stage or 'nothing'} picked out"
        return as_image(machine_plan(self._stage), words) + self._bench.as_html()


def place(bench: Bench, stage: str | None = None) -> Place:
    """Show where in the machine a notebook is, and which design is on the bench.

    Parameters
    ----------
    bench : Bench
    stage : str, optional
        One of :data:`mixerkit.show.machine.STAGES`.

    Returns
    -------
    Place
    """
    return Place(bench, stage)


class OnBench(widgets.VBox):  # type: ignore[misc]  # ipywidgets has no types
    """What stands on a bench and follows its design; there is one of each kind for each file."""

    def _stand(self, bench: Bench, *which: object) -> None:
        """Take the place of the one opened before, and follow the bench from here on."""
        key: tuple[object, ...] = (bench.path.absolute(), type(self), *which)
        before = _STANDING.pop(key, None)
        if before is not None:
            before.let_go()
        _STANDING[key] = self
        self._stands_on = bench
        bench.watch(self._show)

    def _show(self) -> None:
        raise NotImplementedError

    def let_go(self) -> None:
        """Follow the bench no more, and close."""
        self._stands_on.unwatch(self._show)
        for one in tuple(_within(self)):
            one.unobserve_all()
            one.close()


_STANDING: dict[tuple[object, ...], OnBench] = {}


def _within(widget: widgets.Widget) -> Iterator[widgets.Widget]:
    """A widget and all that it is made of; what is not closed is kept for ever."""
    for child in getattr(widget, "children", ()):
        yield from _within(child)
    for part in ("layout", "style"):
        if isinstance(getattr(widget, part, None), widgets.Widget):
            yield getattr(widget, part)
    yield widget


class Panel(OnBench):
    """Knobs, a picture, what it says, the check table, and the button that keeps.

    Parameters
    ----------
    bench : Bench
    title : str
    knobs : sequence of Knob
    picture : callable
        Draws an machine.
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
        super().__init__([top, self._words, self._mends, self._table, bottom])
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

        self._mends.value = ""
        if any(one.verdict == "fails" for one in machine.of_stage(*self._stages)):
            self._mending.ask()

    def let_go(self) -> None:
        """Follow the bench no more, look for nothing more, and close."""
        self._mending.drop()
        super().let_go()

    def _mend(self) -> None:
        """Say what mends the panel's failing checks; it takes a while, so it is done at rest."""
        machine = self._bench.machine
        failing = [one.id for one in machine.of_stage(*self._stages) if one.verdict == "fails"]
        mending = mend(machine, failing, patience=_PATIENCE)
        self._mends.value = styled(mends_html(machine, mending))

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
