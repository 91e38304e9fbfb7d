"""Measures of the code, printed: statements by room, long modules and functions, ranks, types left open.

``python tests/measures.py`` prints; ``tests/test_measures.py`` holds what must not come back.
"""

import ast
import re
import tokenize
from collections import Counter
from pathlib import Path

from radon.complexity import cc_rank, cc_visit

ROOT = Path(__file__).parent.parent / "mixerkit"
FILES = sorted(ROOT.rglob("*.py"))


def room_of(path):
    return path.relative_to(ROOT).parts[0].removesuffix(".py")


def statements(path):
    """Statements of a module, its docstrings left out."""
    return sum(
        isinstance(node, ast.stmt)
        and not (isinstance(node, ast.Expr) and isinstance(node.value, ast.Constant))
        for node in ast.walk(ast.parse(path.read_text("utf-8")))
    )


def long_functions(most=60):
    """Functions of more than so many lines from their def to their end."""
    for path in FILES:
        for node in ast.walk(ast.parse(path.read_text("utf-8"))):
            if isinstance(node, ast.FunctionDef) and node.end_lineno - node.lineno + 1 > most:
                yield f"{path.relative_to(ROOT)}: {node.name}", node.end_lineno - node.lineno + 1


def lengths():
    """Lines of each module."""
    return {path: len(path.read_text("utf-8").splitlines()) for path in FILES}


def imports():
    """Statements that only take names from other modules."""
    return sum(
        isinstance(node, ast.Import | ast.ImportFrom)
        for path in FILES
        for node in ast.walk(ast.parse(path.read_text("utf-8")))
    )


def ranked_worse(than="C"):
    """Functions of a worse rank of cyclomatic complexity, as radon ranks them."""
    for path in FILES:
        for block in cc_visit(path.read_text("utf-8")):
            if cc_rank(block.complexity) > than:
                yield f"{path.relative_to(ROOT)}: {block.name}", block.complexity


def tokens_of(path):
    with path.open("rb") as stream:
        yield from tokenize.tokenize(stream.readline)


def names(word):
    """How often a name stands in the code, words in texts and comments left out."""
    return sum(
        token.type == tokenize.NAME and token.string == word
        for path in FILES
        for token in tokens_of(path)
    )


def ignores():
    """Each ``type: ignore``, with the reason that stands after it."""
    for path in FILES:
        for found in re.finditer(r"# type: ignore\[[\w, -]+\](.*)", path.read_text("utf-8")):
            yield f"{path.relative_to(ROOT)}: {found[0]}", found[1].lstrip(" #")


def main():
    """Print them."""
    rooms = Counter()
    for path in FILES:
        rooms[room_of(path)] += statements(path)
    print(
        f"{sum(rooms.values())} statements, {imports()} of them imports:",
        ", ".join(f"{a} {b}" for a, b in rooms.most_common()),
    )
    print("modules over 300 lines:")
    for path, lines in sorted(lengths().items(), key=lambda one: -one[1]):
        if lines > 300:
            print(f"  {lines} {path.relative_to(ROOT)}")
    print("functions over 60 lines:")
    for name, lines in sorted(long_functions(), key=lambda one: -one[1]):
        print(f"  {lines} {name}")
    print("of rank D or worse:", *ranked_worse())
    print(f"Any: {names('Any')}; type: ignore: {len(list(ignores()))}")


if __name__ == "__main__":
    main()
