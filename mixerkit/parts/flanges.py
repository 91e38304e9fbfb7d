"""Sizes and places of the flanges of the fuse."""

from __future__ import annotations

from mixerkit.checks import Change
from mixerkit.parts import zones
from mixerkit.parts.remedies import lengths
from mixerkit.results import TableRow
from mixerkit.spec import Spec

__all__ = [
    "THINNEST_BUSH",
    "box_end",
    "flange_across",
    "flange_span",
    "flange_thickness",
    "hollow_across",
    "hollow_flange_span",
    "hub_across",
    "stub_keyway",
    "stub_wall",
]

_GAP = 5.0
"""Between the box's hollow shaft and the hub of the flange that is keyed on shaft 1, in mm (common practice)."""


_HUB, _HOLLOW = 1.6, 1.5
"""Outside over bore of a flange's hub, and of a box's hollow shaft: 1.3 to 1.5, the thickest, so that what must lie
outside it does (common practice)."""
THINNEST_BUSH = 2.0
"""Thinnest wall in mm of a bush that stays round (common practice)."""


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


def stub_wall(spec: Spec) -> float:
    """Wall in mm of the stub with which a flange of the fuse fills the box's hollow shaft round shaft 1.

    It is the bush between both: turned to the bore as measured, bored after to the shaft, which turns free in it.
    """
    return (spec.reducer.output_bore - zones.seat(spec, 1, zones.BOX)) / 2


def stub_keyway(spec: Spec, key: TableRow) -> float:
    """Depth in mm of the keyway in the stub: half of its wall, so that a bush's thinnest stays, and no deeper than its key's.

    Half for the key and half for the torque is common practice. The hollow shaft's own keyway is as its maker cut it.
    """
    wall = stub_wall(spec)
    return float(max(min(key["shaft_depth"], wall / 2, wall - THINNEST_BUSH), 0.0))


def flange_span(spec: Spec) -> tuple[float, float]:
    """Hub of the flange that is keyed on shaft 1, beyond the box, as long as the key it carries."""
    end = zones.seat_span(spec, 1, zones.BOX)[0] - flange_thickness(spec) - _GAP
    return end - spec.hubs.box_length, end


def box_end(spec: Spec, size: float, system: str) -> list[Change]:
    """Ways to give shaft 1 an end of a size in mm in the box: its section there, or that end alone turned down."""
    found: list[Change] = [zones.seat_set(spec, 1, zones.BOX, size, system)]
    if size < zones.seat(spec, 1, zones.BOX) and not spec.shaft_1.step_at:
        found.append(
            {
                "shaft_1.diameter": size,
                "shaft_1.step_at": lengths([zones.seat_span(spec, 1, zones.BOX)[1]], system),
                "shaft_1.step_diameters": lengths([spec.shaft_1.diameter], system),
            }
        )
    return found
