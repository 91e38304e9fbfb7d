"""From a brief to a design that holds, through the maker's door: what is printed and written is used again."""

import itertools
import json
import re

import pytest

from mixerkit import Design, InputError, Machine
from mixerkit.__main__ import main
from mixerkit.explore.draft.brief import FIELDS, parse_brief

SOCKETS = {
    "120 V": '"120 V"\nfrequency = "60 Hz"\nphases = 1\nsocket_current = "15 A"',
    "230 V": '"230 V"\nfrequency = "50 Hz"\nphases = 1\nsocket_current = "13 A"',
    "400 V": '"400 V"\nfrequency = "50 Hz"\nphases = 3\nsocket_current = "16 A"',
}


def brief(mass="15 kg", sinks="6 mm", socket="230 V", more="", units="metric"):
    return (
        f'show_units = "{units}"\n[batch]\nmass = "{mass}"\n'
        f'[clay]\nstrength_from = "cone"\ncone_penetration = "{sinks}"\n'
        f"[supply]\nvoltage = {SOCKETS[socket]}\n{more}"
    )


def drafted(tmp_path, text, *words):
    """Write a brief, draft it; give the exit status and the file drafted."""
    path, out = tmp_path / "brief.toml", tmp_path / "mine.toml"
    path.write_text(text, encoding="utf-8")
    return main(["draft", str(path), "--out", str(out), *words]), out


@pytest.mark.parametrize("units", ["metric", "inch"])
def test_a_least_brief_leads_to_a_design_that_holds_in_three_commands(units, tmp_path, capsys):
    first, out = tmp_path / "brief.toml", tmp_path / "mine.toml"
    assert main(["new", str(first), "--brief", "--units", units]) == 0
    lines = [one for one in first.read_text("utf-8").splitlines() if re.match(r"\w+ =", one)]
    assert len(lines) <= 12
    assert main(["draft", str(first), "--out", str(out)]) == 0
    said = capsys.readouterr().out
    assert "to buy: a" in said
    assert "values were drafted" in said
    assert main(["check", str(out)]) == 0
    assert Design.read(out).show_units == units


@pytest.mark.parametrize(
    ("mass", "sinks", "socket"),
    [
        *itertools.product(["5 kg", "12 kg", "25 kg"], ["11.4 mm", "5.7 mm"], ["230 V", "400 V"]),
        ("8 kg", "8.1 mm", "120 V"),
        ("12 kg", "8.1 mm", "120 V"),
        ("25 lb", "6 mm", "120 V"),
        ("10 kg", "3.4 mm", "400 V"),
    ],
)
def test_every_drafted_design_holds_when_its_file_is_checked(mass, sinks, socket, tmp_path):
    status, out = drafted(tmp_path, brief(mass, sinks, socket))
    assert status == 0
    machine = Machine(Design.read(out))
    assert [one.id for one in machine.checks if one.verdict == "fails"] == []


@pytest.mark.parametrize(
    "more",
    [
        '[housing]\ncentre_distance = "160 mm"\n',
        '[paths.direct]\nmodule = "4 mm"\n[paths.idler]\nmodule = "4 mm"\n',
        '[shaft_1]\ndiameter = "50 mm"\n[shaft_2]\ndiameter = "50 mm"\n',
        '[motor]\nrated_power = "1.5 kW"\nrated_speed = "1420 rpm"\n',
        '[paddles]\ncount = 4\n[trough]\nmaterial = "stainless 1.4404 annealed"\n',
    ],
)
def test_nothing_that_a_brief_states_is_changed(more, tmp_path):
    text = brief(more=more)
    status, out = drafted(tmp_path, text)
    assert status == 0
    design, given = Design.read(out), parse_brief(text).given
    for name, value in given.items():
        record, own, kind = design.field(name)
        assert getattr(record, own) == kind.number(kind.read_at(value, name)), name
        assert name not in design.drafted


def test_each_drafted_value_stands_with_its_reason_and_in_the_list(tmp_path):
    _, out = drafted(tmp_path, brief())
    text, design = out.read_text("utf-8"), Design.read(out)
    assert len(design.drafted) > 80
    for name, value in design.drafted.items():
        record, own, kind = design.field(name)
        listed = kind.number(kind.read_at(list(value) if isinstance(value, tuple) else value, name))
        assert listed == getattr(record, own), name
    stated = text[: text.index("[drafted]")]
    bare = [
        line
        for line in stated.splitlines()
        if re.match(r"\w+ = ", line) and "#" not in line.split('"')[-1]
    ]
    # only what the brief states stands without a reason
    names = {line.split(" = ")[0] for line in bare}
    assert names == {
        "format",
        "show_units",
        "mass",
        "strength_from",
        "cone_penetration",
        "voltage",
        "frequency",
        "phases",
        "socket_current",
    }


