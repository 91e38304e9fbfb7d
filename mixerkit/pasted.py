"""Lines such as ``shaft_2.diameter = "50 mm"``, as the kit prints a change, pasted anywhere in a design file.

TOML would take such a line as part of the table above it. Each is put where it belongs: over the field's
own line in its table, or into the table, or into a new one at the end.
"""

from __future__ import annotations

import re
from collections.abc import Collection, Sequence

from mixerkit.units import InputError

__all__ = ["find_table", "lines_of", "put_in_place"]

_LINE = re.compile(r"^\s*((?:[a-z_0-9]+\.)+[a-z_0-9]+)\s*=\s*(\S.*?)\s*$")
_COMMENT = re.compile(r"""^(?:[^"'#]|"[^"]*"|'[^']*')*?(\s*#.*)$""")
_HEAD = re.compile(r"^\s*(\[[^\[\]]+\]|\[\[[^\[\]]+\]\])\s*(?:#.*)?$")


def put_in_place(text: str, fields: Collection[str]) -> str:
    r"""Put pasted lines where they belong; what is pasted goes before what stands there.

    Parameters
    ----------
    text : str
        Of a design file.
    fields : collection of str
        Dotted names of all fields; a line that names nothing below their tables stays where it is.

    Returns
    -------
    str

    Raises
    ------
    InputError
        If one field is pasted twice with two values: nobody can know which was meant.

    Examples
    --------
    >>> print(put_in_place('[fuse]\nkind = "none" # today\n[hubs]\nfuse.kind = "shear pin"', {"fuse.kind"}))
    [fuse]
    kind = "shear pin" # today
    [hubs]
    """
    kept: list[str] = []
    pasted: dict[str, str] = {}
    tables = {one.partition(".")[0] for one in fields}
    for line in text.split("\n"):
        found = _LINE.match(line)
        # a name misspelt below a table that there is goes there too, so that it is told what it resembles
        if not found or found[1].partition(".")[0] not in tables:
            kept.append(line)
            continue
        name, value = found.groups()
        if pasted.setdefault(name, value) != value:
            raise InputError(
                f"{name}: pasted twice, {pasted[name]} and {value}; one line is wanted, so leave one of them out."
            )
    if not pasted:
        return text
    for dotted, value in pasted.items():
        table, _, name = dotted.rpartition(".")
        _put(kept, table, name, f"{name} = {value}")
    return "\n".join(kept)


def _put(lines: list[str], table: str, name: str, said: str) -> None:
    place = find_table(lines, table)
    if place is None:
        lines += ["", f"[{table}]", said]
        return
    found = lines_of(lines, table, name)
    if found is None:
        lines.insert(place[0], said)
        return
    first, last = found
    comment = _COMMENT.match(lines[last]) if "#" not in said else None
    lines[first : last + 1] = [said + (comment[1] if comment else "")]


def find_table(lines: Sequence[str], table: str) -> tuple[int, int] | None:
    """Place of the first line below a table's head and of the next head; none if it has no head.

    What stands above all heads is the table without a name.
    """
    heads = [
        (re.sub(r"""[\s"']""", "", found[1]), place)
        for place, line in enumerate(lines)
        if (found := _HEAD.match(line))
    ]
    # a head in two brackets is one of many, so no line belongs to it by name; but it ends what stands above
    of_table = [place for head, place in heads if head == f"[{table}]"]
    if table and not of_table:
        return None
    start = of_table[-1] + 1 if table else 0
    return start, min((place for _, place in heads if place >= start), default=len(lines))


def lines_of(lines: Sequence[str], table: str, name: str) -> tuple[int, int] | None:
    """Places of the first and last line on which a field stands; none if on no line of its own."""
    place = find_table(lines, table)
    if place is None:
        return None
    start, end = place
    own = re.compile(rf"""\s*(["']?){name}\1\s*=""")
    first = next((k for k in range(start, end) if own.match(lines[k])), None)
    if first is None:
        return None
    last = first
    # a list may run over several lines
    while "[" in lines[first] and last < end - 1 and _open(lines[first : last + 1]):
        last += 1
    return first, last


def _open(lines: Sequence[str]) -> bool:
    text = "\n".join(line.split("#")[0] for line in lines)
    return text.count("[") > text.count("]")
