"""Sizes with which a machine cannot be built or does not work, each a check that fails."""

import numpy as np
import pytest

from mixerkit import Design, Machine
from mixerkit.explore.mend import mend
from mixerkit.parts import mesh, toothstrength

DEMO = Design.demo("larkfield").with_values(
    {
        # of these the values below were worked by hand: a plain bar on a thin sleeve, and a stronger fuse
        "paddles.width": "30 mm",
        "paddles.thickness": "6 mm",
        "paddles.stem_width": "30 mm",
        "paddles.stem_thickness": "6 mm",
        "paddles.stem_height": "0 mm",
        "paddles.root_radius": "28 mm",
        "sleeve.wall": "5 mm",
        # the middle of its bar 0.8 x 360 MPa over 7 mm at 60 mm, the one broken its weakest: 0.88 of that
        "fuse.pin_diameter": "7 mm",
        "fuse.pin_material": "steel S235JR",
        "fuse.pin_condition": "tested",
        "fuse.test_torque": "585.207656 N*m",
        "fuse.test_pin_diameter": "7 mm",
        "fuse.test_pin_radius": "60 mm",
        "fuse.scatter": 0.12,
    }
)


def found(changes, name, part=None):
    """The one check of that name on the changed demo."""
    rows = [
        one
        for one in Machine(DEMO.with_values(changes)).checks
        if one.name == name and part in (None, one.part)
    ]
    assert len(rows) == 1
    return rows[0]


# half of a face of 40 mm and 1 mm free want 21 mm to either plate; the room is 2 (nearest - 1)
@pytest.mark.parametrize(
    ("changes", "part", "room"),
    [
        ({"housing.plate_spacing": "151 mm"}, "idler path", 2 * (151 - 150 - 1)),
        ({"paths.idler.position": "189 mm"}, "idler path", 2 * (190 - 189 - 1)),
        ({"paths.direct.position": "0.7 mm"}, "direct path", 2 * (0.7 - 1)),
        ({"paths.direct.position": "20.9 mm"}, "direct path", 2 * (20.9 - 1)),
    ],
)
def test_gears_do_not_run_through_the_plates(changes, part, room):
    check = found(changes, "gears turn clear of both plates", part)
    assert check.verdict == "fails"
    assert check.demand == 40
    assert check.capacity == pytest.approx(room, abs=1e-9)
    assert (
        found({f"paths.{part.split()[0]}.position": "21 mm"}, check.name, part).verdict == "holds"
    )


def test_a_bush_longer_than_its_gear_is_what_meets_the_plate():
    # 35 mm from the plate: 68 mm of room
    check = found(
        {"bearings.free_gear_length": "70 mm"}, "gears turn clear of both plates", "direct path"
    )
    assert (check.verdict, check.demand, check.capacity) == ("fails", 70, 68)


def test_a_collar_within_a_seat_is_in_the_way():
    # the bearing at the reducer sits in the middle of a plate of 30 mm: 15 mm before its inside, 6409 is
    # 29 mm wide (ISO 15), so it reaches from -29.5 to -0.5 mm, over the collar from -6 to -2 mm
    steps = {
        "shaft_1.step_at": ["-6 mm", "-2 mm"],
        "shaft_1.step_diameters": ["47 mm", "45 mm"],
    }
    check = found(steps, "everything goes on in some order", "shaft 1")
    assert (check.verdict, check.demand) == ("fails", 47)
    assert 45 <= check.capacity < 45.03
    # a bar without collars does pass
    assert found({}, check.name, "shaft 1").verdict == "holds"


# a blade of 80 mm at 10 degrees, 6 mm thick, is 80 cos 10 + 6 sin 10 = 79.826 mm across where it turns; its
# corners reach the root of 90^2 + 39.913^2 = 98.453 mm, and the wall stands at 90 + 5 = 95 mm
def test_corners_of_a_wide_blade_meet_the_wall():
    check = found(
        {"paddles.width": "80 mm", "paddles.set_angle": "10 deg"},
        "corners of the tips clear the wall",
    )
    assert check.verdict == "fails"
    assert check.demand == pytest.approx(98.453 + 3, abs=1e-3)
    assert check.capacity == 95


# 30 mm at 45 degrees, 6 mm thick: 25.456 mm across, corners at 90.8955 mm
def test_a_wall_as_near_as_the_corners_is_too_near():
    name = "corners of the tips clear the wall"
    check = found({"trough.wall_clearance": "0.5 mm"}, name)
    assert (check.verdict, check.capacity) == ("fails", 90.5)
    assert check.demand == pytest.approx(93.8955, abs=1e-3)
    assert found({"trough.wall_clearance": "3.9 mm"}, name).verdict == "holds"


