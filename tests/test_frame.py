"""Walls and frame: plates under the push, bores, the trough's sheet, bolts, feet; each by a sum done by hand."""

import json
import math
from itertools import pairwise

import numpy as np
import pytest
from fixed import fixed

from mixerkit import Design, Machine
from mixerkit.__main__ import main
from mixerkit.load.trough_sheet import Sheet, sheet
from mixerkit.parts import beam
from mixerkit.parts.bolts import bolt_endurance, drawn, joint_constant
from mixerkit.parts.feet import standing
from mixerkit.parts.frame_layout import hole_factor
from mixerkit.parts.frame_plate import PushedPlate

DEMO = fixed("framed")
DEMOS = ["larkfield", "inch_room", "thin_shaft", "too_stiff"]


def found(values, key, design=DEMO):
    """The one check of the frame whose id holds a key."""
    (one,) = [
        check
        for check in Machine(design.with_values(values)).checks
        if check.stage == "frame" and key in check.id
    ]
    return one


def test_a_hole_in_a_bent_plate():
    # d/t = 0: 1.79 + 0.25/0.39 + 0.81 - 0.26 = 2.98; without end: 1.79
    assert hole_factor("0.001 mm", "20 mm").m == pytest.approx(2.981, abs=2e-3)
    assert hole_factor("1 m", "0.1 mm").m == pytest.approx(1.79, abs=1e-3)


def test_a_plate_on_four_bolts_by_statics():
    plate = PushedPlate.of(Machine(DEMO))
    # 150 + 2*170 = 490 wide, 340 high, bolts 25 from the edges: 440 and 290 apart; bores of 85 for 45 mm bearings
    assert (plate.level, plate.upright, plate.lever) == (490 - 170, 340 - 85, 170 - 25)
    level, upright = plate.stresses(np.array([1000.0]), np.array([0.0]))
    # K(85/20) = 1.79 + 0.25/4.64 + 0.81/19.0625 - 0.26/77.766 = 1.8830
    # level cut: 1000*290/4 = 72500 N*mm; 1.8830*6*72500/(320*400) = 6.400
    assert level == pytest.approx(6.400, abs=2e-3)
    # upright cut: 145*1000*295/440 = 97216 N*mm; 1.8830*6*97216/(255*400) = 10.768
    assert upright == pytest.approx(10.768, abs=2e-3)
    # both alike: 145*1000 = 145000 N*mm
    assert plate.moments(1000.0, 1000.0)[1] == pytest.approx(145_000)
    # 6*1000*145*150/(210000*255*20**3) = 3.0462e-4
    assert plate.tilt(1000.0) == pytest.approx(3.0462e-4, rel=1e-4)


def test_the_tilt_of_a_plate_is_that_of_the_beam_solved():
    """Bolts as supports of a beam, both shafts pushing on it, by the kit's own solver."""
    places = np.array([0.0, 145.0, 295.0, 440.0])
    stiff = np.full(3, 210e3 * 255 * 20**3 / 12)
    solved = beam.solve(places, stiff, np.array([[0, 1000.0, 1000.0, 0]]), np.array([0, 3]))
    assert abs(solved.slope[0, 1]) == pytest.approx(PushedPlate.of(Machine(DEMO)).tilt(1000.0))
    assert abs(solved.moment_left[0, 1]) == pytest.approx(145_000)


def test_a_far_wall_that_takes_the_push_is_a_cantilever():
    machine = Machine(DEMO.with_values({"bearings.locating": 3}))
    plate = PushedPlate.of(machine)
    # 1000 N at 750 mm: 750000 N*mm on 320 mm of metal, K(85/20) = 1.8830: 1.8830*6*750000/(320*400) = 66.20
    assert plate.stresses(1000.0, 0.0)[0] == pytest.approx(66.20, abs=0.02)
    # 2*1000*750**2/(2*E*I), I = 320*20**3/12 = 213333: 562.5e6/(210000*213333) = 0.012556
    assert plate.tilt(1000.0) == pytest.approx(0.012556, rel=1e-4)
    parts = {one.part for one in machine.checks if one.stage == "frame"}
    assert "far wall" in parts
    assert "tie bolts" not in parts


