"""What a maker can set a field to: sizes in stock and on the rule, rows of tables, whole counts.

A field is moved along an :class:`Axis`, a row of values that can be bought, cut, set or typed, each
as it stands in a design file. A list has an axis for each of its numbers.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Iterable, Iterator, Mapping
from dataclasses import dataclass
from fractions import Fraction
from typing import Any

import numpy as np

from mixerkit.design import LISTED, Design
from mixerkit.drive.jam import usual_inertia
from mixerkit.fields import Kind, Record
from mixerkit.fields.kinds import NumberKind, QuantityKind, WholeKind, WordsKind, YesNoKind
from mixerkit.fields.knobs import knob_range
from mixerkit.fields.lists import NumbersKind, PlacesKind, QuantitiesKind, WholesKind
from mixerkit.fields.nested import SectionKind
from mixerkit.tables import Row, table
from mixerkit.units import Span

__all__ = [
    "BOUGHT",
    "Axis",
    "axes",
    "bought",
    "box_plate",
    "choices",
    "motor_plate",
    "settled",
]

BOUGHT = ("motor", "reducer")
"""Things bought whole: their numbers change together, by a row of their table."""
_IN_STOCK = {
    "shaft_1.diameter": "stock_round",
    "shaft_2.diameter": "stock_round",
    "shaft_1.step_diameters": "stock_round",
    "shaft_2.step_diameters": "stock_round",
    "housing.idler_pin": "stock_round",
    "housing.dowel": "pins",
    "sleeve.pin_diameter": "pins",
    "hubs.pin_diameter": "pins",
}
"""Round bar and round pins, and the table of what can be bought."""
_FINE = {
    "fuse.pin_diameter": (0.1, 0.005),
    "paths.direct.thinning": (0.01, 0.001),
    "paths.idler.thinning": (0.01, 0.001),
    "clutch.overlap": (0.5, 1 / 32),
    "trough.wall_thickness": (0.5, 1 / 32),
    "sleeve.wall": (0.5, 1 / 32),
    "bearings.bush_wall": (0.5, 1 / 32),
    "shaft_1.fillet": (0.5, 1 / 32),
    "shaft_2.fillet": (0.5, 1 / 32),
    "paddles.thickness": (0.5, 1 / 32),
}
"""Steps in mm and in inches of what is set finer than a rule reads (common practice)."""
_STEPS = {
    "mm": (1.0, 1 / 16),
    "deg": (1.0, 1.0),
    "Hz": (1.0, 1.0),
    "N": (10.0, 2.0),
    "N*m": (10.0, 5.0),
}
"""Steps by the unit a field declares, in that unit and in its twin of :data:`_TWINS` (common practice)."""
_TWINS = {"mm": ("in", 25.4), "N": ("lbf", 4.4482216152605), "N*m": ("lbf*ft", 1.3558179483314)}
"""Units an inch maker sets, and how much of the declared unit each is (NIST SP 811, appendix B)."""
_SHIFT_STEP = 0.05
_LONGEST = 20_000
"""Values on one axis at most; a coarser step is taken where there would be more."""


@dataclass(frozen=True)
class Axis:
    """A row of values for one field.

    Attributes
    ----------
    field : str
        Dotted name.
    count : int
        How many values there are.
    write : callable
        Gives the value of a place as it stands in a design file.
    here : float
        Place of the value the design has, between two places where it has none of them.
    values : numpy.ndarray or None
        Values as plain numbers in the declared unit, rising; none where they have no order.
    """

    field: str
    count: int
    write: Callable[[int], object]
    here: float
    values: np.ndarray | None = None

    def place(self, value: float) -> int:
        """Place of the value nearest to a plain number on the side away from the design's own."""
        if self.values is None:
            raise ValueError(f"{self.field} has no order")
        slack = 1e-9 * max(abs(value), 1.0)
        if value >= self.values[min(max(math.ceil(self.here), 0), self.count - 1)]:
            found = int(np.searchsorted(self.values, value - slack))
        else:
            found = int(np.searchsorted(self.values, value + slack, side="right")) - 1
        return min(max(found, 0), self.count - 1)


