"""What holds a thing along a shaft reaches over metal of it: over a gear's bore where its bush ends inside it."""

import json

import pytest

from mixerkit import Design, Machine
from mixerkit.__main__ import main
from mixerkit.explore.mend import mend
from mixerkit.parts.keyways import keyways
from mixerkit.parts.stack import laid
from mixerkit.shop.assembly import assembly_order
from mixerkit.shop.parts_list import parts
from mixerkit.shop.workshop import read_workshop

HELD = "everything is held both ways along it"
LARKFIELD, INCH_ROOM = Design.demo(), Design.demo("inch_room")
SHORT = LARKFIELD.with_values({"bearings.free_gear_length": "28 mm"})
BRIEF = """[batch]
mass = "9 kg"
[clay]
strength_from = "cone"
cone_penetration = "4.4 mm"
[supply]
voltage = "230 V"
frequency = "50 Hz"
phases = 1
socket_current = "13 A"
"""
WIDTH = {47.0: 5.1, 42.5: 4.7, 37.5: 4.4, 35.712: 3.4}
"""Of a ring opposite its gap, by its groove, in mm: of 50, 45 and 40 mm by DIN 471; of 1 1/2 in 0.09 of that, rounded down."""


def held(design, number=1):
    part = f"shaft {number}"
    return next(one for one in Machine(design).checks if (one.part, one.name) == (part, HELD))


def wandering(bodies):
    """Faces of free gears that nothing reaches over, by the lengths and diameters of the bodies alone."""
    loose = []
    for gear in [
        one
        for one in bodies
        if " gear of" in one["name"] and f"bush of the {one['name']}" in _names(bodies)
    ]:
        bush = next(one for one in bodies if one["name"] == f"bush of the {gear['name']}")
        for side in ("from", "to"):
            metal = bush["inner"] if abs(bush[side] - gear[side]) < 0.06 else gear["inner"]
            other = "to" if side == "from" else "from"
            against = [
                one["inner"] + 2 * WIDTH[one["inner"]]
                if one["name"][:5] == "ring "
                else one["outer"]
                for one in bodies
                if one["axis"] == gear["axis"]
                and one["name"].split()[0] in ("ring", "washer", "spacer", "bearing")
                and abs(one[other] - gear[side]) < 1e-3
            ]
            if not any(outer >= metal + 2 for outer in against):
                loose.append((gear["name"], side))
    return loose


def _names(bodies):
    return {one["name"] for one in bodies}


def bodies_of(file, capsys):
    capsys.readouterr()
    status = main(["check", str(file), "--json", "--no-remedies"])
    return status, json.loads(capsys.readouterr().out)["bodies"]


def test_a_drafted_gear_wider_than_its_bush_is_held(tmp_path, capsys):
    path, out = tmp_path / "brief.toml", tmp_path / "mine.toml"
    path.write_text(f'{BRIEF}\n[paths.idler]\nface_width = "48 mm"\n', encoding="utf-8")
    assert main(["draft", str(path), "--out", str(out)]) == 0
    spec = Design.read(out)
    # a path's gears are wider than the other's, and both bushes are as long as the narrower ones
    assert spec.paths.idler.face_width > spec.bearings.free_gear_length + 1
    status, bodies = bodies_of(out, capsys)
    assert status == 0
    assert wandering(bodies) == []


@pytest.mark.parametrize(
    "design", [LARKFIELD, SHORT, INCH_ROOM], ids=["larkfield", "short", "inch"]
)
def test_each_face_of_a_free_gear_has_something_over_its_metal(design, tmp_path, capsys):
    path = tmp_path / "mine.toml"
    design.write(path)
    status, bodies = bodies_of(path, capsys)
    assert status == 0
    assert wandering(bodies) == []


def test_a_short_bush_brings_a_washer_on_either_side_of_its_gear():
    """40 mm wide with 28 of bush: the bore of 55 is open; rings reach 42.5 + 2 x 4.7 = 51.9 mm, spacers 45 + 2 x 5 = 55."""
    # one more reaches over the hollow end's bore
    washers = [
        one for one in laid(SHORT, 1).washers if one.kind == "thrust washer" and "gear" in one.name
    ]
    assert {(one.inner, one.outer) for one in washers} == {(45.0, 59.0)}
    # gears from 15 to 55 and from 130 to 170 mm, washers 1.5 mm thick
    assert [(one.start, one.end) for one in washers] == [
        (13.5, 15.0),
        (55.0, 56.5),
        (128.5, 130.0),
        (170.0, 171.5),
    ]
    grooves = {one.where: (one.start, one.end) for one in laid(SHORT, 1).grooves}
    # 1.85 mm wide, beyond the washer
    assert grooves["behind the direct gear"] == pytest.approx((56.5, 58.35))
    assert grooves["before the idler gear"] == pytest.approx((126.65, 128.5))
    assert held(SHORT).verdict == "holds"
    assert "5 thrust washers between" in held(SHORT).reason
    thrust = [one.name for one in laid(LARKFIELD, 1).washers if one.kind == "thrust washer"]
    assert thrust == ["behind the reduction box"]


def test_those_washers_are_listed_put_on_and_clear_of_the_feather_key():
    counted = {
        one.size: one.count for one in parts(SHORT, read_workshop()) if one.name == "thrust washer"
    }
    assert counted["sheet 1.5 mm, 59 mm outside, 45 mm inside"] == 4
    said = str(assembly_order(SHORT))
    assert "direct gear, thrust washer, ring" in said or "ring, thrust washer, direct gear" in said
    ((key,),) = [
        [one for one in keyways(SHORT, laid(SHORT, 1), 1, "metric") if "feather" in one.words]
    ]
    assert key.start > 58.35
    assert key.end < 126.65


def test_a_washer_that_does_not_go_inside_the_dogs_does_not_hold():
    """A wall of 6 mm makes the bore 57 mm and the washer 61: dogs begin at 60 mm."""
    wide = SHORT.with_values({"bearings.bush_wall": "6 mm"})
    check = held(wide)
    assert check.verdict == "fails"
    assert "thrust washer does not go inside the dogs" in check.reason
    # what is printed as a remedy holds
    found = mend(Machine(wide)).remedies[check.id]
    assert found
    for remedy in found:
        assert held(wide.with_values(dict(remedy.values))).verdict == "holds"


def test_a_ring_that_does_not_reach_over_the_hollow_end_has_a_washer():
    """1 1/2 in: 35.71 + 2 x 3.4 = 42.5 mm across, in front of a bore of 2 in, 50.8 mm; the washer is 4 mm wider."""
    (one,) = [one for one in laid(INCH_ROOM, 1).washers if "box" in one.name]
    assert one.name == "behind the reduction box"
    assert (one.inner, one.outer) == (pytest.approx(38.1), pytest.approx(54.8))
