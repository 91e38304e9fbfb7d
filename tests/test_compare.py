"""Many whole machines side by side: hours and prices by hand, the front, the same answer everywhere, the one taken."""

import csv
import json
import math
import random
import re
from collections import Counter
from concurrent.futures import Executor, Future, ProcessPoolExecutor, ThreadPoolExecutor

import numpy as np
import pytest

from mixerkit import Design, Machine
from mixerkit.__main__ import main
from mixerkit.data_files import data_path
from mixerkit.explore import varied
from mixerkit.explore.candidate import Candidate, judged, made
from mixerkit.explore.compare import compare, front, goals_of
from mixerkit.explore.draft.follow import following
from mixerkit.explore.uncertainty import stall_risk
from mixerkit.parts.stack import laid
from mixerkit.shop.hours import OPERATIONS, by_operation, total_hours, work
from mixerkit.shop.parts_list import parts
from mixerkit.shop.prices import price
from mixerkit.shop.prices_file import Prices
from mixerkit.shop.trough_blank import trough_blank
from mixerkit.shop.workshop import read_workshop
from mixerkit.show import compared, compareplots, stamp
from mixerkit.show.drafted import unmet
from mixerkit.show.style import as_svg
from mixerkit.tables import table
from mixerkit.units import InputError

DEMO, INCH = Design.demo(), Design.demo("inch_room")
START = data_path("shops", "larkfield_shop.toml")
INCH_SHOP = read_workshop(data_path("shops", "inch_room_shop.toml"))
DEMOS = ["larkfield", "inch_room", "too_stiff", "thin_shaft"]
FEW = {"shaft_2.diameter": ["40 mm", "48 mm"], "paddles.count": [4, 5]}


def worked(design):
    """List of parts, and the work on each, the trough's last."""
    system = design.show_units
    rows = [laid(design, number) for number in (1, 2)]
    listed = parts(design, None, system, rows)
    return listed, work(design, listed, rows, system)


def of(design, name):
    """The work on one line of the bill."""
    (one,) = (one for one in worked(design)[1] if one.name == name)
    return one


# ---------------------------------------------------------------- hours


def test_hours_of_a_sleeves_pins_by_hand():
    """Four pins of 12 mm, 84 mm long, each 4 mm longer as sawn off."""
    one = of(DEMO, "sleeve pin")
    # cm2 sawn through, cm3 faced off: pi/4 * 1.2^2, and 0.4 times that
    section = math.pi / 4 * 1.2**2
    minutes = 5 + 0.4 * section + 15 + 0.2 * 0.4 * section + 10 + 12 + 10
    assert one.hours() == pytest.approx(4 * minutes / 60)
    assert one.by_operation() == pytest.approx(
        {
            "sawing": 4 * (5 + 0.4 * section) / 60,
            "turning": 4 * (25 + 0.08 * section) / 60,
            "drilling": 4 * 12 / 60,
            "fitting": 4 * 10 / 60,
        }
    )


def test_hours_of_a_gear_by_hand():
    """30 teeth of module 5, 40 mm wide, bored 45 mm, out of bar 162 mm: all in cm."""
    one = of(DEMO, "direct path, gear on shaft 2, fixed").by_operation()
    deep = 2.25 * 0.5 + 0.01 / (2 * math.tan(math.radians(20)))
    between = math.pi / 8 * (16**2 - (16 - 2 * deep) ** 2) * 4
    chips = math.pi / 4 * (16.2**2 * 4.4 - (16**2 - 4.5**2) * 4)
    assert one["gear cutting"] == pytest.approx((60 + 30 + 0.8 * between) / 60)
    assert one["sawing"] == pytest.approx((5 + 0.4 * math.pi / 4 * 16.2**2) / 60)
    assert one["turning"] == pytest.approx((2 * 15 + 0.2 * chips + 2 * 10) / 60, rel=1e-6)
    assert one["keyways"] == pytest.approx(40 / 60)