def test_pressure_in_a_bore_is_force_over_its_projected_area():
    one = found({}, "pressed-out-of-round")
    machine = Machine(DEMO)
    most = max(
        line.stopped.reaction[..., place].max() for line in machine.shaft_beams for place in (0, 1)
    )
    # bearing of 45 mm: outside 85, width 19, which is less than the plate's 20
    assert one.demand == pytest.approx(most / (85 * 19))
    thin = found({"housing.plate_thickness": "10 mm"}, "pressed-out-of-round")
    assert thin.demand > 1.8 * one.demand


def test_a_wide_bearing_wants_a_boss():
    name = "far-wall.thick-enough"
    assert found({"frame.wall_thickness": "10 mm"}, name).verdict == "fails"
    assert found({"frame.wall_thickness": "10 mm", "frame.boss_length": "25 mm"}, name).spare == (
        pytest.approx(25 / 19)
    )


def test_a_thick_far_wall_takes_room_from_the_seals():
    def room(values):
        (one,) = [
            check
            for check in Machine(DEMO.with_values(values)).checks
            if check.id == "bearings.seals.room-for-seal-and-open-gap"
        ]
        return one.capacity

    # half of 30 mm instead of half of the plate's 20 mm
    assert room({"frame.wall_thickness": "30 mm"}) == pytest.approx(room({}) - 5)
    assert room({"frame.boss_length": "40 mm"}) == pytest.approx(room({}) - 10)


def test_a_plate_that_its_bores_use_up_is_not_judged():
    one = found({"housing.wall_distance": "24 mm"}, "plates.do-not-bend")
    assert not one.judged
    assert one.verdict == "fails"


def test_a_strip_under_patch_and_pressure():
    walls = Sheet(
        span=150.0,
        thickness=3.0,
        force=400.0,
        patch=10.0,
        pressure=0.004,
        height=200.0,
        width=400.0,
        push=1600.0,
        yields=190.0,
        modulus=200e3,
    )
    # 3*400/(2*pi*9) = 21.221; 2*150/(pi*10) = 9.5493, its log 2.2565; 21.221*(1.3*2.2565 + 1) = 83.47
    # and 0.75*0.004*150**2/9 = 7.5
    assert walls.side == pytest.approx(83.47 + 7.5, abs=0.01)
    # 0.1851*400*22500/(2e5*27) = 0.30850; 0.1421*0.004*150**4/(2e5*27) = 0.05329
    assert walls.gives == pytest.approx(0.30850 + 0.05329, abs=1e-4)
    # 1600/(400*200) = 0.02, with the weight 0.024; 0.75*0.024*200**2/9 = 80
    assert walls.end == pytest.approx(80.0)


def test_what_presses_on_the_sheet():
    machine = Machine(DEMO)
    walls = sheet(machine)
    assert walls.span == 330 / 4
    assert walls.force == pytest.approx(1.5 * machine.clay_load.force)
    # 95 + 90 mm of clay; (1 + 0.26)*2650/(1 + 0.26*2.65) = 1976.6 kg/m3; *9.80665*0.185 = 3586 Pa
    assert 1e6 * walls.pressure == pytest.approx(3586, rel=1e-3)
    assert sheet(Machine(DEMO.with_values({"frame.ribs": 0}))).span == 330


def test_a_bolt_drawn_up():
    bolt = drawn(DEMO.frame, "M12")
    # 0.75*580*84.3 = 36670.5 N; 0.7 of it, 1.3 of it; 640*84.3 - 47671.65
    assert bolt.least == pytest.approx(25669.35)
    assert bolt.room == pytest.approx(53952 - 47671.65)
    # k_b/E = pi*144/120 = 3.7699; k_m/E = 0.5774*pi*12/(2*ln(5*23.322/47.322)) = 21.767/1.8035 = 12.069
    assert joint_constant("12 mm", "30 mm").m == pytest.approx(3.7699 / (3.7699 + 12.069), rel=1e-3)
    assert bolt_endurance("10 mm").m_as("MPa") == pytest.approx(0.85 * 60)


def test_tie_bolts_share_the_push_by_statics():
    one = found({}, "tie-bolts.joint-does-not-part")
    thrust = [given[1] for given in one.working[0].given if given[0] in ("W", "W_0")]
    # two bolts beside the harder pushed shaft: (W*295 + W_0*145)/(2*440)
    assert one.demand == pytest.approx((thrust[0] * 295 + thrust[1] * 145) / 880)
    assert thrust[0] > 10_000


