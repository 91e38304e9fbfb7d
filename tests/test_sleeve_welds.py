"""The fillets that hold the paddles: in a jam, over their life, and the sleeve where they are welded on.

Larkfield's foot is 28 mm x 20 mm at 45 degrees, 42 mm from the shaft's middle, tips at 90 mm, a throat of 5 mm.
"""

import itertools

import numpy as np
import pytest
from fixed import fixed
from forces import forces

from mixerkit import Machine
from mixerkit.__main__ import main
from mixerkit.parts import welds

DEMO = fixed("tired")
JAM = "paddles.paddles.welds-of-the-stems-hold-in-a-jam"
LAST = "paddles.paddles.welds-of-the-stems-last"
TOES = "paddles.paddles.stems-last-at-the-welds-toes"
SLEEVE = "shafts.sleeve.sleeve-lasts-at-the-paddles-welds"


def named(design, key):
    return next(one for one in Machine(design).checks if one.id == key)


def throat(millimetres, design=DEMO):
    return design.with_values({"paddles.weld_throat": f"{millimetres} mm"})


def test_a_throat_by_hand():
    # 5000 N at 80 mm over 35 x 22 mm, leg 8 mm: across 80/5.657 x 5000/(770 + 161.33) = 75.92 MPa,
    # along 5000/(2 x 5.657 x 57) = 7.75 MPa: 76.32 MPa
    found = welds.throat_stress("5 kN", "0 N", "80 mm", "0 mm", "35 mm", "22 mm", "5.657 mm")
    assert found.m_as("MPa") == pytest.approx(76.32, abs=0.01)
    # twisted alone by 5 kN at 10 mm with no height: 3 x 5000 x 10 x 41.34/(5.657 x 57^3) = 5.919 MPa more
    twisted = welds.throat_stress("5 kN", "0 N", "0 mm", "10 mm", "35 mm", "22 mm", "5.657 mm")
    assert twisted.m_as("MPa") == pytest.approx(7.753 + 5.919, abs=0.01)


def test_what_a_throat_may_feel_is_by_the_softer_metal():
    # a plain filler: 0.30 x 427 = 128.1, a stainless one: 0.30 x 500 = 150; 1.4301 has 190: 1.4142 x 0.40 x 190 = 107.5
    assert named(DEMO, JAM).capacity == pytest.approx(128.1)
    duplex = DEMO.with_values({"contact.paddle_filler": "22 9 3 N L"})
    assert named(duplex, JAM).capacity == pytest.approx(150)
    soft = DEMO.with_values({"sleeve.material": "stainless 1.4301 annealed"})
    assert named(soft, JAM).capacity == pytest.approx(107.48, abs=0.01)
    # without a sleeve the shafts bear them: S235JR has 225 and 360: 0.30 x 360 = 108
    bare = DEMO.with_values({"sleeve.kind": "none", "shaft_2.material": "steel S235JR"})
    assert named(bare, JAM).capacity == pytest.approx(108)


def test_in_a_jam_the_throat_feels_what_a_held_tip_makes():
    # a wedge at the edge of a tip 18 mm wide turns the foot over by 9/0.3 mm more than 48 mm over its width:
    # 0.70711 + 0.625 = 1.33211 of the force; 48/5 x (0.70711/693.33 + 1.33211/821.33) x 11.111 = 0.28179 MPa;
    # along 1.50815/480 x 11.111 = 0.034911 MPa; together 0.28394 MPa, which is more than when merely held:
    # flat against a stone with a friction of 0.1: 1/(0.70711 x 1.1) = 1.28565 over the thickness, a tenth over the width;
    # 1 N m at 90 mm is 11.111 N; across 48/5 x (1.28565/693.33 + 0.128565/821.33) x 11.111 = 0.21449 MPa;
    # along (1.29206/480 + 3 x 1.28565 x 14 x 34.409/(5 x 48^3)) x 11.111 = 0.067243 MPa; together 0.22478 MPa
    # the pin lets through 0.8 x 440 MPa on 5.15 mm at 60 mm, 12 % up: 492.74 N m
    jam = 0.8 * 440 * np.pi * 5.15**2 / 4 * 0.060 * 1.12
    check = named(DEMO, JAM)
    assert check.demand == pytest.approx(0.28394 * jam, rel=1e-4)
    # 128.1 MPa allowed: 5 mm are too thin, and 5.5 mm, where 127.2 MPa are felt, enough
    assert check.verdict == "fails"
    assert named(throat(5.5), JAM).verdict == "tight"
    # it yields at 1.44 times what is allowed, as shear yields at 0.577 and 0.40 is allowed, and breaks at twice
    assert check.gives == pytest.approx((1.44 * 128.1 / 0.28394, 2 * 128.1 / 0.28394), rel=1e-4)


