"""The shop file and the sizes as made that lie beside a design file: whose they are, and what is said of them.

The rule is one for all commands and notebooks: a file named ``my_shop.toml`` or ``my_sizes.toml`` in the
folder of the design file is the maker's, unless another is named. The demo's files go with the demo's
designs alone; a maker's own design without a shop file is worked out without one.
"""

from __future__ import annotations

import os
import shlex
from dataclasses import dataclass
from pathlib import Path

from mixerkit.data_files import data_path
from mixerkit.shop.measurements import Measurements, read_measurements
from mixerkit.shop.workshop import Workshop, read_workshop

__all__ = [
    "OWN_SHOP",
    "OWN_SIZES",
    "START",
    "Beside",
    "beside",
    "demo_of",
    "shop_file",
    "sizes_file",
]

OWN_SHOP = "my_shop.toml"
OWN_SIZES = "my_sizes.toml"
START = {OWN_SHOP: ("shops", "larkfield_shop.toml"), OWN_SIZES: ("measured", "start.toml")}
"""What a new file of such a name begins as, below data/."""
_SHOPS = {"inch_room": "inch_room_shop.toml"}
_SHOP = "larkfield_shop.toml"
_SIZES = {"larkfield": "larkfield_as_made.toml"}


@dataclass(frozen=True)
class Beside:
    """What goes with a design file.

    Attributes
    ----------
    shop : Workshop, or None
        None where a maker's own design has no shop file.
    shop_words : str
        Whose shop it is, or that there is none and what follows.
    sizes : Measurements, or None
        Sizes as made; None where there is no such file.
    sizes_words : str
        Where they stand, or that there are none and what follows.
    demos_shop, demos_sizes : bool
        Whether they are the demo's.
    """

    shop: Workshop | None
    shop_words: str
    sizes: Measurements | None
    sizes_words: str
    demos_shop: bool = False
    demos_sizes: bool = False


def demo_of(design_file: Path) -> str:
    """Name of the demo design that a file is; empty for a maker's own, a copy of a demo too.

    Examples
    --------
    >>> demo_of(data_path("designs", "inch_room.toml")), demo_of(Path("my_mixer.toml"))
    ('inch_room', '')
    """
    folder = data_path("designs")
    return design_file.stem if design_file.resolve().parent == folder.resolve() else ""


def shop_file(
    design_file: Path, named: str | os.PathLike[str] | None = None, demo: str | None = None
) -> Path | None:
    """Find the shop file that goes with a design file.

    Parameters
    ----------
    design_file : pathlib.Path
    named : path, optional
        The one that is wanted instead.
    demo : str, optional
        Name of the demo design that is worked on instead of the file; found from the file, if not given.

    Returns
    -------
    pathlib.Path, or None
        None where a maker's own design has none.
    """
    demo = demo_of(design_file) if demo is None else demo
    return _found(design_file, named, OWN_SHOP, "shops", _SHOPS.get(demo, _SHOP) if demo else "")


def sizes_file(
    design_file: Path, named: str | os.PathLike[str] | None = None, demo: str | None = None
) -> Path | None:
    """Find the file of sizes as made that goes with a design file; see :func:`shop_file`."""
    demo = demo_of(design_file) if demo is None else demo
    return _found(design_file, named, OWN_SIZES, "measured", _SIZES.get(demo, ""))


def _found(
    design_file: Path, named: str | os.PathLike[str] | None, own: str, room: str, of_demo: str
) -> Path | None:
    if named is not None:
        return Path(named)
    lying = design_file.parent / own
    # a link that leads nowhere, or a folder, is told as what cannot be read
    if os.path.lexists(lying):
        return lying
    return data_path(room, of_demo) if of_demo else None


def beside(
    design_file: Path,
    shop: str | os.PathLike[str] | None = None,
    sizes: str | os.PathLike[str] | None = None,
    demo: str | None = None,
) -> Beside:
    """Read what goes with a design file.

    Parameters
    ----------
    design_file : pathlib.Path
    shop, sizes : path, optional
        Files that are named instead of those beside it.
    demo : str, optional
        See :func:`shop_file`.

    Returns
    -------
    Beside

    Raises
    ------
    InputError
        With one sentence for each mistake in a file.

    Examples
    --------
    >>> beside(data_path("designs", "inch_room.toml")).shop.name
    'Larkfield annex demo shop'
    """
    shops, made = shop_file(design_file, shop, demo), sizes_file(design_file, sizes, demo)
    read_shop = read_workshop(shops) if shops else None
    read_sizes = read_measurements(made) if made else None
    return Beside(
        read_shop,
        f"Shop: {read_shop.name}, {_where(shops)}."
        if read_shop and shops
        else _no_shop(design_file),
        read_sizes,
        f"Sizes as made: {_where(made)}." if made else _no_sizes(design_file),
        _of_demo(shops),
        _of_demo(made),
    )


def _of_demo(file: Path | None) -> bool:
    return file is not None and file.parent.parent == data_path()


def _where(file: Path) -> str:
    return "the demo's" if _of_demo(file) else f"from {file.name}"


def _no_shop(design_file: Path) -> str:
    """That a maker's own design has no shop file, and what is left undone."""
    start = shlex.quote(str(design_file.parent / OWN_SHOP))
    return (
        f"No shop file: cutters, dividing plates, drills, machines and stock are not held against yours; "
        f'"mixerkit new {start}" writes one to fill in.'
    )


def _no_sizes(design_file: Path) -> str:
    """That no size as made is written down yet."""
    start = shlex.quote(str(design_file.parent / OWN_SIZES))
    return f'No sizes as made yet: "mixerkit new {start}" writes a file to write them in.'