def choices(record: type[Record] = Design, prefix: str = "") -> Iterator[tuple[str, Kind]]:
    """Name every field that is the maker's choice, and its kind.

    Examples
    --------
    >>> fields = dict(choices())
    >>> "shaft_1.diameter" in fields, "clay.water_content" in fields, "safety.hub" in fields
    (True, False, False)
    """
    for name, one in record.__dataclass_fields__.items():
        kind = one.metadata["kind"]
        if isinstance(kind, SectionKind):
            yield from choices(kind.of, f"{prefix}{name}.")
        elif kind.role == "choice" and prefix:
            yield f"{prefix}{name}", kind


def axes(design: Design, dotted: str) -> list[Axis]:
    """Give the axes along which a design's field can be moved.

    Parameters
    ----------
    design : Design
    dotted : str
        A field, such as ``"shaft_1.diameter"``.

    Returns
    -------
    list of Axis

    Examples
    --------
    >>> [one.write(0) for one in axes(Design.demo(), "clutch.dogs")]
    [1]
    """
    record, name, kind = design.field(dotted)
    value = getattr(record, name)
    for kinds, make in _MAKERS:
        if isinstance(kind, kinds):
            return list(make(design, dotted, kind, value))
    return []


def settled(design: Design, dotted: str, value: object) -> list[object]:
    """Write a value to begin at as it stands in a file: next to it, on the side away from the design's.

    Parameters
    ----------
    design : Design
    dotted : str
    value : float, or what stands in a file
        A plain number in the unit the field declares.

    Returns
    -------
    list
        For a number the settable value beyond it, then the number itself to what a file shows, rounded
        both ways; for all else the value alone.

    Examples
    --------
    >>> settled(Design.demo(), "shaft_1.diameter", 46.3)
    ['48 mm']
    >>> settled(Design.demo(), "clutch.overlap", 8.386)
    ['8.5 mm', '8.39 mm', '8.38 mm']
    """
    record, name, kind = design.field(dotted)
    value = value.item() if isinstance(value, np.generic) else value
    if isinstance(kind, WholeKind) and isinstance(value, float) and math.isfinite(value):
        grows = value > getattr(record, name)
        return [math.ceil(value - 1e-9) if grows else math.floor(value + 1e-9)]
    if not isinstance(kind, QuantityKind) or not isinstance(value, (int, float)):
        return [value]
    if not math.isfinite(value):
        return []
    found: list[object] = []
    for axis in axes(design, dotted):
        beyond = axis.place(value)
        found.append(axis.write(beyond))
        if dotted not in _IN_STOCK and not kind.reciprocal:
            found += _exact(kind, value, getattr(record, name), design.show_units)
    return list(dict.fromkeys(found))


def bought(design: Design, thing: str) -> list[dict[str, object]]:
    """List what other motors or boxes of the tables would put into a design, likeliest first.

    A row comes whole. A motor brings its shaft end, and the box the flange and bore for it; the mass
    that hangs on shaft 1 follows. A motor of the table has three phases: where the socket has one, or
    a converter feeds the motor now, a converter feeds it. A box keeps the motor's flange.

    Parameters
    ----------
    design : Design
    thing : str
        One of :data:`BOUGHT`.

    Returns
    -------
    list of dict
        Fields and values as they stand in a file.
    """
    rows = _motors(design) if thing == "motor" else _boxes(design)
    now = design.to_table()
    return [
        changed
        for row in rows
        if (changed := {name: one for name, one in row.items() if _now(now, name) != one})
    ]


def motor_plate(row: Row) -> dict[str, object]:
    """What the plate of a motor of data/tables/motors.csv puts into a design, at 50 Hz.

    Parameters
    ----------
    row : Row

    Returns
    -------
    dict
        Fields and values as they stand in a file.
    """
    one = row.values
    return {
        "motor.kind": "three-phase",
        "motor.rated_power": f"{one['rated_power']:g} kW",
        "motor.rated_speed": f"{one['rated_speed']:g} rpm",
        "motor.rated_frequency": "50 Hz",
        "motor.poles": int(one["poles"]),
        "motor.efficiency": one["efficiency"],
        "motor.start_torque_ratio": _whole(one["start_torque_ratio"]),
        "motor.pull_up_torque_ratio": min(one["start_torque_ratio"], 1.6),
        "motor.breakdown_torque_ratio": _whole(one["breakdown_torque_ratio"]),
        "motor.shaft_end": f"{one['shaft_end']:g} mm",
    }


