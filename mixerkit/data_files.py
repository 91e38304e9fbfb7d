"""Where the packaged data lives, in a source tree and in an installed wheel alike."""

from pathlib import Path

_INSTALLED = Path(__file__).parent / "data"
_SOURCE_TREE = Path(__file__).parents[1] / "data"


def data_path(*parts: str) -> Path:
    """Path of a file that ships with the kit.

    Parameters
    ----------
    *parts : str
        Folder and file names below ``data/``.

    Returns
    -------
    pathlib.Path

    Examples
    --------
    >>> data_path("units.txt").name
    'units.txt'
    """
    root = _INSTALLED if _INSTALLED.is_dir() else _SOURCE_TREE
    return root.joinpath(*parts)
