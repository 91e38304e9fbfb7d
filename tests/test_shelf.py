"""What lies on the shelf is used before anything is bought, nothing of it twice, and unknown steel as the weakest."""

import csv
import re

import pytest
from hypothesis import given
from hypothesis import strategies as st
from test_bad_input import wrong_values

from mixerkit import Design
from mixerkit.__main__ import main
from mixerkit.data_files import data_path
from mixerkit.fields import kinds_in
from mixerkit.shop import parts_list, shelf
from mixerkit.shop.shelf import WantedBar, allocate
from mixerkit.shop.shelf_file import SURE, Shelf, ShelfBar, counts_as
from mixerkit.shop.workshop import Workshop, read_workshop
from mixerkit.tables import table
from mixerkit.units import InputError

DEMO = data_path("designs", "larkfield.toml")
SHOP = data_path("shops", "larkfield_shop.toml").read_text("utf-8")
CHROME = "steel 42CrMo4 quenched and tempered"
BAR = '[[shelf.bars]]\ndiameter = "55 mm"\nlength = "900 mm"\nmaterial = "{}"\nsure = "{}"\ncount = {}\n'


@pytest.fixture
def own(tmp_path, monkeypatch):
    """A maker's design with a shop file beside it that a shelf can be written to."""
    monkeypatch.chdir(tmp_path)
    (tmp_path / "my_mixer.toml").write_text(DEMO.read_text("utf-8"))

    def with_shelf(text):
        (tmp_path / "my_shop.toml").write_text(f"{SHOP}\n{text}")
        return tmp_path / "my_mixer.toml"

    return with_shelf


def bill(design, capsys):
    """Bill of materials that the command writes, by part."""
    assert main(["sheets", str(design)]) == 0
    capsys.readouterr()
    with (design.parent / "sheets" / "bill_of_materials.csv").open(newline="") as lines:
        return {row[1]: row[3] for row in csv.reader(lines)}


def test_bars_of_the_shelf_are_sawn_first_and_the_sheets_say_so(own, capsys):
    made = bill(own(BAR.format(CHROME, "marked", 1)), capsys)
    # one bar is long enough for one shaft: for the longer, and the other one is bought
    assert (
        made["shaft 1"] == f"868.8 mm long, from the shelf: round 55 mm x 900 mm, {CHROME}, marked"
    )
    assert made["shaft 2"].startswith("round 48 mm x ")
    page = (own("").parent / "sheets" / "sheets_a4.html").read_text("utf-8")
    assert page.count(f"from the shelf: round 55 mm x 900 mm, {CHROME}, marked") == 2
    made = bill(own(BAR.format(CHROME, "tested", 2)), capsys)
    assert "from the shelf" in made["shaft 1"]
    assert "from the shelf" in made["shaft 2"]


@pytest.mark.parametrize(
    ("material", "sure", "there"),
    [
        (CHROME, "marked", True),
        (CHROME, "tested", True),
        (CHROME, "guess", False),
        ("unknown steel", "marked", False),
        ("steel S355J2", "marked", False),
    ],
)
def test_a_guess_is_no_steel_for_a_shaft(material, sure, there, own, capsys):
    made = bill(own(BAR.format(material, sure, 2)), capsys)
    assert ("from the shelf" in made["shaft 1"]) is there