def box_plate(row: Row) -> dict[str, object]:
    """What a box of data/tables/reducers.csv puts into a design; its flange goes by the motor.

    Parameters
    ----------
    row : Row

    Returns
    -------
    dict
        Fields and values as they stand in a file.
    """
    one = row.values
    return {
        "reducer.kind": row.kind,
        "reducer.ratio": _whole(one["ratio"]),
        "reducer.efficiency": one["efficiency"],
        "reducer.start_efficiency": one["start_efficiency"],
        "reducer.rated_torque": f"{one['rated_torque']:g} N*m",
        "reducer.thermal_power": f"{one['thermal_power']:g} kW",
        "reducer.output_bore": f"{one['output_bore']:g} mm",
        "reducer.radial_load": f"{one['radial_load']:g} N",
    }


def _now(content: Mapping[str, Any], dotted: str) -> object:
    section, name = dotted.split(".")
    return content[section][name]


def _whole(number: float) -> float | int:
    """A number as it is typed: 80, not 80.0."""
    return int(number) if float(number).is_integer() else float(number)


def _motors(design: Design) -> list[dict[str, object]]:
    motor, supply = design.motor, design.supply
    lone = supply.phases == 1
    at_60 = motor.rated_frequency > 55
    own = min(table("motors"), key=lambda row: abs(row.values["rated_power"] - motor.rated_power))
    found = []
    for row in sorted(
        table("motors"),
        key=lambda row: abs(math.log(row.values["rated_power"] / motor.rated_power)),
    ):
        one = row.values
        if abs(one["rated_power"] / motor.rated_power - 1) < 0.01:
            continue
        lag = 120 * 50 / one["poles"] - one["rated_speed"]
        frequency = 60.0 if at_60 else 50.0
        mass = design.reducer.mass + one["mass"] - own.values["mass"]
        values = motor_plate(row) | {
            "motor.rated_speed": f"{120 * frequency / one['poles'] - lag:g} rpm",
            "motor.rated_frequency": f"{frequency:g} Hz",
            "motor.inertia": f"{usual_inertia(one['rated_power'], one['poles']):.2g} kg*m^2",
            "reducer.input_bore": f"{one['shaft_end']:g} mm",
        }
        if mass > 0:
            values["reducer.mass"] = f"{mass:.3g} kg"
        if lone and motor.fed_by != "frequency converter":
            values |= {
                "motor.fed_by": "frequency converter",
                "motor.run_at": f"{frequency:g} Hz",
            }
        found.append(values)
    return found


def _boxes(design: Design) -> list[dict[str, object]]:
    box = design.reducer
    nearest = min(
        table("reducers"),
        key=lambda row: (row.kind != box.kind, abs(row.values["rated_torque"] - box.rated_torque)),
    )
    found, flange = [], design.motor.to_table()["shaft_end"]
    for row in table("reducers"):
        one = row.values
        alike = (one["ratio"] / box.ratio, one["rated_torque"] / box.rated_torque)
        if row.kind == box.kind and max(abs(share - 1) for share in alike) < 0.01:
            continue
        mass = box.mass + one["mass"] - nearest.values["mass"]
        values = box_plate(row) | {"reducer.input_bore": flange}
        if mass > 0:
            values["reducer.mass"] = f"{mass:.3g} kg"
        unlike = (
            row.kind != box.kind,
            abs(math.log(one["ratio"] / box.ratio)),
            abs(math.log(one["rated_torque"] / box.rated_torque)),
        )
        found.append((unlike, values))
    return [values for _, values in sorted(found, key=lambda pair: pair[0])]


