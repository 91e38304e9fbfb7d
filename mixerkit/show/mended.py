"""What mends a whole design, on the command line: proposals ready to take, and the one taken written."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from pathlib import Path

from mixerkit.design import Design
from mixerkit.explore.bought import BOUGHT
from mixerkit.explore.plans import Plan, plans
from mixerkit.machine import Machine
from mixerkit.textfiles import read_text
from mixerkit.units import InputError, visible
from mixerkit.written import write_all

__all__ = ["FEW", "mend", "plan_lines", "taken"]

FEW = 5
"""Proposals said."""


def mend(
    path: Path,
    keep: Sequence[str],
    free: Sequence[str],
    take: int | None,
    progress: Callable[[str], None],
) -> tuple[list[str], int]:
    """Find what makes everything of a design hold, and write it if one proposal is taken.

    Parameters
    ----------
    path : pathlib.Path
        Design file; the one before is kept beside it.
    keep, free : sequence of str
        Fields that stay, and facts that may be changed.
    take : int or None
        Number of the proposal to write, from 1 on.
    progress : callable
        Told in words what is being done.

    Returns
    -------
    list of str
        Lines to print.
    int
        Exit status: 0 where all holds or a proposal was written, else 1.

    Raises
    ------
    InputError
        If the file or a field cannot be used, or there is no such proposal; nothing is written then.
    """
    if take is not None and take < 1:
        raise InputError(
            f"--take {take}: is no proposal; their numbers begin at 1, for example --take 1."
        )
    design = Design.read(path)
    machine = Machine(design)
    fails = sum(one.verdict == "fails" for one in machine.checks)
    if not fails:
        if take is not None:
            raise InputError(
                f"--take {take}: nothing fails in {path.name}, so there is nothing to mend."
            )
        return [f"All {len(machine.checks)} checks hold; there is nothing to mend."], 0
    found = plans(machine, keep, free, progress)[:FEW]
    if take is not None:
        return taken(path, design, found, take), 0
    return [visible(line) for line in _said(path, machine, found, keep, free, progress)], 1


def _said(
    path: Path,
    machine: Machine,
    found: Sequence[Plan],
    keep: Sequence[str],
    free: Sequence[str],
    progress: Callable[[str], None],
) -> Iterator[str]:
    failing = [one for one in machine.checks if one.verdict == "fails"]
    fails = (
        f"{len(failing)} of {len(machine.checks)} checks fail"
        if len(failing) > 1
        else "1 check fails"
    )
    if found:
        ways = "one way makes" if len(found) == 1 else f"{len(found)} ways make"
        yield f"{fails}; {ways} everything hold, the fewest and cheapest changes first:"
        for number, plan in enumerate(found, 1):
            yield from plan_lines(plan, number)
        yield f"Take one with: mixerkit mend {path} --take 1"
        return
    yield f"{fails}, and no set of changes to what may be changed was found with which everything holds."
    others = [one for one in BOUGHT if one not in (*keep, *free)]
    with_others = plans(machine, keep, [*free, *others], progress)[:1] if others else []
    for plan in with_others:
        yield "With another motor or box it would:"
        yield from plan_lines(plan, 1)
        names = " ".join(
            [*(f"--keep {one}" for one in keep), *(f"--free {one}" for one in (*free, *others))]
        )
        yield f"If you may buy one: mixerkit mend {path} {names}"
    if not with_others:
        yield "What stands in the way hangs on facts: mixerkit check says of each what to measure, or free one with --free FIELD."


def plan_lines(plan: Plan, number: int) -> Iterator[str]:
    """A proposal in lines, each change ready to type.

    Parameters
    ----------
    plan : Plan
    number : int

    Yields
    ------
    str
    """
    total = sum(goes for _, goes in plan.goes)
    head = f"{number}."
    for lines, goes in plan.goes:
        told = f"{goes} of {total} hold with it" if goes < total else f"all {total} hold with it"
        if goes == 0:
            told = "so that nothing else breaks"
        for place, line in enumerate(lines):
            yield f"{head:<3} {line}" + (f"   # {told}" if place == len(lines) - 1 else "")
            head = ""
    if plan.costs:
        yield f"    costs: {'; '.join(plan.costs)}"


def taken(path: Path, design: Design, found: Sequence[Plan], take: int) -> list[str]:
    """Write a proposal into the design file, once its text was read again and holds.

    Parameters
    ----------
    path : pathlib.Path
    design : Design
    found : sequence of Plan
    take : int
        Its number, from 1 on.

    Returns
    -------
    list of str
        Lines to print.

    Raises
    ------
    InputError
        If there is no such proposal, or what would be written does not hold.
    """
    if not 1 <= take <= len(found):
        there = f"there are {len(found)}" if found else "none was found"
        raise InputError(f"--take {take}: there is no such proposal; {there}.")
    plan = found[take - 1]
    changed = design.with_values(dict(plan.values))
    changed.refuse_untested(plan.values)
    text = changed.to_toml()
    if Machine(Design.parse(text, path.name)).verdict == "fails":
        raise InputError(
            f"{path}: the proposal as it would be written does not hold; nothing was written."
        )
    before = read_text(path, missing="")
    write_all(path.parent, {f"{path.name}.previous": before, path.name: text})
    return [
        *(visible(line) for lines, _ in plan.goes for line in lines),
        visible(f"wrote {path}; the file before is {path}.previous. All checks hold."),
    ]
