"""Demand and capacity of every check of the demo designs, as they stood when last recorded.

``python tests/golden.py`` prints what differs; ``--write`` records anew. A change of a value is told,
with its reason, in the message of the commit that brings it.
"""

import json
import sys
from pathlib import Path

from mixerkit import Design, Machine

FILE = Path(__file__).parent / "golden" / "checks.json"
DEMOS = ("larkfield", "inch_room", "too_stiff", "thin_shaft")


def worked_out():
    """Map each demo to its checks' ids and (demand, capacity), not-a-number as text."""
    return {
        demo: {
            one.id: [repr(one.demand), repr(one.capacity)]
            for one in Machine(Design.demo(demo)).checks
        }
        for demo in DEMOS
    }


def recorded():
    return json.loads(FILE.read_text("utf-8"))


def differences(old, new, accuracy=1e-9):
    """Say each check that came, went or changed by more than the accuracy."""
    said = []
    for demo in sorted({*old, *new}):
        before, after = old.get(demo, {}), new.get(demo, {})
        said += [f"{demo}: {key} is gone" for key in before if key not in after]
        said += [f"{demo}: {key} is new" for key in after if key not in before]
        for key in before.keys() & after.keys():
            for what, one, two in zip(("demand", "capacity"), before[key], after[key], strict=True):
                first, second = float(one), float(two)
                same = one == two or abs(first - second) <= accuracy * max(abs(first), abs(second))
                if not same:
                    said.append(f"{demo}: {key}: {what} {first:.10g} is now {second:.10g}")
    return said


if __name__ == "__main__":
    now = worked_out()
    if "--write" in sys.argv:
        FILE.write_text(json.dumps(now, indent=1) + "\n", "utf-8")
    for line in differences(recorded(), now):
        print(line)
