"""How many batches a shear pin is good for: by hand, and through the maker's door."""

import json
from math import log10

import pytest

from mixerkit import Design, Machine
from mixerkit.__main__ import main
from mixerkit.drive.pin_lives import pin_life, said

DEMO = Design.demo()
LASTS = "jam.fuse.pins-last"


def check(design, key=LASTS):
    (found,) = (one for one in Machine(design).checks if one.id == key)
    return found


def test_a_pin_that_each_turn_about_shears_at_by_hand():
    """Larkfield's pin: 298.56 N m of a start, 397.1 N m that break the weakest of its bar, 5.45 mm at 60 mm.

    397.1e3/60/23.328 = 283.71 MPa of shear, over 0.82 a steel of 345.98 MPa; endurance 0.814 x 4.51 x 345.98^-0.265 =
    0.7797 of 172.99 MPa = 134.9 MPa (no size counts below 7.4 mm), 0.577 of it in shear 77.83 MPa, half of that at
    the neck: 38.92 MPa, 0.13717 of what breaks it.
    """
    found = pin_life(Machine(DEMO))
    assert found.endured == pytest.approx(38.92 / 283.71, rel=1e-3)
    assert (found.at_few, found.share) == (0.9, pytest.approx(298.557 / 397.1, rel=1e-4))
    # to and fro: 0.9 a thousand times, 0.13717 a million times, on a straight line of logarithms
    swings = 10 ** (3 + 3 * log10(0.9 / 0.75184) / log10(0.9 / 0.13717))
    assert swings == pytest.approx(1938, abs=3)
    assert found.swings == pytest.approx(swings, rel=1e-3)
    # one way only: half of it swings about the other half, 0.37592/(1 - 0.37592) = 0.60236 of it to and fro
    pulses = 10 ** (3 + 3 * log10(0.9 / 0.60236) / log10(0.9 / 0.13717))
    assert found.pulses == pytest.approx(pulses, rel=1e-3)
    # 20 turns about are 10 swings, and one start besides
    assert found.batches == pytest.approx(1 / (10 / swings + 1 / pulses), rel=1e-3)
    assert check(DEMO).capacity == found.batches
    assert (
        said(Machine(DEMO)) == f"Starts tire its pin: change it every {int(found.batches)} batches."
    )


def test_a_machine_that_never_turns_about_loads_its_pin_once_a_batch():
    found = pin_life(Machine(DEMO.with_values({"batch.reversals": 0})))
    assert found.batches == pytest.approx(found.pulses)
    often = pin_life(Machine(DEMO.with_values({"batch.reversals": 40})))
    assert often.batches < pin_life(Machine(DEMO)).batches < found.batches


def test_a_start_near_what_breaks_a_pin_is_borne_a_few_times():
    # weak pins as tested: 335 N m, 0.95/1.05 of which are 303.1 N m; 298.56 is 0.985 of that: 1000^(log 0.985/log 0.9)
    weak = DEMO.with_values({"fuse.test_torque": "335 N*m"})
    found = pin_life(Machine(weak))
    assert found.swings == pytest.approx(1000 ** (log10(298.557 / 303.0952) / log10(0.9)), rel=1e-3)
    assert check(weak).verdict == "fails"
    # one that no start leaves whole
    none = pin_life(Machine(DEMO.with_values({"fuse.test_torque": "200 N*m"})))
    assert none.swings == 1
    assert "before every batch" in said(Machine(DEMO.with_values({"fuse.test_torque": "200 N*m"})))


def test_a_stout_pin_is_counted_to_a_million_loads_and_no_more():
    stout = pin_life(Machine(DEMO.with_values({"fuse.pin_diameter": "14 mm"})))
    assert stout.share < stout.endured
    assert stout.swings == stout.pulses == 1e6


def test_a_limiter_has_no_pin_to_change_and_unknown_pins_are_not_judged():
    limiter = DEMO.with_values({"fuse.kind": "torque limiter", "fuse.setting": "450 N*m"})
    assert said(Machine(limiter)) == ""
    assert LASTS not in [one.id for one in Machine(limiter).checks]
    odd = DEMO.with_values(
        {"fuse.pin_material": "sintered bronze", "fuse.pin_condition": "unknown"}
    )
    assert not check(odd).judged


def test_the_pin_that_is_printed_lasts(tmp_path, capsys):
    path = tmp_path / "my_mixer.toml"
    path.write_text(DEMO.with_values({"batch.reversals": 40}).to_toml(), "utf-8")
    assert main(["check", str(path), "--json"]) == 1
    told = {one["id"]: one for one in json.loads(capsys.readouterr().out)["checks"]}
    (one, *_) = told[LASTS]["remedies"]
    assert one["breaks"] == []
    for field, value in one["set"].items():
        written = f'"{value}"' if isinstance(value, str) else value
        assert main(["set", str(path), f"{field} = {written}"]) == 0
    capsys.readouterr()
    main(["check", str(path), "--json", "--no-remedies"])
    again = {one["id"]: one for one in json.loads(capsys.readouterr().out)["checks"]}
    assert again[LASTS]["can_take"] >= again[LASTS]["asked"] == 100
