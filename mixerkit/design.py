"""The design of one mixer: frozen records, read from and written to one TOML file."""

from __future__ import annotations

import contextlib
import copy
import dataclasses
import hashlib
import json
import os
import tempfile
import tomllib
from pathlib import Path
from typing import Any, Self

from mixerkit.data_files import data_path
from mixerkit.records import (
    Kind,
    Record,
    choice,
    kind_of,
    nearest,
    number,
    quantity,
    section,
    whole,
    wholes,
    words,
    yes_no,
)
from mixerkit.tables import table
from mixerkit.units import InputError

__all__ = [
    "FORMAT",
    "Batch",
    "Clutch",
    "Design",
    "GearPath",
    "Housing",
    "Motor",
    "Paddles",
    "Paths",
    "Reducer",
    "Safety",
    "Shaft",
    "write_atomically",
]

FORMAT = 1
"""Number of the design file's form; a file of a newer kit has a higher one."""
_LARGEST_FILE = 1_000_000
_UPPER_TORQUE = "N*m > 0 <= 20000"


class Batch(Record):
    """What goes into the trough, and the torque it asks."""

    mass: Any = quantity("kg > 0 <= 500", "mass of one batch of clay", "15 kg")
    demand_torque: Any = quantity(
        _UPPER_TORQUE, "torque of both paddle shafts together while mixing", "300 N*m"
    )
    start_factor: float = number(
        ">= 1 <= 5",
        "how much more torque the clay asks to be set moving (common practice 1.3 to 2)",
        "1.5",
        1.5,
    )
    heavier_share: float = number(
        ">= 0.5 <= 1",
        "largest share of the torque that one shaft may find itself carrying",
        "0.65",
        0.65,
    )


class Motor(Record):
    """The motor, as its rating plate and its maker's sheet state it."""

    rated_power: Any = quantity("kW > 0 <= 50", "mechanical power on the rating plate", "1.5 kW")
    rated_speed: Any = quantity("rpm > 0 <= 10000", "speed on the rating plate", "1440 rpm")
    start_torque_ratio: float = number("> 0 <= 6", "torque at rest over rated torque", "2.2")
    breakdown_torque_ratio: float = number("> 1 <= 6", "greatest torque over rated torque", "2.6")


class Reducer(Record):
    """The bought-in reduction box."""

    ratio: float = number("> 0 <= 1000", "turns of the motor for one turn of shaft 1", "60")
    efficiency: float = number("> 0 <= 1", "share of the power that comes out of the box", "0.85")
    rated_torque: Any = quantity(
        _UPPER_TORQUE, "torque the box may carry all day at its slow end", "700 N*m"
    )
    peak_torque_ratio: float = number(
        ">= 1 <= 5", "momentary torque the box survives over its rated torque", "2", 2.0
    )
    service_factor: float = number(
        ">= 1 <= 4", "factor on the torque for hours a day and shock (common practice)", "1.5", 1.5
    )


class GearPath(Record):
    """One train of gears from shaft 1 to shaft 2."""

    tooth_counts: tuple[int, ...] = wholes(
        6, 200, 2, 4, "tooth counts from shaft 1 to shaft 2", "[30, 30]"
    )
    module: Any = quantity(
        "mm >= 0.5 <= 25",
        "module, or the diametral pitch in teeth per inch",
        "5 mm",
        reciprocal=True,
    )
    face_width: Any = quantity("mm > 0 <= 300", "width of the teeth", "40 mm")
    position: Any = quantity(
        "mm > 0 <= 1000",
        "distance of the gears' middle from the inside of the plate at the reducer",
        "40 mm",
    )
    mesh_efficiency: float = number("> 0 <= 1", "share of the power through one mesh", "0.97", 0.97)


class Paths(Record):
    """Both gear paths: the direct pair and the one with an idler."""

    direct: GearPath = section(GearPath, "the pair that turns the shafts against each other")
    idler: GearPath = section(
        GearPath, "the pair with an idler, that turns both shafts the same way"
    )


class Clutch(Record):
    """The sliding dog clutch that picks the path."""

    shaft: int = whole(1, 2, "shaft that carries the clutch and the free wheels", "1", 1)
    drawn_in: str = choice(
        ("direct", "neutral", "idler"), "position in which the drawings show it", "direct"
    )


