"""Every way out that is printed, followed: typed into the design file, sizes taken out, asked again."""

import re
import tomllib

import numpy as np
import pytest
import tomlkit

from mixerkit import Design
from mixerkit.__main__ import main
from mixerkit.data_files import data_path
from mixerkit.shop.holes import plate

SIZES = tomllib.loads(data_path("measured", "larkfield_as_made.toml").read_text("utf-8"))
OUT = re.compile("out of the file of sizes (until measured again|for good, .*): ")
BUSHES = {"bearings.kind": "plain bush", "bearings.span": "440 mm"}


def places(shaft_2=150.0, idler=(75.0, 73.485), which="reducer"):
    """Places of the bores of one plate, shaft 1 at 170 mm from both edges."""
    at = {"shaft_1": (0, 0), "shaft_2": (shaft_2, 0), "idler_pin": idler}
    return {
        "plates": {
            which: {name: [f"{170 + x:.4f} mm", f"{170 + y:.4f} mm"] for name, (x, y) in at.items()}
        }
    }


def apart(distance):
    return {
        "plates": {which: {"centre_distance": f"{distance} mm"} for which in ("reducer", "trough")}
    }


def blanks(**sizes):
    return {"gears": {name: {"outside_diameter": f"{size} mm"} for name, size in sizes.items()}}


TURNED = blanks(direct_1=159.95, direct_2=159.95, idler_1=119.95, idler_2=109.95, idler_3=119.95)
# each: changes of the demo's design, sizes as made
CASES = {
    "the demo's own file": ({}, SIZES),
    "plates wide, idler not bored": ({}, apart(150.15)),
    "plates wide, blanks turned": ({}, apart(150.1) | TURNED),
    "plates wide, idler bored, nothing turned": ({}, places(150.15, (75.01, 73.48))),
    "plates wide, idler bored, idler turned": (
        {},
        places(150.15, (75.01, 73.48)) | blanks(idler_2=109.95),
    ),
    "plates wide, idler bored, blanks turned": ({}, places(150.15, (75.01, 73.48)) | TURNED),
    "plates wide, idler's place not known": (
        {},
        {"plates": {"reducer": {"centre_distance": "150.15 mm", "idler_pin_bore": "30.01 mm"}}},
    ),
    "one plate wide": (
        {},
        {
            "plates": {
                "reducer": {"centre_distance": "150.2 mm"},
                "trough": {"centre_distance": "150.01 mm"},
            }
        },
    ),
    "plates narrow, idler bored": ({}, places(149.7, (74.9, 73.6))),
    "idler bored off": ({}, places(150.0, (75.1, 73.6))),
    "idler bored far off": ({}, places(150.0, (76.5, 76.0))),
    "shaft 2 and idler off": ({}, places(150.2, (75.4, 73.8))),
    "blank of the direct pair small": ({}, blanks(direct_1=149.95, direct_2=159.95)),
    "blank of the direct pair short": ({}, blanks(direct_2=159.0)),
    "blank small with a mate cut": (
        {},
        {
            "gears": {
                "direct_1": {"outside_diameter": "152 mm"},
                "direct_2": {"base_tangent": "53.66 mm"},
            }
        },
    ),
    "teeth cut in a blank too small": (
        {},
        {"gears": {"direct_1": {"outside_diameter": "158 mm", "base_tangent": "53.66 mm"}}},
    ),
    "teeth cut a little thin": ({}, {"gears": {"direct_1": {"base_tangent": "53.60 mm"}}}),
    "keyway of shaft 2 deep and wide": (
        {},
        {"shafts": {"2": {"keyway_depth": "6.5 mm", "keyway_width": "14.3 mm"}}},
    ),
    "seat of shaft 2 small": (BUSHES, {"shafts": {"2": {"gear_seat": "44.7 mm"}}}),
    "seat of shaft 1 small": (BUSHES, {"shafts": {"1": {"gear_seat": "44.7 mm"}}}),
    "bearing seat small, plates bored": (
        BUSHES,
        {
            "shafts": {"2": {"bearing_seat": "44.6 mm"}},
            "plates": {"trough": {"shaft_2_bore": "55.01 mm"}},
        },
    ),
    "bore of a gear large": (
        {},
        {"gears": {"direct_2": {"bore": "45.2 mm"}, "direct_1": {"bore": "55.4 mm"}}},
    ),
    "bores of plates and bushes large": (
        {},
        {
            "plates": {"trough": {"idler_pin_bore": "40.4 mm", "shaft_1_bore": "120.3 mm"}},
            "bushes": {"idler_bore": "40.2 mm"},
        },
    ),
}
SHOP_FILE = data_path("shops", "larkfield_shop.toml")
UNCHANGED = {
    "plates wide, idler bored, blanks turned": "no shifts and no tooth counts",
    "plates wide, idler's place not known": "measure its place",
    "one plate wide": "no shifts and no tooth counts",
}
"""Cases in which no way out changes the design, and what is said of it."""


