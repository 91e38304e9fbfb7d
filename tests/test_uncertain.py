"""Whether it holds with all that is not known: shares and indices against published ones, and through the maker's door."""

import json
import re
from concurrent.futures import ThreadPoolExecutor
from math import pi

import browser
import numpy as np
import pytest

from mixerkit import Design, Machine
from mixerkit.__main__ import main
from mixerkit.explore import uncertain
from mixerkit.explore.draft.assumed import assumed
from mixerkit.explore.flips import flips
from mixerkit.explore.inputs import METALS, STRENGTH, ends, inputs, put, typed
from mixerkit.explore.sampled import clopper_pearson, morris, sobol
from mixerkit.explore.settable import of_role
from mixerkit.fields.kinds import PointKind, QuantityKind, WordsKind, YesNoKind
from mixerkit.load import clay
from mixerkit.show import panels
from mixerkit.show.panels import open_design
from mixerkit.show.sheets import sheets, write_sheets
from mixerkit.tables import table

DEMO = Design.demo()
BOX = "reducer.output_bore"
SLOW_END = "reducer.slow-end.shaft-1-goes-into-the-hollow-slow-end"
BRIEF = (
    '[batch]\nmass = "15 kg"\n[clay]\nstrength_from = "cone"\ncone_penetration = "6 mm"\n'
    '[supply]\nvoltage = "230 V"\nfrequency = "50 Hz"\nphases = 1\nsocket_current = "13 A"\n'
)


@pytest.fixture(scope="module")
def drafted(tmp_path_factory):
    folder = tmp_path_factory.mktemp("drafted")
    (folder / "brief.toml").write_text(BRIEF, "utf-8")
    out = folder / "my_mixer.toml"
    assert main(["draft", str(folder / "brief.toml"), "--out", str(out)]) == 0
    return out.read_text("utf-8")


@pytest.fixture
def own(drafted, tmp_path):
    """A maker's own drafted design in a folder of its own."""
    path = tmp_path / "my_mixer.toml"
    path.write_text(drafted, "utf-8")
    return path


def said(capsys, *words):
    capsys.readouterr()
    status = main([str(one) for one in words])
    printed = capsys.readouterr()
    return status, " ".join(printed.out.split()), printed.err


@pytest.fixture
def few(monkeypatch):
    """Eight inputs only, and few draws tried again, so that a look takes a moment."""
    monkeypatch.setattr(uncertain, "inputs", lambda design: inputs(design)[:8])
    monkeypatch.setattr(uncertain, "_ENOUGH", 4)


def resting_on(design, field):
    """A demo of which one fact was drafted, at the value that it has."""
    record, name, kind = design.field(field)
    return design.with_values({"drafted": {field: kind.write(record.given(name))}})


# --------------------------------------------------------------------------- shares and indices


@pytest.mark.parametrize(
    ("hits", "tries", "low", "high"),
    [
        # Newcombe, Statistics in Medicine 17 (1998) 857, table I, method 5 (from memory)
        (81, 263, 0.2527, 0.3676),
        (15, 148, 0.0578, 0.1617),
        (1, 29, 0.0009, 0.1776),
        # by hand: none of 20 bears a share of 1 - 0.025^(1/20) at most; all of 20 the same from above
        (0, 20, 0.0, 0.1684),
        (20, 20, 0.8316, 1.0),
    ],
)
def test_the_interval_is_that_of_clopper_and_pearson(hits, tries, low, high):
    assert clopper_pearson(hits, tries) == pytest.approx((low, high), abs=5e-5)


def ishigami(places):
    one, two, three = 2 * pi * np.asarray(places) - pi
    return np.sin(one) + 7 * np.sin(two) ** 2 + 0.1 * three**4 * np.sin(one)


