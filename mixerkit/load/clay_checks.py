"""Whether the strength of the clay was found where its relation holds."""

from __future__ import annotations

from mixerkit.checking import make_check, make_unjudged
from mixerkit.checks import Check
from mixerkit.load import clay
from mixerkit.results import LoadedMachine
from mixerkit.tables import table
from mixerkit.working import Working, by_method, worked

__all__ = ["checks"]


def checks(machine: LoadedMachine) -> list[Check]:
    """Check the clay: is its strength found inside its relation's range, and does its water agree with it.

    Parameters
    ----------
    machine : LoadedMachine

    Returns
    -------
    list of Check
    """
    return [_inside(machine), _agrees(machine)]


def _inside(machine: LoadedMachine) -> Check:
    """Whether the strength was found inside the range of the relation it was found by."""
    one = machine.spec.clay
    name = ("paddles", "clay", "strength is found inside its relation's range")
    middle, reach = sum(clay.FITTED) / 2, (clay.FITTED[1] - clay.FITTED[0]) / 2
    if one.strength_from != "water content":
        # a test of the clay itself has no such range
        off = 0.0
        words = machine.clay_load.clay.words
    else:
        index = float(
            clay.liquidity_index.formula(one.water_content, one.liquid_limit, one.plastic_limit)
        )
        off, words = abs(index - middle), f"liquidity index {index:.2f}"
        if off >= reach:
            return make_unjudged(
                machine,
                *name,
                f"{words}, and the relation was fitted from {clay.FITTED[0]:g} to {clay.FITTED[1]:g}: the strength reckoned on with is "
                "a mere extension of it; measure it with cone, rod or vane (clay.strength_from)",
            )
    return make_check(
        machine,
        *name,
        demand=off,
        capacity=reach,
        unit="",
        working=lambda i: _index_off(machine, middle, off),
        tight=1.0,
        source="Vardanega & Haigh, Canadian Geotechnical Journal 51 (2014)",
        reason=lambda i, say: f"{words}; fitted from {clay.FITTED[0]:g} to {clay.FITTED[1]:g}",
    )


_MEASURED = {
    "cone": "clay.cone_mass, cone_angle and cone_penetration",
    "rod": "clay.rod_load and rod_diameter",
    "vane": "clay.vane_torque, vane_diameter and vane_height",
    "named body": "clay.body",
}
"""Fields that a test of the clay's strength rests on."""


def _agrees(machine: LoadedMachine) -> Check:
    """Whether a test's strength and what the water content says lie within the ranges of both."""
    one = machine.spec.clay
    row = table("clay_tests").find("water content").values
    # both at the rate of shear at which what the water says was found
    by_test = machine.clay_load.clay
    faster = float(clay.rate_factor(row["rate"], by_test.rate))
    tested = by_test.strength * faster
    reckoned = float(
        clay.strength_from_water(one.water_content, one.liquid_limit, one.plastic_limit)
    )
    if one.strength_from == "water content":
        # it is what the strength was found by: there is nothing to stand against it
        reckoned = tested
    low, high = clay.strength_range(one)
    stronger = tested > reckoned
    off = tested / reckoned if stronger else reckoned / tested
    most = row["high_factor"] / low if stronger else high / row["low_factor"]

    return make_check(
        machine,
        "paddles",
        "clay",
        "its strength and its water agree",
        demand=off,
        capacity=most,
        unit="",
        working=lambda i: _side_by_side(one.strength_from, tested, reckoned, (low, high)),
        tight=1.0,
        source="ranges of both ways: data/tables/clay_tests.csv; Vardanega & Haigh 2014",
        reason=lambda i, say: (
            f"by {one.strength_from} {say(tested, 'kPa')} at the rate of a fall cone; water content {one.water_content:g} between limits "
            f"{one.plastic_limit:g} and {one.liquid_limit:g} says {say(reckoned, 'kPa')}"
        ),
        note=lambda i, say: (
            f"{_MEASURED.get(one.strength_from, 'clay.strength_from')} and clay.water_content with its limits stand "
            "against each other: weigh a sample wet and dried for the water, and repeat the test."
        ),
    )


def _side_by_side(
    way: str, tested: float, reckoned: float, own: tuple[float, float]
) -> list[Working]:
    """Say how far a test and the water stand apart, in kPa, and how far their ranges let them."""
    row = table("clay_tests").find("water content").values
    s_t = (tested, "kPa", f"strength by {way}, as at the rate of a fall cone")
    s_w = (reckoned, "kPa", "strength by clay.water_content and its limits")
    by_test, by_water = (
        f"data/tables, range of {way}",
        "data/tables/clay_tests.csv, range of water content",
    )
    if tested > reckoned:
        most = worked(
            "q_max = f_w/f_t",
            row["high_factor"] / own[0],
            "",
            f_w=(row["high_factor"], "", by_water),
            f_t=(own[0], "", by_test),
        )
        return [worked("q = s_t/s_w", tested / reckoned, "", s_t=s_t, s_w=s_w), most]
    most = worked(
        "q_max = f_t/f_w",
        own[1] / row["low_factor"],
        "",
        f_w=(row["low_factor"], "", by_water),
        f_t=(own[1], "", by_test),
    )
    return [worked("q = s_w/s_t", reckoned / tested, "", s_t=s_t, s_w=s_w), most]


def _index_off(machine: LoadedMachine, middle: float, off: float) -> list[Working]:
    """Say how far the liquidity index stands off the middle of the fitted range."""
    one = machine.spec.clay
    if one.strength_from != "water content":
        rule = "a test of the clay itself has no range to be off"
        return [by_method("delta", rule, off, "")]
    return [
        worked(
            "delta = Abs((w - w_P)/(w_L - w_P) - c)",
            off,
            "",
            w=(one.water_content, "", "clay.water_content"),
            w_P=(one.plastic_limit, "", "clay.plastic_limit"),
            w_L=(one.liquid_limit, "", "clay.liquid_limit"),
            c=(middle, "", "middle of the range fitted, Vardanega & Haigh 2014"),
        )
    ]
