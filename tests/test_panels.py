"""Panels without a browser: knobs change the design, pictures and tables follow, keep writes."""

import re

import nbformat
import pytest

from mixerkit import Design, assess
from mixerkit.data_files import data_path
from mixerkit.show import panels, plots, stages
from mixerkit.show.machine import STAGES, machine_plan
from mixerkit.show.style import as_svg
from mixerkit.show.tables import HEADINGS, check_frame
from mixerkit.units import InputError

MAKERS = [getattr(stages, name) for name in stages.__all__]
DEMOS = ["larkfield", "inch_room", "thin_shaft", "too_stiff"]


def bench_of(tmp_path, name):
    path = tmp_path / "my_mixer.toml"
    path.write_text(data_path("designs", f"{name}.toml").read_text("utf-8"))
    return panels.open_design(path)


@pytest.mark.parametrize("name", DEMOS)
@pytest.mark.parametrize("maker", MAKERS)
def test_opening_a_panel_changes_nothing(maker, name, tmp_path):
    bench = bench_of(tmp_path, name)
    panel = maker(bench)
    assert bench.design == Design.demo(name)
    assert panel._status.value == ""
    assert "<table" in panel._table.value
    assert panel._drawing.value.startswith("<img")


@pytest.mark.parametrize("name", ["larkfield", "inch_room"])
@pytest.mark.parametrize("maker", MAKERS)
def test_every_knob_turns_its_own_field_and_no_other(maker, name, tmp_path):
    bench = bench_of(tmp_path, name)
    panel = maker(bench)
    for knob, control in zip(panel._knobs, panel._controls, strict=True):
        before = bench.design.to_table()
        widget = control.widget
        if hasattr(widget, "step"):
            up = widget.value + widget.step <= widget.max
            widget.value += widget.step if up else -widget.step
        elif hasattr(widget, "options"):
            widget.value = next(one for one in widget.options if one != widget.value)
        else:
            widget.value = not widget.value
        assert panel._status.value == "", knob
        after = bench.design.to_table()
        dotted = knob.split()[0]
        assert differing(before, after) == [dotted]


def differing(one, two, prefix=""):
    found = []
    for key in one:
        if isinstance(one[key], dict):
            found += differing(one[key], two[key], f"{prefix}{key}.")
        elif one[key] != two[key]:
            found.append(prefix + key)
    return found


def test_picture_and_table_follow_a_knob_and_keep_writes_it(tmp_path):
    bench = bench_of(tmp_path, "larkfield")
    panel = stages.gear_paths(bench)
    picture, table = panel._drawing.value, panel._table.value
    teeth = next(
        control.widget
        for control in panel._controls
        if control.widget.description.startswith("Direct, shaft 1")
    )
    teeth.value = 31
    assert panel._drawing.value != picture
    assert panel._table.value != table
    assert "✖ fails" in panel._table.value
    keep, back, _ = panel.children[-1].children
    keep.click()
    assert Design.read(bench.path).paths.direct.tooth_counts == (31, 30)
    assert "# a pair" in bench.path.read_text()
    teeth.value = 35
    back.click()
    assert bench.design.paths.direct.tooth_counts == (31, 30)
    assert teeth.value == 31


def test_a_value_that_cannot_be_is_said_and_the_design_stays(tmp_path):
    bench = bench_of(tmp_path, "larkfield")
    panel = stages.gear_paths(bench)
    apart = next(
        control.widget
        for control in panel._controls
        if "Shafts apart" in control.widget.description
    )
    before = bench.design
    apart.min = -10
    apart.value = -5
    assert "not possible" in panel._status.value
    assert "housing" in panel._status.value or "centre_distance" in panel._status.value
    assert bench.design == before


def test_two_panels_on_one_bench_agree(tmp_path):
    bench = bench_of(tmp_path, "larkfield")
    one, two = stages.whole_machine(bench), stages.shaft_torsion(bench, 2)
    two._controls[1].widget.value = 24
    assert one._controls[4].widget.value == pytest.approx(24)
    assert "✖ fails" in one._table.value


def test_a_first_keep_writes_the_commented_starting_design(tmp_path):
    bench = panels.open_design(tmp_path / "my_mixer.toml")
    assert "the demo" in repr(bench)
    bench.lay(bench.design.with_values({"motor.rated_power": "2.2 kW"}))
    bench.keep()
    text = bench.path.read_text()
    assert text.count("#") > 10
    assert 'rated_power = "2.2 kW"' in text
    assert "your file my_mixer.toml" in repr(bench)


def test_a_broken_own_file_is_said_and_left_alone(tmp_path):
    path = tmp_path / "my_mixer.toml"
    path.write_text("[motor]\nrated_power = 3\n")
    bench = panels.open_design(path)
    assert "cannot be used" in repr(bench)
    assert "has no unit" in repr(bench)
    assert path.read_text() == "[motor]\nrated_power = 3\n"


def test_sketch_picks_out_each_stage_and_refuses_others():
    pictures = {as_svg(machine_plan(stage)) for stage in (None, *STAGES)}
    assert len(pictures) == len(STAGES) + 1
    with pytest.raises(InputError, match="not a stage"):
        machine_plan("gearbox")


def test_frame_has_a_row_a_check(tmp_path):
    bench = bench_of(tmp_path, "larkfield")
    frame = check_frame(bench.assessment.checks)
    assert len(frame) == len(bench.assessment.checks)
    assert list(frame.columns[: len(HEADINGS)]) == list(HEADINGS)


def notebooks():
    return sorted(data_path().parent.glob("notebooks/**/*.ipynb"))


@pytest.mark.parametrize("path", notebooks(), ids=lambda path: path.stem)
def test_notebooks_keep_the_house_rules(path):
    book = nbformat.read(path, as_version=4)
    text = "\n".join(cell.source for cell in book.cells if cell.cell_type == "markdown")
    assert book.cells[0].source.startswith("# ")
    assert "## What to do next" in text
    assert re.search("caution|power is switched", text, re.IGNORECASE)
    for cell in book.cells:
        if cell.cell_type == "code":
            assert len(cell.source.splitlines()) < 10
            assert cell.source.startswith("from ") or cell.outputs
    for link in re.findall(r"\]\(([^)#]+\.ipynb)\)", text):
        assert (path.parent / link).exists(), link


def test_the_idler_is_drawn_on_its_own_side():
    places = {
        side: plots.wheel_places(
            assess(Design.demo().with_values({"housing.idler_side": side})), "idler"
        )[1]
        for side in ("above", "below")
    }
    assert places["above"] == pytest.approx((75.0, 73.485), abs=1e-3)
    assert places["below"] == pytest.approx((75.0, -73.485), abs=1e-3)
