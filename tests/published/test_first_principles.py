"""Values from outside for units, motor torque, trains, torsion and the shafting code."""

import pytest

from mixerkit.drive.induction import synchronous_speed, torque_from_power
from mixerkit.parts.mesh import centre_distance
from mixerkit.parts.spurgear import pitch_diameter, tip_diameter
from mixerkit.tables import table
from mixerkit.units import Q_


# NIST Special Publication 811 (2008), appendix B.8 (from memory)
@pytest.mark.parametrize(
    ("text", "unit", "value"),
    [
        ("1 hp", "W", 745.6999),
        ("1 lbf*ft", "N*m", 1.355818),
        ("1 lbf*in", "N*m", 0.1129848),
        ("1 psi", "Pa", 6894.757),
        ("1 kgf", "N", 9.80665),
        ("1 gal", "L", 3.785412),
        ("1 lb", "kg", 0.45359237),
        ("1 lbf", "N", 4.448222),
        ("1 ft/min", "m/s", 5.08e-3),
        ("1 rpm", "rad/s", 0.1047198),
    ],
)
def test_unit_factors(text, unit, value):
    assert Q_(text).m_as(unit) == pytest.approx(value, rel=5e-7)


def test_full_load_torque_of_a_motor():
    # Electrical Apparatus handbooks: T (lb-ft) = 5252 hp / rpm
    assert torque_from_power("10 hp", "1750 rpm").m_as("lbf*ft") == pytest.approx(
        5252 * 10 / 1750, rel=1e-4
    )


# 120 f / p, poles and frequencies of common motors (any text on alternating-current machines)
@pytest.mark.parametrize(
    ("hertz", "poles", "rpm"),
    [(50, 2, 3000), (50, 4, 1500), (50, 6, 1000), (60, 4, 1800), (60, 8, 900)],
)
def test_synchronous_speeds(hertz, poles, rpm):
    assert synchronous_speed(f"{hertz} Hz", poles).m_as("rpm") == pytest.approx(rpm)


def test_gear_blank_sizes():
    # Machinery's Handbook, spur gear formulas (from memory): D = N / P, outside diameter (N + 2) / P
    assert pitch_diameter("0.2 in", 30).m_as("in") == pytest.approx(30 / 5)
    assert tip_diameter("0.2 in", 30).m_as("in") == pytest.approx(32 / 5)
    assert centre_distance("0.2 in", 30, 30).m_as("in") == pytest.approx(6)


# IEC 60034-30-1, IE3, 4 poles, 50 Hz, as quoted in a motor maker's overview
@pytest.mark.parametrize(
    ("kilowatts", "percent"),
    [(0.75, 82.5), (1.1, 84.1), (1.5, 85.3), (2.2, 86.7), (3, 87.7), (4, 88.6), (5.5, 89.6)],
)
def test_motor_efficiencies(kilowatts, percent):
    row = next(one for one in table("motors") if one.values["rated_power"] == kilowatts)
    assert row.values["efficiency"] == pytest.approx(percent / 100)


# DIN 6885-1 / ISO 773, as quoted in a published table of parallel keys
@pytest.mark.parametrize(
    ("shaft", "width", "height", "shaft_depth", "hub_depth"),
    [
        (20, 6, 6, 3.5, 2.8),
        (25, 8, 7, 4.0, 3.3),
        (30, 8, 7, 4.0, 3.3),
        (35, 10, 8, 5.0, 3.3),
        (40, 12, 8, 5.0, 3.3),
        (45, 14, 9, 5.5, 3.8),
        (55, 16, 10, 6.0, 4.3),
        (60, 18, 11, 7.0, 4.4),
        (70, 20, 12, 7.5, 4.9),
    ],
)
def test_parallel_keys(shaft, width, height, shaft_depth, hub_depth):
    row = table("keys").bracket(shaft, "above", "up_to").values
    assert (row["width"], row["height"], row["shaft_depth"], row["hub_depth"]) == (
        width,
        height,
        shaft_depth,
        hub_depth,
    )
