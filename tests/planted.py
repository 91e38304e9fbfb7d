"""Plants faults one at a time in the formulas and says which the tests catch.

``python tests/planted.py --seed 12 --count 150`` draws faults in the modules of load, drive, parts and shop,
plants each in a copy of the project and runs tests there until one fails: those that name the module first,
then the rest, the quick ones before the slow. What a saved output alone would catch does not count: golden
values and notebooks are not run. A fault in what only proposes a change to try, or in words, is none: what is
proposed is tried before it is said. Results stand in tests/planted_results.csv by seed and number; a run broken
off goes on where it was. ``--show`` prints the faults of a seed without planting them, ``--again`` plants
survivors of a seed anew. What is equal to what it replaces is listed with its reason in tests/planted_equal.csv.
"""

import argparse
import ast
import csv
import os
import random
import re
import shutil
import subprocess
import sys
import tempfile
import time
from concurrent.futures import ThreadPoolExecutor, as_completed
from dataclasses import dataclass
from pathlib import Path

ROOT = Path(__file__).parent.parent
RESULTS, EQUAL = ROOT / "tests" / "planted_results.csv", ROOT / "tests" / "planted_equal.csv"
ROOMS = ("load", "drive", "parts", "shop")
SKIPPED = (
    "test_golden.py",
    "test_browser.py",
    "test_wheel.py",
    "test_spoiled.py",
    "test_measures.py",
    "test_rooms.py",
    "test_wiring.py",
    "test_units.py",
    "test_frozen.py",
    "test_command_line.py",
    "test_bad_input.py",
    "test_as_made_cli.py",
    "test_design.py",
    "test_stages.py",
)
"""Tests that hold saved outputs, or the ways round the formulas and not the formulas."""
QUICK = (
    "test_hand_worked.py",
    "test_hand_worked_parts.py",
    "test_hand_worked_loads.py",
    "test_unlike_gears.py",
    "test_seats_as_made.py",
    "test_working.py",
    "test_safe_side.py",
    "test_worm_box.py",
    "test_jam_limits.py",
    "test_jam_wedge.py",
    "test_softest_metal.py",
    "test_pulsating.py",
    "test_tooth_lives.py",
    "test_film.py",
    "test_backdriving.py",
    "test_heaped_clay.py",
    "test_pin_steel.py",
    "test_large_holes.py",
    "test_bag_ways.py",
    "test_tool_ways.py",
    "test_drive_limits.py",
    "test_frame.py",
    "test_load.py",
)
"""Tests of much in a few seconds, run with those that name the module."""
SLOW = (
    "test_parts_limits.py",
    "test_goes_together.py",
    "test_working_changed.py",
    "test_as_made.py",
    "test_panels.py",
    "test_stamp.py",
    "test_remedies.py",
    "test_rework_followed.py",
)
"""Tests that are run last, as long as there is time."""
LIMIT = 240
"""Seconds for the tests of one fault, unless told otherwise."""
SWAPS = {
    ast.Add: "-",
    ast.Sub: "+",
    ast.Mult: "/",
    ast.Div: "*",
    ast.Lt: ">=",
    ast.LtE: ">",
    ast.Gt: "<=",
    ast.GtE: "<",
    ast.Eq: "!=",
    ast.NotEq: "==",
}
SIGNS = {
    ast.Add: "+",
    ast.Sub: "-",
    ast.Mult: "*",
    ast.Div: "/",
    ast.Lt: "<",
    ast.LtE: "<=",
    ast.Gt: ">",
    ast.GtE: ">=",
    ast.Eq: "==",
    ast.NotEq: "!=",
}
OTHERS = {"max": "min", "min": "max", "maximum": "minimum", "minimum": "maximum"}


@dataclass(frozen=True)
class Fault:
    """One change of a module's text: from a place to another, by what, in which function."""

    module: str
    line: int
    function: str
    start: int
    end: int
    before: str
    after: str

    @property
    def words(self):
        """What stands in place of what."""
        return f"{self.before} -> {self.after}"

    def planted(self, text):
        """Text of the module with the fault in it."""
        return text[: self.start] + self.after + text[self.end :]


def _proposes(node):
    """Whether a function or keyword only says words or proposes changes that are tried before they are said."""
    if isinstance(node, (ast.FunctionDef, ast.AsyncFunctionDef)):
        given = ast.unparse(node.returns) if node.returns else ""
        return "Change" in given or given == "str" or node.name.startswith("reason")
    if isinstance(node, ast.keyword):
        return node.arg in {"fix", "note", "reason", "source", "fixes", "tells", "notes"}
    return isinstance(node, (ast.JoinedStr, ast.AnnAssign)) and not isinstance(
        getattr(node, "value", None), (ast.BinOp, ast.Call, ast.Constant)
    )


