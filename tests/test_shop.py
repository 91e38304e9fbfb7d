"""The shop: indexing, holes, files, tapping, turning, welding, sheets."""

import csv
import io
import re
import xml.etree.ElementTree as ET
from fractions import Fraction

import ezdxf
import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from shapely.geometry import Polygon

from mixerkit import Design
from mixerkit.__main__ import main
from mixerkit.data_files import data_path
from mixerkit.parts import spurgear
from mixerkit.shop import (
    assembly,
    blanks,
    flatpattern,
    holes,
    indexing,
    parts_list,
    shaftwork,
    tapping,
    turning,
    welding,
    workshop,
)
from mixerkit.show import sheets
from mixerkit.show.stamp import fingerprint
from mixerkit.units import InputError

DEMO = Design.demo()
PLAIN = DEMO
SHOP = workshop.read_workshop()
BARE = workshop.Workshop(
    name="bare", dividing_ratio=40, plates=[], cutters={}, largest_blank="250 mm"
)
NAMES = ["larkfield", "inch_room"]


# ---------------------------------------------------------------- dividing


@pytest.mark.parametrize("count", range(2, 401))
def test_every_running_list_closes_on_itself(count):
    """Exact, nearest or compound: after the last tooth the crank is where its error says."""
    for one in indexing.settings(count, 40, SHOP.plates):
        rows = indexing.running_list(count, 40, one)
        assert len(rows) == count + 1
        assert (rows[0][1:3], rows[-1][1:3]) == ((0, 0), (40, 0))
        assert rows[-1][3] == pytest.approx(360.0)
        assert one.moved * count == 40
        angles = np.diff([row[3] for row in rows])
        assert angles == pytest.approx(360 / count)
    for one in indexing.nearest(count, 40, SHOP.plates, 3):
        assert float(one.moved * count - 40) / 40 * 360 == pytest.approx(one.error)


@pytest.mark.parametrize("count", [51, 53, 57, 59, 61, 63, 77, 87, 91, 127, 161])
def test_compound_is_at_least_as_near_as_simple(count):
    simple = indexing.nearest(count, 40, SHOP.plates, 1)[0]
    both = indexing.compound(count, 40, SHOP.plates)
    assert abs(both[0].error) <= abs(simple.error) + 1e-9
    for one in both:
        assert float(one.moved * count - 40) / 40 * 360 == pytest.approx(one.error, abs=1e-9)
        assert {one.first[1], one.second[1]} <= set(SHOP.plates[one.plate - 1])
    # 77 = 7 x 11 is the handbooks' example of an exact one
    if count == 77:
        assert both[0].error == 0


@given(st.integers(2, 400), st.integers(0, 50), st.integers(0, 48))
def test_a_wrong_row_is_seen_for_what_it_is(count, turns, hole):
    if turns + hole == 0:
        return
    cuts = indexing.what_it_cuts(turns, hole, 49, 40)
    assert cuts * (Fraction(turns) + Fraction(hole, 49)) == 40
    if cuts == count:
        assert indexing.settings(count, 40, [[49]]) or hole == 0


# ---------------------------------------------------------------- holes


@given(
    st.sampled_from(list(holes.FACES)),
    st.floats(120, 220),
    st.floats(130, 260),
    st.sampled_from(["above", "below"]),
)
def test_front_and_back_map_onto_each_other_by_the_flip_they_state(face, apart, wall, side):
    design = DEMO.with_values(
        {
            "housing.centre_distance": f"{apart} mm",
            "housing.wall_distance": f"{wall} mm",
            "housing.idler_side": side,
        }
    )
    which, seen = face
    other = "inside" if seen == "outside" else "outside"
    front, back = (holes.chart(design, which, one) for one in (seen, other))
    assert front.mirrored is not back.mirrored
    for (hole, x), (twin, back_x) in zip(front.rows, back.rows, strict=True):
        assert hole == twin
        assert x + back_x == pytest.approx(front.plate.width)
        twice = holes.turned_over(holes.turned_over(hole, front.plate.width), front.plate.width)
        assert twice.x == pytest.approx(hole.x)
    # nothing falls on itself when it is turned over, so a mirrored plate cannot go unseen
    assert {(round(hole.x, 6), round(hole.y, 6)) for hole, _ in front.rows} != {
        (round(front.plate.width - hole.x, 6), round(hole.y, 6)) for hole, _ in front.rows
    }
    # both plates, put together, have their bores in line: seen from the reduction box they are alike
    one, two = (holes.plate(design, name) for name in holes.PLATES)
    # but for the screws of the retaining plates, which are on one of them only
    shared = [[row for row in each.holes if "screw" not in row.name] for each in (one, two)]
    assert [(a.name, a.x, a.y) for a in shared[0]] == [(b.name, b.x, b.y) for b in shared[1]]


