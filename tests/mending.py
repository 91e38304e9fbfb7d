"""Designs that hold, spoiled by one to three choices, and what mends each; printed by ``python tests/mending.py``.

``--count`` how many, ``--seed`` the draw, ``--workers`` processes. Each is mended by what ``mixerkit mend`` proposes
first, typed into the file and checked anew.
"""

import argparse
import random
import time
from concurrent.futures import ProcessPoolExecutor
from functools import cache

from mixerkit import Design, InputError, Machine
from mixerkit.explore.plans import plans
from mixerkit.explore.settable import axes, choices

BASES = ("larkfield", "inch_room")


@cache
def bases():
    return {name: Design.demo(name) for name in BASES}


def spoiled(seed, number):
    """A design that fails, and the values of the choices that were moved from one that holds."""
    draw = random.Random(f"{seed} {number}")
    name = draw.choice(BASES)
    base, wanted = bases()[name], draw.choice((1, 1, 2, 2, 3))
    fields = [one for one, _ in choices()]
    while True:
        moved = {}
        for field in draw.sample(fields, wanted):
            options = axes(base, field)
            if not options:
                break
            axis = draw.choice(options)
            if axis.values is None:
                place = draw.randrange(axis.count)
            else:
                step = draw.choice((1, -1)) * draw.choice((1, 2, 3, 5, 8, 13))
                place = int(axis.here + step)
            if not 0 <= place < axis.count:
                break
            moved[field] = axis.write(place)
        if len(moved) < wanted:
            continue
        try:
            design = base.with_values(moved)
        except InputError:
            continue
        if Machine(design).verdict == "fails" and _all_matter(base, moved):
            return name, design, moved


def _all_matter(base, moved):
    """Whether each of the moved choices is needed for it to fail as it does: none may be left out of a mend."""
    for field in moved:
        rest = {name: one for name, one in moved.items() if name != field}
        try:
            alone = base.with_values({field: moved[field]})
            base.with_values(rest)
        except InputError:
            return False
        if Machine(alone).verdict != "fails":
            return False
    return True


def mended(job):
    """What a spoiled design was, the changes that its first proposal has, and the seconds it took."""
    seed, number = job
    name, design, moved = spoiled(seed, number)
    start = time.process_time()
    found = plans(Machine(design))
    took = time.process_time() - start
    holds = bool(found) and Machine(
        Design.parse(design.with_values(dict(found[0].values)).to_toml(), "x.toml")
    ).verdict in ("holds", "tight")
    first = dict(found[0].values) if found else {}
    return name, moved, first, found[0].changes if found else 0, holds, took


def main():
    """Print each, and how many were mended."""
    asked = argparse.ArgumentParser(description=__doc__)
    asked.add_argument("--count", type=int, default=100)
    asked.add_argument("--seed", type=int, default=1)
    asked.add_argument("--workers", type=int, default=2)
    given = asked.parse_args()
    rows = []
    with ProcessPoolExecutor(given.workers) as pool:
        for row in pool.map(mended, [(given.seed, k) for k in range(given.count)]):
            rows.append(row)
            name, moved, first, changes, holds, took = row
            word = "mended" if holds else "NOT"
            few = "" if changes <= len(moved) else " MORE THAN WERE SPOILED"
            print(f"{word} {took:5.1f} s {name} {moved} -> {first}{few}", flush=True)
    done = sum(row[4] for row in rows)
    few = sum(row[4] and row[3] <= len(row[1]) for row in rows)
    worst = max(row[5] for row in rows)
    print(
        f"{done} of {len(rows)} mended, {few} with no more changes than were spoiled; {worst:.1f} s at worst"
    )


if __name__ == "__main__":
    main()