# the same blade: sleeve 28 mm and 3 mm of gap; 90 + 31 = 121 mm would do for the middle of the tip, and the
# corners of a blade laid flat (80 mm, 0 degrees: 98.489 mm) want 129.489 mm
def test_corners_meet_the_other_sleeve():
    wide = {
        "paddles.width": "80 mm",
        "paddles.set_angle": "0 deg",
        "paddles.root_radius": "54.5 mm",
    }
    check = found(wide, "tips clear the other shaft's sleeve")
    assert check.verdict == "fails"
    assert check.demand == pytest.approx(98.489 + 54.5 + 3, abs=1e-3)


# where the clutch takes hold anywhere two corners meet on the line of the shafts: 200 - 2 x 98.453 = 3.094 mm,
# where the middles of the tips would leave 20 mm; blades of both shafts in one plane
def test_corners_of_two_blades_meet_where_their_tips_do_not():
    check = found(
        {
            "paddles.width": "80 mm",
            "paddles.set_angle": "10 deg",
            "paddles.offset_2": "0 mm",
            "housing.centre_distance": "200 mm",
        },
        "paddles clear each other, both modes, wherever the clutch takes hold",
    )
    assert check.capacity == pytest.approx(3.094, abs=2e-3)


def crossing(play, dogs=1):
    """Both shafts' blades in one plane, which pass each other only while their phase is kept."""
    return {
        "clutch.keeps_phase": True,
        "clutch.dogs": dogs,
        "clutch.angular_play": f"{play} deg",
        "paddles.offset_2": "0 mm",
        "paddles.phase_2": "90 deg",
        "paddles.phase_step": "0 deg",
        "paddles.spacing": "60 mm",
    }


def test_play_of_the_dogs_takes_the_phase_with_it():
    # 1:1 and co-rotating, a quarter turn apart: a blade on the line of the shafts (tip at 90 mm of 150) meets the
    # other standing across it, 25 mm wide; turned by 60 degrees the other reaches 90 cos 30 = 78 mm towards it
    name = "paddles clear each other, co-rotating"
    gaps = [found(crossing(play), name).capacity for play in (1, 12, 60)]
    assert gaps[0] > gaps[1] > gaps[2]
    assert gaps[2] < 0


@pytest.mark.parametrize("dogs", [2, 3])
def test_equal_dogs_do_not_keep_a_phase(dogs):
    name = "dogs drop in at no more angles than the paddles allow"
    check = found({"clutch.keeps_phase": True, "clutch.dogs": dogs}, name)
    assert (check.verdict, check.demand, check.capacity) == ("fails", dogs, 1)
    one = found({"clutch.keeps_phase": True, "clutch.dogs": 1}, name)
    assert one.verdict == found({}, name).verdict == "holds"
    # and the paddles are judged as if they met at any angle: corners overlap by 150 - 2 x 90.8955 in the plane,
    # and along the shafts by all that a blade takes up there, 30 sin 45 + 6 cos 45
    met = found(crossing(6, dogs), "paddles clear each other, co-rotating")
    assert met.capacity == pytest.approx(-25.456, abs=1e-3)


def test_a_single_dog_is_waited_for_a_whole_turn():
    check = found({"clutch.keeps_phase": True, "clutch.dogs": 1}, "wait before the dogs drop in")
    assert (check.verdict, check.demand, check.capacity) == ("holds", 354, 360)


# 24 dogs with 6 deg of play between 60 and 90 mm: 37.5 mm x (pi/24 - 3 deg) = 2.9452 mm thick, 15 mm wide, 10 mm
# high and 8 mm over each other, so that the force stands 6 mm over the root: 6 F x 6 / (15 x 2.9452^2) = 0.27668 F;
# F = T / (37.5 mm x 3), as three bear at once
def test_slender_dogs_bend():
    for when in ("while mixing", "in a jam"):
        changes = {"clutch.dogs": 24, "clutch.angular_play": "6 deg"}
        machine = Machine(DEMO.with_values(changes))
        torque = machine.power_flow.at_gears[1]
        most = torque[
            machine.load_cases.mixing if when == "while mixing" else machine.load_cases.jammed
        ].max()
        check = found(changes, f"bending of the dogs {when}")
        assert check.demand == pytest.approx(0.27668 * most * 1e3 / (37.5 * 3), rel=1e-4)
        thin = found({**changes, "clutch.angular_play": "12 deg"}, check.name)
        assert thin.verdict == "fails"
        assert found({}, check.name).verdict == "holds"


def test_dogs_with_nothing_left_are_not_judged_in_bending_either():
    check = found(
        {"clutch.dogs": 24, "clutch.angular_play": "15 deg"}, "bending of the dogs in a jam"
    )
    assert (check.verdict, check.judged) == ("fails", False)


