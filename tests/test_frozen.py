"""Nothing a caller gets can change a design, a table, the shop, or an answer that is handed out again."""

import copy
import dataclasses
import functools
import pickle
from types import FunctionType, MethodType, SimpleNamespace

import numpy as np
import pytest

from mixerkit import Design, Machine
from mixerkit.data_files import data_path
from mixerkit.frozen import Frozen, FrozenDict, Sealed, cached_property, frozen
from mixerkit.parts import fits, gear_pairs, zones
from mixerkit.shop.measurements import read_measurements
from mixerkit.shop.workshop import read_workshop
from mixerkit.tables import table
from mixerkit.units import Q_, Quantity, read_quantity

DEMOS = ["larkfield", "inch_room", "too_stiff", "thin_shaft"]
AT_REST = (
    str,
    bytes,
    int,
    float,
    complex,
    bool,
    type(None),
    np.generic,
    FunctionType,
    MethodType,
    type,
)
TABLES = sorted(path.stem for path in data_path("tables").glob("*.csv"))


def tries(thing):
    """Every way in which a thing might be changed: words, and what tries it."""
    if isinstance(thing, Quantity):
        yield from quantity_tries(thing)
    elif isinstance(thing, np.ndarray):
        yield "an element", lambda: thing.__setitem__(..., thing.flat[0] if thing.size else 0)
        yield "fill", lambda: thing.fill(thing.flat[0] if thing.size else 0)
        yield "sort", lambda: thing.sort(axis=0)
        yield "put", lambda: np.put(thing, [0], [0])
    elif isinstance(thing, dict):
        key = next(iter(thing), "new")
        yield "an item", lambda: thing.__setitem__(key, thing.get(key))
        yield "a new item", lambda: thing.update(new=1)
        yield "another new item", lambda: thing.setdefault("new", 1)
        yield "merging", lambda: thing.__ior__({"new": 1})
        yield "taking out", lambda: thing.pop(key, None)
        yield "taking the last", thing.popitem
        yield "deleting", lambda: thing.__delitem__(key)
        yield "emptying", thing.clear
    elif isinstance(thing, (list, bytearray)):
        yield "appending", lambda: thing.append(thing[-1] if thing else 0)
    elif isinstance(thing, set):
        yield "adding", lambda: thing.add("new")
    elif not isinstance(thing, (tuple, frozenset)):
        for name in [*vars(thing), "new"]:
            yield f"setting {name}", lambda name=name: setattr(thing, name, vars(thing).get(name))
            yield f"deleting {name}", lambda name=name: delattr(thing, name)


def quantity_tries(thing):
    for name in ("ito_base_units", "ito_root_units", "ito_reduced_units"):
        yield name, getattr(thing, name)
    yield "ito", lambda: thing.ito(thing.units)
    yield "another number", lambda: setattr(thing, "_magnitude", thing.magnitude)
    yield "another unit", lambda: setattr(thing, "_units", thing.units)
    if isinstance(thing.magnitude, np.ndarray):
        yield "an element", lambda: thing.__setitem__(0, thing[0])


def inside(thing):
    """What can be reached from a thing: its items, its attributes, and what it works out when asked."""
    if isinstance(thing, Quantity):
        yield "magnitude", thing.magnitude
    elif isinstance(thing, np.ndarray):
        if thing.base is not None:
            yield "base", thing.base
    elif isinstance(thing, dict):
        yield from thing.items()
    elif isinstance(thing, (tuple, list, set, frozenset)):
        yield from enumerate(thing)
    else:
        for kind in type(thing).__mro__:
            for name, one in vars(kind).items():
                asked = isinstance(one, (property, functools.cached_property))
                if asked and not name.startswith("_"):
                    yield name, getattr(thing, name)
        yield from list(vars(thing).items())


def walk(root, name):
    """Everything that can be reached from a root, once, with the way to it."""
    seen, left, kept = set(), [(name, root)], []
    while left:
        path, thing = left.pop()
        if isinstance(thing, AT_REST) or id(thing) in seen:
            continue
        seen.add(id(thing))
        kept.append(thing)  # so that no id is given out twice
        yield path, thing
        left += [(f"{path}.{where}", one) for where, one in inside(thing)]


def changeable(root, name):
    """Ways to each thing that let itself be changed."""
    found = []
    for path, thing in walk(root, name):
        for words, attempt in tries(thing):
            try:
                attempt()
            except (AttributeError, TypeError, ValueError, KeyError):
                continue
            found.append(f"{path}: {words}")
    return found


def numbers(found):
    return [(one.id, repr(one.demand), repr(one.capacity), one.reason) for one in found.checks]


@pytest.mark.parametrize("name", DEMOS)
def test_nothing_that_can_be_reached_lets_itself_be_changed(name):
    design = Design.demo(name)
    before = numbers(Machine(Design.demo(name)))
    written, stamp = design.to_toml(), design.fingerprint
    found = Machine(design)
    assert changeable(design, "design") == []
    assert changeable(found, "machine") == []
    assert (design.to_toml(), design.fingerprint) == (written, stamp)
    assert design == Design.demo(name)
    assert numbers(found) == before
    assert numbers(Machine(Design.demo(name))) == before


