"""The design of one mixer: frozen records, read from and written to one TOML file."""

from __future__ import annotations

import contextlib
import dataclasses
import hashlib
import json
import os
import shlex
from collections.abc import Mapping
from pathlib import Path
from typing import TYPE_CHECKING, Any, Self, TypeVar

from mixerkit.carried import name_now
from mixerkit.data_files import data_path
from mixerkit.fields import Kind, Record, example_of, kind_of, nearest
from mixerkit.fields.nested import SectionKind
from mixerkit.parts import fits
from mixerkit.spec import FORMAT, STEPS, Spec
from mixerkit.tables import table
from mixerkit.textfiles import parse_record, read_text, write_atomically
from mixerkit.units import InputError

if TYPE_CHECKING:
    from tomlkit.container import Container

__all__ = ["FORMAT", "LISTED", "Design", "write_atomically"]

AnyRecord = TypeVar("AnyRecord", bound=Record)

GREATEST_SLIP = 0.15
"""Beyond it a plate is not an induction motor's: small ones lag 10 %, high-slip ones 13 % (common practice)."""
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
    "sleeve.pin_material": "materials",
    "hubs.key_material": "materials",
    "hubs.set_screw": "set_screws",
    "hubs.clamp_screw": "threads",
    "housing.tie_bolt": "threads",
    "fuse.pin_material": "materials",
    "housing.plate_material": "materials",
    "bearings.bush_material": "bush_materials",
    "bearings.seal": "seals",
}
"""Fields that name a row of a table."""


class Design(Spec, role="choice"):
    """The whole machine: read from its file, changed, and written again."""

    def _agree(self) -> None:
        faults = self._table_faults() + self._shaft_faults()
        faults += self._gear_faults()
        for name in ("direct", "idler"):
            path = getattr(self.paths, name)
            if path.position >= self.housing.plate_spacing:
                faults.append(
                    f'paths.{name}.position: "{getattr(self.paths, name).given("position"):~P}" lies outside the plates; '
                    f"less than housing.plate_spacing ({self.housing.given('plate_spacing'):~P}) is wanted."
                )
        faults += self._input_faults()
        if self.paddles.root_radius >= self.paddles.tip_radius:
            faults.append(
                f'paddles.root_radius: "{self.paddles.given("root_radius"):~P}" does not fit; less than '
                f'paddles.tip_radius ({self.paddles.given("tip_radius"):~P}) is wanted, for example "25 mm".'
            )
        if len(self.paths.direct.tooth_counts) % 2:
            faults.append(
                f"paths.direct.tooth_counts: {list(self.paths.direct.tooth_counts)} turns both shafts the same "
                "way; an even count of gears is wanted, for example [30, 30]."
            )
        if not len(self.paths.idler.tooth_counts) % 2:
            faults.append(
                f"paths.idler.tooth_counts: {list(self.paths.idler.tooth_counts)} turns the shafts against "
                "each other; an odd count of gears is wanted, for example [22, 20, 22]."
            )
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

    def _shaft_faults(self) -> list[str]:
        """Mistakes in shafts, sleeve and paddles that need two fields to be seen."""
        faults = []
        for name in ("shaft_1", "shaft_2"):
            one = getattr(self, name)
            if len(one.step_at) != len(one.step_diameters):
                faults.append(
                    f"{name}.step_diameters: {len(one.step_diameters)} diameters for {len(one.step_at)} positions "
                    f"do not fit; as many as {name}.step_at are wanted."
                )
            if list(one.step_at) != sorted(set(one.step_at)):
                faults.append(
                    f"{name}.step_at: the positions do not rise; each one beyond the one before is wanted, "
                    'for example ["0 mm", "200 mm"].'
                )
        return faults

    def _gear_faults(self) -> list[str]:
        """Mistakes in gears and clutch that need two fields, or a table, to be seen."""
        faults = []
        for name in ("direct", "idler"):
            path = getattr(self.paths, name)
            if len(path.profile_shift_coefficients) not in (0, len(path.tooth_counts)):
                faults.append(
                    f"paths.{name}.profile_shift_coefficients: {list(path.profile_shift_coefficients)} does not fit; one number for "
                    f"each of the {len(path.tooth_counts)} gears is wanted, or none."
                )
        one = self.clutch
        if one.inner_diameter >= one.outer_diameter:
            faults.append(
                f'clutch.inner_diameter: "{self.clutch.given("inner_diameter"):~P}" does not fit; less than '
                f'clutch.outer_diameter ({self.clutch.given("outer_diameter"):~P}) is wanted, for example "60 mm".'
            )
        if one.overlap > one.dog_height:
            faults.append(
                f'clutch.overlap: "{self.clutch.given("overlap"):~P}" does not fit; at most clutch.dog_height '
                f'({self.clutch.given("dog_height"):~P}) is wanted, for example "8 mm".'
            )
        return faults

    def _input_faults(self) -> list[str]:
        """Mistakes that need two fields to be seen: clay, socket, motor, ranges."""
        clay, motor, ranges = self.clay, self.motor, self.ranges
        faults = []
        if clay.plastic_limit >= clay.liquid_limit:
            faults.append(
                f"clay.plastic_limit: {clay.plastic_limit:g} does not fit; less than clay.liquid_limit "
                f"({clay.liquid_limit:g}) is wanted, for example 0.22."
            )
        if self.supply.phases == 2:
            faults.append("supply.phases: 2 does not fit; 1 or 3 is wanted, for example 1.")
        if motor.poles % 2:
            faults.append(
                f"motor.poles: {motor.poles} does not fit; an even count is wanted, for example 4."
            )
        else:
            turning_field = 120 * motor.rated_frequency / motor.poles
            least = (1 - GREATEST_SLIP) * turning_field
            if motor.rated_speed >= turning_field:
                faults.append(
                    f'motor.rated_speed: "{motor.given("rated_speed"):~P}" does not fit; less than {turning_field:g} rpm, the '
                    f'speed of the field of {motor.poles} poles, is wanted, for example "{0.96 * turning_field:.0f} rpm".'
                )
            elif motor.rated_speed < least:
                faults.append(
                    f'motor.rated_speed: "{motor.given("rated_speed"):~P}" does not fit; no induction motor of {motor.poles} poles '
                    f"(motor.poles) lags so far behind its field of {turning_field:g} rpm, at least {least:g} rpm is "
                    f'wanted, for example "{0.96 * turning_field:.0f} rpm".'
                )
        if ranges.start_low > ranges.start_high or 0 < ranges.strength_high < ranges.strength_low:
            faults.append("ranges: a low end lies above its high end; low before high is wanted.")
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
        return parse_record(cls, text, file, start, STEPS)

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
    for name, value in values.items():
        kind = kind_of(record, name)
        if name not in document and value == _default_of(record, name):
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
    own: dict[str, Any] = {}
    inner: dict[str, dict[str, Any]] = {}
    for dotted, value in values.items():
        name, _, rest = dotted.partition(".")
        if rest:
            inner.setdefault(name, {})[rest] = value
        else:
            own[name] = value
    for name, below in inner.items():
        own[name] = _with_values(getattr(record, name), below, f"{where}{name}.")
    try:
        return record.changed(**own)
    except InputError as error:
        raise InputError(*(f"{where}{message}" for message in error.messages)) from None


def _default_of(record: type[Record], name: str) -> Any:
    """What a field is when its file leaves it out, as it would stand there; None if it may not."""
    one = record.__dataclass_fields__[name]
    if one.default is not dataclasses.MISSING:
        return kind_of(record, name).write(one.default)
    return None if one.default_factory is dataclasses.MISSING else one.default_factory().to_table()
