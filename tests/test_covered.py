"""Each uncertain value is covered once: by an extreme bound, or by what [safety] asks for."""

import pytest

from mixerkit import Design, Machine
from mixerkit.spec import Safety
from mixerkit.tables import table

DEMO = Design.demo()
ROWS = [row.values for row in table("covered")]
FACTORS = [row for row in ROWS if row["covered_by"] == "factor"]
BOUNDS = [row for row in ROWS if row["covered_by"] == "bound"]
MORE = {"safety.paddle_clearance": "4 mm", "safety.tip_clearance": "3 mm"}


def spare(design, key):
    (found,) = (one.spare for one in Machine(design).checks if one.id == key)
    return found


def test_every_field_of_safety_covers_something():
    asked = {f"safety.{name}" for name in Safety.__dataclass_fields__ if not name.startswith("_")}
    assert sorted(row["field"] for row in FACTORS) == sorted(asked)


def test_no_value_is_covered_twice():
    assert len({row["name"] for row in ROWS}) == len(ROWS) == len(FACTORS) + len(BOUNDS)


@pytest.mark.parametrize("row", FACTORS, ids=lambda row: row["field"])
def test_a_larger_factor_is_felt_where_the_table_says(row):
    _, name = row["field"].split(".")
    # a service factor of nought is taken from hours and shock, 1.25 here
    larger = MORE.get(row["field"], 1.5 * (getattr(DEMO.safety, name) or 1.25))
    harder = DEMO.with_values({row["field"]: larger})
    assert spare(harder, row["check"]) < spare(DEMO, row["check"])


@pytest.mark.parametrize("row", BOUNDS, ids=lambda row: row["name"])
def test_a_bound_is_a_field_of_the_design_and_no_factor(row):
    assert not row["field"].startswith("safety.")
    DEMO.field(row["field"])
    assert any(one.id == row["check"] for one in Machine(DEMO).checks)


@pytest.mark.parametrize(
    ("values", "key"),
    [
        ({"fuse.pin_condition": "unknown"}, "jam.fuse.nothing-dear-gives-way-in-a-jam"),
        ({"fuse.pin_condition": "unknown"}, "jam.fuse.pins-do-not-bend-at-starts"),
        ({"fuse.scatter": 0.1}, "jam.fuse.nothing-dear-gives-way-in-a-jam"),
        ({"batch.heaped_share": 1.0}, "shafts.shaft-2.diameter-for-fatigue-while-mixing"),
        ({"paddles.adhesion": 1.0}, "motor.motor.torque-while-mixing"),
    ],
)
def test_a_wider_bound_is_felt(values, key):
    assert spare(DEMO.with_values(values), key) < spare(DEMO, key)


@pytest.mark.parametrize(
    "worse", [{"motor.inertia": "0 kg*m^2"}, {"reducer.wind_up_from": "common practice"}]
)
def test_what_nobody_stated_is_felt_where_no_fuse_cuts_the_jam_short(worse):
    # 0.0035 x 1.5^1.2 x 4/3 is 0.0076 kg*m^2 against the 0.0035 stated
    bare = DEMO.with_values({"fuse.kind": "none"})
    key = "jam.fuse.nothing-dear-gives-way-in-a-jam"
    assert spare(bare.with_values(worse), key) < spare(bare, key)