def test_the_walk_goes_everywhere():
    """A walk that turned back early would find nothing and prove nothing."""
    paths = [path for path, _ in walk(Machine(Design.demo()), "machine")]
    for part in (
        "motor._given.rated_power",
        "spec.motor",
        "machine.clay_load.clay",
        "machine.power_flow.stations",
        "machine.shaft_beams.0.turning.still",
        "ladder.0",
        "batch",
        "stations.0.speed",
        "losses.reducer",
        "needed_diameters.shaft 1",
        "checks.0",
    ):
        assert any(part in path for path in paths), part
    assert len(paths) > 800


@pytest.mark.parametrize(
    "spoiled",
    [
        SimpleNamespace(a=1),
        [1],
        {"a": 1},
        {1},
        np.zeros(3),
        (np.zeros(3)[1:],),
        Frozen(a=[1]),
        Frozen(a={"b": 1}),
    ],
)
def test_the_walk_notices_what_can_be_changed(spoiled):
    assert changeable(spoiled, "it")


@pytest.mark.parametrize("name", TABLES)
def test_tables_stay_as_they_are(name):
    before = [dict(row.values) for row in table(name)]
    assert changeable(table(name), name) == []
    for column in before[0]:
        values = table(name).column(column)
        with pytest.raises(ValueError, match="read-only"):
            values[:] = values[0]
    assert [dict(row.values) for row in table(name)] == before


def test_shop_and_sizes_stay_as_they_are():
    assert changeable(read_workshop(), "shop") == []
    made = read_measurements(data_path("measured", "larkfield_as_made.toml"))
    assert changeable(made, "sizes") == []


def test_what_is_remembered_between_designs_stays_as_it_is():
    spec = Design.demo()
    for name in ("direct", "idler"):
        path = getattr(spec.paths, name)
        meshes = gear_pairs.pairs(path, spec.housing.centre_distance)
        assert [found for one in meshes for found in changeable(one, name)] == []
        meshes.clear()
        assert gear_pairs.pairs(path, spec.housing.centre_distance)
    assert changeable(zones.bearing_for(35.0), "bearing") == []
    before = fits.fit(35.0, "H7/f7").hole
    with pytest.raises(dataclasses.FrozenInstanceError):
        fits.fit(35.0, "H7/f7").hole = (0.0, 0.0)
    assert fits.fit(35.0, "H7/f7").hole == before
    assert changeable(read_quantity("3/4 in", "mm"), "text") == []
    assert changeable(Q_("12 N*m"), "text") == []
    changed = Design.demo().to_table()
    changed["motor"]["rated_power"] = "99 kW"
    assert Design.demo().to_table()["motor"]["rated_power"] == "1.5 kW"


def test_a_quantity_is_turned_into_another_by_making_a_new_one():
    design = Design.demo()
    power = design.motor.given("rated_power")
    with pytest.raises(TypeError, match=r'"1.5 kW" cannot be changed in place'):
        power.ito("W")
    power += Q_("1 kW")
    power *= 2
    assert power.m_as("W") == pytest.approx(5000)
    torque = Machine(design).station("motor shaft").torque
    doubled = torque
    doubled *= 2
    assert doubled[0] == 2 * torque[0]
    assert design.motor.given("rated_power").m_as("kW") == 1.5


@pytest.mark.parametrize(
    "again", [copy.copy, copy.deepcopy, lambda one: pickle.loads(pickle.dumps(one))]
)
def test_copies_are_equal_and_as_frozen(again):
    design = Design.demo()
    twin = again(design)
    assert (twin, twin.fingerprint, twin.to_toml()) == (
        design,
        design.fingerprint,
        design.to_toml(),
    )
    assert vars(twin) == vars(design)
    assert changeable(twin, "twin") == []
    for one in (table("materials"), read_workshop(), Frozen(a=(1,)), FrozenDict(a=1)):
        assert again(one) == one
        assert changeable(again(one), "copy") == []
    assert numbers(Machine(twin)) == numbers(Machine(design))


def test_a_changed_copy_leaves_the_first_alone():
    spec = Design.demo()
    other = spec.changed(motor=spec.motor.changed(rated_power="49 kW"))
    assert (other.motor.rated_power, spec.motor.rated_power) == (49.0, 1.5)
    assert changeable(other, "other") == []
    with pytest.raises(dataclasses.FrozenInstanceError, match="rated_power"):
        spec.motor.rated_power = 99


def test_sealed_things_set_themselves_up_first():
    class Thing(Sealed):
        def __init__(self):
            self.sizes = [1, 2]
            self.sizes.append(3)
            self.seal()

        @cached_property
        def twice(self):
            """Twice as much."""
            return {"sizes": [2 * size for size in self.sizes]}

    assert changeable(Thing(), "thing") == []
    assert Thing().sizes == (1, 2, 3)
    assert Thing().twice == {"sizes": (2, 4, 6)}
    assert Thing.twice.__doc__ == "Twice as much."
    held = np.arange(4.0)
    assert frozen(held) is held
