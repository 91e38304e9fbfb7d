"""How the bag goes in: the stated way only, which side does not pass, and what would do instead."""

from math import sqrt

import pytest

from mixerkit import Design, Machine
from mixerkit.__main__ import main
from mixerkit.data_files import data_path

DEMO = Design.demo()
# 400 x 250 x 150 mm is 15 L; 29 kg of clay at 1977 kg/m^3 is 14.7 L
LARGE = {
    "batch.mass": "29 kg",
    "batch.bag_length": "400 mm",
    "batch.bag_width": "250 mm",
    "batch.bag_height": "150 mm",
    "trough.opening_length": "390 mm",
    "trough.opening_width": "260 mm",
    "trough.length": "420 mm",
    "trough.free_depth": "320 mm",
}


def found(machine, ending):
    (one,) = (check for check in machine.checks if check.id.endswith(ending))
    return one


def bag(**changes):
    return Machine(DEMO.with_values({**LARGE, **{f"batch.{k}": v for k, v in changes.items()}}))


def test_lying_its_length_does_not_go_through():
    machine = bag(goes_in="lying")
    long = found(machine, "bag-passes-the-length-of-the-opening")
    assert (long.demand, long.capacity, long.verdict) == (400, 390, "fails")
    assert "its length of 400 mm does not go through 390 mm" in long.reason
    # 250 mm through 260 mm
    assert found(machine, "bag-passes-the-width-of-the-opening").verdict != "fails"
    assert long.fix[:3] == (
        {"batch.goes_in": "standing"},
        {"batch.goes_in": "folded"},
        {"batch.goes_in": "cut"},
    )


def test_folded_its_length_is_halved_and_its_height_doubled():
    machine = bag(goes_in="folded")
    # 400/2 = 200 and 250: 250 through 390, 200 through 260; 2 x 150 = 300 deep
    assert found(machine, "bag-passes-the-length-of-the-opening").demand == 250
    assert found(machine, "bag-passes-the-width-of-the-opening").demand == 200
    assert found(machine, "bag-finds-depth-above-the-paddles").demand == 300
    for ending in ("bag-passes-the-length-of-the-opening", "bag-finds-depth-above-the-paddles"):
        assert found(machine, ending).verdict != "fails"
    shallow = Machine(
        DEMO.with_values({**LARGE, "batch.goes_in": "folded", "trough.free_depth": "299 mm"})
    )
    assert found(shallow, "bag-finds-depth-above-the-paddles").verdict == "fails"


def test_cut_it_is_no_deeper():
    machine = bag(goes_in="cut")
    assert found(machine, "bag-passes-the-length-of-the-opening").demand == 250
    assert found(machine, "bag-finds-depth-above-the-paddles").demand == 150


def test_standing_is_what_was_taken_before():
    assert DEMO.batch.goes_in == "standing"
    # its two smaller sides, 190 and 135 mm
    assert found(Machine(DEMO), "bag-passes-the-length-of-the-opening").demand == 190
    assert found(Machine(DEMO), "bag-passes-the-width-of-the-opening").demand == 135


def test_depth_follows_from_the_lid_where_it_is_not_given():
    # the lid's edge over the wall, 90 + 5 mm aside, 250 mm from a tip at 90 mm
    by_hand = sqrt(340**2 - 95**2) - 90
    assert found(Machine(DEMO), "bag-finds-depth-above-the-paddles").capacity == pytest.approx(
        by_hand
    )
    low = Machine(DEMO.with_values({"guard.lid_distance": "3 mm"}))
    assert found(low, "bag-finds-depth-above-the-paddles").capacity == 0


def test_a_bag_far_larger_than_its_clay_contradicts_it():
    # 15 kg at 2650*1.26/(1 + 0.26*2.65) = 1976.91 kg/m^3 is 7.5876 L, a third more 10.1168 L
    large = Machine(DEMO.with_values({"batch.bag_height": "180 mm"}))
    one = found(large, "is-filled-by-what-the-batch-weighs")
    # 300 x 190 x 180 mm
    assert one.demand == pytest.approx(10.26)
    assert one.capacity == pytest.approx(10.1168, abs=1e-4)
    assert one.verdict == "fails"
    assert "batch.mass and the bag's sides" in one.note


def test_the_command_line_says_the_way_that_would_do(tmp_path, capsys):
    path = tmp_path / "my_mixer.toml"
    text = data_path("designs", "larkfield.toml").read_text("utf-8")
    text = text.replace('bag_height = "135 mm"', 'bag_height = "135 mm"\ngoes_in = "lying"')
    # lying, 300 mm do not go through 290 mm; standing, 190 mm do
    path.write_text(text.replace('opening_width = "300 mm"', 'opening_width = "280 mm"'))
    assert main(["check", str(path)]) == 1
    said = capsys.readouterr().out
    assert "opening, bag passes the length of the opening: 300 mm asked, can take 290 mm" in said
    assert 'would do: batch.goes_in = "standing"' in said


def test_a_cone_that_contradicts_the_water_is_caught():
    # 0.8 x 0.08 kg x 9.81 / (9.2 mm)^2 = 7.418 kPa; (0.26 - 0.22)/0.23 = 0.1739: 1.7 x 35^0.8261 = 32.06 kPa
    soft = found(Machine(DEMO.with_values({"clay.cone_penetration": "9.2 mm"})), "water-agree")
    assert soft.demand == pytest.approx(32.06 / 7.418, rel=2e-3)
    # a cone's 1.25 over the water's 0.5
    assert soft.capacity == pytest.approx(2.5)
    assert soft.verdict == "fails"
    assert "cone_penetration" in soft.note
    assert "clay.water_content" in soft.note
    # at 5.5 mm it is 20.75 kPa
    assert found(Machine(DEMO), "water-agree").demand == pytest.approx(32.06 / 20.75, rel=2e-3)


@pytest.mark.parametrize("by", ["water content", "named body"])
def test_what_the_water_itself_says_never_contradicts_it(by):
    # stiff pugged stoneware is 32 kPa
    machine = Machine(DEMO.with_values({"clay.strength_from": by}))
    assert found(machine, "water-agree").verdict == "holds"
