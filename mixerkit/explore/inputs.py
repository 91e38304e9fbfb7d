"""What is not known for certain of a design: each fact and practice with the range that it may lie in.

Ranges stand in data/tables/input_ranges.csv, those that the design states itself in its ``[ranges]``. A value that
was drafted and not confirmed has the wider range of what is assumed.
"""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass
from typing import TypeVar

from mixerkit.design import Design
from mixerkit.explore.draft.assumed import assumed
from mixerkit.explore.uncertainty import FACTORS, ranges_of
from mixerkit.fields import Record
from mixerkit.fields.kinds import NumberKind, QuantityKind
from mixerkit.fields.told import apart
from mixerkit.load import clay
from mixerkit.machine import Machine
from mixerkit.spec import Clay
from mixerkit.tables import Row, table
from mixerkit.units import Q_, InputError, Span

__all__ = ["METALS", "STRENGTH", "Input", "ends", "has_range", "inputs", "put", "typed"]

METALS = "strength of metals"
"""Input of all checks whose capacity is a stress; no field of the design holds it."""
STRENGTH = "clay strength"
"""Input that is moved by what the test of the clay read."""
_STATED = {
    "batch.mass": "batch and fill",
    "clay.start_factor": "start factor",
    "reducer.efficiency": "box efficiency",
    "supply.voltage": "supply voltage",
    STRENGTH: STRENGTH,
}
"""Which of :data:`mixerkit.explore.uncertainty.FACTORS` an input is whose range the design states."""
_FACTORS = ("batch.mass", "supply.voltage")
"""Those of them whose range is a factor on what the field holds."""
_READ = {"cone": "cone_penetration", "rod": "rod_load", "vane": "vane_torque"}
"""What is measured again where the clay's strength is in doubt, by the way that it was found."""

AnyRecord = TypeVar("AnyRecord", bound=Record)


@dataclass(frozen=True)
class Input:
    """One input that may be another than is written.

    Attributes
    ----------
    name : str
        Dotted name of its field, or :data:`METALS` or :data:`STRENGTH`.
    low, high : float
        Ends of its range, in the unit that the field declares, or a factor for the two others.
    written : float
        What the design has, or 1.
    fill_in : str
        Field to write a better value into; empty where there is none.
    """

    name: str
    low: float
    high: float
    written: float
    fill_in: str

    def at(self, place: float) -> float:
        """Value at a place between 0 and 1; clay strength is spread evenly in its logarithm."""
        if self.name == STRENGTH:
            return float(self.low * (self.high / self.low) ** place)
        return self.low + (self.high - self.low) * place


def inputs(design: Design) -> tuple[Input, ...]:
    """Give every input that is drawn for a design, in the order of the table.

    Sizes of what is bought another time (bores, shaft ends) are not drawn: another size is another box, and
    :func:`ends` gives how far it may be off. Nor are words such as a kind of gearing, nor choices.

    Parameters
    ----------
    design : Design

    Returns
    -------
    tuple of Input

    Examples
    --------
    >>> {one.name: one.fill_in for one in inputs(Design.demo())}["clay strength"]
    'clay.cone_penetration'
    """
    open_ones = set(assumed(design))
    # what was drafted is judged anew with every value that is tried, and is the same in all of them
    design = design.with_values({"drafted": {}})
    # what a converter gives its motor does not go with the socket's voltage
    left_out = {"supply.voltage"} if design.motor.fed_by == "frequency converter" else set()
    drawn = [
        _input(design, row, row.values["name"] in open_ones)
        for row in table("input_ranges")
        if row.values["by"] not in ("fixed", "bought") and row.values["name"] not in left_out
    ]
    return tuple(one for one in drawn if one and one.high > one.low)


def ends(design: Design, dotted: str) -> tuple[float, float] | None:
    """Give the range of one field that was assumed, in the unit that it declares.

    Parameters
    ----------
    design : Design
    dotted : str

    Returns
    -------
    tuple of float, or None
        None where it has none, as a kind of gearing or a count.

    Examples
    --------
    >>> ends(Design.demo(), "reducer.output_bore")
    (48.0, 75.0)
    >>> ends(Design.demo(), "reducer.kind") is None
    True
    """
    row = next((one for one in table("input_ranges") if one.values["name"] == dotted), None)
    one = row and _input(design, row, among_assumed=True)
    return (one.low, one.high) if one and one.high > one.low else None


def has_range(dotted: str) -> bool:
    """Whether the table has a range for a field; a kind of gearing, a count or a nominal value has none.

    Examples
    --------
    >>> has_range("reducer.output_bore"), has_range("motor.poles"), has_range("motor.kind")
    (True, False, False)
    """
    return any(
        row.values["name"] == dotted and row.values["by"] != "fixed"
        for row in table("input_ranges")
    )


