import numpy as np
import pytest

from mixerkit import Design, InputError, assess
from mixerkit.drive import motor, reducer
from mixerkit.explore import search, uncertainty

DEMO = Design.demo()


def names_of(found, verdict="fails"):
    return {one.name for one in found.checks if one.verdict == verdict}


def test_a_converter_holds_torque_then_power():
    def able(hertz):
        return motor.abilities(DEMO.with_values({"motor.run_at": f"{hertz} Hz"}).plain)

    assert able(50).lasting == pytest.approx(able(50).rated)
    assert able(100).lasting == pytest.approx(able(50).rated / 2)
    assert able(100).greatest == pytest.approx(able(50).rated * min(2.6 / 4, 1.5))
    assert able(25).field == pytest.approx(750)
    assert able(10).lasting < able(50).lasting


def test_a_soft_starter_takes_torque_with_the_square_of_the_current():
    three = {"supply.phases": 3, "supply.voltage": "400 V"}
    direct = motor.abilities(DEMO.with_values({"motor.fed_by": "direct", **three}).plain)
    soft = motor.abilities(DEMO.with_values({"motor.fed_by": "soft starter", **three}).plain)
    assert soft.start / direct.start == pytest.approx((3.5 / 6.5) ** 2)
    assert soft.greatest == direct.greatest == pytest.approx(2.6 * direct.rated)


@pytest.mark.parametrize("fed", ["direct", "soft starter", "frequency converter"])
def test_the_curve_goes_through_the_plate(fed):
    design = DEMO.with_values({"motor.fed_by": fed, "supply.phases": 3})
    able = motor.abilities(design.plain)
    speeds = np.linspace(0, able.field, 2000)
    torque = motor.torque_curve(design.plain, speeds)
    assert torque[0] == pytest.approx(able.start, rel=1e-6)
    assert torque[-1] == pytest.approx(0, abs=1e-9)
    assert torque.max() == pytest.approx(able.greatest, rel=1e-3)
    assert np.interp(1440, speeds, torque) == pytest.approx(able.rated, rel=2e-3)


def test_three_phases_on_one_and_a_capacitor_motor_on_a_converter_are_caught():
    assert "phases the motor needs" in names_of(
        assess(DEMO.with_values({"motor.fed_by": "direct"}))
    )
    odd = assess(DEMO.with_values({"motor.kind": "capacitor-start"}))
    assert "phases the motor needs" in names_of(odd)
    plain = assess(DEMO.with_values({"motor.kind": "capacitor-start", "motor.fed_by": "direct"}))
    assert "phases the motor needs" not in names_of(plain)


def test_current_at_the_socket():
    # P = V I cos(phi) eta by hand: 1 hp, 120 V, 0.72, 0.68
    plain = Design.demo("inch_room").plain
    assert float(motor.input_current(plain, 0.7457)) == pytest.approx(
        745.7 / (0.72 * 0.68 * 120), rel=1e-3
    )
    small = assess(DEMO.with_values({"supply.socket_current": "6 A"}))
    assert "current while mixing" in names_of(small)


def test_the_wrong_end_of_the_box_is_caught():
    found = assess(
        DEMO.with_values({"reducer.input_bore": "50 mm", "reducer.output_bore": "24 mm"})
    )
    failing = {one.part: one for one in found.checks if one.verdict == "fails"}
    assert {"fast end", "slow end"} <= set(failing)
    assert "measure the end the motor goes on" in failing["fast end"].reason


@pytest.mark.parametrize(("bore", "wall"), [(45.0, 0.0), (50.0, 2.5), (44.0, -0.5)])
def test_adapting_bush(bore, wall):
    assert reducer.adapting_bush(bore, 45.0).wall == wall
    found = assess(DEMO.with_values({"reducer.output_bore": f"{bore} mm"}))
    bush = [one for one in found.checks if one.part == "adapting bush"]
    assert bool(bush) is (wall > 0)
    assert any(one.part == "slow end" and one.verdict == "fails" for one in found.checks) is (
        wall < 0
    )


def test_a_thin_bush_is_told_what_would_do():
    found = assess(DEMO.with_values({"reducer.output_bore": "47 mm"}))
    thin = next(one for one in found.checks if one.part == "adapting bush")
    assert thin.verdict == "fails"
    assert "43 mm leaves wall enough" in thin.advice
    assert (
        assess(
            DEMO.with_values({"reducer.output_bore": "47 mm", "shaft_1.diameter": "43 mm"})
        ).verdict
        != "fails"
    )


@pytest.mark.parametrize(
    ("hours", "shock", "factor"),
    [(0.5, "uniform", 0.5), (2, "moderate", 1.0), (8, "heavy", 1.75), (24, "moderate", 1.5)],
)
def test_service_factor(hours, shock, factor):
    design = DEMO.with_values({"reducer.hours_a_day": hours, "reducer.shock": shock})
    assert reducer.service_factor(design.plain) == factor
    assert reducer.service_factor(design.with_values({"safety.reducer_service": 1.4}).plain) == 1.4


def test_an_unbelievable_box_is_caught():
    found = assess(DEMO.with_values({"reducer.kind": "worm", "reducer.efficiency": 0.95}))
    assert "loss is believable for its kind" in names_of(found)


