"""What one module takes from another is there: read as text, so that a gap is named and not stumbled over."""

import ast
import functools
from pathlib import Path

import pytest

ROOT = Path(__file__).parent.parent / "mixerkit"
FILES = sorted(ROOT.rglob("*.py"))
LAZY = {"mixerkit", "mixerkit.show"}
"""They give names on asking, by a function of their own."""


def home_of(dotted):
    """File of a module, or none."""
    path = ROOT.parent.joinpath(*dotted.split("."))
    for one in (path.with_suffix(".py"), path / "__init__.py"):
        if one.is_file():
            return one
    return None


@functools.cache
def bound(path):
    """Names that a module binds, whatever the branch."""
    found = set()
    for node in ast.walk(ast.parse(path.read_text("utf-8"))):
        if isinstance(node, ast.FunctionDef | ast.ClassDef):
            found.add(node.name)
        elif isinstance(node, ast.Name) and isinstance(node.ctx, ast.Store):
            found.add(node.id)
        elif isinstance(node, ast.Import | ast.ImportFrom):
            found |= {(one.asname or one.name).split(".")[0] for one in node.names}
    return found


def gaps(path, text=None):
    """What a module takes from the kit that is not there, a sentence each."""
    here = path.relative_to(ROOT.parent)
    for node in ast.walk(ast.parse(text or path.read_text("utf-8"))):
        if not isinstance(node, ast.ImportFrom) or not node.module.startswith("mixerkit"):
            continue
        home = home_of(node.module)
        if home is None:
            yield f"{here} takes from {node.module}, and there is no such module"
            continue
        for one in node.names:
            if node.module in LAZY or one.name in bound(home):
                continue
            if home_of(f"{node.module}.{one.name}") is None:
                yield f"{here} takes {one.name} from {node.module}, and nothing of that name is there"


@functools.cache
def tables_of_a_design():
    """Names that the whole design's record declares."""
    tree = ast.parse((ROOT / "spec" / "whole.py").read_text("utf-8"))
    (whole,) = (one for one in tree.body if isinstance(one, ast.ClassDef) and one.name == "Spec")
    return {one.target.id for one in whole.body if isinstance(one, ast.AnnAssign)}


def fields_of_no_table(path, text=None):
    """What a module asks of a design that no record declares, a sentence each."""
    known = tables_of_a_design() | bound(ROOT / "fields" / "record.py")
    here = path.relative_to(ROOT.parent)
    for node in ast.walk(ast.parse(text or path.read_text("utf-8"))):
        of = getattr(node, "value", None)
        if (
            isinstance(node, ast.Attribute)
            and "spec" in (getattr(of, "attr", ""), getattr(of, "id", ""))
            and node.attr not in known
        ):
            yield f"{here} asks .spec.{node.attr}, and spec/whole.py declares no such table"


@pytest.mark.parametrize("path", FILES, ids=lambda path: str(path.relative_to(ROOT)))
def test_what_it_takes_is_there(path):
    assert list(gaps(path)) == []
    if path.relative_to(ROOT).parts[0] in {"load", "drive", "parts", "shop"}:
        assert list(fields_of_no_table(path)) == []


def test_a_gap_is_named():
    path = ROOT / "stages.py"
    text = "from mixerkit.drive import sail\nfrom mixerkit.spec.drive import Sail\n"
    assert list(gaps(path, text)) == [
        "mixerkit/stages.py takes sail from mixerkit.drive, and nothing of that name is there",
        "mixerkit/stages.py takes Sail from mixerkit.spec.drive, and nothing of that name is there",
    ]
    assert list(gaps(path, "from mixerkit.drive.sail import checks")) == [
        "mixerkit/stages.py takes from mixerkit.drive.sail, and there is no such module"
    ]
    assert list(fields_of_no_table(path, "def checks(machine): return machine.spec.sail")) == [
        "mixerkit/stages.py asks .spec.sail, and spec/whole.py declares no such table"
    ]
