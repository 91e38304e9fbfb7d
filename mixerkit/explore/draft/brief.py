"""A brief: a design file in which any field may be missing, and what is wanted of the machine."""

from __future__ import annotations

import os
from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from mixerkit.carried import carry, misnamed
from mixerkit.design import LISTED, Design
from mixerkit.fields import Record, kind_of, kinds_in
from mixerkit.fields.nested import SectionKind
from mixerkit.fields.told import joined, unknown
from mixerkit.pasted import put_in_place
from mixerkit.spec import FORMAT, STEPS, Want
from mixerkit.spec.agreement import untested
from mixerkit.tables import table
from mixerkit.textfiles import parse_toml, read_text
from mixerkit.units import InputError

__all__ = ["FIELDS", "NEEDED", "Brief", "parse_brief", "plain", "read_brief"]

NEEDED = {
    "batch.mass": '"15 kg"',
    "clay.strength_from": '"named body"',
    "supply.voltage": '"230 V"',
    "supply.frequency": '"50 Hz"',
    "supply.phases": "1",
    "supply.socket_current": '"16 A"',
}
"""What a brief cannot do without, and an example of each."""


@dataclass(frozen=True)
class Brief:
    """What a maker knows and wants.

    Attributes
    ----------
    given : mapping of str to object
        Dotted fields and their values as they stand in the file.
    want : Want
    text : str
        The file, in the newest format.
    file : str
        Its name, for messages.
    """

    given: Mapping[str, object]
    want: Want
    text: str
    file: str

    def number(self, dotted: str) -> Any:
        """A given field in the unit it declares; none where it is not given."""
        if dotted not in self.given:
            return None
        kind = FIELDS[dotted]
        return kind.number(kind.read_at(self.given[dotted], dotted))

    def fixes(self, prefix: str) -> bool:
        """Whether any field of a table is given."""
        return any(name.startswith(prefix) for name in self.given)

    @property
    def system(self) -> str:
        """Units this maker works in."""
        return str(self.given.get("show_units", "metric"))


FIELDS = {
    name: kind
    for name, kind in kinds_in(Design).items()
    if not name.startswith("want.") and name not in ("drafted", "format")
}
"""Every field that a brief may state, and its kind."""


def plain(dotted: str, raw: object) -> float:
    """A number or quantity as it stands in a file, in the unit that its field declares."""
    value = FIELDS[dotted].number(FIELDS[dotted].read_at(raw, dotted))
    if not isinstance(value, (int, float)):
        raise TypeError(f"{dotted} is no number")
    return float(value)


def read_brief(path: str | os.PathLike[str]) -> Brief:
    """Read a brief.

    Parameters
    ----------
    path : path

    Returns
    -------
    Brief

    Raises
    ------
    InputError
        With one sentence for every mistake in the file, and for what a brief cannot do without.
    """
    path = Path(path)
    missing = f'; "mixerkit new --brief {path.name}" writes one to start from'
    return parse_brief(read_text(path, "brief", missing), path.name)


def parse_brief(text: str, file: str = "brief") -> Brief:
    """Read a brief from the text of its file; see :func:`read_brief`."""
    try:
        text = put_in_place(text, kinds_in(Design))
    except InputError as error:
        raise InputError(f"{file}, {error}") from None
    content = parse_toml(text, file, '; lines like mass = "15 kg" are wanted')
    try:
        carried = carry(text, content, STEPS)
    except InputError as error:
        raise InputError(*(f"{file}, {message}" for message in error.messages)) from None
    named, faults = misnamed(carried.content, STEPS)
    content = dict(named)
    form = content.pop("format", FORMAT)
    if isinstance(form, int) and form > FORMAT:
        raise InputError(
            f"{file}, format: {form} is of a newer kit; this one reads up to {FORMAT}. Update mixerkit."
        )
    content.pop("drafted", None)
    want = Want.from_table({})
    try:
        want = Want.from_table(content.pop("want", {}), "want")
    except InputError as error:
        faults += error.messages
    given: dict[str, object] = {}
    faults += _taken(Design, content, "", given)
    faults += _not_in_tables(given)
    if not faults:
        faults += _lacking(given)
    if faults:
        raise InputError(*(f"{file}, {message}" for message in faults))
    return Brief(given, want, carried.text, file)


def _taken(record: type[Record], content: Any, where: str, given: dict[str, object]) -> list[str]:
    """Take what stands in a table; say of each mistake in it what is wanted."""
    if not isinstance(content, Mapping):
        return [f"{where}: a table [{where}] is wanted."]
    known = record.__dataclass_fields__
    faults = unknown(content, known, "field", where)
    for name in known:
        if name not in content:
            continue
        full, kind = joined(where, name), kind_of(record, name)
        if isinstance(kind, SectionKind):
            faults += _taken(kind.of, content[name], full, given)
            continue
        try:
            kind.read_at(content[name], full)
        except InputError as error:
            faults += error.messages
        given[full] = content[name]
    return faults


def _not_in_tables(given: Mapping[str, object]) -> list[str]:
    faults = []
    for dotted, name in LISTED.items():
        if dotted in given:
            try:
                table(name).find(str(given[dotted]))
            except InputError as error:
                faults.append(f"{dotted}: {error}")
    return faults


def _lacking(given: Mapping[str, object]) -> list[str]:
    """What a brief cannot do without and does not say."""
    faults = [
        f"{name}: missing; a brief states it, for example {name.split('.')[1]} = {example}."
        for name, example in NEEDED.items()
        if name not in given
    ]
    way = str(given.get("clay.strength_from"))
    stated = [name.removeprefix("clay.") for name in given if name.startswith("clay.")]
    return [*faults, *untested(way, stated)]
