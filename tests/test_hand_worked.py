"""Single values worked out by hand where nothing else would notice that they are wrong."""

import numpy as np
import pytest

from mixerkit import Design, Machine
from mixerkit.drive import guarding, jam, jam_workings, motor
from mixerkit.drive.dogclutch import positions
from mixerkit.load.contact import clay_map
from mixerkit.load.trough_sheet import sheet
from mixerkit.parts import (
    bush_checks,
    deflection,
    feet,
    hub,
    notches,
    toothcontact,
)
from mixerkit.parts.bearing_loads import axial_push, jam_thrust
from mixerkit.parts.bodies import bodies
from mixerkit.parts.bush_walls import bush_sizes
from mixerkit.parts.flanges import flange_across
from mixerkit.parts.gear_pairs import pairs
from mixerkit.parts.keys import wide_enough
from mixerkit.parts.passing import way_on
from mixerkit.parts.seated import elements
from mixerkit.parts.shaft_loads import together
from mixerkit.parts.stack import laid
from mixerkit.shop.blanks import gear_blank, gears, limits_of
from mixerkit.shop.indexing import nearest
from mixerkit.shop.tapping import tapped_hole
from mixerkit.shop.turning import turning_notes
from mixerkit.shop.workshop import read_workshop
from mixerkit.show import plate_sheets
from mixerkit.show.sheet import Words

DEMO = Machine(Design.demo())


def test_dogs_stand_on_the_faces_that_look_at_the_sleeve():
    # gears 40 mm wide at 35 and 150 mm, dogs 10 mm high: 55 to 65 mm, and 120 to 130 mm
    found = {one.name: one for one in bodies(DEMO.spec, [one.stack for one in DEMO.shaft_beams])}
    spans = {
        name.split()[3]: (one.start, one.end)
        for name, one in found.items()
        if name.startswith("dogs of the")
    }
    assert spans == {"direct": (55.0, 65.0), "idler": (120.0, 130.0)}


def test_a_free_gear_lies_on_its_bush_with_its_own_weight():
    # 30 teeth of 5 mm, 40 mm wide, steel of 7.85 kg a litre: pi/4 15^2 4 cm^3 = 707 cm^3, 5.549 kg, 54.4 N
    carried = bush_checks._carried_free(
        Machine(
            Design.demo().with_values(
                {"paths.direct.tooth_counts": [30, 30], "paths.idler.tooth_counts": [20, 24, 20]}
            )
        )
    )
    held_idler = DEMO.load_cases.clutch == "idler"
    assert carried[held_idler] == pytest.approx(54.42, rel=1e-3)
    # 20 teeth: four ninths of it
    assert carried[DEMO.load_cases.clutch == "direct"] == pytest.approx(24.19, rel=1e-3)
    assert carried[DEMO.load_cases.clutch == "neutral"] == pytest.approx(54.42, rel=1e-3)


def test_two_set_screws_stand_at_120_degrees_unless_said_otherwise():
    # 1 + cos(60 deg) = 1.5 times one screw of 1000 N at a radius of 20 mm: 30 N m
    assert float(hub.set_screw_torque("1000 N", "40 mm", 2).magnitude) == pytest.approx(30.0)
    assert float(hub.set_screw_torque("1000 N", "40 mm", 3).magnitude) == pytest.approx(50.0)


def test_of_orders_that_are_alike_each_thing_comes_from_its_nearer_end():
    # a plain bar of 680 mm: the sleeve with paddles, from 235 mm on, is nearer to the far end
    spec = DEMO.spec
    way = way_on(laid(spec, 2))
    assert [one for one in way.from_left if not one.startswith(("ring", "support"))] == [
        "bearing at the plate at the trough",
        "idler gear",
        "direct gear",
        "bearing at the plate at the reducer",
    ]
    assert [one for one in way.from_right if not one.startswith(("ring", "support"))] == [
        "sleeve with paddles",
        "bearing at the far end of the trough",
    ]


def test_two_planes_add_as_the_root_of_their_squares():
    # 300 N level and 400 N upwards come to 500 N, 5 N and 12 N to 13 N
    planes = np.array([[300.0, 5.0], [400.0, 12.0]])
    assert together(planes) == pytest.approx([500.0, 13.0], rel=1e-12)


def check_of(machine, part, word):
    """The check of a part with a word in its name."""
    (found,) = (one for one in machine.checks if one.part == part and word in one.name)
    return found


