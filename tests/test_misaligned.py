"""A bearing that stands off the line of the others: what it forces, and what it does to every check it reaches."""

import itertools
from types import SimpleNamespace

import numpy as np
import pytest
from fixed import fixed

from mixerkit import Design, Machine
from mixerkit.__main__ import main
from mixerkit.parts import beam, bearing_loads, misaligned
from mixerkit.units import InputError

DEMO = fixed("tired")
# an even shaft: nothing helps it to carry, and its bearings' seats do not count for its stiffness
EVEN = DEMO.with_values({"sleeve.kind": "floating", "sleeve.wall": "16 mm"})
OFFSETS = (0.0, 0.05, 0.1, 0.2, 0.4)
WORSE = (
    "shafts.shaft-2.diameter-for-bending-with-torsion-while-mixing",
    "shafts.shaft-2.diameter-for-bending-with-torsion-in-a-jam",
    "shafts.shaft-2.diameter-for-fatigue-while-mixing",
    "shafts.shaft-2.diameter-for-fatigue-by-turning-about",
    "shafts.shaft-2.slope-at-the-gears-of-shaft-2",
    "shafts.shaft-2.slope-in-the-bearings-of-shaft-2",
    "shafts.shaft-2.its-bearings-stand-in-line",
    "bearings.bearings-of-shaft-2.rating-life",
    "bearings.bearings-of-shaft-2.static-load-in-a-jam",
)


def off(millimetres, design=DEMO):
    return design.with_values({"bearings.misalignment": f"{millimetres} mm"})


def named(design, key):
    return next(one for one in Machine(design).checks if one.id == key)


def test_a_middle_support_off_the_line_forces_what_a_handbook_says():
    # Roark, two equal spans l = 200 mm, middle d = 0.1 mm up; I = pi 40^4/64 = 125 664 mm^4, E = 206 GPa:
    # E I = 2.58867e10 N mm^2, R = 6 E I d/l^3 = 6 x 2.58867e10 x 0.1/8e6 = 1941.5 N,
    # M = R l/2 = 194 150 N mm = 3 E I d/l^2, hogging; the ends pull down half of R each
    stiff = np.full(2, 206e3 * 125663.7)
    bent = beam.solve([0.0, 200.0, 400.0], stiff, np.zeros(3), [0, 1, 2], settled=[0.0, 0.1, 0.0])
    assert bent.reactions == pytest.approx([-970.75, 1941.5, -970.75], rel=1e-4)
    assert bent.moment[1] == pytest.approx(-194150, rel=1e-4)
    assert bent.deflection == pytest.approx([0.0, 0.1, 0.0], abs=1e-12)


def test_an_end_support_off_the_line_forces_less_by_the_spans():
    # the middle then is off the line of the ends by e = d b/(a + b) = 0.1 x 300/500 = 0.06 mm below:
    # M = 3 E I e/(a b) = 3 x 2e10 x 0.06/(200 x 300) = 60 000 N mm, sagging
    bent = beam.solve(
        [0.0, 200.0, 500.0], np.full(2, 2e10), np.zeros(3), [0, 1, 2], settled=[0.1, 0.0, 0.0]
    )
    assert bent.moment[1] == pytest.approx(60000, rel=1e-9)
    # R = M/a, M/b at the ends
    assert bent.reactions == pytest.approx([300.0, -500.0, 200.0], rel=1e-9)


def test_on_two_supports_an_offset_only_tilts():
    bent = beam.solve(
        [0.0, 250.0, 500.0], np.full(2, 2e10), np.zeros(3), [0, 2], settled=[0.0, 0.1]
    )
    assert bent.moment == pytest.approx(0, abs=1e-6)
    assert bent.slope == pytest.approx(0.1 / 500)
    assert misaligned.checks(SimpleNamespace(supports=[0, 2]), "", tuple) == []


@pytest.mark.parametrize("number", [1, 2])
def test_an_even_shaft_of_the_demo_is_forced_as_the_closed_form_says(number):
    line = Machine(EVEN).shaft_beams[number - 1]
    # plates 190 mm apart and 20 mm thick: a = 210 mm; the trough's span b = 400 mm; 45 mm round:
    # I = pi 45^4/64 = 201 289 mm^4; M = 3 E I d/(a b) with d = 0.1 mm
    # and E = 210 GPa: 151 000 N mm
    moment = 3 * 210e3 * 201289 * 0.1 / (210 * 400)
    first, middle, last = line.supports
    assert line.forced.moment[middle] == pytest.approx(moment, rel=1e-5)
    assert line.forced.moment[[first, last]] == pytest.approx(0, abs=1e-6 * moment)
    assert line.forced.reaction == pytest.approx(
        [moment / 210, moment / 210 + moment / 400, moment / 400], rel=1e-5
    )
    # the middle one off tilts the first bearing most: the line to it d/a, and M a/(6 E I) = d/(2 b) of its bend
    assert line.forced.slope[first] == pytest.approx(0.1 / 210 + 0.1 / (2 * 400), rel=1e-5)