def _ordered(dotted: str, sizes: np.ndarray, value: float, write: Callable[[int], object]) -> Axis:
    below, upto = (int(np.searchsorted(sizes, value + step)) for step in (-1e-9, 1e-9))
    here = float(below) if upto > below else below - 0.5
    return Axis(dotted, len(sizes), write, here, sizes.astype(float))


def _one_size(design: Design, dotted: str, kind: QuantityKind, value: float) -> Iterator[Axis]:
    sizes, write = _sizes(dotted, kind, design.show_units)
    yield _ordered(dotted, sizes, value, lambda k: write(float(sizes[k])))


def _one_number(_design: Design, dotted: str, kind: NumberKind, value: float) -> Iterator[Axis]:
    sizes = np.round(np.linspace(*knob_range(kind), 101), 4)
    yield _ordered(dotted, sizes, value, lambda k: _whole(sizes[k]))


def _one_count(_design: Design, dotted: str, kind: WholeKind, value: int) -> Iterator[Axis]:
    sizes = np.arange(kind.least, kind.most + 1)
    yield _ordered(dotted, sizes, value, lambda k: int(sizes[k]))


def _left_out(design: Design, dotted: str, kind: PlacesKind, _value: object) -> Iterator[Axis]:
    """A list of things at places with one of them taken away."""
    record, name, _ = design.field(dotted)
    written = kind.write(getattr(record, name))
    left = [written[:k] + written[k + 1 :] for k in range(len(written))]
    if left:
        yield Axis(dotted, len(left), lambda k: left[k], -1.0)


def _named(design: Design, dotted: str, kind: Kind, value: object) -> list[Axis]:
    """Rows of a table, options, or the other one of true and false."""
    if dotted in LISTED:
        rows = table(LISTED[dotted])
        fitting = [
            row for row in rows if row.values.get("series", design.show_units) == design.show_units
        ]
        options = [row.values["name"] for row in fitting]
    elif isinstance(kind, YesNoKind):
        options = [False, True]
    elif dotted == "bearings.bush_fit":
        options = sorted({f"{row.hole}/{row.shaft}" for row in table("fit_uses")})
    elif isinstance(kind, WordsKind):
        options = list(kind.options)
    else:
        return []
    others = [one for one in options if one != value]
    return [Axis(dotted, len(others), lambda k: others[k], -1.0)] if others else []


def _counts(
    _design: Design, dotted: str, kind: WholesKind, value: tuple[int, ...]
) -> Iterator[Axis]:
    """Tooth counts: each alone, both ends together, and teeth given from one end to the other."""
    span = np.arange(kind.least, kind.most + 1)

    def put(places: tuple[int, ...]) -> Axis:
        def write(k: int) -> list[int]:
            return [int(span[k]) if i in places else one for i, one in enumerate(value)]

        return _ordered(dotted, span, value[places[0]], write)

    last = len(value) - 1
    yield put((0, last))
    for place in range(1, last):
        yield put((place,))
    yield put((0,))
    yield put((last,))
    total = value[0] + value[last]
    firsts = np.arange(max(kind.least, total - kind.most), min(kind.most, total - kind.least) + 1)
    yield _ordered(
        dotted, firsts, value[0], lambda k: [int(firsts[k]), *value[1:last], int(total - firsts[k])]
    )


def _shifts(
    design: Design, dotted: str, kind: NumbersKind, value: tuple[float, ...]
) -> Iterator[Axis]:
    """Profile shifts: all alike, or one of them."""
    path = getattr(design.paths, dotted.split(".")[1])
    value = value or (0.0,) * len(path.tooth_counts)
    limits = Span.read(kind.span)
    steps = np.arange(round(limits.least / _SHIFT_STEP), round(limits.most / _SHIFT_STEP) + 1)
    sizes = np.round(steps * _SHIFT_STEP, 4)
    everyone = tuple(range(len(value)))
    for places in (everyone, *((k,) for k in everyone)):

        def write(k: int, places: tuple[int, ...] = places) -> list[float]:
            return [float(sizes[k]) if i in places else one for i, one in enumerate(value)]

        yield _ordered(dotted, sizes, value[places[0]], write)


