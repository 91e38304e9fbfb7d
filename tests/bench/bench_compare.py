"""Time the comparison of 1,000 whole machines on two processes, their start left out; asserts nothing.

Run it with ``python tests/bench/bench_compare.py``; a number after it takes other than 1,000 machines.
"""

import sys
import time
import timeit
from concurrent.futures import ProcessPoolExecutor

from mixerkit import Design, Machine
from mixerkit.data_files import data_path
from mixerkit.explore.compare import compare, front
from mixerkit.shop.workshop import read_workshop


def timed(executor, count, follow):
    """Seconds of a comparison, and how many came out and stand on its front."""
    shop = read_workshop(data_path("shops", "inch_room_shop.toml"))
    start = time.perf_counter()
    found = compare(Design.demo(), count=count, seed=1, shop=shop, executor=executor, follow=follow)
    return time.perf_counter() - start, len(found), len(front(found))


def main(count):
    """Print the times."""
    design = Design.demo()
    alone = min(timeit.repeat(lambda: Machine(design).checks, number=20, repeat=5)) / 20 * 1e3
    print(f"an assessment alone, here: {alone:.1f} ms")
    with ProcessPoolExecutor(2) as executor:
        compare(design, count=64, executor=executor)  # both processes have started and loaded
        for follow, aim in ((False, 8), (True, 60)):
            took, many, best = timed(executor, count, follow)
            words = "drafted anew where it follows" if follow else "as drawn"
            print(
                f"{many} whole machines, {words}: {took:.1f} s (aim for 1,000: under {aim} s), "
                f"{1e3 * took / many:.1f} ms each, {best} on the front"
            )


if __name__ == "__main__":
    main(int(sys.argv[1]) if len(sys.argv) > 1 else 1000)
