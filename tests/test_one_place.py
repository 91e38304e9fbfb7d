"""A size that several papers name is worked out once: pin and bush, keys, bars; each followed through the maker's door."""

import re

import pytest

from mixerkit import Design, Machine
from mixerkit.__main__ import main
from mixerkit.data_files import data_path
from mixerkit.explore.asmade import review
from mixerkit.parts.zones import CLUTCH, seat
from mixerkit.shop import assembly, parts_list
from mixerkit.shop.measurements import read_measurements
from mixerkit.shop.wanted_sizes import wanted
from mixerkit.shop.workshop import read_workshop
from mixerkit.show import sheets

DEMO, INCH, SHOP = Design.demo(), Design.demo("inch_room"), read_workshop()


def hold_points(capsys, tmp_path, made, *changes):
    """What the command says of sizes as made, and what it returns; changes are lines of the design file."""
    design, sizes = tmp_path / "mixer.toml", tmp_path / "made.toml"
    design.write_text(data_path("designs", "larkfield.toml").read_text("utf-8"), "utf-8")
    if changes:
        assert main(["set", str(design), *changes]) in (0, 1)
    sizes.write_text(made, "utf-8")
    capsys.readouterr()
    code = main(["hold-points", str(design), str(sizes)])
    return capsys.readouterr().out, code


def step(out, words):
    """The state of one step of the work."""
    return (
        next(line for line in out.splitlines() if line.endswith(words)).removesuffix(words).strip()
    )


def sheet(design, title):
    return next(one for one in sheets.sheets(design, SHOP) if one.title.startswith(title))


def listed(design, name, system="metric"):
    return [one for one in parts_list.parts(design, SHOP, system) if one.name == name]


def on_sheet(design, title, what):
    """The cells of the row of a sheet that begins so."""
    return next(row for _, _, rows in sheet(design, title).tables for row in rows if row[0] == what)


# ISO 286-2 at 40 mm: H8 0 to +39, f7 -50 to -25, h6 -16 to 0 micrometres
def test_the_idlers_pin_runs_in_its_bush_on_every_paper():
    one = wanted(DEMO, SHOP)["idler.pin_diameter"]
    assert (one.least, one.most) == pytest.approx((39.950, 39.975))
    assert on_sheet(DEMO, "Bushes", "idler: ream or bore to")[1] == "40.039 / 40.000 mm"
    turns = on_sheet(DEMO, "Bushes", "idler's pin: where the idler turns")
    assert turns[1:3] == ("39.975 / 39.950 mm", "f7, turned from round 42 mm")
    # both ends go through the smallest bush there may be
    assert on_sheet(DEMO, "Bushes", "idler's pin: ends in the plates")[1] == "40.000 / 39.984 mm"
    bush = next(row for row in assembly.assembly_order(DEMO) if "ream the bushes" in row[0])
    assert "idler 0.025 mm to 0.089 mm" in bush[2]


def test_the_idlers_pin_is_turned_from_bar_that_is_thicker_than_it():
    assert [one.cut[0] for one in listed(DEMO, "idler's pin")] == [
        "steel 42CrMo4 quenched and tempered, round 42 mm"
    ]
    bars = [bar.of for bar in parts_list.bars(DEMO, SHOP) if "idler's pin" in dict(bar.cuts)]
    assert bars == ["steel 42CrMo4 quenched and tempered, round 42 mm"]
    # 1 3/8 in comes out of 1 1/2 in
    assert listed(INCH, "idler's pin", "inch")[0].size.startswith("round 1.5 in x ")


@pytest.mark.parametrize(
    ("pin", "state"),
    # 40.020 is 15 um more than its bush; 39.990 leaves 15 um where 25 are wanted
    [("40.020 mm", "stop"), ("39.990 mm", "stop"), ("39.960 mm", "measure first")],
)
def test_a_pin_without_running_clearance_stops(pin, state, capsys, tmp_path):
    made = f'[bushes]\nidler_bore = "40.005 mm"\n[idler]\npin_diameter = "{pin}"\n'
    out, _ = hold_points(capsys, tmp_path, made)
    assert step(out, "put gears on their shafts") == state
    assert ("metal can still come off" in out) == (state == "stop")


def keys(design, system="metric"):
    """Count and size of every line of keys in the bill."""
    return [(one.count, one.size) for one in listed(design, "key", system)]


def test_the_bills_keys_are_those_of_the_keyways():
    # DIN 6885-1: 14 x 9 from 44 to 50 mm, 12 x 8 from 38 to 44 mm; 40 mm in gears 40 mm long
    assert keys(DEMO)[0] == (2, "14 mm x 9 mm, 40 mm long")
    thin = DEMO.with_values({"shaft_2.diameter": "40 mm"})
    assert keys(thin)[0] == (2, "12 mm x 8 mm, 40 mm long")
    # two in gears, the feather key, that of the flange on shaft 1, and the box's own in the stub
    assert sum(count for count, _ in keys(thin)) == 5
    wide = on_sheet(thin, "Direct path, gear on shaft 2", "keyway")
    assert wide[1].startswith("12 mm wide")


