"""What is kept of some tables of a design follows them, and nothing else."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from mixerkit import Design, Machine
from mixerkit.load import stem_checks
from mixerkit.parts import bodies, passing, shaftline, stack

DEMO, INCH = Design.demo(), Design.demo("inch_room")
KEPT = (
    (stack.laid, (1,)),
    (stack.laid, (2,)),
    (passing.way_of, (1,)),
    (passing.way_of, (2,)),
    (bodies._together, ()),
    (stem_checks._held, ()),
)
MOVED = {
    "shaft_1.diameter": (30, 60),
    "shaft_2.diameter": (30, 60),
    "bearings.span": (500, 900),
    "bearings.free_gear_length": (20, 60),
    "paths.direct.position": (20, 60),
    "paths.idler.face_width": (15, 40),
    "clutch.sleeve_length": (30, 80),
    "hubs.box_length": (40, 90),
    "reducer.overhang": (60, 160),
    "housing.plate_thickness": (8, 25),
    "trough.wall_thickness": (1, 6),
    "paddles.stem_thickness": (5, 30),
    "sleeve.outer_diameter": (60, 80),
    "batch.mass": (5, 20),
}


@pytest.mark.parametrize("design", [DEMO, INCH], ids=["larkfield", "inch_room"])
@given(field=st.sampled_from(sorted(MOVED)), share=st.floats(0, 1))
def test_what_is_kept_is_what_is_worked_out_anew(design, field, share):
    low, high = MOVED[field]
    unit = "kg" if field == "batch.mass" else "mm"
    try:
        moved = design.with_values({field: f"{low + share * (high - low):.3f} {unit}"})
    except ValueError:
        return
    for function, rest in KEPT:
        for _ in range(2):
            assert function(moved, *rest) == function.__wrapped__(moved, *rest)


def test_a_table_that_has_no_say_works_nothing_out_anew():
    heavier = DEMO.with_values({"batch.mass": "11 kg"})
    assert stack.laid(heavier, 1) is stack.laid(DEMO, 1)
    thicker = DEMO.with_values({"shaft_1.diameter": "52 mm"})
    assert stack.laid(thicker, 1) is not stack.laid(DEMO, 1)


@given(field=st.sampled_from(sorted(MOVED)), share=st.floats(0, 1))
def test_a_shaft_that_is_kept_is_the_shaft_worked_out_anew(field, share):
    low, high = MOVED[field]
    try:
        moved = DEMO.with_values(
            {field: f"{low + share * (high - low):.3f} {'kg' if field == 'batch.mass' else 'mm'}"}
        )
    except ValueError:
        return
    for number in (1, 2):
        kept, anew = shaftline._unloaded(moved, number), shaftline._Unloaded(moved, number)
        for name in ("places", "diameters", "factors", "left", "stiffness", "hung", "bent_by"):
            assert np.array_equal(getattr(kept, name), getattr(anew, name)), name
        assert np.array_equal(kept.forced.slope, anew.forced.slope)
        assert np.array_equal(kept._by.moment, anew._by.moment)
        assert (kept.what, kept.notches) == (anew.what, anew.notches)


def test_two_machines_alike_but_in_their_loads_share_their_shafts_and_no_load():
    one, other = Machine(DEMO), Machine(DEMO.with_values({"batch.mass": "13 kg"}))
    first, second = one.shaft_beams[0], other.shaft_beams[0]
    assert first.bent_by is second.bent_by
    assert (first.machine, second.machine) == (one, other)
    assert not np.array_equal(first.running.moment, second.running.moment)
