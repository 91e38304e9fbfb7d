"""What stands on sheets, report and files for cutting: day, fingerprint, DO NOT CUT; the same in, the same out."""

import csv
import dataclasses
import html
import os
import re
import subprocess
import sys
from datetime import date

import browser
import ezdxf
import pytest

from mixerkit import Design, InputError, Machine, __version__
from mixerkit.__main__ import main
from mixerkit.data_files import data_path
from mixerkit.shop.measurements import read_measurements
from mixerkit.shop.workshop import read_workshop
from mixerkit.show import sheets, shopfloor, stamp
from mixerkit.show.panels import open_design
from mixerkit.show.report import report_html, write_report

SHOP = read_workshop()
SHOP_FILE = data_path("shops", "larkfield_shop.toml")
FAILING, HOLDING = ["too_stiff", "thin_shaft"], ["larkfield", "inch_room"]
SHEETS = {"too_stiff": 20, "thin_shaft": 19}
"""Ball bearings have retaining plates, which have a sheet."""


@pytest.fixture(autouse=True)
def no_day_from_outside(monkeypatch):
    monkeypatch.delenv("SOURCE_DATE_EPOCH", raising=False)


def demo_file(name):
    return data_path("designs", f"{name}.toml")


def sections(page):
    """Each sheet of a page as the words on it, a line a block."""
    found = re.findall(r'<section class="sheet.*?</section>', page, re.DOTALL)
    return [html.unescape(re.sub(r"<[^>]*>", "\n", one)) for one in found]


def own_design(tmp_path, name="larkfield", extra=""):
    path = tmp_path / f"{name}.toml"
    path.write_text(extra + demo_file(name).read_text("utf-8"), "utf-8")
    return path


# ---------------------------------------------------------------------------- the stamp on paper


@pytest.mark.parametrize("name", FAILING)
def test_every_sheet_of_a_failing_design_says_do_not_cut_and_why(name):
    found = Machine(Design.demo(name))
    failing = sorted(
        (one for one in found.checks if one.verdict == "fails"), key=lambda one: one.spare
    )
    for page in (sheets.sheets_html(found.design, SHOP), report_html(found)):
        listed = sections(page)
        assert len(listed) == SHEETS[name]
        for text in listed:
            assert text.count("DO NOT CUT") == 1
            assert text.index("DO NOT CUT") < text.index("sheet ")
            for check in failing[:3]:
                assert check.name in text
                assert "{} asked against {}".format(*check.shown) in text
            assert f"and {len(failing) - 3} more" in text


@pytest.mark.parametrize("name", HOLDING)
def test_no_sheet_of_a_holding_design_says_it(name, tmp_path):
    found = Machine(Design.demo(name))
    assert stamp.stamp_of(found, SHOP).stop == ()
    for page in (sheets.sheets_html(found.design, SHOP), report_html(found)):
        assert "DO NOT CUT" not in page
    for path in sheets.write_sheets(found.design, SHOP, tmp_path):
        assert "do not cut" not in path.read_text("utf-8").lower()


def with_checks(machine, checks):
    """The machine as if these were its checks."""
    again = Machine(machine.design)
    vars(again)["checks"] = checks
    return again


@pytest.mark.parametrize(("failing", "more"), [(1, ""), (3, ""), (4, "and 1 more")])
def test_what_is_not_named_is_counted(failing, more):
    found = Machine(Design.demo("too_stiff"))
    kept, left = [], failing
    for check in found.checks:
        if check.verdict != "fails" or left:
            left -= check.verdict == "fails"
            kept.append(check)
    said = stamp.why_not(with_checks(found, tuple(kept)))
    assert len(said) == min(failing, 3) + bool(more)
    assert said[-1] == more or not more


def test_a_wanted_factor_and_what_cannot_be_judged_are_said():
    found = Machine(Design.demo("too_stiff"))
    holding = next(one for one in found.checks if one.verdict == "holds")
    unknown = dataclasses.replace(holding, capacity=float("nan"), safety=1.0)
    short = dataclasses.replace(holding, demand=10.0, capacity=12.0, safety=1.5)
    said = stamp.why_not(with_checks(found, (short, unknown)))
    assert not said[0].endswith("with factor 1.5")
    assert said[1].endswith("with factor 1.5")


