"""Which fields of a design each check reads: what a check does not read cannot mend it."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any, cast

from mixerkit.checks import Check
from mixerkit.design import Design
from mixerkit.fields import Record
from mixerkit.machine import Machine
from mixerkit.stages import MAKERS, Maker

__all__ = ["first_to_give", "made_by", "read_for"]


class _Watched:
    """A record's plain values, which notes every one that is read."""

    def __init__(self, of: Record, prefix: str, noted: set[str]) -> None:
        self._of, self._prefix, self._noted = of, prefix, noted

    def __getattr__(self, name: str) -> Any:
        value = getattr(self._of, name)
        if isinstance(value, Record):
            return _Watched(value, f"{self._prefix}{name}.", self._noted)
        self._noted.add(self._prefix + name)
        return value

    def with_numbers(self, **numbers: object) -> _Watched:
        bare = {
            name: one._of if isinstance(one, _Watched) else one  # noqa: SLF001  of its own kind
            for name, one in numbers.items()
        }
        return _Watched(self._of.with_numbers(**bare), self._prefix, self._noted)


def read_for(design: Design, work: Callable[[Design], object]) -> set[str]:
    """Name the fields of a design that are read for some work.

    Parameters
    ----------
    design : Design
    work : callable
        Given something that stands in for the design.

    Returns
    -------
    set of str
        Dotted names. A record that is asked to show or give a field counts with all its fields.

    Examples
    --------
    >>> read_for(Design.demo(), lambda one: one.shaft_1.diameter)
    {'shaft_1.diameter'}
    """
    noted: set[str] = set()
    # it stands in for the design: all that is asked of it is asked of a record within
    work(cast("Design", _Watched(design, "", noted)))
    for name in tuple(noted):
        table, _, asked = name.rpartition(".")
        if table and asked in ("given", "shown", "to_table"):
            record, last, _ = design.field(table)
            noted |= {f"{table}.{one}" for one in getattr(record, last).__dataclass_fields__}
    return noted


def made_by(found: Machine) -> dict[str, tuple[Maker | None, frozenset[str]]]:
    """Map each check of a machine to what makes it, and to the fields that are read for that.

    A change of any one field that is not among them leaves the check as it is: all that is read has
    the same values, so all goes the same way.

    Parameters
    ----------
    found : Machine

    Returns
    -------
    dict of str to tuple
        By id: one of :data:`mixerkit.stages.MAKERS`, or none for the jam's ladder, which stands on all
        other checks and is read by the one it fails by; and dotted names.

    Examples
    --------
    >>> from mixerkit import Design, Machine
    >>> made = made_by(Machine(Design.demo()))
    >>> "clutch.dogs" in made["motor.motor.torque-while-mixing"][1]
    False
    """
    spec = found.design
    by_id: dict[str, tuple[Maker | None, frozenset[str]]] = {}
    for maker in MAKERS:
        noted: set[str] = set()
        # it stands in for the design: all that is asked of it is asked of a record within
        watched = cast("Design", _Watched(spec, "", noted))
        checks = Machine(watched).checks_of([maker])
        by_id |= dict.fromkeys((one.id for one in checks), (maker, frozenset(noted)))
    first = first_to_give(found)
    by_first = by_id[first.id][1] if first else frozenset()
    noted = {f"fuse.{name}" for name in vars(spec.fuse)} | {
        f"safety.{name}" for name in vars(spec.safety)
    }
    return {one.id: by_id.get(one.id, (None, by_first | noted)) for one in found.checks}


def first_to_give(found: Machine) -> Check | None:
    """Find the check that the jam's ladder fails by: of a part not known, else of the weakest.

    As long as it is as it is, and the jam too, nothing else can mend the ladder.

    Parameters
    ----------
    found : Machine

    Returns
    -------
    Check or None
        None where no part says when it gives.
    """
    unknown = [
        one for one in found.checks if not one.judged and "jam" in one.name and one.stage != "jam"
    ]
    giving = [(one.gives[0], one) for one in found.checks if one.gives]
    first = min(giving, key=lambda pair: pair[0], default=None)
    return unknown[0] if unknown else first[1] if first else None
