"""Whether motor and box bear the pull of belts or a chain across their shaft ends."""

from __future__ import annotations

from collections.abc import Sequence

from mixerkit.checking import make_check, make_unjudged
from mixerkit.checks import Change, Check
from mixerkit.results import LoadedMachine
from mixerkit.working import Working

__all__ = ["pull_checks"]


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