@pytest.mark.skipif(
    browser.chromium() is None and not os.environ.get("CI"),
    reason="no Chromium on this machine (apt-get install chromium)",
)
@pytest.mark.parametrize("paper", list(sheets.PAPERS))
@pytest.mark.parametrize("name", FAILING)
def test_the_words_that_stop_a_cut_lie_on_each_sheet_and_over_nothing(name, paper, tmp_path):
    path = sheets.write_sheets(Design.demo(name), SHOP, tmp_path, paper)[0]
    with browser.page() as tab:
        tab.emulate_media(media="print")
        tab.goto(path.as_uri())
        found = tab.evaluate(
            """[...document.querySelectorAll('.sheet')].map(sheet => {
            const box = one => one.getBoundingClientRect(), s = box(sheet), stop = sheet.querySelector('.stop'), b = box(stop);
            const rest = [...sheet.querySelectorAll('h3, .stamp, .purpose, svg, td, th, li, .big div, .ticks span')].map(box);
            const inside = [...stop.querySelectorAll('b, span')].map(box);
            const look = getComputedStyle(stop.querySelector('b'));
            return {
              runs_over: sheet.scrollHeight > sheet.clientHeight + 1 || sheet.scrollWidth > sheet.clientWidth + 1,
              wide: b.width / s.width, top: b.top - s.top, first_below: Math.min(...rest.map(r => r.top)) - b.bottom,
              last: s.bottom - Math.max(...rest.map(r => r.bottom)), right: s.right - Math.max(...rest.map(r => r.right)),
              held: inside.every(r => r.left >= b.left && r.right <= b.right && r.top >= b.top && r.bottom <= b.bottom),
              size: parseFloat(look.fontSize), ink: look.color, paper: getComputedStyle(stop).backgroundColor,
              drawing: [...sheet.querySelectorAll('.drawing svg')].every(d => Math.abs(box(d).width * 25.4 / 96 - parseFloat(d.getAttribute('width'))) < 0.2)
            } })"""
        )
    assert len(found) == SHEETS[name]
    for one in found:
        assert not one["runs_over"]
        assert one["wide"] > 0.99
        assert abs(one["top"]) < 1
        assert one["first_below"] > 0
        assert one["last"] > -1
        assert one["right"] > -1
        assert one["held"]
        assert one["size"] > 27  # 7 mm and more
        assert (one["ink"], one["paper"]) == ("rgb(0, 0, 0)", "rgb(255, 255, 255)")
        assert one["drawing"], "a drawing has lost its scale"


def test_the_button_in_the_notebook_stamps_as_well(tmp_path):
    path = own_design(tmp_path, "too_stiff")
    desk = shopfloor.report(open_design(path), tmp_path / "out")
    desk._write()
    assert "DO NOT CUT" in (tmp_path / "out" / "report.html").read_text("utf-8")
    assert "DO NOT CUT" in (tmp_path / "out" / "sheets" / "sheets_a4.html").read_text("utf-8")


# ------------------------------------------------------------------------- the stamp in the files


@pytest.mark.parametrize("name", FAILING)
def test_every_file_of_a_failing_design_says_it_too(name, tmp_path):
    found = Machine(Design.demo(name))
    wanted = list(stamp.stamp_of(found, SHOP).stop)
    assert wanted[0] == "DO NOT CUT"
    written = sheets.write_files(found.design, SHOP, tmp_path)
    assert {path.suffix for path in written} == {".dxf", ".svg", ".csv"}
    for path in written:
        text = path.read_text("utf-8")
        if path.suffix == ".csv":
            rows = list(csv.reader(text.splitlines()))
            assert [row[0] for row in rows[: len(wanted)]] == wanted
            assert len(rows[len(wanted)]) > 2  # the headings
        elif path.suffix == ".svg":
            assert [
                html.unescape(one) for one in re.findall(r"<text.*?>(.*?)</text>", text)
            ] == wanted
        else:
            drawing = ezdxf.readfile(path)
            said = drawing.modelspace().query('TEXT[layer=="do not cut"]')
            assert sorted(one.dxf.text for one in said) == sorted(wanted)
            assert max(said, key=lambda one: one.dxf.height).dxf.text == "DO NOT CUT"


