"""Bolted joints, plates under a push and sheet between ribs, against handbooks.

All values are from memory; where a closed form can be had by another way, it is worked out beside them.
"""

import numpy as np
import pytest

from mixerkit.parts.bolts import bolt_endurance, joint_constant
from mixerkit.parts.frame_layout import hole_factor
from mixerkit.parts.sheet_plates import (
    patch_deflection,
    patch_stress,
    strip_deflection,
    strip_stress,
)
from mixerkit.tables import table


def test_a_strip_under_even_pressure_is_a_beam_that_cannot_draw_in():
    # beam of 1 mm width: M = p b^2/8, W = t^2/6; y = 5 p b^4 (1 - nu^2)/(384 E t^3/12)
    p, b, t, e = 0.01, 200.0, 4.0, 200e3
    assert strip_stress.formula(p, b, t) == pytest.approx(p * b**2 / 8 / (t**2 / 6))
    by_beam = 5 * p * b**4 * (1 - 0.3**2) / (384 * e * t**3 / 12)
    assert strip_deflection.formula(p, b, t, e) == pytest.approx(by_beam, rel=2e-3)


def test_a_strip_under_a_point_load_as_timoshenko_has_it():
    # Timoshenko & Woinowsky-Krieger, Theory of Plates and Shells, 2nd ed., section 34: 0.01695 P b^2/D (from memory)
    w, b, t, e = 500.0, 150.0, 3.0, 200e3
    stiff = e * t**3 / 12 / (1 - 0.3**2)
    assert patch_deflection.formula(w, b, t, e) == pytest.approx(
        0.01695 * w * b**2 / stiff, rel=1e-3
    )


def test_a_strip_under_a_point_load_by_its_own_series():
    # Timoshenko, the same section: y = P b^2/(2 pi^3 D) times the sum of 1/m^3 over odd m
    odd = np.arange(1, 2001, 2)
    factor = (1 / odd**3.0).sum() / (2 * np.pi**3) * 12 * (1 - 0.3**2)
    assert patch_deflection.formula(1.0, 1.0, 1.0, 1.0) == pytest.approx(factor, rel=1e-3)


def test_a_small_patch_on_thick_sheet_spreads_as_westergaard_has_it():
    # Roark, 7th ed., section 11.1: a point has r' = t - 0.675 t = 0.325 t (from memory)
    point = patch_stress.formula(100.0, 100.0, 10.0, 1e-6)
    by_hand = 3 * 100 / (2 * np.pi * 100) * (1.3 * np.log(200 / (np.pi * 3.25)) + 1)
    assert point == pytest.approx(by_hand, rel=1e-6)


@pytest.mark.parametrize(
    ("size", "amplitude"),
    # VDI 2230 part 1, 0.85*(150/d + 45): the values of its table for M8 to M24, rounded (from memory)
    [("8 mm", 54.2), ("10 mm", 51.0), ("12 mm", 48.9), ("16 mm", 46.2), ("20 mm", 44.6)],
)
def test_bolts_endure_as_vdi_2230_has_it(size, amplitude):
    assert bolt_endurance(size).m_as("MPa") == pytest.approx(amplitude, abs=0.05)


@pytest.mark.parametrize("times", [1.0, 2.0, 4.0])
def test_the_plates_of_a_joint_are_the_frusta_added_up(times):
    # two frusta of 30 degrees from heads 1.5 d wide, Shigley 10th ed., eq. 8-20, integrated in steps
    size, grip = 12.0, 12.0 * times
    x = np.linspace(0, grip / 2, 20001)
    wide = 1.5 * size + 2 * np.tan(np.radians(30)) * x
    area = np.pi / 4 * (wide**2 - size**2)
    gives = 2 * np.trapezoid(1 / area, x)
    plates, bolt = 1 / gives, np.pi / 4 * size**2 / grip
    assert joint_constant.formula(size, grip) == pytest.approx(bolt / (bolt + plates), rel=1e-3)


def test_a_wide_hole_in_a_bent_plate_as_elasticity_has_it():
    # thin plate: (5 + 3 nu)/(3 + nu) = 1.788 for nu = 0.3 (Peterson, from memory)
    assert hole_factor.formula(1000.0, 1.0) == pytest.approx(5.9 / 3.3, rel=2e-3)
    # a hole much smaller than the plate is thick: 3, as in a plate that is pulled
    assert hole_factor.formula(1e-6, 1.0) == pytest.approx(3.0, rel=0.01)


def test_classes_of_bolts_are_as_their_names_say():
    for row in table("bolt_classes"):
        one = row.values
        assert one["proof_strength"] < one["yield_strength"] < one["tensile_strength"]
        if not one["name"].startswith("SAE"):
            tensile, share = one["name"].split(".")
            # ISO 898-1: hundredths of the tensile strength, and yield in tenths of it
            assert one["tensile_strength"] == pytest.approx(100 * int(tensile), rel=0.05)
            ratio = one["yield_strength"] / one["tensile_strength"]
            assert ratio == pytest.approx(int(share) / 10, rel=0.02)