def lasting(each):
    """Range in MPa of two million times, by hand, for a stress in MPa of 1 N m on one paddle.

    2000 h x 60 x 24 rpm = 2.88 million turns, 288 000 reversals, from a start one way to a start the other.
    """
    machine = Machine(DEMO)
    cases, buried = machine.load_cases, machine.clay_load.buried
    share = buried.max() / buried.sum(axis=1).max()
    found = []
    for torque in machine.power_flow.paddles:
        turn, start = (share * torque[one].max() for one in (cases.mixing, cases.starting))
        done = 2.88e6 * (each * turn) ** 3 + 288e3 * (2 * each * start) ** 3
        found.append((done / 2e6) ** (1 / 3))
    return max(found)


def test_the_throat_lasts():
    # 18 x 14 mm at 45 degrees meet the clay 22.627 mm wide: 0.79550 over the thickness, 0.61872 over the width;
    # 1 N m at 66 mm is 15.1515 N, 24 mm over the weld: 24/5 x (0.7955/693.33 + 0.61872/821.33) x 15.1515 = 0.13823,
    # along 1.00779/480 x 15.1515 = 0.031812: 0.14184 MPa
    check = named(DEMO, LAST)
    assert check.demand == pytest.approx(lasting(0.14184), rel=2e-4)
    assert (check.capacity, check.safety) == (36, 1.3)


def test_the_stem_lasts_at_the_toe():
    # 6 x 24 x (0.7955/(28 x 400) + 0.61872/(20 x 784)) x 15.1515 = 0.24106 MPa
    check = named(DEMO, TOES)
    assert check.demand == pytest.approx(lasting(0.24106), rel=2e-4)
    assert (check.capacity, check.safety) == (63, 1.3)


def test_many_small_and_few_large_ranges_add_up():
    # (4e6 x 20^3 + 1e5 x 80^3)/2e6 = 41 600: 34.65 MPa
    assert float(welds.lasting_range([20.0, 80.0], [4e6, 1e5], 3)) == pytest.approx(34.65, abs=0.01)


def between_seats(line):
    """Moment in N*m of a sleeve on two seats, summed up from its left: clay at the paddles, and its own weight."""
    start, end = line.trough
    one, two = line.places[[*line.seats]]
    at = line.places[line.paddles]
    force = forces(line)[..., line.paddles, :]
    # 7.8 g/cm^3 between 45.4 and 84 mm, half of it on either seat
    weight = np.pi / 4 * (84.0**2 - 45.4**2) * 7.8e-6 * 9.80665
    moments = []
    for plane in (0, 1):
        f = force[..., plane]
        near = -(f * (two - at)).sum(axis=-1) / (two - one)
        far = -(f * (at - one)).sum(axis=-1) / (two - one)
        own = weight * (end - start) / 2 * (plane == 1)
        each = []
        for x in at:
            held = (near + own) * max(x - one, 0) + (far + own) * max(x - two, 0)
            pushed = (f * np.maximum(x - at, 0)).sum(axis=-1)
            each.append(held + pushed - weight * (plane == 1) * (x - start) ** 2 / 2)
        moments.append(np.stack(each, axis=-1))
    return np.hypot(*moments).max(axis=(1, 2)) / 1e3