def test_the_chart_says_from_which_edge():
    for (which, face), mirrored in holes.FACES.items():
        chart = holes.chart(PLAIN, which, face)
        assert ("here on the right" in chart.from_edge) is mirrored


def test_the_distances_are_those_of_the_gears():
    found = dict(holes.chart(PLAIN, "reducer", "outside").distances)
    assert found["shaft 1 to shaft 2"] == pytest.approx(150)
    assert found["shaft 1 to idler pin"] == pytest.approx(105)
    for _, least, drawn, most in holes.backlash_band(PLAIN, SHOP):
        assert least < drawn < most


def test_how_a_hole_is_made_uses_what_the_shop_has():
    made = {hole.name: holes.how_made(hole, SHOP) for hole in holes.plate(PLAIN, "reducer").holes}
    assert made["dowel 1"] == "drill 9.5 mm, ream 10 mm H7"
    assert "bore to 120 mm - 120.03 mm" in made["shaft 1"]
    assert holes.how_made(holes.plate(PLAIN, "reducer").holes[-1], BARE).startswith("bore")


# ---------------------------------------------------------------- files


@pytest.mark.parametrize("name", NAMES)
@pytest.mark.parametrize("which", holes.PLATES)
def test_dxf_of_a_plate_read_back_has_every_hole_within_a_micrometre(name, which):
    design = Design.demo(name)
    drawing = ezdxf.read(io.StringIO(flatpattern.plate_dxf(design, which, SHOP)))
    assert drawing.units == ezdxf.units.MM
    assert not drawing.audit().errors
    found = [one.dxf for one in drawing.modelspace().query('CIRCLE[layer=="holes"]')]
    wanted = holes.plate(design, which).holes
    assert len(found) == len(wanted)
    for hole in wanted:
        near = min(found, key=lambda one: np.hypot(one.center.x - hole.x, one.center.y - hole.y))
        assert np.hypot(near.center.x - hole.x, near.center.y - hole.y) < 1e-3
        assert 2 * near.radius == pytest.approx(hole.diameter, abs=1e-3)
    layers = {one.dxf.layer for one in drawing.modelspace()}
    assert layers <= set(flatpattern.LAYERS)
    # the torch stays outside what is left to mill, and what is left outside what is finished
    boxes = {
        layer: next(iter(drawing.modelspace().query(f'LWPOLYLINE[layer=="{layer}"]')))
        for layer in ("finished edge", "edge as cut", "torch path")
    }
    area = {layer: Polygon(one.get_points("xy")).area for layer, one in boxes.items()}
    assert area["finished edge"] < area["edge as cut"] < area["torch path"]


