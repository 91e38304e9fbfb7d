"""What gives first in a jam: shear pins and torque limiters, at which torque, and how to make them weaker."""

from __future__ import annotations

from math import pi

import numpy as np

from mixerkit.drive.pinsteel import pin_steel, tested
from mixerkit.parts import shaft
from mixerkit.results import Numbers
from mixerkit.spec import Spec
from mixerkit.tables import table
from mixerkit.units import in_units

__all__ = [
    "fuse_spread",
    "fuse_torques",
    "least_straight",
    "pin_for_torque",
    "pin_torques",
    "pins_yield",
    "pins_yield_strength",
    "scaled_test",
    "shear_pin_torque",
    "weaker_fuse",
]

SHEAR_OVER_TENSILE = 0.8
"""Shear over tensile strength of a steel pin when it is sheared off (common practice 0.75 to 0.82)."""
SHEARS = (0.75, 0.82)
"""Least and most of that share, for what a test can be believed by (common practice)."""
PINS_TOGETHER = 2 / 3
"""Share of several shear pins that carries at first, for the least torque (common practice)."""


@in_units("N*m", pin="mm > 0", radius="mm > 0", tensile_strength="MPa > 0")
def shear_pin_torque(
    pin: Numbers, radius: Numbers, tensile_strength: Numbers, pins: int = 1, planes: int = 1
) -> Numbers:
    r"""Torque at which shear pins break.

    .. math:: T = n\,m\,\frac{\pi d^2}{4}\, 0.8\,R_m\, r

    Parameters
    ----------
    pin, radius : quantity, any shape
        Diameter where it shears, and its distance from the shaft's middle.
    tensile_strength : quantity, broadcast
    pins, planes : int
        Pins, and planes in which each shears.

    Returns
    -------
    quantity [N*m], the broadcast shape

    References
    ----------
    Area times shear strength times lever; shear strength 0.8 of tensile: common practice.

    Examples
    --------
    >>> round(shear_pin_torque("6 mm", "60 mm", "360 MPa"), 1)
    <Quantity(488.6, 'newton * meter')>
    """
    area = pi * np.asarray(pin, float) ** 2 / 4
    return (pins * planes * area * SHEAR_OVER_TENSILE * tensile_strength * radius / 1e3)[()]


@in_units("mm", torque="N*m > 0", radius="mm > 0", tensile_strength="MPa > 0")
def pin_for_torque(
    torque: Numbers, radius: Numbers, tensile_strength: Numbers, pins: int = 1, planes: int = 1
) -> Numbers:
    r"""Diameter at which shear pins break at a torque; :func:`shear_pin_torque` solved for it.

    Parameters
    ----------
    torque : quantity, any shape
    radius, tensile_strength, pins, planes
        As in :func:`shear_pin_torque`.

    Returns
    -------
    quantity [mm], the broadcast shape

    References
    ----------
    As :func:`shear_pin_torque`.

    Examples
    --------
    >>> round(pin_for_torque("488.6 N*m", "60 mm", "360 MPa"), 2)
    <Quantity(6.0, 'millimeter')>
    """
    return np.sqrt(torque / shear_pin_torque.formula(1.0, radius, tensile_strength, pins, planes))


@in_units(
    "N*m",
    torque="N*m > 0",
    test_pin="mm > 0",
    test_radius="mm > 0",
    pin="mm > 0",
    radius="mm > 0",
)
def scaled_test(
    torque: Numbers,
    test_pin: Numbers,
    test_radius: Numbers,
    pin: Numbers,
    radius: Numbers,
    pins: int = 1,
) -> Numbers:
    r"""Torque at which pins of a tested bar break, from one of them broken on purpose.

    .. math:: T = n\,T_t\,\frac{d^2\,r}{d_t^2\,r_t}

    Parameters
    ----------
    torque : quantity, any shape
        At which the one broke, sheared in as many planes.
    test_pin, test_radius : quantity, broadcast
        Its neck, and its distance from the shaft's middle.
    pin, radius : quantity, broadcast
        Of the pins asked for.
    pins : int

    Returns
    -------
    quantity [N*m], the broadcast shape

    References
    ----------
    Of one steel, by area and lever, as :func:`shear_pin_torque`.

    Examples
    --------
    >>> round(scaled_test("630 N*m", "6 mm", "60 mm", "6.3 mm", "60 mm"), 1)
    <Quantity(694.6, 'newton * meter')>
    """
    area = np.square(pin) / np.square(test_pin)
    return (pins * torque * area * radius / test_radius)[()]


