"""Values from outside for clay, vane, cone, motor curve and meshes."""

import numpy as np
import pytest

from mixerkit.drive.gearpaths import solve_speeds
from mixerkit.drive.induction import breakdown_slip, kloss_torque, slip_at_torque, synchronous_speed
from mixerkit.load import clay, paddles
from mixerkit.tables import table


def test_bearing_factor_bounds():
    # Randolph & Houlsby (1984): 6 + pi = 9.142 smooth, 4 sqrt 2 + 2 pi = 11.94 rough
    assert (
        pytest.approx((6 + np.pi, 4 * np.sqrt(2) + 2 * np.pi), abs=0.005) == paddles.SMOOTH_TO_ROUGH
    )


# Kloss's formula: greatest at the breakdown slip, 0.8 of it at half and at twice that slip, and 2 s/s_b of it near
# step (any text on induction machines)
@pytest.mark.parametrize(
    ("share", "torque"), [(1.0, 1.0), (0.5, 0.8), (2.0, 0.8), (0.2, 0.3846), (5.0, 0.3846)]
)
def test_kloss_points(share, torque):
    assert kloss_torque("100 N*m", 0.2 * share, 0.2).m_as("N*m") == pytest.approx(
        100 * torque, rel=1e-3
    )


def test_breakdown_slip_gives_back_the_plate():
    slip = float(breakdown_slip(0.04, 2.6))
    assert slip == pytest.approx(0.04 * (2.6 + np.sqrt(2.6**2 - 1)))
    assert kloss_torque("26 N*m", 0.04, slip).m_as("N*m") == pytest.approx(10.0)
    assert float(slip_at_torque(10.0, 26.0, slip)) == pytest.approx(0.04)
    assert np.isnan(slip_at_torque(27.0, 26.0, slip))


def test_slip_of_a_four_pole_motor():
    # any text on induction machines: 4 poles, 50 Hz, 1440 rpm: slip 4 %
    assert 1 - 1440 / synchronous_speed("50 Hz", 4).m_as("rpm") == pytest.approx(0.04)


# IEC 60034-12, design N, least torque at rest, 4 poles (from memory): the table's motors are not below it
@pytest.mark.parametrize(
    ("kilowatts", "least"),
    [(0.55, 2.0), (0.75, 1.9), (1.1, 1.9), (1.5, 1.9), (2.2, 1.8), (3, 1.7), (4, 1.7)],
)
def test_table_motors_start_at_least_as_design_n(kilowatts, least):
    row = next(one for one in table("motors") if one.values["rated_power"] == kilowatts)
    assert row.values["start_torque_ratio"] >= least
    assert row.values["breakdown_torque_ratio"] >= 2.0


# a primer on gear trains: 10 on 20 halves the speed; an idler restores the direction; sizes of idlers do not matter
@pytest.mark.parametrize(
    ("counts", "speed"),
    [
        ([10, 20], -0.5),
        ([10, 24], -1437.5 / 3450),  # Wentzell, example 11.4
        ([10, 35, 20], 0.5),
        ([10, 17, 20], 0.5),
        ([30, 30], -1.0),
        ([20, 25, 31, 40], -0.5),
    ],
)
def test_meshes(counts, speed):
    assert solve_speeds({"train": counts}, ["train"])["shaft 2"] == pytest.approx(speed)


def test_wet_density_of_a_saturated_clay():
    # phase relations: w = 40 %, G_s = 2.70: (2.70 + 0.4 * 2.70) / (1 + 0.4 * 2.70) = 1.817 t/m3
    assert clay.wet_density("40 %", "2700 kg/m^3").m_as("kg/m**3") == pytest.approx(1817, abs=1)
