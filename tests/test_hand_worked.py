"""Single values worked out by hand where nothing else would notice that they are wrong."""

import numpy as np
import pytest

from mixerkit import Design, Machine
from mixerkit.parts import bush_checks, hub
from mixerkit.parts.bodies import bodies
from mixerkit.parts.passing import way_on
from mixerkit.parts.stack import laid

DEMO = Machine(Design.demo())


def test_dogs_stand_on_the_faces_that_look_at_the_sleeve():
    # gears 40 mm wide at 35 and 150 mm, dogs 10 mm high: 55 to 65 mm, and 120 to 130 mm
    found = {one.name: one for one in bodies(DEMO.spec, [one.stack for one in DEMO.shaft_beams])}
    spans = {
        name.split()[3]: (one.start, one.end)
        for name, one in found.items()
        if name.startswith("dogs of the")
    }
    assert spans == {"direct": (55.0, 65.0), "idler": (120.0, 130.0)}


def test_a_free_gear_lies_on_its_bush_with_its_own_weight():
    # 30 teeth of 5 mm, 40 mm wide, steel of 7.85 kg a litre: pi/4 15^2 4 cm^3 = 707 cm^3, 5.549 kg, 54.4 N
    carried = bush_checks._carried_free(
        Machine(
            Design.demo().with_values(
                {"paths.direct.tooth_counts": [30, 30], "paths.idler.tooth_counts": [20, 24, 20]}
            )
        )
    )
    held_idler = DEMO.load_cases.clutch == "idler"
    assert carried[held_idler] == pytest.approx(54.42, rel=1e-3)
    # 20 teeth: four ninths of it
    assert carried[DEMO.load_cases.clutch == "direct"] == pytest.approx(24.19, rel=1e-3)
    assert carried[DEMO.load_cases.clutch == "neutral"] == pytest.approx(54.42, rel=1e-3)


def test_two_set_screws_stand_at_120_degrees_unless_said_otherwise():
    # 1 + cos(60 deg) = 1.5 times one screw of 1000 N at a radius of 20 mm: 30 N m
    assert float(hub.set_screw_torque("1000 N", "40 mm", 2).magnitude) == pytest.approx(30.0)
    assert float(hub.set_screw_torque("1000 N", "40 mm", 3).magnitude) == pytest.approx(50.0)


def test_of_orders_that_are_alike_each_thing_comes_from_its_nearer_end():
    # a plain bar of 680 mm: the sleeve with paddles, from 235 mm on, is nearer to the far end
    spec = DEMO.spec
    way = way_on(laid(spec, 2))
    assert [one for one in way.from_left if not one.startswith("ring")] == [
        "bearing at the plate at the trough",
        "idler gear",
        "direct gear",
        "bearing at the plate at the reducer",
    ]
    assert [one for one in way.from_right if not one.startswith("ring")] == [
        "sleeve with paddles",
        "bearing at the far end of the trough",
    ]


def test_two_planes_add_as_the_root_of_their_squares():
    # a push on the bearing itself, 300 N level and 400 N upwards, beside what it bears of the weight
    beam = DEMO.shaft_beams[1]
    force = np.zeros((1, len(beam.places), 2))
    support = beam.supports[1]
    weight = beam.weight.reaction[1]
    force[0, support] = (300.0, 400.0)
    found = beam.reactions(force)[0, 1] - beam.forced.reaction[1]
    assert found == pytest.approx(np.hypot(300.0, weight - 400.0), rel=1e-6)
