"""Whether the trough's sheet bears the clay: its weight, the paddles' push, and the push along the shafts.

The walls are taken as flat strips between their ribs, held loosely there: the half-round bottoms are stiffer.
A stone wedged between a paddle's tip and the wall dents any sheet; that is not judged here.
"""

from __future__ import annotations

import numpy as np

from mixerkit.checking import make_check
from mixerkit.checks import Change, Check
from mixerkit.load import sheet_workings
from mixerkit.load.trough_sheet import Sheet, sheet
from mixerkit.parts.remedies import LIGHTER, stronger
from mixerkit.results import LoadedMachine

__all__ = ["checks"]

_PRESSED = 1.5
"""Yield over stress of a sheet that is pressed at every turn and welded at its ribs (common practice)."""
_GAP_SHARE = 0.25
"""Share of the gap between paddle and wall that the wall may give (common practice)."""


def checks(machine: LoadedMachine) -> list[Check]:
    """Check the trough's sheet.

    Parameters
    ----------
    machine : LoadedMachine

    Returns
    -------
    list of Check
    """
    found = sheet(machine)
    return [_side(machine, found), _gives(machine, found), _end(machine, found)]


def _thicker(machine: LoadedMachine, found: Sheet, factor: float) -> list[Change]:
    """More ribs, and a thicker sheet."""
    ribs = machine.spec.frame.ribs
    more: list[Change] = [{"frame.ribs": ribs + k} for k in (1, 2, 3, 5, 8)]
    return [*more, {"trough.wall_thickness": found.thickness * factor}]


def _better(machine: LoadedMachine, over: float) -> list[Change]:
    now, field = machine.spec.trough.material, ("trough.material",)
    return [*stronger(field, now, "materials", ("yield_strength",), over, ("stainless",))]


def _side(machine: LoadedMachine, found: Sheet) -> Check:
    """Whether no side is bent for good."""
    over = found.side * _PRESSED / found.yields
    return make_check(
        machine,
        "frame",
        "trough",
        "its sides do not bend under paddles and clay",
        demand=found.side,
        capacity=found.yields,
        unit="MPa",
        safety=_PRESSED,
        working=lambda i: sheet_workings.side(machine, found),
        source="strip between ribs, Roark's Formulas, 7th ed., table 11.4, cases 1a and 1b (from memory)",
        reason=lambda i, say: (
            f"{say(found.force, 'N')} of a paddle at the start and {say(1e3 * found.pressure, 'kPa')} of clay on sheet of "
            f"{say(found.thickness, 'mm')}, {say(found.span, 'mm')} from rib to rib; a stone wedged at a tip dents it all the same"
        ),
        fix=lambda i: [
            *_thicker(machine, found, float(np.sqrt(over))),
            *_better(machine, over),
            *LIGHTER,
        ],
    )


def _gives(machine: LoadedMachine, found: Sheet) -> Check:
    """Whether the gap between paddles and wall stays."""
    gap = machine.spec.trough.wall_clearance
    allowed = _GAP_SHARE * gap
    return make_check(
        machine,
        "frame",
        "trough",
        "its sides keep the gap to the paddles",
        demand=found.gives,
        capacity=allowed,
        unit="mm",
        working=lambda i: sheet_workings.gives(machine, found, _GAP_SHARE, allowed),
        source="strip between ribs, Roark's Formulas, 7th ed., table 11.4 (from memory); a quarter of the gap: common practice",
        reason=lambda i, say: (
            f"sheet of {say(found.thickness, 'mm')}, {say(found.span, 'mm')} from rib to rib; gap {say(gap, 'mm')}"
        ),
        fix=lambda i: [
            *_thicker(machine, found, float(np.cbrt(found.gives / allowed))),
            "trough.wall_clearance",
            *LIGHTER,
        ],
    )


def _end(machine: LoadedMachine, found: Sheet) -> Check:
    """Whether no end is bent by the push along the shafts."""
    over = found.end * _PRESSED / found.yields
    return make_check(
        machine,
        "frame",
        "trough",
        "its ends do not bend under the push along the shafts",
        demand=found.end,
        capacity=found.yields,
        unit="MPa",
        safety=_PRESSED,
        working=lambda i: sheet_workings.end(machine, found),
        source="strip between bottom and rim, Roark's Formulas, 7th ed., table 11.4, case 1a (from memory)",
        reason=lambda i, say: (
            f"{say(found.push, 'N')} of all paddles at the start on an end of {say(found.width, 'mm')} x {say(found.height, 'mm')}"
        ),
        fix=lambda i: [
            {"trough.wall_thickness": found.thickness * float(np.sqrt(over))},
            *_better(machine, over),
            "paddles.set_angle",
            *LIGHTER,
        ],
    )
