"""A carried sleeve hands its paddles' forces to the shaft at its two seats, and is bent by them between."""

import numpy as np
import pytest

from mixerkit import Design, Machine
from mixerkit.explore.mend import mend
from mixerkit.parts import along
from mixerkit.parts.feet import _known
from mixerkit.parts.shaft_places import FAR_SEAT
from mixerkit.parts.sleeve_beam import ridden

DEMO = Design.demo()
# a tube of 80 mm outside and 70 mm inside, of a steel of 200 GPa: pi/64 x (80^4 - 70^4) = 832,031 mm^4
TUBE = DEMO.with_values(
    {
        "paddles.root_radius": "40 mm",
        "sleeve.wall": "5 mm",
        "sleeve.material": "stainless 1.4301 annealed",
    }
)


def tube(*paddles, seats=(100.0, 300.0)):
    # as long as from seat to seat
    return ridden(TUBE, np.array(seats), np.array(paddles), seats)


def test_a_newton_in_the_middle_rests_half_on_either_seat():
    found = tube(200.0)
    assert found.seats[0] == pytest.approx([0.5, 0.5])
    # F L / 4 = 1 x 200 / 4, hogging as the newton points up
    assert found.moment[0, 0] == pytest.approx(-50.0)
    # F L^3 / (48 E I) = 8e6 / (48 x 200,000 x 832,031)
    assert abs(found.lift[0, 0]) == pytest.approx(8e6 / (48 * 200e3 * 832_031), rel=1e-3)


def test_a_newton_beyond_a_seat_lifts_at_the_other():
    # 50 mm beyond the far seat of 200 mm between: -50/200 and 1 + 50/200
    found = tube(350.0, 200.0)
    assert found.seats[0] == pytest.approx([-0.25, 1.25])
    # in the middle half of what it is at the seat: 1 x 50 / 2; nothing at the paddle itself
    assert abs(found.moment[0, 1]) == pytest.approx(25.0)
    assert found.moment[0, 0] == pytest.approx(0.0, abs=1e-9)


def test_its_weight_rests_on_both_seats():
    found = tube(200.0)
    # pi/4 x (80^2 - 70^2) mm^2 x 7.9 g/cm^3 x 9.81 m/s^2 = 91.3 N/m over 0.2 m
    assert -found.seats[-1] == pytest.approx([9.13, 9.13], rel=0.02)
    # w L^2 / 8 = 0.0913 x 200^2 / 8
    assert abs(found.moment[-1, 0]) == pytest.approx(456.5, rel=0.02)


def test_seats_stand_at_the_last_pin_and_as_far_from_the_other_end():
    # trough from 250 to 580 mm; two pins of 12 mm, the second three of them further in: 12 + 36
    start, end = along.trough_ends(DEMO)
    assert along.sleeve_pin_places(DEMO) == [start + 12, start + 48]
    assert along.sleeve_seats(DEMO) == (start + 48, end - 48)
    # pins that reach past the middle leave no second seat: both stand in it
    near, far = along.sleeve_seats(DEMO.with_values({"sleeve.pins": 6}))
    assert far - near == pytest.approx(1.0)


@pytest.mark.parametrize("number", [1, 2])
def test_the_shaft_bears_all_of_the_moment_at_the_seats(number):
    beam = Machine(DEMO).shaft_beams[number - 1]
    far, stop = beam.at(FAR_SEAT), beam.stopped
    lever = beam.places[beam.supports[2]] - beam.places[far]
    # right of the far seat only the bearing beyond the trough acts, and a little weight
    assert stop.moment[..., far] == pytest.approx(
        stop.reaction[..., 2] * lever / 1e3, rel=0.01, abs=1.0
    )
    running = beam.running
    assert running.moment[..., far] == pytest.approx(
        running.reaction[..., 2] * lever / 1e3, rel=0.03, abs=1.0
    )


def test_a_sleeve_no_longer_hides_the_holes_of_its_pins():
    # a sleeve that took its share of the bending left a shaft of 45 mm a twelfth of it within 84 mm of tube
    beam = Machine(DEMO).shaft_beams[1]
    pins = beam.pins
    at_plate = beam.stopped.moment[..., beam.supports[1]].max()
    # it falls from the plate's bearing to the far one, without a jump at the sleeve
    assert beam.stopped.moment[..., pins].max() > 0.5 * at_plate


