"""What the clay touches: map, stain, cells, pits and welds, each case worked out by hand."""

from math import pi

import pytest
from fixed import fixed, text_of

from mixerkit import Design, Machine
from mixerkit.__main__ import main
from mixerkit.load.contact import clay_map, pitting_resistance
from mixerkit.tables import table

DEMO = fixed("touched")
PLAIN = "steel S235JR"


def machine_of(values):
    return Machine(DEMO.with_values(values))


def found(machine, ending):
    (one,) = (check for check in machine.checks if check.id.endswith(ending))
    return one


def where(values):
    return {one.part: one.where for one in clay_map(DEMO.with_values(values))}


# ------------------------------------------------------------------ the map


def test_the_map_of_the_demo():
    assert where({}) == {
        "trough": "wet",
        "paddles": "wet",
        "sleeves": "wet",
        "sleeve pins": "wet",
        "shaft 1": "dry",
        "shaft 2": "dry",
        "bolts": "splashed",
        "lid": "splashed",
        "plates": "dry",
    }


@pytest.mark.parametrize(
    ("values", "part", "place"),
    [
        ({"sleeve.sealed_ends": False}, "shaft 1", "wet"),
        ({"sleeve.kind": "none"}, "shaft 2", "wet"),
        ({"contact.pin_ends": "capped"}, "sleeve pins", "dry"),
        ({"contact.bolted_laps": True}, "bolts", "wet"),
        ({"guard.lid": "none"}, "lid", "dry"),
        ({"bearings.seal": "felt ring"}, "plates", "splashed"),
    ],
)
def test_what_makes_a_part_wet_or_dry(values, part, place):
    assert where(values)[part] == place
    assert where({})[part] != place


def test_areas_by_hand():
    areas = {one.part: one.area for one in clay_map(DEMO)}
    # two tubes of 80 mm over 330 mm; 2 shafts x 2 pins x 2 ends of 12 mm, in cm^2
    assert areas["sleeves"] == pytest.approx(2 * pi * 8 * 33)
    assert areas["sleeve pins"] == pytest.approx(8 * pi * 1.2**2 / 4)
    # 2 shafts x 5 paddles, 2 x (20 + 14) mm round, 50 mm long
    assert areas["paddles"] == pytest.approx(10 * 6.8 * 5)


def test_every_metal_of_the_kit_is_in_the_table_of_contact():
    known = {row.values["name"] for row in table("contact_metals")}
    assert {row.values["name"] for row in table("materials")} <= known


# ------------------------------------------------------------------ stain


def test_plain_steel_paddles_fail_in_white_clay_and_hold_in_dark():
    ending = "paddles.paddles.metal-leaves-no-rust-or-stain-in-the-clay"
    plain = {"paddles.material": "steel S355J2"}
    assert found(machine_of(plain), ending).verdict == "fails"
    dark = found(machine_of({**plain, "contact.clay": "dark"}), ending)
    assert dark.verdict == "holds"
    assert "fires dark, so that iron does not show" in dark.reason
    bronze = {"paddles.material": "bronze CuSn12 continuously cast", "contact.clay": "dark"}
    assert found(machine_of(bronze), ending).verdict == "fails"


@pytest.mark.parametrize(
    ("field", "part"),
    [
        ("trough.material", "trough"),
        ("contact.lid_material", "lid"),
        ("contact.bolt_material", "bolts"),
        ("sleeve.pin_material", "sleeve-pins"),
    ],
)
def test_plain_steel_that_is_wet_or_splashed_fails_in_white_clay(field, part):
    ending = f"contact.{part}.clay-stays-free-of-its-rust"
    assert found(Machine(DEMO), ending).verdict == "holds"
    rusty = found(machine_of({field: PLAIN}), ending)
    assert rusty.verdict == "fails"
    assert all("stainless" in one[field] for one in rusty.fix if field in one)
    assert found(machine_of({field: PLAIN, "contact.clay": "dark"}), ending).verdict == "holds"


def test_where_nothing_is_said_plain_steel_is_taken():
    before, _, rest = text_of("touched").partition("[contact]")
    before = before.replace('material = "stainless 1.4301 annealed"\n', "", 1)
    bare = Design.parse(f"{before}[hubs]{rest.partition('[hubs]')[2]}")
    assert bare.trough.material == PLAIN
    assert found(Machine(bare), "contact.trough.clay-stays-free-of-its-rust").verdict == "fails"


# ------------------------------------------------------------------ cells


def test_plain_pins_in_a_stainless_sleeve_are_eaten():
    one = found(machine_of({"sleeve.pin_material": PLAIN}), "no-small-anode-feeds-a-large-cathode")
    # trough 2 pi x 9.5 cm x 33 cm = 1969.8, paddles 340, sleeves 1658.8, over pins of 9.0478 cm^2:
    # 3968.6/9.0478 = 438.6
    assert one.demand == pytest.approx(438.6, abs=0.1)
    assert one.verdict == "fails"
    assert one.fix[0] == {"contact.pin_ends": "capped"}
    capped = {"sleeve.pin_material": PLAIN, "contact.pin_ends": "capped"}
    assert found(machine_of(capped), "no-small-anode-feeds-a-large-cathode").verdict == "holds"