def test_hours_of_the_paddles_welds_by_hand():
    """Ten paddles, feet of 22 x 20 mm all round, a throat of 6 mm in three runs."""
    one = of(DEMO, "paddle").by_operation()
    assert one["welding"] == pytest.approx(10 * (6 + 3 * 8.4 * 0.5) / 60)


@pytest.mark.parametrize("name", DEMOS)
def test_every_made_part_takes_more_than_being_fitted(name):
    listed, done = worked(Design.demo(name))
    assert [one.name for one in done] == [*(one.name for one in listed), "trough"]
    for part, one in zip(listed, done, strict=False):
        idle = set(one.by_operation()) <= {"fitting"}
        assert idle == (part.material == "bought" or part.name == "key"), part.name


def test_hours_by_operation_add_up_and_have_their_range():
    done = worked(DEMO)[1]
    both = by_operation(done)
    assert tuple(both) == OPERATIONS
    assert all(hours > 0 for hours in both.values())
    assert sum(both.values()) == pytest.approx(total_hours(done))
    assert total_hours(done, "low") < 0.7 * total_hours(done) < total_hours(done, "high")
    for row in table("hours"):
        assert row.values["low"] < row.values["time"] < row.values["high"]
        assert row.source.startswith("common practice")


@pytest.mark.parametrize(
    ("values", "more"),
    [
        ({"paths.direct.tooth_counts": [31, 31]}, ["gear cutting", "turning"]),
        ({"clutch.dogs": 5}, ["dogs"]),
        ({"paddles.weld_throat": "8 mm"}, ["welding"]),
        ({"frame.ribs": 4}, ["welding", "cutting sheet and plate"]),
        ({"trough.length": "400 mm"}, ["cutting sheet and plate"]),
    ],
)
def test_more_to_make_takes_longer(values, more):
    before = by_operation(worked(DEMO)[1])
    after = by_operation(worked(DEMO.with_values(values))[1])
    assert all(after[one] > before[one] for one in more)


@pytest.mark.parametrize("apart", ["150 mm", "189 mm", "200 mm"])
def test_the_troughs_sheet_against_a_drawing_in_many_strips(apart):
    """Below the shafts two rounds of 95 mm, above them 90 and 250 mm straight up."""
    design = DEMO.with_values({"housing.centre_distance": apart})
    one, half = trough_blank(design), design.housing.centre_distance / 2
    x = np.linspace(-half - 95, half + 95, 400_001)
    off = np.abs(np.abs(x) - half)
    # between rounds that do not meet the sheet is flat, at the shafts' height
    deep = np.sqrt(np.clip(95**2 - off**2, 0, None))
    girth = np.hypot(np.diff(x), np.diff(deep)).sum() + 2 * 340
    end = np.trapezoid(deep, x) + 340 * (2 * half + 190)
    assert one.girth == pytest.approx(girth, rel=1e-4)
    assert one.finished == pytest.approx(3 * 7.9e-6 * (330 * girth + 2 * end), rel=1e-3)
    assert one.bought == pytest.approx(
        3 * 7.9e-6 * (330 * girth + 2 * (2 * half + 190) * (95 + 340)), rel=1e-3
    )


# ---------------------------------------------------------------- prices


def test_a_price_by_hand():
    """The trough's sheet, one shaft out of round 48 mm, a bearing and the drive."""
    listed = [
        one
        for one in parts(DEMO, None)
        if one.name in ("shaft 2", "bearing of shaft 2", "reduction box with motor")
    ]
    mine = Prices.from_table(
        {
            "hour": 10,
            "per_kg": {"steel": 2, "stainless": 7},
            "each": {
                "bearing": 20,
                "motor_per_kw": 100,
                "box_per_newton_metre": 1,
                "converter_per_kw": 50,
            },
        }
    )
    found = price(DEMO, listed, 3.0, mine)
    shaft = math.pi / 4 * 48**2 * (686.3 + 4) * 7.85e-6
    assert found.metal == pytest.approx(2 * shaft + 7 * trough_blank(DEMO).bought, rel=1e-4)
    # three bearings, 1.5 kW with its converter, 600 N*m
    assert found.bought == pytest.approx(3 * 20 + 1.5 * (100 + 50) + 600)
    assert found.work == pytest.approx(30)
    assert found.total == pytest.approx(found.metal + found.bought + found.work)
    assert found.words == ""