def test_the_push_takes_grip_off_the_tie_bolts():
    design = Machine(DEMO)
    key = "tie-bolts-hold-the-plates"
    (one,) = [check for check in design.checks if key in check.id]
    # a shaft in a jam pushes 10876.8 N, the other 721.4 N with all its paddles: 0.15*(4*25669.35 - 11598.2) = 13661.9
    assert one.capacity == pytest.approx(13_661.9, abs=1)


def test_the_arms_anchor_by_hand():
    machine = Machine(DEMO)
    jam = float(np.abs(machine.power_flow.torque_at_box_output).max())
    # 531.75/0.25 = 2127 N; two bolts of M12, 0.15*2*25669.35 = 7700.8
    slips = found({}, "does-not-slip")
    assert slips.demand == pytest.approx(jam / 0.25)
    assert slips.capacity == pytest.approx(7700.8, abs=0.1)
    # 60 mm up, 60 mm apart, one bolt pulled: all of it
    assert found({}, "anchor.joint-does-not-part").demand == pytest.approx(jam / 0.25)
    four = {"frame.arm_bolts": 4, "frame.arm_bolt_pitch": "120 mm"}
    assert found(four, "anchor.joint-does-not-part").demand == pytest.approx(jam / 0.25 / 4)


def test_bolts_drawn_up_beyond_their_yield_fail():
    # 0.9*1.3*580 = 679 MPa against 640
    one = found({"frame.preload_share": 0.9}, "tie-bolts.bolts-do-not-stretch")
    assert one.verdict == "fails"
    assert "preload_share" in one.note


def test_standing_with_a_weighed_mass():
    held = standing(Machine(DEMO.with_values({"frame.mass": "120 kg"})))
    # 120*9.80665*0.325 = 382.46; push 200*0.95 = 190, the edge 75 + 90 + 5 + 3 = 173 mm lies within 325 mm
    assert held.keeps[0] == pytest.approx(382.46, abs=0.01)
    assert held.tips[0] == pytest.approx(190.0)
    narrow = standing(Machine(DEMO.with_values({"frame.foot_width": "100 mm"})))
    # 123 mm out: 2*15*9.80665*0.123 = 36.187; box 25 mm out: 38*9.80665*0.025 = 9.316
    assert narrow.tips[0] == pytest.approx(190 + 36.187 + 9.316, abs=0.01)


def test_feet_short_of_the_box_let_it_tip_the_machine():
    short = standing(Machine(DEMO.with_values({"frame.foot_length": "610 mm"})))
    # feet under the plate's middle, 10 mm out; box 90 mm out: 38*9.80665*0.08 = 29.81
    assert short.box[1] == pytest.approx(29.81, abs=0.01)
    assert standing(Machine(DEMO)).box[1] == 0


def test_unknown_masses_do_not_hold_it_down():
    held = standing(Machine(DEMO))
    # plates and wall: (490*340 - pi/4*(2*85**2 + 32**2 + 4*13.5**2 + 2*10**2))*20*7.85e-6 = 24.13 kg each
    area = 490 * 340 - math.pi / 4 * (2 * 85**2 + 32**2 + 4 * 13.5**2 + 2 * 10**2)
    three = 3 * area * 20 * 7.85e-6
    assert three < held.mass < three + 40
    assert three == pytest.approx(72.40, abs=0.01)


def test_an_arm_on_the_floor_lets_the_whole_torque_tip_it():
    inside = found({}, "stands-against-the-torque")
    floor = found({"frame.arm_held_by": "floor"}, "stands-against-the-torque")
    jam = float(np.abs(Machine(DEMO).power_flow.torque_at_box_output).max())
    assert floor.demand == pytest.approx(jam)
    assert floor.verdict == "fails"
    assert inside.demand == pytest.approx(jam / 60)


def test_feet_that_are_held_hold_no_more_than_floor_and_bolt():
    bare, held = (
        standing(Machine(DEMO.with_values({"frame.foot_hold": f"{one} N"}))) for one in (0, 1000)
    )
    # two feet of 1000 N at 0.65 m
    assert held.keeps[0] - bare.keeps[0] == pytest.approx(1300)
    most = standing(Machine(DEMO.with_values({"frame.foot_hold": "90000 N"})))
    assert most.held == pytest.approx(25669.35)


