"""What everything turns in: bearings or bushes of the shafts, of free gears and idler; seals."""

from __future__ import annotations

from mixerkit.checking import make_check
from mixerkit.checks import Check
from mixerkit.parts.bush_checks import bushes, free_gears, idler_bush
from mixerkit.parts.bush_walls import bush_walls, pressed_in
from mixerkit.parts.plate_checks import plates
from mixerkit.parts.rolling_checks import rolling
from mixerkit.parts.seal_checks import seals
from mixerkit.parts.worked import WorkedMachine
from mixerkit.working import by_method

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
    one = machine.spec.bearings
    found = [_alike(machine)]
    for line in machine.shaft_beams:
        found += rolling(line) if one.kind == "rolling" else bushes(line)
    found += [
        *idler_bush(machine),
        *free_gears(machine),
        bush_walls(machine),
        pressed_in(machine),
    ]
    return [*found, *plates(machine), *seals(machine)]


def _alike(machine: WorkedMachine) -> Check:
    """Whether no insert bearing stands beside plain bushes, which nothing here is reckoned for."""
    one = machine.spec.bearings
    alike = one.kind == "rolling" or one.far_end == "as in the plates"
    return make_check(
        machine,
        "bearings",
        "bearings beyond the trough",
        "go with those in the plates",
        demand=1.0,
        capacity=float(alike),
        unit="",
        words=("ball bearings in the plates beside an insert bearing", one.kind),
        tight=1.0,
        working=lambda i: [
            by_method("k", "1 where they go together, 0 where they do not", float(alike), "")
        ],
        source="an insert bearing beside plain bushes is not reckoned: their loads are shared otherwise",
        reason=lambda i, say: f"bearings.kind is {one.kind}, bearings.far_end {one.far_end}",
        fix=lambda i: (
            []
            if alike
            else [{"bearings.far_end": "as in the plates"}, {"bearings.kind": "rolling"}]
        ),
    )
