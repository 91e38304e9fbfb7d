"""Single values of shafts, bearings, gears and hubs worked out by hand where nothing else would notice."""

import numpy as np
import pytest
from fixed import fixed

from mixerkit import Design, Machine
from mixerkit.parts import fits, held, shaft_checks, toothstrength, zones
from mixerkit.parts.bodies import bodies
from mixerkit.parts.rings import groove_load

DEMO = Machine(Design.demo())


def demo_with(**values):
    """The demo with other values, a field's dot written as two strokes."""
    return Machine(
        Design.demo().with_values({name.replace("__", "."): one for name, one in values.items()})
    )


def check_of(machine, part, name):
    """The check of a part that has a name."""
    (found,) = (one for one in machine.checks if (one.part, one.name) == (part, name))
    return found


def test_a_shaft_is_twisted_by_its_length_over_its_rigidity():
    # 1 N m from the box, 90 mm before the first plate's inside, to the far bearing at 625 mm: 715 mm;
    # pi 45^4/32 = 402 578 mm^4, G = 80.8 GPa: 1000 x 715/(80 800 x 402 578) = 2.1981e-5 rad
    line = DEMO.shaft_beams[0]
    assert line.twists(np.ones((1, len(line.places))))[0, -1] == pytest.approx(2.1981e-5, rel=1e-4)


def test_a_bar_is_as_thick_as_its_section_between_any_two_places():
    # 45 mm up to 100 mm, 60 mm up to 400 mm, then 40 mm
    stepped = demo_with(
        shaft_1__step_at=["100 mm", "400 mm"], shaft_1__step_diameters=["60 mm", "40 mm"]
    )
    line = stepped.shaft_beams[0]
    starts = line.places[:-1]
    assert (line.segments[starts < 100] == 45).all()
    assert (line.segments[(starts >= 100) & (starts < 400)] == 60).all()
    assert (line.segments[starts >= 400] == 40).all()
    assert {100.0, 400.0} <= set(line.places)


def test_of_two_sections_alike_a_seat_has_the_one_it_lies_on():
    # 45 mm up to 100 mm, 60 mm up to 400 mm, 45 mm again: plates' bearings at -15 and 205 mm, far end at 625 mm
    spec = demo_with(
        shaft_1__step_at=["100 mm", "400 mm"], shaft_1__step_diameters=["60 mm", "45 mm"]
    ).spec
    assert [zones.section_of(spec, 1, one) for one in zones.NAMES] == [0, 1, 2]


def test_a_proposed_shaft_goes_from_the_box_to_the_far_end():
    # box 90 mm from the plate's inside, bearings in the middle of plates 30 mm thick and 190 mm apart, the far one
    # 420 mm on
    rows = shaft_checks.proposed_profile(DEMO.shaft_beams[0], "metric")
    assert [one[:3] for one in rows] == [
        ("reduction box", -90.0, -15.0),
        ("gears", -15.0, 205.0),
        ("trough", 205.0, 625.0),
    ]


def test_what_an_offset_may_be_is_told_at_the_place_that_bears_least_in_any_state():
    # of a shaft with a step that place is not the one where the best state bears least: by just so much off the line
    # one of the fatigue rules asks for the whole diameter
    stepped = fixed("framed").with_values(
        {"shaft_1.step_at": ["100 mm"], "shaft_1.step_diameters": ["50 mm"]}
    )
    room = check_of(Machine(stepped), "shaft 1", "its bearings stand in line").capacity
    at_most = Machine(stepped.with_values({"bearings.misalignment": f"{room} mm"}))
    asked = [
        one.demand / one.capacity
        for one in at_most.checks
        if one.part == "shaft 1" and "fatigue" in one.name
    ]
    assert max(asked) == pytest.approx(1, rel=1e-6)


def test_a_ring_bears_what_the_weaker_of_it_and_its_groove_does():
    # groove of 42.5 mm in 45 mm: pi/4 x (45^2 - 42.5^2) = 171.8 mm^2, over 1.2; at 650 MPa 93.06 kN, at 225 MPa
    # 32.21 kN; the ring itself 44.1 kN, on the 3.8 - 3 mm of corner that its washer leaves
    # 44.1 x (0.3 + 0.002 x 45)/(0.05 + 0.8) = 20.23 kN
    assert check_of(DEMO, "shaft 2", held.PUSH).capacity == pytest.approx(20234, rel=1e-4)
    soft = demo_with(shaft_2__material="steel S235JR")
    assert groove_load.formula(45.0, 42.5, 225.0) == pytest.approx(32213, rel=1e-4)
    assert check_of(soft, "shaft 2", held.PUSH).capacity == pytest.approx(20234, rel=1e-4)


def test_a_far_bar_no_insert_bearing_fits_is_named_by_its_own_thickness():
    odd = demo_with(
        bearings__far_end="insert bearing",
        shaft_1__step_at=["400 mm"],
        shaft_1__step_diameters=["47 mm"],
    )
    assert "bore of its bar, 47 mm" in check_of(odd, "bearings of shaft 1", "rating life").reason