def test_a_price_that_misses_one_is_not_known_and_says_which():
    listed = parts(INCH, None, "inch")
    whole = INCH_SHOP.prices
    assert price(INCH, listed, 100.0, whole, "inch").total > 500
    for lost in ("per_kg.bronze", "each.seal", "hour"):
        table_name, _, field = lost.rpartition(".")
        content = whole.to_table()
        (content[table_name] if table_name else content).pop(field)
        found = price(INCH, listed, 100.0, Prices.from_table(content), "inch")
        assert (found.total, found.missing) == (None, (f"prices.{lost}",))
        assert found.words == f"price not known: the shop file has no prices.{lost}"
    # what this machine does not need may be missing: no converter, no chain
    content = whole.to_table()
    del content["each"]["converter_per_kw"]
    assert price(INCH, listed, 1.0, Prices.from_table(content), "inch").total is not None


def test_the_starting_shops_example_does_once_its_marks_are_taken_away(tmp_path):
    text = START.read_text("utf-8")
    assert read_workshop().prices.hour is None
    head, example = text.split("# [prices]\n")
    path = tmp_path / "my_shop.toml"
    path.write_text(head + "[prices]\n" + re.sub(r"(?m)^# ?", "", example))
    mine = read_workshop(path)
    assert mine.prices.currency == "EUR"
    assert made(Machine(DEMO), mine.prices)[2].total > 500
    # a dearer hour leaves every sheet as it is
    assert stamp.fingerprint(DEMO, mine) == stamp.fingerprint(DEMO, read_workshop())


@pytest.mark.parametrize(
    ("lines", "words"),
    [
        ("[prices]\nhour = -1", 'prices.hour: "-1" is out of range'),
        (
            '[prices.per_kg]\nsteel = "2 EUR"',
            'prices.per_kg.steel: "2 EUR" is text; a plain number',
        ),
        ("[prices.per_kg]\nstel = 2", 'prices.per_kg.stel: no such field; nearest is "steel"'),
        ("prices = 3", "a table [prices] is wanted"),
        ("[prices]\ncurrency = 3", "prices.currency: 3 does not fit; one line of text"),
    ],
)
def test_bad_prices_are_refused_in_one_sentence(lines, words, tmp_path):
    path = tmp_path / "my_shop.toml"
    path.write_text(
        f"{lines}\n{START.read_text('utf-8')}"
        if "[" not in lines
        else f"{START.read_text('utf-8')}\n{lines}\n"
    )
    with pytest.raises(InputError) as refused:
        read_workshop(path)
    (said,) = refused.value.messages
    assert said.startswith("my_shop.toml, ")
    assert words in said


# ---------------------------------------------------------------- one machine


@pytest.mark.parametrize(("name", "shop"), [("larkfield", None), ("inch_room", INCH_SHOP)])
def test_a_candidate_is_its_machine(name, shop):
    design = Design.demo(name)
    values = {"shaft_2.diameter": "48 mm", "trough.length": "340 mm"}
    one = judged(design, values, shop.prices if shop else None)
    machine = Machine(design.with_values(one.values))
    assert one.verdict == machine.verdict
    assert one.least_spare == min(
        check.spare for check in machine.checks if check.tight > 1 or check.verdict == "fails"
    )
    assert one.failing == tuple(check.id for check in machine.checks if check.verdict == "fails")
    assert one.batch_minutes == machine.batch.minutes + machine.design.batch.loading_time
    listed, done = worked(machine.design)
    assert one.hours == pytest.approx(total_hours(done))
    sheet = trough_blank(machine.design).finished
    assert one.mass == pytest.approx(sum(part.count * part.mass for part in listed) + sheet)
    assert (one.price is None) == (shop is None)
    risk = stall_risk(machine, 1000, seed=1)
    assert one.stall_risk == max(risk.starting, risk.mixing)