def test_several_that_are_eaten_are_changed_together():
    both = {"sleeve.pin_material": PLAIN, "trough.material": PLAIN}
    one = found(machine_of(both), "no-small-anode-feeds-a-large-cathode")
    # only paddles and sleeves are nobler now: (340 + 1658.8)/9.0478 = 220.9
    assert one.demand == pytest.approx(220.9, abs=0.1)
    assert dict.fromkeys(both, "stainless 1.4404 annealed") in [dict(change) for change in one.fix]


def test_stainless_on_stainless_makes_no_cell():
    # 1.4301 at -0.08 V and 1.4462 at -0.05 V are 0.03 V apart, less than 0.15 V
    assert found(Machine(DEMO), "no-small-anode-feeds-a-large-cathode").demand == 0


# ------------------------------------------------------------------ pits


def test_pren_of_the_standards_compositions():
    # EN 10088-1: 1.4404 of 17.0 Cr, 2.2 Mo, 0.05 N: 17 + 7.26 + 0.8
    assert float(pitting_resistance(17.0, 2.2, 0.05)) == pytest.approx(25.06)
    # its least, 16.5 Cr and 2.0 Mo: 16.5 + 6.6; 1.4462 of 21 Cr, 2.5 Mo, 0.10 N: 21 + 8.25 + 1.6
    for name, least in (("stainless 1.4404 annealed", 23.1), ("stainless 1.4462 annealed", 30.85)):
        row = table("contact_metals").find(name).values
        number = pitting_resistance(row["chromium"], row["molybdenum"], row["nitrogen"])
        assert float(number) == pytest.approx(least)


@pytest.mark.parametrize(
    ("grade", "laps", "salted", "verdict"),
    [
        ("stainless 1.4301 annealed", False, False, "holds"),
        ("stainless 1.4301 annealed", True, False, "fails"),
        ("stainless 1.4301 annealed", False, True, "fails"),
        ("stainless 1.4404 annealed", True, False, "holds"),
        ("stainless 1.4404 annealed", True, True, "fails"),
        ("stainless 1.4462 annealed", True, True, "holds"),
    ],
)
def test_gaps_and_chloride_ask_for_a_better_grade(grade, laps, salted, verdict):
    values = {
        "trough.material": grade,
        "contact.bolted_laps": laps,
        "contact.salted": salted,
    }
    assert found(machine_of(values), "contact.trough.stainless-does-not-pit").verdict == verdict


# ------------------------------------------------------------------ welds


@pytest.mark.parametrize(
    ("paddles", "sleeve", "filler", "verdict"),
    [
        ("stainless 1.4462 annealed", "stainless 1.4462 annealed", "22 9 3 N L", "holds"),
        ("stainless 1.4462 annealed", "stainless 1.4462 annealed", "19 9 L", "fails"),
        ("stainless 1.4404 annealed", "steel S355J2", "23 12 L", "holds"),
        ("stainless 1.4404 annealed", "steel S355J2", "19 12 3 L", "fails"),
        ("stainless 1.4404 annealed", "stainless 1.4404 annealed", "19 9 L", "fails"),
        ("stainless 1.4301 annealed", "stainless 1.4301 annealed", "19 9 L", "holds"),
        ("steel S355J2", "steel S355J2", "plain steel", "holds"),
    ],
)
def test_each_pair_has_its_filler(paddles, sleeve, filler, verdict):
    values = {
        "paddles.material": paddles,
        "sleeve.material": sleeve,
        "contact.paddle_filler": filler,
    }
    one = found(machine_of(values), "contact.paddle-welds.filler-suits-its-metals")
    assert one.verdict == verdict


@pytest.mark.parametrize(
    "grade", ["stainless 1.4305 annealed", "stainless 1.4021 quenched and tempered"]
)
def test_what_does_not_weld_is_refused(grade):
    one = found(
        machine_of({"trough.material": grade}),
        "contact.trough-welds.its-metals-can-be-welded",
    )
    assert one.verdict == "fails"
    assert {"trough.material": "stainless 1.4404 annealed"} in one.fix


def test_thick_1_4301_rusts_beside_the_bead():
    ending = "contact.trough-welds.stainless-does-not-rust-beside-the-bead"
    for thick, grade, verdict in (
        ("5.5 mm", "stainless 1.4301 annealed", "holds"),
        ("6 mm", "stainless 1.4301 annealed", "fails"),
        ("6 mm", "stainless 1.4307 annealed", "holds"),
    ):
        values = {"trough.wall_thickness": thick, "trough.material": grade}
        assert found(machine_of(values), ending).verdict == verdict


# ------------------------------------------------------------------ from outside


def test_the_command_line_says_what_rusts_and_what_would_do(tmp_path, capsys):
    path = tmp_path / "my_mixer.toml"
    text = text_of("touched")
    changed = text.replace(
        'bolt_material = "stainless 1.4404 annealed"', f'bolt_material = "{PLAIN}"'
    )
    assert changed != text
    path.write_text(changed)
    assert main(["check", str(path)]) == 1
    said = capsys.readouterr().out
    assert "fails  bolts, clay stays free of its rust" in said
    assert 'would do: contact.bolt_material = "stainless 1.4301 annealed"' in said


@pytest.mark.parametrize("name", ["larkfield", "inch_room", "thin_shaft", "too_stiff"])
def test_the_demos_hold_what_the_clay_asks_of_metals(name):
    assert {one.verdict for one in Machine(Design.demo(name)).of_stage("contact")} == {"holds"}
