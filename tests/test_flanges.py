"""Both flanges of the fuse: where they stand, what goes through them, what the pins clear."""

import pytest

from mixerkit import Design, Machine
from mixerkit.parts.bodies import bodies, clashes, walls
from mixerkit.parts.flanges import hollow_flange_bore, hollow_flange_span
from mixerkit.shop.parts_list import parts
from mixerkit.shop.workshop import read_workshop

DEMO, SHOP = Design.demo(), read_workshop()


def test_the_flange_on_the_hollow_shaft_stands_against_its_end():
    """Hollow shaft from -90 - 35 = -125 mm; a quarter of 50 mm thick: to -137.5, 5 mm before the other at -142.5.

    2 x 60 + 4 x 5.45 = 141.8 mm across; the spacer on the shaft of 45 is 55 mm outside, 0.5 mm free all round: 56.
    """
    assert hollow_flange_span(DEMO) == pytest.approx((-137.5, -125.0))
    assert hollow_flange_bore(DEMO) == pytest.approx(56.0)
    (one,) = [one for one in bodies(DEMO) if one.name == "flange on the hollow shaft"]
    assert (one.start, one.end) == pytest.approx((-137.5, -125.0))
    assert (one.inner, one.outer) == pytest.approx((56.0, 141.8))
    (spacer,) = [
        one
        for one in bodies(DEMO)
        if one.name.startswith("spacer flange") and "shaft 1" in one.name
    ]
    assert (spacer.start, spacer.end, spacer.outer) == pytest.approx((-142.5, -125.0, 55.0))
    assert clashes(bodies(DEMO), walls(DEMO)) == []


def test_a_flange_bored_for_the_shaft_alone_would_be_seen_to_clash():
    row = [
        one._replace(inner=50.0) if one.name == "flange on the hollow shaft" else one
        for one in bodies(DEMO)
    ]
    assert any("flange on the hollow shaft" in pair for pair in clashes(row, walls(DEMO)))


def test_each_flange_is_listed_with_its_own_bore():
    listed = {one.name: one.size for one in parts(DEMO, SHOP) if one.name.startswith("flange")}
    assert set(listed) == {
        "flange of the fuse on shaft 1",
        "flange of the fuse on the hollow shaft",
    }
    assert "bored 45 mm, keyed; hub 72 mm outside" in listed["flange of the fuse on shaft 1"]
    assert "bored 56 mm over the spacer" in listed["flange of the fuse on the hollow shaft"]
    # how the hollow shaft holds it hangs on the box: said, not guessed
    assert "does not work that joint out" in listed["flange of the fuse on the hollow shaft"]


@pytest.mark.parametrize(("radius", "verdict"), [(37.0, "fails"), (45.6, "fails"), (45.8, "holds")])
def test_pins_clear_the_hub_and_the_hollow_shaft(radius, verdict):
    """Hub 1.6 x 45 = 72 mm, hollow shaft 1.5 x 50 = 75 mm outside: 37.5 + 1.5 x 5.45 = 45.675 mm."""
    check = next(
        one
        for one in Machine(DEMO.with_values({"fuse.pin_radius": f"{radius} mm"})).checks
        if one.name == "pins lie outside hub and hollow shaft"
    )
    assert check.demand == pytest.approx(45.675)
    assert check.verdict == verdict
