"""A machine round a worm box with a bore of 38 mm and bar of 40 mm: it can be written, and it goes together."""

import json
from pathlib import Path

from apart import blocked, in_one_place

from mixerkit.__main__ import main

FILE = Path(__file__).parent / "worm_box.toml"


def test_it_holds_with_an_order_of_assembly(capsys):
    status = main(["check", str(FILE), "--json"])
    told = json.loads(capsys.readouterr().out)
    assert (status, told["verdict"]) in [(0, "holds"), (0, "tight")]
    assert in_one_place(told["bodies"]) == []
    for number in (1, 2):
        way = told["order_of_assembly"][f"shaft_{number}"]
        assert blocked(told["bodies"], number, way["from_left"], way["from_right"]) == []
    # the end in the box, from its middle 90 mm out to half its key of 70 mm, leaves 5 mm of stub all round in 38 mm
    shaft = [one for one in told["bodies"] if one["name"] == "shaft 1"]
    assert {one["outer"] for one in shaft if one["from"] < -90 < one["to"]} == {28.0}
    assert {one["outer"] for one in shaft if one["from"] < 0 < one["to"]} == {40.0}


def test_its_sheets_and_report_can_be_printed(tmp_path):
    assert main(["sheets", str(FILE), "--out", str(tmp_path / "sheets")]) == 0
    assert main(["report", str(FILE), "--out", str(tmp_path)]) == 0
    assert any("24 : 1" in one.read_text("utf-8") for one in tmp_path.glob("*.html"))
