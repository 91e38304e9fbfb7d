"""Spoils designs, shop files, sizes as made and command lines, runs them, and says what went wrong.

A :class:`Case` is files to lay out in an empty folder and the command to type there. :func:`judge`
runs it in process and gives every breach of what a maker may count on: no traceback, exit status 0, 1
or 2, no "nan" or "inf" before his eyes, one sentence a fault, nothing written where the input cannot be
used, nothing that runs, hangs or reaches a page as markup.
"""

from __future__ import annotations

import contextlib
import csv
import io
import json
import math
import os
import random
import re
import signal
import sys
import traceback
import unicodedata
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any

from mixerkit import Design
from mixerkit.__main__ import main
from mixerkit.data_files import data_path
from mixerkit.design import LISTED
from mixerkit.fields import kinds_in
from mixerkit.fields.kinds import (
    DayKind,
    NumberKind,
    PointKind,
    QuantityKind,
    WholeKind,
    WordsKind,
    YesNoKind,
)
from mixerkit.fields.lists import (
    ByNameKind,
    NumbersKind,
    PlacesKind,
    QuantitiesKind,
    SizesKind,
    TextsKind,
    WholeListsKind,
    WholesBySizeKind,
    WholesKind,
)
from mixerkit.fields.nested import RecordsKind
from mixerkit.shop.measurements import Measurements
from mixerkit.shop.workshop import Workshop
from mixerkit.tables import table
from mixerkit.units import Span

DEMOS = ("larkfield", "inch_room", "too_stiff", "thin_shaft")
DESIGNS = {one: data_path("designs", f"{one}.toml").read_text("utf-8") for one in DEMOS}
SHOP = data_path("shops", "larkfield_shop.toml").read_text("utf-8")
SIZES = data_path("measured", "larkfield_as_made.toml").read_text("utf-8")
LONGEST = 120
"""Seconds after which a case is taken to hang; the slowest honest one takes a quarter of it."""


@dataclass(frozen=True)
class Case:
    """One spoiled input and the command it is given to.

    Attributes
    ----------
    name : str
        What was spoiled, enough to find it again.
    arguments : tuple of str
        As typed, in the folder of the files.
    files : dict of str to (bytes or None)
        By path below that folder; None makes a folder.
    """

    name: str
    arguments: tuple[str, ...]
    files: dict[str, bytes | None] = field(default_factory=dict)


# ------------------------------------------------------------------------------------ running


class Hangs(BaseException):
    """A case took so long that it is taken to hang."""


@contextlib.contextmanager
def bounded(seconds: int = LONGEST) -> Any:
    """Stop what is inside after so many seconds."""

    def stop(_number: int, _frame: Any) -> None:
        raise Hangs

    before = signal.signal(signal.SIGALRM, stop)
    signal.alarm(seconds)
    try:
        yield
    finally:
        signal.alarm(0)
        signal.signal(signal.SIGALRM, before)


def tree(folder: Path) -> dict[str, bytes | None]:
    """Everything in a folder, by path, with its bytes."""
    return {
        str(path.relative_to(folder)): path.read_bytes() if path.is_file() else None
        for path in sorted(folder.rglob("*"))
    }


def lay_out(case: Case, folder: Path) -> None:
    """Write a case's files."""
    for name, content in case.files.items():
        path = folder / name
        if content is None:
            path.mkdir(parents=True)
        else:
            path.parent.mkdir(parents=True, exist_ok=True)
            path.write_bytes(content)


def typed(arguments: tuple[str, ...], folder: Path) -> tuple[Any, str, str]:
    """Exit status (or the exception), output and errors of a command typed in a folder."""
    out, err = io.StringIO(), io.StringIO()
    status: Any
    with contextlib.chdir(folder), contextlib.redirect_stdout(out), contextlib.redirect_stderr(err):
        try:
            with bounded():
                status = main(list(arguments))
        except SystemExit as error:
            status = error.code
        except (Exception, Hangs) as error:  # noqa: BLE001  whatever comes is what is looked for
            status = error
    return status, out.getvalue(), err.getvalue()


