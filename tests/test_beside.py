"""Shop and sizes as made lie beside the design file; the demo's never go with a maker's own design."""

import json
import re

import ezdxf
import pytest

from mixerkit import Design
from mixerkit.__main__ import main
from mixerkit.data_files import data_path
from mixerkit.explore import paths
from mixerkit.shop.beside import beside, shop_file, sizes_file
from mixerkit.shop.held import lacks
from mixerkit.shop.workshop import read_workshop
from mixerkit.show import choices, panels, shopfloor, stamp
from mixerkit.show.sheets import sheets

DEMO = data_path("designs", "larkfield.toml")
SHOP = data_path("shops", "larkfield_shop.toml").read_text("utf-8")
WHOLE = SHOP.replace('between_centres = "750 mm"', 'between_centres = "900 mm"').replace(
    'travel_y = "220 mm"', 'travel_y = "300 mm"'
)
"""A shop that has all that the demo machine is cut with; the demo's own lathe and mill are too small."""
SIZES = data_path("measured", "larkfield_as_made.toml").read_text("utf-8")
NONE = (
    "No shop file: cutters, dividing plates, drills, machines and stock are not held against yours"
)


@pytest.fixture
def own(tmp_path, monkeypatch):
    """A maker's own design, which begins as the demo does, in a folder of its own."""
    monkeypatch.chdir(tmp_path)
    assert main(["new", "my_mixer.toml"]) == 0
    return tmp_path / "my_mixer.toml"


def said(capsys, *arguments):
    """Exit status and text of a command, without what it says of its progress where it takes longer."""
    capsys.readouterr()
    status = main([str(one) for one in arguments])
    printed = capsys.readouterr()
    told = [line for line in printed.err.splitlines(True) if not line.endswith(" ...\n")]
    return status, printed.out + "".join(told)


def test_a_design_of_ones_own_never_gets_the_demos_shop(own, capsys):
    """A copy of a demo is one's own; a sentence says what is left undone, and all the rest is done."""
    for command in ("check", "sheets", "report", "hold-points"):
        more = ["--out", own.parent / "out"] if command in ("sheets", "report") else []
        status, text = said(capsys, command, own, *more)
        assert status == 0
        assert text.count(NONE) == 1
        assert "Larkfield demo shop" not in text
    for name in ("sheets_a4.html", "report.html"):
        page = (own.parent / "out" / name).read_text("utf-8")
        assert NONE in page
        assert stamp.fingerprint(Design.read(own)) in page
        assert "NOT ON THE SHELF" not in page
        assert "fingerprint of design and kit" in page
        assert "of a 40 : 1 head" in page
    # a torch whose cut nobody stated has no path
    drawing = ezdxf.readfile(own.parent / "out" / "plate_trough.dxf")
    layers = {one.dxf.layer for one in drawing.modelspace()}
    assert "finished edge" in layers
    assert "torch path" not in layers


def test_what_the_sentence_says_to_type_mends_it(own, capsys):
    _, text = said(capsys, "check", own)
    (typed,) = re.findall(r'"mixerkit (new [^"]*my_shop\.toml)" writes', text)
    assert said(capsys, *typed.split())[0] == 0
    status, text = said(capsys, "check", own)
    assert status == 0
    assert "Shop: Larkfield demo shop, from my_shop.toml.\n" in text
    (own.parent / "my_shop.toml").write_text(WHOLE)
    text = said(capsys, "check", own)[1]
    assert "from my_shop.toml. All that the machine is cut with is there." in text
    assert said(capsys, *typed.split())[0] == 2  # one that is there is left alone
    _, text = said(capsys, "hold-points", own)
    (typed,) = re.findall(r'"mixerkit (new [^"]*my_sizes\.toml)" writes', text)
    assert said(capsys, *typed.split())[0] == 0
    status, text = said(capsys, "hold-points", own)
    assert status == 0
    assert "fingerprint of design, shop, sizes as made" in text
    assert "No sizes" not in text


def test_the_shop_beside_the_design_is_read_from_any_folder(own, capsys, tmp_path, monkeypatch):
    (own.parent / "my_shop.toml").write_text(SHOP.replace("Larkfield demo shop", "Our own shop"))
    elsewhere = tmp_path / "elsewhere"
    elsewhere.mkdir()
    monkeypatch.chdir(elsewhere)
    assert "Shop: Our own shop, from my_shop.toml" in said(capsys, "check", own)[1]
    # and one that is named goes before it
    (elsewhere / "other.toml").write_text(SHOP.replace("Larkfield demo shop", "Another shop"))
    text = said(capsys, "check", own, "--shop", "other.toml")[1]
    assert "Shop: Another shop, from other.toml" in text
    assert "Our own shop" not in text