# thinned 2 mm each, on the distance of their unthinned mesh: 4 mm of backlash; 0.15 x 5 + 0.2 = 0.95 mm at most
def test_backlash_by_thinning_does_not_raise_its_own_limit():
    check = found({"paths.direct.thinning": "2 mm"}, "backlash is not too much", "direct path")
    assert check.verdict == "fails"
    assert check.demand == pytest.approx(4, abs=1e-6)
    assert check.capacity == pytest.approx(0.95)
    assert found({}, check.name, "direct path").verdict == "holds"


# 30 teeth of module 5: 160 mm over, 150 mm reference; 3.687 mm at the tip unthinned (inv 28.24 deg against
# inv 20 deg), less 2 x 160 / 150 = 2.133 mm; of 2.5 mm nothing is left
def test_thinned_teeth_are_pointed():
    check = found({"paths.direct.thinning": "2 mm"}, "tips are not pointed", "direct path")
    assert check.capacity == pytest.approx(3.687 - 2 * 160 / 150, abs=1e-3)
    thin = found(
        {"paths.idler.thinning": "2 mm", "paths.idler.module": "2.5 mm"},
        "tips are not pointed",
        "idler path",
    )
    assert thin.verdict == "fails"


# cut 2 mm thinner means 2 / (2 x 5 x tan 20) = 0.5495 modules deeper: the root of a gear with that much less shift
def test_thinned_teeth_are_weaker():
    name, part = "teeth do not break while mixing", "direct path"
    full, thin = (found({"paths.direct.thinning": one}, name, part) for one in ("0 mm", "2 mm"))
    at = toothstrength.outer_single_contact(5.0, 30, 30, 160.0, 160.0, 150.0) / 5
    forms = [np.prod(toothstrength.form_factors(30, shift, at)) for shift in (0.0, -0.5495)]
    assert thin.demand / full.demand == pytest.approx(forms[1] / forms[0], rel=1e-3)
    assert thin.demand > 1.4 * full.demand


@pytest.mark.parametrize(
    ("field", "little", "enough", "name", "asked"),
    [
        # TIG by hand: 1.5 mm (common practice)
        ("trough.wall_thickness", "0.06 mm", "1.5 mm", "wall is thick enough to weld", 1.5),
        # a bearing 6209 is 19 mm wide (ISO 15)
        ("housing.plate_thickness", "0.4 mm", "29 mm", "thick enough for their bearings", 29),
        # a twenty-fifth of the bore of 45 mm
        (
            "bearings.bush_wall",
            "0.1 mm",
            "1.8 mm",
            "walls are thick enough to press in and ream",
            1.8,
        ),
    ],
)
def test_walls_have_a_least_thickness(field, little, enough, name, asked):
    check = found({field: little}, name)
    assert check.verdict == "fails"
    assert check.demand == pytest.approx(asked)
    assert found({field: enough}, name).verdict == "holds"


# 745 N*m at 170 mm: 4381 N, and 1.2 times that wanted; over a dowel of 0.5 mm (0.19635 mm^2) 22,313 MPa, where
# 345 / root 3 = 199.2 MPa would do; bolts drawn up to 0.75 x 580 MPa, less 0.3 of it, have 304.5 MPa for sure: four
# M8 (36.6 mm^2) 44,579 N, four M10 (58 mm^2) 70,644 N, of which a push of 22,992 N along the shafts takes off its own;
# 0.15 of what is left is 3211 N and 7121 N
def test_dowels_and_bolts_of_the_plates_carry_the_torque_of_a_jam():
    torque = Machine(DEMO).power_flow.torque_at_box_output[Machine(DEMO).load_cases.jammed].max()
    force = torque * 1e3 / 170
    dowels = found({"housing.dowel": "0.5 mm"}, "dowels do not shear in a jam")
    assert dowels.verdict == "fails"
    assert dowels.demand == pytest.approx(force / 0.19635, rel=1e-4)
    assert dowels.capacity == pytest.approx(199.2, abs=0.05)
    bolts = found({"housing.tie_bolt": "M8"}, "tie bolts hold the plates in a jam")
    assert bolts.verdict == "fails"
    assert bolts.demand == pytest.approx(force)
    assert bolts.capacity == pytest.approx(3249, abs=1)
    assert found({"housing.tie_bolt": "M10"}, bolts.name).verdict == "holds"
    assert found({"housing.dowel": "6 mm"}, dowels.name).verdict == "tight"


@pytest.mark.filterwarnings("error")
def test_shafts_upon_each_other_warn_of_nothing():
    # a distance so small that the cosine of the angle overflows
    near = mesh.working_pressure_angle.formula(5.0, 30, 30, np.array([1e-310, 1.0, 150.0]))
    assert np.isnan(near[:2]).all()
    assert near[2] == pytest.approx(20)
    Machine(DEMO.with_values({"housing.centre_distance": "1e-11 mm"}))


