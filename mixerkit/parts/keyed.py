"""A hub held by a parallel key, and the key that a shaft of some size has."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass

from mixerkit.checks import Change
from mixerkit.parts.key_flanks import Shallow
from mixerkit.results import Array, LoadedMachine, TableRow
from mixerkit.tables import table

__all__ = ["KeyedHub", "bearing_length", "key_for"]


def key_for(diameter: float, system: str) -> TableRow:
    """Row of the key table for a shaft, in plain numbers.

    Raises
    ------
    InputError
        If the table has no key for the diameter.
    """
    return table("keys").only("series", system).bracket(diameter, "above", "up_to").values


def bearing_length(length: float, key: TableRow) -> float:
    """Length in mm over which a key bears in its keyway, next to nothing where it is all ends.

    An end mill leaves the keyway's ends round, and the key's with them: form A. Half a width at each end has no
    flank. What is longer than the table's longest key is not made of one piece: the rest is not counted.

    Parameters
    ----------
    length : float
        Of the keyway in mm.
    key : mapping
        Row of the key table.

    Returns
    -------
    float

    References
    ----------
    DIN 6892: the length that bears is the key's less its width, form A of DIN 6885-1 (from memory).

    Examples
    --------
    >>> bearing_length(70.0, key_for(45.0, "metric"))
    56.0
    """
    return float(max(min(length, key["longest"]) - key["width"], 1e-6))


@dataclass(frozen=True)
class KeyedHub:
    """A hub held by a key.

    Attributes
    ----------
    machine : LoadedMachine
    part : str
        As its checks name it.
    torque : array (load cases,)
        What it carries in N*m.
    torque_from : str
        Where that comes from.
    diameter : float
        Of the shaft in mm.
    diameter_from : str
        Where that comes from.
    length : float
        Of the key in mm.
    field, shaft_field : str
        Dotted names of that length and of the shaft's diameter.
    shaft_material : str
        Dotted name of the field that names the shaft's metal.
    hub_materials : tuple of str
        Those that name the hub's, or those of the hubs that carry by turns.
    shallow : Shallow, optional
        Flank in the shaft's part where its keyway is less deep than the table's.
    first : callable, optional
        Given by how much the stress is over, what may mend it before all else.
    """

    machine: LoadedMachine
    part: str
    torque: Array
    torque_from: str
    diameter: float
    diameter_from: str
    length: float
    field: str
    shaft_field: str
    shaft_material: str
    hub_materials: tuple[str, ...]
    shallow: Shallow | None = None
    first: Callable[[float], Sequence[Change]] | None = None