def judge(case: Case, folder: Path) -> list[str]:
    """Run a case in an empty folder and list every breach; none is good."""
    lay_out(case, folder)
    before = tree(folder)
    status, out, err = typed(case.arguments, folder)
    if isinstance(status, Hangs):
        return [f"hangs: {where_of(status)}"]
    if isinstance(status, BaseException):
        return [f"traceback: {type(status).__name__} at {where_of(status)}: {str(status)[:150]}"]
    after = tree(folder)
    found = [] if status in (0, 1, 2) else [f"exit status {status}"]
    own = b"\n".join(content for content in case.files.values() if content)
    found += _in_words("output", out) + _in_words("errors", err)
    if status == 2:
        found += _of_refusal(out, err)
        found += ["refused, and yet files changed"] if after != before else []
    else:
        if "--help" not in case.arguments and not out:
            found.append("nothing said")
        # what is refused may be quoted as it was given; what is worked out may not hold these
        given = own.decode("utf-8", "replace") + " ".join(case.arguments)
        found += _no_number("output", out, given) + _no_number("errors", err, given)
    for name, content in after.items():
        if content is None or before.get(name) == content:
            continue
        if before.get(name, content) != content and not name.startswith("out"):
            found.append(f"{name} was changed")
        if re.search(r"\.part$", name):
            found.append(f"{name} was left behind")
        found += _in_file(name, content, own)
    return found


def where_of(error: BaseException) -> str:
    """Innermost place in the kit of an exception: file and function."""
    frames = [
        one
        for one in traceback.extract_tb(error.__traceback__)
        if "/mixerkit/" in one.filename and "/tests/" not in one.filename
    ]
    if not frames:
        return "outside the kit"
    last = frames[-1]
    return f"{last.filename.rsplit('/mixerkit/', 1)[1]}:{last.lineno} {last.name}"


NO_NUMBER = re.compile(r"(?<![\w.])[-+]?(?:nan|inf|infinity)(?![\w])", re.IGNORECASE)
UNSAFE = ("<script", "<img", "onerror=alert", "<svg/onload", "javascript:")
"""Markup that the spoilers put in and a page may hold only escaped."""


def _no_number(where: str, text: str, given: str = "") -> list[str]:
    hit = NO_NUMBER.search(text)
    if not hit or NO_NUMBER.search(given):
        return []
    return [f"{where} says {hit[0]!r}: {text[max(hit.start() - 60, 0) : hit.end() + 40]!r}"]


def _in_words(where: str, text: str) -> list[str]:
    """What a terminal would obey, or a reader could not follow."""
    found = [f"{where}: Traceback"] if "Traceback (most recent" in text else []
    odd = {
        one
        for one in text
        if one != "\n" and unicodedata.category(one) in ("Cc", "Cs", "Zl", "Zp", "Cf")
    }
    return found + ([f"{where} holds characters {sorted(map(ascii, odd))}"] if odd else [])


def _of_refusal(out: str, err: str) -> list[str]:
    found = ["refused, but something is on the output"] if out else []
    # what was being done may be told before it cannot be written
    lines = [line for line in err.splitlines() if not re.fullmatch(r"  \w.* \.\.\.", line)]
    if not lines:
        found.append("refused without a word")
    for line in lines:
        if not line.strip() or line[0].isspace() or not line.rstrip().endswith("."):
            found.append(f"not a sentence: {line[:100]!r}")
        if len(line) > 1500:
            found.append(f"a sentence of {len(line)} characters")
        if re.search(r"\b(Error|Exception|errno)\b|0x[0-9a-f]{8}|datetime\.", line):
            found.append(f"not a maker's words: {line[:150]!r}")
    if len(set(lines)) < len(lines):
        found.append("the same sentence twice")
    return found


def _in_file(name: str, content: bytes, own: bytes) -> list[str]:
    if not name.endswith((".html", ".svg", ".csv", ".dxf")):
        return []
    text = content.decode("utf-8")
    given = own.decode("utf-8", "replace")
    found = _no_number(name, text, given)
    if name.endswith((".html", ".svg")):
        found += [f"{name} holds {one!r}" for one in UNSAFE if one in text.lower()]
    if name.endswith(".csv"):
        found += [
            f"{name}: the cell {cell!r} begins a formula"
            for row in csv.reader(io.StringIO(text))
            for cell in row
            if begins_formula(cell)
        ]
    return found


def begins_formula(cell: str) -> bool:
    """Whether a spreadsheet would take a cell for a formula; a number is none."""
    if not cell.startswith(("=", "+", "-", "@", "\t", "\r")):
        return False
    try:
        return not math.isfinite(float(cell))
    except ValueError:
        return True


# ------------------------------------------------------------------------------------ literals