@pytest.mark.parametrize("name", NAMES)
@pytest.mark.parametrize("gear", list(blanks.GEARS))
def test_dxf_and_svg_of_a_gear_read_back_measure_right(name, gear):
    spec = Design.demo(name)
    one = blanks.gear_blank(spec, gear, SHOP)
    drawing = ezdxf.read(io.StringIO(flatpattern.gear_dxf(spec, gear, SHOP)))
    outline = next(iter(drawing.modelspace().query('LWPOLYLINE[layer=="finished edge"]')))
    points = np.array(outline.get_points("xy"))
    reach = np.hypot(*points.T)
    assert 2 * reach.max() == pytest.approx(one.outside[0], abs=1e-3)
    bore = next(iter(drawing.modelspace().query('CIRCLE[layer=="holes"]')))
    assert 2 * bore.dxf.radius == pytest.approx(one.bore[0], abs=1e-6)
    tree = ET.fromstring(flatpattern.gear_svg(spec, gear, SHOP))
    space = "{http://www.w3.org/2000/svg}"
    text = tree.find(f"{space}polygon").get("points")
    drawn = np.array([[float(part) for part in pair.split(",")] for pair in text.split()])
    assert 2 * np.hypot(*drawn.T).max() == pytest.approx(one.outside[0], abs=2e-3)
    assert Polygon(drawn).is_valid
    # so wide in millimetres of paper as the drawing is in millimetres of steel
    assert tree.get("width") == f"{float(tree.get('viewBox').split()[2]):.3f}mm"
    crossings = np.diff(np.sign(reach - one.module * one.count / 2))
    assert np.count_nonzero(crossings) in (2 * one.count, 2 * one.count - 1)


@pytest.mark.parametrize("name", NAMES)
def test_csv_files_read_back(name, tmp_path):
    design = Design.demo(name)
    written = sheets.write_files(design, SHOP, tmp_path)
    assert all(one.exists() for one in written)
    rows = list(csv.reader((tmp_path / "holes_reducer.csv").read_text().splitlines()))
    for row, hole in zip(rows[1:], holes.plate(design, "reducer").holes, strict=True):
        assert (row[0], float(row[1]), float(row[2])) == (
            hole.name,
            pytest.approx(hole.x, abs=1e-3),
            pytest.approx(hole.y, abs=1e-3),
        )
    bill = list(csv.reader((tmp_path / "bill_of_materials.csv").read_text().splitlines()))
    assert len(bill) - 1 == len(parts_list.parts(design, SHOP, design.show_units))
    assert all(float(row[4]) > 0 for row in bill[1:])


# ---------------------------------------------------------------- blanks, bars, welds, taps


@pytest.mark.parametrize("gear", list(blanks.GEARS))
def test_a_blank_fed_to_its_depth_leaves_its_root(gear):
    one = blanks.gear_blank(PLAIN, gear, SHOP)
    assert one.outside[0] - 2 * one.depth == pytest.approx(one.root)
    assert one.outside[1] < one.outside[2] <= one.outside[0] + 1e-9
    assert one.bore[1] < one.bore[2]
    full = spurgear.root_diameter.formula(one.module, one.count, one.shift)
    assert one.root < full


def test_free_gears_take_bushes_and_fixed_ones_keys():
    for shaft, free in (
        (1, {"direct_1", "idler_1", "idler_2"}),
        (2, {"direct_2", "idler_3", "idler_2"}),
    ):
        spec = DEMO.with_values({"clutch.shaft": shaft})
        assert {
            name for name in blanks.gears(spec) if blanks.gear_blank(spec, name, SHOP).bush
        } == free
        keyed = {name for name in blanks.gears(spec) if blanks.gear_blank(spec, name, SHOP).keyway}
        assert keyed == set(blanks.gears(spec)) - free


@pytest.mark.parametrize("name", ["larkfield", "inch_room", "thin_shaft"])
@pytest.mark.parametrize("number", [1, 2])
def test_features_of_a_shaft_lie_on_it_and_its_mass_is_its_volume(name, number):
    design = Design.demo(name)
    one = shaftwork.shaft_work(design, number, design.show_units)
    assert all(
        -1e-9 <= feature.start < feature.end <= one.length + 1e-9 for feature in one.features
    )
    assert {"seat in the plate at the reducer", "seat beyond the trough"} <= {
        feature.words for feature in one.features
    }
    volume = sum(np.pi / 4 * size**2 * (end - start) for start, end, size in one.segments)
    assert one.mass == pytest.approx(volume * 7.85e-6, rel=0.01)
    stepped = design.with_values(
        {f"shaft_{number}.step_at": ["100 mm"], f"shaft_{number}.step_diameters": ["60 mm"]}
    )
    again = shaftwork.shaft_work(stepped, number, design.show_units)
    assert [size for _, _, size in again.segments][-1] == pytest.approx(60)
    # a thicker seat has a wider bearing, and its ring a wider edge
    assert abs(again.length - one.length) < 5


