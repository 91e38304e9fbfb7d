"""What stands against a brief of which no draft holds: which given facts, and the least change of one that frees it."""

from __future__ import annotations

from collections.abc import Callable
from contextlib import suppress
from dataclasses import dataclass, replace

from mixerkit.explore.draft.brief import FIELDS, NEEDED, Brief, plain
from mixerkit.explore.draft.drafting import Attempt, best_of, in_one_way
from mixerkit.explore.draft.sizes import settable
from mixerkit.explore.reads import made_by
from mixerkit.explore.remedy import written
from mixerkit.explore.sizes import whole
from mixerkit.fields.kinds import NumberKind, QuantityKind
from mixerkit.shop.workshop import Workshop
from mixerkit.units import InputError

__all__ = ["Conflict", "conflict"]

_MOST = 8
"""Given fields that are freed in turn."""
_HALVED = 3
"""Times that the way from the given value to one that holds is halved."""
_EASIER = {
    "supply.socket_current": (1.3, 1.7, 2.2),
    "batch.mass": (0.85, 0.7, 0.5),
    "clay.cone_penetration": (1.15, 1.35, 1.7),
    "clay.rod_load": (0.8, 0.6, 0.4),
    "clay.vane_torque": (0.8, 0.6, 0.4),
    "clay.water_content": (1.04, 1.08, 1.15),
}
"""Shares of facts that a brief cannot do without, each easier than the one before."""
_USUAL = (1.0, 1.0)
"""Way of drafting with paddles and shafts as usual."""
_Holds = Callable[[Brief], Attempt | None]
"""The draft of a brief that holds, if there is one."""
_LEFT = ("name", "show_units", "date", "clay.", "want.")
"""What no machine hangs on, or what is measured in one with others."""


@dataclass(frozen=True)
class Conflict:
    """What stands against each other, and what would free it.

    Attributes
    ----------
    against : tuple of str
        Given fields that what fails hangs on.
    field : str
        The one whose change frees it; empty where none was found.
    value : object
        The value nearest to the given one with which a draft holds, as it stands in a file.
    attempt : Attempt or None
        The draft that holds with it.
    """

    against: tuple[str, ...]
    field: str = ""
    value: object = None
    attempt: Attempt | None = None

    @property
    def line(self) -> str:
        """The change ready to type."""
        return written(self.field, self.value) if self.field else ""


def conflict(
    brief: Brief, attempt: Attempt, shop: Workshop | None, progress: Callable[[str], None]
) -> Conflict:
    """Find what stands against a brief.

    Parameters
    ----------
    brief : Brief
    attempt : Attempt
        Its best draft, which does not hold.
    shop : Workshop or None
    progress : callable
        Told in words what is being done.

    Returns
    -------
    Conflict
        Its change was tried: a draft of the brief with it holds.
    """
    against = _against(brief, attempt)
    # ways of drafting that are likeliest for a brief much like this one
    ways = tuple(dict.fromkeys((attempt.way, _USUAL)))

    def holds(changed: Brief) -> Attempt | None:
        tried = (in_one_way(changed, shop, way) for way in ways)
        return next((one for one in tried if one and one.badness == 0), None)

    for name in against[:_MOST]:
        progress(f"trying another {name}")
        value = _value(brief, name, holds)
        if value is not None:
            value = _nearer(brief, name, value, holds)
            found = _whole(_with(brief, name, value), shop)
            if found:
                return Conflict(against, name, value, found)
    return Conflict(against)


def _whole(brief: Brief, shop: Workshop | None) -> Attempt | None:
    """The draft of a brief as it is drafted by itself, if it holds."""
    with suppress(InputError):
        found = best_of(brief, shop)
        return found if found and found.badness == 0 else None
    return None


def _against(brief: Brief, attempt: Attempt) -> tuple[str, ...]:
    """Given fields that failing checks read, those that most of them read first."""
    made = made_by(attempt.machine)
    count: dict[str, int] = {}
    for check in attempt.machine.checks:
        if check.verdict == "fails":
            for name in made[check.id][1]:
                count[name] = count.get(name, 0) + 1
    named = [
        name
        for name in brief.given
        if name in count and (name in _EASIER or not name.startswith(_LEFT))
    ]
    # a choice is sooner changed than a fact, and a fact of the batch than the clay
    return tuple(
        sorted(
            named, key=lambda name: (FIELDS[name].role != "choice", name in NEEDED, -count[name])
        )
    )


def _value(brief: Brief, name: str, holds: _Holds) -> object:
    """A value of a given field with which a draft holds; none where none does."""
    if name in _EASIER:
        given = brief.number(name)
        eased = (_typed(brief, name, given * share) for share in reversed(_EASIER[name]))
        return next((value for value in eased if holds(_with(brief, name, value))), None)
    freed = None if name in NEEDED else holds(_without(brief, name))
    if freed is None:
        return None
    record, own, kind = freed.machine.design.field(name)
    return kind.write(record.given(own))


def _typed(brief: Brief, name: str, number: float) -> object:
    """A number as it stands in a file."""
    kind = FIELDS[name]
    if isinstance(kind, QuantityKind):
        return settable(name, number, brief.system)
    return whole(round(number, 3))


def _nearer(brief: Brief, name: str, value: object, holds: _Holds) -> object:
    """Halve the way between the given value and one that holds."""
    kind = FIELDS[name]
    if not isinstance(kind, (QuantityKind, NumberKind)):
        return value
    fails = float(brief.number(name))
    good = plain(name, value)
    for _ in range(_HALVED):
        middle = _typed(brief, name, (fails + good) / 2)
        number = plain(name, middle)
        if not min(fails, good) < number < max(fails, good):
            break
        if holds(_with(brief, name, middle)):
            good, value = number, middle
        else:
            fails = number
    return value


def _with(brief: Brief, name: str, value: object) -> Brief:
    return replace(brief, given={**brief.given, name: value})


def _without(brief: Brief, name: str) -> Brief:
    return replace(brief, given={one: value for one, value in brief.given.items() if one != name})
