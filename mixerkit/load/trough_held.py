"""Whether the seam of an end of the trough holds it on the frame: clay, torque, and a paddle that is caught at the wall."""

from __future__ import annotations

from math import sqrt

import numpy as np

from mixerkit.checking import make_check
from mixerkit.checks import Change, Check
from mixerkit.constants import STANDARD_GRAVITY
from mixerkit.load.trough_sheet import sheet
from mixerkit.parts import welds
from mixerkit.parts.frame_layout import caught, pushes
from mixerkit.parts.plate_feet import FOOT_STEEL
from mixerkit.parts.remedies import calmer
from mixerkit.parts.worked import WorkedMachine
from mixerkit.results import Array
from mixerkit.spec.contact import FILLERS
from mixerkit.tables import table
from mixerkit.working import Working, worked

__all__ = ["checks"]


class _Seam:
    """The seam of one end, all of the load on it, over the load cases; in N, mm and MPa."""

    def __init__(self, machine: WorkedMachine) -> None:
        spec, walls = machine.spec, sheet(machine)
        flow = machine.power_flow.paddles
        self.machine = machine
        self.long, self.sheet, self.throat = walls.width, walls.thickness, walls.thickness / sqrt(2)
        self.across: Array = caught(machine)
        self.along: Array = np.add(*pushes(machine))
        self.torque: Array = np.asarray(flow[0] + flow[1])
        weight = spec.batch.mass * STANDARD_GRAVITY
        shear = np.hypot(self.across + weight, self.along) / self.long
        self.stress: Array = np.asarray((shear + 6e3 * self.torque / self.long**2) / self.throat)
        plain = spec.contact.trough_filler == FILLERS[0]
        rows = [table("materials").find(name).values for name in (spec.trough.material, FOOT_STEEL)]
        self.softest = min(rows, key=lambda row: float(row["yield_strength"]))
        self.breaks = min(
            welds.PLAIN if plain else welds.STAINLESS,
            *(float(row["tensile_strength"]) for row in rows),
        )
        self.yields = float(self.softest["yield_strength"])
        self.allowed = float(welds.allowed_in_throat.formula(self.breaks, self.yields))

    def mends(self, i: int) -> list[Change]:
        """A thicker sheet, with a higher fillet, or a jam that lets less through."""
        over = float(self.stress[i] / self.allowed)
        return [{"trough.wall_thickness": self.sheet * over}, *calmer(self.machine, i, over)]

    def how(self, i: int) -> list[Working]:
        """How stress and limit were got."""
        spec = self.machine.spec
        steel = f"data/tables/materials.csv, {self.softest['name']}: yield strength"
        return [
            worked(
                "sigma_w = (sqrt((F + m*g)**2 + W**2)/b + 6*M/b**2)/a",
                float(self.stress[i]),
                "MPa",
                F=(float(self.across[i]), "N", "jam across a shaft of one paddle, at its worst"),
                m=(spec.batch.mass, "kg", "batch.mass"),
                g=(STANDARD_GRAVITY, "m/s**2", "standard gravity"),
                W=(float(self.along[i]), "N", "push along both shafts"),
                M=(float(self.torque[i]), "N*m", "power flow, torque at the paddles of both"),
                b=(self.long, "mm", "width of an end of the trough"),
                a=(self.throat, "mm", "0.7 of a leg as high as the sheet is thick"),
            ),
            welds.worked_allowed(
                (self.breaks, "MPa", "weakest of filler and metals"),
                (self.yields, "MPa", steel),
            ),
        ]


def checks(machine: WorkedMachine) -> list[Check]:
    """Check the seam between an end of the trough and what carries it, all of the load on one end.

    Each end is welded to the frame of the second plate or of the far wall across its width, by a fillet as high as
    the sheet is thick. What a paddle that is caught pushes on a shaft, it pushes on the wall of the trough too.

    Parameters
    ----------
    machine : WorkedMachine

    Returns
    -------
    list of Check
    """
    seam = _Seam(machine)
    return [
        make_check(
            machine,
            "frame",
            "trough",
            "welds of its ends hold in a jam",
            where=machine.load_cases.jammed,
            demand=seam.stress,
            capacity=seam.allowed,
            unit="MPa",
            source="weld as a line: Shigley 10th ed., sections 9-3 and 9-4; allowed: tables 9-4 and 9-6; welded across its "
            "width on each end: common practice",
            reason=lambda i, say: (
                f"{say(seam.across[i], 'N')} of a paddle caught at the wall, {say(seam.along[i], 'N')} along the shafts and "
                f"{say(seam.torque[i], 'N*m')}, all of it on one end {say(seam.long, 'mm')} wide, sheet of {say(seam.sheet, 'mm')}"
            ),
            fix=seam.mends,
            working=seam.how,
        )
    ]