def spares(values):
    return {
        one.id: one.spare
        for one in Machine(DEMO.with_values(values)).checks
        if one.stage == "frame"
    }


@pytest.mark.parametrize(
    ("field", "sizes", "of"),
    [
        ("housing.plate_thickness", ["4 mm", "6 mm", "10 mm", "20 mm", "30 mm"], "plates."),
        ("housing.plate_thickness", ["4 mm", "6 mm", "10 mm", "20 mm", "30 mm"], "bores."),
        ("frame.wall_thickness", ["4 mm", "10 mm", "20 mm", "40 mm"], "far-wall."),
        ("trough.wall_thickness", ["0.5 mm", "1 mm", "2 mm", "3 mm", "30 mm"], "trough."),
        ("frame.ribs", [0, 1, 2, 3, 10, 60], "trough."),
        ("housing.tie_bolt", ["M6", "M8", "M10", "M12", "M16", "M20"], "tie-bolts."),
        ("frame.arm_bolt", ["M6", "M8", "M10", "M12", "M16", "M20"], "torque-arms-anchor.does"),
        ("frame.arm_bolts", [2, 3, 4, 6, 12], "torque-arms-anchor."),
        ("frame.foot_width", ["100 mm", "300 mm", "650 mm", "1500 mm"], "feet."),
        ("frame.foot_length", ["300 mm", "610 mm", "800 mm", "1500 mm"], "feet."),
    ],
)
def test_more_is_never_worse(field, sizes, of):
    rows = [spares({field: one}) for one in sizes]
    names = [key for key in rows[0] if key.startswith(f"frame.{of}")]
    assert names
    for key in names:
        assert all(a[key] <= b[key] * (1 + 1e-12) for a, b in pairwise(rows)), key


def test_the_thinnest_and_the_thickest_differ():
    for field, low, high, key in (
        (
            "housing.plate_thickness",
            "6 mm",
            "20 mm",
            "frame.plates.do-not-bend-under-the-push-in-a-jam",
        ),
        (
            "trough.wall_thickness",
            "0.5 mm",
            "3 mm",
            "frame.trough.its-sides-do-not-bend-under-paddles-and-clay",
        ),
    ):
        thin, thick = spares({field: low})[key], spares({field: high})[key]
        assert thin < 1 < thick


@pytest.mark.parametrize(
    ("line", "thin", "failing"),
    [
        (
            'plate_thickness = "20 mm"',
            'plate_thickness = "6 mm"',
            {
                "bearings.plates.thick-enough-for-their-bearings",
                "frame.plates.do-not-bend-under-the-push-in-a-jam",
            },
        ),
        (
            'wall_thickness = "3 mm"',
            'wall_thickness = "0.5 mm"',
            {
                "trough.trough.wall-is-thick-enough-to-weld",
                "frame.trough.its-sides-do-not-bend-under-paddles-and-clay",
                "frame.trough.its-sides-keep-the-gap-to-the-paddles",
                "frame.trough.its-ends-do-not-bend-under-the-push-along-the-shafts",
            },
        ),
        (
            'wall_thickness = "20 mm"',
            'wall_thickness = "6 mm"',
            {"frame.far-wall.thick-enough-for-its-bearings"},
        ),
    ],
)
def test_thin_metal_is_refused_on_the_command_line(line, thin, failing, tmp_path, capsys):
    path = tmp_path / "my_mixer.toml"
    text = DEMO.to_toml()
    assert text.count(line) == 1
    path.write_text(text.replace(line, thin))
    assert main(["check", str(path), "--json", "--no-remedies"]) == 1
    checks = json.loads(capsys.readouterr().out)["checks"]
    assert {one["id"] for one in checks if one["verdict"] == "fails"} >= failing


def test_a_file_without_the_table_is_read_and_judged_on_the_hurting_side():
    text = DEMO.to_toml()
    start = text.index("[frame]")
    bare = Design.parse(text[:start] + text[text.index("[fuse]") :])
    assert bare.frame.arm_held_by == "floor"
    assert bare.frame.ribs == 0

    def failing(design):
        return {one.part for one in Machine(design).checks if one.verdict == "fails"}

    assert failing(bare) - failing(DEMO) == {"feet", "trough"}


