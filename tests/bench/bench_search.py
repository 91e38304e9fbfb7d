"""Time the search for both gear paths over a million candidates against bare NumPy; asserts nothing.

The bare run does the same sums on the same candidates in one plain script: no rules counted, no
shop, no records.
"""

import time

import numpy as np

from mixerkit import Design
from mixerkit.explore import paths
from mixerkit.shop.workshop import read_workshop

MODULES = (2.0, 2.5, 3.0, 4.0, 5.0, 6.0)


def timed(action):
    """Result and the best of five wall times in seconds."""
    times = []
    for _ in range(5):
        start = time.perf_counter()
        result = action()
        times.append(time.perf_counter() - start)
    return result, min(times)


def bare():
    """Both paths' geometric sieve as a bare script would write it."""
    modules, span = np.array(MODULES), np.arange(12, 71)
    row, one, idle, two = (
        grid.ravel() for grid in np.meshgrid(np.arange(6), span, span, span, indexing="ij")
    )
    module = modules[row]
    left = np.abs(one / two / 1.0 - 1) <= 0.02
    left &= module * (one + two + 4) / 2 + 2 <= 150
    first, second = module * (one + idle) / 2, module * (idle + two) / 2
    left &= first + second >= 1.02 * 150
    left &= np.minimum(np.minimum(one, two), idle) >= 18
    keep = np.flatnonzero(left)
    first, second, module, idle = first[keep], second[keep], module[keep], idle[keep]
    along = (first**2 - second**2 + 150**2) / 300
    aside = np.sqrt(np.clip(first**2 - along**2, 0, None))
    tip = module * (idle + 2) / 2
    fits = (np.minimum(first, second) - 35 - tip >= 2) & (aside + tip + 2 <= 170)
    return int(fits.sum())


def main():
    """Print the times and the ratio."""
    design, shop = Design.demo(), read_workshop()
    goals = paths.Goals(modules=MODULES, fewest=12, most=70)
    found, whole = timed(lambda: paths.search(design, shop, goals))
    _, plain = timed(bare)
    print(
        f"search of {found.looked_at} candidates: {whole:.3f} s (aim: under 3 s), {len(found.pairs)} answers"
    )
    print(f"the same sieve in bare NumPy: {plain:.3f} s; ratio {whole / plain:.2f} (aim: under 2)")


if __name__ == "__main__":
    main()
