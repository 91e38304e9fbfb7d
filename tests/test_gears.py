import numpy as np
import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st
from shapely import affinity
from shapely.geometry import LineString, Polygon

from mixerkit import Design, InputError, Machine
from mixerkit.drive import dogclutch
from mixerkit.explore import paths, pathsfound
from mixerkit.parts import (
    formcutter,
    gear_measures,
    idler,
    involute,
    measuring,
    mesh,
    outline,
    spurgear,
    tooth_loads,
    toothstrength,
    undercut,
)
from mixerkit.shop import indexing
from mixerkit.shop.workshop import read_workshop

DEMO = Design.demo()
SHOP = read_workshop()
teeth = st.integers(12, 60)
shift = st.floats(-0.2, 0.5)


def sound(count, moved):
    """A gear without undercut and without a pointed tip."""
    return (
        moved >= undercut.least_shift(count)
        and spurgear.tip_thickness.formula(1.0, count, moved) > 0.2
    )


@settings(max_examples=40)
@given(
    one=teeth,
    two=teeth,
    first=shift,
    second=shift,
    phase=st.floats(0, 1),
    module=st.sampled_from([2.0, 5.0]),
)
def test_gears_in_mesh_never_overlap_and_touch_on_the_line_of_action(
    one, two, first, second, phase, module
):
    assume(sound(one, first) and sound(two, second))
    distance = float(mesh.mesh_centre_distance.formula(module, one, two, first + second))
    shortening = first + second - (distance - module * (one + two) / 2) / module
    tips = [
        float(spurgear.tip_diameter.formula(module, z, x, shortening))
        for z, x in ((one, first), (two, second))
    ]
    assume(mesh.contact_ratio.formula(module, one, two, *tips, distance) > 1.05)
    turn = phase * 2 * np.pi / one
    gears = [
        Polygon(outline.gear_outline(module, z, x, start, tip_diameter=tip, points=160))
        for z, x, start, tip in (
            (one, first, -np.pi / 2 + turn, tips[0]),
            (two, second, np.pi / 2 + np.pi / two - turn * one / two, tips[1]),
        )
    ]
    gears[1] = affinity.translate(gears[1], distance, 0)
    assert all(gear.is_valid for gear in gears)
    assert gears[0].intersection(gears[1]).area < 1e-3 * module**2
    assert gears[0].distance(gears[1]) < 1e-3 * module
    working = np.radians(mesh.working_pressure_angle.formula(module, one, two, distance))
    point = distance * one / (one + two)
    nearest = gears[0].buffer(2e-3 * module).intersection(gears[1].buffer(2e-3 * module))
    lines = [
        LineString(
            [
                (point - 9 * module * np.sin(working), -9 * side * module * np.cos(working)),
                (point + 9 * module * np.sin(working), 9 * side * module * np.cos(working)),
            ]
        )
        for side in (1, -1)
    ]
    places = [part.centroid for part in getattr(nearest, "geoms", [nearest])]
    assert places
    assert min(line.distance(place) for line in lines for place in places) < 0.05 * module


@given(count=st.integers(17, 80), moved=st.floats(0, 0.4), thinning=st.floats(0, 0.2))
def test_base_tangent_measured_on_the_drawn_outline_is_the_formula(count, moved, thinning):
    module = 5.0
    assume(sound(count, moved))
    spanned = int(measuring.base_tangent_teeth(count, moved))
    right = outline.tooth_flank(module, count, moved, thinning=thinning, points=600)
    turned = -(spanned - 1) * np.pi / count
    x = right[:, 0] * np.cos(turned) - right[:, 1] * np.sin(turned)
    # the jaw rests where the involute stands upright: the farthest of the flank's own 600 points
    assert 2 * x[-600:].max() == pytest.approx(
        measuring.base_tangent.formula(module, count, spanned, moved, thinning), abs=2e-3
    )


