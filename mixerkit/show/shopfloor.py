"""The notebooks' shop floor: sheets to look at, sizes as made typed in, the report written."""

from __future__ import annotations

from html import escape
from pathlib import Path
from typing import Any

import ipywidgets as widgets

from mixerkit.data_files import data_path
from mixerkit.explore import asmade
from mixerkit.explore.rework.spoiled import reworks_of
from mixerkit.shop.beside import OWN_SIZES, START, sizes_file
from mixerkit.shop.measurements import read_text
from mixerkit.show.assumptions import known_beside
from mixerkit.show.marks import MARKS
from mixerkit.show.panels import Bench, OnBench, styled
from mixerkit.show.report import write_report
from mixerkit.show.reportrows import choice_rows, summary_rows
from mixerkit.show.sheets import sheets, write_sheets
from mixerkit.units import InputError

__all__ = ["AsMade", "ReportDesk", "SheetList", "as_made", "report", "sheet_list"]


class SheetList:
    """Every shop sheet of the design on the bench, by title, with what it is for."""

    def __init__(self, bench: Bench) -> None:
        self._rows = [(one.title, one.purpose) for one in sheets(bench.design, bench.shop)]

    def __repr__(self) -> str:
        return "\n".join(
            f"{number}. {title}: {purpose}" for number, (title, purpose) in enumerate(self._rows, 1)
        )

    def _repr_html_(self) -> str:
        body = "".join(
            f"<tr><td>{number}</td><td>{escape(title)}</td><td>{escape(purpose)}</td></tr>"
            for number, (title, purpose) in enumerate(self._rows, 1)
        )
        return styled(f"<table><tr><th></th><th>Sheet</th><th>Part</th></tr>{body}</table>")


def sheet_list(bench: Bench) -> SheetList:
    """List the shop sheets of the design on the bench.

    Parameters
    ----------
    bench : Bench

    Returns
    -------
    SheetList
    """
    return SheetList(bench)


class AsMade(OnBench):
    """A place to type sizes as made; hold points and ways out follow at once."""

    def __init__(self, bench: Bench, text: str) -> None:
        self._bench = bench
        self._text = widgets.Textarea(
            value=text, layout={"width": "46%", "height": "460px", "min_width": "330px"}
        )
        self._answer = widgets.HTML(layout={"width": "52%", "min_width": "330px"})
        self._ways = widgets.HTML()
        look = widgets.Button(
            description="Look for ways out",
            tooltip="what each spoiled part can still become",
            layout={"width": "170px"},
        )
        look.on_click(lambda _: self._look())
        self._text.observe(lambda _: self._show(), names="value")
        row = widgets.HBox([self._text, self._answer], layout={"flex_flow": "row wrap"})
        super().__init__([row, look, self._ways])
        self._show()
        self._stand(bench)

    def _show(self) -> None:
        self._ways.value = ""
        try:
            self._made = read_text(self._text.value)
            self._found: asmade.Review | None = asmade.review(
                self._bench.design, self._made, self._bench.shop
            )
        except InputError as error:
            self._found = None
            said = "<br>".join(escape(one) for one in error.messages)
            self._answer.value = styled(f"<p><b>{MARKS['fails']}</b> {said}</p>")
            return
        self._answer.value = styled(self._hold_points(self._found))

    def _hold_points(self, found: asmade.Review) -> str:
        marks = {"cut": MARKS["holds"], "measure first": MARKS["tight"], "stop": MARKS["fails"]}
        said: set[str] = set()
        rows = []
        for point in found.hold_points:
            new = [words for words in point.words if words not in said]
            again = ["as above"] if len(new) < len(point.words) and point.state == "stop" else []
            said |= set(point.words)
            why = "<br>".join(escape(words) for words in [*new, *again])
            rows.append(
                f"<tr><td>{marks[point.state]} {point.state}</td><td>{escape(point.step)}</td><td>{why}</td></tr>"
            )
        return f"<table><tr><th>Hold point</th><th>Step</th><th>Why, or what to measure</th></tr>{''.join(rows)}</table>"

    def _look(self) -> None:
        if self._found is None:
            return
        self._ways.value = "looking ..."
        found = reworks_of(self._bench.design, self._found, self._made, self._bench.shop)
        parts = []
        for part, ways in found.items():
            items = "".join(
                f"<li>{'<br>'.join(escape(line.strip()) for line in way.told())}</li>"
                for way in ways
            )
            parts.append(f"<p><b>{escape(part)}</b></p><ol>{items}</ol>")
        self._ways.value = styled("".join(parts) or "<p>Nothing is spoiled.</p>")

    def __repr__(self) -> str:
        if self._found is None:
            return "the measurements cannot be used"
        return "\n".join(point.sentence() for point in self._found.hold_points)

    def _repr_mimebundle_(self, **kwargs: object) -> dict[str, Any]:
        """Give the live view, and a still one for readers without a kernel."""
        bundle = super()._repr_mimebundle_(**kwargs)
        return {**bundle, "text/plain": repr(self), "text/html": self._answer.value}