def test_a_draft_weighs_what_a_comparison_does():
    """Box and motor are in the list of parts, and are not weighed a second time."""
    listed, _ = worked(DEMO)
    whole = sum(one.count * one.mass for one in listed) + trough_blank(DEMO).finished
    for limit, told in ((whole + 1, []), (whole - 1, [f"its mass is {whole:.0f} kg"])):
        machine = Machine(DEMO.with_values({"want.mass": f"{limit:.6g} kg"}))
        assert [words for words in told if words in " ".join(unmet(machine))] == told
        assert len([line for line in unmet(machine) if "mass" in line]) == len(told)


def test_stiff_clay_stalls():
    one = judged(Design.demo("too_stiff"), {})
    assert one.stall_risk > 0.9
    assert not one.holds


def test_values_that_contradict_each_other_are_refused_and_the_rest_goes_on():
    found = compare(DEMO, {"paddles.root_radius": ["200 mm", "43 mm"]}, count=9, follow=False)
    assert [one.verdict == "refused" for one in found] == [False, True, False]
    assert found[1].failing
    assert math.isnan(found[1].mass)
    assert front(found)


def test_what_depends_on_a_varied_field_is_drafted_anew_and_nothing_else():
    one = judged(DEMO, {"paths.idler.face_width": "46 mm"})
    assert one.values == {
        "paths.idler.face_width": "46 mm",
        "paths.idler.position": "153 mm",
        "housing.plate_spacing": "196 mm",
        "bearings.idler_length": "46 mm",
    }
    # the demo's plates are thicker than they follow, and its bearings further apart: both stay
    follows = {name: value for name, (value, _) in following(DEMO).items()}
    assert (follows["housing.plate_thickness"], DEMO.housing.plate_thickness) == (29, 30)
    alone = judged(DEMO, {"paths.idler.face_width": "46 mm"}, follow=False)
    assert alone.values == {"paths.idler.face_width": "46 mm"}


def test_facts_never_follow():
    """A pin of another size has not been broken yet."""
    one = judged(DEMO, {"fuse.pin_diameter": "5.6 mm"})
    assert one.values == {"fuse.pin_diameter": "5.6 mm"}


def test_what_a_maker_fixed_in_a_draft_does_not_follow():
    wide = {"paths.idler.face_width": "46 mm"}
    names = {name: value for name, (value, _) in following(DEMO).items()}
    assert "housing.plate_spacing" in names
    drafted = {"housing.plate_spacing": "190 mm", "paths.idler.position": "149 mm"}
    one = judged(DEMO.with_values({"drafted": drafted}), wide)
    # the position is another than was drafted, so it is the maker's; the spacing is not, and nothing else was drafted
    assert set(one.values) == {"paths.idler.face_width", "housing.plate_spacing"}


# ---------------------------------------------------------------- draws


def test_draws_are_distinct_begin_with_the_design_and_go_by_the_seed():
    chosen = varied.varied(DEMO, None)
    rows = varied.draws(chosen, 300, 5)
    assert rows[0] == {}
    assert len({json.dumps(row, sort_keys=True) for row in rows}) == len(rows) == 300
    assert max(map(len, rows)) == 3
    assert rows == varied.draws(chosen, 300, 5)
    assert rows[:50] == varied.draws(chosen, 50, 5)
    assert rows != varied.draws(chosen, 300, 6)


