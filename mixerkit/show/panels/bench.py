"""The bench of a notebook: the design that lies on it, and what follows it.

A notebook opens one :class:`Bench` and puts panels on it; all panels of a bench turn the same
design, and each redraws when any of them changes it. A panel that is opened again, as when its cell
is run once more, takes the place of the one before, which lets go of the bench and closes.
"""

from __future__ import annotations

import os
from collections.abc import Callable, Iterator, Mapping
from html import escape
from pathlib import Path

import ipywidgets as widgets

from mixerkit.design import Design
from mixerkit.machine import Machine
from mixerkit.shop.beside import Beside, beside
from mixerkit.shop.workshop import Workshop
from mixerkit.show.sketch import machine_plan
from mixerkit.show.style import as_image
from mixerkit.units import InputError

__all__ = ["Bench", "OnBench", "open_design", "place", "styled"]

OWN_FILE = "my_mixer.toml"
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
        self._look_beside()
        self.machine = Machine(self.design)
        self._watchers: list[Callable[[], None]] = []

    def _look_beside(self) -> None:
        """Read the shop and the sizes as made that lie beside the design; the demo's only with a demo."""
        self.demo = None if self.path.exists() and not self.fault else "larkfield"
        try:
            self.beside = beside(self.path, demo=self.demo)
        except InputError as error:
            said = "\n".join(error.messages)
            self.beside = Beside(None, f"Worked out without a shop file.\n{said}", None, "")

    @property
    def shop(self) -> Workshop | None:
        """Shop that goes with the design on the bench; none where a maker's own design has no shop file."""
        return self.beside.shop

    @property
    def shop_words(self) -> str:
        """Whose shop it is, or that there is none and what follows; nothing for the demo's."""
        return "" if self.beside.demos_shop else self.beside.shop_words

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

    def take(self, values: Mapping[str, object]) -> None:
        """Lay the design on the bench with some values changed, such as a remedy's; the file stays as it is.

        Raises
        ------
        InputError
            If a value does not fit, or a way of finding the clay's strength has no readings.
        """
        changed = self.design.with_values(dict(values))
        changed.refuse_untested(values)
        self.lay(changed)

    def keep(self) -> None:
        """Write the design on the bench into the maker's own file."""
        self.design.write(self.path)
        self.fault = ""
        self._look_beside()

    def reload(self) -> None:
        """Lay what the file says on the bench again; the demo if there is no file."""
        design = Design.read(self.path) if self.path.exists() else Design.demo()
        self.fault = ""
        self._look_beside()
        self.lay(design)

    @property
    def says(self) -> str:
        """Say which design this is, and whose shop goes with it."""
        return "\n".join(filter(None, [self._which, self.shop_words]))

    @property
    def _which(self) -> str:
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
        One of :data:`mixerkit.show.sketch.PLACES`.

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