@given(st.lists(st.floats(20, 900), min_size=1, max_size=25), st.floats(950, 3000))
def test_nothing_is_lost_between_pieces_and_bars(lengths, bar):
    pieces = [(f"p{k}", "round 45", length, 4.0) for k, length in enumerate(lengths)]
    found = turning.cut_list(pieces, bar, 3.0)
    cut = sorted(name for one in found for name, _ in one.cuts)
    assert cut == sorted(name for name, *_ in pieces)
    for one in found:
        used = sum(length + 3.0 for _, length in one.cuts)
        assert used + one.left == pytest.approx(bar)
        assert one.left >= 0
    # no bar but the last few could be poured into another
    if len(found) > 1:
        shortest = min(length for one in found[1:] for _, length in one.cuts)
        assert found[0].left < shortest + 3.0 or len(found) > 1


def test_a_press_fit_is_not_turned_from_a_bar_of_its_own_size():
    assert turning.bar_for(45.018, [40.0, 45.0, 48.0]) == 48.0
    assert turning.bar_for(80.0, [40.0]) == float("inf")


def test_a_long_shaft_is_said_not_to_fit():
    long = turning.turning_notes(900, 45, SHOP)
    assert not long.fits
    assert "too long" in " ".join(long.words)
    assert long.steady
    short = turning.turning_notes(200, 45, SHOP)
    assert short.fits
    assert not short.steady
    # Shigley table A-9: a bar between centres gives a sixteenth of one held in a chuck alone
    assert short.gives["chuck only"] / short.gives["between centres"] == pytest.approx(16)


def test_the_order_of_work_says_the_fillet_that_the_design_has():
    six = DEMO.with_values({"paddles.weld_throat": "6 mm"})
    (order,) = [one for one in sheets.sheets(six, SHOP) if one.title == "Order of work"]
    # 6 mm x 1.4142 = 8.485 mm
    assert any("throat 6 mm, leg 8.5 mm" in one for one in order.notes)


def test_order_of_work_welds_before_it_bores():
    steps = [what for what, _ in welding.order_of_work(PLAIN)]
    places = [
        next(k for k, step in enumerate(steps) if step.startswith(word))
        for word in ("Weld each", "True one", "Bore", "Weld trough", "True again")
    ]
    assert places == sorted(places)


@pytest.mark.parametrize(
    ("thread", "drill"), [("M6", 5.0), ("M8", 6.8), ("M10", 8.5), ("M12", 10.2)]
)
def test_tapping_drills(thread, drill):
    # tapping drill is size less pitch: ISO 2306, as on every drill chart
    one = tapping.tapped_hole(thread, SHOP)
    assert one.drill == drill
    assert one.on_shelf == pytest.approx(drill, abs=0.3)
    assert 0.6 < one.engaged < 1.0


def test_what_is_not_on_the_shelf_is_said():
    assert "no tap M8" in tapping.tapped_hole("M8", BARE).words
    assert "no drill near" in tapping.tapped_hole("M8", BARE).words


# ---------------------------------------------------------------- the shop file


BAD = [
    ("[lathe]", "[late]", 'nearest is "lathe"'),
    ('swing = "300 mm"', 'swing = "300 kg"', "lathe.swing"),
    ('"1 mm to 13 mm by 0.5 mm"', '"13 mm to 1 mm by 0.5 mm"', "a rising run"),
    ('taps = ["M4"', 'taps = ["M44"', 'holes.taps: "M44" is not in the table of threads'),
    ('taps = ["M4"', "taps = [4", "holes.taps: 4 does not fit; one line of text"),
    ("[holes]", "[holes.holes]", "holes.holes: no such field"),
    ("drills =", "drils =", 'nearest is "drills"'),
    ('cut_width = "1.6 mm"', "cut_width = 1.6", "plasma.cut_width"),
    ('"14 mm", "18 mm"', '"14", "18 mm"', "annular_cutters"),
]


