"""Files of older formats: the same design, comments kept, each changed name said once, and nothing guessed."""

import json
from pathlib import Path

import pytest

from mixerkit import Design, InputError
from mixerkit.__main__ import main
from mixerkit.carried import Renamed, Step, carry
from mixerkit.fields import kinds_in
from mixerkit.spec import FORMAT, STEPS
from mixerkit.textfiles import parse_toml

FOLDER = Path(__file__).parent / "old_formats"
OLD = {number: (FOLDER / f"format_{number}.toml").read_text("utf-8") for number in range(1, FORMAT)}
FIRST = OLD[1]
SHIFTED = FIRST.replace(
    '\nmodule = "5 mm"', '\nmodule = "5 mm"\nprofile_shifts = [\n  0.1, # one\n  -0.1,\n] # two', 1
)


def comments(text):
    return sorted(
        " ".join(line.partition("#")[2].split()) for line in text.splitlines() if "#" in line
    )


def test_every_format_leads_to_the_next_and_to_fields_that_there_are():
    assert [step.format for step in STEPS] == list(range(2, FORMAT + 1))
    fields = kinds_in(Design)
    later = {one.was for step in STEPS for one in step.names}
    for step in STEPS:
        for one in step.names:
            assert one.was not in fields
            assert one.now in fields or one.now in later


@pytest.mark.parametrize("number", OLD)
def test_an_old_file_is_the_same_design(number):
    design = Design.parse(OLD[number], "old.toml")
    assert design == Design.demo()
    assert design.fingerprint == Design.demo().fingerprint
    assert Design.parse(design.as_read) == design
    assert Design.parse(design.as_read).told == ()
    assert comments(design.as_read) == comments(OLD[number])


@pytest.mark.parametrize("number", OLD)
@pytest.mark.parametrize("step", STEPS, ids=lambda step: str(step.format))
def test_each_name_is_carried_from_every_older_format(step, number):
    if step.format <= number:
        return
    for one in step.names:
        *outer, last = one.was.split(".")
        text = f"format = {number}\n[{'.'.join(outer)}]\n{last} = [1, # one\n 2] # kept\n"
        found = carry(text, parse_toml(text, "old"), STEPS)
        assert parse_toml(found.text, "new") == found.content
        assert found.content["format"] == FORMAT
        assert "# one" in found.text
        assert "# kept" in found.text
        assert [f"{one.was} is called {one.now} since" in line for line in found.told] == [True]


def test_steps_follow_each_other():
    steps = [
        Step(2, (Renamed("a.x", "a.y", "for one reason"),)),
        Step(3, (Renamed("a.y", "b.z", "for another"),)),
    ]
    for text, told in (("format = 1\n[a]\nx = 1\n", 2), ("format = 2\n[a]\ny = 1\n", 1)):
        found = carry(text, parse_toml(text, "old"), steps)
        assert found.content == {"format": 3, "a": {}, "b": {"z": 1}}
        assert parse_toml(found.text, "new") == found.content
        assert len(found.told) == told


@pytest.mark.parametrize(
    ("old", "new"),
    [
        ("format = 1\n", ""),
        ('play = "0.3 deg"', '"play" = "0.3 deg"'),
        ("[reducer] ", "[ reducer ] "),
        ("[fuse]", 'bearings.span = "420 mm"\n[fuse]'),
    ],
)
def test_other_ways_to_write_an_old_file_are_the_same_design(old, new):
    assert old in FIRST
    design = Design.parse(FIRST.replace(old, new, 1))
    assert design == Design.demo()
    assert Design.parse(design.as_read) == design


def test_names_in_lists_of_several_lines_and_in_tables_on_one_line():
    design = Design.parse(SHIFTED)
    assert design.paths.direct.profile_shift_coefficients == (0.1, -0.1)
    assert comments(design.as_read) == comments(SHIFTED)
    start, end = FIRST.index("[bearings]"), FIRST.index("[fuse]")
    inline = FIRST[:start] + FIRST[end:]
    inline = inline.replace("[batch]", 'bearings = {kind = "rolling"} # all\n[batch]', 1)
    design = Design.parse(inline)
    assert design.bearings.span == 420.0
    assert "# all" in design.as_read
    assert Design.parse(design.as_read) == design


def test_check_says_the_names_once_and_set_writes_the_newest_format(tmp_path, capsys):
    path = tmp_path / "old.toml"
    path.write_text(FIRST)
    assert main(["check", str(path)]) == 0
    said = capsys.readouterr().out
    assert said.count("reducer.play is called reducer.backlash since format 2") == 1
    assert said.index("since format 2") < said.index("holds")
    assert path.read_text() == FIRST
    assert main(["check", str(path), "--json"]) == 0
    assert len(json.loads(capsys.readouterr().out)["renamed"]) == 3
    assert main(["set", str(path), 'bearings.span = "430 mm"']) == 0
    assert "reducer.play is called" in capsys.readouterr().out
    written = path.read_text()
    assert (tmp_path / "old.toml.previous").read_text() == FIRST
    assert f"format = {FORMAT}\n" in written
    assert comments(written) == comments(FIRST)
    assert Design.parse(written) == Design.demo().with_values({"bearings.span": "430 mm"})
    assert main(["check", str(path)]) == 0
    assert "is called" not in capsys.readouterr().out


def test_saving_over_an_old_file_keeps_its_comments(tmp_path):
    path = tmp_path / "old.toml"
    path.write_text(FIRST + "# mine\n")
    Design.demo().with_values({"batch.mass": "14 kg"}).write(path)
    assert "# mine" in path.read_text()
    assert Design.read(path).batch.mass == 14.0
    assert (tmp_path / "old.toml.previous").read_text() == FIRST + "# mine\n"


def test_an_old_name_in_a_new_file_is_told_its_name_now():
    with pytest.raises(InputError) as caught:
        Design.parse(FIRST.replace("format = 1", "format = 2", 1), "my.toml")
    assert caught.value.messages == (
        (
            'my.toml, reducer.play: is called reducer.backlash since format 2; the line backlash = "0.3 deg" in '
            "[reducer] is wanted."
        ),
        (
            "my.toml, paddles.bearing_factor: is called paddles.bearing_capacity_factor since format 2; the line "
            "bearing_capacity_factor = 10.5 in [paddles] is wanted."
        ),
        (
            'my.toml, paddles.bearing_span: is called bearings.span since format 2; the line span = "420 mm" in '
            "[bearings] is wanted."
        ),
    )
    with pytest.raises(
        InputError, match=r"reducer\.play: is called reducer\.backlash since format 2"
    ):
        Design.demo().with_values({"reducer.play": "1 deg"})


def test_a_field_under_both_names_is_asked_about():
    text = FIRST.replace("[fuse]", 'bearings.span = "430 mm"\n[fuse]', 1)
    with pytest.raises(InputError) as caught:
        Design.parse(text, "my.toml")
    assert caught.value.messages == (
        (
            'my.toml, bearings.span: stands there as "430 mm", and under its name of format 1, paddles.bearing_span, '
            'as "420 mm"; one line is wanted, so leave one of them out.'
        ),
    )