def test_words_in_the_files_lie_outside_the_part(tmp_path):
    """A torch or a plotter that follows every line must not run words over the part."""
    sheets.write_files(Design.demo("too_stiff"), SHOP, tmp_path)
    for path in tmp_path.glob("*.dxf"):
        space = ezdxf.readfile(path).modelspace()
        top = max(y for line in space.query("LWPOLYLINE") for _, y, *_ in line.get_points())
        assert min(one.dxf.insert.y for one in space.query('TEXT[layer=="do not cut"]')) > top
    for path in tmp_path.glob("*.svg"):
        text = path.read_text("utf-8")
        left, top, wide, _ = map(float, re.search(r'viewBox="([^"]*)"', text)[1].split())
        highest = min(
            float(one)
            for one in re.findall(r",(-?[\d.]+)", re.search(r'points="([^"]*)"', text)[1])
        )
        for x, y, size, line in re.findall(
            r'<text x="(.*?)" y="(.*?)".*?font-size="(.*?)".*?>(.*?)<', text
        ):
            assert top < float(y) - 0.7 * float(size)
            assert float(y) < highest
            assert float(x) + 0.6 * float(size) * len(html.unescape(line)) < left + wide


def test_the_words_are_text_in_the_page_and_in_svg(tmp_path):
    found = Machine(Design.demo("too_stiff"))
    bad = dataclasses.replace(
        found.checks[0], name="<script>alert(1)</script>", capacity=float("nan")
    )
    found = with_checks(found, (bad,))
    assert "<script>" not in sheets.sheets_html(found.design, SHOP, found=found)
    for path in sheets.write_files(found.design, SHOP, tmp_path, found):
        if path.suffix == ".svg":
            assert "<script>" not in path.read_text("utf-8")


def test_sheets_on_both_papers_assess_the_design_once(tmp_path, monkeypatch, capsys):
    asked, real = [], Machine._guarded

    def counted(machine, stage, make):
        asked.extend([machine] if stage == "trough" else [])
        return real(machine, stage, make)

    monkeypatch.setattr(Machine, "_guarded", counted)
    assert (
        main(["sheets", str(demo_file("too_stiff")), "--paper", "both", "--out", str(tmp_path)])
        == 1
    )
    assert len(asked) == 1
    capsys.readouterr()


# ------------------------------------------------------------------------------------- the day


def test_the_day_is_the_designs_then_the_environments_then_today(monkeypatch):
    spec, dated = Design.demo(), Design.demo().with_values({"date": "2026-03-01"})
    assert re.fullmatch(r"\d{4}-\d\d-\d\d", stamp.day_of(spec))
    monkeypatch.setenv("SOURCE_DATE_EPOCH", "1767225600")
    assert stamp.day_of(spec) == "2026-01-01"
    assert stamp.day_of(dated) == "2026-03-01"
    assert stamp.day_of(dated, date(2027, 5, 6)) == "2027-05-06"


@pytest.mark.parametrize("wrong", ["yesterday", "1.5", "1e9", "9" * 40, "-" + "9" * 30])
@pytest.mark.parametrize("command", ["sheets", "report"])
def test_a_wrong_day_in_the_environment_is_said_and_nothing_is_written(
    command, wrong, tmp_path, monkeypatch, capsys
):
    monkeypatch.setenv("SOURCE_DATE_EPOCH", wrong)
    out = tmp_path / "out"
    assert main([command, str(demo_file("larkfield")), "--out", str(out)]) == 2
    said = capsys.readouterr()
    assert said.err.startswith(f'SOURCE_DATE_EPOCH: "{wrong[:40]}" does not fit')
    assert (len(said.err.splitlines()), said.out, out.exists()) == (1, "", False)


