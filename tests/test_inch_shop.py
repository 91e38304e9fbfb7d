"""An inch shop: cutters by diametral pitch, drills by number and letter, unified taps, and what its sheets say."""

import re
from fractions import Fraction

import pytest

from mixerkit import Design
from mixerkit.__main__ import main
from mixerkit.data_files import data_path
from mixerkit.shop.drills import drill_words, sizes_named
from mixerkit.shop.tapping import engagement, tapped_hole
from mixerkit.shop.threads import thread
from mixerkit.shop.workshop import Workshop, read_workshop
from mixerkit.show import sheets
from mixerkit.tables import table

TEXT = data_path("shops", "inch_room_shop.toml").read_text("utf-8")
INCH = read_workshop(data_path("shops", "inch_room_shop.toml"))
ROOM = data_path("designs", "inch_room.toml")


def test_drills_by_name_have_their_sizes():
    # as every drill chart has them
    for name, size in (("#1", 0.228), ("number 7", 0.201), ("No. 21", 0.159), ("F", 0.257)):
        assert sizes_named(name)[0] == pytest.approx(25.4 * size)
    assert sizes_named("letter Q") == pytest.approx((25.4 * 0.332,))
    assert sizes_named("60 mm") == sizes_named("1/4 in") == ()
    assert len(sizes_named("#1 to #80")) == 80
    # a letter drill is larger than any with a number, and each number smaller than the one before
    numbers, letters = sizes_named("#1 to #80"), sizes_named("A to Z")
    assert sorted(numbers, reverse=True) == list(numbers)
    assert sorted(letters) == list(letters)
    assert letters[0] > numbers[0]


@pytest.mark.parametrize("row", table("unified_threads").rows, ids=lambda row: row.values["name"])
def test_every_unified_thread_is_left_three_quarters_of_its_height(row):
    one = thread(row.values["name"])
    # of the sharp profile's 1.299 P, as American charts count: 65 to 80 %
    assert 0.62 < (one.diameter - one.tapping_drill) / (1.299 * one.pitch) < 0.81
    size, _, per_inch = str(row.values["name"]).split()[0].partition("-")
    if "/" in size:
        assert one.diameter == pytest.approx(25.4 * float(Fraction(size)))
    else:
        # a numbered screw: 0.060 in and 0.013 in more for each number, ASME B1.1
        inches = 0.060 + 0.013 * int(size) if int(size) > 1 else 1.0
        assert one.diameter == pytest.approx(25.4 * inches, rel=1e-4)
    assert one.pitch == pytest.approx(25.4 / int(per_inch))


def test_a_bolt_and_its_tap_are_one_thread():
    for row in table("threads").only("series", "inch"):
        one, pitch = thread(row.values["name"]), row.values["pitch"]
        assert one.name.endswith("UNC")
        assert one.pitch == pytest.approx(pitch, rel=1e-4)
        assert one.tapping_drill == pytest.approx(row.values["tapping_drill"], abs=0.05)
    for name in ("1/4-20 UNC", "1/4-20", "1/4-20unc", "1/4 in"):
        assert thread(name).name == "1/4-20 UNC"
    assert thread("#10-32").name == thread("No. 10-32 UNF").name == "10-32 UNF"


def test_a_tapped_hole_of_an_inch_shop_is_drilled_by_name():
    one = tapped_hole("3/8-24 UNF", INCH, system="inch")
    assert one.words == "all on the shelf"
    assert drill_words(one.on_shelf, "inch") == "letter Q"
    assert one.engaged == pytest.approx(engagement(9.525, 25.4 / 24, 25.4 * 0.332))
    assert "no tap 3/4-10 UNC" in tapped_hole("3/4-10 UNC", INCH, system="inch").words
    assert "no drill near 21/32 in" in tapped_hole("3/4-10 UNC", INCH, system="inch").words


def test_cutters_of_diametral_pitch_serve_the_gears_of_that_pitch():
    assert INCH.cutters[5.08] == frozenset(range(1, 8))
    spelt = Workshop.from_table(INCH.to_table() | {"cutters": {"5 / in": [1, 2, 3, 4, 5, 6, 7]}})
    assert spelt.cutters[5.08] == INCH.cutters[5.08]
    assert Workshop.from_table(INCH.to_table()) == INCH


def test_the_sheets_of_the_inch_demo_use_its_shop(tmp_path, capsys):
    """Its cutters are on the shelf, and its holes are drilled and reamed by the names of inch tools."""
    shop = data_path("shops", "inch_room_shop.toml")
    assert main(["sheets", str(ROOM), "--shop", str(shop), "--out", str(tmp_path)]) in (0, 1)
    capsys.readouterr()
    page = (tmp_path / "sheets_a4.html").read_text("utf-8")
    assert "NOT ON THE SHELF" not in page
    assert "diametral pitch 5, 20 deg" in page
    assert re.search(r"drill [\d/ ]+ in", page)
    assert "ream 3/8 in H7" in page
    # nothing is told in decimals that is stamped as a fraction
    made = " ".join(
        cell
        for one in sheets.sheets(Design.demo("inch_room"), INCH)
        for title, heads, rows in one.tables
        if "Made by" in heads
        for row in rows
        for cell in [row[heads.index("Made by")]]
    )
    assert not re.search(r"drill 0\.\d+ in", made)


BAD = [
    ('"5 DP"', '"5 GP"', 'cutters.5 GP: "5 GP" does not fit; a plain number in mm is wanted'),
    ('"5 DP"', '"0 / in"', 'cutters.0 / in: "0 / in" does not fit'),
    ('"6 DP"', '"5 / in"', "cutters.5 / in: 5.08 is given twice"),
    ('"A to Z"', '"AA"', 'holes.drills: "AA" is not a number with a unit'),
    ('"A to Z"', '"letter AA"', 'holes.drills: "letter AA" is no drill; a size, a number from 1'),
    ('"#1 to #60"', '"#1 to #99"', 'holes.drills: "#1 to #99" is no drill'),
    ('"#1 to #60"', '"#0"', 'holes.drills: "#0" is no drill'),
    ('"#1 to #60"', '"#1 to Z"', 'holes.drills: "#1 to Z" is no drill'),
    ('"3/8-24 UNF"', '"3/8-25 UNF"', 'nearest is "3/8-24 UNF"'),
    ('"3/8-24 UNF"', '"3/8 UNF"', "holes.taps:"),
]


@pytest.mark.parametrize(("old", "new", "words"), BAD)
def test_a_bad_inch_shop_file_is_said_in_one_sentence(old, new, words, tmp_path, capsys):
    shop = tmp_path / "my_shop.toml"
    assert old in TEXT
    shop.write_text(TEXT.replace(old, new, 1))
    out = tmp_path / "out"
    assert main(["sheets", str(ROOM), "--shop", str(shop), "--out", str(out)]) == 2
    (line,) = capsys.readouterr().err.splitlines()
    assert line.startswith("my_shop.toml, ")
    assert words in line
    assert not out.exists()
