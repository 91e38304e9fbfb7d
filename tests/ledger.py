"""The ledger of published values: which formula stands on how many values from how many sources.

``tests/published/values.csv`` holds one value a row: a formula, what goes in, what comes out, how near,
and where it is published; ``tests/published/elsewhere.csv`` counts values that a test of its own holds
(a beam, a whole table). ``tests/published/without.csv`` names every formula that has fewer than it should,
with what it has and why. ``python tests/ledger.py`` prints how each formula stands;
``tests/test_ledger.py`` holds that none is in neither.

A value counts if its source was seen, in the work itself or restated in public (mostly as worked
examples with their books' answers). One from memory is tried but does not count, nor does one that is
spare, beyond the twenty of one source; what a test works out by itself is no value at all.
"""

import ast
import csv
import importlib
import inspect
import pkgutil
from collections import Counter
from dataclasses import dataclass
from pathlib import Path

import mixerkit
from mixerkit.units import Q_

PUBLISHED = Path(__file__).parent / "published"
ROOMS = ("load", "drive", "parts")
ENOUGH = 3
SOURCES = 2
MOST_OF_ONE = 20
SEEN = "seen"
SPARE = "spare"
MEMORY = "from memory"


def rows_of(name):
    with (PUBLISHED / f"{name}.csv").open(encoding="utf-8", newline="") as lines:
        return list(csv.DictReader(lines))


@dataclass(frozen=True)
class Value:
    """A published value: what ``formula`` gives for ``given``, as ``source`` has it."""

    formula: str
    given: str
    result: str
    within: str
    source: str
    where: str
    seen: str

    @property
    def tolerance(self):
        """Relative, or None where it is a length or the like."""
        number, _, unit = self.within.partition(" ")
        assert unit == "%", self
        return float(number) / 100

    def arguments(self):
        """What goes in: numbers and lists as they are, everything else as a maker would write it."""
        found = {}
        for one in self.given.split("; "):
            name, text = one.split("=", 1)
            try:
                found[name] = ast.literal_eval(text)
            except (ValueError, SyntaxError):
                found[name] = text
        return found

    def wanted(self):
        """What ought to come out, each as number and unit."""
        for one in self.result.split(" | "):
            number, _, unit = one.partition(" ")
            yield float(number), unit

    def found(self):
        """What does come out, each in the unit of what is wanted."""
        given = formula(self.formula)(**self.arguments())
        each = given if isinstance(given, tuple) else (given,)
        for one, (_, unit) in zip(each, self.wanted(), strict=True):
            yield (
                float(one.m_as(unit)) if hasattr(one, "m_as") else float(one) * Q_(1, unit).m_as("")
            )


def values():
    return [Value(**row) for row in rows_of("values")]


def formula(name):
    """A public formula by room, module and name."""
    module, _, called = name.rpartition(".")
    return getattr(importlib.import_module(f"mixerkit.{module}"), called)


def formulas():
    """Names of every public formula of the rooms of physics.

    That is what stands behind a door for units, and what names its references: strictly more than
    what a check asks for, since sheets and sizes for a machinist count as well.
    """
    for room in ROOMS:
        folder = Path(mixerkit.__file__).parent / room
        for one in sorted(each.name for each in pkgutil.iter_modules([str(folder)])):
            module = importlib.import_module(f"mixerkit.{room}.{one}")
            for name in getattr(module, "__all__", ()):
                it = getattr(module, name)
                if not inspect.isfunction(it) or it.__module__ != module.__name__:
                    continue
                if hasattr(it, "formula") or "    References\n" in (it.__doc__ or ""):
                    yield f"{room}.{one}.{name}"


def counted():
    """How many values each formula has, by source: those that were seen."""
    found = {}
    for one in values():
        if one.seen == SEEN:
            found.setdefault(one.formula, Counter())[one.source] += 1
    for row in rows_of("elsewhere"):
        if row["seen"] == SEEN:
            found.setdefault(row["formula"], Counter())[row["source"]] += int(row["values"])
    return found


def enough(by_source):
    return sum(by_source.values()) >= ENOUGH and len(by_source) >= SOURCES


def main():
    have, all_of_them = counted(), list(formulas())
    for name in all_of_them:
        by_source = have.get(name, Counter())
        print(
            "over" if enough(by_source) else "    ",
            f"{sum(by_source.values()):3d} of {len(by_source)}  {name}",
        )
    over = sum(enough(have.get(name, Counter())) for name in all_of_them)
    print(f"{over} of {len(all_of_them)} formulas have {ENOUGH} values from {SOURCES} sources")


if __name__ == "__main__":
    main()
