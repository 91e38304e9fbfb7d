"""Behind a fuse nothing tells the maker to put a key between shaft 1 and the box's hollow shaft: it would go past the fuse."""

import re

import pytest

from mixerkit import Design, Machine
from mixerkit.__main__ import main
from mixerkit.drive.reducer import adapting_bush

FUSED = Design.demo()
LIMITED = FUSED.with_values({"fuse.kind": "torque limiter"})
KEYED = FUSED.with_values({"fuse.kind": "none"})
THROUGH = re.compile(
    r"stepped key|keys? (through|between|of|in) (both|the box|the hollow)|key through it",
    re.IGNORECASE,
)


def checked(design, tmp_path, capsys):
    """What is said of all checks with their workings."""
    path = tmp_path / "mine.toml"
    design.write(path)
    main(["check", str(path), "--all", "--why", "--no-remedies"])
    return re.sub(r"\s+", " ", capsys.readouterr().out)


def told(design, tmp_path, capsys):
    """All that is said of a design: checks with their workings, report, sheets and lists, as plain text."""
    said, path = checked(design, tmp_path, capsys), tmp_path / "mine.toml"
    main(["report", str(path), "--out", str(tmp_path / "report")])
    main(["sheets", str(path), "--out", str(tmp_path / "sheets")])
    files = [*(tmp_path / "report").iterdir(), *(tmp_path / "sheets").iterdir()]
    pages = [one.read_text("utf-8") for one in files if one.suffix in (".html", ".csv")]
    plain = re.sub(r"<svg.*?</svg>|<[^>]+>", " ", " ".join(pages), flags=re.DOTALL)
    return re.sub(r"\s+", " ", f"{said} {plain}".replace("&#39;", "'"))


@pytest.mark.parametrize(
    ("design", "ask"), [(FUSED, told), (LIMITED, checked)], ids=["shear pin", "limiter"]
)
def test_nothing_asks_for_a_key_past_the_fuse(design, ask, tmp_path, capsys):
    said = ask(design, tmp_path, capsys)
    assert THROUGH.findall(said) == []
    # and it is said that there is none, where the bush is turned and where the box goes on
    assert "no key in it, or a jam goes past the fuse" in said


def test_without_a_fuse_the_key_is_asked_for(tmp_path, capsys):
    assert "one stepped key through both" in checked(KEYED, tmp_path, capsys)


@pytest.mark.parametrize("bore", [45.0, 50.0])
def test_a_bush_behind_a_fuse_has_no_key(bore):
    assert "no key in it" in adapting_bush(bore, 45.0, keyed=False).words
    assert "no key in it" not in adapting_bush(bore, 45.0).words


@pytest.mark.parametrize(
    ("design", "parts"),
    [
        (FUSED, ["flange of the fuse", "flange on the hollow shaft"]),
        (KEYED, ["reduction box"]),
    ],
    ids=["fuse", "none"],
)
def test_the_key_that_takes_the_boxs_torque_is_named_where_it_is(design, parts):
    keys = [
        one.part
        for one in Machine(design).checks
        if one.name == "key's flank in a jam" and "gears" not in one.part
    ]
    assert keys == parts