def test_sobol_indices_of_ishigamis_function_are_those_published():
    # Saltelli et al., Global Sensitivity Analysis (2008); a = 7, b = 0.1
    first, total = sobol(ishigami, 3, 4096, 5)
    assert first == pytest.approx([0.3139, 0.4424, 0.0], abs=0.03)
    assert total == pytest.approx([0.5576, 0.4424, 0.2437], abs=0.03)


def test_morris_effects_of_ishigamis_function_are_those_worked_by_hand():
    """On the levels -pi, -pi/3, pi/3, pi each step of two thirds changes sin by 0.866, and sin^2 by 0.75."""
    mean, spread = morris(ishigami, 3, 400, 3)
    rise = np.sin(pi / 3)
    ends_and_middles = 1 + 0.1 * np.array([pi**4, (pi / 3) ** 4])
    assert mean[1] == pytest.approx(7 * 0.75 * 1.5)  # the same wherever it begins
    assert mean[0] == pytest.approx(rise * ends_and_middles.mean() * 1.5, rel=0.1)
    assert mean[2] == pytest.approx(rise / 2 * 0.1 * (pi**4 - (pi / 3) ** 4) * 1.5, rel=0.1)
    # steps go up and down alike, so that it is as spread as it is large
    assert spread[1] == pytest.approx(mean[1], rel=0.05)


# ------------------------------------------------------------------------------------- ranges


def test_every_fact_and_practice_that_is_a_number_has_a_range_or_a_reason():
    """Values and reasons stand in one table; words, choices and dates are none."""
    asked = {
        name
        for name, kind in of_role(("fact", "practice"))
        if not isinstance(kind, (WordsKind, YesNoKind, PointKind))
    }
    listed = [row.values["name"] for row in table("input_ranges")]
    assert len(listed) == len(set(listed))
    assert {*listed} - {METALS, STRENGTH} == asked


@pytest.mark.parametrize("row", list(table("input_ranges")), ids=lambda row: row.values["name"])
def test_what_is_written_lies_within_its_range(row):
    values = row.values
    assert values["by"] in ("factor", "difference", "ranges", "metals", "bought", "fixed")
    inside = 0.0 if values["by"] == "difference" else 1.0
    for end in ("", "assumed_"):
        low, high = values[f"{end}low"], values[f"{end}high"]
        assert (low is None) == (high is None)
        if low is not None:
            assert low <= inside <= high
    if values["by"] in ("fixed", "ranges"):
        assert values["low"] is None
    if values["assumed_low"] is not None and values["low"] is not None:
        assert values["assumed_low"] <= values["low"]
        assert values["high"] <= values["assumed_high"]


def test_ranges_that_the_design_states_come_first():
    one = DEMO.with_values(
        {"ranges.efficiency_spread": 0.02, "ranges.strength_high": 1.6, "ranges.fill_spread": 0.1}
    )
    found = {each.name: each for each in inputs(one)}
    assert found["reducer.efficiency"].high == pytest.approx(0.87)
    assert (found[STRENGTH].low, found[STRENGTH].high) == (0.8, 1.6)
    assert found["batch.mass"].low == pytest.approx(13.5)


@pytest.mark.parametrize("way", ["cone", "rod", "vane", "water content", "named body"])
def test_stronger_clay_is_so_many_times_as_strong_however_it_was_found(way):
    one = DEMO.with_values({"clay.strength_from": way})
    before = clay.clay_strength(one.clay).strength
    after = clay.clay_strength(put(one, {STRENGTH: 1.3}).clay).strength
    assert after == pytest.approx(1.3 * before)


def test_a_heavier_batch_is_a_larger_bag():
    heavier = put(DEMO, {"batch.mass": 30.0}).batch
    assert heavier.bag_length == pytest.approx(300 * 2 ** (1 / 3))


def test_low_voltage_is_felt_by_a_motor_that_no_converter_feeds():
    direct = DEMO.with_values({"motor.fed_by": "direct"})
    assert put(direct, {"supply.voltage": 207.0}).motor.start_torque_ratio == pytest.approx(
        2.2 * 0.81
    )
    assert "supply.voltage" in {one.name for one in inputs(direct)}
    assert "supply.voltage" not in {one.name for one in inputs(DEMO)}