HOSTILE = (
    "nan",
    "inf",
    "-inf",
    '"nan mm"',
    '"inf mm"',
    '"1e400 mm"',
    '"-1e400 N*m"',
    "1e400",
    "-1e400",
    '"1e308 km"',
    "-1",
    "0",
    "-0.0",
    "1e-320",
    '"1e-320 mm"',
    '"5e-324 kg"',
    '""',
    '" "',
    '"\\u0000"',
    '"\\u001b[2J"',
    '"\\t=1+1"',
    '"<script>alert(1)</script>"',
    '"<img src=x onerror=alert(1)>"',
    "'<svg/onload=alert(1)>'",
    '"&lt;b&gt;"',
    '"9**9**9"',
    '"9**9**9 mm"',
    '"5 (9**9**9)*mm"',
    '"5 m**9**9**9"',
    '"5 mm*9**9**9"',
    '"5 mm**99999999"',
    '"=HYPERLINK(\\"http://example.com\\")"',
    '"@SUM(1)"',
    '"+1+1"',
    '"-2+3"',
    '"{{7*7}}"',
    '"{0}"',
    '"%s%n"',
    "\"__import__('os').system('touch ran')\"",
    '"$(touch ran)"',
    '"`touch ran`"',
    '"../../etc/passwd"',
    '"\\u202e gnitirw"',
    '"line\\u2028line"',
    '"a\\nb"',
    '"zero\\u200bwidth"',
    '"\\ufeff5 mm"',
    '"𝟓 mm"',
    '"٣ mm"',
    '"½ in"',
    '"5\\u00a0mm"',
    "1979-05-27T07:32:00Z",
    "1979-05-27",
    "07:32:00",
    "[]",
    "{}",
    "[[[[1]]]]",
    "{a = {b = {c = 1}}}",
    "[{}]",
    "[nan]",
    "true",
    "false",
    "9223372036854775807",
    "9223372036854775808",
    "-9223372036854775809",
    "0x" + "f" * 4000,
    "9" * 5000,
    f'"{"9" * 5000} mm"',
    f'"1/{"9" * 5000} in"',
    f'"{"1" * 20000} x"',
    f'"{"x" * 100000}"',
    f'"5 {"(" * 2000}mm"',
    "[" * 2000 + "1" + "]" * 2000,
    f"[{'1, ' * 3000}]",
    '"5"',
    '"5 kg"',
    '"5 degC"',
    '"5 mm/0"',
    '"1/0 in"',
    '"1 1/0 in"',
    '"5 kWatz"',
    '"five mm"',
    '"5,5 mm"',
    '"1 mm to 13 mm by 0 mm"',
    '"1 mm to 13 mm by 1e-9 mm"',
    '"200 mm to 1 mm by 1 mm"',
    '"5 mm\\u0000"',
    '"5 mm#"',
    '"150 %"',
    '"nan %"',
    "1_0",
    '"""\nthree\nlines\n"""',
    "'it''s'",
    "abc",
    "= 3",
    "",
    '"unclosed',
    "[1, 2",
)
"""Values as they stand in a TOML file, most of them wrong wherever they are put."""
_LINE = re.compile(r"""^(\s*)([\w.-]+|"[^"]*")(\s*=\s*)(.+?)(\s+#.*)?$""")


def literal(value: Any) -> str:
    """Write a plain value as TOML."""
    if isinstance(value, (list, tuple)):
        return f"[{', '.join(map(literal, value))}]"
    if isinstance(value, float) and not isinstance(value, bool):
        return repr(value)
    return json.dumps(value, ensure_ascii=False)


def written(content: dict[str, Any], prefix: str = "") -> str:
    """Write nested dicts as TOML, values before tables."""
    lines = [
        f"{_key(name)} = {literal(value)}"
        for name, value in content.items()
        if not isinstance(value, dict)
    ]
    for name, value in content.items():
        if isinstance(value, dict):
            full = f"{prefix}{_key(name)}"
            lines += [f"[{full}]", written(value, f"{full}.")]
    return "\n".join(lines)


def _key(name: str) -> str:
    return name if re.fullmatch(r"[A-Za-z0-9_-]+", name) else json.dumps(name)


# ------------------------------------------------------------------------------------ spoiling a text


