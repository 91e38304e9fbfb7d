import dataclasses
import json
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from mixerkit import Design, InputError
from mixerkit.data_files import data_path
from mixerkit.fields import kind_of
from mixerkit.fields.nested import SectionKind
from mixerkit.spec import Motor
from mixerkit.units import Q_
from mixerkit.written import write_atomically

DEMOS = sorted(path.stem for path in data_path("designs").glob("*.toml"))


@pytest.mark.parametrize("name", DEMOS)
def test_a_design_comes_back_from_its_own_toml(name):
    design = Design.demo(name)
    again = Design.parse(design.to_toml())
    assert again == design
    assert again.fingerprint == design.fingerprint
    assert design.to_toml() == data_path("designs", f"{name}.toml").read_text("utf-8")


def test_comments_and_order_survive_a_change(tmp_path):
    path = tmp_path / "my.toml"
    text = (
        data_path("designs", "larkfield.toml").read_text("utf-8")
        + "\n# bearing from the old lathe\n"
    )
    path.write_text(text)
    Design.read(path).with_values({"motor.rated_power": "2.2 kW"}).write(path)
    before, after = text.splitlines(), path.read_text().splitlines()
    assert [i for i, (a, b) in enumerate(zip(before, after, strict=True)) if a != b] == [
        before.index('rated_power = "1.5 kW"')
    ]
    assert (tmp_path / "my.toml.previous").read_text() == text
    assert sorted(one.name for one in tmp_path.iterdir()) == ["my.toml", "my.toml.previous"]


def test_defaults_left_out_of_a_file_stay_out():
    design = Design.demo("inch_room")
    changed = design.with_values({"reducer.ratio": 75}).to_toml()
    assert "mesh_efficiency" not in changed
    assert "[safety]" not in changed
    assert "tip_clearance" in design.with_values({"safety.tip_clearance": "3 mm"}).to_toml()


def test_a_failed_write_leaves_the_old_file(tmp_path, monkeypatch):
    path = tmp_path / "my.toml"
    path.write_text("old")

    def broken(*_args):
        raise KeyboardInterrupt

    monkeypatch.setattr(Path, "replace", broken)
    with pytest.raises(KeyboardInterrupt):
        write_atomically(path, "new")
    assert path.read_text() == "old"
    assert [one.name for one in tmp_path.iterdir()] == ["my.toml"]


def test_records_are_frozen_and_read_what_python_gives_them():
    motor = Motor(
        rated_power="2 hp", rated_speed="1725 rpm", start_torque_ratio=2, breakdown_torque_ratio=2.5
    )
    assert motor.rated_power == pytest.approx(1.4914, rel=1e-4)
    with pytest.raises(dataclasses.FrozenInstanceError):
        motor.rated_power = "3 hp"
    with pytest.raises(InputError) as caught:
        Motor(
            rated_power="2 kg", rated_speed="x", start_torque_ratio=-1, breakdown_torque_ratio=2.5
        )
    assert [message.split(":")[0] for message in caught.value.messages] == [
        "rated_power",
        "rated_speed",
        "start_torque_ratio",
    ]
    again = motor.changed(rated_power="1 hp")
    assert again.rated_power == pytest.approx(0.7457, rel=1e-4)
    assert again.given("rated_power") == Q_("1 hp")


def test_with_values_refuses_unknown_fields():
    with pytest.raises(InputError, match='no such field; nearest is "rated_power"'):
        Design.demo().with_values({"motor.rated_pwer": "1 kW"})


def test_a_pitch_and_its_module_are_the_same_design_in_numbers():
    design = Design.demo("inch_room")
    assert design.paths.direct.module == pytest.approx(5.08)
    assert design.with_values(
        {"paths.direct.module": "5.08 mm"}
    ).paths.direct.module == pytest.approx(5.08)


@given(st.floats(0.01, 50), st.sampled_from(["kW", "hp", "W"]))
def test_any_power_survives_the_file(value, unit):
    value = value * 1000 if unit == "W" else value
    if unit == "hp" and value > 67:
        value = 67.0
    design = Design.demo().with_values({"motor.rated_power": f"{value!r} {unit}"})
    again = Design.parse(design.to_toml())
    assert again.motor.rated_power == pytest.approx(design.motor.rated_power, rel=1e-9)
    assert again.fingerprint == design.fingerprint


def test_fingerprint_changes_with_any_value_and_not_with_comments():
    design = Design.demo()
    text = design.to_toml()
    assert Design.parse(text + "\n# a note").fingerprint == design.fingerprint
    assert design.with_values({"paddles.count": 7}).fingerprint != design.fingerprint


def test_unknown_demo_says_which_there_are():
    with pytest.raises(InputError, match="too_stiff"):
        Design.demo("to_stiff")


def _not_given(record, where=""):
    """Dotted names of all fields that no file need give, with what may stand there."""
    for name, one in record.__dataclass_fields__.items():
        kind = kind_of(record, name)
        if isinstance(kind, SectionKind):
            yield from _not_given(kind.of, f"{where}{name}.")
        elif one.default is None:
            example = kind.example
            plain = type(kind).__name__ in ("NumberKind", "WholeKind")
            yield f"{where}{name}", json.loads(example) if plain else example


@pytest.mark.parametrize(("name", "example"), list(_not_given(Design)))
def test_a_field_that_the_file_leaves_out_can_be_given(name, example):
    """They are the facts that a check asks for where it cannot judge."""
    design = Design.demo()
    bare = design.with_values({name: example})
    text = bare.to_toml()
    found = Design.parse(text, "mine.toml")
    assert found == bare
    assert name.rsplit(".", 1)[1] + " = " in text
