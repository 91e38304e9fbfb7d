"""The answer to "does it hold?": as text for a terminal, and as JSON for scripts.

The JSON is the kit's interface for scripts. Its fields keep their names and meanings; :data:`SCHEMA`
goes up when one changes or goes, not when one is added.

========================  ===========================================================================
``schema``                number of this form
``kit``                   version of the kit
``design``                name of the machine
``fingerprint``           of design and kit: eight characters that change when either does
``verdict``               ``"holds"``, ``"tight"`` or ``"fails"``: the worst of all checks
``renamed``               a list: what is called otherwise now than in the file, if it is of an older
                          format, one sentence each
``units``                 ``"metric"`` or ``"inch"``: what the texts are written in
``remedies_sought``       whether remedies were looked for
``shop``                  ``name`` of the shop it was held against, and ``lacks``, a list of what that has
                          not, one sentence each; null where there is no shop file
``assumed``               facts and practice that still stand as they were drafted, by dotted name
``assumed_flips``         those of them that make a check fail within their range, the one that takes least first:
                          ``field``, ``low`` and ``high`` as they would stand in the file, and ``fails``, ids of checks
``checks``                a list, in the order of the power path, each with
``.. id``                 stable name, unique in the list: stage, part and check, joined by dots
``.. stage, part, name``  the same in words
``.. verdict``            as above; what cannot be judged fails
``.. asked, can_take``    numbers in ``unit``; null where there is no limit or it cannot be judged
``.. unit``               such as ``"N*m"``, always metric; empty for a plain number
``.. factor``             by which ``can_take`` has to exceed ``asked``
``.. spare``              ``can_take / (asked * factor)``; null where there is no limit or no number
``.. judged``             false where a formula or a table does not reach so far
``.. state``              state of the machine that governs, empty where none does
``.. reason, source``     the formula with its numbers, and where it stands
``.. working``            a list: how the numbers were worked out, each with ``symbol``, ``formula`` in plain
                          mathematics (empty where only a ``method`` in words gives it), ``given``
                          (``symbol``, ``value``, ``unit``, ``from``), ``result``, ``unit`` and ``source``
``.. note``               what to measure, or which facts stand against each other; may be empty
``.. remedies``           a list, most helpful first, each ``{"set": {field: value}, "breaks": [ids], "mends": [ids]}``:
                          with those values in the design file this check no longer fails, tried on the
                          whole machine; ``breaks`` fail then that do not now, ``mends`` all that hold then
``.. no_single_change``   true where every choice was moved through its range and none mends it
``.. only_harm``          true where some change mends it, but each of them breaks more than it mends
========================  ===========================================================================

A field is named by its table and its own name, ``"shaft_2.diameter"``; a list is set whole,
``"paths.direct.tooth_counts": [31, 29]``, counted from shaft 1 to shaft 2. Values stand as in the file.
"""

from __future__ import annotations

import math
import textwrap
from collections.abc import Iterable, Mapping
from html import escape
from typing import Any

from mixerkit.checks import Check
from mixerkit.explore.remedy import Mending
from mixerkit.frozen import FrozenDict
from mixerkit.machine import Machine
from mixerkit.parts.bodies import bodies
from mixerkit.parts.passing import way_on
from mixerkit.show.stamp import fingerprint
from mixerkit.version import VERSION
from mixerkit.working import Working

__all__ = ["SCHEMA", "answer_json", "answer_text", "mends_html", "named"]

SCHEMA = 1
_WIDTH = 100
_LEAD = " " * 7


def answer_json(
    found: Machine, mending: Mending | None, more: Mapping[str, Any] = FrozenDict()
) -> dict[str, Any]:
    """Give the answer as plain values, ready for :func:`json.dumps`; see the module for its form.

    Parameters
    ----------
    found : Machine
    mending : Mending or None
        None where no remedies were looked for.
    more : mapping
        What else is said of the design, such as what its shop lacks.

    Returns
    -------
    dict
    """
    return {
        "schema": SCHEMA,
        "kit": VERSION,
        "design": found.design.name,
        "fingerprint": fingerprint(found.design),
        "verdict": found.verdict,
        "renamed": list(found.design.told),
        "units": found.design.show_units,
        "remedies_sought": mending is not None,
        **more,
        **_in_place(found),
        "checks": [_check(one, mending) for one in found.checks],
    }


