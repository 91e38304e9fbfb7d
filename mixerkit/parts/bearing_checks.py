"""What everything turns in: bearings or bushes of the shafts, of free gears and idler; seals."""

from __future__ import annotations

from mixerkit.checks import Check
from mixerkit.parts.bush_checks import bushes, free_gears, idler_bush
from mixerkit.parts.bush_walls import bush_walls, pressed_in
from mixerkit.parts.plate_checks import plates
from mixerkit.parts.rolling_checks import rolling
from mixerkit.parts.seal_checks import seals
from mixerkit.parts.worked import WorkedMachine

__all__ = ["checks"]


def checks(machine: WorkedMachine) -> list[Check]:
    """Check bearings, bushes and seals.

    Parameters
    ----------
    machine : WorkedMachine

    Returns
    -------
    list of Check
    """
    found = []
    for line in machine.shaft_beams:
        found += rolling(line) if machine.spec.bearings.kind == "rolling" else bushes(line)
    found += [
        *idler_bush(machine),
        *free_gears(machine),
        bush_walls(machine),
        pressed_in(machine),
    ]
    return [*found, *plates(machine), *seals(machine)]