def test_gears_bearings_plates_motor_and_box_are_taken_once(own, capsys):
    made = bill(
        own(
            "[[shelf.bearings]]\n"
            'bore = "45 mm"\nouter = "120 mm"\nwidth = "29 mm"\ncount = 3\n'
            "[[shelf.gears]]\n"
            f'tooth_count = 30\nmodule = "5 mm"\nface_width = "50 mm"\nbore = "20 mm"\nmaterial = "{CHROME}"\nsure = "marked"\n'
            "[[shelf.offcuts]]\n"
            'thickness = "35 mm"\nlength = "600 mm"\nwidth = "700 mm"\nmaterial = "steel S355J2"\nsure = "tested"\ncount = 2\n'
            "[[shelf.motors]]\n"
            'rated_power = "1.5 kW"\nrated_speed = "1440 rpm"\nshaft_end = "24 mm"\n'
        ),
        capsys,
    )
    plain = Design.read(DEMO)
    assert "motor from the shelf" in made["reduction box with motor"]
    assert "box from" not in made["reduction box with motor"]
    taken = [
        name
        for name, size in made.items()
        if name.startswith("bearing") and "from the shelf" in size
    ]
    counted = sum(
        int(found[1])
        for name in taken
        if (found := re.search(r"(\d) of \d from the shelf", made[name]))
    )
    fitting = [
        one
        for one in parts_list.parts(plain, None)
        if one.name.startswith("bearing") and "120 mm x 29" in one.size
    ]
    assert counted == min(3, sum(one.count for one in fitting))
    assert made["direct path, gear on shaft 2, fixed"].startswith(
        "from the shelf: 30 teeth, to bore to "
    )
    # the other one has dogs, which no gear from the shelf has
    assert "from the shelf" not in made["direct path, gear on shaft 1, free, on a bush"]
    assert made["plate at the trough"].startswith("from the shelf: 35 mm x 600 mm x 700 mm, tested")


def test_without_a_shelf_nothing_is_said_of_one(own, capsys):
    made = bill(own(""), capsys)
    assert not [size for size in made.values() if "shelf" in size]


def test_the_shelf_of_the_inch_demo_is_used(tmp_path, capsys):
    assert (
        main(["sheets", str(data_path("designs", "inch_room.toml")), "--out", str(tmp_path)]) == 0
    )
    text = (tmp_path / "bill_of_materials.csv").read_text("utf-8")
    assert "from the shelf: round 2 in x 40 in, steel 1045 cold drawn, marked" in text
    assert "motor from the shelf" in text
    capsys.readouterr()


# ---------------------------------------------------------------- which bar


def test_what_nobody_knows_counts_as_the_weakest_of_the_table():
    steels = [row.values for row in table("materials") if row.values["family"] == "steel"]
    weakest = table("materials").find(counts_as("unknown steel")).values
    for row in steels:
        assert weakest["yield_strength"] <= row["yield_strength"]
        assert weakest["tensile_strength"] <= row["tensile_strength"]
        assert counts_as(row["name"], "guess") == weakest["name"]
        assert counts_as(row["name"], "tested") == counts_as(row["name"], "marked") == row["name"]
    assert table("materials").find(counts_as("unknown stainless")).values["yield_strength"] == 170
    assert set(SURE) == {"marked", "tested", "guess"}


def bar(diameter, length, material="unknown steel", sure="guess", count=1):
    return ShelfBar(
        diameter=f"{diameter} mm", length=f"{length} mm", material=material, sure=sure, count=count
    )


def test_the_smallest_bar_that_does_serves_a_shaft():
    there = Shelf(bars=[bar(60, 900), bar(50, 900), bar(45, 700), bar(50, 950), bar(40, 2000)])
    found = shelf.bar_for_shaft(there, 44, 800)
    assert (found.diameter, found.length) == (50, 900)
    assert shelf.bar_for_shaft(there, 60, 900).diameter == 60
    assert shelf.bar_for_shaft(there, 60.1, 100) is None
    assert shelf.bar_for_shaft(there, 44, 800, yield_strength=226) is None
    assert shelf.bar_for_shaft(there, 44, 800, yield_strength=225).diameter == 50


def test_a_swap_serves_both_where_the_thickest_first_would_leave_one_out():
    wanted = [WantedBar("thick", 40, 300), WantedBar("long", 30, 900)]
    found = allocate(wanted, [bar(42, 950), bar(45, 350)])
    assert [one.bar.diameter for one in found] == [45, 42]


PIECES = st.lists(st.tuples(st.integers(10, 60), st.integers(50, 1000)), min_size=1, max_size=6)