def spoil(text: str, chance: random.Random) -> tuple[str, bytes]:
    """Spoil a text file in one to four ways; gives what was done, and the bytes."""
    done = []
    lines = text.split("\n")
    for _ in range(chance.choice((1, 1, 1, 2, 4))):
        way = chance.choice(_WAYS)
        done.append(way(lines, chance))
    content = "\n".join(lines).encode("utf-8", "surrogatepass")
    if chance.random() < 0.12:
        words, content = _of_bytes(content, chance)
        done.append(words)
    return "; ".join(done), content


def _with_value(lines: list[str], chance: random.Random) -> int | None:
    places = [k for k, line in enumerate(lines) if _LINE.match(line)]
    return chance.choice(places) if places else None


def _put(lines: list[str], chance: random.Random) -> str:
    k = _with_value(lines, chance)
    value = chance.choice(HOSTILE)
    if k is None:
        return "nothing to spoil"
    found = _LINE.match(lines[k])
    lines[k] = f"{found[1]}{found[2]}{found[3]}{value}"
    return f"{found[2]} = {value[:40]}"


def _scale(lines: list[str], chance: random.Random) -> str:
    """Another number before the same unit: far out, at an end, or a hair beside it."""
    k = _with_value(lines, chance)
    if k is None:
        return "nothing to scale"
    number = chance.choice(
        ("0", "-1", "1e-9", "1e9", "1e300", "0.5", "0.001", "1e3", "1e-300", "3", "99", "2e2", "7")
    )
    lines[k] = re.sub(r"(?<![\w.])\d+\.?\d*", number, lines[k].split("#")[0], count=1)
    return lines[k].strip()[:60]


def _unit(lines: list[str], chance: random.Random) -> str:
    k = _with_value(lines, chance)
    if k is None:
        return "no unit"
    unit = chance.choice(
        (
            "kg",
            "mm",
            "",
            "in",
            "furlong",
            "mm^2",
            "1/mm",
            "deg",
            "m*m/m",
            "mm mm",
            "°",
            "·",
            "*",
            "N m",
            "km",
            "ft",
            "%",
        )
    )
    lines[k] = re.sub(r'(\d) [^"\d]+"', rf'\1 {unit}"', lines[k].split("#")[0], count=1)
    return lines[k].strip()[:60]


def _drop(lines: list[str], chance: random.Random) -> str:
    k = chance.randrange(len(lines))
    return f"dropped {lines.pop(k)[:40]!r}" if len(lines) > 1 else "nothing to drop"


def _double(lines: list[str], chance: random.Random) -> str:
    k = chance.randrange(len(lines))
    lines.insert(chance.randrange(len(lines)), lines[k])
    return f"doubled {lines[k][:40]!r}"


def _swap(lines: list[str], chance: random.Random) -> str:
    a, b = chance.randrange(len(lines)), chance.randrange(len(lines))
    lines[a], lines[b] = lines[b], lines[a]
    return f"swapped lines {a} and {b}"


def _swap_values(lines: list[str], chance: random.Random) -> str:
    a, b = _with_value(lines, chance), _with_value(lines, chance)
    if a is None or b is None:
        return "nothing to swap"
    one, two = _LINE.match(lines[a]), _LINE.match(lines[b])
    lines[a] = f"{one[1]}{one[2]}{one[3]}{two[4]}"
    lines[b] = f"{two[1]}{two[2]}{two[3]}{one[4]}"
    return f"values of {one[2]} and {two[2]} swapped"


def _rename(lines: list[str], chance: random.Random) -> str:
    k = _with_value(lines, chance)
    name = chance.choice(
        (
            '"<script>alert(1)</script>"',
            '"a\\nb"',
            '"\\u001b[31m"',
            '""',
            '"' + "k" * 30000 + '"',
            "x",
            "a.b.c.d",
            "name.first",
            '"=1+1"',
            "'nan'",
            "1",
            "__class__",
            "plain",
            '"with space"',
        )
    )
    if k is None:
        return "nothing to rename"
    found = _LINE.match(lines[k])
    lines[k] = f"{name}{found[3]}{found[4]}"
    return f"{found[2]} renamed {name[:40]}"


