"""Files written whole or not at all, several of them every one or none."""

from __future__ import annotations

import contextlib
import os
import tempfile
from collections.abc import Mapping
from pathlib import Path

from mixerkit.units import InputError

__all__ = ["os_reason", "write_all", "write_atomically"]


def os_reason(error: Exception) -> str:
    """Say in the system's own words why a file cannot be read or written."""
    return getattr(error, "strerror", None) or str(error)


def _make_folder(folder: Path) -> list[Path]:
    """Make a folder and those above it; gives what was made, the innermost first."""
    made: list[Path] = []
    try:
        lacking = [one for one in (folder, *folder.parents) if not one.exists()]
        for one in reversed(lacking):
            one.mkdir(exist_ok=True)
            made.insert(0, one)
        _is_folder(folder)
    except InputError:
        _unmake(made)
        raise
    except (OSError, ValueError) as error:
        _unmake(made)
        raise InputError(f"{folder}: cannot be made a folder ({os_reason(error)}).") from None
    return made


def _is_folder(folder: Path) -> None:
    if not folder.is_dir():
        raise InputError(
            f"{folder}: cannot be made a folder (a file of that name is there); another name is wanted."
        )


def _unmake(folders: list[Path]) -> None:
    for one in folders:
        with contextlib.suppress(OSError):
            one.rmdir()


def write_all(folder: Path, contents: Mapping[str, str | bytes]) -> list[Path]:
    """Write several files into a folder: every one, or none and no folder either.

    Parameters
    ----------
    folder : pathlib.Path
        Made if it is not there.
    contents : mapping of str to str or bytes
        By name below the folder; text is written as UTF-8.

    Returns
    -------
    list of pathlib.Path

    Raises
    ------
    InputError
        If the folder cannot be made, or any of the files cannot be written.
    """
    made = _make_folder(folder)
    paths = [folder / name for name in contents]
    parts: list[Path] = []
    try:
        for path, content in zip(paths, contents.values(), strict=True):
            parts.append(_part(path, content))
        for path, part in zip(paths, parts, strict=True):
            _put(part, path)
    except BaseException:
        for part in parts:
            part.unlink(missing_ok=True)
        _unmake(made)
        raise
    return paths


def write_atomically(path: Path, text: str | bytes) -> None:
    """Write a file so that it is there whole or not at all.

    Parameters
    ----------
    path : pathlib.Path
    text : str or bytes
        Text is written as UTF-8.

    Raises
    ------
    InputError
        If the place cannot be written to.
    """
    part = _part(path, text)
    try:
        _put(part, path)
    finally:
        part.unlink(missing_ok=True)


def _part(path: Path, text: str | bytes) -> Path:
    """Write what is to become a file beside it."""
    if os.path.isdir(path):  # noqa: PTH112  says no for a name that cannot be, where Path raises
        raise InputError(f"{path}: cannot be written (a folder of that name is there).")
    try:
        handle, name = tempfile.mkstemp(dir=path.parent, prefix=".mixerkit.", suffix=".part")
    except (OSError, ValueError) as error:
        raise InputError(f"{path}: cannot be written ({os_reason(error)}).") from None
    part = Path(name)
    try:
        with os.fdopen(handle, "wb") as stream:
            stream.write(text.encode("utf-8") if isinstance(text, str) else text)
        umask = os.umask(0)
        os.umask(umask)
        part.chmod(0o666 & ~umask)
    except OSError as error:
        part.unlink(missing_ok=True)
        raise InputError(f"{path}: cannot be written ({os_reason(error)}).") from None
    except BaseException:
        part.unlink(missing_ok=True)
        raise
    return part


def _put(part: Path, path: Path) -> None:
    try:
        part.replace(path)
    except (OSError, ValueError) as error:
        raise InputError(f"{path}: cannot be written ({os_reason(error)}).") from None
