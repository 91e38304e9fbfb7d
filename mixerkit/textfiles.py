"""A maker's own files, read with one clear sentence for what is wrong.

Designs, shops and sizes as made are read by the same :func:`read_record`: the same guards against what no
file of the kit can be, lines pasted anywhere put where they belong, then the fields of the record.
"""

from __future__ import annotations

import tomllib
from collections.abc import Mapping, Sequence
from pathlib import Path
from typing import Any, TypeVar

from mixerkit.carried import Step, carry, misnamed
from mixerkit.fields import Record, example_of, kinds_in
from mixerkit.pasted import put_in_place
from mixerkit.units import InputError
from mixerkit.written import os_reason

__all__ = [
    "as_record",
    "parse_record",
    "parse_toml",
    "read_record",
    "read_text",
]

AnyRecord = TypeVar("AnyRecord", bound=Record)

LARGEST = 1_000_000
"""Bytes of the largest file that is read; a long design file has 10 000."""
_MOST_DOTS = 1000
"""Dots before an equals sign above which a line is not read at all."""
_DEEPEST = 20
"""Tables and lists inside each other that a file may have; the kit's own have three."""


def read_text(path: Path, what: str = "design file", missing: str = "") -> str:
    """Read a file of text that a maker gives.

    Parameters
    ----------
    path : pathlib.Path
    what : str
        What it ought to be, as messages call it.
    missing : str
        What to do if it is not there, said after that.

    Returns
    -------
    str

    Raises
    ------
    InputError
        If it is not there, is a folder, is too large or is no UTF-8 text.
    """
    try:
        return _bytes_of(path, what).decode("utf-8-sig")
    except UnicodeDecodeError as error:
        raise InputError(
            f"{path.name}: not UTF-8 text (byte {error.start}); save the file as plain UTF-8 text."
        ) from None
    except FileNotFoundError:
        words = (
            f"no such file{missing}"
            if missing
            else f"cannot be read (no such file); a {what} is wanted"
        )
        # a name of blanks alone would not be seen
        name = path if str(path).strip() else f"'{path}'"
        raise InputError(f"{name}: {words}.") from None
    except InputError:
        raise
    except (OSError, ValueError) as error:
        raise InputError(f"{path}: cannot be read ({os_reason(error)}).") from None


def _bytes_of(path: Path, what: str) -> bytes:
    """All of a file, if it is no folder and not too large."""
    if path.is_dir():
        raise InputError(
            f"{path.name or path}: this is a folder; a {what} such as my_mixer.toml is wanted."
        )
    # no more than that: a device has no end
    with path.open("rb") as stream:
        content = stream.read(LARGEST + 1)
    if len(content) > LARGEST:
        size = path.stat().st_size
        given = f"{size / 1e6:.1f} MB" if size > LARGEST else "more than 1 MB"
        raise InputError(f"{path.name}: {given} is too large for a {what}; under 1 MB is wanted.")
    return content


def read_record(of: type[AnyRecord], path: Path, what: str, missing: str = "") -> AnyRecord:
    """Read a file of fields that a maker gives, such as a shop file.

    Parameters
    ----------
    of : type of Record
        What stands in it.
    path : pathlib.Path
    what, missing : str
        See :func:`read_text`.

    Returns
    -------
    Record

    Raises
    ------
    InputError
        With one sentence for each mistake in the file, each beginning with the file's name.
    """
    return parse_record(of, read_text(path, what, missing), path.name)


