"""The metal between both bores of plates and far wall, worked out by hand, and through the maker's door."""

import json

import numpy as np
import pytest

from mixerkit import Design, Machine
from mixerkit.__main__ import main
from mixerkit.parts.bore_webs import least_web, web_stress
from mixerkit.shop.holes import plate

BORED, BEARS = "metal-between-both-bores-can-be-bored", "metal-between-both-bores-bears-a-jam"


def found(values, name, part="plates"):
    (one,) = [
        check
        for check in Machine(Design.demo().with_values(values)).checks
        if check.id == f"frame.{part}.{name}"
    ]
    return one


def test_the_web_that_is_left_by_hand():
    # 125 mm between shafts, bearings of 120 mm outside: 5 mm; a twelfth of 120 mm is 10 mm
    for part in ("plates", "far-wall"):
        one = found({"housing.centre_distance": "125 mm"}, BORED, part)
        assert (one.demand, one.capacity, one.verdict) == (
            pytest.approx(10.0),
            pytest.approx(5.0),
            "fails",
        )
        drawn = found({}, BORED, part)
        assert (drawn.capacity, drawn.verdict) == (pytest.approx(30.0), "holds")
    # bearings of unlike size: (120 + 110)/2 from 125 mm
    unlike = {"housing.centre_distance": "125 mm", "shaft_2.diameter": "40 mm"}
    assert found(unlike, BORED).capacity == pytest.approx(10.0)
    # small bores keep the least that is left between any
    assert least_web(30.0) == pytest.approx(6.0)


def test_what_a_jam_asks_of_the_web_by_hand():
    # 8 and 26 kN: half of each pulls, 17 kN; the larger bends as 26 kN x 2/pi = 16.552 kN; together 23.727 kN on
    # 5 mm x 29 mm = 145 mm^2
    assert web_stress("8 kN", "26 kN", "5 mm", "29 mm").m == pytest.approx(163.63, abs=0.02)
    # by the beam itself: 2 sqrt(5 x 60) = 34.641 mm fixed at both ends, 4 x 26000/(pi x 120) = 275.87 N/mm: in the
    # middle 275.87 x 1200/24 = 13793 N mm on 29 x 25/6 = 120.83 mm^3
    bent = float(web_stress.formula(0.0, 26e3, 5.0, 29.0))
    assert np.sqrt(bent**2 - (13e3 / 145) ** 2) == pytest.approx(13793 / 120.83, rel=1e-4)
    drawn = found({}, BEARS)
    assert drawn.verdict == "holds"
    # 30 mm of web where 7574 and 27944 N press: hypot((7574 + 27944)/2, 27944 x 2/pi) on 30 mm x 29 mm:
    # 25137 N on 870 mm^2
    assert drawn.demand == pytest.approx(28.893, abs=0.02)


def test_two_millimetres_do_not_bear_a_jam_and_bores_that_meet_are_no_plate():
    thin = {
        "housing.centre_distance": "112 mm",
        "shaft_1.diameter": "40 mm",
        "shaft_2.diameter": "40 mm",
    }
    assert found(thin, BORED).capacity == pytest.approx(2.0)
    assert found(thin, BEARS).verdict == "fails"
    met = found({"housing.centre_distance": "115 mm"}, BEARS)
    assert met.verdict == "fails"
    assert "run into each other" in met.sentence()


def test_housings_that_are_bolted_on_leave_no_web_in_the_far_wall():
    ids = {
        one.id
        for one in Machine(Design.demo().with_values({"bearings.far_end": "insert bearing"})).checks
    }
    assert f"frame.plates.{BORED}" in ids
    assert f"frame.far-wall.{BORED}" not in ids


def test_what_is_offered_for_a_thin_web_can_be_typed(tmp_path, capsys):
    near = Design.demo().with_values({"housing.centre_distance": "125 mm"})
    check = next(one for one in Machine(near).checks if one.id == f"frame.plates.{BORED}")
    lighter = next(one for one in check.fix if "bearings.series" in one)
    apart = next(one for one in check.fix if "housing.centre_distance" in one)
    # 63 on 45 mm: 100 mm outside leaves 25 mm; one tooth more on each gear of 5 mm moves the shafts 5 mm apart
    assert lighter == {"bearings.series": "63"}
    assert apart["housing.centre_distance"] == pytest.approx(130.0)
    assert list(apart["paths.direct.tooth_counts"]) == [31, 31]
    file = tmp_path / "mixer.toml"
    file.write_text(near.with_values(lighter).to_toml(), "utf-8")
    main(["check", str(file), "--json", "--no-remedies"])
    told = json.loads(capsys.readouterr().out)
    (one,) = [row for row in told["checks"] if row["id"] == f"frame.plates.{BORED}"]
    assert one["verdict"] == "holds"


def test_the_web_is_the_one_that_the_hole_chart_leaves():
    design = Design.demo().with_values({"housing.centre_distance": "125 mm"})
    one, two = (hole for hole in plate(design, "trough").holes if hole.name.startswith("shaft"))
    left = np.hypot(one.x - two.x, one.y - two.y) - (one.diameter + two.diameter) / 2
    assert found({"housing.centre_distance": "125 mm"}, BORED).capacity == pytest.approx(left)
