"""What keeps the idler in its place along its pin, and the plates in line: spacers, washers and dowels."""

import pytest

from mixerkit import Design, Machine
from mixerkit.parts.bodies import bodies
from mixerkit.parts.idler import idler_room
from mixerkit.shop.parts_list import parts
from mixerkit.shop.workshop import read_workshop

DEMO = Design.demo()
NAME = "idler is held along its pin"


def held(**values):
    changed = {name.replace("__", "."): value for name, value in values.items()}
    checks = Machine(DEMO.with_values(changed)).checks
    return next(one for one in checks if one.name == NAME)


def test_spacers_fill_what_idler_and_washers_leave_between_the_plates():
    # its middle 150 mm along, 40 mm long, washers of 1.5 mm: 150 - 20 - 1.5 before it, and behind it
    # 190 - 150 - 20 - 1.5 with 0.3 mm of play
    assert idler_room(DEMO) == pytest.approx((128.5, 18.2))
    found = {one.name: one for one in bodies(DEMO)}
    before, behind = (found[f"spacer {one} the idler on its pin"] for one in ("before", "behind"))
    assert (before.start, before.end) == (0.0, pytest.approx(128.5))
    assert (behind.start, behind.end) == (pytest.approx(171.8), 190.0)
    # a pin of 40 mm in tubes of 2 mm
    assert (before.inner, before.outer) == (40.0, 44.0)


def test_they_are_in_the_list_of_parts():
    sizes = [one.size for one in parts(DEMO, read_workshop()) if one.name == "spacer"]
    assert "tube 44 mm x 2 mm, faced to 128.5 mm" in sizes
    assert "tube 44 mm x 2 mm, faced to 18.2 mm" in sizes
    # thick tubes between the plates, a dowel of 10 mm in either end
    assert "tube 25 mm x 7.5 mm, faced to 190 mm" in sizes
    dowels = next(one for one in parts(DEMO, read_workshop()) if one.name == "dowel")
    # 30 mm of plate and twice its diameter in the spacer
    assert (dowels.count, dowels.size) == (4, "10 mm m6 x 50 mm")


def test_an_idler_too_near_a_plate_is_not_held():
    one = held()
    # the nearer is the plate at the trough: 190 - 150 - 20
    assert one.capacity == pytest.approx(20.0)
    assert one.demand == pytest.approx(1.8)
    near = held(paths__idler__position="168.5 mm", housing__plate_thickness="30 mm")
    assert near.capacity == pytest.approx(1.5)
    assert near.verdict == "fails"
    # a bush longer than the gear takes the room
    assert held(bearings__idler_length="60 mm").capacity == pytest.approx(10.0)


def test_the_pins_spacer_keeps_off_the_direct_pair():
    # 105 mm from either shaft, tips of (30 + 2) x 5 / 2 = 80 mm, half of 44 mm: 3 mm
    checks = Machine(DEMO).checks
    one = next(one for one in checks if one.name == "idler's pin clears the direct pair")
    assert one.capacity == pytest.approx(3.0)


def test_the_parts_list_buys_an_insert_bearing_where_one_stands():
    # plates: 45 x 120 x 29 mm (series 64 of ISO 15); far end: insert of the same bore, 45 x 85 x 49.2 mm (ISO 9628, as
    # quoted in data/tables/rolling_bearings.csv)
    listed = parts(DEMO.with_values({"bearings.far_end": "insert bearing"}), read_workshop())
    found = {one.name: (one.count, one.size) for one in listed if "bearing of shaft 1" in one.name}
    assert found["bearing of shaft 1"] == (2, "45 mm x 120 mm x 29 mm, sealed both sides")
    count, size = found["insert bearing of shaft 1"]
    assert count == 1
    assert size == "45 mm x 85 mm x 49.2 mm, sealed both sides, in its housing"
