"""How a carried sleeve is seated on its shaft: bored or ringed, on sheet, in bill and in the order of assembly."""

import pytest

from mixerkit import Design, Machine
from mixerkit.parts.along import sleeve_seats
from mixerkit.parts.passing import way_on
from mixerkit.parts.sleeve_seats import seats_in, seats_told
from mixerkit.parts.stack import laid
from mixerkit.shop.assembly import assembly_order
from mixerkit.shop.parts_list import bars, parts
from mixerkit.shop.workshop import read_workshop
from mixerkit.show import shaft_sheets
from mixerkit.show.sheet import Words

DEMO = Design.demo()
SHOP = read_workshop()
THIN = DEMO.with_values({"sleeve.wall": "8 mm"})
"""A tube of 84 mm with 68 mm inside over 45 mm: rings of 11.5 mm find room."""


def lines(design, word):
    return [one for one in parts(design, SHOP) if word in one.name]


def test_a_thick_sleeve_is_bored_and_has_no_ring():
    # 84 mm less twice 19.3 mm is 45.4 mm: a ring over 45 mm would be 0.2 mm thick. Pins of 12 mm stand 12 and 48 mm
    # from the trough's end, the sleeve begins 1 mm from it: seats of 47 mm
    found = seats_in(DEMO, 1)
    assert found.bores == (45.0, 45.0)
    assert found.between == pytest.approx(45.4)
    assert found.ring == (False, False)
    assert found.length == pytest.approx(47.0)
    assert found.places[0][1] == pytest.approx(sleeve_seats(DEMO)[0])
    (told,) = seats_told(DEMO, 1)
    # 45 H8: 0 to +39 um (ISO 286-2)
    assert "no ring" in told
    assert "45 mm - 45.039 mm, 47 mm long" in told
    assert "weld in a ring" not in told
    assert told in shaft_sheets.shaft(DEMO, 2, SHOP, Words("metric")).notes
    assert lines(DEMO, "seat ring") == []
    (sleeve,) = [one for one in lines(DEMO, "sleeve") if one.name == "sleeve"]
    assert sleeve.count == 2
    assert "hollow or round bar 84 mm" in sleeve.size
    assert "45 mm H8" in sleeve.size


def test_a_thin_tube_gets_rings_that_are_in_bill_and_cut_list():
    (told,) = seats_told(THIN, 2)
    assert told.count("eld in a ring of 11.5 mm wall, bored last to 45 mm - 45.039 mm") == 2
    (ring,) = lines(THIN, "seat ring")
    assert ring.count == 4
    # out of bar for 68 mm, 47 mm long; pi/4 (68^2 - 45^2) 47 mm at 7800 kg/m^3
    assert ring.mass == pytest.approx(0.7495, rel=0.02)
    sawn = [name for bar in bars(THIN, SHOP) for name, _ in bar.cuts]
    assert sum(name.startswith("seat ring") for name in sawn) == 4
    # at 4 mm and no less: 45 + 8 = 53 mm inside is a wall of 15.5 mm
    assert seats_in(DEMO.with_values({"sleeve.wall": "15.5 mm"}), 1).ring == (True, True)
    assert seats_in(DEMO.with_values({"sleeve.wall": "15.6 mm"}), 1).ring == (False, False)


def test_a_floating_sleeve_has_no_two_seats():
    assert seats_told(DEMO.with_values({"sleeve.kind": "floating"}), 1) == []


def test_its_seats_pass_no_section_thicker_than_themselves():
    # 45.3 mm in the middle of the trough goes into 45.4 mm, and no seat of 45 mm goes over it
    steps = {
        "shaft_2.step_at": ["300 mm", "400 mm"],
        "shaft_2.step_diameters": ["45.3 mm", "45 mm"],
    }
    check = next(
        one
        for one in Machine(DEMO.with_values(steps)).checks
        if one.id == "shafts.shaft-2.everything-goes-on-in-some-order"
    )
    assert check.verdict == "fails"
    assert (check.demand, check.capacity) == (pytest.approx(45.3), pytest.approx(45.0))
    assert "sleeve with paddles" in check.reason


def test_a_shaft_that_steps_down_takes_the_seats_from_the_thin_side():
    # 45 mm to 400 mm, 40 mm beyond: the far seat of 40 mm comes from the far end, the near one of 45 mm behind it
    steps = {"shaft_2.step_at": ["400 mm"], "shaft_2.step_diameters": ["40 mm"]}
    stepped = DEMO.with_values(steps)
    assert seats_in(stepped, 2).bores == (45.0, 40.0)
    way = way_on(laid(stepped, 2))
    assert way.worst.over <= way.worst.passes
    assert "sleeve with paddles" in way.from_right


def test_it_is_warmed_over_a_bearing_seat_of_its_own_size():
    def said(design):
        return next(row[1] for row in assembly_order(design) if "sleeves with paddles" in row[0])

    # k6 at 45 mm: up to 18 um over (ISO 286-2)
    assert "up to 0.018 mm thicker, warmed to 80" in said(DEMO)
    # a far bearing's seat turned down to 40 mm, as on a bar of 40 mm beyond the trough, asks for none
    steps = {
        f"shaft_{n}.{what}": value
        for n in (1, 2)
        for what, value in (("step_at", ["590 mm"]), ("step_diameters", ["40 mm"]))
    }
    assert "warmed" not in said(DEMO.with_values(steps))
