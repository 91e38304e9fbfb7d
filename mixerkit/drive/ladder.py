"""The ladder of what gives way first in a jam, and the fuse that it leaves room for."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass, field

import numpy as np

from mixerkit.checks import Change, Check
from mixerkit.drive.fuses import fuse_spread, fuse_torques, least_straight
from mixerkit.results import LoadedMachine

__all__ = ["Rung", "ladder", "wanted_fuse"]


@dataclass(frozen=True)
class Rung:
    """One part on the ladder.

    Attributes
    ----------
    name : str
    yields, breaks : float
        Torque at the slow end in N*m; the fuse's least and most.
    is_fuse : bool
    fixes : callable
        What may make the part stronger, as its own check has it.
    """

    name: str
    yields: float
    breaks: float
    is_fuse: bool = False
    fixes: Callable[[], Sequence[Change]] = field(default=tuple, compare=False, repr=False)


def ladder(machine: LoadedMachine, found: Iterable[Check]) -> list[Rung]:
    """Sort parts by the torque at the slow end at which they yield, weakest first.

    Parameters
    ----------
    machine : LoadedMachine
    found : iterable of Check
        Those that say at which torque their part gives.

    Returns
    -------
    list of Rung
    """
    rungs = []
    for check in found:
        if check.gives:
            what = check.name.removesuffix(" in a jam").removeprefix("diameter for ")
            name = what if what.startswith(check.part) else f"{check.part}: {what}"
            rungs.append(Rung(name, *check.gives, fixes=check.fixes))
    low, high = fuse_torques(machine.spec)
    if np.isfinite(high):
        rungs.append(Rung(f"fuse: {machine.spec.fuse.kind}", low, high, True))
    return sorted(rungs, key=lambda one: one.yields)


def wanted_fuse(
    machine: LoadedMachine, rungs: list[Rung], kind: str | None = None
) -> tuple[float, float]:
    """Least and most middle torque in N*m of a fuse that neither blows at starts nor outlasts a part.

    Parameters
    ----------
    machine : LoadedMachine
    rungs : list of Rung
    kind : str, optional
        The design's own if not given; where it has none, a limiter, which stands starts best.
    """
    spec = machine.spec
    kind = kind or spec.fuse.kind
    start = float(machine.power_flow.torque_at_box_output[machine.load_cases.starting].max())
    spread = fuse_spread(spec, kind)
    least = start * spec.safety.fuse_over_start / (1 - spread)
    if kind == "shear pin":
        least = max(least, least_straight(spec, start))
    weakest = min((one.yields for one in rungs if not one.is_fuse), default=np.inf)
    most = weakest / spec.safety.parts_over_fuse
    return least, most / (1 + spread)
