"""Both gear paths from a centre distance and a wanted speed: every tooth count the shop can cut.

All candidates are laid out as arrays, every rule strikes some out, and each reason is counted, so
that an empty answer says which rule emptied it. A direct pair is unshifted or takes the shift that
closes it on the centre distance; the idler's meshes are unshifted, because the idler goes where
they close.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field

import numpy as np

from mixerkit.design import Design
from mixerkit.machine import Machine
from mixerkit.parts import formcutter, mesh, spurgear, toothcontact, toothstrength, undercut
from mixerkit.parts.gear_body_checks import RIM, taken_out
from mixerkit.parts.tooth_loads import life_cycles
from mixerkit.results import Array, Counts, Indices, Numbers, TableRow
from mixerkit.shop import indexing
from mixerkit.shop.workshop import Workshop
from mixerkit.spec import Spec
from mixerkit.tables import table
from mixerkit.units import InputError

__all__ = ["GOALS", "Candidates", "Found", "Goals", "purchases", "search"]

GOALS = ("spare", "size", "smoothness")
"""What answers may be ranked by: strength to spare, small blanks, contact ratio."""


@dataclass(frozen=True)
class Goals:
    """What is wanted of both paths.

    Attributes
    ----------
    ratio : float
        Turns of shaft 2 for one of shaft 1, the same on both paths, counted without its sign.
    tolerance : float
        How far a path may be off that ratio, as a share.
    fewest, most : int
        Tooth counts to look at.
    modules : tuple of float
        In mm; those the shop has cutters for, if empty.
    largest_shift : float
        Largest profile shift of either gear of a direct pair.
    order : str
        One of :data:`GOALS`.
    """

    ratio: float = 1.0
    tolerance: float = 0.02
    fewest: int = 12
    most: int = 70
    modules: tuple[float, ...] = ()
    largest_shift: float = 0.5
    order: str = "spare"


@dataclass(frozen=True)
class Candidates:
    """One path's candidates after all rules.

    Attributes
    ----------
    module, counts, shift, spare, ratio, tip, place : numpy.ndarray
        Of those left: module in mm, tooth counts (n, 2 or 3), shift of each gear of a direct pair,
        strength over load, contact ratio, largest tip diameter in mm, and the idler's distance
        from the line of the shafts in mm.
    looked_at : int
    struck : dict of str to int
        For each rule, how many candidates it alone or first struck out.
    near : dict of tuple to int
        Candidates that only a missing cutter (module, number) strikes out.
    """

    module: np.ndarray
    counts: np.ndarray
    shift: np.ndarray
    spare: np.ndarray
    ratio: np.ndarray
    tip: np.ndarray
    place: np.ndarray
    looked_at: int
    struck: dict[str, int]
    near: dict[tuple[float, int], int] = field(default_factory=dict)


@dataclass(frozen=True)
class Found:
    """Answer of a search.

    Attributes
    ----------
    direct, idler : Candidates
    pairs : numpy.ndarray, shape (n, 2)
        Rows of ``direct`` and ``idler`` that go together, best first.
    spare, size, smoothness : numpy.ndarray
        Of each pair: least strength over load, sum of largest blanks in mm, least contact ratio.
    struck_together : int
        Combinations struck out because the idler's pin meets the direct pair.
    """

    direct: Candidates
    idler: Candidates
    pairs: np.ndarray
    spare: np.ndarray
    size: np.ndarray
    smoothness: np.ndarray
    struck_together: int

    @property
    def looked_at(self) -> int:
        """Candidates of both paths."""
        return self.direct.looked_at + self.idler.looked_at

    @property
    def why_empty(self) -> str:
        """Which rule emptied the answer, in a sentence; empty where there is an answer."""
        if len(self.pairs):
            return ""
        for name, one in (("direct", self.direct), ("idler", self.idler)):
            if not len(one.module):
                rule, count = max(one.struck.items(), key=lambda item: item[1])
                last = [rule for rule, struck in one.struck.items() if struck][-1]
                return (
                    f"No {name} path is left: of {one.looked_at} candidates most ({count}) were struck out by "
                    f'"{rule}", and the last by "{last}".'
                )
        return (
            f"All {self.struck_together} combinations bring the idler's pin into the direct pair."
        )

    def values(self, row: int) -> dict[str, object]:
        """Design fields of one answer, by dotted name."""
        i, j = self.pairs[row]
        shift = float(self.direct.shift[i])
        return {
            "paths.direct.module": f"{self.direct.module[i]:g} mm",
            "paths.direct.tooth_counts": [int(count) for count in self.direct.counts[i]],
            "paths.direct.profile_shift_coefficients": [round(shift, 4)] * 2 if shift else [],
            "paths.idler.module": f"{self.idler.module[j]:g} mm",
            "paths.idler.tooth_counts": [int(count) for count in self.idler.counts[j]],
            "paths.idler.profile_shift_coefficients": [],
        }

    def front(self) -> np.ndarray:
        """Rows that no other answer beats in both spare and size."""
        order = np.argsort(self.size, kind="stable")
        best = np.maximum.accumulate(self.spare[order])
        keep = np.concatenate([[True], best[1:] > best[:-1]]) if len(order) else np.array([], bool)
        best_rows: Indices = order[keep]
        return best_rows


def search(design: Design, shop: Workshop, goals: Goals | None = None) -> Found:
    """Find both paths' tooth counts for a design's centre distance and load.

    Parameters
    ----------
    design : Design
        Its centre distance, shafts, face widths, materials and loads are kept.
    shop : Workshop
        Only what it can cut and index is offered.
    goals : Goals, optional

    Returns
    -------
    Found

    Raises
    ------
    InputError
        If the goals' order is unknown or their range of tooth counts empty.
    """
    goals = goals or Goals()
    if goals.order not in GOALS:
        raise InputError(f'"{goals.order}" is not an order; one of {", ".join(GOALS)} is wanted.')
    if not 12 <= goals.fewest <= goals.most <= 200:
        raise InputError(
            f"tooth counts from {goals.fewest} to {goals.most} do not fit; a range within 12 to 200 is wanted."
        )
    load = _loads(design)
    direct, idler = _direct(load, shop, goals), _idler(load, shop, goals)
    return _together(load, direct, idler, goals)


@dataclass(frozen=True)
class _Load:
    """What the search needs of a design."""

    spec: Spec
    system: str
    apart: float
    gap: float
    bending_life: float
    contact_life: float
    torque: Mapping[str, float]
    material: Mapping[str, TableRow]
    shafts: tuple[float, float]


def _loads(design: Design) -> _Load:
    """What the search needs of a design, in plain numbers."""
    found = Machine(design)
    flow, machine, spec = found.power_flow, found, design
    bending_life, contact_life = map(float, toothstrength.life_factors(life_cycles(machine)))
    return _Load(
        spec=spec,
        system=design.show_units,
        apart=spec.housing.centre_distance,
        gap=spec.safety.tip_clearance,
        bending_life=bending_life * toothstrength.REVERSED * toothstrength.STRESSING,
        contact_life=contact_life,
        torque={
            name: float(
                flow.torque_into_gear_path[
                    machine.load_cases.mixing & (machine.load_cases.clutch == name)
                ].max()
            )
            for name in ("direct", "idler")
        },
        material={
            name: table("gear_materials").find(getattr(spec.paths, name).material).values
            for name in ("direct", "idler")
        },
        shafts=(
            max(spec.shaft_1.diameter, spec.housing.hub_diameter),
            max(spec.shaft_2.diameter, spec.housing.hub_diameter),
        ),
    )


class _Rules:
    """Strikes candidates out rule by rule and counts; the first rule to strike one counts it."""

    def __init__(self, count: int) -> None:
        self.left = np.ones(count, bool)
        self.struck: dict[str, int] = {}

    def keep(self, rule: str, fits: np.ndarray) -> None:
        before = int(self.left.sum())
        self.left &= fits
        self.struck[rule] = before - int(self.left.sum())


def _cuttable(shop: Workshop, modules: np.ndarray, fewest: int, most: int) -> np.ndarray:
    """Whether the shop has the cutter, by module (rows) and tooth count (columns, from fewest)."""
    numbers = formcutter.cutter_number(np.arange(fewest, most + 1))
    return np.array(
        [np.isin(numbers, list(shop.cutters.get(float(module), ()))) for module in modules]
    )


def _tips(module: Array, counts: Counts, shift: Numbers = 0.0) -> Array:
    return np.asarray(spurgear.tip_diameter.formula(module, counts, shift))


def _spare(
    load: _Load,
    name: str,
    module: np.ndarray,
    driver: np.ndarray,
    counts: list[np.ndarray],
    shifts: list[np.ndarray],
    distance: np.ndarray,
    ratio: np.ndarray,
) -> np.ndarray:
    """Strength over load of one mesh, by bending of both gears and by contact, as the checks do it.

    ``driver`` is the tooth count of the path's gear on shaft 1, which sets the tooth force.
    """
    path, material = getattr(load.spec.paths, name), load.material[name]
    force = 2e3 * load.torque[name] / (module * driver)
    tips = [spurgear.tip_diameter.formula(module, *one) for one in zip(counts, shifts, strict=True)]
    elastic = toothcontact.elastic_factor(material["elastic_modulus"], material["elastic_modulus"])
    root, contact = toothstrength.mesh_stresses(
        module,
        (counts[0], counts[1]),
        (shifts[0], shifts[1]),
        (tips[0], tips[1]),
        distance,
        np.maximum(ratio, 1.0),
        path.face_width,
        elastic,
        path.thinning,
    )
    safety = load.spec.safety
    bending = np.maximum(root[0], root[1]) * force * safety.tooth_bending
    touched = contact * np.sqrt(force) * safety.tooth_contact
    by_root = material["bending_limit"] * load.bending_life / bending
    spare: Array = np.minimum(by_root, material["contact_limit"] * load.contact_life / touched)
    return spare


def _rule_shop(
    rules: _Rules,
    shop: Workshop,
    module_row: np.ndarray,
    modules: np.ndarray,
    counts: list[np.ndarray],
    fewest: int,
    most: int,
) -> dict[tuple[float, int], int]:
    """Strike out what the shop cannot index, swing or cut; count what one cutter would unlock."""
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
        _tips(modules[module_row], largest) <= shop.largest_blank,
    )
    has = _cuttable(shop, modules, fewest, most)
    missing = [~has[module_row, one - fewest] for one in counts]
    cutters = np.asarray(formcutter.cutter_number(np.arange(fewest, most + 1)))
    near = {}
    for row, module in enumerate(modules):
        for number in range(1, 9):
            span = cutters == number
            if number in shop.cutters.get(float(module), ()) or not span.any():
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


def _rule_rim(
    rules: _Rules,
    load: _Load,
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


def _modules(shop: Workshop, goals: Goals) -> np.ndarray:
    return np.array(sorted(goals.modules or shop.cutters), float)


def _direct(load: _Load, shop: Workshop, goals: Goals) -> Candidates:
    modules, span = _modules(shop, goals), np.arange(goals.fewest, goals.most + 1)
    row, one, two = (
        grid.ravel() for grid in np.meshgrid(np.arange(len(modules)), span, span, indexing="ij")
    )
    module = modules[row]
    rules = _Rules(len(module))
    rules.keep("wanted speed of shaft 2", np.abs(one / two / goals.ratio - 1) <= goals.tolerance)
    with np.errstate(invalid="ignore"):
        total = mesh.shift_sum.formula(module, one, two, load.apart)
    closes = np.abs(np.nan_to_num(total, nan=9.0)) < 1e-9
    shift = np.where(closes, 0.0, np.nan_to_num(total, nan=9.0) / 2)
    rules.keep("profile shift within limits", np.abs(shift) <= goals.largest_shift)
    small = np.minimum(one, two)
    rules.keep("no undercut", shift >= undercut.least_shift(small) - 1e-9)
    tip = _tips(module, np.maximum(one, two), np.clip(shift, -1, 1))
    thinnest = spurgear.thinned_tip(
        module, small, np.clip(shift, -1, 1), load.spec.paths.direct.thinning
    )
    rules.keep("tips not pointed", np.asarray(thinnest) >= 0.2 * module)
    near = _rule_shop(rules, shop, row, modules, [one, two], goals.fewest, goals.most)
    left = np.flatnonzero(rules.left)
    module, one, two, shift, tip = module[left], one[left], two[left], shift[left], tip[left]
    tips = [_tips(module, count, shift) for count in (one, two)]
    ratio = np.asarray(mesh.contact_ratio.formula(module, one, two, tips[0], tips[1], load.apart))
    late = _Rules(len(left))
    late.keep("contact ratio of 1.2", ratio >= 1.2)
    apart = np.full(len(left), load.apart)
    spare = _spare(load, "direct", module, one, [one, two], [shift, shift], apart, ratio)
    late.keep("teeth strong enough", spare >= 1)
    _rule_rim(late, load, "direct", module, [one, two], shift)
    keep = late.left
    return Candidates(
        module[keep],
        np.column_stack([one, two])[keep],
        shift[keep],
        spare[keep],
        ratio[keep],
        tip[keep],
        np.zeros(int(keep.sum())),
        len(rules.left),
        rules.struck | late.struck,
        near,
    )


def _idler(load: _Load, shop: Workshop, goals: Goals) -> Candidates:
    modules, span = _modules(shop, goals), np.arange(goals.fewest, goals.most + 1)
    row, one, idle, two = (
        grid.ravel()
        for grid in np.meshgrid(np.arange(len(modules)), span, span, span, indexing="ij")
    )
    looked_at, rules = len(row), _Rules(len(row))
    module = modules[row]
    rules.keep("wanted speed of shaft 2", np.abs(one / two / goals.ratio - 1) <= goals.tolerance)
    # the rest is worked out for what is left, because that is little
    left = np.flatnonzero(rules.left)
    row, one, idle, two = (values[left] for values in (row, one, idle, two))
    module = module[left]
    late = _Rules(len(left))
    tips = [_tips(module, count) for count in (one, idle, two)]
    late.keep("shaft gears clear each other", (tips[0] + tips[2]) / 2 + load.gap <= load.apart)
    first = np.asarray(mesh.centre_distance.formula(module, one, idle))
    second = np.asarray(mesh.centre_distance.formula(module, idle, two))
    late.keep("idler reaches both shafts", first + second >= 1.02 * load.apart)
    late.keep(
        "no undercut",
        np.minimum(np.minimum(one, two), idle) >= np.ceil(undercut.undercut_tooth_count() - 1e-9),
    )
    aside = np.asarray(mesh.idler_place.formula(load.apart, first, second)[1])
    tip = tips[1] / 2
    late.keep(
        "idler clears shafts and hubs",
        np.minimum(first - load.shafts[0] / 2, second - load.shafts[1] / 2) - tip >= load.gap,
    )
    late.keep("idler inside the case", aside + tip + load.gap <= load.spec.housing.wall_distance)
    near = _rule_shop(late, shop, row, modules, [one, idle, two], goals.fewest, goals.most)
    left = np.flatnonzero(late.left)
    one, idle, two = (values[left] for values in (one, idle, two))
    module, first, second, aside = (values[left] for values in (module, first, second, aside))
    tips = [values[left] for values in tips]
    last = _Rules(len(left))
    ratios = [
        np.asarray(mesh.contact_ratio.formula(module, one, idle, tips[0], tips[1], first)),
        np.asarray(mesh.contact_ratio.formula(module, idle, two, tips[1], tips[2], second)),
    ]
    ratio = np.minimum(*ratios)
    last.keep("contact ratio of 1.2", ratio >= 1.2)
    none = np.zeros(len(left))
    meshes = (([one, idle], first, ratios[0]), ([idle, two], second, ratios[1]))
    spare = np.minimum(
        *[
            _spare(load, "idler", module, one, pair, [none, none], apart, own)
            for pair, apart, own in meshes
        ]
    )
    last.keep("teeth strong enough", spare >= 1)
    _rule_rim(last, load, "idler", module, [one, idle, two], none)
    keep = last.left
    counts = np.column_stack([one, idle, two])[keep]
    return Candidates(
        module[keep],
        counts,
        none[keep],
        spare[keep],
        ratio[keep],
        np.maximum.reduce(tips)[keep],
        aside[keep],
        looked_at,
        rules.struck | late.struck | last.struck,
        near,
    )


def _together(load: _Load, direct: Candidates, idler: Candidates, goals: Goals) -> Found:
    """Put paths together: the idler's pin passes the plane of the direct pair and must clear it."""
    pin = load.spec.housing.idler_pin / 2
    first, second = (
        np.asarray(
            mesh.centre_distance.formula(idler.module, idler.counts[:, k], idler.counts[:, k + 1])
        )
        for k in (0, 1)
    )
    tips = [_tips(direct.module, direct.counts[:, k], direct.shift) / 2 for k in (0, 1)]
    clears = (first[None, :] - tips[0][:, None] - pin >= load.gap) & (
        second[None, :] - tips[1][:, None] - pin >= load.gap
    )
    i, j = np.nonzero(clears)
    spare = np.minimum(direct.spare[i], idler.spare[j])
    size, smooth = direct.tip[i] + idler.tip[j], np.minimum(direct.ratio[i], idler.ratio[j])
    # equals are many, because one path often bounds the spare of all: the smaller blanks come first
    first_key = {"spare": -np.round(spare, 3), "size": size, "smoothness": -np.round(smooth, 3)}[
        goals.order
    ]
    order = np.lexsort((-spare, size, first_key))
    return Found(
        direct,
        idler,
        np.column_stack([i, j])[order],
        spare[order],
        size[order],
        smooth[order],
        int(clears.size - clears.sum()),
    )


def purchases(found: Found, most: int = 5) -> list[tuple[float, int, int]]:
    """Say which one cutter would unlock most candidates.

    Parameters
    ----------
    found : Found
    most : int

    Returns
    -------
    list of (module in mm, cutter number, candidates unlocked)
        Most first; candidates of both paths, before strength is looked at.
    """
    total: dict[tuple[float, int], int] = {}
    for one in (found.direct, found.idler):
        for key, count in one.near.items():
            total[key] = total.get(key, 0) + count
    ranked = sorted(total.items(), key=lambda item: (-item[1], item[0]))
    return [(module, number, count) for (module, number), count in ranked[:most]]
