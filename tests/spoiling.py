"""Designs spoiled one choice at a time, the maker's typing of a remedy, and a slow referee of single changes."""

import contextlib
import io
import json
import random
import re
from functools import cache

import numpy as np

from mixerkit import Design, InputError, Machine
from mixerkit.__main__ import main
from mixerkit.explore.settable import axes, choices
from mixerkit.fields.kinds import QuantityKind, WholeKind
from mixerkit.fields.knobs import knob_range
from mixerkit.fields.lists import NumbersKind, QuantitiesKind, WholesKind
from mixerkit.units import Span

DEMOS = ("larkfield", "inch_room", "too_stiff", "thin_shaft")
NO_FUSE = {"fuse.kind": "none"}


def failing(design):
    return {one.id for one in Machine(design).checks if one.verdict == "fails"}


def spoiled(count, seed=1):
    """Yield (name, design): demos with and without fuse, one choice moved until a check fails that held."""
    draw = random.Random(seed)
    seen = set()
    while len(seen) < count:
        demo, fuse = draw.choice(DEMOS), draw.random() < 0.7
        field = draw.choice([name for name, _ in choices()])
        way, which = draw.choice((1, -1)), draw.random()
        key = (demo, fuse, field, way)
        if key in seen:
            continue
        base, before = _base(demo, fuse)
        options = axes(base, field)
        if not options:
            continue
        axis = options[int(which * len(options))]
        found = _moved(base, before, axis, way)
        if found:
            seen.add(key)
            said = f"{demo}{'' if fuse else ' without fuse'}: {field} = {found[1]!r}"
            yield said, found[0]


@cache
def _base(demo, fuse):
    base = Design.demo(demo)
    base = base if fuse else base.with_values(NO_FUSE)
    return base, frozenset(failing(base))


def _moved(base, before, axis, way):
    if axis.values is None:
        places = range(axis.count)
    else:
        start = int(np.floor(axis.here)) if way < 0 else int(np.ceil(axis.here))
        strides = np.unique(np.round(1.45 ** np.arange(0, 28)).astype(int))
        places = [
            start + way * stride for stride in strides if 0 <= start + way * stride < axis.count
        ]
    for k in places:
        value = axis.write(k)
        try:
            design = base.with_values({axis.field: value})
        except InputError:
            return None
        if failing(design) - before:
            return design, value
    return None


def typed(text, values):
    """Type values into a design file's text as a maker would: find the table, then the line."""
    lines = text.splitlines()
    for dotted, value in values.items():
        table, _, name = dotted.rpartition(".")
        said = f"{name} = {json.dumps(value, ensure_ascii=False)}"
        head = next(
            (i for i, one in enumerate(lines) if one.split("#")[0].strip() == f"[{table}]"), None
        )
        if head is None:
            lines += ["", f"[{table}]", said]
            continue
        end = next((i for i in range(head + 1, len(lines)) if lines[i].startswith("[")), len(lines))
        place = next((i for i in range(head + 1, end) if re.match(rf"{name}\s*=", lines[i])), None)
        if place is None:
            lines.insert(head + 1, said)
        else:
            lines[place] = said
    return "\n".join(lines) + "\n"


def answer(path, *options):
    """What ``mixerkit check FILE --json`` prints, read back."""
    out = io.StringIO()
    with contextlib.redirect_stdout(out):
        status = main(["check", str(path), "--json", *options])
    said = json.loads(out.getvalue())
    assert status == (1 if said["verdict"] == "fails" else 0)
    return said


def broken_promises(design, folder):
    """Follow every remedy that is printed for a design; give those that do not do what they say."""
    mine, changed = folder / "my_mixer.toml", folder / "changed.toml"
    text = design.to_toml()
    mine.write_text(text, "utf-8")
    said = answer(mine)
    before = {one["id"] for one in said["checks"] if one["verdict"] == "fails"}
    wrong, tried = [], {}
    for check in said["checks"]:
        for remedy in check["remedies"]:
            key = json.dumps(remedy["set"], sort_keys=True)
            if key not in tried:
                changed.write_text(typed(text, remedy["set"]), "utf-8")
                then = answer(changed, "--no-remedies")
                tried[key] = {one["id"]: one["verdict"] for one in then["checks"]}
            after = tried[key]
            if after.get(check["id"], "gone") not in ("holds", "tight"):
                wrong.append(f"{check['id']}: {key} leaves it {after.get(check['id'], 'gone')}")
            fails = {name for name, verdict in after.items() if verdict == "fails"}
            if fails - before != set(remedy["breaks"]):
                wrong.append(
                    f"{check['id']}: {key} breaks {fails - before}, said {remedy['breaks']}"
                )
    return said, wrong, len(tried)


def referee(design, fine=24):
    """Sweep every choice both ways through its whole range; give what mends each failing check.

    Returns a dict of id to the (field, value) that mend it, from an own grid and not the kit's.
    """
    before = failing(design)
    mended = {one: [] for one in before}
    for field, kind in choices():
        for value in _grid(design, field, kind, fine):
            try:
                there = {
                    one.id: one.verdict
                    for one in Machine(design.with_values({field: value})).checks
                }
            except InputError:
                continue
            for one in before:
                if there.get(one, "fails") != "fails":
                    mended[one].append((field, value))
    return mended


def _grid(design, field, kind, fine):
    record, name, _ = design.field(field)
    now = getattr(record, name)
    if isinstance(kind, QuantityKind):
        unit = Span.read(kind.span).unit
        return [f"{one:.8g} {unit}" for one in _spread(now, *knob_range(kind), fine)]
    if isinstance(kind, WholeKind):
        return [one for one in range(kind.least, kind.most + 1) if one != now]
    if isinstance(kind, WholesKind):
        found = []
        for i in range(len(now)):
            for step in (-12, -6, -4, -3, -2, -1, 1, 2, 3, 4, 6, 12, 24):
                changed = list(now)
                changed[i] += step
                found.append(changed)
        return found
    if isinstance(kind, NumbersKind):
        count = len(getattr(design.paths, field.split(".")[1]).tooth_counts)
        base = list(now or [0.0] * count)
        return [
            [base[j] + step if j == i else base[j] for j in range(count)]
            for i in range(count)
            for step in (-0.4, -0.2, -0.1, 0.1, 0.2, 0.4)
        ]
    if isinstance(kind, QuantitiesKind):
        return []
    return [axis.write(k) for axis in axes(design, field) for k in range(axis.count)]


def _spread(now, low, high, fine):
    """Values both ways from the one there is, denser near it."""
    found = []
    for end in (low, high):
        for share in np.linspace(0.02, 1.0, fine) ** 2:
            value = now + share * (end - now)
            if low < value < high or value == end:
                found.append(float(value))
    return found
