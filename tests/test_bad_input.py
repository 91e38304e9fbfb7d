"""Malformed design files: one clear message a mistake, exit 2, no traceback, nothing written."""

import copy
import re
from datetime import UTC, datetime
from pathlib import Path

import pytest
import tomlkit

from mixerkit import Design, InputError
from mixerkit.__main__ import main
from mixerkit.data_files import data_path
from mixerkit.fields import kinds_in
from mixerkit.fields.kinds import DayKind, NumberKind, PointKind, WholeKind, YesNoKind
from mixerkit.fields.lists import (
    ByNameKind,
    NumbersKind,
    PlacesKind,
    QuantitiesKind,
    SizesKind,
    TextsKind,
    WholeListsKind,
    WholesBySizeKind,
    WholesKind,
)
from mixerkit.fields.nested import RecordsKind
from mixerkit.shop.measurements import Measurements
from mixerkit.shop.workshop import Workshop, read_workshop
from mixerkit.textfiles import parse_record
from mixerkit.units import Span

GOOD = data_path("designs", "larkfield.toml").read_text("utf-8")


def swap(old, new):
    assert old in GOOD, old
    return GOOD.replace(old, new, 1)


# name: (text of the file, what each message must hold)
TEXTS = {
    "wrong unit": (
        swap('"1.5 kW"', '"1.5 kg"'),
        ['motor.rated_power: "1.5 kg" is a mass; a power is wanted, for example "1.5 kW"'],
    ),
    "no unit": (swap('"1.5 kW"', '"1.5"'), ["motor.rated_power", "has no unit"]),
    "bare number": (swap('"1.5 kW"', "1.5"), ["motor.rated_power: 1.5 has no unit"]),
    "unknown unit": (swap('"1.5 kW"', '"1.5 kWatz"'), ['the unit "kWatz" is not known']),
    "missing field": (
        swap('rated_power = "1.5 kW"\n', ""),
        ["motor.rated_power: missing", 'for example rated_power = "1.5 kW"'],
    ),
    "missing table": (
        swap("[reducer]", "[batch.reducer]"),
        ["batch.reducer: no such field", "reducer: missing; a table [reducer]"],
    ),
    "negative": (
        swap('diameter = "45 mm"', 'diameter = "-45 mm"'),
        ['shaft_1.diameter: "-45 mm" is out of range', "above 0 mm"],
    ),
    "zero": (swap("ratio = 60", "ratio = 0"), ["reducer.ratio", "out of range"]),
    "nan number": (swap("ratio = 60", "ratio = nan"), ["reducer.ratio", "not a finite number"]),
    "inf number": (swap("ratio = 60", "ratio = inf"), ["reducer.ratio", "not a finite number"]),
    "nan text": (swap('"1.5 kW"', '"nan kW"'), ["not a finite number"]),
    "unknown key": (
        swap("rated_speed", "rated_sped"),
        ['motor.rated_sped: no such field; nearest is "rated_speed"', "rated_speed: missing"],
    ),
    "unknown table": (GOOD + "\n[bathc]\nx = 1\n", ['bathc: no such field; nearest is "batch"']),
    "empty": ("", ["the file is empty"]),
    "only comments": ("# nothing yet\n", ["the file is empty"]),
    "not TOML": ("motor: 1.5 kW\n", ["not a TOML file", "line 1"]),
    "doubled key": (swap("ratio = 60", "ratio = 60\nratio = 50"), ["not a TOML file"]),
    "wrong type": (swap("[30, 30]", '"30, 30"'), ["paths.direct.tooth_counts", "a list of"]),
    "text for a number": (
        swap("ratio = 60", 'ratio = "sixty"'),
        ["reducer.ratio", "is text; a plain number"],
    ),
    "list for a text": (
        swap('name = "Larkfield Community Pottery mixer"', "name = [1]"),
        ["name: [1] does not fit"],
    ),
    "table for a value": (
        swap('rated_power = "1.5 kW"', "rated_power = {}"),
        ["motor.rated_power: {} does not fit; one value is wanted"],
    ),
    "value for a table": (
        swap(
            '[shaft_2]\nmaterial = "steel 42CrMo4 quenched and tempered"\ndiameter = "45 mm"\nkeyway = true',
            "",
        ).replace("format = 3", "format = 3\nshaft_2 = 3"),
        ["shaft_2: 3 does not fit; a table"],
    ),
    "fraction of a tooth": (swap("[30, 30]", "[30, 30.5]"), ["30.5 in the list does not fit"]),
    "too many digits": (swap('"1.5 kW"', '"1.5e30 kW"'), ["motor.rated_power", "at most 50 kW"]),
    "true for a count": (
        swap("shaft = 1 ", "shaft = true "),
        ["clutch.shaft: true does not fit; a whole number"],
    ),
    "text for yes or no": (
        swap("keyway = true", 'keyway = "yes"'),
        ["shaft_1.keyway", "true or false"],
    ),
    "not an option": (
        swap('drawn_in = "direct"', 'drawn_in = "dirct"'),
        ['"dirct" is none of', 'nearest is "direct"'],
    ),
    "unknown material": (
        GOOD.replace(
            '[shaft_1]                      # on the reduction box\nmaterial = "steel 42CrMo4 quenched and tempered"',
            '[shaft_1]\nmaterial = "steel C45 hardened"',
        ),
        ["shaft_1.material", "is not in the table of materials"],
    ),
    "newer kit": (swap("format = 3", "format = 9"), ["format: 9 is of a newer kit"]),
    "format is text": (swap("format = 3", 'format = "one"'), ["format", "a whole number"]),
    "paddle inside out": (
        swap('root_radius = "42 mm"', 'root_radius = "95 mm"'),
        ["paddles.root_radius", "less than paddles.tip_radius"],
    ),
    "gear outside the plates": (
        swap('position = "150 mm"', 'position = "190 mm"'),
        ["paths.idler.position", "outside the plates"],
    ),
    "direct path with an idler": (
        swap("[30, 30]", "[30, 20, 30]"),
        ["paths.direct.tooth_counts", "two gears are wanted"],
    ),
    "idler path without one": (
        swap("[22, 20, 22]", "[22, 22]"),
        ["paths.idler.tooth_counts", "three gears are wanted"],
    ),
    "comma for a point": (swap('"1.5 kW"', '"1,5 kW"'), ["has a comma"]),
    "three mistakes": (
        swap('"1.5 kW"', '"1.5 kg"')
        .replace("ratio = 60", "ratio = -60")
        .replace("count = 5", "count = 0 "),
        ["motor.rated_power", "reducer.ratio", "paddles.count"],
    ),
}


