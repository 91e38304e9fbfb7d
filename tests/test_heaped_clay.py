"""What a sleeve drags in the clay, and clay that lies heaped on one shaft, by hand."""

import json
from math import acos, pi

import pytest

from mixerkit import Design, Machine
from mixerkit.__main__ import main
from mixerkit.load.paddles import sleeve_drag
from mixerkit.parts.bearing_loads import axial_push

DEMO = Design.demo()


def test_a_sleeve_drags_by_adhesion_on_its_wet_skin():
    # half of 2 pi r^2 l at the level of its middle, 0.5 of 30 kPa on it
    assert sleeve_drag("30 kPa", "40 mm", "300 mm", "0 mm").m == pytest.approx(
        0.5 * 30e3 * pi * 0.04**2 * 0.3
    )
    # all of it where the clay stands over it, none where it does not reach it
    assert sleeve_drag("30 kPa", "40 mm", "300 mm", "90 mm").m == pytest.approx(
        0.5 * 30e3 * 2 * pi * 0.04**2 * 0.3
    )
    assert sleeve_drag("30 kPa", "40 mm", "300 mm", "-50 mm").m == 0
    # half way down the lower half: the arc below it is 120 degrees of 360
    assert sleeve_drag("30 kPa", "40 mm", "300 mm", "-20 mm").m == pytest.approx(
        0.5 * 30e3 * 2 * pi * 0.04**2 * 0.3 * acos(0.5) / pi
    )


def test_the_clay_asks_it_of_the_shaft_on_top_of_the_blades():
    asks = Machine(DEMO).clay_load
    slippery = Machine(DEMO.with_values({"paddles.adhesion": 0.25})).clay_load
    assert asks.sleeve == pytest.approx(2 * slippery.sleeve)
    assert asks.peak - slippery.peak == pytest.approx(asks.sleeve / 2)
    assert asks.peak == pytest.approx(asks.paddles + asks.sleeve)
    assert asks.sleeve > 20


def test_heaped_clay_stands_as_high_as_a_larger_batch_level():
    # 65 % of 15 kg on one shaft stand as half of 19.5 kg do, and 35 % as half of 10.5 kg
    asks = Machine(DEMO).clay_load
    for mass, peak in (("19.5 kg", asks.heaped), ("10.5 kg", asks.beside)):
        level = Machine(DEMO.with_values({"batch.mass": mass})).clay_load
        assert peak == pytest.approx(level.peak)
    larger = Machine(DEMO.with_values({"batch.mass": "19.5 kg"})).clay_load
    assert asks.heaped_blades == pytest.approx(larger.buried.sum(axis=1).max())
    assert axial_push(Machine(DEMO)) == pytest.approx(asks.push * asks.heaped_blades)


def mixing(design, which):
    machine = Machine(design)
    case = machine.load_cases.names.index(f"co-rotating, forward, mixing{which}")
    return machine.clay_load, [float(one[case]) for one in machine.power_flow.paddles]


def test_the_heavier_shaft_bears_its_share_or_what_is_heaped_on_it_the_worse():
    # 0.6 of both is less than what the heap asks of one shaft; that and the other's are the whole
    heap = {"batch.heavier_share": 0.6, "batch.heaped_share": 0.65}
    asks, (first, second) = mixing(DEMO.with_values(heap), ", shaft 1 heavier")
    assert asks.heaped > 0.6 * 2 * asks.peak
    assert first == pytest.approx(asks.heaped)
    assert first + second == pytest.approx(max(2 * asks.peak, asks.heaped + asks.beside))
    # 0.9 of both is more than a heap of little more than half asks
    share = {"batch.heavier_share": 0.9, "batch.heaped_share": 0.55}
    asks, (first, second) = mixing(DEMO.with_values(share), ", shaft 2 heavier")
    assert second == pytest.approx(0.9 * 2 * asks.peak)
    # level clay asks both alike
    asks, (first, second) = mixing(DEMO, "")
    assert first == pytest.approx(asks.peak)
    assert second == pytest.approx(asks.peak)


def test_clay_that_is_set_moving_may_lie_heaped_too():
    machine = Machine(DEMO.with_values({"batch.mass": "14 kg"}))
    asks = machine.clay_load
    # the heap asks more of one shaft than it spares the other: 1.5 times that to start
    assert asks.heaped + asks.beside > 2 * asks.peak
    for number in (1, 2):
        case = machine.load_cases.names.index(
            f"co-rotating, forward, starting, shaft {number} heavier"
        )
        paddles = [float(one[case]) for one in machine.power_flow.paddles]
        assert sum(paddles) == pytest.approx(1.5 * (asks.heaped + asks.beside))
        # one shaft bears 0.65 of what both ask level, or what is heaped on it, and the other the rest
        one = max(0.65 * 2 * asks.peak, asks.heaped)
        assert paddles[number - 1] == pytest.approx(1.5 * one)
    level = machine.load_cases.names.index("co-rotating, forward, starting")
    assert [float(one[level]) for one in machine.power_flow.paddles] == pytest.approx(
        [1.5 * asks.peak] * 2
    )


def test_a_shaft_turned_about_bears_a_heap_that_it_sets_moving():
    # by hand: the demo's clay level asks 87.0 N m of a shaft; 0.65 of both are 113.1, set moving 1.5 times that
    machine = Machine(DEMO)
    case = machine.index("idler", -1, "starting, shaft 2 heavier")
    assert machine.power_flow.paddles[1][case] == pytest.approx(169.6, rel=2e-3)
    (check,) = (
        one
        for one in machine.checks
        if one.id == "shafts.shaft-2.diameter-for-fatigue-by-turning-about"
    )
    assert "starting, shaft 2 heavier" in check.state


def test_the_report_and_a_changed_file_say_it(tmp_path, capsys):
    path = tmp_path / "my_mixer.toml"

    def asked(share):
        values = {"batch.heaped_share": share}
        path.write_text(DEMO.with_values(values).to_toml(), "utf-8")
        main(["check", str(path), "--json", "--no-remedies"])
        checks = json.loads(capsys.readouterr().out)["checks"]
        (one,) = (each for each in checks if each["id"] == "motor.motor.torque-while-mixing")
        return one["asked"]

    # all of it on one shaft asks more of the motor than level clay
    assert asked(1.0) > asked(0.5)