@pytest.fixture(scope="module")
def ask():
    """Ask for the hold points of a design and sizes; what was asked already is kept."""
    known = {}

    def asked(folder, capsys, design, sizes):
        given = design, tomlkit.dumps(sizes)
        if given not in known:
            (folder / "d.toml").write_text(given[0])
            (folder / "s.toml").write_text(given[1])
            (folder / "my_shop.toml").write_text(SHOP_FILE.read_text("utf-8"))
            capsys.readouterr()
            status = main(["hold-points", str(folder / "d.toml"), str(folder / "s.toml")])
            known[given] = status, capsys.readouterr().out
        return known[given]

    return asked


def ways_of(printed):
    """Part, words, lines to type and sizes to take out of each way, as printed."""
    found, part = [], ""
    for line in printed.splitlines():
        if line.startswith("Ways out, "):
            part = line.removeprefix("Ways out, ").rstrip(":")
        elif part and re.match("  [a-z]", line):
            found.append((part, line.strip(), [], []))
        elif part and OUT.match(line.strip()):
            found[-1][3].extend(OUT.sub("", line.strip()).split(", "))
        elif part and line.startswith(" " * 9):
            found[-1][2].append(line.strip())
    return found


def stops(printed):
    return {line for line in printed.splitlines() if line.startswith("stop")}


def alarms(printed):
    return int(re.search(r"(\d+) not as drawn", printed)[1])


def without(sizes, names):
    left = {}
    for key, value in sizes.items():
        inner = [one.removeprefix(f"{key}.") for one in names if one.startswith(f"{key}.")]
        if key not in names:
            left[key] = without(value, inner) if isinstance(value, dict) else value
    return left


def typed(folder, design, lines):
    """Text of the design file after the lines were set."""
    path = folder / "typed.toml"
    path.write_text(design)
    if lines:
        assert main(["set", str(path), *lines]) == 0
    return path.read_text()


@pytest.mark.parametrize("name", CASES)
def test_every_way_out_that_is_printed_does_away_with_what_it_stands_under(
    name, tmp_path, capsys, ask
):
    changes, sizes = CASES[name]
    design = Design.demo().with_values(changes).to_toml()
    status, printed = ask(tmp_path, capsys, design, sizes)
    assert status == 1
    ways = ways_of(printed)
    assert ways
    if name in UNCHANGED:
        assert not any(lines for _, _, lines, _ in ways)
        assert UNCHANGED[name] in printed
    for part, words, lines, out in ways:
        # a way that changes neither file leaves the step shut
        assert lines or out, words
        changed = typed(tmp_path, design, lines)
        status, after = ask(tmp_path, capsys, changed, without(sizes, out))
        assert status in (0, 1)
        assert f"Ways out, {part}:" not in after, words
        assert stops(after) <= stops(printed), words
        assert alarms(after) < alarms(printed), words


