"""Every stage of the one list has all that hangs on its key; what is missing is named."""

import importlib
from collections import Counter
from importlib.util import find_spec
from pathlib import Path

import pytest
from IPython.core.interactiveshell import InteractiveShell
from markupsafe import escape

from mixerkit import Design, Machine
from mixerkit.explore.reworked import NO_REWORK, REWORK, rework_module
from mixerkit.show import panels
from mixerkit.show.report import report_html
from mixerkit.show.sketch import machine_plan
from mixerkit.stages import STAGES
from mixerkit.units import InputError

KEYS = [one.key for one in STAGES]


@pytest.fixture(scope="module")
def machine():
    return Machine(Design.demo())


@pytest.fixture(scope="module")
def page(machine):
    return report_html(machine)


def test_keys_and_titles_are_there_once():
    for of in (KEYS, [one.title for one in STAGES]):
        assert all(of), f"a stage of mixerkit/stages.py has no key or no title: {of}"
        assert max(Counter(of).values()) == 1, f"twice in mixerkit/stages.py: {of}"


@pytest.mark.parametrize("stage", STAGES, ids=KEYS)
def test_its_makers_give_checks_of_its_key(stage, machine):
    found = [check for make in stage.makers for check in make(machine)]
    assert found, f"stage {stage.key} checks nothing: give its makers in mixerkit/stages.py a check"
    others = {check.stage for check in found} - {stage.key}
    assert not others, f"stage {stage.key} makes checks that say they are of {others}"


def test_each_check_is_of_a_known_stage(machine):
    unknown = {check.stage for check in machine.checks} - set(KEYS)
    assert not unknown, f"checks of no stage in mixerkit/stages.py: {unknown}"


@pytest.mark.parametrize("key", KEYS)
def test_its_panel_opens(key, tmp_path):
    bench = panels.open_design(tmp_path / "none.toml")
    module = panels.panel_module(key)
    for name in ("PANEL", "says"):
        assert hasattr(module, name), f"stage {key}: {module.__name__} has no {name}"
    panel = module.PANEL(bench)
    assert panel._drawing.value.startswith("<img"), f"stage {key}: its panel has no picture"
    assert key in panel._stages, f"stage {key}: its panel does not list its checks"
    assert panel._says(bench.machine) in module.says(bench.machine)


@pytest.mark.parametrize("stage", STAGES, ids=KEYS)
def test_its_sentence_stands_in_the_report(stage, machine, page):
    said = panels.panel_module(stage.key).says(machine)
    assert said, f"stage {stage.key} says nothing"
    heading = f"<h3>{escape(stage.title)}</h3>"
    assert heading in page, f"stage {stage.key} is not in the report"
    assert f"{heading}\n<p>{escape(said)}</p>" in page, f"stage {stage.key}: not its sentence"


@pytest.mark.parametrize("key", KEYS)
def test_a_spoiled_part_has_a_way_or_advice(key):
    module = rework_module(key)
    if module:
        assert find_spec(f"mixerkit.explore.{module}"), f"stage {key}: no explore/{module}.py"


def test_rework_is_of_known_stages():
    assert set(REWORK) | set(NO_REWORK) <= set(KEYS)
    assert not set(REWORK) & set(NO_REWORK)


@pytest.mark.parametrize("key", KEYS)
def test_the_sketch_knows_where_it_sits(key):
    machine_plan(key)


def test_the_old_spelling_says_what_to_type():
    show = importlib.import_module("mixerkit.show")
    for name in ("stages", "stages_metal"):
        with pytest.raises(InputError, match=r"panels.gear_paths\(bench\)"):
            getattr(show, name)


def test_a_notebook_shows_the_sentence_and_no_traceback(capsys):
    shell = InteractiveShell()
    shell.run_cell("from mixerkit.show import panels, stages")
    told = capsys.readouterr()
    assert "panels.gear_paths(bench)" in told.out + told.err
    assert "Traceback" not in told.out + told.err
    assert len((told.out + told.err).strip().splitlines()) == 1


def test_each_panel_of_a_stage_is_of_a_known_one():
    names = {key.replace(" ", "_") for key in KEYS}
    for path in sorted(Path(panels.__file__).parent.glob("*.py")):
        if "\nPANEL = " in path.read_text("utf-8"):
            assert path.stem in names, (
                f"{path.name} is the panel of no stage: put one into mixerkit/stages.py"
            )
