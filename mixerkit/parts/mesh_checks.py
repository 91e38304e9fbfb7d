"""Whether the teeth of a path mesh: contact, gaps at the roots, backlash, interference."""

from __future__ import annotations

import numpy as np

from mixerkit.checking import make_check
from mixerkit.checks import Change, Check
from mixerkit.parts import gear_workings, spurgear, undercut
from mixerkit.parts.gear_pairs import Pair, one_word
from mixerkit.parts.toothed import Toothed
from mixerkit.working import worked

__all__ = ["ENOUGH", "TOO_MUCH", "interference", "meshing"]

ENOUGH, TOO_MUCH = "backlash is enough", "backlash is not too much"
"""Names of the checks of backlash."""

_NAMES = (
    "teeth overlap (contact ratio)",
    "tips clear the roots",
    ENOUGH,
    TOO_MUCH,
)
_GAP, _LEAST_PLAY = 0.1, 0.02
_MOST_PLAY = (0.15, 0.2)
"""In modules, and in mm on top."""


def meshing(of: Toothed) -> list[Check]:
    """Check contact ratio, gaps at the roots and backlash of a path's meshes.

    Parameters
    ----------
    of : Toothed

    Returns
    -------
    list of Check
    """
    return of.too_near(*_NAMES) or [
        _overlap(of),
        _clear_of_roots(of),
        _play_enough(of),
        _play_not_too_much(of),
    ]


def _overlap(of: Toothed) -> Check:
    """Whether the next pair of teeth takes over before the last lets go."""
    thin = min(of.meshes, key=lambda one: one.ratio)
    return make_check(
        of.machine,
        "gears",
        of.part,
        _NAMES[0],
        demand=1.2,
        capacity=thin.ratio,
        unit="",
        tight=1.0,
        working=lambda i: [gear_workings.contact_ratio(of, thin)],
        source="ISO 21771; 1.2 for hand-cut gears: common practice",
        reason=lambda i, say: f"{one_word(thin)} on {say(thin.distance, 'mm')}",
        fix=lambda i: [*of.finer(), *of.closed()],
    )


def _clear_of_roots(of: Toothed) -> Check:
    """Whether each tip keeps off its mate's root."""
    gaps = [
        (one.distance - one.tips[i] / 2 - one.roots[1 - i] / 2, k, i)
        for k, one in enumerate(of.meshes)
        for i in (0, 1)
    ]
    least, k, side = min(gaps)
    return make_check(
        of.machine,
        "gears",
        of.part,
        _NAMES[1],
        demand=_GAP * of.path.module,
        capacity=least,
        unit="mm",
        working=lambda i: [
            gear_workings.of_modules(of, "c", _GAP),
            gear_workings.root_gap(of.meshes[k], side, least),
        ],
        source="a quarter module as cut, a tenth left at least: common practice",
        reason=lambda i, say: f"least of {len(gaps)} gaps between tip and root",
        fix=lambda i: [*of.closed(), *of.finer()],
    )


def _play_enough(of: Toothed) -> Check:
    """Whether grease and warmth find room between the flanks."""
    jammed, least = min(of.meshes, key=lambda one: one.play), _LEAST_PLAY * of.path.module
    thinning = of.path.thinning
    return make_check(
        of.machine,
        "gears",
        of.part,
        _NAMES[2],
        demand=least,
        capacity=jammed.play,
        unit="mm",
        working=lambda i: [
            gear_workings.of_modules(of, "j", _LEAST_PLAY),
            gear_workings.backlash(of, jammed),
        ],
        source="0.02 modules so that grease and warmth have room: common practice",
        reason=lambda i, say: (
            f"{one_word(jammed)} on {say(jammed.distance, 'mm')}, each tooth thinned {say(thinning, 'mm')}"
        ),
        fix=lambda i: [
            {of.field("thinning"): thinning + (least - jammed.play) / 2},
            *of.closed(),
        ],
    )


def _play_not_too_much(of: Toothed) -> Check:
    """Whether a drive that reverses does not knock."""
    loose, module, thinning = (
        max(of.meshes, key=lambda one: one.play),
        of.path.module,
        of.path.thinning,
    )
    share, more = _MOST_PLAY
    most = share * module + more
    less = thinning - (loose.play - most) / 2
    return make_check(
        of.machine,
        "gears",
        of.part,
        _NAMES[3],
        demand=loose.play,
        capacity=most,
        unit="mm",
        working=lambda i: [
            gear_workings.backlash(of, loose),
            worked(
                "j = k*m + j_0",
                most,
                "mm",
                k=(share, "", "common practice"),
                j_0=(more, "mm", "common practice"),
                m=(module, "mm", of.field("module")),
            ),
        ],
        source="0.15 modules and 0.2 mm, for a drive that reverses: common practice",
        reason=lambda i, say: (
            f"{one_word(loose)} on {say(loose.distance, 'mm')}, each tooth thinned {say(thinning, 'mm')}"
        ),
        fix=lambda i: [
            *([{of.field("thinning"): less}] if less >= 0 else []),
            *of.closed(),
            *of.finer(),
        ],
    )


def interference(of: Toothed) -> Check:
    """Check whether a tip reaches below the place where its mate's involute begins.

    Parameters
    ----------
    of : Toothed

    Returns
    -------
    Check
    """
    name = "no interference at the roots"
    for near in of.too_near(name):
        return near
    starts, reaches = np.transpose([_flank(of, one, i) for one in of.meshes for i in (0, 1)])
    # an undercut flank begins above its base circle, where the cutter's tip left it: not known here
    least = int(np.argmin(starts))
    cut_away = starts[least] < 0
    worst = least if cut_away else int(np.argmin(reaches - starts))
    mate, side = of.meshes[worst // 2], worst % 2
    teeth = mate.counts[side]
    place = of.counts.index(teeth)

    def fix(_i: int = 0) -> list[Change]:
        shift = float(np.ceil(1000 * undercut.least_shift(teeth)) / 1000)
        return [
            *of.shifted(place, max(shift, mate.shifts[side] + 0.1)),
            *of.shifted(place, mate.shifts[side] + 0.25),
            *of.finer(),
            *of.closed(),
        ]

    if cut_away:
        why = f"the gear of {teeth} teeth is undercut, so where its flank begins is not known"
        return of.unjudged([name], why, fix)[0]
    begins, reach = float(starts[worst]), float(reaches[worst])
    return make_check(
        of.machine,
        "gears",
        of.part,
        name,
        demand=begins,
        capacity=reach,
        unit="mm",
        tight=1.0,
        working=lambda i: gear_workings.root_start(of, mate, side, begins, reach),
        source="start of contact against start of the involute, along the line of action: ISO 21771 (from memory)",
        reason=lambda i, say: f"gear of {teeth} teeth in {one_word(mate)}",
        fix=fix,
    )


def _flank(of: Toothed, one: Pair, i: int) -> tuple[float, float]:
    """Where a gear's flank begins, and where its mate's tip first touches it, in mm along the line of action."""
    base = spurgear.base_diameter.formula(of.path.module, one.counts[1 - i]) / 2
    touched = np.sqrt(max((one.tips[1 - i] / 2) ** 2 - base**2, 0.0))
    return (
        float(undercut.involute_start(of.path.module, one.counts[i], one.shifts[i])),
        float(one.distance * np.sin(np.radians(one.working)) - touched),
    )