@pytest.mark.parametrize(("old", "new", "words"), BAD)
def test_a_bad_shop_file_is_said(old, new, words, tmp_path):
    text = data_path("shops", "larkfield_shop.toml").read_text()
    assert old in text
    path = tmp_path / "shop.toml"
    path.write_text(text.replace(old, new, 1))
    with pytest.raises(InputError) as caught:
        workshop.read_workshop(path)
    assert words in str(caught.value)


def test_all_mistakes_of_a_shop_file_are_told_at_once(tmp_path):
    text = data_path("shops", "larkfield_shop.toml").read_text()
    for old, new, _ in BAD[1:3]:
        text = text.replace(old, new, 1)
    path = tmp_path / "shop.toml"
    path.write_text(text.replace('name = "Larkfield demo shop"\n', "").replace('"3" =', '"x" ='))
    with pytest.raises(InputError) as caught:
        workshop.read_workshop(path)
    assert sorted(one.partition(":")[0] for one in caught.value.messages) == [
        "shop.toml, cutters.x",
        "shop.toml, holes.drills",
        "shop.toml, lathe.swing",
        "shop.toml, name",
    ]


def test_a_shop_reads_what_it_writes():
    assert workshop.Workshop.from_table(SHOP.to_table()) == SHOP


# ---------------------------------------------------------------- sheets and the command line


@pytest.mark.parametrize("name", ["larkfield", "inch_room", "thin_shaft", "too_stiff"])
def test_every_sheet_carries_name_date_number_and_fingerprint(name):
    design = Design.demo(name)
    page = sheets.sheets_html(design, SHOP)
    count = page.count('<section class="sheet')
    assert count == len(sheets.sheets(design, SHOP))
    # ball bearings have retaining plates
    assert count == (20 if design.bearings.kind == "rolling" else 19)
    assert page.count(fingerprint(design, SHOP)) >= count
    assert len(re.findall(rf"sheet \d+ of {count}, \d{{4}}-\d\d-\d\d", page)) == count
    assert "nan" not in re.sub(r"<[^>]*>", " ", page)


def test_a_mirrored_plate_is_drawn_mirrored_and_says_so():
    listed = {one.title: one for one in sheets.sheets(DEMO, SHOP) if one.title.startswith("Plate")}
    assert sum("MIRRORED" in title for title in listed) == 2
    for title, one in listed.items():
        assert ("MIRRORED" in title) is ("MIRRORED" in one.big[0][1])
        places = {
            text: float(x)
            for x, text in re.findall(r'<text x="([\d.]+)"[^>]*>\d (shaft \d)</text>', one.drawing)
        }
        assert (places["shaft 1"] > places["shaft 2"]) is ("MIRRORED" in title)


def test_an_inch_maker_gets_inch_sheets():
    page = re.sub(
        r"<svg.*?</svg>|<style>.*?</style>",
        "",
        sheets.sheets_html(Design.demo("inch_room"), SHOP),
        flags=re.DOTALL,
    )
    rows = re.findall(r"<b>([^<]*\d[^<]*)</b>", page)
    assert not [one for one in rows if re.search(r"\d mm\b", one)]


@pytest.mark.parametrize("paper", ["a4", "letter", "both"])
def test_the_command_writes_sheets_and_files(paper, tmp_path, capsys):
    out = tmp_path / "a" / "b"
    assert (
        main(
            [
                "sheets",
                str(data_path("designs", "larkfield.toml")),
                "--out",
                str(out),
                "--paper",
                paper,
            ]
        )
        == 0
    )
    names = {one.name for one in out.iterdir()}
    assert {
        f"sheets_{one}.html" for one in (["a4", "letter"] if paper == "both" else [paper])
    } <= names
    assert {
        "plate_reducer.dxf",
        "gear_direct_1.svg",
        "bill_of_materials.csv",
        "holes_trough.csv",
    } <= names
    assert "files written" in capsys.readouterr().out


def test_sheets_of_a_design_that_fails_say_so(tmp_path, capsys):
    assert (
        main(["sheets", str(data_path("designs", "thin_shaft.toml")), "--out", str(tmp_path)]) == 1
    )
    assert "mend it before metal is cut" in capsys.readouterr().err


