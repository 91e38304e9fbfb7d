"""A file of an older format carried forward to the newest: names changed, comments and order kept.

What each format calls otherwise is data, a :class:`Step` a format; see :data:`mixerkit.spec.formats.STEPS`.
"""

from __future__ import annotations

import copy
import re
import tomllib
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from mixerkit.pasted import find_table, lines_of
from mixerkit.units import InputError, as_written

__all__ = ["Carried", "Renamed", "Step", "carry", "misnamed", "name_now"]

_MISSING = object()


@dataclass(frozen=True)
class Renamed:
    """A field that has another name, or another table, since a format.

    Attributes
    ----------
    was, now : str
        Dotted names.
    why : str
        What the new name says better, as the end of a sentence.
    """

    was: str
    now: str
    why: str


@dataclass(frozen=True)
class Step:
    """What a format calls otherwise than the one before it.

    Attributes
    ----------
    format : int
        The format that the step leads to.
    names : tuple of Renamed
    """

    format: int
    names: tuple[Renamed, ...]


@dataclass(frozen=True)
class Carried:
    """A file in the newest format.

    Attributes
    ----------
    text : str
    content : dict
        What stands in the text.
    told : tuple of str
        What is called otherwise than in the file as it was, one sentence each.
    """

    text: str
    content: dict[str, Any]
    told: tuple[str, ...] = ()


def carry(text: str, content: Mapping[str, Any], steps: Sequence[Step]) -> Carried:
    r"""Carry a file forward from the format that it states; one that states none is taken for the oldest.

    Parameters
    ----------
    text : str
    content : mapping
        What stands in the text, as read.
    steps : sequence of Step
        From the oldest format to the newest.

    Returns
    -------
    Carried

    Raises
    ------
    InputError
        If a field stands there under its old name and its new one with two values: nobody can know
        which is meant.

    Examples
    --------
    >>> step = Step(2, (Renamed("reducer.play", "reducer.backlash", "as its maker calls it"),))
    >>> found = carry('format = 1\n[reducer]\nplay = "1 deg" # new\n', {"format": 1, "reducer": {"play": "1 deg"}}, [step])
    >>> print(found.text, *found.told)
    format = 2
    [reducer]
    backlash = "1 deg" # new
     reducer.play is called reducer.backlash since format 2, as its maker calls it.
    """
    stated = content.get("format", 1)
    held: dict[str, Any] = copy.deepcopy(dict(content))
    lines = text.split("\n")
    told: list[str] = []
    faults: list[str] = []
    # a format that is no whole number is told by its own field
    if type(stated) is not int or stated < 1:
        return Carried(text, held)
    for step in steps:
        if step.format <= stated:
            continue
        for one in step.names:
            given = _taken(held, one.was)
            if given is _MISSING:
                continue
            told.append(f"{one.was} is called {one.now} since format {step.format}, {one.why}.")
            fault = _rename(lines, held, one, given, step.format)
            faults += [fault] if fault else []
    if faults:
        raise InputError(*faults)
    newest = max((step.format for step in steps), default=stated)
    if "format" in held and newest > stated:
        held["format"] = newest
        _say_format(lines, newest)
    moved = "\n".join(lines)
    if told and not _says(moved, held):
        moved = _rewritten(text, held, steps, stated)
    return Carried(moved, held, tuple(told))


def name_now(dotted: str, steps: Sequence[Step]) -> tuple[str, str]:
    """Say what a field of an older format is called now, and that in words; its own name and nothing if so still.

    Examples
    --------
    >>> name_now("reducer.play", [Step(2, (Renamed("reducer.play", "reducer.backlash", "as on its plate"),))])
    ('reducer.backlash', 'is called reducer.backlash since format 2')
    """
    name, words = dotted, ""
    for step in steps:
        for one in step.names:
            if one.was == name:
                name, words = one.now, f"is called {one.now} since format {step.format}"
    return name, words


def misnamed(
    content: Mapping[str, Any], steps: Sequence[Step]
) -> tuple[Mapping[str, Any], list[str]]:
    """Find names of older formats in a file of the newest.

    Parameters
    ----------
    content : mapping
    steps : sequence of Step

    Returns
    -------
    mapping
        The content with those names as they are now, so that nothing is told of them twice.
    list of str
        A sentence for each.
    """
    old = [one.was for step in steps for one in step.names if _at(content, one.was) is not _MISSING]
    if not old:
        return content, []
    held, faults = copy.deepcopy(dict(content)), []
    for was in old:
        given = _taken(held, was)
        now, words = name_now(was, steps)
        table, _, name = now.rpartition(".")
        line = f"{name} = {as_written(given)}"
        faults.append(f"{was}: {words}; the line {line} in [{table}] is wanted.")
        if _at(held, now) is _MISSING:
            _set(held, now, given)
    return held, faults