@pytest.mark.parametrize("written", ['date = "2026-03-01"', "date = 2026-03-01"])
def test_a_day_in_the_file_stands_on_every_sheet_and_is_kept(written, tmp_path):
    path = own_design(tmp_path, extra=f"{written}  # as agreed\n")
    design = Design.read(path)
    assert design.date == "2026-03-01"
    for page in (sheets.sheets_html(design, SHOP), report_html(Machine(design))):
        assert all("2026-03-01" in text for text in sections(page))
    assert "Design report of 2026-03-01" in page
    design.with_values({"batch.mass": "14 kg"}).write(path)
    assert f"{written}  # as agreed" in path.read_text("utf-8")
    design.with_values({"date": "2026-04-02"}).write(path)
    assert Design.read(path).date == "2026-04-02"
    assert "# as agreed" in path.read_text("utf-8")


def test_no_day_is_written_into_a_file_that_has_none(tmp_path):
    path = own_design(tmp_path)
    Design.read(path).with_values({"batch.mass": "14 kg"}).write(path)
    assert not re.search(r"^date", path.read_text("utf-8"), re.MULTILINE)
    assert Design.read(path).shown("date") == "none"


@pytest.mark.parametrize(
    "wrong", ['"1 March 2026"', '"2026-02-30"', "2026-03-01T10:00:00", "20260301", "true"]
)
def test_a_day_that_is_none_is_refused_in_one_sentence(wrong):
    with pytest.raises(InputError) as caught:
        Design.parse(f"date = {wrong}\n" + demo_file("larkfield").read_text("utf-8"), "my.toml")
    assert len(caught.value.messages) == 1
    assert caught.value.messages[0].startswith("my.toml, date: ")
    assert caught.value.messages[0].endswith(
        'a day as year-month-day is wanted, for example "2026-03-01".'
    )


# ------------------------------------------------------------------------------- the fingerprint


def test_the_fingerprint_changes_with_design_shop_sizes_and_kit(monkeypatch):
    design = Design.demo()
    made = read_measurements(data_path("measured", "larkfield_as_made.toml"))
    box = made.box.changed(input_bore="24.02 mm")
    module = next(iter(SHOP.cutters))
    listed = [
        stamp.fingerprint(design),
        stamp.fingerprint(design, SHOP),
        stamp.fingerprint(design, SHOP, made),
        stamp.fingerprint(design.with_values({"batch.mass": "14 kg"}), SHOP),
        stamp.fingerprint(design.with_values({"date": "2026-03-01"}), SHOP),
        stamp.fingerprint(design, SHOP, made.changed(box=box)),
        stamp.fingerprint(design, SHOP, made.without(["plates.trough.thickness"])),
        *(
            stamp.fingerprint(design, SHOP.changed(**changed))
            for changed in (
                {"name": "Another shop"},
                {"dividing_ratio": 60},
                {"plates": SHOP.plates[:-1]},
                {"largest_blank": "200 mm"},
                {"cutters": {**SHOP.cutters, module: SHOP.cutters[module] - {1}}},
                {"holes": SHOP.holes.changed(taps=["M8"])},
                {"mill": SHOP.mill.changed(position_error="0.03 mm")},
                {"stock": SHOP.stock.changed(saw_cut="2 mm")},
            )
        ),
    ]
    monkeypatch.setattr(stamp, "VERSION", __version__ + ".1")
    listed.append(stamp.fingerprint(design, SHOP))
    assert len(set(listed)) == len(listed)
    assert all(re.fullmatch(r"[0-9a-f]{8}", one) for one in listed)


def test_what_is_printed_says_what_its_fingerprint_covers(tmp_path, capsys):
    design, file = Design.demo(), str(demo_file("larkfield"))
    main(["check", file])
    first = capsys.readouterr().out.splitlines()[0]
    assert (
        first
        == f"{design.name}; {stamp.fingerprint(design)}: fingerprint of design and kit {__version__}"
    )
    measured = data_path("measured", "larkfield_as_made.toml")
    main(["hold-points", file, str(measured)])
    whole = stamp.fingerprint(design, SHOP, read_measurements(measured))
    assert (
        f"{whole}: fingerprint of design, shop, sizes as made and kit {__version__}"
        in capsys.readouterr().out
    )
    words = f"{stamp.fingerprint(design, SHOP)}: fingerprint of design, shop and kit {__version__}"
    page = write_report(Machine(design), tmp_path, SHOP)[0].read_text("utf-8")
    assert words in page.split("<h2>")[0]
    assert all(words in text for text in sections(page))


