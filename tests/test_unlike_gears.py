"""What unlike gears push with on each shaft, by hand: torque over the radius of the shaft's own gear."""

from math import cos, radians, tan

import numpy as np
import pytest
from forces import forces

from mixerkit import Design, Machine
from mixerkit.parts.bodies import bodies
from mixerkit.parts.shaft_loads import ANGLES
from mixerkit.shop.shaftwork import shaft_work

# 36 and 24 teeth of 5 mm stand 150 mm apart without shifts; 24, 24 and 30 with an idler
UNLIKE = Machine(
    Design.demo().with_values(
        {
            "paths.direct.tooth_counts": [36, 24],
            "paths.idler.tooth_counts": [24, 28, 30],
            "paths.direct.profile_shift_coefficients": [0.0, 0.0],
            "paths.idler.profile_shift_coefficients": [0.0, 0.0, 0.0],
            "housing.centre_distance": "150 mm",
        }
    )
)


@pytest.mark.parametrize(("number", "teeth"), [(1, 36), (2, 24)])
def test_the_direct_pair_pushes_with_torque_over_its_own_radius(number, teeth):
    beam, cases = UNLIKE.shaft_beams[number - 1], UNLIKE.load_cases
    here = cases.clutch == "direct"
    torque = UNLIKE.power_flow.at_gears[number][here]
    tangential = 1e3 * torque / (5.0 * teeth / 2)
    force = beam.gear_forces[here]
    assert np.hypot(*force.T) == pytest.approx(tangential / cos(radians(20.0)))
    # the other shaft is level with it: along the line of the shafts the teeth push it away
    away = -1.0 if number == 1 else 1.0
    assert force[:, 0] == pytest.approx(away * tangential * tan(radians(20.0)))
    assert np.abs(force[:, 1]) == pytest.approx(tangential)


@pytest.mark.parametrize(("number", "teeth"), [(1, 24), (2, 30)])
def test_the_idler_pair_pushes_with_torque_over_its_own_radius(number, teeth):
    beam, here = UNLIKE.shaft_beams[number - 1], UNLIKE.load_cases.clutch == "idler"
    tangential = 1e3 * UNLIKE.power_flow.at_gears[number][here] / (5.0 * teeth / 2)
    lean = beam._lean("idler")
    assert np.hypot(*beam.gear_forces[here].T) == pytest.approx(tangential / cos(radians(lean)))


def test_a_gears_weight_hangs_on_its_shaft():
    # 36 teeth of 5 mm, 40 mm wide, of steel of 7.85 kg a litre: pi/4 18^2 4 cm^3 x 7.85 g = 7.99 kg, 78.4 N
    beam = UNLIKE.shaft_beams[0]
    idle = np.flatnonzero(UNLIKE.load_cases.clutch == "neutral")
    assert beam.steady[idle[0], beam.gears["direct"], 1] == pytest.approx(-78.4, rel=2e-3)


@pytest.mark.parametrize("number", [1, 2])
def test_the_clay_pushes_a_blade_back_against_its_turning(number):
    beam, angles = UNLIKE.shaft_beams[number - 1], UNLIKE.clay_load.angles[ANGLES]
    rows = beam.turning
    states = rows.states[np.abs(UNLIKE.power_flow.paddles[number - 1][rows.states]) > 0]
    for state in states:
        row = list(rows.states).index(state)
        pushed = forces(beam)[row] - beam.steady[state]
        for k, place in enumerate(beam.paddles):
            # turning against the clock a blade moves along (-sin, cos)
            along = np.stack([-np.sin(angles[:, k]), np.cos(angles[:, k])], axis=-1)
            back = (pushed[:, place] * along).sum(axis=-1) * beam.spin[state]
            assert (back <= 1e-9).all()
            assert back.min() < 0


def test_the_clutch_sleeve_stands_in_the_middle_of_its_room_beside_gears_of_unlike_width():
    # 40 mm wide on 35: its face at 55; 84 mm wide on 172: its face at 130; the room's middle is 92.5, and
    # the sleeve of 51 mm stands from 67 to 118, clear of dogs of 10 mm on both sides
    wide = Design.demo().with_values(
        {
            "paths.idler.face_width": "84 mm",
            "paths.idler.position": "172 mm",
            "housing.plate_spacing": "236 mm",
            "bearings.idler_length": "84 mm",
        }
    )
    sleeve = next(one for one in bodies(wide) if one.name == "clutch sleeve of shaft 1")
    assert (sleeve.start, sleeve.end) == pytest.approx((67.0, 118.0))
    machine = Machine(wide)
    apart = next(one for one in machine.checks if one.name.startswith("no two parts"))
    assert apart.verdict == "holds"
    # shaft sheet and beam have it there too
    sheet = shaft_work(wide, 1)
    seat = next(
        one for one in sheet.features if "clutch sleeve" in one.words and one.kind == "seat"
    )
    assert (seat.start + seat.end) / 2 + sheet.left == pytest.approx(92.5)
    beam = machine.shaft_beams[0]
    assert 92.5 in beam.places
