"""Knobs: one live control for one field of a design, in the units the maker reads."""

from __future__ import annotations

import re
from collections.abc import Callable
from dataclasses import dataclass
from math import ceil, floor, isfinite, log10
from typing import Any

import ipywidgets as widgets

from mixerkit.design import LISTED, Design
from mixerkit.fields import Kind
from mixerkit.fields.kinds import NumberKind, QuantityKind, WordsKind, YesNoKind
from mixerkit.fields.knobs import knob_range, knob_unit
from mixerkit.fields.lists import WholesKind
from mixerkit.tables import table
from mixerkit.units import Span, shown_scale

__all__ = ["POWER", "RATIO", "WATER", "Knob", "make_control"]

_LAYOUT = {"width": "430px"}
_STYLE = {"description_width": "205px"}


@dataclass(frozen=True)
class Knob:
    """Which field a control turns, and how far.

    Attributes
    ----------
    field : str
        Dotted name, such as ``"motor.rated_power"``; ``"paths.idler.tooth_counts[1]"`` for one
        number of a list.
    label : str
        What the maker calls it.
    low, high : float
        Range in the field's metric unit.
    """

    field: str
    label: str
    low: float = 0.0
    high: float = 1.0

    def split(self) -> tuple[str, int | None]:
        """Dotted name of the field, and the place in its list if there is one."""
        found = re.fullmatch(r"(.*)\[(\d+)\]", self.field)
        return (found[1], int(found[2])) if found else (self.field, None)


@dataclass(frozen=True)
class Control:
    """A widget and the two ways between it and a design's field."""

    widget: Any
    read: Callable[[], Any]
    put: Callable[[Design], None]


def make_control(knob: Knob, design: Design) -> Control:
    """Make the control of a knob, standing where the design has it.

    Parameters
    ----------
    knob : Knob
    design : Design

    Returns
    -------
    Control
    """
    dotted, place = knob.split()
    _, _, kind = design.field(dotted)
    if isinstance(kind, WordsKind):
        options = kind.options or tuple(row.values["name"] for row in table(LISTED[dotted]))
        return _choices(knob, design, options)
    if isinstance(kind, QuantityKind) and kind.reciprocal:
        return _modules(knob, design)
    if isinstance(kind, YesNoKind):
        box = widgets.Checkbox(description=knob.label, indent=True, layout=_LAYOUT, style=_STYLE)
        return _bound(box, lambda: box.value, lambda new: _value(new, dotted), design)
    if isinstance(kind, (QuantityKind, NumberKind)):
        return _slider(knob, design, kind)
    return _counter(knob, design, kind, place)


def _value(design: Design, dotted: str) -> Any:
    record, name, _ = design.field(dotted)
    return getattr(record, name)


def _bound(
    widget: Any, read: Callable[[], Any], of: Callable[[Design], Any], design: Design
) -> Control:
    def put(new: Design) -> None:
        value = of(new)
        if hasattr(widget, "max"):
            # a value outside the range widens it: the file is right, the knob is a convenience
            widget.max, widget.min = max(widget.max, value), min(widget.min, value)
        widget.value = value

    put(design)
    return Control(widget, read, put)


def _choices(knob: Knob, design: Design, options: tuple[str, ...]) -> Control:
    few = sum(map(len, options)) < 30
    maker = widgets.ToggleButtons if few else widgets.Dropdown
    width = 8 * max(map(len, options)) + 24
    style = dict(_STYLE, button_width=f"{width}px") if few else _STYLE
    box = maker(options=options, description=knob.label, layout=_LAYOUT, style=style)
    return _bound(box, lambda: box.value, lambda new: _value(new, knob.field), design)