@pytest.mark.parametrize(
    "name", [name for name in CASES if name not in UNCHANGED and "bore" not in name.split()[:1]]
)
def test_what_stops_the_work_can_be_typed_away(name, tmp_path, capsys, ask):
    """The first way of whatever part comes first, and so on, until no step is shut."""
    changes, sizes = CASES[name]
    design = Design.demo().with_values(changes).to_toml()
    for _ in range(5):
        status, printed = ask(tmp_path, capsys, design, sizes)
        ways = ways_of(printed)
        if not ways:
            break
        _, _, lines, out = ways[0]
        design, sizes = typed(tmp_path, design, lines), without(sizes, out)
    assert status == 0, printed
    assert not stops(printed)


def test_the_demos_holes_are_lived_with_where_they_were_bored(tmp_path, capsys, ask):
    """The idler's hole by hand: 75.01 and 73.48 mm from shaft 1, and shaft 2 150.15 mm from it."""
    design = Design.demo().to_toml()
    first = next(
        one
        for one in ways_of(ask(tmp_path, capsys, design, SIZES)[1])
        if one[0] == "holes of the plates"
    )
    assert first[2] == [
        'housing.centre_distance = "150.15 mm"',
        "paths.direct.profile_shift_coefficients = [0.0151, 0.0151]",
        "paths.idler.profile_shift_coefficients = [0.0008, 0.0, 0.0194]",
    ]
    assert "idler's hole moves" not in first[1]
    # shifts that close a pair of 60 teeth on 150.15 mm, to the first order: 0.15 mm over a module of 5 mm
    total = sum(tomllib.loads(first[2][1])["paths"]["direct"]["profile_shift_coefficients"])
    assert total == pytest.approx(0.15 / 5, rel=0.02)
    again = Design.parse(typed(tmp_path, design, first[2]), "typed.toml")
    drawn = {hole.name: (hole.x, hole.y) for hole in plate(again, "reducer").holes}
    one, two = np.array(drawn["shaft 1"]), np.array(drawn["idler pin"])
    assert two - one == pytest.approx([75.01, 73.48], abs=0.005)


def test_an_idler_that_is_not_bored_moves_with_the_shafts(tmp_path, capsys, ask):
    ways = ways_of(ask(tmp_path, capsys, Design.demo().to_toml(), apart(150.15))[1])
    moving = [one for one in ways if one[2]]
    assert moving
    assert all("the idler's hole moves with the shafts" in one[1] for one in moving)
    assert not any("paths.idler" in line for one in moving for line in one[2])


def test_a_whole_shaft_is_not_turned_down_where_the_plates_are_bored_for_it(tmp_path, capsys, ask):
    design = Design.demo().with_values(BUSHES).to_toml()
    seat = {"shafts": {"2": {"gear_seat": "44.7 mm"}}}
    bored = seat | {"plates": {"trough": {"shaft_2_bore": "55.01 mm"}}}
    free, bound = (
        [
            one[1]
            for one in ways_of(ask(tmp_path, capsys, design, sizes)[1])
            if "whole shaft" in one[1]
        ]
        for sizes in (seat, bored)
    )
    assert free
    assert not bound


def test_an_idler_without_a_place_has_no_way_out_of_its_hole(tmp_path, capsys):
    """Its gears do not reach both shafts: there is no distance that its hole could be off."""
    design, sizes = tmp_path / "d.toml", tmp_path / "s.toml"
    lost = Design.demo("inch_room").with_values(
        {"paths.idler.profile_shift_coefficients": [-0.6, -0.6, 1.2]}
    )
    design.write_text(lost.to_toml(), "utf-8")
    sizes.write_text(
        '[plates.trough]\nidler_pin = ["120 mm", "150 mm"]\nshaft_1 = ["90 mm", "90 mm"]\ncentre_distance = "101 mm"\n',
        "utf-8",
    )
    assert main(["hold-points", str(design), str(sizes)]) == 1
    assert "nan" not in capsys.readouterr().out
