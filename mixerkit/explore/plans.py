"""Mending a whole design: the fewest and cheapest changes that make everything hold, and what each costs."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass

from mixerkit.design import Design
from mixerkit.explore.bought import BOUGHT
from mixerkit.explore.causes import Looking
from mixerkit.explore.collected import seldom_collected
from mixerkit.explore.draft.assumed import assumed, still_drafted
from mixerkit.explore.draft.brief import FIELDS
from mixerkit.explore.draft.settle import Settler
from mixerkit.explore.remedy import FAR, plain_value, written
from mixerkit.explore.settable import choices
from mixerkit.explore.tried import Step, Tried
from mixerkit.fields.told import resembles
from mixerkit.machine import Machine
from mixerkit.shop.parts_list import parts
from mixerkit.units import InputError, as_written, show

__all__ = ["Plan", "changeable", "plans"]

_TRIALS = 1200
"""Machines tried, whole or in part, when looking for causes."""
_GROWN = 150
"""Whole machines tried when every part grows to what is asked of it."""
_KILOGRAM, _LONGER = 0.05, 1.0
"""What a kilogram of metal, and a batch twice as long, weigh against a size moved to its double (common practice)."""
_FELT = 0.02
"""Share by which a batch is longer or shorter from which it is said."""


@dataclass(frozen=True)
class Plan:
    """Changes with which all of a design holds.

    Attributes
    ----------
    values : mapping
        Fields and their values as they stand in a design file.
    changes : int
        How many they are; another motor or box is one.
    goes : tuple of (tuple of str, int)
        Of each change in turn its lines to type, and how many of the checks that failed hold from then on.
    costs : tuple of str
        What it takes besides, such as ``"1.3 kg more metal"``.
    rank : tuple of float
        Orders plans, the fewest and cheapest first.
    """

    values: Mapping[str, object]
    changes: int
    goes: tuple[tuple[tuple[str, ...], int], ...]
    costs: tuple[str, ...]
    rank: tuple[float, ...]


def changeable(design: Design, keep: Iterable[str] = (), free: Iterable[str] = ()) -> set[str]:
    """Name what may be changed of a design: its choices, and a motor or box that was drafted and is not bought.

    Parameters
    ----------
    design : Design
    keep : iterable of str
        Fields, or whole tables such as ``"paths.direct"``, that stay as they are.
    free : iterable of str
        Facts that may be changed too; ``"motor"`` or ``"reducer"`` for another one of the tables.

    Returns
    -------
    set of str

    Raises
    ------
    InputError
        If there is no such field.
    """
    fields = {name for name, _ in choices()}
    open_facts = set(assumed(design))
    fields |= {"motor"} if "motor.rated_power" in open_facts else set()
    fields |= {"reducer"} if "reducer.ratio" in open_facts else set()
    for option, names in (("--keep", keep), ("--free", free)):
        for name in names:
            inside = {one for one in FIELDS if one == name or one.startswith(f"{name}.")}
            if not inside:
                raise InputError(
                    f"{option} {as_written(name)}: there is no such field{resembles(name, FIELDS)}; a field of the "
                    'design is wanted, for example "shaft_1.diameter".'
                )
            if name in BOUGHT:
                inside = {name}
            fields = fields - inside if option == "--keep" else fields | inside
    return fields


@seldom_collected()
def plans(
    found: Machine,
    keep: Iterable[str] = (),
    free: Iterable[str] = (),
    progress: Callable[[str], None] = lambda _: None,
) -> list[Plan]:
    """Find the fewest and cheapest changes with which all of a design holds.

    Parameters
    ----------
    found : Machine
    keep, free : iterable of str
        See :func:`changeable`.
    progress : callable
        Told in words what is being done.

    Returns
    -------
    list of Plan
        Each tried on the whole machine; best first. None where none was found, or nothing fails.

    Raises
    ------
    InputError
        If there is no such field to keep or to free.

    Examples
    --------
    >>> thin = Machine(Design.demo("thin_shaft"))
    >>> plans(thin, keep=["paddles"])[0].goes[0][0]
    ('shaft_2.diameter = "35 mm"',)
    """
    looking = Looking(found, changeable(found.design, keep, free), _TRIALS, progress)
    holding = looking.run()
    if not holding and not looking.root.holds:
        progress("letting every part grow to what is asked of it")
        holding = _grown(looking)
    said = [set(one.values) for one in holding]
    return sorted(
        (
            _plan(looking, one)
            for one in holding
            # what does with fewer fields needs no more
            if not any(fewer < one.values.keys() for fewer in said)
        ),
        key=lambda one: one.rank,
    )


def _grown(looking: Looking) -> list[Tried]:
    """All parts grown to what is asked of them, and of that only what it does not hold without."""
    settler = Settler(looking.design, lambda name: name in looking.fields, _GROWN)
    best = settler.run().design
    changed = [
        name for name in FIELDS if plain_value(looking.design, name) != plain_value(best, name)
    ]
    steps = tuple(Step({name: _as_typed(best, name)}) for name in changed)
    looking.trials += len(steps) + 1
    there = looking.put(steps) if steps else None
    return [looking.pruned(there)] if there is not None and there.holds else []


def _as_typed(design: Design, dotted: str) -> object:
    record, name, kind = design.field(dotted)
    return kind.write(record.given(name))


def _plan(looking: Looking, one: Tried) -> Plan:
    """A machine that holds as a plan, what relieves most coming first."""
    goes, left, steps = [], set(looking.root.bad), list(one.steps)
    done: tuple[Step, ...] = ()
    looking.trials += len(steps) ** 2
    while steps:
        tried = [(looking.put((*done, step)), step) for step in steps]
        there, step = min(
            ((each, step) for each, step in tried if each is not None),
            key=lambda pair: len(left & pair[0].bad.keys()),
            default=(one, steps[0]),
        )
        steps.remove(step)
        done = (*done, step)
        stay = left & there.bad.keys()
        lines = tuple(written(name, value) for name, value in step.values.items())
        goes.append((lines, len(left) - len(stay)))
        left = stay
    design = looking.design
    facts = sum(design.field(name)[2].role == "fact" for name in one.values)
    drafted = still_drafted(design)
    own = sum(name not in drafted for name in one.values)
    whole = one.machine
    kilograms = _metal(whole) - _metal(looking.found)
    longer = _longer(looking.found, whole)
    dear = one.size + _KILOGRAM * max(kilograms, 0.0) + _LONGER * max(longer, 0.0)
    return Plan(
        one.values,
        one.changes,
        tuple(goes),
        tuple(_costs(one, kilograms, longer, design)),
        (one.changes, one.size > FAR, facts, own, dear),
    )


def _metal(machine: Machine) -> float:
    """Mass in kg of what is made."""
    return float(sum(one.count * one.mass for one in parts(machine.spec, None)))


def _longer(before: Machine, after: Machine) -> float:
    """By what share a batch takes longer."""
    was, now = before.batch.minutes, after.batch.minutes
    return now / was - 1 if was > 0 else 0.0


def _costs(one: Tried, kilograms: float, longer: float, design: Design) -> list[str]:
    """What a plan takes besides the typing."""
    said = [f"another {step.thing} is bought" for step in one.steps if step.thing]
    if abs(kilograms) >= 0.1:
        more = "more" if kilograms > 0 else "less"
        said.append(f"{show(abs(kilograms), 'kg', design.show_units, 2)} {more} metal")
    if abs(longer) >= _FELT:
        said.append(f"a batch takes {abs(longer):.0%} {'longer' if longer > 0 else 'less time'}")
    if one.size > FAR:
        said.append("a size moves far: look whether that is still the machine you want")
    return said
