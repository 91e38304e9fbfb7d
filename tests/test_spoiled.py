"""Spoiled designs, shops, sizes and command lines: no traceback, one sentence a fault, nothing written."""

import csv
import io
import os
import re
import sys
from pathlib import Path

import pytest
import spoil
from hypothesis import given, settings
from hypothesis import strategies as st

from mixerkit import Design, Machine
from mixerkit.__main__ import main
from mixerkit.design import LISTED
from mixerkit.explore import asmade, uncertainty
from mixerkit.shop.flatpattern import as_csv
from mixerkit.shop.measurements import read_measurements
from mixerkit.shop.workshop import read_workshop
from mixerkit.textfiles import LARGEST, parse_toml
from mixerkit.units import InputError, as_written, show, to_plain, visible
from mixerkit.written import write_all

COUNT = int(os.environ.get("MIXERKIT_SPOILED", "300"))
"""Spoiled cases that are run; the long tier sets 5000."""
GOOD = spoil.DESIGNS["larkfield"]


@pytest.mark.parametrize("number", range(COUNT))
def test_spoiled_input_is_refused_in_words_or_worked_out(number, tmp_path):
    case = spoil.case(number)
    found = spoil.judge(case, tmp_path)
    assert not found, (case.name, case.arguments)


# ------------------------------------------------------------------------ the judge itself can fail


@pytest.mark.parametrize(
    ("does", "words"),
    [
        (lambda: 1 / 0, "traceback: ZeroDivisionError"),
        (lambda: 3, "exit status 3"),
        (lambda: print("a shift of nan would do") or 0, "output says 'nan'"),
        (lambda: print("-inf mm") or 1, "output says '-inf'"),
        (lambda: 2, "refused without a word"),
        (lambda: print("no", file=sys.stderr) or 2, "not a sentence"),
        (lambda: print("It is.\nIt is.", file=sys.stderr) or 2, "the same sentence twice"),
        (lambda: print("x") or 2, "refused, but something is on the output"),
        (lambda: Path("x").write_text("x") and 2, "files changed"),
        (lambda: (Path("x.html").write_text("<p><SCRIPT>") and print("x")) or 0, "x.html holds"),
        (lambda: (Path("x.csv").write_text("a,=1+1") and print("x")) or 0, "begins a formula"),
        (lambda: (Path("x.csv").write_text("a,nan") and print("x")) or 0, "x.csv says 'nan'"),
        (lambda: (Path("x.part").write_text("a") and print("x")) or 0, "x.part was left behind"),
        (lambda: (Path("d.toml").write_text("a") and print("x")) or 0, "d.toml was changed"),
        (lambda: print("\x1b[2J") or 0, "output holds characters"),
    ],
)
def test_the_judge_finds_each_breach(does, words, tmp_path, monkeypatch):
    monkeypatch.setattr(spoil, "main", lambda _arguments: does())
    found = spoil.judge(spoil.Case("x", ("check", "d.toml"), {"d.toml": b"x"}), tmp_path)
    assert any(words in one for one in found), found


# ------------------------------------------------------------------------------ texts of any kind


@pytest.mark.parametrize(
    "text",
    [
        "9**9**9",
        "9**9**9 mm",
        "5 (9**9**9)*mm",
        "5 m**9**9**9",
        "5 mm*9**9**9",
        "5 mm**99999999",
        "5 m^9^9^9",
        "5 mm**(9**9**9)",
        "1" * 50_000 + " x\ny",
        "1/" + "9" * 5000 + " mm",
        "1" * 5000 + " 1/2 mm",
        "5 " + "(" * 3000 + "mm",
        "5 mm\x00",
        "5 mm#",
        "1e400 mm",
        "nan mm",
        "5 mm*nan",
        10**5000,
        -(2**70),
        float("nan"),
    ],
    ids=lambda text: str(as_written(text))[:30],
)
def test_no_text_for_a_quantity_is_worked_out_as_a_sum(text):
    with spoil.bounded(20), pytest.raises(InputError) as caught:
        to_plain(text, "mm > 0 <= 500")
    assert len(str(caught.value)) < 1400


