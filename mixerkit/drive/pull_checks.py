"""Whether motor and box bear the pull of belts or a chain across their shaft ends."""

from __future__ import annotations

from collections.abc import Callable, Sequence

from mixerkit.checking import make_check, make_unjudged
from mixerkit.checks import Change, Check
from mixerkit.drive.motor_drive import Wheels
from mixerkit.results import LoadedMachine
from mixerkit.working import Working

__all__ = ["pull_checks", "wrap_check"]

_LEAST_WRAP = 120.0
"""Degrees over which belt or chain lies on the smaller wheel at the least (common practice)."""


def wrap_check(
    machine: LoadedMachine,
    part: tuple[str, str],
    wheel: str,
    both: Wheels,
    how: Callable[[], Sequence[Working]],
    fix: Sequence[Change],
    source: str,
) -> Check:
    """Check how far belts or a chain lie round the smaller wheel.

    Parameters
    ----------
    machine : LoadedMachine
    part : tuple of str
        Stage and part.
    wheel : str
        What such a wheel is called.
    both : Wheels
    how : callable
        Says how the wrap was got.
    fix : sequence of Change
    source : str

    Returns
    -------
    Check
    """
    return make_check(
        machine,
        *part,
        f"wrap on the smaller {wheel}",
        demand=_LEAST_WRAP,
        capacity=both.wrap,
        unit="deg",
        tight=1.0,
        working=lambda i: how(),
        source=source,
        reason=lambda i, say: (
            f"{wheel}s of {say(both.small, 'mm')} and {say(both.large, 'mm')}, {say(both.centre, 'mm')} apart"
        ),
        fix=lambda i: fix,
    )


def pull_checks(
    machine: LoadedMachine,
    pull: float,
    how: Sequence[Working],
    fix: Sequence[Change],
    source: str,
) -> list[Check]:
    """Check the pull across both ends, as the sheets of motor and box allow it.

    Parameters
    ----------
    machine : LoadedMachine
    pull : float
        In N.
    how : sequence of Working
        How it was got.
    fix : sequence of Change
        Choices that make it less.
    source : str

    Returns
    -------
    list of Check
        What a sheet does not state cannot be judged.
    """
    spec = machine.spec
    ends = (
        ("motor's shaft end", spec.motor.end_load, "motor.end_load"),
        ("box's fast end", spec.reducer.input_load, "reducer.input_load"),
    )
    return [
        _one(machine, part, allowed, field, pull, how, fix, source) for part, allowed, field in ends
    ]


def _one(
    machine: LoadedMachine,
    part: str,
    allowed: float | None,
    field: str,
    pull: float,
    how: Sequence[Working],
    fix: Sequence[Change],
    source: str,
) -> Check:
    name = ("motor drive", part, "pull across it")
    if allowed is None:
        why = (
            f"{field} is not given: read on its sheet which load the middle of the shaft end bears"
        )
        return make_unjudged(machine, *name, why)
    return make_check(
        machine,
        *name,
        demand=pull,
        capacity=allowed,
        unit="N",
        working=lambda i: how,
        source=source,
        reason=lambda i, say: (
            f"{say(pull, 'N')} at the middle of the shaft end, a wheel further out pulls harder"
        ),
        fix=lambda i: fix,
        note=lambda i, say: f"Read {field} again, for a load in the middle of the shaft end.",
    )
