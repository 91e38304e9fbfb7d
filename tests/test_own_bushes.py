"""A machine whose shafts turn in plain bushes: each bush on its sheet, in its step, in its field; washers by rings."""

import pytest

from mixerkit import Design
from mixerkit.explore import asmade
from mixerkit.parts.bodies import bodies
from mixerkit.parts.stack import laid
from mixerkit.shop.assembly import assembly_order
from mixerkit.shop.measurements import read_measurements
from mixerkit.shop.parts_list import parts
from mixerkit.shop.wanted_bushes import own_bushes
from mixerkit.shop.wanted_sizes import wanted
from mixerkit.shop.workshop import read_workshop
from mixerkit.show.clutch_sheets import bushes
from mixerkit.show.sheet import Words

ROLLING, SHOP = Design.demo(), read_workshop()
PLAIN = ROLLING.with_values({"bearings.kind": "plain bush"})
STEPPED = PLAIN.with_values({"shaft_2.step_at": ["400 mm"], "shaft_2.step_diameters": ["40 mm"]})


def on_sheet(design):
    (_, _, rows) = bushes(design, Words("metric")).tables[0]
    return [row for row in rows if "outside" in row[0]]


def test_every_bush_of_the_bill_is_on_the_sheet():
    for design, own in ((ROLLING, 0), (PLAIN, 6), (STEPPED, 6)):
        billed = sum(
            one.count
            for one in parts(design, SHOP)
            if "bush" in one.name and "gear on" not in one.name
        )
        drawn = sum(int(row[0].split(", ")[-1].split(":")[0]) for row in on_sheet(design))
        assert (billed, drawn) == (3 + own, 3 + own)
    (row,) = [row for row in on_sheet(PLAIN) if "shafts" in row[0]]
    # 45 mm and twice a wall of 5 mm: 55 p6 is 32 to 51 um over (ISO 286-2)
    assert row[0] == "both shafts, 6: outside"
    assert "55.032" in row[1]
    assert "55.051" in row[1]
    assert [row[0] for row in on_sheet(STEPPED) if "shaft" in row[0]] == [
        "both shafts at 45 mm, 5: outside",
        "shaft 2 at 40 mm, 1: outside",
    ]


def test_a_bush_is_pressed_in_over_its_own_length():
    short = PLAIN.with_values({"bearings.bush_length": "30 mm", "bearings.idler_length": "40 mm"})
    long = PLAIN.with_values({"bearings.bush_length": "60 mm", "bearings.idler_length": "40 mm"})
    one, two = (own_bushes(design)[0].sizes.force for design in (short, long))
    assert two == pytest.approx(2 * one)


def test_the_step_that_presses_them_is_in_the_order_of_assembly():
    def said(design):
        return [row for row in assembly_order(design) if "bushes of both shafts" in row[0]]

    assert said(ROLLING) == []
    ((what, clearance, _),) = said(PLAIN)
    assert "press the 6 bushes" in what
    # 45 H8/f7: 25 um and 25 + 25 + 39 um (ISO 286-2)
    assert clearance == "shafts 0.025 mm to 0.089 mm"


def test_they_are_asked_for_before_a_shaft_goes_in():
    steps = {one.step: one for one in asmade.review(PLAIN, read_measurements({}), SHOP).hold_points}
    press = steps["press the bushes of shaft 2 into plates and far wall"]
    assert any("outside of the bush of shaft 2" in one for one in press.words)
    into = steps["put shaft 2 into its bearings"]
    assert any("bore of the bush of shaft 2" in one for one in into.words)
    listed = wanted(PLAIN, SHOP)
    assert len([name for name in listed if name.startswith("bushes.shaft_")]) == 12
    # 45 H8 is 0 to 39 um over
    one = listed["bushes.shaft_1_far_bore"]
    assert (one.least, one.most) == (pytest.approx(45.0), pytest.approx(45.039))
    assert [name for name in wanted(ROLLING, SHOP) if name.startswith("bushes.shaft_")] == []


def test_a_bush_reamed_too_far_is_found_and_has_a_way_out():
    made = read_measurements({"bushes": {"shaft_1_bore": "45.2 mm"}})
    found = asmade.review(PLAIN, made, SHOP)
    (one,) = [one for one in found.findings if one.name == "bushes.shaft_1_bore"]
    assert one.kind == "off"
    into = next(one for one in found.hold_points if one.step == "put shaft 1 into its bearings")
    assert into.state == "stop"


def test_a_ring_beside_a_bush_has_a_thrust_washer_between():
    stack = laid(PLAIN, 2)
    bush = next(one for one in stack.elements if one.name == "bearing at the plate at the trough")
    after = next(one for one in stack.grooves if one.name == bush.name and one.side > 0)
    # a washer of 1.5 mm
    assert after.start == pytest.approx(bush.end + 1.5)
    washers = [one for one in bodies(PLAIN) if one.name.startswith("washer")]
    beside = [one for one in washers if "bearing" in one.name]
    assert beside
    assert {(one.inner, one.outer) for one in beside} == {(45.0, 55.0)}
    # the ring of 42.5 + 2 x 4.7 = 51.9 mm does not reach over the hollow end's bore of 60 mm: one of 64 there;
    # with those on either side of the idler, pin 40 mm
    counted = {one.size: one.count for one in parts(PLAIN, SHOP) if one.name == "thrust washer"}
    assert counted == {
        "sheet 1.5 mm, 64 mm outside, 45 mm inside": 1,
        "sheet 1.5 mm, 55 mm outside, 45 mm inside": len(beside),
        "sheet 1.5 mm, 50 mm outside, 40 mm inside": 2,
    }
    alone = [one.count for one in parts(ROLLING, SHOP) if one.name == "thrust washer"]
    # on either side of the idler, and over the hollow end's bore
    assert alone == [2, 1]
    assert "thrust washer, bush (plate at the trough), thrust washer, ring" in str(
        assembly_order(PLAIN)
    )
