"""Shafts, hubs, bearings, fits and guards against values from outside, each with its source."""

import numpy as np
import pytest
from sympy import Rational, diff, solve, symbols

from mixerkit.drive import guarding
from mixerkit.parts import beam, bearing, fatigue, fits, hub, notches
from mixerkit.tables import table

E, D, L, P, W = 2.1e5, 40.0, 800.0, 1000.0, 2.5
EI = float(beam.bending_stiffness(E, D))
PLACES = np.linspace(0.0, L, 9)
NONE = np.zeros(9)


def at(node, force):
    loads = NONE.copy()
    loads[node] = force
    return loads


def solved(force, supports, **more):
    return beam.solve(PLACES, np.full(8, EI), force, supports, **more)


# Shigley 10th ed., table A-9, and Roark 8th ed., table 8.1, closed forms of deflection and moment
CLOSED = {
    "two supports, load in the middle": (
        lambda: solved(at(4, -P), [0, 8]),
        lambda s: (s.deflection[4], s.moment[4], s.reactions[0]),
        (-P * L**3 / (48 * EI), P * L / 4, P / 2),
    ),
    "two supports, load off the middle": (
        lambda: solved(at(2, -P), [0, 8]),
        lambda s: (s.deflection[2], s.moment[2], s.reactions[1]),
        (-P * 200**2 * 600**2 / (3 * EI * L), P * 200 * 600 / L, P * 200 / L),
    ),
    "two supports, spread load": (
        lambda: solved(NONE, [0, 8], spread=W),
        lambda s: (s.deflection[4], s.moment[4], s.slope[0]),
        (-5 * W * L**4 / (384 * EI), W * L**2 / 8, -W * L**3 / (24 * EI)),
    ),
    "two supports, moment at one end": (
        lambda: solved(NONE, [0, 8], moment=at(0, 1e5)),
        lambda s: (s.slope[0], s.slope[8], s.reactions[0]),
        (-1e5 * L / (3 * EI), 1e5 * L / (6 * EI), -1e5 / L),
    ),
    "cantilever, load at the end": (
        lambda: solved(at(8, -P), [0], clamps=[0]),
        lambda s: (s.deflection[8], s.slope[8], s.clamping[0]),
        (-P * L**3 / (3 * EI), -P * L**2 / (2 * EI), -P * L),
    ),
    "cantilever, spread load": (
        lambda: solved(NONE, [0], clamps=[0], spread=W),
        lambda s: (s.deflection[8], s.slope[8], s.clamping[0]),
        (-W * L**4 / (8 * EI), -W * L**3 / (6 * EI), -W * L**2 / 2),
    ),
    "clamped and propped, spread load": (
        lambda: solved(NONE, [0, 8], clamps=[0], spread=W),
        lambda s: (s.reactions[0], s.reactions[1], s.moment[0]),
        (5 * W * L / 8, 3 * W * L / 8, -W * L**2 / 8),
    ),
    "clamped at both ends, load in the middle": (
        lambda: solved(at(4, -P), [0, 8], clamps=[0, 8]),
        lambda s: (s.deflection[4], s.moment[4], s.moment[0]),
        (-P * L**3 / (192 * EI), P * L / 8, -P * L / 8),
    ),
    "overhung load": (
        lambda: solved(at(8, -P), [0, 6]),
        lambda s: (s.deflection[8], s.moment[6], s.reactions[0]),
        (-P * 200**2 * (600 + 200) / (3 * EI), -P * 200, -P * 200 / 600),
    ),
    "three supports, spread load": (
        lambda: solved(NONE, [0, 4, 8], spread=W),
        lambda s: (s.reactions[0], s.reactions[1], s.moment[4]),
        (3 * W * 400 / 8, 10 * W * 400 / 8, -W * 400**2 / 8),
    ),
}


@pytest.mark.parametrize("name", CLOSED)
def test_closed_forms_of_handbooks(name):
    solve, pick, wanted = CLOSED[name]
    assert pick(solve()) == pytest.approx(wanted, rel=1e-9)