def test_few_combinations_are_all_looked_at():
    rows = varied.draws(varied.varied(DEMO, FEW), 100, 1)
    assert len(rows) == 1 + 4
    assert len(varied.draws(varied.varied(DEMO, FEW), 3, 1)) == 3


def test_what_the_maker_has_not_fixed_is_what_was_drafted_and_still_stands():
    drafted = {
        "sleeve.wall": "19.3 mm",
        "clutch.dogs": 5,  # three stand there now
        "motor.rated_power": "1.5 kW",  # a fact
        "housing.plate_spacing": "190 mm",  # follows
    }
    design = DEMO.with_values({"drafted": drafted})
    assert list(varied.varied(design, None).options) == ["sleeve.wall"]
    both = varied.varied(design, None, follow=False).options
    assert list(both) == ["housing.plate_spacing", "sleeve.wall"]


def test_named_fields_take_settable_values_near_their_own():
    found = varied.varied(DEMO, ["shaft_2.diameter", "clutch.dogs", "bearings.kind"]).options
    sizes = [one["shaft_2.diameter"] for one in found["shaft_2.diameter"]]
    assert sizes[0] == "45 mm"
    assert {"42 mm", "48 mm"} < set(sizes)
    assert {"30 mm", "80 mm"}.isdisjoint(sizes)
    assert {one["clutch.dogs"] for one in found["clutch.dogs"]} == {1, 2, 3, 4, 5}
    assert len(found["bearings.kind"]) == 2
    rows = varied.varied(DEMO, ["motor"]).options["motor"]
    assert rows[0] == {}
    assert all("motor.rated_power" in one for one in rows[1:])
    assert varied.varied(DEMO, {"motor.run_at": ("45 Hz", "47 Hz")}).options["motor.run_at"] == (
        {"motor.run_at": "45 Hz"},
        {"motor.run_at": "46 Hz"},
        {"motor.run_at": "47 Hz"},
    )


@pytest.mark.parametrize(
    ("vary", "more", "words"),
    [
        (["shaft_2.diametr"], {}, "shaft_2.diametr: no such field"),
        (
            ["motor.rated_power"],
            {},
            "motor.rated_power: is a fact, and only choices are varied; name one",
        ),
        (["safety.hub"], {}, "safety.hub: is wanted, and only choices"),
        (["show_units"], {}, "show_units: is no size, and only choices"),
        ({"shaft_2.diameter": ("50 mm", "45 mm")}, {}, '"50 mm" is more than "45 mm"; the least'),
        ({"bearings.kind": ("rolling", "plain bush")}, {}, "its values have no order"),
        ({"paths.direct.tooth_counts": ([30, 30], [31, 31])}, {}, "its values have no order"),
        ({"shaft_2.diameter": ("45 mm",)}, {}, "a least and a greatest value are wanted"),
        (
            {"shaft_2.diameter": ("45.1 mm", "45.2 mm")},
            {},
            "nothing that can be bought or set lies",
        ),
        ({"shaft_2.diameter": ["45 kg"]}, {}, 'shaft_2.diameter: "45 kg" is a mass'),
        ({"shaft_2.diameter": "45 mm"}, {}, "a list of values is wanted"),
        ({"shaft_2.diameter": []}, {}, "a list of values is wanted"),
        ({"motor": ["1 kW"]}, {}, "motor: is varied by rows of its table"),
        ({}, {}, "vary: there is nothing to vary"),
        ([], {}, "vary: there is nothing to vary"),
        ("shaft_2.diameter", {}, 'vary: "shaft_2.diameter" is one text; a list of fields'),
        (FEW, {"count": 0}, "count: 0 does not fit; a whole number from 1"),
        (FEW, {"count": 2.5}, "count: 2.5 does not fit"),
        (FEW, {"count": True}, "count: true does not fit"),
        (FEW, {"seed": -1}, "seed: -1 does not fit; a whole number from 0"),
        (FEW, {"free": ["motor.power"]}, "motor.power: no such field"),
    ],
)
def test_what_cannot_be_varied_is_refused_in_one_sentence(vary, more, words):
    with pytest.raises(InputError) as refused:
        compare(DEMO, vary, **more)
    (said,) = refused.value.messages
    assert words in said