@given(PIECES, PIECES, st.integers(0, 5))
def test_nothing_of_the_shelf_is_used_twice(pieces, bars, saw):
    wanted = [WantedBar(str(k), d, long) for k, (d, long) in enumerate(pieces)]
    stock = [bar(d, long) for d, long in bars]
    found = allocate(wanted, stock, saw)
    for number, one in enumerate(stock):
        sawn = [
            piece
            for piece, taken in zip(wanted, found, strict=True)
            if taken and taken.number == number
        ]
        # the last cut needs no saw where the bar ends with it
        assert sum(piece.length for piece in sawn) + saw * (len(sawn) - 1) <= one.length + 1e-6
        assert all(piece.diameter <= one.diameter for piece in sawn)
    for piece, taken in zip(wanted, found, strict=True):
        if taken is None:
            # none that is whole still would have done
            used = {one.number for one in found if one}
            assert not [
                n
                for n, one in enumerate(stock)
                if n not in used and one.diameter >= piece.diameter and one.length >= piece.length
            ]


# ---------------------------------------------------------------- rows for a drafter


def test_motors_and_boxes_are_rows_like_those_of_the_tables():
    there = Shelf.from_table(
        {
            "motors": [
                {
                    "rated_power": "2 hp",
                    "rated_speed": "1425 rpm",
                    "shaft_end": "24 mm",
                    "efficiency": 0.8,
                }
            ],
            "boxes": [
                {"kind": "worm", "ratio": 60, "rated_torque": "400 N*m", "output_bore": "45 mm"},
                {"kind": "helical", "ratio": 50, "rated_torque": "600 N*m", "output_bore": "50 mm"},
            ],
        }
    )
    (motor,) = shelf.motors(there)
    assert set(table("motors").rows[0].values) <= set(motor.values)
    assert motor.rated_power.m_as("hp") == pytest.approx(2)
    assert motor.values["efficiency"] == 0.8
    least = table("motors").column("start_torque_ratio").min()
    assert motor.values["start_torque_ratio"] == least
    assert "start torque ratio" in motor.source
    assert "efficiency" not in motor.source
    worm, helical = shelf.boxes(there)
    for row in (worm, helical):
        assert set(table("reducers").rows[0].values) <= set(row.values)
    of_kind = table("reducers").only("kind", "helical")
    assert helical.values["efficiency"] == of_kind.column("efficiency").min()
    assert helical.values["thermal_power"] == of_kind.column("thermal_power").min()


def test_bearings_gears_and_offcuts_are_found_by_their_sizes():
    there = Shelf.from_table(
        {
            "bearings": [
                {"bore": "45 mm", "outer": "85 mm", "width": "19 mm", "count": 2},
                {"bore": "45 mm", "outer": "85 mm", "width": "19 mm"},
            ],
            "gears": [
                {
                    "tooth_count": 30,
                    "module": "5 / in",
                    "face_width": "40 mm",
                    "material": CHROME,
                    "sure": "marked",
                },
                {
                    "tooth_count": 30,
                    "module": "5 / in",
                    "face_width": "40 mm",
                    "pressure_angle": "14.5 deg",
                    "material": CHROME,
                    "sure": "marked",
                },
            ],
            "offcuts": [
                {"thickness": "40 mm", "length": "500 mm", "width": "300 mm"},
                {"thickness": "30 mm", "length": "300 mm", "width": "500 mm"},
            ],
        }
    )
    assert shelf.bearing_count(there, 45, 85, 19) == 3
    assert shelf.bearing_count(there, 45, 85, 23) == 0
    assert shelf.gear_count(there, 5.08, 30, 38.1, 30, CHROME) == 1
    assert shelf.gear_count(there, 5.0, 30, 38.1, 30, CHROME) == 0
    assert shelf.gear_count(there, 5.08, 30, 40.1, 30, CHROME) == 0
    weakest = counts_as("unknown steel")
    assert shelf.offcut_for(there, 25, 450, 290, weakest).thickness == 30
    assert shelf.offcut_for(there, 35, 450, 290, weakest).thickness == 40
    assert shelf.offcut_for(there, 35, 450, 310, weakest) is None
    assert shelf.offcut_for(there, 25, 450, 290, weakest, 2) is None