def test_a_shaft_stepped_at_the_box_has_its_own_key_there_in_the_bill():
    # thick between 0 and beyond the gears alone: 40 mm in the box and its flange
    stepped = DEMO.with_values(
        {
            "shaft_1.diameter": "40 mm",
            "shaft_1.step_at": ["-40 mm"],
            "shaft_1.step_diameters": ["45 mm"],
        }
    )
    assert seat(stepped, 1, CLUTCH) == 45.0
    found = keys(stepped)
    assert [count for count, size in found if size.startswith("12 mm x 8 mm")] == [1]
    assert sum(count for count, _ in found) == 5


def test_without_keyed_gears_no_keys_are_listed_for_them():
    pinned = DEMO.with_values({"hubs.gear": "taper pin"})
    assert sum(count for count, _ in keys(pinned)) == 3


def test_a_sheet_for_inches_says_squareness_in_inches():
    # 0.02 mm is 0.0008 in
    assert on_sheet(DEMO, "Direct path, gear on shaft 2", "width")[2].endswith("within 0.02 mm")
    assert on_sheet(INCH, "Direct path, gear on shaft 2", "width")[2].endswith("within 0.0008 in")


@pytest.mark.parametrize("number", [1, 2])
def test_no_more_is_cut_on_a_shaft_that_is_spoiled(number, capsys, tmp_path):
    """45 k6 is 45.002 at least: 44.98 mm is no seat for its bearing, though the gears' seats are good."""
    zone = {1: "44.96 mm", 2: "44.99 mm"}[number]
    made = f'[shafts.{number}]\nbearing_seat = "{{}}"\ngear_seat = "{zone}"\n'
    mill = f"mill the keyways of shaft {number}"
    out, _ = hold_points(capsys, tmp_path, made.format("44.98 mm"))
    assert step(out, mill) == "stop"
    assert step(out, f"mill the keyways of shaft {3 - number}") == "measure first"
    # metal comes off again, and keyways are milled before the last cut
    out, _ = hold_points(capsys, tmp_path, made.format("45.3 mm"))
    assert step(out, mill) == "cut"


def test_no_bush_is_pressed_into_a_gear_that_is_spoiled(capsys, tmp_path):
    made = '[gears.direct_1]\nbore = "55.01 mm"\nbase_tangent = "{}"\n'
    press = "press the bushes into gears and idler"
    # 53.641 mm is the least
    assert step(hold_points(capsys, tmp_path, made.format("53.60 mm"))[0], press) == "stop"
    assert step(hold_points(capsys, tmp_path, made.format("53.66 mm"))[0], press) == "measure first"


def test_a_new_shaft_is_of_the_bar_on_bill_and_cut_list(capsys, tmp_path):
    """42 mm is the bar next above 40 mm with a seat that a bearing is pressed on."""
    thin = 'shaft_2.diameter = "40 mm"'
    out, _ = hold_points(capsys, tmp_path, '[shafts.2]\nbearing_seat = "39.9 mm"\n', thin)
    assert "a new shaft: from round 42 mm" in out
    design = DEMO.with_values({"shaft_2.diameter": "40 mm"})
    assert listed(design, "shaft 2")[0].size.startswith("round 42 mm x ")


@pytest.mark.parametrize(
    ("bore", "words"),
    [("50 mm", "turn the adapting bush and shaft 1's end"), ("45 mm", "turn shaft 1's end")],
)
def test_an_adapting_bush_is_turned_where_there_is_one(bore, words, capsys, tmp_path):
    """The shaft's end is 45 mm: in a bore of 45 mm it goes without a bush."""
    out, _ = hold_points(capsys, tmp_path, "", f'reducer.output_bore = "{bore}"')
    assert step(out, f"{words} for the box") == "measure first"
    assert ("adapting bush" in out) == (bore == "50 mm")


def played(out):
    """Every backlash in mm that a way out promises."""
    return [
        float(one) for one in re.findall(r"backlash (?:of the \S+ pair )?becomes ([\d.]+) mm", out)
    ]


def teeth(**sizes):
    return "".join(f'[gears.{name}]\nbase_tangent = "{size} mm"\n' for name, size in sizes.items())


# by hand: 30 teeth of module 5 thinned 0.1 mm measure 53.669 mm over 4; the base tangent gives cos 20 deg of what is
# taken off the tooth, and on 150 mm a pair plays by what is taken off both. At most: 0.15 * 5 + 0.2 = 0.95 mm
@pytest.mark.parametrize(
    ("sizes", "play"),
    [
        ({"direct_1": 53.60}, 0.2 + 0.069 / 0.9397),
        # the mate came out thinner too, though within its limits
        ({"direct_1": 53.60, "direct_2": 53.645}, 0.2 + (0.069 + 0.024) / 0.9397),
        ({"direct_1": 53.10}, 0.2 + 0.569 / 0.9397),
        # 0.2 + 0.769 / 0.9397 is more than 0.95 mm
        ({"direct_1": 52.90}, None),
    ],
)
def test_teeth_a_little_thin_are_left_where_their_backlash_is_borne(sizes, play, capsys, tmp_path):
    out, _ = hold_points(capsys, tmp_path, teeth(**sizes))
    assert played(out) == ([] if play is None else [pytest.approx(play, abs=0.002)])
    assert ("  leave it: backlash becomes" in out) == (play is not None)
    assert "  a new blank: " in out