class Housing(Record):
    """The two plates that hold the gears, and the distance of the shafts."""

    centre_distance: Any = quantity(
        "mm > 0 <= 2000", "distance between the paddle shafts", "150 mm"
    )
    plate_spacing: Any = quantity(
        "mm > 0 <= 1000", "distance between the insides of the two plates", "150 mm"
    )


class Paddles(Record):
    """The paddles of one shaft."""

    tip_radius: Any = quantity(
        "mm > 0 <= 1000", "from the shaft's middle to a paddle's tip", "90 mm"
    )
    root_radius: Any = quantity(
        "mm > 0 <= 500", "from the shaft's middle to where a paddle begins", "25 mm"
    )
    count: int = whole(1, 60, "paddles on one shaft", "6")
    bearing_span: Any = quantity(
        "mm > 0 <= 3000", "distance between the bearings either side of the trough", "340 mm"
    )


class Shaft(Record):
    """One paddle shaft, solid and round."""

    material: str = words("a material of data/tables/materials.csv", "steel C45 normalised")
    diameter: Any = quantity("mm > 0 <= 300", "diameter at its thinnest loaded section", "40 mm")
    keyway: bool = yes_no("whether a keyway is cut at the loaded section", default=True)


class Safety(Record):
    """How much more each part is to take than is asked of it (common practice)."""

    motor_mixing: float = number(">= 1 <= 5", "rated motor torque over mixing torque", "1.25", 1.25)
    motor_starting: float = number(
        ">= 1 <= 5", "motor torque at rest over starting torque", "1.2", 1.2
    )
    shaft_in_jam: float = number(">= 1 <= 5", "yield strength over stress in a jam", "1.2", 1.2)
    tip_clearance: Any = quantity(
        "mm >= 0 <= 50", "least gap between gears that must not touch", "2 mm", "2 mm"
    )