def test_stepped_shaft_against_an_independent_library():
    """Two diameters, two supports, loads between and overhung: the differential equation by sympy."""
    modulus, first, second = 210000, 30000, 90000
    places = [0, 200, 500, 600, 700, 900]
    loads = {200: -800, 600: -500, 900: -300}
    inertia = [first, first, second, second, second]
    x, left, right = symbols("x left right")
    # a cubic in each segment; bending and shear jump only where something acts
    lines, unknown, rules = [], [left, right], []
    for k in range(5):
        terms = symbols(f"a{k}_:4")
        unknown += terms
        lines.append(sum(term * x**power for power, term in enumerate(terms)))
    stiff = [Rational(modulus * one) for one in inertia]

    def bending(k):
        return stiff[k] * diff(lines[k], x, 2)

    def shear(k):
        return stiff[k] * diff(lines[k], x, 3)

    forces = [left, -800, 0, -500, right, -300]
    for k in range(1, 5):
        step = lines[k] - lines[k - 1]
        smooth = (step, diff(step, x), bending(k) - bending(k - 1))
        rules += [one.subs(x, places[k]) for one in smooth]
        rules.append((shear(k) - shear(k - 1)).subs(x, places[k]) - forces[k])
    rules += [
        lines[0].subs(x, 0),
        lines[4].subs(x, 700),
        bending(0).subs(x, 0),
        bending(4).subs(x, 900),
        shear(0) - left,
        shear(4) + forces[5],
    ]
    found = solve(rules, unknown, dict=True)[0]
    ours = beam.solve(
        places, modulus * np.array(inertia), [loads.get(place, 0.0) for place in places], [0, 4]
    )
    assert ours.reactions == pytest.approx([float(found[left]), float(found[right])], rel=1e-9)
    for k, place in enumerate(places):
        segment = lines[min(k, 4)].subs(found)
        assert ours.deflection[k] == pytest.approx(
            float(segment.subs(x, place)), rel=1e-6, abs=1e-12
        )
        assert ours.slope[k] == pytest.approx(float(diff(segment, x).subs(x, place)), rel=1e-6)
        assert ours.moment_left[k] == pytest.approx(
            float(bending(min(k, 4)).subs(found).subs(x, place)), rel=1e-6, abs=1e-6
        )


def test_shoulder_of_the_handbook():
    # Shigley 10th ed., example 6-6, d 32 mm, D 38 mm, r 3 mm, 690 MPa: Kt 1.65 read off a chart, Kf 1.55
    bend, turn = notches.shoulder_factors(38.0, 32.0, 3.0)
    assert float(bend) == pytest.approx(1.65, rel=0.02)
    assert float(turn) == pytest.approx(1.35, rel=0.02)
    assert notches.fatigue_factor(1.65, "3 mm", "690 MPa").magnitude == pytest.approx(
        1.55, abs=0.005
    )
    assert fatigue.size_factor("32 mm").magnitude == pytest.approx(0.8558, abs=5e-4)
    assert fatigue.surface_factor("100 ksi", "ground").magnitude == pytest.approx(0.9065, abs=1e-3)


def test_shaft_of_the_handbook():
    # Shigley 10th ed., example 7-1 (from memory): 1.1 in, Ma 1260 lbf in, Tm 1100 lbf in, Kf 1.58,
    # Kfs 1.39, Se 29.3 kpsi, Sut 105 kpsi: DE-Goodman n = 1.62
    n = fatigue.goodman_factor(
        "1260 lbf*in", "1100 lbf*in", "0 lbf*in", "1.1 in", "29.3 ksi", "105 ksi", 1.58, 1.39
    )
    assert n.magnitude == pytest.approx(1.62, abs=0.01)
    # its notch: D 1.65 in, r 0.11 in, Kt 1.68, Kts 1.42 read off charts
    bend, turn = notches.shoulder_factors(1.65, 1.1, 0.11)
    assert (float(bend), float(turn)) == (
        pytest.approx(1.68, rel=0.04),
        pytest.approx(1.42, rel=0.04),
    )


KEYS = [  # shaft, width, height, depth in the shaft: DIN 6885-1 as quoted; inch: ASME B17.1 (from memory)
    ("metric", 24, 8, 7, 4),
    ("metric", 32, 10, 8, 5),
    ("metric", 40, 12, 8, 5),
    ("metric", 45, 14, 9, 5.5),
    ("metric", 50, 14, 9, 5.5),
    ("inch", 25.4, 6.35, 6.35, 3.175),
    ("inch", 38.1, 9.525, 9.525, 4.7625),
]


@pytest.mark.parametrize(("series", "shaft", "width", "height", "depth"), KEYS)
def test_key_rows(series, shaft, width, height, depth):
    row = table("keys").only("series", series).bracket(shaft, "above", "up_to").values
    assert (row["width"], row["height"], row["shaft_depth"]) == (width, height, depth)


