"""How unevenly leaning teeth carry along their face, against hand calculations."""

import numpy as np
import pytest

from mixerkit import Design, Machine
from mixerkit.parts import face_load, shaft
from mixerkit.parts.idler import idler_forces
from mixerkit.parts.mesh_lean import leans
from mixerkit.parts.toothstrength import HAND_CUT

DEMO = Design.demo()
LAST, JAM = "teeth surfaces last", "teeth do not break in a jam"
DENT, BREAK = "teeth surfaces bear a jam", "teeth do not break while mixing"


def teeth(name, part="idler path", **values):
    machine = Machine(
        DEMO.with_values({key.replace("__", "."): one for key, one in values.items()})
    )
    return next(one for one in machine.checks if (one.part, one.name) == (part, name))


def step(check, symbol):
    return next(one.result for one in check.working if one.symbol == symbol)


def test_half_the_face_more_until_only_a_part_of_it_carries():
    # 10 um x 14 N/(mm um) x 40 mm / (2 x 4000 N) = 0.7; 40 um: sqrt(2 x 40 x 14 x 40/4000) = sqrt(11.2)
    found = face_load.face_load_factor.formula(np.array([0.0, 10.0, 40.0]), 4000.0, 40.0, 14.0)
    assert found == pytest.approx([1.0, 1.7, 3.3466], abs=1e-4)
    # both forms meet where the lean just lifts one end off: 2 x 4000/(14 x 40) = 14.2857 um
    joint = 14.2857142857 * np.array([1 - 1e-9, 1 + 1e-9])
    assert face_load.face_load_factor.formula(joint, 4000.0, 40.0, 14.0) == pytest.approx([2, 2])
    assert face_load.face_load_factor("1 um", "4 kN", "4 cm", "14 N/(mm*um)", 1.3) == 1.3


def test_more_load_presses_more_though_it_spreads_better():
    load = np.linspace(10.0, 2e4, 400)
    whole = load * face_load.face_load_factor.formula(20.0, load, 40.0, 14.0)
    assert np.all(np.diff(whole) > 0)
    # and a wider face never presses harder for a lean of the same angle
    wide = np.linspace(5.0, 200.0, 400)
    apart = face_load.misalignment.formula(2e-4, 3e-4, wide)
    line = face_load.face_load_factor.formula(apart, 3000.0, wide, 14.0) / wide
    assert np.all(np.diff(line) <= 1e-12)


def test_stiffness_of_a_mesh_as_the_standard_reckons_it():
    # 20 and 22 teeth: 0.04723 + 0.15551/20 + 0.25791/22 = 0.0667287, 14.986; x 0.8 x 0.975 = 11.689;
    # 0.75 x 1.5688 + 0.25 = 1.4266, 16.676; x 0.85 = 14.174 N/(mm um)
    one = face_load.mesh_stiffness((20, 22), (0.0, 0.0), 1.5688, 189.8)
    assert one == pytest.approx(14.174, abs=1e-3)
    assert face_load.mesh_stiffness((22, 20), (0.0, 0.0), 1.5688, 189.8) == one
    # with shifts of 0.2 and -0.1 the smaller first: - 0.00127 - 0.0011654 + 0.000193 + 0.00109945 + 0.0002116
    # + 0.0000182 = 0.0658156
    moved = face_load.mesh_stiffness((20, 22), (0.2, -0.1), 1.5688, 189.8)
    assert moved == pytest.approx(14.174 * 0.0667287 / 0.0658156, rel=1e-4)
    # a quarter of 100 N/mm: 0.25^0.25
    assert face_load.softer(25.0) == pytest.approx(0.70711, abs=1e-5)


def test_metals_run_in_as_the_standard_has_it_and_no_more_than_half():
    assert face_load.run_in(800.0, "steel") == pytest.approx(0.4)
    assert face_load.run_in(350.0, "steel") == 0.5
    assert face_load.run_in(310.0, "cast iron") == 0.5
    assert face_load.run_in(220.0, "bronze") == 0.0


def test_a_pin_between_plates_slopes_by_how_far_the_force_is_from_its_middle():
    # 4000 N at 150 of 190 mm on 40 mm: pi/64 40^4 = 125664 mm4;
    # 4000 x 150 x 40 x 110/(3 x 206000 x 125664 x 190) = 0.1789 mrad
    slope = shaft.span_slope.formula(4000.0, np.array([150.0, 95.0, 40.0]), 190.0, 206e3, 40.0)
    assert 1e3 * slope == pytest.approx([0.1789, 0.0, -0.1789], abs=1e-4)
    # the deflection of table A-9 beam 6, F b x (L^2 - b^2 - x^2)/(6EIL), falls off so at the force
    x = np.array([149.99, 150.0])
    sag = 4000 * 40 * x * (190.0**2 - 40**2 - x**2) / (6 * 206e3 * 125663.706 * 190)
    assert -np.diff(sag)[0] / 0.01 == pytest.approx(slope[0], rel=1e-3)