@pytest.mark.parametrize(
    "text",
    [
        "5 mm",
        "5 / in",
        "3/4 in",
        "1 1/2 in",
        "5 N·m",
        "5 kg*m^2",
        "5 kg m²",
        "5 lbf-ft",
        "5 kg/m**3",
        "5 °C",
        "5 µm",
        "5 %",
        "5 kg/(m s)",
    ],
)
def test_units_as_the_bench_writes_them_are_still_read(text):
    from mixerkit.units import Q_

    assert Q_(text).magnitude > 0


@settings(max_examples=COUNT)
@given(st.text(max_size=60) | st.text(alphabet="0123456789.eE+-*/^ ()mkgNin°²", max_size=30))
def test_any_text_is_a_quantity_or_refused(text):
    with spoil.bounded(20):
        try:
            assert 0 < to_plain(text, "mm > 0 <= 500") <= 500
        except InputError as error:
            assert visible(error.messages[0]) == error.messages[0]  # noqa: PT017  either is good


VALUES = st.recursive(
    st.none().map(lambda _: "x")
    | st.booleans()
    | st.integers()
    | st.floats()
    | st.text(max_size=20)
    | st.dates()
    | st.times(),
    lambda inner: (
        st.lists(inner, max_size=3)
        | st.dictionaries(st.text(min_size=1, max_size=5), inner, max_size=3)
    ),
    max_leaves=8,
)


