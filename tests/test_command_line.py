import re
import shutil
import subprocess
import sys
from html.parser import HTMLParser

import pytest

from mixerkit import Design, Machine
from mixerkit.__main__ import main
from mixerkit.data_files import data_path
from mixerkit.shop.workshop import read_workshop
from mixerkit.show.report import PAGE_PICTURES, report_html
from mixerkit.show.stamp import fingerprint


def demo(name):
    return str(data_path("designs", f"{name}.toml"))


@pytest.mark.parametrize(
    ("name", "status"), [("larkfield", 0), ("inch_room", 0), ("too_stiff", 1), ("thin_shaft", 1)]
)
def test_check_says_it_with_its_exit_status(name, status, capsys):
    assert main(["check", demo(name)]) == status
    printed = capsys.readouterr().out
    assert ("fails" in printed) is bool(status)


def test_broken_demos_name_the_part_and_the_size(capsys):
    main(["check", demo("thin_shaft")])
    assert re.search(
        r'fails  shaft 2, diameter for bending.*: 32 mm asked, can take 25 mm\n.*\n       would do: shaft_2.diameter = "32 mm"\n',
        capsys.readouterr().out,
    )
    main(["check", demo("too_stiff")])
    assert re.search(r"fails  motor.*\n", capsys.readouterr().out)


def test_why_prints_formula_and_source(capsys):
    main(["check", demo("larkfield"), "--why"])
    printed = capsys.readouterr().out
    # a working that stands elsewhere than its check says so further in
    said = [line for line in printed.splitlines() if line.startswith("       source:")]
    assert len(said) == len(Machine(Design.demo()).checks)


def test_help_tells_all(capsys):
    for arguments in (["--help"], ["new", "--help"], ["check", "--help"], ["report", "--help"]):
        with pytest.raises(SystemExit) as caught:
            main(arguments)
        assert caught.value.code == 0
        printed = capsys.readouterr().out
        assert "usage: mixerkit" in printed


def test_a_command_that_is_none_is_refused_in_one_sentence(capsys):
    assert main(["chek", "x"]) == 2
    printed = capsys.readouterr()
    assert printed.out == ""
    (line,) = printed.err.splitlines()
    assert line.startswith("mixerkit: ")
    assert "chek" in line
    assert line.endswith('"mixerkit --help" says what may be typed.')


class Links(HTMLParser):
    """Gathers whatever a page would fetch."""

    def __init__(self):
        super().__init__()
        self.found = []

    def handle_starttag(self, tag, attrs):
        for name, value in attrs:
            outside = name in {
                "src",
                "href",
                "xlink:href",
                "data",
                "srcset",
            } and not value.startswith(("data:", "#"))
            if outside or tag in {"script", "link", "iframe"}:
                self.found.append((tag, name, value))


@pytest.mark.parametrize("name", ["larkfield", "inch_room", "thin_shaft"])
def test_report_is_one_page_that_fetches_nothing(name, tmp_path, capsys):
    assert main(["report", demo(name), "--out", str(tmp_path / "a" / "b")]) in (0, 1)
    assert [one.name for one in (tmp_path / "a" / "b").iterdir()] == ["report.html"]
    page = (tmp_path / "a" / "b" / "report.html").read_text("utf-8")
    links = Links()
    links.feed(page)
    assert links.found == []
    assert "@import" not in page
    assert page.count("<figure") == len(PAGE_PICTURES)
    shop = "inch_room_shop" if name == "inch_room" else "larkfield_shop"
    assert fingerprint(Design.demo(name), read_workshop(data_path("shops", f"{shop}.toml"))) in page
    for check in Machine(Design.demo(name)).checks:
        assert check.shown[0] in page
        assert check.shown[1] in page
    capsys.readouterr()


