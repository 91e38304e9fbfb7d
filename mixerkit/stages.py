"""The one list of stages, in the order of the power path: key, title, and what checks each.

A stage is declared here and nowhere else. Its panel, its line in the report and what its spoiled parts
can become register by its key in their own rooms; ``tests/test_stages.py`` asks each stage for all of them.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass

from mixerkit.checks import Check
from mixerkit.drive import (
    backdriving,
    box_end_checks,
    clutch_checks,
    fuse_checks,
    guard_checks,
    jam_checks,
    motor_checks,
    motor_drive_checks,
    path_checks,
    pin_lives,
    reducer_checks,
    reversal_checks,
)
from mixerkit.load import (
    clay_checks,
    clearance_checks,
    contact_checks,
    joint_checks,
    stem_checks,
    trough_checks,
    trough_held,
    trough_walls,
    weld_checks,
)
from mixerkit.parts import (
    bearing_checks,
    frame_bolts,
    frame_checks,
    frame_standing,
    gear_checks,
    hub_checks,
    plate_feet,
    shaft_checks,
)
from mixerkit.parts.worked import WorkedMachine

__all__ = ["LADDER", "MAKERS", "STAGES", "Maker", "Stage", "stage_of"]

Maker = Callable[[WorkedMachine], list[Check]]
"""Makes checks of a machine."""


@dataclass(frozen=True)
class Stage:
    """One stage of the power path.

    Attributes
    ----------
    key : str
        What its checks, panel, report line and rework go by.
    title : str
        As a maker reads it.
    makers : tuple of callable
        What makes its checks.
    made_here : bool
        Whether anything of it is cut in the shop, and so can be spoiled there.
    """

    key: str
    title: str
    makers: tuple[Maker, ...]
    made_here: bool = True


STAGES = (
    Stage("trough", "Bag and trough", (trough_checks.checks,)),
    Stage(
        "paddles",
        "Clay and paddles",
        (clay_checks.checks, clearance_checks.checks, stem_checks.checks, weld_checks.checks),
    ),
    Stage("contact", "What the clay touches", (contact_checks.checks, joint_checks.checks)),
    Stage("motor", "Motor and supply", (motor_checks.checks,), made_here=False),
    Stage("motor drive", "Between motor and box", (motor_drive_checks.checks,), made_here=False),
    Stage(
        "reducer", "Reduction box", (reducer_checks.checks, box_end_checks.checks), made_here=False
    ),
    Stage("gear paths", "Gear paths", (path_checks.checks,)),
    Stage("gears", "Gears", (gear_checks.checks,)),
    Stage("clutch", "Dog clutch", (clutch_checks.checks,)),
    Stage("shafts", "Shafts", (shaft_checks.checks,)),
    Stage("hubs", "Hubs, keys and pins", (hub_checks.checks,)),
    Stage("bearings", "Bearings, bushes and plates", (bearing_checks.checks,)),
    Stage(
        "frame",
        "Walls and frame",
        (
            frame_checks.checks,
            trough_walls.checks,
            trough_held.checks,
            frame_bolts.checks,
            plate_feet.checks,
            frame_standing.checks,
        ),
    ),
    Stage("guards", "Guards and run-down", (guard_checks.checks,)),
    Stage(
        "jam",
        "In a jam",
        (fuse_checks.checks, pin_lives.checks, reversal_checks.checks, backdriving.checks),
    ),
)
"""All stages."""
MAKERS = tuple(make for stage in STAGES for make in stage.makers)
"""What makes the checks, all but the ladder's."""
LADDER: tuple[str, Callable[[WorkedMachine, Sequence[Check]], list[Check]]] = (
    "jam",
    jam_checks.checks,
)
"""Stage of what gives way first in a jam, and what makes its checks of all the others."""


def stage_of(key: str) -> Stage:
    """Find a stage by its key.

    Raises
    ------
    LookupError
        If there is none.

    Examples
    --------
    >>> stage_of("gears").title
    'Gears'
    """
    for stage in STAGES:
        if stage.key == key:
            return stage
    raise LookupError(f'"{key}" is no stage; one of {", ".join(one.key for one in STAGES)} is')