def test_a_fact_that_is_named_free_is_varied():
    powers = {"motor.rated_power": ["1.1 kW", "2.2 kW"]}
    found = compare(DEMO, powers, count=5, free=["motor.rated_power"])
    assert [one.values.get("motor.rated_power") for one in found] == [None, "1.1 kW", "2.2 kW"]


# ---------------------------------------------------------------- many machines


def test_the_same_seed_gives_the_same_answer_on_any_executor():
    asked = {"count": 40, "seed": 4, "shop": INCH_SHOP}
    here = compare(DEMO, None, **asked)
    assert len({one.verdict for one in here}) > 1
    with ProcessPoolExecutor(2) as executor:
        assert repr(compare(DEMO, None, executor=executor, **asked)) == repr(here)
    with ThreadPoolExecutor(2) as executor:
        assert repr(compare(DEMO, None, executor=executor, **asked)) == repr(here)


class Late(Executor):
    """Does the work of each future when it is asked for, and says which were cancelled."""

    def __init__(self):
        self.sent = []

    def submit(self, work, /, *given):
        one = Future()
        one.result = lambda timeout=None: work(*given)
        self.sent.append(one)
        return one


@pytest.mark.parametrize("executor", [None, Late()], ids=["here", "elsewhere"])
def test_it_stops_between_chunks_with_the_first_of_the_answer(executor):
    heard = []
    found = compare(
        DEMO,
        None,
        count=70,
        executor=executor,
        progress=lambda done, of: heard.append((done, of)),
        cancelled=lambda: bool(heard),
    )
    assert heard == [(16, 70)]
    assert repr(found) == repr(compare(DEMO, None, count=16))
    if executor:
        assert len(executor.sent) == 5
        assert all(one.cancelled() for one in executor.sent)


def test_progress_is_told_to_the_end():
    heard = []
    compare(DEMO, None, count=20, progress=lambda done, of: heard.append((done, of)))
    assert heard == [(16, 20), (20, 20)]


# ---------------------------------------------------------------- the front


def drawn_candidates(many, seed, priced):
    draw = random.Random(seed)
    return [
        Candidate(
            {"clutch.dogs": k},
            draw.choice(["holds", "tight", "fails", "refused"]),
            draw.choice([200.0, 210.0, 220.0]),
            draw.choice([900.0, 1000.0]) if priced else None,
            draw.choice([100.0, 110.0, 120.0]),
            draw.choice([12.0, 14.0, math.inf]),
            draw.choice([0.0, 0.01]),
            draw.choice([1.0, 1.1, 1.3]),
            (),
        )
        for k in range(many)
    ]


@pytest.mark.parametrize("priced", [True, False])
@pytest.mark.parametrize("seed", range(6))
def test_the_front_against_brute_force(seed, priced):
    found = drawn_candidates(60, seed, priced)
    rows = [one for one in found if one.verdict in ("holds", "tight") and one.batch_minutes < 99]

    def numbers(one):
        known = (one.price,) if priced else ()
        return (one.mass, *known, one.hours, one.batch_minutes, one.stall_risk, -one.least_spare)

    wanted = []
    for one in rows:
        beaten = any(
            all(a <= b for a, b in zip(numbers(other), numbers(one), strict=True))
            and numbers(other) != numbers(one)
            for other in rows
        )
        if not beaten and numbers(one) not in map(numbers, wanted):
            wanted.append(one)
    best = front(found)
    assert Counter(map(id, best)) == Counter(map(id, wanted))
    first = [one.price if priced else one.mass for one in best]
    assert first == sorted(first)
    assert ("price" in goals_of(found)) == priced