def _listed_sizes(
    design: Design, dotted: str, kind: QuantitiesKind, value: tuple[float, ...]
) -> Iterator[Axis]:
    """Lengths in a list: one of them at a time."""
    one_kind = QuantityKind(kind.meaning, "", kind.span)
    sizes, write_one = _sizes(dotted, one_kind, design.show_units)
    for place in range(len(value)):

        def write(k: int, place: int = place) -> list[str]:
            return [
                write_one(float(sizes[k]) if i == place else one) for i, one in enumerate(value)
            ]

        yield _ordered(dotted, sizes, value[place], write)


def _sizes(
    dotted: str, kind: QuantityKind, system: str
) -> tuple[np.ndarray, Callable[[float], str]]:
    """Settable sizes of a field as plain numbers, and how one of them is written in a file."""
    limits = Span.read(kind.span)
    inch = system == "inch"
    if kind.reciprocal:
        return _modules(limits, inch)
    if dotted in _IN_STOCK:
        sizes = table(_IN_STOCK[dotted]).only("series", system).column("diameter")
        sizes = np.sort(sizes[[bool(limits.holds(one)) for one in sizes]])
    else:
        _, scale = _own_unit(limits.unit, system)
        step = _FINE.get(dotted, _STEPS.get(limits.unit, (1.0, 1.0)))[inch] * scale
        low, high = max(limits.above, limits.least), min(limits.below, limits.most)
        step *= max(1, math.ceil((high - low) / step / _LONGEST))
        sizes = np.arange(math.ceil(low / step), math.floor(high / step) + 1) * step
        inside = limits.holds(np.asarray(sizes, float))
        sizes = np.round(sizes[np.asarray(inside)], 6)

    def write(size: float) -> str:
        return _written(size, limits.unit, system)

    return sizes, write


def _own_unit(unit: str, system: str) -> tuple[str, float]:
    """Unit in which this maker sets what a field declares in another, and how much of that it is."""
    return _TWINS.get(unit, (unit, 1.0)) if system == "inch" else (unit, 1.0)


def _written(size: float, unit: str, system: str) -> str:
    own, scale = _own_unit(unit, system)
    number = size / scale
    sixty_fourths = round(number * 64)
    if own == "in" and abs(sixty_fourths / 64 - number) < 1e-6:
        whole, rest = divmod(Fraction(sixty_fourths, 64), 1)
        return " ".join(
            [*([str(whole)] if whole or not rest else []), *([str(rest)] if rest else []), own]
        )
    return f"{round(number, 6):.10g} {own.replace('**', '^')}"


def _modules(limits: Span, inch: bool) -> tuple[np.ndarray, Callable[[float], str]]:
    if inch:
        pitches = sorted(table("diametral_pitches").column("pitch"), reverse=True)
        by_size = {25.4 / one: f"{one:g} / in" for one in pitches}
        return np.array(list(by_size)), lambda size: by_size[size]
    sizes = np.sort(table("modules").column("module"))
    sizes = sizes[[bool(limits.holds(one)) for one in sizes]]
    return sizes, lambda size: f"{size:g} mm"


def _exact(kind: QuantityKind, value: float, now: float, system: str) -> list[str]:
    """Write a number as it is, to a hundredth of a millimetre or a thousandth of an inch, both ways."""
    own, scale = _own_unit(Span.read(kind.span).unit, system)
    grid = 1000 if own == "in" else 100
    up, down = math.ceil(value / scale * grid - 1e-6), math.floor(value / scale * grid + 1e-6)
    both = (up, down) if value > now else (down, up)
    return [f"{one / grid:.10g} {own.replace('**', '^')}" for one in dict.fromkeys(both)]


_MAKERS: tuple[tuple[type[Kind] | tuple[type[Kind], ...], Callable[..., Iterable[Axis]]], ...] = (
    ((WordsKind, YesNoKind), _named),
    (WholeKind, _one_count),
    (WholesKind, _counts),
    (NumbersKind, _shifts),
    (QuantitiesKind, _listed_sizes),
    (PlacesKind, _left_out),
    (QuantityKind, _one_size),
    (NumberKind, _one_number),
)
"""How the axes of a field are made, by its kind."""
