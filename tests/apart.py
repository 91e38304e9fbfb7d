"""Looks for bodies in one place, and tries an order of assembly, with intervals alone: nothing of the kit is used.

A body is a ring about an axis along the machine, as ``mixerkit check --json`` lists it: ``axis`` (y, z),
``from``, ``to``, ``inner`` and ``outer`` in mm, and ``teeth_of`` for gears, which mesh with those of their path.
"""

from __future__ import annotations

from itertools import combinations
from math import hypot

LEAST = 1e-4
"""Overlap in mm that counts."""
PRESSED = 0.05
"""By how much a bore may be pushed over a thicker section: fits of k6 and less (ISO 286-2, up to 120 mm)."""
SPRUNG = 0.6
"""By how much a retaining ring is sprung over a shaft thicker than its nominal, in mm."""


def _overlap(a, b, c, d):
    return min(b, d) - max(a, c)


def in_one_place(bodies):
    """Pairs of names of bodies that share some place."""
    found = []
    for one, other in combinations(bodies, 2):
        if _overlap(one["from"], one["to"], other["from"], other["to"]) <= LEAST:
            continue
        away = hypot(one["axis"][0] - other["axis"][0], one["axis"][1] - other["axis"][1])
        if away < LEAST:
            shared = _overlap(one["inner"], one["outer"], other["inner"], other["outer"])
        elif one["teeth_of"] and one["teeth_of"] == other["teeth_of"]:
            continue
        else:
            shared = (one["outer"] + other["outer"]) / 2 - away
        if shared > LEAST:
            found.append((one["name"], other["name"]))
    return found


def blocked(bodies, number, from_left, from_right):
    """What cannot be put on shaft ``number`` in the order told, each from its end, one after the other."""
    of = f" of shaft {number}"
    shaft = [one for one in bodies if one["name"] == f"shaft {number}"]
    row = {one["name"].removesuffix(of): one for one in bodies if one["name"].endswith(of)}
    left, right = min(one["from"] for one in shaft), max(one["to"] for one in shaft)
    on, faults = [], []
    for name, end in [*((one, left) for one in from_left), *((one, right) for one in from_right)]:
        if name.startswith("ring "):
            continue
        body = row[name]
        bush = row.get(f"bush of the {name}", body)
        inner = min(body["inner"], bush["inner"])
        # it passes everything from its end of the shaft to its own far face
        path = (end, body["to"]) if end == left else (body["from"], end)
        thick = max(
            (one["outer"] for one in shaft if _overlap(*path, one["from"], one["to"]) > LEAST),
            default=0.0,
        )
        if thick > inner + PRESSED:
            faults.append(f"{name} of {inner:g} mm over {thick:g} mm")
        faults += [
            f"{name} past {other['name']}"
            for other in on
            if _overlap(*path, other["from"], other["to"]) > LEAST
        ]
        on.append(body)
    missing = set(row) - set(from_left) - set(from_right)
    parts = ("bush of", "dogs of", "ring at", "spacer ", "near seal", "far seal")
    faults += [f"{one} is in no order" for one in missing if not one.startswith(parts)]
    return faults
