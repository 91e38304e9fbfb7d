"""What holds the outer rings of the bearings that take the push: plates, screws, holes, parts and order, by hand."""

import numpy as np
import pytest

from mixerkit import Design, Machine
from mixerkit.parts.retainer_checks import most_screwed
from mixerkit.parts.retainers import retainer
from mixerkit.shop.assembly import assembly_order
from mixerkit.shop.holes import plate
from mixerkit.shop.parts_list import parts
from mixerkit.shop.workshop import read_workshop
from mixerkit.show import plate_sheets
from mixerkit.show.retainer_sheets import retaining_plates
from mixerkit.show.sheet import Words

DEMO, SHOP = Design.demo(), read_workshop()
PLAIN = DEMO.with_values({"bearings.kind": "plain bush"})
WORDS = Words("metric")


def checks(**values):
    changed = {name.replace("__", "."): value for name, value in values.items()}
    found = Machine(DEMO.with_values(changed)).checks
    return {one.name: one for one in found if one.part == "retaining plates"}


def test_the_plates_are_laid_out_by_the_bearings():
    one = retainer(DEMO)
    # 45 x 120 x 29, its shaft's shoulder 58 mm: opening 120 - (58 - 45); corner of 2 mm: (107 + 120 - 4)/4
    assert one.openings == (107.0, 107.0)
    assert one.pressed == (55.75, 55.75)
    # M10: 60 + 15 mm, and 15 mm more to the rim; 150 + 2 x 90 long
    assert one.circles == (75.0, 75.0)
    assert one.size == (330.0, 180.0)
    # 30 mm of plate round 29 mm of bearing
    assert one.rings == ((119.5, 107.0, 0.5), (119.5, 107.0, 0.5))
    # idler 105 mm from either shaft, its pin's spacer 44 mm over and 1 mm clear: 105 - 23 - 53.5 leaves more than the
    # rim does, 90 - 53.5 - 11
    assert one.notch[2] == pytest.approx(23.0)
    assert one.beside(1) == pytest.approx(25.5)


def test_what_the_screws_bear_by_hand():
    # cosines of 0, 55 and 110 degrees: 1, 0.57358, -0.34202; middle 0.29262; squares about it 1.4639:
    # 0.2 + 0.29262 x 0.63464 / 1.4639 = 0.32686
    assert most_screwed() == pytest.approx(0.32686, abs=2e-5)
    found = checks()
    # 9450 N prised by (90 - 55.75)/15 = 2.2833
    one = found["joint does not part in a jam"]
    assert one.demand == pytest.approx(9450 * 0.32686 * 2.28333, rel=1e-4)
    # M10 8.8: 0.75 x 580 MPa x 58 mm^2 less 30 % = 17661 N
    assert one.capacity == pytest.approx(17661.0, rel=1e-4)
    assert checks(bearings__retainer_screw="M5")["joint does not part in a jam"].verdict == "fails"


def test_what_bends_the_plates_by_hand():
    # the screws beside the web stand 2 x 75 sin 110 = 140.95 mm apart; 140/360 of both pushes, 9450 and 515.4 N, on a
    # beam 43 mm wide and 10 mm thick: 3875.5 x 140.95/8 = 68281 N mm on 716.67 mm^3
    found = checks()["do not yield in a jam"]
    assert found.demand == pytest.approx(95.28, abs=0.02)
    assert found.verdict == "holds"
    # 4 mm bear 0.16 of it
    assert checks(bearings__retainer_thickness="4 mm")["do not yield in a jam"].verdict == "fails"


def test_room_among_holes_and_along_the_shafts():
    found = checks()
    # trough's wall: (420 - 330)/2 - 15 - 3 = 27 mm; plate, head and 1 mm: 21
    room = found["find room along the shafts"]
    assert (room.demand, room.capacity) == (pytest.approx(21.0), pytest.approx(27.0))
    thick = checks(bearings__retainer_thickness="20 mm")["find room along the shafts"]
    assert thick.verdict == "fails"
    # a thread of one diameter
    thin = checks(bearings__retainer_thickness="9 mm")["thread is deep enough in the inner one"]
    assert (thin.demand, thin.capacity, thin.verdict) == (10.0, 9.0, "fails")
    # 170 - 90 mm and more to every edge, but shafts 90 mm from it leave 90 - 75 - 5.5 mm
    near = checks(housing__wall_distance="90 mm")["screws find room among the other holes"]
    assert near.capacity < 10.0


def test_bushes_and_insert_bearings_have_none():
    assert retainer(PLAIN) is None
    inserted = {"bearings.far_end": "insert bearing", "bearings.locating": 3}
    assert retainer(DEMO.with_values(inserted)) is None
    assert not [one for one in Machine(PLAIN).checks if one.part == "retaining plates"]


@pytest.mark.parametrize(("locating", "where"), [(1, "reducer"), (2, "trough"), (3, None)])
def test_their_holes_are_in_the_plate_that_they_are_screwed_to(locating, where):
    design = DEMO.with_values({"bearings.locating": locating})
    for which in ("reducer", "trough"):
        holes = [one for one in plate(design, which).holes if one.name.startswith("screw")]
        assert len(holes) == (10 if which == where else 0)
        # the outermost of shaft 1: 170 - 75 mm from the edge beside it, half of 340 mm up
        spots = {(round(one.x, 6), round(one.y, 6)) for one in holes}
        assert ((95.0, 170.0) in spots) == (which == where)


def test_chart_bill_and_sheet_tell_of_them():
    chart = plate_sheets.plate(DEMO, "trough", "outside", SHOP, WORDS)
    assert any("their sheet has the screws' holes" in one for one in chart.notes)
    listed = {one.name: one for one in parts(DEMO, SHOP)}
    assert listed["screw of the retaining plates"].count == 10
    assert "M10 x 50 mm" in listed["screw of the retaining plates"].size
    assert listed["distance ring"].count == 4
    # (330 x 180 - 2 x pi/4 x 107^2) mm^2 x 10 mm of steel at 7850 kg/m^3
    area = 330 * 180 - np.pi / 2 * 107**2
    assert listed["retaining plate"].count == 2
    assert listed["retaining plate"].mass == pytest.approx(area * 10 * 7.85e-6, rel=1e-3)
    (sheet,) = retaining_plates(DEMO, SHOP, WORDS)
    assert len(sheet.tables[0][2]) == 13
    # the first screw: 90 - 75 mm from the left; in the bored plate 170 - 75 mm from its edge and half of 340 mm up
    first = next(row for row in sheet.tables[0][2] if row[0] == "screw 1")
    assert first == ("screw 1", "15 mm", "90 mm", "8.5 mm, 11 mm", "95 mm", "170 mm", "")
    assert retaining_plates(PLAIN, SHOP, WORDS) == []


def test_the_inner_one_goes_on_before_the_bearings():
    for locating in (1, 2, 3):
        steps = [
            row[0] for row in assembly_order(DEMO.with_values({"bearings.locating": locating}))
        ]
        inner = next(k for k, one in enumerate(steps) if "inner retaining plate" in one)
        outer = next(k for k, one in enumerate(steps) if "outer retaining plate" in one)
        words = "far bearings" if locating == 3 else "both shafts and idler into the plate"
        closed = next(k for k, one in enumerate(steps) if one.startswith(words))
        assert inner < closed < outer
    assert not any("retaining plate" in row[0] for row in assembly_order(PLAIN))
