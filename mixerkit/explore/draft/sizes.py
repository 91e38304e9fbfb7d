"""Values of a draft as they are put down: each with its reason, none where the brief has one."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import Any

import numpy as np

from mixerkit.explore.draft.brief import FIELDS, Brief
from mixerkit.explore.sizes import settable_sizes, whole
from mixerkit.fields.kinds import QuantityKind, WholeKind

__all__ = ["Sizes", "settable"]


def settable(dotted: str, value: float, system: str, way: str = "near") -> str:
    """Write the settable size of a field beside a plain number in the unit it declares.

    Parameters
    ----------
    dotted : str
    value : float
    system : str
        ``"metric"`` or ``"inch"``.
    way : str
        ``"near"``, ``"up"`` or ``"down"``.

    Returns
    -------
    str

    Examples
    --------
    >>> settable("shaft_1.diameter", 46.3, "metric", "up")
    '48 mm'
    """
    kind = FIELDS[dotted]
    if not isinstance(kind, QuantityKind):
        raise TypeError(f"{dotted} is no quantity")
    sizes, write = settable_sizes(dotted, kind, system)
    slack = 1e-9 * max(abs(value), 1.0)
    if way == "up":
        place = int(np.searchsorted(sizes, value - slack))
    elif way == "down":
        place = int(np.searchsorted(sizes, value + slack, side="right")) - 1
    else:
        place = int(np.abs(sizes - value).argmin())
    return write(float(sizes[min(max(place, 0), len(sizes) - 1)]))


@dataclass
class Sizes:
    """What is put down of a draft.

    Attributes
    ----------
    brief : Brief
    values : dict of str to object
        Drafted fields as they stand in a file.
    reasons : dict of str to str
        Why each has its value, in a few words.
    """

    brief: Brief
    values: dict[str, object] = field(default_factory=dict)
    reasons: dict[str, str] = field(default_factory=dict)

    def put(self, dotted: str, value: object, reason: str, way: str = "near") -> None:
        """Put down a value where the brief has none: a plain number is made one that can be set."""
        if dotted in self.brief.given:
            return
        kind = FIELDS[dotted]
        if isinstance(kind, QuantityKind) and isinstance(value, (int, float)):
            value = settable(dotted, float(value), self.brief.system, way)
        elif isinstance(kind, WholeKind) and isinstance(value, (int, float)):
            value = int(min(max(round(value), kind.least), kind.most))
        elif isinstance(value, float):
            value = whole(round(value, 4))
        self.values[dotted], self.reasons[dotted] = value, reason

    def number(self, dotted: str) -> Any:
        """A field in the unit it declares, given or put down; none where it is neither."""
        found = self.brief.number(dotted)
        if found is None and dotted in self.values:
            kind = FIELDS[dotted]
            found = kind.number(kind.read_at(self.values[dotted], dotted))
        return found
