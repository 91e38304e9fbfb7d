"""What is varied when whole machines are compared: fields with the values each may take, and draws from them."""

from __future__ import annotations

import json
import math
from collections.abc import Collection, Mapping, Sequence
from dataclasses import dataclass
from itertools import product

import numpy as np

from mixerkit.design import Design
from mixerkit.explore.bought import BOUGHT, bought
from mixerkit.explore.draft.assumed import still_drafted
from mixerkit.explore.draft.follow import following
from mixerkit.explore.settable import Axis, axes
from mixerkit.fields import Kind
from mixerkit.units import InputError, as_written

__all__ = ["Varied", "Vary", "draws", "varied"]

Vary = Mapping[str, object] | Collection[str] | None
"""Fields with lists of values or ranges, names of fields, or nothing: what the maker has not fixed."""

_MATTER = (
    "trough.length",
    "paddles.count",
    "paddles.width",
    "paddles.set_angle",
    "motor.run_at",
    "paths.direct.face_width",
    "paths.idler.face_width",
    "paths.direct.material",
    "paths.idler.material",
    "clutch.outer_diameter",
    "shaft_1.diameter",
    "shaft_2.diameter",
    "shaft_1.material",
    "shaft_2.material",
    "sleeve.wall",
    "bearings.series",
    "housing.plate_thickness",
    "housing.wall_distance",
)
"""Choices that tell machines apart, where nobody says what to vary (common practice)."""
_BARS = frozenset({"shaft_1.diameter", "shaft_2.diameter"})
"""What follows from others, but may be chosen too."""
_NEAR = (0.8, 1.25)
"""Values near a design's own, as shares of it (common practice)."""
_BESIDE = 2
"""Places beside the design's own that are near in any case."""
_MOST = 9
"""Values of one axis that are looked at."""
_AT_ONCE = 3
"""Fields changed at once where the kit chooses them: with more of them changed nothing holds any longer."""
_TRIES = 50
"""Draws tried for each that is wanted, until no new one is looked for."""
Option = Mapping[str, object]


@dataclass(frozen=True)
class Varied:
    """What is varied.

    Attributes
    ----------
    options : mapping of str to tuple of mapping
        By what is varied, what each of its values puts into a design, as it stands in a file.
    at_once : int
        How many of them change in one draw, at most.
    """

    options: Mapping[str, tuple[Option, ...]]
    at_once: int


def varied(
    design: Design, vary: Vary, free: Collection[str] = (), *, follow: bool = True
) -> Varied:
    """Read what is to be varied.

    Parameters
    ----------
    design : Design
    vary : mapping, collection of str, or None
        Field to a list of values, or to a tuple of the least and greatest; names of fields for settable values
        near the design's own; ``"motor"`` and ``"reducer"`` for other rows of their tables. None for what the
        kit drafted and still stands so; where it drafted nothing, for choices that matter.
    free : collection of str
        Facts and practice that may be varied all the same.
    follow : bool
        Whether what follows from others is worked out anew, and then not varied unless named.

    Returns
    -------
    Varied

    Raises
    ------
    InputError
        With one sentence for each field that cannot be varied so.

    Examples
    --------
    >>> demo = Design.demo()
    >>> varied(demo, {"shaft_2.diameter": ("45 mm", "50 mm")}).options["shaft_2.diameter"]
    ({'shaft_2.diameter': '45 mm'}, {'shaft_2.diameter': '48 mm'}, {'shaft_2.diameter': '50 mm'})
    """
    if isinstance(vary, str):
        raise InputError(
            f"vary: {as_written(vary)} is one text; a list of fields is wanted, for example "
            '["shaft_2.diameter"].'
        )
    for name in free:
        design.field(name)
    chosen = _unfixed(design, follow=follow) if vary is None else vary
    if not chosen:
        raise InputError(
            'vary: there is nothing to vary; a field is wanted, for example "shaft_2.diameter".'
        )
    wanted = chosen if isinstance(chosen, Mapping) else dict.fromkeys(chosen)
    found: dict[str, tuple[Option, ...]] = {}
    faults: list[str] = []
    for name, values in wanted.items():
        try:
            found[name] = tuple(_options(design, str(name), values, free))
        except InputError as error:
            faults += error.messages
    if faults:
        raise InputError(*faults)
    return Varied(found, _AT_ONCE if vary is None else len(found))


def draws(of: Varied, count: int, seed: int) -> list[dict[str, object]]:
    """Draw values, no draw twice; the first is the design as it is.

    Parameters
    ----------
    of : Varied
    count : int
        How many there are at most; where there are no more combinations, all of them in order.
    seed : int
        The same seed gives the same draws.

    Returns
    -------
    list of dict
        Fields and values as they stand in a file; with the design's own value where that was drawn.
    """
    names, rows = list(of.options), list(of.options.values())
    whole = of.at_once >= len(names)
    if whole and math.prod(map(len, rows)) < count:
        return [{}, *(_joined(one) for one in product(*rows))][:count]
    found: dict[str, dict[str, object]] = {"{}": {}}
    random = np.random.default_rng(seed)
    for _ in range(_TRIES * count):
        if len(found) >= count:
            break
        places = list(range(len(names)))
        if not whole:
            many = int(random.integers(1, of.at_once + 1))
            places = sorted(random.choice(len(names), many, replace=False).tolist())
        drawn = _joined([rows[k][int(random.integers(len(rows[k])))] for k in places])
        found.setdefault(json.dumps(drawn, sort_keys=True), drawn)
    return list(found.values())


