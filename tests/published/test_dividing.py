"""Dividing head and form cutters against published tables."""

import pytest

from mixerkit.parts import formcutter
from mixerkit.shop import indexing
from mixerkit.shop.workshop import read_workshop

SHOP = read_workshop()
# Simple indexing with 40 turns, circles 15 to 20, 21 to 33 and 37 to 49: count, circle, turns, holes; as
# printed on the heads' index tables (Machinery's Handbook, simple indexing; from memory, and each row
# is checked below against its own arithmetic: 40 / count). Seen as worked examples in public training
# texts on simple indexing: 6 is 6 turns and 26 of 39, 7 is 5 turns and 5/7 of a circle
TABLE = """
3 39 13 13|6 39 6 26|7 49 5 35|9 27 4 12|11 33 3 21|12 39 3 13|13 39 3 3|14 49 2 42|15 39 2 26|16 20 2 10|17 17 2 6|18 27 2 6|
19 19 2 2|21 21 1 19|22 33 1 27|23 23 1 17|24 39 1 26|25 20 1 12|26 39 1 21|27 27 1 13|28 49 1 21|29 29 1 11|30 39 1 13|
31 31 1 9|32 20 1 5|33 33 1 7|34 17 1 3|35 49 1 7|36 27 1 3|37 37 1 3|38 19 1 1|39 39 1 1|41 41 0 40|42 21 0 20|43 43 0 40|44 33 0 30|
45 27 0 24|46 23 0 20|47 47 0 40|48 18 0 15|49 49 0 40|50 20 0 16|52 39 0 30|54 27 0 20|55 33 0 24|56 49 0 35|58 29 0 20|60 39 0 26
"""
WHOLE = {2: 20, 4: 10, 5: 8, 8: 5, 10: 4, 20: 2, 40: 1}


@pytest.mark.parametrize("row", TABLE.replace("\n", "").split("|"))
def test_the_published_settings_are_among_ours(row):
    count, circle, turns, holes = map(int, row.split())
    found = indexing.settings(count, 40, SHOP.plates)
    assert (turns, holes, circle) in {(one.turns, one.holes, one.circle) for one in found}
    assert indexing.what_it_cuts(turns, holes, circle, 40) == count


@pytest.mark.parametrize(("count", "turns"), WHOLE.items())
def test_whole_turns(count, turns):
    assert [(one.turns, one.holes) for one in indexing.settings(count, 40, SHOP.plates)] == [
        (turns, 0)
    ]


def test_the_table_is_complete_from_2_to_60():
    listed = {int(row.split()[0]) for row in TABLE.replace("\n", "").split("|")} | set(WHOLE)
    ours = {count for count in range(2, 61) if indexing.settings(count, 40, SHOP.plates)}
    assert ours == listed
    # 51, 53, 57 and 59 need what these plates have not: the handbook sends them to other plates
    assert set(range(2, 61)) - ours == {51, 53, 57, 59}


# form cutters, eight to the set: Machinery's Handbook and every maker's chart
EDGES = [
    (1, 135, 500),
    (2, 55, 134),
    (3, 35, 54),
    (4, 26, 34),
    (5, 21, 25),
    (6, 17, 20),
    (7, 14, 16),
    (8, 12, 13),
]


@pytest.mark.parametrize(("number", "least", "most"), EDGES)
def test_cutter_numbers_at_every_edge(number, least, most):
    assert int(formcutter.cutter_number(least)) == number
    assert int(formcutter.cutter_number(most)) == number
