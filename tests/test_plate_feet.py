"""Plates, far wall and trough on the frame: welds and bolts of their feet, the seams of the trough's ends; by hand."""

import pytest

from mixerkit import Design, Machine
from mixerkit.shop.parts_list import parts
from mixerkit.shop.workshop import read_workshop

DEMO = Design.demo()
FEET = "feet of plates and wall"
# a paddle wedged at 90 mm: 485.1 N*m x sqrt(1 + 1 / 0.3^2) / 0.09 m; the arm at 250 mm: 485.1 / 0.25
ACROSS, LIFT = 18757.75, 1940.4
# caught at the sleeve of 42 mm, pushed along by 0.818 of 485100 / 42, and by the clay on the other shaft
ALONG = 9965.45


def of(part, design=DEMO):
    return {one.name: one for one in Machine(design).checks if one.part == part}


def given(check, symbol):
    return {name: value for one in check.working for name, value, *_ in one.given}[symbol]


def test_what_pulls_on_the_feet():
    one = of(FEET)["their welds hold in a jam"]
    assert given(one, "F") == pytest.approx(ACROSS, abs=0.1)
    assert given(one, "A") == pytest.approx(LIFT)
    assert given(one, "W") == pytest.approx(ALONG, abs=0.1)


def test_two_fillets_along_the_lower_edge():
    """490 mm long, 0.7 x 8 mm: 5.657 mm of throat, plate of 30 mm, shafts 170 mm above.

    3 x 18757.75 x 170 / 490^2 = 39.844; 9965.45 x 170 / (490 x 30) = 115.247; 1940.4 / 980 = 1.980: 157.071 / 5.657
    = 27.766; sqrt(18757.75^2 + 9965.45^2) = 21240.6 / (980 x 5.657) = 3.831; both 28.03 MPa.
    S235: 0.4 x 225 x sqrt 2 = 127.28 MPa, less than 0.3 x 427 of the filler.
    """
    one = of(FEET)["their welds hold in a jam"]
    assert (one.demand, one.capacity) == pytest.approx((28.03, 127.28), abs=0.01)
    thin = of(FEET, DEMO.with_values({"frame.wall_thickness": "10 mm"}))
    # the thinner of plates and wall: 9965.45 x 170 / (490 x 10) = 345.740, together 387.564 / 5.657 = 68.512
    assert thin["their welds hold in a jam"].demand == pytest.approx(68.62, abs=0.01)


def test_twelve_bolts_of_each_plate():
    """M12 of class 8.8 has 0.7 x 0.75 x 580 x 84.3 = 25669 N at least; 0.15 x (12 x 25669.35 - 1940.4) = 45914 N.

    1940.4 / 12 = 161.7; 18757.75 x 170 / (2 x 440) = 3623.7; 9965.45 x 170 / (6 x 78) = 3619.9: 7405.3 N.
    """
    found = of(FEET)
    grip, tight = (
        found["do not slip on their rails in a jam"],
        found["joint does not part in a jam"],
    )
    assert (grip.demand, grip.capacity) == pytest.approx((21240.6, 45913.8), abs=0.1)
    assert (tight.demand, tight.capacity) == pytest.approx((7405.3, 25669.35), abs=0.1)
    # a quarter of it goes to the bolt, foot and rail together two of its thickness
    assert found["bolts do not stretch in a jam"].demand == pytest.approx(0.2613 * 7405.3, rel=1e-3)
    assert {one.verdict for one in found.values()} == {"holds"}


@pytest.mark.parametrize(
    ("bolt", "slips"), [("M6", "fails"), ("M8", "fails"), ("M10", "holds"), ("M12", "holds")]
)
def test_small_bolts_let_the_feet_slip(bolt, slips):
    # 21240.6 x 1.2 = 25489 N; 0.15 x (12 x 304.5 x A - 1940): M8 36.6 16430 N, M10 58 31499 N
    found = of(FEET, DEMO.with_values({"housing.tie_bolt": bolt}))
    assert found["do not slip on their rails in a jam"].verdict == slips


def test_larger_bolts_are_offered_for_those_that_slip():
    check = of(FEET, DEMO.with_values({"housing.tie_bolt": "M8"}))[
        "do not slip on their rails in a jam"
    ]
    # 21240.6 x 1.2 / 0.15 + 1940.4 = 171865 N over 12 x 11144.7 = 133736: 1.285 x 36.6 = 47 mm^2
    assert check.fix[0] == {"housing.tie_bolt": "M10"}


def test_the_seam_of_an_end_of_the_trough():
    """340 mm wide, a fillet of 3 mm: 2.121 mm of throat; 18757.75 + 15 x 9.80665 = 18904.85 N and 9965.45 N.

    21370.5 / 340 = 62.854; 6 x 485100 / 340^2 = 25.178: 88.032 / 2.121 = 41.50 MPa; 1.4301: 0.4 x 190 x sqrt 2 = 107.48.
    """
    one = of("trough")["welds of its ends hold in a jam"]
    assert (one.demand, one.capacity) == pytest.approx((41.50, 107.48), abs=0.01)
    thin = of("trough", DEMO.with_values({"trough.wall_thickness": "1 mm"}))
    assert thin["welds of its ends hold in a jam"].verdict == "fails"
    assert thin["welds of its ends hold in a jam"].fix[0]["trough.wall_thickness"] > 1.1


def test_the_bolts_of_the_feet_are_listed():
    (bolts,) = [one for one in parts(DEMO, read_workshop()) if one.name.startswith("bolt of the")]
    # both plates and the far wall
    assert bolts.count == 36
    assert "M12 of class 8.8" in bolts.size
