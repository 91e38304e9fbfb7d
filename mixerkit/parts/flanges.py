"""Sizes and places of the flanges of the fuse."""

from __future__ import annotations

from mixerkit.parts import zones
from mixerkit.spec import Spec

__all__ = ["flange_across", "flange_span", "flange_thickness", "through_flanges"]

_GAP = 5.0
"""Between the box's hollow shaft and the hub of the flange that is keyed on shaft 1, in mm (common practice)."""


def flange_thickness(spec: Spec) -> float:
    """Thickness of each flange of the fuse, in mm: a quarter of what goes through it (common practice)."""
    return through_flanges(spec) / 4


def flange_across(spec: Spec) -> float:
    """Diameter of each flange of the fuse, in mm: two pins' thickness outside a pin's middle (common practice)."""
    fuse = spec.fuse
    if fuse.kind == "shear pin":
        return 2 * fuse.pin_radius + 4 * fuse.pin_diameter
    return 2.5 * through_flanges(spec)


def through_flanges(spec: Spec) -> float:
    """Diameter of what goes through the flanges of the fuse, in mm: shaft 1, or the box's hollow shaft."""
    return max(zones.seat(spec, 1, zones.BOX), spec.reducer.output_bore)


def flange_span(spec: Spec) -> tuple[float, float]:
    """Hub of the flange that is keyed on shaft 1, beyond the box, as long as the key it carries."""
    end = zones.seat_span(spec, 1, zones.BOX)[0] - flange_thickness(spec) - _GAP
    return end - spec.hubs.box_length, end
