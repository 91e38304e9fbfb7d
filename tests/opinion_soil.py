"""A second opinion on the soil tests: vane, rod, liquidity and density by general geotechnical libraries.

Run by tests/long.py, not by the quick tier; it needs the extra ``long`` and is never skipped: without
the libraries it fails. None of the libraries that were looked at has a fall cone, nor strength by
liquidity index: for these two stand the published values of tests/published/ alone. The bearing factor
of the rod is the library's own default, that of API RP 2GEO for a deep end in clay.
"""

import numpy as np
import pytest

from mixerkit.load import clay, clay_tests

WITHIN = 1e-6


def drawn(seed, *ranges):
    rng = np.random.default_rng(seed)
    return [float(rng.uniform(low, high)) for low, high in ranges]


@pytest.mark.parametrize("seed", range(200))
def test_vanes_of_any_size(seed):
    from geoeq.site.vane import vane_su

    torque, diameter, height = drawn(seed, (0.01, 50.0), (12.0, 120.0), (12.0, 240.0))
    theirs = vane_su(torque / 1e3, diameter / 1e3, height / 1e3)
    ours = clay_tests.strength_from_vane.formula(torque, diameter, height)
    assert ours == pytest.approx(theirs, rel=WITHIN)
    assert clay_tests.vane_torque.formula(theirs, diameter, height) == pytest.approx(
        torque, rel=WITHIN
    )


@pytest.mark.parametrize("seed", range(200))
def test_rods_pressed_deep(seed):
    from groundhog.deepfoundations.axialcapacity.endbearing import API_unit_end_bearing_clay

    strength, diameter = drawn(seed, (1.0, 200.0), (4.0, 30.0))
    # pressure of the end in kPa over its area in mm2: the load on the rod in N
    pressed = API_unit_end_bearing_clay(strength)["q_b_plugged [kPa]"]
    load = pressed * 1e-3 * np.pi * diameter**2 / 4
    assert clay_tests.strength_from_rod.formula(load, diameter) == pytest.approx(
        strength, rel=WITHIN
    )


@pytest.mark.parametrize("seed", range(200))
def test_water_between_the_limits(seed):
    from geoeq.soil.properties import liquidity_index

    water, plastic, span = drawn(seed, (0.1, 0.8), (0.12, 0.45), (0.05, 0.6))
    theirs = liquidity_index(100 * water, 100 * plastic, 100 * span)
    ours = clay.liquidity_index.formula(water, plastic + span, plastic)
    assert ours == pytest.approx(theirs, rel=WITHIN, abs=1e-12)


@pytest.mark.parametrize("seed", range(200))
def test_density_without_air(seed):
    from groundhog.siteinvestigation.classification import phaserelations

    water, grains = drawn(seed, (0.05, 1.0), (2.5, 2.8))
    # with water of 10 kN/m3 its unit weight in kN/m3 is a tenth of the density over that of water
    theirs = phaserelations.unitweight_watercontent_saturated(water, grains, 10.0)["gamma [kN/m3]"]
    ours = clay.wet_density.formula(water, 1e3 * grains)
    assert ours == pytest.approx(100 * theirs, rel=WITHIN)
