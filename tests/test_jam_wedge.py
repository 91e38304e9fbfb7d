"""What a jam does to bearings and box: wedged at the tip, struck by a stiff box and a heavy rotor; all by hand."""

import json
from math import pi, radians, sqrt

import numpy as np
import pytest
from fixed import fixed

from mixerkit import Design, Machine
from mixerkit.__main__ import main
from mixerkit.drive import jam
from mixerkit.load.stems import wedged_stress
from mixerkit.parts import blades, sleeve_wall
from mixerkit.parts.blades import jam_force

DEMO = fixed("jammed")
ACROSS = "reducer.reducer.load-across-its-slow-end-in-a-jam"


def check(machine, name):
    (found,) = (one for one in machine.checks if one.id == name)
    return found


def test_a_wedge_presses_by_what_it_rubs_over_its_friction():
    # at 90 mm a N*m rubs with 11.11 N, and presses with that over 0.3: 11.11 x sqrt(1 + 11.11) = 38.67 N
    assert jam_force("1 N*m", "40 mm", "90 mm").m == pytest.approx(38.67, abs=0.005)
    # merely stopped at a sleeve of 20 mm it pushes with 50 N
    assert jam_force("1 N*m", "20 mm", "90 mm").m == 50
    both = jam_force.formula(np.array([1.0, 2.0]), 40.0, 90.0)
    assert both == pytest.approx([38.67, 77.34], abs=0.01)


def test_bearings_bear_the_wedge():
    machine = Machine(DEMO)
    state = machine.load_cases.names.index("neutral, forward, jam on shaft 1")
    stop = machine.shaft_beams[0].stopped
    borne = stop.reaction[list(stop.states).index(state)].sum(axis=1)
    # of the fuse's 545 N*m, five percent up, on shaft 1 alone
    assert np.all(borne >= 545 * 1.05 * 38.67)


def test_a_rolling_bearing_is_not_to_be_dented_by_half_as_much_again():
    found = check(Machine(DEMO), "bearings.bearings-of-shaft-1.static-load-in-a-jam")
    assert found.safety == 1.5
    # 45 x 120 x 29 of series 04; of series 02 it would be 20.3 kN and fail
    assert found.capacity == 44_700
    light = Machine(DEMO.with_values({"bearings.series": "62"}))
    lighter = check(light, found.id)
    assert (lighter.capacity, lighter.verdict) == (20_300, "fails")
    # another series on the same seat is offered first, wide as it is in thicker plates where they are thin
    assert lighter.fix[0] == {"bearings.series": "64"}
    thin = light.with_values({"housing.plate_thickness": "20 mm"})
    assert check(thin, found.id).fix[0] == {
        "bearings.series": "64",
        "housing.plate_thickness": 29.0,
    }


def test_the_box_bears_its_arm_beside_its_weight():
    found = check(Machine(DEMO), ACROSS)
    # 572.25 N*m held at 0.25 m; twice 6000 N less 38 kg of box and motor
    assert found.demand == pytest.approx(545 * 1.05 / 0.25)
    assert found.capacity == pytest.approx(2 * 6000 - 38 * 9.80665)
    # it gives where the arm presses with all that is left
    assert found.gives[0] == pytest.approx((2 * 6000 - 38 * 9.80665) * 0.25)
    # an arm of 40 mm: 14.3 kN
    short = Machine(DEMO.with_values({"reducer.torque_arm": "40 mm"}))
    assert check(short, ACROSS).verdict == "fails"
    # a box heavier than its end bears is beyond all arms
    weak = Machine(DEMO.with_values({"reducer.radial_load": "100 N"}))
    assert check(weak, ACROSS).verdict == "fails"
    assert check(weak, ACROSS).fix == ("reducer",)


def test_a_box_whose_wind_up_is_only_usual_is_taken_stiffer():
    def stiffness(where):
        design = DEMO.with_values({"reducer.wind_up_from": where})
        return jam.train(design, "neutral", 1).springs["reduction box"]

    # 600 N*m over one degree as stated, over two thirds of it as usual
    assert stiffness("maker's sheet") == pytest.approx(600 / radians(1))
    assert stiffness("measured") == pytest.approx(600 / radians(1))
    assert stiffness("common practice") == pytest.approx(1.5 * 600 / radians(1))


def test_a_rotor_nobody_weighed_is_taken_heavier():
    assert jam.rotor_inertia(DEMO) == 0.0035
    usual = DEMO.with_values({"motor.inertia": "0 kg*m^2"})
    # 0.0035 x 1.5^1.2 of four poles, and a third on top
    assert jam.rotor_inertia(usual) == pytest.approx(0.0035 * 1.5**1.2 * 4 / 3)


def test_the_blow_without_a_fuse_by_hand():
    """Shaft 1 jammed: box of 600 N*m over 2/3 degree, then 45 mm of C45 from the box to the first paddle."""
    values = {
        "fuse.kind": "none",
        "motor.inertia": "0 kg*m^2",
        "reducer.wind_up_from": "common practice",
    }
    machine = Machine(DEMO.with_values(values))
    box = 1.5 * 600 / radians(1)
    # from 90 mm outside of the plate to 190 + (420 - 330) / 2 + 16 / 2 mm inside
    bar = 80.8e9 * pi / 32 * 0.045**4 / (0.090 + 0.243)
    stiffness = 1 / (1 / box + 1 / bar)
    rotor = 0.0035 * 1.5**1.2 * 4 / 3 * 60**2
    speed = 1500 / 60 * 2 * pi / 60
    # the motor's greatest through a converter: 1.5 times 1.5 kW at 1440 rpm, 60 : 1 at 0.85
    steady = 1.5 * 1500 / (1440 * 2 * pi / 60) * 60 * 0.85
    wanted = steady + sqrt(steady**2 + speed**2 * stiffness * rotor)
    case = machine.load_cases.names.index("neutral, forward, jam on shaft 1")
    found = machine.power_flow.jam_torque_without_fuse[case]
    assert found == pytest.approx(wanted, rel=1e-6)


