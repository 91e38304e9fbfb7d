"""How far apart the shafts of a draft stand, and gears that close on it and can be cut."""

from __future__ import annotations

import numpy as np

from mixerkit.explore.draft.sizes import Sizes
from mixerkit.parts.formcutter import cutter_number
from mixerkit.parts.remedies import modules
from mixerkit.shop.workshop import Workshop

__all__ = ["APART", "BATCH", "distance_and_counts"]

APART, BATCH = 150.0, 15.0
"""Centre distance in mm for a batch, and its mass in kg (common practice): others are alike in shape."""
_FEWEST, _MOST = 17, 60
"""Teeth from which a gear needs no shift, and beyond which none is looked at."""
_TEETH = (24, 36)
"""Teeth of each gear of an even pair that are looked at, finest last (common practice)."""


def distance_and_counts(sizes: Sizes, shop: Workshop | None, wide: float) -> float:
    """Put down centre distance, module and tooth counts; give the size over that of the proportions."""
    mass = sizes.number("batch.mass")
    alike = float(np.cbrt(mass / BATCH))
    wanted, tip = APART * alike * wide, sizes.number("paddles.tip_radius")
    if tip is not None:
        wanted = tip / 0.6
    given = sizes.number("housing.centre_distance")
    pairs = _pairs(sizes, shop, given if given is not None else wanted)
    near = min(
        pairs,
        key=lambda one: (
            abs(one[0] * one[1] - (given or wanted)) / (given or wanted) * (20 if given else 3)
            + abs(one[1] - 30) / 30
        ),
    )
    module, teeth, written = near
    apart = given if given is not None else module * teeth
    for name in ("direct", "idler"):
        sizes.put(
            f"paths.{name}.module",
            written,
            "cutters of it can be had, and gears find room for strong teeth",
        )
    sizes.put(
        "paths.direct.tooth_counts",
        [teeth, teeth],
        "both shafts at one speed, closing on the centre distance",
    )
    sizes.put(
        "housing.centre_distance",
        f"{apart / 25.4:g} in" if sizes.brief.system == "inch" else f"{apart:g} mm",
        "paddles of a trough for this batch pass each other",
    )
    end, middle = _train(sizes, shop)
    sizes.put(
        "paths.idler.tooth_counts",
        [end, middle, end],
        "both shafts at one speed, the idler between hubs and case",
    )
    return float(sizes.number("housing.centre_distance")) / APART


def _pairs(sizes: Sizes, shop: Workshop | None, apart: float) -> list[tuple[float, int, str]]:
    """Modules and tooth counts of an even pair that can be cut: module in mm, count, and how it is written."""
    fixed = sizes.number("paths.direct.module")
    counts = sizes.number("paths.direct.tooth_counts")
    found = []
    for module, written in modules(sizes.brief.system):
        if fixed is not None and abs(module - fixed) > 1e-6:
            continue
        for teeth in range(_FEWEST, _MOST):
            if counts is not None and teeth != round(sum(counts) / 2):
                continue
            ok = fixed is not None or counts is not None or _TEETH[0] <= teeth <= _TEETH[1]
            if ok and _cuttable(shop, module, teeth):
                found.append((module, teeth, written))
    if not found:
        # no count can be cut: the design says so, and which cutter it would take
        written = str(sizes.brief.given.get("paths.direct.module", "5 mm"))
        module = fixed or 5.0
        found = [(module, max(round(apart / module), _FEWEST), written)]
    return found


def _cuttable(shop: Workshop | None, module: float, teeth: int) -> bool:
    if shop is None:
        return True
    kept = next((own for size, own in shop.cutters.items() if abs(size - module) < 1e-6), None)
    return kept is not None and int(np.ravel(cutter_number(teeth))[0]) in kept


def _train(sizes: Sizes, shop: Workshop | None) -> tuple[int, int]:
    """Tooth counts of the idler's path: ends and idler."""
    own = sizes.number("paths.idler.module")
    apart = sizes.number("housing.centre_distance")
    best, least = (22, 20), np.inf
    for end in range(_FEWEST, _MOST):
        for middle in range(_FEWEST, _MOST):
            if not (_cuttable(shop, own, end) and _cuttable(shop, own, middle)):
                continue
            ends, between = own * end, own * (end + middle) / 2
            # ends clear each other, the idler stands well off the line of the shafts: its pin, which must not bend,
            # finds room beside the direct pair
            if own * (end + 2) + 3 > apart or 2 * between < 1.15 * apart:
                continue
            far = abs(ends / apart - 0.74) + abs(2 * between / apart - 1.52)
            if far < least:
                best, least = (end, middle), far
    return best
