"""Both gear paths from a centre distance and a wanted speed: every tooth count the shop can cut.

All candidates are laid out as arrays, every rule strikes some out, and each reason is counted, so
that an empty answer says which rule emptied it. A direct pair is unshifted or takes the shift that
closes it on the centre distance; the idler's meshes are unshifted, because the idler goes where
they close.
"""

from __future__ import annotations

from collections.abc import Collection
from dataclasses import dataclass

import numpy as np

from mixerkit.design import Design
from mixerkit.explore.pathleans import candidate_leans
from mixerkit.explore.pathrules import (
    Load,
    Rules,
    keep_cuttable,
    keep_rim,
    loads_of,
    mesh_spare,
    tips_of,
)
from mixerkit.explore.pathsfound import Candidates, Found
from mixerkit.parts import mesh, spurgear, undercut
from mixerkit.results import Array, Indices
from mixerkit.shop.workshop import Workshop
from mixerkit.units import InputError

__all__ = ["GOALS", "Goals", "search"]

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
        In mm; those the shop has cutters for, if empty, or without a shop file the design's own.
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

    def laid_out(
        self, shop: Workshop | None, own: Collection[float], gears: int
    ) -> tuple[Array, tuple[Indices, ...]]:
        """Modules to look at, and the row of its module and the tooth counts of every candidate.

        ``own`` are the design's modules.
        """
        modules = np.array(sorted(self.modules or (shop.cutters if shop else own)), float)
        span = np.arange(self.fewest, self.most + 1)
        grid = np.meshgrid(np.arange(len(modules)), *[span] * gears, indexing="ij")
        return modules, tuple(axis.ravel() for axis in grid)