def test_the_shop_of_the_command_line_is_the_one_that_is_covered(tmp_path, capsys):
    shop = tmp_path / "shop.toml"
    shop.write_text(
        SHOP_FILE.read_text("utf-8").replace(
            'position_error = "0.02 mm"', 'position_error = "0.05 mm"'
        )
    )
    assert read_workshop(shop) != SHOP
    for command, name in (("sheets", "sheets_a4.html"), ("report", "report.html")):
        main(
            [
                command,
                str(demo_file("larkfield")),
                "--shop",
                str(shop),
                "--out",
                str(tmp_path / "out"),
            ]
        )
        page = (tmp_path / "out" / name).read_text("utf-8")
        assert stamp.fingerprint(Design.demo(), read_workshop(shop)) in page
        assert stamp.fingerprint(Design.demo(), SHOP) not in page
    capsys.readouterr()


# ------------------------------------------------------------------------- same in, same out


def written_by(folder, file, seed, *more):
    """Bytes of every file that sheets and report write, in a process of their own."""
    environment = {**os.environ, "PYTHONHASHSEED": str(seed), "TZ": ("UTC", "Asia/Tokyo")[seed % 2]}
    for command in (["sheets", "--paper", "both"], ["report", *more]):
        subprocess.run(
            [
                sys.executable,
                "-m",
                "mixerkit",
                command[0],
                str(file),
                *command[1:],
                "--out",
                str(folder),
            ],
            env=environment,
            check=False,
            capture_output=True,
        )
    return {path.name: path.read_bytes() for path in folder.iterdir()}


@pytest.mark.parametrize(("name", "more"), [("larkfield", ["--pictures"]), ("too_stiff", [])])
def test_the_same_files_give_the_same_bytes(name, more, tmp_path, monkeypatch, capsys):
    path = own_design(tmp_path, name, 'date = "2026-03-01"\n')
    (tmp_path / "my_shop.toml").write_text(SHOP_FILE.read_text("utf-8"), "utf-8")
    one = written_by(tmp_path / "one", path, 1, *more)
    two = written_by(tmp_path / "two", path, 2, *more)
    assert len(one) > 20
    assert {name for name in one if one[name] != two.get(name)} == set()
    assert one.keys() == two.keys()
    # in one process after much else, as from a notebook, on another day
    monkeypatch.setenv("SOURCE_DATE_EPOCH", "86400")
    out = tmp_path / "three"
    main(["report", str(path), *more, "--out", str(out)])
    main(["sheets", str(path), "--paper", "both", "--out", str(out)])
    assert {one.name: one.read_bytes() for one in out.iterdir()} == two
    capsys.readouterr()


def test_a_drawing_does_not_hang_on_the_order_of_a_set():
    code = (
        "from mixerkit import Design; from mixerkit.shop import flatpattern, workshop; import hashlib; "
        "made = flatpattern.plate_dxf(Design.demo(), 'trough', workshop.read_workshop(), ('DO NOT CUT', 'why')); "
        "print(hashlib.sha256(made.encode()).hexdigest())"
    )
    said = {
        subprocess.run(
            [sys.executable, "-c", code],
            env={**os.environ, "PYTHONHASHSEED": str(seed)},
            capture_output=True,
            check=True,
        ).stdout
        for seed in range(1, 7)
    }
    assert len(said) == 1


def test_a_drawing_has_no_hour_and_no_new_identity_in_it(tmp_path):
    before = ezdxf.options.write_fixed_meta_data_for_testing
    path = sheets.write_files(Design.demo(), SHOP, tmp_path)[0]
    assert ezdxf.options.write_fixed_meta_data_for_testing is before
    # as it stands in the file: the library puts its own hour in when it reads one
    header = dict(re.findall(r"  9\n(\$\w+)\n *\d+\n(.*)\n", path.read_text("utf-8")))
    days = {header[f"$TD{what}"] for what in ("CREATE", "UCREATE", "UPDATE", "UUPDATE")}
    assert len(days) == 1
    assert header["$VERSIONGUID"] == header["$FINGERPRINTGUID"]