def _table(lines: list[str], chance: random.Random) -> str:
    head = chance.choice(
        (
            "[motor]",
            "[motor.motor]",
            "[[motor]]",
            "[[gears]]",
            "[a.b.c.d.e]",
            '["<script>"]',
            "[",
            "[]",
            "[plates]",
            "[gears.direct_1.bore]",
            "[" + "a." * 500 + "a]",
            "[shafts.3]",
            "[shafts.-1]",
            '[cutters."nan"]',
            '[cutters]\n"inf" = [1]',
            '[cutters]\n"1e999" = [1]',
            '[cutters]\n"0x5" = []',
            '[cutters]\n"5_0" = [8]',
        )
    )
    lines.insert(chance.randrange(len(lines) + 1), head)
    return f"a table {head[:30]!r}"


def _garble(lines: list[str], chance: random.Random) -> str:
    k = chance.randrange(len(lines))
    letters = list(lines[k]) or ["x"]
    for _ in range(chance.randint(1, 6)):
        letters[chance.randrange(len(letters))] = chance.choice(
            "=\"'[]{}#,.\\\t\x00\x07\x1b <>&é漢\u202e0123456789-+eEnaif"
        )
    lines[k] = "".join(letters)
    return f"garbled line {k}"


def _cut(lines: list[str], chance: random.Random) -> str:
    k = chance.randrange(len(lines))
    del lines[k:]
    lines.append("")
    return f"cut off at line {k}"


_WAYS = (
    _put,
    _put,
    _put,
    _put,
    _put,
    _scale,
    _scale,
    _scale,
    _unit,
    _drop,
    _double,
    _swap,
    _swap_values,
    _rename,
    _table,
    _garble,
    _cut,
)


def _of_bytes(content: bytes, chance: random.Random) -> tuple[str, bytes]:
    way = chance.randrange(9)
    if way == 0:
        return "a byte order mark", b"\xef\xbb\xbf" + content
    if way == 1:
        return "CRLF", content.replace(b"\n", b"\r\n")
    if way == 2:
        return "CR", content.replace(b"\n", b"\r")
    if way == 3:
        return "10 MB of comment", content + b"\n# " + b"x" * 10_000_000
    if way == 4:
        return "bytes at random", chance.randbytes(2000)
    if way == 5:
        return "UTF-16", content.decode("utf-8", "replace").encode("utf-16")
    if way == 6:
        k = chance.randrange(len(content) + 1)
        return "a byte in the middle", content[:k] + bytes([chance.randrange(256)]) + content[k:]
    if way == 7:
        return "10 MB of one value", b'name = "' + b"y" * 10_000_000 + b'"\n' + content
    return "empty", b""


# ------------------------------------------------------------------------------------ valid at random


FIELDS = list(kinds_in(Design).items())
SIZE_FIELDS = {
    dotted: kind
    for dotted, kind in kinds_in(Measurements).items()
    if "." in dotted and dotted != "shafts.2.box_end"
}
"""All that can be measured."""


def number_in(span: str, chance: random.Random) -> float:
    """A number in a range: its ends now and then, else even in itself or in its logarithm."""
    limits = Span.read(span)
    low, high = max(limits.above, limits.least), min(limits.below, limits.most)
    low, high = max(low, -1e6), min(high, 1e6)
    if chance.random() < 0.25:
        ends = [one for one in (low, high, low + 1e-9 * (high - low)) if limits.holds(one)]
        return chance.choice(ends)
    if low >= 0 and chance.random() < 0.7:
        least = max(low, 1e-4 * high)
        return min(max(math.exp(chance.uniform(math.log(least), math.log(high))), least), high)
    return low + (high - low) * (0.001 + 0.998 * chance.random())


def value_in(dotted: str, kind: Any, chance: random.Random) -> Any:
    """A value that a field's kind takes, as it stands in a file."""
    if isinstance(kind, WordsKind):
        return _words_in(dotted, kind, chance)
    return next(make for of, make in _MAKERS.items() if isinstance(kind, of))(kind, chance)


def _quantity_in(kind: Any, chance: random.Random) -> str:
    return f"{number_in(kind.span, chance):.8g} {Span.read(kind.span).unit.replace('**', '^')}"


def _quantities_in(kind: Any, chance: random.Random) -> list[str]:
    made = sorted(
        number_in(kind.span, chance) for _ in range(chance.randint(0, min(kind.longest, 4)))
    )
    return [f"{number:.6g} {Span.read(kind.span).unit}" for number in made]


def _places_in(kind: Any, chance: random.Random) -> list[str]:
    return [
        f"{chance.choice(kind.options)} at {_quantity_in(kind, chance)}"
        for _ in range(chance.randint(0, 3))
    ]