class Design(Record):
    """The whole machine.

    Attributes
    ----------
    format, name, show_units : int, str, str
    batch, motor, reducer, paths, clutch, housing, paddles, shaft_1, shaft_2, safety : Record
    """

    format: int = whole(1, 9999, "number of the file's form", "1", FORMAT)
    name: str = words("what this machine is called on sheets", "Our clay mixer")
    show_units: str = choice(("metric", "inch"), "units shown on sheets and in tables", "metric")
    batch: Batch = section(Batch, "what goes into the trough")
    motor: Motor = section(Motor, "the motor")
    reducer: Reducer = section(Reducer, "the reduction box")
    paths: Paths = section(Paths, "the two gear paths")
    clutch: Clutch = section(Clutch, "the dog clutch", optional=True)
    housing: Housing = section(Housing, "the gear housing")
    paddles: Paddles = section(Paddles, "the paddles")
    shaft_1: Shaft = section(Shaft, "the shaft on the reduction box")
    shaft_2: Shaft = section(Shaft, "the shaft driven through the gears")
    safety: Safety = section(Safety, "wanted factors", optional=True)

    def __post_init__(self) -> None:
        super().__post_init__()
        faults = []
        for name in ("shaft_1", "shaft_2"):
            try:
                table("materials").find(getattr(self, name).material)
            except InputError as error:
                faults.append(f"{name}.material: {error}")
        for name in ("direct", "idler"):
            path = getattr(self.paths, name).plain
            if path.position >= self.housing.plain.plate_spacing:
                faults.append(
                    f'paths.{name}.position: "{getattr(self.paths, name).position:~P}" lies outside the plates; '
                    f"less than housing.plate_spacing ({self.housing.plate_spacing:~P}) is wanted."
                )
        if self.paddles.plain.root_radius >= self.paddles.plain.tip_radius:
            faults.append(
                f'paddles.root_radius: "{self.paddles.root_radius:~P}" does not fit; less than '
                f'paddles.tip_radius ({self.paddles.tip_radius:~P}) is wanted, for example "25 mm".'
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
        >>> Design.read(data_path("designs", "larkfield.toml")).motor.rated_power
        <Quantity(1.5, 'kilowatt')>
        """
        return cls.parse(_text_of(Path(path)), Path(path).name)

    @classmethod
    def parse(cls, text: str, file: str = "design") -> Self:
        """Read a design from the text of its file; see :meth:`read`."""
        try:
            content = tomllib.loads(text)
        except tomllib.TOMLDecodeError as error:
            raise InputError(
                f'{file}: not a TOML file: {error}; lines like rated_power = "1.5 kW" are wanted.'
            ) from None
        if not content:
            raise InputError(
                f'{file}: the file is empty; "mixerkit new {file}" writes one to start from.'
            )
        form = content.get("format", FORMAT)
        if isinstance(form, int) and form > FORMAT:
            raise InputError(
                f"{file}, format: {form} is of a newer kit; this one reads up to {FORMAT}. Update mixerkit."
            )
        try:
            design = cls.from_table(content)
        except InputError as error:
            raise InputError(*(f"{file}, {message}" for message in error.messages)) from None
        object.__setattr__(design, "_text", text)
        return design

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
        record: Record = self
        *outer, last = dotted.split(".")
        for part in outer:
            kind_of(record, part)
            record = getattr(record, part)
        return record, last, kind_of(record, last)

    def with_values(self, values: dict[str, Any]) -> Self:
        """Give a copy with fields changed by dotted name.

        Parameters
        ----------
        values : dict
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
        content = copy.deepcopy(self.to_table())
        for dotted, value in values.items():
            self.field(dotted)
            *outer, last = dotted.split(".")
            inner = content
            for part in outer:
                inner = inner[part]
            inner[last] = value
        changed = type(self).from_table(content)
        object.__setattr__(changed, "_text", getattr(self, "_text", None))
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

        text = (
            base
            or getattr(self, "_text", None)
            or data_path("designs", "larkfield.toml").read_text("utf-8")
        )
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
            base = _text_of(path)
            write_atomically(path.with_name(path.name + ".previous"), base)
            with contextlib.suppress(InputError):
                Design.parse(base, path.name)
                write_atomically(path, self.to_toml(base))
                return
        write_atomically(path, self.to_toml())


def _text_of(path: Path) -> str:
    try:
        if path.is_dir():
            raise InputError(
                f"{path.name}: this is a folder; a design file such as my_mixer.toml is wanted."
            )
        size = path.stat().st_size
        if size > _LARGEST_FILE:
            raise InputError(
                f"{path.name}: {size / 1e6:.1f} MB is too large for a design file; under 1 MB is wanted."
            )
        return path.read_bytes().decode("utf-8-sig")
    except UnicodeDecodeError as error:
        raise InputError(
            f"{path.name}: not UTF-8 text (byte {error.start}); save the file as plain UTF-8 text."
        ) from None
    except FileNotFoundError:
        raise InputError(
            f'{path}: no such file; "mixerkit new {path}" writes one to start from.'
        ) from None
    except OSError as error:
        raise InputError(f"{path}: cannot be read ({error.strerror or error}).") from None


def _merge(document: Any, values: dict[str, Any], record: type[Record]) -> None:
    """Put values into a parsed TOML text, touching only what differs."""
    for name, value in values.items():
        kind = record.__dataclass_fields__[name].metadata["kind"]
        if name not in document and value == _default_of(record, name):
            continue
        if isinstance(value, dict):
            if name not in document:
                document[name] = {}
            _merge(document[name], value, kind.of)
            continue
        if name in document:
            with contextlib.suppress(InputError):
                if kind.write(kind.read(document[name])) == value:
                    continue
        document[name] = value


def _default_of(record: type[Record], name: str) -> Any:
    """What a field is when its file leaves it out, as it would stand there; None if it may not."""
    one = record.__dataclass_fields__[name]
    if one.default is not dataclasses.MISSING:
        return one.metadata["kind"].write(one.default)
    return None if one.default_factory is dataclasses.MISSING else one.default_factory().to_table()


def write_atomically(path: Path, text: str) -> None:
    """Write a text file so that it is there whole or not at all.

    Parameters
    ----------
    path : pathlib.Path
    text : str

    Raises
    ------
    InputError
        If the place cannot be written to.
    """
    try:
        handle, name = tempfile.mkstemp(dir=path.parent, prefix=f".{path.name}.", suffix=".part")
    except OSError as error:
        raise InputError(f"{path}: cannot be written ({error.strerror or error}).") from None
    try:
        with os.fdopen(handle, "w", encoding="utf-8", newline="\n") as stream:
            stream.write(text)
        umask = os.umask(0)
        os.umask(umask)
        Path(name).chmod(0o666 & ~umask)
        Path(name).replace(path)
    except OSError as error:
        raise InputError(f"{path}: cannot be written ({error.strerror or error}).") from None
    finally:
        Path(name).unlink(missing_ok=True)
