"""A shaft in plain bushes leans no further than their play lets it: then it touches both ends of one."""

import pytest

from mixerkit import Design, Machine
from mixerkit.__main__ import main

INCH_ROOM = Design.demo("inch_room")
PLAIN = Design.demo().with_values({"bearings.kind": "plain bush"})


def slope(design, number):
    name = f"slope in the bearings of shaft {number}"
    return next(one for one in Machine(design).checks if one.name == name)


@pytest.mark.parametrize(
    ("design", "millimetres", "taken"),
    [
        # f7 begins 25 um below nominal from 30 to 50 mm and H8 at it (ISO 286-2): 0.025/40 = 0.625 mrad
        (PLAIN, 40.0, 0.625),
        (PLAIN, 30.0, 0.8333),
        # 0.025/20 = 1.25 mrad: more than the 1 mrad that is common practice
        (PLAIN, 20.0, 1.0),
        # 1 1/2 in is 38.1 mm: 0.025/38.1
        (INCH_ROOM, 38.1, 0.65617),
    ],
)
def test_the_slope_in_a_bush_is_its_least_play_over_its_length(design, millimetres, taken):
    long = design.with_values({"bearings.bush_length": f"{millimetres} mm"})
    for number in (1, 2):
        assert slope(long, number).capacity == pytest.approx(taken, rel=1e-4)
    rolling = design.with_values({"bearings.kind": "rolling"})
    assert slope(rolling, 1).capacity == pytest.approx(1.0)


def test_bushes_of_the_inch_demo_may_not_be_as_long_as_its_shaft_is_thick(tmp_path, capsys):
    # 0.78 mrad: 0.025/0.00078 = 32 mm at most, 1 1/4 in is 31.75
    long = INCH_ROOM.with_values({"bearings.bush_length": "1 1/2 in"})
    assert slope(long, 2).verdict == "fails"
    assert slope(INCH_ROOM, 2).verdict != "fails"
    path = tmp_path / "mine.toml"
    long.write(path)
    assert main(["check", str(path)]) == 1
    assert 'bearings.bush_length = "1 1/4 in"' in capsys.readouterr().out
    assert main(["set", str(path), 'bearings.bush_length = "1 1/4 in"']) == 0
    assert main(["check", str(path), "--no-remedies"]) == 0


def test_plates_that_tilt_their_bushes_are_left_what_the_shaft_leaves_of_that():
    (plates,) = [one for one in Machine(INCH_ROOM).checks if "square to their shafts" in one.name][
        :1
    ]
    # 0.025/31.75 = 0.787 mrad in all
    assert "0.787" in plates.reason


@pytest.mark.parametrize(
    ("long", "taken", "verdict"),
    # 0.025 mm of least play: over 40 mm 0.625 mrad, over 60 mm 0.4167 mrad, over 20 mm no more than 1 mrad
    [(40.0, 0.625, "holds"), (60.0, 0.41667, "fails"), (20.0, 1.0, "holds")],
)
def test_the_idlers_pin_leans_in_its_bush(long, taken, verdict):
    """About 4304.9 N at 150 of 190 mm on 32 mm: I = pi/64 x 32^4 = 51472 mm^4.

    4304.9 x 150 x 40 x 110 / (3 x 210000 x 51472 x 190) = 0.4611 mrad.
    """
    design = Design.demo().with_values(
        {"bearings.idler_length": f"{long} mm", "housing.idler_pin": "32 mm"}
    )
    (one,) = [one for one in Machine(design).checks if one.name.startswith("idler's pin leans")]
    assert one.demand == pytest.approx(0.4611, abs=2e-4)
    assert one.capacity == pytest.approx(taken, rel=1e-4)
    assert one.verdict == verdict


def test_a_pin_in_the_middle_does_not_lean():
    middle = Design.demo().with_values({"paths.idler.position": "95 mm"})
    (one,) = [one for one in Machine(middle).checks if one.name.startswith("idler's pin leans")]
    assert one.demand == pytest.approx(0.0)