def test_the_sleeve_bends_to_and_fro_every_turn():
    machine = Machine(DEMO)
    # 84 mm outside, 45.4 mm inside: I_p = pi (84^4 - 45.4^4)/32 = 4 470 800 mm^4
    polar = np.pi * (84.0**4 - 45.4**4) / 32
    assert polar == pytest.approx(4_470_800, rel=1e-4)
    asked = []
    for line, torque in zip(machine.shaft_beams, machine.power_flow.paddles, strict=True):
        mixing = machine.load_cases.mixing[line.running.states]
        moment = between_seats(line)[mixing]
        # to and fro 2 M 42/(I_p/2) on 2.88 million turns; twist T 42/I_p, and both ways at 288 000 starts
        bent = 1e3 * 2 * moment * 42 / (polar / 2) * 1.44 ** (1 / 3)
        felt = 1e3 * torque[line.running.states][mixing] * 42 / polar
        start = 1e3 * 2 * torque[machine.load_cases.starting].max() * 42 / polar
        sheared = ((2.88e6 * felt**5 + 288e3 * start**5) / 2e6) ** 0.2
        used = (1.3 * bent / 80) ** 3 + (1.3 * sheared / 80) ** 5
        asked.append((80 / 1.3 * used ** (1 / 3)).max())
    check = named(DEMO, SLEEVE)
    # (28 + 20) x 0.70711 = 33.9 mm along the sleeve and two legs of 7.07 mm: 48.1 mm, class 80
    assert check.capacity == 80
    assert check.demand == pytest.approx(max(asked), rel=1e-6)


def test_what_is_longer_on_the_sleeve_is_worth_less():
    # 33.94 mm and two legs: 2 x 1.4142 x 6 = 16.97 more is 50.9 mm: class 71
    assert named(throat(6), SLEEVE).capacity == 71
    assert [welds.attachment_class(one) for one in (50, 50.1, 80.1, 100.1)] == [80, 71, 63, 56]


def test_a_floating_sleeve_is_only_twisted_and_none_is_not_asked():
    floats = DEMO.with_values({"sleeve.kind": "floating", "sleeve.wall": "16 mm"})
    given = {name: value for one in named(floats, SLEEVE).working for name, value, *_ in one.given}
    assert given["M"] == 0
    bare = Machine(DEMO.with_values({"sleeve.kind": "none"}))
    assert not [one for one in bare.checks if one.id == SLEEVE]
    assert [one for one in bare.checks if one.id == JAM]


@pytest.mark.parametrize("key", [JAM, LAST])
def test_a_thicker_throat_never_is_worse(key):
    asked = [named(throat(one), key).demand for one in (1, 2, 3, 5, 8, 12)]
    assert all(thick < thin for thin, thick in itertools.pairwise(asked))
    assert asked[0] / asked[-1] == pytest.approx(12)


@pytest.mark.parametrize("key", [LAST, TOES, SLEEVE])
def test_more_reversals_never_are_better(key):
    asked = [
        named(DEMO.with_values({"batch.reversals": one}), key).demand for one in (0, 5, 50, 1000)
    ]
    assert all(after > before for before, after in itertools.pairwise(asked))


def test_a_thin_fillet_in_the_file_fails_and_so_does_one_that_is_not_said(tmp_path, capsys):
    path, text = tmp_path / "mine.toml", DEMO.to_toml()
    lines = [line for line in text.splitlines() if not line.startswith("weld_throat")]
    for written in (text.replace('weld_throat = "5 mm"', 'weld_throat = "3 mm"'), "\n".join(lines)):
        assert written != text
        path.write_text(written, "utf-8")
        assert main(["check", str(path)]) == 1
        said = " ".join(capsys.readouterr().out.split())
        # 139.91 x 5/3 = 233.2
        assert (
            "fails paddles, welds of the stems hold in a jam: 233 MPa asked, can take 128 MPa"
            in said
        )
        assert 'paddles.weld_throat = "4.5 mm"' in said
