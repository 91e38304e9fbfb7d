"""Values that nobody looked up now, and that decide verdicts: no demo fails at either end of what they may be.

``tests/from_memory.csv`` names each, where it stands, how low and how high it may plausibly be, and why. The
value in use lies at the end that hurts, or is the one remembered where no demo minds either end; so no check that
holds turns into one that fails.
"""

import csv
import importlib
import sys
from pathlib import Path

import pytest

from mixerkit import Design, Machine, tables
from mixerkit.frozen import FrozenDict
from mixerkit.tables import table

DEMOS = ("larkfield", "inch_room")
with (Path(__file__).parent / "from_memory.csv").open(encoding="utf-8", newline="") as lines:
    LISTED = list(csv.DictReader(lines))


def forget():
    """Empty every cache of the kit but that of the tables themselves."""
    for name, module in list(sys.modules.items()):
        if name.split(".")[0] == "mixerkit":
            for one in list(vars(module).values()):
                if hasattr(one, "cache_clear") and one is not tables.table:
                    one.cache_clear()


def holding():
    """Ids of the checks of the demos that hold."""
    return {
        (demo, one.id)
        for demo in DEMOS
        for one in Machine(Design.demo(demo)).checks
        if one.verdict != "fails"
    }


class Place:
    """Where a value stands.

    ``table, first cell of its row, column`` of data/tables, or ``module, NAME`` or ``module, NAME, key``.
    """

    def __init__(self, where):
        self.parts = [one.strip() for one in where.split(",")]
        self.of_table = not self.parts[0].startswith("mixerkit.")
        if self.of_table:
            name, key, column = self.parts
            rows = [one for one in table(name) if _plain(next(iter(one.values.values()))) == key]
            assert len(rows) == 1, f"{where}: {len(rows)} rows"
            self.row, self.key = rows[0], column
        else:
            self.module, self.key = importlib.import_module(self.parts[0]), self.parts[1]

    def get(self):
        if self.of_table:
            return self.row.values[self.key]
        whole = getattr(self.module, self.key)
        return whole[self._inside(whole)] if len(self.parts) > 2 else whole

    def put(self, value, patch):
        if self.of_table:
            changed = FrozenDict({**self.row.values, self.key: value})
            # a row is frozen; so is the table that holds it, and every place that has read it shares it
            patch.setitem(self.row.__dict__, "values", changed)
            return
        whole = getattr(self.module, self.key)
        new = {**whole, self._inside(whole): value} if len(self.parts) > 2 else value
        found = [
            module
            for name, module in list(sys.modules.items())
            if name.split(".")[0] == "mixerkit" and vars(module).get(self.key) is whole
        ]
        for module in found:
            patch.setattr(module, self.key, new)

    def _inside(self, whole):
        return next(one for one in whole if str(one) == self.parts[2])


def _plain(cell):
    return f"{cell:g}" if isinstance(cell, float) else cell


@pytest.fixture(scope="module")
def before():
    forget()
    yield holding()
    forget()


@pytest.fixture
def patch():
    with pytest.MonkeyPatch.context() as one:
        yield one
    forget()


@pytest.mark.parametrize("row", LISTED, ids=lambda row: row["where"])
def test_no_demo_fails_at_either_end(row, before, patch):
    place, ends = Place(row["where"]), (float(row["low"]), float(row["high"]))
    used = place.get()
    assert ends[0] <= used <= ends[1], f"{row['where']}: {used} lies outside"
    for end in ends:
        if end != used:
            place.put(end, patch)
            forget()
            assert before - holding() == set(), f"{row['where']} at {end:g}"
            patch.undo()


def test_every_row_says_why_and_reaches_the_checks():
    for row in LISTED:
        assert len(row["why"]) > 20, row
        assert float(row["low"]) < float(row["high"]), row


def test_a_worse_value_is_felt(before, patch):
    """The change of a row and that of a constant come through to the verdicts."""
    for where, worse in (
        ("gear_materials, steel 42CrMo4 quenched and tempered, contact_limit", 300.0),
        ("mixerkit.parts.welds, STAINLESS", 200.0),
        ("mixerkit.parts.deflection, SLOPE_AT_BEARINGS, rolling", 1e-4),
    ):
        Place(where).put(worse, patch)
        forget()
        assert before - holding(), where
        patch.undo()
    forget()
    assert holding() == before