def test_set_screw_rows_and_angles():
    # Shigley 10th ed., table 7-4: 1/4 in, 87 lbf in and 1000 lbf; 3/8 in, 290 and 2000; 1/2 in, 620 and 3000
    for name, torque, force in (("1/4 in", 87, 1000), ("3/8 in", 290, 2000), ("1/2 in", 620, 3000)):
        row = table("set_screws").find(name)
        assert row.seating_torque.m_as("lbf*in") == pytest.approx(torque, rel=2e-3)
        assert row.holding_power.m_as("lbf") == pytest.approx(force, rel=2e-3)
    # makers' charts of holding power over the angle between two screws run from 200 to 100 %
    assert [round(hub.set_screw_share.formula(a), 2) for a in (0, 90, 120, 180)] == [
        2.0,
        1.71,
        1.5,
        1.0,
    ]


# limits in um: shafts to 80 mm from a quoted table of JIS B 0401-2 (which is ISO 286-2), holes and
# what is above 80 mm from a quoted table of ISO 286-2, h above 80 mm from a bar supplier's table
LIMITS = """
2 g6 -8 -2|2 k6 0 6|2 f7 -16 -6|2 H7 0 10|2 N7 -14 -4|5 h6 -8 0|5 m6 4 12|5 p6 12 20|5 K7 -9 3|5 M7 -12 0|
8 g6 -14 -5|8 k6 1 10|8 e8 -47 -25|8 s6 23 32|14 js6 -5.5 5.5|14 n6 12 23|14 r6 23 34|14 d9 -93 -50|
20 g6 -20 -7|20 h7 -21 0|20 k6 2 15|20 M6 -17 -4|25 M7 -21 0|25 N7 -28 -7|25 K8 -23 10|25 R7 -41 -20|28 u6 48 61|
40 g6 -25 -9|40 f7 -50 -25|40 k6 2 18|40 p6 26 42|40 N7 -33 -8|45 u6 70 86|45 M7 -25 0|60 k6 2 21|60 r6 41 60|60 s6 53 72|
60 N8 -50 -4|75 r6 43 62|70 K7 -21 9|70 e7 -90 -60|90 h6 -22 0|90 K7 -25 10|110 N7 -45 -10|110 R7 -76 -41|130 M7 -40 0|
150 K7 -28 12|150 h8 -63 0|170 N7 -52 -12|170 R7 -93 -53|200 K7 -33 13|200 h9 -115 0|230 M7 -46 0|240 N6 -51 -22|240 JS7 -23 23
"""


@pytest.mark.parametrize("row", LIMITS.replace("\n", "").split("|"))
def test_limits_of_iso_286(row):
    size, zone, low, high = row.split()
    assert fits.limits.formula(float(size), zone) == pytest.approx([float(low), float(high)])


def test_the_limits_cover_every_size_step():
    sizes = [float(row.split()[0]) for row in LIMITS.replace("\n", "").split("|")]
    ends = table("tolerance_grades").column("up_to")
    assert set(np.searchsorted(ends, sizes)) == set(range(len(ends)))
    assert len(sizes) >= 40


def test_rating_life_of_the_handbook():
    # Shigley 10th ed., example 11-1 (from memory): 400 lbf for 5000 h at 1725 rpm wants 3211 lbf = 14.3 kN
    life = bearing.rating_life("3211 lbf", "400 lbf", "1725 rpm")
    assert life.m_as("hour") == pytest.approx(5000, rel=2e-3)
    # ISO 281: twice the load leaves an eighth of the life of a ball bearing
    assert bearing.rating_life.formula(1e4, 2e3, 100) == pytest.approx(
        bearing.rating_life.formula(1e4, 1e3, 100) / 8
    )


@pytest.mark.parametrize(
    ("shape", "opening", "distance"),
    [
        ("slot", 4, 2),
        ("slot", 6, 10),
        ("square", 6, 5),
        ("slot", 8, 20),
        ("square", 8, 15),
        ("round", 8, 5),
        ("slot", 10, 80),
        ("square", 10, 25),
        ("round", 10, 20),
        ("slot", 12, 100),
        ("square", 12, 80),
        ("round", 20, 120),
        ("slot", 25, 850),
        ("square", 30, 120),
        ("square", 40, 200),
        ("round", 40, 120),
        ("round", 100, 850),
    ],
)
def test_openings_of_iso_13857(shape, opening, distance):
    # ISO 13857 table 4, as quoted in machine-safety guides
    assert guarding.reach(shape, opening)[0] == distance


def test_gaps_of_iso_13854():
    # ISO 13854 table 1, as quoted in an insurer's guide
    assert guarding.crushed(24.9)[-1] == "finger"
    assert guarding.crushed(25.0)[-1] == "hand, wrist or fist"
    assert guarding.crushed(499.0) == ["body"]