def test_metal_of_half_the_strength_fails_by_its_stresses_only():
    whole, half = uncertain.spares(DEMO, {}), uncertain.spares(DEMO, {METALS: 0.5})
    units = {one.id: one.unit for one in Machine(DEMO).checks}
    changed = {name for name in whole if half[name] != whole[name]}
    assert changed
    assert {units[name] for name in changed} == {"MPa"}
    name = "gears.direct-path.teeth-do-not-break-in-a-jam"
    assert half[name] == pytest.approx(whole[name] / 2)


def test_at_a_factor_of_one_a_check_fails_when_more_is_asked_than_it_takes():
    found = uncertain.spares(DEMO, {})
    for one in Machine(DEMO).checks:
        if one.demand > 0 and one.judged:
            assert (found[one.id] < 1) == (one.demand > one.capacity * (1 + 1e-9)), one.id


# ------------------------------------------------------------------------------------ outlook


def test_the_same_seed_gives_the_same_answer_with_a_pool_and_without(few):
    machine, told = Machine(DEMO), []
    one = uncertain.outlook(machine, 12, seed=4, progress=told.append)
    with ThreadPoolExecutor(2) as pool:
        other = uncertain.outlook(machine, 12, seed=4, executor=pool)
    assert one == other
    assert any("drawing machines" in words for words in told)
    # the same draws counted by themselves
    felt = [each for each in inputs(DEMO)[:8] if each.name in {it.of.name for it in one.effects}]
    places = np.random.default_rng(4).random((12, len(felt)))
    rows = [{each.name: each.at(at) for each, at in zip(felt, row, strict=True)} for row in places]
    held = sum(min(uncertain.spares(DEMO, row).values()) >= 1 for row in rows)
    assert (one.draws, one.holding) == (12, held)
    assert 0 < held < 12
    assert one.interval == clopper_pearson(one.holding, 12)
    assert len(one.measure_first) == uncertain.WORST
    assert uncertain.outlook(machine, 12, cancel=lambda: True) is None


def test_a_machine_with_clay_far_too_stiff_holds_in_no_draw(few):
    found = uncertain.outlook(Machine(Design.demo("too_stiff")), 10, seed=2)
    assert (found.holding, found.share) == (0, 0.0)
    assert found.failing[0][1] == 1.0


def test_risk_is_said_at_the_door(few, tmp_path, capsys):
    path = tmp_path / "my_mixer.toml"
    assert main(["new", str(path)]) == 0
    status, text, _ = said(capsys, "risk", path, "--draws", "10", "--seed", "3")
    assert status == 0
    share = re.search(r"holds in ([\d.]+) % of 10 machines drawn \(([\d.]+) % to ([\d.]+) %", text)
    hits = round(float(share[1]) / 10)
    low, high = clopper_pearson(hits, 10)
    assert (float(share[2]), float(share[3])) == pytest.approx((100 * low, 100 * high), abs=0.06)
    assert "Clopper and Pearson" in text
    assert "Measure first:" in text
    for wrong in (["--draws", "1"], ["--seed", "-3"], ["--draws", "many"]):
        status, _, refused = said(capsys, "risk", path, *wrong)
        assert status == 2
        assert len(refused.splitlines()) == 1


# --------------------------------------------------------------------------- assumed values


def test_a_check_with_a_thousandth_to_spare_flips():
    """Shaft 1 is 45 mm thick: a bore of 45.045 mm takes it, and the least that it may be does not."""
    tight = resting_on(DEMO.with_values({BOX: "45.045 mm"}), BOX)
    machine = Machine(tight)
    spare = next(one.spare for one in machine.checks if one.id == SLOW_END)
    assert spare == pytest.approx(1.001)
    (found,) = flips(machine)
    assert found.field == BOX
    assert SLOW_END in found.fails
    assert found.takes <= 1 / 16
    # what it says was tried: there it fails, and nearer by a sixteenth of the way it does not
    assert SLOW_END in {
        one.id for one in machine.with_values({BOX: found.at}).checks if one.verdict == "fails"
    }


