"""What teeth bear by their metal, against values of ISO 6336 and hand calculations."""

import numpy as np
import pytest

from mixerkit import Design, Machine
from mixerkit.explore import pathrules
from mixerkit.parts.tooth_lives import carried, lasting_root, life_factors
from mixerkit.tables import table

DEMO = Design.demo()
IRON, BRONZE = "cast iron EN-GJL-250", "bronze CuSn12 continuously cast"
JAM, LIFE, FLANK = (
    "teeth do not break in a jam",
    "teeth do not break while mixing",
    "teeth surfaces last",
)
THROUGH, CASE, GREY, CARBURISED = (
    "structural and through-hardened steel",
    "case-hardened steel",
    "grey cast iron and nitrided steel",
    "nitrocarburised steel",
)


@pytest.mark.parametrize(
    ("metal", "loads", "bending"),
    [
        # ISO 6336-3, table of Y_NT, as restated in a public program: few loads, and three million
        (THROUGH, 1e3, 2.5),
        (THROUGH, 1e4, 2.5),
        (CASE, 1e3, 2.5),
        (GREY, 1e3, 1.6),
        (CARBURISED, 1e3, 1.1),
        *((metal, 3e6, 1.0) for metal in (THROUGH, CASE, GREY, CARBURISED)),
        # the same between, read off its curves
        (THROUGH, 1e5, 1.79),
        (THROUGH, 1e6, 1.20),
        (CASE, 1e4, 1.97),
        (GREY, 1e4, 1.40),
        (GREY, 1e6, 1.07),
        (CARBURISED, 1e4, 1.07),
        (GREY, 1e10, 0.85),
    ],
)
def test_bending_life(metal, loads, bending):
    found = life_factors(loads, metal)[0]
    assert found == pytest.approx(bending, rel=0.04)
    assert found <= bending + 0.01


@pytest.mark.parametrize(
    ("metal", "loads", "contact"),
    [
        # ISO 6336-2, table of Z_NT, as restated in a public program
        (THROUGH, 1e5, 1.6),
        (THROUGH, 5e7, 1.0),
        (GREY, 1e5, 1.3),
        (GREY, 1e6, 1.07),
        (GREY, 2e6, 1.0),
        (CARBURISED, 1e5, 1.1),
        (CARBURISED, 1e6, 1.02),
        (THROUGH, 1e10, 0.85),
        (GREY, 1e10, 0.85),
        (GREY, 1e8, 0.93),
    ],
)
def test_contact_life(metal, loads, contact):
    assert life_factors(loads, metal)[1] == pytest.approx(contact, abs=0.01)


@pytest.mark.parametrize("row", list(table("gear_lives")), ids=lambda row: row.values["name"])
def test_more_loads_never_bear_more(row):
    for factor in life_factors(np.logspace(0, 11, 400), row.values["name"]):
        assert np.all(np.diff(factor) <= 0)


def teeth(name, part="direct path", **values):
    machine = Machine(
        DEMO.with_values({key.replace("__", "."): one for key, one in values.items()})
    )
    return next(one for one in machine.checks if (one.part, one.name) == (part, name))


def test_iron_teeth_bear_a_jam_at_1_6_and_steel_no_more_than_it_carries():
    """Iron: limit x 2 x 1.6, below the 250 MPa that break it. 42CrMo4: 650 MPa of yield times Y_S, and not x 2.5."""
    limit = table("gear_materials").find(IRON).values["bending_limit"]
    iron = teeth(JAM, paths__direct__material=IRON)
    assert iron.capacity == pytest.approx(limit * 2 * 1.6)
    assert "1.6" in iron.reason
    assert iron.gives[0] == iron.gives[1]  # iron breaks where it gives way
    steel = teeth(JAM, paths__direct__material="steel C45 quenched and tempered")
    bent = next(one for one in steel.working if "Y_F" in one.formula)
    notch = next(number for symbol, number, *_ in bent.given if symbol == "Y_S")
    assert 1.5 < notch < 2.2
    assert steel.capacity == pytest.approx(370 * notch)
    hard = teeth(JAM, paths__direct__material="steel 42CrMo4 quenched and tempered")
    assert hard.capacity == pytest.approx(650 * notch)
    assert hard.capacity < 300 * 2 * 2.5


def test_bronze_gains_nothing_for_few_loads():
    limit = table("gear_materials").find(BRONZE).values["bending_limit"]
    assert teeth(JAM, paths__direct__material=BRONZE).capacity == pytest.approx(limit * 2)


def test_iron_flanks_tire_from_two_million_loads():
    """2.9 million loads: (2e6/2.9e6)^0.0191, not the 1.24 of steel."""
    one = teeth(FLANK, paths__direct__material=IRON)
    machine = Machine(DEMO)
    loads = machine.running_speed * 60 * DEMO.batch.life_hours
    limit = table("gear_materials").find(IRON).values["contact_limit"]
    assert life_factors(loads, GREY)[1] == pytest.approx((2e6 / loads) ** 0.0191)
    given = next(row.given for row in one.working if row.symbol == "sigma_HP")
    numbers = {symbol: number for symbol, number, *_ in given}
    assert numbers["Z_N"] == pytest.approx((2e6 / loads) ** 0.0191)
    assert numbers["s"] == 1
    assert one.capacity < limit


def test_the_peak_breaks_iron_and_evens_out_in_steel():
    assert carried(165.0, 250.0, 1.9, brittle=True) == 250
    assert carried(370.0, 630.0, 1.9, brittle=False) == 370 * 1.9


def test_a_jam_and_a_life_may_be_governed_by_different_gears():
    """An iron idler between steel ends, or the other way round: each check takes the worst gear of its own."""
    mixed = {"paths__idler__idler_material": IRON}
    limit = table("gear_materials").find(IRON).values["bending_limit"]
    assert teeth(JAM, "idler path", **mixed).capacity == pytest.approx(limit * 2 * 1.6)


def test_the_search_for_paths_asks_the_same():
    load = pathrules.loads_of(DEMO.with_values({"paths.direct.material": IRON}))
    steel = load.material["direct"]
    bent = teeth(LIFE, paths__direct__material=IRON)
    assert lasting_root(steel, load.cycles) == pytest.approx(bent.capacity)


@pytest.mark.parametrize(
    ("name", "hardness", "bending", "contact"),
    [
        # ISO 6336-5, table 1, sigma_lim = A x + B: bending and contact (from memory)
        ("steel C45 normalised", 162, (0.455, 69), (1.000, 190)),
        ("steel C45 quenched and tempered", 162, (0.250, 108), (0.963, 283)),
        ("steel 42CrMo4 quenched and tempered", 240, (0.425, 187), (1.313, 373)),
        ("steel 1045 cold drawn", 163, (0.455, 69), (1.000, 190)),
        (IRON, 180, (0.256, 8), (1.033, 132)),
    ],
)
def test_limits_are_those_of_one_quality(name, hardness, bending, contact):
    """Both limits of a row are of the quality that its source names, never above it."""
    row = table("gear_materials").find(name).values
    for column, (slope, start) in (("bending_limit", bending), ("contact_limit", contact)):
        most = slope * hardness + start
        assert 0.95 * most <= row[column] <= most + 1
