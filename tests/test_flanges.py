"""Both flanges of the fuse: where they stand, what holds them, what goes through them, what the pins clear."""

import pytest

from mixerkit import Design, Machine
from mixerkit.parts.bodies import bodies, clashes, walls
from mixerkit.parts.flanges import hollow_flange_span, stub_keyway, stub_wall
from mixerkit.parts.keyed import key_for
from mixerkit.shop.parts_list import parts
from mixerkit.shop.workshop import read_workshop

DEMO, SHOP = Design.demo(), read_workshop()
STUB = "flange on the hollow shaft"


def of_stub(design):
    """The checks of the flange on the hollow shaft by name."""
    return {one.name: one for one in Machine(design).checks if one.part == STUB}


def test_the_flange_on_the_hollow_shaft_stands_against_its_end():
    """Hollow shaft from -90 - 35 = -125 mm; a quarter of 60 mm thick: to -140, 5 mm before the other at -145.

    2 x 60 + 4 x 5.45 = 141.8 mm across; its stub fills the bore of 60 round the shaft of 45; the spacer behind it is
    55 mm outside.
    """
    assert hollow_flange_span(DEMO) == pytest.approx((-140.0, -125.0))
    row = bodies(DEMO)
    (one,) = [one for one in row if one.name == STUB]
    assert (one.start, one.end) == pytest.approx((-140.0, -125.0))
    assert (one.inner, one.outer) == pytest.approx((45.0, 141.8))
    (stub,) = [one for one in row if one.name == f"stub of the {STUB}"]
    assert (stub.start, stub.end) == pytest.approx((-125.0, -55.0))
    assert (stub.inner, stub.outer) == pytest.approx((45.0, 60.0))
    (spacer,) = [
        one for one in row if one.name.startswith("spacer flange") and "shaft 1" in one.name
    ]
    assert (spacer.start, spacer.outer) == pytest.approx((-145.0, 55.0))
    assert spacer.end == pytest.approx(-140.0)
    assert clashes(row, walls(DEMO)) == []


def test_a_flange_thinner_than_the_shaft_would_be_seen_to_clash():
    row = [one._replace(inner=44.0) if one.name == STUB else one for one in bodies(DEMO)]
    assert any(STUB in pair for pair in clashes(row, walls(DEMO)))


def test_without_a_fuse_a_bush_fills_the_hollow_shaft():
    names = [one.name for one in bodies(DEMO.with_values({"fuse.kind": "none"}))]
    assert "bush in the box" in names
    assert not any(STUB in one for one in names)


def test_each_flange_is_listed_with_its_own_bore():
    listed = {one.name: one.size for one in parts(DEMO, SHOP) if one.name.startswith("flange")}
    assert set(listed) == {
        "flange of the fuse on shaft 1",
        "flange of the fuse on the hollow shaft",
    }
    assert "bored 45 mm, keyed; hub 72 mm outside" in listed["flange of the fuse on shaft 1"]
    stub = listed["flange of the fuse on the hollow shaft"]
    assert "a stub 60 mm outside, 70 mm long" in stub
    # 7 - 3.75 = 3.25 mm off a key of 18 x 11
    assert "keyway 18 mm wide and 3.75 mm deep, its key planed from 11 mm to 7.75 mm" in stub
    assert "bored 45 mm, free on shaft 1" in stub
    keys = [one.size for one in parts(DEMO, SHOP) if one.name == "key"]
    assert "18 mm x 7.75 mm, 70 mm long" in keys


@pytest.mark.parametrize(
    ("bore", "wall", "deep"),
    # half of the wall, but what stays is 2 mm at least, and no deeper than the key's own way
    [(60.0, 7.5, 3.75), (50.0, 2.5, 0.5), (45.0, 0.0, 0.0), (80.0, 17.5, 7.5)],
)
def test_the_keyway_of_the_stub_takes_half_of_its_wall(bore, wall, deep):
    design = DEMO.with_values({"reducer.output_bore": f"{bore} mm"})
    assert stub_wall(design) == pytest.approx(wall)
    assert stub_keyway(design, key_for(min(bore, 75.0), "metric")) == pytest.approx(deep)


