"""What many tries of a function say: a share with its interval, and which of its inputs matter.

The function takes places between 0 and 1, one for each input, and gives one number for each try.
"""

from __future__ import annotations

from collections.abc import Callable

import numpy as np

from mixerkit.results import Array

__all__ = ["LEVELS", "clopper_pearson", "morris", "sobol"]

Tried = Callable[[Array], Array]
"""Takes places, shape (inputs, tries), and gives one number a try."""
LEVELS = 4
"""Levels of the grid on which Morris's paths go, with steps of two thirds (Morris 1991)."""


def clopper_pearson(hits: int, tries: int, sure: float = 0.95) -> tuple[float, float]:
    """Interval of a share that was counted, which holds the true one at least so often as stated.

    Parameters
    ----------
    hits, tries : int
    sure : float
        How often it holds it.

    Returns
    -------
    tuple of float

    References
    ----------
    Clopper & Pearson, Biometrika 26 (1934) 404: the exact interval, never too narrow.

    Examples
    --------
    >>> [round(one, 4) for one in clopper_pearson(81, 263)]
    [0.2527, 0.3676]
    """
    from scipy import stats  # here, because scipy is slow to load and few ask for this

    found = stats.binomtest(hits, tries).proportion_ci(confidence_level=sure, method="exact")
    return float(found.low), float(found.high)


def morris(tried: Tried, count: int, paths: int, seed: int) -> tuple[Array, Array]:
    """Elementary effects: how far a number moves as each input alone goes through its range.

    Parameters
    ----------
    tried : callable
        Given all tries at once, shape (count, paths * (count + 1)).
    count : int
        Of inputs.
    paths : int
        Each goes through all inputs once, in an order of its own.
    seed : int
        The same seed gives the same paths.

    Returns
    -------
    tuple of numpy.ndarray, shape (count,)
        Mean of the effects' sizes (mu*), and their standard deviation (sigma), which is large where an
        effect is bent or hangs on other inputs.

    References
    ----------
    Morris, Technometrics 33 (1991) 161; mu* by Campolongo, Cariboni & Saltelli, Environmental Modelling &
    Software 22 (2007) 1509.

    Examples
    --------
    >>> mean, spread = morris(lambda places: 3 * places[0] - places[1], 2, 4, 1)
    >>> mean.round(9).tolist(), spread.round(9).tolist()
    ([3.0, 1.0], [0.0, 0.0])
    """
    chance = np.random.default_rng(seed)
    step = LEVELS / (2 * (LEVELS - 1))
    low = np.arange(LEVELS // 2) / (LEVELS - 1)
    places = np.empty((paths, count + 1, count))
    orders = np.empty((paths, count), int)
    for k in range(paths):
        orders[k] = chance.permutation(count)
        begun = chance.choice(low, count)
        up = chance.random(count) < 0.5
        places[k, 0] = np.where(up, begun, begun + step)
        for n, which in enumerate(orders[k]):
            places[k, n + 1] = places[k, n]
            places[k, n + 1, which] += step if up[which] else -step
    values = tried(places.reshape(-1, count).T).reshape(paths, count + 1)
    moved = np.diff(values, axis=1) / step
    effects = np.empty((paths, count))
    for k in range(paths):
        here = orders[k]
        signs = np.sign(places[k, -1, here] - places[k, 0, here])
        effects[k, here] = moved[k] * signs
    return np.abs(effects).mean(axis=0), effects.std(axis=0, ddof=1 if paths > 1 else 0)


def sobol(tried: Tried, count: int, samples: int, seed: int) -> tuple[Array, Array]:
    """Share of a number's variance that each input brings alone, and with all it acts together with.

    Parameters
    ----------
    tried : callable
        Tried samples * (count + 2) times in all.
    count : int
        Of inputs, each spread evenly.
    samples : int
        A power of two.
    seed : int

    Returns
    -------
    tuple of numpy.ndarray, shape (count,)
        First and total indices, none below 0 or above 1; all 0 of a number that never moves.

    References
    ----------
    By scipy.stats.sobol_indices: Saltelli et al., Computer Physics Communications 181 (2010) 259.
    """
    from scipy import stats  # here, because scipy is slow to load and few ask for this

    found = stats.sobol_indices(
        func=tried,
        n=samples,
        dists=[stats.uniform()] * count,  # type: ignore[list-item]  # stubs refuse scipy's own
        rng=np.random.default_rng(seed),
    )
    first, total = (
        np.clip(np.nan_to_num(one), 0.0, 1.0) for one in (found.first_order, found.total_order)
    )
    return first, total
