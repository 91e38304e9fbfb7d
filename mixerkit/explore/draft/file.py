"""A draft as a design file: what the brief states as it stands there, what was drafted with its reason beside it."""

from __future__ import annotations

import json
from collections.abc import Iterator

import tomlkit
from tomlkit.items import Item

from mixerkit.design import Design
from mixerkit.explore.draft.brief import FIELDS, Brief
from mixerkit.explore.draft.drafting import Attempt, nested
from mixerkit.explore.sizes import whole
from mixerkit.fields.kinds import Kind
from mixerkit.spec import FORMAT

__all__ = ["draft_text", "drafted_design"]

_HEAD = """\
# Drafted by mixerkit from {file}. What stands without a reason is the brief's; the rest was drafted and
# may be changed. Facts that were drafted (a motor's plate, a box's bore, a bag's sides) are assumed until they
# are measured: write in what yours has, and run "mixerkit check" on this file again.
"""


def drafted_design(brief: Brief, attempt: Attempt) -> Design:
    """The design of an attempt with its drafted fields listed, as it stands in its file.

    Parameters
    ----------
    brief : Brief
    attempt : Attempt

    Returns
    -------
    Design
    """
    return Design.parse(draft_text(brief, attempt), brief.file)


def draft_text(brief: Brief, attempt: Attempt) -> str:
    """Write an attempt as the text of a design file.

    Parameters
    ----------
    brief : Brief
    attempt : Attempt

    Returns
    -------
    str
    """
    values = _values(brief, attempt)
    remarks = _remarks(brief)
    whole = nested(values)
    lines = [_HEAD.format(file=brief.file) + f"format = {FORMAT}"]
    lines += [
        _line(name, value, _remark(name, attempt, remarks))
        for name, value in whole.items()
        if not isinstance(value, dict)
    ]
    for name, table in whole.items():
        if isinstance(table, dict):
            lines += _table(name, table, attempt, remarks)
    want = tomlkit.parse(brief.text).get("want")
    if want:
        lines += ["", "[want]", *(_line(name, one, "") for name, one in want.unwrap().items())]
    lines += [
        "",
        "[drafted]                      # what the kit chose; a value that differs here is yours",
    ]
    lines += [
        f"{json.dumps(name)} = {_written(values[name])}"
        for name in values
        if name in attempt.reasons
    ]
    return "\n".join(lines) + "\n"


def _values(brief: Brief, attempt: Attempt) -> dict[str, object]:
    """Every field that stands in the file, in its order: as the brief has it, or as drafted."""
    found: dict[str, object] = {}
    design = attempt.machine.design
    for name, kind in FIELDS.items():
        if name in brief.given:
            found[name] = brief.given[name]
        elif name in attempt.reasons:
            found[name] = _as_written(design, name, kind)
    return {name: one for name, one in found.items() if one is not None}


def _as_written(design: Design, dotted: str, kind: Kind) -> object:
    record, name, _ = design.field(dotted)
    value = record.given(name)
    if value is None:
        return None
    text = kind.write(value)
    return whole(text) if isinstance(text, float) else text


def _table(
    where: str, table: dict[str, object], attempt: Attempt, remarks: dict[str, str]
) -> Iterator[str]:
    """Lines of a table and of those in it."""
    own = {name: one for name, one in table.items() if not isinstance(one, dict)}
    if own:
        yield ""
        yield f"[{where}]"
    for name, value in own.items():
        full = f"{where}.{name}"
        yield _line(name, value, _remark(full, attempt, remarks))
    for name, inner in table.items():
        if isinstance(inner, dict):
            yield from _table(f"{where}.{name}", inner, attempt, remarks)


def _line(name: str, value: object, remark: str) -> str:
    text = f"{name} = {_written(value)}"
    return f"{text:30} # {remark}" if remark else text


def _written(value: object) -> str:
    return json.dumps(value, ensure_ascii=False, default=list)


def _remark(name: str, attempt: Attempt, remarks: dict[str, str]) -> str:
    return attempt.reasons.get(name) or remarks.get(name, "")


def _remarks(brief: Brief) -> dict[str, str]:
    """Comments that stand beside the brief's own lines."""
    found: dict[str, str] = {}

    def walk(table: object, where: str) -> None:
        if not hasattr(table, "items"):
            return
        for name, one in table.items():
            full = f"{where}.{name}" if where else name
            if isinstance(one, Item) and one.trivia.comment and not hasattr(one, "items"):
                found[full] = one.trivia.comment.lstrip("# ")
            walk(one, full)

    walk(tomlkit.parse(brief.text), "")
    return found
