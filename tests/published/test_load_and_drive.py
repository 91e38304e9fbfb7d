"""Values from outside for clay, vane, cone, motor curve and meshes."""

import numpy as np
import pytest

from mixerkit.drive.gearpaths import solve_speeds
from mixerkit.drive.induction import breakdown_slip, kloss_torque, slip_at_torque, synchronous_speed
from mixerkit.load import clay, clay_tests, paddles
from mixerkit.tables import table


# worked examples of courses on soil mechanics: (w, LL, PL, LI)
@pytest.mark.parametrize(
    ("water", "liquid", "plastic", "index"),
    [(0.29, 0.45, 0.18, 11 / 27), (0.34, 0.55, 0.25, 0.30)],
)
def test_liquidity_index(water, liquid, plastic, index):
    assert clay.liquidity_index.formula(water, liquid, plastic) == pytest.approx(index, abs=0.005)


def test_vane_of_an_entrance_examination():
    # GATE, field vane 50 x 100 mm, fails at 4.6 N m: 10 kPa to the nearest whole
    assert round(clay_tests.strength_from_vane("4.6 N*m", "50 mm", "100 mm").m_as("kPa")) == 10


def test_vane_of_a_laboratory_sheet():
    # laboratory sheet: 3.75 cm x 7.5 cm, T = 0.67 kgf cm: 0.0034 kgf/cm2 (sheet rounds down)
    found = clay_tests.strength_from_vane(f"{0.67 * 9.80665e-2} N*m", "37.5 mm", "75 mm")
    assert found.m_as("kPa") / 98.0665 == pytest.approx(0.00345, abs=0.0001)


# Vardanega & Haigh (2014), abstract and text: 1.7 kPa at the liquid limit, factor 35 to the plastic limit
def test_strength_by_liquidity_index():
    assert clay.strength_from_liquidity(1.0).m_as("kPa") == pytest.approx(1.7)
    assert (clay.strength_from_liquidity(0.0) / clay.strength_from_liquidity(1.0)).m_as(
        ""
    ) == pytest.approx(35)
    # the same authors quote ln form: s_u = 1.7 exp(3.55 (1 - LI)), ln 35 = 3.555
    assert clay.strength_from_liquidity(0.5).m_as("kPa") == pytest.approx(
        1.7 * np.exp(3.555 * 0.5), rel=1e-3
    )


def test_hundredfold_relation():
    # Wroth & Wood (1978): 1.7 kPa at the liquid limit and 170 kPa at the plastic limit
    assert clay.strong_bound(0.0).m_as("kPa") == pytest.approx(170)
    assert clay.strong_bound(1.0).m_as("kPa") == pytest.approx(1.7, rel=0.01)


# BS 1377 takes the liquid limit where an 80 g, 30 degree cone sinks 20 mm, about 1.6 to 1.7 kPa; Koumoto &
# Houlsby (2001) propose the 60 g, 60 degree cone at 10 mm for the same state
@pytest.mark.parametrize(("mass", "angle", "sinks"), [(80, 30, 20), (60, 60, 10)])
def test_cones_at_the_liquid_limit(mass, angle, sinks):
    assert clay_tests.strength_from_cone(f"{mass} g", f"{sinks} mm", angle).m_as(
        "kPa"
    ) == pytest.approx(1.65, abs=0.1)


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