def test_sheets_into_a_file_are_refused_and_nothing_is_written(tmp_path, capsys):
    path = tmp_path / "there"
    path.write_text("mine")
    assert main(["sheets", str(data_path("designs", "larkfield.toml")), "--out", str(path)]) == 2
    assert path.read_text() == "mine"
    assert "cannot be made a folder" in capsys.readouterr().err


def _stocked(*plates):
    return SHOP.changed(stock=SHOP.stock.changed(plates=[f"{one} mm" for one in plates]))


def test_plates_that_no_stock_is_thick_enough_for_weigh_what_steel_of_their_thickness_does():
    """By hand: 1004 mm x 357.2 mm x 31 mm at 7850 kg/m^3, 1 mm to true; the holes are bought too."""
    shop = _stocked(20.0, 25.0)
    need = flatpattern.sheet_needed(PLAIN, shop)
    assert PLAIN.housing.plate_thickness == 30
    assert not np.isfinite(need.thickness)
    assert need.mass == pytest.approx(1.004 * 0.3572 * 0.031 * 7850, rel=1e-3)
    printed = sheets.sheets_html(PLAIN, shop, "a4")
    assert "thicker than any in stock: 87.3 kg at least" in printed


def test_plate_of_just_the_drawn_thickness_leaves_nothing_to_true():
    """Feet's fillets draw 0.2 x 8^2 / 2 / 30 = 0.21 mm; four times that is left on, in whole millimetres."""
    assert welding.left_for_truing(PLAIN) == 1.0
    # 0.32 mm at 20 mm of plate
    assert welding.left_for_truing(PLAIN.with_values({"housing.plate_thickness": "20 mm"})) == 2.0
    assert flatpattern.sheet_needed(PLAIN, _stocked(30.0, 31.0, 40.0)).thickness == 31.0


def test_the_order_of_assembly_names_a_bearing_and_its_place_as_one_thing():
    steps = [step for step, _, _ in assembly.assembly_order(PLAIN)]
    (row,) = [one for one in steps if one.startswith("shaft 2 in this order")]
    assert (
        "bearing (plate at the trough), idler gear, direct gear, bearing (plate at the red" in row
    )
    assert (
        "sleeve with paddles, ring, support washer, bearing (far end of the trough), support washer, ring"
        in row
    )
    inch = assembly.assembly_order(Design.demo("inch_room"), "inch")
    (bushed,) = [one for one, _, _ in inch if one.startswith("shaft 2 in this order")]
    assert (
        "ring, thrust washer, bush (plate at the trough), thrust washer, ring, idler gear" in bushed
    )
    assert "bearing" not in bushed


def test_gears_that_must_go_over_a_bearings_seat_are_not_said_to_go_by_hand():
    """The seat is k6 of 45 mm, 0.018 mm over at most (ISO 286-2); a bar that is stepped down spares it."""
    stepped = PLAIN.with_values({"shaft_2.step_at": ["10 mm"], "shaft_2.step_diameters": ["50 mm"]})
    plain_bushes = PLAIN.with_values({"bearings.kind": "plain bush"})
    for design, driven in ((PLAIN, True), (stepped, False), (plain_bushes, False)):
        (feel,) = [
            clearance
            for step, clearance, _ in assembly.assembly_order(design)
            if step.startswith("shaft 2 in this order")
        ]
        assert ("up to 0.018 mm thicker, by light blows" in feel) == driven


def test_what_slides_is_warmed_to_pass_a_bearings_seat_of_its_own_size():
    """The seat is k6 of 45 mm, 0.018 mm over at most; 60 K widen 45 mm of steel by 0.031 mm."""
    (gap,) = [gap for step, gap, _ in assembly.assembly_order(PLAIN) if "shaft 1 in" in step]
    assert "over a bearing's seat, up to 0.018 mm thicker, warmed to 80 °C" in gap
    assert 45 * 11.5e-6 * 60 > 0.018
    bushed = PLAIN.with_values({"bearings.kind": "plain bush"})
    (gap,) = [gap for step, gap, _ in assembly.assembly_order(bushed) if "shaft 1 in" in step]
    assert "warmed" not in gap