def test_sprockets_stand_half_a_pitch_apart_from_each_other_on_either_side():
    # a pitch of 12.7 mm: 19 teeth have a pitch circle of 12.7/sin(180/19) = 77.16 mm, 38 of 153.79 mm
    chained = Machine(
        Design.demo().with_values(
            {
                "motor_drive.kind": "chain",
                "motor_drive.chain.motor_teeth": 19,
                "motor_drive.chain.box_teeth": 38,
            }
        )
    )
    found = next(one for one in chained.checks if one.name == "sprockets clear each other")
    assert found.demand == pytest.approx((77.16 + 153.79) / 2 + 12.7, rel=1e-3)


def test_the_idler_slides_with_its_own_count():
    # 24 teeth drive 20: the idler turns 1.2 times as fast as shaft 1, in a bush of pi x 40 mm
    moved = Machine(Design.demo().with_values({"paths.idler.tooth_counts": [24, 20, 24]}))
    found = check_of(moved, "idler's bush", "sliding speed")
    pin = moved.spec.housing.idler_pin
    assert found.demand == pytest.approx(
        np.pi * pin / 1e3 * moved.running_speed * 1.2 / 60, rel=1e-6
    )


def test_bolts_in_the_laps_show_the_clay_their_heads():
    # twelve heads of 13 mm: 12 x 1.3273 cm2 = 15.93 cm2
    lapped = Design.demo().with_values({"contact.bolted_laps": True})
    (bolts,) = (one for one in clay_map(lapped) if one.part == "bolts")
    assert bolts.area == pytest.approx(15.93, rel=1e-3)


def test_an_idler_has_no_dogs_and_free_gears_have():
    shop = read_workshop()
    found = {name: gear_blank(DEMO.spec, name, shop).dogs for name in gears(DEMO.spec)}
    assert found["idler_2"] == 0.0
    assert [found[one] for one in ("direct_1", "idler_1")] == [10.0, 10.0]
    assert [found[one] for one in ("direct_2", "idler_3")] == [0.0, 0.0]


def test_of_circles_that_divide_exactly_the_largest_comes_first():
    # 40/12 is three turns and a third: 7 of 21, 6 of 18, 5 of 15
    assert [one.circle for one in nearest(12, 40, [[15, 21, 18]])] == [21, 18, 15]


@pytest.mark.parametrize(
    ("size", "zone", "limits"),
    # ISO 286-2 (from memory): N5 of 18 to 30 mm -12 and -21; h6 of 30 to 50 mm 0 and -16; H7 0 and 25
    [(20.0, "N5", (19.979, 19.988)), (45.0, "h6", (44.984, 45.0)), (45.0, "H7", (45.0, 45.025))],
)
def test_limits_of_single_sizes(size, zone, limits):
    assert limits_of(size, zone) == pytest.approx(limits)


def test_teeth_of_five_millimetres_may_have_a_play_of_0_95_mm():
    # 0.15 modules and 0.2 mm: 0.95 mm at module 5
    assert check_of(DEMO, "direct path", "backlash is not too much").capacity == pytest.approx(0.95)


def test_a_hole_is_tapped_one_and_a_half_deep_in_iron():
    shop = read_workshop()
    assert tapped_hole("M8", shop, brittle=True).thread_depth == pytest.approx(12.0)
    assert tapped_hole("M8", shop, brittle=False).thread_depth == pytest.approx(8.0)


def test_a_long_bar_goes_through_the_spindle_only_if_it_is_thinner_than_its_bore():
    shop = read_workshop()
    bore, long = shop.lathe.spindle_bore, shop.lathe.between_centres + 100
    assert any("spindle" in one for one in turning_notes(long, bore - 1, shop).words)
    assert not any("spindle" in one for one in turning_notes(long, bore + 1, shop).words)


def test_where_the_clutchs_sleeve_stands():
    # faces 75 mm apart, dogs of 10 mm, sleeve 51 mm, overlap 8 mm
    at = positions(DEMO.spec)
    assert (at.room, at.gap, at.travel, at.other, at.bottom) == (55.0, 2.0, 10.0, 12.0, 2.0)


def test_the_idlers_pin_yields_in_step_with_the_torque():
    found = check_of(DEMO, "idler", "pin does not yield")
    torque = DEMO.power_flow.torque_at_box_output[DEMO.load_cases.names.index(found.state)]
    assert found.gives[0] <= torque * found.capacity / found.demand * (1 + 1e-9)
    assert found.gives[0] == pytest.approx(torque * found.capacity / found.demand, rel=1e-6)


