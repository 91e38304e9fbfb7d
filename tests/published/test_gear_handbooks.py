"""Values from outside for gear geometry, measuring and tooth strength."""

import numpy as np
import pytest

from mixerkit.parts import (
    formcutter,
    involute,
    lewis,
    measuring,
    mesh,
    spurgear,
    toothcontact,
    toothstrength,
    undercut,
)


# tables of the involute function, any gear handbook
@pytest.mark.parametrize(
    ("angle", "value"),
    [(14.5, 0.005545), (20, 0.014904), (25, 0.029975), (30, 0.053752), (45, 0.214602)],
)
def test_involute_table(angle, value):
    assert involute.involute(angle) == pytest.approx(value, abs=6e-7)
    assert involute.inverse_involute(value) == pytest.approx(angle, abs=2e-3)


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


# handbook on metric gears, table 10-1: m = 10, z = 12, x = 0.3
def test_chordal_thickness_example():
    assert spurgear.tooth_thickness("10 mm", 12, 0.3).m_as("mm") == pytest.approx(17.8918, abs=1e-4)
    thickness, height = measuring.chordal_thickness("10 mm", 12, 0.3)
    assert thickness.m_as("mm") == pytest.approx(17.8256, abs=1e-4)
    assert height.m_as("mm") == pytest.approx(13.6657, abs=1e-4)
    assert np.degrees(np.arcsin(thickness.m_as("mm") / 120)) == pytest.approx(8.54270, abs=1e-4)


# a worked table of profile-shifted spur gears: m = 3, 12 and 24 teeth, 56.5 mm, x = 0.6 and 0.36
def test_shifted_pair_table():
    assert mesh.working_pressure_angle("3 mm", 12, 24, "56.5 mm").m_as("deg") == pytest.approx(
        26.0888, abs=1e-4
    )
    assert float(mesh.shift_sum("3 mm", 12, 24, "56.5 mm")) == pytest.approx(0.960, abs=5e-4)
    assert mesh.mesh_centre_distance("3 mm", 12, 24, 0.96).m_as("mm") == pytest.approx(
        56.5, abs=2e-4
    )
    assert spurgear.base_diameter("3 mm", 12).m_as("mm") == pytest.approx(33.8289, abs=1e-4)
    assert spurgear.base_diameter("3 mm", 24).m_as("mm") == pytest.approx(67.6579, abs=1e-4)
    shortening = 0.96 - 0.83333
    tips = [
        spurgear.tip_diameter.formula(3.0, z, x, shortening) for z, x in ((12, 0.6), (24, 0.36))
    ]
    assert tips == pytest.approx([44.840, 79.400], abs=1e-3)
    roots = [spurgear.root_diameter.formula(3.0, z, x) for z, x in ((12, 0.6), (24, 0.36))]
    assert roots == pytest.approx([32.100, 66.660], abs=1e-3)
    assert mesh.contact_ratio.formula(3.0, 12, 24, *tips, 56.5) == pytest.approx(1.202, abs=1e-3)


# a published sheet for the centre distance of shifted external gears: m = 16, 30 and 78 teeth, x = 0 and 0.05
def test_shifted_centre_distance_sheet():
    distance = mesh.mesh_centre_distance.formula(16.0, 30, 78, 0.05)
    assert distance == pytest.approx(864.7972, abs=1e-4)
    assert mesh.working_pressure_angle.formula(16.0, 30, 78, distance) == pytest.approx(
        20.1446, abs=1e-4
    )


# any gear handbook: 17.1 at 20 degrees, 32 at 14.5, 11.2 at 25
@pytest.mark.parametrize(("angle", "count"), [(14.5, 31.9), (20, 17.1), (25, 11.2)])
def test_undercut_limits(angle, count):
    assert float(undercut.undercut_tooth_count(0.0, angle)) == pytest.approx(count, abs=0.06)


# contact ratios of standard pairs, 20 degrees full depth (gear handbooks, from memory): 20/20 1.56, 30/30 1.65, 20/60 1.67
@pytest.mark.parametrize(("one", "two", "ratio"), [(20, 20, 1.56), (30, 30, 1.65), (20, 60, 1.67)])
def test_contact_ratios(one, two, ratio):
    found = mesh.contact_ratio.formula(1.0, one, two, one + 2.0, two + 2.0, (one + two) / 2)
    assert found == pytest.approx(ratio, abs=0.01)


# Shigley 10th ed., table 14-2
@pytest.mark.parametrize(
    ("count", "factor"),
    [(12, 0.245), (16, 0.296), (20, 0.322), (30, 0.359), (50, 0.409), (300, 0.472)],
)
def test_lewis_table(count, factor):
    assert float(lewis.lewis_y(count)) == factor


def test_shigley_example_14_1():
    # 16 teeth, 8 per inch, 1.5 in wide, 1200 rpm, 10 ksi: V = 628 ft/min, Kv = 1.52, Wt = 365 lbf
    assert float(lewis.velocity_factor("628 ft/min")) == pytest.approx(1.52, abs=0.005)
    stress = lewis.lewis_stress("365 lbf", "1.5 in", "0.125 in", 16, "628 ft/min")
    assert stress.m_as("ksi") == pytest.approx(10.0, rel=0.005)


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