def test_a_machine_without_a_price_leaves_prices_out_for_all():
    found = drawn_candidates(30, 1, priced=True)
    found.append(Candidate({}, "holds", 1.0, None, 1.0, 1.0, 0.0, 9.0, ()))
    assert "price" not in goals_of(found)
    assert front(found) == [found[-1]]
    assert front([]) == []


# ---------------------------------------------------------------- the maker's door


@pytest.fixture
def own(tmp_path, monkeypatch):
    """A maker's own design beside a shop file with prices."""
    monkeypatch.chdir(tmp_path)
    (tmp_path / "my_mixer.toml").write_text(
        data_path("designs", "larkfield.toml").read_text("utf-8")
    )
    shop = data_path("shops", "inch_room_shop.toml").read_text("utf-8")
    (tmp_path / "my_shop.toml").write_text(shop)
    return tmp_path / "my_mixer.toml"


WIDER = ["--vary", 'paths.idler.face_width = ["46 mm", "20 mm"]', "--count", "3"]


def said(capsys, *arguments):
    capsys.readouterr()
    status = main([str(one) for one in arguments])
    return status, capsys.readouterr()


def test_what_is_printed_can_be_typed(own, capsys):
    """Paste the second machine's lines into the file: it is what was said of it."""
    status, printed = said(capsys, "compare", own, *WIDER)
    assert status == 0
    assert "3 whole machines compared; 2 of them hold" in printed.out
    row = next(line for line in printed.out.splitlines() if re.match(r"\s*2  ", line))
    lines = printed.out.partition(row)[2].partition("\n\n")[0].split("\n")[1:]
    lines = [line.strip() for line in lines if " = " in line]
    assert 'paths.idler.face_width = "46 mm"' in lines
    assert said(capsys, "set", own, *lines)[0] == 0
    again = judged(Design.read(own), {}, INCH_SHOP.prices)
    for shown in (f"{again.mass:.0f} kg", f"{again.price:.0f} USD", f"{again.least_spare:.2f} x"):
        assert shown in row
    assert said(capsys, "check", own)[0] == 0


def test_the_one_taken_holds_and_keeps_the_comments(own, capsys):
    before = own.read_text("utf-8")
    status, printed = said(capsys, "compare", own, *WIDER, "--take", 2, "--to", "new.toml")
    assert status == 0
    (typed,) = re.findall(r"next: mixerkit (check .+)\n", printed.out)
    assert said(capsys, *typed.split())[0] == 0
    taken = (own.parent / "new.toml").read_text("utf-8")
    assert Design.parse(taken).paths.idler.face_width == 46
    assert 'position = "35 mm"             # middle of the teeth' in taken
    assert own.read_text("utf-8") == before


def test_the_table_has_every_machine(own, capsys):
    assert said(capsys, "compare", own, *WIDER, "--out", "all.csv")[0] == 0
    with (own.parent / "all.csv").open(newline="", encoding="utf-8") as lines:
        rows = list(csv.DictReader(lines))
    found = compare(
        Design.read(own), {"paths.idler.face_width": ["46 mm", "20 mm"]}, count=3, shop=INCH_SHOP
    )
    assert [row["verdict"] for row in rows] == [one.verdict for one in found]
    assert [float(row["mass [kg]"]) for row in rows] == pytest.approx(
        [one.mass for one in found], rel=1e-5
    )
    assert [float(row["price"]) for row in rows] == pytest.approx(
        [one.price for one in found], rel=1e-5
    )
    assert [row["paths.idler.face_width"] for row in rows] == ["", "46 mm", "20 mm"]
    assert [bool(row["place"]) for row in rows] == [one in front(found) for one in found]
    assert rows[2]["fails"].split("; ") == list(found[2].failing)
    assert (own.parent / "all.svg").read_text("utf-8").startswith("<svg")