def complaints(capsys, path, *, count=None):
    before = sorted(path.parent.iterdir())
    for command in (["check", str(path)], ["report", str(path), "--out", str(path.parent / "out")]):
        assert main(command) == 2
        printed = capsys.readouterr()
        assert printed.out == ""
        assert "Traceback" not in printed.err
        lines = printed.err.strip().splitlines()
        assert count is None or len(lines) == count, lines
    assert sorted(path.parent.iterdir()) == before
    return lines


@pytest.mark.parametrize("name", TEXTS)
def test_malformed_text(name, tmp_path, capsys):
    text, wanted = TEXTS[name]
    path = tmp_path / "my.toml"
    path.write_text(text)
    lines = complaints(capsys, path)
    for words in wanted:
        assert any(words in line for line in lines), (words, lines)
    for line in lines:
        assert line.startswith("my.toml")
        assert re.search(r"wanted|nearest|no such field|newer kit|empty|none of|It has", line), line
    assert path.read_text() == text


def test_all_mistakes_are_told_at_once(tmp_path, capsys):
    path = tmp_path / "my.toml"
    path.write_text(TEXTS["three mistakes"][0])
    assert len(complaints(capsys, path, count=3)) == 3


def test_a_folder_a_missing_file_and_bytes(tmp_path, capsys):
    folder = tmp_path / "folder"
    folder.mkdir()
    assert "this is a folder" in complaints(capsys, folder, count=1)[0]
    assert "no such file" in complaints(capsys, tmp_path / "none.toml", count=1)[0]
    latin = tmp_path / "latin.toml"
    latin.write_bytes('name = "Töpferei"'.encode("latin-1"))
    assert "not UTF-8 text" in complaints(capsys, latin, count=1)[0]
    noise = tmp_path / "noise.toml"
    noise.write_bytes(bytes(range(256)))
    assert "not UTF-8 text" in complaints(capsys, noise, count=1)[0]
    zeros = tmp_path / "zeros.toml"
    zeros.write_bytes(b"\0" * 100)
    assert "not a TOML file" in complaints(capsys, zeros, count=1)[0]
    huge = tmp_path / "huge.toml"
    huge.write_bytes(b"# " + b"x" * 2_000_000)
    assert "too large" in complaints(capsys, huge, count=1)[0]


def test_an_unreadable_file(tmp_path, capsys, monkeypatch):
    path = tmp_path / "my.toml"
    path.write_text(GOOD)

    def refused(*_given):
        raise PermissionError(13, "Permission denied")

    monkeypatch.setattr(Path, "open", refused)
    assert "cannot be read (Permission denied)" in complaints(capsys, path, count=1)[0]


def test_a_byte_order_mark_does_no_harm(tmp_path):
    path = tmp_path / "my.toml"
    path.write_bytes(b"\xef\xbb\xbf" + GOOD.encode())
    assert main(["check", str(path)]) == 0


def test_new_leaves_a_file_alone_and_out_may_not_be_a_file(tmp_path, capsys):
    path = tmp_path / "my.toml"
    assert main(["new", str(path)]) == 0
    assert path.read_text() == GOOD
    path.write_text("mine")
    assert main(["new", str(path)]) == 2
    assert path.read_text() == "mine"
    assert main(["new", str(tmp_path / "no" / "folder.toml")]) == 2
    path.write_text(GOOD)
    assert main(["report", str(path), "--out", str(path)]) == 2
    assert "cannot be made a folder" in capsys.readouterr().err