@given(count=st.integers(12, 80), moved=shift, pitch=st.floats(2, 24))
def test_inches_and_millimetres_are_one_geometry(count, moved, pitch):
    inch, metric = f"{1 / pitch!r} in", f"{25.4 / pitch!r} mm"
    for one, two in (
        (spurgear.tip_diameter(inch, count, moved), spurgear.tip_diameter(metric, count, moved)),
        (
            spurgear.tooth_thickness(inch, count, moved),
            spurgear.tooth_thickness(metric, count, moved),
        ),
        (
            measuring.base_tangent(inch, count, 3, moved),
            measuring.base_tangent(metric, count, 3, moved),
        ),
        (
            measuring.over_pins(inch, count, f"{1.728 / pitch!r} in", moved),
            measuring.over_pins(metric, count, f"{1.728 * 25.4 / pitch!r} mm", moved),
        ),
    ):
        assert one.m_as("mm") == pytest.approx(two.m_as("mm"), rel=1e-9)


@given(st.lists(st.tuples(teeth, shift), min_size=2, max_size=20))
def test_arrays_give_what_scalars_give(gears):
    counts, moved = np.array([one[0] for one in gears]), np.array([one[1] for one in gears])
    for many, one in (
        (
            spurgear.tip_thickness.formula(5.0, counts, moved),
            lambda z, x: spurgear.tip_thickness.formula(5.0, z, x),
        ),
        (
            measuring.over_pins.formula(5.0, counts, 8.64, moved),
            lambda z, x: measuring.over_pins.formula(5.0, z, 8.64, x),
        ),
        (
            toothstrength.form_factors(counts, moved, counts / 2 + 1)[0],
            lambda z, x: toothstrength.form_factors(z, x, z / 2 + 1)[0],
        ),
        (
            formcutter.form_error.formula(5.0, counts),
            lambda z, _x: formcutter.form_error.formula(5.0, z),
        ),
    ):
        assert many == pytest.approx(
            [float(one(int(z), x)) for z, x in zip(counts, moved, strict=True)], rel=1e-9, abs=1e-12
        )


@given(st.floats(1e-7, 2.0))
def test_inverse_involute_comes_back(value):
    assert involute.involute(involute.inverse_involute(value)) == pytest.approx(value, rel=1e-8)


@given(one=teeth, two=teeth, opened=st.floats(0, 0.4), thinning=st.floats(0, 0.3))
def test_backlash_opens_with_the_shafts_and_closes_on_the_ideal_distance(
    one, two, opened, thinning
):
    distance = mesh.mesh_centre_distance.formula(5.0, one, two, 0.2)
    assert mesh.backlash.formula(5.0, one, two, 0.2, distance) == pytest.approx(0, abs=1e-9)
    # opening by a little adds twice that times the tangent of the working angle
    working = np.radians(mesh.working_pressure_angle.formula(5.0, one, two, distance))
    found = mesh.backlash.formula(5.0, one, two, 0.2, distance + opened, thinning)
    assert found == pytest.approx(2 * opened * np.tan(working) + thinning, rel=0.06, abs=0.01)


@given(count=st.integers(15, 60), measured=st.floats(-0.05, 0.3))
def test_thickness_comes_back_from_a_measured_base_tangent(count, measured):
    spanned = int(measuring.base_tangent_teeth(count))
    length = measuring.base_tangent.formula(5.0, count, spanned, 0.0, 0.0) - measured * np.cos(
        np.radians(20)
    )
    assert measuring.thinning_from_base_tangent(length, 5.0, count, spanned) == pytest.approx(
        measured, abs=1e-9
    )
    values = gear_measures.gear_values(5.0, count, thinning=measured, tolerance=0.02)
    assert values["base tangent"].value == pytest.approx(length)
    assert all(one.least <= one.value <= one.most for one in values.values())


def test_undercut_gears_lose_their_flank_near_the_root():
    sharp, safe = outline.tooth_flank(5.0, 10), outline.tooth_flank(5.0, 10, 0.5)
    radius, angle = np.hypot(*sharp.T), np.arctan2(*sharp.T)
    # where the root has dug in, the tooth is narrower below than above
    assert angle[radius < 22.5].min() < angle[np.abs(radius - 23.5).argmin()] + 0.02
    assert np.all(np.diff(np.hypot(*safe.T)) > -1e-6)
    failing = [
        one.name
        for one in Machine(DEMO.with_values({"paths.direct.tooth_counts": [12, 48]})).checks
        if one.verdict == "fails"
    ]
    assert "no undercut" in failing