LACKING = [
    (
        '"5" = [1, 2, 3, 4, 5, 6, 8]',
        '"5" = [1, 2, 3, 5, 6, 8]',
        "number 4, is on the shelf for the direct path",
    ),
    ("[15, 16, 17, 18, 19, 20],", "[16, 17, 19, 20],", None),
    (
        "[15, 16, 17, 18, 19, 20],\n    [21, 23, 27, 29, 31, 33],\n    [37, 39,",
        "[\n16],[37,",
        "divides 30 exactly",
    ),
    (
        'largest_blank = "250 mm"',
        'largest_blank = "140 mm"',
        "larger than the 140 mm that the shop turns",
    ),
    ('between_centres = "900 mm"', 'between_centres = "600 mm"', "does not go into the lathe"),
    ('travel_x = "520 mm"', 'travel_x = "100 mm"', "the mill travels 100 mm x 300 mm"),
    ('"30 mm", "35 mm", "40 mm"]', '"30 mm"]', "No plate in stock is thick enough"),
]


@pytest.mark.parametrize(("old", "new", "words"), LACKING)
def test_check_report_and_json_say_what_the_shop_lacks(old, new, words, own, capsys):
    """Fewer tools are told; a circle that another one does for is not."""
    assert old in WHOLE
    (own.parent / "my_shop.toml").write_text(WHOLE.replace(old, new, 1))
    status, text = said(capsys, "check", own)
    assert status == 0  # the machine holds all the same
    document = json.loads(said(capsys, "check", own, "--json")[1])
    assert document["shop"]["name"] == "Larkfield demo shop"
    if words is None:
        assert "All that the machine is cut with is there." in text
        assert document["shop"]["lacks"] == []
        return
    assert words in text
    assert any(words in one for one in document["shop"]["lacks"])
    assert "All that the machine" not in text


def test_json_of_a_design_without_a_shop_says_none(own, capsys):
    assert json.loads(said(capsys, "check", own, "--json")[1])["shop"] is None


def test_the_demos_files_go_with_the_demos_designs(tmp_path, capsys):
    text = said(capsys, "check", data_path("designs", "inch_room.toml"), "--no-remedies")[1]
    assert "Shop: Larkfield annex demo shop, the demo's." in text
    said(capsys, "sheets", data_path("designs", "inch_room.toml"), "--out", tmp_path)
    page = (tmp_path / "sheets_a4.html").read_text("utf-8")
    assert "These sheets are for Larkfield annex demo shop." in page
    status, text = said(capsys, "hold-points", DEMO)
    assert status == 1  # its second hole landed off
    assert (
        text
        == said(capsys, "hold-points", DEMO, data_path("measured", "larkfield_as_made.toml"))[1]
    )


def test_sizes_beside_the_design_are_judged_and_told(own, capsys):
    (own.parent / "my_sizes.toml").write_text(SIZES)
    (own.parent / "my_shop.toml").write_text(SHOP)
    status, text = said(capsys, "hold-points", own)
    assert (status, "Ways out" in text) == (1, True)
    assert (
        text.replace("Shop: Larkfield demo shop, from my_shop.toml.\n", "")
        == said(capsys, "hold-points", DEMO)[1]
    )
    for command in ("check", "report", "sheets"):
        text = said(capsys, command, own)[1]
        assert re.search(r"Sizes as made: from my_sizes\.toml: \d+ of \d+ not as drawn; ", text)
        assert f'"mixerkit hold-points {own}" says at which step to stop.' in text
    good = SIZES.replace("320.15", "320.00").replace("150.15", "150.00")
    good = re.sub(
        r"\[gears\.direct_1\].*?\n\n|\[gears\.idler_2\].*?\n\n", "", good, flags=re.DOTALL
    )
    (own.parent / "my_sizes.toml").write_text(good)
    assert re.search(
        r"Sizes as made: from my_sizes\.toml: \d+, all as drawn; ", said(capsys, "check", own)[1]
    )


@pytest.mark.parametrize(
    ("turns", "holes", "circle", "right"),
    [
        (1, 13, 39, True),
        (1, 17, 51, True),
        (1, 14, 39, False),
        (2, 0, 0, False),
        (1, 0, 1000, False),
    ],
)
def test_a_setting_of_the_head_is_judged_without_a_shop_too(
    turns, holes, circle, right, own, capsys
):
    """Any circle may be there, but 30 teeth are 1 1/3 turns of a usual head, and no step says cut otherwise."""
    (own.parent / "my_sizes.toml").write_text(
        f"[gears.direct_1]\nturns = {turns}\nholes = {holes}\ncircle = {circle}\n"
    )
    status, text = said(capsys, "hold-points", own)
    assert status == (0 if right else 1)
    advice = "set 1 1/3 turns of a 40 : 1 head, on a circle that 3 divides; no shop file names another head"
    assert (advice in text) is not right


