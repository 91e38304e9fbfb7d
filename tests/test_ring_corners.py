"""Retaining rings against the round corners of bearings, and the support washers between."""

import numpy as np
import pytest

from mixerkit import Design, Machine
from mixerkit.parts.bodies import bodies
from mixerkit.parts.rings import corner_load, support_thickness
from mixerkit.shop.assembly import assembly_order
from mixerkit.shop.parts_list import parts
from mixerkit.shop.workshop import read_workshop

DEMO, SHOP = Design.demo(), read_workshop()
# 45 x 120 x 29 of series 64: a corner of 2 mm at least and 1.9 times that at most
CORNER = 3.8


def rings_of(machine, number=2):
    return next(
        one
        for one in machine.of_stage("shafts")
        if (one.part, one.name) == (f"shaft {number}", "rings bear the push along the shaft")
    )


def test_the_rings_load_goes_against_the_arm_of_the_push():
    # 18 mm: 0.336 mm with a sharp corner, 1.55 mm with one of 1.5 mm: 17 kN x 0.336/1.55 = 3.685 kN
    assert corner_load.formula(17.0, 18.0, 1.5) == pytest.approx(3.685, abs=1e-3)
    found = corner_load.formula(44.1, 45.0, np.array([0.0, 0.1, 0.8, 3.8]))
    # 0.39 mm over 0.85 and 3.85 mm; a corner of 0.1 mm is no better than a sharp one
    assert found == pytest.approx([44.1, 44.1, 20.234, 4.467], abs=1e-3)
    # rows of DIN 471 that were seen, the first two of the kit's own table: shaft, F_R, g, F_Rg; it is never above them
    for size, sharp, corner, published in ((18.0, 17.0, 1.5, 3.75), (19.0, 17.0, 1.5, 3.8)):
        assert 0.97 * published < corner_load.formula(sharp, size, corner) <= published


def test_support_washers_are_as_thick_as_the_standard_has_them():
    # DIN 988: S 20 x 28 x 2, S 30 x 42 x 2.5, S 45 x 55 x 3, S 80 x 100 x 3.5
    found = [support_thickness(bore) for bore in (20.0, 30.0, 45.0, 80.0)]
    assert found == [2.0, 2.5, 3.0, 3.5]


def test_a_support_washer_stands_between_each_bearing_and_its_ring():
    machine = Machine(DEMO)
    stack = machine.shaft_beams[1].stack
    bearing = next(
        one for one in stack.elements if one.name == "bearing at the plate at the trough"
    )
    groove = next(one for one in stack.grooves if (one.name, one.side) == (bearing.name, 1))
    assert groove.start == pytest.approx(bearing.end + 3.0)
    assert stack.corner(groove) == pytest.approx(CORNER - 3.0)
    washers = [one for one in bodies(DEMO) if one.name.startswith("support washer")]
    # shaft 2: both sides of the far bearing, one beyond each plate; shaft 1 has its flange before the first plate
    assert len(washers) == 4 + 3
    # over the corner and 1 mm of the ring all round: 45 + 2 x (3.8 + 1) mm, which a washer of 55 mm covers
    assert {(one.inner, round(one.outer, 2)) for one in washers} == {(45.0, 54.6)}
    listed = next(one for one in parts(DEMO, SHOP) if one.name == "support washer")
    assert (listed.count, listed.size) == (
        7,
        "DIN 988 S for 45 mm, 3 mm thick, 54.6 mm outside at least",
    )
    assert "support washer, ring" in str(assembly_order(DEMO))
    # the paddles' push in a jam, 9.45 kN and a fifth more, with 44.1 kN x 0.39/0.85
    check = rings_of(machine)
    assert check.capacity == pytest.approx(20234, rel=1e-3)
    assert "support washer" in check.reason
    assert check.verdict == "holds"


def test_where_a_support_washer_finds_no_room_the_ring_bears_on_the_corner():
    """Bearings close to the sleeve leave room for a ring, 2.35 mm, and not for 3 mm more."""
    machine = Machine(DEMO.with_values({"bearings.span": "365 mm"}))
    stack = machine.shaft_beams[1].stack
    bare = [one for one in stack.stops if one.kind == "ring" and not one.washer]
    assert {(one.name, one.side) for one in bare} == {
        ("bearing at the plate at the trough", 1),
        ("bearing at the far end of the trough", -1),
    }
    check = rings_of(machine)
    assert check.capacity == pytest.approx(4467, rel=1e-3)
    assert "on the bearing's corner" in check.reason
    assert check.verdict == "fails"
    assert "bearings.span" in check.fixes()
    # what is cut here, and bushes with their thrust washers, have sharp edges
    assert "sharp" in rings_of(Machine(Design.demo("inch_room"))).reason