def _table_of(content: Any, dotted: str) -> Any:
    """Table that a dotted name's last part would stand in; none if there is no such table."""
    for part in dotted.split(".")[:-1]:
        content = content.get(part) if isinstance(content, Mapping) else None
    return content if isinstance(content, Mapping) else None


def _at(content: Any, dotted: str) -> Any:
    table = _table_of(content, dotted)
    return _MISSING if table is None else table.get(dotted.rpartition(".")[2], _MISSING)


def _taken(content: Any, dotted: str) -> Any:
    """Value of a dotted name, which is not there afterwards."""
    table = _table_of(content, dotted)
    return _MISSING if table is None else table.pop(dotted.rpartition(".")[2], _MISSING)


def _set(content: Any, dotted: str, value: Any) -> None:
    *outer, last = dotted.split(".")
    for part in outer:
        content = content.setdefault(part, {})
        # what is no table is told by its own field
        if not isinstance(content, dict):
            return
    content[last] = value


def _says(text: str, content: Mapping[str, Any]) -> bool:
    try:
        return tomllib.loads(text) == content
    except tomllib.TOMLDecodeError:
        return False


def _rename(lines: list[str], held: dict[str, Any], one: Renamed, given: Any, newer: int) -> str:
    """Put a value, already taken from its old name, under its new one; what is wrong with that, if anything."""
    there = _at(held, one.now)
    if there is _MISSING:
        _set(held, one.now, given)
        _move(lines, one)
    elif there == given:
        _take_out(lines, one.was)
    else:
        return (
            f"{one.now}: stands there as {as_written(there)}, and under its name of format {newer - 1}, "
            f"{one.was}, as {as_written(given)}; one line is wanted, so leave one of them out."
        )
    return ""


def _move(lines: list[str], one: Renamed) -> None:
    """Rename a field's line, or move it under the head of its new table."""
    (old_table, _, was), (new_table, _, now) = one.was.rpartition("."), one.now.rpartition(".")
    found = lines_of(lines, old_table, was)
    if found is None:
        return
    first, last = found
    lines[first] = _renamed(lines[first], was, now)
    if new_table == old_table:
        return
    while first and lines[first - 1].lstrip().startswith("#"):
        first -= 1
    block = lines[first : last + 1]
    del lines[first : last + 1]
    place = find_table(lines, new_table)
    if place is None:
        lines += ["", f"[{new_table}]", *block]
    else:
        lines[place[0] : place[0]] = block


def _renamed(line: str, was: str, now: str) -> str:
    """Put another name into a field's line; a comment behind it keeps its column if it can."""
    head, sign, rest = line.partition("=")
    longer = len(now) - len(was)
    gap = re.search(r" +(?=#)", rest) if longer > 0 and '#"' not in rest else None
    if gap and len(gap[0]) > longer:
        rest = rest[: gap.start()] + gap[0][longer:] + rest[gap.end() :]
    return head.replace(was, now, 1) + sign + rest


def _take_out(lines: list[str], dotted: str) -> None:
    table, _, name = dotted.rpartition(".")
    found = lines_of(lines, table, name)
    if found is not None:
        del lines[found[0] : found[1] + 1]


def _say_format(lines: list[str], number: int) -> None:
    found = lines_of(lines, "", "format")
    if found is not None:
        lines[found[0]] = re.sub(r"(=\s*)[0-9_+xob]+", rf"\g<1>{number}", lines[found[0]], count=1)


def _rewritten(text: str, held: dict[str, Any], steps: Sequence[Step], stated: int) -> str:
    """Write fields that stand otherwise than on lines of their own, such as in ``reducer = {play = 1}``."""
    import tomlkit  # here, because it is slow to load and few files need it

    document = tomlkit.parse(text)
    for one in _names_since(steps, stated):
        item = _taken(document, one.was)
        if item is not _MISSING and _at(document, one.now) is _MISSING:
            _set(document, one.now, item)
    if "format" in document:
        document["format"] = held["format"]
    moved = tomlkit.dumps(document)
    # what even that cannot write is written anew: a comment lost is less than a value lost
    return moved if _says(moved, held) else tomlkit.dumps(held)


def _names_since(steps: Sequence[Step], stated: int) -> Iterator[Renamed]:
    return (one for step in steps if step.format > stated for one in step.names)
