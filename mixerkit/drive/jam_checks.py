"""What gives way first: every part's torque at yield and at break in one ladder, and the fuse's place in it."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from mixerkit.checking import make_check, make_unjudged
from mixerkit.checks import Change, Check
from mixerkit.drive import fuse_workings, jam_workings
from mixerkit.drive.fuse_checks import NARROWER
from mixerkit.drive.fuses import fuse_spread, fuse_torques, weaker_fuse
from mixerkit.drive.ladder import Rung, ladder, wanted_fuse
from mixerkit.drive.motor import STANDS
from mixerkit.drive.pinsteel import not_known
from mixerkit.results import LoadedMachine

__all__ = ["checks"]


def checks(machine: LoadedMachine, found: Sequence[Check]) -> list[Check]:
    """Check that in a jam nothing else gives before the fuse, or that all outlast it where there is none.

    Parameters
    ----------
    machine : LoadedMachine
    found : sequence of Check
        All other checks: those that say at which torque their part gives make the ladder.

    Returns
    -------
    list of Check
    """
    rungs = ladder(machine, found)
    weakest = next((rung for rung in rungs if not rung.is_fuse), None)
    # a part of which it is not known when it gives may be the first to give
    unknown = [check for check in found if not check.judged and "jam" in check.name]
    if unknown or weakest is None:
        why = f"{unknown[0].part}, {unknown[0].name}" if unknown else _NO_RUNG
        return [
            make_unjudged(machine, *_NAMES, f"it is not known when {why} gives" if unknown else why)
        ]
    why = not_known(machine.spec)
    if why:
        return [make_unjudged(machine, *_NAMES, why)]
    unfused = machine.spec.fuse.kind == "none"
    return [(_outlast_the_jam if unfused else _outlast_the_fuse)(machine, rungs, weakest)]


_NAMES = ("jam", "fuse", "nothing dear gives way in a jam")
"""One name with and without a fuse, so that a fuse put in is seen to mend it."""


def _outlast_the_jam(machine: LoadedMachine, rungs: list[Rung], weakest: Rung) -> Check:
    """Whether all parts outlast a jam where there is no fuse."""
    flow = machine.power_flow
    if machine.running_speed <= 0:
        return make_unjudged(machine, *_NAMES, STANDS)
    return make_check(
        machine,
        *_NAMES,
        where=machine.load_cases.jammed,
        demand=flow.jam_torque_without_fuse,
        capacity=weakest.yields,
        unit="N*m",
        working=lambda i: jam_workings.jam_unfused(machine, i),
        safety=machine.spec.safety.parts_over_fuse,
        source="Tm + sqrt(Tm^2 + omega^2 k J): energy; yield of the weakest part",
        reason=lambda i, say: (
            f"no fuse: the motor and the wound-up train bring {say(flow.jam_torque_without_fuse[i], 'N*m')}; first to give: {weakest.name}"
        ),
        fix=lambda i: [*_fuses(machine, rungs, 1), *_stronger(weakest), *_LESS_WOUND],
        note=lambda i, say: (
            _no_window(machine, rungs) or f"{_first(weakest)} gives way first, which is dear."
        ),
    )


def _outlast_the_fuse(machine: LoadedMachine, rungs: list[Rung], weakest: Rung) -> Check:
    """Whether all parts outlast the fuse."""
    _, most = fuse_torques(machine.spec)
    bare = float(machine.power_flow.jam_torque_without_fuse.max())
    return make_check(
        machine,
        *_NAMES,
        demand=most,
        capacity=weakest.yields,
        unit="N*m",
        working=lambda i: fuse_workings.fuse_most(machine),
        safety=machine.spec.safety.parts_over_fuse,
        source="most torque of the fuse against yield; factor: common practice",
        reason=lambda i, say: (
            f"next to give: {weakest.name}; without the fuse a jam brings {say(bare, 'N*m')}"
        ),
        fix=lambda i: [*_fuses(machine, rungs, 1), *_stronger(weakest)],
        note=lambda i, say: _no_window(machine, rungs) or f"{_first(weakest)} would give first.",
    )


_NO_RUNG = "of no part is it known at which torque it gives"
_LESS_WOUND = ("motor.run_at", "reducer", "motor")
"""Choices that leave less motion to wind up the train."""


def _first(weakest: Rung) -> str:
    return f"{weakest.name[0].upper()}{weakest.name[1:]}"


def _no_window(machine: LoadedMachine, rungs: list[Rung]) -> str:
    """Say so where no fuse can both stand the starts and spare the weakest part."""
    low, high = wanted_fuse(machine, rungs)
    if low <= high:
        return ""
    weakest = next((rung for rung in rungs if not rung.is_fuse), None)
    what = weakest.name if weakest else "the weakest part"
    fuse = machine.spec.fuse
    untested = fuse.kind == "shear pin" and fuse.pin_condition != "tested"
    said = f"No fuse of this scatter fits between a start and {what}: that must be stronger, or starts easier"
    return f"{said}; {NARROWER}" if untested else f"{said}."


def _fuses(machine: LoadedMachine, rungs: list[Rung], end: int) -> list[Change]:
    """Changes of the fuse to the middle of what it may be, or to one end (0 low, 1 high) where nothing may."""
    own = machine.spec.fuse.kind
    found: list[Change] = []
    for kind in ("shear pin", "torque limiter") if own == "none" else (own,):
        low, high = wanted_fuse(machine, rungs, kind)
        middle = low if np.isinf(high) else (low + high) / 2 if low <= high else (low, high)[end]
        changes = weaker_fuse(machine.spec, middle * (1 + fuse_spread(machine.spec, kind)))
        found += [change for change in changes if change.get("fuse.kind", own) == kind]
    return found


def _stronger(weakest: Rung) -> list[Change]:
    """Changes that make the first part to give stronger: what would mend its own check, to be looked for."""
    fields: list[Change] = []
    for change in weakest.fixes():
        # by how much is known only when the whole machine has been worked out again
        one = next(iter(change)) if not isinstance(change, str) and len(change) == 1 else change
        if one not in fields and not (isinstance(one, str) and one.startswith("fuse.")):
            fields.append(one)
    return fields