def test_a_value_that_nothing_hangs_on_does_not_flip():
    assert flips(Machine(resting_on(DEMO, "reducer.backlash"))) == ()
    assert flips(Machine(DEMO)) == ()


def test_every_flip_fails_at_one_of_its_ends_and_no_other_field_does(drafted):
    """Once more by whole machines, without what spares work."""
    design = Design.parse(drafted)
    machine = Machine(design)
    found = {one.field: one for one in flips(machine)}
    assert [one.takes for one in found.values()] == sorted(one.takes for one in found.values())
    for name in assumed(design):
        failing = set()
        for end in ends(design, name) or ():
            moved = machine.with_values({name: typed(design, name, end)})
            failing |= {one.id for one in moved.checks if one.verdict == "fails"}
        assert bool(failing) == (name in found), name
        if failing:
            assert {*found[name].fails} & failing


def test_check_says_what_to_measure_first_until_it_is_confirmed(own, capsys):
    _, text, _ = said(capsys, "check", own)
    first = re.search(
        r"(\d+) values are assumed; (\d+) of them could make it fail within their range: "
        r"measure (\S+) first \((.*?): fails at ([^)]*)\)\.",
        text,
    )
    status = json.loads(said(capsys, "check", own, "--json")[1])
    assert len(status["assumed"]) == int(first[1])
    assert len(status["assumed_flips"]) == int(first[2])
    assert status["assumed_flips"][0]["field"] == first[3]
    known = {one["id"] for one in status["checks"]}
    for one in status["assumed_flips"]:
        assert {*one} == {"field", "low", "high", "fails"}
        assert one["fails"]
        assert known >= {*one["fails"]}
    assert BOX in {one["field"] for one in status["assumed_flips"]}
    # the value that it says fails there indeed
    changed = own.parent / "other.toml"
    changed.write_text(own.read_text("utf-8"), "utf-8")
    assert main(["set", str(changed), f'{first[3]} = "{first[5]}"']) == 0
    assert Machine(Design.read(changed)).verdict == "fails"
    some = [one for one in status["assumed"] if not one.startswith("fuse.")]
    assert main(["set", str(own), *(word for one in some for word in ("--confirm", one))]) == 0
    left = json.loads(said(capsys, "check", own, "--json")[1])
    assert sorted({*status["assumed"]} - {*left["assumed"]}) == sorted(some)
    assert [one["field"] for one in left["assumed_flips"]] == [
        one["field"] for one in status["assumed_flips"] if one["field"].startswith("fuse.")
    ]
    rest = [word for one in left["assumed"] for word in ("--confirm", one)]
    assert main(["set", str(own), *rest]) == 0
    assert "assumed" not in said(capsys, "check", own)[1]


def test_a_sheet_says_what_its_size_hangs_on_and_loses_it_when_confirmed(own, capsys):
    def bands():
        assert main(["sheets", str(own), "--out", str(own.parent / "out")]) == 0
        page = (own.parent / "out" / "sheets_a4.html").read_text("utf-8")
        parts = page.split('<section class="sheet')[1:]
        capsys.readouterr()
        return {
            re.search(r"<h3>(.*?)</h3>", one)[1]: re.findall(r'class="hangs">(.*?)<', one)
            for one in parts
        }

    before = bands()
    assert before["Shaft 1"] == [f"Size hangs on {BOX}, not measured yet"]
    assert before["Shaft 2"] == []
    assert main(["set", str(own), "--confirm", BOX]) == 0
    assert not any(bands().values())