def test_holes_off_are_lived_with_by_the_teeth_as_they_were_cut(capsys, tmp_path):
    """By hand: 0.08 mm further apart opens 2 * 0.08 * tan 20 deg, the teeth 0.2 mm and 0.069 / cos 20 deg more."""
    apart = '[plates.reducer]\ncentre_distance = "150.08 mm"\n[plates.trough]\ncentre_distance = "150.08 mm"\n'
    cut = teeth(direct_1=53.66, direct_2=53.60)
    found = played(hold_points(capsys, tmp_path, apart + cut)[0])
    # once for the holes, once for the teeth
    assert found == [pytest.approx(0.058 + 0.2 + (0.009 + 0.069) / 0.9397, abs=0.003)] * len(found)
    assert len(found) >= 2


def test_a_gear_sheet_says_what_a_blank_under_size_takes_off_the_feed():
    """By hand: 5 * (30 + 2) = 160 mm over the tips, and h10 leaves it up to 0.16 mm less."""
    notes = sheet(DEMO, "Direct path, gear on shaft 1").notes
    assert "half of what the blank is under 160 mm off feed and chordal height" in notes[-1]
    assert on_sheet(DEMO, "Direct path, gear on shaft 1", "outside")[1] == "160.000 / 159.840 mm"


@pytest.mark.parametrize(
    ("thick", "words"),
    # (47 - 45) / 2 = 1 mm and (50 - 45) / 2 = 2.5 mm beside a fillet of 1.5 mm
    [("47 mm", " but no more than it is high, 1 mm at the lowest"), ("50 mm", "")],
)
def test_no_fillet_is_larger_than_its_shoulder_is_high(thick, words):
    steps = {"step_at": ["100 mm", "180 mm"], "step_diameters": [thick, "45 mm"]}
    stepped = DEMO.with_values({f"shaft_2.{one}": value for one, value in steps.items()})
    told = " ".join(sheet(stepped, "Shaft 2").notes)
    assert f"Fillets 1.5 mm at every shoulder{words}, or an undercut" in told


@pytest.mark.parametrize("design", [DEMO, INCH], ids=["larkfield", "inch_room"])
def test_a_shaft_is_loaded_in_one_step_that_gives_the_order(design):
    """Two steps for one shaft, of which the second puts a bearing on before the first one's gears, cannot be done."""
    order = [step for step, _, _ in assembly.assembly_order(design)]
    for number in (1, 2):
        assert len([one for one in order if one.startswith(f"shaft {number}")]) == 1


def cut_to(design, **thinnings):
    """Sizes as made of gears whose teeth are thinned so much, in mm: the base tangent gives cos 20 deg of it."""
    nominal, drawn = wanted(design, SHOP), design.paths.direct.thinning
    return read_measurements(
        {
            "gears": {
                name: {
                    "base_tangent": f"{nominal[f'gears.{name}.base_tangent'].nominal - 0.9397 * (thin - drawn):.4f} mm"
                }
                for name, thin in thinnings.items()
            }
        }
    )


def test_a_tight_mesh_is_not_hidden_by_a_loose_one_of_its_path():
    """0.4 and 0 mm play by 0.4 mm, 0 and 0 mm not at all: 0.02 modules of 5 mm are wanted."""
    found = review(DEMO, cut_to(DEMO, idler_1=0.4, idler_2=0.0, idler_3=0.0), SHOP)
    assert found.design.paths.idler.thinning == pytest.approx(0.2, abs=0.001)
    tight = next(one for one in found.worse if one.name == "backlash is enough")
    assert (tight.demand, tight.capacity) == pytest.approx((0.1, 0.0), abs=0.001)


def test_the_thinnest_gear_of_a_pair_is_the_one_that_breaks():
    """Its mate has teeth as drawn: with both taken for the mean of 0.3 mm the pair would hold, as it does here alone."""
    narrow = DEMO.with_values({"paths.direct.face_width": "23.5 mm", "safety.tooth_bending": 4.1})
    broken = "teeth do not break while mixing"
    mean = Machine(narrow.with_values({"paths.direct.thinning": "0.3 mm"}))
    one = next(
        one for one in mean.of_stage("gears") if (one.part, one.name) == ("direct path", broken)
    )
    assert one.verdict != "fails"
    found = review(narrow, cut_to(narrow, direct_1=0.5, direct_2=0.1), SHOP)
    assert broken in [one.name for one in found.worse if one.part == "direct path"]
