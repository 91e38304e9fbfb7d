"""Every seat of a stepped shaft taken back in as made: limits, the right section, and what a thin one becomes."""

import pytest

from mixerkit import Design, Machine
from mixerkit.explore.asmade import review
from mixerkit.explore.rework.shafts import shaft
from mixerkit.parts import zones
from mixerkit.parts.along import NAMES
from mixerkit.shop.measurements import read_measurements
from mixerkit.shop.wanted_sizes import seats, seats_to_measure
from mixerkit.shop.workshop import read_workshop

SHOP = read_workshop()
DEMO = Design.demo()
# a bar of 45 mm with 50 mm from before the idler gear at 150 mm to the bearing at the trough
STEPPED = DEMO.with_values(
    {"shaft_2.step_at": ["100 mm", "180 mm"], "shaft_2.step_diameters": ["50 mm", "45 mm"]}
)


def test_seats_that_are_alike_are_measured_once():
    assert seats_to_measure(DEMO, 2, "bearing_seat") == ["shafts.2.bearing_seat"]
    assert seats_to_measure(DEMO, 2, "gear_seat") == ["shafts.2.gear_seat"]
    assert seats(DEMO, 2)[0].words == "bearing seats of shaft 2"


def test_a_seat_of_its_own_is_asked_for_with_its_own_limits():
    assert seats_to_measure(STEPPED, 2, "gear_seat") == [
        "shafts.2.gear_seat",
        "shafts.2.idler_gear_seat",
    ]
    found = {one.name: one for one in seats(STEPPED, 2)}
    # h6 at 50 mm: 0 to -0.016 mm (ISO 286-2)
    one = found["shafts.2.idler_gear_seat"]
    assert (one.nominal, one.most) == (50.0, 50.0)
    assert one.least == pytest.approx(49.984)
    assert found["shafts.2.gear_seat"].nominal == 45.0


def test_an_insert_bearing_slides_on_a_seat_of_its_own_fit():
    inserted = DEMO.with_values({"bearings.far_end": "insert bearing"})
    assert seats_to_measure(inserted, 1, "bearing_seat")[1:] == ["shafts.1.far_bearing_seat"]
    one = next(one for one in seats(inserted, 1) if one.name.endswith("far_bearing_seat"))
    # h6 at 45 mm: 0 to -0.016 mm (ISO 286-2)
    assert (one.least, one.most) == (pytest.approx(44.984), 45.0)


@pytest.mark.parametrize(
    ("seat", "field"),
    [("gear_seat", "diameter"), ("idler_gear_seat", "step_diameters")],
)
def test_a_thin_seat_thins_its_own_section(seat, field):
    made = read_measurements({"shafts": {"2": {seat: "40 mm"}}})
    found = review(STEPPED, made, SHOP).design.shaft_2
    assert (found.diameter, found.step_diameters) == (
        (40.0, (50.0, 45.0)) if field == "diameter" else (45.0, (40.0, 45.0))
    )


def test_what_a_thin_seat_can_become_keeps_the_rest_of_the_shaft():
    for one in shaft(STEPPED, 2, 49.8, name="idler gear"):
        if not one.changes:
            continue
        after = STEPPED.with_values(one.changes)
        held = {check.id for check in Machine(STEPPED).checks if check.verdict == "fails"}
        assert {check.id for check in Machine(after).checks if check.verdict == "fails"} <= held
        if one.words.startswith("bore everything"):
            assert zones.seat(after, 2, "direct gear") == 45.0
            assert zones.seat(after, 2, "idler gear") == pytest.approx(49.8)


def test_a_ring_is_set_into_its_own_section():
    changed = zones.section_set(STEPPED, 2, (130.0, 170.0), 42.0)
    after = STEPPED.with_values(changed).shaft_2
    assert (after.diameter, after.step_at, after.step_diameters) == (
        45.0,
        (100.0, 130.0, 170.0, 180.0),
        (50.0, 42.0, 50.0, 45.0),
    )
    assert zones.as_turned(STEPPED, 2, NAMES[0]) == 45.0