def test_report_shows_every_number_with_its_unit():
    design = Design.demo()
    page = report_html(Machine(design))
    values = page[
        page.index('<h2 class="page">The design</h2>') : page.index("Appendix: shop sheets")
    ]
    rows = re.findall(r"<tr><td>([\w.]+)</td><td>(.*?)</td><td>", values)
    assert len(rows) > 35
    for name, value in rows:
        record, field, kind = design.field(name)
        if hasattr(kind, "span") and hasattr(getattr(record, field), "units"):
            assert re.fullmatch(r"[\d.]+ \S+", value), (name, value)
    for cell in re.findall(r"<td>([^<]*\d[^<]*N·m[^<]*)</td>", page):
        assert re.search(r"\d N·m", cell)


def test_report_has_no_metric_unit_for_an_inch_maker():
    page = re.sub(
        r"<svg.*?</svg>", "", report_html(Machine(Design.demo("inch_room"))), flags=re.DOTALL
    )
    page = re.sub(r"Source:.*?</td>", "", page)
    assert not re.search(r"\d (mm|N·m|kW|MPa|kg)\b", page)


def test_a_name_with_markup_is_shown_as_text():
    page = report_html(Machine(Design.demo().with_values({"name": "<script>alert(1)</script>"})))
    assert "<script>alert" not in page
    assert "&lt;script&gt;" in page


def test_interrupted_report_leaves_nothing(tmp_path, monkeypatch, capsys):
    import mixerkit.show.report as report

    def interrupted(*_args, **_more):
        raise KeyboardInterrupt

    monkeypatch.setattr(report, "report_html", interrupted)
    out = tmp_path / "out"
    assert main(["report", demo("larkfield"), "--out", str(out)]) == 130
    assert not out.exists()
    assert "nothing was left half-written" in capsys.readouterr().err


def test_end_to_end_as_a_user_types_it(tmp_path):
    command = shutil.which("mixerkit") or None
    call = [command] if command else [sys.executable, "-m", "mixerkit"]

    def run(*arguments):
        return subprocess.run(
            [*call, *arguments], cwd=tmp_path, capture_output=True, text=True, check=False
        )

    assert run("new", "my_mixer.toml").returncode == 0
    assert run("check", "my_mixer.toml").returncode == 0
    path = tmp_path / "my_mixer.toml"
    path.write_text(
        path.read_text().replace('cone_penetration = "5.5 mm"', 'cone_penetration = "2.4 mm"')
    )
    failed = run("check", "my_mixer.toml")
    assert failed.returncode == 1
    assert "would do" in failed.stdout
    assert run("report", "my_mixer.toml", "--out", "out").returncode == 1
    assert (tmp_path / "out" / "report.html").stat().st_size > 100_000
    path.write_text("nonsense")
    wrong = run("check", "my_mixer.toml")
    assert (wrong.returncode, wrong.stdout) == (2, "")
    assert "Traceback" not in wrong.stderr


def test_pictures_are_written_as_svg_and_png(tmp_path, capsys):
    assert main(["report", demo("larkfield"), "--out", str(tmp_path), "--pictures"]) == 0
    svgs, pngs = sorted(tmp_path.glob("*.svg")), sorted(tmp_path.glob("*.png"))
    assert [one.stem for one in svgs] == [one.stem for one in pngs]
    assert len(svgs) == 21
    assert all(one.read_bytes().startswith(b"\x89PNG") for one in pngs)
    assert all(one.read_text().startswith("<svg") for one in svgs)
    assert "42 pictures" in capsys.readouterr().out


def test_report_lists_each_shaft_rule_with_its_next_stock_size():
    page = report_html(Machine(Design.demo()))
    assert re.search(r"shaft 2, torsion in a jam</td><td>22.4 mm</td><td>24 mm</td><td>45 mm", page)


@pytest.mark.parametrize("given", ["", " \n "])
def test_setting_nothing_is_said_and_leaves_the_file_before_alone(given, tmp_path, capsys):
    path = tmp_path / "mine.toml"
    assert main(["new", str(path)]) == 0
    assert main(["set", str(path), 'shaft_2.diameter = "50 mm"']) == 0
    kept = (tmp_path / "mine.toml.previous").read_bytes()
    capsys.readouterr()
    assert main(["set", str(path), given]) == 2
    assert '"" is not a field with its value' in capsys.readouterr().err
    assert (tmp_path / "mine.toml.previous").read_bytes() == kept