def test_faces_are_made_as_wide_as_a_longer_key():
    assert wide_enough(DEMO, 50.0) == {
        "paths.direct.face_width": 50.0,
        "paths.idler.face_width": 50.0,
    }
    assert wide_enough(DEMO, 30.0) == {
        "paths.direct.face_width": 40.0,
        "paths.idler.face_width": 40.0,
    }


def test_what_plates_and_shafts_weigh_and_where():
    # 150 + 2 x 170 = 490 mm by 340 mm, 30 mm thick, 7.85 kg a litre; bores 2 x 120 mm, pin 40 mm, four holes of
    # 13.5 mm for M12 (ISO 273 medium) and two dowels of 10 mm taken out:
    # 166600 - pi/4 (2 x 14400 + 1600 + 729 + 200) = 141993 mm2, 33.44 kg
    near, second, far, one, two = feet._known(DEMO)
    assert near[0] == pytest.approx(33.44, rel=1e-3)
    assert (near[1], second[1], far[1]) == (-15.0, 205.0, 625.0)
    # shaft 2 of 45 mm from -35.1 to 645.1 mm: 1.0819 litre, 8.49 kg, and its sleeve between the walls
    assert two[0] > 8.49
    assert one[0] > two[0]


def test_a_plate_is_half_as_thick_as_its_bushes_are_long():
    plain = Machine(
        Design.demo().with_values({"bearings.kind": "plain bush", "bearings.bush_length": "56 mm"})
    )
    assert check_of(plain, "plates", "thick enough").demand == pytest.approx(28.0)


def test_what_bends_most_counts_while_mixing_and_in_a_jam():
    for beam in DEMO.shaft_beams:
        found, (states, bent) = deflection._Bent.of(beam), beam.mixing_sag
        # of all angles of a turn, and of all paddles that may be caught
        assert (found.slope[states][:, None] >= bent.slope).all()
        assert (found.lift[states][:, None] >= bent.lift).all()
        assert (found.jam[beam.stopped.states][:, None] >= beam.stopped.lift).all()


def test_the_force_on_the_idlers_pin_is_told_by_the_gear_on_shaft_1():
    # 24 teeth of 5 mm on shaft 1, 20 on the idler
    moved = Machine(Design.demo().with_values({"paths.idler.tooth_counts": [24, 20, 24]}))
    told = check_of(moved, "idler", "pin does not yield").working[0]
    assert {name: value for name, value, *_ in told.given}["d"] == pytest.approx(120.0)


# box 90 mm from the plate's inside, its key 70 mm long; flanges a quarter of the 60 mm that goes through them
# thick, 15 mm, the one on the hollow shaft's end a part of the box, and 5 mm between; plates' bearings in the middle of 30 mm; the sleeve 1 mm off both walls
ON_SHAFT_1 = [
    ("flange of the fuse", -215.0, -145.0, 45.0, 72.0),
    ("reduction box", -140.0, -55.0, 60.0, 90.0),
    ("bearing at the plate at the reducer", -29.5, -0.5, 45.0, 120.0),
    ("direct gear", 15.0, 55.0, 55.0, 160.0),
    ("clutch sleeve", 67.0, 118.0, 45.0, 90.0),
    ("idler gear", 130.0, 170.0, 55.0, 120.0),
    ("bearing at the plate at the trough", 190.5, 219.5, 45.0, 120.0),
    ("sleeve with paddles", 251.0, 579.0, 45.4, 84.0),
    ("bearing at the far end of the trough", 610.5, 639.5, 45.0, 120.0),
]


def test_what_sits_on_shaft_1_from_end_to_end():
    found = [(one.name, one.start, one.end, one.bore, one.outer) for one in elements(DEMO.spec, 1)]
    assert [one[0] for one in found] == [one[0] for one in ON_SHAFT_1]
    for one, wanted in zip(found, ON_SHAFT_1, strict=True):
        assert one[1:] == pytest.approx(wanted[1:])
    # two pins' thickness outside the pins' circle: 2 x 60 + 4 x 5.45
    assert flange_across(DEMO.spec) == pytest.approx(141.8)


