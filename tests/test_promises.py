"""What was once said of machines that do not work, and of changes that do not mend: none of it comes back."""

from dataclasses import replace

import pytest
import spoiling

from mixerkit import Design, Machine
from mixerkit.explore.mend import mend

DEMO = Design.demo()


def failing(design):
    return {one.id for one in Machine(design).checks if one.verdict == "fails"}


def test_a_thicker_shaft_is_offered_with_the_jam_that_it_brings():
    thin = DEMO.with_values({"fuse.kind": "none", "shaft_1.diameter": "26 mm"})
    shafts = [one for one in failing(thin) if one.startswith("shafts.shaft-1.diameter")]
    mending = mend(Machine(thin), shafts)
    assert shafts
    for one in shafts:
        assert mending.remedies[one]
        for remedy in mending.remedies[one]:
            assert one not in failing(thin.with_values(dict(remedy.values)))


NOT_A_MACHINE = {
    "seats between thicker bars": (
        {
            f"shaft_{n}.{name}": value
            for n in (1, 2)
            for name, value in {
                "diameter": "38 mm",
                "step_at": ["170 mm", "210 mm"],
                "step_diameters": ["35.018 mm", "38 mm"],
            }.items()
        },
        "shafts.shaft-2.everything-goes-on-in-some-order",
    ),
    "a pin as thick as its shaft": (
        {"sleeve.pin_diameter": "40 mm"},
        "shafts.shaft-1.holes-across-are-no-larger-than-the-shaft-bears",
    ),
    "clay that no such bag holds": (
        {"batch.mass": "25 kg"},
        "trough.bag.holds-what-the-batch-weighs",
    ),
    "a bag longer than the trough": (
        {"batch.bag_length": "600 mm"},
        "trough.trough.bag-lies-whole-in-its-length",
    ),
    "dogs in the gear cutter's way": (
        {"clutch.outer_diameter": "112 mm"},
        "clutch.idler-paths-gear-with-dogs.gear-cutter-runs-out-clear-of-the-dogs",
    ),
    "plain steel in clay": (
        {"paddles.material": "steel S355J2"},
        "paddles.paddles.",
    ),
    "one paddle": ({"paddles.count": 1}, "trough.paddles.paddles-reach-the-clay-along-the-trough"),
    "paddles that meet": (
        {"paddles.width": "35 mm", "paddles.set_angle": "60 deg"},
        "paddles.paddles.paddles-clear-each-other",
    ),
}


@pytest.mark.parametrize("case", NOT_A_MACHINE)
def test_what_nobody_can_build_does_not_hold(case):
    values, wanted = NOT_A_MACHINE[case]
    spoiled = DEMO.with_values(values)
    found = [one for one in failing(spoiled) - failing(DEMO) if one.startswith(wanted)]
    assert found, failing(spoiled)
    mending = mend(Machine(spoiled), found)
    checks = {one.id: one for one in Machine(spoiled).checks}
    # a change that mends it, or which facts stand against each other
    assert all(mending.remedies[one] or checks[one].note for one in found)


def test_no_converter_is_offered_to_a_capacitor_motor():
    lone = DEMO.with_values(
        {"motor.kind": "capacitor-start", "motor.fed_by": "frequency converter"}
    )
    for rows in mend(Machine(lone)).remedies.values():
        for remedy in rows:
            after = lone.with_values(dict(remedy.values)).motor
            if "motor.fed_by" in remedy.values:
                assert (after.kind, after.fed_by) != ("capacitor-start", "frequency converter")


def test_no_bush_is_asked_for_in_a_bore_within_h7():
    measured = DEMO.with_values({"reducer.output_bore": "45.02 mm", "shaft_1.diameter": "45 mm"})
    assert not any("bush" in one and "reducer" in one for one in failing(measured))


def test_a_shaft_beyond_the_tables_leaves_the_rest_judged():
    found = Machine(DEMO.with_values({"shaft_2.diameter": "90 mm"})).checks
    assert len(found) >= 0.9 * len(Machine(DEMO).checks)
    blind = [one for one in found if not one.judged]
    assert blind
    assert all(one.verdict == "fails" and "cannot be judged" in one.sentence() for one in blind)
    assert sum(one.judged for one in found) > 100


def test_a_change_typed_by_command_is_the_same_as_by_hand(tmp_path, capsys):
    from mixerkit.__main__ import main

    mine = tmp_path / "my_mixer.toml"
    mine.write_text(Design.demo("thin_shaft").to_toml(), "utf-8")
    by_hand = spoiling.typed(mine.read_text("utf-8"), {"shaft_2.diameter": "40 mm"})
    assert main(["set", str(mine), 'shaft_2.diameter = "40 mm"']) == 0
    assert Design.read(mine) == Design.parse(by_hand)
    assert "torsion alone" in mine.read_text("utf-8")
    before = mine.read_bytes()
    for wrong in (
        "shaft_2.diameter",
        "shaft_2.diameter = 40 mm",
        'shaft_2.diametre = "4 mm"',
        'shaft_2.diameter = "4 kg"',
    ):
        assert main(["set", str(mine), wrong]) == 2
        assert len(capsys.readouterr().err.strip().splitlines()) == 1
    assert mine.read_bytes() == before


def test_what_fails_by_little_is_seen_to_fail_in_print():
    check = Machine(Design.demo()).checks[0]
    said = replace(check, demand=33.02, capacity=33.0, unit="mm", safety=1.0, words=None).shown
    assert said == ("33.02 mm", "33 mm")
    # what it takes is held against what is asked times its factor
    one = replace(check, demand=30.0, capacity=44.99, unit="mm", safety=1.5, words=None)
    assert (one.shown[1], one.in_digits(45.0)) == ("44.99 mm", "45 mm")
