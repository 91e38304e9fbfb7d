"""What gives way first: every part's torque at yield and at break in one ladder, and the fuse's place in it."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

import numpy as np

from mixerkit.cases import Case
from mixerkit.checks import Check, Say
from mixerkit.drive.jam import fuse_torques, pin_for_torque
from mixerkit.tables import table

__all__ = ["Rung", "checks", "ladder", "wanted_fuse"]


@dataclass(frozen=True)
class Rung:
    """One part on the ladder.

    Attributes
    ----------
    name : str
    yields, breaks : float
        Torque at the slow end in N*m; the fuse's least and most.
    is_fuse : bool
    """

    name: str
    yields: float
    breaks: float
    is_fuse: bool = False


def ladder(case: Case, found: Iterable[Check]) -> list[Rung]:
    """Sort parts by the torque at the slow end at which they yield, weakest first.

    Parameters
    ----------
    case : Case
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
            rungs.append(Rung(name, *check.gives))
    low, high = fuse_torques(case.plain)
    if np.isfinite(low):
        rungs.append(Rung(f"fuse: {case.plain.fuse.kind}", low, high, True))
    return sorted(rungs, key=lambda one: one.yields)


def wanted_fuse(case: Case, rungs: list[Rung]) -> tuple[float, float]:
    """Least and most middle torque in N*m of a fuse that neither blows at starts nor outlasts a part."""
    plain = case.plain
    least = float(case.flow.slow[case.starting].max()) * plain.safety.fuse_over_start
    weakest = min((one.yields for one in rungs if not one.is_fuse), default=np.inf)
    most = weakest / plain.safety.parts_over_fuse
    scatter = plain.fuse.scatter
    return least / (1 - scatter), most / (1 + scatter)


def checks(case: Case, rungs: list[Rung]) -> list[Check]:
    """Check that the fuse holds at every start and that nothing else gives before it.

    Parameters
    ----------
    case : Case
    rungs : list of Rung
        See :func:`ladder`.

    Returns
    -------
    list of Check
    """
    plain, flow = case.plain, case.flow
    one, safety = plain.fuse, plain.safety
    weakest = next(rung for rung in rungs if not rung.is_fuse)
    low, high = wanted_fuse(case, rungs)

    def mend(say: Say) -> str:
        if low > high:
            return f"No fuse fits between a start and the weakest part: {weakest.name} must be stronger."
        middle = (low + high) / 2
        if one.kind == "torque limiter":
            return f"A setting of {say(middle, 'N*m')} would do."
        strength = table("materials").find(one.pin_material).plain["tensile_strength"]
        pin = pin_for_torque.plain(middle, one.pin_radius, strength, one.pins, one.planes)
        return f"A pin of {say(pin, 'mm')} of {one.pin_material} at {say(one.pin_radius, 'mm')} would do."

    bare = float(flow.bare.max())
    if one.kind == "none":
        return [
            case.check(
                "jam", "ladder", "parts outlast a jam without a fuse", where=case.jammed, demand=flow.bare, capacity=weakest.yields,
                unit="N*m", safety=safety.parts_over_fuse, source="Tm + sqrt(Tm^2 + omega^2 k J): energy; yield of the weakest part",
                reason=lambda i, say: f"the motor and the wound-up train bring {say(flow.bare[i], 'N*m')}; first to give: {weakest.name}",
                advice=lambda i, say: f"{weakest.name[0].upper()}{weakest.name[1:]} gives way first, which is dear. {mend(say)}",
            )
        ]  # fmt: skip
    least, most = fuse_torques(plain)
    return [
        case.check(
            "jam", "fuse", "fuse holds at every start", where=case.starting, demand=flow.slow, capacity=least, unit="N*m",
            safety=safety.fuse_over_start, source="least torque within its scatter; factor: common practice",
            reason=lambda i, say: f"{one.kind}, {say(least, 'N*m')} to {say(most, 'N*m')} with a scatter of {100 * one.scatter:g} %",
            advice=lambda i, say: mend(say),
        ),
        case.check(
            "jam", "fuse", "fuse gives before any other part", demand=most, capacity=weakest.yields, unit="N*m",
            safety=safety.parts_over_fuse, source="most torque within its scatter against yield; factor: common practice",
            reason=lambda i, say: f"next to give: {weakest.name}; without the fuse a jam brings {say(bare, 'N*m')}",
            advice=lambda i, say: f"{weakest.name[0].upper()}{weakest.name[1:]} would give first. {mend(say)}",
        ),
    ]  # fmt: skip
