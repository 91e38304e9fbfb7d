"""What a jam leaves wound up behind a box, and how it is let off, by hand."""

import json

import numpy as np
import pytest
from fixed import fixed

from mixerkit import Machine
from mixerkit.__main__ import main
from mixerkit.drive import backdriving
from mixerkit.show.panels.jam import says

DEMO = fixed("jammed")
LET_OFF = "jam.reduction-box.its-wind-up-can-be-let-off"
# 1.5 kW at 1440 rpm: 9.947 N*m, of which a motor at rest may take a twentieth
DRAG = 0.05 * 1500 / (1440 * 2 * np.pi / 60)
JAM = 545 * 1.05
"""Most of the demo's fuse in N*m."""


def check(design):
    (found,) = (one for one in Machine(design).checks if one.id == LET_OFF)
    return found


@pytest.mark.parametrize(
    ("eta", "back"), [(0.75, 2 / 3), (0.5, 0.0), (0.45, -2 / 9), (0.4, -0.5), (1.0, 1.0)]
)
def test_efficiency_backwards_of_a_worm(eta, back):
    assert backdriving.efficiency_backwards(eta) == pytest.approx(back)


def test_a_box_that_drives_back_keeps_what_the_motor_holds():
    # 60 x 0.497 N*m at the fast end, over two thirds
    found = backdriving.stays(Machine(DEMO))
    assert found.max() == pytest.approx(60 * DRAG / (2 / 3))
    # a jam of less is kept whole
    assert backdriving.torque_kept("30 N*m", "0.5 N*m", 60, 0.75).m == 30


@pytest.mark.parametrize("eta", [0.5, 0.4])
def test_a_box_that_holds_keeps_all_of_a_jam(eta):
    machine = Machine(DEMO.with_values({"reducer.start_efficiency": eta}))
    assert backdriving.stays(machine).max() == pytest.approx(JAM)


def test_never_better_at_rest_than_while_it_turns():
    machine = Machine(
        DEMO.with_values({"reducer.start_efficiency": 0.9, "reducer.efficiency": 0.4})
    )
    assert backdriving.stays(machine).max() == pytest.approx(JAM)


def test_the_fork_pulls_against_what_stays():
    # clutch on shaft 1, jam on shaft 2: all of it goes through dogs of 37.5 mm and a feather in 45 mm
    weak = DEMO.with_values({"motor.jacking_torque": "0 N*m"})
    found = check(weak)
    force = 0.12 * 60 * DRAG / (2 / 3) * (1 / 0.0375 + 2 / 0.045)
    assert found.demand == pytest.approx(force)
    assert (found.capacity, found.verdict) == (250, "fails")
    # it names what would be enough at the fan end, and at the fork; each does
    by_fan, by_fork = found.fix[:2]
    assert by_fan["motor.jacking_torque"] == pytest.approx(DRAG)
    assert by_fork["clutch.fork_force"] == pytest.approx(force)
    for values in ({"motor.jacking_torque": "1 N*m"}, {"clutch.fork_force": "383 N"}):
        assert check(weak.with_values(values)).verdict != "fails"


def test_a_box_that_holds_is_turned_back_at_the_fan_end():
    held = DEMO.with_values({"reducer.start_efficiency": 0.4})
    found = check(held)
    # 1 / 0.4 - 2 = 0.5 of 572.25 / 60, and the motor's own drag
    assert found.demand == pytest.approx(DRAG + JAM / 60 * 0.5)
    assert (found.capacity, found.unit) == (10, "N*m")
    assert found.verdict == "holds"
    assert check(held.with_values({"motor.jacking_torque": "5 N*m"})).verdict == "fails"
    # a strong fork is a way too: 0.12 x 572.25 x 71.1 per metre
    force = 0.12 * JAM * (1 / 0.0375 + 2 / 0.045)
    strong = check(
        held.with_values({"motor.jacking_torque": "1 N*m", "clutch.fork_force": "5000 N"})
    )
    assert strong.demand == pytest.approx(force)
    assert strong.verdict != "fails"


def test_panel_and_reason_say_what_stays_and_what_to_beware_of():
    held = Machine(DEMO.with_values({"reducer.start_efficiency": 0.4}))
    for words in (says(held), check(held.design).reason):
        assert "cannot be driven back" in words
        assert "572 N·m" in words
        assert "jacking point at the motor's fan end lets it off" in words
        assert "lock out the supply, stand clear" in words
    assert "is driven back until" in says(Machine(DEMO))
    none = Machine(DEMO.with_values({"motor.jacking_torque": "0 N*m"}))
    assert "would let it off" in says(none)


def test_a_machine_without_a_jacking_point_fails_through_the_command_line(tmp_path, capsys):
    lines = DEMO.to_toml().splitlines()
    text = "\n".join(one for one in lines if not one.startswith("jacking_torque"))
    path = tmp_path / "my_mixer.toml"
    path.write_text(text, "utf-8")
    assert main(["check", str(path), "--json", "--no-remedies"]) == 1
    checks = json.loads(capsys.readouterr().out)["checks"]
    (found,) = (one for one in checks if one["id"] == LET_OFF)
    assert found["verdict"] == "fails"
