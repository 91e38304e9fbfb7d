"""Drafting: first sizes, motor and box, then what checks ask for until all of them hold."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass
from itertools import islice
from typing import Any

from mixerkit.design import Design
from mixerkit.explore.draft.brief import FIELDS, Brief
from mixerkit.explore.draft.first import first_sizes
from mixerkit.explore.draft.follow import following
from mixerkit.explore.draft.power import BOUGHT, choices_of_power, first_power, fits
from mixerkit.explore.draft.settle import Settler
from mixerkit.explore.draft.sizes import Sizes
from mixerkit.explore.remedy import badness
from mixerkit.load.clay import clay_strength
from mixerkit.machine import Machine
from mixerkit.shop.workshop import Workshop
from mixerkit.spec import Clay
from mixerkit.units import InputError

__all__ = ["Attempt", "attempts", "best_of", "draft_once", "nested"]

_WAYS = ((1.0, 1.0), (1.0, 1.15), (1.0, 1.3), (0.8, 1.15), (0.8, 1.3), (0.8, 1.5))
"""Shares of the usual width of a paddle, and how many times as far apart the shafts stand, tried in turn: both ask
less torque of the same batch."""
_STIFF = 38.0
"""Strength of clay in kPa from which shafts are set further apart at once."""
_TRIALS = 60
"""Whole machines tried in each attempt."""
_TURNS = 3
"""Times that motor and box are chosen anew for what the parts have grown to."""
_SAID, _BOUGHT = ("motor.kind", "reducer.kind"), ("motor.", "reducer.")
_USUAL = "of a usual one of this size; read it on yours"
_DRIVE = ("motor", "motor drive", "reducer", "jam")
_ROWS = 40
"""Motors and boxes tried in each attempt."""
_BEGUN = {
    "paths.direct.position": 40.0,
    "paths.idler.position": 200.0,
    "housing.plate_spacing": 400.0,
    "bearings.span": 900.0,
    "paddles.root_radius": 20.0,
}
"""What a design cannot be without, until it is worked out from the rest."""


def _silent(_words: str) -> None:
    """Say nothing of what is being done."""


@dataclass(frozen=True)
class Attempt:
    """One whole design of a brief.

    Attributes
    ----------
    machine : Machine
    reasons : mapping of str to str
        Why each drafted field has its value, in a few words.
    badness : float
        Nought where all holds.
    """

    machine: Machine
    reasons: Mapping[str, str]
    badness: float


def attempts(
    brief: Brief, shop: Workshop | None, progress: Callable[[str], None] = _silent
) -> Iterator[Attempt]:
    """Draft a brief in several ways, the likeliest first, until one holds.

    Parameters
    ----------
    brief : Brief
    shop : Workshop or None
        Gears are drafted for its cutters, where there is one.
    progress : callable
        Told in words what is being done.

    Yields
    ------
    Attempt
    """
    ways = sorted(_WAYS, key=lambda way: way[1] < 1.3) if _strength(brief) > _STIFF else _WAYS
    for lean, wide in ways:
        progress(
            f"drafting with paddles {lean:.0%} as wide and shafts {wide:.0%} as far apart as usual"
        )
        try:
            found = draft_once(brief, shop, lean, wide)
        except InputError:
            # sizes that no file can hold: another way may
            continue
        yield found
        if found.badness == 0:
            return


def best_of(
    brief: Brief, shop: Workshop | None, progress: Callable[[str], None] = _silent
) -> Attempt | None:
    """The attempt that holds, or else the one that is nearest to; none where no design can be written at all."""
    return min(attempts(brief, shop, progress), key=lambda one: one.badness, default=None)


def _strength(brief: Brief) -> float:
    """Strength of the clay in kPa by the way the brief says it was found."""
    stated = {
        name.removeprefix("clay."): one
        for name, one in brief.given.items()
        if name.startswith("clay.")
    }
    return clay_strength(Clay.from_table(stated, "clay")).strength


def draft_once(
    brief: Brief, shop: Workshop | None, lean: float = 1.0, wide: float = 1.0
) -> Attempt:
    """Draft a brief in one way.

    Parameters
    ----------
    brief : Brief
    shop : Workshop or None
    lean, wide : float
        See :func:`mixerkit.explore.draft.first.first_sizes`.

    Returns
    -------
    Attempt

    Raises
    ------
    InputError
        If what is given leads to sizes that no file can hold.
    """
    sizes = Sizes(brief)
    first_sizes(sizes, shop, _strength(brief), lean, wide)
    sizes.put("name", "Our clay mixer", "what it is called on sheets")
    for name, begun in _BEGUN.items():
        sizes.put(name, begun, "")
    design = Design.from_table(nested({**first_power(brief), **sizes.values, **brief.given}))
    settler = Settler(design, lambda name: name not in brief.given, _TRIALS)
    machine = _powered(brief, settler)
    return Attempt(
        machine,
        _reasons(brief, sizes, settler, machine.design),
        _bad(machine),
    )


def _powered(brief: Brief, settler: Settler) -> Machine:
    """The best machine with a motor and a box for it: parts that grow may ask for another one."""
    found = []
    for _ in range(_TURNS):
        rows = islice(choices_of_power(brief, settler.design), _ROWS)
        carried = (fits(settler.design, values) for values in rows)
        settler.begin(next((one for one in carried if one), settler.design))
        settler.tried = 0
        found.append(settler.run())
        if not any(one.verdict == "fails" and one.stage in _DRIVE for one in found[-1].checks):
            break
    return min(found, key=_bad)


def _bad(machine: Machine) -> float:
    """How far a machine is from holding."""
    return sum(map(badness, machine.checks))


def _reasons(brief: Brief, sizes: Sizes, settler: Settler, design: Design) -> dict[str, str]:
    """Why each field that was drafted has its value; a field left at the kit's default is none."""
    follows = {name: why for name, (_, why) in following(design).items()}
    found: dict[str, str] = {}
    for name in FIELDS:
        if name in brief.given:
            continue
        if name in settler.why:
            found[name] = f"for {settler.why[name]}"
        elif name in follows:
            found[name] = follows[name]
        elif name in sizes.reasons:
            found[name] = sizes.reasons[name]
        elif name in _SAID or (name.startswith(_BOUGHT) and not _default(design, name)):
            found[name] = BOUGHT.get(name, _USUAL)
    return found


def _default(design: Design, dotted: str) -> bool:
    """Whether a field has the value that a file may leave out."""
    record, name, _ = design.field(dotted)
    return bool(getattr(record, name) == type(record).__dataclass_fields__[name].default)


def nested(values: Mapping[str, object]) -> dict[str, Any]:
    """Dotted names and values as the tables of a file."""
    whole: dict[str, Any] = {}
    for dotted, value in values.items():
        *outer, last = dotted.split(".")
        inner = whole
        for one in outer:
            inner = inner.setdefault(one, {})
        inner[last] = value
    return whole
