"""Every formula stands on published values, or in the list of those that have too few."""

from collections import Counter
from pathlib import Path

import pytest
from ledger import (
    ENOUGH,
    MEMORY,
    MOST_OF_ONE,
    SEEN,
    SOURCES,
    SPARE,
    counted,
    enough,
    formulas,
    rows_of,
    values,
)

FORMULAS = list(formulas())
VALUES = values()
WITHOUT = rows_of("without")


@pytest.mark.parametrize("value", VALUES, ids=lambda one: f"{one.formula}: {one.source}")
def test_published_value(value):
    for found, (wanted, _) in zip(value.found(), value.wanted(), strict=True):
        assert found == pytest.approx(wanted, rel=value.tolerance), value


def test_every_formula_is_in_one_of_both():
    have, short = counted(), {row["formula"] for row in WITHOUT}
    over = {name for name in FORMULAS if enough(have.get(name, Counter()))}
    assert sorted(set(FORMULAS) - over - short) == [], "neither enough values nor in the list"
    assert sorted(over & short) == [], f"has {ENOUGH} values from {SOURCES} sources: off the list"
    assert sorted(short - set(FORMULAS)) == [], "no such formula"


def test_the_list_says_what_there_is():
    have = counted()
    for row in WITHOUT:
        by_source = have.get(row["formula"], Counter())
        told = (int(row["values"]), int(row["sources"]))
        assert told == (sum(by_source.values()), len(by_source)), row
        assert len(row["why"]) > 20, row


def test_no_source_counts_more_than_its_share():
    """Over all formulas, table or book; the same work is called by one name."""
    of_one = sum(counted().values(), Counter())
    assert {source: count for source, count in of_one.items() if count > MOST_OF_ONE} == {}


def test_values_are_apart_and_told_whole():
    assert Counter((one.formula, one.given) for one in VALUES).most_common(1)[0][1] == 1
    for one in VALUES:
        assert one.formula in FORMULAS, one
        assert one.seen in (SEEN, SPARE, MEMORY), one
        assert one.source, one
        assert one.where, one
        # so wide a value would let a wrong factor through
        assert 0 < one.tolerance <= 0.05, one


def test_values_told_elsewhere_have_their_tests():
    texts = "".join(
        path.read_text("utf-8") for path in (Path(__file__).parent / "published").glob("*.py")
    )
    for row in rows_of("elsewhere"):
        assert row["formula"] in FORMULAS, row
        assert f"def {row['test']}(" in texts, row
        assert 0 < int(row["values"]) <= MOST_OF_ONE, row


def test_a_wrong_formula_is_found(monkeypatch):
    """The ledger tries what it counts: a tenth more stress and its values say so."""
    from mixerkit.parts import shaft

    right = shaft.torsional_stress
    monkeypatch.setattr(shaft, "torsional_stress", lambda **given: 1.1 * right(**given))
    mine = [one for one in VALUES if one.formula == "parts.shaft.torsional_stress"]
    assert len(mine) >= ENOUGH
    for one in mine:
        assert next(one.found()) != pytest.approx(next(one.wanted())[0], rel=one.tolerance)
