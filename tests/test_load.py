from fractions import Fraction
from types import SimpleNamespace

import numpy as np
import pytest
from hypothesis import assume, given
from hypothesis import strategies as st
from shapely.geometry import Polygon

from mixerkit import Design, InputError, assess
from mixerkit.load import clay, clearance, paddles, trough

DEMO = Design.demo()


def blade(**changes):
    values = {
        "tip_radius": 90.0, "root_radius": 25.0, "count": 5, "width": 40.0, "thickness": 6.0, "set_angle": 90.0,
        "spacing": 60.0, "phase_step": 72.0, "offset_2": 0.0, "phase_2": 0.0,
    }  # fmt: skip
    return SimpleNamespace(**(values | changes))


def rectangle(centre, angle, one, width):
    along, across = (
        np.array([np.cos(angle), np.sin(angle)]),
        np.array([-np.sin(angle), np.cos(angle)]),
    )
    corners = [
        (one.root_radius, -1),
        (one.tip_radius, -1),
        (one.tip_radius, 1),
        (one.root_radius, 1),
    ]
    return Polygon(
        [np.array([centre, 0.0]) + r * along + side * width / 2 * across for r, side in corners]
    )


@given(st.floats(-7, 7), st.floats(-7, 7), st.floats(60, 200), st.floats(5, 60))
def test_two_blades_overlap_just_where_polygons_do(one, two, apart, width):
    gap = float(clearance.blade_gap(one, two, apart, 25.0, 90.0, width))
    first, second = rectangle(0.0, one, blade(), width), rectangle(apart, two, blade(), width)
    if abs(gap) > 1e-6:
        assert (gap < 0) == (first.intersection(second).area > 1e-9)
    assert max(gap, 0) <= first.distance(second) + 1e-6


@pytest.mark.parametrize("path", ["direct", "idler"])
@pytest.mark.parametrize("phase", [0.0, 18.0, 36.0, 54.0])
@pytest.mark.parametrize("counts", [([30, 30], [22, 20, 22]), ([28, 32], [20, 20, 24])])
def test_colliding_paddles_are_found_as_brute_force_finds_them(path, phase, counts):
    one = blade(phase_2=phase, offset_2=10.0, count=3, set_angle=80.0, phase_step=120.0)
    number = {"direct": 0, "idler": 1}[path]
    ratio = clearance.mode_ratio(
        SimpleNamespace(
            paths=SimpleNamespace(**{path: SimpleNamespace(tooth_counts=counts[number])})
        ),
        path,
    )
    steps = 48
    found = clearance.nearest_meeting(one, 150.0, ratio, steps)
    width = float(paddles.projected_width.plain(one.width, one.thickness, one.set_angle))
    brute = False
    for k in range(steps * ratio.denominator):
        turned = 2 * np.pi * k / steps
        for i in range(one.count):
            for j in range(one.count):
                along = abs(i * one.spacing - j * one.spacing - one.offset_2)
                if along >= trough.axial_extent(one):
                    continue
                first = rectangle(0.0, turned + np.radians(one.phase_step * i), one, width)
                second = rectangle(
                    150.0,
                    float(ratio) * turned + np.radians(phase + one.phase_step * j),
                    one,
                    width,
                )
                brute = brute or first.intersection(second).area > 1e-9
        if brute:
            break
    assert (found.gap < 0) == brute


def test_phases_that_pass_and_phases_that_do_not():
    straight = {"offset_2": 0.0, "count": 1, "width": 30.0}
    # two single blades in one plane: against each other from a quarter apart they pass, from face to face they meet
    assert clearance.nearest_meeting(blade(phase_2=180.0, **straight), 150.0, Fraction(-1)).gap < 0
    assert clearance.nearest_meeting(blade(phase_2=0.0, **straight), 150.0, Fraction(1)).gap > 0
    assert clearance.nearest_meeting(blade(phase_2=180.0, **straight), 150.0, Fraction(1)).gap < 0
    # at unequal speeds every pair of angles comes round
    assert (
        clearance.nearest_meeting(blade(phase_2=0.0, **straight), 150.0, Fraction(29, 31)).gap < 0
    )


def test_the_check_names_the_pair_and_the_cure_cures():
    crowded = DEMO.with_values({"paddles.set_angle": "20 deg"})
    failing = [one for one in assess(crowded).checks if one.verdict == "fails"]
    assert any(one.name.startswith("paddles clear each other") for one in failing)
    assert any("paddle 1 of shaft 1" in one.reason for one in failing)
    narrower = crowded.with_values({"paddles.width": "25 mm"})
    assert not any(
        "clear each other" in one.name for one in assess(narrower).checks if one.verdict == "fails"
    )
    one_angle = crowded.with_values({"clutch.keeps_phase": True})
    names = [one.name for one in assess(one_angle).checks if one.stage == "paddles"]
    assert sum("rotating" in name for name in names) == 2


