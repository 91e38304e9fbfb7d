"""Where bearings, trough and paddles stand along the machine.

Positions run from the inside of the plate at the reducer towards the trough, in mm.
"""

from __future__ import annotations

import numpy as np

from mixerkit.results import Array
from mixerkit.spec import Spec

__all__ = [
    "NAMES",
    "SPACER",
    "bearing_places",
    "clutch_middle",
    "paddle_places",
    "sleeve_pin_places",
    "sleeve_seats",
    "trough_ends",
]

NAMES = ("plate at the reducer", "plate at the trough", "far end of the trough")
"""What holds each shaft, in order along it."""
SPACER = 5.0
"""Wall of a spacer on a shaft, in mm (common practice)."""


def bearing_places(spec: Spec) -> tuple[float, float, float]:
    """Middles of a shaft's bearings: in both plates and beyond the trough."""
    half = spec.housing.plate_thickness / 2
    second = spec.housing.plate_spacing + half
    return -half, second, second + spec.bearings.span


def clutch_middle(spec: Spec) -> float:
    """Middle of the clutch sleeve in neutral: that of the room between the faces of both gears."""
    near, far = sorted(
        (spec.paths.direct, spec.paths.idler), key=lambda one: (one.position, one.face_width)
    )
    return (near.position + far.position) / 2 + (near.face_width - far.face_width) / 4


def trough_ends(spec: Spec) -> tuple[float, float]:
    """Insides of the trough's end walls."""
    _, near, far = bearing_places(spec)
    spare = (far - near - spec.trough.length) / 2
    return near + spare, far - spare


def sleeve_pin_places(spec: Spec) -> list[float]:
    """Middles of the pins at the driving end of a sleeve, a quarter turn from each other."""
    pin, start = spec.sleeve.pin_diameter, trough_ends(spec)[0]
    return [start + pin * (1 + 3 * k) for k in range(spec.sleeve.pins)]


def sleeve_seats(spec: Spec) -> tuple[float, float]:
    """Where a carried sleeve bears on its shaft: at its last pin, and as far from its other end.

    It may bear anywhere between its end and that pin: as far in as it can, it bends the shaft most. Pins that
    reach past the middle leave it no second seat: both are as near to the middle as can be.
    """
    start, end = trough_ends(spec)
    reach = min(sleeve_pin_places(spec)[-1] - start, (end - start) / 2 - 0.5)
    return start + reach, end - reach


def paddle_places(spec: Spec, number: int) -> Array:
    """Middles of a shaft's paddles; both rows together sit in the middle of the trough."""
    blade, (start, end) = spec.paddles, trough_ends(spec)
    row = (blade.count - 1) * blade.spacing + blade.offset_2
    first = (start + end - row) / 2 + (blade.offset_2 if number == 2 else 0.0)
    return np.asarray(first + blade.spacing * np.arange(blade.count), float)
