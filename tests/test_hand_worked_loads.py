"""Values of loads, drive and shop worked out by hand where nothing else would notice that they are wrong."""

from math import pi

import numpy as np
import pytest

from mixerkit import Design, Machine
from mixerkit.drive import (
    backdriving,
    clutch_checks,
    guard_checks,
    motor,
    supply_checks,
)
from mixerkit.load import clay, clay_load
from mixerkit.load.contact import SPLASHED, clay_map
from mixerkit.shop.measured import Wanted, judge
from mixerkit.shop.parts_list import parts
from mixerkit.shop.retainer_parts import retainer_parts
from mixerkit.shop.shaftwork import shaft_work
from mixerkit.shop.shelf import ShelfBar, WantedBar, allocate
from mixerkit.shop.turning import turning_notes
from mixerkit.shop.workshop import read_workshop
from mixerkit.units import lengths

DEMO = Design.demo("larkfield")
SAY = lengths("metric")


def machine(values):
    return Machine(DEMO.with_values(values))


def named(checks, name, part=""):
    (found,) = (one for one in checks if one.name == name and part in one.part)
    return found


def test_a_shaft_and_the_points_of_its_centres_just_go_into_a_lathe():
    # 5 mm for the points: a shaft 5 mm shorter than the lathe takes goes in, one of half a millimetre more does not
    shop = read_workshop()
    longest = shop.lathe.between_centres - 5.0
    assert turning_notes(longest, 40.0, shop).fits
    assert not turning_notes(longest + 0.5, 40.0, shop).fits


@pytest.mark.parametrize(("dogs", "verdict"), [(90.0, "holds"), (96.0, "fails")])
def test_a_cutter_that_runs_out_beside_the_dogs_just_clears_them(dogs, verdict):
    # 22 teeth of 5 mm: 110 - 2.5 x 5 = 97.5 mm at the foot; the dogs and 1 mm all round: 92 mm, and 98 mm
    found = named(
        clutch_checks.checks(machine({"clutch.outer_diameter": f"{dogs} mm"})),
        "gear cutter runs out clear of the dogs",
        "idler",
    )
    assert (found.demand, found.capacity) == (dogs + 2, pytest.approx(97.5))
    assert found.verdict == verdict


def test_a_stepped_shaft_weighs_what_its_two_parts_do():
    # 45 mm from its left end to the step at 100 mm along the machine, 60 mm from there to its right end
    stepped = DEMO.with_values({"shaft_2.step_at": ["100 mm"], "shaft_2.step_diameters": ["60 mm"]})
    one = shaft_work(stepped, 2)
    thin, thick = 100.0 - one.left, one.left + one.length - 100.0
    mass = pi / 4 * (45**2 * thin + 60**2 * thick) * 7.85e-6
    assert one.mass == pytest.approx(mass, rel=1e-6)


def test_110_volts_are_usual_and_140_are_not():
    # 110 V stand in the list itself; 140 V are 140/120 - 1 = 0.1667 over the nearest of it
    one = {"supply.phases": 1}
    usual = supply_checks.voltage(machine({"supply.voltage": "110 V", **one}))
    assert (usual.demand, usual.verdict) == (0.0, "holds")
    odd = supply_checks.voltage(machine({"supply.voltage": "140 V", **one}))
    assert (odd.demand, odd.verdict) == (pytest.approx(1 / 6), "fails")


def test_an_elastic_coupling_is_bought_once():
    listed = parts(DEMO.with_values({"motor_drive.kind": "elastic coupling"}), None)
    assert [one.count for one in listed if one.name == "elastic coupling"] == [1]


def test_slow_paddles_shear_clay_weaker_than_its_test_did():
    # 1 rpm at (90 + 42)/2 = 66 mm over blades of 16 mm: 0.10472 x 66/16 = 0.43197 1/s, 1.0635 tenfolds below the
    # cone's 5 1/s; a tenth less for each of them
    found = clay.clay_strength(DEMO.clay)
    assert found.rate == 5.0
    slow = clay_load.demand(DEMO, 1.0).strength
    assert slow / found.strength == pytest.approx(0.89365, rel=1e-4)


def test_of_ways_to_saw_bars_the_one_with_least_metal_in_chips_is_taken():
    bars = [ShelfBar(diameter=f"{size} mm", length="300 mm") for size in (40, 60)]
    # (60^2 - 28^2) 250 + (40^2 - 38^2) 150 = 727,400 against (40^2 - 28^2) 250 + (60^2 - 20^2) 200 = 844,000
    wanted = [WantedBar("a", 28, 250), WantedBar("b", 38, 150), WantedBar("c", 20, 200)]
    found = [one and one.bar.diameter for one in allocate(wanted, bars)]
    assert found == [60.0, 40.0, None]
    # 250 + 100 mm are more than one bar: (50^2 - 48^2) 100 = 19,600 against (50^2 - 38^2) 250 = 264,000
    one = [ShelfBar(diameter="50 mm", length="300 mm")]
    either = [WantedBar("a", 38, 250), WantedBar("b", 48, 100)]
    assert [one and one.bar.diameter for one in allocate(either, one)] == [None, 50.0]


