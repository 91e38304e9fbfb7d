"""Answers of a search of gear paths: picture, table, what was struck out, and one to lay on the bench."""

from __future__ import annotations

from html import escape

from mixerkit.explore.pathsfound import Found, pitch, purchases
from mixerkit.machine import Machine
from mixerkit.show import gearplots
from mixerkit.show.marks import MARKS
from mixerkit.show.panels import Bench, styled
from mixerkit.show.style import as_image
from mixerkit.show.tables import table_html
from mixerkit.units import show

__all__ = ["PathAnswers"]


class PathAnswers:
    """Answers of a path search: picture, table, what was struck out, what one cutter would unlock.

    Parameters
    ----------
    bench : Bench
    found : Found
    most : int
        How many to list.
    of : str
        Whose shop was asked, or that none was.
    """

    def __init__(self, bench: Bench, found: Found, most: int, of: str = "") -> None:
        self._bench, self._found, self._of = bench, found, of
        # whole machines that hold come first; the search itself knows only of gears
        tried = [
            (row, Machine(bench.design.with_values(found.values(row))).verdict)
            for row in range(min(5 * most, len(found.pairs)))
        ]
        rank = ("holds", "tight", "fails").index
        self._listed = sorted(tried, key=lambda one: rank(one[1]))[:most]

    def take(self, number: int) -> None:
        """Lay an answer, counted from 1, on the bench."""
        self._bench.lay(
            self._bench.design.with_values(self._found.values(self._listed[number - 1][0]))
        )

    def _rows(self) -> list[tuple[str, ...]]:
        system, found = self._bench.design.show_units, self._found
        rows: list[tuple[str, ...]] = []
        for place, (row, verdict) in enumerate(self._listed, 1):
            i, j = found.pairs[row]
            shift = f", shift {found.direct.shift[i]:+.3f} each" if found.direct.shift[i] else ""
            rows.append(
                (
                    str(place),
                    f"{'-'.join(map(str, found.direct.counts[i]))}, {pitch(found.direct.module[i])}{shift}",
                    f"{'-'.join(map(str, found.idler.counts[j]))}, {pitch(found.idler.module[j])}",
                    f"{found.spare[row]:.2f} x",
                    f"{found.smoothness[row]:.2f}",
                    show(found.size[row], "mm", system),
                    f"{MARKS[verdict]} {verdict}",
                )
            )
        return rows

    def _words(self) -> list[str]:
        found = self._found
        struck = [
            f"{name} path: "
            + ", ".join(f"{rule} {count}" for rule, count in one.struck.items() if count)
            for name, one in (("Direct", found.direct), ("Idler", found.idler))
        ]
        bought = [
            f"{pitch(module)} number {number} ({count} more)"
            for module, number, count in purchases(found)
        ]
        lines = [
            *([self._of] if self._of else []),
            f"{len(found.pairs)} ways from {found.looked_at} candidates.",
            *(f"Struck out. {one}." for one in struck),
        ]
        if found.why_empty:
            lines.append(found.why_empty)
        if bought:
            lines.append(f"One cutter bought would unlock: {'; '.join(bought)}.")
        return lines

    def __repr__(self) -> str:
        return "\n".join([*self._words(), *("  ".join(row) for row in self._rows())])

    def _repr_html_(self) -> str:
        heads = (
            "",
            "Direct path",
            "Idler path",
            "Teeth, spare",
            "Contact ratio",
            "Blanks together",
            "Whole machine",
        )
        words = "".join(f"<p>{escape(line)}</p>" for line in self._words())
        picture = as_image(
            gearplots.front(self._found, self._bench.design.show_units),
            "answers by strength and size",
        )
        return picture + styled(f"{words}{table_html(heads, self._rows())}")