def test_a_bearing_that_bears_more_push_than_pull_is_loaded_by_the_table_of_factors():
    # 25 x 62 x 17 mm: C_0 = 10.9 kN; a push of 515 N is 0.047 of it: between 0.042 with Y = 1.85 and 0.056 with 1.71
    # (Shigley 10th ed., table 11-1, from memory), P = 0.56 F_r + Y F_a where F_a is over a quarter of F_r
    thin_end = demo_with(
        bearings__locating=3,
        bearings__series="63",
        shaft_1__diameter="75 mm",
        shaft_1__step_at=["300 mm"],
        shaft_1__step_diameters=["25 mm"],
    )
    found, line = (
        check_of(thin_end, "bearings of shaft 1", "rating life"),
        thin_end.shaft_beams[0],
    )
    load = found.working[0]
    (push,) = (value for name, value, *_ in load.given if name == "F_a")
    row = list(line.running.states).index(thin_end.load_cases.names.index(found.state))
    pull = np.cbrt((line.running.reaction[row, :, 2] ** 3).mean())
    assert 0.042 < push / 10900 < 0.056
    assert push > 0.26 * pull
    factor = 1.85 - 0.14 * (push / 10900 - 0.042) / 0.014
    assert load.result == pytest.approx(0.56 * pull + factor * push, rel=1e-9)


def test_bushes_lie_in_the_middle_of_their_gears_and_the_idlers_pin_is_solid():
    # gears 40 mm wide at 35 and 150 mm, bushes 30 mm long; plates 30 mm thick, 190 mm apart, pin 40 mm
    spec = demo_with(bearings__free_gear_length="30 mm").spec
    found = {one.name: one for one in bodies(spec, [one.stack for one in DEMO.shaft_beams])}
    spans = [
        (found[name].start, found[name].end)
        for name in ("bush of the direct gear of shaft 1", "bush of the idler gear of shaft 1")
    ]
    assert spans == [(20.0, 50.0), (135.0, 165.0)]
    pin = found["pin of the idler"]
    assert (pin.start, pin.end, pin.inner, pin.outer) == (-30.0, 220.0, 0.0, 40.0)


def test_a_pair_with_a_gear_below_the_cutters_is_not_judged():
    # form cutters begin at 12 teeth, whatever the mate has
    found = check_of(
        demo_with(paths__direct__tooth_counts=[11, 49]), "direct path", "tick of form-cut teeth"
    )
    assert not found.judged
    assert "11 teeth" in found.reason


def test_a_tooth_of_a_shifted_gear_loaded_at_its_tip():
    # ISO 6336-3, clause 6: z = 25, x = 0.4, tip at 13.9 modules: E = 0.0644, G = 0.38 - 1.25 + 0.4 = -0.47,
    # H = -0.9267, theta = 0.8811: s = 2.1959; cos a = 25 cos 20/27.8: 32.32 deg; half of the tooth there
    # (pi/2 + 0.8 tan 20)/25 + inv 20 - inv 32.32 = 0.02079 rad, load at 31.13 deg: h = 1.9538;
    # Y_F = 6 x 1.9538 x cos 31.13/(2.1959^2 cos 20) = 2.2146
    assert toothstrength.form_factors(25, 0.4, 13.9)[0] == pytest.approx(2.2146, rel=1e-4)


def test_grades_begin_at_four():
    # ISO 286-1, table 1 (from memory): IT4 of 30 to 50 mm is 7 um
    assert fits.tolerance("45 mm", 4).m_as("um") == pytest.approx(7.0)


def test_a_web_that_can_just_be_bored_has_nothing_between():
    # bearings of 120 mm outside, 131 mm apart: 11 mm are left, a twelfth of the bore, 10 mm, is asked
    found = check_of(
        demo_with(housing__centre_distance="131 mm"),
        "plates",
        "metal between both bores can be bored",
    )
    assert (found.demand, found.capacity) == (pytest.approx(10.0), pytest.approx(11.0))
    assert found.verdict == "holds"


def test_five_set_screws_as_thick_as_a_third_of_the_shaft():
    screwed = demo_with(
        hubs__gear="set screws",
        hubs__set_screw="M12",
        hubs__set_screws=5,
        shaft_2__diameter="36 mm",
    )
    # 36/3 = 12 mm: it fits
    thick = check_of(screwed, "gears of shaft 2", "set screw no thicker than a third of the shaft")
    assert (thick.capacity, thick.verdict) == (12.0, "holds")
    assert thick.working[-1].result == 12.0
    # two pairs at 120 degrees and one beside: 2 x (1 + cos 60) + 1 = 4 times one screw
    share = check_of(screwed, "gears of shaft 2", "set screws hold in a jam").working[0]
    assert (share.symbol, share.result) == ("s", pytest.approx(4.0))
