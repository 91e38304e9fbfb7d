"""What stands on a bench and takes longer than a knob: buttons, what is being done, and why something cannot be."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from html import escape

import ipywidgets as widgets

from mixerkit.show.marks import MARKS
from mixerkit.show.panels.bench import Bench, OnBench, styled
from mixerkit.units import InputError

__all__ = ["Desk"]


class Desk(OnBench):
    """Buttons on a bench, and a line that says what became of them.

    Parameters
    ----------
    bench : Bench
    """

    def _begin(self, bench: Bench) -> None:
        self._bench = bench
        self._status = widgets.HTML()

    def _button(
        self, words: str, action: Callable[[], None], tip: str = "", width: str = "170px"
    ) -> widgets.Button:
        """A button whose action may be refused in words."""
        button = widgets.Button(description=words, tooltip=tip, layout={"width": width})
        button.on_click(lambda _: self._try(action))
        return button

    def _try(self, action: Callable[[], None]) -> None:
        self._status.value = ""
        try:
            action()
        except InputError as error:
            words = "<br>".join(escape(one) for one in error.messages)
            self._status.value = styled(f"<b>{MARKS['fails']} not possible:</b> {words}")

    def _says(self, words: str) -> None:
        self._status.value = styled(f"<div>{escape(words)}</div>") if words else ""

    def _keeps(self) -> widgets.Button:
        """The button that writes what is on the bench."""
        name = self._bench.path.name

        def keep() -> None:
            self._bench.keep()
            self._says(f"kept in {name}")

        return self._button("Keep these values", keep, f"write them to {name}")

    def _still(self, text: str, html: str, bundle: Mapping[str, object]) -> dict[str, object]:
        """A still view for readers without a kernel, beside the live one."""
        return {**bundle, "text/plain": text, "text/html": html}