def _input(design: Design, row: Row, among_assumed: bool) -> Input | None:
    """The input of a row of the table; none where the design says nothing of it."""
    name, by = row.values["name"], row.values["by"]
    if by == "fixed":
        return None
    if name in (METALS, STRENGTH):
        span = _stated(design, name, 1.0) if name == STRENGTH else None
        low, high = span or (row.values["low"], row.values["high"])
        read = _READ.get(design.clay.strength_from, "strength_from")
        return Input(name, low, high, 1.0, f"clay.{read}" if name == STRENGTH else "")
    record, field, _ = design.field(name)
    now = getattr(record, field)
    if now is None:
        return None
    if by == "ranges":
        low, high = _stated(design, name, now)
    else:
        low, high = _by_table(row, now, among_assumed)
    return Input(name, _taken(design, name, now, low), _taken(design, name, now, high), now, name)


def _by_table(row: Row, now: float, among_assumed: bool) -> tuple[float, float]:
    values = row.values
    wide = among_assumed and values["assumed_low"] is not None
    low, high = (values[f"assumed_{end}" if wide else end] for end in ("low", "high"))
    if low is None:
        return now, now
    return (now + low, now + high) if values["by"] == "difference" else (now * low, now * high)


def _stated(design: Design, name: str, now: float) -> tuple[float, float]:
    """Range by ``[ranges]`` of the design; what is written lies in it always."""
    if name == "clay.water_content":
        spread = design.ranges.water_spread
        return now - spread, now + spread
    low, high = ranges_of(Machine(design))[FACTORS.index(_STATED[name])].tolist()
    if name in _FACTORS:
        return low * now, high * now
    return min(low, now), max(high, now)


def _taken(design: Design, name: str, now: float, end: float) -> float:
    """The end of a range, or as near to it as the design takes."""
    _, _, kind = design.field(name)
    if isinstance(kind, (QuantityKind, NumberKind)):
        span = Span.read(kind.span)
        end = max(min(end, span.most), span.least)
    for _ in range(6):
        try:
            design.with_values({name: typed(design, name, end)})
        except InputError:
            end = now + (end - now) / 2
        else:
            return end
    return now


def typed(design: Design, dotted: str, value: float) -> object:
    """Write a value as it stands in a design file, in the unit that the field was written in, to five digits.

    Parameters
    ----------
    design : Design
    dotted : str
    value : float
        In the unit that the field declares.

    Returns
    -------
    object

    Examples
    --------
    >>> typed(Design.demo(), "reducer.output_bore", 62.5)
    '62.5 mm'
    """
    record, field, kind = design.field(dotted)
    if not isinstance(kind, QuantityKind):
        return float(f"{value:.5g}")
    own = Q_(value, Span.read(kind.span).unit).to(record.given(field).units)
    return kind.write(float(f"{own.magnitude:.5g}") * own.units)


def put(design: Design, values: Mapping[str, float]) -> Design:
    """Give a design with inputs at other values, which are not read again; see :class:`Input`.

    A heavier batch comes in a bag that is as much larger, as no bag holds more than its sides do. The strength of clay
    goes by what its test read. A lower voltage is felt by the torques of a motor that no
    converter feeds, with its square, as in :mod:`mixerkit.explore.uncertainty`; the socket stays as it is marked.

    Parameters
    ----------
    design : Design
    values : mapping of str to float
        By the names of inputs; :data:`METALS` is no part of the design and left out.

    Returns
    -------
    Design
    """
    special = (METALS, STRENGTH, "supply.voltage")
    plain = {name: one for name, one in values.items() if name not in special}
    if "batch.mass" in plain:
        grown = (plain["batch.mass"] / design.batch.mass) ** (1 / 3)
        for side in ("batch.bag_length", "batch.bag_width", "batch.bag_height"):
            plain[side] = plain.get(side, getattr(design.batch, side.split(".")[1])) * grown
    changed = _with_numbers(design, plain)
    if STRENGTH in values:
        changed = changed.with_numbers(clay=_stronger(changed.clay, values[STRENGTH]))
    if "supply.voltage" in values and design.motor.fed_by != "frequency converter":
        share = (values["supply.voltage"] / design.supply.voltage) ** 2
        motor = changed.motor
        weaker = motor.with_numbers(
            start_torque_ratio=motor.start_torque_ratio * share,
            pull_up_torque_ratio=motor.pull_up_torque_ratio * share,
            breakdown_torque_ratio=max(motor.breakdown_torque_ratio * share, 1.001),
        )
        changed = changed.with_numbers(motor=weaker)
    return changed


def _stronger(one: Clay, factor: float) -> Clay:
    """Clay of so many times the strength, by what its test would have read.

    Where no test stands (water, a named body) it is that of a cone, as quick as the falling cone that both rest on.
    """
    if one.strength_from in ("rod", "vane"):
        name = _READ[one.strength_from]
        return one.with_numbers(**{name: getattr(one, name) * factor})
    wanted = clay.clay_strength(one).strength * factor
    by_cone = one.with_numbers(strength_from="cone")
    deep = by_cone.cone_penetration * math.sqrt(clay.clay_strength(by_cone).strength / wanted)
    return by_cone.with_numbers(cone_penetration=deep)


def _with_numbers(record: AnyRecord, values: Mapping[str, float]) -> AnyRecord:
    """Copy a record with numbers put in by dotted name."""
    own, inner = apart(values)
    records = {name: _with_numbers(getattr(record, name), below) for name, below in inner.items()}
    return record.with_numbers(**own, **records)
