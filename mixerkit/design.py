"""The design of one mixer: frozen records, read from and written to one TOML file."""

from __future__ import annotations

import contextlib
import dataclasses
import hashlib
import json
import os
import shlex
import tomllib
from collections.abc import Collection, Mapping
from pathlib import Path
from typing import TYPE_CHECKING, Any, Self, TypeVar

from mixerkit.carried import name_now
from mixerkit.data_files import data_path
from mixerkit.fields import Kind, Record, example_of, kind_of, nearest
from mixerkit.fields.nested import SectionKind
from mixerkit.fields.told import apart
from mixerkit.parts import fits
from mixerkit.spec import FORMAT, STEPS, TESTED, Spec
from mixerkit.spec.agreement import disagreements, untested
from mixerkit.tables import table
from mixerkit.textfiles import parse_record, read_text
from mixerkit.units import InputError
from mixerkit.written import write_atomically

if TYPE_CHECKING:
    from tomlkit.container import Container

__all__ = ["FORMAT", "LISTED", "Design"]

AnyRecord = TypeVar("AnyRecord", bound=Record)

LISTED = {
    **{
        f"{one}.material": "materials"
        for one in ("shaft_1", "shaft_2", "clutch", "sleeve", "paddles")
    },
    **{
        f"paths.{path}.{field}": "gear_materials"
        for path in ("direct", "idler")
        for field in ("material", "idler_material")
    },
    "clay.body": "clay_bodies",
    "trough.material": "materials",
    "contact.lid_material": "contact_metals",
    "contact.bolt_material": "contact_metals",
    "sleeve.pin_material": "materials",
    "hubs.key_material": "materials",
    "hubs.box_material": "materials",
    "hubs.set_screw": "set_screws",
    "hubs.clamp_screw": "threads",
    "housing.tie_bolt": "threads",
    "bearings.retainer_screw": "threads",
    "fuse.pin_material": "materials",
    "housing.plate_material": "materials",
    "frame.wall_material": "materials",
    "frame.bolt_class": "bolt_classes",
    "frame.arm_bolt": "threads",
    "frame.foot_bolt": "threads",
    "bearings.bush_material": "bush_materials",
    "bearings.seal": "seals",
    "motor_drive.belt.section": "belt_sections",
    "motor_drive.chain.size": "chains",
}
"""Fields that name a row of a table."""


