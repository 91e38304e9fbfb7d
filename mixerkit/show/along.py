"""What is said of the shop file and the sizes as made that go along with a design."""

from __future__ import annotations

from collections.abc import Collection
from pathlib import Path
from shlex import quote
from typing import Any

from mixerkit.design import Design
from mixerkit.explore.asmade import review
from mixerkit.explore.draft.assumed import assumed
from mixerkit.shop.beside import Beside
from mixerkit.shop.held import lacks
from mixerkit.show.assumptions import differing, known_beside

__all__ = ["told", "told_json"]


def told(design: Design, along: Beside, file: Path) -> list[str]:
    """Say whose shop a design was held against and what that lacks, and what the sizes as made say.

    Parameters
    ----------
    design : Design
    along : Beside
    file : pathlib.Path
        Of the design.

    Returns
    -------
    list of str
        One sentence each. The demo's sizes as made are left to the hold points.
    """
    missing = lacks(design, along.shop, design.show_units) if along.shop else []
    there = " All that the machine is cut with is there." if along.shop and not missing else ""
    known = known_beside(design, along)
    lines = [
        *_assumed(design, known),
        *differing(design, known),
        f"{along.shop_words}{there}",
        *(f"  {one}" for one in missing),
    ]
    if along.sizes and not along.demos_sizes:
        found = review(design, along.sizes, along.shop)
        off = len(found.alarms)
        how = (
            f"{off} of {len(found.findings)} not as drawn"
            if off
            else f"{len(found.findings)}, all as drawn"
        )
        worse = f"; {len(found.worse)} checks fail with them" if found.worse else ""
        lines.append(
            f'{along.sizes_words[:-1]}: {how}{worse}; "mixerkit hold-points {quote(str(file))}" says at which step to stop.'
        )
    return lines


def _assumed(design: Design, known: Collection[str]) -> list[str]:
    """What rests on values that were drafted and nobody measured."""
    names = [one for one in assumed(design) if one not in known]
    if not names:
        return []
    how = "measure or read them and write them in, or confirm them with mixerkit set FILE --confirm FIELD"
    return [
        f"{len(names)} facts are assumed as they were drafted; {how}:",
        f"  {', '.join(names)}",
    ]


def told_json(design: Design, along: Beside) -> dict[str, Any]:
    """Give the same as plain values for :func:`json.dumps`."""
    shop = along.shop and {
        "name": along.shop.name,
        "lacks": lacks(design, along.shop, design.show_units),
    }
    known = known_beside(design, along)
    return {"shop": shop, "assumed": [one for one in assumed(design) if one not in known]}