@pytest.mark.parametrize(
    ("values", "name", "cure"),
    [
        (
            {"paths.direct.tooth_counts": [12, 48]},
            "no undercut",
            {"paths.direct.profile_shift_coefficients": [0.3, -0.3]},
        ),
        (
            {"paths.direct.thinning": "0 mm"},
            "backlash is enough",
            {"paths.direct.thinning": "0.1 mm"},
        ),
        (
            {"housing.centre_distance": "151 mm"},
            "backlash is not too much",
            {"paths.direct.profile_shift_coefficients": [0.1012, 0.1012]},
        ),
        (
            {
                "paths.direct.tooth_counts": [14, 46],
                "paths.direct.profile_shift_coefficients": [1.1, -0.6],
            },
            "tips are not pointed",
            {"paths.direct.profile_shift_coefficients": [0.3, -0.3]},
        ),
        (
            {"housing.idler_pin": "60 mm"},
            "idler's pin clears the direct pair",
            {"housing.idler_pin": "32 mm"},
        ),
        (
            {"housing.wall_distance": "100 mm"},
            "idler stays inside the case",
            {"housing.wall_distance": "131 mm"},
        ),
        (
            {"housing.hub_diameter": "110 mm"},
            "idler clears shafts and hubs",
            {"housing.hub_diameter": "70 mm"},
        ),
    ],
)
def test_each_fault_of_a_gear_is_caught_and_its_cure_cures(values, name, cure):
    found = Machine(DEMO.with_values(values))
    assert name in {one.name for one in found.checks if one.verdict == "fails"}
    again = Machine(DEMO.with_values({**values, **cure}))
    assert name not in {one.name for one in again.checks if one.verdict == "fails"}


def test_idler_forces_balance_and_swap_with_side_and_direction():
    machine = Machine(DEMO)
    above, below = idler.idler_forces(machine, 1.0), idler.idler_forces(machine, -1.0)
    here = (machine.load_cases.clutch == "idler") & (machine.load_cases.load == "mixing")
    forward, reverse = (
        here & (machine.load_cases.direction > 0),
        here & (machine.load_cases.direction < 0),
    )
    assert above[forward] == pytest.approx(below[reverse])
    assert above[reverse] == pytest.approx(below[forward])
    assert above[forward] != pytest.approx(above[reverse])
    assert np.all(idler.idler_forces(machine)[machine.load_cases.clutch != "idler"] == 0)
    # in line, both tangential forces add up and both radial ones cancel: twice the tangential force
    wide = Machine(DEMO.with_values({"housing.centre_distance": "209.9 mm"}))
    force = idler.idler_forces(wide)[
        (wide.load_cases.clutch == "idler") & (wide.load_cases.load == "mixing")
    ]
    tangent = (
        1e3
        * wide.power_flow.torque_into_gear_path[
            (wide.load_cases.clutch == "idler") & (wide.load_cases.load == "mixing")
        ]
        / 55
    )
    assert force == pytest.approx(2 * tangent, rel=0.03)


def test_reversed_bending_halves_nothing_in_a_jam():
    checks = {one.name: one for one in Machine(DEMO).checks if one.part == "direct path"}
    assert checks["teeth do not break while mixing"].capacity == pytest.approx(
        0.7 * 2 * 289 * (3e6 / tooth_loads.life_cycles(Machine(DEMO))) ** 0.16, rel=1e-6
    )
    # a jam comes from one side only, and bends no tooth further than its steel yields: 650 MPa times Y_S
    jam = checks["teeth do not break in a jam"].capacity
    assert 1.5 * 650 < jam < 2.2 * 650


@given(st.integers(12, 400))
def test_exact_indexing_is_whole_holes(count):
    found = bool(indexing.exact(count, 40, SHOP.circles))
    brute = any((40 * holes) % count == 0 for holes in (1, *SHOP.circles))
    assert found == brute


def test_form_error_is_nothing_at_the_start_of_a_range_and_grows():
    for number in range(2, 9):
        fewest = int(formcutter.made_for(number))
        most = int(formcutter.made_for(number - 1)) - 1
        errors = formcutter.form_error.formula(5.0, np.arange(fewest, most + 1))
        assert errors[0] == pytest.approx(0, abs=1e-12)
        assert np.all(np.diff(errors) > 0)
    with pytest.raises(InputError, match="12 or more"):
        formcutter.cutter_number(11)


