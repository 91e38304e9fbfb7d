"""Whether the idler's pin leans no further in its bush than their play lets it."""

from __future__ import annotations

import numpy as np

from mixerkit.checking import make_check
from mixerkit.checks import Change, Check
from mixerkit.parts.deflection import lean_in_bush, least_play, touching
from mixerkit.parts.idler import idler_forces
from mixerkit.parts.mesh_lean import pin_tilt
from mixerkit.parts.remedies import LIGHTER
from mixerkit.results import LoadedMachine
from mixerkit.tables import table
from mixerkit.working import Working, worked

__all__ = ["LEANS", "pin_leans"]

LEANS = "idler's pin leans no further than its bush takes"
"""Name of its check."""


def pin_leans(machine: LoadedMachine) -> Check:
    """Whether the pin, bent while it mixes, touches its bush at both ends: least play over the bush's length.

    Held loosely at both plates the pin leans the most that it may; the idler sits where both tooth forces press.
    """
    spec, force = machine.spec, idler_forces(machine)
    pin, long = spec.housing.idler_pin, spec.bearings.idler_length
    at, spans = spec.paths.idler.position, spec.housing.plate_spacing
    slope = np.abs(pin_tilt(spec, force))
    play = least_play(pin)
    takes = lean_in_bush(play, long)

    def mends(i: int) -> list[Change]:
        over = float(slope[i] / takes)
        return [
            {"housing.idler_pin": pin * over**0.25},
            {"bearings.idler_length": long / over},
            "housing.plate_spacing",
            "paths.idler.position",
            *LIGHTER,
        ]

    return make_check(
        machine,
        "gears",
        "idler",
        LEANS,
        where=machine.load_cases.mixing,
        demand=1e3 * slope,
        capacity=1e3 * takes,
        unit="mrad",
        source="beam formulas, Shigley 10th ed., table A-9; a bush's least play over its length, common practice at most",
        reason=lambda i, say: (
            f"{say(force[i], 'N')} on a pin of {say(pin, 'mm')}, {say(at, 'mm')} along {say(spans, 'mm')} between the plates, in a "
            f"bush {say(long, 'mm')} long"
        ),
        fix=mends,
        working=lambda i: _worked(machine, float(force[i]), float(slope[i]), play),
    )


def _worked(machine: LoadedMachine, force: float, slope: float, play: float) -> list[Working]:
    """How slope and limit were got, in N, rad and mm."""
    spec = machine.spec
    steel = table("materials").find(spec.shaft_1.material).values
    return [
        worked(
            "theta = 64*F*x*(L - x)*Abs(L - 2*x)/(3*pi*E*d**4*L)",
            1e3 * slope,
            "mrad",
            source="held at both plates: Shigley 10th ed., table A-9, beam 6, its slope under the force",
            F=(force, "N", "vector sum of both tooth forces on the idler"),
            x=(spec.paths.idler.position, "mm", "paths.idler.position"),
            L=(spec.housing.plate_spacing, "mm", "housing.plate_spacing"),
            E=(
                steel["elastic_modulus"],
                "GPa",
                f"data/tables/materials.csv, {spec.shaft_1.material}: elastic modulus",
            ),
            d=(spec.housing.idler_pin, "mm", "housing.idler_pin"),
        ),
        touching(play, spec.bearings.idler_length, "bearings.idler_length"),
    ]
