"""What errs on the safe side, each value worked out by hand or from its source beside it."""

from math import pi, sqrt

import pytest

from mixerkit import Design, InputError, Machine
from mixerkit.units import Q_

DEMO = Design.demo()


def check(machine, ending):
    (found,) = (one for one in machine.checks if one.id.endswith(ending))
    return found


# ------------------------------------------------------------------ what the motor turns


def test_no_cylinder_bounds_blades_whose_circles_overlap():
    # 40 narrow blades in strong clay: blade by blade they ask more than their cylinder
    many = {"paddles.count": 40, "paddles.spacing": "6 mm", "paddles.offset_2": "3 mm"}
    overlap = Machine(DEMO.with_values(many)).clay_load
    assert overlap.cylinder < overlap.paddles
    assert overlap.governs == "paddles"
    assert overlap.peak == pytest.approx(overlap.paddles + overlap.sleeve)
    apart = Machine(DEMO.with_values({**many, "housing.centre_distance": "400 mm"})).clay_load
    assert apart.governs == "swept cylinder"


@pytest.mark.parametrize(("counts", "turns"), [([36, 24], 1.5), ([24, 36], 2 / 3)])
def test_energy_of_unequal_shafts(counts, turns):
    equal, other = Machine(DEMO), Machine(DEMO.with_values({"paths.direct.tooth_counts": counts}))
    # both shafts feel the same torque; shaft 2 turns so many times while shaft 1 turns once
    share = (1 + turns) / 2 * other.clay_load.mean / equal.clay_load.mean
    assert other.batch.energy == pytest.approx(share * equal.batch.energy)
    assert other.batch.minutes == pytest.approx(equal.batch.minutes)
    # by hand: 2 pi times 200 turns times both mean torques with a tenth more for the nip
    both = 1.1 * equal.clay_load.mean * 2
    assert equal.batch.energy == pytest.approx(2 * pi * 200 * both / 1e3)


def test_a_machine_that_stalls_mixes_no_batch():
    stiff = Machine(Design.demo("too_stiff"))
    assert check(stiff, "no-stall-while-mixing").verdict == "fails"
    assert stiff.batch.lasts == "no end, as the paddles do not turn"
    assert stiff.batch.energy == 0


def test_more_gears_than_are_worked_out_are_refused():
    with pytest.raises(InputError, match=r"4 gears do not fit; .* two gears are wanted"):
        DEMO.with_values({"paths.direct.tooth_counts": [30, 20, 20, 30]})
    with pytest.raises(InputError, match="a list of 2 to 4 whole numbers"):
        DEMO.with_values({"paths.idler.tooth_counts": [22, 16, 16, 16, 22]})


# ------------------------------------------------------------------ connection and voltage


def test_a_star_motor_of_400_v_on_a_converter_of_230_v_is_caught():
    machine = Machine(DEMO.with_values({"motor.rated_voltage": "400 V"}))
    found = check(machine, "motor.voltage-of-its-connection")
    assert found.verdict == "fails"
    # 95 % of 400 V at 50 Hz is wanted
    assert found.demand == pytest.approx(380)
    assert found.capacity == 230
    # flux, and with it the torque that rated current makes, is 230/400 of the plate's; breakdown its square
    able, plate = machine.power_flow.abilities, Machine(DEMO).power_flow.abilities
    assert able.lasting / able.rated == pytest.approx(230 / 400)
    assert able.breakdown / plate.breakdown == pytest.approx((230 / 400) ** 2)
    # at 25 Hz it wants 190 V, and has them
    slow = Machine(DEMO.with_values({"motor.rated_voltage": "400 V", "motor.run_at": "25 Hz"}))
    assert check(slow, "motor.voltage-of-its-connection").verdict == "holds"


def test_delta_at_87_hz_needs_400_v():
    fast = {"motor.run_at": Q_(50 * sqrt(3), "Hz"), "motor.rated_voltage": "231 V"}
    weak = Machine(DEMO.with_values(fast)).power_flow.abilities
    # a converter on 230 V has no more to give beyond 50 Hz: torque falls with the frequency
    assert weak.lasting / weak.rated == pytest.approx(230 / 231 / sqrt(3), rel=1e-3)
    three = {**fast, "supply.voltage": "400 V", "supply.phases": 3}
    strong = Machine(DEMO.with_values(three)).power_flow.abilities
    assert strong.lasting / strong.rated == pytest.approx(1, rel=2e-3)


def test_direct_feeding_keeps_to_five_percent():
    for volts, verdict in (("114.5 V", "holds"), ("127 V", "fails"), ("113 V", "fails")):
        design = Design.demo("inch_room").with_values({"supply.voltage": volts})
        assert check(Machine(design), "motor.voltage-of-its-connection").verdict == verdict


def test_a_plate_nobody_read_is_not_passed():
    text = "\n".join(
        line for line in DEMO.to_toml().splitlines() if not line.startswith("rated_voltage")
    )
    found = check(Machine(Design.parse(text)), "motor.voltage-of-its-connection")
    assert not found.judged
    assert 'rated_voltage = "230 V"' in found.reason


# ------------------------------------------------------------------ reversing on the run


def test_reversed_on_the_run_the_rotor_strikes_through_the_play():
    fast = {"motor.reversing": "on the run"}
    machine = Machine(DEMO.with_values(fast))
    found = check(machine, "nothing-gives-when-it-is-reversed-on-the-run")
    steady, train = (
        found.working[0].result,
        {one[0]: one[1] for one in found.working[1].given},
    )
    # work of the motor over the play is the rotor's energy; it and the motor's further work wind up the train
    energy = steady * train["phi"]
    wound = steady / train["k"] + sqrt((steady / train["k"]) ** 2 + 2 * energy / train["k"])
    assert found.demand == pytest.approx(train["k"] * wound)
    assert not any("reversing" in one.id for one in Machine(DEMO).checks)


def test_a_capacitor_start_motor_has_to_stand_first():
    design = Design.demo("inch_room").with_values(
        {"motor.kind": "capacitor-start", "motor.reversing": "on the run"}
    )
    assert check(Machine(design), "the-motor-can-be-reversed-on-the-run").verdict == "fails"