def _in_place(found: Machine) -> dict[str, Any]:
    """Bodies and orders of assembly; none where a size is out of every range, which its check says."""
    try:
        both = [beam.stack for beam in found.shaft_beams]
        return {
            "bodies": [
                {
                    "name": one.name,
                    "axis": [one.y, one.z],
                    "from": one.start,
                    "to": one.end,
                    "inner": one.inner,
                    "outer": one.outer,
                    "teeth_of": one.mesh,
                }
                for one in bodies(found.design, both)
            ],
            "order_of_assembly": {
                f"shaft_{number}": way_on(laid)._asdict() for number, laid in enumerate(both, 1)
            },
        }
    except (ArithmeticError, LookupError, ValueError):
        return {"bodies": [], "order_of_assembly": {}}


def _check(check: Check, mending: Mending | None) -> dict[str, Any]:
    remedies = mending.remedies.get(check.id, ()) if mending else ()
    return {
        "id": check.id,
        "stage": check.stage,
        "part": check.part,
        "name": check.name,
        "verdict": check.verdict,
        "asked": _finite(check.demand),
        "can_take": _finite(check.capacity),
        "unit": check.unit,
        "factor": check.safety,
        "spare": _finite(check.spare),
        "judged": check.judged,
        "state": check.state,
        "reason": check.reason,
        "source": check.source,
        "working": [_working(one, check) for one in check.working],
        "note": check.note,
        "remedies": [
            {"set": dict(one.values), "breaks": list(one.breaks), "mends": list(one.mends)}
            for one in remedies
        ],
        "no_single_change": bool(mending and check.id in mending.searched),
        "only_harm": bool(mending and check.id in mending.harmful),
    }


def _working(working: Working, check: Check) -> dict[str, Any]:
    return {
        "symbol": working.symbol,
        "formula": working.formula,
        "method": working.method,
        "given": [
            {"symbol": symbol, "value": _finite(value), "unit": unit, "from": origin}
            for symbol, value, unit, origin in working.given
        ],
        "result": _finite(working.result),
        "unit": working.unit,
        "source": working.source or check.source,
    }


def _finite(value: float) -> float | None:
    return float(value) if math.isfinite(value) else None


_TRADES = "trades it:"
"""Before a change with which as many checks fail as without it."""


def mends_html(found: Machine, mending: Mending) -> str:
    """Write what mends each failing check that was asked about, as an HTML list; empty if none was.

    Parameters
    ----------
    found : Machine
    mending : Mending

    Returns
    -------
    str
    """
    items = []
    for check in found.checks:
        if check.id not in mending.remedies:
            continue
        ways = [
            " ".join(f"<code>{escape(line)}</code>" for line in one.lines)
            + (f" ({escape(one.estimated)})" if one.estimated else "")
            + (f" (but then fails: {escape(named(found, one.breaks))})" if one.breaks else "")
            for one in mending.remedies[check.id]
        ]
        lead = "would do:" if any(one.gains for one in mending.remedies[check.id]) else _TRADES
        said = f"{lead} {'; or '.join(ways)}." if ways else escape(mending.why_none(check))
        note = f" {escape(check.note)}" if ways and check.note and check.judged else ""
        items.append(f"<li><b>{escape(check.part)}, {escape(check.name)}</b>: {said}{note}</li>")
    return f'<ul class="mends">{"".join(items)}</ul>' if items else ""


def named(found: Machine, ids: Iterable[str]) -> str:
    """Name checks by their ids, in words.

    Parameters
    ----------
    found : Machine
        Whose checks are named; one it does not have is named by its id.
    ids : iterable of str

    Returns
    -------
    str
    """
    known = {one.id: f"{one.part}, {one.name}" for one in found.checks}
    return "; ".join(known.get(one, one.replace(".", ", ").replace("-", " ")) for one in ids)


