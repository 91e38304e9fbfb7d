from fractions import Fraction
from types import SimpleNamespace

import numpy as np
import pytest
from hypothesis import assume, given
from hypothesis import strategies as st
from shapely.geometry import Polygon

from mixerkit import Design, InputError, Machine
from mixerkit.__main__ import main
from mixerkit.data_files import data_path
from mixerkit.load import clay, clay_load, clay_tests, clearance, paddles, trough
from mixerkit.parts import blades

DEMO = Design.demo()


def blade(**changes):
    values = {
        "tip_radius": 90.0,
        "root_radius": 25.0,
        "count": 5,
        "width": 40.0,
        "thickness": 6.0,
        "set_angle": 90.0,
        "spacing": 60.0,
        "phase_step": 72.0,
        "offset_2": 0.0,
        "phase_2": 0.0,
    }
    values |= changes
    # no stem: the blade stands on the sleeve as it is
    stem = {
        "stem_width": values["width"],
        "stem_thickness": values["thickness"],
        "stem_height": 0.0,
    }
    return SimpleNamespace(**(stem | values))


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
    width = float(blades.turning_width.formula(one.width, one.thickness, one.set_angle))
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
    crowded = DEMO.with_values({"paddles.set_angle": "80 deg", "paddles.width": "30 mm"})
    failing = [one for one in Machine(crowded).checks if one.verdict == "fails"]
    assert any(one.name.startswith("paddles clear each other") for one in failing)
    assert any("paddle 1 of shaft 1" in one.reason for one in failing)
    narrower = crowded.with_values({"paddles.width": "22 mm", "paddles.stem_width": "22 mm"})
    assert not any(
        "clear each other" in one.name for one in Machine(narrower).checks if one.verdict == "fails"
    )
    one_angle = crowded.with_values({"clutch.keeps_phase": True})
    names = [one.name for one in Machine(one_angle).checks if one.stage == "paddles"]
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
    spec = design
    level = trough.clay_level(spec)
    if level >= spec.paddles.tip_radius:
        return
    x, y = np.meshgrid(np.linspace(-90, 240, 661), np.linspace(-90, 90, 361))
    inside = np.where(y > 0, True, np.minimum(np.hypot(x, y), np.hypot(x - 150, y)) < 90)
    sleeves = np.minimum(np.hypot(x, y), np.hypot(x - 150, y)) < 42
    area = np.sum(inside & ~sleeves & (y < level)) * 0.25
    assert area * spec.trough.length / 1e6 == pytest.approx(trough.batch_volume(spec), rel=0.02)


@given(st.floats(1, 200), st.floats(10, 200), st.floats(10, 300))
def test_vane_there_and_back(strength, diameter, height):
    torque = clay_tests.vane_torque.formula(strength, diameter, height)
    assert clay_tests.strength_from_vane.formula(torque, diameter, height) == pytest.approx(
        strength
    )


@given(st.floats(0.5, 150))
def test_water_for_a_strength_gives_that_strength(strength):
    water = clay.water_for_strength(strength, 0.45, 0.22)
    assert clay.strength_from_water(water, 0.45, 0.22) == pytest.approx(strength)


def test_outside_the_fitted_range_it_says_so_and_goes_on():
    stiff = Machine(Design.demo("too_stiff"))
    assert not stiff.clay_load.clay.valid
    assert "measure it" in stiff.clay_load.clay.words
    soft = Machine(
        DEMO.with_values({"clay.strength_from": "water content", "clay.water_content": 0.3})
    )
    assert soft.clay_load.clay.valid


@pytest.mark.parametrize("way", ["water content", "cone", "rod", "vane", "named body"])
def test_every_way_to_find_the_strength_leads_to_a_whole_answer(way):
    found = Machine(DEMO.with_values({"clay.strength_from": way}))
    assert 5 < found.clay_load.clay.strength < 120
    assert len(found.checks) > 20


@pytest.mark.parametrize(
    ("way", "reading"),
    [
        ("cone", "cone_penetration"),
        ("rod", "rod_load"),
        ("vane", "vane_torque"),
        ("named body", "body"),
        ("water content", "water_content"),
    ],
)
def test_no_reading_of_the_clay_is_taken_that_nobody_stated(way, reading, tmp_path, capsys):
    path = tmp_path / "mine.toml"
    text = data_path("designs", "larkfield.toml").read_text("utf-8")
    text = text.replace('strength_from = "cone" ', f'strength_from = "{way}" ')
    path.write_text(
        "".join(line for line in text.splitlines(True) if not line.startswith(f"{reading} ")),
        encoding="utf-8",
    )
    assert main(["check", str(path)]) == 2
    assert f'mine.toml, clay.{reading}: missing; strength_from = "{way}" rests on it' in (
        capsys.readouterr().err
    )