def _point_in(_kind: Any, chance: random.Random) -> list[str]:
    return [
        f"{chance.choice((0, -5000, 5000, chance.uniform(-400, 400))):.4f} mm" for _ in range(2)
    ]


def _records_in(kind: Any, chance: random.Random) -> list[dict[str, Any]]:
    return [
        {name: value_in(name, one, chance) for name, one in kinds_in(kind.of).items()}
        for _ in range(chance.randint(0, 2))
    ]


_MAKERS: dict[type, Any] = {
    RecordsKind: _records_in,
    ByNameKind: lambda _kind, chance: chance.choice(
        ({}, {"trough.length": "330 mm"}, {"paths.direct.tooth_counts": [30, 30]}, {"x.y": 1})
    ),
    PointKind: _point_in,
    SizesKind: lambda kind, chance: chance.choice(
        ([], ["0.001 mm"], ["200 mm"], ["1 mm to 13 mm by 0.5 mm"], _quantities_in(kind, chance))
    ),
    TextsKind: lambda _kind, chance: chance.choice(([], ["M6"], ["M12", "M12"])),
    WholeListsKind: lambda _kind, chance: chance.choice(
        ([], [[]], [[2]], [[500]], [list(range(2, 60))], [[15, 16], [49, 49]])
    ),
    WholesBySizeKind: lambda _kind, chance: chance.choice(
        ({}, {"5": []}, {"5": [1, 2, 3, 4, 5, 6, 7, 8]}, {"0.001": [8], "25": [1]})
    ),
    QuantityKind: _quantity_in,
    NumberKind: lambda kind, chance: float(f"{number_in(kind.span, chance):.8g}"),
    WholeKind: lambda kind, chance: chance.randint(kind.least, kind.most),
    WholesKind: lambda kind, chance: [
        chance.randint(kind.least, kind.most)
        for _ in range(chance.randint(kind.fewest, kind.longest))
    ],
    NumbersKind: lambda kind, chance: [
        round(number_in(kind.span, chance), 3) for _ in range(chance.choice((0, 2, 3)))
    ],
    QuantitiesKind: _quantities_in,
    PlacesKind: _places_in,
    YesNoKind: lambda _kind, chance: chance.random() < 0.5,
    DayKind: lambda _kind, chance: chance.choice(
        ("", "2026-03-01", "2024-02-29", "9999-12-31", "0001-01-01")
    ),
}


def _words_in(dotted: str, kind: WordsKind, chance: random.Random) -> str:
    if dotted in LISTED:
        return str(chance.choice(list(table(LISTED[dotted]).column("name"))))
    if kind.options:
        return chance.choice(kind.options)
    return chance.choice(
        (
            "mixer",
            "<script>alert(1)</script>",
            "=1+1",
            "nanny's infinite mixer",
            "{{7*7}}",
            "ü漢",
            "a & b",
            "</title><img src=x onerror=alert(1)>",
        )
    )


def design_in_range(chance: random.Random, count: int | None = None) -> tuple[str, bytes]:
    """A demo with some fields anywhere inside their declared ranges."""
    name = chance.choice(DEMOS)
    content = Design.demo(name).to_table()
    chosen = chance.sample(FIELDS, count or chance.choice((1, 2, 3, 3, 5, 8)))
    said = []
    for dotted, kind in chosen:
        if dotted == "format":
            continue
        value = value_in(dotted, kind, chance)
        *outer, last = dotted.split(".")
        inner = content
        for part in outer:
            inner = inner[part]
        inner[last] = value
        said.append(f"{dotted} = {value!r}")
    return f"{name}: {'; '.join(said)}", written(content).encode()


def _put_in(content: dict[str, Any], dotted: str, value: Any) -> None:
    *outer, last = dotted.split(".")
    for part in outer:
        content = content.setdefault(part, {})
    content[last] = value


def _size_in(kind: Any, chance: random.Random) -> Any:
    if isinstance(kind, WholeKind):
        return chance.choice((0, 1, 2, 5, 7, 9, 21, 30, 39, 1000, chance.randint(0, 1000)))
    if isinstance(kind, PointKind):
        return value_in("", kind, chance)
    return f"{math.exp(chance.uniform(math.log(1e-3), math.log(1e4))):.6g} mm"


