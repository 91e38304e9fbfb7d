"""Briefs drawn at random, drafted in three shops, each design read from its file again; printed by this script.

``python tests/briefs.py --count 200 --seed 1 --workers 2``. A brief has a bag of 5 to 25 kg, clay of 5 to 60 kPa, one of
six sockets, metric or inch, and with an even chance one thing that is there: a motor, a box, a bar or a module.
"""

import argparse
import random
import time
from collections import Counter
from concurrent.futures import ProcessPoolExecutor
from math import sqrt

from mixerkit import Design, Machine
from mixerkit.data_files import data_path
from mixerkit.explore.draft.brief import parse_brief
from mixerkit.explore.draft.conflict import conflict
from mixerkit.explore.draft.drafting import best_of
from mixerkit.explore.draft.file import draft_text
from mixerkit.explore.remedy import plain_value
from mixerkit.shop.workshop import read_workshop

SOCKETS = {
    "120 V 15 A 60 Hz": ("120 V", "60 Hz", 1, "15 A"),
    "230 V 10 A": ("230 V", "50 Hz", 1, "10 A"),
    "230 V 13 A": ("230 V", "50 Hz", 1, "13 A"),
    "230 V 16 A": ("230 V", "50 Hz", 1, "16 A"),
    "400 V 16 A": ("400 V", "50 Hz", 3, "16 A"),
}
SHOPS = (None, "larkfield_shop", "inch_room_shop")
THERE = {
    "motor": ('[motor]\nrated_power = "1.5 kW"\nrated_speed = "1420 rpm"', "motor"),
    "box": ('[reducer]\nratio = 60\nrated_torque = "600 N*m"\noutput_bore = "45 mm"', "reducer"),
    "bar": ('[shaft_1]\ndiameter = "50 mm"', "shaft_1"),
    "module": ('[paths.direct]\nmodule = "5 mm"\n[paths.idler]\nmodule = "5 mm"', "paths"),
}


def brief(seed, number):
    """The text of a brief, its shop, its socket and what is there."""
    draw = random.Random(f"{seed} {number}")
    socket, shop = draw.choice(list(SOCKETS)), draw.choice(SHOPS)
    voltage, frequency, phases, current = SOCKETS[socket]
    mass, strength = draw.uniform(5, 25), 5 * 12 ** draw.random()
    inch = draw.random() < 0.4
    # Hansbo's cone of 80 g and 30 degrees, s = 0.8*m*g/d**2, as the kit has it
    sinks = sqrt(0.8 * 0.080 * 9.80665 / (strength * 1e3)) * 1e3
    there = draw.choice(["", *THERE]) if draw.random() < 0.5 else ""
    stands = THERE[there][0] if there else ""
    if frequency == "60 Hz":
        stands = stands.replace("1420 rpm", "1720 rpm")
    lines = [
        'show_units = "inch"' if inch else "",
        "[batch]",
        f'mass = "{mass / 0.45359237:.0f} lb"' if inch else f'mass = "{mass:.1f} kg"',
        '[clay]\nstrength_from = "cone"',
        f'cone_penetration = "{sinks:.2f} mm"',
        f'[supply]\nvoltage = "{voltage}"\nfrequency = "{frequency}"\nphases = {phases}',
        f'socket_current = "{current}"',
        stands,
    ]
    return "\n".join(lines) + "\n", shop, socket, there, strength, mass


def drafted(job):
    """How a brief ended: a design that holds, a conflict whose change frees it, or nothing."""
    seed, number = job
    text, shop, socket, there, strength, mass = brief(seed, number)
    given = parse_brief(text)
    start = time.process_time()
    workshop = read_workshop(data_path("shops", f"{shop}.toml")) if shop else None
    found = best_of(given, workshop)
    took = time.process_time() - start
    said = f"{number} {mass:.1f} kg {strength:.0f} kPa {socket} {shop or 'no shop'} {there or 'nothing'} there"
    if found and found.badness == 0:
        design = Design.parse(draft_text(given, found), "my_mixer.toml")
        kept = all(
            plain_value(design, name) == read(name, value) for name, value in given.given.items()
        )
        word = "holds" if kept and Machine(design).verdict != "fails" else "BROKEN"
        return word, said, took, socket, there
    if found is None:
        return "NOTHING", said, took, socket, there
    met = conflict(given, found, workshop, lambda _: None)
    word = "conflict" if met.field and met.attempt.badness == 0 else "NO WAY OUT"
    return word, f"{said}; {met.line or met.against}", took, socket, there


def read(name, value):
    """A given value as the design reads it."""
    _, _, kind = Design.demo().field(name)
    return kind.number(kind.read_at(value, name))


def main():
    """Print each, and how many hold at each socket."""
    asked = argparse.ArgumentParser(description=__doc__)
    asked.add_argument("--count", type=int, default=200)
    asked.add_argument("--seed", type=int, default=1)
    asked.add_argument("--workers", type=int, default=2)
    given = asked.parse_args()
    rows = []
    with ProcessPoolExecutor(given.workers) as pool:
        for row in pool.map(drafted, [(given.seed, k) for k in range(given.count)]):
            rows.append(row)
            print(f"{row[0]} {row[2]:5.1f} s {row[1]}", flush=True)
    print(Counter(row[0] for row in rows))
    for socket in SOCKETS:
        bare = [row for row in rows if row[3] == socket and not row[4]]
        print(
            f"{socket}: {sum(row[0] == 'holds' for row in bare)} of {len(bare)} without given parts hold"
        )
    times = sorted(row[2] for row in rows)
    print(f"draft: {times[len(times) // 2]:.1f} s in the median, {times[-1]:.1f} s at worst")


if __name__ == "__main__":
    main()