def _joined(options: Sequence[Option]) -> dict[str, object]:
    return {name: value for option in options for name, value in option.items()}


def _unfixed(design: Design, *, follow: bool) -> list[str]:
    """What the maker has not fixed: drafted choices as they were drafted, else those that matter."""
    left = frozenset(still_drafted(design) if design.drafted else _MATTER)
    follows = frozenset(following(design)) - _BARS if follow else frozenset()
    return [
        name
        for name in sorted(left - follows)
        if design.field(name)[2].role == "choice" and axes(design, name)
    ]


def _options(design: Design, name: str, values: object, free: Collection[str]) -> list[Option]:
    """What each value of a field puts into a design."""
    if name in BOUGHT:
        if values is not None:
            raise InputError(
                f"{name}: is varied by rows of its table; its name alone is wanted, without values."
            )
        return [{}, *bought(design, name)]
    kind = design.field(name)[2]
    _refuse_role(name, kind, free)
    if values is None:
        return _each(name, kind, _near(design, name))
    if isinstance(values, tuple):
        return _each(name, kind, _between(design, name, kind, values))
    if not isinstance(values, list) or not values:
        raise InputError(
            f"{name}: {as_written(values)} does not fit; a list of values is wanted, or two in round brackets for a "
            "range."
        )
    return _each(name, kind, values)


def _refuse_role(name: str, kind: Kind, free: Collection[str]) -> None:
    if name in free or (kind.role == "choice" and "." in name):
        return
    what = {"choice": "no size", "fact": "a fact", "practice": "practice", "wanted": "wanted"}
    thing = name.partition(".")[0]
    instead = f' or "{thing}" for other rows of its table' if thing in BOUGHT else ""
    raise InputError(
        f"{name}: is {what[kind.role]}, and only choices are varied; name one, for example shaft_2.diameter{instead}."
    )


def _each(name: str, kind: Kind, values: Sequence[object]) -> list[Option]:
    """Values as they stand in a file, each once, and each one that the field can have."""
    found: dict[str, Option] = {}
    for value in values:
        written = kind.write(kind.read_at(value, name))
        found.setdefault(json.dumps(written), {name: written})
    if not found:
        raise InputError(
            f"{name}: the kit knows no other value for it; give a list of values instead of its name, "
            f"such as {{{name!r}: [...]}}."
        )
    return list(found.values())


def _near(design: Design, name: str) -> list[object]:
    """Settable values near the design's own, and that itself."""
    record, own, kind = design.field(name)
    rows = axes(design, name)
    found: list[object] = [kind.write(record.given(own))] if rows else []
    for axis in rows:
        found += [axis.write(place) for place in _places_near(axis)]
    return found


def _places_near(axis: Axis) -> list[int]:
    if axis.values is None:
        return list(range(min(axis.count, _MOST)))
    places = np.arange(axis.count)
    own = float(np.interp(axis.here, places, axis.values))
    low, high = sorted((_NEAR[0] * own, _NEAR[1] * own))
    near = (axis.values >= low) & (axis.values <= high) | (np.abs(places - axis.here) <= _BESIDE)
    kept = np.flatnonzero(near)
    thinned = np.unique(np.linspace(0, len(kept) - 1, min(_MOST, len(kept))).round().astype(int))
    return [int(place) for place in kept[thinned]]


def _between(design: Design, name: str, kind: Kind, ends: tuple[object, ...]) -> list[object]:
    """Settable values of a range."""
    rows = axes(design, name)
    values = rows[0].values if len(rows) == 1 else None
    if values is None or len(ends) != 2:
        raise InputError(
            f"{name}: {as_written(ends)} is no range; "
            + (
                "its values have no order, so that a list of them is wanted."
                if values is None
                else "a least and a greatest value are wanted, for example "
                f"({kind.example!r}, {kind.example!r})."
            )
        )
    low, high = (_number(kind, name, end) for end in ends)
    if low > high:
        raise InputError(
            f"{name}: {as_written(ends[0])} is more than {as_written(ends[1])}; the least value of a range stands first."
        )
    slack = 1e-9 * max(abs(low), abs(high), 1.0)
    inside = np.flatnonzero((values >= low - slack) & (values <= high + slack))
    if not len(inside):
        raise InputError(
            f"{name}: nothing that can be bought or set lies between {as_written(ends[0])} and {as_written(ends[1])}; "
            f"a wider range is wanted, or a list of values."
        )
    return [rows[0].write(int(place)) for place in inside]


def _number(kind: Kind, name: str, raw: object) -> float:
    value = kind.number(kind.read_at(raw, name))
    if not isinstance(value, (int, float)):
        raise TypeError(f"{name} is no number")
    return float(value)