def sizes_in_range(chance: random.Random) -> tuple[str, bytes]:
    """Measurements that may stand in the file, of any size."""
    content: dict[str, Any] = {}
    for dotted in chance.sample(sorted(SIZE_FIELDS), chance.choice((1, 2, 4, 12, 30))):
        _put_in(content, dotted, _size_in(SIZE_FIELDS[dotted], chance))
    return f"sizes {content}", written(content).encode()


def shop_in_range(chance: random.Random) -> tuple[str, bytes]:
    """A shop that may be, of any size."""
    content: dict[str, Any] = {}
    left_out = [
        one for one in ("holes", "lathe", "mill", "plasma", "stock") if chance.random() < 0.3
    ]
    for dotted, kind in kinds_in(Workshop).items():
        table, _, inner = dotted.partition(".")
        if table not in left_out and not (inner and chance.random() < 0.3):
            _put_in(content, dotted, value_in(dotted, kind, chance))
    return f"shop {content}", written(content).encode()


# ------------------------------------------------------------------------------------ cases


def case(number: int, seed: int = 1) -> Case:
    """One of the spoiled cases, the same for the same number and seed."""
    chance = random.Random(f"{seed}/{number}")
    kind = _KINDS[number % len(_KINDS)]
    name, arguments, files = kind(chance)
    return Case(f"{number} {kind.__name__}: {name[:300]}", tuple(arguments), files)


def _command(chance: random.Random, *, quick: bool = True) -> list[str]:
    """A command on the design d.toml; those that write are rarer, for they take long."""
    roll = chance.random()
    if roll < (0.7 if quick else 0.0):
        return ["check", "d.toml"] + ["--why"] * (chance.random() < 0.3)
    if roll < 0.86:
        return ["sheets", "d.toml", "--out", "out"]
    return ["report", "d.toml", "--out", "out"] + ["--pictures"] * (roll > 0.98)


def _spoiled_design(chance: random.Random) -> tuple[str, list[str], dict[str, bytes | None]]:
    words, content = spoil(DESIGNS[chance.choice(DEMOS)], chance)
    command = chance.choice(
        (
            ["check", "d.toml"],
            ["check", "d.toml", "--why"],
            ["check", "d.toml"],
            _command(chance),
            ["hold-points", "d.toml", "empty.toml"],
        )
    )
    return words, command, {"d.toml": content, "empty.toml": b""}


def _design_in_range(chance: random.Random) -> tuple[str, list[str], dict[str, bytes | None]]:
    words, content = design_in_range(chance)
    return words, ["check", "d.toml", "--why"], {"d.toml": content}


def _written_design(chance: random.Random) -> tuple[str, list[str], dict[str, bytes | None]]:
    words, content = design_in_range(chance)
    return words, _command(chance, quick=False), {"d.toml": content}


def _design_and_sizes(chance: random.Random) -> tuple[str, list[str], dict[str, bytes | None]]:
    words, content = design_in_range(chance)
    said, sizes = sizes_in_range(chance)
    return (
        f"{words}; {said}",
        ["hold-points", "d.toml", "s.toml"],
        {"d.toml": content, "s.toml": sizes},
    )


def _spoiled_shop(chance: random.Random) -> tuple[str, list[str], dict[str, bytes | None]]:
    words, content = spoil(SHOP, chance)
    command = chance.choice(
        (
            ["sheets", "d.toml", "--out", "out"],
            ["report", "d.toml", "--out", "out"],
            ["hold-points", "d.toml", "s.toml"],
        )
    )
    files = {"d.toml": DESIGNS["larkfield"].encode(), "s.toml": b"", "shop.toml": content}
    return words, [*command, "--shop", "shop.toml"], files


def _shop_in_range(chance: random.Random) -> tuple[str, list[str], dict[str, bytes | None]]:
    words, content = shop_in_range(chance)
    said, sizes = sizes_in_range(chance)
    command = chance.choice(
        (
            ["sheets", "d.toml", "--out", "out"],
            ["hold-points", "d.toml", "s.toml"],
            ["hold-points", "d.toml", "s.toml"],
        )
    )
    files = {"d.toml": DESIGNS["larkfield"].encode(), "s.toml": sizes, "shop.toml": content}
    return f"{words}; {said}", [*command, "--shop", "shop.toml"], files


