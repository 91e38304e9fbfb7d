"""Thicker, stronger, slower, softer: what holds goes on holding, and the part itself has no less to spare.

``thicker_directions.csv`` says which way each numeric choice is stronger, or why it is no strength;
``thicker_exceptions.csv`` names, with the physical reason, every check that a stronger part may turn from
holding to failing, and each of its rows is one that the sweep needs, or one of drawn designs; ``thicker_own.csv`` names the checks of a
part's own strength, which never have less to spare. MIXERKIT_THICKER asks for so many designs more, drawn anew.
"""

import csv
import os
import random
from fnmatch import fnmatch
from pathlib import Path

import pytest
from test_goes_together import random_design

from mixerkit import Design, Machine
from mixerkit.explore.settable import choices
from mixerkit.fields import kinds_in
from mixerkit.fields.kinds import NumberKind, QuantityKind, WholeKind
from mixerkit.fields.lists import NumbersKind, QuantitiesKind, WholesKind
from mixerkit.units import InputError

HERE = Path(__file__).parent
NUMERIC = (NumberKind, QuantityKind, WholeKind, NumbersKind, QuantitiesKind, WholesKind)
STEPS = (1.1, 1.35, 1.7)
SOFTER = "clay.cone_penetration"
"""The one fact among them: a cone sinks deeper into softer clay."""
DESIGNS = {
    "larkfield": Design.demo(),
    "inch room": Design.demo("inch_room"),
    "worm box": Design.read(HERE / "worm_box.toml"),
}
SLACK = 1e-3
"""Share of what is to spare that weight and drag of the thicker part itself may take."""


def rows(name):
    """Rows of a table beside this file."""
    with (HERE / name).open(encoding="utf-8", newline="") as file:
        return list(csv.DictReader(file))


DIRECTIONS, EXCEPTIONS, OWN = (
    rows(f"thicker_{one}.csv") for one in ("directions", "exceptions", "own")
)
STRONGER = {one["field"]: one["way"] for one in DIRECTIONS if one["way"]}


def held(design, field):
    """What a design has in a field; nothing where the field is left out."""
    for name in field.split("."):
        design = getattr(design, name)
    return design


def moved(design, field, step):
    """A design with a field so many times thicker or stronger; nothing where it cannot be."""
    now, up = held(design, field), STRONGER[field] == "up"
    if now is None or now == ():
        return None
    kind = kinds_in(Design)[field]
    unit = kind.span.split(" ")[0] if isinstance(kind, (QuantityKind, QuantitiesKind)) else ""

    def written(value):
        if isinstance(value, int):
            return value + (1 if up else -1) * (STEPS.index(step) + 1)
        size = f"{value * step if up else value / step:.6g}"
        return f"{size} {unit}".strip()

    value = [written(one) for one in now] if isinstance(now, tuple) else written(now)
    try:
        return design.with_values({field: value})
    except InputError:
        return None


def swept(design):
    """Every field moved by every step: field, step, checks before and after by id."""
    before = {one.id: one for one in Machine(design).checks}
    for field in STRONGER:
        for step in STEPS:
            after = moved(design, field, step)
            if after is not None:
                yield field, step, before, {one.id: one for one in Machine(after).checks}


def looked_at(designs):
    """What turned without an exception, what has less to spare of its own strength, and exceptions that were needed."""
    turned, weaker, needed = [], [], set()
    for name, design in designs.items():
        for field, step, before, after in swept(design):
            own = [one["check"] for one in OWN if one["field"] == field]
            for one, check in after.items():
                was = before.get(one)
                if was is None or was.verdict == "fails":
                    continue
                if check.judged and check.spare < was.spare * (1 - SLACK):
                    weaker += [(name, field, step, one) for of in own if fnmatch(one, of)]
                if check.verdict == "fails":
                    allowed = {
                        k
                        for k, row in enumerate(EXCEPTIONS)
                        if fnmatch(field, row["field"]) and fnmatch(one, row["check"])
                    }
                    needed |= allowed
                    turned += [] if allowed else [(name, field, step, one)]
    return turned, weaker, needed


def test_every_numeric_choice_has_a_direction_or_a_reason_for_none():
    numeric = {name for name, kind in choices() if isinstance(kind, NUMERIC)}
    listed = {one["field"] for one in DIRECTIONS}
    assert listed - {SOFTER} == numeric
    assert all(bool(one["way"]) != bool(one["why"]) for one in DIRECTIONS)
    assert {one["way"] for one in DIRECTIONS} == {"", "up", "down"}


@pytest.fixture(scope="module")
def sweep():
    return looked_at(DESIGNS)


def test_what_is_stronger_turns_nothing_that_holds(sweep):
    turned, _, needed = sweep
    assert not turned
    idle = [
        f"{row['field']}: {row['check']}"
        for k, row in enumerate(EXCEPTIONS)
        if k not in needed and row["where"] != "drawn"
    ]
    assert not idle, "exceptions that nothing needs"


def test_a_stronger_part_has_no_less_to_spare_itself(sweep):
    _, weaker, _ = sweep
    assert not weaker


def test_larger_teeth_further_apart_bend_less():
    for design in DESIGNS.values():
        apart = held(design, "housing.centre_distance")
        modules = [held(design, f"paths.{one}.module") for one in ("direct", "idler")]
        larger = design.with_values(
            {
                "housing.centre_distance": f"{1.2 * apart:.9g} mm",
                "paths.direct.module": f"{1.2 * modules[0]:.9g} mm",
                "paths.idler.module": f"{1.2 * modules[1]:.9g} mm",
            }
        )
        for one, after in zip(
            *(Machine(of).of_stage("gears") for of in (design, larger)), strict=True
        ):
            if "teeth do not break" in one.name:
                assert after.spare > one.spare


@pytest.mark.skipif("MIXERKIT_THICKER" not in os.environ, reason="part of the long tier")
def test_designs_drawn_anew_hold_the_same():
    draw, designs = random.Random(int(os.environ.get("MIXERKIT_SPOILED_SEED", "1"))), {}
    while len(designs) < int(os.environ["MIXERKIT_THICKER"]):
        try:
            design = DESIGNS["larkfield"].with_values(random_design(draw))
        except InputError:
            continue
        if Machine(design).verdict != "fails":
            designs[f"drawn {len(designs)}"] = design
    turned, weaker, _ = looked_at(designs)
    assert not turned
    assert not weaker