def test_a_way_set_without_its_readings_is_refused_and_the_file_left(tmp_path, capsys):
    path = tmp_path / "mine.toml"
    before = data_path("designs", "larkfield.toml").read_text("utf-8")
    path.write_text(before, encoding="utf-8")
    assert main(["set", str(path), 'clay.strength_from = "named body"']) == 2
    assert "clay.body: missing" in capsys.readouterr().err
    assert path.read_text("utf-8") == before
    values = ['clay.strength_from = "named body"', 'clay.body = "throwing body"']
    assert main(["set", str(path), *values]) == 0
    assert Design.read(path).clay.body == "throwing body"


def test_a_slow_test_and_the_water_are_compared_at_one_rate():
    # a vane at 0.002 per second, a fall cone at 5: log10(2500) = 3.398 decades of 16 % make 1.5437 of it
    vane = {"vane_diameter": "20 mm", "vane_height": "40 mm", "vane_torque": "0.3 N*m"}
    values = {f"clay.{name}": one for name, one in vane.items()}
    machine = Machine(DEMO.with_values({"clay.strength_from": "vane", **values}))
    # 0.3 N*m over pi 0.02^2 (0.04/2 + 0.02/6) m^3 = 2.932e-5 m^3 is 10.231 kPa, x 1.5437 = 15.79
    check = next(one for one in machine.checks if one.name == "its strength and its water agree")
    by_water = float(clay.strength_from_water(0.26, 0.45, 0.22))
    assert check.demand == pytest.approx(max(15.79 / by_water, by_water / 15.79), rel=1e-3)


def test_torque_is_that_of_the_blades_where_circles_overlap():
    # the lesser of blades and cylinder, where no circle cuts another's: tests/test_safe_side.py
    for values in (
        {},
        {
            "paddles.width": "100 mm",
            "paddles.set_angle": "90 deg",
            "paddles.bearing_capacity_factor": 20,
        },
    ):
        asks = Machine(DEMO.with_values(values)).clay_load
        assert asks.governs == "paddles"
        assert asks.peak == pytest.approx(asks.paddles + asks.sleeve)


def test_even_phases_smooth_the_turn():
    even, row = Machine(DEMO), Machine(DEMO.with_values({"paddles.phase_step": "0 deg"}))
    assert np.ptp(even.clay_load.turn) < 0.5 * np.ptp(row.clay_load.turn)
    assert even.clay_load.mean == pytest.approx(row.clay_load.mean, rel=0.02)


def test_energy_and_time_follow_from_speed_and_turns():
    run = Machine(DEMO).batch
    more = Machine(DEMO.with_values({"batch.turns_to_mix": 400})).batch
    assert more.minutes == pytest.approx(2 * run.minutes)
    assert more.energy == pytest.approx(2 * run.energy)
    assert more.warmer == pytest.approx(2 * run.warmer)
    assert run.drawn > run.energy


def test_bag_and_batch_are_checked_with_what_would_do():
    big = Machine(DEMO.with_values({"batch.bag_width": "310 mm", "batch.bag_length": "320 mm"}))
    bag = next(one for one in big.checks if one.part == "opening" and one.verdict == "fails")
    assert {"trough.opening_width": 310.0} in bag.fix
    heavy = Machine(DEMO.with_values({"batch.mass": "30 kg"}))
    full = next(one for one in heavy.checks if one.name.startswith("batch fits"))
    assert full.verdict == "fails"
    length = full.fix[0]["trough.length"]
    longer = DEMO.with_values({"batch.mass": "30 kg", "trough.length": f"{length!r} mm"})
    assert (
        next(one for one in Machine(longer).checks if one.name.startswith("batch fits")).verdict
        != "fails"
    )


def test_bad_input_at_the_doors():
    with pytest.raises(InputError, match="30 or 60 degrees"):
        clay_tests.strength_from_cone("80 g", "5 mm", 45)
    with pytest.raises(InputError, match="strength_from_rod, diameter"):
        clay_tests.strength_from_rod("20 N", "0 mm")
    with pytest.raises(InputError, match="set_angle"):
        blades.projected_width("40 mm", "6 mm", "120 deg")
    with pytest.raises(InputError, match="is a mass"):
        clay_tests.vane_torque("3 kg", "50 mm", "100 mm")


def check_of(design, start):
    """The one check whose id begins so."""
    (found,) = (one for one in Machine(design).checks if one.id.startswith(start))
    return found


def test_a_batch_heavier_than_its_bag_is_asked_about():
    start = "trough.bag.holds"
    assert check_of(DEMO, start).verdict == "holds"
    heavy = check_of(DEMO.with_values({"batch.mass": "25 kg"}), start)
    assert heavy.verdict == "fails"
    assert heavy.fix == ()  # facts, which no choice mends
    assert "batch.mass" in heavy.note
    assert "weigh" in heavy.note
    assert heavy.capacity == pytest.approx(1.1 * 300 * 190 * 135 / 1e6)
    roomy = {"batch.mass": "25 kg", "batch.bag_length": "450 mm"}
    assert check_of(DEMO.with_values(roomy), start).verdict == "holds"