class Design(Spec, role="choice"):
    """The whole machine: read from its file, changed, and written again."""

    def _agree(self) -> None:
        faults = self._table_faults() + disagreements(self)
        if faults:
            raise InputError(*faults)

    def _table_faults(self) -> list[str]:
        """Names that no table has."""
        faults = []
        for dotted, name in LISTED.items():
            record, field, _ = self.field(dotted)
            try:
                table(name).find(getattr(record, field))
            except InputError as error:
                faults.append(f"{dotted}: {error}")
        try:
            fits.fit(50.0, self.bearings.bush_fit)
        except InputError as error:
            faults.append(f"bearings.bush_fit: {error}")
        return faults

    @classmethod
    def read(cls, path: str | os.PathLike[str]) -> Self:
        """Read a design file.

        Parameters
        ----------
        path : path

        Returns
        -------
        Design

        Raises
        ------
        InputError
            With one sentence for every mistake in the file, each naming file, field, what was
            given and what is wanted.

        Examples
        --------
        >>> Design.read(data_path("designs", "larkfield.toml")).motor.rated_power  # in kW
        1.5
        """
        return cls.parse(_text_of(Path(path)), Path(path).name)

    @classmethod
    def parse(cls, text: str, file: str = "design") -> Self:
        """Read a design from the text of its file; see :meth:`read`."""
        start = f'"mixerkit new {shlex.quote(file)}" writes one to start from'
        found = parse_record(cls, text, file, start, STEPS)
        try:
            found.refuse_untested([])
        except InputError as error:
            raise InputError(*(f"{file}, {fault}" for fault in error.messages)) from None
        return found

    @classmethod
    def demo(cls, name: str = "larkfield") -> Self:
        """Read one of the demo designs that ship with the kit.

        Parameters
        ----------
        name : str
            File name in data/designs without its ending.

        Returns
        -------
        Design

        Raises
        ------
        InputError
            If there is no such demo.

        Examples
        --------
        >>> Design.demo("too_stiff").name
        'Larkfield mixer with leather-hard clay'
        """
        known = sorted(one.stem for one in data_path("designs").glob("*.toml"))
        if name not in known:
            raise InputError(
                f'"{name}" is not a demo design{nearest(name, known)}. There are: {", ".join(known)}.'
            )
        return cls.read(data_path("designs", f"{name}.toml"))

    def field(self, dotted: str) -> tuple[Record, str, Kind]:
        """Find the record, the field's name and its kind for ``"motor.rated_power"``.

        Raises
        ------
        InputError
            If there is no such field.
        """
        _, words = name_now(dotted, STEPS)
        if words:
            raise InputError(f"{dotted}: {words}.")
        record: Record = self
        *outer, last = dotted.split(".")
        for place, part in enumerate(outer):
            kind_of(record, part, dotted)
            inner = getattr(record, part)
            if not isinstance(inner, Record):
                whole = ".".join(outer[: place + 1])
                example = example_of(kind_of(record, part))
                raise InputError(
                    f"{dotted}: no such field; {whole} is one value, for example {whole} = {example}."
                )
            record = inner
        return record, last, kind_of(record, last, dotted)

    def with_values(self, values: Mapping[str, Any]) -> Self:
        """Give a copy with fields changed by dotted name.

        Parameters
        ----------
        values : mapping
            Such as ``{"motor.rated_power": "2.2 kW"}``.

        Returns
        -------
        Design

        Raises
        ------
        InputError
            If a field is unknown or a value does not fit.

        Examples
        --------
        >>> Design.demo().with_values({"reducer.ratio": 50}).reducer.ratio
        50.0
        """
        for dotted in values:
            self.field(dotted)
        changed = _with_values(self, values, "")
        object.__setattr__(changed, "_text", self._text)
        return changed

    def refuse_untested(self, values: Collection[str]) -> None:
        """Refuse a way of finding the clay's strength whose readings neither values nor the file state.

        Parameters
        ----------
        values : collection of str
            Dotted names of fields that were changed.

        Raises
        ------
        InputError
            With one sentence for each reading that is missing.
        """
        stated = {*tomllib.loads(self._text or "").get("clay", {})}
        stated |= {name.removeprefix("clay.") for name in values if name.startswith("clay.")}
        faults = untested(self.clay.strength_from, stated)
        if self._text and faults:
            raise InputError(*faults)

    @property
    def fingerprint(self) -> str:
        """Eight characters that change when any value of the design does."""
        canonical = json.dumps(self.to_table(), sort_keys=True, ensure_ascii=False)
        return hashlib.sha256(canonical.encode()).hexdigest()[:8]

    def to_toml(self, base: str | None = None) -> str:
        """Write the design as TOML, keeping the comments of the text it is based on.

        Parameters
        ----------
        base : str, optional
            Text whose comments and order are kept; that which the design was read from, if not
            given, and the starting design otherwise.

        Returns
        -------
        str
        """
        import tomlkit  # here, because most runs only read and tomlkit is slow to load

        text = base or self._text or data_path("designs", "larkfield.toml").read_text("utf-8")
        document = tomlkit.parse(text)
        _merge(document, self.to_table(), type(self))
        return tomlkit.dumps(document)

    def write(self, path: str | os.PathLike[str]) -> None:
        """Write the design file, all or nothing, and keep the one before beside it.

        Comments in the file that is there are kept. The file before is kept under the same name
        with ``.previous`` added.

        Parameters
        ----------
        path : path

        Raises
        ------
        InputError
            If the file cannot be written.
        """
        path = Path(path)
        base = None
        if path.is_file():
            before = _text_of(path)
            write_atomically(path.with_name(path.name + ".previous"), before)
            with contextlib.suppress(InputError):
                base = Design.parse(before, path.name).as_read
        write_atomically(path, self.to_toml(base))


def _text_of(path: Path) -> str:
    return read_text(
        path, missing=f'; "mixerkit new {shlex.quote(str(path))}" writes one to start from'
    )


def _merge(document: Container, values: Mapping[str, Any], record: type[Record]) -> None:
    """Put values into a parsed TOML text, touching only what differs."""
    # what the clay's strength is found by is stated, be it what a file may leave out
    tested = TESTED.get(str(values.get("strength_from")), ())
    for name, value in values.items():
        kind = kind_of(record, name)
        if name not in document and name not in tested and value == _default_of(record, name):
            continue
        if isinstance(kind, SectionKind):
            if name not in document:
                document[name] = {}
            _merge(document[name], value, kind.of)
            continue
        if name in document:
            with contextlib.suppress(InputError):
                if kind.write(kind.read(document[name])) == value:
                    continue
        document[name] = value


def _with_values(record: AnyRecord, values: Mapping[str, Any], where: str) -> AnyRecord:
    """Copy a record with values changed by dotted name, making anew only what changes."""
    own, inner = apart(values)
    for name, below in inner.items():
        own[name] = _with_values(getattr(record, name), below, f"{where}{name}.")
    try:
        return record.changed(**own)
    except InputError as error:
        raise InputError(*(f"{where}{message}" for message in error.messages)) from None


def _default_of(record: type[Record], name: str) -> Any:
    """What a field is when its file leaves it out, as it would stand there; None if it may not or is not known then."""
    one = record.__dataclass_fields__[name]
    if one.default is None:
        return None
    if one.default is not dataclasses.MISSING:
        return kind_of(record, name).write(one.default)
    if one.default_factory is dataclasses.MISSING:
        return None
    return kind_of(record, name).write(one.default_factory())
