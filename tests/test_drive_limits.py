"""Limits of the drive: speeds, plates, fuse and socket that no machine could be built with."""

import pytest

from mixerkit import Design, assess

DEMO = Design.demo()


def found(values, name, part=None, demo="larkfield"):
    """The one check of a name, of a demo with changes."""
    checks = assess(Design.demo(demo).with_values(values)).checks
    (one,) = [each for each in checks if each.name == name and part in (None, each.part)]
    return one


LID = "paddles rest before a hand is there"


def test_what_runs_on_empty_runs_on_at_the_speed_of_the_field():
    # 10 Hz, four poles: the field turns at 300 rpm, 31.42 rad/s; the rotor of 0.0035 kg m2 is braked by a
    # twentieth of 1500 W / 150.8 rad/s = 9.947 N m, so 0.4973 N m: 0.2211 s, and 0.1 s for the switch;
    # 1600 mm/s x 0.3211 s = 513.7 mm. Loaded it would turn at 240 rpm: 443 mm
    slow = {"motor.run_at": "10 Hz", "guard.lid": "interlocked", "guard.lid_distance": "450 mm"}
    lid = found(slow, LID)
    assert lid.demand == pytest.approx(513.7, abs=0.1)
    assert lid.verdict == "fails"
    (away,) = [one for one in lid.fix if "guard.lid_distance" in one]
    far = f"{away['guard.lid_distance']!r} mm"
    assert found({**slow, "guard.lid_distance": far}, LID).verdict != "fails"
    assert found(slow | {"guard.lid_distance": "513 mm"}, LID).verdict == "fails"


def test_a_jam_begins_at_the_speed_of_the_empty_machine():
    # 300 rpm / 60 = 5 rpm = 0.5236 rad/s and not 4 rpm = 0.4189: squared, the wound-up energy goes up by 25/16
    case = assess(DEMO.with_values({"motor.run_at": "10 Hz"})).case
    assert case.empty_speed == pytest.approx(5.0)
    assert case.speed == pytest.approx(4.0)
    steady, bare = case.flow.greatest, case.flow.bare.max()
    # (T - Tm)^2 = Tm^2 + (w sqrt(k J))^2, so what is left over Tm^2 goes with the speed squared
    at_5 = (bare - steady) ** 2 - steady**2
    again = assess(DEMO.with_values({"motor.run_at": "20 Hz"})).case.flow
    at_10 = (again.bare.max() - again.greatest) ** 2 - again.greatest**2
    assert at_10 / at_5 == pytest.approx(4.0)
