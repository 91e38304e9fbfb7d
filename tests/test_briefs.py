"""Briefs drawn at random end in a design that holds, or in a named conflict with a change that frees it."""

import os

import briefs
import pytest

COUNT = int(os.environ.get("MIXERKIT_BRIEFS", "20"))
"""Briefs drafted; the long tier sets 200."""


@pytest.mark.parametrize("number", range(COUNT))
def test_a_brief_ends_in_a_design_that_holds_or_in_a_conflict(number):
    word, said, *_ = briefs.drafted((1, number))
    assert word in ("holds", "conflict"), said
