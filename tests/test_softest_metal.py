"""What presses on two metals is borne by the softer: keys, feather key, dogs and pins, by hand calculation."""

import numpy as np
import pytest

from mixerkit import Design, Machine
from mixerkit.parts import hub_choices, pins
from mixerkit.parts.metals import metal, stronger_metals, weakest
from mixerkit.tables import table

IRON = "cast iron EN-GJL-250"
HARD = "steel 42CrMo4 quenched and tempered"
SOFT = "steel C45 quenched and tempered"
DEMO = Design.demo().with_values({"paths.direct.material": SOFT})
# 0.1 % proof stress of EN-GJL-250, EN 1561, lowest; yields of EN 10083-2 and -3
PROOF, C45, ALLOY = 165.0, 370.0, 650.0


def found(part, name, **values):
    machine = Machine(
        DEMO.with_values({key.replace("__", "."): one for key, one in values.items()})
    )
    return next(one for one in machine.checks if (one.part, one.name) == (part, name))


def test_the_key_of_the_fuse_bears_no_more_than_the_boxs_hollow_shaft():
    """Grey cast iron unless the file says otherwise: 165 MPa in a jam, half of it day by day."""
    part = "flange on the hollow shaft"
    assert found(part, "key's flank in a jam").capacity == PROOF
    assert found(part, "key's flank while mixing").capacity == PROOF / 2
    assert IRON in found(part, "key's flank in a jam").reason
    steel = found(part, "key's flank in a jam", hubs__box_material=HARD)
    assert steel.capacity == C45  # of key and shaft
    # the flange keyed on shaft 1 is none of the box's
    assert found("flange of the fuse", "key's flank in a jam").capacity == C45
    short = found(part, "key's flank in a jam", hubs__box_length="25 mm")
    assert short.verdict == "fails"
    assert "hubs.box_material" in short.note
    assert not any("hubs.box_material" in change for change in short.fix)
    shear = found("flange of the fuse", "key's shear in a jam")
    assert shear.capacity == pytest.approx(0.577 * C45, rel=1e-3)


def test_the_shafts_flank_is_deeper_and_may_be_softer():
    """14 x 9 key of DIN 6885-1: 3.5 mm of it in the hub, 5.5 mm in the shaft.

    Hub 42CrMo4 3.5 x 650 = 2275 N/mm; shaft C45 5.5 x 370 = 2035 N/mm: the shaft gives way first.
    """
    hard = {"hubs__key_material": HARD, "hubs__box_material": HARD, "fuse__kind": "none"}
    one = found("reduction box", "key's flank in a jam", shaft_1__material=SOFT, **hard)
    in_hub = found("reduction box", "key's flank in a jam", shaft_1__material=HARD, **hard)
    assert one.capacity == C45
    assert in_hub.capacity == ALLOY
    assert one.demand == pytest.approx(in_hub.demand * 3.5 / 5.5)
    assert "in the shaft" in one.reason


@pytest.mark.parametrize("path", ["direct", "idler"])
def test_a_gears_key_bears_on_the_gear(path):
    one = found("gears of shaft 2", "key's flank in a jam", **{f"paths__{path}__material": IRON})
    assert one.capacity == PROOF
    assert found("gears of shaft 2", "key's flank in a jam").capacity == C45


@pytest.mark.parametrize("path", ["direct", "idler"])
def test_dogs_of_the_sleeve_meet_dogs_of_the_gears(path):
    """A quarter of yield for wear, yield in a jam, a quarter of tensile strength (250 MPa) both ways."""
    iron = {f"paths__{path}__material": IRON}
    for name, capacity in (
        ("pressure on the dogs while mixing", PROOF / 4),
        ("pressure on the dogs in a jam", PROOF),
        ("shear of the dogs in a jam", PROOF / np.sqrt(3)),
        ("bending of the dogs while mixing", 250 / 4),
        ("bending of the dogs in a jam", PROOF),
    ):
        one = found("dog clutch", name, **iron)
        assert one.capacity == pytest.approx(capacity)
        assert IRON in one.reason


def test_a_feather_key_bears_in_the_sleeve_where_it_is_shallower():
    """14 x 9 key, 3.5 mm of it in the sleeve and not half its height; 51 - 2 x 10 = 31 mm long: 2 T/(d t l)."""
    one = found("feather key", "pressure in a jam")
    torque = max(Machine(DEMO).power_flow.at_gears[1])
    assert one.demand == pytest.approx(2e3 * torque / (45 * 3.5 * 31))
    for field in ("clutch__material", "hubs__key_material"):
        assert found("feather key", "pressure in a jam", **{field: IRON}).capacity == PROOF
    soft = found("feather key", "pressure in a jam", shaft_1__material=IRON)
    # 5.5 x 165 against 3.5 x 370 in the sleeve
    assert soft.capacity == PROOF
    assert soft.demand == pytest.approx(2e3 * torque / (45 * 5.5 * 31))


def test_pins_bear_in_wall_and_shaft():
    """p = 6 T/(d_p D^2): rising evenly from the middle it makes T = p d_p D^2/6 over both halves."""
    along = np.linspace(0, 22.5, 100_001)
    pressure = 100.0 * along / 22.5
    torque = 2 * np.trapezoid(pressure * 12 * along, along)
    assert pins.pin_pressure_in_shaft.formula(torque / 1e3, 45.0, 12.0) == pytest.approx(100.0)
    pressed = "pressure of the pins in a jam"
    sleeve = found("sleeve pins", pressed, sleeve__pin_material="steel S235JR")
    assert sleeve.capacity == 225.0
    soft = {"shaft_1__material": SOFT, "shaft_2__material": SOFT}
    shaft = found("sleeve pins", "pressure of the pins in the shaft in a jam", **soft)
    assert shaft.capacity == C45
    taper = {"hubs__gear": "taper pin", "hubs__pin_diameter": "12 mm", "hubs__key_material": HARD}
    assert found("gears of shaft 2", pressed, **taper).capacity == C45
    iron = found("gears of shaft 2", pressed, paths__idler__material=IRON, **taper)
    assert iron.capacity == PROOF


def test_the_hub_table_knows_soft_hubs():
    """A key 12 x 8 in 40 mm: 3 mm of it in the hub, 40 - 12 bear: T = p d t l/2 = 165 x 40 x 3 x 28/2."""

    def say(value, unit):
        return f"{value} {unit}"

    rows = hub_choices.choices(40.0, 40.0, 70.0, C45, PROOF, "metric", say)
    (key,) = (one for one in rows if one.name == "parallel key")
    assert key.torque == pytest.approx(165 * 40 * 3 * 28 / 2e3)
    assert key.weakest == "key's flank in the hub"


def test_every_gear_material_says_when_it_yields():
    for row in table("gear_materials"):
        assert table("materials").find(row.values["name"]).values["yield_strength"] > 0


def test_the_weakest_metal_and_what_would_be_stronger():
    fields = ("hubs.box_material", "hubs.key_material", "paths.direct.material")
    assert weakest(DEMO, *fields) == metal(DEMO, "hubs.box_material")
    for change in stronger_metals(DEMO, *fields, over=3.0):
        assert weakest(DEMO.with_values(dict(change)), *fields).yields >= 3 * PROOF
        assert set(change) == set(fields)
