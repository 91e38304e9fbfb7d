"""Time a full machine of the demo, and its ratio to the same sums on plain floats.

Run it with ``python tests/bench/bench_assess.py``; it prints and asserts nothing.
"""

import subprocess
import sys
import timeit
from math import pi

from mixerkit import Design, Machine


def best(action, number):
    """Best of five mean times, in milliseconds."""
    return min(timeit.repeat(action, number=number, repeat=5)) / number * 1e3


def plain_sums():
    """The power path of one state and one shaft diameter, as a bare script would do it."""
    rated = 1.5e3 * 60 / (2 * pi * 1440)
    through = 150.0 / 0.97
    slow = 150.0 + through
    fast = slow / (60 * 0.85)
    needed = (16e3 * slow / (pi * 83.25)) ** (1 / 3)
    return rated / fast, needed


def imports(code):
    """Wall time of a fresh interpreter running some code, in seconds, best of five."""
    return min(
        timeit.repeat(
            lambda: subprocess.run([sys.executable, "-c", code], check=True), number=1, repeat=5
        )
    )


def main():
    """Print the times and ratios."""
    design = Design.demo()
    states = len(Machine(design).load_cases)
    whole, floats = best(lambda: Machine(design).checks, 50), best(plain_sums, 20_000)
    checks = len(Machine(design).checks)
    print(f"machine, {states} load cases, {checks} checks: {whole:.2f} ms (aim: under 12 ms)")
    print(f"plain floats, one state, one diameter: {floats * 1e3:.2f} us")
    print(f"ratio a load case: {whole / (floats * states):.0f}")
    bare = imports("pass")
    print(
        f"import mixerkit: {imports('import mixerkit') - bare:.3f} s over a bare interpreter (aim: under 0.6 s)"
    )
    print(f"and its machine: {imports('from mixerkit import Machine') - bare:.3f} s")


if __name__ == "__main__":
    main()