@settings(max_examples=COUNT // 3)
@given(st.sampled_from([dotted for dotted, _ in spoil.FIELDS]), VALUES)
def test_any_value_in_any_field_is_taken_or_refused_by_the_fields_name(dotted, value):
    content = Design.demo().to_table()
    *outer, last = dotted.split(".")
    inner = content
    for part in outer:
        inner = inner[part]
    inner[last] = value
    try:
        design = Design.from_table(content)
    except InputError as error:
        for message in error.messages:
            assert message == visible(message)
            assert message.endswith(".")
            assert len(message) < 1400
        assert "datetime" not in str(error)  # noqa: PT017  either is good
    else:
        assert Design.parse(design.to_toml()) == design


@settings(max_examples=COUNT // 3)
@given(
    st.binary(max_size=300)
    | st.text(max_size=200).map(str.encode)
    | st.dictionaries(st.text(min_size=1, max_size=8), VALUES, max_size=4).map(
        lambda table: str(table).encode()
    )
)
def test_any_bytes_are_no_design_no_shop_and_no_sizes(tmp_path_factory, content):
    path = tmp_path_factory.mktemp("any") / "any.toml"
    path.write_bytes(content)
    for read in (Design.read, read_workshop, read_measurements):
        try:
            read(path)
        except InputError as error:
            said = error.messages
            assert all(one.endswith(".") and one == visible(one) for one in said)


CELLS = st.text(max_size=12) | st.sampled_from(["=1+1", "@a", "-3.5", "+2", "-x", "\t=1", "\r=1"])


@settings(max_examples=COUNT)
@given(
    st.lists(st.tuples(CELLS, CELLS | st.floats(allow_nan=False, allow_infinity=False)), max_size=4)
)
def test_no_cell_of_a_csv_begins_a_formula_and_none_is_lost(rows):
    read = list(csv.reader(io.StringIO(as_csv(("=part", "x"), rows), newline="")))
    assert not [cell for row in read for cell in row if spoil.begins_formula(cell)]
    for row, given_row in zip(read, [("=part", "x"), *rows], strict=True):
        assert [cell.removeprefix("'") for cell in row] == [
            visible(one).removeprefix("'") for one in given_row
        ]


# ------------------------------------------------------------------------------------ files


@pytest.mark.parametrize(
    ("text", "words"),
    [
        ("x = " + "9" * 5000, "too many digits"),
        ("ratio = 9223372036854775808", "ratio: a whole number with too many digits"),
        ("x = " + "[" * 500 + "]" * 500, "deep"),
        ("x = " + "[" * 5000 + "]" * 5000, "deep"),
        ("[" + "a." * 300 + "a]", "deep"),
    ],
)
def test_what_no_file_of_the_kit_holds_is_refused(text, words):
    with pytest.raises(InputError, match=words):
        parse_toml(text, "my.toml")


@pytest.mark.parametrize("option", [(), ("--shop", "big.toml")])
def test_a_huge_file_is_refused_unread(option, tmp_path, capsys, monkeypatch):
    monkeypatch.chdir(tmp_path)
    Path("d.toml").write_text(GOOD)
    Path("big.toml").write_bytes(b"#" * (10 * LARGEST))
    assert main(["hold-points", "d.toml", "big.toml" if not option else "d.toml", *option]) == 2
    (line,) = capsys.readouterr().err.splitlines()
    assert "10.0 MB is too large" in line


def test_a_device_without_an_end_is_refused(capsys):
    with spoil.bounded(20):
        assert main(["check", "/dev/zero"]) == 2
    assert "too large" in capsys.readouterr().err


def test_thousands_of_unknown_names_are_told_in_a_few_lines(tmp_path, capsys):
    path = tmp_path / "d.toml"
    path.write_text("".join(f"name{k} = 1\n" for k in range(40_000)))
    with spoil.bounded(30):
        assert main(["check", str(path)]) == 2
    lines = capsys.readouterr().err.splitlines()
    assert 20 < len(lines) < 70
    assert any("39970 more names" in line for line in lines)


def test_a_shop_cannot_be_so_large_that_looking_through_it_takes_hours(tmp_path):
    path = tmp_path / "shop.toml"
    for changed, words in (
        (("[15, 16, 17, 18, 19, 20]", str(list(range(2, 400)))), "plates"),
        (("[15, 16, 17, 18, 19, 20]", "[15], " * 100 + "[15]"), "plates"),
        (('"4.2 mm"', '"4.2 mm", ' * 300 + '"4.2 mm"'), "holes.drills"),
        (('"3" =', '"inf" ='), "cutters"),
        (('name = "Larkfield demo shop"', 'name = "a\\nb"'), "name"),
        (('name = "Larkfield demo shop"\n', ""), "name: missing; what the shop is called"),
    ):
        assert changed[0] in spoil.SHOP
        path.write_text(spoil.SHOP.replace(*changed, 1))
        with pytest.raises(InputError, match=words):
            read_workshop(path)


def test_several_files_are_written_all_or_none(tmp_path):
    out = tmp_path / "a" / "b"
    assert [one.name for one in write_all(out, {"x": "1", "y": b"2"})] == ["x", "y"]
    (out / "z").mkdir()
    before = spoil.tree(tmp_path)
    with pytest.raises(InputError, match="a folder of that name"):
        write_all(out, {"x": "new", "z": "new"})
    assert spoil.tree(tmp_path) == before
    with pytest.raises(InputError, match="cannot be made a folder"):
        write_all(out / "x" / "deep", {"x": "new"})
    with pytest.raises(InputError):
        write_all(tmp_path / "new" / "er", {"x" * 300: "new"})
    assert spoil.tree(tmp_path) == before


@pytest.mark.parametrize(
    ("arguments", "blocked"),
    [
        (["report", "d.toml", "--out", "out"], "report.html"),
        (["report", "d.toml", "--out", "out", "--pictures"], "ladder.svg"),
        (["sheets", "d.toml", "--out", "out", "--paper", "both"], "sheets_letter.html"),
        (["sheets", "d.toml", "--out", "out"], "bill_of_materials.csv"),
    ],
)
def test_a_file_that_cannot_be_written_leaves_the_others_alone(arguments, blocked, tmp_path):
    if "--pictures" in arguments:
        blocked = "what_gives_way_first.png"
    case = spoil.Case(
        "blocked", tuple(arguments), {"d.toml": GOOD.encode(), f"out/{blocked}": None}
    )
    assert spoil.judge(case, tmp_path) == []
    assert [one.name for one in (tmp_path / "out").iterdir()] == [blocked]


# ------------------------------------------------------------------------------------ command lines


@pytest.mark.parametrize(
    ("arguments", "words"),
    [
        (["new", "d.toml"], "is there already"),
        (["new", "folder"], "is there already"),
        (["new", "dangling"], "is there already"),
        (["new", "none/new.toml"], "cannot be written"),
        (["new", "d.toml/new.toml"], "cannot be written"),
        (["new", "x" * 300], "cannot be written"),
        (["new", "nul\0l"], "cannot be written"),
        (["new", "/proc/none.toml"], "cannot be written"),
        (["new"], "required: file"),
        ([], "required: COMMAND"),
        (["chek", "d.toml"], "invalid choice"),
        (["check", "d.toml", "--whi"], "unrecognized"),
        (["sheets", "d.toml", "--paper", "A4"], "invalid choice"),
        (["check", "none.toml"], "no such file"),
        (["check", " "], "mixerkit new ' '"),
        (["sheets", "my mixer.toml"], "mixerkit new 'my mixer.toml'"),
        (["check", "folder"], "is a folder"),
        (["check", ""], "is a folder"),
        (["check", "nul\0l"], "cannot be read"),
        (["check", "a\nb\x1b[2J.toml"], "no such file"),
        (["check", "caf\udce9.toml"], "no such file"),
        (["hold-points", "d.toml", "none.toml"], "no such file"),
        (["hold-points", "d.toml", "folder"], "is a folder"),
        (["hold-points", "d.toml", "bad.toml"], "not a TOML file"),
        (
            ["hold-points", "d.toml", "d.toml"],
            "no such field; there are format, design, plates, gears",
        ),
        (["hold-points", "d.toml", "s.toml", "--shop", "none.toml"], "no such file"),
        (["sheets", "d.toml", "--shop", "folder"], "is a folder"),
        (["sheets", "d.toml", "--shop", "bad.toml"], "not a TOML file"),
        (["sheets", "d.toml", "--shop", ""], "is a folder"),
        (["sheets", "d.toml", "--shop", "d.toml"], "no such field; there are name, dividing_ratio"),
        (["report", "d.toml", "--shop", "s.toml"], "missing"),
        (["sheets", "d.toml", "--out", "d.toml"], "cannot be made a folder"),
        (["report", "d.toml", "--out", "d.toml/deep"], "cannot be made a folder"),
        (["report", "d.toml", "--out", "/proc/none/deep"], "cannot be made a folder"),
    ],
    ids=lambda value: " ".join(value)[:40] if isinstance(value, list) else "",
)
def test_a_command_that_cannot_be_followed_says_why(arguments, words, tmp_path):
    (tmp_path / "dangling").symlink_to(tmp_path / "nowhere")
    files = {"d.toml": GOOD.encode(), "s.toml": b"", "bad.toml": b"nonsense", "folder": None}
    case = spoil.Case("command", tuple(arguments), files)
    assert spoil.judge(case, tmp_path) == []
    status, _, err = spoil.typed(case.arguments, tmp_path)
    assert status == 2
    assert words in err


@pytest.mark.parametrize(
    "line",
    [
        "shafts.1.bearing_seat = []",
        "plates.reducer.thickness = [nan]",
        'plates.reducer.shaft_1_bore = ["45 mm", "45.02 mm"]',
        'plates.reducer.shaft_1 = [[], "170 mm"]',
        'largest_blank = ["250 mm"]',
    ],
)
def test_a_list_where_one_value_is_wanted_is_refused(line, tmp_path):
    shop = Path(__file__).parent.parent / "data" / "shops" / "larkfield_shop.toml"
    if "largest_blank" in line:
        text = re.sub(r"(?m)^largest_blank = .*$", line, shop.read_text("utf-8"))
        arguments = ("sheets", "d.toml", "--shop", "s.toml")
    else:
        text, arguments = line, ("hold-points", "d.toml", "s.toml")
    case = spoil.Case("list", arguments, {"d.toml": GOOD.encode(), "s.toml": text.encode()})
    assert spoil.judge(case, tmp_path) == []
    status, _, err = spoil.typed(arguments, tmp_path)
    assert status == 2
    assert "does not fit; one value is wanted" in err


@pytest.mark.parametrize(
    ("line", "words"),
    [
        ("name.x = 1", 'name.x: no such field; name is one value, for example name = "'),
        (
            "shaft_2.diameter.x = 1",
            'shaft_2.diameter is one value, for example shaft_2.diameter = "40 mm"',
        ),
        ("shaft_2 = {diameter = 1}", "one of its fields is wanted, for example shaft_2."),
        ("paths = 1", "for example paths.direct.tooth_counts = [30, 30]"),
        ("= 3", '"": no such field; there are format, name'),
        ("zork = 1", "zork: no such field; there are format, name"),
        ('shaft_2.diametr = "50 mm"', 'shaft_2.diametr: no such field; nearest is "diameter"'),
        ('shaft_2.diameter = "1e-300 mm"', 'shaft_2.diameter: "1e-300 mm" is out of range'),
    ],
)
def test_what_is_set_wrongly_is_told_what_would_fit(line, words, tmp_path):
    for arguments, text in (
        (("set", "d.toml", line), GOOD),
        *(
            [(("check", "d.toml"), f"{GOOD}\n{line}\n"), (("check", "d.toml"), f"{line}\n{GOOD}")]
            if line.startswith("shaft_2.diamet") and ".x" not in line
            else []
        ),
    ):
        case = spoil.Case("set", arguments, {"d.toml": text.encode()})
        assert spoil.judge(case, tmp_path) == []
        status, _, err = spoil.typed(arguments, tmp_path)
        assert status == 2
        assert words in err
        assert len(err.splitlines()) == 1


def test_a_field_pasted_twice_is_asked_about(tmp_path):
    text = f'shaft_2.diameter = "50 mm"\n{GOOD}\nshaft_2.diameter = "51 mm"\n'
    case = spoil.Case("twice", ("check", "d.toml"), {"d.toml": text.encode()})
    assert spoil.judge(case, tmp_path) == []
    _, _, err = spoil.typed(case.arguments, tmp_path)
    assert 'shaft_2.diameter: pasted twice, "50 mm" and "51 mm"' in err
    # the same value twice is no question
    again = text.replace("51 mm", "50 mm")
    assert Design.parse(again).to_table()["shaft_2"]["diameter"] == "50 mm"
    # what is set goes before a line pasted earlier
    (tmp_path / "d.toml").write_text(f'shaft_2.diameter = "50 mm"\n{GOOD}', "utf-8")
    assert main(["set", str(tmp_path / "d.toml"), 'shaft_2.diameter = "51 mm"']) == 0
    assert Design.read(tmp_path / "d.toml").to_table()["shaft_2"]["diameter"] == "51 mm"


@pytest.mark.parametrize("command", ["check", "report"])
def test_a_fault_of_a_file_is_said_once(command, tmp_path):
    files = {"d.toml": (".".join(["a"] * 50000) + "=1").encode(), "folder": None}
    for name, words in (("d.toml", "20 deep"), ("folder", "folder: this is a folder")):
        (tmp_path / name[0]).mkdir()
        case = spoil.Case("once", (command, name), files)
        assert spoil.judge(case, tmp_path / name[0]) == []
        _, _, err = spoil.typed(case.arguments, tmp_path / name[0])
        assert words in err
        assert "(" not in err


def test_no_sizes_yet_means_measure_first(tmp_path):
    case = spoil.Case(
        "no sizes", ("hold-points", "d.toml", "s.toml"), {"d.toml": GOOD.encode(), "s.toml": b""}
    )
    assert spoil.judge(case, tmp_path) == []
    status, out, _ = spoil.typed(case.arguments, tmp_path)
    assert status == 0
    assert "measure first" in out
    assert "stop" not in out


def test_letters_that_the_terminal_lacks_are_written_as_codes(tmp_path, monkeypatch):
    path = tmp_path / "d.toml"
    path.write_text(GOOD.replace("Larkfield Community", "Töpferei", 1), "utf-8")
    narrow = io.TextIOWrapper(io.BytesIO(), "ascii")
    monkeypatch.setattr(sys, "stdout", narrow)
    assert main(["check", str(path)]) == 0
    narrow.flush()
    assert b"T\\xf6pferei" in narrow.buffer.getvalue()


def test_an_output_that_takes_no_more_is_said(tmp_path, monkeypatch, capsys):
    path = tmp_path / "d.toml"
    path.write_text(GOOD)

    class Full(io.StringIO):
        def flush(self):
            raise OSError(28, "No space left on device")

    monkeypatch.setattr(sys, "stdout", Full())
    assert main(["check", str(path)]) == 2
    assert capsys.readouterr().err == "the output cannot be written (No space left on device).\n"


# ------------------------------------------------------------------------------------ odd designs


def odd(**changes):
    return Design.demo().with_values(
        {name.replace("__", "."): value for name, value in changes.items()}
    )


@pytest.mark.parametrize(
    "design",
    [
        odd(housing__centre_distance="1500 mm"),
        odd(housing__centre_distance="0.001 mm"),
        odd(paths__idler__tooth_counts=[200, 200, 6]),
    ],
    ids=["far apart", "on each other", "idler too large"],
)
@pytest.mark.parametrize("command", ["sheets", "report"])
def test_gears_that_do_not_close_are_said_in_words(design, command, tmp_path):
    content = spoil.written(design.to_table()).encode()
    case = spoil.Case("odd", (command, "d.toml", "--out", "out"), {"d.toml": content})
    found = spoil.judge(case, tmp_path)
    assert found == []


def test_a_plate_without_a_place_for_the_idler_is_not_bored(tmp_path):
    case = spoil.Case(
        "odd",
        ("sheets", "d.toml", "--out", "out"),
        {"d.toml": spoil.written(odd(housing__centre_distance="1500 mm").to_table()).encode()},
    )
    assert spoil.judge(case, tmp_path) == []
    page = (tmp_path / "out" / "sheets_a4.html").read_text("utf-8")
    assert page.count("Do not bore this plate") == 4


def test_a_mesh_that_cannot_be_is_said_on_the_plates_sheet(tmp_path):
    content = spoil.written(odd(housing__centre_distance="138 mm").to_table()).encode()
    case = spoil.Case("odd", ("sheets", "d.toml", "--out", "out"), {"d.toml": content})
    assert spoil.judge(case, tmp_path) == []
    assert "no mesh" in (tmp_path / "out" / "sheets_a4.html").read_text("utf-8")


@pytest.mark.parametrize("fit", ["{{7*7}}", "h7/H7", "H7", "H99/p6"])
def test_a_fit_that_is_none_is_refused_where_the_design_is_read(fit):
    with pytest.raises(InputError, match=r"bearings\.bush_fit"):
        odd(bearings__bush_fit=fit)


def test_a_size_that_no_design_can_have_is_left_out_and_stops():
    made = read_measurements({"plates": {"reducer": {"centre_distance": "9000 mm"}}})
    found = asmade.review(Design.demo(), made, read_workshop())
    assert found.design == Design.demo()
    assert any(point.state == "stop" for point in found.hold_points)


def test_what_is_not_known_counts_as_a_stall(monkeypatch):
    nothing = uncertainty.np.full(2000, uncertainty.np.nan)
    monkeypatch.setattr(uncertainty, "spare_torque", lambda *_: (nothing, nothing))
    risk = uncertainty.stall_risk(Machine(Design.demo()), 2000)
    assert (risk.starting, risk.mixing) == (1.0, 1.0)


def test_what_is_no_number_is_said_so():
    assert show(float("nan"), "N*m") == "not known"


@pytest.mark.parametrize(
    "name", ["a\nb", "\x1b[2J", "\u202etxt", "x\u2028y", "a\x00", "\t=1+1", ""]
)
def test_a_name_that_moves_the_cursor_is_refused(name):
    with pytest.raises(InputError, match="one line of text"):
        odd(name=name)


def test_a_name_in_another_writing_is_taken():
    assert odd(name="می\u200cخواهم 粘土 ü").name.startswith("می")


def test_every_listed_field_is_reached_by_the_spoilers():
    assert set(LISTED) <= {dotted for dotted, _ in spoil.FIELDS}