def search(design: Design, shop: Workshop | None, goals: Goals | None = None) -> Found:
    """Find both paths' tooth counts for a design's centre distance and load.

    Parameters
    ----------
    design : Design
        Its centre distance, shafts, face widths, materials and loads are kept.
    shop : Workshop, or None
        Only what it can cut and index is offered; without one, all that fits and holds.
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
    load = loads_of(design)
    direct, idler = _direct(load, shop, goals), _idler(load, shop, goals)
    return _together(load, direct, idler, goals)


def _modules(load: Load) -> set[float]:
    """Modules of both paths as designed, in mm."""
    return {load.spec.paths.direct.module, load.spec.paths.idler.module}


def _direct(load: Load, shop: Workshop | None, goals: Goals) -> Candidates:
    modules, (row, one, two) = goals.laid_out(shop, _modules(load), 2)
    module = modules[row]
    rules = Rules(len(module))
    rules.keep("wanted speed of shaft 2", np.abs(one / two / goals.ratio - 1) <= goals.tolerance)
    with np.errstate(invalid="ignore"):
        total = mesh.shift_sum.formula(module, one, two, load.apart)
    closes = np.abs(np.nan_to_num(total, nan=9.0)) < 1e-9
    shift = np.where(closes, 0.0, np.nan_to_num(total, nan=9.0) / 2)
    rules.keep("profile shift within limits", np.abs(shift) <= goals.largest_shift)
    small = np.minimum(one, two)
    rules.keep("no undercut", shift >= undercut.least_shift(small) - 1e-9)
    tip = tips_of(module, np.maximum(one, two), np.clip(shift, -1, 1))
    thinnest = spurgear.thinned_tip(
        module, small, np.clip(shift, -1, 1), load.spec.paths.direct.thinning
    )
    rules.keep("tips not pointed", np.asarray(thinnest) >= 0.2 * module)
    near = keep_cuttable(rules, shop, row, modules, [one, two], goals.fewest, goals.most)
    left = np.flatnonzero(rules.left)
    module, one, two, shift, tip = module[left], one[left], two[left], shift[left], tip[left]
    tips = [tips_of(module, count, shift) for count in (one, two)]
    ratio = np.asarray(mesh.contact_ratio.formula(module, one, two, tips[0], tips[1], load.apart))
    late = Rules(len(left))
    late.keep("contact ratio of 1.2", ratio >= 1.2)
    apart = np.full(len(left), load.apart)
    (lean,) = candidate_leans(load.machine, "direct", module, [one, two])
    spare = mesh_spare(load, "direct", module, one, [one, two], [shift, shift], apart, ratio, lean)
    late.keep("teeth strong enough", spare >= 1)
    keep_rim(late, load, "direct", module, [one, two], shift)
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


@dataclass(frozen=True)
class _Trains:
    """Candidates of the path with the idler: modules, counts, and what follows from both for each."""

    row: Indices
    module: Array
    counts: tuple[Indices, ...]
    tips: tuple[Array, ...]
    distances: tuple[Array, ...]
    aside: Array

    @classmethod
    def of(cls, row: Indices, module: Array, counts: tuple[Indices, ...], apart: float) -> _Trains:
        """Work out of modules and counts where the idler stands."""
        one, idle, two = counts
        first = np.asarray(mesh.centre_distance.formula(module, one, idle))
        second = np.asarray(mesh.centre_distance.formula(module, idle, two))
        aside = np.asarray(mesh.idler_place.formula(apart, first, second)[1])
        tips = tuple(tips_of(module, count) for count in counts)
        return cls(row, module, counts, tips, (first, second), aside)

    def kept(self, left: Indices) -> _Trains:
        """Only some of them."""
        return _Trains(
            self.row[left],
            self.module[left],
            tuple(one[left] for one in self.counts),
            tuple(one[left] for one in self.tips),
            tuple(one[left] for one in self.distances),
            self.aside[left],
        )


def _idler(load: Load, shop: Workshop | None, goals: Goals) -> Candidates:
    modules, (row, one, idle, two) = goals.laid_out(shop, _modules(load), 3)
    fast = Rules(len(row))
    fast.keep("wanted speed of shaft 2", np.abs(one / two / goals.ratio - 1) <= goals.tolerance)
    # the rest is worked out for what is left, because that is little
    left = np.flatnonzero(fast.left)
    counts = (one[left], idle[left], two[left])
    trains = _Trains.of(row[left], modules[row[left]], counts, load.apart)
    fits = Rules(len(left))
    _keep_fitting(fits, load, trains)
    near = keep_cuttable(fits, shop, trains.row, modules, [*counts], goals.fewest, goals.most)
    strong = trains.kept(np.flatnonzero(fits.left))
    return _strong_idlers(load, strong, len(row), fast.struck | fits.struck, near)


def _keep_fitting(rules: Rules, load: Load, trains: _Trains) -> None:
    """Strike out trains whose gears meet, do not reach each other or stand outside the case."""
    one, idle, two = trains.tips
    first, second = trains.distances
    rules.keep("shaft gears clear each other", (one + two) / 2 + load.gap <= load.apart)
    rules.keep("idler reaches both shafts", first + second >= 1.02 * load.apart)
    rules.keep(
        "no undercut",
        np.minimum.reduce(trains.counts) >= np.ceil(undercut.undercut_tooth_count() - 1e-9),
    )
    room = np.minimum(first - load.shafts[0] / 2, second - load.shafts[1] / 2)
    rules.keep("idler clears shafts and hubs", room - idle / 2 >= load.gap)
    reach = trains.aside + idle / 2 + load.gap
    rules.keep("idler inside the case", reach <= load.spec.housing.wall_distance)


def _strong_idlers(
    load: Load,
    trains: _Trains,
    looked_at: int,
    struck: dict[str, int],
    near: dict[tuple[float, int], int],
) -> Candidates:
    """Those whose meshes bear the load, of both meshes the weaker."""
    module, none = trains.module, np.zeros(len(trains.module))
    ratios, spares = [], []
    leans = candidate_leans(load.machine, "idler", module, [*trains.counts])
    for k, (apart, lean) in enumerate(zip(trains.distances, leans, strict=True)):
        one, two = trains.counts[k : k + 2]
        tips = trains.tips[k : k + 2]
        ratio = np.asarray(mesh.contact_ratio.formula(module, one, two, tips[0], tips[1], apart))
        ratios.append(ratio)
        driver, unshifted = trains.counts[0], [none, none]
        spares.append(
            mesh_spare(load, "idler", module, driver, [one, two], unshifted, apart, ratio, lean)
        )
    ratio, spare = np.minimum(*ratios), np.minimum(*spares)
    rules = Rules(len(module))
    rules.keep("contact ratio of 1.2", ratio >= 1.2)
    rules.keep("teeth strong enough", spare >= 1)
    keep_rim(rules, load, "idler", module, [*trains.counts], none)
    keep = rules.left
    return Candidates(
        module[keep],
        np.column_stack(trains.counts)[keep],
        none[keep],
        spare[keep],
        ratio[keep],
        np.maximum.reduce(trains.tips)[keep],
        trains.aside[keep],
        looked_at,
        struck | rules.struck,
        near,
    )


def _together(load: Load, direct: Candidates, idler: Candidates, goals: Goals) -> Found:
    """Put paths together: the idler's pin passes the plane of the direct pair and must clear it."""
    pin = load.spec.housing.idler_pin / 2
    first, second = (
        np.asarray(
            mesh.centre_distance.formula(idler.module, idler.counts[:, k], idler.counts[:, k + 1])
        )
        for k in (0, 1)
    )
    tips = [tips_of(direct.module, direct.counts[:, k], direct.shift) / 2 for k in (0, 1)]
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