def _modules(knob: Knob, design: Design) -> Control:
    """Pick a preferred module, or a diametral pitch for a maker who thinks in inches."""
    if design.show_units == "metric":
        sizes = {f"{size:g} mm": size for size in table("modules").column("module")}
    else:
        pitches = table("diametral_pitches").column("pitch")
        sizes = {f"{pitch:g} / in": 25.4 / pitch for pitch in pitches}
    now = _plain(design, knob.field)
    if not any(abs(size - now) < 1e-9 for size in sizes.values()):
        sizes[f"{now:g} mm"] = now
    names = sorted(sizes, key=lambda name: sizes[name])
    slider = widgets.SelectionSlider(
        options=names, description=knob.label, layout=_LAYOUT, style=_STYLE
    )

    def nearest_name(new: Design) -> str:
        return min(names, key=lambda name: abs(sizes[name] - _plain(new, knob.field)))

    return _bound(slider, lambda: slider.value, nearest_name, design)


def _plain(design: Design, dotted: str) -> Any:
    value = design
    for part in dotted.split("."):
        value = getattr(value, part)
    return value


def _slider(knob: Knob, design: Design, kind: QuantityKind | NumberKind) -> Control:
    unit = knob_unit(kind, design.show_units)
    metric = Span.read(kind.span).unit
    factor, label_unit = shown_scale(metric, design.show_units)
    step = _step((knob.high - knob.low) * factor)
    decimals = max(0, -floor(log10(step)))
    least, most = knob_range(kind)
    low = max(
        floor(knob.low * factor / step), ceil(least * factor / step) if isfinite(least) else -1e9
    )
    high = min(knob.high * factor, most * factor)
    label = f"{knob.label} ({label_unit})" if unit else knob.label
    slider = widgets.FloatSlider(
        min=low * step,
        max=max(high, low * step + step),
        step=step,
        description=label,
        readout_format=f".{decimals}f",
        layout=_LAYOUT,
        style=_STYLE,
    )

    def read() -> Any:
        # ten digits take off the binary dust of the slider's steps, so the file stays readable
        return f"{slider.value:.10g} {unit}" if unit else float(f"{slider.value:.10g}")

    def of(new: Design) -> float:
        value: float = round(_plain(new, knob.field) * factor, 10)
        # a slider in the browser snaps to its steps and would change the design by being shown
        slider.step = fitting_step(slider.min, value, step)
        return value

    return _bound(slider, read, of, design)


def fitting_step(low: float, value: float, coarsest: float) -> float:
    """Find the coarsest round step, from ``coarsest`` down, that takes a slider from low to a value.

    Examples
    --------
    >>> fitting_step(1.0, 4.4, 0.5), fitting_step(700, 1440, 50), fitting_step(0.0, 1.375, 0.02)
    (0.2, 20.0, 0.005)
    """
    power = floor(log10(coarsest))
    for exponent in range(power, power - 8, -1):
        for nice in (5, 2, 1):
            step = round(nice * 10.0**exponent, 12)
            steps = (value - low) / step
            if step <= coarsest * 1.001 and abs(steps - round(steps)) < 1e-6:
                return step
    return 10.0 ** (power - 8)


def _step(span: float) -> float:
    """A round step that divides a range into about a hundred."""
    raw = span / 100
    power = 10.0 ** floor(log10(raw))
    return next(power * nice for nice in (1, 2, 5, 10) if power * nice >= raw * 0.999)


def _counter(knob: Knob, design: Design, kind: Kind, place: int | None) -> Control:
    least, most = knob_range(kind)
    slider = widgets.IntSlider(
        min=max(int(knob.low), int(least)),
        max=min(int(knob.high), int(most)),
        description=knob.label,
        layout=_LAYOUT,
        style=_STYLE,
    )
    dotted, _ = knob.split()

    def of(new: Design) -> int:
        value = _value(new, dotted)
        return int(value[place] if isinstance(kind, WholesKind) else value)

    return _bound(slider, lambda: slider.value, of, design)


WATER = Knob("clay.water_content", "Water content", 0.15, 0.45)
POWER = Knob("motor.rated_power", "Motor power", 0.37, 5.5)
RATIO = Knob("reducer.ratio", "Reduction", 20, 120)
"""Knobs that several stages turn."""
