"""The tick of teeth cut with form cutters, which suit one count of their range only."""

from __future__ import annotations

import numpy as np

from mixerkit.checking import make_check
from mixerkit.checks import Change, Check
from mixerkit.parts import formcutter, gear_workings
from mixerkit.parts.gear_pairs import one_word
from mixerkit.parts.remedies import pairs_on, resized
from mixerkit.parts.toothed import Toothed

__all__ = ["tick"]

_FELT = 0.05


def tick(of: Toothed) -> Check:
    """Check what form cutters at the ends of their range leave, felt at every tooth.

    Parameters
    ----------
    of : Toothed

    Returns
    -------
    Check
    """
    name, few = "tick of form-cut teeth", min(of.counts)
    if few < formcutter.FEWEST:
        why = f"a gear of {few} teeth cannot be form-cut; the cutters start at {formcutter.FEWEST} teeth"
        return of.unjudged([name], why, lambda: _smoother(of))[0]
    for near in of.too_near(name):
        return near
    module = of.path.module
    ticks = [(formcutter.hand_over(module, one.counts, one.distance), one) for one in of.meshes]
    felt, worst = max(ticks, key=lambda tick: tick[0].step)
    return make_check(
        of.machine,
        "gears",
        of.part,
        name,
        demand=felt.step,
        capacity=_FELT * module,
        unit="mm",
        working=lambda i: [
            *gear_workings.tick(of, worst, felt),
            gear_workings.of_modules(of, "f", _FELT),
        ],
        source="0.05 modules at walking pace: common practice; cutters made for the fewest teeth of their range",
        reason=lambda i, say: (
            f"{one_word(worst)}, cutters {' and '.join(str(formcutter.cutter_number(z)) for z in worst.counts)}"
        ),
        fix=lambda i: _smoother(of),
    )


def _smoother(of: Toothed) -> list[Change]:
    """Pairs on the same distance that their cutters suit, the nearest three modules; of a train, any."""
    system = of.machine.system
    if len(of.counts) > 2:
        return [one for _, one in resized(of.name, of.path, of.apart, system)][:4]
    found = []
    for module, written, counts in pairs_on(of.apart, of.counts[0] / of.counts[1], system):
        pair = _suited(module, counts, of.apart)
        if pair:
            change = {
                of.field("module"): written,
                of.field("tooth_counts"): list(pair),
                of.field("profile_shift_coefficients"): [],
            }
            found.append((abs(np.log(module / of.path.module)), change))
    return [one for _, one in sorted(found, key=lambda one: one[0])[:3]]


def _suited(module: float, counts: tuple[int, int], apart: float) -> tuple[int, int] | None:
    """A pair of the same sum, within four teeth of these counts, that ticks no more than is allowed."""
    for first in (counts[0], *range(counts[0] - 4, counts[0] + 5)):
        pair = (first, sum(counts) - first)
        cut = min(pair) >= formcutter.FEWEST
        if cut and formcutter.hand_over(module, pair, apart).step <= _FELT * module:
            return pair
    return None
