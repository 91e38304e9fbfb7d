"""Sizes of a draft that follow from others: where gears stand, what goes over the shafts, how far apart walls are.

They are worked out anew whenever what they hang on is changed, so that a wider gear finds its room by itself.
"""

from __future__ import annotations

from collections.abc import Callable
from math import ceil, pi

from mixerkit.design import Design
from mixerkit.fields.kinds import QuantityKind
from mixerkit.parts import zones
from mixerkit.parts.along import NAMES
from mixerkit.parts.remedies import lengths
from mixerkit.parts.retainers import retainer
from mixerkit.spec import Spec
from mixerkit.tables import table
from mixerkit.units import Span

__all__ = ["exact", "followed", "following"]

_SLIDE = 0.2
"""Play of a sleeve over its shaft on the radius in mm (common practice)."""
_BESIDE = 15.0
"""From the plate at the box to the first gear in mm: ring, spacer and room (common practice)."""
_LAST = 20.0
"""From the last gear to the plate at the trough in mm, likewise."""
_NEUTRAL = 2.0
"""Gap each side of the clutch in neutral in mm (common practice)."""
_SHEAR = 0.75
"""Shear strength of a pin's steel over its tensile strength (common practice), until a pin is broken."""


def _of(size: float, system: str, up: bool = True) -> float:
    """A length made one that is set: whole millimetres, or sixteenths of an inch."""
    step = 25.4 / 16 if system == "inch" else 1.0
    steps = size / step
    return (ceil(steps - 1e-6) if up else int(steps + 1e-6)) * step


def following(spec: Spec) -> dict[str, tuple[object, str]]:
    """Work out what follows from the rest of a design.

    Parameters
    ----------
    spec : Spec

    Returns
    -------
    dict of str to tuple
        Field; its value in the unit that it declares, or as it stands in a file; and the reason in a few words.
    """
    return {
        **_bars_and_plates(spec),
        **_over_the_shafts(spec),
        **_along_the_gears(spec),
        **_along_the_trough(spec),
        **_pins(spec),
    }


def _bars_and_plates(spec: Spec) -> dict[str, tuple[object, str]]:
    """One bar for both shafts, and walls as thick as the bearings in them are wide, no more: rings sit beside both."""
    thick = max(spec.shaft_1.diameter, spec.shaft_2.diameter)
    bar = "one bar for both shafts, so that rings stand beside plates that suit both bearings"
    found: dict[str, tuple[object, str]] = {}
    if not (spec.shaft_1.step_at or spec.shaft_2.step_at):
        found = {f"shaft_{number}.diameter": (thick, bar) for number in (1, 2)}
    if spec.bearings.kind != "rolling":
        return found
    for field, names in (
        ("housing.plate_thickness", NAMES[:2]),
        ("frame.wall_thickness", NAMES[2:]),
    ):
        rows = [zones.bearing_on(spec, number, name) for number in (1, 2) for name in names]
        wide = max((float(row["width"]) for row in rows if row), default=0.0)
        if wide:
            found[field] = (_of(wide, spec.show_units), "as thick as its bearings are wide")
    return found


def _over_the_shafts(spec: Spec) -> dict[str, tuple[object, str]]:
    system, sleeve = spec.show_units, spec.sleeve
    shaft = max(spec.shaft_1.diameter, spec.shaft_2.diameter)
    over = shaft / 2 + _SLIDE
    _, outside = _held(spec, 0)
    beyond = spec.housing.plate_thickness + max(0.55 * spec.shaft_1.diameter, outside)
    found: dict[str, tuple[object, str]] = {
        "reducer.overhang": (
            _of(spec.hubs.box_length / 2 + beyond, system),
            "as near to the plate as the box's hollow shaft and a ring beside the bearing let it stand",
        )
    }
    if len(spec.shaft_1.step_at) == 1 and spec.shaft_1.step_at[0] < 0:
        # an end turned down for its box reaches to the end of the hollow shaft, wherever that now stands
        end = spec.hubs.box_length / 2 - _of(spec.hubs.box_length / 2 + beyond, system)
        found["shaft_1.step_at"] = ((end,), "the end in the box, as long as its hollow shaft")
    if sleeve.kind != "none":
        root = _of(over + sleeve.wall - 0.05, system)
        found["paddles.root_radius"] = (
            root,
            "outside of the sleeve, on which the paddles are welded",
        )
    return found


