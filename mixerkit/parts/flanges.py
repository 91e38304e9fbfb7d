"""Sizes and places of the flanges of the fuse."""

from __future__ import annotations

from mixerkit.parts import zones
from mixerkit.parts.along import SPACER
from mixerkit.spec import Spec

__all__ = [
    "flange_across",
    "flange_span",
    "flange_thickness",
    "hollow_across",
    "hollow_flange_bore",
    "hollow_flange_span",
    "hub_across",
]

_GAP = 5.0
"""Between the box's hollow shaft and the hub of the flange that is keyed on shaft 1, in mm (common practice)."""


_HUB, _HOLLOW = 1.6, 1.5
"""Outside over bore of a flange's hub, and of a box's hollow shaft: 1.3 to 1.5, the thickest, so that what must lie
outside it does (common practice)."""
_FREE = 0.5
"""Gap in mm all round between the spacer on shaft 1 and the flange that it goes through (common practice)."""


def flange_thickness(spec: Spec) -> float:
    """Thickness of each flange of the fuse, in mm: a quarter of what goes through it (common practice)."""
    return _through(spec) / 4


def flange_across(spec: Spec) -> float:
    """Diameter of each flange of the fuse, in mm: two pins' thickness outside a pin's middle (common practice)."""
    fuse = spec.fuse
    if fuse.kind == "shear pin":
        return 2 * fuse.pin_radius + 4 * fuse.pin_diameter
    return 2.5 * _through(spec)


def _through(spec: Spec) -> float:
    """Diameter of what goes through the flanges of the fuse, in mm: shaft 1, or the box's hollow shaft."""
    return max(zones.seat(spec, 1, zones.BOX), spec.reducer.output_bore)


def hub_across(spec: Spec) -> float:
    """Outside in mm of the hub of the flange that is keyed on shaft 1."""
    return max(_HUB * zones.seat(spec, 1, zones.BOX), spec.reducer.output_bore)


def hollow_across(spec: Spec) -> float:
    """Outside in mm of the box's hollow shaft, by its bore."""
    return _HOLLOW * spec.reducer.output_bore


def hollow_flange_span(spec: Spec) -> tuple[float, float]:
    """The flange that the hollow shaft holds, against its end."""
    end = zones.seat_span(spec, 1, zones.BOX)[0]
    return end - flange_thickness(spec), end


def hollow_flange_bore(spec: Spec) -> float:
    """Bore in mm of the flange that the hollow shaft holds: free of the spacer on shaft 1 that goes through it."""
    within = zones.thickest(zones.own(spec, 1), *hollow_flange_span(spec))
    return within + 2 * (SPACER + _FREE)


def flange_span(spec: Spec) -> tuple[float, float]:
    """Hub of the flange that is keyed on shaft 1, beyond the box, as long as the key it carries."""
    end = zones.seat_span(spec, 1, zones.BOX)[0] - flange_thickness(spec) - _GAP
    return end - spec.hubs.box_length, end