@pytest.mark.skipif(browser.chromium() is None, reason="no Chromium on this machine")
def test_the_band_lies_across_the_drawing_and_moves_nothing(drafted, tmp_path):
    first, other = {}, Design.parse(drafted)
    for design in (other.with_values({"drafted": {}}), other):
        path = write_sheets(design, None, tmp_path, "letter")[0]
        with browser.page() as tab:
            tab.emulate_media(media="print")
            tab.goto(path.as_uri())
            found = tab.evaluate(
                """[...document.querySelectorAll('.sheet')].map(sheet => {
                const box = one => one.getBoundingClientRect(), band = sheet.querySelector('.hangs'), s = box(sheet);
                const drawn = sheet.querySelector('.drawing svg');
                return {
                  title: sheet.querySelector('h3').textContent,
                  rest: [...sheet.querySelectorAll('h3, .purpose, svg, td, li')].map(one => [box(one).x - s.x, box(one).y - s.y]),
                  over: sheet.scrollHeight > sheet.clientHeight + 1 || sheet.scrollWidth > sheet.clientWidth + 1,
                  across: band && box(band).left > s.left && box(band).right < s.right && box(band).width > 0.8 * box(drawn).width
                    && box(band).top < box(drawn).bottom && box(band).bottom > box(drawn).top
                } })"""
            )
        places = {one["title"]: one["rest"] for one in found}
        if not first:
            assert not any(one["across"] for one in found)
            first = places
        assert not any(one["over"] for one in found)
    assert [one["title"] for one in found if one["across"]] == ["Shaft 1"]
    assert places == first


def test_no_sheet_of_a_design_of_ones_own_hangs_on_anything():
    assert not any(one.hangs for one in sheets(DEMO, None))


def test_the_report_says_what_rests_on_assumed_values(own, capsys):
    assert main(["report", str(own), "--out", str(own.parent / "out")]) == 0
    page = (own.parent / "out" / "report.html").read_text("utf-8")
    part = page.split("What rests on assumed values</h2>")[1].split("<h2>")[0]
    assert "values are assumed; " in part
    assert f"<td>{BOX}</td><td>60 mm</td><td>48 mm to 75 mm</td>" in part
    assert "Size hangs on" in page
    capsys.readouterr()


def test_a_panel_says_it_once_its_knobs_rest(own):
    panel = panels.whole_machine(open_design(own))
    assert "assumed" not in panel._mends.value
    panel._mending.now()
    assert "values are assumed; " in panel._mends.value
    assert "measure fuse.test_torque first" in panel._mends.value
    panel.let_go()


def test_a_size_as_made_wins_over_what_was_assumed_and_it_is_said(own, capsys):
    sizes = own.parent / "my_sizes.toml"
    sizes.write_text('[box]\noutput_bore = "60.01 mm"\n', "utf-8")
    found = json.loads(said(capsys, "check", own, "--json")[1])
    assert BOX not in found["assumed"]
    assert BOX not in {one["field"] for one in found["assumed_flips"]}
    sizes.write_text('[box]\noutput_bore = "58 mm"\n', "utf-8")
    _, text, _ = said(capsys, "check", own)
    assert f"{BOX}: 58 mm as made, and the design has 60 mm: what was measured counts" in text
    line = re.search(r'type (reducer\.output_bore = "58 mm")', text)[1]
    said(capsys, "sheets", own, "--out", own.parent / "out")
    page = (own.parent / "out" / "sheets_a4.html").read_text("utf-8")
    assert f"Size hangs on {BOX}, measured 58 mm, drawn for 60 mm" in page
    assert main(["set", str(own), line]) == 0
    told = said(capsys, "sheets", own, "--out", own.parent / "out")[1]
    assert "what was measured counts" not in told
    assert 'class="hangs"' not in (own.parent / "out" / "sheets_a4.html").read_text("utf-8")


def test_quantities_are_typed_in_the_makers_own_unit():
    inch = Design.demo("inch_room")
    assert isinstance(inch.field("batch.bag_length")[2], QuantityKind)
    assert typed(inch, "batch.bag_length", 279.4) == "11 in"
