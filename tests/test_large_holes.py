"""Holes across a shaft: no more than 0.3 of it, up to 0.35 for a reason, and the net section counts."""

import numpy as np
import pytest

from mixerkit import Design, Machine
from mixerkit.parts.notches import net_section

DEMO = Design.demo()
WHY = "taper pins of a third are customary here"
TAPER = {"hubs.gear": "taper pin", "hubs.pin_diameter": "15 mm"}
SLEEVE = {"sleeve.pin_diameter": "15 mm"}
PIN, ACROSS = (
    ("gears of shaft 2", "pin no larger than the shaft bears"),
    ("shaft 2", "holes across are no larger than the shaft bears"),
)


def found(values, part, name):
    checks = Machine(DEMO.with_values(values)).checks
    return next(one for one in checks if (one.part, one.name) == (part, name))


@pytest.mark.parametrize(
    ("values", "field", "check"),
    [(TAPER, "hubs.large_hole_reason", PIN), (SLEEVE, "sleeve.large_hole_reason", ACROSS)],
)
def test_a_third_of_45_mm_wants_a_reason(values, field, check):
    """15 mm of 45 mm: more than 13.5 mm, less than 15.75 mm."""
    refused = found(values, *check)
    assert refused.verdict == "fails"
    assert refused.capacity == pytest.approx(13.5)
    assert "taper pins of a third are customary" in refused.reason
    assert field in refused.reason
    told = found({**values, field: WHY}, *check)
    assert told.verdict == "holds"
    assert told.capacity == pytest.approx(15.75)
    assert WHY in told.reason


def test_a_reason_for_one_hole_is_none_for_another_and_none_is_enough_for_half():
    both = {**TAPER, **SLEEVE, "hubs.large_hole_reason": WHY}
    assert found(both, *PIN).verdict == "holds"
    assert found(both, *ACROSS).verdict == "fails"
    wide = {**TAPER, "hubs.pin_diameter": "16 mm", "hubs.large_hole_reason": WHY}
    assert found(wide, *PIN).verdict == "fails"
    bending = "diameter for bending with torsion in a jam"
    assert not found(wide, "shaft 2", bending).judged


def test_a_taper_pins_hole_is_taken_out_of_the_shaft_that_carries_its_gears():
    """Section left by a hole h across a bar d: Z = pi d^3/32 - h d^2/6, by counting squares of the section."""
    machine = Machine(DEMO.with_values({**TAPER, "hubs.pin_diameter": "9 mm"}))
    beam = machine.shaft_beams[1]
    d, h = 45.0, 9.0
    across = (np.arange(4000) + 0.5) / 4000 * d - d / 2
    y, z = np.meshgrid(across, across)
    cell = (d / 4000) ** 2
    left = (y**2 + z**2 <= (d / 2) ** 2) & (np.abs(z) > h / 2)
    # the hole runs along y, where it takes the most from bending about z's line
    second = float((y**2 * left).sum() * cell)
    kept = second / (d / 2) / (np.pi * d**3 / 32)
    bends, _ = net_section(h / d)
    # straight sides of the hole to the surface: the closed form leaves less
    assert bends <= kept
    assert bends == pytest.approx(kept, abs=0.03)
    for place in beam.gears.values():
        assert beam.net[place, 0] == pytest.approx(bends)
