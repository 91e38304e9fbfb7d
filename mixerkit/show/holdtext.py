"""Hold points as text for a terminal: at each step cut, stop or measure first, and ways out of what is spoiled."""

from __future__ import annotations

from collections.abc import Callable, Iterator

from mixerkit.design import Design
from mixerkit.explore.asmade import Review, review
from mixerkit.explore.rework.spoiled import reworks_of
from mixerkit.shop.beside import Beside
from mixerkit.shop.measurements import read_measurements
from mixerkit.show.stamp import covers, fingerprint

__all__ = ["hold_points_text"]

_LEAD = " " * 15


def hold_points_text(
    design: Design, along: Beside, progress: Callable[[str], object]
) -> tuple[list[str], bool]:
    """Judge the sizes as made at each hold point.

    Parameters
    ----------
    design : Design
    along : Beside
        Shop and sizes as made; without sizes all is still to be measured.
    progress : callable
        Told in words what is being done.

    Returns
    -------
    tuple of list of str and bool
        Lines to print, and whether a step must stop.
    """
    made = read_measurements({}) if along.sizes is None else along.sizes
    found = review(design, made, along.shop)
    reworks = reworks_of(design, found, made, along.shop, progress)
    head = [
        f"{design.name}; {fingerprint(design, along.shop, along.sizes)}: {covers(along.shop, along.sizes)}",
        *([] if along.demos_shop else [along.shop_words]),
        *([] if along.sizes else [along.sizes_words]),
        f"{len(found.findings)} measurements, {len(found.alarms)} not as drawn",
        "",
    ]
    ways = [
        line
        for part, of_part in reworks.items()
        for line in (f"\nWays out, {part}:", *(told for one in of_part for told in one.told()))
    ]
    if any(one.changes for of_part in reworks.values() for one in of_part):
        ways.append(
            "\nPaste such lines into the design file, or: mixerkit set FILE 'LINE' 'LINE'; then ask again."
        )
    stops = any(point.state == "stop" for point in found.hold_points)
    return [*head, *_steps(found), *ways], stops


def _steps(found: Review) -> Iterator[str]:
    """Each step with why it stops or what to measure; what was said before is not said again."""
    said: set[str] = set()
    for point in found.hold_points:
        yield f"{point.state:13}  {point.step}"
        new = [words for words in point.words if words not in said]
        yield from (f"{_LEAD}{words}" for words in new)
        if len(new) < len(point.words) and point.state == "stop":
            yield f"{_LEAD}{'and as' if new else 'as'} above"
        said |= set(point.words)
