"""What is said of a design with all that is not known: how likely it holds, what fails most, what to measure first."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

from mixerkit.design import Design
from mixerkit.explore.inputs import METALS, STRENGTH, Input, typed
from mixerkit.explore.uncertain import Gain, Outlook, outlook
from mixerkit.machine import Machine
from mixerkit.show.answer import named
from mixerkit.show.assumptions import how_many, said
from mixerkit.show.processes import side_by_side
from mixerkit.units import InputError, visible

__all__ = ["risk", "risk_lines"]

_FEWEST, _MOST = 10, 100_000
_WORTH_A_POOL = 200
"""Draws from which on it pays to work them out side by side."""
_LISTED = 5


def risk(
    file: Path, draws: int, seed: int, progress: Callable[[str], None]
) -> tuple[list[str], int]:
    """Draw a design from the ranges of its facts and practice, and say what comes of it.

    Parameters
    ----------
    file : pathlib.Path
    draws, seed : int
    progress : callable
        Told in words what is being done.

    Returns
    -------
    list of str
        Lines to print.
    int
        Exit status: 0 where all checks hold as it is written, 1 where one fails.

    Raises
    ------
    InputError
        If the design cannot be used, or a number is out of range.
    """
    for name, value, least, most in (
        ("--draws", draws, _FEWEST, _MOST),
        ("--seed", seed, 0, 2**32 - 1),
    ):
        if not least <= value <= most:
            raise InputError(
                f"{name}: {value} does not fit; a whole number from {least} to {most} is wanted, for example {name} 1000."
            )
    machine = Machine(Design.read(file))
    alone = f"--draws {_WORTH_A_POOL - 1}"
    with side_by_side("risk", draws, _WORTH_A_POOL, alone) as executor:
        found = outlook(machine, draws, seed, progress, executor=executor)
    lines = risk_lines(machine, found) if found else []
    return [visible(one) for one in lines], int(machine.verdict == "fails")


def risk_lines(machine: Machine, found: Outlook) -> list[str]:
    """Write an outlook for a terminal.

    Parameters
    ----------
    machine : Machine
    found : Outlook

    Returns
    -------
    list of str
    """
    low, high = found.interval
    share = (
        f"With all that is not known, every check holds in {100 * found.share:.1f} % of {found.draws} machines drawn "
        f"({100 * low:.1f} % to {100 * high:.1f} %, 95 % interval by Clopper and Pearson), at a factor of 1."
    )
    as_written = "holds, but tightly" if machine.verdict == "tight" else machine.verdict
    lines = [
        f"{machine.design.name}: as written it {as_written}.",
        share,
        *filter(None, [how_many(machine.design)]),
    ]
    if found.failing:
        lines.append("Fails most often:")
        lines += [
            f"  {100 * share:5.1f} %  {named(machine, [name])}"
            for name, share in found.failing[:_LISTED]
        ]
    worth = [one for one in found.measure_first if one.held or one.total >= 0.01]
    if worth:
        lines.append("Measure first:")
        lines += [f"  {_gain(machine, one)}" for one in worth]
    lines.append("The kit advises; it certifies nothing.")
    return lines


def _gain(machine: Machine, one: Gain) -> str:
    held = (
        f"; were it as written, {one.held} of {one.tried} that failed would hold"
        if one.tried
        else ""
    )
    return (
        f"{_words(machine.design, one.of)}: {100 * one.total:.0f} % of the doubt hangs on it{held}"
    )


def _words(design: Design, one: Input) -> str:
    """An input in words, with the field to write a better value into."""
    if one.name == METALS:
        return f"strength of metals ({one.low:g} to {one.high:g} of the tables'): buy bar with a certificate"
    if one.name == STRENGTH:
        return f"{one.fill_in} (clay strength {one.low:.3g} to {one.high:.3g} of that reckoned)"
    span = " to ".join(said(design, one.name, end) for end in _ends(design, one))
    return f"{one.fill_in} ({span}, written {said(design, one.name)})"


def _ends(design: Design, one: Input) -> tuple[object, object]:
    return typed(design, one.name, one.low), typed(design, one.name, one.high)
