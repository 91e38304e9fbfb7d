"""Torque that pulses every turn, and torque that is turned about: what both ask of a shaft."""

import itertools

import numpy as np
import pytest
from fixed import fixed

from mixerkit import Design, Machine
from mixerkit.__main__ import main
from mixerkit.parts import fatigue, shaft_rules
from mixerkit.units import InputError

DEMO = fixed("tired")
FATIGUE = "shafts.shaft-{}.diameter-for-fatigue-while-mixing"
TURNED = "shafts.shaft-{}.diameter-for-fatigue-by-turning-about"


def named(design, key):
    return next(one for one in Machine(design).checks if one.id == key)


def counted(times, design=DEMO):
    return design.with_values({"batch.reversals": times})


def test_the_handbooks_shaft_stays_and_pulses():
    # Shigley 10th ed., example 7-1 (from memory): steady torque, n = 1.62
    steady = fatigue.goodman_factor(
        "1260 lbf*in", "1100 lbf*in", "0 lbf*in", "1.1 in", "29.3 ksi", "105 ksi", 1.58, 1.39
    )
    assert steady.magnitude == pytest.approx(1.62, abs=0.01)
    # the same torque falling to nought between, 550 about 550: sqrt(4 (1.58 x 1260)^2 + 3 (1.39 x 550)^2) = 4196.0,
    # over 29 300 is 0.143208; sqrt(3) x 1.39 x 550/105 000 = 0.012611; pi 1.1^3/16/0.155819 = 1.6772
    pulses = fatigue.goodman_factor(
        "1260 lbf*in", "550 lbf*in", "550 lbf*in", "1.1 in", "29.3 ksi", "105 ksi", 1.58, 1.39
    )
    assert pulses.magnitude == pytest.approx(1.6772, abs=1e-3)
    # turned about: sqrt(4 (1990.8)^2 + 3 (1529)^2) = 4783.6 over 29 300 is 0.163263: 0.261343/0.163263 = 1.6007
    turned = fatigue.goodman_factor(
        "1260 lbf*in", "0 lbf*in", "1100 lbf*in", "1.1 in", "29.3 ksi", "105 ksi", 1.58, 1.39
    )
    assert turned.magnitude == pytest.approx(1.6007, abs=1e-3)


@pytest.mark.parametrize(
    ("cycles", "strength"),
    [
        # f Sut = 0.77 x 700 = 539; a = 539^2/200 = 1452.605, b = -lg(539/200)/3 = -0.143520
        (1e3, 539.0),
        # 1452.605 x 30 000^-0.143520 = 1452.605 x 10^-0.642556 = 330.8
        (3e4, 330.8),
        (1e6, 200.0),
        # fewer are no stronger, more no weaker
        (10, 539.0),
        (1e9, 200.0),
    ],
)
def test_strength_for_a_count_of_cycles(cycles, strength):
    found = fatigue.finite_strength("200 MPa", "700 MPa", cycles)
    assert found.m_as("MPa") == pytest.approx(strength, abs=0.05)


def test_reversals_are_counted_over_the_life():
    # 2000 h x 60 x 24 rpm/200 turns a batch = 14 400 batches, 20 reversals each
    assert shaft_rules.reversals(Machine(counted(20))) == pytest.approx(288_000)
    assert shaft_rules.reversals(Machine(counted(0))) == 0
    # where nobody counted it is for ever: 14.4 million
    text = "\n".join(
        line for line in DEMO.to_toml().splitlines() if not line.startswith("reversals")
    )
    uncounted = Machine(Design.parse(text, "uncounted.toml"))
    assert shaft_rules.reversals(uncounted) == pytest.approx(14_400_000)
    line = uncounted.shaft_beams[0]
    assert shaft_rules.strength_for_reversals(line, 173.0) == pytest.approx(173.0)


def by_hand(moment, swing, mean, strength, tensile, factors):
    """Diameter in mm, Shigley eq. 7-8, factor 1.3."""
    bend, turn = factors
    felt = np.sqrt(4 * (bend * moment) ** 2 + 3 * (turn * swing) ** 2) / strength
    felt += np.sqrt(3) * turn * mean / tensile
    return np.cbrt(16e3 * 1.3 * felt / np.pi)


