"""Clay that packs into the gap between tips and wall stays there: it is no room, and it does not ease the load."""

from math import acos, pi, sqrt

import pytest

from mixerkit import Design, Machine
from mixerkit.__main__ import main
from mixerkit.load import trough

DEMO = Design.demo()
NAME = "tips reach the clay at the wall"


def found(gap, name=NAME):
    machine = Machine(DEMO.with_values({"trough.wall_clearance": gap}))
    return next(one for one in machine.checks if one.name == name)


def within(radius):
    """Area in mm^2 up to the tips of 90 mm of two half-rounds 150 mm apart, less two sleeves of 42 mm."""
    # half of the lens that both half-rounds have in common
    lens = radius**2 * acos(75 / radius) - 75 / 2 * sqrt(4 * radius**2 - 150**2)
    return pi * radius**2 - lens + 90 * (150 + 2 * radius) - 2 * pi * 42**2


def test_the_working_volume_ends_at_the_tips_and_a_clean_trough_at_the_wall():
    # over a length of 330 mm
    assert trough.working_volume(DEMO) == pytest.approx(within(90) * 330e-6, rel=1e-3)
    assert trough.clean_volume(DEMO) == pytest.approx(within(95) * 330e-6, rel=1e-3)


def test_a_wider_gap_asks_no_less_torque():
    near, wide = (
        Machine(DEMO.with_values({"trough.wall_clearance": gap})).clay_load
        for gap in ("3 mm", "9 mm")
    )
    assert wide.level == near.level
    assert wide.peak == near.peak


def test_a_small_batch_must_fill_the_gap_before_paddles_bite():
    name = "batch is enough for the paddles to bite"
    assert found("9 mm", name).demand == pytest.approx(0.3 * within(99) * 330e-6, rel=1e-3)
    name = "batch fits below the paddles' tops"
    assert found("9 mm", name).capacity == pytest.approx(0.75 * within(90) * 330e-6, rel=1e-3)


def test_a_gap_of_more_than_a_tenth_of_the_tips_radius_is_refused(tmp_path, capsys):
    assert found("9 mm").verdict == "holds"
    assert found("9.1 mm").verdict == "fails"
    path = tmp_path / "wide.toml"
    path.write_text(DEMO.with_values({"trough.wall_clearance": "30 mm"}).to_toml())
    assert main(["check", str(path)]) == 1
    assert 'would do: trough.wall_clearance = "9 mm"' in capsys.readouterr().out
    assert main(["set", str(path), 'trough.wall_clearance = "9 mm"']) == 0
    capsys.readouterr()
    main(["check", str(path)])
    assert NAME not in capsys.readouterr().out