def test_the_same_brief_gives_the_same_file(tmp_path):
    _, first = drafted(tmp_path, brief())
    text = first.read_text("utf-8")
    first.unlink()
    _, second = drafted(tmp_path, brief())
    assert second.read_text("utf-8") == text


def test_a_wanted_speed_is_met(tmp_path):
    _, out = drafted(tmp_path, brief(sinks="9 mm") + '[want]\nspeed = ["24 rpm", "30 rpm"]\n')
    machine = Machine(Design.read(out))
    assert 24 * 0.99 <= machine.running_speed <= 30 * 1.01
    assert machine.design.want.speed == (24.0, 30.0)


def test_a_file_that_is_there_is_left_alone(tmp_path, capsys):
    out = tmp_path / "mine.toml"
    out.write_text("mine", encoding="utf-8")
    status, _ = drafted(tmp_path, brief())
    assert status == 2
    assert "is there already" in capsys.readouterr().err
    assert out.read_text("utf-8") == "mine"


def test_facts_that_stand_against_each_other_are_named_and_the_printed_change_frees_them(
    tmp_path, capsys
):
    # a shaft of 20 mm carries no paddles of a 15 kg trough in a jam: 0.3 kN*m over pi d^3/16 is 190 MPa of
    # torsion alone, and the bending comes on top
    text = brief(more='[shaft_1]\ndiameter = "20 mm"\n')
    status, out = drafted(tmp_path, text)
    said = capsys.readouterr().out
    assert status == 1
    assert not out.exists()
    assert "shaft_1.diameter" in said
    line = re.search(r"which was tried.*\n  (shaft_1\.diameter = .*)\n", said).group(1)
    value = line.split(" = ")[1]
    status, out = drafted(tmp_path, text.replace('"20 mm"', value))
    assert status == 0
    assert main(["check", str(out)]) == 0


@pytest.mark.parametrize(
    ("text", "words"),
    [
        ('[batch]\nmass = "15 kg"\n', "clay.strength_from: missing; a brief states it"),
        (brief().replace('"15 kg"', '"15 m"'), "batch.mass"),
        (brief() + '[shaft]\ndiameter = "50 mm"\n', "shaft: no such field"),
        (brief(more='[shaft_1]\nmaterial = "chewing gum"\n'), "shaft_1.material"),
        (
            brief() + '[want]\nspeeds = ["20 rpm"]\n',
            'want.speeds: no such field; nearest is "speed"',
        ),
        (brief() + '[want]\nlight_on = "beauty"\n', "want.light_on"),
        (
            brief().replace('cone_penetration = "6 mm"', 'cone_angle = "30 deg"'),
            "clay.cone_penetration: missing",
        ),
        ("mass = ", "not a TOML file"),
    ],
)
def test_a_brief_that_cannot_be_used_gets_one_clear_sentence(text, words, tmp_path, capsys):
    status, out = drafted(tmp_path, text)
    said = capsys.readouterr().err
    assert status == 2
    assert words in said
    assert "Traceback" not in said
    assert not out.exists()


def test_a_brief_may_state_any_field_of_a_design():
    design = Design.demo()
    for name in FIELDS:
        design.field(name)
    with pytest.raises(InputError, match="no such field"):
        parse_brief(brief() + "[trough]\nwidth = 3\n")


def test_drafted_facts_are_assumed_until_they_are_another_or_confirmed(tmp_path, capsys):
    _, out = drafted(tmp_path, brief())
    capsys.readouterr()
    main(["check", str(out)])
    said = capsys.readouterr().out
    assert "facts are assumed as they were drafted" in said
    names = re.search(r"--confirm FIELD:\n  (.*)\n", said).group(1).split(", ")
    assert "reducer.output_bore" in names
    assert "batch.bag_length" in names
    # choices are decisions
    assert not [one for one in names if one.startswith(("paddles.", "shaft_1.", "housing."))]
    assert main(["set", str(out), "--confirm", "reducer.output_bore"]) == 0
    assert main(["set", str(out), 'batch.bag_length = "305 mm"']) == 0
    capsys.readouterr()
    main(["check", str(out), "--json"])
    left = json.loads(capsys.readouterr().out)["assumed"]
    assert sorted({*names} - {*left}) == ["batch.bag_length", "reducer.output_bore"]
    before = out.read_text("utf-8")
    assert main(["set", str(out), "--confirm", "reducer.outputbore"]) == 2
    assert "is not listed as drafted" in capsys.readouterr().err
    assert out.read_text("utf-8") == before
