"""What a jam does where it is worst: caught at the sleeve, a thin blade, a stiffer shaft, no fuse."""

from math import cos, pi, radians, sin

import numpy as np
import pytest

from mixerkit import Design, assess
from mixerkit.drive import jam
from mixerkit.load import paddles
from mixerkit.parts import blades

DEMO = Design.demo("larkfield")
BLADE = "paddles.paddles.a-paddle-stopped-at-its-tip-does-not-bend"
LADDER = "jam.fuse.nothing-dear-gives-way-in-a-jam"
# what the demo's fuse lets through at most in N*m: 0.8 x 360 MPa over 5.8 mm at 60 mm, 12 % up
FUSE = 0.8 * 360 * pi / 4 * 5.8**2 * 0.060 * 1.12


def named(design, key):
    return next(one for one in assess(design).checks if one.id == key)


def test_a_paddle_caught_at_the_sleeve_pushes_hardest():
    """By hand: 511.3 N m at the sleeve's 38 mm push with 13.46 kN, at the tip's 90 mm with 5.68 kN only;
    the bearings together bear no less than what pushes."""
    assert pytest.approx(511.3, abs=0.1) == FUSE
    case = assess(DEMO).case
    state = case.names.index("neutral, forward, jam on shaft 1")
    stop = case.lines[0].stopped
    borne = stop.reaction[list(stop.states).index(state)].sum(axis=1)
    assert np.all(borne >= FUSE / 0.038)


def test_a_thin_blade_bends_though_its_stem_is_stout():
    """By hand, 4 mm instead of 10: the force at the tip is 511.3 N m / 90 mm = 5681 N, and the bare blade of
    26 x 4 mm begins 64 mm from the shaft's middle, so that 5681 N x 26 mm bend it about both its axes."""
    moment = FUSE / 90 * (90 - 64) * 1e3
    lean = radians(45)
    stress = 6 * moment * (sin(lean) / (26 * 4**2) + cos(lean) / (4 * 26**2))
    thin = named(DEMO.with_values({"paddles.thickness": "4 mm"}), BLADE)
    assert thin.demand == pytest.approx(stress, rel=1e-6)
    assert thin.verdict == "fails"
    assert "26 mm x 4 mm" in thin.reason
    # and it is a rung: the ladder's first to give
    ladder = named(DEMO.with_values({"paddles.thickness": "4 mm"}), LADDER)
    assert ladder.verdict == "fails"
    assert ladder.capacity == pytest.approx(FUSE * 450 / stress, rel=1e-6)


def test_without_a_stem_the_blade_stands_on_the_sleeve():
    bare = named(DEMO.with_values({"paddles.stem_height": "0 mm"}), BLADE)
    moment = FUSE / 90 * (90 - 38) * 1e3
    lean = radians(45)
    stress = 6 * moment * (sin(lean) / (26 * 10**2) + cos(lean) / (10 * 26**2))
    assert bare.demand == pytest.approx(stress, rel=1e-6)


@pytest.mark.parametrize(("height", "holds"), [("51 mm", True), ("53 mm", False)])
def test_a_stem_ends_before_the_tip(height, holds):
    one = named(
        DEMO.with_values({"paddles.stem_height": height}),
        "paddles.paddles.stems-end-before-the-tips",
    )
    assert (one.verdict != "fails") is holds


def test_a_stem_asks_torque_of_its_own():
    """The taper summed in 20,000 slices, against the closed form."""
    blade = DEMO.plain.paddles
    radii = np.linspace(blade.root_radius, blade.root_radius + blade.stem_height, 20001)
    middle = (radii[1:] + radii[:-1]) / 2
    wide = blades.extent_at(blade, middle) - blades.extent_at(blade, blade.tip_radius)
    summed = float(np.sum(10.5 * 30e3 * wide * middle) * (radii[1] - radii[0])) * 1e-9
    wider = float(
        blades.extent_at(blade, blade.root_radius) - blades.extent_at(blade, blade.tip_radius)
    )
    closed = paddles.stem_torque.plain(30, wider, blade.root_radius, blade.stem_height)
    assert closed == pytest.approx(summed, rel=1e-6)
    stout = DEMO.with_values({"paddles.stem_width": "40 mm"})
    assert assess(stout).case.asks.peak > assess(DEMO).case.asks.peak


def test_tips_pass_the_stems_of_the_other_shaft():
    """Tips reach to 60 mm from the other shaft's middle, where a stem of 45 mm height is still wider than the
    blade: 26 + 6 x 23/45 by 10 + 10 x 23/45 mm at 45 deg are 31.2 mm along, the blade 25.5, and 30 mm between
    rows leave 1.7 mm less whatever the corner of the tip reaches further in."""
    clear = "paddles.paddles.paddles-clear-each-other-both-modes-wherever-the-clutch-takes-hold"
    tall = named(DEMO.with_values({"paddles.stem_height": "45 mm"}), clear)
    assert tall.verdict == "fails"
    assert tall.capacity <= 1.7


def test_a_step_makes_the_shaft_stiffer_for_a_jam():
    """By hand: a bar of which one part is thicker gives length over polar moment, part by part."""
    plain = DEMO.plain
    slim = jam.train(plain, "neutral", 1).springs["shaft 1"]
    stepped = DEMO.with_values(
        {"shaft_1.step_at": ["50 mm"], "shaft_1.step_diameters": ["60 mm"]}
    ).plain
    # from the box, 90 mm outside of the plate, to the first paddle 190 + (400 - 330) / 2 + 26 / 2 mm inside
    polar = [pi / 32 * size**4 for size in (45, 60)]
    assert slim == pytest.approx(80.8 * polar[0] / (90 + 238), rel=1e-9)
    give = (90 + 50) / polar[0] + (238 - 50) / polar[1]
    assert jam.train(stepped, "neutral", 1).springs["shaft 1"] == pytest.approx(
        80.8 / give, rel=1e-9
    )


def test_a_rung_is_the_least_torque_of_all_states():
    """Without a fuse each position of the clutch winds up to another torque; what governs by spare need not be
    what yields at the least torque."""
    bare = assess(DEMO.with_values({"fuse.kind": "none"}))
    one = next(check for check in bare.checks if check.id == BLADE)
    flow, case = bare.case.flow, bare.case
    torque = np.maximum(*flow.paddles)
    counts = case.jammed & (torque > 0) & (flow.slow > 0)
    each = (
        flow.slow[counts] * one.capacity / (one.demand * torque[counts] / torque[case.jammed].max())
    )
    assert one.gives[0] == pytest.approx(float(each.min()), rel=1e-9)


def test_a_floating_sleeve_is_judged_round_its_own_shaft():
    """A thin shaft 2 bends 3 mm in a jam, and has 10.7 mm of room; shaft 1 has 0.7 mm and bends 0.3 mm."""
    thin = Design.demo("thin_shaft")
    one = named(thin, "shafts.sleeve.a-floating-sleeve-does-not-rub")
    assert one.capacity == pytest.approx(38 - 14.8 - 45 / 2)
    assert one.demand < 0.5
    tight = thin.with_values({"sleeve.wall": "15.3 mm"})
    assert named(tight, one.id).verdict == "fails"
