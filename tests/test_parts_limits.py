"""Sizes with which a machine cannot be built or does not work, each a check that fails."""

import pytest

from mixerkit import Design, assess

DEMO = Design.demo()


def found(changes, name, part=None):
    """The one check of that name on the changed demo."""
    rows = [
        one
        for one in assess(DEMO.with_values(changes)).checks
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
    check = found({"bearings.free_gear_length": "70 mm"}, "gears turn clear of both plates", "direct path")  # fmt: skip
    assert (check.verdict, check.demand, check.capacity) == ("fails", 70, 68)


def test_a_collar_within_a_seat_is_in_the_way():
    # the bearing at the reducer sits in the middle of a plate of 20 mm: 10 mm before its inside, 6209 is
    # 19 mm wide (ISO 15), so it reaches from -19.5 to -0.5 mm, over the collar from -6 to -2 mm
    steps = {
        "shaft_1.step_at": ["-6 mm", "-2 mm"],
        "shaft_1.step_diameters": ["47 mm", "45 mm"],
    }
    check = found(steps, "each seat can be reached over its neighbours", "shaft 1")
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
        "paddles.width": "80 mm", "paddles.set_angle": "0 deg", "paddles.root_radius": "54.5 mm",
    }  # fmt: skip
    check = found(wide, "tips clear the other shaft's sleeve")
    assert check.verdict == "fails"
    assert check.demand == pytest.approx(98.489 + 54.5 + 3, abs=1e-3)


# where the clutch takes hold anywhere two corners meet on the line of the shafts: 200 - 2 x 98.453 = 3.094 mm,
# where the middles of the tips would leave 20 mm; blades of both shafts in one plane
def test_corners_of_two_blades_meet_where_their_tips_do_not():
    check = found(
        {
            "paddles.width": "80 mm", "paddles.set_angle": "10 deg", "paddles.offset_2": "0 mm",
            "housing.centre_distance": "200 mm",
        },
        "paddles clear each other, both modes, wherever the clutch takes hold",
    )  # fmt: skip
    assert check.capacity == pytest.approx(3.094, abs=2e-3)


def crossing(play, dogs=1):
    """Both shafts' blades in one plane, which pass each other only while their phase is kept."""
    return {
        "clutch.keeps_phase": True, "clutch.dogs": dogs, "clutch.angular_play": f"{play} deg", "paddles.offset_2": "0 mm",
        "paddles.phase_2": "90 deg", "paddles.phase_step": "0 deg", "paddles.spacing": "60 mm",
    }  # fmt: skip


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
