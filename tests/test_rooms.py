"""Who may import whom: top to bottom only, and slow libraries only where pictures are made."""

import ast
import importlib.metadata
import re
import subprocess
import sys
from pathlib import Path

import pytest

import mixerkit

ROOT = Path(mixerkit.__file__).parent
# a module may import from rooms of a lower number, and from its own room
ROOMS = {
    "__init__": 11,
    "__main__": 10,
    "show": 9,
    "explore": 8,
    "machine": 7,
    "stages": 6,
    "design": 5,
    "load": 5,
    "drive": 5,
    "shop": 5,
    "parts": 4,
    "checking": 3,
    "results": 2,
    "checks": 2,
    "spare": 2,
    "tables": 2,
    "spec": 1,
    "states": 1,
    "fields": 0,
    "units": 0,
    "working": 1,
    "frozen": 0,
    "constants": 0,
    "data_files": 0,
    "textfiles": 0,
    "pasted": 0,
    "carried": 0,
    "version": 0,
    "written": 0,
}
WITHIN = {
    "units": {"data_files"},
    "working": {"units"},
    "textfiles": {"carried", "fields", "pasted", "units", "written"},
    "written": {"units"},
    "carried": {"pasted", "units"},
    "pasted": {"units"},
    "frozen": set(),
    "constants": set(),
    "fields": {"frozen", "units"},
    "spec": {"carried", "fields"},
    "states": {"frozen"},
    "data_files": set(),
    "checks": {"frozen", "results", "spare", "units", "working"},
    "spare": {"frozen", "results"},
    "results": {"fields", "frozen", "spec", "states", "units"},
    "tables": {"data_files", "fields", "frozen", "results", "units"},
}
DRAWING = {"matplotlib", "ipywidgets", "IPython", "pandas", "jinja2"}


def modules():
    paths = sorted(ROOT.rglob("*.py"))
    return [(path, path.relative_to(ROOT).with_suffix("").parts[0]) for path in paths]


def imports(path):
    for node in ast.walk(ast.parse(path.read_text("utf-8"))):
        if isinstance(node, ast.ImportFrom):
            assert node.level == 0, f"{path}: relative import"
            yield node.module
            if node.module == "mixerkit":
                yield from (f"mixerkit.{alias.name}" for alias in node.names)
        elif isinstance(node, ast.Import):
            yield from (alias.name for alias in node.names)


@pytest.mark.parametrize(
    ("path", "room"), modules(), ids=lambda value: getattr(value, "stem", value)
)
def test_imports_go_down(path, room):
    assert room in ROOMS, f"{room} is not in the plan of rooms"
    for name in imports(path):
        top, *rest = name.split(".")
        if top in DRAWING:
            assert room == "show", f"{path} imports {name}"
        if top != "mixerkit" or not rest:
            continue
        other = rest[0]
        if other == room:
            continue
        if room in WITHIN:
            assert other in WITHIN[room], f"{path} imports {name}"
        else:
            assert ROOMS[other] < ROOMS[room], f"{path} imports {name}"


def test_stages_do_not_know_the_design_file():
    for path, room in modules():
        if room in {"load", "drive", "shop", "parts", "checking", "results", "states", "checks"}:
            assert "mixerkit.design" not in set(imports(path)), path


def test_every_library_the_kit_imports_is_one_it_asks_for():
    asked = {
        re.match(r"[\w.-]+", need).group().lower()
        for need in importlib.metadata.requires("mixerkit")
        if "extra ==" not in need
    }
    brought = {"mixerkit", "markupsafe", *sys.stdlib_module_names}  # jinja2 brings markupsafe
    used = {name.split(".")[0] for path, _ in modules() for name in imports(path)} - brought
    assert used <= asked, f"not among the dependencies: {used - asked}"


def test_importing_the_kit_is_light():
    code = "import mixerkit, sys; mixerkit.Design; mixerkit.Machine; print(*sys.modules)"
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert not {name.split(".")[0] for name in done.stdout.split()} & DRAWING
    code = "import mixerkit, sys; print(*sys.modules)"
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert not {name.split(".")[0] for name in done.stdout.split()} & {*DRAWING, "pint", "numpy"}


def test_the_face_is_what_it_says():
    assert set(dir(mixerkit)) == set(mixerkit.__all__)
    for name in mixerkit.__all__:
        assert getattr(mixerkit, name) is not None
    with pytest.raises(AttributeError):
        _ = mixerkit.nothing