def test_paddles_sag_with_the_sleeve_between_its_seats():
    # a stiff sleeve: a paddle in the middle stands on the line between both seats
    stiff = DEMO.with_values({"paddles.count": 3, "paddles.spacing": "120 mm"})
    beam = Machine(stiff).shaft_beams[0]
    near, far = beam.seats
    middle = beam.paddles[1]
    share = (beam.places[middle] - beam.places[near]) / (beam.places[far] - beam.places[near])
    own = abs(beam.sleeve.lift[1, 1])
    straight = (1 - share) * beam._by.lift[middle, near] + share * beam._by.lift[middle, far]
    assert beam._by.lift[middle, middle] == pytest.approx(straight + own, rel=1e-9)


def test_all_of_a_sleeve_hangs_on_its_seats():
    beam = Machine(DEMO).shaft_beams[0]
    # 330 mm of tube of 84 mm outside and 84 - 2 x 19.3 mm inside, of 7.8 g/cm^3: 10.1 kg
    mass = np.pi / 4 * (84**2 - 45.4**2) * 330 * 7.8e-6
    assert beam.hung.sum() / 9.80665 == pytest.approx(mass, rel=1e-3)
    # alike at both, as the sleeve is
    assert beam.hung[[*beam.seats]] == pytest.approx(beam.hung.sum() / 2)


def test_frame_and_feet_feel_the_whole_of_shafts_and_sleeves():
    machine = Machine(DEMO)
    plates = [mass for mass, _ in _known(machine)[:3]]
    steel = np.pi / 4 * 45**2 * 7.85e-6
    sleeve = np.pi / 4 * (84**2 - 45.4**2) * 330 * 7.8e-6
    # shaft 1 from the box 90 mm before the plate, shaft 2 from its first bearing, both to the far one at 625 mm
    (one, _), (two, at) = _known(machine)[3:]
    assert one == pytest.approx(steel * 715 + sleeve, rel=0.01)
    assert two == pytest.approx(steel * 640 + sleeve, rel=0.01)
    # its middle at 305 mm, that of its sleeve at 415 mm
    assert at == pytest.approx(
        (steel * 640 * 305 + sleeve * 415) / (steel * 640 + sleeve), rel=0.01
    )
    assert len(plates) == 3


def test_a_thin_sleeve_folds_in_beside_a_paddle_that_is_caught():
    def wall(thick):
        machine = Machine(DEMO.with_values({"sleeve.wall": thick}))
        return next(
            one for one in machine.checks if one.name == "its wall bears a paddle that is caught"
        )

    # 485.1 N m at shaft 1 stop a tip at 90 mm: 485.1 x (1 - 42/90) = 258.7 N m at the foot of 20 mm, which is
    # 22 mm x sin 45 + 20 mm x cos 45 = 29.7 mm long; on 2 mm of wall, its middle at 41 mm: half an angle of
    # arcsin(20/82) = 0.2464, (pi - 0.2464 - 0.4878)/(2 pi) = 0.3832, 29.7 + 1.56 x sqrt(82) = 43.8 mm bend with it
    # wedged it presses with 5390 N over a friction of 0.3, 17.97 kN, 0.1776 of which times 41 mm a rigid foot's edge feels
    thin = wall("2 mm")
    felt = 258.7e3 * 0.3832 + 17967 * 41 * 0.1776
    assert thin.demand == pytest.approx(6 * felt / (43.8 * 2**2), rel=2e-3)
    assert thin.verdict == "fails"
    assert wall("19.3 mm").verdict == "holds"


def test_housings_of_insert_bearings_are_bolted_on_and_need_no_wall_as_thick_as_they_are_wide():
    checks = Machine(DEMO.with_values({"bearings.far_end": "insert bearing"})).checks
    one = next(
        one
        for one in checks
        if (one.part, one.name) == ("far wall", "thick enough for its bearings")
    )
    assert (one.demand, one.capacity, one.verdict) == (8.0, 30.0, "holds")
    mixed = DEMO.with_values({"bearings.far_end": "insert bearing", "bearings.kind": "plain bush"})
    alike = next(one for one in Machine(mixed).checks if one.name == "go with those in the plates")
    assert alike.verdict == "fails"
    # its own way out does: the check stays when it is taken, and is found
    mending = mend(Machine(mixed), [alike.id])
    assert {"bearings.far_end": "as in the plates"} in [
        dict(one.values) for one in mending.remedies[alike.id]
    ]