@pytest.mark.parametrize("name", DEMOS)
def test_a_demo_is_not_broken_by_its_frame(name):
    fails = {
        one.part
        for one in Machine(Design.demo(name)).checks
        if one.stage == "frame" and one.verdict == "fails"
    }
    # leather-hard clay is too stiff for the trough's sheet as for all else; shafts that slope more than their
    # bearings take leave the plates nothing
    assert fails == {"too_stiff": {"trough", "plates"}, "thin_shaft": {"plates"}}.get(name, set())


def test_what_keeps_the_bearings_in_line_is_said():
    assert "in line" in found({}, "bores-stay-square").reason


def test_a_shaft_takes_its_share_of_what_the_bearings_allow():
    machine = Machine(DEMO)
    slopes = [line.mixing_sag[1].slope[..., line.supports[1]].max() for line in machine.shaft_beams]
    assert found({}, "bores-stay-square").capacity == pytest.approx(1.0 - 1e3 * max(slopes))


def test_a_shaft_that_slopes_too_far_leaves_its_plate_nothing_and_no_plate_is_offered():
    square = found({"shaft_2.diameter": "27 mm"}, "bores-stay-square")
    assert (square.verdict, square.capacity) == ("fails", 0.0)
    assert square.fix
    assert not [one for one in square.fix if "housing.plate_thickness" in one]


@pytest.mark.parametrize(
    ("values", "key"),
    [
        ({"housing.plate_thickness": "10 mm"}, "plates.do-not-bend"),
        ({"frame.wall_thickness": "10 mm"}, "far-wall.thick-enough"),
        ({"frame.ribs": 0}, "trough.its-sides-keep-the-gap"),
        ({"frame.arm_bolt": "M3"}, "anchor.does-not-slip"),
        ({"housing.tie_bolt": "M8"}, "tie-bolts.bolts-do-not-stretch"),
        ({"frame.arm_held_by": "floor"}, "stands-against-the-torque"),
    ],
)
def test_one_of_the_changes_named_first_mends_it(values, key):
    one = found(values, key)
    assert one.verdict == "fails"
    first = next(change for change in one.fix if not isinstance(change, str))
    exactly = {
        field: f"{size + 1e-6} mm" if isinstance(size, float) and "bolts" not in field else size
        for field, size in first.items()
    }
    if "frame.arm_bolts" in exactly:
        exactly["frame.arm_bolts"] = math.ceil(exactly["frame.arm_bolts"])
    assert found({**values, **exactly}, key).verdict != "fails"


def test_the_side_that_a_box_hangs_over_governs_though_another_is_kept_by_less():
    """Short rails and a box far out: it tips over the feet at the reducer, not sideways on narrow feet."""
    values = {
        "frame.foot_length": "450 mm",
        "frame.foot_width": "250 mm",
        "frame.mass": "60 kg",
        "reducer.overhang": "250 mm",
    }
    machine = Machine(Design.demo().with_values(values))
    stands = standing(machine)
    assert stands.keeps[0] < stands.keeps[1]
    (check,) = [one for one in machine.of_stage("frame") if one.name.endswith("torque of the box")]
    torque = np.abs(machine.power_flow.torque_at_box_output).max() / machine.spec.reducer.ratio
    assert check.demand == pytest.approx(torque + stands.box[1])
    assert check.capacity == pytest.approx(stands.keeps[1])
    assert check.verdict == "fails"


def test_a_boss_on_sheet_does_not_make_a_far_wall_of_it():
    # the bearing is 19 mm wide (series 62 of ISO 15, bore 45 mm); bosses 30 mm long hold it on 8 mm, the thinnest
    # plate in which a bore stays square (common practice), and on 7.5 mm and on sheet of 0.5 mm they do not
    name = "far-wall.thick-enough"
    for wall, spare in (("8 mm", 30 / 19), ("7.5 mm", 7.5 / 19), ("0.5 mm", 0.5 / 19)):
        one = found({"frame.wall_thickness": wall, "frame.boss_length": "30 mm"}, name)
        assert one.spare == pytest.approx(spare)