def test_steps_are_offered_in_the_unit_the_maker_works_in():
    for system, unit in (("metric", "mm"), ("inch", "in")):
        design = DEMO.with_values(
            {
                "shaft_2.diameter": "20 mm",
                "shaft_2.step_at": ["120 mm", "180 mm"],
                "shaft_2.step_diameters": ["50 mm", "24 mm"],
                "show_units": system,
            }
        )
        texts = [
            text
            for check in Machine(design).checks
            if check.part == "shaft 2"
            for change in check.fix
            if not isinstance(change, str)
            for field in ("shaft_2.step_at", "shaft_2.step_diameters")
            for text in change.get(field, ())
        ]
        assert texts
        assert {text.split()[1] for text in texts} == {unit}


def test_what_is_so_or_not_is_said_in_words():
    check = found(
        {"paddles.material": "steel S235JR"}, "metal leaves no rust or stain in the clay", "paddles"
    )
    assert check.verdict == "fails"
    assert check.shown == ("a stainless metal", "steel S235JR")
    assert "a stainless metal asked against steel S235JR" in check.sentence()
    seal = found({"bearings.seal": DEMO.bearings.seal}, "seal keeps slip from the bearings")
    assert seal.shown == ("a seal that keeps slip out", DEMO.bearings.seal)


@pytest.mark.parametrize(
    ("changes", "name"),
    [
        ({"housing.plate_spacing": "151 mm"}, "gears turn clear of both plates"),
        ({"paths.direct.position": "0.7 mm"}, "gears turn clear of both plates"),
        ({"trough.wall_clearance": "0.5 mm"}, "corners of the tips clear the wall"),
        (
            {"clutch.keeps_phase": True},
            "dogs drop in at no more angles than the paddles allow",
        ),
        (
            {"clutch.dogs": 24, "clutch.angular_play": "12 deg"},
            "bending of the dogs in a jam",
        ),
        (
            {"shaft_1.step_at": ["-6 mm", "-2 mm"], "shaft_1.step_diameters": ["47 mm", "45 mm"]},
            "everything goes on in some order",
        ),
        ({"paths.direct.thinning": "2 mm"}, "backlash is not too much"),
        ({"trough.wall_thickness": "0.06 mm"}, "wall is thick enough to weld"),
        ({"housing.plate_thickness": "0.4 mm"}, "thick enough for their bearings"),
        ({"bearings.bush_wall": "0.1 mm"}, "walls are thick enough to press in and ream"),
        ({"housing.dowel": "0.5 mm"}, "dowels do not shear in a jam"),
        ({"housing.tie_bolt": "M8"}, "tie bolts hold the plates in a jam"),
    ],
)
def test_each_has_a_change_that_mends_it(changes, name):
    spoiled = DEMO.with_values(changes)
    mending = mend(Machine(spoiled))
    key = next(
        one.id for one in Machine(spoiled).checks if one.name == name and one.verdict == "fails"
    )
    assert mending.remedies[key]
    for remedy in mending.remedies[key]:
        mended = Machine(spoiled.with_values(remedy.values))
        assert next(one for one in mended.checks if one.id == key).verdict != "fails"


# idler's bush: 32 + 2 x 5 = 42 mm, H7 0 to 25 um, g6 -25 to -9: 50 um loose; free gears' 45 + 10 = 55 mm, H7 0 to
# 30, g6 -29 to -10: 59 um loose, r6 41 to 60: 11 um tight, but at 42 mm 34 - 25 = 9 um (ISO 286-2)
@pytest.mark.parametrize(
    ("fit", "squeeze"), [("H7/g6", -0.059), ("H7/h6", -0.049), ("H7/r6", 0.009)]
)
def test_a_bush_is_held_by_its_fit(fit, squeeze):
    check = found({"bearings.bush_fit": fit}, "fit holds them")
    assert check.capacity == pytest.approx(squeeze, abs=1e-6)
    assert (check.verdict == "fails") == (squeeze < 0)


def test_no_more_than_three_dogs_bear_at_once():
    # 24 dogs and 3 with the same share of 0.67 would carry 16.1 and 2.01: three do, so 2.01 / 3 of the pressure
    name = "pressure on the dogs in a jam"
    few = found({"clutch.dogs": 3}, name)
    many = found({"clutch.dogs": 24, "clutch.angular_play": "1 deg"}, name)
    assert many.demand == pytest.approx(few.demand * 2.01 / 3, rel=1e-9)
    assert "on 3 dogs of 24" in many.reason
