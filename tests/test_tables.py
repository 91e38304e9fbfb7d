import csv
from itertools import pairwise

import numpy as np
import pytest

from mixerkit.data_files import data_path
from mixerkit.tables import next_up, table
from mixerkit.units import InputError

NAMES = sorted(path.stem for path in data_path("tables").glob("*.csv"))


@pytest.mark.parametrize("name", NAMES)
def test_every_row_has_a_source_and_reads(name):
    rows = table(name)
    assert len(rows) > 0
    for row in rows:
        assert len(row.source) > 10
    with data_path("tables", f"{name}.csv").open(encoding="utf-8") as lines:
        assert len(list(csv.reader(lines))) == len(rows) + 1


def test_units_come_from_the_header():
    steel = table("materials").find("steel C45 normalised")
    assert steel.yield_strength.m_as("MPa") == 305
    assert steel.elastic_modulus.m_as("MPa") == 210_000
    with pytest.raises(AttributeError):
        _ = steel.hardness


def test_misses_say_what_is_nearest():
    with pytest.raises(InputError, match='nearest is "steel C45 normalised"'):
        table("materials").find("steel C45 normalized")
    with pytest.raises(InputError, match='nearest is "materials"'):
        table("material")
    with pytest.raises(InputError, match="outside the table of keys"):
        table("keys").bracket(300, "above", "up_to")


def test_metric_keys_span_every_shaft_without_gap():
    rows = [row.values for row in table("keys") if row.values["series"] == "metric"]
    assert all(one["up_to"] == two["above"] for one, two in pairwise(rows))
    assert all(row["shaft_depth"] + row["hub_depth"] > row["height"] for row in rows)


def test_next_up_takes_the_size_itself_and_ends_in_infinity():
    sizes = np.array([10.0, 12.0, 16.0])
    assert next_up(10.0, sizes) == 10
    assert next_up(10.0 + 1e-12, sizes) == 10
    assert list(next_up(np.array([10.1, 16.0, 17.0]), sizes)) == [12, 16, np.inf]
