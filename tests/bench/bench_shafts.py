"""Time the beam of a demo shaft, a sweep over ten thousand diameters, and a jam through time.

Run it with ``python tests/bench/bench_shafts.py``; it prints and asserts nothing.
"""

import timeit

import numpy as np

from mixerkit import Design, Machine
from mixerkit.drive import transient
from mixerkit.parts import beam


def best(action, number):
    """Best of five mean times, in milliseconds."""
    return min(timeit.repeat(action, number=number, repeat=5)) / number * 1e3


def main():
    """Print the times and ratios."""
    line = Machine(Design.demo()).shaft_beams[0]
    loads = line.steady[0, :, 1]
    one = best(lambda: beam.solve(line.places, line.stiffness, loads, line.supports), 200)
    sizes = np.linspace(20.0, 60.0, 10_000)
    stiff = beam.bending_stiffness(2.1e5, sizes)[:, None] * np.ones(len(line.segments))
    sweep = best(lambda: beam.solve(line.places, stiff, loads, line.supports), 3)
    swing = best(lambda: transient.transient([12.6, 0.02], [4e4, 4e4], 2.5, play=0.01), 1)
    print(f"beam of a demo shaft: {one:.2f} ms")
    print(
        f"sweep over 10 000 diameters: {sweep:.0f} ms, {10_000 * one / sweep:.0f} times as fast as one by one"
    )
    print(f"a jam through time: {swing:.0f} ms")


if __name__ == "__main__":
    main()
