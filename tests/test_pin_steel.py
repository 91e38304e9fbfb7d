"""A shear pin's bounds by how its bar was delivered, or by one of its pins broken on purpose."""

from itertools import product
from math import pi, sqrt

import pytest
from fixed import fixed

from mixerkit import Design, Machine
from mixerkit.__main__ import main
from mixerkit.drive import fuses, ladder
from mixerkit.drive.pinsteel import widest

UNTESTED = {"fuse.pin_material": "steel S235JR", "fuse.pin_diameter": "6 mm"}
DEMO = fixed("jammed").with_values({**UNTESTED, "fuse.pin_radius": "60 mm"})
# by hand, one pin of 6 mm at 60 mm: 28.274 mm^2 x 0.8 x 60 mm = 1.35717 N*m for each MPa
EACH = pi / 4 * 6**2 * 0.8 * 0.060
HOLDS, BENDS = "fuse.fuse-holds-at-every-start", "fuse.pins-do-not-bend-at-starts"
BELIEVED, LADDER = "test-of-the-pins-can-be-believed", "nothing-dear-gives-way-in-a-jam"


def check(design, ending):
    (found,) = (one for one in Machine(design).checks if one.id.endswith(ending))
    return found


@pytest.mark.parametrize(
    ("condition", "low", "high", "yields"),
    [("hot rolled", 360, 510, 225), ("bright drawn", 445, 880, 335), ("unknown", 360, 880, 225)],
)
def test_bounds_of_s235_by_its_delivery(condition, low, high, yields):
    # EN 10025-2: 360 to 510 MPa; EN 10277, +C of 5 to 10 mm: 470 to 840, a twentieth wider; unknown: the widest of both
    design = DEMO.with_values({"fuse.pin_condition": condition, "fuse.scatter": 0.3})
    # extremes hold all scatter already: 0.3 changes nothing
    assert fuses.fuse_torques(design) == pytest.approx((low * EACH, high * EACH))
    assert check(design, HOLDS).capacity == pytest.approx(low * EACH)
    assert check(design, LADDER).demand == pytest.approx(high * EACH)
    # bending at starts: shear of the least yield, von Mises
    assert check(design, BENDS).capacity == pytest.approx(yields / sqrt(3) * EACH / 0.8)


def test_a_design_that_says_nothing_of_its_bar_is_taken_at_its_widest():
    lines = DEMO.to_toml().splitlines()
    silent = [one for one in lines if not one.startswith(("pin_condition", "test_"))]
    assert fuses.fuse_torques(Design.parse("\n".join(silent))) == pytest.approx(
        (360 * EACH, 880 * EACH)
    )


TESTED = {
    "fuse.pin_condition": "tested",
    "fuse.test_torque": "600 N*m",
    "fuse.test_pin_diameter": "6 mm",
    "fuse.test_pin_radius": "60 mm",
    "fuse.scatter": 0.1,
}


def test_a_tested_pin_scales_by_area_and_radius():
    # pins of the bar break ten percent either way of a middle: the one tested at 600 N*m may be its strongest,
    # and the weakest 600 x 0.9 / 1.1, or its weakest, and the strongest 600 x 1.1 / 0.9
    assert fuses.fuse_torques(DEMO.with_values(TESTED)) == pytest.approx((490.909091, 733.333333))
    # 6.6 mm is 1.21 of the area, 66 mm 1.1 of the lever: 798.6 N*m, with the same shares of it
    changed = {**TESTED, "fuse.pin_diameter": "6.6 mm", "fuse.pin_radius": "66 mm"}
    assert fuses.fuse_torques(DEMO.with_values(changed)) == pytest.approx((653.4, 976.066667))
    # of two the first carries two thirds of both: 2 x 2/3 x 490.9
    two = DEMO.with_values({**TESTED, "fuse.pins": 2})
    assert fuses.fuse_torques(two) == pytest.approx((654.545455, 1466.666667))


def test_of_a_bar_no_pin_stands_outside_the_bounds_of_any_that_was_tested():
    # middles of bar from weak to strong, the one broken at any place of its scatter
    for middle, tested in product((500, 600, 700), (0.9, 0.97, 1.0, 1.1)):
        broken = {**TESTED, "fuse.test_torque": f"{middle * tested} N*m"}
        least, most = fuses.fuse_torques(DEMO.with_values(broken))
        assert least <= middle * 0.9 + 1e-9
        assert most >= middle * 1.1 - 1e-9