def answer_text(
    found: Machine,
    mending: Mending | None,
    *,
    everything: bool = False,
    why: bool = False,
    rests: str = "",
) -> str:
    """Write the answer for a terminal: the verdict, what fails and what mends it, what is tight.

    Parameters
    ----------
    found : Machine
    mending : Mending or None
        None where no remedies were looked for.
    everything : bool
        Whether to list what holds too.
    why : bool
        Whether to add how each was worked out, and its source.
    rests : str
        What rests on assumed values, see :func:`mixerkit.show.assumptions.rests_text`.

    Returns
    -------
    str
    """
    by_verdict: Mapping[str, list[Check]] = {
        verdict: [one for one in found.checks if one.verdict == verdict]
        for verdict in ("fails", "tight", "holds")
    }
    count = len(found.checks)
    wrong, close = len(by_verdict["fails"]), len(by_verdict["tight"])
    lines = [
        f"fails: {wrong} of {count} checks."
        if wrong
        else f"holds: all {count} checks{f', {close} of them with little to spare' if close else ''}."
    ]
    if not wrong:
        lines += _wrapped(f"Least to spare: {found.weakest.sentence()}", "")
    best = mending.best if mending else None
    if best:
        lines.append(f"Most helpful: this clears {len(best.mends)} of {wrong} failures.")
        lines += [f"    {one}" for one in best.lines]
    lines += [*_wrapped(rests, ""), ""]
    for verdict in ("fails", "tight", *(["holds"] if everything else [])):
        for check in by_verdict[verdict]:
            lines += _entry(found, check, mending, why)
    if mending is not None and any(mending.remedies.values()):
        lines += _wrapped(
            "Paste such a line anywhere in the design file, it goes before what stands there; or: "
            "mixerkit set FILE 'LINE'",
            "",
        )
    if not everything and by_verdict["holds"]:
        lines.append(f"{len(by_verdict['holds'])} checks hold; --all lists them.")
    return "\n".join(lines)


def _entry(found: Machine, check: Check, mending: Mending | None, why: bool) -> list[str]:
    asked, takes = check.shown
    factor = ""
    if check.safety != 1:
        whole = check.in_digits(check.demand * check.safety)
        factor = f" x {check.safety:g} = {whole}"
    head = f"{check.verdict:5}  {check.part}, {check.name}"
    lines = [
        f"{head}: {asked}{factor} asked, {'given' if check.words else 'can take'} {takes}"
        if check.judged
        else f"{head}: cannot be judged"
    ]
    notes = [check.state]
    if check.verdict == "tight":
        notes.append(check.remark)
    if why or not check.judged:
        notes.append(
            check.reason + ("" if check.judged else "; what cannot be judged counts as failing")
        )
    if why:
        notes.append(f"source: {check.source}")
    for note in filter(None, notes):
        lines += _wrapped(note, _LEAD)
    for line in (
        (one for working in check.working for one in working.lines(check.system)) if why else ()
    ):
        lines += _wrapped(line.strip(), _LEAD + " " * (2 + len(line) - len(line.lstrip())))
    if check.verdict == "fails" and mending is not None:
        lines += _remedies(found, check, mending)
    return lines


def _remedies(found: Machine, check: Check, mending: Mending) -> list[str]:
    lines = []
    for k, remedy in enumerate(mending.remedies.get(check.id, ())):
        lead = _TRADES if not remedy.gains else "would do:" if k == 0 else "or:"
        for n, line in enumerate(remedy.lines):
            lines.append(f"{_LEAD}{lead if n == 0 else '':9} {line}")
        if remedy.estimated:
            lines += _wrapped(remedy.estimated, " " * 17)
        if remedy.breaks:
            lines += _wrapped(f"but then fails: {named(found, remedy.breaks)}", " " * 17)
    if not lines:
        lines += _wrapped(mending.why_none(check), _LEAD)
    elif check.note and check.judged:
        lines += _wrapped(check.note, _LEAD)
    return lines


def _wrapped(text: str, lead: str) -> list[str]:
    return textwrap.wrap(text, _WIDTH, initial_indent=lead, subsequent_indent=f"{lead}  ")