@pytest.mark.parametrize("name", ["direct", "idler"])
def test_no_angle_of_a_turn_leans_a_shaft_more_than_is_reckoned(name):
    machine = Machine(DEMO)
    for beam in machine.shaft_beams:
        place = beam.gears[name]
        still, swung = beam.tilt(place)
        rows = beam.turning
        found = beam.bends().slope[..., place] - beam.forced.slope[place]
        most = np.hypot(*still[:, rows.states])[:, None] + swung[rows.states][:, None]
        assert np.all(found <= most + 1e-12)
        # and in some state some angle reaches it
        assert (found.max(axis=1) / most[:, 0]).max() > 0.95
        # in a jam what is caught presses as hard as the jam's own force does
        stop = beam.stopped
        pushed = stop.push[:, None] * np.abs(beam._by.slope[beam.paddles, place])
        assert swung[stop.states] == pytest.approx(pushed.max(axis=1))


def test_the_idlers_pin_leans_it_by_what_both_meshes_push():
    """Of all on one side alone: shafts that are as good as rigid leave the pin's slope."""
    stiff = Machine(
        DEMO.with_values({"bearings.misalignment": "0 mm", "housing.idler_pin": "10 mm"})
    )
    i = stiff.index("idler")
    force = idler_forces(stiff)[i]
    pin = force * 150 * 40 * 110 / (3 * 206e3 * np.pi / 64 * 10**4 * 190)
    for one in leans(stiff.shaft_beams, "idler"):
        # a pin of 10 mm gives way 250 times as much as one of 40 mm; two meshes of 0.97 take 6 % of the last force
        assert one.bent[i] == pytest.approx(pin, rel=0.06)
        assert one.off_line == 0


def test_what_larkfields_idler_presses_its_flanks_with():
    # phi_s: shaft tilted by 0.05 mm; phi: 0.185 mrad; 688 MPa run in 320/688 = 0.4651:
    # 40 x (1.33 x 0.1851 + 0.2004) x 0.5349 = 9.555 um; 2221.4 x 1.25/40 = 69.4 N/mm: 14.176 x 0.694^0.25 = 12.94;
    # 1 + 9.555 x 12.94 x 40/(2 x 2221.4 x 1.3125) = 1.848
    found = teeth(LAST)
    bent, off = step(found, "phi"), step(found, "phi_s")
    assert (bent, off) == pytest.approx((0.1851, 0.2004), rel=2e-3)
    apart = 40 * (1.33 * bent + off) * (1 - 320 / 688)
    factor = 1 + apart * 12.94 * 40 / (2 * 2221.4 * 1.3125)
    assert step(found, "K_beta") == pytest.approx(factor, rel=1e-3)
    # 617.1 MPa were the pressure with 1.3, at 1.0263 x 601.3
    assert found.demand == pytest.approx(1.0263 * 601.3 * np.sqrt(factor / 1.3), rel=1e-3)


def test_a_thin_pin_and_bearings_off_their_line_press_more():
    """With 32 mm and 0.1 mm its flanks do not last: 0.85 x as thick slopes 2.44 times as much."""
    now = teeth(LAST)
    thin = teeth(LAST, housing__idler_pin="32 mm")
    off = teeth(LAST, bearings__misalignment="0.1 mm")
    assert thin.demand > now.demand < off.demand
    assert step(off, "phi_s") == pytest.approx(2 * step(now, "phi_s"))
    both = teeth(LAST, housing__idler_pin="32 mm", bearings__misalignment="0.1 mm")
    assert both.verdict == "fails"
    assert both.demand == pytest.approx(898, abs=1)
    assert "bearings.misalignment" in both.note
    assert any("housing.idler_pin" in str(one) for one in both.fixes())


def test_shafts_that_stay_straight_leave_what_hand_cutting_does():
    straight = {"bearings__misalignment": "0 mm", "housing__idler_pin": "60 mm"}
    found = teeth(LAST, **straight)
    assert step(found, "K_beta") == pytest.approx(HAND_CUT.along)
    assert not found.note


def test_a_jam_bends_before_anything_has_run_in_and_dents_what_stood_wrong_before():
    bent, dented = teeth(JAM), teeth(DENT)
    given = next(one.given for one in bent.working if one.symbol == "F_beta")
    assert next(number for symbol, number, *_ in given if symbol == "y") == 0
    # 40 mm x 0.2004 mrad = 8.017 um: 1 + 8.017 x 14.176 x 40/(2 x 9261) = 1.245, less than of hand-cut teeth
    assert step(dented, "F_beta") == pytest.approx(8.017, rel=1e-3)
    assert step(dented, "K_beta") == 1.3
    wrong = teeth(DENT, bearings__misalignment="0.1 mm")
    assert step(wrong, "K_beta") == pytest.approx(1 + 16.03 * 14.176 * 40 / (2 * 9261), rel=1e-3)
    assert step(bent, "K_beta") > 2 * step(dented, "K_beta")