# --- the dog clutch ---------------------------------------------------------------------------------------------


@given(sleeve=st.floats(5, 120), overlap=st.floats(1, 10), apart=st.floats(60, 160))
def test_both_gears_are_never_held_while_the_neutral_gap_is_open(sleeve, overlap, apart):
    design = DEMO.with_values(
        {
            "clutch.sleeve_length": f"{sleeve} mm",
            "clutch.overlap": f"{overlap} mm",
            "paths.idler.position": f"{35 + apart} mm",
            "housing.plate_spacing": "250 mm",
        }
    )
    at = dogclutch.positions(design)
    # the sleeve's two ends against the two gears' dogs, wherever it stands along its travel
    for moved in np.linspace(-at.travel, at.travel, 41):
        left, right = at.gap + moved, at.gap - moved
        if at.gap > 0:
            assert not (left < 0 and right < 0)
    failing = {one.name for one in Machine(design).of_stage("clutch") if one.verdict == "fails"}
    assert ("neutral gap each side" in failing) == (at.gap < 1 - 1e-9)


def test_clutch_in_gear_has_the_overlap_and_its_far_gap():
    at = dogclutch.positions(DEMO)
    assert at.gap - at.travel == pytest.approx(-DEMO.clutch.overlap)
    assert at.gap + at.travel == pytest.approx(at.other)


@pytest.mark.parametrize(
    ("dogs", "straight", "passes", "turn"),
    [(3, True, 3, 120), (4, False, 8, 90), (5, True, 5, 72), (2, False, 4, 180)],
)
def test_how_dogs_are_milled(dogs, straight, passes, turn):
    found = dogclutch.milling(DEMO.with_values({"clutch.dogs": dogs}))
    assert (found.straight_across, found.passes, found.turn) == (straight, passes, turn)
    assert 0 < found.cutter < DEMO.clutch.inner_diameter


def test_what_a_clutch_is_offered_mends_it():
    weak = DEMO.with_values({"clutch.overlap": "1 mm", "clutch.dogs": 2})
    failing = next(
        one
        for one in Machine(weak).of_stage("clutch")
        if one.name == "pressure on the dogs while mixing"
    )
    assert failing.verdict == "fails"
    overlap = failing.fix[0]["clutch.overlap"]
    again = Machine(weak.with_values({"clutch.overlap": f"{overlap!r} mm"}))
    assert (
        next(one for one in again.of_stage("clutch") if one.name == failing.name).verdict != "fails"
    )
    slow = Machine(DEMO.with_values({"clutch.dogs": 1}))
    assert "wait before the dogs drop in" in {
        one.name for one in slow.checks if one.verdict == "fails"
    }
    long = Machine(DEMO.with_values({"clutch.sleeve_length": "70 mm"}))
    told = next(one for one in long.of_stage("clutch") if one.name == "neutral gap each side")
    length = told.fix[0]["clutch.sleeve_length"]
    assert Machine(DEMO.with_values({"clutch.sleeve_length": f"{length!r} mm"})).verdict != "fails"


def test_key_and_detent_are_checked_with_what_would_do():
    short = DEMO.with_values({"clutch.sleeve_length": "24 mm", "clutch.detent_force": "5 N"})
    failing = {one.part: one for one in Machine(short).of_stage("clutch") if one.verdict == "fails"}
    assert {"feather key", "detent"} <= set(failing)
    force = failing["detent"].fix[0]["clutch.detent_force"]
    again = Machine(short.with_values({"clutch.detent_force": f"{force!r} N"}))
    assert not [
        one for one in again.of_stage("clutch") if one.part == "detent" and one.verdict == "fails"
    ]


def test_a_small_pinion_with_a_large_gear_interferes():
    found = Machine(DEMO.with_values({"paths.direct.tooth_counts": [13, 47]}))
    assert "no interference at the roots" in {
        one.name for one in found.checks if one.verdict == "fails"
    }


# --- the search ---------------------------------------------------------------------------------------------------


JUDGED_BY_SEARCH = (
    "teeth do not break while mixing",
    "teeth surfaces last",
    "teeth surfaces bear a jam",
)


