"""Rules that strike out candidates of a gear path: what the shop can cut, strength, metal left in the rim."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

import numpy as np

from mixerkit.design import Design
from mixerkit.explore.pathleans import mixing_on
from mixerkit.machine import Machine
from mixerkit.parts import (
    face_load,
    film,
    formcutter,
    mesh,
    spurgear,
    tooth_lives,
    toothcontact,
    toothstrength,
)
from mixerkit.parts.face_spread import Spread, run_in
from mixerkit.parts.gear_body_checks import RIM, taken_out
from mixerkit.parts.mesh_lean import Lean
from mixerkit.parts.tooth_loads import life_cycles
from mixerkit.parts.zones import seat
from mixerkit.results import Array, Counts, Flags, Numbers, TableRow
from mixerkit.shop import indexing
from mixerkit.shop.workshop import Workshop
from mixerkit.spec import Spec
from mixerkit.tables import table

__all__ = [
    "Load",
    "Rules",
    "keep_cuttable",
    "keep_rim",
    "loads_of",
    "mesh_spare",
    "tips_of",
]


@dataclass(frozen=True)
class Load:
    """What the search needs of a design."""

    machine: Machine
    spec: Spec
    system: str
    apart: float
    gap: float
    cycles: float
    speed: float
    torques: Mapping[str, Array]
    jam: Mapping[str, float]
    material: Mapping[str, TableRow]
    shafts: tuple[float, float]


def loads_of(design: Design) -> Load:
    """What the search needs of a design, in plain numbers."""
    machine, spec = Machine(design), design
    into = machine.power_flow.torque_into_gear_path
    return Load(
        machine=machine,
        spec=spec,
        system=design.show_units,
        apart=spec.housing.centre_distance,
        gap=spec.safety.tip_clearance,
        cycles=life_cycles(machine),
        speed=machine.running_speed,
        torques={name: into[mixing_on(machine, name)] for name in ("direct", "idler")},
        jam=_most(machine, machine.load_cases.jammed),
        material={
            name: table("gear_materials").find(getattr(spec.paths, name).material).values
            for name in ("direct", "idler")
        },
        shafts=(
            max(seat(spec, 1, "idler gear"), spec.housing.hub_diameter),
            max(seat(spec, 2, "idler gear"), spec.housing.hub_diameter),
        ),
    )


def _most(machine: Machine, cases: Flags) -> dict[str, float]:
    """Greatest torque into each path in N*m, over some load cases."""
    into, clutch = machine.power_flow.torque_into_gear_path, machine.load_cases.clutch
    return {
        name: float(into[cases & (clutch == name)].max(initial=0.0)) for name in ("direct", "idler")
    }


class Rules:
    """Strikes candidates out rule by rule and counts; the first rule to strike one counts it."""

    def __init__(self, count: int) -> None:
        self.left = np.ones(count, bool)
        self.struck: dict[str, int] = {}

    def keep(self, rule: str, fits: np.ndarray) -> None:
        """Strike out what does not fit."""
        before = int(self.left.sum())
        self.left &= fits
        self.struck[rule] = before - int(self.left.sum())


def _cuttable(shop: Workshop, modules: np.ndarray, fewest: int, most: int) -> np.ndarray:
    """Whether the shop has the cutter, by module (rows) and tooth count (columns, from fewest)."""
    numbers = formcutter.cutter_number(np.arange(fewest, most + 1))
    return np.array(
        [
            np.isin(numbers, list(shop.cutters.get(round(float(module), 6), ())))
            for module in modules
        ]
    )


def tips_of(module: Array, counts: Counts, shift: Numbers = 0.0) -> Array:
    """Tip diameters in mm."""
    return np.asarray(spurgear.tip_diameter.formula(module, counts, shift))


def mesh_spare(
    load: Load,
    name: str,
    module: np.ndarray,
    driver: np.ndarray,
    counts: list[np.ndarray],
    shifts: list[np.ndarray],
    distance: np.ndarray,
    ratio: np.ndarray,
    lean: Lean,
) -> np.ndarray:
    """Strength over load of one mesh, by bending of both gears, by contact and by that in a jam, as the checks do it.

    ``driver`` is the tooth count of the path's gear on shaft 1, which sets the tooth force; ``lean`` is of this mesh
    in the states of :func:`mixerkit.explore.pathleans.mixing_on`.
    """
    path, material = getattr(load.spec.paths, name), load.material[name]
    tips = [spurgear.tip_diameter.formula(module, *one) for one in zip(counts, shifts, strict=True)]
    elastic = toothcontact.elastic_factor(material["elastic_modulus"], material["elastic_modulus"])
    shock, wide = toothstrength.HAND_CUT.application, path.face_width
    each = 2e3 * load.torques[name] / (module * driver)[:, None]
    most = np.maximum(ratio, 1.0)
    stiffness = face_load.mesh_stiffness(
        (counts[0], counts[1]), (shifts[0], shifts[1]), most, elastic
    )
    stiff = np.asarray(stiffness)[:, None]
    uneven = Spread.of(lean, wide, run_in(material, material), stiff, shock * each)
    # what governs is the most of force and unevenness together
    force = (each * uneven.factor).max(axis=1)
    root, contact = toothstrength.mesh_stresses(
        module,
        (counts[0], counts[1]),
        (shifts[0], shifts[1]),
        (tips[0], tips[1]),
        distance,
        most,
        wide,
        elastic,
        path.thinning,
    )
    safety = load.spec.safety
    bending = np.maximum(root[0], root[1]) * force * safety.tooth_bending
    touched = contact * np.sqrt(force) * safety.tooth_contact
    by_root = tooth_lives.lasting_root(material, load.cycles) / bending
    between = _film(load, name, module, driver, counts, distance)
    product = between[0] * between[1] * between[2]
    by_flank = tooth_lives.lasting_contact(material, load.cycles, product) / touched
    # a jam is itself the shock that the application factor stands for
    jam = 2e3 * load.jam[name] / (module * driver)
    before = Spread.of(lean, wide, 0.0, stiff, jam[:, None]).before[:, 0]
    dented = contact * np.sqrt(jam / shock * before) * safety.tooth_contact
    with np.errstate(divide="ignore"):
        once = tooth_lives.lasting_contact(material, 0.0, 1.0) / dented
    spare: Array = np.minimum(np.minimum(by_root, by_flank), once)
    return spare


def _film(
    load: Load,
    name: str,
    module: np.ndarray,
    driver: np.ndarray,
    counts: list[np.ndarray],
    distance: np.ndarray,
) -> tuple[Numbers, Numbers, Numbers]:
    """Z_L, Z_v and Z_R of one mesh."""
    first, second = (spurgear.base_diameter.formula(module, one) for one in counts)
    working = mesh.working_pressure_angle.formula(module, counts[0], counts[1], distance)
    return film.film_factors(
        load.material[name]["contact_limit"],
        load.spec.housing.lubricant_viscosity,
        np.pi * module * driver * load.speed / 60e3,
        getattr(load.spec.paths, name).flank_roughness,
        film.reduced_radius(first, second, working),
    )


def keep_cuttable(
    rules: Rules,
    shop: Workshop | None,
    module_row: np.ndarray,
    modules: np.ndarray,
    counts: list[np.ndarray],
    fewest: int,
    most: int,
) -> dict[tuple[float, int], int]:
    """Strike out what the shop cannot index, swing or cut; count what one cutter would unlock.

    Where there is no shop file nothing is struck out, and nothing is there to be unlocked.
    """
    if shop is None:
        return {}
    able = np.asarray(
        indexing.exact(np.arange(fewest, most + 1), shop.dividing_ratio, shop.circles)
    )
    rules.keep(
        "exact indexing on the shop's plates",
        np.logical_and.reduce([able[one - fewest] for one in counts]),
    )
    largest = np.maximum.reduce(counts)
    rules.keep(
        "blank within the largest",
        tips_of(modules[module_row], largest) <= shop.largest_blank,
    )
    has = _cuttable(shop, modules, fewest, most)
    missing = [~has[module_row, one - fewest] for one in counts]
    cutters = np.asarray(formcutter.cutter_number(np.arange(fewest, most + 1)))
    near = {}
    for row, module in enumerate(modules):
        for number in range(1, 9):
            span = cutters == number
            if number in shop.cutters.get(round(float(module), 6), ()) or not span.any():
                continue
            here = rules.left & (module_row == row)
            only = np.logical_and.reduce(
                [~gone | span[one - fewest] for gone, one in zip(missing, counts, strict=True)]
            )
            unlocked = int((here & only & np.logical_or.reduce(missing)).sum())
            if unlocked:
                near[float(module), number] = unlocked
    rules.keep("form cutter on the shelf", ~np.logical_or.reduce(missing))
    return near


def keep_rim(
    rules: Rules,
    load: Load,
    name: str,
    module: np.ndarray,
    counts: list[np.ndarray],
    shift: np.ndarray,
) -> None:
    """Strike out gears with too little metal between teeth and bush or keyway."""
    last = len(counts) - 1
    rims = [
        (
            np.asarray(spurgear.root_diameter.formula(module, count, shift))
            - taken_out(load.spec, name, place, last, load.system)
        )
        / 2
        for place, count in enumerate(counts)
    ]
    rules.keep("metal between teeth and bush or keyway", np.minimum.reduce(rims) >= RIM * module)