@pytest.mark.parametrize("number", [1, 2])
def test_every_turn_the_torque_stays_or_falls_to_nought_whichever_is_worse(number):
    line = Machine(DEMO).shaft_beams[number - 1]
    check, endurance = named(DEMO, FATIGUE.format(number)), shaft_rules.endurance_along(line)
    mixing = line.machine.load_cases.mixing[line.running.states]
    worst = 0.0
    for k in np.flatnonzero(mixing):
        for i in range(len(line.places)):
            moment = line.running.moment[k, :, i].max()
            torque = line.running.torque[k, :, i].max()
            asked = max(
                by_hand(moment, share, torque - share, endurance[i], 630.0, line.factors[i])
                for share in (0.0, torque / 2)
            )
            worst = max(worst, asked / line.diameters[i])
    assert check.demand / check.capacity == pytest.approx(worst, rel=1e-9)


@pytest.mark.parametrize("number", [1, 2])
def test_turned_about_the_torque_of_a_start_swings_whole(number):
    line = Machine(DEMO).shaft_beams[number - 1]
    check, endurance = named(DEMO, TURNED.format(number)), shaft_rules.endurance_along(line)
    # 288 000 reversals: a N^b of 0.77 x 630 = 485.1 MPa at a thousand
    a, b = 485.1**2 / endurance, -np.log10(485.1 / endurance) / 3
    strength, cases = a * 288_000**b, line.machine.load_cases
    turns = (cases.mixing | cases.starting)[line.running.states]
    worst = 0.0
    for k in np.flatnonzero(turns):
        for i in range(len(line.places)):
            moment = line.running.moment[k, :, i].max()
            torque = line.running.torque[k, :, i].max()
            asked = by_hand(moment, torque, 0.0, strength[i], 630.0, line.factors[i])
            worst = max(worst, asked / line.diameters[i])
    assert check.demand / check.capacity == pytest.approx(worst, rel=1e-9)
    assert "starting" in check.state


def test_a_torque_that_pulses_asks_more_where_torsion_is_all():
    # a keyway with next to no bending: T 200 N m, Kfs 2.6, 170 and 630 MPa: steady sqrt(3) x 2.6 x 200/630 = 1.43,
    # pulsing sqrt(3) x 2.6 x 100 x (1/170 + 1/630) = 3.36: 1.33 times the diameter
    steady, pulses = (
        fatigue.diameter_for_fatigue.formula(0.0, mean, swing, 170.0, 630.0, 1.3, 1.8, 2.6)
        for mean, swing in ((200.0, 0.0), (100.0, 100.0))
    )
    assert pulses / steady == pytest.approx(np.cbrt(0.5 * (630 / 170 + 1)), rel=1e-9)


@pytest.mark.parametrize("number", [1, 2])
def test_turning_about_more_often_never_is_better(number):
    key = TURNED.format(number)
    asked = [named(counted(times), key).demand for times in (0, 1, 5, 20, 60, 200, 1000)]
    assert all(after >= before for before, after in itertools.pairwise(asked))
    assert asked[-1] > asked[0]


def test_the_working_says_what_swings():
    for number in (1, 2):
        check = named(DEMO, TURNED.format(number))
        given = {name: value for one in check.working for name, value, *_ in one.given}
        assert given["T_m"] == 0
        assert given["T_a"] > 0
        assert given["N"] == pytest.approx(288_000)


def test_a_maker_who_counts_more_reads_so(tmp_path, capsys):
    # clay that sets hard between batches
    path, text = (
        tmp_path / "mine.toml",
        Design.demo().with_values({"clay.start_factor": 5}).to_toml(),
    )

    def said(times):
        path.write_text(text.replace("reversals = 20", f"reversals = {times}"), "utf-8")
        main(["check", str(path), "--no-remedies"])
        return capsys.readouterr().out

    assert "fatigue by turning about" not in said(0)
    assert "fails  shaft 1, diameter for fatigue by turning about" in said(1000)
    with pytest.raises(InputError, match="reversals"):
        counted(-1)