def test_search_strength_is_the_checks_own():
    found = paths.search(DEMO, SHOP)
    for row in (0, len(found.pairs) // 2, len(found.pairs) - 1):
        checks = Machine(DEMO.with_values(found.values(row))).of_stage("gears")
        spares = [one.spare for one in checks if one.name in JUDGED_BY_SEARCH]
        # the torque is that of shafts which turn alike; unlike ends share it by their counts
        ends = found.values(row)["paths.idler.tooth_counts"]
        within = 2e-3 if ends[0] == ends[-1] else 1e-2
        assert found.spare[row] == pytest.approx(min(spares), rel=within)


def gears_hold(design):
    skip = ("tick", "in a jam", "idler's pin does not yield", "backlash")
    return not [
        one
        for one in Machine(design).of_stage("gears", "gear paths")
        if one.verdict == "fails" and not any(word in one.name for word in skip)
    ]


def test_search_offers_just_what_brute_force_finds_good():
    goals = paths.Goals(fewest=18, most=32, modules=(5.0,), largest_shift=0.3)
    found = paths.search(DEMO, SHOP, goals)
    offered = {
        (tuple(found.direct.counts[i]), tuple(found.idler.counts[j])) for i, j in found.pairs
    }
    able = [
        z
        for z in range(18, 33)
        if indexing.exact(z, 40, SHOP.circles) and formcutter.cutter_number(z) in SHOP.cutters[5.0]
    ]
    brute = set()
    for z in able:
        moved = float(mesh.shift_sum.formula(5.0, z, z, 150.0))
        if not abs(moved) / 2 <= 0.3:
            continue
        for ends in able:
            for idle in able:
                values = {
                    "paths.direct.tooth_counts": [z, z],
                    "paths.direct.profile_shift_coefficients": [moved / 2] * 2,
                    "paths.idler.tooth_counts": [ends, idle, ends],
                }
                if gears_hold(DEMO.with_values(values)):
                    brute.add(((z, z), (ends, idle, ends)))
    same = {one for one in offered if one[1][0] == one[1][2]}
    assert same == brute
    assert brute


@pytest.mark.parametrize(
    ("values", "goals", "rule"),
    [
        ({}, {"ratio": 7.3, "tolerance": 0.0001}, "wanted speed of shaft 2"),
        ({"paths.direct.face_width": "1 mm"}, {}, "teeth strong enough"),
        ({"housing.wall_distance": "30 mm"}, {}, "idler inside the case"),
        ({"housing.hub_diameter": "149 mm"}, {}, "idler clears shafts and hubs"),
        ({}, {"modules": (7.0,)}, "form cutter on the shelf"),
    ],
)
def test_an_empty_search_says_which_rule_emptied_it(values, goals, rule):
    found = paths.search(DEMO.with_values(values), SHOP, paths.Goals(**goals))
    assert len(found.pairs) == 0
    assert rule in found.why_empty
    assert sum(found.direct.struck.values()) + len(found.direct.module) == found.direct.looked_at
    assert sum(found.idler.struck.values()) + len(found.idler.module) == found.idler.looked_at


def test_a_pin_that_meets_every_direct_pair_is_said():
    found = paths.search(DEMO.with_values({"housing.idler_pin": "100 mm"}), SHOP)
    assert len(found.pairs) == 0
    assert "idler's pin" in found.why_empty


def test_a_purchase_unlocks_what_it_says():
    found = paths.search(DEMO, SHOP)
    module, number, count = pathsfound.purchases(found)[0]
    shelf = {**SHOP.cutters, module: SHOP.cutters[module] | {number}}
    richer = SHOP.changed(cutters=shelf)
    again = paths.search(DEMO, richer)
    before = sum(one.struck["form cutter on the shelf"] for one in (found.direct, found.idler))
    after = sum(one.struck["form cutter on the shelf"] for one in (again.direct, again.idler))
    assert before - after == count


@pytest.mark.parametrize("order", paths.GOALS)
def test_answers_are_ranked_and_the_front_is_not_beaten(order):
    found = paths.search(DEMO, SHOP, paths.Goals(order=order))
    key = {
        "spare": np.round(-found.spare, 3),
        "size": found.size,
        "smoothness": np.round(-found.smoothness, 3),
    }[order]
    assert np.all(np.diff(key) >= -1e-9)
    for row in found.front():
        assert not np.any(
            (found.spare > found.spare[row] + 1e-12) & (found.size < found.size[row] - 1e-12)
        )


def test_search_refuses_bad_goals():
    with pytest.raises(InputError, match="is not an order"):
        paths.search(DEMO, SHOP, paths.Goals(order="price"))
    with pytest.raises(InputError, match="within 12 to 200"):
        paths.search(DEMO, SHOP, paths.Goals(fewest=5))


# --- the shop file --------------------------------------------------------------------------------------------------

GOOD_SHOP = 'name = "mine"\ndividing_ratio = 40\nplates = [[15, 16]]\nlargest_blank = "200 mm"\n[cutters]\n"5" = [1, 2]\n'


def test_a_good_shop_file_reads(tmp_path):
    path = tmp_path / "shop.toml"
    path.write_text(GOOD_SHOP)
    assert read_workshop(path).cutters == {5.0: frozenset({1, 2})}


@pytest.mark.parametrize(
    ("old", "new", "words"),
    [
        ("dividing_ratio = 40", "dividing_ratio = 0", "dividing_ratio: 0 does not fit"),
        ("dividing_ratio = 40", "divding_ratio = 40", 'nearest is "dividing_ratio"'),
        (
            "[[15, 16]]",
            "[15, 16]",
            "plates: [15, 16] does not fit; at most 20 lists of at most 60 whole numbers from 2 to 500",
        ),
        ('"200 mm"', '"200 kg"', "is a mass; a length is wanted"),
        ('"200 mm"', '"-1 mm"', "out of range"),
        (
            "[[15, 16]]",
            "[[15, 1.5]]",
            "plates: 1.5 in a list does not fit; at most 20 lists of at most 60 whole numbers",
        ),
        (
            "[1, 2]",
            "[1, 9]",
            "cutters.5: 9 in the list does not fit; a list of 0 to 8 whole numbers from 1 to 8",
        ),
        (
            '"5" =',
            '"five" =',
            'cutters.five: "five" does not fit; a plain number in mm is wanted, above 0 mm, at most 25 mm',
        ),
        ('"5" =', '"5.0" = [1]\n"5" =', "cutters.5: 5 is given twice"),
        ('[cutters]\n"5" = [1, 2]', "cutters = 3", "cutters: 3 does not fit; a table [cutters]"),
        ('[cutters]\n"5" = [1, 2]', "", "cutters: missing; a table [cutters] is wanted"),
        ('name = "mine"', "name = 3", "name: 3 does not fit"),
        ('name = "mine"', "name = ", "not a TOML file"),
        ('name = "mine"\n', "", "name: missing"),
    ],
)
def test_a_bad_shop_file_is_said(old, new, words, tmp_path):
    path = tmp_path / "shop.toml"
    assert old in GOOD_SHOP
    path.write_text(GOOD_SHOP.replace(old, new, 1))
    with pytest.raises(InputError) as caught:
        read_workshop(path)
    assert words in str(caught.value)
    with pytest.raises(InputError, match="cannot be read"):
        read_workshop(tmp_path / "none.toml")


@pytest.mark.parametrize(
    ("values", "words"),
    [
        (
            {"paths.direct.profile_shift_coefficients": [0.1]},
            "paths.direct.profile_shift_coefficients: [0.1] does not fit; one number for each",
        ),
        (
            {"paths.direct.material": "cheese"},
            'paths.direct.material: "cheese" is not in the table of gear materials',
        ),
        ({"paths.idler.idler_material": "cheese"}, "paths.idler.idler_material"),
        ({"clutch.material": "cheese"}, "clutch.material"),
        ({"clutch.inner_diameter": "95 mm"}, "clutch.inner_diameter"),
        ({"clutch.overlap": "11 mm"}, "clutch.overlap"),
    ],
)
def test_gears_and_clutch_that_do_not_fit_themselves(values, words):
    with pytest.raises(InputError) as caught:
        DEMO.with_values(values)
    assert any(message.startswith(words) for message in caught.value.messages)