def test_a_short_arm_fails_through_the_command_line(tmp_path, capsys):
    path = tmp_path / "my_mixer.toml"
    text = DEMO.to_toml().replace('torque_arm = "250 mm"', 'torque_arm = "45 mm"')
    path.write_text(text, "utf-8")
    assert main(["check", str(path), "--json", "--no-remedies"]) == 1
    checks = json.loads(capsys.readouterr().out)["checks"]
    (found,) = (one for one in checks if one["id"] == ACROSS)
    assert found["verdict"] == "fails"
    assert found["asked"] == pytest.approx(545 * 1.05 / 0.045)


def test_a_wedge_presses_the_paddle_along_its_stem_and_turns_it_over():
    """Larkfield: 485.1 N m at 90 mm are 5390 N, over 0.3 17967 N; tip 16 mm x 12 mm, foot 22 mm x 20 mm at 42 mm."""
    machine = Machine(Design.demo())
    assert blades.wedge_push(485.1, 90.0) == pytest.approx(17966.7, abs=0.1)
    # in the middle of the tip, at the foot: 17967/440 + 6 x 5390 x 48 x 0.70711 x (1/8800 + 1/9680) = 40.8 + 238.1 MPa
    middle = 5390 * wedged_stress(48.0, (22.0, 20.0), 45.0)
    assert middle == pytest.approx(40.83 + 238.10, abs=0.05)
    # 8 mm beside it, over the width: 6 x 17967 x 8 / (20 x 22^2) = 89.1 MPa more
    beside = 5390 * wedged_stress(48.0, (22.0, 20.0), 45.0, (8.0, 0.0))
    assert beside - middle == pytest.approx(89.09, abs=0.01)
    found = check(machine, "paddles.paddles.a-paddle-stopped-at-its-tip-does-not-bend")
    assert found.demand == pytest.approx(368.05, abs=0.05)


def test_the_weld_of_a_stem_bears_a_wedge_at_the_edge_of_its_tip():
    # 5390 N x 0.70711 = 3811 N over either side, and over the width 17967 x 8 / 48 = 2994 N beside it: 6806 N;
    # 48/6 x (3811/(440 + 400/3) + 6806/(440 + 484/3)) = 143.7 MPa, along 7800/(2 x 6 x 42) = 15.5 MPa: 144.6 MPa
    found = check(Machine(Design.demo()), "paddles.paddles.welds-of-the-stems-hold-in-a-jam")
    assert found.demand == pytest.approx(144.55, abs=0.05)


@pytest.mark.parametrize("half", [0.05, 0.3, 0.4646, 0.6, 1.0])
def test_a_rigid_foot_pressed_into_a_ring_neither_turns_nor_spreads(half):
    # of a ring pressed at a point, borne by shear: (1 + cos/2 - (pi - q) sin q) / (2 pi); beyond the foot even and
    # waved moments are added until what it bends by, alone and times the cosine, comes to nought; by sums
    turned = np.linspace(half, pi, 40001)
    point = (1 + np.cos(turned) / 2 - (pi - turned) * np.sin(turned)) / (2 * pi)
    ways = np.stack([np.ones_like(turned), np.cos(turned)])
    against = [[np.trapezoid(a * b, turned) for b in ways] for a in ways]
    added = np.linalg.solve(against, [-np.trapezoid(point * one, turned) for one in ways])
    by_sums = point[0] + added @ ways[:, 0]
    assert sleeve_wall.pressed_share(half) == pytest.approx(by_sums, abs=1e-6)


def test_a_wall_bears_the_couple_and_the_push_of_a_foot():
    # Roark's 3/(4 pi) of a point: 6 x 10 kN x 40 mm x 0.2387 / ((30 + 1.56 x sqrt(160)) x 16) = 720 MPa, at a narrow foot
    narrow = sleeve_wall.wall_stress("0 N*m", "10 kN", "40 mm", "4 mm", "0.001 mm", "30 mm")
    assert narrow.m_as("MPa") == pytest.approx(720.0, abs=0.5)
    both = sleeve_wall.wall_stress("200 N*m", "10 kN", "40 mm", "4 mm", "20 mm", "30 mm")
    alone = sleeve_wall.wall_stress("200 N*m", "0 N", "40 mm", "4 mm", "20 mm", "30 mm")
    assert alone.m_as("MPa") == pytest.approx(573.0, abs=0.5)
    # at a foot of 20 mm, asin 0.25 = 0.2527 to either side, 0.1748 of it: 527 MPa more
    assert (both - alone).m_as("MPa") == pytest.approx(
        6 * 10e3 * 40 * float(sleeve_wall.pressed_share(0.25268)) / (49.732 * 16), rel=1e-3
    )
    thin = Machine(Design.demo("inch_room").with_values({"sleeve.wall": "3/16 in"}))
    wall = check(thin, "shafts.sleeve.its-wall-bears-a-paddle-that-is-caught")
    # 12.65 kN on a ring of 23.02 mm beside 241.0 N m
    assert wall.demand == pytest.approx(579.2, abs=0.2)
    assert wall.verdict == "fails"
