import copy
import importlib
import inspect
import pickle
import pkgutil
import pydoc
import re

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

import mixerkit
from mixerkit.units import Q_, InputError, in_units, read_quantity, show, to_plain


@pytest.mark.parametrize(
    ("text", "unit", "value"),
    [
        ("12 N*m", "N*m", 12),
        ("12 Nm", "N*m", 12),
        ("12 N m", "N*m", 12),
        ("1.5 in", "mm", 38.1),
        ("3/4 in", "mm", 19.05),
        ("1 1/2 in", "mm", 38.1),
        ("-1 1/2 in", "mm", -38.1),
        ("24 rpm", "rad/s", 2.513274122871834),
        ("10 kgf", "N", 98.0665),
        ("5 / in", "1/mm", 5 / 25.4),
        ("20 °C", "K", 293.15),
        ("45°", "deg", 45),
        ("85 %", "", 0.85),
        ("1e3 N", "kN", 1),
        ("7850 kg/m^3", "kg/m**3", 7850),
    ],
)
def test_reads_what_a_maker_writes(text, unit, value):
    assert Q_(text).m_as(unit) == pytest.approx(value, rel=1e-12)


@pytest.mark.parametrize(
    ("raw", "unit", "words"),
    [
        ("1.5 kg", "kW", '"1.5 kg" is a mass; a power is wanted, for example "1.5 kW".'),
        (12, "mm", "12 has no unit; a length is wanted"),
        ("12", "mm", '"12" has no unit'),
        ("0.4 Hz", "rpm", '"0.4 Hz" is a frequency; a rotational speed is wanted'),
        ("24 rpm", "Hz", '"24 rpm" is a rotational speed; a frequency is wanted'),
        ("nan mm", "mm", "not a finite number"),
        ("1e999 mm", "mm", "not a finite number"),
        (float("nan"), "mm", "not a finite number"),
        ("1,5 mm", "mm", "has a comma"),
        ("1 2 mm", "mm", "holds two numbers"),
        ("1/0 in", "mm", "divides by zero"),
        ("12 foo", "mm", 'the unit "foo" is not known'),
        ("mm", "mm", "is not a number with a unit"),
        ("", "mm", "is not a number with a unit"),
        (True, "mm", "is not a quantity"),
        (None, "mm", "is not a quantity"),
        ({}, "mm", "is not a quantity"),
    ],
)
def test_refuses_with_one_sentence(raw, unit, words):
    with pytest.raises(InputError) as caught:
        read_quantity(raw, unit)
    assert words in str(caught.value)
    assert len(caught.value.messages) == 1
    assert "for example" in str(caught.value)


def test_range_is_said_in_words():
    with pytest.raises(InputError, match="above 0 mm, at most 500 mm is wanted"):
        to_plain("600 mm", "mm > 0 <= 500")


def test_quantities_survive_pickling_and_copying():
    for quantity in (Q_("12 N*m"), Q_([1.0, 2.5], "rpm"), Q_("20 °C"), Q_("5 / in")):
        for again in (
            pickle.loads(pickle.dumps(quantity)),
            copy.copy(quantity),
            copy.deepcopy(quantity),
        ):
            assert np.all(again == quantity)
            assert again.to(quantity.units) is not None
            assert (again - quantity).to_base_units().magnitude == pytest.approx(0)


@given(st.floats(-1e6, 1e6))
def test_a_turn_is_two_pi_and_comes_back(speed):
    quantity = Q_(speed, "rpm")
    assert quantity.m_as("rad/s") == pytest.approx(speed * 2 * np.pi / 60, rel=1e-12, abs=1e-12)
    assert quantity.to("rad/s").m_as("rpm") == pytest.approx(speed, rel=1e-12, abs=1e-12)
    assert (Q_(1.0, "N*m") * quantity).m_as("W") == pytest.approx(speed * 2 * np.pi / 60, abs=1e-9)


def test_a_door_takes_scalars_arrays_and_lists_alike():
    @in_units("mm**2", side="mm > 0")
    def square(side):
        return side**2

    assert square("1 in").m_as("mm**2") == pytest.approx(645.16)
    assert square(["1 in", "10 mm"]).m_as("mm**2") == pytest.approx([645.16, 100])
    assert square(Q_(np.array([1.0, 2.0]), "cm")).m_as("mm**2") == pytest.approx([100, 400])
    with pytest.raises(InputError, match="square, side: 3 has no unit"):
        square(3)
    with pytest.raises(InputError, match="out of range"):
        square(Q_(np.array([1.0, -2.0]), "mm"))
    with pytest.raises(InputError, match="missing a required argument"):
        square()


@given(st.floats(1e-3, 1e6), st.sampled_from(["mm", "N*m", "kW", "kg", "MPa", "N"]))
def test_showing_keeps_three_digits_in_both_systems(value, unit):
    for system in ("metric", "inch"):
        number, label = show(value, unit, system, 6).rsplit(" ", 1)
        label = label.replace("·", "*").replace("²", "**2")
        assert Q_(float(number), label).m_as(unit) == pytest.approx(value, rel=2e-5)


def formulas():
    for found in pkgutil.walk_packages(mixerkit.__path__, "mixerkit."):
        if found.name.endswith("__main__"):
            continue
        for value in vars(importlib.import_module(found.name)).values():
            if hasattr(value, "spans") and value.__module__ == found.name:
                yield value


FORMULAS = list(formulas())


@pytest.mark.parametrize(
    "formula", FORMULAS, ids=[f"{one.__module__}.{one.__name__}" for one in FORMULAS]
)
def test_a_formula_is_an_ordinary_function_that_says_its_units(formula):
    assert inspect.isfunction(formula)
    assert pickle.loads(pickle.dumps(formula)) is formula
    helped = pydoc.render_doc(formula, renderer=pydoc.plaintext)
    for name, span in formula.spans.items():
        assert name in inspect.signature(formula).parameters
        if span.strip():
            beside = rf"^ *[\w, ]*\b{name}\b[\w, ]* : \w+ \[[^\]]*{re.escape(span)}[^\]]*\]"
            assert re.search(beside, helped, re.MULTILINE), name
    for section in ("Parameters", "Returns", "Raises", "References", "Examples"):
        assert section in helped


def test_there_are_formulas():
    assert len(FORMULAS) > 100