def test_the_boxs_own_key_holds_its_flange():
    """Bore 60: key 18 x 11, 11 - 7 = 4 mm of it in the hollow shaft, 70 - 18 = 52 mm of it bear.

    485.1 N*m by the hand of test_hand_worked: 2 x 485100 / (60 x 4 x 52) = 77.74 MPa on grey iron's 165; in the stub
    3.75 - 0.8 = 2.95 mm of steel of 370 MPa, which bears more. Shear 2 x 485100 / (60 x 18 x 52) = 17.28 MPa.
    """
    found = of_stub(DEMO)
    jam = found["key's flank in a jam"]
    assert (jam.demand, jam.capacity, jam.safety) == pytest.approx((77.74, 165.0, 1.2), abs=0.01)
    assert "cast iron EN-GJL-250 in the hub gives way first" in jam.reason
    assert found["key's flank while mixing"].capacity == pytest.approx(82.5)
    assert found["key's shear in a jam"].demand == pytest.approx(17.28, abs=0.01)
    # in a hollow shaft of tempered steel the shallow flank in the stub is the worst: 2 x 485100 / (60 x 2.95 x 52)
    steel = of_stub(DEMO.with_values({"hubs.box_material": "steel 42CrMo4 quenched and tempered"}))[
        "key's flank in a jam"
    ]
    assert (steel.demand, steel.capacity) == pytest.approx((105.41, 370.0), abs=0.01)


def test_what_the_keyway_leaves_of_the_stub_carries_the_torque():
    """45 + 2 x 3.75 = 52.5 mm: pi / 16 (52.5^4 - 45^4) / 52.5 = 13076 mm^3, 485100 / 13076 = 37.1 MPa.

    42CrMo4: 650 x 0.57735 = 375.3 MPa. Mixing, 199.04 N*m: 15.22 MPa, times the root of three and a keyway's 2.72.
    """
    found = of_stub(DEMO)
    jam, lasts = found["stub is not twisted off in a jam"], found["stub lasts"]
    assert (jam.demand, jam.capacity) == pytest.approx((37.10, 375.28), abs=0.01)
    assert lasts.verdict == jam.verdict == "holds"
    # 0.814 x 4.51 x 900^-0.265 x 1.51 x 52.5^-0.157 x 450
    assert lasts.capacity == pytest.approx(220.8, abs=0.1)
    assert lasts.demand == pytest.approx(71.7, abs=0.1)


def test_where_the_wall_has_no_room_for_a_keyway_it_fails_and_an_end_turned_down_mends_it():
    """Bore 50 round 45: 2.5 mm of wall, 0.5 mm of keyway, all of it the key's broken edge."""
    narrow = DEMO.with_values({"reducer.output_bore": "50 mm"})
    jam = of_stub(narrow)["key's flank in a jam"]
    assert jam.verdict == "fails"
    first = dict(jam.fix[0])
    # the bar stays, its end in the box alone is turned down
    assert list(first["shaft_1.step_at"]) == ["-55 mm"]
    assert list(first["shaft_1.step_diameters"]) == ["45 mm"]
    size = first["shaft_1.diameter"]
    end = narrow.with_values(
        first
        | {
            "shaft_1.diameter": f"{size} mm",
            "shaft_1.step_at": ["-55 mm"],
            "shaft_1.step_diameters": ["45 mm"],
        }
    )
    assert all(one.verdict != "fails" for one in of_stub(end).values())


def test_a_bore_that_no_key_is_made_for_is_not_judged():
    found = of_stub(DEMO.with_values({"reducer.output_bore": "5 mm"}))
    assert found["key's flank in a jam"].verdict == "fails"


@pytest.mark.parametrize(("radius", "verdict"), [(37.0, "fails"), (53.1, "fails"), (53.3, "holds")])
def test_pins_clear_the_hub_and_the_hollow_shaft(radius, verdict):
    """Hub 1.6 x 45 = 72 mm, hollow shaft 1.5 x 60 = 90 mm outside: 45 + 1.5 x 5.45 = 53.175 mm."""
    check = next(
        one
        for one in Machine(DEMO.with_values({"fuse.pin_radius": f"{radius} mm"})).checks
        if one.name == "pins lie outside hub and hollow shaft"
    )
    assert check.demand == pytest.approx(53.175)
    assert check.verdict == verdict