def test_what_holds_each_thing_on_shaft_1():
    held = {(one.name, one.side): one.kind for one in DEMO.shaft_beams[0].stack.stops}
    assert held == {
        ("flange of the fuse", -1): "ring",
        ("flange of the fuse", 1): "spacer",
        ("reduction box", -1): "spacer",
        ("reduction box", 1): "spacer",
        ("bearing at the plate at the reducer", -1): "spacer",
        ("bearing at the plate at the reducer", 1): "spacer",
        ("direct gear", -1): "spacer",
        ("direct gear", 1): "ring",
        ("idler gear", -1): "ring",
        ("idler gear", 1): "spacer",
        ("bearing at the plate at the trough", -1): "spacer",
        ("bearing at the plate at the trough", 1): "ring",
        ("sleeve with paddles", -1): "pins",
        ("sleeve with paddles", 1): "pins",
        ("bearing at the far end of the trough", -1): "ring",
        ("bearing at the far end of the trough", 1): "ring",
    }


def test_a_motor_on_the_mains_pulls_up_at_four_tenths_of_its_breakdown_speed():
    # below breakdown straight lines from the starting torque through the pull-up torque
    spec = Design.demo().with_values({"motor.fed_by": "direct"})
    able = motor.abilities(spec)
    breakdown = able.field - able.slip * able.plate_field
    found = motor.torque_curve(spec, np.array([0.0, 0.2, 0.4, 0.7]) * breakdown)
    between = (able.start + able.pull_up) / 2, (able.pull_up + able.greatest) / 2
    assert found == pytest.approx([able.start, between[0], able.pull_up, between[1]])


def test_the_life_of_a_turning_bearing_is_told_by_its_rating():
    told = check_of(DEMO, "bearings of shaft 2", "rating life").working
    assert "L_10 = (C/P)**3" in [f"{one.symbol} = {one.formula}" for one in told]


@pytest.mark.parametrize(("overhang", "verdict"), [(68.0, "holds"), (64.0, "fails")])
def test_the_boxs_hollow_shaft_ends_before_the_plate_or_does_not(overhang, verdict):
    # as long as the key of 70 mm long, plate 30 mm: 33 mm are left of 68, and 29 mm of 64
    moved = Machine(Design.demo().with_values({"reducer.overhang": f"{overhang} mm"}))
    found = check_of(moved, "reduction box", "ends before the plate")
    assert (found.capacity, found.verdict) == (pytest.approx(overhang - 35.0), verdict)


def test_a_hole_across_of_a_tenth_concentrates_bending_2_23_times():
    # Shigley, 10th ed., figure A-15-10: 1.5899 - 0.6355 lg(d/D) (from memory), on a net section modulus of
    # pi D^3/32 - d D^2/6, which is 1 - 32/(60 pi) = 0.8302 of the whole
    assert notches._cross_hole(0.1)[0] == pytest.approx((1.5899 + 0.6355) / 0.83023, rel=1e-4)


def test_the_idlers_bush_is_reamed_to_h8_and_as_thick_as_its_wall():
    # ISO 286-2: H8 of 30 to 50 mm is 0 to 39 micrometres
    found = bush_sizes(DEMO.spec, 32.0, 60.0)
    assert found.reamed == pytest.approx((32.0, 32.039))
    assert found.outside == 42.0


def test_an_unstated_inertia_is_told_as_usual_and_a_stated_one_as_stated():
    for value, share in (("0.004 kg*m^2", 1.0), ("0 kg*m^2", jam.INERTIA_MOST)):
        moved = Machine(Design.demo().with_values({"motor.inertia": value}))
        told = jam_workings._inertia(moved, 1.0)
        assert {name: number for name, number, *_ in told.given}["c_J"] == share


def test_reach_past_a_guard_comes_on_top_of_the_hands_way():
    # ISO 13855: 1600 mm/s for 0.5 s, and 100 mm
    assert guarding.approach_distance("0.5 s", 100.0).m_as("mm") == pytest.approx(900.0)


def test_a_bush_too_long_for_its_plate_may_be_shorter():
    plain = Machine(
        Design.demo().with_values({"bearings.kind": "plain bush", "bearings.bush_length": "80 mm"})
    )
    assert {"bearings.bush_length": 60.0} in check_of(plain, "plates", "thick enough").fix


