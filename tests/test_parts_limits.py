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