class _Finder(ast.NodeVisitor):
    """Collects every fault that could be planted in a module."""

    def __init__(self, module, text):
        self.module, self.text, self.found, self.inside = module, text, [], []
        lengths = [0]
        for line in text.encode().splitlines(keepends=True):
            lengths.append(lengths[-1] + len(line))
        self.starts, self.raw = lengths, text.encode()

    def _at(self, line, column):
        return len(self.raw[: self.starts[line - 1] + column].decode())

    def _add(self, node, start, end, after):
        self.found.append(
            Fault(
                self.module,
                node.lineno,
                ".".join(self.inside),
                start,
                end,
                self.text[start:end],
                after,
            )
        )

    def _between(self, left, right, sign, after, node):
        start = self._at(left.end_lineno, left.end_col_offset)
        end = self._at(right.lineno, right.col_offset)
        place = self.text.find(sign, start, end)
        if place >= 0:
            self._add(node, place, place + len(sign), after)

    def visit(self, node):
        if _proposes(node):
            return
        named = isinstance(node, (ast.FunctionDef, ast.ClassDef))
        if named:
            self.inside.append(node.name)
        super().visit(node)
        if named:
            self.inside.pop()

    def visit_FunctionDef(self, node):
        # decorators give units and keep values, annotations types, docstrings are run as they are
        for one in [*node.args.defaults, *node.args.kw_defaults, *node.body]:
            if one is not None:
                self.visit(one)

    def visit_AnnAssign(self, node):
        if node.value is not None:
            self.visit(node.value)

    def visit_BinOp(self, node):
        kind = type(node.op)
        words = any(
            isinstance(one, ast.Constant) and isinstance(one.value, str)
            for one in (node.left, node.right)
        )
        lists = any(
            isinstance(one, (ast.List, ast.ListComp, ast.Tuple)) for one in (node.left, node.right)
        )
        if kind in SWAPS and not words and not lists:
            self._between(node.left, node.right, SIGNS[kind], SWAPS[kind], node)
        self.generic_visit(node)

    def visit_Compare(self, node):
        kind = type(node.ops[0])
        if len(node.ops) == 1 and kind in SWAPS:
            self._between(node.left, node.comparators[0], SIGNS[kind], SWAPS[kind], node)
        self.generic_visit(node)

    def visit_BoolOp(self, node):
        sign, after = ("and", "or") if isinstance(node.op, ast.And) else ("or", "and")
        self._between(node.values[0], node.values[1], sign, after, node)
        self.generic_visit(node)

    def visit_Constant(self, node):
        value = node.value
        if isinstance(value, bool) or not isinstance(value, (int, float)):
            return
        start, end = (
            self._at(node.lineno, node.col_offset),
            self._at(node.end_lineno, node.end_col_offset),
        )
        self._add(
            node,
            start,
            end,
            repr(value + max(1, value // 5))
            if isinstance(value, int)
            else repr(value * 1.2 or 0.1),
        )

    def visit_Call(self, node):
        name = node.func
        word = name.id if isinstance(name, ast.Name) else getattr(name, "attr", "")
        if word in OTHERS:
            end = self._at(name.end_lineno, name.end_col_offset)
            self._add(node, end - len(word), end, OTHERS[word])
        self.generic_visit(node)

    def visit_UnaryOp(self, node):
        if isinstance(node.op, (ast.USub, ast.Not)):
            start = self._at(node.lineno, node.col_offset)
            self._add(node, start, self._at(node.operand.lineno, node.operand.col_offset), "")
        self.generic_visit(node)


def faults():
    """Every fault that could be planted, in the order of modules and lines."""
    found = []
    for room in ROOMS:
        for path in sorted((ROOT / "mixerkit" / room).glob("*.py")):
            # messages, workings' symbols and proposals of sizes are words
            if path.stem in {"__init__", "remedies"}:
                continue
            text = path.read_text(encoding="utf-8")
            finder = _Finder(str(path.relative_to(ROOT)), text)
            finder.visit(ast.parse(text))
            found += finder.found
    return found


def drawn(seed, count):
    """Faults drawn by a seed, as many from each module as it has lines' worth of them."""
    return random.Random(seed).sample(faults(), count)


def test_files(fault):
    """Tests in the order they are run in: quick ones and those that name the module, the rest, the slow ones."""
    stem, function = Path(fault.module).stem, fault.function.rsplit(".", 1)[-1]
    begun, later, last = [], [], []
    for path in sorted((ROOT / "tests").rglob("test_*.py")):
        if path.name in SKIPPED:
            continue
        text = path.read_text(encoding="utf-8")
        named = bool(re.search(rf"\b{stem}\b", text)) + 2 * bool(
            function and re.search(rf"\b{re.escape(function)}\b", text)
        )
        quick = path.name in QUICK or path.parent.name == "published"
        row = last if path.name in SLOW else begun if quick or named else later
        row.append((-named if row is begun else 0, path.stat().st_size, path))
    return [
        [str(one.relative_to(ROOT)) for _, _, one in sorted(row)] for row in (begun, later, last)
    ]


def caught_by(fault, copy, limit):
    """The first test that fails with a fault planted in a copy of the project, or nothing."""
    path, (begun, later, last) = copy / fault.module, test_files(fault)
    text = path.read_text(encoding="utf-8")
    ends = time.monotonic() + limit
    path.write_text(fault.planted(text), encoding="utf-8")
    try:
        for some in ([fault.module, *begun], later, last):
            by = failed(some, copy, ends - time.monotonic())
            if by:
                return by
    except subprocess.TimeoutExpired:
        return ""
    finally:
        path.write_text(text, encoding="utf-8")
    return ""


def failed(files, copy, seconds):
    """The first test of some files that fails in a copy of the project."""
    done = subprocess.run(
        [sys.executable, "-m", "pytest", "-x", "-q", "-p", "no:cacheprovider", *files],
        cwd=copy,
        env={**os.environ, "PYTHONPATH": str(copy)},
        capture_output=True,
        text=True,
        timeout=max(seconds, 0.0),
        check=False,
    )
    said = re.findall(r"^(?:FAILED|ERROR) (\S+)", done.stdout, re.MULTILINE)
    return said[0] if said else "" if done.returncode == 0 else f"exit {done.returncode}"


def read(path):
    """Rows of a file of results, none if it is not there."""
    if not path.exists():
        return []
    with path.open(encoding="utf-8", newline="") as file:
        return list(csv.DictReader(file))


def run(seed, count, workers, again, limit):
    """Plant what has not been planted, and keep each result."""
    known = {
        (one["seed"], one["number"], one["module"], one["line"], one["fault"])
        for one in read(RESULTS)
        if not (again and not one["caught by"])
    }
    # where a module has changed since, another fault has its number
    wanted = [
        (k, one)
        for k, one in enumerate(drawn(seed, count))
        if (str(seed), str(k), one.module, str(one.line), one.words) not in known
    ]
    with tempfile.TemporaryDirectory() as folder, ThreadPoolExecutor(workers) as pool:
        copies = []
        for k in range(workers):
            copies.append(Path(folder) / str(k))
            shutil.copytree(
                ROOT,
                copies[-1],
                ignore=shutil.ignore_patterns(".venv", ".git", "__pycache__", "notebooks"),
            )
        free = list(copies)

        def one_of(item):
            number, fault = item
            copy = free.pop()
            begun = time.monotonic()
            by = caught_by(fault, copy, limit)
            free.append(copy)
            return number, fault, by, time.monotonic() - begun

        for done in as_completed([pool.submit(one_of, item) for item in wanted]):
            number, fault, by, took = done.result()
            keep(seed, number, fault, by)
            print(
                f"{number:4d} {took:5.0f} s  {'caught' if by else 'SURVIVES'}  {fault.module}:{fault.line} {fault.before!r} -> {fault.after!r}  {by}",
                flush=True,
            )


def keep(seed, number, fault, by):
    """Write down what caught a fault, in place of what was known of it."""
    rows = [
        one for one in read(RESULTS) if (one["seed"], one["number"]) != (str(seed), str(number))
    ]
    rows.append(
        {
            "seed": str(seed),
            "number": str(number),
            "module": fault.module,
            "function": fault.function,
            "fault": fault.words,
            "line": str(fault.line),
            "caught by": by,
        }
    )
    with RESULTS.open("w", encoding="utf-8", newline="") as file:
        writer = csv.DictWriter(file, list(rows[0]), lineterminator="\n")
        writer.writeheader()
        writer.writerows(sorted(rows, key=lambda one: (int(one["seed"]), int(one["number"]))))


def main():
    """Run from the command line."""
    parser = argparse.ArgumentParser(description="Plant faults and say which the tests catch.")
    parser.add_argument("--seed", type=int, default=12)
    parser.add_argument("--count", type=int, default=150)
    parser.add_argument("--workers", type=int, default=os.cpu_count() or 1)
    parser.add_argument("--limit", type=float, default=LIMIT)
    parser.add_argument("--show", action="store_true")
    parser.add_argument("--again", action="store_true")
    given = parser.parse_args()
    if given.show:
        for k, one in enumerate(drawn(given.seed, given.count)):
            print(f"{k:4d} {one.module}:{one.line} {one.function}: {one.before!r} -> {one.after!r}")
        return
    run(given.seed, given.count, given.workers, given.again, given.limit)
    rows = [one for one in read(RESULTS) if one["seed"] == str(given.seed)]
    equal = {(one["seed"], one["number"]) for one in read(EQUAL)}
    told = [one for one in rows if (one["seed"], one["number"]) not in equal]
    caught = sum(bool(one["caught by"]) for one in told)
    print(f"{caught} of {len(told)} caught, {len(rows) - len(told)} equal")


if __name__ == "__main__":
    main()