@pytest.mark.parametrize(
    ("more", "words"),
    [
        (["--take", "1"], "--take and --to go together"),
        (["--to", "new.toml"], "--take and --to go together"),
        (
            ["--take", "1", "--to", "my_mixer.toml"],
            "my_mixer.toml: is there already and is left alone",
        ),
        (["--out", "my_shop.toml"], "my_shop.toml: is there already and is left alone"),
        (["--out", "all.svg"], "is to be a table"),
        ([*WIDER, "--take", "9", "--to", "new.toml"], "a whole number from 1 to 2 is wanted"),
        (["--vary", "shaft_2.diameter = 3"], "a field alone is wanted, or one with a list"),
        (["--vary", "shaft_3.diameter"], "shaft_3.diameter: no such field"),
        (["--count", "0"], "count: 0 does not fit"),
        (["--count", "many"], "invalid int value"),
    ],
)
def test_bad_input_is_refused_in_one_sentence_and_nothing_is_written(more, words, own, capsys):
    before = {path.name: path.read_bytes() for path in own.parent.iterdir()}
    status, printed = said(capsys, "compare", own, *more)
    assert (status, printed.out) == (2, "")
    (line,) = printed.err.splitlines()
    assert words in line
    assert {path.name: path.read_bytes() for path in own.parent.iterdir()} == before


def test_where_none_holds_it_says_what_fails_most(own, capsys):
    stiff = data_path("designs", "too_stiff.toml")
    status, printed = said(capsys, "compare", stiff, "--count", 4)
    assert status == 1
    assert "0 of them hold" in printed.out
    assert "What fails most often: " in printed.out
    status, printed = said(
        capsys, "compare", stiff, "--count", 4, "--take", 1, "--to", own.parent / "q.toml"
    )
    assert status == 2
    assert "none of the machines holds" in printed.err


def test_inch_makers_read_pounds_and_a_missing_price_is_named(own, capsys):
    own.write_text(data_path("designs", "inch_room.toml").read_text("utf-8"))
    shop = own.parent / "my_shop.toml"
    shop.write_text(shop.read_text("utf-8").replace("bronze = 20\n", ""))
    status, printed = said(capsys, "compare", own, "--vary", "sleeve.wall", "--count", 4)
    assert status == 0
    assert re.search(r"\d lb  not known", printed.out)
    assert "price not known: the shop file has no prices.per_kg.bronze.\n" in printed.out
    shop.unlink()
    printed = said(capsys, "compare", own, "--vary", "sleeve.wall", "--count", 1)[1]
    assert "there is no shop file, whose table [prices]" in printed.out


def test_the_picture_numbers_the_front_and_rings_the_design():
    found = compare(DEMO, {"paths.idler.face_width": ["46 mm", "20 mm"]}, count=3, shop=INCH_SHOP)
    best = front(found)
    drawn = compareplots.candidates(found, best, "inch", "USD")
    left, right = drawn.axes
    assert left.get_xlabel() == "mass (lb)"
    assert left.get_ylabel() == "price (USD)"
    for axes in (left, right):
        said_there = [one.get_text() for one in axes.texts]
        assert sorted(said_there) == ["1", "2", "as it is"]
    assert as_svg(drawn) == as_svg(compareplots.candidates(found, best, "inch", "USD"))
    bare = compare(DEMO, FEW, count=2)
    drawn = compareplots.candidates(bare, front(bare))
    assert drawn.axes[0].get_ylabel() == "batch, from loading to loading (min)"


def test_what_would_not_hold_is_not_written(tmp_path):
    lies = Candidate({"shaft_2.diameter": "20 mm"}, "holds", 1.0, None, 1.0, 1.0, 0.0, 2.0, ())
    with pytest.raises(InputError, match="as it would be written fails; none was written"):
        compared.take(DEMO, lies, tmp_path / "new.toml")
    assert list(tmp_path.iterdir()) == []