def test_a_limiter_scatters_about_what_it_is_set_to():
    limiter = {"fuse.kind": "torque limiter", "fuse.setting": "600 N*m", "fuse.scatter": 0.1}
    assert fuses.fuse_torques(DEMO.with_values(limiter)) == pytest.approx((540, 660))


@pytest.mark.parametrize(
    ("torque", "verdict"),
    # 0.75 x 360 MPa over 28.274 mm^2 at 60 mm are 458.0 N*m, 0.82 x 880 MPa 1224.1 N*m
    [(457, "fails"), (459, "holds"), (1223, "holds"), (1225, "fails")],
)
def test_a_test_must_be_possible_for_the_steel(torque, verdict):
    found = check(DEMO.with_values({**TESTED, "fuse.test_torque": f"{torque} N*m"}), BELIEVED)
    assert found.verdict == verdict


def test_of_a_test_in_two_planes_each_plane_bears_half():
    twice = {**TESTED, "fuse.planes": 2, "fuse.test_torque": "917 N*m"}
    assert check(DEMO.with_values(twice), BELIEVED).verdict == "holds"
    assert (
        check(DEMO.with_values({**twice, "fuse.test_torque": "915 N*m"}), BELIEVED).verdict
        == "fails"
    )


def test_what_would_narrow_the_bounds_is_said():
    weak = DEMO.with_values({"fuse.pin_diameter": "4 mm", "fuse.pin_condition": "unknown"})
    assert "fuse.test_torque" in check(weak, HOLDS).note
    assert "fuse.pin_condition" in check(weak, BENDS).note


def test_what_is_not_known_is_not_judged_and_cuts_nothing_short():
    # the table has no bronze, and no drawn S235 thicker than 10 mm
    bronze = {"fuse.pin_material": "sintered bronze"}
    thick = {"fuse.pin_condition": "bright drawn", "fuse.pin_diameter": "10.5 mm"}
    untested = {"fuse.pin_condition": "tested"}
    lines = [one for one in DEMO.to_toml().splitlines() if not one.startswith("test_")]
    bare = Design.parse("\n".join(lines))
    for values in ({**bronze, "fuse.pin_condition": "unknown"}, thick, untested):
        machine = Machine(bare.with_values(values))
        for ending in (HOLDS, BENDS, LADDER):
            (one,) = (found for found in machine.checks if found.id.endswith(ending))
            assert not one.judged
        flow = machine.power_flow
        assert flow.jam_torque.max() == flow.jam_torque_without_fuse.max()
        assert not any(one.is_fuse for one in machine.ladder)


def test_a_tested_pin_of_a_steel_without_a_range_is_not_believed_unseen():
    found = check(DEMO.with_values({**TESTED, "fuse.pin_material": "sintered bronze"}), BELIEVED)
    assert not found.judged


def test_the_widest_range_is_that_of_every_row():
    found = widest("steel 1018 cold drawn")
    assert (found.low, found.high, found.yields) == (400, 640, 220)


def test_the_middle_of_a_wanted_fuse_has_room_for_its_bounds():
    # least and most of hot rolled bar stand (510 - 360) / (510 + 360) = 0.17241 off their middle
    machine = Machine(DEMO.with_values({"fuse.pin_condition": "hot rolled"}))
    assert fuses.fuse_spread(machine.spec, "shear pin") == pytest.approx(150 / 870)
    low, _ = ladder.wanted_fuse(machine, list(machine.ladder))
    cases = machine.load_cases
    start = machine.power_flow.torque_at_box_output[cases.starting].max()
    limiter, _ = ladder.wanted_fuse(machine, list(machine.ladder), "torque limiter")
    assert limiter == pytest.approx(1.2 * start / (1 - 0.05))
    # hot rolled bar bends long before it breaks: 435 MPa x 0.8 of the middle against 225 / sqrt(3) MPa
    assert low == pytest.approx(start * 435 * 0.8 / (225 / sqrt(3)))
    assert low > 1.2 * start / (1 - 150 / 870)


def test_an_untested_bar_fails_through_the_command_line(tmp_path, capsys):
    text = (
        fixed("jammed").to_toml().replace('pin_condition = "tested"', 'pin_condition = "unknown"')
    )
    path = tmp_path / "my_mixer.toml"
    path.write_text(text, "utf-8")
    assert main(["check", str(path), "--no-remedies"]) == 1
    said = " ".join(capsys.readouterr().out.split())
    # 1018 bar yields at 220 MPa where it was hot rolled, with a neck of 5.91 mm at 60 mm: 209.1 N*m
    assert "can take 209 N·m" in said