def test_what_presses_on_the_troughs_sheet_number_by_number():
    found = sheet(DEMO)
    # three ribs part 330 mm in four; paddles of 90 mm with 5 mm to the wall, shafts 150 mm apart
    assert (found.span, found.thickness, found.height, found.width) == (82.5, 3.0, 185.0, 340.0)
    # half of the blade's thickness of 12 mm, the narrower of its sides
    assert found.patch == 6.0
    # clay of 1977 kg/m3, 185 mm deep: 1977 x 9.80665 x 0.185 = 3587 Pa
    assert found.pressure == pytest.approx(3587e-6, rel=1e-3)
    # a start asks for half as much again of a blade's 10.5 x 21.80 kPa x 19.80 mm x 48 mm = 217.5 N; both shafts push one way
    assert found.force == pytest.approx(1.5 * 217.5, rel=1e-3)
    assert found.push == pytest.approx(1.5 * 2 * axial_push(DEMO))
    # austenitic sheet: 200 GPa
    assert found.modulus == 200e3


def test_a_box_breaks_at_some_1_3_times_what_it_survives():
    # 600 N*m twice over for a moment; the same share for what hangs and pulls across its slow end
    rungs = {one.name: one for one in DEMO.ladder}
    torque, across = rungs["reducer: torque"], rungs["reducer: load across its slow end"]
    assert (torque.yields, torque.breaks) == (
        pytest.approx(2 * 600),
        pytest.approx(1.3 * 2 * 600),
    )
    assert across.breaks == pytest.approx(1.3 * across.yields)


def test_beside_unlike_bores_the_smaller_one_gathers_stress():
    # outer rings of series 64: 120 mm on 45 mm, 110 mm on 40 mm; u = 110/30 = 3.667 in a plate of 30 mm
    thin = Machine(Design.demo().with_values({"shaft_2.diameter": "40 mm"}))
    plates = [one for one in thin.checks if one.stage == "frame" and "bend" in one.name]
    shown = [
        working
        for one in plates
        if one.part == "plates"
        for working in one.working
        if working.symbol == "K"
    ]
    assert shown
    for one in shown:
        (d,) = (value for name, value, _, _ in one.given if name == "d")
        u = d / 30
        assert u == pytest.approx(110 / 30)
        # 1.79 + 0.25/4.057 + 0.81/14.44 - 0.26/50.3
        assert one.result == pytest.approx(1.79 + 0.0616 + 0.0561 - 0.0052, abs=2e-3)


def test_the_round_ends_of_a_key_bear_nothing():
    # a key 14 mm x 9 mm x 40 mm in a keyway that a 14 mm cutter made: 26 mm of flank, 9 - 5.5 = 3.5 mm high in the
    # hub; 485.1 N m on 45 mm: 2 x 485.1e3 / (45 x 3.5 x 26) = 236.9 MPa, shear 2 x 485.1e3 / (45 x 14 x 26) = 59.2
    assert check_of(DEMO, "gears of shaft 2", "flank in a jam").demand == pytest.approx(
        236.92, rel=1e-3
    )
    assert check_of(DEMO, "gears of shaft 2", "shear in a jam").demand == pytest.approx(
        59.23, rel=1e-3
    )
    # one no longer than it is wide is all ends
    short = Machine(Design.demo().with_values({"hubs.gear_length": "14 mm"}))
    assert check_of(short, "gears of shaft 2", "flank in a jam").verdict == "fails"
    # of the feather key, 75 mm between the gears less 1.85 mm of groove and 1 mm at each end, 69.3 mm long, 27.65 mm
    # either way are straight; 10 mm of travel and 15.5 mm of half the sleeve's core stay on it: all 31 mm bear
    assert check_of(DEMO, "feather key", "while mixing").working[1].result == pytest.approx(31.0)