@given(st.floats(0, 2 * np.pi), st.floats(-95, 95))
def test_buried_share_agrees_with_a_sum_over_the_blade(angle, level):
    assume(abs(level) > 0.01)
    radii = np.linspace(25, 90, 20001)
    middle = (radii[1:] + radii[:-1]) / 2
    under = middle * np.sin(angle) < level
    summed = float((middle * under).sum() / middle.sum())
    assert float(paddles.buried_share(angle, level, 25.0, 90.0)) == pytest.approx(summed, abs=2e-3)


@given(st.floats(5, 30))
def test_level_holds_just_the_batch(mass):
    design = DEMO.with_values({"batch.mass": f"{mass} kg"})
    plain = design.plain
    level = trough.clay_level(plain)
    if level >= plain.paddles.tip_radius:
        return
    x, y = np.meshgrid(np.linspace(-95, 245, 681), np.linspace(-95, 90, 371))
    inside = np.where(y > 0, True, np.minimum(np.hypot(x, y), np.hypot(x - 150, y)) < 95)
    sleeves = np.minimum(np.hypot(x, y), np.hypot(x - 150, y)) < 28
    area = np.sum(inside & ~sleeves & (y < level)) * 0.25
    assert area * plain.trough.length / 1e6 == pytest.approx(trough.batch_volume(plain), rel=0.02)


@given(st.floats(1, 200), st.floats(10, 200), st.floats(10, 300))
def test_vane_there_and_back(strength, diameter, height):
    torque = clay.vane_torque.plain(strength, diameter, height)
    assert clay.strength_from_vane.plain(torque, diameter, height) == pytest.approx(strength)


@given(st.floats(0.5, 150))
def test_water_for_a_strength_gives_that_strength(strength):
    water = clay.water_for_strength(strength, 0.45, 0.22)
    assert clay.strength_from_water(water, 0.45, 0.22) == pytest.approx(strength)


def test_outside_the_fitted_range_it_says_so_and_goes_on():
    stiff = assess(Design.demo("too_stiff"))
    assert not stiff.case.asks.clay.valid
    assert "measure it" in stiff.case.asks.clay.words
    soft = assess(
        DEMO.with_values({"clay.strength_from": "water content", "clay.water_content": 0.3})
    )
    assert soft.case.asks.clay.valid


@pytest.mark.parametrize("way", ["water content", "cone", "rod", "vane", "named body"])
def test_every_way_to_find_the_strength_leads_to_a_whole_answer(way):
    found = assess(DEMO.with_values({"clay.strength_from": way}))
    assert 5 < found.case.asks.clay.strength < 120
    assert len(found.checks) > 20


def test_torque_is_the_lesser_of_blades_and_cylinder():
    many = assess(
        DEMO.with_values(
            {"paddles.width": "100 mm", "paddles.set_angle": "90 deg", "paddles.bearing_factor": 20}
        )
    )
    assert many.case.asks.governs == "swept cylinder"
    assert many.case.asks.peak == pytest.approx(many.case.asks.cylinder)
    few = assess(DEMO)
    assert few.case.asks.governs == "paddles"
    assert few.case.asks.peak == pytest.approx(few.case.asks.paddles)


def test_even_phases_smooth_the_turn():
    even, row = assess(DEMO), assess(DEMO.with_values({"paddles.phase_step": "0 deg"}))
    assert np.ptp(even.case.asks.turn) < 0.5 * np.ptp(row.case.asks.turn)
    assert even.case.asks.mean == pytest.approx(row.case.asks.mean, rel=0.02)


def test_energy_and_time_follow_from_speed_and_turns():
    run = assess(DEMO).batch
    more = assess(DEMO.with_values({"batch.turns_to_mix": 400})).batch
    assert more.minutes == pytest.approx(2 * run.minutes)
    assert more.energy == pytest.approx(2 * run.energy)
    assert more.warmer == pytest.approx(2 * run.warmer)
    assert run.drawn > run.energy


def test_bag_and_batch_are_checked_with_what_would_do():
    big = assess(DEMO.with_values({"batch.bag_width": "310 mm", "batch.bag_length": "320 mm"}))
    bag = next(one for one in big.checks if one.part == "opening" and one.verdict == "fails")
    assert "310 mm there would do" in bag.advice
    heavy = assess(DEMO.with_values({"batch.mass": "30 kg"}))
    full = next(one for one in heavy.checks if one.name.startswith("batch fits"))
    assert full.verdict == "fails"
    length = float(full.advice.split()[2])
    longer = DEMO.with_values({"batch.mass": "30 kg", "trough.length": f"{length + 1} mm"})
    assert (
        next(one for one in assess(longer).checks if one.name.startswith("batch fits")).verdict
        != "fails"
    )


def test_bad_input_at_the_doors():
    with pytest.raises(InputError, match="30 or 60 degrees"):
        clay.strength_from_cone("80 g", "5 mm", 45)
    with pytest.raises(InputError, match="strength_from_rod, diameter"):
        clay.strength_from_rod("20 N", "0 mm")
    with pytest.raises(InputError, match="set_angle"):
        paddles.projected_width("40 mm", "6 mm", "120 deg")
    with pytest.raises(InputError, match="is a mass"):
        clay.vane_torque("3 kg", "50 mm", "100 mm")
