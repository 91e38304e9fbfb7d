"""Values from outside for gear geometry, measuring and tooth strength."""

import numpy as np
import pytest

from mixerkit.parts import (
    formcutter,
    measuring,
    mesh,
    toothcontact,
    toothstrength,
)


# table of base tangents for module 1, 20 degrees, as in European gear handbooks (from memory)
@pytest.mark.parametrize(
    ("count", "spanned", "length"),
    [
        (17, 2, 4.6663),
        (18, 3, 7.6324),
        (20, 3, 7.6604),
        (24, 3, 7.7165),
        (30, 4, 10.7526),
        (40, 5, 13.8448),
        (50, 6, 16.9370),
        (60, 7, 20.0292),
        (100, 12, 35.3500),
    ],
)
def test_base_tangent_table(count, spanned, length):
    assert measuring.base_tangent.formula(1.0, count, spanned) == pytest.approx(length, abs=2e-4)
    assert measuring.base_tangent.formula(1.0, count, spanned) == pytest.approx(
        2.9521 * (spanned - 0.5) + 0.0140 * count, abs=2e-3
    )


def test_base_tangent_of_a_shifted_gear():
    # handbook on metric gears, span example: m = 3, z = 24, x = 0.4: 4 teeth, 32.8266 mm (from memory)
    assert int(measuring.base_tangent_teeth(24, 0.4)) == 4
    assert measuring.base_tangent("3 mm", 24, 4, 0.4).m_as("mm") == pytest.approx(32.8266, abs=1e-4)


# Machinery's Handbook, over pins of 1.728 / P, 20 degrees, diametral pitch 1 (from memory)
@pytest.mark.parametrize(
    ("count", "size"), [(18, 20.3840), (20, 22.3900), (22, 24.3952), (24, 26.3997)]
)
def test_over_pins_table(count, size):
    assert measuring.over_pins("1 in", count, "1.728 in").m_as("in") == pytest.approx(
        size, abs=3e-4
    )


# contact ratios of standard pairs, 20 degrees full depth (gear handbooks, from memory): 20/20 1.56, 30/30 1.65, 20/60 1.67
@pytest.mark.parametrize(("one", "two", "ratio"), [(20, 20, 1.56), (30, 30, 1.65), (20, 60, 1.67)])
def test_contact_ratios(one, two, ratio):
    found = mesh.contact_ratio.formula(1.0, one, two, one + 2.0, two + 2.0, (one + two) / 2)
    assert found == pytest.approx(ratio, abs=0.01)


# tables of the tooth form factor and stress correction, load at the tip, rack of 20 degrees, in texts after ISO 6336-3
# (from memory)
@pytest.mark.parametrize(
    ("count", "form", "correction"),
    [
        (17, 2.97, 1.52),
        (18, 2.91, 1.53),
        (19, 2.85, 1.54),
        (20, 2.80, 1.55),
        (22, 2.72, 1.57),
        (25, 2.62, 1.59),
        (30, 2.52, 1.625),
        (40, 2.40, 1.67),
        (50, 2.32, 1.70),
        (60, 2.28, 1.73),
        (100, 2.18, 1.79),
        (150, 2.14, 1.83),
        (200, 2.12, 1.865),
    ],
)
def test_iso_form_factors(count, form, correction):
    found = toothstrength.form_factors(count, 0.0, count / 2 + 1.0)
    assert found[0] == pytest.approx(form, rel=0.012)
    assert found[1] == pytest.approx(correction, rel=0.012)


def test_iso_contact_factors():
    # ISO 6336-2: Z_E of steel on steel 189.8, Z_H of unshifted spur gears of 20 degrees 2.495
    assert toothcontact.elastic_factor(206e3, 206e3) == pytest.approx(189.8, abs=0.1)
    zone, _ = toothcontact.contact_factors(1.0, 20, 40, 30.0, 1.6)
    assert zone == pytest.approx(2.495, abs=0.001)


def test_contact_stress_is_hertz_at_the_pitch_point():
    # Shigley 10th ed., eq. 3-73 and 3-74: two cylinders with the flanks' radii, pressed by the normal force
    force, width, module, one, two = 2500.0, 40.0, 5.0, 22, 34
    turned = np.radians(20)
    radii = [module * z / 2 * np.sin(turned) for z in (one, two)]
    soft = 2 * (1 - 0.3**2) / 206e3
    half = np.sqrt(
        4 * force / np.cos(turned) / (np.pi * width) * soft / (1 / radii[0] + 1 / radii[1])
    )
    pressure = 2 * force / np.cos(turned) / (np.pi * half * width)
    zone, _ = toothcontact.contact_factors(module, one, two, module * (one + two) / 2, 1.0)
    found = toothcontact.contact_stress.formula(
        force, width, module * one, two / one, zone, toothcontact.elastic_factor(206e3, 206e3), 1.0
    )
    assert found == pytest.approx(pressure, rel=1e-6)


# Machinery's Handbook, eight involute cutters (from memory), both ends of every range
@pytest.mark.parametrize(
    ("number", "fewest", "most"),
    [
        (1, 135, 5000),
        (2, 55, 134),
        (3, 35, 54),
        (4, 26, 34),
        (5, 21, 25),
        (6, 17, 20),
        (7, 14, 16),
        (8, 12, 13),
    ],
)
def test_form_cutter_numbers(number, fewest, most):
    assert formcutter.cutter_number(fewest) == formcutter.cutter_number(most) == number
    assert formcutter.made_for(number) == fewest
