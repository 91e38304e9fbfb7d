import golden
import pytest


def test_every_check_of_the_demos_stands_as_recorded():
    assert golden.differences(golden.recorded(), golden.worked_out()) == []


@pytest.mark.parametrize(
    ("old", "new", "said"),
    [
        ({"a": ["1.0", "2.0"]}, {"a": ["1.0", "2.000001"]}, "capacity"),
        ({"a": ["1.0", "2.0"]}, {}, "gone"),
        ({}, {"a": ["1.0", "2.0"]}, "new"),
        ({"a": ["nan", "2.0"]}, {"a": ["1.0", "2.0"]}, "demand"),
    ],
)
def test_the_record_notices(old, new, said):
    assert said in golden.differences({"d": old}, {"d": new})[0]


@pytest.mark.parametrize("demo", golden.DEMOS)
def test_ids_are_unique(demo):
    ids = list(golden.recorded()[demo])
    assert len(ids) == len(set(ids))
    assert len(ids) > 100