WRONG = {
    RecordsKind: [3, "x", {}, [3], ["x"], [[]], [{}], [{}] * 201],
    YesNoKind: [[], {}, "\n", "yes", 1],
    PointKind: [3, "1 mm", [], {}, ["1 mm"], [3, 4], ["1 mm", "x"], ["1 mm"] * 3, ["1 kg", "1 mm"]],
    SizesKind: [
        3,
        "1 mm",
        {},
        [3],
        ["x"],
        ["3 kg"],
        ["9 mm to 1 mm by 1 mm"],
        ["#"],
        ["1 mm"] * 201,
    ],
    TextsKind: [3, "M6", {}, [3], ["no such tap"], [""], ["M6"] * 201],
    WholeListsKind: [3, "15", {}, [15], ["15"], [[1.5]], [[True]], [[0]], [[15]] * 21, [[15] * 61]],
    WholesBySizeKind: [3, "x", [1], *({k: [1]} for k in ("x", "nan", "0")), {"5": 1}, {"5": [0]}],
}


OF_NAMES = [3, True, "x", [1], {"trough": {"length": "3 mm"}}, {"trough.length": "3 kg"}]
"""Values that no table of values by the names of fields may have."""


def wrong_values(kind):
    """Values that no field of a kind may take."""
    common = [[], {}, "\n"]
    if isinstance(kind, QuantitiesKind):
        return [3, "1 mm", {}, [3], ["x"], ["3 kg"], ["1e12 mm"], ["nan mm"], ["1 mm"] * 40]
    if isinstance(kind, PlacesKind):
        return [
            3,
            "groove at 1 mm",
            {},
            ["dent at 1 mm"],
            ["groove"],
            ["groove at 3 kg"],
            [3],
            ["groove at 1 mm"] * 40,
        ]
    if type(kind) in WRONG:
        return WRONG[type(kind)]
    if hasattr(kind, "span") and not isinstance(kind, (NumberKind, NumbersKind)):
        other = "3 kg" if Span.read(kind.span).unit not in ("kg", "g") else "3 mm"
        return [
            *common,
            3.5,
            True,
            other,
            "nan mm",
            "1e12 " + (Span.read(kind.span).unit or "mm"),
            "3 furlongs",
            "mm",
        ]
    if isinstance(kind, NumbersKind):
        return [3, "0.1", {}, [9.0], ["x"], [float("nan")], [0.1] * 9]
    if isinstance(kind, NumberKind):
        return [*common, "sixty", True, float("nan"), float("inf"), -1e9, 1e9]
    if isinstance(kind, WholeKind):
        return [*common, 1.5, "one", True, -(10**9), 10**9]
    if isinstance(kind, WholesKind):
        return [*common, 3, "30, 30", [1.5, 2], [0, 0], [30] * 9]
    if isinstance(kind, DayKind):
        return [
            *common,
            20260301,
            True,
            "2026-3-1",
            "1 March 2026",
            "2026-02-30",
            datetime(2026, 3, 1, 9, tzinfo=UTC),
        ]
    return [*common, 3, True, "x" * 500, "no such option" if kind.options else ""]


FILES = {
    Design: Design.demo().to_table(),
    Workshop: read_workshop().to_table(),
    Measurements: {},
}
"""What each kind of file may hold."""


@pytest.mark.parametrize(
    ("of", "dotted", "kind"),
    [(of, *one) for of in FILES for one in kinds_in(of).items()],
    ids=lambda value: value if isinstance(value, str) else "",
)
def test_every_field_refuses_what_does_not_fit(of, dotted, kind):
    *outer, last = dotted.split(".")
    for wrong in OF_NAMES if isinstance(kind, ByNameKind) else wrong_values(kind):
        table = copy.deepcopy(FILES[of])
        inner = table
        for part in outer:
            inner = inner.setdefault(part, {})
        inner[last] = wrong
        text = tomlkit.dumps(table)
        with pytest.raises(InputError) as caught:
            parse_record(of, text, "my.toml")
        own = [
            message
            for message in caught.value.messages
            if re.match(rf"my\.toml, {re.escape(dotted)}[:.]", message)
        ]
        assert own, (wrong, caught.value.messages)
        assert re.search(
            r"wanted|none of|newer kit|at most|at least|above|is not in the table", own[0]
        ), own[0]


@pytest.mark.parametrize(
    ("values", "words"),
    [
        (
            {"clay.plastic_limit": 0.5},
            "clay.plastic_limit: 0.5 does not fit; less than clay.liquid_limit",
        ),
        ({"clay.body": "blue mud"}, 'clay.body: "blue mud" is not in the table of clay bodies'),
        ({"supply.phases": 2}, "supply.phases: 2 does not fit; 1 or 3"),
        ({"motor.poles": 3}, "motor.poles: 3 does not fit; an even count"),
        ({"motor.rated_speed": "1500 rpm"}, "motor.rated_speed"),
        ({"ranges.start_low": 3}, "ranges: a low end lies above its high end"),
    ],
)
def test_fields_that_do_not_fit_each_other(values, words):
    with pytest.raises(InputError) as caught:
        Design.demo().with_values(values)
    assert any(message.startswith(words) for message in caught.value.messages)
