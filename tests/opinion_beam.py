"""A second opinion on the beam: stepped shafts solved again by a general frame library.

Run by tests/long.py, not by the quick tier; it needs the extra ``long`` and is never skipped: without
the library it fails.
"""

import numpy as np
import pytest

from mixerkit.parts import beam

WITHIN = 1e-3


def library(places, stiffness, force, supports, spread):
    """Reactions, deflections, slopes and moments just left of each node by finite elements."""
    from Pynite import FEModel3D

    frame, last = FEModel3D(), len(places) - 1
    # a modulus of one: the second moment then is the whole stiffness
    frame.add_material("unit", 1.0, 1.0, 0.3, 0.0)
    for k, place in enumerate(places):
        frame.add_node(f"n{k}", place, 0, 0)
        held = k in supports
        frame.def_support(f"n{k}", k == 0, held, True, True, True, False)
        frame.add_node_load(f"n{k}", "FY", force[k])
    for k in range(last):
        frame.add_section(f"s{k}", 1e9, stiffness[k], stiffness[k], stiffness[k])
        frame.add_member(f"m{k}", f"n{k}", f"n{k + 1}", "unit", f"s{k}")
        frame.add_member_dist_load(f"m{k}", "Fy", -spread[k], -spread[k])
    frame.analyze_linear()
    nodes = [frame.nodes[f"n{k}"] for k in range(last + 1)]
    spans = np.diff(places)
    bent = [0.0, *(frame.members[f"m{k}"].moment("Mz", spans[k], "Combo 1") for k in range(last))]
    return (
        np.array([nodes[k].RxnFY["Combo 1"] for k in supports]),
        np.array([node.DY["Combo 1"] for node in nodes]),
        np.array([node.RZ["Combo 1"] for node in nodes]),
        np.array(bent),
    )


def agree(ours, theirs, what):
    largest = np.abs(theirs).max()
    assert largest > 0, what
    assert np.abs(ours - theirs).max() <= WITHIN * largest, (what, ours, theirs)


def held_against(places, stiffness, force, supports, spread):
    one = beam.solve(places, stiffness, force, supports, spread=spread)
    reactions, lift, slope, moment = library(places, stiffness, force, supports, spread)
    agree(one.reactions, reactions, "reactions")
    agree(one.deflection, lift, "deflections")
    agree(one.slope, slope, "slopes")
    # the library counts moments the other way
    agree(one.moment_left, -moment, "moments")


@pytest.mark.parametrize("seed", range(200))
def test_stepped_shafts_on_three_bearings(seed):
    """Box, loads across a shaft of any steps; elements end where anything stands."""
    rng = np.random.default_rng(seed)
    count = int(rng.integers(8, 16))
    places = np.concatenate([[0.0], np.cumsum(rng.uniform(15.0, 120.0, count - 1))])
    stiffness = 2.06e5 * np.pi / 64 * rng.uniform(20.0, 60.0, count - 1) ** 4
    force = np.where(rng.random(count) < 0.6, rng.uniform(-4000.0, 4000.0, count), 0.0)
    supports = sorted(rng.choice(count, 3, replace=False).tolist())
    held_against(places, stiffness, force, supports, rng.uniform(0.0, 0.5, count - 1))
