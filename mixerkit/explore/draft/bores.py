"""The hollow shaft of a drafted box: wide enough for shaft 1 and the stub of the fuse's flange round it."""

from __future__ import annotations

from collections.abc import Callable
from math import ceil

from mixerkit.design import Design
from mixerkit.drive.reducer import HOLLOW_SHEAR
from mixerkit.parts import shaft

__all__ = ["bored_wide"]

_BORES = (30.0, 35.0, 40.0, 45.0, 50.0, 60.0, 70.0, 80.0, 90.0, 100.0)
"""Bores in mm of hollow shafts of bought boxes; one of a torque can be had a size or two wider (common practice)."""
_OVER = 1.22
"""Bore over shaft 1 in it, for a stub with a key in its wall (common practice)."""
_EIGHTH = 25.4 / 8


def bored_wide(design: Design, may: Callable[[str], bool]) -> Design:
    """Give a drafted box the bore that shaft 1 and the stub of the fuse's flange want, if its torque allows one so wide.

    Parameters
    ----------
    design : Design
    may : callable
        Whether a field, by its dotted name, may be changed.

    Returns
    -------
    Design
    """
    box, field = design.reducer, "reducer.output_bore"
    wanted = _OVER * design.shaft_1.diameter
    if design.fuse.kind == "none" or box.output_bore >= wanted or not may(field):
        return design
    most = float(shaft.diameter_for_torsion.formula(box.rated_torque, HOLLOW_SHEAR))
    fits = [one for one in _BORES if box.output_bore < one <= most]
    if not fits:
        return design
    bore = next((one for one in fits if one >= wanted), fits[-1])
    if design.show_units == "inch":
        eighths = ceil(bore / _EIGHTH - 1e-6)
        return design.with_values({field: f"{(eighths - (eighths * _EIGHTH > most)) / 8:g} in"})
    return design.with_values({field: f"{bore:g} mm"})