def test_it_is_added_to_what_a_turn_and_a_jam_do():
    straight, bent = (Machine(off(one, EVEN)).shaft_beams[1] for one in (0.0, 0.1))
    forced = bent.forced
    assert bent.running.moment == pytest.approx(straight.running.moment + forced.moment / 1e3)
    assert bent.stopped.moment == pytest.approx(straight.stopped.moment + forced.moment / 1e3)
    assert bent.running.reaction == pytest.approx(straight.running.reaction + forced.reaction)
    assert bent.stopped.reaction == pytest.approx(straight.stopped.reaction + forced.reaction)
    for place in range(3):
        (calm, still), (lasting, most) = (
            bearing_loads.loads(one, place) for one in (straight, bent)
        )
        jammed = bent.machine.load_cases.jammed
        assert most[jammed] == pytest.approx(still[jammed] + forced.reaction[place])
        assert np.all(lasting[~jammed] > calm[~jammed])


def test_more_of_it_never_is_better():
    found = [{one.id: one.spare for one in Machine(off(each)).checks} for each in OFFSETS]
    for key in WORSE:
        spares = [one[key] for one in found]
        assert all(after < before for before, after in itertools.pairwise(spares)), key
    for key in found[0]:
        spares = [one[key] for one in found]
        assert all(after <= before + 1e-9 for before, after in itertools.pairwise(spares)), key


@pytest.mark.parametrize("number", [1, 2])
def test_at_what_it_can_take_the_shaft_has_just_its_factor(number):
    key = f"shafts.shaft-{number}.its-bearings-stand-in-line"
    check = named(DEMO, key)
    assert check.demand == 0.1
    at_most = off(check.capacity)
    rules = [
        named(at_most, f"shafts.shaft-{number}.diameter-for-fatigue-{one}")
        for one in ("while-mixing", "by-turning-about")
    ]
    assert max(one.demand / one.capacity for one in rules) == pytest.approx(1, rel=1e-6)
    assert named(at_most, key).capacity == pytest.approx(check.capacity, rel=1e-6)


def test_the_room_for_it_follows_from_its_working():
    check = named(DEMO, "shafts.shaft-1.its-bearings-stand-in-line")
    given = {name: value for one in check.working for name, value, *_ in one.given}
    # DE-Goodman solved for the moment, by hand: 42.5 mm in a ring's groove, factor 1.3, 630 MPa
    left = np.pi * 42.5**3 / (16e3 * 1.3) - np.sqrt(3) * given["K_fs"] * given["T_m"] / 630
    borne = (
        np.sqrt((given["sigma_f"] * left) ** 2 - 3 * (given["K_fs"] * given["T_a"]) ** 2)
        / 2
        / given["K_f"]
    )
    assert check.capacity == pytest.approx((borne - given["M"]) / given["m"], rel=1e-9)


def test_where_fatigue_cannot_be_judged_neither_can_the_line():
    check = named(
        DEMO.with_values({"sleeve.pin_diameter": "40 mm"}),
        "shafts.shaft-2.its-bearings-stand-in-line",
    )
    assert not check.judged
    assert check.verdict == "fails"


def test_a_measured_value_in_the_file_is_what_is_checked(tmp_path, capsys):
    path = tmp_path / "mine.toml"
    text = Design.demo().to_toml()
    assert main(["check", _written(path, text)]) == 0
    capsys.readouterr()
    more = text.replace('misalignment = "0.05 mm"', 'misalignment = "0.5 mm"', 1)
    assert main(["check", _written(path, more)]) == 1
    said = capsys.readouterr().out
    assert "fails  shaft 1, its bearings stand in line: 0.5 mm asked" in said
    assert "bearings.misalignment" in said
    with pytest.raises(InputError, match="misalignment"):
        off(-0.1)


def _written(path, text):
    path.write_text(text, "utf-8")
    return str(path)
