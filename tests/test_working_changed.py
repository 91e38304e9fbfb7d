"""Workings on designs that are not the demos: every option of every choice, sizes moved both ways."""

import functools

import numpy as np
import pytest
import sympy
from sympy.parsing.sympy_parser import parse_expr
from test_working import BY_UNITS, read, typed

from mixerkit import Design, Machine
from mixerkit.fields import kinds_in
from mixerkit.fields.kinds import NumberKind, QuantityKind, WholeKind, WordsKind, YesNoKind
from mixerkit.units import InputError, ureg

KINDS = kinds_in(Design)
shown = functools.cache(read)


@functools.cache
def function_of(formula, names):
    """A shown formula as a function of quantities under these names, in this order."""
    symbols = {name: sympy.Symbol(name) for name in names}
    with sympy.evaluate(False):
        parsed = parse_expr(typed(formula), local_dict=symbols)
    assert {str(one) for one in parsed.free_symbols} == set(names), formula
    return sympy.lambdify(list(symbols.values()), parsed, [BY_UNITS, {"pi": np.pi}])


def unlike(machine):
    """Workings whose shown numbers do not give the shown result, and checks that no working ends in."""
    for check in machine.checks:
        for working in check.working:
            if not working.formula:
                continue
            given = {
                typed(symbol): shown(value)[0]
                for symbol, value, _ in working.given_shown(machine.system)
            }
            wanted, last = shown(working.result_shown(machine.system))
            got = function_of(working.formula_shown(), tuple(given))(
                *(one.to_base_units() for one in given.values())
            )
            got = got if hasattr(got, "units") else ureg.Quantity(got, "")
            if not abs(got.m_as(wanted.units) - wanted.m) <= last * 1.001:
                yield check.id, working.lines(machine.system), f"{got.to(wanted.units)}"
        ends = {one.result for one in check.working}
        if check.judged and not ends & {check.demand, check.capacity}:
            yield check.id, "no working ends in what is asked or can be taken"


def moved(design, name):
    """Other values of a field, in its own terms."""
    kind = KINDS[name]
    record, field, _ = design.field(name)
    value = getattr(record, field)
    if isinstance(kind, WordsKind):
        return [one for one in kind.options if one != value]
    if isinstance(kind, QuantityKind):
        given = record.given(field)
        return [] if given is None else [given * factor for factor in (0.8, 1.25)]
    if isinstance(kind, NumberKind):
        return [value * 0.8, value + 0.1]
    if isinstance(kind, WholeKind):
        return [value - 1, value + 1]
    return [not value] if isinstance(kind, YesNoKind) else []


@pytest.mark.parametrize("demo", ["larkfield", "inch_room"])
def test_workings_hold_with_any_choice_moved(demo):
    design = Design.demo(demo)
    wrong, tried = {}, 0
    for name in KINDS:
        for value in moved(design, name):
            try:
                machine = Machine(design.with_values({name: value}))
                found = list(unlike(machine))
            except InputError:  # a value that no design may have
                continue
            tried += 1
            wrong |= {one[0]: (name, value, *one[1:]) for one in found}
    assert not wrong
    assert tried > 200


@pytest.mark.parametrize(
    "changes",
    [
        {"paths.direct.profile_shift_coefficients": [0.3, -0.3]},
        {"paths.direct.profile_shift_coefficients": [-0.2, 0.45]},
        {"paths.idler.profile_shift_coefficients": [0.2, 0.35, 0.1]},
        {"paths.direct.tooth_counts": [41, 19], "paths.direct.thinning": "0.07 mm"},
        {
            "paths.idler.tooth_counts": [24, 17, 20],
            "paths.idler.profile_shift_coefficients": [0.1, 0.05, 0.2],
        },
        {"paths.direct.tooth_counts": [29, 31], "housing.centre_distance": "151 mm"},
    ],
    ids=str,
)
@pytest.mark.parametrize("demo", ["larkfield", "inch_room"])
def test_workings_hold_with_other_teeth_and_shifts(demo, changes):
    machine = Machine(Design.demo(demo).with_values(changes))
    teeth = [one for one in machine.checks if one.stage in ("gears", "gear paths")]
    assert sum(one.judged for one in teeth) > 15
    assert not list(unlike(machine))
