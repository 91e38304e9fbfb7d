"""Time a million draws of the stall risk and the search for motor and box; prints, asserts nothing."""

import time

import numpy as np

from mixerkit import Design, Machine
from mixerkit.explore import search, uncertainty


def timed(action):
    """Result and the best of three wall times in seconds."""
    times = []
    for _ in range(3):
        start = time.perf_counter()
        result = action()
        times.append(time.perf_counter() - start)
    return result, min(times)


def main():
    """Print the times and ratios."""
    found = Machine(Design.demo())
    samples = 1_000_000
    risk, whole = timed(lambda: uncertainty.stall_risk(found, samples))
    _, bare = timed(
        lambda: np.random.default_rng(1).random((len(uncertainty.FACTORS), samples)).prod(axis=0)
    )
    print(
        f"stall risk, {samples} draws: {whole:.2f} s (aim: under 3 s), {whole / bare:.1f} times drawing and multiplying"
    )
    print(
        f"stalls in {100 * risk.starting:.3g} % of starts, {100 * risk.mixing:.3g} % while mixing"
    )
    choices, seconds = timed(lambda: search.motor_and_box(found.design))
    print(f"search for motor and box: {seconds:.2f} s, {len(choices)} do")


if __name__ == "__main__":
    main()
