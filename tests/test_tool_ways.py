"""Corners, cutters' ways, edges beside grooves and room for warmth, by hand on changed demos."""

from math import pi

import pytest

from mixerkit import Design, Machine
from mixerkit.parts import held, tool_ways, warmth

DEMO = Design.demo()


def found(number, name, **values):
    """A check of a shaft with changed values."""
    machine = Machine(DEMO.with_values({k.replace("__", "."): v for k, v in values.items()}))
    (check,) = (one for one in machine.checks if (one.part, one.name) == (f"shaft {number}", name))
    return check


# a bar of 52 mm turned to 50 mm for its bearings: their corners of 1.1 mm (series 62, ISO 15: 50 x 90 x 20) and
# of 2.1 mm (series 64: 50 x 130 x 31) against fillets of 1.5 mm
@pytest.mark.parametrize(
    ("series", "fillet", "corner", "verdict"),
    [("62", "1.5 mm", 1.1, "fails"), ("62", "1 mm", 1.1, "holds"), ("64", "1.5 mm", 2.1, "holds")],
)
def test_a_fillet_larger_than_a_bearings_corner_keeps_it_off_its_shoulder(
    series, fillet, corner, verdict
):
    one = found(
        2,
        tool_ways.CORNERS,
        shaft_2__diameter="52 mm",
        shaft_2__fillet=fillet,
        bearings__series=series,
    )
    assert (one.capacity, one.verdict) == (corner, verdict)


def test_what_is_offered_for_a_large_fillet_does():
    values = {"shaft_2__diameter": "52 mm", "bearings__series": "62"}
    (fix,) = found(2, tool_ways.CORNERS, **values).fix
    after = found(2, tool_ways.CORNERS, **values, shaft_2__fillet=f"{fix['shaft_2.fillet']} mm")
    assert after.verdict == "holds"


def test_a_bar_as_thick_as_its_bearings_has_no_step_beside_them():
    assert found(2, tool_ways.CORNERS, shaft_2__fillet="5 mm").demand == 0


# the keyway of the idler gear ends at 150 + 40/2 = 170 mm; a step to 50 mm so far beyond it
@pytest.mark.parametrize(("step", "left"), [(171.0, 1.0), (168.0, -2.0), (172.5, 2.5)])
def test_a_keyway_ends_before_the_fillet_of_a_step(step, left):
    one = found(
        2,
        tool_ways.WAYS,
        shaft_2__step_at=[f"{step} mm", "185 mm"],
        shaft_2__step_diameters=["50 mm", "45 mm"],
    )
    if left < 1.5:
        assert (one.demand, one.verdict) == (1.5, "fails")
        assert one.capacity == pytest.approx(left)
    else:
        assert one.verdict == "holds"


# DIN 471: a ring on 45 mm wants an edge of 3.8 mm beyond its groove; that behind the bearing at the trough
# ends at 219.5 + 1.85 = 221.35 mm, and 3 mm further out with a support washer between
@pytest.mark.parametrize(("step", "verdict"), [(227.0, "fails"), (229.0, "holds")])
def test_a_ring_pushes_on_an_edge_that_a_step_down_would_take(step, verdict):
    one = found(
        2,
        tool_ways.WAYS,
        shaft_2__step_at=[f"{step} mm", "240 mm"],
        shaft_2__step_diameters=["40 mm", "45 mm"],
    )
    assert one.verdict == verdict
    if verdict == "fails":
        assert one.demand == pytest.approx(3.8)
        assert one.capacity == pytest.approx(step - 224.35)


def test_a_groove_beside_a_turned_seat_is_cut_into_what_is_left_of_the_bar():
    machine = Machine(DEMO.with_values({"shaft_2.diameter": "52 mm", "bearings.series": "62"}))
    beam = machine.shaft_beams[1]
    sizes = [held.outside(beam, one) for one in beam.stack.grooves]
    # beyond the outermost bearings the bar of 52 mm is turned to their 50 mm
    assert (sizes[0], sizes[-1]) == (50.0, 50.0)
    (check,) = (one for one in machine.checks if (one.part, one.name) == ("shaft 2", held.PUSH))
    least = pi / 4 * (50**2 - 47**2) * beam.steel["yield_strength"] / 1.2
    assert check.capacity <= least


# steel grows 11.5e-6 a kelvin: 420 mm by 20 K is 0.0966 mm, 500 mm is 0.115 mm; an insert has 0.1 mm of play
@pytest.mark.parametrize(
    ("span", "locating", "grows", "verdict"),
    [(420.0, 2, 0.0966, "holds"), (500.0, 2, 0.115, "fails"), (500.0, 3, 0.1656, "holds")],
)
def test_an_insert_bearing_at_the_far_end_has_only_its_play_for_warmth(
    span, locating, grows, verdict
):
    one = found(
        1,
        warmth.WARM,
        bearings__far_end="insert bearing",
        bearings__span=f"{span} mm",
        bearings__locating=locating,
    )
    assert one.verdict == verdict
    assert one.demand == pytest.approx(grows, rel=0.01)


def test_stainless_grows_more():
    # austenitic, 16.5e-6 a kelvin (common practice)
    one = found(1, warmth.WARM, shaft_1__material="stainless 1.4301 annealed")
    assert one.demand == pytest.approx(16.5e-6 * 420 * 20)


# face to face 115 - 40 = 75 mm; a ring's groove of 1.85 mm and 1 mm beside it at each end leave half a key of
# 37.5 - 2.85 = 34.65 mm. Dogs of 10 mm overlapping by 8: neutral gap (75 - 20 - 51)/2 = 2 mm, travel 10 mm, and
# the sleeve's core of 31 mm reaches to 10 + 15.5 = 25.5 mm. Dogs of 2.5 mm overlapping wholly: gap 9.5 mm, travel
# 12 mm, and the core of 46 mm reaches to 35 mm, 7.35 mm past where a key of 14 mm width begins to be round
@pytest.mark.parametrize(("high", "overlap", "kept"), [(10.0, 8.0, 31.0), (2.5, 2.5, 38.65)])
def test_a_sleeve_that_stands_past_its_feather_key_bears_on_less_of_it(high, overlap, kept):
    machine = Machine(
        DEMO.with_values({"clutch.dog_height": f"{high} mm", "clutch.overlap": f"{overlap} mm"})
    )
    (check,) = (
        one
        for one in machine.checks
        if (one.part, one.name) == ("feather key", "pressure while mixing")
    )
    assert next(one.result for one in check.working if one.symbol == "l") == pytest.approx(kept)


@pytest.mark.parametrize(
    ("field", "size"),
    [("hubs.box_length", 72.1), ("hubs.box_length", 55.1), ("paths.direct.face_width", 44.0)],
)
def test_a_key_that_ends_flush_with_a_groove_holds_whatever_the_last_digit(field, size):
    """The keyway of the fuse's flange ends where the groove before it begins, by how both are laid out."""
    one = found(1, tool_ways.WAYS, **{field.replace(".", "__"): f"{size} mm"})
    assert one.verdict == "holds"
    assert one.capacity == 0.0