def test_reducer_advice_mends():
    for values, name, change in (
        (
            {"reducer.rated_torque": "200 N*m"},
            "torque while mixing",
            lambda n: {"reducer.rated_torque": f"{n + 1} N*m"},
        ),
        (
            {"reducer.torque_arm": "30 mm"},
            "load across its slow end",
            lambda n: {"reducer.torque_arm": f"{n + 1} mm"},
        ),
        (
            {"reducer.thermal_power": "0.5 kW"},
            "heat all day",
            lambda n: {"reducer.thermal_power": f"{1.01 * n} kW"},
        ),
    ):
        design = DEMO.with_values(values)
        failing = next(one for one in assess(design).of_stage("reducer") if one.name == name)
        assert failing.verdict == "fails"
        number = next(
            float(word) for word in failing.advice.split() if word.replace(".", "").isdigit()
        )
        again = assess(design.with_values(change(number)))
        assert next(one for one in again.of_stage("reducer") if one.name == name).verdict != "fails"


def test_stall_risk_is_reproducible_and_orders_the_demos():
    risks = {}
    for name in ("larkfield", "too_stiff"):
        found = assess(Design.demo(name))
        one, two = (uncertainty.stall_risk(found, 20_000, seed=7) for _ in range(2))
        assert one.starting == two.starting
        assert np.array_equal(one.spare_mixing, two.spare_mixing)
        risks[name] = one
    assert risks["larkfield"].starting < 0.02
    assert risks["larkfield"].mixing == 0
    assert risks["too_stiff"].starting > 0.9


def test_stall_draws_at_the_middle_are_the_assessment_itself():
    """With no doubt at all the drawn sums are those of the checks."""
    tight = {
        "ranges.strength_low": 1, "ranges.strength_high": 1, "ranges.fill_spread": 1e-6, "ranges.start_low": 1.5,
        "ranges.start_high": 1.5, "ranges.efficiency_spread": 1e-9, "ranges.voltage_low": 1, "ranges.voltage_high": 1,
    }  # fmt: skip
    found = assess(DEMO.with_values(tight))
    starting, mixing = uncertainty.spare_torque(found, np.full((6, 1), 0.5))
    case, here = found.case, found.index("direct", 1, "starting")
    assert starting[0] == pytest.approx(case.flow.able.start / case.flow.motor[here], rel=1e-3)
    here = found.index("direct", 1, "mixing")
    assert mixing[0] == pytest.approx(case.flow.able.greatest / case.flow.motor[here], rel=1e-3)


def doubt_by_voltage(values):
    ranked = uncertainty.ranking(assess(DEMO.with_values(values)), 256)
    return next(total for name, _, total in ranked if name == "supply voltage")


def test_low_voltage_stalls_a_motor_fed_direct_and_not_one_on_a_converter():
    wide = {"ranges.voltage_low": 0.5, "ranges.voltage_high": 1.0}
    direct = {"motor.fed_by": "direct", "supply.phases": 3, "supply.voltage": "400 V", **wide}
    assert doubt_by_voltage(direct) > 0.3
    assert doubt_by_voltage(wide) == pytest.approx(0, abs=1e-3)


def test_measuring_the_clay_narrows_the_risk():
    by_water = assess(DEMO.with_values({"clay.strength_from": "water content"}))
    assert uncertainty.ranking(by_water, 512)[0][0] == "clay strength"
    assert (
        uncertainty.stall_risk(by_water, 20_000).starting
        > uncertainty.stall_risk(assess(DEMO), 20_000).starting
    )


def test_every_choice_offered_holds_when_tried_whole():
    found = search.motor_and_box(DEMO, "mass")
    assert found
    assert all(one.spare >= 1 for one in found)
    assert [one.mass for one in found] == sorted(one.mass for one in found)
    by_margin = search.motor_and_box(DEMO, "margin")
    assert [one.spare for one in by_margin] == sorted(
        (one.spare for one in by_margin), reverse=True
    )
    with pytest.raises(InputError, match="is not an order"):
        search.motor_and_box(DEMO, "price")


def test_motors_that_do_not_do_say_why():
    choices = search.motors(DEMO)
    assert len(choices) == 9
    assert all(bool(one.why_not) == (one.spare < 1) for one in choices)
    assert any(one.spare >= 1 for one in choices)
    assert not any(one.spare >= 1 for one in search.motors(Design.demo("too_stiff")))


@pytest.mark.parametrize("name", ["slaked reclaim", "leather-hard"])
def test_a_named_body_brings_its_own_range(name):
    found = assess(DEMO.with_values({"clay.strength_from": "named body", "clay.body": name}))
    low, high = uncertainty.ranges_of(found)[0]
    assert low == pytest.approx({"slaked reclaim": 0.5, "leather-hard": 60 / 110}[name])
    assert high == pytest.approx({"slaked reclaim": 2.0, "leather-hard": 200 / 110}[name])


def test_duty_and_reversal():
    assert motor.duty_torque("6 N*m", "10 min", "0 min").m_as("N*m") == pytest.approx(6)
    assert motor.duty_torque("6 N*m", "5 min", "15 min").m_as("N*m") == pytest.approx(3)
    words = {
        motor.reversal(DEMO.with_values({"motor.kind": kind}).plain)
        for kind in ("three-phase", "capacitor-start", "capacitor-run")
    }
    assert len(words) == 3
