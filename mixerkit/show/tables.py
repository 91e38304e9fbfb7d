"""The check table, as HTML, as plain text and as a data frame."""

from __future__ import annotations

import textwrap
from collections.abc import Iterable, Sequence
from html import escape
from itertools import zip_longest
from typing import TYPE_CHECKING

from mixerkit.checks import Check
from mixerkit.show.marks import MARKS, spare_text
from mixerkit.working import Working

if TYPE_CHECKING:
    import pandas as pd

__all__ = ["HEADINGS", "check_frame", "check_html", "check_text", "table_html"]

HEADINGS = (
    "Verdict",
    "Part",
    "Check",
    "Asked",
    "Can take",
    "Factor wanted",
    "Spare",
    "Governing state",
    "Remark",
)


def cells(check: Check) -> tuple[str, ...]:
    """Give the cells of one check under :data:`HEADINGS`."""
    asked, takes = check.shown
    return (
        f"{MARKS[check.verdict]} {check.verdict}",
        check.part,
        check.name,
        asked,
        takes,
        f"{check.safety:g}",
        spare_text(check.spare),
        check.state or "every state",
        check.remark,
    )


def table_html(
    heads: Sequence[str], rows: Iterable[Sequence[str]], classes: Iterable[str] = ()
) -> str:
    """Write rows under headings as an HTML table, each row of its class where there are classes."""
    head = "".join(f"<th>{escape(name)}</th>" for name in heads)
    body = "".join(
        (f'<tr class="{name}">' if name else "<tr>")
        + "".join(f"<td>{escape(cell)}</td>" for cell in row)
        + "</tr>"
        for row, name in zip_longest(rows, classes)
    )
    return f"<table><tr>{head}</tr>{body}</table>"


def check_html(checks: Sequence[Check], *, reasons: bool = False) -> str:
    """Write checks as an HTML table; with their reasons and sources if wanted."""
    heads = "".join(f"<th>{escape(head)}</th>" for head in HEADINGS)
    body = []
    for check in checks:
        row = "".join(f"<td>{escape(cell)}</td>" for cell in cells(check))
        body.append(f'<tr class="{check.verdict}">{row}</tr>')
        if reasons:
            why = f"Worked out: {escape(check.reason)}. Source: {escape(check.source)}."
            steps = "".join(_step(one, check.system) for one in check.working)
            body.append(
                f'<tr class="why"><td></td><td colspan="{len(HEADINGS) - 1}">{why}{steps}</td></tr>'
            )
    return f'<table class="checks"><thead><tr>{heads}</tr></thead><tbody>{"".join(body)}</tbody></table>'


def _step(working: Working, system: str) -> str:
    """One working on a line or two of a page: formula and result, then what stands in it."""
    head, *rest = working.lines(system)
    more = "; ".join(line.strip() for line in rest)
    return f"<div><b>{escape(head)}</b>{': ' if more else ''}{escape(more)}</div>"


def check_text(checks: Sequence[Check], width: int = 100) -> str:
    """Write checks as plain text for a terminal or a notebook's saved output.

    Parameters
    ----------
    checks : sequence of Check
    width : int
        Longest line.

    Returns
    -------
    str
    """
    lines = []
    for check in checks:
        asked, takes = check.shown
        factor = f" x {check.safety:g}" if check.safety != 1 else ""
        lines.append(
            f"{check.verdict:5}  {check.part}, {check.name}: {asked}{factor} asked, {'given' if check.words else 'can take'} {takes}"
        )
        for note in filter(None, (check.state, check.remark)):
            lines += textwrap.wrap(note, width, initial_indent=" " * 7, subsequent_indent=" " * 9)
    return "\n".join(lines)


def check_frame(checks: Sequence[Check]) -> pd.DataFrame:
    """Give checks as a data frame with the columns of :data:`HEADINGS`, reason and source."""
    import pandas as pd  # here, because only those who ask for a frame should wait for pandas

    rows = [(*cells(check), check.reason, check.source) for check in checks]
    return pd.DataFrame(rows, columns=[*HEADINGS, "Worked out", "Source"])
