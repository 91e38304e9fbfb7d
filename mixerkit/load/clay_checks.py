"""Whether the strength of the clay was found where its relation holds."""

from __future__ import annotations

from mixerkit.checking import make_check, make_unjudged
from mixerkit.checks import Check
from mixerkit.load import clay
from mixerkit.results import LoadedMachine
from mixerkit.working import Working, by_method, worked

__all__ = ["checks"]


def checks(machine: LoadedMachine) -> list[Check]:
    """Check that the clay's strength was found inside the range of the relation it was found by.

    Parameters
    ----------
    machine : LoadedMachine

    Returns
    -------
    list of Check
    """
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
            return [
                make_unjudged(
                    machine,
                    *name,
                    f"{words}, and the relation was fitted from {clay.FITTED[0]:g} to {clay.FITTED[1]:g}: the strength reckoned on with is "
                    "a mere extension of it; measure it with cone, rod or vane (clay.strength_from)",
                )
            ]
    return [
        make_check(
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
    ]


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
