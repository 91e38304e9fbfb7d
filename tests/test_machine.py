"""The machine: one of it, each result worked out once, the same in another process."""

import pickle
from concurrent.futures import ProcessPoolExecutor

import pytest

import mixerkit
from mixerkit import Design, InputError, Machine

DEMO = Design.demo()


def weakest(machine):
    return machine.weakest.id, machine.weakest.spare


def test_a_machine_is_pickled_and_worked_out_alike_elsewhere():
    machine = Machine(DEMO)
    again = pickle.loads(pickle.dumps(machine))
    assert again == machine
    assert [(one.id, one.demand, one.capacity, one.reason) for one in again.checks] == [
        (one.id, one.demand, one.capacity, one.reason) for one in machine.checks
    ]
    # also one of which all has been asked for
    with ProcessPoolExecutor(1) as pool:
        assert pool.submit(weakest, machine).result() == weakest(machine)


def test_each_result_is_worked_out_once_and_only_when_asked_for():
    machine = Machine(DEMO)
    assert set(vars(machine)) == {"design"}
    assert machine.shaft_beams is machine.shaft_beams
    assert "checks" not in vars(machine)
    assert machine.checks is machine.checks


def test_other_values_are_another_machine():
    machine = Machine(DEMO)
    thin = machine.with_values({"shaft_2.diameter": "20 mm"})
    assert (machine.verdict, thin.verdict) == ("tight", "fails")
    with pytest.raises(InputError, match=r"shaft_2\.diameter"):
        machine.with_values({"shaft_2.diameter": "20 kg"})


def test_an_old_name_says_what_to_type_now():
    with pytest.raises(InputError, match=r"type Machine\(design\)"):
        _ = mixerkit.assess