def pin_torques(spec: Spec) -> tuple[float, float]:
    """Least and most torque in N*m at which the design's shear pins break, whether they are its fuse or not.

    Pins of which nothing is known break at nothing, and let everything through. Bounds of an untested
    steel are the extremes of its delivery, so that no scatter comes on top of them. Pins of a tested bar
    break within its scatter of a middle that one test does not tell: the one broken may stand at either end.
    """
    one = spec.fuse
    # in drilled holes several pins do not touch together, and may break one after another
    first = PINS_TOGETHER if one.pins > 1 else 1.0
    if one.pin_condition == "tested":
        broken = tested(spec)
        if broken is None:
            return 0.0, np.inf
        as_tested = float(scaled_test.formula(*broken, one.pin_diameter, one.pin_radius, one.pins))
        # the one broken may have been the strongest of its bar, or the weakest
        apart = (1 + one.scatter) / (1 - one.scatter)
        return first * as_tested / apart, as_tested * apart
    steel = pin_steel(spec)
    if steel is None:
        return 0.0, np.inf
    low, high = (
        float(
            shear_pin_torque.formula(
                one.pin_diameter, one.pin_radius, strength, one.pins, one.planes
            )
        )
        for strength in (steel.low, steel.high)
    )
    return first * low, high


def fuse_torques(spec: Spec) -> tuple[float, float]:
    """Least and most torque in N*m at which the design's fuse gives; infinite where it has none."""
    one = spec.fuse
    if one.kind == "none":
        return np.inf, np.inf
    if one.kind == "torque limiter":
        return one.setting * (1 - one.scatter), one.setting * (1 + one.scatter)
    return pin_torques(spec)


def fuse_spread(spec: Spec, kind: str) -> float:
    """How far a shear pin or a limiter may give either way of the middle of its bounds, as a share of that.

    Pins of which nothing is known have no bounds: the scatter stands in.
    """
    low, high = pin_torques(spec)
    if kind != "shear pin" or not np.isfinite(high):
        return spec.fuse.scatter
    return (high - low) / (high + low)


def least_straight(spec: Spec, start: float) -> float:
    """Least middle torque in N*m of the design's shear pins, made thicker, that no start of a torque bends."""
    low, high = pin_torques(spec)
    return start * (low + high) / 2 / pins_yield(spec) if np.isfinite(high) else 0.0


def pins_yield_strength(spec: Spec) -> tuple[float, str]:
    """Least yield strength in MPa of the design's pins, and where it was read.

    A broken pin says how strong the bar is and not where it yields: then that of the steel as it is named.
    """
    one = spec.fuse
    steel = None if one.pin_condition == "tested" else pin_steel(spec)
    if steel is not None:
        return steel.yields, steel.yields_from
    row = table("materials").find(one.pin_material).values
    return row["yield_strength"], f"data/tables/materials.csv, {one.pin_material}: yield strength"


def pins_yield(spec: Spec) -> float:
    """Torque in N*m at which the first of the design's shear pins bends instead of springing back.

    References
    ----------
    Shear yield of tensile yield over the root of three: von Mises. Of several pins a share carries at first.
    """
    one = spec.fuse
    strength = shaft.SHEAR_YIELD * pins_yield_strength(spec)[0] / SHEAR_OVER_TENSILE
    first = PINS_TOGETHER if one.pins > 1 else 1.0
    return first * float(
        shear_pin_torque.formula(one.pin_diameter, one.pin_radius, strength, one.pins, one.planes)
    )


def weaker_fuse(spec: Spec, most: float) -> list[dict[str, str | float]]:
    """Changes of a design's fuse so that it lets through no more than a torque in N*m, likeliest first.

    Examples
    --------
    >>> from mixerkit import Design
    >>> weaker_fuse(Design.demo().with_values({"fuse.kind": "torque limiter"}), 525.0)[0]["fuse.setting"]
    500.0
    """
    one = spec.fuse
    if not most > 0:
        return []
    limiter: dict[str, str | float] = {"fuse.setting": round(float(most) / (1 + one.scatter), 6)}
    if one.kind == "torque limiter":
        return [limiter]
    now = pin_torques(spec)[1]
    # bounds go by the area of the neck, whatever they rest on
    thinner = one.pin_diameter * float(np.sqrt(most / now)) if 0 < now < np.inf else 0.0
    pin: dict[str, str | float] = {"fuse.pin_diameter": thinner}
    if one.kind == "shear pin":
        return [pin] if thinner else []
    instead = [{"fuse.kind": "torque limiter", **limiter}]
    return [{"fuse.kind": "shear pin", **pin}, *instead] if thinner else instead
