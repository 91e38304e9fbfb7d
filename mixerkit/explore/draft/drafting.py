"""Drafting: first sizes, motor and box, then what checks ask for until all of them hold."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Sequence
from contextlib import suppress
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

__all__ = ["Attempt", "attempts", "best_of", "in_one_way", "nested"]

_WAYS = ((1.0, 1.0), (1.0, 1.15), (1.0, 1.3), (0.8, 1.15), (0.8, 1.3), (0.8, 1.5))
"""Shares of the usual width of a paddle, and how many times as far apart the shafts stand, tried in turn: both ask
less torque of the same batch."""
_STIFF = 38.0
"""Strength of clay in kPa from which shafts are set further apart at once."""
_TRIALS, _MORE = (60, 15, 15), (60, 60)
"""Whole machines tried in each attempt, motor and box being chosen anew each time for what the parts have grown to;
and once more for those that came nearest, where none holds."""
_NEAREST = 2
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
    way : tuple of float
        Share of the usual width of a paddle, and how many times as far apart as usual the shafts stand.
    """

    machine: Machine
    reasons: Mapping[str, str]
    badness: float
    way: tuple[float, float]


def attempts(
    brief: Brief,
    shop: Workshop | None,
    progress: Callable[[str], None] = _silent,
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

    Raises
    ------
    InputError
        If what the brief states lets no design be written in any way.
    """
    begun, near = list[_Begun](), list[tuple[float, _Begun]]()
    refused: InputError | None = None
    for lean, wide in _ways(brief):
        progress(
            f"drafting with paddles {lean:.0%} as wide and shafts {wide:.0%} as far apart as usual"
        )
        try:
            one = _begin(brief, shop, lean, wide)
            # parts grown to what no motor there is turns would be grown in vain
            if not one.powered:
                begun.append(one)
                continue
            found = one.grown()
        except InputError as error:
            # sizes that no file can hold: another way may
            refused = refused or error
            continue
        yield found
        if found.badness == 0:
            return
        near.append((found.badness, one))
    if refused and not near and not begun:
        raise refused
    near.sort(key=lambda one: one[0])
    for _, one in near[:_NEAREST]:
        progress("growing the parts of the nearest one further")
        found = one.grown(_MORE)
        yield found
        if found.badness == 0:
            return
    for one in begun[:1]:
        with suppress(InputError):
            yield one.grown()


def _ways(brief: Brief) -> Sequence[tuple[float, float]]:
    """Ways to draft a brief, the likeliest first."""
    if _strength(brief) > _STIFF:
        return sorted(_WAYS, key=lambda way: way[1] < 1.3)
    return _WAYS


def best_of(
    brief: Brief,
    shop: Workshop | None,
    progress: Callable[[str], None] = _silent,
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


def in_one_way(brief: Brief, shop: Workshop | None, way: tuple[float, float]) -> Attempt | None:
    """The attempt in one way, see :class:`Attempt`; none where no motor turns it or no file can hold its sizes."""
    try:
        one = _begin(brief, shop, *way)
        return one.grown() if one.powered else None
    except InputError:
        return None


@dataclass(frozen=True)
class _Begun:
    """A brief with first sizes and a motor and a box for them, where there are such."""

    brief: Brief
    sizes: Sizes
    settler: Settler
    powered: bool
    way: tuple[float, float]

    def grown(self, turns: Sequence[int] = _TRIALS) -> Attempt:
        """Let all of it grow to what is asked of it; parts that grow may ask for another motor or box."""
        found: list[Machine] = []
        for turn, trials in enumerate(turns):
            if turn or self.settler.tried:
                _choose(self.brief, self.settler)
            self.settler.trials, self.settler.tried = trials, 0
            found.append(self.settler.run())
            if not any(one.verdict == "fails" and one.stage in _DRIVE for one in found[-1].checks):
                break
        machine = min(found, key=_bad)
        reasons = _reasons(self.brief, self.sizes, self.settler, machine.design)
        return Attempt(machine, reasons, _bad(machine), self.way)


def _begin(brief: Brief, shop: Workshop | None, lean: float, wide: float) -> _Begun:
    """First sizes, and what turns them."""
    sizes = Sizes(brief)
    first_sizes(sizes, shop, _strength(brief), lean, wide)
    sizes.put("name", "Our clay mixer", "what it is called on sheets")
    for name, begun in _BEGUN.items():
        sizes.put(name, begun, "")
    design = Design.from_table(nested({**first_power(brief), **sizes.values, **brief.given}))
    settler = Settler(design, lambda name: name not in brief.given, _TRIALS[0])
    return _Begun(brief, sizes, settler, _choose(brief, settler), (lean, wide))


def _choose(brief: Brief, settler: Settler) -> bool:
    """Begin with the first motor and box that carry the design; whether there are such."""
    rows = islice(choices_of_power(brief, settler.design), _ROWS)
    carried = (fits(settler.design, values) for values in rows)
    chosen = next((one for one in carried if one), None)
    settler.begin(chosen or settler.design)
    return chosen is not None


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
