"""Each shown formula, with the shown values put in, gives the shown result within its last digit."""

import json
import re

import numpy as np
import pytest
import sympy
from sympy.parsing.sympy_parser import parse_expr

from mixerkit import Design, Machine
from mixerkit.__main__ import main
from mixerkit.drive import jam_workings
from mixerkit.fields import kinds_in
from mixerkit.tables import table
from mixerkit.units import Span, unit_of, ureg
from mixerkit.working import _SIGNS

DEMOS = ["larkfield", "inch_room", "thin_shaft", "too_stiff"]
STEM_IN_A_JAM = "paddles.paddles.a-paddle-stopped-at-its-tip-does-not-bend"
PLAIN = {sign: word for word, sign in _SIGNS.items()}
BY_UNITS = {
    "sqrt": lambda value: value**0.5,
    "Max": max,
    "Min": min,
    "Abs": abs,
    "sin": np.sin,
    "cos": np.cos,
    "tan": np.tan,
    "atan": np.arctan,
    "log": np.log,
    "exp": np.exp,
}


def typed(text):
    """A printed formula as one types it."""
    for sign, word in PLAIN.items():
        text = text.replace(sign, word)
    for raised, power in (("²", "**2"), ("³", "**3"), ("⁴", "**4"), ("^", "**"), ("·", "*")):
        text = text.replace(raised, power)
    return text


def read(text):
    """A shown number with its unit, and what its last digit stands for."""
    number, _, unit = text.partition(" ")
    places = len(number.partition(".")[2].partition("e")[0])
    return ureg.Quantity(float(number), unit_of(unit)), 10.0**-places


def worked_out(working, system):
    """What the shown formula gives with the shown values in."""
    names = {typed(symbol): read(value)[0] for symbol, value, _ in working.given_shown(system)}
    symbols = {name: sympy.Symbol(name) for name in names}
    with sympy.evaluate(False):
        formula = parse_expr(typed(working.formula_shown()), local_dict=symbols)
    assert {str(one) for one in formula.free_symbols} == set(names), "a symbol without a number"
    run = sympy.lambdify(list(symbols.values()), formula, [BY_UNITS, {"pi": np.pi}])
    given = [names[name].to_base_units() for name in symbols]
    return run(*given)


def gives_what_it_shows(working, system):
    """Whether the shown formula gives the shown result within its last digit."""
    wanted, last = read(working.result_shown(system))
    got = worked_out(working, system)
    got = ureg.Quantity(got, "") if not hasattr(got, "units") else got
    return abs(got.m_as(wanted.units) - wanted.m) <= last * 1.001


@pytest.mark.parametrize("name", DEMOS)
def test_each_shown_formula_gives_the_shown_result(name):
    machine = Machine(Design.demo(name))
    wrong = []
    for check in machine.checks:
        for working in check.working:
            if not working.formula:
                continue
            if not gives_what_it_shows(working, machine.system):
                wrong.append((check.id, working.lines(machine.system)))
    assert not wrong


@pytest.mark.parametrize("name", ["larkfield", "inch_room"])
def test_a_jam_is_worked_out_in_every_position_over_unlike_gears_and_stepped_shafts(name):
    changes = {"fuse.kind": "none", "paths.direct.tooth_counts": [28, 32]}
    for shaft in ("shaft_1", "shaft_2"):
        changes |= {f"{shaft}.step_at": ["60 mm"], f"{shaft}.step_diameters": ["60 mm"]}
    machine = Machine(Design.demo(name).with_values(changes))
    shown = set()
    for i in machine.power_flow.wound_up:
        for working in jam_workings.jam_unfused(machine, int(i)):
            assert gives_what_it_shows(working, machine.system), working.lines(machine.system)
            shown.add(working.symbol)
        assert working.result == machine.power_flow.jam_torque_without_fuse[i]
    assert {"k_B", "k_1", "k_z", "k_2", "k_g", "k"} <= shown


def test_a_result_of_many_whole_digits_has_inputs_fine_enough_for_its_last():
    machine = Machine(Design.demo("inch_room").with_values({"fuse.kind": "none"}))
    (stem,) = [one for one in machine.checks if one.id == STEM_IN_A_JAM]
    stress = stem.working[-1]
    wanted, last = read(stress.result_shown(machine.system))
    assert wanted.m >= 100_000, stress.lines(machine.system)
    assert last == 1.0, stress.lines(machine.system)
    assert gives_what_it_shows(stress, machine.system), stress.lines(machine.system)


def stands(design, origin):
    """What a field holds, or a column in a row of a table: a plain number and its unit."""
    row = re.fullmatch(r"data/tables/(\w+)\.csv, (.+): (.+)", origin)
    if row:
        found, column = table(row[1]).find(row[2]), row[3].replace(" ", "_")
        return found.values[column], found.units.get(column, "")
    record, field, _ = design.field(origin)
    span = getattr(kinds_in(Design)[origin], "span", "")
    return getattr(record, field), Span.read(span).unit


@pytest.mark.parametrize("name", DEMOS)
def test_what_is_given_as_it_stands_is_what_its_field_or_row_holds(name):
    design, tried = Design.demo(name), 0
    for check in Machine(design).checks:
        for working in check.working:
            if not working.formula and not working.method:
                ((symbol, value, unit, origin),) = working.given
                assert (symbol, value, unit) == (working.symbol, working.result, working.unit)
                assert (value, unit) == stands(design, origin), (check.id, origin)
                tried += 1
    assert tried


@pytest.mark.parametrize("name", DEMOS)
def test_workings_end_in_what_is_asked_and_what_it_can_take(name):
    for check in Machine(Design.demo(name)).checks:
        if check.judged:
            numbers = (check.demand, check.capacity)
            ends = {one.result for one in check.working}
            assert ends & set(numbers), f"{check.id}: no working ends in {numbers}"


def test_where_a_number_came_from_is_a_field_or_said_in_words():
    design = Design.demo()
    for check in Machine(design).checks:
        for working in check.working:
            for symbol, _, _, origin in working.given:
                assert origin.strip(), (check.id, symbol)
                if re.fullmatch(r"[a-z_0-9]+(\.[a-z_0-9]+)+", origin):
                    design.field(origin)


def test_the_command_line_and_json_say_the_working(capsys, tmp_path):
    path = tmp_path / "my_mixer.toml"
    path.write_text(Design.demo("thin_shaft").to_toml())
    assert main(["check", str(path), "--why", "--no-remedies"]) == 1
    said = capsys.readouterr().out
    assert "T_F = T_n·(1 + s)/(1 - s) = 485.1 N·m" in said
    assert "s = 0.05: fuse.scatter" in said
    assert main(["check", str(path), "--json", "--no-remedies"]) == 1
    checks = json.loads(capsys.readouterr().out)["checks"]
    fuse = next(one for one in checks if "nothing-dear" in one["id"])
    last = fuse["working"][-1]
    assert last["formula"] == "T_n*(1 + s)/(1 - s)"
    assert last["result"] == fuse["asked"]
    assert {"symbol": "s", "value": 0.05, "unit": "", "from": "fuse.scatter"} in last["given"]