def test_flanks_press_hardest_where_one_pair_begins_to_bear_alone():
    # 20 and 22 teeth of 5 mm: tips 55 and 60 mm, base circles 46.985 and 51.683 mm, a base pitch of 14.761 mm.
    # Flanks end sqrt(55^2 - 46.985^2) = 28.592 and sqrt(60^2 - 51.683^2) = 30.478 mm along the line of action; it is
    # 105 sin 20 = 35.912 mm long, so that the contact ratio is 23.158/14.761 = 1.569. One pair alone: from
    # 28.592 - 14.761 = 13.831 mm on the smaller gear, 22.081 mm on the other; at the pitch point 17.101 and 18.811 mm:
    # sqrt(17.101 x 18.811 / (13.831 x 22.081)) = 1.0263
    path = DEMO.spec.paths.idler
    mesh = pairs(path, DEMO.spec.housing.centre_distance)[0]
    factor = toothcontact.single_contact_factor(
        5.0, mesh.counts, mesh.tips, mesh.distance, mesh.ratio
    )
    assert factor == pytest.approx(1.0263, abs=1e-4)
    # at the pitch point 2222 N press with 601.3 MPa: 2.4946 x 0.9002 x 189.8 x sqrt(2222 x 2.1 x 1.8769/(100 x 40 x 1.1)),
    # were its face to carry by 1.3 of the mean; it leans so that one end carries 1.848 of it (tests/test_face_load.py)
    found = check_of(DEMO, "idler path", "surfaces last")
    assert found.demand == pytest.approx(1.0263 * 601.3 * np.sqrt(1.848 / 1.3), rel=1e-3)


def test_the_plate_whose_bearings_take_the_push_is_told_to_hold_their_outer_rings():
    # a bearing of 29 mm in a bore of 120 mm straight through a plate of 30 mm: no shoulder, and in a jam 485.1 N m at
    # 42 mm, a face at 45 degrees rubbing with 0.1: 11.55 kN x (1 - 0.1)/(1 + 0.1) = 9.45 kN along the shaft
    def told(which):
        sheet = plate_sheets.plate(DEMO.spec, which, "outside", read_workshop(), Words("metric"))
        return any("outer ring" in one for one in sheet.notes)

    assert jam_thrust(DEMO, 1).max() == pytest.approx(485.1e3 / 42 * 0.9 / 1.1)
    assert (told("reducer"), told("trough")) == (False, True)


def test_a_jam_presses_flanks_no_harder_than_once_leaves_no_dents():
    # 485.1 N m through 22 teeth of 5 mm: 2 x 485.1e3 / (110 x 1.25) = 7056 N; Z_E^2 = 36024 MPa, K = 1.877, u = 1.1,
    # 40 mm wide: 1.0263 x 2.4946 x 0.9002 x sqrt(7056 x 2.1 x 1.877 / (100 x 40 x 1.1) x 36024)
    found = check_of(DEMO, "idler path", "surfaces bear a jam")
    line = 7056 * 2.1 * 1.877 / (100 * 40 * 1.1)
    assert found.demand == pytest.approx(1.0263 * 2.4946 * 0.9002 * np.sqrt(line * 36024), rel=2e-3)
    # 1.6 times what 42CrMo4 bears for ever, for a few loads (ISO 6336-2)
    assert found.capacity == pytest.approx(1.6 * 688)
    # on shafts in line
    softer = Machine(
        Design.demo().with_values(
            {
                "paths.direct.material": "steel C45 quenched and tempered",
                "bearings.misalignment": "0 mm",
            }
        )
    )
    assert check_of(softer, "direct path", "surfaces bear a jam").verdict == "fails"
    assert check_of(softer, "direct path", "surfaces last").verdict != "fails"


def test_a_keyway_takes_its_metal_from_the_shaft_in_a_jam():
    # 14 mm wide and 5.5 mm deep in 45 mm: 14 x 5.5 x 39.5^2 = 120,139; 16 x that / (pi x 45^4) = 0.149
    beam = DEMO.shaft_beams[1]
    place = beam.gears["direct"]
    assert beam.left[place] == pytest.approx((0.851, 0.925), abs=1e-3)
    # while it mixes the code for shafts has it in what it allows
    assert beam.net[place] == pytest.approx((1.0, 1.0))
    # clear of keys, pins and rings nothing is taken
    assert beam.left[beam.supports[0]] == pytest.approx((1.0, 1.0))


def test_keys_and_bearings_weaken_strong_steel_more():
    # 3.0 x 0.9^0.38 = 2.882 and 2.7 x 0.9^0.43 = 2.580; in torsion Shigley's 3.0 for the keyway asks more than
    # 0.56 x 2.882 + 0.1, and 0.65 x 2.580 = 1.677 under the bearing
    keyed, pressed = (notches.notch_factors(one, 45.0, 900.0) for one in ("keyway", "press fit"))
    assert keyed[0] == pytest.approx(2.882, abs=1e-3)
    assert keyed[1] > 0.56 * 2.882 + 0.1
    assert pressed == pytest.approx((2.580, 1.677), abs=1e-3)