def _spoiled_sizes(chance: random.Random) -> tuple[str, list[str], dict[str, bytes | None]]:
    # the demo's spoiled blank is searched for ways out for seconds: mostly it is left out
    text = (
        SIZES
        if chance.random() < 0.2
        else SIZES.replace('outside_diameter = "109.95 mm"\n', "").replace(
            'outside_diameter = "149.95 mm"\n', ""
        )
    )
    words, content = spoil(text, chance)
    return (
        words,
        ["hold-points", "d.toml", "s.toml"],
        {"d.toml": DESIGNS["larkfield"].encode(), "s.toml": content},
    )


def _sizes_in_range(chance: random.Random) -> tuple[str, list[str], dict[str, bytes | None]]:
    words, content = sizes_in_range(chance)
    return (
        words,
        ["hold-points", "d.toml", "s.toml"],
        {"d.toml": DESIGNS["larkfield"].encode(), "s.toml": content},
    )


WORDS = (
    "new",
    "check",
    "report",
    "sheets",
    "hold-points",
    "chek",
    "--why",
    "--out",
    "--shop",
    "--paper",
    "--pictures",
    "--help",
    "-h",
    "--",
    "-",
    "",
    " ",
    "d.toml",
    "s.toml",
    "shop.toml",
    "none.toml",
    "folder",
    "folder/new.toml",
    "none/new.toml",
    "d.toml/x",
    "out",
    "out/deep/er",
    "a4",
    "letter",
    "A4",
    "both",
    "x" * 300,
    "<script>alert(1)</script>",
    "$(touch ran)",
    "=1+1",
    "a\nb",
    "\x1b[2J",
    "\u202e",
    "nul\0l",
    "--out=d.toml",
    "--out=",
    "--out=folder",
    "--shop=folder",
    "/dev/null",
    "/dev/zero",
    "--why=1",
    "-why",
    "--wh",
    "..",
    ".",
    "~",
    "*",
    "%s",
    "{0}",
    "caf\udce9.toml",
    "/proc/none/x",
)
"""Words to type on a command line, in any order."""


def _command_line(chance: random.Random) -> tuple[str, list[str], dict[str, bytes | None]]:
    files: dict[str, bytes | None] = {
        "d.toml": DESIGNS["larkfield"].encode(),
        "s.toml": SIZES.encode() if chance.random() < 0.2 else b"",
        "shop.toml": SHOP.encode(),
        "folder": None,
    }
    if chance.random() < 0.4:
        files["out"] = b"in the way"
    if chance.random() < 0.3:
        files |= {"folder/report.html": None, "folder/sheets_a4.html": None}
    arguments = [chance.choice(WORDS) for _ in range(chance.randint(0, 5))]
    if chance.random() < 0.8:
        arguments.insert(0, chance.choice(WORDS[:5]))
    return repr(arguments), arguments, files


_KINDS = (
    _spoiled_design,
    _design_in_range,
    _spoiled_design,
    _command_line,
    _spoiled_sizes,
    _spoiled_shop,
    _design_in_range,
    _spoiled_design,
    _command_line,
    _sizes_in_range,
    _design_in_range,
    _spoiled_design,
    _spoiled_sizes,
    _command_line,
    _design_in_range,
    _written_design,
    _spoiled_design,
    _design_in_range,
    _design_and_sizes,
    _shop_in_range,
)


if __name__ == "__main__":
    # a look at many: how many cases, from which seed, and of which kinds if not of all
    import collections
    import tempfile
    import time

    wanted, first = (
        int(one)
        for one in ([*sys.argv[1:3], "300", "1"] if len(sys.argv) < 3 else sys.argv[1:3])[:2]
    )
    if sys.argv[3:]:
        _KINDS = tuple(one for one in _KINDS if one.__name__ in sys.argv[3:])
    tally: collections.Counter[str] = collections.Counter()
    slow: list[tuple[float, str]] = []
    for number in range(wanted):
        one = case(number, first)
        with tempfile.TemporaryDirectory() as place:
            begun = time.perf_counter()
            for fault in judge(one, Path(place)):
                print(f"{fault}\n    {one.name[:250]}\n    {' '.join(one.arguments)[:100]!r}")
                tally[re.sub(r"'.*|\d+", "", fault)[:90]] += 1
            slow.append((time.perf_counter() - begun, one.name[:120]))
    print(*(f"{count:5} {fault}" for fault, count in tally.most_common()), sep="\n")
    print(f"{sum(took for took, _ in slow):.0f} s")
    print(*(f"{took:6.1f} s {name}" for took, name in sorted(slow)[-8:]), sep="\n")
    os._exit(0)