# ---------------------------------------------------------------- the file


def test_a_shelf_reads_what_it_writes():
    there = read_workshop(data_path("shops", "inch_room_shop.toml"))
    assert len(there.shelf.bars) == 3
    assert Workshop.from_table(there.to_table()) == there


BAD = [
    ('diameter = "55 mm"', 'diameter = "55 kg"', 'shelf.bars.1.diameter: "55 kg" is a mass'),
    ('diameter = "55 mm"\n', "", "shelf.bars.1.diameter: missing; of the bar is wanted"),
    ("length =", "lenght =", 'shelf.bars.1.lenght: no such field; nearest is "length"'),
    ("{material}", "steel C54 normalised", 'nearest is "steel C45 normalised"'),
    ("{sure}", "sure", 'shelf.bars.1.sure: "sure" is none of "marked"'),
    ("count = 1", "count = 0", "shelf.bars.1.count: 0 does not fit"),
    ("[[shelf.bars]]", "[shelf.bars]", "shelf.bars: "),
    ("[[shelf.bars]]", "[[shelf.bar]]", 'shelf.bar: no such field; nearest is "bars"'),
    ("[[shelf.bars]]", "[[shelf]]", "shelf: "),
]


@pytest.mark.parametrize(("old", "new", "words"), BAD)
def test_a_bad_shelf_is_said(old, new, words, own, capsys):
    text = BAR.format("{material}", "{sure}", 1)
    assert old in text
    text = text.replace(old, new, 1).replace("{material}", CHROME).replace("{sure}", "marked")
    assert main(["sheets", str(own(text))]) == 2
    lines = capsys.readouterr().err.splitlines()
    assert all(line.startswith("my_shop.toml, ") for line in lines)
    assert any(words in line for line in lines), lines
    assert not (own("").parent / "sheets").exists()


LEAST = {
    "bars": {"diameter": "55 mm", "length": "900 mm"},
    "offcuts": {"thickness": "30 mm", "length": "600 mm", "width": "400 mm"},
    "gears": {"tooth_count": 30, "module": "5 mm", "face_width": "45 mm"},
    "bearings": {"bore": "45 mm", "outer": "85 mm", "width": "19 mm"},
    "motors": {"rated_power": "1.5 kW", "rated_speed": "1440 rpm", "shaft_end": "24 mm"},
    "boxes": {"kind": "worm", "ratio": 60, "rated_torque": "400 N*m", "output_bore": "45 mm"},
}


@pytest.mark.parametrize("what", list(LEAST))
def test_every_field_of_the_shelf_refuses_what_does_not_fit(what):
    assert len(getattr(Shelf.from_table({what: [LEAST[what]]}), what)) == 1
    of = type(getattr(Shelf.from_table({what: [LEAST[what]]}), what)[0])
    for name, kind in kinds_in(of).items():
        for wrong in wrong_values(kind):
            with pytest.raises(InputError) as caught:
                Shelf.from_table({what: [LEAST[what] | {name: wrong}]})
            assert any(one.startswith(f"{what}.1.{name}:") for one in caught.value.messages), wrong


def test_a_line_pasted_below_a_shelf_goes_to_its_own_table(own, capsys):
    """``lathe.swing`` pasted at the end belongs to the lathe, whatever stands above it."""
    design = own(
        BAR.format(CHROME, "marked", 1) + 'lathe.swing = "100 mm"\nlathe.between_centres = "2 m"\n'
    )
    found = read_workshop(design.parent / "my_shop.toml")
    assert (found.lathe.swing, found.lathe.between_centres) == (100, 2000)
    assert found.shelf.bars[0].length == 900
    assert main(["check", str(design)]) == 0
    assert "larger than the 100 mm that the shop turns" in capsys.readouterr().out