@pytest.mark.parametrize("name", ["my_shop.toml", "my_sizes.toml"])
@pytest.mark.parametrize("command", ["check", "report", "sheets", "hold-points"])
@pytest.mark.parametrize("wrong", ["folder", "text", "field", "link"])
def test_a_bad_file_beside_the_design_is_one_sentence(name, command, wrong, own, capsys):
    file = own.parent / name
    if wrong == "folder":
        file.mkdir()
    elif wrong == "link":
        file.symlink_to(own.parent / "nowhere")
    else:
        file.write_text("what is this" if wrong == "text" else "lathes = 3\n")
    status, text = said(capsys, command, own)
    assert status == 2
    assert 1 <= len(text.splitlines()) < 10
    assert all(name in line for line in text.splitlines())
    assert "Traceback" not in text
    assert sorted(one.name for one in own.parent.iterdir()) == sorted(["my_mixer.toml", name])


# ---------------------------------------------------------------- without a shop, in the rooms


def test_without_a_shop_the_search_for_gears_keeps_to_the_designs_pitch():
    design = Design.demo()
    found, with_shop = paths.search(design, None), paths.search(design, read_workshop())
    assert set(found.direct.module) == {5.0}
    assert not found.direct.near
    assert len(found.pairs) > 0
    # what the shop can cut of that pitch is among it
    of_shop = {
        tuple(one)
        for one, m in zip(with_shop.direct.counts, with_shop.direct.module, strict=True)
        if m == 5
    }
    assert of_shop <= {tuple(one) for one in found.direct.counts}


def test_an_answer_of_an_inch_shop_is_laid_on_the_bench_as_its_cutters_say(tmp_path):
    shop = read_workshop(data_path("shops", "inch_room_shop.toml"))
    found = paths.search(Design.demo("inch_room"), shop, paths.Goals(modules=(25.4 / 6,)))
    assert len(found.pairs) > 0
    changed = Design.demo("inch_room").with_values(found.values(0))
    assert changed.to_table()["paths"]["direct"]["module"] == "6 / in"
    assert not [one for one in lacks(changed, shop, "inch") if "form cutter" in one]


@pytest.mark.parametrize("name", ["larkfield", "inch_room"])
def test_sheets_without_a_shop_are_whole(name):
    made = sheets(Design.demo(name), None)
    assert [one.title for one in made] == [
        one.title for one in sheets(Design.demo(name), read_workshop())
    ]
    text = str(made)
    assert not re.search(r"\b(nan|inf|None)\b", text)
    assert "shelf" not in text


# ---------------------------------------------------------------- notebooks


def test_a_bench_takes_the_shop_beside_its_design(own):
    bench = panels.open_design(own)
    assert bench.shop is None
    assert NONE in bench.says
    assert "40 : 1 head" in repr(panels.cutting(bench))
    (own.parent / "my_shop.toml").write_text(SHOP.replace("Larkfield demo shop", "Our own shop"))
    bench.reload()
    assert bench.shop.name == "Our own shop"
    assert "Shop: Our own shop, from my_shop.toml." in bench.says
    assert "on the shelf" in repr(panels.cutting(bench))
    assert "Our own shop" in repr(choices.gear_paths(bench, most=1))


def test_a_bad_shop_beside_a_bench_is_told_and_no_other_taken(own):
    (own.parent / "my_shop.toml").write_text("lathes = 3\n")
    bench = panels.open_design(own)
    assert bench.shop is None
    assert "my_shop.toml, lathes: no such field" in bench.says


def test_the_demo_on_the_bench_has_the_demos_files_until_it_is_kept(tmp_path):
    bench = panels.open_design(tmp_path / "my_mixer.toml")
    assert bench.shop == read_workshop()
    assert bench.says.count("\n") == 0
    assert "direct_1" in shopfloor.as_made(bench)._text.value
    bench.keep()
    assert bench.shop is None
    assert NONE in bench.says
    assert shopfloor.as_made(bench)._text.value.startswith("# Sizes as made")
    (tmp_path / "my_sizes.toml").write_text('[box]\noutput_bore = "50.02 mm"\n')
    assert shopfloor.as_made(bench)._text.value.startswith("[box]")


def test_the_files_of_a_bench_and_of_a_command_are_one(own):
    bench = panels.open_design(own)
    assert (bench.shop, sizes_file(own)) == (beside(own).shop, None)
    assert shop_file(own) is None
    assert shop_file(DEMO).name == "larkfield_shop.toml"