def as_made(bench: Bench, path: Path | str | None = None) -> AsMade:
    """Lay out a form for sizes as made.

    Parameters
    ----------
    bench : Bench
    path : path, optional
        File of measurements to begin with; ``my_sizes.toml`` beside the design, if not given, the demo's
        with a demo, or else an empty one to fill in.

    Returns
    -------
    AsMade

    Raises
    ------
    InputError
        If the file cannot be read.
    """
    begun = sizes_file(bench.path, path, bench.demo)
    path = begun or data_path(*START[OWN_SIZES])
    try:
        return AsMade(bench, path.read_text("utf-8"))
    except OSError as error:
        raise InputError(f"{path}: cannot be read ({error.strerror or error}).") from None


class ReportDesk(OnBench):
    """The report's first page, and a button that writes all of it."""

    def __init__(self, bench: Bench, folder: Path) -> None:
        self._bench, self._folder = bench, folder
        self._page, self._status = widgets.HTML(), widgets.HTML()
        write = widgets.Button(
            description="Write report and sheets",
            tooltip=f"into the folder {folder}",
            layout={"width": "220px"},
        )
        write.on_click(lambda _: self._write())
        super().__init__([self._page, widgets.HBox([write, self._status])])
        self._show()
        self._stand(bench, folder)

    def _show(self) -> None:
        found = self._bench.machine
        head = f"<p><b>{MARKS[found.verdict]} {found.verdict}.</b> Least to spare: {escape(found.weakest.sentence())}</p>"
        facts = "".join(
            f"<tr><th>{escape(name)}</th><td>{escape(value)}</td></tr>"
            for name, value in summary_rows(found)
        )
        rows = "".join(
            "<tr>" + "".join(f"<td>{escape(cell)}</td>" for cell in row) + "</tr>"
            for row in choice_rows(found)
        )
        self._page.value = styled(
            f"{head}<table>{facts}</table><p>Choices, and why they do:</p><table>{rows}</table>"
        )

    def _write(self) -> None:
        self._status.value = "writing ..."
        try:
            known = known_beside(self._bench.design, self._bench.beside)
            path, *_ = write_report(
                self._bench.machine, self._folder, self._bench.shop, known=known
            )
            files = write_sheets(
                self._bench.design,
                self._bench.shop,
                self._folder / "sheets",
                found=self._bench.machine,
                known=known,
            )
        except InputError as error:
            self._status.value = f"{MARKS['fails']} {escape(str(error))}"
            return
        self._status.value = f"written: {escape(str(path))} and {len(files)} files in {escape(str(self._folder / 'sheets'))}"

    def __repr__(self) -> str:
        found = self._bench.machine
        return "\n".join(
            [
                f"{found.verdict}. {found.weakest.sentence()}",
                *(f"{name}: {value}" for name, value in summary_rows(found)),
            ]
        )

    def _repr_mimebundle_(self, **kwargs: object) -> dict[str, Any]:
        """Give the live view, and a still one for readers without a kernel."""
        bundle = super()._repr_mimebundle_(**kwargs)
        return {**bundle, "text/plain": repr(self), "text/html": self._page.value}


def report(bench: Bench, folder: Path | str = "report") -> ReportDesk:
    """Show the report's first page with a button that writes report and sheets.

    Parameters
    ----------
    bench : Bench
    folder : path
        Where it writes.

    Returns
    -------
    ReportDesk
    """
    return ReportDesk(bench, Path(folder))