def _along_the_gears(spec: Spec) -> dict[str, tuple[object, str]]:
    system, clutch, paths = spec.show_units, spec.clutch, spec.paths
    direct, idler = paths.direct.face_width, paths.idler.face_width
    between = clutch.sleeve_length + 2 * clutch.dog_height + 2 * _NEUTRAL
    first = _of(max(_BESIDE, _held(spec, 0)[0]) + direct / 2, system)
    second = _of(first + direct / 2 + between + idler / 2, system)
    second_end = max(idler, spec.bearings.idler_length) / 2
    apart = _of(second + second_end + max(_LAST, _held(spec, 1)[0]), system)
    least = min(direct, idler)
    return {
        "paths.direct.position": (first, "room for ring and spacer between plate and gear"),
        "paths.idler.position": (second, "the clutch finds its room between both gears"),
        "housing.plate_spacing": (
            apart,
            "both gears, the clutch between them, and room at the plates",
        ),
        "hubs.gear_length": (_of(least, system, up=False), "as long as the gear is wide"),
        "bearings.free_gear_length": (_of(least, system, up=False), "as long as the gear is wide"),
        "bearings.idler_length": (_of(idler, system, up=False), "as long as the idler is wide"),
    }


def _along_the_trough(spec: Spec) -> dict[str, tuple[object, str]]:
    system = spec.show_units
    seal = table("seals").find(spec.bearings.seal).values["length"]
    # the plate that holds outer rings stands there too, with the heads of its screws or without
    held = max(_held(spec, 1)[1], _held(spec, 2)[0])
    ends = spec.trough.wall_thickness + max(seal + spec.bearings.drain_gap, held)
    bush = spec.bearings.bush_length if spec.bearings.kind == "plain bush" else 0.0
    half = (
        max(spec.housing.plate_thickness, spec.frame.wall_thickness, spec.frame.boss_length, bush)
        / 2
    )
    span = _of(spec.trough.length + 2 * (ends + half) + 2, system)
    return {
        "bearings.span": (
            span,
            "trough, seals, and a gap before each bearing where water drips off",
        ),
        "paddles.offset_2": (
            spec.paddles.spacing / 2,
            "paddles of shaft 2 pass between those of shaft 1",
        ),
    }


def _held(spec: Spec, place: int) -> tuple[float, float]:
    """Room in mm that plates holding outer rings take up along the shafts at a bearing, inside and outside."""
    one = retainer(spec)
    return one.rooms if one and one.place == place else (0.0, 0.0)


def _pins(spec: Spec) -> dict[str, tuple[object, str]]:
    fuse = spec.fuse
    if fuse.kind != "shear pin" or fuse.pin_condition != "tested":
        return {}
    steel = table("materials").find(fuse.pin_material).values["tensile_strength"]
    area = pi * fuse.pin_diameter**2 / 4 * fuse.pins * fuse.planes
    middle = _SHEAR * steel * area * fuse.pin_radius / 1e3 / fuse.pins
    torque = middle * (1 - fuse.scatter)
    reason = "expected of the weakest of its bar; break one pin of the bar on purpose and write in what it took"
    return {
        "fuse.test_torque": (round(torque, 1), reason),
        "fuse.test_pin_diameter": (fuse.pin_diameter, "the neck that was broken"),
        "fuse.test_pin_radius": (fuse.pin_radius, "where it stood"),
    }


def followed(design: Design, may: Callable[[str], bool], before: Design | None = None) -> Design:
    """Give a design with what follows from the rest worked out anew.

    Parameters
    ----------
    design : Design
    may : callable
        Whether a field, by its dotted name, may be changed.
    before : Design, optional
        The design before a change: then only what the change moves is worked out anew, and a size that stands
        otherwise than it follows, as a maker may want it, stays.

    Returns
    -------
    Design

    Raises
    ------
    InputError
        If the design refuses what follows.
    """
    still = following(before) if before else {}
    for _ in range(2):
        changed: dict[str, object] = {}
        for dotted, (value, _why) in following(design).items():
            if not may(dotted) or (dotted in still and still[dotted][0] == value):
                continue
            record, name, kind = design.field(dotted)
            now = getattr(record, name)
            if isinstance(kind, QuantityKind) and isinstance(value, (int, float)):
                if now is not None and abs(float(now) - value) < 1e-6:
                    continue
                unit = Span.read(kind.span).unit
                changed[dotted] = exact(float(value), unit, design.show_units)
            elif isinstance(value, tuple) and abs(now[0] - value[0]) > 1e-6:
                changed[dotted] = lengths(list(value), design.show_units)
        if not changed:
            return design
        design = design.with_values(changed)
    return design


def exact(value: float, unit: str, system: str) -> str:
    """Write what follows from other sizes as it is: to a hundredth of a millimetre, or in inches.

    Examples
    --------
    >>> exact(101.6, "mm", "inch"), exact(35.004, "mm", "metric")
    ('4 in', '35 mm')
    """
    if unit != "mm":
        return f"{value:.6g} {unit}"
    return f"{round(value / 25.4, 4):.10g} in" if system == "inch" else f"{round(value, 2):.10g} mm"