def parse_record(
    of: type[AnyRecord], text: str, file: str, empty: str = "", steps: Sequence[Step] = ()
) -> AnyRecord:
    """Read a record from the text of its file; see :func:`read_record`.

    Parameters
    ----------
    of : type of Record
    text : str
    file : str
        Name of the file, put before each message.
    empty : str
        What to do if nothing stands in it; without, a file may be empty as far as its fields may.
    steps : sequence of Step
        What each format of the file calls otherwise; a file of an older one is carried forward.

    Returns
    -------
    Record
    """
    kinds = kinds_in(of)
    try:
        text = put_in_place(text, kinds)
    except InputError as error:
        raise InputError(f"{file}, {error}") from None
    line = next(
        f"{name.rpartition('.')[2]} = {example_of(kind)}"
        for name, kind in kinds.items()
        if "." in name
    )
    content = parse_toml(text, file, f"; lines like {line} are wanted")
    if empty and not content:
        raise InputError(f"{file}: the file is empty; {empty}.")
    try:
        carried = carry(text, content, steps)
    except InputError as error:
        raise InputError(*(f"{file}, {message}" for message in error.messages)) from None
    record = as_record(of, carried.content, file, steps)
    object.__setattr__(record, "_text", carried.text)
    object.__setattr__(record, "_told", carried.told)
    return record


def as_record(
    of: type[AnyRecord], content: Mapping[str, Any], file: str, steps: Sequence[Step] = ()
) -> AnyRecord:
    """Read a record from what a TOML file of the newest format holds; see :func:`read_record`."""
    form, known = content.get("format"), getattr(of, "format", None)
    others = content.keys() - {"format"}
    # a file of another kind has a number too, and is told that its names are none
    own = not others or any(name in of.__dataclass_fields__ for name in others)
    if own and isinstance(form, int) and known is not None and form > known:
        raise InputError(
            f"{file}, format: {form} is of a newer kit; this one reads up to {known}. Update mixerkit."
        )
    content, faults = misnamed(content, steps)
    try:
        record = of.from_table(content)
    except InputError as error:
        faults += error.messages
    if faults:
        raise InputError(*(f"{file}, {message}" for message in faults))
    return record


def parse_toml(text: str, file: str, hint: str = "") -> dict[str, Any]:
    """Read the text of a TOML file.

    Parameters
    ----------
    text : str
    file : str
        Name of the file, put before each message.
    hint : str
        What is wanted instead of what is no TOML, with an example.

    Returns
    -------
    dict

    Raises
    ------
    InputError
        If it is no TOML, or holds what no file of the kit can.

    References
    ----------
    TOML 1.0.0, Integer: 64 bits are to be taken, and more is an error where it is not taken whole.

    Examples
    --------
    >>> parse_toml("ratio = 60", "my.toml")
    {'ratio': 60}
    """
    # a name of very many parts takes the reader minutes before it is found too deep
    if any(line.partition("=")[0].count(".") > _MOST_DOTS for line in text.split("\n")):
        raise InputError(_too_deep(file))
    try:
        content = tomllib.loads(text)
    except tomllib.TOMLDecodeError as error:
        raise InputError(f"{file}: not a TOML file: {error}{hint}.") from None
    except RecursionError:
        raise InputError(_too_deep(file)) from None
    except ValueError:
        # Python refuses to make a number of so many digits
        raise InputError(f"{file}: holds a whole number with too many digits{hint}.") from None
    faults = [f"{file}, {where}: {words}" for where, words in _unheard(content)]
    if faults:
        raise InputError(*faults)
    return content


def _too_deep(file: str) -> str:
    return (
        f"{file}: tables and lists stand more than {_DEEPEST} deep in each other; "
        'lines like rated_power = "1.5 kW" are wanted.'
    )


def _unheard(content: dict[str, Any]) -> list[tuple[str, str]]:
    """Whole numbers too large to be meant, and what is nested too deep: where, and words."""
    found: list[tuple[str, str]] = []
    left: list[tuple[str, object, int]] = [("", content, 0)]
    while left:
        where, value, deep = left.pop()
        if deep > _DEEPEST:
            return [
                (where, f"stands more than {_DEEPEST} deep in other lists; one value is wanted.")
            ]
        if isinstance(value, dict):
            left += [
                (f"{where}.{key}" if where else key, one, deep + 1) for key, one in value.items()
            ]
        elif isinstance(value, list):
            left += [(where, one, deep + 1) for one in value]
        elif isinstance(value, int) and not -(2**63) <= value < 2**63:
            found.append((where, "a whole number with too many digits; a smaller one is wanted."))
    return found[::-1]