def test_the_told_torque_at_the_fan_end_is_that_of_all_that_stays_wound_up():
    # a box of 0.4 at rest holds: what stays is the whole jam, of which 1/0.4 - 2 = 0.5 over 60 is felt at the fan
    held = machine({"reducer.start_efficiency": 0.4})
    (found,) = backdriving.checks(held)
    last = found.working[-1]
    told = {symbol: value for symbol, value, *_ in last.given}
    jam = held.power_flow.torque_at_box_output[held.load_cases.names.index(found.state)]
    assert told["T_s"] == pytest.approx(jam)
    assert last.result == pytest.approx(told["T_d"] + jam / 60 * 0.5)


def test_a_motor_on_less_than_its_plates_voltage_starts_with_the_square_of_its_share():
    # 184 V for 230 V: 0.8 of the flux, 0.64 of 2.2, 1.6 and 2.6 times the rated torque, 0.8 of it all day
    able = motor.abilities(
        DEMO.with_values(
            {"motor.fed_by": "direct", "motor.rated_voltage": "230 V", "supply.voltage": "184 V"}
        )
    )
    found = np.array([able.start, able.pull_up, able.greatest, able.lasting]) / able.rated
    assert found == pytest.approx([1.408, 1.024, 1.664, 0.8])


def test_a_screw_of_the_retaining_plates_weighs_about_what_it_does():
    # M10 x 50: shank pi/4 10^2 x 50 = 3927 mm^3; head of 16 mm across and 6.4 mm high (ISO 4017, from memory):
    # 0.866 x 16^2 x 6.4 = 1419 mm^3; the bill's weight of it is a round one, so that a quarter either way will do
    mass = (3927 + 1419) * 7.85e-6
    (screw,) = (one for one in retainer_parts(DEMO, SAY) if one.name.startswith("screw"))
    assert "M10 x 50 mm" in screw.size
    assert screw.mass == pytest.approx(mass, rel=0.25)


def test_a_thick_distance_ring_is_turned_from_a_bar_thicker_than_itself():
    # a plate of 32 mm round a bearing of 29 mm: 1.5 mm either side, 119.5 mm over, and 2 mm more for the bar's skin
    made = DEMO.with_values({"housing.plate_thickness": "32 mm"})
    (ring,) = (one for one in retainer_parts(made, SAY) if one.name == "distance ring")
    assert ring.least == 122.0
    assert ring.cut is not None
    assert "at least 122 mm" in ring.cut[0]
    assert ring.mass == pytest.approx(pi / 4 * (119.5**2 - 107**2) * 1.5 * 7.85e-6, rel=0.01)


def test_paddles_turn_on_with_the_shaft_that_carries_them():
    # five of them 72 degrees apart: after a quarter turn 90, 162, 234, 306 and 378 degrees
    found = np.degrees(clay_load.demand(DEMO, 24.0).angles[90])
    assert found == pytest.approx([90.0, 162.0, 234.0, 306.0, 378.0])


def test_behind_a_guard_closed_all_round_no_distance_is_asked_for():
    closed = machine({"motor_drive.kind": "V-belt", "motor_drive.guard": "fixed, closed all round"})
    found = named(guard_checks.checks(closed), "no hand reaches where it runs on to its wheels")
    assert (found.demand, found.verdict) == (0.0, "holds")


def test_bolts_on_the_rim_touch_no_clay():
    (bolts,) = (
        one
        for one in clay_map(DEMO.with_values({"contact.bolted_laps": False}))
        if one.part == "bolts"
    )
    assert (bolts.where, bolts.area) == (SPLASHED, 0.0)


@pytest.mark.parametrize(
    ("made", "beyond", "words"),
    [(45.03, 0.012, "0.012 mm too large"), (44.99, -0.012, "0.012 mm too small")],
)
def test_a_size_is_told_by_how_far_it_is_over_the_nearer_limit(made, beyond, words):
    # 45.002 to 45.018 mm: 0.012 mm over the most, and under the least
    one = Wanted("shaft_1.seat", "seat", 45.01, 45.002, 45.018)
    assert one.beyond(made) == pytest.approx(beyond)
    assert words in judge(one, made).words
