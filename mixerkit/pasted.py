"""Lines such as ``shaft_2.diameter = "50 mm"``, as the kit prints a change, pasted anywhere in a design file.

TOML would take such a line as part of the table above it. Each is put where it belongs: over the field's
own line in its table, or into the table, or into a new one at the end.
"""

from __future__ import annotations

import re
from collections.abc import Collection

from mixerkit.units import InputError

__all__ = ["put_in_place"]

_LINE = re.compile(r"^\s*((?:[a-z_0-9]+\.)+[a-z_0-9]+)\s*=\s*(\S.*?)\s*$")
_COMMENT = re.compile(r"""^(?:[^"'#]|"[^"]*"|'[^']*')*?(\s*#.*)$""")
_HEAD = re.compile(r"^\s*\[([^\[\]]+)\]\s*(?:#.*)?$")


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
    heads = {
        "".join(found[1].split()): place
        for place, line in enumerate(lines)
        if (found := _HEAD.match(line))
    }
    if table not in heads:
        lines += ["", f"[{table}]", said]
        return
    start = heads[table] + 1
    end = min((place for place in heads.values() if place >= start), default=len(lines))
    own = re.compile(rf"\s*{name}\s*=")
    place = next((k for k in range(start, end) if own.match(lines[k])), None)
    if place is None:
        lines.insert(start, said)
        return
    last = place
    # a list may run over several lines
    while "[" in lines[place] and last < end - 1 and _open(lines[place : last + 1]):
        last += 1
    comment = _COMMENT.match(lines[last]) if "#" not in said else None
    lines[place : last + 1] = [said + (comment[1] if comment else "")]


def _open(lines: list[str]) -> bool:
    text = "\n".join(line.split("#")[0] for line in lines)
    return text.count("[") > text.count("]")