@pytest.mark.parametrize(
    ("values", "which"),
    [
        ({"batch.bag_length": "600 mm"}, "length"),
        (
            {
                "batch.bag_length": "340 mm",
                "batch.bag_width": "335 mm",
                "trough.opening_length": "340 mm",
                "trough.opening_width": "340 mm",
            },
            "length",
        ),
        (
            {"batch.bag_width": "360 mm", "batch.bag_length": "361 mm", "trough.length": "380 mm"},
            "width",
        ),
    ],
)
def test_a_bag_larger_than_its_trough_fails_and_a_larger_trough_takes_it(values, which):
    long = DEMO.with_values(values)
    start = f"trough.trough.bag-lies-whole-in-its-{which}"
    found = check_of(long, start)
    assert found.verdict == "fails"
    assert len(found.fix) == 2
    for change in found.fix:
        values = {field: f"{value!r} mm" for field, value in change.items()}
        assert check_of(long.with_values(values), start).verdict == "holds"


def test_a_bag_may_lie_across_the_shafts():
    across = DEMO.with_values(
        {"batch.bag_length": "335 mm"}
    )  # the trough is 330 mm long, 340 mm wide
    names = [one for one in Machine(across).checks if "bag-lies" in one.id]
    assert len(names) == 2
    assert all(one.verdict == "holds" for one in names)


@pytest.mark.parametrize(
    "metal", ["steel S355J2", "cast iron EN-GJL-250", "bronze CuSn12 continuously cast"]
)
def test_metal_that_rusts_into_the_clay_fails_until_it_is_stainless(metal):
    for field, start in (
        ("paddles.material", "paddles.paddles.metal"),
        ("sleeve.material", "paddles.sleeve.metal"),
    ):
        spec = DEMO.with_values({field: metal})
        found = check_of(spec, start)
        assert found.verdict == "fails"
        assert {field: "stainless 1.4404 annealed"} in found.fix
        for change in found.fix:
            assert check_of(spec.with_values(change), start).verdict == "holds"


def test_without_a_sleeve_the_shafts_are_in_the_clay():
    bare = DEMO.with_values({"sleeve.kind": "none"})
    found = check_of(bare, "paddles.shaft-1.metal")
    assert found.verdict == "fails"
    assert "sleeve.kind" in found.fix[0]
    covered = Machine(bare.with_values(found.fix[0]))
    assert not [one for one in covered.checks if ".metal-" in one.id and one.verdict == "fails"]


@pytest.mark.parametrize(
    ("water", "judged"), [(0.26, False), (0.27, True), (0.46, True), (0.48, False)]
)
def test_clay_outside_its_relation_is_not_judged_and_the_rest_is(water, judged):
    design = DEMO.with_values({"clay.strength_from": "water content", "clay.water_content": water})
    start = "paddles.clay.strength"
    found = check_of(design, start)
    assert found.judged is judged
    assert (found.verdict == "fails") is not judged
    assert check_of(DEMO, start).id == found.id
    if not judged:
        assert "measure it" in found.reason
    assert check_of(design, "motor.motor.torque").judged


def test_paddles_that_stand_do_not_make_clay_weak():
    still, slow = clay_load.demand(DEMO, 0.0), clay_load.demand(DEMO, 1e-3)
    assert still.strength == pytest.approx(clay.clay_strength(DEMO.clay).strength)
    assert still.strength >= slow.strength


def test_paddles_crowded_together_sweep_no_less_than_their_own_width():
    crowded = {
        "paddles.spacing": "2 mm",
        "paddles.offset_2": "1 mm",
        "paddles.bearing_capacity_factor": 20,
    }
    one = Machine(DEMO.with_values(crowded)).clay_load
    lone = Machine(DEMO.with_values({**crowded, "paddles.count": 1})).clay_load
    assert one.cylinder > lone.cylinder > 0
    usual, extent = Machine(DEMO).clay_load, trough.axial_extent(DEMO.paddles)
    skin = [
        clay_tests.vane_torque.formula(usual.strength, 180, length) for length in (extent, 5 * 60)
    ]
    assert lone.cylinder / usual.cylinder == pytest.approx(skin[0] / skin[1])


def test_paddles_keep_their_gap_to_the_end_walls():
    blade = DEMO.paddles
    # the stems are the widest: 22 x 20 mm at 45 deg
    swept = 4 * blade.spacing + blade.offset_2 + (22 + 20) * np.sqrt(0.5)
    start = "trough.paddles.paddles-fit"
    for gap, holds in ((9.9, False), (10.1, True)):
        design = DEMO.with_values({"trough.length": f"{swept + gap} mm"})
        assert (check_of(design, start).verdict == "holds") is holds
